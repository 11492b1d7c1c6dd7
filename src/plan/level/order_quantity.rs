//! How many to order at a time: economic with the freight of its orders, within shelf life and remaining use, as the offer is sold.

use super::economic::{economic_quantity, whole_economic_quantity};
use super::shared_freight::OrderFreight;
use crate::catalogue::CataloguePart;
use crate::catalogue::ShelfLife;
use crate::plan::demand::Demand;
use crate::plan::offer::UsableOffer;
use crate::plan::sourcing::Sourcing;
use crate::plan::year_length::YEAR_DAYS;
use crate::units::{Money, UnitOfCount, UnitPrice, cents_of};

/// Freight of an order below which nothing is told of it.
const LEAST_TOLD: f64 = 0.05;

/// Why an order quantity is what it is.
#[derive(Debug, Clone, PartialEq)]
pub struct QuantityReason {
    /// Economic order quantity at the price of the least quantity, with the freight that is paid; `None` without price or holding cost.
    pub economic: Option<f64>,
    /// Freight of its orders; `None` where there is none, nobody says how much, or others pay it anyhow.
    pub freight: Option<QuantityFreight>,
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

/// Freight that an order quantity counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum QuantityFreight {
    /// Freight of an order, counted beside the cost of placing one as far as no other order of the week pays it.
    Counted(Money),
    /// None, for so much is ordered that it is free from this value on.
    FreeFrom(Money),
}

