//! Rows of kit tasks.

use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::record::Task;

use super::reader::{Rejected, RowReader};

/// What the record is called in messages.
const RECORD: &str = "kit task";

/// Reads one task.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<Task, Rejected> {
    let kit = row.required_text(Field::Kit, RECORD)?;
    let task = row.required_text(Field::Task, RECORD)?;
    let hours = row.required_number(Field::Hours, RECORD)?;
    if !(0.0..=10_000.0).contains(&hours) {
        let problem = Problem::OutOfRange {
            found: format!("`{hours}`"),
            expected: "0 to 10,000 hours",
        };
        row.issue(Severity::Rejected, Some(Field::Hours), problem);
        return Err(Rejected);
    }
    let predecessors = row.text(Field::Predecessors).map_or_else(Vec::new, |text| {
        text.split([';', ',', '|', '\n'])
            .map(str::trim)
            .filter(|name| !name.is_empty())
            .map(str::to_owned)
            .collect()
    });
    Ok(Task {
        kit,
        task,
        hours,
        predecessors,
        place: row.place.clone(),
    })
}
