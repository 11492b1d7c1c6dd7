use proptest::prelude::*;

use super::*;
use crate::plan::Plan;
use crate::plan::order_worth::{OrderWorth, order_worths};
use crate::plan::sample::{Sample, day, euros, price, workdays};

/// A rebuild of a machine at 100 an hour that needs some of A, offered at 400 in 40 working days.
fn rebuild(needed: f64, date: &str) -> Sample {
    let mut sample = Sample::new("");
    sample.supplier("Alpha", |_| {});
    sample.machine("M1", Some(100.0), None);
    let part = sample.part("A");
    sample.offer(part, "Alpha", workdays(40.0), |offer| {
        offer.price = price(400.0);
    });
    sample.kit("K");
    sample.line(Some(part), needed, &[], |_| {});
    sample.planned(date);
    sample
}

fn make(sample: &mut Sample, hours: f64, cost: Option<f64>, quantity: Option<f64>) {
    sample.way(OtherWayKind::MakeInHouse, |way| {
        way.hours = Some(hours);
        way.cost = cost.map(euros);
        way.quantity = quantity;
    });
}

fn made(plan: &Plan) -> Vec<(OtherWayKind, f64)> {
    let made = plan.reorder.made.iter();
    made.map(|of| (of.kind, of.quantity)).collect()
}

fn ordered(plan: &Plan) -> f64 {
    plan.reorder.lines.iter().map(|line| line.buy.ordered).sum()
}

fn worth(sample: &Sample, plan: &Plan) -> Option<OrderWorth> {
    let lines: Vec<_> = plan.reorder.lines.iter().collect();
    order_worths(&sample.built(), plan, &lines)[0]
}

/// Common practice, no source: nobody orders a dearer part that comes too late where it can be made in time.
#[test]
fn what_is_made_in_time_for_less_is_not_ordered() {
    // Forty working days from 4 March end on 29 April.
    let mut sample = rebuild(1.0, "2026-04-15");
    let bought = sample.plan();
    assert_eq!(bought.reorder.lines[0].buy.timing, Timing::TooLate);
    assert_eq!(bought.reorder.lines[0].needs[0].way_left, None);
    make(&mut sample, 15.0, Some(150.0), None);
    let plan = sample.plan();
    assert!(plan.reorder.lines.is_empty() && plan.reorder.not_ordered.is_empty());
    let [made] = &plan.reorder.made[..] else {
        panic!("{:?}", plan.reorder.made);
    };
    assert_eq!((made.need, made.quantity), (0, 1.0));
    assert_eq!(made.cost, Some(euros(150.0)));
    assert_eq!(made.timing, Timing::InTime);
    let instead_of = made.instead_of.as_ref().unwrap();
    assert_eq!(instead_of.cost, Some(euros(400.0)));
    // One and a half times 15 h are 22.5 h: two shifts of 8 h and a part of the third, Friday to Tuesday, so that it is there when
    // work begins on Wednesday.
    assert_eq!(made.begin_by, day("2026-04-10"));
}

#[test]
fn what_is_bought_in_time_for_less_is_ordered_and_saves_what_the_other_way_costs_more() {
    let mut sample = rebuild(1.0, "2026-09-16");
    make(&mut sample, 15.0, Some(530.0), None);
    let plan = sample.plan();
    assert!(plan.reorder.made.is_empty());
    let left = plan.reorder.lines[0].needs[0].way_left.as_deref().unwrap();
    assert_eq!(left.kind, OtherWayKind::MakeInHouse);
    assert_eq!(left.dearer_by, Some(euros(130.0)));
    // As good as nobody waits where it is made in March; 530 less 400 is what is saved, and not weeks of standing.
    let saved = worth(&sample, &plan).unwrap();
    assert!(saved.waiting_h < 0.01, "{saved:?}");
    let cents = saved.saves.unwrap().cents;
    assert!((13_000..13_100).contains(&cents), "{saved:?}");
    let alone = rebuild(1.0, "2026-09-16");
    let saved = worth(&alone, &alone.plan()).unwrap();
    assert!(saved.waiting_h > 200.0, "{saved:?}");
    // Cheaper, it is made.
    let mut sample = rebuild(1.0, "2026-09-16");
    make(&mut sample, 15.0, Some(390.0), None);
    assert_eq!(made(&sample.plan()), [(OtherWayKind::MakeInHouse, 1.0)]);
}

