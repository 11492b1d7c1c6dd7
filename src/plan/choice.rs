//! Which offer to buy a quantity from: the one of least expected cost, or, for a rebuild whose waiting has no price, the
//! cheapest that comes in time, else the fastest.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use chrono::{Days, NaiveDate, NaiveDateTime, NaiveTime};

use super::freight::Carriage;
use super::late_hours::WaitsFrom;
use super::lead_time::Arrival;
use super::lead_time::supplier_key;
use super::offer::{Delivery, DeliveryKind, OrderLot, UsableOffer};
use super::order_waiting::Waiting;
use super::sourcing::{Sourcing, end_of};
use super::supply::is_pair_or_set;
use crate::catalogue::PartId;
use crate::place::Place;
use crate::record::QuotedLeadTime;
use crate::units::{Money, Price, UnitOfCount};

/// Time of day of an order on a future day, where the supplier has no cut-off: noon.
const ORDER_HOUR: u32 = 12;

/// Whether goods come in time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Timing {
    /// Even in the late case, or nothing is dated.
    InTime,
    /// In the likely case, but not in the late one.
    LikelyInTime,
    /// Too late.
    TooLate,
}

/// An offer and delivery for a quantity.
#[derive(Debug, Clone, PartialEq)]
pub struct OfferChoice {
    /// The part that is bought.
    pub part: PartId,
    /// Position in [`Shop::offers`](crate::catalogue::Shop::offers).
    pub offer: usize,
    /// Supplier as printed.
    pub supplier: String,
    /// The row.
    pub place: Place,
    /// How it comes.
    pub delivery: DeliveryKind,
    /// Quantity on the order, in `offer_unit`: a multiple of the pack and at least the minimum, or more where a price
    /// break makes that cheaper in total.
    pub ordered: f64,
    /// Unit of the offer.
    pub offer_unit: UnitOfCount,
    /// The same quantity in the unit that is wanted.
    pub gives: f64,
    /// Goods and surcharge, freight and runs left out, in the shop's currency; `None` without a price.
    pub cost: Option<Money>,
    /// The offer's price at this quantity, in the shop's currency.
    pub price: Option<Price>,
    /// Surcharge for hurrying that is part of the cost.
    pub surcharge: Money,
    /// Freight that this order would add, known or assumed, or its run, as far as nothing ordered before pays it.
    pub freight: Money,
    /// What machines that wait until it comes count: of a stock level by the rule of the levels, of dated needs what they
    /// wait on the average after their day; `None` where nobody knows it.
    pub waiting: Option<Money>,
    /// When it comes if ordered now.
    pub arrival: Arrival,
    /// Whether that is in time.
    pub timing: Timing,
    /// True where a quicker one could be had, which costs more than the waiting that it saves; without a day and where nobody
    /// says what waiting costs, one that costs more.
    pub is_quicker_dearer: bool,
    /// True where the quote is older than the settings allow.
    pub is_old_quote: bool,
}

/// Why nothing can be chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WhyNoChoice {
    /// The line names no part that a table knows.
    NoPart,
    /// No offer that may be bought from in this unit and quantity.
    NoUsableOffer,
    /// Offers, but none says when the part would come.
    NoLeadTime,
    /// The offers together have fewer than are wanted.
    NotEnough,
    /// Nothing comes before the last machine that uses it leaves service.
    AfterService,
    /// It comes so shortly before that day that it saves less than it costs.
    SavesTooLittle,
}

impl OfferChoice {
    /// What is paid for it to come if it is ordered on a day; `None` for what is fetched.
    pub fn carriage(&self, ordered_on: NaiveDate) -> Option<Carriage> {
        Carriage::of(supplier_key(&self.supplier), self.delivery, ordered_on)
    }
}

