use super::*;
use crate::catalogue::PartId;
use crate::plan::sample::{Sample, workdays};
use crate::plan::{LevelBasis, Plan, Rate, Weibull};
use crate::record::UsageReason;

/// Six failures of one piece on a single machine of ten running hours a day; the last change 100 days ago.
const DATES: [&str; 6] = [
    "2023-01-04",
    "2023-05-04",
    "2023-11-04",
    "2024-02-04",
    "2025-03-04",
    "2025-11-24",
];

fn sample(settings: &str, quantity: f64) -> (Sample, PartId) {
    let mut sample = Sample::new(&format!("records_from = \"2022-03-04\"\n{settings}"));
    sample.supplier("S", |_| {});
    let part = sample.part("A");
    sample.machine("M1", Some(100.0), None);
    for machine in sample.shop.machines.values_mut() {
        machine.running_hours = Some(3650.0);
        machine.installed = Some(1.0);
    }
    sample.kit("K");
    sample.line(Some(part), quantity, &[], |_| {});
    sample.offer(part, "S", workdays(20.0), |_| {});
    for date in DATES {
        used(
            &mut sample,
            part,
            date,
            quantity,
            Some(UsageReason::Failure),
        );
    }
    (sample, part)
}

fn used(sample: &mut Sample, part: PartId, date: &str, quantity: f64, reason: Option<UsageReason>) {
    sample.usage(part, date, quantity);
    let record = &mut sample.shop.usages.last_mut().unwrap().record;
    record.machine = Some("M1".into());
    record.reason = reason;
}

fn forecast(plan: &Plan, part: PartId) -> LifeForecast {
    plan.demands[&part].by_lives.clone().unwrap()
}

#[test]
fn a_lead_time_asks_for_what_fails_at_the_age_reached() {
    let (sample, part) = sample("", 1.0);
    let plan = sample.plan();
    let lives = forecast(&plan, part);
    assert_eq!((lives.fit.failures, lives.positions.len()), (5, 1));
    let LeadTimeDemand::Counted { shares } = lives.demand(30.0) else {
        panic!("no counts");
    };
    // None fails with the probability that a part of 1,000 h lasts 300 h more (conditional Weibull, NIST 8.1.6.2).
    let lasts = lives.fit.life.survival(1300.0) / lives.fit.life.survival(1000.0);
    assert!((shares[0] - lasts).abs() < 1e-12);
    assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-9);
    // The rate that everything else is told by is that of the coming year.
    let (year, _) = lives.demand(365.0).moments();
    let Rate::Known { pieces_per_day } = plan.demands[&part].rate else {
        panic!("no rate");
    };
    assert!((pieces_per_day * 365.0 - year).abs() < 1e-9);
}

#[test]
fn the_level_rests_on_the_ages_and_says_so() {
    let (sample, part) = sample("", 1.0);
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    let LevelBasis::Computed(reason) = &level.why else {
        panic!("not computed");
    };
    assert!(matches!(
        reason.lead_time_demand,
        LeadTimeDemand::Counted { .. }
    ));
    let why = level.why.to_string();
    assert!(why.contains("by the ages of 1 fitted"), "{why}");
    assert!(
        why.contains("from 5 failures and 1 that still run"),
        "{why}"
    );
    assert!(why.contains("(by usages alone "), "{why}");
}

#[test]
fn a_part_that_wears_out_asks_for_more_the_older_it_is() {
    let (mut sample, part) = sample("", 1.0);
    let asked = |sample: &Sample| forecast(&sample.plan(), part).demand(30.0).moments().0;
    let young = asked(&sample);
    // The same lives, but the last change lies further back.
    for usage in &mut sample.shop.usages {
        usage.record.date -= chrono::Duration::days(150);
    }
    let plan = sample.plan();
    assert!(forecast(&plan, part).fit.life.shape > 1.0);
    assert!(asked(&sample) > young);
}

#[test]
fn a_change_takes_the_whole_quantity_of_its_position() {
    let (sample, part) = sample("", 4.0);
    let LeadTimeDemand::Counted { shares } = forecast(&sample.plan(), part).demand(60.0) else {
        panic!("no counts");
    };
    for (pieces, share) in shares.iter().enumerate() {
        assert_eq!(*share > 0.0, pieces % 4 == 0, "{pieces}: {share}");
    }
}

