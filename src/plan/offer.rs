//! Which offers may be bought from, what a quantity costs, and the ways the goods can come.

use chrono::{NaiveDate, NaiveDateTime};

use super::calendar::Calendars;
pub use super::delivery::{Delivery, DeliveryKind};
use super::exchange::Exchange;
use super::issue::PlanIssue;
use super::lead_time::{
    Arrival, HourClock, LeadBasis, LeadQuestion, LeadTimes, Placing, supplier_key,
};
use crate::catalogue::{OfferOf, PartId, Shop};
use crate::part::PartClass;
use crate::place::Place;
use crate::record::{Condition, OfferRecord, QuotedLeadTime, SupplierRecord};
use crate::units::{Currency, Money, Price, UnitOfCount};

/// A quantity that stands for "the least that can be ordered": less than anybody needs of a metre.
const LEAST_WANTED: f64 = 1e-6;

/// Why an offer is not bought from.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum WhyUnusable {
    /// The quote has ended.
    #[error("expired on {on}")]
    Expired {
        /// Its last day.
        on: NaiveDate,
    },
    /// Not new, and the settings ask for new goods.
    #[error("goods are {condition}; the settings accept new goods only", condition = .condition.name())]
    Condition {
        /// What is offered.
        condition: Condition,
    },
    /// The supplier is not approved, or not for this class.
    #[error("supplier `{supplier}` is not approved for {class}", class = class_name(*.class))]
    NotApproved {
        /// The supplier.
        supplier: String,
        /// Class of the part.
        class: PartClass,
    },
    /// Nobody says whether the supplier is approved.
    #[error("no table says that supplier `{supplier}` is approved")]
    ApprovalUnknown {
        /// The supplier.
        supplier: String,
    },
    /// A currency without a rate.
    #[error("no exchange rate for {currency} in the settings")]
    NoExchangeRate {
        /// The currency.
        currency: Currency,
    },
    /// The supplier has fewer than can be ordered.
    #[error(
        "the supplier has {available}, and pack and minimum quantity allow no order below {least}"
    )]
    LessThanALot {
        /// What there is, in the offer's unit.
        available: f64,
        /// The smallest order.
        least: f64,
    },
    /// The supplier has none.
    #[error("the supplier has none")]
    NothingAvailable,
}

/// As what an offer is judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JudgedAs {
    /// As it is.
    ItIs,
    /// As if an ended quote were renewed.
    Renewed,
    /// As if its supplier, of whom the suppliers table knows, were approved.
    OfApprovedSupplier,
}

/// An offer that is not bought from, and why.
#[derive(Debug, Clone, PartialEq)]
pub struct UnusableOffer {
    /// Position in [`Shop::offers`].
    pub offer: usize,
    /// The part.
    pub part: PartId,
    /// The row.
    pub place: Place,
    /// Why.
    pub why: WhyUnusable,
}

/// An offer that may be bought from.
#[derive(Debug, Clone)]
pub struct UsableOffer<'a> {
    /// Position in [`Shop::offers`].
    pub offer: usize,
    /// The part.
    pub part: PartId,
    /// The row.
    pub record: &'a OfferRecord,
    /// Its supplier.
    pub supplier: &'a SupplierRecord,
    /// Unit the price, minimum and pack are counted in.
    pub unit: UnitOfCount,
    /// True where neither the offer nor the part names a unit and pieces are assumed.
    pub is_unit_assumed: bool,
    /// Days since the quote; `None` where it has no date.
    pub quote_age_days: Option<i64>,
    /// True where the quote is older than the settings allow.
    pub is_old: bool,
    /// Ways the goods can come, the quoted one first.
    pub deliveries: Vec<Delivery>,
    /// Price that is planned with as if the supplier had named it; `None` but for such a question.
    pub assumed_price: Option<Price>,
}

/// A quantity that can be ordered from an offer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OrderLot {
    /// Quantity on the order, in the offer's unit: a multiple of the pack and at least the minimum.
    pub ordered: f64,
    /// The same in the unit that was asked for.
    pub gives: f64,
}

impl<'a> UsableOffer<'a> {
    /// Judges one offer.
    ///
    /// # Errors
    /// [`WhyUnusable`] for an offer that must not be planned with.
    pub fn judge(
        shop: &'a Shop,
        calendars: &Calendars,
        lead_times: &LeadTimes<'_>,
        position: usize,
        offer: &'a OfferOf,
    ) -> Result<Self, WhyUnusable> {
        let as_it_is = JudgedAs::ItIs;
        Self::judge_as(shop, calendars, lead_times, position, offer, as_it_is)
    }

