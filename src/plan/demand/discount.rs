//! How much older history counts, chosen by what would have foretold the later part of the history best.

use statrs::function::gamma::ln_gamma;

use super::gamma_poisson::{Counted, EventRate, GroupPrior};
use crate::parallel;

/// Days of a mean month.
pub const MONTH_DAYS: f64 = 30.4375;

/// Weights of a month against the next that are tried.
const CANDIDATES: [f64; 13] = [
    1.0, 0.99, 0.98, 0.97, 0.96, 0.95, 0.94, 0.92, 0.9, 0.87, 0.84, 0.8, 0.75,
];

/// Weight of a month against the next where the history cannot say.
///
/// # Source
/// Middle one of the three (1, 0.97, 0.94) that the methods listed with the benchmark's open series were tried with.
pub const USUAL_DISCOUNT: f64 = 0.97;

/// Fewest usages foretold that decide between candidates (common practice, no source).
const ENOUGH_EVENTS: f64 = 20.0;

/// Log likelihood by which another discount must beat the usual one: what chance alone gives one more parameter in one
/// case of twenty (half the chi-squared quantile of 0.95, 3.84).
const LEAST_GAIN: f64 = 1.92;

/// Weight of history by age.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Discount {
    per_day: f64,
}

impl Discount {
    /// All history counts alike.
    pub const NONE: Self = Self { per_day: 0.0 };

    /// A month counts this share of the month after it, above 0 and at most 1.
    pub fn per_month(share: f64) -> Self {
        Self {
            per_day: -share.ln() / MONTH_DAYS,
        }
    }

    /// Weight of a day of this age.
    pub fn weight(self, age_days: f64) -> f64 {
        (-self.per_day * age_days).exp()
    }

    /// Sum of the weights of the days between two ages.
    pub fn days_between(self, old_age_days: f64, new_age_days: f64) -> f64 {
        if self.per_day < 1e-12 {
            old_age_days - new_age_days
        } else {
            (self.weight(new_age_days) - self.weight(old_age_days)) / self.per_day
        }
    }
}

/// The discount under which the counts after each origin were likeliest; `None` where too few usages decide.
///
/// The usual discount stays unless another is clearly likelier.
///
/// `seen(discount, origin, part)` is what was known at an origin, `next(origin, part)` what came then, undiscounted.
///
/// Every candidate foretells as the plan will: with the spread between parts that the counts in full show and the level of
/// the discounted ones. With a spread fitted on discounted counts the strongest discounts would leave all parts alike and
/// lose for that reason alone.
///
/// # Source
/// Predictive (prequential) likelihood: Dawid, J. R. Stat. Soc. A 147:278-292 (1984), from memory; discounted gamma-Poisson:
/// Harvey & Fernandes, J. Bus. Econ. Stat. 7:407-422 (1989), from memory.
pub fn best_discount(
    origins: usize,
    parts: usize,
    seen: impl Fn(f64, usize, usize) -> Counted + Send + Sync,
    next: impl Fn(usize, usize) -> Counted,
) -> Option<f64> {
    // The same under every discount: counted once.
    let came: Vec<Vec<Counted>> = (0..origins)
        .map(|origin| (0..parts).map(|part| next(origin, part)).collect())
        .collect();
    let foretold: f64 = came.iter().flatten().map(|next| next.events).sum();
    if foretold < ENOUGH_EVENTS {
        return None;
    }
    let counted = |discount: f64, origin: usize| -> Vec<Counted> {
        (0..parts)
            .map(|part| seen(discount, origin, part))
            .collect()
    };
    // So is the spread between parts, of the counts in full.
    let spreads: Vec<GroupPrior> = (0..origins)
        .map(|origin| GroupPrior::fit(&counted(1.0, origin)))
        .collect::<Option<_>>()?;
    let score = |discount: f64| -> Option<f64> {
        let mut sum = 0.0;
        for ((origin, came), spread) in came.iter().enumerate().zip(&spreads) {
            let counted = counted(discount, origin);
            let prior = spread.at_rate_of(&counted)?;
            for (counted, next) in counted.iter().zip(came) {
                if next.exposure_days > 0.0 {
                    sum += log_predictive(prior.posterior(*counted), *next);
                }
            }
        }
        Some(sum)
    };
    let scores = parallel::each(&CANDIDATES, |discount| score(*discount));
    let is_usual = |discount: &f64| discount.total_cmp(&USUAL_DISCOUNT).is_eq();
    let usual = match CANDIDATES.iter().position(is_usual) {
        Some(at) => scores[at]?,
        None => score(USUAL_DISCOUNT)?,
    };
    let (best, reached) = CANDIDATES
        .into_iter()
        .zip(scores)
        .filter_map(|(discount, score)| Some((discount, score?)))
        .max_by(|a, b| a.1.total_cmp(&b.1))?;
    Some(if reached > usual + LEAST_GAIN {
        best
    } else {
        USUAL_DISCOUNT
    })
}

