//! Radial internal clearance: larger may do with a warning, smaller may seize.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::Clearance;

const SOURCE: &str = "ISO 5753-1 for the groups; the direction is common practice, no source";

/// Compares the clearance groups of families that have them.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let has_groups = want
        .family
        .is_some_and(|family| family.has_radial_clearance());
    if want.family != have.family || !has_groups {
        return;
    }
    let (Some(wanted), Some(at_hand)) = (want.traits.clearance, have.traits.clearance) else {
        findings.unknown("radial internal clearance");
        return;
    };
    if wanted == at_hand {
        findings.agrees(format!("clearance: {wanted}"));
        return;
    }
    let steps = step(at_hand) - step(wanted);
    let (bar, effect) = match steps {
        1 => (
            Bar::Check,
            "one group larger: more noise and play, guides less exactly",
        ),
        2.. => (Bar::Never, "two groups larger or more: too much play"),
        _ => (
            Bar::Never,
            "smaller: may lose all play and seize with a tight fit or a hot shaft",
        ),
    };
    findings.differs(
        bar,
        Difference {
            what: "clearance",
            have: at_hand.to_string(),
            want: wanted.to_string(),
            effect: effect.to_owned(),
            source: SOURCE,
        },
    );
    if bar == Bar::Check {
        findings.check("whether noise and guidance allow the larger clearance");
    }
}

const fn step(clearance: Clearance) -> i8 {
    match clearance {
        Clearance::C2 => 0,
        Clearance::Normal => 1,
        Clearance::C3 => 2,
        Clearance::C4 => 3,
        Clearance::C5 => 4,
    }
}
