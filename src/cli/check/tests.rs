//! Checks by their arithmetic; the formulas themselves are compared with published values in `tests/suite/engineering.rs`.

use super::*;

fn life_of(family: &str, rating: f64, load: f64, rpm: Option<f64>) -> CheckKind {
    CheckKind::Life {
        family: family.to_owned(),
        rating,
        static_rating: None,
        load,
        rpm,
        instead_rating: None,
        instead_family: None,
        same_source: false,
    }
}

fn value(checked: &WorkedOut, name: &str) -> Option<f64> {
    let found = checked.values.iter().find(|(own, _)| *own == name);
    found.unwrap_or_else(|| panic!("no value {name}")).1
}

fn near(have: Option<f64>, want: f64) {
    let have = have.unwrap();
    assert!(
        (have - want).abs() < 5e-4 * want.abs().max(1.0),
        "{have} for {want}"
    );
}

#[test]
fn life_is_the_power_of_load_ratio_that_iso_281_gives_for_balls_and_rollers() {
    // ISO 281:2007, 5.3: L10 = (C/P)^p, p = 3 for balls and 10/3 for rollers; hours are 1e6/(60 n) of it.
    for (family, rating, load, rpm, exponent) in [
        ("deep_groove_ball", 19.5, 3.0, Some(1450.0), 3.0),
        ("angular_contact_ball", 40.0, 10.0, None, 3.0),
        ("cylindrical_roller", 40.0, 10.0, Some(500.0), 10.0 / 3.0),
        ("tapered_roller", 75.0, 12.5, Some(980.0), 10.0 / 3.0),
        ("spherical_roller", 240.0, 24.0, None, 10.0 / 3.0),
    ] {
        let checked = check(&life_of(family, rating, load, rpm)).unwrap();
        let mrev = f64::powf(rating / load, exponent);
        near(value(&checked, "exponent"), exponent);
        near(value(&checked, "life_mrev"), mrev);
        match rpm {
            Some(rpm) => near(value(&checked, "life_h"), mrev * 1e6 / (60.0 * rpm)),
            None => assert_eq!(value(&checked, "life_h"), None, "{family}"),
        }
    }
}

#[test]
fn what_makes_no_life_is_told_and_a_near_family_is_offered() {
    for (family, rating, load, words) in [
        (
            "deep_groove_bal",
            19.5,
            3.0,
            "did you mean `deep_groove_ball`",
        ),
        ("wheel", 19.5, 3.0, "`wheel` is no family"),
        ("deep_groove_ball", 0.0, 3.0, "above 0 kN"),
        ("deep_groove_ball", 19.5, -1.0, "above 0 kN"),
        ("deep_groove_ball", f64::NAN, 3.0, "above 0 kN"),
    ] {
        let why = format!(
            "{:?}",
            check(&life_of(family, rating, load, None)).unwrap_err()
        );
        assert!(why.contains(words), "{family} {rating} {load}: {why}");
    }
}

#[test]
fn static_safety_below_one_is_against_it() {
    // ISO 76:2006: P0 = 0.6 Fr + 0.5 Fa, not below Fr, for deep groove ball bearings; S0 = C0/P0.
    let of = |rating, radial, axial| {
        check(&CheckKind::Static {
            family: "deep_groove_ball".to_owned(),
            rating,
            radial,
            axial,
            angle: None,
            axial_factor: None,
        })
        .unwrap()
    };
    for (rating, radial, axial) in [(11.2, 4.0, 1.0), (11.2, 4.0, 6.0), (4.0, 4.0, 6.0)] {
        let checked = of(rating, radial, axial);
        let load = f64::max(radial, 0.6 * radial + 0.5 * axial);
        near(value(&checked, "load_kn"), load);
        near(value(&checked, "safety"), rating / load);
        assert_eq!(
            checked.against.is_empty(),
            rating >= load,
            "{rating} {load}"
        );
    }
}

fn ring(
    inside: f64,
    section: f64,
    floor: Option<f64>,
    depth: f64,
    width: Option<f64>,
    duty: &str,
) -> CheckKind {
    CheckKind::Oring {
        inside,
        section,
        floor,
        depth,
        width,
        duty: duty.to_owned(),
    }
}

