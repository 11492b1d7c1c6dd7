//! Tables of what happened: usages and receipts.

use super::identity::{put_place, take_place};
use super::table::{RowIn, RowOut, Stored, TableError};
use crate::record::{CountedIn, ReceiptRecord, UsageReason, UsageRecord};

const fn reason_code(reason: UsageReason) -> &'static str {
    match reason {
        UsageReason::Failure => "failure",
        UsageReason::Planned => "planned",
        UsageReason::Rebuild => "rebuild",
    }
}

fn read_reason(code: &str) -> Option<UsageReason> {
    let all = [
        UsageReason::Failure,
        UsageReason::Planned,
        UsageReason::Rebuild,
    ];
    all.into_iter().find(|reason| reason_code(*reason) == code)
}

fn put_counted_in(row: &mut RowOut<'_>, unit: Option<CountedIn>) {
    let text = unit.map(|unit| unit.to_string());
    row.text("unit_of_count", text.as_deref());
}

/// The column of units, which workspaces of earlier versions have not.
fn take_counted_in(row: &mut RowIn<'_>) -> Result<Option<CountedIn>, TableError> {
    if row.is_next("unit_of_count") {
        row.coded("unit_of_count", |text| CountedIn::read(text).ok())
    } else {
        Ok(None)
    }
}

impl Stored for UsageRecord {
    const TABLE: &'static str = "usages";

    fn put(&self, row: &mut RowOut<'_>) {
        row.date("date", Some(self.date));
        row.text("part", Some(&self.part));
        row.number("quantity", Some(self.quantity));
        put_counted_in(row, self.counted_in);
        row.text("machine", self.machine.as_deref());
        row.text("reason", self.reason.map(reason_code));
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        Ok(Self {
            date: row.required_date("date")?,
            part: row.required_shared_text("part")?,
            quantity: row.required_number("quantity")?,
            counted_in: take_counted_in(row)?,
            machine: row.shared_text("machine")?,
            reason: row.coded("reason", read_reason)?,
            place: take_place(row)?,
        })
    }
}

impl Stored for ReceiptRecord {
    const TABLE: &'static str = "receipts";

    fn put(&self, row: &mut RowOut<'_>) {
        row.text("supplier", Some(&self.supplier));
        row.text("part", Some(&self.part));
        row.date("ordered", Some(self.ordered));
        row.date("promised", self.promised);
        row.date("received", self.received);
        row.number("quantity", self.quantity);
        row.number("still_open", self.still_open);
        row.flag("is_closed", Some(self.is_closed));
        put_counted_in(row, self.counted_in);
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        Ok(Self {
            supplier: row.required_shared_text("supplier")?,
            part: row.required_shared_text("part")?,
            ordered: row.required_date("ordered")?,
            promised: row.date("promised")?,
            received: row.date("received")?,
            quantity: row.number("quantity")?,
            // Tables of earlier versions say neither.
            still_open: match row.is_next("still_open") {
                true => row.number("still_open")?,
                false => None,
            },
            is_closed: match row.is_next("is_closed") {
                true => row.flag("is_closed")?.unwrap_or(false),
                false => false,
            },
            counted_in: take_counted_in(row)?,
            place: take_place(row)?,
        })
    }
}
