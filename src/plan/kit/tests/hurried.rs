//! What a hurried delivery saves against what it costs, held to shops that have it alone or not at all.

use super::*;
use crate::plan::kit::hurried::in_order;
use crate::record::{Expedite, LeadUnit, QuotedLeadTime};
use crate::units::Money;

/// How the only supplier of part A delivers, and whether part B is waited for as well.
#[derive(Clone, Copy)]
struct Case {
    normal: f64,
    hurried: Option<(f64, f64)>,
    price: f64,
    waits_for_b: bool,
    /// Six pieces in packs of five, with single ones from another supplier in three working days.
    in_packs: bool,
    hourly: Option<f64>,
}

const CASE: Case = Case {
    normal: 5.0,
    hurried: Some((3.0, 200.0)),
    price: 10.0,
    waits_for_b: false,
    in_packs: false,
    hourly: Some(100.0),
};

fn shop(case: Case) -> Sample {
    let mut sample = Sample::new(TWO_SHIFTS);
    sample.supplier("North", |_| {});
    sample.supplier("South", |_| {});
    sample.machine("M1", case.hourly, None);
    let (a, b) = (sample.part("A"), sample.part("B"));
    sample.offer(a, "North", workdays(case.normal), |offer| {
        offer.price = price(case.price);
        offer.expedite = case
            .hurried
            .into_iter()
            .map(|(days, surcharge)| Expedite {
                lead_time: QuotedLeadTime::exactly(days, LeadUnit::Workdays),
                surcharge: Some(euros(surcharge)),
            })
            .collect();
    });
    sample.offer(b, "South", workdays(4.0), |_| {});
    sample.kit("K");
    if case.in_packs {
        sample.shop.offers[0].record.pack_quantity = Some(5.0);
        sample.offer(a, "South", workdays(3.0), |offer| {
            offer.price = price(1_000.0);
        });
    }
    let needed = if case.in_packs { 6.0 } else { 1.0 };
    sample.line(Some(a), needed, &[], |_| {});
    if case.waits_for_b {
        sample.line(Some(b), 1.0, &[], |_| {});
    }
    sample.task("fit", 6.0, &[]);
    sample
}

fn mean_h(case: Case) -> f64 {
    let plan = shop(case).plan();
    plan.kits[0].accepted.running.as_ref().unwrap().mean_h
}

/// What is saved by two shops of their own: one that is offered the quick delivery alone, one that is not offered it.
fn saved_by_two_shops(case: Case) -> f64 {
    let (days, _) = case.hurried.unwrap();
    let without = Case {
        hurried: None,
        ..case
    };
    mean_h(without)
        - mean_h(Case {
            normal: days,
            ..without
        })
}

#[test]
fn what_is_saved_is_what_two_shops_differ_by() {
    for (surcharge, is_planned) in [(200.0, true), (5_000.0, false)] {
        for waits_for_b in [false, true] {
            let case = Case {
                hurried: Some((3.0, surcharge)),
                waits_for_b,
                ..CASE
            };
            let plan = shop(case).plan();
            let [way] = &plan.kits[0].hurried[..] else {
                panic!("{:?}", plan.kits[0].hurried)
            };
            assert_eq!((way.line, way.is_planned), (0, is_planned), "{surcharge}");
            let exact = saved_by_two_shops(case);
            let saved_h = way.saved_h.unwrap();
            assert!((saved_h - exact).abs() < 1e-6, "{saved_h} {exact}");
            assert_eq!(way.surcharge, euros(surcharge));
            assert_eq!(way.more, Some(euros(surcharge)));
            let saved = way.saved.unwrap().to_units();
            assert!(
                (saved - (100.0 * exact - surcharge)).abs() < 0.025,
                "{saved}"
            );
            // Three working days from Wednesday: Monday at nine, and six hours of work.
            assert_eq!(way.arrival.likely, at("2026-03-09T09:00"));
            if !waits_for_b {
                assert_eq!(way.running.unwrap().p50, at("2026-03-09T15:00"));
                // As an approval of a part in three days: 32 h in the middle case, 37.0 h in the mean.
                assert!((36.5..37.6).contains(&exact), "{exact}");
            }
        }
    }
}

/// A pack in a hurry and one piece from South cost 1,205.00 and save the 37 h at 100.00 that a plan without that delivery waits; in
/// time and one from South they cost 1,005.00, and spare a surcharge of 5,000.00 that a plan with that delivery pays.
#[test]
fn two_offers_of_a_line_come_by_the_delivery_or_not_as_one_does() {
    for (surcharge, is_planned) in [(200.0, true), (5_000.0, false)] {
        let case = Case {
            hurried: Some((3.0, surcharge)),
            price: 1.0,
            in_packs: true,
            ..CASE
        };
        let plan = shop(case).plan();
        let [way] = &plan.kits[0].hurried[..] else {
            panic!("{:?}", plan.kits[0].hurried)
        };
        assert_eq!(way.is_planned, is_planned, "{surcharge}");
        let exact = saved_by_two_shops(case);
        // Of the two shops one waits five working days and one three, as where one piece is wanted.
        assert!((36.5..37.6).contains(&exact), "{exact}");
        let saved_h = way.saved_h.unwrap();
        assert!((saved_h - exact).abs() < 1e-6, "{saved_h} {exact}");
        assert_eq!(way.more, Some(euros(surcharge)));
    }
}

