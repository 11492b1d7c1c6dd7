//! Rows that were not taken, with file, sheet, cell, reason and their cells as they were.

use super::Inputs;
use crate::import::Severity;
use crate::report::model::{Column, Row, Sheet, Value};

/// Key of this sheet.
pub const KEY: &str = "rejected";

/// The sheet, one row per rejected row.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        KEY,
        "Rejected rows",
        "Which rows were not taken, and what would mend them?",
    );
    sheet.columns = vec![
        Column::text("file", "File").wrapped(30),
        Column::text("sheet", "Sheet"),
        Column::text("cell", "Cell"),
        Column::text("reason", "Reason").wrapped(60),
        Column::text("row", "The row as it was").wrapped(90),
    ];
    for issue in inputs
        .imported
        .issues
        .iter()
        .filter(|issue| issue.severity == Severity::Rejected)
    {
        sheet.rows.push(Row::new(vec![
            Value::text(issue.place.file.to_string()),
            if issue.place.sheet.is_empty() {
                Value::Empty
            } else {
                Value::text(issue.place.sheet.to_string())
            },
            Value::text(issue.place.cell()),
            Value::text(issue.problem.to_string()),
            Value::text(issue.original_cells.join(" | ")),
        ]));
    }
    sheet.empty_text = "No row was rejected.".to_owned();
    sheet
}
