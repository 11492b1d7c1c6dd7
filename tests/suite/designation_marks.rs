//! Marks of DIN 623-1 in every order and spelling that people use: what they mean does not hang on how they are joined.

use sparewright::part::designation::Designation;
use sparewright::part::{
    BoreForm, Clearance, Closure, ContactAngle, Family, NameKey, ToleranceClass, Traits,
};
use sparewright::standard;

/// Numbers of the families that take the marks, with what DIN 623-1 lets each of them have.
const NUMBERS: [(&str, Family, bool); 9] = [
    ("6205", Family::DeepGrooveBall, true),
    ("608", Family::DeepGrooveBall, true),
    ("62/22", Family::DeepGrooveBall, true),
    ("61805", Family::DeepGrooveBall, true),
    ("2205", Family::SelfAligningBall, true),
    ("NU205", Family::CylindricalRoller, false),
    ("NUP2208", Family::CylindricalRoller, false),
    ("22208", Family::SphericalRoller, true),
    ("30205", Family::TaperedRoller, false),
];
const CLOSURES: [(&str, Closure); 7] = [
    ("", Closure::Open),
    ("Z", Closure::ShieldOneSide),
    ("2Z", Closure::ShieldBothSides),
    ("RS", Closure::SealOneSide),
    ("2RS", Closure::SealBothSides),
    ("RZ", Closure::LowFrictionSealOneSide),
    ("2RZ", Closure::LowFrictionSealBothSides),
];
const CLEARANCES: [(&str, Clearance); 6] = [
    ("", Clearance::Normal),
    ("C2", Clearance::C2),
    ("CN", Clearance::Normal),
    ("C3", Clearance::C3),
    ("C4", Clearance::C4),
    ("C5", Clearance::C5),
];
const CLASSES: [(&str, ToleranceClass); 6] = [
    ("", ToleranceClass::Normal),
    ("PN", ToleranceClass::Normal),
    ("P6", ToleranceClass::P6),
    ("P5", ToleranceClass::P5),
    ("P4", ToleranceClass::P4),
    ("P2", ToleranceClass::P2),
];

fn read(text: &str) -> Designation {
    Designation::parse(text).unwrap_or_else(|| panic!("`{text}` is a designation"))
}

/// The pieces of a designation joined by a sign, empty ones left out.
fn joined(pieces: &[&str], sign: &str) -> String {
    let there: Vec<&str> = pieces
        .iter()
        .copied()
        .filter(|piece| !piece.is_empty())
        .collect();
    there.join(sign)
}

fn each(mut is_right: impl FnMut(&str, Family, &[&str], (Closure, Clearance, ToleranceClass))) {
    for (number, family, closes) in NUMBERS {
        for (closure, is_closed) in CLOSURES {
            if !closes && is_closed != Closure::Open {
                continue;
            }
            for (clearance, of_clearance) in CLEARANCES {
                for (class, of_class) in CLASSES {
                    is_right(
                        number,
                        family,
                        &[closure, clearance, class],
                        (is_closed, of_clearance, of_class),
                    );
                }
            }
        }
    }
}

fn holds(
    traits: &Traits,
    family: Family,
    (closure, clearance, class): (Closure, Clearance, ToleranceClass),
    text: &str,
) {
    assert_eq!(traits.unknown_suffixes, Vec::<String>::new(), "{text}");
    assert_eq!(traits.tolerance_class, Some(class), "{text}");
    assert_eq!(traits.closure, Some(closure), "{text}");
    // Tapered bearings get their clearance in mounting: unmarked says nothing.
    if family.has_radial_clearance() || clearance != Clearance::Normal {
        assert_eq!(traits.clearance, Some(clearance), "{text}");
    }
}

