//! Demand, reorder points, quantities and service of one part.

use sparewright::plan::{
    DemandTable, FastReorder, LeadTimeDemand, NormalPart, OneShotPrices, PolicyPrices, Service,
    SharedLine, cost_base_stock, dated_orders, economic_quantity, economic_quantity_with_waiting,
    one_shot, one_shot_normal, optimal_policy, order_up_to, poisson_base_stock, policy_cost,
    power_approximation, reorder_point_by_cost, reorder_point_by_fill, restricted_policy,
    shared_orders, unit_fill, with_all_units_breaks, with_incremental_breaks,
};

use super::{
    demand_of, example, number, numbers, outside, poisson, rows, same, sizes, table, whole,
};

#[test]
pub fn demand_in_the_lead_time_is_that_of_scipy() {
    let book = table("oracle_ltd.json");
    let mut checked = 0;
    for row in rows(&book["cases"], 28) {
        let Some(demand) = demand_of(row) else {
            // The normal approximation stands in the file for comparison only.
            continue;
        };
        checked += 1;
        // The reference integrates the lognormal with 2,000 nodes in quantile space, right to 5 in 10^7.
        let is_lognormal = row["case"].as_str().unwrap().contains("lognormal");
        let tolerance = if is_lognormal { 1e-6 } else { 1e-9 };
        let what = format!("{} {}", row["case"], row["inputs"]);
        let (mean, variance) = demand.moments();
        same(mean, &row["mean"], tolerance, &what);
        same(variance, &row["var"], 10.0 * tolerance, &what);
        let found = DemandTable::new(&demand);
        for units in 0..10 {
            let at = units as usize;
            same(found.share(units), &row["pmf0_9"][at], tolerance, &what);
            same(found.at_most(units), &row["cdf0_9"][at], tolerance, &what);
            same(
                demand.at_most(units as u64),
                &row["cdf0_9"][at],
                tolerance,
                &what,
            );
            same(
                found.shortfall(units),
                &row["loss_0_9"][at],
                tolerance,
                &what,
            );
        }
        for (share, units) in row["quantiles"].as_object().unwrap() {
            let share = share.parse::<f64>().unwrap() - 1e-13;
            assert_eq!(found.quantile(share), whole(units), "{what} {share}");
        }
    }
    assert_eq!(checked, 27);
}

#[test]
pub fn cost_optimal_reorder_points_are_those_of_the_textbook_and_of_brute_force() {
    // Snyder & Shen, Example 5.8; the algorithm is Federgruen & Zheng's (1992); brute force over r and Q in the file.
    let book = table("oracle_policy.json");
    for row in rows(&book["rq_poisson"], 5) {
        let of = numbers(&row["h,p,K,lambda,L"]);
        let prices = PolicyPrices {
            holding: of[0],
            waiting: of[1],
            order: of[2],
            yearly: of[3],
        };
        let demand = poisson(of[3] * of[4]);
        let fast = FastReorder::default()
            .by_cost(of[3] * of[4], &prices)
            .unwrap();
        for found in [optimal_policy(&demand, &prices), fast] {
            assert_eq!(found.reorder_point, whole(&row["r"]), "{row}");
            assert_eq!(found.quantity, whole(&row["Q"]), "{row}");
            same(found.cost, &row["cost"], 1e-9, row);
            same(found.cost, &row["brute"][2], 1e-9, row);
        }
        let (r, q) = (whole(&row["r"]), whole(&row["Q"]));
        same(policy_cost(&demand, &prices, r, q), &row["cost"], 1e-9, row);
        assert_eq!(reorder_point_by_cost(&demand, q, of[0], of[1]), r, "{row}");
    }
}

#[test]
fn packs_and_minimums_are_kept_at_the_least_cost() {
    // Brute force over every pair that may be bought.
    let prices = PolicyPrices {
        holding: 5.0,
        waiting: 200.0,
        order: 80.0,
        yearly: 24.0,
    };
    for mean in [0.3, 1.97, 7.0] {
        let demand = poisson(mean);
        for (pack, minimum, most) in [
            (1, 1, None),
            (10, 1, None),
            (25, 60, None),
            (7, 1, Some(20)),
        ] {
            let found = restricted_policy(&demand, &prices, pack, minimum, most);
            let mut best = f64::INFINITY;
            for quantity in (1..300).filter(|q| q % pack == 0 && *q >= minimum) {
                if most.is_some_and(|most| quantity > most) {
                    continue;
                }
                for r in -1..60 {
                    best = best.min(policy_cost(&demand, &prices, r, quantity));
                }
            }
            assert!(
                (found.cost - best).abs() < 1e-9,
                "{mean} {pack} {minimum}: {found:?} {best}"
            );
            assert!(found.quantity % pack == 0 && found.quantity >= minimum);
        }
    }
}

