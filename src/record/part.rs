//! A row of a parts table.

use chrono::NaiveDate;

use crate::part::{Family, LoadRatings, SizeKey, Traits};
use crate::place::Place;
use crate::units::UnitOfCount;

/// A part the shop keeps a number for.
#[derive(Debug, Clone, PartialEq)]
pub struct PartRecord {
    /// The shop's own number.
    pub own_number: String,
    /// Other numbers the part goes by.
    pub aliases: Vec<String>,
    /// Designation as printed (`6305-2RS C3`).
    pub designation: Option<String>,
    /// Description as printed.
    pub description: Option<String>,
    /// Family, where the type, the designation or the description names one.
    pub family: Option<Family>,
    /// Size, where the dimensions or the designation give one.
    pub size: Option<SizeKey>,
    /// Why `size` differs from what was printed (`joined to the standard size 22.225 mm, printed 22.23`), for the reader.
    pub size_notes: Vec<String>,
    /// What is known besides size.
    pub traits: Traits,
    /// Load ratings with source.
    pub ratings: Option<LoadRatings>,
    /// Speed limit, rev/min.
    pub speed_limit_rpm: Option<f64>,
    /// Shelf life, months.
    pub shelf_life_months: Option<f64>,
    /// Unit of count of this part.
    pub unit_of_count: Option<UnitOfCount>,
    /// A planner's own minimum stock, obeyed where given.
    pub own_min_stock: Option<f64>,
    /// Why the planner set it.
    pub own_min_reason: Option<String>,
    /// When the planner set it.
    pub own_min_date: Option<NaiveDate>,
    /// The row.
    pub place: Place,
}
