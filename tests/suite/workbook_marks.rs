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
