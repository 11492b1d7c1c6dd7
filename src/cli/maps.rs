//! Meanings of columns given on the command line, in one wording for every command that reads spreadsheets.

use super::args::MapArgs;
use super::exit::ExitCode;
use super::refusal::Refusal;
use crate::import::{ColumnMap, MapError};
use crate::language::Translator;

/// Reads the mappings given; a text that is none is told, and the command ends.
pub fn given(args: &MapArgs) -> Result<Vec<ColumnMap>, ExitCode> {
    let read = args.maps.iter().map(|text| text.parse());
    read.collect::<Result<_, _>>().map_err(|error: MapError| {
        let hint = "`import --dry-run` shows the columns and what each was taken for";
        Refusal::of(&error).hinting(Some(hint)).tell();
        ExitCode::Usage
    })
}

/// One line for each given mapping that no table had a column for.
pub fn not_used(maps: &[ColumnMap], words: &mut Translator) -> String {
    let why = words.say("Mapping not used, since no table read has such a column");
    let line = |map: &ColumnMap| format!("{why}: {map}\n");
    maps.iter().map(line).collect()
}

/// Mappings as they are typed, for JSON.
pub fn as_texts(maps: &[ColumnMap]) -> Vec<String> {
    maps.iter().map(ToString::to_string).collect()
}
