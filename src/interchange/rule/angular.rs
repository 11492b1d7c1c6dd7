//! Angular contact: contact angle, arrangement, preload and matched sets; also the steep-angle tapered roller.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{InSets, Traits, UNSAID_SET};

/// Compares what makes up a set.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let Some(family) = want.family.filter(|_| want.family == have.family) else {
        return;
    };
    if !family.is_radial_bearing() {
        return;
    }
    if family.facts().marks.has_angles() {
        angle(want, have, findings);
    }
    let (wanted, at_hand) = (&want.traits, &have.traits);
    if is_arrangement_open(want, have) {
        findings.unknown(UNKNOWN_ARRANGEMENT);
    } else {
        arrangement(
            wanted.arrangement.as_deref(),
            at_hand.arrangement.as_deref(),
            findings,
        );
    }
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

/// Said where it is not known how the bearings of a set stand, or whether there is a set.
const UNKNOWN_ARRANGEMENT: &str = "arrangement of the set (DB, DF, DT)";

/// True where a mark that no standard explains may be that of an arrangement: `7210 C DBL` is no single bearing for all that is
/// known. Where neither names one, a mark that both carry says the same of both.
fn is_arrangement_open(want: &Subject, have: &Subject) -> bool {
    let (wanted, at_hand) = (&want.traits, &have.traits);
    let is_open =
        |traits: &Traits| traits.arrangement.is_none() && !traits.unknown_suffixes.is_empty();
    if wanted.arrangement.is_none() && at_hand.arrangement.is_none() {
        let in_sets = want.family.map(|family| family.facts().exchange.in_sets);
        return in_sets == Some(InSets::Sets)
            && wanted.unknown_suffixes != at_hand.unknown_suffixes;
    }
    is_open(wanted) || is_open(at_hand)
}

/// A bearing for universal matching may stand alone, and two of them for a pair; the reverse never holds.
fn arrangement(want: Option<&str>, have: Option<&str>, findings: &mut Findings) {
    let is_universal = have.is_some_and(|have| have.eq_ignore_ascii_case(UNIVERSAL));
    let (bar, effect) = match (want, have) {
        (None, None) => return,
        (Some(a), Some(b)) if a == UNSAID_SET || b == UNSAID_SET => {
            findings.unknown(UNKNOWN_ARRANGEMENT);
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

/// True for bearings that are ground to stand against each other; those in tandem are not.
fn is_preloaded_set(traits: &Traits) -> bool {
    let arrangement = traits.arrangement.as_deref();
    arrangement.is_some_and(|of| {
        of == UNSAID_SET
            || ["DB", "DF"]
                .iter()
                .any(|mark| of.eq_ignore_ascii_case(mark))
    })
}

/// The preload of a bearing that stands alone is the machine's, not its own; a set has the one that it was ground to.
fn preload(want: &Traits, have: &Traits, findings: &mut Findings) {
    let (wanted, at_hand) = (want.preload_class.as_deref(), have.preload_class.as_deref());
    let is_universal =
        (have.arrangement.as_deref()).is_some_and(|have| have.eq_ignore_ascii_case(UNIVERSAL));
    match (wanted, at_hand) {
        (None, None) if is_preloaded_set(want) && is_preloaded_set(have) => {
            findings.unknown("preload (or clearance) that the set is ground to");
        }
        (None, None) => {}
        (Some(a), Some(b)) if a.eq_ignore_ascii_case(b) => {
            findings.agrees(format!("preload class: {a}"));
        }
        (None, Some(_)) if is_universal && want.arrangement.is_none() => {}
        (None, Some(_)) | (Some(_), None)
            if is_universal || is_preloaded_set(want) && is_preloaded_set(have) =>
        {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interchange::{Needs, Verdict, judge};
    use crate::part::designation::Designation;
    use crate::standard;

    fn subject(text: &str) -> Subject {
        let read = Designation::parse(text).unwrap_or_else(|| panic!("{text}"));
        let row = standard::resolve(&read).unwrap_or_else(|| panic!("{text}"));
        Subject {
            label: text.to_owned(),
            size: Some(row.size),
            family: read.family,
            traits: read.traits,
            needs: Needs::default(),
            chamfer_mm: None,
            ratings: None,
            speed_limit_rpm: None,
            confidence: None,
        }
    }

    /// DIN 623-1: DB, DF and DT; a mark with more letters is in no standard, and unknown is never equal (common practice, no
    /// source).
    #[test]
    fn an_unread_mark_leaves_the_arrangement_open() {
        for (want, have, verdict, is_open) in [
            ("7210 C DBL P4", "7210 C P4", Verdict::AfterChecks, true),
            ("7210 C P4", "7210 C DBL P4", Verdict::AfterChecks, true),
            ("7210 C DBL P4", "7210 C DB P4", Verdict::AfterChecks, true),
            ("7210 C DB P4", "7210 C DBL P4", Verdict::AfterChecks, true),
            (
                "7210 C DBL P4",
                "7210 C DBL P4",
                Verdict::AfterChecks,
                false,
            ),
            ("7210 C DB P4", "7210 C P4", Verdict::MustNot, false),
            ("7210 C P4", "7210 C P4", Verdict::AsItIs, false),
        ] {
            let judgement = judge(&subject(want), &subject(have));
            assert_eq!(
                judgement.verdict, verdict,
                "{want} by {have}: {judgement:?}"
            );
            let said = judgement.unknown.iter().any(|of| of == UNKNOWN_ARRANGEMENT);
            assert_eq!(said, is_open, "{want} by {have}: {judgement:?}");
        }
    }

    /// Public type description: the bearings of a set are ground to a preload; in tandem they share a load from one side.
    #[test]
    fn a_set_without_its_preload_is_equal_to_none() {
        for (want, have, is_told) in [
            ("7210 C DB P4", "7210 C DB P4", true),
            ("7210 C DF", "7210 C DF", true),
            ("7210 C DT", "7210 C DT", false),
            ("7210 C", "7210 C", false),
        ] {
            let judgement = judge(&subject(want), &subject(have));
            let mut unknown = judgement.unknown.iter();
            let told = unknown.any(|of| of.starts_with("preload"));
            assert_eq!(told, is_told, "{want} by {have}: {judgement:?}");
            assert_eq!(judgement.verdict == Verdict::AsItIs, !is_told, "{want}");
        }
        // One that is stated for one of the two only is unknown for the other.
        let want = subject("7210 C DB P4");
        let mut have = want.clone();
        have.traits.preload_class = Some("light".to_owned());
        let judgement = judge(&want, &have);
        assert_eq!(judgement.verdict, Verdict::AfterChecks, "{judgement:?}");
    }
}
