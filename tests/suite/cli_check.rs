//! `check` as the bench types it: figures against standards and arithmetic, and what is refused with why.

use std::process::{Command, Output};

use serde_json::Value;

fn run(arguments: &str) -> Output {
    Command::new(env!("CARGO_BIN_EXE_sparewright"))
        .arg("check")
        .args(arguments.split_whitespace())
        .output()
        .unwrap()
}

fn json(arguments: &str) -> Value {
    let output = run(&format!("{arguments} --format json"));
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{arguments}: {said}");
    serde_json::from_slice(&output.stdout).unwrap()
}

/// What is said against it, joined.
fn against(of: &Value) -> String {
    let lines = of["against"].as_array().unwrap().iter();
    lines
        .filter_map(Value::as_str)
        .collect::<Vec<_>>()
        .join("; ")
}

fn says(of: &Value) -> String {
    let lines = of["says"].as_array().unwrap().iter();
    lines
        .filter_map(Value::as_str)
        .collect::<Vec<_>>()
        .join("; ")
}

fn near(of: &Value, name: &str, expected: f64, within: f64, case: &str) {
    let found = of["values"][name].as_f64();
    let is_near = found.is_some_and(|found| (found - expected).abs() <= within);
    assert!(is_near, "{case}: {name} {found:?}, expected {expected}");
}

#[test]
fn lives_are_those_of_iso_281() {
    for (arguments, mrev, hours, source) in [
        (
            "life --family deep_groove_ball --rating 16 --load 2",
            512.0,
            None,
            "(16/2)^3, public exam question on ISO 281",
        ),
        (
            "life --family deep_groove_ball --rating 19.5 --load 3 --rpm 1450",
            274.625,
            Some(3_156.609),
            "(19.5/3)^3; 1e6/(60 n), ISO 281",
        ),
        (
            "life --family cylindrical_roller --rating 60 --load 10",
            392.498,
            None,
            "6^(10/3), ISO 281",
        ),
        (
            "life --family thrust_ball --rating 10 --load 10 --rpm 1",
            1.0,
            Some(16_666.667),
            "C is the load of one million revolutions, ISO 281",
        ),
        (
            "life --family needle_roller --rating 20 --load 10",
            10.079,
            None,
            "2^(10/3), ISO 281",
        ),
        (
            "life --family deep_groove_ball --rating 19,5 --load 3,0 --rpm 1450",
            274.625,
            Some(3_156.609),
            "the same with commas",
        ),
    ] {
        let of = json(arguments);
        near(&of, "life_mrev", mrev, 0.001, source);
        match hours {
            Some(hours) => near(&of, "life_h", hours, 0.01, source),
            None => assert!(of["values"]["life_h"].is_null(), "{source}"),
        }
        assert!(says(&of).contains("90 % reliability"), "{source}");
        assert_eq!(of["schema"], 1);
        assert_eq!(of["check"], "life");
    }
}

#[test]
fn a_bearing_put_in_instead_is_compared_only_by_ratings_of_one_source() {
    // Mott, table 14-3: 6204 12.7 kN, 6304 15.9 kN; (15.9/12.7)^3 = 1.962.
    let base = "life --family deep_groove_ball --rating 12.7 --load 3";
    let of = json(&format!("{base} --instead-rating 15.9 --same-source"));
    near(&of, "life_ratio", 1.962, 0.001, "6304 instead of 6204");
    assert_eq!(against(&of), "");
    let of = json(&format!("{base} --instead-rating 10 --same-source"));
    near(&of, "life_ratio", 0.488, 0.001, "(10/12.7)^3");
    assert!(against(&of).contains("shorter life"), "{of}");
    // Without the word that both are of one source nothing is compared.
    let of = json(&format!("{base} --instead-rating 15.9"));
    assert!(of["values"]["life_ratio"].is_null());
    assert!(says(&of).contains("not comparable: the ratings are of different sources"));
    // Ball against roller hangs on the load: (22.4/3)^(10/3) over (19.5/3)^3 is 2.96 (arithmetic on textbook ratings).
    let of = json(
        "life --family deep_groove_ball --rating 19.5 --load 3 --instead-rating 22.4 --instead-family cylindrical_roller --same-source",
    );
    near(&of, "life_ratio", 2.96, 0.01, "roller instead of ball");
}

