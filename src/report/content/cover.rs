//! The first page: what to do now, the main figures, how old the data are, what is not known, cautions.

use std::collections::BTreeMap;

use super::words::{asked_for, holds_it, is_complete_from_shelf, sentence};
use super::{Inputs, approvals, chase, data_problems, files, kits, order_now};
use crate::catalogue::Presumption;
use crate::caution;
use crate::plan::{Completion, KitPlan, WhyNoLevel};
use crate::record::TableKind;
use crate::report::model::{Action, ColumnKind, Cover, DataAge, Fact, Value};
use crate::units::Money;

/// Things to do now, at most.
const MAX_ACTIONS: usize = 5;
/// Kits named in one of them, at most.
const MAX_NAMED: usize = 3;

/// Makes the cover.
pub fn cover(inputs: &Inputs<'_>) -> Cover {
    let cautions = caution::REPORT.iter().chain(caution::FITTING);
    Cover {
        facts: facts(inputs),
        actions: actions(inputs),
        data_ages: data_ages(inputs),
        cautions: cautions.map(|text| sentence(text)).collect(),
        unknowns: unknowns(inputs),
    }
}

/// The kit that would hold its machine down longest; kits without an end come first.
pub fn worst_kit<'a>(inputs: &Inputs<'a>) -> Option<&'a KitPlan> {
    inputs
        .plan
        .kits
        .iter()
        .filter(|plan| !plan.accepted.lines.is_empty())
        .max_by(|a, b| {
            let hours = |plan: &KitPlan| {
                plan.accepted
                    .likely()
                    .map_or(f64::INFINITY, |downtime| downtime.production_h)
            };
            // The first of equals wins, so that the order of the tables decides.
            hours(a)
                .total_cmp(&hours(b))
                .then_with(|| b.kit.cmp(&a.kit))
        })
}

/// The longest downtime that is known.
pub fn worst_known_kit<'a>(inputs: &Inputs<'a>) -> Option<&'a KitPlan> {
    let known = inputs
        .plan
        .kits
        .iter()
        .filter(|plan| plan.accepted.running.is_some());
    known.max_by(|a, b| {
        let hours = |plan: &KitPlan| {
            plan.accepted
                .likely()
                .map_or(0.0, |downtime| downtime.production_h)
        };
        hours(a)
            .total_cmp(&hours(b))
            .then_with(|| b.kit.cmp(&a.kit))
    })
}

/// Kits of which every line is on the shelf.
pub fn kits_from_shelf(inputs: &Inputs<'_>) -> usize {
    inputs
        .plan
        .kits
        .iter()
        .filter(|plan| is_complete_from_shelf(&plan.accepted))
        .count()
}

/// Cost of all orders, freight included, and whether every part of it is known.
pub fn order_total(inputs: &Inputs<'_>) -> (Money, bool) {
    let mut total = Money {
        cents: 0,
        currency: inputs.shop.settings.currency,
    };
    let mut is_whole = true;
    for order in &inputs.plan.reorder.orders {
        for amount in [order.goods, order.freight] {
            total.cents += amount.map_or(0, |amount| amount.cents);
            is_whole &= amount.is_some();
        }
    }
    (total, is_whole)
}

/// Order lines that are due at the moment of planning.
pub fn due_count(inputs: &Inputs<'_>) -> usize {
    inputs
        .plan
        .reorder
        .due_lines(inputs.shop.as_of.date())
        .count()
}

fn facts(inputs: &Inputs<'_>) -> Vec<Fact> {
    let integer = |label: &str, number: usize, note: Option<String>| Fact {
        label: label.to_owned(),
        value: Value::Integer(number as i64),
        kind: ColumnKind::Integer,
        note,
    };
    let own = inputs
        .shop
        .catalogue
        .parts()
        .iter()
        .filter(|part| part.is_own)
        .count();
    let shared = inputs.groups.iter().filter(|group| group.len() > 1).count();
    let rejected = inputs.imported.rows_rejected;
    let (total, is_whole) = order_total(inputs);
    vec![
        integer(
            "Rows read",
            inputs.imported.rows_read,
            Some(format!("{rejected} rejected")),
        ),
        integer(
            "Own parts",
            own,
            Some(format!(
                "{} parts in all with those only offered",
                inputs.shop.catalogue.parts().len()
            )),
        ),
        integer(
            "Groups of parts that go in for each other",
            shared,
            Some("in both directions, as they are".to_owned()),
        ),
        integer(
            "Kits that can be built from stock",
            kits_from_shelf(inputs),
            Some(format!("of {}", inputs.plan.kits.len())),
        ),
        integer(
            "Lines to order now",
            due_count(inputs),
            Some(format!(
                "from {}",
                counted(inputs.plan.reorder.orders.len(), "supplier")
            )),
        ),
        Fact {
            label: "Cost of these orders".to_owned(),
            value: Value::Money(total),
            kind: ColumnKind::Money(total.currency),
            note: Some(
                if is_whole {
                    "freight included"
                } else {
                    "known part only: a price or freight is missing"
                }
                .to_owned(),
            ),
        },
    ]
}

