//! `levels`, `what-if` and `reorder` on the demo: every form, what they must show, and what a wrong question gets told.

use std::path::Path;
use std::process::{Command, Output};

use super::sheets::SmallShop;

fn run(arguments: &[&str]) -> Output {
    let shop = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo");
    Command::new(env!("CARGO_BIN_EXE_sparewright"))
        .args(arguments)
        .arg("--shop")
        .arg(shop)
        .output()
        .unwrap()
}

fn said(arguments: &[&str]) -> String {
    let output = run(arguments);
    let errors = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {errors}");
    String::from_utf8(output.stdout).unwrap()
}

fn rows(arguments: &[&str], sheet: &str) -> Vec<serde_json::Value> {
    let json = said(&[arguments, &["--format", "json"]].concat());
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(json["schema"], 1);
    let rows = &json["sheets"][sheet]["rows"];
    rows.as_array()
        .unwrap_or_else(|| panic!("no {sheet}"))
        .clone()
}

#[test]
fn a_level_says_why_its_turning_points_and_its_past() {
    let table = said(&["levels", "--part", "BRG-0204"]);
    // Words are wrapped to the terminal.
    let table = table.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "three fans of one age run rough",
        "Another number from",
        "The past with it",
    ] {
        assert!(table.contains(words), "{words} in {table}");
    }
    // One part was asked for, and neither others nor the curve and the year of the whole shop.
    let table = table.replace("the sheet `The year ahead`", "");
    for words in ["BRG-0101", "What service costs", "The year ahead"] {
        assert!(!table.contains(words), "{words} in {table}");
    }
    let whole = said(&["levels"]);
    assert!(whole.contains("What service costs") && whole.contains("The year ahead"));
    let csv = said(&["levels", "--format", "csv"]);
    assert!(csv.contains("number,designation,free"), "{csv:.300}");
    let signed = rows(&["levels", "--part", "BRG-0346"], "levels");
    assert_eq!(signed[0]["min_stock"], 4.0);
}

#[test]
fn a_smaller_budget_ties_up_less() {
    let value = |amount: &str| {
        let rows = rows(&["levels", "--budget", amount], "service_curve");
        let own = rows
            .iter()
            .find(|row| row["note"] == "the levels of this report");
        own.unwrap()["stock_value_eur"].as_f64().unwrap()
    };
    let (less, more) = (value("9000"), value("12000"));
    assert!(
        less <= 9000.0 && more <= 12000.0 && less < more,
        "{less} {more}"
    );
}

#[test]
fn a_change_shows_before_and_after() {
    let asked = ["what-if", "--slower", "Courroux=2", "--budget-cut", "20"];
    let table = said(&asked);
    for title in [
        "Before and after",
        "Machines, before and after",
        "Levels that change",
        "Kits that move",
        "Caution",
    ] {
        assert!(table.contains(title), "{title} in {table}");
    }
    let figures = rows(&asked, "before_after");
    let figure = |name: &str| {
        let row = figures.iter().find(|row| {
            let figure = row["figure"].as_str().unwrap();
            figure.starts_with(name)
        });
        let row = row.unwrap_or_else(|| panic!("{name} in {figures:?}"));
        (
            row["before"].as_f64().unwrap(),
            row["after"].as_f64().unwrap(),
        )
    };
    let (before, after) = figure("Money tied up by the levels");
    assert!(after <= 0.8 * before + 0.1, "{before} {after}");
    let (before, after) = figure("Production hours down");
    assert!(
        after > before,
        "slower and with less stock: {before} {after}"
    );
    let kits = rows(
        &["what-if", "--gone", "Courroux Lamballais"],
        "what_if_kits",
    );
    assert!(!kits.is_empty(), "a supplier that is gone moves kits");
    let machines = rows(
        &["what-if", "--one-more", "PP-3", "--retired", "VP-1"],
        "what_if_machines",
    );
    let of = |name: &str| machines.iter().find(|row| row["machine"] == name).unwrap();
    assert_eq!(of("PP-3")["installed"], 2);
    assert!(of("VP-1")["after_mean_h"].is_null());
}

