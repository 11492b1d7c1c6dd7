//! Probabilities and expected shortfalls of a demand, one more unit at a time, worked out once.

use super::lead_time_demand::LeadTimeDemand;

/// Probability beyond which a table stops: what is left out moves no printed figure.
const TAIL: f64 = 1e-13;

/// Longest table.
const MOST_UNITS: usize = 2_000_000;

/// A demand in whole units, tabled up to where nothing is left.
///
/// # Units
/// Positions are units of count; shares are 0 to 1; shortfalls are units.
#[derive(Debug, Clone, PartialEq)]
pub struct DemandTable {
    mean: f64,
    shares: Vec<f64>,
    at_most: Vec<f64>,
    shortfall: Vec<f64>,
}

impl DemandTable {
    /// Tables a demand.
    pub fn new(demand: &LeadTimeDemand) -> Self {
        let (mean, _) = demand.moments();
        let mut shares = Vec::new();
        let mut sum = 0.0;
        // Usages of two and four leave every other probability at 0: as many in a row as the largest size are the end.
        let most_zeros = demand.largest_size();
        let mut zeros = 0;
        demand.walk(|share| {
            shares.push(share);
            sum += share;
            zeros = if share < 1e-18 { zeros + 1 } else { 0 };
            let is_past_mean = shares.len() as f64 > mean;
            (1.0 - sum < TAIL || zeros >= most_zeros) && is_past_mean || shares.len() >= MOST_UNITS
        });
        Self::of_shares(mean, shares)
    }

    /// Tables probabilities of 0, 1, 2, ... units whose mean is known.
    pub fn of_shares(mean: f64, shares: Vec<f64>) -> Self {
        let (mut at_most, mut shortfall) = (Vec::new(), Vec::new());
        let (mut sum, mut short) = (0.0_f64, mean);
        for share in &shares {
            sum += share;
            at_most.push(sum.min(1.0));
            shortfall.push(short.max(0.0));
            short -= 1.0 - sum;
        }
        Self {
            mean,
            shares,
            at_most,
            shortfall,
        }
    }

    /// From what is left waiting with 0, 1, 2, ... units.
    pub fn of_shortfalls(shortfall: Vec<f64>) -> Self {
        let next = |at: usize| shortfall.get(at + 1).copied().unwrap_or(0.0);
        let at_most: Vec<f64> = shortfall
            .iter()
            .enumerate()
            .map(|(at, short)| (1.0 - (short - next(at))).clamp(0.0, 1.0))
            .collect();
        let before = |at: usize| at.checked_sub(1).map_or(0.0, |at| at_most[at]);
        Self {
            mean: shortfall.first().copied().unwrap_or(0.0),
            shares: (0..at_most.len())
                .map(|at| (at_most[at] - before(at)).max(0.0))
                .collect(),
            at_most,
            shortfall,
        }
    }

    /// Expected demand.
    pub const fn mean(&self) -> f64 {
        self.mean
    }

    /// Probability of a demand of exactly `units`.
    pub fn share(&self, units: i64) -> f64 {
        at(&self.shares, units).unwrap_or(0.0)
    }

    /// Probability of a demand of at most `units`.
    pub fn at_most(&self, units: i64) -> f64 {
        if units < 0 {
            0.0
        } else {
            at(&self.at_most, units).unwrap_or(1.0)
        }
    }

    /// Expected demand beyond `units`, `E[max(X - units, 0)]`.
    pub fn shortfall(&self, units: i64) -> f64 {
        if units < 0 {
            self.mean - units as f64
        } else {
            at(&self.shortfall, units).unwrap_or(0.0)
        }
    }

    /// Smallest number of units with P(demand <= units) at or above a share.
    pub fn quantile(&self, share: f64) -> i64 {
        self.at_most.partition_point(|sum| *sum < share) as i64
    }

    /// Units up to which the table goes; beyond that nothing is left.
    pub fn end(&self) -> i64 {
        self.shares.len() as i64
    }
}

fn at(values: &[f64], units: i64) -> Option<f64> {
    values.get(usize::try_from(units).ok()?).copied()
}
