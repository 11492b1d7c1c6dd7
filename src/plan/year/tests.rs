use crate::parallel;

use super::ahead::{Band, compare};
use super::one_year::{PartYear, one_year};
use super::policy::{OrderPolicy, PolicyBasis};
use super::production_clock::ProductionClock;
use super::receipts::{Amounts, Receipts};
use super::runs::Runs;
use super::shop_year::{Rush, ShopYear, YearMachine, YearNeed, YearPart};
use super::usage::{Sizes, Usages};
use crate::catalogue::PartId;
use crate::place::Place;
use crate::plan::LeadTimeDemand;
use crate::plan::calendar::Calendars;
use crate::plan::demand::{Demand, DemandRate, EventRate, Rate, RateBasis, SizeMoments};
use crate::plan::lead_time::{Course, HourClock, LeadTime, Placing};
use crate::plan::level::{DemandTable, EmptyShelf, JobSteps, JobsShort, Service};
use crate::plan::sample::{Sample, at, workdays};
use crate::record::{ShopSettings, SupplierRecord};

mod orders_together;
mod stock_ends;

const SINGLE: SizeMoments = SizeMoments {
    mean_pieces: 1.0,
    squared_cv: 0.0,
};

/// A shop of one machine and one part, every hour of which counts; `years` are counted after two that are not.
fn shop(rate: EventRate, sizes: Sizes, lead: LeadTime, years: f64) -> ShopYear {
    let settings = ShopSettings::from_toml("").unwrap();
    let machine = YearMachine {
        name: "Press".to_owned(),
        installed: 1,
        down_cost_per_h: Some(10.0),
        until_h: f64::INFINITY,
        is_used: true,
    };
    let calendars = Calendars::new(&settings);
    let start = at("2026-03-04T10:30");
    let mut shop = ShopYear::bare(vec![machine], ProductionClock::always(), calendars, start);
    shop.measured_from_h = 2.0 * 8760.0;
    shop.until_h = shop.measured_from_h + years * 8760.0;
    shop.parts.push(YearPart {
        part: PartId(0),
        luck: 0,
        usages: Some(Usages {
            fitted: None,
            rate,
            sizes,
            until_h: f64::INFINITY,
            machines: vec![(1.0, 0)],
        }),
        opening: 0.0,
        lots: Vec::new(),
        life_h: None,
        placed: Vec::new(),
        not_counted: Vec::new(),
        receipts: Receipts::elapsed(lead),
        rush: None,
        unit_price: Some(2.0),
    });
    shop
}

fn policy(reorder_point: f64, quantity: f64) -> OrderPolicy {
    OrderPolicy {
        reorder_point,
        quantity,
        first_buy: 0.0,
        bridges: false,
        basis: PolicyBasis::Level,
    }
}

fn certain(per_day: f64) -> EventRate {
    EventRate::certain(per_day)
}

fn fixed_days(days: f64) -> LeadTime {
    LeadTime::Fixed {
        amount: days * 24.0,
    }
}

/// Each figure of a replication as a band over replications.
fn seen(
    shop: &ShopYear,
    policy: OrderPolicy,
    replications: usize,
    of: impl Fn(&PartYear) -> f64,
) -> Band {
    let values: Vec<f64> = (0..replications)
        .map(|replication| of(&one_year(shop, &[policy], 7, replication).parts[0]))
        .collect();
    Band::of(&values)
}

/// The exact figure lies within four standard errors, which are at most `share` of it.
fn confirms(name: &str, exact: f64, found: Band, share: f64) {
    assert!(
        found.standard_error < share * exact.abs() && found.standard_error > 0.0,
        "{name}: {found:?} says too little of {exact}"
    );
    assert!(
        (found.mean - exact).abs() < 4.0 * found.standard_error,
        "{name}: {exact} expected, {} +- {} simulated",
        found.mean,
        found.standard_error
    );
}