#[test]
fn static_safety_is_that_of_iso_76() {
    for (arguments, load_kn, safety, source) in [
        (
            "static --family deep_groove_ball --rating 11.2 --radial 4 --axial 1",
            4.0,
            2.8,
            "0.6 x 4 + 0.5 x 1 is below the radial load itself",
        ),
        (
            "static --family deep_groove_ball --rating 11.2 --radial 4 --axial 9",
            6.9,
            1.623,
            "0.6 x 4 + 0.5 x 9",
        ),
        (
            "static --family deep_groove_ball --rating 11.2 --radial 4",
            4.0,
            2.8,
            "no axial load",
        ),
        (
            "static --family thrust_ball --rating 11.2 --radial 0 --axial 9",
            9.0,
            1.244,
            "axial load alone",
        ),
        (
            "static --family cylindrical_roller --rating 44 --radial 11",
            11.0,
            4.0,
            "radial load alone",
        ),
        (
            "static --family needle_roller --rating 44 --radial 10",
            10.0,
            4.4,
            "radial load alone, ISO 76 from memory",
        ),
        (
            "static --family drawn_cup_needle --rating 22 --radial 10",
            10.0,
            2.2,
            "radial load alone, ISO 76 from memory",
        ),
        (
            "static --family angular_contact_ball --angle 40 --rating 15 --radial 2 --axial 10",
            3.6,
            4.167,
            "0.5 x 2 + 0.26 x 10, ISO 76 from memory",
        ),
        (
            "static --family spherical_roller --rating 200 --radial 20",
            20.0,
            10.0,
            "radial load alone, ISO 76 from memory",
        ),
        (
            "static --family tapered_roller --rating 60 --radial 20",
            20.0,
            3.0,
            "radial load alone, ISO 76 from memory",
        ),
        (
            "static --family angular_contact_ball --rating 15 --radial 5",
            5.0,
            3.0,
            "radial load alone, ISO 76 from memory",
        ),
        (
            "static --family spherical_roller --rating 200 --radial 20 --axial 10 --axial-factor 2.2",
            42.0,
            4.762,
            "1 x 20 + 2.2 x 10, ISO 76 from memory",
        ),
        (
            "static --family tapered_roller --rating 60 --radial 10 --axial 20 --axial-factor 0.9",
            23.0,
            2.609,
            "0.5 x 10 + 0.9 x 20, ISO 76 from memory",
        ),
    ] {
        let of = json(arguments);
        near(&of, "load_kn", load_kn, 0.001, source);
        near(&of, "safety", safety, 0.001, source);
        assert_eq!(against(&of), "", "{source}");
    }
    let of = json("static --family deep_groove_ball --rating 3 --radial 4");
    assert!(against(&of).contains("static safety below 1"), "{of}");
}

#[test]
fn speeds_are_held_against_the_limit_that_the_closure_leaves() {
    // Published description of closures: contact seals leave about 60 % of the open bearing's limit.
    for (arguments, limit_rpm, is_within) in [
        ("speed --rpm 9000 --limit 14000", 14_000.0, true),
        (
            "speed --rpm 9000 --limit 14000 --closure 2RS --limit-of-open",
            8_400.0,
            false,
        ),
        (
            "speed --rpm 8400 --limit 14000 --closure 2RS --limit-of-open",
            8_400.0,
            true,
        ),
        (
            "speed --rpm 9000 --limit 14000 --closure 2Z --limit-of-open",
            14_000.0,
            true,
        ),
        (
            "speed --rpm 9000 --limit 14000 --closure 2RS",
            14_000.0,
            true,
        ),
        ("speed --rpm 14001 --limit 14000", 14_000.0, false),
    ] {
        let of = json(arguments);
        near(&of, "limit_rpm", limit_rpm, 1e-9, arguments);
        assert_eq!(against(&of).is_empty(), is_within, "{arguments}: {of}");
    }
    // A limit of the open bearing with no word of the closure is not taken for granted.
    let of = json("speed --rpm 9000 --limit 14000 --limit-of-open");
    assert!(says(&of).contains("closure unknown"), "{of}");
}

