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
use super::{meant, output};
use crate::job::Job;
use crate::language::Translator;
use crate::report::model::grouped;
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

/// A column and its value as people read them: lengths are kept in whole nanometres and read in millimetres.
fn for_people(column: &str, value: String) -> (String, String) {
    let length = column.strip_suffix("_nm").zip(value.parse::<f64>().ok());
    match length {
        Some((stem, nanometres)) => (format!("{stem}_mm"), grouped(nanometres / 1e6, 0, 6)),
        None => (column.to_owned(), value),
    }
}

fn as_text(values: &[Provenance], words: &mut Translator) -> String {
    let word = |text: &Option<String>| text.clone().unwrap_or_else(|| "-".to_owned());
    let rows = values.iter().map(|value| {
        let replaced = value.replaced.as_ref().map(|old| {
            let place = words.say(&old.place.to_string());
            let import = words.say(&format!("import {}", old.import));
            let (_, shown) = for_people(&value.column, word(&old.value));
            format!("{shown} ({place}, {import})")
        });
        let (column, shown) = for_people(&value.column, word(&value.value));
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_read_in_millimetres() {
        // ISO 15: 6205 is 25 x 52 x 15 mm; 1/64 in is 396,875 nm.
        for (column, value, shown) in [
            ("key_1_nm", "25000000", ("key_1_mm", "25")),
            ("width_nm", "396875", ("width_mm", "0.396875")),
            ("room_nm", "1234567890000", ("room_mm", "1,234,567.89")),
            ("key_1_nm", "-", ("key_1_nm", "-")),
            ("designation", "6205", ("designation", "6205")),
        ] {
            let (of, words) = for_people(column, value.to_owned());
            assert_eq!((of.as_str(), words.as_str()), shown, "{column} {value}");
        }
    }
}
