//! What each hurried delivery that an offer names at a price saves on its kit line, against what it costs.

use super::Inputs;
use super::words::{asked_for, money, number};
use crate::plan::{HurriedWay, KitPlan};
use crate::report::model::{Column, ColumnKind, Row, Sheet, Value};
use crate::units::Currency;

/// The sheet, one row per hurried delivery of an offer for a line that is short.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        "hurried",
        "Hurried deliveries offered",
        "What does each hurried delivery save on its line, and what does it cost?",
    );
    sheet.columns = columns(inputs.shop.settings.currency);
    for plan in &inputs.plan.kits {
        let ways = plan.hurried.iter();
        sheet.rows.extend(ways.map(|of| row(inputs, plan, of)));
    }
    sheet.notes = vec![
        "Each kit is planned anew with the delivery and without it, whatever else that changes; saved is what the best plan with it has less than the best one without, on average over all cases, if the machine went down now.".to_owned(),
        "Below 0 it costs more than it saves, or what else is offered is here sooner. A hurried delivery without a surcharge stands under `Data problems`; the command `kit` and the page say what asking for it would save.".to_owned(),
    ];
    sheet.empty_text =
        "No offer names a hurried delivery with its surcharge for a line that is short.".to_owned();
    sheet
}

fn columns(currency: Currency) -> Vec<Column> {
    let code = currency.code().to_ascii_lowercase();
    let sum = |key: &str, header: &str| {
        Column::new(ColumnKind::Money(currency), format!("{key}_{code}"), header)
    };
    vec![
        Column::text("kit", "Kit").wrapped(30),
        Column::text("line", "Line"),
        Column::text("asks_for", "Asks for").wrapped(34),
        Column::text("part", "Part"),
        Column::text("supplier", "Supplier"),
        sum("surcharge", "Surcharge").with_help("For one order, whatever its quantity."),
        Column::new(ColumnKind::Moment, "here_likely", "Here, likely"),
        Column::new(
            ColumnKind::Moment,
            "running",
            "Running again with it, likely",
        ),
        Column::new(ColumnKind::Hours, "saved_h", "Production hours saved")
            .with_help("On average over all cases, if the machine went down now."),
        sum("saved_hours", "Cost of these hours"),
        sum("dearer", "Paid more for it")
            .with_help("Goods, surcharges and freight of the best plan with it, less those of the best one without."),
        sum("saved", "Saved in all"),
        Column::new(ColumnKind::Flag, "planned", "In the plan"),
        Column::text("offer", "Offer").wrapped(30),
    ]
}

fn row(inputs: &Inputs<'_>, plan: &KitPlan, of: &HurriedWay) -> Row {
    let line = &inputs.shop.kits[plan.kit].lines[of.line];
    let no_end = match of.running {
        None => "the kit has no end, even with it",
        Some(_) => "the kit has no end without it",
    };
    let unless_open = |sum, why| match of.saved_h {
        None => Value::unknown(no_end),
        Some(_) => money(sum, why),
    };
    Row::new(vec![
        Value::text(line.record.kit.clone()),
        Value::text(line.record.line.clone()),
        Value::text(asked_for(inputs.shop, line)),
        Value::text(number(inputs.shop, of.part)),
        Value::text(of.supplier.clone()),
        Value::Money(of.surcharge),
        Value::Moment(of.arrival.likely),
        of.running.map_or_else(
            || Value::unknown(no_end),
            |running| Value::Moment(running.p50),
        ),
        of.saved_h
            .map_or_else(|| Value::unknown(no_end), Value::Number),
        unless_open(of.saved_cost, "no downtime cost for the machine"),
        unless_open(of.more, "a price or a source is missing"),
        unless_open(of.saved, "a price or downtime cost is missing"),
        Value::Flag(of.is_planned),
        Value::text(of.place.to_string()),
    ])
}
