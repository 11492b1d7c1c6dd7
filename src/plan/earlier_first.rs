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
use super::order_line::{OrderedFor, ReorderLine, waits_of};
use super::sourcing::Sourcing;
use crate::catalogue::PartId;
use crate::units::Money;

/// Quantities and hours that differ by less are equal.
const TOLERANCE: f64 = 1e-9;

/// A need of a line, by their positions.
type Slot = (usize, usize);

/// Gives each rebuild the order that suits it best, of those that are placed anyhow.
pub fn match_up(sourcing: &Sourcing<'_>, lines: &mut [ReorderLine]) {
    let mut of_part: BTreeMap<PartId, Vec<Slot>> = BTreeMap::new();
    for (line, of) in lines.iter().enumerate() {
        // A run is paid for its own day.
        if of.buy.delivery.is_one_run() {
            continue;
        }
        for (need, of) in of.needs.iter().enumerate() {
            // What another way costs more is told against the order it has.
            if of.needed_by.is_some() && of.way_left.is_none() {
                of_part.entry(of.part).or_default().push((line, need));
            }
        }
    }
    for mut slots in of_part.into_values() {
        slots.sort_by_key(|(line, need)| lines[*line].needs[*need].needed_by);
        for first in 0..slots.len() {
            for second in first + 1..slots.len() {
                let pair = (slots[first], slots[second]);
                if is_better_exchanged(sourcing, lines, pair) {
                    exchange(sourcing, lines, pair);
                    slots.swap(first, second);
                }
            }
        }
    }
}

fn is_better_exchanged(
    sourcing: &Sourcing<'_>,
    lines: &[ReorderLine],
    (first, second): (Slot, Slot),
) -> bool {
    let (one, other) = (&lines[first.0], &lines[second.0]);
    let (a, b) = (&one.needs[first.1], &other.needs[second.1]);
    let is_alike = first.0 != second.0
        && one.unit == other.unit
        && (a.wanted - b.wanted).abs() < TOLERANCE
        && a.accepted.contains(&other.buy.part)
        && b.accepted.contains(&one.buy.part);
    if !is_alike {
        return false;
    }
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
    let of_first = lines[first.0].needs[first.1].clone();
    let of_second = std::mem::replace(&mut lines[second.0].needs[second.1], of_first);
    lines[first.0].needs[first.1] = of_second;
    for (line, need) in [first, second] {
        settle(sourcing, &mut lines[line], need);
    }
}

/// Works out anew what depends on the days of a line's needs.
fn settle(sourcing: &Sourcing<'_>, line: &mut ReorderLine, changed: usize) {
    let today = sourcing.shop.as_of.date();
    let of_need = &line.needs[changed];
    let day = of_need
        .needed_by
        .filter(|day| timing(&line.buy.arrival, Some(*day)) == Timing::InTime);
    let order_by = day.map_or(today, |day| latest_order_day(sourcing, &line.buy, day));
    line.needs[changed].order_by = order_by;
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
