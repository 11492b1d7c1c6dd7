//! Freight of goods that are fetched or brought by courier, and the plan's own point of the curve.

use chrono::NaiveTime;

use super::*;
use crate::plan::{DeliveryKind, StudyAsk};
use crate::record::QuotedLeadTime;

/// One part of 4 EUR on the counter of North, whose freight is 90 EUR; an hour down costs 400 EUR.
fn on_the_counter(change: impl FnOnce(&mut crate::record::SupplierRecord)) -> Sample {
    let mut sample = Sample::new(TWO_SHIFTS);
    let hour = |hour| NaiveTime::from_hms_opt(hour, 0, 0).unwrap();
    sample.supplier("North", |north| {
        north.freight = Some(euros(90.0));
        north.counter_hours = Some((hour(7), hour(16)));
        change(north);
    });
    sample.machine("M1", Some(400.0), None);
    let part = sample.part("A");
    sample.offer(part, "North", Some(QuotedLeadTime::InStock), |offer| {
        offer.price = price(4.0);
    });
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    sample
}

fn delivery(outcome: &KitOutcome) -> DeliveryKind {
    match &outcome.lines[0].supplies[0].source {
        Source::Offer { delivery, .. } => *delivery,
        other => panic!("bought: {other:?}"),
    }
}

#[test]
fn what_we_fetch_bears_no_freight_and_a_courier_only_his_own_charge() {
    // By hand: 4.00 for the part; nothing for the way, or 40.00 for the courier; never the 90.00 of a consignment.
    let collected = on_the_counter(|north| north.collection_h = Some(2.0)).plan();
    let outcome = &collected.kits[0].accepted;
    assert_eq!(delivery(outcome), DeliveryKind::Collected);
    assert_eq!(outcome.purchase_cost.unwrap().to_string(), "4.00 EUR");
    assert_eq!(outcome.freight.to_string(), "0.00 EUR");
    let by_courier = on_the_counter(|north| {
        north.courier_h = Some(2.0);
        north.courier_cost = Some(euros(40.0));
    });
    let outcome = &by_courier.plan().kits[0].accepted;
    assert_eq!(delivery(outcome), DeliveryKind::Courier);
    assert_eq!(outcome.purchase_cost.unwrap().to_string(), "4.00 EUR");
    assert_eq!(outcome.freight.to_string(), "40.00 EUR");
    // Sent in the ordinary way it bears the freight.
    let sent = on_the_counter(|_| {});
    assert_eq!(
        sent.plan().kits[0].accepted.freight.to_string(),
        "90.00 EUR"
    );
}

