//! What a folder gave, and how it grows table by table.

use std::collections::{BTreeSet, HashMap};
use std::fs;
use std::path::Path;
use std::sync::Arc;

use chrono::{DateTime, Utc};

use super::cell::Cell;
use super::dates_in_lines::date_in_name;
use super::field::Field;
use super::file_problem::{FileProblem, FileRead, SkipReason, SkippedFile};
use super::find_table::find_tables;
use super::grid::Grid;
use super::issue::{Problem, RowIssue, Severity};
use super::list_supplier::UnnamedList;
use super::nearest_header::why_no_table;
use super::options::{ColumnMap, ImportOptions};
use super::progress::{Progress, Step};
use super::reading::TableRead;
use super::rejects::{self, MendedRow, RejectTable};
use super::returned::{BelowZero, settle_returns};
use super::row::{LookedAt, TableContext, read_table};
use super::table::{Column, Table};
use super::table_kind::{is_foreign, is_unused};
use super::terms::MOST_TOLD;
use super::value::DateEvidence;
use super::whole_list::is_of_stock;
use super::workbook_date::WorkbookDate;
use crate::place::Place;
use crate::record::{Records, ShopSettings, TableKind, Task};

/// Rows looked through for something in a column that no row was asked for.
const ROWS_LOOKED_AT: u32 = 500;

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
    pub(super) options: ImportOptions,
    /// Offer lists whose supplier is not settled yet.
    unnamed: Vec<UnnamedList>,
    /// Lists of usages all below 0 that were taken as used.
    below_zero: Vec<BelowZero>,
    /// Suppliers known before reading.
    pub(super) known_suppliers: Vec<String>,
    /// Who is told how far reading has come.
    pub(super) progress: Progress,
    /// What the dates of all tables prove about the order of day and month.
    pub(super) dates: DateEvidence,
    /// Fields that rows of the table read last were asked for.
    looked_at_last: LookedAt,
}

impl Imported {
    /// Notes that a file was opened.
    pub(super) fn note_file(&mut self, file: &str, path: &Path, bytes: usize, sha256: String) {
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

    /// Notes a file or a sheet that was left out on purpose.
    pub(super) fn skip(&mut self, file: &Arc<str>, sheet: Option<Arc<str>>, reason: SkipReason) {
        self.skipped.push(SkippedFile {
            file: Arc::clone(file),
            sheet,
            reason,
        });
    }

    /// Settles what only the whole folder tells: suppliers of lists, usages that are returns, and tasks whose names hold a comma.
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
                    .map(|order| order.supplier.to_string()),
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
        let below = std::mem::take(&mut self.below_zero);
        let returned = settle_returns(&mut self.records.usages, &mut self.tables, &below);
        self.issues.extend(returned);
        join_task_names(&mut self.records.tasks);
    }

    /// Reads the tables of one sheet, for callers that make their own [`Grid`]s; [`settle`](Self::settle) follows the
    /// last one.
    pub fn read_grid(&mut self, grid: &Grid) {
        let tables = self.tables_of(grid);
        self.read_tables(grid, &tables, None);
    }

    /// Tables of a sheet by what is known before their rows are read.
    pub(super) fn tables_of(&self, grid: &Grid) -> Vec<Table> {
        find_tables(
            grid,
            self.settings.date_order,
            &self.options.for_sheet(&grid.file, &grid.sheet),
        )
    }

