//! Benchmarks: each work beside its baseline in the same run, with times, their ratio and both peak memories.
//!
//! `cargo run --release --manifest-path tests/bench/Cargo.toml -- [WORK]`; without a name every work runs. Nothing here
//! is a test: no time is asserted. Each measurement runs in a process of its own, so that peaks do not mix; each checks
//! that it read what was written.

mod import;
mod kits;
mod measure;

use measure::{Work, report};

/// Every work, by name.
fn works() -> Vec<Work> {
    vec![import::workbook(), import::text_table()]
}

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    // A child is asked for one side of one work, and prints what it measured.
    if let [flag, work, side, input] = arguments.as_slice()
        && flag == "--measure"
    {
        let works = works();
        let work = works
            .iter()
            .find(|known| known.name == work)
            .expect("the parent names a work it knows");
        measure::child(work, side, input.as_ref());
        return;
    }
    if arguments.is_empty() || arguments.first().is_some_and(|asked| asked == kits::NAME) {
        kits::run();
    }
    for work in works() {
        if arguments.is_empty() || arguments.iter().any(|name| name == work.name) {
            report(&work);
        }
    }
}
