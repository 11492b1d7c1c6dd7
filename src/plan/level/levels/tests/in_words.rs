//! What a reason says, held to the figures behind it.

use super::*;

fn computed(level: &Level) -> &crate::plan::level::LevelReason {
    match &level.why {
        LevelBasis::Computed(why) => why,
        other => panic!("not computed: {other:?}"),
    }
}

#[test]
fn a_service_target_is_met_as_the_sheet_measures_it() {
    // Four at a time and thirty: what sets an order off passes the reorder point by up to as many less one.
    for taken in [1.0, 4.0, 30.0] {
        let (mut sample, part) = two_a_year(SINCE, |_| {});
        for usage in &mut sample.shop.usages {
            usage.record.quantity = taken;
        }
        let plan = sample.plan();
        let level = &plan.levels.by_part[&part];
        let service = computed(level).service;
        assert!(level.reorder_point >= taken - 1.0, "{taken} {level:?}");
        for share in [
            service.cycle_share,
            service.whole_job_share,
            service.unit_fill_share,
        ] {
            assert!(share >= 0.95, "{taken} {service:?}");
        }
        let said = level.why.to_string();
        let begins = if taken > 1.0 {
            "P(nobody waits for "
        } else {
            "P(demand in "
        };
        assert!(said.starts_with(begins), "{said}");
        let shown = format!(" = {:.3} >= 0.95; with ", service.cycle_share);
        assert!(said.contains(&shown), "{said}");
        // One less misses it, and that is where it says another number begins.
        let less = computed(level).service_one_less.unwrap();
        assert!(less.cycle_share < 0.95, "{taken} {less:?}");
        let points = level.turning_points().unwrap();
        assert!(points.more_from.unwrap() > 1.0, "{points:?}");
        assert!(
            points.less_from.is_none_or(|factor| factor <= 1.0),
            "{points:?}"
        );
    }
}

#[test]
fn an_hour_is_told_with_its_weight_once() {
    // 100.00 an hour, times two for the criticality: 200.00.
    let (sample, part) = with_machine(&format!(
        "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\"\n[planning.criticality_weights]\nA = 2.0"
    ));
    let said = sample.plan().levels.by_part[&part].why.to_string();
    let told = "an hour at 200.00 EUR (downtime of M1, 100.00 EUR times 2 for its criticality), counted in full";
    assert!(said.contains(told), "{said}");
    let (sample, part) = with_machine(&format!(
        "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\""
    ));
    let said = sample.plan().levels.by_part[&part].why.to_string();
    let told = "an hour at 100.00 EUR (downtime of M1), counted in full";
    assert!(said.contains(told), "{said}");
}

#[test]
fn what_expires_is_in_the_shares_that_are_told() {
    // Two a year in packs of twelve that last half a year. With none kept each pack begins with the usage that asks for it; with
    // 0.493 more in 90 days and 1.493 in those and the life, 1.493 of the 2.493 usages of a pack wait (by hand), not one of twelve.
    let (mut sample, part) = with_machine(&format!(
        "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\""
    ));
    sample.part_change(part, |part| part.shelf_life_months = Some(6.0));
    sample.shop.offers[0].record.pack_quantity = Some(12.0);
    for machine in sample.shop.machines.values_mut() {
        machine.downtime_cost_per_hour = Some(crate::plan::sample::euros(0.01));
    }
    // Something lies there, so that the long run is told.
    sample.stock(part, 1.0, |_| {});
    let plan = sample.plan();
    let level = &plan.levels.by_part[&part];
    assert!((level.order_quantity - 12.0).abs() < 1e-9 && level.min_stock.abs() < 1e-9);
    let why = computed(level);
    let (lead, both) = (why.lead.mean_days / 182.5, why.lead.mean_days / 182.5 + 1.0);
    let told = 1.0 - why.service.unit_fill_share;
    assert!((told - (1.0 + lead) / (1.0 + both)).abs() < 0.001, "{told}");
    // Of each pack all but the usages of its time end.
    let ended = why.expired_a_year.unwrap();
    assert!(
        (ended - 2.0 * (12.0 / (1.0 + both) - 1.0)).abs() < 0.01,
        "{ended}"
    );
    assert_eq!(level.turning_points(), None);
    // The shop's figure is the level's.
    let shop = plan.levels.chosen.unwrap();
    assert!((shop.fill_share - why.service.unit_fill_share).abs() < 1e-9);
    assert!((shop.waiting_h - 365.0 * why.service.jobs_waiting).abs() < 1e-6);
}
