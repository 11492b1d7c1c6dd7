use super::*;
use crate::plan::sample::{Sample, at, day, workdays};
use crate::plan::{Completion, LeadBasis, Source, Supply};
use chrono::NaiveDateTime;

#[test]
fn a_due_date_ahead_is_taken_with_the_stated_slack() {
    let mut sample = Sample::new("");
    let part = sample.part("A");
    // Ordered on 23 February for 9 March: 14 days, the late case 14 days more, given that it is not here after 9.
    sample.receipt(part, "North", "2026-02-23", Some(14), None);
    let plan = sample.plan();
    let arrival = plan.open_orders[0].arrival.unwrap();
    // P(T > 9.5) = Q(ln(9.5/14) / 0.5409) = 0.7633; half of it is exceeded at 14 exp(0.5409 * 0.3010) = 16.5 days, a
    // tenth at 14 exp(0.5409 * 1.4313) = 30.4 (normal table).
    assert_eq!(arrival.likely, at("2026-03-11T09:00"));
    assert_eq!(arrival.late, at("2026-03-25T09:00"));
    assert_eq!(arrival.basis, LeadBasis::OpenOrderByDueDate);
}

#[test]
fn what_is_on_order_is_said_with_the_day_of_the_first() {
    let mut sample = Sample::new("");
    let part = sample.part("A");
    sample.receipt(part, "North", "2026-02-23", Some(14), None);
    let plan = sample.plan();
    let order = &plan.open_orders[0];
    // As worked out by hand above.
    let said = |orders: &[&OpenOrder]| what_comes(orders).unwrap_or_default();
    assert_eq!(
        said(&[order]),
        "on order and counted: 1, likely here on 2026-03-11"
    );
    let mut later = order.clone();
    later.quantity = 3.0;
    later.arrival.as_mut().unwrap().likely = at("2026-03-19T09:00");
    assert_eq!(
        said(&[&later, order]),
        "on order and counted: 4 in 2 orders, the first likely here on 2026-03-11"
    );
    later.arrival = None;
    assert_eq!(
        said(&[&later]),
        "on order and counted: 3, nobody says when it comes"
    );
    assert_eq!(what_comes(&[]), None);
}

#[test]
fn a_kit_waits_for_the_open_order_where_it_comes_before_a_new_one() {
    let mut sample = Sample::new("");
    sample.supplier("North", |_| {});
    let part = sample.part("A");
    sample.receipt(part, "North", "2026-02-23", Some(14), None);
    sample.offer(part, "North", workdays(10.0), |_| {});
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    let kit = &sample.plan().kits[0].accepted;
    assert!(matches!(
        kit.lines[0].supplies[0].source,
        Source::OpenOrder { .. }
    ));
    assert!(
        matches!(kit.completion, Completion::Known { together, .. } if together.p50 == at("2026-03-11T09:00"))
    );
}

#[test]
fn on_order_in_the_stock_list_counts_with_its_due_date_and_unit() {
    let mut sample = Sample::new("");
    let part = sample.part("A");
    sample.stock(part, 0.0, |row| {
        row.on_order = Some(2.0);
        row.due_date = Some(day("2026-03-14"));
        row.unit_of_count = Some(UnitOfCount::Pack { pieces: 10 });
    });
    let plan = sample.plan();
    let order = &plan.open_orders[0];
    assert!((order.quantity - 20.0).abs() < 1e-9);
    // The 14th is a Saturday.
    assert_eq!(order.arrival.unwrap().likely, at("2026-03-16T09:00"));
}

#[test]
fn an_order_without_a_quantity_counts_as_nothing_and_is_listed() {
    let mut sample = Sample::new("");
    let part = sample.part("A");
    sample.receipt(part, "North", "2026-02-23", Some(14), None);
    sample.receipt(part, "North", "2026-03-05", Some(14), None);
    sample.shop.receipts[0].record.quantity = None;
    let plan = sample.plan();
    assert!(plan.open_orders.is_empty());
    assert!(matches!(
        plan.issues[..],
        [PlanIssue::NoQuantity { .. }, PlanIssue::InTheFuture { .. }]
    ));
}

