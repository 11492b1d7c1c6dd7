//! In how many cases something is here by when.
//!
//! The seam to lead times: an [`Arrival`] in, shares by moment out. Everything after it works on steps.

use statrs::distribution::{ContinuousCDF, Normal};

use super::work_clock::{RECEIPT_DAYS, WorkClock};
use crate::plan::lead_time::{Arrival, LATE_SHARE};

/// Hours ahead within which own work, couriers and other bins are told apart by the hour; after that by six hours.
const BY_THE_HOUR: i64 = 48;

/// Share of cases below which an early arrival is left out.
const LEAST_SHARE: f64 = 1e-5;

/// Shares by moment, in seconds from the moment of planning.
#[derive(Debug, Clone, PartialEq)]
pub struct ArrivalLaw {
    /// Moments, rising, with the share of cases in which it is here by then; the last share is 1.
    steps: Vec<(i64, f64)>,
}

impl ArrivalLaw {
    /// Here at a moment for sure.
    pub fn certain(moment_s: i64) -> Self {
        Self {
            steps: vec![(moment_s, 1.0)],
        }
    }

    /// Takes rising moments with rising shares; the last becomes 1.
    pub fn new(steps: impl IntoIterator<Item = (i64, f64)>) -> Self {
        let mut kept: Vec<(i64, f64)> = Vec::new();
        for (moment, share) in steps {
            match kept.last_mut() {
                Some(last) if last.0 == moment => last.1 = last.1.max(share),
                Some(last) if share <= last.1 => {}
                _ => kept.push((moment, share)),
            }
        }
        match kept.last_mut() {
            Some(last) => last.1 = 1.0,
            None => kept.push((0, 1.0)),
        }
        Self { steps: kept }
    }

    /// The law behind an arrival: lognormal through its likely and its late moment, received when goods are received.
    ///
    /// # Source
    /// Lognormal lead times: best for most of the suppliers among 2,660 real orders of 22 vendors (USAID SCMS delivery
    /// history, open data).
    pub fn of(arrival: &Arrival, clock: &WorkClock) -> Self {
        let (likely, late) = (clock.seconds(arrival.likely), clock.seconds(arrival.late));
        if late <= likely || likely == 0 {
            return Self::certain(likely.max(late));
        }
        let standard = Normal::standard();
        let deviation = (late as f64 / likely as f64).ln() / standard.inverse_cdf(LATE_SHARE);
        let share = |moment: i64| standard.cdf((moment as f64 / likely as f64).ln() / deviation);
        let is_receipt = |moment: i64| clock.receipts().binary_search(&moment).is_ok();
        let moments = if is_receipt(likely) && is_receipt(late) {
            clock.receipts().to_vec()
        } else {
            hours(likely, late)
        };
        let mut steps = Vec::new();
        for moment in moments {
            // Exact at the two moments that are shown, whatever the rounding.
            let by_then = if moment == likely {
                0.5
            } else if moment == late {
                LATE_SHARE
            } else {
                share(moment)
            };
            if by_then < LEAST_SHARE {
                continue;
            }
            steps.push((moment, by_then));
            if by_then > 1.0 - LEAST_SHARE {
                break;
            }
        }
        Self::new(steps)
    }

    /// Share of cases in which it is here by a moment.
    pub fn share_by(&self, moment_s: i64) -> f64 {
        let after = self
            .steps
            .partition_point(|(moment, _)| *moment <= moment_s);
        after.checked_sub(1).map_or(0.0, |at| self.steps[at].1)
    }

    /// First moment by which it is here in this share of cases.
    pub fn quantile(&self, share: f64) -> i64 {
        let at = self
            .steps
            .partition_point(|(_, by_then)| *by_then < share - 1e-12);
        self.steps[at.min(self.steps.len() - 1)].0
    }

    /// Mean moment.
    pub fn mean_s(&self) -> f64 {
        let mut before = 0.0;
        let mut mean = 0.0;
        for (moment, share) in &self.steps {
            mean += *moment as f64 * (share - before);
            before = *share;
        }
        mean
    }

    /// The same with every moment moved by a rule that never falls.
    pub fn mapped(&self, rule: impl Fn(i64) -> Option<i64>) -> Option<Self> {
        let steps: Option<Vec<(i64, f64)>> = self
            .steps
            .iter()
            .map(|(moment, share)| Some((rule(*moment)?, *share)))
            .collect();
        Some(Self::new(steps?))
    }

    /// The later of several that know nothing of each other: the product of the shares.
    pub fn last_of(laws: &[&Self]) -> Self {
        Self::joined(laws, |shares| shares.product())
    }

    /// The later of several that are all late together: the least of the shares.
    pub fn last_together(laws: &[&Self]) -> Self {
        Self::joined(laws, |shares| shares.fold(1.0, f64::min))
    }

    /// The earlier of two that know nothing of each other.
    pub fn first_of(&self, other: &Self) -> Self {
        Self::joined(&[self, other], |shares| {
            1.0 - shares.map(|share| 1.0 - share).product::<f64>()
        })
    }

    fn joined(laws: &[&Self], join: impl Fn(&mut dyn Iterator<Item = f64>) -> f64) -> Self {
        let mut moments: Vec<i64> = laws.iter().flat_map(|law| law.moments()).collect();
        moments.sort_unstable();
        moments.dedup();
        Self::new(
            moments
                .into_iter()
                .map(|moment| {
                    let share = join(&mut laws.iter().map(|law| law.share_by(moment)));
                    (moment, share)
                })
                .filter(|(_, share)| *share > 0.0),
        )
    }

    /// Moments at which the share rises.
    pub fn moments(&self) -> impl Iterator<Item = i64> {
        self.steps.iter().map(|(moment, _)| *moment)
    }

    /// Shares at given moments, rising.
    pub fn on(&self, moments: &[i64]) -> Vec<f64> {
        let mut at = 0;
        let mut share = 0.0;
        moments
            .iter()
            .map(|moment| {
                while let Some((step, by_then)) = self.steps.get(at)
                    && step <= moment
                {
                    share = *by_then;
                    at += 1;
                }
                share
            })
            .collect()
    }
}

/// Hours around two moments, both among them.
fn hours(likely: i64, late: i64) -> Vec<i64> {
    let last = RECEIPT_DAYS as i64 * 86_400;
    let mut moments = vec![late];
    let mut moment = likely % 3600;
    while moment < last {
        moments.push(moment);
        moment += if moment < BY_THE_HOUR * 3600 || moment < likely {
            3600
        } else {
            6 * 3600
        };
    }
    moments.sort_unstable();
    moments.dedup();
    moments
}

#[cfg(test)]
mod tests;
