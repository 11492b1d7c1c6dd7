//! One price of a stock-out for all parts: levels, service and money against trying, and what must hold for any shop.

use proptest::prelude::*;
use sparewright::plan::{
    BudgetRange, DemandTable, LeadTimeDemand, NormalPart, PricedPart, unit_fill,
};
use sparewright::plan::{
    curve, factor_for_service, measure, reorder_points, reorder_points_for_budget,
};

fn part() -> impl Strategy<Value = PricedPart> {
    (
        0.02_f64..6.0,
        1.0_f64..3.0,
        1_i64..8,
        1_u32..30_000,
        0.05_f64..0.5,
        1.0_f64..400.0,
        0.1_f64..10.0,
    )
        .prop_map(
            |(mean, spread, quantity, cents, share, waiting_per_h, weighted_yearly)| {
                let price = f64::from(cents) / 100.0;
                PricedPart {
                    table: DemandTable::new(&LeadTimeDemand::new(mean, mean * spread)).into(),
                    jobs: None,
                    sizes: Vec::new(),
                    quantity,
                    price,
                    holding: share * price,
                    waiting_per_h,
                    year_h: 4_000.0,
                    weighted_yearly,
                    fill_if_none: None,
                    ending: None,
                }
            },
        )
}

fn parts() -> impl Strategy<Value = Vec<PricedPart>> {
    prop::collection::vec(part(), 1..6)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 80, ..ProptestConfig::default() })]

    #[test]
    fn measures_are_sums_over_parts(parts in parts(), factor in 1e-4_f64..2.0) {
        let points = reorder_points(&parts, factor);
        let whole = measure(&parts, &points, factor);
        let each: Vec<_> = parts.iter().zip(&points).map(|(part, point)| measure(std::slice::from_ref(part), &[*point], factor)).collect();
        let sum = |of: fn(&sparewright::plan::CurvePoint) -> f64| each.iter().map(of).sum::<f64>();
        prop_assert!((whole.stock_value - sum(|of| of.stock_value)).abs() < 1e-6 * (1.0 + whole.stock_value));
        prop_assert!((whole.waiting_h - sum(|of| of.waiting_h)).abs() < 1e-6 * (1.0 + whole.waiting_h));
        prop_assert!((whole.waiting_cost - sum(|of| of.waiting_cost)).abs() < 1e-6 * (1.0 + whole.waiting_cost));
        let weights: f64 = parts.iter().map(|part| part.weighted_yearly).sum();
        let met: f64 = parts.iter().zip(&points)
            .map(|(part, point)| part.weighted_yearly * unit_fill(&part.table, *point, part.quantity).max(0.0)).sum();
        prop_assert!((whole.fill_share - met / weights).abs() < 1e-9);
    }

    #[test]
    fn a_dearer_stock_out_never_keeps_less_nor_serves_worse(parts in parts(), factor in 1e-5_f64..1.0, times in 1.0_f64..100.0) {
        let (low, high) = (reorder_points(&parts, factor), reorder_points(&parts, factor * times));
        prop_assert!(low.iter().zip(&high).all(|(low, high)| low <= high));
        let (low, high) = (measure(&parts, &low, factor), measure(&parts, &high, factor));
        prop_assert!(high.stock_value >= low.stock_value - 1e-9);
        prop_assert!(high.waiting_h <= low.waiting_h + 1e-9);
        prop_assert!(high.fill_share >= low.fill_share - 1e-9);
    }

    #[test]
    fn the_price_for_a_service_is_the_least_that_reaches_it(parts in parts(), target in 0.5_f64..0.999) {
        let factor = factor_for_service(&parts, target);
        let fill = |factor: f64| measure(&parts, &reorder_points(&parts, factor), factor).fill_share;
        prop_assert!(fill(factor) >= target - 1e-9, "{factor}: {}", fill(factor));
        if factor > 2e-9 {
            prop_assert!(fill(factor * (1.0 - 1e-6)) < target + 1e-12, "{factor}: {}", fill(factor * (1.0 - 1e-6)));
        }
    }

    #[test]
    fn a_budget_is_kept_and_buys_no_less_than_one_price_would(parts in parts(), factor in 1e-4_f64..1.0) {
        // The levels of one price cost some sum; that sum, spent unit by unit, leaves no more cost of waiting.
        let by_price = reorder_points(&parts, factor);
        let spent = measure(&parts, &by_price, factor);
        let ranges: Vec<BudgetRange> = parts.iter().map(|part| BudgetRange::of(part, true)).collect();
        let by_budget = reorder_points_for_budget(&parts, &ranges, spent.stock_value).reorder_points;
        let got = measure(&parts, &by_budget, factor);
        let least: f64 = parts.iter().map(|part| part.stock_value(-1)).sum();
        prop_assert!(got.stock_value <= spent.stock_value.max(least) + 0.01 * parts.len() as f64, "{got:?} {spent:?}");
        prop_assert!(got.waiting_cost <= spent.waiting_cost + 1e-3 + 1e-6 * spent.waiting_cost, "{got:?} {spent:?}");
    }

    #[test]
    fn more_money_never_amounts_to_a_lower_price(parts in parts(), first in 0.0_f64..2_000.0, second in 0.0_f64..2_000.0) {
        let ranges: Vec<BudgetRange> = parts.iter().map(|part| BudgetRange::of(part, true)).collect();
        let least: f64 = parts.iter().map(|part| part.stock_value(-1)).sum();
        let of = |sum: f64| reorder_points_for_budget(&parts, &ranges, least + sum);
        let (low, high) = (first.min(second), first.max(second));
        let (less, more) = (of(low), of(high));
        prop_assert!(less.factor <= more.factor, "{less:?} {more:?}");
        // The sum pays for every level of the price that it amounts to.
        let at_price = measure(&parts, &reorder_points(&parts, less.factor), less.factor);
        prop_assert!(at_price.stock_value <= least + low + 0.01, "{at_price:?}");
        prop_assert!(measure(&parts, &less.reorder_points, less.factor).waiting_cost <= at_price.waiting_cost * (1.0 + 1e-6) + 1e-3);
    }

    #[test]
    fn the_curve_rises_in_money_and_service(parts in parts()) {
        let points = curve(&parts, |_, point| point);
        prop_assert!(!points.is_empty());
        for pair in points.windows(2) {
            prop_assert!(pair[0].factor < pair[1].factor);
            prop_assert!(pair[0].stock_value < pair[1].stock_value);
            prop_assert!(pair[0].fill_share <= pair[1].fill_share + 1e-9);
            prop_assert!(pair[0].waiting_h >= pair[1].waiting_h - 1e-9);
        }
    }

    #[test]
    fn money_in_another_currency_keeps_every_level(parts in parts(), rate in 0.05_f64..20.0, factor in 1e-4_f64..1.0) {
        let other: Vec<PricedPart> = parts.iter().map(|part| PricedPart {
            price: part.price * rate,
            holding: part.holding * rate,
            waiting_per_h: part.waiting_per_h * rate,
            ..part.clone()
        }).collect();
        let (a, b) = (reorder_points(&parts, factor), reorder_points(&other, factor));
        // A level may stand on the very edge.
        let off: i64 = a.iter().zip(&b).map(|(a, b)| (a - b).abs()).sum();
        prop_assert!(off <= 1, "{a:?} {b:?}");
        let (a, b) = (measure(&parts, &a, factor), measure(&other, &a, factor));
        prop_assert!((a.stock_value * rate / b.stock_value.max(1e-12) - 1.0).abs() < 1e-6 || a.stock_value < 1e-9);
    }

    #[test]
    fn a_normal_shortfall_is_its_integral(mean in 5.0_f64..200.0, cv in 0.05_f64..0.5, lead_time in 0.1_f64..4.0, z in -2.5_f64..3.0) {
        let part = NormalPart { mean, sd: mean * cv, lead_time, holding: 1.0, short: 20.0, order: 30.0 };
        let (m, s) = (mean * lead_time, mean * cv * lead_time.sqrt());
        let units = m + z * s;
        // E[(X - u)+] by the midpoint rule over ten standard deviations.
        let steps = 20_000;
        let step = 12.0 * s / f64::from(steps);
        let sum: f64 = (0..steps).map(|at| {
            let x = units + (f64::from(at) + 0.5) * step;
            let t = (x - m) / s;
            (x - units) * (-t * t / 2.0).exp() / (s * (2.0 * std::f64::consts::PI).sqrt()) * step
        }).sum();
        let found = part.shortfall(units).unwrap();
        prop_assert!((found - sum).abs() < 1e-4 * s, "{found} {sum}");
    }

    #[test]
    fn a_fixed_point_for_fast_movers_costs_no_more_than_its_neighbours(mean in 500.0_f64..5_000.0, cv in 0.05_f64..0.3, lead_time in 0.02_f64..0.3, short in 5.0_f64..60.0, order in 5.0_f64..200.0) {
        let part = NormalPart { mean, sd: mean * cv, lead_time, holding: 2.0, short, order };
        let Some((point, quantity, cost)) = part.by_units_short() else { return Ok(()) };
        let of = |r: f64, q: f64| {
            2.0 * (r - mean * lead_time + q / 2.0) + (order + short * part.shortfall(r).unwrap()) * mean / q
        };
        prop_assert!((of(point, quantity) - cost).abs() < 1e-6 * cost);
        for (dr, dq) in [(0.02, 0.0), (-0.02, 0.0), (0.0, 0.02), (0.0, -0.02)] {
            let other = of(point + dr * part.sd, quantity * (1.0 + dq));
            prop_assert!(other >= cost * (1.0 - 1e-9), "{point} {quantity} {cost}: {other}");
        }
        // Safety stock by the critical ratio: the share of lead times that are enough.
        let (by_ratio, economic) = part.by_safety_stock().unwrap();
        let z = (by_ratio - mean * lead_time) / (part.sd * lead_time.sqrt());
        let share = 0.5 * (1.0 + statrs::function::erf::erf(z / 2.0_f64.sqrt()));
        prop_assert!((share - short / (short + 2.0)).abs() < 1e-6);
        prop_assert!((economic - (2.0 * mean * order / 2.0).sqrt()).abs() < 1e-6 * economic);
        prop_assert!(quantity >= economic - 1e-6, "shortages make orders larger");
    }
}

