//! The freight of a level's orders, and the quantity that it makes worth while.

use super::candidate::Candidate;
use super::shared_freight::{OrderFreight, OrderedPart, SharedFreight};
use crate::parallel;
use crate::plan::lead_time::supplier_key;
use crate::plan::offer::UsableOffer;
use crate::plan::sourcing::Sourcing;
use crate::plan::year_length::YEAR_DAYS;
use crate::units::cents_of;

/// Freight that is less than this share of the cost of placing an order changes no quantity.
const LEAST_OF_ORDER_COST: f64 = 0.01;

/// A part with an order a week adds so much to the share of weeks that others leave, at the most that is looked at.
const MOST_BY_ONE_PART: f64 = 3.0;

/// Orders each part by as much at a time as its freight makes worth while, where no other line of the supplier pays it anyhow;
/// true where that changes any.
pub fn order_for_freight<'a>(
    sourcing: &Sourcing<'_>,
    candidates: &mut [Candidate<'a>],
    shared: &mut SharedFreight,
) -> bool {
    let before = &*shared;
    let ordered = |candidate: &Candidate<'a>| {
        let numbers = candidate.bought.iter();
        let mut offers = numbers.flat_map(|part| sourcing.offers_of(*part));
        let offer = offers.find(|offer| offer.offer == candidate.offer)?;
        let freight = freight_of_orders(sourcing, candidate, offer, before)?;
        let quantity = candidate.quantity_with(sourcing, offer, freight);
        if (quantity - candidate.order_quantity).abs() < 1e-9 {
            return None;
        }
        let arrival = offer.deliveries.first()?.arrival?;
        candidate.bought_by(sourcing, offer, arrival, Some(freight))
    };
    let others = parallel::each(candidates, ordered);
    let mut is_any_other = false;
    for (candidate, other) in candidates.iter_mut().zip(others) {
        if let Some(other) = other {
            shared.take_off(&ordered_part(sourcing, candidate));
            shared.add(&ordered_part(sourcing, &other));
            *candidate = other;
            is_any_other = true;
        }
    }
    is_any_other
}

/// Freight of the orders of a candidate from an offer; `None` where there is none, no table says it, goods are fetched, or
/// others pay so nearly all of it that no quantity changes.
pub fn freight_of_orders(
    sourcing: &Sourcing<'_>,
    candidate: &Candidate<'_>,
    offer: &UsableOffer<'_>,
    shared: &SharedFreight,
) -> Option<OrderFreight> {
    let way = offer.deliveries.first()?;
    if !way.kind.bears_freight() || candidate.last_day.is_some() {
        return None;
    }
    let supplier = supplier_key(&offer.record.supplier);
    let freight = sourcing.freights.known(&supplier)?;
    let least = LEAST_OF_ORDER_COST * sourcing.shop.settings.planning.order_cost;
    // Where the supplier has orders nearly every week besides, nothing more is looked at.
    let all = shared.of_all(&supplier, freight);
    if all.paid_each(0.0) * MOST_BY_ONE_PART < least || freight.cents <= 0 {
        return None;
    }
    let own = ordered_part(sourcing, candidate);
    let of_orders = shared.of_orders(&supplier, freight, &own);
    (of_orders.paid_each(0.0) > least).then_some(of_orders)
}

/// Supplier of an offer.
pub fn supplier_of(sourcing: &Sourcing<'_>, offer: usize) -> String {
    let offer = sourcing.shop.offers.get(offer);
    offer.map_or_else(String::new, |offer| offer.record.supplier.to_string())
}

/// Orders of a candidate from the supplier of its offer.
pub fn ordered_part(sourcing: &Sourcing<'_>, candidate: &Candidate<'_>) -> OrderedPart {
    let supplier = supplier_key(&supplier_of(sourcing, candidate.offer));
    let yearly = candidate.demand.per_day().unwrap_or(0.0) * YEAR_DAYS;
    let price = candidate.why_quantity.unit_price;
    let goods = price.map_or(0.0, |price| price.amount * candidate.order_quantity);
    OrderedPart {
        freight: sourcing.freights.to_choose_by(&supplier),
        supplier,
        orders_a_year: yearly / candidate.order_quantity,
        goods_cents: cents_of(goods),
    }
}
