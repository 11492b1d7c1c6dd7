//! Signs at the end of a question that are of its sentence and of no number, `25x52x15?`, `KM5.`, and units behind each figure of
//! a joined size: `25mmx52mmx15mm`.

use super::partial::{self, GAPS};
use super::{Question, binding, half_figures};

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
    let whole = text.trim_end_matches(['!', ' ']);
    let asks = whole.ends_with('?');
    // Signs apart are of the sentence, and those on the last word may be places of it: `620? ?`, `6206 C3 ??`.
    let mut left = whole;
    while let Some((before, last)) = left.rsplit_once(' ')
        && last.chars().all(|c| matches!(c, '?' | '!'))
    {
        left = before.trim_end();
    }
    if asks {
        let bare = left.trim_end_matches(['?', '!']);
        if bare.is_empty() {
            return (text, None);
        }
        if left.ends_with('?') && is_gap(left) {
            let is_apart = left.len() < whole.len();
            return (left.to_owned(), is_apart.then(|| IS_QUESTION.to_owned()));
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

/// True where the signs at the end may stand for those that cannot be read: numbers or sizes of the tables have them there, or
/// what is left is no whole figure.
fn is_gap(text: &str) -> bool {
    let (number, _) = partial::split(text);
    let last = text.rsplit(' ').next().unwrap_or_default();
    let is_number = |number: &str| number.ends_with(GAPS) && partial::read(number).is_some();
    is_number(&number)
        || is_number(last)
        || is_cut_figure(text)
        || half_figures::read(&mut Question::of(text), text).is_some()
}

/// Fewest digits of a number that is no length.
const LEAST_OF_NUMBER: usize = 4;

/// `O-ring 38.1x3.?`, `bore 25 od 5?`, `5?`: a decimal is missing, or one digit is all that is left of a dimension.
fn is_cut_figure(text: &str) -> bool {
    let bare = text.trim_end_matches(GAPS);
    let (before, last) = bare.rsplit_once(' ').unwrap_or(("", bare));
    let is_decimal = last.len() > 1
        && last.ends_with(['.', ','])
        && last[..last.len() - 1].ends_with(|c: char| c.is_ascii_digit());
    let is_digit = last.len() == 1 && last.bytes().all(|b| b.is_ascii_digit());
    let name = before.rsplit(' ').next().unwrap_or_default();
    let is_dimension = name.is_empty() || binding::is_role(name);
    // `KM5.?` and `6205.?` are numbers, and their point is of the sentence.
    let is_long = last.len() > LEAST_OF_NUMBER || last.starts_with(|c: char| c.is_alphabetic());
    let is_number = is_long && !last.contains(['x', 'X', '×']);
    is_decimal && !is_number || is_digit && is_dimension
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
            ("6205.?", "6205", true),
            // What cannot be read stays, and so do shortened words.
            ("63?6", "63?6", false),
            ("620?", "620?", false),
            ("DIN 471 3?", "DIN 471 3?", false),
            ("pin ISO 8734 6 x 3?", "pin ISO 8734 6 x 3?", false),
            ("62??", "62??", false),
            ("AS568-2??", "AS568-2??", false),
            ("NU2??", "NU2??", false),
            ("O-ring 38.1x3.?", "O-ring 38.1x3.?", false),
            ("M25x1.?", "M25x1.?", false),
            ("bore 25 od 5?", "bore 25 od 5?", false),
            ("5?", "5?", false),
            // What stands apart is of the sentence all the same.
            ("620? ?", "620?", true),
            ("bore 25 od 52?", "bore 25 od 52", true),
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

    /// Series 62 of ISO 15 is 6200 and on, numbers 200 and on of AS568 are of one section.
    #[test]
    fn two_signs_at_the_end_are_places_of_the_number() {
        for (text, begins, least) in [
            ("62??", "62", 20),
            ("AS568-2??", "AS568-2", 50),
            ("NU2??", "NU2", 10),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let rows = &question.partial;
            assert!(rows.len() >= least, "{text}: {question:?}");
            for row in rows {
                let mut names = std::iter::once(&row.designation).chain(&row.synonyms);
                assert!(
                    names.any(|name| name.starts_with(begins)),
                    "{text}: {row:?}"
                );
            }
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
