//! Life of a part in running hours: a Weibull distribution from failures and from parts that still run.

use statrs::distribution::{ChiSquared, ContinuousCDF};
use statrs::function::gamma::gamma;

/// Failures below which a fit is shown with its interval but nothing is stocked by it.
pub const ENOUGH_FAILURES: usize = 5;

/// Shapes that are looked at.
const SHAPES: (f64, f64) = (0.02, 200.0);

/// Weibull distribution of a life.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weibull {
    /// Shape; above 1 the part wears out.
    pub shape: f64,
    /// Scale: life that 63 in 100 do not reach.
    pub scale_h: f64,
}

/// A fit with what it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeibullFit {
    /// The distribution.
    pub life: Weibull,
    /// Failures.
    pub failures: usize,
    /// Parts that had not failed.
    pub running: usize,
    /// Shapes that 90 in 100 such samples would allow, by the likelihood ratio.
    pub shape_range: (f64, f64),
    /// Negative log likelihood at the fit.
    pub negative_log_likelihood: f64,
}

/// Lives, and ages of parts that have not failed, hours.
struct Lives<'a> {
    failures: &'a [f64],
    running: &'a [f64],
    longest: f64,
}

impl Lives<'_> {
    fn all(&self) -> impl Iterator<Item = f64> + '_ {
        self.failures.iter().chain(self.running).copied()
    }

    /// Sums over all of `(t/longest)^shape` and of that times `ln t`.
    fn sums(&self, shape: f64) -> (f64, f64) {
        self.all().fold((0.0, 0.0), |(power, logs), life| {
            let term = (life / self.longest).powf(shape);
            (power + term, logs + term * life.ln())
        })
    }

    fn mean_log_failure(&self) -> f64 {
        self.failures.iter().map(|life| life.ln()).sum::<f64>() / self.failures.len() as f64
    }

    /// Derivative of the profile likelihood, which rises with the shape and is 0 at the fit.
    fn profile(&self, shape: f64) -> f64 {
        let (power, logs) = self.sums(shape);
        logs / power - 1.0 / shape - self.mean_log_failure()
    }

    fn scale(&self, shape: f64) -> f64 {
        let (power, _) = self.sums(shape);
        self.longest * (power / self.failures.len() as f64).powf(1.0 / shape)
    }

    fn negative_log_likelihood(&self, shape: f64) -> f64 {
        let (count, scale) = (self.failures.len() as f64, self.scale(shape));
        let logs: f64 = self.failures.iter().map(|life| (life / scale).ln()).sum();
        let powers: f64 = self.all().map(|life| (life / scale).powf(shape)).sum();
        powers - count * (shape / scale).ln() - (shape - 1.0) * logs
    }
}

impl Weibull {
    /// Fits lives of failed parts and ages of parts that still run, hours.
    ///
    /// `None` with fewer than two different failures, or where the likelihood has no highest point between the shapes
    /// looked at.
    ///
    /// # Source
    /// Maximum likelihood with right censoring by the root of the profile likelihood: Lawless, Statistical Models and
    /// Methods for Lifetime Data (from memory); NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1.3.
    pub fn fit(failures_h: &[f64], running_h: &[f64]) -> Option<WeibullFit> {
        let is_usable = |life: &f64| life.is_finite() && *life > 0.0;
        let failures: Vec<f64> = failures_h.iter().copied().filter(is_usable).collect();
        let running: Vec<f64> = running_h.iter().copied().filter(is_usable).collect();
        let first = *failures.first()?;
        if failures
            .iter()
            .all(|life| (life / first - 1.0).abs() < 1e-12)
        {
            return None;
        }
        let lives = Lives {
            longest: failures.iter().chain(&running).copied().fold(0.0, f64::max),
            failures: &failures,
            running: &running,
        };
        let shape = root(SHAPES, |shape| lives.profile(shape))?;
        let best = lives.negative_log_likelihood(shape);
        let allowed = best + ChiSquared::new(1.0).ok()?.inverse_cdf(0.9) / 2.0;
        let beyond = |shape: f64| lives.negative_log_likelihood(shape) - allowed;
        let low = root((SHAPES.0, shape), |at| -beyond(at)).unwrap_or(SHAPES.0);
        let high = root((shape, SHAPES.1), beyond).unwrap_or(SHAPES.1);
        Some(WeibullFit {
            life: Self {
                shape,
                scale_h: lives.scale(shape),
            },
            failures: failures.len(),
            running: running.len(),
            shape_range: (low, high),
            negative_log_likelihood: best,
        })
    }

    /// Probability of a life above `hours`.
    pub fn survival(&self, hours: f64) -> f64 {
        (-(hours.max(0.0) / self.scale_h).powf(self.shape)).exp()
    }

    /// Mean life, hours.
    pub fn mean_h(&self) -> f64 {
        self.scale_h * gamma(1.0 + 1.0 / self.shape)
    }

    /// Standard deviation of the life, hours.
    pub fn deviation_h(&self) -> f64 {
        let (first, second) = (gamma(1.0 + 1.0 / self.shape), gamma(1.0 + 2.0 / self.shape));
        self.scale_h * (second - first * first).sqrt()
    }

    /// Life that this share of parts does not reach, hours.
    pub fn quantile_h(&self, share: f64) -> f64 {
        self.scale_h * (-(-share).ln_1p()).powf(1.0 / self.shape)
    }

    /// Probability that a part of some age fails within the next hours.
    ///
    /// # Source
    /// `1 - S(age + next) / S(age)` with S the survival function.
    pub fn fails_within(&self, age_h: f64, next_h: f64) -> f64 {
        let hazard = |hours: f64| (hours / self.scale_h).powf(self.shape);
        -(hazard(age_h) - hazard(age_h + next_h)).exp_m1()
    }
}

impl WeibullFit {
    /// True where there are failures enough to stock by.
    pub const fn is_enough(&self) -> bool {
        self.failures >= ENOUGH_FAILURES
    }
}

/// Distribution of how many of several parts fail, each with its own probability: entry n is the probability of n.
///
/// # Source
/// Poisson-binomial distribution, by adding one part at a time.
pub fn failures_among(probabilities: &[f64]) -> Vec<f64> {
    let mut counts = vec![1.0];
    for probability in probabilities {
        counts.push(0.0);
        for at in (0..counts.len()).rev() {
            let from_below = if at > 0 { counts[at - 1] } else { 0.0 };
            counts[at] = counts[at] * (1.0 - probability) + from_below * probability;
        }
    }
    counts
}

/// Where a rising function crosses 0; `None` where it does not within the bracket.
fn root((mut low, mut high): (f64, f64), function: impl Fn(f64) -> f64) -> Option<f64> {
    if function(low) > 0.0 || function(high) < 0.0 {
        return None;
    }
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if function(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
        if high - low <= 1e-15 * high {
            break;
        }
    }
    Some(f64::midpoint(low, high))
}
