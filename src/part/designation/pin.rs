//! Reads parallel and dowel pins: `ISO 8734 6x24 m6`, `ISO 2338 6 h8 x 24`, `ASME B18.8.2 1/4 x 1`.

use super::parsed::Designation;
use super::size_text::split_length;
use super::text::{strip_word, tokens};
use crate::part::{Family, FitClass, SizeKey};
use crate::units::{LengthUnit, read_size};

/// Opening, standard, tolerance class the standard fixes, and hardening it fixes.
const STANDARDS: [(&str, &str, Option<&str>, Option<&str>); 8] = [
    ("ISO 8734", "ISO 8734", Some("m6"), Some("hardened")),
    ("DIN EN ISO 8734", "ISO 8734", Some("m6"), Some("hardened")),
    ("DIN 6325", "DIN 6325", Some("m6"), Some("hardened")),
    ("ISO 2338", "ISO 2338", None, Some("unhardened")),
    ("DIN EN ISO 2338", "ISO 2338", None, Some("unhardened")),
    ("DIN 7", "DIN 7", None, Some("unhardened")),
    ("DOWEL PIN", "", None, None),
    ("PARALLEL PIN", "", None, None),
];
const ASME: [&str; 4] = [
    "ASME B18.8.2",
    "ANSI B18.8.2",
    "ASME/ANSI B18.8.2",
    "B18.8.2",
];

/// What texts begin with that are read here, where it is a letter.
pub(super) fn openings() -> Vec<&'static str> {
    let metric = STANDARDS.iter().map(|(opening, ..)| *opening);
    metric.chain(ASME).collect()
}

/// Reads a pin designation from cleaned text.
pub(super) fn read(text: &str) -> Option<Designation> {
    if let Some(body) = strip_word(text, &ASME) {
        return inch(body);
    }
    let words = ["DOWEL PIN", "PARALLEL PIN"];
    let text = strip_word(text, &words)
        .filter(|rest| rest.starts_with(|c: char| c.is_ascii_alphabetic()))
        .unwrap_or(text);
    STANDARDS
        .iter()
        .find_map(|(opening, standard, fit, hardening)| {
            let body = strip_word(text, &[opening])?;
            metric(body, standard, *fit, *hardening)
        })
}

fn metric(
    text: &str,
    standard: &str,
    fixed_fit: Option<&str>,
    hardening: Option<&str>,
) -> Option<Designation> {
    let (diameter, rest) = split_length(text)?;
    let (printed_fit, rest) = split_fit(rest);
    let rest = rest.trim_start().strip_prefix('X')?.trim_start();
    let (length, rest) = split_length(rest)?;
    let mut fit = printed_fit.or_else(|| fixed_fit.and_then(FitClass::read));
    let mut designation = Designation::of(String::new(), Some(Family::DowelPin));
    designation.traits.variant = hardening.map(str::to_owned);
    let mut tokens = tokens(rest).peekable();
    while let Some(token) = tokens.next() {
        let is_named = tokens.peek().is_some_and(|next| matches!(*next, "A" | "B"));
        match (token, FitClass::read(&token.to_ascii_lowercase())) {
            // `type B`: the letter says which.
            ("TYPE" | "TYP" | "FORM", _) if is_named && standard == "ISO 8734" => {}
            ("A" | "B", _) if standard == "ISO 8734" => {
                designation.traits.add_variant(&format!("type {token}"))
            }
            ("ST" | "A1" | "C1" | "A2" | "A4", _) => {
                designation.traits.material = Some(token.to_owned());
            }
            (_, Some(printed)) if fit.is_none_or(|known| known == printed) => fit = Some(printed),
            _ => designation.add_unknown(token),
        }
    }
    let size = SizeKey::new(Family::DowelPin, &[diameter, length]).ok()?;
    designation.size = Some(fit.map_or(size, |fit| size.with_fit(fit)));
    // ISO 8734 fixes the class, so its designations leave it out.
    let class = match fit {
        Some(fit) if fixed_fit.is_none() => fit.to_string(),
        _ => String::new(),
    };
    let dash = if standard.is_empty() { "" } else { "-" };
    designation.basic = format!("{standard}{dash}{diameter:#}{class}x{length:#}");
    Some(designation)
}

/// Takes a tolerance class off the front: ` M6 `, `H8`.
fn split_fit(text: &str) -> (Option<FitClass>, &str) {
    let body = text.trim_start();
    let end = body
        .char_indices()
        .skip(1)
        .find(|(_, c)| !c.is_ascii_digit())
        .map_or(body.len(), |(at, _)| at);
    let (class, rest) = body.split_at(end);
    match FitClass::read(&class.to_ascii_lowercase()) {
        Some(fit) if !class.starts_with('X') => (Some(fit), rest),
        _ => (None, text),
    }
}

fn inch(text: &str) -> Option<Designation> {
    let read = read_size(text, LengthUnit::Inch).ok()?;
    let lengths: Vec<_> = read.iter().map(|read| read.length).collect();
    let mut designation = Designation::of(inch_basic(text), Some(Family::DowelPin));
    designation.size = Some(SizeKey::new(Family::DowelPin, &lengths).ok()?);
    designation.traits.variant = Some("hardened".to_owned());
    Some(designation)
}

/// `ASME B18.8.2-1/4x1 1/2`.
fn inch_basic(text: &str) -> String {
    let pieces: Vec<&str> = text.split('X').map(str::trim).collect();
    format!("ASME B18.8.2-{}", pieces.join("x"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 8734: type A is hardened through, type B in its case; from memory.
    #[test]
    fn the_type_of_a_hardened_pin_is_its_letter_with_or_without_the_word() {
        for (text, variant, unknown) in [
            ("ISO 8734 6X30", "hardened", &[][..]),
            ("ISO 8734 6X30 B", "hardened, type B", &[]),
            ("ISO 8734 6X30 TYPE B", "hardened, type B", &[]),
            ("ISO 8734-6X30 FORM B", "hardened, type B", &[]),
            ("ISO 8734 6X30 TYP A", "hardened, type A", &[]),
            ("ISO 8734 6X30 TYPE C", "hardened", &["TYPE", "C"]),
            ("ISO 2338 6M6X30 TYPE B", "unhardened", &["TYPE", "B"]),
        ] {
            let read = read(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(read.traits.variant.as_deref(), Some(variant), "{text}");
            assert_eq!(read.traits.unknown_suffixes, unknown, "{text}");
        }
    }
}
