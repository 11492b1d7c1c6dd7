//! Commands of a workspace: import, history, compare, explain, restore, prune, as a table and as JSON.

use super::program::Bench;

const PARTS: &str = "part no,designation,unit\nP-1,6205,pcs\nP-2,6308,pcs\n";

fn prices(first: &str, second: &str, lead: &str, day: &str) -> String {
    format!(
        "supplier,part no,price EUR,lead time,quote date\nMarlow,P-1,{first},{lead},{day}\nMarlow,P-2,{second},{lead},{day}\n"
    )
}

/// A workspace of three imports: parts, a price list, a newer one where one part is dearer and all are slower.
fn three() -> Bench {
    let bench = Bench::new();
    bench.write("parts.csv", PARTS);
    bench.write(
        "marlow_2026-03-02.csv",
        &prices("4.10", "14.20", "2 weeks", "2026-03-02"),
    );
    bench.write(
        "marlow_2026-04-02.csv",
        &prices("4.10", "15.60", "5 weeks", "2026-04-02"),
    );
    for file in [
        "parts.csv",
        "marlow_2026-03-02.csv",
        "marlow_2026-04-02.csv",
    ] {
        bench.said(&["import", file, "--workspace", "kept"]);
    }
    bench
}

#[test]
fn an_import_says_what_it_took_in_both_forms() {
    let bench = Bench::new();
    bench.write("parts.csv", PARTS);
    let json = bench.json(&["import", "parts.csv", "--workspace", "kept"]);
    assert_eq!(json["schema"], 1);
    assert_eq!(
        (&json["snapshot"], &json["is_new"]),
        (&1.into(), &true.into())
    );
    assert_eq!(
        (&json["rows_read"], &json["rows_rejected"]),
        (&2.into(), &0.into())
    );
    assert_eq!(json["counts"]["parts"]["added"], 2);
    // The same again is nothing new, and no snapshot.
    let again = bench.json(&["import", "parts.csv", "--workspace", "kept"]);
    assert_eq!(
        (&again["snapshot"], &again["is_new"]),
        (&serde_json::Value::Null, &false.into())
    );
    let words = bench.said(&["import", "parts.csv", "--workspace", "kept"]);
    assert!(
        words.contains("Read 2 rows in 1 table; 0 rows rejected"),
        "{words}"
    );
    assert!(
        words.contains("Nothing new; no snapshot was made"),
        "{words}"
    );
    assert_eq!(
        bench.json(&["history", "--workspace", "kept"])["current"],
        1
    );
}

#[test]
fn a_dry_run_shows_each_column_and_writes_nothing() {
    let bench = three();
    let newer = prices("5.00", "15.60", "5 weeks", "2026-05-02");
    bench.write("marlow_2026-05-02.csv", &newer);
    let asked = [
        "import",
        "marlow_2026-05-02.csv",
        "--workspace",
        "kept",
        "--dry-run",
    ];
    let json = bench.json(&asked);
    assert_eq!(json["schema"], 2);
    let columns = json["tables"][0]["columns"].as_array().unwrap();
    let fields: Vec<&str> = columns
        .iter()
        .map(|of| of["field"].as_str().unwrap())
        .collect();
    assert_eq!(fields.len(), 5, "{fields:?}");
    assert!(
        fields.contains(&"price") && fields.contains(&"lead_time"),
        "{fields:?}"
    );
    let changes = json["changes"].as_array().unwrap();
    assert_eq!(changes.len(), 1, "{changes:?}");
    assert_eq!(
        (&changes[0]["part"], &changes[0]["supplier"]),
        (&"P-1".into(), &"Marlow".into())
    );
    let words = bench.said(&asked);
    assert!(words.contains("Nothing was written"), "{words}");
    assert_eq!(
        bench.json(&["history", "--workspace", "kept"])["current"],
        3
    );
    // A workspace that is not there yet is not made by looking.
    let first = ["import", "parts.csv", "--workspace", "new", "--dry-run"];
    assert!(bench.said(&first).contains("Nothing was written"));
    assert!(!bench.path().join("new").exists());
    // Rows to mend are written by an import only.
    let both = [&first[..], &["--rejects", "mend.xlsx"]].concat();
    bench.refused(&both, 2);
}

