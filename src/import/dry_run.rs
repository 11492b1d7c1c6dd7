//! How a folder would be read: every column with its meaning, the evidence and sample values.

use chrono::NaiveDate;

use crate::place::column_letters;
use crate::record::TableKind;

use super::field::Field;
use super::imported::Imported;
use super::options::{ColumnMap, MapScope};
use super::reading::TableRead;
use super::row::TableCounts;
use super::shape::Shape;
use super::table_kind::KindScore;

/// How one table would be read.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct TableDryRun {
    /// File name.
    pub file: String,
    /// Sheet name; empty for text files.
    pub sheet: String,
    /// True for sheets that the user does not see.
    pub is_hidden: bool,
    /// Number of the table on its sheet, from 1; `$C#2` maps column C of the second.
    pub table: u32,
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
    /// Date of the whole list.
    pub dated: Option<NaiveDate>,
    /// Every column with a header or values, from left to right.
    pub columns: Vec<ColumnDryRun>,
    /// Why the table was read so, in words, besides its kind.
    pub why: Vec<String>,
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
    ///
    /// `number` is that of the table on its sheet, from 1.
    pub fn of(table: &TableRead, number: u32) -> Self {
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
            let told = format!("column `{}` is not read: ", column.header);
            let evidence = if column.header.is_empty() {
                "no header"
            } else if table.why.iter().any(|why| why.starts_with(&told)) {
                "of no use to this table"
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
        // The kinds are told with their reasons.
        Self {
            file: table.file.to_string(),
            sheet: table.sheet.to_string(),
            is_hidden: table.is_hidden,
            table: number,
            kind: table.kind,
            kinds: table.kind_scores.clone(),
            shape: table.shape.clone(),
            header_row: table.header_row + 1,
            rows: table.rows,
            supplier: table.supplier.clone(),
            dated: table.dated,
            columns: columns.into_iter().map(|(_, column)| column).collect(),
            why: table.why.clone(),
        }
    }
}

impl Imported {
    /// How each table was read, column by column; made for looking before anything is kept.
    pub fn dry_run(&self) -> Vec<TableDryRun> {
        self.numbered()
            .map(|(number, table)| TableDryRun::of(table, number))
            .collect()
    }

    /// Given mappings that no table had a column for, so that a misspelt one is not taken for used.
    pub fn unused_maps(&self) -> Vec<ColumnMap> {
        let is_used = |map: &&ColumnMap| {
            self.numbered()
                .any(|(number, table)| map.is_used_in(table, number))
        };
        self.given_maps()
            .iter()
            .filter(|map| !matches!(map.scope, MapScope::Shape(_)) && !is_used(map))
            .cloned()
            .collect()
    }

    /// Tables with their numbers on their sheets, from 1.
    fn numbered(&self) -> impl Iterator<Item = (u32, &TableRead)> {
        let is_same = |a: &TableRead, b: &TableRead| a.file == b.file && a.sheet == b.sheet;
        let mut number = 0;
        self.tables.iter().enumerate().map(move |(at, table)| {
            let before = at.checked_sub(1).map(|before| &self.tables[before]);
            match before.filter(|before| is_same(before, table)) {
                // Another reading of the same table.
                Some(before) if before.is_of_rows(&table.file, &table.sheet, table.header_row) => {}
                Some(_) => number += 1,
                None => number = 1,
            }
            (number, table)
        })
    }
}