fn actions(inputs: &Inputs<'_>) -> Vec<Action> {
    let mut actions = Vec::new();
    let act = |text: String, detail: String, sheet: &str| Action {
        text,
        detail,
        sheet: Some(sheet.to_owned()),
    };
    let lines = due_count(inputs);
    if lines > 0 {
        let (total, is_whole) = order_total(inputs);
        let about = if is_whole { "" } else { " at least" };
        let suppliers: Vec<&str> = inputs
            .plan
            .reorder
            .orders
            .iter()
            .map(|order| order.supplier.as_str())
            .collect();
        actions.push(act(
            format!(
                "Order {} from {}, {total}{about}",
                counted(lines, "line"),
                counted(suppliers.len(), "supplier")
            ),
            suppliers.join(", "),
            order_now::KEY,
        ));
    }
    let open: Vec<&KitPlan> = inputs
        .plan
        .kits
        .iter()
        .filter(|plan| matches!(plan.accepted.completion, Completion::Unknown { .. }))
        .collect();
    if !open.is_empty() {
        let held = open.iter().take(MAX_NAMED).map(|plan| {
            format!(
                "{}: {}",
                inputs.shop.kits[plan.kit].name,
                holds_it(inputs, plan.kit, &plan.accepted)
            )
        });
        let mut held: Vec<String> = held.collect();
        if open.len() > MAX_NAMED {
            held.push(format!("and {} more", open.len() - MAX_NAMED));
        }
        let count = if open.len() == 1 {
            "1 kit has".to_owned()
        } else {
            format!("{} kits have", open.len())
        };
        actions.push(act(
            format!("Ask for lead times: {count} no end without them"),
            held.join("; "),
            kits::KEY,
        ));
    }
    let best = inputs
        .plan
        .kits
        .iter()
        .flat_map(|plan| plan.approvals.iter().map(move |gain| (plan, gain)));
    let best = best.max_by(|a, b| {
        a.1.saved_h
            .unwrap_or(0.0)
            .total_cmp(&b.1.saved_h.unwrap_or(0.0))
    });
    if let Some((plan, gain)) = best {
        let line = &inputs.shop.kits[plan.kit].lines[gain.line];
        let hours = gain.saved_h.map_or_else(
            || "an end at all".to_owned(),
            |hours| format!("{hours:.0} production hours"),
        );
        actions.push(act(
            format!(
                "Judge {}: it would save {hours}",
                super::words::number(inputs.shop, gain.part)
            ),
            format!(
                "{}, in place of {}; not planned before a person approves it",
                super::words::line_name(line),
                asked_for(inputs.shop, line)
            ),
            approvals::KEY,
        ));
    }
    let overdue = inputs
        .plan
        .open_orders
        .iter()
        .filter(|order| order.is_overdue)
        .count();
    if overdue > 0 {
        actions.push(act(
            format!("Chase {}", counted(overdue, "overdue order")),
            "their promised day has passed".to_owned(),
            chase::KEY,
        ));
    }
    if inputs.shop.offers.is_empty() {
        actions.push(act(
            "Add price lists or quotes: without them nothing can be ordered or dated".to_owned(),
            "a table with part, supplier, price and lead time, in the words of your suppliers"
                .to_owned(),
            files::KEY,
        ));
    }
    let problems = inputs.imported.rows_rejected;
    if problems > 0 {
        actions.push(act(
            format!("Mend {}", counted(problems, "rejected row")),
            "each with its cell and reason; other doubtful values stand under data problems"
                .to_owned(),
            data_problems::KEY,
        ));
    }
    actions.truncate(MAX_ACTIONS);
    actions
}

fn data_ages(inputs: &Inputs<'_>) -> Vec<DataAge> {
    let today = inputs.shop.as_of.date();
    let limit = inputs.shop.settings.planning.quote_is_old_after_days;
    let mut ages = Vec::new();
    for table in &inputs.imported.tables {
        if !matches!(table.kind, TableKind::Stock | TableKind::Offers) {
            continue;
        }
        let rows: Vec<chrono::NaiveDate> = match table.kind {
            TableKind::Stock => {
                let of = inputs
                    .shop
                    .stock
                    .iter()
                    .filter(|stock| is_of(&stock.record.place, table));
                of.filter_map(|stock| stock.record.counted_on).collect()
            }
            _ => {
                let of = inputs
                    .shop
                    .offers
                    .iter()
                    .filter(|offer| is_of(&offer.record.place, table));
                of.filter_map(|offer| offer.record.quote_date).collect()
            }
        };
        let oldest = rows.iter().min().copied().or(table.dated);
        let age_days = oldest.map(|date| (today - date).num_days());
        let note = match (oldest, rows.iter().max()) {
            (None, _) => Some("no date in the file: ask how old it is".to_owned()),
            (Some(oldest), Some(newest)) if *newest > oldest => {
                Some(format!("oldest row; newest {newest}"))
            }
            _ => None,
        };
        let sheet = if table.sheet.is_empty() {
            String::new()
        } else {
            format!(", {}", table.sheet)
        };
        ages.push(DataAge {
            what: table.kind.name().to_owned(),
            file: format!("{}{sheet}", table.file),
            dated: oldest,
            age_days,
            is_old: age_days.is_some_and(|days| days > limit),
            note,
        });
    }
    ages
}

