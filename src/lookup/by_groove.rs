//! The O-rings that lie well in a measured groove, where nothing is known of the ring itself.

use std::collections::BTreeSet;

use super::ask::AskNext;
use super::found::{AllFound, Found, Matched};
use super::groove::Groove;
use super::question::Question;
use crate::engineering::{LEAST_STRETCH, o_ring_in_gland};
use crate::limit::Duty;
use crate::part::{Dimension, Family, SizeKey};
use crate::standard;

/// Probability that the groove is for a ring of no table (common practice, no source).
const SPECIAL_SHARE: f64 = 0.1;
/// Weight of a ring below the least stretch, or in a gland that is published for no section like its own.
const HALF: f64 = 0.5;
/// Most sizes named.
const MOST_NAMED: usize = 12;

/// The sizes that lie well in the groove, best first; none where depth or floor is missing.
pub(super) fn find(question: &Question) -> AllFound {
    let mut all = AllFound {
        none: 1.0,
        ..AllFound::default()
    };
    let groove = question.groove;
    if groove.duty == Some(Duty::StaticFace) {
        all.warnings.push("a groove in a face sizes its ring by its diameter on the side away from the pressure: measure the old ring, or that diameter, and ask for a size".to_owned());
        return all;
    }
    let (Some(floor_mm), Some(depth_mm)) = (groove.floor_mm, groove.depth_mm) else {
        return all;
    };
    let duty = groove.duty.unwrap_or(Duty::StaticRadial);
    let mut weighed = that_lie_well(&groove, (floor_mm, depth_mm), duty);
    if weighed.is_empty() && duty == Duty::Reciprocating {
        // What a ring at rest bears is more than a moving one should: it is named, and told.
        weighed = that_lie_well(&groove, (floor_mm, depth_mm), Duty::StaticRadial);
        if !weighed.is_empty() {
            all.warnings.push("no ring of the tables lies in this groove as a moving one should: those named are squeezed more, which wears them and runs hot; measure the depth again".to_owned());
        }
    }
    weighed.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.cmp(&b.1)));
    weighed.truncate(MOST_NAMED);
    let sum: f64 = weighed.iter().map(|(weight, _)| weight).sum();
    if sum > 0.0 {
        all.none = SPECIAL_SHARE;
    }
    let found = |(weight, size): (f64, SizeKey)| Found {
        size,
        rows: standard::of_size(&size).iter().collect(),
        probability: (1.0 - SPECIAL_SHARE) * weight / sum,
        matched: Matched::ByGroove,
        off_mm: 0.0,
        spare_mm: None,
    };
    all.found = weighed.into_iter().map(found).collect();
    all
}

/// The rings that lie well in a groove by its floor and depth (mm) doing a duty, each with its weight.
fn that_lie_well(
    groove: &Groove,
    (floor_mm, depth_mm): (f64, f64),
    duty: Duty,
) -> Vec<(f64, SizeKey)> {
    sizes()
        .into_iter()
        .filter_map(|size| {
            let inside_mm = size.get(Dimension::InsideDiameter)?.to_mm();
            let section_mm = size.get(Dimension::Section)?.to_mm();
            let width_mm = groove.width_mm;
            let of = o_ring_in_gland(
                inside_mm,
                section_mm,
                Some(floor_mm),
                depth_mm,
                width_mm,
                duty,
            );
            // A depth a little off may be the calliper's.
            let lies_well = of.against.is_empty() || of.is_only_depth_off;
            let stretch = of.stretch_share.filter(|_| lies_well)?;
            let by_stretch = if stretch < LEAST_STRETCH { HALF } else { 1.0 };
            let by_depth = match of.published {
                Some(_) if !of.is_only_depth_off => 1.0,
                _ => HALF,
            };
            Some((by_stretch * by_depth, size))
        })
        .collect()
}

/// What of the groove must be measured before a ring can be named; `None` where it is all there.
pub(super) fn missing(question: &Question) -> Option<AskNext> {
    let groove = question.groove;
    let what = match (groove.floor_mm, groove.depth_mm, groove.width_mm) {
        (None, ..) => "Measure the diameter of the groove's floor.",
        (_, None, _) => "Measure the depth of the groove from its floor to the face opposite.",
        (.., None) => "Measure the width of the groove.",
        _ => return None,
    };
    Some(AskNext {
        question: what.to_owned(),
        why: "floor, depth and width of a groove tell which ring lies well in it".to_owned(),
        bits: 1.0,
    })
}

