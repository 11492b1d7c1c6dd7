//! Lists of one supplier that bear the shop's own numbers: a quote that answers an inquiry by the inquiry's numbers.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::likeness::{Fit, Said, fit};
use super::merge::Merge;
use super::shop::Unresolved;
use crate::part::NameKey;
use crate::place::Place;
use crate::record::{OfferList, OfferRecord};

/// File, sheet and supplier of a list.
type List = (Arc<str>, Arc<str>, NameKey);

fn list_of(record: &OfferRecord) -> List {
    let place = &record.place;
    (
        place.file.clone(),
        place.sheet.clone(),
        NameKey::new(&record.supplier),
    )
}

/// Shortest word that makes two names related, characters. Common practice, no source.
const SHORTEST_WORD: usize = 5;

/// What the numbers of one list have in common with the shop's.
#[derive(Debug)]
struct Numbers {
    supplier: Arc<str>,
    /// Rows with a number of the supplier's and none of the shop's.
    rows: usize,
    /// Those whose number is an own number, and whose words do not speak against it.
    own: usize,
    /// Those whose number is an own number, and whose words are a shorter or longer name of the part's.
    related: usize,
    /// Those whose number is an own number, and whose words are others: those of a quote are often.
    other_words: usize,
    /// Those whose number is an own number of another part.
    unlike: usize,
    /// The first of either kind, and its number.
    first: Option<(Place, String)>,
}

impl Numbers {
    /// One number of a long list meets an own number by chance, most of them do not. Where nearly all do, other words speak
    /// neither for it nor against it, but some rows must speak for it: two may both number from 1001. Common practice, no
    /// source.
    fn are_own(&self) -> bool {
        let fitting = self.own + self.related;
        let are_nearly_all = 10 * self.shared() >= 9 * self.rows;
        2 * self.own > self.rows
            || are_nearly_all && 3 * fitting >= self.rows && fitting > self.unlike
    }

    fn shared(&self) -> usize {
        self.own + self.related + self.other_words + self.unlike
    }
}

/// True where a word of one is, or is part of, a word of the other: `Stern` and `Kupplungsstern`.
fn are_related(row: &Said<'_>, part: &Said<'_>) -> bool {
    let words = |said: &Said<'_>| -> Vec<String> {
        let text = said.words().unwrap_or_default().to_lowercase();
        let words = text.split(|c: char| !c.is_alphanumeric());
        words
            .filter(|word| word.chars().count() >= SHORTEST_WORD)
            .filter(|word| word.chars().any(char::is_alphabetic))
            .map(str::to_owned)
            .collect()
    };
    let theirs = words(part);
    let is_part = |word: &String| {
        (theirs.iter()).any(|of| of.contains(word.as_str()) || word.contains(&**of))
    };
    words(row).iter().any(is_part)
}

/// The numbers of every list that shares any with the shop.
#[derive(Debug, Default)]
pub(super) struct OwnNumbering {
    lists: BTreeMap<List, Numbers>,
}

impl OwnNumbering {
    /// Looks at the offers of all lists before any of them is resolved.
    pub(super) fn of(offers: &OfferList, merge: &Merge) -> Self {
        let mut lists: BTreeMap<List, Numbers> = BTreeMap::new();
        if !merge.has_own_parts() {
            return Self { lists };
        }
        for record in offers.records() {
            let (None, Some(number)) = (&record.own_number, &record.supplier_number) else {
                continue;
            };
            let numbers = lists.entry(list_of(&record)).or_insert_with(|| Numbers {
                supplier: record.supplier.clone(),
                rows: 0,
                own: 0,
                related: 0,
                other_words: 0,
                unlike: 0,
                first: None,
            });
            numbers.rows += 1;
            let Some(part) = merge.own_number(number).map(|known| merge.at(known)) else {
                continue;
            };
            let (row, part) = (Said::from(&record), Said::from(&part.facts));
            match fit(&row, &part) {
                Fit::Same | Fit::Silent => numbers.own += 1,
                Fit::Words if are_related(&row, &part) => numbers.related += 1,
                Fit::Words => numbers.other_words += 1,
                Fit::Against => numbers.unlike += 1,
            }
            (numbers.first).get_or_insert_with(|| (record.place.clone(), number.clone()));
        }
        lists.retain(|_, numbers| numbers.first.is_some());
        Self { lists }
    }

    /// Takes the number of an offer for the shop's own, where its list bears those.
    pub(super) fn settle(&self, record: &mut OfferRecord, merge: &Merge) {
        let (None, Some(number)) = (&record.own_number, &record.supplier_number) else {
            return;
        };
        let are_own = || {
            self.lists
                .get(&list_of(record))
                .is_some_and(Numbers::are_own)
        };
        if !self.lists.is_empty() && are_own() && merge.own_number(number).is_some() {
            record.own_number = record.supplier_number.take();
        }
    }

    /// What is told of each list, at the first number it shares with the shop; true where its numbers are own ones, so that
    /// nothing is open.
    pub(super) fn told(&self) -> impl Iterator<Item = (bool, Unresolved)> {
        self.lists.values().filter_map(|numbers| {
            let (place, number) = numbers.first.clone()?;
            let Numbers { supplier, rows, .. } = numbers;
            let shared = numbers.shared();
            let reason = if numbers.are_own() {
                format!(
                    "{shared} of {rows} part numbers of this list of `{supplier}` are own numbers, the first `{number}`: they are taken for the shop's own; where they are the supplier's, say with `--map` that their column is `supplier_number`"
                )
            } else {
                format!(
                    "{shared} of {rows} part numbers of this list of `{supplier}` are own numbers too, the first `{number}`: they are taken for the supplier's; where they are the shop's own, say with `--map` that their column is `own_number`"
                )
            };
            Some((numbers.are_own(), Unresolved { place, reason }))
        })
    }
}
