//! The marks of several numbers.

use super::*;
use crate::lookup::{Answers, answer};
use crate::part::{BoreForm, Closure};

fn read(text: &str) -> Question {
    Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// What a question asks of a row of the tables.
fn asked_of(question: &Question, row: &str) -> Traits {
    let row = standard::find(row).unwrap_or_else(|| panic!("{row}"));
    question.with_marks_of(row).traits.clone()
}

fn names(answers: &Answers) -> Vec<&str> {
    let answers = answers.answers.iter();
    answers.map(|one| one.designation.as_str()).collect()
}

/// DIN 623-1: 2RS and ZZ close both sides, K is a tapered bore 1:12, C3 more clearance than normal; DIN 628-1: B is 40 degrees.
#[test]
fn each_number_keeps_its_marks() {
    for (text, first, second) in [
        ("6206 2RS or 6306 ZZ", "6206-2RS", "6306-2Z"),
        ("6206-2RS or 6306-ZZ", "6206-2RS", "6306-2Z"),
        ("6206 C3 or 6306", "6206 C3", "6306"),
        ("22210 K or 22310", "22210 K", "22310"),
        ("22210 instead of 22310 K", "22210", "22310 K"),
        ("7206B instead of 3206", "7206 B", "3206"),
        ("3206 or 7206B", "3206", "7206 B"),
        ("7206 B statt 3206", "7206 B", "3206"),
        ("6206 2RS P6 or 6306 ZZ P6", "6206-2RS P6", "6306-2Z P6"),
        ("6206 2RS or 6306 ZZ, worn", "6206-2RS", "6306-2Z"),
    ] {
        let question = read(text);
        let left = &question.not_understood;
        assert!(left.is_empty(), "{text}: {left:?}");
        let told = question.notes.join("; ");
        assert!(
            told.contains("each number is taken with its own"),
            "{text}: {told}"
        );
        assert!(told.contains("either of them"), "{text}: {told}");
        let answers = answer(&question, None);
        let found = names(&answers);
        assert!(found.contains(&first), "{text}: {found:?}");
        assert!(found.contains(&second), "{text}: {found:?}");
        // Which of the two it is stays open.
        let is_open = |of: &crate::lookup::Answer| {
            of.judgement.verdict >= crate::interchange::Verdict::AfterChecks
        };
        assert!(answers.answers.iter().all(is_open), "{text}");
    }
}

/// ISO 15: 6206, 6306 and 6406 have a bore of 30 mm; 6206 is 62 mm over its outside.
#[test]
fn figures_tell_which_number_and_its_marks() {
    let question = read("6206 2RS or 6306 ZZ od 62");
    let answers = answer(&question, None);
    assert_eq!(names(&answers).first(), Some(&"6206-2RS"));
    let three = read("6206 2RS or 6306 ZZ or 6406 C3");
    for (row, closure, clearance) in [
        ("6206", Closure::SealBothSides, "CN"),
        ("6306", Closure::ShieldBothSides, "CN"),
        ("6406", Closure::Open, "C3"),
    ] {
        let traits = asked_of(&three, row);
        assert_eq!(traits.closure, Some(closure), "{row}");
        let code = traits.clearance.map(|of| of.code());
        assert_eq!(code, Some(clearance), "{row}");
    }
}

/// DIN 5412-1: NU210 and NJ210 are of one size, and one of them is as likely as the other.
#[test]
fn marks_of_numbers_of_one_size_are_open() {
    let question = read("NU210 C3 or NJ210");
    for row in ["NU210", "NJ210"] {
        let traits = asked_of(&question, row);
        assert_eq!((traits.clearance, traits.rib_form), (None, None), "{row}");
    }
    let twice = read("22210 K or 22210 or 22310 K");
    assert_eq!(asked_of(&twice, "22210").bore_form, None);
    let tapered = asked_of(&twice, "22310").bore_form;
    assert_eq!(tapered, Some(BoreForm::Taper12));
}

/// ISO 5753-1: C3 and C4 are groups of clearance; a bearing is of one.
#[test]
fn words_behind_numbers_are_of_each() {
    let question = read("6206 2RS or 6306 ZZ with brass cage");
    for row in ["6206", "6306"] {
        assert_eq!(asked_of(&question, row).cage.as_deref(), Some("M"), "{row}");
    }
    assert_eq!(
        asked_of(&question, "6206").closure,
        Some(Closure::SealBothSides)
    );
    // What words say otherwise than the marks leaves it open, and a bare number takes it.
    let mut question = read("6206 C3 or 6306");
    question.traits.clearance = crate::part::Clearance::from_code("C4");
    assert_eq!(asked_of(&question, "6206").clearance, None);
    let of_bare = asked_of(&question, "6306").clearance;
    assert_eq!(of_bare.map(|of| of.code()), Some("C4"));
}

#[test]
fn marks_are_what_stands_behind_the_number() {
    for (printed, basic, marks) in [
        ("7206 C", "7206", "C"),
        ("6206-2RS C3", "6206", "2RS C3"),
        ("NU 210 E", "NU210", "E"),
        ("6206", "6206", ""),
    ] {
        assert_eq!(marks_behind(printed, basic), marks, "{printed}");
    }
}
