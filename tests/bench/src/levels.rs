//! Stock levels of a hundred thousand items: ours beside numpy and plain Python, on the same items, one thread each.
//!
//! `planning/time_levels.py` times the baselines and leaves their items; python3 with numpy and scipy is looked for in
//! `SPAREWRIGHT_PYTHON`, then as `python3`.

use std::path::Path;
use std::process::Command;
use std::time::Instant;

use sparewright::plan::{
    FastReorder, PoissonGains, PolicyPrices, budget_curve, poisson_base_stock,
};

/// Name on the command line.
pub const NAME: &str = "levels";

const ITEMS: usize = 100_000;
const COLUMNS: usize = 7;
const RUNS: usize = 7;

/// One item: rate a year, lead days, cv of the lead time, unit cost, order quantity, target, downtime cost an hour.
type Item = [f64; COLUMNS];

/// What a work gives, to be compared: whole numbers summed up, and money.
type Given = (i64, f64);

/// Times every work and prints its ratio.
pub fn run() {
    println!("{NAME}: {ITEMS} items, one thread each");
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let Some(baselines) = baselines(folder.path()) else {
        println!("  skipped: python3 with numpy and scipy was not found (set SPAREWRIGHT_PYTHON)");
        return;
    };
    let bytes = std::fs::read(folder.path().join("items.f64")).expect("the baseline left it");
    let floats: Vec<f64> = bytes
        .chunks_exact(8)
        .map(|bytes| f64::from_le_bytes(std::array::from_fn(|at| bytes[at])))
        .collect();
    let items: Vec<Item> = floats
        .chunks_exact(COLUMNS)
        .map(|row| std::array::from_fn(|at| row[at]))
        .collect();
    let works: [(&str, &str, f64, fn(&[Item]) -> Given); 4] = [
        ("base_stock", "Poisson base stock by fill", 3.0, base_stock),
        ("by_fill", "(r, Q) by fill, negative binomial", 5.0, by_fill),
        ("by_cost", "(r, Q) of least cost, Poisson", 100.0, by_cost),
        ("budget", "budget curve", 10.0, budget),
    ];
    for (name, what, aim, work) in works {
        let (_, baseline_s, whole, money) = baselines
            .iter()
            .find(|line| line.0 == name)
            .expect("the baseline prints every task");
        let mut best = f64::INFINITY;
        let mut given = (0, 0.0);
        for _ in 0..RUNS {
            let start = Instant::now();
            given = work(&items);
            best = best.min(start.elapsed().as_secs_f64());
        }
        println!(
            "  {what:36} {best:8.4} s; baseline {baseline_s:8.4} s; {:6.1} times as fast (aim {aim})",
            baseline_s / best
        );
        assert_eq!(
            given.0 as f64, *whole,
            "{name}: other levels than the baseline"
        );
        if name == "by_cost" || name == "budget" {
            let difference = (given.1 - money).abs() / money;
            assert!(difference < 1e-9, "{name}: {} against {money}", given.1);
        }
    }
}

/// Name, seconds and two figures to compare of every task; `None` where the baseline cannot run.
fn baselines(folder: &Path) -> Option<Vec<(String, f64, f64, f64)>> {
    let python = std::env::var("SPAREWRIGHT_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let scripts = Path::new(env!("CARGO_MANIFEST_DIR")).join("planning");
    let output = Command::new(python)
        .env("PYTHONDONTWRITEBYTECODE", "1")
        .current_dir(scripts)
        .args(["time_levels.py", &ITEMS.to_string()])
        .arg(folder)
        .output()
        .ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    let lines: Option<Vec<_>> = text
        .lines()
        .map(|line| {
            let mut words = line.split_whitespace();
            let name = words.next()?.to_owned();
            let mut number = || words.next()?.parse::<f64>().ok();
            Some((name, number()?, number()?, number()?))
        })
        .collect();
    lines.filter(|lines| lines.len() == 4)
}

fn base_stock(items: &[Item]) -> Given {
    let levels = items
        .iter()
        .map(|[rate, lead, _, _, _, target, _]| poisson_base_stock(rate * lead / 365.0, *target));
    (levels.sum::<u64>() as i64, 0.0)
}

fn by_fill(items: &[Item]) -> Given {
    let mut search = FastReorder::default();
    let points = items
        .iter()
        .map(|[rate, lead, cv, _, quantity, target, _]| {
            search
                .by_fill(
                    rate * lead / 365.0,
                    1.0 / (cv * cv),
                    *quantity as u64,
                    *target,
                )
                .expect("no mean of the items is out of range")
        });
    (points.sum(), 0.0)
}

fn by_cost(items: &[Item]) -> Given {
    let mut search = FastReorder::default();
    let mut given = (0, 0.0);
    for [rate, lead, _, cost, _, _, down] in items {
        let prices = PolicyPrices {
            holding: 0.2 * cost,
            waiting: down * 8.76,
            order: 20.0,
            yearly: *rate,
        };
        let found = search
            .by_cost(rate * lead / 365.0, &prices)
            .expect("no mean of the items is out of range");
        given.0 += found.reorder_point + found.quantity;
        given.1 += found.cost;
    }
    given
}

fn budget(items: &[Item]) -> Given {
    let mut gains: Vec<(f64, PoissonGains)> = items
        .iter()
        .map(|[rate, lead, _, cost, ..]| (*cost, PoissonGains::new(rate * lead / 365.0)))
        .collect();
    let money = 1.5 * items.iter().map(|item| item[3]).sum::<f64>();
    let (mut units, mut spent) = (0, 0.0);
    budget_curve(&mut gains, money, 1e-15, |step| {
        units += 1;
        spent = step.spent;
    });
    (units, spent)
}
