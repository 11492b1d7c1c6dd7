//! Minimum stock, reorder point and order quantity of each own part, and why this number and not one less.

use super::Inputs;
use super::words::{designation, number};
use crate::plan::{Level, LevelBasis};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, Value};

/// The sheet, one row per part with a level.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        "levels",
        "Stock levels",
        "How many to keep, and why not one less?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("number", "Our number"),
        Column::text("designation", "Designation").wrapped(26),
        Column::new(ColumnKind::Quantity, "free", "Free"),
        Column::new(ColumnKind::Quantity, "on_order", "On order"),
        Column::new(ColumnKind::Quantity, "reorder_point", "Reorder point")
            .with_help("Order when free and on order fall to this."),
        Column::new(ColumnKind::Quantity, "min_stock", "Min. stock"),
        Column::new(ColumnKind::Quantity, "order_quantity", "Order quantity"),
        Column::text("unit_of_count", "Unit"),
        Column::new(ColumnKind::Quantity, "usage_per_year", "Usage a year"),
        Column::new(ColumnKind::Days, "lead_days", "Mean lead time"),
        Column::new(ColumnKind::Share, "service_share", "Demands met"),
        Column::new(ColumnKind::Share, "service_one_less_share", "With one less"),
        Column::new(ColumnKind::Share, "target_share", "Target"),
        Column::text("why", "Why").wrapped(70),
    ];
    sheet.rows = inputs
        .plan
        .levels
        .by_part
        .values()
        .map(|level| row(inputs, level))
        .collect();
    sheet.notes = vec![
        "Demand in the lead time is Poisson, or negative binomial where quantities vary; the reorder point is the smallest at which the share of demands met reaches the target.".to_owned(),
        "Order quantities are economic quantities (square-root formula), rounded up to pack and minimum and capped by shelf life.".to_owned(),
    ];
    sheet.empty_text =
        "No levels: set records_from in the settings, and give usages and lead times.".to_owned();
    sheet
}

fn row(inputs: &Inputs<'_>, level: &Level) -> Row {
    let free = inputs
        .plan
        .stock
        .by_part
        .get(&level.part)
        .map_or(0.0, crate::plan::PartStock::free);
    let open = inputs
        .plan
        .open_orders
        .iter()
        .filter(|order| order.part == level.part);
    // Adding 0 turns the -0 of an empty sum into 0.
    let on_order = open.map(|order| order.quantity).sum::<f64>() + 0.0;
    let own_minimum = || Value::unknown("only a planner's own minimum, nothing computed");
    let (usage, lead, share, less, target) = match &level.why {
        LevelBasis::Computed(reason) => (
            match reason.demand.rate {
                crate::plan::Rate::Known { pieces_per_day } => {
                    Value::Number(pieces_per_day * 365.0)
                }
                _ => Value::unknown("no days of records"),
            },
            Value::Number(reason.lead_days),
            Value::Number(reason.share_met),
            reason
                .share_met_with_one_less
                .map_or(Value::Empty, Value::Number),
            Value::Number(reason.target_share),
        ),
        LevelBasis::OwnMinimum { .. } => (
            own_minimum(),
            own_minimum(),
            own_minimum(),
            Value::Empty,
            Value::Empty,
        ),
    };
    let is_due = free + on_order <= level.reorder_point;
    Row::new(vec![
        Value::text(number(inputs.shop, level.part)),
        designation(inputs.shop, level.part),
        Value::Number(free),
        Value::Number(on_order),
        Value::Number(level.reorder_point),
        Value::Number(level.min_stock),
        Value::Number(level.order_quantity),
        Value::text(level.unit.to_string()),
        usage,
        lead,
        share,
        less,
        target,
        Value::text(level.why.to_string()),
    ])
    .with(if is_due {
        Emphasis::Attention
    } else {
        Emphasis::None
    })
}
