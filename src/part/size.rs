//! The key a part is found by: family and exact key dimensions.

use std::fmt;

use super::family::{Dimension, Family};
use crate::language::with_article;
use crate::units::Length;

/// Tolerance letter and grade of a pin, such as `m6` (ISO 286).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct FitClass {
    letter: u8,
    grade: u8,
}

/// Why dimensions do not make a size of a family.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum SizeError {
    /// Too few or too many dimensions.
    #[error("{} needs {}, found {found} values", with_article(.family), names(*.family))]
    WrongCount {
        /// The family.
        family: Family,
        /// How many lengths were given.
        found: usize,
    },
    /// Dimensions that cannot be together, such as a bore larger than the outside diameter.
    #[error("{larger} {larger_value} must be larger than {smaller} {smaller_value}")]
    OutOfOrder {
        /// Name of the dimension that must be larger.
        larger: String,
        /// Its value.
        larger_value: Length,
        /// Name of the dimension that must be smaller.
        smaller: String,
        /// Its value.
        smaller_value: Length,
    },
}

fn names(family: Family) -> String {
    let names: Vec<String> = family.key_dimensions().iter().map(|d| d.name()).collect();
    names.join(", ")
}

/// Family and key dimensions of a part; two parts of one key have the same envelope and type.
///
/// # Example
/// ```
/// use sparewright::part::{Family, SizeKey};
/// use sparewright::units::Length;
/// let mm = |value: f64| Length::from_mm(value);
/// let key = SizeKey::new(Family::DeepGrooveBall, &[mm(30.0)?, mm(62.0)?, mm(16.0)?])?;
/// assert_eq!(key.to_string(), "30 x 62 x 16 mm");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct SizeKey {
    family: Family,
    lengths: [Option<Length>; 4],
    fit: Option<FitClass>,
}

impl SizeKey {
    /// Takes the key dimensions in the order of [`Family::key_dimensions`].
    ///
    /// # Errors
    /// [`SizeError::WrongCount`] for another number of lengths, [`SizeError::OutOfOrder`] where an inner
    /// diameter is not smaller than its outer one.
    pub fn new(family: Family, lengths: &[Length]) -> Result<Self, SizeError> {
        let wanted = family.key_dimensions();
        if lengths.len() != wanted.len() {
            return Err(SizeError::WrongCount {
                family,
                found: lengths.len(),
            });
        }
        let mut key = Self {
            family,
            lengths: [None; 4],
            fit: None,
        };
        for (slot, length) in key.lengths.iter_mut().zip(lengths) {
            *slot = Some(*length);
        }
        key.check_order()?;
        Ok(key)
    }

    /// Takes dimensions that were once those of a size, and are not looked at again; `None` from the last one on.
    pub(crate) const fn known(family: Family, lengths: [Option<Length>; 4]) -> Self {
        Self {
            family,
            lengths,
            fit: None,
        }
    }

    /// The same size with a tolerance class, for pins.
    #[must_use]
    pub const fn with_fit(self, fit: FitClass) -> Self {
        Self {
            fit: Some(fit),
            ..self
        }
    }

    fn check_order(&self) -> Result<(), SizeError> {
        for &(smaller, larger) in self.family.facts().shape.ordered {
            if let (Some(small), Some(large)) = (self.lengths[smaller], self.lengths[larger])
                && small >= large
            {
                let name = |at: usize| self.family.key_dimensions()[at].name();
                return Err(SizeError::OutOfOrder {
                    larger: name(larger),
                    larger_value: large,
                    smaller: name(smaller),
                    smaller_value: small,
                });
            }
        }
        Ok(())
    }

    /// The same size without a tolerance class: no calliper tells m6 from h8.
    #[must_use]
    pub const fn without_fit(self) -> Self {
        Self { fit: None, ..self }
    }

    /// The family.
    pub const fn family(&self) -> Family {
        self.family
    }

    /// The tolerance class, for pins.
    pub const fn fit(&self) -> Option<FitClass> {
        self.fit
    }

    /// The key dimensions with their names, in order.
    pub fn dimensions(&self) -> impl Iterator<Item = (Dimension, Length)> + '_ {
        self.family
            .key_dimensions()
            .iter()
            .copied()
            .zip(self.lengths.iter().copied().flatten())
    }

    /// The key dimension at a place in the order of [`Family::key_dimensions`].
    pub fn length_at(&self, at: usize) -> Option<Length> {
        self.lengths.get(at).copied().flatten()
    }

    /// One dimension, where this family has it.
    pub fn get(&self, dimension: Dimension) -> Option<Length> {
        let mut names = self.family.key_dimensions().iter();
        self.length_at(names.position(|name| *name == dimension)?)
    }
}

