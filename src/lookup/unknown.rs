//! The next thing to look at or to ask, when the answer hangs on something the question does not say.

use crate::part::{Family, PartClass, Traits};

/// What to ask next, and why.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct AskNext {
    /// The question, for a person with the part in hand.
    pub question: String,
    /// What it decides.
    pub why: String,
}

/// The question that settles most of what is not known of a part of this family.
pub fn ask_next(family: Option<Family>, traits: &Traits) -> Option<AskNext> {
    let ask = |question: &str, why: &str| {
        Some(AskNext {
            question: question.to_owned(),
            why: why.to_owned(),
        })
    };
    let Some(family) = family else {
        return ask(
            "What type is it: balls, cylindrical, tapered or barrel-shaped rollers, needles, a seal?",
            "types of one size carry different loads and must not stand in for each other",
        );
    };
    match family {
        Family::CylindricalRoller if traits.rib_form.is_none() => ask(
            "Which rings have ribs: does the inner ring come off to no side (NUP), one side (NJ) or both (NU)?",
            "the ribs decide whether the shaft is held along its axis",
        ),
        Family::AngularContactBall if traits.contact_angle.is_none() => ask(
            "Which contact angle is marked: C 15°, AC 25°, A 30° or B 40°?",
            "another angle is another part",
        ),
        Family::LipSeal if traits.seal_form.is_none() => ask(
            "Is the outside rubber (A) or metal (B), and is there a second, outer dust lip (S)?",
            "a seal without dust lip must not replace one with it",
        ),
        Family::LipSeal | Family::ORing if traits.material.is_none() => ask(
            "Which fluid and which temperature does it see?",
            "they decide the elastomer: NBR, FKM, EPDM, ...",
        ),
        _ if family.class() != PartClass::Bearings => None,
        _ if traits.closure.is_none() => ask(
            "Is it open, shielded (metal, Z) or sealed (rubber, RS), on one side or both?",
            "closure decides grease, dirt and speed",
        ),
        _ if traits.clearance.is_none() => ask(
            "Is a clearance marked on the ring (C2, C3, C4; no mark means normal)?",
            "less clearance than before may seize",
        ),
        _ if traits.tolerance_class.is_none() => ask(
            "Is a tolerance class marked (P6, P5, P4; no mark means normal)?",
            "a coarser class must not replace a finer one",
        ),
        _ => None,
    }
}
