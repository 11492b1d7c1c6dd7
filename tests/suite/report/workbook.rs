//! The workbook, read back with a reader of workbooks that shares no code with the writer.

use std::io::Cursor;

use calamine::{Data, Range, Reader, Xlsx, open_workbook_from_rs};
use sparewright::report::model::OWN_REPORT_MARK;
use sparewright::report::{WorkbookError, workbook_of};

use super::sample::{FORMULA_LIKE, date, report};

/// Row of the headers, from 0.
const HEADER_ROW: usize = 3;

fn open() -> Xlsx<Cursor<Vec<u8>>> {
    open_workbook_from_rs(Cursor::new(workbook_of(&report()).unwrap())).unwrap()
}

/// Cell of a range by absolute row and column.
fn cell(range: &Range<Data>, row: usize, column: usize) -> Data {
    range
        .get_value((row as u32, column as u32))
        .cloned()
        .unwrap_or(Data::Empty)
}

fn words(range: &Range<Data>, row: usize, column: usize) -> String {
    cell(range, row, column).to_string()
}

fn is_day(data: &Data, day: chrono::NaiveDate) -> bool {
    matches!(data, Data::DateTime(found) if found.as_datetime().map(|m| m.date()) == Some(day))
}

#[test]
fn the_cover_comes_first_and_carries_our_mark() {
    let mut book = open();
    assert_eq!(
        book.sheet_names(),
        [
            "Cover",
            "Orders",
            "Rebuild kits",
            "Alternatives",
            "Stock levels",
            "Issues",
            "Shelf life"
        ]
    );
    let cover = book.worksheet_range("Cover").unwrap();
    assert_eq!(cell(&cover, 0, 0), Data::String(OWN_REPORT_MARK.to_owned()));
    let all: Vec<String> = cover.used_cells().map(|(_, _, d)| d.to_string()).collect();
    for expected in [
        "1. Order 4 × DIN 625 6204-2RS before 11:00",
        // Figures; their units stand in the formats.
        "212.5",
        "0.873",
        "unknown",
        "486.88",
        "▲ old: 109 days",
    ] {
        assert!(all.iter().any(|text| text == expected), "{expected}");
    }
}

#[test]
fn headers_carry_units_and_values_keep_their_types() {
    let mut book = open();
    let orders = book.worksheet_range("Orders").unwrap();
    let headers: Vec<String> = (0..11).map(|c| words(&orders, HEADER_ROW, c)).collect();
    assert_eq!(
        headers,
        [
            "Mark",
            "Part",
            "Supplier",
            "Quantity",
            "Unit",
            "Unit price (EUR)",
            "Cost (EUR)",
            "Lead time (workdays)",
            "Order by",
            "Arrives",
            "Why"
        ]
    );
    let first = HEADER_ROW + 1;
    assert_eq!(words(&orders, first, 0), "■ STOP");
    assert_eq!(cell(&orders, first, 3), Data::Float(4.0));
    assert_eq!(cell(&orders, first, 6), Data::Float(49.6));
    assert!(is_day(&cell(&orders, first, 9), date(2026, 3, 11)));
    let Data::DateTime(moment) = cell(&orders, first, 8) else {
        panic!("order by is no moment: {:?}", cell(&orders, first, 8));
    };
    let expected = date(2026, 3, 9).and_hms_opt(11, 0, 0);
    assert_eq!(moment.as_datetime(), expected);
    // Unknown is a word in every kind of column.
    for column in 7..10 {
        assert_eq!(words(&orders, first + 1, column), "unknown");
    }
}

#[test]
fn formulas_are_live_and_carry_their_results() {
    let mut book = open();
    let orders = book.worksheet_range("Orders").unwrap();
    let formulas = book.worksheet_formula("Orders").unwrap();
    let formula = |row: usize, column: usize| {
        formulas
            .get_value((row as u32, column as u32))
            .cloned()
            .unwrap_or_default()
    };
    let first = HEADER_ROW + 1;
    assert_eq!(formula(first, 6), "ROUND(D5*F5,2)");
    // 250 × 0.0085 = 2.125, to whole cents 2.13.
    assert_eq!(formula(first + 3, 6), "ROUND(D8*F8,2)");
    assert_eq!(cell(&orders, first + 3, 6), Data::Float(2.13));
    // No price, no formula: the word, not a mistake of the spreadsheet.
    assert_eq!(formula(first + 2, 6), "");
    assert_eq!(words(&orders, first + 2, 6), "unknown");
    // 49.60 + 18.90 + 2.13 + 416.25 (12.5 × 33.30).
    assert_eq!(
        formula(first + 5, 6),
        "SUBTOTAL(109,table_orders[Cost (EUR)])"
    );
    assert_eq!(cell(&orders, first + 5, 6), Data::Float(486.88));
    assert_eq!(
        words(&orders, first + 5, 1),
        "Total of known (1 row unknown)"
    );
}

