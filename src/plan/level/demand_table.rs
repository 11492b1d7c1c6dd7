//! Probabilities and expected shortfalls of a demand, one more unit at a time, worked out once.

use super::lead_time_demand::LeadTimeDemand;

/// Probability beyond which a table stops: what is left out moves no printed figure.
pub(super) const TAIL: f64 = 1e-13;

/// Longest table.
pub(super) const MOST_UNITS: i64 = 2_000_000;

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
            (1.0 - sum < TAIL || zeros >= most_zeros) && is_past_mean
                || shares.len() as i64 >= MOST_UNITS
        });
        shares.shrink_to_fit();
        // Whole units that hold a demand in parts are more than it is.
        let mean = match demand {
            LeadTimeDemand::InParts { .. } => {
                let units = shares.iter().zip(0_u32..);
                units.map(|(share, units)| share * f64::from(units)).sum()
            }
            _ => mean,
        };
        Self::of_shares(mean, shares)
    }

    /// Tables probabilities of 0, 1, 2, ... units whose mean is known.
    pub fn of_shares(mean: f64, shares: Vec<f64>) -> Self {
        let column = || Vec::with_capacity(shares.len());
        let (mut at_most, mut shortfall) = (column(), column());
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

    /// Sum of the shortfalls at every position from one to another; beyond the table nothing is left to add.
    pub fn shortfall_sum(&self, first: i64, last: i64) -> f64 {
        let below = last.min(-1);
        let mut sum = 0.0;
        if first <= below {
            let count = (below - first + 1) as f64;
            sum += count * (self.mean - f64::midpoint(first as f64, below as f64));
        }
        sum + self
            .within(&self.shortfall, first, last)
            .iter()
            .sum::<f64>()
    }

    /// Sum of P(demand <= y) over every y from one to another.
    pub fn at_most_sum(&self, first: i64, last: i64) -> f64 {
        let beyond = (last - first.max(self.end()) + 1).max(0) as f64;
        self.within(&self.at_most, first, last).iter().sum::<f64>() + beyond
    }

    /// The part of a column that lies from one position to another.
    fn within<'a>(&self, column: &'a [f64], first: i64, last: i64) -> &'a [f64] {
        let from = first.clamp(0, self.end()) as usize;
        let until = (last + 1).clamp(0, self.end()) as usize;
        column.get(from..until).unwrap_or_default()
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_are_those_of_their_terms_inside_and_outside_of_the_table() {
        let table = DemandTable::new(&LeadTimeDemand::Poisson { mean: 2.5 });
        for (first, last) in [
            (-5, -2),
            (-3, 4),
            (0, 0),
            (2, 90),
            (60, 70),
            (-4, 400),
            (5, 4),
        ] {
            let short: f64 = (first..=last).map(|y| table.shortfall(y)).sum();
            assert!(
                (table.shortfall_sum(first, last) - short).abs() < 1e-9,
                "{first} {last}"
            );
            let at_most: f64 = (first..=last).map(|y| table.at_most(y)).sum();
            assert!(
                (table.at_most_sum(first, last) - at_most).abs() < 1e-9,
                "{first} {last}"
            );
        }
        // A quantity typed with too many digits takes no longer. Closed form: E[D (D + 1) / 2] = (m² + 2 m) / 2.
        assert!((table.shortfall_sum(0, i64::MAX / 4) - 5.625).abs() < 1e-6);
    }
}
