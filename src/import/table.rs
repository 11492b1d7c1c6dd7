//! One table on a sheet: where it stands, its columns, and what was settled about it before its rows are read.

use crate::record::TableKind;

use super::cell::Cell;
use super::grid::Grid;
use super::header::Header;
use super::shape::Shape;
use super::table_kind::KindScore;
use super::title::Title;

/// One column that is read.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Position from 0.
    pub index: u32,
    /// Header as printed.
    pub printed: String,
    /// What it says.
    pub header: Header,
}

/// One table on a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Kind.
    pub kind: TableKind,
    /// Kinds that came into question, best first.
    pub kind_scores: Vec<KindScore>,
    /// Row of the header (the lower one of two), from 0.
    pub header_row: u32,
    /// First row of data.
    pub first_row: u32,
    /// Row after the last one.
    pub end_row: u32,
    /// Columns that are read.
    pub columns: Vec<Column>,
    /// Columns with a header that are not read.
    pub unread: Vec<(u32, String)>,
    /// Headers with their columns, as printed.
    pub shape: Shape,
    /// Headers of columns that a given mapping leaves out.
    pub left_out: Vec<u32>,
    /// Columns that another reading of the same rows takes; see [`super::whole_list`].
    pub read_beside: Vec<u32>,
    /// What the lines above say.
    pub title: Title,
    /// Why the table was read so.
    pub why: Vec<String>,
}

/// True where a row repeats the header, as printed lists do on each page.
pub fn is_header_again(grid: &Grid, table: &Table, row: u32) -> bool {
    let is_same = |column: &Column| match (
        grid.cell(row, column.index),
        grid.cell(table.header_row, column.index),
    ) {
        (Cell::Text(a), Cell::Text(b)) => a == b,
        _ => false,
    };
    table.columns.first().is_some_and(is_same)
        && table
            .columns
            .iter()
            .filter(|column| is_same(column))
            .count()
            * 2
            > table.columns.len()
}
