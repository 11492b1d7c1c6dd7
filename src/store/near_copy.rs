//! Stock lists of one import that say nearly what another list says: a copy in which somebody went on counting.

use std::collections::{BTreeMap, HashMap, HashSet};

use super::origin::Kept;
use super::repeated_list::{List, is_one_name, lists_of};
use super::same::same_shelf;
use crate::import::{Problem, RowIssue, Severity};
use crate::record::StockRecord;

/// Least share of the rows of the longer list that stand in the shorter one too. Common practice, no source.
const LEAST_EQUAL_SHARE: f64 = 0.8;
/// Fewest equal rows that are no chance where bins are named or the names of the files are one. Common practice, no source.
const FEWEST_EQUAL: usize = 4;
/// Fewest where neither is so: two halls keep some of the same. Common practice, no source.
const FEWEST_EQUAL_WITHOUT_BINS: usize = 10;
/// Fewest rows of a list that is told of another one of its name and its shelves. Common practice, no source.
const FEWEST_TOLD: usize = 2;
/// Parts of a list that are looked up in the other one before its rows are put into words.
const PARTS_TRIED: usize = 32;

/// Two lists that say nearly the same.
pub(super) struct NearCopy {
    /// Rows of the list that has the shorter name.
    original: Vec<usize>,
    /// Rows of the other one.
    copy: Vec<usize>,
    /// Rows that both say alike: of the copy, of the original.
    equal: Vec<(usize, usize)>,
    /// Rows of one shelf that differ: of the original, of the copy.
    of_one_shelf: Vec<(usize, usize)>,
    /// True where it is surely a copy.
    is_sure: bool,
}

impl NearCopy {
    /// What the reader is told of the two lists, at the first row of the copy.
    pub(super) fn as_issue(&self, rows: &[Kept<StockRecord>]) -> Option<RowIssue> {
        let first = &rows[*self.original.iter().min()?].record.place;
        let (equal, all) = (self.equal.len(), self.copy.len());
        let words = match self.is_sure {
            true => format!(
                "{equal} of {all} rows of this list say just what another one says from {first} on and count once; of a shelf on which the two differ the smaller number counts; expected the newer list alone"
            ),
            false => format!(
                "{equal} of {all} rows of this list say just what another one says from {first} on, and both lists count; where one of them is a copy, take its file or sheet away and run again, or in a workspace restore the snapshot before it and import the other alone"
            ),
        };
        Some(RowIssue {
            place: rows[*self.copy.iter().min()?].record.place.clone(),
            severity: Severity::Doubtful,
            field: None,
            problem: Problem::Recorded { words },
            original_cells: Vec::new(),
        })
    }
}

/// Rows that do not count, each with the row that counts in its place.
///
/// Of a shelf that the lists count otherwise the smaller number counts: what is counted too low is ordered too early, what is
/// counted too high is missing when a machine is down. Common practice, no source.
pub(super) fn left_out(rows: &[Kept<StockRecord>], found: &[NearCopy]) -> Vec<(usize, usize)> {
    // Where a list does not say how many there are, the other one does.
    let count = |at: usize| rows[at].record.on_hand.unwrap_or(f64::INFINITY);
    // A list may have several copies: the row that counts so far for a row of the original.
    let mut counting: HashMap<usize, usize> = HashMap::new();
    let mut out = Vec::new();
    for near in found.iter().filter(|near| near.is_sure) {
        out.extend(near.equal.iter().copied());
        for (of_original, of_copy) in &near.of_one_shelf {
            let so_far = counting.entry(*of_original).or_insert(*of_original);
            if count(*of_copy) < count(*so_far) {
                out.push((*so_far, *of_copy));
                *so_far = *of_copy;
            } else {
                out.push((*of_copy, *so_far));
            }
        }
    }
    out
}

