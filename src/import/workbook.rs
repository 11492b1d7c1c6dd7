//! Opens workbooks of every kind as [`Grid`]s; the only place that knows calamine.

use std::collections::HashMap;
use std::io::{Cursor, Read, Seek};
use std::sync::Arc;

use calamine::{Data, DataRef, Dimensions, Ods, Reader, SheetType, SheetVisible, Xls, Xlsb, Xlsx};
use chrono::{NaiveDateTime, Timelike};

use super::cell::Cell;
use super::false_workbook::what_it_is;
use super::grid::{Grid, GridBuilder, GridError, Region};
use super::guard::guarded;
use super::limits::MAX_MERGED_CELLS;
use super::ole_limits::{OleLimit, check_ole};
use super::workbook_shown::{looks_of, says_something};
use super::zip_limits::{ZipLimit, check_zip};
use super::zip_parts::{hidden_rows, holds, may_hold};
use crate::parallel;

/// First bytes of an OLE compound file: `.xls`, or a workbook encrypted with a password.
const OLE_MAGIC: [u8; 8] = [0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1];
/// Name of the stream that holds an encrypted workbook ([MS-OFFCRYPTO] 2.3.4.4), as OLE writes it.
const ENCRYPTED_STREAM: &str = "EncryptedPackage";

/// Said of a workbook whose reader panicked.
const GAVE_UP: &str = "the reader gave up on it";

