//! Rows to mend: out into a workbook, mended there, and in again as if they came from their table.

use std::path::Path;

use sparewright::import::{
    Imported, KeptCell, REJECTS_NAME, SkipReason, read_folder, read_rejects,
};
use sparewright::language::Language;
use sparewright::record::{QuotedLeadTime, ShopSettings};
use sparewright::report::rejects_workbook;

/// A German list: inches in the header, prices per 100 in złoty, decimal commas, day first.
const LIST: &str = "Angebot\nDatum: 09.03.2026\n\n\
    Art.-Nr.;Bezeichnung;d (Zoll);D (Zoll);B (Zoll);Preis PLN/100;Lieferzeit (Wochen);gültig bis\n\
    N1;Rillenkugellager;0,5;1,125;0,25;1.250,00;2;31.12.2026\n\
    N2;Rillenkugellager;x;1,125;0,25;1.250;2;31.12.2026\n\
    ;;;;;1,00;3;\n\
    N4;Rillenkugellager;0,5;1,125;0,25;4,50;bald;03.04.2026\n";

fn import(files: &[(&str, &[u8])]) -> Imported {
    let folder = tempfile::tempdir().unwrap();
    for (name, bytes) in files {
        std::fs::write(folder.path().join(name), bytes).unwrap();
    }
    read_folder(folder.path()).unwrap()
}

fn reasons(imported: &Imported) -> Vec<String> {
    imported
        .issues
        .iter()
        .map(|issue| issue.problem.to_string())
        .collect()
}

#[test]
fn rows_come_out_as_they_were_and_in_again_with_the_same_reasons() {
    let first = import(&[("nordlager.csv", LIST.as_bytes())]);
    assert_eq!(first.rejects.len(), 1);
    let table = &first.rejects[0];
    let rows: Vec<u32> = table.rows.iter().map(|row| row.row).collect();
    assert_eq!(rows, [5, 6, 7]);
    assert_eq!(table.rows[0].cells[2], KeptCell::Text("x".to_owned()));
    assert_eq!(table.origin.supplier.as_deref(), Some("nordlager"));
    let again = import(&[(
        REJECTS_NAME,
        &rejects_workbook(&first.rejects, Language::ENGLISH).unwrap(),
    )]);
    assert_eq!(reasons(&again), reasons(&first));
    assert_eq!(again.rows_rejected, first.rows_rejected);
    assert_eq!(&*again.issues[0].place.file, REJECTS_NAME);
    // And out once more: nothing is lost on the way.
    let origin_of = |imported: &Imported| {
        let mut origin = imported.rejects[0].origin.clone();
        (origin.file, origin.sheet) = (String::new(), String::new());
        origin
    };
    assert_eq!(origin_of(&again), origin_of(&first));
}

#[test]
fn mended_rows_are_read_with_units_currency_and_supplier_of_their_list() {
    let first = import(&[("nordlager.csv", LIST.as_bytes())]);
    let mut rejects = first.rejects.clone();
    let text = |words: &str| KeptCell::Text(words.to_owned());
    let rows = &mut rejects[0].rows;
    rows[0].cells[2] = text("0,5");
    rows[1].cells[0] = text("N3");
    rows[2].cells[6] = text("6-8");
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mended.xlsx");
    std::fs::write(
        &path,
        rejects_workbook(&rejects, Language::ENGLISH).unwrap(),
    )
    .unwrap();
    for mended in [
        read_folder(folder.path()).unwrap(),
        read_rejects(&path, &ShopSettings::default()).unwrap(),
    ] {
        assert_eq!(mended.issues, [], "{:?}", reasons(&mended));
        assert_eq!(mended.used_maps, [], "nobody gave a mapping");
        let offers = &mended.records.offers;
        let whole = &first.records.offers[0];
        assert_eq!(offers.len(), 3);
        assert!(offers.iter().all(|offer| &*offer.supplier == "nordlager"));
        // 0.5 in is 12.7 mm: arithmetic; the same size as the row that was right at once.
        assert_eq!(offers[0].size, whole.size);
        // `1.250` is 1250 by the comma that the column of the list proved, and not 1.25.
        assert_eq!(offers[0].price.unwrap(), whole.price.unwrap());
        assert_eq!(offers[0].price.unwrap().currency.code(), "PLN");
        assert_eq!(offers[0].quote_date, whole.quote_date);
        assert_eq!(offers[1].supplier_number.as_deref(), Some("N3"));
        assert_eq!(offers[2].lead_time.unwrap().to_string(), "42 to 56 days");
        assert_eq!(offers[2].valid_until.unwrap().to_string(), "2026-04-03");
        assert!(!matches!(
            offers[2].lead_time,
            Some(QuotedLeadTime::OnRequest)
        ));
    }
}

