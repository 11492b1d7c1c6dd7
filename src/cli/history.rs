//! `sparewright history`: the snapshots of a workspace.
//!
//! JSON, schema 1: `{"schema", "current", "snapshots": [{"number", "made_at", "made_by", "files": [{"file", "bytes",
//! "modified", "sha256"}], "counts", "kept_out"}]}`.

use serde_json::json;

use super::args::{Format, StoredArgs};
use super::exit::ExitCode;
use super::output;
use crate::language::{Language, Translator};
use crate::store::{MadeBy, Manifest, StoreError, Workspace};

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 1;

/// Runs the command.
pub fn run(args: &StoredArgs) -> ExitCode {
    match read(args) {
        Ok((current, snapshots)) => output::result(&match args.format {
            Format::Json => format!("{:#}\n", as_json(current, &snapshots)),
            Format::Table => as_text(current, &snapshots, args.language.chosen()),
        }),
        Err(error) => output::fail(&error),
    }
}

fn read(args: &StoredArgs) -> Result<(u32, Vec<Manifest>), StoreError> {
    let workspace = Workspace::open(&args.workspace)?;
    Ok((workspace.number()?, workspace.snapshots()?))
}

fn as_json(current: u32, snapshots: &[Manifest]) -> serde_json::Value {
    let snapshots = snapshots.iter().map(|snapshot| {
        json!({
            "number": snapshot.number, "made_at": snapshot.made_at, "made_by": snapshot.made_by,
            "files": snapshot.files, "counts": snapshot.counts, "kept_out": snapshot.kept_out,
        })
    });
    json!({"schema": SCHEMA, "current": current, "snapshots": snapshots.collect::<Vec<_>>()})
}

fn as_text(current: u32, snapshots: &[Manifest], language: Language) -> String {
    let mut words = Translator::new(language);
    let rows = snapshots.iter().map(|snapshot| {
        let mark = match snapshot.number == current {
            true => format!(" ({})", words.say("current")),
            false => String::new(),
        };
        let files: Vec<&str> = snapshot
            .files
            .iter()
            .map(|file| file.file.as_str())
            .collect();
        let by = match snapshot.made_by {
            MadeBy::Import => format!("{} {}", words.say("import of"), files.join(", ")),
            MadeBy::Restore { of } => words.say(&format!("restore of {of}")),
        };
        let sum = |each: fn(&crate::store::Counts) -> usize| -> String {
            snapshot
                .counts
                .values()
                .map(each)
                .sum::<usize>()
                .to_string()
        };
        vec![
            format!("{}{mark}", snapshot.number),
            language.moment(snapshot.made_at),
            by,
            sum(|counts| counts.rows),
            sum(|counts| counts.added),
            sum(|counts| counts.dropped),
        ]
    });
    let rows = rows.collect();
    let header = ["Snapshot", "Made", "how it was made", "Rows", "new", "gone"];
    output::table_said(&mut words, &header, rows)
}
