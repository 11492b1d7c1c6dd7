//! Files that are either there in whole or not at all, whatever ends the program.
//!
//! A file is written under a temporary name, synced, renamed and its folder synced; a rename within one folder
//! replaces the old file in one step.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::error::StoreError;

/// Ending of files that are being written.
const TEMPORARY: &str = "tmp";

/// Whether files must outlast a power cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Durability {
    /// Synced to the disk.
    Synced,
    /// For workspaces that live no longer than the program.
    Fleeting,
}

/// Writes a file in one step; its folder still has to be synced.
///
/// # Errors
/// [`StoreError::Write`]; a file of that name is then as it was.
pub(super) fn write(path: &Path, bytes: &[u8], durability: Durability) -> Result<(), StoreError> {
    let temporary = temporary(path);
    let done =
        write_temporary(&temporary, bytes, durability).and_then(|()| fs::rename(&temporary, path));
    done.map_err(|cause| {
        // What is left behind is removed by the next writer.
        let _ = fs::remove_file(&temporary);
        StoreError::Write {
            path: path.to_owned(),
            cause,
        }
    })
}

fn write_temporary(path: &Path, bytes: &[u8], durability: Durability) -> io::Result<()> {
    let mut file = File::create(path)?;
    file.write_all(bytes)?;
    match durability {
        Durability::Synced => file.sync_all(),
        Durability::Fleeting => Ok(()),
    }
}

fn temporary(path: &Path) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(".");
    name.push(TEMPORARY);
    path.with_file_name(name)
}

/// Makes renames in a folder outlast a power cut.
///
/// # Errors
/// [`StoreError::Write`] naming the folder.
pub(super) fn sync_folder(path: &Path, durability: Durability) -> Result<(), StoreError> {
    if durability == Durability::Fleeting || !cfg!(unix) {
        return Ok(());
    }
    let done = File::open(path).and_then(|folder| folder.sync_all());
    done.map_err(|cause| StoreError::Write {
        path: path.to_owned(),
        cause,
    })
}

/// Removes what an interrupted writer left in a folder.
///
/// # Errors
/// [`StoreError::Write`] naming the folder or the file.
pub(super) fn remove_temporary(folder: &Path) -> Result<(), StoreError> {
    for path in files(folder)? {
        if path.extension().is_some_and(|ending| ending == TEMPORARY) {
            remove(&path)?;
        }
    }
    Ok(())
}

/// Removes a file; one that is gone already is no error.
pub(super) fn remove(path: &Path) -> Result<(), StoreError> {
    match fs::remove_file(path) {
        Err(cause) if cause.kind() != io::ErrorKind::NotFound => Err(StoreError::Write {
            path: path.to_owned(),
            cause,
        }),
        _ => Ok(()),
    }
}

/// Files in a folder, by name.
pub(super) fn files(folder: &Path) -> Result<Vec<PathBuf>, StoreError> {
    let fail = |cause| StoreError::Read {
        path: folder.to_owned(),
        cause,
    };
    let entries = fs::read_dir(folder).map_err(fail)?;
    let mut paths = entries
        .map(|entry| entry.map(|entry| entry.path()))
        .collect::<io::Result<Vec<_>>>()
        .map_err(fail)?;
    paths.sort();
    Ok(paths)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_replaced_in_one_step_and_leftovers_are_removed() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("current");
        write(&path, b"one", Durability::Synced).unwrap();
        write(&path, b"two", Durability::Synced).unwrap();
        sync_folder(folder.path(), Durability::Synced).unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"two");
        fs::write(folder.path().join("current.tmp"), b"half").unwrap();
        remove_temporary(folder.path()).unwrap();
        assert_eq!(files(folder.path()).unwrap(), [path]);
    }

    #[test]
    fn a_file_that_cannot_be_written_leaves_no_trace() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("taken");
        fs::create_dir(&path).unwrap();
        fs::write(path.join("inside"), b"").unwrap();
        assert!(matches!(
            write(&path, b"x", Durability::Synced),
            Err(StoreError::Write { .. })
        ));
        assert_eq!(files(folder.path()).unwrap(), [path]);
    }
}