#[test]
fn seats_are_those_of_iso_286_with_iso_492() {
    // Limits of shafts and housings by ISO 286-2, of rings by ISO 492 Normal.
    for (arguments, least_um, greatest_um, source) in [
        (
            "seat --diameter 25 --seat k6",
            2.0,
            25.0,
            "k6 +2/+15, bore 0/-10",
        ),
        (
            "seat --diameter 40 --seat m6",
            9.0,
            37.0,
            "m6 +9/+25, bore 0/-12",
        ),
        (
            "seat --diameter 17 --seat j6",
            -3.0,
            16.0,
            "j6 -3/+8, bore 0/-8",
        ),
        (
            "seat --diameter 52 --seat N7",
            -4.0,
            39.0,
            "N7 -39/-9, outside 0/-13",
        ),
        (
            "seat --diameter 52 --seat H7",
            -43.0,
            0.0,
            "H7 0/+30, outside 0/-13",
        ),
    ] {
        let of = json(arguments);
        near(&of, "least_interference_um", least_um, 1e-9, source);
        near(&of, "greatest_interference_um", greatest_um, 1e-9, source);
        assert!(
            of["values"]["least_clearance_left_um"].is_null(),
            "{source}"
        );
        assert!(says(&of).contains("negative interference is play"));
    }
    // ISO 5753-1 CN at 25 mm is 5 to 20 µm; four fifths of the interference go off it (handbook practice, from memory).
    let of = json("seat --diameter 25 --seat k6 --clearance CN");
    near(
        &of,
        "least_clearance_left_um",
        5.0 - 0.8 * 25.0,
        1e-9,
        "CN on k6",
    );
    near(
        &of,
        "greatest_clearance_left_um",
        20.0 - 0.8 * 2.0,
        1e-9,
        "CN on k6",
    );
    assert!(against(&of).contains("take all clearance away"), "{of}");
    let likely = 0.8 * 6.5_f64.hypot(5.0);
    near(
        &of,
        "likely_least_clearance_left_um",
        12.5 - 0.8 * 13.5 - 7.5_f64.hypot(likely),
        1e-9,
        "CN on k6",
    );
    // What is not worked out says why: the housing, and a bore beyond the table of ISO 5753-1.
    for (arguments, words) in [
        (
            "seat --diameter 52 --seat J7 --clearance CN",
            "give it with --bore",
        ),
        (
            "seat --diameter 220 --seat k6 --clearance CN",
            "no limits of clearance CN (ISO 5753-1) here for a bore of 220 mm",
        ),
        // 13.5 +- 8.2 µm tight: 12.5 +- 7.5 less 10.8 +- 6.6, the root of the sum of the squares is 10.0.
        (
            "seat --diameter 25 --seat k6 --clearance CN",
            "likely -8 to 12 µm",
        ),
        (
            "seat --diameter 25 --seat k6 --clearance C3",
            "this is not likely",
        ),
        ("seat --diameter 52 --seat J7", ""),
    ] {
        let of = json(arguments);
        let told = says(&of).replace("negative interference is play", "");
        assert!(told.contains(words), "{arguments}: {of}");
        assert_eq!(told.is_empty(), words.is_empty(), "{arguments}: {of}");
    }
    // ISO 286-2: P7 at 52 mm -51/-21 µm; ISO 492: outside 0/-13; so 8 to 51 µm tight, of which four fifths go off 5 to 20 µm.
    let of = json("seat --diameter 52 --seat P7 --clearance CN --bore 25");
    near(
        &of,
        "least_clearance_left_um",
        5.0 - 0.8 * 51.0,
        1e-9,
        "CN in P7",
    );
    near(
        &of,
        "greatest_clearance_left_um",
        20.0 - 0.8 * 8.0,
        1e-9,
        "CN in P7",
    );
    assert!(
        says(&of).contains("of a deep groove ball bearing (ISO 5753-1), on this seat alone"),
        "{of}"
    );
    // A roller bearing has limits of its own.
    let roller = json("seat --diameter 25 --seat k6 --clearance CN --family cylindrical_roller");
    assert!(
        says(&roller).contains("of a cylindrical roller bearing"),
        "{roller}"
    );
    assert_ne!(
        roller["values"]["least_clearance_left_um"],
        json("seat --diameter 25 --seat k6 --clearance CN")["values"]["least_clearance_left_um"]
    );
    let none = json("seat --diameter 25 --seat k6 --clearance CN --family tapered_roller");
    assert!(
        none["values"]["least_clearance_left_um"].is_null(),
        "{none}"
    );
    let of = json("seat --diameter 25 --seat k6 --clearance C4");
    assert_eq!(against(&of), "", "C4 at 25 mm, 23 to 41 µm, keeps some");
}

