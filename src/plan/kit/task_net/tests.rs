use chrono::NaiveDateTime;

use super::*;
use crate::plan::calendar::Calendars;
use crate::plan::kit::work_clock::WorkClock;
use crate::plan::sample::{Sample, at, workdays};
use crate::record::ShopSettings;

/// Moment of running again, as the plan works it out: the latest over the gates.
fn done(
    net: &TaskNet,
    calendars: &Calendars,
    start: NaiveDateTime,
    gates: &[(Option<&str>, NaiveDateTime)],
) -> NaiveDateTime {
    let clock = WorkClock::new(calendars, start);
    let base = clock.done(0, net.longest_s()).unwrap();
    let up = gates.iter().map(|(task, moment)| {
        clock
            .done(clock.seconds(*moment), net.tail_s(*task))
            .unwrap()
    });
    clock.moment(up.fold(base, i64::max))
}

fn net(sample: &Sample) -> (Option<TaskNet>, Vec<PlanIssue>) {
    let mut issues = Vec::new();
    let net = TaskNet::new(&sample.shop.kits[0], &mut issues);
    (net, issues)
}

#[test]
fn the_longest_chain_decides_and_parts_hold_back_their_own_task_only() {
    let mut sample = Sample::new("");
    sample.kit("K");
    sample.task("fit", 2.0, &["press", "Clean"]);
    sample.task("press", 3.0, &[]);
    sample.task("clean", 1.0, &[]);
    let (net, issues) = net(&sample);
    let net = net.unwrap();
    assert!(issues.is_empty());
    assert!((net.work_h() - 6.0).abs() < 1e-9);
    let calendars = Calendars::new(&ShopSettings::default());
    let done = |gates: &[(Option<&str>, NaiveDateTime)]| {
        done(&net, &calendars, at("2026-03-04T07:00"), gates)
    };
    // Worked by hand on the shift of 7 to 15: 3 h pressing, 2 h fitting.
    assert_eq!(done(&[]), at("2026-03-04T12:00"));
    // A part for `clean` at 9:00 leaves an hour of slack; one for `fit` at 14:00 runs into the next day.
    assert_eq!(
        done(&[(Some("clean"), at("2026-03-04T09:00"))]),
        at("2026-03-04T12:00")
    );
    assert_eq!(
        done(&[(Some("fit"), at("2026-03-04T14:00"))]),
        at("2026-03-05T08:00")
    );
    // A part without a task holds back both first tasks.
    assert_eq!(
        done(&[(None, at("2026-03-04T10:00"))]),
        at("2026-03-04T15:00")
    );
}

#[test]
fn a_task_that_waits_for_itself_is_an_issue_and_the_downtime_unknown() {
    let mut sample = Sample::new("");
    sample.supplier("North", |_| {});
    sample.machine("M1", None, None);
    let part = sample.part("A");
    sample.offer(part, "North", workdays(2.0), |_| {});
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |_| {});
    sample.task("a", 1.0, &["b"]);
    sample.task("b", 1.0, &["a"]);
    let plan = sample.plan();
    assert_eq!(plan.kits[0].accepted.running, None);
    assert!(matches!(plan.issues[..], [PlanIssue::TaskCycle { .. }]));
}

#[test]
fn names_of_tasks_and_machines_that_are_nowhere_are_issues() {
    let mut sample = Sample::new("");
    let part = sample.part("A");
    sample.stock(part, 1.0, |_| {});
    sample.kit("K");
    sample.line(Some(part), 1.0, &[], |line| {
        line.task = Some("polish".to_owned())
    });
    sample.task("fit", 1.0, &["strip"]);
    let plan = sample.plan();
    assert!(matches!(
        plan.issues[..],
        [
            PlanIssue::NoSuchTask { .. },
            PlanIssue::NoSuchTask { .. },
            PlanIssue::NoSuchMachine { .. }
        ]
    ));
    let likely = plan.kits[0].accepted.likely().unwrap();
    assert_eq!(likely.up, at("2026-03-04T11:30"));
    assert_eq!(likely.cost, None);
}

#[test]
fn the_critical_path_is_that_of_networkx() {
    // Made with networkx 3.6.1 (longest path of the task graph, hours on the clock): 40 h without parts, 48 h where
    // three tasks wait for parts. tests/tables/planning/oracle_kit.json.
    let table: serde_json::Value = serde_json::from_str(include_str!(
        "../../../../tests/tables/planning/oracle_kit.json"
    ))
    .unwrap();
    let mut sample = Sample::new(
        "[calendars.day]\nshifts = [{ days = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\", \"sat\", \"sun\"], \
         from = \"00:00\", until = \"00:00\" }]",
    );
    sample.kit("K");
    let start = at("2026-03-04T10:00");
    let mut gates = Vec::new();
    let tasks = table["cpm"]["tasks"].as_object().unwrap();
    assert_eq!(tasks.len(), 9);
    for (name, task) in tasks {
        let before: Vec<&str> = task[1]
            .as_array()
            .unwrap()
            .iter()
            .map(|name| name.as_str().unwrap())
            .collect();
        sample.task(name, task[0].as_f64().unwrap(), &before);
        if let Some(hours) = task[2].as_i64() {
            gates.push((Some(name.as_str()), start + chrono::Duration::hours(hours)));
        }
    }
    let net = net(&sample).0.unwrap();
    let calendars = Calendars::new(&sample.shop.settings);
    for (gates, key) in [
        (&gates[..], "length_h"),
        (&[][..], "length_without_parts_h"),
    ] {
        let done = done(&net, &calendars, start, gates);
        let hours = table["cpm"][key].as_i64().unwrap();
        assert_eq!(done, start + chrono::Duration::hours(hours), "{key}");
    }
}