/// An order of 27 February, five days ago, at a supplier that quotes ten days.
fn ordered_without_promise(promised_days: Option<i64>) -> Sample {
    let mut sample = Sample::new("");
    sample.supplier("Alpha", |_| {});
    let part = sample.part("P0");
    sample.offer(part, "Alpha", Some(ten_days()), |_| {});
    sample.receipt(part, "Alpha", "2026-02-27", promised_days, None);
    sample
}

fn ten_days() -> QuotedLeadTime {
    QuotedLeadTime::exactly(10.0, crate::record::LeadUnit::Days)
}

#[test]
fn an_order_without_a_promise_is_dated_by_the_quote_and_its_age() {
    let order = ordered_without_promise(None).plan().open_orders[0].clone();
    let arrival = order.arrival.unwrap();
    assert_eq!(arrival.basis, LeadBasis::OpenOrderByQuote { age_days: 5 });
    // Late case twice as long: a deviation of ln 2 / 1.2816 = 0.5409. P(T > 5.5) = Q(-1.105) = 0.865; half of it is
    // exceeded at 10 exp(0.5409 * 0.1695) = 11.0 days, a tenth at 10 exp(0.5409 * 1.362) = 20.9 (normal table), from the
    // day of the order on, and then to the next morning that goods are received.
    let days = |moment: NaiveDateTime| (moment.date() - day("2026-02-27")).num_days();
    assert!((10..=13).contains(&days(arrival.likely)), "{arrival:?}");
    assert!((20..=24).contains(&days(arrival.late)), "{arrival:?}");
}

#[test]
fn an_order_without_a_promise_is_waited_for_and_not_bought_twice() {
    let mut sample = ordered_without_promise(None);
    sample.machine("M1", Some(10.0), None);
    let part = crate::catalogue::PartId(0);
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    let line = &sample.plan().kits[0].accepted.lines[0];
    assert!(
        matches!(
            line.supplies[..],
            [Supply {
                source: Source::OpenOrder { .. },
                ..
            }]
        ),
        "{:?}",
        line.supplies
    );
}

#[test]
fn a_promise_for_a_day_before_the_order_is_none() {
    let order = ordered_without_promise(Some(-9)).plan().open_orders[0].clone();
    assert_eq!((order.due, order.is_overdue), (None, false));
    let basis = order.arrival.map(|arrival| arrival.basis);
    assert_eq!(basis, Some(LeadBasis::OpenOrderByQuote { age_days: 5 }));
}

#[test]
fn a_promise_broken_for_longer_than_is_believed_counts_nowhere() {
    // Promised within five days and open for 400: exceeded in fewer than one of a hundred cases.
    let mut sample = Sample::new("");
    sample.supplier("Alpha", |_| {});
    let part = sample.part("P0");
    sample.receipt(part, "Alpha", "2025-01-28", Some(5), None);
    let order = sample.plan().open_orders[0].clone();
    assert!(order.is_forgotten && order.is_overdue && order.arrival.is_none());
}

/// Five orders that North filled in two days, as promised or without a promise, and one open since 2 February.
fn open_at_a_quick_supplier(is_promised: bool, promised_days: Option<i64>) -> OpenOrder {
    let mut sample = Sample::new("");
    sample.supplier("North", |_| {});
    let (quick, slow) = (sample.part("X"), sample.part("S"));
    let quickly = [
        "2025-09-01",
        "2025-10-01",
        "2025-11-03",
        "2025-12-01",
        "2026-01-12",
    ];
    for ordered in quickly {
        sample.receipt(quick, "North", ordered, is_promised.then_some(2), Some(2));
    }
    sample.receipt(slow, "North", "2026-02-02", promised_days, None);
    let plan = sample.plan();
    let told = plan.issues.iter();
    let told = told.filter(|issue| matches!(issue, PlanIssue::OpenForTooLong { .. }));
    assert_eq!(told.count(), usize::from(plan.open_orders[0].is_forgotten));
    plan.open_orders[0].clone()
}