#[test]
pub fn periodic_levels_are_those_of_zheng_and_federgruen() {
    // Zheng & Federgruen, Operations Research 39(4):654-665 (1991), Table 1: 24 published rows; Snyder & Shen, Example
    // 4.7 and Problem 4.31 (h 40, p 125, K 150, mean 4).
    let book = table("oracle_policy.json");
    for row in rows(&book["ss_zheng_federgruen_1991_table1"]["rows"], 24) {
        let found = order_up_to(number(&row["mu"]), 1.0, 9.0, 64.0);
        let published = &row["published"];
        assert_eq!(found.reorder_point, whole(&published[0]), "{row}");
        assert_eq!(found.up_to, whole(&published[1]), "{row}");
        assert!((found.cost - number(&published[2])).abs() < 6e-4, "{row}");
        same(found.cost, &row["stockpyl"][2], 1e-9, row);
    }
    let texts = table("textbook_examples.json");
    for (id, given) in [
        ("SS-4.7", [1.0, 4.0, 5.0, 6.0]),
        ("SS-4.31", [40.0, 125.0, 150.0, 4.0]),
    ] {
        let (_, expected, tolerance) = example(&texts, id);
        let found = order_up_to(given[3], given[0], given[1], given[2]);
        assert_eq!(found.reorder_point, whole(&expected["s"]), "{id}");
        assert_eq!(found.up_to, whole(&expected["S"]), "{id}");
        same(found.cost, &expected["cost"], tolerance, id);
    }
    let (_, expected, _) = example(&texts, "SS-4.8");
    let (low, up_to) = power_approximation(50.0, 8.0, 0.18, 0.70, 2.5);
    same(low, &expected["s"], 1e-9, "power approximation");
    same(up_to, &expected["S"], 1e-9, "power approximation");
    let printed = &book["ss_problem_4_32"]["printed"];
    outside::compared(1);
    let (low, up_to) = power_approximation(190.0, 48.0, 2.0, 36.0, 60.0);
    same(low, &printed[0], 1e-9, "problem 4.32");
    same(up_to, &printed[1], 1e-9, "problem 4.32");
}

#[test]
pub fn one_buy_that_must_last() {
    // Snyder & Shen, Examples 4.1 and 4.3 (normal), the Poisson case of the same text, explicit costs, geometric demand.
    let book = table("oracle_policy.json");
    let cases = &book["newsvendor"];
    outside::compared(4);
    let normal = one_shot_normal(50.0, 8.0, 0.18, 0.70).unwrap();
    same(normal.quantity, &cases["printed"][0], 1e-9, "normal");
    same(normal.cost, &cases["printed"][1], 1e-9, "normal");
    let priced = |price: f64, missing: f64, salvage: f64| OneShotPrices {
        price,
        missing,
        salvage,
    };
    let found = one_shot(&poisson(50.0), &priced(0.18, 0.88, 0.0));
    same(
        found.quantity,
        &cases["printed_poisson"][0],
        1e-12,
        "Poisson",
    );
    same(found.cost, &cases["printed_poisson"][1], 1e-9, "Poisson");
    // Revenue 1.00, price 0.30, salvage 0.12: profit is (1.00 - 0.30) * 50 less the expected cost.
    let explicit = &cases["explicit(1.00,.30,.12,50,8)"];
    let found = one_shot_normal(50.0, 8.0, 0.30 - 0.12, 1.00 - 0.30).unwrap();
    same(found.quantity, &explicit[0], 1e-9, "explicit");
    same(0.70 * 50.0 - found.cost, &explicit[1], 1e-9, "explicit");
    let geometric: Vec<f64> = std::iter::once(0.0)
        .chain((0..400).map(|k| 0.2 * 0.8_f64.powi(k)))
        .collect();
    let found = one_shot(
        &DemandTable::of_shares(5.0, geometric),
        &priced(1.0, 5.0, 0.0),
    );
    same(
        found.quantity,
        &cases["geom(0.2) h=1 p=4"][0],
        1e-12,
        "geometric",
    );
    same(
        found.cost,
        &cases["geom(0.2) h=1 p=4"][1],
        1e-5,
        "geometric",
    );
    for row in rows(&table("oracle_insurance.json")["one_shot"], 4) {
        let of = |key: &str| number(&row[key]);
        let prices = priced(of("unit_cost"), of("cost_if_missing"), of("salvage"));
        same(prices.critical_ratio(), &row["critical_ratio"], 1e-12, row);
        let found = one_shot(&poisson(of("poisson_mean")), &prices);
        same(found.quantity, &row["Q"], 1e-12, row);
        same(found.cost, &row["stockpyl"][1], 1e-9, row);
    }
}

