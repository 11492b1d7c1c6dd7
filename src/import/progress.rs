//! How far an import has come, for whoever shows it; costs nothing where nobody looks.

use std::fmt;
use std::sync::Arc;

/// One step of an import.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Step<'f> {
    /// Reading begins.
    Begun {
        /// Files that will be opened.
        files: usize,
        /// Their bytes together.
        bytes: u64,
    },
    /// A file is opened; its cells are laid out next.
    Opened {
        /// Its name.
        file: &'f str,
        /// Its bytes.
        bytes: u64,
    },
    /// The rows of one table are read next.
    Table {
        /// Name of its file.
        file: &'f str,
        /// Its rows.
        rows: u64,
    },
    /// Some more rows of the table are read; told now and then, from any thread.
    Rows {
        /// Rows since the step before.
        rows: u64,
    },
    /// The file is done, read or not.
    Done {
        /// Its name.
        file: &'f str,
        /// Its bytes.
        bytes: u64,
    },
}

/// Who is told of the steps of an import; nobody by default.
///
/// # Example
/// ```
/// use sparewright::import::{Known, Progress, Step};
/// let progress = Progress::told(|step| {
///     if let Step::Done { file, .. } = step {
///         eprintln!("{file}");
///     }
/// });
/// let known = Known { progress, ..Known::default() };
/// ```
#[derive(Clone, Default)]
pub struct Progress(Option<Arc<Hear>>);

/// What is called with each step.
type Hear = dyn Fn(Step<'_>) + Send + Sync;

impl Progress {
    /// Tells `hear` of every step; it is called from several threads and should return at once.
    pub fn told(hear: impl Fn(Step<'_>) + Send + Sync + 'static) -> Self {
        Self(Some(Arc::new(hear)))
    }

    /// Tells of one step.
    pub(super) fn tell(&self, step: Step<'_>) {
        if let Some(hear) = &self.0 {
            hear(step);
        }
    }
}

impl fmt::Debug for Progress {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(if self.0.is_some() {
            "Progress(told)"
        } else {
            "Progress(nobody)"
        })
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Mutex;

    use super::*;
    use crate::import::{Known, read_paths};

    #[test]
    fn every_file_and_every_row_is_told_of_once() {
        let folder = tempfile::tempdir().unwrap();
        let rows = 10_000;
        let mut text = "Part no,Bin,On hand\n".to_owned();
        for row in 0..rows {
            text.push_str(&format!("N-{row},B1,3\n"));
        }
        std::fs::write(folder.path().join("stock.csv"), &text).unwrap();
        std::fs::write(folder.path().join("empty.csv"), "").unwrap();
        let heard = Arc::new(Mutex::new(Vec::new()));
        let hears = Arc::clone(&heard);
        let progress = Progress::told(move |step| hears.lock().unwrap().push(format!("{step:?}")));
        let known = Known {
            progress,
            ..Known::default()
        };
        read_paths(&[folder.path().to_owned()], &known).unwrap();
        let heard = heard.lock().unwrap();
        let bytes = text.len();
        assert_eq!(heard[0], format!("Begun {{ files: 2, bytes: {bytes} }}"));
        assert_eq!(heard[1], "Opened { file: \"empty.csv\", bytes: 0 }");
        assert_eq!(heard[2], "Done { file: \"empty.csv\", bytes: 0 }");
        assert_eq!(
            heard.last().unwrap(),
            &format!("Done {{ file: \"stock.csv\", bytes: {bytes} }}")
        );
        let told: Vec<u64> = heard
            .iter()
            .filter_map(|step| step.strip_prefix("Rows { rows: "))
            .map(|rest| rest.trim_end_matches(" }").parse().unwrap())
            .collect();
        assert_eq!(told.iter().sum::<u64>(), rows);
        assert!(told.len() > 1, "{told:?}");
    }
}
