//! Benchmarks: each work beside its baseline in the same run, with times, their ratio and both peak memories.
//!
//! `cargo run --release --manifest-path tests/bench/Cargo.toml -- [WORK]`; without a name every work runs. `backtest FOLDER`
//! takes the folder of the open series; `lookup [PARTS]` answers questions on a large catalogue, `serve
//! [PARTS]` by the local page to fifty clients at once; `plan [ITEMS ...]` plans shops of these sizes. Nothing here is a
//! test: no time is asserted. `all [large]` runs every work and writes `reports/benchmarks.md`. Each measurement of the
//! import runs in a process of its own, so that peaks do not mix; each
//! checks that it read what was written. `accuracy` prints how often the right size comes out, see [`accuracy`].

mod accuracy;
mod accuracy_table;
mod all;
mod backtest;
mod catalogue;
mod history;
mod import;
mod kits;
mod language;
mod levels;
mod lookup;
mod measure;
mod plan;
mod plan_shop;
mod priced_demand;
mod report_workbook;
mod serve;
mod shape;
mod workspace;

use measure::{Work, report};
use mimalloc::MiMalloc;

/// The allocator of the command, for what is measured here is its work.
#[global_allocator]
static ALLOCATOR: MiMalloc = MiMalloc;

/// Every work, by name.
fn works() -> Vec<Work> {
    vec![
        import::workbook(),
        import::text_table(),
        import::varied_text_table(),
        workspace::one_part(),
    ]
}

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    // A cold start is asked to be the command itself.
    if arguments
        .first()
        .is_some_and(|first| first == lookup::COMMAND)
    {
        let line = std::iter::once("sparewright".into()).chain(std::env::args_os().skip(2));
        std::process::exit(sparewright::cli::main(line).number().into());
    }
    if let [flag, folder] = arguments.as_slice()
        && flag == lookup::WARM
    {
        lookup::report_warm(folder.as_ref());
        return;
    }
    if let [flag, folder] = arguments.as_slice()
        && flag == plan::CHILD
    {
        plan::child(folder.as_ref());
        return;
    }
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
    if let [first, rest @ ..] = arguments.as_slice()
        && first == "accuracy"
    {
        accuracy_table::print(rest);
        return;
    }
    if let [first, rest @ ..] = arguments.as_slice()
        && first == all::NAME
    {
        all::run(rest.iter().any(|word| word == "large"));
        return;
    }
    let is_asked =
        |name: &str| arguments.is_empty() || arguments.first().is_some_and(|asked| asked == name);
    if is_asked(history::NAME) {
        history::run();
    }
    if is_asked(backtest::NAME) {
        backtest::run(arguments.get(1).map(std::path::PathBuf::from));
    }
    if is_asked(levels::NAME) {
        levels::run();
    }
    if is_asked(kits::NAME) {
        kits::run();
    }
    if is_asked(language::NAME) {
        language::run();
    }
    if is_asked(plan::NAME) {
        let sizes: Vec<usize> = arguments
            .iter()
            .filter_map(|word| word.parse().ok())
            .collect();
        plan::run(&sizes);
    }
    if is_asked(report_workbook::NAME) {
        report_workbook::run();
    }
    for work in works() {
        if arguments.is_empty() || arguments.iter().any(|name| name == work.name) {
            report(&work);
        }
    }
    if arguments.is_empty() || arguments.iter().any(|name| name == lookup::NAME) {
        let count = arguments.iter().find_map(|word| word.parse().ok());
        lookup::report(count.unwrap_or(1_000_000));
    }
    if is_asked(serve::NAME) {
        let count = arguments.iter().find_map(|word| word.parse().ok());
        serve::report(count.unwrap_or(1_000_000));
    }
}
