//! A long report put into German, beside writing it as a workbook in the same run.

use std::time::{Duration, Instant};

use sparewright::language::Language;
use sparewright::report::model::{Column, ColumnKind, Cover, MadeBy, Row, Value};
use sparewright::report::{Report, Sheet, translated, workbook_of};

/// Name of the work.
pub const NAME: &str = "language";

/// Rows of the report.
const ROWS: usize = 100_000;

/// Stock levels with their reasons, each with figures of its own: the longest texts there are.
fn report() -> Report {
    let mut sheet = Sheet::new(
        "levels",
        "Stock levels",
        "How many to keep, and why not one less?",
    );
    sheet.columns = vec![
        Column::text("number", "Our number"),
        Column::text("designation", "Designation"),
        Column::new(ColumnKind::Quantity, "free", "Free"),
        Column::new(ColumnKind::Days, "lead_days", "Mean lead time"),
        Column::text("unit_of_count", "Unit"),
        Column::text("why", "Why"),
        Column::text("changes_at", "Another number from"),
        Column::text("past", "The past with it"),
    ];
    sheet.rows = (0..ROWS).map(row).collect();
    let day = chrono::NaiveDate::from_ymd_opt(2026, 3, 9).expect("a day of the calendar");
    Report {
        title: "Reorder report".to_owned(),
        shop: "Bench".to_owned(),
        as_of: day.and_hms_opt(7, 30, 0).expect("a time of the day"),
        made_by: MadeBy::this_program(),
        cover: Cover::default(),
        sheets: vec![sheet],
        language: Language::ENGLISH,
    }
}

fn row(at: usize) -> Row {
    let share = at as f64 / ROWS as f64;
    let why = format!(
        "one less would wait {:.4} h more a year, which count {:.2} EUR, and save {:.2} EUR of holding; an hour at 205.00 EUR (downtime of M-{}), counted at 2.44 % of it; the shop's price for 99.0 % of usages met; {} used in {} usages over 1890 days; lead time: quote, corrected by {} receipts of this supplier (took 1.{:02} times as long as promised)",
        7.0 * share,
        900.0 * share,
        90.0 * share,
        at % 40,
        at % 900,
        at % 70,
        at % 90,
        at % 100,
    );
    let changes = format!(
        "more from {:.5} used a year or {:.4} days of lead time; less below {:.5} used a year or {:.4} days of lead time",
        9.0 * share,
        70.0 * share,
        share,
        7.0 * share
    );
    let past = format!(
        "{0} of {0} usages of the last 1890 days from the shelf; 0 orders, {1:.1} on the shelf on average",
        at % 70,
        20.0 * share
    );
    Row::new(vec![
        Value::text(format!("BRG-{at:06}")),
        Value::text("6205 2RS"),
        Value::Number(share * 40.0),
        Value::Number(share * 90.0),
        Value::text("piece"),
        Value::text(why),
        Value::text(changes),
        Value::text(past),
    ])
}

/// Runs the work and prints it.
pub fn run() {
    let english = report();
    let (german, translating) = timed(|| {
        translated(
            english.clone(),
            Language::of_code("de").expect("German is there"),
        )
    });
    let Value::Text(why) = &german.sheets[0].rows[1].cells[5] else {
        panic!("words stay words")
    };
    assert!(why.starts_with("eines weniger würde"), "{why}");
    let (bytes, writing) = timed(|| workbook_of(&english).expect("the report fits"));
    println!(
        "{NAME}: {ROWS} rows with three texts of their own: {:.2} s into German; the workbook of {} bytes in English {:.2} s; ratio {:.2}",
        translating.as_secs_f64(),
        bytes.len(),
        writing.as_secs_f64(),
        translating.as_secs_f64() / writing.as_secs_f64()
    );
}

fn timed<T>(work: impl FnOnce() -> T) -> (T, Duration) {
    let begun = Instant::now();
    let made = work();
    (made, begun.elapsed())
}
