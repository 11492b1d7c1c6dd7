//! A size from memory rises when two suppliers print it alike.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::catalogue::card_index::CardIndex;
use crate::interchange::{FROM_MEMORY, Verdict};
use crate::lookup::answers::Answer;
use crate::part::SizeKey;

/// Before the names of the suppliers.
const PRINTED_ALIKE: &str = "size printed alike by ";
/// Suppliers that must agree.
const SUPPLIERS: usize = 2;

/// Which suppliers print the sizes of a question.
pub(super) struct Printed<'a> {
    index: &'a CardIndex,
    /// Their names, where there are enough of them: the parts of one size ask for the same.
    known: BTreeMap<SizeKey, Option<String>>,
}

impl<'a> Printed<'a> {
    pub(super) const fn new(index: &'a CardIndex) -> Self {
        Self {
            index,
            known: BTreeMap::new(),
        }
    }

    /// Lifts the check on a size from memory where at least two suppliers print the very size, and says which.
    pub(super) fn raise(&mut self, answer: &mut Answer) {
        let mut checks = answer.judgement.checks.iter();
        let Some(size) = answer
            .size
            .filter(|_| checks.any(|check| check == FROM_MEMORY))
        else {
            return;
        };
        let index = self.index;
        let printed = self.known.entry(size).or_insert_with(|| {
            let suppliers = index.printed_by(index.position(&size)?);
            (suppliers.len() >= SUPPLIERS).then(|| suppliers.join(" and "))
        });
        if let Some(suppliers) = printed {
            lift(answer, suppliers);
        }
    }
}

/// True where suppliers bear out a size from memory.
pub(super) fn is_raised(answer: &Answer) -> bool {
    let mut agrees = answer.judgement.agrees.iter();
    agrees.any(|said| said.starts_with(PRINTED_ALIKE))
}

fn lift(answer: &mut Answer, suppliers: &str) {
    let judgement = Arc::make_mut(&mut answer.judgement);
    judgement.checks.retain(|check| check != FROM_MEMORY);
    judgement.agrees.push(format!("{PRINTED_ALIKE}{suppliers}"));
    // A difference that bars names its check: what is left does not bar.
    let is_clear = judgement.checks.is_empty() && judgement.unknown.is_empty();
    if is_clear && judgement.verdict == Verdict::AfterChecks {
        judgement.verdict = Verdict::AsItIs;
    }
}
