//! How each stored table was read, so that every stored value leads back to its cell.

use std::collections::HashMap;

use serde::{Deserialize, Serialize};

use super::state::{State, table_of};
use crate::import::{
    ColumnRead, Field, FileError, FileProblem, How, Shape, SkipReason, SkippedFile, TableCounts,
    TableRead,
};
use crate::place::Place;
use crate::record::TableKind;
use crate::units::LengthUnit;

/// How one table was read by one import.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Number of the import.
    pub import: u32,
    /// File.
    pub file: String,
    /// Sheet; empty for text files.
    pub sheet: String,
    /// SHA-256 of the file.
    #[serde(default)]
    pub sha256: Option<String>,
    /// True for sheets that the user does not see.
    pub is_hidden: bool,
    /// Kind of table.
    pub kind: TableKind,
    /// Header row, from 0.
    pub header_row: u32,
    /// First row of data and the row after the last, from 0.
    pub data_rows: (u32, u32),
    /// Columns that were read.
    pub columns: Vec<ColumnReading>,
    /// Columns with a header that were not read.
    pub unread_columns: Vec<(u32, String)>,
    /// Shape, by which mappings are remembered.
    #[serde(default)]
    pub shape: Shape,
    /// Rows by what became of them.
    pub rows: TableCounts,
    /// Unit of lengths where neither cell nor header names one.
    pub unit: LengthUnit,
    /// Supplier of the whole list.
    pub supplier: Option<String>,
    /// Date of the whole list.
    pub dated: Option<chrono::NaiveDate>,
    /// Why the table was read so.
    pub why: Vec<String>,
}

/// How one column was read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ColumnReading {
    /// Position from 0.
    pub column: u32,
    /// Header as printed.
    pub header: String,
    /// Field.
    pub field: Field,
    /// How the header was understood.
    pub how: How,
}

/// A file or sheet that was left out on purpose.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LeftOut {
    /// File.
    pub file: String,
    /// Sheet, where only one was left out.
    pub sheet: Option<String>,
    /// Why.
    pub reason: SkipReason,
}

/// A file that could not be read, in the words told then.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct NotRead {
    /// File.
    pub file: String,
    /// Why.
    pub reason: String,
}

impl Reading {
    pub(super) fn new(table: &TableRead, import: u32, sha256: Option<&str>) -> Self {
        let column = |column: &ColumnRead| ColumnReading {
            column: column.column,
            header: column.header.clone(),
            field: column.field,
            how: column.how.clone(),
        };
        Self {
            import,
            file: table.file.to_string(),
            sheet: table.sheet.to_string(),
            sha256: sha256.map(str::to_owned),
            is_hidden: table.is_hidden,
            kind: table.kind,
            header_row: table.header_row,
            data_rows: table.data_rows,
            columns: table.columns.iter().map(column).collect(),
            unread_columns: table.unread_columns.clone(),
            shape: table.shape.clone(),
            rows: table.rows,
            unit: table.unit,
            supplier: table.supplier.clone(),
            dated: table.dated,
            why: table.why.clone(),
        }
    }

    pub(super) fn to_table_read(&self) -> TableRead {
        let column = |column: &ColumnReading| ColumnRead {
            column: column.column,
            header: column.header.clone(),
            field: column.field,
            how: column.how.clone(),
            samples: Vec::new(),
        };
        TableRead {
            file: self.file.as_str().into(),
            sheet: self.sheet.as_str().into(),
            is_hidden: self.is_hidden,
            kind: self.kind,
            header_row: self.header_row,
            data_rows: self.data_rows,
            columns: self.columns.iter().map(column).collect(),
            unread_columns: self.unread_columns.clone(),
            unread: Vec::new(),
            kind_scores: Vec::new(),
            shape: self.shape.clone(),
            rows: self.rows,
            unit: self.unit,
            supplier: self.supplier.clone(),
            dated: self.dated,
            why: self.why.clone(),
        }
    }

