//! A part of the shop that was asked for by one of its names: it stands first, judged by what the question adds to the name.

use std::sync::Arc;

use super::measuring::{note_measuring, note_words};
use crate::catalogue::card_index::NamedCard;
use crate::interchange::{FROM_MEMORY, Judgement, Subject, Verdict, judge};
use crate::lookup::answers::{Answer, Answers, NoneOfThese};
use crate::lookup::found::{Found, Matched};
use crate::lookup::question::Question;
use crate::standard;

/// True for the part of the shop that was asked for by its name.
pub(super) fn is_it(question: &Question, answer: &Answer) -> bool {
    let named = question.named.as_ref();
    named.is_some_and(|named| answer.number.as_ref() == Some(&named.card.number))
}

/// Adds the part asked for, judged as itself, in place of what its size made of it.
pub(super) fn add(question: &Question, all: &[Found], answers: &mut Answers) {
    let Some(named) = &question.named else { return };
    let is_it = |answer: &Answer| is_it(question, answer);
    let known = answers
        .answers
        .iter()
        .chain(&answers.refused)
        .find(|answer| is_it(answer));
    let standard = known.and_then(|answer| answer.standard.clone());
    answers.answers.retain(|answer| !is_it(answer));
    answers.refused.retain(|answer| !is_it(answer));
    let mut asked_for = itself(question, named);
    match all.iter().find(|found| Some(found.size) == named.size) {
        Some(found) => {
            note_measuring(found, Arc::make_mut(&mut asked_for.judgement));
            asked_for.probability = found.probability;
        }
        None => {
            let likeliest = answers.answers.iter().map(|answer| answer.probability);
            asked_for.probability = likeliest.reduce(f64::max).unwrap_or(1.0);
        }
    }
    asked_for.standard = standard.or(asked_for.standard);
    answers.add(asked_for);
}

/// Puts the part asked for before all others of its list.
pub(super) fn put_first(question: &Question, answers: &mut Answers) {
    let Some(named) = &question.named else { return };
    // By its own name alone it is found, whatever size it may have.
    let is_it = |answer: &Answer| is_it(question, answer);
    let is_other_size = question.reads_otherwise_than(named);
    if is_other_size || named.size.is_none() && answers.answers.iter().all(is_it) {
        answers.none_of_these = by_name();
    }
    for list in [&mut answers.answers, &mut answers.refused] {
        if let Some(at) = list.iter().position(is_it) {
            list[..=at].rotate_right(1);
        }
    }
}

fn by_name() -> NoneOfThese {
    NoneOfThese {
        probability: 0.001,
        why: "the text is a name of this part".to_owned(),
    }
}

/// The answer where neither size nor designation is known: the part itself, and nothing in its place.
pub(super) fn alone(question: &Question, named: &NamedCard) -> Answers {
    let mut asked_for = itself(question, named);
    note_words(question, &mut asked_for);
    let mut answers = Answers {
        none_of_these: by_name(),
        warnings: vec![format!(
            "of `{}` no standard size and no standard designation is known: nothing is proposed in its place",
            named.card.number
        )],
        ..Answers::default()
    };
    answers.add(asked_for);
    answers
}

fn itself(question: &Question, named: &NamedCard) -> Answer {
    let NamedCard { size, card, .. } = named;
    let have = subject(named);
    let rows = size.as_ref().map_or(&[][..], standard::of_size);
    let first = rows.first().map(|row| &row.standard);
    // Standards that share a size do not tell which of them it is.
    let standard = first.filter(|first| rows.iter().all(|row| row.standard == **first));
    Answer {
        designation: card.name().to_owned(),
        twins: Vec::new(),
        number: Some(card.number.clone()),
        size: *size,
        standard: standard.cloned(),
        matched: Matched::Exact,
        probability: 1.0,
        confidence: have.confidence,
        judgement: Arc::new(judged(question, named, &have)),
        stock: card.stock.clone(),
        offers: card.offers.clone(),
    }
}

/// The part with what the shop's tables know of it.
pub(super) fn subject(named: &NamedCard) -> Subject {
    match &named.alike {
        Some(alike) => Subject::of_alike(named.size, alike),
        None => Subject::unknown(named.size),
    }
}

/// The part against what its place asks: what is not known of it is no reason against the part itself, but that its size
/// is from memory only is one.
fn judged(question: &Question, named: &NamedCard, have: &Subject) -> Judgement {
    // A standard number or size that is the own number of another part says nothing of that part.
    let designated = question.designated_size();
    let is_namesake =
        designated.is_some() && designated != named.size || question.reads_otherwise_than(named);
    let mut want = have.clone();
    let bare = judge(&want, have);
    want.needs = question.needs.clone();
    let is_read = named.traits().is_some() || named.card.designation.is_none();
    if !is_namesake && is_read {
        want.traits = question.traits.clone();
    }
    let mut judgement = judge(&want, have);
    judgement.differs.retain(|of| !bare.differs.contains(of));
    judgement.unknown.retain(|of| !bare.unknown.contains(of));
    judgement.rework.retain(|of| !bare.rework.contains(of));
    let is_new = |of: &String| of == FROM_MEMORY || !bare.checks.contains(of);
    judgement.checks.retain(is_new);
    let is_clear = judgement.unknown.is_empty() && judgement.checks.is_empty();
    if is_clear && judgement.verdict == Verdict::AfterChecks {
        judgement.verdict = Verdict::AsItIs;
    }
    let own = "the shop's part of this name".to_owned();
    judgement.agrees.insert(0, own);
    judgement
}
