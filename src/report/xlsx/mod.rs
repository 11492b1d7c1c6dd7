//! The report as a workbook; the only place that knows the crate that writes workbooks.
//!
//! Belongs here: styles, widths, cover, tables and charts of the workbook. Every look is readable in grey print:
//! colour only repeats what a sign and a word already say.

mod cell;
mod chart;
mod cover;
mod cursor;
mod fitting;
mod letter;
mod paper;
mod quoted_title;
mod rejects;
mod style;
mod table;
mod width;
mod workbook;
mod written;

pub use paper::{OnPaper, on_paper};
pub use rejects::rejects_workbook;
pub use workbook::{
    WorkbookError, workbook_of, workbook_to_send_of, write_workbook, write_workbook_of,
};
