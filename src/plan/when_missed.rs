//! What a planned rebuild would do without a line that nobody ordered before its day: buy it then, from whoever ends the
//! wait at the least cost.
//!
//! Goods ordered on that day come by that day's calendars: a closure of today is over by then.

use chrono::NaiveTime;

use super::choice::OfferChoice;
use super::late_hours::WaitsFrom;
use super::lead_time::Arrival;
use super::offer::{Delivery, UsableOffer};
use super::order_line::{ReorderLine, ReorderReason};
use super::rebuild_need::RebuildNeed;
use super::sourcing::Sourcing;
use super::tolerance::TOLERANCE;
use crate::catalogue::PartId;
use crate::record::QuotedLeadTime;
use crate::units::{Money, UnitOfCount};

/// What would be ordered on the day of a rebuild.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WhenMissed {
    /// When that is there.
    pub arrival: Arrival,
    /// What it costs more than what is ordered now, 0 where it costs less; `None` where a price is not known.
    pub dearer_by: Option<Money>,
}

/// One way to have it on the day.
struct OnTheDay<'s, 'a> {
    offer: &'s UsableOffer<'a>,
    delivery: &'s Delivery,
    arrival: Arrival,
    cents: Option<i64>,
}

/// Tells each line for a rebuild what would be ordered on its day.
pub fn tell_missed(sourcing: &Sourcing<'_>, needs: &[RebuildNeed], lines: &mut [ReorderLine]) {
    for line in lines {
        let (unit, buy) = (line.unit, &line.buy);
        for members in line.by_stop().into_values() {
            // Who missed several lines of one rebuild orders them together.
            let wanted = members.iter().map(|at| line.needs[*at].wanted).sum();
            let ReorderReason::Rebuild { need, .. } = line.needs[members[0]].reason else {
                continue;
            };
            let in_all = |part: &PartId| {
                let mut all = members.iter().map(|at| &line.needs[*at]);
                all.all(|need| need.accepted.contains(part))
            };
            let missed = needs.get(need).and_then(|need| {
                let accepted = need.accepted.iter().copied();
                let parts: Vec<PartId> = accepted.filter(in_all).collect();
                when_missed(sourcing, need, (&parts, wanted), (unit, buy))
            });
            for at in members {
                line.needs[at].missed = missed;
            }
        }
    }
}

/// The best that can be ordered on the day; from the supplier of the line where what an hour or an offer costs is not known.
fn when_missed(
    sourcing: &Sourcing<'_>,
    need: &RebuildNeed,
    of: (&[PartId], f64),
    (unit, buy): (UnitOfCount, &OfferChoice),
) -> Option<WhenMissed> {
    let found = on_the_day(sourcing, need, of, unit);
    let is_own =
        |way: &&OnTheDay<'_, '_>| way.offer.offer == buy.offer && way.delivery.kind == buy.delivery;
    let own = found.iter().find(is_own);
    let is_priced = found.iter().all(|way| way.cents.is_some());
    let waits = need.hour.filter(|_| is_priced).map(|hour| WaitsFrom {
        needed_by: need.date,
        hour,
        stop: need.stop,
    });
    let best = match waits {
        None => own?,
        Some(waits) => found.iter().min_by_key(|way| {
            let hours = sourcing
                .late_hours
                .of(&sourcing.calendars, &way.arrival, waits.needed_by);
            let waiting = (hours * waits.hour.cents as f64).round() as i64;
            let cents = way
                .cents
                .map_or(i64::MAX, |paid| paid.saturating_add(waiting));
            (cents, way.arrival.likely, way.offer.offer)
        })?,
    };
    let more = best.cents.zip(own.and_then(|own| own.cents));
    Some(WhenMissed {
        arrival: best.arrival,
        dearer_by: more.map(|(then, now)| Money {
            cents: (then - now).max(0),
            currency: sourcing.shop.settings.currency,
        }),
    })
}

