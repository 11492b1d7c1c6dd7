//! Reads rotary shaft lip seals (DIN 3760): form, shaft by housing by width, elastomer.

use super::elastomer::elastomer;
use super::in_words;
use super::o_ring::read_material;
use super::parsed::Designation;
use super::size_text::{joined, size_of, split_size};
use super::text::{strip_ending, strip_word};
use crate::part::{Family, SealForm};
use crate::units::Length;

const WORDS: [&str; 12] = [
    "DIN 3760",
    "DIN3760",
    "ISO 6194-1",
    "ISO 6194",
    "RWDR",
    "WDR",
    "OIL SEAL",
    "SHAFT SEAL",
    "LIP SEAL",
    "ROTARY SHAFT SEAL",
    "RADIAL SHAFT SEAL",
    "ROTARY SHAFT LIP SEAL",
];
/// Sizes in mm that ISO 15 diameter series 8 shares with DIN 3760: bare, they could be either.
const ALSO_BEARINGS: [(i64, i64); 7] = [
    (20, 32),
    (25, 37),
    (30, 42),
    (65, 85),
    (70, 90),
    (75, 95),
    (80, 100),
];

/// What texts begin with that are read here, where it is a letter.
pub(super) fn openings() -> Vec<&'static str> {
    let forms = SealForm::ALL.iter().map(|form| form.code());
    WORDS.into_iter().chain(forms).collect()
}

/// Reads a lip seal designation from cleaned text.
///
/// A bare size is one only where its width is that of DIN 3760 for the shaft and no bearing has that size.
pub(super) fn read(text: &str) -> Option<Designation> {
    let worded = strip_word(text, &WORDS).or_else(|| strip_ending(text, &WORDS));
    let (form, body) = split_form(worded.unwrap_or(text));
    let (lengths, rest) = split_size(body, 3)?;
    let size = size_of(Family::LipSeal, &lengths)?;
    let mut designation = Designation::of(String::new(), Some(Family::LipSeal));
    designation.size = Some(size);
    designation.traits.seal_form = form;
    for token in read_material(&mut designation.traits, rest) {
        match SealForm::from_code(&token) {
            Some(form) if designation.traits.seal_form.is_none() => {
                designation.traits.seal_form = Some(form);
            }
            _ => designation.add_unknown(&token),
        }
    }
    in_words::understand(&mut designation);
    // Ribs and a profile for pressure are of lip seals only.
    let is_marked = worded.is_some()
        || designation.traits.variant.as_deref().is_some_and(is_of_lip)
        || designation.traits.seal_form.is_some()
        || designation
            .traits
            .material
            .as_deref()
            .is_some_and(|of| elastomer(of).is_some())
        || (designation.traits.unknown_suffixes.iter()).any(|mark| elastomer(mark).is_some());
    // A symbol of two letters behind a bare size may be another mark: `40x90x23 NR`.
    let is_bare =
        designation.traits.unknown_suffixes.is_empty() && designation.traits.material.is_none();
    let is_seal = is_marked || is_bare && is_own_size(&lengths);
    is_seal.then(|| Designation {
        basic: joined(&lengths),
        ..designation
    })
}

fn is_of_lip(variant: &str) -> bool {
    variant.starts_with("ribs ") || variant.starts_with("pressure profile")
}

/// Form letters in front of the size.
fn split_form(text: &str) -> (Option<SealForm>, &str) {
    let end = text
        .find(|c: char| !c.is_ascii_alphabetic())
        .unwrap_or(text.len());
    let (letters, rest) = text.split_at(end);
    match SealForm::from_code(letters) {
        Some(form) => (Some(form), super::text::trim_signs(rest)),
        None => (None, text),
    }
}

/// True where the width is the one DIN 3760 gives the shaft and the size is no bearing's.
fn is_own_size(lengths: &[Length]) -> bool {
    let [shaft, housing, width] = lengths else {
        return false;
    };
    let whole_mm =
        |length: &Length| (length.as_nm() % 1_000_000 == 0).then(|| length.as_nm() / 1_000_000);
    let (Some(shaft), Some(housing), Some(width)) =
        (whole_mm(shaft), whole_mm(housing), whole_mm(width))
    else {
        return false;
    };
    // DIN 3760, from memory: width by shaft diameter.
    let is_width = match shaft {
        6..=30 => width == 7,
        31..=60 => width == 8,
        61..=80 => width == 8 || width == 10,
        81..=135 => width == 12,
        136..=500 => width == 15 || width == 12,
        _ => false,
    };
    is_width && !ALSO_BEARINGS.contains(&(shaft, housing))
}
