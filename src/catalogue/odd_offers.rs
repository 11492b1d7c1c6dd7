//! What an offer says that cannot be: packs and least orders of half a piece, prices that rise with the quantity. Each is told,
//! with what is done in its place.

use super::part::CataloguePart;
use super::shop::{OfferOf, Unresolved};
use crate::record::OfferRecord;
use crate::units::{Price, UnitOfCount};

/// Parts of one that are rounding.
const ROUNDING: f64 = 1e-6;

/// Takes packs of parts of pieces from an offer and makes its least order whole; only what is sold by the metre has them.
pub(super) fn whole_quantities(record: &mut OfferRecord, part: &CataloguePart) -> Vec<Unresolved> {
    if record.unit_of_count.or(part.unit_of_count) == Some(UnitOfCount::Metre) {
        return Vec::new();
    }
    let mut told = Vec::new();
    let mut tell = |reason: String| {
        told.push(Unresolved {
            place: record.place.clone(),
            reason,
        });
    };
    if let Some(pack) = record.pack_quantity.filter(|pack| !is_whole(*pack)) {
        tell(format!(
            "a pack of {pack} is no whole number, and nothing says metres: it is planned with as if sold singly"
        ));
        record.pack_quantity = None;
    }
    if let Some(least) = record.minimum_quantity.filter(|least| !is_whole(*least)) {
        let whole = least.ceil();
        tell(format!(
            "a least order of {least} is no whole number, and nothing says metres: {whole} is planned with"
        ));
        record.minimum_quantity = Some(whole);
    }
    told
}

fn is_whole(quantity: f64) -> bool {
    (quantity - quantity.round()).abs() < ROUNDING
}

/// Takes the price breaks from an offer put together from several rows, where one of them is dearer than that of fewer.
pub(super) fn falling_breaks(offer: &mut OfferOf) -> Option<Unresolved> {
    let record = &mut offer.record;
    if record.breaks.is_empty() {
        return None;
    }
    let plain = record.price.map(|price| (1.0, price));
    let breaks = record.breaks.iter().map(|of| (of.from_quantity, of.price));
    let steps: Vec<(f64, Price)> = plain
        .into_iter()
        .filter(|(from, _)| breaks.clone().all(|(other, _)| other > *from))
        .chain(breaks.clone())
        .collect();
    let rises = |pair: &[(f64, Price)]| {
        let [(_, fewer), (_, more)] = pair else {
            return false;
        };
        fewer.currency == more.currency && more.unit_price() > fewer.unit_price() + 1e-9
    };
    if !steps.windows(2).any(rises) {
        return None;
    }
    let found: Vec<String> = steps
        .iter()
        .map(|(from, price)| format!("from {from} {}", price.unit_price()))
        .collect();
    record.breaks.clear();
    Some(Unresolved {
        place: record.place.clone(),
        reason: format!(
            "price breaks are out of order: {}; expected prices that fall as quantities rise",
            found.join(", ")
        ),
    })
}
