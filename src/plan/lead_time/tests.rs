use super::*;
use crate::plan::sample::{Sample, at, workdays};
use crate::plan::{Plan, WhyUnusable};
use crate::record::QuotedLeadTime;

fn first(plan: &Plan) -> Arrival {
    plan.offers[0].deliveries[0].arrival.unwrap()
}

fn shop(quoted: Option<QuotedLeadTime>) -> (Sample, PartId) {
    let mut sample = Sample::new("");
    sample.supplier("North", |_| {});
    let part = sample.part("A");
    sample.offer(part, "North", quoted, |_| {});
    (sample, part)
}

#[test]
fn a_quote_alone_counts_working_days_and_is_late_by_the_stated_factor() {
    let (sample, _) = shop(workdays(4.0));
    let arrival = first(&sample.plan());
    // 4 working days, 80 % within 4 exp(0.8416 ln 2 / 1.2816) = 6.3, 90 % within 8.
    assert_eq!(arrival.likely, at("2026-03-10T09:00"));
    assert_eq!(arrival.fairly, at("2026-03-12T09:00"));
    assert_eq!(arrival.late, at("2026-03-16T09:00"));
    assert!(arrival.basis.to_string().starts_with("quote only"));
}

#[test]
fn no_quote_and_on_request_are_unknown_and_never_zero() {
    for quoted in [None, Some(QuotedLeadTime::OnRequest)] {
        let (sample, _) = shop(quoted);
        assert_eq!(sample.plan().offers[0].deliveries[0].arrival, None);
    }
}

#[test]
fn an_order_after_the_cut_off_counts_from_the_next_working_day() {
    let (mut sample, _) = shop(workdays(4.0));
    let cutoff = |hour| chrono::NaiveTime::from_hms_opt(hour, 0, 0);
    for (hour, likely) in [(11, "2026-03-10T09:00"), (10, "2026-03-11T09:00")] {
        sample.supplier("North", |supplier| supplier.order_cutoff = cutoff(hour));
        assert_eq!(first(&sample.plan()).likely, at(likely));
    }
}

#[test]
fn receipts_of_the_part_come_before_the_quote() {
    // Receipts of the reference case `steady supplier`, predictive P50 13.996 and P90 16.818 days (scipy,
    // tests/tables/planning/oracle_leadtime.json), here in working days: 14 and 17 of them after 4 March.
    let (mut sample, part) = shop(workdays(2.0));
    for days in [12, 14, 13, 15, 12, 16, 14, 13, 18, 14] {
        sample.receipt_in_workdays(part, "north", days);
    }
    let arrival = first(&sample.plan());
    assert_eq!(arrival.likely, at("2026-03-24T09:00"));
    assert_eq!(arrival.late, at("2026-03-27T09:00"));
    assert_eq!(arrival.basis.to_string(), "10 receipts of this part");
}

#[test]
fn a_quote_is_corrected_by_how_the_supplier_kept_its_promises() {
    let (mut sample, _) = shop(workdays(4.0));
    let other = sample.part("B");
    for (promised, days) in [(10, 15), (20, 30), (6, 9)] {
        sample.receipt(other, "North", "2025-06-02", Some(promised), Some(days));
    }
    let arrival = first(&sample.plan());
    // 4 working days times 1.5.
    assert_eq!(arrival.likely, at("2026-03-12T09:00"));
    assert_eq!(
        arrival.basis.to_string(),
        "quote, corrected by 3 receipts of this supplier (took 1.50 times as long as promised)"
    );
    assert!(
        arrival.late > arrival.likely,
        "three equal ratios make nothing certain"
    );
}

