//! The hardness of an elastomer is of that one: `NBR 70 FKM 75` are two, and of `NBR 70 FKM` nobody knows how hard the other is.

use super::Question;
use crate::part::designation::elastomer;

/// Unit of a hardness as it is kept.
const SHORE: &str = "Shore A";

/// Sets the hardness that a figure says; beside another one neither is known, and both are told.
pub(super) fn set(question: &mut Question, figure: &str) {
    let said = format!("{figure} {SHORE}");
    let is_told = question
        .not_understood
        .iter()
        .any(|word| word.ends_with(SHORE));
    let hardness = &mut question.traits.hardness;
    match hardness.take_if(|known| *known != said) {
        None if !is_told => *hardness = Some(said),
        None => question.not_understood.push(said),
        Some(known) => question.not_understood.extend([known, said]),
    }
}

/// Of several elastomers a hardness is known only where it is that of each.
pub(super) fn settle(question: &mut Question) {
    if question.traits.material.is_some() || question.traits.hardness.is_none() {
        return;
    }
    let words: Vec<&str> = question
        .text
        .split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '/' | '-' | '('))
        .filter(|word| !word.is_empty())
        .collect();
    let mut symbols: Vec<&str> = words.iter().filter_map(|word| of_word(word)).collect();
    let shores = words.iter().filter_map(|word| shore_of(word)).count();
    symbols.sort_unstable();
    symbols.dedup();
    if symbols.len() > 1 && shores < symbols.len() {
        question
            .not_understood
            .extend(question.traits.hardness.take());
    }
}

/// The elastomer of `NBR`, `NBR70`, `70NBR`.
fn of_word(word: &str) -> Option<&'static str> {
    elastomer(word.trim_matches(|c: char| c.is_ascii_digit()))
}

/// The hardness of `70`, `NBR70`, `70NBR`.
fn shore_of(word: &str) -> Option<u8> {
    let digits = word.trim_matches(|c: char| c.is_ascii_alphabetic());
    let is_bare = digits.len() == word.len() || of_word(word).is_some();
    let shore: u8 = digits.parse().ok().filter(|_| digits.len() == 2)?;
    (is_bare && (30..=98).contains(&shore) && shore.is_multiple_of(5)).then_some(shore)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 1629 names elastomers, ISO 48-4 hardness in Shore A: each is of one.
    #[test]
    fn a_hardness_is_of_its_elastomer() {
        for (text, hardness) in [
            ("O-ring 25x3 NBR 70 FKM 75", None),
            ("O-ring 25x3 70 NBR 75 FKM", None),
            ("O-ring 25x3 NBR 70 or FKM 75", None),
            ("O-ring 25x3 NBR 70 or FKM", None),
            ("O-ring 25x3 NBR or FKM 75", None),
            ("AS568-214 NBR 70 FKM 75", None),
            ("AS568-214 NBR 70 FKM", None),
            ("O-ring 25x3 NBR 70 or FKM 70", Some("70 Shore A")),
            ("O-ring 25x3 NBR 70", Some("70 Shore A")),
            ("O-ring 25x3 NBR 70 NBR", Some("70 Shore A")),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let known = question.traits.hardness.as_deref();
            assert_eq!(known, hardness, "{text}: {question:?}");
            let is_told = question
                .not_understood
                .iter()
                .any(|word| word.ends_with(SHORE));
            assert_eq!(is_told, hardness.is_none(), "{text}: {question:?}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
        }
    }
}