#[test]
fn one_for_one_stock_is_met_and_waited_for_as_palms_theorem_says() {
    // Units on order are Poisson with the mean lead time, whatever its law: Palm; Feeney & Sherbrooke, Management Science
    // 12:391-411 (1966). 2 units in the mean lead time: P(D <= 3) = 0.8571 in printed Poisson tables (Montgomery &
    // Runger, Applied Statistics and Probability for Engineers, appendix; from memory).
    let law = LeadTime::Lognormal {
        log_mean: (40.0 * 24.0_f64).ln() - 0.5 * 0.6 * 0.6,
        log_sd: 0.6,
    };
    // The table of equally likely hours stands for the law; its own mean is what the theorem asks for.
    let Receipts::Elapsed(hours) = Receipts::elapsed(law) else {
        panic!("hours on the clock");
    };
    let mean_h = hours.iter().sum::<f64>() / hours.len() as f64;
    assert!((mean_h / (40.0 * 24.0) - 1.0).abs() < 0.003, "{mean_h}");
    let per_day = 2.0 / mean_h * 24.0;
    let shop = shop(certain(per_day), Sizes::Moments(SINGLE), law, 60.0);
    let table = DemandTable::new(&LeadTimeDemand::Poisson { mean: 2.0 });
    assert!((table.at_most(3) - 0.8571).abs() < 0.00005);
    let four = policy(3.0, 1.0);
    let fill = seen(&shop, four, 120, |of| of.units_met / of.units);
    confirms("fill", table.at_most(3), fill, 0.005);
    let hours = 60.0 * 8760.0;
    let waiting = seen(&shop, four, 120, |of| of.waiting_h / hours);
    confirms("waiting", table.shortfall(4), waiting, 0.05);
    let on_hand = seen(&shop, four, 120, |of| of.on_hand_h / hours);
    confirms("on hand", 2.0 + table.shortfall(4), on_hand, 0.005);
}

#[test]
fn reorder_point_and_quantity_serve_as_hadley_and_whitin_say() {
    // Position uniform on r + 1 .. r + Q: Hadley & Whitin, Analysis of Inventory Systems (1963), ch. 4.
    let shop = shop(
        certain(0.05),
        Sizes::Moments(SINGLE),
        fixed_days(60.0),
        60.0,
    );
    let table = DemandTable::new(&LeadTimeDemand::Poisson { mean: 3.0 });
    let service = Service::new(&table, 3, 4, &[]);
    let three = policy(3.0, 4.0);
    let hours = 60.0 * 8760.0;
    let of = |of: fn(&PartYear) -> f64| seen(&shop, three, 120, of);
    confirms(
        "fill",
        service.unit_fill_share,
        of(|of| of.units_met / of.units),
        0.005,
    );
    confirms(
        "cycle",
        service.cycle_share,
        of(|of| of.calm_receipts / of.receipts),
        0.01,
    );
    let waiting = seen(&shop, three, 120, |of| of.waiting_h / hours);
    confirms("waiting", service.waiting, waiting, 0.05);
    let on_hand = seen(&shop, three, 120, |of| of.on_hand_h / hours);
    confirms("on hand", service.on_hand, on_hand, 0.005);
    // Little, Operations Research 9:383-387 (1961): wait of a unit = units waiting over units used.
    let wait_days = seen(&shop, three, 120, |of| of.waiting_h / of.units / 24.0);
    let exact = service.mean_wait_days(0.05).unwrap();
    confirms("wait", exact, wait_days, 0.05);
}

#[test]
fn a_rate_known_from_few_usages_gives_the_negative_binomial() {
    // Gamma rate and Poisson usages: negative binomial demand in the lead time (Babai, Chen, Syntetos & Lengu, Int. J.
    // Prod. Econ. 2020). Shares of time, because busy parts have more usages than their share of replications.
    let rate = EventRate {
        shape: 2.0,
        exposure_days: 600.0,
    };
    let shop = shop(rate, Sizes::Moments(SINGLE), fixed_days(120.0), 4.0);
    let (mean, variance) = rate.events_over(120.0);
    let table = DemandTable::new(&LeadTimeDemand::new(mean, variance));
    let hours = 4.0 * 8760.0;
    let two = policy(1.0, 1.0);
    let stocked = seen(&shop, two, 6000, |of| of.stocked_h / hours);
    confirms("stocked", table.at_most(1), stocked, 0.01);
    let waiting = seen(&shop, two, 6000, |of| of.waiting_h / hours);
    confirms("waiting", table.shortfall(2), waiting, 0.1);
    // With the rate taken as certain it would be off by more than the band.
    let poisson = DemandTable::new(&LeadTimeDemand::Poisson { mean });
    assert!((poisson.at_most(1) - stocked.mean).abs() > 6.0 * stocked.standard_error);
}

#[test]
fn usages_of_several_pieces_have_the_mean_and_spread_they_were_given() {
    let mut dice = super::dice::Dice::new(3, 0, 0, super::dice::Purpose::Usages);
    for (mean, squared_cv) in [(4.0, 0.8), (2.5, 0.2), (3.4, 0.02), (1.0, 0.0)] {
        let size = SizeMoments {
            mean_pieces: mean,
            squared_cv,
        };
        let sizes = Sizes::Moments(size);
        let drawn: Vec<f64> = (0..40_000).map(|_| sizes.draw(&mut dice)).collect();
        let band = Band::of(&drawn);
        let variance = band.standard_error.powi(2) * 40_000.0;
        assert!(drawn.iter().all(|size| *size >= 1.0 && size.fract() == 0.0));
        assert!((band.mean - mean).abs() < 4.0 * band.standard_error + 1e-9);
        // A third of Poisson's spread becomes the two whole numbers around the mean.
        let wanted = squared_cv * mean * mean;
        assert!(
            (variance - wanted).abs() < 0.25 + 0.06 * wanted + (mean - 1.0) * 0.5,
            "{mean} {squared_cv}: {variance} against {wanted}"
        );
        if wanted > mean - 1.0 {
            assert!(
                (variance / wanted - 1.0).abs() < 0.06,
                "{variance} {wanted}"
            );
        }
    }
}

