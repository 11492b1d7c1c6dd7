//! Moments at which something may arrive, with their probabilities.

use crate::plan::tolerance::SHARE_TOLERANCE;
use chrono::NaiveDateTime;

/// Distribution of the moment of an arrival, after every calendar.
///
/// Discrete: goods are received at receiving hours, work is done within shifts.
#[derive(Debug, Clone, PartialEq)]
pub struct ArrivalDistribution {
    /// Moment and probability that it is there by then, both rising.
    moments: Vec<(NaiveDateTime, f64)>,
}

impl ArrivalDistribution {
    /// This moment for sure.
    pub fn certain(moment: NaiveDateTime) -> Self {
        Self {
            moments: vec![(moment, 1.0)],
        }
    }

    /// Takes moments with the probability that it is there by then, both rising.
    pub(in crate::plan) const fn of(moments: Vec<(NaiveDateTime, f64)>) -> Self {
        Self { moments }
    }

    /// Probability that it is there at this moment.
    pub fn cdf(&self, at: NaiveDateTime) -> f64 {
        let after = self.moments.partition_point(|(moment, _)| *moment <= at);
        after
            .checked_sub(1)
            .map_or(0.0, |last| self.moments[last].1)
    }

    /// Earliest moment by which it is there in this share of cases; `None` beyond the last moment.
    pub fn quantile(&self, share: f64) -> Option<NaiveDateTime> {
        let at = self
            .moments
            .partition_point(|(_, reached)| *reached < share - SHARE_TOLERANCE);
        self.moments.get(at).map(|(moment, _)| *moment)
    }

    /// Moments with the probability that it is there by then, both rising.
    pub fn moments(&self) -> &[(NaiveDateTime, f64)] {
        &self.moments
    }

    /// Probability that it comes later than the last moment: the far end of the distribution that is left out.
    pub fn beyond(&self) -> f64 {
        1.0 - self.moments.last().map_or(0.0, |(_, share)| *share)
    }

    /// The moment of one random case; `uniform` from 0 up to 1. What lies beyond comes at the last moment.
    ///
    /// The same `uniform` for several arrivals makes them late together.
    pub fn at_draw(&self, uniform: f64) -> Option<NaiveDateTime> {
        self.quantile(uniform)
            .or_else(|| self.moments.last().map(|(moment, _)| *moment))
    }

    /// Mean hours on the clock from a moment until the arrival, those before it as 0; what lies beyond counts at the
    /// last moment.
    pub fn mean_hours_after(&self, from: NaiveDateTime) -> f64 {
        let hours = |moment: NaiveDateTime| (moment - from).num_seconds().max(0) as f64 / 3600.0;
        let mut reached = 0.0;
        let mut mean = 0.0;
        for (moment, share) in &self.moments {
            mean += (share - reached) * hours(*moment);
            reached = *share;
        }
        let last = self
            .moments
            .last()
            .map_or(0.0, |(moment, _)| hours(*moment));
        mean + (1.0 - reached) * last
    }
}