#[test]
fn the_order_list_goes_by_what_it_saves_and_shows_what_waits() {
    let sorted = rows(&["reorder"], "by_saving");
    let now: Vec<f64> = sorted
        .iter()
        .filter(|row| row["when"] == "now")
        .filter_map(|row| row["saves_eur"].as_f64())
        .collect();
    assert!(
        now.len() > 20 && now.windows(2).all(|pair| pair[0] >= pair[1]),
        "{now:?}"
    );
    // The vacuum packers leave service within the year.
    let last = rows(&["reorder"], "last_buys");
    assert!(
        last.iter().any(|row| row["number"] == "BRG-0237"),
        "{last:?}"
    );
    let csv = said(&["reorder", "--table", "surplus", "--format", "csv"]);
    for kind in ["expired", "dead"] {
        assert!(csv.contains(kind), "{kind} in {csv:.2000}");
    }
    let table = said(&["reorder"]);
    for title in ["Open orders to chase", "Set these first", "Can wait"] {
        assert!(table.contains(title), "{title}");
    }
    for label in ["buy now", "interchange", "system approach"] {
        assert!(!table.to_lowercase().contains(label), "{label}");
    }
}

#[test]
fn the_order_list_names_each_part_of_a_supplier_once_in_every_form() {
    // Workbook and page show the same rows as these.
    let all = rows(&["reorder"], "by_saving");
    let line = |row: &serde_json::Value| {
        let text = |key: &str| row[key].as_str().unwrap().to_owned();
        (text("buy"), text("supplier"), row["when"] == "no need yet")
    };
    // What is worth keeping for later than today stays a line of its own.
    let today: Vec<_> = all
        .iter()
        .filter(|row| row["when"] == "now")
        .map(line)
        .collect();
    let once: std::collections::BTreeSet<_> = today.iter().cloned().collect();
    assert_eq!(once.len(), today.len(), "{today:?}");
    // The drive side bearing set is wanted by a rebuild and by its level: both stand in its one line.
    let set = all
        .iter()
        .filter(|row| row["buy"] == "BRG-0263")
        .collect::<Vec<_>>();
    assert_eq!(set.len(), 1, "{set:?}");
    let why = set[0]["why"].as_str().unwrap();
    assert!(
        why.contains("Rebuild on 2026-04-20") && why.contains("reorder point"),
        "{why}"
    );
    assert_eq!(set[0]["quantity"], 3.0);
    let csv = said(&["reorder", "--table", "by_saving", "--format", "csv"]);
    assert_eq!(
        csv.lines().filter(|row| row.contains("BRG-0263")).count(),
        1,
        "{csv:.2000}"
    );
    let table = said(&["reorder", "--table", "by_saving"]);
    assert!(table.contains("BRG-0263"), "{table:.2000}");
}

#[test]
fn a_last_buy_stands_on_the_order_list_flagged_and_once() {
    let all = rows(&["reorder"], "by_saving");
    for last in rows(&["reorder"], "last_buys") {
        let number = last["number"].as_str().unwrap();
        let of_part: Vec<_> = all.iter().filter(|row| row["buy"] == number).collect();
        let flagged = of_part
            .iter()
            .filter(|row| row["why"].as_str().unwrap().contains("Last buy: "));
        let wanted = usize::from(last["buy"].as_f64().unwrap() > 0.0);
        assert_eq!(flagged.count(), wanted, "{number}: {of_part:?}");
        for row in of_part {
            assert_eq!(row["when"], "now", "{row}");
        }
    }
}