#[test]
fn lumpy_usages_wait_as_the_moments_say() {
    // Base stock under compound usages, one lead time: units waiting E[(D - S)+] with D compound Poisson, its moments
    // taken by a negative binomial as the levels do. A fit by two moments: within 5 % of the simulated.
    let size = SizeMoments {
        mean_pieces: 3.0,
        squared_cv: 0.6,
    };
    let rate = DemandRate {
        events: certain(0.04),
        size,
        basis: RateBasis::Plain,
    };
    let shop = shop(rate.events, Sizes::Moments(size), fixed_days(50.0), 60.0);
    let table = DemandTable::new(&rate.over(50.0).distribution());
    let hours = 60.0 * 8760.0;
    let waiting = seen(&shop, policy(7.0, 1.0), 120, |of| of.waiting_h / hours);
    let exact = table.shortfall(8);
    assert!(
        (waiting.mean / exact - 1.0).abs() < 0.05,
        "{exact} {waiting:?}"
    );
}

#[test]
fn usages_of_several_wait_as_often_as_the_levels_say() {
    // Usages that wait until they have all they take, under one lead time: exact, whatever their quantities (see
    // `level/jobs_short.rs`). Four at a time with none kept: rate times lead time, 0.03 * 20 = 0.6, by hand.
    let four = vec![(4, 1.0)];
    let mixed = vec![(1, 0.6), (4, 0.4)];
    let cases = [
        (0.03, &four, -1, 1),
        (0.03, &four, 3, 1),
        (0.05, &mixed, 2, 5),
        (0.05, &mixed, 4, 1),
    ];
    let waiting = |per_day: f64, sizes: &[(u32, f64)], lead: LeadTime, (point, quantity)| {
        let reached = sizes.iter().scan(0.0, |reached, (size, share)| {
            *reached += share;
            Some((*reached, f64::from(*size)))
        });
        let recorded = Sizes::Recorded(reached.collect());
        let shop = shop(certain(per_day), recorded, lead, 60.0);
        let policy = policy(point, quantity);
        seen(&shop, policy, 120, |of| of.jobs_waiting_h / (60.0 * 8760.0))
    };
    let stated = |law: &LeadTimeDemand, point: i64, quantity: i64| {
        let table = DemandTable::new(law);
        let jobs = JobSteps::new(JobsShort::new(law, &table, 1.0), &table, quantity);
        let service = Service::new(&table, point, quantity, &[]);
        service.with_jobs(&jobs, point).jobs_waiting
    };
    for (per_day, sizes, point, quantity) in cases {
        let law = LeadTimeDemand::compound(per_day * 20.0, sizes);
        let exact = stated(&law, point, quantity);
        let policy = (point as f64, quantity as f64);
        let found = waiting(per_day, sizes, fixed_days(20.0), policy);
        confirms("usages waiting", exact, found, 0.05);
    }
    // With lead times that vary, orders overtake each other now and then, which the levels do not count on: a tenth at the most.
    let (log_variance, mean_days) = (0.25_f64.ln_1p(), 20.0_f64);
    let law = LeadTime::Lognormal {
        log_mean: (mean_days * 24.0).ln() - log_variance / 2.0,
        log_sd: log_variance.sqrt(),
    };
    let demand = LeadTimeDemand::compound_of(1.0, 1.0 + 0.25, &mixed);
    let found = waiting(0.05, &mixed, law, (2.0, 5.0)).mean;
    let off = found / stated(&demand, 2, 5) - 1.0;
    assert!(off.abs() < 0.1, "{off}");
}

#[test]
fn a_machine_without_spares_is_down_as_often_as_anything_is_on_order() {
    // Number on order of M/G/infinity is Poisson: share of time with at least one is 1 - exp(-rate * lead time) (Ross,
    // Introduction to Probability Models, from memory). Waits that overlap stop the machine once.
    let shop = shop(
        certain(0.02),
        Sizes::Moments(SINGLE),
        fixed_days(30.0),
        40.0,
    );
    let down: Vec<f64> = (0..200)
        .map(|replication| {
            let year = one_year(&shop, &[policy(-1.0, 1.0)], 7, replication);
            year.down_h[0] / (40.0 * 8760.0)
        })
        .collect();
    confirms("down", 1.0 - (-0.6_f64).exp(), Band::of(&down), 0.01);
}

