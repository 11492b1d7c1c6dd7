//! What the reorder report says: one file per sheet, from the plan and what was read.
//!
//! A new sheet is one file here and one line in [`reorder_report`].

mod approvals;
mod chase;
mod cover;
mod data_problems;
mod equivalents;
mod files;
mod hurry_together;
mod kit_lines;
mod kit_plans;
mod kit_study;
mod kits;
mod last_buys;
mod level_report;
mod levels;
mod levels_compared;
mod offers_not_used;
mod order_basis;
mod order_list;
mod order_now;
mod orders;
mod pooling;
mod rebuild_sheet;
mod rejected;
mod request;
mod service_curve;
mod summary;
mod surplus;
mod unplanned;
mod usage;
mod what_if;
mod words;
mod year_ahead;

pub use kit_study::kit_report;
pub use level_report::level_report;
pub use order_list::order_report;
pub use rebuild_sheet::{RebuildLine, RebuildSheet, rebuild_sheets};
pub use request::{PurchaseRequest, purchase_requests};
pub use summary::{ORDER_HEADERS, Summary, summary};
pub use what_if::what_if_report;

use super::model::{MadeBy, Report};
use crate::catalogue::{PartId, Shop, UsageOfYear};
use crate::import::Imported;
use crate::interchange::LineAcceptance;
use crate::language::Language;
use crate::plan::{Plan, YearAhead};

/// Everything a report is made of.
#[derive(Debug, Clone, Copy)]
pub struct Inputs<'a> {
    /// What was read.
    pub imported: &'a Imported,
    /// The shop as of the moment of planning.
    pub shop: &'a Shop,
    /// What is accepted on each kit line.
    pub acceptances: &'a [LineAcceptance],
    /// Groups of parts that go in for each other as they are.
    pub groups: &'a [Vec<PartId>],
    /// The plan.
    pub plan: &'a Plan,
    /// Usages by year.
    pub usage: &'a [UsageOfYear],
    /// The year ahead, today's levels against the planned ones; `None` where it is not simulated.
    pub year: Option<&'a YearAhead>,
}

/// Makes the reorder report.
pub fn reorder_report(inputs: &Inputs<'_>) -> Report {
    Report {
        title: "Reorder report".to_owned(),
        shop: inputs.shop.settings.shop.clone(),
        as_of: inputs.shop.as_of,
        made_by: MadeBy::this_program(),
        language: Language::ENGLISH,
        cover: cover::cover(inputs),
        sheets: vec![
            order_now::sheet(inputs),
            orders::sheet(inputs),
            order_now::later_sheet(inputs),
            last_buys::sheet(inputs),
            order_basis::sheet(inputs),
            approvals::sheet(inputs),
            kits::sheet(inputs),
            kit_lines::sheet(inputs),
            kit_plans::sheet(inputs),
            hurry_together::sheet(inputs),
            equivalents::sheet(inputs),
            pooling::sheet(inputs),
            levels::sheet(inputs),
            levels_compared::sheet(inputs),
            year_ahead::sheet(inputs),
            service_curve::sheet(inputs),
            chase::sheet(inputs),
            surplus::sheet(inputs),
            unplanned::sheet(inputs),
            offers_not_used::sheet(inputs),
            usage::sheet(inputs),
            data_problems::sheet(inputs),
            rejected::sheet(inputs),
            files::sheet(inputs),
        ],
    }
}
