//! Where a quantity for one kit line can come from, and what is left of it.
//!
//! Lines of a kit draw on one [`Drawn`], so that nothing is counted twice and the rest of a pack is shared.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::lead_time::Arrival;
use super::offer::{DeliveryKind, UsableOffer};
use super::other_way::{brings_used, donor_cost, way_arrival, way_quantity};
use super::sourcing::Sourcing;
use super::stock::FreeLot;
use crate::catalogue::PartId;
use crate::place::Place;
use crate::record::{OtherWay, OtherWayKind};
use crate::units::{Money, UnitOfCount};

/// What a quantity comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum Source {
    /// The own shelf.
    Stock {
        /// The part.
        part: PartId,
        /// Rows to take from, oldest lot first.
        lots: Vec<Place>,
    },
    /// An order that is on its way.
    OpenOrder {
        /// The part.
        part: PartId,
        /// The row.
        place: Place,
    },
    /// A new order.
    Offer {
        /// The part.
        part: PartId,
        /// Position in [`Shop::offers`](crate::catalogue::Shop::offers).
        offer: usize,
        /// Supplier as printed.
        supplier: String,
        /// How it comes.
        delivery: DeliveryKind,
        /// Position among the offer's deliveries.
        way: usize,
        /// Unit of the offer.
        offer_unit: UnitOfCount,
        /// Quantity added to the order, in the offer's unit: 0 where the rest of a pack is used.
        ordered: f64,
        /// The same in the line's unit.
        gives: f64,
        /// Surcharge for hurrying, once per order; what a courier or a run on the same day costs is paid with freight.
        surcharge: Money,
        /// True where the quote is older than the settings allow.
        is_old_quote: bool,
        /// The row.
        place: Place,
    },
    /// Made, reworked, repaired or taken from elsewhere.
    OtherWay {
        /// How.
        kind: OtherWayKind,
        /// The row.
        place: Place,
    },
}

/// A quantity for a line, its source and when it is there.
#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    /// Where from.
    pub source: Source,
    /// How much of the line it covers, in the line's unit.
    pub quantity: f64,
    /// When it is there.
    pub arrival: Arrival,
    /// What is paid for it: goods and surcharge, freight and runs left out, or work, in the shop's currency; `None` where unknown.
    pub cost: Option<Money>,
    /// What the machine that it is taken from loses by standing still, which nobody pays in money; `None` where no machine
    /// is robbed.
    pub donor_downtime: Option<Money>,
}

impl Supply {
    /// The part whose shelf or open order this is; `None` for new orders and other ways.
    pub const fn own_part(&self) -> Option<PartId> {
        match &self.source {
            Source::Stock { part, .. } | Source::OpenOrder { part, .. } => Some(*part),
            Source::Offer { .. } | Source::OtherWay { .. } => None,
        }
    }

    /// Position of the offer and of its delivery; `None` for what is no new order.
    pub const fn offered_way(&self) -> Option<(usize, usize)> {
        match &self.source {
            Source::Offer { offer, way, .. } => Some((*offer, *way)),
            Source::Stock { .. } | Source::OpenOrder { .. } | Source::OtherWay { .. } => None,
        }
    }
}

/// What the lines of one kit have already taken.
#[derive(Debug, Clone, Default)]
pub struct Drawn {
    /// By part and position of the lot.
    stock: BTreeMap<(PartId, usize), f64>,
    orders: BTreeMap<Place, f64>,
    offers: BTreeMap<usize, f64>,
    placed: BTreeMap<(usize, usize), Placed>,
    ways: BTreeMap<Place, f64>,
}

/// An order to one offer by one delivery, in the offer's unit.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
struct Placed {
    ordered: f64,
    used: f64,
}

/// What a line asks for.
#[derive(Debug, Clone, Copy)]
pub struct Need<'a> {
    /// Parts that may be fitted, the one asked for first.
    pub accepted: &'a [PartId],
    /// Ways other than buying.
    pub ways: &'a [&'a OtherWay],
    /// Offers that are planned with as if an open question about them were answered.
    pub assumed: &'a [UsableOffer<'a>],
    /// Unit of count of the line.
    pub unit: UnitOfCount,
    /// True where the line itself names no part: every way with hours then counts.
    pub is_unknown_part: bool,
}