#[test]
pub fn base_stock_by_cost() {
    let book = table("oracle_policy.json");
    for row in rows(&book["base_stock_poisson_cost"], 5) {
        let of = |key: &str| number(&row[key]);
        let demand = poisson(of("rate_year") * of("L_year"));
        let found = cost_base_stock(&demand, of("h"), of("p_per_unit_year"));
        assert_eq!(found.base_stock, whole(&row["S"]), "{row}");
        same(found.cost, &row["cost_year"], 1e-9, row);
        same(found.waiting, &row["EBO"], 1e-9, row);
        same(
            demand.at_most(found.base_stock),
            &row["cdf_at_S"],
            1e-9,
            row,
        );
        // With orders of one and none to pay for, the reorder point is one below.
        let point = reorder_point_by_cost(&demand, 1, of("h"), of("p_per_unit_year"));
        assert_eq!(point + 1, found.base_stock);
    }
}

#[test]
pub fn economic_quantities_of_the_textbook() {
    // Snyder & Shen, Examples 3.1, 3.5, 3.6, 3.8, 3.9 and Problem 3.12; joint replenishment by Silver's heuristic.
    let book = table("oracle_policy.json");
    let eoq = &book["eoq"];
    outside::compared(8);
    let plain = economic_quantity(1300.0, 8.0, 0.225).unwrap();
    same(plain, &eoq["example_3_1"][0], 1e-12, "3.1");
    same(
        1300.0 * 8.0 * 2.0 / plain,
        &eoq["example_3_1"][1],
        1e-12,
        "3.1",
    );
    let breaks = [(0.0, 0.75), (400.0, 0.72), (800.0, 0.68)];
    let found = with_all_units_breaks(1300.0, 8.0, 0.3, &breaks).unwrap();
    same(
        found.quantity,
        &eoq["all_units_example_3_5"][0],
        1e-12,
        "3.5",
    );
    same(found.cost, &eoq["all_units_example_3_5"][2], 1e-12, "3.5");
    let found = with_incremental_breaks(1300.0, 8.0, 0.3, &breaks).unwrap();
    same(
        found.quantity,
        &eoq["incremental_example_3_6"][0],
        1e-12,
        "3.6",
    );
    same(found.cost, &eoq["incremental_example_3_6"][2], 1e-12, "3.6");
    let breaks = [(0.0, 1490.0), (1200.0, 1220.0), (2400.0, 1100.0)];
    let found = with_all_units_breaks(182_500.0, 2250.0, 0.25, &breaks).unwrap();
    same(
        found.quantity,
        &eoq["all_units_problem_3_12"][0],
        1e-12,
        "3.12",
    );
    same(found.cost, &eoq["all_units_problem_3_12"][2], 1e-12, "3.12");
    let breaks = [(0.0, 18.0), (10.0, 16.5), (50.0, 14.0)];
    let found = with_all_units_breaks(60.0, 30.0, 0.2, &breaks).unwrap();
    same(
        found.quantity,
        &eoq["own_small_shop_all_units"][0],
        1e-12,
        "small shop",
    );
    same(
        found.cost,
        &eoq["own_small_shop_all_units"][2],
        1e-12,
        "small shop",
    );
    let (found, waits) = economic_quantity_with_waiting(1300.0, 8.0, 0.225, 5.0);
    same(
        found.quantity,
        &eoq["backorders_example_3_8"][0],
        1e-12,
        "3.8",
    );
    same(waits, &eoq["backorders_example_3_8"][1], 1e-12, "3.8");
    same(found.cost, &eoq["backorders_example_3_8"][2], 1e-12, "3.8");
    let (orders, cost) = dated_orders(&[90.0, 120.0, 80.0, 70.0], 500.0, 2.0);
    let expected = &book["wagner_whitin_example_3_9"];
    // The file counts periods from 1 and leaves a place for period 0.
    assert_eq!(orders, numbers(&expected["Q"])[1..].to_vec());
    same(cost, &expected["cost"], 1e-12, "3.9");
    let lines = [(120.0, 160.0), (840.0, 20.0), (300.0, 50.0)].map(|(line_cost, holding_cost)| {
        SharedLine {
            line_cost,
            holding_cost,
            rate: 1.0,
        }
    });
    let (between, multiples, cost) = shared_orders(600.0, &lines).unwrap();
    same(between, &book["jrp"][1], 1e-12, "joint");
    assert_eq!(multiples, numbers(&book["jrp"][2]));
    same(cost, &book["jrp"][3], 1e-12, "joint");
}

