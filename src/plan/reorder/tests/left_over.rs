//! What packs of rebuilds leave over, what comes too late for a last buy, and what the sheets of last buys say of it.

use super::*;
use crate::plan::{LevelBasis, Plan};

/// Delivery and quantity of each line.
fn bought(plan: &Plan) -> Vec<(crate::plan::DeliveryKind, f64)> {
    let lines = plan.reorder.lines.iter();
    lines
        .map(|line| (line.buy.delivery, line.buy.ordered))
        .collect()
}

/// As [`rebuild_and_level`], in packs of ten without a price break, in time only if hurried.
fn hurried(needed: f64, own_minimum: f64) -> Plan {
    let (mut sample, _) = rebuild_and_level(needed, own_minimum, "2026-03-06");
    let record = &mut sample.shop.offers[0].record;
    record.pack_quantity = Some(10.0);
    record.breaks.clear();
    record.expedite = vec![Expedite {
        lead_time: QuotedLeadTime::exactly(1.0, crate::record::LeadUnit::Workdays),
        surcharge: Some(euros(30.0)),
    }];
    sample.plan()
}

#[test]
fn what_a_pack_leaves_over_is_not_ordered_again() {
    use crate::plan::DeliveryKind as K;
    // One of ten is needed: nine are left, which is a minimum of nine but not one of ten. Arithmetic.
    for (needed, own_minimum, lines) in [
        (1.0, 1.0, vec![(K::Hurried, 10.0)]),
        (1.0, 9.0, vec![(K::Hurried, 10.0)]),
        (1.0, 10.0, vec![(K::Hurried, 10.0), (K::Normal, 10.0)]),
        (10.0, 1.0, vec![(K::Hurried, 10.0), (K::Normal, 10.0)]),
        (11.0, 20.0, vec![(K::Hurried, 20.0), (K::Normal, 20.0)]),
    ] {
        let plan = hurried(needed, own_minimum);
        assert_eq!(bought(&plan), lines, "{needed} {own_minimum}");
    }
    let plan = hurried(1.0, 10.0);
    assert_eq!(
        plan.reorder.lines[1].needs[0].reason.to_string(),
        "0 free and 0 on order, 9 left over of orders for rebuilds: 9 is at or below the reorder point of 9"
    );
}

#[test]
fn what_another_supplier_leaves_over_counts_as_well() {
    // Nord has a pack of ten in time, Sued is cheaper and slow.
    let shop = |own_minimum: f64| {
        let (mut sample, part) = rebuild_and_level(1.0, own_minimum, "2026-03-11");
        sample.shop.offers[0].record.pack_quantity = Some(10.0);
        sample.shop.offers[0].record.breaks.clear();
        sample.supplier("Slow", |_| {});
        sample.offer(part, "Slow", workdays(60.0), |offer| {
            offer.price = price(1.0);
        });
        let lines = sample.plan().reorder.lines;
        lines
            .iter()
            .map(|line| (line.buy.supplier.clone(), line.is_due(day("2026-03-04"))))
            .collect::<Vec<_>>()
    };
    assert_eq!(shop(5.0), [("North".to_owned(), true)]);
    assert_eq!(
        shop(10.0),
        [("North".to_owned(), true), ("Slow".to_owned(), true)]
    );
}

#[test]
fn a_line_that_joins_another_has_what_both_ask_for_after_the_packs_are_summed() {
    // Six need two packs of five and leave four. A minimum of ten is six short of that: together sixteen, four packs, and
    // not three as six and six would be.
    for (own_minimum, ordered) in [(4.0, 10.0), (5.0, 15.0), (9.0, 15.0), (10.0, 20.0)] {
        let (sample, _) = rebuild_and_level(6.0, own_minimum, "2026-03-06");
        let plan = sample.plan();
        let [line] = &plan.reorder.lines[..] else {
            panic!("{:?}", plan.reorder.lines);
        };
        assert!(
            (line.buy.ordered - ordered).abs() < 1e-9,
            "{own_minimum}: {line:?}"
        );
        assert!(line.buy.gives - 6.0 >= own_minimum - 1e-9);
        let wanted: f64 = line.needs.iter().map(|need| need.wanted).sum();
        assert!((line.wanted - wanted).abs() < 1e-9);
    }
}

#[test]
fn what_comes_only_for_a_later_rebuild_does_not_stand_for_a_minimum_of_today() {
    let (mut sample, _) = rebuild_and_level(6.0, 1.0, "2026-12-15");
    // So dear that nothing is bought before its day.
    sample.shop.offers[0].record.price = price(8000.0);
    sample.shop.offers[0].record.breaks.clear();
    let plan = sample.plan();
    let due: Vec<bool> = plan
        .reorder
        .lines
        .iter()
        .map(|line| line.is_due(day("2026-03-04")))
        .collect();
    assert_eq!(due, [false, true], "{:?}", plan.reorder.lines);
}

