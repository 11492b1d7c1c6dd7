//! Quantity used in a number of days, by its first two moments.

use std::fmt;

use super::super::LeadTimeDemand;
use super::gamma_poisson::EventRate;
use super::group::GroupOf;
use super::size::SizeMoments;

/// Logarithm of the probability of no demand below which sums from there on would lose their digits.
const LEAST_LOG: f64 = -600.0;

/// Target above which rounding might keep a sum from reaching it.
const MOST_SHARE: f64 = 1.0 - 1e-11;

/// Mean and variance of the quantity used in a time.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct LeadTimeDemandMoments {
    /// Mean.
    pub mean_pieces: f64,
    /// Variance.
    pub variance_pieces2: f64,
}

/// How often a part is used and in what quantities, with what that rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct DemandRate {
    /// Usages.
    pub events: EventRate,
    /// Quantity of a usage.
    pub size: SizeMoments,
    /// What it rests on.
    pub basis: RateBasis,
}

/// What a rate rests on.
#[derive(Debug, Clone, PartialEq)]
pub enum RateBasis {
    /// Own usages and the part's group.
    Shrunk {
        /// The group.
        group: GroupOf,
        /// Parts in the group.
        parts: usize,
        /// Usages of the group.
        group_events: usize,
        /// Weight of a month's history against that of the month after it.
        discount_per_month: f64,
    },
    /// Sum of several numbers kept as one stock.
    Pooled {
        /// Numbers.
        parts: usize,
        /// True where the rate of each rests on its group as well.
        is_shrunk: bool,
    },
    /// Usages over exposure.
    Plain,
    /// Croston's method with the correction of Syntetos and Boylan, by month.
    Sba,
    /// Method of Teunter, Syntetos and Babai, by month.
    Tsb,
}

impl RateBasis {
    /// True where the rate rests on the part's group as well.
    pub const fn is_shrunk(&self) -> bool {
        matches!(
            self,
            Self::Shrunk { .. }
                | Self::Pooled {
                    is_shrunk: true,
                    ..
                }
        )
    }
}

impl LeadTimeDemandMoments {
    /// Moments of the sum with an independent demand.
    pub fn plus(self, other: Self) -> Self {
        Self {
            mean_pieces: self.mean_pieces + other.mean_pieces,
            variance_pieces2: self.variance_pieces2 + other.variance_pieces2,
        }
    }

    /// Smallest r with P(demand <= r) at or above the target; `None` beyond a million pieces.
    ///
    /// The same as of [`distribution`](Self::distribution), by adding probabilities up instead of by their closed sum.
    pub fn reorder_point(self, target_share: f64) -> Option<u64> {
        let (mean, variance) = (self.mean_pieces, self.variance_pieces2);
        if mean <= 0.0 {
            return Some(0);
        }
        // Both distributions in the form p(k) = p(k - 1) (a + b / k) of Panjer's class.
        let (a, b, log_none) = if variance > mean * (1.0 + 1e-9) {
            let size = mean * mean / (variance - mean);
            let miss = 1.0 - mean / variance;
            (miss, (size - 1.0) * miss, size * (mean / variance).ln())
        } else {
            (0.0, mean, -mean)
        };
        if log_none < LEAST_LOG || target_share > MOST_SHARE {
            return self.distribution().reorder_point(target_share);
        }
        let mut share = log_none.exp();
        let (mut sum, mut units) = (share, 0.0);
        while sum < target_share {
            units += 1.0;
            share *= a + b / units;
            sum += share;
        }
        Some(units as u64)
    }

    /// Negative binomial with these moments, Poisson where the variance is no larger than the mean.
    pub fn distribution(self) -> LeadTimeDemand {
        LeadTimeDemand::new(self.mean_pieces, self.variance_pieces2)
    }
}

impl DemandRate {
    /// Moments over a number of days.
    ///
    /// # Source
    /// With N usages of mean m and squared coefficient of variation c: mean `E[N] m`, variance
    /// `E[N] m^2 c + Var[N] m^2` (random sums, Ross, Introduction to Probability Models, from memory).
    pub fn over(&self, days: f64) -> LeadTimeDemandMoments {
        self.compound(self.events.events_over(days))
    }

    /// Moments over a time that varies, for orders that do not overtake each other.
    pub fn over_random(&self, mean_days: f64, variance_days2: f64) -> LeadTimeDemandMoments {
        self.compound(self.events.events_over_random(mean_days, variance_days2))
    }

    fn compound(&self, (mean, variance): (f64, f64)) -> LeadTimeDemandMoments {
        let size = self.size;
        LeadTimeDemandMoments {
            mean_pieces: mean * size.mean_pieces,
            variance_pieces2: size.mean_pieces.powi(2) * (mean * size.squared_cv + variance),
        }
    }
}

impl fmt::Display for RateBasis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Shrunk {
                group,
                parts,
                group_events,
                discount_per_month,
            } => write!(
                f,
                "own usages and {group} ({group_events} usages of {parts} parts, a month counting {discount_per_month:.3} of the next)"
            ),
            Self::Pooled { parts, .. } => write!(f, "sum of {parts} numbers kept as one stock"),
            Self::Plain => f.write_str("usages over the days of records"),
            Self::Sba => f.write_str("size and interval smoothed by month (Syntetos and Boylan)"),
            Self::Tsb => {
                f.write_str("size and probability smoothed by month (Teunter, Syntetos and Babai)")
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_of_probabilities_reach_a_target_where_their_closed_form_does() {
        for mean in [0.0, 0.003, 0.4, 2.0, 17.0, 300.0, 4000.0] {
            for spread in [1.0, 1.2, 4.0, 60.0] {
                let moments = LeadTimeDemandMoments {
                    mean_pieces: mean,
                    variance_pieces2: mean * spread,
                };
                for target in [0.5, 0.9, 0.99, 0.9999] {
                    let closed = moments.distribution().reorder_point(target);
                    assert_eq!(
                        moments.reorder_point(target),
                        closed,
                        "{mean} {spread} {target}"
                    );
                }
            }
        }
    }
}
