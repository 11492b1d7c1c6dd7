//! Distribution of the quantity used while an order is on its way.

use statrs::distribution::{DiscreteCDF, NegativeBinomial, Poisson};

use super::demand_table::{MOST_UNITS as MOST_TABLED, TAIL};

/// Expected usages above which two moments say enough.
const MOST_USAGES: f64 = 500.0;

/// Logarithm of the probability of no usage below which the recursion would lose its digits.
const LEAST_LOG: f64 = -600.0;

/// Probability below which a unit adds nothing to a sum near 1.
const LEAST_SHARE: f64 = 1e-18;

/// Most units that a level is searched up to.
const MOST_UNITS: u64 = 1_000_000;

/// Demand in a lead time.
#[derive(Debug, Clone, PartialEq)]
pub enum LeadTimeDemand {
    /// Poisson with this mean: single pieces.
    Poisson {
        /// Mean.
        mean: f64,
    },
    /// Usages, each of one of these quantities: Poisson, or negative binomial where the variance exceeds the mean.
    Compound {
        /// Expected usages.
        usages: f64,
        /// Variance of their number.
        usages_variance: f64,
        /// Quantities and the share of usages that take them, smallest first.
        sizes: Vec<(u32, f64)>,
    },
    /// A demand in parts of a unit, of which whole units are counted that hold it: 3.5 m of one usage take 4 m, 7 m of two 7 m.
    InParts {
        /// The demand in parts.
        demand: Box<LeadTimeDemand>,
        /// Parts in a unit, 2 or more.
        per_unit: u32,
    },
    /// Negative binomial with these moments: quantities that vary and are not whole, or very many usages.
    NegativeBinomial {
        /// Mean.
        mean: f64,
        /// Variance, above the mean.
        variance: f64,
    },
    /// Poisson with a mean that is one of several: single pieces over a lead time that varies.
    Mixed {
        /// Means with the share of cases each holds for.
        means: Vec<(f64, f64)>,
    },
    /// Probabilities of 0, 1, 2, ... units one by one: fitted parts, each with its age.
    Counted {
        /// Probabilities.
        shares: Vec<f64>,
    },
}

impl LeadTimeDemand {
    /// Poisson where the variance is no larger than the mean, else a negative binomial of both moments.
    pub fn new(mean: f64, variance: f64) -> Self {
        if variance > mean * (1.0 + 1e-9) {
            Self::NegativeBinomial { mean, variance }
        } else {
            Self::Poisson { mean }
        }
    }

    /// Poisson usages of the quantities given with their shares.
    pub fn compound(usages: f64, sizes: &[(u32, f64)]) -> Self {
        Self::compound_of(usages, usages, sizes)
    }

    /// Usages with a mean and variance, of the quantities given with their shares.
    ///
    /// Their number is Poisson where its variance is no larger than its mean, else negative binomial: a rate known from
    /// few usages, or a lead time that varies.
    pub fn compound_of(usages: f64, usages_variance: f64, sizes: &[(u32, f64)]) -> Self {
        if sizes.iter().all(|(size, _)| *size == 1) {
            return Self::new(usages, usages_variance);
        }
        let mut sizes = sizes.to_vec();
        sizes.sort_unstable_by_key(|(size, _)| *size);
        let compound = Self::Compound {
            usages,
            usages_variance: usages_variance.max(usages),
            sizes,
        };
        let log_none = Panjer::of(usages, usages_variance).log_none;
        if usages > MOST_USAGES || log_none < LEAST_LOG {
            let (mean, variance) = compound.moments();
            return Self::new(mean, variance);
        }
        compound
    }

    /// This demand as one in parts, so many in a unit.
    pub fn in_parts_of(self, per_unit: u32) -> Self {
        if per_unit < 2 {
            return self;
        }
        Self::InParts {
            demand: Box::new(self),
            per_unit,
        }
    }

    /// Single pieces at a rate over a gamma lead time, which is exactly negative binomial.
    ///
    /// # Units
    /// `per_day` pieces a day, `mean_days` days, `cv` standard deviation over mean.
    /// # Source
    /// Size `1 / cv^2` and mean `rate * mean days` (Poisson over gamma; Greenwood & Yule, 1920, from memory).
    pub fn over_gamma_lead_time(per_day: f64, mean_days: f64, cv: f64) -> Self {
        let mean = per_day * mean_days;
        Self::new(mean, mean + (mean * cv).powi(2))
    }

