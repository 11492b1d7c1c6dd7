//! Files that were dropped on the page and wait for a yes or no.
//!
//! They are read once, when they arrive; what a person confirms is what was shown, not what a file became meanwhile.

use std::collections::BTreeMap;
use std::io;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};

use tempfile::TempDir;

use super::key::Key;
use crate::import::{ImportError, Imported, MapError, read_paths};
use crate::store::{Change, Outcome, StoreError, Workspace};

/// Largest upload in one go, all files together.
pub(super) const MOST_UPLOAD_BYTES: usize = 256 * 1024 * 1024;
/// Intakes that wait at once; the oldest makes room.
const MOST_WAITING: usize = 8;
/// Longest file name kept.
const NAME_CHARS: usize = 120;

/// Why files could not be taken in.
#[derive(Debug, thiserror::Error)]
pub(super) enum IntakeError {
    /// No room for the files.
    #[error("the files cannot be kept")]
    Keep(#[from] io::Error),
    /// A mapping cannot be read.
    #[error(transparent)]
    Map(#[from] MapError),
    /// Nothing readable in them.
    #[error(transparent)]
    Import(#[from] ImportError),
    /// The workspace cannot be used.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// No random numbers.
    #[error("the operating system gives no random numbers")]
    Random,
    /// The yes came too late, or twice.
    #[error("these files wait no longer: drop them again")]
    Gone,
}

/// Files that were uploaded: name as the browser gave it, and bytes.
pub(super) type Uploaded = Vec<(String, Vec<u8>)>;

/// Files that were read and wait.
#[derive(Debug)]
pub(super) struct Waiting {
    /// What they hold.
    pub(super) imported: Imported,
    /// What would come of them.
    pub(super) outcome: Outcome,
    /// What would change.
    pub(super) changes: Vec<Change>,
    /// Order of arrival.
    turn: u64,
    /// Keeps the files until the answer.
    _folder: TempDir,
}

/// All files that wait, by the key that stands in their form.
#[derive(Debug, Default)]
pub(super) struct Intake {
    waiting: Mutex<BTreeMap<String, Arc<Waiting>>>,
}

impl Intake {
    /// Reads uploaded files and lets them wait; gives the key to confirm them with.
    ///
    /// # Errors
    /// [`IntakeError`] where they cannot be kept or read.
    pub(super) fn read(
        &self,
        workspace: &Workspace,
        files: &Uploaded,
        maps: &[String],
        now: chrono::NaiveDateTime,
    ) -> Result<(String, Arc<Waiting>), IntakeError> {
        let folder = tempfile::tempdir()?;
        let mut paths = Vec::with_capacity(files.len());
        for (name, bytes) in files {
            let path = folder.path().join(file_name(name, &paths));
            std::fs::write(&path, bytes)?;
            paths.push(path);
        }
        let mut known = workspace.known()?;
        let given: Result<Vec<_>, MapError> = maps.iter().map(|map| map.parse()).collect();
        known.options.maps.splice(0..0, given?).for_each(drop);
        let imported = read_paths(&paths, &known)?;
        let (outcome, changes) = workspace.preview(&imported, now)?;
        let key = Key::random()
            .map_err(|_| IntakeError::Random)?
            .as_str()
            .to_owned();
        let mut all = self.lock();
        let turn = all.values().map(|waiting| waiting.turn).max().unwrap_or(0) + 1;
        let waiting = Arc::new(Waiting {
            imported,
            outcome,
            changes,
            turn,
            _folder: folder,
        });
        all.insert(key.clone(), Arc::clone(&waiting));
        while all.len() > MOST_WAITING {
            let oldest = all
                .iter()
                .min_by_key(|(_, waiting)| waiting.turn)
                .map(|(key, _)| key.clone());
            oldest.and_then(|key| all.remove(&key));
        }
        drop(all);
        Ok((key, waiting))
    }

    /// Imports what waits under a key.
    ///
    /// # Errors
    /// [`IntakeError::Gone`] where nothing does, [`IntakeError::Store`] where it cannot be stored; it then waits on.
    pub(super) fn confirm(
        &self,
        workspace: &Workspace,
        key: &str,
        now: chrono::NaiveDateTime,
    ) -> Result<Outcome, IntakeError> {
        let waiting = self.lock().remove(key).ok_or(IntakeError::Gone)?;
        match workspace.import(&waiting.imported, now) {
            Ok(outcome) => Ok(outcome),
            Err(error) => {
                self.lock().insert(key.to_owned(), waiting);
                Err(error.into())
            }
        }
    }

    /// Forgets what waits under a key.
    pub(super) fn cancel(&self, key: &str) {
        self.lock().remove(key);
    }

    fn lock(&self) -> std::sync::MutexGuard<'_, BTreeMap<String, Arc<Waiting>>> {
        self.waiting.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The last part of a name that a browser sent, without signs that mean something to a file system.
///
/// Names decide the order of reading and stand in every place that is shown, so they are kept as far as they can be.
fn file_name(sent: &str, taken: &[PathBuf]) -> String {
    let last = sent.rsplit(['/', '\\']).next().unwrap_or_default();
    let kept: String = last
        .chars()
        .filter(|c| !c.is_control() && !r#"<>:"|?*"#.contains(*c))
        .collect();
    let kept = kept.trim_start_matches('.').trim();
    let skip = kept.chars().count().saturating_sub(NAME_CHARS);
    let name: String = kept.chars().skip(skip).collect();
    let name = match name.is_empty() {
        true => "file".to_owned(),
        false => name,
    };
    let is_taken = |name: &str| taken.iter().any(|path| path.ends_with(name));
    let mut number = 1;
    let mut free = name.clone();
    while is_taken(&free) {
        number += 1;
        free = format!("{number} {name}");
    }
    free
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_lead_out_of_no_folder() {
        for (sent, kept) in [
            ("../../etc/passwd", "passwd"),
            (r"C:\lists\prices.xlsx", "prices.xlsx"),
            ("..", "file"),
            ("", "file"),
            (".hidden.csv", "hidden.csv"),
            ("a\0b\n.csv", "ab.csv"),
            ("Preisliste März.csv", "Preisliste März.csv"),
        ] {
            assert_eq!(file_name(sent, &[]), kept, "{sent:?}");
        }
    }

    #[test]
    fn two_files_of_one_name_are_two_files() {
        let taken = [PathBuf::from("/t/stock.csv")];
        assert_eq!(file_name("stock.csv", &taken), "2 stock.csv");
    }

    #[test]
    fn a_long_name_keeps_its_ending() {
        let name = file_name(&format!("{}.xlsx", "x".repeat(500)), &[]);
        assert!(name.ends_with(".xlsx") && name.chars().count() == NAME_CHARS);
    }
}
