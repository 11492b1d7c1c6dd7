//! Rows of usage lists.

use crate::import::field::Field;
use crate::import::issue::Severity;
use crate::import::value::read_reason;
use crate::record::UsageRecord;

use super::counted::Counting;
use super::reader::{Rejected, RowReader};

/// What the record is called in messages.
const RECORD: &str = "usage";

/// Reads one usage; a negative quantity is a return.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<UsageRecord, Rejected> {
    let part = row.required_part(RECORD)?;
    let date = row.required_date(Field::Date, RECORD)?;
    let mut counting = Counting::in_packs_too(row, Severity::Rejected);
    if counting.is_unread {
        return Err(Rejected);
    }
    let quantity = match counting.quantity(row, Field::Quantity) {
        Ok(Some(quantity)) => quantity,
        Ok(None) => return Err(row.missing(Field::Quantity, RECORD)),
        Err(problem) => {
            row.issue(Severity::Rejected, Some(Field::Quantity), problem);
            return Err(Rejected);
        }
    };
    // As an issue of the books or as a usage, it is what was used.
    let quantity = match row.table.is_issued_below_zero {
        true => -quantity,
        false => quantity,
    };
    let reason = row.text_of(Field::Reason).and_then(|text| {
        row.word(
            Field::Reason,
            &text,
            "failure, planned or rebuild",
            read_reason,
        )
    });
    Ok(UsageRecord {
        date,
        part: part.into(),
        quantity,
        counted_in: counting.unit(),
        machine: row.text(Field::Machine).map(Into::into),
        reason,
        place: row.place.clone(),
    })
}
