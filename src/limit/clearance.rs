//! ISO 5753-1: radial internal clearance of bearings before they are fitted.

use std::sync::LazyLock;

use super::deviation::{Deviation, Steps};
use crate::part::{Clearance, Family};

static TABLE: LazyLock<Steps> =
    LazyLock::new(|| Steps::read(include_str!("../../data/limit/iso5753.csv"), 2));

/// Least and greatest radial clearance of a group; `None` for families and bores outside the table.
///
/// # Units
/// Micrometres; the bore in mm, cylindrical.
///
/// # Source
/// ISO 5753-1, with the confidence of each row in the table.
pub fn clearance(family: Family, group: Clearance, bore_mm: f64) -> Option<Deviation> {
    TABLE.at(&format!("{} {group}", family.code()), bore_mm)
}

/// Every group that a measured clearance may be: neighbouring groups overlap.
pub fn clearance_groups(family: Family, bore_mm: f64, measured_um: f64) -> Vec<Clearance> {
    let holds = |group: &Clearance| {
        clearance(family, *group, bore_mm)
            .is_some_and(|band| (band.lower_um..=band.upper_um).contains(&measured_um))
    };
    Clearance::ALL.iter().copied().filter(holds).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_measured_clearance_may_fit_two_groups() {
        // ISO 5753-1, deep groove, 25 mm bore: CN 5 to 20, C3 13 to 28 µm.
        let band = clearance(Family::DeepGrooveBall, Clearance::Normal, 25.0).unwrap();
        assert_eq!((band.lower_um, band.upper_um), (5.0, 20.0));
        assert_eq!(
            clearance_groups(Family::DeepGrooveBall, 25.0, 15.0),
            [Clearance::Normal, Clearance::C3]
        );
        assert_eq!(clearance_groups(Family::DeepGrooveBall, 25.0, 200.0), []);
    }
}
