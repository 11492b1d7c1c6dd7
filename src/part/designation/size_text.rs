//! Reads a size that stands in a designation: `40X62X8`, `31.34 X 3.53`.

use crate::part::{Family, SizeKey};
use crate::units::{Length, LengthUnit, read_length};

/// Takes `count` millimetre numbers joined by `X` off the front; gives them and what follows.
pub(super) fn split_size(text: &str, count: usize) -> Option<(Vec<Length>, &str)> {
    let mut lengths = Vec::with_capacity(count);
    let mut rest = text;
    for at in 0..count {
        if at > 0 {
            rest = rest.trim_start().strip_prefix('X')?.trim_start();
        }
        let (length, after) = split_length(rest)?;
        lengths.push(length);
        rest = after;
    }
    // A further number would make it another size; the unit may follow.
    let after = rest.trim_start();
    if after.starts_with('X')
        && after[1..]
            .trim_start()
            .starts_with(|c: char| c.is_ascii_digit())
    {
        return None;
    }
    Some((lengths, after.strip_prefix("MM").unwrap_or(rest)))
}

/// Takes one millimetre number off the front.
pub(super) fn split_length(text: &str) -> Option<(Length, &str)> {
    let end = text
        .find(|c: char| !c.is_ascii_digit() && c != '.')
        .unwrap_or(text.len());
    let (number, rest) = text.split_at(end);
    let read = read_length(number.trim_end_matches('.'), LengthUnit::Mm).ok()?;
    Some((read.length, rest))
}

/// `40x62x8`.
pub(super) fn joined(lengths: &[Length]) -> String {
    let texts: Vec<String> = lengths.iter().map(|length| format!("{length:#}")).collect();
    texts.join("x")
}

/// The size, where the lengths make one of the family.
pub(super) fn size_of(family: Family, lengths: &[Length]) -> Option<SizeKey> {
    SizeKey::new(family, lengths).ok()
}
