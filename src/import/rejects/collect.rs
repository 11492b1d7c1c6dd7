//! Keeps the rows of a table that were rejected or taken without a doubtful value.

use std::collections::BTreeMap;

use crate::import::grid::Grid;
use crate::import::issue::{RowIssue, Severity};
use crate::import::row::TableContext;
use crate::import::table::Table;

use super::kept_cell::KeptCell;
use super::origin::TableOrigin;

/// Most rows of one table that are kept; a table with more is to be mended at its source.
const MOST_ROWS: usize = 50_000;

/// Rows of one table that someone should mend.
#[derive(Debug, Clone, PartialEq)]
pub struct RejectTable {
    /// How the table was read.
    pub origin: TableOrigin,
    /// The table among [`Imported::tables`](crate::import::Imported::tables).
    pub table: usize,
    /// Headers by column; those of two rows joined.
    pub header: Vec<String>,
    /// The rows, in order.
    pub rows: Vec<RejectRow>,
    /// Rows beyond the most that are kept.
    pub rows_left_out: usize,
}

/// One row as it was.
#[derive(Debug, Clone, PartialEq)]
pub struct RejectRow {
    /// Row in its file, from 0.
    pub row: u32,
    /// Its cells.
    pub cells: Vec<KeptCell>,
    /// What is wrong.
    pub marks: Vec<RejectMark>,
}

/// What is wrong with one cell, or with a row as a whole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RejectMark {
    /// Column from 0; `None` for the row as a whole.
    pub column: Option<u32>,
    /// True where the row was not taken at all.
    pub is_rejected: bool,
    /// What was found and what would be right.
    pub reason: String,
}

/// Keeps the rows that `issues`, all of this table, reject or put in doubt; `None` where there are none.
pub fn collect(
    context: &TableContext<'_>,
    table: &Table,
    at: usize,
    issues: &[RowIssue],
) -> Option<RejectTable> {
    let mut by_row: BTreeMap<u32, Vec<RejectMark>> = BTreeMap::new();
    for issue in issues
        .iter()
        .filter(|issue| issue.severity != Severity::Note)
    {
        by_row.entry(issue.place.row).or_default().push(RejectMark {
            column: issue.place.column,
            is_rejected: issue.is_rejected(),
            reason: issue.problem.to_string(),
        });
    }
    if by_row.is_empty() {
        return None;
    }
    let rows_left_out = by_row.len().saturating_sub(MOST_ROWS);
    let grid = context.grid;
    let rows: Vec<RejectRow> = by_row
        .into_iter()
        .take(MOST_ROWS)
        .map(|(row, marks)| RejectRow {
            row,
            cells: grid.row(row).map(KeptCell::of).collect(),
            marks,
        })
        .collect();
    let headers = headers(grid, table, &rows);
    Some(RejectTable {
        origin: TableOrigin::of(context, |column| {
            headers.get(column as usize).cloned().unwrap_or_default()
        }),
        table: at,
        header: headers,
        rows,
        rows_left_out,
    })
}

fn headers(grid: &Grid, table: &Table, rows: &[RejectRow]) -> Vec<String> {
    let known = || {
        let read = table.columns.iter().map(|c| (c.index, &c.printed));
        read.chain(
            table
                .unread
                .iter()
                .map(|(index, printed)| (*index, printed)),
        )
    };
    let last = known()
        .map(|(index, _)| index + 1)
        .max()
        .unwrap_or_default();
    let widest = rows.iter().map(|row| row.cells.len() as u32).max();
    let width = last.max(widest.unwrap_or_default());
    (0..width)
        .map(|column| {
            known().find(|(index, _)| *index == column).map_or_else(
                || grid.cell(table.header_row, column).to_text(),
                |(_, printed)| printed.clone(),
            )
        })
        .collect()
}
