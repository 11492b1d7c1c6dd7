//! What comes for a rebuild besides the line bought for it: open orders that come too late for it, and orders of today for
//! the stock level. It ends the rebuild's wait all the same.

use std::collections::BTreeMap;

use chrono::{NaiveDate, NaiveDateTime};

use super::calendar::Calendars;
use super::lead_time::{Arrival, ArrivalDistribution};
use super::open_order::OpenOrder;
use super::order_line::{ReorderLine, ReorderReason};
use super::shop_plan::Plan;
use super::supply::Source;
use super::tolerance::TOLERANCE;
use crate::catalogue::PartId;
use crate::place::Place;
use crate::units::UnitOfCount;

/// Goods on their way, or ordered today.
struct Coming {
    part: PartId,
    /// What no rebuild has taken of it, in `unit`.
    left: f64,
    unit: UnitOfCount,
    arrival: Arrival,
    /// Stock position that an order of today for the level comes up to, in `unit`; `None` for an open order.
    fills_to: Option<f64>,
}

/// What ends a rebuild's wait besides the line bought for it.
struct EndsWait {
    arrival: Arrival,
    shelf: Option<ShelfLeft>,
}

/// What a rebuild would leave of an order of today for the stock level if it took what it is short of from that.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShelfLeft {
    /// When that order is there.
    pub arrival: Arrival,
    /// Stock position with the rebuild's own line, in the unit of the order.
    pub with_line: f64,
    /// Without it.
    pub without: f64,
}

/// When goods come that needs of rebuilds are short of, by position in the plan's list of needs, the line bought for each
/// left out.
///
/// Those that no rebuild takes in time, the likely earliest first; a need of several has what it is short of when the last
/// of them is there. What an earlier rebuild waits for is not counted for a later one, and what all of them together do
/// not bring ends no wait.
pub fn late_orders(plan: &Plan, today: NaiveDate) -> BTreeMap<usize, Arrival> {
    let found = ends_of_waits(plan, today).into_iter();
    found.map(|(at, ends)| (at, ends.arrival)).collect()
}

/// Needs of rebuilds that an order of today for the stock level is likely to serve in time as well, by position in the plan's
/// list of needs: their own lines save no wait, but keep the shelf filled.
pub fn served_by_the_shelf(plan: &Plan, today: NaiveDate) -> BTreeMap<usize, ShelfLeft> {
    let in_time = |at: usize, shelf: &ShelfLeft| {
        let need = plan.needs.get(at);
        need.is_some_and(|need| shelf.arrival.likely.date() <= need.needed_by)
    };
    let found = ends_of_waits(plan, today).into_iter();
    let served = found.filter_map(|(at, ends)| Some((at, ends.shelf?)));
    served.filter(|(at, shelf)| in_time(*at, shelf)).collect()
}

fn ends_of_waits(plan: &Plan, today: NaiveDate) -> BTreeMap<usize, EndsWait> {
    let mut coming = on_their_way(plan);
    coming.extend(plan.reorder.due_lines(today).filter_map(for_level));
    coming.sort_by_key(|of| of.arrival.likely);
    let mut of_part: BTreeMap<PartId, Vec<usize>> = BTreeMap::new();
    for (at, of) in coming.iter().enumerate() {
        of_part.entry(of.part).or_default().push(at);
    }
    let mut late = BTreeMap::new();
    for (position, need) in plan.needs.iter().enumerate() {
        // What is made for it waits for no goods.
        let made = plan.reorder.made_for(position).iter();
        let made: f64 = made.map(|of| of.quantity).sum();
        let mut missing = need.short - made;
        if missing <= TOLERANCE {
            continue;
        }
        let accepted = need.accepted.iter().filter_map(|part| of_part.get(part));
        let mut of_need: Vec<usize> = accepted.flatten().copied().collect();
        of_need.sort_unstable();
        let mut claims = Vec::new();
        for at in of_need {
            let of = &coming[at];
            let Ok(factor) = of.unit.in_units_of(need.unit) else {
                continue;
            };
            let here = (of.left * factor).min(missing);
            if here > TOLERANCE {
                claims.push((at, here / factor));
                missing -= here;
            }
            if missing <= TOLERANCE {
                let shelf = shelf_left(&coming, &claims);
                let arrival = of.arrival;
                late.insert(position, EndsWait { arrival, shelf });
                break;
            }
        }
        for (at, quantity) in claims.into_iter().filter(|_| missing <= TOLERANCE) {
            coming[at].left -= quantity;
        }
    }
    late
}

