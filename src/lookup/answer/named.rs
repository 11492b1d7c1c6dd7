//! A part of the shop that was asked for by one of its names: it stands first, whatever goes in for it.

use std::sync::Arc;

use crate::catalogue::card_index::NamedCard;
use crate::interchange::{Judgement, Verdict};
use crate::lookup::answers::{Answer, Answers, NoneOfThese};
use crate::lookup::found::Matched;
use crate::lookup::question::Question;

/// Puts the part asked for before all others.
pub(super) fn put_first(question: &Question, answers: &mut Answers) {
    let Some(named) = &question.named else { return };
    let is_it = |answer: &Answer| answer.number.as_ref() == Some(&named.card.number);
    let known = answers
        .answers
        .iter()
        .chain(&answers.refused)
        .find(|answer| is_it(answer));
    let size_known = known.map(|answer| (answer.standard.clone(), answer.confidence));
    let (standard, confidence) = size_known.unwrap_or_default();
    answers.answers.retain(|answer| !is_it(answer));
    answers.refused.retain(|answer| !is_it(answer));
    let likeliest = answers
        .answers
        .first()
        .map_or(1.0, |answer| answer.probability);
    let asked_for = Answer {
        standard,
        confidence,
        probability: likeliest,
        ..itself(named)
    };
    // By its own name alone it is found, whatever size it may have.
    if asked_for.is_by_name_only() && answers.answers.is_empty() {
        answers.none_of_these = by_name();
    }
    answers.answers.insert(0, asked_for);
}

fn by_name() -> NoneOfThese {
    NoneOfThese {
        probability: 0.001,
        why: "the text is a name of this part".to_owned(),
    }
}

/// The answer where neither size nor designation is known: the part itself, and nothing in its place.
pub(super) fn alone(named: &NamedCard) -> Answers {
    Answers {
        answers: vec![itself(named)],
        none_of_these: by_name(),
        warnings: vec![format!(
            "of `{}` no standard size and no standard designation is known: nothing is proposed in its place",
            named.card.number
        )],
        ..Answers::default()
    }
}

fn itself(named: &NamedCard) -> Answer {
    let NamedCard { size, card, .. } = named;
    let mut judgement = Judgement::empty(Verdict::AsItIs);
    judgement
        .agrees
        .push("the shop's part of this name".to_owned());
    Answer {
        designation: card.name().to_owned(),
        twins: Vec::new(),
        number: Some(card.number.clone()),
        size: *size,
        standard: None,
        matched: Matched::Exact,
        probability: 1.0,
        confidence: None,
        judgement: Arc::new(judgement),
        stock: card.stock.clone(),
        offers: card.offers.clone(),
    }
}
