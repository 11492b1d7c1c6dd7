//! History: what is kept, shared, compared, restored, forgotten, and where a value came from.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use sparewright::catalogue::Shop;
use sparewright::import::read_folder;
use sparewright::job::Job;
use sparewright::report::write_report;
use sparewright::store::{ChangeKind, MadeBy, PruneRules, StoreError, Workspace};

use super::shops::{Bench, moment, read, said};

const PARTS: &str = "Own number,Designation,Min. stock\nB-1,6305-2RS,2\nB-2,6204-2Z,1\n";
const STOCK: &str = "Part no,Bin,On hand\nB-1,A1,5\nB-2,A2,3\n";

fn prices(rows: &str) -> String {
    format!("Own number,Supplier,Designation,Price EUR,Lead time\n{rows}")
}

#[test]
fn a_folder_comes_back_from_a_workspace_as_it_was_read() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo");
    let read = read_folder(&demo).unwrap();
    let bench = Bench::new();
    bench.workspace.import(&read, moment(3, 9)).unwrap();
    let loaded = bench.load();
    assert_eq!(
        (read.rows_read, read.rows_rejected),
        (loaded.rows_read, loaded.rows_rejected)
    );
    assert_eq!(read.settings, loaded.settings);
    assert_eq!(read.tables.len(), loaded.tables.len());
    assert_eq!(read.skipped, loaded.skipped);
    assert_eq!(read.issues.len(), loaded.issues.len());
    let words = |issues: &[sparewright::import::RowIssue]| -> BTreeSet<String> {
        issues
            .iter()
            .map(|issue| {
                format!(
                    "{} {} {:?}",
                    issue.place, issue.problem, issue.original_cells
                )
            })
            .collect()
    };
    assert_eq!(words(&read.issues), words(&loaded.issues));
    // Every row that is stored is a row that was read, in every value.
    let (a, b) = (&read.records, &loaded.records);
    macro_rules! same {
        ($($table:ident),+) => {
            $(assert!(b.$table.iter().all(|row| a.$table.contains(row)), stringify!($table));)+
        };
    }
    same!(
        parts,
        suppliers,
        offers,
        other_ways,
        stock,
        usages,
        receipts,
        kit_lines,
        tasks,
        planned_rebuilds,
        approvals,
        machines
    );
    macro_rules! as_many {
        ($($table:ident),+) => {
            [$((stringify!($table), a.$table.len(), b.$table.len())),+]
        };
    }
    let counts = as_many!(
        parts,
        suppliers,
        offers,
        other_ways,
        stock,
        usages,
        receipts,
        kit_lines,
        tasks,
        planned_rebuilds,
        approvals,
        machines
    );
    let fewer: Vec<_> = counts
        .iter()
        .filter(|(_, read, held)| read != held)
        .collect();
    assert!(
        fewer.is_empty(),
        "no rule of precedence applies in the demo: {fewer:?}"
    );
}

#[test]
fn a_plan_through_a_workspace_is_the_plan_of_the_folder() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo");
    let mut imported = read_folder(&demo).unwrap();
    let as_of = imported.settings.as_of.unwrap();
    let records = std::mem::take(&mut imported.records);
    let shop = Shop::new(records, imported.settings.clone(), as_of);
    let direct = Job {
        imported,
        kept_out: Vec::new(),
        set_aside: Vec::new(),
        unused_maps: Vec::new(),
        shop,
    };
    let stored = Job::read(&demo, None).unwrap();
    assert_eq!(stored.kept_out, []);
    let sheets = |job: &Job| -> BTreeMap<String, Vec<String>> {
        let report = job.report(&job.plan().unwrap());
        let folder = tempfile::tempdir().unwrap();
        write_report(&report, folder.path()).unwrap();
        let files = std::fs::read_dir(folder.path())
            .unwrap()
            .map(|entry| entry.unwrap().path());
        let tables = files.filter(|path| path.extension().is_some_and(|ending| ending == "csv"));
        let sorted = |path: std::path::PathBuf| {
            let text = std::fs::read_to_string(&path).unwrap();
            let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
            lines.sort();
            (
                path.file_name().unwrap().to_string_lossy().into_owned(),
                lines,
            )
        };
        tables.map(sorted).collect()
    };
    let (direct, stored) = (sheets(&direct), sheets(&stored));
    assert!(direct.len() > 10);
    for (name, lines) in &direct {
        assert_eq!(lines, &stored[name], "{name}");
    }
}

