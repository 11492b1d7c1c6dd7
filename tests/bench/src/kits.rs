//! Exact completion of 1,000 kits against the same in numpy, and the time to prove a purchase plan of 60 lines.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Instant;

use sparewright::plan::{
    Choice, Freight, GammaWait, MOST_NODES, Problem, best_in_total, quantile_of_last,
};

/// Name on the command line.
pub const NAME: &str = "kits";

/// Runs of ours; the fastest counts.
const RUNS: usize = 5;

/// Prints both.
pub fn run() {
    completion();
    purchase();
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("planning")
}

fn completion() {
    println!(
        "kits: P50 and P90 of 1,000 kits of 2 to 12 gamma lines, product of shares, one thread"
    );
    let text = std::fs::read_to_string(folder().join("kits_1000.csv")).expect("the kits are here");
    let mut kits: Vec<Vec<GammaWait>> = Vec::new();
    for row in text.lines().skip(1) {
        let numbers: Vec<f64> = row
            .split(',')
            .map(|cell| cell.parse().expect("a number"))
            .collect();
        let kit = numbers[0] as usize;
        kits.resize_with(kits.len().max(kit + 1), Vec::new);
        kits[kit].push(GammaWait::new(numbers[1], numbers[2]).expect("above 0"));
    }
    let mut best = f64::INFINITY;
    let mut sums = [0.0, 0.0];
    for _ in 0..RUNS {
        let start = Instant::now();
        sums = [0.5, 0.9].map(|share: f64| {
            let quantile = |lines: &Vec<GammaWait>| {
                let each = share.powf(1.0 / lines.len() as f64);
                let about = lines
                    .iter()
                    .map(|line| line.about(share))
                    .fold(0.0, f64::max);
                let most = lines
                    .iter()
                    .map(|line| line.about(each))
                    .fold(0.0, f64::max);
                quantile_of_last(lines, share, f64::midpoint(about, most)).expect("gamma waits end")
            };
            kits.iter().map(quantile).sum()
        });
        best = best.min(start.elapsed().as_secs_f64());
    }
    println!(
        "  ours      {best:8.4} s  sums of P50 {:.6}, P90 {:.6}",
        sums[0], sums[1]
    );
    let python = std::env::var("SPAREWRIGHT_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let output = Command::new(python)
        .arg("time_kits.py")
        .current_dir(folder())
        .output();
    let numbers: Option<Vec<f64>> =
        output
            .ok()
            .filter(|output| output.status.success())
            .map(|output| {
                let text = String::from_utf8_lossy(&output.stdout).into_owned();
                text.split_whitespace()
                    .filter_map(|word| word.parse().ok())
                    .collect()
            });
    match numbers.as_deref() {
        Some([seconds, p50, p90]) => {
            println!("  numpy     {seconds:8.4} s  sums of P50 {p50:.6}, P90 {p90:.6}");
            println!("  ratio     {:8.1}    aim 20", seconds / best);
            assert!((sums[0] - p50).abs() < 1e-6 * p50 && (sums[1] - p90).abs() < 1e-6 * p90);
        }
        _ => println!(
            "  skipped: python3 with numpy and scipy is not here (SPAREWRIGHT_PYTHON names another)"
        ),
    }
}

fn purchase() {
    println!("kits: purchase plan of 60 lines with 12 offers each, fixed lead times, proved best");
    for (seed, suppliers, freight, hour) in [
        (1, 12, 4_500, 900),
        (2, 20, 4_500, 900),
        (3, 30, 4_500, 900),
        (4, 30, 20_000, 900),
        (5, 20, 20_000, 20_000),
        (6, 12, 20_000, 20_000),
    ] {
        let problem = random(seed, suppliers, freight, hour);
        let start = Instant::now();
        let best = best_in_total(&problem, MOST_NODES).expect("every line has offers");
        println!(
            "  {suppliers} suppliers, freight to {freight} ct, {hour} ct a step: {:7.3} s, {}, level {} of {}",
            start.elapsed().as_secs_f64(),
            if best.is_proved() {
                "proved".to_owned()
            } else {
                format!(
                    "gap {} ct of {}",
                    best.total_cents - best.bound_cents,
                    best.total_cents
                )
            },
            best.picked.level,
            problem.level_cents.len()
        );
    }
    println!("  aim       2 s each");
}

/// Sixty lines of twelve offers, the slower the cheaper on the whole.
fn random(seed: u64, suppliers: usize, freight: u64, hour: i64) -> Problem {
    let mut state = seed;
    let mut roll = |below: u64| {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % below
    };
    let levels = 200;
    let freight = (0..suppliers)
        .map(|_| Freight {
            cents: 500 + roll(freight) as i64,
            free_from_cents: None,
        })
        .collect();
    let lines = (0..60)
        .map(|_| {
            let price = 500 + roll(12_000);
            (0..12)
                .map(|_| {
                    let level = roll(levels);
                    let cents = (price + price * roll(40 + (levels - level) / 2) / 100) as i64;
                    Choice {
                        cents,
                        goods: vec![(roll(suppliers as u64) as usize, cents)],
                        level: level as usize,
                    }
                })
                .collect()
        })
        .collect();
    Problem {
        lines,
        freight,
        level_cents: (0..levels as i64).map(|level| level * hour).collect(),
    }
}
