//! Open orders as one half of two orders for the same, and as something to ask about.

use super::*;
use crate::plan::supply::Supply;
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
    let [new] = &line.supplies[..] else {
        panic!("one new order: {:?}", line.supplies);
    };
    assert!(matches!(&new.source, Source::Offer { supplier, .. } if supplier == "South"));
    let [open] = &line.anyway[..] else {
        panic!("one that comes anyway: {:?}", line.anyway);
    };
    assert!(matches!(open.source, Source::OpenOrder { .. }));
    // What it saves to have ordered it is beside the next best: to wait for the open order.
    let next = line.next_best.as_ref().unwrap();
    assert!(matches!(
        next.supplies[..],
        [Supply {
            source: Source::OpenOrder { .. },
            ..
        }]
    ));
    assert!(next.dearer.unwrap().cents > 0);
    // By hand: 70 for the part, 10 for its freight, nothing for what is on order.
    assert_eq!(outcome.purchase_cost.unwrap().to_string(), "70.00 EUR");
    assert_eq!(outcome.freight.to_string(), "10.00 EUR");
    // The earlier of two is late less often than either alone.
    let late = line.arrival.unwrap().late;
    assert!(late < new.arrival.late && late < open.arrival.late);
    assert!(line.also.is_empty());
}

#[test]
fn a_new_order_beside_an_open_one_is_cancelled_where_it_may_be() {
    // By hand: what comes back is at most 70 less a tenth, and something where the open order may come first.
    let mut sample = overdue_at("North");
    sample.shop.offers[0].record.cancellation_charge_share = Some(0.1);
    let plan = sample.plan();
    let cost = plan.kits[0].accepted.purchase_cost.unwrap();
    assert!((700..7_000).contains(&cost.cents), "{cost}");
}

/// Two orders of one piece, open at suppliers, promised within so many days of 23 February; nobody offers it.
fn two_open(orders: [(&str, i64); 2]) -> (Sample, KitOutcome) {
    let mut sample = Sample::new(TWO_SHIFTS);
    sample.machine("M1", Some(50.0), None);
    let part = sample.part("A");
    for (supplier, days) in orders {
        sample.supplier(supplier, |_| {});
        sample.receipt(part, supplier, "2026-02-23", Some(days), None);
    }
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    sample.task("fit", 4.0, &[]);
    let outcome = sample.plan().kits[0].accepted.clone();
    (sample, outcome)
}

#[test]
fn the_first_of_two_open_orders_lets_the_machine_run() {
    // By hand: neither of two that know nothing of each other is here in the product of the two shares.
    let (sample, outcome) = two_open([("North", 21), ("South", 21)]);
    let line = &outcome.lines[0];
    assert_eq!((line.supplies.len(), line.anyway.len()), (1, 1), "{line:?}");
    let calendars = crate::plan::calendar::Calendars::new(&sample.shop.settings);
    let laws = [&line.supplies[0], &line.anyway[0]].map(|of| of.arrival.distribution(&calendars));
    let here_by = |moment: NaiveDateTime| {
        1.0 - laws
            .iter()
            .map(|law| 1.0 - law.cdf(moment))
            .product::<f64>()
    };
    let arrival = line.arrival.unwrap();
    for (moment, share) in [
        (arrival.likely, 0.5),
        (arrival.fairly, 0.8),
        (arrival.late, 0.9),
    ] {
        assert!(here_by(moment) >= share - 1e-4, "{moment}");
        assert!(here_by(moment - chrono::Duration::minutes(1)) < share + 1e-4);
    }
    // Late together they are as late as one of them.
    let (_, alone) = two_open([("North", 21), ("North", 21)]);
    let late = alone.lines[0].arrival.unwrap().late;
    assert_eq!(late, line.supplies[0].arrival.late);
    let mean = |of: &KitOutcome| of.running.as_ref().unwrap().mean_h;
    assert!(mean(&outcome) < mean(&alone) - 1.0);
    let together = outcome.running_together.as_ref().unwrap();
    assert!((together.mean_h - mean(&alone)).abs() < 1e-6);
    // Of one supplier the order promised sooner is no later at any share.
    let (_, two) = two_open([("North", 40), ("North", 21)]);
    assert_eq!(two.lines[0].arrival.unwrap().late, late);
    // Nothing else could be done instead.
    assert!(outcome.lines[0].next_best.is_none());
}

#[test]
fn an_open_order_counts_beside_a_new_one_of_its_own_supplier() {
    // Whatever is ordered, the line is never later than what is on order.
    let mut sample = overdue_at("South");
    sample.shop.receipts[0].record.promised = Some(at("2026-03-20T00:00").date());
    for hourly in [0.01, 5.0, 50.0, 5_000.0] {
        sample.shop.machines.values_mut().for_each(|machine| {
            machine.downtime_cost_per_hour = Some(euros(hourly));
        });
        let plan = sample.plan();
        let line = &plan.kits[0].accepted.lines[0];
        let open = plan.open_orders[0].arrival.unwrap();
        let here = line.arrival.unwrap();
        assert!(here.likely <= open.likely && here.late <= open.late);
    }
}

/// True where a line waits for its open order alone.
fn waits_for_it(line: &LinePlan) -> bool {
    let is_open = |of: &Supply| matches!(of.source, Source::OpenOrder { .. });
    line.supplies.iter().all(is_open) && line.also.is_empty() && line.anyway.is_empty()
}

#[test]
fn no_second_order_goes_to_the_supplier_that_is_late_or_to_nobody_knows_whom() {
    let line = overdue_at("South").plan().kits[0].accepted.lines[0].clone();
    assert!(waits_for_it(&line), "{line:?}");
    // Where an hour costs next to nothing the open order is waited for.
    let mut cheap = overdue_at("North");
    cheap.shop.machines.values_mut().for_each(|machine| {
        machine.downtime_cost_per_hour = Some(euros(0.01));
    });
    assert!(waits_for_it(&cheap.plan().kits[0].accepted.lines[0]));
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
    assert!(waits_for_it(line), "{line:?}");
    // What is here long before the open order is bought, and that comes too.
    sample.shop.offers[0].record.lead_time = workdays(1.0);
    sample.shop.receipts[0].record.promised = Some(at("2026-04-20T00:00").date());
    let plan = sample.plan();
    let line = &plan.kits[0].accepted.lines[0];
    assert!(matches!(line.supplies[0].source, Source::Offer { .. }));
    assert_eq!((line.supplies.len(), line.anyway.len()), (1, 1), "{line:?}");
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

#[test]
fn one_open_order_serves_two_lines_no_further_than_it_brings() {
    // One piece is on its way and both lines need one: the other is bought, whichever that is. Arithmetic.
    let mut sample = overdue_at("North");
    let part = sample.shop.offers[0].part;
    sample.line(Some(part), 1.0, &[], |_| {});
    let plan = sample.plan();
    let lines = &plan.kits[0].accepted.lines;
    let of = |is_open: bool| -> f64 {
        let supplies = lines.iter().flat_map(|line| &line.supplies);
        let of_kind = supplies
            .filter(|of| matches!(of.source, Source::OpenOrder { .. }) == is_open)
            .map(|of| of.quantity);
        of_kind.sum()
    };
    assert!(of(true) <= 1.0 + 1e-9, "{lines:?}");
    assert!((of(true) + of(false) - 2.0).abs() < 1e-9, "{lines:?}");
    assert!(lines.iter().all(|line| line.anyway.is_empty()), "{lines:?}");
}
