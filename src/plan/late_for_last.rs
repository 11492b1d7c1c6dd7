//! Open orders that a last buy counts on, but that come long after a new one could: what serves the time until then.

use chrono::NaiveDate;

use super::level::{LastBuy, LevelReason, share_saved, until_then};
use super::open_order::{OpenOrder, likely_after};
use super::sourcing::Sourcing;
use super::year_length::YEAR_DAYS;

/// Open orders that come before the last day in service, but are bridged as a machine would wait for them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LateForLast {
    /// Quantity of them.
    pub quantity: f64,
    /// Day on which the first of them is likely here.
    pub first: NaiveDate,
    /// Production hours of waiting that what is bought besides saves until then.
    pub waiting_h: f64,
    /// What these cost, in units of the shop's currency.
    pub saves: f64,
}

/// What such orders leave a last buy with.
pub struct LastBridge<'o> {
    /// The orders; to be hurried.
    pub late: Vec<&'o OpenOrder>,
    /// Units to buy to bridge the time and what they save; `None` where they cost more than that, or nobody knows.
    pub bought: Option<(f64, LateForLast)>,
}

/// Open orders likely here only after the late case of a new one, where without them there is less surely enough until
/// then than the last buy has it in all; `None` where there are none.
///
/// `left` is what there is with them. A bought unit counts its price in full, as it is left over when the order comes.
pub fn last_bridge<'o>(
    sourcing: &Sourcing<'_>,
    (reason, last): (&LevelReason, &LastBuy),
    orders: &[&'o OpenOrder],
    left: f64,
) -> Option<LastBridge<'o>> {
    let now = sourcing.shop.as_of;
    let late = likely_after(orders, now, reason.lead.late_days())?;
    let (quantity, first) = (late.quantity, late.first);
    let in_time = left - quantity;
    let day = first.likely.date();
    let (table, jobs) = until_then(&reason.demand, now.date(), day)?;
    let have = in_time.floor().max(0.0) as i64;
    if in_time >= 0.0 && table.at_most(have) >= last.enough_share? {
        return None;
    }
    let bought = last
        .without
        .zip(reason.priced.as_ref())
        .and_then(|(of, priced)| {
            let waits_days = of.waiting_h * YEAR_DAYS / priced.year_h;
            let share = share_saved(reason.lead.mean_days, first.mean_days, waits_days);
            let stoppage = of.stoppage * share;
            let cost = |units: i64| of.price.mul_add(units as f64, stoppage * jobs.with(units));
            let best = (have..=table.end()).min_by(|a, b| cost(*a).total_cmp(&cost(*b)))?;
            let order_cost = sourcing.shop.settings.planning.order_cost;
            let pays = best > have && cost(have) - cost(best) > order_cost;
            let fewer = share * (jobs.with(have) - jobs.with(best));
            let of_late = LateForLast {
                quantity,
                first: day,
                waiting_h: fewer * of.waiting_h,
                saves: fewer * of.stoppage_cost,
            };
            pays.then_some(((best as f64 - in_time).ceil(), of_late))
        });
    Some(LastBridge {
        late: late.orders,
        bought,
    })
}