#[test]
fn one_or_two_orders_move_the_quote_and_are_named() {
    // Ten working days quoted, root 3 and the cube root of 9 times as long after one and two orders that took three times as long:
    // 17.3 and 20.8 working days after 4 March, by hand.
    let basis = |receipts: &str, of: &str, said: &str, ratio: &str| {
        format!(
            "quote and {receipts} of this {of} (took 3.00 times as long as {said}, reckoned with {ratio} times)"
        )
    };
    for (orders, likely, receipts, ratio) in [
        (1, "2026-03-27T09:00", "1 receipt", "1.73"),
        (2, "2026-04-02T09:00", "2 receipts", "2.08"),
    ] {
        let (mut promised, part) = shop(workdays(10.0));
        let (mut unpromised, other) = shop(workdays(10.0));
        for _ in 0..orders {
            promised.receipt(part, "North", "2025-06-02", Some(14), Some(42));
            unpromised.receipt_in_workdays(other, "North", 30);
        }
        let arrival = first(&promised.plan());
        assert_eq!(arrival.likely, at(likely));
        let said = basis(receipts, "supplier", "promised", ratio);
        assert_eq!(arrival.basis.to_string(), said);
        let arrival = first(&unpromised.plan());
        assert_eq!(arrival.likely, at(likely));
        let said = basis(receipts, "part", "quoted", ratio);
        assert_eq!(arrival.basis.to_string(), said);
    }
    // Three stand alone: thirty working days.
    let (mut sample, part) = shop(workdays(10.0));
    for _ in 0..3 {
        sample.receipt_in_workdays(part, "North", 30);
    }
    let arrival = first(&sample.plan());
    assert_eq!(arrival.likely, at("2026-04-15T09:00"));
    assert_eq!(arrival.basis.to_string(), "3 receipts of this part");
}

#[test]
fn a_quote_in_calendar_days_is_moved_by_calendar_days() {
    // 14 days quoted, 42 taken once: root 3 times 14 are 24.2 days, Saturday 28 March, received on Monday.
    let (mut sample, part) = shop(Some(QuotedLeadTime::exactly(14.0, LeadUnit::Days)));
    sample.receipt(part, "North", "2025-06-02", None, Some(42));
    assert_eq!(first(&sample.plan()).likely, at("2026-03-30T09:00"));
    // One that came as quoted leaves the likely day and makes the late one surer.
    let (mut sample, part) = shop(workdays(10.0));
    let alone = first(&sample.plan());
    sample.receipt_in_workdays(part, "North", 10);
    let beside = first(&sample.plan());
    assert_eq!(beside.likely, alone.likely);
    assert!(beside.late < alone.late);
}

#[test]
fn orders_of_other_parts_without_a_promise_say_nothing_of_a_quote() {
    let (mut sample, _) = shop(workdays(10.0));
    let other = sample.part("B");
    sample.receipt_in_workdays(other, "North", 30);
    assert_eq!(first(&sample.plan()).basis, LeadBasis::QuoteOnly);
}

#[test]
fn a_longer_quote_is_never_earlier() {
    let mut before = None;
    for days in 1..40 {
        let (sample, _) = shop(workdays(f64::from(days)));
        let arrival = first(&sample.plan());
        assert!(before.is_none_or(|before| arrival.likely >= before));
        assert!(arrival.late >= arrival.likely && arrival.likely >= at("2026-03-04T10:30"));
        before = Some(arrival.likely);
    }
}

#[test]
fn an_overdue_order_waits_by_its_age_and_one_past_belief_has_no_date() {
    let (mut sample, part) = shop(workdays(2.0));
    sample.receipt(part, "North", "2026-02-02", Some(14), None);
    let plan = sample.plan();
    assert!(plan.open_orders[0].is_overdue);
    // Open for 30 days, promised within 14: not "16 days ago", but what a lognormal with this width still takes.
    let arrival = plan.open_orders[0].arrival.unwrap();
    assert!(arrival.likely > at("2026-03-05T10:30") && arrival.late > at("2026-03-20"));
    assert_eq!(arrival.basis, LeadBasis::OpenOrderByDueDate);
    sample.shop.receipts[0].record.ordered = at("2025-10-01").date();
    sample.shop.receipts[0].record.promised = Some(at("2025-10-15").date());
    assert_eq!(sample.plan().open_orders[0].arrival, None);
    sample.shop.receipts[0].record.ordered = at("2026-02-02").date();
    for days in [20, 22, 25, 21, 60, 24] {
        sample.receipt(part, "North", "2025-06-02", None, Some(days));
    }
    let arrival = sample.plan().open_orders[0].arrival.unwrap();
    assert!(arrival.likely > at("2026-03-04T10:30"));
    assert_eq!(
        arrival.basis,
        LeadBasis::OpenOrderByAge {
            receipts: 6,
            age_days: 30
        }
    );
}

