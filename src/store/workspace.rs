//! A folder that keeps what was imported: opening, reading and the pointer to the current snapshot.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::durable::{self, Durability};
use super::error::StoreError;
use super::kept_out::KeptOut;
use super::lock::WriteLock;
use super::manifest::{Manifest, SCHEMA, TableFile};
use super::newest_list::{SetAside, set_aside, set_aside_by_list};
use super::parquet;
use super::precedence;
use super::reading;
use super::state::State;
use super::table::{Stored, Table};
use crate::digest::sha256;
use crate::import::{ImportOptions, Imported, Known, TableRead};
use crate::record::{Records, ShopSettings, SupplierRecord};

/// Folder of the tables.
const TABLES: &str = "tables";
/// Folder of the manifests.
const SNAPSHOTS: &str = "snapshots";
/// The pointer to the current snapshot.
const CURRENT: &str = "current";
/// Hexadecimal digits of the sum in the name of a table file.
const NAME_DIGITS: usize = 32;
/// How often reading starts again where a prune took away what was about to be read.
const TRIES: usize = 3;

/// A workspace on disk.
#[derive(Debug, Clone)]
pub struct Workspace {
    folder: PathBuf,
    pub(super) durability: Durability,
}

/// What the pointer says.
#[derive(Debug, serde::Serialize, serde::Deserialize)]
struct Pointer {
    schema: u32,
    snapshot: u32,
}

/// What a snapshot holds.
#[derive(Debug)]
pub struct Loaded {
    /// Its manifest.
    pub manifest: Manifest,
    /// What holds; rows of older lists that do not are notes among its issues.
    pub imported: Imported,
    /// Rows of older lists that do not hold, list by list.
    pub set_aside: Vec<KeptOut>,
}

/// A table of a snapshot with its bytes; `None` where the file of an earlier snapshot serves.
pub(super) type Encoded = (TableFile, Option<Vec<u8>>);

impl Workspace {
    /// Opens a workspace.
    ///
    /// # Errors
    /// [`StoreError::NotAWorkspace`] where the folder is none, [`StoreError::LaterSchema`] where a later version wrote it.
    pub fn open(folder: &Path) -> Result<Self, StoreError> {
        let workspace = Self {
            folder: folder.to_owned(),
            durability: Durability::Synced,
        };
        workspace.number()?;
        Ok(workspace)
    }

    /// Makes a workspace in a new or empty folder, or opens the one that is there.
    ///
    /// # Errors
    /// [`StoreError::NotAWorkspace`] where the folder holds something else, [`StoreError::Write`] where it cannot be made.
    pub fn create(folder: &Path) -> Result<Self, StoreError> {
        Self::create_with(folder, Durability::Synced)
    }

    /// Makes a workspace that need not outlast the program.
    ///
    /// # Errors
    /// As [`create`](Self::create).
    pub fn create_fleeting(folder: &Path) -> Result<Self, StoreError> {
        Self::create_with(folder, Durability::Fleeting)
    }

    fn create_with(folder: &Path, durability: Durability) -> Result<Self, StoreError> {
        let workspace = Self {
            folder: folder.to_owned(),
            durability,
        };
        match workspace.number() {
            Ok(_) => return Ok(workspace),
            Err(StoreError::NotAWorkspace { .. }) => {}
            Err(error) => return Err(error),
        }
        let is_own = |path: &PathBuf| {
            let name = path
                .file_name()
                .and_then(|name| name.to_str())
                .unwrap_or_default();
            [TABLES, SNAPSHOTS, "lock", "current.tmp"].contains(&name)
        };
        if folder.exists() && !durable::files(folder)?.iter().all(is_own) {
            return Err(StoreError::NotAWorkspace {
                path: folder.to_owned(),
            });
        }
        for path in [workspace.tables_folder(), workspace.snapshots_folder()] {
            fs::create_dir_all(&path).map_err(|cause| StoreError::Write { path, cause })?;
        }
        let _lock = WriteLock::take(folder)?;
        // Another process may have made it while this one waited for the lock.
        if workspace.number().is_err() {
            workspace.point_to(0)?;
        }
        Ok(workspace)
    }

