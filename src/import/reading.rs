//! How each table was read, column by column.

use std::sync::Arc;

use chrono::NaiveDate;

use crate::record::TableKind;
use crate::units::LengthUnit;

use super::field::Field;
use super::grid::Grid;
use super::header::How;
use super::row::{TableContext, TableCounts};
use super::shape::Shape;
use super::table::Table;
use super::table_kind::KindScore;

/// Sample values kept of each column.
const SAMPLES: usize = 3;

/// How one table was read.
///
/// With a record's place, [`columns`](Self::columns) leads from each of its values to the cell it came from.
#[derive(Debug, Clone, PartialEq)]
pub struct TableRead {
    /// File name.
    pub file: Arc<str>,
    /// Sheet name; empty for text files.
    pub sheet: Arc<str>,
    /// True for sheets that the user does not see.
    pub is_hidden: bool,
    /// Kind of table.
    pub kind: TableKind,
    /// Header row, from 0.
    pub header_row: u32,
    /// First row of data and the row after the last, from 0.
    pub data_rows: (u32, u32),
    /// Columns that were read.
    pub columns: Vec<ColumnRead>,
    /// Columns with a header that were not read.
    pub unread_columns: Vec<(u32, String)>,
    /// Columns that were not read, those without a header too.
    pub unread: Vec<UnreadColumn>,
    /// Kinds that came into question, the taken one first.
    pub kind_scores: Vec<KindScore>,
    /// Headers with their columns: tables of one shape are read alike.
    pub shape: Shape,
    /// Rows by what became of them.
    pub rows: TableCounts,
    /// Unit of lengths where neither cell nor header names one.
    pub unit: LengthUnit,
    /// Supplier of the whole list.
    pub supplier: Option<String>,
    /// Date of the whole list.
    pub dated: Option<NaiveDate>,
    /// Why the table was read so, in words.
    pub why: Vec<String>,
}

/// How one column was read.
#[derive(Debug, Clone, PartialEq)]
pub struct ColumnRead {
    /// Position from 0.
    pub column: u32,
    /// Header as printed.
    pub header: String,
    /// Field.
    pub field: Field,
    /// How the header was understood.
    pub how: How,
    /// Up to three different values.
    pub samples: Vec<String>,
}

/// A column that was not read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnreadColumn {
    /// Position from 0.
    pub column: u32,
    /// Header as printed; empty where there is none.
    pub header: String,
    /// Up to three different values.
    pub samples: Vec<String>,
}

/// Rows looked through for values to show.
const SAMPLE_ROWS: u32 = 500;

/// The first different values of a column.
fn samples(grid: &Grid, table: &Table, column: u32) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for row in (table.first_row..table.end_row).take(SAMPLE_ROWS as usize) {
        let text = grid.cell(row, column).to_text();
        if !text.is_empty() && !found.contains(&text) {
            found.push(text);
            if found.len() == SAMPLES {
                break;
            }
        }
    }
    found
}

/// Columns of a table that were not read: those with a header, and those with values only.
fn unread(grid: &Grid, table: &Table) -> Vec<UnreadColumn> {
    let mut found: Vec<UnreadColumn> = table
        .unread
        .iter()
        .map(|(column, header)| UnreadColumn {
            column: *column,
            header: header.clone(),
            samples: samples(grid, table, *column),
        })
        .collect();
    let rows = table.first_row..table.end_row;
    let width = rows
        .take(SAMPLE_ROWS as usize)
        .map(|row| grid.width(row))
        .max();
    for column in 0..width.unwrap_or_default() {
        let is_known = table.columns.iter().any(|read| read.index == column)
            || table.unread.iter().any(|(at, _)| *at == column)
            || table.read_beside.contains(&column);
        if is_known {
            continue;
        }
        let samples = samples(grid, table, column);
        if !samples.is_empty() {
            let header = String::new();
            found.push(UnreadColumn {
                column,
                header,
                samples,
            });
        }
    }
    found.sort_by_key(|one| one.column);
    found
}

impl TableRead {
    /// True for another reading of the rows of a table on this sheet, see `whole_list`.
    pub fn is_of_rows(&self, file: &str, sheet: &str, header_row: u32) -> bool {
        *self.file == *file && *self.sheet == *sheet && self.header_row == header_row
    }

    /// Rows that tables hold together, each counted once however often its table was read.
    pub fn rows_of(tables: &[Self]) -> usize {
        let mut before: Option<&Self> = None;
        let mut rows = 0;
        for table in tables {
            let is_again =
                before.is_some_and(|it| it.is_of_rows(&table.file, &table.sheet, table.header_row));
            rows += if is_again { 0 } else { table.rows.read };
            before = Some(table);
        }
        rows
    }

    /// Sums up how a table was read.
    pub fn new(
        grid: &Grid,
        table: &Table,
        context: &TableContext<'_>,
        rows: TableCounts,
        why: Vec<String>,
    ) -> Self {
        Self {
            file: Arc::clone(&grid.file),
            sheet: Arc::clone(&grid.sheet),
            is_hidden: grid.is_hidden,
            kind: table.kind,
            header_row: table.header_row,
            data_rows: (table.first_row, table.end_row),
            columns: table
                .columns
                .iter()
                .map(|column| ColumnRead {
                    column: column.index,
                    header: column.printed.clone(),
                    field: column.header.field,
                    how: column.header.how.clone(),
                    samples: samples(grid, table, column.index),
                })
                .collect(),
            unread_columns: table.unread.clone(),
            unread: unread(grid, table),
            kind_scores: table.kind_scores.clone(),
            shape: table.shape.clone(),
            rows,
            unit: context.unit,
            supplier: context.supplier.clone(),
            dated: context.dated,
            why,
        }
    }
}
