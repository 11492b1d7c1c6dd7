//! Reads cone and cup pairs of ABMA 19.2: `LM11749/LM11710`, `LM11749/10`.

use super::parsed::Designation;
use super::text::split_digits;
use crate::part::Family;

/// Prefix letters of ABMA 19.2, with the `J` of metric pairs.
const LETTERS: [&str; 14] = [
    "L", "LL", "LM", "M", "HM", "H", "HH", "EH", "JL", "JLM", "JM", "JHM", "JH", "JHH",
];

/// What texts begin with that are read here, where it is a letter.
pub(super) fn openings() -> Vec<&'static str> {
    LETTERS.to_vec()
}

/// Reads a pair. A cone alone is no bearing, and its number alone could be anybody's.
pub(super) fn read(text: &str) -> Option<Designation> {
    let (letters, cone, rest) = number(text)?;
    let rest = rest.trim_start_matches([' ', '/', '-']);
    let (cup, rest) = match number(rest) {
        Some((cup_letters, cup, rest)) => (format!("{cup_letters}{cup}"), rest),
        // Only the last digits of the cup are printed where the rest is that of the cone.
        None => {
            let (last, rest) = split_digits(rest);
            let kept = cone.len().checked_sub(last.len())?;
            if !(2..=3).contains(&last.len()) {
                return None;
            }
            (format!("{letters}{}{last}", &cone[..kept]), rest)
        }
    };
    let mut designation = Designation::of(
        format!("{letters}{cone}/{cup}"),
        Some(Family::TaperedRoller),
    );
    designation.traits.rows = Some(1);
    for token in super::text::tokens(rest) {
        designation.add_unknown(token);
    }
    Some(designation)
}

/// Letters, digits and what follows.
fn number(text: &str) -> Option<(&str, &str, &str)> {
    let end = text.find(|c: char| !c.is_ascii_alphabetic())?;
    let (letters, rest) = text.split_at(end);
    let (digits, rest) = split_digits(rest);
    let is_number = LETTERS.contains(&letters) && (5..=6).contains(&digits.len());
    let ends = !rest.starts_with(|c: char| c.is_alphanumeric());
    (is_number && ends).then_some((letters, digits, rest))
}