    /// Single pieces at a rate over a lognormal lead time, mixed over evenly spaced normal deviates.
    ///
    /// # Units
    /// As for [`over_gamma_lead_time`](Self::over_gamma_lead_time).
    pub fn over_lognormal_lead_time(per_day: f64, mean_days: f64, cv: f64) -> Self {
        let log_variance = (1.0 + cv * cv).ln();
        let log_mean = mean_days.ln() - log_variance / 2.0;
        // The trapezoid rule converges faster than any power for a function that dies out at both ends.
        let step = 0.05_f64;
        let nodes = (-170..=170).map(|node| f64::from(node) * step);
        let means = nodes
            .map(|z| {
                let share = step * (-z * z / 2.0).exp() / (2.0 * std::f64::consts::PI).sqrt();
                (per_day * (log_mean + log_variance.sqrt() * z).exp(), share)
            })
            .collect();
        Self::Mixed { means }
    }

    /// Single pieces at a rate over lead times of given days, each with its share of cases.
    pub fn over_lead_times(per_day: f64, days: &[(f64, f64)]) -> Self {
        Self::Mixed {
            means: days
                .iter()
                .map(|(days, share)| (per_day * days, *share))
                .collect(),
        }
    }

    /// Mean and variance, of parts as they are.
    pub fn moments(&self) -> (f64, f64) {
        match self {
            Self::InParts { demand, per_unit } => {
                let (mean, variance) = demand.moments();
                let parts = f64::from(*per_unit);
                (mean / parts, variance / (parts * parts))
            }
            Self::Poisson { mean } => (*mean, *mean),
            Self::NegativeBinomial { mean, variance } => (*mean, *variance),
            Self::Compound {
                usages,
                usages_variance,
                sizes,
            } => {
                let (mean, square) = size_moments(sizes);
                // A random sum: E[N] Var[X] + Var[N] E[X]^2.
                let variance = usages * (square - mean * mean) + usages_variance * mean * mean;
                (usages * mean, variance)
            }
            Self::Counted { shares } => {
                let moment = |power: i32| -> f64 {
                    let terms = shares.iter().enumerate();
                    terms
                        .map(|(units, share)| (units as f64).powi(power) * share)
                        .sum()
                };
                (moment(1), moment(2) - moment(1).powi(2))
            }
            Self::Mixed { means } => {
                let mean: f64 = means.iter().map(|(mean, share)| mean * share).sum();
                let square: f64 = means
                    .iter()
                    .map(|(mean, share)| (mean * mean + mean) * share)
                    .sum();
                (mean, square - mean * mean)
            }
        }
    }

    /// Mean of P(demand > y) over y = first .. last, without a table of the demand.
    pub(super) fn mean_share_over(&self, first: i64, last: i64) -> f64 {
        let below_zero = (last.min(-1) - first + 1).max(0) as f64;
        let (mut at_most, mut over) = (0.0_f64, below_zero);
        let mut units = 0;
        let (mean, _) = self.moments();
        if last >= 0 {
            self.walk(|share| {
                at_most += share;
                if units >= first {
                    over += (1.0 - at_most).max(0.0);
                }
                units += 1;
                // Behind the end of a table nothing is left.
                let is_end = 1.0 - at_most < TAIL && units as f64 > mean;
                units > last || is_end || units >= MOST_TABLED
            });
        }
        over / (last - first + 1) as f64
    }

    /// Largest quantity of one usage that the demand is made of.
    pub(super) fn largest_size(&self) -> usize {
        match self {
            Self::Compound { sizes, .. } => sizes
                .iter()
                .map(|(size, _)| *size as usize)
                .max()
                .unwrap_or(1),
            Self::Counted { shares } => shares.len(),
            Self::InParts { demand, per_unit } => {
                demand.largest_size().div_ceil(*per_unit as usize) + 1
            }
            _ => 1,
        }
    }

