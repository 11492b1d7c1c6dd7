use super::*;
use crate::plan::{Settling, SettlingGain, WhyUnusable};
use crate::record::{OfferRecord, SupplierRecord};
use crate::units::{Currency, Price};

/// A machine at 50 an hour that waits three weeks for a part, unless South's offer of two days may be taken.
fn two_suppliers(settings: &str) -> Sample {
    let mut sample = Sample::new(settings);
    for name in ["North", "South"] {
        sample.supplier(name, |_| {});
    }
    sample.machine("M1", Some(50.0), None);
    sample
}

fn kit_with(sample: &mut Sample, on_shelf: f64, change: impl FnOnce(&mut OfferRecord)) {
    let part = sample.part("A");
    sample.offer(part, "North", workdays(15.0), |_| {});
    sample.offer(part, "South", workdays(2.0), change);
    sample.stock(part, on_shelf, |_| {});
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
}

fn only(kit: &KitPlan) -> &SettlingGain {
    match &kit.settling[..] {
        [gain] => gain,
        several => panic!("one word: {several:?}"),
    }
}

/// The plan with the word given is that from which the gain was told.
fn is_that_of(gain: &SettlingGain, before: &KitPlan, after: &KitPlan) {
    assert!(after.settling.is_empty(), "{:?}", after.settling);
    let gain = &gain.gained;
    assert_eq!(after.accepted.likely().unwrap().up, gain.running.p50);
    let hours = |kit: &KitPlan| kit.accepted.running.as_ref().unwrap().mean_h;
    assert!((hours(before) - hours(after) - gain.saved_h.unwrap()).abs() < 1e-6);
    let expected = |kit: &KitPlan| kit.accepted.proof.unwrap().expected.cents;
    let saved = gain.saved.unwrap().cents;
    assert!(
        (expected(before) - expected(after) - saved).abs() <= 2,
        "{saved}"
    );
}

#[test]
fn an_approved_supplier_would_gain_what_the_plan_with_him_saves() {
    let mut sample = two_suppliers(TWO_SHIFTS);
    let south = |approved: Option<bool>| {
        move |supplier: &mut SupplierRecord| supplier.is_approved = approved
    };
    sample.supplier("South", south(Some(false)));
    kit_with(&mut sample, 0.0, |_| {});
    let plan = sample.plan();
    let before = &plan.kits[0];
    let gain = only(before);
    assert_eq!(gain.settling, Settling::Supplier("South".to_owned()));
    assert_eq!(gain.lines, [0]);
    assert!(matches!(gain.why, WhyUnusable::NotApproved { .. }));
    assert!(gain.gained.running.p50 < before.accepted.likely().unwrap().up);
    sample.supplier("South", south(Some(true)));
    is_that_of(gain, before, &sample.plan().kits[0]);
    // The kit in depth tells the same.
    sample.supplier("South", south(None));
    let study = sample.study(0, &StudyAsk::default());
    assert_eq!(
        only(&study.plan).gained.running.p50,
        gain.gained.running.p50
    );
    // Of a supplier in no table nobody knows how he delivers.
    sample
        .shop
        .suppliers
        .retain(|_, supplier| supplier.name != "South");
    assert!(sample.plan().kits[0].settling.is_empty());
}

#[test]
fn a_rate_of_exchange_would_gain_what_the_plan_saves_at_the_price_of_another_offer() {
    let franc = Currency::new("CHF").unwrap();
    let mut sample = two_suppliers(TWO_SHIFTS);
    // As many francs as the other offer has euros, so that a rate of one gives the price that is assumed.
    let in_francs = |offer: &mut OfferRecord| {
        offer.price = price(10.0).map(|price| Price {
            currency: franc,
            ..price
        });
    };
    kit_with(&mut sample, 0.0, in_francs);
    let plan = sample.plan();
    let before = &plan.kits[0];
    let gain = only(before);
    assert_eq!(gain.settling, Settling::Rate(franc));
    let settings = format!("{TWO_SHIFTS}\n[exchange_rates]\nCHF = 1.0\n");
    let mut with_rate = two_suppliers(&settings);
    kit_with(&mut with_rate, 0.0, in_francs);
    is_that_of(gain, before, &with_rate.plan().kits[0]);
}

#[test]
fn a_word_for_what_lies_on_the_shelf_gains_nothing() {
    let mut sample = two_suppliers(TWO_SHIFTS);
    sample.supplier("South", |supplier| supplier.is_approved = Some(false));
    kit_with(&mut sample, 1.0, |_| {});
    assert!(sample.plan().kits[0].settling.is_empty());
}
