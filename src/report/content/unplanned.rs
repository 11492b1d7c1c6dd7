//! What could not be planned, and what to give first: lead times, offers, days of records.

use super::Inputs;
use super::words::{designation, line_name, number};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, Value};

/// Key of this sheet.
pub const KEY: &str = "not_planned";

/// The sheet: needs without a source, parts without a level, offers not used.
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
            Value::text(if need.is_some() {
                "needed for a planned rebuild"
            } else {
                "at its reorder point"
            }),
            not.part
                .map_or(Value::Empty, |part| Value::text(number(shop, part))),
            not.part
                .map_or(Value::Empty, |part| designation(shop, part)),
            Value::Number(not.wanted),
            Value::text(not.why.to_string()),
            place.map_or(Value::Empty, Value::text),
        ];
        sheet.rows.push(Row::new(row).with(Emphasis::Stop));
    }
    for offer in &inputs.plan.unusable_offers {
        sheet.rows.push(Row::new(vec![
            Value::text("offer not used"),
            Value::text(number(shop, offer.part)),
            designation(shop, offer.part),
            Value::Empty,
            Value::text(format!(
                "{}: {}",
                shop.offers[offer.offer].record.supplier, offer.why
            )),
            Value::text(offer.place.to_string()),
        ]));
    }
    for (part, why) in &inputs.plan.levels.without {
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
    sheet.empty_text = "Everything could be planned.".to_owned();
    sheet
}
