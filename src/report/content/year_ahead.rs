//! The year ahead by simulation: production hours down of each machine, with today's levels and with the planned ones.

use super::Inputs;
use crate::plan::{Band, YearAhead};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, Value, grouped};
use crate::units::Currency;

/// Key of this sheet.
pub const KEY: &str = "year_ahead";

/// Why nothing is said of a machine.
const UNKNOWN: &str = "no usage of a part with a level is recorded for it, and no rebuild planned";

/// The sheet, one row per machine.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        KEY,
        "The year ahead",
        "How long will machines wait for parts in the coming year?",
    );
    sheet.empty_text =
        "Not simulated: no part has a level, or the shop has more than 20,000 of them.".to_owned();
    sheet.columns = columns("today", "Today", "planned", "Planned");
    sheet.has_marks = true;
    if let Some(year) = inputs.year() {
        fill(&mut sheet, year);
        sheet.notes.push(shop_note(
            year,
            inputs.shop.settings.currency,
            ["With today's levels", "with the planned ones"],
        ));
        sheet.notes.extend(notes(year));
        sheet.notes.push("The year begins with today's shelf and what is missing now; `What service costs` reckons the same levels in the long run, each by itself.".to_owned());
        sheet.notes.push("Today's level is the minimum in the parts table; where there is none, what is used is replaced, up to what is there and on order now. Both order the planned quantities.".to_owned());
    }
    sheet
}

/// Columns of a comparison of two years.
pub fn columns(before_key: &str, before: &str, after_key: &str, after: &str) -> Vec<Column> {
    let hours = |key: &str, of: &str, header: &str, what: &str| {
        let key = format!("{key}_{of}_h");
        Column::new(ColumnKind::Hours, key, format!("{header}: {what}"))
    };
    let mut columns = vec![
        Column::text("machine", "Machine"),
        Column::new(ColumnKind::Integer, "installed", "Installed"),
    ];
    for (key, header) in [(before_key, before), (after_key, after)] {
        columns.extend([
            hours(key, "mean", header, "mean")
                .with_help("Production hours a machine and year that stand for want of a part."),
            hours(key, "error", header, "error of the mean")
                .with_help("Standard error: what the number of simulated years leaves open."),
            hours(key, "p10", header, "good year (1 in 10)"),
            hours(key, "p50", header, "middle year"),
            hours(key, "p90", header, "bad year (1 in 10)"),
        ]);
    }
    columns.extend([
        Column::new(ColumnKind::Hours, "change_h", "Change of the mean"),
        Column::new(ColumnKind::Hours, "change_error_h", "Error of the change").with_help(
            "Both years have the same usages and the same lateness, so that it is small.",
        ),
    ]);
    columns
}

/// Rows of a comparison of two years.
pub fn fill(sheet: &mut Sheet, year: &YearAhead) {
    for machine in &year.machines {
        let mut cells = vec![
            Value::text(machine.name.clone()),
            Value::Integer(i64::from(machine.installed)),
        ];
        for band in [machine.before, machine.after] {
            let told = |band| match machine.is_used {
                true => figures(band),
                false => not_known(),
            };
            cells.extend(band.map_or_else(missing, told));
        }
        let change = machine.change.filter(|_| machine.is_used);
        cells.extend(change.map_or_else(
            || [Value::Empty, Value::Empty],
            |change| {
                [
                    Value::Number(change.mean),
                    Value::Number(change.standard_error),
                ]
            },
        ));
        let is_clear = |change: &Band| change.mean.abs() > 2.0 * change.standard_error;
        let emphasis = match change.filter(is_clear) {
            Some(change) if change.mean < -0.05 => Emphasis::Good,
            Some(change) if change.mean > 0.05 => Emphasis::Attention,
            _ => Emphasis::None,
        };
        sheet.rows.push(Row::new(cells).with(emphasis));
    }
}

fn figures(band: Band) -> [Value; 5] {
    [band.mean, band.standard_error, band.p10, band.p50, band.p90].map(Value::Number)
}

/// A machine of which nothing can be said; the reason stands once.
fn not_known() -> [Value; 5] {
    let mut cells = missing();
    cells[0] = Value::unknown(UNKNOWN);
    cells
}

/// A machine that is not there stands for nothing.
fn missing() -> [Value; 5] {
    [const { Value::Empty }; 5]
}

/// The whole shop in one sentence.
pub fn shop_note(year: &YearAhead, currency: Currency, [before, after]: [&str; 2]) -> String {
    let code = currency.code();
    let of = |band: Band| grouped(band.mean, 0, 0);
    let share = |share: f64| grouped(100.0 * share, 1, 1);
    let (was, is) = (&year.before, &year.after);
    format!(
        "{before} all machines together stand {} h a year for parts ({} {code}, {} % of usages met whole, {} {code} in stock on average); {after} {} h ({} {code}, {} %, {} {code}). The difference is {} h, with a standard error of {} h.",
        of(was.down_h),
        of(was.down_cost),
        share(was.met_share),
        of(was.stock_value),
        of(is.down_h),
        of(is.down_cost),
        share(is.met_share),
        of(is.stock_value),
        grouped(year.change.down_h.mean, 1, 1),
        grouped(year.change.down_h.standard_error, 1, 1),
    )
}

/// How the figures came about.
pub fn notes(year: &YearAhead) -> Vec<String> {
    let mut notes = vec![
        format!(
            "{} years simulated with seed {}, {} parts: usages with what the records leave open of their rate, quantities, lead times through the calendars, open orders, rebuilds with a date, lots that end.",
            year.replications, year.seed, year.parts
        ),
        "Every usage is taken to stop its machine until the part is there: the most that waiting can be. An order counts by the cut-off, counter and working hours of its supplier and comes by the ordinary way; where a machine waits and its hours cost more than the surcharge, by the quickest way that is offered now. Repair itself, substitutes and other ways are not in it.".to_owned(),
        "A forecast of stock, not of safety: what a machine may run with is said by its documentation and a licensed person.".to_owned(),
    ];
    notes.extend(not_as_before(year));
    if year.after.unplaced_h.mean > 0.05 || year.before.unplaced_h.mean > 0.05 {
        notes.push(format!(
            "Usages of parts that no table ties to a machine wait {} h before and {} h after; they are in no row.",
            grouped(year.before.unplaced_h.mean, 0, 0),
            grouped(year.after.unplaced_h.mean, 0, 0)
        ));
    }
    notes
}

/// What is not in the figures, and what is in them without an offer.
pub fn not_as_before(year: &YearAhead) -> Vec<String> {
    let mut notes = Vec::new();
    match year.left_out.len() {
        0 => {}
        1 => notes.push(
            "1 part is not in it, because no lead time or no rate is known: the hours are too low by what it will cost."
                .to_owned(),
        ),
        parts => notes.push(format!(
            "{parts} parts are not in it, because no lead time or no rate is known: the hours are too low by what they will cost."
        )),
    }
    match year.lost.len() {
        0 => {}
        1 => notes.push(
            "1 part has no offer left after the change: it is used as before, from what is there and on its way, and what is missing then waits to the end of the year."
                .to_owned(),
        ),
        parts => notes.push(format!(
            "{parts} parts have no offer left after the change: they are used as before, from what is there and on its way, and what is missing then waits to the end of the year."
        )),
    }
    notes
}
