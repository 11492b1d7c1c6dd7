//! Rows of one list that price one part by quantity, put together as one offer with price breaks.
//!
//! Import gives a row whose price holds from a quantity on no plain price and one break.

use std::collections::BTreeMap;

use super::PartId;
use super::shop::OfferOf;
use crate::part::NameKey;
use crate::record::OfferRecord;

/// Where an offer's rows stand: part, supplier, file and sheet.
type Spot = (PartId, String, String, String);

/// Joins rows that differ in price and quantity only; the row with the plain price keeps its place, the others give it
/// their breaks. Where none has a plain price, less than the smallest quantity is not sold at any known one.
pub(super) fn join(offers: Vec<OfferOf>) -> Vec<OfferOf> {
    if !offers.iter().any(|offer| is_step(&offer.record)) {
        return offers;
    }
    let mut steps: BTreeMap<Spot, Vec<usize>> = BTreeMap::new();
    for (at, offer) in offers.iter().enumerate() {
        if is_step(&offer.record) {
            steps.entry(spot(offer)).or_default().push(at);
        }
    }
    let mut plain: BTreeMap<Spot, Vec<usize>> = BTreeMap::new();
    for (at, offer) in offers.iter().enumerate() {
        if offer.record.price.is_some() {
            let spot = spot(offer);
            if steps.contains_key(&spot) {
                plain.entry(spot).or_default().push(at);
            }
        }
    }
    let mut offers: Vec<Option<OfferOf>> = offers.into_iter().map(Some).collect();
    for (spot, mut steps) in steps {
        let of_steps = |offers: &[Option<OfferOf>], at: usize| {
            let from = offers[at].as_ref().and_then(|of| of.record.breaks.first());
            from.map_or(f64::INFINITY, |of| of.from_quantity)
        };
        steps.sort_by(|a, b| of_steps(&offers, *a).total_cmp(&of_steps(&offers, *b)));
        let mut bases = plain.remove(&spot).unwrap_or_default();
        for at in steps {
            let Some(step) = offers[at].take() else {
                continue;
            };
            let base = bases.iter().copied().find(|base| {
                let of = offers[*base].as_ref();
                of.is_some_and(|of| is_same_goods(&of.record, &step.record))
            });
            match base.and_then(|base| offers[base].as_mut()) {
                Some(base) => {
                    base.record.breaks.extend(step.record.breaks);
                    let breaks = &mut base.record.breaks;
                    breaks.sort_by(|a, b| a.from_quantity.total_cmp(&b.from_quantity));
                    // Told twice: the dearer holds, so that no plan rests on a slip.
                    breaks.dedup_by(|later, first| {
                        let is_same = (later.from_quantity - first.from_quantity).abs() < 1e-9;
                        if is_same && later.price.unit_price() > first.price.unit_price() {
                            first.price = later.price;
                        }
                        is_same
                    });
                }
                None => {
                    offers[at] = Some(with_minimum(step));
                    bases.push(at);
                }
            }
        }
    }
    offers.into_iter().flatten().collect()
}

/// True for a row whose price holds from a quantity on.
fn is_step(record: &OfferRecord) -> bool {
    let first = record.breaks.first();
    record.price.is_none() && first.is_some_and(|first| first.from_quantity > 1.0)
}

fn spot(offer: &OfferOf) -> Spot {
    let record = &offer.record;
    (
        offer.part,
        NameKey::new(&record.supplier).into_text(),
        record.place.file.to_string(),
        record.place.sheet.to_string(),
    )
}

/// True where two rows sell the same goods on the same terms but for price and quantity.
fn is_same_goods(one: &OfferRecord, other: &OfferRecord) -> bool {
    one.condition == other.condition
        && one.unit_of_count == other.unit_of_count
        && one.maker == other.maker
        && one.supplier_number == other.supplier_number
        && one.pack_quantity == other.pack_quantity
        && one.lead_time == other.lead_time
        && one.expedite == other.expedite
        && one.valid_until == other.valid_until
}

fn with_minimum(mut offer: OfferOf) -> OfferOf {
    let record = &mut offer.record;
    let from = record
        .breaks
        .first()
        .map_or(0.0, |first| first.from_quantity);
    record.minimum_quantity = Some(
        record
            .minimum_quantity
            .map_or(from, |least| least.max(from)),
    );
    offer
}
