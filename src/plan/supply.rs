//! Where the quantity of one kit line comes from, earliest source first.
//!
//! Lines of a kit draw on one [`Drawn`], so that nothing is counted twice.

use std::collections::BTreeMap;

use chrono::NaiveDateTime;

use super::lead_time::{Arrival, HourClock, LeadBasis};
use super::offer::{DeliveryKind, UsableOffer};
use super::sourcing::Sourcing;
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
        /// Quantity on the order, in the offer's unit.
        ordered: f64,
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
    /// Cost of goods and surcharge, freight left out, in the shop's currency; `None` where unknown.
    pub cost: Option<Money>,
}

impl Supply {
    /// The part whose shelf or open order this is; `None` for new orders and other ways.
    pub const fn own_part(&self) -> Option<PartId> {
        match &self.source {
            Source::Stock { part, .. } | Source::OpenOrder { part, .. } => Some(*part),
            Source::Offer { .. } | Source::OtherWay { .. } => None,
        }
    }
}

/// What the lines of one kit have already taken.
#[derive(Debug, Clone, Default)]
pub struct Drawn {
    stock: BTreeMap<PartId, f64>,
    orders: BTreeMap<Place, f64>,
    offers: BTreeMap<usize, f64>,
    ways: BTreeMap<Place, f64>,
}

/// What a line asks for.
#[derive(Debug, Clone, Copy)]
pub struct Need<'a> {
    /// Parts that may be fitted, the one asked for first.
    pub accepted: &'a [PartId],
    /// Ways other than buying.
    pub ways: &'a [&'a OtherWay],
    /// Unit of count of the line.
    pub unit: UnitOfCount,
    /// True where the line itself names no part: every way with hours then counts.
    pub is_unknown_part: bool,
}

impl Drawn {
    /// Takes free stock of one part, oldest lot first; `None` where there is none in this unit.
    pub fn take_stock(
        &mut self,
        sourcing: &Sourcing<'_>,
        part: PartId,
        wanted: f64,
        unit: UnitOfCount,
    ) -> Option<Supply> {
        let stock = sourcing.stock.by_part.get(&part)?;
        if stock.is_unit_assumed && is_pair_or_set(unit) {
            return None;
        }
        let factor = stock.unit.in_units_of(unit).ok()?;
        let taken = self.stock.entry(part).or_default();
        let there = whole((stock.free() - *taken) * factor, unit);
        let quantity = wanted.min(there);
        if quantity <= 0.0 {
            return None;
        }
        let lots = lots_between(stock, *taken, *taken + quantity / factor);
        *taken += quantity / factor;
        Some(Supply {
            source: Source::Stock { part, lots },
            quantity,
            arrival: Arrival::on_shelf(sourcing.shop.as_of),
            cost: Some(no_money(sourcing)),
        })
    }

    /// Takes from open orders of one part that are likely here by a moment, earliest row first.
    pub fn take_orders(
        &mut self,
        sourcing: &Sourcing<'_>,
        part: PartId,
        wanted: f64,
        unit: UnitOfCount,
        by: NaiveDateTime,
    ) -> Vec<Supply> {
        let mut left = wanted;
        let mut found = Vec::new();
        self.add_orders(sourcing, part, unit, wanted, &mut found);
        found.retain(|supply| supply.arrival.likely <= by);
        for supply in &mut found {
            supply.quantity = supply.quantity.min(left);
            left -= supply.quantity;
            self.book(sourcing, supply, unit);
        }
        found.retain(|supply| supply.quantity > 0.0);
        found
    }

    /// Covers `wanted` from open orders, offers and other ways, earliest first, the cheaper of two at one moment.
    ///
    /// Returns what was found and what stays uncovered.
    pub fn take_elsewhere(
        &mut self,
        sourcing: &Sourcing<'_>,
        need: &Need<'_>,
        wanted: f64,
    ) -> (Vec<Supply>, f64) {
        let mut left = wanted;
        let mut supplies = Vec::new();
        let mut skipped: Vec<Source> = Vec::new();
        while left > 1e-9 {
            let next = self
                .candidates(sourcing, need, left)
                .into_iter()
                .filter(|supply| !skipped.contains(&supply.source))
                .min_by(|a, b| {
                    let cost = |supply: &Supply| supply.cost.map_or(i64::MAX, |cost| cost.cents);
                    (a.arrival.likely, a.arrival.late, cost(a)).cmp(&(
                        b.arrival.likely,
                        b.arrival.late,
                        cost(b),
                    ))
                });
            let Some(supply) = next else {
                break;
            };
            if supply.quantity <= 1e-9 {
                skipped.push(supply.source);
                continue;
            }
            self.book(sourcing, &supply, need.unit);
            left -= supply.quantity;
            supplies.push(supply);
        }
        (supplies, left.max(0.0))
    }

