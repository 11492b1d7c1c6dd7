//! Reorder point and order quantity: when the stock position falls to r, order Q.

use super::demand_table::DemandTable;

/// Lowest reorder point where nobody is left waiting to fill an order.
pub(super) const LOWEST: i64 = -1;

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
pub(super) fn smallest(low: i64, high: i64, holds: impl Fn(i64) -> bool) -> i64 {
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
