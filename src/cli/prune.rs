//! `sparewright prune`: forgetting old snapshots.
//!
//! JSON, schema 1: `{"schema", "snapshots": [number], "table_files"}`, what was removed.

use serde_json::json;

use super::args::{Format, PruneArgs};
use super::exit::ExitCode;
use super::output;
use super::progress::under_a_bar;
use crate::language::Language;
use crate::store::{PruneRules, Pruned, Workspace};

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 1;

/// Runs the command.
pub fn run(args: &PruneArgs) -> ExitCode {
    let rules = PruneRules {
        keep_last: args.keep_last,
        keep_monthly: args.keep_monthly,
    };
    let pruned = under_a_bar("Pruning", || {
        Workspace::open(&args.stored.workspace)?.prune(rules)
    });
    match pruned {
        Ok(pruned) => output::result(&match args.stored.format {
            Format::Json => {
                let json = json!({
                    "schema": SCHEMA, "snapshots": pruned.snapshots, "table_files": pruned.table_files,
                });
                format!("{json:#}\n")
            }
            Format::Table => as_text(&pruned, args.stored.language.chosen()),
        }),
        Err(error) => output::fail(&error),
    }
}

fn as_text(pruned: &Pruned, language: Language) -> String {
    let words = format!(
        "Forgot {} snapshots and removed {} table files",
        pruned.snapshots.len(),
        pruned.table_files
    );
    format!("{}\n", language.text(&words))
}
