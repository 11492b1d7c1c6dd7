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
    assert_eq!(arrival.likely, at("2026-03-10T09:00"));
    assert_eq!(arrival.late, at("2026-03-12T09:00"));
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
    // tests/tables/planning/oracle_leadtime.json): 14 and 17 days after 4 March are 18 and 21 March; the 21st is a
    // Saturday and rolls to the 23rd.
    let (mut sample, part) = shop(workdays(2.0));
    for days in [12, 14, 13, 15, 12, 16, 14, 13, 18, 14] {
        sample.receipt(part, "north", "2025-06-02", None, Some(days));
    }
    let arrival = first(&sample.plan());
    assert_eq!(arrival.likely, at("2026-03-18T09:00"));
    assert_eq!(arrival.late, at("2026-03-23T09:00"));
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
        arrival.basis,
        LeadBasis::QuoteCorrected {
            receipts: 3,
            ratio: 1.5
        }
    );
}

#[test]
fn a_longer_quote_is_never_earlier() {
    let mut before = None;
    for days in 0..40 {
        let (sample, _) = shop(workdays(f64::from(days)));
        let arrival = first(&sample.plan());
        assert!(before.is_none_or(|before| arrival.likely >= before));
        assert!(arrival.late >= arrival.likely && arrival.likely >= at("2026-03-04T10:30"));
        before = Some(arrival.likely);
    }
}

#[test]
fn an_overdue_order_without_receipts_has_no_date_and_an_old_one_with_them_has() {
    let (mut sample, part) = shop(workdays(2.0));
    sample.receipt(part, "North", "2026-02-02", Some(14), None);
    let plan = sample.plan();
    assert!(plan.open_orders[0].is_overdue);
    assert_eq!(plan.open_orders[0].arrival, None);
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
