//! One cell of a table: how a value looks and how it is stored.

use rust_xlsxwriter::{Format, IntoExcelData, Worksheet, XlsxError};

use super::fitting::fitting;
use super::style::{Digits, Look, Styles};
use super::width;
use crate::import::formula_text::looks_like_formula;
use crate::report::model::{Column, ColumnKind, Value};

/// Where a value goes and how it looks.
pub(super) struct Cell {
    /// Row, from 0.
    pub(super) row: u32,
    /// Column, from 0.
    pub(super) column: u16,
    /// Its look; `None` where it has that of its column.
    pub(super) look: Option<Look>,
}

/// How a value of a column looks.
pub(super) fn look_of(column: &Column, value: &Value, width: u16) -> Look {
    let digits = match value.as_number() {
        // Money has its cents whatever its column holds besides.
        Some(_) if matches!(value, Value::Money(_)) => Digits::Cents,
        Some(number) => Digits::of(column.kind, number),
        None if matches!(column.kind, ColumnKind::Date | ColumnKind::Moment) => {
            Digits::of(column.kind, 0.0)
        }
        None => Digits::General,
    };
    Look {
        digits,
        is_right: is_right(column.kind),
        wraps: matches!(value, Value::Text(text) if width::must_wrap(column, text, width)),
        is_unknown: matches!(value, Value::Unknown(_)),
        is_total: false,
        is_quoted: matches!(value, Value::Text(text) if looks_like_formula(text)),
        is_ruled: true,
    }
}

/// Writes one value by its type: numbers as numbers, dates as dates, words as words.
pub(super) fn write_value(
    page: &mut Worksheet,
    cell: &Cell,
    value: &Value,
    styles: &mut Styles,
) -> Result<(), XlsxError> {
    let language = styles.language();
    let format = cell.look.map(|look| styles.of(look));
    let (row, column) = (cell.row, cell.column);
    match (value, format) {
        (Value::Empty, None) => {}
        (Value::Empty, Some(format)) => {
            page.write_blank(row, column, format)?;
        }
        (Value::Date(date), format) => put(page, (row, column), date, format)?,
        (Value::Moment(moment), format) => put(page, (row, column), moment, format)?,
        (Value::Unknown(_) | Value::Text(_) | Value::Flag(_), format) => {
            let words = value.in_language(ColumnKind::Text, language);
            put(page, (row, column), fitting(&words).as_ref(), format)?;
        }
        (Value::Integer(_) | Value::Number(_) | Value::Money(_) | Value::Price(_), format) => {
            let number = value.as_number().unwrap_or_default();
            put(page, (row, column), number, format)?;
        }
    }
    Ok(())
}

/// Writes what a cell holds, in the format of its column where it has none of its own.
pub(super) fn put(
    page: &mut Worksheet,
    (row, column): (u32, u16),
    data: impl IntoExcelData,
    format: Option<&Format>,
) -> Result<(), XlsxError> {
    match format {
        Some(format) => page.write_with_format(row, column, data, format)?,
        None => page.write(row, column, data)?,
    };
    Ok(())
}

/// Figures and dates stand flush right, dates because spreadsheet programs put them there.
pub(super) const fn is_right(kind: ColumnKind) -> bool {
    kind.is_number() || matches!(kind, ColumnKind::Date | ColumnKind::Moment)
}
