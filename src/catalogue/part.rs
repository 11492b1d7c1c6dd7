//! One part of the catalogue, merged from every table that speaks of it.

use chrono::NaiveDate;

use crate::part::designation::Designation;
use crate::part::{Family, LoadRatings, SizeKey, Traits};
use crate::place::Place;
use crate::standard::{self, StandardPart};
use crate::units::UnitOfCount;

/// Position of a part in its [`Catalogue`](super::Catalogue).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
pub struct PartId(pub u32);

/// A part the shop or a supplier has a number for.
#[derive(Debug, Clone)]
pub struct CataloguePart {
    /// Its position.
    pub id: PartId,
    /// Number it is called by: the shop's own, else the supplier's number, else the designation.
    pub number: String,
    /// True where the shop keeps a number for it; false for parts known from offers only.
    pub is_own: bool,
    /// Other numbers.
    pub aliases: Vec<String>,
    /// Designation as printed.
    pub designation: Option<String>,
    /// Description as printed.
    pub description: Option<String>,
    /// Family.
    pub family: Option<Family>,
    /// Size.
    pub size: Option<SizeKey>,
    /// How the size was read, where that needs saying.
    pub size_notes: Vec<String>,
    /// What is known besides size.
    pub traits: Traits,
    /// Load ratings with source.
    pub ratings: Option<LoadRatings>,
    /// Speed limit, rev/min.
    pub speed_limit_rpm: Option<f64>,
    /// Shelf life, months.
    pub shelf_life_months: Option<f64>,
    /// Unit the part is kept in.
    pub unit_of_count: Option<UnitOfCount>,
    /// A planner's own minimum stock.
    pub own_min_stock: Option<f64>,
    /// Why the planner set it.
    pub own_min_reason: Option<String>,
    /// When the planner set it.
    pub own_min_date: Option<NaiveDate>,
    /// Rows that speak of it, first one first.
    pub places: Vec<Place>,
}

impl CataloguePart {
    /// A part of which only a number and a row are known; its id is set by the catalogue.
    pub fn bare(number: String, place: Place) -> Self {
        Self {
            id: PartId(0),
            number,
            is_own: false,
            aliases: Vec::new(),
            designation: None,
            description: None,
            family: None,
            size: None,
            size_notes: Vec::new(),
            traits: Traits::default(),
            ratings: None,
            speed_limit_rpm: None,
            shelf_life_months: None,
            unit_of_count: None,
            own_min_stock: None,
            own_min_reason: None,
            own_min_date: None,
            places: vec![place],
        }
    }

    /// Number and what it is: `BRG-0412 (6305-2RS C3)`.
    pub fn label(&self) -> String {
        match self.designation.as_ref().or(self.description.as_ref()) {
            Some(text) if *text != self.number => format!("{} ({text})", self.number),
            _ => self.number.clone(),
        }
    }

    /// The best checked standard row of its size; the one the designation names, where several share a size.
    pub fn standard_row(&self) -> Option<&'static StandardPart> {
        let rows = standard::of_size(self.size.as_ref()?);
        if let [] | [_] = rows {
            return rows.first();
        }
        let named = self
            .designation
            .as_deref()
            .and_then(Designation::parse)
            .and_then(|designation| standard::resolve(&designation))
            .filter(|row| Some(row.size) == self.size);
        named.or_else(|| rows.iter().min_by_key(|row| row.confidence))
    }
}
