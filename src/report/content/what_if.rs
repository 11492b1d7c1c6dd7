//! Before and after a change: hours down, money tied up, levels and kits that change.

use std::collections::{BTreeMap, BTreeSet};

use super::kits::NO_END;
use super::shop_figures::counted;
use super::words::{designation, number};
use super::year_ahead::{columns, fill, notes, shop_note};
use super::{Inputs, few_sheets};
use crate::catalogue::{NameKey, PartId};
use crate::caution;
use crate::plan::{
    Band, Completion, KitOutcome, Level, LevelBasis, Plan, WhatIf, YearAhead, YearOf, loses_rate,
    newly_without_source,
};
use crate::report::model::{Column, ColumnKind, Emphasis, Report, Row, Sheet, Value};
use crate::units::{Currency, Money};

/// Makes the report of the command `what-if`; `inputs` and its plan are those before the change.
pub fn what_if_report(
    inputs: &Inputs<'_>,
    after: &Plan,
    year: Option<&YearAhead>,
    asked: &WhatIf,
) -> Report {
    few_sheets(
        inputs,
        format!("What if {}", in_words(asked)),
        &[caution::REPORT],
        vec![
            figures(inputs, after, year),
            machines(inputs, after, year),
            levels(inputs, after, asked),
            kits(inputs, after),
        ],
    )
}

/// The changes in one sentence.
fn in_words(asked: &WhatIf) -> String {
    let mut words = Vec::new();
    for (supplier, factor) in &asked.slower {
        words.push(format!(
            "lead times of {supplier} are {factor} times as long"
        ));
    }
    words.extend(asked.gone.iter().map(|name| format!("{name} is gone")));
    if let Some(share) = asked.budget_cut_share {
        words.push(format!("the stock budget is cut by {:.0} %", 100.0 * share));
    }
    let more = asked.one_more.iter();
    words.extend(more.map(|name| format!("there is one more {name}")));
    let retired = asked.retired.iter();
    words.extend(retired.map(|name| format!("machine {name} leaves service now")));
    words.join(", and ")
}

/// One figure of the shop a row.
fn figures(inputs: &Inputs<'_>, after: &Plan, year: Option<&YearAhead>) -> Sheet {
    let mut sheet = Sheet::new(
        "before_after",
        "Before and after",
        "What does the change mean for the shop?",
    );
    sheet.columns = vec![
        Column::text("figure", "Figure").wrapped(50),
        Column::text("unit_of_figure", "In"),
        Column::new(ColumnKind::Quantity, "before", "Before"),
        Column::new(ColumnKind::Quantity, "after", "After"),
        Column::new(ColumnKind::Quantity, "change", "Change"),
        Column::new(ColumnKind::Quantity, "error", "Error of the change"),
    ];
    let code = inputs.shop.settings.currency.code();
    let mut figures = Vec::new();
    let untold = year.map_or_else(Vec::new, |year| untold_needs(inputs.plan, after, year));
    if let Some(year) = year {
        figures.extend(of_the_year(year, code, untold.is_empty()));
    }
    let lost = lost_levels(inputs.plan, after).len();
    if let (Some(was), Some(is)) = (inputs.plan.levels.chosen, after.levels.chosen) {
        // Without a level a part ties up nothing and waits for nothing in these sums: that is no gain.
        let known = |after: f64| if lost == 0 { Ok(after) } else { Err(LOST) };
        let tied = (was.stock_value, known(is.stock_value), None);
        let waiting = (was.waiting_cost, known(is.waiting_cost), None);
        figures.push(("Money tied up by the levels, reckoned", code, tied));
        if !inputs.plan.levels.has_no_hour_cost {
            figures.push((
                "Cost of waiting a year by the levels, in full, reckoned",
                code,
                waiting,
            ));
        }
    }
    let lines = |plan: &Plan| plan.reorder.due_lines(inputs.shop.as_of.date()).count() as f64;
    let not = |plan: &Plan| plan.reorder.not_ordered.len() as f64;
    let (due, uncovered) = (
        (lines(inputs.plan), Ok(lines(after)), None),
        (not(inputs.plan), Ok(not(after)), None),
    );
    let was = used_without_level(inputs.plan);
    let mut is = used_without_level(after);
    is.extend(lost_levels(inputs.plan, after));
    let without = (was.len() as f64, Ok(is.len() as f64), None);
    figures.push(("Lines to order now", "", due));
    figures.push(("Needs that no offer covers", "", uncovered));
    figures.push((
        "Used parts without a computed level: no offer, rate or lead time",
        "",
        without,
    ));
    let currency = inputs.shop.settings.currency;
    let rows = figures.into_iter().map(|of| figure_row(of, currency));
    sheet.rows = rows.collect();
    if let Some(year) = year {
        sheet.notes = vec![
            "Two ways to the same question, not one figure: `simulated` plays the year through with today's shelf, open orders, cut-offs and rebuilds; `reckoned` takes each level alone in the long run, with stock half-way between the minimum stock and the reorder point with a whole order on top.".to_owned(),
        ];
        sheet.notes.extend(notes(year));
        sheet.notes.extend(untold_note(&untold));
        sheet.notes.extend(no_rate_note(year));
    }
    if lost > 0 {
        sheet.notes.push(format!(
            "Unknown where used parts lose their level: {lost} of them have none after the change, and nobody can say what waits for them."
        ));
    }
    sheet
}

