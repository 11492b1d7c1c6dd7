//! What stands in brackets in a description: part of what is said of the part, unless it surely says nothing of it.

use crate::import::family_words::{family_in, names_parts};
use crate::import::fold::fold;
use crate::part::PartClass;
use crate::part::designation::Designation;

/// Words for a place on the shelf.
const STORES: [&str; 16] = [
    "bin",
    "shelf",
    "rack",
    "drawer",
    "cabinet",
    "store",
    "aisle",
    "fach",
    "regal",
    "schrank",
    "schublade",
    "lagerplatz",
    "lagerort",
    "casier",
    "tiroir",
    "rayon",
];
/// Words for machines, and for what a part is for.
const MACHINES: [&str; 27] = [
    "for",
    "fur",
    "fuer",
    "pour",
    "machine",
    "maschine",
    "pump",
    "pumpe",
    "motor",
    "moteur",
    "line",
    "linie",
    "gearbox",
    "getriebe",
    "fan",
    "lufter",
    "ventilator",
    "conveyor",
    "mixer",
    "compressor",
    "kompressor",
    "press",
    "presse",
    "mill",
    "lathe",
    "drehbank",
    "plant",
];
/// Words that tell one machine or one of its sides from another.
const SIDES: [&str; 18] = [
    "de", "nde", "drive", "non", "end", "side", "seite", "left", "right", "links", "rechts",
    "main", "no", "nr", "haupt", "hall", "halle", "bay",
];
/// Words before a date.
const BEFORE_DATES: [&str; 9] = [
    "dated", "from", "since", "bought", "counted", "vom", "seit", "stand", "gezahlt",
];
/// Words of a remark on the numbers of the row.
const ON_NUMBERS: [&str; 9] = [
    "2nd",
    "second",
    "other",
    "old",
    "duplicate",
    "our",
    "zweite",
    "alte",
    NUMBER,
];
/// What folding makes of `number`, `Nr.` and the like.
const NUMBER: &str = "no";
/// Words for bearings of any kind.
const ANY_BEARING: [&str; 5] = [
    "bearing",
    "ball bearing",
    "lager",
    "kugellager",
    "roulement",
];
/// Numbers behind which every mark of the standards stands.
const BASES: [&str; 6] = ["6308", "NU208", "22216", "7208", "32208", "O-ring 25x3"];
/// Most words of a remark that is passed over.
const MOST_WORDS: usize = 5;
/// Longest number of a machine or a bin.
const LONGEST_CODE: usize = 4;

/// True for a word for a machine or for a place on the shelf.
pub fn names_place(word: &str) -> bool {
    let folded = fold(word);
    MACHINES.iter().chain(&STORES).any(|of| *of == folded)
}

/// A description without its brackets, and what they hold of the part.
pub fn parted(description: &str) -> (String, String) {
    if !description.contains(['(', '[', '{']) {
        return (description.to_owned(), String::new());
    }
    let (mut outside, mut inside, mut group) = (String::new(), String::new(), String::new());
    let mut depth = 0_usize;
    for c in description.chars().chain([')']) {
        match c {
            '(' | '[' | '{' => {
                depth += 1;
                if !outside.ends_with(' ') {
                    outside.push(' ');
                }
                group.push(' ');
            }
            ')' | ']' | '}' => {
                depth = depth.saturating_sub(1);
                if !says_nothing(&group) {
                    inside.push(' ');
                    inside.push_str(group.trim());
                }
                group.clear();
            }
            c if depth > 0 => group.push(c),
            c => outside.push(c),
        }
    }
    (outside.trim_end().to_owned(), inside.trim().to_owned())
}