#[test]
fn dead_stock_has_value_bin_since_when_and_why_and_no_kit_that_counts() {
    let rows = rows(&["reorder"], "surplus");
    // What ties up most is read first, and what has no price last.
    let values = rows
        .iter()
        .map(|row| row["value_eur"].as_f64().unwrap_or(-1.0));
    let values: Vec<f64> = values.collect();
    assert!(values.is_sorted_by(|a, b| a >= b), "{values:?}");
    let dead: Vec<_> = rows.iter().filter(|row| row["kind"] == "dead").collect();
    assert!(dead.len() > 100, "{}", dead.len());
    for row in &dead {
        let why = row["basis"].as_str().unwrap();
        assert!(row["since"].is_string() && row["bin"].is_string(), "{row}");
        assert!(
            why.contains("on no kit")
                || why.contains("as many as one rebuild takes")
                || why.contains("kept by its level"),
            "{row}"
        );
    }
    let priced = dead
        .iter()
        .filter(|row| row["value_eur"].is_number())
        .count();
    assert!(10 * priced > 8 * dead.len(), "{priced} of {}", dead.len());
}

#[test]
fn a_question_about_nothing_is_wrong_usage_and_says_what_there_is() {
    for (arguments, words) in [
        (&["what-if"][..], "nothing changes"),
        (&["what-if", "--gone", "Nobody"], "no supplier `Nobody`"),
        (&["what-if", "--one-more", "X-9"], "no machine `X-9`"),
        (
            &["what-if", "--slower", "Courroux"],
            "no supplier with a factor",
        ),
        (&["what-if", "--budget-cut", "-5"], "no cut of the budget"),
        (&["levels", "--part", "X-9"], "no own part `X-9`"),
        (&["levels", "--target", "3"], "no service target"),
        (
            &["reorder", "--table", "x", "--format", "csv"],
            "no table `x`",
        ),
    ] {
        let output = run(arguments);
        let errors = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {errors}");
        assert!(errors.contains(words), "{errors}");
    }
}

/// Words of English sentences that stand in no German one.
fn english_words(text: &str) -> Vec<&str> {
    // A line with a place in a file, or the name of a kit of the demo, has words of the shop.
    let of_shop = ["VP-1 pump and", "pump and chain", "rev/min and 65"];
    let is_ours =
        |line: &&str| !line.contains('`') && !of_shop.iter().any(|words| line.contains(words));
    let words = text
        .lines()
        .filter(is_ours)
        .flat_map(|line| line.split(|c: char| !c.is_alphabetic()));
    let is_english = |word: &&str| {
        [
            "the", "and", "with", "from", "which", "lines", "shelf", "Caution", "Held", "Order",
        ]
        .contains(word)
    };
    words.filter(is_english).collect()
}

#[test]
fn tables_are_printed_in_german_with_its_numbers_and_dates() {
    let kit = said(&["kit", "Fan FN-6", "--language", "de"]);
    for (arguments, shown) in [
        (
            vec!["levels", "--part", "BRG-0204"],
            vec!["Bestandsvorgaben", "Meldebestand", "09.03.2026", "Achtung"],
        ),
        (
            vec!["reorder"],
            vec![
                "Bestellen, nach dem, was es spart",
                "Benötigt bis",
                "09.03.2026",
                "Achtung",
            ],
        ),
        (
            vec!["what-if", "--budget-cut", "20"],
            vec!["Vorher", "Nachher", "09.03.2026"],
        ),
    ] {
        let german = said(&[&arguments[..], &["--language", "de"]].concat());
        for words in shown {
            assert!(
                german.contains(words),
                "{arguments:?}: no `{words}` in {german}"
            );
        }
        let left = english_words(&german);
        assert!(left.len() < 3, "{arguments:?}: {left:?} in {german}");
        let english = said(&arguments);
        assert!(english_words(&english).len() > 10, "{arguments:?}");
        assert!(english.contains("2026-03-09"));
    }
    assert!(
        kit.contains("Bauteilsatz") && kit.contains("09.03.2026"),
        "{kit}"
    );
}