/// Why a workbook could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum WorkbookError {
    /// Encrypted.
    #[error("the workbook is protected by a password; save it without one")]
    Password,
    /// Not a workbook of the kind its contents or its name say.
    #[error("the file is damaged or no workbook: {cause}")]
    Damaged {
        /// The reader's words.
        cause: String,
    },
    /// Would unpack to more than is read.
    #[error("the workbook is not opened: {0}")]
    Unpacked(#[from] ZipLimit),
    /// Chains of sectors that a reader would follow without end.
    #[error("the workbook is damaged and not opened: {0}")]
    Chains(#[from] OleLimit),
    /// A limit was broken.
    #[error("sheet `{sheet}`: {limit}")]
    Limit {
        /// Sheet.
        sheet: String,
        /// The limit.
        limit: GridError,
    },
}

/// The sheets of a workbook, and those that could not be read with the reason.
#[derive(Debug)]
pub struct Sheets {
    /// Sheets in order.
    pub grids: Vec<Grid>,
    /// Names of sheets that could not be read, each with the reason.
    pub unreadable: Vec<(String, WorkbookError)>,
    /// What the reader of such a workbook cannot see, where it is of an older or other kind than xlsx.
    pub unseen: Option<&'static str>,
}

/// A reader of one kind of workbook.
type ReadSheets = fn(&Arc<str>, &[u8]) -> Result<Sheets, WorkbookError>;

/// Said of workbooks whose reader gives values only.
const VALUES_ONLY: &str = "in a workbook of this kind it cannot be seen which rows are hidden or crossed out, nor the currency or percent of a cell's format: all rows are read alike, and it is better saved as xlsx where it has such";

/// Reads every worksheet of a workbook; the contents decide its kind, not the name.
///
/// # Errors
/// [`WorkbookError`] where the file as a whole cannot be read.
pub fn read_workbook(file: &Arc<str>, bytes: &[u8]) -> Result<Sheets, WorkbookError> {
    let is_ole = bytes.starts_with(&OLE_MAGIC);
    if is_ole && is_encrypted(bytes) {
        return Err(WorkbookError::Password);
    }
    if is_ole {
        check_ole(bytes)?;
    } else if bytes.starts_with(b"PK") {
        check_zip(bytes)?;
    } else {
        return Err(damaged(&what_it_is(bytes)));
    }
    let has = |name: &str| holds(bytes, name.as_bytes());
    // Names of a zip archive's entries are stored plainly.
    let (read, unseen): (ReadSheets, _) = if is_ole {
        (read_xls, Some(VALUES_ONLY))
    } else if has("xl/workbook.bin") {
        (read_xlsb, Some(VALUES_ONLY))
    } else if has("content.xml") && !has("xl/workbook.xml") {
        (read_ods, Some(VALUES_ONLY))
    } else {
        (read_xlsx, None)
    };
    let mut sheets = guarded(|| read(file, bytes)).unwrap_or_else(|| Err(damaged(&GAVE_UP)))?;
    sheets.unseen = unseen;
    Ok(sheets)
}

fn is_encrypted(bytes: &[u8]) -> bool {
    let wide: Vec<u8> = ENCRYPTED_STREAM
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    holds(bytes, &wide)
}

fn damaged(cause: &dyn std::fmt::Display) -> WorkbookError {
    let cause = cause.to_string().to_lowercase();
    // The directory of a zip archive stands at its end (PKWARE APPNOTE 4.3.6): without it the rest was lost on the way.
    let is_cut_off = ["eocd", "end of central directory"];
    WorkbookError::Damaged {
        cause: match is_cut_off.iter().any(|words| cause.contains(words)) {
            true => "it is cut off; copy or save it again".to_owned(),
            false => cause,
        },
    }
}

/// Worksheets with their hidden flag; charts and macro sheets hold no tables.
fn worksheets<RS: Read + Seek, R: Reader<RS>>(book: &R) -> Vec<(String, bool)> {
    book.sheets_metadata()
        .iter()
        .filter(|sheet| sheet.typ == SheetType::WorkSheet)
        .map(|sheet| (sheet.name.clone(), sheet.visible != SheetVisible::Visible))
        .collect()
}

/// Element of a merged region (ECMA-376, part 1, 18.3.1.55).
const MERGED: &str = "mergeCell";
/// Attribute of hidden rows, and of hidden columns and names too (ECMA-376, part 1, 18.3.1.73).
const HIDDEN: &str = "hidden=";

/// What stands in the parts of a workbook beside its cells.
struct Beside {
    has_merged: bool,
    hidden_rows: HashMap<String, Vec<u32>>,
}

impl Beside {
    fn of(bytes: &[u8]) -> Self {
        let [has_merged, has_hidden] =
            guarded(|| may_hold(bytes, [MERGED, HIDDEN])).unwrap_or([true, true]);
        let rows = || guarded(|| hidden_rows(bytes)).unwrap_or_default();
        Self {
            has_merged,
            hidden_rows: if has_hidden { rows() } else { HashMap::new() },
        }
    }
}

fn read_xlsx(file: &Arc<str>, bytes: &[u8]) -> Result<Sheets, WorkbookError> {
    // Merged regions stand behind the cells, and the reader gets at them by parsing the sheet once more. Whether there
    // are any is looked up while the cells are read, and nearly no long list has them.
    let (sheets, beside) = parallel::both(
        || guarded(|| read_xlsx_cells(file, bytes)),
        || Beside::of(bytes),
    );
    let mut sheets = sheets.unwrap_or_else(|| Err(damaged(&GAVE_UP)))?;
    for grid in &mut sheets.grids {
        let rows = beside.hidden_rows.get(&*grid.sheet);
        grid.set_hidden_rows(rows.cloned().unwrap_or_default());
    }
    if !beside.has_merged {
        return Ok(sheets);
    }
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(|error| damaged(&error))?;
    for grid in std::mem::take(&mut sheets.grids) {
        let name = grid.sheet.to_string();
        let merged = book
            .merge_cells_by_sheet_name(&name)
            .map_err(|error| damaged(&error));
        sheets.take(name, merged.map(|merged| (grid, merged)));
    }
    sheets.unless_none()
}

fn read_xlsx_cells(file: &Arc<str>, bytes: &[u8]) -> Result<Sheets, WorkbookError> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(|error| damaged(&error))?;
    collect(file, worksheets(&book), |name, builder| {
        let mut cells = book
            .worksheet_cells_reader(name)
            .map_err(|error| damaged(&error))?;
        let has_looks = cells.styles().iter().any(says_something);
        while let Some(cell) = cells
            .next_cell_with_formula_metadata()
            .map_err(|error| damaged(&error))?
        {
            let pushed = if cell.formula.is_some() && matches!(cell.value, DataRef::Empty) {
                builder.push(cell.pos.0, cell.pos.1, Cell::NoResult)
            } else {
                push_ref(builder, cell.pos, &cell.value)
            };
            pushed.map_err(|limit| of_limit(name, limit))?;
        }
        drop(cells);
        if has_looks {
            let looks = looks_of(&mut book, name).map_err(|error| damaged(&error))?;
            builder.set_looks(looks.powers, looks.shown);
        }
        Ok(Vec::new())
    })
}

