//! The set of files: complete or untouched, the same for the same input.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use sparewright::report::{Report, Sheet, ToMake, WriteError, write_made, write_report};

use super::sample::report;

/// Name and bytes of every file in a folder.
fn contents(dir: &Path) -> BTreeMap<String, Vec<u8>> {
    fs::read_dir(dir)
        .unwrap()
        .map(|entry| entry.unwrap())
        .filter(|entry| entry.path().is_file())
        .map(|entry| {
            let name = entry.file_name().into_string().unwrap();
            (name, fs::read(entry.path()).unwrap())
        })
        .collect()
}

#[test]
fn the_same_report_gives_the_same_bytes() {
    let (one, two) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let written = write_report(&report(), one.path()).unwrap();
    write_report(&report(), two.path()).unwrap();
    let names: Vec<String> = contents(one.path()).into_keys().collect();
    assert_eq!(
        names,
        [
            "alternatives.csv",
            "expiring.csv",
            "issues.csv",
            "kits.csv",
            "orders.csv",
            "reorder.html",
            "reorder.json",
            "reorder.xlsx",
            "stock_levels.csv"
        ]
    );
    assert_eq!(written.len(), names.len());
    assert_eq!(contents(one.path()), contents(two.path()));
    // No hidden folder stays behind.
    assert_eq!(fs::read_dir(one.path()).unwrap().count(), names.len());
}

#[test]
fn a_write_that_fails_leaves_the_old_files() {
    let dir = tempfile::tempdir().unwrap();
    write_report(&report(), dir.path()).unwrap();
    let before = contents(dir.path());
    let mut next = report();
    next.title = "Another".to_owned();
    next.sheets[2].key = "in_the_way".to_owned();
    next.cover.actions.clear();
    fs::create_dir(dir.path().join("in_the_way.csv")).unwrap();
    let error = write_report(&next, dir.path()).unwrap_err();
    assert!(matches!(error, WriteError::InTheWay { .. }), "{error}");
    assert_eq!(contents(dir.path()), before);

    let mut wrong = report();
    wrong.sheets[0].rows[0].cells.pop();
    let error = write_report(&wrong, dir.path()).unwrap_err();
    assert!(matches!(error, WriteError::Model(_)), "{error}");
    assert_eq!(contents(dir.path()), before);
}

#[test]
fn only_our_own_leftovers_are_removed() {
    let dir = tempfile::tempdir().unwrap();
    fs::write(dir.path().join("shop.csv"), "keep").unwrap();
    write_report(&report(), dir.path()).unwrap();
    let mut next = report();
    next.sheets.retain(|sheet| sheet.key != "issues");
    write_report(&next, dir.path()).unwrap();
    let after = contents(dir.path());
    assert!(!after.contains_key("issues.csv"));
    assert_eq!(after["shop.csv"], b"keep");
    assert!(after.contains_key("orders.csv"));
}

#[test]
fn a_folder_that_cannot_be_made_is_named() {
    let dir = tempfile::tempdir().unwrap();
    let file = dir.path().join("file");
    fs::write(&file, "").unwrap();
    let error = write_report(&report(), &file.join("out")).unwrap_err();
    assert!(error.to_string().contains("out"), "{error}");
}

/// Writes the sample where a person wants to look at it: `SPAREWRIGHT_SAMPLE_DIR=<folder>`.
#[test]
fn the_sample_can_be_written_for_looking_at() {
    let kept = std::env::var_os("SPAREWRIGHT_SAMPLE_DIR");
    let temporary = tempfile::tempdir().unwrap();
    let dir = kept.as_deref().map_or(temporary.path(), Path::new);
    assert_eq!(write_report(&report(), dir).unwrap().len(), 9);
}

#[test]
fn a_large_sheet_is_written_whole() {
    let mut large = report();
    let row = large.sheets[3].rows[1].clone();
    large.sheets[3].rows = vec![row; 30_000];
    let dir = tempfile::tempdir().unwrap();
    write_report(&large, dir.path()).unwrap();
    let csv = fs::read_to_string(dir.path().join("stock_levels.csv")).unwrap();
    // Header and 30,000 rows, none of which holds a line break.
    assert_eq!(csv.lines().count(), 30_001);
    let json: serde_json::Value =
        serde_json::from_slice(&fs::read(dir.path().join("reorder.json")).unwrap()).unwrap();
    // 30,000 × 123.45, exact to the cent.
    let sum = &json["sheets"]["stock_levels"]["totals"]["value_eur"]["sum"];
    assert_eq!(*sum, serde_json::json!(3_703_500.0));
}

