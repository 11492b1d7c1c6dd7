//! A small, fixed-seed form of the accuracy program of the benchmarks, with bounds on what it achieves.
//!
//! The figures of DEVELOPERS.md come from `accuracy` of `tests/bench`; the same code is compiled here, with few draws. The
//! model of the draw is not the matcher's (see `world.rs` there); bounds leave room for what a few thousand draws scatter.

#[allow(
    dead_code,
    unused_imports,
    reason = "the program prints more than the suite asserts"
)]
#[path = "../bench/src/accuracy/mod.rs"]
mod accuracy;

use accuracy::{Case, OTHER, Outcome, WORKSHOP, run};
pub use accuracy::{Dice, SplitMix};
use sparewright::part::Family;

const DRAWS: usize = 1_500;

fn drawn(family: Family, case: Case, best: usize) -> Outcome {
    run((family, case), &WORKSHOP, (DRAWS, best), 7)
}

#[test]
fn metric_radial_bearings_measured_in_full_come_out_first() {
    for family in [
        Family::DeepGrooveBall,
        Family::CylindricalRoller,
        Family::AngularContactBall,
        Family::SphericalRoller,
        Family::SelfAligningBall,
    ] {
        let first = drawn(family, Case::All, 0).matcher.first_share();
        assert!(first > 0.995, "{family}: {first}");
    }
}

#[test]
fn o_rings_come_out_among_the_first_three() {
    let three = drawn(Family::ORing, Case::All, 0)
        .matcher
        .first_three_share();
    assert!(three > 0.985, "{three}");
}

#[test]
fn a_special_measured_in_full_is_seldom_stated_for_sure() {
    for family in [
        Family::DeepGrooveBall,
        Family::CylindricalRoller,
        Family::NeedleRoller,
        Family::DrawnCupNeedle,
        Family::ThrustNeedle,
    ] {
        let sure = drawn(family, Case::All, 0).matcher.sure_of_outside_share();
        assert!(sure < 0.02, "{family}: {sure}");
    }
}

/// Where figures are missing nobody can tell a special; the matcher must not be much surer than the best possible.
#[test]
fn with_two_figures_the_matcher_is_no_surer_of_specials_than_the_best_possible() {
    for family in [Family::DeepGrooveBall, Family::NeedleRoller] {
        let outcome = drawn(family, Case::Two, DRAWS);
        let (own, best) = (
            outcome.matcher.sure_of_outside_share(),
            outcome.best.unwrap().sure_of_outside_share(),
        );
        assert!(own < best + 0.04, "{family}: {own} against {best}");
    }
}

/// The best possible must be right as often as it says, else its model is not that of the draw.
#[test]
fn the_best_possible_is_right_as_often_as_it_says() {
    for family in [Family::ORing, Family::ShaftRetainingRing, Family::LipSeal] {
        let best = drawn(family, Case::All, DRAWS).best.unwrap();
        let ninety = &best.ninety;
        let off = (ninety.right_share() - ninety.mean_stated()).abs();
        assert!(
            ninety.count >= 30 && off < 0.08,
            "{family}: {off} of {}",
            ninety.count
        );
        assert!(
            best.calibration_error() < 0.07,
            "{family}: {}",
            best.calibration_error()
        );
    }
}

#[test]
fn stated_probabilities_hold_in_both_workshops() {
    for world in [&WORKSHOP, &OTHER] {
        for family in [Family::ORing, Family::ShaftRetainingRing, Family::LipSeal] {
            let of = run((family, Case::All), world, (DRAWS, 0), 7).matcher;
            let right = of.ninety.right_share();
            assert!(
                (0.84..0.98).contains(&right),
                "{} {family}: {right}",
                world.name
            );
        }
    }
}

#[test]
fn a_half_read_number_is_among_the_first_as_often_as_it_says() {
    let of = run(
        (Family::DeepGrooveBall, Case::HalfNumber),
        &WORKSHOP,
        (400, 0),
        7,
    )
    .matcher;
    assert!(of.calibration_error() < 0.1, "{}", of.calibration_error());
}
