//! Few observations lean on those of others: parts on their supplier, suppliers on their kind, kinds on the shop.
//!
//! The logarithm y of a duration is normal around its member's own mean. Members' means scatter around that of their
//! family with a variance `tau^2`, and their own variances around a common one. Two steps:
//!
//! 1. **Spread.** The variance of a member with few observations is moderated by all members': with sample variance
//!    `s^2` on `d` degrees of freedom and a common `s0^2` worth `d0`, it is `(d0 s0^2 + d s^2) / (d0 + d)` on `d0 + d`
//!    ([`Within`]; Smyth, Statistical Applications in Genetics and Molecular Biology 3 (2004) 3, sections 4 and 6.2).
//! 2. **Middle.** `tau^2` by the moments of DerSimonian and Laird (Controlled Clinical Trials 7 (1986) 177-188), and
//!    each mean by the precision-weighted mean of its own and its family's without it, the posterior mean of two
//!    normal distributions (Gelman et al., Bayesian Data Analysis, section 5.4, from memory).
//!
//! The next observation then is Student's t on `d0 + d` degrees of freedom around the shrunk mean, with the moderated
//! variance plus that of the mean. Published parts, put together here; what decides is the coverage on simulated shops
//! of known truth (`tests/suite/lead_time.rs`).

use statrs::function::gamma::digamma;

use super::log_sample::LogSample;
use super::spread::LeadTime;

/// Fewest members with a spread of their own, before the spread of one leans on the others.
///
/// Common practice, no source: two variances say next to nothing about how variances vary.
pub const FEWEST_MEMBERS: usize = 3;

/// A mean that is known up to a variance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// Mean of the logarithms.
    pub mean: f64,
    /// Variance of that mean, above 0.
    pub variance: f64,
}

/// What the members have in common about their spread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Within {
    /// Common variance of the logarithm.
    pub variance: f64,
    /// Degrees of freedom it is worth.
    pub freedom: f64,
}

/// A sum of precisions, from which one member can be taken out again.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Pool {
    precision: f64,
    weighted: f64,
}

impl Within {
    /// Common variance of samples and what it is worth; `None` for fewer than [`FEWEST_MEMBERS`].
    pub fn of(samples: &[LogSample]) -> Option<Self> {
        let members: Vec<(f64, f64)> = samples
            .iter()
            .filter(|sample| sample.count >= 2 && sample.log_sd > 0.0)
            .map(|sample| ((sample.count - 1) as f64, sample.log_sd.powi(2)))
            .collect();
        if members.len() < FEWEST_MEMBERS {
            return None;
        }
        let count = members.len() as f64;
        let logs: Vec<f64> = members
            .iter()
            .map(|(d, variance)| variance.ln() - digamma(d / 2.0) + (d / 2.0).ln())
            .collect();
        let mean = logs.iter().sum::<f64>() / count;
        let scatter = logs.iter().map(|log| (log - mean).powi(2)).sum::<f64>() / (count - 1.0);
        let expected = members.iter().map(|(d, _)| trigamma(d / 2.0)).sum::<f64>() / count;
        let most: f64 = members.iter().map(|(d, _)| d).sum();
        let excess = scatter - expected;
        // Variances that scatter no more than chance makes them are one variance, known as well as all together.
        let (variance, freedom) = if excess <= 0.0 {
            (mean.exp(), most)
        } else {
            let d0 = 2.0 * trigamma_inverse(excess);
            ((mean + digamma(d0 / 2.0) - (d0 / 2.0).ln()).exp(), d0)
        };
        Some(Self {
            variance,
            freedom: freedom.min(most),
        })
    }

    /// Variance and degrees of freedom of one member, moderated by the others.
    pub fn moderated(&self, sample: &LogSample) -> Self {
        let d = (sample.count.max(1) - 1) as f64;
        let freedom = self.freedom + d;
        let own = if sample.count > 1 {
            sample.log_sd.powi(2)
        } else {
            0.0
        };
        Self {
            variance: (self.freedom * self.variance + d * own) / freedom,
            freedom,
        }
    }
}

impl Pool {
    /// Adds an estimate whose member scatters by `between` around the family.
    pub fn add(&mut self, estimate: Estimate, between: f64) {
        let precision = 1.0 / (estimate.variance + between);
        self.precision += precision;
        self.weighted += precision * estimate.mean;
    }

    /// The pool without one member that was added.
    #[must_use]
    pub fn without(mut self, estimate: Estimate, between: f64) -> Self {
        let precision = 1.0 / (estimate.variance + between);
        self.precision -= precision;
        self.weighted -= precision * estimate.mean;
        self
    }

    /// Precision-weighted mean; `None` of nothing.
    pub fn estimate(&self) -> Option<Estimate> {
        (self.precision > 1e-9).then(|| Estimate {
            mean: self.weighted / self.precision,
            variance: 1.0 / self.precision,
        })
    }
}

impl Estimate {
    /// What this says of a member that scatters by `between` around it.
    #[must_use]
    pub const fn for_member(self, between: f64) -> Self {
        Self {
            mean: self.mean,
            variance: self.variance + between,
        }
    }

