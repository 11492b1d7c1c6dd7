//! Two closures in one question: `6206-2RS open`. Neither is dropped in silence.

use super::{Question, grade, set_words};
use crate::part::designation::elastomer;
use crate::part::{Closure, ContactAngle};

/// Keeps words that say another closure than the one that was read as not understood, and asks which of the two is meant.
pub(super) fn tell(question: &mut Question, known: Closure, words: &str) {
    let mark = known.code();
    question.not_understood.push(words.to_owned());
    question.notes.push(format!(
        "`{mark}` and `{words}` contradict each other: look at both faces of the old bearing, and ask again with the one that is right"
    ));
}

/// Sets what a mark says; where one before it said otherwise, neither is known, and the other is given.
pub(super) fn settle<T: PartialEq + Copy>(slot: &mut Option<T>, said: T, usual: T) -> Option<T> {
    let other = slot.filter(|known| *known != usual && *known != said);
    *slot = other.is_none().then_some(said);
    other
}

/// Keeps a mark that says another clearance or class than the one before it as not understood: neither is known.
pub(super) fn tell_mark(question: &mut Question, known: &str, word: &str) {
    question.not_understood.push(word.to_owned());
    question.notes.push(format!(
        "`{known}` and `{word}` contradict each other: read the marks of the old bearing, and ask again with the one that is right"
    ));
}

/// Sets the elastomer that a word says; beside another one neither is known, and both are told.
pub(super) fn set_elastomer(question: &mut Question, symbol: &str, word: &str) {
    let is_told = question
        .not_understood
        .iter()
        .any(|of| elastomer(of).is_some())
        || (question.traits.unknown_suffixes.iter()).any(|of| elastomer(of).is_some());
    match question
        .traits
        .material
        .take_if(|known| known.as_str() != symbol)
    {
        None if !is_told => question.traits.material = Some(symbol.to_owned()),
        None => question.not_understood.push(word.to_owned()),
        Some(known) => {
            question.not_understood.push(word.to_owned());
            question.notes.push(format!(
                "`{known}` and `{word}` contradict each other: read the marks of the old seal or its order, and ask again with the elastomer that is right"
            ));
        }
    }
}

/// Letters of contact angles, degrees.
///
/// # Source
/// DIN 628-1 and DIN 623-1 for B; C, AC and A by public type descriptions (common practice).
const ANGLES: [(&str, u8); 4] = [("C", 15), ("AC", 25), ("A", 30), ("B", 40)];

/// In front of a contact angle that was not understood.
const ANGLE: &str = "contact angle ";

/// Keeps a contact angle that contradicts the one of the number as not understood: the number's stays, and both are told.
pub(super) fn tell_angle(question: &mut Question, known: ContactAngle, degrees: &str) {
    let letter = ANGLES.iter().find(|(_, of)| *of == known.0);
    let is_written = |letter: &str| {
        let mut words = question.text.split(|c: char| !c.is_alphanumeric());
        words.any(|word| word.trim_start_matches(|c: char| c.is_ascii_digit()) == letter)
    };
    let mark = match letter.filter(|(letter, _)| is_written(letter)) {
        Some((letter, of)) => format!("{letter} ({of}°)"),
        None => format!("{}°", known.0),
    };
    tell_mark(question, &mark, &format!("{degrees}°"));
    if let Some(word) = question.not_understood.last_mut() {
        *word = format!("{ANGLE}{degrees}");
    }
}

impl Question {
    /// The words not understood that no other note tells: a contact angle that contradicts the number's is told beside that,
    /// and so are a set whose arrangement is open and a grade that no table has.
    pub fn untold(&self) -> Vec<&str> {
        let is_told = |word: &str| {
            word.strip_prefix(ANGLE).is_some_and(|degrees| {
                let says = format!("`{degrees}°` contradict each other");
                self.notes.iter().any(|note| note.contains(&says))
            })
        };
        let words = self.not_understood.iter().map(String::as_str);
        words
            .filter(|word| {
                !is_told(word) && !set_words::is_told(self, word) && !grade::is_told(self, word)
            })
            .collect()
    }
}

