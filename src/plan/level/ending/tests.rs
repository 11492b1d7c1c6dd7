use proptest::prelude::*;
use statrs::distribution::{Discrete, DiscreteCDF, Poisson};

use super::*;
use crate::plan::level::reorder_quantity::unit_fill;

/// Stock of single pieces and the demand of its lead time.
fn singly(yearly: f64, years: (f64, f64), quantity: i64) -> (Option<Ending>, DemandTable) {
    let (lead_years, life_years) = years;
    let law = |years: f64| LeadTimeDemand::Poisson {
        mean: yearly * years,
    };
    let table = DemandTable::new(&law(lead_years));
    let stock = EndingStock {
        quantity,
        sizes: Vec::new(),
        yearly,
        life_years,
    };
    let lead = InLeadTime {
        table: &table,
        jobs: None,
    };
    (
        Ending::new(stock, lead, 8, years, |years| Some(law(years))),
        table,
    )
}

#[test]
fn one_for_one_is_the_closed_form_of_the_oldest_age() {
    // By the density of its age: P(N >= S) of the lead time over that of lead time and life go without, and as many end as
    // it has at its end, l p(S - 1) / P(N >= S); on the shelf is what the balance of pieces leaves.
    for (yearly, lead_years, life_years) in [(2.07, 0.1, 0.5), (0.3, 0.02, 1.0), (12.0, 0.1, 0.4)] {
        let (ending, table) = singly(yearly, (lead_years, life_years), 1);
        let ending = ending.unwrap();
        let lead = InLeadTime {
            table: &table,
            jobs: None,
        };
        let poisson = |years: f64| Poisson::new(yearly * years).unwrap();
        let at_least = |years: f64, least: u64| 1.0 - poisson(years).cdf(least - 1);
        let both = lead_years + life_years;
        for kept in 1..6_u64 {
            let of = ending.at(kept as i64 - 1, lead);
            let used = at_least(both, kept);
            let without = at_least(lead_years, kept) / used;
            assert!(
                (of.units_without - without).abs() < 1e-7,
                "{yearly} {kept} {of:?}"
            );
            let ended = yearly * poisson(both).pmf(kept - 1) / used;
            assert!(
                (of.expired / ended - 1.0).abs() < 1e-6,
                "{yearly} {kept} {of:?}"
            );
            let on_hand = kept as f64 - (yearly + ended) * lead_years + of.waiting;
            assert!(
                (of.on_hand - on_hand).abs() < 1e-6,
                "{yearly} {kept} {of:?}"
            );
        }
    }
}

#[test]
fn stock_that_lasts_long_enough_is_left_alone() {
    assert_eq!(singly(40.0, (0.1, 10.0), 5).0, None);
    // As the life grows the measures become those of stock that lasts.
    let (ending, table) = singly(4.0, (0.1, 4.5), 4);
    let lead = InLeadTime {
        table: &table,
        jobs: None,
    };
    let of = ending.unwrap().at(1, lead);
    assert!((of.units_without - 1.0 + unit_fill(&table, 1, 4)).abs() < 0.001);
    assert!(of.expired < 0.02, "{of:?}");
}

