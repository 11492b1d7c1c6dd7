//! Rows that several files tell alike.

use std::collections::{BTreeMap, HashMap};

use super::origin::{Kept, Placed};
use crate::place::Place;

/// Of rows that say the same, those of the one source (file and import) that says it most often; of equals the first
/// file's, in its newest edition. The order of rows stays.
pub(super) fn told_once<R: Placed>(
    rows: &[Kept<R>],
    content: impl Fn(&R) -> String,
) -> Vec<&Kept<R>> {
    let chosen = told_once_at(rows, content).into_iter();
    chosen.map(|at| &rows[at]).collect()
}

/// The positions of the rows of [`told_once`], rising.
pub(super) fn told_once_at<R: Placed>(
    rows: &[Kept<R>],
    content: impl Fn(&R) -> String,
) -> Vec<usize> {
    let mut sources: HashMap<String, BTreeMap<(&str, u32), Vec<usize>>> = HashMap::new();
    for (at, row) in rows.iter().enumerate() {
        let by_source = sources.entry(content(&row.record)).or_default();
        let source = (&*row.home().file, row.home_import());
        by_source.entry(source).or_default().push(at);
    }
    let most = |by_source: BTreeMap<(&str, u32), Vec<usize>>| {
        let best = by_source.into_iter().max_by(
            |((file, import), rows), ((other_file, other_import), others)| {
                let by_count = rows.len().cmp(&others.len());
                by_count
                    .then(other_file.cmp(file))
                    .then(import.cmp(other_import))
            },
        );
        best.map(|(_, rows)| rows).unwrap_or_default()
    };
    let mut chosen: Vec<usize> = sources.into_values().flat_map(most).collect();
    chosen.sort_unstable();
    chosen
}

/// No place, for comparing what rows say and not where.
pub(super) fn nowhere() -> Place {
    Place::row(&"".into(), &"".into(), 0)
}
