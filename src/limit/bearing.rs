//! ISO 492: bore, outside diameter and width of radial bearings.

use std::sync::LazyLock;

use super::deviation::{Deviation, Step, Steps, step_at};
use crate::part::ToleranceClass;

/// What of a bearing a deviation is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BearingFeature {
    /// Bore d, mean in a plane.
    Bore,
    /// Outside diameter D, mean in a plane.
    OutsideDiameter,
    /// Width of a single ring, by the bore.
    Width,
}

static TABLE: LazyLock<Steps> =
    LazyLock::new(|| Steps::read(include_str!("../../data/limit/iso492.csv"), 2));

/// Classes of the table, in order.
const CLASSES: [ToleranceClass; 4] = [
    ToleranceClass::Normal,
    ToleranceClass::P6,
    ToleranceClass::P5,
    ToleranceClass::P4,
];

/// Steps by feature and class: every size near a figure is asked for, so that no key is put together each time.
static STEPS: LazyLock<[[&'static [Step]; 4]; 3]> = LazyLock::new(|| {
    ["bore", "outside", "width"]
        .map(|feature| CLASSES.map(|class| TABLE.of(&format!("{feature} {class}"))))
});

/// Deviation of a radial bearing, tapered roller bearings excepted; class 2 is taken as class 4, its nearest in the table.
///
/// # Units
/// `diameter_mm` is the bore for bore and width, the outside diameter for itself.
///
/// # Source
/// ISO 492:2014; the head of the table names what was compared.
///
/// # Example
/// ```
/// use sparewright::limit::{bearing, BearingFeature};
/// use sparewright::part::ToleranceClass;
/// // ISO 492 Normal class: a 52 mm ring measures 51.987 to 52 mm.
/// let outside = bearing(BearingFeature::OutsideDiameter, ToleranceClass::Normal, 52.0);
/// assert_eq!(outside.map(|deviation| deviation.lower_um), Some(-13.0));
/// ```
pub fn bearing(
    feature: BearingFeature,
    class: ToleranceClass,
    diameter_mm: f64,
) -> Option<Deviation> {
    let of_feature = match feature {
        BearingFeature::Bore => &STEPS[0],
        BearingFeature::OutsideDiameter => &STEPS[1],
        BearingFeature::Width => &STEPS[2],
    };
    let class = CLASSES.iter().position(|of| *of == class);
    step_at(of_feature[class.unwrap_or(CLASSES.len() - 1)], diameter_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_of_iso_492() {
        use BearingFeature as F;
        use ToleranceClass as C;
        // ISO 492:2014 Normal class and class 5, published tables.
        for (feature, class, mm, lower) in [
            (F::Bore, C::Normal, 25.0, -10.0),
            (F::Bore, C::Normal, 40.0, -12.0),
            (F::Bore, C::P5, 40.0, -8.0),
            (F::OutsideDiameter, C::Normal, 80.0, -13.0),
            (F::OutsideDiameter, C::Normal, 90.0, -15.0),
            (F::Width, C::Normal, 40.0, -120.0),
            (F::Width, C::Normal, 60.0, -150.0),
        ] {
            assert_eq!(
                bearing(feature, class, mm).map(|d| (d.lower_um, d.upper_um)),
                Some((lower, 0.0)),
                "{feature:?} {class} {mm}"
            );
        }
        assert_eq!(bearing(F::Bore, C::Normal, 900.0), None);
    }
}
