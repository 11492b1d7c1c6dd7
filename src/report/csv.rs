//! One CSV file for each sheet, safe to open in a spreadsheet program and exact to read back.
//!
//! Form: UTF-8 with byte order mark, commas, RFC 4180 quoting, lines ending in CR LF, first line the column
//! keys. The mark is there because spreadsheet programs otherwise take the file for the local code page and
//! spoil every umlaut; readers of CSV in wide use skip it. Numbers have a decimal point and no groups, money has
//! two decimals in the currency its key ends in, shares are 0 to 1, dates are `2026-03-09`, moments
//! `2026-03-09T07:30`, yes and no are `true` and `false`. A value that could not be known is the word `unknown`;
//! a value that does not apply is empty. All that is so in every language; words are in that of the report.
//!
//! Words that a spreadsheet program would run as a formula get an apostrophe in front, see [`safe_text`];
//! numbers do not, so that `-218` in a column of numbers stays a number.

use std::borrow::Cow;
use std::io;

use crate::import::formula_text::safe_text;

use super::model::{MARK_KEY, Sheet, UNKNOWN, Value};

/// Tells programs that the file is UTF-8.
const BYTE_ORDER_MARK: &str = "\u{feff}";

/// Returns the sheet as the text of a CSV file.
pub fn csv_of(sheet: &Sheet) -> Vec<u8> {
    let mut text = Vec::new();
    write_csv(sheet, &mut text).expect("memory can be written");
    text
}

/// Writes the text of a CSV file.
///
/// # Errors
/// Where the writer refuses.
pub fn write_csv(sheet: &Sheet, writer: &mut impl io::Write) -> io::Result<()> {
    writer.write_all(BYTE_ORDER_MARK.as_bytes())?;
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(writer);
    let marks = sheet.has_marks.then_some(MARK_KEY);
    let keys = sheet.columns.iter().map(|column| column.key.as_str());
    writer.write_record(marks.into_iter().chain(keys))?;
    for row in &sheet.rows {
        let mark = sheet.has_marks.then(|| row.emphasis.word().into());
        let cells = row.cells.iter().map(field);
        let record = mark.into_iter().chain(cells);
        writer.write_record(record.map(Bytes))?;
    }
    writer.flush()
}

/// A field that the writer can take as bytes.
struct Bytes<'a>(Cow<'a, str>);

impl AsRef<[u8]> for Bytes<'_> {
    fn as_ref(&self) -> &[u8] {
        self.0.as_bytes()
    }
}

/// A value as a field of the file.
fn field(value: &Value) -> Cow<'_, str> {
    match value {
        Value::Empty => Cow::Borrowed(""),
        Value::Unknown(_) => Cow::Borrowed(UNKNOWN),
        Value::Text(words) => safe_text(words),
        Value::Integer(whole) => Cow::Owned(whole.to_string()),
        Value::Number(number) => Cow::Owned(number.to_string()),
        Value::Money(money) => Cow::Owned(format!("{:.2}", money.to_units())),
        Value::Price(price) => Cow::Owned(price.unit_price().to_string()),
        Value::Date(date) => Cow::Owned(date.format("%Y-%m-%d").to_string()),
        Value::Moment(moment) => Cow::Owned(moment.format("%Y-%m-%dT%H:%M").to_string()),
        Value::Flag(flag) => Cow::Borrowed(if *flag { "true" } else { "false" }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::model::{Column, ColumnKind, Row};

    #[test]
    fn numbers_stay_numbers_and_formulas_become_words() {
        let mut sheet = Sheet::new("a", "A", "?");
        sheet.columns = vec![
            Column::text("dash", "Dash"),
            Column::new(ColumnKind::Integer, "count", "Count"),
        ];
        sheet.rows = vec![Row::new(vec![Value::text("-218"), Value::Integer(-218)])];
        let text = String::from_utf8(csv_of(&sheet)).unwrap();
        assert_eq!(text, "\u{feff}dash,count\r\n'-218,-218\r\n");
    }
}
