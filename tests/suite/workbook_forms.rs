//! One table in every form that a spreadsheet can give it: typed cells or texts, dates in any format, formulas with their
//! results, anywhere on a sheet, on one sheet or several. What is read is the same (ECMA-376, part 1, 18.3.1 and 18.17.4).

use chrono::NaiveDate;
use proptest::prelude::*;
use rust_xlsxwriter::{ExcelDateTime, Format, Formula, Workbook, Worksheet};
use sparewright::import::{Imported, read_folder};
use sparewright::record::Records;

/// A cell as a person means it.
#[derive(Debug, Clone)]
enum Meant {
    Text(String),
    Number(f64),
    Day(NaiveDate),
    Nothing,
}

/// How cells are put into a sheet.
#[derive(Debug, Clone, Copy)]
enum Form {
    Typed,
    Texts,
    Formulas,
}

const FORMS: [Form; 3] = [Form::Typed, Form::Texts, Form::Formulas];

impl Meant {
    fn as_text(&self) -> String {
        match self {
            Self::Text(text) => text.clone(),
            Self::Number(number) => number.to_string(),
            Self::Day(day) => day.to_string(),
            Self::Nothing => String::new(),
        }
    }

    fn put(&self, sheet: &mut Worksheet, at: (u32, u16), form: Form, day_format: &str) {
        let (row, column) = at;
        match (self, form) {
            (Self::Nothing, _) => {}
            (Self::Text(text), Form::Formulas) => {
                let formula = Formula::new("=A1").set_result(text);
                sheet.write_formula(row, column, formula).unwrap();
            }
            (Self::Number(number), Form::Formulas) => {
                let formula = Formula::new("=1+1").set_result(number.to_string());
                sheet.write_formula(row, column, formula).unwrap();
            }
            (Self::Number(number), Form::Typed) => {
                sheet.write_number(row, column, *number).unwrap();
            }
            (Self::Day(day), Form::Typed | Form::Formulas) => {
                let format = Format::new().set_num_format(day_format);
                let day = ExcelDateTime::parse_from_str(&day.to_string()).unwrap();
                sheet
                    .write_datetime_with_format(row, column, day, &format)
                    .unwrap();
            }
            (meant, _) => {
                sheet.write_string(row, column, meant.as_text()).unwrap();
            }
        }
    }
}

type Rows = Vec<Vec<Meant>>;

fn put(sheet: &mut Worksheet, rows: &Rows, (top, left): (u32, u16), form: Form, day_format: &str) {
    for (row, cells) in rows.iter().enumerate() {
        for (column, meant) in cells.iter().enumerate() {
            meant.put(
                sheet,
                (top + row as u32, left + column as u16),
                form,
                day_format,
            );
        }
    }
}

fn read(name: &str, bytes: &[u8]) -> Imported {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join(name), bytes).unwrap();
    read_folder(folder.path()).unwrap_or_else(|error| panic!("{error}"))
}

fn as_csv(rows: &Rows) -> String {
    let lines = rows.iter().map(|cells| {
        let cells: Vec<String> = cells.iter().map(Meant::as_text).collect();
        format!("{}\n", cells.join(";"))
    });
    lines.collect()
}

fn as_workbook(rows: &Rows, corner: (u32, u16), form: Form, day_format: &str) -> Vec<u8> {
    let mut book = Workbook::new();
    put(book.add_worksheet(), rows, corner, form, day_format);
    book.save_to_buffer().unwrap()
}

/// Records without the places they came from.
fn said(imported: &Imported) -> Vec<String> {
    let Records {
        stock,
        usages,
        receipts,
        ..
    } = &imported.records;
    let stock = stock.iter().map(|row| {
        let figures = (
            row.on_hand,
            row.reserved,
            row.due_date,
            &row.bin,
            row.unit_of_count,
        );
        format!("stock {} {figures:?}", row.part)
    });
    let usages = usages.iter().map(|row| {
        format!(
            "usage {} {} {} {:?} {:?}",
            row.date, row.part, row.quantity, row.machine, row.reason
        )
    });
    let receipts = receipts.iter().map(|row| {
        format!(
            "receipt {} {} {} {:?} {:?} {:?}",
            row.supplier, row.part, row.ordered, row.promised, row.received, row.quantity
        )
    });
    stock.chain(usages).chain(receipts).collect()
}

fn text(text: &str) -> Meant {
    Meant::Text(text.to_owned())
}

fn header(words: &[&str]) -> Vec<Meant> {
    words.iter().map(|word| text(word)).collect()
}

fn day() -> impl Strategy<Value = Meant> {
    // Days that no reading by month and day turns round: nobody guesses them from text.
    (2020_i32..2027, 1_u32..13, 1_u32..29).prop_map(|(year, month, day)| {
        Meant::Day(NaiveDate::from_ymd_opt(year, month, day).unwrap())
    })
}