    /// Reads the rows of the tables of a sheet.
    pub(super) fn read_tables(
        &mut self,
        grid: &Grid,
        tables: &[Table],
        dated: Option<&WorkbookDate>,
    ) {
        if tables.is_empty() {
            let sheet = (!grid.sheet.is_empty()).then(|| Arc::clone(&grid.sheet));
            let reason = if grid.row_count() == 0 {
                SkipReason::Empty
            } else {
                let maps = self.options.for_sheet(&grid.file, &grid.sheet);
                why_no_table(grid, &maps)
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
        // So does how long the offers of a list hold, unless the next list is dated by itself.
        let is_of_first = table.title.dated.is_none() && table.title.supplier.is_none();
        if context.title.valid_until.is_none() && is_of_first {
            context.title.valid_until = first.title.valid_until;
        }
        let is_unnamed = table.kind == TableKind::Offers && !context.has(Field::Supplier);
        if is_unnamed {
            // Named when the folder is read, see `list_supplier`.
            context.supplier = Some(String::new());
        }
        self.dates.join(context.dates);
        context.look_for_inches(table, &mut why);
        let first_offer = self.records.offers.len();
        let first_usage = self.records.usages.len();
        let at = self.tables.len();
        self.tell_charges(grid, table);
        self.tell_hidden_rows(grid, table);
        self.tell_signs(&context);
        self.take_table(&context, table, why);
        if context.signs.is_all_below {
            self.below_zero.push(BelowZero {
                table: at,
                usages: first_usage..self.records.usages.len(),
            });
        }
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

    /// Says what a list of usages leaves open by its signs and kinds of movements.
    fn tell_signs(&mut self, context: &TableContext<'_>) {
        let (file, sheet) = (&context.grid.file, &context.grid.sheet);
        let told = context.signs.told.iter();
        self.issues
            .extend(told.map(|(row, column, words)| RowIssue {
                place: Place::row(file, sheet, *row).at(*column),
                severity: Severity::Doubtful,
                field: None,
                problem: Problem::Recorded {
                    words: words.clone(),
                },
                original_cells: Vec::new(),
            }));
    }

    /// Says which rows of a table the user does not see, once where the table is read twice.
    fn tell_hidden_rows(&mut self, grid: &Grid, table: &Table) {
        let (file, sheet) = (&grid.file, &grid.sheet);
        let is_read_again = (self.tables.last())
            .is_some_and(|before| before.is_of_rows(file, sheet, table.header_row));
        let hidden = grid.hidden_rows(table.first_row, table.end_row);
        let Some(first) = hidden.first().filter(|_| !is_read_again) else {
            return;
        };
        let named = hidden.iter().take(MOST_TOLD);
        let named: Vec<String> = named.map(|row| (row + 1).to_string()).collect();
        let more = if hidden.len() > MOST_TOLD {
            ", …"
        } else {
            ""
        };
        self.issues.push(RowIssue {
            place: Place::row(file, sheet, *first),
            severity: Severity::Note,
            field: None,
            problem: Problem::HiddenRows {
                rows: format!("{}{more}", named.join(", ")),
            },
            original_cells: Vec::new(),
        });
    }

    /// Says which lines beside a list of offers have a price or a time in them that is not planned with.
    fn tell_charges(&mut self, grid: &Grid, table: &Table) {
        let lines = table.title.terms.charges.iter().take(MOST_TOLD);
        self.issues.extend(lines.map(|line| RowIssue {
            place: Place::row(&grid.file, &grid.sheet, line.row).at(line.column),
            severity: Severity::Doubtful,
            field: None,
            problem: {
                let found = line.text.clone();
                if line.is_without_place() {
                    Problem::TermWithoutPlace { found }
                } else {
                    Problem::TermNotRead { found }
                }
            },
            original_cells: Vec::new(),
        }));
    }

    /// Reads the rows of a table whose columns, units and supplier are settled.
    pub(super) fn take_table(
        &mut self,
        context: &TableContext<'_>,
        table: &Table,
        mut why: Vec<String>,
    ) {
        let first_issue = self.issues.len();
        self.progress.tell(Step::Table {
            file: &context.grid.file,
            rows: u64::from(table.end_row.saturating_sub(table.first_row)),
        });
        let (records, issues) = (&mut self.records, &mut self.issues);
        let (rows, looked_at) = read_table(context, table, records, issues, &self.progress);
        let (file, sheet) = (&context.grid.file, &context.grid.sheet);
        let is_read_again = (self.tables.last())
            .is_some_and(|before| before.is_of_rows(file, sheet, table.header_row));
        // A row that is rejected in both readings is told and counted once.
        let told = if is_read_again {
            self.say_once(first_issue).min(rows.rejected)
        } else {
            rows.rejected
        };
        let at = self.tables.len();
        let reject = rejects::collect(context, table, at, &self.issues[first_issue..]);
        self.rejects.extend(reject.map(|mut reject| {
            reject.origin.sha256 = self.sum_of(&context.grid.file).map(str::to_owned);
            reject
        }));
        if !is_read_again {
            self.rows_read += rows.read;
        }
        self.rows_rejected += told;
        // What the first of two readings of the same rows used is used.
        let mut used = looked_at;
        if is_read_again {
            used.join(self.looked_at_last);
        }
        self.looked_at_last = looked_at;
        let is_last = is_read_again || !context.is_read_beside;
        let table = if rows.read > rows.rejected {
            let judged = |field| is_last || is_of_stock(field);
            &without_strange(context.grid, table, used, judged, &mut why)
        } else {
            table
        };
        self.tables
            .push(TableRead::new(context.grid, table, context, rows, why));
    }

    /// Drops issues from a position on that the first reading of the same rows raised too; rows that are still rejected.
    fn say_once(&mut self, first_issue: usize) -> usize {
        let again = self.issues.split_off(first_issue);
        let mut said: HashMap<&Place, Vec<&RowIssue>> = HashMap::new();
        for issue in &self.issues {
            said.entry(&issue.place).or_default().push(issue);
        }
        let is_new = |issue: &RowIssue| {
            let before = said.get(&issue.place);
            !before.is_some_and(|before| before.contains(&issue))
        };
        let new: Vec<RowIssue> = again.into_iter().filter(is_new).collect();
        let rejected = (new.iter()).filter(|issue| issue.severity == Severity::Rejected);
        let rows: BTreeSet<u32> = rejected.map(|issue| issue.place.row).collect();
        self.issues.extend(new);
        rows.len()
    }
}

/// A table without the columns that none of its rows was asked for: they are told as not read. Of a table that is read twice
/// only the columns that are `judged` here; the other reading judges the rest.
fn without_strange(
    grid: &Grid,
    table: &Table,
    used: LookedAt,
    judged: impl Fn(Field) -> bool,
    why: &mut Vec<String>,
) -> Table {
    let kind = table.kind;
    let has_price = table.columns.iter().any(|column| {
        use Field as F;
        matches!(column.header.field, F::Price | F::ListPrice | F::PriceFrom)
    });
    // Says how prices are meant, and nothing where no row has one.
    let is_of_prices =
        |field: Field| has_price && matches!(field, Field::Currency | Field::PricePer);
    let is_strange = |column: &Column| {
        let field = column.header.field;
        let is_idle = || {
            !used.has(field)
                && (is_foreign(kind, field)
                    || !is_of_prices(field) && is_filled(grid, table, column))
        };
        judged(field) && (is_unused(kind, field) || is_idle())
    };
    let mut table = table.clone();
    let (strange, columns): (Vec<Column>, Vec<Column>) = std::mem::take(&mut table.columns)
        .into_iter()
        .partition(is_strange);
    table.columns = columns;
    for column in strange {
        let (field, of) = (column.header.field, kind.name());
        why.push(if is_unused(kind, field) || is_foreign(kind, field) {
            format!(
                "column `{}` is not read: a table of {of} has no {field}",
                column.printed
            )
        } else {
            format!(
                "column `{}` is not read: no row of this table of {of} needs its {field}",
                column.printed
            )
        });
        table.unread.push((column.index, column.printed));
    }
    table
}

/// True where one of the first rows of a table has something in a column.
fn is_filled(grid: &Grid, table: &Table, column: &Column) -> bool {
    let end = table.end_row.min(table.first_row + ROWS_LOOKED_AT);
    (table.first_row..end).any(|row| grid.cell(row, column.index) != Cell::Empty)
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
