//! Searches for levels against trying every level, and closed forms against sums.

use proptest::prelude::*;
use sparewright::plan::{
    DemandTable, LeadTimeDemand, PolicyPrices, SparePrices, best_owned, break_even_down_cost,
    cost_base_stock, on_hand_at_least, optimal_policy, order_up_to, poisson_base_stock,
    policy_cost, reorder_point_by_cost, reorder_point_by_fill, restricted_policy, unit_fill,
};

/// A demand of one of the kinds that levels are set for.
fn demand() -> impl Strategy<Value = LeadTimeDemand> {
    let poisson = (0.01_f64..12.0).prop_map(|mean| LeadTimeDemand::Poisson { mean });
    let wide = (0.05_f64..12.0, 1.05_f64..6.0)
        .prop_map(|(mean, spread)| LeadTimeDemand::new(mean, mean * spread));
    let lumpy = (0.05_f64..3.0, 0.1_f64..0.9).prop_map(|(usages, share)| {
        LeadTimeDemand::compound(usages, &[(1, share), (4, 1.0 - share)])
    });
    let varied = (0.001_f64..0.2, 2.0_f64..30.0, 0.2_f64..0.8).prop_map(|(rate, days, share)| {
        LeadTimeDemand::over_lead_times(rate, &[(days, share), (3.0 * days, 1.0 - share)])
    });
    prop_oneof![poisson, wide, lumpy, varied]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, ..ProptestConfig::default() })]

    #[test]
    fn the_point_by_fill_is_the_first_that_reaches_it(demand in demand(), quantity in 1_i64..25, target in 0.3_f64..0.995) {
        let table = DemandTable::new(&demand);
        let found = reorder_point_by_fill(&table, quantity, target);
        let tried = (-1..=table.end())
            .find(|point| unit_fill(&table, *point, quantity) >= target - 1e-12)
            .unwrap();
        prop_assert_eq!(found, tried);
    }

    #[test]
    fn the_point_by_cost_costs_no_more_than_any_other(demand in demand(), quantity in 1_i64..25, holding in 0.1_f64..20.0, waiting in 0.1_f64..2000.0) {
        let table = DemandTable::new(&demand);
        let prices = PolicyPrices { holding, waiting, order: 35.0, yearly: 6.0 };
        let found = reorder_point_by_cost(&table, quantity, holding, waiting);
        let cost = policy_cost(&table, &prices, found, quantity);
        for point in -1..table.end() {
            let other = policy_cost(&table, &prices, point, quantity);
            prop_assert!(cost <= other + 1e-9 * other.abs(), "{found} {cost}, {point} {other}");
        }
    }

    #[test]
    fn point_and_quantity_together_cost_no_more_than_any_pair(demand in demand(), holding in 0.5_f64..10.0, waiting in 5.0_f64..500.0, order in 1.0_f64..60.0, yearly in 0.5_f64..12.0) {
        let table = DemandTable::new(&demand);
        let prices = PolicyPrices { holding, waiting, order, yearly };
        let found = optimal_policy(&table, &prices);
        prop_assert!((policy_cost(&table, &prices, found.reorder_point, found.quantity) - found.cost).abs() < 1e-6 * found.cost);
        for quantity in 1..=2 * found.quantity + 3 {
            for point in found.reorder_point - 6..=found.reorder_point + 6 {
                let other = policy_cost(&table, &prices, point, quantity);
                prop_assert!(found.cost <= other * (1.0 + 1e-9), "{found:?} against {point}, {quantity}: {other}");
            }
        }
    }

    #[test]
    fn packs_and_minimums_are_met_at_the_least_cost(demand in demand(), pack in 1_i64..7, minimum in 0_i64..15, waiting in 5.0_f64..500.0) {
        let table = DemandTable::new(&demand);
        let prices = PolicyPrices { holding: 2.0, waiting, order: 20.0, yearly: 5.0 };
        let found = restricted_policy(&table, &prices, pack, minimum, None);
        prop_assert_eq!(found.quantity % pack, 0);
        prop_assert!(found.quantity >= minimum.max(1));
        let first = (minimum.max(1) + pack - 1) / pack;
        for packs in first..first + 30 {
            let quantity = packs * pack;
            let point = reorder_point_by_cost(&table, quantity, prices.holding, prices.waiting);
            let other = policy_cost(&table, &prices, point, quantity);
            prop_assert!(found.cost <= other * (1.0 + 1e-9), "{found:?} against {quantity}: {other}");
        }
    }

    #[test]
    fn a_cap_holds_unless_the_minimum_is_above_it(demand in demand(), pack in 1_i64..5, minimum in 1_i64..12, most in 1_i64..12) {
        let table = DemandTable::new(&demand);
        let prices = PolicyPrices { holding: 0.2, waiting: 90.0, order: 80.0, yearly: 9.0 };
        let found = restricted_policy(&table, &prices, pack, minimum, Some(most));
        let least = (minimum + pack - 1) / pack * pack;
        prop_assert!(found.quantity >= least);
        prop_assert!(found.quantity <= most.max(least), "{found:?}, at most {most}, at least {least}");
        prop_assert_eq!(found.quantity % pack, 0);
    }

    #[test]
    fn base_stock_by_cost_is_the_cheapest_of_all(demand in demand(), holding in 0.1_f64..20.0, waiting in 0.1_f64..900.0) {
        let table = DemandTable::new(&demand);
        let found = cost_base_stock(&table, holding, waiting);
        let cost = |units: i64| -> f64 {
            // E[(S - X)+] and E[(X - S)+] by their sums.
            (0..=table.end() + 1).map(|x| {
                let over = (units - x).max(0) as f64;
                let under = (x - units).max(0) as f64;
                table.share(x) * (holding * over + waiting * under)
            }).sum()
        };
        prop_assert!((found.cost - cost(found.base_stock)).abs() < 1e-6 * (1.0 + found.cost), "{found:?}, {}", cost(found.base_stock));
        for units in 0..=table.end() {
            prop_assert!(found.cost <= cost(units) + 1e-6 * (1.0 + found.cost), "{found:?}, {units}");
        }
    }

    #[test]
    fn spares_to_own_are_the_cheapest_number(demand in demand(), holding in 1.0_f64..900.0, down_per_h in 0.1_f64..200.0) {
        let table = DemandTable::new(&demand);
        let prices = SparePrices { holding, down_per_h };
        let cost = |owned: i64| holding * owned as f64 + down_per_h * 8760.0 * table.shortfall(owned);
        let best = best_owned(&table, &prices);
        for owned in 0..table.end() {
            prop_assert!(cost(best) <= cost(owned) + 1e-6 * cost(owned), "{best}, {owned}");
        }
        // The last one owned pays at its break-even cost, the next one does not.
        if best > 0 {
            let even = break_even_down_cost(&table, holding, best).unwrap();
            prop_assert!(down_per_h > even * (1.0 - 1e-9));
        }
        if let Some(even) = break_even_down_cost(&table, holding, best + 1) {
            prop_assert!(down_per_h <= even * (1.0 + 1e-9));
        }
    }

    #[test]
    fn shares_on_the_shelf_are_sums_over_positions(demand in demand(), point in -1_i64..20, quantity in 1_i64..12, units in 0_i64..8) {
        let table = DemandTable::new(&demand);
        // P(position - X >= units), the position each of r + 1 .. r + Q alike.
        let mut sum = 0.0;
        for position in point + 1..=point + quantity {
            for x in 0..=(position - units).max(-1) {
                sum += table.share(x);
            }
        }
        let found = on_hand_at_least(&table, point, quantity, units);
        prop_assert!((found - sum / quantity as f64).abs() < 1e-9, "{found} {sum}");
    }

    #[test]
    fn the_smallest_base_stock_of_a_poisson_demand_is_by_its_sum(mean in 0.0_f64..30.0, target in 0.01_f64..0.9999) {
        let found = poisson_base_stock(mean, target);
        let mut share = (-mean).exp();
        let mut sum = share;
        let mut units = 0_u32;
        while sum < target {
            units += 1;
            share *= mean / f64::from(units);
            sum += share;
        }
        prop_assert_eq!(found, u64::from(units) + 1);
    }
}

