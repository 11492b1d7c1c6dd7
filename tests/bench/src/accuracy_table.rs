//! `accuracy`: the table of DEVELOPERS.md, and how well stated probabilities match.
//!
//! `-- accuracy [DRAWS] [BEST_DRAWS] [workshop|other]`; 100,000 draws and 20,000 for the best possible where nothing is said.

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use sparewright::part::Family;

use crate::accuracy::{Bin, Case, OTHER, Outcome, Tally, WORKSHOP, cases, run};

/// Seed of the figures of DEVELOPERS.md.
const SEED: u64 = 20_261_126;

pub fn print(arguments: &[String]) {
    let number = |at: usize, default: usize| {
        arguments
            .get(at)
            .and_then(|text| text.parse().ok())
            .unwrap_or(default)
    };
    let (draws, best) = (number(0, 100_000), number(1, 20_000));
    let world = match arguments.get(2).map(String::as_str) {
        Some("other") => &OTHER,
        _ => &WORKSHOP,
    };
    let tasks: Vec<(Family, Case)> = Family::ALL
        .into_iter()
        .flat_map(|family| cases(family).into_iter().map(move |case| (family, case)))
        .collect();
    let next = AtomicUsize::new(0);
    let done: Mutex<Vec<(usize, Outcome)>> = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(|| {
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    let Some(task) = tasks.get(at) else { break };
                    let outcome = run(*task, world, (draws, best), SEED + at as u64);
                    eprintln!("{} {}", task.0.code(), task.1.words());
                    done.lock()
                        .expect("no thread panics with the lock")
                        .push((at, outcome));
                }
            });
        }
    });
    let mut outcomes = done.into_inner().expect("no thread panics with the lock");
    outcomes.sort_by_key(|(at, _)| *at);
    println!(
        "{draws} draws a family and case (half a number: a fifth), {best} for the best possible; seed {SEED}; {}\n",
        world.name
    );
    println!(
        "| Family | Figures | First | First three | Special stated with 90 % | Best possible | Right of stated 85 to 95 % |"
    );
    println!("|---|---|---|---|---|---|---|");
    for (at, outcome) in &outcomes {
        row(tasks[*at], outcome);
    }
    calibration(&tasks, &outcomes);
}

fn row((family, case): (Family, Case), outcome: &Outcome) {
    let of = &outcome.matcher;
    let percent = |share: f64| format!("{:.2} %", 100.0 * share);
    let best = outcome.best.as_ref();
    let best = best.map_or_else(
        || "–".to_owned(),
        |best| percent(best.sure_of_outside_share()),
    );
    let name = family.code().replace('_', " ");
    println!(
        "| {name} | {} | {} | {} | {} | {best} | {} |",
        case.words(),
        percent(of.first_share()),
        percent(of.first_three_share()),
        percent(of.sure_of_outside_share()),
        bin(&of.ninety),
    );
}

/// Too few answers tell nothing.
fn bin(bin: &Bin) -> String {
    if bin.count < 100 {
        format!("{} answers", bin.count)
    } else {
        format!(
            "{:.1} % of {} (stated {:.1} %)",
            100.0 * bin.right_share(),
            bin.count,
            100.0 * bin.mean_stated()
        )
    }
}

/// All families together, case by case.
fn calibration(tasks: &[(Family, Case)], outcomes: &[(usize, Outcome)]) {
    println!("\n| Stated | All figures | Two | One | Half a number |\n|---|---|---|---|---|");
    let pooled = [Case::All, Case::Two, Case::One, Case::HalfNumber].map(|case| {
        let mut sum = Tally::default();
        let of_case = outcomes.iter().filter(|(at, _)| tasks[*at].1 == case);
        of_case.for_each(|(_, outcome)| sum.join(&outcome.matcher));
        sum
    });
    for at in 0..pooled[0].stated.len() {
        let (low, high) = if at == 20 {
            (99, 100)
        } else {
            (5 * at, (5 * at + 5).min(99))
        };
        let cells = pooled.each_ref().map(|tally| bin(&tally.stated[at]));
        println!("| {low} to {high} % | {} |", cells.join(" | "));
    }
    let ninety = pooled.each_ref().map(|tally| bin(&tally.ninety));
    println!("| 85 to 95 % | {} |", ninety.join(" | "));
    let error = pooled
        .each_ref()
        .map(|tally| format!("{:.3}", tally.calibration_error()));
    println!("| mean difference | {} |", error.join(" | "));
}
