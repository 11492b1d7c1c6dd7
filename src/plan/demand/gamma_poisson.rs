//! Usage rates of parts with little history: a gamma prior of the part's group, updated by the part's own usages.
//!
//! # How far the rates of a group lie apart, where older history fades
//!
//! Part `i` is used at a rate `r_i`, gamma with shape `a` and mean `m` between the parts of its group. Its usages in `t_i`
//! days are Poisson, so that between parts they are negative binomial, `E[k_i] = m t_i` and
//! `Var[k_i] = m t_i + (m t_i)^2 / a`, and the likelihood of these counts tells `a`.
//!
//! A discounted count is the sum over usages of weights `w <= 1`. Given the rate its mean is `r_i` times the sum of the
//! weighted days, `n_i`, but its variance is `r_i` times the sum of the *squared* weights, which is less: after a long
//! history about half, `1 / (1 + d)` for a weight of `d` a month. Read as a Poisson count it varies too little, the
//! likelihood puts that down to parts that are all alike, and `a` comes out too high: 15 for a true 2 where `d` is 0.97
//! (`tests/suite/demand/spread.rs`).
//!
//! So the two are asked separately. The shape has no unit of time: it is fitted on the counts in full, each usage one, with
//! the mean that these very counts have ([`GroupPrior::fit`]). The mean is that of today, the pooled rate of the
//! discounted counts ([`GroupPrior::at_rate_of`]): `b = a / m`. A group whose rates all rise or fall alike keeps its shape by
//! this. To hold the mean at the discounted rate in the fit itself would read such a fall as spread (shape 1.3 for a
//! true 2 where demand falls by 26 % a year and `d` is 0.9). What a part's own usages teach is still their discounted count:
//! that they are worth less than they say is how the posterior allows for a rate that wanders (Harvey & Fernandes,
//! J. Bus. Econ. Stat. 7:407-422, 1989, from memory).
//!
//! # Where the discount leaves nearly nothing
//!
//! A strong discount may leave a group a few weeks of weighted days and a millionth of a usage. That is no evidence of a rate
//! of a millionth. Take a weak prior about the rate in full `m_0`, worth half a usage (the shape of Jeffreys' prior for a
//! Poisson rate, Proc. R. Soc. A 186:453-461, 1946, from memory): gamma with shape 1/2 and `1 / (2 m_0)` days. `n` weighted
//! days without any usage, the most telling case, leave its mean at `(1/2) / (1 / (2 m_0) + n)`, and the group's mean is
//! taken no lower. With half a usage counted or more this is never the higher of the two, whatever `n` is.

use statrs::distribution::{ContinuousCDF, Normal};
use statrs::function::gamma::{gamma_lr, ln_gamma};

use super::super::LeadTimeDemand;

/// Bounds of the logarithm of the prior's shape.
///
/// Under-dispersed counts let the likelihood rise for ever; a capped shape is then as good as "all parts alike".
const LOG_SHAPE: (f64, f64) = (-4.0, 4.0);

/// Usages that the rate in full is worth against days without any: the shape of Jeffreys' prior for a Poisson rate.
const WEAK_EVENTS: f64 = 0.5;

/// Shape above which the gamma quantile is taken from the Wilson-Hilferty formula, whose error is then below 1e-6.
const WIDE_SHAPE: f64 = 1e5;

/// Usages of one part and the days in which they were counted, both in full or both discounted alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Counted {
    /// Usages.
    pub events: f64,
    /// Days.
    pub exposure_days: f64,
}

/// Gamma prior of the usage rate in a group of parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroupPrior {
    /// Shape: usages the group is worth.
    pub shape: f64,
    /// Rate parameter: days of exposure the group is worth.
    pub exposure_days: f64,
}

/// Gamma posterior of one part's usage rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EventRate {
    /// Shape: prior's and own usages.
    pub shape: f64,
    /// Days of exposure, prior's and own.
    pub exposure_days: f64,
}

