use crate::plan::sample::{Sample, workdays};
use crate::plan::{Completion, PlanIssue};
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
