//! Spacers of preloaded pairs: when an amount is given, which spacer it is for, and every reason to measure first.

use proptest::prelude::*;
use sparewright::engineering::{
    Arrangement, FaceOffsets, OffsetSource, SpacerAdvice, spacer, spacer_first,
};

const DB: Arrangement = Arrangement::BackToBack;
const DF: Arrangement = Arrangement::FaceToFace;

fn measured(first_um: f64, second_um: f64, uncertainty_um: f64) -> FaceOffsets {
    FaceOffsets {
        first_um,
        second_um,
        measured_under_n: 50.0,
        uncertainty_um,
        source: OffsetSource::MeasuredUnderLoad,
    }
}

#[test]
fn the_spacer_that_is_made_shorter_follows_from_the_arrangement() {
    // Geometry, arithmetic: what the documentation asks for less what both offsets have. Back to back the inner rings are
    // drawn together, face to face the outer ones.
    for (arrangement, first, second, documented, expected) in [
        (DB, 4.0, 5.0, 15.0, SpacerAdvice::ShortenInner(6.0)),
        (DB, 5.0, 4.0, 15.0, SpacerAdvice::ShortenInner(6.0)),
        (DB, 9.0, 0.0, 15.0, SpacerAdvice::ShortenInner(6.0)),
        (DB, 4.0, 5.0, 3.0, SpacerAdvice::ShortenOuter(6.0)),
        (DF, 4.0, 5.0, 15.0, SpacerAdvice::ShortenOuter(6.0)),
        (DF, 4.0, 5.0, 3.0, SpacerAdvice::ShortenInner(6.0)),
        (DB, 4.0, 5.0, 9.0, SpacerAdvice::Equal),
        (DF, 4.0, 5.0, 9.0, SpacerAdvice::Equal),
        (DB, 4.0, 5.0, 0.0, SpacerAdvice::ShortenOuter(9.0)),
        (DB, -2.0, -3.0, 5.0, SpacerAdvice::ShortenInner(10.0)),
        (DF, -2.0, -3.0, -15.0, SpacerAdvice::ShortenInner(10.0)),
    ] {
        let found = spacer(
            arrangement,
            measured(first, second, 0.5),
            Some(documented),
            50.0,
        );
        assert_eq!(
            found, expected,
            "{arrangement:?} {first} {second} {documented}"
        );
    }
}

#[test]
fn an_amount_needs_an_uncertainty_below_a_third_of_it() {
    // Two offsets of uncertainty u each are sure within the root of two of it: 0.5 µm each give 0.707 µm.
    let too_coarse = "the offsets are measured too coarsely for so small an amount";
    for (uncertainty_um, documented, expected) in [
        (0.5, 9.7, Some(SpacerAdvice::Equal)),
        (0.5, 8.3, Some(SpacerAdvice::Equal)),
        (0.5, 9.72, None),
        (0.5, 11.1, None),
        (0.5, 11.25, Some(SpacerAdvice::ShortenInner(2.25))),
        (0.5, 6.75, Some(SpacerAdvice::ShortenOuter(2.25))),
        (2.0, 15.0, None),
        (1.4, 15.0, Some(SpacerAdvice::ShortenInner(6.0))),
        (0.0, 9.1, Some(SpacerAdvice::ShortenInner(0.1))),
        (0.0, 9.0, Some(SpacerAdvice::Equal)),
    ] {
        let found = spacer(
            DB,
            measured(4.0, 5.0, uncertainty_um),
            Some(documented),
            50.0,
        );
        match (found, expected) {
            (SpacerAdvice::MeasureFirst { why, how }, None) => {
                assert_eq!(why, too_coarse, "{uncertainty_um} {documented}");
                assert_eq!(how, spacer_first());
            }
            (SpacerAdvice::ShortenInner(a), Some(SpacerAdvice::ShortenInner(b)))
            | (SpacerAdvice::ShortenOuter(a), Some(SpacerAdvice::ShortenOuter(b))) => {
                assert!((a - b).abs() < 1e-9, "{uncertainty_um} {documented}: {a}");
            }
            (found, expected) => assert_eq!(Some(found), expected, "{uncertainty_um} {documented}"),
        }
    }
}

