//! A stored row: the record and which import it came with.

use chrono::NaiveDate;

use super::table::{RowIn, RowOut, Stored, TableError};
use crate::place::Place;

/// Where a stored row came from, besides its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Origin {
    /// Number of the import, which is the number of the snapshot it made.
    pub import: u32,
    /// Date of the list the row was on; `None` where the list does not say.
    pub dated: Option<NaiveDate>,
    /// True for rows of a list that one supplier gave as a whole.
    pub is_whole_list: bool,
}

/// A record with its origin.
#[derive(Debug, Clone, PartialEq)]
pub struct Kept<R> {
    /// The record.
    pub record: R,
    /// Its origin.
    pub origin: Origin,
}

/// A stored record that says which row it came from.
pub trait Placed: Stored + Clone + PartialEq {
    /// The row.
    fn place(&self) -> &Place;
}

impl<R: Stored> Stored for Kept<R> {
    const TABLE: &'static str = R::TABLE;

    fn put(&self, row: &mut RowOut<'_>) {
        row.integer("import", Some(i64::from(self.origin.import)));
        row.date("list_dated", self.origin.dated);
        row.flag("is_whole_list", Some(self.origin.is_whole_list));
        self.record.put(row);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        let import = row.integer("import")?;
        let dated = row.date("list_dated")?;
        let is_whole_list = row.flag("is_whole_list")?.unwrap_or(false);
        let record = R::take(row)?;
        let import = import.and_then(|number| u32::try_from(number).ok());
        let import = import.ok_or_else(|| row.bad("import", "no import number"))?;
        Ok(Self {
            record,
            origin: Origin {
                import,
                dated,
                is_whole_list,
            },
        })
    }
}

macro_rules! placed {
    ($($record:ty),+ $(,)?) => {
        $(impl Placed for $record {
            fn place(&self) -> &Place {
                &self.place
            }
        })+
    };
}

placed!(
    crate::record::PartRecord,
    crate::record::SupplierRecord,
    crate::record::OfferRecord,
    crate::record::OtherWay,
    crate::record::StockRecord,
    crate::record::UsageRecord,
    crate::record::ReceiptRecord,
    crate::record::KitLine,
    crate::record::Task,
    crate::record::PlannedRebuild,
    crate::record::ApprovalRecord,
    crate::record::MachineRecord,
    crate::import::RowIssue,
);