/// Mean cost a period of (s, S) from the chain of positions after ordering, by going round it many times.
fn cost_by_iteration(
    mean: f64,
    holding: f64,
    waiting: f64,
    order: f64,
    low: i64,
    up_to: i64,
) -> f64 {
    let table = DemandTable::new(&LeadTimeDemand::Poisson { mean });
    let states = (up_to - low) as usize;
    // State k: position S - k after ordering, k below S - s.
    let mut now = vec![0.0; states];
    now[0] = 1.0;
    let mut cost = 0.0;
    for round in 0..4000 {
        let mut next = vec![0.0; states];
        cost = 0.0;
        for (below, chance) in now.iter().enumerate() {
            let position = up_to - below as i64;
            let short = table.shortfall(position);
            cost += chance * (holding * (position as f64 - table.mean() + short) + waiting * short);
            for x in 0..=table.end() {
                let reached = below + x as usize;
                let share = chance * table.share(x);
                if reached < states {
                    next[reached] += share;
                } else {
                    next[0] += share;
                    cost += share * order;
                }
            }
        }
        // The mean of two rounds ends a chain that swings.
        for (now, next) in now.iter_mut().zip(&next) {
            *now = if round == 0 {
                *next
            } else {
                f64::midpoint(*now, *next)
            };
        }
    }
    cost
}

#[test]
fn periodic_levels_cost_what_the_chain_of_positions_costs_and_neighbours_cost_more() {
    for (mean, holding, waiting, order) in [
        (2.0, 1.0, 9.0, 10.0),
        (4.0, 1.0, 4.0, 6.0),
        (1.0, 2.0, 30.0, 5.0),
    ] {
        let found = order_up_to(mean, holding, waiting, order);
        let cost = |low, up_to| cost_by_iteration(mean, holding, waiting, order, low, up_to);
        let own = cost(found.reorder_point, found.up_to);
        assert!((own - found.cost).abs() < 1e-6, "{found:?}: {own}");
        for low in -1..=1 {
            for high in -1..=1 {
                let (low, up_to) = (found.reorder_point + low, found.up_to + high);
                if low < up_to {
                    assert!(
                        cost(low, up_to) >= own - 1e-7,
                        "{low}, {up_to} of {found:?}"
                    );
                }
            }
        }
    }
}
