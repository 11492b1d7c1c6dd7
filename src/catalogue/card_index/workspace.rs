//! The card index of a workspace: a file beside its tables, made anew whenever it is missing, stale or damaged.

use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

use super::{CardIndex, IndexFault, build, pages};
use crate::catalogue::Shop;
use crate::digest::sha256;
use crate::standard;
use crate::store::{Loaded, Manifest, StoreError, Workspace};

/// Name of the file in a workspace.
pub const CARDS: &str = "cards.index";

/// An index ready for questions, and what had to be done for it.
#[derive(Debug)]
pub struct Opened {
    /// The index.
    pub index: CardIndex,
    /// Why it was made anew; `None` where the file served.
    pub made_because: Option<IndexFault>,
    /// Why the new file could not be written; the index is then in memory only.
    pub not_written: Option<String>,
}

/// Opens the index of the current snapshot.
///
/// The file is taken only where it was made by this version from this very snapshot and these standard tables. Nobody is
/// kept waiting: a new file is written under a name of its own and renamed, so that other readers keep the one they have.
///
/// # Errors
/// [`StoreError`] where the workspace cannot be read.
pub fn open(workspace: &Workspace) -> Result<Opened, StoreError> {
    open_by(workspace, CardIndex::open)
}

/// Opens the index of the current snapshot as [`open`] does, and reads all of it: for a program that asks often.
///
/// # Errors
/// As [`open`].
pub fn load(workspace: &Workspace) -> Result<Opened, StoreError> {
    open_by(workspace, CardIndex::load)
}

fn open_by(
    workspace: &Workspace,
    way: fn(&Path, &str) -> Result<CardIndex, IndexFault>,
) -> Result<Opened, StoreError> {
    let mut manifest = current(workspace);
    // Between pointer and manifest a writer may have moved on and pruned.
    if matches!(manifest, Err(StoreError::NoSuchSnapshot { .. })) {
        manifest = current(workspace);
    }
    let key = key(&manifest?);
    match way(&path(workspace), &key) {
        Ok(index) => Ok(Opened {
            index,
            made_because: None,
            not_written: None,
        }),
        Err(fault) => make(workspace, fault),
    }
}

/// Makes the index anew, because of what was found wrong with the one there.
///
/// # Errors
/// As [`open`].
pub fn make(workspace: &Workspace, fault: IndexFault) -> Result<Opened, StoreError> {
    let Loaded {
        manifest,
        mut imported,
        ..
    } = workspace.load_whole(None)?;
    let records = std::mem::take(&mut imported.records);
    let shop = Shop::new(records, imported.settings, manifest.made_at);
    let body = build::body(&shop);
    let not_written = write(&path(workspace), &body, &key(&manifest)).err();
    Ok(Opened {
        index: CardIndex::of(pages::Pages::in_memory(body)),
        made_because: Some(fault),
        not_written: not_written.map(|error| error.to_string()),
    })
}

/// Where the file of a workspace is.
fn path(workspace: &Workspace) -> PathBuf {
    workspace.folder().join(CARDS)
}

fn current(workspace: &Workspace) -> Result<Manifest, StoreError> {
    match workspace.number()? {
        0 => Err(StoreError::Empty),
        number => workspace.manifest(number),
    }
}

/// What the index is made from: the snapshot, the standard tables, this version.
fn key(manifest: &Manifest) -> String {
    let mut bytes = format!(
        "{} {} {}\n",
        env!("CARGO_PKG_VERSION"),
        pages::SCHEMA,
        standard::edition()
    )
    .into_bytes();
    // Texts and numbers alone: what was read from JSON can be written as JSON.
    bytes.extend(serde_json::to_vec(manifest).unwrap_or_default());
    sha256(&bytes)
}

fn write(path: &Path, body: &[u8], key: &str) -> io::Result<()> {
    let folder = path.parent().unwrap_or(Path::new("."));
    // The ending is that of files which the next writer of the workspace clears away.
    let mut file = tempfile::Builder::new()
        .prefix("cards-")
        .suffix(".tmp")
        .tempfile_in(folder)?;
    let mut out = BufWriter::new(file.as_file_mut());
    pages::write(&mut out, body, key)?;
    out.flush()?;
    drop(out);
    file.as_file().sync_all()?;
    file.persist(path).map_err(|error| error.error)?;
    Ok(())
}
