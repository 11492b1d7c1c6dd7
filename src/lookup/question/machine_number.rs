//! Numbers of machines, `pump 3 6205`, `25x52x15 for motor 2`: they are no figures of the part.

use std::sync::LazyLock;

use super::any_of::AnyOf;
use super::drawing_number::{self, bare};
use super::figure::is_size;
use super::{letters, whole_part};

/// Machines that a shop has several of, in lower case.
const MACHINES: [&str; 27] = [
    "pump",
    "pumpe",
    "pompe",
    "motor",
    "moteur",
    "fan",
    "lüfter",
    "ventilator",
    "gearbox",
    "getriebe",
    "conveyor",
    "förderer",
    "machine",
    "maschine",
    "line",
    "linie",
    "anlage",
    "press",
    "presse",
    "mill",
    "mühle",
    "station",
    "compressor",
    "kompressor",
    "mixer",
    "crane",
    "kran",
];
/// What they begin with, in lower case.
const BEGINNINGS: [&str; 25] = [
    "pump",
    "pompe",
    "motor",
    "moteur",
    "fan",
    "lüfter",
    "ventilator",
    "gearbox",
    "getriebe",
    "conveyor",
    "förder",
    "machine",
    "maschine",
    "line",
    "linie",
    "anlage",
    "press",
    "mill",
    "mühle",
    "kran",
    "station",
    "compressor",
    "kompressor",
    "mixer",
    "cran",
];

/// Takes the numbers of machines off a text that has a whole part besides; gives what is left, and what is told of each.
pub(super) fn split(text: &str) -> (String, Vec<String>) {
    static ANY: LazyLock<AnyOf> = LazyLock::new(|| BEGINNINGS.into_iter().collect());
    if !ANY.may_stand_in(text) {
        return (text.to_owned(), Vec::new());
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut taken: Vec<usize> = Vec::new();
    for at in (1..words.len()).rev() {
        let is_machine = MACHINES.contains(&words[at - 1].to_lowercase().as_str());
        if is_machine && is_short(bare(words[at])) {
            // `pump 3 motor 2`: another machine follows.
            let is_it = taken.contains(&(at + 2)) || ends_or_begins_part(&words, at + 1);
            taken.extend(is_it.then_some(at));
        }
    }
    taken.reverse();
    let others = words.iter().enumerate();
    let left: Vec<&str> = others
        .filter(|(at, _)| !taken.contains(at))
        .map(|(_, word)| *word)
        .collect();
    if taken.is_empty() || !drawing_number::has_part(&left) {
        return (text.to_owned(), Vec::new());
    }
    let note = |at: &usize| {
        let said = format!("{} {}", words[at - 1], bare(words[*at]));
        format!("taken as the number of a machine, and not looked at: {said}")
    };
    (left.join(" "), taken.iter().map(note).collect())
}

fn is_short(word: &str) -> bool {
    (1..=2).contains(&word.len()) && word.bytes().all(|b| b.is_ascii_digit())
}

/// True where a text ends at a place, or goes on with a number or a size in one word.
fn ends_or_begins_part(words: &[&str], at: usize) -> bool {
    let Some(next) = words.get(at) else {
        return true;
    };
    let next = bare(next);
    whole_part::is_whole(next)
        || is_size(next)
        || letters::number_at(words, at).is_some()
        || letters::named_at(words, at).is_some()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    #[test]
    fn the_number_of_a_machine_is_no_figure() {
        for (text, left) in [
            ("pump 3 6205", "pump 6205"),
            ("6205 in motor 2", "6205 in motor"),
            ("25x52x15 for motor 3", "25x52x15 for motor"),
            ("fan 12: NU 208", "fan NU 208"),
            ("Pumpe 3 DIN 471-25", "Pumpe DIN 471-25"),
            ("25 52 15 pump 3", "25 52 15 pump"),
            ("LÜFTER 3 6205", "LÜFTER 6205"),
            ("6205 FÖRDERER 2", "6205 FÖRDERER"),
        ] {
            let (read, notes) = split(text);
            assert_eq!(read, left, "{text}");
            let [note] = &notes[..] else {
                panic!("{text}: {notes:?}")
            };
            assert!(
                note.starts_with("taken as the number of a machine"),
                "{text}: {note}"
            );
        }
        for text in [
            "6205 pump 3 motor 2",
            "pump 3 6205 motor 2",
            "6205 pump 3, motor 2",
        ] {
            let (read, notes) = split(text);
            let said: Vec<&str> = notes
                .iter()
                .filter_map(|note| note.split(": ").nth(1))
                .collect();
            assert_eq!(said, ["pump 3", "motor 2"], "{text}");
            let left: Vec<&str> = read.split(' ').collect();
            assert_eq!(left.len(), 3, "{text}: {read}");
        }
        // Figures of the part, speeds, pressures, and nothing besides.
        for text in [
            "motor 25 52 15",
            "motor 25 x 52 x 15",
            "pump 3 bar 40x62x7",
            "6205 motor 2 pole",
            "pump 40 62 7",
            "pump 3",
            "fan 6308",
            "lineal 25 52 15",
        ] {
            assert_eq!(split(text), (text.to_owned(), Vec::new()), "{text}");
        }
        for text in ["6205 in motor 2", "6205 pump 3 motor 2"] {
            let question = Question::read(text).unwrap();
            assert!(question.readings.is_empty(), "{question:?}");
        }
    }

    #[test]
    fn every_machine_has_a_beginning_that_is_looked_for() {
        for machine in MACHINES {
            let mut all = BEGINNINGS.iter();
            assert!(all.any(|of| machine.contains(of)), "{machine}");
        }
    }
}
