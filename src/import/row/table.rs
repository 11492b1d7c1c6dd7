//! Reads every row of one table: what its columns prove, which rows are data, and what each gives.

use std::sync::Mutex;

use chrono::NaiveDate;

use crate::import::damage::Neighbours;
use crate::import::field::Field;
use crate::import::find_table::{Table, is_header_again};
use crate::import::grid::{Cell, Grid};
use crate::import::header::Stated;
use crate::import::identity::read_identity;
use crate::import::issue::RowIssue;
use crate::import::progress::{Progress, Step};
use crate::import::title::Title;
use crate::import::value::{
    DateEvidence, DecimalSign, NumberEvidence, is_count_word, is_total_word,
};
use crate::parallel;
use crate::part::SizeKey;
use crate::record::{DateOrder, OfferColumns, Records, ShopSettings, TableKind};
use crate::standard;
use crate::units::LengthUnit;

use super::memo::Memo;
use super::quick_offers::QuickOffers;
use super::reader::{Rejected, RowReader};
use super::{
    approvals, kit_lines, machines, offers, other_ways, parts, planned_rebuilds, receipts, stock,
    suppliers, tasks, usages,
};

/// Longest single text of a row that is still data; a longer one below a table is a note.
const LONGEST_LONE_TEXT: usize = 30;
/// Rows looked at for the unit of lengths; a long list is the same all through.
const ROWS_LOOKED_AT: u32 = 200;
/// Least rows that prove anything about the unit. Common practice, no source.
const LEAST_ROWS_IN_INCHES: usize = 2;

/// Rows read in one piece; also those between two steps of progress.
const ROWS_OF_A_PIECE: u32 = 4_096;
/// Pieces of each worker that are read before they are joined.
const PIECES_OF_A_WORKER: usize = 8;

/// A column with what its cells prove.
#[derive(Debug, Clone)]
pub struct ReadColumn {
    /// Position from 0.
    pub index: u32,
    /// Field.
    pub field: Field,
    /// What the header states besides.
    pub states: Stated,
    /// Decimal sign that the column proves, else that of the whole table.
    pub decimal: Option<DecimalSign>,
    /// Order of day and month; `None` where the column holds both.
    pub order: Option<DateOrder>,
    /// True where a date among the lead times of the column is a stray one.
    pub is_date_stray: bool,
    /// What the other cells tell about a damaged one.
    pub neighbours: Neighbours,
}

/// Everything that the rows of a table share.
#[derive(Debug)]
pub struct TableContext<'g> {
    /// The sheet.
    pub grid: &'g Grid,
    /// Kind of table.
    pub kind: TableKind,
    /// Settings of the shop.
    pub settings: &'g ShopSettings,
    /// What the lines above say.
    pub title: Title,
    /// Supplier of the whole list, where no column names one.
    pub supplier: Option<String>,
    /// Date of the whole list.
    pub dated: Option<NaiveDate>,
    /// Unit of lengths where neither cell nor header names one.
    pub unit: LengthUnit,
    /// Why lengths without a unit may be in inches.
    pub inch_doubt: Option<InchDoubt>,
    /// What all dates of the table prove about their order.
    pub dates: DateEvidence,
    /// Columns, in order.
    pub columns: Vec<ReadColumn>,
    by_field: [Option<u16>; Field::COUNT],
}

/// Rows of a table that are standard sizes in inches only, although nothing says inches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InchDoubt {
    /// Such rows.
    pub in_inches: usize,
    /// Rows with a size, of those looked at.
    pub rows: usize,
}

/// Rows of a table by what became of them.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct TableCounts {
    /// Rows looked at as data.
    pub read: usize,
    /// Of these, rejected.
    pub rejected: usize,
    /// Blank rows.
    pub blank: usize,
    /// Total and subtotal rows.
    pub totals: usize,
    /// Repeated header rows.
    pub headers: usize,
    /// Rows of a single long text: notes.
    pub notes: usize,
    /// Rows of a single text that head the rows below them.
    pub headings: usize,
}

impl TableCounts {
    /// Adds the rows of another piece of the table.
    fn add(&mut self, other: Self) {
        self.read += other.read;
        self.rejected += other.rejected;
        self.blank += other.blank;
        self.totals += other.totals;
        self.headers += other.headers;
        self.notes += other.notes;
        self.headings += other.headings;
    }
}

