//! Tolerance class: a finer class may replace a coarser one, not the reverse.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::PartClass;

/// Compares the tolerance classes of bearings.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    if want.family != have.family
        || want
            .family
            .is_none_or(|family| family.class() != PartClass::Bearings)
    {
        return;
    }
    let (Some(wanted), Some(at_hand)) = (want.traits.tolerance_class, have.traits.tolerance_class)
    else {
        findings.unknown("tolerance class");
        return;
    };
    if wanted == at_hand {
        findings.agrees(format!("tolerance class: {wanted}"));
        return;
    }
    let (bar, effect) = if at_hand > wanted {
        (
            Bar::None,
            "a finer class does what the coarser one did, at a higher price",
        )
    } else {
        (
            Bar::Never,
            "a coarser class runs out and vibrates where the finer one was asked for",
        )
    };
    findings.differs(
        bar,
        Difference {
            what: "tolerance class",
            have: at_hand.to_string(),
            want: wanted.to_string(),
            effect: effect.to_owned(),
            source: "ISO 492; the direction is common practice, no source",
        },
    );
}
