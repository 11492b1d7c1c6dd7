//! What each workbook of `tests/workbooks` gives, and that no grid of cells breaks the import.

mod every_header;
mod features;
mod kinds;

use std::path::{Path, PathBuf};

use proptest::prelude::*;
use sparewright::import::{
    Cell, Field, FileError, GridBuilder, ImportError, Imported, Problem, Severity, SkipReason,
    WorkbookError, read_folder,
};
use sparewright::part::Family;
use sparewright::record::{QuotedLeadTime, TableKind, UsageReason};

fn workbooks() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/workbooks")
}

/// Imports a folder that holds copies of the named files.
fn try_import(names: &[&str]) -> Result<Imported, ImportError> {
    let folder = tempfile::tempdir().unwrap();
    for name in names {
        std::fs::copy(workbooks().join(name), folder.path().join(name)).unwrap();
    }
    read_folder(folder.path())
}

fn import(name: &str) -> Imported {
    try_import(&[name]).unwrap_or_else(|error| panic!("{name}: {error}"))
}

fn issues(imported: &Imported) -> Vec<String> {
    imported
        .issues
        .iter()
        .map(|issue| format!("{}: {}", issue.place.cell(), issue.problem))
        .collect()
}

/// File, kinds of its tables, rows read, rows rejected, issues.
const EXPECTED: [(&str, &[TableKind], usize, usize, usize); 30] = {
    use TableKind as K;
    [
        ("plain_parts.xlsx", &[K::Parts], 2, 0, 0),
        ("title_rows.xlsx", &[K::Offers], 1, 0, 0),
        ("merged_header.xlsx", &[K::Parts], 1, 0, 0),
        ("unit_row.xlsx", &[K::Parts], 1, 0, 0),
        ("total_rows.xlsx", &[K::Stock], 2, 0, 0),
        ("hidden_sheet.xlsx", &[K::Stock, K::Stock], 4, 0, 0),
        ("error_cells.xlsx", &[K::Stock], 2, 0, 2),
        ("dates_1904.xlsx", &[K::Usages], 1, 0, 0),
        ("dates_without_format.xlsx", &[K::Usages], 1, 0, 0),
        ("two_tables.xlsx", &[K::Stock, K::Machines], 3, 0, 0),
        ("repeated_header.xlsx", &[K::Stock], 4, 0, 0),
        ("numbers_as_text.xlsx", &[K::Stock], 3, 0, 0),
        ("ambiguous_thousands.xlsx", &[K::Stock], 1, 0, 1),
        ("tax_included.xlsx", &[K::Offers], 1, 0, 1),
        ("price_breaks.xlsx", &[K::Offers], 1, 0, 0),
        ("lead_time_without_unit.xlsx", &[K::Offers], 3, 0, 1),
        ("missing_identity.xlsx", &[K::Stock], 3, 1, 1),
        ("close_spelling.xlsx", &[K::Offers], 1, 0, 0),
        ("lip_seal_columns.xlsx", &[K::Parts], 1, 0, 0),
        (
            "kit_and_tasks.xlsx",
            &[K::KitLines, K::Tasks, K::PlannedRebuilds],
            5,
            1,
            1,
        ),
        ("far_corner_cell.xlsx", &[K::Stock], 2, 0, 0),
        ("old_binary.xls", &[K::Stock], 1, 0, 0),
        ("open_document.ods", &[K::Stock], 2, 0, 0),
        ("semicolon_windows1252.csv", &[K::Offers], 2, 0, 0),
        ("utf16.tsv", &[K::Stock], 1, 0, 0),
        ("month_first_dates.csv", &[K::Usages], 2, 0, 0),
        ("both_date_orders.csv", &[K::Usages], 3, 1, 1),
        ("blank_lines.csv", &[K::Stock], 1, 0, 0),
        ("negative_values.csv", &[K::Stock], 1, 0, 1),
        ("spanish_stock_2026-03-02.csv", &[K::Stock], 1, 0, 0),
    ]
};

#[test]
fn each_workbook_gives_its_tables_rows_and_issues() {
    for (name, kinds, read, rejected, issue_count) in EXPECTED {
        let imported = import(name);
        let found: Vec<TableKind> = imported.tables.iter().map(|table| table.kind).collect();
        assert_eq!(found, kinds, "{name}: kinds");
        let counts = (
            imported.rows_read,
            imported.rows_rejected,
            imported.issues.len(),
        );
        assert_eq!(
            counts,
            (read, rejected, issue_count),
            "{name}: {:?}",
            issues(&imported)
        );
    }
}

