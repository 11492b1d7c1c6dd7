//! Static safety: equivalent loads of ISO 76, families without factors, directions of the axial force.

use proptest::prelude::*;
use sparewright::engineering::{angular_static_safety, static_safety};
use sparewright::part::Family;

#[test]
fn equivalent_loads_and_safeties_are_those_of_iso_76() {
    // ISO 76: P0 = X0 Fr + Y0 Fa, at least Fr; X0 0.6 and Y0 0.5 for deep groove bearings, from memory; 6205 with C0 7.8 kN
    // by Mott, table 14-3.
    for (rating_kn, radial_kn, axial_kn, load_kn, safety) in [
        (7.8, 3.0, 2.0, 3.0, 2.6),
        (7.8, 3.0, 0.0, 3.0, 2.6),
        (7.8, 0.0, 3.0, 1.5, 5.2),
        (7.2, 1.0, 6.0, 3.6, 2.0),
        // The two rules meet where 0.5 Fa = 0.4 Fr.
        (10.0, 5.0, 4.0, 5.0, 2.0),
        (10.0, 5.0, 4.002, 5.001, 1.999_6),
        (10.0, 5.0, 3.998, 5.0, 2.0),
        (5.0, 10.0, 0.0, 10.0, 0.5),
    ] {
        let of = static_safety(Family::DeepGrooveBall, rating_kn, radial_kn, axial_kn).unwrap();
        assert!(
            (of.load_kn - load_kn).abs() < 1e-9,
            "{radial_kn} {axial_kn}: {of:?}"
        );
        assert!(
            (of.safety - safety).abs() < 1e-6,
            "{radial_kn} {axial_kn}: {of:?}"
        );
    }
}

#[test]
fn the_axial_force_counts_from_either_side() {
    // A deep groove bearing carries axial force both ways, alike (ISO 76: amounts of the forces).
    for (radial_kn, axial_kn) in [(1.0, 6.0), (3.0, 2.0), (0.0, 3.0), (2.0, 40.0)] {
        let there = static_safety(Family::DeepGrooveBall, 7.8, radial_kn, axial_kn);
        let back = static_safety(Family::DeepGrooveBall, 7.8, radial_kn, -axial_kn);
        let turned = static_safety(Family::DeepGrooveBall, 7.8, -radial_kn, axial_kn);
        assert!(there.is_some());
        assert_eq!(there, back, "{radial_kn} {axial_kn}");
        assert_eq!(there, turned, "{radial_kn} {axial_kn}");
    }
}

#[test]
fn families_carry_what_they_are_made_for_and_else_nothing_is_said() {
    for (code, radial_kn, axial_kn, load_kn) in [
        ("cylindrical_roller", 4.0, 0.0, Some(4.0)),
        ("cylindrical_roller", 4.0, 0.1, None),
        ("cylindrical_roller", 0.0, 0.0, None),
        ("cylindrical_roller", 0.0, 2.0, None),
        ("thrust_ball", 0.0, 2.0, Some(2.0)),
        ("thrust_ball", 0.1, 2.0, None),
        ("thrust_ball", 0.0, 0.0, None),
        ("angular_contact_ball", 1.0, 1.0, None),
        // ISO 76, from memory: P0 is Fr without an axial load, whose factor the data sheet has.
        ("angular_contact_ball", 1.0, 0.0, Some(1.0)),
        ("self_aligning_ball", 1.0, 0.0, Some(1.0)),
        ("self_aligning_ball", 1.0, 0.1, None),
        ("tapered_roller", 1.0, 0.0, Some(1.0)),
        ("tapered_roller", 1.0, 0.1, None),
        ("spherical_roller", 1.0, 0.0, Some(1.0)),
        ("spherical_roller", 1.0, 0.1, None),
        // ISO 76, from memory: radial roller bearings of 0° carry P0 = Fr.
        ("needle_roller", 1.0, 0.0, Some(1.0)),
        ("needle_roller", 1.0, 0.1, None),
        ("needle_roller_no_inner_ring", 2.5, 0.0, Some(2.5)),
        ("drawn_cup_needle", 10.0, 0.0, Some(10.0)),
        ("drawn_cup_needle", 0.0, 1.0, None),
        ("needle_cage", 1.0, 0.0, None),
        ("lip_seal", 1.0, 0.0, None),
        ("o_ring", 1.0, 0.0, None),
    ] {
        let family = Family::from_code(code).unwrap_or_else(|| panic!("{code}"));
        let found = static_safety(family, 20.0, radial_kn, axial_kn).map(|of| of.load_kn);
        assert_eq!(found, load_kn, "{code} {radial_kn} {axial_kn}");
    }
}