impl<'g> TableContext<'g> {
    /// Looks through the columns of a table for what they prove; notes for the reader go to `why`.
    pub fn new(
        grid: &'g Grid,
        table: &Table,
        settings: &'g ShopSettings,
        why: &mut Vec<String>,
    ) -> Self {
        let mut columns: Vec<ReadColumn> = Vec::with_capacity(table.columns.len());
        let mut evidence = Vec::with_capacity(table.columns.len());
        let mut whole = NumberEvidence::default();
        let mut all_dates = DateEvidence::default();
        for (column, proved) in table.columns.iter().zip(evidence_of(grid, table)) {
            let field = column.header.field;
            let Evidence { numbers, dates, .. } = proved;
            whole.join(numbers);
            all_dates.join(dates);
            if dates.is_by_settings() {
                why.push(format!(
                    "dates of column `{}` could be day first or month first; read {} first, {}",
                    column.printed,
                    match settings.date_order {
                        DateOrder::Dmy => "day",
                        DateOrder::Mdy => "month",
                    },
                    if settings.named.contains("date_order") {
                        "as `date_order` in the settings says"
                    } else {
                        "since no other table says otherwise; `date_order` in the settings would settle it"
                    },
                ));
            }
            evidence.push(numbers);
            columns.push(ReadColumn {
                index: column.index,
                field,
                states: column.header.states,
                decimal: None,
                order: dates.order(settings.date_order),
                is_date_stray: is_lead_time(field)
                    && is_date_stray(&proved, column.header.states.time.is_some()),
                neighbours: Neighbours::of(
                    grid,
                    (table.first_row, table.end_row),
                    column.index,
                    field,
                    &column.printed,
                ),
            });
        }
        for (column, numbers) in columns.iter_mut().zip(evidence) {
            // A column that holds both signs proves that the sheet's sign is not its own.
            let is_silent = numbers == NumberEvidence::default();
            column.decimal = numbers
                .sign()
                .or_else(|| if is_silent { whole.sign() } else { None });
        }
        note_currency(table, &columns, settings, why);
        let mut by_field = [None; Field::COUNT];
        for (at, column) in columns.iter().enumerate().rev() {
            by_field[column.field as usize] = Some(at as u16);
        }
        Self {
            grid,
            kind: table.kind,
            settings,
            title: table.title.clone(),
            supplier: None,
            dated: table.title.dated,
            unit: table.title.states.length.unwrap_or(LengthUnit::Mm),
            inch_doubt: None,
            dates: all_dates,
            columns,
            by_field,
        }
    }

    /// Looks whether the rows are standard sizes in inches rather than in millimetres; call before the rows are read.
    ///
    /// Where nothing names a unit and no row is a standard size in millimetres, the table is in inches, which `why`
    /// says. Otherwise the doubt is kept, and rows that may be either are told.
    pub fn look_for_inches(&mut self, table: &Table, why: &mut Vec<String>) {
        if !self.columns.iter().any(|column| {
            (column.field.is_length() || column.field == Field::Size)
                && matches!(column.states.length, None | Some(LengthUnit::Mm))
        }) {
            return;
        }
        let (mut in_inches, mut in_mm, mut looked) = (0, 0, 0);
        let mut scratch = Vec::new();
        let mut memo = Memo::new(self);
        for row in table.first_row..table.end_row {
            scratch.clear();
            let identity = read_identity(&mut RowReader::new(self, row, &mut memo, &mut scratch));
            let is_inch = scratch.iter().any(|issue| issue.problem.is_inch_slip());
            let is_standard = |size: SizeKey| !standard::of_size(&size).is_empty();
            in_inches += usize::from(is_inch);
            in_mm +=
                usize::from(identity.size.is_some_and(is_standard) && self.is_without_unit(row));
            looked += usize::from(is_inch || identity.size.is_some());
            if row - table.first_row == ROWS_LOOKED_AT {
                break;
            }
        }
        if in_inches >= LEAST_ROWS_IN_INCHES && in_inches > in_mm {
            let is_unit_named = self.title.states.length.is_some()
                || self
                    .columns
                    .iter()
                    .any(|column| column.states.length.is_some());
            if in_mm == 0 && !is_unit_named {
                self.unit = LengthUnit::Inch;
                why.push(format!(
                    "no unit of length is named, and {in_inches} of {looked} sizes are standard ones in inches only: read as inches"
                ));
                return;
            }
            self.inch_doubt = Some(InchDoubt {
                in_inches,
                rows: looked,
            });
        }
    }

