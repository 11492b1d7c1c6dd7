//! What a family bears.

/// What a family bears.
#[derive(Debug)]
pub(crate) struct Rolling {
    /// True for bearings that sit on a bore and an outside diameter and carry radial load.
    pub(crate) is_radial: bool,
    /// Exponent p of the basic rating life (ISO 281): [`BALLS`] or [`ROLLERS`]; `None` where nothing rolls.
    pub(crate) life_exponent: Option<f64>,
    /// How forces become an equivalent static load.
    pub(crate) static_load: StaticLoad,
}

/// Exponent of the basic rating life of ball bearings (ISO 281).
pub(super) const BALLS: f64 = 3.0;
/// Exponent of the basic rating life of roller bearings (ISO 281).
pub(super) const ROLLERS: f64 = 10.0 / 3.0;

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
