//! Standard sizes that a printed size becomes when one slip of the pen is undone.
//!
//! A slip is evidence, never a reading: what it gives is shown to people and not taken.

use std::fmt;

use super::index::of_family;
use super::join::COARSEST_HALF_DIGIT_NM;
use crate::part::{Dimension, Family, SizeKey};
use crate::units::{Length, LengthUnit, ReadLength};

/// Most likely sizes that are named.
const MOST_LIKELY_SIZES: usize = 3;
/// Least digits of a number that are not met by chance when its decimal point moves. Common practice, no source.
const LEAST_DIGITS: usize = 3;
/// Powers of ten by which a lost decimal point makes a number too large; negative for too small.
const SHIFTS: [i8; 4] = [1, 2, -1, -2];

/// One slip in writing a size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Slip {
    /// Inches where millimetres are due.
    Inches,
    /// Millimetres where inches are due.
    Millimetres,
    /// Two dimensions in each other's place.
    Swapped(Dimension, Dimension),
    /// A decimal point lost or moved.
    DecimalPoint {
        /// The dimension.
        dimension: Dimension,
        /// Power of ten by which it is too large; negative for too small.
        shift: i8,
    },
}

/// A printed length in nanometres, with half of its last digit.
#[derive(Debug, Clone, Copy)]
struct Reading {
    nm: f64,
    half_digit_nm: f64,
}

impl Reading {
    fn of(read: ReadLength) -> Self {
        Self {
            nm: read.length.as_nm() as f64,
            half_digit_nm: read.half_digit_nm as f64,
        }
    }

    fn times(self, factor: f64) -> Self {
        Self {
            nm: self.nm * factor,
            half_digit_nm: self.half_digit_nm * factor,
        }
    }

    /// As [`join`](super::join()) compares: a number printed coarsely is meant as it stands.
    fn fits(self, exact: Length) -> bool {
        let off = (self.nm - exact.as_nm() as f64).abs();
        let is_coarse = self.half_digit_nm > COARSEST_HALF_DIGIT_NM as f64;
        off < 1.0 || !is_coarse && off <= self.half_digit_nm
    }
}

/// Standard sizes of a family that the printed one becomes by undoing one slip, each with the slip; none where it is a
/// standard size as printed, or has fewer than two dimensions to prove anything by.
///
/// # Example
/// ```
/// use sparewright::part::Family;
/// use sparewright::standard::{slips, Slip};
/// use sparewright::units::{read_size, LengthUnit};
/// // ISO 15: 6206 is 30 x 62 x 16 mm.
/// let found = slips(Family::DeepGrooveBall, &read_size("30x620x16", LengthUnit::Mm)?);
/// assert_eq!(found[0].1.to_string(), "30 x 62 x 16 mm");
/// assert!(matches!(found[0].0, Slip::DecimalPoint { shift: 1, .. }));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn slips(family: Family, printed: &[ReadLength]) -> Vec<(Slip, SizeKey)> {
    let dimensions = family.key_dimensions();
    if printed.len() < 2 || printed.len() != dimensions.len() {
        return Vec::new();
    }
    let readings: Vec<Reading> = printed.iter().copied().map(Reading::of).collect();
    let other_unit = other_unit(printed);
    let mut found: Vec<(Slip, SizeKey)> = Vec::new();
    for part in of_family(family) {
        let exact = || part.size.dimensions().map(|(_, length)| length);
        let mut misses = (readings.iter().zip(exact()).enumerate())
            .filter(|(_, (reading, exact))| !reading.fits(*exact))
            .map(|(at, (reading, exact))| (at, reading, exact));
        let slip = match (misses.next(), misses.next(), misses.next()) {
            (None, ..) => return Vec::new(),
            (Some((at, reading, exact)), None, _) => {
                decimal_point(family, printed, at, *reading, exact)
            }
            (Some((one, first, to_first)), Some((other, second, to_second)), None) => {
                (first.fits(to_second) && second.fits(to_first))
                    .then(|| Slip::Swapped(dimensions[one], dimensions[other]))
            }
            _ => None,
        };
        let slip = slip.or_else(|| {
            let (slip, factor) = other_unit?;
            let fits = |(reading, exact): (&Reading, Length)| reading.times(factor).fits(exact);
            readings.iter().zip(exact()).all(fits).then_some(slip)
        });
        if let Some(slip) = slip
            && let Ok(size) = SizeKey::new(family, &exact().collect::<Vec<Length>>())
            && !found.contains(&(slip, size))
        {
            found.push((slip, size));
        }
    }
    found.truncate(MOST_LIKELY_SIZES);
    found
}

/// The slip that leads from the printed size to this one.
pub fn slip_to(printed: &[ReadLength], size: &SizeKey) -> Option<Slip> {
    slips(size.family(), printed)
        .into_iter()
        .find(|(_, likely)| likely == size)
        .map(|(slip, _)| slip)
}

/// The slip of the other unit with its factor, where no dimension names its unit itself.
fn other_unit(printed: &[ReadLength]) -> Option<(Slip, f64)> {
    let is_all = |unit| {
        printed
            .iter()
            .all(|read| read.unit == unit && !read.is_unit_stated)
    };
    if is_all(LengthUnit::Mm) {
        Some((Slip::Inches, 25.4))
    } else if is_all(LengthUnit::Inch) {
        Some((Slip::Millimetres, 1.0 / 25.4))
    } else {
        None
    }
}

