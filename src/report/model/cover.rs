//! The report as a whole and its first page: what to do now, how old the data are, what is not known.

use chrono::{NaiveDate, NaiveDateTime};

use super::column::ColumnKind;
use super::sheet::Sheet;
use super::value::Value;
use crate::language::Language;

/// Program that made the report.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MadeBy {
    /// Its name.
    pub name: String,
    /// Its version.
    pub version: String,
}

/// A figure worth the first page.
#[derive(Debug, Clone, PartialEq)]
pub struct Fact {
    /// What it is.
    pub label: String,
    /// The figure.
    pub value: Value,
    /// Kind, for unit and digits.
    pub kind: ColumnKind,
    /// How to read it.
    pub note: Option<String>,
}

/// Something to do now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Action {
    /// What to do, one line.
    pub text: String,
    /// Why and until when.
    pub detail: String,
    /// Key of the sheet that shows more.
    pub sheet: Option<String>,
}

/// Age of one kind of input.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DataAge {
    /// What kind of data.
    pub what: String,
    /// File it came from.
    pub file: String,
    /// Date the data themselves carry; `None` where they carry none.
    pub dated: Option<NaiveDate>,
    /// Days from that date to the moment of the report.
    pub age_days: Option<i64>,
    /// Older than the shop accepts.
    pub is_old: bool,
    /// How to read it.
    pub note: Option<String>,
}

/// The first page.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cover {
    /// Headline figures.
    pub facts: Vec<Fact>,
    /// What to do now, most urgent first, up to five.
    pub actions: Vec<Action>,
    /// How old the data are.
    pub data_ages: Vec<DataAge>,
    /// Cautions that hold for the whole report.
    pub cautions: Vec<String>,
    /// What could not be computed, and what is missing for it.
    pub unknowns: Vec<String>,
}

/// Everything a report says.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// Title.
    pub title: String,
    /// Name of the shop.
    pub shop: String,
    /// Moment the report holds for; also the creation time of the files, so that the same input gives the
    /// same bytes.
    pub as_of: NaiveDateTime,
    /// Program that made it.
    pub made_by: MadeBy,
    /// First page.
    pub cover: Cover,
    /// Sheets in order.
    pub sheets: Vec<Sheet>,
    /// Language of its words, numbers and dates.
    pub language: Language,
}

impl MadeBy {
    /// This program.
    pub fn this_program() -> Self {
        Self {
            name: env!("CARGO_PKG_NAME").to_owned(),
            version: env!("CARGO_PKG_VERSION").to_owned(),
        }
    }
}

impl Fact {
    /// The note; for an unknown figure the reason comes first.
    pub fn remark(&self) -> String {
        let note = self.note.as_deref().unwrap_or_default();
        match &self.value {
            Value::Unknown(reason) if note.is_empty() => reason.clone().into_owned(),
            Value::Unknown(reason) => format!("{reason}. {note}"),
            _ => note.to_owned(),
        }
    }
}

impl DataAge {
    /// The age in words: `12 days`, `old: 140 days`, `unknown`.
    pub fn in_words(&self) -> String {
        match (self.age_days, self.is_old) {
            (None, _) => super::value::UNKNOWN.to_owned(),
            (Some(1), false) => "1 day".to_owned(),
            (Some(days), false) => format!("{days} days"),
            (Some(days), true) => format!("▲ old: {days} days"),
        }
    }
}

impl Report {
    /// The sheet with this key.
    pub fn sheet(&self, key: &str) -> Option<&Sheet> {
        self.sheets.iter().find(|sheet| sheet.key == key)
    }

    /// The moment the report holds for, in words.
    pub fn as_of_words(&self) -> String {
        self.language.moment(self.as_of)
    }
}
