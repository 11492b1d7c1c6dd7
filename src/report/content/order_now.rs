//! What to order now, from whom, how many, by when and why.

use super::Inputs;
use super::words::{cross_checked, designation, how, number, reason};
use crate::plan::{ReorderLine, Timing};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, RowFormula, Sheet, Value};
use crate::units::Price;

/// Key of this sheet.
pub const KEY: &str = "order_now";

/// Key of the sheet of later orders.
pub const LATER_KEY: &str = "can_wait";

/// The sheet of what must be ordered today, one row per order line.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = lines(
        inputs,
        Sheet::new(
            KEY,
            "Order now",
            "What has to be ordered today, from whom, and why?",
        ),
        true,
    );
    sheet.empty_text = "Nothing has to be ordered today.".to_owned();
    sheet
}

/// The sheet of what may be ordered later, with the last day for it.
pub fn later_sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = lines(
        inputs,
        Sheet::new(
            LATER_KEY,
            "Can wait",
            "What has to be ordered later, and by when at the latest?",
        ),
        false,
    );
    sheet.empty_text = "Nothing waits for a later order.".to_owned();
    sheet.notes.push("Dates of arrival hold if ordered today; the last day to order counts back from the late arrival.".to_owned());
    sheet
}

/// Order lines that are due today, or those that are not.
fn lines(inputs: &Inputs<'_>, mut sheet: Sheet, is_due: bool) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let unit_price = format!("unit_price_{code}");
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("supplier", "Supplier"),
        Column::text("number", "Our number"),
        Column::text("buy", "Buy"),
        Column::text("designation", "Designation").wrapped(28),
        Column::new(ColumnKind::Quantity, "quantity", "Quantity")
            .with_help("May be changed; the cost follows."),
        Column::text("unit_of_count", "Unit"),
        Column::new(
            ColumnKind::UnitPrice(currency),
            unit_price.clone(),
            "Unit price",
        )
        .with_help("Net, at this quantity, surcharge included, freight left out."),
        Column::new(ColumnKind::Money(currency), format!("cost_{code}"), "Cost")
            .with_formula(RowFormula::product("quantity", unit_price))
            .totalled(),
        Column::text("size_checked", "Size cross-checked")
            .with_help("A three or more open sources, B two, C one, D from memory."),
        Column::new(ColumnKind::Date, "order_by", "Order by"),
        Column::new(ColumnKind::Date, "needed_by", "Needed by"),
        Column::new(ColumnKind::Moment, "here_likely", "Here, likely"),
        Column::new(ColumnKind::Moment, "here_late", "Here, late (1 in 10)"),
        Column::text("rests_on", "Dates rest on").wrapped(26),
        Column::text("why", "Why").wrapped(46),
        Column::text("next_best", "Next best").wrapped(30),
        Column::text("where_read", "Offer read at").wrapped(34),
    ];
    let today = inputs.shop.as_of.date();
    let due = inputs
        .plan
        .reorder
        .lines
        .iter()
        .filter(|line| line.is_due(today) == is_due);
    sheet.rows = due.map(|line| row(inputs, line)).collect();
    sheet
        .rows
        .sort_by_key(|row| row.cells[0].in_words(ColumnKind::Text).into_owned());
    sheet.notes = vec![
        "Quantities are rounded up to the supplier's pack and minimum.".to_owned(),
        "Only parts that go in as they are, or that a person approved for the kit line, are bought.".to_owned(),
    ];
    sheet
}

fn row(inputs: &Inputs<'_>, line: &ReorderLine) -> Row {
    let shop = inputs.shop;
    let buy = &line.buy;
    let unit_price = buy.cost.and_then(|cost| {
        let each = cost.to_units() / buy.ordered;
        Price::from_units(each, 1, cost.currency).ok()
    });
    let next_best = line.next_best.as_ref().map(|choice| {
        let cost = choice
            .cost
            .map_or_else(|| "price unknown".to_owned(), |cost| cost.to_string());
        format!(
            "{}{}: {cost}, likely here {}",
            choice.supplier,
            how(choice.delivery),
            choice.arrival.likely.format("%Y-%m-%d")
        )
    });
    let mut why = reason(inputs, &line.reason);
    if buy.is_old_quote {
        why.push_str(" The quote is old: ask again.");
    }
    if buy.timing != Timing::InTime {
        why.push_str(match buy.timing {
            Timing::LikelyInTime => " May come late.",
            _ => " Comes too late for the day it is needed: see what hurries it.",
        });
    }
    let emphasis = match buy.timing {
        Timing::InTime if !buy.is_old_quote => Emphasis::None,
        Timing::TooLate => Emphasis::Stop,
        _ => Emphasis::Attention,
    };
    Row::new(vec![
        Value::text(format!("{}{}", buy.supplier, how(buy.delivery))),
        Value::text(number(shop, line.part)),
        Value::text(number(shop, buy.part)),
        designation(shop, buy.part),
        Value::Number(buy.ordered),
        Value::text(buy.offer_unit.to_string()),
        unit_price.map_or_else(|| Value::unknown("no price in the offer"), Value::Price),
        buy.cost
            .map_or_else(|| Value::unknown("no price in the offer"), Value::Money),
        cross_checked(shop, buy.part),
        Value::Date(line.order_by),
        line.needed_by.map_or(Value::Empty, Value::Date),
        Value::Moment(buy.arrival.likely),
        Value::Moment(buy.arrival.late),
        Value::text(buy.arrival.basis.to_string()),
        Value::text(why),
        next_best.map_or(Value::Empty, Value::text),
        Value::text(buy.place.to_string()),
    ])
    .with(emphasis)
}
