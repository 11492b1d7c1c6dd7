//! Every work at several sizes, as the page `reports/benchmarks.md`.
//!
//! `-- all` runs each at 10,000 rows, `-- all large` at 10,000, 100,000 and 1,000,000. Each work runs in a process of its
//! own; the page is made of what the works print, so that a new work needs a line in [`WORKS`] and nothing else. Lines in
//! the form of [`crate::measure::report`] become a table and the growth with the rows; all of it stands as printed below.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::thread;
use std::time::{Duration, Instant};

/// Name on the command line.
pub const NAME: &str = "all";

const SMALL: [usize; 1] = [10_000];
const LARGE: [usize; 3] = [10_000, 100_000, 1_000_000];

/// Growth of time over that of the rows from which a work is called worse than linear: sorting alone gives 1.2 to 1.25 a
/// step of ten, and what others do on the machine as much again.
const WORSE: f64 = 1.5;

/// How a work is told its size.
enum Size {
    /// By the variable that [`crate::measure::rows`] reads.
    Rows,
    /// By an argument.
    Argument,
    /// It has one size of its own.
    Own,
}

/// Every work by its name on the command line. `backtest` says skipped where `SPAREWRIGHT_SERIES` names no folder with the
/// open series.
const WORKS: [(&str, Size); 14] = [
    ("import-workbook", Size::Rows),
    ("import-csv", Size::Rows),
    ("import-csv-varied", Size::Rows),
    ("one-part-change", Size::Rows),
    ("report-workbook", Size::Own),
    ("lookup", Size::Argument),
    ("serve", Size::Argument),
    ("plan", Size::Own),
    ("language", Size::Own),
    ("history", Size::Own),
    ("levels", Size::Own),
    ("kits", Size::Own),
    ("backtest", Size::Own),
    ("accuracy", Size::Own),
];

/// One run of one work.
struct Run {
    name: &'static str,
    /// `None` where the work has a size of its own.
    rows: Option<usize>,
    seconds: f64,
    /// Peak of the process itself; works that measure in further processes print theirs.
    peak_mib: f64,
    /// What it printed, or how it ended.
    printed: Result<String, String>,
}

/// Seconds of the clock, seconds of all cores, MiB.
#[derive(Clone, Copy)]
struct Side {
    seconds: f64,
    core_seconds: f64,
    peak_mib: f64,
}

/// What [`crate::measure::report`] printed.
struct Compared {
    ours: Side,
    baseline: Side,
    baseline_is: String,
    aim: String,
}

/// Runs everything and writes the page.
pub fn run(is_large: bool) {
    let sizes: &[usize] = if is_large { &LARGE } else { &SMALL };
    let mut runs = Vec::new();
    for (name, size) in &WORKS {
        let of_work: Vec<Option<usize>> = match size {
            Size::Own => vec![None],
            Size::Rows | Size::Argument => sizes.iter().copied().map(Some).collect(),
        };
        for rows in of_work {
            eprintln!("{name} {}", rows.map_or_else(String::new, grouped));
            runs.push(one(name, size, rows));
        }
    }
    let path = page_path();
    std::fs::write(&path, page(&runs, is_large)).expect("the folder `reports` can be written");
    println!("{}", path.display());
}

fn page_path() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../reports/benchmarks.md")
}

/// Runs one work in a process of its own.
fn one(name: &'static str, size: &Size, rows: Option<usize>) -> Run {
    let program = std::env::current_exe().expect("this program has a path");
    let mut command = Command::new(program);
    command.arg(name).stdout(Stdio::piped());
    match (size, rows) {
        (Size::Rows, Some(rows)) => {
            command.env(crate::measure::ROWS, rows.to_string());
        }
        (Size::Argument, Some(rows)) => {
            command.arg(rows.to_string());
        }
        _ => {}
    }
    let start = Instant::now();
    let child = command.spawn().expect("this program can run itself");
    let id = child.id();
    let (done, is_done) = channel::<()>();
    let watch = thread::spawn(move || {
        let mut peak_mib = 0.0_f64;
        loop {
            peak_mib = peak_mib.max(crate::measure::peak_mib_of(&id.to_string()));
            if is_done.recv_timeout(Duration::from_millis(50)) != Err(RecvTimeoutError::Timeout) {
                return peak_mib;
            }
        }
    });
    let output = child
        .wait_with_output()
        .expect("this program can run itself");
    let seconds = start.elapsed().as_secs_f64();
    drop(done);
    Run {
        name,
        rows,
        seconds,
        peak_mib: watch.join().unwrap_or_default(),
        printed: if output.status.success() {
            Ok(String::from_utf8_lossy(&output.stdout).into_owned())
        } else {
            Err(output.status.to_string())
        },
    }
}

impl Run {
    /// The figures of both sides, where the work prints them in the usual form.
    fn compared(&self) -> Option<Compared> {
        let printed = self.printed.as_ref().ok()?;
        let line = |start: &str| {
            printed
                .lines()
                .find(|line| line.trim_start().starts_with(start))
        };
        let side = |line: &str| {
            let mut numbers = line
                .split_whitespace()
                .filter_map(|word| word.parse::<f64>().ok());
            Some(Side {
                seconds: numbers.next()?,
                core_seconds: numbers.next()?,
                peak_mib: numbers.next()?,
            })
        };
        let in_brackets = |line: &str| {
            let inner = line
                .split_once('(')
                .and_then(|(_, rest)| rest.rsplit_once(')'));
            inner.map_or_else(String::new, |(inner, _)| inner.to_owned())
        };
        let (ours, baseline) = (line("ours ")?, line("baseline ")?);
        Some(Compared {
            ours: side(ours)?,
            baseline: side(baseline)?,
            baseline_is: in_brackets(baseline),
            aim: line("ratio ").map_or_else(String::new, in_brackets),
        })
    }
}

