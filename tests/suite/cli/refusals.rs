//! What goes wrong is told in the language asked for, with its causes and the next step, and as JSON to who asked for JSON.

use std::collections::BTreeMap;
use std::path::Path;

use serde_json::Value;

use super::program::{AS_OF, Bench};
use crate::german_words::{Words, faults_of_lines, none};

/// A line that must be refused, with its exit code (README, exit codes).
const REFUSED: [(&str, i32); 49] = [
    ("run", 2),
    ("kit Press --shop shop --budget abc", 2),
    ("levels --shop shop --target much", 2),
    ("run nowhere", 3),
    ("run empty", 3),
    ("run headers", 3),
    ("run broken", 3),
    ("run shop --as-of soon", 2),
    ("run shop --table nothing --out out", 2),
    ("run shop --table order_nwo --out out", 2),
    ("run shop --map Netto=nothing", 2),
    ("run shop --map lead", 2),
    ("run shop --map $1=price", 2),
    ("run --workspace kept --map Netto=price", 2),
    ("run --workspace shop", 3),
    ("run shop --out in_the_way", 4),
    ("run shop --fromat csv", 2),
    ("run shop --as-of", 2),
    ("rnu shop", 2),
    ("match zzz", 2),
    ("match 6205 --shop nowhere", 3),
    ("match 6205 --shop empty --workspace kept", 2),
    ("import nowhere --workspace kept", 3),
    ("import broken --workspace other", 3),
    ("import headers --workspace other", 3),
    (
        "import shop --workspace kept --rejects nowhere/mend.xlsx",
        4,
    ),
    ("import shop", 2),
    ("history --workspace nowhere", 3),
    ("compare 1 9 --workspace kept", 3),
    ("compare one 9 --workspace kept", 2),
    ("restore 9 --workspace kept", 3),
    ("explain NOTHING-1 --workspace kept", 3),
    ("kit nothing --shop shop", 2),
    ("kit x --workspace bare", 2),
    ("kit x", 2),
    ("kit Press --shop shop --by 2020-01-01", 2),
    ("kit Press --shop shop --budget -5", 2),
    ("kit Press --shop shop --without Nobody", 2),
    ("levels --shop shop --part NOTHING", 2),
    ("levels --shop shop --target 2", 2),
    ("levels --shop shop --budget -5", 2),
    ("what-if --shop shop", 2),
    ("what-if --shop shop --slower North", 2),
    ("what-if --shop shop --slower North=90", 2),
    ("what-if --shop shop --gone Nobody", 2),
    ("what-if --shop shop --one-more Nothing", 2),
    ("what-if --shop shop --budget-cut 200", 2),
    ("serve --workspace kept --listen 8090", 2),
    ("serve --workspace kept --listen 0.0.0.0:8090", 3),
];

/// The checks that are refused: words that no list has, figures that no table has.
const CHECKS: [&str; 16] = [
    "seat --diameter -3 --seat k6",
    "life --family wheel --rating 10 --load 1",
    "life --family o_ring --rating 10 --load 1",
    "life --family deep_groove_ball --rating 0 --load 1",
    "life --family deep_groove_ball --rating ten --load 1",
    "speed --rpm 100 --limit 1000 --closure 9Z",
    "static --family thrust_ball --rating 10 --radial 4",
    "static --family wheel --rating 10 --radial 4",
    "static --family angular_contact_ball --rating 10 --radial 4 --axial 1",
    "static --family angular_contact_ball --rating 10 --radial 4 --axial 1 --angle 17",
    "static --family deep_groove_ball --rating 10 --radial 4 --angle 15",
    "seat --diameter 25 --seat z99",
    "seat --diameter 25 --seat k6 --class P9",
    "seat --diameter 25 --seat k6 --clearance C9",
    "oring --inside 40 --section 3 --depth 2 --duty turning",
    "spacer --first 1 --second 2 --load 3 --arrangement DX",
];

fn workbook(name: &str) -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/workbooks")
        .join(name)
}

