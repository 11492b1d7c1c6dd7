//! Seats: ISO 286-2 seats under ISO 492 rings, at and beside the steps of the tables, and what clearance they leave.

use proptest::prelude::*;
use sparewright::engineering::{
    Interference, Seat, bearing_seat, clearance_after_fit, interference,
    likely_clearance_after_fits, likely_interference, ring_deviation,
};
use sparewright::limit::{self, Deviation};
use sparewright::part::{Clearance, Family, ToleranceClass as C};

#[test]
fn interference_is_that_of_both_tables() {
    // Limits of the seats: ISO 286-2 by the open package isofits 1.0; of the rings: ISO 492:2014 by two public pages.
    // Arithmetic: shaft less bore, outside diameter less housing; negative is play.
    for (seat, mm, class, seat_class, least_um, greatest_um) in [
        (Seat::Shaft, 10.0, C::Normal, "g6", -14.0, 3.0),
        (Seat::Shaft, 10.0, C::Normal, "h6", -9.0, 8.0),
        (Seat::Shaft, 15.0, C::Normal, "j5", -3.0, 13.0),
        (Seat::Shaft, 17.0, C::Normal, "j6", -3.0, 16.0),
        (Seat::Shaft, 20.0, C::P5, "k5", 2.0, 17.0),
        (Seat::Shaft, 20.0, C::Normal, "k6", 2.0, 25.0),
        (Seat::Shaft, 25.0, C::Normal, "k6", 2.0, 25.0),
        (Seat::Shaft, 30.0, C::P6, "k6", 2.0, 23.0),
        (Seat::Shaft, 35.0, C::P5, "m5", 9.0, 28.0),
        (Seat::Shaft, 40.0, C::Normal, "m6", 9.0, 37.0),
        (Seat::Shaft, 50.0, C::Normal, "m6", 9.0, 37.0),
        (Seat::Shaft, 55.0, C::Normal, "n6", 20.0, 54.0),
        (Seat::Shaft, 60.0, C::Normal, "p6", 32.0, 66.0),
        (Seat::Shaft, 80.0, C::Normal, "p6", 32.0, 66.0),
        (Seat::Shaft, 100.0, C::P4, "h5", -15.0, 8.0),
        (Seat::Shaft, 120.0, C::Normal, "k6", 3.0, 45.0),
        (Seat::Shaft, 150.0, C::Normal, "m6", 15.0, 65.0),
        (Seat::Shaft, 200.0, C::Normal, "n6", 31.0, 90.0),
        (Seat::Housing, 26.0, C::Normal, "H7", -30.0, 0.0),
        (Seat::Housing, 35.0, C::Normal, "J7", -25.0, 11.0),
        (Seat::Housing, 47.0, C::Normal, "G7", -45.0, -9.0),
        (Seat::Housing, 52.0, C::Normal, "N7", -4.0, 39.0),
        (Seat::Housing, 62.0, C::Normal, "K7", -22.0, 21.0),
        (Seat::Housing, 72.0, C::Normal, "M7", -13.0, 30.0),
        (Seat::Housing, 80.0, C::Normal, "P7", 8.0, 51.0),
        (Seat::Housing, 90.0, C::Normal, "H8", -69.0, 0.0),
        (Seat::Housing, 110.0, C::P5, "H6", -32.0, 0.0),
        (Seat::Housing, 125.0, C::Normal, "JS7", -38.0, 20.0),
        (Seat::Housing, 150.0, C::P6, "K7", -27.0, 28.0),
        (Seat::Housing, 180.0, C::Normal, "N7", -13.0, 52.0),
        (Seat::Housing, 215.0, C::Normal, "M7", -30.0, 46.0),
        (Seat::Housing, 250.0, C::Normal, "H7", -76.0, 0.0),
    ] {
        let fit = bearing_seat(seat, mm, class, seat_class);
        let expected = Interference {
            least_um,
            greatest_um,
        };
        assert_eq!(fit, Some(expected), "{seat_class} at {mm} mm, {class}");
    }
}

