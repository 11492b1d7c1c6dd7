//! Base stock: whatever is used is ordered again one for one.

use super::demand_table::DemandTable;

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

/// Smallest base stock S with P(Poisson demand <= S - 1) at or above the target.
///
/// # Units
/// `mean` units in the mean lead time. With independent lead times only their mean matters (Palm; Feeney &
/// Sherbrooke, Management Science 12:391-411, 1966).
pub fn poisson_base_stock(mean: f64, target_share: f64) -> u64 {
    if mean >= 200.0 {
        let demand = super::lead_time_demand::LeadTimeDemand::Poisson { mean };
        return DemandTable::new(&demand).quantile(target_share) as u64 + 1;
    }
    let mut share = (-mean).exp();
    let mut at_most = share;
    let mut units = 0_usize;
    while at_most < target_share {
        units += 1;
        let reciprocal = match RECIPROCALS.get(units) {
            Some(reciprocal) => *reciprocal,
            None => 1.0 / units as f64,
        };
        share *= mean * reciprocal;
        at_most += share;
        if share < 1e-18 && units as f64 > mean {
            break;
        }
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
