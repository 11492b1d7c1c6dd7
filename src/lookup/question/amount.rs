//! A figure with a unit behind it is an amount, and a figure of a size a length: neither is the number of a part, though a
//! bearing may have that number (`6000 rpm`, `1200 x 1600 x 200`).

use super::figure::is_figure;
use super::quantity;
use crate::standard::is_designation;

/// Fewest digits of a length that a bearing's number may be, and of a number without letters.
const LEAST_LENGTH: usize = 3;
const LEAST_NUMBER: usize = 4;
/// Nothing of a machine is hotter, degrees.
const HOTTEST: f64 = 1_999.0;

/// True where the figure at a place has a unit of speed, pressure or length behind it, or is one of the figures of a size.
pub(super) fn is_one(words: &[&str], at: usize) -> bool {
    let Some(word) = words.get(at).filter(|word| is_digits(word)) else {
        return false;
    };
    let next = words.get(at + 1).copied().unwrap_or_default();
    let is_mm = next
        .trim_end_matches([',', ';', ')'])
        .eq_ignore_ascii_case("mm");
    // How many are wanted has a digit or two: `2 x 6308`.
    let ends_size = || {
        let before = at.checked_sub(2).map(|at| (words[at], words[at + 1]));
        before.is_some_and(|(other, cross)| is_cross(cross) && is_long(other))
    };
    quantity::is_apart(words, at + 1)
        || is_mm
        || begins_size(words, at)
        || word.len() >= LEAST_LENGTH && ends_size()
}

/// True for the figure in front of a cross with a length behind it: `1200` of `1200 x 1600`.
pub(super) fn begins_size(words: &[&str], at: usize) -> bool {
    let [figure, cross, other, ..] = words.get(at..).unwrap_or_default() else {
        return false;
    };
    is_digits(figure) && figure.len() >= LEAST_LENGTH && is_cross(cross) && is_long(other)
}

fn is_cross(word: &str) -> bool {
    matches!(word, "x" | "X" | "×")
}

fn is_long(word: &str) -> bool {
    is_figure(word) && word.bytes().filter(u8::is_ascii_digit).count() >= LEAST_LENGTH
}

/// True for degrees that something may have, and no number with a mark behind it: `7206 C` is a bearing of 15 degrees.
pub(super) fn may_be_heat(figure: &str, degrees: f64, unit: &str) -> bool {
    let is_number = matches!(unit, "c" | "f")
        && figure.len() >= LEAST_NUMBER
        && is_digits(figure)
        && is_designation(figure);
    degrees <= HOTTEST && !is_number
}

pub(super) fn is_digits(word: &str) -> bool {
    !word.is_empty() && word.bytes().all(|b| b.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    fn read(text: &str) -> Question {
        Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    #[test]
    fn a_unit_or_a_size_makes_a_figure_no_number() {
        for (text, at, is_it) in [
            ("motor 6000 rpm 6206", 1, true),
            ("motor 6000 1/min", 1, true),
            ("seal 1200 bar", 1, true),
            ("ring 1200 mm", 1, true),
            ("bearing 1200 x 1600 x 200", 1, true),
            ("bearing 1000 x 1200 x 200", 3, true),
            ("need 2 x 6308", 3, false),
            ("fan 6308 x 2", 1, false),
            ("fan 6308 N", 1, false),
            ("fan 6308", 1, false),
            ("fan 6308-2RS rpm", 1, false),
            ("fan", 1, false),
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            assert_eq!(is_one(&words, at), is_it, "{text}");
        }
    }

    /// ISO 15: 6000 is a ball bearing of 10 mm bore, and 6206-2RS one of 30 mm.
    #[test]
    fn a_speed_in_front_of_or_behind_a_part_is_its_speed() {
        for (text, number, figures) in [
            ("motor 6000 rpm 6206-2RS", Some("6206"), 0),
            ("motor 6000 U/min 6206-2RS", Some("6206"), 0),
            ("bearing 25x52x15 6000 rpm", None, 3),
            ("bearing 25x52x15 6000/min", None, 3),
            ("oil seal shaft 40 od 62 6000 rpm", None, 2),
            ("lip seal 40-62-7 6000 rpm NBR", None, 3),
            ("Drehzahl 6000 1/min, 25x52x15", None, 3),
            ("6000 rpm bearing 25x52x15", None, 3),
        ] {
            let question = read(text);
            let designation = question.designation.as_ref();
            let name = designation.map(|read| read.basic.as_str());
            assert_eq!(name, number, "{text}");
            assert_eq!(question.needs.speed_rpm, Some(6_000.0), "{text}");
            assert_eq!(question.readings.len(), figures, "{text}: {question:?}");
            assert!(question.partial.is_empty(), "{text}");
        }
    }

    /// ISO 15: 1200 is a self-aligning ball bearing of 10 mm bore, and no bearing of the tables has 1600 mm.
    #[test]
    fn a_length_that_a_bearing_is_called_by_is_a_length() {
        let question = read("bearing 1200 x 1600 x 200");
        assert!(question.designation.is_none(), "{question:?}");
        assert_eq!(question.readings.len(), 3);
    }

    #[test]
    fn no_part_is_as_hot_as_its_number() {
        for (figure, unit, is_it) in [
            ("120", "c", true),
            ("120", "°c", true),
            ("250", "f", true),
            ("7206", "c", false),
            ("7206", "°c", false),
            ("6206", "f", false),
            ("1206", "c", false),
            ("1206", "°c", true),
            ("1100", "c", true),
        ] {
            let degrees: f64 = figure.parse().unwrap();
            assert_eq!(may_be_heat(figure, degrees, unit), is_it, "{figure} {unit}");
        }
    }
}
