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

/// How far the inner ring's face stands back from the outer ring's, of both bearings of the new set, at the faces that meet.
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

/// Difference of the spacers that brings a pair from its measured offset to the documented one.
///
/// `documented_um` is the sum of both offsets that the machine's documentation asks for under `documented_under_n`.
///
/// A grinding amount is given only for offsets measured on the new set under the documented load, with an uncertainty
/// below a third of the amount; else what to measure.
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
    // Back to back, the inner rings are drawn together: more preload needs a shorter inner spacer. Face to face the reverse.
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
}
