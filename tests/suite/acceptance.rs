//! What may be fitted on a kit line, and what only an approval would add.

use chrono::NaiveDate;
use proptest::prelude::*;
use sparewright::interchange::{
    AcceptedBecause, Envelopes, LineAcceptance, MOST_NEAR, Subject, Verdict, accept, groups, judge,
};
use sparewright::part::{Family, SizeKey};
use sparewright::record::{ApprovalOutcome, ApprovalRecord, PartRecord, Records};
use sparewright::units::{Length, UnitOfCount};

use super::sample::{approval, kit_line, offer, part, shop};

/// One kit with one line for a 6305-2RS, two offers of other closures and clearances.
fn records() -> Records {
    Records {
        parts: vec![part("B-1", "6305-2RS")],
        kit_lines: vec![kit_line("K", "10", Some("B-1"), 1.0)],
        offers: vec![
            offer("East", "6305-2RS C3", 8.0, None),
            offer("East", "6305", 4.0, None),
            offer("West", "6305-2RS P6", 9.0, None),
        ]
        .into(),
        ..Records::default()
    }
}

fn names(shop: &sparewright::catalogue::Shop, line: &LineAcceptance) -> [Vec<String>; 3] {
    let label = |id| shop.catalogue.part(id).number.clone();
    [
        line.accepted
            .iter()
            .map(|accepted| label(accepted.part))
            .collect(),
        line.open.iter().map(|open| label(open.part)).collect(),
        line.refused
            .iter()
            .map(|refused| label(refused.part))
            .collect(),
    ]
}

#[test]
fn only_what_goes_in_as_it_is_is_accepted_without_a_person() {
    let shop = shop(records());
    let lines = accept(&shop, &Envelopes::new(&shop.catalogue));
    let [accepted, open, refused] = names(&shop, &lines[0]);
    // ISO 492: P6 may replace Normal. C3 waits for checks, open for sealed is refused.
    assert_eq!(accepted, ["B-1", "6305-2RS P6"]);
    assert_eq!(open, ["6305-2RS C3"]);
    assert_eq!(refused, ["6305"]);
}

#[test]
fn an_approval_by_a_named_person_is_accepted_on_that_line_only() {
    let mut records = records();
    records
        .kit_lines
        .push(kit_line("K", "20", Some("B-1"), 1.0));
    records.approvals.push(approval(
        "K",
        "10",
        "6305-2RS C3",
        ApprovalOutcome::Approved,
    ));
    let shop = shop(records);
    let lines = accept(&shop, &Envelopes::new(&shop.catalogue));
    let is_approved = |line: &LineAcceptance| {
        line.accepted
            .iter()
            .any(|accepted| matches!(accepted.because, AcceptedBecause::ApprovedBy { .. }))
    };
    assert!(is_approved(&lines[0]));
    assert!(!is_approved(&lines[1]));
}

#[test]
fn no_substitutes_leaves_only_the_part_asked_for() {
    let mut records = records();
    records.kit_lines[0].no_substitutes = true;
    records.approvals.push(approval(
        "K",
        "10",
        "6305-2RS C3",
        ApprovalOutcome::Approved,
    ));
    let shop = shop(records);
    let lines = accept(&shop, &Envelopes::new(&shop.catalogue));
    let [accepted, open, _] = names(&shop, &lines[0]);
    assert_eq!(accepted, ["B-1"]);
    assert!(open.is_empty());
}

#[test]
fn what_was_tried_and_did_not_fit_is_refused_with_the_record() {
    let mut records = records();
    records.approvals.push(approval(
        "K",
        "10",
        "6305-2RS P6",
        ApprovalOutcome::DidNotFit,
    ));
    let shop = shop(records);
    let lines = accept(&shop, &Envelopes::new(&shop.catalogue));
    let [accepted, _, refused] = names(&shop, &lines[0]);
    assert_eq!(accepted, ["B-1"]);
    assert!(refused.contains(&"6305-2RS P6".to_owned()));
    let differs = &lines[0].refused[0].judgement.differs;
    assert!(
        differs
            .iter()
            .any(|difference| difference.effect.contains("M. Feld")),
        "{differs:?}"
    );
}

