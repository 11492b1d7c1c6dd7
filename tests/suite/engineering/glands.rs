//! O-rings in grooves: every published gland with its own ring, the limits of squeeze, stretch and fill, and their words.

use proptest::prelude::*;
use sparewright::engineering::o_ring_in_gland;
use sparewright::limit::{Duty, gland};

const RADIAL: Duty = Duty::StaticRadial;
const FACE: Duty = Duty::StaticFace;
const MOVING: Duty = Duty::Reciprocating;

#[test]
fn every_published_gland_squeezes_its_ring_as_published() {
    // Gland table of the open CAD library bd_warehouse 0.4.0; its squeeze takes in the tolerance of the section, so that the
    // nominal ring lies between the two ends.
    for (duty, section_mm, least_mm, greatest_mm, least_percent, greatest_percent, width_mm) in [
        (RADIAL, 1.02, 0.69, 0.76, 19.0, 37.0, 1.52),
        (RADIAL, 1.27, 0.89, 0.99, 17.0, 34.0, 1.91),
        (RADIAL, 1.52, 1.07, 1.19, 18.0, 33.0, 2.29),
        (RADIAL, 1.78, 1.27, 1.40, 18.0, 32.0, 2.41),
        (RADIAL, 2.62, 2.03, 2.18, 14.0, 25.0, 3.56),
        (RADIAL, 3.53, 2.79, 2.95, 14.0, 23.0, 4.57),
        (RADIAL, 5.33, 4.32, 4.47, 14.0, 21.0, 7.11),
        (RADIAL, 6.99, 5.72, 5.97, 13.0, 20.0, 9.40),
        (FACE, 1.02, 0.69, 0.76, 19.0, 37.0, 1.52),
        (FACE, 1.27, 0.86, 0.97, 19.0, 36.0, 1.91),
        (FACE, 1.52, 1.07, 1.17, 19.0, 33.0, 2.29),
        (FACE, 1.78, 1.24, 1.37, 19.0, 33.0, 2.41),
        (FACE, 2.62, 1.91, 2.06, 19.0, 29.0, 3.56),
        (FACE, 3.53, 2.54, 2.74, 20.0, 30.0, 4.57),
        (FACE, 5.33, 3.94, 4.19, 20.0, 28.0, 7.11),
        (FACE, 6.99, 5.21, 5.42, 20.0, 27.0, 9.40),
        (MOVING, 1.02, 0.79, 0.84, 11.0, 28.0, 1.60),
        (MOVING, 1.27, 0.99, 1.04, 13.0, 26.0, 1.85),
        (MOVING, 1.52, 1.19, 1.24, 14.0, 25.0, 2.13),
        (MOVING, 1.78, 1.40, 1.45, 15.0, 25.0, 2.41),
        (MOVING, 2.62, 2.21, 2.29, 10.0, 18.0, 3.68),
        (MOVING, 3.53, 3.02, 3.12, 9.0, 17.0, 4.70),
        (MOVING, 5.33, 4.65, 4.78, 8.5, 15.0, 7.24),
        (MOVING, 6.99, 5.94, 6.10, 10.5, 17.0, 9.52),
    ] {
        let of = gland(duty, section_mm).unwrap();
        assert!(
            (of.least_depth_mm - least_mm).abs() < 1e-9,
            "{duty:?} {section_mm}"
        );
        assert!(
            (of.greatest_depth_mm - greatest_mm).abs() < 1e-9,
            "{duty:?} {section_mm}"
        );
        assert!((of.least_squeeze_share * 100.0 - least_percent).abs() < 1e-9);
        assert!((of.greatest_squeeze_share * 100.0 - greatest_percent).abs() < 1e-9);
        assert!(
            (of.width_mm - width_mm).abs() < 1e-9,
            "{duty:?} {section_mm}"
        );
        for depth_mm in [least_mm, greatest_mm, (least_mm + greatest_mm) / 2.0] {
            let ring = o_ring_in_gland(40.0, section_mm, None, depth_mm, Some(width_mm), duty);
            let squeeze = (section_mm - depth_mm) / section_mm;
            assert!(
                (ring.squeeze_share - squeeze).abs() < 1e-9,
                "{duty:?} {section_mm}"
            );
            assert_eq!(ring.published, Some(of));
            assert_eq!(
                ring.against, [""; 0],
                "{duty:?} {section_mm} in {depth_mm} mm"
            );
        }
    }
}

