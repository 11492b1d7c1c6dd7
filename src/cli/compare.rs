//! `sparewright compare`: what changed from one snapshot to another.
//!
//! JSON, schema 1: `{"schema", "before", "after", "changes": [{"part", "supplier", "kind", "before", "after"}]}`.

use serde_json::json;

use super::args::{CompareArgs, Format};
use super::exit::ExitCode;
use super::import;
use super::output;
use super::progress::under_a_bar;
use crate::store::{Change, Workspace};

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 1;

/// Runs the command.
pub fn run(args: &CompareArgs) -> ExitCode {
    let changes = under_a_bar("Comparing", || {
        Workspace::open(&args.workspace)?.compare(args.before, args.after)
    });
    match changes {
        Ok(changes) => output::result(&match args.format {
            Format::Json => {
                let (before, after) = (args.before, args.after);
                let json =
                    json!({"schema": SCHEMA, "before": before, "after": after, "changes": changes});
                format!("{json:#}\n")
            }
            Format::Table => as_text(&changes),
        }),
        Err(error) => import::fail(&error),
    }
}

fn as_text(changes: &[Change]) -> String {
    if changes.is_empty() {
        return "No change\n".to_owned();
    }
    let word = |text: &Option<String>| text.clone().unwrap_or_else(|| "-".to_owned());
    let rows = changes.iter().map(|change| {
        vec![
            change.part.clone(),
            word(&change.supplier),
            change.kind.words().to_owned(),
            word(&change.before),
            word(&change.after),
        ]
    });
    output::table(
        &["part", "supplier", "change", "before", "after"],
        rows.collect(),
    )
}
