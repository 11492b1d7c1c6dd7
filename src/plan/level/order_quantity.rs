//! How many to order at a time: economic, within shelf life and remaining use, as the offer is sold.

use super::economic::{economic_quantity, whole_economic_quantity};
use crate::catalogue::CataloguePart;
use crate::catalogue::ShelfLife;
use crate::plan::demand::Demand;
use crate::plan::offer::UsableOffer;
use crate::plan::sourcing::Sourcing;
use crate::plan::year_length::YEAR_DAYS;
use crate::units::{UnitOfCount, UnitPrice};

/// Why an order quantity is what it is.
#[derive(Debug, Clone, PartialEq)]
pub struct QuantityReason {
    /// Economic order quantity at the price of the least quantity; `None` without price or holding cost.
    pub economic: Option<f64>,
    /// Shelf life, where the part has one.
    pub shelf_life: Option<ShelfLife>,
    /// Usage in the shelf life, which caps the quantity.
    pub shelf_life_usage: Option<f64>,
    /// Usage until its machines leave service, which caps the quantity.
    pub usage_until_retirement: Option<f64>,
    /// Unit price at the quantity ordered, in the shop's currency.
    pub unit_price: Option<UnitPrice>,
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
    let most = [shelf_life_usage, usage_until_retirement]
        .into_iter()
        .flatten()
        .fold(f64::INFINITY, f64::min);
    let yearly = per_day * YEAR_DAYS;
    wanted = at_price_breaks(sourcing, offer, unit, yearly, wanted, most);
    let unit_price = price_at(sourcing, offer, unit, wanted);
    let least = offer.lot_for(1.0, unit, 0.0).map_or(1.0, |lot| lot.gives);
    let quantity = offer
        .lot_for(wanted, unit, 0.0)
        .map_or(wanted, |lot| lot.gives);
    let reason = QuantityReason {
        economic,
        shelf_life,
        shelf_life_usage,
        usage_until_retirement,
        unit_price: unit_price.map(|price| UnitPrice {
            amount: price,
            currency: sourcing.shop.settings.currency,
        }),
        minimum: least,
        lasts_years: (per_day > 0.0).then(|| quantity / (per_day * YEAR_DAYS)),
    };
    (quantity, reason)
}

/// The quantity wanted, or a larger one whose price break makes the year cheaper: goods, orders and holding.
///
/// # Source
/// All-units discount: the economic quantity of each price or the least quantity it holds from, whichever is more, compared
/// by their yearly cost `D u + K D / Q + h u Q / 2` (Snyder and Shen, Fundamentals of Supply Chain Theory, 3.4, from memory).
fn at_price_breaks(
    sourcing: &Sourcing<'_>,
    offer: &UsableOffer<'_>,
    unit: UnitOfCount,
    yearly: f64,
    wanted: f64,
    most: f64,
) -> f64 {
    let planning = &sourcing.shop.settings.planning;
    let Ok(factor) = offer.unit.in_units_of(unit) else {
        return wanted;
    };
    let cost = |quantity: f64| {
        let price = price_at(sourcing, offer, unit, quantity)?;
        let holding = planning.holding_cost_share * price * quantity / 2.0;
        Some(yearly * price + planning.order_cost * yearly / quantity + holding)
    };
    let mut best = (cost(wanted), wanted);
    for price_break in &offer.record.breaks {
        let from = price_break.from_quantity * factor;
        let economic = price_at(sourcing, offer, unit, from).and_then(|price| {
            let holding = planning.holding_cost_share * price;
            economic_quantity(yearly, planning.order_cost, holding)
        });
        let economic = economic.unwrap_or(from);
        for quantity in [economic.floor(), economic.ceil()] {
            let lot = offer.lot_for(quantity.max(from), unit, 0.0);
            let Some(quantity) = lot.map(|lot| lot.gives) else {
                continue;
            };
            if quantity > wanted && quantity <= most.floor() {
                let more = cost(quantity);
                if more
                    .zip(best.0)
                    .is_some_and(|(more, best)| more < best - 1e-9)
                {
                    best = (more, quantity);
                }
            }
        }
    }
    best.1
}