#[test]
fn among_other_files_a_workbook_of_rejects_is_left_out_under_any_name() {
    let first = import(&[("nordlager.csv", LIST.as_bytes())]);
    let bytes = rejects_workbook(&first.rejects, Language::ENGLISH).unwrap();
    for name in [REJECTS_NAME, "mended.xlsx"] {
        let both = import(&[("nordlager.csv", LIST.as_bytes()), (name, &bytes)]);
        assert_eq!(both.records.offers.len(), first.records.offers.len());
        assert_eq!(both.skipped[0].reason, SkipReason::Rejects);
    }
}

#[test]
fn a_clean_folder_gives_a_workbook_that_says_so_and_other_files_are_refused() {
    let clean = import(&[("stock.csv", b"Part no;Bin;On hand\nA1;B1;3\n")]);
    assert!(clean.rejects.is_empty());
    let bytes = rejects_workbook(&clean.rejects, Language::ENGLISH).unwrap();
    assert_eq!(
        bytes,
        rejects_workbook(&clean.rejects, Language::ENGLISH).unwrap(),
        "same bytes"
    );
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join(REJECTS_NAME);
    std::fs::write(&path, bytes).unwrap();
    let read = read_rejects(&path, &ShopSettings::default()).unwrap();
    assert_eq!(read.rows_read, 0);
    let other = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/workbooks/plain_parts.xlsx");
    let error = read_rejects(&other, &ShopSettings::default()).unwrap_err();
    assert!(error.to_string().contains("Origins"), "{error}");
}

#[test]
fn errors_dates_flags_and_formulas_survive_the_way_out_and_in() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/workbooks");
    let mut seen = 0;
    for name in [
        "error_cells.xlsx",
        "both_date_orders.csv",
        "missing_identity.xlsx",
    ] {
        let bytes = std::fs::read(folder.join(name)).unwrap();
        let first = import(&[(name, &bytes)]);
        let again = import(&[(
            REJECTS_NAME,
            &rejects_workbook(&first.rejects, Language::ENGLISH).unwrap(),
        )]);
        assert_eq!(reasons(&again), reasons(&first), "{name}");
        seen += again.issues.len();
    }
    assert!(seen >= 4);
}

#[test]
fn text_that_looks_like_a_formula_stays_text_on_every_way() {
    // OWASP "CSV Injection": the beginnings `=`, `+`, `-`, `@`.
    let words = ["-218", "+/-0.1", "=1+1", "@x", "'=1", "'tis"];
    let mut list = String::from("Bin;On hand;Part no\n");
    for word in words {
        // Without an amount the row is rejected or in doubt, and goes to the workbook.
        list.push_str(&format!("R1;none left;{word}\n"));
    }
    let first = import(&[("stock.csv", list.as_bytes())]);
    let parts = |imported: &Imported| -> Vec<String> {
        imported
            .records
            .stock
            .iter()
            .map(|row| row.part.clone())
            .collect()
    };
    assert_eq!(parts(&first), words);
    assert_eq!(first.rejects[0].rows.len(), words.len());
    let again = import(&[(
        REJECTS_NAME,
        &rejects_workbook(&first.rejects, Language::ENGLISH).unwrap(),
    )]);
    assert_eq!(parts(&again), words);
    // Our own CSV: the prefix goes on, and off again; a foreign file keeps its apostrophes.
    use sparewright::report::model::{Column, ColumnKind, Row, Sheet, Value};
    let mut sheet = Sheet::new("stock", "Stock", "?");
    sheet.columns = vec![
        Column::text("bin", "Bin"),
        Column::new(ColumnKind::Integer, "on_hand", "On hand"),
        Column::text("part_no", "Part no"),
    ];
    sheet.rows = words
        .iter()
        .map(|word| {
            Row::new(vec![
                Value::text("R1"),
                Value::Integer(-1),
                Value::text(*word),
            ])
        })
        .collect();
    let csv = sparewright::report::csv_of(&sheet);
    assert_eq!(parts(&import(&[("own.csv", &csv)])), words);
    let foreign = "Bin;On hand;Part no\nR1;4;'-218\n";
    assert_eq!(parts(&import(&[("a.csv", foreign.as_bytes())])), ["'-218"]);
}

