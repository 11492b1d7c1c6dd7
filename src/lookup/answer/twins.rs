//! Rows of one size that nothing read so far tells apart are one answer.

use crate::lookup::answers::Answer;

/// Joins standard answers of one family and size with one verdict and no difference into the first of them.
pub(super) fn join(answers: Vec<Answer>) -> Vec<Answer> {
    let mut joined: Vec<Answer> = Vec::with_capacity(answers.len());
    for answer in answers {
        let twin = is_open(&answer).then(|| {
            let mut open = joined.iter_mut().filter(|known| is_open(known));
            open.find(|known| are_twins(known, &answer))
        });
        match twin.flatten() {
            Some(known) => known.twins.push(answer.designation),
            None => joined.push(answer),
        }
    }
    joined
}

/// True for a part of the tables without a difference.
fn is_open(answer: &Answer) -> bool {
    answer.number.is_none() && answer.judgement.differs.is_empty()
}

/// True for two such parts of one family and size with one verdict.
fn are_twins(a: &Answer, b: &Answer) -> bool {
    let (Some(size), Some(other)) = (&a.size, &b.size) else {
        return false;
    };
    size.without_fit() == other.without_fit()
        && a.judgement.verdict == b.judgement.verdict
        && a.judgement.unknown == b.judgement.unknown
}