fn sizes() -> BTreeSet<SizeKey> {
    let rows = standard::of_family(Family::ORing).iter();
    rows.map(|row| row.size).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interchange::Verdict;
    use crate::lookup::{Answers, answer};

    fn asked(text: &str) -> Answers {
        answer(&Question::read(text).unwrap(), None)
    }

    fn names(answers: &Answers) -> Vec<&str> {
        let names = answers.answers.iter();
        names.map(|answer| answer.designation.as_str()).collect()
    }

    /// Glands of AS568 sections 1.78 to 6.99 mm from the published gland table; rings from the AS568 chart. The floor is
    /// the ring's inside diameter and 2 % by hand.
    #[test]
    fn a_groove_made_for_a_ring_names_it() {
        for (text, ring) in [
            ("o-ring groove floor 38.1 depth 2.87 width 4.6", "AS568-222"),
            ("o-ring groove floor 25.5 depth 2.87 width 4.8", "AS568-214"),
            ("o-ring groove floor 12.67 depth 1.3 width 2.4", "AS568-014"),
            (
                "o-ring groove floor 25.5 depth 2.87 width 4.8 static",
                "AS568-214",
            ),
        ] {
            let answers = asked(text);
            assert!(
                names(&answers).contains(&ring),
                "{text}: {:?}",
                names(&answers)
            );
            for answer in &answers.answers {
                // Which ring was there is not known: a look at the machine's list comes first.
                assert!(answer.judgement.verdict >= Verdict::AfterChecks, "{text}");
                assert_eq!(answer.matched, Matched::ByGroove, "{text}");
            }
            for worked in &answers.worked_out {
                assert!(worked.against.is_empty(), "{text}: {worked:?}");
            }
            let sum: f64 = answers.answers.iter().map(|one| one.probability).sum();
            assert!(
                sum > 0.0 && answers.none_of_these.probability >= 0.1,
                "{text}"
            );
        }
    }

    #[test]
    fn a_ring_of_another_section_is_not_named() {
        let answers = asked("o-ring groove floor 38.1 depth 2.87 width 4.6");
        for answer in &answers.answers {
            let size = answer.size.unwrap();
            let inside_mm = size.get(Dimension::InsideDiameter).unwrap().to_mm();
            let section_mm = size.get(Dimension::Section).unwrap().to_mm();
            // 5 % of stretch and the squeeze of 12 to 25 % that rings at rest bear, by hand.
            assert!((36.2..=38.3).contains(&inside_mm), "{inside_mm}");
            assert!((3.2..=3.95).contains(&section_mm), "{section_mm}");
        }
    }

    /// Arithmetic: 3.53 mm in 2.87 mm is squeezed by 18.7 %, 3 mm in 2.4 mm by 20 %: more than the 18 % of moving rings, and
    /// less than the 25 % of rings at rest (published gland table; handbook practice).
    #[test]
    fn a_moving_ring_that_is_squeezed_too_much_is_named_and_told() {
        for (text, ring) in [
            (
                "reciprocating o-ring groove floor 38.1 depth 2.87 width 4.6",
                "AS568-222",
            ),
            ("o-ring piston groove floor 40 depth 2.4 width 4", "40x3"),
        ] {
            let answers = asked(text);
            let found = names(&answers);
            assert!(found.contains(&ring), "{text}: {found:?}");
            for answer in &answers.answers {
                assert!(answer.judgement.verdict >= Verdict::AfterChecks, "{text}");
            }
            let told = answers.warnings.join("; ");
            assert!(told.contains("as a moving one should"), "{text}: {told}");
        }
        let resting = asked("o-ring groove floor 38.1 depth 2.87 width 4.6");
        let told = resting.warnings.join("; ");
        assert!(!told.contains("as a moving one should"), "{told}");
    }

    #[test]
    fn what_is_missing_is_asked_for() {
        for (text, asks) in [
            ("o-ring groove 4.6 x 2.87", "floor"),
            ("o-ring groove floor 38.1", "depth"),
            ("o-ring groove floor 38.1 depth 2.87", "width"),
        ] {
            let answers = asked(text);
            let ask = answers.ask_next.as_ref().unwrap();
            assert!(ask.question.contains(asks), "{text}: {ask:?}");
        }
        assert!(asked("o-ring groove 4.6 x 2.87").answers.is_empty());
        assert!(
            !asked("o-ring groove floor 38.1 depth 2.87")
                .answers
                .is_empty()
        );
    }

    #[test]
    fn no_ring_is_named_for_a_face_or_for_a_groove_of_none() {
        let face = asked("o-ring groove face floor 38.1 depth 2.6 width 4.6");
        let other = asked("o-ring groove floor 38.1 depth 20 width 30");
        for answers in [face, other] {
            assert!(answers.answers.is_empty());
            assert!(answers.none_of_these.probability > 0.99);
        }
    }
}
