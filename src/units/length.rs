//! One exact length type: whole nanometres inside, so that keys compare exactly and inch sizes fit.

use std::fmt;

/// Nanometres in a millimetre.
const NM_PER_MM: f64 = 1e6;
/// Nanometres in an inch (25.4 mm exactly, by the international agreement of 1959).
pub(super) const NM_PER_INCH: i64 = 25_400_000;
/// Largest length accepted, 100 m: beyond it a value is a slip, not a machine part.
const MAX_NM: i64 = 100_000_000_000;

/// The unit a length was written in.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "lowercase")]
pub enum LengthUnit {
    /// Millimetres.
    Mm,
    /// Centimetres.
    Cm,
    /// Inches of 25.4 mm.
    Inch,
}

/// Why a text or a number is not a length.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum LengthError {
    /// The text holds no readable number.
    #[error(
        "`{found}` is not a length; expected a number such as `25.4`, `25,4`, `7/16\"` or `1 3/8\"`"
    )]
    NotALength {
        /// The text as found.
        found: String,
    },
    /// Zero, negative, not finite or absurdly large.
    #[error("{found} is out of range; a length must be above 0 and at most 100 m")]
    OutOfRange {
        /// The value as found.
        found: String,
    },
}

/// A positive length, exact to one nanometre.
///
/// # Example
/// ```
/// use sparewright::units::Length;
/// let bore = Length::from_inch_fraction(1, 3, 8)?; // 1 3/8 in
/// assert_eq!(bore.to_string(), "34.925 mm");
/// assert_eq!(bore, Length::from_mm(34.925)?);
/// # Ok::<(), sparewright::units::LengthError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Length(i64);

impl Length {
    /// Takes whole nanometres.
    ///
    /// # Errors
    /// [`LengthError::OutOfRange`] unless above 0 and at most 100 m.
    pub fn from_nm(nm: i64) -> Result<Self, LengthError> {
        if nm > 0 && nm <= MAX_NM {
            Ok(Self(nm))
        } else {
            Err(LengthError::OutOfRange {
                found: format!("{nm} nm"),
            })
        }
    }

    /// Takes millimetres, rounded to the nearest nanometre.
    ///
    /// # Errors
    /// [`LengthError::OutOfRange`] unless finite, above 0 and at most 100 m.
    pub fn from_mm(mm: f64) -> Result<Self, LengthError> {
        Self::from_unit(mm, LengthUnit::Mm)
    }

    /// Takes a number in the given unit, rounded to the nearest nanometre.
    ///
    /// # Errors
    /// [`LengthError::OutOfRange`] unless finite, above 0 and at most 100 m.
    pub fn from_unit(value: f64, unit: LengthUnit) -> Result<Self, LengthError> {
        let nm_per_unit = match unit {
            LengthUnit::Mm => NM_PER_MM,
            LengthUnit::Cm => 10.0 * NM_PER_MM,
            LengthUnit::Inch => NM_PER_INCH as f64,
        };
        let nm = (value * nm_per_unit).round();
        if nm.is_finite() && nm >= 1.0 && nm <= MAX_NM as f64 {
            Ok(Self(nm as i64))
        } else {
            Err(LengthError::OutOfRange {
                found: format!("{value} {unit}"),
            })
        }
    }

    /// Takes whole inches and a fraction of an inch: `from_inch_fraction(1, 3, 8)` is 1 3/8 in.
    ///
    /// # Errors
    /// [`LengthError::OutOfRange`] for a zero denominator or a result of 0 or above 100 m.
    pub fn from_inch_fraction(
        whole: u32,
        numerator: u32,
        denominator: u32,
    ) -> Result<Self, LengthError> {
        let found = || LengthError::OutOfRange {
            found: format!("{whole} {numerator}/{denominator} in"),
        };
        if denominator == 0 {
            return Err(found());
        }
        let (of, inch) = (i128::from(denominator), i128::from(NM_PER_INCH));
        let parts = i128::from(whole) * of + i128::from(numerator);
        // Rounded to the nearest nanometre; exact for 1/2 to 1/64.
        let nm = (parts * inch + of / 2) / of;
        i64::try_from(nm)
            .ok()
            .and_then(|nm| Self::from_nm(nm).ok())
            .ok_or_else(found)
    }

