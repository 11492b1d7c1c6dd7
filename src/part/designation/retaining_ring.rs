//! Reads retaining rings: `DIN 471-40`, `DIN 472 - 62x2`, `471-25x1.2`.

use super::parsed::Designation;
use super::size_text::{size_of, split_length};
use super::text::{strip_word, tokens, trim_signs};
use crate::part::Family;

const WORDS: [&str; 5] = [
    "RETAINING RING",
    "CIRCLIP",
    "SICHERUNGSRING",
    "EXTERNAL CIRCLIP",
    "INTERNAL CIRCLIP",
];

const DIN: &str = "DIN";

/// Signs for a digit that cannot be read.
const GAPS: [char; 3] = ['?', '_', '#'];

/// What texts begin with that are read here, where it is a letter.
pub(super) fn openings() -> Vec<&'static str> {
    [&WORDS[..], &[DIN]].concat()
}

/// Reads a retaining ring designation from cleaned text.
pub(super) fn read(text: &str) -> Option<Designation> {
    let after_word = strip_word(text, &WORDS);
    let body = after_word.unwrap_or(text);
    let after_din = body.strip_prefix(DIN).map(trim_signs);
    let body = after_din.unwrap_or(body);
    let (standard, family) = match body.get(..3)? {
        "471" => ("DIN 471", Family::ShaftRetainingRing),
        "472" => ("DIN 472", Family::BoreRetainingRing),
        _ => return None,
    };
    let rest = &body[3..];
    if !rest.starts_with([' ', '-', ':']) {
        return None;
    }
    let (diameter, rest) = split_length(trim_signs(rest))?;
    let (thickness, rest) = match rest.trim_start().strip_prefix('X') {
        Some(after) => {
            let (thickness, rest) = split_length(after.trim_start())?;
            (Some(thickness), rest)
        }
        None => (None, rest),
    };
    if rest.starts_with(|c: char| c.is_alphanumeric()) {
        return None;
    }
    // `471-25` alone could be anybody's number.
    if after_word.is_none() && after_din.is_none() && thickness.is_none() {
        return None;
    }
    // `DIN 471 3?` may be any ring from 30 to 39: a digit that cannot be read leaves the size open.
    if rest.starts_with(GAPS) {
        let mut half_read = Designation::of(format!("{standard}-{diameter:#}"), Some(family));
        half_read.add_unknown(rest.trim());
        return Some(half_read);
    }
    let mut basic = format!("{standard}-{diameter:#}");
    if let Some(thickness) = thickness {
        basic.push_str(&format!("x{thickness:#}"));
    }
    let mut designation = Designation::of(basic, Some(family));
    designation.size = size_of(family, &[diameter]);
    if let Some(thickness) = thickness {
        designation
            .traits
            .add_variant(&format!("thickness {thickness}"));
    }
    for token in tokens(rest) {
        match token {
            "HEAVY" | "SCHWER" => designation.traits.add_variant("heavy"),
            _ => designation.add_unknown(token),
        }
    }
    Some(designation)
}
