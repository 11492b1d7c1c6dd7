//! The report as one self-contained page: no outside files, one script of its own that sorts tables, readable on a phone
//! and on paper.
//!
//! Belongs here: structure and looks of the page. Text is escaped by the macros that build the page, and in charts by the
//! crate that draws them; nothing of a cell is ever put in ready-made.

mod chart;
mod page;
mod rebuild_sheet;
mod script;
mod style;
mod table;
mod words;

pub use page::{ROWS_SHOWN, cover_section, html_of};
pub use rebuild_sheet::rebuild_sheets_html;
pub use script::{SCRIPT as PAGE_SCRIPT, SCRIPT_SOURCE as PAGE_SCRIPT_SOURCE};
pub use style::STYLE as PAGE_STYLE;
pub use table::section as sheet_section;
pub use words::unbroken;
