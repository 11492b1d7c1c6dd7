//! When the last of several lines is here, for waits of any form: the product of their shares.

use statrs::distribution::{Continuous, ContinuousCDF, Gamma, Normal};

/// A wait of which the share of cases by any time is known.
pub trait Wait {
    /// Share of cases in which it is over by `time`; never falls.
    fn share_by(&self, time: f64) -> f64;

    /// Share per time at `time`, where it is easily had: it only makes finding a quantile quicker.
    fn density(&self, _time: f64) -> Option<f64> {
        None
    }
}

/// Share of cases in which all of several independent waits are over by a time.
pub fn share_complete<W: Wait>(lines: &[W], time: f64) -> f64 {
    lines.iter().map(|line| line.share_by(time)).product()
}

/// First time by which all are over in a share of cases; `None` where that is not reached in 2^60 times `start`.
///
/// `start` is any time above 0; a good one saves steps.
///
/// # Source
/// Newton's step on the logarithm of the product, which bends down for the usual laws of waiting, so that steps from
/// below never pass the root; kept between two bounds, and the middle is taken where a step leaves them.
pub fn quantile_of_last<W: Wait>(lines: &[W], share: f64, start: f64) -> Option<f64> {
    if share_complete(lines, 0.0) >= share {
        return Some(0.0);
    }
    let (mut low, mut high) = (0.0, f64::INFINITY);
    let mut time = start.max(f64::MIN_POSITIVE);
    let furthest = time * 2.0_f64.powi(60);
    for _ in 0..400 {
        let (mut reached, mut slope) = (1.0, Some(0.0));
        for line in lines {
            let by_then = line.share_by(time);
            reached *= by_then;
            slope = slope
                .zip(line.density(time))
                .map(|(sum, density)| sum + density / by_then.max(f64::MIN_POSITIVE));
        }
        if reached >= share {
            high = time;
        } else {
            low = time;
        }
        if high.is_finite() && high - low <= 1e-13 * high {
            break;
        }
        // Where shares are nearly 1 a step may lead anywhere.
        let most = if high.is_finite() { high } else { 4.0 * time };
        let step = slope
            .filter(|slope| *slope > 0.0 && reached > 0.0)
            .map(|slope| time - (reached / share).ln() / slope)
            .map(|next| next.min(most))
            .filter(|next| *next > low && *next < high);
        let next = step.unwrap_or(if high.is_finite() {
            f64::midpoint(low, high)
        } else {
            time * 2.0
        });
        // The error after a step is of the order of its square.
        if step.is_some() && (next - time).abs() <= 1e-8 * time {
            return Some(next);
        }
        if next > furthest {
            return None;
        }
        time = next;
    }
    high.is_finite().then_some(high)
}

/// A gamma-distributed wait.
#[derive(Debug, Clone)]
pub struct GammaWait {
    law: Gamma,
    shape: f64,
    mean: f64,
}

impl GammaWait {
    /// Takes the mean and the standard deviation as a share of it; `None` where one of them is not above 0.
    pub fn new(mean: f64, deviation_share: f64) -> Option<Self> {
        if !(mean > 0.0 && deviation_share > 0.0) {
            return None;
        }
        let shape = deviation_share.powi(-2);
        let law = Gamma::new(shape, shape / mean).ok()?;
        Some(Self { law, shape, mean })
    }

    /// About the time by which it is over in a share of cases.
    ///
    /// # Source
    /// The cube root of a gamma variable is nearly normal (Wilson & Hilferty, PNAS 17:684-688, 1931; from memory).
    pub fn about(&self, share: f64) -> f64 {
        let ninth = 1.0 / (9.0 * self.shape);
        let root = 1.0 - ninth + Normal::standard().inverse_cdf(share) * ninth.sqrt();
        self.mean * root.max(0.05).powi(3)
    }
}

impl Wait for GammaWait {
    fn share_by(&self, time: f64) -> f64 {
        self.law.cdf(time)
    }

    fn density(&self, time: f64) -> Option<f64> {
        Some(self.law.pdf(time))
    }
}
