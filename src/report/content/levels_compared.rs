//! Levels, old and new: the minimum of the parts table against the planned one.

use super::Inputs;
use super::service_curve::over_budget_in_words;
use super::words::{designation, number};
use crate::plan::{Level, LevelBasis, LevelShelf, LevelShelves, PartPrices};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, Value};
use crate::units::Money;

/// Key of this sheet.
pub const KEY: &str = "levels_old_new";

/// The sheet, one row per part whose level changes or has no minimum yet.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let mut sheet = Sheet::new(
        KEY,
        "Levels, old and new",
        "Which minimum stocks change, and what does that tie up or free?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("number", "Our number"),
        Column::text("designation", "Designation").wrapped(26),
        Column::text("unit_of_count", "Unit"),
        Column::new(ColumnKind::Quantity, "old_min_stock", "Old min. stock"),
        Column::new(ColumnKind::Quantity, "min_stock", "New min. stock"),
        Column::new(ColumnKind::Quantity, "order_quantity", "Order quantity"),
        Column::new(ColumnKind::Quantity, "free", "Free"),
        Column::new(
            ColumnKind::Money(currency),
            format!("ties_up_{code}"),
            "Ties up more",
        )
        .with_help("Difference of the two minimums at the unit price; below 0 it is freed.")
        .totalled(),
        Column::text("note", "Note").wrapped(40),
    ];
    let mut same = 0;
    let shelves = LevelShelves::new(inputs.plan, inputs.shop.as_of.date());
    let prices = PartPrices::new(inputs.shop, inputs.plan);
    for level in inputs.plan.levels.by_part.values() {
        let old = inputs.shop.catalogue.part(level.part).own_min_stock;
        if old.is_some_and(|old| (old - level.kept_min_stock()).abs() < 1e-9)
            || (old.is_none() && level.kept_min_stock() <= 0.0)
        {
            same += 1;
        } else {
            sheet
                .rows
                .push(row(inputs, level, (old, shelves.of(level)), &prices));
        }
    }
    sheet.notes.push(format!(
        "{same} parts keep their minimum or need none; the sheet `Stock levels` has all of them with their turning points and their past."
    ));
    sheet.notes.push("What both would mean for the machines stands on the sheet `The year ahead`. A planner's own figure with reason and date holds.".to_owned());
    sheet.notes.extend(over_budget_in_words(inputs));
    sheet.empty_text = "No minimum stock changes.".to_owned();
    sheet
}

fn row(
    inputs: &Inputs<'_>,
    level: &Level,
    (old, shelf): (Option<f64>, LevelShelf),
    prices: &PartPrices<'_>,
) -> Row {
    let price = prices.of(level.part, level.unit);
    let more = level.kept_min_stock() - old.unwrap_or(0.0);
    let ties_up = price
        .map(|price| Value::Money(Money::rounded(price * more, inputs.shop.settings.currency)));
    let note = note(level);
    let is_own = matches!(&level.why, LevelBasis::Computed(reason) if reason.own.is_some());
    Row::new(vec![
        Value::text(number(inputs.shop, level.part)),
        designation(inputs.shop, level.part),
        Value::text(level.unit.to_string()),
        old.map_or_else(
            || Value::unknown("no minimum in the parts table"),
            Value::Number,
        ),
        Value::Number(level.kept_min_stock()),
        Value::Number(level.order_quantity),
        Value::Number(shelf.counted),
        ties_up.unwrap_or_else(|| Value::unknown("no price")),
        note.map_or(Value::Empty, Value::text),
    ])
    .with(if is_own {
        Emphasis::Attention
    } else {
        Emphasis::None
    })
}

/// What else than the rule set a level.
fn note(level: &Level) -> Option<String> {
    match &level.why {
        LevelBasis::Computed(reason) => {
            let own = reason.own.as_ref().map(ToString::to_string);
            let last = reason.last_buy.as_ref().map(ToString::to_string);
            let kit = reason.raised_for_kit.as_ref();
            let kit = kit.map(|kit| format!("raised for rebuilds of {kit}"));
            last.or(own).or(kit)
        }
        other => Some(other.to_string()),
    }
}
