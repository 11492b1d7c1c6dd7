//! Stock that ends on the shelf, the oldest used first, beside what the levels say of it.

use super::*;
use crate::plan::level::{Ending, EndingService, EndingStock, InLeadTime};

/// A part with an end: usages a year and what they take, days of its order and of its shelf life.
struct Case {
    yearly: f64,
    sizes: &'static [(u32, f64)],
    lead_days: f64,
    life_days: f64,
}

const SINGLY: &[(u32, f64)] = &[(1, 1.0)];

const YEARS: f64 = 60.0;

impl Case {
    fn mean_size(&self) -> f64 {
        let terms = self.sizes.iter();
        terms.map(|(size, share)| f64::from(*size) * share).sum()
    }

    fn law(&self, days: f64) -> LeadTimeDemand {
        LeadTimeDemand::compound(self.yearly * days / 365.0, self.sizes)
    }

    fn told(&self, reorder_point: i64, quantity: i64) -> EndingService {
        let law = self.law(self.lead_days);
        let table = DemandTable::new(&law);
        let jobs = (self.mean_size() > 1.0).then(|| {
            let short = JobsShort::new(&law, &table, self.mean_size());
            JobSteps::new(short, &table, quantity)
        });
        let stock = EndingStock {
            quantity,
            sizes: self.sizes.to_vec(),
            yearly: self.yearly * self.mean_size(),
            life_years: self.life_days / 365.0,
        };
        let lead = InLeadTime {
            table: &table,
            jobs: jobs.as_ref(),
        };
        let days = (self.lead_days, self.life_days);
        let ending = Ending::new(stock, lead, reorder_point, days, |days| {
            Some(self.law(days))
        });
        let ending = ending.expect("stock ends");
        assert!(ending.is_known(reorder_point));
        ending.at(reorder_point, lead)
    }

    fn shop(&self) -> ShopYear {
        let mut reached = 0.0;
        let sizes = self.sizes.iter().map(|(size, share)| {
            reached += share;
            (reached, f64::from(*size))
        });
        let sizes = Sizes::Recorded(sizes.collect());
        let rate = certain(self.yearly / 365.0);
        let mut shop = shop(rate, sizes, fixed_days(self.lead_days), YEARS);
        shop.parts[0].life_h = Some(24.0 * self.life_days);
        shop
    }

    fn seen(&self, policy: OrderPolicy, of: fn(&PartYear) -> f64) -> Band {
        seen(&self.shop(), policy, 120, of)
    }
}

const HALF_A_YEAR: Case = Case {
    yearly: 2.9,
    sizes: SINGLY,
    lead_days: 18.25,
    life_days: 182.5,
};

#[test]
fn single_pieces_one_for_one_or_an_order_at_a_time_are_exact() {
    // Worked out beside it for packs of ten (a renewal): with none kept some 56 % are met, not the 91 % of stock that lasts.
    for (point, quantity) in [(-1, 10), (0, 10), (0, 1), (1, 1)] {
        let told = HALF_A_YEAR.told(point, quantity);
        let at = policy(point as f64, quantity as f64);
        let name = format!("{point} {quantity}");
        let of = |of| HALF_A_YEAR.seen(at, of);
        let met = of(|of| of.units_met / of.units);
        confirms(&name, 1.0 - told.units_without, met, 0.02);
        let waiting = of(|of| of.waiting_h / YEARS / 8760.0);
        confirms(&name, told.waiting, waiting, 0.2);
        let expired = of(|of| of.expired / YEARS);
        confirms(&name, told.expired, expired, 0.05);
        let on_hand = of(|of| of.on_hand_h / YEARS / 8760.0);
        confirms(&name, told.on_hand, on_hand, 0.02);
    }
    let none = HALF_A_YEAR.told(-1, 10);
    assert!((none.units_without - 0.44).abs() < 0.01, "{none:?}");
    // 0.012 a year in packs of ten of ten years: the first waits, and 0.12 more come while the pack lasts.
    let rare = Case {
        yearly: 0.012,
        lead_days: 7.0,
        life_days: 3650.0,
        ..HALF_A_YEAR
    };
    let none = rare.told(-1, 10);
    assert!((none.units_without - 1.0 / 1.12).abs() < 0.001, "{none:?}");
    assert!((none.expired - 0.1).abs() < 0.01, "{none:?}");
}

#[test]
fn orders_of_several_are_near_what_is_seen() {
    let year = Case {
        yearly: 4.0,
        life_days: 365.0,
        ..HALF_A_YEAR
    };
    let monthly = Case {
        yearly: 12.0,
        ..HALF_A_YEAR
    };
    for (case, point, quantity) in [
        (&HALF_A_YEAR, 1, 10),
        (&year, 1, 5),
        (&year, 3, 10),
        (&monthly, 1, 10),
    ] {
        let told = case.told(point, quantity);
        let at = policy(point as f64, quantity as f64);
        let name = format!("{} {point} {quantity}", case.yearly);
        let met = case.seen(at, |of| of.units_met / of.units);
        assert!(
            (1.0 - told.units_without - met.mean).abs() < 0.02,
            "{name}: {told:?} {met:?}"
        );
        let waiting = case.seen(at, |of| of.waiting_h / YEARS / 8760.0);
        assert!(
            (told.waiting / waiting.mean - 1.0).abs() < 0.2,
            "{name}: {told:?} {waiting:?}"
        );
        let on_hand = case.seen(at, |of| of.on_hand_h / YEARS / 8760.0);
        assert!(
            (told.on_hand / on_hand.mean - 1.0).abs() < 0.1,
            "{name}: {told:?} {on_hand:?}"
        );
    }
}

#[test]
fn usages_of_several_are_near_what_is_seen() {
    let twos = Case {
        yearly: 2.0,
        sizes: &[(2, 1.0)],
        ..HALF_A_YEAR
    };
    let fours = Case {
        sizes: &[(4, 1.0)],
        lead_days: 73.0,
        ..twos
    };
    let mixed = Case {
        yearly: 3.0,
        sizes: &[(1, 0.6), (4, 0.4)],
        life_days: 365.0,
        ..HALF_A_YEAR
    };
    for (case, point, quantity) in [
        (&twos, -1, 10),
        (&twos, 0, 10),
        (&fours, 3, 1),
        (&fours, 7, 1),
        (&mixed, 1, 10),
        (&mixed, 3, 8),
    ] {
        let told = case.told(point, quantity);
        let at = policy(point as f64, quantity as f64);
        let name = format!("{:?} {point} {quantity}", case.sizes);
        let whole = case.seen(at, |of| of.met_whole / of.usages);
        assert!(
            (1.0 - told.usages_without - whole.mean).abs() < 0.02,
            "{name}: {told:?} {whole:?}"
        );
        let met = case.seen(at, |of| of.units_met / of.units);
        assert!(
            (1.0 - told.units_without - met.mean).abs() < 0.02,
            "{name}: {told:?} {met:?}"
        );
        let waiting = case.seen(at, |of| of.jobs_waiting_h / YEARS / 8760.0);
        assert!(
            (told.jobs_waiting / waiting.mean - 1.0).abs() < 0.25,
            "{name}: {told:?} {waiting:?}"
        );
    }
}