#[test]
fn every_workbook_has_a_line_in_the_readme() {
    let readme = std::fs::read_to_string(workbooks().join("README.md")).unwrap();
    for entry in std::fs::read_dir(workbooks()).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        assert!(
            name == "README.md" || readme.contains(&format!("`{name}`")),
            "{name}"
        );
    }
}

#[test]
fn files_that_cannot_be_read_say_why_and_the_rest_goes_on() {
    let names = [
        "plain_parts.xlsx",
        "password.xlsx",
        "truncated.xlsx",
        "not_a_workbook.xlsx",
        "empty.xlsx",
        "other_zip.xlsx",
    ];
    let imported = try_import(&names).unwrap();
    assert_eq!(imported.records.parts.len(), 2);
    assert_eq!(imported.problems.len(), 5, "{:?}", imported.problems);
    let reason = |name: &str| {
        &imported
            .problems
            .iter()
            .find(|problem| &*problem.file == name)
            .unwrap()
            .reason
    };
    assert!(matches!(
        reason("password.xlsx"),
        FileError::Workbook(WorkbookError::Password)
    ));
    assert!(matches!(reason("empty.xlsx"), FileError::Empty));
    for name in ["truncated.xlsx", "not_a_workbook.xlsx", "other_zip.xlsx"] {
        assert!(
            matches!(
                reason(name),
                FileError::Workbook(WorkbookError::Damaged { .. })
            ),
            "{name}"
        );
    }
}

#[test]
fn a_folder_without_tables_is_an_error_that_lists_what_was_there() {
    let error = try_import(&[
        "no_table.xlsx",
        "own_report.xlsx",
        "own_report.csv",
        "empty.xlsx",
    ])
    .unwrap_err();
    let ImportError::NothingUsable {
        problems,
        skipped,
        files,
        ..
    } = error
    else {
        panic!("{error}")
    };
    assert_eq!((files, problems.len()), (4, 1));
    let reasons: Vec<SkipReason> = skipped.iter().map(|file| file.reason).collect();
    assert_eq!(
        reasons,
        [
            SkipReason::NoTable,
            SkipReason::OwnReport,
            SkipReason::OwnReport
        ]
    );
    assert!(matches!(
        read_folder(Path::new("no such folder")),
        Err(ImportError::Folder { .. })
    ));
    // What is not there is called what its name says it is.
    for (path, kind) in [("no such folder", "folder"), ("no such list.xlsx", "file")] {
        let said = read_folder(Path::new(path)).err().map(|of| of.to_string());
        let expected = format!("the {kind} `{path}` cannot be read");
        assert_eq!(said, Some(expected));
    }
}

#[test]
fn settings_hold_and_wrong_or_second_ones_are_said() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::copy(
        workbooks().join("plain_parts.xlsx"),
        folder.path().join("parts.xlsx"),
    )
    .unwrap();
    std::fs::write(folder.path().join("b.toml"), "shop = \"B\"").unwrap();
    std::fs::write(folder.path().join("a.toml"), "shop = \"A\"").unwrap();
    std::fs::create_dir(folder.path().join("old")).unwrap();
    let imported = read_folder(folder.path()).unwrap();
    assert_eq!(imported.settings.shop, "A");
    assert_eq!(
        imported.problems[0].reason.to_string(),
        "a second settings file; `a.toml` is used"
    );
    assert_eq!(imported.skipped[0].reason, SkipReason::Folder);
    std::fs::write(folder.path().join("a.toml"), "shp = 1").unwrap();
    let imported = read_folder(folder.path()).unwrap();
    assert_eq!(imported.settings.shop, "the shop");
    assert!(imported.settings_file.is_none());
    assert!(imported.problems.iter().any(|problem| {
        problem
            .reason
            .to_string()
            .ends_with("the default settings are used")
    }));
}

