//! A family is in every list that the compiler does not ask for: tables, words, messages and questions of the bench.

use sparewright::part::Family;
use sparewright::standard;

use crate::table;

fn shipped(path: &str) -> String {
    let path = format!("{}/{path}", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"))
}

#[test]
fn a_family_is_in_every_list() {
    let (words, german) = (
        shipped("data/import/family_words.csv"),
        shipped("data/language/de.tsv"),
    );
    let asked: Vec<Family> = table::read("bench_cases")
        .iter()
        .filter(|case| case["kind"] == "first")
        .filter_map(|case| standard::find(&case["expected"]))
        .map(|row| row.size.family())
        .collect();
    for family in Family::ALL {
        let (code, name) = (family.code(), family.name());
        let has_line = |text: &str, head: &str| text.lines().any(|line| line.starts_with(head));
        for language in ["en", "de"] {
            assert!(
                has_line(&words, &format!("{code},{language},")),
                "{code}: no {language} words for the import"
            );
        }
        assert!(
            has_line(&german, &format!("{name}\t")),
            "{code}: no German name"
        );
        assert!(!standard::of_family(family).is_empty(), "{code}: no table");
        assert!(asked.contains(&family), "{code}: no question of the bench");
    }
}