#[test]
fn a_measured_seat_is_judged_only_by_an_instrument_that_can() {
    // k6 at 25 mm allows 25.002 to 25.015 mm, a band of 13 µm.
    for (arguments, expected, source) in [
        (
            "--measured 25.008 --uncertainty 4",
            "",
            "within the class, sure to a third of it",
        ),
        (
            "--measured 25.008",
            "this instrument cannot tell",
            "a micrometer in a workshop is sure to 6 µm, more than a third of 13",
        ),
        (
            "--measured 25.1",
            "tighter than its class",
            "85 µm above the class",
        ),
        (
            "--measured 24.98",
            "worn, repair it",
            "22 µm below, read to 6 µm",
        ),
        ("--measured 24,98", "worn, repair it", "with a comma"),
        (
            "--measured 25.0 --uncertainty 20",
            "this instrument cannot tell",
            "a calliper",
        ),
        (
            "--measured 24.9 --uncertainty 20",
            "worn, repair it",
            "a tenth of a millimetre shows in a calliper too",
        ),
        (
            "--measured 25.0 --uncertainty 4",
            "proved neither right nor wrong",
            "2 µm below, which 4 µm cannot tell from sound: ISO 14253-1",
        ),
    ] {
        let of = json(&format!("seat --diameter 25 --seat k6 {arguments}"));
        if expected.is_empty() {
            assert_eq!(against(&of), "", "{source}");
        } else {
            assert!(against(&of).contains(expected), "{source}: {of}");
        }
    }
    // What is beyond doubt is told alone, however coarse the instrument.
    let of = json("seat --diameter 25 --seat k6 --measured 24.9 --uncertainty 20");
    assert!(!against(&of).contains("cannot tell"), "{of}");
    // H7 at 52 mm allows 52.000 to 52.030 mm: with 10 µm, 52.010 to 52.020 is proved, and above 52.040 the contrary.
    for (measured, expected) in [
        ("52.015", ""),
        ("52.038", "proved neither right nor wrong"),
        ("52.025", "proved neither right nor wrong"),
        ("52.041", "worn, repair it"),
    ] {
        let of = json(&format!(
            "seat --diameter 52 --seat H7 --measured {measured}"
        ));
        let told = against(&of);
        assert!(told.contains(expected), "{measured}: {of}");
        assert_eq!(told.is_empty(), expected.is_empty(), "{measured}: {of}");
    }
    // CN at 25 mm is 5 to 20 µm: 54 µm of interference at least take more than that, 24 at most may.
    for (measured, words) in [
        ("25.060 --uncertainty 2", "takes all clearance away"),
        ("25.012 --uncertainty 2", "may take all clearance away"),
    ] {
        let of = json(&format!(
            "seat --diameter 25 --seat k6 --clearance CN --measured {measured}"
        ));
        assert!(against(&of).contains(words), "{measured}: {of}");
    }
    let of = json("seat --diameter 52 --seat H7 --measured 52.2 --uncertainty 5");
    assert!(against(&of).contains("worn, repair it"), "{of}");
}

