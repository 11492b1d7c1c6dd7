//! Bars on a terminal for work over one second; nothing otherwise. The only home of indicatif.

use std::io::{IsTerminal, stderr};
use std::sync::mpsc::{RecvTimeoutError, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::{JoinHandle, spawn};
use std::time::Duration;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use crate::import::{Progress, Step};

/// Work that is done sooner shows nothing.
const SHOWN_AFTER: Duration = Duration::from_secs(1);
/// Time between two pictures.
const TICK: Duration = Duration::from_millis(100);
/// Work whose end is known.
const MEASURED: &str = "{msg} {wide_bar} {percent:>3} %";
/// Work whose end is not known.
const UNMEASURED: &str = "{spinner} {msg} {elapsed}";
/// Share of a file's work that the first of its tables is taken for; how many there are shows at the end only.
const FIRST_TABLE_SHARE: f64 = 0.9;

/// One bar on stderr, gone when dropped.
pub struct Bar {
    bar: ProgressBar,
    /// The thread that shows the bar when its time has come, and what ends its waiting.
    shower: Option<(Sender<()>, JoinHandle<()>)>,
}

impl Bar {
    /// Begins a work; `is_quiet` shows nothing in any case.
    pub fn begin(what: &str, is_quiet: bool) -> Self {
        let bar = ProgressBar::with_draw_target(None, ProgressDrawTarget::hidden());
        bar.set_style(style(UNMEASURED));
        bar.set_message(what.to_owned());
        let is_dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
        let is_shown = stderr().is_terminal() && !is_dumb && !is_quiet;
        let shower = is_shown.then(|| {
            let (ends, ended) = channel();
            let shown = bar.clone();
            let shower = spawn(move || {
                if ended.recv_timeout(SHOWN_AFTER) == Err(RecvTimeoutError::Timeout) {
                    shown.set_draw_target(ProgressDrawTarget::stderr());
                    shown.enable_steady_tick(TICK);
                }
            });
            (ends, shower)
        });
        Self { bar, shower }
    }

    /// Goes on to a work whose end is not known.
    pub fn go_on(&self, what: &str) {
        self.bar.set_style(style(UNMEASURED));
        self.bar.set_message(what.to_owned());
    }

    /// What an import tells its steps to.
    pub fn hears(&self) -> Progress {
        let bar = self.bar.clone();
        let reading = Arc::new(Mutex::new(Reading::default()));
        Progress::told(move |step| {
            let mut reading = reading.lock().unwrap_or_else(PoisonError::into_inner);
            reading.take(step);
            if let Step::Begun { bytes, .. } = step {
                bar.set_style(style(MEASURED));
                bar.set_length(bytes);
            }
            bar.set_position(reading.position());
            bar.set_message(reading.words());
        })
    }
}

/// Does a work whose end is not known under a bar.
pub fn under_a_bar<T>(what: &str, work: impl FnOnce() -> T) -> T {
    let _bar = Bar::begin(what, false);
    work()
}

impl Drop for Bar {
    fn drop(&mut self) {
        if let Some((ends, shower)) = self.shower.take() {
            drop(ends);
            // A thread that broke has shown nothing, and the work matters more than its bar.
            let _ = shower.join();
        }
        self.bar.finish_and_clear();
    }
}

fn style(template: &str) -> ProgressStyle {
    // Checked by a test: both templates are well formed.
    ProgressStyle::with_template(template).unwrap_or_else(|_| ProgressStyle::default_bar())
}

/// How far reading has come, in bytes of its files.
#[derive(Debug, Default)]
struct Reading {
    file: String,
    /// Bytes of the files that are done.
    done: u64,
    /// Bytes of the open file, and of these what its earlier tables were taken for.
    open: u64,
    base: f64,
    rows: u64,
    rows_done: u64,
}

impl Reading {
    fn take(&mut self, step: Step<'_>) {
        match step {
            Step::Opened { file, bytes } => {
                *self = Self {
                    file: file.to_owned(),
                    done: self.done,
                    open: bytes,
                    ..Self::default()
                };
            }
            Step::Table { rows, .. } => {
                self.base = self.share();
                (self.rows, self.rows_done) = (rows, 0);
            }
            Step::Rows { rows } => self.rows_done += rows,
            Step::Done { bytes, .. } => {
                self.done += bytes;
                (self.open, self.base, self.rows, self.rows_done) = (0, 0.0, 0, 0);
            }
            _ => {}
        }
    }

    /// Share of the open file that is done.
    fn share(&self) -> f64 {
        if self.rows == 0 {
            return self.base;
        }
        let of_table = self.rows_done.min(self.rows) as f64 / self.rows as f64;
        self.base + (1.0 - self.base) * FIRST_TABLE_SHARE * of_table
    }

    fn position(&self) -> u64 {
        self.done + (self.open as f64 * self.share()) as u64
    }

    fn words(&self) -> String {
        match (self.file.as_str(), self.rows) {
            ("", _) => "Reading".to_owned(),
            (file, 0) => format!("Reading {file}"),
            (file, rows) => format!("Reading {file}, row {} of {rows}", self.rows_done),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bar_moves_with_rows_and_never_back() {
        let mut reading = Reading::default();
        let file = "prices.xlsx";
        let steps = [
            Step::Begun {
                files: 2,
                bytes: 1_500,
            },
            Step::Opened { file, bytes: 1_000 },
            Step::Table { file, rows: 200 },
            Step::Rows { rows: 100 },
            Step::Rows { rows: 100 },
            Step::Table { file, rows: 10 },
            Step::Rows { rows: 10 },
            Step::Done { file, bytes: 1_000 },
            Step::Opened {
                file: "stock.csv",
                bytes: 500,
            },
            Step::Done {
                file: "stock.csv",
                bytes: 500,
            },
        ];
        let mut positions = Vec::new();
        for step in steps {
            reading.take(step);
            positions.push(reading.position());
        }
        assert_eq!(
            positions,
            [0, 0, 0, 450, 900, 900, 990, 1_000, 1_000, 1_500]
        );
    }

    #[test]
    fn the_words_name_file_and_row() {
        let mut reading = Reading::default();
        assert_eq!(reading.words(), "Reading");
        reading.take(Step::Opened {
            file: "a.csv",
            bytes: 9,
        });
        assert_eq!(reading.words(), "Reading a.csv");
        reading.take(Step::Table {
            file: "a.csv",
            rows: 8,
        });
        reading.take(Step::Rows { rows: 3 });
        assert_eq!(reading.words(), "Reading a.csv, row 3 of 8");
    }

    #[test]
    fn templates_are_well_formed() {
        for template in [MEASURED, UNMEASURED] {
            assert!(ProgressStyle::with_template(template).is_ok(), "{template}");
        }
    }
}