/// Price of one unit at the least quantity, in units of the shop's currency.
pub fn unit_price(
    sourcing: &Sourcing<'_>,
    offer: &UsableOffer<'_>,
    unit: UnitOfCount,
) -> Option<f64> {
    price_at(sourcing, offer, unit, 1.0)
}

/// Price of one unit where so many are ordered, in units of the shop's currency.
fn price_at(
    sourcing: &Sourcing<'_>,
    offer: &UsableOffer<'_>,
    unit: UnitOfCount,
    quantity: f64,
) -> Option<f64> {
    let factor = offer.unit.in_units_of(unit).ok()?;
    let lot = offer.lot_for(quantity, unit, 0.0)?;
    let price = offer.price_at(lot.ordered)?;
    let rate = sourcing.exchange().rate(price.currency)?;
    Some(price.unit_price() * rate / factor)
}

#[cfg(test)]
mod tests {
    use crate::plan::Plan;
    use crate::plan::sample::{Sample, price, workdays};
    use crate::record::PriceBreak;

    /// Eight used a year of a part of 10, or of `at_break` from `from` on, at 25 an order and a fifth a year of holding.
    fn level(from: f64, at_break: f64, change: impl FnOnce(&mut Sample)) -> (f64, f64) {
        let mut sample = Sample::new(
            "records_from = \"2021-03-04\"\n[planning]\ndemand_method = \"plain\"\norder_cost = 25.0\nholding_cost_share = 0.2",
        );
        sample.supplier("S", |_| {});
        sample.machine("M1", Some(10.0), None);
        let part = sample.part("E2");
        sample.offer(part, "S", workdays(10.0), |offer| {
            offer.breaks = vec![PriceBreak {
                from_quantity: from,
                price: price(at_break).unwrap(),
            }];
        });
        for year in 2021..2026 {
            for month in 4..12 {
                sample.usage(part, &format!("{year}-{month:02}-01"), 1.0);
            }
        }
        change(&mut sample);
        let plan: Plan = sample.plan();
        let level = &plan.levels.by_part[&part];
        let why = level.why_quantity.as_ref().unwrap();
        (level.order_quantity, why.unit_price.unwrap().amount)
    }

    #[test]
    fn a_price_break_is_ordered_where_the_year_is_cheaper_by_it() {
        // Eight a year at 10: the economic quantity is (2 * 8 * 25 / 2)^(1/2) = 14.1, the year 80 + 14.2 + 14.1 = 108.3.
        // At 7 from 30 on: 56 + 6.7 + 21 = 83.7. At 9.9 from 60 on: 79.2 + 3.3 + 59.4 = 141.9, which is more.
        let (quantity, price) = level(30.0, 7.0, |_| {});
        assert!(
            (quantity - 30.0).abs() < 1e-9 && (price - 7.0).abs() < 1e-9,
            "{quantity} {price}"
        );
        let (quantity, price) = level(60.0, 9.9, |_| {});
        assert!(
            quantity < 20.0 && (price - 10.0).abs() < 1e-9,
            "{quantity} {price}"
        );
    }

    #[test]
    fn no_price_break_is_worth_more_than_the_shelf_life_uses() {
        // Half a year uses four.
        let (quantity, price) = level(30.0, 7.0, |sample| {
            let part = crate::catalogue::PartId(0);
            sample.part_change(part, |part| part.shelf_life_months = Some(6.0));
        });
        assert!(
            quantity <= 4.0 && (price - 10.0).abs() < 1e-9,
            "{quantity} {price}"
        );
    }

    #[test]
    fn a_price_for_many_is_not_rounded_to_cents() {
        // Arithmetic: 0.40 per 100 is 0.004 each. Eight a year, 25 an order, a fifth of it a year for holding: by Harris'
        // formula (2 * 8 * 25 / 0.0008)^(1/2) = 707.1.
        let (quantity, price) = level(2.0, 1.0, |sample| {
            let offer = &mut sample.shop.offers[0].record;
            offer.price =
                crate::units::Price::from_units(0.4, 100, crate::units::Currency::EUR).ok();
            offer.breaks.clear();
        });
        assert!((price - 0.004).abs() < 1e-12, "{price}");
        assert!((quantity - 707.0).abs() < 1.5, "{quantity}");
    }
}