#[test]
fn tables_that_did_not_change_are_shared_and_stored_once() {
    let bench = Bench::of(&[&[("parts.csv", PARTS), ("stock.csv", STOCK)]]);
    bench.import(&[(
        "parts.csv",
        &PARTS.replace("B-2,6204-2Z,1", "B-2,6204-2Z,5"),
    )]);
    let snapshots = bench.workspace.snapshots().unwrap();
    let file = |at: usize, table: &str| {
        snapshots[at]
            .tables
            .iter()
            .find(|entry| entry.table == table)
            .map(|entry| entry.file.clone())
            .unwrap()
    };
    assert_ne!(file(0, "parts"), file(1, "parts"));
    assert_eq!(file(0, "stock"), file(1, "stock"));
    // Of two rows of parts one is as it was, and says so.
    assert_eq!(snapshots[1].counts["parts"].added, 1);
    let stored = std::fs::read_dir(bench.workspace.folder().join("tables"))
        .unwrap()
        .count();
    assert_eq!(stored, 13 + 1);
}

#[test]
fn an_import_that_says_nothing_new_makes_no_snapshot() {
    let files = [("parts.csv", PARTS), ("stock.csv", STOCK)];
    let bench = Bench::of(&[&files]);
    assert!(!bench.import(&files).is_new);
    assert_eq!(bench.workspace.number().unwrap(), 1);
}

#[test]
fn a_comparison_names_each_kind_of_change() {
    let first = prices(
        "B-1,Nord,6305-2RS,8.00,5 days\nB-2,Nord,6204-2Z,3.00,2 weeks\nB-1,Sued,6305-2RS,9.00,in stock\n",
    );
    let second = prices(
        "B-1,Nord,6305-2RS,8.50,3 days\nB-2,Nord,6204-2Z,2.90,4 weeks\nB-3,Nord,6001,1.00,1 day\n",
    );
    let before = [
        ("parts_2026-01-01.csv", PARTS),
        ("quotes.csv", &first),
        ("stock_2026-01-01.csv", STOCK),
    ];
    let more = PARTS.replace("B-1,6305-2RS,2", "B-1,6305-2RS,3");
    let more = format!("{more}B-3,6001,1\n");
    let after_stock = STOCK.replace("B-2,A2,3", "B-2,A2,1");
    let bench = Bench::of(&[&before]);
    bench.import(&[
        ("parts_2026-02-01.csv", &more),
        ("quotes.csv", &second),
        ("stock_2026-02-01.csv", &after_stock),
    ]);
    let changes = bench.workspace.compare(1, 2).unwrap();
    let said: Vec<_> = changes
        .iter()
        .map(|change| {
            (
                change.part.as_str(),
                change.supplier.as_deref().unwrap_or("-"),
                change.kind,
            )
        })
        .collect();
    assert_eq!(
        said,
        [
            ("B-1", "-", ChangeKind::PartChanged),
            ("B-1", "Nord", ChangeKind::PriceUp),
            ("B-1", "Nord", ChangeKind::LeadTimeShorter),
            ("B-2", "-", ChangeKind::StockChanged),
            ("B-2", "Nord", ChangeKind::PriceDown),
            ("B-2", "Nord", ChangeKind::LeadTimeLonger),
            ("B-3", "-", ChangeKind::NewPart),
            ("B-3", "Nord", ChangeKind::NewOffer),
        ]
    );
    assert_eq!(changes[0].after.as_deref(), Some("own_min_stock 3"));
    assert_eq!(changes[3].before.as_deref(), Some("3 of unknown unit"));
    let back = bench.workspace.compare(2, 1).unwrap();
    assert_eq!(back.len(), changes.len());
    assert!(
        back.iter()
            .any(|change| change.kind == ChangeKind::PartGone && change.part == "B-3")
    );
}

#[test]
fn restoring_makes_a_new_snapshot_of_an_old_state() {
    let bench = Bench::of(&[&[("parts.csv", PARTS)]]);
    let before = said(&bench.workspace);
    bench.import(&[("parts.csv", "Own number,Designation\nB-1,6001\n")]);
    assert_ne!(before, said(&bench.workspace));
    let manifest = bench.workspace.restore(1, moment(3, 10)).unwrap();
    assert_eq!(
        (manifest.number, manifest.made_by),
        (3, MadeBy::Restore { of: 1 })
    );
    assert_eq!(before, said(&bench.workspace));
    assert_eq!(bench.workspace.snapshots().unwrap().len(), 3);
    let error = bench.workspace.restore(9, moment(3, 10)).unwrap_err();
    assert!(matches!(error, StoreError::NoSuchSnapshot { number: 9 }));
}

