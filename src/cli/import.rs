//! `sparewright import`: spreadsheets into a workspace.
//!
//! JSON, schema 1: `{"schema", "snapshot", "is_new", "counts": {table: {"rows", "added", "dropped"}}, "kept_out",
//! "not_read", "rows_read", "rows_rejected", "maps_not_used", "set_aside"}`; `snapshot` is null where nothing was new.

use std::io::Write;
use std::path::Path;

use serde_json::json;
use tempfile::NamedTempFile;

use super::args::{Format, ImportArgs};
use super::exit::ExitCode;
use super::progress::Bar;
use super::refusal::{self, Refusal};
use super::run::hint_for;
use super::{counted, dry_run, maps, output};
use crate::import::{ImportError, Imported, Known, read_paths};
use crate::job::now;
use crate::language::{Language, Translator};
use crate::report::{WriteError, rejects_workbook};
use crate::store::{Outcome, StoreError, Workspace};

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 1;

/// Runs the command.
pub fn run(args: &ImportArgs) -> ExitCode {
    let mut known = match known(&args.workspace) {
        Ok(known) => known,
        Err(error) => return output::fail(&error),
    };
    match maps::given(&args.maps) {
        // What is said now comes before what was said once.
        Ok(given) => known.options.maps.splice(0..0, given).for_each(drop),
        Err(code) => return code,
    }
    let bar = Bar::begin("Reading", false);
    known.progress = bar.hears();
    let read = read_paths(&args.paths, &known);
    bar.go_on("Taking in");
    let imported = match read {
        Ok(imported) => imported,
        Err(error) => {
            drop(bar);
            let names = "PATH names spreadsheets (xlsx, xls, ods, csv) with a header row, or folders with them";
            let hint = match &error {
                ImportError::NoRows { .. } => hint_for(&error),
                _ => hint_for(&error).map(|_| names),
            };
            Refusal::of(&error).hinting(hint).tell();
            return ExitCode::Input;
        }
    };
    // What the tables bring along, else what the workspace has.
    let settings = imported.settings.language;
    let language = args.language.or(settings).unwrap_or_default();
    refusal::settled(settings);
    if args.dry_run {
        return dry_run::run(args, &imported, now(), (language, bar));
    }
    let outcome =
        Workspace::create(&args.workspace).and_then(|workspace| workspace.import(&imported, now()));
    drop(bar);
    if let (Ok(_), Some(path)) = (&outcome, &args.rejects)
        && let Err(error) = write_rejects(&imported, language, path)
    {
        Refusal::of(&error)
            .hinting(Some("`--rejects` names another file"))
            .tell();
        return ExitCode::Output;
    }
    match outcome {
        Ok(outcome) => output::result(&match args.format {
            Format::Json => format!("{:#}\n", as_json(&outcome, &imported)),
            Format::Table => as_text(args, &outcome, &imported, &mut Translator::new(language)),
        }),
        Err(error) => output::fail(&error),
    }
}

/// Writes the rows to mend; the file appears under its name only when it is complete.
fn write_rejects(imported: &Imported, language: Language, path: &Path) -> Result<(), WriteError> {
    let bytes = rejects_workbook(&imported.rejects, language)?;
    let failed = |source| WriteError::Io {
        path: path.to_owned(),
        source,
    };
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    let folder = folder.unwrap_or(Path::new("."));
    // Asked for by its own name: the error of a passing file names that file.
    std::fs::metadata(folder).map_err(failed)?;
    let mut file = NamedTempFile::new_in(folder).map_err(failed)?;
    file.write_all(&bytes).map_err(failed)?;
    file.persist(path).map_err(|error| failed(error.error))?;
    Ok(())
}

/// What the workspace knows already; nothing where it is still to be made.
fn known(workspace: &Path) -> Result<Known, StoreError> {
    match Workspace::open(workspace) {
        Ok(workspace) => workspace.known(),
        Err(StoreError::NotAWorkspace { .. }) => Ok(Known::default()),
        Err(error) => Err(error),
    }
}

fn as_json(outcome: &Outcome, imported: &Imported) -> serde_json::Value {
    let snapshot = &outcome.snapshot;
    json!({
        "schema": SCHEMA,
        "snapshot": outcome.is_new.then_some(snapshot.number),
        "is_new": outcome.is_new,
        "counts": snapshot.counts,
        "kept_out": snapshot.kept_out,
        "not_read": snapshot.not_read,
        "rows_read": imported.rows_read,
        "rows_rejected": imported.rows_rejected,
        "maps_not_used": maps::as_texts(&imported.unused_maps()),
        "set_aside": outcome.set_aside,
    })
}

fn as_text(
    args: &ImportArgs,
    outcome: &Outcome,
    imported: &Imported,
    words: &mut Translator,
) -> String {
    let (rows, tables) = (imported.rows_read, imported.tables.len());
    let read = format!(
        "Read {} in {}",
        counted::count(rows, "row"),
        counted::count(tables, "table")
    );
    let rejected = format!("{} rejected", counted::count(imported.rows_rejected, "row"));
    let mut text = format!("{}; {}\n", words.say(&read), words.say(&rejected));
    let to_mend: usize = imported.rejects.iter().map(|table| table.rows.len()).sum();
    let mend = words.say(&format!("{} to mend", counted::count(to_mend, "row")));
    match &args.rejects {
        Some(path) => {
            let into = words.say("written into");
            text.push_str(&format!("{mend}, {into} {}\n", path.display()));
        }
        None if to_mend > 0 => {
            let how = words.say("`--rejects rejects.xlsx` writes them with what is wrong");
            text.push_str(&format!("{mend}; {how}\n"));
        }
        None => {}
    }
    text.push_str(&counted::not_read(imported, words));
    text.push_str(&maps::not_used(&imported.unused_maps(), words));
    text.push_str(&counted::counts(outcome, words));
    if outcome.is_new {
        text.push_str(&format!(
            "\n{} {} {} {}\n",
            words.say("Snapshot"),
            outcome.snapshot.number,
            words.say("in the workspace"),
            args.workspace.display()
        ));
    } else {
        let nothing = words.say("Nothing new; no snapshot was made");
        text.push_str(&format!("\n{nothing}\n"));
    }
    text
}