/// What an offer is looked for.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'w> {
    /// Parts that do, the one asked for first.
    pub parts: &'w [PartId],
    /// Quantity, in `unit`.
    pub quantity: f64,
    /// What is counted.
    pub unit: UnitOfCount,
    /// Day by which it must be there; `None` where nothing is dated.
    pub needed_by: Option<NaiveDate>,
    /// What waiting for it counts where nothing is dated; `None` where nobody knows.
    pub waiting: Option<Waiting<'w>>,
    /// Last day on which it is of use; `None` where it always is.
    pub until: Option<NaiveDate>,
    /// Dated needs that wait for it; empty where nobody knows what an hour of one of them costs.
    pub waits: &'w [WaitsFrom],
}

/// What the lines before one order already.
#[derive(Debug, Clone, Default)]
pub struct OrderedBefore {
    /// Freights and runs that they pay.
    pub carriages: BTreeSet<Carriage>,
    /// Quantity by offer, in its unit.
    pub by_offer: BTreeMap<usize, f64>,
}

impl OrderedBefore {
    /// Books a choice, with the day on which its order goes out; `None` where it does not go out for sure.
    pub fn book(&mut self, choice: &OfferChoice, ordered_on: Option<NaiveDate>) {
        *self.by_offer.entry(choice.offer).or_default() += choice.ordered;
        let paid = ordered_on.and_then(|day| choice.carriage(day));
        self.carriages.extend(paid);
    }

    /// Gives back what a choice was booked for.
    pub fn release(&mut self, choice: &OfferChoice) {
        if let Some(ordered) = self.by_offer.get_mut(&choice.offer) {
            *ordered -= choice.ordered;
        }
    }
}

/// Every offer and delivery for a quantity, the best first.
///
/// The cheapest comes first, with freight and runs that `before` does not pay (an assumed freight where none is known) and
/// with what machines wait for: for a dated need the mean hours after its day, unless even the late case is in time. Where nobody knows what an hour of a dated
/// need costs, or an offer has no price, in time and cheapest comes first, then likely in time and cheapest, then the
/// fastest. Without a day only ordinary deliveries are looked at.
/// Offers without a price come after those with one. Offers that cover only part of the quantity come last. What is likely
/// there only after the last day on which it is of use is none.
///
/// # Errors
/// [`WhyNoChoice`] where there is none.
pub fn choices(
    sourcing: &Sourcing<'_>,
    wanted: Wanted<'_>,
    before: &OrderedBefore,
) -> Result<Vec<OfferChoice>, WhyNoChoice> {
    let mut choices = Vec::new();
    let (mut is_any_usable, mut is_any_too_late) = (false, false);
    let of_parts = wanted.parts.iter();
    for offer in of_parts.flat_map(|part| sourcing.offers_of(*part)) {
        if offer.is_unit_assumed && is_pair_or_set(wanted.unit) {
            continue;
        }
        let taken = before.by_offer.get(&offer.offer).copied().unwrap_or(0.0);
        let exchange = sourcing.exchange();
        let lot = offer.cheapest_lot(wanted.quantity, wanted.unit, taken, exchange);
        let Some(lot) = lot else {
            continue;
        };
        is_any_usable = true;
        for delivery in &offer.deliveries {
            let is_looked_at = wanted.needed_by.is_some() || delivery.kind == DeliveryKind::Normal;
            if let Some(arrival) = delivery.arrival.filter(|_| is_looked_at) {
                let likely = arrival.likely.date();
                if wanted.until.is_some_and(|until| likely > until) {
                    is_any_too_late = true;
                    continue;
                }
                let timing = timing(&arrival, wanted.needed_by);
                let waiting = waiting_cents(sourcing, &wanted, &arrival);
                let choice = choice(sourcing, offer, delivery, lot, (arrival, timing));
                // Only a run asks for its day: what is sent on other days is taken to go with one consignment.
                let is_later = choice.delivery.is_one_run() && timing == Timing::InTime;
                let day = wanted.needed_by.filter(|_| is_later);
                let day = day.map_or(sourcing.shop.as_of.date(), |by| {
                    latest_order_day(sourcing, &choice, (by, end_of(by)))
                });
                choices.push(OfferChoice {
                    freight: freight(sourcing, &choice, day, before),
                    waiting: waiting.map(|cents| Money {
                        cents,
                        currency: sourcing.shop.settings.currency,
                    }),
                    ..choice
                });
            }
        }
    }
    if choices.is_empty() {
        return Err(match (is_any_too_late, is_any_usable) {
            (true, _) => WhyNoChoice::AfterService,
            (false, true) => WhyNoChoice::NoLeadTime,
            (false, false) => WhyNoChoice::NoUsableOffer,
        });
    }
    let is_weighed = choices
        .iter()
        .all(|of| of.waiting.is_some() && of.cost.is_some());
    choices.sort_by_cached_key(|choice| rank(choice, wanted.quantity, is_weighed));
    if is_weighed || wanted.needed_by.is_none() {
        tell_quicker(&mut choices, wanted.quantity);
    }
    Ok(choices)
}