    /// The folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Number of the current snapshot; 0 before the first import.
    ///
    /// # Errors
    /// [`StoreError::NotAWorkspace`] where there is no pointer.
    pub fn number(&self) -> Result<u32, StoreError> {
        let path = self.folder.join(CURRENT);
        let bytes = match fs::read(&path) {
            Ok(bytes) => bytes,
            Err(cause) if cause.kind() == io::ErrorKind::NotFound => {
                return Err(StoreError::NotAWorkspace {
                    path: self.folder.clone(),
                });
            }
            Err(cause) => return Err(StoreError::Read { path, cause }),
        };
        let pointer: Pointer = serde_json::from_slice(&bytes)
            .map_err(|_| StoreError::Damaged { path: path.clone() })?;
        if pointer.schema > SCHEMA {
            return Err(StoreError::LaterSchema {
                path,
                found: pointer.schema,
                known: SCHEMA,
            });
        }
        Ok(pointer.snapshot)
    }

    /// Snapshots that are kept, by number.
    ///
    /// # Errors
    /// [`StoreError`] where a manifest cannot be read.
    pub fn snapshots(&self) -> Result<Vec<Manifest>, StoreError> {
        self.kept_numbers()?
            .into_iter()
            .map(|number| self.manifest(number))
            .collect()
    }

    /// What a snapshot holds; `None` for the current one.
    ///
    /// The records are those that hold by the rules of precedence.
    ///
    /// # Errors
    /// [`StoreError::Empty`] before the first import, [`StoreError::NoSuchSnapshot`] for one that is not kept.
    pub fn load(&self, number: Option<u32>) -> Result<Imported, StoreError> {
        Ok(self.load_whole(number)?.imported)
    }

    /// What a snapshot holds, with its manifest and what does not hold.
    ///
    /// # Errors
    /// As [`load`](Self::load).
    pub fn load_whole(&self, number: Option<u32>) -> Result<Loaded, StoreError> {
        let (manifest, mut state) = self.read(number)?;
        let tables: Vec<_> = reading::newest(&manifest.readings)
            .into_iter()
            .map(|read| read.to_table_read())
            .collect();
        let mut imported = Imported::default();
        let older = set_aside(&state);
        let issues = std::mem::take(&mut state.issues);
        imported.issues = issues.into_iter().map(|row| row.record).collect();
        imported.issues.extend(older.iter().map(SetAside::as_issue));
        let kept_out = manifest.kept_out.iter();
        imported
            .issues
            .extend(kept_out.filter_map(KeptOut::as_issue));
        imported.records = precedence::hold(state);
        imported.settings = settings(&manifest)?;
        imported.settings_file = manifest
            .settings
            .as_ref()
            .map(|settings| Arc::from(settings.file.as_str()));
        imported.settings_text = manifest
            .settings
            .as_ref()
            .map(|settings| settings.text.clone());
        imported.files = manifest.files.clone();
        imported.rows_read = TableRead::rows_of(&tables);
        imported.rows_rejected = tables.iter().map(|table| table.rows.rejected).sum();
        imported.skipped = manifest
            .left_out
            .iter()
            .map(|left_out| left_out.to_skipped())
            .collect();
        imported.problems = manifest
            .not_read
            .iter()
            .map(|not_read| not_read.to_problem())
            .collect();
        imported.tables = tables;
        Ok(Loaded {
            manifest,
            imported,
            set_aside: set_aside_by_list(&older),
        })
    }

    /// What reading new files may build on: settings and suppliers of the current snapshot.
    ///
    /// # Errors
    /// [`StoreError`] where the snapshot cannot be read.
    pub fn known(&self) -> Result<Known, StoreError> {
        let number = self.number()?;
        if number == 0 {
            return Ok(Known::default());
        }
        let manifest = self.manifest(number)?;
        let mut state = State::default();
        for entry in &manifest.tables {
            if entry.table == SupplierRecord::TABLE {
                self.read_table(entry, &mut state)?;
            }
        }
        let suppliers = state.suppliers.into_iter().map(|row| row.record.name);
        Ok(Known {
            settings: settings(&manifest)?,
            suppliers: suppliers.collect(),
            options: ImportOptions {
                maps: manifest.maps,
            },
            ..Known::default()
        })
    }

