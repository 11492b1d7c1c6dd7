//! Angular contact: contact angle, arrangement, preload and matched sets; also the steep-angle tapered roller.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{Family, Traits, UNSAID_SET};

/// Compares what makes up a set.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let is_pair = want.family == have.family;
    if !is_pair || want.family.is_none_or(|family| !family.is_radial_bearing()) {
        return;
    }
    if want.family == Some(Family::AngularContactBall) {
        angle(want, have, findings);
    }
    let (wanted, at_hand) = (&want.traits, &have.traits);
    arrangement(
        wanted.arrangement.as_deref(),
        at_hand.arrangement.as_deref(),
        findings,
    );
    preload(wanted, at_hand, findings);
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

/// What [`Traits::arrangement`] says of a bearing that may be mounted in any arrangement.
const UNIVERSAL: &str = "universal";
const MATCHING: &str = "published type descriptions (universal and basic design)";

/// A bearing for universal matching may stand alone, and two of them for a pair; the reverse never holds.
fn arrangement(want: Option<&str>, have: Option<&str>, findings: &mut Findings) {
    let is_universal = have.is_some_and(|have| have.eq_ignore_ascii_case(UNIVERSAL));
    let (bar, effect) = match (want, have) {
        (None, None) => return,
        (Some(a), Some(b)) if a == UNSAID_SET || b == UNSAID_SET => {
            findings.unknown("arrangement of the set (DB, DF, DT)");
            return;
        }
        (Some(a), Some(b)) if a.eq_ignore_ascii_case(b) => {
            findings.agrees(format!("arrangement: {a}"));
            return;
        }
        (None, Some(_)) if is_universal => (
            Bar::None,
            "a bearing for universal matching may be mounted alone",
        ),
        (Some(_), Some(_)) if is_universal => {
            findings.check("two or more bearings for universal matching, of one preload and one make, mounted in the arrangement asked for");
            (
                Bar::Check,
                "bearings for universal matching make up a set in any arrangement; a single one does not",
            )
        }
        (None, Some(_)) => (
            Bar::Never,
            "a matched set is ground to stand together and is not taken apart for one bearing",
        ),
        (Some(_), _) => (
            Bar::Never,
            "a matched or universally matched set is replaced as a set, never by loose singles",
        ),
    };
    findings.differs(bar, difference("arrangement", want, have, effect, MATCHING));
}

/// The preload of a bearing that stands alone is the machine's, not its own.
fn preload(want: &Traits, have: &Traits, findings: &mut Findings) {
    let (wanted, at_hand) = (want.preload_class.as_deref(), have.preload_class.as_deref());
    let is_universal =
        (have.arrangement.as_deref()).is_some_and(|have| have.eq_ignore_ascii_case(UNIVERSAL));
    match (wanted, at_hand) {
        (None, None) => {}
        (Some(a), Some(b)) if a.eq_ignore_ascii_case(b) => {
            findings.agrees(format!("preload class: {a}"));
        }
        (None, Some(_)) if is_universal && want.arrangement.is_none() => {}
        (None, Some(_)) | (Some(_), None) if is_universal => {
            findings.unknown("preload class is stated for one of the two only");
        }
        _ => findings.differs(
            Bar::Never,
            difference(
                "preload class",
                wanted,
                at_hand,
                "another preload changes stiffness and heat",
                "common practice, no source",
            ),
        ),
    }
}

fn difference(
    what: &'static str,
    want: Option<&str>,
    have: Option<&str>,
    effect: &str,
    source: &'static str,
) -> Difference {
    let marked = |mark: Option<&str>| mark.unwrap_or("not marked").to_owned();
    Difference {
        what,
        have: marked(have),
        want: marked(want),
        effect: effect.to_owned(),
        source,
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
