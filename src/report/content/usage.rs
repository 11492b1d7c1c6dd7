//! What was used of each part, by calendar year.

use std::collections::{BTreeMap, BTreeSet};

use super::Inputs;
use super::words::{designation, number};
use crate::catalogue::{PartId, UsageOfYear};
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
    sheet.columns = vec![
        Column::text("number", "Our number"),
        Column::text("designation", "Designation").wrapped(28),
    ];
    sheet.columns.extend(shown.iter().map(|year| {
        Column::new(
            ColumnKind::Quantity,
            format!("used_{year}"),
            year.to_string(),
        )
    }));
    for (part, of_year) in by_part {
        let mut cells = vec![
            Value::text(number(inputs.shop, part)),
            designation(inputs.shop, part),
        ];
        cells.extend(
            shown
                .iter()
                .map(|year| Value::Number(of_year.get(year).copied().unwrap_or(0.0))),
        );
        sheet.rows.push(Row::new(cells));
    }
    let is_below_0 = |of: &UsageOfYear| of.quantity < 0.0 && shown.contains(&of.year);
    if inputs.usage.iter().any(is_below_0) {
        sheet.notes.push(
            "Below 0 more came back in a year than was used in it; what came back beyond all that was used before counts in no rate."
                .to_owned(),
        );
    }
    if let Some(from) = inputs.shop.settings.records_from {
        sheet.notes.push(format!(
            "Usages were recorded from {from} on; rates divide by the days since then."
        ));
    } else {
        sheet.notes.push("The settings do not say since when usages were recorded (records_from): rates are unknown.".to_owned());
    }
    if years.len() > shown.len() {
        sheet.notes.push(format!(
            "{} earlier years are left out.",
            years.len() - shown.len()
        ));
    }
    sheet.empty_text = "No usages in any table: rates are unknown.".to_owned();
    sheet
}
