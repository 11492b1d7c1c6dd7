//! Rows of an import that were kept out because something newer is there, told once per subject and file.

use std::fmt;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::table::Stored;
use crate::import::{Problem, RowIssue, Severity};
use crate::place::Place;
use crate::record::UsageRecord;

/// What usages are called that another file tells too.
pub(super) const SAME_USAGES: &str = "the same usages";

/// Rows of an import that were kept out because something newer is there.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeptOut {
    /// Table.
    pub table: String,
    /// Supplier, kit, list or part that is concerned.
    pub what: String,
    /// File of the older rows.
    pub file: String,
    /// Date of the older rows.
    pub dated: Option<NaiveDate>,
    /// How many rows.
    pub rows: usize,
    /// File of what holds.
    pub newer_file: String,
    /// Date of what holds.
    pub newer_dated: Option<NaiveDate>,
    /// True for rows of a list that says just what another one says.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub is_repeat: bool,
}

impl KeptOut {
    /// Usages that count once although two files tell them, as a problem for the reader; `None` for other rows, which
    /// something newer replaced.
    pub(super) fn as_issue(&self) -> Option<RowIssue> {
        if self.table != UsageRecord::TABLE || self.what != SAME_USAGES {
            return None;
        }
        let (rows, other) = (self.rows, &self.newer_file);
        let counted = match rows {
            1 => "usage of this file stands",
            _ => "usages of this file stand",
        };
        let once = if rows == 1 { "counts" } else { "count" };
        let words = format!(
            "{rows} {counted} in `{other}` too and {once} once; where each was used for itself, put both files into one"
        );
        Some(RowIssue {
            place: Place::row(&self.file.as_str().into(), &"".into(), 0),
            severity: Severity::Doubtful,
            field: None,
            problem: Problem::Recorded { words },
            original_cells: Vec::new(),
        })
    }
}

impl fmt::Display for KeptOut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let dated = |date: Option<NaiveDate>| {
            date.map_or_else(|| "undated".to_owned(), |date| format!("of {date}"))
        };
        if self.is_repeat || self.table == UsageRecord::TABLE {
            return write!(
                f,
                "{}: {} row{} of `{}` stand in `{}` too and count once",
                self.what,
                self.rows,
                if self.rows == 1 { "" } else { "s" },
                self.file,
                self.newer_file
            );
        }
        write!(
            f,
            "{}: {} row{} of `{}` ({}) kept out; `{}` ({}) is newer",
            self.what,
            self.rows,
            if self.rows == 1 { "" } else { "s" },
            self.file,
            dated(self.dated),
            self.newer_file,
            dated(self.newer_dated)
        )
    }
}
