//! Bearings that the measured or named shaft leaves no clearance at all: they must not go on it as they are.

use std::sync::Arc;

use super::answers::{Answer, Answers};
use super::clearance_left::{TAKES_CLEARANCE, against_clearance, likely_on_shaft, range};
use super::question::Question;
use crate::interchange::{Difference, Verdict};
use crate::part::designation::Designation;

/// Refuses the bearings whose clearance, as far as is likely, the tightness of the shaft takes.
pub(super) fn refuse(question: &Question, answers: &mut Answers) {
    if !answers
        .answers
        .iter()
        .any(|answer| difference(question, answer).is_some())
    {
        return;
    }
    let mut kept = Vec::with_capacity(answers.answers.len());
    for mut answer in std::mem::take(&mut answers.answers) {
        match difference(question, &answer) {
            Some(difference) => {
                // The check that says the same goes.
                let judgement = Arc::make_mut(&mut answer.judgement);
                judgement.checks.retain(|check| check != TAKES_CLEARANCE);
                judgement.differs.insert(0, difference);
                judgement.verdict = judgement.verdict.max(Verdict::MustNot);
                answers.refused.push(answer);
            }
            None => kept.push(answer),
        }
    }
    answers.answers = kept;
}

/// What is lost; `None` where some clearance may be left, or the bearing's group is not known.
fn difference(question: &Question, answer: &Answer) -> Option<Difference> {
    let size = answer
        .size
        .filter(|size| size.family().is_radial_bearing())?;
    let asked = question.traits.clearance?;
    // An answer of another group than the one asked for has its own clearance.
    let own = Designation::parse(&answer.designation).and_then(|read| read.traits.clearance);
    let group = own.unwrap_or(asked);
    let likely = likely_on_shaft(question, &size, group)?;
    (against_clearance(likely) == Some(TAKES_CLEARANCE)).then(|| Difference {
        what: "clearance",
        have: format!("likely {} µm left on this shaft ({group})", range(likely)),
        want: "some clearance left".to_owned(),
        effect: TAKES_CLEARANCE.to_owned(),
        source: "ISO 5753-1; handbook practice, from memory",
    })
}

#[cfg(test)]
mod tests {
    use super::super::clearance_left::MAY_TAKE_CLEARANCE;
    use super::*;
    use crate::lookup::answer;

    /// ISO 492 Normal: bore of 25 mm 0/-10 µm; ISO 5753-1 at 25 mm: CN 5 to 20, C3 13 to 28, C5 30 to 53 µm; four fifths of
    /// the interference go off (handbook practice, from memory). A comparator is sure to 2 µm (common practice).
    #[test]
    fn a_shaft_that_takes_all_clearance_is_refused_and_one_that_may_is_checked() {
        for (text, verdict) in [
            // 35 +- 5.4 µm tight: 20.5 +- 7.5 less 28 +- 4.3, the root of the sum of the squares is 8.6.
            ("6205 C3 shaft 25.030 comparator", Verdict::AfterChecks),
            // 65 +- 5.4 µm tight: 20.5 less 52, +- 8.6.
            ("6205 C3 shaft 25.060 comparator", Verdict::MustNot),
            // 37 +- 5.4 µm tight: 12.5 less 29.6, +- 8.6, of CN.
            ("6205 shaft 25.032 comparator", Verdict::MustNot),
            // The end of the tolerances would be 20 - 0.8 x 23, which is not likely: 30 +- 5.4 tight, 12.5 less 24, +- 8.6.
            ("6205 shaft 25.025 comparator", Verdict::MustNot),
            // 39 +- 5.4 µm tight: 41.5 +- 11.5 less 31.2, +- 12.3, of C5.
            ("6205 C5 shaft 25.034 comparator", Verdict::AfterChecks),
            // 2 to 16 µm tight: 30 - 12.8 at least.
            ("6205 C5 shaft 25.004 comparator", Verdict::AsItIs),
            ("6205 shaft 24.990 comparator", Verdict::AsItIs),
        ] {
            let answers = answer(&Question::read(text).unwrap(), None);
            let all = || answers.answers.iter().chain(&answers.refused);
            let first = all().find(|one| one.designation.starts_with("6205"));
            let judgement = &first.unwrap_or_else(|| panic!("{text}")).judgement;
            assert_eq!(judgement.verdict, verdict, "{text}: {judgement:?}");
            let may = judgement
                .checks
                .iter()
                .any(|check| check == MAY_TAKE_CLEARANCE);
            assert_eq!(
                may,
                verdict == Verdict::AfterChecks,
                "{text}: {judgement:?}"
            );
            if verdict == Verdict::MustNot {
                assert!(answers.answers.is_empty(), "{text}: {answers:?}");
                assert_eq!(judgement.differs[0].effect, TAKES_CLEARANCE, "{text}");
                assert!(!answers.worked_out.is_empty(), "{text}");
            }
        }
    }

    #[test]
    fn a_clearance_that_is_not_known_is_only_a_check() {
        // Nobody said which group: one of normal clearance would be left without any.
        let text = "deep groove shaft 25.032 comparator, od 52, width 15";
        let answers = answer(&Question::read(text).unwrap(), None);
        let is_told = |one: &Answer| {
            let checks = &one.judgement.checks;
            one.size.is_some() && checks.iter().any(|check| check == TAKES_CLEARANCE)
        };
        assert!(answers.answers.iter().any(is_told), "{answers:?}");
    }
}
