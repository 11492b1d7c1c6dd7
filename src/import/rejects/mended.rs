//! Which row a row of a workbook of rejects mends.

use crate::import::cell::Cell;
use crate::import::fold::fold;
use crate::import::grid::Grid;
use crate::place::Place;

use super::ROW_HEADERS;
use super::origin::TableOrigin;

/// A row that was read from a workbook of rejects, and the row it takes the place of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MendedRow {
    /// The row in the workbook of rejects.
    pub place: Place,
    /// The row it mends.
    pub original: Place,
    /// Sum of the file the original row stood in; `None` where the workbook does not say.
    pub sha256: Option<String>,
}

/// Which rows the rows of a sheet mend; a row whose number the user took away mends none and is a new one.
pub fn mended_rows(sheet: &Grid, origin: &TableOrigin) -> Vec<MendedRow> {
    let is_header = |column: &u32| {
        let text = fold(&sheet.cell(0, *column).to_text());
        ROW_HEADERS.iter().any(|header| text == fold(header))
    };
    // The last one: a table of the user's may have such a column too.
    let Some(column) = (0..sheet.width(0)).rev().find(is_header) else {
        return Vec::new();
    };
    let (file, of_sheet) = (origin.file.as_str().into(), origin.sheet.as_str().into());
    (1..sheet.row_count())
        .filter_map(|row| {
            let number = row_number(sheet.cell(row, column))?;
            Some(MendedRow {
                place: Place::row(&sheet.file, &sheet.sheet, row),
                original: Place::row(&file, &of_sheet, number - 1),
                sha256: origin.sha256.clone(),
            })
        })
        .collect()
}

/// A row as the user counts, from 1.
fn row_number(cell: Cell<'_>) -> Option<u32> {
    let text = match cell {
        Cell::Number(_) | Cell::Text(_) => cell.to_text(),
        _ => return None,
    };
    text.trim().parse().ok().filter(|number| *number > 0)
}