#[test]
fn last_buys_and_the_order_list_say_one_figure() {
    for (on_hand, planned, pack) in [
        (1.0, false, 1.0),
        (1.0, true, 1.0),
        (3.0, true, 1.0),
        (0.0, true, 1.0),
        (0.0, true, 10.0),
        (30.0, true, 1.0),
    ] {
        let (mut sample, part) = leaving(5.0, on_hand);
        sample.shop.offers[0].record.pack_quantity = Some(pack);
        if planned {
            sample.planned("2026-04-01");
        }
        let plan = sample.plan();
        let LevelBasis::Computed(reason) = &plan.levels.by_part[&part].why else {
            panic!("not computed");
        };
        let last = reason.last_buy.as_ref().unwrap();
        let needs = plan.reorder.lines.iter().flat_map(|line| &line.needs);
        let ordered: f64 = needs
            .filter(|need| matches!(need.reason, ReorderReason::LastBuy { .. }))
            .map(|need| need.wanted)
            .sum();
        assert_eq!(last.buy, Some(ordered), "{on_hand} {planned} {pack}");
        // In all there is what is wanted when the rebuild has had its one.
        let bought: f64 = plan.reorder.lines.iter().map(|line| line.buy.gives).sum();
        let left = on_hand + bought - f64::from(u8::from(planned));
        assert!(
            left >= last.wanted.unwrap() - 1e-9,
            "{on_hand} {planned} {pack}: {left}"
        );
    }
}

#[test]
fn a_last_buy_counts_what_comes_before_the_last_day_only() {
    // Four are on order; the machine leaves service on 4 December. Arithmetic.
    let wanted = |due: Option<&str>| {
        let (mut sample, _) = leaving(5.0, 0.0);
        if let Some(due) = due {
            let row = &mut sample.shop.stock[0].record;
            (row.on_order, row.due_date) = (Some(4.0), Some(day(due)));
        }
        let lines = sample.plan().reorder.lines;
        let wanted: f64 = lines.iter().map(|line| line.wanted).sum();
        let reason = lines.first().map(|line| line.needs[0].reason.to_string());
        (wanted, reason.unwrap_or_default())
    };
    let (alone, _) = wanted(None);
    assert!(alone >= 1.0);
    let (before, said) = wanted(Some("2026-03-10"));
    assert!((before - (alone - 4.0).max(0.0)).abs() < 1e-9, "{before}");
    assert!(!said.contains("come after that"), "{said}");
    let (after, said) = wanted(Some("2027-01-15"));
    assert!((after - alone).abs() < 1e-9, "{after}");
    assert!(
        said.ends_with("; besides 4 on order that come after that: hurry or cancel them"),
        "{said}"
    );
}

#[test]
fn a_last_buy_bridges_the_time_until_an_order_that_comes_shortly_before_the_last_day() {
    // Two a year, a machine at 100.00 an hour until 4 December, none there and four that come in November: five working
    // days of waiting cost hundreds of times the 10.00 of a unit, so that most of what is wanted is bought all the same.
    let planned = |due: &str| {
        let (mut sample, _) = leaving(5.0, 0.0);
        let row = &mut sample.shop.stock[0].record;
        (row.on_order, row.due_date) = (Some(4.0), Some(day(due)));
        sample.plan()
    };
    let soon = planned("2026-03-10");
    assert!(soon.reorder.hurry.is_empty() && soon.reorder.bridges.is_empty());
    let late = planned("2026-11-16");
    let [line] = &late.reorder.lines[..] else {
        panic!("{:?}", late.reorder);
    };
    let ReorderReason::LastBuy {
        wanted, bridged, ..
    } = line.needs[0].reason
    else {
        panic!("{line:?}");
    };
    let bridged = bridged.expect("bridged");
    assert!((bridged.quantity - 4.0).abs() < 1e-9);
    assert!(line.wanted > wanted - 4.0 + 0.5 && line.wanted <= wanted + 1e-9);
    let place = &late.open_orders[0].place;
    assert!(late.reorder.hurry.contains(place));
    let said = line.needs[0].reason.to_string();
    assert!(said.ends_with("too late to be counted: hurry it"), "{said}");
    // At 100.00 an hour; what a way costs besides is not less than nothing.
    assert!(bridged.waiting_h > 0.0 && bridged.saves >= 100.0 * bridged.waiting_h - 1e-6);
}
