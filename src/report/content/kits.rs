//! Each rebuild kit: complete when, held by which line, machine down for how long and at what cost.

use super::Inputs;
use super::rejected_tasks::rejected_tasks;
use super::words::{has_work, holder, holds_it, is_complete_from_shelf, money};
use crate::catalogue::Kit;
use crate::plan::{Completion, Downtime, KitOutcome, KitPlan, Running, has_whole_work};
use crate::report::model::{Chart, Column, ColumnKind, Emphasis, Row, Sheet, Value};
use crate::units::{Currency, Money};

/// Key of this sheet.
pub const KEY: &str = "kits";

/// The sheet, one row per kit.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let mut sheet = Sheet::new(
        KEY,
        "Kits and what holds them",
        "If the machine went down now, which line holds it, and for how long?",
    );
    sheet.has_marks = true;
    let mut kits = inputs.plan.kits.iter();
    let is_work_known = kits.any(|plan| has_work(&inputs.shop.kits[plan.kit]));
    sheet.columns = columns(currency, is_work_known || inputs.plan.kits.is_empty());
    sheet.rows = inputs
        .plan
        .kits
        .iter()
        .map(|plan| row(inputs, plan))
        .collect();
    sheet.notes = vec![
        "Each kit is planned as if its machine went down at the moment of planning and it alone were rebuilt; kits may draw on the same stock.".to_owned(),
        "Downtime counts production hours from now until the rebuild is done on the maintenance calendar.".to_owned(),
        "Likely, four of five and late are of the last line to come, worked out exactly for lines that are late independently of each other; beside the late case stands the one in which all lines are late together.".to_owned(),
        "Lines are bought so that purchases, freight and mean downtime cost least together; where an hour down has no cost, so that the machine runs soonest with each line ordered once.".to_owned(),
    ];
    sheet.charts = vec![Chart::bars(
        "Production hours down, by machine and kit",
        "If the machine went down now: the longest bar is the kit to look at first.",
        "kit",
        "down_likely_h",
    )];
    sheet.empty_text = "No rebuild kits in any table: no downtime can be projected.".to_owned();
    sheet
}

/// `is_work_known` where any of the kits has tasks; otherwise every downtime is the wait for parts, and the heads say so.
fn columns(currency: Currency, is_work_known: bool) -> Vec<Column> {
    let mut columns = vec![
        Column::text("kit", "Kit").wrapped(26),
        Column::text("machine", "Machine"),
        Column::text("short_lines", "Lines short"),
        Column::text("held_by", "Held by").wrapped(36),
        Column::new(ColumnKind::Moment, "complete_likely", "Complete, likely"),
        Column::new(
            ColumnKind::Moment,
            "complete_fairly",
            "Complete, four of five",
        ),
        Column::new(
            ColumnKind::Moment,
            "complete_late",
            "Complete, late (1 in 10)",
        ),
        Column::new(ColumnKind::Hours, "held_by_h", "Held by it for").with_help(
            "Production hours sooner on the average if that line alone were on the shelf.",
        ),
        Column::text("held_by_together", "Held by, all lines late together"),
        Column::new(
            ColumnKind::Hours,
            "held_by_together_h",
            "Held by it for, all lines late together",
        ),
        Column::new(ColumnKind::Hours, "work_h", "Work of the rebuild")
            .with_help("Hours of its tasks together. Where it is unknown, all that follows is the wait for parts only."),
    ];
    columns.extend(downtime_columns(currency, is_work_known));
    columns
}

/// When the machine runs again, how long it is down and what that costs.
fn downtime_columns(currency: Currency, is_work_known: bool) -> Vec<Column> {
    let head = |down: &'static str, wait: &'static str| if is_work_known { down } else { wait };
    let code = currency.code().to_ascii_lowercase();
    vec![
        Column::new(
            ColumnKind::Moment,
            "running_likely",
            head(
                "Running again, likely",
                "Parts here and running, the work not counted",
            ),
        ),
        Column::new(
            ColumnKind::Moment,
            "running_fairly",
            head(
                "Running again, four of five",
                "Parts here and running, four of five",
            ),
        ),
        Column::new(
            ColumnKind::Moment,
            "running_late",
            head(
                "Running again, late (1 in 10)",
                "Parts here and running, late (1 in 10)",
            ),
        ),
        Column::new(
            ColumnKind::Hours,
            "down_likely_h",
            head("Down, likely", "Wait for parts only, likely"),
        )
        .with_help("Production hours."),
        Column::new(
            ColumnKind::Hours,
            "down_p80_h",
            head("Down, four of five", "Wait for parts only, four of five"),
        )
        .with_help("In four cases of five it is no longer."),
        Column::new(
            ColumnKind::Hours,
            "down_late_h",
            head(
                "Down, late (1 in 10)",
                "Wait for parts only, late (1 in 10)",
            ),
        ),
        Column::new(
            ColumnKind::Hours,
            "down_late_together_h",
            head(
                "Down, late, all lines late together",
                "Wait for parts only, late, all lines late together",
            ),
        ),
        Column::new(
            ColumnKind::Hours,
            "down_mean_h",
            head("Down, mean", "Wait for parts only, mean"),
        ),
        Column::new(
            ColumnKind::Money(currency),
            format!("down_cost_{code}"),
            head("Cost of downtime, mean", "Cost of the wait for parts, mean"),
        ),
        Column::new(
            ColumnKind::Money(currency),
            format!("purchases_{code}"),
            "Purchases",
        ),
        Column::new(
            ColumnKind::Hours,
            "with_approvals_h",
            "Down if all were approved",
        ),
        Column::new(ColumnKind::Date, "planned", "Next planned rebuild"),
    ]
}

