//! Reads a workbook of mended rows as the tables that the rows came from.

use std::path::Path;
use std::sync::Arc;

use super::cell::Cell;
use super::file_bytes::read_bytes;
use super::file_problem::{FileError, FileProblem};
use super::fold::fold;
use super::grid::{Grid, GridBuilder, GridError};
use super::header::{Header, How};
use super::imported::Imported;
use super::rejects::{
    FIRST_ORIGIN_ROW, MendedRow, TableOrigin, is_rejects, mended_rows, origins_sheet, unkept,
};
use super::row::TableContext;
use super::shape::Shape;
use super::table::{Column, Table};
use super::terms::Terms;
use super::title::Title;
use super::workbook::{WorkbookError, read_workbook};
use crate::record::ShopSettings;

/// Reads one workbook of rejects, mended or not, wherever it lies.
///
/// # Errors
/// [`FileError`] where the file cannot be read or is no workbook of rejects.
pub fn read_rejects(path: &Path, settings: &ShopSettings) -> Result<Imported, FileError> {
    let file: Arc<str> = path
        .file_name()
        .unwrap_or_default()
        .to_string_lossy()
        .into();
    let sheets = read_workbook(&file, &read_bytes(path)?)?;
    if !is_rejects(&sheets.grids) {
        return Err(FileError::NotRejects);
    }
    let mut imported = Imported::default();
    imported.settings.clone_from(settings);
    read_grids(&mut imported, &sheets.grids);
    imported.settle();
    Ok(imported)
}

/// Reads every table of a workbook of rejects; a sheet whose origin is spoilt is a problem of the file.
pub fn read_grids(imported: &mut Imported, grids: &[Grid]) {
    let Some(origins) = origins_sheet(grids) else {
        return;
    };
    for row in FIRST_ORIGIN_ROW..origins.row_count() {
        let name = origins.cell(row, 0).to_text();
        let origin = match origins.cell(row, 1) {
            Cell::Text(json) => serde_json::from_str::<TableOrigin>(json).ok(),
            _ => None,
        };
        let found = grids.iter().find(|grid| *grid.sheet == *name);
        match (found, origin) {
            // The user has deleted the sheet: there is nothing to mend on it.
            (None, _) => {}
            (Some(grid), Some(origin)) => {
                if let Err(limit) = read_sheet(imported, grid, &origin) {
                    let cause = WorkbookError::Limit { sheet: name, limit };
                    imported.problems.push(FileProblem {
                        file: Arc::clone(&grid.file),
                        reason: cause.into(),
                    });
                }
            }
            (Some(grid), None) => imported.problems.push(FileProblem {
                file: Arc::clone(&grid.file),
                reason: FileError::OriginLost { sheet: name },
            }),
        }
    }
}

fn read_sheet(
    imported: &mut Imported,
    sheet: &Grid,
    origin: &TableOrigin,
) -> Result<(), GridError> {
    let mut why = vec![format!(
        "rows to mend of {}",
        if origin.sheet.is_empty() {
            format!("`{}`", origin.file)
        } else {
            format!("`{}`, sheet `{}`", origin.file, origin.sheet)
        }
    )];
    let columns = columns(sheet, origin, &mut why);
    let grid = only_columns(sheet, &columns)?;
    let states = origin.states.to_stated();
    let table = Table {
        kind: origin.kind,
        kind_scores: Vec::new(),
        header_row: 0,
        first_row: 1,
        end_row: grid.row_count().max(1),
        shape: Shape::of(columns.iter().map(|c| (c.index, c.printed.as_str()))),
        columns,
        unread: Vec::new(),
        left_out: Vec::new(),
        read_beside: Vec::new(),
        title: Title {
            supplier: origin.supplier.clone(),
            open_date: None,
            dated: origin.dated,
            kit: origin.kit.clone(),
            machine: origin.machine.clone(),
            valid_until: origin.valid_until,
            states,
            terms: Terms::of_list(origin.list_lead_time.clone(), origin.list_discount_share),
            lines: Vec::new(),
        },
        why: Vec::new(),
    };
    let settings = imported.settings.clone();
    let mut context = TableContext::new(&grid, &table, &settings, &mut why);
    origin.restore(&mut context);
    imported.take_table(&context, &table, why);
    let mended = mended_rows(sheet, origin);
    still_to_mend(imported, origin, &mended);
    imported.mended.extend(mended);
    Ok(())
}

/// Rows that are still in doubt keep the place they first came from, so that they can go out and in again.
fn still_to_mend(imported: &mut Imported, origin: &TableOrigin, mended: &[MendedRow]) {
    let at = imported.tables.len().saturating_sub(1);
    let Some(reject) = imported.rejects.last_mut().filter(|last| last.table == at) else {
        return;
    };
    let original = |row: u32| {
        let found = mended.iter().find(|mended| mended.place.row == row);
        found.map(|mended| mended.original.row)
    };
    let rows: Option<Vec<u32>> = reject.rows.iter().map(|row| original(row.row)).collect();
    if let Some(rows) = rows {
        for (row, original) in reject.rows.iter_mut().zip(rows) {
            row.row = original;
        }
        reject.origin.file.clone_from(&origin.file);
        reject.origin.sheet.clone_from(&origin.sheet);
        reject.origin.sha256.clone_from(&origin.sha256);
    }
}

/// The columns where the user has left them, by their headers; a column that is gone is said.
fn columns(sheet: &Grid, origin: &TableOrigin, why: &mut Vec<String>) -> Vec<Column> {
    let is_headed = |index: u32, header: &str| match sheet.cell(0, index) {
        Cell::Empty => header.is_empty(),
        cell => fold(&cell.to_text()) == fold(header),
    };
    let mut found = Vec::new();
    for column in &origin.columns {
        let here = is_headed(column.index, &column.header).then_some(column.index);
        let index = here.or_else(|| {
            (0..sheet.width(0))
                .find(|index| !column.header.is_empty() && is_headed(*index, &column.header))
        });
        match index {
            Some(index) => found.push(Column {
                index,
                printed: column.header.clone(),
                header: Header {
                    field: column.field,
                    how: How::Given,
                    states: column.states.to_stated(),
                },
            }),
            None => why.push(format!("column `{}` is no longer there", column.header)),
        }
    }
    found
}

/// The sheet without the columns that were added for the user.
fn only_columns(sheet: &Grid, columns: &[Column]) -> Result<Grid, GridError> {
    let mut builder = GridBuilder::new(&sheet.file, &sheet.sheet);
    for row in 0..sheet.row_count() {
        for column in columns {
            builder.push(row, column.index, unkept(sheet.cell(row, column.index)))?;
        }
    }
    builder.finish()
}
