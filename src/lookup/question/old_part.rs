//! What the old part was, where the text says what is wanted: `25x3 EPDM, old one was NBR`. It is no wish.

use std::sync::LazyLock;

use super::any_of::AnyOf;
use crate::part::designation::elastomer;
use crate::part::{Clearance, Closure};

/// What the words below begin with.
const BEGINNINGS: [&str; 9] = [
    "old",
    "previous",
    "former",
    "alt",
    "bisher",
    "ancien",
    "was",
    "vorher",
    "auparavant",
];

/// Words for the old part, and for what may be called so.
const OLD: [&str; 11] = [
    "old",
    "previous",
    "former",
    "alt",
    "alte",
    "alter",
    "altes",
    "bisherige",
    "bisheriger",
    "ancien",
    "ancienne",
];
const PARTS: [&str; 16] = [
    "one",
    "part",
    "ring",
    "seal",
    "o-ring",
    "oring",
    "bearing",
    "material",
    "dichtung",
    "teil",
    "lager",
    "werkstoff",
    "joint",
    "pièce",
    "roulement",
    "the",
];
const WAS: [&str; 8] = [
    "was", "were", "had", "war", "waren", "hatte", "était", "etait",
];
/// Words that say it alone.
const BEFORE: [&str; 6] = [
    "was",
    "previously",
    "formerly",
    "bisher",
    "vorher",
    "auparavant",
];
const ARTICLES: [&str; 9] = ["the", "a", "an", "of", "made", "from", "der", "die", "aus"];
/// Words behind it that say so again.
const ENDS: [&str; 3] = ["before", "vorher", "avant"];

