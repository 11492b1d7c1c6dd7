//! What the place asks of a part besides its size: fluid, heat, speed, seat, surroundings.

/// A fluid that a seal must stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fluid {
    /// Mineral oil and grease.
    MineralOil,
    /// Fuel.
    Fuel,
    /// Water and water glycol.
    Water,
    /// Steam.
    Steam,
    /// Brake fluid on glycol base.
    BrakeFluid,
    /// Phosphate ester hydraulic fluid.
    PhosphateEster,
}

/// Which way the place needs the shaft held along its axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AxialNeed {
    /// Must float.
    Floats,
    /// Must be held one way.
    OneWay,
    /// Must be held both ways.
    BothWays,
}

/// Needs of a place; `None` and false are "nobody said".
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Needs {
    /// Fluid.
    pub fluid: Option<Fluid>,
    /// Highest temperature, °C.
    pub highest_c: Option<f64>,
    /// Lowest temperature, °C.
    pub lowest_c: Option<f64>,
    /// Speed of the shaft, rev/min.
    pub speed_rpm: Option<f64>,
    /// Pressure, bar.
    pub pressure_bar: Option<f64>,
    /// Axial location.
    pub axial: Option<AxialNeed>,
    /// Fillet radius of the shoulder, mm.
    pub fillet_mm: Option<f64>,
    /// Hardness of the shaft, HRC.
    pub shaft_hrc: Option<f64>,
    /// Dirt comes to the lip.
    pub is_dirty: bool,
    /// Misalignment must be taken.
    pub is_misaligned: bool,
    /// Fed by a frequency converter.
    pub has_inverter: bool,
    /// Food or drink is near.
    pub is_food: bool,
    /// Water, washing or acid reaches the part.
    pub is_corrosive: bool,
}

impl Fluid {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::MineralOil => "mineral oil",
            Self::Fuel => "fuel",
            Self::Water => "water",
            Self::Steam => "steam",
            Self::BrakeFluid => "brake fluid (glycol)",
            Self::PhosphateEster => "phosphate ester fluid",
        }
    }
}

impl Needs {
    /// True where nothing was said.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}