/// Writes a report as one whose sheets are made one group after another; `sizes` are those of the groups.
fn made(report: &Report, sizes: &[usize], dir: &Path) -> Result<usize, WriteError> {
    let mut head = report.clone();
    let mut sheets = std::mem::take(&mut head.sheets).into_iter();
    let groups: Vec<Vec<Sheet>> = sizes
        .iter()
        .map(|size| sheets.by_ref().take(*size).collect())
        .collect();
    assert_eq!(sheets.count(), 0);
    // Long and short ones in turn.
    let groups = groups.into_iter().enumerate().map(|(at, sheets)| ToMake {
        is_long: at % 2 == 0,
        make: move || sheets,
    });
    write_made(head, groups, &[], dir).map(|paths| paths.len())
}

/// What the sheets of a workbook show.
fn cells(bytes: &[u8]) -> Vec<(String, Vec<Vec<String>>)> {
    use calamine::Reader;
    let mut book = calamine::Xlsx::new(std::io::Cursor::new(bytes)).unwrap();
    let names = book.sheet_names();
    names
        .into_iter()
        .map(|name| {
            let range = book.worksheet_range(&name).unwrap();
            let rows = range
                .rows()
                .map(|row| row.iter().map(ToString::to_string).collect());
            (name, rows.collect())
        })
        .collect()
}

#[test]
fn sheets_that_are_made_one_after_another_are_written_as_those_of_a_whole_report() {
    let mut large = report();
    let row = large.sheets[3].rows[1].clone();
    large.sheets[3].rows = vec![row; 12_000];
    for (what, report) in [("small", report()), ("large", large)] {
        let count = report.sheets.len();
        let whole = tempfile::tempdir().unwrap();
        write_report(&report, whole.path()).unwrap();
        let whole = contents(whole.path());
        let one_by_one: Vec<usize> = std::iter::once(2).chain(vec![1; count - 2]).collect();
        for sizes in [vec![count], one_by_one] {
            let dir = tempfile::tempdir().unwrap();
            let paths = made(&report, &sizes, dir.path()).unwrap();
            let found = contents(dir.path());
            assert_eq!(paths, whole.len());
            assert_eq!(fs::read_dir(dir.path()).unwrap().count(), whole.len());
            for (name, bytes) in &whole {
                if name == "reorder.xlsx" {
                    assert_eq!(cells(&found[name]), cells(bytes), "{what} {sizes:?}");
                } else {
                    assert!(found[name] == *bytes, "{what} {sizes:?}: {name}");
                }
            }
        }
    }
}

#[test]
fn a_sheet_that_does_not_fit_leaves_the_old_files_whenever_it_is_made() {
    let dir = tempfile::tempdir().unwrap();
    write_report(&report(), dir.path()).unwrap();
    let before = contents(dir.path());
    for wrong_sheet in 0..report().sheets.len() {
        let mut wrong = report();
        let Some(row) = wrong.sheets[wrong_sheet].rows.first_mut() else {
            continue;
        };
        row.cells.pop();
        let count = wrong.sheets.len();
        let sizes: Vec<usize> = std::iter::once(2).chain(vec![1; count - 2]).collect();
        let error = made(&wrong, &sizes, dir.path()).unwrap_err();
        assert!(matches!(error, WriteError::Model(_)), "{error}");
        assert_eq!(contents(dir.path()), before);
    }
    // The same sheet twice, though in two groups, and an action that leads nowhere.
    let mut twice = report();
    let again = twice.sheets[1].clone();
    twice.sheets.push(again);
    let count = twice.sheets.len();
    let sizes: Vec<usize> = std::iter::once(2).chain(vec![1; count - 2]).collect();
    assert!(matches!(
        made(&twice, &sizes, dir.path()),
        Err(WriteError::Model(_))
    ));
    let mut nowhere = report();
    let last = nowhere.sheets.len() - 1;
    nowhere.cover.actions[0].sheet = Some("no_such_sheet".to_owned());
    assert!(matches!(
        made(&nowhere, &[2, last - 1], dir.path()),
        Err(WriteError::Model(_))
    ));
    fs::remove_file(dir.path().join("kits.csv")).unwrap();
    fs::create_dir(dir.path().join("kits.csv")).unwrap();
    let error = made(&report(), &[2, last - 1], dir.path()).unwrap_err();
    assert!(matches!(error, WriteError::InTheWay { .. }), "{error}");
    assert_eq!(fs::read_dir(dir.path()).unwrap().count(), before.len());
}
