use proptest::prelude::*;

use super::*;
use crate::plan::sample::{Sample, day, euros, price, workdays};
use crate::record::{Expedite, PriceBreak, QuotedLeadTime};

/// A rebuild on Friday 20 March 2026 that needs two pieces of A, with a slow cheap and a fast dear offer.
fn rebuild(settings: &str) -> (Sample, PartId) {
    let mut sample = Sample::new(settings);
    sample.supplier("Slow", |_| {});
    sample.supplier("Fast", |_| {});
    sample.machine("M1", None, None);
    let part = sample.part("A");
    sample.offer(part, "Slow", workdays(20.0), |offer| {
        offer.price = price(8.0)
    });
    sample.offer(part, "Fast", workdays(3.0), |offer| {
        offer.price = price(12.0);
        offer.breaks = vec![PriceBreak {
            from_quantity: 2.0,
            price: price(11.0).unwrap(),
        }];
    });
    sample.kit("K");
    sample.line(Some(part), 2.0, &[], |_| {});
    sample.planned("2026-03-20");
    (sample, part)
}

#[test]
fn a_dated_need_takes_the_cheapest_offer_that_comes_in_time() {
    let (mut sample, _) = rebuild("");
    let plan = sample.plan();
    let line = &plan.reorder.lines[0];
    assert_eq!(
        (line.buy.supplier.as_str(), line.buy.timing),
        ("Fast", Timing::InTime)
    );
    assert_eq!(line.buy.cost, Some(euros(22.0)));
    assert_eq!(
        line.reason.to_string(),
        "rebuild on 2026-03-20 needs 2, 2 missing"
    );
    // Three days, six in the late case: ordered on Thursday 12 March they are there on Friday 20 March.
    assert_eq!(line.order_by, day("2026-03-12"));
    assert_eq!(line.next_best.as_ref().unwrap().supplier, "Slow");
    sample.shop.kits[0].planned[0].date = day("2026-06-19");
    assert_eq!(sample.plan().reorder.lines[0].buy.supplier, "Slow");
}

#[test]
fn safety_days_move_the_day_to_order_forward() {
    let (sample, _) = rebuild("[planning]\nsafety_workdays = 1");
    let line = &sample.plan().reorder.lines[0];
    assert_eq!(line.needed_by, Some(day("2026-03-19")));
    assert_eq!(line.order_by, day("2026-03-11"));
}

#[test]
fn the_fastest_is_taken_where_none_comes_in_time() {
    let (mut sample, _) = rebuild("");
    sample.shop.kits[0].planned[0].date = day("2026-03-06");
    let line = &sample.plan().reorder.lines[0];
    assert_eq!(
        (line.buy.supplier.as_str(), line.buy.timing),
        ("Fast", Timing::TooLate)
    );
    assert_eq!(line.order_by, day("2026-03-04"));
}

#[test]
fn a_hurried_delivery_is_paid_for_only_where_it_saves_the_day() {
    let (mut sample, _) = rebuild("");
    sample.shop.offers.truncate(1);
    sample.shop.offers[0].record.expedite = vec![Expedite {
        lead_time: QuotedLeadTime::exactly(2.0, crate::record::LeadUnit::Workdays),
        surcharge: euros(30.0),
    }];
    let line = |sample: &Sample| sample.plan().reorder.lines[0].buy.clone();
    assert_eq!(line(&sample).cost, Some(euros(46.0)));
    sample.shop.kits[0].planned[0].date = day("2026-06-19");
    assert_eq!(line(&sample).cost, Some(euros(16.0)));
}

#[test]
fn a_substitute_nobody_approved_is_never_bought() {
    let (mut sample, part) = rebuild("");
    let near = sample.part("N");
    sample.offer(near, "Fast", workdays(1.0), |offer| {
        offer.price = price(1.0)
    });
    sample.open_substitute(near);
    let plan = sample.plan();
    assert!(plan.reorder.lines.iter().all(|line| line.buy.part == part));
}

#[test]
fn the_earlier_rebuild_takes_from_the_shelf_first_and_open_orders_count() {
    let (mut sample, part) = rebuild("");
    sample.planned("2026-05-20");
    sample.stock(part, 3.0, |_| {});
    sample.receipt(part, "Slow", "2026-03-02", Some(14), None);
    let plan = sample.plan();
    let shorts: Vec<f64> = plan.needs.iter().map(|need| need.short).collect();
    assert_eq!(plan.needs[0].date, day("2026-03-20"));
    assert!(shorts.iter().all(|short| *short <= 0.0), "{shorts:?}");
    assert!(plan.reorder.lines.is_empty());
}

