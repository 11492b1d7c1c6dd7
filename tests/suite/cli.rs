//! The built program: exit codes, streams, help, and what a wrong file or question gets told.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

mod completions;
mod forms;
mod help;
mod looking_up;
mod planning_options;
mod program;
mod refusals;
mod serving;
mod strangers;
mod workspace;

/// Runs the program in a folder of its own.
fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_sparewright"))
        .args(arguments)
        .current_dir(folder)
        .output()
        .unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn folder() -> tempfile::TempDir {
    tempfile::tempdir().unwrap()
}

fn demo() -> String {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("data/demo")
        .to_string_lossy()
        .into_owned()
}

#[test]
fn the_demo_writes_every_form_below_reports() {
    let folder = folder();
    let output = run(folder.path(), &["run", &demo()]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let summary = text(&output.stdout);
    for start in ["Rows ", "Parts ", "Kits ", "Longest ", "Order now "] {
        assert!(summary.contains(start), "{start} in {summary}");
    }
    let reports = folder.path().join("reports/demo");
    for name in [
        "reorder.xlsx",
        "reorder.html",
        "reorder.json",
        "order_now.csv",
        "rejected.csv",
        "tables/parts.parquet",
    ] {
        assert!(reports.join(name).is_file(), "{name}");
    }
    assert!(text(&output.stderr).is_empty(), "{}", text(&output.stderr));
}

#[test]
fn a_second_run_does_not_read_its_own_reports() {
    let folder = folder();
    fs::write(
        folder.path().join("parts.csv"),
        "part no,designation\nA-1,6205-2RS\n",
    )
    .unwrap();
    let first = run(folder.path(), &["run", ".", "--out", "."]);
    assert_eq!(first.status.code(), Some(0), "{}", text(&first.stderr));
    let second = run(folder.path(), &["run", ".", "--out", "."]);
    let rows = |output: &Output| {
        text(&output.stdout)
            .lines()
            .find(|line| line.starts_with("Parts"))
            .map(str::to_owned)
    };
    assert_eq!(rows(&first), rows(&second));
    assert!(
        rows(&second).unwrap().contains("1 own"),
        "{:?}",
        rows(&second)
    );
}

#[test]
fn a_folder_without_tables_is_exit_3_and_says_what_is_needed() {
    let folder = folder();
    fs::write(folder.path().join("notes.txt"), "call the shop").unwrap();
    for argument in [".", "nowhere"] {
        let output = run(folder.path(), &["run", argument]);
        assert_eq!(output.status.code(), Some(3), "{}", text(&output.stdout));
        assert!(
            text(&output.stderr).starts_with("error: "),
            "{}",
            text(&output.stderr)
        );
        assert!(
            text(&output.stderr).contains("hint: "),
            "{}",
            text(&output.stderr)
        );
    }
}

#[test]
fn a_damaged_workbook_is_named_and_the_rest_runs() {
    let folder = folder();
    fs::write(
        folder.path().join("parts.csv"),
        "part no,designation\nA-1,6205-2RS\n",
    )
    .unwrap();
    fs::write(folder.path().join("prices.xlsx"), "no workbook at all").unwrap();
    let output = run(folder.path(), &["run", ".", "--out", "out"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(
        text(&output.stdout).contains("prices.xlsx"),
        "{}",
        text(&output.stdout)
    );
}

#[test]
fn a_bad_row_is_counted_listed_and_found_by_check() {
    let folder = folder();
    let rows = "date,part no,quantity,machine\n2026-01-05,A-1,two,M1\n2026-01-06,A-1,1,M1\n2026-01-07,A-1,1,M1\n";
    fs::write(folder.path().join("usages.csv"), rows).unwrap();
    fs::write(
        folder.path().join("parts.csv"),
        "part no,designation\nA-1,6205-2RS\n",
    )
    .unwrap();
    let output = run(folder.path(), &["run", ".", "--out", "out", "--check"]);
    assert_eq!(output.status.code(), Some(1), "{}", text(&output.stderr));
    let rejected = fs::read_to_string(folder.path().join("out/rejected.csv")).unwrap();
    assert!(
        rejected.contains("usages.csv") && rejected.contains("C2") && rejected.contains("two"),
        "{rejected}"
    );
}

#[test]
fn rows_to_mend_come_out_of_a_run_and_of_an_import() {
    let folder = folder();
    let rows = "date,part no,quantity,machine\n2026-01-05,A-1,two,M1\n2026-01-06,A-1,1,M1\n";
    fs::create_dir(folder.path().join("in")).unwrap();
    fs::write(folder.path().join("in/usages.csv"), rows).unwrap();
    let rows_in = |path: &str| {
        let settings = sparewright::record::ShopSettings::default();
        let read = sparewright::import::read_rejects(&folder.path().join(path), &settings).unwrap();
        (read.rows_read, read.rows_rejected)
    };
    let output = run(folder.path(), &["run", "in", "--out", "out"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert_eq!(rows_in("out/rejects.xlsx"), (1, 1));
    let import = [
        "import",
        "in",
        "--workspace",
        "shop",
        "--rejects",
        "mend.xlsx",
    ];
    let output = run(folder.path(), &import);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(
        text(&output.stdout).contains("1 row to mend, written into mend.xlsx"),
        "{}",
        text(&output.stdout)
    );
    assert_eq!(rows_in("mend.xlsx"), (1, 1));
    let nowhere = [
        "import",
        "in",
        "--workspace",
        "shop",
        "--rejects",
        "nowhere/mend.xlsx",
    ];
    assert_eq!(run(folder.path(), &nowhere).status.code(), Some(4));
}

#[test]
fn run_takes_mappings_in_the_words_of_import() {
    let folder = folder();
    fs::create_dir(folder.path().join("in")).unwrap();
    let list = "Supplier;Designation;VK;Lead time\nNord;6305-2RS;4,50;3 days\n";
    fs::write(folder.path().join("in/list.csv"), list).unwrap();
    let price = |arguments: &[&str]| {
        let output = run(folder.path(), arguments);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        let offers = fs::read_to_string(folder.path().join("out/files.csv")).unwrap();
        (offers.contains("VK = price"), text(&output.stderr))
    };
    let plain = ["run", "in", "--out", "out"];
    assert!(!price(&plain).0);
    let mapped = [
        "run",
        "in",
        "--out",
        "out",
        "--map",
        "list.csv!VK=price",
        "--map",
        "EK=price",
    ];
    let (is_read, told) = price(&mapped);
    assert!(is_read);
    assert!(
        told.contains("Mapping not used") && told.contains("EK=price"),
        "{told}"
    );
    // A run remembers nothing; a workspace remembers what its import was told.
    assert!(!price(&plain).0);
    let import = ["import", "in", "--workspace", "shop", "--map", "VK=price"];
    assert_eq!(run(folder.path(), &import).status.code(), Some(0));
    assert!(price(&["run", "--workspace", "shop", "--out", "out"]).0);
    let both = ["run", "--workspace", "shop", "--map", "VK=price"];
    let output = run(folder.path(), &both);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("give `--map` to `import`"));
    let wrong = run(folder.path(), &["run", "in", "--map", "VK=prise"]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(text(&wrong.stderr).contains("perhaps `price` is meant"));
}

#[test]
fn a_place_that_cannot_be_written_is_exit_4() {
    let folder = folder();
    fs::write(
        folder.path().join("parts.csv"),
        "part no,designation\nA-1,6205-2RS\n",
    )
    .unwrap();
    fs::write(folder.path().join("taken"), "a file").unwrap();
    let output = run(folder.path(), &["run", ".", "--out", "taken"]);
    assert_eq!(output.status.code(), Some(4), "{}", text(&output.stdout));
}

#[test]
fn a_wrong_moment_or_option_is_exit_2() {
    let folder = folder();
    let output = run(folder.path(), &["run", ".", "--as-of", "monday"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        text(&output.stderr).contains("`monday` is not a moment"),
        "{}",
        text(&output.stderr)
    );
    assert_eq!(
        run(folder.path(), &["run", ".", "--as-off", "2026-03-09"])
            .status
            .code(),
        Some(2)
    );
    assert_eq!(
        run(folder.path(), &["match", "the big one"]).status.code(),
        Some(2)
    );
}

#[test]
fn match_answers_in_json_of_schema_1() {
    let folder = folder();
    let output = run(
        folder.path(),
        &[
            "match",
            "6206-2RS C3",
            "--shop",
            &demo(),
            "--format",
            "json",
        ],
    );
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(json["schema"], 1);
    // ISO 15, dimension series 02: 6206 is 30 x 62 x 16.
    assert_eq!(json["answers"][0]["dimensions"]["bore_mm"], 30.0);
    assert_eq!(json["answers"][0]["dimensions"]["width_mm"], 16.0);
    assert_eq!(json["cautions"].as_array().unwrap().len(), 3);
    for key in ["refused", "warnings"] {
        assert!(json[key].is_array(), "{key}");
    }
}

#[test]
fn a_kit_is_planned_in_every_form_and_without_a_struck_out_offer() {
    let folder = folder();
    let kit = "Flaking roll FR-2 free";
    let shop = demo();
    let ask = |more: &[&str]| {
        let arguments = [&["kit", kit, "--shop", &shop], more].concat();
        let output = run(folder.path(), &arguments);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        text(&output.stdout)
    };
    let table = ask(&["--budget", "500", "--by", "2026-03-16T14:00"]);
    let approvals = table.find("Approvals that would pay").unwrap();
    for title in [
        "Kits and what holds them",
        "Within the budget or the time",
        "Cost against time",
        "Ring these first",
    ] {
        assert!(table.find(title).unwrap() > approvals, "{title}");
    }
    let json: serde_json::Value = serde_json::from_str(&ask(&["--format", "json"])).unwrap();
    assert_eq!(json["schema"], 1);
    let running =
        |json: &serde_json::Value| json["sheets"]["kits"]["rows"][0]["running_likely"].clone();
    assert!(running(&json).is_string());
    let curve = ask(&["--format", "csv", "--table", "curve"]);
    assert!(
        curve.contains("lead_time_share,running,down_h,spend_eur,total_eur"),
        "{curve}"
    );
    // The only offer of the 22213 struck out: the kit has no end.
    let without = ask(&["--format", "json", "--without", "Courroux Lamballais/22213"]);
    assert!(running(&serde_json::from_str(&without).unwrap()).is_null());
}

#[test]
fn a_kit_or_an_offer_that_is_not_there_is_wrong_usage_and_named() {
    let folder = folder();
    for (arguments, words) in [
        (
            vec!["kit", "Nothing", "--shop", &demo()],
            "no kit `Nothing`; there are `",
        ),
        (
            vec![
                "kit",
                "Fan FN-6 shaft",
                "--shop",
                &demo(),
                "--without",
                "Nobody",
            ],
            "no offer `Nobody`",
        ),
        (
            vec!["kit", "Fan FN-6 shaft", "--shop", &demo(), "--budget", "-1"],
            "budget",
        ),
        (
            vec!["kit", "Fan FN-6 shaft", "--shop", &demo(), "--by", "soon"],
            "`soon` is not a moment",
        ),
        (
            vec![
                "kit",
                "Fan FN-6 shaft",
                "--shop",
                &demo(),
                "--table",
                "x",
                "--format",
                "csv",
            ],
            "no table `x`",
        ),
    ] {
        let output = run(folder.path(), &arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(
            text(&output.stderr).contains(words),
            "{}",
            text(&output.stderr)
        );
    }
}

#[test]
fn help_shows_examples_that_run() {
    let folder = folder();
    let top = text(&run(folder.path(), &["--help"]).stdout);
    for command in ["run", "match", "kit", "levels", "what-if", "reorder"] {
        assert!(top.contains(command), "{top}");
        let help = text(&run(folder.path(), &[command, "--help"]).stdout);
        assert!(help.contains("Examples:"), "{help}");
    }
    assert_eq!(
        run(folder.path(), &["match", "30 x 62 x 16 deep groove"])
            .status
            .code(),
        Some(0)
    );
}
