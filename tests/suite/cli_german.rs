//! What commands of a workspace and the checks print in German: no line is English, what other programs read stays as it is.

use std::path::Path;
use std::process::Command;

use sparewright::import::{Known, read_paths};

use crate::german_words::{Words, faults_of_lines, none};
use crate::imported;

/// Lists of a first and of a second import: prices that rise and fall, a supplier that goes, a row that cannot be read, an
/// older list that is kept out.
const FIRST: [(&str, &str); 5] = [
    (
        "parts.csv",
        "Part no;Designation;Description;Unit\nB-1;6205-2RS;Bearing, fan;pcs\nB-2;6308;Bearing, crusher;pcs\n",
    ),
    (
        "marlow_2026-03-02.csv",
        "Supplier;Part no;Price;Currency;Lead time;Unit\nMarlow;B-1;4.10;EUR;2 weeks;pcs\nMarlow;B-2;14.20;EUR;3 weeks;pcs\n",
    ),
    (
        "stock_2026-03-06.csv",
        "Part no;Bin;On hand;Unit\nB-2;R-04;3;pcs\nB-1;R-05;much;pcs\n",
    ),
    (
        "usages.csv",
        "Date;Part no;Quantity;Unit;Machine\n2025-03-01;B-2;1;pcs;Crusher\n2025-06-01;B-2;1;pcs;Crusher\n",
    ),
    ("nothing.csv", "x\n"),
];
const SECOND: [(&str, &str); 3] = [
    (
        "marlow_2026-03-09.csv",
        "Supplier;Part no;Price;Currency;Lead time;Unit\nMarlow;B-2;15.60;EUR;5 weeks;pcs\nMarlow;B-3;9.90;EUR;1 week;pcs\n",
    ),
    (
        "stock_2026-02-01.csv",
        "Part no;Bin;On hand;Unit\nB-2;R-04;9;pcs\n",
    ),
    ("more.csv", "Part no;Designation;Xyzzy\nB-3;6310;plugh\n"),
];

fn printed(arguments: &[&str], language: &str) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_sparewright"))
        .args(arguments)
        .args(["--language", language])
        // So wide that no cell is broken.
        .env("COLUMNS", "600")
        .output()
        .unwrap();
    assert!(
        output.status.success(),
        "{arguments:?}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8(output.stdout).unwrap()
}

/// A command in both languages.
fn both(arguments: &[&str]) -> (String, String, String) {
    (
        arguments.join(" "),
        printed(arguments, "en"),
        printed(arguments, "de"),
    )
}

/// Words of the lists, of their names and of the commands, which may stand in an answer as they are.
fn words_of(folder: &Path) -> Words {
    let lists = FIRST.iter().chain(&SECOND);
    // Meanings as `--map` takes them, columns and values as the workspace keeps them.
    let kept = "part number, lead time, unit of count, on hand, own_number description designation supplier price currency \
                quantity machine date bin family closure clearance rows no open cylindrical piece new condition part lead_time";
    let mut all: String = lists.map(|(name, text)| format!("{name} {text}")).collect();
    all.push_str(&folder.to_string_lossy());
    all.push_str(kept);
    Words::new(&all)
}