#[test]
fn a_matched_set_is_never_made_up_of_singles() {
    let mut set = part("SET-1", "7205B");
    set.unit_of_count = Some(UnitOfCount::MatchedSet { pieces: 2 });
    let mut line = kit_line("K", "10", Some("SET-1"), 1.0);
    line.unit_of_count = set.unit_of_count;
    let records = Records {
        parts: vec![set, part("ONE-1", "7205B")],
        kit_lines: vec![line],
        ..Records::default()
    };
    let shop = shop(records);
    let lines = accept(&shop, &Envelopes::new(&shop.catalogue));
    let [accepted, open, refused] = names(&shop, &lines[0]);
    assert_eq!((accepted, open), (vec!["SET-1".to_owned()], Vec::new()));
    assert_eq!(refused, ["ONE-1"]);
}

#[test]
fn a_group_never_joins_parts_through_a_chain() {
    // Normal and P6 go one way only (ISO 492), so they are no group; two numbers of one designation are.
    let records = Records {
        parts: vec![
            part("A", "6305-2RS"),
            part("B", "6305-2RS P6"),
            part("C", "6305 2RS"),
        ],
        ..Records::default()
    };
    let shop = shop(records);
    let of_two: Vec<Vec<String>> = groups(&shop.catalogue)
        .into_iter()
        .filter(|group| group.len() > 1)
        .map(|group| {
            group
                .iter()
                .map(|id| shop.catalogue.part(*id).number.clone())
                .collect()
        })
        .collect();
    assert_eq!(of_two, [["A", "C"]]);
}

/// A record of one trial or approval of the C3 bearing on the one line.
fn trial(outcome: ApprovalOutcome, date: Option<&str>, by: &str) -> ApprovalRecord {
    let mut record = approval("K", "10", "6305-2RS C3", outcome);
    record.date = date.map(|date| date.parse().unwrap());
    record.by = by.to_owned();
    record
}

/// Whether the C3 bearing is accepted, and whether it is refused.
fn stands(approvals: Vec<ApprovalRecord>) -> (bool, bool) {
    let shop = shop(Records {
        approvals,
        ..records()
    });
    let lines = accept(&shop, &Envelopes::new(&shop.catalogue));
    let [accepted, _, refused] = names(&shop, &lines[0]);
    let is_among = |names: &[String]| names.iter().any(|name| name == "6305-2RS C3");
    (is_among(&accepted), is_among(&refused))
}

#[test]
fn a_rejection_is_told_as_one_and_a_trial_as_a_trial() {
    for (outcome, said) in [
        (ApprovalOutcome::DidNotFit, "tried by Edda on 2026-01-05"),
        (ApprovalOutcome::Rejected, "rejected by Edda on 2026-01-05"),
    ] {
        let shop = shop(Records {
            approvals: vec![trial(outcome, Some("2026-01-05"), "Edda")],
            ..records()
        });
        let lines = accept(&shop, &Envelopes::new(&shop.catalogue));
        let judged = format!("{:?}", lines[0].refused);
        assert!(judged.contains(said), "{judged}");
    }
}

