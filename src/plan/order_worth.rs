//! What an order line saves: hours that machines would wait without it, and what they count.

use std::collections::BTreeMap;

use chrono::NaiveTime;

use super::calendar::Calendars;
use super::late_for_level::LateForLevel;
use super::late_order::late_orders;
use super::lead_time::Arrival;
use super::level::{JobsWaiting, LevelBasis, SavedOfJob, WaitingBasis, share_saved, until_then};
use super::order_line::{OrderedFor, ReorderLine, ReorderReason};
use super::rebuild_need::RebuildNeed;
use super::shop_plan::Plan;
use super::without_line::Without;
use super::year_length::YEAR_DAYS;
use crate::catalogue::{PartId, Shop};
use crate::parallel;
use crate::units::Money;

/// What an order line saves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OrderWorth {
    /// Production hours of waiting it saves.
    pub waiting_h: f64,
    /// What these cost at the machines' cost of an hour down, in full and whatever its criticality; `None` where no cost of
    /// the machine is known.
    pub saves: Option<Money>,
}

/// What each of some lines of the order list saves; `None` where nothing behind it rests on figures.
///
/// At a reorder point: jobs that wait in a year with the stock position left where it is, less those with the level, or what
/// is waited until an open order comes that is too late for the level; a job that takes ten pieces is one stop, not ten. For a
/// rebuild: production hours from the planned day until it would be there if it were ordered when missed, from whoever ends
/// the wait at the least cost, and no longer than until open orders bring it that come too late, or orders of today for the
/// stock level. Where it can be made, repaired
/// or fetched instead, no longer than until that is ready if begun now, and what that costs more. What is waited for the line
/// itself though it is ordered today is not saved, and several lines of one rebuild are waited for once. A last buy:
/// jobs that would go without, each with the hours until what it takes comes by the cheapest way or the last day in service,
/// and the price of that. A line with several needs
/// saves what each of them does, as far as it is known.
pub fn order_worths(shop: &Shop, plan: &Plan, lines: &[&ReorderLine]) -> Vec<Option<OrderWorth>> {
    let calendars = Calendars::new(&shop.settings);
    let late = late_orders(plan, shop.as_of.date());
    parallel::each(lines, |line| {
        let stops = line.by_stop();
        let each = line.needs.iter().enumerate().filter_map(|(at, need)| {
            let Some(stop) = need.stop() else {
                return worth((shop, plan), line, need);
            };
            // Several lines of one stop are waited for once, by the first of them.
            let members = stops.get(&stop).filter(|of| of.first() == Some(&at))?;
            of_stop((shop, plan), (&calendars, &late), line, members)
        });
        each.reduce(OrderWorth::and)
    })
}

impl OrderWorth {
    fn and(self, other: Self) -> Self {
        Self {
            waiting_h: self.waiting_h + other.waiting_h,
            saves: match (self.saves, other.saves) {
                (Some(one), Some(other)) => Some(Money {
                    cents: one.cents + other.cents,
                    currency: one.currency,
                }),
                (one, other) => one.or(other),
            },
        }
    }
}

fn worth(
    (shop, plan): (&Shop, &Plan),
    line: &ReorderLine,
    need: &OrderedFor,
) -> Option<OrderWorth> {
    match need.reason {
        ReorderReason::AtReorderPoint {
            position, too_late, ..
        } => of_level(shop, plan, need.part, (position, too_late)),
        ReorderReason::Rebuild { .. } => None,
        ReorderReason::LastBuy {
            bridged: Some(late),
            ..
        } => Some(OrderWorth {
            waiting_h: late.waiting_h,
            saves: Some(Money::rounded(late.saves, shop.settings.currency)),
        }),
        ReorderReason::LastBuy { wanted, .. } => {
            let comes = line.buy.arrival.mean_days;
            of_last_buy(
                (shop, plan),
                need.part,
                (wanted - need.wanted, wanted),
                comes,
            )
        }
    }
}

