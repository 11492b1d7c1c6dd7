//! A size from memory rises when two suppliers print it alike.

use super::Answers;
use super::part::Answer;
use crate::catalogue::card_index::CardIndex;
use crate::interchange::{FROM_MEMORY, Verdict};

/// Suppliers that must agree.
const SUPPLIERS: usize = 2;

/// Lifts the check on a size from memory where at least two suppliers print the very size, and says which.
pub(super) fn raise(index: &CardIndex, answers: &mut Answers) {
    for answer in answers.answers.iter_mut() {
        if !answer
            .judgement
            .checks
            .iter()
            .any(|check| check == FROM_MEMORY)
        {
            continue;
        }
        let position = answer.size.and_then(|size| index.position(&size));
        let suppliers = position.map_or_else(Vec::new, |at| index.drawer(at).printed_by);
        if suppliers.len() >= SUPPLIERS {
            lift(answer, &suppliers);
        }
    }
}

fn lift(answer: &mut Answer, suppliers: &[String]) {
    let judgement = &mut answer.judgement;
    judgement.checks.retain(|check| check != FROM_MEMORY);
    judgement
        .agrees
        .push(format!("size printed alike by {}", suppliers.join(" and ")));
    let is_clear =
        judgement.checks.is_empty() && judgement.unknown.is_empty() && judgement.differs.is_empty();
    if is_clear && judgement.verdict == Verdict::AfterChecks {
        judgement.verdict = Verdict::AsItIs;
    }
}