#[test]
fn history_lists_snapshots_in_order_with_their_files() {
    let bench = three();
    let json = bench.json(&["history", "--workspace", "kept"]);
    assert_eq!((&json["schema"], &json["current"]), (&1.into(), &3.into()));
    let snapshots = json["snapshots"].as_array().unwrap();
    let numbers: Vec<u64> = snapshots
        .iter()
        .map(|of| of["number"].as_u64().unwrap())
        .collect();
    assert_eq!(numbers, [1, 2, 3]);
    let files: Vec<&str> = snapshots
        .iter()
        .map(|of| of["files"][0]["file"].as_str().unwrap())
        .collect();
    assert_eq!(
        files,
        [
            "parts.csv",
            "marlow_2026-03-02.csv",
            "marlow_2026-04-02.csv"
        ]
    );
    let words = bench.said(&["history", "--workspace", "kept"]);
    assert!(
        words.contains("3 (current)") && words.contains("import of parts.csv"),
        "{words}"
    );
    assert_eq!(words.lines().count(), 4, "{words}");
}

#[test]
fn a_comparison_turned_round_is_its_mirror() {
    let bench = three();
    let changes = |before: &str, after: &str| {
        let json = bench.json(&["compare", before, after, "--workspace", "kept"]);
        assert_eq!(json["before"].to_string(), before);
        json["changes"].as_array().unwrap().clone()
    };
    let there = changes("2", "3");
    // P-2 is dearer, both are slower.
    assert_eq!(there.len(), 3, "{there:?}");
    let back = changes("3", "2");
    assert_eq!(back.len(), there.len());
    for change in &there {
        let is_mirror = |other: &&serde_json::Value| {
            (&other["part"], &other["before"], &other["after"])
                == (&change["part"], &change["after"], &change["before"])
        };
        assert_eq!(
            back.iter().filter(is_mirror).count(),
            1,
            "{change} in {back:?}"
        );
    }
    assert_eq!(changes("3", "3"), Vec::<serde_json::Value>::new());
    let words = bench.said(&["compare", "3", "3", "--workspace", "kept"]);
    assert_eq!(words, "No change\n");
    let words = bench.said(&["compare", "2", "3", "--workspace", "kept"]);
    assert!(
        words.contains("14.20 EUR") && words.contains("15.60 EUR"),
        "{words}"
    );
}

#[test]
fn a_restored_snapshot_is_a_new_one_that_holds_the_same() {
    let bench = three();
    let json = bench.json(&["restore", "2", "--workspace", "kept"]);
    assert_eq!(
        (&json["snapshot"], &json["restored"]),
        (&4.into(), &2.into())
    );
    assert_eq!(
        bench.said(&["compare", "2", "4", "--workspace", "kept"]),
        "No change\n"
    );
    let words = bench.said(&["restore", "3", "--workspace", "kept"]);
    assert_eq!(words, "Snapshot 5 holds what snapshot 3 held\n");
    let history = bench.said(&["history", "--workspace", "kept"]);
    assert!(
        history.contains("restore of 2") && history.contains("5 (current)"),
        "{history}"
    );
}

#[test]
fn pruning_keeps_the_newest_and_the_current() {
    let bench = three();
    let numbers = || -> Vec<u64> {
        let json = bench.json(&["history", "--workspace", "kept"]);
        let all = json["snapshots"].as_array().unwrap().clone();
        all.iter()
            .map(|of| of["number"].as_u64().unwrap())
            .collect()
    };
    // What a value replaced is forgotten with its snapshot; the value and its cell are not.
    let explained = || -> Vec<(String, String)> {
        let json = bench.json(&["explain", "P-2", "--workspace", "kept"]);
        let values = json["values"].as_array().unwrap().clone();
        let of =
            |value: &serde_json::Value| (value["value"].to_string(), value["place"].to_string());
        values.iter().map(of).collect()
    };
    let before = explained();
    let json = bench.json(&["prune", "--workspace", "kept", "--keep-last", "2"]);
    assert_eq!(json["snapshots"], serde_json::json!([1]));
    assert_eq!(numbers(), [2, 3]);
    // Nothing more to forget; nothing else changes.
    let again = bench.said(&["prune", "--workspace", "kept", "--keep-last", "2"]);
    assert_eq!(again, "Forgot 0 snapshots and removed 0 table files\n");
    let none = bench.said(&["prune", "--workspace", "kept", "--keep-last", "0"]);
    assert!(none.starts_with("Forgot 1 snapshots"), "{none}");
    assert_eq!(numbers(), [3], "the current one always stays");
    assert_eq!(explained(), before);
    bench.refused(&["restore", "2", "--workspace", "kept"], 3);
    bench.refused(&["compare", "2", "3", "--workspace", "kept"], 3);
}