/// Tells each of some choices by what they cost, the best first, whether a quicker one after it brings all as well.
fn tell_quicker(choices: &mut [OfferChoice], wanted: f64) {
    let mut quickest: Option<NaiveDate> = None;
    for choice in choices.iter_mut().rev() {
        let likely = choice.arrival.likely.date();
        choice.is_quicker_dearer = quickest.is_some_and(|day| day < likely);
        if choice.gives >= wanted - 1e-9 {
            quickest = Some(quickest.map_or(likely, |day| day.min(likely)));
        }
    }
}

/// What machines wait for until goods come, in hundredths of the shop's currency; `None` where nobody knows.
fn waiting_cents(sourcing: &Sourcing<'_>, wanted: &Wanted<'_>, arrival: &Arrival) -> Option<i64> {
    if wanted.needed_by.is_none() {
        return wanted.waiting.map(|of| of.cents(arrival.mean_days));
    }
    let is_known = !wanted.waits.is_empty();
    is_known.then(|| {
        let (known, calendars) = (&sourcing.late_hours, &sourcing.calendars);
        known.cents(calendars, arrival, wanted.waits)
    })
}

fn choice(
    sourcing: &Sourcing<'_>,
    offer: &UsableOffer<'_>,
    delivery: &Delivery,
    lot: OrderLot,
    (arrival, timing): (Arrival, Timing),
) -> OfferChoice {
    let goods = offer.cost_of(lot.ordered, sourcing.exchange());
    let surcharge = Money {
        cents: match delivery.kind.is_one_run() {
            true => 0,
            false => delivery.surcharge.cents,
        },
        currency: sourcing.shop.settings.currency,
    };
    OfferChoice {
        part: offer.part,
        offer: offer.offer,
        supplier: offer.record.supplier.to_string(),
        place: offer.record.place.clone(),
        delivery: delivery.kind,
        ordered: lot.ordered,
        offer_unit: offer.unit,
        gives: lot.gives,
        cost: goods.map(|goods| Money {
            cents: goods.cents + surcharge.cents,
            currency: goods.currency,
        }),
        price: offer
            .price_at(lot.ordered)
            .and_then(|price| sourcing.exchange().price_in_own_currency(price)),
        surcharge,
        freight: Money {
            cents: 0,
            currency: sourcing.shop.settings.currency,
        },
        waiting: None,
        arrival,
        timing,
        is_quicker_dearer: false,
        is_old_quote: offer.is_old,
    }
}

/// Last day to order a choice so that even the late case comes by `due`, a moment of the day it is needed by; today at the
/// earliest.
///
/// Never after the last day of the quote; a promise "by" a date is taken to hold if ordered today.
pub fn latest_order_day(
    sourcing: &Sourcing<'_>,
    choice: &OfferChoice,
    (needed_by, due): (NaiveDate, NaiveDateTime),
) -> NaiveDate {
    let today = sourcing.shop.as_of.date();
    let found = find_offer(sourcing, choice);
    let Some((offer, delivery)) = found else {
        return today;
    };
    if matches!(delivery.quoted, Some(QuotedLeadTime::By(_))) {
        return today;
    }
    let ends = offer.record.valid_until.unwrap_or(needed_by).min(needed_by);
    let noon = NaiveTime::from_hms_opt(ORDER_HOUR, 0, 0).unwrap_or_default();
    let time = offer.supplier.order_cutoff.unwrap_or(noon);
    let lead_times = sourcing.lead_times();
    let is_in_time = |day: NaiveDate| {
        offer
            .arrival_if_ordered(
                &sourcing.calendars,
                &lead_times,
                delivery,
                day.and_time(time),
            )
            .and_then(|arrival| sourcing.as_taken(&offer.record.supplier, arrival))
            .is_some_and(|arrival| arrival.late <= due)
    };
    let calendar = sourcing.calendars.of_supplier(Some(offer.supplier));
    let mut day = ends;
    while day > today {
        if calendar.is_working_day(day) && is_in_time(day) {
            return day;
        }
        let Some(before) = day.checked_sub_days(Days::new(1)) else {
            break;
        };
        day = before;
    }
    today
}

