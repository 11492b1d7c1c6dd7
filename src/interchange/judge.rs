//! Judges one part against another by every rule.

use super::rule::{Findings, RULES, what_is_left};
use super::subject::Subject;
use super::verdict::{Judgement, Verdict};

/// Judges whether `have` may stand in for `want`. Exchange has a direction: the reverse is another judgement.
///
/// # Example
/// ```
/// use sparewright::interchange::{judge, Subject, Verdict};
/// use sparewright::standard;
/// let row = standard::find("6305").expect("6305 is in the tables");
/// let (mut want, mut have) = (Subject::of_standard(row), Subject::of_standard(row));
/// want.traits.clearance = Some(sparewright::part::Clearance::C3);
/// have.traits.clearance = Some(sparewright::part::Clearance::Normal);
/// assert_eq!(judge(&want, &have).verdict, Verdict::MustNot);
/// ```
pub fn judge(want: &Subject, have: &Subject) -> Judgement {
    let mut findings = Findings::default();
    for rule in RULES {
        rule(want, have, &mut findings);
    }
    what_is_left(want, &mut findings);
    findings.into_judgement()
}

/// True where the verdict of [`judge`] would be "goes in as it is"; stops at the first rule that bars it.
pub(crate) fn goes_in_as_it_is(want: &Subject, have: &Subject) -> bool {
    if !want.needs.is_empty() {
        return judge(want, have).verdict == Verdict::AsItIs;
    }
    // The last rules are the quickest where nothing is asked of the place; the order changes no verdict.
    RULES.iter().rev().all(|rule| {
        let mut findings = Findings::default();
        rule(want, have, &mut findings);
        !findings.bars()
    })
}