#[test]
fn an_o_ring_is_stretched_squeezed_and_fills_its_groove() {
    // Stretch and squeeze by their definitions (ISO 3601-2): (floor - inside)/inside and (section - depth)/section, the
    // section being thinner once it is stretched.
    let checked = check(&ring(
        37.69,
        3.53,
        Some(38.1),
        2.87,
        Some(4.6),
        "static_radial",
    ))
    .unwrap();
    near(value(&checked, "stretch_share"), (38.1 - 37.69) / 37.69);
    let section = value(&checked, "section_mm").unwrap();
    assert!(section < 3.53 && section > 3.49, "{section}");
    near(value(&checked, "squeeze_share"), (section - 2.87) / section);
    let fill = std::f64::consts::FRAC_PI_4 * section * section / (2.87 * 4.6);
    near(value(&checked, "fill_share"), fill);
    assert!(checked.against.is_empty(), "{:?}", checked.against);
    // What was not measured is unknown, not zero.
    let less = check(&ring(37.69, 3.53, None, 2.87, None, "static_radial")).unwrap();
    assert_eq!(value(&less, "stretch_share"), None);
    assert_eq!(value(&less, "fill_share"), None);
    let why = check(&ring(37.69, 3.53, None, 2.87, None, "turning"))
        .unwrap_err()
        .to_string();
    assert!(why.contains("`turning` is no duty"), "{why}");
    // No squeeze at all: it cannot seal.
    let loose = check(&ring(
        37.69,
        3.53,
        Some(38.1),
        3.6,
        Some(4.6),
        "static_radial",
    ))
    .unwrap();
    assert!(!loose.against.is_empty());
}

#[test]
fn a_lip_runs_at_the_speed_of_the_shafts_surface() {
    let of = |shaft, rpm, elastomer: Option<&str>| {
        check(&CheckKind::Lip {
            shaft,
            rpm,
            elastomer: elastomer.map(str::to_owned),
        })
        .unwrap()
    };
    for (shaft, rpm) in [(35.0, 1450.0), (80.0, 3000.0), (8.0, 100.0)] {
        let speed = std::f64::consts::PI * shaft * rpm / 60_000.0;
        near(value(&of(shaft, rpm, Some("NBR")), "speed_m_s"), speed);
    }
    let unknown = of(35.0, 1450.0, None);
    assert_eq!(value(&unknown, "limit_m_s"), None);
    assert!(unknown.against.is_empty() && unknown.says.len() == 1);
    // 60 m/s is beyond every elastomer of DIN 3760.
    let fast = of(200.0, 6_000.0, Some("NBR"));
    assert_eq!(fast.against, ["faster than the elastomer stands"]);
}

fn seat_of(seat: &str, measured: Option<f64>, clearance: Option<&str>) -> CheckKind {
    CheckKind::Seat {
        diameter: 25.0,
        seat: seat.to_owned(),
        class: "P0".to_owned(),
        measured,
        uncertainty: Some(4.0),
        clearance: clearance.map(str::to_owned),
        family: None,
        bore: None,
    }
}

#[test]
fn a_seat_by_its_class_has_the_interference_of_the_two_tables() {
    // ISO 286-2: k6 at 25 mm is +2 to +15 um. ISO 492, class Normal: bore of 25 mm is 0 to -10 um.
    let checked = check(&seat_of("k6", None, None)).unwrap();
    near(value(&checked, "least_interference_um"), 2.0);
    near(value(&checked, "greatest_interference_um"), 25.0);
    assert_eq!(value(&checked, "least_clearance_left_um"), None);
    // What was measured takes the place of the class, with its uncertainty.
    let measured = check(&seat_of("k6", Some(25.008), None)).unwrap();
    near(value(&measured, "least_interference_um"), 4.0);
    near(value(&measured, "greatest_interference_um"), 22.0);
    assert!(measured.against.is_empty());
    let worn = check(&seat_of("k6", Some(24.960), None)).unwrap();
    assert!(
        worn.against[0].contains("looser than its class"),
        "{:?}",
        worn.against
    );
    let with = check(&seat_of("k6", None, Some("CN"))).unwrap();
    let (least, greatest) = (
        value(&with, "least_clearance_left_um").unwrap(),
        value(&with, "greatest_clearance_left_um").unwrap(),
    );
    assert!(least < greatest && greatest < 20.0, "{least} {greatest}");
}

#[test]
fn a_seat_that_no_ring_fits_is_a_slip_and_no_finding() {
    // Half a centimetre is no wear: inches, micrometres or another seat.
    for measured in [30.0, 0.984, 25_008.0, 23.9, 26.1] {
        let why = check(&seat_of("k6", Some(measured), None)).unwrap_err();
        let why = why.to_string();
        assert!(why.contains("beside the diameter of 25 mm"), "{why}");
    }
    let why = check(&seat_of("k6", Some(30.0), None))
        .unwrap_err()
        .to_string();
    assert!(why.starts_with("`--measured 30` lies 5 mm beside"), "{why}");
    for worn in [24.1, 24.96, 25.9] {
        assert!(check(&seat_of("k6", Some(worn), None)).is_ok(), "{worn}");
    }
}

#[test]
fn classes_and_groups_that_are_none_are_told() {
    for (kind, words) in [
        (seat_of("zz99", None, None), "no limits here for `zz99`"),
        (
            seat_of("k6", None, Some("C9")),
            "`C9` is no clearance group",
        ),
        (
            CheckKind::Seat {
                diameter: 25.0,
                seat: "k6".to_owned(),
                class: "P99".to_owned(),
                measured: None,
                uncertainty: Some(4.0),
                clearance: None,
                family: None,
                bore: None,
            },
            "`P99` is no tolerance class",
        ),
    ] {
        let why = check(&kind).unwrap_err().to_string();
        assert!(why.contains(words), "{why}");
    }
}

