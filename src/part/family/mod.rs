//! Part families: a file each with all that holds of the family as a whole, and the dimensions that are the key of each.

/// Embeds a table of standard sizes under its file name.
macro_rules! table {
    ($name:literal) => {
        (
            $name,
            include_str!(concat!("../../../data/standard/", $name, ".csv")),
        )
    };
}

mod angular_contact_ball;
mod asked;
mod bench;
mod bore_retaining_ring;
mod combined_needle_thrust;
mod cylindrical_roller;
mod deep_groove_ball;
mod dowel_pin;
mod drawn_cup_needle;
mod exchange;
mod facts;
mod lip_seal;
mod lock_nut;
mod marks;
mod needle_cage;
mod needle_roller;
mod needle_roller_no_inner_ring;
mod o_ring;
mod rolling;
mod self_aligning_ball;
mod shaft_retaining_ring;
mod spherical_roller;
mod tapered_roller;
mod teardown;
mod thrust_ball;
mod thrust_needle;

use std::fmt;

#[cfg(feature = "tables")]
pub(crate) use asked::FormFigures;
pub(crate) use asked::{ClassBeside, Element, PartKind, RingAway, StandardSays, Way};
pub(crate) use bench::{
    Band, ClosedWidth, HousingBand, Measured, Rings, RoomLeft, ShaftBand, Span, Spans,
};
pub(crate) use exchange::{
    AlongAxis, Carries, InSets, KindWord, MadeClosed, OnShaft, OtherWidth, Pressure,
};
pub(crate) use facts::Facts;
pub(crate) use marks::{NamedBy, Unmarked, Which};
pub(crate) use rolling::StaticLoad;
pub(crate) use teardown::Teardown;

/// Lists the families, each with its file: the variant, its place in [`Family::ALL`] and its [`Facts`].
macro_rules! families {
    ($($(#[$doc:meta])+ $family:ident = $file:ident,)+) => {
        /// A family of standard parts that share their key dimensions and rules of exchange.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Family {
            $($(#[$doc])+ $family,)+
        }

        impl Family {
            /// Every family, in a fixed order.
            pub const ALL: [Self; [$(stringify!($file)),+].len()] = [$(Self::$family),+];

            /// All that is known of the family as a whole.
            pub(crate) const fn facts(self) -> &'static Facts {
                match self {
                    $(Self::$family => &$file::FACTS,)+
                }
            }
        }
    };
}

families! {
    /// Deep groove ball bearing, single or double row (ISO 15).
    DeepGrooveBall = deep_groove_ball,
    /// Angular contact ball bearing (ISO 15, DIN 628).
    AngularContactBall = angular_contact_ball,
    /// Self-aligning ball bearing (ISO 15, DIN 630).
    SelfAligningBall = self_aligning_ball,
    /// Cylindrical roller bearing (ISO 15, DIN 5412-1).
    CylindricalRoller = cylindrical_roller,
    /// Tapered roller bearing, cone and cup together (ISO 355).
    TaperedRoller = tapered_roller,
    /// Spherical roller bearing (ISO 15, DIN 635-2).
    SphericalRoller = spherical_roller,
    /// Needle roller bearing with machined rings and inner ring (ISO 1206).
    NeedleRoller = needle_roller,
    /// Needle roller bearing with machined ring, without inner ring (ISO 1206).
    NeedleRollerNoInnerRing = needle_roller_no_inner_ring,
    /// Drawn cup needle roller bearing (ISO 3245).
    DrawnCupNeedle = drawn_cup_needle,
    /// Radial needle roller and cage assembly (ISO 3030).
    NeedleCage = needle_cage,
    /// Thrust ball bearing (ISO 104, DIN 711).
    ThrustBall = thrust_ball,
    /// Thrust needle roller and cage assembly or washer (ISO 3031).
    ThrustNeedle = thrust_needle,
    /// Combined needle roller and thrust or angular contact bearing (DIN 5429).
    CombinedNeedleThrust = combined_needle_thrust,
    /// Rotary shaft lip seal (ISO 6194-1, DIN 3760).
    LipSeal = lip_seal,
    /// O-ring (ISO 3601-1, SAE AS568).
    ORing = o_ring,
    /// Retaining ring for shafts (DIN 471).
    ShaftRetainingRing = shaft_retaining_ring,
    /// Retaining ring for bores (DIN 472).
    BoreRetainingRing = bore_retaining_ring,
    /// Lock nut (ISO 2982, DIN 981).
    LockNut = lock_nut,
    /// Parallel or dowel pin (ISO 8734, ISO 2338, ASME B18.8.2).
    DowelPin = dowel_pin,
}

/// Class of part that a supplier may be approved for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum PartClass {
    /// Rolling bearings.
    Bearings,
    /// Lip seals and O-rings.
    Seals,
    /// Retaining rings, lock nuts and pins.
    Fasteners,
    /// Lines that no standard covers.
    Other,
}

/// A named dimension of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Dimension {
    /// d of a bearing.
    Bore,
    /// D of a bearing or thrust bearing.
    OutsideDiameter,
    /// B or C of a bearing, width of a cage, b of a seal.
    Width,
    /// T of a tapered roller bearing, cone and cup assembled.
    AssembledWidth,
    /// d1, bore of the housing washer.
    HousingWasherBore,
    /// T or H of a thrust bearing.
    Height,
    /// Fw, raceway diameter under the needles.
    InnerRacewayDiameter,
    /// Ew, raceway diameter over the needles.
    OuterRacewayDiameter,
    /// Dc1 or Dc, outside diameter of a thrust cage.
    CageOutsideDiameter,
    /// Shaft diameter a seal or ring is made for.
    ShaftDiameter,
    /// Bore diameter a seal or ring is made for.
    HousingBore,
    /// Inside diameter of an O-ring.
    InsideDiameter,
    /// Section (cord diameter) of an O-ring.
    Section,
    /// Nominal thread diameter.
    ThreadDiameter,
    /// Thread pitch.
    ThreadPitch,
    /// Diameter of a pin.
    PinDiameter,
    /// Length of a pin.
    Length,
}

