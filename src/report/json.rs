//! The report as one JSON document.
//!
//! ```text
//! { "schema": 1,
//!   "report": { "title", "shop", "as_of": "2026-03-09T07:30:00", "made_by": { "name", "version" },
//!               "language": "en" },
//!   "cover": { "facts":     [ { "label", "kind", "unit", "value", "note" } ],
//!              "actions":   [ { "text", "detail", "sheet": key or null } ],
//!              "data_ages": [ { "what", "file", "dated", "age_days", "is_old", "note" } ],
//!              "cautions":  [ text ], "unknowns": [ text ] },
//!   "sheets": { "<sheet key>": {
//!       "title", "question", "notes": [ text ],
//!       "columns": [ { "key", "header", "kind", "unit", "help" } ],
//!       "rows":    [ { "mark": "" | "good" | "check" | "stop", "<column key>": value, … } ],
//!       "totals":  { "<column key>": { "sum": value, "unknown_rows": count } } } } }
//! ```
//!
//! Keys and figures are the same in every language; titles, headers and words are in that of the report.
//! Sheets, columns and fields keep the order of the report. Keys end in the unit: `cost_eur` is in euros with
//! cents as decimals, `wait_days` in calendar days, `_workdays` in working days, `_h` in hours, `_mm` in
//! millimetres; a `_share` is 0 to 1. Dates and moments are ISO 8601, local time. `mark` is there only where
//! the sheet shows marks. A value that does not apply is `null`. A value that could not be known is `null` as
//! well, and a sibling `"<column key>_unknown"` gives the reason. The `sum` of `totals` is of what is known, `null` where no
//! row is known; `unknown_rows` counts the rows that are not known, or not in whole, such as the goods of an order whose
//! freight is not known. A change of meaning raises `schema`.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::io;

use serde::ser::{Serialize, SerializeMap, Serializer};

use super::model::{
    Action, Column, ColumnKind, DataAge, Fact, Group, MARK_KEY, Report, Row, Sheet, Value,
};

/// Number of the form described above.
pub const JSON_SCHEMA: u32 = 1;

/// Returns the report as the text of a JSON file.
pub fn json_of(report: &Report) -> Vec<u8> {
    let mut text = Vec::new();
    write_json(report, &mut text).expect("memory can be written");
    text
}

/// Writes the text of a JSON file.
///
/// # Errors
/// Where the writer refuses.
pub fn write_json(report: &Report, writer: &mut impl io::Write) -> io::Result<()> {
    write_document(report, &Sheets(&report.sheets), writer)
}

/// Writes the same of a report whose sheets come one after another, each forgotten when it is written.
///
/// # Errors
/// Where the writer refuses.
pub fn write_json_of(
    head: &Report,
    groups: impl Iterator<Item = Group>,
    writer: &mut impl io::Write,
) -> io::Result<()> {
    write_document(head, &Coming(RefCell::new(Some(groups))), writer)
}

fn write_document(
    head: &Report,
    sheets: &impl Serialize,
    writer: &mut impl io::Write,
) -> io::Result<()> {
    serde_json::to_writer_pretty(&mut *writer, &Document(head, sheets))?;
    writer.write_all(b"\n")
}

/// Sheets that come one after another; they can be written once.
struct Coming<I>(RefCell<Option<I>>);

impl<I: Iterator<Item = Group>> Serialize for Coming<I> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        for group in self.0.borrow_mut().take().into_iter().flatten() {
            for sheet in group.iter() {
                map.serialize_entry(&sheet.key, &SheetJson(sheet))?;
            }
        }
        map.end()
    }
}

struct Document<'a, S>(&'a Report, &'a S);
struct Head<'a>(&'a Report);
struct CoverJson<'a>(&'a Report);
struct Sheets<'a>(&'a [Sheet]);
struct SheetJson<'a>(&'a Sheet);
struct ColumnJson<'a>(&'a Column);
struct RowJson<'a>(&'a Sheet, &'a Row);
struct Totals<'a>(&'a Sheet);
struct FactJson<'a>(&'a Fact);
struct ActionJson<'a>(&'a Action);
struct AgeJson<'a>(&'a DataAge);
struct Plain<'a>(&'a Value);

/// A list whose entries are wrapped one by one.
struct List<'a, T, W>(&'a [T], fn(&'a T) -> W);

impl<T, W: Serialize> Serialize for List<'_, T, W> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.0.iter().map(self.1))
    }
}

impl<T: Serialize> Serialize for Document<'_, T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("schema", &JSON_SCHEMA)?;
        map.serialize_entry("report", &Head(self.0))?;
        map.serialize_entry("cover", &CoverJson(self.0))?;
        map.serialize_entry("sheets", self.1)?;
        map.end()
    }
}

