//! Insurance spares: parts that may never be used, kept for what an hour down costs.

use super::super::demand_table::DemandTable;
use crate::plan::year_length::YEAR_H;

/// What keeping a number of units means in a year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpareCost {
    /// Units owned.
    pub owned: i64,
    /// Holding cost of the units owned.
    pub holding: f64,
    /// Hours that machines wait for the part.
    pub down_h: f64,
    /// Cost of these hours.
    pub down_cost: f64,
    /// Share of demands that wait.
    pub waiting_share: f64,
}

/// Money of an insurance spare.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SparePrices {
    /// A unit owned for a year, on the shelf or on order.
    pub holding: f64,
    /// An hour of a machine that waits.
    pub down_per_h: f64,
}

impl SpareCost {
    /// Cost of owning `owned` units against a demand in the lead time.
    ///
    /// # Source
    /// Feeney & Sherbrooke, Management Science 12:391-411 (1966): expected units waited for under one-for-one orders.
    pub fn new(table: &DemandTable, prices: &SparePrices, owned: i64) -> Self {
        let down_h = table.shortfall(owned) * YEAR_H;
        Self {
            owned,
            holding: prices.holding * owned as f64,
            down_h,
            down_cost: down_h * prices.down_per_h,
            waiting_share: 1.0 - table.at_most(owned - 1),
        }
    }

    /// Holding and waiting.
    pub fn total(&self) -> f64 {
        self.holding + self.down_cost
    }
}

/// Units to own at the least cost: one more as long as it saves more hours than it costs to hold.
pub fn best_owned(table: &DemandTable, prices: &SparePrices) -> i64 {
    (0..=table.end())
        .find(|owned| {
            let saved_h = (1.0 - table.at_most(*owned)) * YEAR_H;
            saved_h * prices.down_per_h <= prices.holding
        })
        .unwrap_or_else(|| table.end())
}

/// Cost of an hour down from which on the n-th unit pays: `holding / (hours it saves)`; `None` where it saves nothing.
pub fn break_even_down_cost(table: &DemandTable, holding: f64, nth: i64) -> Option<f64> {
    let saved_h = (table.shortfall(nth - 1) - table.shortfall(nth)) * YEAR_H;
    (saved_h > 0.0).then(|| holding / saved_h)
}

/// Share of demands that find every one of `owned` units on order, where such a demand is met by a hurried buy.
///
/// # Source
/// Erlang's loss formula, by its recursion `B(s) = m B(s - 1) / (s + m B(s - 1))` (Erlang 1917, from memory).
pub fn erlang_loss(mean: f64, owned: i64) -> f64 {
    (1..=owned).fold(1.0, |blocked, units| {
        mean * blocked / (units as f64 + mean * blocked)
    })
}

/// Cost a year of owning `owned` units where a demand that finds none is met by a hurried buy.
///
/// # Units
/// `yearly` demands a year, `mean` of them in the lead time, `hurried_h` hours until the hurried unit is here,
/// `surcharge` money more for it.
pub fn cost_with_hurried_buys(
    prices: &SparePrices,
    yearly: f64,
    mean: f64,
    owned: i64,
    hurried_h: f64,
    surcharge: f64,
) -> f64 {
    let each = hurried_h.mul_add(prices.down_per_h, surcharge);
    prices.holding * owned as f64 + yearly * erlang_loss(mean, owned) * each
}
