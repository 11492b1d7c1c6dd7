//! Parts beside a size that is in no table: each is judged against the size asked for.

use super::{standard_answer, wanted};
use crate::lookup::answers::Answer;
use crate::lookup::found::{Found, Matched};
use crate::lookup::likelihood::neighbours;
use crate::lookup::question::Question;
use crate::standard;

/// The nearest parts of the tables; none of them is the size asked for, so that their probability is 0.
pub(super) fn nearest(question: &Question) -> Vec<Answer> {
    let families = match &question.family {
        Some(family) => std::slice::from_ref(family),
        None => &question.families,
    };
    neighbours(families, &question.readings)
        .iter()
        // A size of the tables that other words of the question rule out is no neighbour of itself.
        .filter(|neighbour| standard::of_size(&neighbour.asked).is_empty())
        .flat_map(|neighbour| {
            let want = wanted(question, neighbour.asked);
            let found = Found {
                size: neighbour.asked,
                rows: Vec::new(),
                probability: 0.0,
                matched: Matched::Neighbour,
                off_mm: 0.0,
                spare_mm: None,
            };
            let judged =
                |row| standard_answer(question, &want, row, &found, question.family.is_none());
            let rows = neighbour.candidate.rows.iter();
            rows.map(|row| judged(row)).collect::<Vec<_>>()
        })
        .collect()
}
