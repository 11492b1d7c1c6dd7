//! From a history by period to a level: ours beside the numpy baseline, on the same items, one thread each.
//!
//! `planning/time_history.py` times the baseline and leaves its inputs; python3 with numpy and scipy is looked for in
//! `SPAREWRIGHT_PYTHON`, then as `python3`.

use std::path::Path;
use std::process::Command;
use std::time::Instant;

use sparewright::plan::{
    Counted, DemandRate, EventRate, GroupPrior, GroupSizes, LogSizes, RateBasis, SizeMoments,
};

/// Name on the command line.
pub const NAME: &str = "history";

const ITEMS: usize = 100_000;
const PERIODS: usize = 60;
const PERIOD_DAYS: f64 = 30.4375;
const RUNS: usize = 7;

/// Times both and prints their ratio.
pub fn run() {
    println!("{NAME}: {ITEMS} items of {PERIODS} periods to shrinkage to level");
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let Some((baseline_s, expected)) = baseline(folder.path()) else {
        println!("  skipped: python3 with numpy and scipy was not found (set SPAREWRIGHT_PYTHON)");
        return;
    };
    let read = |name: &str| std::fs::read(folder.path().join(name)).expect("the baseline left it");
    let demand: Vec<i32> = read("demand.i32")
        .chunks_exact(4)
        .map(|bytes| i32::from_le_bytes([bytes[0], bytes[1], bytes[2], bytes[3]]))
        .collect();
    let floats = |name: &str| -> Vec<f64> {
        read(name)
            .chunks_exact(8)
            .map(|bytes| f64::from_le_bytes(std::array::from_fn(|at| bytes[at])))
            .collect()
    };
    let (lead, target) = (floats("lead.f64"), floats("target.f64"));
    for (what, work) in [
        (
            "as the baseline reckons",
            as_baseline as fn(&[i32], &[f64], &[f64]) -> u64,
        ),
        ("by our default", by_default),
    ] {
        let mut best = f64::INFINITY;
        let mut sum = 0;
        for _ in 0..RUNS {
            let start = Instant::now();
            sum = work(&demand, &lead, &target);
            best = best.min(start.elapsed().as_secs_f64());
        }
        println!(
            "  {what:24} {best:8.4} s, sum of levels {sum}; baseline {baseline_s:.4} s, sum {expected}; {:.1} times as fast (aim 5)",
            baseline_s / best
        );
        if what.starts_with("as") {
            assert_eq!(sum, expected, "the same method must give the same levels");
        }
    }
}

/// Seconds and sum of levels of the baseline; `None` where it cannot run.
fn baseline(folder: &Path) -> Option<(f64, u64)> {
    let python = std::env::var("SPAREWRIGHT_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let scripts = Path::new(env!("CARGO_MANIFEST_DIR")).join("planning");
    let output = Command::new(python)
        .env("PYTHONDONTWRITEBYTECODE", "1")
        .current_dir(scripts)
        .args(["time_history.py", &ITEMS.to_string()])
        .arg(folder)
        .output()
        .ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    let mut words = text.split_whitespace();
    Some((words.next()?.parse().ok()?, words.next()?.parse().ok()?))
}

/// Usages by number of periods with demand.
fn counted_by_periods() -> Vec<Counted> {
    (0..=PERIODS)
        .map(|with_demand| Counted::of_periods(with_demand as f64, PERIODS as f64))
        .collect()
}

/// Level: one above the smallest r with P(demand <= r) at or above the target.
fn level(rate: &DemandRate, periods: f64, target: f64) -> u64 {
    let mut moments = rate.over(periods);
    moments.variance_pieces2 = moments.variance_pieces2.max(moments.mean_pieces * 1.001);
    moments.reorder_point(target).map_or(0, |point| point + 1)
}

/// The baseline's own method: mean size of the part, squared variation drawn to the group with the weight of two usages.
fn as_baseline(demand: &[i32], lead: &[f64], target: &[f64]) -> u64 {
    let by_periods = counted_by_periods();
    // Periods with demand, quantity and its squares.
    let sums: Vec<(u32, f64, f64)> = demand
        .chunks_exact(PERIODS)
        .map(|row| {
            let (mut used, mut total, mut squares) = (0, 0, 0);
            for quantity in row {
                used += u32::from(*quantity > 0);
                total += quantity;
                squares += quantity * quantity;
            }
            (used, f64::from(total), f64::from(squares))
        })
        .collect();
    let variation = |&(used, total, squares): &(u32, f64, f64)| {
        if used < 2 {
            return 0.0;
        }
        let mean = total / f64::from(used);
        (squares / (mean * mean) - f64::from(used)).max(0.0) / f64::from(used - 1)
    };
    let many = || sums.iter().filter(|sums| sums.0 > 2);
    let of_group = many().map(variation).sum::<f64>() / many().count() as f64;
    let events: f64 = sums
        .iter()
        .map(|sums| by_periods[sums.0 as usize].events)
        .sum();
    let rounded: Vec<Counted> = sums
        .iter()
        .map(|sums| Counted {
            events: by_periods[sums.0 as usize].events.round(),
            exposure_days: PERIODS as f64,
        })
        .collect();
    let prior = GroupPrior::fit_with_mean(&rounded, events / (sums.len() * PERIODS) as f64);
    sums.iter()
        .zip(lead.iter().zip(target))
        .map(|(sums, (lead, target))| {
            let own = by_periods[sums.0 as usize];
            let freedom = f64::from(sums.0.max(1) - 1);
            let rate = DemandRate {
                events: prior.posterior(own),
                size: SizeMoments {
                    mean_pieces: if sums.0 > 0 {
                        sums.1 / own.events.max(1e-9)
                    } else {
                        1.0
                    },
                    squared_cv: (freedom * variation(sums) + 2.0 * of_group) / (freedom + 2.0),
                },
                basis: RateBasis::Plain,
            };
            level(&rate, lead / PERIOD_DAYS, *target)
        })
        .sum()
}

/// Our default: logarithms of the sizes drawn to the group.
fn by_default(demand: &[i32], lead: &[f64], target: &[f64]) -> u64 {
    let by_periods = counted_by_periods();
    let most = demand.iter().copied().max().unwrap_or(0);
    // A period without demand adds nothing, so that no branch is needed.
    let logs: Vec<f64> = (0..=most)
        .map(|quantity| f64::from(quantity.max(1)).ln())
        .collect();
    let histories: Vec<LogSizes> = demand
        .chunks_exact(PERIODS)
        .map(|row| {
            let mut events = 0;
            let mut sizes = LogSizes::default();
            for quantity in row {
                events += u32::from(*quantity > 0);
                let log = logs[*quantity as usize];
                sizes.sum += log;
                sizes.squares += log * log;
            }
            sizes.events = f64::from(events);
            sizes
        })
        .collect();
    let counted: Vec<Counted> = histories
        .iter()
        .map(|sizes| by_periods[sizes.events as usize])
        .collect();
    let (Some(prior), Some(group)) = (GroupPrior::fit(&counted), GroupSizes::fit(histories.iter()))
    else {
        return 0;
    };
    histories
        .iter()
        .zip(&counted)
        .zip(lead.iter().zip(target))
        .map(|((sizes, own), (lead, target))| {
            let events: EventRate = prior.posterior(*own);
            let mut size = group.shrink(sizes);
            if own.events > 0.0 {
                size.mean_pieces = (size.mean_pieces * sizes.events / own.events).max(1.0);
            }
            let rate = DemandRate {
                events,
                size,
                basis: RateBasis::Plain,
            };
            level(&rate, lead / PERIOD_DAYS, *target)
        })
        .sum()
}
