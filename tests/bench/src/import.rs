//! Reading and normalising large tables against reading them alone.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use calamine::{Reader, Xlsx, open_workbook};
use polars::prelude::{CsvReadOptions, SerReader};
use rust_xlsxwriter::Workbook;
use sparewright::import::read_folder;

use crate::measure::{Made, Work, rows};

const WORKBOOK_ROWS: usize = 100_000;
const TEXT_ROWS: usize = 1_000_000;
const HEADERS: [&str; 10] = [
    "Part no",
    "Designation",
    "Bore",
    "Outside diameter",
    "Width",
    "Unit",
    "Price EUR",
    "Min qty",
    "Pack",
    "Lead time",
];
/// Standard sizes that the rows go round: designation, bore, outside diameter, width (ISO 15, dimension series 02).
const SIZES: [(&str, u32, u32, u32); 8] = [
    ("6200", 10, 30, 9),
    ("6201", 12, 32, 10),
    ("6202", 15, 35, 11),
    ("6203", 17, 40, 12),
    ("6204", 20, 47, 14),
    ("6205", 25, 52, 15),
    ("6206", 30, 62, 16),
    ("6207", 35, 72, 17),
];

/// A price list of 100,000 rows and 10 columns as xlsx.
pub fn workbook() -> Work {
    Work {
        name: "import-workbook",
        what: "read and normalise a workbook of 100,000 rows and 10 columns",
        baseline_is: "calamine alone reading the same file",
        aim: Some((1.25, 1.5)),
        rows: rows(WORKBOOK_ROWS),
        make: make_workbook,
        ours,
        baseline: |input| {
            let mut book: Xlsx<_> =
                open_workbook(input.join("prices.xlsx")).expect("the workbook was just written");
            let range = book
                .worksheet_range_at(0)
                .expect("there is a sheet")
                .expect("the sheet can be read");
            Made {
                rows: range.rows().count() - 1,
                held: Box::new((book, range)),
            }
        },
    }
}

/// A price list of 1,000,000 rows as CSV.
pub fn text_table() -> Work {
    Work {
        name: "import-csv",
        what: "read and normalise a CSV of 1,000,000 rows and 10 columns",
        baseline_is: "polars' own CSV reader alone",
        aim: Some((1.5, 2.5)),
        rows: rows(TEXT_ROWS),
        make: make_text_table,
        ours,
        baseline: polars_alone,
    }
}

/// A price list of 1,000,000 rows as CSV in which every second part is of a size that no other row has.
pub fn varied_text_table() -> Work {
    Work {
        name: "import-csv-varied",
        what: "read and normalise a CSV of 1,000,000 rows and 10 columns that repeats itself less",
        baseline_is: "polars' own CSV reader alone",
        aim: None,
        rows: rows(TEXT_ROWS),
        make: make_varied_table,
        ours,
        baseline: polars_alone,
    }
}

fn polars_alone(input: &Path) -> Made {
    let reader = CsvReadOptions::default().with_has_header(true);
    let reader = reader.try_into_reader_with_file_path(Some(input.join("prices.csv")));
    let frame = reader
        .expect("the file was just written")
        .finish()
        .expect("the file is a table");
    Made {
        rows: frame.height(),
        held: Box::new(frame),
    }
}

fn ours(input: &Path) -> Made {
    let imported = read_folder(input).expect("the folder holds a table");
    assert_eq!(
        imported.records.offers.len(),
        imported.rows_read,
        "every row is an offer"
    );
    Made {
        rows: imported.rows_read,
        held: Box::new(imported),
    }
}

/// The cells of one row.
fn row(at: usize) -> [String; 10] {
    let (designation, bore, outside, width) = SIZES[at % SIZES.len()];
    let price = 100 + (at * 7919) % 90_000;
    [
        format!("N-{at:07}"),
        format!("{designation}-2RS"),
        bore.to_string(),
        outside.to_string(),
        width.to_string(),
        "pc".to_owned(),
        format!("{}.{:02}", price / 100, price % 100),
        (1 + at % 5).to_string(),
        "1".to_owned(),
        format!("{} days", 1 + at % 30),
    ]
}

fn make_workbook(folder: &Path) -> PathBuf {
    let mut book = Workbook::new();
    let sheet = book
        .add_worksheet_with_constant_memory()
        .expect("a temporary file can be made");
    sheet.write_row(0, 0, HEADERS).expect("headers fit");
    for at in 0..rows(WORKBOOK_ROWS) {
        for (column, cell) in row(at).iter().enumerate() {
            let (line, column) = (at as u32 + 1, column as u16);
            let written = match cell.parse::<f64>() {
                Ok(number) => sheet.write_number(line, column, number),
                Err(_) => sheet.write_string(line, column, cell),
            };
            written.expect("cells fit");
        }
    }
    book.save(folder.join("prices.xlsx"))
        .expect("the folder can be written");
    folder.to_owned()
}

fn make_text_table(folder: &Path) -> PathBuf {
    let mut text = HEADERS.join(",");
    text.push('\n');
    for at in 0..rows(TEXT_ROWS) {
        let _ = writeln!(text, "{}", row(at).join(","));
    }
    fs::write(folder.join("prices.csv"), text).expect("the folder can be written");
    folder.to_owned()
}

/// Bearings by their designation alone and seals by their dimensions alone, in turn.
fn make_varied_table(folder: &Path) -> PathBuf {
    const SERIES: [&str; 6] = ["60", "62", "63", "64", "160", "618"];
    const SUFFIXES: [&str; 8] = ["", "-2RS", "-2Z", " C3", "-2RS C3", "-2Z C3", "/P6", "-RS"];
    let mut text = HEADERS.join(",").replace("Unit", "Type");
    text.push('\n');
    for at in 0..rows(TEXT_ROWS) {
        let mut cells = row(at);
        if at % 2 == 0 {
            let (suffix, series, code) =
                (SUFFIXES[at / 2 % 8], SERIES[at / 16 % 6], 4 + at / 96 % 12);
            cells[1] = format!("{series}{code:02}{suffix}");
            cells[2..=4].fill(String::new());
            cells[5] = "deep groove ball bearing".to_owned();
        } else {
            let bore = 1_000 + at % 19_997;
            cells[1] = String::new();
            cells[2] = format!("{}.{:02}", bore / 100, bore % 100);
            cells[3] = format!("{}", bore / 100 + 12 + at / 19_997 % 30);
            cells[4] = ["7", "8", "10", "12"][at % 4].to_owned();
            cells[5] = "rotary shaft seal".to_owned();
        }
        let _ = writeln!(text, "{}", cells.join(","));
    }
    fs::write(folder.join("prices.csv"), text).expect("the folder can be written");
    folder.to_owned()
}
