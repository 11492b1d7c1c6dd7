//! Shields and seals: how much dirt is kept out, on how many sides, and at what speed.

use super::super::needs::Need;
use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{ClosedBy, Closure, Family, MadeClosed};

const SOURCE: &str = "DIN 623-1; published closure descriptions; common practice";
/// Said where the number of sides is not known.
const SIDES: &str = "on how many sides the old bearing is closed";
/// Said of what is not known at all.
const UNKNOWN: &str = "closure (open, shields, seals)";

/// Compares the closures of bearings.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let Some(family) = want.family.filter(|_| want.family == have.family) else {
        return;
    };
    let is_closed = |subject: &Subject| {
        let closure = subject.traits.closure;
        closure.is_some_and(|closure| closure != Closure::Open) || subject.needs.closed_by.is_some()
    };
    let is_seldom_closed =
        made_closed(family) == MadeClosed::Seldom && !is_closed(want) && !is_closed(have);
    if made_closed(family) == MadeClosed::Never || is_seldom_closed {
        return;
    }
    let half_known = want
        .needs
        .closed_by
        .filter(|_| want.traits.closure.is_none());
    if let Some(by) = half_known {
        on_some_side(by, have.traits.closure, findings);
        return;
    }
    let (Some(wanted), Some(at_hand)) = (want.traits.closure, have.traits.closure) else {
        if want.traits.closure.is_some()
            || have.traits.closure.is_some()
            || made_closed(family) == MadeClosed::Often
        {
            findings.unknown(UNKNOWN);
        }
        return;
    };
    if wanted == at_hand {
        findings.agrees(format!("closure: {}", wanted.words()));
        return;
    }
    let (bar, effect, check) = effect(wanted, at_hand);
    findings.differs(
        bar,
        Difference {
            what: "closure",
            have: at_hand.words().to_owned(),
            want: wanted.words().to_owned(),
            effect: effect.to_owned(),
            source: SOURCE,
        },
    );
    if bar == Bar::Check {
        findings.check(check);
    }
}

const fn made_closed(family: Family) -> MadeClosed {
    family.facts().exchange.closed
}

/// What closes the old bearing is known, and not on how many sides: nothing closed is equal to it.
fn on_some_side(by: ClosedBy, at_hand: Option<Closure>, findings: &mut Findings) {
    findings.looks_at(Need::Closure);
    let Some(at_hand) = at_hand else {
        findings.unknown(UNKNOWN);
        return;
    };
    if at_hand.closed_by() == Some(by) {
        findings.unknown(SIDES);
        return;
    }
    // Against one side at least, which is all that is known.
    let (bar, effect, check) = effect(by.on(false), at_hand);
    findings.differs(
        bar,
        Difference {
            what: "closure",
            have: at_hand.words().to_owned(),
            want: by.words().to_owned(),
            effect: effect.to_owned(),
            source: SOURCE,
        },
    );
    if bar == Bar::Check {
        findings.unknown(SIDES);
        findings.check(check);
    }
}

/// How much is kept out: 0 nothing, 1 a gap, 2 a labyrinth, 3 a rubbing lip.
const fn barrier(closure: Closure) -> u8 {
    match closure {
        Closure::Open => 0,
        Closure::ShieldOneSide | Closure::ShieldBothSides => 1,
        Closure::LowFrictionSealOneSide | Closure::LowFrictionSealBothSides => 2,
        Closure::SealOneSide | Closure::SealBothSides => 3,
    }
}

const fn sides(closure: Closure) -> u8 {
    match closure {
        Closure::Open => 0,
        Closure::ShieldOneSide | Closure::LowFrictionSealOneSide | Closure::SealOneSide => 1,
        Closure::ShieldBothSides | Closure::LowFrictionSealBothSides | Closure::SealBothSides => 2,
    }
}

fn effect(want: Closure, have: Closure) -> (Bar, &'static str, &'static str) {
    if have == Closure::Open {
        return (
            Bar::Never,
            "an open bearing here has no grease of its own and lets dirt in",
            "",
        );
    }
    if sides(have) < sides(want) {
        return (Bar::Never, "one side stays open where both were closed", "");
    }
    if want == Closure::Open && barrier(have) == 3 {
        return (
            Bar::Check,
            "contact seals cut the top speed by about 40 % and keep oil out",
            "speed, and how the bearing is lubricated: in an oil bath the seals must come out",
        );
    }
    if barrier(have) < barrier(want) {
        return (
            Bar::Check,
            "keeps out less dust and water",
            "whether the place is clean and dry enough for the lighter closure",
        );
    }
    if barrier(have) == 3 {
        return (
            Bar::Check,
            "contact seals run warmer and cut the top speed by about 40 %",
            "speed of the shaft against the limit of the sealed bearing",
        );
    }
    (
        Bar::Check,
        "closed where it was less closed: grease inside, and outside grease or oil kept out",
        "how the bearing is lubricated: relubrication or oil must still reach it",
    )
}
