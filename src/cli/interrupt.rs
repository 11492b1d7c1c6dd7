//! Ctrl-C: what is between reading and writing goes, what is being written is written to its end, then the program ends.
//!
//! A workspace needs nothing of this: whatever ends an import, it holds the state before or after.

use std::io;
use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};

use tempfile::TempDir;

/// Held while files of a set are put in their places; the program ends before or after, never between.
static WRITING: Mutex<()> = Mutex::new(());

/// Begins to write files that belong together, until the guard is dropped.
pub fn writing() -> MutexGuard<'static, ()> {
    WRITING.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Makes a folder for what lives no longer than the program, however a person ends it.
///
/// # Errors
/// Where no temporary folder can be made or the system takes no handler.
pub fn room() -> io::Result<TempDir> {
    let room = tempfile::Builder::new().prefix("sparewright-").tempdir()?;
    goes_at_interrupt(room.path())?;
    Ok(room)
}

#[cfg(unix)]
fn goes_at_interrupt(room: &Path) -> io::Result<()> {
    use signal_hook::consts::{SIGINT, SIGTERM};
    use signal_hook::iterator::Signals;

    let mut signals = Signals::new([SIGINT, SIGTERM])?;
    let room = room.to_owned();
    std::thread::spawn(move || {
        let Some(signal) = signals.forever().next() else {
            return;
        };
        let _until_the_end = writing();
        // Whoever still writes into it may bring a file back while it goes.
        for _ in 0..TRIES {
            if std::fs::remove_dir_all(&room).is_err() && !room.exists() {
                break;
            }
        }
        // As a shell counts what ends by a signal.
        std::process::exit(128 + signal);
    });
    Ok(())
}

/// Tries to remove the folder.
#[cfg(unix)]
const TRIES: usize = 20;

/// Elsewhere the system's own clearing of temporary folders has to do.
#[cfg(not(unix))]
fn goes_at_interrupt(_room: &Path) -> io::Result<()> {
    Ok(())
}