/// `1,000,000`.
fn grouped(number: usize) -> String {
    let digits = number.to_string();
    let mut text = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// What a command prints, on one line; empty where it cannot run.
fn said(program: &str, arguments: &[&str]) -> String {
    let output = Command::new(program)
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output();
    output.map_or_else(
        |_| String::new(),
        |output| String::from_utf8_lossy(&output.stdout).trim().to_owned(),
    )
}

fn page(runs: &[Run], is_large: bool) -> String {
    let cores = thread::available_parallelism().map_or(0, usize::from);
    let load = std::fs::read_to_string("/proc/loadavg").unwrap_or_default();
    let load = load.split_whitespace().nth(1).unwrap_or("unknown");
    let command = if is_large { "all large" } else { "all" };
    let mut text = format!(
        "# Benchmarks\n\nWritten by `cargo run --release --manifest-path tests/bench/Cargo.toml -- {command}` on {}, commit {}, \
         {cores} cores, load of the last five minutes at the end {load}. Ratio: ours over the baseline of the same run; below 1 ours \
         is faster. Of several runs the fastest counts. Works with baselines in Python say \"skipped\" where numpy and scipy are \
         missing (`SPAREWRIGHT_PYTHON` names a python that has them).\n\n",
        said("date", &["-u", "+%Y-%m-%d"]),
        said("git", &["rev-parse", "--short", "HEAD"]),
    );
    against_baselines(&mut text, runs);
    growth(&mut text, runs);
    missed(&mut text, runs);
    text.push_str("## As printed\n");
    for run in runs {
        let rows = run
            .rows
            .map_or_else(String::new, |rows| format!(", {} rows", grouped(rows)));
        let body = match &run.printed {
            Ok(printed) => printed.trim_end().to_owned(),
            Err(status) => format!("FAILED: {status}"),
        };
        let _ = write!(
            text,
            "\n### {}{rows}\n\n{:.0} s in all, peak of the process {:.0} MiB.\n\n```text\n{body}\n```\n",
            run.name, run.seconds, run.peak_mib
        );
    }
    text
}

fn against_baselines(text: &mut String, runs: &[Run]) {
    text.push_str(
        "## Against the baseline of the same run\n\n\
         | Work | Rows | Ours | Baseline | Time | Cores | Memory | Baseline is | Aim |\n|---|---|---|---|---|---|---|---|---|\n",
    );
    for run in runs {
        let (Some(of), Some(rows)) = (run.compared(), run.rows) else {
            continue;
        };
        let side = |side: Side| format!("{:.3} s, {:.0} MiB", side.seconds, side.peak_mib);
        // Below the clock's last digit there is no ratio to speak of.
        let ratio = |ours: f64, baseline: f64| match ours / baseline {
            ratio if ratio.is_finite() => format!("{ratio:.2}"),
            _ => "–".to_owned(),
        };
        let _ = writeln!(
            text,
            "| {} | {} | {} | {} | {} | {} | {} | {} | {} |",
            run.name,
            grouped(rows),
            side(of.ours),
            side(of.baseline),
            ratio(of.ours.seconds, of.baseline.seconds),
            ratio(of.ours.core_seconds, of.baseline.core_seconds),
            ratio(of.ours.peak_mib, of.baseline.peak_mib),
            of.baseline_is,
            of.aim,
        );
    }
    text.push('\n');
}

/// What the works themselves call missed.
fn missed(text: &mut String, runs: &[Run]) {
    text.push_str("## Aims that the works call missed\n\n");
    let mut count = 0;
    for run in runs {
        let printed = run.printed.as_deref().unwrap_or_default();
        for line in printed.lines().filter(|line| line.contains("MISSED")) {
            let rows = run
                .rows
                .map_or_else(String::new, |rows| format!(", {} rows", grouped(rows)));
            let words: Vec<&str> = line.split_whitespace().collect();
            let _ = writeln!(text, "- {}{rows}: {}", run.name, words.join(" "));
            count += 1;
        }
    }
    if count == 0 {
        text.push_str("None.\n");
    }
    text.push('\n');
}

/// Time and memory from one size to the next; by the whole process where a work prints no sides.
fn growth(text: &mut String, runs: &[Run]) {
    text.push_str(
        "## Growth with the rows\n\nEach step has ten times the rows. Time: seconds of all cores. Works without sides: the clock and the whole process, with what it \
         makes first.\n\n\
         | Work | From | To | Time | Memory | |\n|---|---|---|---|---|---|\n",
    );
    let figures = |run: &Run| {
        run.compared().map_or((run.seconds, run.peak_mib), |of| {
            (of.ours.core_seconds.max(of.ours.seconds), of.ours.peak_mib)
        })
    };
    for pair in runs.windows(2) {
        let [from, to] = pair else { continue };
        let (Some(few), Some(many)) = (from.rows, to.rows) else {
            continue;
        };
        if from.name != to.name || from.printed.is_err() || to.printed.is_err() {
            continue;
        }
        let ((time, memory), (more_time, more_memory)) = (figures(from), figures(to));
        let rows = many as f64 / few as f64;
        let is_worse = more_time / time > WORSE * rows;
        let _ = writeln!(
            text,
            "| {} | {} | {} | x {:.1} | x {:.1} | {} |",
            to.name,
            grouped(few),
            grouped(many),
            more_time / time,
            more_memory / memory,
            if is_worse {
                "**worse than linear**"
            } else {
                ""
            },
        );
    }
    text.push('\n');
}
