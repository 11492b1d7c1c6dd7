//! The JSON of `match` against its description at the head of the command's source, field by field, both ways.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;

use serde_json::Value;

/// Questions that between them fill every field.
const QUESTIONS: [&str; 8] = [
    "6206-2RS C3",
    "30 x 62 x 16 worn",
    "NU207 must locate axially",
    "bore 40 od 68 room for 15",
    "oil seal 40 62 8 NBR 3000 rpm",
    "6205 C3 shaft 25.008 micrometer blurb",
    "44.96 84.9 19 worn",
    "o-ring 37.69 x 3.53 groove floor 38.1 depth 2.87 width 4.6 static",
];
/// Maps whose keys are names with their unit, not fields.
const NAMED: [&str; 2] = ["dimensions", "values"];

fn answered(question: &str) -> Value {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let output = Command::new(env!("CARGO_BIN_EXE_sparewright"))
        .args(["match", question, "--shop"])
        .arg(root.join("data/demo"))
        .args(["--format", "json"])
        .output()
        .unwrap();
    serde_json::from_slice(&output.stdout).unwrap_or_else(|error| panic!("{question}: {error}"))
}

fn keys(value: &Value, found: &mut BTreeSet<String>) {
    match value {
        Value::Object(map) => {
            for (key, value) in map {
                found.insert(key.clone());
                if !NAMED.contains(&key.as_str()) {
                    keys(value, found);
                }
            }
        }
        Value::Array(list) => list.iter().for_each(|value| keys(value, found)),
        _ => {}
    }
}

/// What the head of the source says between double quotes.
fn described() -> BTreeSet<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let source = std::fs::read_to_string(root.join("src/cli/match_part.rs")).unwrap();
    let head: Vec<&str> = source
        .lines()
        .take_while(|line| line.starts_with("//!"))
        .collect();
    let head = head.join(" ");
    let pieces = head.split('"').skip(1).step_by(2);
    pieces.map(str::to_owned).collect()
}

#[test]
fn every_field_is_described_and_every_described_field_is_there() {
    let mut found = BTreeSet::new();
    for question in QUESTIONS {
        keys(&answered(question), &mut found);
    }
    let mut described = described();
    // The one example of a name with its unit.
    described.remove("bore_mm");
    let missing: Vec<_> = described.difference(&found).collect();
    let unsaid: Vec<_> = found.difference(&described).collect();
    assert!(
        missing.is_empty() && unsaid.is_empty(),
        "not there {missing:?}, not described {unsaid:?}"
    );
}

/// Unknown is null and never 0; a probability is never 0 or 1; only what is sure goes in as it is.
#[test]
fn values_keep_their_promises() {
    for question in QUESTIONS {
        let json = answered(question);
        let none = json["none_of_these"]["probability"].as_f64().unwrap();
        assert!(none > 0.0 && none <= 1.0, "{question}: {none}");
        for answer in json["answers"]
            .as_array()
            .unwrap()
            .iter()
            .chain(json["refused"].as_array().unwrap())
        {
            let name = &answer["designation"];
            let probability = answer["probability"].as_f64().unwrap();
            assert!(
                (0.0..1.0).contains(&probability),
                "{question} {name}: {probability}"
            );
            let verdict = answer["verdict"].as_str().unwrap();
            let known = [
                "as_it_is",
                "after_checks",
                "with_rework",
                "must_not",
                "near",
            ];
            assert!(known.contains(&verdict), "{question} {name}: {verdict}");
            if verdict == "as_it_is" {
                assert!(probability >= 0.9, "{question} {name}");
                for list in ["differs", "unknown", "checks", "rework"] {
                    assert_eq!(
                        answer[list].as_array().map(Vec::len),
                        Some(0),
                        "{question} {name} {list}"
                    );
                }
            }
            if answer["confidence"] == "D" {
                assert_eq!(answer["cross_checked"], false, "{question} {name}");
            }
            for offer in answer["offers"].as_array().unwrap() {
                assert_ne!(offer["unit_price"], 0.0, "{question} {name}");
                assert!(offer["lead_time"].is_string(), "{question} {name}");
            }
        }
    }
}
