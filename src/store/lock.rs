//! One writer at a time; readers never wait.

use std::fs::{File, OpenOptions, TryLockError};
use std::path::Path;

use super::error::StoreError;

/// Name of the lock in a workspace.
const LOCK: &str = "lock";

/// The right to write; given back when dropped or when the process ends, however it ends.
#[derive(Debug)]
pub(super) struct WriteLock {
    file: File,
}

impl WriteLock {
    /// Takes the lock of a workspace.
    ///
    /// # Errors
    /// [`StoreError::Locked`] where another process has it.
    pub(super) fn take(folder: &Path) -> Result<Self, StoreError> {
        let path = folder.join(LOCK);
        let opened = OpenOptions::new()
            .create(true)
            .truncate(false)
            .write(true)
            .open(&path);
        let file = opened.map_err(|cause| StoreError::Write {
            path: path.clone(),
            cause,
        })?;
        match file.try_lock() {
            Ok(()) => Ok(Self { file }),
            Err(TryLockError::WouldBlock) => Err(StoreError::Locked { path }),
            Err(TryLockError::Error(cause)) => Err(StoreError::Write { path, cause }),
        }
    }
}

impl Drop for WriteLock {
    /// Gives the lock back at once: a child process that was just started may hold a copy of the open file for a moment
    /// longer, and closing ours would not free it.
    fn drop(&mut self) {
        // A lock that cannot be given back goes with the process.
        let _ = self.file.unlock();
    }
}
