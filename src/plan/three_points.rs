//! Points and weights of an integral.

/// Points between 0 and 1 and their weights, shares of 1: Gauss and Legendre's rule of three points, which is exact for
/// powers up to the fifth.
///
/// # Source
/// Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4, n = 3, moved from -1..1 to 0..1; from memory.
pub const THREE_POINTS: [(f64, f64); 3] = [
    (0.112_701_665_379_258_3, 5.0 / 18.0),
    (0.5, 8.0 / 18.0),
    (0.887_298_334_620_741_7, 5.0 / 18.0),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn powers_up_to_the_fifth_are_exact() {
        for power in 0..=6 {
            let found: f64 = THREE_POINTS
                .iter()
                .map(|(at, weight)| weight * at.powi(power))
                .sum();
            let off = (found - 1.0 / f64::from(power + 1)).abs();
            assert_eq!(off < 1e-15, power < 6, "{power}: {off}");
        }
    }
}