fn bench() -> Bench {
    let bench = Bench::new();
    for folder in ["empty", "broken"] {
        std::fs::create_dir(bench.path().join(folder)).unwrap();
    }
    bench.write("headers/parts.csv", "Part no;Designation\n");
    for name in ["password.xlsx", "truncated.xlsx", "not_a_workbook.xlsx"] {
        std::fs::copy(workbook(name), bench.path().join("broken").join(name)).unwrap();
    }
    bench.write("in_the_way", "a file where a folder should be");
    bench.write("few/parts.csv", "Part no;Designation\nB-1;6205\n");
    bench.said(&["import", "shop", "--workspace", "kept"]);
    bench.said(&["import", "few", "--workspace", "bare"]);
    bench
}

fn lines() -> Vec<(Vec<&'static str>, i32)> {
    let checks = CHECKS.iter().map(|check| {
        let words = ["check"].into_iter().chain(check.split(' '));
        (words.collect(), 2)
    });
    let others = REFUSED
        .iter()
        .map(|(line, code)| (line.split(' ').collect(), *code));
    others.chain(checks).collect()
}

#[test]
fn every_refusal_is_german_where_german_is_asked_for() {
    let bench = bench();
    let mut said = Vec::new();
    for (line, code) in lines() {
        let of = |language: &str| {
            let asked = [&line[..], &["--language", language]].concat();
            let said = bench.run(&asked);
            assert_eq!(said.code, code, "{line:?}: {}", said.errors);
            assert!(said.out.is_empty(), "{line:?}: {}", said.out);
            said.errors
        };
        let (english, german) = (of("en"), of("de"));
        assert!(english.contains("error: "), "{line:?}: {english}");
        assert!(german.starts_with("Fehler: "), "{line:?}: {german}");
        // The parser says more in English: usage and a pointer to the help.
        let english = english.split("\nUsage:").next().unwrap().to_owned();
        said.push((line.join(" "), english, german));
    }
    let mut shop = Words::new(
        "headers empty broken nowhere in_the_way parts.csv static_radial static_face reciprocating open closed rs 2rs expected",
    );
    // Names in backticks, and what they stand for, are as somebody typed or as an option is called.
    shop.names = vec![
        "sparewright import".to_owned(),
        "sparewright history".to_owned(),
    ];
    let quoted = |text: &str| -> String {
        let pieces = text.split('`').enumerate();
        let plain = pieces.map(|(at, piece)| if at % 2 == 0 { piece } else { "…" });
        plain.collect()
    };
    let plain = said
        .into_iter()
        .map(|(line, english, german)| (line, quoted(&english), without_lists(&quoted(&german))));
    none(&faults_of_lines(plain, &shop));
}