#[test]
fn o_rings_are_stretched_squeezed_and_filled_as_the_figures_say() {
    // AS568-220, 34.52 x 3.53 mm, on a floor of 36.25 mm: 5.01 % stretch. The section of a stretched ring keeps its
    // volume: 3.53 / sqrt(1.0501) is 3.445 mm (arithmetic).
    let of = json("oring --inside 34.52 --section 3.53 --floor 36.25 --depth 2.87 --width 4.8");
    near(&of, "stretch_share", 0.050_1, 0.000_1, "floor over inside");
    let section = of["values"]["section_mm"].as_f64().unwrap();
    assert!((3.43..3.46).contains(&section), "{section}");
    near(
        &of,
        "squeeze_share",
        1.0 - 2.87 / section,
        1e-6,
        "section less depth",
    );
    let area = std::f64::consts::PI * section * section / 4.0;
    near(
        &of,
        "fill_share",
        area / (2.87 * 4.8),
        1e-6,
        "area of the section over the groove",
    );
    // Without floor and width the two are unknown, not nought.
    let of = json("oring --inside 34.52 --section 3.53 --depth 2.87");
    assert!(of["values"]["stretch_share"].is_null() && of["values"]["fill_share"].is_null());
    near(&of, "squeeze_share", 1.0 - 2.87 / 3.53, 1e-9, "unstretched");
    // Handbook practice, from memory: 1 to 5 % of stretch. Less is worth a word and no reason against.
    let slack = json("oring --inside 37.69 --section 3.53 --floor 37.8 --depth 2.87 --width 4.6");
    assert_eq!(against(&slack), "", "{slack}");
    assert!(
        says(&slack).contains("stretch 0.3 % is below 1 %"),
        "{slack}"
    );
    let snug = json("oring --inside 37.69 --section 3.53 --floor 38.1 --depth 2.87 --width 4.6");
    assert_eq!(says(&snug), "", "{snug}");
    // Each duty has its own band of squeeze; a groove deeper than the section seals nothing.
    let loose = json("oring --inside 34.52 --section 3.53 --depth 3.6");
    assert!(!against(&loose).is_empty(), "{loose}");
    // Published gland table: 3.53 mm at rest in 2.79 to 2.95 mm, 5.33 mm moving in 4.65 to 4.78 mm; none of 3 mm.
    for (arguments, least_mm, words) in [
        ("--section 3.53 --depth 2.95", Some(2.79), ""),
        (
            "--section 3.53 --depth 3.00",
            Some(2.79),
            "more than the published 2.79 to 2.95 mm",
        ),
        (
            "--section 3.53 --depth 2.72",
            Some(2.79),
            "less than the published 2.79 to 2.95 mm",
        ),
        (
            "--section 5.33 --depth 4.55 --duty reciprocating",
            Some(4.65),
            "less than the published 4.65 to 4.78 mm",
        ),
        ("--section 3 --depth 2.6", None, ""),
    ] {
        let of = json(&format!("oring --inside 34.52 {arguments}"));
        assert_eq!(
            of["values"]["published_least_depth_mm"].as_f64(),
            least_mm,
            "{of}"
        );
        assert!(against(&of).contains(words), "{arguments}: {of}");
        assert_eq!(
            against(&of).is_empty(),
            words.is_empty(),
            "{arguments}: {of}"
        );
    }
    let full = json("oring --inside 34.52 --section 3.53 --depth 2.87 --width 3.0");
    assert!(!against(&full).is_empty(), "{full}");
}

#[test]
fn lips_run_at_the_speed_of_the_shafts_surface() {
    for (arguments, metres_per_second) in [
        ("lip --shaft 35 --rpm 1450 --elastomer NBR", 2.657_26),
        ("lip --shaft 100 --rpm 900 --elastomer FKM", 4.712_39),
        ("lip --shaft 35,0 --rpm 1450", 2.657_26),
    ] {
        // Pi d n / 60, arithmetic.
        near(
            &json(arguments),
            "speed_m_s",
            metres_per_second,
            0.000_1,
            arguments,
        );
    }
    let fast = json("lip --shaft 35 --rpm 14500 --elastomer NBR");
    assert!(against(&fast).contains("faster than the elastomer stands"));
    let unknown = json("lip --shaft 35 --rpm 1450 --elastomer XYZ");
    assert!(unknown["values"]["limit_m_s"].is_null());
    assert!(says(&unknown).contains("no limit known"), "{unknown}");
}