#[test]
fn a_step_of_the_tables_holds_above_its_lower_and_up_to_its_upper_end() {
    // ISO 286-1: "above ... up to and including". Bore and shaft step together at 30, 50, 80 and 120 mm.
    for (below_mm, above_mm, class, at, beyond) in [
        (30.0, 30.001, "k6", (2.0, 25.0), (2.0, 30.0)),
        (50.0, 50.001, "m6", (9.0, 37.0), (11.0, 45.0)),
        (80.0, 80.001, "k6", (2.0, 36.0), (3.0, 45.0)),
        (18.0, 18.001, "h6", (-11.0, 8.0), (-13.0, 10.0)),
    ] {
        let of = |mm| {
            let fit = bearing_seat(Seat::Shaft, mm, C::Normal, class).unwrap();
            (fit.least_um, fit.greatest_um)
        };
        assert_eq!(of(below_mm), at, "{class} at {below_mm}");
        assert_eq!(of(above_mm), beyond, "{class} at {above_mm}");
    }
}

#[test]
fn a_seat_of_the_other_kind_and_sizes_outside_the_tables_give_no_fit() {
    for (seat, mm, seat_class) in [
        (Seat::Shaft, 25.0, "K6"),
        (Seat::Shaft, 25.0, "H7"),
        (Seat::Housing, 52.0, "k6"),
        (Seat::Housing, 52.0, "h7"),
        (Seat::Shaft, 25.0, ""),
        (Seat::Shaft, 25.0, "k"),
        (Seat::Shaft, 25.0, "k66"),
        (Seat::Shaft, 25.0, "z9"),
        (Seat::Housing, 52.0, "Z9"),
        (Seat::Housing, 52.0, "7H"),
        (Seat::Shaft, 0.0, "k6"),
        (Seat::Shaft, -25.0, "k6"),
        (Seat::Shaft, 3.0, "k6"),
        (Seat::Shaft, 5_000.0, "k6"),
        (Seat::Housing, 5_000.0, "H7"),
        (Seat::Shaft, f64::NAN, "k6"),
        (Seat::Shaft, f64::INFINITY, "k6"),
    ] {
        assert_eq!(
            bearing_seat(seat, mm, C::Normal, seat_class),
            None,
            "{seat_class} at {mm}"
        );
    }
    assert!(ring_deviation(Seat::Shaft, 0.6, C::Normal).is_none());
    assert!(ring_deviation(Seat::Shaft, 0.61, C::Normal).is_some());
}

#[test]
fn a_measured_seat_is_its_reading_give_and_take_the_instrument() {
    let ring = Deviation {
        lower_um: -10.0,
        upper_um: 0.0,
    };
    // Arithmetic: a shaft of 25.008 mm, read within 2 µm, under a bore of 24.990 to 25.000 mm.
    for (seat, lower_um, upper_um, least_um, greatest_um) in [
        (Seat::Shaft, 6.0, 10.0, 6.0, 20.0),
        (Seat::Shaft, 0.0, 0.0, 0.0, 10.0),
        (Seat::Shaft, -20.0, -12.0, -20.0, -2.0),
        (Seat::Housing, 6.0, 10.0, -20.0, -6.0),
        (Seat::Housing, 0.0, 0.0, -10.0, 0.0),
        (Seat::Housing, -20.0, -12.0, 2.0, 20.0),
    ] {
        let of_seat = Deviation { lower_um, upper_um };
        let expected = Interference {
            least_um,
            greatest_um,
        };
        assert_eq!(interference(seat, ring, of_seat), expected);
    }
}

