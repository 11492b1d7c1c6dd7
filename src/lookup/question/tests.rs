//! Questions as people write them.

use super::*;
use crate::interchange::{AxialNeed, Fluid, Turning};
use crate::lookup::reading::{Instrument, Role};
use crate::part::Closure;

fn read(text: &str) -> Question {
    Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn figures(text: &str) -> Vec<(String, Option<Role>)> {
    let question = read(text);
    let of = |reading: &Reading| (format!("{:#}", reading.length.length), reading.role);
    question.readings.iter().map(of).collect()
}

/// Figures as printed in mm, with what they are of.
type Figures = &'static [(&'static str, Option<Role>)];

#[test]
fn figures_carry_what_they_are_of() {
    use Role::{FreeLip, Inner, Outer, Room, Shaft, Width};
    // 25.4 mm to the inch; the rest is the text itself.
    let cases: [(&str, Figures); 12] = [
        ("40x80x18", &[("40", None), ("80", None), ("18", None)]),
        (
            "3/4 x 1 5/8 x 7/16",
            &[("19.05", None), ("41.275", None), ("11.1125", None)],
        ),
        (
            "bore 40 od 68 room for 15",
            &[("40", Some(Inner)), ("68", Some(Outer)), ("15", Some(Room))],
        ),
        (
            "lip free id 33.6 on 35 shaft",
            &[("33.6", Some(FreeLip)), ("35", Some(Shaft))],
        ),
        ("od 62 w 16", &[("62", Some(Outer)), ("16", Some(Width))]),
        (
            "d=40 D=80 b=18",
            &[
                ("40", Some(Inner)),
                ("80", Some(Outer)),
                ("18", Some(Width)),
            ],
        ),
        ("3/8 dowel", &[("9.525", None)]),
        ("internal circlip 40", &[("40", None)]),
        (
            "oil seal 62 x 40 x 8",
            &[("62", None), ("40", None), ("8", None)],
        ),
        (
            "40,5 mm shaft 62 housing",
            &[("40.5", Some(Shaft)), ("62", Some(Role::Housing))],
        ),
        ("4O x 8O x 18", &[("40", None), ("80", None), ("18", None)]),
        (
            "1 3/8 bore 2 1/2 od",
            &[("34.925", Some(Inner)), ("63.5", Some(Outer))],
        ),
    ];
    for (text, expected) in cases {
        let expected: Vec<(String, Option<Role>)> = expected
            .iter()
            .map(|(mm, role)| ((*mm).to_owned(), *role))
            .collect();
        assert_eq!(figures(text), expected, "{text}");
    }
}

#[test]
fn figures_without_a_unit_are_read_both_ways() {
    let question = read("1.181 2.441 .63");
    assert_eq!(question.readings.len(), 3);
    assert!(
        question
            .readings
            .iter()
            .all(|reading| reading.as_inches.is_some())
    );
    assert!(
        read("40 80 18 mm")
            .readings
            .iter()
            .all(|reading| reading.as_inches.is_none())
    );
}

#[test]
fn instruments_and_wear_go_with_their_figures() {
    let question = read("44.96 84.9 19 worn calliper");
    assert!(question.is_worn);
    assert!(
        question
            .readings
            .iter()
            .all(|r| r.is_worn && r.instrument == Some(Instrument::Calliper))
    );
    let two = read("bore 40.00 micrometer width 18 rule");
    assert_eq!(two.readings[0].instrument, Some(Instrument::Micrometer));
    assert_eq!(two.readings[1].instrument, Some(Instrument::Rule));
}