    /// The records that hold in a snapshot.
    pub(super) fn records(&self, number: u32) -> Result<Records, StoreError> {
        Ok(precedence::hold(self.read(Some(number))?.1))
    }

    /// Manifest and rows of a snapshot; `None` for the current one.
    pub(super) fn read(&self, number: Option<u32>) -> Result<(Manifest, State), StoreError> {
        let mut tries = 0;
        loop {
            tries += 1;
            let read = self.read_once(number);
            // Between pointer and tables a writer may have moved on and pruned; then the pointer is read again.
            match read {
                Err(StoreError::Read { .. } | StoreError::NoSuchSnapshot { .. })
                    if number.is_none() && tries < TRIES => {}
                read => return read,
            }
        }
    }

    fn read_once(&self, number: Option<u32>) -> Result<(Manifest, State), StoreError> {
        let number = match (number, self.number()?) {
            (_, 0) => return Err(StoreError::Empty),
            (Some(number), _) => number,
            (None, current) => current,
        };
        let manifest = self.manifest(number)?;
        let mut state = State::default();
        for table in &manifest.tables {
            self.read_table(table, &mut state)?;
        }
        let order = reading::sheet_order(&manifest.readings);
        state.sort_as_read(|place| {
            let sheet = (&*place.file, &*place.sheet);
            order.get(&sheet).copied().unwrap_or(usize::MAX)
        });
        Ok((manifest, state))
    }

    /// Reads one table into its list of a state.
    pub(super) fn read_table(
        &self,
        entry: &TableFile,
        state: &mut State,
    ) -> Result<(), StoreError> {
        let path = self.tables_folder().join(&entry.file);
        let bytes = fs::read(&path).map_err(|cause| StoreError::Read {
            path: path.clone(),
            cause,
        })?;
        if sha256(&bytes) != entry.sha256 {
            return Err(StoreError::Damaged { path });
        }
        let name = || entry.table.clone();
        let table = parquet::from_bytes(&bytes).map_err(|cause| StoreError::Parquet {
            table: name(),
            cause,
        })?;
        state
            .read(&entry.table, &table)
            .map_err(|cause| StoreError::Table {
                table: name(),
                cause,
            })
    }

    /// The manifest of a snapshot.
    ///
    /// # Errors
    /// [`StoreError::NoSuchSnapshot`] for one that is not kept.
    pub fn manifest(&self, number: u32) -> Result<Manifest, StoreError> {
        let path = self.manifest_path(number);
        if number == 0 || number > self.number()? {
            return Err(StoreError::NoSuchSnapshot { number });
        }
        let bytes = match fs::read(&path) {
            Ok(bytes) => bytes,
            Err(cause) if cause.kind() == io::ErrorKind::NotFound => {
                return Err(StoreError::NoSuchSnapshot { number });
            }
            Err(cause) => return Err(StoreError::Read { path, cause }),
        };
        let manifest: Manifest = serde_json::from_slice(&bytes)
            .map_err(|_| StoreError::Damaged { path: path.clone() })?;
        if manifest.schema > SCHEMA {
            return Err(StoreError::LaterSchema {
                path,
                found: manifest.schema,
                known: SCHEMA,
            });
        }
        Ok(manifest)
    }

    /// Takes the lock and clears away what an interrupted writer left.
    pub(super) fn write_lock(&self) -> Result<WriteLock, StoreError> {
        let lock = WriteLock::take(&self.folder)?;
        for folder in [
            self.folder.clone(),
            self.tables_folder(),
            self.snapshots_folder(),
        ] {
            durable::remove_temporary(&folder)?;
        }
        // A manifest beyond the pointer is one whose import did not come to its end.
        let current = self.number()?;
        for (number, path) in self.manifest_files()? {
            if number > current {
                durable::remove(&path)?;
            }
        }
        Ok(lock)
    }