#[test]
fn the_value_of_a_stock_is_its_reorder_point_and_half_an_order() {
    let part = PricedPart {
        table: DemandTable::new(&LeadTimeDemand::Poisson { mean: 1.0 }).into(),
        jobs: None,
        sizes: Vec::new(),
        quantity: 5,
        price: 10.0,
        holding: 2.0,
        waiting_per_h: 50.0,
        year_h: 2_000.0,
        weighted_yearly: 4.0,
        fill_if_none: None,
        ending: None,
    };
    // r + (Q + 1) / 2: 2 + 3 at 10 each; never below nothing.
    for (point, value) in [(2, 50.0), (0, 30.0), (-1, 20.0), (-3, 0.0), (-9, 0.0)] {
        assert!((part.stock_value(point) - value).abs() < 1e-9, "{point}");
    }
    let none = measure(&[], &[], 0.5);
    assert!((none.stock_value + none.fill_share + none.waiting_h).abs() < 1e-12);
    assert!((none.factor - 0.5).abs() < 1e-12);
    assert_eq!(
        curve(&[], |_, point| point).len(),
        1,
        "without parts every price gives nothing"
    );
}

#[test]
fn what_a_budget_is_filled_up_with_is_not_its_price() {
    let part = |price: f64| PricedPart {
        table: DemandTable::new(&LeadTimeDemand::new(0.5, 0.5)).into(),
        jobs: None,
        sizes: Vec::new(),
        quantity: 1,
        price,
        holding: 0.2 * price,
        waiting_per_h: 100.0,
        year_h: 4_000.0,
        weighted_yearly: 1.0,
        fill_if_none: None,
        ending: None,
    };
    let parts = [part(1_000.0), part(0.10)];
    // By hand, demand Poisson of 0.5: the second dear one is in use P(X >= 2) = 0.0902 of the time and pays where
    // 0.0902 x 100 x 4,000 x price is above 200 x 0.9098, from 0.00504 on.
    let second = parts[0].pays_from(1);
    assert!((second - 0.005_04).abs() < 0.000_01, "{second}");
    let ranges = [0, 1].map(|at: usize| BudgetRange::of(&parts[at], true));
    let set = reorder_points_for_budget(&parts, &ranges, 1_010.0);
    // The 10.00 that one dear one leaves buy every cheap one that pays, up to nearly the downtime in full, and the second dear
    // one would not fit: the price is below the one from which that pays.
    assert_eq!(set.reorder_points, [0, ranges[1].most]);
    let last = parts[1].pays_from(ranges[1].most);
    assert!(set.factor <= second && second < last, "{set:?} {last}");
    assert!(!set.is_all_that_pays);
}