fn read_xlsb(file: &Arc<str>, bytes: &[u8]) -> Result<Sheets, WorkbookError> {
    let mut book: Xlsb<_> = Xlsb::new(Cursor::new(bytes)).map_err(|error| damaged(&error))?;
    collect(file, worksheets(&book), |name, builder| {
        let mut cells = book
            .worksheet_cells_reader(name)
            .map_err(|error| damaged(&error))?;
        while let Some(cell) = cells.next_cell().map_err(|error| damaged(&error))? {
            push_ref(builder, cell.get_position(), cell.get_value())
                .map_err(|limit| of_limit(name, limit))?;
        }
        Ok(Vec::new())
    })
}

fn read_xls(file: &Arc<str>, bytes: &[u8]) -> Result<Sheets, WorkbookError> {
    let mut book: Xls<_> = Xls::new(Cursor::new(bytes)).map_err(|error| match error {
        calamine::XlsError::Password => WorkbookError::Password,
        other => damaged(&other),
    })?;
    collect(file, worksheets(&book), |name, builder| {
        let range = book
            .worksheet_range(name)
            .map_err(|error| damaged(&error))?;
        push_range(builder, &range).map_err(|limit| of_limit(name, limit))?;
        Ok(book.merge_cells_by_sheet_name(name).unwrap_or_default())
    })
}

fn read_ods(file: &Arc<str>, bytes: &[u8]) -> Result<Sheets, WorkbookError> {
    let mut book: Ods<_> = Ods::new(Cursor::new(bytes)).map_err(|error| match error {
        calamine::OdsError::Password => WorkbookError::Password,
        other => damaged(&other),
    })?;
    collect(file, worksheets(&book), |name, builder| {
        let range = book
            .worksheet_range(name)
            .map_err(|error| damaged(&error))?;
        push_range(builder, &range).map_err(|limit| of_limit(name, limit))?;
        Ok(Vec::new())
    })
}

fn of_limit(sheet: &str, limit: GridError) -> WorkbookError {
    WorkbookError::Limit {
        sheet: sheet.to_owned(),
        limit,
    }
}

/// Reads each sheet with `read`, fills merged regions, and keeps sheets that fail apart.
fn collect(
    file: &Arc<str>,
    names: Vec<(String, bool)>,
    mut read: impl FnMut(&str, &mut GridBuilder) -> Result<Vec<Dimensions>, WorkbookError>,
) -> Result<Sheets, WorkbookError> {
    let mut sheets = Sheets {
        grids: Vec::new(),
        unreadable: Vec::new(),
        unseen: None,
    };
    for (name, is_hidden) in names {
        let mut builder = GridBuilder::new(file, &name);
        builder.set_hidden(is_hidden);
        let read = read(&name, &mut builder).and_then(|merged| {
            let grid = builder.finish().map_err(|limit| of_limit(&name, limit))?;
            Ok((grid, merged))
        });
        sheets.take(name, read);
    }
    sheets.unless_none()
}

impl Sheets {
    /// Takes a sheet with its merged regions filled, or the reason why it could not be read.
    fn take(&mut self, name: String, read: Result<(Grid, Vec<Dimensions>), WorkbookError>) {
        let filled = read.and_then(|(grid, merged)| {
            let regions: Vec<_> = merged
                .iter()
                .map(|region| (region.start, region.end))
                .collect();
            fill_merged(grid, &regions).map_err(|limit| of_limit(&name, limit))
        });
        match filled {
            Ok(grid) => self.grids.push(grid),
            Err(error) => self.unreadable.push((name, error)),
        }
    }