/// A decimal point moved in the one dimension that does not fit.
///
/// Two dimensions prove little, since rings and pins are made in many sizes beside the standard ones: there the digits
/// must be many, or the shape one that no standard size has.
fn decimal_point(
    family: Family,
    printed: &[ReadLength],
    at: usize,
    reading: Reading,
    exact: Length,
) -> Option<Slip> {
    let shift = SHIFTS
        .into_iter()
        .find(|shift| reading.times(10_f64.powi(-i32::from(*shift))).fits(exact))?;
    let is_proved = printed.len() > 2
        || digits(printed[at]) >= LEAST_DIGITS
        || !is_usual_shape(family, printed);
    is_proved.then_some(Slip::DecimalPoint {
        dimension: family.key_dimensions()[at],
        shift,
    })
}

/// Digits of a printed number without zeros at its ends.
fn digits(read: ReadLength) -> usize {
    let millionths = match read.unit {
        LengthUnit::Inch => (read.length.to_inch() * 1e6).round(),
        LengthUnit::Mm | LengthUnit::Cm => read.length.as_nm() as f64,
    };
    format!("{millionths:.0}").trim_end_matches('0').len()
}

/// True where the ratio of the first two dimensions lies among those of the standard sizes.
fn is_usual_shape(family: Family, printed: &[ReadLength]) -> bool {
    let ratio_of = |first: Length, second: Length| first.as_nm() as f64 / second.as_nm() as f64;
    let ratio = ratio_of(printed[0].length, printed[1].length);
    let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
    for part in of_family(family) {
        let mut lengths = part.size.dimensions().map(|(_, length)| length);
        if let (Some(first), Some(second)) = (lengths.next(), lengths.next()) {
            least = least.min(ratio_of(first, second));
            most = most.max(ratio_of(first, second));
        }
    }
    (least..=most).contains(&ratio)
}

impl fmt::Display for Slip {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Inches => f.write_str("read as inches"),
            Self::Millimetres => f.write_str("read as millimetres"),
            Self::Swapped(one, other) => {
                write!(f, "with {} and {} swapped", one.name(), other.name())
            }
            Self::DecimalPoint { dimension, shift } => {
                let times = 10_u32.pow(u32::from(shift.unsigned_abs()));
                let way = if *shift > 0 { "large" } else { "small" };
                write!(
                    f,
                    "with the decimal point of the {} moved ({times} times too {way})",
                    dimension.name()
                )
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::read_size;

    fn found(family: Family, text: &str, unit: LengthUnit) -> Vec<String> {
        slips(family, &read_size(text, unit).unwrap())
            .into_iter()
            .map(|(slip, size)| format!("{size} {slip}"))
            .collect()
    }

    #[test]
    fn one_slip_is_undone_for_each_kind() {
        // ISO 15: 6206 is 30 x 62 x 16 mm; ABMA 20: R8 open is 1/2 x 1 1/8 x 1/4 in; SAE AS568-218 is
        // 1.234 x 0.139 in; DIN 3760: 40 x 62 x 8 mm.
        let mm = LengthUnit::Mm;
        for (family, text, unit, expected) in [
            (
                Family::DeepGrooveBall,
                "62x30x16",
                mm,
                "30 x 62 x 16 mm with bore and outside diameter swapped",
            ),
            (
                Family::DeepGrooveBall,
                "30x620x16",
                mm,
                "30 x 62 x 16 mm with the decimal point of the outside diameter moved (10 times too large)",
            ),
            (
                Family::DeepGrooveBall,
                "0.5x1.125x0.25",
                mm,
                "12.7 x 28.575 x 6.35 mm read as inches",
            ),
            (
                Family::DeepGrooveBall,
                "30x62x16",
                LengthUnit::Inch,
                "30 x 62 x 16 mm read as millimetres",
            ),
            (
                Family::ORing,
                "1.234x0.139",
                mm,
                "31.3436 x 3.5306 mm read as inches",
            ),
            (
                Family::ORing,
                "3.53x31.34",
                mm,
                "31.3436 x 3.5306 mm with inside diameter and section swapped",
            ),
            (
                Family::LipSeal,
                "40x62x80",
                mm,
                "40 x 62 x 8 mm with the decimal point of the width moved (10 times too large)",
            ),
        ] {
            let found = found(family, text, unit);
            assert!(found.iter().any(|one| one == expected), "{text}: {found:?}");
        }
    }

    #[test]
    fn a_standard_size_a_stated_unit_and_a_ring_of_another_size_are_no_slips() {
        let mm = LengthUnit::Mm;
        assert!(found(Family::DeepGrooveBall, "30x62x16", mm).is_empty());
        assert!(
            found(Family::DeepGrooveBall, "0.5 mm x 1.125 mm x 0.25 mm", mm)
                .iter()
                .all(|one| !one.contains("inches"))
        );
        // O-rings and pins are made in many sizes that no standard lists: 100 x 3 mm is not 10 x 3 mm.
        assert!(found(Family::ORing, "100x3", mm).is_empty());
        assert!(found(Family::ORing, "200x2", mm).is_empty());
        // But no pin of ISO 2338 is fifty times as long as it is thick.
        assert_eq!(found(Family::DowelPin, "6x300", mm).len(), 1);
        assert!(found(Family::ShaftRetainingRing, "250", mm).is_empty());
        assert!(found(Family::DeepGrooveBall, "31x63x17", mm).is_empty());
    }

    #[test]
    fn no_standard_size_is_taken_for_a_slip_of_another() {
        for part in crate::standard::parts() {
            let printed: Vec<ReadLength> = part
                .size
                .dimensions()
                .map(|(_, length)| ReadLength {
                    length,
                    unit: LengthUnit::Mm,
                    is_unit_stated: false,
                    half_digit_nm: 500,
                })
                .collect();
            assert!(
                slips(part.size.family(), &printed).is_empty(),
                "{}",
                part.designation
            );
        }
    }
}