#[test]
fn a_line_whose_last_day_is_ahead_waits_and_is_in_no_order() {
    let (mut sample, _) = rebuild("");
    sample.shop.kits[0].planned[0].date = day("2026-06-15");
    let plan = sample.plan();
    assert_eq!(plan.reorder.lines.len(), 1);
    assert!(plan.reorder.lines[0].order_by > day("2026-03-09"));
    assert!(plan.reorder.orders.is_empty());
    assert_eq!(plan.reorder.due_lines(day("2026-03-09")).count(), 0);
    assert_eq!(plan.reorder.due_lines(day("2026-06-15")).count(), 1);
}

#[test]
fn freight_counts_once_per_supplier_and_decides_between_offers() {
    let (mut sample, _) = rebuild("");
    // So near that both lines must be ordered today.
    sample.shop.kits[0].planned[0].date = sample.shop.as_of.date();
    sample.supplier("Fast", |supplier| supplier.freight = Some(euros(15.0)));
    let second = sample.part("B");
    sample.offer(second, "Fast", workdays(3.0), |_| {});
    sample.supplier("Near", |_| {});
    sample.offer(second, "Near", workdays(3.0), |offer| {
        offer.price = price(11.0)
    });
    sample.line(Some(second), 1.0, &[], |_| {});
    let plan = sample.plan();
    // B at 10.00 rides along with A, whose freight is paid; alone it would be 25.00 against 11.00.
    assert_eq!(plan.reorder.lines[1].buy.supplier, "Fast");
    assert_eq!(plan.reorder.orders.len(), 1);
    assert_eq!(plan.reorder.orders[0].goods, Some(euros(32.0)));
    assert_eq!(plan.reorder.orders[0].freight, Some(euros(15.0)));
    sample.supplier("Fast", |supplier| {
        supplier.freight = Some(euros(15.0));
        supplier.freight_free_from = Some(euros(32.0));
    });
    assert_eq!(sample.plan().reorder.orders[0].freight, Some(euros(0.0)));
    sample.shop.kits[0].lines.remove(0);
    sample.acceptances = vec![];
    assert_eq!(sample.plan().reorder.lines[0].buy.supplier, "Near");
}

#[test]
fn a_part_at_its_reorder_point_is_ordered_and_one_above_is_not() {
    let mut sample = Sample::new(
        "records_from = \"2024-03-04\"\n[planning]\nlevels_by = \"service_target\"\ndemand_method = \"plain\"",
    );
    sample.supplier("North", |_| {});
    let part = sample.part("A");
    for date in ["2024-05-02", "2024-11-02", "2025-05-02", "2025-11-02"] {
        sample.usage(part, date, 1.0);
    }
    let lead = QuotedLeadTime::exactly(90.0, crate::record::LeadUnit::Days);
    sample.offer(part, "North", Some(lead), |offer| {
        offer.quote_date = Some(day("2025-11-01"));
    });
    sample.stock(part, 2.0, |_| {});
    let plan = sample.plan();
    let line = &plan.reorder.lines[0];
    assert!(matches!(
        line.reason,
        ReorderReason::AtReorderPoint { position, reorder_point, .. }
            if (position - 2.0).abs() < 1e-9 && (reorder_point - 2.0).abs() < 1e-9
    ));
    assert!((line.buy.ordered - 8.0).abs() < 1e-9);
    assert_eq!(
        line.reason.to_string(),
        "2 free and 0 on order: 2 is at or below the reorder point of 2"
    );
    assert_eq!(
        plan.levels.by_part[&part]
            .why_quantity
            .as_ref()
            .unwrap()
            .to_string(),
        "economic quantity 7.1 at 10.00 EUR each; sold from 1 on"
    );
    assert!(line.buy.is_old_quote);
    sample.stock(part, 1.0, |_| {});
    assert!(sample.plan().reorder.lines.is_empty());
}

