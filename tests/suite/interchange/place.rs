//! Every rule that holds a part against its place: fluid, heat, speed, shoulder, shaft and surroundings.

use sparewright::interchange::{AxialNeed, Fluid, Needs, Verdict, judge};
use sparewright::part::SealForm;

use super::marks::{ball, is_unknown, mark, ring, seal};
use super::subject;

/// Fluids in the order of the columns below.
const FLUIDS: [Fluid; 6] = [
    Fluid::MineralOil,
    Fluid::Fuel,
    Fluid::Water,
    Fluid::Steam,
    Fluid::BrakeFluid,
    Fluid::PhosphateEster,
];

#[test]
fn each_elastomer_fails_in_its_fluids_and_outside_its_temperatures() {
    // Published media lists and ranges for NBR, FKM and EPDM; HNBR, VMQ, ACM and CR from memory.
    for (symbol, fluids, lowest_c, highest_c) in [
        ("NBR", "===xxx", -30.0, 100.0),
        ("HNBR", "====xx", -30.0, 150.0),
        ("FKM", "===xxx", -20.0, 200.0),
        ("EPDM", "xx====", -45.0, 130.0),
        ("VMQ", "=x=xx=", -55.0, 200.0),
        ("ACM", "=xxxxx", -20.0, 150.0),
        ("CR", "=x=x=x", -40.0, 100.0),
    ] {
        let asked = |needs: Needs| {
            let mut want = seal(SealForm::A, symbol);
            want.needs = needs;
            mark(&judge(&want, &seal(SealForm::A, symbol)), "elastomer")
        };
        let marks: String = FLUIDS
            .iter()
            .map(|fluid| {
                asked(Needs {
                    fluid: Some(*fluid),
                    ..Needs::default()
                })
            })
            .collect();
        assert_eq!(marks, fluids, "{symbol}");
        let at = |lowest_c, highest_c| {
            asked(Needs {
                lowest_c,
                highest_c,
                ..Needs::default()
            })
        };
        assert_eq!(at(None, Some(highest_c)), '=', "{symbol} at {highest_c}");
        assert_eq!(
            at(None, Some(highest_c + 1.0)),
            'x',
            "{symbol} above {highest_c}"
        );
        assert_eq!(at(Some(lowest_c), None), '=', "{symbol} at {lowest_c}");
        assert_eq!(
            at(Some(lowest_c - 1.0), None),
            'x',
            "{symbol} below {lowest_c}"
        );
    }
}

#[test]
fn elastomers_that_stand_what_is_asked_are_named_where_the_part_states_none() {
    for (fluid, highest_c, named, not_named) in [
        (
            Fluid::Steam,
            Some(120.0),
            &["EPDM", "HNBR"][..],
            &["FKM", "CR"][..],
        ),
        (Fluid::Fuel, Some(180.0), &["FKM"], &["NBR", "VMQ"]),
        (Fluid::BrakeFluid, None, &["EPDM"], &["NBR", "FKM"]),
        (
            Fluid::PhosphateEster,
            Some(250.0),
            &["no common elastomer"],
            &["EPDM"],
        ),
    ] {
        let mut want = seal(SealForm::A, "NBR");
        want.needs = Needs {
            fluid: Some(fluid),
            highest_c,
            ..Needs::default()
        };
        let mut have = seal(SealForm::A, "NBR");
        have.traits.material = None;
        let checks = judge(&want, &have).checks.join("; ");
        for word in named {
            assert!(checks.contains(word), "{fluid:?}: {checks}");
        }
        for word in not_named {
            assert!(!checks.contains(word), "{fluid:?}: {checks}");
        }
    }
}