#[test]
fn offers_that_must_not_be_used_say_why() {
    let (mut sample, part) = shop(workdays(2.0));
    sample.shop.offers.clear();
    sample.supplier("Maybe", |supplier| supplier.is_approved = None);
    sample.supplier("Never", |supplier| supplier.is_approved = Some(false));
    for supplier in ["Maybe", "Never", "Nobody"] {
        sample.offer(part, supplier, workdays(1.0), |_| {});
    }
    sample.offer(part, "North", workdays(1.0), |offer| {
        offer.valid_until = Some(at("2026-03-03").date());
    });
    sample.offer(part, "North", workdays(1.0), |offer| {
        offer.condition = crate::record::Condition::Reconditioned;
    });
    sample.offer(part, "North", workdays(1.0), |offer| {
        let francs = crate::units::Currency::new("CHF").unwrap();
        offer.price = Some(crate::units::Price::from_units(1.0, 1, francs).unwrap());
    });
    let plan = sample.plan();
    assert!(plan.offers.is_empty());
    let reasons: Vec<String> = plan
        .unusable_offers
        .iter()
        .map(|offer| offer.why.to_string())
        .collect();
    assert_eq!(
        reasons,
        [
            "no table says that supplier `Maybe` is approved",
            "supplier `Never` is not approved for parts that no standard covers",
            "no table says that supplier `Nobody` is approved",
            "expired on 2026-03-03",
            "goods are reconditioned; the settings accept new goods only",
            "no exchange rate for CHF in the settings",
        ]
    );
    assert!(matches!(
        plan.unusable_offers[3].why,
        WhyUnusable::Expired { .. }
    ));
}

#[test]
fn a_counter_in_stock_is_fetched_within_hours_when_it_is_open() {
    let (mut sample, _) = shop(Some(QuotedLeadTime::InStock));
    let hour = |hour| chrono::NaiveTime::from_hms_opt(hour, 0, 0).unwrap();
    sample.supplier("North", |supplier| {
        supplier.collection_h = Some(1.5);
        supplier.counter_hours = Some((hour(8), hour(10)));
    });
    let plan = sample.plan();
    let deliveries = &plan.offers[0].deliveries;
    assert_eq!(
        deliveries[0].arrival.unwrap().likely,
        at("2026-03-05T09:00")
    );
    assert_eq!(
        deliveries[1].arrival.unwrap().likely,
        at("2026-03-05T09:30")
    );
}

#[test]
fn few_receipts_of_a_part_come_before_its_quote_and_one_does_not() {
    let (mut sample, part) = shop(workdays(30.0));
    for other in ["B", "C", "D"] {
        let other = sample.part(other);
        for days in [4, 5, 6] {
            sample.receipt_in_workdays(other, "North", days);
        }
    }
    sample.receipt_in_workdays(part, "North", 6);
    let arrival = first(&sample.plan());
    assert!(
        arrival
            .basis
            .to_string()
            .starts_with("10 receipts of this supplier")
    );
    sample.receipt_in_workdays(part, "North", 7);
    let arrival = first(&sample.plan());
    assert_eq!(
        arrival.basis,
        LeadBasis::FewPartReceipts {
            receipts: 2,
            others: 9,
            open: 0
        }
    );
    let of = |open: usize| LeadBasis::FewPartReceipts {
        receipts: 3,
        others: 9,
        open,
    };
    // What moves the date is told.
    assert_eq!(
        [0, 1, 2].map(|open| of(open).to_string()),
        [
            "3 receipts of this part, leaning on 9 others",
            "3 receipts of this part, 1 order still open, leaning on 9 others",
            "3 receipts of this part, 2 orders still open, leaning on 9 others"
        ]
    );
    assert!(arrival.late < at("2026-03-20"), "{arrival:?}");
}

