//! Parts in no table: how often they come, and how their figures spread.

/// Share of parts at the bench that are specials or in no table here (common practice, no source: one in twelve).
pub(super) const OUTSIDE_SHARE: f64 = 0.08;
/// Share of them that are made after a standard size, with a dimension or more changed (common practice, no source).
pub(super) const LIKE_STANDARD_SHARE: f64 = 0.8;
/// The least probability that is ever stated for them: slips in reading and writing are not modelled.
pub(super) const LEAST_OUTSIDE: f64 = 0.001;

/// Density of the figures of a part in no table, per mm each: the first spreads evenly over the logarithm from 1 to 200 mm,
/// every other evenly over a factor of e around its value, for the dimensions of one part go together.
///
/// Common practice, no source; broad on purpose.
pub(super) fn density(figures_mm: &[f64]) -> f64 {
    figures_mm
        .iter()
        .enumerate()
        .map(|(at, mm)| {
            let per_log = if at == 0 { 1.0 / 200f64.ln() } else { 0.5 };
            per_log / mm.max(0.1)
        })
        .product()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn more_figures_make_any_one_set_of_them_rarer() {
        assert!(density(&[40.0]) > density(&[40.0, 80.0]));
        // Even over the logarithm from 1 to 200: 1 / (40 ln 200).
        assert!((density(&[40.0]) - 1.0 / (40.0 * 200f64.ln())).abs() < 1e-12);
        const { assert!(OUTSIDE_SHARE > LEAST_OUTSIDE) };
    }
}
