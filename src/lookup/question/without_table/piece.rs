//! Pieces of a bearing and what goes with one: `cage of 6205`, `grease for 6205`, `snap ring 52 for 6205 NR`. They are other
//! things than the bearing, and none of them has a table here.

use std::sync::LazyLock;

use super::WithoutTable;
use crate::lookup::question::figure::is_figure;
use crate::part::WordMap;
use crate::standard::is_designation;

/// A kind of thing that only its words before a bearing's number name.
const fn kind(name: &'static str, why: &'static str) -> WithoutTable {
    WithoutTable {
        name,
        why,
        words: &[],
        names_a_place: false,
    }
}

static PIECE: WithoutTable = kind(
    "piece of a bearing",
    "cages, balls and rollers are not exchanged by themselves: the whole bearing is, ask for its number alone",
);
static LUBRICANT: WithoutTable = kind(
    "lubricant",
    "greases and oils are not among the tables here: take what the machine's lubrication plan says, and mix no two greases",
);
static SNAP_RING: WithoutTable = kind(
    "snap ring of a bearing",
    "snap rings for bearings with N or NR (ISO 464) are not among the tables here: they go by the outside diameter of the bearing",
);
static LOCATING_RING: WithoutTable = kind(
    "locating ring of a housing",
    "locating rings lie beside the bearing in its housing and are not among the tables here: they go by the housing bore and the room beside the bearing",
);
static LOOSE_RING: WithoutTable = kind(
    "ring of a bearing by itself",
    "of loose rings only the inner rings of ISO 1206 needle bearings are known here: ask with the number of the bearing, such as `NU208 inner ring`",
);

/// A ring by figures that are of no ring here.
pub(in crate::lookup::question) fn loose_ring() -> &'static WithoutTable {
    &LOOSE_RING
}

/// Names in lower case, longest first where one begins another.
const NAMES: [(&str, &WithoutTable); 36] = [
    ("locating rings", &LOCATING_RING),
    ("locating ring", &LOCATING_RING),
    ("festring", &LOCATING_RING),
    ("snap rings", &SNAP_RING),
    ("snap ring", &SNAP_RING),
    ("cages", &PIECE),
    ("cage", &PIECE),
    ("retainer", &PIECE),
    ("balls", &PIECE),
    ("ball", &PIECE),
    ("rollers", &PIECE),
    ("roller", &PIECE),
    ("needles", &PIECE),
    ("needle", &PIECE),
    ("rivets", &PIECE),
    ("rivet", &PIECE),
    ("käfig", &PIECE),
    ("kugeln", &PIECE),
    ("kugel", &PIECE),
    ("rollen", &PIECE),
    ("rolle", &PIECE),
    ("nadeln", &PIECE),
    ("nadel", &PIECE),
    ("billes", &PIECE),
    ("bille", &PIECE),
    ("rouleaux", &PIECE),
    ("rouleau", &PIECE),
    ("grease", &LUBRICANT),
    ("oil", &LUBRICANT),
    ("lubricant", &LUBRICANT),
    ("schmierfett", &LUBRICANT),
    ("fett", &LUBRICANT),
    ("öl", &LUBRICANT),
    ("oel", &LUBRICANT),
    ("graisse", &LUBRICANT),
    ("huile", &LUBRICANT),
];
/// Names by their first word, in their order.
static BY_FIRST: LazyLock<WordMap<Vec<(&str, &WithoutTable)>>> = LazyLock::new(|| {
    let first = |name: &'static str| name.split(' ').next().unwrap_or(name);
    let beginning_as = |word: &str| {
        NAMES
            .into_iter()
            .filter(|&(name, _)| first(name) == word)
            .collect()
    };
    let firsts = NAMES.iter().map(|&(name, _)| first(name));
    firsts.map(|word| (word, beginning_as(word))).collect()
});
/// Words that may stand before the name.
const BEFORE: [&str; 12] = [
    "need", "a", "an", "the", "one", "new", "old", "spare", "ein", "eine", "neue", "neuer",
];
/// Words that say what it is of.
const OF: [&str; 14] = [
    "of", "for", "from", "out", "in", "aus", "von", "vom", "für", "fuer", "zu", "pour", "de", "du",
];
/// Words between that and the number.
const BEFORE_NUMBER: [&str; 17] = [
    "of",
    "a",
    "an",
    "the",
    "old",
    "my",
    "our",
    "bearing",
    "lager",
    "dem",
    "einem",
    "das",
    "ein",
    "roulement",
    "wälzlager",
    "kugellager",
    "rollenlager",
];

