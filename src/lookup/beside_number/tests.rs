use super::*;

fn conflict(text: &str) -> Option<String> {
    let question = Question::read(text).unwrap();
    let all = find(&question, None).warnings;
    all.into_iter().find(|line| line.contains("contradict"))
}

#[test]
fn a_conflict_says_which_figure_is_not_of_the_number() {
    // ISO 15: 6308 is 40 x 90 x 23 mm, 6208 is 40 x 80 x 18, 6206 is 30 x 62 x 16.
    for (text, says) in [
        (
            "6308 40 x 90 x 24",
            "stands for 40 x 90 x 23 mm, and 24 mm is none of its dimensions; the figures fit no standard size;",
        ),
        (
            "6308 40 x 80 x 18",
            "stands for 40 x 90 x 23 mm, and 80 mm and 18 mm are none of its dimensions; the figures fit 40 x 80 x 18 mm (6208);",
        ),
        (
            "6206 30 x 72 x 19",
            "and 72 mm and 19 mm are none of its dimensions; the figures fit 30 x 72 x 19 mm (6306);",
        ),
    ] {
        let line = conflict(text).unwrap_or_else(|| panic!("{text}: no conflict"));
        assert!(line.contains(says), "{text}: {line}");
    }
    for agreeing in [
        "6308 40 x 90 x 23",
        "6308 90 mm od",
        "6206 29.99 61.95 15.9 worn",
    ] {
        assert_eq!(conflict(agreeing), None, "{agreeing}");
    }
}

fn all_of(text: &str) -> AllFound {
    find(&Question::read(text).unwrap(), None)
}

/// What may be sums to one, whatever the figures fit (a law of probability).
#[test]
fn nothing_is_lost_where_number_and_figures_contradict() {
    for text in [
        "6308 40 x 90 x 24",
        "6206 30 x 72 x 19",
        "lip seal 40x62x7 shaft 39",
        "7206 C 30x62x17",
        "KM8 M45x1.5",
    ] {
        assert!(conflict(text).is_some(), "{text}");
        let all = all_of(text);
        let found: f64 = all.found.iter().map(|found| found.probability).sum();
        assert!(
            (found + all.none - 1.0).abs() < 0.02,
            "{text}: {found}, {}",
            all.none
        );
        // Number and figures are believed alike, and a part of no table at least as often as said.
        assert!(all.none >= OUTSIDE_IN_CONFLICT, "{text}: {}", all.none);
    }
    let fits_nothing = all_of("lip seal 40x62x7 shaft 39");
    let fits_another = all_of("6206 30 x 72 x 19");
    assert!(fits_nothing.none > fits_another.none);
}

#[test]
fn the_room_beside_a_number_is_no_width_of_it() {
    // ISO 15: 6206 is 16 mm wide, 6205 15, 62205 18; spare by arithmetic.
    for (text, spare_mm) in [
        ("6206 room for 20", 4.0),
        ("6205 room for 18", 3.0),
        ("6205 room for 15", 0.0),
        ("6205 room for 14", -1.0),
        ("62205 room for 15", -3.0),
        ("6206 od 62 room for 20", 4.0),
    ] {
        let all = all_of(text);
        assert_eq!(all.found.len(), 1, "{text}: {:?}", all.found);
        let spare = all.found[0].spare_mm.unwrap();
        assert!((spare - spare_mm).abs() < 1e-9, "{text}: {spare}");
        assert_eq!(conflict(text), None, "{text}");
    }
}

/// Definition of the inch: 1.375 in is 34.925 mm, near the 35 mm of a sleeve for a bore of 40 mm (ISO 2982-1, from memory); 0.6 in
/// is 15.24 mm, and 6205 is 15 mm wide (ISO 15).
#[test]
fn a_seat_in_inches_without_its_unit_is_read_so() {
    for text in ["22208 K shaft 1.375", "6205 room 0.6"] {
        let all = all_of(text);
        assert!(all.found[0].probability > 0.9, "{text}: {all:?}");
        assert!(
            all.warnings.iter().any(|line| line == READ_AS_INCHES),
            "{text}: {all:?}"
        );
    }
    let spare = all_of("6205 room 0.6").found[0].spare_mm;
    assert!(
        spare.is_some_and(|mm| (mm - 0.24).abs() < 1e-6),
        "{spare:?}"
    );
    for text in ["22208 K shaft 35", "6205 room 15.2", "6205 room 0.6 in"] {
        let told = all_of(text).warnings;
        assert!(
            !told.iter().any(|line| line == READ_AS_INCHES),
            "{text}: {told:?}"
        );
    }
}

#[test]
fn a_tapered_bore_sits_on_a_sleeve() {
    // ISO 2982-1, from memory: sleeves for 100, 40 and 25 mm bores sit on 90, 35 and 20 mm shafts.
    for text in ["22220 K shaft 90", "1208 K shaft 35", "22205 K shaft 20"] {
        let all = all_of(text);
        assert_eq!(all.found.len(), 1, "{text}");
        assert!(all.found[0].probability > 0.99, "{text}");
        assert!(
            all.warnings
                .iter()
                .any(|line| line.contains("adapter sleeve")),
            "{text}"
        );
    }
    let asked = all_of("22220 on 90 mm shaft");
    assert!(
        asked.warnings[0].contains("tapered (K)?"),
        "{:?}",
        asked.warnings
    );
    // No sleeve is that thick, and ball bearings of this kind have none.
    for text in ["22220 K shaft 60", "6220 shaft 90"] {
        let all = all_of(text);
        assert!(
            !all.warnings
                .iter()
                .any(|line| line.contains("sleeve may lie")),
            "{text}"
        );
        assert!(
            all.warnings.iter().any(|line| line.contains("contradict")),
            "{text}"
        );
    }
}