#[test]
fn words_that_look_like_formulas_stay_words() {
    let mut book = open();
    let issues = book.worksheet_range("Issues").unwrap();
    let formulas = book.worksheet_formula("Issues").unwrap();
    assert!(formulas.used_cells().all(|(_, _, text)| text.is_empty()));
    for (row, expected) in (HEADER_ROW + 1..).zip(FORMULA_LIKE) {
        assert_eq!(cell(&issues, row, 1), Data::String(expected.to_owned()));
    }
    let long = words(&issues, HEADER_ROW + 7, 1);
    assert_eq!(long.encode_utf16().count(), 32_767, "limit of the format");
    assert!(
        long.ends_with("a cell can hold]"),
        "{}",
        &long[long.len() - 60..]
    );
}

#[test]
fn an_empty_sheet_says_why_and_a_long_one_is_complete() {
    let mut book = open();
    let empty = book.worksheet_range("Shelf life").unwrap();
    assert_eq!(words(&empty, HEADER_ROW, 2), "Value (EUR)");
    assert!(words(&empty, HEADER_ROW + 1, 0).starts_with("No part in stock"));
    let stock = book.worksheet_range("Stock levels").unwrap();
    assert_eq!(words(&stock, HEADER_ROW + 300, 0), "Part 299");
    // Sum of n × 123.45 for n = 0 to 299: 123.45 × 299 × 300 / 2.
    assert_eq!(cell(&stock, HEADER_ROW + 301, 5), Data::Float(5_536_732.5));
}

#[test]
fn tables_are_real_and_know_their_size() {
    let mut book = open();
    book.load_tables().unwrap();
    let names: Vec<String> = book.table_names().into_iter().cloned().collect();
    assert!(names.contains(&"table_orders".to_owned()), "{names:?}");
    assert!(!names.contains(&"table_expiring".to_owned()), "{names:?}");
    let table = book.table_by_name("table_stock_levels").unwrap();
    assert_eq!(table.data().height(), 300);
    assert_eq!(table.columns()[5], "Value (EUR)");
}

#[test]
fn a_figure_that_its_formula_would_not_give_is_refused() {
    let mut wrong = report();
    wrong.sheets[0].rows[0].cells[5] = super::sample::euros(4_900);
    let error = workbook_of(&wrong).unwrap_err();
    assert!(matches!(error, WorkbookError::Model(_)), "{error}");
    assert_eq!(
        error.to_string(),
        "sheet `orders`, row 1: `cost_eur` is 49, but its formula gives 49.6"
    );
}

#[test]
fn titles_and_keys_that_a_workbook_cannot_have_are_refused() {
    for title in [
        "",
        "Cover",
        "history",
        "a/b",
        "twelve: 12",
        &"x".repeat(32),
        "Rebuild Kits",
    ] {
        let mut wrong = report();
        wrong.sheets[0].title = title.to_owned();
        assert!(workbook_of(&wrong).is_err(), "{title}");
    }
    for key in ["", "Orders", "a b", "../a", "kits"] {
        let mut wrong = report();
        wrong.sheets[0].key = key.to_owned();
        assert!(workbook_of(&wrong).is_err(), "{key}");
    }
}

#[test]
fn a_total_of_nothing_known_is_the_word_and_no_formula() {
    let mut dark = report();
    for row in &mut dark.sheets[1].rows {
        row.cells[2] = sparewright::report::model::Value::unknown("no lead time");
    }
    let bytes = workbook_of(&dark).unwrap();
    let mut book: Xlsx<_> = open_workbook_from_rs(Cursor::new(bytes)).unwrap();
    let kits = book.worksheet_range("Rebuild kits").unwrap();
    assert_eq!(words(&kits, HEADER_ROW + 6, 3), "unknown");
    assert_eq!(
        words(&kits, HEADER_ROW + 6, 1),
        "Total of known (5 rows unknown)"
    );
    let formulas = book.worksheet_formula("Rebuild kits").unwrap();
    assert!(formulas.used_cells().all(|(_, _, text)| text.is_empty()));
}

#[test]
fn a_request_prints_every_condition_whatever_room_it_takes() {
    // What is not accepted must stand on the paper that is sent.
    let job = sparewright::job::Job::read(&crate::imported::demo(), None).unwrap();
    let planned = job.plan().unwrap();
    let requests = sparewright::report::content::purchase_requests(&job.inputs(&planned));
    assert!(requests.len() > 3);
    for language in sparewright::language::Language::all() {
        for request in &requests {
            let report = sparewright::report::translated(request.report.clone(), language);
            for sheet in &report.sheets {
                let laid = sparewright::report::on_paper(sheet);
                assert_eq!(
                    laid.printed,
                    sheet.columns.len(),
                    "{}, {}: {:?}",
                    request.file_stem,
                    sheet.key,
                    laid.widths
                );
            }
        }
    }
}
