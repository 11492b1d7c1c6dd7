//! Reads a folder of spreadsheets, file by file in the order of their names.

use std::collections::BTreeSet;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use chrono::{DateTime, Utc};

use crate::digest::sha256;
use crate::record::{DateOrder, Records, SettingsError, ShopSettings, TableKind, Task};

use super::file_bytes::read_bytes;
use super::file_kind::{FileKind, kind_of_file};
use super::find_table::{Table, find_tables};
use super::grid::{Cell, Grid};
use super::issue::RowIssue;
use super::list_supplier::UnnamedList;
use super::options::{ColumnMap, ImportOptions};
use super::progress::{Progress, Step};
use super::reading::{FileError, FileProblem, FileRead, SkipReason, SkippedFile, TableRead};
use super::rejects::{self, MendedRow, REJECTS_NAME, RejectTable};
use super::row::{TableContext, read_table};
use super::text_table::read_text_table;
use super::title::date_in_name;
use super::value::DateEvidence;
use super::workbook::read_workbook;
use super::workbook_date::WorkbookDate;
use crate::parallel;

/// Text in the first cell of every report of this program, by which it knows its own and leaves them out.
pub const OWN_REPORT_MARK: &str = "sparewright report";
/// Sheet that holds the mark in a report's workbook.
pub const OWN_REPORT_SHEET: &str = "Cover";

/// Everything that a folder gave.
#[derive(Debug, Default)]
pub struct Imported {
    /// Rows that were taken.
    pub records: Records,
    /// Settings of the shop, or the defaults.
    pub settings: ShopSettings,
    /// File the settings came from; `None` where the defaults hold.
    pub settings_file: Option<Arc<str>>,
    /// Its text.
    pub settings_text: Option<String>,
    /// Files that were opened, in order of reading.
    pub files: Vec<FileRead>,
    /// How each table was read.
    pub tables: Vec<TableRead>,
    /// Files and sheets left out on purpose.
    pub skipped: Vec<SkippedFile>,
    /// Files that could not be read.
    pub problems: Vec<FileProblem>,
    /// Problems of rows, in order of reading.
    pub issues: Vec<RowIssue>,
    /// Rows looked at as data.
    pub rows_read: usize,
    /// Of these, rejected.
    pub rows_rejected: usize,
    /// Rows that someone should mend, table by table.
    pub rejects: Vec<RejectTable>,
    /// Rows of a workbook of rejects with the rows they mend.
    pub mended: Vec<MendedRow>,
    /// Given mappings that were used, each for tables of the shape it was used on: what to remember for the next list.
    pub used_maps: Vec<ColumnMap>,
    /// What the import was told.
    options: ImportOptions,
    /// Offer lists whose supplier is not settled yet.
    unnamed: Vec<UnnamedList>,
    /// Suppliers known before reading.
    known_suppliers: Vec<String>,
    /// Who is told how far reading has come.
    progress: Progress,
    /// What the dates of all tables prove about the order of day and month.
    dates: DateEvidence,
}