    /// Judges one offer, as if something that stands against it did not.
    ///
    /// # Errors
    /// [`WhyUnusable`] for an offer that must not be planned with.
    pub fn judge_as(
        shop: &'a Shop,
        calendars: &Calendars,
        lead_times: &LeadTimes<'_>,
        position: usize,
        offer: &'a OfferOf,
        judged_as: JudgedAs,
    ) -> Result<Self, WhyUnusable> {
        let record = &offer.record;
        let part = shop.catalogue.part(offer.part);
        let today = shop.as_of.date();
        let exchange = Exchange::new(&shop.settings);
        if let Some(on) = record
            .valid_until
            .filter(|until| *until < today && judged_as != JudgedAs::Renewed)
        {
            return Err(WhyUnusable::Expired { on });
        }
        let is_accepted = match record.condition {
            Condition::New => true,
            Condition::Reconditioned => shop.settings.planning.allow_reconditioned,
            Condition::Used => false,
        };
        if !is_accepted {
            return Err(WhyUnusable::Condition {
                condition: record.condition,
            });
        }
        let class = part
            .family
            .map_or(PartClass::Other, |family| family.class());
        let supplier = approved(shop, &record.supplier, class).or_else(|why| {
            let listed = shop.suppliers.get(&supplier_key(&record.supplier));
            let is_assumed = judged_as == JudgedAs::OfApprovedSupplier;
            listed.filter(|_| is_assumed).ok_or(why)
        })?;
        let currencies = record
            .price
            .into_iter()
            .chain(record.breaks.iter().map(|price_break| price_break.price));
        for price in currencies {
            if exchange.rate(price.currency).is_none() {
                return Err(WhyUnusable::NoExchangeRate {
                    currency: price.currency,
                });
            }
        }
        if record.quantity_available.is_some_and(|there| there <= 0.0) {
            return Err(WhyUnusable::NothingAvailable);
        }
        let unit = record.unit_of_count.or(part.unit_of_count);
        // A quote of a day to come is a slip: nobody knows its age.
        let quote_age_days = record
            .quote_date
            .map(|date| (today - date).num_days())
            .filter(|age| *age >= 0);
        let mut usable = Self {
            offer: position,
            part: offer.part,
            record,
            supplier,
            unit: unit.unwrap_or(UnitOfCount::Piece),
            is_unit_assumed: unit.is_none(),
            quote_age_days,
            is_old: quote_age_days
                .is_some_and(|age| age > shop.settings.planning.quote_is_old_after_days),
            deliveries: Vec::new(),
            assumed_price: None,
        };
        // The smallest order is that for next to nothing.
        if let Some(available) = record.quantity_available
            && usable.lot_for(LEAST_WANTED, usable.unit, 0.0).is_none()
        {
            let least = usable.smallest_order(LEAST_WANTED);
            return Err(WhyUnusable::LessThanALot { available, least });
        }
        usable.deliveries = usable.all_deliveries(shop, calendars, lead_times, exchange);
        Ok(usable)
    }

    /// Smallest quantity that can be ordered and gives at least `wanted` of `unit`; `None` where the units must
    /// not be converted or less than the minimum is left of what the supplier has.
    ///
    /// `taken` is what other lines already take from this offer, in the offer's unit. Where less is available than
    /// wanted, the lot gives what there is.
    pub fn lot_for(&self, wanted: f64, unit: UnitOfCount, taken: f64) -> Option<OrderLot> {
        let factor = self.unit.in_units_of(unit).ok()?;
        let pack = self.pack();
        let minimum = self.record.minimum_quantity.unwrap_or(0.0);
        let mut ordered = self.smallest_order(wanted / factor);
        if let Some(available) = self.record.quantity_available {
            // Half a piece that is left is none.
            let left = match self.unit {
                UnitOfCount::Metre => (available - taken).max(0.0),
                _ => (available - taken + 1e-9).floor().max(0.0),
            };
            if ordered > left {
                ordered = pack.map_or(left, |pack| (left / pack + 1e-9).floor() * pack);
            }
            if ordered <= 0.0 || ordered < minimum {
                return None;
            }
        }
        (ordered > 0.0).then_some(OrderLot {
            ordered,
            gives: ordered * factor,
        })
    }

    fn pack(&self) -> Option<f64> {
        self.record.pack_quantity.filter(|pack| *pack > 0.0)
    }