#[test]
fn needs_that_no_offer_covers_are_listed_with_the_reason() {
    let (mut sample, _) = rebuild("");
    sample.line(None, 1.0, &[], |_| {});
    for offer in &mut sample.shop.offers {
        offer.record.lead_time = None;
    }
    let reasons = |sample: &Sample| {
        let list = sample.plan().reorder.not_ordered;
        list.iter().map(|not| not.why).collect::<Vec<_>>()
    };
    assert_eq!(
        reasons(&sample),
        [WhyNoChoice::NoLeadTime, WhyNoChoice::NoPart]
    );
    sample.shop.offers.clear();
    assert_eq!(
        reasons(&sample),
        [WhyNoChoice::NoUsableOffer, WhyNoChoice::NoPart]
    );
}

#[test]
fn a_planned_day_that_has_passed_is_an_issue() {
    let (mut sample, _) = rebuild("");
    sample.shop.kits[0].planned[0].date = day("2026-03-03");
    let plan = sample.plan();
    assert!(plan.needs.is_empty());
    assert!(matches!(
        plan.issues[..],
        [crate::plan::PlanIssue::PlannedInThePast { .. }]
    ));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, ..ProptestConfig::default() })]

    #[test]
    fn an_order_is_whole_packs_no_less_than_the_minimum_and_enough(
        wanted in 1_u32..60,
        pack in 1_u32..25,
        minimum in 0_u32..40,
    ) {
        let (mut sample, part) = rebuild("");
        sample.shop.offers.clear();
        sample.offer(part, "Fast", workdays(3.0), |offer| {
            offer.pack_quantity = Some(f64::from(pack));
            offer.minimum_quantity = Some(f64::from(minimum));
        });
        sample.shop.kits[0].lines[0].record.quantity = f64::from(wanted);
        let ordered = sample.plan().reorder.lines[0].buy.ordered;
        let packs = ordered / f64::from(pack);
        prop_assert!((packs - packs.round()).abs() < 1e-9);
        prop_assert!(ordered >= f64::from(wanted.max(minimum)));
        prop_assert!(ordered < f64::from(wanted.max(minimum) + pack));
    }
}

#[test]
fn a_part_never_used_is_bought_ahead_only_as_an_insurance_that_pays() {
    // One part of two is used; the other has the rate of their group. Common practice, no source: without a machine of
    // the highest criticality whose downtime pays the first one, nobody need order it.
    let shop = |cost_per_hour: Option<f64>, criticality: Option<&str>| {
        let mut sample = Sample::new(
            "records_from = \"2024-03-04\"\n[planning]\nlevels_by = \"downtime_cost\"\n\
             [planning.criticality_weights]\nA = 2.0\nB = 1.0",
        );
        sample.supplier("North", |_| {});
        sample.machine("M1", cost_per_hour, criticality);
        sample.kit("K");
        let used = sample.part("USED");
        let never = sample.part("NEVER");
        for part in [used, never] {
            sample.line(Some(part), 1.0, &[], |_| {});
            sample.offer(part, "North", workdays(40.0), |_| {});
        }
        for date in ["2024-05-02", "2024-09-02", "2025-02-02", "2025-07-02"] {
            sample.usage(used, date, 1.0);
        }
        sample.stock(used, 50.0, |_| {});
        let plan = sample.plan();
        let line = plan.reorder.lines.iter().find(|line| line.part == never);
        let line = line.expect("its group's rate asks for one").clone();
        let is_ordered = plan
            .reorder
            .orders
            .iter()
            .any(|order| !order.lines.is_empty());
        let today = sample.shop.as_of.date();
        (line.is_due(today), is_ordered, line.never_used.unwrap())
    };
    let (is_due, is_ordered, why) = shop(Some(300.0), Some("A"));
    assert!(is_due && is_ordered, "{why}");
    let pays_from = why.pays_from.unwrap();
    assert!(pays_from.cents > 0 && pays_from.cents < 30_000, "{why}");
    assert!(why.to_string().contains("an insurance for M1"), "{why}");
    // The same machine, but not of the highest criticality: it waits, with the price from which it would pay.
    let (is_due, is_ordered, why) = shop(Some(300.0), Some("B"));
    assert!(!is_due && !is_ordered, "{why}");
    assert_eq!(why.pays_from, Some(pays_from));
    assert!(why.to_string().contains("would pay from"), "{why}");
    // No cost of an hour is known of the machine: nothing can pay.
    let (is_due, _, why) = shop(None, Some("A"));
    assert!(!is_due && why.critical.is_none(), "{why}");
}