#[test]
fn the_record_of_other_suppliers_corrects_a_quote_of_a_new_one() {
    let (mut sample, _) = shop(workdays(10.0));
    let other = sample.part("B");
    for (supplier, lengths) in [
        ("E", [14, 15, 16]),
        ("F", [15, 15, 17]),
        ("G", [13, 15, 18]),
    ] {
        for days in lengths {
            sample.receipt(other, supplier, "2025-06-02", Some(10), Some(days));
        }
    }
    let arrival = first(&sample.plan());
    let basis = arrival.basis.to_string();
    assert!(
        basis.starts_with("quote, corrected by 9 receipts of other suppliers (took 1.5"),
        "{basis}"
    );
    // 10 working days times 1.52.
    assert_eq!(arrival.likely, at("2026-03-25T09:00"));
}

#[test]
fn a_supplier_that_closes_for_three_weeks_is_waited_for() {
    let mut sample = Sample::new(
        "as_of = \"2026-07-30T08:00\"\nsupplier_calendar = \"builder\"\n[calendars.day]\nshifts = [{ days = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\"], from = \"07:00\", until = \"15:00\" }]\n[calendars.builder]\nshifts = [{ days = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\"], from = \"07:00\", until = \"15:00\" }]\nholidays = [\"2026-08-03 to 2026-08-21\"]",
    );
    sample.supplier("North", |_| {});
    let part = sample.part("A");
    sample.offer(part, "North", None, |_| {});
    for days in [2, 3, 3, 2, 3, 4] {
        sample.receipt_in_workdays(part, "North", days);
    }
    // 3 working days after Thursday 30 July: Friday 31 July, then Monday 24 and Tuesday 25 August.
    assert_eq!(first(&sample.plan()).likely, at("2026-08-25T09:00"));
}

#[test]
fn goods_in_stock_come_on_the_same_day_until_its_hour_and_on_the_next_after_it() {
    let hour = |hour| chrono::NaiveTime::from_hms_opt(hour, 0, 0).unwrap();
    for (order_by, likely) in [(11, "2026-03-04T14:00"), (10, "2026-03-05T14:00")] {
        let (mut sample, _) = shop(Some(QuotedLeadTime::InStock));
        sample.supplier("North", |supplier| {
            supplier.same_day = Some(crate::record::SameDay {
                order_by: hour(order_by),
                there_by: hour(14),
                cost: Some(crate::plan::sample::euros(35.0)),
            });
        });
        let plan = sample.plan();
        let delivery = plan.offers[0].deliveries[1];
        assert_eq!(delivery.kind, crate::plan::DeliveryKind::SameDay);
        assert_eq!(delivery.arrival.unwrap().likely, at(likely));
        assert_eq!(delivery.surcharge, crate::plan::sample::euros(35.0));
    }
}

