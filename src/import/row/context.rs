//! What the rows of a table share: its columns with what their cells prove, units, supplier and date.

use chrono::NaiveDate;

use crate::import::cell::Cell;
use crate::import::damage::Neighbours;
use crate::import::field::Field;
use crate::import::grid::Grid;
use crate::import::stated::Stated;
use crate::import::table::{Column, Table};
use crate::import::title::Title;
use crate::import::value::{DateEvidence, DecimalSign, NumberEvidence, read_number};
use crate::record::{DateOrder, ShopSettings, TableKind};
use crate::units::LengthUnit;

use super::evidence::{Evidence, evidence_of, is_lead_time, lies_near};
use super::price_tax::note_gross;
use super::signs::Signs;
use super::slipped::Slips;

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
    /// True for a column of discounts of which a cell can only be in percent: `20`, `10+5`.
    pub is_in_percent: bool,
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
    /// True where the rows are also read as another kind of table.
    pub is_read_beside: bool,
    /// What the signs and kinds of movements of a list of usages mean.
    pub signs: Signs,
    /// By what rows are known to have slipped.
    pub slips: Slips,
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

impl<'g> TableContext<'g> {
    /// Looks through the columns of a table for what they prove; notes for the reader go to `why`.
    pub fn new(
        grid: &'g Grid,
        table: &Table,
        settings: &'g ShopSettings,
        why: &mut Vec<String>,
    ) -> Self {
        let mut proved = evidence_of(grid, table);
        let mut whole = NumberEvidence::default();
        for evidence in &proved {
            whole.join(evidence.numbers);
        }
        let dates = settle_years(table, &mut proved);
        let columns: Vec<ReadColumn> = (table.columns.iter().zip(&proved))
            .map(|(column, proved)| {
                why.extend(notes_of_dates(&column.printed, proved.dates, settings));
                ReadColumn::of(grid, table, column, proved, (&whole, settings))
            })
            .collect();
        note_currency(table, &columns, settings, why);
        let mut by_field = [None; Field::COUNT];
        for (at, column) in columns.iter().enumerate().rev() {
            by_field[column.field as usize] = Some(at as u16);
        }
        let signs = Signs::of(grid, table, &columns, &settings.movement_codes, why);
        let context = Self {
            signs,
            grid,
            kind: table.kind,
            settings,
            title: table.title.clone(),
            supplier: None,
            dated: table.title.dated,
            unit: table.title.states.length.unwrap_or(LengthUnit::Mm),
            inch_doubt: None,
            dates,
            columns,
            by_field,
            is_read_beside: !table.read_beside.is_empty(),
            slips: Slips::of(grid, table),
        };
        if table.kind == TableKind::Offers {
            note_gross(&context, table, why);
        }
        context
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

    /// True where the table has a column that says more of a part than its numbers.
    pub fn describes_parts(&self) -> bool {
        let mut columns = self.columns.iter();
        columns.any(|column| column.field.describes_part())
    }

    /// True where the table has a column of the field.
    pub fn has(&self, field: Field) -> bool {
        self.by_field[field as usize].is_some()
    }
}

impl ReadColumn {
    /// A column with what its own cells prove, else what `whole` proves of all columns.
    fn of(
        grid: &Grid,
        table: &Table,
        column: &Column,
        proved: &Evidence,
        (whole, settings): (&NumberEvidence, &ShopSettings),
    ) -> Self {
        let field = column.header.field;
        let states = with_tax_words(field, column.header.states, &column.printed);
        // A column that holds both signs proves that the sheet's sign is not its own.
        let is_silent = proved.numbers == NumberEvidence::default();
        let of_sheet = || if is_silent { whole.sign() } else { None };
        let rows = (table.first_row, table.end_row);
        let decimal = proved.numbers.sign().or_else(of_sheet);
        let mut cells = (rows.0..rows.1).map(|row| grid.cell(row, column.index));
        Self {
            index: column.index,
            field,
            states,
            decimal,
            order: proved.dates.order(settings.date_order),
            is_date_stray: is_lead_time(field) && proved.is_date_stray(states.time.is_some()),
            neighbours: Neighbours::of(grid, rows, column.index, field, &column.printed),
            is_in_percent: field == Field::Discount && cells.any(|cell| is_percents(cell, decimal)),
        }
    }
}

/// What a header states, with what all of it says of tax: `MwSt. incl.`, `Bruttopreis EUR`.
fn with_tax_words(field: Field, mut states: Stated, printed: &str) -> Stated {
    let said = Stated::read(printed);
    match field {
        Field::VatRate => states.add_tax(said),
        Field::Price | Field::ListPrice | Field::PriceFrom if said.is_gross => {
            states.add_tax(Stated {
                is_gross: true,
                ..Stated::default()
            });
        }
        _ => {}
    }
    states
}

/// True for a discount that can only be in percent: of 1 and more, or several after each other.
fn is_percents(cell: Cell<'_>, decimal: Option<DecimalSign>) -> bool {
    match cell {
        Cell::Text(text) => text.split('+').any(|piece| {
            let figure = piece.trim().trim_end_matches('%').trim_end();
            read_number(figure, decimal).is_ok_and(|value| value >= 1.0)
        }),
        Cell::Number(value) => value >= 1.0,
        _ => false,
    }
}

/// Settles where years of two figures stand: by each column itself, else by the others. Gives what all dates prove.
fn settle_years(table: &Table, proved: &mut [Evidence]) -> DateEvidence {
    let joined = |proved: &[Evidence], of: fn(Field) -> bool| {
        let mut all = DateEvidence::default();
        for (column, evidence) in table.columns.iter().zip(proved) {
            if of(column.header.field) {
                all.join(evidence.dates.settled());
            }
        }
        all
    };
    let near = joined(proved, lies_near);
    for (column, evidence) in table.columns.iter().zip(proved.iter_mut()) {
        let is_near = lies_near(column.header.field);
        evidence.dates = evidence.dates.settled_beside(&near, is_near);
    }
    joined(proved, Field::is_date)
}

/// Says that the dates of a column could be read in several ways, or that they begin with the year.
fn notes_of_dates(printed: &str, dates: DateEvidence, settings: &ShopSettings) -> Vec<String> {
    let order = match settings.date_order {
        DateOrder::Dmy => "day",
        DateOrder::Mdy => "month",
        DateOrder::Ymd => "year",
    };
    let why = if settings.named.contains("date_order") {
        "as `date_order` in the settings says"
    } else {
        "since no other table says otherwise; `date_order` in the settings would settle it"
    };
    let mut notes = Vec::new();
    if dates.is_year_first() {
        notes.push(format!(
            "dates of column `{printed}` with a year of two figures begin with the year, as the dates of the table show"
        ));
    }
    if dates.is_by_settings() {
        notes.push(format!(
            "dates of column `{printed}` could be day first or month first; read {order} first, {why}"
        ));
    }
    if dates.is_year_open() {
        let order = match dates.order(settings.date_order) {
            Some(DateOrder::Mdy) => "month",
            Some(DateOrder::Ymd) => "year",
            Some(DateOrder::Dmy) | None => "day",
        };
        notes.push(format!(
            "dates of column `{printed}` could begin with the year or end with it; read {order} first, {why}"
        ));
    }
    notes
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
