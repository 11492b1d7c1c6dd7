//! Which order of one part serves which rebuild: the earlier one gets the quicker order.
//!
//! Needs are chosen for one after another, and each by itself: the earlier may take a cheap slow order with a fair chance to
//! be in time, the later a quick one that is surely so. Pieces of one part are the same, so that the two orders change
//! places where fewer hours are waited so on the average, at what these cost, or alike where nobody knows it of both.
//! Exchanging two at a time is all it takes where one order is quicker in every case, as the hours saved by it fall with
//! the day.

use std::collections::BTreeMap;

use super::choice::{Timing, latest_order_day, timing};
use super::late_hours::WaitsFrom;
use super::order_line::{OrderedFor, ReorderLine, ReorderReason, waits_of};
use super::sourcing::Sourcing;
use super::tolerance::TOLERANCE;
use crate::catalogue::PartId;
use crate::units::Money;

/// What a line has for one stop of a machine: the position of the line, and the number of the stop.
type Slot = (usize, usize);

/// Gives each rebuild the order that suits it best, of those that are placed anyhow.
pub fn match_up(sourcing: &Sourcing<'_>, lines: &mut [ReorderLine]) {
    let mut of_part: BTreeMap<PartId, Vec<Slot>> = BTreeMap::new();
    for (line, of) in lines.iter().enumerate() {
        // A run is paid for its own day.
        if of.buy.delivery.is_one_run() {
            continue;
        }
        for (stop, members) in of.by_stop() {
            let first = &of.needs[members[0]];
            let mut all = members.iter().map(|at| &of.needs[*at]);
            // What another way costs more is told against the order it has.
            let is_free = all.all(|need| need.part == first.part && need.way_left.is_none());
            if is_free {
                of_part.entry(first.part).or_default().push((line, stop));
            }
        }
    }
    for mut slots in of_part.into_values() {
        slots.sort_by_key(|(line, stop)| {
            let mut needs = needs_of(&lines[*line], *stop);
            needs.next().and_then(|need| need.needed_by)
        });
        for first in 0..slots.len() {
            for second in first + 1..slots.len() {
                let pair = (slots[first], slots[second]);
                if is_better_exchanged(sourcing, lines, pair) {
                    exchange(sourcing, lines, pair);
                    (slots[first].0, slots[second].0) = (slots[second].0, slots[first].0);
                }
            }
        }
    }
}

/// Needs of a line for one stop.
fn needs_of(line: &ReorderLine, stop: usize) -> impl Iterator<Item = &OrderedFor> {
    let needs = line.needs.iter();
    needs.filter(move |need| need.stop() == Some(stop))
}

fn is_better_exchanged(
    sourcing: &Sourcing<'_>,
    lines: &[ReorderLine],
    (first, second): (Slot, Slot),
) -> bool {
    let (one, other) = (&lines[first.0], &lines[second.0]);
    let wanted = |line, stop| needs_of(line, stop).map(|need| need.wanted).sum::<f64>();
    let takes = |(line, stop), part: &PartId| {
        let mut needs = needs_of(line, stop);
        needs.all(|need| need.accepted.contains(part))
    };
    let is_alike = first.0 != second.0
        && first.1 != second.1
        && one.unit == other.unit
        && (wanted(one, first.1) - wanted(other, second.1)).abs() < TOLERANCE
        && takes((one, first.1), &other.buy.part)
        && takes((other, second.1), &one.buy.part);
    let (a, b) = (
        needs_of(one, first.1).next(),
        needs_of(other, second.1).next(),
    );
    let Some((a, b)) = a.zip(b).filter(|_| is_alike) else {
        return false;
    };
    let is_late = |line: &ReorderLine, need: &OrderedFor| {
        timing(&line.buy.arrival, need.needed_by) != Timing::InTime
    };
    if !is_late(one, a) && !is_late(other, b) {
        return false;
    }
    let waits = (a.waits_from(), b.waits_from());
    let weights = match waits {
        (Some(a), Some(b)) => (a.hour.to_units(), b.hour.to_units()),
        _ => (1.0, 1.0),
    };
    let hours = |line: &ReorderLine, need: &OrderedFor| {
        need.needed_by.map_or(0.0, |day| {
            let known = &sourcing.late_hours;
            known.of(&sourcing.calendars, &line.buy.arrival, day)
        })
    };
    let now = weights.0 * hours(one, a) + weights.1 * hours(other, b);
    let exchanged = weights.0 * hours(other, a) + weights.1 * hours(one, b);
    exchanged < now - TOLERANCE * (1.0 + now)
}

fn exchange(sourcing: &Sourcing<'_>, lines: &mut [ReorderLine], (first, second): (Slot, Slot)) {
    let (of_first, at) = taken_out(&mut lines[first.0], first.1);
    let (of_second, other_at) = taken_out(&mut lines[second.0], second.1);
    lines[first.0].needs.splice(at..at, of_second);
    lines[second.0].needs.splice(other_at..other_at, of_first);
    settle(sourcing, &mut lines[first.0], second.1);
    settle(sourcing, &mut lines[second.0], first.1);
}

