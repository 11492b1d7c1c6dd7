//! Lead times on the log scale: mean and spread of what was observed, orders still open included.

use statrs::distribution::{Continuous, ContinuousCDF};

use super::spread::{LeadTime, normal};

/// A delivery on the day of the order counts as half a day, because the logarithm of 0 does not exist.
///
/// Common practice, no source.
pub const SAME_DAY_DAYS: f64 = 0.5;

/// Steps after which an iteration that has not settled is taken as it is.
const MOST_STEPS: usize = 20_000;

/// Count, mean and sample standard deviation of the logarithms of some durations.
///
/// # Source
/// Predictive quantile of a lognormal with unknown mean and variance: `exp(m + t(p, n-1) s sqrt(1 + 1/n))`, the
/// prediction interval for one more normal observation (Hahn & Meeker, Statistical Intervals, ch. 4, from
/// memory), taken on the log scale. Orders still open are right-censored and weighed by expectation and maximisation
/// (Dempster, Laird & Rubin, J. R. Statist. Soc. B 39:1-38, 1977): each is replaced by the mean and the mean square of
/// a normal value above its age, until nothing changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LogSample {
    /// Number of durations that are over.
    pub count: usize,
    /// Mean of the logarithms.
    pub log_mean: f64,
    /// Standard deviation of the logarithms, divided by `count - 1`.
    pub log_sd: f64,
}

impl LogSample {
    /// Takes durations in days (or ratios); `None` for fewer than two.
    pub fn new(durations: &[f64]) -> Option<Self> {
        Self::with_open(durations, &[])
    }

    /// Takes durations and the ages of orders that are still open.
    ///
    /// The maximum-likelihood standard deviation is turned into that of a sample of `count`: an open order moves mean
    /// and spread, but makes nothing more certain than the finished ones do.
    pub fn with_open(durations: &[f64], open_ages: &[f64]) -> Option<Self> {
        let count = durations.len();
        if count < 2 {
            return None;
        }
        let n = count as f64;
        let logs: Vec<f64> = durations.iter().copied().map(log_of).collect();
        let ages: Vec<f64> = open_ages.iter().copied().map(log_of).collect();
        let sum: f64 = logs.iter().sum();
        let mut mean = sum / n;
        let mut sd = (squares(&logs, mean) / n).sqrt();
        if sd > 1e-9 && !ages.is_empty() {
            let all = n + ages.len() as f64;
            for _ in 0..MOST_STEPS {
                let above: Vec<(f64, f64)> = ages
                    .iter()
                    .map(|age| normal_above(mean, sd, *age))
                    .collect();
                let next = (sum + above.iter().map(|(first, _)| first).sum::<f64>()) / all;
                let spread = above
                    .iter()
                    .map(|(first, variance)| variance + (first - next).powi(2));
                let next_sd = ((squares(&logs, next) + spread.sum::<f64>()) / all).sqrt();
                let moved = (next - mean).abs() + (next_sd - sd).abs();
                (mean, sd) = (next, next_sd);
                if moved < 1e-13 {
                    break;
                }
            }
        }
        Some(Self {
            count,
            log_mean: mean,
            log_sd: sd * (n / (n - 1.0)).sqrt(),
        })
    }

    /// As [`with_open`](Self::with_open), and a single duration as a sample without a spread of its own; `None` of
    /// nothing.
    pub fn of_few(durations: &[f64], open_ages: &[f64]) -> Option<Self> {
        match durations {
            [only] => Some(Self {
                count: 1,
                log_mean: log_of(*only),
                log_sd: 0.0,
            }),
            _ => Self::with_open(durations, open_ages),
        }
    }

    /// Standard deviation of the logarithms by maximum likelihood, divided by `count`.
    pub fn log_sd_of_likelihood(&self) -> f64 {
        let n = self.count as f64;
        self.log_sd * ((n - 1.0) / n).sqrt()
    }

    /// Distribution of the next duration.
    pub fn next(&self) -> LeadTime {
        let n = self.count as f64;
        LeadTime::log_student(self.log_mean, self.log_sd * (1.0 + 1.0 / n).sqrt(), n - 1.0)
    }

    /// Quantile of the next duration, `share` between 0 and 1.
    pub fn predictive(&self, share: f64) -> f64 {
        self.next().quantile(share)
    }

    /// The same sample with a spread no smaller than that of rounding to whole days: one day over the root of twelve.
    ///
    /// Ten receipts of the same whole number of days do not make the eleventh certain to the hour.
    #[must_use]
    pub fn rounded_to_days(self) -> Self {
        if self.count < 2 {
            return self;
        }
        let rounding = (1.0 / 12.0_f64).sqrt() / self.log_mean.exp();
        Self {
            log_sd: self.log_sd.max(rounding),
            ..self
        }
    }
}

/// Mean and variance of a normal value that is known to lie above `least`.
fn normal_above(mean: f64, sd: f64, least: f64) -> (f64, f64) {
    let z = (least - mean) / sd;
    let tail = normal().sf(z);
    // Far out the hazard of the normal grows as z + 1/z.
    let hazard = if tail > 1e-280 {
        normal().pdf(z) / tail
    } else {
        z + 1.0 / z
    };
    (
        mean + sd * hazard,
        (sd * sd * (1.0 + z * hazard - hazard * hazard)).max(0.0),
    )
}

fn squares(logs: &[f64], mean: f64) -> f64 {
    logs.iter().map(|log| (log - mean).powi(2)).sum()
}

fn log_of(days: f64) -> f64 {
    days.max(f64::MIN_POSITIVE).ln()
}

/// Days between two dates as a duration: at least half a day.
pub fn days_or_half(days: i64) -> f64 {
    (days as f64).max(SAME_DAY_DAYS)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_durations_predict_themselves_up_to_rounding() {
        let sample = LogSample::new(&[10.0; 6]).unwrap();
        assert!((sample.predictive(0.9) - 10.0).abs() < 1e-9);
        assert_eq!(sample.next().remaining(11.0, 0.5), None);
        let rounded = sample.rounded_to_days();
        assert!(rounded.predictive(0.9) > 10.0 && rounded.predictive(0.9) < 10.6);
    }

    #[test]
    fn an_old_order_still_takes_its_time() {
        let sample = LogSample::new(&[20.0, 22.0, 25.0, 21.0, 60.0, 24.0, 35.0]).unwrap();
        let fresh = sample.next().remaining(0.0, 0.5).unwrap();
        assert!((fresh - sample.log_mean.exp()).abs() < 1e-9);
        let old = sample.next().remaining(40.0, 0.5).unwrap();
        assert!(old > 0.0 && old + 40.0 > fresh);
    }

    #[test]
    fn one_duration_is_no_sample() {
        assert_eq!(LogSample::new(&[3.0]), None);
    }

    #[test]
    fn an_order_open_for_long_makes_the_next_later_and_a_young_one_says_nothing() {
        let days = [12.0, 14.0, 13.0, 15.0, 12.0, 16.0];
        let alone = LogSample::new(&days).unwrap();
        let with_old = LogSample::with_open(&days, &[30.0]).unwrap();
        assert!(with_old.predictive(0.9) > alone.predictive(0.9));
        let with_young = LogSample::with_open(&days, &[1.0]).unwrap();
        assert!((with_young.predictive(0.9) / alone.predictive(0.9) - 1.0).abs() < 0.01);
    }
}
