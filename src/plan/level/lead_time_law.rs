//! The time from an order to the shelf, as the stock levels see it.

use super::lead_time_demand::LeadTimeDemand;
use crate::plan::demand::Demand;
use crate::plan::lead_time::{Arrival, LeadBasis};

/// Normal deviate of the late case, which nine of ten orders beat.
const LATE_DEVIATE: f64 = 1.281_551_565_544_600_4;

/// Mean and spread of a lead time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeadTimeLaw {
    /// Mean calendar days from the order to the shelf.
    pub mean_days: f64,
    /// Standard deviation over mean.
    pub cv: f64,
    /// What it rests on.
    pub basis: LeadBasis,
}

impl LeadTimeLaw {
    /// From an arrival: lognormal through its likely and its late moment.
    pub fn of(arrival: &Arrival, ordered_at: chrono::NaiveDateTime) -> Self {
        let days =
            |moment: chrono::NaiveDateTime| (moment - ordered_at).num_minutes() as f64 / 1440.0;
        let (likely, late) = (days(arrival.likely), days(arrival.late));
        let cv = if likely > 0.0 && late > likely {
            let log_sd = (late / likely).ln() / LATE_DEVIATE;
            ((log_sd * log_sd).exp() - 1.0).sqrt()
        } else {
            0.0
        };
        Self {
            mean_days: arrival.mean_days,
            cv: cv.min(2.0),
            basis: arrival.basis,
        }
    }

    /// Days from the order to the shelf that nine of ten orders beat: the lognormal with this mean and spread.
    pub fn late_days(&self) -> f64 {
        let variance = self.cv.mul_add(self.cv, 1.0).ln();
        let median = self.mean_days / (variance / 2.0).exp();
        median * (LATE_DEVIATE * variance.sqrt()).exp()
    }

    /// Demand while an order is on its way, the lead time `factor` times as long (or the usage `factor` times as much,
    /// which is the same).
    ///
    /// One-for-one orders need the mean of the lead time only (Palm; Feeney & Sherbrooke, Management Science 12:391-411,
    /// 1966); with orders of several units, which do not overtake each other, its spread widens the number of usages (law
    /// of total variance; exact for a gamma lead time and a known rate).
    pub fn demand(
        &self,
        demand: &Demand,
        factor: f64,
        is_one_for_one: bool,
    ) -> Option<LeadTimeDemand> {
        let cv = if is_one_for_one { 0.0 } else { self.cv };
        demand.distribution_over(self.mean_days * factor, cv)
    }
}