    /// True where the lengths of a row are bare numbers: a fraction or a sign tells its unit itself.
    fn is_without_unit(&self, row: u32) -> bool {
        let lengths = self
            .columns
            .iter()
            .filter(|column| column.field.is_length() || column.field == Field::Size);
        lengths
            .map(|column| self.grid.cell(row, column.index))
            .all(|cell| match cell {
                Cell::Text(text) => text
                    .chars()
                    .all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | ' ' | 'x' | '×')),
                _ => true,
            })
    }

    /// The first column of a field.
    pub fn column(&self, field: Field) -> Option<&ReadColumn> {
        self.by_field[field as usize].and_then(|at| self.columns.get(usize::from(at)))
    }

    /// Every column of a field.
    pub fn columns_of(&self, field: Field) -> impl Iterator<Item = &ReadColumn> {
        self.columns
            .iter()
            .filter(move |column| column.field == field)
    }

    /// True where the table has a column of the field.
    pub fn has(&self, field: Field) -> bool {
        self.by_field[field as usize].is_some()
    }
}

/// True for columns of lead times where a fifth of the filled cells or fewer are dates.
fn is_date_stray(evidence: &Evidence, says_unit: bool) -> bool {
    let (dates, others) = (evidence.date_cells, evidence.other_cells);
    // Under a header that says weeks or days a date is a stray one unless most others are dates too.
    dates > 0 && (dates * 4 <= others || says_unit && dates <= others)
}

/// Says how prices get a currency that neither cells nor header name.
fn note_currency(
    table: &Table,
    columns: &[ReadColumn],
    settings: &ShopSettings,
    why: &mut Vec<String>,
) {
    let is_price = |field| matches!(field, Field::Price | Field::ListPrice | Field::PriceFrom);
    let prices: Vec<&ReadColumn> = columns
        .iter()
        .filter(|column| is_price(column.field))
        .collect();
    if table.kind != TableKind::Offers || prices.is_empty() {
        return;
    }
    let says_sign = table
        .columns
        .iter()
        .any(|column| is_price(column.header.field) && column.printed.contains('$'));
    if says_sign {
        why.push("the sign `$` is taken for USD".to_owned());
    }
    let is_named = table.title.states.currency.is_some()
        || columns.iter().any(|column| column.field == Field::Currency)
        || prices.iter().all(|column| column.states.currency.is_some());
    if !is_named {
        why.push(format!(
            "neither header nor title names a currency; prices without one are taken as {}",
            settings.currency.code()
        ));
    }
}

/// What the cells of a column prove, and how many of them are dates and others.
#[derive(Debug, Clone, Copy, Default)]
struct Evidence {
    numbers: NumberEvidence,
    dates: DateEvidence,
    date_cells: u32,
    other_cells: u32,
}

/// What the cells of each column prove: pieces of rows on all cores, each row once for all of its columns.
fn evidence_of(grid: &Grid, table: &Table) -> Vec<Evidence> {
    let looks: Vec<(usize, u32, Field)> = (table.columns.iter().enumerate())
        .map(|(at, column)| (at, column.index, column.header.field))
        .filter(|(_, _, field)| {
            let may_be_stray = is_lead_time(*field) && grid.lines().is_none();
            field.is_number() || field.is_date() || may_be_stray
        })
        .collect();
    let proved = parallel::each(&starts_of_pieces(table), |start| {
        let mut found = vec![Evidence::default(); table.columns.len()];
        for row in *start..table.end_row.min(start + ROWS_OF_A_PIECE) {
            let cells = grid.lines().map(|lines| lines.cells_of(row));
            for (at, column, field) in &looks {
                let cell = match &cells {
                    // An error value proves nothing about numbers and dates.
                    Some(cells) => match cells.cell(*column) {
                        "" => continue,
                        text => Cell::Text(text),
                    },
                    None => grid.cell(row, *column),
                };
                found[*at].add(cell, *field);
            }
        }
        found
    });
    let mut whole = vec![Evidence::default(); table.columns.len()];
    for piece in proved {
        for (all, more) in whole.iter_mut().zip(piece) {
            all.numbers.join(more.numbers);
            all.dates.join(more.dates);
            all.date_cells += more.date_cells;
            all.other_cells += more.other_cells;
        }
    }
    whole
}

