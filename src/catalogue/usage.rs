//! What was used of a part in a year.

use super::part::PartId;

/// What was used of one part in one calendar year, returns taken off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UsageOfYear {
    /// The part.
    pub part: PartId,
    /// Calendar year.
    pub year: i32,
    /// Net quantity.
    pub quantity: f64,
}