    /// Gives the probability of 0, 1, 2, ... units, until told to stop.
    pub(in crate::plan) fn walk(&self, stop: impl FnMut(f64) -> bool) {
        match self {
            Self::Poisson { mean } => walk_by_ratio(-mean, stop, |units| mean / units),
            Self::NegativeBinomial { mean, variance } => {
                let size = mean * mean / (variance - mean);
                let success = mean / variance;
                let none = size * success.ln();
                walk_by_ratio(none, stop, |units| {
                    (size + units - 1.0) / units * (1.0 - success)
                });
            }
            Self::Compound {
                usages,
                usages_variance,
                sizes,
            } => {
                let mut stop = stop;
                let mut recursion = Recursion::new(*usages, *usages_variance, sizes);
                while !stop(recursion.shares[recursion.shares.len() - 1]) {
                    recursion.step();
                }
            }
            Self::InParts { demand, per_unit } => {
                let mut stop = stop;
                let (mut parts, mut of_unit) = (0_u32, 0.0);
                demand.walk_in_turn(&mut |share| {
                    of_unit += share;
                    let is_unit = parts.is_multiple_of(*per_unit);
                    parts = parts.wrapping_add(1);
                    is_unit && stop(std::mem::take(&mut of_unit))
                });
            }
            Self::Counted { shares } => {
                let mut stop = stop;
                let mut shares = shares.iter();
                while !stop(shares.next().copied().unwrap_or(0.0)) {}
            }
            Self::Mixed { means } => {
                let mut stop = stop;
                let mut shares: Vec<f64> = means
                    .iter()
                    .map(|(mean, share)| share * (-mean).exp())
                    .collect();
                let mut units = 0.0;
                while !stop(shares.iter().sum()) {
                    units += 1.0;
                    for (share, (mean, _)) in shares.iter_mut().zip(means) {
                        *share *= mean / units;
                    }
                }
            }
        }
    }

    /// [`walk`](Self::walk) for a demand inside another.
    fn walk_in_turn(&self, stop: &mut dyn FnMut(f64) -> bool) {
        self.walk(stop);
    }

    /// Probability of a demand of at most `units`.
    ///
    /// # Source
    /// Negative binomial with size `m^2 / (v - m)` and success probability `m / v` for mean m and variance v;
    /// compound by the recursion `p(k) = sum of (a + b j / k) f(j) p(k - j)` (Panjer, ASTIN Bulletin 12:22-26, 1981)
    /// with f the shares of the sizes: for Poisson usages a = 0 and b their mean, for negative binomial ones of size s
    /// and success probability q a = 1 - q and b = (s - 1)(1 - q).
    pub fn at_most(&self, units: u64) -> f64 {
        match self {
            Self::Poisson { mean } | Self::NegativeBinomial { mean, .. } if *mean <= 0.0 => 1.0,
            Self::Poisson { mean } => Poisson::new(*mean).map_or(0.0, |poisson| poisson.cdf(units)),
            Self::Compound {
                usages,
                usages_variance,
                sizes,
            } => {
                let mut recursion = Recursion::new(*usages, *usages_variance, sizes);
                let (mean, _) = self.moments();
                let most = units.min(MOST_TABLED as u64);
                // Behind its end nothing is added: a quantity with a digit too many takes no longer.
                let mut nothing = 0;
                while recursion.reached() < most
                    && (nothing < self.largest_size() || recursion.reached() as f64 <= mean)
                {
                    let share = recursion.step();
                    nothing = if share < LEAST_SHARE { nothing + 1 } else { 0 };
                }
                recursion.at_most
            }
            Self::InParts { demand, per_unit } => {
                demand.at_most(units.saturating_mul(u64::from(*per_unit)))
            }
            Self::Counted { shares } => {
                shares.iter().take(units as usize + 1).sum::<f64>().min(1.0)
            }
            Self::Mixed { means } => means
                .iter()
                .map(|(mean, share)| share * Self::Poisson { mean: *mean }.at_most(units))
                .sum(),
            Self::NegativeBinomial { mean, variance } => {
                NegativeBinomial::new(mean * mean / (variance - mean), mean / variance)
                    .map_or(0.0, |binomial| binomial.cdf(units))
            }
        }
    }