impl Evidence {
    fn add(&mut self, cell: Cell<'_>, field: Field) {
        match cell {
            Cell::Text(text) if field.is_date() => self.dates.add(text),
            Cell::Text(text) if field.is_number() => self.numbers.add(text),
            _ => {}
        }
        match cell {
            Cell::Empty => {}
            Cell::Date(_) => self.date_cells += 1,
            _ => self.other_cells += 1,
        }
    }
}

fn is_lead_time(field: Field) -> bool {
    matches!(field, Field::LeadTime | Field::ExpediteLeadTime)
}

/// First row of each piece of a table.
fn starts_of_pieces(table: &Table) -> Vec<u32> {
    (table.first_row..table.end_row)
        .step_by(ROWS_OF_A_PIECE as usize)
        .collect()
}

/// Rows of one piece with what they gave.
#[derive(Default)]
struct Piece {
    records: Records,
    issues: Vec<RowIssue>,
    counts: TableCounts,
}

/// Things that workers put down and take up again.
struct Shelf<T>(Mutex<Vec<T>>);

impl<T> Default for Shelf<T> {
    fn default() -> Self {
        Self(Mutex::default())
    }
}

impl<T> Shelf<T> {
    fn take(&self) -> Option<T> {
        self.0.lock().ok()?.pop()
    }

    fn put(&self, thing: T) {
        if let Ok(mut things) = self.0.lock() {
            things.push(thing);
        }
    }
}

/// Reads the rows of a table into `records`, problems into `issues`: pieces on all cores, their results in order.
pub fn read_table(
    context: &TableContext<'_>,
    table: &Table,
    records: &mut Records,
    issues: &mut Vec<RowIssue>,
    progress: &Progress,
) -> TableCounts {
    let quick = QuickOffers::of(context, table);
    read_pieces(context, table, quick.as_ref(), records, issues, progress)
}

/// As [`read_table`], by the quick way only where one is given.
pub(super) fn read_pieces(
    context: &TableContext<'_>,
    table: &Table,
    quick: Option<&QuickOffers<'_>>,
    records: &mut Records,
    issues: &mut Vec<RowIssue>,
    progress: &Progress,
) -> TableCounts {
    let mut counts = TableCounts::default();
    let starts = starts_of_pieces(table);
    // Memos and emptied pieces go from hand to hand, so that neither is made anew for each piece.
    let (memos, emptied) = (Shelf::default(), Shelf::default());
    let read_from = |start: &u32| {
        let mut memo = memos.take().unwrap_or_else(|| Memo::new(context));
        let mut piece: Piece = emptied.take().unwrap_or_default();
        let end = table.end_row.min(start + ROWS_OF_A_PIECE);
        piece.counts = read_piece(context, table, quick, (*start, end), &mut memo, &mut piece);
        memos.put(memo);
        progress.tell(Step::Rows {
            rows: u64::from(end - start),
        });
        piece
    };
    // A round at a time, so that no more than its pieces and those of the round before wait to be joined; a round is
    // joined while the next is read.
    let mut waiting: Vec<Piece> = Vec::new();
    let none: &[u32] = &[];
    let rounds = starts.chunks(parallel::workers() * PIECES_OF_A_WORKER);
    for round in rounds.chain([none]) {
        let before = std::mem::take(&mut waiting);
        let join = || {
            for mut piece in before {
                records.append(&mut piece.records);
                issues.append(&mut piece.issues);
                counts.add(piece.counts);
                emptied.put(piece);
            }
        };
        (waiting, ()) = parallel::both(|| parallel::each(round, read_from), join);
    }
    counts
}

