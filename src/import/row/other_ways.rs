//! Rows of ways other than buying.

use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::read_way_kind;
use crate::record::OtherWay;

use super::reader::{Rejected, RowReader};

/// What the record is called in messages.
const RECORD: &str = "way other than buying";
/// Kinds that are known.
const EXPECTED: &str = "make in house, rework, repair outside, other bin or other machine";

/// Reads one way; one that a column says is not approved is none.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<OtherWay, Rejected> {
    let part = row.required_part(RECORD)?;
    let word = row.required_text(Field::WayKind, RECORD)?;
    let Some(kind) = read_way_kind(&word) else {
        row.issue(
            Severity::Rejected,
            Some(Field::WayKind),
            Problem::UnknownWord {
                found: word,
                expected: EXPECTED,
            },
        );
        return Err(Rejected);
    };
    if row.flag(Field::Approved) == Some(false) {
        let found = row.text(Field::Approved).unwrap_or_default();
        let problem = Problem::WayRefused { found };
        row.issue(Severity::Rejected, Some(Field::Approved), problem);
        return Err(Rejected);
    }
    Ok(OtherWay {
        part,
        kit: row.text(Field::Kit),
        line: row.text(Field::Line),
        kind,
        hours: row.hours(Field::Hours),
        cost: row.money(Field::Cost),
        quantity: row.number_above_zero(Field::Quantity),
        from: row.first_text(&[Field::From, Field::Bin, Field::Machine]),
        approved_by: row.text(Field::By),
        note: row.text(Field::Note),
        place: row.place.clone(),
    })
}