#[test]
fn threads_do_not_change_a_result_and_a_seed_does() {
    let shop = shop(certain(0.05), Sizes::Moments(SINGLE), fixed_days(30.0), 1.0);
    let run = |threads: usize, seed: u64| {
        parallel::on(threads, || Runs::new(&shop, &[policy(1.0, 1.0)], seed, 40))
    };
    assert_eq!(run(1, 5), run(3, 5));
    assert_ne!(run(1, 5), run(1, 6));
}

#[test]
fn the_same_luck_sharpens_a_comparison_and_more_stock_waits_less() {
    let shop = shop(certain(0.02), Sizes::Moments(SINGLE), fixed_days(45.0), 1.0);
    let run = |point: f64| Runs::new(&shop, &[policy(point, 1.0)], 7, 300);
    let (one, two) = (run(0.0), run(1.0));
    let year = compare(&one, &two, 7, &shop);
    let change = year.change.down_h;
    let apart = (year.before.down_h.standard_error.powi(2)
        + year.after.down_h.standard_error.powi(2))
    .sqrt();
    assert!(change.mean < -4.0 * change.standard_error, "{change:?}");
    assert!(change.standard_error < apart, "{change:?} {apart}");
    assert_eq!(year.machines[0].change, Some(change));
    let same = compare(&one, &one, 7, &shop);
    assert_eq!(same.change.down_h, Band::default());
}

#[test]
fn a_rebuild_waits_for_what_comes_late_and_a_lot_that_ends_is_no_stock() {
    // By hand. Needed at hour 240, ordered at 120, 10 days on its way: 120 h down. Three of the opening stock end at
    // hour 100, so that the five left become two; the second need takes both and is not held up.
    let mut shop = shop(certain(0.0), Sizes::Moments(SINGLE), fixed_days(10.0), 1.0);
    shop.measured_from_h = 0.0;
    shop.until_h = 8760.0;
    shop.parts[0].usages = None;
    let need = |at_h: f64, quantity: f64| YearNeed {
        at_h,
        place: Some(0),
        choices: vec![(0, quantity)],
        else_wait_for: (0, quantity),
        made: Vec::new(),
    };
    shop.needs = vec![need(240.0, 4.0)];
    shop.orders = vec![(120.0, 0, 4.0)];
    let none = policy(-1.0, 0.0);
    let year = one_year(&shop, &[none], 1, 0);
    assert!((year.down_h[0] - 120.0).abs() < 1e-9, "{:?}", year.down_h);
    shop.parts[0].opening = 5.0;
    shop.parts[0].lots = vec![(100.0, 3.0)];
    shop.orders.clear();
    shop.needs = vec![need(240.0, 2.0), need(300.0, 1.0)];
    let year = one_year(&shop, &[none], 1, 0);
    assert!((year.parts[0].expired - 3.0).abs() < 1e-9);
    assert!((year.parts[0].met_whole - 1.0).abs() < 1e-9);
    // The last one is ordered when it is missed and comes ten days later.
    assert!((year.down_h[0] - 240.0).abs() < 1e-9, "{:?}", year.down_h);
}

#[test]
fn a_machine_that_leaves_service_stands_down_no_longer() {
    // By hand. Needed at hour 240 and ordered then, 60 days or 1440 h on its way: down until hour 1680, or until the hour
    // 1000 at which the machine leaves; a part that nobody sells waits for the end of the year.
    let run = |until_h: f64, receipts: Option<Receipts>| {
        let mut shop = shop(certain(0.0), Sizes::Moments(SINGLE), fixed_days(60.0), 1.0);
        shop.measured_from_h = 0.0;
        shop.until_h = 8760.0;
        shop.machines[0].until_h = until_h;
        shop.parts[0].usages = None;
        shop.parts[0].receipts = receipts.unwrap_or(shop.parts[0].receipts.clone());
        shop.needs = vec![YearNeed {
            at_h: 240.0,
            place: Some(0),
            choices: vec![(0, 2.0)],
            else_wait_for: (0, 2.0),
            made: Vec::new(),
        }];
        one_year(&shop, &[policy(-1.0, 0.0)], 1, 0)
    };
    for (until_h, receipts, down_h) in [
        (f64::INFINITY, None, 1440.0),
        (2000.0, None, 1440.0),
        (1000.0, None, 760.0),
        (1000.0, Some(Receipts::Never), 760.0),
        (f64::INFINITY, Some(Receipts::Never), 8520.0),
    ] {
        let year = run(until_h, receipts);
        assert!(
            (year.down_h[0] - down_h).abs() < 1e-9,
            "{until_h}: {:?}",
            year.down_h
        );
        // Two units wait as long as the machine does.
        assert!(
            (year.parts[0].waiting_h - 2.0 * down_h).abs() < 1e-9,
            "{year:?}"
        );
    }
    // What comes for a machine that is gone lies on the shelf from hour 1680 on.
    let on_hand_h = run(1000.0, None).parts[0].on_hand_h;
    assert!(
        (on_hand_h - 2.0 * (8760.0 - 1680.0)).abs() < 1e-6,
        "{on_hand_h}"
    );
}

