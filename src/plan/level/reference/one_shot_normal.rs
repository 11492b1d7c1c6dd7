//! One buy that must last, for a normal demand.

use statrs::distribution::{Continuous, ContinuousCDF, Normal};

use super::super::one_shot::OneShot;

/// Units to buy once for a normal demand; `None` for a standard deviation of 0 or less.
///
/// # Source
/// Snyder & Shen, Examples 4.1 and 4.3.
pub fn one_shot_normal(mean: f64, sd: f64, over: f64, under: f64) -> Option<OneShot> {
    let normal = Normal::new(0.0, 1.0).ok()?;
    if sd <= 0.0 {
        return None;
    }
    let z = normal.inverse_cdf(under / (under + over));
    Some(OneShot {
        quantity: mean + z * sd,
        cost: (over + under) * sd * normal.pdf(z),
    })
}