    /// Smallest order that gives at least so much, by minimum and pack, whatever the supplier has; all in the offer's unit.
    fn smallest_order(&self, wanted: f64) -> f64 {
        let least = wanted.max(self.record.minimum_quantity.unwrap_or(0.0));
        let least = match self.unit {
            UnitOfCount::Metre => least,
            _ => (least - 1e-9).ceil(),
        };
        self.pack()
            .map_or(least, |pack| (least / pack - 1e-9).ceil() * pack)
    }

    /// The lot for a quantity, or a larger one where a price break makes it cheaper in total.
    pub fn cheapest_lot(
        &self,
        wanted: f64,
        unit: UnitOfCount,
        taken: f64,
        exchange: Exchange<'_>,
    ) -> Option<OrderLot> {
        let least = self.lot_for(wanted, unit, taken)?;
        let factor = self.unit.in_units_of(unit).ok()?;
        let larger = self
            .record
            .breaks
            .iter()
            .filter(|price_break| price_break.from_quantity > least.ordered)
            .filter_map(|price_break| self.lot_for(price_break.from_quantity * factor, unit, taken))
            .filter(|lot| lot.ordered > least.ordered);
        let cents = |lot: &OrderLot| self.cost_of(lot.ordered, exchange).map(|cost| cost.cents);
        let mut best = least;
        for lot in larger {
            if let (Some(more), Some(less)) = (cents(&lot), cents(&best))
                && more < less
            {
                best = lot;
            }
        }
        Some(best)
    }

    /// Goods cost of a quantity in the offer's unit, price breaks counted, in the shop's currency; `None` without
    /// a price.
    pub fn cost_of(&self, ordered: f64, exchange: Exchange<'_>) -> Option<Money> {
        exchange.in_own_currency(self.price_at(ordered)?.cost_of(ordered))
    }

    /// Price that holds at a quantity in the offer's unit.
    pub fn price_at(&self, ordered: f64) -> Option<Price> {
        self.record
            .breaks
            .iter()
            .filter(|price_break| price_break.from_quantity <= ordered + 1e-9)
            .max_by(|a, b| a.from_quantity.total_cmp(&b.from_quantity))
            .map(|price_break| price_break.price)
            .or(self.record.price)
            .or(self.assumed_price)
    }

    /// Arrival of one of its deliveries if ordered at another moment than the moment of planning.
    pub fn arrival_if_ordered(
        &self,
        calendars: &Calendars,
        lead_times: &LeadTimes<'_>,
        delivery: &Delivery,
        ordered_at: NaiveDateTime,
    ) -> Option<Arrival> {
        match delivery.kind {
            DeliveryKind::Normal | DeliveryKind::Hurried => {
                lead_times.estimate(&self.question(delivery.quoted, delivery.kind, ordered_at))
            }
            DeliveryKind::Collected => {
                let there_and_back = self.supplier.collection_h?;
                self.by_counter(calendars, ordered_at, there_and_back, there_and_back / 2.0)
            }
            DeliveryKind::Courier => {
                self.by_counter(calendars, ordered_at, self.supplier.courier_h?, 0.0)
            }
            DeliveryKind::SameDay => {
                lead_times.on_the_same_day(self.supplier, self.supplier.same_day?, ordered_at)
            }
        }
    }

    /// The issue of a quote dated after the moment of planning.
    pub fn quoted_in_the_future(&self) -> Option<PlanIssue> {
        let date = self.record.quote_date?;
        self.quote_age_days
            .is_none()
            .then(|| PlanIssue::QuotedInTheFuture {
                place: self.record.place.clone(),
                date,
            })
    }

    /// The issue of a quoted lead time of 0.
    pub fn quoted_zero(&self) -> Option<PlanIssue> {
        let is_zero = matches!(
            self.record.lead_time,
            Some(QuotedLeadTime::Span { most, .. }) if most <= 0.0
        );
        is_zero.then(|| PlanIssue::QuotedZero {
            place: self.record.place.clone(),
        })
    }

    /// The issues of hurried deliveries that are not planned with, as nobody can say what they cost.
    pub fn hurried_unpriced(&self, shop: &Shop) -> impl Iterator<Item = PlanIssue> {
        let exchange = Exchange::new(&shop.settings);
        let number = &shop.catalogue.part(self.part).number;
        let place = &self.record.place;
        let hurried = self.record.expedite.iter();
        hurried.filter_map(move |of| match of.surcharge {
            None => Some(PlanIssue::HurriedUnpriced {
                place: place.clone(),
                part: number.clone(),
                lead_time: of.lead_time,
            }),
            Some(surcharge) if exchange.rate(surcharge.currency).is_none() => {
                Some(PlanIssue::NoExchangeRate {
                    place: place.clone(),
                    currency: surcharge.currency,
                })
            }
            Some(_) => None,
        })
    }

