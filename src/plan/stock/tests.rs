use super::*;
use crate::plan::sample::{Sample, day};

#[test]
fn reserved_stock_is_not_free_and_the_oldest_lot_comes_first() {
    let mut sample = Sample::new("");
    let part = sample.part("A");
    sample.stock(part, 5.0, |row| row.reserved = Some(2.0));
    sample.stock(part, 1.0, |row| row.cure_date = Some(day("2025-06-01")));
    sample.stock(part, 1.0, |row| row.cure_date = Some(day("2024-06-01")));
    let plan = sample.plan();
    let stock = &plan.stock.by_part[&part];
    assert!((stock.free() - 5.0).abs() < 1e-9);
    let dates: Vec<_> = stock.lots.iter().map(|lot| lot.cure_date).collect();
    assert_eq!(
        dates,
        [Some(day("2024-06-01")), Some(day("2025-06-01")), None]
    );
}

#[test]
fn a_lot_past_its_shelf_life_is_listed_and_no_stock() {
    let mut sample = Sample::new("");
    let part = sample.part_with("A", |part| part.shelf_life_months = Some(60.0));
    for cured in ["2021-03-03", "2021-03-04", "2021-03-05"] {
        sample.stock(part, 1.0, |row| row.cure_date = Some(day(cured)));
    }
    sample.stock(part, 1.0, |_| {});
    let plan = sample.plan();
    // As of 4 March 2026: five years from 3 March 2021 ended yesterday, from 4 March end today.
    assert_eq!(plan.stock.expired.len(), 1);
    assert_eq!(plan.stock.expired[0].cure_date, Some(day("2021-03-03")));
    assert!((plan.stock.by_part[&part].free() - 3.0).abs() < 1e-9);
    assert!(matches!(plan.issues[..], [PlanIssue::AgeUnknown { .. }]));
}

#[test]
fn a_lot_of_a_day_to_come_is_stock_of_unknown_age() {
    let mut sample = Sample::new("");
    let part = sample.part_with("A", |part| part.shelf_life_months = Some(60.0));
    // The moment of planning is 4 March 2026.
    sample.stock(part, 1.0, |row| row.cure_date = Some(day("2026-03-04")));
    sample.stock(part, 1.0, |row| row.cure_date = Some(day("2062-03-01")));
    let plan = sample.plan();
    let stock = &plan.stock.by_part[&part];
    assert!((stock.free() - 2.0).abs() < 1e-9);
    let until: Vec<_> = stock.lots.iter().map(|lot| lot.usable_until).collect();
    assert_eq!(until, [Some(day("2031-03-04")), None]);
    assert!(matches!(
        &plan.issues[..],
        [PlanIssue::CuredInTheFuture { date, .. }] if *date == day("2062-03-01")
    ));
}

#[test]
fn negative_stock_counts_as_none_and_is_listed() {
    let mut sample = Sample::new("");
    let part = sample.part("A");
    sample.stock(part, -2.0, |_| {});
    sample.stock(part, 1.0, |row| row.reserved = Some(3.0));
    let plan = sample.plan();
    assert!(plan.stock.by_part[&part].free() <= 0.0);
    assert!(plan.stock.by_part[&part].has_unknown);
    assert!(matches!(
        plan.issues[..],
        [
            PlanIssue::NegativeStock { .. },
            PlanIssue::ReservedTooMuch { .. }
        ]
    ));
}

#[test]
fn half_a_piece_is_none_and_is_told_with_its_row() {
    // On hand, reserved, what is free and whether it is told: 2.5 less one reserved, and 0.5 left of a piece.
    for (on_hand, reserved, free, is_told) in [
        (2.5, None, 2.0, true),
        (2.5, Some(1.0), 1.0, true),
        (0.5, None, 0.0, true),
        (3.0, Some(1.0), 2.0, false),
    ] {
        let mut sample = Sample::new("");
        let part = sample.part("A");
        sample.stock(part, on_hand, |row| row.reserved = reserved);
        let place = sample.shop.stock[0].record.place.clone();
        let plan = sample.plan();
        assert!((plan.stock.by_part[&part].free() - free).abs() < 1e-9);
        let told = plan.issues.iter();
        let told = told.filter(|issue| matches!(issue, PlanIssue::PartOfAPiece { .. }));
        let places: Vec<_> = told.map(PlanIssue::place).collect();
        assert_eq!(
            places,
            Vec::from_iter(is_told.then_some(&place)),
            "{on_hand}"
        );
    }
    // A length may be any, half a pack of ten pieces is five, and what no table counts in a unit may be a length.
    let metres =
        |row: &mut crate::record::StockRecord| row.unit_of_count = Some(UnitOfCount::Metre);
    let packs = |row: &mut crate::record::StockRecord| {
        row.unit_of_count = Some(UnitOfCount::Pack { pieces: 10 });
    };
    let free = |of_part: Option<UnitOfCount>, change: &dyn Fn(&mut crate::record::StockRecord)| {
        let mut sample = Sample::new("");
        let part = sample.part_with("A", |part| part.unit_of_count = of_part);
        sample.stock(part, 2.5, |row| change(row));
        let plan = sample.plan();
        let is_told = |issue: &PlanIssue| matches!(issue, PlanIssue::PartOfAPiece { .. });
        assert!(!plan.issues.iter().any(is_told));
        plan.stock.by_part[&part].free()
    };
    assert!((free(Some(UnitOfCount::Metre), &metres) - 2.5).abs() < 1e-9);
    assert!((free(Some(UnitOfCount::Piece), &packs) - 25.0).abs() < 1e-9);
    assert!((free(None, &|row| row.unit_of_count = None) - 2.5).abs() < 1e-9);
}

