//! What a budget or a moment buys, how often it is kept, and what robbing costs.

use super::*;
use crate::plan::supply::Supply;

/// A kit of one line that can be bought in five working days, or taken from machine M2.
fn robbed(donor_cost: Option<f64>, change: impl FnOnce(&mut Sample, PartId)) -> Sample {
    let mut sample = Sample::new(TWO_SHIFTS);
    sample.supplier("North", |supplier| supplier.freight = Some(euros(40.0)));
    sample.machine("M1", Some(100.0), None);
    sample.machine("M2", donor_cost, None);
    let part = sample.part("A");
    sample.offer(part, "North", workdays(5.0), |offer| {
        offer.price = price(900.0);
    });
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    sample.way(OtherWayKind::OtherMachine, |way| {
        way.from = Some("M2 no. 1".to_owned());
        way.approved_by = Some("Ann Otter".to_owned());
        way.cost = Some(euros(10.0));
    });
    change(&mut sample, part);
    sample
}

fn is_robbed(supplies: &[Supply]) -> bool {
    let mut supplies = supplies.iter();
    supplies.any(|of| matches!(of.source, Source::OtherWay { .. }))
}

/// Mean hours that a machine stands until the part has come and was fitted in six hours, by the plan of a kit of its own.
fn mean_stand_h() -> f64 {
    let mut sample = robbed(None, |_, _| {});
    sample.shop.kits[0].lines[0].other_ways.clear();
    sample.task("Fit", 6.0, &[]);
    let running = sample.plan().kits[0].accepted.running.clone().unwrap();
    running.mean_h
}

#[test]
fn what_a_robbed_machine_stands_for_is_weighed_and_not_paid() {
    let plan = robbed(Some(1.0), |_, _| {}).plan();
    let outcome = &plan.kits[0].accepted;
    let supply = &outcome.lines[0].supplies[0];
    assert!(is_robbed(&outcome.lines[0].supplies));
    // 10.00 of work, 900.00 for the part that replaces it and 40.00 of freight are paid.
    assert_eq!(supply.cost, Some(euros(950.0)));
    assert_eq!(outcome.purchase_cost, Some(euros(950.0)));
    assert_eq!(outcome.freight, euros(0.0));
    // The donor stands for the mean of when the part comes, not for its middle case.
    let stands = supply.donor_downtime.unwrap().to_units();
    let exact = mean_stand_h();
    assert!((stands / exact - 1.0).abs() < 1e-3, "{stands} {exact}");
    // 84.5 production hours are those of the middle case: until 11 March 9:00, and 6 h of refitting.
    assert!(stands > 84.5);
    let running = outcome.running.as_ref().unwrap();
    let proof = outcome.proof.unwrap();
    let all = 950.0 + stands + running.mean_cost.unwrap().to_units();
    assert!((proof.expected.to_units() - all).abs() < 0.015, "{proof:?}");
    // A dear donor is left alone.
    let plan = robbed(Some(200.0), |_, _| {}).plan();
    assert!(!is_robbed(&plan.kits[0].accepted.lines[0].supplies));
}

#[test]
fn a_budget_pays_for_goods_and_work_and_not_for_a_donor() {
    // An hour of M1 costs far more than one of M2, so that robbing is best; and no budget of 1,000.00 pays 200 hours at 40.
    let sample = robbed(Some(40.0), |sample, _| {
        sample.machine("M1", Some(1_000.0), None);
    });
    let ask = |budget: f64| StudyAsk {
        budget: Some(euros(budget)),
        ..StudyAsk::default()
    };
    for (budget, robs) in [(1_000.0, Some(true)), (945.0, Some(false)), (900.0, None)] {
        let study = sample.study(0, &ask(budget));
        // 900.00 for the part and 40.00 of freight are the least: the price list, by hand. Robbing pays 10.00 of work more.
        let least: Vec<_> = study.least_paid.iter().map(|(_, least)| *least).collect();
        let expected = if robs.is_none() {
            vec![Some(euros(940.0)); 3]
        } else {
            vec![]
        };
        assert_eq!(least, expected, "{budget}");
        for (share, found) in &study.for_budget {
            let found = found.as_ref();
            let of_lines = found.map(|of| is_robbed(&of.lines[0].1));
            assert_eq!(of_lines, robs, "{budget} {share}");
            let Some(found) = found else { continue };
            let spend = found.spend.unwrap();
            assert!(spend.to_units() <= budget, "{budget}: {spend}");
            // The total has the donor and the machine itself in it.
            let donor = found.lines[0].1[0].donor_downtime;
            let donor = donor.map_or(0.0, |downtime| downtime.to_units());
            let total = spend.to_units() + donor + 1_000.0 * found.production_h;
            assert!((found.total.unwrap().to_units() - total).abs() < 0.02);
        }
    }
}

