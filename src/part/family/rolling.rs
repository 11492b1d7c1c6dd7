//! What a family bears.

use super::{Element, Family};

/// What a family bears.
#[derive(Debug)]
pub(crate) struct Rolling {
    /// True for bearings that sit on a bore and an outside diameter and carry radial load.
    pub(crate) is_radial: bool,
    /// How forces become an equivalent static load.
    pub(crate) static_load: StaticLoad,
}

impl Family {
    /// Exponent p of the basic rating life (ISO 281): 3 of balls, 10/3 of rollers, needles among them; `None` where nothing
    /// rolls.
    pub(crate) const fn life_exponent(self) -> Option<f64> {
        match self.facts().asked.elements {
            [] => None,
            [Element::Balls] => Some(3.0),
            _ => Some(10.0 / 3.0),
        }
    }
}

/// How radial and axial force, Fr and Fa, become the equivalent static load P0 of ISO 76, which is nowhere below Fr. Factors
/// from memory.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum StaticLoad {
    /// X0 Fr + Y0 Fa.
    Factors {
        /// X0, of the radial force.
        radial: f64,
        /// Y0, of the axial force.
        axial: f64,
    },
    /// X0 Fr + Y0 Fa with the Y0 of the bearing's data sheet.
    FactorOfSheet {
        /// X0, of the radial force.
        radial: f64,
    },
    /// X0 Fr + Y0 Fa with factors that hang on the contact angle.
    FactorsOfAngle,
    /// Fr, without an axial load.
    RadialAlone,
    /// Fa, without a radial load.
    AxialAlone,
    /// No factors are kept here.
    Unknown,
}