    /// Smallest reorder point r with P(demand <= r) at or above the target; `None` beyond a million units.
    ///
    /// An order is placed when the stock position is at or below r; the stock level is r + 1.
    pub fn reorder_point(&self, target_share: f64) -> Option<u64> {
        if let Self::Compound {
            usages,
            usages_variance,
            sizes,
        } = self
        {
            let mut recursion = Recursion::new(*usages, *usages_variance, sizes);
            while recursion.at_most < target_share {
                recursion.step();
                if recursion.reached() > MOST_UNITS {
                    return None;
                }
            }
            return Some(recursion.reached());
        }
        let reaches = |units: u64| self.at_most(units) >= target_share;
        let mut high = 1;
        while !reaches(high) {
            high *= 2;
            if high > MOST_UNITS {
                return None;
            }
        }
        let mut low = 0;
        while low < high {
            let middle = low + (high - low) / 2;
            if reaches(middle) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        Some(low)
    }
}

/// Terms from the logarithm of the first and the ratio of each to the one before.
///
/// The logarithm is carried while terms underflow, so that a mean of thousands is no special case.
fn walk_by_ratio(log_first: f64, mut stop: impl FnMut(f64) -> bool, ratio: impl Fn(f64) -> f64) {
    const SMALLEST: f64 = -700.0;
    let mut log_term = log_first;
    let mut units = 0.0;
    while log_term < SMALLEST {
        if stop(0.0) {
            return;
        }
        units += 1.0;
        log_term += ratio(units).ln();
    }
    let mut term = log_term.exp();
    while !stop(term) {
        units += 1.0;
        term *= ratio(units);
    }
}

/// Mean and mean square of a quantity.
fn size_moments(sizes: &[(u32, f64)]) -> (f64, f64) {
    let moment = |power: i32| -> f64 {
        let terms = sizes.iter();
        terms
            .map(|(size, share)| f64::from(*size).powi(power) * share)
            .sum()
    };
    (moment(1), moment(2))
}

/// A number of usages in Panjer's class: `p(n) = (a + b / n) p(n - 1)`.
struct Panjer {
    a: f64,
    b: f64,
    log_none: f64,
}

impl Panjer {
    fn of(mean: f64, variance: f64) -> Self {
        if variance > mean * (1.0 + 1e-9) {
            let size = mean * mean / (variance - mean);
            let miss = 1.0 - mean / variance;
            Self {
                a: miss,
                b: (size - 1.0) * miss,
                log_none: size * (mean / variance).ln(),
            }
        } else {
            Self {
                a: 0.0,
                b: mean,
                log_none: -mean,
            }
        }
    }
}

/// Probabilities of a compound demand, one more unit at a time.
struct Recursion {
    /// Each quantity with its share times `a` and times `b`, smallest first.
    weights: Vec<(usize, f64, f64)>,
    shares: Vec<f64>,
    at_most: f64,
}

impl Recursion {
    fn new(usages: f64, usages_variance: f64, sizes: &[(u32, f64)]) -> Self {
        let Panjer { a, b, log_none } = Panjer::of(usages, usages_variance);
        let none = log_none.exp();
        let weight =
            |(size, share): &(u32, f64)| (*size as usize, a * share, b * f64::from(*size) * share);
        let mut weights: Vec<_> = sizes.iter().map(weight).collect();
        weights.retain(|(size, ..)| *size > 0);
        Self {
            weights,
            shares: vec![none],
            at_most: none,
        }
    }

    /// Units that `at_most` speaks of.
    fn reached(&self) -> u64 {
        self.shares.len() as u64 - 1
    }

    /// One unit more, and its probability.
    fn step(&mut self) -> f64 {
        let units = self.shares.len();
        let (mut by_a, mut by_b) = (0.0, 0.0);
        for (size, a, b) in &self.weights {
            let Some(before) = units.checked_sub(*size) else {
                break;
            };
            by_a += a * self.shares[before];
            by_b += b * self.shares[before];
        }
        let share = by_a + by_b / units as f64;
        self.shares.push(share);
        self.at_most += share;
        share
    }
}

#[cfg(test)]
mod tests;
