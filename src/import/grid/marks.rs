//! What a file says of cells and rows besides their values.

use super::Grid;
use crate::import::cell::Cell;
use crate::import::shown::Shown;

impl Grid {
    /// True where the file says of any number that it is shown in powers of ten.
    pub fn has_powers(&self) -> bool {
        !self.powers.is_empty()
    }

    /// True where the file says that the number in a cell is shown in powers of ten.
    pub fn is_in_powers(&self, row: u32, column: u32) -> bool {
        self.powers.binary_search(&(row, column)).is_ok()
    }

    /// How the file shows a cell.
    pub fn shown(&self, row: u32, column: u32) -> Shown {
        self.shown.get(row, column)
    }

    /// True where the file crosses any cell out.
    pub const fn has_crossed_out(&self) -> bool {
        self.shown.has_crossed_out()
    }

    /// True where the file crosses out every filled cell of a row.
    pub fn is_crossed_out(&self, row: u32) -> bool {
        let is_left = |column: u32| {
            self.cell(row, column) != Cell::Empty && !self.shown(row, column).is_crossed_out
        };
        self.has_crossed_out() && !self.is_blank(row) && !(0..self.width(row)).any(is_left)
    }

    /// Notes which rows the user does not see, in order.
    pub(in crate::import) fn set_hidden_rows(&mut self, rows: Vec<u32>) {
        self.hidden_rows = rows;
    }

    /// Rows with something in them that the user does not see, from one to another.
    pub fn hidden_rows(&self, from: u32, to: u32) -> Vec<u32> {
        let rows = self.hidden_rows.iter().copied();
        rows.filter(|row| (from..to).contains(row) && !self.is_blank(*row))
            .collect()
    }

    /// True for a cell of a merged region that repeats the value of a row above.
    pub fn is_repeat(&self, row: u32, column: u32) -> bool {
        self.repeats.binary_search(&(row, column)).is_ok()
    }

    /// Names one of several tables of a sheet by its columns: rows of different tables have different places then.
    pub(in crate::import) fn name_part(&mut self, columns: &str) {
        let part = format!("{} {columns}", self.sheet);
        let whole = std::mem::replace(&mut self.sheet, part.trim_start().into());
        self.whole_sheet = Some(whole);
    }
}