fn maybe(meant: impl Strategy<Value = Meant>) -> impl Strategy<Value = Meant> {
    prop::option::weighted(0.7, meant).prop_map(|meant| meant.unwrap_or(Meant::Nothing))
}

fn number() -> impl Strategy<Value = Meant> {
    // Two decimals at most: three may be thousands in a text.
    (1_u32..100_000).prop_map(|hundredths| Meant::Number(f64::from(hundredths) / 100.0))
}

fn name(pattern: &'static str) -> impl Strategy<Value = Meant> {
    pattern.prop_map(Meant::Text)
}

fn stock() -> impl Strategy<Value = Rows> {
    let row = (
        name("[QX][A-Z]-[0-9]{3}"),
        maybe(name("[A-Z][0-9]{1,3}")),
        maybe(number()),
        maybe(number()),
        maybe(day()),
        maybe(prop::sample::select(vec![
            text("pcs"),
            text("m"),
            text("set of 2"),
        ])),
    );
    prop::collection::vec(row, 1..8).prop_map(|rows| {
        let cells = rows
            .into_iter()
            .map(|(a, b, c, d, e, f)| vec![a, b, c, d, e, f]);
        let header = header(&["Part no", "Bin", "On hand", "Reserved", "Due date", "Unit"]);
        std::iter::once(header).chain(cells).collect()
    })
}

fn usages() -> impl Strategy<Value = Rows> {
    let reasons = prop::sample::select(vec![text("failure"), text("planned"), text("rebuild")]);
    let row = (
        day(),
        name("[QX][A-Z]-[0-9]{3}"),
        number(),
        maybe(name("M[0-9]{1,2}")),
        maybe(reasons),
    );
    prop::collection::vec(row, 1..8).prop_map(|rows| {
        let cells = rows.into_iter().map(|(a, b, c, d, e)| vec![a, b, c, d, e]);
        let header = header(&["Date", "Part no", "Quantity", "Machine", "Reason"]);
        std::iter::once(header).chain(cells).collect()
    })
}

#[test]
fn a_day_is_a_day_in_every_format() {
    // Formats of dates: ECMA-376, part 1, 18.8.30 (numFmt), built in 14 to 22 and given ones.
    let rows = vec![
        header(&["Date", "Part no", "Quantity", "Machine", "Reason"]),
        vec![
            Meant::Day(NaiveDate::from_ymd_opt(2026, 3, 4).unwrap()),
            text("AB-101"),
            Meant::Number(1.0),
            text("M1"),
            text("failure"),
        ],
    ];
    let expected = said(&read("usages.csv", as_csv(&rows).as_bytes()));
    assert_eq!(expected.len(), 1);
    for format in [
        "yyyy-mm-dd",
        "dd.mm.yyyy",
        "dd/mm/yyyy",
        "mm/dd/yyyy",
        "d-mmm-yy",
        "mmmm yyyy",
        "m/d/yy h:mm",
        "[$-407]d. mmmm yyyy",
        "dddd",
        "yyyy\\-mm\\-dd",
        "dd\"th of\" mmmm",
    ] {
        let read = read(
            "usages.xlsx",
            &as_workbook(&rows, (0, 0), Form::Typed, format),
        );
        assert_eq!(said(&read), expected, "{format}");
    }
}

#[test]
fn numbers_are_their_values_whatever_their_format_shows() {
    for (format, value) in [
        ("0", 2.5),
        ("0.00", 2.5),
        ("#,##0", 1_234.0),
        ("#,##0.00 \"pcs\"", 12.0),
        ("0.00E+00", 1_500.0),
        ("# ?/?", 0.5),
        ("0%", 3.0),
        ("[Red]0;[Blue]-0", 7.0),
        ("@", 4.0),
        ("General", 1e6),
    ] {
        let mut book = Workbook::new();
        let sheet = book.add_worksheet();
        for (column, word) in ["Part no", "Bin", "On hand"].iter().enumerate() {
            sheet.write_string(0, column as u16, *word).unwrap();
        }
        sheet.write_string(1, 0, "AB-101").unwrap();
        sheet.write_string(1, 1, "R1").unwrap();
        sheet
            .write_number_with_format(1, 2, value, &Format::new().set_num_format(format))
            .unwrap();
        let imported = read("stock.xlsx", &book.save_to_buffer().unwrap());
        assert_eq!(imported.records.stock[0].on_hand, Some(value), "{format}");
    }
}