#[test]
fn words_that_ask_for_more_are_kept() {
    let question = read("oil seal 40 x 62 x 8 dust lip 120 °C mineral oil");
    assert_eq!(question.needs.has_dust_lip, Some(true));
    assert_eq!(question.needs.highest_c, Some(120.0));
    assert_eq!(question.needs.fluid, Some(Fluid::MineralOil));
    let question = read("40 80 18 must locate axially double row 3000 rpm inverter");
    assert_eq!(question.needs.axial, Some(AxialNeed::BothWays));
    assert_eq!(question.traits.rows, Some(2));
    assert_eq!(question.needs.speed_rpm, Some(3000.0));
    assert!(question.needs.has_inverter);
    assert!(
        question.not_understood.is_empty(),
        "{:?}",
        question.not_understood
    );
    assert_eq!(read("40 80 18 wobbly").not_understood, ["wobbly"]);
}

#[test]
fn designations_are_found_whole_half_and_with_slips() {
    for (text, basic) in [
        ("6308 2RS C3", "6308"),
        ("33208 P5", "33208"),
        ("AS568-318", "AS568-318"),
        ("KM8", "KM8"),
        ("63o8-2RS", "6308"),
        ("62 06 2RS", "6206"),
        ("6308-", "6308"),
        ("6308 40x90x23", "6308"),
    ] {
        let question = read(text);
        assert_eq!(question.designation.unwrap().basic, basic, "{text}");
    }
    assert!(read("63?6").partial.len() > 1);
    assert_eq!(read("6308 40x90x23").readings.len(), 3);
    // The end is missing, so nothing is known of closure, clearance and class.
    assert!(read("6308-").traits.closure.is_none());
}

#[test]
fn an_instrument_reads_the_figures_it_is_named_for() {
    use Instrument::{Calliper, Micrometer, Rule};
    let cases: [(&str, &[Option<Instrument>]); 9] = [
        ("rule 44.96 84.9 19", &[Some(Rule), Some(Rule), Some(Rule)]),
        ("44.96 84.9 19 rule", &[Some(Rule), Some(Rule), Some(Rule)]),
        (
            "micrometer bore 45.02 calliper od 84.9 rule width 19",
            &[Some(Micrometer), Some(Calliper), Some(Rule)],
        ),
        (
            "bore 45.02 micrometer od 84.9 calliper width 19 rule",
            &[Some(Micrometer), Some(Calliper), Some(Rule)],
        ),
        (
            "bore 45.02 micrometer, rule od 84.9 width 19",
            &[Some(Micrometer), Some(Rule), Some(Rule)],
        ),
        (
            "micrometer bore 45.02, od 84.9 calliper",
            &[Some(Micrometer), Some(Calliper)],
        ),
        (
            "micrometer 45.003 84.94 18.95",
            &[Some(Micrometer), Some(Micrometer), Some(Micrometer)],
        ),
        ("6205 micrometer shaft 25.008", &[Some(Micrometer)]),
        ("40 x 80 x 18", &[None, None, None]),
    ];
    for (text, expected) in cases {
        let question = read(text);
        let named: Vec<_> = question.readings.iter().map(|of| of.instrument).collect();
        assert_eq!(named, expected, "{text}");
        assert!(question.not_understood.is_empty(), "{text}");
    }
}

#[test]
fn worn_is_the_figure_it_stands_beside() {
    let cases: [(&str, &[bool]); 7] = [
        ("shaft 45 worn, housing 85.2 worn", &[true, true]),
        ("shaft 45 worn, housing 85.2", &[true, false]),
        ("width 18.6 worn od 85 bore 45", &[true, false, false]),
        ("bore 45 worn od 84.9 width 19", &[true, false, false]),
        ("30 62 16 worn", &[true, true, true]),
        ("bore 30 od 62 width 16 worn", &[true, true, true]),
        ("worn od 61.9 bore 30", &[true, false]),
    ];
    for (text, expected) in cases {
        let question = read(text);
        let worn: Vec<bool> = question.readings.iter().map(|of| of.is_worn).collect();
        assert_eq!(worn, expected, "{text}");
        assert!(question.is_worn, "{text}");
    }
}

