//! Joins a printed, rounded size to the standard size it stands for.

use super::index::{of_family, of_size};
use crate::part::{Dimension, Family, SizeError, SizeKey};
use crate::units::{Length, ReadLength};

/// Coarsest rounding that is undone: a number printed to the whole millimetre or the tenth of an inch is taken as meant,
/// because sizes half a millimetre apart are different parts.
pub(super) const COARSEST_HALF_DIGIT_NM: i64 = 130_000;

/// Sections in whole micrometres that rings have by themselves, so that they are no rounding of 3.53 or 3.55 mm.
///
/// Source: JIS B 2401 (P 22A to P 50), from memory; common practice.
const OWN_SECTIONS_UM: [i64; 1] = [3_500];

/// True for the printed section of an O-ring that is a section by itself, and no rounding of a standard one.
///
/// # Example
/// ```
/// use sparewright::standard::is_own_section;
/// use sparewright::units::Length;
/// assert!(is_own_section(Length::from_mm(3.5)?));
/// assert!(!is_own_section(Length::from_mm(2.6)?));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn is_own_section(section: Length) -> bool {
    OWN_SECTIONS_UM
        .iter()
        .any(|um| um * 1_000 == section.as_nm())
}

/// What a printed size is among the standard sizes of a family.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Joined {
    /// Printed exactly as a standard size.
    Exact(SizeKey),
    /// Printed rounded; exactly one standard size lies within half the last printed digit.
    Rounded {
        /// The standard size.
        standard: SizeKey,
        /// As printed.
        printed: SizeKey,
    },
    /// No standard size, or more than one, lies within half the last printed digit; kept as printed.
    AsPrinted(SizeKey),
}

impl Joined {
    /// The size to go on with: the standard one where there is one.
    pub const fn size(&self) -> SizeKey {
        match self {
            Self::Exact(size) | Self::AsPrinted(size) => *size,
            Self::Rounded { standard, .. } => *standard,
        }
    }
}

