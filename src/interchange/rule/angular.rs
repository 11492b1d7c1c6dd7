//! Angular contact: contact angle, arrangement, preload and matched sets; also the steep-angle tapered roller.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::Family;

/// Compares what makes up a set.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let is_pair = want.family == have.family;
    if !is_pair || want.family.is_none_or(|family| !family.is_radial_bearing()) {
        return;
    }
    if want.family == Some(Family::AngularContactBall) {
        angle(want, have, findings);
    }
    let named = [
        (
            "arrangement",
            &want.traits.arrangement,
            &have.traits.arrangement,
        ),
        (
            "preload class",
            &want.traits.preload_class,
            &have.traits.preload_class,
        ),
    ];
    for (what, wanted, at_hand) in named {
        compare(what, wanted.as_deref(), at_hand.as_deref(), findings);
    }
    rows(want, have, findings);
}

fn angle(want: &Subject, have: &Subject, findings: &mut Findings) {
    match (want.traits.contact_angle, have.traits.contact_angle) {
        (Some(a), Some(b)) if a == b => findings.agrees(format!("contact angle: {a}")),
        (Some(a), Some(b)) => findings.differs(
            Bar::Never,
            Difference {
                what: "contact angle",
                have: b.to_string(),
                want: a.to_string(),
                effect: "another angle is another part: stiffness, axial rating and speed change"
                    .to_owned(),
                source: "DIN 628 and DIN 623-1 practice, published type descriptions",
            },
        ),
        _ => findings.unknown("contact angle"),
    }
}

fn compare(what: &'static str, want: Option<&str>, have: Option<&str>, findings: &mut Findings) {
    let (effect, source) = match what {
        "arrangement" => (
            "a matched or universally matched set is replaced as a set, never by loose singles",
            "DIN 623-1 practice, from memory; published type descriptions",
        ),
        "preload class" => (
            "another preload changes stiffness and heat",
            "common practice, no source",
        ),
        _ => (
            "a variant of the same size is another part",
            "DIN 623-1 practice, published tables",
        ),
    };
    match (want, have) {
        (None, None) => {}
        (Some(a), Some(b)) if a.eq_ignore_ascii_case(b) => findings.agrees(format!("{what}: {a}")),
        (a, b) => findings.differs(
            Bar::Never,
            Difference {
                what,
                have: b.unwrap_or("not marked").to_owned(),
                want: a.unwrap_or("not marked").to_owned(),
                effect: effect.to_owned(),
                source,
            },
        ),
    }
}

fn rows(want: &Subject, have: &Subject, findings: &mut Findings) {
    if let (Some(a), Some(b)) = (want.traits.rows, have.traits.rows)
        && a != b
    {
        findings.differs(
            Bar::Never,
            Difference {
                what: "rows",
                have: b.to_string(),
                want: a.to_string(),
                effect: "single and double row bearings differ in load, width and tolerance of misalignment".to_owned(),
                source: "DIN 623-1, published tables",
            },
        );
    }
}
