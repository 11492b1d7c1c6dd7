//! Signs at the end of a question that are of its sentence and of no number, `25x52x15?`, `KM5.`, and units behind each figure of
//! a joined size: `25mmx52mmx15mm`.

use super::partial::{self, GAPS};
use super::{Question, half_figures};

/// Told where a question mark was taken for the end of the question.
const IS_QUESTION: &str = "`?` at the end is taken as the end of the question: a sign that cannot be read stands in its place in the number";

/// A text without them, and what is told of it.
pub(super) fn without(text: String) -> (String, Option<String>) {
    let (text, note) = match text.bytes().last() {
        Some(b'?' | b'!' | b'.') => without_end(text),
        _ => (text, None),
    };
    (units_once(&text).unwrap_or(text), note)
}

/// A point behind a figure, a mark or a symbol ends the sentence; behind other letters it shortens a word: `o.d.`, `pcs.`.
fn without_end(text: String) -> (String, Option<String>) {
    let mut left = text.trim_end_matches(['!', ' ']);
    let asks = left.ends_with('?');
    if asks {
        let bare = left.trim_end_matches(['?', ' ', '!']);
        let is_apart = left[bare.len()..].starts_with(' ');
        let is_sign = !is_apart && left.len() == bare.len() + 1 && is_gap(left);
        if is_sign || bare.is_empty() {
            return (text, None);
        }
        left = bare;
    }
    if let Some(bare) = left.strip_suffix('.') {
        let last = bare.rsplit(' ').next().unwrap_or_default();
        let has_digit = last.contains(|c: char| c.is_ascii_digit());
        let is_symbol = last.len() > 2 && last.bytes().all(|b| b.is_ascii_uppercase());
        if !last.ends_with('.') && (has_digit || is_symbol) {
            left = bare;
        }
    }
    let note = asks.then(|| IS_QUESTION.to_owned());
    (left.to_owned(), note)
}

/// True where the sign at the end may stand for one that cannot be read: numbers or sizes of the tables have one there.
fn is_gap(text: &str) -> bool {
    let (number, _) = partial::split(text);
    let last = text.rsplit(' ').next().unwrap_or_default();
    let is_number = |number: &str| number.ends_with(GAPS) && partial::read(number).is_some();
    is_number(&number)
        || is_number(last)
        || half_figures::read(&mut Question::of(text), text).is_some()
}

/// `25mmx52mmx15mm` as `25x52x15mm`; `None` where no unit stands inside of a size.
fn units_once(text: &str) -> Option<String> {
    const UNIT: &[u8] = b"mm";
    let bytes = text.as_bytes();
    let is_inside = |at: usize| {
        let is_unit = bytes[at..].starts_with(UNIT) && bytes[at - 1].is_ascii_digit();
        is_unit
            && text
                .get(at + UNIT.len()..)
                .is_some_and(|rest| rest.starts_with(['x', 'X', '×', '*']))
    };
    let found = |from: usize| {
        (from.max(1)..bytes.len().saturating_sub(UNIT.len())).find(|at| is_inside(*at))
    };
    let mut next = found(0)?;
    let (mut left, mut start) = (String::with_capacity(text.len()), 0);
    loop {
        left.push_str(&text[start..next]);
        start = next + UNIT.len();
        match found(start) {
            Some(at) => next = at,
            None => break,
        }
    }
    left.push_str(&text[start..]);
    Some(left)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::answer;

    #[test]
    fn the_end_of_a_sentence_is_no_sign_of_a_number() {
        for (text, left, is_told) in [
            ("25x52x15?", "25x52x15", true),
            ("dowel pin 6x30?", "dowel pin 6x30", true),
            ("6205?", "6205", true),
            ("608?", "608", true),
            ("7206 ?", "7206", true),
            ("6206 C3 ??", "6206 C3", true),
            ("6205!", "6205", false),
            ("KM5.", "KM5", false),
            ("25x3 NBR.", "25x3 NBR", false),
            ("KM5.?", "KM5", true),
            // What cannot be read stays, and so do shortened words.
            ("63?6", "63?6", false),
            ("620?", "620?", false),
            ("DIN 471 3?", "DIN 471 3?", false),
            ("pin ISO 8734 6 x 3?", "pin ISO 8734 6 x 3?", false),
            ("25 52 o.d.", "25 52 o.d.", false),
            ("6206 2 pcs.", "6206 2 pcs.", false),
            ("?", "?", false),
            ("6206", "6206", false),
        ] {
            let (read, note) = without(text.to_owned());
            assert_eq!((read.as_str(), note.is_some()), (left, is_told), "{text}");
        }
    }

    #[test]
    fn a_unit_behind_each_figure_is_one_of_all() {
        for (text, left) in [
            ("25mmx52mmx15mm", "25x52x15mm"),
            ("O-ring 25mmx3mm", "O-ring 25x3mm"),
            ("25mmX52mm", "25X52mm"),
            ("25mm×52mm", "25×52mm"),
            ("25 mm x 52 mm", "25 mm x 52 mm"),
            ("25mm x 52mm", "25mm x 52mm"),
            ("mmx", "mmx"),
        ] {
            assert_eq!(without(text.to_owned()).0, left, "{text}");
        }
    }

    /// ISO 15: 6205 is 25 x 52 x 15 mm; ISO 2982-2: KM5.
    #[test]
    fn the_part_is_found_all_the_same() {
        for (text, name) in [
            ("25x52x15?", "6205"),
            ("25mmx52mmx15mm", "6205"),
            ("O-ring 25mmx3mm", "25x3"),
            ("KM5.", "KM5"),
            ("6205?", "6205"),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let answers = answer(&question, None).answers;
            let first = answers.first().map(|one| one.designation.as_str());
            assert_eq!(first, Some(name), "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
    }
}
