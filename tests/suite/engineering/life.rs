//! Basic rating life: textbook problems, refusals, and what holds at any load and speed (ISO 281).

use proptest::prelude::*;
use sparewright::engineering::{
    LifeRatio, basic_rating_life_h, basic_rating_life_mrev, life_exponent, life_ratio,
    reliability_factor, required_rating_kn,
};
use sparewright::part::{Family, LoadRatings};

fn ratings(dynamic_kn: f64, source: Option<&str>) -> LoadRatings {
    LoadRatings {
        dynamic_kn: Some(dynamic_kn),
        static_kn: None,
        source: source.map(str::to_owned),
    }
}

#[test]
fn the_exponent_is_three_for_balls_and_ten_thirds_for_rollers() {
    // ISO 281, 5.1.3 and 6.1.3: p = 3 for ball bearings, p = 10/3 for roller bearings.
    for (code, exponent) in [
        ("deep_groove_ball", 3.0),
        ("angular_contact_ball", 3.0),
        ("self_aligning_ball", 3.0),
        ("thrust_ball", 3.0),
        ("cylindrical_roller", 10.0 / 3.0),
        ("tapered_roller", 10.0 / 3.0),
        ("spherical_roller", 10.0 / 3.0),
        ("needle_roller", 10.0 / 3.0),
        ("needle_roller_no_inner_ring", 10.0 / 3.0),
        ("drawn_cup_needle", 10.0 / 3.0),
        ("needle_cage", 10.0 / 3.0),
        ("thrust_needle", 10.0 / 3.0),
    ] {
        let family = Family::from_code(code).unwrap_or_else(|| panic!("{code}"));
        assert!((life_exponent(family) - exponent).abs() < 1e-12, "{code}");
    }
}

#[test]
fn lives_in_revolutions_are_powers_of_the_load() {
    // Arithmetic on (C/P)^p.
    for (rating_kn, load_kn, exponent, mrev) in [
        (10.0, 10.0, 3.0, 1.0),
        (10.0, 5.0, 3.0, 8.0),
        (10.0, 2.0, 3.0, 125.0),
        (10.0, 1.0, 3.0, 1_000.0),
        (10.0, 20.0, 3.0, 0.125),
        (10.0, 10.0, 10.0 / 3.0, 1.0),
        (10.0, 1.0, 10.0 / 3.0, 2_154.434_69),
        (80.0, 10.0, 10.0 / 3.0, 1_024.0),
        (2.757, 2.757, 10.0 / 3.0, 1.0),
    ] {
        let found = basic_rating_life_mrev(rating_kn, load_kn, exponent).unwrap();
        assert!(
            (found - mrev).abs() <= 1e-8 * mrev,
            "{rating_kn}/{load_kn}: {found}"
        );
    }
}

#[test]
fn lives_in_hours_are_those_of_public_problems() {
    for (rating_kn, load_kn, rpm, hours, within, source) in [
        (
            30.0,
            3.0,
            1_500.0,
            11_111.1,
            0.1,
            "public calculator page: about 11,100 h",
        ),
        (
            30.0,
            4.0,
            1_500.0,
            4_687.5,
            0.1,
            "public calculator page: 4700 h",
        ),
        (
            19.5,
            5.34,
            400.0,
            2_029.0,
            3.0,
            "public course solution, 19.5 kN and 5.34 kN",
        ),
        (
            133.0,
            12.322,
            1_500.0,
            13_972.0,
            30.0,
            "Faires, Design of Machine Elements, problem 601b: 14000 h",
        ),
        (
            10.0,
            10.0,
            33.333_333_3,
            500.0,
            0.01,
            "ISO 281: a million revolutions are 500 h at 33 1/3 rev/min",
        ),
    ] {
        let found = basic_rating_life_h(rating_kn, load_kn, 3.0, rpm).unwrap();
        assert!((found - hours).abs() <= within, "{source}: {found}");
    }
}

