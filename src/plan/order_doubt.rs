//! Open orders that do not come when they are counted on: too late for a rebuild or the shelf, or when nothing uses the
//! part any more.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::late_order::open_too_late;
use super::open_order::OpenOrder;
use super::shop_plan::Plan;
use super::supply::Source;
use super::tolerance::TOLERANCE;
use crate::place::Place;

/// What is doubtful about an open order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OrderDoubt {
    /// Its last machine has left service.
    LeftService {
        /// The last day.
        until: NaiveDate,
    },
    /// It comes after its last machine has left service.
    AfterService {
        /// The last day.
        until: NaiveDate,
    },
    /// A rebuild waits for it, and it is not surely in time.
    MayMissRebuild {
        /// Position of the first such need in the plan's list of needs.
        need: usize,
    },
    /// A rebuild is short of it, and something else is ordered, or nothing, as it comes too late or not surely in time.
    TooLateForRebuild {
        /// Position of the first such need in the plan's list of needs.
        need: usize,
    },
    /// The shelf may run short before it comes.
    ShortBefore,
}

/// Open orders in doubt, by their rows.
pub fn order_doubts(plan: &Plan, today: NaiveDate) -> BTreeMap<&Place, OrderDoubt> {
    let mut waited_for: BTreeMap<&Place, Option<usize>> = BTreeMap::new();
    for (at, need) in plan.needs.iter().enumerate() {
        for supply in &need.supplies {
            if let Source::OpenOrder { place, .. } = &supply.source {
                let is_sure = supply.arrival.late.date() <= need.needed_by;
                let first = waited_for.entry(place).or_default();
                *first = first.or((!is_sure).then_some(at));
            }
        }
    }
    let lacking = lacking(plan);
    let open = plan.open_orders.iter().filter(|order| !order.is_forgotten);
    let doubts = open.filter_map(|order| {
        let doubt = match waited_for.get(&order.place) {
            Some(need) => need.map(|need| OrderDoubt::MayMissRebuild { need }),
            None => of_service(plan, order, today),
        };
        let is_short = || plan.reorder.hurry.contains(&order.place);
        let doubt = doubt.or_else(|| lacking.get(&order.place).copied());
        let doubt = doubt.or_else(|| is_short().then_some(OrderDoubt::ShortBefore));
        Some((&order.place, doubt?))
    });
    doubts.collect()
}

/// Open orders that would bring what rebuilds are short of, but too late or not surely in time. What is made for a rebuild
/// is not lacking.
fn lacking(plan: &Plan) -> BTreeMap<&Place, OrderDoubt> {
    let mut found = BTreeMap::new();
    for (need, orders) in open_too_late(plan) {
        let made = plan.reorder.made_for(need).iter();
        let made: f64 = made.map(|of| of.quantity).sum();
        if plan.needs[need].short - made <= TOLERANCE {
            continue;
        }
        for (order, _) in orders {
            let doubt = match order.arrival {
                Some(_) => OrderDoubt::TooLateForRebuild { need },
                None => OrderDoubt::MayMissRebuild { need },
            };
            found.entry(&order.place).or_insert(doubt);
        }
    }
    found
}

/// Whether anything still uses the part, under any number of its stock, when it comes.
fn of_service(plan: &Plan, order: &OpenOrder, today: NaiveDate) -> Option<OrderDoubt> {
    let last_days = &plan.levels.in_use_until;
    let until = match plan.levels.serving(order.part) {
        None => last_days.get(&order.part).copied(),
        Some(level) => {
            let each = level.stocked().map(|part| last_days.get(&part).copied());
            let each: Option<Vec<NaiveDate>> = each.collect();
            each.and_then(|days| days.into_iter().max())
        }
    }?;
    if until < today {
        return Some(OrderDoubt::LeftService { until });
    }
    let likely = order.arrival.map(|arrival| arrival.likely.date());
    let comes = likely.or(order.due)?;
    (comes > until).then_some(OrderDoubt::AfterService { until })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::{Sample, day, workdays};

    /// One on order that is due on a day, of a part of a machine that leaves service on another.
    fn doubt(until: Option<&str>, due: &str, planned: Option<&str>) -> Option<OrderDoubt> {
        let mut sample = Sample::new("");
        sample.supplier("North", |_| {});
        sample.machine("M1", None, None);
        for machine in sample.shop.machines.values_mut() {
            machine.in_use_until = until.map(day);
        }
        let part = sample.part("A");
        sample.offer(part, "North", workdays(5.0), |_| {});
        sample.stock(part, 0.0, |row| {
            row.on_order = Some(1.0);
            row.due_date = Some(day(due));
        });
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        if let Some(date) = planned {
            sample.planned(date);
        }
        let plan = sample.plan();
        let found = order_doubts(&plan, day("2026-03-04"));
        found.values().next().copied()
    }

    #[test]
    fn what_comes_when_nothing_uses_it_is_told() {
        assert_eq!(doubt(None, "2026-05-15", None), None);
        assert_eq!(doubt(Some("2026-08-31"), "2026-05-15", None), None);
        let until = day("2026-04-30");
        assert_eq!(
            doubt(Some("2026-04-30"), "2026-05-15", None),
            Some(OrderDoubt::AfterService { until })
        );
        let until = day("2026-02-01");
        assert_eq!(
            doubt(Some("2026-02-01"), "2026-05-15", None),
            Some(OrderDoubt::LeftService { until })
        );
    }

    #[test]
    fn a_rebuild_that_waits_for_what_may_come_late_is_told() {
        // Due and needed on one day: in half of the cases, or so, it is late.
        let found = doubt(None, "2026-05-15", Some("2026-05-18"));
        assert_eq!(found, Some(OrderDoubt::MayMissRebuild { need: 0 }));
        assert_eq!(doubt(None, "2026-03-12", Some("2026-12-16")), None);
    }
    #[test]
    fn what_a_rebuild_is_short_of_and_comes_after_it_is_to_be_hurried() {
        // Needed a month before it is due: one is bought for the rebuild, and the line says to hurry that first (by hand).
        let found = doubt(None, "2026-06-15", Some("2026-05-18"));
        assert_eq!(found, Some(OrderDoubt::TooLateForRebuild { need: 0 }));
        // Needed months after it: it is taken, and nothing is lacking.
        assert_eq!(doubt(None, "2026-06-15", Some("2026-12-16")), None);
    }
}
