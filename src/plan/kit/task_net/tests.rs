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
    sample.task("fit", 1.0, &[]);
    let plan = sample.plan();
    assert!(matches!(
        plan.issues[..],
        [
            PlanIssue::NoSuchTask { .. },
            PlanIssue::NoSuchMachine { .. }
        ]
    ));
    let likely = plan.kits[0].accepted.likely().unwrap();
    assert_eq!(likely.up, at("2026-03-04T11:30"));
    assert_eq!(likely.cost, None);
}

/// By reason: the hours of `Fit` and of what it waits for are nowhere, so that no end follows from the others.
#[test]
fn a_chain_with_a_task_that_has_no_row_has_no_known_end() {
    for missing in ["Fit", "Main + Side"] {
        let mut sample = Sample::new("");
        sample.supplier("North", |_| {});
        sample.machine("M1", Some(100.0), None);
        let part = sample.part("A");
        sample.offer(part, "North", workdays(5.0), |_| {});
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |line| {
            line.task = Some("Close".to_owned())
        });
        sample.task("Strip", 3.0, &[]);
        sample.task("Close", 2.0, &[missing]);
        let plan = sample.plan();
        let outcome = &plan.kits[0].accepted;
        assert!(matches!(
            plan.issues[..],
            [PlanIssue::NoSuchPredecessor { .. }]
        ));
        assert!(outcome.running.is_none() && outcome.proof.is_none());
        // The part itself has its day.
        assert!(outcome.lines[0].arrival.is_some());
        assert!(!has_whole_work(&sample.shop.kits[0]));
        sample.task(missing, 4.0, &["Strip"]);
        assert!(has_whole_work(&sample.shop.kits[0]));
        assert!(sample.plan().kits[0].accepted.running.is_some());
    }
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

/// Quantiles of a law at the middles of equal shares, to draw from.
fn quantiles(law: &impl statrs::distribution::ContinuousCDF<f64, f64>) -> Vec<f64> {
    const SHARES: usize = 4000;
    (0..SHARES)
        .map(|at| law.inverse_cdf((at as f64 + 0.5) / SHARES as f64))
        .collect()
}

/// The same tasks in other hours.
fn set_hours(net: &mut TaskNet, hours: Vec<f64>) {
    net.tails = tails(&net.order, &hours, &net.predecessors);
    net.hours = hours;
}

#[test]
fn a_network_of_uncertain_tasks_and_arrivals_runs_as_sampled_with_numpy() {
    // Made with numpy and scipy, 400,000 draws: three-point durations (beta, mean (a + 4 m + b) / 6), gamma and lognormal
    // arrivals; mean 54.469 with a standard error of 0.017, P50 52.35, P90 68.72 with about 0.05.
    // tests/tables/planning/oracle_kit.json, `pert_network`; the tasks are those of `cpm`.
    use statrs::distribution::{Beta, Gamma, LogNormal};
    const DRAWS: usize = 60_000;
    let table: serde_json::Value = serde_json::from_str(include_str!(
        "../../../../tests/tables/planning/oracle_kit.json"
    ))
    .unwrap();
    let pert = &table["pert_network"];
    let number = |value: &serde_json::Value| value.as_f64().unwrap();
    let mut sample = Sample::new("");
    sample.kit("K");
    let mut durations = Vec::new();
    for (name, task) in table["cpm"]["tasks"].as_object().unwrap() {
        let before = task[1].as_array().unwrap().iter();
        let before: Vec<&str> = before.map(|name| name.as_str().unwrap()).collect();
        sample.task(name, 1.0, &before);
        let [a, m, b] = [0, 1, 2].map(|at| number(&pert["durations"][name][at]));
        let beta = Beta::new(1.0 + 4.0 * (m - a) / (b - a), 1.0 + 4.0 * (b - m) / (b - a));
        let spread = quantiles(&beta.unwrap());
        let hours: Vec<f64> = spread.into_iter().map(|of| a + (b - a) * of).collect();
        durations.push(hours);
    }
    let arrivals: Vec<(&String, Vec<f64>)> = pert["arrivals"]
        .as_object()
        .unwrap()
        .iter()
        .map(|(task, law)| {
            let (mean, cv) = (number(&law[1]), number(&law[2]));
            let hours = if law[0] == "gamma" {
                quantiles(&Gamma::new(1.0 / (cv * cv), 1.0 / (mean * cv * cv)).unwrap())
            } else {
                let spread = (1.0 + cv * cv).ln();
                quantiles(&LogNormal::new(mean.ln() - spread / 2.0, spread.sqrt()).unwrap())
            };
            (task, hours)
        })
        .collect();
    let mut net = net(&sample).0.unwrap();
    let up_h = |net: &TaskNet, arrivals: &[(&String, f64)]| {
        let gates = arrivals
            .iter()
            .map(|(task, hours)| (hours * 3600.0).round() as i64 + net.tail_s(Some(task.as_str())));
        gates.fold(net.longest_s(), i64::max) as f64 / 3600.0
    };
    // On the means alone, the critical path of networkx.
    let mean_hours = durations
        .iter()
        .map(|of| of.iter().sum::<f64>() / of.len() as f64);
    set_hours(&mut net, mean_hours.collect());
    let means: Vec<(&String, f64)> = arrivals
        .iter()
        .map(|(task, _)| (*task, number(&pert["arrivals"][task.as_str()][1])))
        .collect();
    assert!((up_h(&net, &means) - number(&pert["cpm_on_means"])).abs() < 0.01);
    let mut draws = crate::plan::split_mix::SplitMix(77);
    let mut draw = |of: &[f64]| of[(draws.next() % of.len() as u64) as usize];
    let mut found: Vec<f64> = (0..DRAWS)
        .map(|_| {
            set_hours(&mut net, durations.iter().map(|of| draw(of)).collect());
            let here: Vec<(&String, f64)> = arrivals
                .iter()
                .map(|(task, of)| (*task, draw(of)))
                .collect();
            up_h(&net, &here)
        })
        .collect();
    found.sort_by(f64::total_cmp);
    let mean = found.iter().sum::<f64>() / DRAWS as f64;
    let share = |share: f64| found[(share * DRAWS as f64) as usize];
    // Four standard errors of both samples together.
    let more = (1.0 + 400_000.0 / DRAWS as f64).sqrt();
    assert!(
        (mean - number(&pert["mean"])).abs() < 4.0 * more * number(&pert["se"]),
        "{mean}"
    );
    let se_p90 = number(&pert["se_P90_approx"]);
    assert!((share(0.9) - number(&pert["P90"])).abs() < 4.0 * more * se_p90);
    assert!((share(0.5) - number(&pert["P50"])).abs() < 4.0 * more * se_p90);
}