#[test]
fn marks_mean_the_same_however_they_are_joined() {
    let mut count = 0;
    each(|number, family, marks, means| {
        for sign in [" ", "-", "/", "  ", " - "] {
            // A stroke behind a bore is followed by nothing but digits.
            if sign == "/" && number.contains('/') {
                continue;
            }
            let mut pieces = vec![number];
            pieces.extend_from_slice(marks);
            for text in [joined(&pieces, sign), joined(&pieces, sign).to_lowercase()] {
                let designation = read(&text);
                assert_eq!(designation.family, Some(family), "{text}");
                assert_eq!(designation.basic, number, "{text}");
                holds(&designation.traits, family, means, &text);
                count += 1;
            }
        }
    });
    assert!(count > 10_000, "{count}");
}

#[test]
fn clearance_and_class_may_change_places() {
    each(|number, family, marks, means| {
        let text = joined(&[number, marks[0], marks[2], marks[1]], " ");
        holds(&read(&text).traits, family, means, &text);
    });
}

#[test]
fn class_and_clearance_in_one_are_both() {
    // DIN 623-1: P63 is P6 with C3; the C is left out.
    for (number, family, _) in NUMBERS {
        for (class, of_class) in CLASSES
            .into_iter()
            .filter(|(_, of)| *of != ToleranceClass::Normal)
        {
            for (clearance, of_clearance) in CLEARANCES {
                let Some(digit) = clearance.strip_prefix('C').filter(|rest| *rest != "N") else {
                    continue;
                };
                let text = format!("{number} {class}{digit}");
                holds(
                    &read(&text).traits,
                    family,
                    (Closure::Open, of_clearance, of_class),
                    &text,
                );
            }
        }
    }
}

#[test]
fn spellings_of_one_designation_have_one_key() {
    each(|number, _, marks, _| {
        if number.contains('/') {
            return;
        }
        let mut pieces = vec![number];
        pieces.extend_from_slice(marks);
        let keys: Vec<NameKey> = [" ", "-"]
            .iter()
            .map(|sign| NameKey::new(&joined(&pieces, sign)))
            .collect();
        assert_eq!(keys[0], keys[1], "{pieces:?}");
    });
}

#[test]
fn marks_do_not_change_the_row_of_the_table() {
    each(|number, _, marks, (closure, ..)| {
        let mut pieces = vec![number];
        pieces.extend_from_slice(marks);
        let text = joined(&pieces, " ");
        let plain = standard::resolve(&read(number));
        let marked = standard::resolve(&read(&text));
        // The width of small and inch sizes hangs on the closure; none of these numbers is one of them.
        assert_eq!(
            plain.map(|row| row.size),
            marked.map(|row| row.size),
            "{text} {closure:?}"
        );
    });
}

#[test]
fn an_angle_is_read_with_and_without_a_blank() {
    // DIN 628-1: C 15, AC 25, A 30, B 40 degrees.
    for (letters, degrees) in [("C", 15), ("AC", 25), ("A", 30), ("B", 40)] {
        for (class, of_class) in CLASSES {
            for text in [
                joined(&["7208", letters, class], " "),
                joined(&[&format!("7208{letters}"), class], " "),
                joined(&["7208", letters, class, "DB"], " "),
            ] {
                let traits = read(&text).traits;
                assert_eq!(traits.contact_angle, Some(ContactAngle(degrees)), "{text}");
                assert_eq!(traits.tolerance_class, Some(of_class), "{text}");
                assert_eq!(traits.arrangement.is_some(), text.ends_with("DB"), "{text}");
            }
        }
    }
}

#[test]
fn a_taper_is_read_in_front_of_or_behind_other_marks() {
    // DIN 623-1: K is 1:12, K30 is 1:30.
    for (text, form) in [
        ("22208 K", BoreForm::Taper12),
        ("22208K", BoreForm::Taper12),
        ("22208-K C3", BoreForm::Taper12),
        ("22208 C3 K", BoreForm::Taper12),
        ("22208EK", BoreForm::Taper12),
        ("22208 E K", BoreForm::Taper12),
        ("24024 K30", BoreForm::Taper30),
        ("24024K30 C3", BoreForm::Taper30),
        ("22208", BoreForm::Cylindrical),
        ("1206K", BoreForm::Taper12),
    ] {
        assert_eq!(read(text).traits.bore_form, Some(form), "{text}");
    }
}

