//! Parts like lip seals for the same shaft and housing in another width, which often go in as well.

use super::{standard_answer, wanted};
use crate::lookup::answers::Answer;
use crate::lookup::found::{Found, Matched};
use crate::lookup::question::Question;
use crate::part::{OtherWidth, SizeKey};
use crate::standard::{self, StandardPart};
use crate::units::Length;

/// Sizes less likely than this have no others beside them (common practice, no source).
const LIKELY: f64 = 0.5;

/// The seals of the tables beside a likely one, each judged against it.
///
/// Source: DIN 3760 lists several widths for one shaft and bore; that they stand in for each other is common practice.
pub(super) fn of(question: &Question, found: &Found) -> Vec<Answer> {
    let other_width = found.size.family().facts().exchange.other_width;
    if other_width != OtherWidth::InBore || found.probability < LIKELY {
        return Vec::new();
    }
    let want = wanted(question, found.size);
    let beside = |size: &SizeKey| Found {
        rows: Vec::new(),
        probability: 0.0,
        matched: Matched::Neighbour,
        spare_mm: found.spare_of(size),
        ..found.clone()
    };
    of_seat(&found.size)
        .filter(|row| width(&row.size) != width(&found.size))
        .map(|row| standard_answer(question, &want, row, &beside(&row.size), false))
        .collect()
}

fn width(size: &SizeKey) -> Option<Length> {
    size.length_at(size.family().facts().shape.width_place?)
}

/// The seals of the tables for shaft and housing of one, by width: rows are in the order of shaft, housing and width.
fn of_seat(size: &SizeKey) -> impl Iterator<Item = &'static StandardPart> {
    let seat = |size: &SizeKey| [0, 1].map(|place| size.length_at(place));
    let wanted = seat(size);
    let rows = standard::of_family(size.family());
    let first = rows.partition_point(|row| seat(&row.size) < wanted);
    rows[first..]
        .iter()
        .take_while(move |row| seat(&row.size) == wanted)
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
    fn room_left_over_is_that_of_each_width() {
        // Arithmetic; common practice: a seal in a deeper bore is pressed in flush or to a shoulder.
        let answers = answer(
            &Question::read("lip seal 40x62x8 room for 10").unwrap(),
            None,
        )
        .answers;
        for (name, left) in [("40x62x8", "2.00 mm"), ("40x62x7", "3.00 mm")] {
            let seal = answers.iter().find(|one| one.designation == name).unwrap();
            let checks = seal.judgement.checks.join("; ");
            assert!(
                checks.contains(left) && checks.contains("flush"),
                "{checks}"
            );
            assert!(seal.judgement.rework.is_empty(), "{name}");
            assert_eq!(seal.judgement.verdict, Verdict::AfterChecks, "{name}");
        }
        for (text, is_spaced) in [
            ("HK2020 room for 24", false),
            ("6206 room for 20", true),
            ("6206 room for 16", false),
        ] {
            let first = &answer(&Question::read(text).unwrap(), None).answers[0];
            assert_eq!(!first.judgement.rework.is_empty(), is_spaced, "{text}");
        }
    }

    #[test]
    fn a_bearing_has_none() {
        let answers = answer(&Question::read("6205").unwrap(), None).answers;
        assert_eq!(answers.len(), 1);
    }
}
