//! Where each value about a part came from, and what it replaced.
//!
//! A value leads to its cell through the reading of its table; what it replaced is looked up in the newest snapshot
//! that is older than its import and still kept.

use std::collections::BTreeMap;

use chrono::NaiveDateTime;
use serde::{Serialize, Serializer};

use super::error::StoreError;
use super::manifest::Manifest;
use super::newest_list::set_aside;
use super::origin::{Kept, Placed};
use super::source_field::source_fields;
use super::state::State;
use super::table::Table;
use super::workspace::Workspace;
use crate::part::NameKey;
use crate::place::Place;

/// One value and where it came from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Provenance {
    /// Table.
    pub table: &'static str,
    /// Column of the stored table.
    pub column: String,
    /// Value; `None` where the row says nothing and replaced a row that did.
    pub value: Option<String>,
    /// Cell, or the row where no single column gave the value.
    #[serde(serialize_with = "place")]
    pub place: Place,
    /// Number of the import.
    pub import: u32,
    /// When it was imported; `None` where that snapshot is no longer kept.
    pub imported_at: Option<NaiveDateTime>,
    /// What it replaced.
    pub replaced: Option<Replaced>,
    /// The row that holds instead, where this one is of an older list and is not used.
    #[serde(serialize_with = "place_or_null")]
    pub not_used_for: Option<Place>,
}

/// A value that was replaced.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Replaced {
    /// Value; `None` where the earlier row said nothing.
    pub value: Option<String>,
    /// Cell or row.
    #[serde(serialize_with = "place")]
    pub place: Place,
    /// Number of the import.
    pub import: u32,
}

/// `file`, `sheet` and `cell`.
fn place<S: Serializer>(place: &Place, serializer: S) -> Result<S::Ok, S::Error> {
    #[derive(Serialize)]
    struct Cell<'a> {
        file: &'a str,
        sheet: Option<&'a str>,
        cell: String,
    }
    let sheet = (!place.sheet.is_empty()).then_some(&*place.sheet);
    Cell {
        file: &place.file,
        sheet,
        cell: place.cell(),
    }
    .serialize(serializer)
}

fn place_or_null<S: Serializer>(found: &Option<Place>, serializer: S) -> Result<S::Ok, S::Error> {
    match found {
        Some(found) => place(found, serializer),
        None => serializer.serialize_none(),
    }
}

/// Rows of one table that speak about a part, as one-row tables.
struct Row {
    table: &'static str,
    /// What the row is about; a row of an earlier snapshot with the same identity is the one that was replaced.
    identity: Option<String>,
    place: Place,
    import: u32,
    cells: Table,
}

/// Snapshots read on the way.
struct Past<'a> {
    workspace: &'a Workspace,
    numbers: Vec<u32>,
    read: BTreeMap<u32, (Manifest, State)>,
    names: Vec<String>,
}

impl Workspace {
    /// Every value about a part in the current snapshot, by table and row.
    ///
    /// # Errors
    /// [`StoreError::NoSuchPart`] where no row is about it.
    pub fn explain(&self, part: &str) -> Result<Vec<Provenance>, StoreError> {
        let (manifest, state) = self.read(None)?;
        let names = names_of(&state, part);
        let rows = rows_about(&state, &names);
        if rows.is_empty() {
            return Err(StoreError::NoSuchPart {
                part: part.to_owned(),
            });
        }
        let mut past = Past {
            workspace: self,
            numbers: self.kept_numbers()?,
            read: BTreeMap::new(),
            names,
        };
        let older = set_aside(&state);
        let mut all = Vec::new();
        for row in &rows {
            let imported_at = past.made_at(row.import)?;
            let before = past.replaced_by(row)?;
            let newer = older.iter().find(|older| {
                older.table == row.table && older.place == row.place && older.import == row.import
            });
            let values = values(row, before.as_ref(), imported_at, &manifest);
            all.extend(values.into_iter().map(|value| Provenance {
                not_used_for: newer.map(|newer| newer.newer.clone()),
                ..value
            }));
        }
        Ok(all)
    }
}

impl Past<'_> {
    fn made_at(&self, import: u32) -> Result<Option<NaiveDateTime>, StoreError> {
        if !self.numbers.contains(&import) {
            return Ok(None);
        }
        Ok(Some(self.workspace.manifest(import)?.made_at))
    }

    /// The row that a row replaced, with the manifest of its snapshot.
    fn replaced_by(&mut self, row: &Row) -> Result<Option<(Row, Manifest)>, StoreError> {
        let earlier = self
            .numbers
            .iter()
            .rev()
            .copied()
            .find(|number| *number < row.import);
        let (Some(number), Some(_)) = (earlier, &row.identity) else {
            return Ok(None);
        };
        if !self.read.contains_key(&number) {
            self.read.insert(number, self.workspace.read(Some(number))?);
        }
        let Some((manifest, state)) = self.read.get(&number) else {
            return Ok(None);
        };
        let found = rows_about(state, &self.names)
            .into_iter()
            .find(|old| old.table == row.table && old.identity == row.identity);
        Ok(found.map(|found| (found, manifest.clone())))
    }
}

