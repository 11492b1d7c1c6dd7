//! `sparewright reorder`: the order list, by what it saves.
//!
//! The JSON form is that of a report (schema 1, `src/report/json.rs`) with the sheets `by_saving`, `orders`, `can_wait`,
//! `made_instead`, `last_buys`, `chase`, `surplus`, `set_first` and `not_planned`. CSV is one of them (`--table`).

use super::args::ReorderArgs;
use super::exit::ExitCode;
use super::planning;
use crate::report::content::order_report;
use crate::report::translated;

/// Runs the command.
pub fn run(args: &ReorderArgs) -> ExitCode {
    let (job, planned) = match planning::open_and_plan(&args.shop) {
        Ok(both) => both,
        Err(code) => return code,
    };
    let report = order_report(&job.inputs(&planned));
    let report = planning::with_not_read(report, &job);
    let report = translated(report, planning::language(&args.shop, &job));
    planning::print_chosen(&report, &args.tables, "by_saving")
}
