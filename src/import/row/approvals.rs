//! Rows of approvals: what people judged or tried.

use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::read_outcome;
use crate::record::ApprovalRecord;

use super::reader::{Rejected, RowReader};

/// What the record is called in messages.
const RECORD: &str = "approval";
/// Outcomes that are known.
const EXPECTED: &str = "approved or did not fit";

/// Reads one approval; without an outcome or a name it is none.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<ApprovalRecord, Rejected> {
    let kit = row.required_text(Field::Kit, RECORD)?;
    let line = row.required_text(Field::Line, RECORD)?;
    let substitute = row.required_text(Field::Substitute, RECORD)?;
    let field = if row.table.has(Field::Outcome) {
        Field::Outcome
    } else {
        Field::Approved
    };
    let word = row.required_text(field, RECORD)?;
    let Some(outcome) = read_outcome(&word) else {
        row.issue(
            Severity::Rejected,
            Some(field),
            Problem::UnknownWord {
                found: word,
                expected: EXPECTED,
            },
        );
        return Err(Rejected);
    };
    Ok(ApprovalRecord {
        kit,
        line,
        substitute,
        outcome,
        checks: row.text(Field::Checks),
        by: row.required_text(Field::By, RECORD)?,
        date: row.date(Field::Date),
        place: row.place.clone(),
    })
}
