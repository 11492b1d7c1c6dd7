//! Open orders that come too late for a rebuild, and end its wait all the same.

use std::collections::BTreeMap;

use chrono::NaiveDateTime;

use super::calendar::Calendars;
use super::lead_time::{Arrival, ArrivalDistribution};
use super::open_order::OpenOrder;
use super::shop_plan::Plan;
use super::supply::Source;
use crate::catalogue::PartId;
use crate::place::Place;

/// Quantities that differ by less are equal.
const TOLERANCE: f64 = 1e-9;

/// When open orders bring what needs of rebuilds are short of, by position in the plan's list of needs.
///
/// Those that no rebuild takes in time, the likely earliest first; a need of several has what it is short of when the last
/// of them is there. What an earlier rebuild waits for is not counted for a later one, and what all of them together do
/// not bring ends no wait.
pub fn late_orders(plan: &Plan) -> BTreeMap<usize, Arrival> {
    let mut orders: BTreeMap<PartId, Vec<(&OpenOrder, Arrival)>> = BTreeMap::new();
    for order in plan.open_orders.iter().filter(|order| !order.is_forgotten) {
        if let Some(arrival) = order.arrival {
            orders.entry(order.part).or_default().push((order, arrival));
        }
    }
    let mut taken = taken_in_time(plan);
    let mut late = BTreeMap::new();
    for (position, need) in plan.needs.iter().enumerate() {
        let mut left = need.short;
        if left <= TOLERANCE {
            continue;
        }
        let accepted = need.accepted.iter().filter_map(|part| orders.get(part));
        let mut of_need: Vec<&(&OpenOrder, Arrival)> = accepted.flatten().collect();
        of_need.sort_by_key(|(order, arrival)| (arrival.likely, &order.place));
        let mut claims = Vec::new();
        for (order, arrival) in of_need {
            let Ok(factor) = order.unit.in_units_of(need.unit) else {
                continue;
            };
            let before = taken.get(&order.place).copied().unwrap_or(0.0);
            let here = ((order.quantity - before) * factor).min(left);
            if here <= TOLERANCE {
                continue;
            }
            claims.push((&order.place, here / factor));
            left -= here;
            if left <= TOLERANCE {
                late.insert(position, *arrival);
                for (place, quantity) in claims {
                    *taken.entry(place).or_default() += quantity;
                }
                break;
            }
        }
    }
    late
}

/// What rebuilds take of each open order that is likely there in time, in the unit of the order.
fn taken_in_time(plan: &Plan) -> BTreeMap<&Place, f64> {
    let orders = plan.open_orders.iter();
    let unit_of: BTreeMap<&Place, _> = orders.map(|of| (&of.place, of.unit)).collect();
    let mut taken: BTreeMap<&Place, f64> = BTreeMap::new();
    for need in &plan.needs {
        for supply in &need.supplies {
            let Source::OpenOrder { place, .. } = &supply.source else {
                continue;
            };
            let unit = unit_of.get(place).copied().unwrap_or(need.unit);
            let factor = need.unit.in_units_of(unit).unwrap_or(1.0);
            *taken.entry(place).or_default() += supply.quantity * factor;
        }
    }
    taken
}

/// Production hours from a moment until an arrival on the average, no longer than until another moment.
pub fn waited_h(
    calendars: &Calendars,
    (from, until): (NaiveDateTime, NaiveDateTime),
    law: &ArrivalDistribution,
) -> f64 {
    let moments = law.moments().iter().map(|(moment, _)| *moment);
    let between = moments.filter(|moment| *moment > from && *moment < until);
    let mut since = from;
    let mut hours = 0.0;
    for moment in between.chain([until]) {
        // The sum of the hours of each stretch, times the share of cases in which it is not here at its beginning.
        let share = 1.0 - law.cdf(since);
        hours += share * calendars.production().hours_between(since, moment);
        since = moment;
    }
    hours
}
