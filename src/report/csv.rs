//! One CSV file for each sheet, safe to open in a spreadsheet program and exact to read back.
//!
//! Form: UTF-8 with byte order mark, commas, RFC 4180 quoting, lines ending in CR LF, first line the column
//! keys. The mark is there because spreadsheet programs otherwise take the file for the local code page and
//! spoil every umlaut; readers of CSV in wide use skip it. Numbers have a decimal point and no groups, money has
//! two decimals in the currency its key ends in, shares are 0 to 1, dates are `2026-03-09`, moments
//! `2026-03-09T07:30`, yes and no are `true` and `false`. A value that could not be known is the word `unknown`;
//! a value that does not apply is empty.
//!
//! Words that a spreadsheet program would run as a formula get an apostrophe in front, see [`safe_text`];
//! numbers do not, so that `-218` in a column of numbers stays a number.

use std::borrow::Cow;

use super::model::{MARK_KEY, Sheet, UNKNOWN, Value};

/// Tells programs that the file is UTF-8.
const BYTE_ORDER_MARK: &str = "\u{feff}";
/// What is put in front of words that look like a formula.
const PREFIX: char = '\'';

/// Returns the sheet as the text of a CSV file.
pub fn csv_of(sheet: &Sheet) -> Vec<u8> {
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(BYTE_ORDER_MARK.as_bytes().to_vec());
    let marks = sheet.has_marks.then_some(MARK_KEY);
    let keys = sheet.columns.iter().map(|column| column.key.as_str());
    let mut written = writer.write_record(marks.into_iter().chain(keys));
    for row in &sheet.rows {
        let mark = sheet.has_marks.then(|| row.emphasis.word().into());
        let cells = row.cells.iter().map(field);
        let record = mark.into_iter().chain(cells);
        written = written.and_then(|()| writer.write_record(record.map(Bytes)));
    }
    written
        .expect("writing to memory cannot fail, and every record has as many fields as the first");
    writer.into_inner().expect("flushing to memory cannot fail")
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

/// Says whether a spreadsheet program may take the words for a formula when it opens a CSV file.
///
/// # Source
/// Open Worldwide Application Security Project, "CSV Injection": fields that begin with equals, plus, minus, at,
/// tab, carriage return or line feed, or with the full-width forms of the first four.
pub(super) fn looks_like_formula(words: &str) -> bool {
    words.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'])
}

/// Puts an apostrophe in front of words that look like a formula, or that begin with an apostrophe already,
/// so that [`read_back`] is exact.
///
/// # Example
/// ```
/// use sparewright::report::{read_back, safe_text};
/// assert_eq!(safe_text("+/-0.1"), "'+/-0.1");
/// assert_eq!(safe_text("30x62x16"), "30x62x16");
/// assert_eq!(read_back("'+/-0.1"), "+/-0.1");
/// ```
pub fn safe_text(words: &str) -> Cow<'_, str> {
    if looks_like_formula(words) || words.starts_with(PREFIX) {
        Cow::Owned(format!("{PREFIX}{words}"))
    } else {
        Cow::Borrowed(words)
    }
}

/// Takes the apostrophe of [`safe_text`] off again; other words stay as they are.
pub fn read_back(field: &str) -> &str {
    match field.strip_prefix(PREFIX) {
        Some(words) if looks_like_formula(words) || words.starts_with(PREFIX) => words,
        _ => field,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::model::{Column, ColumnKind, Row};
    use proptest::prelude::*;

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

    #[test]
    fn an_apostrophe_of_the_shop_survives() {
        for words in ["'", "''", "'tis", "'=1", "5' hose", "'-'", ""] {
            assert_eq!(read_back(&safe_text(words)), words);
        }
    }

    proptest! {
        #[test]
        fn every_text_reads_back_exactly(words in "[-+=@'\t\r\n,\"＝a-zäß0-9 ]{0,12}") {
            let safe = safe_text(&words).into_owned();
            prop_assert!(!looks_like_formula(&safe));
            prop_assert_eq!(read_back(&safe), words);
        }
    }
}
