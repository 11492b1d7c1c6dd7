//! Base stock: whatever is used is ordered again one for one.

use super::super::demand_table::DemandTable;

/// Reciprocals of the first counts, because a division takes longer than the rest of a step.
const RECIPROCALS: [f64; 256] = {
    let mut table = [0.0; 256];
    let mut count = 1;
    while count < 256 {
        table[count] = 1.0 / count as f64;
        count += 1;
    }
    table
};

/// Counts that are added up without a question in between.
const FIRST: usize = 4;

/// Smallest base stock S with P(Poisson demand <= S - 1) at or above the target.
///
/// # Units
/// `mean` units in the mean lead time. With independent lead times only their mean matters (Palm; Feeney &
/// Sherbrooke, Management Science 12:391-411, 1966).
pub fn poisson_base_stock(mean: f64, target_share: f64) -> u64 {
    if mean >= 200.0 {
        let demand = super::super::lead_time_demand::LeadTimeDemand::Poisson { mean };
        return DemandTable::new(&demand).quantile(target_share) as u64 + 1;
    }
    let none = (-mean).exp();
    // Most slow movers are done within a few counts: how many of them fall short is told by adding, where a question after
    // each would make the processor guess, and a wrong guess takes longer than all of them.
    let (mut share, mut at_most) = (none, none);
    let mut short = usize::from(at_most < target_share);
    for reciprocal in &RECIPROCALS[1..=FIRST] {
        share *= mean * reciprocal;
        at_most += share;
        short += usize::from(at_most < target_share);
    }
    if short <= FIRST {
        return short as u64 + 1;
    }
    let mut units = FIRST;
    while at_most < target_share && (share >= 1e-18 || units as f64 <= mean) {
        units += 1;
        let reciprocal = match RECIPROCALS.get(units) {
            Some(reciprocal) => *reciprocal,
            None => 1.0 / units as f64,
        };
        share *= mean * reciprocal;
        at_most += share;
    }
    units as u64 + 1
}

/// Cost a year of a base stock and what it is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockCost {
    /// Base stock, units.
    pub base_stock: i64,
    /// Holding what is on the shelf and waiting for what is not, money a year.
    pub cost: f64,
    /// Expected units waited for at a random moment.
    pub waiting: f64,
}

/// Base stock of the least cost: the smallest S with P(demand <= S) at or above `p / (p + h)`.
///
/// # Units
/// `holding` money a unit on the shelf and year, `waiting` money a unit waited for and year.
/// # Source
/// Critical ratio (Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd ed., 2019, section 4.3), on the demand in the
/// lead time.
pub fn cost_base_stock(table: &DemandTable, holding: f64, waiting: f64) -> StockCost {
    let base_stock = table.quantile(waiting / (waiting + holding));
    let short = table.shortfall(base_stock);
    StockCost {
        base_stock,
        cost: holding * (base_stock as f64 - table.mean() + short) + waiting * short,
        waiting: short,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::LeadTimeDemand;

    #[test]
    fn the_least_stock_is_told_by_the_distribution_itself_at_every_count() {
        // Targets on both sides of what 0 to 9 units reach, where one that is added up too few or too many would show;
        // the distribution is that of statrs.
        use statrs::distribution::{DiscreteCDF, Poisson};
        for mean in [1e-9, 0.05, 0.4, 1.0, 1.7, 2.6, 4.0, 7.5, 30.0] {
            let poisson = Poisson::new(mean).unwrap();
            for units in 0..10 {
                let reached = poisson.cdf(units);
                if reached > 1.0 - 1e-9 {
                    continue;
                }
                let target = |times: f64| poisson_base_stock(mean, reached * times);
                assert_eq!(target(1.0 - 1e-10), units + 1, "{mean} {units}");
                assert_eq!(target(1.0 + 1e-10), units + 2, "{mean} {units}");
            }
        }
    }

    #[test]
    fn a_target_that_nothing_reaches_ends_where_nothing_is_left() {
        for mean in [0.0, 1e-6, 0.3, 3.0, 60.0] {
            let found = poisson_base_stock(mean, 1.5);
            assert!(
                found >= 1 && (found as f64) < 8.0 * mean + 30.0,
                "{mean}: {found}"
            );
        }
    }

    #[test]
    fn small_and_large_means_agree_with_the_table() {
        for mean in [0.0, 0.01, 0.7, 3.3, 150.0, 199.9, 200.0, 900.0, 3000.0] {
            let table = DemandTable::new(&LeadTimeDemand::Poisson { mean });
            for target in [0.5, 0.9, 0.99, 0.9999] {
                let expected = table.quantile(target) as u64 + 1;
                assert_eq!(
                    poisson_base_stock(mean, target),
                    expected,
                    "{mean} {target}"
                );
            }
        }
    }
}
