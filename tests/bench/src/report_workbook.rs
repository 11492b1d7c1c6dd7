//! A report of 100,000 rows written as a workbook, against the writing crate alone putting the same cells with the same
//! formats. Both sides in one process, in turn; the clock and the kernel's account of this process.

use std::time::Instant;

use chrono::{Days, NaiveDate, NaiveDateTime};
use rust_xlsxwriter::{Format, Formula, Workbook};
use sparewright::language::Language;
use sparewright::report::model::{
    Column, ColumnKind, Cover, Emphasis, MadeBy, Report, Row, RowFormula, Value,
};
use sparewright::report::{Sheet, workbook_of};
use sparewright::units::{Currency, Price};

use crate::measure::core_seconds;

/// Name on the command line.
pub const NAME: &str = "report-workbook";
const ROWS: usize = 100_000;
/// Runs of each side; the fastest counts.
const RUNS: usize = 5;
const AIM: f64 = 1.2;

struct Line {
    part: String,
    supplier: String,
    quantity: f64,
    price: Price,
    cost: f64,
    days: i64,
    order_by: NaiveDateTime,
    needed_by: NaiveDate,
    why: String,
}

fn lines() -> Vec<Line> {
    let day = NaiveDate::from_ymd_opt(2026, 3, 9).expect("a day of the calendar");
    let line = |at: usize| {
        let quantity = (1 + at % 12) as f64;
        let cents = 100 + at % 9_000;
        let price = Price::from_units(cents as f64 / 100.0, 1, Currency::EUR);
        Line {
            part: format!("BRG-{at:06}"),
            supplier: format!("Supplier {}", at % 60),
            quantity,
            price: price.expect("a price above nothing"),
            cost: (quantity * cents as f64).round() / 100.0,
            days: (at % 40) as i64,
            order_by: day
                .and_hms_opt(11, (at % 60) as u32, 0)
                .expect("a time of the day"),
            needed_by: day + Days::new((at % 200) as u64),
            why: format!(
                "{} free, {} on order; reorder point {}.",
                at % 5,
                at % 3,
                2 + at % 7
            ),
        }
    };
    (0..ROWS).map(line).collect()
}

fn report_of(lines: &[Line]) -> Report {
    let mut sheet = Sheet::new("orders", "Orders", "What has to be ordered?");
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("part", "Part"),
        Column::text("supplier", "Supplier"),
        Column::new(ColumnKind::Quantity, "quantity", "Quantity"),
        Column::new(
            ColumnKind::UnitPrice(Currency::EUR),
            "price_eur",
            "Unit price",
        ),
        Column::new(ColumnKind::Money(Currency::EUR), "cost_eur", "Cost")
            .with_formula(RowFormula::product("quantity", "price_eur")),
        Column::new(ColumnKind::Days, "wait_days", "Wait"),
        Column::new(ColumnKind::Moment, "order_by", "Order by"),
        Column::new(ColumnKind::Date, "needed_by", "Needed by"),
        Column::text("why", "Why"),
    ];
    let rows = lines.iter().enumerate().map(|(at, line)| {
        Row::new(vec![
            Value::text(&line.part),
            Value::text(&line.supplier),
            Value::Number(line.quantity),
            Value::Price(line.price),
            Value::Money(line.price.cost_of(line.quantity)),
            Value::Integer(line.days),
            Value::Moment(line.order_by),
            Value::Date(line.needed_by),
            Value::text(&line.why),
        ])
        .with(if at % 10 == 0 {
            Emphasis::Attention
        } else {
            Emphasis::None
        })
    });
    sheet.rows = rows.collect();
    Report {
        language: Language::ENGLISH,
        title: "Reorder report".to_owned(),
        shop: "Shop".to_owned(),
        as_of: NaiveDateTime::default(),
        made_by: MadeBy::this_program(),
        cover: Cover::default(),
        sheets: vec![sheet],
    }
}

/// The writing crate alone: the same cells, types and formats.
fn alone(lines: &[Line]) -> Vec<u8> {
    let mut workbook = Workbook::new();
    let page = workbook.add_worksheet();
    let format = |digits: &str| Format::new().set_font_size(10).set_num_format(digits);
    let text = format("General");
    let (whole, price, cents) = (format("#,##0"), format("#,##0.00##"), format("#,##0.00"));
    let (moment, date) = (format("yyyy-mm-dd hh:mm"), format("yyyy-mm-dd"));
    let mut write = || -> Result<(), rust_xlsxwriter::XlsxError> {
        for (line, row) in lines.iter().zip(4..) {
            let mark = if (row - 4) % 10 == 0 { "▲ check" } else { "" };
            page.write_string_with_format(row, 0, mark, &text)?;
            page.write_string_with_format(row, 1, &line.part, &text)?;
            page.write_string_with_format(row, 2, &line.supplier, &text)?;
            page.write_number_with_format(row, 3, line.quantity, &whole)?;
            page.write_number_with_format(row, 4, line.price.unit_price(), &price)?;
            let formula = Formula::new(format!("=ROUND(D{0}*E{0},2)", row + 1))
                .set_result(line.cost.to_string());
            page.write_formula_with_format(row, 5, formula, &cents)?;
            page.write_number_with_format(row, 6, line.days as f64, &whole)?;
            page.write_datetime_with_format(row, 7, line.order_by, &moment)?;
            page.write_datetime_with_format(row, 8, line.needed_by, &date)?;
            page.write_string_with_format(row, 9, &line.why, &text)?;
        }
        Ok(())
    };
    write().expect("the cells fit a sheet");
    workbook.save_to_buffer().expect("the workbook fits memory")
}

/// Seconds on the clock, seconds of all cores, and bytes made.
fn measured(make: impl FnOnce() -> Vec<u8>) -> (f64, f64, usize) {
    let (start, cores) = (Instant::now(), core_seconds());
    let bytes = make();
    (
        start.elapsed().as_secs_f64(),
        core_seconds() - cores,
        bytes.len(),
    )
}

/// Prints both sides and their ratio.
pub fn run() {
    let lines = lines();
    let report = report_of(&lines);
    let fastest = |a: (f64, f64, usize), b: (f64, f64, usize)| (a.0.min(b.0), a.1.min(b.1), b.2);
    let none = (f64::INFINITY, f64::INFINITY, 0);
    let (mut ours, mut baseline) = (none, none);
    for _ in 0..RUNS {
        ours = fastest(
            ours,
            measured(|| workbook_of(&report).expect("the report fits")),
        );
        baseline = fastest(baseline, measured(|| alone(&lines)));
    }
    println!("{NAME}: a report of {ROWS} rows, 10 columns, as a workbook");
    println!(
        "  ours      {:8.3} s  {:8.2} s of a core  {:6.1} MB",
        ours.0,
        ours.1,
        ours.2 as f64 / 1e6
    );
    println!(
        "  baseline  {:8.3} s  {:8.2} s of a core  {:6.1} MB  (rust_xlsxwriter alone, the same cells)",
        baseline.0,
        baseline.1,
        baseline.2 as f64 / 1e6
    );
    println!(
        "  ratio     {:8.2}    {:8.2}  (aim {AIM})",
        ours.0 / baseline.0,
        ours.1 / baseline.1
    );
}