#[test]
fn a_unit_holds_for_all_of_a_joined_size() {
    // 25.4 mm to the inch; 41.275 mm is 1 5/8 in.
    for (text, expected) in [
        ("3/8x1 1/2 dowel", &["9.525", "38.1"][..]),
        ("dowel 3/8x1", &["9.525", "25.4"]),
        ("3/4x1 5/8x7/16", &["19.05", "41.275", "11.1125"]),
        ("3/4 x1 5/8x7/16", &["19.05", "41.275", "11.1125"]),
        ("3/4X1.625X.4375", &["19.05", "41.275", "11.1125"]),
        ("3/4 x 41.275 x 7/16", &["19.05", "41.275", "11.1125"]),
        ("¾ x 1⅝ x 7/16", &["19.05", "41.275", "11.1125"]),
    ] {
        let mm: Vec<String> = figures(text).into_iter().map(|(mm, _)| mm).collect();
        assert_eq!(mm, expected, "{text}");
    }
}

#[test]
fn a_name_of_a_dimension_goes_to_the_figure_that_can_be_it() {
    use Role::{Housing, Inner, Outer, Section, Shaft, Width};
    let cases: [(&str, Figures); 8] = [
        ("25 od 52", &[("25", None), ("52", Some(Outer))]),
        ("20 id 47 od", &[("20", Some(Inner)), ("47", Some(Outer))]),
        ("62 w 16", &[("62", None), ("16", Some(Width))]),
        (
            "oil seal shaft 40 housing bore 62",
            &[("40", Some(Shaft)), ("62", Some(Housing))],
        ),
        (
            "shaft dia 40 outer dia 62",
            &[("40", Some(Shaft)), ("62", Some(Outer))],
        ),
        (
            "lip seal 40 62 8",
            &[("40", None), ("62", None), ("8", None)],
        ),
        (
            "o-ring 3.5 section 25 id measured",
            &[("3.5", Some(Section)), ("25", Some(Inner))],
        ),
        (
            "45.003 84.94 18.95 shaft seat",
            &[("45.003", None), ("84.94", None), ("18.95", None)],
        ),
    ];
    for (text, expected) in cases {
        let expected: Vec<(String, Option<Role>)> = expected
            .iter()
            .map(|(mm, role)| ((*mm).to_owned(), *role))
            .collect();
        assert_eq!(figures(text), expected, "{text}");
    }
    assert_eq!(
        read("45.003 84.94 18.95 shaft seat").not_understood,
        ["shaft", "seat"]
    );
}

#[test]
fn heat_angle_and_hardness_are_no_lengths() {
    for (text, highest, lowest) in [
        ("6308 2RS 120C", Some(120.0), None),
        ("6205-2RS 120°C", Some(120.0), None),
        ("6206 -40C", None, Some(-40.0)),
        ("6308 2RS 248F", Some(120.0), None),
        ("6308 2RS 248 °F", Some(120.0), None),
        ("30 x 62 x 16 120 degrees", Some(120.0), None),
        ("o-ring 25x3 Wasser 90 Grad", Some(90.0), None),
    ] {
        let question = read(text);
        assert_eq!(question.needs.highest_c, highest, "{text}");
        assert_eq!(question.needs.lowest_c, lowest, "{text}");
        assert!(question.not_understood.is_empty(), "{text}");
        assert!(matches!(question.readings.len(), 0 | 2 | 3), "{text}");
    }
    for (text, degrees) in [
        ("7206 40°", 40),
        ("7206 15 degrees", 15),
        ("7206 25 Grad", 25),
    ] {
        let question = read(text);
        let angle = question.traits.contact_angle.map(|angle| angle.0);
        assert_eq!(angle, Some(degrees), "{text}");
        assert_eq!(question.needs.highest_c, None, "{text}");
    }
    for (text, count) in [
        ("AS568-214 70 NBR", 0),
        ("o-ring 25 x 3 NBR 90", 0),
        ("o-ring 25 x 3 70 NBR", 0),
        ("o-ring NBR 70 x 3", 2),
    ] {
        let question = read(text);
        let is_size = text.contains("70 x");
        assert_eq!(question.traits.hardness.is_none(), is_size, "{text}");
        assert_eq!(question.traits.material.as_deref(), Some("NBR"), "{text}");
        assert_eq!(question.readings.len(), count, "{text}");
    }
}

