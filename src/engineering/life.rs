//! Basic rating life (ISO 281).

use crate::part::{Family, LoadRatings};

/// Life of one bearing as a share of another's, or why there is none.
#[derive(Debug, Clone, PartialEq)]
pub enum LifeRatio {
    /// New life over old life at the same load and speed.
    Share(f64),
    /// The two ratings do not compare.
    NotComparable {
        /// Why.
        why: &'static str,
    },
}

/// Exponent p of the basic rating life: 3 for ball bearings, 10/3 for roller bearings.
///
/// That of rollers where nothing rolls: no rating life is told of those, see [`has_rating_life`].
///
/// # Source
/// ISO 281.
pub const fn life_exponent(family: Family) -> f64 {
    match family.life_exponent() {
        Some(exponent) => exponent,
        None => 10.0 / 3.0,
    }
}

/// True for families that roll, which alone have a rating life.
pub const fn has_rating_life(family: Family) -> bool {
    family.life_exponent().is_some()
}

/// Basic rating life (C/P)^p in million revolutions; `None` unless load and rating are above 0.
///
/// # Units
/// Rating and load in kN.
///
/// # Source
/// ISO 281.
///
/// # Example
/// ```
/// // Public exam question: C 16 kN, P 2 kN, ball bearing: 512 million revolutions.
/// let life = sparewright::engineering::basic_rating_life_mrev(16.0, 2.0, 3.0);
/// assert!(life.is_some_and(|life| (life - 512.0).abs() < 1e-9));
/// ```
pub fn basic_rating_life_mrev(rating_kn: f64, load_kn: f64, exponent: f64) -> Option<f64> {
    let is_usable =
        rating_kn > 0.0 && load_kn > 0.0 && rating_kn.is_finite() && load_kn.is_finite();
    is_usable.then(|| (rating_kn / load_kn).powf(exponent))
}

/// What bars the formula of the basic rating life at a load; empty where nothing does.
///
/// # Units
/// kN; the static rating where it is known.
///
/// # Source
/// ISO 281: where P exceeds C0 or 0.5 C the formula's use is to be confirmed by the bearing's maker; from memory.
pub fn life_formula_limits(
    rating_kn: f64,
    static_kn: Option<f64>,
    load_kn: f64,
) -> Vec<&'static str> {
    let over_half = load_kn > 0.5 * rating_kn;
    let over_static = static_kn.is_some_and(|static_kn| load_kn > static_kn);
    let half = over_half.then_some(
        "the load is above half of C: this life is outside the formula's range (ISO 281, from memory), ask the bearing's maker",
    );
    let dents = over_static.then_some(
        "the load is above C0: the raceways take dents, and this life is outside the formula's range (ISO 281, from memory)",
    );
    half.into_iter().chain(dents).collect()
}

/// Basic rating life in hours at a speed.
pub fn basic_rating_life_h(
    rating_kn: f64,
    load_kn: f64,
    exponent: f64,
    speed_rpm: f64,
) -> Option<f64> {
    let mrev = basic_rating_life_mrev(rating_kn, load_kn, exponent)?;
    (speed_rpm > 0.0 && speed_rpm.is_finite()).then(|| mrev * 1e6 / (60.0 * speed_rpm))
}

/// Rating needed for a life in million revolutions at a load, kN.
pub fn required_rating_kn(load_kn: f64, life_mrev: f64, exponent: f64) -> Option<f64> {
    let is_usable =
        load_kn > 0.0 && life_mrev > 0.0 && load_kn.is_finite() && life_mrev.is_finite();
    is_usable.then(|| load_kn * life_mrev.powf(1.0 / exponent))
}

/// Life of a new bearing over that of the old one.
///
/// Ratings compare only where both name the same source and edition. A ball bearing against a roller bearing has no ratio
/// of its own: it hangs on the load, so without one there is none.
///
/// # Source
/// ISO 281; that ratings of different editions differ is shown by published tables (6204: 12.7 or 13.5 kN).
pub fn life_ratio(
    old: (&LoadRatings, Family),
    new: (&LoadRatings, Family),
    load_kn: Option<f64>,
) -> LifeRatio {
    let none = |why| LifeRatio::NotComparable { why };
    let (Some(old_kn), Some(new_kn)) = (old.0.dynamic_kn, new.0.dynamic_kn) else {
        return none("one of the two has no dynamic load rating");
    };
    if old.0.source.is_none() || old.0.source != new.0.source {
        return none("the ratings are of different sources or editions");
    }
    if !(old_kn > 0.0 && new_kn > 0.0) {
        return none("load and ratings must be above 0");
    }
    let (old_p, new_p) = (life_exponent(old.1), life_exponent(new.1));
    let is_same_kind = (old_p - new_p).abs() < 1e-9;
    match load_kn {
        _ if is_same_kind => LifeRatio::Share((new_kn / old_kn).powf(new_p)),
        Some(load_kn) => {
            let lives = (
                basic_rating_life_mrev(old_kn, load_kn, old_p),
                basic_rating_life_mrev(new_kn, load_kn, new_p),
            );
            match lives {
                (Some(old), Some(new)) => LifeRatio::Share(new / old),
                _ => none("load and ratings must be above 0"),
            }
        }
        None => none("ball against roller: the ratio hangs on the load, which is not given"),
    }
}

