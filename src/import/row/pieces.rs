//! The pieces in which the rows of a table are shared out to workers.

use std::sync::Mutex;

use crate::import::table::Table;

/// Rows read in one piece; also those between two steps of progress.
pub const ROWS_OF_A_PIECE: u32 = 4_096;

/// Things that workers put down and take up again.
pub struct Shelf<T>(Mutex<Vec<T>>);

impl<T> Default for Shelf<T> {
    fn default() -> Self {
        Self(Mutex::default())
    }
}

impl<T> Shelf<T> {
    /// Takes one up, where there is one.
    pub fn take(&self) -> Option<T> {
        self.0.lock().ok()?.pop()
    }

    /// Puts one down.
    pub fn put(&self, thing: T) {
        if let Ok(mut things) = self.0.lock() {
            things.push(thing);
        }
    }
}

/// First row of each piece of a table.
pub fn starts_of_pieces(table: &Table) -> Vec<u32> {
    (table.first_row..table.end_row)
        .step_by(ROWS_OF_A_PIECE as usize)
        .collect()
}
