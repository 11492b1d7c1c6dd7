//! Lips of rotary seals and speeds of bearings: arithmetic of the speed, limits of the elastomers, closures.

use proptest::prelude::*;
use sparewright::engineering::{speed_check, speed_factor, surface_speed};
use sparewright::part::Closure;

#[test]
fn a_shaft_runs_under_its_lip_at_pi_times_diameter_and_turns() {
    // Arithmetic: pi d n / 60,000 with d in mm and n in rev/min.
    for (shaft_mm, rpm, m_s) in [
        (40.0, 3_000.0, 6.283_185),
        (100.0, 1_000.0, 5.235_988),
        (60.0, 1_500.0, 4.712_389),
        (19.098_593, 1_000.0, 1.0),
        (25.0, 0.0, 0.0),
        (8.0, 60_000.0, 25.132_741),
    ] {
        let of = surface_speed(shaft_mm, rpm, None);
        assert!(
            (of.speed_m_s - m_s).abs() < 1e-6,
            "{shaft_mm} {rpm}: {}",
            of.speed_m_s
        );
        assert_eq!(
            (of.limit_m_s, of.is_within),
            (None, None),
            "no elastomer, no limit"
        );
    }
}

#[test]
fn each_elastomer_stands_its_speed_and_an_unknown_one_has_none() {
    // DIN 3760, lips without pressure in mineral oil, from memory.
    for (symbol, limit_m_s) in [
        ("NBR", Some(14.0)),
        ("nbr", Some(14.0)),
        ("HNBR", Some(14.0)),
        ("ACM", Some(18.0)),
        ("FKM", Some(35.0)),
        ("VMQ", Some(35.0)),
        ("EPDM", None),
        ("PTFE", None),
        ("rubber", None),
        ("", None),
        ("NBR 70", None),
    ] {
        let of = surface_speed(40.0, 3_000.0, Some(symbol));
        assert_eq!(of.limit_m_s, limit_m_s, "{symbol}");
        assert_eq!(of.is_within, limit_m_s.map(|_| true), "{symbol}");
        // Six times as fast is 37.7 m/s, more than any of them.
        let fast = surface_speed(40.0, 18_000.0, Some(symbol));
        assert_eq!(fast.is_within, limit_m_s.map(|_| false), "{symbol}");
    }
    // At the limit itself a lip still stands.
    let rpm_at = |limit: f64| limit * 60_000.0 / (std::f64::consts::PI * 50.0);
    assert_eq!(
        surface_speed(50.0, rpm_at(14.0) - 0.001, Some("NBR")).is_within,
        Some(true)
    );
    assert_eq!(
        surface_speed(50.0, rpm_at(14.0) + 0.001, Some("NBR")).is_within,
        Some(false)
    );
}

#[test]
fn contact_seals_take_two_fifths_of_the_open_limit_and_nothing_else_does() {
    // Published closure description: contact seals cut the top speed by about 40 %.
    for (closure, is_limit_of_open, limit_rpm) in [
        (None, true, 10_000.0),
        (Some(Closure::Open), true, 10_000.0),
        (Some(Closure::ShieldOneSide), true, 10_000.0),
        (Some(Closure::ShieldBothSides), true, 10_000.0),
        (Some(Closure::SealOneSide), true, 6_000.0),
        (Some(Closure::SealBothSides), true, 6_000.0),
        (Some(Closure::SealOneSide), false, 10_000.0),
        (Some(Closure::SealBothSides), false, 10_000.0),
    ] {
        let of = speed_check(3_000.0, 10_000.0, closure, is_limit_of_open).unwrap();
        assert!((of.limit_rpm - limit_rpm).abs() < 1e-9, "{closure:?}");
        assert!(
            (of.share - 3_000.0 / limit_rpm).abs() < 1e-12,
            "{closure:?}"
        );
        assert!(of.is_within);
        let at = speed_check(limit_rpm, 10_000.0, closure, is_limit_of_open).unwrap();
        assert!(at.is_within, "{closure:?} at its limit");
        let over = speed_check(limit_rpm + 1.0, 10_000.0, closure, is_limit_of_open).unwrap();
        assert!(!over.is_within, "{closure:?} over its limit");
    }
    for bad in [0.0, -1.0, f64::NAN] {
        assert_eq!(speed_check(bad, 10_000.0, None, true), None, "speed {bad}");
        assert_eq!(speed_check(1_000.0, bad, None, true), None, "limit {bad}");
    }
}

#[test]
fn the_speed_factor_is_speed_by_mean_diameter() {
    for (rpm, bore_mm, outside_mm, factor) in [
        (12_000.0, 25.0, 52.0, 462_000.0),
        (3_000.0, 30.0, 62.0, 138_000.0),
        (0.0, 30.0, 62.0, 0.0),
        (1_000.0, 100.0, 215.0, 157_500.0),
    ] {
        assert!((speed_factor(rpm, bore_mm, outside_mm) - factor).abs() < 1e-6);
    }
}

proptest! {
    /// A thicker or a faster shaft is never slower under the lip, and inches give the speed of their millimetres.
    #[test]
    fn surface_speed_goes_with_shaft_and_turns(shaft in 1.0_f64..500.0, rpm in 1.0_f64..20_000.0, more in 1.001_f64..4.0) {
        let of = |shaft, rpm| surface_speed(shaft, rpm, Some("NBR"));
        let here = of(shaft, rpm);
        prop_assert!(of(shaft * more, rpm).speed_m_s > here.speed_m_s);
        prop_assert!(of(shaft, rpm * more).speed_m_s > here.speed_m_s);
        prop_assert!((of(shaft * more, rpm).speed_m_s / of(shaft, rpm * more).speed_m_s - 1.0).abs() < 1e-9);
        // What a faster shaft may do, a slower one may too.
        if of(shaft, rpm * more).is_within == Some(true) {
            prop_assert_eq!(here.is_within, Some(true));
        }
    }
}