fn is_of(place: &crate::place::Place, table: &crate::import::TableRead) -> bool {
    place.file == table.file && place.sheet == table.sheet
}

/// What could not be computed, and what is missing for it.
fn unknowns(inputs: &Inputs<'_>) -> Vec<String> {
    let mut unknowns: Vec<String> = inputs.shop.presumed.iter().map(presumed).collect();
    let has = |kind: TableKind| {
        inputs
            .imported
            .tables
            .iter()
            .any(|table| table.kind == kind)
    };
    for (kind, lacks) in [
        (
            TableKind::Parts,
            "own numbers and their sizes: parts are known from the other tables only",
        ),
        (
            TableKind::Suppliers,
            "which suppliers are approved: nothing is bought from a supplier nobody approved",
        ),
        (
            TableKind::Offers,
            "prices and lead times: nothing can be ordered or dated",
        ),
        (
            TableKind::Stock,
            "what is on the shelf: everything counts as missing",
        ),
        (TableKind::Usages, "usage rates and stock levels"),
        (
            TableKind::Receipts,
            "how late suppliers really are: quotes are taken as they stand, with a wide late case",
        ),
        (
            TableKind::KitLines,
            "rebuilds: no downtime can be projected",
        ),
        (TableKind::Machines, "the cost of an hour down"),
    ] {
        let is_told = kind == TableKind::Suppliers
            && inputs
                .shop
                .presumed
                .iter()
                .any(|presumed| matches!(presumed, Presumption::SuppliersUsable { .. }));
        if !has(kind) && !is_told {
            unknowns.push(format!(
                "No table of {}, so not known: {lacks}.",
                kind.name()
            ));
        }
    }
    let mut without: BTreeMap<String, usize> = BTreeMap::new();
    for (_, why) in &inputs.plan.levels.without {
        if *why != WhyNoLevel::NeverUsed {
            *without.entry(why.to_string()).or_default() += 1;
        }
    }
    unknowns.extend(
        without
            .iter()
            .map(|(why, count)| format!("No stock level for {}: {why}.", counted(*count, "part"))),
    );
    let from_memory = inputs
        .shop
        .catalogue
        .parts()
        .iter()
        .filter(|part| is_from_memory(part))
        .count();
    if from_memory > 0 {
        unknowns.push(format!(
            "{from_memory} parts have a standard size known from memory only (confidence D): measure before fitting; they never go in without checks."
        ));
    }
    if !inputs.plan.reorder.not_ordered.is_empty() {
        unknowns.push(format!(
            "{} without an offer or a lead time: see the sheet `Not planned, and why`.",
            counted(inputs.plan.reorder.not_ordered.len(), "need")
        ));
    }
    for problem in &inputs.imported.problems {
        unknowns.push(format!(
            "File {} could not be read: {}.",
            problem.file, problem.reason
        ));
    }
    unknowns
}

/// What was presumed, and how to settle it.
fn presumed(presumption: &Presumption) -> String {
    match presumption {
        Presumption::RecordsFrom { on, usages } => format!(
            "Usages are presumed to be recorded since {on}, the first of {usages} in the tables: `records_from` in the settings (shop.toml) would say it."
        ),
        Presumption::Currency { currency } => format!(
            "Money is presumed to be in {}, the only currency in the tables: `currency` in the settings (shop.toml) would say it.",
            currency.code()
        ),
        Presumption::MachinesOfKits { kits } => format!(
            "{} no machine and {} presumed to be for the one whose name begins theirs: a column `machine` in the table of kits would say it.",
            if *kits == 1 {
                "1 kit names".to_owned()
            } else {
                format!("{kits} kits name")
            },
            if *kits == 1 { "is" } else { "are" },
        ),
        Presumption::SuppliersUsable { suppliers } => format!(
            "No table says which suppliers are approved, so that {} with offers may be bought from: give a table of suppliers with a column `approved`, or set `suppliers_need_approval = true` in the settings (shop.toml), and nothing is bought from a supplier whom no table approves.",
            if *suppliers == 1 {
                "the one".to_owned()
            } else {
                format!("all {suppliers}")
            }
        ),
    }
}

fn is_from_memory(part: &crate::catalogue::CataloguePart) -> bool {
    let rows = part
        .size
        .as_ref()
        .map(crate::standard::of_size)
        .unwrap_or_default();
    !rows.is_empty() && rows.iter().all(|row| !row.confidence.is_cross_checked())
}

/// A count with its noun: `1 line`, `3 lines`.
fn counted(count: usize, noun: &str) -> String {
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} {noun}{plural}")
}