impl Family {
    /// The dimensions that make up the key of this family, in the order they are written.
    pub const fn key_dimensions(self) -> &'static [Dimension] {
        self.facts().shape.key
    }

    /// The class a supplier may be approved for.
    pub const fn class(self) -> PartClass {
        self.facts().class
    }

    /// Stable name for machine output, such as `deep_groove_ball`.
    pub const fn code(self) -> &'static str {
        self.facts().code
    }

    /// Finds a family by its [`code`](Self::code).
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|family| family.code() == code)
    }

    /// Name for people, in the words of the standards.
    pub const fn name(self) -> &'static str {
        self.facts().name
    }

    /// True for rolling bearings that sit on a bore and an outside diameter and carry radial load.
    pub const fn is_radial_bearing(self) -> bool {
        self.facts().rolling.is_radial
    }

    /// True for bearings that come with a radial clearance of their own (ISO 5753-1); others get theirs in mounting.
    pub const fn has_radial_clearance(self) -> bool {
        matches!(self.facts().marks.radial_clearance, Which::Every)
    }
}

impl Dimension {
    /// Field name for machine output, with its unit.
    pub const fn field(self) -> &'static str {
        match self {
            Self::Bore => "bore_mm",
            Self::OutsideDiameter => "outside_diameter_mm",
            Self::Width => "width_mm",
            Self::AssembledWidth => "assembled_width_mm",
            Self::HousingWasherBore => "housing_washer_bore_mm",
            Self::Height => "height_mm",
            Self::InnerRacewayDiameter => "inner_raceway_diameter_mm",
            Self::OuterRacewayDiameter => "outer_raceway_diameter_mm",
            Self::CageOutsideDiameter => "cage_outside_diameter_mm",
            Self::ShaftDiameter => "shaft_diameter_mm",
            Self::HousingBore => "housing_bore_mm",
            Self::InsideDiameter => "inside_diameter_mm",
            Self::Section => "section_mm",
            Self::ThreadDiameter => "thread_diameter_mm",
            Self::ThreadPitch => "thread_pitch_mm",
            Self::PinDiameter => "pin_diameter_mm",
            Self::Length => "length_mm",
        }
    }

    /// Name for people, without unit: the field name in plain words.
    pub fn name(self) -> String {
        self.field().trim_end_matches("_mm").replace('_', " ")
    }
}

