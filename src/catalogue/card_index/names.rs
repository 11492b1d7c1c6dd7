//! Cards by the names people call them.

use super::grid::lower_bound;
use super::{Alike, Card, CardIndex, NAMES};
use crate::digest::short_sum;
use crate::part::{NameKey, SizeKey, Traits};

/// Bytes of a name: sum, size, card and kind.
pub(super) const NAME: u64 = 17;

/// What kind of name it is, in order of precedence.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    Number = 0,
    Designation = 1,
    Alias = 2,
    /// What a supplier calls it: asked for only where nothing else goes by that name.
    SupplierNumber = 3,
}

/// The sum a name is found by; `None` for one with nothing to compare.
pub(super) fn sum(name: &str) -> Option<u64> {
    let key = NameKey::new(name);
    (!key.is_empty()).then(|| short_sum(key.as_str().as_bytes()))
}

/// A card that was asked for by one of its names.
#[derive(Debug, Clone, PartialEq)]
pub struct NamedCard {
    /// Size; `None` where none is known.
    pub size: Option<SizeKey>,
    /// The card.
    pub card: Card,
    /// What is known of it besides; `None` where the index is damaged.
    pub alike: Option<Alike>,
}

impl NamedCard {
    /// What is known of the part besides its size and its ratings; `None` where that is nothing.
    pub fn traits(&self) -> Option<&Traits> {
        let traits = self.alike.as_ref().map(|alike| &alike.traits);
        traits.filter(|traits| **traits != Traits::default())
    }
}

impl CardIndex {
    /// Finds a card by own number, designation or alias, whatever its spelling, else by the number under which a supplier
    /// offers it.
    ///
    /// `None` also where the name is the designation of one part and an alias of another, as
    /// [`Catalogue::find`](crate::catalogue::Catalogue::find) does, and where suppliers call several parts so.
    pub fn find(&self, printed: &str) -> Option<NamedCard> {
        let places = self.places_of(printed);
        let first_of = |kind: Kind| {
            let mut of_kind = places.iter().filter(|(.., of)| *of == kind as u8);
            of_kind.find_map(|(size, card, _)| {
                let drawer = self.drawer(*size);
                let found = self.card(&drawer, *card)?;
                is_called(&found, kind, printed).then_some(((*size, *card), (drawer, found)))
            })
        };
        let only_offered = || {
            let offered = places
                .iter()
                .filter(|(.., of)| *of == Kind::SupplierNumber as u8);
            let mut offered: Vec<(u32, u32)> =
                offered.map(|(size, card, _)| (*size, *card)).collect();
            offered.dedup();
            let [(size, card)] = offered[..] else {
                return None;
            };
            let drawer = self.drawer(size);
            let found = self.card(&drawer, card)?;
            is_called(&found, Kind::SupplierNumber, printed)
                .then_some(((size, card), (drawer, found)))
        };
        let ((_, at), (drawer, card)) = match first_of(Kind::Number) {
            Some(found) => found,
            None => match (first_of(Kind::Designation), first_of(Kind::Alias)) {
                (Some((one, _)), Some((other, _))) if one != other => return None,
                (found, other) => found.or(other).or_else(only_offered)?,
            },
        };
        let of_place = |alike: &Alike| (alike.first..alike.first + alike.count).contains(&at);
        let alike = self.alike(&drawer).into_iter().find(of_place);
        let size = drawer.size;
        Some(NamedCard { size, card, alike })
    }
}

impl CardIndex {
    /// Size, card and kind of every name of this sum.
    fn places_of(&self, printed: &str) -> Vec<(u32, u32, u8)> {
        let Some(sum) = sum(printed) else {
            return Vec::new();
        };
        let (start, count) = (self.starts[NAMES], self.count(NAMES, NAME));
        let sum_at = |at: u32| u64::from_le_bytes(self.pages.array(start + NAME * u64::from(at)));
        let first = lower_bound(0, count, |at| sum_at(at) < sum);
        let named = (first..count).take_while(|at| sum_at(*at) == sum);
        let place = |at: u32| {
            let bytes: [u8; NAME as usize] = self.pages.array(start + NAME * u64::from(at));
            let number = |from: usize| u32::from_le_bytes(super::pages::array(&bytes[from..]));
            (number(8), number(12), bytes[16])
        };
        named.map(place).collect()
    }

    /// The numbers of several parts that go by one name which is none of theirs: another number, the designation of one
    /// and another number of another, or that of a supplier where nothing else is called so. Empty where the name is one
    /// part's.
    pub fn several_called(&self, printed: &str) -> Vec<String> {
        let places = self.places_of(printed);
        let of = |kind: Kind| {
            let mut at: Vec<(u32, u32)> = (places.iter())
                .filter(|(.., of)| *of == kind as u8)
                .map(|(size, card, _)| (*size, *card))
                .collect();
            at.dedup();
            let cards = at
                .into_iter()
                .filter_map(|(size, card)| self.card(&self.drawer(size), card));
            let called = cards.filter(|card| is_called(card, kind, printed));
            called.map(|card| card.number).collect::<Vec<String>>()
        };
        if !of(Kind::Number).is_empty() {
            return Vec::new();
        }
        let (designated, others) = (of(Kind::Designation), of(Kind::Alias));
        // Parts of one designation are judged one by one, unless another part has it for its other number.
        let is_contested = others.iter().any(|number| !designated.contains(number));
        let mut numbers = match (designated.is_empty(), others.is_empty()) {
            (true, true) => of(Kind::SupplierNumber),
            (true, false) => others,
            (false, _) if is_contested => [designated, others].concat(),
            (false, _) => Vec::new(),
        };
        numbers.sort();
        numbers.dedup();
        if numbers.len() > 1 {
            numbers
        } else {
            Vec::new()
        }
    }
}

/// Two names may have one sum.
fn is_called(card: &Card, kind: Kind, printed: &str) -> bool {
    let key = NameKey::new(printed);
    let is_it = |name: &String| NameKey::new(name) == key;
    match kind {
        Kind::Number => is_it(&card.number),
        Kind::Designation => card.designation.iter().any(is_it),
        Kind::Alias => card.aliases.iter().any(is_it),
        Kind::SupplierNumber => {
            let mut numbers = card
                .offers
                .iter()
                .filter_map(|offer| offer.supplier_number.as_ref());
            numbers.any(is_it)
        }
    }
}