#[test]
fn the_clearance_left_is_that_of_the_group_less_four_fifths_of_the_fit() {
    // ISO 5753-1 by a public page: CN 5 to 20 µm above 24 up to 30 mm, C3 13 to 28; 6 to 23 and 18 to 36 above 40 up to 50.
    for (bore_mm, group, least_um, greatest_um, left_least, left_greatest) in [
        (25.0, Clearance::Normal, 0.0, 0.0, 5.0, 20.0),
        (25.0, Clearance::Normal, 2.0, 25.0, -15.0, 18.4),
        (25.0, Clearance::C3, 2.0, 25.0, -7.0, 26.4),
        (50.0, Clearance::Normal, 9.0, 37.0, -23.6, 15.8),
        (50.0, Clearance::C3, 9.0, 37.0, -11.6, 28.8),
        (50.0, Clearance::C4, 9.0, 37.0, 0.4, 43.8),
        (15.0, Clearance::C2, 0.0, 10.0, -8.0, 9.0),
        (100.0, Clearance::C5, 10.0, 20.0, 59.0, 112.0),
        // Play on the shaft widens no clearance.
        (25.0, Clearance::Normal, -14.0, 3.0, 2.6, 20.0),
        (25.0, Clearance::Normal, -30.0, -9.0, 5.0, 20.0),
    ] {
        let on_shaft = Interference {
            least_um,
            greatest_um,
        };
        let left = clearance_after_fit(Family::DeepGrooveBall, group, bore_mm, on_shaft).unwrap();
        assert!(
            (left.lower_um - left_least).abs() < 1e-9,
            "{bore_mm} {group}: {left:?}"
        );
        assert!(
            (left.upper_um - left_greatest).abs() < 1e-9,
            "{bore_mm} {group}: {left:?}"
        );
    }
    let none = Interference {
        least_um: 0.0,
        greatest_um: 0.0,
    };
    for (family, bore_mm) in [
        (Family::DeepGrooveBall, 0.0),
        (Family::DeepGrooveBall, 2.5),
        (Family::DeepGrooveBall, 9_999.0),
        (Family::AngularContactBall, 25.0),
        (Family::LipSeal, 25.0),
    ] {
        assert_eq!(
            clearance_after_fit(family, Clearance::Normal, bore_mm, none),
            None
        );
    }
}

/// Shaft, bore and clearance each at forty places of its band: the likely range holds nearly all of these cases, and none
/// lies beyond the ends. ISO 492 Normal at 25 mm 0/-10 µm; ISO 5753-1 at 25 mm: CN 5 to 20, C3 13 to 28 µm.
#[test]
fn the_likely_clearance_holds_nearly_all_cases() {
    for (group, (low, high), class) in [
        (Clearance::Normal, (5.0, 20.0), "k6"),
        (Clearance::C3, (13.0, 28.0), "m6"),
        (Clearance::Normal, (5.0, 20.0), "j6"),
    ] {
        let family = Family::DeepGrooveBall;
        let on = bearing_seat(Seat::Shaft, 25.0, C::Normal, class).unwrap();
        let ends = clearance_after_fit(family, group, 25.0, on).unwrap();
        let fit = likely_interference(Seat::Shaft, (25.0, C::Normal), on).unwrap();
        let likely = likely_clearance_after_fits(family, group, 25.0, &[fit]).unwrap();
        assert!(ends.lower_um <= likely.lower_um + 1e-9 && likely.upper_um <= ends.upper_um + 1e-9);
        let shaft = limit::fit(class, 25.0).unwrap();
        let steps = 40_u32;
        let at = |share: u32, low: f64, high: f64| {
            low + (high - low) * (f64::from(share) + 0.5) / f64::from(steps)
        };
        let mut within = 0_u32;
        for (a, b, c) in
            (0..steps.pow(3)).map(|n| (n % steps, n / steps % steps, n / steps / steps))
        {
            let tight = at(a, shaft.lower_um, shaft.upper_um) - at(b, -10.0, 0.0);
            let left = at(c, low, high) - 0.8 * tight.max(0.0);
            within += u32::from((likely.lower_um..=likely.upper_um).contains(&left));
        }
        // Three even bands lie within the root of the sum of their squares in 90 to 100 of 100 cases.
        let share = f64::from(within) / f64::from(steps.pow(3));
        assert!(share > 0.9, "{group} {class}: {share}");
    }
}