#[test]
fn keys_and_figures_for_programs_stay_in_a_german_answer() {
    let csv = |language: &str| said(&["levels", "--format", "csv", "--language", language]);
    let (english, german) = (csv("en"), csv("de"));
    assert_eq!(english.lines().next(), german.lines().next());
    assert_eq!(english.lines().count(), german.lines().count());
    let json = said(&["levels", "--format", "json", "--language", "de"]);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(json["report"]["language"], "de");
    assert!(json["sheets"]["levels"]["rows"][0]["min_stock"].is_number());
}

#[test]
fn a_language_that_is_not_there_is_refused_with_those_that_are() {
    let output = run(&["levels", "--language", "xx"]);
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains("en, de"), "{said}");
}

#[test]
fn the_bench_is_answered_in_german() {
    let answer = |language: &str| {
        let output = run(&["match", "6206-2RS C3", "--language", language]);
        assert_eq!(output.status.code(), Some(0));
        String::from_utf8(output.stdout).unwrap()
    };
    let (english, german) = (answer("en"), answer("de"));
    for words in [
        "Rillenkugellager",
        "Keines davon",
        "Achtung",
        "passt unverändert",
    ] {
        assert!(german.contains(words), "no `{words}` in {german}");
    }
    let left = english_words(&german);
    assert!(left.is_empty(), "{left:?} in {german}");
    assert!(english.contains("goes in as it is") && english.contains("Caution"));
}

#[test]
fn the_summary_of_a_run_is_german_too() {
    let out = tempfile::tempdir().unwrap();
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo");
    let run = |language: &str| {
        let output = Command::new(env!("CARGO_BIN_EXE_sparewright"))
            .arg("run")
            .arg(&demo)
            .args(["--language", language, "--out"])
            .arg(out.path())
            .output()
            .unwrap();
        assert_eq!(output.status.code(), Some(0), "{output:?}");
        String::from_utf8(output.stdout).unwrap()
    };
    let german = run("de");
    for words in [
        "Stand 09.03.2026",
        "Zeilen",
        "Bauteilsätze",
        "Jetzt bestellen",
        "Berichte in",
    ] {
        assert!(german.contains(words), "no `{words}` in {german}");
    }
    let left = english_words(&german);
    assert!(left.is_empty(), "{left:?} in {german}");
    let english = run("en");
    assert!(
        english.contains("as of 2026-03-09") && english.contains("Order now"),
        "{english}"
    );
}

#[test]
fn a_file_that_cannot_be_read_is_told_beside_every_plan() {
    let folder = tempfile::tempdir().unwrap();
    SmallShop::new().write(folder.path());
    let ask = |arguments: &[&str]| {
        Command::new(env!("CARGO_BIN_EXE_sparewright"))
            .args(arguments)
            .args(["--as-of", "2026-11-26T08:00", "--shop"])
            .arg(folder.path())
            .output()
            .unwrap()
    };
    let commands: [&[&str]; 4] = [
        &["kit", "Press head"],
        &["levels"],
        &["reorder"],
        &["what-if", "--gone", "South"],
    ];
    for arguments in commands {
        let output = ask(arguments);
        assert_eq!(output.status.code(), Some(0), "{arguments:?}");
        assert!(output.stderr.is_empty(), "{arguments:?}: {output:?}");
    }
    // A workbook is a zip archive; this one is cut off behind its first four bytes.
    std::fs::write(folder.path().join("more_prices.xlsx"), b"PK\x03\x04cut off").unwrap();
    for arguments in commands {
        let output = ask(arguments);
        let errors = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(0), "{arguments:?}: {errors}");
        assert!(
            errors.contains("Not read: more_prices.xlsx"),
            "{arguments:?}: {errors}"
        );
        let output = ask(&[arguments, &["--format", "json"]].concat());
        let json: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
        let unknowns = json["cover"]["unknowns"].to_string();
        assert!(
            unknowns.contains("Not read: more_prices.xlsx"),
            "{arguments:?}: {unknowns}"
        );
    }
}
