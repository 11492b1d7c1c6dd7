//! Designations against the rules of DIN 623-1 and the standards of each family, and what can never happen.

use proptest::prelude::*;
use sparewright::part::designation::Designation;
use sparewright::part::{
    BoreForm, Closure, ContactAngle, Dimension, Family, FitClass, RibForm, SealForm,
};
use sparewright::standard::{Confidence, parts, resolve};

use super::{outside, table};

fn read(text: &str) -> Designation {
    Designation::parse(text).unwrap_or_else(|| panic!("`{text}` is a designation"))
}

#[test]
pub fn the_table_of_designations_is_read_as_the_standards_say() {
    let rows = table::read("designations");
    assert!(rows.len() >= 120, "{} rows", rows.len());
    let mut wrong = Vec::new();
    for row in &rows {
        let printed = row["printed"].as_str();
        match Family::from_code(&row["family"]) {
            Some(family) => outside::compared_of_by(family, &row["source"]),
            None => outside::compared_by(&row["source"]),
        }
        let found = match Designation::parse(printed) {
            None => ["not a designation", "", "", "", "", "", ""].map(str::to_owned),
            Some(d) => [
                d.family.map_or("-", Family::code).to_owned(),
                d.basic.clone(),
                d.bore.map(|bore| format!("{bore:#}")).unwrap_or_default(),
                d.traits.closure.map(|c| c.to_string()).unwrap_or_default(),
                d.traits
                    .clearance
                    .map(|c| c.to_string())
                    .unwrap_or_default(),
                d.traits
                    .tolerance_class
                    .map(|c| c.to_string())
                    .unwrap_or_default(),
                d.traits.unknown_suffixes.join(";"),
            ],
        };
        let expected = [
            "family",
            "basic",
            "bore_mm",
            "closure",
            "clearance",
            "tolerance_class",
            "unknown_suffixes",
        ]
        .map(|column| row[column].clone());
        if found != expected {
            wrong.push(format!(
                "`{printed}`: found {found:?}, by {} {expected:?}",
                row["source"]
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_cross_checked_row_is_found_by_its_designation() {
    let mut checked = 0;
    for part in parts().iter().filter(|p| p.confidence != Confidence::D) {
        // A bare size with a section that other parts have too is an O-ring only with the word.
        let text = if part.size.family() == Family::ORing && !part.designation.starts_with("AS568")
        {
            format!("O-ring {}", part.designation)
        } else if part.traits.closure == Some(Closure::ShieldBothSides)
            && !part.designation.ends_with("2Z")
        {
            format!("{}-2Z", part.designation)
        } else {
            part.designation.clone()
        };
        let designation = read(&text);
        assert_eq!(designation.family, Some(part.size.family()), "{text}");
        let found = resolve(&designation).unwrap_or_else(|| panic!("{text} has a size"));
        assert_eq!(found.size, part.size, "{text} is {}", found.designation);
        assert!(designation.traits.unknown_suffixes.is_empty(), "{text}");
        if let (Some(coded), Some(listed)) = (designation.bore, part.size.get(Dimension::Bore)) {
            assert_eq!(coded, listed, "bore code of {text}");
            checked += 1;
        }
        if let Some(size) = designation.size {
            assert_eq!(size, part.size, "size of {text}");
        }
    }
    // Deep groove, angular, cylindrical, tapered and thrust ball rows of confidence A to C with a bore code.
    assert!(checked > 500, "{checked} bore codes compared");
}

#[test]
fn letters_say_what_the_standards_say() {
    // DIN 628-1: C 15, AC 25, A 30, B 40 degrees; DIN 628-4: four-point 35 degrees.
    for (text, degrees) in [
        ("7205 C", 15),
        ("7205AC", 25),
        ("7205 A", 30),
        ("7205-B", 40),
        ("QJ205", 35),
    ] {
        assert_eq!(
            read(text).traits.contact_angle,
            Some(ContactAngle(degrees)),
            "{text}"
        );
    }
    assert_eq!(read("7205").traits.contact_angle, None);
    // DIN 5412-1.
    for (text, form) in [
        ("N205", RibForm::N),
        ("NU 205", RibForm::Nu),
        ("NJ205E", RibForm::Nj),
        ("NUP205", RibForm::Nup),
    ] {
        assert_eq!(read(text).traits.rib_form, Some(form), "{text}");
    }
    // DIN 623-1: K taper 1:12, K30 taper 1:30, unmarked cylindrical.
    for (text, form) in [
        ("22208 K", BoreForm::Taper12),
        ("24030 K30", BoreForm::Taper30),
        ("22208", BoreForm::Cylindrical),
    ] {
        assert_eq!(read(text).traits.bore_form, Some(form), "{text}");
    }
    // DIN 623-1: N groove, NR groove with ring.
    assert_eq!(read("6205 N").traits.has_snap_ring_groove, Some(true));
    assert_eq!(read("6205-ZNR").traits.has_snap_ring_groove, Some(true));
    assert_eq!(read("6205").traits.has_snap_ring_groove, Some(false));
    assert_eq!(read("7205 B DB").traits.arrangement.as_deref(), Some("DB"));
    assert_eq!(
        read("7205 B UA").traits.arrangement.as_deref(),
        Some("universal")
    );
    assert_eq!(read("6205 M").traits.cage.as_deref(), Some("M"));
    assert_eq!(read("4204").traits.rows, Some(2));
    assert_eq!(read("BK2016").traits.variant.as_deref(), Some("closed end"));
}

#[test]
fn seals_and_pins_say_what_the_standards_say() {
    // DIN 3760 forms, ISO 1629 symbols.
    let seal = read("40x62x8 BS FKM");
    assert_eq!(seal.traits.seal_form, Some(SealForm::Bs));
    assert_eq!(seal.traits.material.as_deref(), Some("FKM"));
    assert_eq!(read("AS40x62x8 NBR").traits.seal_form, Some(SealForm::As));
    assert_eq!(
        read("A 40x62x8 FPM").traits.material.as_deref(),
        Some("FKM")
    );
    let ring = read("O-ring AS568-222 NBR 70");
    assert_eq!(ring.traits.material.as_deref(), Some("NBR"));
    assert_eq!(ring.traits.hardness.as_deref(), Some("70 Shore A"));
    assert_eq!(
        read("O-Ring 40 x 3 FKM 75 Shore A")
            .traits
            .hardness
            .as_deref(),
        Some("75 Shore A")
    );
    // ISO 8734 fixes m6; ISO 2338 comes in m6 and h8.
    let m6 = FitClass::read("m6");
    assert_eq!(read("ISO 8734-6x24").size.and_then(|s| s.fit()), m6);
    assert_eq!(read("DIN 6325-6x24").size.and_then(|s| s.fit()), m6);
    let h8 = read("ISO 2338 6 h8 x 24");
    assert_eq!(h8.size.and_then(|s| s.fit()), FitClass::read("h8"));
    assert_eq!(
        resolve(&h8).map(|p| p.designation.as_str()),
        Some("ISO 2338-6h8x24")
    );
    let inch = read("ASME B18.8.2 1/4 x 1");
    assert_eq!(
        inch.size.map(|s| s.to_string()).as_deref(),
        Some("6.35 x 25.4 mm")
    );
    assert!(resolve(&inch).is_some());
}

#[test]
fn nothing_unmarked_is_filled_in_beside_an_unknown_suffix() {
    // The unknown suffix may be somebody's mark for closure, clearance or class.
    for text in ["6305 LLU", "22208 W33", "NU205 ECP", "30205 J2"] {
        let traits = read(text).traits;
        assert!(!traits.unknown_suffixes.is_empty(), "{text}");
        assert_eq!(traits.closure, None, "{text}");
        assert_eq!(traits.clearance, None, "{text}");
        assert_eq!(traits.tolerance_class, None, "{text}");
        assert_eq!(traits.bore_form, None, "{text}");
    }
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused_and_kept_as_printed(text in any::<String>()) {
        if let Some(read) = Designation::parse(&text) {
            prop_assert_eq!(read.printed, text);
        }
    }

    #[test]
    fn texts_like_designations_are_read_or_refused(
        text in "(DIN |ISO |ASME B|O-RING |OR|AS568|KM|K|HK|NA|R|NU|AXK|LM|D|)[ -]?[0-9]{0,6}[/x×., -]{0,2}[0-9]{0,5}[ /x.-]?[0-9]{0,3}(2RS|ZZ|C3|P5|é|K|X|B|m6|\"|)[ -]?[A-Z0-9]{0,5}"
    ) {
        if let Some(read) = Designation::parse(&text) {
            prop_assert_eq!(&read.printed, &text);
            prop_assert!(!read.basic.is_empty());
            // Resolving never panics either, and gives a part of the same family.
            if let Some(part) = resolve(&read) {
                prop_assert_eq!(Some(part.size.family()), read.family);
            }
        }
    }

    #[test]
    fn suffixes_are_never_dropped(suffix in "[A-Z]{5,8}") {
        // No suffix of DIN 623-1 has five letters; several in one piece may.
        let text = format!("6305 {suffix}");
        let read = Designation::parse(&text).expect("6305 is a designation");
        let traits = &read.traits;
        let is_read = traits.cage.is_some() || traits.closure != Some(Closure::Open)
            || traits.arrangement.is_some() || traits.has_snap_ring_groove != Some(false)
            || traits.variant.is_some() || traits.bore_form != Some(BoreForm::Cylindrical);
        prop_assert!(is_read || traits.unknown_suffixes == [suffix]);
    }
}
