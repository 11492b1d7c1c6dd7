//! A size from memory rises when two suppliers print it alike.

use std::collections::BTreeSet;

use super::Answers;
use super::part::Answer;
use crate::interchange::{FROM_MEMORY, Verdict};
use crate::lookup::shelf::Shelf;

/// Suppliers that must agree.
const SUPPLIERS: usize = 2;

/// Lifts the check on a size from memory where at least two suppliers print the very size, and says which.
pub(super) fn raise(shelf: &Shelf, answers: &mut Answers) {
    for answer in answers.answers.iter_mut() {
        let suppliers = answer.size.and_then(|size| shelf.printed_by.get(&size));
        if let Some(suppliers) = suppliers.filter(|suppliers| suppliers.len() >= SUPPLIERS) {
            lift(answer, suppliers);
        }
    }
}

fn lift(answer: &mut Answer, suppliers: &BTreeSet<String>) {
    let judgement = &mut answer.judgement;
    let before = judgement.checks.len();
    judgement.checks.retain(|check| check != FROM_MEMORY);
    if judgement.checks.len() == before {
        return;
    }
    let names: Vec<&str> = suppliers.iter().map(String::as_str).collect();
    judgement
        .agrees
        .push(format!("size printed alike by {}", names.join(" and ")));
    let is_clear =
        judgement.checks.is_empty() && judgement.unknown.is_empty() && judgement.differs.is_empty();
    if is_clear && judgement.verdict == Verdict::AfterChecks {
        judgement.verdict = Verdict::AsItIs;
    }
}
