//! Names of standards in a question: `DIN 3760` is a kind of part and no length of 3760 mm.

use std::sync::LazyLock;

use super::figure::{is_figure, is_joined, pin_size};
use super::{Question, other_part};
use crate::part::designation::trade_words::Said;
use crate::part::{Family, FitClass, StandardSays, WordMap};

/// Bodies whose standards people name.
const BODIES: [&str; 9] = [
    "din", "iso", "en", "ansi", "asme", "abma", "jis", "bs", "sae",
];
/// Standards of sizes, tolerances and materials of more kinds than one: they name none.
const OF_SIZES: [&str; 12] = [
    "15", "492", "286", "5753", "582", "616", "3290", "623", "620", "281", "76", "1629",
];

/// Families by the standards of them alone.
static OF_ONE_KIND: LazyLock<WordMap<Family>> = LazyLock::new(|| {
    let of_family = |family: Family| {
        let standards = family.facts().asked.standards.iter();
        standards.map(move |number| (*number, family))
    };
    Family::ALL.into_iter().flat_map(of_family).collect()
});

/// The kind of part that a standard is of, by its number.
fn of_one_kind(number: &str) -> Option<Family> {
    OF_ONE_KIND.get(number).copied()
}

/// What a standard says of a part of this family besides.
fn says(number: &str, family: Family) -> Option<&'static StandardSays> {
    let mut says = family.facts().asked.standard_says.iter();
    says.find(|says| says.number == number)
}

/// Takes names of standards out of a text and keeps the family they are of, where none is known yet; gives what is left.
pub(super) fn take(question: &mut Question, text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut left = Vec::with_capacity(words.len());
    let mut at = 0;
    let pin_type = pin_type(&words);
    while let Some(word) = words.get(at) {
        if let Some((_, (start, end))) = pin_type.filter(|(_, (start, _))| *start == at) {
            at += end - start;
            continue;
        }
        let Some((number, end)) = name_at(&words, at) else {
            left.push(*word);
            at += 1;
            continue;
        };
        let family = of_one_kind(&number);
        question.family = question.family.or(family);
        note_besides(question, &number, &words);
        if family.is_none() && !OF_SIZES.contains(&number.as_str()) {
            // `ISO 8735 8 x 30` is a pin with a thread to pull it by: not what the sizes alone say.
            question.not_understood.push(words[at..end].join(" "));
        }
        at = end;
    }
    if let Some((letter, _)) = pin_type {
        question.traits.add_variant(&format!("type {letter}"));
    }
    left.join(" ")
}

/// Type of a hardened pin beside the name of its standard, and where it stands: `6x30 ISO 8734 type B`, `pin 6x30 B ISO 8734`.
fn pin_type<'a>(words: &[&'a str]) -> Option<(&'a str, (usize, usize))> {
    let is_of_8734 = |at: usize| name_at(words, at).is_some_and(|(number, _)| number == "8734");
    if !(0..words.len()).any(is_of_8734) {
        return None;
    }
    let letter = |at: usize| {
        let word = words.get(at)?.trim_matches([',', ';', '(', ')']);
        matches!(word, "A" | "B").then_some(word)
    };
    let is_type = |at: usize| {
        let lower = words[at].to_lowercase();
        matches!(lower.as_str(), "type" | "typ" | "form")
    };
    let named = (0..words.len())
        .filter(|at| is_type(*at))
        .find_map(|at| Some((letter(at + 1)?, (at, at + 2))));
    // `B 30` is a width, and `A` in front an article.
    let is_free = |at: usize| {
        let next = words.get(at + 1);
        next.is_none_or(|next| !is_figure(next) || is_joined(next))
    };
    named.or_else(|| {
        (1..words.len())
            .filter(|at| is_free(*at))
            .find_map(|at| Some((letter(at)?, (at, at + 1))))
    })
}

/// The first name of a standard in a text that is of one kind of part, as it is written, and that kind.
pub(super) fn first_in(text: &str) -> Option<(String, Family)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    (0..words.len()).find_map(|at| {
        let (number, end) = name_at(&words, at)?;
        let family = of_one_kind(&number)?;
        Some((words[at..end].join(" "), family))
    })
}

/// Keeps what the standard of a part says of its hardness and class.
fn note_besides(question: &mut Question, number: &str, words: &[&str]) {
    let Some(StandardSays { design, class, .. }) =
        question.family.and_then(|family| says(number, family))
    else {
        return;
    };
    let said = Said::Variant(design);
    if !said.set(&mut question.traits, question.family) {
        question.not_understood.push((*design).to_owned());
    }
    let is_class = |word: &&str| FitClass::read(word).is_some() || pin_size(word).is_some();
    if let Some(class) = class.filter(|_| !words.iter().any(is_class)) {
        question.fit_classes.push(class.to_owned());
    }
}

/// `Zylinderstift ISO 8734 8x40 A`: words for a pin in front of its standard say nothing more; `None` where there are none.
pub(super) fn without_kind(text: &str) -> Option<String> {
    const MOST_WORDS: usize = 2;
    let words: Vec<&str> = text.split_whitespace().collect();
    let (at, family) = (1..words.len().min(MOST_WORDS + 1)).find_map(|at| {
        let (number, _) = name_at(&words, at)?;
        let mut families = Family::ALL.into_iter();
        let family = families.find(|family| says(&number, *family).is_some())?;
        Some((at, family))
    })?;
    let is_it = |words: &str| other_part::family_named(words) == Some(family);
    let is_kind = |word: &&str| {
        is_it(word) || matches!(word.to_lowercase().as_str(), "parallel" | "cylindrical")
    };
    let is_name = is_it(&words[..at].join(" ")) && words[..at].iter().all(is_kind);
    is_name.then(|| words[at..].join(" "))
}

