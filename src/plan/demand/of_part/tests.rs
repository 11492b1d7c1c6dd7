use super::*;
use crate::plan::sample::Sample;
use crate::record::UsageReason;

const SINCE: &str = "records_from = \"2024-03-04\"";
const PLAIN: &str = "records_from = \"2024-03-04\"\n[planning]\ndemand_method = \"plain\"";

fn per_day(demand: &Demand) -> f64 {
    let Rate::Known { pieces_per_day } = demand.rate else {
        panic!("no rate: {:?}", demand.rate);
    };
    pieces_per_day
}

#[test]
fn returns_are_taken_off_and_old_usages_are_left_out() {
    let mut sample = Sample::new(PLAIN);
    let part = sample.part("A");
    sample.usage(part, "2024-03-03", 7.0);
    sample.usage(part, "2024-03-04", 3.0);
    sample.usage(part, "2025-03-04", 4.0);
    sample.usage(part, "2025-03-05", -2.0);
    let demand = sample.plan().demands[&part].clone();
    assert_eq!((demand.events, demand.before_records), (2, 1));
    assert!((demand.net_quantity - 5.0).abs() < 1e-9);
    // 730 days from 4 March 2024 to 4 March 2026.
    assert!((per_day(&demand) - 5.0 / 730.0).abs() < 1e-12);
}

#[test]
fn a_return_of_more_than_was_used_is_an_issue_and_the_rest_is_planned() {
    let mut sample = Sample::new(PLAIN);
    let (part, other) = (sample.part("A"), sample.part("B"));
    sample.usage(part, "2025-03-04", 4.0);
    sample.usage(part, "2025-03-05", -5.0);
    sample.usage(part, "2025-04-05", 1.0);
    sample.usage(other, "2025-04-05", 1.0);
    let plan = sample.plan();
    assert_eq!(plan.demands[&part].events, 1);
    assert_eq!(plan.demands[&other].events, 1);
    assert_eq!(
        plan.issues[0].to_string(),
        "sample.csv, row 5: 1 of `A` returned beyond what was used before; the excess is left out"
    );
}

#[test]
fn there_is_no_rate_without_exposure() {
    for (settings, rate) in [
        ("", Rate::NoRecordsFrom),
        ("records_from = \"2026-03-04\"", Rate::NoExposure),
        ("records_from = \"2027-01-01\"", Rate::NoExposure),
    ] {
        let mut sample = Sample::new(settings);
        let part = sample.part("A");
        sample.usage(part, "2025-03-04", 4.0);
        let demand = sample.plan().demands[&part].clone();
        assert_eq!(demand.rate, rate);
        assert_eq!((demand.over(100.0), &demand.estimate), (None, &None));
    }
}

#[test]
fn a_shop_without_any_usage_has_no_rates() {
    let mut sample = Sample::new(SINCE);
    let part = sample.part("A");
    assert_eq!(sample.plan().demands[&part].rate, Rate::NoUsages);
}

#[test]
fn a_usage_of_tomorrow_is_an_issue() {
    let mut sample = Sample::new(SINCE);
    let part = sample.part("A");
    sample.usage(part, "2026-03-05", 4.0);
    let plan = sample.plan();
    assert_eq!(plan.demands[&part].events, 0);
    assert!(matches!(plan.issues[..], [PlanIssue::InTheFuture { .. }]));
}

#[test]
fn rebuild_usages_count_once_where_rebuilds_are_planned() {
    let mut sample = Sample::new(SINCE);
    let part = sample.part("A");
    sample.usage(part, "2025-03-04", 4.0);
    sample.shop.usages[0].record.reason = Some(UsageReason::Rebuild);
    sample.kit("K");
    sample.machine("M1", None, None);
    sample.line(Some(part), 4.0, &[], |_| {});
    assert_eq!(sample.plan().demands[&part].events, 1);
    sample.planned("2025-09-01");
    // A date that has passed plans nothing.
    assert_eq!(sample.plan().demands[&part].events, 1);
    sample.planned("2026-09-01");
    let demand = sample.plan().demands[&part].clone();
    assert_eq!((demand.events, demand.for_planned_rebuilds), (0, 1));
    // The rebuild of another machine is not the planned one.
    sample.machine("M2", None, None);
    sample.shop.usages[0].record.machine = Some("m2".into());
    let demand = sample.plan().demands[&part].clone();
    assert_eq!((demand.events, demand.for_planned_rebuilds), (1, 0));
}

