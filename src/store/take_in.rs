//! Taking an import into a workspace: all of it or nothing.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDateTime;

use super::arrival::arrive;
use super::change::{Change, changes};
use super::error::StoreError;
use super::kept_out::KeptOut;
use super::manifest::{Counts, MadeBy, Manifest, SCHEMA, SettingsFile};
use super::mending::Mending;
use super::newest_list::{set_aside, set_aside_by_list};
use super::precedence::{apply, hold};
use super::reading::{LeftOut, NotRead, Reading, carry, newest};
use super::state::State;
use super::workspace::{Encoded, Workspace};
use crate::import::{ColumnMap, Imported, RowIssue};
use crate::record::Records;

/// What came, or would come, of an import.
#[derive(Debug)]
pub struct Outcome {
    /// The snapshot; where nothing changed, what it would have been.
    pub snapshot: Manifest,
    /// False where the workspace held all of it already, and no snapshot was made.
    pub is_new: bool,
    /// Rows of older lists that do not hold although they stay, where this import brought them or what holds instead.
    pub set_aside: Vec<KeptOut>,
}

/// A snapshot worked out in memory.
struct Draft {
    manifest: Manifest,
    tables: Vec<Encoded>,
    before: State,
    after: State,
    is_new: bool,
}

impl Draft {
    fn into_outcome(self) -> Outcome {
        let number = self.manifest.number;
        let rows = set_aside(&self.after);
        let is_of_import = rows
            .iter()
            .filter(|row| row.import == number || row.newer_import == number);
        Outcome {
            set_aside: set_aside_by_list(is_of_import),
            snapshot: self.manifest,
            is_new: self.is_new,
        }
    }
}

impl Workspace {
    /// Takes an import in. Where nothing is new, no snapshot is made.
    ///
    /// # Errors
    /// [`StoreError`]; the workspace is then as it was.
    pub fn import(
        &self,
        imported: &Imported,
        made_at: NaiveDateTime,
    ) -> Result<Outcome, StoreError> {
        let _lock = self.write_lock()?;
        let draft = self.draft(imported, made_at)?;
        if draft.is_new {
            self.commit(&draft.manifest, &draft.tables)?;
        }
        Ok(draft.into_outcome())
    }

    /// Works out what an import would do, and writes nothing.
    ///
    /// # Errors
    /// [`StoreError`] where the current snapshot cannot be read.
    pub fn preview(
        &self,
        imported: &Imported,
        made_at: NaiveDateTime,
    ) -> Result<(Outcome, Vec<Change>), StoreError> {
        let mut draft = self.draft(imported, made_at)?;
        let before = hold(std::mem::take(&mut draft.before));
        let changes = changes(&before, &hold(draft.after.clone()));
        Ok((draft.into_outcome(), changes))
    }

    fn draft(&self, imported: &Imported, made_at: NaiveDateTime) -> Result<Draft, StoreError> {
        let current = match self.number()? {
            0 => None,
            number => Some(self.read(Some(number))?),
        };
        draft(current, imported, made_at)
    }

    /// Makes a snapshot that holds what an earlier one held.
    ///
    /// # Errors
    /// [`StoreError::NoSuchSnapshot`] for one that is not kept.
    pub fn restore(&self, number: u32, made_at: NaiveDateTime) -> Result<Manifest, StoreError> {
        let _lock = self.write_lock()?;
        let earlier = self.manifest(number)?;
        // Read in whole first, so that a damaged snapshot never becomes the current one.
        self.read(Some(number))?;
        let counts = |(table, counts): (&String, &Counts)| {
            (
                table.clone(),
                Counts {
                    rows: counts.rows,
                    ..Counts::default()
                },
            )
        };
        let manifest = Manifest {
            number: self.number()? + 1,
            made_at,
            made_by: MadeBy::Restore { of: number },
            counts: earlier.counts.iter().map(counts).collect(),
            kept_out: Vec::new(),
            ..earlier
        };
        self.commit(&manifest, &[])?;
        Ok(manifest)
    }
}

/// What would change by importing into an empty place: everything is new.
///
/// # Errors
/// [`StoreError::Parquet`] where a table cannot be encoded.
pub fn preview_first(
    imported: &Imported,
    made_at: NaiveDateTime,
) -> Result<(Outcome, Vec<Change>), StoreError> {
    let draft = draft(None, imported, made_at)?;
    let changes = changes(&Records::default(), &hold(draft.after.clone()));
    Ok((draft.into_outcome(), changes))
}

/// Remembered meanings of columns: those used now before those of earlier imports.
fn maps(earlier: Option<&Manifest>, imported: &Imported) -> Vec<ColumnMap> {
    let mut maps = imported.used_maps.clone();
    for known in earlier.into_iter().flat_map(|manifest| &manifest.maps) {
        let is_told_anew = |map: &ColumnMap| map.scope == known.scope && map.column == known.column;
        if !maps.iter().any(is_told_anew) {
            maps.push(known.clone());
        }
    }
    maps
}

