//! Bore codes of DIN 623-1.

use crate::units::{Length, LengthUnit, read_length};

/// Bore of a two-digit code: 00 to 03 are 10, 12, 15 and 17 mm, from 04 on five times the code.
pub(super) fn two_digits(code: &str) -> Option<Length> {
    let code: u8 = code.parse().ok().filter(|_| code.len() == 2)?;
    let mm = match code {
        0 => 10.0,
        1 => 12.0,
        2 => 15.0,
        3 => 17.0,
        _ => f64::from(code) * 5.0,
    };
    Length::from_mm(mm).ok()
}

/// The same in millimetres.
pub fn bore_mm(code: &str) -> Option<f64> {
    two_digits(code).map(Length::to_mm)
}

/// Bore below 10 mm: the digit itself.
pub(super) fn one_digit(code: &str) -> Option<Length> {
    code.parse::<u8>()
        .ok()
        .filter(|_| code.len() == 1)
        .and_then(|mm| Length::from_mm(f64::from(mm)).ok())
}

/// Bore after a stroke in whole or decimal millimetres: `62/22`, `60/2.5`; gives it, its text and what follows.
///
/// `/2RS` and `/2Z` are closures.
pub(super) fn after_stroke(text: &str) -> Option<(Length, &str, &str)> {
    let after = text.strip_prefix('/')?;
    let end = after
        .find(|c: char| !c.is_ascii_digit() && c != '.')
        .unwrap_or(after.len());
    let (number, rest) = after.split_at(end);
    if rest.starts_with('Z') || rest.starts_with("RS") || rest.starts_with("RZ") {
        return None;
    }
    let read = read_length(number, LengthUnit::Mm).ok()?;
    Some((read.length, number, rest))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_of_din_623_1() {
        for (code, mm) in [
            ("00", 10.0),
            ("03", 17.0),
            ("04", 20.0),
            ("22", 110.0),
            ("96", 480.0),
        ] {
            assert_eq!(two_digits(code), Length::from_mm(mm).ok(), "{code}");
        }
        assert_eq!(two_digits("5"), None);
        assert_eq!(one_digit("8"), Length::from_mm(8.0).ok());
        assert_eq!(one_digit("0"), None);
        assert_eq!(
            after_stroke("/22 C3").map(|(_, n, rest)| (n, rest)),
            Some(("22", " C3"))
        );
        assert_eq!(after_stroke("/2RS"), None);
    }
}