#[test]
fn what_a_workspace_says_is_german() {
    let folder = tempfile::tempdir().unwrap();
    let (first, second) = (folder.path().join("a"), folder.path().join("b"));
    let first = imported::lists(&first, &FIRST);
    let second = imported::lists(&second, &SECOND);
    let shop = folder.path().join("shop");
    let (shop, first, second) = (
        shop.to_str().unwrap(),
        first.to_str().unwrap(),
        second.to_str().unwrap(),
    );
    let mut answers = vec![both(&["import", first, "--workspace", shop, "--dry-run"])];
    // An import is done once: each language has a workspace of its own.
    let other = format!("{shop}-2");
    for lists in [first, second, second] {
        answers.push((
            format!("import {lists}"),
            printed(&["import", lists, "--workspace", &other], "en"),
            printed(&["import", lists, "--workspace", shop], "de"),
        ));
    }
    let map = ["--map", "Plugh=price"];
    answers.push(both(
        &[
            &["import", second, "--workspace", shop, "--dry-run"],
            &map[..],
        ]
        .concat(),
    ));
    answers.push(both(&["history", "--workspace", shop]));
    answers.push(both(&["compare", "1", "2", "--workspace", shop]));
    answers.push(both(&["compare", "2", "2", "--workspace", shop]));
    for part in ["B-1", "B-2"] {
        answers.push(both(&["explain", part, "--workspace", shop]));
    }
    answers.push((
        "restore".to_owned(),
        printed(&["restore", "1", "--workspace", &other], "en"),
        printed(&["restore", "1", "--workspace", shop], "de"),
    ));
    answers.push(both(&["history", "--workspace", shop]));
    answers.push((
        "prune".to_owned(),
        printed(&["prune", "--keep-last", "1", "--workspace", &other], "en"),
        printed(&["prune", "--keep-last", "1", "--workspace", shop], "de"),
    ));
    let said: String = answers
        .iter()
        .map(|(_, _, german)| german.as_str())
        .collect();
    for words in [
        "Zeilen",
        "Was sich ändern würde",
        "Es wurde nichts geschrieben",
        "neuer",
    ] {
        assert!(said.contains(words), "no `{words}` in {said}");
    }
    none(&faults_of_lines(
        answers.into_iter(),
        &words_of(folder.path()),
    ));
}

#[test]
fn the_demo_is_shown_in_german_before_it_is_imported() {
    let folder = tempfile::tempdir().unwrap();
    let shop = folder.path().join("shop");
    let demo = imported::demo();
    let answer = both(&[
        "import",
        demo.to_str().unwrap(),
        "--workspace",
        shop.to_str().unwrap(),
        "--dry-run",
    ]);
    let job = sparewright::job::Job::read(&demo, None).unwrap();
    // What the tables hold: values, headers, names of files and sheets, and meanings as `--map` takes them.
    let imported = read_paths(std::slice::from_ref(&demo), &Known::default()).unwrap();
    let dry_run = imported.dry_run();
    let mut all = format!("{:?} {:?}", job.shop, imported);
    for table in &dry_run {
        for column in &table.columns {
            let name = column.field.map_or("", |field| field.name());
            all.push_str(&format!(
                " {} {} {name}",
                column.header,
                column.samples.join(" | ")
            ));
        }
    }
    none(&faults_of_lines([answer].into_iter(), &Words::new(&all)));
}

