//! What a workbook says beside the values of its cells: merged cells, number formats, hidden rows and crossed-out ones
//! (ECMA-376, part 1, 18.3.1.55, 18.8.30, 18.3.1.73 and 18.8.37). Layouts are common practice, no source.

use rust_xlsxwriter::{Format, Workbook, Worksheet};
use sparewright::import::{Imported, read_folder};

/// Imports one sheet that `fill` writes.
fn import(name: &str, fill: impl FnOnce(&mut Worksheet)) -> Imported {
    let folder = tempfile::tempdir().unwrap();
    let mut workbook = Workbook::new();
    fill(workbook.add_worksheet());
    workbook.save(folder.path().join(name)).unwrap();
    read_folder(folder.path()).unwrap()
}

/// Writes rows of texts; a text that is a number is written as one.
fn write(sheet: &mut Worksheet, rows: &[&[&str]]) {
    for (row, cells) in rows.iter().enumerate() {
        for (column, text) in cells.iter().enumerate() {
            let at = (row as u32, column as u16);
            match text.parse::<f64>() {
                Ok(figure) => sheet.write_number(at.0, at.1, figure).unwrap(),
                Err(_) => sheet.write_string(at.0, at.1, *text).unwrap(),
            };
        }
    }
}

/// Problems as `cell: words`.
fn problems(imported: &Imported) -> Vec<String> {
    let said = imported.issues.iter();
    said.map(|issue| format!("{}: {}", issue.place.cell(), issue.problem))
        .collect()
}

#[test]
fn a_merged_quantity_counts_once_and_a_merged_name_holds_for_each_row() {
    let imported = import("stock.xlsx", |sheet| {
        write(
            sheet,
            &[
                &["Artikel", "Lagerplatz", "Bestand"],
                &["T-001", "A", "7"],
                &["", "B", ""],
                &["T-002", "C", "4"],
            ],
        );
        let plain = Format::new();
        sheet.merge_range(1, 0, 2, 0, "T-001", &plain).unwrap();
        sheet.merge_range(1, 2, 2, 2, "", &plain).unwrap();
        sheet.write_number(1, 2, 7.0).unwrap();
    });
    let rows: Vec<(&str, Option<&str>, Option<f64>)> = (imported.records.stock.iter())
        .map(|row| (&*row.part, row.bin.as_deref(), row.on_hand))
        .collect();
    assert_eq!(
        rows,
        [
            ("T-001", Some("A"), Some(7.0)),
            ("T-001", Some("B"), None),
            ("T-002", Some("C"), Some(4.0)),
        ]
    );
    let told = problems(&imported);
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(
        told[0].starts_with("C3: `7` stands in cells that are merged"),
        "{told:?}"
    );
}

#[test]
fn a_price_merged_over_two_parts_is_that_of_the_first() {
    let imported = import("offers.xlsx", |sheet| {
        write(
            sheet,
            &[
                &["Supplier", "Part no", "Price EUR", "Lead time"],
                &["Nordlager", "T-001", "3.2", "3 days"],
                &["Nordlager", "T-002", "", "3 days"],
            ],
        );
        let plain = Format::new();
        sheet.merge_range(1, 2, 2, 2, "", &plain).unwrap();
        sheet.write_number(1, 2, 3.2).unwrap();
        sheet.merge_range(1, 0, 2, 0, "Nordlager", &plain).unwrap();
    });
    let offers = &imported.records.offers;
    assert!(offers.iter().all(|offer| &*offer.supplier == "Nordlager"));
    let priced: Vec<bool> = offers.iter().map(|offer| offer.price.is_some()).collect();
    assert_eq!(priced, [true, false]);
    let told = problems(&imported);
    assert!(
        told.iter()
            .any(|told| told.starts_with("C3: `3.2` stands in")),
        "{told:?}"
    );
}

/// Units of `ISO 4217` that the prices of a sheet are in, row by row, each price with its own number format.
fn currencies(header: &str, formats: &[&str]) -> (Vec<String>, Vec<String>) {
    let imported = import("offers.xlsx", |sheet| {
        write(sheet, &[&["Supplier", "Part no", header, "Lead time"]]);
        for (at, format) in formats.iter().enumerate() {
            let row = at as u32 + 1;
            let number = format!("T-{row:03}");
            write_row(sheet, row, &["Nordlager", &number, "", "3 days"]);
            let format = Format::new().set_num_format(*format);
            sheet
                .write_number_with_format(row, 2, 3.2, &format)
                .unwrap();
        }
    });
    let prices = imported
        .records
        .offers
        .iter()
        .filter_map(|offer| offer.price);
    let codes = prices
        .map(|price| price.currency.code().to_owned())
        .collect();
    (codes, problems(&imported))
}

fn write_row(sheet: &mut Worksheet, row: u32, cells: &[&str]) {
    for (column, text) in cells.iter().enumerate() {
        sheet.write_string(row, column as u16, *text).unwrap();
    }
}

#[test]
fn a_price_is_in_the_currency_in_which_it_is_shown() {
    let formats = [
        "#,##0.00 [$USD]",
        "[$$-409]#,##0.00",
        "[$£-809]#,##0.00",
        "#,##0.00 \"€\"",
        "0.00",
    ];
    let (codes, told) = currencies("Price", &formats);
    // The last one names none and is in that of the shop, the euro by default.
    assert_eq!(codes, ["USD", "USD", "GBP", "EUR", "EUR"]);
    assert!(told.is_empty(), "{told:?}");
}

#[test]
fn words_hold_against_the_currency_of_a_format_and_it_is_told() {
    let (codes, told) = currencies("Price EUR", &["#,##0.00 [$USD]", "#,##0.00 [$EUR]"]);
    assert_eq!(codes, ["EUR", "EUR"]);
    let says = "C2: the cell is shown in USD, but row, header or title says EUR; taken as EUR, expected one currency";
    assert_eq!(told, [says]);
}

