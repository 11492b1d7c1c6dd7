//! Words that keep a mark or an elastomer in a text from being a fact: `not FKM`, `no longer sealed`, `C3 if available`.
//!
//! A negation, a wish, a choice or a place beside it leaves it open. Common practice, no source.

use std::ops::Range;

use super::piece_beside::NEGATIONS;

/// Between these and what they deny nothing of weight stands: `no longer sealed`, `nicht mehr abgedichtet`.
const FILLERS: [&str; 18] = [
    "longer", "more", "mehr", "yet", "a", "an", "any", "the", "use", "used", "be", "of", "ein",
    "eine", "einen", "als", "with", "mit",
];
/// Most words between.
const MOST_FILLERS: usize = 3;
/// What is denied behind a mark: `C3 not needed`.
const DENIED: [&str; 18] = [
    "needed",
    "required",
    "used",
    "available",
    "wanted",
    "possible",
    "allowed",
    "suitable",
    "any",
    "lieferbar",
    "verfügbar",
    "erhältlich",
    "nötig",
    "notwendig",
    "erforderlich",
    "möglich",
    "erlaubt",
    "zulässig",
];
/// More words that deny: of what was and of what is never so.
const NEVER: [&str; 10] = [
    "never", "nie", "niemals", "jamais", "was", "were", "war", "waren", "ehemals", "avoid",
];
/// Anywhere beside a mark they make a wish or a condition of it, or say that it is there no more.
const ANYWHERE: [&str; 43] = [
    "if",
    "falls",
    "wenn",
    "optional",
    "optionally",
    "option",
    "wahlweise",
    "request",
    "anfrage",
    "wunsch",
    "maybe",
    "perhaps",
    "vielleicht",
    "evtl",
    "eventuell",
    "ggf",
    "possible",
    "möglich",
    "preferred",
    "prefer",
    "needed",
    "wanted",
    "required",
    "gewünscht",
    "benötigt",
    "should",
    "could",
    "unavailable",
    "discontinued",
    "abgekündigt",
    "ausgelaufen",
    "forbidden",
    "verboten",
    "removed",
    "remove",
    "entfernt",
    "entfernen",
    "pliers",
    "zange",
    "beside",
    "daneben",
    "separately",
    "separat",
];
/// A choice, but for one of what is alike.
const OR: [&str; 3] = ["or", "oder", "ou"];
const ALIKE: [&str; 8] = [
    "equivalent",
    "similar",
    "equal",
    "better",
    "gleichwertig",
    "ähnlich",
    "vergleichbar",
    "besser",
];
/// Before a mark, of another time; an order has a number too.
const LATER: [&str; 6] = [
    "next",
    "nächste",
    "nächstes",
    "order",
    "bestellen",
    "bestelle",
];
const NUMBERS: [&str; 4] = ["no", "nr", "number", "nummer"];
/// Directly before a mark it is a place; a row of balls is none.
const PLACES: [&str; 8] = [
    "position", "pos", "row", "reihe", "zeile", "place", "platz", "slot",
];
const COUNTS: [&str; 8] = ["single", "double", "one", "two", "four", "1", "2", "4"];
/// Directly behind what a drive or a machine may be too; the sides of a machine are places of parts.
const DRIVES: [&str; 4] = ["drive", "drives", "antrieb", "vehicle"];
const SIDES: [&str; 3] = ["side", "end", "seite"];

/// True where words of a piece in lower case leave open what those of a range say.
pub(super) fn is_hedged(lower: &[String], of: &Range<usize>) -> bool {
    let is = |list: &[&str], at: usize| {
        lower
            .get(at)
            .is_some_and(|word| list.contains(&word.as_str()))
    };
    let outside = || (0..lower.len()).filter(|at| !of.contains(at));
    let is_choice = |at: usize| is(&OR, at) && !is(&ALIKE, at + 1);
    let is_later = |at: usize| is(&LATER, at) && !is(&NUMBERS, at + 1);
    let before = of.start.checked_sub(1);
    let is_place = before.is_some_and(|at| {
        is(&PLACES, at) && !at.checked_sub(1).is_some_and(|count| is(&COUNTS, count))
    });
    let is_of_drive = is(&DRIVES, of.end) && !is(&SIDES, of.end + 1);
    is_place
        || is_of_drive
        || is_negated(lower, of)
        || outside().any(|at| is(&ANYWHERE, at) || is_choice(at))
        || (0..of.start).any(is_later)
}

/// True where words of a piece deny what those of a range say.
pub(super) fn is_negated(lower: &[String], of: &Range<usize>) -> bool {
    let is = |list: &[&str], at: usize| {
        lower
            .get(at)
            .is_some_and(|word| list.contains(&word.as_str()))
    };
    let fillers = (0..of.start)
        .rev()
        .take_while(|at| is(&FILLERS, *at))
        .count();
    let denying = of.start.checked_sub(fillers + 1);
    let is_before = denying.is_some_and(|at| is(&NEGATIONS, at) && fillers <= MOST_FILLERS);
    let is_behind = (of.end..lower.len())
        .any(|at| is(&NEGATIONS, at) && (is(&DENIED, at + 1) || at + 1 == lower.len()));
    is_before || is_behind || (0..of.start).any(|at| is(&NEVER, at))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn negations_wishes_choices_and_places_leave_a_mark_open() {
        // The mark is the last word but those behind the stroke. Common practice, no source.
        for (before, behind) in [
            ("not", ""),
            ("no longer", ""),
            ("nicht mehr", ""),
            ("never use", ""),
            ("was", ""),
            ("", "not needed"),
            ("", "nicht lieferbar"),
            ("", "if available"),
            ("", "on request"),
            ("", "auf Wunsch"),
            ("order with", ""),
            ("next time", ""),
            ("position", ""),
            ("row", ""),
            ("Platz", ""),
            ("", "or C4"),
            ("C2 oder", ""),
            ("", "removed"),
            ("", "to be removed"),
            ("", "version discontinued"),
            ("", "drive"),
        ] {
            assert!(hedged(before, behind), "{before} | {behind}");
        }
        for (before, behind) in [
            ("", ""),
            ("ball bearing", ""),
            ("double row", ""),
            ("bearing no 5", ""),
            ("order no 45", ""),
            ("", "or equivalent"),
            ("without seals", ""),
            ("", "not 2RS"),
            ("", "drive side"),
            ("pos 4", ""),
        ] {
            assert!(!hedged(before, behind), "{before} | {behind}");
        }
    }

    fn hedged(before: &str, behind: &str) -> bool {
        let words = |text: &str| -> Vec<String> {
            text.split_whitespace().map(str::to_lowercase).collect()
        };
        let (before, behind) = (words(before), words(behind));
        let at = before.len();
        let lower = [before, vec!["c3".to_owned()], behind].concat();
        is_hedged(&lower, &(at..at + 1))
    }
}
