//! Undo and redo: whatever was imported and taken back, every snapshot holds what it held, and the present one what was asked.

use proptest::prelude::*;
use sparewright::store::{MadeBy, PruneRules, StoreError};

use super::shops::{Bench, moment, said};

/// Files of one import: parts, stock and prices with figures that the draw gives.
fn files(min: u8, on_hand: u8, price: u8) -> [(&'static str, String); 3] {
    [
        (
            "parts.csv",
            format!("Own number,Designation,Min. stock\nB-1,6305-2RS,{min}\nB-2,6204-2Z,1\n"),
        ),
        (
            "stock.csv",
            format!("Part no,Bin,On hand\nB-1,A1,{on_hand}\nB-2,A2,3\n"),
        ),
        (
            "nordlager.csv",
            format!("Designation,Price EUR,Lead time\n6305-2RS,{price}.50,5 days\n"),
        ),
    ]
}

fn import(bench: &Bench, min: u8, on_hand: u8, price: u8) -> bool {
    let files = files(min, on_hand, price);
    let pairs: Vec<(&str, &str)> = files
        .iter()
        .map(|(name, text)| (*name, text.as_str()))
        .collect();
    bench.import(&pairs).is_new
}

/// What a snapshot says, without the numbers of imports.
fn said_in(bench: &Bench, number: u32) -> String {
    let imported = bench.workspace.load(Some(number)).unwrap();
    format!("{:#?}\n{:?}", imported.records, imported.settings)
}

#[test]
fn a_restored_state_is_the_state_and_a_redo_is_a_restore_of_the_later_one() {
    let bench = Bench::new();
    for (min, on_hand, price) in [(1, 5, 8), (2, 4, 9), (3, 3, 7)] {
        assert!(import(&bench, min, on_hand, price));
    }
    let (one, three) = (said_in(&bench, 1), said_in(&bench, 3));
    assert_ne!(one, three);
    let undone = bench.workspace.restore(1, moment(3, 10)).unwrap();
    assert_eq!(
        (undone.number, undone.made_by),
        (4, MadeBy::Restore { of: 1 })
    );
    assert_eq!(said(&bench.workspace), one);
    let redone = bench.workspace.restore(3, moment(3, 11)).unwrap();
    assert_eq!(
        (redone.number, redone.made_by),
        (5, MadeBy::Restore { of: 3 })
    );
    assert_eq!(said(&bench.workspace), three);
    // A restore can be restored, too.
    bench.workspace.restore(4, moment(3, 12)).unwrap();
    assert_eq!(said(&bench.workspace), one);
    assert_eq!(bench.workspace.compare(1, 6).unwrap(), []);
    assert_eq!(bench.workspace.compare(3, 5).unwrap(), []);
}

#[test]
fn restoring_counts_every_row_as_kept_and_none_as_new() {
    let bench = Bench::new();
    import(&bench, 1, 5, 8);
    import(&bench, 2, 4, 9);
    let manifest = bench.workspace.restore(1, moment(3, 10)).unwrap();
    for (table, counts) in &manifest.counts {
        assert_eq!((counts.added, counts.dropped), (0, 0), "{table}");
    }
    assert_eq!(manifest.counts["parts"].rows, 2);
    assert_eq!(manifest.counts["stock"].rows, 2);
    assert_eq!(manifest.kept_out, []);
    assert_eq!(manifest.made_at, moment(3, 10));
}

#[test]
fn restoring_the_present_state_changes_nothing_but_the_number() {
    let bench = Bench::new();
    import(&bench, 1, 5, 8);
    let before = said(&bench.workspace);
    let manifest = bench.workspace.restore(1, moment(3, 10)).unwrap();
    assert_eq!(manifest.number, 2);
    assert_eq!(said(&bench.workspace), before);
    // What was imported before is known after it, so that the same files say nothing new.
    assert!(!import(&bench, 1, 5, 8));
    assert_eq!(bench.workspace.number().unwrap(), 2);
}

#[test]
fn what_was_taken_back_may_come_again() {
    let bench = Bench::new();
    import(&bench, 1, 5, 8);
    import(&bench, 2, 4, 9);
    let two = said(&bench.workspace);
    bench.workspace.restore(1, moment(3, 10)).unwrap();
    assert!(
        import(&bench, 2, 4, 9),
        "after an undo the files are new again"
    );
    assert_eq!(said(&bench.workspace), two);
    assert_eq!(bench.workspace.number().unwrap(), 4);
}

#[test]
fn snapshots_that_are_not_there_are_named_and_nothing_happens() {
    let bench = Bench::new();
    for number in [0, 1, 7] {
        let error = bench.workspace.restore(number, moment(3, 10)).unwrap_err();
        assert_eq!(
            error.to_string(),
            format!(
                "there is no snapshot {number}; `sparewright history` lists those that are kept"
            )
        );
    }
    assert!(matches!(bench.workspace.load(None), Err(StoreError::Empty)));
    import(&bench, 1, 5, 8);
    import(&bench, 2, 4, 9);
    let rules = PruneRules {
        keep_last: 1,
        keep_monthly: false,
    };
    assert_eq!(bench.workspace.prune(rules).unwrap().snapshots, [1]);
    for (before, after) in [(1, 2), (2, 1), (2, 3), (0, 2)] {
        let error = bench.workspace.compare(before, after).unwrap_err();
        assert!(
            matches!(error, StoreError::NoSuchSnapshot { .. }),
            "{before} {after}: {error}"
        );
    }
    let error = bench.workspace.restore(1, moment(3, 10)).unwrap_err();
    assert!(matches!(error, StoreError::NoSuchSnapshot { number: 1 }));
    assert_eq!(
        bench.workspace.number().unwrap(),
        2,
        "a refused restore leaves the pointer"
    );
}

#[test]
fn a_restored_snapshot_needs_its_tables_and_a_prune_leaves_them() {
    let bench = Bench::new();
    import(&bench, 1, 5, 8);
    let one = said(&bench.workspace);
    import(&bench, 2, 4, 9);
    import(&bench, 3, 3, 7);
    bench.workspace.restore(1, moment(3, 10)).unwrap();
    let rules = PruneRules {
        keep_last: 1,
        keep_monthly: false,
    };
    // Snapshot 4 shares every table with snapshot 1, which goes.
    let pruned = bench.workspace.prune(rules).unwrap();
    assert_eq!(pruned.snapshots, [1, 2, 3]);
    assert_eq!(
        pruned.table_files, 6,
        "parts, stock and offers of the two that nobody needs"
    );
    assert_eq!(said(&bench.workspace), one);
}

/// One step of a person at work.
#[derive(Debug, Clone)]
enum Step {
    Import(u8, u8, u8),
    Restore(prop::sample::Index),
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        3 => (1_u8..4, 1_u8..4, 1_u8..4).prop_map(|(min, on_hand, price)| Step::Import(min, on_hand, price)),
        2 => any::<prop::sample::Index>().prop_map(Step::Restore),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(30))]

    /// A list of states kept in memory says of every snapshot what the workspace says of it.
    #[test]
    fn every_snapshot_holds_what_it_held(steps in prop::collection::vec(step(), 1..9)) {
        let bench = Bench::new();
        let mut states: Vec<String> = Vec::new();
        for step in steps {
            match step {
                Step::Import(min, on_hand, price) => {
                    let before = states.last().cloned();
                    let is_new = import(&bench, min, on_hand, price);
                    let now = said(&bench.workspace);
                    prop_assert_eq!(is_new, before.as_ref() != Some(&now));
                    if is_new {
                        states.push(now);
                    }
                }
                Step::Restore(which) if !states.is_empty() => {
                    let number = which.index(states.len());
                    bench.workspace.restore(number as u32 + 1, moment(3, 10)).unwrap();
                    states.push(states[number].clone());
                    prop_assert_eq!(said(&bench.workspace), states[number].clone());
                }
                Step::Restore(_) => {}
            }
            prop_assert_eq!(bench.workspace.number().unwrap() as usize, states.len());
        }
        for (at, state) in states.iter().enumerate() {
            prop_assert_eq!(&said_in(&bench, at as u32 + 1), state, "snapshot {}", at + 1);
        }
    }
}
