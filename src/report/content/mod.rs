//! What the reorder report says: one file per sheet, from the plan and what was read.
//!
//! A new sheet is one file here and one line in `SHEETS`.

mod approvals;
mod chase;
mod cover;
mod cover_actions;
mod cover_unknowns;
mod data_problems;
mod equivalents;
mod files;
mod hurried;
mod hurry_together;
mod kit_lines;
mod kit_plans;
mod kit_study;
mod kits;
mod last_buys;
mod level_report;
mod levels;
mod levels_compared;
mod made_instead;
mod offers_not_used;
mod on_screen;
mod open_lines;
mod order_basis;
mod order_list;
mod order_now;
mod orders;
mod pooling;
mod rebuild_sheet;
mod rejected;
mod rejected_tasks;
mod request;
mod service_curve;
mod shop_figures;
mod summary;
mod surplus;
mod unplanned;
mod usage;
mod what_if;
mod words;
mod year_ahead;

pub use kit_study::kit_report;
pub use kits::sheet as kits_sheet;
pub use level_report::level_report;
pub use order_list::order_report;
pub use rebuild_sheet::{RebuildLine, RebuildSheet, rebuild_sheets};
pub use request::{PurchaseRequest, purchase_requests};
pub use summary::{ORDER_HEADERS, Summary, summary};
pub use what_if::what_if_report;

use std::sync::OnceLock;

use super::model::{Cover, MadeBy, Report, Sheet, ToMake};
use crate::catalogue::{PartId, Shop, UsageOfYear};
use crate::import::Imported;
use crate::interchange::LineAcceptance;
use crate::language::Language;
use crate::parallel;
use crate::plan::{Plan, YearAhead, year_ahead as simulated_year};

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
    /// The year ahead, simulated when a sheet asks for it; see [`Inputs::year`].
    pub(crate) year: &'a OnceLock<Option<YearAhead>>,
}

impl<'a> Inputs<'a> {
    /// The year ahead, today's levels against the planned ones; `None` for a shop without levels or too large a one.
    pub fn year(&self) -> Option<&'a YearAhead> {
        self.year
            .get_or_init(|| simulated_year(self.shop, self.plan))
            .as_ref()
    }
}

/// A report of its own of a few sheets; its cover holds `cautions` and nothing else.
fn few_sheets(
    inputs: &Inputs<'_>,
    title: String,
    cautions: &[&[&str]],
    sheets: Vec<Sheet>,
) -> Report {
    Report {
        title,
        shop: inputs.shop.settings.shop.clone(),
        as_of: inputs.shop.as_of,
        made_by: MadeBy::this_program(),
        language: Language::ENGLISH,
        cover: Cover {
            cautions: cautions.concat().into_iter().map(str::to_owned).collect(),
            ..Cover::default()
        },
        sheets: sheets.into_iter().map(on_screen::marked).collect(),
    }
}

/// Makes one sheet.
type MakesSheet = fn(&Inputs<'_>) -> Sheet;

/// How much a sheet may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Length {
    Short,
    /// A row for every part of the shop and much in it.
    Long,
}

/// The first sheets of the reorder report, in order: the second reads the first.
const ORDERS: [MakesSheet; 2] = [order_now::sheet, orders::sheet];

/// The other sheets, in order; none reads another. Between long ones stand short ones, which are made while the one before
/// is written.
const SHEETS: [(MakesSheet, Length); 25] = [
    (order_now::later_sheet, Length::Short),
    (made_instead::sheet, Length::Short),
    (order_now::no_need_sheet, Length::Short),
    (last_buys::sheet, Length::Short),
    (order_basis::sheet, Length::Short),
    (approvals::sheet, Length::Short),
    (equivalents::sheet, Length::Long),
    (kits::sheet, Length::Short),
    (kit_lines::sheet, Length::Short),
    (kit_plans::sheet, Length::Short),
    (hurried::sheet, Length::Short),
    (hurry_together::sheet, Length::Short),
    (pooling::sheet, Length::Short),
    (levels::sheet, Length::Long),
    (levels_compared::sheet, Length::Short),
    (year_ahead::sheet, Length::Short),
    (service_curve::sheet, Length::Short),
    (chase::sheet, Length::Short),
    (surplus::sheet, Length::Short),
    (unplanned::sheet, Length::Short),
    (offers_not_used::sheet, Length::Short),
    (usage::sheet, Length::Short),
    (data_problems::sheet, Length::Short),
    (rejected::sheet, Length::Short),
    (files::sheet, Length::Short),
];

/// Makes the reorder report.
pub fn reorder_report(inputs: &Inputs<'_>) -> Report {
    let head = reorder_head(inputs);
    let others = SHEETS.iter().map(|(sheet, _)| *sheet);
    let makers: Vec<MakesSheet> = ORDERS.into_iter().chain(others).collect();
    Report {
        sheets: parallel::each(&makers, |sheet| on_screen::marked(sheet(inputs))),
        ..head
    }
}

/// The reorder report without its sheets.
pub fn reorder_head(inputs: &Inputs<'_>) -> Report {
    // Before the sheets, which are made beside each other: a year takes all cores, and nobody may wait for it in turn.
    inputs.year();
    Report {
        title: "Reorder report".to_owned(),
        shop: inputs.shop.settings.shop.clone(),
        as_of: inputs.shop.as_of,
        made_by: MadeBy::this_program(),
        language: Language::ENGLISH,
        cover: cover::cover(inputs),
        sheets: Vec::new(),
    }
}

/// The sheets of the reorder report in order, made when they are asked for; those that read each other come together.
pub fn reorder_sheets<'i, 'a>(
    inputs: &'i Inputs<'a>,
) -> impl Iterator<Item = ToMake<impl FnOnce() -> Vec<Sheet> + use<'i, 'a>>> + use<'i, 'a> {
    let orders = std::iter::once((ORDERS.to_vec(), Length::Short));
    let others = SHEETS.iter().map(|(sheet, length)| (vec![*sheet], *length));
    orders.chain(others).map(move |(sheets, length)| ToMake {
        is_long: length == Length::Long,
        make: move || parallel::each(&sheets, |sheet| on_screen::marked(sheet(inputs))),
    })
}