/// Of the lines of one stop that an order serves: their machine waits until the last of them is there.
fn of_stop(
    (shop, plan): (&Shop, &Plan),
    (calendars, late): (&Calendars, &BTreeMap<usize, Arrival>),
    line: &ReorderLine,
    members: &[usize],
) -> Option<OrderWorth> {
    let needs = || members.iter().map(|at| &line.needs[*at]);
    let of_need = |need: &OrderedFor| match need.reason {
        ReorderReason::Rebuild { need, .. } => Some(need),
        ReorderReason::AtReorderPoint { .. } | ReorderReason::LastBuy { .. } => None,
    };
    let late: Option<Vec<&Arrival>> = needs()
        .map(|need| of_need(need).and_then(|at| late.get(&at)))
        .collect();
    let way = needs().find_map(|need| need.way_left.as_deref());
    let first = needs().next()?;
    let without = Without {
        line: &line.buy.arrival,
        missed: first.missed.as_ref(),
        late: late.and_then(|all| all.into_iter().max_by_key(|of| of.likely)),
        // One that serves only some of them ends no wait.
        way: way.filter(|way| way.lines >= members.len()),
    };
    of_rebuild(shop, calendars, plan.needs.get(of_need(first)?)?, without)
}

fn of_rebuild(
    shop: &Shop,
    calendars: &Calendars,
    need: &RebuildNeed,
    without: Without<'_>,
) -> Option<OrderWorth> {
    let from = need.date.and_time(NaiveTime::MIN);
    let hourly = need.hour.map(Money::to_units);
    if hourly.is_none() && shop.kits[need.kit].machine.is_none() {
        return None;
    }
    let without_it = without.happens(calendars, from, hourly);
    let waited = without.waited_all_the_same(calendars, from);
    let waiting_h = (without_it.waiting_h - waited).max(0.0);
    let saves = hourly.zip(without_it.dearer);
    Some(OrderWorth {
        waiting_h,
        saves: saves.map(|(hourly, dearer)| {
            Money::rounded(hourly.mul_add(waiting_h, dearer), shop.settings.currency)
        }),
    })
}

/// Of one that bridges the time until open orders come, what is waited until then.
fn of_level(
    shop: &Shop,
    plan: &Plan,
    part: PartId,
    (position, too_late): (f64, Option<LateForLevel>),
) -> Option<OrderWorth> {
    let level = plan.levels.by_part.get(&part)?;
    let LevelBasis::Computed(reason) = &level.why else {
        return None;
    };
    let priced = reason.priced.as_ref()?;
    let in_a_year = || {
        let jobs = JobsWaiting::of(reason);
        let kept = jobs.with_level(level.reorder_point, level.order_quantity);
        (jobs.at(position) - kept).max(0.0) * priced.year_h
    };
    let waiting_h = too_late.map_or_else(in_a_year, |late| {
        late.saves_unit_days * priced.year_h / YEAR_DAYS
    });
    let counted = waiting_h * priced.cost_per_h.to_units();
    Some(OrderWorth {
        waiting_h,
        saves: (priced.basis != WaitingBasis::NothingKnown)
            .then(|| Money::rounded(counted, shop.settings.currency)),
    })
}