/// Joins a printed size to the standard size it stands for.
///
/// # Errors
/// [`SizeError`] where the lengths do not make a size of the family.
///
/// # Example
/// ```
/// use sparewright::part::Family;
/// use sparewright::standard::{join, Joined};
/// use sparewright::units::{read_size, LengthUnit};
/// // ABMA R14, open: 7/8 x 1 7/8 x 3/8 in, printed in rounded millimetres.
/// let printed = read_size("22.23x47.63x9.53", LengthUnit::Mm)?;
/// let joined = join(Family::DeepGrooveBall, &printed)?;
/// assert!(matches!(joined, Joined::Rounded { .. }));
/// assert_eq!(joined.size().to_string(), "22.225 x 47.625 x 9.525 mm");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn join(family: Family, printed: &[ReadLength]) -> Result<Joined, SizeError> {
    let lengths: Vec<_> = printed.iter().map(|read| read.length).collect();
    let size = SizeKey::new(family, &lengths)?;
    if !of_size(&size).is_empty() {
        return Ok(Joined::Exact(size));
    }
    let section = size.get(Dimension::Section);
    if section.is_some_and(is_own_section) {
        return Ok(Joined::AsPrinted(size));
    }
    let mut fitting: Option<SizeKey> = None;
    for part in of_family(family) {
        // Nearly every size falls out at its first dimension, so that nothing is copied before.
        let exact = || part.size.dimensions().map(|(_, length)| length);
        let fits = exact().zip(printed).all(|(exact, read)| {
            if read.half_digit_nm > COARSEST_HALF_DIGIT_NM {
                read.length == exact
            } else {
                read.may_be(exact)
            }
        });
        if !fits {
            continue;
        }
        let exact: Vec<_> = exact().collect();
        if exact == lengths {
            return Ok(Joined::Exact(size));
        }
        // Without its tolerance class: a printed pin size does not tell one.
        let standard = SizeKey::new(family, &exact)?;
        match fitting {
            None => fitting = Some(standard),
            Some(other) if other == standard => {}
            Some(_) => return Ok(Joined::AsPrinted(size)),
        }
    }
    Ok(match fitting {
        Some(standard) => Joined::Rounded {
            standard,
            printed: size,
        },
        None => Joined::AsPrinted(size),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{LengthUnit, read_size};

    fn joined(family: Family, text: &str, unit: LengthUnit) -> Joined {
        join(family, &read_size(text, unit).unwrap()).unwrap()
    }

    fn joined_size(family: Family, text: &str, unit: LengthUnit) -> String {
        match joined(family, text, unit) {
            Joined::Exact(size) => format!("exact {size}"),
            Joined::Rounded { standard, .. } => format!("rounded {standard}"),
            Joined::AsPrinted(size) => format!("printed {size}"),
        }
    }

    #[test]
    fn rounded_inch_sizes_join_their_exact_standard_size() {
        // ABMA R14 open is 7/8 x 1 7/8 x 3/8 in; SAE AS568-222 is 1.484 x .139 in; ABMA 19.2 LM11749/LM11710.
        let (mm, inch) = (LengthUnit::Mm, LengthUnit::Inch);
        for (family, text, unit, expected) in [
            (
                Family::DeepGrooveBall,
                ".875x1.875x.375",
                inch,
                "exact 22.225 x 47.625 x 9.525 mm",
            ),
            (
                Family::DeepGrooveBall,
                "22.2x47.6x9.5",
                mm,
                "rounded 22.225 x 47.625 x 9.525 mm",
            ),
            (
                Family::ORing,
                "37.69x3.53",
                mm,
                "rounded 37.6936 x 3.5306 mm",
            ),
            (
                Family::TaperedRoller,
                "17.462x39.878x13.843",
                mm,
                "rounded 17.4625 x 39.878 x 13.843 mm",
            ),
        ] {
            assert_eq!(joined_size(family, text, unit), expected, "{text}");
        }
    }

    #[test]
    fn a_whole_number_is_meant_and_a_size_of_no_standard_is_kept() {
        let mm = LengthUnit::Mm;
        // ISO 355: 30205 has T 16.25, so 25 x 52 x 16 is not it.
        assert_eq!(
            joined_size(Family::TaperedRoller, "25x52x16", mm),
            "printed 25 x 52 x 16 mm"
        );
        assert_eq!(
            joined_size(Family::TaperedRoller, "25x52x16.25", mm),
            "exact 25 x 52 x 16.25 mm"
        );
        assert_eq!(
            joined_size(Family::LipSeal, "41x62x8", mm),
            "printed 41 x 62 x 8 mm"
        );
    }

    #[test]
    fn a_section_of_its_own_is_no_rounding() {
        // JIS B 2401 has rings of 3.5 mm, from memory; 2.6 is a rounding of 2.62 (SAE AS568: 103 thousandths).
        let mm = LengthUnit::Mm;
        assert_eq!(
            joined_size(Family::ORing, "25x3.5", mm),
            "printed 25 x 3.5 mm"
        );
        assert_eq!(
            joined_size(Family::ORing, "25x3.55", mm),
            "exact 25 x 3.55 mm"
        );
        assert_eq!(
            joined_size(Family::ORing, "24.99x3.53", mm),
            "rounded 24.9936 x 3.5306 mm"
        );
    }

    #[test]
    fn two_standard_sizes_within_the_rounding_leave_the_printed_one() {
        // R3 open and shielded differ in width only: 5/32 and .196 in; nothing lies within both at two decimals,
        // but .1 in decides nothing.
        let size = joined_size(Family::DeepGrooveBall, "0.1875x0.5x0.2", LengthUnit::Inch);
        assert_eq!(size, "printed 4.7625 x 12.7 x 5.08 mm");
    }

    #[test]
    fn a_pin_size_without_class_is_a_standard_size() {
        // ISO 8734: 6 x 24 is listed.
        assert_eq!(
            joined_size(Family::DowelPin, "6x24", LengthUnit::Mm),
            "exact 6 x 24 mm"
        );
    }

    #[test]
    fn lengths_that_make_no_size_are_an_error() {
        let printed = read_size("62x30x16", LengthUnit::Mm).unwrap();
        assert!(join(Family::DeepGrooveBall, &printed).is_err());
        assert!(join(Family::ORing, &printed).is_err());
    }
}
