//! Mended rows take the place of the rows they mend.
//!
//! 1. A mended row stands in the list of the row it mends: the next edition of that list replaces it too.
//! 2. The row it mends goes, doubtful or mended before; a rejected one was never there, and its problems go.
//! 3. Rows of other lists that speak of the same are replaced or hold as if the row had been right at once.
//! 4. Where the file was imported again since with other contents, the row number means nothing any more: the mended row
//!    is kept out and told.

use std::collections::{BTreeMap, HashMap, HashSet};

use chrono::NaiveDate;

use super::kept_out::KeptOut;
use super::origin::{Kept, Mends, Placed};
use super::reading::Reading;
use super::rule::{Rule, is_newer, tell};
use super::state::State;
use super::table::Stored;
use crate::import::{Imported, MendedRow, Severity};
use crate::place::Place;
use crate::record::OfferRecord;

/// What an import mends, by the rows of the workbook it came in.
#[derive(Debug, Default)]
pub(super) struct Mending {
    /// Rows with those they mend.
    pub(super) mends: HashMap<Place, Mends>,
    /// Rows whose file was imported again since.
    pub(super) stale: HashMap<Place, Place>,
}

impl Mending {
    /// Finds the reading of each row that an import mends.
    pub(super) fn of(imported: &Imported, readings: &[Reading]) -> Self {
        let mut mending = Self::default();
        for mended in &imported.mended {
            let reading = newest_reading(readings, &mended.original);
            if reading.is_some_and(|reading| is_other_edition(reading, mended)) {
                mending
                    .stale
                    .insert(mended.place.clone(), mended.original.clone());
            } else {
                let mends = Mends {
                    place: mended.original.clone(),
                    import: reading.map(|reading| reading.import),
                };
                mending.mends.insert(mended.place.clone(), mends);
            }
        }
        mending
    }

    /// Takes the stale rows out of what arrives, and tells them.
    pub(super) fn keep_out(&self, arriving: &mut State, out: &mut Vec<KeptOut>) {
        if self.stale.is_empty() {
            return;
        }
        arriving.retain(|table, place| {
            let Some(original) = self.stale.get(place) else {
                return true;
            };
            out.push(KeptOut {
                table: table.to_owned(),
                what: format!("{original}, imported again since with other contents"),
                file: place.file.to_string(),
                dated: None,
                rows: 1,
                newer_file: original.file.to_string(),
                newer_dated: None,
                is_repeat: false,
            });
            false
        });
    }

    /// Takes the problems of mended rows out of a state, and the rows out of the counts of their readings: they are
    /// counted where they were mended.
    pub(super) fn settle_problems(&self, state: &mut State, readings: &mut [Reading]) {
        // Each original with whether it had a problem, and whether it was rejected.
        let mut places: HashMap<(Place, u32), (bool, bool)> = self
            .mends
            .values()
            .filter_map(|mends| Some(((mends.place.clone(), mends.import?), (false, false))))
            .collect();
        if places.is_empty() {
            return;
        }
        state.issues.retain(|row| {
            let mut place = row.record.place.clone();
            place.column = None;
            let Some(found) = places.get_mut(&(place, row.origin.import)) else {
                return true;
            };
            found.0 = true;
            found.1 |= row.record.severity == Severity::Rejected;
            false
        });
        for ((place, _), (had_problem, was_rejected)) in places {
            let reading = newest_reading_mut(readings, &place);
            if let Some(reading) = reading.filter(|_| had_problem) {
                reading.rows.read = reading.rows.read.saturating_sub(1);
                let rejected = usize::from(was_rejected);
                reading.rows.rejected = reading.rows.rejected.saturating_sub(rejected);
            }
        }
    }
}

fn holds(reading: &Reading, place: &Place) -> bool {
    *reading.file == *place.file
        && *reading.sheet == *place.sheet
        && (reading.data_rows.0..reading.data_rows.1).contains(&place.row)
}

/// The newest reading of the sheet a row stood on.
fn newest_reading<'r>(readings: &'r [Reading], place: &Place) -> Option<&'r Reading> {
    let here = readings
        .iter()
        .filter(|reading| *reading.file == *place.file && *reading.sheet == *place.sheet);
    let newest = here.clone().map(|reading| reading.import).max()?;
    let mut of_import = here.filter(|reading| reading.import == newest);
    let first = of_import.clone().next();
    of_import.find(|reading| holds(reading, place)).or(first)
}

fn newest_reading_mut<'r>(readings: &'r mut [Reading], place: &Place) -> Option<&'r mut Reading> {
    let here = readings.iter_mut().filter(|reading| holds(reading, place));
    here.max_by_key(|reading| reading.import)
}

/// True where the file a row stood in and the one that was read since are not the same.
fn is_other_edition(reading: &Reading, mended: &MendedRow) -> bool {
    let sums = mended.sha256.as_ref().zip(reading.sha256.as_ref());
    sums.is_some_and(|(of_row, of_reading)| of_row != of_reading)
}

