//! What became of each file: read, left out on purpose, or not readable and why.

use std::sync::Arc;

use chrono::NaiveDateTime;

use super::field::Field;
use super::text_table::TextTableError;
use super::workbook::WorkbookError;
use crate::record::TableKind;

/// One file that was opened, with what tells it from another edition of the same name.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct FileRead {
    /// File name.
    pub file: String,
    /// Size.
    pub bytes: u64,
    /// When it was last changed, UTC; `None` where the system does not say.
    pub modified: Option<NaiveDateTime>,
    /// SHA-256 of its bytes, in hexadecimal.
    pub sha256: String,
}

/// A file or sheet that was left out on purpose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SkippedFile {
    /// File name.
    pub file: Arc<str>,
    /// Sheet, where only one was left out.
    pub sheet: Option<Arc<str>>,
    /// Why.
    pub reason: SkipReason,
}

/// Why a file or sheet was left out.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, thiserror::Error, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum SkipReason {
    /// A folder in the folder.
    #[error("a folder; only files directly in the folder are read")]
    Folder,
    /// Name begins with a dot.
    #[error("a hidden file")]
    Hidden,
    /// Lock file of an office program.
    #[error("a lock file; the workbook is open in another program")]
    Lock,
    /// Written by this program.
    #[error("a report of this program")]
    OwnReport,
    /// Not a kind of file that is read.
    #[error("not a workbook, a text table or the shop's settings")]
    OtherType,
    /// Rows to mend of an earlier import, among other files.
    #[error(
        "rows to mend of an earlier import; mended, they are imported from a folder of their own"
    )]
    Rejects,
    /// No header of a known kind.
    #[error("no row is a header of a known kind of table")]
    NoTable,
    /// No header of a known kind, but a row that is nearly one.
    #[error("{}", nearly(*row, *kind, *lacks))]
    NearlyTable {
        /// The row, from 0.
        row: u32,
        /// The kind that it is nearly a header of.
        kind: TableKind,
        /// The column that it lacks; `None` where most columns are of other kinds.
        lacks: Option<Field>,
    },
    /// Nothing on it.
    #[error("empty")]
    Empty,
}

/// What a row lacks that is nearly a header.
fn nearly(row: u32, kind: TableKind, lacks: Option<Field>) -> String {
    let (row, kind) = (row + 1, kind.name());
    match lacks {
        Some(field) => format!(
            "no row is a header of a known kind of table; row {row} is nearly that of {kind}, but has no column for the {field}"
        ),
        None => format!(
            "no row is a header of a known kind of table; row {row} is nearly that of {kind}, but most of its columns are of other kinds"
        ),
    }
}

/// A file that should have been read and could not be, in whole or in part.
#[derive(Debug)]
pub struct FileProblem {
    /// File name.
    pub file: Arc<str>,
    /// Why.
    pub reason: FileError,
}

impl FileProblem {
    /// What heads the problem: the file was not read, or only in part.
    pub fn label(&self) -> &'static str {
        let is_part = match &self.reason {
            FileError::SettingLeftOut { .. } => true,
            FileError::Recorded { words } => words.ends_with(LEFT_OUT),
            _ => false,
        };
        match is_part {
            true => "Read in part",
            false => "Not read",
        }
    }

    /// True where the moment of planning may have stood in what was not read.
    pub fn may_hold_as_of(&self) -> bool {
        let words = self.reason.to_string();
        words.ends_with(&format!("`as_of`{LEFT_OUT}")) || words.ends_with(DEFAULTS_HOLD)
    }
}

/// How the words end where one key of the settings is left out, and where all of them are.
const LEFT_OUT: &str = " is left out";
const DEFAULTS_HOLD: &str = "the default settings are used";

/// Why a file could not be read.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum FileError {
    /// The system refused.
    #[error("the file cannot be read: {0}")]
    Io(#[from] std::io::Error),
    /// Larger than the limit.
    #[error(
        "the file holds {bytes} bytes; at most {} are read",
        super::limits::MAX_FILE_BYTES
    )]
    TooLarge {
        /// Its size.
        bytes: u64,
    },
    /// No bytes at all.
    #[error("the file is empty")]
    Empty,
    /// As a workbook.
    #[error(transparent)]
    Workbook(#[from] WorkbookError),
    /// One sheet of a workbook.
    #[error("sheet `{sheet}`: {cause}")]
    Sheet {
        /// The sheet.
        sheet: String,
        /// Why.
        cause: WorkbookError,
    },
    /// As a text table.
    #[error(transparent)]
    Text(#[from] TextTableError),
    /// Not a workbook of rows to mend.
    #[error(
        "the file is no workbook of rows to mend; its hidden sheet `{}` is missing",
        super::rejects::ORIGINS_SHEET
    )]
    NotRejects,
    /// A sheet of rows to mend whose origin is gone.
    #[error(
        "sheet `{sheet}`: how it is read stood in a hidden sheet and is lost; copy the rows into the file they came from"
    )]
    OriginLost {
        /// The sheet.
        sheet: String,
    },
    /// The settings are wrong; the defaults hold.
    #[error("{0}; the default settings are used")]
    Settings(#[from] crate::record::SettingsError),
    /// A setting that cannot hold; the rest does.
    #[error("{why}; `{key}` is left out")]
    SettingLeftOut {
        /// Why it cannot.
        why: crate::record::SettingsError,
        /// The key, with the table it stands in.
        key: String,
    },
    /// The settings are no text.
    #[error("the settings are not UTF-8 text; the default settings are used")]
    SettingsNotText,
    /// A problem of an import that is already in a workspace, in the words it was told in then.
    #[error("{words}")]
    Recorded {
        /// The words.
        words: String,
    },
    /// A second settings file.
    #[error("a second settings file; `{used}` is used")]
    SecondSettings {
        /// The first by name.
        used: String,
    },
}