    fn candidates(&self, sourcing: &Sourcing<'_>, need: &Need<'_>, left: f64) -> Vec<Supply> {
        let mut found = Vec::new();
        for part in need.accepted {
            self.add_orders(sourcing, *part, need.unit, left, &mut found);
            for offer in sourcing.offers_of(*part) {
                self.add_offer(sourcing, offer, need.unit, left, &mut found);
            }
        }
        for way in need.ways {
            let taken = self.ways.get(&way.place).copied().unwrap_or(0.0);
            let Some(quantity) = way_quantity(way, left, taken) else {
                continue;
            };
            if let Some(arrival) = way_arrival(sourcing, way, need.is_unknown_part) {
                found.push(Supply {
                    source: Source::OtherWay {
                        kind: way.kind,
                        place: way.place.clone(),
                    },
                    quantity,
                    arrival,
                    cost: way
                        .cost
                        .and_then(|cost| sourcing.exchange().in_own_currency(cost)),
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
        if offer.is_unit_assumed && is_pair_or_set(unit) {
            return;
        }
        let taken = self.offers.get(&offer.offer).copied().unwrap_or(0.0);
        let Some(lot) = offer.lot_for(left, unit, taken) else {
            return;
        };
        let quantity = left.min(whole(lot.gives, unit));
        if quantity <= 0.0 {
            return;
        }
        let goods = offer.cost_of(lot.ordered, sourcing.exchange());
        for delivery in &offer.deliveries {
            let Some(arrival) = delivery.arrival else {
                continue;
            };
            found.push(Supply {
                source: Source::Offer {
                    part: offer.part,
                    offer: offer.offer,
                    supplier: offer.record.supplier.to_string(),
                    delivery: delivery.kind,
                    ordered: lot.ordered,
                    is_old_quote: offer.is_old,
                    place: offer.record.place.clone(),
                },
                quantity,
                arrival,
                cost: goods.map(|goods| Money {
                    cents: goods.cents + delivery.surcharge.cents,
                    currency: goods.currency,
                }),
            });
        }
    }

    fn book(&mut self, sourcing: &Sourcing<'_>, supply: &Supply, unit: UnitOfCount) {
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
            Source::Offer { offer, ordered, .. } => {
                *self.offers.entry(*offer).or_default() += ordered;
            }
            Source::OtherWay { place, .. } => {
                *self.ways.entry(place.clone()).or_default() += supply.quantity;
            }
        }
    }
}

/// How much a way gives of what is left; making and reworking is not limited unless the row says so.
fn way_quantity(way: &OtherWay, left: f64, taken: f64) -> Option<f64> {
    match (way.quantity, way.kind) {
        (Some(quantity), _) => Some((quantity - taken).clamp(0.0, left)).filter(|q| *q > 0.0),
        (
            None,
            OtherWayKind::MakeInHouse | OtherWayKind::ReworkInHouse | OtherWayKind::RepairOutside,
        ) => Some(left),
        (None, OtherWayKind::OtherBin | OtherWayKind::OtherMachine) => None,
    }
}

/// When a way other than buying gives the part; `None` where hours or a needed approval are missing.
///
/// Own work and robbing a machine count hours of the maintenance shift, repair outside counts hours in which
/// suppliers work and is received like goods, another bin counts hours on the clock.
pub fn way_arrival(
    sourcing: &Sourcing<'_>,
    way: &OtherWay,
    is_unknown_part: bool,
) -> Option<Arrival> {
    if !is_way_allowed(way, is_unknown_part) {
        return None;
    }
    let hours = way.hours.filter(|hours| *hours >= 0.0)?;
    let now = sourcing.shop.as_of;
    let calendars = &sourcing.calendars;
    let clock = match way.kind {
        OtherWayKind::MakeInHouse | OtherWayKind::ReworkInHouse | OtherWayKind::OtherMachine => {
            HourClock::Maintenance
        }
        OtherWayKind::RepairOutside => HourClock::Supplier(calendars.id_of_supplier(None)),
        OtherWayKind::OtherBin => HourClock::Elapsed,
    };
    Arrival::of_hours(calendars, hours, now, clock, LeadBasis::WorkEstimate)
}

/// Another machine is robbed only with a name behind it; other ways need one unless the part is made in house, is
/// another bin's, or can be had in no other way.
pub fn is_way_allowed(way: &OtherWay, is_unknown_part: bool) -> bool {
    let is_approved = way
        .approved_by
        .as_ref()
        .is_some_and(|by| !by.trim().is_empty());
    match way.kind {
        OtherWayKind::OtherMachine => is_approved,
        OtherWayKind::MakeInHouse | OtherWayKind::OtherBin => true,
        OtherWayKind::ReworkInHouse | OtherWayKind::RepairOutside => is_approved || is_unknown_part,
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

fn lots_between(stock: &super::stock::PartStock, from: f64, until: f64) -> Vec<Place> {
    let mut passed = 0.0;
    let mut places = Vec::new();
    for lot in &stock.lots {
        let (start, end) = (passed, passed + lot.free);
        if end > from + 1e-9 && start < until - 1e-9 {
            places.push(lot.place.clone());
        }
        passed = end;
    }
    places
}

fn no_money(sourcing: &Sourcing<'_>) -> Money {
    Money {
        cents: 0,
        currency: sourcing.shop.settings.currency,
    }
}
