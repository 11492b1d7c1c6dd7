//! Tables that stand beside each other on one sheet with an empty column between them, each read as a sheet of its own.

use std::ops::Range;

use super::cell::Cell;
use super::field::Field;
use super::grid::Grid;
use super::header::Header;
use super::header_rows::LEAST_FIELDS;
use crate::place::column_letters;

/// Rows in which headers beside each other are looked for. Common practice, no source.
const ROWS_OF_HEADERS: u32 = 40;
/// Fields of which a table has one; where one comes again behind an empty column, another table begins there.
const ONCE: [Field; 7] = [
    Field::OwnNumber,
    Field::PartNumber,
    Field::SupplierNumber,
    Field::Designation,
    Field::Description,
    Field::Quantity,
    Field::OnHand,
];

/// The tables of a sheet that stand beside each other, each in a grid of its own with its cells where they were; the sheet
/// itself where there are none. `has_header` says whether a grid has a table with its header in a row.
pub fn apart(grid: Grid, has_header: impl Fn(&Grid, u32) -> bool) -> Vec<Grid> {
    let rows = 0..grid.row_count().min(ROWS_OF_HEADERS);
    for row in rows {
        let Some(blocks) = blocks_of(&grid, row) else {
            continue;
        };
        let parts: Option<Vec<Grid>> = blocks
            .iter()
            .map(|block| part_of(&grid, row, block, &blocks))
            .map(|part| part.filter(|part| has_header(part, row)))
            .collect();
        if let Some(parts) = parts {
            return parts;
        }
    }
    vec![grid]
}

/// Columns of the tables whose headers stand in a row; `None` where it is not the header of several.
fn blocks_of(grid: &Grid, row: u32) -> Option<Vec<Range<u32>>> {
    let runs = runs_of_texts(grid, row)?;
    let mut blocks: Vec<Range<u32>> = Vec::new();
    let mut seen: Vec<Field> = Vec::new();
    for run in runs {
        let fields = fields_of(grid, row, &run);
        let comes_again = ONCE
            .iter()
            .any(|field| fields.contains(field) && seen.contains(field));
        let is_gap = |last: &Range<u32>| is_empty_below(grid, row, last.end..run.start);
        match blocks.last_mut() {
            Some(last) if !(comes_again && is_gap(last)) => {
                last.end = run.end;
                seen.extend(fields);
            }
            _ => {
                blocks.push(run);
                seen = fields;
            }
        }
    }
    (blocks.len() > 1).then_some(blocks)
}

/// The runs of filled columns of a row of texts, where there are several.
fn runs_of_texts(grid: &Grid, row: u32) -> Option<Vec<Range<u32>>> {
    let mut runs: Vec<Range<u32>> = Vec::new();
    for (column, cell) in grid.row(row).enumerate() {
        let column = column as u32;
        match (cell, runs.last_mut()) {
            (Cell::Empty, _) => {}
            (Cell::Text(_), Some(run)) if run.end == column => run.end += 1,
            (Cell::Text(_), _) => runs.push(column..column + 1),
            _ => return None,
        }
    }
    (runs.len() > 1).then_some(runs)
}

fn fields_of(grid: &Grid, row: u32, run: &Range<u32>) -> Vec<Field> {
    run.clone()
        .filter_map(|column| match grid.cell(row, column) {
            Cell::Text(text) => Header::read(text, false).map(|header| header.field),
            _ => None,
        })
        .collect()
}

/// True where columns hold nothing from a row on.
fn is_empty_below(grid: &Grid, row: u32, columns: Range<u32>) -> bool {
    (row..grid.row_count()).all(|row| {
        let mut cells = columns.clone().map(|column| grid.cell(row, column));
        cells.all(|cell| cell == Cell::Empty)
    })
}

/// One table: its columns from the header on, and of the rows above what stands over it or over all of them.
fn part_of(grid: &Grid, header: u32, block: &Range<u32>, blocks: &[Range<u32>]) -> Option<Grid> {
    if block.len() < LEAST_FIELDS {
        return None;
    }
    // A table reaches up to the next one, and the first one from the left edge.
    let is_first = blocks.first() == Some(block);
    let start = if is_first { 0 } else { block.start };
    let next = blocks.iter().map(|other| other.start);
    let end = next.filter(|start| *start > block.start).min();
    let is_of_it = |column: u32| column >= start && end.is_none_or(|end| column < end);
    let is_shared = |row: u32| {
        let filled = (0..grid.width(row)).filter(|column| grid.cell(row, *column) != Cell::Empty);
        let of = filled.map(|column| blocks.iter().rposition(|block| column >= block.start));
        let mut of: Vec<usize> = of.map(Option::unwrap_or_default).collect();
        of.dedup();
        of.len() == 1
    };
    let shared: Vec<bool> = (0..header).map(is_shared).collect();
    let keeps = |row: u32, column: u32| {
        is_of_it(column) || shared.get(row as usize).copied().unwrap_or_default()
    };
    let mut part = grid.only(keeps).ok()?;
    let columns = format!(
        "{}:{}",
        column_letters(block.start),
        column_letters(block.end - 1)
    );
    part.notes.push(format!(
        "tables stand beside each other on the sheet; this one, in columns {columns}, is read by itself"
    ));
    if !is_first {
        part.name_part(&columns);
    }
    Some(part)
}
