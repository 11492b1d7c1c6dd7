//! Orders that rest on a minimum alone.

use super::*;
use crate::plan::level::{Level, NeverUsed, UnsignedMinimum};
use crate::plan::{OrderedFor, Plan};

/// Who stands behind a minimum.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Signed {
    Nothing,
    Reason,
    Both,
}

/// A part with a minimum and none on the shelf, used so many times in five years; nine others are used once a year.
fn minimum(usages: u32, own_minimum: f64, signed: Signed) -> Plan {
    let mut sample = Sample::new("records_from = \"2021-03-04\"");
    sample.supplier("North", |_| {});
    sample.machine("M1", Some(20.0), None);
    for other in 0..10 {
        let part = sample.part(&format!("O{other}"));
        sample.offer(part, "North", workdays(5.0), |_| {});
        for year in 2021..2026 {
            sample.usage(part, &format!("{year}-06-01"), 1.0);
        }
        sample.stock(part, 9.0, |_| {});
    }
    let part = sample.part_with("M", |part| {
        part.own_min_stock = Some(own_minimum);
        part.own_min_reason = (signed != Signed::Nothing).then(|| "the builder is gone".to_owned());
        part.own_min_date = (signed == Signed::Both).then(|| day("2026-01-12"));
    });
    sample.offer(part, "North", workdays(5.0), |_| {});
    for at in 0..usages {
        sample.usage(part, &format!("{}-09-01", 2021 + at % 5), 1.0);
    }
    sample.plan()
}

/// The need of the part with the minimum.
fn need(plan: &Plan) -> &OrderedFor {
    let lines = plan.reorder.lines.iter();
    let [line] = &lines.collect::<Vec<_>>()[..] else {
        panic!("{:?}", plan.reorder.lines);
    };
    &line.needs[0]
}

fn level(plan: &Plan) -> &Level {
    plan.levels.by_part.values().last().unwrap()
}

#[test]
fn an_order_that_only_a_minimum_asks_for_says_so_unless_a_planner_signed_it() {
    for (usages, own, signed, is_alone) in [
        // Used twice in five years, a minimum of 9: nothing else asks for nine.
        (2, 9.0, Signed::Nothing, true),
        (2, 9.0, Signed::Reason, true),
        (2, 9.0, Signed::Both, false),
        // Used forty times: with none there the computed level asks for it as well.
        (40, 9.0, Signed::Nothing, false),
    ] {
        let plan = minimum(usages, own, signed);
        let need = need(&plan);
        let alone = need.only_by_minimum;
        let computed = match &level(&plan).why {
            LevelBasis::Computed(reason) => reason.computed_reorder_point,
            other => panic!("{other:?}"),
        };
        // None is there: whatever the rule keeps is asked for by the rule as well.
        assert_eq!(
            alone.is_some(),
            is_alone && computed < 0.0,
            "{usages} {signed:?}: {computed} {alone:?}"
        );
        assert_eq!(need.never_used, None);
        if let Some(alone) = alone {
            assert_eq!(alone.computed, Some(0.0));
            assert_eq!(
                alone.to_string(),
                "only a minimum of 9 without reason or date asks for it, the computed one is 0"
            );
        }
    }
}

#[test]
fn with_some_left_a_minimum_above_the_computed_level_is_alone() {
    let mut sample =
        Sample::new("records_from = \"2021-03-04\"\n[planning]\ndemand_method = \"plain\"");
    sample.supplier("North", |_| {});
    sample.machine("M1", Some(20.0), None);
    let part = sample.part_with("M", |part| part.own_min_stock = Some(30.0));
    sample.offer(part, "North", workdays(5.0), |_| {});
    for year in 2021..2026 {
        sample.usage(part, &format!("{year}-06-01"), 2.0);
    }
    sample.stock(part, 12.0, |_| {});
    let plan = sample.plan();
    let alone = need(&plan).only_by_minimum.unwrap();
    assert!((alone.min_stock - 30.0).abs() < 1e-9);
    assert!(alone.computed.unwrap() < 12.0, "{alone:?}");
    assert!(
        plan.reorder.lines[0].is_due(day("2026-03-04")),
        "it was used, and a minimum is obeyed"
    );
}

#[test]
fn a_part_never_used_waits_for_a_reason_of_its_minimum() {
    for (signed, waits) in [
        (Signed::Nothing, true),
        (Signed::Reason, false),
        (Signed::Both, false),
    ] {
        let plan = minimum(0, 2.0, signed);
        let need = need(&plan);
        assert_eq!(need.is_held_back(), waits, "{signed:?}: {need:?}");
        assert_eq!(plan.reorder.lines[0].is_due(day("2026-03-04")), !waits);
        if waits {
            let never_used = need.never_used.as_ref().unwrap();
            assert_eq!(never_used.minimum, Some(2.0));
            let text = never_used.to_string();
            let begin = "never used in 1826 days of records, only a minimum of 2 without a reason asks for it";
            assert!(text.starts_with(begin), "{text}");
        }
    }
}

