//! Smoothed forecasts that stand beside those of `demand/croston.rs`, of which the plan offers some.

use crate::plan::demand::Smoothed;

/// Forecast of simple exponential smoothing, quantity a period, that begins at the first period; `None` without a period.
///
/// Of demand with many periods of nothing it hangs on how long ago the last one was, for which Croston's method was made.
///
/// # Source
/// Brown, Statistical Forecasting for Inventory Control, 1959 (from memory); as `SimpleExponentialSmoothing` of statsforecast.
pub fn simple_smoothing(series: &[f64], constant: f64) -> Option<f64> {
    let (first, rest) = series.split_first()?;
    let step = |level: f64, quantity: &f64| level + constant * (quantity - level);
    Some(rest.iter().fold(*first, step))
}

/// Croston's forecast less the bias that it has where demands come as a Poisson stream.
///
/// # Source
/// Shale, Boylan & Johnston, J. Oper. Res. Soc. 57:588-592 (2006), from memory: the factor is `1 - a / (2 - a)`, `a` the
/// constant by which sizes and intervals were smoothed.
pub fn shale_boylan_johnston(levels: &Smoothed, constant: f64) -> f64 {
    (1.0 - constant / (2.0 - constant)) * levels.croston()
}
