//! Reads tapered roller bearings by dimension series: `T2FB030`, `T4CC 025`, `3DB 030`.

use super::parsed::Designation;
use super::text::{split_digits, tokens};
use crate::part::Family;
use crate::units::Length;

const STANDARD: &str = "ISO 355";

/// What texts begin with that are read here, where it is a letter.
pub(super) fn openings() -> Vec<&'static str> {
    vec![STANDARD, "T"]
}

/// Reads `T`, angle series 1 to 7, diameter series A to G, width series A to E, and the bore in three digits.
///
/// # Source
/// ISO 355: the dimension series is three symbols such as 2FB (contact angle, outside diameter, width); ISO 10317 puts `T`
/// before it and the bore in mm behind it.
pub(super) fn read(text: &str) -> Option<Designation> {
    let body = text.strip_prefix(STANDARD).map_or(text, str::trim_start);
    let body = body.strip_prefix('T').map_or(body, str::trim_start);
    let mut signs = body.chars();
    let (angle, diameter, width) = (signs.next()?, signs.next()?, signs.next()?);
    let is_series = ('1'..='7').contains(&angle)
        && ('A'..='G').contains(&diameter)
        && ('A'..='E').contains(&width);
    let (digits, rest) = split_digits(signs.as_str().trim_start_matches([' ', '-']));
    let ends = !rest.starts_with(|c: char| c.is_alphanumeric());
    if !is_series || digits.len() != 3 || !ends {
        return None;
    }
    let mut designation = Designation::of(
        format!("T{angle}{diameter}{width}{digits}"),
        Some(Family::TaperedRoller),
    );
    designation.bore = Length::from_mm(digits.parse().ok()?).ok();
    designation.traits.rows = Some(1);
    for token in tokens(rest) {
        designation.add_unknown(token);
    }
    Some(designation)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_series_and_a_bore() {
        // ISO 10317: T, dimension series of ISO 355, bore.
        for text in [
            "T2FB030",
            "T2FB 030",
            "T 2FB 030",
            "2FB030",
            "ISO 355 2FB 030",
        ] {
            let read = read(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(read.basic, "T2FB030", "{text}");
            assert_eq!(
                read.bore.map(|bore| bore.to_string()).as_deref(),
                Some("30 mm")
            );
        }
        for text in ["2FB30", "8FB030", "2HB030", "T2FB0305", "6205", "2RS"] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
