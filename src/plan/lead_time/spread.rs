//! How long something may take: a distribution of days, working days or hours, before any calendar.

use statrs::distribution::{ContinuousCDF, Gamma, Normal, StudentsT};

use super::remembered;
use crate::plan::three_points::THREE_POINTS;

/// Degrees of freedom above which Student's t is the normal distribution to six digits.
const NORMAL_FROM_FREEDOM: f64 = 1e5;

/// Times its middle case that a lead time without a mean is taken to last at most, where that is more than the longest of
/// all. Common practice, no source.
const LONGEST_TIMES: f64 = 4.0;

/// Panels of three points for each half of an integral: right to a thousandth for the spreads and degrees of freedom that
/// receipts give.
const PANELS: u32 = 8;

/// Halvings of a bracket: enough for every bit of a double.
const HALVINGS: usize = 200;

/// A lead time, in the unit of its use (working days, calendar days or hours).
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LeadTime {
    /// This long for sure.
    Fixed {
        /// How long.
        amount: f64,
    },
    /// Its logarithm is normal.
    Lognormal {
        /// Mean of the logarithm.
        log_mean: f64,
        /// Standard deviation of the logarithm, above 0.
        log_sd: f64,
    },
    /// Its logarithm is Student's t: the next value of a lognormal of which only a few values are known.
    LogStudent {
        /// Middle of the logarithm.
        location: f64,
        /// Scale of the logarithm, above 0.
        scale: f64,
        /// Degrees of freedom.
        freedom: f64,
    },
    /// Gamma.
    Gamma {
        /// Shape, above 0.
        shape: f64,
        /// Scale, in the unit of the lead time, above 0.
        scale: f64,
    },
}

impl LeadTime {
    /// Student's t on the logarithm, or the lognormal or the fixed value it shrinks to.
    pub fn log_student(location: f64, scale: f64, freedom: f64) -> Self {
        if scale < 1e-9 {
            Self::Fixed {
                amount: location.exp(),
            }
        } else if freedom > NORMAL_FROM_FREEDOM {
            Self::Lognormal {
                log_mean: location,
                log_sd: scale,
            }
        } else {
            Self::LogStudent {
                location,
                scale,
                freedom,
            }
        }
    }

    /// Lognormal with this middle value, which is exceeded by `late_factor` times in one case of ten.
    pub fn by_late_factor(median: f64, late_factor: f64) -> Self {
        Self::log_student(
            median.max(f64::MIN_POSITIVE).ln(),
            late_factor.max(1.0).ln() / normal().inverse_cdf(super::LATE_SHARE),
            f64::INFINITY,
        )
    }

