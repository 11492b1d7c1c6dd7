//! Spacers of preloaded pairs: an amount only from face offsets measured under the stated load, never from widths.

/// How two bearings stand to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Arrangement {
    /// Back to back, DB.
    BackToBack,
    /// Face to face, DF.
    FaceToFace,
}

/// Where the offsets come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OffsetSource {
    /// Measured on the new set with a comparator, under a measuring load.
    MeasuredUnderLoad,
    /// Nominal or tabulated widths.
    Nominal,
    /// A calliper, or without the measuring load.
    Unloaded,
}

/// Gap that clamping closes, of both bearings of the new set under the measuring load, at the faces that meet.
///
/// Back to back (DB) it lies between the inner rings' faces, face to face (DF) between the outer rings'. Above 0 the gap is
/// still open under the measuring load and clamping adds preload; below 0 those faces stand proud and clamping takes it away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FaceOffsets {
    /// First bearing, µm.
    pub first_um: f64,
    /// Second bearing, µm.
    pub second_um: f64,
    /// Measuring load, N.
    pub measured_under_n: f64,
    /// Expanded uncertainty of each offset, µm.
    pub uncertainty_um: f64,
    /// Where they come from.
    pub source: OffsetSource,
}

/// What to do with the spacers.
#[derive(Debug, Clone, PartialEq)]
pub enum SpacerAdvice {
    /// Leave both at one length.
    Equal,
    /// Make the inner spacer shorter than the outer one by this, µm.
    ShortenInner(f64),
    /// Make the outer spacer shorter than the inner one by this, µm.
    ShortenOuter(f64),
    /// No amount; measure first.
    MeasureFirst {
        /// Why no amount is given.
        why: &'static str,
        /// What to measure and how.
        how: &'static [&'static str],
    },
}

/// What the sign of an offset means, for whoever measures one.
pub const OFFSET_SIGN: &str = "an offset counts as the gap that clamping closes: DB between the inner rings, DF between the outer rings; below 0 where those faces stand proud";

/// What to measure, in order.
const HOW: [&str; 5] = [
    "take the preload, as an offset under a measuring load, from the machine's documentation",
    "clean the new set and keep it together as it was matched; note its marks",
    "on a surface plate, load each bearing's inner ring axially with the documented measuring load and turn it several times",
    "with a comparator set to gauge blocks, measure the face offset of both rings at three places, of both bearings",
    "measure inner and outer spacer apart with the same comparator; faces parallel within 2 µm",
];

/// What to measure, in order, before the spacers of a preloaded pair are touched.
pub const fn spacer_first() -> &'static [&'static str] {
    &HOW
}

/// Uncertainty of an offset that every preload stands, µm: what a comparator set to gauge blocks gives. Common practice, no
/// source.
const LEAST_SURE_UM: f64 = 1.0;

/// Most offset of one bearing that a matched set has under its measuring load, µm either way. Common practice, no source.
const MOST_OFFSET_UM: f64 = 100.0;