#[test]
fn a_substitute_used_in_a_planned_rebuild_is_netted_too() {
    let mut sample = Sample::new(SINCE);
    let (part, same) = (sample.part("A"), sample.part("B"));
    sample.usage(same, "2025-03-04", 4.0);
    sample.shop.usages[0].record.reason = Some(UsageReason::Rebuild);
    sample.kit("K");
    sample.machine("M1", None, None);
    sample.line(Some(part), 4.0, &[same], |_| {});
    sample.planned("2026-09-01");
    assert_eq!(sample.plan().demands[&same].for_planned_rebuilds, 1);
}

#[test]
fn moments_of_varying_quantities_are_those_of_a_compound_poisson() {
    // Sizes 1 and 3, one of each in 730 days: over 365 days one usage is expected, mean E[X] = 2, E[X^2] = 5.
    let mut sample = Sample::new(PLAIN);
    let part = sample.part("A");
    sample.usage(part, "2025-03-04", 1.0);
    sample.usage(part, "2025-04-04", 3.0);
    let (mean, variance) = sample.plan().demands[&part].over(365.0).unwrap();
    assert!((mean - 2.0).abs() < 1e-6);
    assert!((variance - 5.0).abs() < 1e-5);
}

#[test]
fn a_part_without_usages_has_a_rate_from_its_group() {
    let mut sample = Sample::new(SINCE);
    let used = sample.part("A");
    let unused = sample.part("B");
    for date in ["2024-05-02", "2024-11-02", "2025-05-02", "2025-11-02"] {
        sample.usage(used, date, 1.0);
    }
    let plan = sample.plan();
    let (used, unused) = (&plan.demands[&used], &plan.demands[&unused]);
    assert!(per_day(unused) > 0.0 && per_day(unused) < per_day(used));
    // Own four usages in 730 days are drawn to the two parts' mean of two, and no further.
    let yearly = per_day(used) * 730.0;
    assert!(yearly > 2.0 && yearly < 4.5, "{yearly}");
    assert_eq!(
        unused.estimate.as_ref().unwrap().basis.to_string(),
        "own usages and all parts (4 usages of 2 parts, a month counting 0.970 of the next)"
    );
}

#[test]
fn a_machine_that_came_later_shortens_the_exposure() {
    let mut sample = Sample::new(PLAIN);
    let part = sample.part("A");
    sample.machine("M1", None, None);
    for machine in sample.shop.machines.values_mut() {
        machine.in_use_from = Some("2025-03-04".parse().unwrap());
    }
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    sample.usage(part, "2025-06-04", 1.0);
    let demand = sample.plan().demands[&part].clone();
    assert!((demand.exposure_days - 365.0).abs() < 1e-9);
    // A usage on a machine that no table knows: the whole time counts again.
    sample.shop.usages[0].record.machine = Some("M9".into());
    let demand = sample.plan().demands[&part].clone();
    assert!((demand.exposure_days - 730.0).abs() < 1e-9);
}

#[test]
fn retired_machines_end_the_demand() {
    let mut sample = Sample::new(SINCE);
    let part = sample.part("A");
    sample.machine("M1", None, None);
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    sample.usage(part, "2025-06-04", 1.0);
    let retire = |sample: &mut Sample, date: &str| {
        for machine in sample.shop.machines.values_mut() {
            machine.in_use_until = Some(date.parse().unwrap());
        }
        sample.plan()
    };
    let demand = retire(&mut sample, "2026-12-31").demands[&part].clone();
    assert!(matches!(demand.rate, Rate::Known { .. }));
    let demand = retire(&mut sample, "2026-01-31").demands[&part].clone();
    assert_eq!(demand.rate, Rate::MachinesRetired);
    for machine in sample.shop.machines.values_mut() {
        machine.in_use_from = Some("2026-02-01".parse().unwrap());
    }
    let plan = sample.plan();
    let is_told = |issue: &PlanIssue| matches!(issue, PlanIssue::RetiredBeforeUse { .. });
    assert_eq!(plan.issues.iter().filter(|issue| is_told(issue)).count(), 1);
    assert!(matches!(plan.demands[&part].rate, Rate::Known { .. }));
}

