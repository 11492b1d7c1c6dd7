//! Offers that nothing is bought from, and why.

use super::Inputs;
use super::words::{designation, number};
use crate::report::model::{Column, Row, Sheet, Value};

/// The sheet, one row per offer.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        "offers_not_used",
        "Offers not used",
        "Which offers is nothing bought from, and why?",
    );
    sheet.columns = vec![
        Column::text("supplier", "Supplier"),
        Column::text("number", "Part"),
        Column::text("designation", "Designation").wrapped(28),
        Column::text("why", "Why").wrapped(60),
        Column::text("where_read", "Read at").wrapped(44),
    ];
    for offer in &inputs.plan.unusable_offers {
        sheet.rows.push(Row::new(vec![
            Value::text(inputs.shop.offers[offer.offer].record.supplier.to_string()),
            Value::text(number(inputs.shop, offer.part)),
            designation(inputs.shop, offer.part),
            Value::text(offer.why.to_string()),
            Value::text(offer.place.to_string()),
        ]));
    }
    sheet.empty_text = "Every offer can be bought from.".to_owned();
    sheet
}
