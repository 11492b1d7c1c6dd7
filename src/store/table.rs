//! A table as typed columns, and the writing and reading of one row after another.
//!
//! Each record kind names its columns once, in [`Stored::put`]; [`Stored::take`] reads them back in the same order.

use std::sync::Arc;

use chrono::NaiveDate;

/// Values of one column; `None` is null, "the table does not say", and so is what stands behind the last value.
#[derive(Debug, Clone, PartialEq)]
pub enum Cells {
    /// Text; rows that say the same may share it.
    Text(Vec<Option<Arc<str>>>),
    /// 64-bit floats.
    Number(Vec<Option<f64>>),
    /// 64-bit whole numbers: cents, nanometres, rows.
    Integer(Vec<Option<i64>>),
    /// True or false.
    Flag(Vec<Option<bool>>),
    /// Days.
    Date(Vec<Option<NaiveDate>>),
}

/// Type of a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CellKind {
    /// Text.
    Text,
    /// 64-bit float.
    Number,
    /// 64-bit whole number.
    Integer,
    /// True or false.
    Flag,
    /// Day.
    Date,
}

/// A table of equally long columns.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// Columns with their names, in order.
    pub columns: Vec<(String, Cells)>,
    /// Rows.
    pub height: usize,
}

/// Why a stored table cannot be read back.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum TableError {
    /// A column is missing, named otherwise or of another type.
    #[error(
        "column {position} is `{found}`, but must be `{expected}`; the table was written by another version"
    )]
    OtherColumn {
        /// Position, from 1.
        position: usize,
        /// What was found; empty where the table ends before.
        found: String,
        /// What must be there.
        expected: &'static str,
    },
    /// A null where a value must be, or a value that its type does not know.
    #[error("column `{column}`, row {row}: `{found}` cannot be read")]
    BadValue {
        /// The column.
        column: &'static str,
        /// Row, from 1.
        row: usize,
        /// What was found.
        found: String,
    },
}

/// A record kind that is stored as a table.
pub trait Stored: Sized {
    /// Name of the table and its file.
    const TABLE: &'static str;
    /// Writes one row.
    fn put(&self, row: &mut RowOut<'_>);
    /// Reads one row, column by column in the order of [`put`](Self::put).
    ///
    /// # Errors
    /// [`TableError`] where the table is not of this form.
    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError>;
}

/// Writes one row, column by column.
#[derive(Debug)]
pub struct RowOut<'a> {
    table: &'a mut Table,
    at: usize,
}

/// Reads one row, column by column.
#[derive(Debug)]
pub struct RowIn<'a> {
    source: Source<'a>,
    row: usize,
    at: usize,
}

/// Where a row is read from.
#[derive(Debug)]
enum Source<'a> {
    /// A table.
    Table(&'a Table),
    /// Nowhere: the columns asked for are noted, which tells the columns of a kind without a record of it.
    Columns(Vec<(&'static str, CellKind)>),
}

/// Names and types of the columns of a record kind, in order.
pub fn columns_of<R: Stored>() -> Vec<(&'static str, CellKind)> {
    let mut row = RowIn {
        source: Source::Columns(Vec::new()),
        row: 0,
        at: 0,
    };
    // Only the columns asked for matter; that no record comes of it is no failure.
    let _ = R::take(&mut row);
    match row.source {
        Source::Columns(columns) => columns,
        Source::Table(_) => Vec::new(),
    }
}

impl Cells {
    /// An empty column.
    pub const fn empty(kind: CellKind) -> Self {
        match kind {
            CellKind::Text => Self::Text(Vec::new()),
            CellKind::Number => Self::Number(Vec::new()),
            CellKind::Integer => Self::Integer(Vec::new()),
            CellKind::Flag => Self::Flag(Vec::new()),
            CellKind::Date => Self::Date(Vec::new()),
        }
    }

    /// One cell in words; `None` for null.
    pub fn words(&self, row: usize) -> Option<String> {
        match self {
            Self::Text(cells) => cells.get(row)?.as_deref().map(str::to_owned),
            Self::Number(cells) => cells.get(row)?.map(|number| number.to_string()),
            Self::Integer(cells) => cells.get(row)?.map(|number| number.to_string()),
            Self::Flag(cells) => cells
                .get(row)?
                .map(|flag| if flag { "yes" } else { "no" }.to_owned()),
            Self::Date(cells) => cells.get(row)?.map(|date| date.to_string()),
        }
    }
}

impl CellKind {
    /// Name for people.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Number => "float",
            Self::Integer => "whole number",
            Self::Flag => "true or false",
            Self::Date => "date",
        }
    }
}

impl Table {
    /// Makes a table of records; without records it still has its columns.
    pub fn of<R: Stored>(records: &[R]) -> Self {
        let columns = columns_of::<R>();
        let columns = columns
            .into_iter()
            .map(|(name, kind)| (name.to_owned(), Cells::empty(kind)));
        let mut table = Self {
            columns: columns.collect(),
            height: 0,
        };
        for record in records {
            let mut row = RowOut {
                table: &mut table,
                at: 0,
            };
            record.put(&mut row);
            table.height += 1;
        }
        table
    }

    /// The first row's value of a column, in words; `None` for null or no such column.
    pub fn words_of(&self, column: &str) -> Option<String> {
        let (_, cells) = self.columns.iter().find(|(name, _)| name == column)?;
        cells.words(0)
    }