#[test]
fn heat_breaks_polyamide_cages_and_nitrile_seals_above_their_limits() {
    // Published closure description: nitrile to 110 °C. Polyamide and rings that are not stabilised to about 120 °C:
    // common practice, from memory.
    for (name, cage, material, highest_c, expected) in [
        ("6305", None, None, 110.0, '='),
        ("6305-2RS", None, None, 110.0, '='),
        ("6305-2RS", None, None, 110.5, 'x'),
        ("6305-2RS", None, Some("HNBR"), 150.0, '='),
        ("6305-2RS", None, Some("HNBR"), 151.0, 'x'),
        ("6305-2RS", None, Some("FKM"), 231.0, 'x'),
        ("6305-RS", None, None, 130.0, 'x'),
        ("6305-2RS", None, Some("FKM"), 130.0, '='),
        ("6305-2Z", None, None, 130.0, '='),
        ("6305", Some("TN9"), None, 120.0, '='),
        ("6305", Some("TN9"), None, 120.5, 'x'),
        ("6305", Some("M"), None, 200.0, '='),
    ] {
        let mut part = subject(name);
        part.traits.cage = cage.map(str::to_owned);
        part.traits.material = material.map(str::to_owned);
        let mut want = part.clone();
        want.needs.highest_c = Some(highest_c);
        let judgement = judge(&want, &part);
        assert_eq!(
            mark(&judgement, "heat"),
            expected,
            "{name} at {highest_c}: {judgement:?}"
        );
    }
}

#[test]
fn a_lip_wants_a_shaft_of_45_hrc() {
    // Public notes citing DIN 3760 and ISO 6194-1.
    for (hrc, expected) in [(45.0, '='), (60.0, '='), (44.5, 'c'), (20.0, 'c')] {
        let part = seal(SealForm::A, "NBR");
        let mut want = part.clone();
        want.needs.shaft_hrc = Some(hrc);
        let judgement = judge(&want, &part);
        assert_eq!(mark(&judgement, "shaft hardness"), expected, "{hrc} HRC");
    }
}

#[test]
fn rings_are_checked_for_stabilising_above_120_degrees_only() {
    for (variant, highest_c, is_checked) in [
        (None, 120.0, false),
        (None, 121.0, true),
        (Some("dimensionally stabilised S1"), 150.0, false),
        // DIN 623-1, from memory: S0 150, S1 200, S2 250, S3 300, S4 350 °C; a grade that is not told is none.
        (Some("dimensionally stabilised (S0)"), 150.0, false),
        (Some("dimensionally stabilised (S0)"), 151.0, true),
        (Some("dimensionally stabilised (S1)"), 200.0, false),
        (
            Some("dimensionally stabilised (S3), stainless"),
            300.0,
            false,
        ),
        (
            Some("stainless, dimensionally stabilised (S3)"),
            301.0,
            true,
        ),
        (Some("dimensionally stabilised"), 130.0, true),
    ] {
        let mut part = ball();
        part.traits.variant = variant.map(str::to_owned);
        let mut want = part.clone();
        want.needs.highest_c = Some(highest_c);
        let judgement = judge(&want, &part);
        let found = judgement
            .checks
            .iter()
            .any(|check| check.contains("rings stabilised"));
        assert_eq!(
            found, is_checked,
            "{variant:?} at {highest_c}: {judgement:?}"
        );
    }
}

#[test]
fn speed_is_held_against_the_limit_and_unknown_limits_are_checked() {
    for (limit_rpm, speed_rpm, expected) in [
        (Some(9_000.0), 3_000.0, Verdict::AsItIs),
        (Some(9_000.0), 12_000.0, Verdict::MustNot),
        (None, 3_000.0, Verdict::AfterChecks),
    ] {
        let mut part = ball();
        part.speed_limit_rpm = limit_rpm;
        let mut want = part.clone();
        want.needs.speed_rpm = Some(speed_rpm);
        assert_eq!(
            judge(&want, &part).verdict,
            expected,
            "{limit_rpm:?} at {speed_rpm}"
        );
    }
}

#[test]
fn lip_speed_is_the_circumference_times_the_revolutions() {
    // v = pi d n / 60000: 40 mm at 3000 rev/min 6.28 m/s, at 9000 rev/min 18.8 m/s; DIN 3760 limits from memory.
    for (material, speed_rpm, expected, words) in [
        ("NBR", 3_000.0, '=', "6.3 m/s"),
        ("NBR", 9_000.0, 'x', "18.8 m/s"),
        ("FKM", 9_000.0, '=', "18.8 m/s"),
    ] {
        let part = seal(SealForm::A, material);
        let mut want = part.clone();
        want.needs.speed_rpm = Some(speed_rpm);
        let judgement = judge(&want, &part);
        assert_eq!(
            mark(&judgement, "lip speed"),
            expected,
            "{material}: {judgement:?}"
        );
        let said = format!("{judgement:?}");
        assert!(said.contains(words), "{material} at {speed_rpm}: {said}");
    }
}