#[test]
pub fn approximations_for_fast_movers_are_those_of_the_textbooks() {
    let book = table("oracle_policy.json");
    let cases = &book["rq_normal_example_5_1"];
    outside::compared(4);
    let part = NormalPart {
        mean: 1300.0,
        sd: 150.0,
        lead_time: 1.0 / 12.0,
        holding: 0.225,
        short: 7.5,
        order: 8.0,
    };
    let (r, q, cost) = part.by_units_short().unwrap();
    for (found, expected) in [r, q, cost].iter().zip(numbers(&cases["eil"])) {
        assert!(
            (found - expected).abs() < 1e-4,
            "{found} against {expected}"
        );
    }
    let (r, q) = part.by_economic_quantity().unwrap();
    same(r, &cases["eoqb"][0], 1e-6, "EOQB");
    same(q, &cases["eoqb"][1], 1e-9, "EOQB");
    let (r, q) = part.by_safety_stock().unwrap();
    same(r, &cases["eoqss"][0], 1e-6, "EOQ and safety stock");
    same(q, &cases["eoqss"][1], 1e-9, "EOQ and safety stock");
    let (r, q) = part.by_loss_function().unwrap();
    same(r, &cases["loss"][0], 1e-6, "loss function");
    same(q, &cases["loss"][1], 1e-6, "loss function");
    // Nahmias, Production and Operations Analysis, ch. 5 (from memory; the fixed point is recomputed in the file).
    let (_, expected, _) = example(&table("textbook_examples.json"), "Nahmias");
    let part = NormalPart {
        mean: 200.0,
        sd: 25.0 / 0.5_f64.sqrt(),
        lead_time: 0.5,
        holding: 2.0,
        short: 25.0,
        order: 50.0,
    };
    let (r, q, _) = part.by_units_short().unwrap();
    same(q, &expected["Q"], 1e-6, "Q");
    same(r, &expected["R"], 1e-6, "R");
    same(part.shortfall(r).unwrap(), &expected["n_R"], 1e-6, "n(R)");
    // Of the first type, 98 of 100 lead times without anyone waiting, is the critical ratio of a shortage of 49 holdings.
    let of_cycles = NormalPart {
        short: 49.0 * part.holding,
        ..part
    };
    let (r, _) = of_cycles.by_safety_stock().unwrap();
    same(r, &expected["type1_98_R"], 1e-9, "type 1");
    let by_fill = number(&expected["type2_98_R_with_Q_EOQ_100"]);
    assert!((part.shortfall(by_fill).unwrap() - 0.02 * 100.0).abs() < 1e-6);
}