    /// Whole nanometres.
    pub const fn as_nm(self) -> i64 {
        self.0
    }

    /// Millimetres as a float, for arithmetic and output; never a key.
    pub fn to_mm(self) -> f64 {
        self.0 as f64 / NM_PER_MM
    }

    /// Inches as a float, for output.
    pub fn to_inch(self) -> f64 {
        self.0 as f64 / NM_PER_INCH as f64
    }

    /// This length less the other, in millimetres; negative where the other is larger.
    pub fn difference_mm(self, other: Self) -> f64 {
        (self.0 - other.0) as f64 / NM_PER_MM
    }
}

impl fmt::Display for LengthUnit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Mm => "mm",
            Self::Cm => "cm",
            Self::Inch => "in",
        })
    }
}

/// Letters of the longest length: 20 digits, a point and the sign.
const MOST_LETTERS: usize = 22;

impl Length {
    /// Writes millimetres without trailing zeros and without the unit: `34.925`.
    fn write_mm(self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut text = String::with_capacity(MOST_LETTERS);
        self.push_mm(&mut text);
        f.write_str(&text)
    }

    /// Adds the same to a text. Answers name dozens of sizes, so that the digits are set in one go.
    pub(crate) fn push_mm(self, text: &mut String) {
        let mut letters = [0; MOST_LETTERS];
        let mut first = MOST_LETTERS;
        let mut put = |letter: u8| {
            first -= 1;
            letters[first] = letter;
        };
        let digit = |number: u64| b'0' + (number % 10) as u8;
        let (mut whole, mut part) = (
            self.0.unsigned_abs() / 1_000_000,
            self.0.unsigned_abs() % 1_000_000,
        );
        if part > 0 {
            let mut places = 6;
            while part % 10 == 0 {
                part /= 10;
                places -= 1;
            }
            for _ in 0..places {
                put(digit(part));
                part /= 10;
            }
            put(b'.');
        }
        loop {
            put(digit(whole));
            whole /= 10;
            if whole == 0 {
                break;
            }
        }
        text.push_str(std::str::from_utf8(&letters[first..]).unwrap_or_default());
    }
}

/// Prints millimetres without trailing zeros: `34.925 mm`. With `{:#}` the unit is left out.
impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write_mm(f)?;
        if f.alternate() {
            Ok(())
        } else {
            f.write_str(" mm")
        }
    }
}

impl serde::Serialize for Length {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.to_mm())
    }
}

impl<'de> serde::Deserialize<'de> for Length {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let mm = f64::deserialize(deserializer)?;
        Self::from_mm(mm).map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sixty_fourth_of_an_inch_is_exact() {
        // 25.4 mm / 64 = 0.396875 mm: arithmetic.
        assert_eq!(
            Length::from_inch_fraction(0, 1, 64).unwrap().as_nm(),
            396_875
        );
    }

    #[test]
    fn prints_millimetres_without_trailing_zeros() {
        assert_eq!(Length::from_mm(30.0).unwrap().to_string(), "30 mm");
        assert_eq!(format!("{:#}", Length::from_mm(14.25).unwrap()), "14.25");
        assert_eq!(format!("{:#}", Length::from_mm(0.05).unwrap()), "0.05");
        for (nm, text) in [
            (1, "0.000001"),
            (MAX_NM, "100000"),
            (MAX_NM - 1, "99999.999999"),
            (10_000_010, "10.00001"),
            (100_000, "0.1"),
        ] {
            assert_eq!(format!("{:#}", Length::from_nm(nm).unwrap()), text);
        }
    }

    #[test]
    fn what_is_printed_is_the_length_divided() {
        // General-purpose formatting of the standard library, zeros behind the last digit cut off.
        for step in 0..4_000_i64 {
            let nm = 1 + step * step * 977 + step % 7 * 500_000;
            let all = format!("{}.{:06}", nm / 1_000_000, nm % 1_000_000);
            let cut = all.trim_end_matches('0').trim_end_matches('.');
            assert_eq!(format!("{:#}", Length::from_nm(nm).unwrap()), cut);
        }
    }

    #[test]
    fn rejects_what_is_no_length() {
        for mm in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e9] {
            assert!(Length::from_mm(mm).is_err(), "{mm}");
        }
        assert!(Length::from_inch_fraction(0, 1, 0).is_err());
    }
}
