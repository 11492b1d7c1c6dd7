//! What the place asks of a part besides its size: fluid, heat, speed, seat, surroundings.

use crate::part::ClosedBy;

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
    /// Silicone oil and grease.
    SiliconeFluid,
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

/// Which ring turns against the direction of the load, and so needs the tight seat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turning {
    /// The inner ring, on a turning shaft.
    InnerRing,
    /// The outer ring, in a turning housing or hub.
    OuterRing,
}

/// One thing that a place may ask for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Need {
    /// Fluid.
    Fluid,
    /// Highest temperature.
    Heat,
    /// Lowest temperature.
    Cold,
    /// Speed of the shaft.
    Speed,
    /// Speed of the shaft under a lip.
    LipSpeed,
    /// Pressure.
    Pressure,
    /// Axial location.
    Axial,
    /// Fillet radius of the shoulder.
    Fillet,
    /// Hardness of the shaft.
    ShaftHardness,
    /// Dirt.
    Dirt,
    /// Misalignment.
    Misalignment,
    /// Currents of a frequency converter.
    Inverter,
    /// Food or drink.
    Food,
    /// Water, washing or acid.
    Corrosion,
    /// The ring that turns.
    Turning,
    /// Load across the shaft.
    RadialLoad,
    /// Shocks and vibration.
    Shocks,
    /// No load but that along the shaft.
    AxialAlone,
    /// A shield or seal, nobody knows on how many sides.
    Closure,
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
    /// Speed of the shaft under a lip, m/s.
    pub lip_m_s: Option<f64>,
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
    /// The ring that turns.
    pub turning: Option<Turning>,
    /// Load comes across the shaft.
    pub has_radial_load: bool,
    /// Shocks or vibration come on the part.
    pub has_shocks: bool,
    /// No load comes but that along the shaft.
    pub is_axial_alone: bool,
    /// What closes the old bearing, where nobody said on how many sides.
    pub closed_by: Option<ClosedBy>,
    /// A dust lip on a lip seal, or none, where nobody said what its outside is.
    pub has_dust_lip: Option<bool>,
    /// Elastomers that are not wanted, by their symbols of ISO 1629.
    pub no_elastomers: Vec<&'static str>,
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
            Self::SiliconeFluid => "silicone oil or grease",
        }
    }
}

impl AxialNeed {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Floats => "must float",
            Self::OneWay => "must hold one way",
            Self::BothWays => "must hold both ways",
        }
    }
}

impl Turning {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::InnerRing => "an inner ring that turns",
            Self::OuterRing => "an outer ring that turns",
        }
    }
}

impl Needs {
    /// Everything that was asked for, each in words.
    pub fn asked(&self) -> Vec<(Need, String)> {
        let figures = [
            (Need::Heat, self.highest_c, "heat of", "°C"),
            (Need::Cold, self.lowest_c, "cold of", "°C"),
            (Need::Speed, self.speed_rpm, "speed of", "rev/min"),
            (Need::LipSpeed, self.lip_m_s, "speed under a lip of", "m/s"),
            (Need::Pressure, self.pressure_bar, "pressure of", "bar"),
            (Need::Fillet, self.fillet_mm, "fillet of", "mm"),
            (Need::ShaftHardness, self.shaft_hrc, "shaft of", "HRC"),
        ];
        let figures = figures
            .into_iter()
            .filter_map(|(need, figure, what, unit)| {
                Some((need, format!("{what} {} {unit}", figure?)))
            });
        let flags = [
            (Need::Dirt, self.is_dirty, "dirt"),
            (Need::Misalignment, self.is_misaligned, "misalignment"),
            (Need::Inverter, self.has_inverter, "currents of an inverter"),
            (Need::Food, self.is_food, "contact with food"),
            (Need::Corrosion, self.is_corrosive, "water, washing or acid"),
            (
                Need::RadialLoad,
                self.has_radial_load,
                "load across the shaft",
            ),
            (Need::Shocks, self.has_shocks, "shocks and vibration"),
            (
                Need::AxialAlone,
                self.is_axial_alone,
                "load along the shaft alone",
            ),
        ];
        let flags = flags
            .into_iter()
            .filter(|(_, is_asked, _)| *is_asked)
            .map(|(need, _, words)| (need, words.to_owned()));
        let fluid = self.fluid.map(|of| (Need::Fluid, of.words().to_owned()));
        let axial = self.axial.map(|of| (Need::Axial, of.words().to_owned()));
        let turning = self
            .turning
            .map(|of| (Need::Turning, of.words().to_owned()));
        let closed = self
            .closed_by
            .map(|by| (Need::Closure, by.words().to_owned()));
        fluid
            .into_iter()
            .chain(axial)
            .chain(turning)
            .chain(closed)
            .chain(figures)
            .chain(flags)
            .collect()
    }

    /// True where nothing was said.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}
