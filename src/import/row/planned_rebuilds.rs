//! Rows of planned rebuilds.

use crate::import::field::Field;
use crate::record::PlannedRebuild;

use super::reader::{Rejected, RowReader};

/// What the record is called in messages.
const RECORD: &str = "planned rebuild";

/// Reads one rebuild with its date.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<PlannedRebuild, Rejected> {
    Ok(PlannedRebuild {
        kit: row.required_text(Field::Kit, RECORD)?,
        machine: row.text(Field::Machine),
        date: row.required_date(Field::Date, RECORD)?,
        place: row.place.clone(),
    })
}