#[test]
fn a_gland_serves_sections_that_round_to_its_own() {
    // ISO 3601-1:1988 metric sections in AS568 glands: 1.80, 2.65, 3.55, 5.30 and 7.00 mm.
    for (section_mm, of) in [
        (1.80, Some(1.78)),
        (2.65, Some(2.62)),
        (3.55, Some(3.53)),
        (5.30, Some(5.33)),
        (7.00, Some(6.99)),
        (1.00, Some(1.02)),
        (1.50, Some(1.52)),
        (2.0, None),
        (2.4, None),
        (3.0, None),
        (3.6, None),
        (4.0, None),
        (5.0, None),
        (8.0, None),
        (0.0, None),
        (-1.78, None),
    ] {
        for duty in [RADIAL, FACE, MOVING] {
            assert_eq!(
                gland(duty, section_mm).map(|gland| gland.section_mm),
                of,
                "{section_mm}"
            );
        }
    }
}

#[test]
fn what_speaks_against_a_ring_is_said_with_its_figure_and_the_limit() {
    let stretched = "stretch 6.0 % is above 5 %: thinner section, early ageing";
    for (inside_mm, section_mm, floor_mm, depth_mm, width_mm, duty, expected) in [
        (40.0, 3.53, None, 2.87, None, RADIAL, vec![]),
        (
            40.0,
            3.53,
            None,
            3.20,
            None,
            RADIAL,
            vec!["squeeze 9.3 % is below 14 %: leaks"],
        ),
        (
            40.0,
            3.53,
            None,
            2.50,
            None,
            RADIAL,
            vec!["squeeze 29.2 % is above 23 %: hard to fit, sets early, runs hot when moving"],
        ),
        // The same depth is right between faces.
        (40.0, 3.53, None, 2.60, None, FACE, vec![]),
        (
            40.0,
            3.53,
            None,
            2.60,
            None,
            MOVING,
            vec!["squeeze 26.3 % is above 17 %: hard to fit, sets early, runs hot when moving"],
        ),
        // Without a published gland the window of the duty holds: 12 to 25, 18 to 30, 8 to 18 %; common practice, no source.
        (
            40.0,
            3.0,
            None,
            2.65,
            None,
            RADIAL,
            vec!["squeeze 11.7 % is below 12 %: leaks"],
        ),
        (40.0, 3.0, None, 2.63, None, RADIAL, vec![]),
        (40.0, 3.0, None, 2.26, None, RADIAL, vec![]),
        (
            40.0,
            3.0,
            None,
            2.24,
            None,
            RADIAL,
            vec!["squeeze 25.3 % is above 25 %: hard to fit, sets early, runs hot when moving"],
        ),
        (
            40.0,
            3.0,
            None,
            2.47,
            None,
            FACE,
            vec!["squeeze 17.7 % is below 18 %: leaks"],
        ),
        (40.0, 3.0, None, 2.11, None, FACE, vec![]),
        (40.0, 3.0, None, 2.75, None, MOVING, vec![]),
        (
            40.0,
            3.0,
            None,
            2.77,
            None,
            MOVING,
            vec!["squeeze 7.7 % is below 8 %: leaks"],
        ),
        // A groove deeper than the section does not touch the ring at all.
        (
            40.0,
            3.0,
            None,
            3.30,
            None,
            RADIAL,
            vec!["squeeze -10.0 % is below 12 %: leaks"],
        ),
        // Stretch: up to 5 % is fine, more is not; up to half a percent loose is fine, more is not.
        (40.0, 3.53, Some(42.0), 2.79, None, RADIAL, vec![]),
        (40.0, 3.53, Some(42.4), 2.79, None, RADIAL, vec![stretched]),
        (40.0, 3.53, Some(40.0), 2.87, None, RADIAL, vec![]),
        (40.0, 3.53, Some(39.81), 2.87, None, RADIAL, vec![]),
        (
            40.0,
            3.53,
            Some(39.6),
            2.87,
            None,
            RADIAL,
            vec!["loose on the groove floor by 1.0 %"],
        ),
        // Fill: 9.787 mm2 of ring in 2.87 by 4 mm are 85.25 %, in 2.87 by 4.02 mm 84.8 %.
        (40.0, 3.53, None, 2.87, Some(4.02), RADIAL, vec![]),
        (
            40.0,
            3.53,
            None,
            2.87,
            Some(4.0),
            RADIAL,
            vec!["fills 85.3 % of the groove, above 85 %: no room for swell and heat"],
        ),
        (
            40.0,
            3.53,
            Some(42.4),
            3.20,
            Some(2.5),
            RADIAL,
            vec![
                "squeeze 6.7 % is below 14 %: leaks",
                stretched,
                "fills 115 % of the groove: more than it holds, so that it does not go in as measured: measure groove and ring again",
            ],
        ),
    ] {
        let of = o_ring_in_gland(inside_mm, section_mm, floor_mm, depth_mm, width_mm, duty);
        assert_eq!(
            of.against, expected,
            "{section_mm} in {depth_mm}, {floor_mm:?} {width_mm:?}"
        );
        assert_eq!(of.stretch_share.is_some(), floor_mm.is_some());
        assert_eq!(of.fill_share.is_some(), width_mm.is_some());
    }
}