/// Why a folder gave nothing to work with.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ImportError {
    /// The folder cannot be listed.
    #[error("the folder `{}` cannot be read: {cause}", path.display())]
    Folder {
        /// The folder.
        path: PathBuf,
        /// Why.
        #[source]
        cause: std::io::Error,
    },
    /// No table in any file.
    #[error(
        "the folder `{}` holds no table that could be read; {files} files were looked at{}",
        path.display(),
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
    Ok(imported)
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
/// Where the settings name no `date_order` and every date that can be only one of both is month first, all are read
/// so: one shop writes its dates in one way.
///
/// # Errors
/// [`ImportError`] where a folder cannot be listed or neither a table nor settings were found.
pub fn read_paths(paths: &[PathBuf], known: &Known) -> Result<Imported, ImportError> {
    let imported = read_once(paths, known, None)?;
    let order = imported.dates.proved();
    let is_other = order.is_some_and(|order| order != imported.settings.date_order);
    if is_other && imported.dates.either > 0 && !imported.settings.named.contains("date_order") {
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
    let mut imported = Imported {
        settings: known.settings.clone(),
        known_suppliers: known.suppliers.clone(),
        progress: known.progress.clone(),
        ..Imported::with_options(known.options.clone())
    };
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
    fn nothing_usable(self, path: &Path) -> ImportError {
        let files: std::collections::BTreeSet<&str> = (self.files.iter().map(|read| &*read.file))
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

    /// Notes that a file was opened.
    fn note_file(&mut self, file: &str, path: &Path, bytes: usize, sha256: String) {
        let modified = fs::metadata(path).and_then(|data| data.modified()).ok();
        self.files.push(FileRead {
            file: file.to_owned(),
            bytes: bytes as u64,
            modified: modified.map(|time| DateTime::<Utc>::from(time).naive_utc()),
            sha256,
        });
    }

    /// SHA-256 of a file that was opened; of several of one name the last.
    pub fn sum_of(&self, file: &str) -> Option<&str> {
        let found = self.files.iter().rev().find(|read| read.file == file);
        found.map(|read| read.sha256.as_str())
    }

    /// Meanings of columns that people gave for this import or an earlier one.
    pub(super) fn given_maps(&self) -> &[ColumnMap] {
        &self.options.maps
    }

    /// Starts an import that knows what people said about columns.
    pub fn with_options(options: ImportOptions) -> Self {
        Self {
            options,
            ..Self::default()
        }
    }

    /// The first settings file by name holds; others are problems.
    fn read_settings(&mut self, files: Vec<(Arc<str>, PathBuf)>) {
        let mut files = files.into_iter();
        let Some((file, path)) = files.next() else {
            return;
        };
        for (other, _) in files {
            let reason = FileError::SecondSettings {
                used: file.to_string(),
            };
            self.problems.push(FileProblem {
                file: other,
                reason,
            });
        }
        let mut read = || -> Result<(ShopSettings, String), FileError> {
            let bytes = fs::read(&path)?;
            self.note_file(&file, &path, bytes.len(), sha256(&bytes));
            let text = String::from_utf8(bytes).map_err(|_| FileError::SettingsNotText)?;
            let mut text = text.trim_start_matches('\u{feff}').to_owned();
            if let Err(why) = ShopSettings::from_toml(&text)
                && let SettingsError::Contradiction { key, .. } = why
            {
                let reason = FileError::SettingLeftOut { why, key };
                let file = Arc::clone(&file);
                self.problems.push(FileProblem { file, reason });
                text = without_key(&text, key);
            }
            Ok((ShopSettings::from_toml(&text)?, text))
        };
        match read() {
            Ok((settings, text)) => {
                self.settings = settings;
                self.settings_text = Some(text);
                self.settings_file = Some(file);
            }
            Err(reason) => self.problems.push(FileProblem { file, reason }),
        }
    }

    fn skip(&mut self, file: &Arc<str>, sheet: Option<Arc<str>>, reason: SkipReason) {
        self.skipped.push(SkippedFile {
            file: Arc::clone(file),
            sheet,
            reason,
        });
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
        if rejects::is_rejects(&grids) {
            if is_alone {
                rejects::read_grids(self, &grids);
            } else {
                self.skip(file, None, SkipReason::Rejects);
            }
            return Ok(());
        }
        let tables: Vec<Vec<Table>> = grids.iter().map(|grid| self.tables_of(grid)).collect();
        let dated = WorkbookDate::of(&grids, &tables, self.settings.date_order);
        for (grid, tables) in grids.iter().zip(&tables) {
            self.read_tables(grid, tables, dated.as_ref());
        }
        Ok(())
    }

    /// Settles what only the whole folder tells: suppliers of lists, and tasks whose names hold a comma.
    pub fn settle(&mut self) {
        let names: Vec<String> = self
            .records
            .suppliers
            .iter()
            .map(|supplier| supplier.name.clone())
            .chain(self.known_suppliers.iter().cloned())
            // Orders name the suppliers that a shop has.
            .chain(
                self.records
                    .receipts
                    .iter()
                    .map(|order| order.supplier.clone()),
            )
            .collect::<BTreeSet<String>>()
            .into_iter()
            .collect();
        let known: Vec<&str> = names.iter().map(String::as_str).collect();
        for list in std::mem::take(&mut self.unnamed) {
            let (supplier, how) = list.supplier(&known, &self.settings.shop);
            self.records.offers.set_supplier(&list.offers, &supplier);
            let table = &mut self.tables[list.table];
            table.why.push(format!("supplier `{supplier}`: {how}"));
            table.supplier = Some(supplier.clone());
            for reject in self
                .rejects
                .iter_mut()
                .filter(|one| one.table == list.table)
            {
                reject.origin.supplier = Some(supplier.clone());
            }
        }
        join_task_names(&mut self.records.tasks);
    }

    /// Reads the tables of one sheet, for callers that make their own [`Grid`]s; [`settle`](Self::settle) follows the
    /// last one.
    pub fn read_grid(&mut self, grid: &Grid) {
        let tables = self.tables_of(grid);
        self.read_tables(grid, &tables, None);
    }

    fn tables_of(&self, grid: &Grid) -> Vec<Table> {
        find_tables(
            grid,
            self.settings.date_order,
            &self.options.for_sheet(&grid.file, &grid.sheet),
        )
    }

    fn read_tables(&mut self, grid: &Grid, tables: &[Table], dated: Option<&WorkbookDate>) {
        if tables.is_empty() {
            let sheet = (!grid.sheet.is_empty()).then(|| Arc::clone(&grid.sheet));
            let reason = if grid.row_count() == 0 {
                SkipReason::Empty
            } else {
                SkipReason::NoTable
            };
            self.skip(&grid.file, sheet, reason);
        }
        // What the first title of a sheet says about date and supplier holds for its other tables too.
        let mut first: Option<&Table> = None;
        for table in tables {
            self.read_one(grid, table, first.get_or_insert(table), dated);
        }
    }

    fn read_one(
        &mut self,
        grid: &Grid,
        table: &Table,
        first: &Table,
        dated: Option<&WorkbookDate>,
    ) {
        let settings = self.settings.clone();
        let mut why = table.why.clone();
        why.extend(grid.notes.iter().cloned());
        let mut context = TableContext::new(grid, table, &settings, &mut why);
        if context.dated.is_none() {
            context.dated = first
                .title
                .dated
                .or_else(|| date_in_name(&grid.sheet))
                .or_else(|| Some(dated?.told(&grid.sheet, &mut why)))
                .or_else(|| date_in_name(&grid.file));
        }
        let is_unnamed =
            table.kind == TableKind::Offers && !context.has(super::field::Field::Supplier);
        if is_unnamed {
            // Named when the folder is read, see `list_supplier`.
            context.supplier = Some(String::new());
        }
        self.dates.join(context.dates);
        context.look_for_inches(table, &mut why);
        let first_offer = self.records.offers.len();
        let at = self.tables.len();
        self.take_table(&context, table, why);
        for map in ColumnMap::used_in(table) {
            if !self.used_maps.contains(&map) {
                self.used_maps.push(map);
            }
        }
        if is_unnamed {
            let offers = first_offer..self.records.offers.len();
            self.unnamed
                .push(UnnamedList::new(grid, table, first, at, offers));
        }
    }

    /// Reads the rows of a table whose columns, units and supplier are settled.
    pub(super) fn take_table(
        &mut self,
        context: &TableContext<'_>,
        table: &Table,
        why: Vec<String>,
    ) {
        let first_issue = self.issues.len();
        self.progress.tell(Step::Table {
            file: &context.grid.file,
            rows: u64::from(table.end_row.saturating_sub(table.first_row)),
        });
        let (records, issues) = (&mut self.records, &mut self.issues);
        let rows = read_table(context, table, records, issues, &self.progress);
        let at = self.tables.len();
        let reject = rejects::collect(context, table, at, &self.issues[first_issue..]);
        self.rejects.extend(reject.map(|mut reject| {
            reject.origin.sha256 = self.sum_of(&context.grid.file).map(str::to_owned);
            reject
        }));
        self.rows_read += rows.read;
        self.rows_rejected += rows.rejected;
        self.tables
            .push(TableRead::new(context.grid, table, context, rows, why));
    }
}

/// Joins the pieces of a predecessor's name that holds a comma: `Lock out, strip` is one task where the kit has it.
fn join_task_names(tasks: &mut [Task]) {
    let names: BTreeSet<(String, String)> = tasks
        .iter()
        .map(|task| (task.kit.clone(), task.task.to_lowercase()))
        .collect();
    for task in tasks.iter_mut().filter(|task| task.predecessors.len() > 1) {
        let pieces = std::mem::take(&mut task.predecessors);
        let mut at = 0;
        while at < pieces.len() {
            // The longest run of pieces that is a task's name; a piece that is none stays as it is.
            let end = (at + 1..=pieces.len())
                .rev()
                .find(|end| {
                    let joined = pieces[at..*end].join(", ").to_lowercase();
                    names.contains(&(task.kit.clone(), joined))
                })
                .unwrap_or(at + 1);
            task.predecessors.push(pieces[at..end].join(", "));
            at = end;
        }
    }
}

/// True for a report of this program: its mark in A1 of the cover or of a text table.
fn is_own_report(grid: &Grid) -> bool {
    let is_place = grid.sheet.is_empty() || &*grid.sheet == OWN_REPORT_SHEET;
    is_place
        && matches!(grid.cell(0, 0), Cell::Text(text) if text.to_lowercase().starts_with(OWN_REPORT_MARK))
}

/// Settings without the lines of a key.
fn without_key(text: &str, key: &str) -> String {
    let is_other = |line: &&str| {
        let name = line.split('=').next().unwrap_or_default();
        name.trim() != key
    };
    let kept: Vec<&str> = text.lines().filter(is_other).collect();
    kept.join("\n")
}
