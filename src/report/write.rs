//! Writes the set of files so that a reader finds either the old set or the new one complete.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::fs;
use std::io::{self, Write as _};
use std::panic::resume_unwind;
use std::path::{Path, PathBuf};
use std::sync::mpsc::sync_channel;
use std::thread;

use serde::de::IgnoredAny;

use super::csv::write_csv;
use super::html::ROWS_SHOWN;
use super::html_of;
use super::json::{write_json, write_json_of};
use super::model::{Group, KnownSheets, ModelError, Release, Report, Sheet, ToMake, check_report};
use super::xlsx::{WorkbookError, write_workbook, write_workbook_of};
use crate::parallel;

/// Name of the workbook, page and JSON file without extension.
pub const REPORT_NAME: &str = "reorder";

/// Cells that writers may still hold when a long sheet is made, as many as a hundred MiB have: two long sheets at a time
/// would be a third of all that the job of a large shop holds.
const MOST_CELLS_HELD: usize = 1_000_000;
/// The same when short sheets are made: those of one long sheet and some short ones.
const MOST_CELLS_BESIDE: usize = 5_000_000;

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
    write_report_with(report, &[], dir)
}

/// As [`write_report`], with files of other contents that belong to the set.
///
/// # Errors
/// As [`write_report`].
pub fn write_report_with(
    report: &Report,
    others: &[(String, Vec<u8>)],
    dir: &Path,
) -> Result<Vec<PathBuf>, WriteError> {
    check_report(report)?;
    let staging = Staging::inside(dir)?;
    let staged = staging.set(report, others)?;
    stage(report, &staged)?;
    staging.put_in_place(report, &staged, others, &last_keys(dir))
}

/// As [`write_report_with`], of sheets that are made one group after another and forgotten when they are written, so that the
/// rows of a large shop are never in memory at once; `head` is the report without them.
///
/// Sheets that read each other are in one group. Workbook and JSON take a group while the next one is made.
///
/// # Errors
/// As [`write_report_with`].
pub fn write_made(
    head: Report,
    groups: impl Iterator<Item = ToMake<impl FnOnce() -> Vec<Sheet>>>,
    others: &[(String, Vec<u8>)],
    dir: &Path,
) -> Result<Vec<PathBuf>, WriteError> {
    let staging = Staging::inside(dir)?;
    // A report of a large shop is as long to read as to write.
    let (report, last) = thread::scope(|scope| {
        let last = scope.spawn(|| last_keys(dir));
        let report = stage_made(head, groups, &staging);
        (
            report,
            last.join().unwrap_or_else(|panic| resume_unwind(panic)),
        )
    });
    let report = report?;
    let staged = staging.set(&report, others)?;
    staging.put_in_place(&report, &staged, others, &last)
}

/// The hidden folder in which a set is complete before any of it is seen.
struct Staging<'d> {
    folder: tempfile::TempDir,
    dir: &'d Path,
}

impl<'d> Staging<'d> {
    /// Inside the folder, not beside it: it is the one place that is surely writable and on the same disk.
    fn inside(dir: &'d Path) -> Result<Self, WriteError> {
        fs::create_dir_all(dir).map_err(|source| failed(dir, source))?;
        let folder = tempfile::Builder::new()
            .prefix(".sparewright-")
            .tempdir_in(dir)
            .map_err(|source| failed(dir, source))?;
        Ok(Self { folder, dir })
    }

    fn file(&self, name: &str) -> Staged {
        Staged {
            from: self.folder.path().join(name),
            to: self.dir.join(name),
        }
    }

    /// The files of the set, those of other contents last; refused where something else has the name of one.
    fn set(
        &self,
        report: &Report,
        others: &[(String, Vec<u8>)],
    ) -> Result<Vec<Staged>, WriteError> {
        let names = names_of(report).into_iter();
        let staged: Vec<Staged> = names
            .chain(others.iter().map(|(name, _)| name.clone()))
            .map(|name| self.file(&name))
            .collect();
        let mut targets = staged.iter().map(|file| &file.to);
        match targets.find(|path| path.exists() && !path.is_file()) {
            Some(path) => Err(WriteError::InTheWay { path: path.clone() }),
            None => Ok(staged),
        }
    }

    /// Writes the other files of the set, renames all of them to their places and takes stale ones away.
    fn put_in_place(
        &self,
        report: &Report,
        staged: &[Staged],
        others: &[(String, Vec<u8>)],
        last: &[String],
    ) -> Result<Vec<PathBuf>, WriteError> {
        let stale = stale_files(last, report, self.dir);
        for ((_, bytes), file) in others.iter().zip(&staged[staged.len() - others.len()..]) {
            file.fill(|writer| writer.write_all(bytes))?;
        }
        replace_all(staged, self.folder.path())?;
        for path in stale {
            // A leftover is untidy, but the new set is complete: no reason to fail.
            let _ = fs::remove_file(path);
        }
        Ok(staged.iter().map(|file| file.to.clone()).collect())
    }
}