    /// The last reason where no sheet could be read.
    fn unless_none(mut self) -> Result<Self, WorkbookError> {
        match self.unreadable.pop() {
            Some((_, error)) if self.grids.is_empty() => Err(error),
            Some(last) => {
                self.unreadable.push(last);
                Ok(self)
            }
            None => Ok(self),
        }
    }
}

/// Gives every cell of a merged region the value of its first one.
fn fill_merged(mut grid: Grid, regions: &[Region]) -> Result<Grid, GridError> {
    if regions.is_empty() {
        return Ok(grid);
    }
    let mut left = MAX_MERGED_CELLS;
    let mut copies = Vec::new();
    for (start, end) in regions {
        let rows = u64::from(end.0.saturating_sub(start.0)) + 1;
        let columns = u64::from(end.1.saturating_sub(start.1)) + 1;
        let cells = rows.saturating_mul(columns);
        if cells > left || grid.cell(start.0, start.1) == Cell::Empty {
            continue;
        }
        left -= cells;
        copies.push((*start, *end));
    }
    grid.fill(&copies)?;
    Ok(grid)
}

fn push_ref(
    builder: &mut GridBuilder,
    (row, column): (u32, u32),
    value: &DataRef<'_>,
) -> Result<(), GridError> {
    match value {
        DataRef::Empty => Ok(()),
        DataRef::SharedString(text) => builder.push(row, column, Cell::Text(text)),
        DataRef::String(text) => builder.push(row, column, Cell::Text(text)),
        DataRef::Int(value) => builder.push(row, column, Cell::Number(*value as f64)),
        DataRef::Float(value) => builder.push(row, column, Cell::Number(*value)),
        DataRef::Bool(value) => builder.push(row, column, Cell::Bool(*value)),
        DataRef::DateTime(moment) => builder.push(row, column, moment_cell(moment)),
        DataRef::DateTimeIso(text) => builder.push(row, column, iso_cell(text)),
        DataRef::DurationIso(text) => builder.push(row, column, Cell::Text(text)),
        DataRef::Error(error) => builder.push(row, column, Cell::Error(&error.to_string())),
    }
}

fn push_range(builder: &mut GridBuilder, range: &calamine::Range<Data>) -> Result<(), GridError> {
    let (top, left) = range.start().unwrap_or((0, 0));
    for (row, column, value) in range.used_cells() {
        let (row, column) = (top + row as u32, left + column as u32);
        match value {
            Data::Empty => {}
            Data::String(text) | Data::DurationIso(text) => {
                builder.push(row, column, Cell::Text(text))?
            }
            Data::Int(value) => builder.push(row, column, Cell::Number(*value as f64))?,
            Data::Float(value) => builder.push(row, column, Cell::Number(*value))?,
            Data::Bool(value) => builder.push(row, column, Cell::Bool(*value))?,
            Data::DateTime(moment) => builder.push(row, column, moment_cell(moment))?,
            Data::DateTimeIso(text) => builder.push(row, column, iso_cell(text))?,
            Data::Error(error) => builder.push(row, column, Cell::Error(&error.to_string()))?,
        }
    }
    Ok(())
}

/// A date cell; a time of day alone (day 0), a duration and a day out of range stay numbers.
fn moment_cell(moment: &calamine::ExcelDateTime) -> Cell<'static> {
    let value = moment.as_f64();
    if moment.is_duration() || !(1.0..2_958_466.0).contains(&value) {
        return Cell::Number(value);
    }
    moment
        .as_datetime()
        .map_or(Cell::Number(value), |moment| Cell::Date(to_second(moment)))
}

fn iso_cell(text: &str) -> Cell<'_> {
    crate::record::read_moment(text).map_or(Cell::Text(text), Cell::Date)
}

/// Rounds a moment that came from a fraction of a day.
fn to_second(moment: NaiveDateTime) -> NaiveDateTime {
    let whole = moment.with_nanosecond(0).unwrap_or(moment);
    if moment.nanosecond() >= 500_000_000 {
        whole + chrono::Duration::seconds(1)
    } else {
        whole
    }
}
