//! A bearing's number behind `for`, `on` or `behind`: it tells where the part sits, and is none that is asked for.

use super::{amount, letters, other_part, quantity};
use crate::part::{Clearance, Closure, PartClass};
use crate::standard::is_designation;

/// Words behind which a number is the place of the part before them.
const PLACES: [&str; 14] = [
    "for",
    "on",
    "auf",
    "sur",
    "bei",
    "für",
    "fuer",
    "pour",
    "behind",
    "hinter",
    "beside",
    "neben",
    "derrière",
    "next",
];
/// Words between them and the number.
const BETWEEN: [&str; 14] = [
    "to",
    "a",
    "an",
    "the",
    "bearing",
    "brg",
    "ball",
    "lager",
    "kugellager",
    "einem",
    "ein",
    "dem",
    "un",
    "roulement",
];
/// Units of a life or load, behind which a figure is no number.
const UNITS: [&str; 9] = ["h", "hr", "hrs", "hours", "std", "stunden", "n", "kn", "mm"];
/// Digits of a number that is none of a size.
const LEAST_DIGITS: usize = 4;

/// Takes the number of the place off a text that asks for another kind of part; gives what is left, and what is told of it.
pub(super) fn split(text: &str) -> (String, Option<String>) {
    let words: Vec<&str> = text.split_whitespace().collect();
    let Some((start, end)) = found(&words) else {
        return (text.to_owned(), None);
    };
    let place = words[start..end].join(" ");
    let note = format!(
        "`{}` is taken as the place of the part, and is not looked at",
        place.trim_end_matches([',', ';'])
    );
    let left = words[..start].iter().chain(&words[end..]).copied();
    (left.collect::<Vec<_>>().join(" "), Some(note))
}

/// True for a word behind which a number is the place of the part before it.
pub(super) fn is_place(word: &str) -> bool {
    PLACES.contains(&word.to_lowercase().as_str())
}

/// Where the words for the place begin and end.
fn found(words: &[&str]) -> Option<(usize, usize)> {
    let bare = |at: usize| {
        let word = words.get(at).copied().unwrap_or_default();
        word.trim_end_matches([',', ';']).to_lowercase()
    };
    (1..words.len()).find_map(|start| {
        let is_place = PLACES.contains(&bare(start).as_str());
        let before = words[..start].join(" ");
        // The part itself has a size or number before, and is no bearing.
        let is_other = || {
            let family = other_part::family_named(&before);
            before.bytes().any(|b| b.is_ascii_digit())
                && family.is_some_and(|family| family.class() != PartClass::Bearings)
        };
        if !is_place || !is_other() {
            return None;
        }
        let mut at = start + 1;
        while BETWEEN.contains(&bare(at).as_str()) {
            at += 1;
        }
        let mut end = at + number_at(words, at)?;
        // `for 6000 rpm`, `for 6000 h`
        let unit = bare(end);
        let is_amount = quantity::is_of_speed(&unit) || amount::is_one(words, end - 1);
        if is_amount || UNITS.contains(&unit.as_str()) {
            return None;
        }
        while is_mark(words.get(end).copied().unwrap_or_default()) {
            end += 1;
        }
        Some((start, end))
    })
}

/// How many words the number of a bearing takes; none where it may be a size.
fn number_at(words: &[&str], at: usize) -> Option<usize> {
    let word = words.get(at)?.trim_end_matches([',', ';']);
    let digits = word.bytes().filter(u8::is_ascii_digit).count();
    let is_number = digits >= LEAST_DIGITS
        && !word.contains(['x', 'X', '×', '.', ',', '/'])
        && is_designation(word);
    is_number
        .then_some(1)
        .or_else(|| letters::number_at(words, at))
}

fn is_mark(word: &str) -> bool {
    let word = word.trim_end_matches([',', ';']);
    let is_known = Closure::from_code(word).is_some() || Clearance::from_code(word).is_some();
    is_known && !word.is_empty()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;
    use crate::part::Family;

    /// ISO 15: 6208 is a bearing of 40 mm bore, and 40 x 62 x 8 a seal of DIN 3760 beside it.
    #[test]
    fn a_number_behind_for_is_the_place() {
        for (text, family, place) in [
            ("oil seal 40x62x8 for 6208", Family::LipSeal, "for 6208"),
            ("oil seal 40 x 62 x 8 for 6208", Family::LipSeal, "for 6208"),
            (
                "oil seal 40x62x8 behind NU208",
                Family::LipSeal,
                "behind NU208",
            ),
            (
                "oil seal 40x62x8 behind NU 208",
                Family::LipSeal,
                "behind NU 208",
            ),
            (
                "oil seal 40x62x8 for bearing 6208 C3 NBR",
                Family::LipSeal,
                "for bearing 6208 C3",
            ),
            (
                "Wellendichtring 40x62x8 für Lager 6208",
                Family::LipSeal,
                "für Lager 6208",
            ),
            ("oil seal 40x62x8 on 6208", Family::LipSeal, "on 6208"),
            (
                "lip seal 40x62x8 on the NU 208",
                Family::LipSeal,
                "on the NU 208",
            ),
            (
                "Wellendichtring 40x62x8 auf 6208 C3",
                Family::LipSeal,
                "auf 6208 C3",
            ),
            (
                "internal circlip 80 for 6208",
                Family::BoreRetainingRing,
                "for 6208",
            ),
            (
                "o-ring 20x2.5 next to 6208-2RS",
                Family::ORing,
                "next to 6208-2RS",
            ),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
            assert_eq!(question.family, Some(family), "{text}");
            let says = format!("`{place}` is taken as the place of the part");
            let told = question.notes.join("; ");
            assert!(told.contains(&says), "{text}: {told}");
            assert!(question.partial.is_empty(), "{text}: {question:?}");
        }
        let seal = Question::read("oil seal 40x62x8 for 6208 NBR").unwrap();
        assert_eq!(seal.traits.material.as_deref(), Some("NBR"));
    }

    #[test]
    fn what_is_asked_for_is_no_place() {
        for text in [
            "6208 for 40 shaft",
            "bearing for 6208",
            "oil seal for 40 shaft",
            "oil seal 40x62x8 for 40 shaft",
            "oil seal 40x62x8 for 6000 rpm",
            "oil seal 40x62x8 for 6000 h",
            "oil seal 40x62x8 for 6000 bar",
            "oil seal 40x62x8 on 40 shaft",
            "oil seal 40x62x8 on 1200 mm shaft",
            "30 x 62 x 16 deep groove on 6206",
            "30 x 62 x 16 deep groove for 6206",
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            assert_eq!(found(&words), None, "{text}");
        }
    }
}
