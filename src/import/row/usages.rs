//! Rows of usage lists.

use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::{movement_of, read_reason};
use crate::record::{Movement, UsageRecord};

use super::counted::Counting;
use super::reader::{Rejected, RowReader};

/// What the record is called in messages.
const RECORD: &str = "usage";

/// Reads one usage, a negative quantity being a return; `None` for a movement that is neither.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<Option<UsageRecord>, Rejected> {
    let movement = read_kind(row)?;
    if movement.is_some_and(|movement| !movement.is_of_usage()) {
        return Ok(None);
    }
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
    let signs = &row.table.signs;
    let quantity = match movement {
        // Whatever its sign, it came back.
        Some(Movement::Return) => -quantity.abs(),
        _ if signs.is_issued_below_zero => -quantity,
        _ => quantity,
    };
    if signs.leaves_out_others && quantity < 0.0 {
        return Ok(None);
    }
    let reason = row.text_of(Field::Reason).and_then(|text| {
        row.word(
            Field::Reason,
            &text,
            "failure, planned or rebuild",
            read_reason,
        )
    });
    Ok(Some(UsageRecord {
        date,
        part: part.into(),
        quantity,
        counted_in: counting.unit(),
        machine: row.text(Field::Machine).map(Into::into),
        reason,
        place: row.place.clone(),
    }))
}

/// The kind of movement, where the column has words for it; a code among words is not guessed.
fn read_kind(row: &mut RowReader<'_, '_>) -> Result<Option<Movement>, Rejected> {
    let signs = &row.table.signs;
    // A column of codes is looked at too: each of them is told.
    let found = row.text(Field::MovementKind);
    if !signs.tells_movements {
        return Ok(None);
    }
    let Some(found) = found else {
        if signs.tells_issues {
            row.lacks(Field::MovementKind, RECORD);
        }
        return Ok(None);
    };
    let movement = movement_of(&found, &row.table.settings.movement_codes);
    if movement.is_none() {
        let expected = "issue, return, receipt, transfer, scrap or count";
        let problem = Problem::UnknownWord { found, expected };
        row.issue(Severity::Rejected, Some(Field::MovementKind), problem);
        return Err(Rejected);
    }
    Ok(movement)
}