/// What a line has for a stop, which is then no longer its, and where the first of it stood.
fn taken_out(line: &mut ReorderLine, stop: usize) -> (Vec<OrderedFor>, usize) {
    let is_of = |need: &OrderedFor| need.stop() == Some(stop);
    let at = line.needs.iter().position(is_of);
    let needs = std::mem::take(&mut line.needs).into_iter();
    let (out, left) = needs.partition(is_of);
    line.needs = left;
    (out, at.unwrap_or(line.needs.len()))
}

/// Works out anew what depends on the days of a line's needs, of which those of one stop are new.
fn settle(sourcing: &Sourcing<'_>, line: &mut ReorderLine, changed: usize) {
    let today = sourcing.shop.as_of.date();
    let of_stop = needs_of(line, changed).next();
    let day = of_stop
        .and_then(|need| match need.reason {
            ReorderReason::Rebuild { date, .. } => Some((need.needed_by?, date)),
            _ => None,
        })
        .filter(|(day, _)| timing(&line.buy.arrival, Some(*day)) == Timing::InTime);
    let order_by = day.map_or(today, |(day, date)| {
        latest_order_day(sourcing, &line.buy, (day, sourcing.due(day, date)))
    });
    for need in &mut line.needs {
        if need.stop() == Some(changed) {
            need.order_by = order_by;
        }
    }
    let needs = line.needs.iter();
    line.order_by = needs.map(|of| of.order_by).min().unwrap_or(today);
    line.needed_by = line.needs.iter().filter_map(|of| of.needed_by).min();
    let timed = |choice: &super::choice::OfferChoice, waits: &[WaitsFrom]| {
        let known = &sourcing.late_hours;
        let cents = known.cents(&sourcing.calendars, &choice.arrival, waits);
        let is_known = !waits.is_empty();
        (
            timing(&choice.arrival, line.needed_by),
            is_known.then_some(Money {
                cents,
                currency: sourcing.shop.settings.currency,
            }),
        )
    };
    let waits = waits_of(line.needs.iter());
    let bought = timed(&line.buy, &waits);
    let next = line.next_best.as_ref().map(|next| timed(next, &waits));
    (line.buy.timing, line.buy.waiting) = bought;
    if let Some((next_best, found)) = line.next_best.as_mut().zip(next) {
        (next_best.timing, next_best.waiting) = found;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::{Sample, day, price, workdays};

    /// One of a part for a rebuild on each of some days: ten working days for 8.00, or six for 12.00.
    fn rebuilds(hour: Option<f64>, days: &[&str]) -> Vec<ReorderLine> {
        let mut sample = Sample::new("");
        sample.supplier("Slow", |_| {});
        sample.supplier("Quick", |_| {});
        sample.machine("M1", hour, None);
        let part = sample.part("A");
        for (name, lead, each) in [("Slow", 10.0, 8.0), ("Quick", 6.0, 12.0)] {
            sample.offer(part, name, workdays(lead), |offer| {
                offer.price = price(each);
            });
        }
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        for day in days {
            sample.planned(day);
        }
        sample.plan().reorder.lines
    }

    fn supplier_of<'l>(lines: &'l [ReorderLine], needed: &str) -> &'l str {
        let needed = Some(day(needed));
        let mut lines = lines.iter();
        let line = lines.find(|line| line.needs.iter().any(|need| need.needed_by == needed));
        &line.unwrap().buy.supplier
    }

    #[test]
    fn the_earlier_rebuild_gets_the_quicker_order() {
        // Ten working days from Wednesday 4 March are 18 March, in the late case 1 April; six are 12 and 20 March. By itself
        // the rebuild of the 19th would take the cheaper of two that are likely in time, that of the 25th the one that is
        // surely so. Common practice, no source: who needs it first gets what comes first.
        let lines = rebuilds(None, &["2026-03-19", "2026-03-25"]);
        assert_eq!(lines.len(), 2);
        assert_eq!(supplier_of(&lines, "2026-03-19"), "Quick");
        assert_eq!(supplier_of(&lines, "2026-03-25"), "Slow");
        let today = day("2026-03-04");
        for line in &lines {
            assert_eq!(line.buy.timing, Timing::LikelyInTime);
            assert_eq!((line.order_by, line.needs[0].order_by), (today, today));
            assert_eq!(line.needed_by, line.needs[0].needed_by);
        }
        // Alone each has what is best for it.
        let alone = rebuilds(None, &["2026-03-19"]);
        assert_eq!(supplier_of(&alone, "2026-03-19"), "Slow");
    }

    #[test]
    fn where_waiting_costs_more_than_the_difference_both_come_quickly() {
        // 4.00 more against some hours of waiting at 100.00 each.
        let lines = rebuilds(Some(100.0), &["2026-03-19", "2026-03-25"]);
        for needed in ["2026-03-19", "2026-03-25"] {
            assert_eq!(supplier_of(&lines, needed), "Quick");
        }
    }
}