#[test]
fn a_stretched_ring_is_thinner_by_constant_volume() {
    // Section times the root of one over one and the stretch: open CAD library NopSCADlib; arithmetic.
    for (floor_mm, stretch, section_mm) in [
        (40.0, 0.0, 3.53),
        (40.4, 0.01, 3.512_48),
        (41.2, 0.03, 3.478_21),
        (42.0, 0.05, 3.444_93),
        (44.0, 0.10, 3.365_72),
        // A loose ring keeps its section.
        (39.0, -0.025, 3.53),
    ] {
        let of = o_ring_in_gland(40.0, 3.53, Some(floor_mm), 2.87, None, RADIAL);
        assert!(
            (of.stretch_share.unwrap() - stretch).abs() < 1e-9,
            "{floor_mm}"
        );
        assert!(
            (of.section_mm - section_mm).abs() < 1e-5,
            "{floor_mm}: {}",
            of.section_mm
        );
        let squeeze = 1.0 - 2.87 / of.section_mm;
        assert!((of.squeeze_share - squeeze).abs() < 1e-9, "{floor_mm}");
    }
}

#[test]
fn duties_have_names_that_read_back() {
    for (duty, code) in [
        (RADIAL, "static_radial"),
        (FACE, "static_face"),
        (MOVING, "reciprocating"),
    ] {
        assert_eq!(duty.code(), code);
        assert_eq!(Duty::from_code(code), Some(duty));
    }
    for code in ["", "static", "Static_radial", "rotary", "static radial"] {
        assert_eq!(Duty::from_code(code), None, "{code}");
    }
}

proptest! {
    /// Deeper grooves squeeze less; larger floors stretch more and squeeze less; wider grooves fill less.
    #[test]
    fn squeeze_stretch_and_fill_go_with_the_groove(
        inside in 5.0_f64..300.0,
        section in 1.0_f64..8.0,
        depth_share in 0.5_f64..1.1,
        stretch in 0.0_f64..0.2,
        more in 1.001_f64..1.3,
    ) {
        let depth = section * depth_share;
        let of = |floor: f64, depth: f64, width: f64| {
            o_ring_in_gland(inside, section, Some(floor), depth, Some(width), Duty::StaticRadial)
        };
        let (floor, width) = (inside * (1.0 + stretch), section * 1.3);
        let here = of(floor, depth, width);
        prop_assert!(of(floor, depth * more, width).squeeze_share < here.squeeze_share);
        prop_assert!(of(floor * more, depth, width).squeeze_share < here.squeeze_share);
        prop_assert!(of(floor * more, depth, width).stretch_share > here.stretch_share);
        prop_assert!(of(floor, depth, width * more).fill_share < here.fill_share);
        prop_assert!(of(floor, depth * more, width).fill_share < here.fill_share);
        prop_assert!(here.section_mm <= section + 1e-12);
    }

    /// The shares are the same for a ring and a groove of twice the size.
    #[test]
    fn shares_do_not_hang_on_the_size(inside in 5.0_f64..300.0, section in 1.0_f64..8.0, depth in 0.6_f64..1.0, stretch in -0.05_f64..0.15) {
        let of = |times: f64| {
            let (inside, section) = (inside * times, section * times);
            o_ring_in_gland(inside, section, Some(inside * (1.0 + stretch)), section * depth, Some(section * 1.4), Duty::StaticFace)
        };
        let (one, two) = (of(1.0), of(2.0));
        prop_assert!((one.squeeze_share - two.squeeze_share).abs() < 1e-9);
        prop_assert!((one.stretch_share.unwrap() - two.stretch_share.unwrap()).abs() < 1e-9);
        prop_assert!((one.fill_share.unwrap() - two.fill_share.unwrap()).abs() < 1e-9);
        prop_assert!((two.section_mm / one.section_mm - 2.0).abs() < 1e-9);
    }
}
