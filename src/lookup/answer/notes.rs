//! What is to be known and checked of each answer besides what the rules found.

use std::sync::Arc;

use super::measuring::{note_inch_seat, note_sealed_width, note_seats, note_split, note_words};
use super::named;
use super::seen::Printed;
use crate::catalogue::card_index::CardIndex;
use crate::interchange::Judgement;
use crate::lookup::answers::{Answer, Answers};
use crate::lookup::question::Question;
use crate::part::SizeKey;

/// A judgement before and after, with all else of an answer that the notes look at.
struct Noted {
    before: Arc<Judgement>,
    after: Arc<Judgement>,
    size: Option<SizeKey>,
    is_of_shop: bool,
    /// The shop's own part that was asked for by its number.
    is_named: bool,
}

impl Noted {
    fn is_of(&self, answer: &Answer, is_named: bool) -> bool {
        Arc::ptr_eq(&self.before, &answer.judgement)
            && self.size == answer.size
            && self.is_of_shop == answer.number.is_some()
            && self.is_named == is_named
    }
}

/// Adds the notes; parts that share their judgement follow each other, and share it afterwards too.
pub(super) fn add(question: &Question, index: Option<&CardIndex>, answers: &mut Answers) {
    let mut printed = index.map(Printed::new);
    let mut last: Option<Noted> = None;
    for answer in &mut answers.answers {
        let is_named = named::is_it(question, answer);
        if let Some(noted) = last.as_ref().filter(|noted| noted.is_of(answer, is_named)) {
            answer.judgement = Arc::clone(&noted.after);
            continue;
        }
        let is_shared = Arc::strong_count(&answer.judgement) > 1;
        let before = is_shared.then(|| Arc::clone(&answer.judgement));
        if let Some(printed) = &mut printed {
            printed.raise(answer);
        }
        note_words(question, answer);
        note_seats(question, answer);
        note_inch_seat(question, answer);
        // What tables leave open of a size is no doubt of the shop's own part of this name.
        if !is_named {
            note_sealed_width(question, answer);
            note_split(question, answer);
        }
        last = before.map(|before| Noted {
            before,
            after: Arc::clone(&answer.judgement),
            size: answer.size,
            is_of_shop: answer.number.is_some(),
            is_named,
        });
    }
    if let Some(printed) = &mut printed {
        for answer in &mut answers.refused {
            printed.raise(answer);
        }
    }
}
