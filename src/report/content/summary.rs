//! The short summary at the end of a run.

use super::open_lines::has_cause;
use super::order_now::{Which, by_saving};
use super::shop_figures::{
    counted, due_count, kits_from_shelf, order_total, worst_kit, worst_known_kit,
};
use super::words::{designation, has_work, holds_it, how, number};
use super::{Inputs, approvals, cover_actions};
use crate::plan::{Completion, KitPlan, ReorderLine, WhyNoLevel};
use crate::report::model::ColumnKind;

/// Lines to order that are listed; the rest stands in the workbook.
const SHOWN: usize = 8;

/// The summary: approvals that would pay, rows, parts, kits, what holds a machine longest, what to order now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Summary {
    /// The shop and the moment of planning.
    pub head: String,
    /// A sentence each, behind the word it begins with.
    pub lines: Vec<(&'static str, String)>,
    /// What to order now, what saves most first: quantity, part, designation, supplier, cost, likely and late arrival.
    pub orders: Vec<Vec<String>>,
    /// Order lines left out.
    pub more: usize,
}

/// Headers of [`Summary::orders`].
pub const ORDER_HEADERS: [&str; 7] = [
    "quantity",
    "part",
    "designation",
    "supplier",
    "cost",
    "likely here",
    "late",
];

/// Makes the summary.
pub fn summary(inputs: &Inputs<'_>) -> Summary {
    let shop = inputs.shop;
    let parts = shop.catalogue.parts();
    let own = parts.iter().filter(|part| part.is_own).count();
    let shared = inputs.groups.iter().filter(|group| group.len() > 1).count();
    let head = format!(
        "{}, as of {}",
        shop.settings.shop,
        shop.as_of.format("%Y-%m-%d %H:%M")
    );
    let imported = inputs.imported;
    let rows = format!(
        "{} read, {} rejected; {}, {} skipped, {} could not be read",
        imported.rows_read,
        imported.rows_rejected,
        counted(imported.tables.len(), "table"),
        counted(imported.skipped.len(), "file"),
        imported.problems.len(),
    );
    let groups = match shared {
        1 => "1 group of two or more goes".to_owned(),
        several => format!("{several} groups of two or more go"),
    };
    let parts = format!(
        "{own} own, {} offered only; {groups} in for each other as they are",
        parts.len() - own
    );
    let kits = match inputs.plan.kits.len() {
        0 => "none in any table: no downtime can be projected".to_owned(),
        kits => format!(
            "{} of {kits} can be built from stock today (each taken alone)",
            kits_from_shelf(inputs)
        ),
    };
    let open = cover_actions::approval(inputs);
    let mut lines: Vec<(&'static str, String)> = Vec::new();
    lines.extend(open.map(|open| {
        (
            "Approvals",
            format!("{}; see `Approvals that would pay`", open.text),
        )
    }));
    lines.extend([("Rows", rows), ("Parts", parts), ("Kits", kits)]);
    let (worst, known) = (worst_kit(inputs), worst_known_kit(inputs));
    let known = known.filter(|plan| worst.is_none_or(|worst| worst.kit != plan.kit));
    let held = worst.into_iter().chain(known);
    lines.extend(held.map(|plan| ("Longest", held_down(inputs, plan))));
    let problems = imported.problems.iter();
    lines.extend(problems.map(|of| (of.label(), format!("{}: {}", of.file, of.reason))));
    let count = due_count(inputs);
    lines.push(match first_of_the_cover(inputs, count) {
        Some(action) => ("Do now", action),
        None => ("Order now", order_line(inputs, count)),
    });
    let due = by_saving(inputs, Which::Now).into_iter();
    Summary {
        head,
        lines,
        orders: due
            .take(SHOWN)
            .map(|(line, _)| order(inputs, line))
            .collect(),
        more: count.saturating_sub(SHOWN),
    }
}

fn held_down(inputs: &Inputs<'_>, plan: &KitPlan) -> String {
    let name = &inputs.shop.kits[plan.kit].name;
    let held_by = holds_it(inputs, plan.kit, &plan.accepted);
    match plan.accepted.likely() {
        // Every line has a day: its tasks are what nobody can put in order.
        None if matches!(plan.accepted.completion, Completion::Known { .. }) => {
            format!("{name}: no end known, a task waits for itself or for one that has no row")
        }
        None if has_cause(inputs, plan, |cause| cause.words().is_some()) => {
            format!("{name}: no end known, held by {held_by}")
        }
        None => {
            format!("{name}: no end known, no source with a lead time for {held_by}")
        }
        Some(downtime) => {
            let cost = downtime
                .cost
                .map_or_else(|| "cost unknown".to_owned(), |cost| cost.to_string());
            let what = match has_work(&inputs.shop.kits[plan.kit]) {
                true => "down",
                false => "of waiting for parts, the work not counted",
            };
            format!(
                "{name}, if it went down now: likely {:.0} production hours {what} ({cost}), running again {}, held by {held_by}",
                downtime.production_h,
                downtime.up.format("%Y-%m-%d %H:%M")
            )
        }
    }
}

/// What the cover asks for first where no order is due only because something is not known: "nothing" would read as if
/// all were well.
fn first_of_the_cover(inputs: &Inputs<'_>, due: usize) -> Option<String> {
    let plan = inputs.plan;
    let mut without = plan.levels.without.iter();
    let is_unknown = inputs.shop.offers.is_empty()
        || !plan.reorder.not_ordered.is_empty()
        || without.any(|(_, why)| *why != WhyNoLevel::NeverUsed);
    // Approvals have a line of their own.
    let mut actions = cover_actions::actions(inputs).into_iter();
    let first = actions.find(|of| of.sheet.as_deref() != Some(approvals::KEY))?;
    (due == 0 && is_unknown).then_some(first.text)
}

fn order_line(inputs: &Inputs<'_>, count: usize) -> String {
    if count == 0 {
        return "nothing".to_owned();
    }
    let (total, is_whole) = order_total(inputs);
    let about = if is_whole {
        "freight included"
    } else {
        "as far as it is known: a price or freight is missing"
    };
    format!(
        "{} from {}, {}, {about}",
        counted(count, "line"),
        counted(inputs.plan.reorder.orders.len(), "supplier"),
        total
    )
}

fn order(inputs: &Inputs<'_>, line: &ReorderLine) -> Vec<String> {
    let buy = &line.buy;
    vec![
        buy.offer_unit.counted(buy.ordered),
        number(inputs.shop, buy.part),
        designation(inputs.shop, buy.part)
            .in_words(ColumnKind::Text)
            .into_owned(),
        format!("{}{}", buy.supplier, how(buy.delivery)),
        buy.cost
            .map_or_else(|| "unknown".to_owned(), |cost| cost.to_string()),
        buy.arrival.likely.format("%Y-%m-%d %H:%M").to_string(),
        buy.arrival.late.format("%Y-%m-%d").to_string(),
    ]
}
