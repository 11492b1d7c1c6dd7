//! A row of an offer, a price list or a quote.

use std::sync::Arc;

use chrono::NaiveDate;

use super::lead_time::QuotedLeadTime;
use crate::part::{Family, LoadRatings, SizeKey, Traits};
use crate::place::Place;
use crate::units::{Money, Price, UnitOfCount};

/// Among the notes on a size: the row itself prints every length of it, whatever its designation says.
pub const SIZE_PRINTED: &str = "every length of the size is printed in the row";

/// Condition of the offered goods.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Condition {
    /// New.
    New,
    /// Reconditioned.
    Reconditioned,
    /// Used.
    Used,
}

impl Condition {
    /// Its name, in messages and in stored tables.
    pub const fn name(self) -> &'static str {
        match self {
            Self::New => "new",
            Self::Reconditioned => "reconditioned",
            Self::Used => "used",
        }
    }
}

/// A price that holds from a quantity on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PriceBreak {
    /// Least quantity, in the offer's unit of count.
    pub from_quantity: f64,
    /// Net price.
    pub price: Price,
}

/// A faster delivery for more money.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Expedite {
    /// Lead time when hurried.
    pub lead_time: QuotedLeadTime,
    /// Surcharge per order; `None` where nobody says, which is not nothing.
    pub surcharge: Option<Money>,
}

/// One offer of one part by one supplier. Lists hold millions of them: what many share is shared, and what few have
/// is boxed.
#[derive(Debug, Clone, PartialEq)]
pub struct OfferRecord {
    /// Supplier name; from the row, or from the file or sheet where a whole list is one supplier's.
    pub supplier: Arc<str>,
    /// The shop's own number, where the supplier quotes it.
    pub own_number: Option<String>,
    /// The supplier's number for the part.
    pub supplier_number: Option<String>,
    /// Designation as printed.
    pub designation: Option<Arc<str>>,
    /// Description as printed.
    pub description: Option<String>,
    /// Family, where it can be told.
    pub family: Option<Family>,
    /// Size, where it can be told.
    pub size: Option<SizeKey>,
    /// Notes about how the size was read.
    pub size_notes: Vec<String>,
    /// What is known besides size.
    pub traits: Arc<Traits>,
    /// Load ratings with source.
    pub ratings: Option<Box<LoadRatings>>,
    /// Maker as printed; text only, never matched on.
    pub maker: Option<String>,
    /// Condition; new unless said otherwise.
    pub condition: Condition,
    /// Net price: list less discount, before breaks.
    pub price: Option<Price>,
    /// Unit the price, minimum and pack are counted in; `None` where the list does not say.
    pub unit_of_count: Option<UnitOfCount>,
    /// Price breaks, by rising quantity.
    pub breaks: Vec<PriceBreak>,
    /// Least quantity sold.
    pub minimum_quantity: Option<f64>,
    /// Sold in multiples of this.
    pub pack_quantity: Option<f64>,
    /// Quantity the supplier has.
    pub quantity_available: Option<f64>,
    /// Lead time as quoted.
    pub lead_time: Option<QuotedLeadTime>,
    /// Faster deliveries.
    pub expedite: Vec<Expedite>,
    /// Share of the goods' price charged when the order is cancelled before dispatch; `None` where nobody says.
    pub cancellation_charge_share: Option<f64>,
    /// Date of the quote; from the row, else the list, else the file.
    pub quote_date: Option<NaiveDate>,
    /// Last day the quote holds.
    pub valid_until: Option<NaiveDate>,
    /// The row.
    pub place: Place,
}

impl OfferRecord {
    /// Pieces in its pack; `None` where it is sold singly, or not by pieces.
    pub fn pieces_in_pack(&self) -> Option<u32> {
        match self.unit_of_count {
            Some(UnitOfCount::Pack { pieces }) => Some(pieces),
            Some(UnitOfCount::Piece) | None => {
                let pack = self.pack_quantity?;
                let is_pack = pack.fract().abs() < 1e-9 && (2.0..1e6).contains(&pack);
                is_pack.then_some(pack as u32)
            }
            Some(_) => None,
        }
    }
}
