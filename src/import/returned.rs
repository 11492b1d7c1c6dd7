//! Lists of usages all below 0 that are returns, because other lists of the import count what is used above 0.

use std::collections::BTreeSet;
use std::ops::Range;

use super::fold::fold;
use super::issue::{Problem, RowIssue, Severity};
use super::reading::TableRead;
use crate::record::UsageRecord;

/// How the note of a list begins that is taken as used.
const ALL_BELOW: &str = "every quantity is below 0, ";

/// Folded words of returns and of usages in names of files and sheets. Common practice, no source; from memory.
const RETURNS: [&str; 7] = [
    "retour",
    "ruckgabe",
    "rucklieferung",
    "rueckgabe",
    "ruecklieferung",
    "gutschrift",
    "return",
];
const USAGES: [&str; 6] = ["verbrauch", "entnahme", "usage", "issue", "consum", "conso"];

/// A list whose quantities are all below 0 and were taken as used.
#[derive(Debug, Clone)]
pub struct BelowZero {
    /// The list among the tables read.
    pub table: usize,
    /// Its usages among the records.
    pub usages: Range<usize>,
}

/// Takes lists of returns back, and tells each.
///
/// No more is returned than was used, and not before: a list of another year or of more than the others is one of usages.
pub fn settle_returns(
    usages: &mut [UsageRecord],
    tables: &mut [TableRead],
    lists: &[BelowZero],
) -> Vec<RowIssue> {
    let is_below = |at: usize| lists.iter().any(|list| list.usages.contains(&at));
    let mut returned: Vec<&BelowZero> = Vec::new();
    for list in lists.iter().filter(|list| !list.usages.is_empty()) {
        let rows = &usages[list.usages.clone()];
        let parts: BTreeSet<String> = rows.iter().map(|row| fold(&row.part)).collect();
        let used: Vec<&UsageRecord> = (usages.iter().enumerate())
            .filter(|(at, row)| row.quantity > 0.0 && !is_below(*at))
            .map(|(_, row)| row)
            .filter(|row| parts.contains(&fold(&row.part)))
            .collect();
        let given_back: f64 = rows.iter().map(|row| row.quantity).sum();
        let taken: f64 = used.iter().map(|row| row.quantity).sum();
        let first = rows.iter().map(|row| row.date).min();
        let days = || used.iter().map(|row| row.date);
        let is_meanwhile = days().min() <= first && first <= days().max();
        if !used.is_empty() && given_back <= taken && is_meanwhile {
            returned.push(list);
        }
    }
    let mut told = Vec::new();
    for list in returned {
        let rows = &mut usages[list.usages.clone()];
        for row in rows.iter_mut() {
            row.quantity = -row.quantity;
        }
        let words = format!(
            "every quantity of this list is below 0, and other lists count what is used above 0: all {} count as returned; expected issues above 0 where they are none",
            rows.len()
        );
        let table = &mut tables[list.table];
        table.why.retain(|why| !why.starts_with(ALL_BELOW));
        told.extend(rows.first().map(|row| RowIssue {
            place: row.place.clone(),
            severity: Severity::Doubtful,
            field: None,
            problem: Problem::Recorded { words },
            original_cells: Vec::new(),
        }));
    }
    told
}

/// True where the name of a file or sheet says returns and nothing of usages.
pub fn names_returns(name: &str) -> bool {
    let name = fold(name);
    let holds = |words: &[&str]| words.iter().any(|word| name.contains(word));
    holds(&RETURNS) && !holds(&USAGES)
}
