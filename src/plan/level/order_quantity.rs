//! How many to order at a time: economic, within shelf life and remaining use, as the offer is sold.

use super::economic::{economic_quantity, whole_economic_quantity};
use crate::catalogue::CataloguePart;
use crate::plan::demand::Demand;
use crate::plan::offer::UsableOffer;
use crate::plan::shelf_life::ShelfLife;
use crate::plan::sourcing::Sourcing;
use crate::units::{Money, UnitOfCount};

/// Days of a year, as everywhere in the plan.
pub const YEAR_DAYS: f64 = 365.0;

/// Why an order quantity is what it is.
#[derive(Debug, Clone, PartialEq)]
pub struct QuantityReason {
    /// Economic order quantity; `None` without price or holding cost.
    pub economic: Option<f64>,
    /// Shelf life, where the part has one.
    pub shelf_life: Option<ShelfLife>,
    /// Usage in the shelf life, which caps the quantity.
    pub shelf_life_usage: Option<f64>,
    /// Usage until its machines leave service, which caps the quantity.
    pub usage_until_retirement: Option<f64>,
    /// Unit price it was computed with, in the shop's currency.
    pub unit_price: Option<Money>,
    /// Least quantity the offer sells, in the part's unit.
    pub minimum: f64,
    /// Years that an order lasts at the usage expected; `None` without one.
    pub lasts_years: Option<f64>,
}

/// Quantity per order in the part's unit: economic, at least 1, no more than the shelf life or the remaining service
/// uses, then up to the pack and minimum of the offer.
pub fn order_quantity(
    sourcing: &Sourcing<'_>,
    part: &CataloguePart,
    demand: &Demand,
    offer: &UsableOffer<'_>,
    unit: UnitOfCount,
    days_in_service: Option<f64>,
) -> (f64, QuantityReason) {
    let planning = &sourcing.shop.settings.planning;
    let per_day = demand.per_day().unwrap_or(0.0);
    let unit_price = unit_price(sourcing, offer, unit);
    let economic = unit_price.and_then(|price| {
        let holding = planning.holding_cost_share * price;
        economic_quantity(per_day * YEAR_DAYS, planning.order_cost, holding)
    });
    let shelf_life = ShelfLife::of(part, planning);
    let shelf_life_usage = shelf_life
        .as_ref()
        .map(|life| per_day * life.months * YEAR_DAYS / 12.0);
    let usage_until_retirement = days_in_service.map(|days| per_day * days);
    let mut wanted = economic.map_or(1.0, whole_economic_quantity);
    for most in [shelf_life_usage, usage_until_retirement]
        .into_iter()
        .flatten()
    {
        wanted = wanted.min(most.floor()).max(1.0);
    }
    let least = offer.lot_for(1.0, unit, 0.0).map_or(1.0, |lot| lot.gives);
    let quantity = offer
        .lot_for(wanted, unit, 0.0)
        .map_or(wanted, |lot| lot.gives);
    let reason = QuantityReason {
        economic,
        shelf_life,
        shelf_life_usage,
        usage_until_retirement,
        unit_price: unit_price.map(|price| Money {
            cents: (price * 100.0).round() as i64,
            currency: sourcing.shop.settings.currency,
        }),
        minimum: least,
        lasts_years: (per_day > 0.0).then(|| quantity / (per_day * YEAR_DAYS)),
    };
    (quantity, reason)
}

/// Price of one unit at the least quantity, in units of the shop's currency.
pub fn unit_price(
    sourcing: &Sourcing<'_>,
    offer: &UsableOffer<'_>,
    unit: UnitOfCount,
) -> Option<f64> {
    let factor = offer.unit.in_units_of(unit).ok()?;
    let lot = offer.lot_for(1.0, unit, 0.0)?;
    let price = offer.price_at(lot.ordered)?;
    let rate = sourcing.exchange().rate(price.currency)?;
    Some(price.unit_price() * rate / factor)
}
