//! The groove that an O-ring lies in.

use crate::limit::Duty;

/// A groove that an O-ring lies in, as far as it was measured.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Groove {
    /// Diameter of the groove's floor, mm.
    pub floor_mm: Option<f64>,
    /// Depth of the gland from floor to counterface, mm.
    pub depth_mm: Option<f64>,
    /// Width, mm.
    pub width_mm: Option<f64>,
    /// What the ring does there; at rest between bore and rod where nobody says.
    pub duty: Option<Duty>,
}

impl Groove {
    /// True where any of it was measured.
    pub const fn is_measured(&self) -> bool {
        self.floor_mm.is_some() || self.depth_mm.is_some() || self.width_mm.is_some()
    }
}