#[test]
fn of_a_yes_and_a_no_the_later_counts_and_without_dates_the_no() {
    use ApprovalOutcome::{Approved, DidNotFit, Rejected};
    for (records, is_accepted, is_refused) in [
        (
            vec![
                trial(Approved, Some("2026-01-05"), "Edda"),
                trial(Rejected, Some("2026-02-05"), "Jonte"),
            ],
            false,
            true,
        ),
        (
            vec![
                trial(Rejected, Some("2026-01-05"), "Edda"),
                trial(Approved, Some("2026-02-05"), "Jonte"),
            ],
            true,
            false,
        ),
        (
            vec![trial(Approved, Some("2026-01-05"), "Edda")],
            true,
            false,
        ),
        (vec![trial(Approved, None, "Edda")], true, false),
        (vec![trial(Approved, Some("2026-01-05"), " ")], false, false),
        (
            vec![trial(DidNotFit, Some("2026-01-05"), "Edda")],
            false,
            true,
        ),
        (
            vec![
                trial(Approved, Some("2026-01-05"), "Edda"),
                trial(DidNotFit, Some("2026-02-05"), "Jonte"),
            ],
            false,
            true,
        ),
        (
            vec![
                trial(Approved, Some("2026-02-05"), "Edda"),
                trial(DidNotFit, Some("2026-01-05"), "Jonte"),
            ],
            true,
            false,
        ),
        (
            vec![
                trial(Approved, Some("2026-01-05"), "Edda"),
                trial(DidNotFit, Some("2026-01-05"), "Jonte"),
            ],
            false,
            true,
        ),
        (
            vec![
                trial(Approved, None, "Edda"),
                trial(DidNotFit, Some("2020-01-05"), "Jonte"),
            ],
            false,
            true,
        ),
        (
            vec![
                trial(Approved, Some("2026-01-05"), "Edda"),
                trial(DidNotFit, None, "Jonte"),
            ],
            false,
            true,
        ),
        // A later yes without a name is no yes.
        (
            vec![
                trial(Approved, Some("2026-02-05"), ""),
                trial(DidNotFit, Some("2026-01-05"), "Jonte"),
            ],
            false,
            true,
        ),
    ] {
        let mut turned = records.clone();
        turned.reverse();
        assert_eq!(
            stands(records.clone()),
            (is_accepted, is_refused),
            "{records:?}"
        );
        assert_eq!(
            stands(turned),
            (is_accepted, is_refused),
            "{records:?}, the other way round"
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// A part is never accepted and refused at once, and the order of the records says nothing.
    #[test]
    fn the_order_of_approvals_says_nothing(
        drawn in prop::collection::vec((any::<bool>(), prop::option::of(1_u32..28), any::<bool>()), 1..6),
        turn in any::<prop::sample::Index>(),
    ) {
        let records: Vec<ApprovalRecord> = drawn
            .iter()
            .map(|(is_yes, day, is_named)| {
                let outcome = if *is_yes { ApprovalOutcome::Approved } else { ApprovalOutcome::DidNotFit };
                let mut record = trial(outcome, None, if *is_named { "Edda" } else { "" });
                record.date = day.and_then(|day| NaiveDate::from_ymd_opt(2026, 1, day));
                record
            })
            .collect();
        let mut turned = records.clone();
        turned.rotate_left(turn.index(records.len()));
        let (is_accepted, is_refused) = stands(records);
        prop_assert!(!(is_accepted && is_refused));
        prop_assert_eq!((is_accepted, is_refused), stands(turned));
    }
}

fn sized(number: &str, family: Family, values_mm: &[f64]) -> PartRecord {
    let lengths: Vec<Length> = values_mm
        .iter()
        .map(|mm| Length::from_mm(*mm).unwrap())
        .collect();
    let mut record = part(number, number);
    record.facts.designation = None;
    record.facts.family = Some(family);
    record.facts.size = Some(SizeKey::new(family, &lengths).unwrap());
    record
}

/// A line for a seal 40 x 62 x 8, with other widths, and sizes that differ by so much in shaft and bore.
fn seals(apart_mm: &[f64]) -> Records {
    let seal = |number: &str, size: &[f64]| sized(number, Family::LipSeal, size);
    let mut records = Records {
        parts: vec![
            seal("S-ASKED", &[40.0, 62.0, 8.0]),
            seal("S-WIDE", &[40.0, 62.0, 10.0]),
        ],
        kit_lines: vec![kit_line("K", "10", Some("S-ASKED"), 1.0)],
        ..Records::default()
    };
    for (at, apart) in apart_mm.iter().enumerate() {
        let size = [40.0, 62.0 + apart, 8.0];
        records.parts.push(seal(&format!("S-{at:02}"), &size));
    }
    records
}

#[test]
fn of_other_sizes_the_nearest_are_listed_and_the_rest_counted() {
    let shop = shop(seals(&[0.9, 0.3, 0.6, 1.0, 0.5]));
    let line = &accept(&shop, &Envelopes::new(&shop.catalogue))[0];
    let [accepted, open, refused] = names(&shop, line);
    assert_eq!(accepted, ["S-ASKED"]);
    // Another width is no other size: it waits for its checks however many sizes lie near.
    assert_eq!(open, ["S-WIDE"]);
    // 0.3, 0.5 and 0.6 mm apart, in the order of the catalogue.
    assert_eq!(refused, ["S-01", "S-02", "S-04"]);
    assert_eq!(refused.len(), MOST_NEAR);
    assert_eq!(line.near_left_out, 2);
    assert!(
        line.refused
            .iter()
            .all(|of| of.judgement.verdict == Verdict::Near)
    );
}

#[test]
fn few_other_sizes_are_all_listed_and_none_counted() {
    for apart in [&[][..], &[0.4], &[0.4, 0.8, 0.2]] {
        let shop = shop(seals(apart));
        let line = &accept(&shop, &Envelopes::new(&shop.catalogue))[0];
        assert_eq!(line.refused.len(), apart.len());
        assert_eq!(line.near_left_out, 0);
    }
}

#[test]
fn a_size_that_is_passed_over_would_be_judged_as_another_size() {
    // What is left out unjudged must never be a part that might be fitted: judged by all rules, each is near and not it.
    let of = |family, values: &[f64]| {
        let mut subject = Subject::of_part(&shop_part(family, values));
        subject.traits = sparewright::part::Traits::default();
        subject
    };
    for (family, want, others) in [
        (
            Family::LipSeal,
            &[40.0, 62.0, 8.0][..],
            &[[40.0, 62.5, 8.0], [40.5, 62.0, 8.0]][..],
        ),
        (
            Family::DeepGrooveBall,
            &[25.0, 62.0, 17.0],
            &[[25.4, 62.0, 17.0], [25.0, 61.5, 17.0], [25.4, 61.5, 16.0]],
        ),
        (
            Family::TaperedRoller,
            &[30.0, 62.0, 17.25],
            &[[30.5, 62.0, 17.25], [30.0, 61.0, 17.25], [29.5, 61.5, 16.0]],
        ),
    ] {
        for other in others {
            let verdict = judge(&of(family, want), &of(family, other)).verdict;
            assert_eq!(verdict, Verdict::Near, "{family:?} {other:?}");
        }
    }
}

fn shop_part(family: Family, values: &[f64]) -> sparewright::catalogue::CataloguePart {
    let records = Records {
        parts: vec![sized("P", family, values)],
        ..Records::default()
    };
    shop(records).catalogue.parts()[0].clone()
}

#[test]
fn an_approved_part_of_another_size_is_no_longer_among_those_left_out_of_the_plan() {
    let mut records = seals(&[0.1, 0.2, 0.3, 0.9]);
    records
        .approvals
        .push(approval("K", "10", "S-03", ApprovalOutcome::Approved));
    let shop = shop(records);
    let line = &accept(&shop, &Envelopes::new(&shop.catalogue))[0];
    let [accepted, _, refused] = names(&shop, line);
    assert_eq!(accepted, ["S-ASKED", "S-03"]);
    assert_eq!(refused, ["S-00", "S-01", "S-02"]);
    assert_eq!(line.near_left_out, 0);
}
