//! Usages are added, each once: rule 5 of `precedence`.

use std::collections::{BTreeMap, HashMap, HashSet};

use super::kept_out::{KeptOut, SAME_USAGES};
use super::origin::Kept;
use super::same::usage_key;
use super::table::Stored;
use super::told_once::told_once;
use crate::place::Place;
use crate::record::UsageRecord;

/// Adds usages, each once.
pub(super) fn add_usages(
    kept: &mut Vec<Kept<UsageRecord>>,
    incoming: Vec<Kept<UsageRecord>>,
    out: &mut Vec<KeptOut>,
) {
    if incoming.is_empty() {
        return;
    }
    let old = std::mem::take(kept);
    let known: HashMap<Place, u32> = old
        .iter()
        .map(|row| (row.record.place.clone(), row.origin.import))
        .collect();
    let all: Vec<_> = old.iter().chain(&incoming).cloned().collect();
    let mut chosen: Vec<_> = told_once(&all, usage_key).into_iter().cloned().collect();
    // A row that came again as it was keeps the import it first came with.
    let before: HashMap<(Place, u32), &Kept<UsageRecord>> = old
        .iter()
        .map(|row| ((row.record.place.clone(), row.origin.import), row))
        .collect();
    for row in &mut chosen {
        let first = known
            .get(&row.record.place)
            .and_then(|import| before.get(&(row.record.place.clone(), *import)));
        if let Some(first) = first.filter(|first| first.record == row.record) {
            row.origin = first.origin.clone();
        }
    }
    tell_told_elsewhere(&incoming, &chosen, out);
    *kept = chosen;
}

/// Says which incoming usages do not count because another file tells them too.
fn tell_told_elsewhere(
    incoming: &[Kept<UsageRecord>],
    chosen: &[Kept<UsageRecord>],
    out: &mut Vec<KeptOut>,
) {
    let taken: HashSet<&Place> = chosen.iter().map(|row| &row.record.place).collect();
    let mut left = incoming
        .iter()
        .filter(|row| !taken.contains(&row.record.place))
        .peekable();
    if left.peek().is_none() {
        return;
    }
    let by_content: HashMap<String, &Kept<UsageRecord>> = chosen
        .iter()
        .map(|row| (usage_key(&row.record), row))
        .collect();
    let mut by_files: BTreeMap<(String, String), KeptOut> = BTreeMap::new();
    for row in left {
        let Some(holds) = by_content.get(&usage_key(&row.record)) else {
            continue;
        };
        let (file, other) = (&row.record.place.file, &holds.record.place.file);
        if file == other {
            continue;
        }
        let told = by_files
            .entry((file.to_string(), other.to_string()))
            .or_insert_with(|| KeptOut {
                table: UsageRecord::TABLE.to_owned(),
                what: SAME_USAGES.to_owned(),
                file: file.to_string(),
                dated: row.origin.dated,
                rows: 0,
                newer_file: other.to_string(),
                newer_dated: holds.origin.dated,
                is_repeat: false,
            });
        told.rows += 1;
    }
    out.extend(by_files.into_values());
}
