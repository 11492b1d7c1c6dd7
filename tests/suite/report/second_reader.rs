//! The workbook read by a reader of another ecosystem (openpyxl), cell by cell against what was meant.

use std::process::Command;

use serde_json::Value as Json;
use sparewright::place::column_letters;
use sparewright::report::model::{ColumnKind, Sheet, UNKNOWN, Value};
use sparewright::report::{Report, on_paper, workbook_of};

use super::outside::python;
use super::sample::report;

/// Row of the first values, counted from 1.
const FIRST_ROW: usize = 5;

/// What the reader found; `None` where there is no reader.
fn read(report: &Report) -> Option<Json> {
    let python = python()?;
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("book.xlsx");
    std::fs::write(&path, workbook_of(report).unwrap()).unwrap();
    let script = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/tests/readers/read_workbook.py"
    );
    let output = Command::new(python)
        .arg(script)
        .arg(&path)
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}");
    Some(serde_json::from_slice(&output.stdout).unwrap())
}

/// Kind and value as the reader should tell them; `None` for a blank cell.
fn meant(value: &Value) -> Option<(&'static str, Json)> {
    Some(match value {
        Value::Empty => return None,
        Value::Text(words) if words.is_empty() => return None,
        Value::Unknown(_) => ("text", UNKNOWN.into()),
        Value::Text(words) => ("text", words.to_string().into()),
        Value::Flag(flag) => ("text", if *flag { "yes" } else { "no" }.into()),
        Value::Date(date) => ("moment", date.format("%Y-%m-%dT00:00").to_string().into()),
        Value::Moment(moment) => ("moment", moment.format("%Y-%m-%dT%H:%M").to_string().into()),
        _ => ("number", value.as_number().unwrap().into()),
    })
}

/// A text as the reader gives it: line ends are one sign, and signs that XML cannot hold stay spelt out
/// (ECMA-376 part 4, 7.4.2.4, ST_Xstring).
fn spelt(text: &str) -> String {
    let text = text.replace("\r\n", "\n");
    let signs = text.chars().map(|sign| match sign {
        '\n' | '\t' => sign.to_string(),
        sign if sign.is_control() => format!("_x{:04X}_", u32::from(sign)),
        sign => sign.to_string(),
    });
    signs.collect()
}

fn is_same(kind: &str, found: &Json, meant: &Json) -> bool {
    match (kind, found.as_f64(), meant.as_f64()) {
        ("number", Some(found), Some(meant)) => {
            (found - meant).abs() <= 1e-9 * meant.abs().max(1.0)
        }
        // A text longer than a cell can hold is cut with a mark.
        ("text", ..) if meant.as_str().unwrap().len() > 32_767 => {
            found.as_str().unwrap().ends_with("a cell can hold]")
        }
        ("text", ..) => found.as_str().unwrap() == spelt(meant.as_str().unwrap()),
        _ => found == meant,
    }
}

/// Number of cells compared.
fn compare(sheet: &Sheet, found: &Json) -> usize {
    let cells = &found["sheets"][&sheet.title]["cells"];
    let first = usize::from(sheet.has_marks);
    // In a workbook columns for the screen stand to the right of those that are printed.
    let laid = on_paper(sheet);
    let sheet = &*laid.sheet;
    let mut compared = 0;
    for (row, number) in sheet.rows.iter().zip(FIRST_ROW..) {
        for (at, (column, value)) in sheet.columns.iter().zip(&row.cells).enumerate() {
            let place = format!("{}{number}", column_letters((first + at) as u32));
            let cell = &cells[&place];
            let Some((kind, meant)) = meant(value) else {
                assert!(cell.is_null(), "{} {place}: {cell}", sheet.key);
                continue;
            };
            assert_eq!(cell[0], kind, "{} {place}: {cell}, not {meant}", sheet.key);
            assert!(
                is_same(kind, &cell[1], &meant),
                "{} {place}: {cell}, not {meant}",
                sheet.key
            );
            assert!(
                cell[3] == false || column.formula.is_some(),
                "{} {place} became a formula: {cell}",
                sheet.key
            );
            let format = cell[2].as_str().unwrap();
            let expected = match column.kind {
                _ if kind == "text" => None,
                ColumnKind::Date => Some("yyyy-mm-dd"),
                ColumnKind::Moment => Some("yyyy-mm-dd hh:mm"),
                ColumnKind::Money(_) => Some("#,##0.00"),
                // One decimal of per cent says nothing below one per cent.
                ColumnKind::Share => {
                    let share = value.as_number().unwrap_or_default();
                    let is_small = share != 0.0 && share.abs() < 0.01;
                    Some(if is_small { "0.0###%" } else { "0.0%" })
                }
                _ => None,
            };
            assert!(
                expected.is_none_or(|of| of == format),
                "{} {place}: {format}",
                sheet.key
            );
            compared += 1;
        }
    }
    compared
}

