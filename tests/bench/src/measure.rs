//! Runs both sides of a work in processes of their own and prints one line.

use std::path::Path;
use std::process::Command;
use std::time::Instant;

/// Runs of each side; the fastest counts, because other programs only ever add time.
const RUNS: usize = 3;

/// One side of a work: reads the input and returns how many rows it read.
pub type Side = fn(&Path) -> usize;

/// A work with its baseline.
pub struct Work {
    /// Name on the command line.
    pub name: &'static str,
    /// What is done, in words.
    pub what: &'static str,
    /// What the baseline is.
    pub baseline_is: &'static str,
    /// Ratio aimed at, and the one not to be exceeded.
    pub aim: (f64, f64),
    /// Rows that both sides must read.
    pub rows: usize,
    /// Writes the input into a folder and returns its path.
    pub make: fn(&Path) -> std::path::PathBuf,
    /// Ours.
    pub ours: Side,
    /// The baseline.
    pub baseline: Side,
}

/// Seconds and peak memory in MiB of one side.
struct Measured {
    seconds: f64,
    peak_mib: f64,
}

/// Prints one work.
pub fn report(work: &Work) {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let input = (work.make)(folder.path());
    let (ours, baseline) = (side(work, "ours", &input), side(work, "baseline", &input));
    let ratio = ours.seconds / baseline.seconds;
    let (aim, most) = work.aim;
    println!("{}: {}", work.name, work.what);
    println!(
        "  ours      {:8.3} s  peak {:7.0} MiB",
        ours.seconds, ours.peak_mib
    );
    println!(
        "  baseline  {:8.3} s  peak {:7.0} MiB  ({})",
        baseline.seconds, baseline.peak_mib, work.baseline_is
    );
    println!("  ratio     {ratio:8.2}    aim {aim}, not above {most}");
}

/// The fastest of several runs, each in a process of its own.
fn side(work: &Work, side: &str, input: &Path) -> Measured {
    let program = std::env::current_exe().expect("this program has a path");
    let runs = (0..RUNS).map(|_| {
        let arguments = ["--measure", work.name, side, &input.to_string_lossy()].map(str::to_owned);
        let output = Command::new(&program)
            .args(arguments)
            .output()
            .expect("this program can run itself");
        assert!(
            output.status.success(),
            "{}",
            String::from_utf8_lossy(&output.stderr)
        );
        let text = String::from_utf8_lossy(&output.stdout).into_owned();
        let numbers: Vec<f64> = text
            .split_whitespace()
            .filter_map(|word| word.parse().ok())
            .collect();
        assert_eq!(
            numbers.first().copied(),
            Some(work.rows as f64),
            "{side} of {} read other rows",
            work.name
        );
        Measured {
            seconds: numbers[1],
            peak_mib: numbers[2],
        }
    });
    runs.min_by(|a, b| a.seconds.total_cmp(&b.seconds))
        .expect("there is at least one run")
}

/// Measures one side once and prints rows, seconds and peak memory.
pub fn child(work: &Work, side: &str, input: &Path) {
    let run = if side == "ours" {
        work.ours
    } else {
        work.baseline
    };
    let start = Instant::now();
    let rows = run(input);
    println!("{rows} {} {}", start.elapsed().as_secs_f64(), peak_mib());
}

/// Peak resident memory of this process in MiB, from the kernel's account; 0 where there is none.
fn peak_mib() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmHWM:"));
    let kib = line
        .and_then(|line| line.split_whitespace().nth(1))
        .and_then(|word| word.parse::<f64>().ok());
    kib.unwrap_or(0.0) / 1024.0
}
