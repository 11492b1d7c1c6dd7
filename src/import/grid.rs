//! The cells of one sheet, all kinds of file alike.

use std::sync::Arc;

use chrono::NaiveDateTime;

use super::cell::{Cell, is_error_word};
use super::limits::{MAX_CELL_BYTES, MAX_CELLS, MAX_COLUMNS, MAX_ROWS};
use super::lines::Lines;
use super::shown::ShownCells;

mod marks;

/// A block of cells: row and column of its first and of its last cell.
pub(super) type Region = ((u32, u32), (u32, u32));

/// A limit that a sheet broke.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum GridError {
    /// Too many rows.
    #[error("row {row} is beyond the limit of {MAX_ROWS} rows")]
    TooManyRows {
        /// Row, from 1.
        row: u64,
    },
    /// Too many cells.
    #[error("the sheet holds more than {MAX_CELLS} filled cells")]
    TooManyCells,
    /// All texts together are too long to address.
    #[error("the texts of the sheet are longer than 4 GB together")]
    TooMuchText,
}

/// Cell without its text, which lies in the grid's one text buffer: no allocation per cell.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Stored {
    Empty,
    Text { start: u32, len: u32 },
    Number(f64),
    Date(NaiveDateTime),
    Bool(bool),
    Error { start: u32, len: u32 },
    NoResult,
}

/// The cells of one sheet or text file.
#[derive(Debug, Clone)]
pub struct Grid {
    /// File name.
    pub file: Arc<str>,
    /// Sheet name; empty for text files.
    pub sheet: Arc<str>,
    /// Name of the whole sheet, where this is one of several tables beside each other.
    pub whole_sheet: Option<Arc<str>>,
    /// True for sheets that the user does not see.
    pub is_hidden: bool,
    /// What was cut or repaired while reading, in words.
    pub notes: Vec<String>,
    /// Cells of numbers shown in powers of ten, in order.
    powers: Vec<(u32, u32)>,
    /// Rows that the user does not see, in order.
    hidden_rows: Vec<u32>,
    /// How cells are shown besides.
    shown: ShownCells,
    /// Cells that repeat the first one of a merged region from a row above, in order.
    repeats: Vec<(u32, u32)>,
    /// Cells that the first rows of a text file are separated into, filled or not, and by what; `None` for workbooks.
    separated: Option<(Vec<u32>, u8)>,
    /// The cells of a plain text; the three below are empty then.
    lines: Option<Lines>,
    text: String,
    cells: Vec<Stored>,
    /// Start of each row in `cells`; one more than there are rows.
    row_starts: Vec<u32>,
}

/// Takes cells in reading order and lays them out as a [`Grid`].
#[derive(Debug)]
pub struct GridBuilder {
    grid: Grid,
    late: Vec<(u32, u32, Stored)>,
    columns_cut: u64,
    texts_cut: u64,
}

impl Grid {
    /// The text of a row that holds nothing else, or the same in all of its cells as a merged one does, and its first column.
    pub(super) fn only_text(&self, row: u32) -> Option<(usize, &str)> {
        let mut only: Option<(usize, &str)> = None;
        for (column, cell) in self.row(row).enumerate() {
            match (cell, only) {
                (Cell::Empty, _) => {}
                (Cell::Text(text), None) => only = Some((column, text)),
                (Cell::Text(text), Some((_, first))) if text == first => {}
                _ => return None,
            }
        }
        only
    }

    /// The same sheet with those cells only that `keeps` names.
    ///
    /// # Errors
    /// [`GridError`] where a limit is broken.
    pub(super) fn only(&self, keeps: impl Fn(u32, u32) -> bool) -> Result<Self, GridError> {
        let mut builder = GridBuilder::new(&self.file, &self.sheet);
        for row in 0..self.row_count() {
            for (column, cell) in self.row(row).enumerate() {
                if keeps(row, column as u32) {
                    builder.push(row, column as u32, cell)?;
                }
            }
        }
        let mut grid = builder.finish()?;
        grid.is_hidden = self.is_hidden;
        grid.notes.clone_from(&self.notes);
        grid.powers.clone_from(&self.powers);
        grid.shown.clone_from(&self.shown);
        grid.hidden_rows.clone_from(&self.hidden_rows);
        grid.repeats.clone_from(&self.repeats);
        Ok(grid)
    }