#[test]
fn an_order_promised_for_a_day_to_come_is_not_forgotten_however_quick_others_were() {
    // Open for 30 days or 22 working days on 4 March, more than four times the two that others took; promised within 60
    // days for 3 April.
    for is_promised in [true, false] {
        let order = open_at_a_quick_supplier(is_promised, Some(60));
        assert!(!order.is_forgotten && !order.is_overdue, "{order:?}");
        let likely = order.arrival.unwrap().likely.date();
        assert!(
            likely >= day("2026-03-28") && likely <= day("2026-04-20"),
            "{likely}"
        );
    }
    // Due today is not past.
    assert!(!open_at_a_quick_supplier(true, Some(30)).is_forgotten);
    // No promise, or one for 12 February, broken for 20 days by a supplier that kept every other one.
    assert!(open_at_a_quick_supplier(true, None).is_forgotten);
    assert!(open_at_a_quick_supplier(true, Some(10)).is_forgotten);
}

#[test]
fn a_supplier_that_is_usually_late_is_waited_for_as_long() {
    let mut sample = Sample::new("");
    sample.supplier("North", |_| {});
    let (quick, slow) = (sample.part("X"), sample.part("S"));
    // Twice as long as promised each time: 2 days became 4, at most 4 working days.
    for ordered in ["2025-09-01", "2025-10-06", "2025-11-03"] {
        sample.receipt(quick, "North", ordered, Some(2), Some(4));
    }
    // Open for 30 days or 22 working days, over four times as long; 20 days promised are usually 40, 14 are 28, of which two days
    // more are nothing rare, and 2 are 4, of which 30 are past belief: ln 7.5 is over 17 times 0.1 x root(4/3), of which Student's
    // law with two degrees of freedom leaves 1 in 600.
    for promised in [20, 14, 2] {
        sample.receipt(slow, "North", "2026-02-02", Some(promised), None);
    }
    let plan = sample.plan();
    let orders = &plan.open_orders;
    assert!(orders.iter().all(|order| order.is_overdue), "{orders:?}");
    let forgotten: Vec<bool> = orders.iter().map(|order| order.is_forgotten).collect();
    assert_eq!(forgotten, [false, false, true], "{orders:?}");
}

#[test]
fn one_quick_receipt_of_another_part_does_not_tell_that_an_order_is_forgotten() {
    // Ordered on 29 January, promised within 28 days, open for 34: late by six days, as ordinary orders are.
    for (promised_days, quick) in [(Some(28), 1), (Some(28), 5), (None, 1), (None, 2)] {
        let mut sample = Sample::new("");
        sample.supplier("North", |_| {});
        let (rail, rod) = (sample.part("P-2"), sample.part("P-4"));
        sample.offer(rail, "North", Some(ten_days()), |_| {});
        for _ in 0..quick {
            sample.receipt(rod, "North", "2026-02-05", None, Some(1));
        }
        sample.receipt(rail, "North", "2026-01-29", promised_days, None);
        let plan = sample.plan();
        let told = |issue: &PlanIssue| matches!(issue, PlanIssue::OpenForTooLong { .. });
        assert!(!plan.issues.iter().any(told), "{promised_days:?} {quick}");
    }
    // Without a promise three receipts tell it, and one does where the order is open for over a year.
    for (ordered, quick, is_told) in [("2026-01-29", 3, true), ("2025-02-03", 1, true)] {
        let mut sample = Sample::new("");
        sample.supplier("North", |_| {});
        let (rail, rod) = (sample.part("P-2"), sample.part("P-4"));
        for _ in 0..quick {
            sample.receipt(rod, "North", "2026-02-05", None, Some(1));
        }
        sample.receipt(rail, "North", ordered, None, None);
        assert_eq!(sample.plan().open_orders[0].is_forgotten, is_told);
    }
}