#[test]
fn pruning_keeps_what_the_rules_say_and_every_kept_snapshot_whole() {
    let bench = Bench::new();
    for (month, day, min) in [(1, 10, 1), (1, 20, 2), (2, 10, 3), (2, 20, 4), (3, 1, 5)] {
        let parts = format!("Own number,Designation,Min. stock\nB-1,6305-2RS,{min}\n");
        bench
            .workspace
            .import(&read(&[("parts.csv", &parts)]), moment(month, day))
            .unwrap();
    }
    let rules = PruneRules {
        keep_last: 1,
        keep_monthly: true,
    };
    let pruned = bench.workspace.prune(rules).unwrap();
    assert_eq!(pruned.snapshots, [1, 3]);
    assert_eq!(pruned.table_files, 2);
    let kept: Vec<u32> = bench
        .workspace
        .snapshots()
        .unwrap()
        .iter()
        .map(|manifest| manifest.number)
        .collect();
    assert_eq!(kept, [2, 4, 5]);
    for number in kept {
        let parts = bench.workspace.load(Some(number)).unwrap().records.parts;
        assert_eq!(parts[0].own_min_stock, Some(f64::from(number)));
    }
    assert!(matches!(
        bench.workspace.load(Some(1)),
        Err(StoreError::NoSuchSnapshot { .. })
    ));
    let none = PruneRules {
        keep_last: 0,
        keep_monthly: false,
    };
    bench.workspace.prune(none).unwrap();
    assert_eq!(
        bench.workspace.snapshots().unwrap().len(),
        1,
        "the current snapshot always stays"
    );
    assert_eq!(bench.load().records.parts[0].own_min_stock, Some(5.0));
}

#[test]
fn every_value_leads_to_its_cell_and_to_what_it_replaced() {
    let bench = Bench::of(&[&[("parts.csv", PARTS), ("stock.csv", STOCK)]]);
    bench.import(&[(
        "fix.csv",
        "Own number,Designation,Clearance,Min. stock\nB-2,6204-2Z,,1\nB-1,6305-2RS,C3,4\n",
    )]);
    let values = bench.workspace.explain("b-1").unwrap();
    let value = |column: &str| values.iter().find(|value| value.column == column).unwrap();
    let min = value("own_min_stock");
    assert_eq!(
        (
            min.value.as_deref(),
            min.place.to_string().as_str(),
            min.import
        ),
        (Some("4"), "fix.csv, D3", 2)
    );
    let old = min.replaced.as_ref().unwrap();
    assert_eq!(
        (
            old.value.as_deref(),
            old.place.to_string().as_str(),
            old.import
        ),
        (Some("2"), "parts.csv, C2", 1)
    );
    assert_eq!(value("clearance").place.to_string(), "fix.csv, C3");
    // What the designation says by itself is in the cell of the designation.
    assert_eq!(value("closure").place.to_string(), "fix.csv, B3");
    assert!(
        value("closure").replaced.is_none(),
        "the same value was there before"
    );
    let on_hand = value("on_hand");
    assert_eq!(
        (on_hand.place.to_string().as_str(), on_hand.import),
        ("stock.csv, C2", 1)
    );
    assert!(matches!(
        bench.workspace.explain("B-77"),
        Err(StoreError::NoSuchPart { .. })
    ));
}

#[test]
fn a_table_that_was_changed_outside_is_not_taken_for_what_was_written() {
    let bench = Bench::of(&[&[("parts.csv", PARTS)]]);
    let entry = bench.workspace.snapshots().unwrap()[0].tables[0].clone();
    let path = bench.workspace.folder().join("tables").join(entry.file);
    let mut bytes = std::fs::read(&path).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    std::fs::write(&path, bytes).unwrap();
    assert!(matches!(
        bench.workspace.load(None),
        Err(StoreError::Damaged { .. })
    ));
}

#[test]
fn a_workspace_of_a_later_version_is_left_alone() {
    let bench = Bench::of(&[&[("parts.csv", PARTS)]]);
    std::fs::write(
        bench.workspace.folder().join("current"),
        "{\"schema\":2,\"snapshot\":1}",
    )
    .unwrap();
    let error = Workspace::open(bench.workspace.folder()).unwrap_err();
    assert!(
        error
            .to_string()
            .ends_with("has schema 2; this version reads up to 1"),
        "{error}"
    );
}

#[test]
fn only_a_new_or_empty_folder_becomes_a_workspace() {
    let folder = tempfile::tempdir().unwrap();
    assert!(matches!(
        Workspace::open(folder.path()),
        Err(StoreError::NotAWorkspace { .. })
    ));
    std::fs::write(folder.path().join("letter.txt"), "Dear").unwrap();
    assert!(matches!(
        Workspace::create(folder.path()),
        Err(StoreError::NotAWorkspace { .. })
    ));
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
    let empty = folder.path().join("new");
    let workspace = Workspace::create(&empty).unwrap();
    assert!(matches!(workspace.load(None), Err(StoreError::Empty)));
    assert_eq!(Workspace::open(&empty).unwrap().number().unwrap(), 0);
}
