//! Open approvals that would bring a machine back sooner, best first.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use super::Inputs;
use super::words::{asked_for, designation, money, number, way};
use crate::interchange::LineAcceptance;
use crate::plan::{ApprovalGain, KitPlan, Settling, SettlingGain, WayGain};
use crate::report::model::{Column, ColumnKind, Row, Sheet, Value};
use crate::units::Money;

/// Key of this sheet.
pub const KEY: &str = "approvals_that_would_pay";

/// The sheet, one row per open approval, of a substitute, a way, a supplier or a rate, that saves hours or money.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let mut sheet = Sheet::new(
        KEY,
        "Approvals that would pay",
        "Which substitute, supplier or way is worth a person's judgement, and what would it save?",
    );
    sheet.columns = vec![
        Column::text("kit", "Kit").wrapped(30),
        Column::text("line", "Line"),
        Column::text("asks_for", "Asks for").wrapped(34),
        Column::text("substitute", "Substitute"),
        Column::text("designation", "Designation").wrapped(24),
        Column::new(ColumnKind::Moment, "running", "Running again with it"),
        Column::new(ColumnKind::Hours, "saved_h", "Production hours saved")
            .with_help("In the likely case, if the machine went down now."),
        Column::new(
            ColumnKind::Money(currency),
            format!("saved_{code}"),
            "Saved in all",
        )
        .with_help("On average over all cases: purchases and hours down."),
        Column::text("checks", "Check before approving").wrapped(50),
        Column::text("against", "What stands against it").wrapped(60),
    ];
    let acceptances = inputs.acceptances.iter();
    let by_line: BTreeMap<(usize, usize), &LineAcceptance> =
        acceptances.map(|of| ((of.kit, of.line), of)).collect();
    let mut rows: Vec<(Worth, Row)> = Vec::new();
    for (kit, gain) in ranked(inputs) {
        let line = &inputs.shop.kits[kit].lines[gain.line];
        let acceptance = by_line.get(&(kit, gain.line));
        let open = acceptance.and_then(|of| of.open.iter().find(|open| open.part == gain.part));
        let judgement = open.map(|open| &open.judgement);
        let saved = gain.saved_h.map_or_else(
            || Value::unknown("the kit has no end without it"),
            Value::Number,
        );
        let row = Row::new(vec![
            Value::text(line.record.kit.clone()),
            Value::text(line.record.line.clone()),
            Value::text(asked_for(inputs.shop, line)),
            Value::text(number(inputs.shop, gain.part)),
            designation(inputs.shop, gain.part),
            Value::Moment(gain.up),
            saved,
            money(gain.saved, "hours or downtime cost are unknown"),
            judgement.map_or(Value::Empty, |judgement| {
                Value::text(judgement.before_fitting())
            }),
            judgement.map_or(Value::Empty, |judgement| Value::text(judgement.against())),
        ]);
        rows.push(((gain.saved_h, gain.saved), row));
    }
    for plan in &inputs.plan.kits {
        let ways = plan.open_ways.iter();
        rows.extend(ways.map(|gain| ((gain.saved_h, gain.saved), way_row(inputs, plan, gain))));
        let settling = plan.settling.iter();
        rows.extend(settling.map(|gain| {
            let row = settling_row(inputs, plan, gain);
            ((gain.saved_h, gain.saved), row)
        }));
    }
    // Stable: equals stay in the order of substitutes, ways and what is settled.
    rows.sort_by(|(one, _), (other, _)| by_worth(one, other));
    sheet.rows = rows.into_iter().map(|(_, row)| row).collect();
    sheet.notes = vec![
        "What is saved holds if the machine went down now, not for a rebuild with a later day: hours in the likely case, money on average over all cases, with what is bought.".to_owned(),
        "None of these is planned or bought before a person has approved it for that line; write the approval into the approvals table.".to_owned(),
    ];
    let settling = || inputs.plan.kits.iter().flat_map(|plan| &plan.settling);
    let is_rate = |gain: &SettlingGain| matches!(gain.settling, Settling::Rate(_));
    if settling().any(|gain| !is_rate(gain)) {
        (sheet.notes).push("A supplier is approved in the suppliers table.".to_owned());
    }
    if settling().any(is_rate) {
        sheet.notes.push("A rate of exchange stands under exchange_rates of the settings; what a rate would gain is reckoned at the lowest price of another offer.".to_owned());
    }
    sheet.empty_text = "No open approval would bring a machine back sooner.".to_owned();
    sheet
}

