//! Rows of one size that nothing read so far tells apart are one answer.

use std::sync::Arc;

use super::measuring::PIN_TYPE;
use crate::lookup::answers::Answer;
use crate::lookup::steep;
use crate::part::SizeKey;

/// Joins standard answers of one family and size with one verdict and no difference into the first of them.
pub(super) fn join(answers: Vec<Answer>) -> Vec<Answer> {
    let mut joined: Vec<Answer> = Vec::with_capacity(answers.len());
    // Where those of them stand that another may be joined to: most answers are parts of the shop.
    let mut open: Vec<usize> = Vec::new();
    for answer in answers {
        if !is_open(&answer) {
            joined.push(answer);
            continue;
        }
        let mut known = open.iter().copied();
        match known.find(|at| are_twins(&joined[*at], &answer)) {
            Some(at) => {
                let known = &mut joined[at];
                let may_be_steep =
                    |size: SizeKey| size.family().facts().bench.told.has_steep_series;
                let angle = known
                    .size
                    .is_some_and(may_be_steep)
                    .then(|| steep::told_apart(&known.designation, &answer.designation));
                let judgement = Arc::make_mut(&mut known.judgement);
                judgement.checks.extend(angle.flatten());
                for other in &answer.judgement.unknown {
                    if !judgement.unknown.contains(other) {
                        judgement.unknown.push(other.clone());
                    }
                }
                known.twins.push(answer.designation);
            }
            None => {
                open.push(joined.len());
                joined.push(answer);
            }
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
        && unknown(a).eq(unknown(b))
}

/// What is not known of a part, but for the type of a pin, which only one of two standards has: hardened or not is asked anyway.
fn unknown(answer: &Answer) -> impl Iterator<Item = &String> {
    let unknown = answer.judgement.unknown.iter();
    unknown.filter(|of| of.as_str() != PIN_TYPE)
}

#[cfg(test)]
mod tests {
    use crate::lookup::{Question, answer};

    /// ISO 8734 and ISO 2338 both list pins of 6 x 30 mm: one size, one probability.
    #[test]
    fn pins_of_one_size_share_one_probability() {
        for text in ["dowel 6x30", "dowel 6x30 m6"] {
            let question = Question::read(text).unwrap();
            let answers = answer(&question, None);
            let sum: f64 = answers.answers.iter().map(|one| one.probability).sum();
            let all = sum + answers.none_of_these.probability;
            assert!(all < 1.01, "{text}: {all}");
            let mut names = (answers.answers.iter())
                .flat_map(|one| std::iter::once(&one.designation).chain(&one.twins));
            assert!(names.any(|name| name.contains("8734-6x30")), "{text}");
            let asked = answers.ask_next.as_ref().map(|ask| ask.question.as_str());
            assert!(asked.is_some_and(|ask| ask.contains("hardened")), "{text}");
        }
    }
}
