//! Ways other than buying: when they give a part, how much of it, what robbing costs, and what they must not bring.

use chrono::{Days, NaiveDate, NaiveDateTime, NaiveTime};

use super::calendar::WorkCalendar;
use super::lead_time::{Arrival, HourClock, LeadBasis, supplier_key};
use super::sourcing::Sourcing;
use crate::catalogue::{KitLineOf, NameKey, PartId, Shop};
use crate::part::{Family, PartClass};
use crate::record::{OtherWay, OtherWayKind};
use crate::units::Money;

/// Ways of a kit line, then those of the parts accepted on it.
pub fn ways_of<'s>(shop: &'s Shop, line: &'s KitLineOf, accepted: &[PartId]) -> Vec<&'s OtherWay> {
    let of_parts = shop.other_ways.iter();
    let of_parts = of_parts.filter(|(part, _)| accepted.contains(part));
    let mut ways: Vec<&OtherWay> = line.other_ways.iter().collect();
    for (_, way) in of_parts {
        if !ways.iter().any(|known| known.place == way.place) {
            ways.push(way);
        }
    }
    ways
}

/// What robbing a machine costs besides the work.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DonorCost {
    /// The part that replaces what is taken, with the freight of its supplier, known or assumed.
    pub replacement: Money,
    /// Mean cost of the hours that the donor stands until the replacement is fitted.
    pub downtime: Money,
}

/// What robbing a machine costs besides the work: it stands until the part is replaced, and the replacement is bought.
///
/// The fastest priced offer of an accepted part replaces it, and refitting takes as long as taking it out. `None` where
/// the donor is in no machines table, has no downtime cost, or nothing priced replaces the part.
pub fn donor_cost(
    sourcing: &Sourcing<'_>,
    way: &OtherWay,
    accepted: &[PartId],
) -> Option<DonorCost> {
    let exchange = sourcing.exchange();
    let from = NameKey::new(way.from.as_ref()?);
    // "Press 3 no. 2" is a machine of the row "Press 3".
    let machine = sourcing
        .shop
        .machines
        .iter()
        .filter(|(name, _)| from.as_str().starts_with(name.as_str()))
        .max_by_key(|(name, _)| name.len())?
        .1;
    let hourly = exchange.in_own_currency(machine.downtime_cost_per_hour?)?;
    let (paid, arrival) = accepted
        .iter()
        .flat_map(|part| sourcing.offers_of(*part))
        .filter_map(|offer| {
            let lot = offer.lot_for(way.quantity?, offer.unit, 0.0)?;
            let goods = offer.cost_of(lot.ordered, exchange)?.cents;
            let arrival = offer.deliveries.first()?.arrival?;
            let supplier = supplier_key(&offer.record.supplier);
            let freight = sourcing.freights.to_choose_by(&supplier).of(goods);
            Some((goods + freight, arrival))
        })
        .min_by_key(|(paid, arrival)| (arrival.likely, *paid))?;
    let lost_h = mean_stand_h(sourcing, &arrival, way.hours?)?;
    Some(DonorCost {
        replacement: Money {
            cents: paid,
            currency: hourly.currency,
        },
        downtime: Money {
            cents: (hourly.cents as f64 * lost_h).round() as i64,
            currency: hourly.currency,
        },
    })
}

/// Mean production hours until a part that is still to come is fitted again.
fn mean_stand_h(sourcing: &Sourcing<'_>, arrival: &Arrival, work_h: f64) -> Option<f64> {
    let (calendars, now) = (&sourcing.calendars, sourcing.shop.as_of);
    let (mut mean, mut reached, mut last) = (0.0, 0.0, 0.0);
    for (here, share) in arrival.distribution(calendars).moments() {
        let up = calendars.maintenance().after(*here, work_h)?;
        last = calendars.production().hours_between(now, up);
        mean += (share - reached) * last;
        reached = *share;
    }
    Some(mean + (1.0 - reached) * last)
}

/// How much a way gives of what is left; making and reworking is not limited unless the row says so.
pub fn way_quantity(way: &OtherWay, left: f64, taken: f64) -> Option<f64> {
    match (way.quantity, way.kind) {
        (Some(quantity), _) => Some((quantity - taken).clamp(0.0, left)).filter(|q| *q > 0.0),
        (
            None,
            OtherWayKind::MakeInHouse | OtherWayKind::ReworkInHouse | OtherWayKind::RepairOutside,
        ) => Some(left),
        (None, OtherWayKind::OtherBin | OtherWayKind::OtherMachine) => None,
    }
}

