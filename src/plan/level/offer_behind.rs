//! The offer that a part's level rests on.

use super::order_quantity::unit_price;
use crate::catalogue::PartId;
use crate::plan::lead_time::Arrival;
use crate::plan::offer::UsableOffer;
use crate::plan::sourcing::Sourcing;
use crate::units::UnitOfCount;

/// Unit price and mean days of the offer that a part's level rests on; `None` where none has a lead time.
pub fn cheapest_of(
    sourcing: &Sourcing<'_>,
    part: PartId,
    unit: UnitOfCount,
) -> Option<(Option<f64>, f64)> {
    let offers: Vec<&UsableOffer<'_>> = sourcing
        .offers_of(part)
        .iter()
        .filter(|offer| offer.unit.in_units_of(unit).is_ok())
        .collect();
    let (offer, arrival) = cheapest_with_lead_time(sourcing, &offers, unit)?;
    Some((unit_price(sourcing, offer, unit), arrival.mean_days))
}

/// Offer with the lowest unit price among those with a known normal arrival; unpriced ones come last.
pub fn cheapest_with_lead_time<'o, 'a>(
    sourcing: &Sourcing<'_>,
    offers: &[&'o UsableOffer<'a>],
    unit: UnitOfCount,
) -> Option<(&'o UsableOffer<'a>, Arrival)> {
    offers
        .iter()
        .filter_map(|offer| Some((*offer, offer.deliveries.first()?.arrival?)))
        .min_by(|a, b| {
            let price = |offer: &UsableOffer<'_>| {
                unit_price(sourcing, offer, unit).unwrap_or(f64::INFINITY)
            };
            price(a.0)
                .total_cmp(&price(b.0))
                .then(a.1.mean_days.total_cmp(&b.1.mean_days))
                .then(a.0.offer.cmp(&b.0.offer))
        })
}

/// What an offer is sold in multiples of, in another unit; 1 where it names no pack.
pub fn pack_in(offer: &UsableOffer<'_>, unit: UnitOfCount) -> f64 {
    let factor = offer.unit.in_units_of(unit).unwrap_or(1.0);
    let pack = offer.record.pack_quantity.filter(|pack| *pack > 0.0);
    pack.unwrap_or(1.0).max(1.0) * factor
}
