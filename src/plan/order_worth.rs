//! What an order line saves: hours that machines would wait without it, and what they count.

use chrono::{Duration, NaiveTime};

use super::calendar::Calendars;
use super::exchange::Exchange;
use super::level::{DemandTable, LevelBasis};
use super::reorder::{ReorderLine, ReorderReason};
use super::shop_plan::Plan;
use crate::catalogue::{NameKey, Shop};
use crate::units::Money;

/// What an order line saves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OrderWorth {
    /// Production hours of waiting it saves.
    pub waiting_h: f64,
    /// What these count by the rule of the levels; `None` where no cost of the machine is known.
    pub saves: Option<Money>,
}

/// What every line of the order list saves; `None` where its level rests on no figures.
///
/// A line at its reorder point: waiting in a year with the stock position left where it is, less that with the level.
/// A line of a rebuild: production hours from the planned day over the mean lead time, as if it were ordered when missed.
pub fn order_worths(shop: &Shop, plan: &Plan) -> Vec<Option<OrderWorth>> {
    let calendars = Calendars::new(&shop.settings);
    let lines = plan.reorder.lines.iter();
    lines
        .map(|line| match line.reason {
            ReorderReason::AtReorderPoint { position, .. } => of_level(shop, plan, line, position),
            ReorderReason::Rebuild { need, .. } => {
                let need = plan.needs.get(need)?;
                let from = need.date.and_time(NaiveTime::MIN);
                let minutes = (line.buy.arrival.mean_days.min(3650.0) * 1440.0) as i64;
                let until = from + Duration::minutes(minutes);
                let waiting_h = calendars.production().hours_between(from, until);
                let machine = shop.kits[need.kit].machine.as_ref()?;
                let machine = shop.machines.get(NameKey::new(machine).as_str());
                let hourly = machine.and_then(|machine| {
                    Exchange::new(&shop.settings).in_own_currency(machine.downtime_cost_per_hour?)
                });
                Some(OrderWorth {
                    waiting_h,
                    saves: hourly.map(|hourly| money(shop, hourly.to_units() * waiting_h)),
                })
            }
        })
        .collect()
}

fn of_level(shop: &Shop, plan: &Plan, line: &ReorderLine, position: f64) -> Option<OrderWorth> {
    let level = plan.levels.by_part.get(&line.part)?;
    let LevelBasis::Computed(reason) = &level.why else {
        return None;
    };
    let priced = reason.priced.as_ref()?;
    let table = reason.few_machines.map_or_else(
        || DemandTable::new(&reason.lead_time_demand),
        |few| few.spares_table(),
    );
    let left = table.shortfall(position.floor() as i64);
    let waiting_h = (left - reason.service.waiting).max(0.0) * priced.year_h;
    let counted = waiting_h * priced.waiting_per_h.to_units() * priced.factor;
    Some(OrderWorth {
        waiting_h,
        saves: Some(money(shop, counted)),
    })
}

fn money(shop: &Shop, amount: f64) -> Money {
    Money {
        cents: (amount * 100.0).round() as i64,
        currency: shop.settings.currency,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::{Sample, workdays};

    /// Two used a year, a lead time of weeks, and an hour down at 100.
    fn sample(on_hand: f64) -> Sample {
        let mut sample =
            Sample::new("records_from = \"2021-03-04\"\n[planning]\ndemand_method = \"plain\"");
        sample.supplier("S", |_| {});
        sample.machine("M1", Some(100.0), None);
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

    fn worths(sample: &Sample) -> Vec<Option<OrderWorth>> {
        order_worths(&sample.built(), &sample.plan())
    }

    #[test]
    fn an_order_saves_the_more_the_less_is_left() {
        let saved = |on_hand: f64| worths(&sample(on_hand)).first().map(|worth| worth.unwrap());
        let none = saved(0.0).unwrap();
        assert!(none.waiting_h > 0.0 && none.saves.unwrap().cents > 0);
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
    fn a_rebuild_stands_for_the_lead_time_in_production_hours() {
        let mut sample = sample(0.0);
        sample.planned("2026-06-01");
        let plan = sample.plan();
        let at = plan
            .reorder
            .lines
            .iter()
            .position(|line| matches!(line.reason, ReorderReason::Rebuild { .. }))
            .unwrap();
        let worth = worths(&sample)[at].unwrap();
        // The usual shift has eight hours from Monday to Friday: between five and six hours a calendar day.
        let days = plan.reorder.lines[at].buy.arrival.mean_days;
        let a_day = worth.waiting_h / days;
        assert!((4.5..8.5).contains(&a_day), "{a_day}");
        let cost = worth.saves.unwrap().to_units();
        assert!((cost - 100.0 * worth.waiting_h).abs() < 0.01);
    }
}