#[test]
fn a_machine_that_has_left_service_uses_nothing() {
    // A usage a day until the machine leaves after 100 days, of 365: Poisson with mean 100, within four deviations of 10.
    let mut shop = shop(certain(1.0), Sizes::Moments(SINGLE), fixed_days(1.0), 1.0);
    shop.measured_from_h = 0.0;
    shop.until_h = 8760.0;
    shop.machines[0].until_h = 2400.0;
    let usages = one_year(&shop, &[policy(9.0, 1.0)], 1, 0).parts[0].usages;
    assert!((60.0..=140.0).contains(&usages), "{usages}");
}

#[test]
fn a_rebuild_waits_for_what_is_made_late_and_nothing_is_ordered_for_it() {
    // By hand. Needed at hour 240, ready at hour 400: 160 h down, and no order; ready at hour 100, none. With one on the shelf
    // the rebuild takes that, and what is made lies there from hour 400 on.
    let run = |ready_h: f64, opening: f64| {
        let mut shop = shop(certain(0.0), Sizes::Moments(SINGLE), fixed_days(10.0), 1.0);
        shop.measured_from_h = 0.0;
        shop.until_h = 8760.0;
        shop.parts[0].usages = None;
        shop.parts[0].opening = opening;
        shop.needs = vec![YearNeed {
            at_h: 240.0,
            place: Some(0),
            choices: vec![(0, 1.0)],
            else_wait_for: (0, 1.0),
            made: vec![(vec![ready_h], 1.0)],
        }];
        one_year(&shop, &[policy(-1.0, 0.0)], 1, 0)
    };
    for (ready_h, opening, down_h) in [(400.0, 0.0, 160.0), (100.0, 0.0, 0.0), (400.0, 1.0, 0.0)] {
        let year = run(ready_h, opening);
        assert!((year.down_h[0] - down_h).abs() < 1e-9, "{year:?}");
        assert!(year.parts[0].orders.abs() < 1e-9, "{year:?}");
    }
    let on_hand_h = run(400.0, 1.0).parts[0].on_hand_h;
    assert!((on_hand_h - 240.0 - (8760.0 - 400.0)).abs() < 1e-6);
}

#[test]
fn the_shelf_is_bridged_each_time_that_it_runs_low_before_a_late_order_comes() {
    // One on the shelf and ten that come at hour 6000; an order takes 10 days, so that the ten do not count before hour 5760.
    // Rebuilds take one each at the hours 100, 1000, 2000 and 6500: with a reorder point of 0 each of the first three is
    // followed by an order of one, the last by none (by hand), and nobody waits.
    let run = |bridges: bool| {
        let mut shop = shop(certain(0.0), Sizes::Moments(SINGLE), fixed_days(10.0), 1.0);
        shop.measured_from_h = 0.0;
        shop.until_h = 8760.0;
        shop.parts[0].usages = None;
        shop.parts[0].opening = 1.0;
        shop.parts[0].placed = vec![(vec![6000.0], 10.0)];
        shop.parts[0].not_counted = vec![(0, 5760.0)];
        let needs = [100.0, 1000.0, 2000.0, 6500.0].map(|at_h| YearNeed {
            at_h,
            place: Some(0),
            choices: vec![(0, 1.0)],
            else_wait_for: (0, 1.0),
            made: Vec::new(),
        });
        shop.needs = needs.to_vec();
        let policy = OrderPolicy {
            bridges,
            ..policy(0.0, 4.0)
        };
        one_year(&shop, &[policy], 1, 0)
    };
    let bridged = run(true);
    assert!((bridged.parts[0].orders - 3.0).abs() < 1e-9, "{bridged:?}");
    assert!(bridged.down_h[0].abs() < 1e-9, "{bridged:?}");
    // Without, the second and third wait for the ten: from hour 1000 on.
    let not = run(false);
    assert!(not.parts[0].orders.abs() < 1e-9, "{not:?}");
    assert!((not.down_h[0] - 5000.0).abs() < 1e-9, "{not:?}");
}