#[test]
fn every_reason_to_measure_first_is_named_and_comes_in_its_order() {
    let nominal = "nominal widths vary by more than any preload";
    let unloaded = "offsets without the measuring load, or by a calliper, tell no preload";
    let undocumented = "the machine's documentation gives no preload here";
    let other_load = "the offsets were measured under another load than the documented one";
    use OffsetSource::{MeasuredUnderLoad, Nominal, Unloaded};
    for (source, under_n, documented, documented_n, expected) in [
        (Nominal, 50.0, Some(15.0), 50.0, Some(nominal)),
        (Nominal, 50.0, None, 50.0, Some(nominal)),
        (Unloaded, 50.0, Some(15.0), 50.0, Some(unloaded)),
        (Unloaded, 0.0, Some(15.0), 0.0, Some(unloaded)),
        (MeasuredUnderLoad, 50.0, None, 50.0, Some(undocumented)),
        (MeasuredUnderLoad, 50.0, None, 80.0, Some(undocumented)),
        (MeasuredUnderLoad, 50.0, Some(15.0), 80.0, Some(other_load)),
        (MeasuredUnderLoad, 80.0, Some(15.0), 50.0, Some(other_load)),
        // Two percent of the load are the same load, more are not.
        (MeasuredUnderLoad, 51.0, Some(15.0), 50.0, None),
        (MeasuredUnderLoad, 49.0, Some(15.0), 50.0, None),
        (MeasuredUnderLoad, 51.1, Some(15.0), 50.0, Some(other_load)),
        (MeasuredUnderLoad, 48.9, Some(15.0), 50.0, Some(other_load)),
    ] {
        let offsets = FaceOffsets {
            measured_under_n: under_n,
            source,
            ..measured(4.0, 5.0, 0.5)
        };
        for arrangement in [DB, DF] {
            let found = spacer(arrangement, offsets, documented, documented_n);
            let why = match found {
                SpacerAdvice::MeasureFirst { why, .. } => Some(why),
                _ => None,
            };
            assert_eq!(
                why, expected,
                "{source:?} {under_n} {documented:?} {documented_n}"
            );
        }
    }
}

#[test]
fn a_figure_that_is_none_gives_no_amount() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        for (offsets, documented, under_n) in [
            (measured(bad, 5.0, 0.5), 15.0, 50.0),
            (measured(4.0, bad, 0.5), 15.0, 50.0),
            (measured(4.0, 5.0, bad), 15.0, 50.0),
            (measured(4.0, 5.0, 0.5), bad, 50.0),
            (measured(4.0, 5.0, 0.5), 15.0, bad),
        ] {
            let found = spacer(DB, offsets, Some(documented), under_n);
            assert!(
                matches!(found, SpacerAdvice::MeasureFirst { .. }),
                "{offsets:?} {documented} {under_n}: {found:?}"
            );
        }
    }
    // An uncertainty below nothing is none.
    let found = spacer(DB, measured(4.0, 5.0, -0.5), Some(15.0), 50.0);
    assert!(
        matches!(found, SpacerAdvice::MeasureFirst { .. }),
        "{found:?}"
    );
}

#[test]
fn what_to_measure_comes_in_the_order_of_the_work() {
    let how = spacer_first();
    assert_eq!(how.len(), 5);
    for (step, words) in how.iter().zip([
        "documentation",
        "matched",
        "measuring load",
        "comparator",
        "spacer",
    ]) {
        assert!(step.contains(words), "{step}");
    }
}

proptest! {
    /// What is ground off one spacer of a DB pair is ground off the other of a DF pair; swapping the bearings changes nothing.
    #[test]
    fn arrangements_mirror_each_other(first in -20.0_f64..20.0, second in -20.0_f64..20.0, documented in -40.0_f64..60.0, uncertainty in 0.01_f64..3.0) {
        let of = |arrangement, first, second| spacer(arrangement, measured(first, second, uncertainty), Some(documented), 50.0);
        let mirrored = match of(DF, first, second) {
            SpacerAdvice::ShortenInner(um) => SpacerAdvice::ShortenOuter(um),
            SpacerAdvice::ShortenOuter(um) => SpacerAdvice::ShortenInner(um),
            other => other,
        };
        prop_assert_eq!(of(DB, first, second), mirrored);
        prop_assert_eq!(of(DB, first, second), of(DB, second, first));
        if let SpacerAdvice::ShortenInner(um) | SpacerAdvice::ShortenOuter(um) = of(DB, first, second) {
            prop_assert!((um - (documented - first - second).abs()).abs() < 1e-9);
            prop_assert!(um > 3.0 * uncertainty);
        }
    }
}