#[test]
fn a_number_kept_as_text_keeps_its_zeros_and_its_sign() {
    for (written, expected) in [
        ("0106", "0106"),
        ("00012", "00012"),
        ("1-12", "1-12"),
        ("6305", "6305"),
        ("3E5", "3E5"),
        ("+4", "+4"),
        ("1/2-7", "1/2-7"),
    ] {
        let rows = vec![
            header(&["Part no", "Bin", "On hand"]),
            vec![text(written), text("R1"), Meant::Number(2.0)],
        ];
        let imported = read(
            "stock.xlsx",
            &as_workbook(&rows, (0, 0), Form::Typed, "yyyy-mm-dd"),
        );
        let parts: Vec<&str> = imported
            .records
            .stock
            .iter()
            .map(|row| row.part.as_str())
            .collect();
        assert_eq!(parts, [expected], "{written}");
    }
}

#[test]
fn booleans_are_yes_and_no() {
    for (value, expected) in [(true, Some(true)), (false, Some(false))] {
        let mut book = Workbook::new();
        let sheet = book.add_worksheet();
        for (column, word) in ["Supplier", "Approved", "Freight EUR"].iter().enumerate() {
            sheet.write_string(0, column as u16, *word).unwrap();
        }
        sheet.write_string(1, 0, "Nordlager").unwrap();
        sheet.write_boolean(1, 1, value).unwrap();
        sheet.write_number(1, 2, 9.5).unwrap();
        let imported = read("suppliers.xlsx", &book.save_to_buffer().unwrap());
        assert_eq!(imported.records.suppliers[0].is_approved, expected);
        assert_eq!(
            imported.records.suppliers[0].freight.unwrap().to_string(),
            "9.50 EUR"
        );
    }
}

#[test]
fn a_time_of_day_is_a_fraction_of_a_day() {
    // ECMA-376, part 1, 18.17.4.2: 0.5 is noon.
    for (fraction, expected) in [
        (0.0, "00:00:00"),
        (0.25, "06:00:00"),
        (0.5, "12:00:00"),
        (0.604_166_666_666_667, "14:30:00"),
        (0.999_305_555_555_556, "23:59:00"),
    ] {
        let mut book = Workbook::new();
        let sheet = book.add_worksheet();
        for (column, word) in ["Supplier", "Approved", "Order cut-off"].iter().enumerate() {
            sheet.write_string(0, column as u16, *word).unwrap();
        }
        sheet.write_string(1, 0, "Nordlager").unwrap();
        sheet.write_string(1, 1, "yes").unwrap();
        sheet
            .write_number_with_format(1, 2, fraction, &Format::new().set_num_format("hh:mm"))
            .unwrap();
        let imported = read("suppliers.xlsx", &book.save_to_buffer().unwrap());
        let cutoff = imported.records.suppliers[0].order_cutoff.unwrap();
        assert_eq!(cutoff.to_string(), expected);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Typed, as texts or as formulas with results, in the corner or in the middle of a sheet: the rows of the text file.
    #[test]
    fn the_form_of_cells_changes_nothing(
        rows in prop_oneof![stock(), usages()],
        top in 0_u32..12,
        left in 0_u16..6,
    ) {
        let expected = said(&read("table.csv", as_csv(&rows).as_bytes()));
        prop_assert_eq!(expected.len(), rows.len() - 1);
        for form in FORMS {
            let imported = read("table.xlsx", &as_workbook(&rows, (top, left), form, "dd.mm.yyyy"));
            prop_assert_eq!(said(&imported), expected.clone(), "{:?} at {} {}", form, top, left);
            prop_assert_eq!(imported.issues.len(), 0, "{:?}", imported.issues);
        }
    }

    /// Two tables on one sheet, on two sheets or in two files are two tables.
    #[test]
    fn where_tables_stand_changes_nothing(stock in stock(), usages in usages(), gap in 2_u32..6) {
        let mut expected = said(&read("stock.csv", as_csv(&stock).as_bytes()));
        expected.extend(said(&read("usages.csv", as_csv(&usages).as_bytes())));
        let below = stock.len() as u32 + gap;
        let mut one_sheet = Workbook::new();
        let sheet = one_sheet.add_worksheet();
        put(sheet, &stock, (0, 0), Form::Typed, "yyyy-mm-dd");
        put(sheet, &usages, (below, 0), Form::Typed, "yyyy-mm-dd");
        let one_sheet = read("shop.xlsx", &one_sheet.save_to_buffer().unwrap());
        let mut two_sheets = Workbook::new();
        put(two_sheets.add_worksheet(), &usages, (0, 0), Form::Typed, "yyyy-mm-dd");
        put(two_sheets.add_worksheet(), &stock, (3, 2), Form::Texts, "yyyy-mm-dd");
        let two_sheets = read("shop.xlsx", &two_sheets.save_to_buffer().unwrap());
        prop_assert_eq!(said(&one_sheet), expected.clone());
        prop_assert_eq!(said(&two_sheets), expected);
    }
}