#[test]
fn a_last_buy_is_bought_once() {
    let mut shop = shop(certain(0.0), Sizes::Moments(SINGLE), fixed_days(10.0), 1.0);
    shop.measured_from_h = 0.0;
    shop.parts[0].usages = None;
    let bought = OrderPolicy {
        first_buy: 6.0,
        ..policy(-1.0, 0.0)
    };
    let year = one_year(&shop, &[bought], 1, 0);
    assert!((year.parts[0].orders - 1.0).abs() < 1e-9);
    assert!((year.parts[0].on_hand_h - 6.0 * (shop.until_h - 240.0)).abs() < 1e-6);
}

/// By its meaning: what is ordered in one line comes in one consignment, whether the kit has one line for it or four.
#[test]
fn one_order_for_several_lines_of_a_rebuild_comes_once() {
    let orders = |lines: &[f64]| {
        let settings = "records_from = \"2021-03-04\"\n[planning]\ndemand_method = \"plain\"";
        let mut sample = Sample::new(settings);
        sample.supplier("S", |_| {});
        sample.machine("M1", Some(100.0), None);
        let part = sample.part("A");
        sample.offer(part, "S", workdays(20.0), |_| {});
        for year in 2021..2026 {
            sample.usage(part, &format!("{year}-06-01"), 1.0);
            sample.usage(part, &format!("{year}-11-01"), 1.0);
        }
        sample.kit("K");
        for quantity in lines {
            sample.line(Some(part), *quantity, &[], |_| {});
        }
        sample.planned("2026-06-01");
        let plan = sample.plan();
        ShopYear::new(&sample.built(), &plan).orders
    };
    let once = orders(&[4.0]);
    let quantities: Vec<f64> = once.iter().map(|(_, _, quantity)| *quantity).collect();
    assert_eq!(quantities, [4.0]);
    for lines in [&[2.0, 2.0][..], &[1.0, 3.0], &[1.0; 4]] {
        assert_eq!(orders(lines), once, "{lines:?}");
    }
}

/// Orders of a part by a way through the calendars, placed on the hour of a usage.
fn dated(settings: &str, cutoff: Option<&str>, lead: f64) -> (ShopYear, Calendars) {
    let settings = ShopSettings::from_toml(settings).unwrap();
    let calendars = Calendars::new(&settings);
    let mut record = SupplierRecord::named("North", Place::row(&"s.csv".into(), &"".into(), 1));
    record.order_cutoff =
        cutoff.map(|text| chrono::NaiveTime::parse_from_str(text, "%H:%M").unwrap());
    let start = at("2026-03-02T00:00");
    let course = Course::Days {
        lead: LeadTime::Fixed { amount: lead },
        is_workdays: true,
        calendar: calendars.id_of_supplier(None),
        from: start.date(),
        not_before: start,
        not_by: None,
    };
    let placing = Placing::at_desk(&calendars, Some(&record));
    let mut shop = shop(certain(0.02), Sizes::Moments(SINGLE), fixed_days(1.0), 40.0);
    shop.calendars = calendars.clone();
    shop.as_of = start;
    shop.parts[0].receipts = Amounts::default().receipts(&calendars, course, placing);
    (shop, calendars)
}

const EVERY_DAY: &str = "receiving_hour = \"00:00\"\n[calendars.day]\nshifts = [{ days = [\"mon\", \"tue\", \
    \"wed\", \"thu\", \"fri\", \"sat\", \"sun\"], from = \"00:00\", until = \"00:00\" }]";

#[test]
fn an_order_of_the_year_counts_by_its_cut_off_and_is_received_when_receiving_opens() {
    // Three working days from the day the order counts, received at 9:00 of a day shift.
    let day = "receiving_hour = \"09:00\"";
    for (cutoff, ordered, there) in [
        (None, "2026-03-03T23:00", "2026-03-06T09:00"),
        (Some("11:00"), "2026-03-03T11:00", "2026-03-06T09:00"),
        (Some("11:00"), "2026-03-03T11:01", "2026-03-09T09:00"),
        // On Friday after the cut-off it counts from Monday, and so does one of the weekend.
        (Some("11:00"), "2026-03-06T12:00", "2026-03-12T09:00"),
        (Some("11:00"), "2026-03-08T12:00", "2026-03-12T09:00"),
        (Some("11:00"), "2026-03-09T10:00", "2026-03-12T09:00"),
    ] {
        let (shop, calendars) = dated(day, cutoff, 3.0);
        let hours = |text: &str| (at(text) - shop.as_of).num_minutes() as f64 / 60.0;
        let found = shop.parts[0]
            .receipts
            .arrival_h(&calendars, shop.as_of, hours(ordered), 0.5)
            .unwrap();
        assert!(
            (found - hours(there)).abs() < 1e-9,
            "{cutoff:?} {ordered}: {found}"
        );
    }
}

