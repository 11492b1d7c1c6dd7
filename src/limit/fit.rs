//! ISO 286-2: deviations of shafts and holes that seats use.

use std::sync::LazyLock;

use super::deviation::{Deviation, Steps};

static TABLE: LazyLock<Steps> =
    LazyLock::new(|| Steps::read(include_str!("../../data/limit/iso286.csv"), 1));

/// Deviations of a tolerance class such as `k6` (shafts, small letters) or `H7` (holes, capitals).
///
/// # Source
/// ISO 286-2 by three open packages; the head of the table names them.
///
/// # Example
/// ```
/// // ISO 286: k6 at 25 mm is +2 to +15 µm.
/// let k6 = sparewright::limit::fit("k6", 25.0);
/// assert_eq!(k6.map(|k6| (k6.lower_um, k6.upper_um)), Some((2.0, 15.0)));
/// ```
pub fn fit(class: &str, diameter_mm: f64) -> Option<Deviation> {
    TABLE.at(class.trim(), diameter_mm)
}

/// Classes of the table.
pub fn fit_classes() -> Vec<&'static str> {
    TABLE.keys()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn small_and_capital_letters_are_two_classes() {
        // ISO 286: h7 at 40 mm is -25 to 0, H7 is 0 to +25 µm.
        assert_eq!(fit("h7", 40.0).map(|d| d.lower_um), Some(-25.0));
        assert_eq!(fit("H7", 40.0).map(|d| d.upper_um), Some(25.0));
        assert_eq!(fit("q6", 40.0), None);
        assert!(fit_classes().len() > 40);
    }
}
