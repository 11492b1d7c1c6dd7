//! Axial location of bearings whose ribs tell it, cylindrical roller bearings: NU and N float, NJ locates one way, NUP both ways.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{AlongAxis, RibForm};

const SOURCE: &str = "DIN 5412-1 and ISO 246, from memory; types of IS 6457:1972";

/// Compares the rib forms.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let has_ribs =
        (want.family).is_some_and(|of| of.facts().exchange.along_axis == AlongAxis::ByRibs);
    if !has_ribs || have.family != want.family {
        return;
    }
    let (Some(wanted), Some(at_hand)) = (want.traits.rib_form, have.traits.rib_form) else {
        findings.unknown("rib form (N, NU, NJ, NUP), which decides whether the shaft is located");
        return;
    };
    if wanted == at_hand {
        findings.agrees(format!("axial location: {wanted}"));
        return;
    }
    let (bar, effect) = effect(wanted, at_hand);
    findings.differs(
        bar,
        Difference {
            what: "axial location",
            have: at_hand.to_string(),
            want: wanted.to_string(),
            effect: effect.to_owned(),
            source: SOURCE,
        },
    );
    if bar == Bar::Check {
        findings.check(
            "which ring must float and where the shaft is located, from the machine's drawing",
        );
    }
}

fn effect(want: RibForm, have: RibForm) -> (Bar, &'static str) {
    use RibForm::{N, Nj, Nu, Nup};
    match (want, have) {
        (Nu, N) | (N, Nu) => (
            Bar::Check,
            "floats too, but on the other ring; rings of the two do not mix",
        ),
        (Nj | Nup, Nu | N) => (
            Bar::Never,
            "does not locate the shaft: it would wander along its axis",
        ),
        (Nup, Nj) => (
            Bar::Never,
            "locates one way only where both ways are needed",
        ),
        (Nj, Nup) => (
            Bar::Check,
            "locates both ways: heat growth must be taken up elsewhere",
        ),
        (Nu | N, Nj | Nup) => (
            Bar::Never,
            "holds a shaft that must be free to grow with heat",
        ),
        _ => (Bar::None, "same form"),
    }
}