/// Without the lists of what there is, which are keys and codes, and without what the parser of TOML says.
fn without_lists(text: &str) -> String {
    let lines = text.lines().map(|line| {
        let cut = ["es gibt ", "eine von ", "erwartet: ", "nicht angegeben: "];
        let at = cut.iter().filter_map(|of| Some(line.find(of)? + of.len()));
        &line[..at.min().unwrap_or(line.len())]
    });
    let lines = lines.map(|line| {
        // Options are called alike in every language.
        let words = line.split(' ').filter(|word| !word.starts_with("--"));
        words.collect::<Vec<_>>().join(" ")
    });
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn who_asks_for_json_gets_the_error_as_json() {
    let bench = bench();
    // `man` and `completions` have no form; `serve` neither.
    let asked = lines();
    let with_form = asked
        .iter()
        .filter(|(line, _)| line[0] != "serve" && line[0] != "rnu");
    let mut kinds: BTreeMap<String, usize> = BTreeMap::new();
    for (line, code) in with_form {
        let plain = bench.run(line);
        let json = bench.run(&[&line[..], &["--format", "json"]].concat());
        assert_eq!((json.code, plain.code), (*code, *code), "{line:?}");
        let whole: Value = serde_json::from_str(&json.out)
            .unwrap_or_else(|error| panic!("{line:?}: {error}\n{}", json.out));
        assert_eq!(whole["schema"], 1, "{line:?}");
        let error = whole["error"].as_object().unwrap();
        let keys: Vec<&str> = error.keys().map(String::as_str).collect();
        assert_eq!(keys, ["because", "hint", "message", "place"], "{line:?}");
        let message = error["message"].as_str().unwrap();
        // People read the same at once.
        assert!(
            json.errors.starts_with(&format!("error: {message}\n")),
            "{line:?}: {}",
            json.errors
        );
        for (key, value) in error {
            *kinds.entry(key.clone()).or_default() += usize::from(value.is_string());
        }
        let german = bench.run(&[&line[..], &["--format", "json", "--language", "de"]].concat());
        assert_eq!(german.out, json.out, "{line:?}: the same in every language");
    }
    // Some tell a place, more than a few a next step.
    assert!(kinds["place"] > 5 && kinds["hint"] > 8, "{kinds:?}");
}

#[test]
fn a_missing_part_or_kit_is_told_with_the_nearest_name_in_both_forms() {
    let bench = bench();
    let number = bench.said(&[
        "levels", "--shop", "shop", "--as-of", AS_OF, "--format", "csv",
    ]);
    let at = number
        .trim_start_matches('\u{feff}')
        .split(',')
        .position(|key| key == "number")
        .unwrap();
    let number = number.lines().nth(1).unwrap().split(',').nth(at).unwrap();
    let near = format!("{}x", number.trim_matches('"'));
    let asked = ["levels", "--shop", "shop", "--part", &near];
    let said = bench.run(&asked);
    assert!(
        said.errors.contains("hint: did you mean `"),
        "{}",
        said.errors
    );
    let german = bench.run(&[&asked[..], &["--language", "de"]].concat());
    assert!(
        german.errors.contains("Hinweis: war `"),
        "{}",
        german.errors
    );
    let json = bench.run(&[&asked[..], &["--format", "json"]].concat());
    let json: Value = serde_json::from_str(&json.out).unwrap();
    let hint = json["error"]["hint"].as_str().unwrap();
    assert!(said.errors.contains(hint), "{hint}");
}

#[test]
fn a_shop_without_kits_says_so_instead_of_an_empty_list() {
    let bench = bench();
    let said = bench.run(&["kit", "Press", "--workspace", "bare"]);
    assert_eq!(said.code, 2);
    assert!(
        said.errors.contains("since the shop has none") && !said.errors.contains("there are"),
        "{}",
        said.errors
    );
    assert!(
        said.errors.contains("hint: a table with a kit"),
        "{}",
        said.errors
    );
}

#[test]
fn the_settings_say_the_language_of_what_goes_wrong_after_they_were_read() {
    let bench = Bench::new();
    bench.write("german/parts.csv", "Part no;Designation\nB-1;6205\n");
    bench.write("german/shop.toml", "shop = \"Werk\"\nlanguage = \"de\"\n");
    let said = bench.run(&["levels", "--shop", "german", "--part", "B-9"]);
    assert!(
        said.errors.starts_with("Fehler: kein eigenes Teil `B-9`"),
        "{}",
        said.errors
    );
    // Who names a language gets it.
    let english = bench.run(&[
        "levels",
        "--shop",
        "german",
        "--part",
        "B-9",
        "--language",
        "en",
    ]);
    assert!(
        english.errors.starts_with("error: no own part `B-9`"),
        "{}",
        english.errors
    );
}

/// DIN 1333: a comma before decimals, points between thousands.
#[test]
fn figures_are_refused_in_plain_words_and_sums_read_with_comma_or_point() {
    let bench = bench();
    for (line, says) in [
        (
            "check seat --diameter -3 --seat k6",
            "expected a number above 0",
        ),
        (
            "kit Press --shop shop --budget abc",
            "expected a sum such as 3000",
        ),
        (
            "levels --shop shop --budget abc",
            "expected a sum such as 3000",
        ),
        ("run", "`--workspace`"),
    ] {
        let words: Vec<&str> = line.split(' ').collect();
        let said = bench.run(&words);
        assert_eq!(said.code, 2, "{line}: {}", said.errors);
        assert!(said.errors.contains(says), "{line}: {}", said.errors);
        assert!(
            !said.errors.contains("float literal"),
            "{line}: {}",
            said.errors
        );
    }
    let of = |budget: &str| {
        let line = [
            "levels", "--shop", "shop", "--as-of", AS_OF, "--budget", budget,
        ];
        bench.said(&line)
    };
    assert_eq!(of("3000,50"), of("3.000,50"));
    assert_eq!(of("3000,50"), of("3000.50"));
}
