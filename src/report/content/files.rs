//! Files read, skipped and failed: what each table was taken for, its age, and the columns not read.

use super::Inputs;
use crate::import::TableRead;
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, Value};

/// Key of this sheet.
pub const KEY: &str = "files";

/// The sheet, one row per table, skipped file and file that could not be read.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        KEY,
        "Files read",
        "What was each file taken for, and what was left out?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("file", "File").wrapped(32),
        Column::text("sheet", "Sheet"),
        Column::text("taken_for", "Taken for"),
        Column::new(ColumnKind::Integer, "rows_read", "Rows read"),
        Column::new(ColumnKind::Integer, "rows_rejected", "Rows rejected"),
        Column::new(ColumnKind::Date, "dated", "Dated"),
        Column::text("columns", "Columns").wrapped(60),
        Column::text("not_read", "Columns not read").wrapped(34),
        Column::text("note", "Note").wrapped(50),
    ];
    sheet.rows = inputs.imported.tables.iter().map(table_row).collect();
    let failed = inputs
        .imported
        .problems
        .iter()
        .map(|problem| (&problem.file, problem.reason.to_string(), Emphasis::Stop));
    let skipped = inputs
        .imported
        .skipped
        .iter()
        .map(|skipped| (&skipped.file, skipped.reason.to_string(), Emphasis::None));
    for (file, reason, emphasis) in failed.chain(skipped) {
        let taken_for = if emphasis == Emphasis::Stop {
            "not read"
        } else {
            "skipped"
        };
        let mut cells = vec![
            Value::text(file.to_string()),
            Value::Empty,
            Value::text(taken_for),
        ];
        cells.extend((0..5).map(|_| Value::Empty));
        cells.push(Value::text(reason));
        sheet.rows.push(Row::new(cells).with(emphasis));
    }
    sheet
}

/// A table that was read.
fn table_row(table: &TableRead) -> Row {
    let columns: Vec<String> = table
        .columns
        .iter()
        .map(|column| format!("{} = {}", column.header, column.field))
        .collect();
    let not_read: Vec<&str> = table
        .unread_columns
        .iter()
        .map(|(_, header)| header.as_str())
        .collect();
    let mut notes = Vec::new();
    if table.is_hidden {
        notes.push("hidden sheet".to_owned());
    }
    if let Some(supplier) = &table.supplier {
        notes.push(format!("supplier {supplier}"));
    }
    // The usual encoding needs no word.
    let is_usual = |why: &&String| why.starts_with("read as UTF-8");
    notes.extend(table.why.iter().filter(|why| !is_usual(why)).cloned());
    Row::new(vec![
        Value::text(table.file.to_string()),
        if table.sheet.is_empty() {
            Value::Empty
        } else {
            Value::text(table.sheet.to_string())
        },
        Value::text(table.kind.name()),
        Value::Integer(table.rows.read as i64),
        Value::Integer(table.rows.rejected as i64),
        table.dated.map_or(Value::Empty, Value::Date),
        Value::text(columns.join("; ")),
        Value::text(not_read.join("; ")),
        Value::text(notes.join("; ")),
    ])
}
