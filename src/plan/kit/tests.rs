use proptest::prelude::*;

use chrono::NaiveDateTime;

use super::*;
use crate::record::OtherWay;
use crate::plan::lead_time::LeadBasis;
use crate::plan::sample::{AS_OF, Sample, at, workdays};
use crate::plan::supply::Source;
use crate::record::OtherWayKind;

const TWO_SHIFTS: &str = r#"
    production_calendar = "two"
    [calendars.day]
    shifts = [{ days = ["mon", "tue", "wed", "thu", "fri"], from = "07:00", until = "15:00" }]
    [calendars.two]
    shifts = [{ days = ["mon", "tue", "wed", "thu", "fri"], from = "06:00", until = "22:00" }]
"#;

fn known(outcome: &KitOutcome) -> NaiveDateTime {
    match outcome.completion {
        Completion::Known { together, .. } => together.p50,
        Completion::Unknown { .. } => panic!("completion is unknown"),
    }
}

/// Two lines of 3 and 5 working days and 6 hours of work: case 1 of the calendar reference values.
fn reference_case() -> Sample {
    let mut sample = Sample::new(TWO_SHIFTS);
    sample.supplier("North", |_| {});
    sample.machine("M1", Some(100.0), None);
    let (a, b) = (sample.part("A"), sample.part("B"));
    sample.offer(a, "North", workdays(3.0), |_| {});
    sample.offer(b, "North", workdays(5.0), |_| {});
    sample.kit("K");
    sample.line(Some(a), 1.0, &[], |_| {});
    sample.line(Some(b), 2.0, &[], |_| {});
    sample.task("fit", 6.0, &[]);
    sample
}

#[test]
fn reproduces_the_reference_downtime() {
    // tests/tables/planning/oracle_calendar.json, downtime case 1 (numpy busday, minute walk): complete on 11 March
    // at 9:00, up at 15:00, 84.5 production hours lost.
    let plan = reference_case().plan();
    let outcome = &plan.kits[0].accepted;
    assert_eq!(known(outcome), at("2026-03-11T09:00"));
    let likely = &outcome.running_together.as_ref().unwrap().p50;
    assert_eq!(likely.up, at("2026-03-11T15:00"));
    assert!((likely.production_h - 84.5).abs() < 1e-9);
    assert_eq!(likely.cost.unwrap().to_string(), "8450.00 EUR");
    assert_eq!(outcome.purchase_cost.unwrap().to_string(), "30.00 EUR");
    let Completion::Known {
        last_line, ahead_h, ..
    } = outcome.completion
    else {
        panic!("known above");
    };
    assert_eq!(last_line, Some(1));
    assert!((ahead_h.unwrap() - 48.0).abs() < 1e-9);
    // Line A alone: there on Monday 9 March at 9:00, up at 15:00; 11.5 + 16 + 16 + 9 h of two shifts, by hand.
    assert!((outcome.lines[0].holds_down_h.unwrap() - 52.5).abs() < 1e-9);
}

#[test]
fn a_line_without_a_lead_time_leaves_the_kit_unknown_and_is_named() {
    let mut sample = reference_case();
    sample.shop.offers[1].record.lead_time = None;
    let outcome = &sample.plan().kits[0].accepted;
    assert_eq!(outcome.completion, Completion::Unknown { lines: vec![1] });
    assert_eq!(outcome.running, None);
    assert!(outcome.lines[0].holds_down_h.is_some());
}

#[test]
fn two_lines_never_take_the_same_piece() {
    let mut sample = Sample::new("");
    sample.supplier("North", |_| {});
    let a = sample.part("A");
    sample.stock(a, 3.0, |_| {});
    sample.offer(a, "North", workdays(2.0), |_| {});
    sample.kit("K");
    sample.line(Some(a), 2.0, &[], |_| {});
    sample.line(Some(a), 2.0, &[], |_| {});
    let plan = sample.plan();
    let lines = &plan.kits[0].accepted.lines;
    let taken: f64 = lines.iter().map(|line| line.from_stock).sum();
    let short: f64 = lines.iter().map(|line| line.short).sum();
    assert!((taken - 3.0).abs() < 1e-9 && (short - 1.0).abs() < 1e-9);
}

