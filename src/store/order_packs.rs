//! Quantities of orders in one unit: 2 packs of 10 that were ordered are the 20 pieces that came.

use std::collections::{BTreeMap, BTreeSet};

use super::origin::Kept;
use super::same::number;
use crate::record::{CountedIn, OfferRecord, ReceiptRecord};
use crate::units::UnitOfCount;

/// Pieces in the packs of the parts that are ordered in packs of unsaid size.
pub(super) struct OrderPacks(BTreeMap<String, BTreeSet<u32>>);

impl OrderPacks {
    /// What offers say of such parts; without such orders no offer is looked at.
    pub(super) fn of<'o, O: Iterator<Item = &'o Kept<OfferRecord>>>(
        receipts: &[Kept<ReceiptRecord>],
        offers: impl Fn() -> O,
    ) -> Self {
        let in_packs = receipts
            .iter()
            .filter(|row| row.record.counted_in == Some(CountedIn::Pack));
        let mut packs: BTreeMap<String, BTreeSet<u32>> = in_packs
            .map(|row| (number(&row.record.part), BTreeSet::new()))
            .collect();
        if packs.is_empty() {
            return Self(packs);
        }
        for offer in offers().map(|row| &row.record) {
            let Some(pieces) = offer.pieces_in_pack() else {
                continue;
            };
            let names = [
                offer.own_number.as_deref(),
                offer.supplier_number.as_deref(),
                offer.designation.as_deref(),
            ];
            for name in names.into_iter().flatten() {
                if let Some(sizes) = packs.get_mut(&number(name)) {
                    sizes.insert(pieces);
                }
            }
        }
        Self(packs)
    }

    /// True where two rows of one order are about the same quantity: packs are opened where it is known how many they hold.
    pub(super) fn is_same_quantity(&self, one: &ReceiptRecord, other: &ReceiptRecord) -> bool {
        let (Some(first), Some(second)) = (one.quantity, other.quantity) else {
            return one.quantity.is_none() && other.quantity.is_none();
        };
        let is_same = |a: f64, b: f64| (a - b).abs() < 1e-9 * a.abs().max(1.0);
        // One list names the unit that another leaves out.
        let are_alike = one.counted_in == other.counted_in
            || one.counted_in.is_none()
            || other.counted_in.is_none();
        if are_alike && is_same(first, second) {
            return true;
        }
        match (self.pieces(one), self.pieces(other)) {
            (Some(of_one), Some(of_other)) => is_same(first * of_one, second * of_other),
            _ => false,
        }
    }

    /// Pieces in one of what a row counts in; `None` where nobody knows, or where it cannot be counted in pieces.
    fn pieces(&self, row: &ReceiptRecord) -> Option<f64> {
        match row.counted_in {
            None => Some(1.0),
            Some(CountedIn::Unit(unit)) => unit.in_units_of(UnitOfCount::Piece).ok(),
            Some(CountedIn::Pack) => {
                let mut sizes = self.0.get(&number(&row.part))?.iter();
                let size = sizes.next()?;
                sizes.next().is_none().then(|| f64::from(*size))
            }
        }
    }
}