/// Reads the rows from one to another into a piece.
fn read_piece<'g>(
    context: &TableContext<'g>,
    table: &Table,
    quick: Option<&QuickOffers<'g>>,
    (start, end): (u32, u32),
    memo: &mut Memo<'g>,
    piece: &mut Piece,
) -> TableCounts {
    let mut counts = TableCounts::default();
    // A list whose rows share nothing is kept as rows.
    let quick = quick.filter(|_| memo.offer_kinds.is_open());
    let mut columns = OfferColumns::with_room(if quick.is_some() {
        (end - start) as usize
    } else {
        0
    });
    for row in start..end {
        if quick.is_some_and(|quick| quick.read(context, row, memo, &mut columns, start)) {
            counts.read += 1;
            continue;
        }
        match what_row_is(context, table, row) {
            RowIs::Blank => counts.blank += 1,
            RowIs::Header => counts.headers += 1,
            RowIs::Total => counts.totals += 1,
            RowIs::Note => counts.notes += 1,
            RowIs::Heading => counts.headings += 1,
            RowIs::Data => {
                counts.read += 1;
                let mut reader = RowReader::new(context, row, memo, &mut piece.issues);
                if let Some(quick) = quick {
                    match offers::read(&mut reader) {
                        Ok(record) => {
                            let is_plain = reader.is_plain();
                            quick.learn(record, is_plain, memo, &mut columns, start);
                        }
                        Err(Rejected) => counts.rejected += 1,
                    }
                } else if read_row(&mut reader, &mut piece.records).is_err() {
                    counts.rejected += 1;
                }
            }
        }
    }
    piece.records.offers.push_columns(columns);
    counts
}

enum RowIs {
    Blank,
    Header,
    Total,
    Note,
    Heading,
    Data,
}

fn what_row_is(context: &TableContext<'_>, table: &Table, row: u32) -> RowIs {
    let mut filled = context.grid.row(row).filter(|cell| *cell != Cell::Empty);
    let Some(first) = filled.next() else {
        return RowIs::Blank;
    };
    let Cell::Text(text) = first else {
        return RowIs::Data;
    };
    if is_total_word(text) {
        return RowIs::Total;
    }
    if is_header_again(context.grid, table, row) {
        return RowIs::Header;
    }
    if table.columns.len() < 3 {
        return RowIs::Data;
    }
    let Some(second) = filled.next() else {
        return what_lone_text_is(context, text);
    };
    // A merged row holds one text in all of its cells.
    let mut rest = std::iter::once(second).chain(filled);
    if rest.clone().all(|cell| cell == first) {
        return what_lone_text_is(context, text);
    }
    let is_count = matches!(rest.next(), Some(Cell::Number(_)))
        && rest.next().is_none()
        && is_count_word(text);
    if is_count {
        return RowIs::Total;
    }
    RowIs::Data
}

/// What a row with one text is: a note where it is long, a heading where it names no single part.
fn what_lone_text_is(context: &TableContext<'_>, text: &str) -> RowIs {
    use TableKind as K;
    if text.len() > LONGEST_LONE_TEXT || text.starts_with('*') {
        return RowIs::Note;
    }
    // A supplier, a machine or a kit may be known by its name alone.
    let is_of_parts = matches!(
        context.kind,
        K::Parts | K::Offers | K::OtherWays | K::Stock | K::Usages | K::Receipts | K::KitLines
    );
    let names_no_part =
        text.contains(char::is_whitespace) || !text.contains(|c: char| c.is_ascii_digit());
    if is_of_parts && names_no_part {
        RowIs::Heading
    } else {
        RowIs::Data
    }
}

fn read_row(row: &mut RowReader<'_, '_>, records: &mut Records) -> Result<(), Rejected> {
    match row.table.kind {
        TableKind::Parts => parts::read(row).map(|record| records.parts.push(record)),
        TableKind::Suppliers => suppliers::read(row).map(|record| records.suppliers.push(record)),
        TableKind::Offers => offers::read(row).map(|record| records.offers.push(record)),
        TableKind::OtherWays => other_ways::read(row).map(|record| records.other_ways.push(record)),
        TableKind::Stock => stock::read(row).map(|record| records.stock.push(record)),
        TableKind::Usages => usages::read(row).map(|record| records.usages.push(record)),
        TableKind::Receipts => receipts::read(row).map(|record| records.receipts.push(record)),
        TableKind::KitLines => kit_lines::read(row).map(|record| records.kit_lines.push(record)),
        TableKind::Tasks => tasks::read(row).map(|record| records.tasks.push(record)),
        TableKind::PlannedRebuilds => {
            planned_rebuilds::read(row).map(|record| records.planned_rebuilds.push(record))
        }
        TableKind::Approvals => approvals::read(row).map(|record| records.approvals.push(record)),
        TableKind::Machines => machines::read(row).map(|record| records.machines.push(record)),
    }
}