#[test]
fn a_discount_shown_in_percent_is_the_share_that_it_shows() {
    let imported = import("offers.xlsx", |sheet| {
        write(
            sheet,
            &[&[
                "Supplier",
                "Part no",
                "List price EUR",
                "Discount",
                "Lead time",
            ]],
        );
        let percent = Format::new().set_num_format("0.0%");
        for (row, share) in [(1, 0.3), (2, 0.005)] {
            write_row(sheet, row, &["Nordlager", "T-00", "", "", "3 days"]);
            sheet.write_string(row, 1, format!("T-00{row}")).unwrap();
            sheet.write_number(row, 2, 1000.0).unwrap();
            sheet
                .write_number_with_format(row, 3, share, &percent)
                .unwrap();
        }
        write_row(sheet, 3, &["Nordlager", "T-003", "", "", "3 days"]);
        sheet.write_number(3, 2, 1000.0).unwrap();
        sheet.write_number(3, 3, 1.0).unwrap();
    });
    let prices = imported
        .records
        .offers
        .iter()
        .filter_map(|offer| offer.price);
    let prices: Vec<String> = prices.map(|price| price.cost_of(1.0).to_string()).collect();
    // 1,000 less 30 %, less 0.5 % and less 1 %.
    assert_eq!(prices, ["700.00 EUR", "995.00 EUR", "990.00 EUR"]);
    let told = problems(&imported);
    assert!(told.is_empty(), "{told:?}");
}

#[test]
fn a_discount_shown_as_a_hundred_percent_may_be_one() {
    let imported = import("offers.xlsx", |sheet| {
        let header = [
            "Supplier",
            "Part no",
            "List price EUR",
            "Discount",
            "Lead time",
        ];
        write(sheet, &[&header]);
        let percent = Format::new().set_num_format("0%");
        write_row(sheet, 1, &["Nordlager", "T-001", "", "", "3 days"]);
        sheet.write_number(1, 2, 1000.0).unwrap();
        sheet.write_number_with_format(1, 3, 1.0, &percent).unwrap();
    });
    // A cell of 1 in the format `0%` shows 100 %, whoever typed it meaning one percent.
    assert_eq!(imported.records.offers[0].price, None);
    assert_eq!(
        problems(&imported),
        [
            "D2: `1` is out of range; expected a discount of 0 to 99 %: the cell shows 100 %, which may be meant as 1 %"
        ]
    );
}

#[test]
fn hidden_rows_are_read_and_told_and_crossed_out_ones_are_not_read() {
    let imported = import("offers.xlsx", |sheet| {
        write(
            sheet,
            &[
                &["Supplier", "Part no", "Price EUR", "Lead time"],
                &["Nordlager", "T-001", "3.2", "3 days"],
                &["Nordlager", "T-002", "4.2", "3 days"],
                &["Nordlager", "T-003", "5.2", "3 days"],
                &["Nordlager", "T-004", "6.2", "3 days"],
            ],
        );
        sheet.set_row_hidden(2).unwrap();
        let crossed = Format::new().set_font_strikethrough();
        for (column, text) in [(0, "Nordlager"), (1, "T-003"), (3, "3 days")] {
            sheet
                .write_string_with_format(3, column, text, &crossed)
                .unwrap();
        }
        sheet.write_number_with_format(3, 2, 5.2, &crossed).unwrap();
        // An old price in a row that holds.
        sheet.write_number_with_format(4, 2, 6.2, &crossed).unwrap();
    });
    let rows: Vec<(u32, bool)> = (imported.records.offers.iter())
        .map(|offer| (offer.place.row, offer.price.is_some()))
        .collect();
    assert_eq!(rows, [(1, true), (2, true), (4, false)]);
    assert_eq!(imported.rows_rejected, 1);
    let told = problems(&imported).join("\n");
    for says in [
        "row 3: rows are hidden in the workbook and read like the others: 3; expected",
        "row 4: the row is crossed out, and not read",
        "C5: `6.2` is crossed out, and not read",
    ] {
        assert!(told.contains(says), "{says}: {told}");
    }
}

#[test]
fn hidden_columns_and_filters_hide_no_row() {
    let imported = import("offers.xlsx", |sheet| {
        write(
            sheet,
            &[
                &["Supplier", "Part no", "Price EUR", "Lead time"],
                &["Nordlager", "T-001", "3.2", "3 days"],
            ],
        );
        sheet.set_column_hidden(3).unwrap();
        sheet.autofilter(0, 0, 1, 3).unwrap();
    });
    assert_eq!(imported.records.offers.len(), 1);
    assert!(imported.issues.is_empty(), "{:?}", problems(&imported));
}

#[test]
fn a_charge_with_its_figure_in_the_next_cell_is_told() {
    let imported = import("offers.xlsx", |sheet| {
        write(
            sheet,
            &[
                &["Preisliste"],
                &["Mindestbestellwert EUR", "150"],
                &["Lieferzeit", "6 Wochen"],
                &[],
                &["Lieferant", "Artikelnr", "Preis EUR"],
                &["Nordlager", "T-001", "3.2"],
            ],
        );
    });
    let told = problems(&imported);
    assert_eq!(told.len(), 1, "{told:?}");
    let says = "A2: the line `Mindestbestellwert EUR 150` beside the list is not planned with";
    assert!(told[0].starts_with(says), "{told:?}");
    let lead_time = imported.records.offers[0].lead_time.unwrap();
    // Six weeks of seven days.
    assert_eq!(lead_time.to_string(), "42 days");
}