/// Pairs of lists that say nearly, but not just, the same. Only rows marked in `holds` are looked at.
pub(super) fn near_copies(rows: &[Kept<StockRecord>], holds: &[bool]) -> Vec<NearCopy> {
    let lists: Vec<(List<'_>, Vec<usize>)> = lists_of(rows, holds)
        .into_iter()
        .filter(|(_, positions)| positions.len() >= FEWEST_TOLD)
        .collect();
    if lists.len() < 2 {
        return Vec::new();
    }
    let parts: Vec<HashSet<&str>> = (lists.iter())
        .map(|(_, positions)| positions.iter().map(|at| &*rows[*at].record.part).collect())
        .collect();
    let mut found = Vec::new();
    let mut is_copy = vec![false; lists.len()];
    for one in 0..lists.len() {
        for other in one + 1..lists.len() {
            let (shorter, longer) = if lists[one].1.len() <= lists[other].1.len() {
                (one, other)
            } else {
                (other, one)
            };
            let is_tried = lists[one].0.2 == lists[other].0.2
                && !is_copy[one]
                && !is_copy[other]
                && is_share(lists[shorter].1.len(), lists[longer].1.len())
                && are_parts_alike(rows, &lists[shorter].1, &parts[longer]);
            if !is_tried {
                continue;
            }
            // The original has the shorter name: `stock.xlsx` before `stock (1).xlsx`.
            let name = |at: usize| {
                let (file, sheet, _) = lists[at].0;
                (file.len(), sheet.len(), file, sheet)
            };
            let (original, copy) = if name(one) <= name(other) {
                (one, other)
            } else {
                (other, one)
            };
            if let Some(near) = near_copy(rows, &lists[original].1, &lists[copy].1) {
                is_copy[copy] = near.is_sure;
                found.push(near);
            }
        }
    }
    found
}

/// True where so many of all are nearly all.
fn is_share(some: usize, all: usize) -> bool {
    some as f64 >= LEAST_EQUAL_SHARE * all as f64
}

/// A cheap look that leaves lists of other parts out: most of the first parts of one must stand in the other.
fn are_parts_alike(
    rows: &[Kept<StockRecord>],
    positions: &[usize],
    others: &HashSet<&str>,
) -> bool {
    let tried = positions.len().min(PARTS_TRIED);
    let first = positions.iter().take(PARTS_TRIED);
    let alike = first.filter(|at| others.contains(&*rows[**at].record.part));
    2 * alike.count() >= tried
}

/// The two lists, where nearly all of their rows are equal, and not all; or where they are short, of one name and the same
/// shelves, and one of these is counted otherwise: these are told and count both.
fn near_copy(rows: &[Kept<StockRecord>], original: &[usize], copy: &[usize]) -> Option<NearCopy> {
    let mut said: HashMap<String, Vec<usize>> = HashMap::new();
    for at in original.iter().rev() {
        said.entry(content(&rows[*at])).or_default().push(*at);
    }
    let (mut equal, mut others) = (Vec::new(), Vec::new());
    for at in copy {
        match said.get_mut(&content(&rows[*at])).and_then(Vec::pop) {
            Some(first) => equal.push((*at, first)),
            None => others.push(*at),
        }
    }
    let longer = original.len().max(copy.len());
    let is_all = equal.len() == longer;
    if is_all || equal.is_empty() {
        return None;
    }
    let is_one_name = is_one_name(rows, original, copy);
    let are_most_equal = equal.len() >= FEWEST_EQUAL && is_share(equal.len(), longer);
    let left: Vec<usize> = said.into_values().flatten().collect();
    let of_one_shelf = of_one_shelf(rows, &left, &others);
    let is_short_copy = longer <= FEWEST_EQUAL
        && is_one_name
        && of_one_shelf.len() == 1
        && equal.len() + 1 == longer;
    if !are_most_equal && !is_short_copy {
        return None;
    }
    let has_bins = equal.iter().all(|(at, _)| rows[*at].record.bin.is_some());
    let is_plain = has_bins || is_one_name || equal.len() >= FEWEST_EQUAL_WITHOUT_BINS;
    Some(NearCopy {
        original: original.to_vec(),
        copy: copy.to_vec(),
        of_one_shelf,
        equal,
        is_sure: are_most_equal && is_plain,
    })
}

/// Rows of one shelf that two lists count otherwise, where each says it once: of the original, of the copy.
fn of_one_shelf(
    rows: &[Kept<StockRecord>],
    original: &[usize],
    copy: &[usize],
) -> Vec<(usize, usize)> {
    let mut shelves: BTreeMap<String, (Vec<usize>, Vec<usize>)> = BTreeMap::new();
    for at in original {
        let shelf = shelves.entry(same_shelf(&rows[*at])).or_default();
        shelf.0.push(*at);
    }
    for at in copy {
        let shelf = shelves.entry(same_shelf(&rows[*at])).or_default();
        shelf.1.push(*at);
    }
    let pairs = shelves.into_values().filter_map(|shelf| match shelf {
        (one, other) if one.len() == 1 && other.len() == 1 => Some((one[0], other[0])),
        _ => None,
    });
    pairs.collect()
}

/// What a row says of its shelf.
fn content(row: &Kept<StockRecord>) -> String {
    let stock = &row.record;
    format!(
        "{}|{:?}|{:?}|{:?}|{:?}",
        same_shelf(row),
        stock.on_hand,
        stock.reserved,
        stock.on_order,
        stock.due_date
    )
}