#[test]
pub fn measures_of_service_are_those_of_scipy_and_of_a_simulation() {
    let book = table("oracle_service.json");
    for row in rows(&book["poisson_rq"], 10) {
        let rate = number(&row["rate_per_day"]);
        let demand = poisson(rate * number(&row["lead_days"]));
        let (r, q) = (whole(&row["r"]), whole(&row["Q"]));
        let found = Service::new(&demand, r, q, &[]);
        same(
            found.unit_fill_share,
            &row["ready_rate=unit_fill"],
            1e-9,
            row,
        );
        same(
            found.whole_job_share,
            &row["ready_rate=unit_fill"],
            1e-9,
            row,
        );
        same(found.waiting, &row["EBO"], 1e-9, row);
        same(found.on_hand, &row["EOH"], 1e-9, row);
        same(found.cycle_share, &row["cycle_service"], 1e-9, row);
        same(
            demand.shortfall(r),
            &row["ESC_units_short_per_cycle"],
            1e-9,
            row,
        );
        let approximate = 1.0 - demand.shortfall(r) / q as f64;
        same(approximate, &row["fill_approx_1-ESC/Q"], 1e-9, row);
        same(
            found.mean_wait_days(rate).unwrap(),
            &row["mean_wait_days"],
            1e-9,
            row,
        );
        same(rate * 365.0 / q as f64, &row["orders_per_year"], 1e-9, row);
    }
    for row in rows(&book["compound_base_stock"], 5) {
        let sizes = sizes(&row["size_pmf"]);
        let law = LeadTimeDemand::compound(number(&row["events_in_lead_time"]), &sizes);
        let stock = whole(&row["S"]);
        let demand = DemandTable::new(&law);
        let found = Service::new(&demand, stock - 1, 1, &sizes);
        same(found.unit_fill_share, &row["unit_fill"], 1e-9, row);
        same(
            found.whole_job_share,
            &row["line_fill_(whole_order_at_once)"],
            1e-9,
            row,
        );
        same(demand.at_most(stock - 1), &row["ready_rate"], 1e-9, row);
        same(found.waiting, &row["EBO"], 1e-9, row);
        same(found.on_hand, &row["EOH"], 1e-9, row);
    }
    // The simulation has a standard error; 0.004 is some four of them for the shortest run of 20,147 demands.
    for row in rows(&book["simulation_check"], 4) {
        let (demand, r, q, sizes) = if let Some(of) = row["row"].as_array() {
            let of: Vec<f64> = of.iter().map(number).collect();
            (poisson(of[0] * of[1]), of[2] as i64, of[3] as i64, vec![])
        } else {
            let sizes = vec![(1, 0.7), (2, 0.2), (4, 0.1)];
            let law = LeadTimeDemand::compound(0.8, &sizes);
            (DemandTable::new(&law), 2, 1, sizes)
        };
        let found = Service::new(&demand, r, q, &sizes);
        let sim = &row["sim"];
        assert!(
            (found.unit_fill_share - number(&sim["unit_fill"])).abs() < 0.004,
            "{row}"
        );
        assert!(
            (found.whole_job_share - number(&sim["line_fill"])).abs() < 0.004,
            "{row}"
        );
        assert!((found.waiting - number(&sim["EBO"])).abs() < 0.004, "{row}");
        assert!((found.on_hand - number(&sim["EOH"])).abs() < 0.03, "{row}");
    }
    for row in rows(&book["smallest_reorder_point"], 5) {
        let demand = poisson(number(&row["rate_per_day"]) * number(&row["lead_days"]));
        let (q, target) = (whole(&row["Q"]), number(&row["target"]));
        let found = reorder_point_by_fill(&demand, q, target);
        assert_eq!(found, whole(&row["r_by_fill_rate"]), "{row}");
        same(unit_fill(&demand, found, q), &row["fill"], 1e-9, row);
        let by_cycle = demand.quantile(target);
        assert_eq!(by_cycle, whole(&row["r_by_cycle_service"]), "{row}");
        same(demand.at_most(by_cycle), &row["cycle"], 1e-9, row);
        if q == 1 {
            let mean = demand.mean();
            assert_eq!(poisson_base_stock(mean, target) as i64, found + 1, "{row}");
        }
    }
}

#[test]
fn the_fast_search_finds_what_the_tables_find() {
    let mut search = FastReorder::default();
    for mean in [0.01, 0.4, 1.9, 8.0, 60.0] {
        for cv in [0.1, 0.5, 0.8] {
            let demand = LeadTimeDemand::over_gamma_lead_time(mean, 1.0, cv);
            let table = DemandTable::new(&demand);
            for quantity in [1, 2, 7, 40] {
                for target in [0.5, 0.9, 0.99, 0.995] {
                    let found = search.by_fill(mean, 1.0 / (cv * cv), quantity, target);
                    let expected = reorder_point_by_fill(&table, quantity as i64, target);
                    assert_eq!(found, Some(expected), "{mean} {cv} {quantity} {target}");
                }
            }
        }
        let prices = PolicyPrices {
            holding: 3.0,
            waiting: 900.0,
            order: 20.0,
            yearly: 8.0 * mean,
        };
        let expected = optimal_policy(&poisson(mean), &prices);
        let found = search.by_cost(mean, &prices).unwrap();
        assert_eq!(
            (found.reorder_point, found.quantity),
            (expected.reorder_point, expected.quantity)
        );
        assert!((found.cost - expected.cost).abs() < 1e-9 * expected.cost);
    }
}
