//! Pieces of text that are figures: `40`, `40x80x18`, `5/8"`, `.63`.

use super::inch;
use crate::units::{LengthUnit, ReadLength, read_length, read_size};

/// True for a piece of text that holds figures only: `40`, `40x80x18`, `5/8"`, `.63`, `1-5/8`.
pub(super) fn is_figure(word: &str) -> bool {
    // Most words have no digit, or nothing else.
    let digits = word.bytes().filter(u8::is_ascii_digit).count();
    if digits == 0 || digits == word.len() {
        return digits > 0;
    }
    let word = word.trim_end_matches([',', ';']);
    let body = word
        .trim_end_matches("mm")
        .trim_end_matches("in")
        .trim_end_matches(['"', '″', '”', '\'']);
    body.contains(|c: char| c.is_ascii_digit())
        && body
            .chars()
            .all(|c| c.is_ascii_digit() || ".,/xX×*Ø-⌀\"".contains(c))
}

/// True for a thread written as such, which is no suffix of a number: `M45x1.5`.
pub(super) fn is_thread(word: &str) -> bool {
    word.strip_prefix(['M', 'm'])
        .is_some_and(|size| is_size(size) && size.starts_with(|c: char| c.is_ascii_digit()))
}

/// True for a joined size.
pub(super) fn is_size(word: &str) -> bool {
    is_figure(word) && is_joined(word)
}

/// True for a joined size of so many figures.
pub(super) fn is_of_figures(word: &str, figures: usize) -> bool {
    is_size(word) && word.split(CROSS).count() == figures
}

/// Diameter, class and length of a pin written in one: `8m6x40`.
pub(super) fn pin_size(word: &str) -> Option<(&str, &str, &str)> {
    let (front, length) = word.split_once(CROSS)?;
    let (diameter, fit) = front.split_at(front.find(|c: char| c.is_ascii_alphabetic())?);
    let is_pin =
        is_figure(diameter) && is_figure(length) && crate::part::FitClass::read(fit).is_some();
    is_pin.then_some((diameter, fit, length))
}

/// True where the text names inches.
pub(super) fn has_inch(text: &str) -> bool {
    if text.contains(['"', '″', '”']) {
        return true;
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    (0..words.len()).any(|at| inch::is_inch(&words, at))
}

pub(super) fn is_joined(text: &str) -> bool {
    text.contains(CROSSES)
}

pub(super) fn unit_of(text: &str) -> Option<LengthUnit> {
    if text.ends_with("mm") {
        Some(LengthUnit::Mm)
    } else if text.ends_with("in") || text.contains(['"', '″', '”']) || has_fraction(text) {
        Some(LengthUnit::Inch)
    } else {
        None
    }
}

/// A bare inch fraction makes the whole question inches: `3/4 x 1 5/8 x 7/16`, `1 2.5 5/8`, `3/4x1.625x.4375`.
pub(super) fn has_fraction(text: &str) -> bool {
    let is_one = |piece: &str| {
        read_length(piece, LengthUnit::Mm).is_ok_and(|read| read.unit == LengthUnit::Inch)
    };
    text.contains('/') && text.split(CROSSES).map(str::trim).any(is_one)
}

/// True where a text ends with whole digits that the inch fraction at the start of the next word belongs to: `3/8x1` before
/// `1/2`, `1` before `5/8x7/16`.
pub(super) fn goes_on(text: &str, next: &str) -> bool {
    let whole = text.rsplit(CROSSES).next().unwrap_or(text);
    let first = next.split(CROSSES).next().unwrap_or(next);
    let is_whole = (1..=2).contains(&whole.len()) && whole.bytes().all(|b| b.is_ascii_digit());
    is_whole && is_figure(next) && is_inch_fraction(first)
}

/// True where a text taken apart before one of its words would end with the cross of a size: `8 x` of `8 x 19 x 6`. Behind more
/// digits a cross may be the X of a number: `32006 x`.
pub(super) fn is_within_size(words: &[&str], at: usize) -> bool {
    let is_short = |word: &str| {
        is_figure(word) && word.bytes().filter(u8::is_ascii_digit).count() < LEAST_OF_NUMBER
    };
    let ([.., figure, cross], Some(next)) = (&words[..at], words.get(at)) else {
        return false;
    };
    cross.chars().all(|c| CROSSES.contains(&c)) && is_short(figure) && is_figure(next)
}

/// Fewest digits of a number that an X may end.
const LEAST_OF_NUMBER: usize = 4;

/// What stands between the figures of a size.
pub(super) const CROSS: [char; 3] = ['x', 'X', '×'];
/// These, and the one of a keypad.
const CROSSES: [char; 4] = ['x', 'X', '×', '*'];

/// True for a proper fraction of an inch, in halves to 128ths: `13/16`, but not `60/22`, which is a bearing's number.
pub(super) fn is_inch_fraction(word: &str) -> bool {
    let word = word.trim_end_matches(['"', '″', '”']);
    let parts = word
        .split_once('/')
        .and_then(|(top, bottom)| Some((top.parse::<u32>().ok()?, bottom.parse::<u32>().ok()?)));
    parts.is_some_and(|(top, bottom)| {
        0 < top && top < bottom && bottom <= 128 && bottom.is_power_of_two()
    })
}

pub(super) fn lengths(text: &str, unit: LengthUnit) -> Option<Vec<ReadLength>> {
    let text = text.trim_matches(['x', 'X', '×', '*', '-', ',']);
    // `0412` numbers something; a length has no noughts in front of its whole figures.
    let is_number = |piece: &str| {
        let piece = piece.trim();
        piece.len() > 2 && piece.starts_with('0') && piece.bytes().all(|b| b.is_ascii_digit())
    };
    if text.split(CROSSES).any(is_number) {
        return None;
    }
    read_size(text, unit)
        .ok()
        .filter(|lengths| !lengths.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::part::designation::Designation;
    use crate::standard;

    #[test]
    fn a_cross_between_lengths_ends_no_number() {
        let within = |text: &str| {
            let words: Vec<&str> = text.split_whitespace().collect();
            let ends: Vec<usize> = (1..words.len())
                .filter(|end| is_within_size(&words, *end))
                .collect();
            ends
        };
        assert_eq!(within("8 x 19 x 6"), [2, 4]);
        assert_eq!(within("3/4 x 1 5/8 x 7/16"), [2, 5]);
        assert_eq!(within("40 × 80 deep groove"), [2]);
        // ISO 355: of series 320 the X is of the number; a word behind the cross is no length.
        for text in ["32006 x 55", "8 x worn", "x 8", "6206 C3"] {
            assert!(within(text).is_empty(), "{text}");
        }
    }

    #[test]
    fn no_number_of_the_tables_ends_with_short_figures_and_a_cross() {
        for row in standard::parts() {
            let text = format!("{} x", row.designation);
            let words: Vec<&str> = text.split(' ').chain(["30"]).collect();
            let is_within = is_within_size(&words, words.len() - 1);
            let read = Designation::parse(&text).filter(|_| is_within);
            let is_whole = read.is_some_and(|read| {
                read.traits.unknown_suffixes.is_empty() && standard::resolve(&read).is_some()
            });
            assert!(!is_whole, "{text}");
        }
    }
}