/// DIN 3760 limits from memory: NBR stands 14 m/s, FKM 35 m/s. Of EPDM no limit is known here.
#[test]
fn a_speed_under_the_lip_is_compared_as_it_is_told() {
    for (material, lip_m_s, expected) in [
        ("NBR", 20.0, 'x'),
        ("NBR", 12.5, '='),
        ("FKM", 20.0, '='),
        ("EPDM", 20.0, 'c'),
    ] {
        let part = seal(SealForm::A, material);
        let mut want = part.clone();
        want.needs.lip_m_s = Some(lip_m_s);
        let judgement = judge(&want, &part);
        let words = format!("{lip_m_s:.1} m/s at the lip");
        let is_differing = judgement.differs.iter().any(|of| of.want == words);
        let is_checked = judgement.checks.iter().any(|check| check.contains(&words));
        let is_agreed = judgement.agrees.iter().any(|of| of.contains(&words));
        assert_eq!(
            (is_differing, is_checked, is_agreed),
            (expected == 'x', expected == 'c', expected == '='),
            "{material}: {judgement:?}"
        );
    }
}

#[test]
fn a_chamfer_must_be_larger_than_the_fillet() {
    // ISO 582, from memory: the smallest chamfer of the ring clears the fillet of the shoulder.
    for (fillet_mm, want_mm, have_mm, expected, unknown) in [
        (Some(1.0), None, Some(1.1), '=', false),
        (Some(1.0), None, Some(1.0), 'x', false),
        (Some(1.0), None, Some(0.6), 'x', false),
        (Some(1.0), Some(1.1), None, '=', true),
        (None, Some(1.1), Some(1.1), '=', false),
        (None, Some(1.1), Some(1.5), '=', false),
        (None, Some(1.1), Some(1.0), 'c', false),
        (None, None, Some(1.0), '=', false),
        (None, Some(1.1), None, '=', false),
    ] {
        let (mut want, mut have) = (ball(), ball());
        (want.needs.fillet_mm, want.chamfer_mm) = (fillet_mm, want_mm);
        have.chamfer_mm = have_mm;
        let judgement = judge(&want, &have);
        let case = (fillet_mm, want_mm, have_mm);
        assert_eq!(
            mark(&judgement, "chamfer"),
            expected,
            "{case:?}: {judgement:?}"
        );
        assert_eq!(is_unknown(&judgement, "chamfer"), unknown, "{case:?}");
    }
}

#[test]
fn what_holds_the_shaft_is_judged_by_its_type() {
    // DIN 5412-1 and ISO 246, from memory; types of IS 6457:1972; published type descriptions.
    // Columns: must float, must hold one way, must hold both ways.
    for (name, expected) in [
        ("6305", "c=="),
        ("1205", "c=="),
        // A spherical roller bearing floats like a ball bearing, one ring loose: common practice, no source.
        ("22208", "c=="),
        ("7205B", "x=x"),
        ("30205", "x=x"),
        ("NU205", "=xx"),
        ("N205", "=xx"),
        ("NJ205", "x=x"),
        ("NUP205", "x=="),
        ("NA4905", "=xx"),
        ("HK0810", "=xx"),
        ("51205", "x=x"),
    ] {
        let mut part = subject(name);
        part.confidence = None;
        let marks: String = [AxialNeed::Floats, AxialNeed::OneWay, AxialNeed::BothWays]
            .into_iter()
            .map(|need| {
                let mut want = part.clone();
                want.needs.axial = Some(need);
                mark(&judge(&want, &part), "axial need")
            })
            .collect();
        assert_eq!(marks, expected, "{name}");
    }
}

#[test]
fn needles_on_the_shaft_want_it_hard() {
    // Published description (hardened, ground); 58 HRC is a handbook value, from memory.
    for (name, hrc, expected) in [
        ("HK0810", 58.0, '='),
        ("HK0810", 57.5, 'x'),
        ("RNA4905", 40.0, 'x'),
        ("K8x12x10", 62.0, '='),
        ("NA4905", 20.0, '='),
        ("6305", 20.0, '='),
    ] {
        let mut part = subject(name);
        part.confidence = None;
        let mut want = part.clone();
        want.needs.shaft_hrc = Some(hrc);
        assert_eq!(
            mark(&judge(&want, &part), "shaft hardness"),
            expected,
            "{name} on {hrc} HRC"
        );
    }
}

