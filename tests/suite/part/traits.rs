//! Codes of traits, and how traits order.

use std::collections::BTreeSet;
use std::fmt::{Debug, Display};

use sparewright::part::{
    BoreForm, Clearance, Closure, ContactAngle, RibForm, SealForm, ToleranceClass, Traits,
};

/// Every value has a code of its own, which leads back in any case and with blanks around, and is what is printed.
fn is_coded<T: Copy + PartialEq + Debug + Display + serde::Serialize>(
    all: &[T],
    code: fn(T) -> &'static str,
    from: fn(&str) -> Option<T>,
) {
    let mut codes = BTreeSet::new();
    for value in all {
        let text = code(*value);
        assert!(codes.insert(text), "{text} twice");
        for spelling in [
            text.to_owned(),
            text.to_lowercase(),
            text.to_uppercase(),
            format!(" {text} "),
        ] {
            assert_eq!(from(&spelling), Some(*value), "{spelling:?}");
        }
        assert_eq!(value.to_string(), text);
        assert_eq!(serde_json::to_value(value).unwrap(), text);
    }
    for none in ["", "?", "nothing", "2", "C", "P", "Z Z"] {
        if !codes.contains(none) {
            assert_eq!(from(none), None, "{none:?}");
        }
    }
}

#[test]
fn codes_lead_back() {
    is_coded(Closure::ALL, Closure::code, Closure::from_code);
    is_coded(Clearance::ALL, Clearance::code, Clearance::from_code);
    is_coded(
        ToleranceClass::ALL,
        ToleranceClass::code,
        ToleranceClass::from_code,
    );
    is_coded(RibForm::ALL, RibForm::code, RibForm::from_code);
    is_coded(BoreForm::ALL, BoreForm::code, BoreForm::from_code);
}

#[test]
fn forms_of_seals_are_those_of_din_3760() {
    is_coded(&SealForm::ALL[..2], SealForm::code, |text| {
        SealForm::from_code(text).filter(|form| SealForm::ALL[..2].contains(form))
    });
    for (form, has_dust_lip) in [
        (SealForm::A, false),
        (SealForm::As, true),
        (SealForm::B, false),
        (SealForm::Bs, true),
        (SealForm::C, false),
        (SealForm::Cs, true),
    ] {
        assert_eq!(form.has_dust_lip(), has_dust_lip, "{form}");
        assert_eq!(form.code().ends_with('S'), has_dust_lip, "{form}");
    }
}

#[test]
fn groups_and_classes_are_in_the_order_of_their_standards() {
    // ISO 5753-1: C2 < CN < C3 < C4 < C5. ISO 492: normal, 6, 5, 4, 2 from coarse to fine.
    assert!(Clearance::ALL.windows(2).all(|pair| pair[0] < pair[1]));
    let codes: Vec<&str> = Clearance::ALL.iter().map(|group| group.code()).collect();
    assert_eq!(codes, ["C2", "CN", "C3", "C4", "C5"]);
    assert!(ToleranceClass::ALL.windows(2).all(|pair| pair[0] < pair[1]));
    let codes: Vec<&str> = ToleranceClass::ALL
        .iter()
        .map(|class| class.code())
        .collect();
    assert_eq!(codes, ["P0", "P6", "P5", "P4", "P2"]);
}

#[test]
fn words_of_a_closure_hold_its_code_and_sides() {
    for closure in Closure::ALL {
        let words = closure.words();
        let code = closure.code();
        assert!(
            *closure == Closure::Open || words.contains(&format!("({code})")),
            "{words}"
        );
        assert_eq!(
            code.starts_with('2'),
            words.contains("both sides"),
            "{words}"
        );
    }
    assert_eq!(ContactAngle(40).to_string(), "40°");
}

#[test]
fn a_part_of_which_nothing_is_known_says_nothing() {
    let none = Traits::default();
    assert_eq!(
        (none.closure, none.clearance, none.tolerance_class),
        (None, None, None)
    );
    assert!(none.unknown_suffixes.is_empty());
    assert_eq!(none, none.clone());
}