#[test]
fn nobody_knows_how_many_a_row_without_a_quantity_has() {
    let unknown = |on_hand: Option<f64>, on_order: Option<f64>| {
        let mut sample = Sample::new("");
        let part = sample.part("A");
        sample.stock(part, 0.0, |row| {
            row.on_hand = on_hand;
            row.on_order = on_order;
        });
        sample.plan().stock.by_part[&part].has_unknown
    };
    assert!(unknown(None, None) && unknown(Some(-1.0), Some(2.0)));
    // What is on order in a list without stock, and a shelf that was counted and is empty.
    assert!(!unknown(None, Some(2.0)) && !unknown(Some(0.0), None));
}

#[test]
fn units_are_converted_only_where_that_is_allowed() {
    let mut sample = Sample::new("");
    let part = sample.part("A");
    sample.stock(part, 2.0, |row| {
        row.unit_of_count = Some(UnitOfCount::Pack { pieces: 10 });
    });
    sample.stock(part, 3.0, |row| {
        row.unit_of_count = Some(UnitOfCount::MatchedSet { pieces: 2 });
    });
    sample.stock(part, 4.0, |row| row.unit_of_count = None);
    let plan = sample.plan();
    assert!((plan.stock.by_part[&part].free() - 24.0).abs() < 1e-9);
    assert!(matches!(plan.issues[..], [PlanIssue::UnitConflict { .. }]));
}

#[test]
fn an_unknown_unit_of_a_part_without_one_is_assumed_and_said() {
    let mut sample = Sample::new("");
    let part = sample.part_with("A", |part| part.unit_of_count = None);
    sample.stock(part, 4.0, |row| row.unit_of_count = None);
    let plan = sample.plan();
    assert!(plan.stock.by_part[&part].is_unit_assumed);
    assert!(matches!(plan.issues[..], [PlanIssue::UnitAssumed { .. }]));
}

#[test]
fn what_is_on_order_in_two_tables_counts_once() {
    let mut sample = Sample::new("");
    let part = sample.part("A");
    sample.stock(part, 0.0, |row| row.on_order = Some(5.0));
    sample.receipt(part, "North", "2026-03-02", Some(14), None);
    let plan = sample.plan();
    assert_eq!(plan.open_orders.len(), 1);
    assert!((plan.open_orders[0].quantity - 1.0).abs() < 1e-9);
    assert!(matches!(plan.issues[..], [PlanIssue::OnOrderTwice { .. }]));
}

#[test]
fn a_last_day_on_the_lot_comes_before_the_shelf_life_and_blocked_stock_is_none() {
    let mut sample = Sample::new("");
    let part = sample.part_with("A", |part| part.shelf_life_months = Some(60.0));
    // The moment of planning is 4 March 2026; five years from March 2020 are over, and those from 2025 are not.
    for (cured, until, is_blocked) in [
        (Some("2020-03-01"), Some("2026-12-31"), false),
        (None, Some("2026-06-30"), false),
        (None, Some("2026-03-04"), false),
        (Some("2025-03-01"), Some("2026-03-03"), false),
        (None, Some("2026-03-03"), false),
        (Some("2025-03-01"), None, true),
    ] {
        sample.stock(part, 1.0, |row| {
            row.cure_date = cured.map(day);
            row.usable_until = until.map(day);
            row.is_blocked = is_blocked;
        });
    }
    let plan = sample.plan();
    let stock = &plan.stock.by_part[&part];
    let until: Vec<_> = stock.lots.iter().map(|lot| lot.usable_until).collect();
    // What ends first goes out first.
    let days = ["2026-03-04", "2026-06-30", "2026-12-31"];
    assert_eq!(until, days.map(|of| Some(day(of))));
    assert!((stock.free() - 3.0).abs() < 1e-9 && !stock.has_unknown);
    let expired: Vec<_> = plan.stock.expired.iter().map(|lot| lot.cure_date).collect();
    assert_eq!(expired, [Some(day("2025-03-01")), None]);
    assert!(plan.issues.is_empty(), "{:?}", plan.issues);
}