#[test]
fn a_cut_off_lengthens_the_wait_by_the_share_of_the_day_after_it() {
    // Usages at any hour of the day with the same chance; working and receiving at every midnight. Without a cut-off an
    // order of day d is there at midnight of d + 5: on the average 4.5 days later. After a cut-off at noon half of the
    // orders count one day later: 5.0 days. With no stock units wait the whole of it: rate times that (Little, Operations
    // Research 9:383-387, 1961).
    for (cutoff, days) in [(None, 4.5), (Some("12:00"), 5.0), (Some("06:00"), 5.25)] {
        let (shop, _) = dated(EVERY_DAY, cutoff, 5.0);
        let hours = 40.0 * 8760.0;
        let waiting = seen(&shop, policy(-1.0, 1.0), 120, |of| of.waiting_h / hours);
        confirms(&format!("{cutoff:?}"), 0.02 * days, waiting, 0.01);
    }
}

#[test]
fn what_a_machine_waits_for_comes_by_courier_where_its_hours_cost_more() {
    // Ten days by the ordinary way, six hours by courier for 90.00; the machine's hour counts 10.00 and every hour counts.
    let run = |surcharge: f64, per_h: Option<f64>, stock: f64| {
        let mut shop = shop(certain(0.02), Sizes::Moments(SINGLE), fixed_days(10.0), 5.0);
        shop.machines[0].down_cost_per_h = per_h;
        let hours = LeadTime::Fixed { amount: 6.0 };
        shop.parts[0].rush = Some(Rush {
            receipts: Receipts::elapsed(hours),
            surcharge,
        });
        shop.parts[0].opening = stock;
        let year = one_year(&shop, &[policy(stock - 1.0, 1.0)], 7, 0);
        (year.parts[0], year.down_h[0])
    };
    let (part, down_h) = run(90.0, Some(10.0), 0.0);
    assert!(
        part.usages > 10.0 && (down_h - 6.0 * part.usages).abs() < 6.0 + 1e-6,
        "{down_h} {part:?}"
    );
    assert!(
        (part.surcharges - 90.0 * part.orders).abs() < 1e-9,
        "{part:?}"
    );
    // 234 hours saved at 10.00 are less than 2,400.00; without a cost of the hour nothing pays but what is free.
    for (surcharge, per_h) in [(2_400.0, Some(10.0)), (90.0, None)] {
        let (part, down_h) = run(surcharge, per_h, 0.0);
        assert!(
            part.surcharges.abs() < 1e-9 && down_h > 200.0,
            "{part:?} {down_h}"
        );
    }
    assert!(run(0.0, None, 0.0).1 < 6.0 * part.usages + 6.0);
    // Nobody waits: the ordinary way does.
    let (part, down_h) = run(90.0, Some(10.0), 30.0);
    assert!(
        part.surcharges.abs() < 1e-9 && down_h.abs() < 1e-9,
        "{part:?}"
    );
}

#[test]
fn goods_of_the_same_day_come_by_its_hour_or_on_the_next_working_day() {
    let mut sample = crate::plan::sample::Sample::new("");
    let time = |hour| chrono::NaiveTime::from_hms_opt(hour, 0, 0).unwrap();
    sample.supplier("North", |supplier| {
        supplier.same_day = Some(crate::record::SameDay {
            order_by: time(9),
            there_by: time(13),
            cost: Some(crate::plan::sample::euros(5.0)),
        });
    });
    let calendars = Calendars::new(&sample.shop.settings);
    let record = sample.shop.suppliers.values().next().unwrap();
    let placing = Placing::same_day(&calendars, record, record.same_day.unwrap());
    let start = at("2026-03-04T09:00");
    let course = Course::Hours {
        lead: LeadTime::Fixed { amount: 4.0 },
        from: start,
        clock: HourClock::Received,
    };
    let receipts = Amounts::default().receipts(&calendars, course, placing);
    for (ordered_h, there_h) in [
        (-1.0, 4.0),
        (0.0, 4.0),
        (0.5, 28.0),
        (24.0 * 2.0 + 1.0, 24.0 * 5.0 + 4.0),
    ] {
        let found = receipts
            .arrival_h(&calendars, start, ordered_h, 0.5)
            .unwrap();
        assert!((found - there_h).abs() < 1e-6, "{ordered_h}: {found}");
    }
}

