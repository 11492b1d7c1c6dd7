//! One part and what is to be said of it.

use crate::catalogue::card_index::{OfferLine, StockLine};
use crate::interchange::{Judgement, Verdict};
use crate::lookup::found::{Found, Matched, certainty};
use crate::part::SizeKey;
use crate::standard::Confidence;

/// One part and what is to be said of it.
#[derive(Debug, Clone)]
pub struct Answer {
    /// What to ask for at the counter.
    pub designation: String,
    /// Other designations of this size that nothing read so far tells apart.
    pub twins: Vec<String>,
    /// The shop's or supplier's number, where it is a part of the shop's tables.
    pub number: Option<String>,
    /// Family and size.
    pub size: Option<SizeKey>,
    /// Standard the size comes from, where there is one.
    pub standard: Option<String>,
    /// How the size was matched.
    pub matched: Matched,
    /// Probability that the size asked for is the one this answer was judged against.
    pub probability: f64,
    /// How far the standard row was cross-checked.
    pub confidence: Option<Confidence>,
    /// Verdict and reasons.
    pub judgement: Judgement,
    /// Stock.
    pub stock: Vec<StockLine>,
    /// Offers.
    pub offers: Vec<OfferLine>,
}

impl Answer {
    /// Certainty of the size in words.
    pub fn certainty(&self) -> &'static str {
        certainty(self.probability)
    }

    /// True where some of it is free on the shelf.
    pub(super) fn is_here(&self) -> bool {
        self.stock
            .iter()
            .any(|stock| stock.free.is_some_and(|free| free > 0.0))
    }
}

/// A size less likely than this never gives the first verdict.
const SURE_ENOUGH: f64 = 0.9;

/// A size found by measuring a worn part is checked on the new one; room left over is made up with a spacer.
pub(super) fn note_measuring(found: &Found, judgement: &mut Judgement) {
    if found.matched == Matched::WithinMeasuring {
        judgement.checks.push(if found.off_mm < 0.0005 {
            format!(
                "{} is the size of its seats, and figures of those or of a free part gave it: measure the seats again",
                found.size
            )
        } else {
            format!(
                "measured up to {:.3} mm off {}: measure again on an unworn place",
                found.off_mm, found.size
            )
        });
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
    if found.probability < SURE_ENOUGH && found.matched != Matched::Neighbour {
        judgement.unknown.push(format!(
            "which part it is: {} is {}",
            found.size,
            certainty(found.probability)
        ));
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
    if let Some(spare_mm) = found.spare_mm.filter(|spare| *spare > 0.3) {
        judgement.rework.push(format!(
            "spacer of {spare_mm:.2} mm beside it, faces parallel within about 5 µm; never on a preloaded pair without its documentation"
        ));
        judgement.verdict = judgement.verdict.max(Verdict::WithRework);
    }
}
