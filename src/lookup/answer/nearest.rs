//! Parts beside a size that is in no table: each is judged against the size asked for.

use std::sync::Arc;

use super::{standard_answer, wanted};
use crate::catalogue::card_index::{Alike, Card, CardIndex};
use crate::interchange::Judgement;
use crate::lookup::answers::Answer;
use crate::lookup::found::{Found, Matched};
use crate::lookup::likelihood::neighbours;
use crate::lookup::question::Question;
use crate::part::SizeKey;
use crate::standard;

/// Parts of the shop listed for a size beside the one asked for.
const MOST_OF_SHOP: usize = 4;

/// The nearest parts of the tables, and the shop's of those sizes; none of them is the size asked for, so that their probability is 0.
pub(super) fn nearest(question: &Question, index: Option<&CardIndex>) -> Vec<Answer> {
    let families = match &question.family {
        Some(family) => std::slice::from_ref(family),
        None => &question.families,
    };
    neighbours(families, &question.readings)
        .iter()
        // A size of the tables that other words of the question rule out is no neighbour of itself.
        .filter(|neighbour| standard::of_size(&neighbour.asked).is_empty())
        .flat_map(|neighbour| {
            let want = wanted(question, neighbour.asked);
            let found = Found {
                size: neighbour.asked,
                rows: Vec::new(),
                probability: 0.0,
                matched: Matched::Neighbour,
                off_mm: 0.0,
                spare_mm: None,
            };
            let judged =
                |row| standard_answer(question, &want, row, &found, question.family.is_none());
            let rows = neighbour.candidate.rows.iter();
            let mut beside: Vec<Answer> = rows.map(|row| judged(row)).collect();
            if let (Some(index), Some(first)) = (index, beside.first().cloned()) {
                beside.extend(of_shop(index, &neighbour.candidate.size, &first));
            }
            beside
        })
        .collect()
}

/// Parts of the shop of a size beside the one asked for, those in stock first: as its standard part, as far as size goes.
fn of_shop(index: &CardIndex, size: &SizeKey, standard: &Answer) -> Vec<Answer> {
    let drawers = index.of_lengths(size).into_iter();
    let cards = drawers.flat_map(|at| {
        let drawer = index.drawer(at);
        let card = |alike: &Alike| {
            // Of one kind those in stock come first, then those on offer.
            let listed = alike.count.min(MOST_OF_SHOP as u32);
            (alike.first..alike.first + listed).map(|at| index.card(&drawer, at))
        };
        let kinds = index.alike(&drawer);
        kinds.iter().flat_map(card).flatten().collect::<Vec<_>>()
    });
    let mut cards: Vec<Card> = cards.collect();
    cards.sort_by_key(|card| (card.stock.is_empty(), card.offers.is_empty()));
    cards.truncate(MOST_OF_SHOP);
    let answer = |card: Card| {
        let mut judgement = Judgement::clone(&standard.judgement);
        let open = "its other features were not compared: look at its designation".to_owned();
        judgement.unknown.push(open);
        Answer {
            designation: card.name().to_owned(),
            number: Some(card.number),
            judgement: Arc::new(judgement),
            stock: card.stock,
            offers: card.offers,
            ..standard.clone()
        }
    };
    cards.into_iter().map(answer).collect()
}
