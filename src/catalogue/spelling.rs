//! One spelling for each supplier: `HAGEDORN` in one list and `Hagedorn` in another are one firm, and reports name it once.

use std::cmp::Reverse;
use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

use super::shop::{OfferOf, ReceiptOf};
use crate::part::NameKey;
use crate::record::SupplierRecord;

/// Names every supplier of offers and receipts as the suppliers table does; one that is in no such table as most of its rows
/// do, and of equals as the first.
pub(super) fn settle(
    suppliers: &BTreeMap<String, SupplierRecord>,
    offers: &mut [OfferOf],
    receipts: &mut [ReceiptOf],
) {
    let spelling = spelling(suppliers, offers, receipts);
    if spelling.is_empty() {
        return;
    }
    let of_offers = offers.iter_mut().map(|of| &mut of.record.supplier);
    let of_receipts = receipts.iter_mut().map(|of| &mut of.record.supplier);
    for name in of_offers.chain(of_receipts) {
        if let Some(settled) = spelling.get(name) {
            *name = Arc::clone(settled);
        }
    }
}

/// The spelling that holds for each that does not.
fn spelling(
    suppliers: &BTreeMap<String, SupplierRecord>,
    offers: &[OfferOf],
    receipts: &[ReceiptOf],
) -> HashMap<Arc<str>, Arc<str>> {
    /// How many rows spell it so, and which of all is the first.
    type Rows = (usize, Reverse<usize>);
    let mut rows: HashMap<&Arc<str>, Rows> = HashMap::new();
    let of_offers = offers.iter().map(|of| &of.record.supplier);
    let of_receipts = receipts.iter().map(|of| &of.record.supplier);
    for (at, name) in of_offers.chain(of_receipts).enumerate() {
        rows.entry(name).or_insert((0, Reverse(at))).0 += 1;
    }
    let mut by_key: BTreeMap<String, Vec<(&Arc<str>, Rows)>> = BTreeMap::new();
    for (name, rows) in rows {
        let key = NameKey::new(name);
        if !key.is_empty() {
            by_key
                .entry(key.as_str().to_owned())
                .or_default()
                .push((name, rows));
        }
    }
    let mut spelling = HashMap::new();
    for (key, spelt) in by_key {
        let listed = suppliers.get(&key).map(|of| Arc::from(of.name.as_str()));
        let commonest = || spelt.iter().max_by_key(|(_, rows)| *rows);
        let Some(settled) = listed.or_else(|| commonest().map(|(name, _)| Arc::clone(name))) else {
            continue;
        };
        for (name, _) in &spelt {
            if **name != settled {
                spelling.insert(Arc::clone(name), Arc::clone(&settled));
            }
        }
    }
    spelling
}
