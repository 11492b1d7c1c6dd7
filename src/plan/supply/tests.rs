use crate::place::Place;
use crate::plan::sample::{Sample, day, workdays};
use crate::plan::{Completion, PlanIssue, Source, Supply};
use crate::units::UnitOfCount;

#[test]
fn a_set_offered_for_a_line_in_pieces_is_listed_with_both_rows() {
    let mut sample = Sample::new("");
    sample.supplier("North", |_| {});
    sample.machine("M1", None, None);
    let part = sample.part("B6");
    sample.offer(part, "North", workdays(2.0), |offer| {
        offer.unit_of_count = Some(UnitOfCount::MatchedSet { pieces: 2 });
    });
    sample.kit("K");
    sample.line(Some(part), 2.0, &[], |_| {});
    let plan = sample.plan();
    let offered = sample.shop.offers[0].record.place.clone();
    let found = match &plan.issues[..] {
        [
            PlanIssue::NoTasks { .. },
            PlanIssue::UnitConflict { place, .. },
        ] => place.clone(),
        other => panic!("{other:?}"),
    };
    assert_eq!(found, offered);
    assert_eq!(
        plan.kits[0].accepted.completion,
        Completion::Unknown { lines: vec![0] }
    );
}

#[test]
fn a_set_offered_in_pieces_is_listed_with_both_rows() {
    let mut sample = Sample::new("");
    sample.supplier("North", |_| {});
    sample.machine("M1", None, None);
    let part = sample.part("A");
    sample.offer(part, "North", workdays(2.0), |_| {});
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |line| {
        line.unit_of_count = Some(UnitOfCount::MatchedSet { pieces: 2 });
    });
    let plan = sample.plan();
    assert!(
        matches!(
            plan.issues[..],
            [PlanIssue::NoTasks { .. }, PlanIssue::UnitConflict { .. }]
        ),
        "{:?}",
        plan.issues
    );
    assert_eq!(
        plan.kits[0].accepted.completion,
        Completion::Unknown { lines: vec![0] }
    );
}

/// A ring that may lie a year: 30 cured on 1 June 2025, 10 on 1 February 2026, and a rebuild that takes 24.
fn rings_of_two_ages(planned: &[&str]) -> Sample {
    let mut sample = Sample::new("");
    sample.supplier("North", |_| {});
    sample.machine("M1", None, None);
    let part = sample.part_with("R", |part| part.shelf_life_months = Some(12.0));
    sample.offer(part, "North", workdays(2.0), |_| {});
    for (cured, on_hand) in [("2025-06-01", 30.0), ("2026-02-01", 10.0)] {
        sample.stock(part, on_hand, |row| row.cure_date = Some(day(cured)));
    }
    sample.kit("K");
    sample.line(Some(part), 24.0, &[], |_| {});
    for date in planned {
        sample.planned(date);
    }
    sample
}

#[test]
fn a_rebuild_takes_no_lot_that_ends_before_its_day() {
    // The old lot may be fitted until 1 June 2026, the young one until 1 February 2027.
    for (date, from_shelf, lots) in [
        ("2026-06-01", 24.0, vec![0]),
        ("2026-06-02", 10.0, vec![1]),
        ("2026-07-10", 10.0, vec![1]),
        ("2027-02-02", 0.0, vec![]),
    ] {
        let sample = rings_of_two_ages(&[date]);
        let need = &sample.plan().needs[0];
        let part = need.part.unwrap();
        let taken = need.drawn_from(part, UnitOfCount::Piece);
        assert!((taken - from_shelf).abs() < 1e-9, "{date}: {need:?}");
        assert!((need.short - (24.0 - from_shelf)).abs() < 1e-9, "{date}");
        let rows: Vec<_> = need.supplies.iter().flat_map(lots_of).collect();
        let row = |at: &usize| sample.shop.stock[*at].record.place.clone();
        assert_eq!(rows, lots.iter().map(row).collect::<Vec<_>>(), "{date}");
    }
}

#[test]
fn what_a_later_rebuild_cannot_take_of_an_old_lot_it_takes_of_a_young_one() {
    // 24 of the 30 in May; in July the 6 left of them have ended, and the 10 young ones are all there is.
    let plan = rings_of_two_ages(&["2026-05-20", "2026-07-10"]).plan();
    let shorts: Vec<f64> = plan.needs.iter().map(|need| need.short).collect();
    assert_eq!(plan.needs.len(), 2);
    assert!(
        shorts[0].abs() < 1e-9 && (shorts[1] - 14.0).abs() < 1e-9,
        "{shorts:?}"
    );
    // Both in May: 24 + 6 of the old lot, 10 of the young one, 8 missing.
    let plan = rings_of_two_ages(&["2026-05-20", "2026-05-25"]).plan();
    assert!(
        (plan.needs[1].short - 8.0).abs() < 1e-9,
        "{:?}",
        plan.needs[1]
    );
    assert_eq!(lots_of(&plan.needs[1].supplies[0]).len(), 2);
}

fn lots_of(supply: &Supply) -> Vec<Place> {
    match &supply.source {
        Source::Stock { lots, .. } => lots.clone(),
        other => panic!("{other:?}"),
    }
}