#[test]
fn the_oil_of_an_oil_seal_is_no_fluid() {
    for (text, fluid) in [
        ("oil seal 62 x 40 x 8 EPDM", None),
        ("62 x 40 x 8 oil seal", None),
        ("oil seal 40 x 62 x 8 oil", Some(Fluid::MineralOil)),
        ("oil seal 40 x 62 x 8 Mineralöl", Some(Fluid::MineralOil)),
    ] {
        assert_eq!(read(text).needs.fluid, fluid, "{text}");
    }
}

#[test]
fn german_words_of_the_bench_are_understood() {
    let of = |text: &str| {
        let question = read(text);
        assert!(
            question.not_understood.is_empty(),
            "{text}: {:?}",
            question.not_understood
        );
        question
    };
    assert_eq!(of("NU206 Loslager").needs.axial, Some(AxialNeed::Floats));
    assert_eq!(of("6206 Festlager").needs.axial, Some(AxialNeed::BothWays));
    assert_eq!(
        of("Kugellager 30 x 62 x 16 zweireihig").traits.rows,
        Some(2)
    );
    assert_eq!(of("30 x 62 x 16 offen").traits.closure, Some(Closure::Open));
    // The outside stays open: DIN 3760 has AS, BS and CS.
    let lip = of("oil seal 40x62x8 Staublippe");
    assert_eq!(
        (lip.needs.has_dust_lip, lip.traits.seal_form),
        (Some(true), None)
    );
    for (text, ribs) in [
        (
            "oil seal 40x62x8 Rechtsdrall",
            "ribs for right-hand rotation",
        ),
        ("oil seal 40x62x8 helix left", "ribs for left-hand rotation"),
        (
            "oil seal 40x62x8 clockwise ribs",
            "ribs for right-hand rotation",
        ),
        (
            "oil seal 40x62x8 anticlockwise ribs",
            "ribs for left-hand rotation",
        ),
    ] {
        assert_eq!(of(text).traits.variant.as_deref(), Some(ribs), "{text}");
    }
}

#[test]
fn fractions_of_four_digits_are_lengths() {
    // Inch sizes of BS 292 (RLS14, RMS5); 25.4 mm to the inch.
    let cases: [(&str, [&str; 3]); 2] = [
        ("1 3/4 x 3 3/4 x 13/16", ["44.45", "95.25", "20.6375"]),
        ("5/8 x 1 13/16 x 5/8", ["15.875", "46.0375", "15.875"]),
    ];
    for (text, expected) in cases {
        let mm: Vec<String> = figures(text).into_iter().map(|(mm, _)| mm).collect();
        assert_eq!(mm, expected, "{text}");
        assert_eq!(read(text).designation, None, "{text}");
    }
    // A stroke in a bearing's number stays one (DIN 623-1).
    assert!(read("60/22").designation.is_some());
}

#[test]
fn a_number_of_one_digit_is_one_with_words_behind_it_too() {
    for (text, expected) in [("KM8 worn", "KM8"), ("R8 sealed", "R8")] {
        let designation = read(text).designation.map(|designation| designation.basic);
        assert_eq!(designation.as_deref(), Some(expected), "{text}");
    }
}