/// Puts mended rows in the places of the rows they mend; without a rule they stand beside all others.
pub(super) fn mend<R: Placed>(
    kept: &mut Vec<Kept<R>>,
    mended: Vec<Kept<R>>,
    out: &mut Vec<KeptOut>,
    rule: Option<&Rule<R>>,
) {
    if mended.is_empty() {
        return;
    }
    let mut originals = take_originals(kept, &mended);
    let dates = dates_of_sheets(kept, originals.values().flatten());
    let mut added: Vec<Kept<R>> = Vec::with_capacity(mended.len());
    // Rows whose originals are not there: by what they speak of, and list by list.
    let mut others: BTreeMap<(String, Sheet), Vec<Kept<R>>> = BTreeMap::new();
    for mut row in mended {
        let home = row.home().clone();
        let is_quote = R::TABLE == OfferRecord::TABLE && !row.origin.is_whole_list;
        let of_sheet = dates.get(&sheet_of(&home)).copied().flatten();
        if let Some(date) = of_sheet.filter(|_| !is_quote) {
            // Dated by its list, of which the workbook of rejects held a part only.
            row.origin.dated = Some(date);
        }
        match (originals.remove(&home), rule) {
            (Some(old), _) => {
                let is_known = |old: &Kept<R>| {
                    let is_same_row = old.origin.mends.is_some() && old.record == row.record;
                    is_same_row && old.record.place() == row.record.place()
                };
                let known = old.into_iter().find(is_known);
                added.push(known.unwrap_or(row));
            }
            (None, None) => added.push(row),
            (None, Some(rule)) => {
                let key = ((rule.key)(&row), sheet_of(&home));
                others.entry(key).or_default().push(row);
            }
        }
    }
    let gone = match rule {
        Some(rule) => stand_beside(kept, others, &mut added, out, rule),
        None => HashSet::new(),
    };
    let mut at = 0;
    kept.retain(|_| {
        at += 1;
        !gone.contains(&(at - 1))
    });
    kept.extend(added);
}

/// Rule 3: takes rows that stand beside the rest of their list or are newer than what other lists say; the positions of
/// rows that they replace.
fn stand_beside<R: Placed>(
    kept: &[Kept<R>],
    rows: BTreeMap<(String, Sheet), Vec<Kept<R>>>,
    added: &mut Vec<Kept<R>>,
    out: &mut Vec<KeptOut>,
    rule: &Rule<R>,
) -> HashSet<usize> {
    let mut gone = HashSet::new();
    let wanted: HashSet<&str> = rows.keys().map(|(key, _)| key.as_str()).collect();
    let groups = groups(kept, &wanted, rule);
    for ((key, sheet), rows) in &rows {
        let group = groups.get(key).map_or(&[][..], Vec::as_slice);
        if group.iter().any(|at| sheet_of(kept[*at].home()) == *sheet) {
            added.extend(rows.iter().cloned());
            continue;
        }
        let others: Vec<Kept<R>> = group.iter().map(|at| kept[*at].clone()).collect();
        if is_newer(rows, &others, rule) {
            gone.extend(group);
            added.extend(rows.iter().cloned());
        } else {
            tell(out, rows, &others, rule);
        }
    }
    gone
}

type Sheet = (std::sync::Arc<str>, std::sync::Arc<str>);

fn sheet_of(place: &Place) -> Sheet {
    (place.file.clone(), place.sheet.clone())
}

/// Takes the rows out that stand where mended ones go.
fn take_originals<R: Placed>(
    kept: &mut Vec<Kept<R>>,
    mended: &[Kept<R>],
) -> HashMap<Place, Vec<Kept<R>>> {
    let homes: HashSet<&Place> = mended.iter().map(Kept::home).collect();
    let mut originals: HashMap<Place, Vec<Kept<R>>> = HashMap::new();
    let mut rest = Vec::with_capacity(kept.len());
    for row in std::mem::take(kept) {
        if homes.contains(row.home()) {
            originals.entry(row.home().clone()).or_default().push(row);
        } else {
            rest.push(row);
        }
    }
    *kept = rest;
    originals
}

/// The date of each list, where its rows have one in common.
fn dates_of_sheets<'r, R: Placed + 'r>(
    kept: &'r [Kept<R>],
    originals: impl Iterator<Item = &'r Kept<R>>,
) -> HashMap<Sheet, Option<NaiveDate>> {
    let mut dates: HashMap<Sheet, Option<NaiveDate>> = HashMap::new();
    for row in kept.iter().chain(originals) {
        let date = row.origin.dated;
        dates
            .entry(sheet_of(row.home()))
            .and_modify(|of_sheet| {
                if *of_sheet != date {
                    *of_sheet = None;
                }
            })
            .or_insert(date);
    }
    dates
}

/// Positions of the rows that speak of what is wanted.
fn groups<R: Placed>(
    kept: &[Kept<R>],
    wanted: &HashSet<&str>,
    rule: &Rule<R>,
) -> HashMap<String, Vec<usize>> {
    let mut groups: HashMap<String, Vec<usize>> = HashMap::new();
    if wanted.is_empty() {
        return groups;
    }
    for (at, row) in kept.iter().enumerate() {
        let key = (rule.key)(row);
        if wanted.contains(&*key) {
            groups.entry(key).or_default().push(at);
        }
    }
    groups
}
