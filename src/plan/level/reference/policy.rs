//! Reorder point and quantity together, of the least cost or for a share of units met.
//!
//! The plan takes the quantity first, from price breaks, packs and shelf life, and the reorder point for it after.

use super::super::demand_table::DemandTable;
use super::super::reorder_quantity::{LOWEST, reorder_point_by_cost, smallest};

/// Steps of a search that cannot end otherwise.
const MOST_STEPS: usize = 1_000_000;

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

/// Smallest reorder point, -1 or more, at which the unit fill of usages of one reaches the target for a given quantity.
pub fn reorder_point_by_fill(table: &DemandTable, quantity: i64, target_share: f64) -> i64 {
    let most_unmet = (1.0 - target_share) * quantity as f64;
    smallest(LOWEST, table.end(), |r| {
        table.shortfall(r) - table.shortfall(r + quantity) <= most_unmet + 1e-12
    })
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