/// Quantity per order in the part's unit: economic with the freight that orders pay, at least 1, no more than the shelf life or
/// the remaining service uses, then up to the pack and minimum of the offer.
pub fn order_quantity(
    sourcing: &Sourcing<'_>,
    part: &CataloguePart,
    demand: &Demand,
    offer: &UsableOffer<'_>,
    unit: UnitOfCount,
    (days_in_service, freight): (Option<f64>, Option<OrderFreight>),
) -> (f64, QuantityReason) {
    let planning = &sourcing.shop.settings.planning;
    let per_day = demand.per_day().unwrap_or(0.0);
    let yearly = per_day * YEAR_DAYS;
    let unit_price = unit_price(sourcing, offer, unit);
    let shelf_life = ShelfLife::of(part, planning);
    let shelf_life_usage = shelf_life
        .as_ref()
        .map(|life| per_day * life.months * YEAR_DAYS / 12.0);
    let usage_until_retirement = days_in_service.map(|days| per_day * days);
    let caps = [shelf_life_usage, usage_until_retirement];
    let most = caps.into_iter().flatten().fold(f64::INFINITY, f64::min);
    let ordering = Ordering {
        sourcing,
        offer,
        unit,
        yearly,
        most,
        freight,
    };
    let economic = unit_price.and_then(|price| ordering.economic(price));
    let economic_or_one = economic.map_or(1.0, whole_economic_quantity);
    let wanted = ordering.cheapest(economic_or_one.min(most.floor()).max(1.0));
    let unit_price = price_at(sourcing, offer, unit, wanted);
    let least = offer.lot_for(1.0, unit, 0.0).map_or(1.0, |lot| lot.gives);
    let quantity = offer
        .lot_for(wanted, unit, 0.0)
        .map_or(wanted, |lot| lot.gives);
    let reason = QuantityReason {
        economic,
        freight: unit_price.and_then(|price| ordering.freight_told(price, quantity)),
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

/// How a part is ordered from an offer.
struct Ordering<'o, 's, 'u> {
    sourcing: &'o Sourcing<'s>,
    offer: &'o UsableOffer<'u>,
    unit: UnitOfCount,
    /// Units used a year.
    yearly: f64,
    /// Units that shelf life or remaining service use.
    most: f64,
    /// Freight that orders pay; `None` where there is none or nobody says how much it is.
    freight: Option<OrderFreight>,
}

impl Ordering<'_, '_, '_> {
    /// Economic quantity at a price, with the freight that the orders of it pay where it is not free.
    fn economic(&self, price: f64) -> Option<f64> {
        let planning = &self.sourcing.shop.settings.planning;
        let holding = planning.holding_cost_share * price;
        let of = |each: f64| economic_quantity(self.yearly, planning.order_cost + each, holding);
        let Some(freight) = &self.freight else {
            return of(0.0);
        };
        // Orders of one week pay it once: the quantity of rare orders says how rare they are.
        let first = of(freight.paid_each(0.0))?.max(1.0);
        of(freight.paid_each(self.yearly / first))
    }

    /// Goods, orders, their freight and holding a year.
    fn cost(&self, quantity: f64) -> Option<f64> {
        let planning = &self.sourcing.shop.settings.planning;
        let price = price_at(self.sourcing, self.offer, self.unit, quantity)?;
        let holding = planning.holding_cost_share * price * quantity / 2.0;
        let orders = self.yearly / quantity;
        let goods_cents = cents_of(price * quantity);
        let freight = self.freight.as_ref();
        let freight = freight.map_or(0.0, |freight| freight.a_year(orders, goods_cents));
        Some(self.yearly * price + planning.order_cost * orders + freight + holding)
    }

    /// The quantity wanted, or one whose price break or free freight makes the year cheaper.
    ///
    /// # Source
    /// All-units discount: the economic quantity of each price or the least quantity it holds from, whichever is more, compared
    /// by their yearly cost `D u + K D / Q + h u Q / 2` (Snyder and Shen, Fundamentals of Supply Chain Theory, 3.4, from memory).
    /// Freight that is free from a value on is an order cost that falls there: the economic quantity with it, that without it
    /// and the least that is free are compared likewise.
    fn cheapest(&self, wanted: f64) -> f64 {
        let planning = &self.sourcing.shop.settings.planning;
        let Ok(factor) = self.offer.unit.in_units_of(self.unit) else {
            return wanted;
        };
        let lot_of = |quantity: f64| {
            let lot = self.offer.lot_for(quantity, self.unit, 0.0);
            lot.map(|lot| lot.gives)
        };
        let free_from = self.freight.and_then(|of| of.freight.free_from_cents);
        let start = match self.freight {
            Some(_) => lot_of(wanted).unwrap_or(wanted),
            None => wanted,
        };
        let mut best = (self.cost(start), wanted);
        let breaks = self.offer.record.breaks.iter();
        let breaks = breaks.map(|of| of.from_quantity * factor);
        let without_break = self.freight.map(|_| 1.0);
        for from in without_break.into_iter().chain(breaks) {
            let price = price_at(self.sourcing, self.offer, self.unit, from);
            let economic = price.and_then(|price| self.economic(price));
            let free = price.zip(free_from).map(|(price, free_from)| {
                let holding = planning.holding_cost_share * price;
                let least = (free_from as f64 / 100.0 / price - 1e-9).ceil();
                let economic = economic_quantity(self.yearly, planning.order_cost, holding);
                let economic = economic.unwrap_or(least).max(least);
                [least, economic.floor().max(least), economic.ceil()]
            });
            let economic = economic.unwrap_or(from);
            let tried = [economic.floor(), economic.ceil()].into_iter();
            for quantity in tried.chain(free.into_iter().flatten()) {
                let Some(quantity) = lot_of(quantity.max(from)) else {
                    continue;
                };
                let is_other = quantity > wanted || self.freight.is_some();
                if is_other && quantity <= self.most.floor() {
                    let more = self.cost(quantity);
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

    /// Freight that the quantity counts; `None` where it is next to nothing.
    fn freight_told(&self, price: f64, quantity: f64) -> Option<QuantityFreight> {
        let freight = self.freight?;
        let currency = self.sourcing.shop.settings.currency;
        let each = freight.paid_each(self.yearly / quantity);
        let goods_cents = cents_of(price * quantity);
        let free_from = freight.freight.free_from_cents;
        match free_from.filter(|from| goods_cents >= *from) {
            _ if each < LEAST_TOLD => None,
            Some(cents) => Some(QuantityFreight::FreeFrom(Money { cents, currency })),
            None => Some(QuantityFreight::Counted(Money {
                cents: freight.freight.cents,
                currency,
            })),
        }
    }
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
    use crate::plan::sample::{Sample, euros, price, workdays};
    use crate::record::PriceBreak;

    /// Eight used a year of a part of 10, or of `at_break` from `from` on, at 25 an order and a fifth a year of holding.
    fn level(from: f64, at_break: f64, change: impl FnOnce(&mut Sample)) -> (f64, f64) {
        level_told(from, at_break, &mut String::new(), change)
    }

    /// The same with the reason of the quantity in words.
    fn level_told(
        from: f64,
        at_break: f64,
        said: &mut String,
        change: impl FnOnce(&mut Sample),
    ) -> (f64, f64) {
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
        *said = why.to_string();
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
    fn freight_is_counted_with_the_cost_of_an_order_and_free_where_that_is_cheaper() {
        // Brute force over every quantity: eight a year at 10, 25 an order, a fifth a year, and freight that orders of one week
        // pay once, free from a value of goods on.
        let weeks: f64 = 365.0 / 7.0;
        for (freight, free_from, said) in [
            (
                200.0,
                None,
                Some(
                    "200.00 EUR of freight an order counted in it, as far as no other order of the week pays it",
                ),
            ),
            (
                60.0,
                Some(200.0),
                Some("free of freight, as it is from 200.00 EUR on"),
            ),
            (60.0, Some(400.0), None),
            (15.0, Some(150.0), None),
            (30.0, Some(90.0), None),
            (2.0, Some(1000.0), None),
        ] {
            let year = |quantity: f64| {
                let is_free = free_from.is_some_and(|from| 10.0 * quantity >= from);
                let each = if is_free { 0.0 } else { freight };
                let orders = 8.0 / quantity;
                let freights = each * weeks * -(-orders / weeks).exp_m1();
                80.0 + 25.0 * orders + freights + quantity
            };
            let least = (1..400).map(|quantity| year(f64::from(quantity)));
            let least = least.fold(f64::INFINITY, f64::min);
            let mut why = String::new();
            let (quantity, _) = level_told(10_000.0, 10.0, &mut why, |sample| {
                for supplier in sample.shop.suppliers.values_mut() {
                    supplier.freight = Some(euros(freight));
                    supplier.freight_free_from = free_from.map(euros);
                }
            });
            assert!(
                year(quantity) <= least * 1.0005,
                "{freight} {free_from:?}: {quantity} costs {}, the best {least}",
                year(quantity)
            );
            assert!(said.is_none_or(|said| why.contains(said)), "{why}");
        }
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