#[test]
fn a_cover_that_costs_less_in_all_does_not_hide_one_that_is_paid_with_less() {
    // Made in an hour for 5,000.00: less in all than robbing M2 at 100 an hour, and earlier.
    let sample = robbed(Some(100.0), |sample, _| {
        sample.machine("M1", Some(1_000.0), None);
        sample.way(OtherWayKind::MakeInHouse, |way| {
            way.hours = Some(1.0);
            way.cost = Some(euros(5_000.0));
        });
    });
    let plan = sample.plan();
    let outcome = &plan.kits[0].accepted;
    assert_eq!(outcome.purchase_cost, Some(euros(5_000.0)));
    let ask = StudyAsk {
        budget: Some(euros(1_000.0)),
        ..StudyAsk::default()
    };
    let study = sample.study(0, &ask);
    let found = study.for_budget[0].1.as_ref().unwrap();
    assert!(is_robbed(&found.lines[0].1), "{found:?}");
}

#[test]
fn a_moment_is_kept_as_often_as_its_plan_runs_by_then() {
    let mut sample = robbed(None, |_, _| {});
    sample.shop.kits[0].lines[0].other_ways.clear();
    let running = sample.plan().kits[0].accepted.running.clone().unwrap();
    for (by, least, most) in [
        (running.p50.up, 0.5, 0.6),
        (running.p80.up, 0.8, 0.9),
        (running.p90.up, 0.9, 0.96),
    ] {
        let ask = StudyAsk {
            by: Some(by),
            ..StudyAsk::default()
        };
        let study = sample.study(0, &ask);
        let found = study.for_time[0].1.as_ref().unwrap();
        assert!(
            (least - 1e-9..most).contains(&found.kept_share),
            "{by}: {found:?}"
        );
        // There is one plan: it runs as the plan of the kit does.
        assert_eq!(found.running, running);
    }
    // By now no plan runs: the soonest is that one plan, as the curve has it.
    let ask = StudyAsk {
        by: Some(sample.shop.as_of),
        ..StudyAsk::default()
    };
    let study = sample.study(0, &ask);
    assert_eq!(study.soonest.len(), 3);
    for ((share, curve), (of, soonest)) in study.curves.iter().zip(&study.soonest) {
        assert!((share - of).abs() < 1e-9);
        assert_eq!(*soonest, Some(curve[0].up));
    }
    // Of a curve each point is kept as often as it runs by its own moment: with one line, its share of cases.
    let study = sample.study(0, &StudyAsk::default());
    for (share, points) in &study.curves {
        for point in points {
            assert!(
                point.kept_share >= share - 1e-9,
                "{share} {}",
                point.kept_share
            );
        }
    }
}

#[test]
fn with_two_lines_a_moment_is_kept_less_often_than_each_line() {
    let mut sample = robbed(None, |_, _| {});
    sample.shop.kits[0].lines[0].other_ways.clear();
    let second = sample.part("B");
    sample.offer(second, "North", workdays(5.0), |_| {});
    sample.line(Some(second), 1.0, &[], |_| {});
    let study = sample.study(0, &StudyAsk::default());
    for (share, points) in &study.curves {
        let kept = points[0].kept_share;
        // Two lines of one law, late independently: the square of the share, a whole day's step at most above it.
        assert!(
            (share * share - 1e-9..=(share + 0.12).powi(2)).contains(&kept),
            "{share} {kept}"
        );
    }
}