impl fmt::Display for Family {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl serde::Serialize for Family {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.code())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_family_has_a_code_of_its_own_and_is_found_by_it() {
        for family in Family::ALL {
            assert_eq!(Family::from_code(family.code()), Some(family));
            assert!((1..=4).contains(&family.key_dimensions().len()));
        }
    }

    /// ISO 281: p is 3 for ball bearings and 10/3 for roller bearings; the names say which roll on what.
    #[test]
    fn what_rolls_has_the_exponent_of_what_it_rolls_on() {
        for family in Family::ALL {
            let rolling = &family.facts().rolling;
            let is_of = |word: &str| family.name().contains(word);
            let expected = match (is_of(" ball "), is_of("roller ")) {
                (true, false) => Some(3.0),
                (false, true) => Some(10.0 / 3.0),
                _ => None,
            };
            let same = |(p, of): (f64, f64)| (p - of).abs() < 1e-12;
            assert_eq!(family.life_exponent().is_some(), expected.is_some());
            assert!(family.life_exponent().zip(expected).is_none_or(same));
            let rolls = family.class() == PartClass::Bearings;
            assert_eq!(family.life_exponent().is_some(), rolls, "{family}");
            let is_unknown = rolling.static_load == StaticLoad::Unknown;
            assert!(rolls || is_unknown, "{family}");
            assert!(!rolling.is_radial || !is_unknown, "{family}");
        }
    }

    /// DIN 623-1 marks rolling bearings; ISO 5753-1, ISO 492 and ISO 199 speak of them only.
    #[test]
    fn marks_of_bearings_are_on_bearings_only() {
        for family in Family::ALL {
            let marks = &family.facts().marks;
            let marked = [
                marks.radial_clearance != Which::None,
                marks.closures != Which::None,
                !marks.unmarked.is_empty(),
                !marks.tapers.is_empty(),
                marks.may_have_snap_ring,
                !marks.angles.is_empty(),
                !marks.arrangements.is_empty(),
                !marks.number_letters.is_empty(),
                !marks.designs.is_empty(),
                marks.halves.is_some(),
            ];
            let is_bearing = family.class() == PartClass::Bearings;
            assert!(is_bearing || !marked.contains(&true), "{family}");
            let has = |unmarked: &Unmarked| marks.unmarked.contains(unmarked);
            let all = Unmarked::RADIAL.iter().all(has);
            assert_eq!(family.is_radial_bearing(), all, "{family}");
            // What may be closed is open without a mark, as DIN 623-1 has it.
            assert!(marks.closures == Which::None || has(&Unmarked::Open));
            assert!(marks.tapers.is_empty() || has(&Unmarked::CylindricalBore));
            assert!(!marks.may_have_snap_ring || has(&Unmarked::NoGroove));
        }
    }

    #[test]
    fn what_is_noted_at_a_teardown_has_a_german_line() {
        let german = include_str!("../../../data/language/de.tsv");
        let has_line = |text: &str| {
            german
                .lines()
                .any(|line| line.split('\t').next() == Some(text))
        };
        for family in Family::ALL {
            let noted = family.facts().teardown.noted;
            assert!(!noted.is_empty(), "{family}");
            for text in noted {
                assert!(has_line(text), "{family}: {text}");
            }
        }
    }

    #[test]
    fn every_table_is_of_a_family_and_of_one() {
        let tables = || {
            Family::ALL
                .into_iter()
                .flat_map(|of| of.facts().shape.tables)
        };
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/data/standard");
        let mut names: Vec<String> = std::fs::read_dir(folder)
            .unwrap()
            .map(|file| file.unwrap().file_name().into_string().unwrap())
            .filter(|file| file != "sources.csv")
            .collect();
        names.sort();
        let mut known: Vec<String> = tables().map(|(name, _)| format!("{name}.csv")).collect();
        known.sort();
        assert_eq!(known, names);
    }
}
