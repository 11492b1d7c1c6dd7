//! Quantity used in a number of days, by its first two moments.

use std::fmt;

use super::super::LeadTimeDemand;
use super::gamma_poisson::EventRate;
use super::group::GroupOf;
use super::size::SizeMoments;

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
    /// Usages over exposure.
    Plain,
    /// Croston's method with the correction of Syntetos and Boylan, by month.
    Sba,
    /// Method of Teunter, Syntetos and Babai, by month.
    Tsb,
}

impl LeadTimeDemandMoments {
    /// Moments of the sum with an independent demand.
    pub fn plus(self, other: Self) -> Self {
        Self {
            mean_pieces: self.mean_pieces + other.mean_pieces,
            variance_pieces2: self.variance_pieces2 + other.variance_pieces2,
        }
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
    ///
    /// # Source
    /// Law of total variance with usages Poisson given rate and time: `Var[N] = E[r] E[T] + E[r^2] E[T^2] - (E[r] E[T])^2`;
    /// with a gamma time and a known rate that is the negative binomial of size `1 / cv^2`.
    pub fn over_random(&self, mean_days: f64, variance_days2: f64) -> LeadTimeDemandMoments {
        let rate = self.events.mean_per_day();
        let rate_square = rate * rate + rate / self.events.exposure_days;
        let time_square = mean_days * mean_days + variance_days2;
        let mean = rate * mean_days;
        self.compound((mean, mean + rate_square * time_square - mean * mean))
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
                "own usages and {group} ({group_events} usages of {parts} parts; a month counts {discount_per_month} of the next)"
            ),
            Self::Plain => f.write_str("usages over the days of records"),
            Self::Sba => f.write_str("size and interval smoothed by month (Syntetos and Boylan)"),
            Self::Tsb => {
                f.write_str("size and probability smoothed by month (Teunter, Syntetos and Babai)")
            }
        }
    }
}