/// The thing beside a bearing that a text asks for: its name first, then what it is of, then a number of the tables.
pub(in crate::lookup::question) fn asked_for(text: &str) -> Option<&'static WithoutTable> {
    let lower = text.to_lowercase();
    let words: Vec<&str> = lower
        .split_whitespace()
        .map(|word| word.trim_matches([',', ';', ':', '(', ')']))
        .collect();
    let is = |at: usize, list: &[&str]| words.get(at).is_some_and(|word| list.contains(word));
    let mut at = 0;
    while is(at, &BEFORE) {
        at += 1;
    }
    let (count, kind) = BY_FIRST
        .get(words.get(at)?)?
        .iter()
        .find_map(|(name, kind)| {
            let count = name.split(' ').count();
            let stands = words.get(at..at + count)?;
            name.split(' ')
                .eq(stands.iter().copied())
                .then_some((count, *kind))
        })?;
    at += count;
    // `snap ring 52 for`: its own size.
    while words
        .get(at)
        .is_some_and(|word| is_figure(word) || *word == "mm")
    {
        at += 1;
    }
    if !is(at, &OF) {
        return None;
    }
    at += 1;
    while is(at, &BEFORE_NUMBER) {
        at += 1;
    }
    let (word, next) = (
        words.get(at)?,
        words.get(at + 1).copied().unwrap_or_default(),
    );
    // `NU 208`
    let is_letters = word.len() <= 4 && word.bytes().all(|b| b.is_ascii_alphabetic());
    let is_parted = is_letters && next.starts_with(|c: char| c.is_ascii_digit());
    (is_designation(word) || is_parted && is_designation(&format!("{word}{next}"))).then_some(kind)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::{Question, answer};

    #[test]
    fn what_belongs_to_a_bearing_is_not_the_bearing() {
        for (text, kind) in [
            ("cage of 6205", Some(&PIECE)),
            ("ball from 6205", Some(&PIECE)),
            ("need a ball out of the old bearing 6205", Some(&PIECE)),
            ("Käfig aus 6205", Some(&PIECE)),
            ("rollers from NU 208", Some(&PIECE)),
            ("grease for 6205", Some(&LUBRICANT)),
            ("Fett für Lager 6205", Some(&LUBRICANT)),
            ("locating ring for 6205", Some(&LOCATING_RING)),
            ("snap ring 52 for bearing 6205 NR", Some(&SNAP_RING)),
            // The bearing itself is asked for, or no number stands there.
            ("6205 with snap ring", None),
            ("6205 grease for life", None),
            ("grease for life 6205", None),
            ("ball bearing 6205", None),
            ("roller for conveyor 6205", None),
            ("cage 25x30x17", None),
            ("needle cage for 25 mm shaft", None),
            ("oil seal for 40 shaft", None),
            ("snap ring 25 shaft", None),
        ] {
            assert_eq!(asked_for(text), kind, "{text}");
            if let Some(kind) = kind {
                let question = Question::read(text).unwrap();
                assert_eq!(question.without_table, Some(kind), "{text}");
                let answers = answer(&question, None);
                assert!(
                    answers.answers.is_empty() && answers.refused.is_empty(),
                    "{text}"
                );
                assert!(answers.none_of_these.why.starts_with(kind.name), "{text}");
            }
        }
    }
}
