use statrs::distribution::{Discrete, DiscreteCDF, Poisson};

use super::*;

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
fn the_reorder_point_is_the_cheapest_and_never_falls_with_the_price() {
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
            let costs = ending.points.iter().map(cost);
            let least = costs.fold(f64::INFINITY, f64::min);
            let of_found = cost(&ending.points[(found + 1) as usize]);
            assert!(
                (of_found - least).abs() < 1e-9 * least,
                "{quantity} {waiting}"
            );
            assert!(found >= before, "{quantity} {waiting}: {found} {before}");
            before = found;
        }
        assert!(before >= 0, "{quantity}");
    }
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