#[test]
fn contact_angles_have_factors_of_their_own() {
    // ISO 76, from memory: X0 0.5, Y0 by the angle, P0 at least Fr; arithmetic by hand.
    for (angle_deg, radial_kn, axial_kn, load_kn) in [
        (15, 2.0, 10.0, Some(5.6)),
        (20, 2.0, 10.0, Some(5.2)),
        (25, 2.0, 10.0, Some(4.8)),
        (30, 2.0, 10.0, Some(4.3)),
        (35, 2.0, 10.0, Some(3.9)),
        (40, 2.0, 10.0, Some(3.6)),
        (40, 2.0, -10.0, Some(3.6)),
        (40, 4.0, 1.0, Some(4.0)),
        (40, 4.0, 0.0, Some(4.0)),
        (40, 0.0, 10.0, Some(2.6)),
        (40, 0.0, 0.0, None),
        (12, 2.0, 10.0, None),
        (0, 2.0, 10.0, None),
        (40, f64::NAN, 1.0, None),
        (40, 1.0, f64::INFINITY, None),
    ] {
        let of = angular_static_safety(angle_deg, 20.0, radial_kn, axial_kn);
        let case = format!("{angle_deg}° {radial_kn} {axial_kn}: {of:?}");
        match (of, load_kn) {
            (Some(of), Some(load_kn)) => {
                assert!((of.load_kn - load_kn).abs() < 1e-9, "{case}");
                assert!((of.safety - 20.0 / load_kn).abs() < 1e-9, "{case}");
            }
            (of, load_kn) => assert_eq!(of.map(|of| of.load_kn), load_kn, "{case}"),
        }
    }
    assert_eq!(angular_static_safety(40, 0.0, 2.0, 1.0), None);
    assert_eq!(angular_static_safety(40, f64::NAN, 2.0, 1.0), None);
}

#[test]
fn without_a_rating_or_a_load_there_is_no_safety() {
    let ball = Family::DeepGrooveBall;
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(static_safety(ball, bad, 1.0, 0.0), None, "rating {bad}");
    }
    for bad in [f64::NAN, f64::INFINITY] {
        assert_eq!(static_safety(ball, 7.8, bad, 0.0), None, "radial {bad}");
        assert_eq!(static_safety(ball, 7.8, 1.0, bad), None, "axial {bad}");
    }
    assert_eq!(static_safety(ball, 7.8, 0.0, 0.0), None);
}

proptest! {
    /// More force never makes a bearing safer, and twice the forces halve the safety.
    #[test]
    fn safety_never_grows_with_a_force(
        rating in 0.5_f64..500.0,
        radial in 0.01_f64..100.0,
        axial in 0.0_f64..100.0,
        more in 0.0_f64..50.0,
    ) {
        let of = |radial, axial| static_safety(Family::DeepGrooveBall, rating, radial, axial).unwrap();
        let here = of(radial, axial);
        prop_assert!(of(radial + more, axial).safety <= here.safety + 1e-12);
        prop_assert!(of(radial, axial + more).safety <= here.safety + 1e-12);
        prop_assert!(here.load_kn >= radial - 1e-12);
        prop_assert!((of(2.0 * radial, 2.0 * axial).safety * 2.0 / here.safety - 1.0).abs() < 1e-9);
    }
}
