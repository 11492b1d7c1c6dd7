//! What the parts now in service will ask for, by their ages and the life of their kind.

use super::super::LeadTimeDemand;
use super::life::{FittedPosition, PartLife};
use super::renewal::failures_of_aged;
use super::weibull::WeibullFit;
use crate::plan::year_length::YEAR_DAYS;

/// Probability that is not carried further.
const LEAST_SHARE: f64 = 1e-14;

/// Normal deviates and weights that stand for a lognormal lead time.
///
/// # Source
/// Gauss-Hermite rule of five points for the standard normal (Abramowitz & Stegun, table 25.10, scaled by the root of 2).
const DEVIATES: [(f64, f64); 5] = [
    (-2.856_970_013_872_806, 0.011_257_411_327_720_691),
    (-1.355_626_179_974_266, 0.222_075_922_005_612_6),
    (0.0, 0.533_333_333_333_333_3),
    (1.355_626_179_974_266, 0.222_075_922_005_612_6),
    (2.856_970_013_872_806, 0.011_257_411_327_720_691),
];

/// Demand of one part by the ages of its fitted pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct LifeForecast {
    /// Life of its kind.
    pub fit: WeibullFit,
    /// Positions in service.
    pub positions: Vec<FittedPosition>,
    /// Changes a day before a part failed and without a date.
    pub planned_per_day: f64,
    /// Quantities of a change with their shares.
    pub sizes: Vec<(u32, f64)>,
    /// Pieces a day expected over the coming year.
    pub pieces_per_day: f64,
}

impl LifeForecast {
    /// From the lives of a part that was used `events` times in `exposure_days`, `sizes` at a time.
    ///
    /// `None` with too few failures, where a usage lies outside the positions that can be told, or where a quantity is
    /// not whole: the rate then holds for all of it.
    pub fn new(
        life: &PartLife,
        events: usize,
        exposure_days: f64,
        sizes: &[(u32, f64)],
    ) -> Option<Self> {
        let fit = life.fit.filter(WeibullFit::is_enough)?;
        let is_whole = |position: &FittedPosition| position.pieces.fract().abs() < 1e-9;
        let is_all = life.changes >= events && life.failed <= events;
        if !is_all || sizes.is_empty() || !life.positions.iter().all(is_whole) {
            return None;
        }
        let mut forecast = Self {
            fit,
            positions: life.positions.clone(),
            planned_per_day: (events - life.failed) as f64 / exposure_days,
            sizes: sizes.to_vec(),
            pieces_per_day: 0.0,
        };
        let (mean, _) = forecast.demand(YEAR_DAYS).moments();
        forecast.pieces_per_day = mean / YEAR_DAYS;
        Some(forecast)
    }

    /// The same with usage `factor` times as intense.
    pub fn times(&mut self, factor: f64) {
        for position in &mut self.positions {
            position.hours_per_day *= factor;
        }
        self.planned_per_day *= factor;
        self.pieces_per_day *= factor;
    }

    /// Distribution of the pieces asked for in a number of days from now.
    ///
    /// # Source
    /// Failures of each position by its age (renewals after a first life that has already lasted that long), the
    /// positions independent; planned changes without a date are Poisson beside them.
    pub fn demand(&self, days: f64) -> LeadTimeDemand {
        let mut shares = vec![1.0];
        for position in &self.positions {
            let hours = position.hours_per_day * days;
            let failures = failures_of_aged(&self.fit.life, position.age_h, hours);
            shares = joined(&shares, &failures, position.pieces.round() as usize);
        }
        let planned = LeadTimeDemand::compound(self.planned_per_day * days, &self.sizes);
        if planned.moments().0 > 0.0 {
            let (mut others, mut left) = (Vec::new(), 1.0);
            planned.walk(|share| {
                others.push(share);
                left -= share;
                left < 1e-13
            });
            shares = joined(&shares, &others, 1);
        }
        LeadTimeDemand::Counted { shares }
    }

    /// The same over a lognormal time of this mean and coefficient of variation.
    pub fn demand_over_lognormal(&self, mean_days: f64, cv: f64) -> LeadTimeDemand {
        if cv <= 0.0 {
            return self.demand(mean_days);
        }
        let log_variance = (1.0 + cv * cv).ln();
        let days =
            |deviate: f64| mean_days * (log_variance.sqrt() * deviate - log_variance / 2.0).exp();
        // Five points keep the mean of the time to a few in ten thousand; it is set right, because levels rest on it.
        let mean: f64 = DEVIATES.iter().map(|(z, weight)| weight * days(*z)).sum();
        let mut mixed: Vec<f64> = Vec::new();
        for (deviate, weight) in DEVIATES {
            let LeadTimeDemand::Counted { shares } = self.demand(days(deviate) * mean_days / mean)
            else {
                continue;
            };
            mixed.resize(mixed.len().max(shares.len()), 0.0);
            for (sum, share) in mixed.iter_mut().zip(&shares) {
                *sum += weight * share;
            }
        }
        LeadTimeDemand::Counted { shares: mixed }
    }
}

/// Distribution of a sum of pieces and of `each` pieces for every one of a count.
fn joined(pieces: &[f64], counts: &[f64], each: usize) -> Vec<f64> {
    let each = each.max(1);
    let mut sum = vec![0.0; pieces.len() + (counts.len() - 1) * each];
    for (count, share) in counts.iter().enumerate() {
        for (at, piece) in pieces.iter().enumerate() {
            sum[at + count * each] += share * piece;
        }
    }
    while sum.len() > 1 && sum.last().is_some_and(|share| *share < LEAST_SHARE) {
        sum.pop();
    }
    sum
}

#[cfg(test)]
mod tests;