impl Drawn {
    /// Takes free stock of one part that may still be fitted on a day, oldest lot first; `None` where there is none in this
    /// unit.
    pub fn take_stock(
        &mut self,
        sourcing: &Sourcing<'_>,
        part: PartId,
        wanted: f64,
        (unit, fitted_on): (UnitOfCount, NaiveDate),
    ) -> Option<Supply> {
        let stock = sourcing.stock.by_part.get(&part)?;
        if stock.is_unit_assumed && is_pair_or_set(unit) {
            return None;
        }
        let factor = stock.unit.in_units_of(unit).ok()?;
        let is_fit = |(_, lot): &(usize, &FreeLot)| lot.is_fit_on(fitted_on);
        let fit: Vec<(usize, &FreeLot)> = stock.lots.iter().enumerate().filter(is_fit).collect();
        let left_of = |at: usize, lot: &FreeLot, drawn: &Self| {
            let taken = drawn.stock.get(&(part, at)).copied().unwrap_or(0.0);
            (lot.free - taken).max(0.0)
        };
        let left = fit.iter().map(|(at, lot)| left_of(*at, lot, self));
        let there = whole(left.sum::<f64>() * factor, unit);
        let quantity = wanted.min(there);
        if quantity <= 0.0 {
            return None;
        }
        let mut missing = quantity / factor;
        let mut lots = Vec::new();
        for (at, lot) in fit {
            let here = left_of(at, lot, self).min(missing);
            if here > 1e-9 {
                *self.stock.entry((part, at)).or_default() += here;
                missing -= here;
                lots.push(lot.place.clone());
            }
        }
        Some(Supply {
            source: Source::Stock { part, lots },
            quantity,
            arrival: Arrival::on_shelf(sourcing.shop.as_of),
            cost: Some(no_money(sourcing)),
            donor_downtime: None,
        })
    }

    /// Takes from open orders of one part that may be waited for, earliest row first; asked of all that is left of each.
    pub fn take_orders(
        &mut self,
        sourcing: &Sourcing<'_>,
        part: PartId,
        wanted: f64,
        unit: UnitOfCount,
        may_wait: impl Fn(&Supply) -> bool,
    ) -> Vec<Supply> {
        let mut left = wanted;
        let mut found = Vec::new();
        self.add_orders(sourcing, part, unit, f64::INFINITY, &mut found);
        found.retain(may_wait);
        for supply in &mut found {
            supply.quantity = supply.quantity.min(left);
            left -= supply.quantity;
            self.book(sourcing, supply, unit);
        }
        found.retain(|supply| supply.quantity > 0.0);
        found
    }

    /// What open orders, offers and other ways would each give of `left`, in a fixed order.
    pub fn candidates(&self, sourcing: &Sourcing<'_>, need: &Need<'_>, left: f64) -> Vec<Supply> {
        let mut found = Vec::new();
        for part in need.accepted {
            self.add_orders(sourcing, *part, need.unit, left, &mut found);
            let assumed = need.assumed.iter().filter(|offer| offer.part == *part);
            for offer in sourcing.offers_of(*part).iter().chain(assumed) {
                self.add_offer(sourcing, offer, need.unit, left, &mut found);
            }
        }
        for way in need.ways {
            let taken = self.ways.get(&way.place).copied().unwrap_or(0.0);
            if brings_used(sourcing, way, need.accepted) {
                continue;
            }
            let Some(quantity) = way_quantity(way, left, taken) else {
                continue;
            };
            if let Some(arrival) = way_arrival(sourcing, way, need.is_unknown_part) {
                let own = way
                    .cost
                    .and_then(|cost| sourcing.exchange().in_own_currency(cost));
                let (cost, donor_downtime) = if way.kind == OtherWayKind::OtherMachine {
                    // Without a figure for the donor's downtime robbing it is not planned.
                    let Some(donor) = donor_cost(sourcing, way, need.accepted) else {
                        continue;
                    };
                    let paid = own.map(|own| Money {
                        cents: own.cents + donor.replacement.cents,
                        currency: own.currency,
                    });
                    (paid, Some(donor.downtime))
                } else {
                    (own, None)
                };
                found.push(Supply {
                    source: Source::OtherWay {
                        kind: way.kind,
                        place: way.place.clone(),
                    },
                    quantity,
                    arrival,
                    cost,
                    donor_downtime,
                });
            }
        }
        found
    }

    fn add_orders(
        &self,
        sourcing: &Sourcing<'_>,
        part: PartId,
        unit: UnitOfCount,
        left: f64,
        found: &mut Vec<Supply>,
    ) {
        for order in sourcing.orders.get(&part).into_iter().flatten() {
            let (Some(arrival), Ok(factor)) = (order.arrival, order.unit.in_units_of(unit)) else {
                continue;
            };
            let taken = self.orders.get(&order.place).copied().unwrap_or(0.0);
            let there = whole((order.quantity - taken) * factor, unit);
            if there > 0.0 {
                found.push(Supply {
                    source: Source::OpenOrder {
                        part,
                        place: order.place.clone(),
                    },
                    quantity: left.min(there),
                    arrival,
                    cost: Some(no_money(sourcing)),
                    donor_downtime: None,
                });
            }
        }
    }

