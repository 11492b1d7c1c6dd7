//! What must hold for any demand.

use proptest::prelude::*;
use sparewright::plan::{
    DemandTable, FewMachines, LeadTimeDemand, PricedPart, Service, reorder_point_by_cost,
    reorder_point_by_fill,
};

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, ..ProptestConfig::default() })]

    #[test]
    fn more_stock_never_raises_expected_waiting(
        mean in 0.001_f64..30.0,
        spread in 1.0_f64..5.0,
        quantity in 1_i64..40,
        point in -1_i64..60,
        places in 1_u32..12,
    ) {
        let table = DemandTable::new(&LeadTimeDemand::new(mean, mean * spread));
        let now = Service::new(&table, point, quantity, &[]);
        let more = Service::new(&table, point + 1, quantity, &[]);
        prop_assert!(more.waiting <= now.waiting + 1e-12);
        prop_assert!(more.unit_fill_share >= now.unit_fill_share - 1e-12);
        let few = FewMachines { places, mean };
        let owned = (point + 1) as u32;
        prop_assert!(few.waiting(owned + 1) <= few.waiting(owned) + 1e-12);
    }

    #[test]
    fn a_longer_lead_time_never_lowers_a_reorder_point(
        per_day in 0.0001_f64..0.3,
        days in 1.0_f64..150.0,
        more_days in 0.0_f64..100.0,
        cv in 0.0_f64..0.9,
        quantity in 1_i64..30,
        target in 0.5_f64..0.995,
    ) {
        let table = |days: f64| {
            DemandTable::new(&LeadTimeDemand::over_gamma_lead_time(per_day, days, cv))
        };
        let (short, long) = (table(days), table(days + more_days));
        prop_assert!(long.quantile(target) >= short.quantile(target));
        prop_assert!(
            reorder_point_by_fill(&long, quantity, target)
                >= reorder_point_by_fill(&short, quantity, target)
        );
        let waiting = target / (1.0 - target);
        prop_assert!(
            reorder_point_by_cost(&long, quantity, 1.0, waiting)
                >= reorder_point_by_cost(&short, quantity, 1.0, waiting)
        );
    }

    #[test]
    fn a_higher_price_of_a_stock_out_never_lowers_a_level(
        mean in 0.001_f64..10.0,
        quantity in 1_i64..20,
        factor in 0.0001_f64..2.0,
        more in 1.0_f64..50.0,
    ) {
        let part = PricedPart {
            table: DemandTable::new(&LeadTimeDemand::Poisson { mean }).into(),
            jobs: None,
            sizes: Vec::new(),
            quantity,
            price: 40.0,
            holding: 8.0,
            waiting_per_h: 120.0,
            year_h: 4000.0,
            weighted_yearly: 1.0,
            fill_if_none: None,
            ending: None,
        };
        prop_assert!(part.reorder_point(factor * more) >= part.reorder_point(factor));
    }
}
