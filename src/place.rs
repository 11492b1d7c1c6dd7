//! Where a value came from: file, sheet, row and column, printed as the user sees them.

use std::cell::RefCell;
use std::cmp::Ordering;
use std::fmt;
use std::ops::{Deref, DerefMut};
use std::sync::Arc;

/// The table that a value came from.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct InputTable {
    /// File name relative to the folder that was read.
    pub file: Arc<str>,
    /// Sheet name; empty for text files, which have none.
    pub sheet: Arc<str>,
}

/// A row or a cell of one input table.
///
/// Prints as `stock.xlsx, sheet "Bin list", D17`; a row without a column prints as `row 17`. File and sheet are read as
/// fields of its own; millions of rows share them.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Place {
    table: Arc<InputTable>,
    /// Row, from 0.
    pub row: u32,
    /// Column, from 0; `None` for the row as a whole.
    pub column: Option<u32>,
}

thread_local! {
    /// The table that a row was last named of: rows come table by table.
    static LAST: RefCell<Option<Arc<InputTable>>> = const { RefCell::new(None) };
}

/// The table of these names, the last one again where it is that.
fn table_of(file: &Arc<str>, sheet: &Arc<str>) -> Arc<InputTable> {
    LAST.with_borrow_mut(|last| {
        let is_it =
            |of: &&Arc<InputTable>| Arc::ptr_eq(&of.file, file) && Arc::ptr_eq(&of.sheet, sheet);
        if let Some(table) = last.as_ref().filter(is_it) {
            return Arc::clone(table);
        }
        let table = Arc::new(InputTable {
            file: Arc::clone(file),
            sheet: Arc::clone(sheet),
        });
        *last = Some(Arc::clone(&table));
        table
    })
}

impl Deref for Place {
    type Target = InputTable;

    fn deref(&self) -> &InputTable {
        &self.table
    }
}

impl DerefMut for Place {
    fn deref_mut(&mut self) -> &mut InputTable {
        Arc::make_mut(&mut self.table)
    }
}

/// By file, sheet, row and column.
impl Ord for Place {
    fn cmp(&self, other: &Self) -> Ordering {
        let by_table = match Arc::ptr_eq(&self.table, &other.table) {
            true => Ordering::Equal,
            false => self.table.cmp(&other.table),
        };
        by_table.then((self.row, self.column).cmp(&(other.row, other.column)))
    }
}

impl PartialOrd for Place {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Place {
    /// Names a row.
    pub fn row(file: &Arc<str>, sheet: &Arc<str>, row: u32) -> Self {
        Self {
            table: table_of(file, sheet),
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
    fn rows_of_one_table_share_its_names_and_a_changed_name_is_of_one_row_alone() {
        let (file, sheet): (Arc<str>, Arc<str>) = ("stock.xlsx".into(), "Bins".into());
        let (first, mut second) = (Place::row(&file, &sheet, 1), Place::row(&file, &sheet, 2));
        assert!(Arc::ptr_eq(&first.table, &second.table));
        assert!(first < second);
        second.file = "parts.xlsx".into();
        assert_eq!(first.to_string(), "stock.xlsx, sheet `Bins`, row 2");
        assert_eq!(second.to_string(), "parts.xlsx, sheet `Bins`, row 3");
        // Another sheet of the file between them changes nothing.
        let other = Place::row(&file, &"Lots".into(), 1);
        assert_eq!(Place::row(&file, &sheet, 1), first);
        assert!(second < first && first < other);
    }

    #[test]
    fn places_are_in_order_of_file_sheet_row_and_column() {
        // The order of a tuple of the four, whose rows come before their cells.
        let mut places = Vec::new();
        for file in ["b.csv", "a.csv"] {
            for sheet in ["two", "", "one"] {
                for row in [10, 9] {
                    let row = Place::row(&file.into(), &sheet.into(), row);
                    places.extend([row.at(1), row.at(0), row]);
                }
            }
        }
        let key = |of: &Place| (of.file.clone(), of.sheet.clone(), of.row, of.column);
        let mut by_tuple = places.clone();
        by_tuple.sort_by_key(key);
        places.sort();
        assert_eq!(places, by_tuple);
    }

    #[test]
    fn prints_the_cell_as_the_user_sees_it() {
        let row = Place::row(&"stock.xlsx".into(), &"Bins".into(), 16);
        assert_eq!(row.at(3).to_string(), "stock.xlsx, sheet `Bins`, D17");
        assert_eq!(row.to_string(), "stock.xlsx, sheet `Bins`, row 17");
    }
}
