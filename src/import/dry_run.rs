//! How a folder would be read: every column with its meaning, the evidence and sample values.

use crate::place::column_letters;
use crate::record::TableKind;

use super::field::Field;
use super::folder::Imported;
use super::options::Shape;
use super::reading::TableRead;
use super::row::TableCounts;

/// How one table would be read.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct TableDryRun {
    /// File name.
    pub file: String,
    /// Sheet name; empty for text files.
    pub sheet: String,
    /// True for sheets that the user does not see.
    pub is_hidden: bool,
    /// Kind of table.
    pub kind: TableKind,
    /// Kinds that came into question, the taken one first.
    pub kinds: Vec<KindScore>,
    /// Shape, by which a mapping is remembered.
    pub shape: Shape,
    /// Header row as the user counts, from 1.
    pub header_row: u32,
    /// Rows by what became of them.
    pub rows: TableCounts,
    /// Supplier of the whole list.
    pub supplier: Option<String>,
    /// Every column with a header or values, from left to right.
    pub columns: Vec<ColumnDryRun>,
    /// Why the table was read so, in words.
    pub why: Vec<String>,
}

/// A kind of table with its points and where they come from.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct KindScore {
    /// The kind.
    pub kind: TableKind,
    /// Points.
    pub points: f64,
    /// What gave or took points, in words.
    pub reasons: Vec<String>,
}

/// How one column would be read.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct ColumnDryRun {
    /// Letters of the column.
    pub letters: String,
    /// Header as printed; empty where there is none.
    pub header: String,
    /// What it holds; `None` for a column that is not read.
    pub field: Option<Field>,
    /// How the meaning was found, in words.
    pub evidence: String,
    /// Up to three different values, as a person would read them.
    pub samples: Vec<String>,
}

impl TableDryRun {
    /// Takes together what was noted while the table was read.
    pub fn of(table: &TableRead) -> Self {
        let read = table.columns.iter().map(|column| {
            (
                column.column,
                ColumnDryRun {
                    letters: column_letters(column.column),
                    header: column.header.clone(),
                    field: Some(column.field),
                    evidence: column.how.to_string(),
                    samples: column.samples.clone(),
                },
            )
        });
        let unread = table.unread.iter().map(|column| {
            let evidence = if column.header.is_empty() {
                "no header"
            } else {
                "not a known word, and its values prove nothing"
            };
            (
                column.column,
                ColumnDryRun {
                    letters: column_letters(column.column),
                    header: column.header.clone(),
                    field: None,
                    evidence: evidence.to_owned(),
                    samples: column.samples.clone(),
                },
            )
        });
        let mut columns: Vec<(u32, ColumnDryRun)> = read.chain(unread).collect();
        columns.sort_by_key(|(at, _)| *at);
        Self {
            file: table.file.to_string(),
            sheet: table.sheet.to_string(),
            is_hidden: table.is_hidden,
            kind: table.kind,
            kinds: table.kind_scores.clone(),
            shape: table.shape.clone(),
            header_row: table.header_row + 1,
            rows: table.rows,
            supplier: table.supplier.clone(),
            columns: columns.into_iter().map(|(_, column)| column).collect(),
            why: table.why.clone(),
        }
    }
}

impl Imported {
    /// How each table was read, column by column; made for looking before anything is kept.
    pub fn dry_run(&self) -> Vec<TableDryRun> {
        self.tables.iter().map(TableDryRun::of).collect()
    }
}