    /// The grid of a text that is laid out already.
    pub(super) fn of_lines(file: &Arc<str>, lines: Lines) -> Self {
        Self {
            lines: Some(lines),
            ..GridBuilder::new(file, "").grid
        }
    }

    /// The cells of a plain text, where it is one.
    pub(super) fn lines(&self) -> Option<&Lines> {
        self.lines.as_ref()
    }

    /// Number of rows up to the last filled one.
    pub fn row_count(&self) -> u32 {
        if let Some(lines) = &self.lines {
            return lines.row_count();
        }
        (self.row_starts.len() - 1) as u32
    }

    /// Number of cells in a row up to the last filled one.
    pub fn width(&self, row: u32) -> u32 {
        if let Some(lines) = &self.lines {
            return lines.width(row);
        }
        let row = row as usize;
        match (self.row_starts.get(row), self.row_starts.get(row + 1)) {
            (Some(start), Some(end)) => end - start,
            _ => 0,
        }
    }

    /// The cell at a row and a column, both from 0; empty where there is none.
    pub fn cell(&self, row: u32, column: u32) -> Cell<'_> {
        if let Some(lines) = &self.lines {
            return match lines.cell(row, column) {
                "" => Cell::Empty,
                text if is_error_word(text) => Cell::Error(text),
                text => Cell::Text(text),
            };
        }
        if column >= self.width(row) {
            return Cell::Empty;
        }
        let at = self.row_starts[row as usize] as usize + column as usize;
        self.cells
            .get(at)
            .map_or(Cell::Empty, |stored| self.show(*stored))
    }

    /// The cells of a row, from the first column on.
    pub fn row(&self, row: u32) -> impl Iterator<Item = Cell<'_>> + Clone {
        (0..self.width(row)).map(move |column| self.cell(row, column))
    }

    /// Number of cells that a row of a text file is separated into, those behind the last filled one too where it is
    /// among the first rows; `None` for sheets of workbooks, whose cells cannot slip.
    pub fn separated(&self, row: u32) -> Option<u32> {
        let (cells, _) = self.separated.as_ref()?;
        let cells = cells.get(row as usize);
        Some(cells.copied().unwrap_or(0).max(self.width(row)))
    }

    /// True for a text whose columns are separated by commas, so that a decimal comma splits a cell.
    pub fn is_split_by_commas(&self) -> bool {
        matches!(self.separated, Some((_, b',')))
    }

    /// Notes into how many cells the first rows of a text file are separated, and by what.
    pub(super) fn set_separated(&mut self, cells: Vec<u32>, delimiter: u8) {
        self.separated = Some((cells, delimiter));
    }

    /// True where a row holds nothing.
    pub fn is_blank(&self, row: u32) -> bool {
        self.row(row).all(|cell| cell == Cell::Empty)
    }

    /// The cells of a row as texts, for showing a rejected row as it was.
    pub fn row_texts(&self, row: u32) -> Vec<String> {
        self.row(row).map(Cell::to_text).collect()
    }

    /// Copies the first cell of each region over the whole region, from first to last row and column.
    ///
    /// # Errors
    /// [`GridError`] where a limit is broken.
    pub(super) fn fill(&mut self, regions: &[Region]) -> Result<(), GridError> {
        let mut builder = GridBuilder::new(&self.file, &self.sheet);
        std::mem::swap(&mut builder.grid, self);
        // The end of the last row is set again by `finish`.
        builder.grid.row_starts.pop();
        for ((top, left), (bottom, right)) in regions {
            let start = builder
                .grid
                .row_starts
                .get(*top as usize)
                .copied()
                .unwrap_or_default();
            let Some(first) = builder.grid.cells.get((start + left) as usize).copied() else {
                continue;
            };
            for row in *top..=(*bottom).min(MAX_ROWS - 1) {
                for column in *left..=(*right).min(MAX_COLUMNS - 1) {
                    if (row, column) != (*top, *left) {
                        builder.late.push((row, column, first));
                    }
                    if row > *top {
                        builder.grid.repeats.push((row, column));
                    }
                }
            }
        }
        *self = builder.finish()?;
        self.repeats.sort_unstable();
        Ok(())
    }

    fn show(&self, stored: Stored) -> Cell<'_> {
        let text = |start: u32, len: u32| {
            let start = start as usize;
            self.text
                .get(start..start + len as usize)
                .unwrap_or_default()
        };
        match stored {
            Stored::Empty => Cell::Empty,
            Stored::Text { start, len } => Cell::Text(text(start, len)),
            Stored::Number(value) => Cell::Number(value),
            Stored::Date(moment) => Cell::Date(moment),
            Stored::Bool(value) => Cell::Bool(value),
            Stored::Error { start, len } => Cell::Error(text(start, len)),
            Stored::NoResult => Cell::NoResult,
        }
    }
}