#[test]
fn shown_totals_are_spend_and_hours_to_the_cent() {
    // Months ahead: what lets the earlier of two equal plans win must not show.
    let mut sample = robbed(None, |_, _| {});
    sample.shop.kits[0].lines[0].other_ways.clear();
    sample.shop.offers[0].record.lead_time = workdays(120.0);
    let plan = sample.plan();
    let outcome = &plan.kits[0].accepted;
    let spend = 940.0;
    let running = outcome.running.as_ref().unwrap();
    let proof = outcome.proof.unwrap();
    let expected = euros(spend + running.mean_cost.unwrap().to_units());
    assert_eq!((proof.expected, proof.bound), (expected, Some(expected)));
    assert_eq!(proof.proved, Proved::Best);
    for fixed in &outcome.fixed {
        let total = euros(spend + 100.0 * fixed.production_h);
        assert_eq!(fixed.total, Some(total), "{}", fixed.share);
        assert_eq!(fixed.bound, Some(total));
    }
}

#[test]
fn a_machine_without_a_cost_is_not_robbed_nor_one_of_a_bearing() {
    let rob = |donor_cost: Option<f64>, family: Option<Family>| {
        let mut sample = Sample::new(TWO_SHIFTS);
        sample.supplier("North", |_| {});
        sample.machine("M1", Some(100.0), None);
        sample.machine("M2", donor_cost, None);
        let part = sample.part_with("A", |part| part.family = family);
        sample.offer(part, "North", workdays(5.0), |_| {});
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        sample.way(OtherWayKind::OtherMachine, |way| {
            way.from = Some("M2 no. 1".to_owned());
            way.approved_by = Some("Ann Otter".to_owned());
            way.cost = Some(euros(0.0));
        });
        let plan = sample.plan();
        let is_robbed = matches!(
            plan.kits[0].accepted.lines[0].supplies[0].source,
            Source::OtherWay { .. }
        );
        (is_robbed, plan)
    };
    let (is_robbed, plan) = rob(Some(1.0), None);
    assert!(is_robbed);
    assert!(plan.issues.len() == 1, "{:?}", plan.issues);
    assert!(!rob(Some(200.0), None).0);
    let (is_robbed, plan) = rob(None, None);
    assert!(!is_robbed);
    assert!(
        matches!(
            plan.issues[..],
            [
                PlanIssue::NoTasks { .. },
                PlanIssue::OtherWayIncomplete { .. }
            ]
        ),
        "{:?}",
        plan.issues
    );
    let (is_robbed, plan) = rob(Some(1.0), Some(Family::DeepGrooveBall));
    assert!(!is_robbed);
    assert!(matches!(
        plan.issues[..],
        [PlanIssue::NoTasks { .. }, PlanIssue::Used { .. }]
    ));
}

#[test]
fn a_kit_with_a_line_of_unknown_end_has_no_plan_with_an_end() {
    let mut sample = Sample::new("");
    sample.supplier("North", |_| {});
    sample.machine("M1", Some(100.0), None);
    let known = sample.part("A");
    let unknown = sample.part("B");
    sample.offer(known, "North", workdays(2.0), |_| {});
    sample.offer(unknown, "North", None, |_| {});
    let ask = StudyAsk {
        budget: Some(euros(1_000.0)),
        by: Some(at("2026-06-01T12:00")),
        ..StudyAsk::default()
    };
    sample.kit("K");
    sample.line(Some(known), 1.0, &[], |_| {});
    let study = sample.study(0, &ask);
    let all = |of: &[(f64, Option<CurveMoment>)]| -> Vec<(f64, bool)> {
        of.iter()
            .map(|(share, found)| (*share, found.is_some()))
            .collect()
    };
    assert_eq!(study.curves.len(), 3);
    let found = [(0.5, true), (0.8, true), (0.9, true)];
    assert_eq!(all(&study.for_budget), found);
    assert_eq!(all(&study.for_time), found);
    // A later share of cases never runs earlier.
    let ups: Vec<_> = study
        .for_time
        .iter()
        .map(|(_, of)| of.as_ref().unwrap().up)
        .collect();
    assert!(ups.is_sorted(), "{ups:?}");
    sample.line(Some(unknown), 1.0, &[], |_| {});
    let study = sample.study(0, &ask);
    assert!(study.plan.accepted.running.is_none());
    assert!(study.curves.is_empty() && study.plan.accepted.fixed.is_empty());
    let none = [(0.5, false), (0.8, false), (0.9, false)];
    assert_eq!(all(&study.for_budget), none);
    assert_eq!(all(&study.for_time), none);
    // What would end it is still asked.
    assert_eq!(study.ask_first[0].question, Question::LeadTime);
}
