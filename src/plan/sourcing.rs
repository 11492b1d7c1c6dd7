//! Everything a part can come from, worked out once for the whole plan.

use std::collections::BTreeMap;

use chrono::{NaiveDate, NaiveDateTime, NaiveTime, TimeDelta};

use super::calendar::Calendars;
use super::exchange::Exchange;
use super::freight::Freights;
use super::issue::PlanIssue;
use super::late_hours::LateHours;
use super::lead_time::{Arrival, LeadTimes, ReceiptHistory, supplier_key};
use super::offer::{UnusableOffer, UsableOffer};
use super::open_order::{OpenOrder, open_orders};
use super::stock::FreeStock;
use crate::catalogue::{OfferOf, PartId, Shop};
use crate::parallel;
use crate::place::Place;

/// Stock, open orders and offers by part, with the calendars and receipts they were judged by.
#[derive(Debug)]
pub struct Sourcing<'a> {
    /// The shop.
    pub shop: &'a Shop,
    /// Its calendars.
    pub calendars: Calendars,
    /// Its receipts.
    pub history: ReceiptHistory,
    /// Free stock.
    pub stock: FreeStock,
    /// Open orders by part.
    pub orders: BTreeMap<PartId, Vec<OpenOrder>>,
    /// Offers that may be bought from, by part.
    pub offers: BTreeMap<PartId, Vec<UsableOffer<'a>>>,
    /// Offers that may not, and why.
    pub unusable: Vec<UnusableOffer>,
    /// Freight by supplier.
    pub freights: Freights,
    /// Factor of the lead times by the key of the supplier's name, where they are taken as others than the tables say.
    pub lead_factors: BTreeMap<String, f64>,
    /// How long planned rebuilds wait for what comes late.
    pub late_hours: LateHours,
}

/// The last second of a day.
pub fn end_of(day: NaiveDate) -> NaiveDateTime {
    day.and_time(NaiveTime::MIN) + TimeDelta::days(1) - TimeDelta::seconds(1)
}

/// Costs of suppliers and of ways other than buying in a currency without a rate: nothing stands in for them unsaid.
fn without_rate(shop: &Shop) -> Vec<PlanIssue> {
    let exchange = Exchange::new(&shop.settings);
    let mut issues = Vec::new();
    for supplier in shop.suppliers.values() {
        let same_day = supplier.same_day.and_then(|day| day.cost);
        let amounts = [
            supplier.freight,
            supplier.freight_free_from,
            supplier.courier_cost,
            same_day,
        ];
        issues.extend(exchange.missing(&supplier.place, amounts));
    }
    let of_lines = shop.kits.iter().flat_map(|kit| &kit.lines);
    let ways = of_lines.flat_map(|line| &line.other_ways);
    for way in ways.chain(shop.other_ways.iter().map(|(_, way)| way)) {
        for issue in exchange.missing(&way.place, [way.cost]) {
            // A way of a line that stands twice is one row.
            if !issues.contains(&issue) {
                issues.push(issue);
            }
        }
    }
    issues
}

impl<'a> Sourcing<'a> {
    /// Judges every row; what is wrong with rows is added to `issues`.
    pub fn new(shop: &'a Shop, issues: &mut Vec<PlanIssue>) -> Self {
        let calendars = Calendars::new(&shop.settings);
        issues.extend(calendars.receiving_closed(&shop.settings));
        for supplier in shop.suppliers.values() {
            if let Some(name) = &supplier.calendar
                && !calendars.is_defined(name)
            {
                issues.push(PlanIssue::NoSuchCalendar {
                    place: supplier.place.clone(),
                    name: name.clone(),
                });
            }
            if let Some(day) = supplier.same_day.filter(|day| day.there_by <= day.order_by) {
                issues.push(PlanIssue::SameDayBackwards {
                    place: supplier.place.clone(),
                    order_by: day.order_by,
                    there_by: day.there_by,
                });
            }
        }
        issues.extend(without_rate(shop));
        let history = ReceiptHistory::new(shop, &calendars, issues);
        let stock = FreeStock::new(shop, issues);
        let lead_times = LeadTimes::new(&calendars, &history);
        let orders = open_orders(shop, &lead_times, &stock, issues);
        let mut offers: BTreeMap<PartId, Vec<UsableOffer<'a>>> = BTreeMap::new();
        let mut unusable = Vec::new();
        let rows: Vec<(usize, &'a OfferOf)> = shop.offers.iter().enumerate().collect();
        let judged = parallel::each(&rows, |(position, offer)| {
            UsableOffer::judge(shop, &calendars, &lead_times, *position, offer)
        });
        for ((position, offer), judged) in rows.into_iter().zip(judged) {
            match judged {
                Ok(usable) => {
                    issues.extend(usable.quoted_zero());
                    issues.extend(usable.quoted_in_the_future());
                    issues.extend(usable.hurried_unpriced(shop));
                    offers.entry(offer.part).or_default().push(usable);
                }
                Err(why) => unusable.push(UnusableOffer {
                    offer: position,
                    part: offer.part,
                    place: offer.record.place.clone(),
                    why,
                }),
            }
        }
        // Most parts have one or two, and there may be a hundred thousand lists.
        for of_part in offers.values_mut() {
            of_part.shrink_to_fit();
        }
        Self {
            shop,
            calendars,
            history,
            stock,
            orders,
            offers,
            unusable,
            freights: Freights::new(shop),
            lead_factors: BTreeMap::new(),
            late_hours: LateHours::default(),
        }
    }

    /// The estimator of lead times.
    pub const fn lead_times(&self) -> LeadTimes<'_> {
        LeadTimes::new(&self.calendars, &self.history)
    }

    /// An arrival from a supplier as by its tables, with the factor of its lead times.
    pub fn as_taken(&self, supplier: &str, arrival: Arrival) -> Option<Arrival> {
        if self.lead_factors.is_empty() {
            return Some(arrival);
        }
        let Some(factor) = self.lead_factors.get(&supplier_key(supplier)) else {
            return Some(arrival);
        };
        let course = arrival.course.times(*factor);
        Arrival::by_course(&self.calendars, course, self.shop.as_of, arrival.basis)
    }

    /// Money in the shop's currency.
    pub const fn exchange(&self) -> Exchange<'a> {
        Exchange::new(&self.shop.settings)
    }

    /// The open order of a part that stands in a row.
    pub fn open_order(&self, part: PartId, place: &Place) -> Option<&OpenOrder> {
        let mut orders = self.orders.get(&part)?.iter();
        orders.find(|order| order.place == *place)
    }

    /// The moment by which goods for a rebuild must be there: the end of the day they are needed by, where that is before the
    /// rebuild's, else the hour at which work begins on it.
    pub fn due(&self, needed_by: NaiveDate, rebuilt_on: NaiveDate) -> NaiveDateTime {
        let ends = end_of(needed_by);
        if needed_by < rebuilt_on {
            return ends;
        }
        let begins = rebuilt_on.and_time(NaiveTime::MIN);
        let at_work = self.calendars.maintenance();
        let open = at_work.open_between(begins, ends);
        open.first().map_or(ends, |(from, _)| *from)
    }

    /// Offers of a part that may be bought from.
    pub fn offers_of(&self, part: PartId) -> &[UsableOffer<'a>] {
        self.offers.get(&part).map_or(&[], Vec::as_slice)
    }
}