#[test]
fn one_run_is_paid_once_for_all_lines_that_come_with_it() {
    // By hand: 4.00 and 1.13 for the parts, 40.00 for the one courier who brings both.
    let mut sample = on_the_counter(|north| {
        north.courier_h = Some(2.0);
        north.courier_cost = Some(euros(40.0));
    });
    let second = sample.part("B");
    sample.offer(second, "North", Some(QuotedLeadTime::InStock), |offer| {
        offer.price = price(1.13);
    });
    sample.line(Some(second), 1.0, &[], |_| {});
    let outcome = &sample.plan().kits[0].accepted;
    assert_eq!(delivery(outcome), DeliveryKind::Courier);
    assert_eq!(outcome.purchase_cost.unwrap().to_string(), "5.13 EUR");
    assert_eq!(outcome.freight.to_string(), "40.00 EUR");
    // The cheapest plan for fixed lead times counts it once as well.
    let spends: Vec<String> = outcome
        .fixed
        .iter()
        .map(|fixed| fixed.spend.unwrap().to_string())
        .collect();
    assert!(
        spends.iter().all(|spend| spend == "45.13 EUR"),
        "{spends:?}"
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn with_couriers_the_best_plan_is_that_of_trying_everything(prices in [1_u32..60, 1..60, 1..60, 1..60, 1..60, 1..60], runs in [1_u32..80, 1..80]) {
        // Both couriers take the same hours; a consignment is so dear and an hour so cheap that all goods come by courier
        // and nothing is ordered twice.
        let mut sample = Sample::new(TWO_SHIFTS);
        for (name, run) in ["North", "South"].iter().zip(runs) {
            sample.supplier(name, |supplier| {
                supplier.freight = Some(euros(9_000.0));
                supplier.counter_hours = sample_hours();
                supplier.courier_h = Some(2.0);
                supplier.courier_cost = Some(euros(f64::from(run)));
            });
        }
        sample.machine("M1", Some(0.01), None);
        sample.kit("K");
        for line in 0..3 {
            let part = sample.part(["A", "B", "C"][line]);
            for (of, name) in ["North", "South"].iter().enumerate() {
                sample.offer(part, name, Some(QuotedLeadTime::InStock), |offer| {
                    offer.price = price(f64::from(prices[2 * line + of]));
                });
            }
            sample.line(Some(part), 1.0, &[], |_| {});
        }
        let outcome = sample.plan().kits[0].accepted.clone();
        // By hand: bit n is line n from South; each courier is paid once, where he brings anything.
        let least = (0..8_u32).map(|mask| {
            let goods: u32 = (0..3).map(|line| prices[2 * line + (mask >> line & 1) as usize]).sum();
            goods + if mask == 7 { 0 } else { runs[0] } + if mask == 0 { 0 } else { runs[1] }
        }).min().unwrap();
        let paid = outcome.purchase_cost.unwrap().cents + outcome.freight.cents;
        prop_assert_eq!(paid, i64::from(least) * 100);
        prop_assert_eq!(outcome.proof.unwrap().proved, Proved::Best);
    }
}

#[test]
fn a_budget_of_the_part_alone_is_enough_where_it_is_fetched() {
    let sample = on_the_counter(|north| north.collection_h = Some(2.0));
    let ask = StudyAsk {
        budget: Some(euros(4.0)),
        ..StudyAsk::default()
    };
    let study = sample.study(0, &ask);
    assert!(study.for_budget.iter().all(|(_, found)| found.is_some()));
}

#[test]
fn the_moment_of_the_plan_is_on_its_curve() {
    // Two ways within an hour of the clock: the dearer and earlier one is the plan, and the curve shows both. An hour down
    // is cheap, so that nothing is ordered twice.
    let mut sample = on_the_counter(|north| north.collection_h = Some(1.9));
    sample.supplier("South", |south| {
        south.courier_h = Some(1.2);
        south.courier_cost = Some(euros(5.0));
        south.counter_hours = sample_hours();
    });
    sample.machine("M1", Some(12.0), None);
    let part = sample.built().kits[0].lines[0].part.unwrap();
    sample.offer(part, "South", Some(QuotedLeadTime::InStock), |offer| {
        offer.price = price(4.0);
    });
    let study = sample.study(0, &StudyAsk::default());
    let plan = study.plan.accepted.running.as_ref().unwrap().p50.up;
    let (_, points) = &study.curves[0];
    assert_eq!(points.len(), 2, "{points:?}");
    assert!(
        points.iter().any(|point| point.up == plan),
        "{plan} in {:?}",
        points.iter().map(|point| point.up).collect::<Vec<_>>()
    );
}

fn sample_hours() -> Option<(NaiveTime, NaiveTime)> {
    let hour = |hour| NaiveTime::from_hms_opt(hour, 0, 0).unwrap();
    Some((hour(7), hour(16)))
}

#[test]
fn a_way_that_waits_for_a_name_is_told_with_what_the_name_would_save() {
    // Repaired outside in 16 hours of the supplier against three weeks; without a name it is not planned with.
    let mut sample = Sample::new(TWO_SHIFTS);
    sample.supplier("North", |_| {});
    sample.machine("M1", Some(50.0), None);
    let part = sample.part("A");
    sample.offer(part, "North", workdays(15.0), |_| {});
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    sample.way(OtherWayKind::RepairOutside, |way| {
        way.hours = Some(16.0);
        way.cost = Some(euros(80.0));
    });
    let plan = sample.plan();
    let is_told = |issue: &PlanIssue| matches!(issue, PlanIssue::WayWithoutName { .. });
    assert_eq!(plan.issues.iter().filter(|issue| is_told(issue)).count(), 1);
    let kit = &plan.kits[0];
    let [gain] = &kit.open_ways[..] else {
        panic!("one way: {:?}", kit.open_ways);
    };
    let gain = gain.gained;
    assert!(gain.running.p50 < kit.accepted.likely().unwrap().up);
    // The named plan saves just that.
    let record = &mut sample.shop.kits[0].lines[0].other_ways[0];
    record.approved_by = Some("Ann Otter".to_owned());
    let named = &sample.plan().kits[0];
    assert!(named.open_ways.is_empty());
    assert_eq!(named.accepted.likely().unwrap().up, gain.running.p50);
    let hours = |kit: &KitPlan| kit.accepted.running.as_ref().unwrap().mean_h;
    assert!((hours(kit) - hours(named) - gain.saved_h.unwrap()).abs() < 1e-6);
}
