//! Reorder point and order quantity: when the stock position falls to r, order Q.

use super::demand_table::DemandTable;

/// Steps of a search that cannot end otherwise.
const MOST_STEPS: usize = 1_000_000;

/// Lowest reorder point where nobody is left waiting to fill an order.
const LOWEST: i64 = -1;

/// A reorder point with its quantity and what it costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReorderPolicy {
    /// Order when the stock position is at or below this.
    pub reorder_point: i64,
    /// Units of each order.
    pub quantity: i64,
    /// Orders, holding and waiting, money a year.
    pub cost: f64,
}

/// Money of holding, waiting and ordering.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PolicyPrices {
    /// A unit on the shelf for a year.
    pub holding: f64,
    /// A unit waited for, for a year.
    pub waiting: f64,
    /// One order.
    pub order: f64,
    /// Units used a year.
    pub yearly: f64,
}

impl PolicyPrices {
    /// Cost rate at a stock position of `units`: `h E[(y - X)+] + p E[(X - y)+]`.
    pub fn at(&self, table: &DemandTable, units: i64) -> f64 {
        let short = table.shortfall(units);
        self.holding * (units as f64 - table.mean() + short) + self.waiting * short
    }
}

/// Share of units met from the shelf under (r, Q) where each usage takes one, the stock position being uniform on
/// r + 1 .. r + Q.
pub fn unit_fill(table: &DemandTable, reorder_point: i64, quantity: i64) -> f64 {
    // At positions of 0 or less nothing is met; the shortfall runs on below 0 in steps of 1.
    1.0 - unmet(table, reorder_point, quantity, 1)
}

/// The same where usages take `sizes` units (size, share; empty: 1 unit): `E[min(size, on hand)] / E[size]`.
///
/// A usage of two that finds one goes without the other, however rare the demand of the lead time is.
pub fn unit_fill_of_sizes(
    table: &DemandTable,
    reorder_point: i64,
    quantity: i64,
    sizes: &[(u32, f64)],
) -> f64 {
    let mean: f64 = sizes
        .iter()
        .map(|(size, share)| f64::from(*size) * share)
        .sum();
    if mean <= 0.0 {
        return unit_fill(table, reorder_point, quantity);
    }
    let (mut short, mut of_size, mut before) = (0.0, 0.0, 0);
    for (size, share) in sizes {
        let size = i64::from(*size);
        // From one size to a larger one near by only what lies between them is added up.
        if (0..=quantity).contains(&(size - before)) {
            of_size += unmet_between(table, reorder_point, quantity, (before, size));
        } else {
            of_size = unmet(table, reorder_point, quantity, size);
        }
        before = size;
        short += share * of_size;
    }
    1.0 - short / mean
}

/// What [`unmet`] grows by from one size to a larger one.
fn unmet_between(
    table: &DemandTable,
    reorder_point: i64,
    quantity: i64,
    (smaller, larger): (i64, i64),
) -> f64 {
    let of = |end: i64| table.shortfall_sum(end - larger + 1, end - smaller);
    (of(reorder_point) - of(reorder_point + quantity)) / quantity as f64
}

/// Units that a usage of `size` does not find: what the shortfall grows by as so many units less are there, in the mean over
/// the stock positions r + 1 .. r + Q. Only the ends of the two rows of positions differ.
fn unmet(table: &DemandTable, reorder_point: i64, quantity: i64, size: i64) -> f64 {
    let last = reorder_point + quantity;
    let (step, lower, upper) = if size <= quantity {
        (size, reorder_point, last)
    } else {
        (quantity, last - size, last)
    };
    let of = |end: i64| table.shortfall_sum(end - step + 1, end);
    (of(lower) - of(upper)) / quantity as f64
}

/// Smallest reorder point, -1 or more, at which the unit fill of usages of one reaches the target for a given quantity.
pub fn reorder_point_by_fill(table: &DemandTable, quantity: i64, target_share: f64) -> i64 {
    let most_unmet = (1.0 - target_share) * quantity as f64;
    smallest(LOWEST, table.end(), |r| {
        table.shortfall(r) - table.shortfall(r + quantity) <= most_unmet + 1e-12
    })
}

/// Reorder point of the least cost for a given quantity, at least -1: nobody is left waiting to fill an order.
///
/// Smallest r at which the mean of P(X <= y) over y = r + 1 .. r + Q is at least `p / (p + h)`.
pub fn reorder_point_by_cost(
    table: &DemandTable,
    quantity: i64,
    holding: f64,
    waiting: f64,
) -> i64 {
    let most_over = holding / (holding + waiting) * quantity as f64;
    smallest(LOWEST, table.end(), |r| {
        table.shortfall(r + 1) - table.shortfall(r + quantity + 1) <= most_over
    })
}

