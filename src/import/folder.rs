//! Reads a folder of spreadsheets, file by file in the order of their names.

use std::collections::BTreeSet;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::cell::Cell;
use super::file_bytes::read_bytes;
use super::file_kind::{FileKind, kind_of_file};
use super::file_problem::{FileError, FileProblem, SkipReason, SkippedFile};
use super::grid::Grid;
use super::imported::Imported;
use super::mended_rows::read_grids;
use super::options::ImportOptions;
use super::progress::{Progress, Step};
use super::rejects::{REJECTS_NAME, is_rejects};
use super::side_by_side::apart;
use super::table::Table;
use super::text_table::read_text_table;
use super::workbook::read_workbook;
use super::workbook_date::WorkbookDate;
use crate::digest::sha256;
use crate::language::in_backticks;
use crate::parallel;
use crate::record::{DateOrder, ShopSettings};

/// Text in the first cell of every report of this program, by which it knows its own and leaves them out.
pub const OWN_REPORT_MARK: &str = "sparewright report";
/// Sheet that holds the mark in a report's workbook.
pub const OWN_REPORT_SHEET: &str = "Cover";

/// Why a folder gave nothing to work with.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ImportError {
    /// The folder cannot be listed, or there is nothing of that name.
    #[error("{} cannot be read", named(path))]
    Folder {
        /// The folder.
        path: PathBuf,
        /// Why.
        #[source]
        cause: std::io::Error,
    },
    /// No table in any file.
    #[error(
        "{} holds no table that could be read; {} looked at{}",
        named(path),
        files_were(*files),
        reasons(.problems, .skipped)
    )]
    NothingUsable {
        /// The folder.
        path: PathBuf,
        /// How many files were looked at.
        files: usize,
        /// Files that could not be read, with reasons.
        problems: Vec<FileProblem>,
        /// Files left out, with reasons.
        skipped: Vec<SkippedFile>,
    },
    /// Headers and nothing below them.
    #[error("{}", headers_alone(.files))]
    NoRows {
        /// Files with a header and no rows, by name.
        files: Vec<String>,
    },
}

impl ImportError {
    /// The message for somebody who sent files and does not know where they were put.
    pub fn of_what_was_sent(&self) -> String {
        match self {
            Self::NothingUsable {
                problems, skipped, ..
            } => format!(
                "no table could be read in what was sent{}",
                reasons(problems, skipped)
            ),
            Self::Folder { .. } | Self::NoRows { .. } => self.to_string(),
        }
    }
}

/// `the folder` or `the file` and its path; of what is not there, by whether its name ends as a file's.
fn named(path: &Path) -> String {
    let is_file = path.is_file() || !path.is_dir() && path.extension().is_some();
    let kind = if is_file { "file" } else { "folder" };
    format!("the {kind} `{}`", path.display())
}

fn files_were(files: usize) -> String {
    match files {
        1 => "1 file was".to_owned(),
        several => format!("{several} files were"),
    }
}

/// Which files have a header and nothing below it.
fn headers_alone(files: &[String]) -> String {
    let named = in_backticks(files.iter().take(REASONS_NAMED));
    let more = match files.len().saturating_sub(REASONS_NAMED) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    let verb = if files.len() == 1 { "has" } else { "have" };
    format!("{}{more} {verb} a header and no rows", named.join(", "))
}

/// Files whose reasons stand in the message of a folder without a table.
const REASONS_NAMED: usize = 3;

/// The first reasons why files gave nothing, in words.
fn reasons(problems: &[FileProblem], skipped: &[SkippedFile]) -> String {
    let of_problems = problems
        .iter()
        .map(|problem| format!("`{}`: {}", problem.file, problem.reason));
    let of_skipped = skipped
        .iter()
        .map(|file| format!("`{}`: {}", file.file, file.reason));
    let named: Vec<String> = of_problems.chain(of_skipped).take(REASONS_NAMED).collect();
    if named.is_empty() {
        String::new()
    } else {
        format!("; {}", named.join("; "))
    }
}

/// Reads every table in a folder.
///
/// Files are read in the order of their names; folders in it are listed as skipped. A file that cannot be
/// read is a [`FileProblem`], and the rest goes on.
///
/// # Errors
/// [`ImportError`] where the folder cannot be listed or no table was found in it.
pub fn read_folder(path: &Path) -> Result<Imported, ImportError> {
    read_folder_with(path, &ImportOptions::default())
}