/// Difference of the spacers that brings a pair from its measured offset to the documented one.
///
/// `documented_um` is the sum of both offsets that the machine's documentation asks for under `documented_under_n`.
///
/// A grinding amount is given only for offsets measured on the new set under the documented load, with an uncertainty
/// below a third of the amount, and no larger than a matched set can have; else what to measure.
///
/// # Source
/// Geometry of the arrangement; that nominal or calliper widths give no amount: common practice, no source.
pub fn spacer(
    arrangement: Arrangement,
    offsets: FaceOffsets,
    documented_um: Option<f64>,
    documented_under_n: f64,
) -> SpacerAdvice {
    let first = |why| SpacerAdvice::MeasureFirst { why, how: &HOW };
    match offsets.source {
        OffsetSource::Nominal => return first("nominal widths vary by more than any preload"),
        OffsetSource::Unloaded => {
            return first("offsets without the measuring load, or by a calliper, tell no preload");
        }
        OffsetSource::MeasuredUnderLoad => {}
    }
    let Some(documented_um) = documented_um else {
        return first("the machine's documentation gives no preload here");
    };
    let figures = [
        offsets.first_um,
        offsets.second_um,
        offsets.measured_under_n,
        offsets.uncertainty_um,
        documented_um,
        documented_under_n,
    ];
    if figures.iter().any(|figure| !figure.is_finite()) || offsets.uncertainty_um < 0.0 {
        return first("a figure of the measurement or the documentation is none");
    }
    if (offsets.measured_under_n - documented_under_n).abs() > 0.02 * documented_under_n.max(1.0) {
        return first("the offsets were measured under another load than the documented one");
    }
    let is_plausible = |um: f64, most_um: f64| um.abs() <= most_um;
    if !(is_plausible(offsets.first_um, MOST_OFFSET_UM)
        && is_plausible(offsets.second_um, MOST_OFFSET_UM)
        && is_plausible(documented_um, 2.0 * MOST_OFFSET_UM))
    {
        return first(
            "no matched set has an offset above 100 µm a bearing: another unit, other faces, or bearings that are no set",
        );
    }
    let missing_um = documented_um - (offsets.first_um + offsets.second_um);
    let sure_um = std::f64::consts::SQRT_2 * offsets.uncertainty_um;
    // Offsets that are hardly known always seem to fit.
    if offsets.uncertainty_um > (documented_um.abs() / 3.0).max(LEAST_SURE_UM) {
        return first("the offsets are measured too coarsely for this preload");
    }
    if missing_um.abs() <= sure_um {
        return SpacerAdvice::Equal;
    }
    if missing_um.abs() < 3.0 * sure_um {
        return first("the offsets are measured too coarsely for so small an amount");
    }
    // Back to back clamping draws the inner rings together, face to face the outer ones: a shorter spacer between them
    // leaves a wider gap to close, which is more preload.
    let shortens_inner = (missing_um > 0.0) == (arrangement == Arrangement::BackToBack);
    if shortens_inner {
        SpacerAdvice::ShortenInner(missing_um.abs())
    } else {
        SpacerAdvice::ShortenOuter(missing_um.abs())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn offsets(source: OffsetSource) -> FaceOffsets {
        FaceOffsets {
            first_um: 4.0,
            second_um: 5.0,
            measured_under_n: 50.0,
            uncertainty_um: 0.5,
            source,
        }
    }

    #[test]
    fn widths_never_give_an_amount() {
        for source in [OffsetSource::Nominal, OffsetSource::Unloaded] {
            let advice = spacer(Arrangement::BackToBack, offsets(source), Some(15.0), 50.0);
            assert!(
                matches!(advice, SpacerAdvice::MeasureFirst { how, .. } if how.len() == 5),
                "{advice:?}"
            );
        }
        let measured = offsets(OffsetSource::MeasuredUnderLoad);
        for (documented, load) in [(None, 50.0), (Some(15.0), 100.0)] {
            let advice = spacer(Arrangement::BackToBack, measured, documented, load);
            assert!(
                matches!(advice, SpacerAdvice::MeasureFirst { .. }),
                "{advice:?}"
            );
        }
    }

    #[test]
    fn measured_offsets_give_the_difference_of_the_spacers() {
        // Geometry: 15 µm wanted, 9 µm there: 6 µm more, by the inner spacer of a DB pair, by the outer of a DF pair.
        let measured = offsets(OffsetSource::MeasuredUnderLoad);
        let of = |arrangement, wanted| spacer(arrangement, measured, Some(wanted), 50.0);
        assert_eq!(
            of(Arrangement::BackToBack, 15.0),
            SpacerAdvice::ShortenInner(6.0)
        );
        assert_eq!(
            of(Arrangement::FaceToFace, 15.0),
            SpacerAdvice::ShortenOuter(6.0)
        );
        assert_eq!(
            of(Arrangement::BackToBack, 3.0),
            SpacerAdvice::ShortenOuter(6.0)
        );
        assert_eq!(of(Arrangement::BackToBack, 9.4), SpacerAdvice::Equal);
        assert!(matches!(
            of(Arrangement::BackToBack, 10.5),
            SpacerAdvice::MeasureFirst { .. }
        ));
    }

    #[test]
    fn the_offset_is_the_gap_that_clamping_closes() {
        // Geometry, by hand: a spacer shorter by d at the rings that clamping draws together widens their gap by d. So the
        // gap with the advised spacers must be the documented one, whatever the signs and the arrangement.
        for arrangement in [Arrangement::BackToBack, Arrangement::FaceToFace] {
            for (first_um, second_um, documented_um) in [
                (4.0, 5.0, 15.0),
                (4.0, 5.0, 0.0),
                (-11.0, -11.0, -12.0),
                (-11.0, -11.0, -32.0),
                (-4.0, 2.0, 20.0),
                (30.0, -8.0, 4.0),
            ] {
                let measured = FaceOffsets {
                    first_um,
                    second_um,
                    ..offsets(OffsetSource::MeasuredUnderLoad)
                };
                let advice = spacer(arrangement, measured, Some(documented_um), 50.0);
                let (inner_um, outer_um) = match advice {
                    SpacerAdvice::ShortenInner(um) => (um, 0.0),
                    SpacerAdvice::ShortenOuter(um) => (0.0, um),
                    _ => panic!("{first_um} {second_um} {documented_um}: {advice:?}"),
                };
                let widened_um = match arrangement {
                    Arrangement::BackToBack => inner_um - outer_um,
                    Arrangement::FaceToFace => outer_um - inner_um,
                };
                assert!(
                    (first_um + second_um + widened_um - documented_um).abs() < 1e-9,
                    "{arrangement:?} {first_um} {second_um} {documented_um}: {advice:?}"
                );
            }
        }
    }

    #[test]
    fn figures_that_no_matched_set_has_give_no_amount() {
        // 100 µm a bearing: common practice, no source.
        let of = |first_um, second_um, documented_um| {
            let measured = FaceOffsets {
                first_um,
                second_um,
                ..offsets(OffsetSource::MeasuredUnderLoad)
            };
            spacer(Arrangement::BackToBack, measured, Some(documented_um), 50.0)
        };
        for (first_um, second_um, documented_um) in [
            (400.0, 600.0, 22.0),
            (4.0, 101.0, 22.0),
            (-101.0, 4.0, 22.0),
            (4.0, 5.0, 201.0),
            (4.0, 5.0, -201.0),
        ] {
            let advice = of(first_um, second_um, documented_um);
            assert!(
                matches!(advice, SpacerAdvice::MeasureFirst { why, .. } if why.contains("another unit")),
                "{advice:?}"
            );
        }
        assert_eq!(of(100.0, 100.0, 150.0), SpacerAdvice::ShortenOuter(50.0));
    }
}