#[test]
fn a_substitute_is_taken_only_where_the_line_accepts_one() {
    for (no_substitutes, from_stock) in [(false, 1.0), (true, 0.0)] {
        let mut sample = Sample::new("");
        let (a, same) = (sample.part("A"), sample.part("S"));
        sample.stock(same, 1.0, |_| {});
        sample.kit("K");
        sample.line(Some(a), 1.0, &[same], |line| {
            line.no_substitutes = no_substitutes;
        });
        let plan = sample.plan();
        let line = &plan.kits[0].accepted.lines[0];
        assert!((line.from_stock - from_stock).abs() < 1e-9);
    }
}

#[test]
fn a_matched_set_is_never_made_of_singles_nor_of_unknown_units() {
    let set = UnitOfCount::MatchedSet { pieces: 2 };
    let mut sample = Sample::new("");
    let singles = sample.part("A");
    let unknown = sample.part_with("B", |part| part.unit_of_count = None);
    sample.stock(singles, 4.0, |_| {});
    sample.stock(unknown, 4.0, |row| row.unit_of_count = None);
    sample.kit("K");
    sample.line(Some(singles), 1.0, &[], |line| {
        line.unit_of_count = Some(set)
    });
    sample.line(Some(unknown), 1.0, &[], |line| {
        line.unit_of_count = Some(set)
    });
    let plan = sample.plan();
    for line in &plan.kits[0].accepted.lines {
        assert!(line.from_stock <= 0.0);
    }
    let count = |test: fn(&PlanIssue) -> bool| plan.issues.iter().filter(|i| test(i)).count();
    assert_eq!(count(|i| matches!(i, PlanIssue::UnitConflict { .. })), 1);
    assert_eq!(
        count(|i| matches!(i, PlanIssue::UnitUnknownForSet { .. })),
        1
    );
}

#[test]
fn a_pack_opens_for_a_line_in_pieces() {
    let mut sample = Sample::new("");
    let a = sample.part_with("A", |part| part.unit_of_count = None);
    sample.stock(a, 1.0, |row| {
        row.unit_of_count = Some(UnitOfCount::Pack { pieces: 10 })
    });
    sample.kit("K");
    sample.line(Some(a), 4.0, &[], |_| {});
    assert!((sample.plan().kits[0].accepted.lines[0].from_stock - 4.0).abs() < 1e-9);
}

#[test]
fn says_what_an_approval_would_gain_in_hours_and_money() {
    let mut sample = Sample::new(TWO_SHIFTS);
    sample.supplier("North", |_| {});
    sample.machine("M1", Some(100.0), None);
    let (a, near, other) = (sample.part("A"), sample.part("N"), sample.part("O"));
    sample.offer(a, "North", workdays(5.0), |_| {});
    sample.offer(near, "North", workdays(3.0), |_| {});
    sample.offer(other, "North", workdays(9.0), |_| {});
    sample.kit("K");
    sample.line(Some(a), 1.0, &[], |_| {});
    sample.open_substitute(other);
    sample.open_substitute(near);
    sample.task("fit", 6.0, &[]);
    let kit = &sample.plan().kits[0];
    // Two working days of two shifts, 06 to 22: 32 hours (counted by hand).
    assert_eq!(kit.approvals.len(), 1);
    let gain = &kit.approvals[0];
    assert_eq!((gain.line, gain.part), (0, near));
    assert!((gain.saved_h.unwrap() - 32.0).abs() < 1e-9);
    // In all: the mean of a late quote is above its median, by some tenth for a late case of 1.5 times the likely.
    let saved = gain.saved.unwrap().cents;
    assert!((320_000..384_000).contains(&saved), "{saved}");
    assert_eq!(
        known(kit.with_all_approvals.as_ref().unwrap()),
        at("2026-03-09T09:00")
    );
    assert_eq!(known(&kit.accepted), at("2026-03-11T09:00"));
}

