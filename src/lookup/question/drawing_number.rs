//! Numbers of drawings and of places on them: `drawing 6203 pos 5 6206`. They are no bearings where another number stands beside.

use std::sync::LazyLock;

use super::any_of::AnyOf;
use super::figure::is_figure;
use super::letters;
use crate::standard::is_designation;

/// Words in front of such a number; each has one of the beginnings.
const NAMES: [&str; 18] = [
    "drawing",
    "drg",
    "drg.",
    "dwg",
    "dwg.",
    "zeichnung",
    "zeichnungsnr.",
    "plan",
    "pos",
    "pos.",
    "position",
    "item",
    "teilenr.",
    "sheet",
    "blatt",
    "rev",
    "rev.",
    "balloon",
];
const BEGINNINGS: [&str; 12] = [
    "draw",
    "drg",
    "dwg",
    "zeichnung",
    "plan",
    "pos",
    "item",
    "teilenr",
    "sheet",
    "blatt",
    "rev",
    "balloon",
];
/// Those of drawings: a figure of two or three digits behind them may be a size that was read off it.
const DRAWINGS: [&str; 8] = [
    "drawing",
    "drg",
    "drg.",
    "dwg",
    "dwg.",
    "zeichnung",
    "zeichnungsnr.",
    "plan",
];
/// Words between the name and the number.
const BETWEEN: [&str; 7] = ["no", "no.", "nr", "nr.", "number", "nummer", "#"];
/// Fewest digits of a bearing's number without letters.
const LEAST_DIGITS: usize = 4;

/// Takes numbers of drawings off a text that has another number or a size; gives what is left, and what is told of them.
pub(super) fn split(text: &str) -> (String, Option<String>) {
    static ANY: LazyLock<AnyOf> = LazyLock::new(|| BEGINNINGS.into_iter().collect());
    if !ANY.stands_in(text) {
        return (text.to_owned(), None);
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let (mut left, mut said) = (Vec::new(), Vec::new());
    let mut at = 0;
    while at < words.len() {
        match end_of(&words, at) {
            Some(end) => {
                said.push(bare(&words[at..end].join(" ")).to_owned());
                at = end;
            }
            None => {
                left.push(words[at]);
                at += 1;
            }
        }
    }
    if said.is_empty() || !has_part(&left) {
        return (text.to_owned(), None);
    }
    (left.join(" "), Some(note(&said)))
}

/// Tells what was taken as such numbers.
pub(super) fn note(said: &[String]) -> String {
    format!(
        "taken as numbers of a drawing or a list, and not looked at: {}",
        said.join(", ")
    )
}

/// Where the number of a drawing or of a place on it ends whose name stands at a place.
pub(super) fn end_of(words: &[&str], at: usize) -> Option<usize> {
    let is = |at: usize, list: &[&str]| {
        let word = words
            .get(at)
            .map(|word| word.trim_matches([',', ';', ':', '(']));
        word.is_some_and(|word| list.contains(&word.to_lowercase().as_str()))
    };
    if !is(at, &NAMES) {
        return None;
    }
    let mut number = at + 1;
    while is(number, &BETWEEN) {
        number += 1;
    }
    let digits = bare(words.get(number)?);
    let is_plain = !digits.is_empty() && digits.bytes().all(|b| b.is_ascii_digit());
    let is_long = digits.len() >= LEAST_DIGITS;
    // `drawing 25 52 15` has sizes, and so has `position 40 x 62`.
    let next = words.get(number + 1).copied().unwrap_or_default();
    let is_of_size = matches!(next, "x" | "X" | "×" | "mm" | "in" | "inch");
    let is_it = is_plain && !is_of_size && (is_long || !is(at, &DRAWINGS));
    is_it.then_some(number + 1)
}

/// True for words that hold a bearing's number, a size in one word, or one with crosses or of three figures.
pub(super) fn has_part(words: &[&str]) -> bool {
    let is_number = |at: usize| {
        let word = bare(words[at]);
        let digits = word.bytes().filter(u8::is_ascii_digit).count();
        digits >= LEAST_DIGITS && is_designation(word)
            || letters::number_at(words, at).is_some()
            || letters::named_at(words, at).is_some()
    };
    let is_size = |word: &&str| is_figure(word) && word.contains(['x', 'X', '×']);
    let figures = words.iter().filter(|word| is_figure(word)).count();
    (0..words.len()).any(is_number) || words.iter().any(is_size) || figures > 2
}

/// A word without the marks behind it.
pub(super) fn bare(word: &str) -> &str {
    word.trim_end_matches([',', ';', '.', ')', ':'])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    /// ISO 15: 6203 and 6206 are ball bearings; 25 x 52 x 15 mm is 6205.
    #[test]
    fn a_number_of_a_drawing_is_no_bearing_beside_another() {
        for (text, left) in [
            ("drawing 6203 pos 5 6206", "6206"),
            ("6206 drawing 6203", "6206"),
            ("6206, dwg no. 6203", "6206,"),
            ("Zeichnung 6203 Pos. 12 NU 208", "NU 208"),
            ("item 6203 25x52x15", "25x52x15"),
            ("pos 5 25 52 15", "25 52 15"),
            ("item 12: 6206 C3", "6206 C3"),
        ] {
            let (read, note) = split(text);
            assert_eq!(read, left, "{text}");
            let note = note.unwrap_or_default();
            assert!(
                note.starts_with("taken as numbers of a drawing"),
                "{text}: {note}"
            );
        }
        for text in [
            "item 6203",
            "drawing 6203",
            "drawing 25 52 15",
            "drawing 25x52x15",
            "position 40 x 62 x 7",
            "6206 position",
            "revolving 6206",
            "pos 5",
        ] {
            assert_eq!(split(text), (text.to_owned(), None), "{text}");
        }
        let question = Question::read("drawing 6203 pos 5 6206").unwrap();
        let number = question.designation.as_ref().map(|read| &*read.basic);
        assert_eq!(number, Some("6206"));
        assert!(question.partial.is_empty() && question.not_understood.is_empty());
    }
}