impl Serialize for Head<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let made_by = BTreeMap::from([
            ("name", self.0.made_by.name.as_str()),
            ("version", self.0.made_by.version.as_str()),
        ]);
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("title", &self.0.title)?;
        map.serialize_entry("shop", &self.0.shop)?;
        map.serialize_entry("as_of", &self.0.as_of)?;
        map.serialize_entry("made_by", &made_by)?;
        map.serialize_entry("language", self.0.language.code())?;
        map.end()
    }
}

impl Serialize for CoverJson<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let cover = &self.0.cover;
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("facts", &List(&cover.facts, FactJson))?;
        map.serialize_entry("actions", &List(&cover.actions, ActionJson))?;
        map.serialize_entry("data_ages", &List(&cover.data_ages, AgeJson))?;
        map.serialize_entry("cautions", &cover.cautions)?;
        map.serialize_entry("unknowns", &cover.unknowns)?;
        map.end()
    }
}

impl Serialize for FactJson<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let fact = self.0;
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("label", &fact.label)?;
        map.serialize_entry("kind", fact.kind.name())?;
        map.serialize_entry("unit", &unit(&fact.kind))?;
        entry(&mut map, "value", &fact.value)?;
        map.serialize_entry("note", &fact.note)?;
        map.end()
    }
}

impl Serialize for ActionJson<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("text", &self.0.text)?;
        map.serialize_entry("detail", &self.0.detail)?;
        map.serialize_entry("sheet", &self.0.sheet)?;
        map.end()
    }
}

impl Serialize for AgeJson<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("what", &self.0.what)?;
        map.serialize_entry("file", &self.0.file)?;
        map.serialize_entry("dated", &self.0.dated)?;
        map.serialize_entry("age_days", &self.0.age_days)?;
        map.serialize_entry("is_old", &self.0.is_old)?;
        map.serialize_entry("note", &self.0.note)?;
        map.end()
    }
}

impl Serialize for Sheets<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|sheet| (&sheet.key, SheetJson(sheet))))
    }
}

impl Serialize for SheetJson<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let sheet = self.0;
        let rows: Vec<RowJson> = sheet.rows.iter().map(|row| RowJson(sheet, row)).collect();
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("title", &sheet.title)?;
        map.serialize_entry("question", &sheet.question)?;
        map.serialize_entry("notes", &sheet.notes)?;
        map.serialize_entry("columns", &List(&sheet.columns, ColumnJson))?;
        map.serialize_entry("rows", &rows)?;
        map.serialize_entry("totals", &Totals(sheet))?;
        map.end()
    }
}

impl Serialize for ColumnJson<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let column = self.0;
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("key", &column.key)?;
        map.serialize_entry("header", &column.header)?;
        map.serialize_entry("kind", column.kind.name())?;
        map.serialize_entry("unit", &unit(&column.kind))?;
        map.serialize_entry("help", &column.help)?;
        map.end()
    }
}

impl Serialize for RowJson<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self(sheet, row) = self;
        let mut map = serializer.serialize_map(None)?;
        if sheet.has_marks {
            map.serialize_entry(MARK_KEY, row.emphasis.word())?;
        }
        for (column, value) in sheet.columns.iter().zip(&row.cells) {
            entry(&mut map, &column.key, value)?;
        }
        map.end()
    }
}

impl Serialize for Totals<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        let totalled = self.0.columns.iter().enumerate();
        for (place, column) in totalled.filter(|(_, column)| column.is_totalled) {
            map.serialize_entry(&column.key, &TotalJson(self.0, place))?;
        }
        map.end()
    }
}

/// Sum of the column at a place.
struct TotalJson<'a>(&'a Sheet, usize);

impl Serialize for TotalJson<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("sum", &Plain(&self.0.total_value(self.1)))?;
        map.serialize_entry("unknown_rows", &self.0.total(self.1).unknown_rows)?;
        map.end()
    }
}

impl Serialize for Plain<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.0 {
            Value::Empty | Value::Unknown(_) => serializer.serialize_none(),
            Value::Text(words) => serializer.serialize_str(words),
            Value::Integer(whole) => serializer.serialize_i64(*whole),
            Value::Number(_) | Value::Money(_) | Value::Price(_) => {
                self.0.as_number().serialize(serializer)
            }
            Value::Date(date) => date.serialize(serializer),
            Value::Moment(moment) => moment.serialize(serializer),
            Value::Flag(flag) => serializer.serialize_bool(*flag),
        }
    }
}

/// Writes a value, and the reason beside it where it is unknown.
fn entry<M: SerializeMap>(map: &mut M, key: &str, value: &Value) -> Result<(), M::Error> {
    map.serialize_entry(key, &Plain(value))?;
    if let Value::Unknown(reason) = value {
        map.serialize_entry(&format!("{key}_unknown"), reason)?;
    }
    Ok(())
}

/// The unit in a JSON file, where a share has one too.
fn unit(kind: &ColumnKind) -> Option<&str> {
    match kind {
        ColumnKind::Share => Some("share of 1"),
        _ => kind.unit(),
    }
}
