//! Reads lock nuts and their washers: `KM8`, `KML 26`, `MB8`, `lock nut M40x1.5`.

use super::parsed::Designation;
use super::size_text::{joined, size_of, split_size};
use super::text::{split_digits, strip_word, tokens};
use crate::part::Family;

const WORDS: [&str; 8] = [
    "DIN 981",
    "ISO 2982-2",
    "ISO 2982",
    "LOCK NUT",
    "LOCKNUT",
    "LOCK-NUT",
    "WELLENMUTTER",
    "NUTMUTTER",
];
/// Letters of nuts, and of the washers that lock them, of which no sizes are kept.
const NUTS: [&str; 2] = ["KM", "KML"];
const WASHERS: [&str; 2] = ["MB", "MBL"];
/// Largest code of DIN 981 taken for a nut.
const LAST_CODE: u16 = 56;

/// What texts begin with that are read here, where it is a letter.
pub(super) fn openings() -> Vec<&'static str> {
    [&WORDS[..], &NUTS, &WASHERS].concat()
}

/// Reads a lock nut designation from cleaned text.
pub(super) fn read(text: &str) -> Option<Designation> {
    let after_word = strip_word(text, &WORDS);
    let body = after_word.unwrap_or(text);
    let (mut designation, rest) = match after_word.and(body.strip_prefix('M')) {
        Some(thread) if thread.starts_with(|c: char| c.is_ascii_digit()) => by_thread(thread)?,
        _ => by_code(body)?,
    };
    for token in tokens(rest) {
        designation.add_unknown(token);
    }
    Some(designation)
}

fn by_thread(text: &str) -> Option<(Designation, &str)> {
    let (lengths, rest) = split_size(text, 2)?;
    let mut designation = Designation::of(format!("M{}", joined(&lengths)), Some(Family::LockNut));
    designation.size = Some(size_of(Family::LockNut, &lengths)?);
    Some((designation, rest))
}

fn by_code(text: &str) -> Option<(Designation, &str)> {
    let end = text.find(|c: char| !c.is_ascii_alphabetic())?;
    let (letters, rest) = text.split_at(end);
    let family = NUTS.contains(&letters).then_some(Family::LockNut);
    if family.is_none() && !WASHERS.contains(&letters) {
        return None;
    }
    let (digits, rest) = split_digits(rest.strip_prefix([' ', '-']).unwrap_or(rest));
    let code: u16 = digits.parse().ok().filter(|code| *code <= LAST_CODE)?;
    let ends = !rest.starts_with(|c: char| c.is_alphanumeric() || c == '.');
    let next_is_number = rest
        .trim_start_matches([' ', '-', '/'])
        .starts_with(|c: char| c.is_ascii_digit());
    (digits.len() <= 2 && ends && !next_is_number)
        .then(|| (Designation::of(format!("{letters}{code}"), family), rest))
}