#[test]
fn a_spacer_gets_an_amount_only_from_offsets_measured_under_the_documented_load() {
    let full = "spacer --first 14 --second 16 --load 200 --documented 12 --documented-load 200 --uncertainty 0.5";
    let of = json(full);
    let amount = of["values"]["difference_um"].as_f64();
    assert!(amount.is_some_and(|um| (um - 18.0).abs() < 1e-9), "{of}");
    // 30 µm of offsets where 12 µm are asked for: in a back-to-back pair one spacer takes the difference; face to face it
    // is the other one.
    let face_to_face = json(&format!("{full} --arrangement DF"));
    assert_ne!(says(&of), says(&face_to_face));
    for (arguments, why) in [
        (
            "spacer --first 14 --second 16",
            "without the measuring load",
        ),
        (
            "spacer --first 14 --second 16 --load 200 --documented 12 --documented-load 100",
            "under another load",
        ),
        (
            "spacer --first 14 --second 16 --load 200 --documented 12",
            "the load that the documentation states its preload under is not given",
        ),
        (
            "spacer --first 14 --second 16 --load 200 --documented 12 --documented-load 200 --from-widths",
            "nominal widths",
        ),
        (
            "spacer --first 14 --second 16 --load 200 --documented 12 --documented-load 200 --uncertainty 15",
            "too coarsely",
        ),
    ] {
        let of = json(arguments);
        assert!(of["values"]["difference_um"].is_null(), "{arguments}");
        assert!(against(&of).contains("no amount"), "{arguments}");
        assert!(against(&of).contains(why), "{arguments}: {}", against(&of));
        assert!(says(&of).contains("surface plate"), "says how to measure");
    }
}

#[test]
fn what_cannot_be_is_wrong_usage_and_says_what_is_expected() {
    for (arguments, expected) in [
        (
            "life --family o_ring --rating 1 --load 1",
            "does not roll and has no rating life",
        ),
        (
            "life --family dowel_pin --rating 1 --load 1",
            "does not roll and has no rating life",
        ),
        (
            "life --family deep_grove_ball --rating 1 --load 1",
            "deep_groove_ball",
        ),
        (
            "life --family deep_groove_ball --rating=-1 --load 1",
            "a number above 0",
        ),
        (
            "life --family deep_groove_ball --rating 1 --load 0",
            "a number above 0",
        ),
        (
            "life --family deep_groove_ball --rating inf --load 1",
            "a number above 0",
        ),
        (
            "life --family deep_groove_ball --rating NaN --load 1",
            "a number above 0",
        ),
        (
            "life --family deep_groove_ball --rating 1 --load 1 --rpm 0",
            "a number above 0",
        ),
        (
            "life --family deep_groove_ball --rating 1 --load 1 --same-source",
            "--instead-rating",
        ),
        (
            "life --family deep_groove_ball --rating 1 --load 1 --instead-rating 2 --instead-family o_ring",
            "does not roll",
        ),
        (
            "static --family deep_groove_ball --rating 1 --radial=-4",
            "a number of 0 or more",
        ),
        (
            "static --family cylindrical_roller --rating 11.2 --radial 4 --axial 9",
            "no factors",
        ),
        (
            "static --family angular_contact_ball --rating 11.2 --radial 4 --axial 9",
            "no factors without the contact angle",
        ),
        (
            "static --family spherical_roller --rating 200 --radial 20 --axial 10",
            "expected --axial-factor, the Y0 of its data sheet",
        ),
        (
            "static --family deep_groove_ball --rating 20 --radial 2 --axial-factor 2",
            "only with self_aligning_ball, tapered_roller, spherical_roller",
        ),
        (
            "static --family angular_contact_ball --angle 12 --rating 11.2 --radial 4",
            "expected 15, 20, 25, 30, 35 or 40",
        ),
        (
            "static --family deep_groove_ball --angle 40 --rating 11.2 --radial 4",
            "only with angular_contact_ball",
        ),
        ("speed --rpm 0 --limit 100", "a number above 0"),
        (
            "speed --rpm 10 --limit 100 --closure lid",
            "no closure; expected open",
        ),
        ("seat --diameter 25 --seat q9", "no limits here for `q9`"),
        (
            "seat --diameter 25 --seat k6 --clearance CN --bore 25",
            "on a shaft the diameter of the seat is the bore",
        ),
        ("seat --diameter 25000 --seat k6", "no limits here"),
        (
            "seat --diameter 25 --seat k6 --class P99",
            "no tolerance class",
        ),
        (
            "seat --diameter 25 --seat k6 --clearance C9",
            "no clearance group",
        ),
        ("seat --diameter nan --seat k6", "a number above 0"),
        (
            "oring --inside 30 --section 3.53 --depth 0",
            "a number above 0",
        ),
        (
            "oring --inside 30 --section inf --depth 1",
            "a number above 0",
        ),
        (
            "oring --inside 30 --section 3.53 --depth 2.9 --duty rotary",
            "no duty; expected static_radial",
        ),
        ("lip --shaft=-3 --rpm 100", "a number above 0"),
        (
            "spacer --arrangement DT",
            "no arrangement; expected DB or DF",
        ),
        ("torque --bolt M10", "there is no command `torque`"),
    ] {
        let output = run(arguments);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{arguments}: {said}");
        assert!(said.contains(expected), "{arguments}: {said}");
        assert!(output.stdout.is_empty(), "{arguments}");
    }
}

