//! Every planning command on the four small shops of strangers: none breaks, forms agree, and German is German.

use std::path::Path;

use serde_json::Value;

use super::program::{AS_OF, Bench, Said};

const SHOPS: [&str; 4] = [
    "bakery_german",
    "bottling_two_languages",
    "gravel_lists_only",
    "sawmill_inch",
];

fn folder(shop: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/shops")
        .join(shop);
    path.to_string_lossy().into_owned()
}

fn json(said: &Said, what: &str) -> Value {
    serde_json::from_str(&said.out).unwrap_or_else(|error| panic!("{what}: {error}\n{}", said.out))
}

#[test]
fn every_command_answers_in_every_form_and_language() {
    let bench = Bench::new();
    for shop in SHOPS {
        let path = folder(shop);
        for (command, language, form) in [
            ("levels", "en", "json"),
            ("reorder", "de", "json"),
            ("reorder", "de", "table"),
        ] {
            let said = bench.run(&[
                command,
                "--shop",
                &path,
                "--as-of",
                AS_OF,
                "--language",
                language,
                "--format",
                form,
            ]);
            assert_eq!(said.code, 0, "{shop} {command} {form}: {}", said.errors);
            assert!(!said.out.is_empty(), "{shop} {command} {form}");
            if form == "json" {
                let whole = json(&said, shop);
                assert_eq!(whole["report"]["language"], language, "{shop} {command}");
                assert_eq!(
                    whole["report"]["as_of"], "2026-11-26T08:00:00",
                    "{shop} {command}"
                );
            }
        }
    }
}

#[test]
fn a_workspace_of_each_answers_as_its_folder() {
    let bench = Bench::new();
    for shop in SHOPS {
        let path = folder(shop);
        bench.said(&["import", &path, "--workspace", shop]);
        let of = |by: &str, what: &str| {
            bench.said(&["reorder", by, what, "--as-of", AS_OF, "--format", "csv"])
        };
        assert_eq!(of("--shop", &path), of("--workspace", shop), "{shop}");
        // Taken in once more, nothing of it is new.
        let again = bench.said(&["import", &path, "--workspace", shop]);
        let is_nothing = again.contains("Nothing new") || again.contains("Nichts Neues");
        assert!(is_nothing, "{shop}: {again}");
    }
}

#[test]
fn kits_of_each_are_planned_by_name() {
    let bench = Bench::new();
    let mut kits = 0;
    for shop in SHOPS {
        let path = folder(shop);
        let out = format!("out_{shop}");
        let run = [
            "run", &path, "--as-of", AS_OF, "--out", &out, "--format", "json",
        ];
        let report = json(&bench.run(&run), shop);
        for row in report["sheets"]["kits"]["rows"].as_array().unwrap() {
            let name = row["kit"].as_str().unwrap();
            let asked = [
                "kit", name, "--shop", &path, "--as-of", AS_OF, "--format", "json",
            ];
            let kit = json(&bench.run(&asked), name);
            let alone = &kit["sheets"]["kits"]["rows"][0];
            for key in [
                "kit",
                "short_lines",
                "complete_likely",
                "running_likely",
                "down_mean_h",
            ] {
                assert_eq!(alone[key], row[key], "{shop}, {name}: {key}");
            }
            kits += 1;
        }
        for file in [
            "reorder.xlsx",
            "reorder.html",
            "reorder.json",
            "rebuild_sheets.html",
            "rejects.xlsx",
        ] {
            assert!(
                bench.path().join(&out).join(file).is_file(),
                "{shop}: {file}"
            );
        }
    }
    assert!(kits >= 2, "{kits}");
}

#[test]
fn own_numbers_of_each_are_found_at_the_bench() {
    let bench = Bench::new();
    // Each of the four numbers is known in its own shop.
    for (shop, number) in SHOPS.iter().zip(["BF-1002", "EM-03", "GW-005", "S-103"]) {
        let answer = json(
            &bench.run(&["match", number, "--shop", &folder(shop), "--format", "json"]),
            number,
        );
        let numbers: Vec<&str> = answer["answers"]
            .as_array()
            .unwrap()
            .iter()
            .filter_map(|of| of["number"].as_str())
            .collect();
        assert!(numbers.contains(&number), "{shop}: {number} in {numbers:?}");
    }
}

#[test]
fn a_dry_run_of_each_names_a_field_or_says_not_read_for_every_column() {
    let bench = Bench::new();
    for shop in SHOPS {
        let path = folder(shop);
        let json = json(
            &bench.run(&[
                "import",
                &path,
                "--workspace",
                "none",
                "--dry-run",
                "--format",
                "json",
            ]),
            shop,
        );
        let tables = json["tables"].as_array().unwrap();
        assert!(!tables.is_empty(), "{shop}");
        let mut columns = (0, 0);
        for table in tables {
            for column in table["columns"].as_array().unwrap() {
                columns.0 += 1;
                columns.1 += usize::from(column["field"].is_string());
                assert!(
                    !column["evidence"].as_str().unwrap().is_empty(),
                    "{shop}: {column}"
                );
            }
        }
        // Of the columns of a shop's own lists three in four are of use to the program; remarks are for people.
        assert!(
            4 * columns.1 >= 3 * columns.0,
            "{shop}: {} of {}",
            columns.1,
            columns.0
        );
    }
    assert!(!bench.path().join("none").exists());
}
