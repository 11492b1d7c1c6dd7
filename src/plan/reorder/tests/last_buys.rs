//! Last buys of machines that leave service soon: what an order of today still saves, and from whom it is bought.

use super::*;
use crate::plan::{LastBuy, LevelBasis, Plan};

/// The part of `leaving`, of a machine that leaves service on a day, at so much an hour.
fn until(lead: f64, date: &str, hour: f64) -> (Sample, PartId) {
    let (mut sample, part) = leaving(lead, 0.0);
    for machine in sample.shop.machines.values_mut() {
        machine.in_use_until = Some(day(date));
        machine.downtime_cost_per_hour = Some(euros(hour));
    }
    (sample, part)
}

fn last_buy_of(plan: &Plan, part: PartId) -> LastBuy {
    match &plan.levels.by_part[&part].why {
        LevelBasis::Computed(reason) => **reason.last_buy.as_ref().unwrap(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_comes_too_late_to_save_its_price_is_not_bought_but_told() {
    // Thirty days in service, two used a year, some 24 days of waiting at 5.7 hours of 1.20: 166 a stoppage, in 0.15 of
    // cases. A unit of 10.00 that came at once would save 0.6 of it, 15 in the mean; one that takes the 24 days itself 0.19 of
    // it, 5 (by hand).
    let (sample, part) = until(15.0, "2026-04-03", 1.2);
    let plan = sample.plan();
    assert!(plan.reorder.lines.is_empty(), "{:?}", plan.reorder.lines);
    let [not] = &plan.reorder.not_ordered[..] else {
        panic!("{:?}", plan.reorder);
    };
    assert_eq!(
        (not.part, not.why),
        (Some(part), WhyNoChoice::SavesTooLittle)
    );
    let last = last_buy_of(&plan, part);
    assert!(last.is_in_vain);
    assert_eq!((last.wanted, last.buy), (Some(1.0), Some(0.0)));
    let said = plan.levels.by_part[&part].why.to_string();
    assert!(
        said.contains("that it saves less than it costs: nothing bought"),
        "{said}"
    );
    // At a hundred times as much it is bought, and its line says what it saves.
    let (sample, part) = until(15.0, "2026-04-03", 120.0);
    let plan = sample.plan();
    let [line] = &plan.reorder.lines[..] else {
        panic!("{:?}", plan.reorder);
    };
    assert!(line.is_last_buy() && last_buy_of(&plan, part).buy >= Some(1.0));
    let worth = crate::plan::order_worths(&sample.built(), &plan, &[line])[0].unwrap();
    assert!(worth.saves.unwrap().cents > line.buy.cost.unwrap().cents);
}

#[test]
fn what_cannot_come_before_the_last_day_is_not_counted_as_bought() {
    let (sample, part) = leaving(400.0, 0.0);
    let plan = sample.plan();
    let last = last_buy_of(&plan, part);
    assert_eq!(last.buy, Some(0.0));
    assert_eq!(last.not_bought, Some(WhyNoChoice::AfterService));
    assert!(last.wanted >= Some(1.0), "{last:?}");
    // Nobody knows what an hour costs: nothing comes in service all the same.
    let (mut unpriced, part) = leaving(400.0, 0.0);
    for machine in unpriced.shop.machines.values_mut() {
        machine.downtime_cost_per_hour = None;
    }
    let plan = unpriced.plan();
    assert!(plan.reorder.lines.is_empty());
    assert_eq!(last_buy_of(&plan, part).buy, Some(0.0));
}

#[test]
fn a_last_buy_comes_from_whoever_delivers_before_the_last_day() {
    // North sells at 10.00 and South at twice that. Of sixty working days nothing comes in thirty days; of forty in ninety
    // days it does, but for most of them the machine, at 100.00 an hour, would wait for South's week all the same.
    for (days, date) in [(60.0, "2026-04-03"), (40.0, "2026-06-02")] {
        let (mut sample, part) = until(days, date, 100.0);
        sample.supplier("South", |_| {});
        sample.offer(part, "South", workdays(5.0), |offer| {
            offer.price = price(20.0);
        });
        let plan = sample.plan();
        let [line] = &plan.reorder.lines[..] else {
            panic!("{:?}", plan.reorder);
        };
        assert_eq!(line.buy.supplier, "South", "{days}");
        assert_eq!(last_buy_of(&plan, part).buy, Some(line.wanted));
    }
    // At an hour of next to nothing, one of 10.00 that is used in 0.39 of cases is bought when it is asked for (by hand).
    let (mut sample, part) = until(40.0, "2026-06-02", 0.01);
    sample.supplier("South", |_| {});
    sample.offer(part, "South", workdays(5.0), |offer| {
        offer.price = price(20.0);
    });
    let reorder = sample.plan().reorder;
    assert!(reorder.lines.is_empty() && reorder.not_ordered.is_empty());
}
