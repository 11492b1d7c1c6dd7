//! `sparewright compare`: what changed from one snapshot to another.
//!
//! JSON, schema 1: `{"schema", "before", "after", "changes": [{"part", "supplier", "kind", "before", "after"}]}`.

use serde_json::json;

use super::args::{CompareArgs, Format};
use super::exit::ExitCode;
use super::output;
use super::progress::under_a_bar;
use crate::language::Translator;
use crate::store::{Change, Workspace};

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 1;

/// Runs the command.
pub fn run(args: &CompareArgs) -> ExitCode {
    let changes = under_a_bar("Comparing", || {
        Workspace::open(&args.stored.workspace)?.compare(args.before, args.after)
    });
    match changes {
        Ok(changes) => output::result(&match args.stored.format {
            Format::Json => {
                let (before, after) = (args.before, args.after);
                let json =
                    json!({"schema": SCHEMA, "before": before, "after": after, "changes": changes});
                format!("{json:#}\n")
            }
            Format::Table => as_text(
                &changes,
                &mut Translator::new(args.stored.language.chosen()),
            ),
        }),
        Err(error) => output::fail(&error),
    }
}

fn as_text(changes: &[Change], words: &mut Translator) -> String {
    if changes.is_empty() {
        return format!("{}\n", words.say("No change"));
    }
    let none = || "-".to_owned();
    let rows = changes.iter().map(|change| {
        vec![
            change.part.clone(),
            change.supplier.clone().unwrap_or_else(none),
            words.say(change.kind.words()),
            change
                .before
                .as_deref()
                .map_or_else(none, |of| words.say(of)),
            change
                .after
                .as_deref()
                .map_or_else(none, |of| words.say(of)),
        ]
    });
    let rows = rows.collect();
    output::table_said(
        words,
        &["Part", "Supplier", "Change", "Before", "After"],
        rows,
    )
}
