//! What was used of each part, by calendar year.

use std::collections::{BTreeMap, BTreeSet};

use super::Inputs;
use super::words::{designation, number};
use crate::catalogue::PartId;
use crate::plan::{History, failures_by_hours, why_not_by_age};
use crate::record::{MachineRecord, UsageRecord};
use crate::report::model::{Column, ColumnKind, Row, Sheet, Value};

/// Years shown at most, the latest ones.
const MAX_YEARS: usize = 10;

/// The sheet, one row per part with usages, one column per year.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        "usage",
        "Usage by year",
        "What was used, returns taken off?",
    );
    let years: BTreeSet<i32> = inputs.usage.iter().map(|usage| usage.year).collect();
    let shown: Vec<i32> = years.iter().rev().take(MAX_YEARS).rev().copied().collect();
    let mut by_part: BTreeMap<PartId, BTreeMap<i32, f64>> = BTreeMap::new();
    for usage in inputs.usage {
        by_part
            .entry(usage.part)
            .or_default()
            .insert(usage.year, usage.quantity);
    }
    let returned = with_returns(inputs);
    for (part, usages) in &returned {
        // A sum of the year would go below 0 where more came back than was used in it.
        let usages = usages.iter().copied();
        by_part.insert(*part, History::by_year(inputs.shop.as_of.date(), usages));
    }
    sheet.columns = vec![
        Column::text("number", "Our number"),
        Column::text("designation", "Designation").wrapped(28),
        Column::text("class", "Demand").with_help(
            "By month, a label by which nothing is decided: intermittent and lumpy is what is used in less than about three months of four, erratic and lumpy what is taken in quantities that vary much.",
        ),
    ];
    let failures = failures_by_hours(inputs.shop);
    let by_age: BTreeMap<PartId, String> = failures
        .iter()
        .filter_map(|(part, machines)| Some((*part, by_age(inputs, *part, machines)?)))
        .collect();
    sheet.columns.extend(shown.iter().map(|year| {
        Column::new(
            ColumnKind::Quantity,
            format!("used_{year}"),
            year.to_string(),
        )
    }));
    sheet.columns.push(
        Column::new(ColumnKind::Quantity, "counted", "Counts in the rate").with_help(
            "Of all years, without what was used before the records begin, in rebuilds of which another is planned, or as a slip of the keys.",
        ),
    );
    // Few shops record running hours: without any the column would be one of nothing.
    if !by_age.is_empty() {
        sheet.columns.push(Column::text("by_age", "By age").wrapped(40).with_help(
            "Whether the demand is foretold by the ages of what is fitted, and why not: told where five failures or more are recorded on machines with running hours.",
        ));
    }
    for (part, of_year) in by_part {
        let mut cells = vec![
            Value::text(number(inputs.shop, part)),
            designation(inputs.shop, part),
            class(inputs, part),
        ];
        cells.extend(
            shown
                .iter()
                .map(|year| Value::Number(of_year.get(year).copied().unwrap_or(0.0))),
        );
        let demand = inputs.plan.demands.get(&part);
        cells.push(demand.map_or(Value::Empty, |of| Value::Number(of.net_quantity)));
        if !by_age.is_empty() {
            let told = by_age.get(&part).cloned();
            cells.push(told.map_or(Value::Empty, Value::text));
        }
        sheet.rows.push(Row::new(cells));
    }
    sheet.notes = notes(inputs, &shown, years.len(), !returned.is_empty());
    sheet.empty_text = "No usages in any table: rates are unknown.".to_owned();
    sheet
}

/// Usages of the parts of which some came back, as they stand in the shop.
fn with_returns<'a>(inputs: &Inputs<'a>) -> BTreeMap<PartId, Vec<&'a UsageRecord>> {
    let today = inputs.shop.as_of.date();
    let usages = inputs.shop.usages.iter();
    let back = usages.filter(|of| of.record.quantity < 0.0 && of.record.date <= today);
    let mut found: BTreeMap<PartId, Vec<&UsageRecord>> =
        back.map(|of| (of.part, Vec::new())).collect();
    if !found.is_empty() {
        for usage in &inputs.shop.usages {
            if let Some(of_part) = found.get_mut(&usage.part) {
                of_part.push(&usage.record);
            }
        }
    }
    found
}

/// What the figures mean, `shown` of so many years.
fn notes(inputs: &Inputs<'_>, shown: &[i32], years: usize, has_returns: bool) -> Vec<String> {
    let mut notes = Vec::new();
    if has_returns {
        notes.push(
            "A return takes off what was used last before it, in whatever year; what came back beyond all that was used before counts in no rate and in no year."
                .to_owned(),
        );
    }
    if let Some(from) = inputs.shop.settings.records_from {
        notes.push(format!(
            "Usages were recorded from {from} on; rates divide by the days since then."
        ));
    } else {
        notes.push("The settings do not say since when usages were recorded (records_from): rates are unknown.".to_owned());
    }
    if years > shown.len() {
        notes.push(format!(
            "{} earlier years are left out.",
            years - shown.len()
        ));
    }
    notes
}

/// Whether ages foretell a part's demand, and why not; `None` where no such failures are recorded.
fn by_age(inputs: &Inputs<'_>, part: PartId, machines: &[&MachineRecord]) -> Option<String> {
    let demand = inputs.plan.demands.get(&part).map(AsRef::as_ref);
    if demand.is_some_and(|demand| demand.by_lives.is_some()) {
        return Some("foretold by age".to_owned());
    }
    let life = inputs.plan.lives.get(&part);
    let why = why_not_by_age(inputs.shop, (part, machines), demand, life)?;
    Some(format!("not by age: {why}"))
}

/// The class of a part's demand; blank where none of its usages counts.
fn class(inputs: &Inputs<'_>, part: PartId) -> Value {
    let class = inputs.plan.demands.get(&part).and_then(|of| of.class);
    class.map_or(Value::Empty, |class| Value::text(class.to_string()))
}
