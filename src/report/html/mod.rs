//! The report as one self-contained page: no outside files, no script, readable on a phone and on paper.
//!
//! Belongs here: structure and looks of the page. Text is escaped by the macros that build the page; nothing is
//! ever put in ready-made.

mod chart;
mod page;
mod rebuild_sheet;
mod style;
mod table;

pub use page::{cover_section, html_of};
pub use rebuild_sheet::rebuild_sheets_html;
pub use style::STYLE as PAGE_STYLE;
pub use table::section as sheet_section;