impl GridBuilder {
    /// Starts an empty grid.
    pub fn new(file: &Arc<str>, sheet: &str) -> Self {
        Self {
            grid: Grid {
                file: Arc::clone(file),
                sheet: sheet.into(),
                whole_sheet: None,
                is_hidden: false,
                notes: Vec::new(),
                powers: Vec::new(),
                hidden_rows: Vec::new(),
                shown: ShownCells::default(),
                repeats: Vec::new(),
                separated: None,
                lines: None,
                text: String::new(),
                cells: Vec::new(),
                row_starts: vec![0],
            },
            late: Vec::new(),
            columns_cut: 0,
            texts_cut: 0,
        }
    }

    /// Marks the sheet as hidden.
    pub fn set_hidden(&mut self, is_hidden: bool) {
        self.grid.is_hidden = is_hidden;
    }

    /// Notes which cells of numbers are shown in powers of ten, and how cells are shown besides.
    pub(super) fn set_looks(&mut self, mut powers: Vec<(u32, u32)>, shown: ShownCells) {
        powers.sort_unstable();
        self.grid.powers = powers;
        self.grid.shown = shown;
    }

    /// Takes one cell; cells may come in any order, but are fastest row by row.
    ///
    /// # Errors
    /// [`GridError`] where a limit is broken.
    pub fn push(&mut self, row: u32, column: u32, cell: Cell<'_>) -> Result<(), GridError> {
        let stored = match cell {
            Cell::Empty => return Ok(()),
            Cell::Text(text) if is_error_word(text) => {
                return self.push(row, column, Cell::Error(text));
            }
            Cell::Text(text) => match self.store(text)? {
                Some((start, len)) => Stored::Text { start, len },
                None => return Ok(()),
            },
            Cell::Error(text) => match self.store(text)? {
                Some((start, len)) => Stored::Error { start, len },
                None => return Ok(()),
            },
            Cell::Number(value) if !value.is_finite() => return Ok(()),
            Cell::Number(value) => Stored::Number(value),
            Cell::Date(moment) => Stored::Date(moment),
            Cell::Bool(value) => Stored::Bool(value),
            Cell::NoResult => Stored::NoResult,
        };
        if column >= MAX_COLUMNS {
            self.columns_cut += 1;
            return Ok(());
        }
        if row >= MAX_ROWS {
            return Err(GridError::TooManyRows {
                row: u64::from(row) + 1,
            });
        }
        self.place(row, column, stored)
    }

    fn store(&mut self, text: &str) -> Result<Option<(u32, u32)>, GridError> {
        let mut text = text.trim();
        if text.is_empty() {
            return Ok(None);
        }
        if text.len() > MAX_CELL_BYTES {
            let end = (0..=MAX_CELL_BYTES)
                .rev()
                .find(|&at| text.is_char_boundary(at));
            text = &text[..end.unwrap_or(0)];
            self.texts_cut += 1;
        }
        let start = u32::try_from(self.grid.text.len()).map_err(|_| GridError::TooMuchText)?;
        self.grid.text.push_str(text);
        Ok(Some((start, text.len() as u32)))
    }

    fn place(&mut self, row: u32, column: u32, stored: Stored) -> Result<(), GridError> {
        // `row_starts` holds the start of the open row last.
        let open_row = (self.grid.row_starts.len() - 1) as u32;
        let open_start = self.grid.row_starts[open_row as usize] as usize;
        if row < open_row
            || (row == open_row && self.grid.cells.len() > open_start + column as usize)
        {
            self.late.push((row, column, stored));
            return Ok(());
        }
        for _ in open_row..row {
            self.grid.row_starts.push(self.grid.cells.len() as u32);
        }
        let start = self.grid.row_starts[row as usize] as usize;
        let end = start + column as usize;
        if end >= MAX_CELLS {
            return Err(GridError::TooManyCells);
        }
        self.grid.cells.resize(end, Stored::Empty);
        self.grid.cells.push(stored);
        Ok(())
    }

