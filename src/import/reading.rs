//! How a folder was read: tables, columns, skipped files, files with problems.

use std::sync::Arc;

use chrono::{NaiveDate, NaiveDateTime};

use crate::record::TableKind;
use crate::units::LengthUnit;

use super::dry_run::KindScore;
use super::field::Field;
use super::find_table::Table;
use super::grid::Grid;
use super::header::How;
use super::options::Shape;
use super::row::{TableContext, TableCounts};
use super::text_table::TextTableError;
use super::workbook::WorkbookError;

/// Sample values kept of each column.
const SAMPLES: usize = 3;

/// How one table was read.
///
/// With a record's place, [`columns`](Self::columns) leads from each of its values to the cell it came from.
#[derive(Debug, Clone, PartialEq)]
pub struct TableRead {
    /// File name.
    pub file: Arc<str>,
    /// Sheet name; empty for text files.
    pub sheet: Arc<str>,
    /// True for sheets that the user does not see.
    pub is_hidden: bool,
    /// Kind of table.
    pub kind: TableKind,
    /// Header row, from 0.
    pub header_row: u32,
    /// First row of data and the row after the last, from 0.
    pub data_rows: (u32, u32),
    /// Columns that were read.
    pub columns: Vec<ColumnRead>,
    /// Columns with a header that were not read.
    pub unread_columns: Vec<(u32, String)>,
    /// Columns that were not read, those without a header too.
    pub unread: Vec<UnreadColumn>,
    /// Kinds that came into question, the taken one first.
    pub kind_scores: Vec<KindScore>,
    /// Headers with their columns: tables of one shape are read alike.
    pub shape: Shape,
    /// Rows by what became of them.
    pub rows: TableCounts,
    /// Unit of lengths where neither cell nor header names one.
    pub unit: LengthUnit,
    /// Supplier of the whole list.
    pub supplier: Option<String>,
    /// Date of the whole list.
    pub dated: Option<NaiveDate>,
    /// Why the table was read so, in words.
    pub why: Vec<String>,
}

/// How one column was read.
#[derive(Debug, Clone, PartialEq)]
pub struct ColumnRead {
    /// Position from 0.
    pub column: u32,
    /// Header as printed.
    pub header: String,
    /// Field.
    pub field: Field,
    /// How the header was understood.
    pub how: How,
    /// Up to three different values.
    pub samples: Vec<String>,
}

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

/// A column that was not read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnreadColumn {
    /// Position from 0.
    pub column: u32,
    /// Header as printed; empty where there is none.
    pub header: String,
    /// Up to three different values.
    pub samples: Vec<String>,
}

/// Rows looked through for values to show.
const SAMPLE_ROWS: u32 = 500;

/// The first different values of a column.
fn samples(grid: &Grid, table: &Table, column: u32) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for row in (table.first_row..table.end_row).take(SAMPLE_ROWS as usize) {
        let text = grid.cell(row, column).to_text();
        if !text.is_empty() && !found.contains(&text) {
            found.push(text);
            if found.len() == SAMPLES {
                break;
            }
        }
    }
    found
}

/// Columns of a table that were not read: those with a header, and those with values only.
fn unread(grid: &Grid, table: &Table) -> Vec<UnreadColumn> {
    let mut found: Vec<UnreadColumn> = table
        .unread
        .iter()
        .map(|(column, header)| UnreadColumn {
            column: *column,
            header: header.clone(),
            samples: samples(grid, table, *column),
        })
        .collect();
    let rows = table.first_row..table.end_row;
    let width = rows
        .take(SAMPLE_ROWS as usize)
        .map(|row| grid.width(row))
        .max();
    for column in 0..width.unwrap_or_default() {
        let is_known = table.columns.iter().any(|read| read.index == column)
            || table.unread.iter().any(|(at, _)| *at == column);
        if is_known {
            continue;
        }
        let samples = samples(grid, table, column);
        if !samples.is_empty() {
            let header = String::new();
            found.push(UnreadColumn {
                column,
                header,
                samples,
            });
        }
    }
    found.sort_by_key(|one| one.column);
    found
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
    /// Nothing on it.
    #[error("empty")]
    Empty,
}

/// A file that should have been read and could not be, in whole or in part.
#[derive(Debug)]
pub struct FileProblem {
    /// File name.
    pub file: Arc<str>,
    /// Why.
    pub reason: FileError,
}

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
    /// A setting that contradicts another; the rest holds.
    #[error("{why}; `{key}` is left out")]
    SettingLeftOut {
        /// The contradiction.
        why: crate::record::SettingsError,
        /// The key.
        key: &'static str,
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

impl TableRead {
    /// Sums up how a table was read.
    pub fn new(
        grid: &Grid,
        table: &Table,
        context: &TableContext<'_>,
        rows: TableCounts,
        why: Vec<String>,
    ) -> Self {
        Self {
            file: Arc::clone(&grid.file),
            sheet: Arc::clone(&grid.sheet),
            is_hidden: grid.is_hidden,
            kind: table.kind,
            header_row: table.header_row,
            data_rows: (table.first_row, table.end_row),
            columns: table
                .columns
                .iter()
                .map(|column| ColumnRead {
                    column: column.index,
                    header: column.printed.clone(),
                    field: column.header.field,
                    how: column.header.how.clone(),
                    samples: samples(grid, table, column.index),
                })
                .collect(),
            unread_columns: table.unread.clone(),
            unread: unread(grid, table),
            kind_scores: table.kind_scores.clone(),
            shape: table.shape.clone(),
            rows,
            unit: context.unit,
            supplier: context.supplier.clone(),
            dated: context.dated,
            why,
        }
    }
}