#[test]
fn what_comes_later_than_the_plan_saves_less_than_nothing() {
    // Two working days without a surcharge: the plan takes them, and the hurried three are a day later and 50.00 dearer.
    let case = Case {
        normal: 2.0,
        hurried: Some((3.0, 50.0)),
        ..CASE
    };
    let plan = shop(case).plan();
    let way = &plan.kits[0].hurried[0];
    assert!(!way.is_planned && way.saved_h.unwrap() < -1.0, "{way:?}");
    assert!((way.saved_h.unwrap() - saved_by_two_shops(case)).abs() < 1e-6);
    assert!(way.saved.unwrap().cents < -5_000);
}

#[test]
fn without_a_cost_of_an_hour_the_hours_are_told_alone() {
    let plan = shop(Case {
        hourly: None,
        ..CASE
    })
    .plan();
    let way = &plan.kits[0].hurried[0];
    assert!(way.is_planned && way.saved_h.unwrap() > 30.0);
    assert_eq!((way.saved_cost, way.saved), (None, None));
    assert_eq!(way.more, Some(euros(200.0)));
}

#[test]
fn a_line_on_the_shelf_and_a_surcharge_that_nobody_names_have_no_row() {
    let mut sample = shop(CASE);
    sample.stock(PartId(0), 1.0, |_| {});
    assert_eq!(sample.plan().kits[0].hurried, []);
    let mut sample = shop(CASE);
    sample.shop.offers[0].record.expedite[0].surcharge = None;
    assert_eq!(sample.plan().kits[0].hurried, []);
}

#[test]
fn a_kit_that_ends_only_by_hurrying_says_so() {
    let mut sample = shop(CASE);
    sample.shop.offers[0].record.lead_time = None;
    let kit = &sample.plan().kits[0];
    let way = &kit.hurried[0];
    assert!(way.is_planned && way.running.is_some());
    assert_eq!((way.saved_h, way.saved_cost, way.saved), (None, None, None));
    // With a second line that nobody has, it has no end either way.
    let nobody = sample.part("C");
    sample.line(Some(nobody), 1.0, &[], |_| {});
    let way = &sample.plan().kits[0].hurried[0];
    assert_eq!((way.running, way.saved_h), (None, None));
}

#[test]
fn what_saves_most_stands_first() {
    // Three working days for 200.00 and two for 250.00, a day less at 100.00 an hour: the second delivery saves more.
    let two_ways = |normal: Option<QuotedLeadTime>| {
        let mut sample = shop(CASE);
        let record = &mut sample.shop.offers[0].record;
        record.lead_time = normal;
        record.expedite.push(Expedite {
            lead_time: QuotedLeadTime::exactly(2.0, LeadUnit::Workdays),
            surcharge: Some(euros(250.0)),
        });
        sample
    };
    let plan = two_ways(workdays(5.0)).plan();
    let [first, second] = &plan.kits[0].hurried[..] else {
        panic!("{:?}", plan.kits[0].hurried)
    };
    assert_eq!(first.surcharge, euros(250.0));
    assert!(first.saved.unwrap().cents > second.saved.unwrap().cents);
    // Without a time of its own the offer comes only by hurrying, and the kit ends by either.
    assert_eq!(two_ways(None).plan().kits[0].hurried.len(), 2);
    // A delivery without which there is no end, one that saves an hour, one that costs more, one with no end either way.
    let saves = |hours: Option<f64>, cents: Option<i64>| {
        let mut way = first.clone();
        way.saved_h = hours;
        way.saved = cents.map(|cents| Money {
            cents,
            ..euros(0.0)
        });
        way
    };
    let no_end = HurriedWay {
        running: None,
        ..saves(None, None)
    };
    let mut ways = [
        no_end.clone(),
        saves(Some(-1.0), None),
        saves(Some(1.0), None),
        saves(Some(1.0), Some(-100)),
        saves(Some(0.5), Some(900)),
        saves(None, None),
    ];
    ways.sort_by(in_order);
    let hours: Vec<Option<f64>> = ways.iter().map(|way| way.saved_h).collect();
    let expected = [None, Some(0.5), Some(1.0), Some(1.0), Some(-1.0), None];
    assert_eq!(hours, expected);
    assert_eq!(ways[5], no_end);
    assert!(ways[0].running.is_some());
}