    fn all_deliveries(
        &self,
        shop: &Shop,
        calendars: &Calendars,
        lead_times: &LeadTimes<'_>,
        exchange: Exchange<'_>,
    ) -> Vec<Delivery> {
        let free = Money {
            cents: 0,
            currency: exchange.currency(),
        };
        let way = |kind, surcharge, quoted| Delivery {
            kind,
            arrival: None,
            surcharge,
            quoted,
        };
        let mut ways = vec![way(DeliveryKind::Normal, free, self.record.lead_time)];
        for hurried in &self.record.expedite {
            let surcharge = hurried.surcharge;
            let surcharge = surcharge.and_then(|of| exchange.in_own_currency(of));
            if let Some(surcharge) = surcharge {
                ways.push(way(
                    DeliveryKind::Hurried,
                    surcharge,
                    Some(hurried.lead_time),
                ));
            }
        }
        if self.record.lead_time == Some(QuotedLeadTime::InStock) {
            if self.supplier.collection_h.is_some() {
                ways.push(way(DeliveryKind::Collected, free, self.record.lead_time));
            }
            let cost = self.supplier.courier_cost;
            if let (Some(_), Some(cost)) = (
                self.supplier.courier_h,
                cost.and_then(|cost| exchange.in_own_currency(cost)),
            ) {
                ways.push(way(DeliveryKind::Courier, cost, self.record.lead_time));
            }
            let same_day = self
                .supplier
                .same_day
                .filter(|day| day.there_by > day.order_by);
            if let Some(cost) = same_day.and_then(|day| exchange.in_own_currency(day.cost?)) {
                ways.push(way(DeliveryKind::SameDay, cost, self.record.lead_time));
            }
        }
        for delivery in &mut ways {
            delivery.arrival = self.arrival_if_ordered(calendars, lead_times, delivery, shop.as_of);
        }
        ways
    }

    fn question(
        &self,
        quoted: Option<QuotedLeadTime>,
        kind: DeliveryKind,
        ordered_at: NaiveDateTime,
    ) -> LeadQuestion<'_> {
        LeadQuestion {
            supplier: &self.record.supplier,
            record: Some(self.supplier),
            part: self.part,
            quoted,
            is_hurried: kind == DeliveryKind::Hurried,
            ordered_at,
        }
    }

    /// From the counter: when it next is open, plus the hours of the way; who needs `there_h` hours to it and would come after
    /// it closes leaves when it opens again.
    fn by_counter(
        &self,
        calendars: &Calendars,
        ordered_at: NaiveDateTime,
        hours: f64,
        there_h: f64,
    ) -> Option<Arrival> {
        let calendar = calendars.of_supplier(Some(self.supplier));
        let placing = Placing::at_counter(calendars, self.supplier, there_h);
        let start = placing.starts(calendars, ordered_at)?;
        let clock = HourClock::Elapsed;
        let arrival = Arrival::of_hours(calendars, hours, start, clock, LeadBasis::FromCounter)?;
        let wait_days = calendar.seconds_between(ordered_at, start) as f64 / 86_400.0;
        Some(Arrival {
            mean_days: wait_days + arrival.mean_days,
            ..arrival
        })
    }
}

fn approved<'a>(
    shop: &'a Shop,
    name: &str,
    class: PartClass,
) -> Result<&'a SupplierRecord, WhyUnusable> {
    let unknown = || WhyUnusable::ApprovalUnknown {
        supplier: name.to_owned(),
    };
    let supplier = shop
        .suppliers
        .get(&supplier_key(name))
        .ok_or_else(unknown)?;
    match supplier.is_approved_for(class) {
        Some(true) => Ok(supplier),
        None => Err(unknown()),
        Some(false) => Err(WhyUnusable::NotApproved {
            supplier: name.to_owned(),
            class,
        }),
    }
}

const fn class_name(class: PartClass) -> &'static str {
    match class {
        PartClass::Bearings => "bearings",
        PartClass::Seals => "seals",
        PartClass::Fasteners => "fasteners",
        PartClass::Other => "parts that no standard covers",
    }
}

#[cfg(test)]
mod tests;