    /// True where a row of `table` at `place` was read with this.
    pub fn covers(&self, table: &str, place: &Place, import: u32) -> bool {
        self.import == import
            && table_of(self.kind) == table
            && *self.file == *place.file
            && *self.sheet == *place.sheet
            && (self.data_rows.0..self.data_rows.1).contains(&place.row)
    }

    /// The cell of a field in a row that was read with this; the first of several columns.
    pub fn cell(&self, place: &Place, field: Field) -> Option<Place> {
        self.columns
            .iter()
            .find(|column| column.field == field)
            .map(|column| place.at(column.column))
    }

    fn is_same_table(&self, other: &Self) -> bool {
        self.file == other.file
            && self.sheet == other.sheet
            && self.kind == other.kind
            && self.header_row == other.header_row
    }
}

/// Readings after an import: those that a row still leads to, and those of the import itself.
///
/// A table that was read again and gave nothing new keeps its earlier reading.
pub(super) fn carry(earlier: &[Reading], new: Vec<Reading>, state: &State) -> Vec<Reading> {
    let all: Vec<&Reading> = earlier.iter().chain(&new).collect();
    let is_used = used(&all, state);
    let again = |old: &Reading| {
        new.iter().any(|new| {
            Reading {
                import: old.import,
                ..new.clone()
            } == *old
        })
    };
    let kept: Vec<&Reading> = (earlier.iter().zip(&is_used))
        .filter(|(reading, is_used)| **is_used || again(reading))
        .map(|(reading, _)| reading)
        .collect();
    let added = new
        .iter()
        .zip(&is_used[earlier.len()..])
        .filter(|(reading, is_used)| {
            **is_used || !kept.iter().any(|old| old.is_same_table(reading))
        });
    let mut readings: Vec<Reading> = kept
        .iter()
        .map(|old| (*old).clone())
        .chain(added.map(|(new, _)| new.clone()))
        .collect();
    // By file; within a file in order of reading, which is that of its sheets.
    readings.sort_by(|a, b| a.file.cmp(&b.file));
    readings
}

/// Which readings at least one row leads to.
fn used(readings: &[&Reading], state: &State) -> Vec<bool> {
    let mut is_used = vec![false; readings.len()];
    let mut last = 0;
    state.each_row(|table, place, import| {
        // Rows come sheet by sheet, so that the last reading mostly covers the next row too.
        if readings
            .get(last)
            .is_some_and(|reading| reading.covers(table, place, import))
        {
            is_used[last] = true;
        } else if let Some(at) = readings
            .iter()
            .position(|reading| reading.covers(table, place, import))
        {
            last = at;
            is_used[at] = true;
        }
    });
    is_used
}

/// File and sheet of every reading with their place in the order of reading.
pub(super) fn sheet_order(readings: &[Reading]) -> HashMap<(&str, &str), usize> {
    let mut order = HashMap::new();
    for (at, reading) in readings.iter().enumerate() {
        order.entry((&*reading.file, &*reading.sheet)).or_insert(at);
    }
    order
}

/// Of each table the newest reading, as the report shows them.
pub(super) fn newest(readings: &[Reading]) -> Vec<&Reading> {
    let is_newest = |reading: &&Reading| {
        !readings
            .iter()
            .any(|other| other.is_same_table(reading) && other.import > reading.import)
    };
    readings.iter().filter(is_newest).collect()
}

impl LeftOut {
    pub(super) fn new(skipped: &SkippedFile) -> Self {
        Self {
            file: skipped.file.to_string(),
            sheet: skipped.sheet.as_ref().map(ToString::to_string),
            reason: skipped.reason,
        }
    }

    pub(super) fn to_skipped(&self) -> SkippedFile {
        SkippedFile {
            file: self.file.as_str().into(),
            sheet: self.sheet.as_deref().map(Into::into),
            reason: self.reason,
        }
    }
}

impl NotRead {
    pub(super) fn new(problem: &FileProblem) -> Self {
        Self {
            file: problem.file.to_string(),
            reason: problem.reason.to_string(),
        }
    }

    pub(super) fn to_problem(&self) -> FileProblem {
        FileProblem {
            file: self.file.as_str().into(),
            reason: FileError::Recorded {
                words: self.reason.clone(),
            },
        }
    }
}