    /// Posterior of two independent estimates of one mean.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        let (own, others) = (1.0 / self.variance, 1.0 / other.variance);
        Self {
            mean: (self.mean * own + other.mean * others) / (own + others),
            variance: 1.0 / (own + others),
        }
    }

    /// The next observation around this mean.
    pub fn next(self, within: Within) -> LeadTime {
        let scale = (self.variance + within.variance).sqrt();
        LeadTime::log_student(self.mean, scale, within.freedom)
    }
}

/// Variance of members' means around their families', by moments; `None` where no family has two members.
///
/// Each family is a list of estimates. Never below 0.
pub fn between(families: &[Vec<Estimate>]) -> Option<f64> {
    let (mut excess, mut weight) = (0.0, 0.0);
    let mut is_known = false;
    for family in families.iter().filter(|family| family.len() > 1) {
        is_known = true;
        let precisions: Vec<f64> = family.iter().map(|member| 1.0 / member.variance).collect();
        let sum: f64 = precisions.iter().sum();
        let mean = family
            .iter()
            .zip(&precisions)
            .map(|(member, precision)| precision * member.mean)
            .sum::<f64>()
            / sum;
        let scatter: f64 = family
            .iter()
            .zip(&precisions)
            .map(|(member, precision)| precision * (member.mean - mean).powi(2))
            .sum();
        let squares: f64 = precisions.iter().map(|precision| precision.powi(2)).sum();
        excess += scatter - (family.len() - 1) as f64;
        weight += sum - squares / sum;
    }
    is_known.then(|| (excess / weight).max(0.0))
}

/// Second derivative of the logarithm of the gamma function.
///
/// # Source
/// Recurrence `psi'(x) = psi'(x + 1) + 1/x^2` up to 20, then the asymptotic series (Abramowitz & Stegun, 6.4.6 and
/// 6.4.12, from memory).
fn trigamma(x: f64) -> f64 {
    let mut x = x;
    let mut sum = 0.0;
    while x < 20.0 {
        sum += x.powi(-2);
        x += 1.0;
    }
    let inverse = 1.0 / x;
    let square = inverse * inverse;
    sum + inverse
        + square / 2.0
        + inverse * square * (1.0 / 6.0 - square * (1.0 / 30.0 - square / 42.0))
}

/// The x at which [`trigamma`] is `value`, above 0; it falls with x.
fn trigamma_inverse(value: f64) -> f64 {
    let (mut low, mut high) = (1e-8_f64, 1e8_f64);
    for _ in 0..200 {
        let middle = (low * high).sqrt();
        if trigamma(middle) > value {
            low = middle;
        } else {
            high = middle;
        }
    }
    (low * high).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn trigamma_has_its_known_values() {
        // pi^2/6 at 1 and pi^2/2 at 1/2 (Abramowitz & Stegun, 6.4.2 and 6.4.4, from memory).
        let pi = std::f64::consts::PI;
        assert!((trigamma(1.0) - pi * pi / 6.0).abs() < 1e-12);
        assert!((trigamma(0.5) - pi * pi / 2.0).abs() < 1e-12);
        assert!((trigamma_inverse(pi * pi / 6.0) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn the_scatter_of_means_is_what_chance_does_not_explain() {
        let family = |means: &[f64], variance| {
            means
                .iter()
                .map(|mean| Estimate {
                    mean: *mean,
                    variance,
                })
                .collect::<Vec<_>>()
        };
        // Equal precisions: sample variance of the means less their own; here 1.0 - 0.25.
        let found = between(&[family(&[1.0, 2.0, 3.0], 0.25)]).unwrap();
        assert!((found - 0.75).abs() < 1e-12);
        assert_eq!(between(&[family(&[1.0, 1.1], 4.0)]), Some(0.0));
        assert_eq!(between(&[family(&[1.0], 0.25)]), None);
    }

    #[test]
    fn two_estimates_meet_by_their_precision() {
        let far = Estimate {
            mean: 4.0,
            variance: 3.0,
        };
        let near = Estimate {
            mean: 0.0,
            variance: 1.0,
        };
        let both = far.and(near);
        assert!((both.mean - 1.0).abs() < 1e-12 && (both.variance - 0.75).abs() < 1e-12);
    }

    #[test]
    fn a_pool_gives_back_what_was_added() {
        let (one, other) = (
            Estimate {
                mean: 4.0,
                variance: 3.0,
            },
            Estimate {
                mean: 0.0,
                variance: 1.0,
            },
        );
        let mut pool = Pool::default();
        pool.add(one, 0.5);
        pool.add(other, 0.5);
        let left = pool.without(one, 0.5).estimate().unwrap();
        assert!((left.mean).abs() < 1e-9 && (left.variance - 1.5).abs() < 1e-9);
        assert_eq!(Pool::default().estimate(), None);
    }

    #[test]
    fn equal_variances_are_known_as_well_as_all_together() {
        let sample = |log_sd| LogSample {
            count: 3,
            log_mean: 2.0,
            log_sd,
        };
        let within = Within::of(&[sample(0.3), sample(0.31), sample(0.29)]).unwrap();
        assert!((within.freedom - 6.0).abs() < 1e-9);
        let moderated = within.moderated(&sample(0.6));
        assert!((moderated.freedom - 8.0).abs() < 1e-9);
        assert!(moderated.variance < 0.36 && moderated.variance > within.variance);
        assert_eq!(Within::of(&[sample(0.3), sample(0.31)]), None);
    }
}
