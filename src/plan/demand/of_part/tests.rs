use super::*;
use crate::plan::sample::Sample;

const SINCE: &str = "records_from = \"2024-03-04\"";

#[test]
fn returns_are_taken_off_and_old_usages_are_left_out() {
    let mut sample = Sample::new(SINCE);
    let part = sample.part("A");
    sample.usage(part, "2024-03-03", 7.0);
    sample.usage(part, "2024-03-04", 3.0);
    sample.usage(part, "2025-03-04", 4.0);
    sample.usage(part, "2025-03-05", -2.0);
    let demand = sample.plan().demands[&part].clone();
    assert_eq!((demand.events, demand.before_records), (2, 1));
    assert!((demand.net_quantity - 5.0).abs() < 1e-9);
    // 730 days from 4 March 2024 to 4 March 2026.
    let Rate::Known { pieces_per_day } = demand.rate else {
        panic!("records begin in the settings");
    };
    assert!((pieces_per_day - 5.0 / 730.0).abs() < 1e-12);
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
        assert_eq!(demand.over(100.0), None);
    }
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
    sample.planned("2026-09-01");
    let demand = sample.plan().demands[&part].clone();
    assert_eq!((demand.events, demand.for_planned_rebuilds), (0, 1));
}

#[test]
fn moments_of_varying_quantities_are_those_of_a_compound_poisson() {
    // Sizes 1 and 3, one of each in 730 days: over 365 days one usage is expected, mean E[X] = 2, E[X^2] = 5.
    let mut sample = Sample::new(SINCE);
    let part = sample.part("A");
    sample.usage(part, "2025-03-04", 1.0);
    sample.usage(part, "2025-04-04", 3.0);
    let (mean, variance) = sample.plan().demands[&part].over(365.0).unwrap();
    assert!((mean - 2.0).abs() < 1e-9);
    assert!((variance - 5.0).abs() < 1e-9);
}
