//! A snap-ring groove in the outer ring holds the bearing in its housing.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};

const SOURCE: &str = "DIN 623-1 and ISO 464, from memory";

/// Compares the snap-ring grooves.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    if want.family != have.family {
        return;
    }
    let difference = |have: &str, want: &str, effect: &str| Difference {
        what: "snap-ring groove",
        have: have.to_owned(),
        want: want.to_owned(),
        effect: effect.to_owned(),
        source: SOURCE,
    };
    match (
        want.traits.has_snap_ring_groove,
        have.traits.has_snap_ring_groove,
    ) {
        (Some(true), Some(true)) => findings.agrees("snap-ring groove"),
        (Some(true), Some(false)) => {
            findings.differs(
                Bar::Never,
                difference(
                    "none",
                    "groove",
                    "nothing holds the outer ring in its housing",
                ),
            );
        }
        (Some(true), None) => findings.unknown("snap-ring groove is not stated"),
        (_, Some(true)) => {
            findings.differs(
                Bar::Check,
                difference(
                    "groove",
                    "none",
                    "the groove does no harm if the ring is left off",
                ),
            );
            findings.check("that the snap ring can be left off, and the outer ring is still supported beside its groove");
        }
        _ => {}
    }
}