    /// Reads the records back.
    ///
    /// # Errors
    /// [`TableError`] where the table is not of this form.
    pub fn records<R: Stored>(&self) -> Result<Vec<R>, TableError> {
        (0..self.height)
            .map(|row| {
                R::take(&mut RowIn {
                    source: Source::Table(self),
                    row,
                    at: 0,
                })
            })
            .collect()
    }
}

/// Appends to the column at the row's position. A column of another name or type stays short by one cell, which
/// the reading back in the tests of every record kind would show.
macro_rules! put {
    ($self:ident, $name:ident, $variant:ident, $value:expr) => {{
        if let Some((name, Cells::$variant(cells))) = $self.table.columns.get_mut($self.at)
            && name == $name
        {
            cells.push($value);
        }
        $self.at += 1;
    }};
}

impl RowOut<'_> {
    /// Writes a text.
    pub fn text(&mut self, name: &'static str, value: Option<&str>) {
        put!(self, name, Text, value.map(Arc::from));
    }

    /// Writes a number.
    pub fn number(&mut self, name: &'static str, value: Option<f64>) {
        put!(self, name, Number, value);
    }

    /// Writes a whole number.
    pub fn integer(&mut self, name: &'static str, value: Option<i64>) {
        put!(self, name, Integer, value);
    }

    /// Writes true or false.
    pub fn flag(&mut self, name: &'static str, value: Option<bool>) {
        put!(self, name, Flag, value);
    }

    /// Writes a day.
    pub fn date(&mut self, name: &'static str, value: Option<NaiveDate>) {
        put!(self, name, Date, value);
    }
}

/// Reads the cell at the row's position, checking name and type of the column.
macro_rules! take {
    ($self:ident, $name:ident, $variant:ident) => {{
        let position = $self.at;
        $self.at += 1;
        match &mut $self.source {
            Source::Columns(columns) => {
                columns.push(($name, CellKind::$variant));
                Ok(None)
            }
            Source::Table(table) => match table.columns.get(position) {
                Some((name, Cells::$variant(cells))) if name == $name => {
                    Ok(cells.get($self.row).cloned().flatten())
                }
                other => Err(TableError::OtherColumn {
                    position: position + 1,
                    found: other.map(|(name, _)| name.clone()).unwrap_or_default(),
                    expected: $name,
                }),
            },
        }
    }};
}

impl RowIn<'_> {
    /// True where the next column is of this name; false for a table of a version that had no such column.
    pub fn is_next(&self, name: &str) -> bool {
        match &self.source {
            Source::Columns(_) => true,
            Source::Table(table) => {
                let next = table.columns.get(self.at);
                next.is_some_and(|(next, _)| next == name)
            }
        }
    }

    /// Reads a text.
    pub fn text(&mut self, name: &'static str) -> Result<Option<String>, TableError> {
        Ok(self.shared_text(name)?.map(|text| (*text).to_owned()))
    }

    /// Reads a text that must be there.
    pub fn required_text(&mut self, name: &'static str) -> Result<String, TableError> {
        let text = self.text(name)?;
        self.required(text, name)
    }

    /// Reads a text that many rows have: a million rows of one sheet have one name of it.
    pub fn shared_text(&mut self, name: &'static str) -> Result<Option<Arc<str>>, TableError> {
        take!(self, name, Text)
    }

    /// Reads a text that must be there and that many rows have.
    pub fn required_shared_text(&mut self, name: &'static str) -> Result<Arc<str>, TableError> {
        let text = self.shared_text(name)?;
        self.required(text, name)
    }

    /// Reads a number.
    pub fn number(&mut self, name: &'static str) -> Result<Option<f64>, TableError> {
        take!(self, name, Number)
    }

    /// Reads a number that must be there.
    pub fn required_number(&mut self, name: &'static str) -> Result<f64, TableError> {
        let number = self.number(name)?;
        self.required(number, name)
    }

    /// Reads a whole number.
    pub fn integer(&mut self, name: &'static str) -> Result<Option<i64>, TableError> {
        take!(self, name, Integer)
    }

    /// Reads true or false.
    pub fn flag(&mut self, name: &'static str) -> Result<Option<bool>, TableError> {
        take!(self, name, Flag)
    }

    /// Reads a day.
    pub fn date(&mut self, name: &'static str) -> Result<Option<NaiveDate>, TableError> {
        take!(self, name, Date)
    }

    /// Reads a day that must be there.
    pub fn required_date(&mut self, name: &'static str) -> Result<NaiveDate, TableError> {
        let date = self.date(name)?;
        self.required(date, name)
    }

    /// Reads a text by a function that knows its words; null stays `None`.
    pub fn coded<T>(
        &mut self,
        name: &'static str,
        read: impl Fn(&str) -> Option<T>,
    ) -> Result<Option<T>, TableError> {
        match self.shared_text(name)? {
            None => Ok(None),
            Some(text) => read(&text).map(Some).ok_or_else(|| self.bad(name, &text)),
        }
    }

    /// The value, or that it is missing; while columns are noted, a stand-in.
    fn required<T: Default>(&self, value: Option<T>, name: &'static str) -> Result<T, TableError> {
        match (value, &self.source) {
            (Some(value), _) => Ok(value),
            (None, Source::Columns(_)) => Ok(T::default()),
            (None, Source::Table(_)) => Err(self.bad(name, "null")),
        }
    }

    /// Says that a cell of this row cannot be read.
    pub fn bad(&self, column: &'static str, found: &str) -> TableError {
        TableError::BadValue {
            column,
            row: self.row + 1,
            found: found.to_owned(),
        }
    }
}
