//! What could not be planned, and what to give first: lead times, offers, days of records.

use super::Inputs;
use super::words::{designation, line_name, number, way};
use crate::plan::{RebuildNeed, WhyNoChoice, WhyNoLevel};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, Value};

/// Key of this sheet.
pub const KEY: &str = "not_planned";

/// The sheet: needs without a source, and parts whose level is not known.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let shop = inputs.shop;
    let mut sheet = Sheet::new(
        KEY,
        "Not planned, and why",
        "What is missing before these can be planned?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("about", "About"),
        Column::text("number", "Part"),
        Column::text("designation", "Designation").wrapped(28),
        Column::new(ColumnKind::Quantity, "wanted", "Wanted"),
        Column::text("why", "Why").wrapped(60),
        Column::text("where", "Where").wrapped(44),
    ];
    for not in &inputs.plan.reorder.not_ordered {
        let need = not.need.and_then(|need| inputs.plan.needs.get(need));
        let place = need.map(|need| line_name(&shop.kits[need.kit].lines[need.line]));
        let row = vec![
            Value::text(match (need, not.why) {
                (Some(_), _) => "needed for a planned rebuild",
                (None, WhyNoChoice::AfterService) => "last buy",
                (None, _) => "at its reorder point",
            }),
            not.part
                .map_or(Value::Empty, |part| Value::text(number(shop, part))),
            not.part
                .map_or(Value::Empty, |part| designation(shop, part)),
            Value::Number(not.wanted),
            Value::text(format!("{}{}", not.why, other_ways(inputs, need))),
            place.map_or(Value::Empty, Value::text),
        ];
        sheet.rows.push(Row::new(row).with(Emphasis::Stop));
    }
    let without = &inputs.plan.levels.without;
    for (part, why) in without
        .iter()
        .filter(|(_, why)| *why != WhyNoLevel::NeverUsed)
    {
        sheet.rows.push(Row::new(vec![
            Value::text("no stock level"),
            Value::text(number(shop, *part)),
            designation(shop, *part),
            Value::Empty,
            Value::text(why.to_string()),
            shop.catalogue
                .part(*part)
                .places
                .first()
                .map_or(Value::Empty, |place| Value::text(place.to_string())),
        ]));
    }
    let never = without
        .iter()
        .filter(|(_, why)| *why == WhyNoLevel::NeverUsed)
        .count();
    if never > 0 {
        sheet.notes.push(format!("{never} own parts were never used in the records and have no level: no usage is no reason to stock them, nor one not to."));
    }
    sheet.empty_text = "Everything could be planned.".to_owned();
    sheet
}

/// Ways other than buying that hold for the line of a need.
fn other_ways(inputs: &Inputs<'_>, need: Option<&RebuildNeed>) -> String {
    let Some(need) = need else {
        return String::new();
    };
    let line = &inputs.shop.kits[need.kit].lines[need.line];
    let ways = line.other_ways.iter().chain(
        inputs
            .shop
            .other_ways
            .iter()
            .filter(|(part, _)| Some(*part) == need.part)
            .map(|(_, way)| way),
    );
    let ways: Vec<String> = ways
        .map(|other| {
            let hours = other.hours.map_or_else(
                || "hours not stated".to_owned(),
                |hours| format!("{hours} h"),
            );
            format!("{} ({hours})", way(other.kind))
        })
        .collect();
    if ways.is_empty() {
        String::new()
    } else {
        format!("; it can be {}", ways.join(" or "))
    }
}
