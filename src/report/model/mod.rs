//! What a report says, before anyone decides how it looks.
//!
//! Belongs here: sheets, columns, typed values, cover, charts, and the check that they fit each other. No
//! renderer changes a value; each shows an unknown value as the word `unknown`, never as 0 and never as blank.

mod chart;
mod check;
mod column;
mod cover;
mod formula;
mod group;
mod sheet;
mod value;

pub use crate::units::grouped;
pub use chart::{Band, Bar, Chart, Drawn, Picture, Point};
pub(crate) use check::KnownSheets;
pub use check::{ModelError, check_report};
pub use column::{Column, ColumnKind};
pub use cover::{Action, Cover, DataAge, Fact, MadeBy, Report};
pub use formula::{RowFormula, SumWhere};
pub use group::ToMake;
pub(crate) use group::{Group, Release};
pub use sheet::{Emphasis, MARK_HEADER, MARK_KEY, Row, Sheet, Total};
pub use value::{SMALL_SHARE, UNKNOWN, Value};

/// What cell A1 of our own workbooks says, so that an import can tell them from the shop's tables.
pub const OWN_REPORT_MARK: &str = "sparewright report";