#[test]
fn dirt_wants_a_dust_lip() {
    // DIN 3760 and DIN 3761-2: forms with S have the lip.
    use SealForm::{A, As, B, Bs, C, Cs};
    for (form, expected) in [
        (A, 'x'),
        (B, 'x'),
        (C, 'x'),
        (As, '='),
        (Bs, '='),
        (Cs, '='),
    ] {
        let part = seal(form, "NBR");
        let mut want = part.clone();
        want.needs.is_dirty = true;
        assert_eq!(mark(&judge(&want, &part), "dust lip"), expected, "{form}");
    }
    let mut part = seal(A, "NBR");
    part.traits.seal_form = None;
    let mut want = part.clone();
    want.needs.is_dirty = true;
    assert!(is_unknown(&judge(&want, &part), "dust lip"));
}

#[test]
fn misalignment_wants_a_self_aligning_type() {
    // Handbook practice, from memory.
    for (name, expected) in [
        ("6305", 'x'),
        ("7205B", 'x'),
        ("NU205", 'x'),
        ("30205", 'x'),
        ("1205", '='),
        ("22208", '='),
        ("51205", '='),
    ] {
        let mut part = subject(name);
        part.confidence = None;
        let mut want = part.clone();
        want.needs.is_misaligned = true;
        assert_eq!(
            mark(&judge(&want, &part), "misalignment"),
            expected,
            "{name}"
        );
    }
}

#[test]
fn surroundings_ask_for_their_variant_and_are_checked_without_it() {
    type Ask = fn(&mut Needs);
    let cases: [(Ask, &str, &[&str]); 3] = [
        (
            |needs| needs.has_inverter = true,
            "inverter",
            &["current insulated", "hybrid"],
        ),
        (|needs| needs.is_food = true, "food", &["food-grade grease"]),
        (
            |needs| needs.is_corrosive = true,
            "stainless",
            &["stainless"],
        ),
    ];
    for (ask, word, variants) in cases {
        let is_checked = |variant: Option<&str>| {
            let mut part = ball();
            part.traits.variant = variant.map(str::to_owned);
            let mut want = part.clone();
            ask(&mut want.needs);
            let judgement = judge(&want, &part);
            judgement.checks.iter().any(|check| check.contains(word))
        };
        assert!(is_checked(None), "{word}");
        for variant in variants {
            assert!(!is_checked(Some(variant)), "{word}: {variant}");
        }
    }
}

#[test]
fn pressure_bars_plain_lips_and_soft_rings() {
    // DIN 3760 covers seals without pressure (about 0.3 bar), from memory; 90 Shore A above 100 bar is common practice.
    for (bar, variant, expected) in [
        (0.3, None, '='),
        (0.31, None, 'x'),
        (5.0, None, 'x'),
        (5.0, Some("pressure profile"), '='),
    ] {
        let mut part = seal(SealForm::A, "NBR");
        part.traits.variant = variant.map(str::to_owned);
        let mut want = part.clone();
        want.needs.pressure_bar = Some(bar);
        assert_eq!(
            mark(&judge(&want, &part), "pressure"),
            expected,
            "{bar} bar, {variant:?}"
        );
    }
    for (bar, hardness, expected, unknown) in [
        (100.0, Some("70 Shore A"), '=', false),
        (101.0, Some("70 Shore A"), 'c', false),
        (80.0, Some("60 Shore A"), 'c', false),
        (80.0, Some("70 Shore A"), '=', false),
        (30.0, Some("50 Shore A"), '=', false),
        (30.0, None, '=', false),
        (30.5, None, '=', true),
        (101.0, Some("90 Shore A"), '=', false),
        (101.0, None, '=', true),
    ] {
        let part = ring("NBR", hardness);
        let mut want = part.clone();
        want.needs.pressure_bar = Some(bar);
        let judgement = judge(&want, &part);
        assert_eq!(
            mark(&judgement, "hardness"),
            expected,
            "{bar} bar, {hardness:?}"
        );
        assert_eq!(
            is_unknown(&judgement, "pressure"),
            unknown,
            "{bar} bar, {hardness:?}"
        );
    }
}