#[test]
fn values_come_out_as_they_were_written() {
    let parts = import("plain_parts.xlsx").records.parts;
    assert_eq!(parts[0].family, Some(Family::DeepGrooveBall));
    assert_eq!(parts[0].size.unwrap().to_string(), "30 x 62 x 16 mm");
    // SAE AS568-218 is 1.234 x 0.139 in; 31.34 x 3.53 mm is that size printed rounded.
    assert_eq!(parts[1].size.unwrap().to_string(), "31.3436 x 3.5306 mm");
    assert!(parts[1].size_notes[0].contains("31.34 x 3.53"));
    // Inches of 25.4 mm: 0.5, 1.125 and 0.25 in.
    assert_eq!(
        import("unit_row.xlsx").records.parts[0]
            .size
            .unwrap()
            .to_string(),
        "12.7 x 28.575 x 6.35 mm"
    );
    assert_eq!(
        import("merged_header.xlsx").records.parts[0]
            .size
            .unwrap()
            .to_string(),
        "30 x 62 x 16 mm"
    );
    let seal = &import("lip_seal_columns.xlsx").records.parts[0];
    assert_eq!(seal.size.unwrap().to_string(), "40 x 62 x 8 mm");
    assert_eq!(seal.traits.material.as_deref(), Some("FKM"));

    let stock = import("numbers_as_text.xlsx").records.stock;
    assert_eq!(
        stock.iter().map(|row| row.on_hand).collect::<Vec<_>>(),
        [Some(1250.0), Some(3.5), Some(4.0)]
    );
    assert_eq!(
        import("ambiguous_thousands.xlsx").records.stock[0].on_hand,
        None
    );
    assert_eq!(import("error_cells.xlsx").records.stock[0].on_hand, None);
    let spanish = import("spanish_stock_2026-03-02.csv").records.stock;
    assert_eq!(spanish[0].on_hand, Some(1250.5));
    assert_eq!(spanish[0].counted_on.unwrap().to_string(), "2026-03-02");
    assert_eq!(
        import("utf16.tsv").records.stock[0].bin.as_deref(),
        Some("Röhre")
    );
    assert_eq!(
        import("old_binary.xls").records.stock[0]
            .counted_on
            .unwrap()
            .to_string(),
        "2026-03-09"
    );
    assert_eq!(import("blank_lines.csv").records.stock[0].place.row, 4);
}

#[test]
fn dates_survive_both_epochs_lost_formats_and_month_first() {
    for name in ["dates_1904.xlsx", "dates_without_format.xlsx"] {
        assert_eq!(
            import(name).records.usages[0].date.to_string(),
            "2026-03-09",
            "{name}"
        );
    }
    assert_eq!(
        import("dates_1904.xlsx").records.usages[0].reason,
        Some(UsageReason::Failure)
    );
    let usages = import("month_first_dates.csv").records.usages;
    assert_eq!(usages[0].date.to_string(), "2026-03-04");
    assert!(usages[1].quantity < 0.0, "a return");
    let both = import("both_date_orders.csv");
    assert!(matches!(both.issues[0].problem, Problem::Date(_)));
    assert_eq!(both.issues[0].original_cells, ["03/04/2026", "A-1", "1"]);
}

#[test]
fn offers_carry_supplier_price_and_lead_time() {
    let offer = &import("title_rows.xlsx").records.offers[0];
    assert_eq!(
        (&*offer.supplier, offer.supplier_number.as_deref()),
        ("Nordlager", Some("N1"))
    );
    assert_eq!(offer.quote_date.unwrap().to_string(), "2026-03-09");
    assert_eq!(offer.price.unwrap().cost_of(1.0).to_string(), "4.50 EUR");

    let offer = &import("price_breaks.xlsx").records.offers[0];
    assert_eq!(offer.price.unwrap().per, 100);
    assert_eq!(offer.price.unwrap().cost_of(1.0).to_string(), "8.50 EUR");
    let breaks: Vec<(f64, String)> = offer
        .breaks
        .iter()
        .map(|b| (b.from_quantity, b.price.cost_of(1.0).to_string()))
        .collect();
    assert_eq!(
        breaks,
        [
            (500.0, "8.00 EUR".to_owned()),
            (1000.0, "7.50 EUR".to_owned())
        ]
    );
    assert_eq!(offer.minimum_quantity, Some(10.0));

    let lead_times: Vec<Option<String>> = import("lead_time_without_unit.xlsx")
        .records
        .offers
        .iter()
        .map(|offer| offer.lead_time.map(|lead_time| lead_time.to_string()))
        .collect();
    assert_eq!(lead_times, [None, Some("42 days".to_owned()), None]);

    let taxed = import("tax_included.xlsx");
    assert_eq!(taxed.records.offers[0].price, None);
    assert_eq!(taxed.issues[0].problem, Problem::PriceWithTax);

    let german = import("semicolon_windows1252.csv").records.offers;
    assert_eq!(
        german[0].price.unwrap().cost_of(1.0).to_string(),
        "1,234.50 EUR"
    );
    assert_eq!(german[0].lead_time.unwrap().to_string(), "10 working days");
    assert_eq!(german[1].lead_time, Some(QuotedLeadTime::OnRequest));
}

