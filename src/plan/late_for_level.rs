//! Open orders that come too late for a stock level.
//!
//! A stock position is to serve the demand until a new order could be here. An order on its way that comes after that serves
//! none of it: without it the shelf may run short long before. It is then to be hurried, and a second order bridges the time
//! where that costs less than the waiting it saves.

use chrono::NaiveDate;

use super::level::{Level, LevelBasis, LevelReason};
use super::offer::DeliveryKind;
use super::open_order::{OpenOrder, likely_after};
use super::order_waiting::OrderWaiting;
use super::sourcing::Sourcing;
use super::tolerance::TOLERANCE;
use super::year_length::YEAR_DAYS;

/// Open orders that a level does not count, because a new order is here before them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LateForLevel {
    /// Quantity of them.
    pub quantity: f64,
    /// Day on which the first of them is likely here.
    pub first: NaiveDate,
    /// Usages that wait, each for the days that it does, that a new order saves until then.
    pub saves_unit_days: f64,
}

/// What open orders that come too late leave a level with.
pub struct ShortBefore<'o> {
    /// The orders.
    pub late: Vec<&'o OpenOrder>,
    /// What a new order besides them saves; `None` where it costs more than that, or nobody knows.
    pub pays: Option<LateForLevel>,
}

/// Open orders of a level that are likely here only after the late case of a new one, or after its mean where bridging that
/// pays, where the stock position without them is at or below the reorder point; `None` where there are none, or nothing
/// says how long a new order takes.
///
/// `position` is the stock position with them. An order whose day nobody knows is none of them. Of a planner's own minimum
/// without a rate nobody knows whether bridging pays: those count that come after the late case of the quickest new order.
/// `None` too of a part that was never used and whose level orders nothing, be it by a minimum without a reason or by the rate
/// of its group alone: for it nothing needs to be hurried either.
pub fn short_before<'o>(
    sourcing: &Sourcing<'_>,
    level: &Level,
    orders: &[&'o OpenOrder],
    position: f64,
) -> Option<ShortBefore<'o>> {
    let never_used = level.is_never_asked_for();
    if never_used.is_some_and(|of| !of.is_insured()) {
        return None;
    }
    let reason = match &level.why {
        LevelBasis::Computed(reason) => reason,
        LevelBasis::OwnMinimum { .. } => {
            return short_of_minimum(sourcing, level, orders, position);
        }
        LevelBasis::KeptUnder { .. } | LevelBasis::Retired { .. } => return None,
    };
    let after = |days: f64| short_after(sourcing, (level, reason), orders, (position, days));
    let after_mean = after(reason.lead.mean_days).filter(|short| short.pays.is_some());
    after_mean.or_else(|| after(reason.lead.late_days()))
}

/// Open orders that leave a planner's own minimum short although a new order would be here before them.
fn short_of_minimum<'o>(
    sourcing: &Sourcing<'_>,
    level: &Level,
    orders: &[&'o OpenOrder],
    position: f64,
) -> Option<ShortBefore<'o>> {
    let now = sourcing.shop.as_of;
    let offers = level.stocked().flat_map(|part| sourcing.offers_of(part));
    let ways = offers.flat_map(|offer| &offer.deliveries);
    let ordinary = ways.filter(|way| way.kind == DeliveryKind::Normal);
    let arrivals = ordinary.filter_map(|way| way.arrival);
    let late_days = arrivals.map(|arrival| (arrival.late - now).num_minutes() as f64 / 1440.0);
    let late = likely_after(orders, now, late_days.min_by(f64::total_cmp)?)?;
    let is_short = position - late.quantity <= level.ordered_at() + TOLERANCE;
    is_short.then_some(ShortBefore {
        late: late.orders,
        pays: None,
    })
}

/// The same for the orders that are likely here only after some days.
fn short_after<'o>(
    sourcing: &Sourcing<'_>,
    (level, reason): (&Level, &LevelReason),
    orders: &[&'o OpenOrder],
    (position, late_days): (f64, f64),
) -> Option<ShortBefore<'o>> {
    let late = likely_after(orders, sourcing.shop.as_of, late_days)?;
    let (quantity, first) = (late.quantity, late.first);
    let reorder_point = level.ordered_at();
    let in_time = position - quantity;
    if in_time > reorder_point + TOLERANCE {
        return None;
    }
    let bridge = reorder_point + 1.0 - in_time;
    let pays = OrderWaiting::of(level, in_time).and_then(|waiting| {
        let (new, old) = (reason.lead.mean_days, first.mean_days);
        let saved = waiting.saved_unit_days(new, old);
        // A place that stands from before the new order until the old one stands all days between them, and no more.
        let most = |places: u32| f64::from(places) * (old - new).max(0.0);
        let saves_unit_days = reason
            .places
            .map_or(saved, |places| saved.min(most(places)));
        // What is bought besides lies there until the stock has come down to its reorder point.
        let yearly = reason.demand.per_day()? * YEAR_DAYS;
        let bought = least_order(sourcing, level, bridge);
        let years = (position + bought - reorder_point).max(0.0) / yearly;
        let holding = reason.priced.as_ref()?.holding.to_units() * bought * years;
        let order_cost = sourcing.shop.settings.planning.order_cost;
        let is_less = order_cost + holding < waiting.counts(saves_unit_days);
        is_less.then_some(LateForLevel {
            quantity,
            first: first.likely.date(),
            saves_unit_days,
        })
    });
    Some(ShortBefore {
        late: late.orders,
        pays,
    })
}