/// Own number, aliases and designation of a part, as keys.
fn names_of(state: &State, part: &str) -> Vec<String> {
    let mut names = vec![key(part)];
    for row in &state.parts {
        let record = &row.record;
        if key(&record.own_number) == names[0] {
            names.extend(
                record
                    .aliases
                    .iter()
                    .chain(&record.designation)
                    .map(|name| key(name)),
            );
        }
    }
    names.retain(|name| !name.is_empty());
    names
}

fn key(text: &str) -> String {
    NameKey::new(text).into_text()
}

fn rows_about(state: &State, names: &[String]) -> Vec<Row> {
    let is_named = |name: &str| names.contains(&key(name));
    let is_own = |name: &str| names.first() == Some(&key(name));
    let low = |text: &str| text.trim().to_lowercase();
    let mut rows = Vec::new();
    add(
        &mut rows,
        &state.parts,
        |part| is_own(&part.own_number),
        |_| Some(String::new()),
    );
    let of_offer = |offer: &crate::record::OfferRecord| match &offer.own_number {
        Some(own) => is_named(own),
        None => offer.designation.as_deref().is_some_and(is_named),
    };
    add(&mut rows, &state.offers, of_offer, |offer| {
        Some(format!(
            "{}|{:?}|{:?}",
            low(&offer.supplier),
            offer.condition,
            offer.unit_of_count
        ))
    });
    add(
        &mut rows,
        &state.stock,
        |stock| is_named(&stock.part),
        |stock| {
            Some(format!(
                "{:?}|{:?}|{:?}",
                stock.bin, stock.lot, stock.unit_of_count
            ))
        },
    );
    add(
        &mut rows,
        &state.kit_lines,
        |line| line.part.as_deref().is_some_and(is_named),
        |line| Some(format!("{}|{}", low(&line.kit), low(&line.line))),
    );
    add(
        &mut rows,
        &state.other_ways,
        |way| is_named(&way.part),
        |way| Some(format!("{:?}|{:?}|{:?}", way.kind, way.kit, way.line)),
    );
    add(
        &mut rows,
        &state.receipts,
        |receipt| is_named(&receipt.part),
        |receipt| Some(format!("{}|{}", low(&receipt.supplier), receipt.ordered)),
    );
    // A usage is added and replaces nothing.
    add(
        &mut rows,
        &state.usages,
        |usage| is_named(&usage.part),
        |_| None,
    );
    rows
}

fn add<R: Placed>(
    rows: &mut Vec<Row>,
    kept: &[Kept<R>],
    is_about: impl Fn(&R) -> bool,
    identity: impl Fn(&R) -> Option<String>,
) {
    rows.extend(
        kept.iter()
            .filter(|row| is_about(&row.record))
            .map(|row| Row {
                table: R::TABLE,
                identity: identity(&row.record),
                place: row.record.place().clone(),
                import: row.origin.import,
                cells: Table::of(std::slice::from_ref(&row.record)),
            }),
    );
}

fn values(
    row: &Row,
    before: Option<&(Row, Manifest)>,
    imported_at: Option<NaiveDateTime>,
    manifest: &Manifest,
) -> Vec<Provenance> {
    const OF_THE_PLACE: [&str; 3] = ["file", "sheet", "row"];
    let columns = row
        .cells
        .columns
        .iter()
        .filter(|(name, _)| !OF_THE_PLACE.contains(&name.as_str()));
    let value = |(name, cells): &(String, super::table::Cells)| {
        let value = cells.words(0);
        let old = before.map(|(old, earlier)| Replaced {
            value: old
                .cells
                .columns
                .iter()
                .find(|(other, _)| other == name)
                .and_then(|(_, cells)| cells.words(0)),
            place: cell(old, name, earlier),
            import: old.import,
        });
        let replaced = old.filter(|old| old.value != value);
        (value.is_some() || replaced.is_some()).then(|| Provenance {
            table: row.table,
            column: name.clone(),
            value,
            place: cell(row, name, manifest),
            import: row.import,
            imported_at,
            replaced,
            not_used_for: None,
        })
    };
    columns.filter_map(value).collect()
}

/// The cell a value of a row was read from; the row itself where its table's reading is not kept or no column gave it.
fn cell(row: &Row, column: &str, manifest: &Manifest) -> Place {
    let reading = manifest
        .readings
        .iter()
        .find(|reading| reading.covers(row.table, &row.place, row.import));
    let fields = source_fields(row.table, column, &row.cells);
    let found = reading.and_then(|reading| {
        fields
            .into_iter()
            .find_map(|field| reading.cell(&row.place, field))
    });
    found.unwrap_or_else(|| row.place.clone())
}
