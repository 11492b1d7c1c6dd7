//! Rows to records: one file per kind of table, and the reader of one row that they share.
//!
//! A reader that cannot get what identifies its row returns [`Rejected`]; a bad value that the record can do
//! without becomes an issue and `None`.

mod approvals;
mod kit_lines;
mod machines;
mod memo;
mod offers;
mod other_ways;
mod parts;
mod planned_rebuilds;
mod quick_offers;
mod reader;
mod receipts;
mod stock;
mod suppliers;
mod table;
mod tasks;
mod usages;

pub use reader::RowReader;
pub use table::{InchDoubt, ReadColumn, TableContext, TableCounts, read_table};