#[test]
fn a_minimum_without_reason_of_a_part_never_used_orders_what_its_insurance_pays_for() {
    // An insured part of 1,000.00, ordered one at a time: thirty because a row says so, or what the rule keeps.
    let wanted = |own_minimum: Option<f64>, reason: Option<&str>| {
        let (sample, never) = Sample::with_never_used(own_minimum, reason, "A");
        let plan = sample.plan();
        let line = plan.reorder.lines.iter().find(|line| line.part() == never);
        let line = line.expect("its insurance pays");
        assert!(line.is_due(day("2026-03-04")), "{own_minimum:?} {reason:?}");
        line.wanted
    };
    let by_rule = wanted(None, None);
    assert!((1.0..10.0).contains(&by_rule), "{by_rule}");
    assert!((wanted(Some(30.0), None) - by_rule).abs() < 1e-9);
    assert!((wanted(Some(30.0), Some("the builder is gone")) - 30.0).abs() < 1e-9);
}

#[test]
fn a_minimum_of_a_part_without_any_rate_waits_as_well() {
    // The plain method gives a part without usages no level of its own.
    let plan = |reason: Option<&str>| {
        let mut sample =
            Sample::new("records_from = \"2021-03-04\"\n[planning]\ndemand_method = \"plain\"");
        sample.supplier("North", |_| {});
        let other = sample.part("O");
        sample.usage(other, "2025-06-01", 1.0);
        let part = sample.part_with("M", |part| {
            part.own_min_stock = Some(2.0);
            part.own_min_reason = reason.map(str::to_owned);
        });
        sample.offer(part, "North", workdays(5.0), |_| {});
        sample.plan()
    };
    let waiting = plan(None);
    let of_need = need(&waiting);
    assert!(of_need.is_held_back(), "{of_need:?}");
    let text = of_need.never_used.as_ref().unwrap().to_string();
    assert_eq!(
        text,
        "never used in 1826 days of records, only a minimum of 2 without a reason asks for it"
    );
    let signed = plan(Some("ordered by the insurer"));
    assert!(!need(&signed).is_held_back());
    assert_eq!(need(&signed).only_by_minimum, None);
}

#[test]
fn the_words_of_a_minimum_say_what_speaks_for_it() {
    let computed = |computed| UnsignedMinimum {
        min_stock: 3.0,
        has_reason: false,
        computed,
    };
    assert_eq!(
        computed(None).to_string(),
        "only a minimum of 3 without reason or date asks for it, none is computed"
    );
    assert_eq!(
        computed(Some(1.0)).to_string(),
        "only a minimum of 3 without reason or date asks for it, the computed one is 1"
    );
    let undated = UnsignedMinimum {
        has_reason: true,
        ..computed(None)
    };
    assert_eq!(
        undated.to_string(),
        "only a minimum of 3 without a date asks for it, none is computed"
    );
    let never_used = |minimum, pays_from| NeverUsed {
        exposure_days: 730.0,
        minimum,
        pays_from,
        first: 1.0,
        critical: None,
    };
    for (minimum, pays_from, words) in [
        (
            None,
            None,
            "only its group's rate asks for it: without a price",
        ),
        (
            Some(2.0),
            Some(euros(40.0)),
            "only a minimum of 2 without a reason asks for it: no machine of the highest criticality",
        ),
    ] {
        let text = never_used(minimum, pays_from).to_string();
        assert!(text.contains(words), "{text}");
    }
}

#[test]
fn a_price_break_is_reached_for_where_more_costs_less() {
    // 10 each, 7 from ten on: eight cost 80, ten cost 70; six cost 60.
    let bought = |quantity: f64| {
        let mut sample = Sample::new("");
        sample.supplier("North", |_| {});
        sample.machine("M1", None, None);
        let part = sample.part("E2");
        sample.offer(part, "North", workdays(5.0), |offer| {
            offer.breaks = vec![PriceBreak {
                from_quantity: 10.0,
                price: price(7.0).unwrap(),
            }];
        });
        sample.kit("K");
        sample.line(Some(part), quantity, &[], |_| {});
        sample.planned("2026-06-19");
        let line = sample.plan().reorder.lines[0].clone();
        (line.wanted, line.buy.ordered, line.buy.cost)
    };
    assert_eq!(bought(6.0), (6.0, 6.0, Some(euros(60.0))));
    assert_eq!(bought(7.0), (7.0, 7.0, Some(euros(70.0))));
    assert_eq!(bought(8.0), (8.0, 10.0, Some(euros(70.0))));
    assert_eq!(bought(11.0), (11.0, 11.0, Some(euros(77.0))));
}
