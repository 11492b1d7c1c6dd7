//! One figure of a question: what it is of, in which unit, by which instrument.

use crate::part::{Dimension, Family, SizeKey};
use crate::units::{Length, LengthUnit, ReadLength};

/// What a figure is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Bore, inside diameter, raceway under the needles, diameter of a pin.
    Inner,
    /// Outside diameter.
    Outer,
    /// Width, height, length or thickness.
    Width,
    /// Bore of a thrust bearing's housing washer.
    WasherBore,
    /// Section of an O-ring.
    Section,
    /// Pitch of a thread.
    Pitch,
    /// The shaft the part sits on.
    Shaft,
    /// The housing the part sits in.
    Housing,
    /// The free lip of a seal.
    FreeLip,
    /// A retaining ring before it is mounted: over its outside for bores, its inside for shafts.
    FreeRing,
    /// The groove that a retaining ring lies in, across its floor.
    RingGroove,
    /// The room there is for the width.
    Room,
}

/// What a length was measured with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Instrument {
    /// A steel rule.
    Rule,
    /// A calliper.
    Calliper,
    /// A micrometer, outside or inside.
    Micrometer,
    /// A comparator set to gauge blocks, or a bore gauge set to a ring.
    Comparator,
}

/// One figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// What it is of, where the text says so.
    pub role: Option<Role>,
    /// Read in the unit written, or in millimetres where none was.
    pub length: ReadLength,
    /// The same figure read as inches, where no unit was written.
    pub as_inches: Option<ReadLength>,
    /// Instrument, where the text names one.
    pub instrument: Option<Instrument>,
    /// True where the text says the part is worn or used.
    pub is_worn: bool,
    /// True where the text says it was measured.
    pub is_measured: bool,
    /// True where it is of a size written in fractions of an inch, as parts lists name inch parts.
    pub is_nominal_inch: bool,
}

impl Role {
    /// In words, for a person.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Inner => "bore or inside diameter",
            Self::Outer => "outside diameter",
            Self::Width => "width",
            Self::WasherBore => "bore of the housing washer",
            Self::Section => "section",
            Self::Pitch => "pitch",
            Self::Shaft => "shaft",
            Self::Housing => "housing bore",
            Self::FreeLip => "free lip",
            Self::FreeRing => "free ring",
            Self::RingGroove => "groove diameter",
            Self::Room => "room for the width",
        }
    }

    /// What a person measures on a part of this family.
    pub const fn words_of(self, family: Family) -> &'static str {
        match self {
            Self::Inner => family.facts().bench.words.inner,
            Self::Width => family.facts().bench.words.width,
            _ => self.words(),
        }
    }

    /// True where the part as it lies on the bench, or its groove, measures otherwise than its seat, which is its size.
    pub const fn is_free(self) -> bool {
        matches!(self, Self::FreeLip | Self::FreeRing | Self::RingGroove)
    }

    /// How many roles there are.
    pub(super) const COUNT: usize = Self::Room as usize + 1;

    /// The key dimension of a family that this figure speaks of.
    pub fn dimension(self, family: Family) -> Option<Dimension> {
        let place = self.place(family)?;
        family.key_dimensions().get(place).copied()
    }

    /// Its place among the key dimensions of a family.
    pub fn place(self, family: Family) -> Option<usize> {
        let measured = family.facts().bench.measured;
        let wanted = match self {
            Self::Shaft | Self::FreeLip | Self::FreeRing => Self::Inner,
            Self::RingGroove if measured.lies_in_groove() => Self::Inner,
            // The outside of an internal ring can only be that of the free ring.
            Self::Outer | Self::Housing if measured.is_in_bore() => Self::Inner,
            Self::Housing => Self::Outer,
            Self::Room => Self::Width,
            other => other,
        };
        family
            .key_dimensions()
            .iter()
            .position(|dimension| Self::of(family, *dimension) == wanted)
    }

    /// What a key dimension of a family is.
    pub const fn of(family: Family, dimension: Dimension) -> Self {
        use Dimension as D;
        match dimension {
            D::HousingBore if !family.facts().bench.measured.is_in_bore() => Self::Outer,
            D::Bore
            | D::InnerRacewayDiameter
            | D::InsideDiameter
            | D::ShaftDiameter
            | D::HousingBore
            | D::ThreadDiameter
            | D::PinDiameter => Self::Inner,
            D::OutsideDiameter | D::OuterRacewayDiameter | D::CageOutsideDiameter => Self::Outer,
            D::Width | D::AssembledWidth | D::Height | D::Length => Self::Width,
            D::HousingWasherBore => Self::WasherBore,
            D::Section => Self::Section,
            D::ThreadPitch => Self::Pitch,
        }
    }
}

impl Instrument {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Rule => "rule",
            Self::Calliper => "calliper",
            Self::Micrometer => "micrometer",
            Self::Comparator => "comparator",
        }
    }
}

impl Reading {
    /// A diameter that was named and not measured.
    pub(super) const fn nominal(role: Role, length: Length) -> Self {
        Self {
            role: Some(role),
            length: ReadLength {
                length,
                unit: LengthUnit::Mm,
                is_unit_stated: true,
                half_digit_nm: 0,
            },
            as_inches: None,
            instrument: None,
            is_worn: false,
            is_measured: false,
            is_nominal_inch: false,
        }
    }

    /// A seat or a room in the unit that it was read in: `R16 shaft 0.9998` is near the bore of one inch, and no shaft of a
    /// millimetre.
    pub(super) fn as_read_of(&self, size: &SizeKey) -> Self {
        let dimension = self.role.and_then(|role| role.dimension(size.family()));
        let nominal = dimension.and_then(|dimension| size.get(dimension));
        let mut read = self.clone();
        if let (Some(inches), Some(nominal)) = (read.as_inches.take(), nominal) {
            let off_mm = |read: &ReadLength| read.length.difference_mm(nominal).abs();
            if off_mm(&inches) < off_mm(&read.length) {
                read.length = inches;
            }
        }
        read
    }

    /// The instrument named, else the one the decimals suggest: three decimals of a millimetre are a micrometer's, else a
    /// calliper's, and a fraction of an inch is read off a rule, unless it is of a nominal size (common practice, no source).
    pub fn likely_instrument(&self, length: &ReadLength) -> Instrument {
        self.instrument.unwrap_or({
            if length.half_digit_nm == 0 && !self.is_nominal_inch {
                Instrument::Rule
            } else if (1..=900).contains(&length.half_digit_nm) {
                Instrument::Micrometer
            } else {
                Instrument::Calliper
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_key_dimension_is_found_by_what_it_is() {
        for family in Family::ALL {
            for dimension in family.key_dimensions() {
                let role = Role::of(family, *dimension);
                assert_eq!(
                    role.dimension(family),
                    Some(*dimension),
                    "{family} {dimension:?}"
                );
            }
        }
        assert_eq!(
            Role::Housing.dimension(Family::BoreRetainingRing),
            Some(Dimension::HousingBore)
        );
        assert_eq!(Role::Section.dimension(Family::DeepGrooveBall), None);
    }
}
