//! Gamma lead times by maximum likelihood, and which of gamma and lognormal fits better.

use statrs::distribution::{Continuous, ContinuousCDF, Gamma};
use statrs::function::gamma::digamma;

use super::log_sample::LogSample;
use super::spread::{LeadTime, normal};

/// Bounds of the shape: a coefficient of variation of 0.001 to 100.
const SHAPES: (f64, f64) = (1e-4, 1e6);

/// Halvings of a bracket.
const HALVINGS: usize = 200;

/// Least step on the logarithm of the shape in the search with open orders.
const STEP: f64 = 1e-9;

/// Gamma distribution of durations and of orders still open, by maximum likelihood.
///
/// `None` for fewer than two durations or equal ones.
///
/// # Source
/// Without open orders `ln k - digamma(k) = ln(mean) - mean(ln)` for the shape k, scale `mean / k` (NIST/SEMATECH
/// e-Handbook of Statistical Methods, 1.3.6.6.11, from memory). With open orders the scale that maximises the
/// likelihood is found for each shape, and the shape by golden section.
pub fn gamma_fit(durations: &[f64], open_ages: &[f64]) -> Option<LeadTime> {
    let count = durations.len() as f64;
    let mean = durations.iter().sum::<f64>() / count;
    let mean_log = durations.iter().map(|days| days.ln()).sum::<f64>() / count;
    let gap = mean.ln() - mean_log;
    if durations.len() < 2 || gap.is_nan() || gap < 1e-9 {
        return None;
    }
    let complete = root(SHAPES, |shape| shape.ln() - digamma(shape) - gap);
    if open_ages.is_empty() {
        return Some(LeadTime::Gamma {
            shape: complete,
            scale: mean / complete,
        });
    }
    let at = |log_shape: f64| {
        let shape = log_shape.exp();
        LeadTime::Gamma {
            shape,
            scale: best_scale(shape, mean, count, open_ages),
        }
    };
    let cost = |log_shape: f64| minus_log_likelihood(&at(log_shape), durations, open_ages);
    // Open orders far older than every receipt spread the law as wide as it takes.
    let mut low = complete.ln() - 5.0;
    while low > SHAPES.0.ln() && cost(low) < cost(low + 1.0) {
        low -= 1.0;
    }
    let log_shape = least(low, complete.ln() + 1.0, cost);
    Some(at(log_shape))
}

/// The lognormal of maximum likelihood or the gamma, whichever has the lower Akaike criterion.
///
/// Both have two parameters, so that the likelihoods decide.
pub fn is_gamma_better(
    sample: &LogSample,
    gamma: &LeadTime,
    durations: &[f64],
    open_ages: &[f64],
) -> bool {
    let lognormal = LeadTime::Lognormal {
        log_mean: sample.log_mean,
        log_sd: sample.log_sd_of_likelihood(),
    };
    minus_log_likelihood(gamma, durations, open_ages)
        < minus_log_likelihood(&lognormal, durations, open_ages)
}

/// Minus the logarithm of the likelihood; infinite for what has no density.
pub fn minus_log_likelihood(lead: &LeadTime, durations: &[f64], open_ages: &[f64]) -> f64 {
    let density = |days: f64| match lead {
        LeadTime::Lognormal { log_mean, log_sd } => {
            normal().ln_pdf((days.ln() - log_mean) / log_sd) - log_sd.ln() - days.ln()
        }
        LeadTime::Gamma { shape, scale } => Gamma::new(*shape, 1.0)
            .map_or(f64::NEG_INFINITY, |gamma| {
                gamma.ln_pdf(days / scale) - scale.ln()
            }),
        LeadTime::Fixed { .. } | LeadTime::LogStudent { .. } => f64::NEG_INFINITY,
    };
    let over: f64 = durations.iter().copied().map(density).sum();
    let open: f64 = open_ages.iter().map(|age| lead.exceeds(*age).ln()).sum();
    -over - open
}

/// Scale that maximises the likelihood for a shape: the root of its derivative, which falls.
fn best_scale(shape: f64, mean: f64, count: f64, open_ages: &[f64]) -> f64 {
    let low = mean / shape;
    // Derivative by the scale h, times h: sum x/h - n k + sum over the open of a/h f(a/h)/Q(a/h).
    let slope = |log_scale: f64| {
        let scale = log_scale.exp();
        let open: f64 = open_ages
            .iter()
            .map(|age| {
                Gamma::new(shape, 1.0).map_or(0.0, |gamma| {
                    let at = age / scale;
                    // The density itself overflows on its way for shapes of 145 and more.
                    at * gamma.ln_pdf(at).exp() / gamma.sf(at).max(f64::MIN_POSITIVE)
                })
            })
            .sum();
        count * (mean / scale - shape) + open
    };
    root((low.ln(), low.ln() + 10.0), slope).exp()
}

/// Root of a falling function in a bracket.
fn root((mut low, mut high): (f64, f64), falling: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if falling(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

/// Least of a function with one dip, by golden section.
fn least(mut low: f64, mut high: f64, cost: impl Fn(f64) -> f64) -> f64 {
    let ratio = (5.0_f64.sqrt() - 1.0) / 2.0;
    let mut inner = (high - ratio * (high - low), low + ratio * (high - low));
    let mut costs = (cost(inner.0), cost(inner.1));
    while high - low > STEP {
        if costs.0 < costs.1 {
            high = inner.1;
            inner = (high - ratio * (high - low), inner.0);
            costs = (cost(inner.0), costs.0);
        } else {
            low = inner.0;
            inner = (inner.1, low + ratio * (high - low));
            costs = (costs.1, cost(inner.1));
        }
    }
    f64::midpoint(low, high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_durations_have_no_gamma_fit() {
        assert_eq!(gamma_fit(&[10.0; 6], &[]), None);
        assert_eq!(gamma_fit(&[10.0], &[]), None);
    }

    #[test]
    fn an_order_that_is_still_open_makes_the_fit_longer() {
        let days = [12.0, 14.0, 13.0, 15.0, 12.0, 16.0];
        let alone = gamma_fit(&days, &[]).unwrap();
        let with_old = gamma_fit(&days, &[30.0]).unwrap();
        assert!(with_old.mean(365.0) > alone.mean(365.0));
        let with_young = gamma_fit(&days, &[0.5]).unwrap();
        assert!((with_young.mean(365.0) / alone.mean(365.0) - 1.0).abs() < 1e-6);
    }
}
