//! `sparewright explain`: where every value about a part came from, and what it replaced.
//!
//! JSON, schema 1: `{"schema", "part", "values": [{"table", "column", "value", "place": {"file", "sheet", "cell"},
//! "import", "imported_at", "replaced": {"value", "place", "import"} or null, "not_used_for": place or null}]}`; the last is
//! where a newer list says something of the same.

use serde_json::json;

use super::args::{ExplainArgs, Format};
use super::exit::ExitCode;
use super::progress::under_a_bar;
use super::refusal::Refusal;
use super::stored_words::for_people;
use super::{meant, output};
use crate::job::Job;
use crate::language::{Language, Translator};
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
            Format::Table => as_text(&values, args.stored.language.chosen()),
        }),
        Err(error) => {
            let is_part = matches!(error, StoreError::NoSuchPart { .. });
            let hint = is_part.then(|| suggestion(args)).flatten();
            Refusal::of(&error).hinting(hint).tell();
            (&error).into()
        }
    }
}

/// Names the part of the workspace whose number is nearest to the one asked for.
fn suggestion(args: &ExplainArgs) -> Option<String> {
    let job = Job::open(&args.stored.workspace, None).ok()?;
    let own = job.shop.catalogue.parts().iter().filter(|part| part.is_own);
    meant::hint(&args.part, own.map(|part| &part.number))
}

fn as_text(values: &[Provenance], language: Language) -> String {
    let words = &mut Translator::new(language);
    let word = |text: &Option<String>| text.clone().unwrap_or_else(|| "-".to_owned());
    let rows = values.iter().map(|value| {
        let replaced = value.replaced.as_ref().map(|old| {
            let place = words.say(&old.place.to_string());
            let import = words.say(&format!("import {}", old.import));
            let old = old.value.as_deref();
            let (_, shown) = for_people(values, value, old, (language, words));
            format!("{shown} ({place}, {import})")
        });
        let now = value.value.as_deref();
        let (column, shown) = for_people(values, value, now, (language, words));
        vec![
            words.say(value.table),
            column,
            shown,
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