/// Every offer and delivery that gives all of it if ordered first thing on the day of the rebuild.
fn on_the_day<'s, 'a>(
    sourcing: &'s Sourcing<'a>,
    need: &RebuildNeed,
    (parts, wanted): (&[PartId], f64),
    unit: UnitOfCount,
) -> Vec<OnTheDay<'s, 'a>> {
    let (exchange, lead_times) = (sourcing.exchange(), sourcing.lead_times());
    let morning = need.date.and_time(NaiveTime::MIN);
    let mut found = Vec::new();
    for offer in parts.iter().flat_map(|part| sourcing.offers_of(*part)) {
        let lot = offer.cheapest_lot(wanted, unit, 0.0, exchange);
        let Some(lot) = lot.filter(|lot| lot.gives >= wanted - TOLERANCE) else {
            continue;
        };
        let goods = offer.cost_of(lot.ordered, exchange);
        for delivery in &offer.deliveries {
            // A promise "by" a date holds for an order of today.
            if matches!(delivery.quoted, Some(QuotedLeadTime::By(_))) {
                continue;
            }
            let calendars = &sourcing.calendars;
            let arrival = offer
                .arrival_if_ordered(calendars, &lead_times, delivery, morning)
                .and_then(|arrival| sourcing.as_taken(&offer.record.supplier, arrival));
            found.extend(arrival.map(|arrival| OnTheDay {
                offer,
                delivery,
                arrival,
                cents: goods.map(|goods| goods.cents.saturating_add(delivery.surcharge.cents)),
            }));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::order_worth::{OrderWorth, order_worths};
    use crate::plan::sample::{Sample, at, day, euros};
    use crate::plan::{DeliveryKind, Plan};
    use crate::record::{Expedite, LeadUnit};

    fn worth(sample: &Sample, plan: &Plan) -> OrderWorth {
        let line = &plan.reorder.lines[0];
        order_worths(&sample.built(), plan, &[line])[0].unwrap()
    }

    /// A rebuild on a day of a part from North, an hour down at 100.00.
    fn rebuild(quoted: QuotedLeadTime, date: &str) -> Sample {
        let mut sample = Sample::new("");
        sample.supplier("North", |_| {});
        sample.machine("M1", Some(100.0), None);
        let part = sample.part("A");
        sample.offer(part, "North", Some(quoted), |_| {});
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        sample.planned(date);
        sample
    }

    #[test]
    fn a_closure_of_today_is_over_on_the_day_of_the_rebuild() {
        // Closed from Christmas Eve to New Year: from stock it comes on Monday 4 January. Missed on Monday 18 January it is
        // there on Tuesday, in the late case on Wednesday: a day or two of eight hours, and not two weeks. By hand.
        let mut sample = rebuild(QuotedLeadTime::InStock, "2027-01-18");
        for calendar in sample.shop.settings.calendars.values_mut() {
            let closed = day("2026-12-24").iter_days();
            calendar.holidays = closed.take_while(|of| *of <= day("2027-01-01")).collect();
        }
        sample.shop.as_of = at("2026-12-23T13:00");
        let plan = sample.plan();
        let line = &plan.reorder.lines[0];
        let missed = line.needs[0].missed.unwrap();
        assert_eq!(missed.arrival.likely.date(), day("2027-01-19"));
        assert_eq!(missed.dearer_by, Some(euros(0.0)));
        let saved = worth(&sample, &plan);
        assert!((8.0..32.0).contains(&saved.waiting_h), "{saved:?}");
        let cost = saved.saves.unwrap().to_units();
        assert!((cost - 100.0 * saved.waiting_h).abs() < 0.01, "{saved:?}");
    }

    #[test]
    fn who_missed_it_would_hurry_it() {
        // Twenty working days, or two for 25.00 more: nobody would wait the weeks.
        let twenty = QuotedLeadTime::exactly(20.0, LeadUnit::Workdays);
        let mut sample = rebuild(twenty, "2026-09-16");
        let slow = worth(&sample, &sample.plan());
        assert!(slow.waiting_h > 100.0, "{slow:?}");
        sample.shop.offers[0].record.expedite = vec![Expedite {
            lead_time: QuotedLeadTime::exactly(2.0, LeadUnit::Workdays),
            surcharge: Some(euros(25.0)),
        }];
        let plan = sample.plan();
        let line = &plan.reorder.lines[0];
        assert_eq!(line.buy.delivery, DeliveryKind::Normal);
        assert_eq!(line.needs[0].missed.unwrap().dearer_by, Some(euros(25.0)));
        let hurried = worth(&sample, &plan);
        assert!((8.0..40.0).contains(&hurried.waiting_h), "{hurried:?}");
        // The hours at 100.00 each, and what hurrying costs.
        let by_hand = 100.0f64.mul_add(hurried.waiting_h, 25.0);
        let saves = hurried.saves.unwrap().to_units();
        assert!((saves - by_hand).abs() < 0.01, "{hurried:?}");
    }
}
