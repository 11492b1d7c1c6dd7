//! Nothing that is asked for is passed over: each need is judged, or a check says that it was not.

use sparewright::interchange::{AxialNeed, Fluid, Needs, Turning, Verdict, judge};
use sparewright::part::SealForm;

use super::marks::{ring, seal};
use super::subject;

/// Everything a place may ask for, one at a time, with a figure that nothing fails at.
fn each_need() -> Vec<Needs> {
    let none = Needs::default;
    vec![
        Needs {
            fluid: Some(Fluid::MineralOil),
            ..none()
        },
        Needs {
            highest_c: Some(60.0),
            ..none()
        },
        Needs {
            lowest_c: Some(-5.0),
            ..none()
        },
        Needs {
            speed_rpm: Some(10.0),
            ..none()
        },
        Needs {
            pressure_bar: Some(0.1),
            ..none()
        },
        Needs {
            axial: Some(AxialNeed::Floats),
            ..none()
        },
        Needs {
            fillet_mm: Some(0.3),
            ..none()
        },
        Needs {
            shaft_hrc: Some(60.0),
            ..none()
        },
        Needs {
            is_dirty: true,
            ..none()
        },
        Needs {
            is_misaligned: true,
            ..none()
        },
        Needs {
            has_inverter: true,
            ..none()
        },
        Needs {
            is_food: true,
            ..none()
        },
        Needs {
            is_corrosive: true,
            ..none()
        },
        Needs {
            turning: Some(Turning::OuterRing),
            ..none()
        },
        Needs {
            has_radial_load: true,
            ..none()
        },
        Needs {
            has_shocks: true,
            ..none()
        },
    ]
}

#[test]
fn every_need_leaves_its_trace_on_every_kind_of_part() {
    let mut parts: Vec<_> = [
        "6305",
        "6305-2RS",
        "7205B",
        "NU205",
        "30205",
        "22208",
        "NA4905",
        "RNA4905",
        "HK0810",
        "K8x12x10",
        "51205",
        "KM8",
        "DIN 471 - 40",
        "ISO 8734-6x20-A",
    ]
    .into_iter()
    .map(subject)
    .collect();
    parts.push(seal(SealForm::As, "NBR"));
    parts.push(ring("NBR", None));
    for part in parts {
        let traces = |needs: Needs| {
            let mut want = part.clone();
            want.needs = needs;
            let of = judge(&want, &part);
            let told = of.agrees.len() + of.differs.len() + of.unknown.len() + of.checks.len();
            (told, format!("{:?}", of.checks))
        };
        let (plain, _) = traces(Needs::default());
        for needs in each_need() {
            let asked = format!("{} with {needs:?}", part.label);
            assert_eq!(needs.asked().len(), 1, "{asked}");
            let (told, checks) = traces(needs);
            assert!(told > plain, "{asked}: {checks}");
        }
    }
}

#[test]
fn what_no_rule_looks_at_is_a_check_that_names_it() {
    for (name, needs, words) in [
        (
            "KM8",
            Needs {
                highest_c: Some(400.0),
                ..Needs::default()
            },
            "heat of 400 °C",
        ),
        (
            "KM8",
            Needs {
                lowest_c: Some(-45.5),
                ..Needs::default()
            },
            "cold of -45.5 °C",
        ),
        (
            "6305",
            Needs {
                pressure_bar: Some(5.0),
                ..Needs::default()
            },
            "pressure of 5 bar",
        ),
        (
            "DIN 471 - 40",
            Needs {
                speed_rpm: Some(12_000.0),
                ..Needs::default()
            },
            "speed of 12000 rev/min",
        ),
        (
            "KM8",
            Needs {
                is_corrosive: true,
                ..Needs::default()
            },
            "water, washing or acid",
        ),
        (
            "51205",
            Needs {
                is_misaligned: true,
                ..Needs::default()
            },
            "misalignment",
        ),
        (
            "KM8",
            Needs {
                axial: Some(AxialNeed::Floats),
                ..Needs::default()
            },
            "must float",
        ),
        (
            "KM8",
            Needs {
                turning: Some(Turning::OuterRing),
                ..Needs::default()
            },
            "an outer ring that turns",
        ),
        (
            "KM8",
            Needs {
                has_shocks: true,
                ..Needs::default()
            },
            "shocks and vibration",
        ),
        (
            "6305",
            Needs {
                lip_m_s: Some(8.0),
                ..Needs::default()
            },
            "speed under a lip of 8 m/s",
        ),
    ] {
        let part = subject(name);
        let mut want = part.clone();
        want.needs = needs;
        let judgement = judge(&want, &part);
        let expected = format!("asked for, and not looked at: {words}");
        assert!(
            judgement.checks.contains(&expected),
            "{name}: {judgement:?}"
        );
        assert_eq!(judgement.verdict, Verdict::AfterChecks, "{name}: {words}");
        // Nobody asked for anything: nothing is said of it.
        let plain = judge(&part, &part);
        assert!(!plain.checks.contains(&expected), "{name}: {plain:?}");
    }
    // What is barred anyhow is not asked about.
    let mut want = subject("6305");
    want.needs.pressure_bar = Some(5.0);
    let other = judge(&want, &subject("6306"));
    assert!(
        !other.before_fitting().contains("not looked at"),
        "{other:?}"
    );
}