/// Smallest whole number between two bounds for which something holds that holds from there on; the upper bound where
/// it never does.
fn smallest(low: i64, high: i64, holds: impl Fn(i64) -> bool) -> i64 {
    let (mut low, mut high) = (low, high.max(low));
    while low < high {
        let middle = low + (high - low) / 2;
        if holds(middle) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    low
}

/// Reorder point and quantity of the least cost.
///
/// # Source
/// Federgruen & Zheng, An efficient algorithm for computing an optimal (r, Q) policy in continuous review stochastic
/// inventory systems, Operations Research 40(4):808-813 (1992): grow the set of stock positions by the cheaper neighbour
/// while that lowers the mean.
pub fn optimal_policy(table: &DemandTable, prices: &PolicyPrices) -> ReorderPolicy {
    policy_from(i64::MIN, table, prices)
}

/// The same among reorder points of `lowest` or more: positions at or below it are never the cheaper neighbour.
fn policy_from(lowest: i64, table: &DemandTable, prices: &PolicyPrices) -> ReorderPolicy {
    let first = table.quantile(prices.waiting / (prices.waiting + prices.holding));
    let ordering = prices.order * prices.yearly;
    let mut sum = prices.at(table, first);
    let (mut reorder_point, mut quantity) = (first - 1, 1_i64);
    let mut cost = ordering + sum;
    for _ in 0..MOST_STEPS {
        let below = if reorder_point > lowest {
            prices.at(table, reorder_point)
        } else {
            f64::INFINITY
        };
        let above = prices.at(table, reorder_point + quantity + 1);
        let next = below.min(above);
        if next >= cost {
            break;
        }
        sum += next;
        quantity += 1;
        if below < above {
            reorder_point -= 1;
        }
        cost = (ordering + sum) / quantity as f64;
    }
    ReorderPolicy {
        reorder_point,
        quantity,
        cost,
    }
}

/// Cost a year of a reorder point and quantity.
pub fn policy_cost(
    table: &DemandTable,
    prices: &PolicyPrices,
    reorder_point: i64,
    quantity: i64,
) -> f64 {
    let positions = reorder_point + 1..=reorder_point + quantity;
    let sum: f64 = positions.map(|units| prices.at(table, units)).sum();
    (prices.order * prices.yearly + sum) / quantity as f64
}

/// Cheapest policy among quantities that can be bought: multiples of the pack, at least the minimum, no more than `most`
/// where there is a cap that the minimum respects.
///
/// The cost of the best reorder point for a quantity has one valley over the quantity, so that the best multiple is next
/// to the optimum among the same reorder points (Zheng, On properties of stochastic inventory systems, Management Science
/// 38:87-103, 1992).
pub fn restricted_policy(
    table: &DemandTable,
    prices: &PolicyPrices,
    pack: i64,
    minimum: i64,
    most: Option<i64>,
) -> ReorderPolicy {
    let pack = pack.max(1);
    let up = |units: i64| (units.max(1) + pack - 1) / pack * pack;
    let least = up(minimum);
    let free = policy_from(LOWEST, table, prices).quantity;
    let cap = most.map_or(i64::MAX, |most| (most / pack * pack).max(least));
    let fit = |units: i64| up(units).clamp(least, cap);
    let candidates = [fit(free - pack + 1), fit(free)];
    let policies = candidates.map(|quantity| {
        let reorder_point = reorder_point_by_cost(table, quantity, prices.holding, prices.waiting);
        ReorderPolicy {
            reorder_point,
            quantity,
            cost: policy_cost(table, prices, reorder_point, quantity),
        }
    });
    if policies[1].cost < policies[0].cost {
        policies[1]
    } else {
        policies[0]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::level::LeadTimeDemand;

    #[test]
    fn fill_of_sizes_is_what_usages_find_at_each_stock_position() {
        // By definition, term by term: a usage of s units finds min(s, what is there) of them, the position uniform on
        // r + 1 .. r + Q and what is there the position less the demand of the lead time, never below 0.
        let table = DemandTable::new(&LeadTimeDemand::Poisson { mean: 3.5 });
        let sizes = [
            &[(1, 0.5), (2, 0.3), (3, 0.2)][..],
            &[(2, 0.25), (9, 0.25), (40, 0.5)],
            &[(5, 0.4), (5, 0.1), (1, 0.5)],
            &[(7, 1.0)],
        ];
        for sizes in sizes {
            for (reorder_point, quantity) in [(-1, 1), (0, 4), (3, 1), (6, 10), (20, 3)] {
                let (mut found, mut asked) = (0.0, 0.0);
                for (size, share) in sizes {
                    for position in reorder_point + 1..=reorder_point + quantity {
                        for demand in 0..table.end() {
                            let there = (position - demand).clamp(0, i64::from(*size));
                            found += share * table.share(demand) * there as f64 / quantity as f64;
                        }
                    }
                    asked += share * f64::from(*size);
                }
                let fill = unit_fill_of_sizes(&table, reorder_point, quantity, sizes);
                assert!(
                    (fill - found / asked).abs() < 1e-9,
                    "{reorder_point} {quantity} {sizes:?}: {fill}, not {}",
                    found / asked
                );
            }
        }
    }
}
