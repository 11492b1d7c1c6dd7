//! Numbers that offers give parts. A supplier's number holds at that supplier only: two suppliers number different things
//! alike. Own numbers that no parts table has hold for the shop.

use std::collections::HashMap;

use crate::part::NameKey;

/// Numbers of offers, each with whose it is and the parts it was given to.
#[derive(Debug, Default)]
pub(super) struct OfferedNumbers {
    suppliers: HashMap<NameKey, u32>,
    by_number: HashMap<NameKey, Vec<(u32, u32)>>,
}

/// The shop itself, among suppliers that count from 1.
const SHOP: u32 = 0;

impl OfferedNumbers {
    /// Adds a number that a supplier, or with `None` the shop, gives the part at a position.
    pub(super) fn add(&mut self, supplier: Option<&str>, number: &str, position: usize) {
        let key = NameKey::new(number);
        if key.is_empty() {
            return;
        }
        let owner = supplier.map_or(SHOP, |supplier| {
            let next = self.suppliers.len() as u32 + 1;
            *self.suppliers.entry(NameKey::new(supplier)).or_insert(next)
        });
        let given = (owner, position as u32);
        let of_number = self.by_number.entry(key).or_default();
        if !of_number.contains(&given) {
            of_number.push(given);
        }
    }

    /// The parts a supplier, or with `None` the shop, calls by this number, first one first.
    pub(super) fn of(&self, supplier: Option<&str>, number: &str) -> Vec<usize> {
        let owner = match supplier {
            None => Some(SHOP),
            Some(supplier) => self.suppliers.get(&NameKey::new(supplier)).copied(),
        };
        let given = self
            .by_number
            .get(&NameKey::new(number))
            .into_iter()
            .flatten();
        given
            .filter(|(of, _)| Some(*of) == owner)
            .map(|(_, position)| *position as usize)
            .collect()
    }

    /// The parts anybody calls by this number: the shop's, where it has any, else those of all suppliers.
    pub(super) fn of_anybody(&self, number: &str) -> Vec<usize> {
        let of_shop = self.of(None, number);
        if !of_shop.is_empty() {
            return of_shop;
        }
        let given = self
            .by_number
            .get(&NameKey::new(number))
            .into_iter()
            .flatten();
        let mut positions: Vec<usize> = given.map(|(_, position)| *position as usize).collect();
        positions.sort_unstable();
        positions.dedup();
        positions
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_holds_at_the_supplier_that_gives_it() {
        let mut numbers = OfferedNumbers::default();
        numbers.add(Some("Hagedorn"), "10-01", 4);
        numbers.add(Some("HAGEDORN"), "10 01", 4);
        numbers.add(Some("Brinkhoff"), "10-01", 7);
        assert_eq!(numbers.of(Some("hagedorn"), "10-01"), [4]);
        assert_eq!(numbers.of(Some("Brinkhoff"), "10-01"), [7]);
        assert_eq!(numbers.of(Some("Dritter"), "10-01"), [0; 0]);
        assert_eq!(numbers.of(None, "10-01"), [0; 0]);
        assert_eq!(numbers.of_anybody("10-01"), [4, 7]);
        numbers.add(None, "10-01", 9);
        assert_eq!(numbers.of_anybody("10-01"), [9]);
        numbers.add(None, " - ", 9);
        assert_eq!(numbers.of_anybody("-"), [0; 0]);
    }
}