fn find_offer<'s, 'a>(
    sourcing: &'s Sourcing<'a>,
    choice: &OfferChoice,
) -> Option<(&'s UsableOffer<'a>, &'s Delivery)> {
    let offer = sourcing
        .offers_of(choice.part)
        .iter()
        .find(|offer| offer.offer == choice.offer)?;
    let delivery = offer
        .deliveries
        .iter()
        .find(|delivery| delivery.kind == choice.delivery)?;
    Some((offer, delivery))
}

/// Whether an arrival is in time for a day; always where nothing is dated.
pub fn timing(arrival: &Arrival, needed_by: Option<NaiveDate>) -> Timing {
    match needed_by {
        None => Timing::InTime,
        Some(by) if arrival.late.date() <= by => Timing::InTime,
        Some(by) if arrival.likely.date() <= by => Timing::LikelyInTime,
        Some(_) => Timing::TooLate,
    }
}

/// Smaller is better.
type Rank = (
    bool,
    Timing,
    Option<chrono::NaiveDateTime>,
    i64,
    chrono::NaiveDateTime,
    usize,
);

/// Freight or run that a choice adds, if it is ordered on a day; without a price its goods reach no value from which freight
/// is free.
pub fn freight(
    sourcing: &Sourcing<'_>,
    choice: &OfferChoice,
    ordered_on: NaiveDate,
    before: &OrderedBefore,
) -> Money {
    let paid = choice.carriage(ordered_on);
    let cents = match paid.filter(|paid| !before.carriages.contains(paid)) {
        None => 0,
        Some(paid) => {
            let freight = sourcing.freights.of_carriage(&paid);
            choice
                .cost
                .map_or(freight.cents, |goods| freight.of(goods.cents))
        }
    };
    Money {
        cents,
        currency: sourcing.shop.settings.currency,
    }
}

/// `is_weighed` where what all choices cost and let wait is known, so that being late is a cost among others.
fn rank(choice: &OfferChoice, wanted: f64, is_weighed: bool) -> Rank {
    let covers_part_only = choice.gives < wanted - 1e-9;
    let waiting_cents = choice.waiting.map_or(0, |waiting| waiting.cents);
    let cents = choice.cost.map_or(i64::MAX, |cost| {
        let paid = cost.cents.saturating_add(choice.freight.cents);
        paid.saturating_add(waiting_cents)
    });
    let timing = match is_weighed {
        true => Timing::InTime,
        false => choice.timing,
    };
    let fastest = (timing == Timing::TooLate).then_some(choice.arrival.likely);
    (
        covers_part_only,
        timing,
        fastest,
        cents,
        choice.arrival.likely,
        choice.offer,
    )
}

impl fmt::Display for Timing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::InTime => "in time",
            Self::LikelyInTime => "likely in time, not in the late case",
            Self::TooLate => "too late",
        })
    }
}

impl fmt::Display for WhyNoChoice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoPart => "the line names no part that another table knows",
            Self::NoUsableOffer => "no usable offer",
            Self::NoLeadTime => "no lead time: no usable offer says when the part would come",
            Self::NotEnough => "the offers together have fewer than are wanted",
            Self::AfterService => {
                "a last buy that would come after its last machine has left service"
            }
            Self::SavesTooLittle => {
                "a last buy that would come so shortly before its last machine leaves service that it saves less than it costs"
            }
        })
    }
}
