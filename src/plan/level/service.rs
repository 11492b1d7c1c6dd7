//! Measures of service beside each other, because they differ.

use super::demand_table::DemandTable;
use super::reorder_quantity::unit_fill;

/// What a reorder point and quantity give.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Service {
    /// Probability that no one waits between order and receipt: P(demand <= reorder point).
    pub cycle_share: f64,
    /// Share of units met from the shelf at once.
    pub unit_fill_share: f64,
    /// Share of usages whose whole quantity is on the shelf.
    pub whole_job_share: f64,
    /// Expected units waited for at a random moment.
    pub waiting: f64,
    /// Expected units on the shelf at a random moment.
    pub on_hand: f64,
}

impl Service {
    /// Measures of (r, Q) for a demand in the lead time, usages taking `sizes` units (size, share; empty: 1 unit).
    ///
    /// The stock position is uniform on r + 1 .. r + Q, which is exact for single units and for one-for-one orders, and
    /// taken as such for the rest.
    /// # Source
    /// Hadley & Whitin, Analysis of Inventory Systems (1963), ch. 4; unit fill of usages of several units
    /// `E[min(size, on hand)] / E[size]`.
    pub fn new(
        table: &DemandTable,
        reorder_point: i64,
        quantity: i64,
        sizes: &[(u32, f64)],
    ) -> Self {
        let positions = || reorder_point + 1..=reorder_point + quantity;
        let mean_of =
            |value: &dyn Fn(i64) -> f64| positions().map(value).sum::<f64>() / quantity as f64;
        let waiting = mean_of(&|y| table.shortfall(y));
        let on_hand = mean_of(&|y| y as f64 - table.mean() + table.shortfall(y));
        let is_single = sizes.iter().all(|(size, _)| *size <= 1);
        let (unit_fill_share, whole_job_share) = if is_single {
            let fill = unit_fill(table, reorder_point, quantity);
            (fill, fill)
        } else {
            // On hand at least k: position y and demand at most y - k.
            let at_least = |k: i64| mean_of(&|y| table.at_most(y - k));
            let mean_size: f64 = sizes
                .iter()
                .map(|(size, share)| f64::from(*size) * share)
                .sum();
            let met: f64 = sizes
                .iter()
                .map(|(size, share)| share * (1..=i64::from(*size)).map(at_least).sum::<f64>())
                .sum();
            let whole = sizes
                .iter()
                .map(|(size, share)| share * at_least(i64::from(*size)))
                .sum();
            (met / mean_size, whole)
        };
        Self {
            cycle_share: table.at_most(reorder_point),
            unit_fill_share,
            whole_job_share,
            waiting,
            on_hand,
        }
    }

    /// Mean days that a unit waits, at a rate of units a day.
    ///
    /// # Source
    /// Little, Operations Research 9:383-387 (1961).
    pub fn mean_wait_days(&self, per_day: f64) -> Option<f64> {
        (per_day > 0.0).then(|| self.waiting / per_day)
    }
}

/// Probability that at least `units` are on the shelf under (r, Q).
pub fn on_hand_at_least(table: &DemandTable, reorder_point: i64, quantity: i64, units: i64) -> f64 {
    let positions = reorder_point + 1..=reorder_point + quantity;
    positions.map(|y| table.at_most(y - units)).sum::<f64>() / quantity as f64
}