#[test]
fn every_answer_carries_the_cautions_in_both_forms() {
    for arguments in [
        "life --family deep_groove_ball --rating 16 --load 2",
        "static --family deep_groove_ball --rating 11.2 --radial 4",
        "speed --rpm 100 --limit 200",
        "seat --diameter 25 --seat k6",
        "oring --inside 34.52 --section 3.53 --depth 2.87",
        "lip --shaft 35 --rpm 1450",
        "spacer --first 4 --second 6",
    ] {
        let of = json(arguments);
        let cautions = of["cautions"].as_array().unwrap();
        assert!(cautions.len() >= 3, "{arguments}");
        let output = run(arguments);
        let text = String::from_utf8_lossy(&output.stdout).into_owned();
        for word in ["isolate and lock off", "licensed person", "Caution: "] {
            assert!(text.contains(word), "{arguments}: {word}");
        }
        // Every value stands in the table under the name it has in JSON, or in words.
        assert!(text.lines().count() > 4, "{arguments}: {text}");
    }
}

#[test]
fn a_life_outside_the_formula_says_so() {
    // ISO 281, from memory: the formula holds up to half of C and up to C0.
    for (arguments, expected) in [
        ("--rating 10 --load 5", ""),
        ("--rating 10 --load 20", "half of C"),
        ("--rating 10 --load 4.5 --static-rating 4", "above C0"),
        (
            "--rating 20 --load 6 --instead-rating 10 --same-source",
            "half of C",
        ),
    ] {
        let of = json(&format!("life --family deep_groove_ball {arguments}"));
        assert!(
            of["values"]["life_mrev"]
                .as_f64()
                .is_some_and(|mrev| mrev > 0.0),
            "{of}"
        );
        if expected.is_empty() {
            assert_eq!(against(&of), "", "{arguments}");
        } else {
            assert!(against(&of).contains(expected), "{arguments}: {of}");
        }
    }
}

#[test]
fn a_spacer_says_what_the_sign_of_an_offset_means_and_refuses_what_no_set_has() {
    // Geometry, by hand; that no matched set has more than 100 µm a bearing is common practice, no source.
    let head = "spacer --load 200 --documented-load 200";
    let less = json(&format!("{head} --first=-11 --second=-11 --documented=-12"));
    assert!(
        says(&less).contains("the gap that clamping closes"),
        "{less}"
    );
    assert!(
        says(&less).contains("inner spacer 10.0 µm shorter"),
        "{less}"
    );
    let face = json(&format!(
        "{head} --first=-11 --second=-11 --documented=-12 --arrangement DF"
    ));
    assert!(
        says(&face).contains("outer spacer 10.0 µm shorter"),
        "{face}"
    );
    let absurd = json(&format!("{head} --first 400 --second 600 --documented 22"));
    assert!(absurd["values"]["difference_um"].is_null(), "{absurd}");
    assert!(against(&absurd).contains("another unit"), "{absurd}");
}
