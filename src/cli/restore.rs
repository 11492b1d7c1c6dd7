//! `sparewright restore`: an earlier snapshot made the current one again, as a snapshot of its own.
//!
//! JSON, schema 1: `{"schema", "snapshot", "restored"}`, the new number and the one whose contents it has.

use serde_json::json;

use super::args::{Format, RestoreArgs};
use super::exit::ExitCode;
use super::output;
use super::progress::under_a_bar;
use crate::job::now;
use crate::store::Workspace;

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 1;

/// Runs the command.
pub fn run(args: &RestoreArgs) -> ExitCode {
    let restored = under_a_bar("Restoring", || {
        Workspace::open(&args.stored.workspace)?.restore(args.number, now())
    });
    match restored {
        Ok(manifest) => output::result(&match args.stored.format {
            Format::Json => {
                let (made, of) = (manifest.number, args.number);
                format!(
                    "{:#}\n",
                    json!({"schema": SCHEMA, "snapshot": made, "restored": of})
                )
            }
            Format::Table => {
                let (made, of) = (manifest.number, args.number);
                let words = format!("Snapshot {made} holds what snapshot {of} held");
                format!("{}\n", args.stored.language.chosen().text(&words))
            }
        }),
        Err(error) => output::fail(&error),
    }
}