/// Parts with usages for which no level is computed, because no offer, no rate or no lead time is known.
fn used_without_level(plan: &Plan) -> BTreeSet<PartId> {
    let is_used = |part: &PartId| plan.demands.get(part).is_some_and(|of| of.events > 0);
    let without = plan.levels.without.iter().map(|(part, _)| *part);
    let by_part = plan.levels.by_part.values();
    let own = by_part.filter(|level| matches!(level.why, LevelBasis::OwnMinimum { .. }));
    let all = without.chain(own.map(|level| level.part));
    all.filter(is_used).collect()
}

/// Those of them that had a level before the change, and parts that were never used and had one by the rate of their group.
fn lost_levels(before: &Plan, after: &Plan) -> BTreeSet<PartId> {
    let (was, is) = (used_without_level(before), used_without_level(after));
    let is_computed = |level: &&Level| matches!(level.why, LevelBasis::Computed(_));
    let had_one = before.levels.by_part.values().filter(is_computed);
    let by_group = had_one
        .map(|level| &level.part)
        .filter(|part| loses_rate(before, after, **part));
    is.difference(&was).chain(by_group).copied().collect()
}

/// Why a sum over the levels is not known after a change.
const LOST: &str = "used parts lose their level, and nobody can say what waits for them";

/// Why hours are not known after a change.
const UNTOLD: &str = "a planned rebuild loses its only source of a part that is not simulated";

/// Dated needs that lose their only source and that no year simulates: what waits for them is in none of its figures.
fn untold_needs(before: &Plan, after: &Plan, year: &YearAhead) -> Vec<usize> {
    let mut lost = newly_without_source(before, after);
    lost.retain(|at| {
        let part = after.needs[*at].part;
        part.is_none_or(|part| year.left_out.contains(&part))
    });
    lost
}

/// Why hours are not known where the change leaves parts without a rate.
const NO_RATE: &str =
    "a part that is used has no known rate after the change, and nobody can say what waits for it";

fn no_rate_note(year: &YearAhead) -> Option<String> {
    (!year.untold.is_empty()).then(|| {
        format!(
            "What the year brings after the change is unknown, because nobody knows how often some parts are then used: {} in all.",
            counted(year.untold.len(), "part")
        )
    })
}

fn untold_note(untold: &[usize]) -> Option<String> {
    (!untold.is_empty()).then(|| {
        format!(
            "The hours down after the change are unknown, because planned rebuilds lose their only source of parts that are not simulated: {} in all.",
            counted(untold.len(), "need")
        )
    })
}

/// A figure: name, unit, then before, after or why it is not known, and the error of the change.
type Figure<'a> = (
    &'static str,
    &'a str,
    (f64, Result<f64, &'static str>, Option<f64>),
);

fn figure_row((figure, unit, (before, after, error)): Figure<'_>, currency: Currency) -> Row {
    let round = |number: f64| match unit == currency.code() {
        true => Value::Money(Money::rounded(number, currency)),
        false => Value::Number((number * 10.0).round() / 10.0),
    };
    Row::new(vec![
        Value::text(figure),
        Value::text(unit),
        round(before),
        after.map_or_else(Value::unknown, round),
        after.map_or_else(Value::unknown, |after| round(after - before)),
        error.map_or(Value::Empty, round),
    ])
}