/// Stages the files of a report whose sheets are made one group after another; the report with the rows that its page shows.
fn stage_made(
    head: Report,
    groups: impl Iterator<Item = ToMake<impl FnOnce() -> Vec<Sheet>>>,
    staging: &Staging<'_>,
) -> Result<Report, WriteError> {
    let [workbook, page, json] = whole_names().map(|name| staging.file(&name));
    let mut known = KnownSheets::default();
    let of_head = &head;
    thread::scope(|scope| {
        let (to_workbook, for_workbook) = sync_channel::<Group>(0);
        let (to_json, for_json) = sync_channel::<Group>(0);
        let workbook = scope.spawn(|| {
            fill_workbook(&workbook, |writer| {
                write_workbook_of(of_head, for_workbook.into_iter(), writer)
            })
        });
        let json = scope
            .spawn(|| json.fill(|writer| write_json_of(of_head, for_json.into_iter(), writer)));
        let mut shown = Vec::new();
        let mut held = HeldGroups::default();
        let mut take = |sheets: Vec<Sheet>, held: &mut HeldGroups| {
            known.check(&sheets, of_head.language)?;
            let (group, release) = Group::new(sheets);
            held.add(&group, release);
            // One that failed takes no more, and says why when it is asked below.
            let is_taken =
                to_workbook.send(group.clone()).is_ok() && to_json.send(group.clone()).is_ok();
            let first = group.iter().map(|sheet| sheet.first_rows(ROWS_SHOWN));
            shown.extend(first.map(Cow::into_owned));
            let filled = parallel::each(&group, |sheet| {
                let file = staging.file(&table_name(&sheet.key));
                file.fill(|writer| write_csv(sheet, writer))
            });
            filled.into_iter().collect::<Result<(), WriteError>>()?;
            Ok::<bool, WriteError>(is_taken)
        };
        let mut made = Ok(());
        for group in groups {
            held.wait(if group.is_long {
                MOST_CELLS_HELD
            } else {
                MOST_CELLS_BESIDE
            });
            match take((group.make)(), &mut held) {
                Ok(true) => {}
                Ok(false) => break,
                Err(error) => {
                    made = Err(error);
                    break;
                }
            }
        }
        drop((to_workbook, to_json));
        // The page is made while the workbook is packed.
        let report = Report {
            sheets: shown,
            ..of_head.clone()
        };
        let of_page = made.is_ok().then(|| {
            known.check_cover(&report)?;
            page.fill(|writer| writer.write_all(html_of(&report).as_bytes()))
        });
        let written = [workbook.join(), json.join()];
        made?;
        for of_file in written {
            of_file.unwrap_or_else(|panic| resume_unwind(panic))?;
        }
        of_page.transpose()?;
        Ok(report)
    })
}

/// Groups that writers hold, the oldest first, with the cells of each.
#[derive(Default)]
struct HeldGroups(VecDeque<(usize, Release)>);

impl HeldGroups {
    fn add(&mut self, group: &Group, release: Release) {
        self.0.push_back((group.cells(), release));
    }

    /// Waits until the writers hold no more than so many cells.
    fn wait(&mut self, most_cells: usize) {
        self.0.retain(|(_, release)| !release.is_over());
        while self.0.iter().map(|(cells, _)| cells).sum::<usize>() > most_cells
            && let Some((_, release)) = self.0.pop_front()
        {
            release.wait();
        }
    }
}

/// Fills the workbook's file; what is wrong with the report is told as such, the writer's refusals are those of the file.
fn fill_workbook(
    file: &Staged,
    write: impl FnOnce(&mut io::BufWriter<fs::File>) -> Result<(), WorkbookError>,
) -> Result<(), WriteError> {
    let mut refused = None;
    let filled = file.fill(|writer| {
        write(writer).or_else(|error| match error.kind_of_file_failure() {
            Some(kind) => Err(io::Error::new(kind, error)),
            None => {
                refused = Some(error);
                Ok(())
            }
        })
    });
    refused.map_or(filled, |error| Err(error.into()))
}

/// Names of the files of the set: workbook, page, JSON, then a table for each sheet.
fn names_of(report: &Report) -> Vec<String> {
    let tables = report.sheets.iter().map(|sheet| table_name(&sheet.key));
    whole_names().into_iter().chain(tables).collect()
}

/// Names of the workbook, the page and the JSON file, which hold the whole report.
fn whole_names() -> [String; 3] {
    ["xlsx", "html", "json"].map(|format| format!("{REPORT_NAME}.{format}"))
}

fn table_name(key: &str) -> String {
    format!("{key}.csv")
}

/// Writes the files of the set, in the order of their names, each out of memory before the next is made.
fn stage(report: &Report, staged: &[Staged]) -> Result<(), WriteError> {
    let [workbook, page, json, tables @ ..] = staged else {
        return Ok(());
    };
    // The workbook takes about as long as all the others together.
    let (one, others) = parallel::both(
        || fill_workbook(workbook, |writer| write_workbook(report, writer)),
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

/// Keys of the sheets that the report now in `dir` lists; none where it is no report of ours.
fn last_keys(dir: &Path) -> Vec<String> {
    let Ok(file) = fs::File::open(dir.join(format!("{REPORT_NAME}.json"))) else {
        return Vec::new();
    };
    let last: Result<LastReport, _> = serde_json::from_reader(io::BufReader::new(file));
    match last {
        Ok(last) if last.report.made_by.name == env!("CARGO_PKG_NAME") => {
            last.sheets.into_keys().collect()
        }
        _ => Vec::new(),
    }
}

/// CSV files in `dir` of sheets that the last report had and the new one has not.
fn stale_files(last: &[String], report: &Report, dir: &Path) -> Vec<PathBuf> {
    let now: BTreeSet<&str> = report.sheets.iter().map(|s| s.key.as_str()).collect();
    last.iter()
        .filter(|key| !now.contains(key.as_str()))
        .filter(|key| key.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'_'))
        .map(|key| dir.join(table_name(key)))
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
            // A second name keeps the file without copying it, where the disk has such names.
            fs::hard_link(&file.to, &old)
                .or_else(|_| fs::copy(&file.to, &old).map(drop))
                .map_err(|source| failed(&file.to, source))?;
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
