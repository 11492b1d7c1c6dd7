//! Levels of parts that end on the shelf, packs of twenty of which few are used in their life.

use super::*;
use crate::plan::{LevelReason, ServiceGoal};

/// Two a year, 20 at a time, a year of shelf life.
fn in_packs(settings: &str) -> (Sample, PartId) {
    let (mut sample, part) = with_machine(settings);
    sample.shop.offers[0].record.pack_quantity = Some(20.0);
    sample.shop.offers[0].record.price = price(5.0);
    sample.part_change(part, |part| part.shelf_life_months = Some(12.0));
    (sample, part)
}

fn reason(level: &Level) -> &LevelReason {
    match &level.why {
        LevelBasis::Computed(why) => why,
        other => panic!("not computed: {other}"),
    }
}

#[test]
fn a_share_out_of_reach_is_told_and_costs_no_more_than_the_downtime_in_full() {
    let settings = |target: f64| {
        format!(
            "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"stock_out_price\"\nservice_target_share = {target}"
        )
    };
    let (sample, part) = in_packs(&settings(0.9999));
    let levels = sample.plan().levels;
    let of = levels.out_of_reach.as_ref().expect("out of reach");
    assert_eq!(of.because_of, ["A"]);
    assert!((of.share - 0.9999).abs() < 1e-12);
    let chosen = levels.chosen.unwrap();
    assert!(
        chosen.factor <= 1.0 && chosen.fill_share < 0.9999,
        "{chosen:?}"
    );
    let why = reason(&levels.by_part[&part]);
    let LevelRule::StockOutPrice {
        goal: ServiceGoal::OutOfReach { share, most },
        ..
    } = why.rule
    else {
        panic!("{:?}", why.rule)
    };
    assert!(most < share && most >= chosen.fill_share - 1e-9);
    let said = levels.by_part[&part].why.to_string();
    assert!(
        said.contains("; no price meets the 100.0 % of usages asked for, "),
        "{said}"
    );
    // What is in reach is told as before.
    let (sample, part) = in_packs(&settings(0.5));
    let levels = sample.plan().levels;
    assert_eq!(levels.out_of_reach, None);
    let said = levels.by_part[&part].why.to_string();
    assert!(
        said.contains("; the shop's price for 50.0 % of usages met"),
        "{said}"
    );
}

#[test]
fn a_target_of_lead_times_says_what_is_met_where_stock_ends() {
    let target = |share: f64| {
        format!(
            "{DEAR}[planning]\ndemand_method = \"plain\"\nlevels_by = \"service_target\"\nservice_target_share = {share}"
        )
    };
    let (sample, part) = in_packs(&target(0.9999));
    let level = &sample.plan().levels.by_part[&part];
    let of = reason(level).ending.and_then(|ending| ending.of_target);
    let of = of.expect("stock ends under a target");
    assert!(of.met_share < 0.9999);
    let said = level.why.to_string();
    assert!(said.contains("; as stock ends on the shelf "), "{said}");
    assert!(said.contains(" and no minimum meets 100.0 %"), "{said}");
    // A life that is long enough leaves nothing to tell.
    let (mut sample, part) = in_packs(&target(0.9));
    sample.part_change(part, |part| part.shelf_life_months = Some(600.0));
    let said = sample.plan().levels.by_part[&part].why.to_string();
    assert!(!said.contains("as stock ends"), "{said}");
}