    /// Lays the cells out.
    ///
    /// # Errors
    /// [`GridError`] where a limit is broken.
    pub fn finish(mut self) -> Result<Grid, GridError> {
        if !self.late.is_empty() {
            self.sort_in_late_cells()?;
        }
        let mut grid = self.grid;
        grid.row_starts.push(grid.cells.len() as u32);
        if self.columns_cut > 0 {
            grid.notes.push(format!(
                "{} cells right of column {MAX_COLUMNS} were not read",
                self.columns_cut
            ));
        }
        if self.texts_cut > 0 {
            grid.notes.push(format!(
                "{} cells were longer than {MAX_CELL_BYTES} bytes and were cut there",
                self.texts_cut
            ));
        }
        Ok(grid)
    }

    /// Rebuilds the layout with the cells that came out of order; the later of two in one place holds.
    fn sort_in_late_cells(&mut self) -> Result<(), GridError> {
        let mut all: Vec<(u32, u32, Stored)> = Vec::with_capacity(self.grid.cells.len());
        for row in 0..self.grid.row_starts.len() {
            let start = self.grid.row_starts[row] as usize;
            let end = self
                .grid
                .row_starts
                .get(row + 1)
                .map_or(self.grid.cells.len(), |end| *end as usize);
            for (column, stored) in self.grid.cells[start..end].iter().enumerate() {
                if *stored != Stored::Empty {
                    all.push((row as u32, column as u32, *stored));
                }
            }
        }
        all.append(&mut self.late);
        all.sort_by_key(|(row, column, _)| (*row, *column));
        self.grid.cells.clear();
        self.grid.row_starts = vec![0];
        let mut cells = all.into_iter().peekable();
        while let Some((row, column, stored)) = cells.next() {
            let is_overwritten = cells
                .peek()
                .is_some_and(|(r, c, _)| (*r, *c) == (row, column));
            if !is_overwritten {
                self.place(row, column, stored)?;
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grid(cells: &[(u32, u32, Cell<'_>)]) -> Grid {
        let mut builder = GridBuilder::new(&"a.xlsx".into(), "A");
        for (row, column, cell) in cells {
            builder.push(*row, *column, *cell).unwrap();
        }
        builder.finish().unwrap()
    }

    #[test]
    fn cells_come_back_where_they_were_put_in_any_order() {
        let cells = [
            (2, 3, Cell::Text(" b ")),
            (0, 1, Cell::Number(4.0)),
            (2, 0, Cell::Bool(true)),
            (5, 0, Cell::Error("#N/A")),
            (0, 0, Cell::Text("a")),
        ];
        let grid = grid(&cells);
        assert_eq!(grid.row_count(), 6);
        assert_eq!(grid.cell(2, 3), Cell::Text("b"));
        assert_eq!(grid.cell(0, 0), Cell::Text("a"));
        assert_eq!(grid.cell(0, 1), Cell::Number(4.0));
        assert_eq!(grid.cell(2, 0), Cell::Bool(true));
        assert_eq!(grid.cell(5, 0), Cell::Error("#N/A"));
        assert_eq!(grid.cell(3, 0), Cell::Empty);
        assert_eq!(grid.cell(99, 99), Cell::Empty);
        assert!(grid.is_blank(1) && !grid.is_blank(2));
    }

    #[test]
    fn an_error_value_is_one_as_text_too() {
        let grid = grid(&[
            (0, 0, Cell::Text(" #N/A")),
            (0, 1, Cell::Text("#NV")),
            (0, 2, Cell::Text("#7")),
            (0, 3, Cell::Text("#")),
        ]);
        assert_eq!(grid.cell(0, 0), Cell::Error("#N/A"));
        assert_eq!(grid.cell(0, 1), Cell::Error("#NV"));
        assert_eq!(grid.cell(0, 2), Cell::Text("#7"));
        assert_eq!(grid.cell(0, 3), Cell::Text("#"));
    }

    #[test]
    fn a_stray_cell_far_right_is_noted_and_one_far_down_is_refused() {
        let mut builder = GridBuilder::new(&"a.xlsx".into(), "A");
        builder.push(0, 16_383, Cell::Number(1.0)).unwrap();
        let error = builder.push(MAX_ROWS, 0, Cell::Number(1.0)).unwrap_err();
        assert_eq!(
            error,
            GridError::TooManyRows {
                row: u64::from(MAX_ROWS) + 1
            }
        );
        assert_eq!(builder.finish().unwrap().notes.len(), 1);
    }
}