/// The least of so many that any offer's pack and minimum let be ordered; as many as wanted without an offer.
fn least_order(sourcing: &Sourcing<'_>, level: &Level, wanted: f64) -> f64 {
    let offers = level.stocked().flat_map(|part| sourcing.offers_of(part));
    let lots = offers.filter_map(|offer| offer.lot_for(wanted, level.unit, 0.0));
    let all = lots
        .map(|lot| lot.gives)
        .filter(|gives| *gives >= wanted - TOLERANCE);
    all.min_by(f64::total_cmp).unwrap_or(wanted)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::order_line::ReorderReason;
    use crate::plan::order_worth::order_worths;
    use crate::plan::sample::{Sample, day, price, workdays};
    use crate::plan::{Plan, ReorderLine};

    /// Four used a year of a part of 30.00 that comes in ten working days, an hour down at `hour`, none on the shelf and
    /// six on order that are due on a day.
    fn sample(hour: f64, each: f64, due: &str) -> Sample {
        let mut sample = Sample::new(
            "records_from = \"2023-03-04\"\n[planning]\ndemand_method = \"plain\"\n\
             levels_by = \"downtime_cost\"\norder_cost = 5.0",
        );
        sample.supplier("North", |_| {});
        sample.machine("M1", Some(hour), None);
        let part = sample.part("A");
        sample.offer(part, "North", workdays(10.0), |offer| {
            offer.price = price(each);
        });
        for year in ["2023", "2024", "2025"] {
            for month in ["03-20", "06-01", "09-01", "12-01"] {
                sample.usage(part, &format!("{year}-{month}"), 1.0);
            }
        }
        sample.stock(part, 0.0, |row| {
            row.on_order = Some(6.0);
            row.due_date = Some(day(due));
        });
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        sample
    }

    fn bridged(plan: &Plan) -> Option<(&ReorderLine, LateForLevel)> {
        plan.reorder
            .lines
            .iter()
            .find_map(|line| match line.needs[0].reason {
                ReorderReason::AtReorderPoint { too_late, .. } => Some((line, too_late?)),
                _ => None,
            })
    }

    #[test]
    fn an_order_due_in_months_is_no_cover_for_the_weeks_before() {
        // Ten working days, twenty in the late case: due on 11 March it counts, due in September a new one is here months
        // before it, in which one or two are used. By hand.
        let soon = sample(20.0, 30.0, "2026-03-11").plan();
        assert!(soon.reorder.lines.is_empty() && soon.reorder.hurry.is_empty());
        let of_september = sample(20.0, 30.0, "2026-09-30");
        let plan = of_september.plan();
        let (line, late) = bridged(&plan).expect("ordered besides");
        assert!((late.quantity - 6.0).abs() < 1e-9);
        assert!(late.first >= day("2026-09-01"), "{late:?}");
        let ReorderReason::AtReorderPoint {
            on_order,
            position,
            reorder_point,
            ..
        } = line.needs[0].reason
        else {
            panic!("{line:?}");
        };
        assert!(on_order.abs() < 1e-9 && position.abs() < 1e-9);
        // What lifts the shelf above its reorder point, and no whole order more.
        assert!((line.wanted - (reorder_point + 1.0)).abs() < 1e-9);
        assert!(line.is_due(day("2026-03-04")));
        let place = &plan.open_orders[0].place;
        assert!(plan.reorder.hurry.len() == 1 && plan.reorder.hurry.contains(place));
        let part = line.part();
        assert_eq!(plan.reorder.bridges.get(&part), Some(&line.wanted));
        let said = line.needs[0].reason.to_string();
        let of_late = format!(
            "; besides 6 on order, likely here on {}, too late to be counted: hurry it",
            late.first
        );
        assert!(said.ends_with(&of_late), "{said}");
        // It saves what is waited between the two, no more.
        let worth = order_worths(&of_september.built(), &plan, &[line])[0].unwrap();
        let LevelBasis::Computed(reason) = &plan.levels.by_part[&part].why else {
            panic!("not computed");
        };
        let per_day = reason.demand.per_day().unwrap();
        let (new, old) = (
            reason.lead.mean_days,
            plan.open_orders[0].arrival.unwrap().mean_days,
        );
        // Nothing is there: all that is asked for until then waits, a triangle (by hand).
        let unit_days = per_day * (old * old - new * new) / 2.0;
        let hours = unit_days * reason.priced.as_ref().unwrap().year_h / 365.0;
        assert!((worth.waiting_h / hours - 1.0).abs() < 1e-6, "{worth:?}");
        let saves = worth.saves.unwrap().to_units();
        assert!((saves / (20.0 * hours) - 1.0).abs() < 1e-3, "{worth:?}");
    }

    #[test]
    fn what_is_bridged_does_not_hang_on_the_late_case() {
        // Due in twenty days, within the late case of a new order, which takes some fifteen: one unit day or so, at 5.7
        // hours of 20.00 each more than 100, against 5.00 and 6.00 a unit and year for a few units. At 0.10 an hour it is
        // not worth an order, and within the late case it is not hurried either (by hand).
        let due = "2026-03-24";
        let plan = sample(20.0, 30.0, due).plan();
        let (line, late) = bridged(&plan).expect("ordered besides");
        let LevelBasis::Computed(reason) = &plan.levels.by_part[&line.part()].why else {
            panic!("not computed");
        };
        assert!(plan.open_orders[0].arrival.unwrap().mean_days < reason.lead.late_days());
        assert!((late.quantity - 6.0).abs() < 1e-9);
        let cheap = sample(0.1, 30.0, due).plan();
        assert!(bridged(&cheap).is_none() && cheap.reorder.hurry.is_empty());
    }

    #[test]
    fn one_machine_stands_no_longer_than_the_days_between_the_two_orders() {
        // Four a year until the end of September: some 245 unit days if every use waited for itself, but one machine with
        // one of them stands for the some 197 days between a new order and the old one at most (by hand).
        let mut one = sample(20.0, 30.0, "2026-09-30");
        for machine in one.shop.machines.values_mut() {
            machine.installed = Some(1.0);
        }
        let plan = one.plan();
        let (line, late) = bridged(&plan).expect("ordered besides");
        let LevelBasis::Computed(reason) = &plan.levels.by_part[&line.part()].why else {
            panic!("not computed");
        };
        assert_eq!(reason.places, Some(1));
        let old = plan.open_orders[0].arrival.unwrap().mean_days;
        let between = old - reason.lead.mean_days;
        assert!((late.saves_unit_days - between).abs() < 1e-6, "{late:?}");
    }

    #[test]
    fn what_costs_more_than_it_saves_is_hurried_and_not_ordered_again() {
        // A part of 100,000.00 and an hour at 0.10: a year of holding costs thousands, the waiting some tens.
        let mut dear = sample(0.1, 100_000.0, "2026-09-30");
        let part = dear.shop.offers[0].part;
        dear.part_change(part, |part| {
            part.own_min_stock = Some(1.0);
            part.own_min_reason = Some("the only one".to_owned());
        });
        let plan = dear.plan();
        assert!(plan.levels.by_part[&part].ordered_at() > -0.5);
        assert!(bridged(&plan).is_none());
        assert!(plan.reorder.bridges.is_empty());
        assert_eq!(plan.reorder.hurry.len(), 1);
    }

    #[test]
    fn a_minimum_that_lasts_for_years_is_not_bought_to_bridge_months() {
        // Five hundred at 30.00 for some four a year: a hundred years of holding cost more than the 200 days of eight hours
        // or less at 20.00 that it could save (by hand: 32,000 at most, against 500 units times 6.00 times 100 years).
        let mut least = sample(20.0, 30.0, "2026-09-30");
        least.shop.offers[0].record.minimum_quantity = Some(500.0);
        let part = least.shop.offers[0].part;
        least.part_change(part, |part| {
            part.own_min_stock = Some(1.0);
            part.own_min_reason = Some("the only one".to_owned());
        });
        let plan = least.plan();
        assert!(bridged(&plan).is_none());
        assert_eq!(plan.reorder.hurry.len(), 1);
    }

    #[test]
    fn an_own_minimum_without_a_rate_is_not_kept_by_what_comes_in_half_a_year() {
        // Two shall be there and none is: two are on order. Ten working days, twenty in the late case, end in early April.
        let hurried = |due: &str, is_offered: bool| {
            let mut sample = Sample::new("");
            sample.supplier("North", |_| {});
            let part = sample.part_with("A", |part| {
                part.own_min_stock = Some(2.0);
                part.own_min_reason = Some("the only one".to_owned());
            });
            if is_offered {
                sample.offer(part, "North", workdays(10.0), |_| {});
            }
            sample.stock(part, 0.0, |row| {
                row.on_order = Some(2.0);
                row.due_date = Some(day(due));
            });
            let plan = sample.plan();
            let why = &plan.levels.by_part[&part].why;
            assert!(matches!(why, LevelBasis::OwnMinimum { .. }), "{why:?}");
            assert!(plan.reorder.lines.is_empty() && plan.reorder.bridges.is_empty());
            plan.reorder.hurry.len()
        };
        assert_eq!(hurried("2026-09-30", true), 1);
        assert_eq!(hurried("2026-03-11", true), 0);
        // Nothing says that a new order would be sooner.
        assert_eq!(hurried("2026-09-30", false), 0);
    }

    #[test]
    fn for_a_minimum_that_orders_nothing_nothing_is_hurried() {
        // Never used by its own history, beside a part that is: a minimum with a reason is kept, one without orders nothing.
        // Two are on order until the end of September, a new one takes ten working days.
        let hurried = |reason: Option<&str>| {
            let mut sample =
                Sample::new("records_from = \"2023-03-04\"\n[planning]\ndemand_method = \"plain\"");
            sample.supplier("North", |_| {});
            let used = sample.part("B");
            sample.usage(used, "2025-06-02", 1.0);
            let part = sample.part_with("A", |part| {
                part.own_min_stock = Some(2.0);
                part.own_min_reason = reason.map(str::to_owned);
            });
            sample.offer(part, "North", workdays(10.0), |_| {});
            sample.stock(part, 0.0, |row| {
                row.on_order = Some(2.0);
                row.due_date = Some(day("2026-09-30"));
            });
            let plan = sample.plan();
            let level = &plan.levels.by_part[&part];
            let is_minimum = matches!(level.why, LevelBasis::OwnMinimum { .. });
            assert!(is_minimum, "{:?}", level.why);
            assert_eq!(level.orders_nothing(), reason.is_none());
            plan.reorder.hurry.len()
        };
        assert_eq!(hurried(Some("the only one")), 1);
        assert_eq!(hurried(None), 0);
    }

    #[test]
    fn for_a_computed_level_that_orders_nothing_nothing_is_hurried_either() {
        // Never used, beside nine others that are, so that its group has a rate: without a reason for the minimum, or with no
        // minimum and the rate alone, it waits under `No need yet`. Due in September; a new one takes five working days.
        let hurried = |own: Option<f64>, reason: Option<&str>| {
            let mut sample = Sample::new("records_from = \"2021-03-04\"");
            sample.supplier("North", |_| {});
            sample.machine("M1", Some(20.0), None);
            for other in 0..10 {
                let part = sample.part(&format!("O{other}"));
                sample.offer(part, "North", workdays(5.0), |_| {});
                for year in 2021..2026 {
                    sample.usage(part, &format!("{year}-06-01"), 1.0);
                }
                sample.stock(part, 9.0, |_| {});
            }
            let part = sample.part_with("M", |part| {
                part.own_min_stock = own;
                part.own_min_reason = reason.map(str::to_owned);
            });
            sample.offer(part, "North", workdays(5.0), |_| {});
            sample.stock(part, 0.0, |row| {
                row.on_order = Some(2.0);
                row.due_date = Some(day("2026-09-30"));
            });
            let plan = sample.plan();
            let level = &plan.levels.by_part[&part];
            let is_computed = matches!(level.why, LevelBasis::Computed(_));
            assert!(is_computed && !level.orders_nothing(), "{:?}", level.why);
            assert_eq!(level.is_never_asked_for().is_some(), reason.is_none());
            assert!(reason.is_some() || plan.reorder.bridges.is_empty());
            plan.reorder.hurry.len()
        };
        assert_eq!(hurried(Some(2.0), Some("the builder is gone")), 1);
        assert_eq!(hurried(Some(2.0), None), 0);
        assert_eq!(hurried(None, None), 0);
    }

    #[test]
    fn nobody_bridges_at_a_price_of_an_hour_that_no_table_says() {
        let mut unpriced = sample(20.0, 30.0, "2026-09-30");
        for machine in unpriced.shop.machines.values_mut() {
            machine.downtime_cost_per_hour = None;
        }
        let plan = unpriced.plan();
        assert!(bridged(&plan).is_none() && plan.reorder.bridges.is_empty());
    }

    #[test]
    fn an_order_without_a_day_still_counts() {
        let mut undated = sample(20.0, 30.0, "2026-09-30");
        undated.shop.stock[0].record.due_date = None;
        let plan = undated.plan();
        assert_eq!(plan.open_orders[0].arrival, None);
        assert!(plan.reorder.lines.is_empty() && plan.reorder.hurry.is_empty());
    }
}
