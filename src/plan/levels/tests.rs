use proptest::prelude::*;

use super::*;
use crate::plan::sample::Sample;
use crate::record::{LeadUnit, OfferRecord, QuotedLeadTime};

const SINCE: &str = "records_from = \"2024-03-04\"";

/// Four usages of one piece in 730 days and an offer of 90 days.
fn two_a_year(settings: &str, change: impl FnOnce(&mut OfferRecord)) -> (Sample, PartId) {
    let mut sample = Sample::new(settings);
    sample.supplier("North", |_| {});
    let part = sample.part("A");
    for date in ["2024-05-02", "2024-11-02", "2025-05-02", "2025-11-02"] {
        sample.usage(part, date, 1.0);
    }
    let lead = QuotedLeadTime::exactly(90.0, LeadUnit::Days);
    sample.offer(part, "North", Some(lead), change);
    (sample, part)
}

#[test]
fn a_level_explains_itself_with_its_numbers() {
    // Two a year, quoted 90 days: the mean of the lognormal with that median and the stated width is
    // 90 exp(0.5409^2 / 2) = 104.2 days, and Poisson with mean 0.571 gives P(0) = 0.565, P(<= 1) = 0.888, P(<= 2) = 0.980
    // (by hand).
    let (sample, part) = two_a_year(SINCE, |_| {});
    let level = &sample.plan().levels.by_part[&part];
    assert!((level.reorder_point - 2.0).abs() < 1e-9 && (level.min_stock - 3.0).abs() < 1e-9);
    assert_eq!(
        level.why.to_string(),
        "P(demand in 104 days <= 2) = 0.980 >= 0.95; with 1 it would be 0.888; 4 used in 4 usages over 730 days; \
         lead time: quote only; late case 2 times as long, as lead times usually spread"
    );
}

#[test]
fn the_order_quantity_is_economic_and_fits_the_pack() {
    // Two a year, 25.00 an order, 20 % of 10.00 a year: sqrt(2 * 2 * 25 / 2) = 7.07 (Harris' formula by hand).
    for (pack, quantity) in [(None, 8.0), (Some(5.0), 10.0), (Some(8.0), 8.0)] {
        let (sample, part) = two_a_year(SINCE, |offer| offer.pack_quantity = pack);
        let level = &sample.plan().levels.by_part[&part];
        assert!((level.order_quantity - quantity).abs() < 1e-9, "{pack:?}");
        let economic = level.why_quantity.unwrap().economic.unwrap();
        assert!((economic - 50.0_f64.sqrt()).abs() < 1e-9);
    }
}

#[test]
fn no_more_is_ordered_than_the_shelf_life_uses() {
    let (mut sample, part) = two_a_year(SINCE, |offer| offer.minimum_quantity = Some(5.0));
    sample.part_change(part, |part| part.shelf_life_months = Some(24.0));
    let plan = sample.plan();
    assert!((plan.levels.by_part[&part].order_quantity - 5.0).abs() < 1e-9);
    assert!(matches!(
        plan.issues[..],
        [PlanIssue::OutlastsShelfLife { .. }]
    ));
    sample.shop.offers[0].record.minimum_quantity = None;
    let plan = sample.plan();
    assert!((plan.levels.by_part[&part].order_quantity - 4.0).abs() < 1e-9);
    assert!(plan.issues.is_empty());
}

#[test]
fn critical_machines_set_a_higher_target() {
    let settings =
        "records_from = \"2024-03-04\"\n[planning.service_targets_by_criticality]\nA = 0.99";
    let (mut sample, part) = two_a_year(settings, |_| {});
    sample.machine("M1", None, Some("a"));
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    assert!((level.reorder_point - 3.0).abs() < 1e-9);
    assert!(level.why.to_string().contains(">= 0.99 (criticality A)"));
}

#[test]
fn parts_that_cannot_be_planned_say_why() {
    let without = |sample: &Sample| sample.plan().levels.without;
    let (sample, part) = two_a_year("", |_| {});
    assert_eq!(without(&sample), [(part, WhyNoLevel::RateUnknown)]);
    let (mut sample, part) = two_a_year(SINCE, |offer| offer.lead_time = None);
    assert_eq!(without(&sample), [(part, WhyNoLevel::NoLeadTime)]);
    sample.shop.offers.clear();
    assert_eq!(without(&sample), [(part, WhyNoLevel::NoUsableOffer)]);
    sample.shop.usages.clear();
    assert_eq!(without(&sample), [(part, WhyNoLevel::NeverUsed)]);
}

#[test]
fn a_planners_own_minimum_is_obeyed_where_it_is_higher_or_nothing_is_known() {
    let (mut sample, part) = two_a_year(SINCE, |_| {});
    for (own, min_stock) in [(2.0, 3.0), (6.0, 6.0)] {
        sample.part_change(part, |part| part.own_min_stock = Some(own));
        let level = &sample.plan().levels.by_part[&part];
        assert!((level.min_stock - min_stock).abs() < 1e-9);
    }
    sample.shop.usages.clear();
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    assert!((level.min_stock - 6.0).abs() < 1e-9);
    assert!(matches!(level.why, LevelBasis::OwnMinimum { .. }));
    assert!(plan.levels.without.is_empty());
}

#[test]
fn quantities_that_vary_need_more_stock_than_single_pieces() {
    let level = |sizes: [f64; 4]| {
        let (mut sample, part) = two_a_year(SINCE, |_| {});
        for (usage, size) in sample.shop.usages.iter_mut().zip(sizes) {
            usage.record.quantity = size;
        }
        sample.plan().levels.by_part[&part].reorder_point
    };
    assert!(level([1.0, 1.0, 1.0, 5.0]) > level([2.0, 2.0, 2.0, 2.0]) - 1e-9);
    assert!(level([2.0, 2.0, 2.0, 2.0]) > level([1.0, 1.0, 1.0, 1.0]));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, ..ProptestConfig::default() })]

    #[test]
    fn a_longer_lead_time_or_higher_target_never_lowers_a_reorder_point(
        per_day in 0.0001_f64..0.5,
        spread in 1.0_f64..6.0,
        days in 1.0_f64..200.0,
        more_days in 0.0_f64..100.0,
        target in 0.5_f64..0.99,
        higher in 0.0_f64..0.009,
    ) {
        let point = |days: f64, target: f64| {
            LeadTimeDemand::new(per_day * days, per_day * days * spread)
                .reorder_point(target)
                .unwrap()
        };
        prop_assert!(point(days + more_days, target) >= point(days, target));
        prop_assert!(point(days, target + higher) >= point(days, target));
    }
}