/// When a way other than buying gives the part if it is begun now; `None` where hours or a needed approval are missing.
///
/// Own work and robbing a machine count hours of the maintenance shift, repair outside counts hours in which
/// suppliers work and is received like goods, another bin counts hours on the clock.
pub fn way_arrival(
    sourcing: &Sourcing<'_>,
    way: &OtherWay,
    is_unknown_part: bool,
) -> Option<Arrival> {
    way_arrival_from(sourcing, way, is_unknown_part, sourcing.shop.as_of)
}

/// As [`way_arrival`], begun at another moment.
fn way_arrival_from(
    sourcing: &Sourcing<'_>,
    way: &OtherWay,
    is_unknown_part: bool,
    begun: NaiveDateTime,
) -> Option<Arrival> {
    if !is_way_allowed(way, is_unknown_part) {
        return None;
    }
    let hours = way.hours.filter(|hours| *hours >= 0.0)?;
    let calendars = &sourcing.calendars;
    let clock = match way.kind {
        OtherWayKind::MakeInHouse | OtherWayKind::ReworkInHouse | OtherWayKind::OtherMachine => {
            HourClock::Maintenance
        }
        OtherWayKind::RepairOutside => HourClock::Supplier(calendars.id_of_supplier(None)),
        OtherWayKind::OtherBin => HourClock::Elapsed,
    };
    Arrival::of_hours(calendars, hours, begun, clock, LeadBasis::WorkEstimate)
}

/// Last day to begin a way so that even the late case is there by `due`, a moment of the day it is needed by, today at the
/// earliest: a day on which those work who begin it.
pub fn last_day_to_begin(
    sourcing: &Sourcing<'_>,
    way: &OtherWay,
    is_unknown_part: bool,
    (needed_by, due): (NaiveDate, NaiveDateTime),
) -> NaiveDate {
    let today = sourcing.shop.as_of.date();
    let calendars = &sourcing.calendars;
    let at_work: &WorkCalendar = match way.kind {
        OtherWayKind::RepairOutside => calendars.of_supplier(None),
        OtherWayKind::MakeInHouse
        | OtherWayKind::ReworkInHouse
        | OtherWayKind::OtherMachine
        | OtherWayKind::OtherBin => calendars.maintenance(),
    };
    let is_in_time = |day: NaiveDate| {
        way_arrival_from(sourcing, way, is_unknown_part, day.and_time(NaiveTime::MIN))
            .is_some_and(|arrival| arrival.late <= due)
    };
    let mut day = needed_by;
    while day > today {
        if at_work.is_working_day(day) && is_in_time(day) {
            return day;
        }
        let Some(before) = day.checked_sub_days(Days::new(1)) else {
            break;
        };
        day = before;
    }
    today
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

/// Words of tab washers, which are never fitted twice, in the languages of the tables.
const TAB_WASHERS: [&str; 9] = [
    "tab washer",
    "lock washer",
    "sicherungsblech",
    "frein d'écrou",
    "rondelle frein",
    "arandela de retención",
    "rosetta di sicurezza",
    "podkładka zębata",
    "anilha de retenção",
];

/// True where a way would bring a used bearing, seal or tab washer: from another machine, or repaired outside where the
/// settings accept no reconditioned goods.
pub fn brings_used(sourcing: &Sourcing<'_>, way: &OtherWay, parts: &[PartId]) -> bool {
    let is_used = match way.kind {
        OtherWayKind::OtherMachine => true,
        OtherWayKind::RepairOutside => !sourcing.shop.settings.planning.allow_reconditioned,
        OtherWayKind::MakeInHouse | OtherWayKind::ReworkInHouse | OtherWayKind::OtherBin => false,
    };
    is_used
        && parts.iter().any(|part| {
            let part = sourcing.shop.catalogue.part(*part);
            let class = part.family.map(Family::class);
            let words = [&part.designation, &part.description];
            let is_washer = words.into_iter().flatten().any(|words| {
                let words = words.to_lowercase();
                TAB_WASHERS.iter().any(|washer| words.contains(washer))
            });
            is_washer || matches!(class, Some(PartClass::Bearings | PartClass::Seals))
        })
}
