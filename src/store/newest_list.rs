//! Of rows about the same thing in different lists, those of the newest list; the others are set aside and told.

use std::collections::{BTreeMap, HashMap};

use chrono::NaiveDate;

use super::kept_out::KeptOut;
use super::origin::{Kept, Placed};
use super::repeated_list::repeats;
use super::same::{same_offer, same_shelf};
use super::state::State;
use super::table::Stored;
use crate::import::{Problem, RowIssue, Severity};
use crate::place::Place;
use crate::record::StockRecord;

/// For each row whether its list is the newest of those that speak of the same thing.
pub(super) fn holding<R: Placed>(rows: &[Kept<R>], same: fn(&Kept<R>) -> String) -> Vec<bool> {
    if is_one_edition(rows) {
        return vec![true; rows.len()];
    }
    let by_list = by_list(rows, same);
    by_list.into_iter().map(|row| row.holds).collect()
}

/// For each row of stock whether it counts: its list is the newest that speaks of its shelf, and repeats no other.
pub(super) fn holding_stock(rows: &[Kept<StockRecord>]) -> Vec<bool> {
    let newest = holding(rows, same_shelf);
    let repeats = repeats(rows, &newest);
    let both = newest.iter().zip(repeats);
    both.map(|(newest, repeat)| *newest && repeat.is_none())
        .collect()
}

/// True where all rows are of one import and one date: then none is older than another, whatever they speak of.
fn is_one_edition<R: Placed>(rows: &[Kept<R>]) -> bool {
    let edition = |row: &Kept<R>| (row.home_import(), row.origin.dated);
    rows.windows(2)
        .all(|pair| edition(&pair[0]) == edition(&pair[1]))
}

/// A row with what it is about, and whether its list is the newest of those that speak of it.
struct Listed<'a, R> {
    row: &'a Kept<R>,
    key: String,
    holds: bool,
}

fn by_list<R: Placed>(rows: &[Kept<R>], same: fn(&Kept<R>) -> String) -> Vec<Listed<'_, R>> {
    let mut groups: HashMap<String, (bool, Option<NaiveDate>, u32)> = HashMap::new();
    let keys: Vec<String> = rows.iter().map(same).collect();
    for (row, key) in rows.iter().zip(&keys) {
        let newest = groups.entry(key.clone()).or_insert((true, None, 0));
        newest.0 &= row.origin.dated.is_some();
        newest.1 = newest.1.max(row.origin.dated);
        newest.2 = newest.2.max(row.home_import());
    }
    let holds = |row: &Kept<R>, key: &String| match groups.get(key) {
        Some((true, date, _)) => row.origin.dated == *date,
        Some((false, _, import)) => row.home_import() == *import,
        None => true,
    };
    rows.iter()
        .zip(keys)
        .map(|(row, key)| Listed {
            row,
            holds: holds(row, &key),
            key,
        })
        .collect()
}

/// A row that does not hold because a newer list speaks of the same, or another list says just the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct SetAside {
    /// Table.
    pub(super) table: &'static str,
    /// Supplier or part that is concerned.
    pub(super) what: String,
    /// The row.
    pub(super) place: Place,
    /// Its import.
    pub(super) import: u32,
    /// Date of its list.
    pub(super) dated: Option<NaiveDate>,
    /// A row that holds instead.
    pub(super) newer: Place,
    /// Its import.
    pub(super) newer_import: u32,
    /// Date of its list.
    pub(super) newer_dated: Option<NaiveDate>,
    /// True where its list is no newer, but a copy of the other.
    pub(super) is_repeat: bool,
}

impl SetAside {
    /// The row as a note for the reader.
    pub(super) fn as_issue(&self) -> RowIssue {
        let words = if self.is_repeat {
            format!(
                "not used: this list says what another one says, and {} counts instead; what is there twice belongs into one list",
                self.newer
            )
        } else {
            format!(
                "not used: {}{} says something newer of the same",
                self.newer,
                self.newer_dated
                    .map_or_else(String::new, |date| format!(", of {date},"))
            )
        };
        RowIssue {
            place: self.place.clone(),
            severity: Severity::Note,
            field: None,
            problem: Problem::Recorded { words },
            original_cells: Vec::new(),
        }
    }
}

/// Every row that [`hold`] leaves out because a newer list speaks of the same, in order of places.
pub(super) fn set_aside(state: &State) -> Vec<SetAside> {
    let mut found = of_older_lists(&state.offers, same_offer, |offer| {
        offer.supplier.to_string()
    });
    found.extend(of_older_lists(&state.stock, same_shelf, |stock| {
        stock.part.clone()
    }));
    found.extend(of_repeated_lists(&state.stock));
    found
}

fn of_repeated_lists(rows: &[Kept<StockRecord>]) -> impl Iterator<Item = SetAside> {
    let repeats = repeats(rows, &holding(rows, same_shelf));
    let pairs = rows.iter().zip(repeats);
    pairs.filter_map(|(row, counted)| {
        let counted = &rows[counted?];
        Some(SetAside {
            table: StockRecord::TABLE,
            what: row.record.part.clone(),
            place: row.record.place.clone(),
            import: row.origin.import,
            dated: row.origin.dated,
            newer: counted.record.place.clone(),
            newer_import: counted.origin.import,
            newer_dated: counted.origin.dated,
            is_repeat: true,
        })
    })
}

fn of_older_lists<R: Placed>(
    rows: &[Kept<R>],
    same: fn(&Kept<R>) -> String,
    what: fn(&R) -> String,
) -> Vec<SetAside> {
    if is_one_edition(rows) {
        return Vec::new();
    }
    let listed = by_list(rows, same);
    if listed.iter().all(|row| row.holds) {
        return Vec::new();
    }
    let mut holding: HashMap<&str, &Kept<R>> = HashMap::new();
    for row in listed.iter().filter(|row| row.holds) {
        holding.entry(&row.key).or_insert(row.row);
    }
    let older = listed.iter().filter(|row| !row.holds);
    older
        .filter_map(|older| {
            let newer = holding.get(&*older.key)?;
            Some(SetAside {
                table: R::TABLE,
                what: what(&older.row.record),
                place: older.row.record.place().clone(),
                import: older.row.origin.import,
                dated: older.row.origin.dated,
                newer: newer.record.place().clone(),
                newer_import: newer.origin.import,
                newer_dated: newer.origin.dated,
                is_repeat: false,
            })
        })
        .collect()
}

/// Rows that were set aside, one note per supplier or table and pair of files.
pub(super) fn set_aside_by_list<'a>(rows: impl IntoIterator<Item = &'a SetAside>) -> Vec<KeptOut> {
    type Lists<'a> = (&'static str, &'a str, &'a str, &'a str);
    let mut by_list: BTreeMap<Lists<'_>, KeptOut> = BTreeMap::new();
    for row in rows {
        let what = match (row.is_repeat, row.table) {
            (true, _) => "the same stock",
            (false, StockRecord::TABLE) => "stock",
            _ => &row.what,
        };
        let lists = (row.table, what, &*row.place.file, &*row.newer.file);
        let told = by_list.entry(lists).or_insert_with(|| KeptOut {
            table: row.table.to_owned(),
            what: what.to_owned(),
            file: row.place.file.to_string(),
            dated: row.dated,
            rows: 0,
            newer_file: row.newer.file.to_string(),
            newer_dated: row.newer_dated,
            is_repeat: row.is_repeat,
        });
        told.rows += 1;
    }
    by_list.into_values().collect()
}
