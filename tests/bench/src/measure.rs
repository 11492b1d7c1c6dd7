//! Runs both sides of a work in processes of their own and prints one line.

use std::any::Any;
use std::path::Path;
use std::process::Command;
use std::time::Instant;

/// Runs of each side; the fastest counts, because other programs only ever add time.
const RUNS: usize = 3;

/// Variable that gives works another number of rows than their own.
pub const ROWS: &str = "SPAREWRIGHT_BENCH_ROWS";

/// Rows of a work: those asked for, else its own.
pub fn rows(own: usize) -> usize {
    let asked = std::env::var(ROWS).ok().and_then(|text| text.parse().ok());
    asked.unwrap_or(own)
}

/// What a side made of its input. It is held until the clock has stopped: giving memory back is part of neither side.
pub struct Made {
    /// Rows read.
    pub rows: usize,
    /// The result.
    pub held: Box<dyn Any>,
}

/// One side of a work.
pub type Side = fn(&Path) -> Made;

/// A work with its baseline.
pub struct Work {
    /// Name on the command line.
    pub name: &'static str,
    /// What is done, in words.
    pub what: &'static str,
    /// What the baseline is.
    pub baseline_is: &'static str,
    /// Ratio aimed at, and the one not to be exceeded; `None` where there is no aim.
    pub aim: Option<(f64, f64)>,
    /// Rows that both sides must read.
    pub rows: usize,
    /// Writes the input into a folder and returns its path.
    pub make: fn(&Path) -> std::path::PathBuf,
    /// Ours.
    pub ours: Side,
    /// The baseline.
    pub baseline: Side,
}

/// Seconds on the clock, seconds of all cores together, and peak memory in MiB of one side.
struct Measured {
    seconds: f64,
    core_seconds: f64,
    peak_mib: f64,
}

/// Prints one work.
pub fn report(work: &Work) {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let input = (work.make)(folder.path());
    let (ours, baseline) = (side(work, "ours", &input), side(work, "baseline", &input));
    let ratio = ours.seconds / baseline.seconds;
    let memory = ours.peak_mib / baseline.peak_mib;
    println!("{}: {} ({} rows here)", work.name, work.what, work.rows);
    println!(
        "  ours      {:8.3} s  {:8.2} s of a core  peak {:7.0} MiB",
        ours.seconds, ours.core_seconds, ours.peak_mib
    );
    println!(
        "  baseline  {:8.3} s  {:8.2} s of a core  peak {:7.0} MiB  ({})",
        baseline.seconds, baseline.core_seconds, baseline.peak_mib, work.baseline_is
    );
    let aim = work.aim.map_or_else(String::new, |(aim, most)| {
        format!("  (time: aim {aim}, not above {most})")
    });
    let cores = ours.core_seconds / baseline.core_seconds;
    println!("  ratio     {ratio:8.2}    {cores:8.2}                 {memory:7.2}{aim}");
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
            core_seconds: numbers[2],
            peak_mib: numbers[3],
        }
    });
    runs.min_by(|a, b| a.seconds.total_cmp(&b.seconds))
        .expect("there is at least one run")
}

/// Measures one side once and prints rows, seconds, seconds of all cores and peak memory.
pub fn child(work: &Work, side: &str, input: &Path) {
    let run = if side == "ours" {
        work.ours
    } else {
        work.baseline
    };
    let (start, cores) = (Instant::now(), core_seconds());
    let made = run(input);
    let seconds = start.elapsed().as_secs_f64();
    let cores = core_seconds() - cores;
    println!("{} {seconds} {cores} {}", made.rows, peak_mib());
    drop(made.held);
}

/// Peak resident memory of this process in MiB, from the kernel's account; 0 where there is none.
pub fn peak_mib() -> f64 {
    peak_mib_of("self")
}

/// Resident memory of this process now in MiB, from the kernel's account; 0 where there is none.
pub fn resident_mib() -> f64 {
    mib_of("self", "VmRSS:")
}

/// The peak of another process by its id.
pub fn peak_mib_of(id: &str) -> f64 {
    mib_of(id, "VmHWM:")
}

fn mib_of(id: &str, what: &str) -> f64 {
    let status = std::fs::read_to_string(format!("/proc/{id}/status")).unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with(what));
    let kib = line
        .and_then(|line| line.split_whitespace().nth(1))
        .and_then(|word| word.parse::<f64>().ok());
    kib.unwrap_or(0.0) / 1024.0
}

/// Seconds that this process has had of all cores together, from the kernel's account; 0 where there is none. It tells
/// more than the clock where other programs run beside it.
pub fn core_seconds() -> f64 {
    /// Ticks in a second of the account, the same on every Linux (`getconf CLK_TCK`).
    const TICKS: f64 = 100.0;
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    // Fields 14 and 15 of proc(5), counted from behind the name in brackets, which is the second.
    let behind = stat.rsplit_once(')').map_or("", |(_, behind)| behind);
    let ticks = behind.split_whitespace().skip(11).take(2);
    ticks
        .filter_map(|ticks| ticks.parse::<f64>().ok())
        .sum::<f64>()
        / TICKS
}