#[test]
fn options_by_month_forecast_what_their_formulas_say() {
    // One piece in the month before the last of 23 whole months: Croston's interval is 22 months, with its correction
    // 0.95 / 22 a month; the probability is 0.1 after that month and 0.09 after the next, without usage.
    for (method, monthly) in [("sba", 0.95 / 22.0), ("tsb", 0.09)] {
        let settings = format!("{SINCE}\n[planning]\ndemand_method = \"{method}\"");
        let mut sample = Sample::new(&settings);
        let part = sample.part("A");
        sample.usage(part, "2026-01-20", 1.0);
        let rate = per_day(&sample.plan().demands[&part]);
        assert!((rate * 30.4375 - monthly).abs() < 1e-9, "{method}: {rate}");
    }
}

#[test]
fn quantities_in_parts_of_a_metre_count_as_they_are() {
    let demand = |settings: &str, quantities: &[f64]| {
        let mut sample = Sample::new(settings);
        let part = sample.part("A");
        for (day, quantity) in quantities.iter().enumerate() {
            sample.usage(part, &format!("2025-06-{:02}", day + 1), *quantity);
        }
        sample.plan().demands[&part].clone()
    };
    // By hand: halves, and quarters, of which 0.75 are three and 1.5 six; thousandths keep to mean and spread, and four usages
    // say too little.
    type InParts = Option<(u32, Vec<(u32, f64)>)>;
    let cases: [(&[f64], InParts); 5] = [
        (&[3.5; 5], Some((2, vec![(7, 1.0)]))),
        (
            &[0.75, 0.75, 1.5, 0.75, 1.5],
            Some((4, vec![(3, 0.6), (6, 0.4)])),
        ),
        (&[4.0; 5], Some((1, vec![(4, 1.0)]))),
        (&[0.333, 0.5, 0.5, 0.5, 0.5], None),
        (&[3.5; 4], None),
    ];
    for (quantities, expected) in cases {
        let demand = demand(SINCE, quantities);
        let found = demand.recorded();
        assert_eq!(
            found.map(|(per_unit, sizes)| (per_unit, sizes.to_vec())),
            expected,
            "{quantities:?}"
        );
        let (mean, _) = demand.over(100.0).unwrap();
        assert!(
            (mean / (100.0 * per_day(&demand)) - 1.0).abs() < 1e-9,
            "{quantities:?}"
        );
    }
    // As often 3 m, 3.5 m or 4 m: what is enough in a time rises with what is taken.
    let tables = [3.0, 3.5, 4.0].map(|quantity| {
        let law = demand(PLAIN, &[quantity; 5]).distribution(90.0).unwrap();
        crate::plan::DemandTable::new(&law)
    });
    for units in 0..40 {
        let most = tables.each_ref().map(|table| table.at_most(units));
        assert!(most[0] >= most[1] - 1e-12 && most[1] >= most[2] - 1e-12);
    }
}

#[test]
fn quantities_count_where_usages_took_several_whole_pieces() {
    // (quantities, whether they are taken as they were)
    let cases: [(&[f64], bool); 7] = [
        (&[8.0, 8.0, 16.0, 8.0, 16.0], true),
        (&[8.0, 8.0, 8.0, 8.0, 8.0], true),
        (&[1.0, 1.0, 1.0, 1.0, 2.0], true),
        // Of four usages the quantities are the part's and its group's, here the same.
        (&[8.0, 8.0, 16.0, 8.0], true),
        // Single pieces have no spread, and a quantity that is not whole is none of a kind.
        (&[1.0, 1.0, 1.0, 1.0, 1.0], false),
        (&[8.0, 8.5, 8.0, 8.0, 8.0], false),
        // Thirteen kinds of quantity are as good as a spread.
        (
            &[
                1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0, 13.0,
            ],
            false,
        ),
    ];
    for (quantities, taken) in cases {
        let mut sample = Sample::new(SINCE);
        let part = sample.part("A");
        for (day, quantity) in quantities.iter().enumerate() {
            sample.usage(part, &format!("2025-06-{:02}", day + 1), *quantity);
        }
        let demand = sample.plan().demands[&part].clone();
        assert_eq!(demand.quantities().is_some(), taken, "{quantities:?}");
        // Whichever law it is, the mean stays that of the rate.
        let (mean, _) = demand.over(100.0).unwrap();
        assert!(
            (mean / (100.0 * per_day(&demand)) - 1.0).abs() < 1e-9,
            "{quantities:?}"
        );
        assert!((demand.per_day().unwrap() - per_day(&demand)).abs() < 1e-12);
    }
}