#[test]
fn the_reorder_point_is_the_lowest_of_the_cheapest_and_never_falls_with_the_price() {
    for quantity in [1, 3, 10] {
        let (ending, _) = singly(3.0, (0.2, 0.7), quantity);
        let ending = ending.unwrap();
        let mut before = -1;
        for power in -10..60 {
            let waiting = 10_f64.powf(f64::from(power) / 10.0);
            let cost = |of: &EndingService| {
                2.0 * of.on_hand + 10.0 * of.expired + waiting * of.jobs_waiting
            };
            let found = ending.reorder_point(2.0, 10.0, waiting);
            let points = (-1..).zip(&ending.points);
            let known = points.filter(|(point, _)| ending.is_known(*point));
            let costs: Vec<(i64, f64)> = known.map(|(point, of)| (point, cost(of))).collect();
            let least = costs
                .iter()
                .fold(f64::INFINITY, |least, of| least.min(of.1));
            let told = least + (0.005 * least).max(0.01);
            for (point, cost) in costs {
                let is_as_cheap = cost <= told + 1e-9;
                if point == found {
                    assert!(is_as_cheap, "{quantity} {waiting}: {found}");
                } else if point < found {
                    assert!(cost > told - 1e-9, "{quantity} {waiting}: {point} {found}");
                }
            }
            assert!(found >= before, "{quantity} {waiting}: {found} {before}");
            before = found;
        }
        assert!(before >= 0, "{quantity}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    #[test]
    fn one_more_never_holds_or_ends_less_and_a_dearer_wait_never_keeps_less(
        yearly in 0.02_f64..20.0,
        lead_years in 0.01_f64..0.5,
        life_years in 0.1_f64..6.0,
        quantity in 1_i64..25,
        holding in 0.01_f64..50.0,
        price in 0.05_f64..200.0,
        waiting in 0.01_f64..1e7,
        times in 1.0_f64..3.0,
    ) {
        let (ending, table) = singly(yearly, (lead_years, life_years), quantity);
        let Some(ending) = ending else {
            return Ok(());
        };
        let lead = InLeadTime { table: &table, jobs: None };
        // Beyond what is looked at too: a planner's own minimum or a kit may ask for it.
        let highest = ending.points.len() as i64 + 5;
        for point in 0..highest {
            let (less, more) = (ending.at(point - 1, lead), ending.at(point, lead));
            prop_assert!(more.on_hand >= less.on_hand && more.expired >= less.expired, "{point}: {less:?} {more:?}");
            prop_assert!(more.jobs_waiting <= less.jobs_waiting, "{point}: {less:?} {more:?}");
        }
        let (low, high) = (
            ending.reorder_point(holding, price, waiting),
            ending.reorder_point(holding, price, waiting * times),
        );
        prop_assert!(low <= high, "{low} {high}");
    }
}

#[test]
fn of_reorder_points_that_cost_the_same_the_lowest_is_taken() {
    let lowest = |costs: &[f64]| lowest_of_least_cost((-1..).zip(costs.iter().copied()));
    // Nothing is told by less than a hundredth, or by less than half a per cent.
    assert_eq!(lowest(&[0.5, 0.105, 0.1, 0.2]), Some(0));
    assert_eq!(lowest(&[100.0, 87.4, 87.0, 87.09]), Some(0));
    assert_eq!(lowest(&[100.0, 87.5, 87.0, 87.09]), Some(1));
    assert_eq!(lowest(&[0.0, 0.0]), Some(-1));
    assert_eq!(lowest(&[]), None);
}

#[test]
fn a_pack_that_ends_is_met_as_a_simulated_shelf_meets_it() {
    // 20 at a time, 3.86 used a year, a life of a year and 48 days to wait. Simulated beside it (first in, first out, 4,000
    // years, Poisson usages): met 0.884 at 2, 0.912 at 15, 0.952 at 19, 0.884 again at 20, where two orders end together.
    let (ending, table) = singly(3.86, (48.0 / 365.0, 1.0), 20);
    let ending = ending.unwrap();
    let lead = InLeadTime {
        table: &table,
        jobs: None,
    };
    for (point, simulated) in [(2, 0.884), (15, 0.912), (19, 0.952)] {
        let met = 1.0 - ending.at(point, lead).units_without;
        assert!((met - simulated).abs() < 0.03, "{point}: {met} {simulated}");
        assert!(ending.is_known(point));
    }
    assert!(!ending.is_known(20));
    // Whatever an hour costs, no more is kept than what is known to be met.
    assert!(ending.reorder_point(1.0, 5.0, 1e12) < 20);
    assert_eq!(ending.first_that_meets(2, 0.9999), None);
}

#[test]
fn a_rebuild_finds_less_than_a_single_piece() {
    let (ending, table) = singly(0.3, (0.05, 1.0), 10);
    let ending = ending.unwrap();
    let lead = InLeadTime {
        table: &table,
        jobs: None,
    };
    for point in [-1, 0, 2] {
        let shares: Vec<f64> = [1, 4, 9]
            .map(|units| ending.usages_without(point, lead, units))
            .into();
        let of = ending.at(point, lead);
        assert!(
            (shares[0] - of.units_without).abs() < 1e-9,
            "{point} {shares:?}"
        );
        assert!(shares.is_sorted() && shares[2] <= 1.0, "{point} {shares:?}");
    }
}