#[test]
fn the_distribution_has_the_stated_moments_at_the_stated_shares() {
    let (mut sample, part) = shop(workdays(12.0));
    sample.supplier("North", |supplier| supplier.collection_h = Some(1.5));
    sample.offer(part, "North", Some(QuotedLeadTime::InStock), |_| {});
    sample.offer(
        part,
        "North",
        Some(QuotedLeadTime::exactly(30.0, LeadUnit::Hours)),
        |_| {},
    );
    sample.offer(
        part,
        "North",
        Some(QuotedLeadTime::exactly(400.0, LeadUnit::Days)),
        |_| {},
    );
    sample.offer(
        part,
        "North",
        Some(QuotedLeadTime::By(at("2026-04-01").date())),
        |_| {},
    );
    sample.receipt(part, "South", "2026-02-02", Some(14), None);
    let plan = sample.plan();
    let calendars = Calendars::new(&sample.shop.settings);
    let arrivals: Vec<Arrival> = plan
        .offers
        .iter()
        .flat_map(|offer| {
            offer
                .deliveries
                .iter()
                .filter_map(|delivery| delivery.arrival)
        })
        .chain(plan.open_orders[0].arrival)
        .collect();
    assert_eq!(arrivals.len(), 7);
    for arrival in arrivals {
        let distribution = arrival.distribution(&calendars);
        assert_eq!(
            distribution.quantile(0.5),
            Some(arrival.likely),
            "{arrival:?}"
        );
        assert_eq!(
            distribution.quantile(0.8),
            Some(arrival.fairly),
            "{arrival:?}"
        );
        assert_eq!(
            distribution.quantile(0.9),
            Some(arrival.late),
            "{arrival:?}"
        );
        assert!(distribution.cdf(arrival.late) >= 0.9 - 1e-9);
        assert!(
            distribution.beyond() < 2e-3,
            "{} {arrival:?}",
            distribution.beyond()
        );
        let moments = distribution.moments();
        assert!(moments.len() < 400, "{}", moments.len());
        assert!(
            moments
                .windows(2)
                .all(|pair| pair[0] < pair[1] && pair[0].1 < pair[1].1)
        );
        assert!(moments[0].0 > at("2026-03-04T10:30"));
        let mean_days = distribution.mean_hours_after(at("2026-03-04T10:30")) / 24.0;
        assert!(
            (mean_days / arrival.mean_days - 1.0).abs() < 0.25,
            "{mean_days} {arrival:?}"
        );
    }
}

#[test]
fn rows_that_cannot_be_are_listed_and_the_rest_is_planned() {
    let (mut sample, part) = shop(workdays(0.0));
    sample.offer(part, "North", workdays(4.0), |_| {});
    for days in [20, 22, 25, 21, 24] {
        sample.receipt(part, "North", "2025-06-02", None, Some(days));
    }
    sample.receipt(part, "North", "2025-06-02", None, Some(-3));
    sample.receipt(part, "North", "2012-06-04", None, Some(4_000));
    sample.receipt(part, "North", "2025-06-02", Some(-5), Some(23));
    sample.receipt(part, "North", "2024-06-03", None, None);
    sample.supplier("North", |supplier| {
        let hour = |hour| chrono::NaiveTime::from_hms_opt(hour, 0, 0).unwrap();
        supplier.same_day = Some(crate::record::SameDay {
            order_by: hour(14),
            there_by: hour(11),
            cost: None,
        });
    });
    let plan = sample.plan();
    let issues: Vec<String> = plan.issues.iter().map(ToString::to_string).collect();
    let expected = [
        "same-day delivery is ordered until 14:00:00 and there by 11:00:00",
        "received 2025-05-30, before it was ordered on 2025-06-02",
        "received 4000 days after it was ordered",
        "promised for 2025-05-28, before it was ordered on 2025-06-02",
        "ordered on 2024-06-03 and open for 639 days",
        "lead time is 0, which is taken as not filled in",
    ];
    assert_eq!(issues.len(), expected.len(), "{issues:#?}");
    for text in expected {
        assert!(
            issues.iter().any(|issue| issue.contains(text)),
            "{text}: {issues:#?}"
        );
    }
    for offer in &plan.offers {
        let basis = offer.deliveries[0].arrival.unwrap().basis.to_string();
        assert_eq!(basis, "6 receipts of this part");
    }
}

#[test]
fn a_quote_of_zero_has_no_date_without_receipts() {
    let (sample, _) = shop(workdays(0.0));
    assert_eq!(sample.plan().offers[0].deliveries[0].arrival, None);
}

#[test]
fn gamma_is_fitted_where_the_settings_ask_for_it_and_says_so() {
    for (model, basis) in [
        ("gamma", "6 receipts of this part (gamma)"),
        ("lognormal", "6 receipts of this part"),
    ] {
        let mut sample = Sample::new(&format!("[planning]\nlead_time_model = \"{model}\""));
        sample.supplier("North", |_| {});
        let part = sample.part("A");
        sample.offer(part, "North", workdays(4.0), |_| {});
        for days in [20, 22, 25, 21, 60, 24] {
            sample.receipt_in_workdays(part, "North", days);
        }
        assert_eq!(first(&sample.plan()).basis.to_string(), basis);
    }
}