/// Compares every sheet; gives how many cells were compared.
fn compare_all(report: &Report, found: &Json) -> usize {
    let sheets = report.sheets.iter();
    sheets.map(|sheet| compare(sheet, found)).sum()
}

#[test]
fn another_reader_finds_every_value_of_the_sample() {
    let report = report();
    let Some(found) = read(&report) else { return };
    let compared = compare_all(&report, &found);
    // 300 rows of six columns alone.
    assert!(compared > 1_800, "{compared}");
    assert_eq!(found["title"], "Reorder report");
    assert_eq!(found["created"], "2026-03-09T07:30");
    let orders = &found["sheets"]["Orders"];
    assert_eq!(orders["frozen"], "C5");
    assert_eq!(
        orders["print_titles"]
            .as_str()
            .map(|rows| rows.replace('$', ""))
            .as_deref(),
        Some("4:4")
    );
    assert_eq!(orders["print_area"], true);
    assert_eq!(
        orders["tables"]["table_orders"],
        serde_json::json!([1, 4, 11, 10])
    );
    assert_eq!(orders["filters"], serde_json::json!([true]));
    assert_eq!(orders["conditions"], 2);
    assert!(orders["header"].as_str().unwrap().contains("Orders"));
    assert_eq!(found["sheets"]["Rebuild kits"]["charts"], 1);
    let total = found["names"]["total_orders_cost_eur"]
        .as_str()
        .unwrap()
        .replace('\'', "");
    assert_eq!(total, "Orders!$G$10");
    // The figure that the name leads to: 49.60 + 18.90 + 2.13 + 416.25.
    assert_eq!(orders["cells"]["G10"][1], 486.88);
    let as_of = found["names"]["as_of"].as_str().unwrap().replace('$', "");
    let cell = as_of.split_once('!').unwrap().1;
    assert_eq!(
        found["sheets"]["Cover"]["cells"][cell][1],
        "2026-03-09T07:30"
    );
}

#[test]
fn figures_of_the_cover_are_figures_with_their_unit_in_the_format() {
    let Some(found) = read(&report()) else { return };
    let cells = found["sheets"]["Cover"]["cells"].as_object().unwrap();
    for (figure, format) in [
        (212.5, "#,##0.0\" h\""),
        (0.873, "0.0%"),
        (486.88, "#,##0.00\" EUR\""),
        (5.0, "#,##0"),
    ] {
        let is_there = cells
            .values()
            .any(|cell| cell[1].as_f64() == Some(figure) && cell[2] == format);
        assert!(is_there, "{figure} as {format}");
    }
}

#[test]
fn another_reader_finds_every_value_of_the_demo() {
    let (job, planned) = crate::demo::demo();
    let report = job.report(planned);
    let Some(found) = read(&report) else { return };
    let compared = compare_all(&report, &found);
    assert!(compared > 10_000, "{compared}");
    let charts = |title: &str| found["sheets"][title]["charts"].as_u64().unwrap();
    // Downtime by machine, availability against money, arrival bands of each kit that waits for a line.
    assert_eq!(charts("Kits and what holds them"), 1);
    assert_eq!(charts("What service costs"), 1);
    assert!(charts("Kit lines") >= 10);
}