/// As [`read_folder`], with meanings of columns that people gave.
///
/// # Errors
/// As [`read_folder`].
pub fn read_folder_with(path: &Path, options: &ImportOptions) -> Result<Imported, ImportError> {
    let known = Known {
        options: options.clone(),
        ..Known::default()
    };
    read_folder_knowing(path, &known)
}

/// As [`read_folder`], with all that is known before reading.
///
/// # Errors
/// As [`read_folder`].
pub fn read_folder_knowing(path: &Path, known: &Known) -> Result<Imported, ImportError> {
    let imported = read_paths(&[path.to_owned()], known)?;
    if imported.tables.is_empty() {
        return Err(imported.nothing_usable(path));
    }
    imported.has_rows()
}

/// What is known before reading.
#[derive(Debug, Clone, Default)]
pub struct Known {
    /// Settings that hold where no settings file is read.
    pub settings: ShopSettings,
    /// Suppliers by which a list without a supplier column may be known, besides those that are read.
    pub suppliers: Vec<String>,
    /// Meanings of columns that people gave.
    pub options: ImportOptions,
    /// Who is told how far reading has come.
    pub progress: Progress,
}

/// Reads files, and every table in folders.
///
/// Where the settings name no `date_order` and every date that tells an order is month first, or year first, all are read
/// so: one shop writes its dates in one way.
///
/// # Errors
/// [`ImportError`] where a folder cannot be listed or neither a table nor settings were found.
pub fn read_paths(paths: &[PathBuf], known: &Known) -> Result<Imported, ImportError> {
    let imported = read_once(paths, known, None)?;
    let order = imported.dates.proved();
    let is_other = order.is_some_and(|order| order != imported.settings.date_order);
    // The order is proved only when every file is read, and by then rows hold dates of the other one. Keeping every grid
    // until then would cost memory in all folders; a second reading costs time in such ones only.
    if is_other && imported.dates.is_doubtful() && !imported.settings.named.contains("date_order") {
        return read_once(paths, known, order);
    }
    Ok(imported)
}

fn read_once(
    paths: &[PathBuf],
    known: &Known,
    order: Option<DateOrder>,
) -> Result<Imported, ImportError> {
    let mut named = Vec::new();
    for path in paths {
        list(path, &mut named)?;
    }
    named.sort();
    let mut imported = Imported::with_options(known.options.clone());
    imported.settings.clone_from(&known.settings);
    imported.known_suppliers.clone_from(&known.suppliers);
    imported.progress = known.progress.clone();
    let (mut tables, mut settings) = (Vec::new(), Vec::new());
    for (name, path) in named {
        let file: Arc<str> = name.to_string_lossy().into();
        match kind_of_file(&file, path.is_dir()) {
            Ok(FileKind::Settings) => settings.push((file, path)),
            Ok(kind) => tables.push((file, path, kind)),
            Err(reason) => imported.skipped.push(SkippedFile {
                file,
                sheet: None,
                reason,
            }),
        }
    }
    imported.read_settings(settings);
    if let Some(order) = order {
        imported.settings.date_order = order;
    }
    let is_alone = tables.len() == 1;
    known.progress.tell(Step::Begun {
        files: tables.len(),
        bytes: tables.iter().map(|(_, path, _)| bytes_of(path)).sum(),
    });
    for (file, path, kind) in tables {
        let bytes = bytes_of(&path);
        let name = Arc::clone(&file);
        known.progress.tell(Step::Opened { file: &name, bytes });
        if !is_alone && file.eq_ignore_ascii_case(REJECTS_NAME) {
            imported.skip(&file, None, SkipReason::Rejects);
        } else if let Err(reason) = imported.read_file(&file, &path, kind, is_alone) {
            imported.problems.push(FileProblem { file, reason });
        }
        known.progress.tell(Step::Done { file: &name, bytes });
    }
    imported.settle();
    if imported.tables.is_empty() && imported.settings_text.is_none() {
        let first = paths.first().map_or(Path::new("."), PathBuf::as_path);
        return Err(imported.nothing_usable(first));
    }
    if imported.settings_text.is_none() {
        return imported.has_rows();
    }
    Ok(imported)
}

/// Bytes of a file; 0 where it cannot be looked at, which reading it will say.
fn bytes_of(path: &Path) -> u64 {
    fs::metadata(path).map_or(0, |data| data.len())
}