#[test]
fn figures_without_a_unit_are_inches_only_where_the_part_would_be_under_a_metre() {
    // Arithmetic: 39 in is 990.6 mm, 40 in is 1016 mm; one figure that is absurd leaves none of them in inches.
    for (text, has_inches) in [
        ("3/4 x 1 5/8 x 7/16", false),
        ("1.181 2.441 .63", true),
        ("8 x 19 x 6", true),
        ("15 x 39 x 11", true),
        ("15 x 40 x 11", false),
        ("40x80x18", false),
        ("40 80 18 mm", false),
        ("od 62 w 16", false),
        ("o-ring 31.4 x 3.6", true),
        ("bore 12 od 40", false),
        ("oil seal 24 x 8 x 7", true),
    ] {
        let question = Question::read(text).unwrap();
        let is_inches = |reading: &Reading| reading.as_inches.is_some();
        assert_eq!(
            question.readings.iter().all(is_inches),
            has_inches,
            "{text}"
        );
        assert_eq!(
            question.readings.iter().any(is_inches),
            has_inches,
            "{text}"
        );
    }
}

#[test]
fn words_for_a_need_that_is_known_are_understood() {
    for text in [
        "oil seal 40 x 62 x 8 pressure 5 bar",
        "6205 high speed 9000 rpm",
        "6205 inverter motor",
        "6205 frequency inverter",
        "6205 temperature 120 C",
        "roulement à rouleaux coniques 30 x 62 x 17.25",
        "6205 axial load",
        "6205 wet",
        "6205 dirt",
        "6205 staubig",
        "dowel 6 x 30 hardened",
        "KM 9 thread 45",
        "7205 B DB pair",
        "40x62x8 A NBR right-hand helix",
    ] {
        let question = read(text);
        assert!(
            question.not_understood.is_empty(),
            "{text}: {:?}",
            question.not_understood
        );
    }
    // Without the need the word stays open.
    assert_eq!(read("6205 pressure").not_understood, ["pressure"]);
    assert_eq!(read("6205 motor").not_understood, ["motor"]);
}

#[test]
fn words_in_small_letters_are_no_suffix_to_be_ordered() {
    for (text, words) in [
        ("6205 wobbly", &["wobbly"][..]),
        ("7205 B matched pair", &["matched pair"]),
        ("6205 oil bath", &["oil bath"]),
        ("6308 left-hand helix", &["left-hand helix"]),
        ("o-ring AS568-214 vacuum", &["vacuum"]),
    ] {
        let question = read(text);
        assert_eq!(question.not_understood, words, "{text}");
        assert!(question.traits.unknown_suffixes.is_empty(), "{text}");
    }
    // Capitals may be somebody's mark.
    assert_eq!(read("6205 LLUX").traits.unknown_suffixes, ["LLUX"]);
    assert_eq!(read("6205 llu").traits.unknown_suffixes, ["LLU"]);
}

/// A mark on the number that no standard knows goes with it, whatever is said behind it.
#[test]
fn words_behind_a_mark_of_no_standard_are_read() {
    for (text, marks) in [
        ("6206-2RS1 C3 for inverter motor", "2RS1"),
        ("6206-2RS1 for inverter motor", "2RS1"),
        ("6205-LLUX C3 inverter", "LLUX"),
    ] {
        let question = read(text);
        let designation = question.designation.as_ref().expect("a number");
        assert_eq!(designation.traits.unknown_suffixes, [marks], "{text}");
        assert!(question.needs.has_inverter, "{text}");
        let clearance = question.traits.clearance;
        assert_eq!(clearance.is_some(), text.contains("C3"), "{text}");
        assert!(question.readings.is_empty(), "{text}: {question:?}");
    }
}

#[test]
fn a_speed_below_zero_is_no_speed() {
    let question = read("6206 -5 rpm");
    assert_eq!(question.needs.speed_rpm, None);
    assert_eq!(question.not_understood, ["-5 rpm"]);
    assert_eq!(read("6206 5 rpm").needs.speed_rpm, Some(5.0));
}

#[test]
fn a_ring_that_turns_is_no_half_bearing() {
    let question = read("NU205 rotating outer ring");
    assert_eq!(question.traits.variant, None);
    assert_eq!(question.needs.turning, Some(Turning::OuterRing));
    assert!(question.not_understood.is_empty(), "{question:?}");
}
