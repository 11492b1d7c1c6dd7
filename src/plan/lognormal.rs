//! Lead times on the log scale: what the next order will take, and what an open one still takes.

use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

/// A delivery on the day of the order counts as half a day, because the logarithm of 0 does not exist.
///
/// Common practice, no source.
const SAME_DAY_DAYS: f64 = 0.5;

/// Count, mean and sample standard deviation of the logarithms of some durations.
///
/// # Source
/// Predictive quantile of a lognormal with unknown mean and variance: `exp(m + t(p, n-1) s sqrt(1 + 1/n))`, the
/// prediction interval for one more normal observation (Hahn & Meeker, Statistical Intervals, ch. 4, from
/// memory), taken on the log scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LogSample {
    /// Number of durations.
    pub count: usize,
    /// Mean of the logarithms.
    pub log_mean: f64,
    /// Standard deviation of the logarithms, divided by `count - 1`.
    pub log_sd: f64,
}

impl LogSample {
    /// Takes durations in days (or ratios); `None` for fewer than two.
    pub fn new(durations: &[f64]) -> Option<Self> {
        let count = durations.len();
        if count < 2 {
            return None;
        }
        let logs: Vec<f64> = durations
            .iter()
            .map(|days| days.max(f64::MIN_POSITIVE).ln())
            .collect();
        let log_mean = logs.iter().sum::<f64>() / count as f64;
        let squares: f64 = logs.iter().map(|log| (log - log_mean).powi(2)).sum();
        Some(Self {
            count,
            log_mean,
            log_sd: (squares / (count - 1) as f64).sqrt(),
        })
    }

    /// Quantile of the next duration, `share` between 0 and 1.
    pub fn predictive(&self, share: f64) -> f64 {
        let freedom = (self.count - 1) as f64;
        let t = StudentsT::new(0.0, 1.0, freedom).map_or(0.0, |t| t.inverse_cdf(share));
        (self.log_mean + t * self.predictive_sd()).exp()
    }

    /// Mean of the fitted lognormal; the mean of the predictive distribution does not exist.
    pub fn mean(&self) -> f64 {
        (self.log_mean + self.log_sd.powi(2) / 2.0).exp()
    }

    /// Days an order of this age still takes, at a quantile; `None` where nothing ever took as long.
    pub fn remaining(&self, age_days: f64, share: f64) -> Option<f64> {
        remaining_days(self.log_mean, self.predictive_sd(), age_days, share)
    }

    fn predictive_sd(&self) -> f64 {
        self.log_sd * (1.0 + 1.0 / self.count as f64).sqrt()
    }
}

/// Quantile of the days still to wait, given that the order is `age_days` old and not here.
///
/// # Units
/// `log_mean` and `log_sd` of the logarithm of days; result in days.
pub fn remaining_days(log_mean: f64, log_sd: f64, age_days: f64, share: f64) -> Option<f64> {
    if log_sd < 1e-9 {
        let left = log_mean.exp() - age_days;
        return (left > 0.0).then_some(left);
    }
    let normal = Normal::new(0.0, 1.0).ok()?;
    let still_open = if age_days > 0.0 {
        normal.sf((age_days.ln() - log_mean) / log_sd)
    } else {
        1.0
    };
    let upper = (1.0 - share) * still_open;
    if upper <= 1e-12 {
        return None;
    }
    let total = (log_mean - normal.inverse_cdf(upper) * log_sd).exp();
    Some((total - age_days).max(0.0))
}

/// Middle value; mean of the two middle ones for an even number, `None` for none.
pub fn median(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = sorted.len() / 2;
    if sorted.len() % 2 == 1 {
        sorted.get(middle).copied()
    } else {
        Some((sorted.get(middle.checked_sub(1)?)? + sorted.get(middle)?) / 2.0)
    }
}

/// Days between two dates as a duration: at least half a day.
pub fn days_or_half(days: i64) -> f64 {
    (days as f64).max(SAME_DAY_DAYS)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_durations_predict_themselves_and_nothing_beyond() {
        let sample = LogSample::new(&[10.0; 6]).unwrap();
        assert!((sample.predictive(0.9) - 10.0).abs() < 1e-9);
        assert!((sample.remaining(4.0, 0.9).unwrap() - 6.0).abs() < 1e-9);
        assert_eq!(sample.remaining(11.0, 0.5), None);
    }

    #[test]
    fn an_old_order_still_takes_its_time() {
        let sample = LogSample::new(&[20.0, 22.0, 25.0, 21.0, 60.0, 24.0, 35.0]).unwrap();
        let fresh = sample.remaining(0.0, 0.5).unwrap();
        assert!((fresh - sample.log_mean.exp()).abs() < 1e-9);
        let old = sample.remaining(40.0, 0.5).unwrap();
        assert!(old > 0.0 && old + 40.0 > fresh);
    }

    #[test]
    fn one_duration_is_no_sample() {
        assert_eq!(LogSample::new(&[3.0]), None);
        assert_eq!(median(&[]), None);
        assert_eq!(median(&[1.0, 9.0, 3.0]), Some(3.0));
    }
}
