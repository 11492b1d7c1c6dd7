//! Whether the part holds the shaft along its axis as the place needs it.

use super::super::needs::{AxialNeed, Need};
use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{AlongAxis, RibForm};

/// What a type does along the axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Holds {
    Nothing,
    OneWay,
    BothWays,
}

/// Compares what the place needs with what the part at hand does.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let Some(need) = want.needs.axial else { return };
    let Some(holds) = holds(have) else {
        if have.family.is_some_and(|family| family.is_radial_bearing()) {
            findings.looks_at(Need::Axial);
            findings.unknown("whether it holds the shaft along its axis");
        }
        return;
    };
    findings.looks_at(Need::Axial);
    let (bar, effect) = match (need, holds) {
        (AxialNeed::BothWays, Holds::BothWays)
        | (AxialNeed::OneWay, Holds::OneWay | Holds::BothWays)
        | (AxialNeed::Floats, Holds::Nothing) => {
            findings.agrees("holds the shaft along its axis as the place needs it");
            return;
        }
        (AxialNeed::BothWays, Holds::OneWay) => (
            Bar::Never,
            "holds one way only; both ways need a second bearing set against it",
        ),
        (AxialNeed::BothWays | AxialNeed::OneWay, Holds::Nothing) => (
            Bar::Never,
            "does not hold the shaft: it would wander along its axis",
        ),
        (AxialNeed::Floats, _) if may_slide(have) => (
            Bar::Check,
            "floats only if one of its rings slides on its seat",
        ),
        (AxialNeed::Floats, _) => (
            Bar::Never,
            "holds a shaft that must be free to grow with heat",
        ),
    };
    findings.differs(
        bar,
        Difference {
            what: "axial need",
            have: words(holds).to_owned(),
            want: need.words().to_owned(),
            effect: effect.to_owned(),
            source: if bar == Bar::Check {
                "common practice, no source"
            } else {
                "DIN 5412-1 and ISO 246, from memory; types of IS 6457:1972; published type descriptions"
            },
        },
    );
    if bar == Bar::Check {
        findings.check("that one ring has a loose fit and room to slide");
    }
}

/// True for types that are mounted as the floating bearing by leaving one ring loose on its seat.
fn may_slide(subject: &Subject) -> bool {
    (subject.family).is_some_and(|family| family.facts().exchange.floats_on_its_seat)
}

fn holds(subject: &Subject) -> Option<Holds> {
    let traits = &subject.traits;
    Some(match subject.family?.facts().exchange.along_axis {
        AlongAxis::BothWays => Holds::BothWays,
        AlongAxis::OneWay => Holds::OneWay,
        AlongAxis::ByArrangement => {
            let arrangement = traits.arrangement.as_deref();
            let is_pair = arrangement.is_some_and(|a| matches!(a, "DB" | "DF"));
            let variant = traits.variant.as_deref();
            let is_four_point = variant.is_some_and(|v| v.contains("four-point"));
            if traits.rows == Some(2) || is_pair || is_four_point {
                Holds::BothWays
            } else {
                Holds::OneWay
            }
        }
        AlongAxis::ByRibs => match traits.rib_form? {
            RibForm::N | RibForm::Nu => Holds::Nothing,
            RibForm::Nj => Holds::OneWay,
            RibForm::Nup => Holds::BothWays,
        },
        AlongAxis::Nothing => Holds::Nothing,
        AlongAxis::Untold => return None,
    })
}

const fn words(holds: Holds) -> &'static str {
    match holds {
        Holds::Nothing => "holds nothing along the axis",
        Holds::OneWay => "holds one way",
        Holds::BothWays => "holds both ways",
    }
}