/// Jobs that go without with the first number of the two there, less those with the second, each with what it waits, and
/// the units that are bought for them.
///
/// None waits beyond the last day in service, and those before the order is there, after so many days, wait for it.
fn of_last_buy(
    (shop, plan): (&Shop, &Plan),
    part: PartId,
    (without, with): (f64, f64),
    comes: f64,
) -> Option<OrderWorth> {
    let level = plan.levels.by_part.get(&part)?;
    let LevelBasis::Computed(reason) = &level.why else {
        return None;
    };
    let last = reason.last_buy.as_ref()?;
    let today = shop.as_of.date();
    let (table, jobs) = until_then(plan.demands.get(&part)?, today, last.until)?;
    let (without, with) = (without.floor() as i64, with.floor() as i64);
    let fewer = jobs.with(without) - jobs.with(with);
    let units = table.shortfall(without) - table.shortfall(with);
    let priced = reason.priced.as_ref()?;
    let in_service = (last.until - today).num_days() as f64;
    let Some(of) = last.without else {
        let waits_days = reason.lead.mean_days;
        let waits_h = waits_days * priced.year_h / YEAR_DAYS;
        return Some(OrderWorth {
            waiting_h: fewer * waits_h * share_saved(comes, in_service, waits_days),
            saves: None,
        });
    };
    let saved = SavedOfJob::of(&of, comes, in_service);
    let stoppage = saved.stoppage(of.stoppage_cost, of.surcharge);
    let bought_then = of.price * saved.bought_share * units;
    Some(OrderWorth {
        waiting_h: fewer * of.waiting_h * saved.waiting_share,
        saves: Some(Money::rounded(
            stoppage.mul_add(fewer, bought_then),
            shop.settings.currency,
        )),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::late_order::served_by_the_shelf;
    use crate::plan::sample::{Sample, workdays};

    /// Two used a year, a lead time of weeks, and an hour down at 100.
    fn sample(on_hand: f64) -> Sample {
        critical(on_hand, "", None)
    }

    /// The same with more settings and a criticality of the machine.
    fn critical(on_hand: f64, more: &str, criticality: Option<&str>) -> Sample {
        let settings = "records_from = \"2021-03-04\"\n[planning]\ndemand_method = \"plain\"\n";
        let mut sample = Sample::new(&format!("{settings}{more}"));
        sample.supplier("S", |_| {});
        sample.machine("M1", Some(100.0), criticality);
        let part = sample.part("A");
        sample.offer(part, "S", workdays(20.0), |_| {});
        for year in 2021..2026 {
            sample.usage(part, &format!("{year}-06-01"), 1.0);
            sample.usage(part, &format!("{year}-11-01"), 1.0);
        }
        sample.stock(part, on_hand, |_| {});
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        sample
    }

    /// Without another way.
    const fn alone<'w>(line: &'w Arrival, late: Option<&'w Arrival>) -> Without<'w> {
        Without {
            line,
            missed: None,
            late,
            way: None,
        }
    }

    /// An arrival that is certain, with the same mean lead time.
    fn certain(arrival: Arrival, moment: &str) -> Arrival {
        let moment = crate::plan::sample::at(moment);
        Arrival {
            likely: moment,
            course: crate::plan::lead_time::Course::Certain { moment },
            ..arrival
        }
    }

    fn worths(sample: &Sample) -> Vec<Option<OrderWorth>> {
        let plan = sample.plan();
        let lines: Vec<&ReorderLine> = plan.reorder.lines.iter().collect();
        order_worths(&sample.built(), &plan, &lines)
    }

    #[test]
    fn an_order_saves_the_more_the_less_is_left() {
        let saved = |on_hand: f64| worths(&sample(on_hand)).first().map(|worth| worth.unwrap());
        let none = saved(0.0).unwrap();
        assert!(none.waiting_h > 0.0 && none.saves.unwrap().cents > 0);
        // An hour of M1 counts in full, as for a rebuild.
        let in_full = 100.0 * none.waiting_h;
        assert!(
            (none.saves.unwrap().to_units() - in_full).abs() < 0.01,
            "{none:?}"
        );
        if let Some(one) = saved(1.0) {
            assert!(one.waiting_h < none.waiting_h);
        }
        assert_eq!(saved(20.0), None);
        // With none on the shelf and none ordered each usage waits the whole lead time: rate times lead time is the
        // share of the year waited (Little, Operations Research 9:383-387, 1961), less what waits with the level.
        let plan = sample(0.0).plan();
        let level = plan.levels.by_part.values().next().unwrap();
        let LevelBasis::Computed(reason) = &level.why else {
            panic!("{level:?}");
        };
        let per_day = reason.demand.over(1.0).unwrap().0;
        let year_h = reason.priced.as_ref().unwrap().year_h;
        let by_hand = (per_day * reason.lead.mean_days - reason.service.waiting) * year_h;
        assert!(
            (none.waiting_h / by_hand - 1.0).abs() < 0.01,
            "{none:?} {by_hand}"
        );
    }

    #[test]
    fn a_usage_of_ten_pieces_is_one_stop() {
        let settings = "levels_by = \"downtime_cost\"\n";
        let mut of_ten = critical(0.0, settings, None);
        for usage in &mut of_ten.shop.usages {
            usage.record.quantity = 10.0;
        }
        let plan = of_ten.plan();
        let level = plan.levels.by_part.values().next().unwrap();
        let LevelBasis::Computed(reason) = &level.why else {
            panic!("{level:?}");
        };
        // None there and none ordered: every usage waits the lead time, once (Little, as above), whatever it takes; with the
        // level next to none does, for ten of 10.00 cost a trifle to hold beside weeks at 100 an hour.
        let usages_per_day = reason.demand.per_day().unwrap() / 10.0;
        let year_h = reason.priced.as_ref().unwrap().year_h;
        let by_hand = usages_per_day * reason.lead.mean_days * year_h;
        let worth = worths(&of_ten)[0].unwrap();
        assert!(
            worth.waiting_h <= by_hand * 1.01 && worth.waiting_h > 0.9 * by_hand,
            "{worth:?} {by_hand}"
        );
        let cost = worth.saves.unwrap().to_units();
        assert!((cost / (100.0 * worth.waiting_h) - 1.0).abs() < 1e-3);
    }

    #[test]
    fn an_hour_is_told_as_it_costs_however_critical_its_machine_is() {
        let weights = "[planning.criticality_weights]\nA = 2.0\nC = 0.5";
        for letter in ["A", "C"] {
            let mut sample = critical(0.0, weights, Some(letter));
            // By hand: a machine of 100.00 an hour that waits h hours costs 100 h, at twice or half the weight as well.
            let level = worths(&sample)[0].unwrap();
            let cost = level.saves.unwrap().to_units();
            assert!(level.waiting_h > 1.0 && (cost / (100.0 * level.waiting_h) - 1.0).abs() < 1e-4);
            // So does a line of both kinds of need.
            sample.planned("2026-06-01");
            let both = worths(&sample)[0].unwrap();
            let cost = both.saves.unwrap().to_units();
            assert!(
                (cost / (100.0 * both.waiting_h) - 1.0).abs() < 1e-4,
                "{both:?}"
            );
        }
    }

    #[test]
    fn a_rebuild_stands_for_the_lead_time_in_production_hours() {
        let mut sample = sample(0.0);
        sample.planned("2026-06-01");
        let plan = sample.plan();
        let at = plan
            .reorder
            .lines
            .iter()
            .position(|line| matches!(line.needs[0].reason, ReorderReason::Rebuild { .. }))
            .unwrap();
        let line = &plan.reorder.lines[at];
        let ReorderReason::Rebuild { need, .. } = line.needs[0].reason else {
            panic!("{line:?}");
        };
        let (shop, arrival) = (sample.built(), line.buy.arrival);
        let days = arrival.mean_days;
        let calendars = Calendars::new(&shop.settings);
        let of = |arrival: &Arrival| {
            of_rebuild(&shop, &calendars, &plan.needs[need], alone(arrival, None)).unwrap()
        };
        let worth = of(&arrival);
        // What comes before the first of June leaves nothing of the wait; what comes two days after it, the eight hours of
        // each of Monday and Tuesday, at 100 each. What comes no sooner than an order of
        // that day saves nothing.
        let there = |moment: &str| of(&certain(arrival, moment));
        let (early, late) = (there("2026-05-29T09:00"), there("2026-06-03T00:00"));
        assert!((early.waiting_h - late.waiting_h - 16.0).abs() < 1e-6);
        let (early_cost, late_cost) = (early.saves.unwrap().cents, late.saves.unwrap().cents);
        assert_eq!(early_cost - late_cost, 160_000);
        assert!(worth.waiting_h <= early.waiting_h);
        assert!(there("2027-06-01T09:00").waiting_h.abs() < 1e-9);
        // The usual shift has eight hours from Monday to Friday: between five and six hours a calendar day.
        let a_day = worth.waiting_h / days;
        assert!((4.5..8.5).contains(&a_day), "{a_day}");
        let cost = worth.saves.unwrap().to_units();
        assert!((cost - 100.0 * worth.waiting_h).abs() < 0.01);
        // The same line fills the shelf, and saves what both needs do.
        let all = worths(&sample)[at].unwrap();
        assert_eq!(line.needs.len(), 2);
        assert!(all.waiting_h > worth.waiting_h && all.saves.unwrap().to_units() > cost);
    }

    #[test]
    fn a_rebuild_waits_no_longer_than_for_an_open_order_that_comes_too_late() {
        let mut sample = Sample::new("");
        sample.supplier("S", |_| {});
        sample.machine("M1", Some(100.0), None);
        let part = sample.part("A");
        sample.offer(part, "S", workdays(20.0), |_| {});
        sample.receipt(part, "S", "2026-02-23", Some(60), None);
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        sample.planned("2026-04-15");
        sample.planned("2026-04-16");
        let shop = sample.built();
        let mut plan = sample.plan();
        assert!(plan.needs.iter().all(|need| need.supplies.is_empty()));
        // The lines themselves are here in time: nothing is waited all the same.
        for line in &mut plan.reorder.lines {
            line.buy.arrival = certain(line.buy.arrival, "2026-04-13T09:00");
            for need in &mut line.needs {
                need.missed = None;
            }
        }
        let mut worths = |moment: &str, quantity: f64| {
            let moment = crate::plan::sample::at(moment);
            let order = &mut plan.open_orders[0];
            let certain = crate::plan::lead_time::Course::Certain { moment };
            order.arrival.as_mut().unwrap().course = certain;
            order.quantity = quantity;
            let calendars = Calendars::new(&shop.settings);
            let late = late_orders(&plan, shop.as_of.date());
            let of = |at: usize| {
                let without = alone(&plan.reorder.lines[0].buy.arrival, late.get(&at));
                let worth = of_rebuild(&shop, &calendars, &plan.needs[at], without);
                worth.unwrap()
            };
            let lines: Vec<&ReorderLine> = plan.reorder.lines.iter().collect();
            let all = order_worths(&shop, &plan, &lines);
            let sum: f64 = all.iter().map(|worth| worth.unwrap().waiting_h).sum();
            (of(0), of(1), sum)
        };
        // Eight hours of production on each of Wednesday and Thursday, at 100 each; the one that comes serves only the
        // first rebuild, and 20 working days or more of eight hours are lost to the second.
        let (first, second, sum) = worths("2026-04-17T00:00", 1.0);
        assert!((first.waiting_h - 16.0).abs() < 1e-6, "{first:?}");
        assert_eq!(first.saves.unwrap().cents, 160_000);
        assert!(second.waiting_h >= 160.0, "{second:?}");
        assert!((sum - first.waiting_h - second.waiting_h).abs() < 1e-6);
        // Two serve both: one day of waiting for the second.
        let (first, second, _) = worths("2026-04-17T00:00", 2.0);
        assert!((first.waiting_h - 16.0).abs() < 1e-6, "{first:?}");
        assert!((second.waiting_h - 8.0).abs() < 1e-6, "{second:?}");
        // Half of what is missing ends no wait, and what comes after a new order no earlier than that.
        for (moment, quantity) in [("2026-04-17T00:00", 0.5), ("2027-04-17T00:00", 1.0)] {
            assert!(worths(moment, quantity).0.waiting_h >= 160.0, "{moment}");
        }
    }

    #[test]
    fn a_rebuild_that_the_order_for_the_level_covers_in_time_saves_nothing() {
        let mut sample = sample(0.0);
        sample.planned("2026-06-01");
        let (shop, mut plan) = (sample.built(), sample.plan());
        // The line of both needs, taken apart as if they came from two suppliers.
        let is_rebuild = |need: &OrderedFor| matches!(need.reason, ReorderReason::Rebuild { .. });
        let both = plan
            .reorder
            .lines
            .iter()
            .position(|line| is_rebuild(&line.needs[0]));
        let both = plan.reorder.lines.remove(both.unwrap());
        let parted = |at: usize| {
            let mut line = both.clone();
            line.needs = vec![both.needs[at].clone()];
            line.needs[0].missed = None;
            // In time for sure: nothing is waited all the same.
            line.buy.arrival = certain(line.buy.arrival, "2026-05-29T09:00");
            line
        };
        let ReorderReason::AtReorderPoint {
            position,
            reorder_point,
            ..
        } = both.needs[1].reason
        else {
            panic!("{both:?}");
        };
        let mut saved = |gives: f64, moment: &str| {
            let mut for_level = parted(1);
            for_level.buy.gives = gives;
            let moment = crate::plan::sample::at(moment);
            for_level.buy.arrival.course = crate::plan::lead_time::Course::Certain { moment };
            for_level.buy.arrival.likely = moment;
            plan.reorder.lines = vec![parted(0), for_level];
            let rebuild = &plan.reorder.lines[0];
            let worth = order_worths(&shop, &plan, &[rebuild])[0].unwrap();
            let served = served_by_the_shelf(&plan, shop.as_of.date());
            let left = served.values().next();
            (worth.waiting_h, left.map(|of| (of.with_line, of.without)))
        };
        // What lifts the level above its reorder point, and one or none besides for the one that the rebuild is short of.
        let level = reorder_point + 1.0 - position;
        let (waits, left) = saved(level + 1.0, "2026-05-29T09:00");
        assert!(waits.abs() < 1e-9);
        // Why both are bought: the shelf comes to two above its reorder point, or to one if the rebuild takes from it.
        let (with_line, without) = left.unwrap();
        assert!((with_line - reorder_point - 2.0).abs() < 1e-9);
        assert!((without - reorder_point - 1.0).abs() < 1e-9);
        let (alone, left) = saved(level, "2026-05-29T09:00");
        assert!(alone > 100.0 && left.is_none(), "{alone} {left:?}");
        // Two days late: the eight hours of each of the first two days of June.
        let (waits, left) = saved(level + 1.0, "2026-06-03T00:00");
        assert!((waits - 16.0).abs() < 1e-6 && left.is_none());
    }
}
