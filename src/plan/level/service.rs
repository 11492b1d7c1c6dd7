//! Measures of service beside each other, because they differ.

use super::demand_table::DemandTable;
use super::empty_shelf::EmptyShelf;
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
        let (first, last) = (reorder_point + 1, reorder_point + quantity);
        // Sums over the positions, lowered by what a usage takes.
        let short = |lower: i64| table.shortfall_sum(first - lower, last - lower) / quantity as f64;
        let waiting = short(0);
        let on_hand = f64::midpoint(first as f64, last as f64) - table.mean() + waiting;
        let is_single = sizes.iter().all(|(size, _)| *size <= 1);
        let (unit_fill_share, whole_job_share) = if is_single {
            let fill = unit_fill(table, reorder_point, quantity);
            (fill, fill)
        } else {
            let mean_size: f64 = sizes
                .iter()
                .map(|(size, share)| f64::from(*size) * share)
                .sum();
            // Of a usage of s units, all but what the shortfall grows by as s units less are there.
            let met: f64 = sizes
                .iter()
                .map(|(size, share)| share * (f64::from(*size) + waiting - short(i64::from(*size))))
                .sum();
            let whole = sizes
                .iter()
                .map(|(size, share)| {
                    share * on_hand_at_least(table, reorder_point, quantity, i64::from(*size))
                })
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

    /// The same with no larger shares met than the coming year finds from an empty shelf.
    ///
    /// What is waited for and what is on the shelf at a random moment stay those of the long run.
    pub fn from_empty(self, empty: &EmptyShelf, table: &DemandTable) -> Self {
        Self {
            unit_fill_share: self.unit_fill_share.min(empty.unit_fill(table)),
            whole_job_share: self.whole_job_share.min(empty.whole_job(table)),
            ..self
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
    let first = reorder_point + 1 - units;
    table.at_most_sum(first, first + quantity - 1) / quantity as f64
}