/// Adds a file, or what is directly in a folder, with its name.
fn list(path: &Path, named: &mut Vec<(OsString, PathBuf)>) -> Result<(), ImportError> {
    let of_folder = |cause| ImportError::Folder {
        path: path.to_owned(),
        cause,
    };
    if path.is_file() {
        named.push((
            path.file_name().unwrap_or_default().to_owned(),
            path.to_owned(),
        ));
        return Ok(());
    }
    for entry in fs::read_dir(path).map_err(of_folder)? {
        let entry = entry.map_err(of_folder)?;
        named.push((entry.file_name(), entry.path()));
    }
    Ok(())
}

impl Imported {
    /// Refuses tables of which none has a row: there is nothing to plan, and silence would read as if all were well.
    fn has_rows(self) -> Result<Self, ImportError> {
        if self.rows_read > 0 || self.tables.is_empty() {
            return Ok(self);
        }
        let files: BTreeSet<String> = self.tables.iter().map(|of| of.file.to_string()).collect();
        Err(ImportError::NoRows {
            files: files.into_iter().collect(),
        })
    }

    fn nothing_usable(self, path: &Path) -> ImportError {
        let files: BTreeSet<&str> = (self.files.iter().map(|read| &*read.file))
            .chain(self.skipped.iter().map(|skipped| &*skipped.file))
            .chain(self.problems.iter().map(|problem| &*problem.file))
            .collect();
        ImportError::NothingUsable {
            path: path.to_owned(),
            files: files.len(),
            problems: self.problems,
            skipped: self.skipped,
        }
    }

    fn read_file(
        &mut self,
        file: &Arc<str>,
        path: &Path,
        kind: FileKind,
        is_alone: bool,
    ) -> Result<(), FileError> {
        let bytes = read_bytes(path)?;
        let size = bytes.len();
        let mut unseen = None;
        let grids = if kind == FileKind::Workbook {
            let (sum, sheets) = parallel::both(|| sha256(&bytes), || read_workbook(file, &bytes));
            self.note_file(file, path, size, sum);
            let sheets = sheets?;
            for (sheet, cause) in sheets.unreadable {
                let reason = FileError::Sheet { sheet, cause };
                self.problems.push(FileProblem {
                    file: Arc::clone(file),
                    reason,
                });
            }
            unseen = sheets.unseen;
            sheets.grids
        } else {
            let (sum, grid) = read_text_table(file, bytes);
            self.note_file(file, path, size, sum);
            vec![grid?]
        };
        if grids.is_empty() {
            // Charts and macros only.
            self.skip(file, None, SkipReason::NoTable);
        }
        if grids.iter().any(is_own_report) {
            self.skip(file, None, SkipReason::OwnReport);
            return Ok(());
        }
        if is_rejects(&grids) {
            if is_alone {
                read_grids(self, &grids);
            } else {
                self.skip(file, None, SkipReason::Rejects);
            }
            return Ok(());
        }
        let has_header = |grid: &Grid, row: u32| {
            let tables = self.tables_of(grid);
            (tables.iter()).any(|table| (row..=row + 1).contains(&table.header_row))
        };
        let mut grids: Vec<Grid> = grids
            .into_iter()
            .flat_map(|grid| apart(grid, has_header))
            .collect();
        let tables: Vec<Vec<Table>> = grids.iter().map(|grid| self.tables_of(grid)).collect();
        // Said once, of the first sheet with a table.
        let mut filled = grids.iter_mut().zip(&tables);
        if let Some((first, _)) = filled.find(|(_, tables)| !tables.is_empty()) {
            first.notes.extend(unseen.map(str::to_owned));
        }
        let dated = WorkbookDate::of(&grids, &tables, self.settings.date_order);
        for (grid, tables) in grids.iter().zip(&tables) {
            self.read_tables(grid, tables, dated.as_ref());
        }
        Ok(())
    }
}

/// True for a report of this program: its mark in A1 of the cover or of a text table.
fn is_own_report(grid: &Grid) -> bool {
    let is_place = grid.sheet.is_empty() || &*grid.sheet == OWN_REPORT_SHEET;
    is_place
        && matches!(grid.cell(0, 0), Cell::Text(text) if text.to_lowercase().starts_with(OWN_REPORT_MARK))
}