#[test]
fn wear_is_told_beside_a_number_too() {
    // ISO 492: bore of 30 mm 0/-10 um, outside of 62 mm 0/-13 um.
    for (text, says) in [
        ("6206 bore 30.3 worn calliper", "turned on its shaft"),
        ("6206 od 61.9 micrometer", "crept in its housing"),
        ("6206 od 61.5 worn", "crept in its housing"),
        ("6206 30.3 62 16 worn", "turned on its shaft"),
    ] {
        let all = all_of(text);
        assert_eq!(conflict(text), None, "{text}");
        assert!(
            all.warnings.iter().any(|line| line.contains(says)),
            "{text}: {:?}",
            all.warnings
        );
    }
    for sound in ["6206 bore 30", "6206 od 62 w 16"] {
        let all = all_of(sound);
        assert!(all.warnings.is_empty(), "{sound}: {:?}", all.warnings);
    }
}

#[test]
fn a_worn_place_far_off_is_told_as_that() {
    // ISO 15: 6206 is 30 x 62 x 16 mm.
    let size = of_designation(&Question::read("6206").unwrap()).found[0].size;
    for (text, off) in [
        ("bore 30.8 od 62 w 16 worn", Some("0.80 mm off the 30 mm")),
        ("bore 30.2 od 62 w 16 worn", None),
        ("bore 31.4 od 62 w 16 worn", None),
        ("bore 30.8 od 62 w 16", None),
    ] {
        let question = Question::read(text).unwrap();
        let said = far_off(&question.readings[0], &size);
        assert_eq!(said.is_some(), off.is_some(), "{text}: {said:?}");
        assert!(
            said.unwrap_or_default().contains(off.unwrap_or_default()),
            "{text}"
        );
    }
}

#[test]
fn what_contradicts_a_number_is_of_its_own_kind_first() {
    let line = conflict("6206 30 x 72 x 19").unwrap();
    assert!(line.contains("(6306)"), "{line}");
    // A lip seal of the tables, where no bearing fits.
    let line = conflict("6205 40 x 62 x 8").unwrap();
    assert!(line.contains("40 x 62 x 8 mm"), "{line}");
}

#[test]
fn what_the_figures_fit_is_of_the_numbers_own_type_first() {
    // ISO 15: NU206 and 6206 share 30 x 62 x 16; 62206 and 4206, of two rows, 30 x 62 x 20.
    for (text, name) in [
        ("NU2206 measured 30 62 16", "206)"),
        ("6206 measured 30 62 20", "(62206)"),
        ("4206 measured 30 62 16", "(6206)"),
    ] {
        let line = conflict(text).unwrap_or_else(|| panic!("{text}: no conflict"));
        assert!(line.contains(name), "{text}: {line}");
        let all = all_of(text);
        let own = all.found[0].size.family();
        assert!(
            all.found.iter().all(|found| found.size.family() == own),
            "{text}: {:?}",
            all.found
        );
        // The number's own size is named once.
        let first = all.found[0].size;
        let again = all.found.iter().filter(|found| found.size == first);
        assert_eq!(again.count(), 1, "{text}");
    }
}

#[test]
fn few_figures_name_no_part_of_another_kind() {
    for text in ["DIN 471-40 shaft 39.5", "AS568-318 id 30", "6206 bore 12"] {
        assert!(conflict(text).is_some(), "{text}");
        let all = all_of(text);
        let class = all.found[0].size.family().class();
        assert!(
            all.found
                .iter()
                .all(|found| found.size.family().class() == class),
            "{text}: {:?}",
            all.found
        );
    }
    let line = conflict("AS568-318 id 30").unwrap();
    assert!(line.contains("the figures fit several"), "{line}");
}

#[test]
fn the_worn_seat_of_a_retaining_ring_is_no_other_ring() {
    // DIN 471 and DIN 472: the ring goes by the nominal diameter of its shaft or bore.
    for (text, role) in [
        ("DIN 472-62 bore 62.3", "housing"),
        ("DIN 472-62 housing 62.25", "housing"),
        ("DIN 471-40 shaft 39.75", "shaft"),
    ] {
        assert_eq!(conflict(text), None, "{text}");
        let all = all_of(text);
        assert_eq!(all.found.len(), 1, "{text}: {:?}", all.found);
        assert_eq!(all.found[0].matched, Matched::WithinMeasuring, "{text}");
        assert!(
            all.warnings
                .iter()
                .any(|line| line.starts_with(role) && line.contains("the seat is worn")),
            "{text}: {:?}",
            all.warnings
        );
    }
}

#[test]
fn a_pair_is_twice_as_wide() {
    // ISO 15: 7206 is 16 mm wide, 6206 too; ISO 355: 32206 is 21.25 mm.
    for (text, spare_mm) in [
        ("7206 DB room for 32", 0.0),
        ("7206 DT room for 32", 0.0),
        ("32206 DF room for 42.5", 0.0),
        ("7206 DB room for 40", 8.0),
        ("7206 room for 32", 16.0),
    ] {
        let all = all_of(text);
        let spare = all.found[0].spare_mm.unwrap();
        assert!((spare - spare_mm).abs() < 1e-9, "{text}: {spare}");
    }
    for text in [
        "7206 DB 30 62 32",
        "7206 DB width 32",
        "32206 DF 30 62 42.5",
        "7206 DB 30 62 16",
    ] {
        assert_eq!(conflict(text), None, "{text}");
        assert_eq!(all_of(text).found.len(), 1, "{text}");
    }
    assert!(conflict("7206 30 62 32").is_some());
}