/// By hand: a way to one of two pieces ends no wait, and a way to one piece is the other way of one rebuild only.
#[test]
fn the_other_way_to_an_order_gives_all_of_it_and_to_one_rebuild() {
    let mut part_only = rebuild(2.0, "2026-09-16");
    make(&mut part_only, 15.0, Some(530.0), Some(1.0));
    let plan = part_only.plan();
    assert!(plan.reorder.made.is_empty());
    assert!((ordered(&plan) - 2.0).abs() < 1e-9);
    assert_eq!(plan.reorder.lines[0].needs[0].way_left, None);

    let mut twice = rebuild(1.0, "2026-09-16");
    twice.planned("2026-09-23");
    make(&mut twice, 15.0, Some(530.0), Some(1.0));
    let plan = twice.plan();
    assert!((ordered(&plan) - 2.0).abs() < 1e-9);
    let lines = plan.reorder.lines.iter();
    let left = lines
        .flat_map(|line| &line.needs)
        .map(|of| of.way_left.is_some());
    assert_eq!(left.filter(|is_left| *is_left).count(), 1);
}

#[test]
fn a_cost_that_nobody_states_is_not_zero() {
    let mut sample = rebuild(1.0, "2026-09-16");
    make(&mut sample, 15.0, None, None);
    let plan = sample.plan();
    assert!(plan.reorder.made.is_empty());
    let left = plan.reorder.lines[0].needs[0].way_left.as_deref().unwrap();
    assert_eq!(left.dearer_by, None);
    assert_eq!(worth(&sample, &plan).unwrap().saves, None);
    // It is made all the same where the offer comes too late.
    sample.shop.kits[0].planned[0].date = day("2026-04-15");
    let plan = sample.plan();
    assert_eq!(made(&plan), [(OtherWayKind::MakeInHouse, 1.0)]);
    assert_eq!(plan.reorder.made[0].cost, None);
}

#[test]
fn what_a_bin_gives_is_not_ordered_and_the_rest_is() {
    let mut sample = rebuild(3.0, "2026-09-16");
    sample.way(OtherWayKind::OtherBin, |way| way.cost = Some(euros(0.0)));
    let plan = sample.plan();
    // 2 x 400 instead of 3 x 400.
    assert_eq!(made(&plan), [(OtherWayKind::OtherBin, 1.0)]);
    assert!((ordered(&plan) - 2.0).abs() < 1e-9);
    // Fetching one for more than it costs to buy saves nothing.
    let line = &mut sample.shop.kits[0].lines[0];
    line.other_ways[0].cost = Some(euros(401.0));
    let plan = sample.plan();
    assert!(plan.reorder.made.is_empty());
    assert!((ordered(&plan) - 3.0).abs() < 1e-9);
}

#[test]
fn two_rebuilds_do_not_take_the_same_piece_from_another_bin() {
    let mut sample = rebuild(1.0, "2026-09-16");
    sample.way(OtherWayKind::OtherBin, |way| way.cost = Some(euros(0.0)));
    sample.planned("2026-09-23");
    let plan = sample.plan();
    assert_eq!(made(&plan), [(OtherWayKind::OtherBin, 1.0)]);
    assert_eq!(
        plan.needs[plan.reorder.made[0].need].date,
        day("2026-09-16")
    );
    assert!((ordered(&plan) - 1.0).abs() < 1e-9);
}

#[test]
fn no_machine_is_robbed_and_nothing_repaired_without_a_name_to_save_an_order() {
    for kind in [OtherWayKind::OtherMachine, OtherWayKind::RepairOutside] {
        let mut sample = rebuild(1.0, "2026-04-15");
        sample.way(kind, |way| {
            way.cost = Some(euros(1.0));
            way.approved_by = (kind == OtherWayKind::OtherMachine).then(|| "Max".to_owned());
            way.from = Some("M1".to_owned());
        });
        let plan = sample.plan();
        assert!(plan.reorder.made.is_empty(), "{kind:?}");
        assert!((ordered(&plan) - 1.0).abs() < 1e-9, "{kind:?}");
    }
}

