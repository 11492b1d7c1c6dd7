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
/// How often a part of a sheet is parted again.
const MOST_PARTINGS: u32 = 6;
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

/// A part of a sheet and the columns of the table in it.
type Part = (Grid, Range<u32>);

/// The tables of a sheet that stand beside each other, each in a grid of its own with its cells where they were; the sheet
/// itself where there are none. `has_header` says whether a grid has a table with its header in a row.
pub fn apart(grid: Grid, has_header: impl Fn(&Grid, u32) -> bool) -> Vec<Grid> {
    let Some(mut parts) = parts_of(&grid, &has_header, MOST_PARTINGS) else {
        return vec![grid];
    };
    parts.sort_by_key(|(_, columns)| columns.start);
    let named = parts
        .into_iter()
        .enumerate()
        .map(|(at, (mut part, columns))| {
            let columns = note(&mut part, &columns);
            if at > 0 {
                part.name_part(&columns);
            }
            part
        });
    named.collect()
}

/// The parts of a sheet, each parted in its turn, as three tables of three heights are; `None` where it is one.
fn parts_of(
    grid: &Grid,
    has_header: &impl Fn(&Grid, u32) -> bool,
    partings: u32,
) -> Option<Vec<Part>> {
    let left = partings.checked_sub(1)?;
    let parts =
        apart_at_one_row(grid, has_header).or_else(|| apart_at_other_rows(grid, has_header))?;
    let parted = parts
        .into_iter()
        .flat_map(|part| parts_of(&part.0, has_header, left).unwrap_or_else(|| vec![part]));
    Some(parted.collect())
}

/// Tables beside each other with their headers in one row.
fn apart_at_one_row(grid: &Grid, has_header: &impl Fn(&Grid, u32) -> bool) -> Option<Vec<Part>> {
    let rows = 0..grid.row_count().min(ROWS_OF_HEADERS);
    let mut headers = rows.filter_map(|row| Some((row, blocks_of(grid, row)?)));
    headers.find_map(|(row, blocks)| {
        let parts = blocks.iter().map(|block| {
            let part = part_of(grid, row, block, &blocks)?;
            has_header(&part, row).then(|| (part, block.clone()))
        });
        parts.collect()
    })
}

/// Two tables beside each other of which one begins lower than the other, with an empty column between them.
fn apart_at_other_rows(grid: &Grid, has_header: &impl Fn(&Grid, u32) -> bool) -> Option<Vec<Part>> {
    let rows = grid.row_count().min(ROWS_OF_HEADERS);
    for right_row in 0..rows {
        for right in runs_behind_a_gap(grid, right_row) {
            let Some(left_row) = (0..rows).find(|left_row| {
                *left_row != right_row && are_headers(grid, (*left_row, right_row), &right)
            }) else {
                continue;
            };
            if !is_empty_below(grid, 0, right.start - 1..right.start) {
                continue;
            }
            let left = 0..right.start - 1;
            let parts = [
                grid.only(|_, column| left.contains(&column)).ok()?,
                grid.only(|_, column| column >= right.start).ok()?,
            ];
            if has_header(&parts[0], left_row) && has_header(&parts[1], right_row) {
                let is_filled = |column: &u32| grid.cell(left_row, *column) != Cell::Empty;
                let start = left.clone().find(is_filled).unwrap_or_default();
                let end = left.rev().find(is_filled).unwrap_or_default() + 1;
                let [of_left, of_right] = parts;
                return Some(vec![(of_left, start..end), (of_right, right)]);
            }
        }
    }
    None
}

/// Runs of texts of a row behind an empty cell, of which enough are headers.
fn runs_behind_a_gap(grid: &Grid, row: u32) -> Vec<Range<u32>> {
    let width = grid.width(row);
    let is_text = |column: &u32| matches!(grid.cell(row, *column), Cell::Text(_));
    let starts =
        (1..width).filter(|column| is_text(column) && grid.cell(row, column - 1) == Cell::Empty);
    starts
        .map(|start| start..(start..width).take_while(is_text).count() as u32 + start)
        .filter(|run| run.len() >= LEAST_FIELDS && fields_of(grid, row, run).len() >= LEAST_FIELDS)
        .collect()
}

/// True where the columns left of a run have a header of their own in another row, of a field that comes again in the run.
fn are_headers(grid: &Grid, (left_row, right_row): (u32, u32), right: &Range<u32>) -> bool {
    let left = 0..right.start - 1;
    let filled = |row: u32, columns: Range<u32>| {
        columns
            .filter(|column| grid.cell(row, *column) != Cell::Empty)
            .count()
    };
    let of_left = fields_of(grid, left_row, &left);
    let of_right = fields_of(grid, right_row, right);
    let comes_again =
        (ONCE.iter()).any(|field| of_left.contains(field) && of_right.contains(field));
    // What stands over the lower header may be its title, and is no column of the other table.
    let (upper, lower, columns) = if left_row < right_row {
        (left_row, right_row, right.clone())
    } else {
        (right_row, left_row, left.clone())
    };
    comes_again
        && of_left.len() >= LEAST_FIELDS
        && fields_of(grid, right_row, &left).len() < LEAST_FIELDS
        && filled(upper, columns.clone()) == 0
        && (upper..lower).all(|row| filled(row, columns.clone()) <= 1)
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
    grid.only(keeps).ok()
}

/// Says which columns of its sheet a table is in, and gives them: `D:F`.
fn note(part: &mut Grid, block: &Range<u32>) -> String {
    let columns = format!(
        "{}:{}",
        column_letters(block.start),
        column_letters(block.end - 1)
    );
    part.notes.push(format!(
        "tables stand beside each other on the sheet; this one, in columns {columns}, is read by itself"
    ));
    columns
}