    fn add_offer(
        &self,
        sourcing: &Sourcing<'_>,
        offer: &UsableOffer<'_>,
        unit: UnitOfCount,
        left: f64,
        found: &mut Vec<Supply>,
    ) {
        let Ok(factor) = offer.unit.in_units_of(unit) else {
            return;
        };
        if offer.is_unit_assumed && is_pair_or_set(unit) {
            return;
        }
        let exchange = sourcing.exchange();
        let on_order = self.offers.get(&offer.offer).copied().unwrap_or(0.0);
        for (way, delivery) in offer.deliveries.iter().enumerate() {
            let Some(arrival) = delivery.arrival else {
                continue;
            };
            let placed = self.placed.get(&(offer.offer, way)).copied();
            let before = placed.unwrap_or_default();
            let used = before.used * factor;
            let Some(lot) =
                offer.cheapest_lot(used + left, unit, on_order - before.ordered, exchange)
            else {
                continue;
            };
            let quantity = left.min(whole(lot.gives - used, unit));
            if quantity <= 0.0 {
                continue;
            }
            let surcharge = if placed.is_some() || delivery.kind.is_one_run() {
                no_money(sourcing)
            } else {
                delivery.surcharge
            };
            let goods = |ordered: f64| {
                if ordered > 0.0 {
                    offer.cost_of(ordered, exchange).map(|goods| goods.cents)
                } else {
                    Some(0)
                }
            };
            let more = goods(lot.ordered)
                .zip(goods(before.ordered))
                .map(|(after, before)| after - before);
            found.push(Supply {
                source: Source::Offer {
                    part: offer.part,
                    offer: offer.offer,
                    supplier: offer.record.supplier.to_string(),
                    delivery: delivery.kind,
                    way,
                    offer_unit: offer.unit,
                    ordered: (lot.ordered - before.ordered).max(0.0),
                    gives: (lot.ordered - before.ordered).max(0.0) * factor,
                    surcharge,
                    is_old_quote: offer.is_old,
                    place: offer.record.place.clone(),
                },
                quantity,
                arrival,
                cost: more.map(|more| Money {
                    cents: more + surcharge.cents,
                    currency: surcharge.currency,
                }),
                donor_downtime: None,
            });
        }
    }

    /// Notes that a candidate is taken.
    pub fn book(&mut self, sourcing: &Sourcing<'_>, supply: &Supply, unit: UnitOfCount) {
        match &supply.source {
            Source::Stock { .. } => {}
            Source::OpenOrder { part, place } => {
                let factor = sourcing
                    .orders
                    .get(part)
                    .and_then(|orders| orders.iter().find(|order| order.place == *place))
                    .and_then(|order| order.unit.in_units_of(unit).ok())
                    .unwrap_or(1.0);
                *self.orders.entry(place.clone()).or_default() += supply.quantity / factor;
            }
            Source::Offer {
                offer,
                way,
                offer_unit,
                ordered,
                ..
            } => {
                *self.offers.entry(*offer).or_default() += ordered;
                let factor = offer_unit.in_units_of(unit).unwrap_or(1.0);
                let placed = self.placed.entry((*offer, *way)).or_default();
                placed.ordered += ordered;
                placed.used += supply.quantity / factor;
            }
            Source::OtherWay { place, .. } => {
                *self.ways.entry(place.clone()).or_default() += supply.quantity;
            }
        }
    }
}

/// True for units whose pieces belong together, so that "unknown" must not be taken for them.
pub const fn is_pair_or_set(unit: UnitOfCount) -> bool {
    matches!(unit, UnitOfCount::Pair | UnitOfCount::MatchedSet { .. })
}

/// Whole units, rounded down, except for lengths.
fn whole(quantity: f64, unit: UnitOfCount) -> f64 {
    if unit == UnitOfCount::Metre {
        quantity.max(0.0)
    } else {
        (quantity + 1e-9).floor().max(0.0)
    }
}

fn no_money(sourcing: &Sourcing<'_>) -> Money {
    Money {
        cents: 0,
        currency: sourcing.shop.settings.currency,
    }
}

#[cfg(test)]
mod tests;