impl Counted {
    /// Usages behind a share of periods with demand, because several in one period are seen as one.
    ///
    /// # Units
    /// Both in periods, discounted alike; the result's days are periods.
    /// # Source
    /// A Poisson demand leaves a period empty with probability `exp(-rate)`; at least half a period is taken as empty.
    pub fn of_periods(with_demand: f64, periods: f64) -> Self {
        let share = with_demand.min(periods - 0.5) / periods;
        Self {
            events: -periods * (-share).ln_1p(),
            exposure_days: periods,
        }
    }
}

impl GroupPrior {
    /// Fits the prior by marginal likelihood with its mean fixed at the pooled rate; `None` without usages or exposure.
    ///
    /// # Source
    /// Negative binomial marginal of the gamma-Poisson model; Babai, Chen, Syntetos & Lengu, Int. J. Prod. Econ. 2020,
    /// doi 10.1016/j.ijpe.2020.107954. Only the shape is fitted, between e^-4 and e^4: with both free the fit runs to
    /// infinity when counts vary less than a Poisson. Counts are taken in full: discounted ones give too high a shape (see the
    /// head of this file).
    pub fn fit(counted: &[Counted]) -> Option<Self> {
        Some(Self::fit_with_mean(counted, pooled_per_day(counted)?))
    }

    /// The same spread between parts about the pooled rate of other counts of theirs, such as the discounted ones, but no lower
    /// than their days can tell; `None` without usages or exposure there.
    ///
    /// # Source
    /// Derived at the head of this file.
    pub fn at_rate_of(self, counted: &[Counted]) -> Option<Self> {
        let days: f64 = counted.iter().map(|counted| counted.exposure_days).sum();
        let least = WEAK_EVENTS / (WEAK_EVENTS / self.mean_per_day() + days);
        let mean = pooled_per_day(counted)?.max(least);
        Some(Self {
            exposure_days: self.shape / mean,
            ..self
        })
    }

    /// Fits the shape for a mean rate that is given, usages a day.
    pub fn fit_with_mean(counted: &[Counted], mean: f64) -> Self {
        let alike = merge_alike(counted);
        let loss = |log_shape: f64| {
            let shape = log_shape.exp();
            let prior = Self {
                shape,
                exposure_days: shape / mean,
            };
            let base = ln_gamma(shape);
            -alike
                .iter()
                .map(|(counted, times)| times * prior.log_likelihood(counted, base))
                .sum::<f64>()
        };
        let shape = lowest(loss, LOG_SHAPE).exp();
        Self {
            shape,
            exposure_days: shape / mean,
        }
    }

    /// Log likelihood of a count, up to what does not depend on the prior.
    fn log_likelihood(&self, counted: &Counted, ln_gamma_shape: f64) -> f64 {
        let (k, t) = (counted.events, counted.exposure_days);
        let rising = if k > 0.0 {
            ln_gamma(self.shape + k) - ln_gamma_shape
        } else {
            0.0
        };
        let both = self.exposure_days + t;
        let own = if k > 0.0 { k * (t / both).ln() } else { 0.0 };
        rising + self.shape * (self.exposure_days / both).ln() + own
    }

    /// Mean rate, usages a day.
    pub fn mean_per_day(&self) -> f64 {
        self.shape / self.exposure_days
    }

    /// Rate of a part of the group after its own usages.
    pub fn posterior(&self, counted: Counted) -> EventRate {
        EventRate {
            shape: self.shape + counted.events,
            exposure_days: self.exposure_days + counted.exposure_days,
        }
    }
}

impl EventRate {
    /// Mean rate, usages a day.
    pub fn mean_per_day(&self) -> f64 {
        self.shape / self.exposure_days
    }

    /// Mean and variance of the usages in a number of days: a negative binomial.
    pub fn events_over(&self, days: f64) -> (f64, f64) {
        let mean = self.mean_per_day() * days;
        (mean, mean * (1.0 + days / self.exposure_days))
    }

