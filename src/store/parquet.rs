//! Tables as Parquet bytes and back. With `catalogue/frame.rs` the only home of polars.

use std::collections::HashSet;
use std::io::Cursor;
use std::sync::Arc;

use chrono::{Days, NaiveDate};
use polars::prelude::{
    Column, DataFrame, DataType, IntoColumn, NamedFrom, ParquetCompression, ParquetReader,
    ParquetWriter, PolarsError, SerReader, Series,
};

use super::table::{Cells, Table};
use crate::parallel;

/// Why bytes are not a table, or a table could not become bytes.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ParquetError {
    /// The reader refused.
    #[error("not a readable Parquet table")]
    Polars(#[from] PolarsError),
    /// The writer refused.
    #[error("the table cannot be written as Parquet")]
    Unwritten(#[source] PolarsError),
    /// A column of a type that no stored table has.
    #[error(
        "column `{column}` is of type `{found}`; expected text, float, whole number, true or false, or date"
    )]
    OtherType {
        /// The column.
        column: String,
        /// Its type.
        found: String,
    },
}

/// Writes a table; the same table gives the same bytes.
///
/// # Errors
/// [`ParquetError::Unwritten`] where columns are of unequal length.
pub fn to_bytes(table: &Table) -> Result<Vec<u8>, ParquetError> {
    encoded(table).map_err(ParquetError::Unwritten)
}

fn encoded(table: &Table) -> Result<Vec<u8>, PolarsError> {
    let columns = table
        .columns
        .iter()
        .map(|(name, cells)| to_whole_column(name, cells, table.height));
    let mut frame = DataFrame::new(table.height, columns.collect::<Result<_, _>>()?)?;
    let mut bytes = Vec::new();
    ParquetWriter::new(&mut bytes)
        .with_compression(ParquetCompression::Zstd(None))
        .finish(&mut frame)?;
    Ok(bytes)
}

/// Reads a table.
///
/// # Errors
/// [`ParquetError`] where the bytes are no Parquet or hold other types.
pub fn from_bytes(bytes: &[u8]) -> Result<Table, ParquetError> {
    let height = ParquetReader::new(Cursor::new(bytes)).num_rows()?;
    let schema = ParquetReader::new(Cursor::new(bytes)).schema()?;
    let names: Vec<String> = schema.iter_names().map(ToString::to_string).collect();
    // Column by column, so that no more than one stands beside the table for each core.
    let columns = parallel::each(&names, |name| {
        let reader = ParquetReader::new(Cursor::new(bytes));
        let frame = reader.with_columns(Some(vec![name.clone()])).finish()?;
        let cells = frame.columns().first().map(to_cells).transpose()?;
        Ok(cells.map(|cells| (name.clone(), cells)))
    });
    let columns = columns.into_iter().filter_map(Result::transpose);
    Ok(Table {
        columns: columns.collect::<Result<_, ParquetError>>()?,
        height,
    })
}

/// A column with the nulls that stand behind its last value.
fn to_whole_column(name: &str, cells: &Cells, height: usize) -> Result<Column, PolarsError> {
    let mut column = to_column(name, cells)?;
    let missing = height.saturating_sub(column.len());
    if missing > 0 {
        let nulls = Column::full_null(name.into(), missing, column.dtype());
        if column.is_empty() {
            return Ok(nulls);
        }
        column.append(&nulls)?;
    }
    Ok(column)
}

fn to_column(name: &str, cells: &Cells) -> Result<Column, PolarsError> {
    let series = match cells {
        Cells::Text(cells) => {
            let texts: Vec<Option<&str>> = cells.iter().map(Option::as_deref).collect();
            Series::new(name.into(), texts)
        }
        Cells::Number(cells) => Series::new(name.into(), cells),
        Cells::Integer(cells) => Series::new(name.into(), cells),
        Cells::Flag(cells) => Series::new(name.into(), cells),
        Cells::Date(cells) => {
            let days: Vec<Option<i32>> = cells.iter().map(|date| date.map(days_of)).collect();
            Series::new(name.into(), days).cast(&DataType::Date)?
        }
    };
    Ok(series.into_column())
}

