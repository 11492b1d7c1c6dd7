//! Writes the set of files so that a reader finds either the old set or the new one complete.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use serde::de::IgnoredAny;

use super::model::{ModelError, Report, check_report};
use super::xlsx::WorkbookError;
use crate::parallel;

use super::csv::write_csv;
use super::html_of;
use super::json::write_json;
use super::xlsx::write_workbook;

/// Name of the workbook, page and JSON file without extension.
pub const REPORT_NAME: &str = "reorder";

/// Why a report was not written. Files that were there before are untouched.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum WriteError {
    /// The parts of the report do not fit.
    #[error(transparent)]
    Model(#[from] ModelError),
    /// The workbook could not be made.
    #[error(transparent)]
    Workbook(#[from] WorkbookError),
    /// The folder or file may not be written to.
    #[error("`{}` cannot be written: no permission, or it is open in another program", path.display())]
    NotWritable {
        /// The folder or file.
        path: PathBuf,
        /// The cause.
        source: io::Error,
    },
    /// No room left.
    #[error("`{}` cannot be written: no space left", path.display())]
    DiskFull {
        /// The file.
        path: PathBuf,
        /// The cause.
        source: io::Error,
    },
    /// Something that is no file has the name of a file to write.
    #[error("`{}` is in the way: it is not a file", path.display())]
    InTheWay {
        /// The path.
        path: PathBuf,
    },
    /// Anything else.
    #[error("`{}` cannot be written: {source}", path.display())]
    Io {
        /// The folder or file.
        path: PathBuf,
        /// The cause.
        source: io::Error,
    },
}

impl WriteError {
    /// The file or folder that it is about, where it is about one.
    pub fn path(&self) -> Option<&Path> {
        match self {
            Self::NotWritable { path, .. }
            | Self::DiskFull { path, .. }
            | Self::InTheWay { path }
            | Self::Io { path, .. } => Some(path),
            Self::Model(_) | Self::Workbook(_) => None,
        }
    }
}

/// A file that is complete, and where it goes.
struct Staged {
    from: PathBuf,
    to: PathBuf,
}

/// Writes workbook, page, JSON and one CSV for each sheet into `dir`, which is made if it is missing.
///
/// All files are written into a hidden folder inside `dir` first and renamed only when all are complete; if a
/// rename fails, those already renamed are put back. CSV files of sheets that the last report had and this one
/// has not are removed: their names come from the last JSON report, so nothing of the shop's is touched.
///
/// # Errors
/// [`WriteError`] with the path; the files that were there before are then unchanged.
pub fn write_report(report: &Report, dir: &Path) -> Result<Vec<PathBuf>, WriteError> {
    write_report_with(report, Vec::new(), dir)
}

/// As [`write_report`], with files of other contents that belong to the set.
///
/// # Errors
/// As [`write_report`].
pub fn write_report_with(
    report: &Report,
    others: Vec<(String, Vec<u8>)>,
    dir: &Path,
) -> Result<Vec<PathBuf>, WriteError> {
    check_report(report)?;
    fs::create_dir_all(dir).map_err(|source| failed(dir, source))?;
    let names: Vec<String> = names_of(report)
        .into_iter()
        .chain(others.iter().map(|(name, _)| name.clone()))
        .collect();
    let targets: Vec<PathBuf> = names.iter().map(|name| dir.join(name)).collect();
    if let Some(path) = targets.iter().find(|path| path.exists() && !path.is_file()) {
        return Err(WriteError::InTheWay { path: path.clone() });
    }
    let stale = stale_files(report, dir);
    // Inside the folder, not beside it: it is the one place that is surely writable and on the same disk.
    let staging = tempfile::Builder::new()
        .prefix(".sparewright-")
        .tempdir_in(dir)
        .map_err(|source| failed(dir, source))?;
    let staged: Vec<Staged> = names
        .iter()
        .zip(&targets)
        .map(|(name, to)| Staged {
            from: staging.path().join(name),
            to: to.clone(),
        })
        .collect();
    stage(report, &staged)?;
    for ((_, bytes), file) in others.iter().zip(&staged[staged.len() - others.len()..]) {
        file.fill(|writer| writer.write_all(bytes))?;
    }
    replace_all(&staged, staging.path())?;
    for path in stale {
        // A leftover is untidy, but the new set is complete: no reason to fail.
        let _ = fs::remove_file(path);
    }
    Ok(targets)
}

/// Names of the files of the set: workbook, page, JSON, then a table for each sheet.
fn names_of(report: &Report) -> Vec<String> {
    let formats = ["xlsx", "html", "json"].map(|format| format!("{REPORT_NAME}.{format}"));
    let tables = report
        .sheets
        .iter()
        .map(|sheet| format!("{}.csv", sheet.key));
    formats.into_iter().chain(tables).collect()
}

/// Writes the files of the set, in the order of their names, each out of memory before the next is made.
fn stage(report: &Report, staged: &[Staged]) -> Result<(), WriteError> {
    let [workbook, page, json, tables @ ..] = staged else {
        return Ok(());
    };
    // The workbook takes about as long as all the others together.
    let (one, others) = parallel::both(
        || {
            // What is wrong with the report is told as such; the writer's refusals are those of the file.
            let mut refused = None;
            let filled = workbook.fill(|writer| {
                write_workbook(report, writer).or_else(|error| match error.kind_of_file_failure() {
                    Some(kind) => Err(io::Error::new(kind, error)),
                    None => {
                        refused = Some(error);
                        Ok(())
                    }
                })
            });
            refused.map_or(filled, |error| Err(error.into()))
        },
        || {
            page.fill(|writer| writer.write_all(html_of(report).as_bytes()))?;
            json.fill(|writer| write_json(report, writer))?;
            let sheets: Vec<_> = report.sheets.iter().zip(tables).collect();
            let filled = parallel::each(&sheets, |(sheet, file)| {
                file.fill(|writer| write_csv(sheet, writer))
            });
            filled.into_iter().collect::<Result<(), WriteError>>()
        },
    );
    one.and(others)
}

impl Staged {
    /// Writes and hands the bytes to the disk, so that a full disk shows before anything is renamed.
    fn fill(
        &self,
        write: impl FnOnce(&mut io::BufWriter<fs::File>) -> io::Result<()>,
    ) -> Result<(), WriteError> {
        let filled = || {
            let mut writer = io::BufWriter::with_capacity(1 << 18, fs::File::create(&self.from)?);
            write(&mut writer)?;
            writer
                .into_inner()
                .map_err(io::IntoInnerError::into_error)?
                .sync_all()
        };
        filled().map_err(|source| failed(&self.to, source))
    }
}

/// What is looked at of the report that is replaced; its rows are passed over and not held.
#[derive(serde::Deserialize)]
struct LastReport {
    report: LastHead,
    #[serde(default)]
    sheets: BTreeMap<String, IgnoredAny>,
}

#[derive(serde::Deserialize)]
struct LastHead {
    made_by: LastMaker,
}

#[derive(serde::Deserialize)]
struct LastMaker {
    name: String,
}

/// CSV files that the report now in `dir` lists and the new one does not.
fn stale_files(report: &Report, dir: &Path) -> Vec<PathBuf> {
    let Ok(file) = fs::File::open(dir.join(format!("{REPORT_NAME}.json"))) else {
        return Vec::new();
    };
    let last: Result<LastReport, _> = serde_json::from_reader(io::BufReader::new(file));
    let Ok(last) = last else {
        return Vec::new();
    };
    if last.report.made_by.name != env!("CARGO_PKG_NAME") {
        return Vec::new();
    }
    let now: BTreeSet<&str> = report.sheets.iter().map(|s| s.key.as_str()).collect();
    let keys = last.sheets.keys();
    keys.filter(|key| !now.contains(key.as_str()))
        .filter(|key| key.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'_'))
        .map(|key| dir.join(format!("{key}.csv")))
        .filter(|path| path.is_file())
        .collect()
}