/// Log probability of a count under a posterior, up to the factorial of the count.
fn log_predictive(rate: EventRate, next: Counted) -> f64 {
    let both = rate.exposure_days + next.exposure_days;
    let none = rate.shape * (rate.exposure_days / both).ln();
    if next.events <= 0.0 {
        return none;
    }
    none + ln_gamma(rate.shape + next.events) - ln_gamma(rate.shape)
        + next.events * (next.exposure_days / both).ln()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Periods with and without a usage of 40 parts, in `shares` of a hundred, by a fixed sequence.
    fn chosen(share: impl Fn(usize) -> f64) -> Option<f64> {
        let mut state = 12_345_u64;
        let mut draw = || {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1);
            (state >> 33) as f64 / f64::from(1_u32 << 31)
        };
        let used: Vec<Vec<bool>> = (0..40)
            .map(|_| (0..60).map(|month| draw() < share(month)).collect())
            .collect();
        let count = |months: &[bool], weight: &dyn Fn(usize) -> f64| {
            let sum = |is_used: bool| -> f64 {
                (0..months.len())
                    .filter(|at| !is_used || months[*at])
                    .map(weight)
                    .sum()
            };
            Counted {
                events: sum(true),
                exposure_days: sum(false),
            }
        };
        best_discount(
            5,
            40,
            |discount, origin, part| {
                let months = 30 + 6 * origin;
                let weight = |at: usize| discount.powi((months - 1 - at) as i32);
                count(&used[part][..months], &weight)
            },
            |origin, part| count(&used[part][30 + 6 * origin..36 + 6 * origin], &|_| 1.0),
        )
    }

    #[test]
    fn a_dying_range_forgets_and_a_steady_one_remembers() {
        let dying = chosen(|month| if month < 30 { 0.6 } else { 0.1 }).unwrap();
        let steady = chosen(|_| 0.2).unwrap();
        assert!(dying <= 0.94, "{dying}");
        assert!(steady >= 0.97, "{steady}");
    }

    #[test]
    fn the_choice_does_not_depend_on_the_number_of_cores() {
        for share in [0.05, 0.2, 0.5] {
            let of =
                |threads| parallel::on(threads, || chosen(|month| share + month as f64 / 400.0));
            assert_eq!(of(1), of(2), "{share}");
        }
    }

    #[test]
    fn nearly_no_usages_decide_nothing() {
        assert_eq!(chosen(|_| 0.001), None);
    }

    #[test]
    fn weights_of_days_add_up() {
        let discount = Discount::per_month(0.9);
        let months: f64 = discount.days_between(2.0 * MONTH_DAYS, MONTH_DAYS);
        let first = discount.days_between(MONTH_DAYS, 0.0);
        assert!((months / first - 0.9).abs() < 1e-12);
        assert!((Discount::NONE.days_between(30.0, 10.0) - 20.0).abs() < 1e-12);
    }
}
