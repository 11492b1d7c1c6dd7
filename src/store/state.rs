//! Everything a snapshot holds as rows: one list per record kind, and the row problems.

use std::sync::Arc;

use super::origin::{Kept, Placed};
use super::table::{Stored, Table, TableError, columns_of};
use crate::import::RowIssue;
use crate::place::Place;
use crate::record::{
    ApprovalRecord, KitLine, MachineRecord, OfferRecord, OtherWay, PartRecord, PlannedRebuild,
    ReceiptRecord, StockRecord, SupplierRecord, TableKind, Task, UsageRecord,
};

/// Builds the struct and everything that goes through all tables from one list, so that none can be forgotten.
macro_rules! tables {
    ($($(#[$doc:meta])* $field:ident: $record:ty;)+) => {
        /// Rows of every table.
        #[derive(Debug, Clone, Default, PartialEq)]
        pub struct State {
            $($(#[$doc])* pub $field: Vec<Kept<$record>>,)+
        }

        impl State {
            /// Names of the tables, in a fixed order.
            pub const TABLES: &'static [&'static str] = &[$(<$record>::TABLE),+];

            /// Every table with its name; `None` for one that holds what it held before.
            pub fn tables_since(&self, before: Option<&Self>) -> Vec<(&'static str, Option<Table>)> {
                vec![$({
                    let is_same = before.is_some_and(|before| before.$field == self.$field);
                    (<$record>::TABLE, (!is_same).then(|| Table::of(&self.$field)))
                }),+]
            }

            /// Reads one table into its list.
            ///
            /// # Errors
            /// [`TableError`] where the table was written by another version. A name that is not known is left alone.
            pub fn read(&mut self, name: &str, table: &Table) -> Result<(), TableError> {
                match name {
                    $(<$record>::TABLE => self.$field = table.records()?,)+
                    _ => {}
                }
                Ok(())
            }

            /// Keeps only the rows that `keeps` wants, by table name and place.
            pub(super) fn retain(&mut self, mut keeps: impl FnMut(&'static str, &Place) -> bool) {
                $(self.$field.retain(|row| keeps(<$record>::TABLE, row.record.place()));)+
            }

            /// Sorts every list by place, so that the order of importing leaves no trace.
            pub fn sort(&mut self) {
                $(sort(&mut self.$field);)+
            }

            /// Sorts every list as it was read: by file, sheet in the order of `rank`, and row.
            pub fn sort_as_read(&mut self, rank: impl Fn(&Place) -> usize) {
                $(sort_as_read(&mut self.$field, &rank);)+
            }

            /// Calls `each` with table name, place and import number of every row.
            pub fn each_row(&self, mut each: impl FnMut(&'static str, &Place, u32)) {
                $(for row in &self.$field {
                    each(<$record>::TABLE, row.record.place(), row.origin.import);
                })+
            }

            /// Names and columns of the tables, for the description of the format.
            pub fn columns() -> Vec<(&'static str, Vec<(&'static str, super::table::CellKind)>)> {
                vec![$((<$record>::TABLE, columns_of::<Kept<$record>>())),+]
            }
        }
    };
}

tables! {
    /// Own parts.
    parts: PartRecord;
    /// Suppliers.
    suppliers: SupplierRecord;
    /// Offers.
    offers: OfferRecord;
    /// Ways other than buying.
    other_ways: OtherWay;
    /// Stock.
    stock: StockRecord;
    /// Usages.
    usages: UsageRecord;
    /// Orders and receipts.
    receipts: ReceiptRecord;
    /// Kit lines.
    kit_lines: KitLine;
    /// Kit tasks.
    tasks: Task;
    /// Rebuilds with a date.
    planned_rebuilds: PlannedRebuild;
    /// Approvals.
    approvals: ApprovalRecord;
    /// Machines.
    machines: MachineRecord;
    /// Row problems.
    issues: RowIssue;
}

fn sort<R: Placed>(rows: &mut [Kept<R>]) {
    rows.sort_by(|a, b| {
        let by_place = a.record.place().cmp(b.record.place());
        by_place.then(a.origin.import.cmp(&b.origin.import))
    });
}

fn sort_as_read<R: Placed>(rows: &mut [Kept<R>], rank: impl Fn(&Place) -> usize) {
    let is_before = |a: &Place, b: &Place| {
        let of_one_file = Arc::ptr_eq(&a.file, &b.file);
        if of_one_file && Arc::ptr_eq(&a.sheet, &b.sheet) {
            return a.row <= b.row;
        }
        (&a.file, rank(a), a.row) <= (&b.file, rank(b), b.row)
    };
    // Mostly they are stored in this order, and a million keys take their time.
    if !rows.is_sorted_by(|a, b| is_before(a.record.place(), b.record.place())) {
        rows.sort_by_cached_key(|row| {
            let place = row.record.place();
            (Arc::clone(&place.file), rank(place), place.row)
        });
    }
}

/// Name of the table that rows of a kind are stored in.
pub const fn table_of(kind: TableKind) -> &'static str {
    match kind {
        TableKind::Parts => PartRecord::TABLE,
        TableKind::Suppliers => SupplierRecord::TABLE,
        TableKind::Offers => OfferRecord::TABLE,
        TableKind::OtherWays => OtherWay::TABLE,
        TableKind::Stock => StockRecord::TABLE,
        TableKind::Usages => UsageRecord::TABLE,
        TableKind::Receipts => ReceiptRecord::TABLE,
        TableKind::KitLines => KitLine::TABLE,
        TableKind::Tasks => Task::TABLE,
        TableKind::PlannedRebuilds => PlannedRebuild::TABLE,
        TableKind::Approvals => ApprovalRecord::TABLE,
        TableKind::Machines => MachineRecord::TABLE,
    }
}
