//! Two numbers in one question.

use super::*;
use crate::part::{Closure, Family};

fn read(text: &str) -> Question {
    Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn names(question: &Question) -> Vec<&str> {
    let rows = question.partial.iter();
    rows.map(|row| row.designation.as_str()).collect()
}

/// DIN 628-1 and DIN 623-1: C is 15 degrees (common practice), B 40; K is a tapered bore, 2RS and ZZ close both sides.
#[test]
fn marks_that_differ_are_told_and_left_open() {
    for (text, rows, left) in [
        ("7206 C or 7206 B", &["7206"][..], "B"),
        ("7206 B and 7206 C", &["7206"], "C"),
        ("7206 AC or 7206 C", &["7206"], "C"),
        ("7206 C or 7206", &["7206"], "C"),
        ("7206 or 7206 C", &["7206"], "C"),
        ("7206C or 7206B", &["7206"], "B"),
        ("6206 2RS or 6206 ZZ", &["6206"], "ZZ"),
        ("NU210 C3 or NJ210", &["NU210", "NJ210"], "C3"),
    ] {
        let question = read(text);
        assert!(question.designation.is_none(), "{text}: {question:?}");
        assert_eq!(names(&question), rows, "{text}");
        assert_eq!(question.not_understood, [left], "{text}");
        let told = question.notes.join("; ");
        assert!(told.contains("have different marks"), "{text}: {told}");
        let is_either = told.contains("either of them");
        assert_eq!(is_either, rows.len() > 1, "{text}: {told}");
        let traits = &question.traits;
        assert_eq!(traits.contact_angle, None, "{text}");
        assert_ne!(traits.closure, Some(Closure::SealBothSides), "{text}");
        assert_eq!(question.needs.highest_c, None, "{text}");
        assert!(question.readings.is_empty(), "{text}: {question:?}");
    }
    let set = read("7206 B single instead of 7206 B DB");
    assert_eq!(set.traits.arrangement, None, "{set:?}");
    assert_eq!(names(&set), ["7206"]);
    // What both say stays.
    assert_eq!(set.traits.contact_angle.map(|of| of.0), Some(40));
    let taper = read("22210 instead of 22210 K");
    assert_eq!(taper.traits.bore_form, None, "{taper:?}");
    assert!(taper.not_understood.iter().any(|word| word == "K"));
}

/// ISO 15: 6308 is 40 x 90 x 23 mm, 6309 45 x 100 x 25.
#[test]
fn marks_behind_the_second_of_two_bare_numbers_are_of_both() {
    for text in [
        "6308 or 6309 C3",
        "6308 C3 or 6309 C3",
        "2 x 6308 C3 and 1 x 6309 C3",
    ] {
        let question = read(text);
        assert_eq!(names(&question), ["6308", "6309"], "{text}");
        let clearance = question.traits.clearance.map(|of| of.code());
        assert_eq!(clearance, Some("C3"), "{text}");
        assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        assert!(question.readings.is_empty(), "{text}: {question:?}");
    }
    let plain = read("6205 and 6206 C");
    assert_eq!(names(&plain), ["6205", "6206"]);
    assert_eq!(plain.not_understood, ["C"]);
    assert_eq!(plain.needs.highest_c, None);
    // The same number again says nothing new.
    let same = read("6308 C3 or 6308 C3");
    assert!(
        same.designation.is_some() && same.partial.is_empty(),
        "{same:?}"
    );
}

/// DIN 5412-1: NU210 and NJ210 are 50 x 90 x 20 mm, NU2210 50 x 90 x 23.
#[test]
fn a_second_number_with_a_blank_is_no_length() {
    for (text, rows) in [
        ("NU 210 and NJ 210", ["NU210", "NJ210"]),
        ("NU 210 instead of NJ 210", ["NU210", "NJ210"]),
        ("NU 210 or NU 2210", ["NU210", "NU2210"]),
        ("NU210 or NJ210", ["NU210", "NJ210"]),
        ("6208 and NU 208", ["6208", "NU208"]),
    ] {
        let question = read(text);
        assert_eq!(names(&question), rows, "{text}");
        assert!(question.readings.is_empty(), "{text}: {question:?}");
        let has_ribs = question.traits.rib_form.is_some();
        assert_eq!(has_ribs, rows == ["NU210", "NU2210"], "{text}");
    }
    let two_types = read("6208 and NU 208");
    assert_eq!(two_types.family, None);
    assert!(two_types.families.contains(&Family::CylindricalRoller));
}

/// ISO 2982-1: H 310 is the sleeve of bearings of 50 mm on a shaft of 45; KM 8 is a nut.
#[test]
fn what_goes_with_a_bearing_is_another_part() {
    for (text, basic, other, figures) in [
        ("22210 K on shaft 45 with H 310", "22210", "H 310", 1),
        ("22208 K with KM 8", "22208", "KM 8", 0),
        ("22208 K with MB 8, worn", "22208", "MB 8", 0),
        ("NJ 208 and HJ 208", "NJ208", "HJ 208", 0),
    ] {
        let question = read(text);
        let number = question
            .designation
            .as_ref()
            .map(|read| read.basic.as_str());
        assert_eq!(number, Some(basic), "{text}");
        assert_eq!(question.readings.len(), figures, "{text}: {question:?}");
        let told = question.notes.join("; ");
        let says = format!("`{other}` is another part: ask for it by itself");
        assert!(told.contains(&says), "{text}: {told}");
        assert!(question.not_understood.is_empty(), "{text}: {question:?}");
    }
    let seal = read("40x62x8 NBR 6208");
    assert!(seal.partial.is_empty(), "{seal:?}");
}

#[test]
fn a_quantity_is_no_second_number() {
    for text in [
        "6206-2RS motor 6000 rpm",
        "6206 1200 bar",
        "6206 housing 1200 mm",
        "6206 C3 120 C",
    ] {
        let question = read(text);
        assert!(question.partial.is_empty(), "{text}: {question:?}");
        assert!(question.designation.is_some(), "{text}");
    }
}

/// DIN 5412-1: NU210 and NJ210 are 50 x 90 x 20 mm. ISO 15: 6206 and 6306 have a bore of 30 mm.
#[test]
fn a_number_without_a_word_before_it_is_no_mark_of_the_first() {
    for (text, rows) in [
        ("NU210 NJ210", ["NU210", "NJ210"]),
        ("NU210E NJ210E", ["NU210", "NJ210"]),
        ("fan NU210 NJ210", ["NU210", "NJ210"]),
        ("6206ZZ 6306ZZ", ["6206", "6306"]),
    ] {
        let question = read(text);
        assert_eq!(names(&question), rows, "{text}");
        let left = &question.not_understood;
        assert!(left.iter().all(|word| word == "fan"), "{text}: {left:?}");
        assert!(question.traits.unknown_suffixes.is_empty(), "{text}");
    }
}

/// ISO 15: 6206 twice is one number.
#[test]
fn one_number_written_twice_is_one() {
    for text in ["6206 or 6206", "6206, 6206", "6206 C3 and 6206-C3"] {
        let question = read(text);
        assert!(question.designation.is_some(), "{text}");
        let told = question.notes.join("; ");
        assert!(!told.contains("two numbers"), "{text}: {told}");
    }
}

/// DIN 471 and DIN 472 have rings for 25 mm; SAE AS568 has -214 and -215.
#[test]
fn a_second_part_by_its_standard_is_told() {
    for (text, first, other) in [
        ("DIN 471-25 or DIN 472-25", "DIN 471-25", "DIN 472-25"),
        ("DIN 471-25, DIN 471-28", "DIN 471-25", "DIN 471-28"),
        ("AS568-214 or AS568-215", "AS568-214", "AS568-215"),
    ] {
        let question = read(text);
        let told = question.notes.join("; ");
        let says = format!("`{other}` is another part");
        assert!(told.contains(&says), "{text}: {told}");
        assert!(told.contains(first), "{text}: {told}");
        assert!(question.not_understood.is_empty(), "{text}: {question:?}");
    }
    for text in ["DIN 471-25 DIN 471", "6206 DIN 625-1"] {
        let told = read(text).notes.join("; ");
        assert!(!told.contains("another part"), "{text}: {told}");
    }
}
