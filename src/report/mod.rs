//! The same tables as workbook, page, CSV and JSON, and writing them as one set.
//!
//! Belongs here: how a report looks and is stored. Does not belong here: any figure that is not already in the
//! [`Report`] handed in, except totals of a column and the check that live formulas give the planned figures.

pub mod content;
mod csv;
pub(crate) mod drawing;
mod html;
mod json;
pub mod model;
mod translate;
mod write;
mod xlsx;

pub use crate::import::formula_text::{read_back, safe_text};
pub use csv::csv_of;
pub use html::{
    PAGE_SCRIPT, PAGE_SCRIPT_SOURCE, PAGE_STYLE, cover_section, html_of, rebuild_sheets_html,
    sheet_section, unbroken,
};
pub use json::{JSON_SCHEMA, json_of};
pub use model::{Report, Sheet, ToMake};
pub use translate::{
    translated, translated_sheet, translated_sheets, untranslated, untranslated_sheets,
};
pub use write::{REPORT_NAME, WriteError, write_made, write_report, write_report_with};
pub use xlsx::{
    OnPaper, WorkbookError, on_paper, rejects_workbook, workbook_of, workbook_to_send_of,
};
