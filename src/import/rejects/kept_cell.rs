//! A cell as it was, without the sheet it came from.

use chrono::NaiveDateTime;

use crate::import::cell::{Cell, number_text};

/// How a formula without a result is written into a workbook of rejects, and known again.
pub(super) const NO_RESULT: &str = "=?";

/// One cell as its file held it.
#[derive(Debug, Clone, PartialEq)]
pub enum KeptCell {
    /// Nothing.
    Empty,
    /// Text.
    Text(String),
    /// A number.
    Number(f64),
    /// A date or a moment.
    Date(NaiveDateTime),
    /// True or false.
    Bool(bool),
    /// An error value of a formula.
    Error(String),
    /// A formula whose result the file does not hold.
    NoResult,
}

impl KeptCell {
    /// Keeps a cell.
    pub fn of(cell: Cell<'_>) -> Self {
        match cell {
            Cell::Empty => Self::Empty,
            Cell::Text(text) => Self::Text(text.to_owned()),
            Cell::Number(value) => Self::Number(value),
            Cell::Date(moment) => Self::Date(moment),
            Cell::Bool(value) => Self::Bool(value),
            Cell::Error(text) => Self::Error(text.to_owned()),
            Cell::NoResult => Self::NoResult,
        }
    }

    /// The cell as words, for a sheet that holds them as words.
    pub fn to_words(&self) -> String {
        match self {
            Self::Empty => String::new(),
            Self::Text(text) | Self::Error(text) => text.clone(),
            Self::Number(value) => number_text(*value),
            Self::Date(moment) => Cell::Date(*moment).to_text(),
            Self::Bool(value) => Cell::Bool(*value).to_text(),
            Self::NoResult => NO_RESULT.to_owned(),
        }
    }
}

/// A cell of a workbook of rejects: the sign for a missing result is that again; words for errors are so in any file.
pub fn unkept(cell: Cell<'_>) -> Cell<'_> {
    match cell {
        Cell::Text(NO_RESULT) => Cell::NoResult,
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_as_words_is_known_again() {
        for cell in [Cell::NoResult, Cell::Text("=1+1"), Cell::Text("#7")] {
            let words = KeptCell::of(cell).to_words();
            assert_eq!(unkept(Cell::Text(&words)), cell);
        }
    }
}