    /// Mean and variance of the usages in a time that varies, for orders that do not overtake each other.
    ///
    /// # Source
    /// Law of total variance with usages Poisson given rate and time: `Var[N] = E[r] E[T] + E[r^2] E[T^2] - (E[r] E[T])^2`;
    /// with a gamma time and a known rate that is the negative binomial of size `1 / cv^2`.
    pub fn events_over_random(&self, mean_days: f64, variance_days2: f64) -> (f64, f64) {
        let rate = self.mean_per_day();
        let rate_square = rate * rate + rate / self.exposure_days;
        let time_square = mean_days * mean_days + variance_days2;
        let mean = rate * mean_days;
        (mean, mean + rate_square * time_square - mean * mean)
    }

    /// Distribution of the usages in a number of days.
    pub fn events_distribution(&self, days: f64) -> LeadTimeDemand {
        let (mean, variance) = self.events_over(days);
        LeadTimeDemand::new(mean, variance)
    }

    /// Rate that the true one is below with this probability, usages a day.
    ///
    /// # Source
    /// Gamma quantile by bisection of the regularised incomplete gamma function; Wilson & Hilferty, Proc. Nat. Acad.
    /// Sci. 17:684-688 (1931), for very large shapes.
    pub fn quantile_per_day(&self, share: f64) -> f64 {
        let a = self.shape;
        let normal = Normal::standard().inverse_cdf(share);
        let wide = a * (1.0 - 1.0 / (9.0 * a) + normal / (3.0 * a.sqrt())).powi(3);
        if a > WIDE_SHAPE {
            return wide / self.exposure_days;
        }
        let (mut low, mut high) = (0.0, wide.max(a).max(1.0));
        while gamma_lr(a, high) < share {
            high *= 2.0;
        }
        for _ in 0..200 {
            let middle = f64::midpoint(low, high);
            if gamma_lr(a, middle) < share {
                low = middle;
            } else {
                high = middle;
            }
        }
        f64::midpoint(low, high) / self.exposure_days
    }
}

/// Usages a day of all counts together; `None` without usages or exposure.
fn pooled_per_day(counted: &[Counted]) -> Option<f64> {
    let total = |of: fn(&Counted) -> f64| counted.iter().map(of).sum::<f64>();
    let (events, days) = (total(|c| c.events), total(|c| c.exposure_days));
    (events > 0.0 && days > 0.0).then_some(events / days)
}

/// Counts that are alike taken together, with how many there are.
fn merge_alike(counted: &[Counted]) -> Vec<(Counted, f64)> {
    let mut sorted = counted.to_vec();
    sorted.sort_unstable_by(|a, b| {
        (a.events.total_cmp(&b.events)).then(a.exposure_days.total_cmp(&b.exposure_days))
    });
    let mut alike: Vec<(Counted, f64)> = Vec::new();
    for counted in sorted {
        match alike.last_mut() {
            Some((last, times)) if *last == counted => *times += 1.0,
            _ => alike.push((counted, 1.0)),
        }
    }
    alike
}

/// Where a function of one number is lowest: a grid, then golden sections around its best point.
pub(super) fn lowest(function: impl Fn(f64) -> f64, (from, until): (f64, f64)) -> f64 {
    const STEPS: usize = 16;
    let at = |step: usize| from + (until - from) * step as f64 / STEPS as f64;
    let best = (0..=STEPS)
        .map(|step| (step, function(at(step))))
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map_or(0, |(step, _)| step);
    let (mut low, mut high) = (at(best.saturating_sub(1)), at((best + 1).min(STEPS)));
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    let (mut left, mut right) = (high - golden * (high - low), low + golden * (high - low));
    let (mut of_left, mut of_right) = (function(left), function(right));
    while high - low > 1e-9 * (1.0 + low.abs()) {
        if of_left <= of_right {
            (high, right, of_right) = (right, left, of_left);
            left = high - golden * (high - low);
            of_left = function(left);
        } else {
            (low, left, of_left) = (left, right, of_right);
            right = low + golden * (high - low);
            of_right = function(right);
        }
    }
    f64::midpoint(low, high)
}
