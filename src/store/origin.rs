//! A stored row: the record and which import it came with.

use chrono::NaiveDate;

use super::table::{RowIn, RowOut, Stored, TableError};
use crate::place::Place;

/// Where a stored row came from, besides its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Origin {
    /// Number of the import, which is the number of the snapshot it made.
    pub import: u32,
    /// Date of the list the row was on; `None` where the list does not say.
    pub dated: Option<NaiveDate>,
    /// True for rows of a list that one supplier gave as a whole.
    pub is_whole_list: bool,
    /// The row this one was mended from; `None` for a row that stands as it was read.
    pub mends: Option<Box<Mends>>,
}

/// A row whose place a mended one takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mends {
    /// The row.
    pub place: Place,
    /// Number of the import that read it; `None` where none did.
    pub import: Option<u32>,
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
        let mends = self.origin.mends.as_ref();
        row.text("mends_file", mends.map(|mends| &*mends.place.file));
        row.text("mends_sheet", mends.map(|mends| &*mends.place.sheet));
        row.integer(
            "mends_row",
            mends.map(|mends| i64::from(mends.place.row) + 1),
        );
        row.integer(
            "mends_import",
            mends.and_then(|mends| mends.import).map(i64::from),
        );
        self.record.put(row);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        let import = row.integer("import")?;
        let dated = row.date("list_dated")?;
        let is_whole_list = row.flag("is_whole_list")?.unwrap_or(false);
        let mends = take_mends(row)?;
        let record = R::take(row)?;
        let import = import.and_then(|number| u32::try_from(number).ok());
        let import = import.ok_or_else(|| row.bad("import", "no import number"))?;
        Ok(Self {
            record,
            origin: Origin {
                import,
                dated,
                is_whole_list,
                mends,
            },
        })
    }
}

fn take_mends(row: &mut RowIn<'_>) -> Result<Option<Box<Mends>>, TableError> {
    let (file, sheet) = (row.text("mends_file")?, row.text("mends_sheet")?);
    let (number, import) = (row.integer("mends_row")?, row.integer("mends_import")?);
    let number = number.and_then(|number| u32::try_from(number.checked_sub(1)?).ok());
    let (Some(file), Some(number)) = (file, number) else {
        return Ok(None);
    };
    let place = Place::row(&file.into(), &sheet.unwrap_or_default().into(), number);
    let import = import.and_then(|import| u32::try_from(import).ok());
    Ok(Some(Box::new(Mends { place, import })))
}

impl<R: Placed> Kept<R> {
    /// The row by which its list and its edition are known: the one it mends, else its own.
    pub fn home(&self) -> &Place {
        let mends = self.origin.mends.as_ref();
        mends.map_or_else(|| self.record.place(), |mends| &mends.place)
    }

    /// The import that read that row.
    pub(super) fn home_import(&self) -> u32 {
        let mends = self.origin.mends.as_ref();
        mends
            .and_then(|mends| mends.import)
            .unwrap_or(self.origin.import)
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
