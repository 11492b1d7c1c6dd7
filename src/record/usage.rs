//! Usages and receipts: what was used, and how long orders really took. There are millions of them: names are shared.

use std::fmt;
use std::sync::Arc;

use chrono::NaiveDate;

use crate::place::Place;
use crate::units::{CountError, UnitOfCount, is_pack};

/// Why a part was used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum UsageReason {
    /// It failed.
    Failure,
    /// Planned change.
    Planned,
    /// Went into a rebuild kit.
    Rebuild,
}

/// What a usage or an order counts in, as its row says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CountedIn {
    /// A unit of count.
    Unit(UnitOfCount),
    /// A pack of as many as the offers of its part are packed in.
    Pack,
}

impl CountedIn {
    /// Reads the words used in spreadsheets: those of [`UnitOfCount::read`], and `box`, `Karton`, `VE`.
    ///
    /// # Errors
    /// [`CountError::NotAUnit`] for anything else.
    pub fn read(text: &str) -> Result<Self, CountError> {
        let word = text.trim().trim_end_matches('.').to_lowercase();
        if is_pack(&word) || word == "opakowanie" {
            return Ok(Self::Pack);
        }
        UnitOfCount::read(text).map(Self::Unit)
    }
}

impl fmt::Display for CountedIn {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unit(unit) => unit.fmt(f),
            Self::Pack => f.write_str("pack"),
        }
    }
}

/// One usage; a return is negative.
#[derive(Debug, Clone, PartialEq)]
pub struct UsageRecord {
    /// Day of usage.
    pub date: NaiveDate,
    /// Own number, alias or designation as printed.
    pub part: Arc<str>,
    /// Quantity; returns are negative.
    pub quantity: f64,
    /// What it counts in; `None` for the unit of the part.
    pub counted_in: Option<CountedIn>,
    /// Machine.
    pub machine: Option<Arc<str>>,
    /// Reason.
    pub reason: Option<UsageReason>,
    /// The row.
    pub place: Place,
}

/// One order line and when it came; `received` is `None` while it is open.
#[derive(Debug, Clone, PartialEq)]
pub struct ReceiptRecord {
    /// Supplier.
    pub supplier: Arc<str>,
    /// Own number, alias or designation as printed.
    pub part: Arc<str>,
    /// Day of order.
    pub ordered: NaiveDate,
    /// Day promised.
    pub promised: Option<NaiveDate>,
    /// Day received.
    pub received: Option<NaiveDate>,
    /// Quantity: what came, or what is still to come of an open order.
    pub quantity: Option<f64>,
    /// What is still to come of an order of which a part has come; `None` where nothing is.
    pub still_open: Option<f64>,
    /// True where nothing is still to come although no day of receipt is known: cancelled, or closed by its status.
    pub is_closed: bool,
    /// What it counts in; `None` for the unit of the part.
    pub counted_in: Option<CountedIn>,
    /// The row.
    pub place: Place,
}
