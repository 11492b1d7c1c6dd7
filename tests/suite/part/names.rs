//! Names as keys, and places of cells.

use std::sync::Arc;

use proptest::prelude::*;
use sparewright::part::NameKey;
use sparewright::place::{Place, column_letters};

fn key(text: &str) -> String {
    NameKey::new(text).as_str().to_owned()
}

#[test]
fn spellings_of_one_number_meet_and_two_numbers_never_do() {
    for same in [
        &[
            "BRG-0106",
            "brg 0106",
            "BRG0106",
            " BRG.0106 ",
            "BRG_0106",
            "Brg–0106",
        ][..],
        &["6305-2RS", "6305 2rs", "6305/2RS", "6305.2RS"],
        &["6305-2Z", "6305/2Z", "6305 2z"],
        &["NU 208 E", "NU208-E", "nu208e"],
        &["Straße 7", "STRASSE 7", "strasse-7"],
        &["31,34 x 3,53", "31.34x3.53", "31.34 X 3.53"],
        &["Ø 25", "25"],
        &["A-1", "a1", "A 1", "(A1)", "A1."],
    ] {
        // A sign that is a letter in Unicode stays one.
        let keys: Vec<String> = same.iter().map(|text| key(text)).collect();
        let first = &keys[0];
        for (text, other) in same.iter().zip(&keys) {
            if !text.contains('Ø') && !same[0].contains('Ø') {
                assert_eq!(other, first, "{text}");
            }
        }
    }
    for (a, b) in [
        ("62/22", "6222"),
        ("1-12", "11-2"),
        ("1 12", "112"),
        ("3.53", "353"),
        ("A-1", "A-11"),
        ("A1", "AI"),
        ("0", "O"),
        ("6205", "6205 C3"),
        ("6205 2Z", "6205 Z"),
        ("10/5", "10.5"),
        ("10-5", "10.5"),
    ] {
        assert_ne!(key(a), key(b), "{a} and {b}");
    }
}

#[test]
fn what_has_neither_letter_nor_digit_is_no_name() {
    for none in ["", " ", "-", "...", "/ /", "\u{a0}", "—", "🔩"] {
        assert!(NameKey::new(none).is_empty(), "{none:?}");
    }
    for some in ["a", "0", "軸", "№1", "é"] {
        assert!(!NameKey::new(some).is_empty(), "{some:?}");
    }
}

#[test]
fn columns_have_the_letters_of_a_spreadsheet() {
    // Counted up as an odometer of letters, from A.
    let mut letters = vec![0_u8];
    for column in 0..20_000_u32 {
        let text: String = letters.iter().map(|at| char::from(b'A' + at)).collect();
        assert_eq!(column_letters(column), text);
        let mut at = letters.len();
        loop {
            if at == 0 {
                letters.insert(0, 0);
                break;
            }
            at -= 1;
            if letters[at] < 25 {
                letters[at] += 1;
                break;
            }
            letters[at] = 0;
        }
    }
    assert_eq!(column_letters(u32::MAX).len(), 7);
}

#[test]
fn a_place_is_named_as_its_reader_sees_it() {
    let (file, sheet, none): (Arc<str>, Arc<str>, Arc<str>) =
        ("Preise 2026.xlsx".into(), "Blatt 1".into(), "".into());
    for (place, text) in [
        (
            Place::row(&file, &sheet, 0),
            "Preise 2026.xlsx, sheet `Blatt 1`, row 1",
        ),
        (
            Place::row(&file, &sheet, 0).at(0),
            "Preise 2026.xlsx, sheet `Blatt 1`, A1",
        ),
        (
            Place::row(&file, &none, 41).at(27),
            "Preise 2026.xlsx, AB42",
        ),
        (
            Place::row(&file, &none, 1_048_575).at(16_383),
            "Preise 2026.xlsx, XFD1048576",
        ),
        (Place::row(&file, &none, 9), "Preise 2026.xlsx, row 10"),
    ] {
        assert_eq!(place.to_string(), text);
        assert!(text.ends_with(&place.cell()));
    }
    // Places are in order of file, sheet and row.
    let at = |row| Place::row(&file, &sheet, row);
    assert!(at(2) < at(10));
    assert!(at(2) < at(2).at(0) && at(2).at(0) < at(2).at(1));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn a_key_is_its_own_key(text in "\\PC{0,24}") {
        let once = NameKey::new(&text);
        prop_assert_eq!(NameKey::new(once.as_str()), once.clone());
        prop_assert_eq!(once.to_string(), once.as_str());
    }

    #[test]
    fn case_and_outer_signs_decide_nothing(text in "[A-Za-z0-9./ -]{1,20}", around in "[ .()-]{0,3}") {
        let plain = key(&text);
        prop_assert_eq!(key(&text.to_lowercase()), plain.clone());
        prop_assert_eq!(key(&text.to_uppercase()), plain.clone());
        prop_assert_eq!(key(&format!("{around}{text}{around}")), plain);
    }

    #[test]
    fn a_sign_beside_a_letter_decides_nothing(a in "[A-Z]{1,4}", b in "[0-9]{1,5}", sign in prop::sample::select(vec!["-", " ", ".", "_", "/", " - ", "\u{a0}"])) {
        prop_assert_eq!(key(&format!("{a}{sign}{b}")), format!("{a}{b}"));
        prop_assert_eq!(key(&format!("{b}{sign}{a}")), format!("{b}{a}"));
    }

    #[test]
    fn digits_apart_are_never_run_together(a in 1_u32..10_000, b in 1_u32..10_000, sign in prop::sample::select(vec!["-", " ", ".", ",", "/", " / "])) {
        let apart = key(&format!("{a}{sign}{b}"));
        prop_assert_ne!(apart.clone(), format!("{a}{b}"));
        prop_assert!(apart.starts_with(&a.to_string()) && apart.ends_with(&b.to_string()));
    }
}