#[test]
fn lists_in_other_languages_are_read() {
    for (name, supplier, family, price, lead_time) in [
        (
            "french.csv",
            "Paliers du Nord",
            Family::DeepGrooveBall,
            "12.50 EUR",
            "14 days",
        ),
        (
            "polish.csv",
            "Łożyska Wschód",
            Family::TaperedRoller,
            "45.00 PLN",
            "21 days",
        ),
        (
            "italian.csv",
            "Cuscinetti Est",
            Family::LipSeal,
            "3.20 EUR",
            "in stock",
        ),
    ] {
        let imported = import(name);
        let offer = &imported.records.offers[0];
        assert_eq!(&*offer.supplier, supplier, "{name}");
        assert_eq!(offer.family, Some(family), "{name}");
        assert_eq!(
            offer.price.unwrap().cost_of(1.0).to_string(),
            price,
            "{name}"
        );
        assert_eq!(offer.lead_time.unwrap().to_string(), lead_time, "{name}");
        assert_eq!(imported.issues.len(), 0, "{name}: {:?}", issues(&imported));
    }
}

#[test]
fn rejected_rows_keep_their_cells_and_nothing_is_dropped_silently() {
    let imported = import("missing_identity.xlsx");
    let issue = &imported.issues[0];
    assert_eq!(
        (issue.severity, issue.field),
        (Severity::Rejected, Some(Field::PartNumber))
    );
    assert_eq!(issue.original_cells, ["", "R3", "7"]);
    let rows = import("total_rows.xlsx").tables[0].rows;
    assert_eq!(
        (rows.read, rows.totals, rows.blank, rows.notes),
        (2, 2, 1, 1)
    );
    assert_eq!(import("repeated_header.xlsx").tables[0].rows.headers, 1);
    let spelling = import("close_spelling.xlsx");
    assert!(
        spelling.tables[0]
            .why
            .iter()
            .any(|why| why == "column `Lead tiem (days)` read as `lead time`")
    );
    assert!(import("hidden_sheet.xlsx").tables[1].is_hidden);
    assert!(
        import("far_corner_cell.xlsx").tables[0]
            .why
            .iter()
            .any(|why| why.contains("were not read"))
    );
    let kit = import("kit_and_tasks.xlsx");
    assert!(kit.records.kit_lines[0].no_substitutes);
    assert_eq!(
        kit.issues[0].problem.to_string(),
        "`0` is out of range; expected more than 0"
    );
    assert_eq!(kit.records.tasks[1].predecessors, ["strip"]);
}

/// Any cell that a file could hold, with words that headers are made of.
fn any_cell() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => Just(String::new()),
        4 => prop::sample::select(vec![
            "Part no", "Type", "d", "D", "B", "Price", "Lead time", "Supplier", "On hand", "Bin", "Date", "Quantity", "Kit", "Line",
            "Preis €/100", "ab 10", "mm", "in", "Total", "Machine", "Hours", "Task", "O-Ring", "Rillenkugellager", "Size", "Thread",
        ]).prop_map(str::to_owned),
        3 => prop::sample::select(vec![
            "1.250", "30x62x16", "M25x1.5", "6-8 weeks", "03/04/2026", "12,50 €/100", "-", "#N/A", "7/16\"", "6305-2RS", "9. 3. 2026", "0", "-1",
        ]).prop_map(str::to_owned),
        2 => "\\PC{0,12}",
        1 => "[0-9.,/x€ -]{0,10}",
    ]
}