fn of_the_year<'a>(year: &YearAhead, code: &'a str, is_told: bool) -> [Figure<'a>; 6] {
    let has_rates = year.untold.is_empty();
    let figure = |of: fn(&YearOf) -> Band| {
        let (was, is) = (of(&year.before).mean, of(&year.after).mean);
        match has_rates {
            true => (was, Ok(is), Some(of(&year.change).standard_error)),
            false => (was, Err(NO_RATE), None),
        }
    };
    // Hours that no year simulates, and what they cost.
    let waited = |of: fn(&YearOf) -> Band| match figure(of) {
        told if is_told => told,
        (was, ..) => (was, Err(UNTOLD), None),
    };
    let met = |of: &YearOf| 100.0 * of.met_share;
    [
        (
            "Production hours down for parts, all machines, a year, simulated",
            "h",
            waited(|of| of.down_h),
        ),
        (
            "Cost of these hours, simulated",
            code,
            waited(|of| of.down_cost),
        ),
        (
            "Surcharges for what machines waited for: hurried, fetched, by courier",
            code,
            figure(|of| of.surcharges),
        ),
        (
            "Stock on the shelf in the year, on average, simulated",
            code,
            figure(|of| of.stock_value),
        ),
        ("Orders placed a year", "", figure(|of| of.orders)),
        (
            "Usages met whole from the shelf, simulated",
            "%",
            match has_rates {
                true => (met(&year.before), Ok(met(&year.after)), None),
                false => (met(&year.before), Err(NO_RATE), None),
            },
        ),
    ]
}

fn machines(inputs: &Inputs<'_>, after: &Plan, year: Option<&YearAhead>) -> Sheet {
    let mut sheet = Sheet::new(
        "what_if_machines",
        "Machines, before and after",
        "How long do machines wait for parts in a year?",
    );
    sheet.has_marks = true;
    sheet.columns = columns("before", "Before", "after", "After");
    sheet.empty_text = "Not simulated: no part has a level, or there are too many.".to_owned();
    if let Some(year) = year {
        fill(&mut sheet, year);
        let untold = untold_needs(inputs.plan, after, year);
        let of_needs = untold.iter().filter_map(|at| {
            let kit = &inputs.shop.kits[after.needs[*at].kit];
            Some(NameKey::new(kit.machine.as_ref()?))
        });
        let waiting: Vec<NameKey> = of_needs.collect();
        for (machine, row) in year.machines.iter().zip(&mut sheet.rows) {
            if machine.is_untold {
                unknown_after(row, NO_RATE);
            } else if waiting.contains(&NameKey::new(&machine.name)) {
                unknown_after(row, UNTOLD);
            }
        }
        let names = ["Before the change", "after it"];
        sheet
            .notes
            .push(match untold_note(&untold).or(no_rate_note(year)) {
                Some(note) => note,
                None => shop_note(year, inputs.shop.settings.currency, names),
            });
        sheet.notes.extend(notes(year));
        sheet
            .notes
            .push("Both years order by the planned levels of their own plan.".to_owned());
    }
    sheet
}

/// Leaves the figures after the change and the change itself unknown.
fn unknown_after(row: &mut Row, why: &'static str) {
    // Name, how many, five figures before; then five after it, the change and its error.
    for cell in row.cells.iter_mut().skip(7) {
        *cell = Value::Empty;
    }
    if let Some(mean) = row.cells.get_mut(7) {
        *mean = Value::unknown(why);
    }
    row.emphasis = Emphasis::Attention;
}

/// How many times as much is used of a part where machines are added; `None` where it is as much.
fn times_used(inputs: &Inputs<'_>, after: &Plan, part: PartId, asked: &WhatIf) -> Option<f64> {
    let per_day = |plan: &Plan| plan.demands.get(&part)?.per_day();
    let times = per_day(after)? / per_day(inputs.plan).filter(|of| *of > 0.0)?;
    (!asked.one_more.is_empty() && times > 1.0 + 1e-6).then_some(times)
}