#[test]
fn a_spacer_is_ground_only_by_offsets_measured_under_the_documented_load() {
    let of = |first, second, load, documented, from_widths, arrangement: &str| {
        check(&CheckKind::Spacer {
            first,
            second,
            load,
            uncertainty: 0.5,
            documented,
            documented_load: Some(200.0),
            arrangement: arrangement.to_owned(),
            from_widths,
        })
    };
    let full = |arrangement| {
        of(
            Some(4.0),
            Some(6.0),
            Some(200.0),
            Some(22.0),
            false,
            arrangement,
        )
        .unwrap()
    };
    let (back, face) = (full("DB"), full("df"));
    // The sum of both offsets is 10 um and 22 um are asked for: back to back the inner spacer has to be 12 um shorter, face to
    // face the outer one. 2 um could not be told from the uncertainty.
    for (checked, which) in [(&back, "inner"), (&face, "outer")] {
        near(value(checked, "difference_um"), 12.0);
        let says = checked.says.join(" ");
        assert!(
            says.contains(&format!("{which} spacer 12.0 µm shorter")),
            "{says}"
        );
    }
    assert_ne!(back.says, face.says);
    for unfit in [
        of(Some(4.0), Some(6.0), Some(200.0), Some(22.0), true, "DB"),
        of(None, Some(6.0), Some(200.0), Some(22.0), false, "DB"),
        of(Some(4.0), Some(6.0), None, Some(22.0), false, "DB"),
    ] {
        let checked = unfit.unwrap();
        assert_eq!(value(&checked, "difference_um"), None);
        assert!(
            checked.against[0].starts_with("no amount"),
            "{:?}",
            checked.against
        );
        assert!(!checked.says.is_empty(), "it says how to measure");
    }
    assert!(
        of(None, None, None, None, false, "DT")
            .unwrap_err()
            .to_string()
            .contains("expected DB or DF")
    );
}

#[test]
fn names_are_read_with_their_unit() {
    for (name, value, label, shown) in [
        (
            "life_mrev",
            Some(274.625),
            "life",
            Some(("274.625", "million revolutions")),
        ),
        ("life_h", Some(3_156.609), "life", Some(("3,156.609", "h"))),
        (
            "speed_m_s",
            Some(2.65726),
            "surface speed",
            Some(("2.657", "m/s")),
        ),
        (
            "squeeze_share",
            Some(0.18697),
            "squeeze",
            Some(("18.7", "%")),
        ),
        (
            "least_interference_um",
            Some(-2.0),
            "least interference",
            Some(("-2.000", "µm")),
        ),
        ("section_mm", Some(3.511), "section", Some(("3.511", "mm"))),
        ("load_kn", Some(4.0), "load", Some(("4.000", "kN"))),
        ("safety", Some(2.8), "safety", Some(("2.800", ""))),
        ("fill_share", None, "fill", None),
    ] {
        let read = in_words(name, value);
        let shown = shown.map(|(figure, unit): (&str, &str)| (figure.to_owned(), unit));
        assert_eq!(read, (label.to_owned(), shown), "{name}");
    }
}

#[test]
fn a_check_is_told_in_german_with_a_decimal_comma_and_the_cautions() {
    let checked = check(&life_of("deep_groove_ball", 19.5, 3.0, None)).unwrap();
    let german = crate::language::Language::of_code("de").unwrap();
    let text = as_text(&checked, &mut Translator::new(german));
    assert!(text.contains("274,625 Millionen Umdrehungen"), "{text}");
    assert!(text.contains("unbekannt"), "{text}");
    assert!(
        !text.contains("Caution") && !text.contains("reliability"),
        "{text}"
    );
    let english = as_text(
        &checked,
        &mut Translator::new(crate::language::Language::ENGLISH),
    );
    assert!(english.contains("274.625 million revolutions"), "{english}");
    for caution in caution::FITTING {
        let first = caution.split(' ').next().unwrap();
        assert!(english.contains(&format!("Caution: {first}")), "{english}");
    }
}

#[test]
fn the_json_form_keeps_keys_and_unknowns_in_every_language() {
    let checked = check(&life_of("deep_groove_ball", 19.5, 3.0, None)).unwrap();
    let json = as_json(&checked);
    assert_eq!(json["schema"], SCHEMA);
    assert_eq!(json["check"], "life");
    assert_eq!(json["values"]["life_h"], Value::Null);
    assert!((json["values"]["life_mrev"].as_f64().unwrap() - 274.625).abs() < 1e-9);
    assert!(!json["cautions"].as_array().unwrap().is_empty());
}
