//! Open orders as one half of two orders for the same, and as something to ask about.

use super::*;
use crate::plan::{Question, StudyAsk};

/// One line on order at North and overdue since Saturday, which South offers at 70 EUR and 10 freight in 8 working days;
/// an hour down costs 400 EUR.
fn overdue_at(supplier: &str) -> Sample {
    let mut sample = Sample::new(TWO_SHIFTS);
    sample.supplier("North", |_| {});
    sample.supplier("South", |south| south.freight = Some(euros(10.0)));
    sample.machine("M1", Some(400.0), None);
    let part = sample.part("A");
    sample.offer(part, "South", workdays(8.0), |offer| {
        offer.price = price(70.0);
    });
    sample.receipt(part, supplier, "2026-02-18", Some(10), None);
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    sample
}

#[test]
fn a_second_order_beside_an_overdue_one_pays_where_waiting_is_dear() {
    // A quarter of an hour of waiting costs more than the second order.
    let plan = overdue_at("North").plan();
    let outcome = &plan.kits[0].accepted;
    let line = &outcome.lines[0];
    assert!(matches!(line.supplies[0].source, Source::OpenOrder { .. }));
    let [also] = &line.also[..] else {
        panic!("one order beside it: {:?}", line.also);
    };
    assert!(matches!(&also.source, Source::Offer { supplier, .. } if supplier == "South"));
    // By hand: 70 for the part, 10 for its freight, nothing for what is on order.
    assert_eq!(outcome.purchase_cost.unwrap().to_string(), "70.00 EUR");
    assert_eq!(outcome.freight.to_string(), "10.00 EUR");
    // The earlier of two is late less often than the open order alone.
    assert!(line.arrival.unwrap().late < line.supplies[0].arrival.late);
}

#[test]
fn no_second_order_goes_to_the_supplier_that_is_late_or_to_nobody_knows_whom() {
    assert!(
        overdue_at("South").plan().kits[0].accepted.lines[0]
            .also
            .is_empty()
    );
    // Where an hour costs next to nothing the open order is waited for.
    let mut cheap = overdue_at("North");
    cheap.shop.machines.values_mut().for_each(|machine| {
        machine.downtime_cost_per_hour = Some(euros(0.01));
    });
    assert!(cheap.plan().kits[0].accepted.lines[0].also.is_empty());
}

/// Common practice, no source: paying twice for the same wants a reason in money.
#[test]
fn nothing_is_ordered_twice_where_nobody_says_what_an_hour_costs() {
    let mut sample = overdue_at("North");
    sample.shop.machines.values_mut().for_each(|machine| {
        machine.downtime_cost_per_hour = None;
    });
    let plan = sample.plan();
    let line = &plan.kits[0].accepted.lines[0];
    assert_eq!((line.supplies.len(), line.also.len()), (1, 0), "{line:?}");
}

#[test]
fn the_open_order_that_holds_the_machine_is_among_the_calls() {
    let sample = overdue_at("North");
    let study = sample.study(0, &StudyAsk::default());
    let place = &sample.shop.receipts[0].record.place;
    let call = study.ask_first.iter().find(|call| call.place == *place);
    let call = call.unwrap_or_else(|| panic!("{:?}", study.ask_first));
    assert_eq!(call.question, Question::WhenReally);
    assert_eq!(call.supplier, "North");
    assert!(call.saved.unwrap().cents > 0);
}

#[test]
fn a_supplier_whom_nobody_approved_is_among_the_calls_with_what_it_would_save() {
    let mut sample = Sample::new(TWO_SHIFTS);
    sample.supplier("North", |_| {});
    sample.supplier("Away", |away| away.is_approved = Some(false));
    sample.machine("M1", Some(100.0), None);
    let part = sample.part("A");
    sample.offer(part, "North", workdays(20.0), |_| {});
    sample.offer(part, "Away", workdays(2.0), |_| {});
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    let first = &sample.study(0, &StudyAsk::default()).ask_first[0];
    assert_eq!(first.question, Question::Approve);
    assert_eq!(first.supplier, "Away");
    // About eighteen working days of two shifts at 100 EUR.
    assert!(first.saved_h > 100.0 && first.saved.unwrap().cents > 1_000_000);
    // Approved, there is nothing to ask.
    sample.supplier("Away", |_| {});
    let study = sample.study(0, &StudyAsk::default());
    assert!(
        study
            .ask_first
            .iter()
            .all(|call| call.question != Question::Approve)
    );
}
