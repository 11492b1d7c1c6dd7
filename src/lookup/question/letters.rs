//! Series with letters in front, whose numbers have three digits or fewer: `NU 208`, `AXK 3552`, `KM6` behind other words.

use super::{Question, whole_part};
use crate::standard::is_designation;

/// Letters of numbers that say enough with few digits (DIN 5412-1, ISO 1206, ISO 3245, DIN 5405, DIN 5429, ISO 2982-2).
const SERIES: [&str; 15] = [
    "N", "NU", "NJ", "NUP", "NF", "NN", "NNU", "HK", "BK", "NA", "RNA", "AXK", "NKX", "NKIA", "KM",
];
/// Fewest digits behind the letters; a lock nut has one.
const LEAST_DIGITS: usize = 3;

/// How many words the number at a place takes at least, where its series has letters and a table has it: `NU208` one,
/// `NU 208` two.
pub(super) fn number_at(words: &[&str], at: usize) -> Option<usize> {
    let word = words.get(at)?;
    let end = word
        .find(|c: char| !c.is_ascii_alphabetic())
        .unwrap_or(word.len());
    let (letters, behind) = word.split_at(end);
    let is_series = SERIES
        .iter()
        .any(|series| series.eq_ignore_ascii_case(letters));
    // A small `n` is a letter of many things.
    if !is_series || letters == "n" {
        return None;
    }
    let (number, count) = match behind.trim_start_matches('-') {
        "" => (words.get(at + 1).copied()?, 2),
        number => (number, 1),
    };
    let digits = number.bytes().take_while(u8::is_ascii_digit).count();
    let least = if letters.eq_ignore_ascii_case("KM") {
        1
    } else {
        LEAST_DIGITS
    };
    let basic = format!("{letters}{}", &number[..digits]);
    let is_known = digits >= least && !number.contains(['.', ',']) && is_designation(&basic);
    is_known.then_some(count)
}

/// How many words a part takes at a place that is named by its standard, by its size behind a letter or by a series of inch
/// bearings: `DIN 471-25` two, `K20x24x10` one, `RMS 8` two.
pub(super) fn named_at(words: &[&str], at: usize) -> Option<usize> {
    const BODIES: [&str; 2] = ["DIN", "ISO"];
    /// BS 292 numbers its inch bearings so.
    const INCH: [&str; 2] = ["RLS", "RMS"];
    let word = words.get(at)?.trim_end_matches([',', ';', '.']);
    let is = |list: &[&str]| list.iter().any(|known| known.eq_ignore_ascii_case(word));
    let begins = |letters: &str| {
        let there = word.get(..letters.len());
        there.is_some_and(|there| there.eq_ignore_ascii_case(letters)) && word.contains('-')
    };
    let next = words.get(at + 1).copied().unwrap_or_default();
    let is_cage = || {
        let size = word.strip_prefix(['K', 'k']).unwrap_or_default();
        size.starts_with(|c: char| c.is_ascii_digit()) && size.contains(['x', 'X'])
    };
    let count = if is(&BODIES) && next.contains('-') || is(&INCH) {
        2
    } else if begins("DIN") || begins("ISO") || begins("AS568") || is_cage() {
        1
    } else {
        return None;
    };
    let name = words.get(at..at + count)?.join(" ");
    whole_part::is_whole(&name).then_some(count)
}