#[test]
fn marks_that_a_type_does_not_have_are_a_check() {
    type Mark = fn(&mut sparewright::part::Traits);
    let cases: [(&str, Mark, &str); 3] = [
        (
            "6305",
            |traits| traits.hardness = Some("70 Shore A".to_owned()),
            "70 Shore A",
        ),
        ("KM8", |traits| traits.rows = Some(2), "rows 2"),
        (
            "6305",
            |traits| traits.variant = Some("ribs for left-hand rotation".to_owned()),
            "ribs for left-hand rotation",
        ),
    ];
    for (name, set, words) in cases {
        let mut part = subject(name);
        set(&mut part.traits);
        let judgement = judge(&part, &part);
        let expected = format!("asked for, and not looked at: {words}");
        assert!(
            judgement.checks.contains(&expected),
            "{name}: {judgement:?}"
        );
        assert_eq!(judgement.verdict, Verdict::AfterChecks, "{name}");
        assert_eq!(judgement.differs, Vec::new(), "{name}");
    }
    // Rubber has its hardness, and a lip seal its ribs.
    let mut lip = seal(SealForm::A, "NBR");
    lip.traits.variant = Some("ribs for left-hand rotation".to_owned());
    lip.traits.hardness = Some("70 Shore A".to_owned());
    assert_eq!(judge(&lip, &lip).verdict, Verdict::AsItIs);
}

/// DIN 623-1: Z and RS on one side, 2Z and 2RS on both. Which it was is unknown, and unknown is equal to neither.
#[test]
fn a_closure_on_unknown_sides_is_a_check_and_nothing_open_stands_in() {
    use sparewright::part::ClosedBy::{ContactSeal, Shield};
    for (by, have, verdict) in [
        (Shield, "6305-2Z", Verdict::AfterChecks),
        (Shield, "6305-Z", Verdict::AfterChecks),
        (Shield, "6305-2RS", Verdict::AfterChecks),
        (Shield, "6305", Verdict::MustNot),
        (ContactSeal, "6305-2RS", Verdict::AfterChecks),
        (ContactSeal, "6305-Z", Verdict::AfterChecks),
        (ContactSeal, "6305", Verdict::MustNot),
    ] {
        let mut want = subject("6305");
        want.traits.closure = None;
        want.needs.closed_by = Some(by);
        let judgement = judge(&want, &subject(have));
        assert_eq!(judgement.verdict, verdict, "{by:?} {have}");
        let is_told = judgement
            .unknown
            .iter()
            .any(|text| text.contains("how many sides"));
        assert_eq!(is_told, verdict == Verdict::AfterChecks, "{by:?} {have}");
    }
}

/// Published type descriptions, from memory: deep groove, self-aligning and spherical bearings carry load across the shaft first.
#[test]
fn a_load_along_the_shaft_alone_is_a_check_of_bearings_for_radial_load() {
    for (have, is_checked) in [
        ("6305", true),
        ("1205", true),
        ("22208", true),
        ("7206 B", false),
        ("51105", false),
    ] {
        let mut want = subject(have);
        want.needs.axial = Some(AxialNeed::OneWay);
        want.needs.is_axial_alone = true;
        let judgement = judge(&want, &subject(have));
        let is_told = judgement
            .checks
            .iter()
            .any(|check| check.contains("static rating"));
        assert_eq!(is_told, is_checked, "{have}: {judgement:?}");
        let is_missed = judgement
            .checks
            .iter()
            .any(|check| check.contains("not looked at"));
        assert!(!is_missed, "{have}: {judgement:?}");
    }
}
