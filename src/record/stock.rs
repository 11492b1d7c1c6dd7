//! A row of a stock list.

use chrono::NaiveDate;

use super::part::PartFacts;
use crate::place::Place;
use crate::units::UnitOfCount;

/// Stock of one part in one bin or lot.
#[derive(Debug, Clone, PartialEq)]
pub struct StockRecord {
    /// Own number, alias or designation as printed.
    pub part: String,
    /// Bin.
    pub bin: Option<String>,
    /// Lot.
    pub lot: Option<String>,
    /// Cure date of an elastomer or pack date of a greased part.
    pub cure_date: Option<NaiveDate>,
    /// Last day the lot may be fitted, as the row says it: it comes before one reckoned from the cure date.
    pub usable_until: Option<NaiveDate>,
    /// True where what lies there may not be used, by a word such as `blocked`: it is no stock.
    pub is_blocked: bool,
    /// On hand, in `unit_of_count`.
    pub on_hand: Option<f64>,
    /// Reserved for other work.
    pub reserved: Option<f64>,
    /// On order.
    pub on_order: Option<f64>,
    /// Due date of what is on order.
    pub due_date: Option<NaiveDate>,
    /// Unit of count; `None` where the list does not say.
    pub unit_of_count: Option<UnitOfCount>,
    /// True where the quantities are packs of which the row does not say how many they hold; no unit of count is said then.
    pub is_in_packs: bool,
    /// What the list says of the part itself, where it has columns for that and a number of the part: a list of parts and
    /// of what is there in one. `unit_of_count` is the row's own.
    pub facts: Option<Box<PartFacts>>,
    /// Day of counting, from the row or the file.
    pub counted_on: Option<NaiveDate>,
    /// The row.
    pub place: Place,
}