#[test]
fn a_need_without_an_offer_is_made_and_not_told_as_uncovered() {
    let mut sample = rebuild(2.0, "2026-09-16");
    sample.shop.offers.clear();
    make(&mut sample, 15.0, None, Some(1.0));
    let plan = sample.plan();
    assert_eq!(made(&plan), [(OtherWayKind::MakeInHouse, 1.0)]);
    assert_eq!(plan.reorder.made[0].instead_of, None);
    let [not] = &plan.reorder.not_ordered[..] else {
        panic!("{:?}", plan.reorder.not_ordered);
    };
    assert!((not.wanted - 1.0).abs() < 1e-9);
}

#[test]
fn the_ways_of_a_need_are_those_that_the_kit_plan_weighs() {
    let mut sample = rebuild(1.0, "2026-09-16");
    make(&mut sample, 15.0, Some(150.0), None);
    let of_line = sample.shop.kits[0].lines[0].other_ways[0].clone();
    let part = sample.shop.offers[0].part;
    // The same row once more for the part, and one of its own.
    let own = OtherWay {
        place: sample.place(),
        ..of_line.clone()
    };
    sample.shop.other_ways = vec![(part, of_line), (part, own)];
    let shop = sample.built();
    let sourcing = Sourcing::new(&shop, &mut Vec::new());
    let needs = sample.plan().needs;
    let found = ways_of_needs(&sourcing, &needs);
    let line = &shop.kits[0].lines[0];
    assert_eq!(found, [ways_of(&shop, line, &needs[0].accepted)]);
    assert_eq!(found[0].len(), 2);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    /// Against brute force: where all come in time, the cheapest of offers and ways is taken.
    #[test]
    fn the_cheapest_of_all_that_come_in_time_is_taken(
        offers in proptest::collection::vec(1_u16..500, 1..4),
        ways in proptest::collection::vec(1_u16..500, 0..4),
    ) {
        let mut sample = rebuild(1.0, "2026-12-16");
        let part = sample.shop.offers[0].part;
        sample.shop.offers.clear();
        for cost in &offers {
            sample.offer(part, "Alpha", workdays(10.0), |offer| {
                offer.price = price(f64::from(*cost));
            });
        }
        for cost in &ways {
            make(&mut sample, 8.0, Some(f64::from(*cost)), None);
        }
        let plan = sample.plan();
        let made = plan.reorder.made.iter().filter_map(|of| of.cost);
        let bought = plan.reorder.lines.iter().filter_map(|line| line.buy.cost);
        let paid: Vec<i64> = made.chain(bought).map(|cost| cost.cents).collect();
        let least = offers.iter().chain(&ways).min().unwrap();
        prop_assert_eq!(paid, [100 * i64::from(*least)]);
    }
}

#[test]
fn beside_an_order_for_the_shelf_an_order_instead_would_add_one_piece_and_no_freight() {
    // The shelf is empty and two a year are used, so that some are ordered anyhow, with the freight of 30.00. Alone one piece
    // would be 4.00 and the freight, or the minimum of 50 at 200.00; beside that order it is 4.00 at most (by hand).
    for minimum in [None, Some(50.0)] {
        let mut sample =
            Sample::new("records_from = \"2021-03-04\"\n[planning]\ndemand_method = \"plain\"");
        sample.supplier("Alpha", |alpha| alpha.freight = Some(euros(30.0)));
        sample.machine("M1", Some(100.0), None);
        let part = sample.part("A");
        sample.offer(part, "Alpha", workdays(40.0), |offer| {
            offer.price = price(4.0);
            offer.minimum_quantity = minimum;
        });
        for year in 2021..2026 {
            for month in ["06", "11"] {
                sample.usage(part, &format!("{year}-{month}-01"), 1.0);
            }
        }
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        sample.planned("2026-04-15");
        make(&mut sample, 15.0, Some(150.0), None);
        let plan = sample.plan();
        let [made] = &plan.reorder.made[..] else {
            panic!("{:?}", plan.reorder);
        };
        let lines = &plan.reorder.lines;
        assert!(lines.iter().any(|line| line.buy.part == part), "{lines:?}");
        let instead_of = made.instead_of.as_ref().unwrap();
        assert_eq!(instead_of.freight.cents, 0, "{minimum:?}");
        assert!(instead_of.cost.unwrap().cents <= 400, "{instead_of:?}");
    }
}
