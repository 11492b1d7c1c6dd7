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
        (Some(true), Some(true)) => both_grooved(want, have, findings),
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

/// Of two with a groove, one may come with its ring and the other without.
fn both_grooved(want: &Subject, have: &Subject, findings: &mut Findings) {
    findings.agrees("snap-ring groove");
    let (wanted, at_hand) = (has_ring(want), has_ring(have));
    if wanted == at_hand {
        return;
    }
    let in_words = |has: bool| if has { "fitted" } else { "none" };
    let (effect, check) = if wanted {
        (
            "without its snap ring the groove holds nothing",
            "fit the snap ring of the groove (ISO 464), which the bearing does not bring",
        )
    } else {
        (
            "the snap ring stands out of the outer ring",
            "that the snap ring has room, or is left off",
        )
    };
    findings.differs(
        Bar::Check,
        Difference {
            what: "snap ring",
            have: in_words(at_hand).to_owned(),
            want: in_words(wanted).to_owned(),
            effect: effect.to_owned(),
            source: SOURCE,
        },
    );
    findings.check(check);
}

fn has_ring(subject: &Subject) -> bool {
    let mut variants = subject.traits.variants();
    variants.any(|piece| piece.starts_with("snap ring"))
}
