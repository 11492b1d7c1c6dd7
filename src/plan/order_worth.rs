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
