//! Sizes in fractions of an inch: nominal ones, as parts lists print them, unless the words say that they were measured.

use sparewright::lookup::{Answers, Question, answer};

fn ask(text: &str) -> Answers {
    let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
    answer(&question, None)
}

fn warns(answers: &Answers) -> bool {
    let mut warnings = answers.warnings.iter();
    warnings.any(|warning| warning.contains("a metric part near it does not go in"))
}

/// Arithmetic: 1 in is 25.4 mm, 1/2 in 12.7 mm, 11/16 in 17.46 mm; DIN 3760 and ISO 3245 have whole millimetres. That a size in
/// fractions is the nominal one is common practice, no source.
#[test]
fn an_inch_size_in_no_table_names_no_metric_part() {
    for text in [
        "oil seal 1 x 1 1/2 x 1/4",
        "oil seal 1 x 1 1/2 x 1/4 inch",
        "drawn cup 1/2 x 11/16 x 1/2",
        "drawn cup 5/8 x 13/16 x 1/2",
    ] {
        let answers = ask(text);
        for one in &answers.answers {
            assert!(one.probability < 0.25, "{text}: {one:?}");
        }
        assert!(answers.none_of_these.probability > 0.5, "{text}");
        assert!(warns(&answers), "{text}: {:?}", answers.warnings);
    }
}

/// ABMA 20: R8 is 1/2 x 1 1/8 x 1/4 in open, R12 3/4 x 1 5/8 x 7/16 in closed.
#[test]
fn an_inch_size_of_the_tables_is_named() {
    for (text, name) in [
        ("1/2 x 1 1/8 x 1/4 deep groove", "R8"),
        ("3/4 x 1 5/8 x 7/16", "R12"),
    ] {
        let answers = ask(text);
        let first = &answers.answers[0];
        assert!(first.designation.starts_with(name), "{text}: {first:?}");
        assert!(first.probability > 0.9, "{text}: {first:?}");
        assert!(!warns(&answers), "{text}: {:?}", answers.warnings);
    }
}

/// What is said to be read off the part is told to the nearest sixteenth: 12 mm is nearer to 1/2 in than to 7/16.
#[test]
fn what_was_read_off_a_part_may_be_metric() {
    for text in [
        "drawn cup 1/2 x 11/16 x 1/2 rule",
        "drawn cup 1/2 x 11/16 x 1/2 worn",
    ] {
        let answers = ask(text);
        let first = answers.answers.first().map(|one| one.designation.as_str());
        let is_cup = first.is_some_and(|name| name.starts_with("HK1212"));
        assert!(is_cup, "{text}: {first:?}");
        assert!(!warns(&answers), "{text}: {:?}", answers.warnings);
    }
    let pins = ask("3/8 dowel");
    assert!(!pins.answers.is_empty() && !warns(&pins), "{pins:?}");
}
