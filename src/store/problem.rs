//! The table of row problems: told again in the words of the import that found them.

use super::identity::{put_list, put_place, take_list, take_place};
use super::table::{RowIn, RowOut, Stored, TableError};
use crate::import::{Field, Problem, RowIssue, Severity};

const SEVERITIES: [(Severity, &str); 3] = [
    (Severity::Rejected, "rejected"),
    (Severity::Doubtful, "doubtful"),
    (Severity::Note, "note"),
];

impl Stored for RowIssue {
    const TABLE: &'static str = "issues";

    fn put(&self, row: &mut RowOut<'_>) {
        let severity = SEVERITIES.iter().find(|(known, _)| *known == self.severity);
        row.text("severity", severity.map(|(_, code)| *code));
        row.text("field", self.field.map(Field::code));
        row.text("problem", Some(&self.problem.to_string()));
        put_list(row, "original_cells", &self.original_cells);
        row.integer(
            "column",
            self.place.column.map(|column| i64::from(column) + 1),
        );
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        let severity = row.coded("severity", |code| {
            SEVERITIES
                .iter()
                .find(|(_, known)| *known == code)
                .map(|(severity, _)| *severity)
        })?;
        let field = row.coded("field", Field::from_code)?;
        let words = row.required_text("problem")?;
        let original_cells = take_list(row, "original_cells")?;
        let column = row
            .integer("column")?
            .and_then(|column| u32::try_from(column.checked_sub(1)?).ok());
        let mut place = take_place(row)?;
        place.column = column;
        Ok(Self {
            place,
            severity: severity.ok_or_else(|| row.bad("severity", "null"))?,
            field,
            problem: Problem::Recorded { words },
            original_cells,
        })
    }
}