#[test]
fn a_grade_is_as_wide_whatever_its_letter() {
    // ISO 286-1: the tolerance is that of the grade; the letter only moves it. IT6 and IT7 at 25 and 52 mm.
    for (mm, classes, band_um) in [
        (
            25.0,
            &["g6", "h6", "j6", "js6", "k6", "m6", "n6", "p6", "r6"][..],
            13.0,
        ),
        (
            25.0,
            &["F7", "G7", "H7", "J7", "JS7", "K7", "M7", "N7", "P7"],
            21.0,
        ),
        (
            52.0,
            &["g6", "h6", "j6", "js6", "k6", "m6", "n6", "p6", "r6"],
            19.0,
        ),
        (
            52.0,
            &["F7", "G7", "H7", "J7", "JS7", "K7", "M7", "N7", "P7"],
            30.0,
        ),
    ] {
        for class in classes {
            let of = limit::fit(class, mm).unwrap_or_else(|| panic!("{class}"));
            assert!(
                (of.upper_um - of.lower_um - band_um).abs() <= 1.0,
                "{class} at {mm}: {of:?}"
            );
        }
    }
}

const SHAFTS: [&str; 8] = ["g6", "h6", "j6", "k6", "m6", "n6", "p6", "r6"];
const HOUSINGS: [&str; 7] = ["G7", "H7", "J7", "K7", "M7", "N7", "P7"];

proptest! {
    /// From one letter to the next a seat only gets tighter (ISO 286-1, order of the fundamental deviations).
    #[test]
    fn seats_get_tighter_with_their_letter(tenths in 31_u32..1_800, at in 0_usize..7, class in 0_usize..4) {
        let mm = f64::from(tenths) / 10.0;
        let class = [C::Normal, C::P6, C::P5, C::P4][class];
        let fits = [
            SHAFTS.get(at..at + 2).map(|two| (Seat::Shaft, two)),
            HOUSINGS.get(at..at + 2).map(|two| (Seat::Housing, two)),
        ];
        for (seat, two) in fits.into_iter().flatten() {
            let of = |letter| bearing_seat(seat, mm, class, letter);
            if let (Some(looser), Some(tighter)) = (of(two[0]), of(two[1])) {
                prop_assert!(looser.least_um <= tighter.least_um, "{two:?} at {mm}");
                prop_assert!(looser.greatest_um <= tighter.greatest_um, "{two:?} at {mm}");
                prop_assert!(looser.least_um <= looser.greatest_um);
            }
        }
    }

    /// A finer ring makes the span of a fit no wider, and never tighter than a Normal one at its tightest.
    #[test]
    fn a_finer_class_narrows_the_fit(tenths in 31_u32..2_400) {
        let mm = f64::from(tenths) / 10.0;
        let of = |class| bearing_seat(Seat::Shaft, mm, class, "k6");
        if let (Some(normal), Some(p6), Some(p5)) = (of(C::Normal), of(C::P6), of(C::P5)) {
            prop_assert!(normal.greatest_um >= p6.greatest_um && p6.greatest_um >= p5.greatest_um);
            prop_assert!(normal.least_um <= p6.least_um && p6.least_um <= p5.least_um);
        }
    }

    /// The wider group has more clearance left on the same shaft, and a tighter shaft leaves less of any.
    #[test]
    fn clearance_left_follows_group_and_fit(tenths in 26_u32..2_000, least in -30.0_f64..40.0, span in 0.0_f64..40.0, more in 0.0_f64..30.0) {
        let bore_mm = f64::from(tenths) / 10.0;
        let on = |by: f64| Interference { least_um: least + by, greatest_um: least + span + by };
        let left = |group, by| clearance_after_fit(Family::DeepGrooveBall, group, bore_mm, on(by));
        let groups = [Clearance::C2, Clearance::Normal, Clearance::C3, Clearance::C4, Clearance::C5];
        for two in groups.windows(2) {
            let (Some(narrow), Some(wide)) = (left(two[0], 0.0), left(two[1], 0.0)) else { continue };
            prop_assert!(narrow.lower_um <= wide.lower_um && narrow.upper_um <= wide.upper_um);
            let tighter = left(two[0], more).unwrap();
            prop_assert!(tighter.lower_um <= narrow.lower_um + 1e-9 && tighter.upper_um <= narrow.upper_um + 1e-9);
        }
    }
}
