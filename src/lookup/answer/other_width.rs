//! Lip seals for the same shaft and housing in another width, which often go in as well.

use super::{standard_answer, wanted};
use crate::lookup::answers::Answer;
use crate::lookup::found::{Found, Matched};
use crate::lookup::question::Question;
use crate::part::{Dimension, Family, SizeKey};
use crate::standard;

/// Sizes less likely than this have no others beside them (common practice, no source).
const LIKELY: f64 = 0.5;

/// The seals of the tables beside a likely one, each judged against it.
///
/// Source: DIN 3760 lists several widths for one shaft and bore; that they stand in for each other is common practice.
pub(super) fn of(question: &Question, found: &Found) -> Vec<Answer> {
    if found.size.family() != Family::LipSeal || found.probability < LIKELY {
        return Vec::new();
    }
    let want = wanted(question, found.size);
    let beside = Found {
        rows: Vec::new(),
        probability: 0.0,
        matched: Matched::Neighbour,
        ..found.clone()
    };
    let rows = standard::of_family(Family::LipSeal).iter();
    rows.filter(|row| is_other_width(&row.size, &found.size))
        .map(|row| standard_answer(question, &want, row, &beside, false))
        .collect()
}

fn is_other_width(size: &SizeKey, of: &SizeKey) -> bool {
    let is_same = |dimension| size.get(dimension) == of.get(dimension);
    is_same(Dimension::ShaftDiameter)
        && is_same(Dimension::HousingBore)
        && !is_same(Dimension::Width)
}

#[cfg(test)]
mod tests {
    use crate::interchange::Verdict;
    use crate::lookup::{Matched, Question, answer};

    #[test]
    fn the_other_width_stands_behind_the_one_asked_for() {
        // DIN 3760: 35 x 52 x 8, and 7 before 1996; from memory.
        for (text, first, other) in [
            ("oil seal 35x52x7", "35x52x7", "35x52x8"),
            ("oil seal 35x52x8", "35x52x8", "35x52x7"),
        ] {
            let answers = answer(&Question::read(text).unwrap(), None).answers;
            assert_eq!(answers[0].designation, first, "{text}");
            assert_eq!(answers[0].matched, Matched::Exact, "{text}");
            let beside = answers.iter().find(|one| one.designation == other).unwrap();
            assert_eq!(beside.matched, Matched::Neighbour, "{text}");
            assert_eq!(beside.judgement.verdict, Verdict::AfterChecks, "{text}");
            assert!(
                beside.judgement.differs.iter().any(|of| of.what == "width"),
                "{text}"
            );
        }
    }

    #[test]
    fn a_bearing_has_none() {
        let answers = answer(&Question::read("6205").unwrap(), None).answers;
        assert_eq!(answers.len(), 1);
    }
}