#[test]
fn a_longer_or_less_certain_time_never_asks_for_less() {
    let mut sample = Sample::new(SINCE);
    let part = sample.part("A");
    for day in 1..8 {
        let quantity = if day % 3 == 0 { 4.0 } else { 2.0 };
        sample.usage(part, &format!("2025-06-0{day}"), quantity);
    }
    let demand = sample.plan().demands[&part].clone();
    let point = |days: f64, cv: f64, target: f64| {
        let law = demand.distribution_over(days, cv).unwrap();
        law.reorder_point(target).unwrap()
    };
    for target in [0.5, 0.8, 0.95, 0.99] {
        let mut before = 0;
        for days in [1.0, 10.0, 30.0, 90.0, 200.0] {
            let now = point(days, 0.0, target);
            assert!(now >= before, "{days} {target}");
            before = now;
        }
    }
    assert!(point(60.0, 0.6, 0.95) >= point(60.0, 0.0, 0.95));
    let variance = |cv: f64| demand.distribution_over(60.0, cv).unwrap().moments().1;
    assert!(variance(0.6) > variance(0.3) && variance(0.3) > variance(0.0));
}

#[test]
fn a_part_used_once_is_asked_for_what_its_group_takes_and_no_more() {
    // Five parts, four years: one used 1 piece once, one 5 pieces once, three never.
    let mut sample = Sample::new("records_from = \"2022-03-04\"");
    let parts = ["A", "B", "C", "D", "E"].map(|number| sample.part(number));
    sample.usage(parts[0], "2022-05-01", 1.0);
    sample.usage(parts[1], "2026-02-20", 5.0);
    let plan = sample.plan();
    // Nobody was used twice: an own usage is worth the group, in which 1 and 5 are alike likely.
    for (part, fives) in parts.iter().zip([0.25, 0.75, 0.5, 0.5, 0.5]) {
        let demand = &plan.demands[part];
        let sizes = demand.quantities().unwrap();
        assert_eq!((sizes[0].0, sizes[1].0, sizes.len()), (1, 5, 2));
        assert!((sizes[1].1 - fives).abs() < 1e-12, "{sizes:?}");
        // Less than one usage in 200 lead times of ten days: a sixth piece takes two of them in one.
        let law = demand.distribution(10.0).unwrap();
        let (rate, days) = (demand.usages().unwrap(), 10.0);
        let (mean, variance) = rate.events_over(days);
        let two = (variance - mean + mean * mean) / 2.0;
        assert!(mean < 1.0 / 200.0, "{mean}");
        // P(N >= 2) is no more than E[N (N - 1)] / 2 (Markov).
        assert!(1.0 - law.at_most(5) <= two, "{two}");
        assert!(1.0 - law.at_most(4) > 0.1 * mean);
        assert!(demand.taken().is_none());
    }
}

#[test]
fn several_rare_parts_together_take_what_each_takes() {
    let mut sample = Sample::new("records_from = \"2022-03-04\"");
    let parts = ["A", "B", "C"].map(|number| sample.part(number));
    sample.usage(parts[0], "2025-05-01", 2.0);
    sample.usage(parts[1], "2026-02-20", 6.0);
    let plan = sample.plan();
    let of: Vec<&Demand> = parts.iter().map(|part| &*plan.demands[part]).collect();
    let together = Demand::together(&of).unwrap();
    let sizes = together.quantities().unwrap();
    assert_eq!((sizes[0].0, sizes[1].0, sizes.len()), (2, 6, 2));
    // By hand: the shares of 6 are 1/4, 3/4 and 1/2, by the usages expected of each part.
    let usages = |demand: &Demand| demand.estimate.as_ref().unwrap().events.mean_per_day();
    let all: f64 = of.iter().map(|demand| usages(demand)).sum();
    let sixes = of.iter().zip([0.25, 0.75, 0.5]);
    let sixes: f64 = sixes.map(|(demand, share)| usages(demand) * share).sum();
    assert!((sizes[1].1 - sixes / all).abs() < 1e-9, "{sizes:?}");
}