#[test]
fn every_check_is_told_in_german() {
    let checks = [
        "life --family deep_groove_ball --rating 19.5 --load 3 --rpm 1450",
        "life --family cylindrical_roller --rating 40 --load 10",
        "life --family deep_groove_ball --rating 12.7 --load 3 --instead-rating 10 --same-source",
        "life --family deep_groove_ball --rating 12.7 --load 3 --instead-rating 10",
        "speed --rpm 9000 --limit 14000 --closure 2RS --limit-of-open",
        "speed --rpm 9000 --limit 14000 --limit-of-open",
        "seat --diameter 25 --seat k6 --measured 25.0 --uncertainty 20",
        "spacer --first 14 --second 16 --load 200 --documented 12 --documented-load 200 --uncertainty 15",
        "static --family deep_groove_ball --rating 11.2 --radial 4 --axial 1",
        "static --family deep_groove_ball --rating 3 --radial 4",
        "seat --diameter 25 --seat k6 --clearance CN",
        "seat --diameter 25 --seat k6 --measured 24.96",
        "seat --diameter 25 --seat k6 --measured 25.1",
        "seat --diameter 52 --seat H7 --measured 52.038",
        "seat --diameter 25 --seat k6 --clearance CN --measured 25.06 --uncertainty 2",
        "life --family deep_groove_ball --rating 10 --static-rating 5 --load 20",
        "spacer --first 400 --second 600 --load 200 --documented 22 --documented-load 200",
        "seat --diameter 62 --seat J7 --measured 62.01",
        "seat --diameter 25 --seat r6 --clearance C2",
        "oring --inside 37.69 --section 3.53 --floor 38.1 --depth 2.87 --width 4.6",
        "oring --inside 37.69 --section 3.53 --floor 50 --depth 1.5 --width 3",
        "oring --inside 37.69 --section 3.53 --depth 3.6 --duty reciprocating",
        "lip --shaft 35 --rpm 1450 --elastomer NBR",
        "lip --shaft 200 --rpm 6000 --elastomer NBR",
        "lip --shaft 35 --rpm 1450",
        "spacer --first 4 --second 6 --load 200 --documented 12 --documented-load 200",
        "spacer --first 4 --second 6 --load 200 --documented 12 --documented-load 200 --arrangement DF",
        "spacer --first 4 --second 6 --load 200 --documented 10 --documented-load 200",
        "spacer --first 4 --second 6 --load 200 --documented 10 --documented-load 300",
        "spacer --first 4 --second 6",
        "spacer --first 4 --second 6 --load 200 --documented 22",
        "static --family angular_contact_ball --angle 40 --rating 15 --radial 2 --axial 10",
        "static --family spherical_roller --rating 200 --radial 20 --axial 10 --axial-factor 2.2",
        "seat --diameter 52 --seat J7 --clearance CN",
        "seat --diameter 52 --seat P7 --clearance CN --bore 25",
        "seat --diameter 25 --seat k6 --clearance CN --family tapered_roller",
        "seat --diameter 220 --seat k6 --clearance CN",
        "oring --inside 37.69 --section 3.53 --floor 37.8 --depth 2.87 --width 4.6",
        "oring --inside 37.69 --section 3.53 --depth 3",
        "oring --inside 37.69 --section 3.53 --depth 2.75",
        "spacer --from-widths",
    ];
    let answers = checks.iter().map(|check| {
        let arguments: Vec<&str> = ["check"].into_iter().chain(check.split(' ')).collect();
        both(&arguments)
    });
    none(&faults_of_lines(answers, &Words::new("")));
}

#[test]
fn json_is_the_same_in_every_language() {
    let demo = imported::demo_workspace().to_str().unwrap();
    for arguments in [
        &["history", "--workspace", demo][..],
        &["explain", "BRG-0106", "--workspace", demo],
        &["compare", "1", "1", "--workspace", demo],
        &["check", "lip", "--shaft", "35", "--rpm", "1450"],
    ] {
        let arguments = [arguments, &["--format", "json"]].concat();
        let (_, english, german) = both(&arguments);
        assert_eq!(english, german, "{arguments:?}");
        serde_json::from_str::<serde_json::Value>(&english).unwrap();
    }
}

#[test]
fn the_settings_say_the_language_of_an_import_where_nobody_else_does() {
    let folder = tempfile::tempdir().unwrap();
    let lists = imported::lists(
        folder.path(),
        &[
            FIRST[0],
            ("shop.toml", "shop = \"Crusher works\"\nlanguage = \"de\"\n"),
        ],
    );
    let shop = folder.path().join("shop");
    let done = imported::import(&lists, &shop);
    let said = String::from_utf8(done.stdout).unwrap();
    assert!(said.contains("2 Zeilen"), "{said}");
    // Who asks for another one gets it.
    let english = printed(
        &[
            "import",
            lists.to_str().unwrap(),
            "--workspace",
            shop.to_str().unwrap(),
        ],
        "en",
    );
    assert!(english.contains("Nothing new"), "{english}");
}

#[test]
fn an_unknown_language_is_refused_with_those_there_are() {
    let output = Command::new(env!("CARGO_BIN_EXE_sparewright"))
        .args([
            "check",
            "lip",
            "--shaft",
            "35",
            "--rpm",
            "1450",
            "--language",
            "xx",
        ])
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.contains("en, de"), "{said}");
}