#[test]
fn a_point_parts_marks_but_not_a_decimal_number() {
    for (text, basic, clearance) in [
        ("NJ208E.C3", "NJ208", Clearance::C3),
        ("6203.C3", "6203", Clearance::C3),
        ("6203.2RS.C4", "6203", Clearance::C4),
        ("60/2.5", "60/2.5", Clearance::Normal),
    ] {
        let designation = read(text);
        assert_eq!(designation.basic, basic, "{text}");
        assert_eq!(designation.traits.clearance, Some(clearance), "{text}");
        assert_eq!(
            designation.traits.unknown_suffixes,
            Vec::<String>::new(),
            "{text}"
        );
    }
}

#[test]
fn an_unknown_mark_leaves_open_what_it_might_say() {
    // Nothing unmarked is filled in beside a mark that no standard explains.
    for mark in ["DDU", "LLU", "VV", "2RS1", "TN9", "XYZ", "2RSH"] {
        for number in ["6205", "NU205", "22208"] {
            for text in [format!("{number} {mark}"), format!("{number}-{mark} C3")] {
                let designation = read(&text);
                let unknown = &designation.traits.unknown_suffixes;
                assert!(
                    unknown.iter().any(|known| known.contains(&mark[..2])),
                    "{text}: {unknown:?}"
                );
                assert_eq!(designation.traits.tolerance_class, None, "{text}");
                assert_eq!(designation.traits.bore_form, None, "{text}");
                let clearance = text.ends_with("C3").then_some(Clearance::C3);
                assert_eq!(designation.traits.clearance, clearance, "{text}");
                assert_eq!(designation.basic, number, "{text}");
            }
        }
    }
}

#[test]
fn bore_codes_from_04_on_are_a_fifth_of_the_bore() {
    // DIN 623-1: 00 to 03 are 10, 12, 15 and 17 mm, then five times the code; after a stroke the bore itself.
    for series in ["60", "62", "63", "NU2", "222", "302"] {
        for code in 4..=20 {
            let text = format!("{series}{code:02}");
            let Some(designation) = Designation::parse(&text) else {
                panic!("{text}");
            };
            let bore = designation.bore.map(|bore| bore.to_mm());
            assert!(
                bore.is_some_and(|mm| (mm - 5.0 * f64::from(code)).abs() < 1e-9),
                "{text}: {bore:?}"
            );
        }
    }
    for (code, mm) in [("00", 10.0), ("01", 12.0), ("02", 15.0), ("03", 17.0)] {
        for series in ["60", "62", "63"] {
            let bore = read(&format!("{series}{code}"))
                .bore
                .map(|bore| bore.to_mm());
            assert!(
                bore.is_some_and(|bore| (bore - mm).abs() < 1e-9),
                "{series}{code}"
            );
        }
    }
    for (text, mm) in [
        ("62/22", 22.0),
        ("60/28", 28.0),
        ("62/32", 32.0),
        ("618/530", 530.0),
        ("60/500", 500.0),
    ] {
        let bore = read(text).bore.map(|bore| bore.to_mm());
        assert!(bore.is_some_and(|bore| (bore - mm).abs() < 1e-9), "{text}");
    }
}

#[test]
fn what_is_no_designation_is_none() {
    for text in [
        "",
        " ",
        "C3",
        "2RS",
        "bearing",
        "40x",
        "BRG-0412",
        "M12",
        "2026",
        "12345678",
        "6",
        "62",
        "NU",
        "NU5",
        "motor 400 V",
        "pump 3",
        "K",
        "HK",
        "R",
        "6299999",
    ] {
        assert!(
            Designation::parse(text).is_none(),
            "{text}: {:?}",
            Designation::parse(text)
        );
    }
}