/// Why a kit has no end although every line of it has its day.
pub const NO_END: &str = "its tasks wait for themselves or for one that has no row";

/// Hours of the tasks together.
fn work(kit: &Kit) -> Value {
    if !has_whole_work(kit) {
        return Value::unknown("a task waits for one that has no row");
    }
    match has_work(kit) {
        true => Value::Number(kit.tasks.iter().map(|task| task.hours.max(0.0)).sum()),
        false => Value::unknown(
            "no table gives the kit's tasks; its downtime is the wait for parts only",
        ),
    }
}

/// Lines that the shelf does not cover; one of unknown quantity is none that it does.
fn short_lines(kit: &Kit, outcome: &KitOutcome) -> String {
    let unread = kit.lines.iter().filter(|of| of.record.quantity.is_none());
    let unread = unread.count();
    let short = outcome.lines.iter().filter(|line| line.short > 0.0).count();
    format!("{} of {}", short + unread, outcome.lines.len() + unread)
}

fn row(inputs: &Inputs<'_>, plan: &KitPlan) -> Row {
    let kit = &inputs.shop.kits[plan.kit];
    let outcome = &plan.accepted;
    let unknown = || Value::unknown("a line has no known arrival");
    let (likely, fairly, late) = match &outcome.completion {
        Completion::Known { apart, .. } => (
            Value::Moment(apart.p50),
            Value::Moment(apart.p80),
            Value::Moment(apart.p90),
        ),
        Completion::Unknown { .. } => (unknown(), unknown(), unknown()),
    };
    let apart = holder(outcome, |line| line.holds_share);
    let together = holder(outcome, |line| line.holds_share_together);
    let no_end = || match &outcome.completion {
        Completion::Known { .. } => Value::unknown(NO_END),
        Completion::Unknown { .. } => unknown(),
    };
    let held = |hours: Option<f64>| hours.map_or_else(no_end, Value::Number);
    let hours = |running: &Option<Running>, of: fn(&Running) -> f64| {
        running
            .as_ref()
            .map_or_else(no_end, |running| Value::Number(of(running)))
    };
    let up = |of: fn(&Running) -> &Downtime| {
        let running = outcome.running.as_ref();
        running.map_or_else(no_end, |running| Value::Moment(of(running).up))
    };
    let cost = match &outcome.running {
        None => no_end(),
        Some(running) => money(running.mean_cost, "no downtime cost for the machine"),
    };
    let purchases = outcome.purchase_cost.map(|goods| Money {
        cents: goods.cents + outcome.freight.cents,
        currency: goods.currency,
    });
    let with_approvals = match &plan.with_all_approvals {
        None => Value::Empty,
        Some(with) => with
            .likely
            .as_ref()
            .map_or_else(no_end, |likely| Value::Number(likely.production_h)),
    };
    let has_its_times =
        outcome.running.is_some() && rejected_tasks(inputs, &kit.name).next().is_none();
    let emphasis = match &outcome.completion {
        Completion::Unknown { .. } => Emphasis::Stop,
        // A kit of which nobody knows how long its work takes is not good, whatever lies on the shelf.
        Completion::Known { .. } if is_complete_from_shelf(outcome) && has_its_times => {
            Emphasis::Good
        }
        Completion::Known { .. } => Emphasis::Attention,
    };
    let next = kit
        .planned
        .iter()
        .map(|planned| planned.date)
        .find(|date| *date >= inputs.shop.as_of.date());
    Row::new(vec![
        Value::text(kit.name.clone()),
        kit.machine.clone().map_or(Value::Empty, Value::text),
        Value::text(short_lines(kit, outcome)),
        Value::text(holds_it(inputs, plan.kit, outcome)),
        likely,
        fairly,
        late,
        held(apart.and_then(|(line, _)| Some(line.on_shelf?.hours))),
        together.map_or_else(unknown, |(line, share)| {
            if share < 0.005 {
                return Value::Empty;
            }
            let of = &kit.lines[line.line].record.line;
            Value::text(format!("line {of} ({:.0} % of cases)", 100.0 * share))
        }),
        held(together.and_then(|(line, _)| Some(line.on_shelf_together?.hours))),
        work(kit),
        up(|running| &running.p50),
        up(|running| &running.p80),
        up(|running| &running.p90),
        hours(&outcome.running, |running| running.p50.production_h),
        hours(&outcome.running, |running| running.p80.production_h),
        hours(&outcome.running, |running| running.p90.production_h),
        hours(&outcome.running_together, |running| {
            running.p90.production_h
        }),
        hours(&outcome.running, |running| running.mean_h),
        cost,
        money(purchases, "a price is missing or a line has no source"),
        with_approvals,
        next.map_or(Value::Empty, Value::Date),
    ])
    .with(emphasis)
}
