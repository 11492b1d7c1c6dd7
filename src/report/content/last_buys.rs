//! Last buys: parts whose machines leave service within a year, with what to buy once before.

use super::Inputs;
use super::words::{designation, number};
use crate::plan::LevelBasis;
use crate::report::model::{Column, ColumnKind, Row, Sheet, Value};

/// The sheet, one row per part.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        "last_buys",
        "Last buys",
        "What to buy once before its machines leave service?",
    );
    sheet.columns = vec![
        Column::text("number", "Our number"),
        Column::text("designation", "Designation").wrapped(26),
        Column::new(ColumnKind::Date, "until", "Last day in service"),
        Column::new(ColumnKind::Quantity, "expected", "Used until then"),
        Column::new(ColumnKind::Quantity, "wanted", "Wanted in all"),
        Column::new(ColumnKind::Quantity, "buy", "To buy"),
        Column::new(ColumnKind::Share, "enough_share", "Enough in"),
    ];
    for level in inputs.plan.levels.by_part.values() {
        let LevelBasis::Computed(reason) = &level.why else {
            continue;
        };
        let Some(last) = &reason.last_buy else {
            continue;
        };
        let no_price = "no price, so that going without cannot be weighed";
        sheet.rows.push(Row::new(vec![
            Value::text(number(inputs.shop, level.part)),
            designation(inputs.shop, level.part),
            Value::Date(last.until),
            Value::Number(last.expected),
            Value::number_or(last.wanted, no_price),
            match last.not_bought.filter(|_| last.buys_nothing()) {
                Some(why) => Value::number_or(None, why.to_string()),
                None => Value::number_or(last.buy, no_price),
            },
            Value::number_or(last.enough_share, no_price),
        ]));
    }
    sheet.notes = vec![
        "What is still to buy stands on the sheet `Order now`, with its supplier and price."
            .to_owned(),
    ];
    sheet.empty_text = "No machine has a last day within a year.".to_owned();
    sheet
}
