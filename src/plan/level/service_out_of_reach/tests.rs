use std::sync::Arc;

use super::super::demand_table::DemandTable;
use super::super::ending::{Ending, EndingStock, InLeadTime};
use super::super::lead_time_demand::LeadTimeDemand;
use super::super::stock_out_price::{measure, reorder_points};
use super::*;

/// Single pieces used so often a year, an order of some in 48 days, with or without an end after a year.
fn part(yearly: f64, quantity: i64, price: f64, life_years: Option<f64>) -> PricedPart {
    let lead_years = 48.0 / 365.0;
    let law = |years: f64| LeadTimeDemand::Poisson {
        mean: yearly * years,
    };
    let table = DemandTable::new(&law(lead_years));
    let lead = InLeadTime {
        table: &table,
        jobs: None,
    };
    let ending = life_years.and_then(|life_years| {
        let stock = EndingStock {
            quantity,
            sizes: Vec::new(),
            yearly,
            life_years,
        };
        let years = (lead_years, life_years);
        Ending::new(stock, lead, 0, years, |years| Some(law(years)))
    });
    PricedPart {
        ending: ending.map(Arc::new),
        table: Arc::new(table),
        jobs: None,
        sizes: Vec::new(),
        quantity,
        price,
        holding: 0.22 * price,
        waiting_per_h: 50.0,
        year_h: 8760.0,
        weighted_yearly: yearly,
        fill_if_none: None,
    }
}

/// A hose of which 20 come at a time and 4 are used in its life of a year, beside two dear parts that last.
fn shop() -> Vec<PricedPart> {
    vec![
        part(4.0, 20, 5.0, Some(1.0)),
        part(0.8, 1, 3000.0, None),
        part(0.8, 1, 2000.0, None),
    ]
}

#[test]
fn a_share_that_is_in_reach_has_the_least_price_that_reaches_it() {
    let parts = shop();
    let found = price_for_service(&parts, 0.8, true);
    assert_eq!(found.most_share, None);
    assert!(found.held_back_by.is_empty());
    let met = |factor: f64| measure(&parts, &reorder_points(&parts, factor), factor).fill_share;
    assert!(met(found.factor) >= 0.8);
    assert!(met(found.factor * (1.0 - 1e-6)) < 0.8);
}

#[test]
fn a_share_that_no_price_reaches_costs_no_more_than_the_downtime_in_full() {
    // Of a hose that ends as a whole order time after time a share goes without whatever is kept.
    let parts = shop();
    let target = 0.9999;
    let found = price_for_service(&parts, target, true);
    let most = found.most_share.expect("out of reach");
    assert!(most < target, "{most}");
    assert_eq!(found.held_back_by, [0]);
    assert!(found.factor <= 1.0, "{found:?}");
    let met = |factor: f64| measure(&parts, &reorder_points(&parts, factor), factor).fill_share;
    assert!(met(found.factor) <= most + 1e-9);
    // No more is kept of the dear parts than their downtime pays, where the highest price would keep stacks of them.
    let kept = reorder_points(&parts, found.factor);
    let (in_full, at_most) = (reorder_points(&parts, 1.0), reorder_points(&parts, 1e6));
    assert!(kept.iter().zip(&in_full).all(|(kept, full)| kept <= full));
    assert!(
        kept[1] < at_most[1] && kept[2] < at_most[2],
        "{kept:?} {at_most:?}"
    );
}

#[test]
fn without_a_cost_of_an_hour_as_good_as_all_that_can_be_met_is_met() {
    let parts = shop();
    let found = price_for_service(&parts, 0.9999, false);
    let most = found.most_share.expect("out of reach");
    let met = measure(&parts, &reorder_points(&parts, found.factor), found.factor).fill_share;
    assert!(met >= most - 0.005 - 1e-9, "{met} {most}");
    assert!(found.factor < 1e6);
}

#[test]
fn a_part_whose_waiting_counts_nothing_is_out_of_reach_too() {
    let mut of_none = part(2.0, 1, 10.0, None);
    of_none.waiting_per_h = 0.0;
    let found = price_for_service(&[of_none], 0.9, true);
    assert!(found.most_share.is_some_and(|most| most < 0.9));
    assert!(
        found.held_back_by.is_empty() && found.factor <= 1.0,
        "{found:?}"
    );
}
