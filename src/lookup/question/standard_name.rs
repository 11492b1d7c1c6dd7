//! Names of standards in a question: `DIN 3760` is a kind of part and no length of 3760 mm.

use super::Question;
use crate::part::Family;

/// Bodies whose standards people name.
const BODIES: [&str; 9] = [
    "din", "iso", "en", "ansi", "asme", "abma", "jis", "bs", "sae",
];
/// Standards of one kind of part by their number. Titles as published by DIN, ISO and ASME; from memory.
const OF_FAMILY: [(&str, Family); 34] = [
    ("625", Family::DeepGrooveBall),
    ("628", Family::AngularContactBall),
    ("630", Family::SelfAligningBall),
    ("5412", Family::CylindricalRoller),
    ("720", Family::TaperedRoller),
    ("355", Family::TaperedRoller),
    ("635", Family::SphericalRoller),
    ("617", Family::NeedleRoller),
    ("1206", Family::NeedleRoller),
    ("618", Family::DrawnCupNeedle),
    ("3245", Family::DrawnCupNeedle),
    ("5405", Family::NeedleCage),
    ("3030", Family::NeedleCage),
    ("3031", Family::ThrustNeedle),
    ("711", Family::ThrustBall),
    ("715", Family::ThrustBall),
    ("104", Family::ThrustBall),
    ("5429", Family::CombinedNeedleThrust),
    ("3760", Family::LipSeal),
    ("3761", Family::LipSeal),
    ("6194", Family::LipSeal),
    ("3601", Family::ORing),
    ("3771", Family::ORing),
    ("471", Family::ShaftRetainingRing),
    ("472", Family::BoreRetainingRing),
    ("981", Family::LockNut),
    ("2982", Family::LockNut),
    ("8734", Family::DowelPin),
    ("2338", Family::DowelPin),
    ("6325", Family::DowelPin),
    ("7", Family::DowelPin),
    ("b18.8.2", Family::DowelPin),
    ("b2402", Family::LipSeal),
    ("b2401", Family::ORing),
];

/// Standards of sizes, tolerances and materials of more kinds than one: they name none.
const OF_SIZES: [&str; 12] = [
    "15", "492", "286", "5753", "582", "616", "3290", "623", "620", "281", "76", "1629",
];

/// Takes names of standards out of a text and keeps the family they are of, where none is known yet; gives what is left.
pub(super) fn take(question: &mut Question, text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut left = Vec::with_capacity(words.len());
    let mut at = 0;
    while let Some(word) = words.get(at) {
        let Some((number, end)) = name_at(&words, at) else {
            left.push(*word);
            at += 1;
            continue;
        };
        let family = OF_FAMILY.iter().find(|(known, _)| *known == number);
        question.family = question.family.or(family.map(|(_, family)| *family));
        if family.is_none() && !OF_SIZES.contains(&number.as_str()) {
            // `ISO 8735 8 x 30` is a pin with a thread to pull it by: not what the sizes alone say.
            question.not_understood.push(words[at..end].join(" "));
        }
        at = end;
    }
    left.join(" ")
}

/// Number of the standard whose name begins at a word, and where the name ends: `DIN EN ISO 8734`, `JIS B 2401`, `DIN625-1`.
fn name_at(words: &[&str], at: usize) -> Option<(String, usize)> {
    let lower = |at: usize| words.get(at).map(|word: &&str| word.to_lowercase());
    let is_body = |word: &str| word.split('/').all(|body| BODIES.contains(&body));
    let mut end = at;
    while lower(end).is_some_and(|word| is_body(&word)) {
        end += 1;
    }
    let word = lower(end)?;
    let number = if end == at {
        // `DIN3760` in one.
        let body = BODIES.iter().find(|body| {
            let rest = word.strip_prefix(*body);
            rest.is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()))
        })?;
        word[body.len()..].to_owned()
    } else if word == "b" {
        // Group B of JIS.
        end += 1;
        format!("b{}", lower(end)?)
    } else {
        word
    };
    let digits = number.trim_start_matches('b');
    let is_number = digits.starts_with(|c: char| c.is_ascii_digit())
        && digits
            .chars()
            .all(|c| c.is_ascii_digit() || matches!(c, '-' | '.' | ':'));
    let main = number.split(['-', ':']).next()?.to_owned();
    is_number.then_some((main, end + 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_name_of_a_standard_is_no_figure() {
        for (text, left, family) in [
            (
                "DIN 3760 A 35x52x7 NBR",
                "A 35x52x7 NBR",
                Some(Family::LipSeal),
            ),
            ("35x52x7 DIN3760", "35x52x7", Some(Family::LipSeal)),
            ("DIN EN ISO 8734 8 x 40", "8 x 40", Some(Family::DowelPin)),
            (
                "ring 40 DIN 472",
                "ring 40",
                Some(Family::BoreRetainingRing),
            ),
            ("ISO 3601-1 40 x 3", "40 x 3", Some(Family::ORing)),
            ("JIS B 2401 40 x 3.5", "40 x 3.5", Some(Family::ORing)),
            ("ASME B18.8.2 3/8 x 2", "3/8 x 2", Some(Family::DowelPin)),
            ("ISO 15:2017 40x80x18", "40x80x18", None),
            ("40 x 80 x 18", "40 x 80 x 18", None),
            ("din a4 40", "din a4 40", None),
        ] {
            let mut question = Question::of(text);
            assert_eq!(take(&mut question, text), left, "{text}");
            assert_eq!(question.family, family, "{text}");
            assert_eq!(question.not_understood, Vec::<String>::new(), "{text}");
        }
    }

    #[test]
    fn a_standard_that_is_not_known_here_is_told() {
        // ISO 8735 and DIN 7979 are pins with an internal thread to pull them by.
        for text in ["ISO 8735 8x30", "DIN 7979 8x30", "DIN EN 28735 8x30"] {
            let mut question = Question::of(text);
            assert_eq!(take(&mut question, text), "8x30");
            assert_eq!(question.family, None, "{text}");
            let told = &question.not_understood;
            assert_eq!(told.as_slice(), [text.trim_end_matches(" 8x30")], "{text}");
        }
    }

    #[test]
    fn a_family_that_is_named_stays() {
        let mut question = Question::of("o-ring");
        question.family = Some(Family::ORing);
        assert_eq!(take(&mut question, "DIN 3760 40 x 3"), "40 x 3");
        assert_eq!(question.family, Some(Family::ORing));
    }
}