#[test]
fn a_line_that_no_table_knows_is_made_in_house() {
    let mut sample = Sample::new("");
    sample.kit("K");
    sample.line(None, 1.0, &[], |_| {});
    assert_eq!(
        sample.plan().kits[0].accepted.completion,
        Completion::Unknown { lines: vec![0] }
    );
    let way = |kind, approved: Option<&str>, sample: &mut Sample| OtherWay {
        part: String::new(),
        kit: None,
        line: None,
        kind,
        hours: Some(6.0),
        cost: None,
        quantity: Some(1.0),
        from: None,
        approved_by: approved.map(str::to_owned),
        note: None,
        place: sample.place(),
    };
    let robbed = way(OtherWayKind::OtherMachine, None, &mut sample);
    sample.shop.kits[0].lines[0].other_ways = vec![robbed];
    assert!(matches!(
        sample.plan().kits[0].accepted.completion,
        Completion::Unknown { .. }
    ));
    let made = way(OtherWayKind::MakeInHouse, None, &mut sample);
    sample.shop.kits[0].lines[0].other_ways.push(made);
    let outcome = &sample.plan().kits[0].accepted;
    // 4.5 h left of Wednesday's shift (10:30 to 15:00), 1.5 h on Thursday from 7:00.
    assert_eq!(known(outcome), at("2026-03-05T08:30"));
    assert_eq!(outcome.purchase_cost, None);
    let supply = &outcome.lines[0].supplies[0];
    assert_eq!(supply.arrival.basis, LeadBasis::WorkEstimate);
    assert!(matches!(supply.source, Source::OtherWay { .. }));
}

#[test]
fn everything_on_the_shelf_is_complete_now() {
    let mut sample = Sample::new("");
    let a = sample.part("A");
    sample.stock(a, 1.0, |_| {});
    sample.kit("K");
    sample.line(Some(a), 1.0, &[], |_| {});
    let outcome = &sample.plan().kits[0].accepted;
    assert_eq!(known(outcome), at(AS_OF));
    assert!(matches!(
        outcome.completion,
        Completion::Known {
            last_line: None,
            ..
        }
    ));
}

fn random_shop(stock: [u32; 3], leads: [u32; 3]) -> Sample {
    let mut sample = Sample::new("");
    sample.supplier("North", |_| {});
    let parts = ["A", "B", "C"].map(|number| sample.part(number));
    for at in 0..3 {
        sample.stock(parts[at], f64::from(stock[at]), |_| {});
        sample.offer(parts[at], "North", workdays(f64::from(leads[at])), |_| {});
    }
    sample.kit("K");
    sample.line(Some(parts[0]), 2.0, &[parts[1]], |_| {});
    sample.line(Some(parts[1]), 2.0, &[parts[2]], |_| {});
    sample.line(Some(parts[1]), 1.0, &[], |_| {});
    sample
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn more_stock_never_delays_a_kit(stock in [0_u32..4, 0..4, 0..4], leads in [0_u32..30, 0..30, 0..30], more in 0_usize..3) {
        let before = known(&random_shop(stock, leads).plan().kits[0].accepted);
        let mut richer = stock;
        richer[more] += 1;
        let after = known(&random_shop(richer, leads).plan().kits[0].accepted);
        prop_assert!(after <= before);
    }

    #[test]
    fn a_faster_offer_never_delays_a_kit(stock in [0_u32..4, 0..4, 0..4], leads in [1_u32..30, 1..30, 1..30], which in 0_usize..3) {
        let before = known(&random_shop(stock, leads).plan().kits[0].accepted);
        let mut faster = leads;
        faster[which] /= 2;
        let after = known(&random_shop(stock, faster).plan().kits[0].accepted);
        prop_assert!(after <= before);
    }
}
