//! O-rings that fail in a measured groove by more than the measuring explains: they must not go in.

use std::sync::Arc;

use super::answers::{Answer, Answers};
use super::question::Question;
use crate::engineering::{o_ring_in_gland, squeeze_window};
use crate::interchange::{Difference, Verdict};
use crate::limit::Duty;
use crate::part::{Dimension, Measured, SizeKey};

/// What a groove is measured with is sure to this, mm (a calliper; common practice, no source).
const SURE_MM: f64 = 0.05;
const DUTIES: [Duty; 3] = [Duty::StaticRadial, Duty::StaticFace, Duty::Reciprocating];
const LEAKS: &str = "leaks: its squeeze stays below the least, whatever the measuring is unsure of";
const TOO_FULL: &str = "does not go in: it is more than the groove holds";

/// Refuses the rings that leak in the groove asked for, or are more than it holds.
pub(super) fn refuse(question: &Question, answers: &mut Answers) {
    if question.groove.depth_mm.is_none() {
        return;
    }
    let mut kept = Vec::with_capacity(answers.answers.len());
    for mut answer in std::mem::take(&mut answers.answers) {
        let Some(effect) = failure(question, &answer) else {
            kept.push(answer);
            continue;
        };
        let difference = Difference {
            what: "groove",
            have: answer
                .size
                .map_or_else(String::new, |size| size.to_string()),
            want: "the groove as measured".to_owned(),
            effect: effect.to_owned(),
            source: "published gland table; handbook practice, from memory",
        };
        let judgement = Arc::make_mut(&mut answer.judgement);
        judgement.differs.insert(0, difference);
        judgement.verdict = judgement.verdict.max(Verdict::MustNot);
        answers.refused.push(answer);
    }
    answers.answers = kept;
}

/// Why a ring fails in the groove however favourably it was measured; of a duty that nobody named the mildest counts.
fn failure(question: &Question, answer: &Answer) -> Option<&'static str> {
    let is_ring =
        |size: &SizeKey| matches!(size.family().facts().bench.measured, Measured::RubberRing);
    let size = answer.size.filter(is_ring)?;
    let inside_mm = size.get(Dimension::InsideDiameter)?.to_mm();
    let section_mm = size.get(Dimension::Section)?.to_mm();
    let groove = question.groove;
    let depth_mm = groove.depth_mm?;
    let duty = groove.duty.unwrap_or(Duty::StaticRadial);
    let of = |depth_mm: f64, floor_mm: Option<f64>| {
        let width_mm = groove.width_mm.map(|mm| mm + SURE_MM);
        o_ring_in_gland(inside_mm, section_mm, floor_mm, depth_mm, width_mm, duty)
    };
    let duties = DUTIES.into_iter();
    let least = duties
        .filter(|of| groove.duty.is_none_or(|duty| duty == *of))
        .map(|duty| squeeze_window(section_mm, duty).0)
        .fold(1.0, f64::min);
    // The floor stretches a ring thinner, so that without it squeeze and fill are the most that they can be.
    if of(depth_mm - SURE_MM, None).squeeze_share < least {
        return Some(LEAKS);
    }
    let wide = of(depth_mm + SURE_MM, groove.floor_mm.map(|mm| mm + SURE_MM));
    wide.fill_share
        .filter(|share| *share > 1.0)
        .map(|_| TOO_FULL)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::answer;

    /// Arithmetic of section, depth and width; least squeeze 14 % at rest and 9 % moving for 3.53 mm (published gland table).
    #[test]
    fn a_ring_that_cannot_do_its_work_is_refused() {
        for (text, why) in [
            ("o-ring 50x3 groove floor 50 depth 3.4 width 4", Some(LEAKS)),
            ("o-ring 40 x 3 groove depth 2.87", Some(LEAKS)),
            // 3.53 in 3.1 mm: 12 %, enough for a moving ring, and not for one at rest.
            ("AS568-222 groove 4.6 x 3.1 static", Some(LEAKS)),
            ("AS568-222 groove 4.6 x 3.1 reciprocating", None),
            ("AS568-222 groove 4.6 x 3.1", None),
            // 19.6 mm² of section in 2.2 x 4.2 mm.
            (
                "o-ring 50x5 face groove depth 2.2 width 4.2",
                Some(TOO_FULL),
            ),
            ("o-ring 45x3 groove 45.2 width 4 depth 2.4", None),
            ("AS568-222 groove floor 38.1 depth 2.87 width 4.57", None),
            ("o-ring 45x3", None),
        ] {
            let answers = answer(&Question::read(text).unwrap(), None);
            let Some(why) = why else {
                assert!(!answers.answers.is_empty(), "{text}: {:?}", answers.refused);
                continue;
            };
            let first = answers.refused.first().unwrap_or_else(|| panic!("{text}"));
            assert_eq!(first.judgement.verdict, Verdict::MustNot, "{text}");
            assert_eq!(first.judgement.differs[0].effect, why, "{text}");
            assert!(answers.answers.is_empty(), "{text}: {:?}", answers.answers);
            // What was worked out stands beside the refusal.
            assert!(!answers.worked_out.is_empty(), "{text}");
        }
    }

    /// Arithmetic: 4.81 mm² of section, stretched by 2 %, in 2 x 2.4 mm are 100.3 %, in 2 x 2.3 mm 104.6 %; rubber keeps its
    /// volume. Both are within what a calliper is unsure of, and never "no room for swell" alone.
    #[test]
    fn a_ring_of_more_than_the_groove_holds_does_not_go_in_as_measured() {
        for (text, is_full) in [
            ("o-ring 40x2.5 groove floor 40.8 depth 2 width 2.4", true),
            ("o-ring 40x2.5 groove floor 40.8 depth 2 width 2.3", true),
            ("o-ring 40x2.5 groove floor 40.8 depth 2 width 2.6", false),
        ] {
            let answers = answer(&Question::read(text).unwrap(), None);
            let first = &answers.answers[0].judgement;
            let checks = first.checks.join("; ");
            assert_eq!(
                checks.contains("does not go in as measured"),
                is_full,
                "{text}: {checks}"
            );
            assert_eq!(
                checks.contains("no room for swell"),
                !is_full,
                "{text}: {checks}"
            );
            assert!(first.verdict >= Verdict::AfterChecks, "{text}");
        }
    }
}