/// Takes what the old part was off a text that says which part is wanted; gives what is left, and what is told of it.
pub(super) fn split(text: &str) -> (String, Option<String>) {
    // Most questions have no such word: they are not taken apart.
    static ANY: LazyLock<AnyOf> = LazyLock::new(|| BEGINNINGS.into_iter().collect());
    if !ANY.stands_in(text) {
        return (text.to_owned(), None);
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let lower: Vec<String> = words.iter().map(|word| bare(word).to_lowercase()).collect();
    let found = (1..words.len()).find_map(|start| Some((start, end_of(&words, &lower, start)?)));
    let is_wish = |(start, end): &(usize, usize)| {
        let rest = words[..*start].iter().chain(&words[*end..]);
        let mut pieces = rest.flat_map(|word| word.split(['-', '/']));
        let is_rubber = |word: &str| elastomer(bare(word)).is_some();
        let of_rubber = words[*start..*end].iter().any(|word| is_rubber(word));
        pieces.any(|word| is_mark(word) && is_rubber(word) == of_rubber)
    };
    let Some((start, end)) = found else {
        return (text.to_owned(), None);
    };
    let said = words[start..end].join(" ");
    if !is_wish(&(start, end)) {
        return as_before(&words, start..end);
    }
    let note = format!(
        "`{}` is what the old part was, and is not looked at",
        bare(&said)
    );
    let left = words[..start].iter().chain(&words[end..]).copied();
    (left.collect::<Vec<_>>().join(" "), Some(note))
}

/// Where nothing else is said of the new one, it is to be as the old one was: the words around its marks go, and that is told.
fn as_before(words: &[&str], of: std::ops::Range<usize>) -> (String, Option<String>) {
    let said = words[of.clone()].join(" ");
    let note = format!(
        "nothing else is said of the new part, and it is looked for as the old one was: `{}`",
        bare(&said)
    );
    let stays = |(at, word): (usize, &&str)| {
        let is_shore = || bare(word).bytes().all(|b| b.is_ascii_digit());
        !of.contains(&at) || is_mark(word) || is_shore()
    };
    let kept = words
        .iter()
        .enumerate()
        .filter(|(at, word)| stays((*at, *word)));
    let left: Vec<&str> = kept
        .map(|(at, word)| match of.contains(&at) {
            true => word.trim_matches(['(', ')']),
            false => *word,
        })
        .collect();
    (left.join(" "), Some(note))
}

/// Where the words for the old part end that begin at a place; none where they say more than its marks and its elastomer, or
/// where no part stands before them.
fn end_of(words: &[&str], lower: &[String], start: usize) -> Option<usize> {
    let is = |at: usize, list: &[&str]| {
        lower
            .get(at)
            .is_some_and(|word| list.contains(&word.as_str()))
    };
    let has_part = words[..start].iter().any(|word| {
        let digits = word.bytes().filter(u8::is_ascii_digit);
        digits.count() >= 2
    });
    if !has_part {
        return None;
    }
    let mut at = start;
    at += usize::from(is(at, &["the", "der", "die"]) && is(at + 1, &OLD));
    let mut end = if is(at, &OLD) {
        let parts = (at + 1..words.len())
            .take_while(|at| is(*at, &PARTS))
            .count();
        let verb = at + 1 + parts;
        is(verb, &WAS).then_some(verb + 1)?
    } else {
        is(at, &BEFORE).then_some(at + 1)?
    };
    while is(end, &ARTICLES) {
        end += 1;
    }
    let first = end;
    while words.get(end).is_some_and(|word| is_mark(word)) {
        let ends = words[end].ends_with([',', ';', '.']);
        end += 1;
        // `NBR 70`
        let is_shore = |word: &&str| {
            let digits = bare(word);
            digits.len() == 2 && digits.bytes().all(|b| b.is_ascii_digit())
        };
        let is_elastomer = elastomer(bare(words[end - 1])).is_some();
        end += usize::from(is_elastomer && !ends && words.get(end).is_some_and(is_shore));
        if ends {
            return Some(end);
        }
    }
    end += usize::from(end > first && is(end, &ENDS));
    (end > first).then_some(end)
}

fn is_mark(word: &str) -> bool {
    let word = bare(word);
    let is_closure = || matches!(word.to_lowercase().as_str(), "sealed" | "shielded" | "zz");
    !word.is_empty()
        && (elastomer(word).is_some()
            || Closure::from_code(word).is_some()
            || Clearance::from_code(word).is_some()
            || is_closure())
}

/// A word without the marks around it.
pub(super) fn bare(word: &str) -> &str {
    word.trim_matches([',', ';', '.', '(', ')', ':'])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    #[test]
    fn what_the_old_one_was_is_no_wish() {
        for (text, left) in [
            ("25x3 EPDM, old one was NBR", "25x3 EPDM,"),
            ("25x3 EPDM (old one was NBR)", "25x3 EPDM"),
            ("25x3 EPDM, the old ring was NBR 70", "25x3 EPDM,"),
            ("25x3 old one was NBR, want EPDM", "25x3 want EPDM"),
            ("25x3 EPDM was NBR before", "25x3 EPDM"),
            ("25x3 EPDM, bisher NBR", "25x3 EPDM,"),
            ("25x3 EPDM, alter Ring war NBR", "25x3 EPDM,"),
            ("25x3 EPDM, ancien joint était NBR", "25x3 EPDM,"),
            ("6206 2RS, old one was ZZ", "6206 2RS,"),
            ("6206 C3, previously C4", "6206 C3,"),
        ] {
            let (read, note) = split(text);
            assert_eq!(read, left, "{text}");
            let note = note.unwrap_or_default();
            assert!(note.ends_with("is what the old part was, and is not looked at"));
        }
        // What is measured on the old one, a number, the part itself.
        for text in [
            "25x52 old one was 15 wide",
            "old one was NBR",
            "old O-ring 25x3 NBR",
            "6206 old one was 6306",
            "6206 old bearing worn",
            "old 6206 C3",
            "25x3 EPDM",
        ] {
            assert_eq!(split(text), (text.to_owned(), None), "{text}");
        }
    }

    #[test]
    fn what_the_old_one_was_is_kept_where_nothing_else_is_said() {
        for (text, left) in [
            ("O-ring 25x3, old one was NBR", "O-ring 25x3, NBR"),
            ("25x3, old one was NBR 70, grease", "25x3, NBR 70, grease"),
            ("6206 EPDM, old one was ZZ", "6206 EPDM, ZZ"),
        ] {
            let (read, note) = split(text);
            assert_eq!(read, left, "{text}");
            let note = note.unwrap_or_default();
            assert!(
                note.contains("as the old one was: `old one was"),
                "{text}: {note}"
            );
        }
        let question = Question::read("O-ring 25x3, old one was NBR").unwrap();
        assert_eq!(question.traits.material.as_deref(), Some("NBR"));
        assert!(question.not_understood.is_empty(), "{question:?}");
    }

    /// ISO 1629: EPDM and NBR are two elastomers.
    #[test]
    fn the_wish_alone_is_asked_for() {
        let question = Question::read("O-ring 25x3 EPDM, old one was NBR").unwrap();
        assert_eq!(question.traits.material.as_deref(), Some("EPDM"));
        assert!(question.not_understood.is_empty(), "{question:?}");
        let told = question.notes.join("; ");
        assert!(
            told.contains("`old one was NBR` is what the old part was"),
            "{told}"
        );
        assert!(!told.contains("contradict"), "{told}");
    }
}
