//! Rows of order and receipt lists.

use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::record::ReceiptRecord;

use super::counted::Counting;
use super::reader::{Rejected, RowReader};

/// What the record is called in messages.
const RECORD: &str = "receipt";

/// Reads one order line.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<ReceiptRecord, Rejected> {
    let supplier = match row
        .text(Field::Supplier)
        .or_else(|| row.table.title.supplier.clone())
    {
        Some(supplier) => supplier,
        None => return Err(row.missing(Field::Supplier, RECORD)),
    };
    let part = row.required_part(RECORD)?;
    let ordered = row.required_date(Field::Ordered, RECORD)?;
    let received = row.date(Field::Received);
    if let Some(received) = received.filter(|received| *received < ordered) {
        let found = format!("received on {received}, ordered on {ordered}");
        let problem = Problem::OutOfRange {
            found,
            expected: "a receipt on or after the order",
        };
        row.issue(Severity::Rejected, Some(Field::Received), problem);
        return Err(Rejected);
    }
    let mut counting = Counting::in_packs_too(row, Severity::Doubtful);
    let quantity = counting.told(row, Field::Quantity).filter(|quantity| {
        let is_above = *quantity > 0.0;
        // Of what has come nothing is still to come.
        let is_done = received.is_some() && *quantity >= 0.0;
        if !is_above && !is_done {
            row.out_of_range(
                Severity::Doubtful,
                Field::Quantity,
                *quantity,
                "more than 0",
            );
        }
        is_above
    });
    Ok(ReceiptRecord {
        supplier: supplier.into(),
        part: part.into(),
        ordered,
        // `Liefertermin`, `due`: of an order that is the day it was promised for.
        promised: row
            .date(Field::Promised)
            .or_else(|| row.date(Field::DueDate)),
        received,
        quantity,
        counted_in: counting.unit(),
        place: row.place.clone(),
    })
}