#[test]
fn what_the_lives_do_not_cover_is_left_to_the_rate() {
    // (what is changed, whether the lives still hold)
    type Change = fn(&mut Sample, PartId);
    let cases: [(&str, Change, bool); 6] = [
        ("nothing", |_, _| {}, true),
        (
            "a usage on another machine",
            |sample, part| {
                sample.usage(part, "2025-06-04", 1.0);
                let record = &mut sample.shop.usages.last_mut().unwrap().record;
                record.machine = Some("M9".into());
            },
            false,
        ),
        (
            "a usage without a machine",
            |sample, part| sample.usage(part, "2025-06-04", 1.0),
            false,
        ),
        (
            "one failure fewer than enough",
            |sample, _| {
                sample.shop.usages.remove(0);
            },
            false,
        ),
        (
            "a machine without running hours",
            |sample, _| {
                for machine in sample.shop.machines.values_mut() {
                    machine.running_hours = None;
                }
            },
            false,
        ),
        (
            "two machines of one name",
            |sample, _| {
                for machine in sample.shop.machines.values_mut() {
                    machine.installed = Some(2.0);
                }
            },
            false,
        ),
    ];
    for (what, change, holds) in cases {
        let (mut sample, part) = sample("", 1.0);
        change(&mut sample, part);
        let demand = sample.plan().demands[&part].clone();
        assert_eq!(demand.by_lives.is_some(), holds, "{what}");
        assert!(matches!(demand.rate, Rate::Known { .. }), "{what}");
    }
}

#[test]
fn another_method_of_the_settings_comes_before_the_lives() {
    for method in ["plain", "sba", "tsb"] {
        let settings = format!("[planning]\ndemand_method = \"{method}\"");
        let (sample, part) = sample(&settings, 1.0);
        assert_eq!(sample.plan().demands[&part].by_lives, None, "{method}");
    }
}

#[test]
fn planned_changes_without_a_date_are_asked_for_beside_the_failures() {
    let (mut sample, part) = sample("", 1.0);
    used(
        &mut sample,
        part,
        "2024-08-04",
        1.0,
        Some(UsageReason::Planned),
    );
    let lives = forecast(&sample.plan(), part);
    // One in 1,461 days of records from 4 March 2022 to 4 March 2026.
    assert!((lives.planned_per_day - 1.0 / 1461.0).abs() < 1e-12);
    let alone = LifeForecast {
        planned_per_day: 0.0,
        ..lives.clone()
    };
    let more = lives.demand(30.0).moments().0 - alone.demand(30.0).moments().0;
    assert!((more - 30.0 / 1461.0).abs() < 1e-9);
}

#[test]
fn a_lead_time_that_varies_keeps_the_mean_and_widens_the_rest() {
    let lives = LifeForecast {
        fit: Weibull::fit(&[900.0, 1000.0, 1100.0, 1200.0, 1300.0], &[]).unwrap(),
        positions: Vec::new(),
        planned_per_day: 0.02,
        sizes: vec![(1, 1.0)],
        pieces_per_day: 0.02,
    };
    let (mean, variance) = lives.demand_over_lognormal(100.0, 0.4).moments();
    // Poisson of mean 2 over a time of cv 0.4: law of total variance, 2 + 0.8^2.
    assert!((mean - 2.0).abs() < 1e-9, "{mean}");
    assert!((variance - 2.64).abs() < 0.01, "{variance}");
    let fixed = lives.demand_over_lognormal(100.0, 0.0).moments();
    assert!((fixed.1 - 2.0).abs() < 1e-9);
}

#[test]
fn pieces_and_counts_join_as_independent_sums() {
    // Two coins and three pieces for each success of a third: by hand.
    let sum = joined(&[0.25, 0.5, 0.25], &[0.5, 0.5], 3);
    let by_hand = [0.125, 0.25, 0.125, 0.125, 0.25, 0.125];
    assert_eq!(sum, by_hand);
    assert_eq!(joined(&[1.0], &[1.0], 5), [1.0]);
}

#[test]
fn lives_are_not_counted_place_by_place_as_if_they_were_steady() {
    // Eight failures 130 to 137 days apart, the last 94 days ago: in the 49 days of a lead time one fails and no second.
    // One place of a steady rate of 1 in 49 days would keep three.
    let (mut sample, part) = sample("", 1.0);
    for machine in sample.shop.machines.values_mut() {
        machine.running_hours = Some(4000.0);
    }
    let offer = &mut sample.shop.offers[0].record;
    (offer.lead_time, offer.price) = (workdays(30.0), crate::plan::sample::price(400.0));
    sample.shop.usages.clear();
    for date in [
        "2023-05-10",
        "2023-09-20",
        "2024-02-01",
        "2024-06-10",
        "2024-10-25",
        "2025-03-05",
        "2025-07-18",
        "2025-11-30",
    ] {
        used(&mut sample, part, date, 1.0, Some(UsageReason::Failure));
    }
    let plan = sample.plan();
    let LeadTimeDemand::Counted { shares } = forecast(&plan, part).demand(49.0) else {
        panic!("no counts");
    };
    assert!(shares[1] > 0.9, "{shares:?}");
    let level = &plan.levels.by_part[&part];
    let LevelBasis::Computed(reason) = &level.why else {
        panic!("{level:?}");
    };
    assert_eq!(reason.few_machines, None);
    assert!((1.0..=2.0).contains(&level.min_stock), "{level:?}");
}