    /// The same lead time, `factor` times as long.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        let log = factor.max(f64::MIN_POSITIVE).ln();
        match self {
            Self::Fixed { amount } => Self::Fixed {
                amount: amount * factor,
            },
            Self::Lognormal { log_mean, log_sd } => Self::Lognormal {
                log_mean: log_mean + log,
                log_sd,
            },
            Self::LogStudent {
                location,
                scale,
                freedom,
            } => Self::LogStudent {
                location: location + log,
                scale,
                freedom,
            },
            Self::Gamma { shape, scale } => Self::Gamma {
                shape,
                scale: scale * factor,
            },
        }
    }

    /// The same lead time with a further variance of its logarithm; a gamma stays as it is.
    #[must_use]
    pub fn widened(self, log_variance: f64) -> Self {
        let wider = |scale: f64| (scale.powi(2) + log_variance).sqrt();
        match self {
            Self::Fixed { amount } => Self::log_student(amount.ln(), wider(0.0), f64::INFINITY),
            Self::Lognormal { log_mean, log_sd } => Self::Lognormal {
                log_mean,
                log_sd: wider(log_sd),
            },
            Self::LogStudent {
                location,
                scale,
                freedom,
            } => Self::LogStudent {
                location,
                scale: wider(scale),
                freedom,
            },
            Self::Gamma { .. } => self,
        }
    }

    /// Probability that it takes at most so long.
    pub fn cdf(&self, amount: f64) -> f64 {
        1.0 - self.exceeds(amount)
    }

    /// Probability that it takes longer, exact far out as well.
    pub fn exceeds(&self, amount: f64) -> f64 {
        if let Self::Fixed { amount: fixed } = self {
            return if *fixed > amount { 1.0 } else { 0.0 };
        }
        if amount <= 0.0 {
            return 1.0;
        }
        let log = amount.ln();
        match self {
            Self::Fixed { .. } => 0.0,
            Self::Lognormal { log_mean, log_sd } => normal().sf((log - log_mean) / log_sd),
            Self::LogStudent {
                location,
                scale,
                freedom,
            } => student(*freedom).map_or(0.0, |t| t.sf((log - location) / scale)),
            Self::Gamma { shape, scale } => {
                Gamma::new(*shape, 1.0).map_or(0.0, |gamma| gamma.sf(amount / scale))
            }
        }
    }

    /// The amount that is not exceeded in this share of cases.
    pub fn quantile(&self, share: f64) -> f64 {
        self.exceeded_by(1.0 - share)
    }

    /// The amount that is exceeded in this share of cases.
    pub fn exceeded_by(&self, share: f64) -> f64 {
        if share >= 1.0 {
            return match self {
                Self::Fixed { amount } => *amount,
                _ => 0.0,
            };
        }
        match self {
            Self::Fixed { amount } => *amount,
            Self::Lognormal { log_mean, log_sd } => {
                (log_mean - normal().inverse_cdf(share) * log_sd).exp()
            }
            Self::LogStudent {
                location,
                scale,
                freedom,
            } => {
                let t = remembered::quantile([*freedom, share], || {
                    student(*freedom).map_or(0.0, |t| t.inverse_cdf(share))
                });
                (location - t * scale).exp()
            }
            Self::Gamma { shape, scale } => {
                let mut high = shape * scale;
                while self.exceeds(high) > share && high.is_finite() {
                    high *= 2.0;
                }
                let mut low = 0.0;
                for _ in 0..HALVINGS {
                    let middle = f64::midpoint(low, high);
                    if self.exceeds(middle) > share {
                        low = middle;
                    } else {
                        high = middle;
                    }
                }
                high
            }
        }
    }

    /// Mean; `longest` is the amount that counts for whatever takes longer where a mean needs such a bound.
    ///
    /// Student's t on the logarithm has no mean without one: what takes longer than `longest`, or than
    /// four times the middle case where that is more, counts as that. All others have their own mean.
    pub fn mean(&self, longest: f64) -> f64 {
        match self {
            Self::Fixed { amount } => *amount,
            Self::Lognormal { log_mean, log_sd } => (log_mean + log_sd.powi(2) / 2.0).exp(),
            Self::LogStudent {
                location,
                scale,
                freedom,
            } => remembered::mean([*location, *scale, *freedom, longest], || {
                let middle = location.exp();
                self.open_until(0.0, longest.max(LONGEST_TIMES * middle), middle)
            }),
            Self::Gamma { shape, scale } => shape * scale,
        }
    }

    /// Integral of the probability that it takes longer, from an amount to another.
    ///
    /// Up to the middle case in equal steps, beyond it in steps that grow as the square on the logarithm, where the upper
    /// tail falls slowly.
    fn open_until(&self, from: f64, until: f64, middle: f64) -> f64 {
        let (low, high) = (from.min(middle), until.min(middle).max(from.min(middle)));
        let below = integral(PANELS, |at| self.exceeds(low + (high - low) * at)) * (high - low);
        let start = from.max(middle);
        if until <= start {
            return below;
        }
        let length = (until / start).ln();
        let above = integral(PANELS, |at| {
            let amount = start * (length * at * at).exp();
            self.exceeds(amount) * amount * length * 2.0 * at
        });
        below + above
    }

    /// What is still to come at a quantile, given that `age` has passed and it is not over; `None` where nothing ever
    /// takes as long.
    pub fn remaining(&self, age: f64, share: f64) -> Option<f64> {
        let open = self.exceeds(age);
        (open > 1e-12).then(|| (self.exceeded_by((1.0 - share) * open) - age).max(0.0))
    }

    /// Mean of what is still to come, given that `age` has passed; `longest` as for [`mean`](Self::mean), from that age on.
    ///
    /// # Source
    /// `E(X | X > a) - a`: lognormal `exp(m + s^2/2) Q(z - s) / Q(z)` with `z = (ln a - m)/s` and Q the upper tail of
    /// the normal; gamma `k h Q(k + 1, a/h) / Q(k, a/h)` with shape k, scale h and Q its upper tail (Johnson, Kotz and
    /// Balakrishnan, Continuous Univariate Distributions 1, ch. 14 and 17, from memory).
    pub fn mean_remaining(&self, age: f64, longest: f64) -> Option<f64> {
        if age <= 0.0 {
            return Some(self.mean(longest));
        }
        let (location, scale) = match *self {
            Self::Fixed { amount } => return (amount > age).then_some(amount - age),
            Self::Gamma { shape, scale } => {
                let longer = Self::Gamma {
                    shape: shape + 1.0,
                    scale,
                };
                let open = self.exceeds(age);
                return (open > 1e-12).then(|| shape * scale * longer.exceeds(age) / open - age);
            }
            Self::Lognormal { log_mean, log_sd } => (log_mean, log_sd),
            Self::LogStudent { location, .. } => {
                let (middle, open) = (location.exp(), self.exceeds(age));
                let until = age + longest.max(LONGEST_TIMES * middle);
                return (open > 1e-12).then(|| self.open_until(age, until, middle) / open);
            }
        };
        let z = (age.ln() - location) / scale;
        let open = normal().sf(z);
        (open > 1e-12)
            .then(|| (location + scale.powi(2) / 2.0).exp() * normal().sf(z - scale) / open - age)
    }
}

