//! Rows of one size that nothing read so far tells apart are one answer.

use crate::lookup::answers::Answer;
use crate::lookup::found::lengths_of;
use crate::lookup::steep;

/// Joins standard answers of one family and size with one verdict and no difference into the first of them.
pub(super) fn join(answers: Vec<Answer>) -> Vec<Answer> {
    let mut joined: Vec<Answer> = Vec::new();
    for answer in answers {
        match joined.iter_mut().find(|known| are_twins(known, &answer)) {
            Some(known) => {
                let angle = steep::told_apart(&known.designation, &answer.designation);
                known.judgement.checks.extend(angle);
                known.twins.push(answer.designation);
            }
            None => joined.push(answer),
        }
    }
    joined
}

fn are_twins(a: &Answer, b: &Answer) -> bool {
    let (Some(size), Some(other)) = (&a.size, &b.size) else {
        return false;
    };
    let is_open = |answer: &Answer| answer.number.is_none() && answer.judgement.differs.is_empty();
    is_open(a)
        && is_open(b)
        && size.family() == other.family()
        && lengths_of(size) == lengths_of(other)
        && a.judgement.verdict == b.judgement.verdict
        && a.judgement.unknown == b.judgement.unknown
}
