//! The small shop as one workbook, a sheet for each table, and as workbooks of one table: the report is that of its text
//! files.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::OnceLock;

use chrono::NaiveDate;
use rust_xlsxwriter::{ExcelDateTime, Format, Workbook, Worksheet};
use serde_json::Value;
use sparewright::job::Job;
use sparewright::report::json_of;

use super::small_shop::SmallShop;

/// How cells are written.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Cells {
    /// Figures as figures, days as days.
    Typed,
    /// Everything as text.
    Texts,
    /// Figures as formulas that carry their result.
    Formulas,
}

/// Files of the shop as name and records.
fn files(shop: &SmallShop) -> BTreeMap<String, Vec<Vec<String>>> {
    let folder = tempfile::tempdir().unwrap();
    shop.write(folder.path());
    let entries = std::fs::read_dir(folder.path()).unwrap();
    entries
        .map(|entry| {
            let path = entry.unwrap().path();
            let text = std::fs::read_to_string(&path).unwrap();
            let rows = text
                .lines()
                .map(|line| line.split(',').map(str::to_owned).collect());
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            (name, rows.collect())
        })
        .collect()
}

fn fill(sheet: &mut Worksheet, rows: &[Vec<String>], at: (u32, u16), cells: Cells) {
    let day = Format::new().set_num_format("dd/mm/yyyy");
    for (row, record) in rows.iter().enumerate() {
        for (column, text) in record.iter().enumerate() {
            let (row, column) = (at.0 + row as u32, at.1 + column as u16);
            let figure = text.parse::<f64>().ok();
            if text.is_empty() {
                continue;
            }
            match (cells, figure, text.parse::<NaiveDate>()) {
                (Cells::Typed, Some(figure), _) => sheet.write_number(row, column, figure),
                (Cells::Formulas, Some(figure), _) => {
                    let formula = rust_xlsxwriter::Formula::new(format!("={figure}*1"))
                        .set_result(text.as_str());
                    sheet.write_formula(row, column, formula)
                }
                (Cells::Typed | Cells::Formulas, None, Ok(_)) => {
                    let moment = ExcelDateTime::parse_from_str(text).unwrap();
                    sheet.write_datetime_with_format(row, column, &moment, &day)
                }
                _ => sheet.write_string(row, column, text),
            }
            .unwrap();
        }
    }
}

/// Rows of the sheets that do not tell of files, without places.
fn content(folder: &Path) -> BTreeMap<String, Value> {
    let as_of = NaiveDate::from_ymd_opt(2026, 11, 26).and_then(|day| day.and_hms_opt(8, 0, 0));
    let job = Job::read(folder, as_of).unwrap();
    let planned = job.plan().unwrap();
    let json: Value = serde_json::from_slice(&json_of(&job.report(&planned))).unwrap();
    let mut sheets: BTreeMap<String, Value> = json["sheets"]
        .as_object()
        .unwrap()
        .iter()
        .filter(|(key, _)| !["files", "data_problems"].contains(&key.as_str()))
        .map(|(key, sheet)| (key.clone(), sheet["rows"].clone()))
        .collect();
    for rows in sheets.values_mut() {
        for row in rows.as_array_mut().unwrap() {
            let row = row.as_object_mut().unwrap();
            row.retain(|column, _| !["where_read", "where", "offer"].contains(&column.as_str()));
        }
    }
    sheets
}

fn of_text() -> BTreeMap<String, Value> {
    let folder = tempfile::tempdir().unwrap();
    SmallShop::new().write(folder.path());
    content(folder.path())
}

/// One workbook with a sheet for each table, each beginning at a cell.
fn as_one(cells: Cells, at: (u32, u16)) -> BTreeMap<String, Value> {
    let folder = tempfile::tempdir().unwrap();
    let mut book = Workbook::new();
    for (name, rows) in files(&SmallShop::new()) {
        fill(
            book.add_worksheet().set_name(&name).unwrap(),
            &rows,
            at,
            cells,
        );
    }
    book.save(folder.path().join("shop.xlsx")).unwrap();
    content(folder.path())
}

fn same(found: &BTreeMap<String, Value>, how: &str) {
    static PLAIN: OnceLock<BTreeMap<String, Value>> = OnceLock::new();
    let plain = PLAIN.get_or_init(of_text);
    assert_eq!(
        plain.keys().collect::<Vec<_>>(),
        found.keys().collect::<Vec<_>>()
    );
    for (key, rows) in plain {
        assert_eq!(&found[key], rows, "{how}: {key}");
    }
}

#[test]
fn one_workbook_is_as_good_as_nine_text_files() {
    same(&as_one(Cells::Typed, (0, 0)), "figures and days");
    same(&as_one(Cells::Texts, (0, 0)), "texts");
    same(&as_one(Cells::Formulas, (0, 0)), "formulas");
}

#[test]
fn tables_may_begin_anywhere_on_their_sheet() {
    for at in [(3, 0), (0, 2), (7, 5)] {
        same(&as_one(Cells::Typed, at), &format!("{at:?}"));
    }
}

#[test]
fn a_workbook_for_each_table_is_as_good() {
    let folder = tempfile::tempdir().unwrap();
    for (name, rows) in files(&SmallShop::new()) {
        let mut book = Workbook::new();
        fill(book.add_worksheet(), &rows, (0, 0), Cells::Typed);
        book.save(folder.path().join(format!("{name}.xlsx")))
            .unwrap();
    }
    same(&content(folder.path()), "a workbook each");
}

#[test]
fn half_text_files_and_half_a_workbook_are_one_shop() {
    let folder = tempfile::tempdir().unwrap();
    SmallShop::new().write(folder.path());
    let mut book = Workbook::new();
    for (at, (name, rows)) in files(&SmallShop::new()).into_iter().enumerate() {
        if at % 2 == 0 {
            std::fs::remove_file(folder.path().join(format!("{name}.csv"))).unwrap();
            fill(
                book.add_worksheet().set_name(&name).unwrap(),
                &rows,
                (0, 0),
                Cells::Typed,
            );
        }
    }
    book.save(folder.path().join("shop.xlsx")).unwrap();
    same(&content(folder.path()), "half and half");
}

#[test]
fn sheets_that_hold_no_table_and_hidden_columns_change_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = Workbook::new();
    book.add_worksheet()
        .set_name("Cover")
        .unwrap()
        .write_string(2, 1, "Lists of the shop, call Ruiz")
        .unwrap();
    for (name, rows) in files(&SmallShop::new()) {
        let sheet = book.add_worksheet().set_name(&name).unwrap();
        fill(sheet, &rows, (0, 0), Cells::Typed);
        sheet.set_column_hidden(1).unwrap();
        sheet.set_freeze_panes(1, 0).unwrap();
        sheet
            .autofilter(0, 0, rows.len() as u32 - 1, rows[0].len() as u16 - 1)
            .unwrap();
    }
    book.add_worksheet().set_name("Empty").unwrap();
    book.save(folder.path().join("shop.xlsx")).unwrap();
    same(
        &content(folder.path()),
        "cover, empty sheet, hidden columns, filters",
    );
}