#[test]
fn the_rating_that_a_life_asks_for_is_that_of_the_books() {
    for (load_kn, mrev, exponent, rating_kn, within, source) in [
        (
            11.743,
            1_350.0,
            3.0,
            129.79,
            0.05,
            "Faires, problem 601a: 29178 lb",
        ),
        (
            6.351,
            288.0,
            3.0,
            41.941,
            0.001,
            "Mott, Machine Elements in Mechanical Design, chapter 14",
        ),
        (5.122, 288.0, 3.0, 33.825, 0.001, "Mott, chapter 14"),
        (
            2.278,
            540.0,
            3.0,
            18.55,
            0.05,
            "Shigley's, 11-1: 18.59 kN by its Weibull form",
        ),
        (
            10.279,
            1_440.0,
            10.0 / 3.0,
            91.1,
            0.05,
            "Shigley's, 11-3: 91.1 kN, straight rollers",
        ),
        (
            1.0,
            1.0,
            3.0,
            1.0,
            1e-12,
            "ISO 281: the rating is the load of a million revolutions",
        ),
    ] {
        let found = required_rating_kn(load_kn, mrev, exponent).unwrap();
        assert!((found - rating_kn).abs() <= within, "{source}: {found}");
    }
}

#[test]
fn nothing_is_said_of_loads_ratings_and_speeds_that_are_none() {
    let bad = [0.0, -1.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY];
    for value in bad {
        assert_eq!(
            basic_rating_life_mrev(value, 1.0, 3.0),
            None,
            "rating {value}"
        );
        assert_eq!(
            basic_rating_life_mrev(1.0, value, 3.0),
            None,
            "load {value}"
        );
        assert_eq!(
            basic_rating_life_h(value, 1.0, 3.0, 100.0),
            None,
            "rating {value}"
        );
        assert_eq!(
            basic_rating_life_h(1.0, value, 3.0, 100.0),
            None,
            "load {value}"
        );
        assert_eq!(
            basic_rating_life_h(1.0, 1.0, 3.0, value),
            None,
            "speed {value}"
        );
        assert_eq!(required_rating_kn(value, 1.0, 3.0), None, "load {value}");
        assert_eq!(required_rating_kn(1.0, value, 3.0), None, "life {value}");
    }
}

#[test]
fn reliability_factors_stand_at_the_values_of_the_table_only() {
    // ISO 281:2007, table 12, from memory; 0.64 at 95 % by published course notes.
    for (percent, factor) in [
        (90.0, Some(1.0)),
        (95.0, Some(0.64)),
        (96.0, Some(0.55)),
        (97.0, Some(0.47)),
        (98.0, Some(0.37)),
        (99.0, Some(0.25)),
        (89.0, None),
        (92.0, None),
        (94.999, None),
        (99.9, None),
        (100.0, None),
        (0.95, None),
        (f64::NAN, None),
    ] {
        assert_eq!(reliability_factor(percent), factor, "{percent}");
    }
}

