//! One answer in three forms: what stands in JSON stands in CSV, and the table for people shows it.

use serde_json::Value;

use super::program::{AS_OF, Bench};

/// Commands that print a report's tables, each with the table that CSV is by default.
const COMMANDS: [(&[&str], &str); 5] = [
    (
        &["kit", "Press head", "--shop", "shop", "--as-of", AS_OF],
        "kit_lines",
    ),
    (&["levels", "--shop", "shop", "--as-of", AS_OF], "levels"),
    (
        &["reorder", "--shop", "shop", "--as-of", AS_OF],
        "by_saving",
    ),
    (
        &[
            "what-if", "--shop", "shop", "--as-of", AS_OF, "--slower", "North=2",
        ],
        "before_after",
    ),
    (
        &["run", "shop", "--as-of", AS_OF, "--out", "out"],
        "order_now",
    ),
];

fn with<'a>(command: &[&'a str], more: &[&'a str]) -> Vec<&'a str> {
    [command, more].concat()
}

/// Records of a CSV answer, header first.
fn records(text: &str) -> Vec<Vec<String>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(text.as_bytes());
    let records = reader.records();
    records
        .map(|record| record.unwrap().iter().map(str::to_owned).collect())
        .collect()
}

/// True where a cell of the CSV form is the value of the JSON form.
fn is_same(cell: &str, value: &Value) -> bool {
    match value {
        Value::Null => cell.is_empty() || cell == "unknown",
        Value::Bool(is) => cell == if *is { "yes" } else { "no" } || cell == is.to_string(),
        Value::Number(number) => {
            let (of_cell, of_value) = (cell.parse::<f64>(), number.as_f64().unwrap());
            of_cell.is_ok_and(|cell| (cell - of_value).abs() <= 1e-9 * (1.0 + of_value.abs()))
        }
        // CSV leaves out the seconds of a moment.
        Value::String(text) => {
            let cell = sparewright::report::read_back(cell);
            cell == text.as_str() || text.strip_suffix(":00") == Some(cell)
        }
        _ => false,
    }
}

#[test]
fn csv_has_the_rows_and_values_of_json_in_every_command_and_table() {
    let bench = Bench::new();
    let mut cells = 0;
    for (command, default) in COMMANDS {
        let whole = bench.json(command);
        assert_eq!(whole["schema"], 1, "{command:?}");
        let sheets = whole["sheets"].as_object().unwrap();
        assert!(!sheets.is_empty(), "{command:?}");
        // The table that CSV is by default, and the longest besides.
        let rows_of = |key: &str| sheets[key]["rows"].as_array().unwrap().len();
        let longest = sheets
            .keys()
            .filter(|key| *key != default)
            .max_by_key(|key| rows_of(key));
        for key in [default, longest.unwrap().as_str()] {
            let sheet = &sheets[key];
            let csv = bench.said(&with(command, &["--table", key, "--format", "csv"]));
            let mut of_csv = records(&csv).into_iter();
            let header = of_csv.next().unwrap();
            let rows = sheet["rows"].as_array().unwrap();
            assert_eq!(of_csv.len(), rows.len(), "{command:?} {key}");
            for (record, row) in of_csv.zip(rows) {
                for (column, cell) in header.iter().zip(&record) {
                    let Some(value) = row.get(column) else {
                        assert!(column == "mark", "{key}: {column} is in CSV only");
                        continue;
                    };
                    assert!(
                        is_same(cell, value),
                        "{command:?} {key} {column}: {cell} {value}"
                    );
                    cells += 1;
                }
            }
        }
    }
    assert!(cells > 200, "{cells} cells compared");
}

#[test]
fn csv_without_a_table_is_the_one_that_the_help_names() {
    let bench = Bench::new();
    for (command, key) in COMMANDS {
        let plain = bench.said(&with(command, &["--format", "csv"]));
        let named = bench.said(&with(command, &["--table", key, "--format", "csv"]));
        assert_eq!(plain, named, "{command:?}");
        assert!(plain.lines().count() > 1, "{command:?}: {plain}");
    }
}

#[test]
fn one_table_is_a_part_of_all_of_them() {
    let bench = Bench::new();
    for (command, key) in COMMANDS {
        // A run says its summary where no table is named.
        if command[0] == "run" {
            continue;
        }
        let json = bench.json(command);
        let alone = bench.json(&with(command, &["--table", key]));
        assert_eq!(alone["sheets"].as_object().unwrap().len(), 1, "{command:?}");
        assert_eq!(alone["sheets"][key], json["sheets"][key], "{command:?}");
        let whole = bench.said(command);
        let one = bench.said(&with(command, &["--table", key]));
        assert!(one.len() < whole.len(), "{command:?}");
        let mut left = whole.lines();
        for line in one.lines().filter(|line| !line.is_empty()) {
            assert!(
                left.any(|other| other == line),
                "{command:?}: `{line}` is not in the whole answer"
            );
        }
    }
}

#[test]
fn the_same_command_says_the_same_twice() {
    let bench = Bench::new();
    for (command, _) in COMMANDS {
        let asked = with(command, &["--format", "json"]);
        assert_eq!(bench.said(&asked), bench.said(&asked), "{asked:?}");
    }
}

#[test]
fn a_table_or_form_that_is_not_there_is_refused_with_those_that_are() {
    let bench = Bench::new();
    for (command, key) in COMMANDS {
        let asked = with(command, &["--table", "nothing"]);
        let errors = bench.run(&asked);
        assert_eq!(errors.code, 2, "{asked:?}");
        let words = "no table `nothing`; there are ";
        assert!(
            errors.errors.contains(words) && errors.errors.contains(key),
            "{}",
            errors.errors
        );
        let errors = bench.refused(&with(command, &["--format", "xml"]), 2);
        for form in ["table", "csv", "json"] {
            assert!(errors.contains(form), "{errors}");
        }
    }
}

#[test]
fn every_language_gives_the_same_figures_to_programs() {
    let bench = Bench::new();
    for (command, key) in COMMANDS {
        let rows = |language: &str| {
            let json = bench.json(&with(command, &["--table", key, "--language", language]));
            assert_eq!(json["report"]["language"], language);
            json["sheets"][key]["rows"].clone()
        };
        let (english, german) = (rows("en"), rows("de"));
        let pairs = english
            .as_array()
            .unwrap()
            .iter()
            .zip(german.as_array().unwrap());
        for (english, german) in pairs {
            let keys = |row: &Value| row.as_object().unwrap().keys().cloned().collect::<Vec<_>>();
            assert_eq!(keys(english), keys(german));
            for (key, value) in english.as_object().unwrap() {
                if value.is_number() || value.is_null() || value.is_boolean() {
                    assert_eq!(german[key], *value, "{command:?} {key}");
                }
            }
        }
    }
}

#[test]
fn a_workspace_plans_what_its_folder_plans() {
    let bench = Bench::new();
    bench.said(&["import", "shop", "--workspace", "kept"]);
    for (command, key) in COMMANDS {
        let stored: Vec<&str> = match command {
            ["run", _, rest @ ..] => [&["run", "--workspace", "kept"], rest].concat(),
            _ => command
                .iter()
                .map(|word| match *word {
                    "--shop" => "--workspace",
                    "shop" => "kept",
                    word => word,
                })
                .collect(),
        };
        let csv = |of: &[&str]| bench.said(&with(of, &["--table", key, "--format", "csv"]));
        assert_eq!(csv(command), csv(&stored), "{stored:?}");
    }
}