#[test]
fn a_target_is_met_by_what_usages_of_several_find() {
    // 0.0196 usages of two in the lead time, ordered nine at a time. By hand (see the fill of sizes): with a reorder point of 0
    // a usage at the last one finds half of what it takes, 0.9401 in all; with 1 none before it finds all, one before it
    // (0.5 + 7) / 9 and two (0.5 + 5) / 9: 0.98059 + 0.01922 x 0.8333 + 0.00019 x 0.6111 = 0.9967.
    let part = PricedPart {
        table: DemandTable::new(&LeadTimeDemand::compound(0.0196, &[(2, 1.0)])).into(),
        jobs: None,
        sizes: vec![(2, 1.0)],
        quantity: 9,
        price: 40.0,
        holding: 8.0,
        waiting_per_h: 100.0,
        year_h: 4_000.0,
        weighted_yearly: 1.0,
        fill_if_none: None,
        ending: None,
    };
    assert!((part.fill(0) - 0.9401).abs() < 1e-4);
    assert!((part.fill(1) - 0.9967).abs() < 1e-4);
    let parts = [part];
    for (target, point) in [(0.94, 0), (0.99, 1), (0.998, 2)] {
        let factor = factor_for_service(&parts, target);
        assert_eq!(reorder_points(&parts, factor), [point], "{target}");
        let shop = measure(&parts, &[point], factor);
        assert!(shop.fill_share >= target, "{shop:?}");
    }
}
