//! Which offer to buy a quantity from: the cheapest that comes in time, else the fastest.

use std::collections::BTreeSet;
use std::fmt;

use chrono::{Days, NaiveDate, NaiveTime};

use super::lead_time::Arrival;
use super::lead_time::supplier_key;
use super::offer::{Delivery, DeliveryKind, UsableOffer};
use super::sourcing::Sourcing;
use super::supply::is_pair_or_set;
use crate::catalogue::PartId;
use crate::place::Place;
use crate::record::{QuotedLeadTime, SupplierRecord};
use crate::units::{Money, UnitOfCount};

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
    /// Quantity on the order, in `offer_unit`: a multiple of the pack and at least the minimum.
    pub ordered: f64,
    /// Unit of the offer.
    pub offer_unit: UnitOfCount,
    /// The same quantity in the unit that is wanted.
    pub gives: f64,
    /// Goods and surcharge, freight left out, in the shop's currency; `None` without a price.
    pub cost: Option<Money>,
    /// When it comes if ordered now.
    pub arrival: Arrival,
    /// Whether that is in time.
    pub timing: Timing,
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
}

/// Best and next best offer for a quantity of one of several parts.
///
/// In time and cheapest comes first (freight of suppliers not in `used` counted), then likely in time and cheapest,
/// then the fastest. Without a day only ordinary deliveries are looked at. Offers without a price come after those
/// with one. Offers that cover only part of the quantity come last.
///
/// # Errors
/// [`WhyNoChoice`] where there is none.
pub fn choose(
    sourcing: &Sourcing<'_>,
    parts: &[PartId],
    wanted: f64,
    unit: UnitOfCount,
    needed_by: Option<NaiveDate>,
    used: &BTreeSet<String>,
) -> Result<(OfferChoice, Option<OfferChoice>), WhyNoChoice> {
    let mut choices = Vec::new();
    let mut is_any_usable = false;
    for offer in parts.iter().flat_map(|part| sourcing.offers_of(*part)) {
        if offer.is_unit_assumed && is_pair_or_set(unit) {
            continue;
        }
        let Some(lot) = offer.lot_for(wanted, unit, 0.0) else {
            continue;
        };
        is_any_usable = true;
        let goods = offer.cost_of(lot.ordered, sourcing.exchange());
        for delivery in &offer.deliveries {
            let Some(arrival) = delivery.arrival else {
                continue;
            };
            if needed_by.is_none() && delivery.kind != DeliveryKind::Normal {
                continue;
            }
            choices.push(OfferChoice {
                part: offer.part,
                offer: offer.offer,
                supplier: offer.record.supplier.to_string(),
                place: offer.record.place.clone(),
                delivery: delivery.kind,
                ordered: lot.ordered,
                offer_unit: offer.unit,
                gives: lot.gives,
                cost: goods.map(|goods| Money {
                    cents: goods.cents + delivery.surcharge.cents,
                    currency: goods.currency,
                }),
                arrival,
                timing: timing(&arrival, needed_by),
                is_old_quote: offer.is_old,
            });
        }
    }
    choices.sort_by_key(|choice| rank(sourcing, choice, wanted, used));
    let mut choices = choices.into_iter();
    let best = choices.next().ok_or(if is_any_usable {
        WhyNoChoice::NoLeadTime
    } else {
        WhyNoChoice::NoUsableOffer
    })?;
    Ok((best, choices.next()))
}

/// Last day to order a choice so that even the late case comes by `needed_by`, today at the earliest.
///
/// Never after the last day of the quote; a promise "by" a date is taken to hold if ordered today.
pub fn latest_order_day(
    sourcing: &Sourcing<'_>,
    choice: &OfferChoice,
    needed_by: NaiveDate,
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
            .is_some_and(|arrival| arrival.late.date() <= needed_by)
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

/// Freight of one order to a supplier for goods of this value; `None` where the table does not say.
pub fn freight(
    sourcing: &Sourcing<'_>,
    supplier: &SupplierRecord,
    goods: Option<Money>,
) -> Option<Money> {
    let exchange = sourcing.exchange();
    let free_from = supplier
        .freight_free_from
        .and_then(|from| exchange.in_own_currency(from));
    let freight = exchange.in_own_currency(supplier.freight?)?;
    let is_free = goods
        .zip(free_from)
        .is_some_and(|(goods, from)| goods.cents >= from.cents);
    Some(Money {
        cents: if is_free { 0 } else { freight.cents },
        currency: freight.currency,
    })
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

fn timing(arrival: &Arrival, needed_by: Option<NaiveDate>) -> Timing {
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

fn rank(
    sourcing: &Sourcing<'_>,
    choice: &OfferChoice,
    wanted: f64,
    used: &BTreeSet<String>,
) -> Rank {
    let covers_part_only = choice.gives < wanted - 1e-9;
    let key = supplier_key(&choice.supplier);
    let supplier = sourcing.shop.suppliers.get(&key);
    let freight_cents = supplier
        .filter(|_| !used.contains(&key))
        .and_then(|supplier| freight(sourcing, supplier, choice.cost))
        .map_or(0, |freight| freight.cents);
    let cents = choice
        .cost
        .map_or(i64::MAX, |cost| cost.cents.saturating_add(freight_cents));
    let fastest = (choice.timing == Timing::TooLate).then_some(choice.arrival.likely);
    (
        covers_part_only,
        choice.timing,
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
        })
    }
}