/// Number of the standard whose name begins at a word.
pub(super) fn number_at(words: &[&str], at: usize) -> Option<String> {
    name_at(words, at).map(|(number, _)| number)
}

/// Where the name of a standard ends that begins at a word.
pub(super) fn end_of_name(words: &[&str], at: usize) -> Option<usize> {
    // Few words of a question begin as one of the bodies does.
    let body = words.get(at)?.get(..2)?.to_ascii_lowercase();
    if !BODIES.iter().any(|known| known.starts_with(&body)) {
        return None;
    }
    // `en 5 kN` is French; a European standard is commonly written `DIN EN`.
    let is_plain_en = words[at].eq_ignore_ascii_case("en");
    name_at(words, at)
        .filter(|_| !is_plain_en)
        .map(|(_, end)| end)
}

/// Number of the standard whose name begins at a word, and where the name ends: `DIN EN ISO 8734`, `JIS B 2401`, `DIN625-1`.
fn name_at(words: &[&str], at: usize) -> Option<(String, usize)> {
    // Most words begin as no body does.
    let first = words.get(at)?.bytes().next()?.to_ascii_lowercase();
    if first.is_ascii() && !BODIES.iter().any(|body| body.as_bytes()[0] == first) {
        return None;
    }
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

    /// ISO 8734 and DIN 6325 pins are hardened and m6, those of ISO 2338 and DIN 7 are not hardened; from memory.
    #[test]
    fn the_standard_of_a_pin_says_its_hardness_and_class() {
        for (text, hardness, classes) in [
            ("8x40 ISO 8734", Some("hardened"), &["m6"][..]),
            ("hardened pin DIN 6325 8 x 40", Some("hardened"), &["m6"]),
            ("pin 8 m6 x 40 DIN 6325", Some("hardened"), &[]),
            ("pin 8x40 ISO 2338", Some("unhardened"), &[]),
            ("pin 8x40 DIN 7", Some("unhardened"), &["m6"]),
            ("pin 8h8x40 DIN 7", Some("unhardened"), &[]),
            ("8x40 ISO 8735", None, &[]),
        ] {
            let mut question = Question::of(text);
            let _left = take(&mut question, text);
            assert_eq!(question.traits.variant.as_deref(), hardness, "{text}");
            assert_eq!(question.fit_classes, classes, "{text}");
        }
        let mut ring = Question::of("o-ring");
        ring.family = Some(Family::ORing);
        let _left = take(&mut ring, "40 x 3 DIN 7");
        assert!(ring.traits.variant.is_none() && ring.fit_classes.is_empty());
    }

    /// ISO 8734: type A is hardened through, type B in its case; from memory.
    #[test]
    fn the_type_of_a_hardened_pin_is_kept() {
        for (text, left, variant) in [
            ("6x30 ISO 8734 type B", "6x30", Some("hardened, type B")),
            ("pin 6x30 B ISO 8734", "pin 6x30", Some("hardened, type B")),
            (
                "pin 6x30 ISO 8734 Form A",
                "pin 6x30",
                Some("hardened, type A"),
            ),
            ("pin 6x30 ISO 8734", "pin 6x30", Some("hardened")),
            ("pin 6x30 ISO 2338 B", "pin 6x30 B", Some("unhardened")),
            ("6x30 type B", "6x30 type B", None),
        ] {
            let mut question = Question::of(text);
            assert_eq!(take(&mut question, text), left, "{text}");
            assert_eq!(question.traits.variant.as_deref(), variant, "{text}");
        }
    }

    /// The type of a pin is not what its table says: it is ordered by its letter.
    #[test]
    fn a_pin_of_a_type_is_not_answered_as_the_other() {
        for text in [
            "ISO 8734 6x30 type B",
            "ISO 8734 6x30 Form B",
            "pin 6x30 ISO 8734 type B",
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert!(question.traits.has_variant("type B"), "{text}");
            let left = &question.not_understood;
            assert!(left.is_empty(), "{text}: {left:?}");
        }
    }

    #[test]
    fn words_for_a_pin_before_its_standard_go() {
        for (text, left) in [
            ("Zylinderstift ISO 8734 8x40", Some("ISO 8734 8x40")),
            ("pin ISO 8734 8x40 A", Some("ISO 8734 8x40 A")),
            ("parallel pin DIN 6325 8x40", Some("DIN 6325 8x40")),
            (
                "pins DIN EN ISO 2338 8 m6 x 40",
                Some("DIN EN ISO 2338 8 m6 x 40"),
            ),
            ("hardened pin ISO 8734 8x40", None),
            ("pin fixture ISO 8734 8x40", None),
            ("pin ISO 8735 8x40", None),
            ("ISO 8734 8x40", None),
            ("circlip DIN 471 40", None),
        ] {
            assert_eq!(without_kind(text).as_deref(), left, "{text}");
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