/// True for a remark that names a place, a machine or a date and nothing that could be said of the part.
fn says_nothing(remark: &str) -> bool {
    let folded = fold(remark);
    let words: Vec<&str> = folded.split(' ').filter(|word| !word.is_empty()).collect();
    let Some(first) = words.first() else {
        return true;
    };
    if names_bearings(remark, &folded) || is_date(remark, &words) {
        return true;
    }
    let is_code =
        |word: &&str| word.len() <= LONGEST_CODE && word.bytes().any(|byte| byte.is_ascii_digit());
    if STORES.contains(first) {
        return words.len() <= 3
            && words[1..]
                .iter()
                .all(|word| word.len() == 1 || is_code(word));
    }
    let is_of_numbers = words.len() > 1
        && words.contains(&NUMBER)
        && words.iter().all(|word| ON_NUMBERS.contains(word));
    let is_figure = |word: &str| word.bytes().all(|byte| byte.is_ascii_digit());
    let is_of_machine = words.iter().any(|word| MACHINES.contains(word))
        && words.iter().all(|word| {
            let is_name = |word: &&str| is_code(word) && (is_figure(word) || !is_mark(word));
            MACHINES.contains(word) || SIDES.contains(word) || is_name(word)
        });
    words.len() <= MOST_WORDS && (is_of_numbers || is_of_machine)
}

/// True for the kind of a bearing in words, which its number says as well.
fn names_bearings(remark: &str, folded: &str) -> bool {
    let is_kind = || family_in(remark).is_some_and(|of| of.class() == PartClass::Bearings);
    ANY_BEARING.contains(&folded) || names_parts(remark) && is_kind()
}

/// `2024-03-01`, `03/2024`, `from 1.3.24`.
fn is_date(remark: &str, words: &[&str]) -> bool {
    let figures = match words.split_first() {
        Some((first, rest)) if BEFORE_DATES.contains(first) => rest,
        _ => words,
    };
    let is_year =
        |word: &&str| word.len() == 4 && (word.starts_with("19") || word.starts_with("20"));
    let are_figures = figures
        .iter()
        .all(|word| word.bytes().all(|byte| byte.is_ascii_digit()));
    let is_whole = figures.len() == 3 || figures.len() == 2 && figures.iter().any(is_year);
    are_figures && is_whole && remark.contains(['-', '/', '.'])
}

/// True for what stands behind some number and is understood there.
fn is_mark(word: &str) -> bool {
    BASES.iter().any(|base| {
        Designation::parse(&format!("{base} {word}"))
            .is_none_or(|read| read.traits.unknown_suffixes.is_empty())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn brackets_are_read_but_for_places_machines_and_dates() {
        // What surely says nothing of a part: common practice, no source.
        for (text, outside, inside) in [
            ("Bearing 6308 (C3)", "Bearing 6308", "C3"),
            ("6308(2RS) C3", "6308  C3", "2RS"),
            ("7208 B [pair, DB]", "7208 B", "pair, DB"),
            (
                "NA 4905 (inner ring missing",
                "NA 4905",
                "inner ring missing",
            ),
            ("6308 (bin C3)", "6308", ""),
            ("6308 (Fach 12)", "6308", ""),
            ("6308 (for pump 3)", "6308", ""),
            ("6308 (motor DE)", "6308", ""),
            ("6308 (2024-03-01)", "6308", ""),
            ("6308 (from 03/2024)", "6308", ""),
            ("6308 (2nd number)", "6308", ""),
            ("Lager (Rillenkugellager) 6308", "Lager  6308", ""),
            // Machines with a mark or another word beside them, and figures that are no date.
            ("6308 (pump C3)", "6308", "pump C3"),
            (
                "6308 (for pump 3, without cage)",
                "6308",
                "for pump 3, without cage",
            ),
            ("6308 (2024)", "6308", "2024"),
            ("32208 (cup)", "32208", "cup"),
            ("6308 (for hot pump)", "6308", "for hot pump"),
        ] {
            let (out, held) = parted(text);
            assert_eq!((out.as_str(), held.as_str()), (outside, inside), "{text}");
        }
    }
}
