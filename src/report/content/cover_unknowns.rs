//! What could not be computed, what is missing for it, and what was presumed in its place.

use std::collections::BTreeMap;

use super::Inputs;
use super::service_curve::out_of_reach_in_words;
use super::shop_figures::counted;
use super::words::has_work;
use crate::catalogue::Presumption;
use crate::plan::WhyNoLevel;
use crate::record::{LevelsBy, TableKind};

/// What is not known where a kind of table is missing.
const LACKS: [(TableKind, &str); 8] = [
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
];

/// What could not be computed, and what is missing for it.
pub(super) fn unknowns(inputs: &Inputs<'_>) -> Vec<String> {
    let mut unknowns: Vec<String> = inputs.shop.presumed.iter().map(presumed).collect();
    unknowns.extend(missing_tables(inputs));
    unknowns.extend(no_hour_cost(inputs));
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
    unknowns.extend(out_of_reach_in_words(inputs));
    unknowns.extend(work_unknown(inputs));
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
            "{} not ordered, or not in full: see the sheet `Not planned, and why`.",
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

/// What is left open where nothing says what an hour down costs.
fn no_hour_cost(inputs: &Inputs<'_>) -> Option<String> {
    let planned = &inputs.plan.levels;
    if !planned.has_no_hour_cost || planned.by_part.is_empty() {
        return None;
    }
    let instead = match inputs.shop.settings.planning.levels_by {
        LevelsBy::DowntimeCost => {
            "levels follow the service targets instead (`levels_by` asks for the downtime cost)"
        }
        LevelsBy::StockOutPrice | LevelsBy::ServiceTarget => "every hour counts alike",
    };
    Some(format!(
        "No cost of an hour down is known, so that no waiting is told in money, and {instead}: a column `downtime cost` in the table of machines or `downtime_cost_per_hour` in the settings (shop.toml) would say it."
    ))
}

/// Kits whose downtime leaves out the work, because no table gives their tasks.
fn work_unknown(inputs: &Inputs<'_>) -> Option<String> {
    let kits = inputs.plan.kits.iter();
    let without = kits
        .filter(|plan| !has_work(&inputs.shop.kits[plan.kit]))
        .count();
    let subject = match without {
        0 => return None,
        1 => "1 kit has no tasks, so that its downtime is".to_owned(),
        several => format!("{several} kits have no tasks, so that their downtime is"),
    };
    Some(format!(
        "{subject} the wait for parts only, the hours of the work not counted: give a table of tasks (kit, task, hours)."
    ))
}

fn missing_tables<'a>(inputs: &'a Inputs<'_>) -> impl Iterator<Item = String> + 'a {
    let has = |kind: TableKind| {
        let mut tables = inputs.imported.tables.iter();
        tables.any(|table| table.kind == kind)
    };
    let is_told = |kind: TableKind| {
        let mut presumed = inputs.shop.presumed.iter();
        kind == TableKind::Suppliers
            && presumed.any(|of| matches!(of, Presumption::SuppliersUsable { .. }))
    };
    let missing = LACKS
        .iter()
        .filter(move |(kind, _)| !has(*kind) && !is_told(*kind));
    missing.map(|(kind, lacks)| format!("No table of {}, so not known: {lacks}.", kind.name()))
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
