//! Large and hostile files: each is read, or refused with its limit in words.

use std::fmt::Write;
use std::path::Path;

use rust_xlsxwriter::{Format, Workbook};
use sparewright::import::limits::{MAX_COLUMNS, MAX_ROWS};
use sparewright::import::{Imported, read_folder};

fn import(name: &str, bytes: &[u8]) -> Imported {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join(name), bytes).unwrap();
    std::fs::write(
        folder.path().join("machines.csv"),
        "Machine;Downtime cost per hour;Installed\nM1;100;2\n",
    )
    .unwrap();
    read_folder(folder.path()).unwrap()
}

fn said(imported: &Imported) -> Vec<String> {
    imported
        .problems
        .iter()
        .map(|problem| problem.reason.to_string())
        .collect()
}

#[test]
fn a_text_file_of_too_many_rows_is_refused_with_the_limit() {
    let mut text = String::from("Part no;Bin;On hand\n");
    text.push_str(&"A\n".repeat(MAX_ROWS as usize));
    let imported = import("stock.csv", text.as_bytes());
    assert_eq!(
        said(&imported),
        ["row 5000001 is beyond the limit of 5000000 rows"]
    );
    assert_eq!(imported.records.machines.len(), 1, "the rest goes on");
}

#[test]
fn empty_formatted_rows_are_no_rows() {
    let mut book = Workbook::new();
    let page = book.add_worksheet();
    for (column, header) in (0..).zip(["Part no", "Bin", "On hand"]) {
        page.write_string(0, column, header).unwrap();
    }
    page.write_string(1, 0, "A-1").unwrap();
    page.write_number(1, 2, 4.0).unwrap();
    let format = Format::new().set_num_format("0.00");
    for row in 2..60_000 {
        for column in 0..3 {
            page.write_blank(row, column, &format).unwrap();
        }
    }
    let imported = import("stock.xlsx", &book.save_to_buffer().unwrap());
    let table = imported
        .tables
        .iter()
        .find(|t| &*t.file == "stock.xlsx")
        .unwrap();
    assert_eq!((table.rows.read, table.rows.blank), (1, 0));
}

#[test]
fn columns_beyond_the_limit_are_said_and_the_others_read() {
    // 16,384 columns is the limit of the xlsx format (ECMA-376).
    let mut book = Workbook::new();
    let page = book.add_worksheet();
    let headers = ["Part no", "Bin", "On hand", "Reserved", "Counted on"];
    for (column, header) in (0..).zip(headers) {
        page.write_string(0, column, header).unwrap();
    }
    for column in 5..16_384 {
        page.write_string(0, column, format!("x{column}")).unwrap();
        page.write_number(1, column, 1.0).unwrap();
    }
    page.write_string(1, 0, "A-1").unwrap();
    page.write_number(1, 2, 4.0).unwrap();
    let imported = import("stock.xlsx", &book.save_to_buffer().unwrap());
    assert_eq!(imported.records.stock[0].on_hand, Some(4.0));
    let table = imported
        .tables
        .iter()
        .find(|t| &*t.file == "stock.xlsx")
        .unwrap();
    let cut = 2 * (16_384 - MAX_COLUMNS);
    let words = format!("{cut} cells right of column {MAX_COLUMNS} were not read");
    assert!(table.why.contains(&words), "{:?}", table.why.last());
}

#[test]
fn the_longest_cell_of_the_format_is_read_whole() {
    // 32,767 characters is the limit of a cell in xlsx (ECMA-376); each of these takes three bytes.
    let long = "字".repeat(32_767);
    let mut book = Workbook::new();
    let page = book.add_worksheet();
    for (column, header) in (0..).zip(["Part no", "Bin", "On hand"]) {
        page.write_string(0, column, header).unwrap();
    }
    page.write_string(1, 0, &long).unwrap();
    page.write_string(1, 1, "R1").unwrap();
    page.write_number(1, 2, 4.0).unwrap();
    let imported = import("stock.xlsx", &book.save_to_buffer().unwrap());
    assert_eq!(imported.records.stock[0].part, long);
}

#[test]
fn a_folder_without_a_table_says_why_of_its_files() {
    let folder = tempfile::tempdir().unwrap();
    let broken =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/workbooks/libreoffice_password.xlsx");
    std::fs::copy(broken, folder.path().join("prices.xlsx")).unwrap();
    let error = read_folder(folder.path()).unwrap_err().to_string();
    assert!(
        error.ends_with("1 file was looked at; `prices.xlsx`: the workbook is protected by a password; save it without one"),
        "{error}"
    );
}

#[test]
fn headers_without_rows_are_told_and_not_taken_for_an_empty_shop() {
    let folder = tempfile::tempdir().unwrap();
    let header = "Part no;Bin;On hand\n";
    let said = || read_folder(folder.path()).unwrap_err().to_string();
    std::fs::write(folder.path().join("stock.csv"), header).unwrap();
    assert_eq!(said(), "`stock.csv` has a header and no rows");
    std::fs::write(
        folder.path().join("machines.csv"),
        "Machine;Downtime cost per hour;Installed\n",
    )
    .unwrap();
    assert_eq!(
        said(),
        "`machines.csv`, `stock.csv` have a header and no rows"
    );
    // Settings alone plan nothing either.
    std::fs::write(folder.path().join("shop.toml"), "shop = \"Mill\"\n").unwrap();
    assert!(said().ends_with("have a header and no rows"));
    // One row in one of them is a shop.
    let row = format!("{header}A-1;R1;4\n");
    std::fs::write(folder.path().join("stock.csv"), row).unwrap();
    assert_eq!(read_folder(folder.path()).unwrap().rows_read, 1);
}

#[test]
fn a_workbook_that_is_cut_off_says_so_without_jargon() {
    let mut book = Workbook::new();
    book.add_worksheet().write_string(0, 0, "Part no").unwrap();
    let whole = book.save_to_buffer().unwrap();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stock.xlsx");
    for share in [3, 5, 9] {
        std::fs::write(&path, &whole[..whole.len() * share / 10]).unwrap();
        let error = read_folder(folder.path()).unwrap_err();
        let said = error.of_what_was_sent();
        assert!(
            said.starts_with("no table could be read in what was sent; `stock.xlsx`: "),
            "{said}"
        );
        assert!(!said.contains(&*folder.path().to_string_lossy()), "{said}");
        assert!(!said.contains("eocd"), "{said}");
        assert!(said.contains("cut off; copy or save it again"), "{said}");
        assert!(
            error.to_string().contains("1 file was looked at"),
            "{error}"
        );
    }
}

#[test]
fn an_export_of_sixty_columns_is_read_by_the_few_that_are_known() {
    let mut text = String::from("Part no;Bin;On hand;Reserved;Counted on");
    for column in 0..55 {
        write!(text, ";ZZ{column}").unwrap();
    }
    text.push_str("\nA-1;R1;4;1;2026-03-09\n");
    let imported = import("export.csv", text.as_bytes());
    assert_eq!(imported.records.stock[0].reserved, Some(1.0));
}