/// What the first order for the shelf among some claims is left with; `None` where all are on open orders, or the last
/// of several comes from one.
fn shelf_left(coming: &[Coming], claims: &[(usize, f64)]) -> Option<ShelfLeft> {
    let (last, _) = claims.last()?;
    coming[*last].fills_to?;
    let mut of_shelf = claims.iter();
    of_shelf.find_map(|(at, taken)| {
        let with_line = coming[*at].fills_to?;
        Some(ShelfLeft {
            arrival: coming[*last].arrival,
            with_line,
            without: with_line - taken,
        })
    })
}

/// Open orders that bring what needs of rebuilds are short of, but too late for them or not surely in time, by position in the plan's list of
/// needs; with what no rebuild takes of each in time, in the unit of the order.
pub fn open_too_late(plan: &Plan) -> BTreeMap<usize, Vec<(&OpenOrder, f64)>> {
    let taken = taken_in_time(plan);
    let mut of_part: BTreeMap<PartId, Vec<(&OpenOrder, f64)>> = BTreeMap::new();
    for order in plan.open_orders.iter().filter(|order| !order.is_forgotten) {
        let left = order.quantity - taken.get(&order.place).copied().unwrap_or(0.0);
        if left > TOLERANCE {
            of_part.entry(order.part).or_default().push((order, left));
        }
    }
    let mut found = BTreeMap::new();
    for (at, need) in plan.needs.iter().enumerate() {
        let is_late = |(order, _): &&(&OpenOrder, f64)| {
            let is_there = |arrival: Arrival| arrival.late.date() <= need.needed_by;
            !order.arrival.is_some_and(is_there) && order.unit.in_units_of(need.unit).is_ok()
        };
        let accepted = need.accepted.iter().filter_map(|part| of_part.get(part));
        let orders: Vec<(&OpenOrder, f64)> = accepted.flatten().filter(is_late).copied().collect();
        if need.short > TOLERANCE && !orders.is_empty() {
            found.insert(at, orders);
        }
    }
    found
}

/// Open orders, less what rebuilds take of them in time.
fn on_their_way(plan: &Plan) -> Vec<Coming> {
    let taken = taken_in_time(plan);
    let orders = plan.open_orders.iter().filter(|order| !order.is_forgotten);
    let dated = orders.filter_map(|order| {
        let taken = taken.get(&order.place).copied().unwrap_or(0.0);
        Some(Coming {
            part: order.part,
            left: order.quantity - taken,
            unit: order.unit,
            arrival: order.arrival?,
            fills_to: None,
        })
    });
    dated.collect()
}

/// What a line for stock levels alone brings beyond what lifts each above its reorder point.
fn for_level(line: &ReorderLine) -> Option<Coming> {
    let mut left = line.buy.gives;
    let mut fills_to = line.buy.gives;
    for need in &line.needs {
        let ReorderReason::AtReorderPoint {
            position,
            reorder_point,
            ..
        } = need.reason
        else {
            return None;
        };
        left -= (reorder_point + 1.0 - position).max(0.0);
        fills_to += position;
    }
    Some(Coming {
        part: line.buy.part,
        left,
        unit: line.unit,
        arrival: line.buy.arrival,
        fills_to: Some(fills_to),
    })
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

/// Production hours from a moment until the first of some arrivals on the average, no longer than until another moment.
///
/// The arrivals are taken as independent.
pub fn waited_h(
    calendars: &Calendars,
    (from, until): (NaiveDateTime, NaiveDateTime),
    laws: &[&ArrivalDistribution],
) -> f64 {
    let moments = laws.iter().flat_map(|law| law.moments());
    let mut between: Vec<NaiveDateTime> = moments
        .map(|(moment, _)| *moment)
        .filter(|moment| *moment > from && *moment < until)
        .collect();
    between.sort_unstable();
    let mut since = from;
    let mut hours = 0.0;
    for moment in between.into_iter().chain([until]) {
        // The sum of the hours of each stretch, times the share of cases in which none is here at its beginning.
        let share: f64 = laws.iter().map(|law| 1.0 - law.cdf(since)).product();
        hours += share * calendars.production().hours_between(since, moment);
        since = moment;
    }
    hours
}