/// Sets the closure that a word behind the number says; one that contradicts the number is told.
pub(super) fn set(question: &mut Question, closure: Closure, word: &str) {
    let known = question.traits.closure;
    match known.filter(|known| *known != Closure::Open && *known != closure) {
        Some(known) => tell(question, known, word),
        None => question.traits.closure = Some(closure),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Question {
        Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    /// DIN 623-1: 2RS and 2Z close both sides, Z and RS one; no mark is open.
    #[test]
    fn a_bearing_that_is_closed_and_open_is_told() {
        for (text, words, mark) in [
            ("6206 2RS open", "open", "2RS"),
            ("6206-2RS open", "open", "2RS"),
            ("6206 open 2RS", "open", "2RS"),
            ("6206 Z open", "open", "Z"),
            ("6206-2Z offen", "offen", "2Z"),
            ("6206 2RS C3 offen", "offen", "2RS"),
            ("6206-2RS open both sides", "open both sides", "2RS"),
            ("6206-2Z beidseitig offen", "beidseitig offen", "2Z"),
            ("6206-2RS ohne Dichtung", "ohne Dichtung", "2RS"),
        ] {
            let question = read(text);
            assert_eq!(question.not_understood, [words], "{text}");
            let told = question.notes.join("; ");
            let says = format!("`{mark}` and `{words}` contradict");
            assert!(told.contains(&says), "{text}: {told}");
            let kept = question.traits.closure.map(Closure::code);
            assert_eq!(kept, Some(mark), "{text}");
        }
    }

    /// ISO 5753-1 and ISO 492: a bearing is of one group and one class.
    #[test]
    fn two_clearances_or_classes_beside_a_seat_leave_it_open() {
        for (text, known, word) in [
            ("6205 C2 C3 shaft 25", "C2", "C3"),
            ("25 x 52 x 15 deep groove C3 C4", "C3", "C4"),
            ("25 x 52 x 15 deep groove P6 P5", "P6", "P5"),
        ] {
            let question = read(text);
            assert_eq!(question.not_understood, [word], "{text}");
            let told = question.notes.join("; ");
            let says = format!("`{known}` and `{word}` contradict each other: read the marks");
            assert!(told.contains(&says), "{text}: {told}");
            let traits = &question.traits;
            let is_open = match word {
                "P5" => traits.tolerance_class.is_none(),
                _ => traits.clearance.is_none(),
            };
            assert!(is_open, "{text}");
        }
        let once = read("6205 shaft 25 C3 C3");
        assert!(once.not_understood.is_empty() && once.traits.clearance.is_some());
    }

    /// ISO 1629: a seal is of one elastomer.
    #[test]
    fn two_elastomers_are_told() {
        for text in [
            "O-ring 25x3 NBR FKM",
            "O-ring 25x3 NBR or FKM",
            "O-ring 25x3 NBR EPDM mineral oil",
            "lip seal 40x62x7 NBR FKM",
            "o-ring 20.3 x 2.4 NBR FKM",
            "AS568-214 NBR FKM",
        ] {
            let question = read(text);
            assert_eq!(question.traits.material, None, "{text}");
            let is_told = question.notes.iter().any(|of| of.contains("contradict"));
            let are_marks = question.traits.unknown_suffixes.len() == 2;
            assert!(is_told || are_marks, "{text}: {question:?}");
        }
        for text in ["O-ring 25x3 FPM FKM", "O-ring 25x3 NBR or NBR"] {
            let question = read(text);
            assert!(question.traits.material.is_some(), "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
    }

    /// DIN 628-1: B is 40 degrees; C 15 and A 30 by common practice.
    #[test]
    fn an_angle_that_contradicts_its_letter_is_told() {
        for (text, left, says) in [
            ("7205 B 15°", "contact angle 15", "`B (40°)` and `15°`"),
            ("7205B 15°", "contact angle 15", "`B (40°)` and `15°`"),
            (
                "7206 B contact angle 15",
                "contact angle 15",
                "`B (40°)` and `15°`",
            ),
            (
                "7205 C 40 degrees",
                "contact angle 40",
                "`C (15°)` and `40°`",
            ),
        ] {
            let question = read(text);
            assert_eq!(question.not_understood, [left], "{text}");
            let told = question.notes.join("; ");
            let says = format!("{says} contradict each other: read the marks");
            assert!(told.contains(&says), "{text}: {told}");
            assert!(question.untold().is_empty(), "{text}: {question:?}");
        }
        assert_eq!(read("7205 B 15° wobbly").untold(), ["wobbly"]);
        for text in ["7205 B 40°", "7205 15°", "7205 contact angle 40"] {
            let question = read(text);
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
            assert!(question.traits.contact_angle.is_some(), "{text}");
        }
    }

    #[test]
    fn what_is_open_on_both_sides_is_open() {
        for text in [
            "6206 open",
            "6206 open both sides",
            "6206 open on both sides",
            "6206 both sides open",
            "6206 beidseitig offen",
            "6206 beidseits offen",
            "6206 offen beidseitig",
            "6206 ouvert",
            "6206 ouvert des deux côtés",
            "6206 abierto",
            "30 x 62 x 16 deep groove open both sides",
        ] {
            let question = read(text);
            assert_eq!(question.traits.closure, Some(Closure::Open), "{text}");
            let (left, told) = (&question.not_understood, &question.notes);
            assert!(
                left.is_empty() && told.is_empty(),
                "{text}: {left:?} {told:?}"
            );
        }
    }

    #[test]
    fn what_is_closed_on_one_side_is_open_on_the_other() {
        for text in [
            "6206-Z one side open",
            "6206 Z other side open",
            "6206 one side shielded, other side open",
        ] {
            let question = read(text);
            let closure = question.traits.closure;
            assert_eq!(closure, Some(Closure::ShieldOneSide), "{text}");
            let left = &question.not_understood;
            assert!(left.is_empty(), "{text}: {left:?}");
        }
    }
}
