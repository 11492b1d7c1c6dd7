//! What sets a part apart besides its size, from the designation and from columns beside it.
//!
//! Layouts are common practice, no source; suffixes by DIN 623-1, elastomers by ISO 1629.

use sparewright::import::{Imported, read_folder};
use sparewright::record::PartRecord;

fn import(text: &str) -> Imported {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("parts.csv"), text).unwrap();
    read_folder(folder.path()).unwrap()
}

fn of<'a>(imported: &'a Imported, number: &str) -> &'a PartRecord {
    let mut parts = imported.records.parts.iter();
    let found = parts.find(|part| part.own_number == number);
    found.unwrap_or_else(|| panic!("{number} was not read"))
}

#[test]
fn half_a_bearing_stays_half_whatever_its_number_says() {
    let imported = import(
        "part number;designation;type;variant\nB2;NU205 E;cylindrical roller bearing;inner ring only\nB9;NU205;cylindrical roller bearing;\n",
    );
    let variant = of(&imported, "B2").facts.traits.variant.clone().unwrap();
    assert!(variant.ends_with("inner ring only"), "{variant}");
    assert!(variant.split(", ").count() == 2, "{variant}");
    assert_eq!(of(&imported, "B9").facts.traits.variant, None);
    assert!(imported.issues.is_empty(), "{:?}", imported.issues);
}

#[test]
fn words_behind_a_bare_size_are_of_the_type_that_stands_beside_it() {
    let imported = import(
        "part number;designation;type\nB6;25x3 NBR 70;O-ring\nB7;40x62x8 FKM;oil seal\nB8;40x62x8 TC;oil seal\n",
    );
    let ring = &of(&imported, "B6").facts.traits;
    assert_eq!(ring.material.as_deref(), Some("NBR"));
    assert_eq!(ring.hardness.as_deref(), Some("70 Shore A"));
    let seal = &of(&imported, "B7").facts.traits;
    assert_eq!(seal.material.as_deref(), Some("FKM"));
    // No standard says what TC is: kept, and never matched on.
    let unknown = &of(&imported, "B8").facts.traits.unknown_suffixes;
    assert_eq!(unknown.len(), 1, "{unknown:?}");
    for number in ["B6", "B7", "B8"] {
        assert!(of(&imported, number).facts.size.is_some(), "{number}");
    }
}

#[test]
fn a_ring_of_a_section_of_its_own_is_kept_as_it_is_printed() {
    // JIS B 2401 has rings of 3.5 mm, from memory: no rounding of 3.53 or 3.55.
    let imported = import("part number;designation;type\nB1;25x3.5;O-ring\nB2;25x3.55;O-ring\n");
    let size = |number| of(&imported, number).facts.size.unwrap().to_string();
    assert_eq!(size("B1"), "25 x 3.5 mm");
    assert_eq!(size("B2"), "25 x 3.55 mm");
}

#[test]
fn a_column_in_a_unit_that_is_not_read_gives_no_size_and_says_so() {
    // A bearing of 984 thousandths of an inch is none of 984 mm.
    let imported = import(
        "part number;type;bore (thou);od (mm);width (mm)\nA1;deep groove ball bearing;984;52;15\n",
    );
    assert_eq!(of(&imported, "A1").facts.size, None);
    let why: Vec<&String> = imported
        .tables
        .iter()
        .flat_map(|table| &table.why)
        .collect();
    let is_told = |line: &&&String| line.contains("`bore (thou)` states a unit of length");
    assert!(why.iter().any(|line| is_told(&line)), "{why:?}");
}

#[test]
fn a_ring_named_in_words_has_the_diameter_that_stands_behind_them() {
    // DIN 471 and DIN 472 list 40 and 62 mm and no 39.7 mm: published dimension tables.
    let size = |description: &str| {
        let text = format!("part number;description\nA1;{description}\n");
        of(&import(&text), "A1")
            .facts
            .size
            .map(|size| format!("{} {size}", size.family().code()))
    };
    for (description, expected) in [
        ("External circlip 40", Some("shaft_retaining_ring 40 mm")),
        ("Internal circlip 62", Some("bore_retaining_ring 62 mm")),
        (
            "External circlip 40x1.75",
            Some("shaft_retaining_ring 40 mm"),
        ),
        ("Internal circlip 62 mm", Some("bore_retaining_ring 62 mm")),
        // Which figure is the diameter, nobody says.
        ("External circlip 40, set of 10", None),
        ("External circlip 39.7", None),
        ("External circlip", None),
    ] {
        assert_eq!(size(description).as_deref(), expected, "{description}");
    }
}