fn to_cells(column: &Column) -> Result<Cells, ParquetError> {
    let is_blank = column.null_count() == column.len();
    Ok(match column.dtype() {
        // Cells behind the last are null: a million rows of which none was mended need no room to say so.
        DataType::String if is_blank => Cells::Text(Vec::new()),
        DataType::Float64 if is_blank => Cells::Number(Vec::new()),
        DataType::Int64 if is_blank => Cells::Integer(Vec::new()),
        DataType::Boolean if is_blank => Cells::Flag(Vec::new()),
        DataType::Date if is_blank => Cells::Date(Vec::new()),
        DataType::String => {
            let mut texts = Texts::default();
            let cells = column.str()?.iter();
            Cells::Text(cells.map(|text| text.map(|text| texts.of(text))).collect())
        }
        DataType::Float64 => Cells::Number(column.f64()?.iter().collect()),
        DataType::Int64 => Cells::Integer(column.i64()?.iter().collect()),
        DataType::Boolean => Cells::Flag(column.bool()?.iter().collect()),
        DataType::Date => {
            let days = column.cast(&DataType::Int32)?;
            Cells::Date(
                days.i32()?
                    .iter()
                    .map(|days| days.and_then(date_of))
                    .collect(),
            )
        }
        other => {
            return Err(ParquetError::OtherType {
                column: column.name().to_string(),
                found: other.to_string(),
            });
        }
    })
}

/// Texts of one column, each held once: a million usages name the parts and machines of a shop again and again.
#[derive(Default)]
struct Texts {
    last: Option<Arc<str>>,
    known: HashSet<Arc<str>>,
}

impl Texts {
    /// Texts that are known again; with more, a column mostly has a text of its own in each row.
    const MOST: usize = 1 << 17;

    fn of(&mut self, text: &str) -> Arc<str> {
        if let Some(last) = self.last.as_ref().filter(|last| ***last == *text) {
            return Arc::clone(last);
        }
        let shared = self
            .known
            .get(text)
            .map_or_else(|| Arc::from(text), Arc::clone);
        if self.known.len() < Self::MOST {
            self.known.insert(Arc::clone(&shared));
        }
        self.last = Some(Arc::clone(&shared));
        shared
    }
}

/// Days since 1970-01-01, the form of a Parquet date.
fn days_of(date: NaiveDate) -> i32 {
    date.signed_duration_since(NaiveDate::default()).num_days() as i32
}

fn date_of(days: i32) -> Option<NaiveDate> {
    let (epoch, span) = (
        NaiveDate::default(),
        Days::new(u64::from(days.unsigned_abs())),
    );
    if days < 0 {
        epoch.checked_sub_days(span)
    } else {
        epoch.checked_add_days(span)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_type_comes_back_with_its_nulls() {
        let day = |y, m, d| NaiveDate::from_ymd_opt(y, m, d);
        let table = Table {
            columns: vec![
                (
                    "text".to_owned(),
                    Cells::Text(vec![Some("".into()), None, Some("Stück \u{1f}\n".into())]),
                ),
                (
                    "number".to_owned(),
                    Cells::Number(vec![Some(0.1), None, Some(-1e300)]),
                ),
                (
                    "integer".to_owned(),
                    Cells::Integer(vec![Some(i64::MIN), None, Some(i64::MAX)]),
                ),
                (
                    "flag".to_owned(),
                    Cells::Flag(vec![Some(true), None, Some(false)]),
                ),
                (
                    "date".to_owned(),
                    Cells::Date(vec![day(1899, 12, 30), None, day(2026, 2, 28)]),
                ),
            ],
            height: 3,
        };
        let bytes = to_bytes(&table).unwrap();
        assert_eq!(from_bytes(&bytes).unwrap(), table);
        assert_eq!(bytes, to_bytes(&table).unwrap());
    }

    #[test]
    fn a_column_of_nulls_is_null_in_each_row_and_takes_no_room() {
        let number = |cells| ("number".to_owned(), Cells::Number(cells));
        let kinds = [
            Cells::Text(vec![None; 3]),
            Cells::Number(vec![None; 3]),
            Cells::Integer(vec![None; 3]),
            Cells::Flag(vec![None; 3]),
            Cells::Date(vec![None; 3]),
        ];
        let blank = (0..).zip(kinds).map(|(at, of)| (format!("blank {at}"), of));
        let table = Table {
            columns: blank.chain([number(vec![Some(1.0), None, None])]).collect(),
            height: 3,
        };
        let read = from_bytes(&to_bytes(&table).unwrap()).unwrap();
        assert_eq!(read.height, 3);
        for ((name, cells), (written, of)) in read.columns.iter().zip(&table.columns) {
            assert_eq!(name, written);
            for row in 0..3 {
                assert_eq!(cells.words(row), of.words(row), "{name}, row {row}");
            }
        }
        assert_eq!(read.columns[0].1, Cells::Text(Vec::new()));
        assert_eq!(read.columns[5], table.columns[5]);
    }

    #[test]
    fn a_table_without_rows_keeps_its_columns() {
        let table = Table {
            columns: vec![("date".to_owned(), Cells::Date(Vec::new()))],
            height: 0,
        };
        assert_eq!(from_bytes(&to_bytes(&table).unwrap()).unwrap(), table);
    }

    #[test]
    fn bytes_that_are_no_table_are_refused() {
        assert!(from_bytes(b"PAR1 nothing PAR1").is_err());
        assert!(from_bytes(b"").is_err());
    }
}
