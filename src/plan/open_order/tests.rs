use super::*;
use crate::plan::sample::{Sample, at, day, workdays};
use crate::plan::{Completion, LeadBasis, Source};

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
