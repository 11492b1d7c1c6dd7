//! Part families and the dimensions that are the key of each.

use std::fmt;

/// A family of standard parts that share their key dimensions and rules of exchange.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Family {
    /// Deep groove ball bearing, single or double row (ISO 15).
    DeepGrooveBall,
    /// Angular contact ball bearing (ISO 15, DIN 628).
    AngularContactBall,
    /// Self-aligning ball bearing (ISO 15, DIN 630).
    SelfAligningBall,
    /// Cylindrical roller bearing (ISO 15, DIN 5412-1).
    CylindricalRoller,
    /// Tapered roller bearing, cone and cup together (ISO 355).
    TaperedRoller,
    /// Spherical roller bearing (ISO 15, DIN 635-2).
    SphericalRoller,
    /// Needle roller bearing with machined rings and inner ring (ISO 1206).
    NeedleRoller,
    /// Needle roller bearing with machined ring, without inner ring (ISO 1206).
    NeedleRollerNoInnerRing,
    /// Drawn cup needle roller bearing (ISO 3245).
    DrawnCupNeedle,
    /// Radial needle roller and cage assembly (ISO 3030).
    NeedleCage,
    /// Thrust ball bearing (ISO 104, DIN 711).
    ThrustBall,
    /// Thrust needle roller and cage assembly or washer (ISO 3031).
    ThrustNeedle,
    /// Combined needle roller and thrust or angular contact bearing (DIN 5429).
    CombinedNeedleThrust,
    /// Rotary shaft lip seal (ISO 6194-1, DIN 3760).
    LipSeal,
    /// O-ring (ISO 3601-1, SAE AS568).
    ORing,
    /// Retaining ring for shafts (DIN 471).
    ShaftRetainingRing,
    /// Retaining ring for bores (DIN 472).
    BoreRetainingRing,
    /// Lock nut (ISO 2982, DIN 981).
    LockNut,
    /// Parallel or dowel pin (ISO 8734, ISO 2338, ASME B18.8.2).
    DowelPin,
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
    /// Every family, in a fixed order.
    pub const ALL: [Self; 19] = [
        Self::DeepGrooveBall,
        Self::AngularContactBall,
        Self::SelfAligningBall,
        Self::CylindricalRoller,
        Self::TaperedRoller,
        Self::SphericalRoller,
        Self::NeedleRoller,
        Self::NeedleRollerNoInnerRing,
        Self::DrawnCupNeedle,
        Self::NeedleCage,
        Self::ThrustBall,
        Self::ThrustNeedle,
        Self::CombinedNeedleThrust,
        Self::LipSeal,
        Self::ORing,
        Self::ShaftRetainingRing,
        Self::BoreRetainingRing,
        Self::LockNut,
        Self::DowelPin,
    ];

    /// The dimensions that make up the key of this family, in the order they are written.
    pub const fn key_dimensions(self) -> &'static [Dimension] {
        use Dimension as D;
        match self {
            Self::DeepGrooveBall
            | Self::AngularContactBall
            | Self::SelfAligningBall
            | Self::CylindricalRoller
            | Self::SphericalRoller
            | Self::NeedleRoller => &[D::Bore, D::OutsideDiameter, D::Width],
            Self::TaperedRoller => &[D::Bore, D::OutsideDiameter, D::AssembledWidth],
            Self::NeedleRollerNoInnerRing | Self::DrawnCupNeedle | Self::CombinedNeedleThrust => {
                &[D::InnerRacewayDiameter, D::OutsideDiameter, D::Width]
            }
            Self::NeedleCage => &[D::InnerRacewayDiameter, D::OuterRacewayDiameter, D::Width],
            Self::ThrustBall => &[D::Bore, D::HousingWasherBore, D::OutsideDiameter, D::Height],
            Self::ThrustNeedle => &[D::Bore, D::CageOutsideDiameter, D::Height],
            Self::LipSeal => &[D::ShaftDiameter, D::HousingBore, D::Width],
            Self::ORing => &[D::InsideDiameter, D::Section],
            Self::ShaftRetainingRing => &[D::ShaftDiameter],
            Self::BoreRetainingRing => &[D::HousingBore],
            Self::LockNut => &[D::ThreadDiameter, D::ThreadPitch],
            Self::DowelPin => &[D::PinDiameter, D::Length],
        }
    }

    /// The class a supplier may be approved for.
    pub const fn class(self) -> PartClass {
        match self {
            Self::LipSeal | Self::ORing => PartClass::Seals,
            Self::ShaftRetainingRing | Self::BoreRetainingRing | Self::LockNut | Self::DowelPin => {
                PartClass::Fasteners
            }
            Self::DeepGrooveBall
            | Self::AngularContactBall
            | Self::SelfAligningBall
            | Self::CylindricalRoller
            | Self::TaperedRoller
            | Self::SphericalRoller
            | Self::NeedleRoller
            | Self::NeedleRollerNoInnerRing
            | Self::DrawnCupNeedle
            | Self::NeedleCage
            | Self::ThrustBall
            | Self::ThrustNeedle
            | Self::CombinedNeedleThrust => PartClass::Bearings,
        }
    }

    /// Stable name for machine output, such as `deep_groove_ball`.
    pub const fn code(self) -> &'static str {
        match self {
            Self::DeepGrooveBall => "deep_groove_ball",
            Self::AngularContactBall => "angular_contact_ball",
            Self::SelfAligningBall => "self_aligning_ball",
            Self::CylindricalRoller => "cylindrical_roller",
            Self::TaperedRoller => "tapered_roller",
            Self::SphericalRoller => "spherical_roller",
            Self::NeedleRoller => "needle_roller",
            Self::NeedleRollerNoInnerRing => "needle_roller_no_inner_ring",
            Self::DrawnCupNeedle => "drawn_cup_needle",
            Self::NeedleCage => "needle_cage",
            Self::ThrustBall => "thrust_ball",
            Self::ThrustNeedle => "thrust_needle",
            Self::CombinedNeedleThrust => "combined_needle_thrust",
            Self::LipSeal => "lip_seal",
            Self::ORing => "o_ring",
            Self::ShaftRetainingRing => "shaft_retaining_ring",
            Self::BoreRetainingRing => "bore_retaining_ring",
            Self::LockNut => "lock_nut",
            Self::DowelPin => "dowel_pin",
        }
    }

    /// Finds a family by its [`code`](Self::code).
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|family| family.code() == code)
    }

    /// Name for people, in the words of the standards.
    pub const fn name(self) -> &'static str {
        match self {
            Self::DeepGrooveBall => "deep groove ball bearing",
            Self::AngularContactBall => "angular contact ball bearing",
            Self::SelfAligningBall => "self-aligning ball bearing",
            Self::CylindricalRoller => "cylindrical roller bearing",
            Self::TaperedRoller => "tapered roller bearing",
            Self::SphericalRoller => "spherical roller bearing",
            Self::NeedleRoller => "needle roller bearing with inner ring",
            Self::NeedleRollerNoInnerRing => "needle roller bearing without inner ring",
            Self::DrawnCupNeedle => "drawn cup needle roller bearing",
            Self::NeedleCage => "needle roller and cage assembly",
            Self::ThrustBall => "thrust ball bearing",
            Self::ThrustNeedle => "thrust needle roller bearing",
            Self::CombinedNeedleThrust => "combined needle roller and thrust bearing",
            Self::LipSeal => "rotary shaft lip seal",
            Self::ORing => "O-ring",
            Self::ShaftRetainingRing => "retaining ring for shafts",
            Self::BoreRetainingRing => "retaining ring for bores",
            Self::LockNut => "lock nut",
            Self::DowelPin => "dowel pin",
        }
    }

    /// True for rolling bearings that sit on a bore and an outside diameter and carry radial load.
    pub const fn is_radial_bearing(self) -> bool {
        match self {
            Self::DeepGrooveBall
            | Self::AngularContactBall
            | Self::SelfAligningBall
            | Self::CylindricalRoller
            | Self::TaperedRoller
            | Self::SphericalRoller
            | Self::NeedleRoller => true,
            Self::NeedleRollerNoInnerRing
            | Self::DrawnCupNeedle
            | Self::NeedleCage
            | Self::ThrustBall
            | Self::ThrustNeedle
            | Self::CombinedNeedleThrust
            | Self::LipSeal
            | Self::ORing
            | Self::ShaftRetainingRing
            | Self::BoreRetainingRing
            | Self::LockNut
            | Self::DowelPin => false,
        }
    }

    /// True for bearings that come with a radial clearance of their own (ISO 5753-1); others get theirs in mounting.
    pub const fn has_radial_clearance(self) -> bool {
        match self {
            Self::DeepGrooveBall
            | Self::SelfAligningBall
            | Self::CylindricalRoller
            | Self::SphericalRoller
            | Self::NeedleRoller => true,
            Self::AngularContactBall
            | Self::TaperedRoller
            | Self::NeedleRollerNoInnerRing
            | Self::DrawnCupNeedle
            | Self::NeedleCage
            | Self::ThrustBall
            | Self::ThrustNeedle
            | Self::CombinedNeedleThrust
            | Self::LipSeal
            | Self::ORing
            | Self::ShaftRetainingRing
            | Self::BoreRetainingRing
            | Self::LockNut
            | Self::DowelPin => false,
        }
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
}