fn imported_of(rows: &[Vec<String>]) -> Imported {
    let mut builder = GridBuilder::new(&"a.xlsx".into(), "Sheet1");
    for (row, cells) in rows.iter().enumerate() {
        for (column, text) in cells.iter().enumerate() {
            let cell = match text.parse::<f64>() {
                Ok(number) => Cell::Number(number),
                Err(_) if text.starts_with('#') => Cell::Error(text),
                Err(_) => Cell::Text(text),
            };
            builder.push(row as u32, column as u32, cell).unwrap();
        }
    }
    let mut imported = Imported::default();
    imported.read_grid(&builder.finish().unwrap());
    imported
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn no_grid_of_cells_breaks_the_import(rows in prop::collection::vec(prop::collection::vec(any_cell(), 0..8), 0..10)) {
        let imported = imported_of(&rows);
        let taken: usize = imported.tables.iter().map(|table| table.rows.read - table.rows.rejected).sum();
        let records = &imported.records;
        let kept = records.parts.len() + records.suppliers.len() + records.offers.len() + records.other_ways.len()
            + records.stock.len() + records.usages.len() + records.receipts.len() + records.kit_lines.len()
            + records.tasks.len() + records.planned_rebuilds.len() + records.approvals.len() + records.machines.len();
        prop_assert_eq!(taken, kept);
        let rejected = imported.issues.iter().filter(|issue| issue.is_rejected()).count();
        prop_assert_eq!(rejected, imported.rows_rejected);
    }

    #[test]
    fn no_text_breaks_a_value_reader(text in "\\PC{0,24}|[0-9a-zäß€./, -]{0,24}") {
        use sparewright::import::value;
        use sparewright::record::{DateOrder, LeadUnit};
        if let Ok(number) = value::read_number(&text, None) {
            prop_assert!(number.is_finite());
        }
        if let Ok(date) = value::read_date(&text, Some(DateOrder::Dmy)) {
            prop_assert!((1950..=2100).contains(&chrono::Datelike::year(&date)));
        }
        if let Ok(QuotedLeadTime::Span { least, most, .. }) = value::read_lead_time(&text, None, LeadUnit::Days, None) {
            prop_assert!(0.0 <= least && least <= most);
        }
        let _ = (value::read_price(&text, None), value::read_flag(&text), value::is_placeholder(&text), value::is_total_word(&text));
    }

    #[test]
    fn no_bytes_break_a_file(head in prop::sample::select(vec![&b""[..], b"PK\x03\x04", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", b"Part no;Bin;On hand\n", b"\xff\xfe"]),
                            tail in prop::collection::vec(any::<u8>(), 0..200), name in prop::sample::select(vec!["a.xlsx", "a.xls", "a.csv", "a.ods"])) {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join(name), [head, tail.as_slice()].concat()).unwrap();
        if let Err(ImportError::NothingUsable { problems, skipped, .. }) = read_folder(folder.path()) {
            prop_assert_eq!(problems.len() + skipped.len(), 1, "a file left out without a word");
        }
    }

    #[test]
    fn the_order_of_columns_changes_nothing(order in Just((0..6_usize).collect::<Vec<_>>()).prop_shuffle(), on_hand in "[0-9]{1,4}", bin in "[A-Z][0-9]{1,3}") {
        let rows = [
            ["Part no", "Bin", "On hand", "Reserved", "Counted on", "Unit"].map(str::to_owned),
            ["A-1".to_owned(), bin, on_hand, "1".to_owned(), "09.03.2026".to_owned(), "pcs".to_owned()],
            ["A-2".to_owned(), "R2".to_owned(), "oops".to_owned(), "1,5".to_owned(), "soon".to_owned(), "box".to_owned()],
        ];
        let shuffled: Vec<Vec<String>> = rows.iter().map(|row| order.iter().map(|at| row[*at].clone()).collect()).collect();
        let plain: Vec<Vec<String>> = rows.iter().map(|row| row.to_vec()).collect();
        let (one, other) = (imported_of(&plain), imported_of(&shuffled));
        prop_assert_eq!(format!("{:?}", one.records.stock), format!("{:?}", other.records.stock));
        let problems = |imported: &Imported| {
            let mut problems: Vec<String> = imported.issues.iter().map(|issue| format!("{:?} {}", issue.field, issue.problem)).collect();
            problems.sort();
            problems
        };
        prop_assert_eq!(problems(&one), problems(&other));
    }
}

#[test]
fn what_cannot_be_seen_in_a_workbook_is_said_once_a_file() {
    for (name, is_said) in [
        ("old_binary.xls", true),
        ("open_document.ods", true),
        ("binary.xlsb", true),
        ("libreoffice.xlsx", false),
        ("libreoffice.csv", false),
    ] {
        let imported = import(name);
        let notes = imported.tables.iter().flat_map(|table| &table.why);
        let said = notes.filter(|why| why.contains("which rows are hidden or crossed out"));
        assert_eq!(said.count(), usize::from(is_said), "{name}");
    }
}