/// Life modification factor a1 for a reliability in percent; between the values of the table nothing is stated.
///
/// # Source
/// ISO 281:2007, table of a1, from memory; 0.64 at 95 % confirmed by published course notes.
pub fn reliability_factor(percent: f64) -> Option<f64> {
    const TABLE: [(f64, f64); 6] = [
        (90.0, 1.0),
        (95.0, 0.64),
        (96.0, 0.55),
        (97.0, 0.47),
        (98.0, 0.37),
        (99.0, 0.25),
    ];
    TABLE
        .iter()
        .find(|(of, _)| (of - percent).abs() < 1e-9)
        .map(|(_, factor)| *factor)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ratings(dynamic_kn: f64, source: &str) -> LoadRatings {
        LoadRatings {
            dynamic_kn: Some(dynamic_kn),
            static_kn: None,
            source: Some(source.to_owned()),
        }
    }

    fn near(a: f64, b: f64, within: f64) -> bool {
        (a - b).abs() <= within
    }

    #[test]
    fn life_falls_with_the_load_by_the_exponent() {
        // Arithmetic: half the load, eight times the life of a ball bearing, 2^(10/3) times that of a roller bearing.
        for (exponent, times) in [(3.0, 8.0), (10.0 / 3.0, 10.079_368)] {
            let life = |load_kn| basic_rating_life_mrev(10.0, load_kn, exponent).unwrap();
            assert!(near(life(1.0) / life(2.0), times, 1e-5));
            // The rating that a life asks for has that life.
            let rating_kn = required_rating_kn(2.0, life(2.0), exponent).unwrap();
            assert!(near(rating_kn, 10.0, 1e-9));
        }
        assert_eq!(basic_rating_life_mrev(10.0, 0.0, 3.0), None);
        assert_eq!(basic_rating_life_h(10.0, 1.0, 3.0, 0.0), None);
        assert_eq!(required_rating_kn(-1.0, 5.0, 3.0), None);
        // Nothing is stated between the values of the table.
        assert_eq!(reliability_factor(95.5), None);
    }

    #[test]
    fn ratings_of_two_sources_never_compare() {
        let ball = Family::DeepGrooveBall;
        // Mott, table 14-3: 6204 12.7 kN, 6304 15.9 kN: ratio 1.962.
        let ratio = life_ratio(
            (&ratings(12.7, "MOTT"), ball),
            (&ratings(15.9, "MOTT"), ball),
            None,
        );
        assert!(
            matches!(ratio, LifeRatio::Share(share) if near(share, 1.962, 0.001)),
            "{ratio:?}"
        );
        let other = life_ratio(
            (&ratings(12.7, "MOTT"), ball),
            (&ratings(13.5, "BDW"), ball),
            None,
        );
        assert!(matches!(other, LifeRatio::NotComparable { .. }));
    }

    #[test]
    fn ball_against_roller_needs_the_load() {
        // 6206 19.5 kN against a 30 mm roller 22.4 kN at 3 kN: 2.96 (arithmetic on two textbook ratings).
        let (ball, roller) = (ratings(19.5, "X"), ratings(22.4, "X"));
        let of = |load| {
            life_ratio(
                (&ball, Family::DeepGrooveBall),
                (&roller, Family::CylindricalRoller),
                load,
            )
        };
        assert!(matches!(of(None), LifeRatio::NotComparable { .. }));
        assert!(
            matches!(of(Some(3.0)), LifeRatio::Share(share) if near(share, 2.96, 0.01)),
            "{:?}",
            of(Some(3.0))
        );
    }

    #[test]
    fn the_formula_ends_at_half_of_c_and_at_c0() {
        // ISO 281, from memory: P up to 0.5 C and C0.
        for (rating, static_kn, load, count) in [
            (10.0, None, 5.0, 0),
            (10.0, None, 5.01, 1),
            (10.0, None, 20.0, 1),
            (10.0, Some(4.0), 4.0, 0),
            (10.0, Some(4.0), 4.5, 1),
            (10.0, Some(4.0), 6.0, 2),
            (10.0, Some(8.0), 6.0, 1),
        ] {
            let limits = life_formula_limits(rating, static_kn, load);
            assert_eq!(
                limits.len(),
                count,
                "{rating} {static_kn:?} {load}: {limits:?}"
            );
        }
        assert!(life_formula_limits(10.0, Some(4.0), 4.5)[0].contains("C0"));
        assert!(life_formula_limits(10.0, None, 6.0)[0].contains("half of C"));
    }
}
