//! What rows say of their part besides its number: columns that do not know, brackets, sets and second numbers of a description.
//!
//! Marks are those of DIN 623-1 and SAE AS568, what an unmarked bearing is stands in ISO 5753-1 and ISO 492; texts are common
//! practice, no source.

use sparewright::import::Imported;
use sparewright::part::{Clearance, Closure, ToleranceClass, UNSAID_SET};
use sparewright::record::PartFacts;

use super::{import, problems};

/// What a list of the shelf says of a part.
fn facts<'a>(imported: &'a Imported, number: &str) -> &'a PartFacts {
    let mut stock = imported.records.stock.iter();
    let row = stock.find(|row| row.part == number).unwrap();
    row.facts.as_deref().unwrap()
}

fn described(texts: &[&str]) -> Imported {
    let rows = texts.iter().enumerate();
    let rows: Vec<String> = rows.map(|(at, text)| format!("Q{at};{text};9;A")).collect();
    import(
        "parts.csv",
        &format!("Part no;Description;On hand;Bin\n{}\n", rows.join("\n")),
    )
}

#[test]
fn a_column_that_does_not_know_takes_away_what_a_number_only_means() {
    const CASES: [(&str, &str, Option<Clearance>); 10] = [
        ("6308", "?", None),
        ("6308", "unknown", None),
        ("6308", "n/a", None),
        ("6308", "unbekannt", None),
        ("6308", "k.A.", None),
        ("6308", "-", None),
        ("6308", "tbd", None),
        // An empty cell says nothing, and a mark on the part is known.
        ("6308", "", Some(Clearance::Normal)),
        ("6308", "C3", Some(Clearance::C3)),
        ("6308 C3", "?", Some(Clearance::C3)),
    ];
    let rows: Vec<String> = (CASES.iter().enumerate())
        .map(|(at, (number, clearance, _))| format!("U{at};{number};{clearance};{at};A"))
        .collect();
    let table = format!(
        "Our no;Designation;Clearance;On hand;Bin\n{}\n",
        rows.join("\n")
    );
    let imported = import("parts.csv", &table);
    for (at, (number, text, clearance)) in CASES.iter().enumerate() {
        let traits = &facts(&imported, &format!("U{at}")).traits;
        assert_eq!(traits.clearance, *clearance, "{number}, `{text}`");
        // Other columns are not there: the number says it.
        assert_eq!(traits.closure, Some(Closure::Open), "{number}");
        assert_eq!(traits.tolerance_class, Some(ToleranceClass::Normal));
    }
    // ABMA 20: the width of R8 hangs on its closure.
    let imported = import(
        "parts.csv",
        "Our no;Designation;Closure;On hand;Bin\nU1;R8;?;2;A\nU2;R8;;2;A\nU3;R8;2RS;2;A\n",
    );
    let width = |number: &str| {
        let size = facts(&imported, number).size;
        size.map(|size| size.to_string())
    };
    assert_eq!(width("U1"), None);
    assert_eq!(width("U2").as_deref(), Some("12.7 x 28.575 x 6.35 mm"));
    assert_eq!(width("U3").as_deref(), Some("12.7 x 28.575 x 7.9375 mm"));
    let imported = import(
        "parts.csv",
        "Our no;Designation;Closure;Class;Elastomer;On hand;Bin\nU1;6308;?;tbd;;2;A\nU2;AS568-214;;;tbd;2;A\n\
         U3;AS568-214;;;FKM;2;A\n",
    );
    let ball = &facts(&imported, "U1").traits;
    assert_eq!((ball.closure, ball.tolerance_class), (None, None));
    assert_eq!(facts(&imported, "U2").traits.material, None);
    assert_eq!(
        facts(&imported, "U3").traits.material.as_deref(),
        Some("FKM")
    );
}

#[test]
fn what_a_description_says_in_brackets_is_said_of_the_part() {
    let imported = described(&[
        "Bearing 6308 (C3)",
        "6308 (2RS)",
        "Bearing 6308 (clearance unknown)",
        "Bearing 6308 (bin A3)",
        "32208 (cup)",
        "set of 2 x 7208 B",
        "Zylinderstift DIN 6325 8m6x40",
        "Dowel pin 8 m6 x 40",
    ]);
    let traits = |at: usize| &facts(&imported, &format!("Q{at}")).traits;
    assert_eq!(traits(0).clearance, Some(Clearance::C3));
    assert_eq!(traits(1).closure, Some(Closure::SealBothSides));
    assert_eq!(traits(2).clearance, None);
    assert!(!traits(2).unknown_suffixes.is_empty());
    assert_eq!(traits(3).clearance, Some(Clearance::Normal));
    assert!(traits(4).has_variant("cup only"));
    assert_eq!(traits(5).arrangement.as_deref(), Some(UNSAID_SET));
    let pin = facts(&imported, "Q6");
    let size = pin.size.unwrap();
    // DIN 6325: class m6, hardened.
    assert_eq!(size.fit().map(|fit| fit.to_string()).as_deref(), Some("m6"));
    assert!(pin.traits.has_variant("hardened"));
    // The class alone says nothing of its hardness.
    let soft_or_hard = facts(&imported, "Q7");
    assert_eq!(soft_or_hard.size, Some(size));
    assert_eq!(soft_or_hard.traits.variant, None);
    assert_eq!(problems(&imported), Vec::<String>::new());
}

