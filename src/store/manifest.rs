//! What a snapshot is made of: one JSON file per snapshot, never changed once written.

use std::collections::BTreeMap;

use chrono::NaiveDateTime;
use serde::{Deserialize, Serialize};

use super::kept_out::KeptOut;
use super::reading::{LeftOut, NotRead, Reading};
use crate::import::{ColumnMap, FileRead};

/// Number of the form of manifests and tables; a change of meaning raises it.
pub const SCHEMA: u32 = 1;

/// One snapshot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Manifest {
    /// Number of the form.
    pub schema: u32,
    /// Number of the snapshot, from 1.
    pub number: u32,
    /// When it was made, local time.
    pub made_at: NaiveDateTime,
    /// What made it.
    pub made_by: MadeBy,
    /// Files of the import.
    pub files: Vec<FileRead>,
    /// Tables, in a fixed order.
    pub tables: Vec<TableFile>,
    /// How the tables were read that its rows came from.
    pub readings: Vec<Reading>,
    /// Files and sheets left out on purpose.
    pub left_out: Vec<LeftOut>,
    /// Files that could not be read.
    pub not_read: Vec<NotRead>,
    /// Settings of the shop; `None` where the defaults hold.
    pub settings: Option<SettingsFile>,
    /// Meanings of columns that people gave, each for tables of one shape.
    #[serde(default)]
    pub maps: Vec<ColumnMap>,
    /// Rows by table.
    pub counts: BTreeMap<String, Counts>,
    /// Older rows that were kept out by the import.
    pub kept_out: Vec<KeptOut>,
}

/// What made a snapshot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MadeBy {
    /// An import.
    Import,
    /// Taking back an earlier snapshot.
    Restore {
        /// Its number.
        of: u32,
    },
}

/// A stored table.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct TableFile {
    /// Name of the table.
    pub table: String,
    /// File in `tables`; its name holds the first half of the sum.
    pub file: String,
    /// SHA-256 of the file.
    pub sha256: String,
    /// Rows.
    pub rows: usize,
}

/// The shop's settings as they were read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SettingsFile {
    /// File.
    pub file: String,
    /// Its text.
    pub text: String,
}

/// What an import did to one table.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Counts {
    /// Rows now.
    pub rows: usize,
    /// Of these, new with the import.
    pub added: usize,
    /// Rows of the snapshot before that are no more.
    pub dropped: usize,
}

impl Manifest {
    /// True where two snapshots hold the same, whenever they were made.
    pub(super) fn holds_the_same(&self, other: &Self) -> bool {
        self.tables == other.tables
            && self.settings == other.settings
            && self.left_out == other.left_out
            && self.not_read == other.not_read
            && self.maps == other.maps
    }
}