/// Renames every file to its place; if one cannot be, puts the earlier ones back as they were.
fn replace_all(staged: &[Staged], staging: &Path) -> Result<(), WriteError> {
    let kept = staging.join("kept");
    fs::create_dir(&kept).map_err(|source| failed(&kept, source))?;
    let old_of = |file: &Staged| file.to.file_name().map(|name| kept.join(name));
    for file in staged {
        if let Some(old) = old_of(file).filter(|_| file.to.exists()) {
            fs::copy(&file.to, old).map_err(|source| failed(&file.to, source))?;
        }
    }
    for (done, file) in staged.iter().enumerate() {
        if let Err(source) = fs::rename(&file.from, &file.to) {
            for earlier in &staged[..done] {
                // Best effort: the first error is the one to report.
                let _ = match old_of(earlier).filter(|old| old.exists()) {
                    Some(old) => fs::rename(old, &earlier.to),
                    None => fs::remove_file(&earlier.to),
                };
            }
            return Err(failed(&file.to, source));
        }
    }
    Ok(())
}

fn failed(path: &Path, source: io::Error) -> WriteError {
    let path = path.to_owned();
    match source.kind() {
        io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => {
            WriteError::NotWritable { path, source }
        }
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => {
            WriteError::DiskFull { path, source }
        }
        _ => WriteError::Io { path, source },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rename_that_fails_puts_the_earlier_ones_back() {
        let dir = tempfile::tempdir().unwrap();
        let staging = dir.path().join("staging");
        fs::create_dir(&staging).unwrap();
        fs::write(dir.path().join("a.csv"), "old a").unwrap();
        let staged = ["a.csv", "b.csv", "c.csv"].map(|name| Staged {
            from: staging.join(name),
            to: dir.path().join(name),
        });
        fs::write(&staged[0].from, "new a").unwrap();
        fs::write(&staged[1].from, "new b").unwrap();
        // c.csv was never staged, so its rename fails.
        let error = replace_all(&staged, &staging).unwrap_err();
        assert!(error.to_string().contains("c.csv"), "{error}");
        assert_eq!(fs::read_to_string(&staged[0].to).unwrap(), "old a");
        assert!(!staged[1].to.exists());
    }

    #[test]
    fn causes_are_told_apart() {
        let path = Path::new("out/reorder.xlsx");
        let full = failed(path, io::ErrorKind::StorageFull.into());
        assert!(matches!(full, WriteError::DiskFull { .. }));
        assert_eq!(
            full.to_string(),
            "`out/reorder.xlsx` cannot be written: no space left"
        );
        let denied = failed(path, io::ErrorKind::PermissionDenied.into());
        assert!(matches!(denied, WriteError::NotWritable { .. }));
    }
}
