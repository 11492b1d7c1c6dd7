//! A cone and its cup written apart are one bearing: `LM48548 LM48510`, `LM48548 / LM48510` (ABMA 19.2).

use crate::part::Family;
use crate::standard;

/// Words and signs between the two numbers.
const BETWEEN: [&str; 10] = ["/", "-", "+", "&", ",", "and", "with", "und", "mit", "et"];

/// A text with the two numbers of one bearing of the tables joined as the tables write them; else as it stands.
pub(super) fn together(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    for at in 0..words.len() {
        let is_between = |word: &&str| BETWEEN.contains(&word.to_lowercase().as_str());
        let second = at + 1 + usize::from(words.get(at + 1).is_some_and(is_between));
        let pair = words
            .get(second)
            .and_then(|other| bearing_of(words[at], other));
        if let Some(pair) = pair {
            let before = words[..at].iter().copied();
            let joined = before.chain([pair]).chain(words[second + 1..].to_vec());
            return joined.collect::<Vec<_>>().join(" ");
        }
    }
    text.to_owned()
}

/// The bearing of two numbers, whichever of them stands first.
fn bearing_of(one: &str, other: &str) -> Option<&'static str> {
    let ends = [',', ';', '(', ')', '/', '-', '+'];
    let (one, other) = (one.trim_matches(ends), other.trim_matches(ends));
    if !is_number(one) || !is_number(other) {
        return None;
    }
    let is_pair = |(cone, cup): (&str, &str)| {
        let is = |a: &str, b: &str| cone.eq_ignore_ascii_case(a) && cup.eq_ignore_ascii_case(b);
        is(one, other) || is(other, one)
    };
    standard::of_family(Family::TaperedRoller)
        .iter()
        .map(|row| row.designation.as_str())
        .find(|name| name.split_once('/').is_some_and(is_pair))
}

/// Letters and five or six digits, as in the numbers of ABMA 19.2 here: all that is looked for in the tables.
fn is_number(word: &str) -> bool {
    let digits = word.trim_start_matches(|c: char| c.is_ascii_alphabetic());
    let letters = word.len() - digits.len();
    (1..=3).contains(&letters)
        && (5..=6).contains(&digits.len())
        && digits.bytes().all(|b| b.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    /// ABMA 19.2: cone LM48548 with cup LM48510, L44643 with L44610, LM11949 with LM11910.
    #[test]
    fn two_numbers_of_one_bearing_are_the_whole_bearing() {
        for (text, number) in [
            ("LM48548 LM48510", "LM48548/LM48510"),
            ("LM48548 / LM48510", "LM48548/LM48510"),
            ("lm48548 lm48510", "LM48548/LM48510"),
            ("LM48548/ LM48510", "LM48548/LM48510"),
            ("LM48510 LM48548", "LM48548/LM48510"),
            ("LM11949 LM11910", "LM11949/LM11910"),
            ("L44643 and L44610", "L44643/L44610"),
            ("L44643 L44610", "L44643/L44610"),
            ("LM48548/LM48510", "LM48548/LM48510"),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let read = question.designation.as_ref();
            let basic = read.map(|read| read.basic.as_str());
            assert_eq!(basic, Some(number), "{text}");
            assert!(question.partial.is_empty(), "{text}");
            assert_eq!(question.traits.variant, None, "{text}");
            let (left, told) = (&question.not_understood, &question.notes);
            assert!(
                left.is_empty() && told.is_empty(),
                "{text}: {left:?} {told:?}"
            );
        }
        let worn = Question::read("LM48548 LM48510 worn").unwrap();
        assert!(worn.is_worn && worn.traits.variant.is_none(), "{worn:?}");
    }

    #[test]
    fn one_number_or_two_of_different_bearings_stay_as_they_are() {
        for text in [
            "LM48548",
            "LM48548 LM11910",
            "LM48548 35 65",
            "6206 6306",
            "HM3044 MB44",
        ] {
            assert_eq!(together(text), text);
        }
        let half = Question::read("LM48548").unwrap();
        assert!(half.traits.has_variant("cone only"));
    }
}