#[test]
fn a_pair_beside_a_number_of_one_is_a_set() {
    let imported = import(
        "parts.csv",
        "Our no;Designation;Description;Arrangement;On hand;Bin\nU1;7208 B;pair;;2;A\nU2;7208 B;pair;DB;2;A\n\
         U3;7208 B;spindle;;2;A\nU4;6308;pair of fans;;2;A\n",
    );
    let arrangement = |number: &str| facts(&imported, number).traits.arrangement.as_deref();
    assert_eq!(arrangement("U1"), Some(UNSAID_SET));
    assert_eq!(arrangement("U2"), Some("DB"));
    // Deep groove bearings are not sold as pairs without a word beside their number: common practice, no source.
    assert_eq!((arrangement("U3"), arrangement("U4")), (None, None));
}

#[test]
fn two_numbers_and_what_cannot_be_read_are_told_with_their_cell() {
    let imported = described(&["6308 or 6309", "NJ 208 E + HJ 208 E", "6308/6309", "6308"]);
    let two = "the text names both `6308` and `6309`: expected one part a row; no size was taken";
    assert_eq!(
        problems(&imported),
        [
            format!("B2: {two}"),
            "B3: `+ HJ 208 E` beside `NJ 208 E` cannot be read: what it may say of the part is taken as not known"
                .to_owned(),
            format!("B4: {two}"),
        ]
    );
    for at in [0, 2] {
        assert_eq!(facts(&imported, &format!("Q{at}")).size, None);
    }
    let angle_ring = facts(&imported, "Q1");
    // DIN 5412-1: NJ 208 is 40 x 80 x 18 mm.
    assert_eq!(angle_ring.size.unwrap().to_string(), "40 x 80 x 18 mm");
    assert_eq!(angle_ring.traits.clearance, None);
    assert_eq!(
        facts(&imported, "Q3").traits.clearance,
        Some(Clearance::Normal)
    );
}

#[test]
fn two_sizes_of_one_text_are_told() {
    // ISO 15: 6308 is 40 x 90 x 23 mm, 6309 45 x 100 x 25 mm.
    let imported = described(&[
        "Rillenkugellager 40x90x23, 45x100x25",
        "Kugellager 40x90x23, 45x100x25",
        "Rillenkugellager 6308 45x100x25",
        "Rillenkugellager 6308 40x90x23",
    ]);
    let said = problems(&imported);
    let two = "the text names both `40x90x23` and `45x100x25`: expected one part a row; no size was taken";
    assert_eq!(said.len(), 3, "{said:?}");
    assert_eq!(said[..2], [format!("B2: {two}"), format!("B3: {two}")]);
    let against = "dimensions 45 x 100 x 25 mm contradict designation `6308";
    assert!(said[2].contains(against), "{said:?}");
    let size = |at: usize| facts(&imported, &format!("Q{at}")).size;
    assert_eq!((size(0), size(1), size(2)), (None, None, None));
    assert_eq!(size(3).unwrap().to_string(), "40 x 90 x 23 mm");
}

#[test]
fn a_bearing_in_words_and_figures_has_a_size_where_they_leave_one_family() {
    // ABMA 20: 1/2 x 1 1/8 x 5/16 in is R8 with shields; ISO 15: 25 x 52 x 15 mm is 6205, 7205 and 1205.
    let imported = described(&[
        "Bearing 1/2 x 1 1/8 x 5/16",
        "Kugellager 25x52x15",
        "Drawn cup BK2516",
        "Pump impeller 205",
    ]);
    let size = |at: usize| facts(&imported, &format!("Q{at}")).size;
    assert_eq!(size(0).unwrap().to_string(), "12.7 x 28.575 x 7.9375 mm");
    assert_eq!(facts(&imported, "Q0").traits.closure, None);
    assert_eq!((size(1), size(2), size(3)), (None, None, None));
    let said = problems(&imported);
    assert_eq!(said.len(), 2, "{said:?}");
    assert!(
        said[0].starts_with("B3: `Kugellager 25x52x15` names no type")
            && said[0].contains("`6205`"),
        "{said:?}"
    );
    assert!(
        said[1].starts_with("B4: `Drawn cup BK2516` names a part"),
        "{said:?}"
    );
}

#[test]
fn another_number_that_a_standard_lists_tells_what_a_part_without_one_is() {
    // DIN 623-1 and SAE AS568.
    let imported = import(
        "parts.csv",
        "Our no;Designation;Description;Other numbers;On hand;Bin\nU1;;Bearing off mixer;6308;2;A\n\
         U2;;Motorlager AS;6308-2RS C3;2;A\nU3;;Pumpe Dichtung;AS568-214 FKM;2;A\nU4;;Cover plate;6308;2;A\n\
         U5;6206;fan;6308;2;A\nU6;;Bearing;6308, 6309;2;A\n",
    );
    let size = |number: &str| {
        let size = facts(&imported, number).size;
        size.map(|size| size.to_string())
    };
    // ISO 15: 6308 is 40 x 90 x 23, 6206 30 x 62 x 16 mm; dash 214 is .984 x .139 in.
    assert_eq!(size("U1").as_deref(), Some("40 x 90 x 23 mm"));
    assert_eq!(size("U2").as_deref(), Some("40 x 90 x 23 mm"));
    let marked = &facts(&imported, "U2").traits;
    assert_eq!(marked.clearance, Some(Clearance::C3));
    assert_eq!(marked.closure, Some(Closure::SealBothSides));
    assert_eq!(
        facts(&imported, "U3").traits.material.as_deref(),
        Some("FKM")
    );
    assert_eq!(size("U5").as_deref(), Some("30 x 62 x 16 mm"));
    assert_eq!((size("U4"), size("U6")), (None, None));
}