impl Question {
    /// A part by its standard behind other words: `please DIN 471-25`, `cage K20x24x10`.
    pub(super) fn take_named_inside(&mut self, text: String) -> String {
        /// Most marks behind it.
        const MOST_MARKS: usize = 2;
        if self.designation.is_some() {
            return text;
        }
        let words: Vec<&str> = text.split_whitespace().collect();
        for at in 1..words.len() {
            let Some(least) = named_at(&words, at) else {
                continue;
            };
            let most = words.len().min(at + least + MOST_MARKS);
            let taken = (at + least..=most)
                .rev()
                .find(|end| self.take_designation(&words[at..*end].join(" ")));
            if let Some(end) = taken {
                let rest = words[..at].iter().chain(&words[end..]).copied();
                return rest.collect::<Vec<_>>().join(" ");
            }
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_with_letters_are_found_behind_other_words() {
        for (text, count) in [
            ("fan NU 208", Some(2)),
            ("fan NU208", Some(1)),
            ("fan nu-208", Some(1)),
            ("fan NJ208E", Some(1)),
            ("washer KM6", Some(1)),
            ("winch AXK 3552", Some(2)),
            ("gear N 208", Some(2)),
            ("gear n 208", None),
            ("fan NU 20", None),
            ("fan NU 999", None),
            ("shaft M 40", None),
            ("seat N7", None),
            ("fan 208", None),
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            assert_eq!(number_at(&words, 1), count, "{text}");
        }
    }

    /// DIN 471, ISO 8734, DIN 5405, BS 292 and SAE AS568.
    #[test]
    fn parts_named_by_their_standard_are_found_behind_other_words() {
        for (text, count) in [
            ("please DIN 471-25", Some(2)),
            ("please din 471-25, worn", Some(2)),
            ("new ISO 8734-6x30", Some(2)),
            ("spare RMS 8", Some(2)),
            ("cage K20x24x10", Some(1)),
            ("ring AS568-214", Some(1)),
            ("ring DIN 471", None),
            ("ring DIN 471 25", None),
            ("ring ISO 3601-1 40x3", None),
            ("bearing DIN 625-1 6205", None),
            ("cage K20", None),
            ("spare 6206", None),
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            assert_eq!(named_at(&words, 1), count, "{text}");
        }
        for (text, name) in [
            ("please DIN 471-25", "DIN 471-25x1.2"),
            ("item 12 DIN 471-25", "DIN 471-25x1.2"),
            ("pos 5 DIN 472-47", "DIN 472-47x1.75"),
            ("drawing 4711 DIN 471-25", "DIN 471-25x1.2"),
            ("4 pcs DIN 471-25", "DIN 471-25x1.2"),
            ("cage K20x24x10", "K20x24x10"),
            ("spare RMS 8", "RMS8"),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let row = question
                .designation
                .as_ref()
                .and_then(crate::standard::resolve);
            let found = row.map(|row| row.designation.as_str());
            assert_eq!(found, Some(name), "{text}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
        }
    }

    #[test]
    fn the_words_before_a_number_are_told_or_understood() {
        for (text, number, not_understood) in [
            ("fan NU 208", "NU208", &["fan"][..]),
            ("old NU 208", "NU208", &[]),
            ("pump shaft NJ 210 worn", "NJ210", &["pump"]),
            ("gearbox NUP 208 E", "NUP208", &["gearbox"]),
            ("winch AXK 3552", "AXK3552", &["winch"]),
            ("gear RNA 4905", "RNA4905", &["gear"]),
            ("inner ring of NU208", "NU208", &[]),
            ("lock nut KM6", "KM6", &[]),
            // The digits alone would be a self-aligning ball bearing.
            ("old NU 2208 E", "NU2208", &[]),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let row = question
                .designation
                .as_ref()
                .and_then(crate::standard::resolve);
            let name = row.map(|row| row.designation.as_str());
            assert_eq!(name, Some(number), "{text}");
            assert_eq!(question.not_understood, not_understood, "{text}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
        }
        let motor = Question::read("motor NU208 C3").unwrap();
        assert_eq!(motor.traits.clearance, Some(crate::part::Clearance::C3));
        let ring = Question::read("Zylinderrollenlager NJ208 mit Winkelring HJ208").unwrap();
        assert!(
            ring.not_understood.iter().any(|word| word == "HJ208"),
            "{ring:?}"
        );
        let seal = Question::read("oil seal 40x62x8 behind NU208").unwrap();
        assert!(
            seal.notes
                .iter()
                .any(|note| note.contains("`behind NU208` is taken as the place")),
            "{seal:?}"
        );
        let half = Question::read("inner ring of NU208").unwrap();
        assert!(half.traits.has_variant("inner ring only"), "{half:?}");
    }
}