fn draft(
    current: Option<(Manifest, State)>,
    imported: &Imported,
    made_at: NaiveDateTime,
) -> Result<Draft, StoreError> {
    let (earlier, before) = current.map_or((None, State::default()), |(manifest, state)| {
        (Some(manifest), state)
    });
    let number = earlier.as_ref().map_or(0, |manifest| manifest.number) + 1;
    // Tables are compared and stored in the order of places.
    let mut before = before;
    before.sort();
    let mut after = before.clone();
    let mut earlier_readings = earlier
        .as_ref()
        .map_or_else(Vec::new, |manifest| manifest.readings.clone());
    let mending = Mending::of(imported, &earlier_readings);
    let mut arriving = arrive(imported, number, &mending);
    let issues = std::mem::take(&mut arriving.issues);
    let mut kept_out = Vec::new();
    mending.keep_out(&mut arriving, &mut kept_out);
    kept_out.extend(apply(&mut after, arriving));
    mending.settle_problems(&mut after, &mut earlier_readings);
    let new = imported
        .tables
        .iter()
        .map(|table| Reading::new(table, number, imported.sum_of(&table.file)))
        .collect();
    let readings = carry(&earlier_readings, new, &after);
    after.issues.extend(issues);
    keep_issues(&mut after, &readings);
    let tables = Workspace::encode(&after, earlier.as_ref().map(|manifest| (manifest, &before)))?;
    let manifest = Manifest {
        schema: SCHEMA,
        number,
        made_at,
        made_by: MadeBy::Import,
        files: imported.files.clone(),
        tables: tables.iter().map(|(entry, _)| entry.clone()).collect(),
        readings,
        left_out: left_out(earlier.as_ref(), imported),
        not_read: not_read(earlier.as_ref(), imported),
        settings: settings(earlier.as_ref(), imported),
        maps: maps(earlier.as_ref(), imported),
        counts: counts(&before, &after, number),
        kept_out,
    };
    let is_new = earlier
        .as_ref()
        .is_none_or(|earlier| !earlier.holds_the_same(&manifest));
    Ok(Draft {
        manifest,
        tables,
        before,
        after,
        is_new,
    })
}

/// Problems of a table go with its newest reading.
fn keep_issues(state: &mut State, readings: &[Reading]) {
    let newest = newest(readings);
    let known: BTreeSet<(&str, &str, u32)> = newest
        .iter()
        .map(|reading| (&*reading.file, &*reading.sheet, reading.import))
        .collect();
    state.issues.retain(|row| {
        let RowIssue { place, .. } = &row.record;
        known.contains(&(&*place.file, &*place.sheet, row.origin.import))
    });
    state.sort();
}

/// Names of the files that an import looked at.
fn looked_at(imported: &Imported) -> BTreeSet<&str> {
    let opened = imported.files.iter().map(|file| file.file.as_str());
    let skipped = imported.skipped.iter().map(|skipped| &*skipped.file);
    opened
        .chain(skipped)
        .chain(imported.problems.iter().map(|problem| &*problem.file))
        .collect()
}

fn left_out(earlier: Option<&Manifest>, imported: &Imported) -> Vec<LeftOut> {
    let files = looked_at(imported);
    let earlier = earlier.into_iter().flat_map(|manifest| &manifest.left_out);
    let stays = earlier
        .filter(|left_out| !files.contains(left_out.file.as_str()))
        .cloned();
    stays
        .chain(imported.skipped.iter().map(LeftOut::new))
        .collect()
}

fn not_read(earlier: Option<&Manifest>, imported: &Imported) -> Vec<NotRead> {
    let files = looked_at(imported);
    let earlier = earlier.into_iter().flat_map(|manifest| &manifest.not_read);
    let stays = earlier
        .filter(|not_read| !files.contains(not_read.file.as_str()))
        .cloned();
    stays
        .chain(imported.problems.iter().map(NotRead::new))
        .collect()
}

/// Settings that came with the import, else those that were there.
fn settings(earlier: Option<&Manifest>, imported: &Imported) -> Option<SettingsFile> {
    let new = imported
        .settings_file
        .as_ref()
        .zip(imported.settings_text.as_ref());
    new.map(|(file, text)| SettingsFile {
        file: file.to_string(),
        text: text.clone(),
    })
    .or_else(|| earlier.and_then(|manifest| manifest.settings.clone()))
}

fn counts(before: &State, after: &State, number: u32) -> BTreeMap<String, Counts> {
    let mut counts: BTreeMap<String, Counts> = State::TABLES
        .iter()
        .map(|table| ((*table).to_owned(), Counts::default()))
        .collect();
    let mut count = |state: &State, each: fn(&mut Counts, bool)| {
        state.each_row(|table, _, import| {
            if let Some(counts) = counts.get_mut(table) {
                each(counts, import == number);
            }
        });
    };
    count(before, |counts, _| counts.dropped += 1);
    count(after, |counts, is_added| {
        counts.rows += 1;
        if is_added {
            counts.added += 1;
        } else {
            counts.dropped = counts.dropped.saturating_sub(1);
        }
    });
    counts
}
