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
    // Caught from before the folder is there, so that no moment is left in which it would stay.
    let caught = Caught::new()?;
    let room = tempfile::Builder::new().prefix("sparewright-").tempdir()?;
    caught.take_along(room.path());
    Ok(room)
}

/// Signals that are caught and wait to be looked at.
#[cfg(unix)]
struct Caught(signal_hook::iterator::Signals);

#[cfg(unix)]
impl Caught {
    fn new() -> io::Result<Self> {
        use signal_hook::consts::{SIGINT, SIGTERM};
        Ok(Self(signal_hook::iterator::Signals::new([
            SIGINT, SIGTERM,
        ])?))
    }

    /// Ends the program at the first signal, and the folder with it.
    fn take_along(mut self, room: &Path) {
        let room = room.to_owned();
        std::thread::spawn(move || {
            let Some(signal) = self.0.forever().next() else {
                return;
            };
            let _until_the_end = writing();
            // Whoever still writes into it may bring it back, also a moment after it went.
            let mut gone = 0;
            for _ in 0..TRIES {
                let is_gone = std::fs::remove_dir_all(&room).is_err() && !room.exists();
                gone = if is_gone { gone + 1 } else { 0 };
                if gone == TIMES_GONE {
                    break;
                }
                std::thread::sleep(std::time::Duration::from_millis(1));
            }
            // As a shell counts what ends by a signal.
            std::process::exit(128 + signal);
        });
    }
}

/// Tries to remove the folder, a millisecond apart.
#[cfg(unix)]
const TRIES: usize = 40;

/// Times in a row that it has to be gone.
#[cfg(unix)]
const TIMES_GONE: usize = 3;

/// Elsewhere the system's own clearing of temporary folders has to do.
#[cfg(not(unix))]
struct Caught;

#[cfg(not(unix))]
impl Caught {
    fn new() -> io::Result<Self> {
        Ok(Self)
    }

    fn take_along(self, _room: &Path) {}
}
