//! What each order line rests on: offer, age of the quote, receipts behind the dates, the next best.

use super::Inputs;
use super::order_now::{Which, by_saving, of_supplier};
use super::words::{cross_checked, how, number};
use crate::catalogue::PartId;
use crate::plan::{OfferChoice, ReorderLine};
use crate::report::model::{Column, ColumnKind, Row, Sheet, Value};
use crate::units::Money;

/// The sheet, one row per order line, in the order of the sheets that list them.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        "order_basis",
        "Basis of orders",
        "What does each order line rest on, and what is the next best?",
    );
    sheet.columns = vec![
        Column::text("buy", "Our number"),
        Column::text("supplier", "Supplier").wrapped(18),
        Column::text("size_checked", "Size cross-checked")
            .with_help("A three or more open sources, B two, C one, D from memory."),
        Column::new(ColumnKind::Date, "quote_date", "Quoted"),
        Column::new(ColumnKind::Days, "quote_age_days", "Age of quote"),
        Column::text("lead_time", "Lead time as quoted").wrapped(18),
        Column::text("rests_on", "Dates rest on").wrapped(40),
        Column::text("next_best", "Next best").wrapped(34),
        Column::text("where_read", "Offer read at").wrapped(38),
    ];
    let now = by_saving(inputs, Which::Now).into_iter();
    let others = [Which::Later, Which::NoNeedYet].into_iter();
    let others = others.flat_map(|which| of_supplier(inputs, which));
    let lines = now.map(|(line, _)| line).chain(others);
    sheet.rows = lines.map(|line| row(inputs, line)).collect();
    sheet.empty_text = "Nothing to order.".to_owned();
    sheet
}

fn row(inputs: &Inputs<'_>, line: &ReorderLine) -> Row {
    let buy = &line.buy;
    let offer = &inputs.shop.offers[buy.offer].record;
    let undated = || Value::unknown("no date in the offer or its file");
    let age = offer.quote_date.map_or_else(undated, |date| {
        let days = (inputs.shop.as_of.date() - date).num_days();
        match days {
            ..0 => Value::unknown("quoted after the moment of planning"),
            _ => Value::Number(days as f64),
        }
    });
    let next_best = line.next_best.as_ref().map(|choice| {
        let dearer = waits_dearer(buy, choice);
        let dearer = dearer.map_or_else(String::new, |more| {
            format!("; machines waiting for it count {more} more")
        });
        format!("{}{dearer}", in_words(inputs, choice, Some(buy.part)))
    });
    Row::new(vec![
        Value::text(number(inputs.shop, buy.part)),
        Value::text(buy.supplier.clone()),
        cross_checked(inputs.shop, buy.part),
        offer.quote_date.map_or_else(undated, Value::Date),
        age,
        offer.lead_time.map_or_else(
            || Value::unknown("not quoted"),
            |lead_time| Value::text(lead_time.to_string()),
        ),
        Value::text(buy.arrival.basis.to_string()),
        next_best.map_or(Value::Empty, Value::text),
        Value::text(buy.place.to_string()),
    ])
}

/// A choice in words: from whom, what it costs and when it is here.
pub fn in_words(inputs: &Inputs<'_>, choice: &OfferChoice, asked_for: Option<PartId>) -> String {
    let cost = choice
        .cost
        .map_or_else(|| "price unknown".to_owned(), |cost| cost.to_string());
    // Another number is another thing to order: it is named.
    let part = match asked_for {
        Some(part) if part != choice.part => format!(" ({})", number(inputs.shop, choice.part)),
        _ => String::new(),
    };
    format!(
        "{}{part}{}: {cost}, likely here {}, late {}{}",
        choice.supplier,
        how(choice.delivery),
        choice.arrival.likely.format("%Y-%m-%d"),
        choice.arrival.late.format("%Y-%m-%d"),
        freight(choice)
    )
}

/// Freight that ordering there would add.
fn freight(choice: &OfferChoice) -> String {
    match choice.freight.cents {
        0 => String::new(),
        _ => format!("; freight {} on top", choice.freight),
    }
}

/// What waiting for another offer counts more than for the one that is bought, where that is why it is not the cheaper one.
fn waits_dearer(buy: &OfferChoice, other: &OfferChoice) -> Option<Money> {
    let is_cheaper = other.cost?.cents < buy.cost?.cents;
    let (waits, bought_waits) = (other.waiting?, buy.waiting?);
    (is_cheaper && waits.cents > bought_waits.cents).then_some(Money {
        cents: waits.cents - bought_waits.cents,
        currency: waits.currency,
    })
}
