//! Replays what fuzzing of the value readers found worth keeping: an answer or a typed error for each, never a panic.

use std::path::Path;

use sparewright::import::family_in;
use sparewright::lookup::Question;
use sparewright::part::NameKey;
use sparewright::part::designation::Designation;
use sparewright::units::{LengthUnit, UnitOfCount, read_length, read_size};

#[test]
fn the_corpus_of_the_value_readers_runs_through() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/values_corpus.jsonl");
    let corpus = std::fs::read_to_string(path).unwrap();
    let mut designations = 0;
    for line in corpus.lines() {
        let text: String = serde_json::from_str(line).unwrap();
        for unit in [LengthUnit::Mm, LengthUnit::Inch] {
            // A length that was read is positive and prints a size that reads as itself.
            if let Ok(read) = read_length(&text, unit) {
                let again = read_length(&read.length.to_string(), LengthUnit::Mm).unwrap();
                assert_eq!(again.length, read.length, "{text:?}");
            }
            let _ = read_size(&text, unit);
        }
        let _ = UnitOfCount::read(&text);
        let _ = family_in(&text);
        let _ = Question::read(&text);
        let _ = NameKey::new(&text);
        if let Some(designation) = Designation::parse(&text) {
            designations += 1;
            assert_eq!(designation.printed, text);
        }
    }
    assert!(
        designations > 500,
        "only {designations} designations: the corpus is not what it was"
    );
}