impl FitClass {
    /// Reads a letter and a grade, such as `m6` or `h8`.
    pub fn read(text: &str) -> Option<Self> {
        let text = text.trim();
        let letter = text.bytes().next().filter(u8::is_ascii_lowercase)?;
        let grade = text[1..]
            .parse::<u8>()
            .ok()
            .filter(|grade| (1..=18).contains(grade))?;
        Some(Self { letter, grade })
    }
}

/// Letters of a size in millimetres, mostly.
const MOST_LETTERS: usize = 48;

impl fmt::Display for FitClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", char::from(self.letter), self.grade)
    }
}

impl fmt::Display for SizeKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Answers name dozens of sizes: each is one text, not a dozen.
        let mut text = String::with_capacity(MOST_LETTERS);
        text.push_str(self.family.facts().shape.size_prefix);
        for (at, length) in self.lengths.iter().flatten().enumerate() {
            text.push_str(if at == 0 { "" } else { " x " });
            length.push_mm(&mut text);
        }
        text.push_str(" mm");
        f.write_str(&text)?;
        self.fit.map_or(Ok(()), |fit| write!(f, " {fit}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(values: &[f64]) -> Vec<Length> {
        values
            .iter()
            .map(|v| Length::from_mm(*v).unwrap())
            .collect()
    }

    #[test]
    fn rejects_a_bore_larger_than_the_outside_diameter() {
        let error = SizeKey::new(Family::DeepGrooveBall, &mm(&[62.0, 30.0, 16.0])).unwrap_err();
        assert_eq!(
            error.to_string(),
            "outside diameter 30 mm must be larger than bore 62 mm"
        );
    }

    #[test]
    fn what_must_be_smaller_is_named_for_every_family() {
        use Dimension as D;
        const PAIRS: [(Dimension, Dimension); 7] = [
            (D::Bore, D::OutsideDiameter),
            (D::Bore, D::CageOutsideDiameter),
            (D::HousingWasherBore, D::OutsideDiameter),
            (D::InnerRacewayDiameter, D::OutsideDiameter),
            (D::InnerRacewayDiameter, D::OuterRacewayDiameter),
            (D::ShaftDiameter, D::HousingBore),
            (D::ThreadPitch, D::ThreadDiameter),
        ];
        for family in Family::ALL {
            let of = family.key_dimensions();
            let place = |dimension| of.iter().position(|known| *known == dimension);
            let named: Vec<_> = PAIRS
                .iter()
                .filter_map(|(smaller, larger)| Some((place(*smaller)?, place(*larger)?)))
                .collect();
            assert_eq!(family.facts().shape.ordered, named, "{family}");
        }
    }

    #[test]
    fn a_size_without_its_class_is_that_of_its_lengths() {
        let pin = SizeKey::new(Family::DowelPin, &mm(&[6.0, 24.0])).unwrap();
        let m6 = pin.with_fit(FitClass::read("m6").unwrap());
        assert_eq!(m6.without_fit(), pin);
        assert_eq!(pin.without_fit(), pin);
    }

    #[test]
    fn a_length_by_its_place_is_the_one_by_its_name() {
        for (family, values) in [
            (Family::DeepGrooveBall, &[30.0, 62.0, 16.0][..]),
            (Family::ThrustBall, &[20.0, 22.0, 40.0, 14.0]),
            (Family::ORing, &[31.34, 3.53]),
            (Family::BoreRetainingRing, &[40.0]),
        ] {
            let size = SizeKey::new(family, &mm(values)).unwrap();
            for (at, dimension) in family.key_dimensions().iter().enumerate() {
                assert_eq!(size.length_at(at), size.get(*dimension), "{family} {at}");
            }
            assert_eq!(size.length_at(values.len()), None);
            assert_eq!(size.length_at(9), None);
        }
    }

    #[test]
    fn names_the_dimensions_a_family_needs() {
        let error = SizeKey::new(Family::ORing, &mm(&[31.34])).unwrap_err();
        assert_eq!(
            error.to_string(),
            "an O-ring needs inside diameter, section, found 1 values"
        );
    }

    #[test]
    fn pins_of_one_size_and_two_fits_are_two_keys() {
        let pin = SizeKey::new(Family::DowelPin, &mm(&[6.0, 24.0])).unwrap();
        let m6 = pin.with_fit(FitClass::read("m6").unwrap());
        assert_ne!(m6, pin.with_fit(FitClass::read("h8").unwrap()));
        assert_eq!(m6.to_string(), "6 x 24 mm m6");
        assert!(FitClass::read("M6").is_none());
        assert!(FitClass::read("").is_none());
    }
}