#[test]
fn lives_compare_only_by_ratings_of_one_source() {
    let ball = Family::DeepGrooveBall;
    let roller = Family::CylindricalRoller;
    let other_source = "the ratings are of different sources or editions";
    let no_rating = "one of the two has no dynamic load rating";
    let no_load = "ball against roller: the ratio hangs on the load, which is not given";
    let not_above = "load and ratings must be above 0";
    let (a, b) = (Some("A"), Some("B"));
    for (old, new, load_kn, expected) in [
        // Mott, table 14-3: 6204 12.7, 6304 15.9 kN.
        ((12.7, a, ball), (15.9, a, ball), None, Ok(1.962)),
        ((15.9, a, ball), (12.7, a, ball), None, Ok(0.5096)),
        ((12.7, a, ball), (12.7, a, ball), None, Ok(1.0)),
        ((12.7, a, ball), (15.9, a, ball), Some(3.0), Ok(1.962)),
        ((10.0, a, roller), (20.0, a, roller), None, Ok(10.0794)),
        // 6206 against a roller of 30 mm bore at 3 kN; arithmetic on two textbook ratings.
        ((19.5, a, ball), (22.4, a, roller), Some(3.0), Ok(2.96)),
        ((22.4, a, roller), (19.5, a, ball), Some(3.0), Ok(0.3378)),
        ((19.5, a, ball), (22.4, a, roller), None, Err(no_load)),
        (
            (19.5, a, ball),
            (22.4, a, roller),
            Some(0.0),
            Err(not_above),
        ),
        (
            (19.5, a, ball),
            (22.4, a, roller),
            Some(-3.0),
            Err(not_above),
        ),
        ((12.7, a, ball), (13.5, b, ball), None, Err(other_source)),
        ((12.7, a, ball), (13.5, None, ball), None, Err(other_source)),
        (
            (12.7, None, ball),
            (13.5, None, ball),
            None,
            Err(other_source),
        ),
        (
            (12.7, None, ball),
            (13.5, b, ball),
            Some(1.0),
            Err(other_source),
        ),
        // A rating of nothing is no rating: no share of 0 or below, and no words about rollers.
        ((0.0, a, ball), (12.7, a, ball), None, Err(not_above)),
        ((12.7, a, ball), (0.0, a, ball), None, Err(not_above)),
        ((12.7, a, ball), (-12.7, a, ball), None, Err(not_above)),
        ((-12.7, a, ball), (12.7, a, ball), None, Err(not_above)),
    ] {
        let found = life_ratio(
            (&ratings(old.0, old.1), old.2),
            (&ratings(new.0, new.1), new.2),
            load_kn,
        );
        match (&found, expected) {
            (LifeRatio::Share(share), Ok(expected)) => {
                assert!(
                    (share - expected).abs() <= 0.002 * expected,
                    "{old:?} {new:?}: {share}"
                );
            }
            (LifeRatio::NotComparable { why }, Err(expected)) => {
                assert_eq!(*why, expected, "{old:?} {new:?}");
            }
            _ => panic!("{old:?} {new:?}: {found:?} instead of {expected:?}"),
        }
    }
    let unknown = LoadRatings {
        dynamic_kn: None,
        static_kn: Some(6.0),
        source: Some("A".to_owned()),
    };
    let known = ratings(12.7, Some("A"));
    for (old, new) in [(&unknown, &known), (&known, &unknown), (&unknown, &unknown)] {
        let found = life_ratio((old, ball), (new, ball), Some(1.0));
        assert_eq!(found, LifeRatio::NotComparable { why: no_rating });
    }
}

proptest! {
    /// A heavier load, a lower rating or a higher speed never gives a longer life.
    #[test]
    fn life_never_grows_with_load_or_speed(
        rating in 0.5_f64..500.0,
        load in 0.1_f64..300.0,
        more in 1.001_f64..5.0,
        rpm in 1.0_f64..30_000.0,
        is_ball in any::<bool>(),
    ) {
        let p = if is_ball { 3.0 } else { 10.0 / 3.0 };
        let life = |c, f, n| basic_rating_life_h(c, f, p, n).unwrap();
        let of = life(rating, load, rpm);
        prop_assert!(life(rating, load * more, rpm) < of);
        prop_assert!(life(rating / more, load, rpm) < of);
        prop_assert!(life(rating, load, rpm * more) < of);
        // Load and rating in another unit of force give the same life.
        prop_assert!((life(rating * 224.809, load * 224.809, rpm) / of - 1.0).abs() < 1e-9);
    }

    /// The rating that a life asks for has that life.
    #[test]
    fn rating_and_life_turn_back(load in 0.1_f64..300.0, mrev in 0.01_f64..50_000.0, is_ball in any::<bool>()) {
        let p = if is_ball { 3.0 } else { 10.0 / 3.0 };
        let rating = required_rating_kn(load, mrev, p).unwrap();
        let life = basic_rating_life_mrev(rating, load, p).unwrap();
        prop_assert!((life / mrev - 1.0).abs() < 1e-9);
    }

    /// Exchange there and back leaves the life as it was, and by way of a third part too.
    #[test]
    fn shares_of_life_multiply(a in 1.0_f64..300.0, b in 1.0_f64..300.0, c in 1.0_f64..300.0) {
        let of = |old: f64, new: f64| {
            let (old, new) = (ratings(old, Some("X")), ratings(new, Some("X")));
            match life_ratio((&old, Family::ThrustBall), (&new, Family::ThrustBall), None) {
                LifeRatio::Share(share) => share,
                LifeRatio::NotComparable { why } => panic!("{why}"),
            }
        };
        prop_assert!((of(a, b) * of(b, a) - 1.0).abs() < 1e-9);
        prop_assert!((of(a, b) * of(b, c) / of(a, c) - 1.0).abs() < 1e-9);
    }
}