/// Levels that are not the same after.
fn levels(inputs: &Inputs<'_>, after: &Plan, asked: &WhatIf) -> Sheet {
    let mut sheet = Sheet::new(
        "what_if_levels",
        "Levels that change",
        "Which levels change?",
    );
    sheet.columns = vec![
        Column::text("number", "Our number"),
        Column::text("designation", "Designation").wrapped(26),
        Column::new(ColumnKind::Quantity, "min_before", "Min. stock before"),
        Column::new(ColumnKind::Quantity, "min_after", "Min. stock after"),
        Column::new(
            ColumnKind::Quantity,
            "order_before",
            "Order quantity before",
        ),
        Column::new(ColumnKind::Quantity, "order_after", "Order quantity after"),
        Column::text("why", "Why the new one").wrapped(60),
    ];
    let before = &inputs.plan.levels.by_part;
    let mut parts: BTreeMap<_, ()> = before.keys().map(|part| (*part, ())).collect();
    parts.extend(after.levels.by_part.keys().map(|part| (*part, ())));
    let gone = || Value::unknown("no level: no offer, rate or lead time");
    for part in parts.into_keys() {
        let (was, is) = (before.get(&part), after.levels.by_part.get(&part));
        let figures = |level: Option<&crate::plan::Level>| {
            level.map(|level| (level.min_stock, level.order_quantity))
        };
        if figures(was) == figures(is) {
            continue;
        }
        let min = |of: Option<&crate::plan::Level>| {
            of.map_or_else(gone, |of| Value::Number(of.min_stock))
        };
        let order = |of: Option<&crate::plan::Level>| {
            of.map_or_else(gone, |of| Value::Number(of.order_quantity))
        };
        let why = is.map_or_else(
            || {
                let mut without = after.levels.without.iter();
                let found = without.find(|(of, _)| *of == part);
                found.map_or_else(String::new, |(_, why)| why.to_string())
            },
            |level| match times_used(inputs, after, part, asked) {
                // The records tell what was used before; the level is for more.
                Some(times) => format!(
                    "{times:.2} times what the records tell, for the machines that are added; {}",
                    level.why
                ),
                None => level.why.to_string(),
            },
        );
        sheet.rows.push(Row::new(vec![
            Value::text(number(inputs.shop, part)),
            designation(inputs.shop, part),
            min(was),
            min(is),
            order(was),
            order(is),
            Value::text(why),
        ]));
    }
    sheet.empty_text = "No level changes.".to_owned();
    sheet
}

/// Kits that would run again at another moment.
fn kits(inputs: &Inputs<'_>, after: &Plan) -> Sheet {
    let mut sheet = Sheet::new(
        "what_if_kits",
        "Kits that move",
        "Which rebuilds would take longer, or less long?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("kit", "Kit").wrapped(30),
        Column::new(ColumnKind::Moment, "likely_before", "Likely before"),
        Column::new(ColumnKind::Moment, "likely_after", "Likely after"),
        Column::new(ColumnKind::Moment, "late_before", "Late (1 in 10) before"),
        Column::new(ColumnKind::Moment, "late_after", "Late (1 in 10) after"),
        Column::new(ColumnKind::Hours, "mean_before_h", "Mean hours down before"),
        Column::new(ColumnKind::Hours, "mean_after_h", "Mean hours down after"),
    ];
    for (was, is) in inputs.plan.kits.iter().zip(&after.kits) {
        let (was, is, kit) = (&was.accepted, &is.accepted, was.kit);
        let moments = |of: &KitOutcome| of.running.as_ref().map(|of| (of.p50.up, of.p90.up));
        if moments(was) == moments(is) {
            continue;
        }
        let unknown = |of: &KitOutcome| {
            Value::unknown(match of.completion {
                Completion::Known { .. } => NO_END,
                Completion::Unknown { .. } => "a line has no known arrival",
            })
        };
        let likely =
            |of: &KitOutcome| moments(of).map_or_else(|| unknown(of), |at| Value::Moment(at.0));
        let late =
            |of: &KitOutcome| moments(of).map_or_else(|| unknown(of), |at| Value::Moment(at.1));
        let mean = |of: &KitOutcome| {
            let running = of.running.as_ref();
            running.map_or_else(|| unknown(of), |running| Value::Number(running.mean_h))
        };
        let is_later = moments(is).is_none() || moments(is) > moments(was);
        sheet.rows.push(
            Row::new(vec![
                Value::text(inputs.shop.kits[kit].name.clone()),
                likely(was),
                likely(is),
                late(was),
                late(is),
                mean(was),
                mean(is),
            ])
            .with(if is_later {
                Emphasis::Attention
            } else {
                Emphasis::Good
            }),
        );
    }
    sheet.notes.push(
        "Each kit as if it alone were rebuilt now, from what is on the shelf, on order and offered.".to_owned(),
    );
    sheet.empty_text = "No kit moves.".to_owned();
    sheet
}
