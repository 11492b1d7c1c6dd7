//! Open approvals that would bring a machine back sooner, best first.

use std::collections::BTreeMap;

use super::Inputs;
use super::words::{asked_for, designation, money, number, way};
use crate::interchange::LineAcceptance;
use crate::plan::{ApprovalGain, Gained, KitPlan, Settling, SettlingGain, WayGain};
use crate::report::model::{Column, ColumnKind, Row, Sheet, Value};
use crate::units::Currency;

/// Key of this sheet.
pub const KEY: &str = "approvals_that_would_pay";

/// The sheet, one row per open approval, of a substitute, a way, a supplier or a rate, that saves hours or money.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let mut sheet = Sheet::new(
        KEY,
        "Approvals that would pay",
        "Which substitute, supplier or way is worth a person's judgement, and what would it save?",
    );
    sheet.columns = columns(currency);
    let acceptances = inputs.acceptances.iter();
    let by_line: BTreeMap<(usize, usize), &LineAcceptance> =
        acceptances.map(|of| ((of.kit, of.line), of)).collect();
    let open = ranked(inputs).into_iter();
    sheet.rows = open
        .map(|of| match of.word {
            Word::Substitute(gain) => substitute_row(inputs, &by_line, of.plan, gain),
            Word::Way(gain) => way_row(inputs, of.plan, gain),
            Word::Settling(gain) => settling_row(inputs, of.plan, gain),
        })
        .collect();
    sheet.notes = vec![
        "What is saved holds if the machine went down now, not for a rebuild with a later day: hours and money on average over all cases, the money with what is bought.".to_owned(),
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

fn columns(currency: Currency) -> Vec<Column> {
    let code = currency.code().to_ascii_lowercase();
    vec![
        Column::text("kit", "Kit").wrapped(30),
        Column::text("line", "Line"),
        Column::text("asks_for", "Asks for").wrapped(34),
        Column::text("substitute", "Substitute"),
        Column::text("designation", "Designation").wrapped(24),
        Column::new(
            ColumnKind::Moment,
            "running",
            "Running again with it, likely",
        ),
        Column::new(
            ColumnKind::Moment,
            "running_fairly",
            "Running again with it, four of five",
        ),
        Column::new(
            ColumnKind::Moment,
            "running_late",
            "Running again with it, late (1 in 10)",
        ),
        Column::new(ColumnKind::Hours, "saved_h", "Production hours saved")
            .with_help("On average over all cases, if the machine went down now."),
        Column::new(
            ColumnKind::Money(currency),
            format!("saved_{code}"),
            "Saved in all",
        )
        .with_help("On average over all cases: purchases and hours down."),
        Column::text("checks", "Check before approving").wrapped(50),
        Column::text("against", "What stands against it").wrapped(60),
    ]
}

/// A substitute that nobody has approved for the line yet.
fn substitute_row(
    inputs: &Inputs<'_>,
    by_line: &BTreeMap<(usize, usize), &LineAcceptance>,
    plan: &KitPlan,
    gain: &ApprovalGain,
) -> Row {
    let line = &inputs.shop.kits[plan.kit].lines[gain.line];
    let acceptance = by_line.get(&(plan.kit, gain.line));
    let open = acceptance.and_then(|of| of.open.iter().find(|open| open.part == gain.part));
    let judgement = open.map(|open| &open.judgement);
    let [running, fairly, late, saved_h] = moments_and_hours(&gain.gained);
    Row::new(vec![
        Value::text(line.record.kit.clone()),
        Value::text(line.record.line.clone()),
        Value::text(asked_for(inputs.shop, line)),
        Value::text(number(inputs.shop, gain.part)),
        designation(inputs.shop, gain.part),
        running,
        fairly,
        late,
        saved_h,
        money(gain.gained.saved, "hours or downtime cost are unknown"),
        judgement.map_or(Value::Empty, |judgement| {
            Value::text(judgement.before_fitting())
        }),
        judgement.map_or(Value::Empty, |judgement| Value::text(judgement.against())),
    ])
}

/// When the machine runs again with it, and the hours that it saves.
fn moments_and_hours(gained: &Gained) -> [Value; 4] {
    let running = gained.running;
    [
        Value::Moment(running.p50),
        Value::Moment(running.p80),
        Value::Moment(running.p90),
        gained.saved_h.map_or_else(
            || Value::unknown("the kit has no end without it"),
            Value::Number,
        ),
    ]
}

/// A way other than buying that waits for the name of who approved it.
fn way_row(inputs: &Inputs<'_>, plan: &KitPlan, gain: &WayGain) -> Row {
    let line = &inputs.shop.kits[plan.kit].lines[gain.line];
    let [running, fairly, late, saved_h] = moments_and_hours(&gain.gained);
    Row::new(vec![
        Value::text(line.record.kit.clone()),
        Value::text(line.record.line.clone()),
        Value::text(asked_for(inputs.shop, line)),
        Value::text(way(gain.kind)),
        Value::Empty,
        running,
        fairly,
        late,
        saved_h,
        money(gain.gained.saved, "hours or downtime cost are unknown"),
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
    let [running, fairly, late, saved_h] = moments_and_hours(&gain.gained);
    Row::new(vec![
        Value::text(kit.name.clone()),
        Value::text(names.join(", ")),
        Value::text(asked.join("; ")),
        Value::text(match &gain.settling {
            Settling::Supplier(name) => format!("approve supplier {name}"),
            Settling::Rate(currency) => format!("give a rate for {currency}"),
        }),
        Value::Empty,
        running,
        fairly,
        late,
        saved_h,
        money(
            gain.gained.saved,
            "hours, prices or downtime cost are unknown",
        ),
        Value::Empty,
        Value::text(gain.why.to_string()),
    ])
}

/// Whose word is open.
#[derive(Debug, Clone, Copy)]
pub(super) enum Word<'a> {
    /// A substitute for one line.
    Substitute(&'a ApprovalGain),
    /// A way other than buying.
    Way(&'a WayGain),
    /// A supplier, or a rate of exchange.
    Settling(&'a SettlingGain),
}

/// One open approval that would pay.
#[derive(Debug, Clone, Copy)]
pub(super) struct OpenWord<'a> {
    /// The plan of the kit that it is for.
    pub plan: &'a KitPlan,
    /// What is to be approved.
    pub word: Word<'a>,
    /// What it would gain.
    pub gained: Gained,
}

/// Every approval that would pay, with its kit, best first: where the kit has no end at all without it, then by money,
/// then by hours. The cover names the first.
pub(super) fn ranked<'a>(inputs: &Inputs<'a>) -> Vec<OpenWord<'a>> {
    let mut ranked = Vec::new();
    for plan in &inputs.plan.kits {
        let mut add = |word, gained| ranked.push(OpenWord { plan, word, gained });
        for gain in &plan.approvals {
            add(Word::Substitute(gain), gain.gained);
        }
        for gain in &plan.open_ways {
            add(Word::Way(gain), gain.gained);
        }
        for gain in &plan.settling {
            add(Word::Settling(gain), gain.gained);
        }
    }
    // Stable: of equals substitutes come first, then the order of their kit's own plan.
    ranked.sort_by_key(|of| !matches!(of.word, Word::Substitute(_)));
    ranked.sort_by(|a, b| a.gained.by_worth(&b.gained));
    ranked
}