    /// Encodes the tables of a state; those that hold what they held before keep their file and have no bytes.
    pub(super) fn encode(
        state: &State,
        before: Option<(&Manifest, &State)>,
    ) -> Result<Vec<Encoded>, StoreError> {
        let known = |name: &str| {
            let (manifest, _) = before?;
            manifest.tables.iter().find(|entry| entry.table == name)
        };
        let encode = |(name, table): (&'static str, Option<Table>)| {
            let Some(table) = table else {
                return Ok(known(name).map(|entry| (entry.clone(), None)));
            };
            let fail = |cause| StoreError::Parquet {
                table: name.to_owned(),
                cause,
            };
            let bytes = parquet::to_bytes(&table).map_err(fail)?;
            let sha256 = sha256(&bytes);
            let entry = TableFile {
                table: name.to_owned(),
                file: format!("{name}-{}.parquet", &sha256[..NAME_DIGITS]),
                sha256,
                rows: table.height,
            };
            Ok(Some((entry, Some(bytes))))
        };
        let tables = state.tables_since(before.map(|(_, state)| state));
        tables
            .into_iter()
            .filter_map(|table| encode(table).transpose())
            .collect()
    }

    /// Writes tables that are not there yet, then the manifest, then the pointer, each step complete before the next.
    pub(super) fn commit(
        &self,
        manifest: &Manifest,
        tables: &[(TableFile, Option<Vec<u8>>)],
    ) -> Result<(), StoreError> {
        let folder = self.tables_folder();
        for (entry, bytes) in tables {
            let path = folder.join(&entry.file);
            if let Some(bytes) = bytes.as_ref().filter(|_| !path.exists()) {
                durable::write(&path, bytes, self.durability)?;
            }
        }
        durable::sync_folder(&folder, self.durability)?;
        let path = self.manifest_path(manifest.number);
        let text = serde_json::to_vec_pretty(manifest).map_err(|error| StoreError::Write {
            path: path.clone(),
            cause: io::Error::other(error),
        })?;
        durable::write(&path, &text, self.durability)?;
        durable::sync_folder(&self.snapshots_folder(), self.durability)?;
        self.point_to(manifest.number)
    }

    fn point_to(&self, snapshot: u32) -> Result<(), StoreError> {
        let path = self.folder.join(CURRENT);
        let text = format!("{{\"schema\":{SCHEMA},\"snapshot\":{snapshot}}}\n");
        durable::write(&path, text.as_bytes(), self.durability)?;
        durable::sync_folder(&self.folder, self.durability)
    }

    /// Numbers of the snapshots that are kept; manifests beyond the pointer are not snapshots.
    pub(super) fn kept_numbers(&self) -> Result<Vec<u32>, StoreError> {
        let current = self.number()?;
        Ok(self
            .manifest_files()?
            .into_keys()
            .filter(|number| *number <= current)
            .collect())
    }

    fn manifest_files(&self) -> Result<BTreeMap<u32, PathBuf>, StoreError> {
        let number = |path: &PathBuf| {
            path.file_name()?
                .to_str()?
                .strip_suffix(".json")?
                .parse()
                .ok()
        };
        let files = durable::files(&self.snapshots_folder())?;
        Ok(files
            .into_iter()
            .filter_map(|path| Some((number(&path)?, path)))
            .collect())
    }

    pub(super) fn tables_folder(&self) -> PathBuf {
        self.folder.join(TABLES)
    }

    pub(super) fn snapshots_folder(&self) -> PathBuf {
        self.folder.join(SNAPSHOTS)
    }

    pub(super) fn manifest_path(&self, number: u32) -> PathBuf {
        self.snapshots_folder().join(format!("{number:06}.json"))
    }
}

fn settings(manifest: &Manifest) -> Result<ShopSettings, StoreError> {
    match &manifest.settings {
        Some(settings) => Ok(ShopSettings::from_toml(&settings.text)?),
        None => Ok(ShopSettings::default()),
    }
}
