//! Which rows speak about the same thing: keys of parts, names, lists, offers, shelves, orders and usages.

use super::list_name::list_name;
use super::origin::Kept;
use crate::part::NameKey;
use crate::place::Place;
use crate::record::{OfferRecord, ReceiptRecord, StockRecord, UsageRecord};

/// Part numbers meet however they are spelt.
pub(super) fn number(text: &str) -> String {
    let key = NameKey::new(text);
    if key.is_empty() {
        name(text)
    } else {
        key.as_str().to_owned()
    }
}

/// Names meet in any case and with any blanks.
pub(super) fn name(text: &str) -> String {
    text.split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .to_lowercase()
}

pub(super) fn list_of(place: &Place) -> String {
    format!("{}|{}", list_name(&place.file), list_name(&place.sheet))
}

pub(super) fn offer_key(row: &Kept<OfferRecord>) -> String {
    if row.origin.is_whole_list {
        format!("list|{}|{}", supplier(row), list_of(row.home()))
    } else {
        format!("quote|{}", same_offer(row))
    }
}

/// A supplier that is known by the name of a file only goes by that name without its date.
pub(super) fn supplier(row: &Kept<OfferRecord>) -> String {
    let offer = &row.record;
    let without_date = list_name(&offer.supplier);
    let is_of_file = [&row.home().file, &row.home().sheet]
        .iter()
        .any(|place| list_name(place) == without_date);
    if is_of_file {
        without_date
    } else {
        name(&offer.supplier)
    }
}

/// Supplier, part, condition and unit of count of an offer.
pub(super) fn same_offer(row: &Kept<OfferRecord>) -> String {
    let offer = &row.record;
    let part = match (
        &offer.own_number,
        &offer.supplier_number,
        &offer.designation,
    ) {
        (Some(own), _, _) => format!("own {}", number(own)),
        (None, Some(theirs), _) => format!("theirs {}", number(theirs)),
        (None, None, Some(designation)) => format!(
            "{} {:?} {:?}",
            number(designation),
            offer.size,
            offer.traits
        ),
        (None, None, None) => name(offer.description.as_deref().unwrap_or_default()),
    };
    format!(
        "{}|{part}|{:?}|{:?}",
        supplier(row),
        offer.condition,
        offer.unit_of_count
    )
}

pub(super) fn same_shelf(row: &Kept<StockRecord>) -> String {
    let stock = &row.record;
    let word = |text: &Option<String>| text.as_deref().map(name);
    let (bin, lot) = (word(&stock.bin), word(&stock.lot));
    format!(
        "{}|{bin:?}|{lot:?}|{:?}|{:?}|{:?}",
        number(&stock.part),
        stock.cure_date,
        (stock.usable_until, stock.is_blocked),
        (stock.unit_of_count, stock.is_in_packs)
    )
}

pub(super) fn order_key(receipt: &ReceiptRecord) -> String {
    format!(
        "{}|{}|{}",
        name(&receipt.supplier),
        number(&receipt.part),
        receipt.ordered
    )
}

pub(super) fn usage_key(usage: &UsageRecord) -> String {
    let machine = usage.machine.as_deref().map(name);
    format!(
        "{}|{}|{}|{machine:?}|{:?}",
        usage.date,
        number(&usage.part),
        usage.quantity,
        usage.reason
    )
}
