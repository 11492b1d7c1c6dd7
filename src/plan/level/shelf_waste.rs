//! Units that reach the end of their shelf life before anybody needs them.

/// Units a year that expire where so many are always on the shelf, the oldest used first.
///
/// # Units
/// `yearly` units used a year one at a time, `life_years` from receipt to the end of the shelf life, `held` units.
/// # Source
/// Poisson usages, units replaced at once: the oldest of S units has an age of density `C x^(S-1) exp(-l x)` on 0 .. L
/// (shown by putting it into the equations of the ages), so that `l p(S - 1) / P(N >= S)` expire, N Poisson of mean l L;
/// for one unit the renewal argument gives the same. Never less than `S / L - l` (Little, Operations Research 9:383-387,
/// 1961). Written as a series that holds for a usage of 0 and between whole numbers.
pub(super) fn expired_a_year(yearly: f64, life_years: f64, held: f64) -> f64 {
    if held <= 0.0 || life_years <= 0.0 {
        return 0.0;
    }
    let mean = (yearly * life_years).max(0.0);
    let (mut term, mut sum, mut beyond) = (1.0_f64, 1.0_f64, held);
    while term > 1e-14 * sum {
        beyond += 1.0;
        term *= mean / beyond;
        sum += term;
        if sum > 1e12 {
            return 0.0;
        }
    }
    held / life_years / sum
}

#[cfg(test)]
mod tests {
    use statrs::distribution::{Discrete, DiscreteCDF, Poisson};

    use super::*;

    #[test]
    fn the_series_is_the_closed_form() {
        for (yearly, life) in [(2.07, 0.5), (0.3, 1.0), (12.0, 2.0), (40.0, 0.25)] {
            for held in 1..8_u64 {
                let expected = Poisson::new(yearly * life).unwrap();
                let at_least = 1.0 - held.checked_sub(1).map_or(0.0, |less| expected.cdf(less));
                let closed = yearly * expected.pmf(held - 1) / at_least;
                let found = expired_a_year(yearly, life, held as f64);
                assert!(
                    (found - closed).abs() < 1e-6 * closed.max(1e-6),
                    "{yearly} {life} {held}"
                );
                // What leaves is at least what must (Little).
                assert!(found >= held as f64 / life - yearly - 1e-9);
            }
        }
        // One unit: it expires where nobody comes in its life, exp(-l L), of cycles of (1 - exp(-l L)) / l.
        let none = (-1.035_f64).exp();
        assert!((expired_a_year(2.07, 0.5, 1.0) - 2.07 * none / (1.0 - none)).abs() < 1e-9);
        assert!(
            (expired_a_year(0.0, 0.5, 3.0) - 6.0).abs() < 1e-12,
            "nobody uses any"
        );
        assert!(expired_a_year(4000.0, 10.0, 3.0) < 1e-12);
        assert!(expired_a_year(4.0, 1.0, 0.0) < 1e-12);
    }

    #[test]
    fn three_of_a_part_of_half_a_year_waste_more_than_two() {
        // A thousand years event by event: usages at random moments, the oldest of three first, 0.5 years of life.
        let (yearly, life) = (2.07, 0.5);
        let mut seed = 7_u64;
        let mut random = || {
            seed = seed
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            ((seed >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
        };
        let mut received = std::collections::VecDeque::from([0.0_f64; 3]);
        let (mut usage, mut expired) = (0.0_f64, 0_u32);
        while usage < 20_000.0 {
            usage -= random().ln() / yearly;
            while received[0] + life < usage {
                let end = received.pop_front().unwrap() + life;
                received.push_back(end);
                expired += 1;
            }
            received.pop_front();
            received.push_back(usage);
        }
        let told = expired_a_year(yearly, life, 3.0);
        let seen = f64::from(expired) / usage;
        assert!((seen / told - 1.0).abs() < 0.02, "{seen} {told}");
    }
}
