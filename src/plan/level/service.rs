//! Measures of service beside each other, because they differ.

use super::demand_table::DemandTable;
use super::empty_shelf::EmptyShelf;
use super::ending::EndingService;
use super::job_steps::JobSteps;
use super::reorder_quantity::{smallest, unit_fill_of_sizes};

/// What a reorder point and quantity give.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Service {
    /// Probability that no one waits between order and receipt, the usage that sets the order off included: see
    /// `share_without_waiting`.
    pub cycle_share: f64,
    /// Share of units met from the shelf at once.
    pub unit_fill_share: f64,
    /// Share of usages whose whole quantity is on the shelf.
    pub whole_job_share: f64,
    /// Expected units waited for at a random moment.
    pub waiting: f64,
    /// Expected usages that wait at a random moment until they have all they take: a machine stops once for each. As many as
    /// units where [`with_jobs`](Self::with_jobs) tells nothing else.
    pub jobs_waiting: f64,
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
        let waiting = table.shortfall_sum(first, last) / quantity as f64;
        let on_hand = f64::midpoint(first as f64, last as f64) - table.mean() + waiting;
        let is_single = sizes.iter().all(|(size, _)| *size <= 1);
        let unit_fill_share = unit_fill_of_sizes(table, reorder_point, quantity, sizes);
        let whole_job_share = if is_single {
            unit_fill_share
        } else {
            let each = sizes.iter();
            each.map(|(size, share)| {
                share * on_hand_at_least(table, reorder_point, quantity, i64::from(*size))
            })
            .sum()
        };
        Self {
            cycle_share: share_without_waiting(table, reorder_point, quantity, sizes),
            unit_fill_share,
            whole_job_share,
            waiting,
            jobs_waiting: waiting,
            on_hand,
        }
    }

    /// The same with the usages that wait, of a part of which they take several units at a time.
    pub fn with_jobs(self, jobs: &JobSteps, reorder_point: i64) -> Self {
        Self {
            jobs_waiting: jobs.waiting(reorder_point),
            ..self
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

    /// The same where stock ends on the shelf; `of_empty` lead times without waiting are those that begin with an empty shelf.
    pub fn where_stock_ends(self, of: &EndingService, of_empty: f64) -> Self {
        let renewed = of.renewed_share;
        Self {
            cycle_share: renewed.mul_add(self.cycle_share, (1.0 - renewed) * of_empty),
            unit_fill_share: 1.0 - of.units_without,
            whole_job_share: 1.0 - of.usages_without,
            waiting: of.waiting,
            jobs_waiting: of.jobs_waiting,
            on_hand: of.on_hand,
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

/// Share of lead times in which nobody waits, from the usage that sets the order off to the receipt: `P(demand <= r)` where each
/// takes one unit; where usages take several, by how much the one that sets it off passes the reorder point as well.
///
/// # Source
/// A usage of `b` units finds a stock position `y` uniform on r + 1 .. r + Q (Hadley and Whitin, Analysis of Inventory Systems,
/// 1963, ch. 4) and sets an order off where `y - b <= r`; until it has come no other one does, and nobody waits where the
/// demand of the lead time is at most `y - b`.
pub fn share_without_waiting(
    table: &DemandTable,
    reorder_point: i64,
    quantity: i64,
    sizes: &[(u32, f64)],
) -> f64 {
    let (mut orders, mut calm) = (0.0, 0.0);
    for (size, share) in sizes {
        let size = i64::from(*size);
        let positions = size.min(quantity);
        let lowest = reorder_point + 1 - size;
        orders += share * positions as f64;
        calm += share * table.at_most_sum(lowest, lowest + positions - 1);
    }
    if orders > 0.0 {
        calm / orders
    } else {
        table.at_most(reorder_point)
    }
}

/// Lowest reorder point, 0 or more, at which a share of lead times passes without waiting; no usage finds less often all it
/// takes.
pub fn reorder_point_for_share(
    table: &DemandTable,
    quantity: i64,
    sizes: &[(u32, f64)],
    share: f64,
) -> i64 {
    let largest = sizes.iter().map(|(size, _)| i64::from(*size)).max();
    match largest.filter(|size| *size > 1) {
        None => table.quantile(share),
        Some(size) => smallest(0, table.end() + size, |point| {
            share_without_waiting(table, point, quantity, sizes) >= share
        }),
    }
}

/// Probability that at least `units` are on the shelf under (r, Q).
pub fn on_hand_at_least(table: &DemandTable, reorder_point: i64, quantity: i64, units: i64) -> f64 {
    let first = reorder_point + 1 - units;
    table.at_most_sum(first, first + quantity - 1) / quantity as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::level::LeadTimeDemand;

    /// Usages, quantities with their shares, reorder point and order quantity.
    type Case = (f64, &'static [(u32, f64)], i64, i64);

    /// Usages in the lead time, their sizes, reorder point and order quantity: with sizes above the order as well.
    const CASES: [Case; 5] = [
        (0.0196, &[(2, 1.0)], 0, 9),
        (0.4, &[(2, 1.0)], 1, 3),
        (0.7, &[(1, 0.6), (4, 0.4)], 2, 5),
        (0.5, &[(1, 0.5), (5, 0.5)], -1, 3),
        (0.9, &[(1, 1.0)], 0, 4),
    ];

    fn fill((usages, sizes, reorder_point, quantity): (f64, &[(u32, f64)], i64, i64)) -> f64 {
        let table = DemandTable::new(&LeadTimeDemand::compound(usages, sizes));
        Service::new(&table, reorder_point, quantity, sizes).unit_fill_share
    }

    /// Units found of a usage of each size by every run of usages in the lead time before it, the shares of the runs being
    /// multiplied out.
    fn found(sizes: &[(u32, f64)], position: i64, usages: f64, before: u32, share: f64) -> f64 {
        let of_size =
            |(size, of): &(u32, f64)| of * i64::from(*size).min(position.max(0)) as f64 * share;
        let here: f64 = sizes.iter().map(of_size).sum();
        if before == 14 {
            return here;
        }
        let next = usages / f64::from(before + 1);
        let more = sizes.iter().map(|(size, of)| {
            let left = position - i64::from(*size);
            found(sizes, left, usages, before + 1, share * next * of)
        });
        here + more.sum::<f64>()
    }

    #[test]
    fn the_unit_fill_of_usages_of_several_is_its_definition() {
        // E[min(size, on hand)] / E[size], counted out over positions, runs of up to 14 usages and sizes.
        for case in CASES {
            let (usages, sizes, reorder_point, quantity) = case;
            let positions = reorder_point + 1..=reorder_point + quantity;
            let none = (-usages).exp();
            let met: f64 = positions
                .map(|position| found(sizes, position, usages, 0, none))
                .sum();
            let mean: f64 = sizes.iter().map(|(size, of)| f64::from(*size) * of).sum();
            let expected = met / quantity as f64 / mean;
            assert!((fill(case) - expected).abs() < 1e-9, "{case:?} {expected}");
        }
        // By hand: (0.5 + 8) / 9 of a usage of two at the positions 1 to 9 with none before it, (0.5 + 6) / 9 with one and
        // (0.5 + 4) / 9 with two, of which there are 0.98059, 0.01922 and 0.00019.
        assert!((fill(CASES[0]) - 0.9401).abs() < 1e-4);
    }

    #[test]
    fn a_reorder_point_for_a_share_keeps_it_for_whole_usages_too() {
        // By definition: every position, size and demand one by one, and every lower reorder point misses the share.
        for (usages, sizes, quantity) in [
            (0.023, &[(30, 1.0)][..], 12),
            (0.4, &[(2, 1.0)], 3),
            (0.7, &[(1, 0.6), (4, 0.4)], 5),
            (3.0, &[(1, 0.5), (5, 0.5)], 1),
        ] {
            let table = DemandTable::new(&LeadTimeDemand::compound(usages, sizes));
            let calm = |point: i64| {
                let (mut orders, mut calm) = (0.0, 0.0);
                for position in point + 1..=point + quantity {
                    for (size, of) in sizes {
                        let left = position - i64::from(*size);
                        if left <= point {
                            orders += of;
                            calm += of * (0..=left).map(|units| table.share(units)).sum::<f64>();
                        }
                    }
                }
                calm / orders
            };
            for share in [0.5, 0.9, 0.98] {
                let point = reorder_point_for_share(&table, quantity, sizes, share);
                assert!(calm(point) >= share - 1e-9, "{sizes:?} {share} {point}");
                assert!(
                    point == 0 || calm(point - 1) < share + 1e-9,
                    "{sizes:?} {share} {point}"
                );
                let service = Service::new(&table, point, quantity, sizes);
                assert!((service.cycle_share - calm(point)).abs() < 1e-9);
                assert!(service.whole_job_share >= service.cycle_share - 1e-9);
            }
        }
        // Thirty at a time, ordered by twelve: from 29 on each order leaves at least nothing to wait for but the next usage.
        let sizes = [(30, 1.0)];
        let table = DemandTable::new(&LeadTimeDemand::compound(0.023, &sizes));
        assert_eq!(reorder_point_for_share(&table, 12, &sizes, 0.95), 29);
        assert!(share_without_waiting(&table, 0, 12, &sizes) < 1e-9);
        // Single pieces are met as before.
        let table = DemandTable::new(&LeadTimeDemand::Poisson { mean: 0.57 });
        assert_eq!(reorder_point_for_share(&table, 7, &[(1, 1.0)], 0.95), 2);
    }

    #[test]
    fn the_unit_fill_of_usages_of_several_is_that_of_a_simulated_shelf() {
        // Usages at exponential times, each lead time 1, orders of Q until the position is above r: what each usage finds.
        for case in CASES {
            let (usages, sizes, reorder_point, quantity) = case;
            let mut draws = crate::plan::split_mix::SplitMix(7);
            let mut random = || draws.share();
            let (mut now, mut on_hand, mut position) = (0.0, quantity, quantity);
            let mut coming = std::collections::VecDeque::new();
            let (mut met, mut asked) = (0_i64, 0_i64);
            for _ in 0..300_000 {
                now -= (1.0 - random()).ln() / usages;
                while coming.front().is_some_and(|due| *due <= now) {
                    coming.pop_front();
                    on_hand += quantity;
                }
                let mut at = random();
                let drawn = sizes.iter().find(|(_, of)| {
                    at -= of;
                    at < 0.0
                });
                let size = i64::from(drawn.unwrap_or(&sizes[0]).0);
                met += size.min(on_hand.max(0));
                asked += size;
                on_hand -= size;
                position -= size;
                while position <= reorder_point {
                    position += quantity;
                    coming.push_back(now + 1.0);
                }
            }
            let simulated = met as f64 / asked as f64;
            assert!(
                (fill(case) - simulated).abs() < 0.006,
                "{case:?} {} {simulated}",
                fill(case)
            );
        }
    }
}
