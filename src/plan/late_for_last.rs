//! Open orders that a last buy counts on, but that come long after a new one could: what serves the time until then.

use chrono::NaiveDate;

use super::level::{LastBuy, LevelReason, until_then};
use super::open_order::{OpenOrder, likely_after};
use super::sourcing::Sourcing;

/// Days of a year.
const YEAR_DAYS: f64 = 365.0;

/// Pieces of the time in service that a mean over it is counted out by.
const PIECES: u32 = 1000;

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

/// Share of what jobs wait without a unit that one saves which comes after some days: jobs fall evenly on the days until
/// the last one, none waits beyond that, and those before the unit is there wait for it. All in days.
pub fn share_saved(comes: f64, until: f64, waits: f64) -> f64 {
    if until <= 0.0 || waits <= 0.0 {
        return 0.0;
    }
    let saved = (0..PIECES).map(|piece| {
        let since = until * (f64::from(piece) + 0.5) / f64::from(PIECES);
        let without = waits.min(until - since);
        without - (comes - since).clamp(0.0, without)
    });
    saved.sum::<f64>() / f64::from(PIECES) / waits
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nobody_waits_beyond_the_last_day_or_is_served_before_the_unit_is_there() {
        // Eighteen days in service, a unit after 14, jobs that wait 14 without it. By hand: of a job on day t it saves t up
        // to day 4, then 4 up to day 14, then 18 - t: 8 + 40 + 8 days of 18 times 14.
        assert!((share_saved(14.0, 18.0, 14.0) - 56.0 / 252.0).abs() < 1e-3);
        // There at once: ten days each, but for those of the last ten days, which wait five on the average.
        assert!((share_saved(0.0, 100.0, 10.0) - 0.95).abs() < 1e-3);
        // After the last day, without days or without waiting: nothing.
        for (comes, until, waits) in [(20.0, 18.0, 14.0), (1.0, 0.0, 5.0), (1.0, 9.0, 0.0)] {
            assert!(share_saved(comes, until, waits).abs() < 1e-9);
        }
    }
}