/// Production hours and money saved, where they are known.
type Worth = (Option<f64>, Option<Money>);

/// The order of [`ranked`] for every sort of row: where the kit has no end without it, then by money, then by hours.
fn by_worth(one: &Worth, other: &Worth) -> Ordering {
    let cents = |of: &Worth| of.1.map_or(i64::MIN, |saved| saved.cents);
    let hours = |of: &Worth| of.0.unwrap_or(f64::INFINITY);
    (one.0.is_some())
        .cmp(&other.0.is_some())
        .then(cents(other).cmp(&cents(one)))
        .then(hours(other).total_cmp(&hours(one)))
}

/// A way other than buying that waits for the name of who approved it.
fn way_row(inputs: &Inputs<'_>, plan: &KitPlan, gain: &WayGain) -> Row {
    let line = &inputs.shop.kits[plan.kit].lines[gain.line];
    let saved = gain.saved_h.map_or_else(
        || Value::unknown("the kit has no end without it"),
        Value::Number,
    );
    Row::new(vec![
        Value::text(line.record.kit.clone()),
        Value::text(line.record.line.clone()),
        Value::text(asked_for(inputs.shop, line)),
        Value::text(way(gain.kind)),
        Value::Empty,
        Value::Moment(gain.up),
        saved,
        money(gain.saved, "hours or downtime cost are unknown"),
        Value::Empty,
        Value::text(format!("no name of who approved it: {}", gain.place)),
    ])
}

/// A supplier nobody approved, or a currency without a rate, whose offers would bring the machine back sooner or for less.
fn settling_row(inputs: &Inputs<'_>, plan: &KitPlan, gain: &SettlingGain) -> Row {
    let kit = &inputs.shop.kits[plan.kit];
    let lines = || gain.lines.iter().map(|line| &kit.lines[*line]);
    let names: Vec<&str> = lines().map(|line| line.record.line.as_str()).collect();
    let asked: Vec<String> = lines().map(|line| asked_for(inputs.shop, line)).collect();
    let saved = gain.saved_h.map_or_else(
        || Value::unknown("the kit has no end without it"),
        Value::Number,
    );
    Row::new(vec![
        Value::text(kit.name.clone()),
        Value::text(names.join(", ")),
        Value::text(asked.join("; ")),
        Value::text(match &gain.settling {
            Settling::Supplier(name) => format!("approve supplier {name}"),
            Settling::Rate(currency) => format!("give a rate for {currency}"),
        }),
        Value::Empty,
        Value::Moment(gain.up),
        saved,
        money(gain.saved, "hours, prices or downtime cost are unknown"),
        Value::Empty,
        Value::text(gain.why.to_string()),
    ])
}

/// Every approval that would pay, with its kit, best first: where the kit has no end at all without it, then by money,
/// then by hours. The cover names the first.
pub(super) fn ranked<'a>(inputs: &Inputs<'a>) -> Vec<(usize, &'a ApprovalGain)> {
    let plans = inputs.plan.kits.iter();
    let gains = plans.flat_map(|plan| plan.approvals.iter().map(|gain| (plan.kit, gain)));
    let mut ranked: Vec<(usize, &ApprovalGain)> = gains.collect();
    // Stable: equals stay in the order of their kit's own plan.
    ranked.sort_by(|(_, a), (_, b)| a.by_worth(b));
    ranked
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Currency;

    #[test]
    fn one_order_holds_for_every_sort_of_row() {
        let euros = |amount: f64| Money::from_units(amount, Currency::EUR).ok();
        let mut rows: Vec<Worth> = vec![
            (Some(5.0), euros(10.0)),
            (Some(9.0), None),
            (Some(1.0), euros(300.0)),
            (Some(8.0), euros(10.0)),
            (None, euros(1.0)),
        ];
        rows.sort_by(by_worth);
        let hours: Vec<Option<f64>> = rows.iter().map(|row| row.0).collect();
        assert_eq!(hours, [None, Some(1.0), Some(8.0), Some(5.0), Some(9.0)]);
    }
}
