//! Where a value came from: file, sheet, row and column, printed as the user sees them.

use std::fmt;
use std::sync::Arc;

/// A row or a cell of one input table.
///
/// Prints as `stock.xlsx, sheet "Bin list", D17`; a row without a column prints as `row 17`.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Place {
    /// File name relative to the folder that was read.
    pub file: Arc<str>,
    /// Sheet name; empty for text files, which have none.
    pub sheet: Arc<str>,
    /// Row, from 0.
    pub row: u32,
    /// Column, from 0; `None` for the row as a whole.
    pub column: Option<u32>,
}

impl Place {
    /// Names a row.
    pub fn row(file: &Arc<str>, sheet: &Arc<str>, row: u32) -> Self {
        Self {
            file: Arc::clone(file),
            sheet: Arc::clone(sheet),
            row,
            column: None,
        }
    }

    /// The same row, at the given column (from 0).
    #[must_use]
    pub fn at(&self, column: u32) -> Self {
        Self {
            column: Some(column),
            ..self.clone()
        }
    }

    /// The cell as `D17`, or `row 17` where no column is named.
    pub fn cell(&self) -> String {
        match self.column {
            Some(column) => format!("{}{}", column_letters(column), self.row + 1),
            None => format!("row {}", self.row + 1),
        }
    }
}

/// Letters of a column counted from 0: 0 is `A`, 26 is `AA`.
pub fn column_letters(column: u32) -> String {
    let mut letters = Vec::new();
    let mut rest = u64::from(column) + 1;
    while rest > 0 {
        rest -= 1;
        letters.push(b'A' + (rest % 26) as u8);
        rest /= 26;
    }
    letters.reverse();
    letters.into_iter().map(char::from).collect()
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if !self.sheet.is_empty() {
            write!(f, ", sheet `{}`", self.sheet)?;
        }
        write!(f, ", {}", self.cell())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_lettered_as_in_a_spreadsheet() {
        // A, Z, AA, ZZ, AAA and the last column of the format (ECMA-376 limit of 16,384 columns).
        for (column, letters) in [
            (0, "A"),
            (25, "Z"),
            (26, "AA"),
            (701, "ZZ"),
            (702, "AAA"),
            (16_383, "XFD"),
        ] {
            assert_eq!(column_letters(column), letters);
        }
    }

    #[test]
    fn prints_the_cell_as_the_user_sees_it() {
        let row = Place::row(&"stock.xlsx".into(), &"Bins".into(), 16);
        assert_eq!(row.at(3).to_string(), "stock.xlsx, sheet `Bins`, D17");
        assert_eq!(row.to_string(), "stock.xlsx, sheet `Bins`, row 17");
    }
}
