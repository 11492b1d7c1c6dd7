//! Tables of limits as a whole: what the standards say of every row, and what holds for any diameter.

mod formulas;

use proptest::prelude::*;
use sparewright::engineering::{Seat, bearing_seat, interference, o_ring_in_gland};
use sparewright::limit::{self, BearingFeature, Deviation, Duty};
use sparewright::part::{Clearance, Family, ToleranceClass};

use super::{outside, table};

/// Grade of a tolerance class: `k6` has 6.
fn grade(class: &str) -> &str {
    class.trim_start_matches(|c: char| c.is_ascii_alphabetic())
}

#[test]
pub fn every_tolerance_class_is_as_wide_as_its_grade() {
    let grades = table::read("iso286_grades");
    assert_eq!(grades.len(), 66);
    let mut wrong = Vec::new();
    for class in limit::fit_classes() {
        for row in grades.iter().filter(|row| row["grade"] == grade(class)) {
            let number = |column: &str| row[column].parse::<f64>().unwrap();
            // Steps of the classes are those of the grades or finer.
            for share in [0.01, 0.5, 1.0] {
                let (over_mm, incl_mm) = (number("over_mm"), number("incl_mm"));
                let Some(of) = limit::fit(class, over_mm + share * (incl_mm - over_mm)) else {
                    continue;
                };
                outside::compared(1);
                if (of.band_mm() * 1000.0 - number("width_um")).abs() > 1e-6 {
                    wrong.push(format!("{class} over {over_mm}: {of:?}, grade {row:?}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

fn is_within(inner: Deviation, outer: Deviation) -> bool {
    inner.lower_um >= outer.lower_um && inner.upper_um <= outer.upper_um
}

proptest! {
    /// ISO 286-1: letters before h lie below the zero line with h at it, later ones above; a hole's H mirrors h.
    #[test]
    fn letters_lie_in_their_order(diameter_mm in 3.01_f64..400.0) {
        let lower = |class: &str| limit::fit(class, diameter_mm).map(|of| of.lower_um);
        let shafts = ["f6", "g6", "h6", "js6", "k6", "m6", "n6", "p6", "r6"];
        let lowers: Vec<f64> = shafts.iter().filter_map(|class| lower(class)).collect();
        prop_assert!(lowers.is_sorted(), "{diameter_mm}: {lowers:?}");
        for (shaft, hole) in [("h6", "H6"), ("h7", "H7"), ("h8", "H8"), ("f7", "F7"), ("g6", "G6")] {
            if let (Some(shaft), Some(hole)) = (limit::fit(shaft, diameter_mm), limit::fit(hole, diameter_mm)) {
                prop_assert!((shaft.upper_um + hole.lower_um).abs() < 1e-9, "{diameter_mm}: {shaft:?} {hole:?}");
            }
        }
        for class in ["js5", "js6", "JS6", "JS7"] {
            if let Some(of) = limit::fit(class, diameter_mm) {
                prop_assert!(of.middle_mm().abs() < 0.0006, "{class} {diameter_mm}: {of:?}");
            }
        }
    }

    /// ISO 492: rings are never larger than nominal, and a finer class never allows what a coarser one refuses.
    #[test]
    fn a_finer_class_lies_within_a_coarser_one(diameter_mm in 2.6_f64..500.0) {
        for feature in [BearingFeature::Bore, BearingFeature::OutsideDiameter, BearingFeature::Width] {
            let classes = [ToleranceClass::Normal, ToleranceClass::P6, ToleranceClass::P5, ToleranceClass::P4];
            let bands: Vec<Deviation> = classes
                .iter()
                .filter_map(|class| limit::bearing(feature, *class, diameter_mm))
                .collect();
            for band in &bands {
                prop_assert!(band.upper_um.abs() < 1e-9 && band.lower_um < 0.0);
            }
            for pair in bands.windows(2) {
                prop_assert!(is_within(pair[1], pair[0]), "{feature:?} {diameter_mm}: {pair:?}");
            }
        }
    }

    /// ISO 5753-1: each group begins and ends above the one before it, and up to C4 they overlap or touch (C5 of large rollers stands apart).
    #[test]
    fn groups_of_clearance_follow_each_other(bore_mm in 2.6_f64..250.0) {
        for family in [Family::DeepGrooveBall, Family::CylindricalRoller, Family::SphericalRoller] {
            let groups = [Clearance::C2, Clearance::Normal, Clearance::C3, Clearance::C4, Clearance::C5];
            let bands: Vec<(Clearance, Deviation)> = groups
                .iter()
                .filter_map(|group| Some((*group, limit::clearance(family, *group, bore_mm)?)))
                .collect();
            for pair in bands.windows(2) {
                let (less, more) = (pair[0].1, pair[1].1);
                prop_assert!(less.lower_um < more.lower_um && less.upper_um < more.upper_um, "{family} {bore_mm}: {pair:?}");
                prop_assert!(pair[1].0 == Clearance::C5 || more.lower_um <= less.upper_um, "a gap in {family} {bore_mm}: {pair:?}");
            }
            for (group, band) in &bands {
                let middle = f64::midpoint(band.lower_um, band.upper_um);
                prop_assert!(limit::clearance_groups(family, bore_mm, middle).contains(group));
            }
        }
    }

    /// The spread of a fit is that of both parts together, whichever is outside.
    #[test]
    fn a_fit_spreads_as_both_parts_do(diameter_mm in 10.1_f64..250.0, which in 0_usize..8) {
        let class = ["g6", "h6", "j6", "k6", "m6", "n6", "H7", "N7"][which];
        let is_shaft = class.starts_with(|c: char| c.is_ascii_lowercase());
        let (seat, feature) = if is_shaft {
            (Seat::Shaft, BearingFeature::Bore)
        } else {
            (Seat::Housing, BearingFeature::OutsideDiameter)
        };
        let ring = limit::bearing(feature, ToleranceClass::Normal, diameter_mm).unwrap();
        let of_seat = limit::fit(class, diameter_mm).unwrap();
        let fit = bearing_seat(seat, diameter_mm, ToleranceClass::Normal, class).unwrap();
        let spread_um = fit.greatest_um - fit.least_um;
        prop_assert!((spread_um - 1000.0 * (ring.band_mm() + of_seat.band_mm())).abs() < 1e-6);
        // A seat measured exactly leaves the spread of the ring.
        let exact = Deviation { lower_um: of_seat.lower_um, upper_um: of_seat.lower_um };
        let measured = interference(seat, ring, exact);
        prop_assert!((measured.greatest_um - measured.least_um - 1000.0 * ring.band_mm()).abs() < 1e-6);
        prop_assert!(measured.least_um >= fit.least_um - 1e-9 && measured.greatest_um <= fit.greatest_um + 1e-9);
    }

    /// A deeper gland squeezes less, a larger floor stretches more and thins the ring, a wider groove is less full.
    #[test]
    fn a_ring_follows_its_groove(
        inside_mm in 5.0_f64..200.0,
        section_mm in 1.5_f64..7.0,
        depth_share in 0.7_f64..0.95,
        stretch in 0.0_f64..0.06,
        more in 1.001_f64..1.1,
    ) {
        let ring = |floor: f64, depth: f64, width: f64| {
            o_ring_in_gland(inside_mm, section_mm, Some(floor), depth, Some(width), Duty::StaticRadial)
        };
        let (floor, depth, width) = (inside_mm * (1.0 + stretch), section_mm * depth_share, section_mm * 1.4);
        let now = ring(floor, depth, width);
        prop_assert!(ring(floor, depth * more, width).squeeze_share < now.squeeze_share);
        prop_assert!(ring(floor * more, depth, width).section_mm < now.section_mm);
        prop_assert!(ring(floor, depth, width * more).fill_share < now.fill_share);
        // Constant volume: section squared times length.
        let volume = |section: f64, inside: f64| section * section * inside;
        prop_assert!((volume(now.section_mm, floor) / volume(section_mm, inside_mm) - 1.0).abs() < 1e-9);
    }
}
