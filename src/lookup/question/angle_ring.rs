//! `NH 208`: the bearing NJ 208 with the angle ring HJ 208, which are two parts (DIN 5412-1 and ISO 246, from memory).

use super::amount::is_digits;
use crate::standard::is_designation;

/// The letters of both together, of the bearing and of the ring.
const BOTH: &str = "NH";
const BEARING: &str = "NJ";
const RING: &str = "HJ";

/// A text with the number of bearing and ring as that of the bearing alone, and what is told of it.
pub(super) fn split(text: &str) -> (String, Option<String>) {
    let words: Vec<&str> = text.split_whitespace().collect();
    let Some((at, digits)) = (0..words.len()).find_map(|at| Some((at, digits_at(&words, at)?)))
    else {
        return (text.to_owned(), None);
    };
    let bearing = format!("{BEARING}{}", &words[at][BOTH.len()..]);
    let note = format!(
        "`{BOTH}{digits}` read as the bearing `{BEARING}{digits}` with the angle ring `{RING}{digits}`: the bearing is answered, ask for the ring by itself"
    );
    let before = words[..at].iter().copied();
    let all = before
        .chain([bearing.as_str()])
        .chain(words[at + 1..].to_vec());
    (all.collect::<Vec<_>>().join(" "), Some(note))
}

/// The digits behind the letters at a place, with or without a blank, where a table has the bearing.
fn digits_at<'a>(words: &[&'a str], at: usize) -> Option<&'a str> {
    let (letters, behind) = words[at].split_at_checked(BOTH.len())?;
    if !letters.eq_ignore_ascii_case(BOTH) {
        return None;
    }
    let number = match behind.trim_start_matches('-') {
        "" => words.get(at + 1)?,
        number => number,
    };
    let end = number.find(|c: char| !c.is_ascii_digit());
    let digits = &number[..end.unwrap_or(number.len())];
    let is_known = is_digits(digits) && is_designation(&format!("{BEARING}{digits}"));
    is_known.then_some(digits)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    /// DIN 5412-1: NJ208 is 40 x 80 x 18 mm; that NH is NJ with HJ, from memory.
    #[test]
    fn bearing_and_angle_ring_are_two_parts() {
        for (text, left) in [
            ("NH 208", "NJ 208"),
            ("NH208", "NJ208"),
            ("nh208 C3", "NJ208 C3"),
            ("pump NH 208 E", "pump NJ 208 E"),
        ] {
            let (read, note) = split(text);
            assert_eq!(read, left, "{text}");
            let note = note.unwrap_or_default();
            assert!(note.contains("angle ring `HJ208`"), "{text}: {note}");
            let question = Question::read(text).unwrap();
            let number = question
                .designation
                .as_ref()
                .map(|read| read.basic.as_str());
            assert_eq!(number, Some("NJ208"), "{text}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
            assert!(question.notes.contains(&note), "{text}: {question:?}");
        }
        assert_eq!(split("NH-208").0, "NJ-208");
        for text in ["NJ 208", "NH", "NH 999", "NHx 208", "40 x 80 x 18", ""] {
            assert_eq!(split(text), (text.to_owned(), None), "{text}");
        }
    }
}