/// Integral from 0 to 1.
fn integral(panels: u32, of: impl Fn(f64) -> f64) -> f64 {
    let width = 1.0 / f64::from(panels);
    let panel = |panel: u32| {
        let points = THREE_POINTS.iter();
        points
            .map(|(at, weight)| weight * of((f64::from(panel) + at) * width))
            .sum::<f64>()
    };
    (0..panels).map(panel).sum::<f64>() * width
}

/// The standard normal distribution.
pub fn normal() -> Normal {
    Normal::standard()
}

fn student(freedom: f64) -> Option<StudentsT> {
    StudentsT::new(0.0, 1.0, freedom).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [LeadTime; 4] = [
        LeadTime::Fixed { amount: 7.0 },
        LeadTime::Lognormal {
            log_mean: 2.0,
            log_sd: 0.4,
        },
        LeadTime::LogStudent {
            location: 2.0,
            scale: 0.4,
            freedom: 2.0,
        },
        LeadTime::Gamma {
            shape: 4.0,
            scale: 2.5,
        },
    ];

    #[test]
    fn the_quantile_undoes_the_cdf() {
        for lead in &ALL[1..] {
            for share in [0.001, 0.1, 0.5, 0.8, 0.9, 0.999] {
                assert!(
                    (lead.cdf(lead.quantile(share)) - share).abs() < 1e-9,
                    "{lead:?} {share}"
                );
            }
        }
    }

    #[test]
    fn a_longer_lead_time_is_never_shorter_at_any_share() {
        for lead in ALL {
            for share in [0.01, 0.3, 0.5, 0.9, 0.99] {
                assert!(lead.times(1.3).quantile(share) > lead.quantile(share));
                let (longest, longer) = (100.0, 130.0);
                let ratio = lead.times(1.3).mean(longer) / lead.mean(longest);
                assert!((ratio - 1.3).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn the_late_factor_is_met() {
        let lead = LeadTime::by_late_factor(4.0, 2.0);
        assert!((lead.quantile(0.5) - 4.0).abs() < 1e-9);
        assert!((lead.quantile(0.9) - 8.0).abs() < 1e-9);
        assert_eq!(
            LeadTime::by_late_factor(4.0, 1.0),
            LeadTime::Fixed { amount: 4.0 }
        );
    }

    #[test]
    fn nothing_remains_of_what_is_fixed_and_over() {
        assert_eq!(ALL[0].remaining(7.0, 0.5), None);
        assert_eq!(ALL[0].remaining(3.0, 0.9), Some(4.0));
        assert_eq!(ALL[0].mean_remaining(8.0, 365.0), None);
    }

    /// Upper tail of Student's t with one and with two degrees of freedom, in closed form (Abramowitz and Stegun, Handbook
    /// of Mathematical Functions, 26.7.3 and 26.7.4, from memory).
    fn tail(freedom: u32, t: f64) -> f64 {
        match freedom {
            1 => 0.5 - t.atan() / std::f64::consts::PI,
            2 => 0.5 - t / (2.0 * (2.0 + t * t).sqrt()),
            other => panic!("{other}"),
        }
    }

    #[test]
    fn the_mean_of_few_receipts_is_that_of_their_own_law_up_to_the_longest() {
        for (location, scale, freedom, from, longest) in [
            (20.0_f64.ln(), 0.8, 2, 0.0, 365.0),
            (20.0_f64.ln(), 0.8, 2, 0.0, 90.0),
            (20.0_f64.ln(), 0.8, 2, 35.0, 365.0),
            (20.0_f64.ln(), 0.8, 2, 5.0, 365.0),
            (3.0_f64.ln(), 0.05, 2, 0.0, 365.0),
            (60.0_f64.ln(), 0.4, 2, 100.0, 261.0),
            (8.0_f64.ln(), 1.5, 1, 0.0, 261.0),
        ] {
            let law = LeadTime::log_student(location, scale, f64::from(freedom));
            // Nothing but the definition, by the middles of many pieces.
            let (pieces, open) = (400_000, |at: f64| {
                if at <= 0.0 {
                    return 1.0;
                }
                tail(freedom, (at.ln() - location) / scale)
            });
            let width = longest / f64::from(pieces);
            let sum: f64 = (0..pieces)
                .map(|piece| open(from + (f64::from(piece) + 0.5) * width))
                .sum();
            let by_sum = sum * width / open(from);
            let found = law.mean_remaining(from, longest).unwrap();
            assert!(
                (found / by_sum - 1.0).abs() < 2e-3,
                "{scale} {freedom} {from} {longest}: {found} {by_sum}"
            );
        }
    }

    #[test]
    fn three_receipts_mean_more_than_a_lognormal_of_their_spread() {
        // 10, 20 and 40 days: P50 20, P90 90.5; by the law cut at 90 and at 365 days 29.4 and 43.8 (computed by a reader of
        // the plan, by quadrature of their own).
        let sample = super::super::LogSample::new(&[10.0, 20.0, 40.0]).unwrap();
        let scale = sample.log_sd * (4.0_f64 / 3.0).sqrt();
        let law = LeadTime::log_student(sample.log_mean, scale, 2.0);
        assert!((law.quantile(0.5) - 20.0).abs() < 0.05);
        assert!((law.quantile(0.9) - 90.5).abs() < 0.05);
        for (longest, mean) in [(90.0, 29.4), (365.0, 43.8)] {
            assert!(
                (law.mean(longest) - mean).abs() < 0.1,
                "{}",
                law.mean(longest)
            );
        }
        let as_lognormal = (sample.log_mean + scale.powi(2) / 2.0).exp();
        assert!(as_lognormal < 28.0, "{as_lognormal}");
    }

    #[test]
    fn a_bound_is_no_shorter_than_four_times_the_middle_case() {
        // A die of 300 days: a year would cut most of what is late.
        let law = LeadTime::log_student(300.0_f64.ln(), 0.3, 3.0);
        assert!((law.mean(365.0) - law.mean(1_200.0)).abs() < 1e-9);
        assert!(law.mean(365.0) > 300.0);
        // A longer bound never shortens it, and a longer lead time never has the shorter mean.
        let mut before = 0.0;
        for longest in [10.0, 365.0, 1_500.0, 3_650.0] {
            assert!(law.mean(longest) >= before);
            before = law.mean(longest);
            assert!(law.times(1.1).mean(longest) > before);
        }
    }
}
