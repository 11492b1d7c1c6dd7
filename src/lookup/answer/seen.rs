//! A size from memory rises when two suppliers print it alike.

use std::collections::{BTreeMap, BTreeSet};

use super::Answers;
use super::part::Answer;
use crate::catalogue::{OfferOf, Shop};
use crate::interchange::{FROM_MEMORY, Verdict};
use crate::part::SizeKey;

/// Suppliers that must agree.
const SUPPLIERS: usize = 2;

/// Lifts the check on a size from memory where at least two suppliers print the very size, and says which.
pub(super) fn raise(shop: &Shop, answers: &mut Answers) {
    let mut by_size: BTreeMap<SizeKey, BTreeSet<&str>> = BTreeMap::new();
    for offer in &shop.offers {
        if let Some(size) = offer.record.size.filter(|size| prints(offer, size)) {
            by_size
                .entry(size)
                .or_default()
                .insert(&offer.record.supplier);
        }
    }
    for answer in answers.answers.iter_mut() {
        let suppliers = answer.size.and_then(|size| by_size.get(&size));
        if let Some(suppliers) = suppliers.filter(|suppliers| suppliers.len() >= SUPPLIERS) {
            lift(answer, suppliers);
        }
    }
}

fn lift(answer: &mut Answer, suppliers: &BTreeSet<&str>) {
    let judgement = &mut answer.judgement;
    let before = judgement.checks.len();
    judgement.checks.retain(|check| check != FROM_MEMORY);
    if judgement.checks.len() == before {
        return;
    }
    let names: Vec<&str> = suppliers.iter().copied().collect();
    judgement
        .agrees
        .push(format!("size printed alike by {}", names.join(" and ")));
    let is_clear =
        judgement.checks.is_empty() && judgement.unknown.is_empty() && judgement.differs.is_empty();
    if is_clear && judgement.verdict == Verdict::AfterChecks {
        judgement.verdict = Verdict::AsItIs;
    }
}

/// True where the offer's own text holds every length of the size: a number looked up here would prove nothing.
fn prints(offer: &OfferOf, size: &SizeKey) -> bool {
    let record = &offer.record;
    let text = [&record.designation, &record.description]
        .into_iter()
        .flatten()
        .cloned()
        .collect::<Vec<_>>()
        .join(" ")
        .replace(',', ".");
    let numbers: Vec<&str> = text
        .split(|c: char| !c.is_ascii_digit() && c != '.')
        .filter(|piece| !piece.is_empty())
        .collect();
    size.dimensions().all(|(_, length)| {
        let wanted = format!("{length:#}");
        numbers.iter().any(|number| *number == wanted)
    })
}