#[test]
fn few_usages_of_a_part_of_no_family_take_what_they_took() {
    // Ten parts that no standard knows, and a bearing, so that they are a group of their own: it says how often, and nothing of
    // quantities. One was taken thirty at a time, three times: the thirtieth serves a usage, and no fewer serve a part of it.
    let mut sample = Sample::new("records_from = \"2022-03-04\"");
    sample.part_with("6206", |part| {
        part.family = Some(crate::part::Family::DeepGrooveBall);
    });
    let parts: Vec<_> = (0..10).map(|n| sample.part(&format!("X{n}"))).collect();
    for date in ["2022-05-02", "2023-05-02", "2025-05-02"] {
        sample.usage(parts[0], date, 30.0);
    }
    for (part, quantity) in parts[1..].iter().zip([1.0, 2.0, 4.0]) {
        sample.usage(*part, "2024-05-02", quantity);
    }
    let plan = sample.plan();
    let thirty = &plan.demands[&parts[0]];
    assert!(thirty.taken().is_none());
    for quantities in [thirty.quantities(), thirty.own_quantities()] {
        let quantities = quantities.expect("its own");
        assert!(quantities.len() == 1 && quantities[0].0 == 30);
        assert!((quantities[0].1 - 1.0).abs() < 1e-12);
    }
    let (mean, _) = thirty.over(100.0).unwrap();
    assert!((mean / (100.0 * per_day(thirty)) - 1.0).abs() < 1e-9);
    let law = thirty.distribution(30.0).unwrap();
    let table = crate::plan::DemandTable::new(&law);
    let short = crate::plan::level::JobsShort::of(thirty, &law, &table);
    assert!((short.with(0) - mean * 0.3 / 30.0).abs() < 1e-9);
    assert!((short.with(0) - short.with(29)).abs() < 1e-12);
    assert!(short.with(30) < 0.5 * short.with(29));
    // Of what was never used, and of single pieces, nothing is known but how often the group is used.
    for part in [parts[1], parts[9]] {
        assert!(plan.demands[&part].quantities().is_none());
    }
}

#[test]
fn at_the_mean_rate_the_mean_is_kept_and_usages_are_poisson() {
    // Variance of a compound Poisson quantity: usages times the mean square of what they take (Ross, Introduction to Probability
    // Models, ch. 5, from memory); the rate of few usages is known less well, so that its own law spreads more.
    let days = 700.0;
    for (quantities, settings) in [
        (&[1.0, 1.0, 1.0][..], PLAIN),
        (&[2.0, 2.0, 5.0, 2.0, 5.0, 1.0], SINCE),
        (&[2.0, 2.0, 5.0], PLAIN),
        (&[0.75, 0.75, 1.5, 0.75, 1.5], SINCE),
    ] {
        let mut sample = Sample::new(settings);
        let part = sample.part("A");
        for (day, quantity) in quantities.iter().enumerate() {
            sample.usage(part, &format!("2025-06-{:02}", day + 1), *quantity);
        }
        let demand = sample.plan().demands[&part].clone();
        let (mean, variance) = demand.distribution_at_mean_rate(days).unwrap().moments();
        let (by_rate, spread) = demand.distribution(days).unwrap().moments();
        assert!(
            (mean / by_rate - 1.0).abs() < 1e-9,
            "{quantities:?} {mean} {by_rate}"
        );
        assert!(
            variance <= spread + 1e-9,
            "{quantities:?} {variance} {spread}"
        );
        let (per_unit, sizes) = demand.recorded().expect("quantities");
        let taken = |power: i32| -> f64 {
            let each = sizes.iter();
            each.map(|(size, share)| share * (f64::from(*size) / f64::from(per_unit)).powi(power))
                .sum()
        };
        let compound = mean / taken(1) * taken(2);
        assert!(
            (variance / compound - 1.0).abs() < 1e-9,
            "{quantities:?} {variance} {compound}"
        );
    }
}
