//! `sparewright explain`: where every value about a part came from, and what it replaced.
//!
//! JSON, schema 1: `{"schema", "part", "values": [{"table", "column", "value", "place": {"file", "sheet", "cell"},
//! "import", "imported_at", "replaced": {"value", "place", "import"} or null, "not_used_for": place or null}]}`; the last is
//! where a newer list says something of the same.

use serde_json::json;

use super::args::{ExplainArgs, Format};
use super::exit::ExitCode;
use super::progress::under_a_bar;
use super::{meant, output};
use crate::job::Job;
use crate::language::Translator;
use crate::store::{Provenance, StoreError, Workspace};

/// Schema number of the JSON form; a change of meaning raises it.
const SCHEMA: u32 = 1;

/// Runs the command.
pub fn run(args: &ExplainArgs) -> ExitCode {
    let values = under_a_bar("Looking it up", || {
        Workspace::open(&args.stored.workspace)?.explain(&args.part)
    });
    match values {
        Ok(values) => output::result(&match args.stored.format {
            Format::Json => {
                let json = json!({"schema": SCHEMA, "part": args.part, "values": values});
                format!("{json:#}\n")
            }
            Format::Table => as_text(&values, &mut Translator::new(args.stored.language.chosen())),
        }),
        Err(error) => {
            let code = output::fail(&error);
            if matches!(error, StoreError::NoSuchPart { .. }) {
                suggest(args);
            }
            code
        }
    }
}

/// Names the part of the workspace whose number is nearest to the one asked for.
fn suggest(args: &ExplainArgs) {
    let Ok(job) = Job::open(&args.stored.workspace, None) else {
        return;
    };
    let own = job.shop.catalogue.parts().iter().filter(|part| part.is_own);
    if let Some(part) = meant::meant(&args.part, own.map(|part| &part.number)) {
        output::note(&format!("  hint: did you mean `{part}`?\n"));
    }
}

fn as_text(values: &[Provenance], words: &mut Translator) -> String {
    let word = |text: &Option<String>| text.clone().unwrap_or_else(|| "-".to_owned());
    let rows = values.iter().map(|value| {
        let replaced = value.replaced.as_ref().map(|old| {
            let place = words.say(&old.place.to_string());
            let import = words.say(&format!("import {}", old.import));
            format!("{} ({place}, {import})", word(&old.value))
        });
        vec![
            words.say(value.table),
            value.column.clone(),
            word(&value.value),
            words.say(&value.place.to_string()),
            value.import.to_string(),
            word(&replaced),
            match &value.not_used_for {
                Some(newer) => {
                    let place = words.say(&newer.to_string());
                    format!("{}: {place}", words.say("no, newer"))
                }
                None => words.say("yes"),
            },
        ]
    });
    let rows = rows.collect();
    let header = [
        "Table", "Column", "Value", "From", "Import", "replaced", "used",
    ];
    output::table_said(words, &header, rows)
}
