//! A shop's stock, offers and own sizes by part, so that an answer looks at no row it does not need.

use std::collections::{BTreeMap, BTreeSet};

use super::likelihood::Candidate;
use crate::catalogue::{OfferOf, PartId, Shop, StockOf};
use crate::part::SizeKey;
use crate::standard;

/// Indexes over one shop.
#[derive(Debug, Clone, Default)]
pub struct Shelf {
    stock: BTreeMap<PartId, Vec<usize>>,
    offers: BTreeMap<PartId, Vec<usize>>,
    /// Sizes of the shop's parts that no standard table has.
    pub(super) own_sizes: Vec<Candidate>,
    /// Suppliers that print a size in their own words.
    pub(super) printed_by: BTreeMap<SizeKey, BTreeSet<String>>,
}

impl Shelf {
    /// Indexes a shop.
    pub fn new(shop: &Shop) -> Self {
        let mut shelf = Self::default();
        for (at, stock) in shop.stock.iter().enumerate() {
            shelf.stock.entry(stock.part).or_default().push(at);
        }
        for (at, offer) in shop.offers.iter().enumerate() {
            shelf.offers.entry(offer.part).or_default().push(at);
            if let Some(size) = offer.record.size.filter(|size| prints(offer, size)) {
                let suppliers = shelf.printed_by.entry(size).or_default();
                suppliers.insert(offer.record.supplier.to_string());
            }
        }
        shelf.own_sizes = shop
            .catalogue
            .sizes()
            .filter(|(size, _)| standard::of_size(size).is_empty())
            .map(|(size, _)| Candidate {
                size: *size,
                rows: Vec::new(),
            })
            .collect();
        shelf
    }

    /// Stock rows of a part, in the order of the shop.
    pub(super) fn stock<'a>(&self, shop: &'a Shop, id: PartId) -> Vec<&'a StockOf> {
        let rows = self.stock.get(&id).into_iter().flatten();
        rows.filter_map(|at| shop.stock.get(*at)).collect()
    }

    /// Offers of a part, in the order of the shop.
    pub(super) fn offers<'a>(&self, shop: &'a Shop, id: PartId) -> Vec<&'a OfferOf> {
        let rows = self.offers.get(&id).into_iter().flatten();
        rows.filter_map(|at| shop.offers.get(*at)).collect()
    }
}

/// True where the offer's own text holds every length of the size: a number looked up here would prove nothing.
fn prints(offer: &OfferOf, size: &SizeKey) -> bool {
    let record = &offer.record;
    let text = [record.designation.as_deref(), record.description.as_deref()]
        .into_iter()
        .flatten()
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