#[test]
fn every_value_of_a_part_is_explained_with_its_cell() {
    let bench = three();
    let json = bench.json(&["explain", "P-2", "--workspace", "kept"]);
    assert_eq!((&json["schema"], &json["part"]), (&1.into(), &"P-2".into()));
    let values = json["values"].as_array().unwrap();
    // 15.60 EUR in hundredths of a cent.
    let price = values
        .iter()
        .find(|value| value["column"] == "price_cents_e2")
        .unwrap_or_else(|| panic!("{values:?}"));
    assert_eq!(price["value"], "156000");
    assert_eq!(price["place"]["cell"], "C3");
    assert_eq!(price["import"], 3);
    assert!(
        price["place"].to_string().contains("marlow_2026-04-02.csv"),
        "{price}"
    );
    assert!(price["replaced"].to_string().contains("142000"), "{price}");
    let words = bench.said(&["explain", "P-2", "--workspace", "kept"]);
    assert!(words.contains("marlow_2026-04-02.csv, C3"), "{words}");
    // Named in another spelling, it is the same part.
    let loose = bench.said(&["explain", "p 2", "--workspace", "kept"]);
    assert_eq!(loose, words);
}

#[test]
fn what_is_not_there_is_said_with_the_next_step() {
    let bench = three();
    bench.write("notes.txt", "call the shop");
    for (arguments, code, words) in [
        (
            &["history", "--workspace", "nowhere"][..],
            3,
            "`sparewright import` makes one",
        ),
        (
            &["explain", "X-9", "--workspace", "kept"],
            3,
            "expected an own number as in the parts table",
        ),
        (
            &["explain", "P-1", "--workspace", "nowhere"],
            3,
            "is not a workspace",
        ),
        (
            &["restore", "9", "--workspace", "kept"],
            3,
            "`sparewright history` lists those that are kept",
        ),
        (
            &["restore", "0", "--workspace", "kept"],
            3,
            "there is no snapshot 0",
        ),
        (
            &["compare", "1", "9", "--workspace", "kept"],
            3,
            "there is no snapshot 9",
        ),
        (
            &["compare", "9", "1", "--workspace", "kept"],
            3,
            "there is no snapshot 9",
        ),
        (
            &["prune", "--workspace", "nowhere", "--keep-last", "1"],
            3,
            "is not a workspace",
        ),
        (
            &["import", "nowhere.csv", "--workspace", "kept"],
            3,
            "hint: PATH names spreadsheets",
        ),
        (
            &["import", "notes.txt", "--workspace", "kept"],
            3,
            "hint: PATH names spreadsheets",
        ),
        (&["run", "--workspace", "nowhere"], 3, "is not a workspace"),
        (
            &["match", "6205", "--workspace", "nowhere"],
            3,
            "is not a workspace",
        ),
        (
            &["levels", "--workspace", "nowhere"],
            3,
            "is not a workspace",
        ),
    ] {
        let errors = bench.refused(arguments, code);
        assert!(errors.contains(words), "{arguments:?}: {errors}");
    }
    assert_eq!(
        bench.json(&["history", "--workspace", "kept"])["current"],
        3,
        "nothing was changed"
    );
}

#[test]
fn a_wrong_line_is_wrong_usage_before_anything_is_read() {
    let bench = Bench::new();
    for arguments in [
        &["import", "shop"][..],
        &["import", "--workspace", "kept"],
        &["history"],
        &["compare", "1", "--workspace", "kept"],
        &["compare", "one", "2", "--workspace", "kept"],
        &["compare", "-1", "2", "--workspace", "kept"],
        &["restore", "--workspace", "kept"],
        &["restore", "99999999999", "--workspace", "kept"],
        &["prune", "--workspace", "kept"],
        &["prune", "--workspace", "kept", "--keep-last", "-1"],
        &["prune", "--workspace", "kept", "--keep-last", "all"],
        &["explain", "--workspace", "kept"],
        &["history", "--workspace", "kept", "--format", "csv"],
        &["import", "shop", "--workspace", "kept", "--map", "no sign"],
        &["serve"],
        &["serve", "--workspace", "kept", "--listen", "here"],
        &[
            "serve",
            "--workspace",
            "kept",
            "--listen",
            "127.0.0.1:99999",
        ],
        &["completions", "dos"],
        &["completions"],
        &["man", "nothing"],
        &["man", "kit", "--out", "x"],
        &["nothing"],
    ] {
        bench.refused(arguments, 2);
    }
    assert!(!bench.path().join("kept").exists());
}

#[test]
fn a_file_that_stands_where_the_workspace_should_be_is_no_workspace() {
    let bench = Bench::new();
    bench.write("taken", "a file");
    let errors = bench.run(&["import", "shop", "--workspace", "taken"]);
    assert!(matches!(errors.code, 3 | 4), "{}", errors.errors);
    assert!(errors.errors.starts_with("error: "), "{}", errors.errors);
    assert_eq!(
        std::fs::read_to_string(bench.path().join("taken")).unwrap(),
        "a file"
    );
}