use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn out_in_and_out_again_is_the_same(cells in prop::collection::vec(prop::collection::vec("[-=+@'#0-9A-Za-zäß.,/ €\"]{0,8}", 3), 1..6)) {
        // A list of which no row says what it is about is refused as a whole.
        prop_assume!(cells.iter().all(|row| row.iter().any(|cell| cell.chars().any(char::is_alphanumeric))));
        let mut list = String::from("Part no;Bin;On hand;Reserved\n");
        for row in &cells {
            let quoted: Vec<String> = row.iter().map(|cell| format!("\"{}\"", cell.replace('"', "\"\""))).collect();
            list.push_str(&quoted.join(";"));
            // An amount that none is, so that the row goes out.
            list.push_str(";many\n");
        }
        let first = import(&[("stock.csv", list.as_bytes())]);
        let again = import(&[(REJECTS_NAME, &rejects_workbook(&first.rejects, Language::ENGLISH).unwrap())]);
        prop_assert_eq!(reasons(&again), reasons(&first));
        let rows = |imported: &Imported| -> Vec<Vec<KeptCell>> {
            imported.rejects.iter().flat_map(|table| &table.rows).map(|row| row.cells.clone()).collect()
        };
        prop_assert_eq!(rows(&again), rows(&first));
    }
}

#[test]
fn rows_to_mend_say_in_german_what_is_wrong_and_come_back_as_they_went() {
    let german = Language::of_code("de").unwrap();
    let first = import(&[("offers.csv", OFFERS_TO_MEND)]);
    assert!(!first.rejects.is_empty());
    let bytes = rejects_workbook(&first.rejects, german).unwrap();
    let mut book: calamine::Xlsx<_> =
        calamine::open_workbook_from_rs(std::io::Cursor::new(&bytes[..])).unwrap();
    let name = calamine::Reader::sheet_names(&book)[0].clone();
    let sheet = calamine::Reader::worksheet_range(&mut book, &name).unwrap();
    let text: String = sheet
        .rows()
        .flatten()
        .map(|cell| format!("{cell}\n"))
        .collect();
    assert!(
        text.contains("Zu berichtigen") && text.contains("△ zweifelhaft, Spalte"),
        "{text}"
    );
    // Headers and cells are the file's own.
    assert!(text.contains("Supplier") && text.contains("much"), "{text}");
    let again = import(&[(REJECTS_NAME, &bytes)]);
    assert_eq!(again.rows_rejected, first.rows_rejected);
    assert_eq!(reasons(&again), reasons(&first));
    // Each row finds the one it mends, whatever language its number stands in.
    assert!(text.contains("Zeile in der Datei"), "{text}");
    let english = rejects_workbook(&first.rejects, Language::ENGLISH).unwrap();
    let of = |imported: &Imported| -> Vec<u32> {
        let mended = imported.mended.iter();
        mended.map(|row| row.original.row).collect()
    };
    let rows = of(&again);
    assert!(!rows.is_empty());
    assert_eq!(rows, of(&import(&[(REJECTS_NAME, &english)])));
}

/// A price that is none, and a lead time that is none.
const OFFERS_TO_MEND: &[u8] = b"Supplier;Part no;Designation;Price;Currency;Lead time;Unit\nMarlow;B-1;6308;much;EUR;3 weeks;pcs\nMarlow;B-2;6205;12;EUR;soon;pcs\nMarlow;B-3;6206;9.50;EUR;3 weeks;pcs\n";
