//! A row of a parts table, and what is known of a part besides its number.

use std::ops::{Deref, DerefMut};

use chrono::NaiveDate;

use crate::part::{Family, LoadRatings, SizeKey, Traits};
use crate::place::Place;
use crate::units::UnitOfCount;

/// What is known of a part besides its number: what one row says, or what all rows of the part say together.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct PartFacts {
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
    /// Machines that use it, as the parts table says.
    pub machines: Vec<String>,
    /// A planner's own minimum stock, obeyed where given.
    pub own_min_stock: Option<f64>,
    /// Why the planner set it.
    pub own_min_reason: Option<String>,
    /// When the planner set it.
    pub own_min_date: Option<NaiveDate>,
}

impl PartFacts {
    /// Takes over what another row of the part says and these do not; aliases of both stand, traits stay.
    pub(crate) fn take_gaps_from(&mut self, other: Self) {
        self.size = self.size.or(other.size);
        self.family = self.family.or(other.family);
        self.designation = self.designation.take().or(other.designation);
        self.description = self.description.take().or(other.description);
        self.ratings = self.ratings.take().or(other.ratings);
        self.speed_limit_rpm = self.speed_limit_rpm.or(other.speed_limit_rpm);
        self.shelf_life_months = self.shelf_life_months.or(other.shelf_life_months);
        self.unit_of_count = self.unit_of_count.or(other.unit_of_count);
        if self.own_min_stock.is_none() {
            self.own_min_stock = other.own_min_stock;
            self.own_min_reason = other.own_min_reason;
            self.own_min_date = other.own_min_date;
        }
        self.aliases.extend(other.aliases);
        for machine in other.machines {
            if !self.machines.contains(&machine) {
                self.machines.push(machine);
            }
        }
    }
}

/// A part the shop keeps a number for; its facts are read as fields of its own.
#[derive(Debug, Clone, PartialEq)]
pub struct PartRecord {
    /// The shop's own number.
    pub own_number: String,
    /// What the row says of it.
    pub facts: PartFacts,
    /// The row.
    pub place: Place,
}

impl Deref for PartRecord {
    type Target = PartFacts;

    fn deref(&self) -> &PartFacts {
        &self.facts
    }
}

impl DerefMut for PartRecord {
    fn deref_mut(&mut self) -> &mut PartFacts {
        &mut self.facts
    }
}