#[test]
fn who_comes_to_a_closed_counter_fetches_the_goods_when_it_opens_again() {
    let mut sample = crate::plan::sample::Sample::new("");
    let time = |hour| chrono::NaiveTime::from_hms_opt(hour, 0, 0).unwrap();
    sample.supplier("North", |supplier| {
        supplier.collection_h = Some(2.0);
        supplier.counter_hours = Some((time(8), time(17)));
    });
    let calendars = Calendars::new(&sample.shop.settings);
    let record = sample.shop.suppliers.values().next().unwrap();
    let placing = crate::plan::DeliveryKind::Collected.placing(&calendars, record);
    // Wednesday 4 March 2026, an hour there and an hour back.
    let start = at("2026-03-04T09:00");
    let course = Course::Hours {
        lead: LeadTime::Fixed { amount: 2.0 },
        from: start,
        clock: HourClock::Elapsed,
    };
    let receipts = Amounts::default().receipts(&calendars, course, placing.unwrap());
    // From 16:00 on nobody is there before five: the next day at eight, back at ten.
    for (ordered_h, there_h) in [(0.0, 2.0), (6.5, 8.5), (7.0, 25.0), (9.0, 25.0)] {
        let found = receipts
            .arrival_h(&calendars, start, ordered_h, 0.5)
            .unwrap();
        assert!((found - there_h).abs() < 1e-6, "{ordered_h}: {found}");
    }
}

#[test]
fn a_minimum_with_digits_too_many_is_a_few_orders_and_meets_everything() {
    // One by one it would be a thousand million orders at the first moment.
    let mut shop = shop(certain(0.05), Sizes::Moments(SINGLE), fixed_days(5.0), 1.0);
    shop.parts[0].opening = 3.0;
    let year = one_year(&shop, &[policy(1e9, 1.0)], 7, 0);
    let part = year.parts[0];
    assert!(part.usages > 5.0);
    assert!((part.met_whole - part.usages).abs() < 1e-9, "{part:?}");
    // Measured from the third year on: what was used then was ordered again, one by one.
    assert!((part.orders - part.usages).abs() < 1e-9, "{part:?}");
    assert!(part.on_hand_h > 0.9e9 * 8760.0, "{part:?}");
}

/// A demand with these sizes, plain.
fn demand(events: EventRate, sizes: Vec<(u32, f64)>) -> Demand {
    let sum = |power: i32| -> f64 {
        let each = sizes.iter();
        each.map(|(size, share)| f64::from(*size).powi(power) * share)
            .sum()
    };
    let (mean, square) = (sum(1), sum(2));
    Demand {
        rate: Rate::Known {
            pieces_per_day: events.mean_per_day() * mean,
        },
        exposure_days: 3_650.0,
        events: 10,
        net_quantity: 10.0 * mean,
        mean_size: mean,
        mean_square_size: square,
        sizes,
        likely_sizes: Vec::new(),
        before_records: 0,
        for_planned_rebuilds: 0,
        in_parts: None,
        left_out_above: None,
        class: None,
        estimate: Some(DemandRate {
            events,
            size: SizeMoments {
                mean_pieces: mean,
                squared_cv: square / (mean * mean) - 1.0,
            },
            basis: RateBasis::Plain,
        }),
        by_lives: None,
    }
}

#[test]
fn a_year_from_an_empty_shelf_meets_what_is_stated_and_far_less_than_the_long_run() {
    let ones = vec![(1, 1.0)];
    let mixed = vec![(1, 0.6), (3, 0.4)];
    let cases = [
        ("rare", certain(0.3 / 365.0), &ones, 30.0, 5),
        ("yearly", certain(1.0 / 365.0), &ones, 30.0, 5),
        ("slow to come", certain(1.0 / 365.0), &ones, 90.0, 5),
        ("four a year", certain(4.0 / 365.0), &ones, 60.0, 6),
        ("several at a time", certain(1.5 / 365.0), &mixed, 45.0, 6),
    ];
    for (name, rate, sizes, days, quantity) in cases {
        let demand = demand(rate, sizes.clone());
        let reached = sizes.iter().scan(0.0, |reached, (size, share)| {
            *reached += share;
            Some((*reached, f64::from(*size)))
        });
        let recorded = Sizes::Recorded(reached.collect());
        let mut shop = shop(rate, recorded, fixed_days(days), 1.0);
        shop.measured_from_h = 0.0;
        shop.until_h = 8760.0;
        let table = DemandTable::new(&demand.distribution(days).unwrap());
        let year = EmptyShelf::new(&demand, days, quantity).unwrap();
        let long_run = Service::new(&table, -1, quantity, sizes);
        let service = long_run.from_empty(&year, &table);
        let policy = policy(-1.0, quantity as f64);
        let usages = rate.mean_per_day() * 365.0;
        let units = usages * demand.mean_size;
        let met = seen(&shop, policy, 20_000, |of| of.units_met);
        confirms(name, units * service.unit_fill_share, met, 0.06);
        let whole = seen(&shop, policy, 20_000, |of| of.met_whole);
        confirms(name, usages * service.whole_job_share, whole, 0.06);
        assert!(
            service.unit_fill_share < long_run.unit_fill_share - 0.1,
            "{name}"
        );
    }
}
