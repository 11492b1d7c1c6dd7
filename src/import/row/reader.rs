//! Reads the fields of one row, collecting issues.

use std::borrow::Cow;
use std::sync::Arc;

use chrono::NaiveDate;

use crate::import::damage::{Damage, as_dash_number};
use crate::import::field::Field;
use crate::import::grid::{Cell, number_text};
use crate::import::identity::Identity;
use crate::import::issue::{Problem, RowIssue, Severity};
use crate::import::value::{
    CalendarWeek, LeadTimeError, LeadTimeUnit, NumberError, PriceError, ReadPrice, is_placeholder,
    read_date, read_flag, read_lead_time, read_month_or_date, read_number, read_price,
    span_turned_into_date,
};
use crate::place::Place;
use crate::record::QuotedLeadTime;
use crate::units::{Currency, Money, UnitOfCount};

use super::memo::{Memo, is_beside_identity};
use super::table::{ReadColumn, TableContext};

/// The row cannot be taken; the issue that says why is already among the row's issues.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rejected;

/// One row of a table.
#[derive(Debug)]
pub struct RowReader<'t, 'g> {
    /// The table.
    pub table: &'t TableContext<'g>,
    /// Row, from 0.
    pub row: u32,
    /// The row as a place.
    pub place: Place,
    memo: &'t mut Memo<'g>,
    issues: &'t mut Vec<RowIssue>,
    /// Where the issues of this row begin.
    first_issue: usize,
    /// True where a cell was read that says nothing about identity.
    is_beside_identity: bool,
    /// True where the identity was read from cells of identity only.
    is_identity_alone: bool,
}

impl<'t, 'g> RowReader<'t, 'g> {
    /// Starts reading a row.
    pub fn new(
        table: &'t TableContext<'g>,
        row: u32,
        memo: &'t mut Memo<'g>,
        issues: &'t mut Vec<RowIssue>,
    ) -> Self {
        let place = Place::row(&memo.file, &memo.sheet, row);
        Self {
            table,
            row,
            place,
            memo,
            first_issue: issues.len(),
            issues,
            is_beside_identity: false,
            is_identity_alone: false,
        }
    }

    /// The identity that `read` gives, or the one that the same cells gave in an earlier row without any issue.
    pub fn identity(&mut self, read: impl FnOnce(&mut Self) -> Identity) -> Identity {
        let has_issues = |row: &Self| row.issues.len() > row.first_issue;
        if has_issues(self) {
            return read(self);
        }
        if let Some(known) = self.memo.identity(self.table, self.row) {
            self.is_identity_alone = true;
            return known;
        }
        self.is_beside_identity = false;
        let identity = read(self);
        if !has_issues(self) && !self.is_beside_identity {
            self.is_identity_alone = true;
            self.memo.keep_identity(&identity);
        }
        identity
    }

    /// True for a row without any issue whose identity was read from cells of identity only.
    pub fn is_plain(&self) -> bool {
        self.is_identity_alone && self.issues.len() == self.first_issue
    }

    /// Adds an issue about a field's cell, or about the row where the table has no such column.
    pub fn issue(&mut self, severity: Severity, field: Option<Field>, problem: Problem) {
        let column = field.and_then(|field| self.table.column(field));
        self.issue_at(severity, column.map(|column| column.index), field, problem);
    }

    fn issue_at(
        &mut self,
        severity: Severity,
        column: Option<u32>,
        field: Option<Field>,
        problem: Problem,
    ) {
        let place = column.map_or_else(|| self.place.clone(), |column| self.place.at(column));
        let original_cells = match severity {
            Severity::Rejected => self.table.grid.row_texts(self.row),
            _ => Vec::new(),
        };
        // A cell that is read twice says its problem once.
        let is_said = self.issues[self.first_issue..].iter().any(|issue| {
            issue.place == place && issue.severity == severity && issue.problem == problem
        });
        if is_said {
            return;
        }
        self.issues.push(RowIssue {
            place,
            severity,
            field,
            problem,
            original_cells,
        });
    }

    /// Rejects the row for want of a field.
    pub fn missing(&mut self, field: Field, record: &'static str) -> Rejected {
        // What was there and is spoilt says more than that nothing is there.
        let spoilt = self.issues[self.first_issue..].iter_mut().find(|issue| {
            let is_it = issue.field == Some(field)
                || field.is_name() && issue.field.is_some_and(Field::is_name);
            is_it && issue.severity == Severity::Doubtful && issue.problem.is_damage()
        });
        if let Some(issue) = spoilt {
            issue.severity = Severity::Rejected;
            issue.original_cells = self.table.grid.row_texts(self.row);
            return Rejected;
        }
        self.issue(
            Severity::Rejected,
            Some(field),
            Problem::Missing { field, record },
        );
        Rejected
    }

    /// The cell of a field; empty for placeholders, and for error values with an issue.
    pub fn cell(&mut self, field: Field) -> Cell<'g> {
        let Some(column) = self.table.column(field) else {
            return Cell::Empty;
        };
        self.cell_of(column)
    }

    /// As [`cell`](Self::cell), for one of several columns of a field.
    pub fn cell_of(&mut self, column: &ReadColumn) -> Cell<'g> {
        self.is_beside_identity |= is_beside_identity(column.field);
        match self.table.grid.cell(self.row, column.index) {
            Cell::Error(found) => {
                let problem = Problem::ErrorValue {
                    found: found.to_owned(),
                };
                self.issue_at(
                    Severity::Doubtful,
                    Some(column.index),
                    Some(column.field),
                    problem,
                );
                Cell::Empty
            }
            Cell::NoResult => {
                let (index, field) = (Some(column.index), Some(column.field));
                self.issue_at(
                    Severity::Doubtful,
                    index,
                    field,
                    Problem::FormulaWithoutResult,
                );
                Cell::Empty
            }
            Cell::Text(text) if is_placeholder(text) => Cell::Empty,
            cell if column.field.is_name() => match self.damage(column, cell) {
                Some(Damage::Lost(problem)) => {
                    let (index, field) = (Some(column.index), Some(column.field));
                    self.issue_at(Severity::Doubtful, index, field, problem);
                    Cell::Empty
                }
                _ => cell,
            },
            cell => cell,
        }
    }

    fn damage(&self, column: &ReadColumn, cell: Cell<'_>) -> Option<Damage> {
        let is_power = self.table.grid.is_in_powers(self.row, column.index);
        column
            .neighbours
            .damage_to_name(cell, column.field, is_power)
    }

    /// The original of a name that a spreadsheet program changed, where it is certain; a note says so.
    fn restored(&mut self, field: Field, cell: Cell<'_>) -> Option<String> {
        let column = self.table.column(field).filter(|_| field.is_name())?;
        match (self.damage(column, cell), cell) {
            (Some(Damage::Read { text, note }), _) => {
                if let Some(note) = note {
                    self.issue(Severity::Note, Some(field), note);
                }
                Some(text)
            }
            (_, Cell::Text(text)) if column.neighbours.is_dash_column() => as_dash_number(text),
            _ => None,
        }
    }

    /// The text of a field, without a copy where the cell is text.
    pub fn text_of(&mut self, field: Field) -> Option<Cow<'g, str>> {
        let cell = self.cell(field);
        if let Some(text) = self.restored(field, cell) {
            return Some(Cow::Owned(text));
        }
        match cell {
            Cell::Empty => None,
            Cell::Text(text) => Some(Cow::Borrowed(text)),
            Cell::Number(value) => Some(Cow::Owned(number_text(value))),
            other => Some(Cow::Owned(other.to_text())),
        }
    }

    /// The text of a field.
    pub fn text(&mut self, field: Field) -> Option<String> {
        self.text_of(field).map(Cow::into_owned)
    }

    /// Supplier of the row, else of the whole list; rows of one supplier share its name.
    pub fn supplier(&mut self) -> Option<Arc<str>> {
        let text = match self.text_of(Field::Supplier) {
            None => return self.memo.supplier.clone(),
            Some(Cow::Owned(text)) => return Some(text.into()),
            Some(Cow::Borrowed(text)) => text,
        };
        if let Some(known) = self.memo.suppliers.get(text) {
            return Some(Arc::clone(known));
        }
        let supplier: Arc<str> = text.into();
        self.memo.suppliers.keep(|| text, || Arc::clone(&supplier));
        Some(supplier)
    }

    /// The first filled field of several.
    pub fn first_text(&mut self, fields: &[Field]) -> Option<String> {
        fields.iter().find_map(|field| self.text(*field))
    }

    /// A text that the row cannot do without.
    pub fn required_text(
        &mut self,
        field: Field,
        record: &'static str,
    ) -> Result<String, Rejected> {
        self.text(field).ok_or_else(|| self.missing(field, record))
    }

    /// What names the part of the row: own number, other number, designation, description.
    pub fn required_part(&mut self, record: &'static str) -> Result<String, Rejected> {
        use Field as F;
        self.first_text(&[
            F::OwnNumber,
            F::PartNumber,
            F::Designation,
            F::SupplierNumber,
            F::Alias,
            F::Description,
        ])
        .ok_or_else(|| self.missing(F::PartNumber, record))
    }

    /// A number of a field, or an issue.
    pub fn number(&mut self, field: Field) -> Option<f64> {
        let column = self.table.column(field)?;
        match self.number_of(column) {
            Ok(value) => value,
            Err(problem) => {
                self.issue(Severity::Doubtful, Some(field), problem);
                None
            }
        }
    }

    fn number_of(&mut self, column: &ReadColumn) -> Result<Option<f64>, Problem> {
        match self.cell_of(column) {
            Cell::Empty | Cell::Error(_) | Cell::NoResult => Ok(None),
            Cell::Number(value) => Ok(Some(value)),
            Cell::Text(text) => {
                let plain = without_unit(text);
                Ok(Some(read_number(plain, column.decimal)?))
            }
            other => Err(NumberError::NotANumber {
                found: other.to_text(),
            }
            .into()),
        }
    }

    /// A number of 0 or more, or an issue.
    pub fn number_from_zero(&mut self, field: Field) -> Option<f64> {
        let value = self.number(field)?;
        if value >= 0.0 {
            return Some(value);
        }
        self.out_of_range(Severity::Doubtful, field, value, "0 or more");
        None
    }

    /// A number above 0, or an issue.
    pub fn number_above_zero(&mut self, field: Field) -> Option<f64> {
        let value = self.number(field)?;
        if value > 0.0 {
            return Some(value);
        }
        self.out_of_range(Severity::Doubtful, field, value, "more than 0");
        None
    }

    /// A number that the row cannot do without.
    pub fn required_number(&mut self, field: Field, record: &'static str) -> Result<f64, Rejected> {
        let Some(column) = self.table.column(field) else {
            return Err(self.missing(field, record));
        };
        match self.number_of(column) {
            Ok(Some(value)) => Ok(value),
            Ok(None) => Err(self.missing(field, record)),
            Err(problem) => {
                self.issue(Severity::Rejected, Some(field), problem);
                Err(Rejected)
            }
        }
    }

    /// Adds an issue about a value outside its range.
    pub fn out_of_range(
        &mut self,
        severity: Severity,
        field: Field,
        value: f64,
        expected: &'static str,
    ) {
        let found = format!("`{}`", number_text(value));
        self.issue(
            severity,
            Some(field),
            Problem::OutOfRange { found, expected },
        );
    }

    fn date_of(&mut self, field: Field) -> Result<Option<NaiveDate>, Problem> {
        let Some(column) = self.table.column(field) else {
            return Ok(None);
        };
        match self.cell_of(column) {
            Cell::Empty | Cell::Error(_) | Cell::NoResult => Ok(None),
            Cell::Date(moment) => Ok(Some(moment.date())),
            Cell::Text(text) if field == Field::CureDate => {
                Ok(Some(read_month_or_date(text, column.order)?))
            }
            Cell::Text(text) => Ok(Some(read_date(text, column.order)?)),
            other => Ok(Some(read_date(&other.to_text(), column.order)?)),
        }
    }

    /// A date, or an issue.
    pub fn date(&mut self, field: Field) -> Option<NaiveDate> {
        self.date_of(field).unwrap_or_else(|problem| {
            self.issue(Severity::Doubtful, Some(field), problem);
            None
        })
    }

    /// A date that the row cannot do without.
    pub fn required_date(
        &mut self,
        field: Field,
        record: &'static str,
    ) -> Result<NaiveDate, Rejected> {
        match self.date_of(field) {
            Ok(Some(date)) => Ok(date),
            Ok(None) => Err(self.missing(field, record)),
            Err(problem) => {
                self.issue(Severity::Rejected, Some(field), problem);
                Err(Rejected)
            }
        }
    }

    /// Yes or no, or an issue for any other word.
    pub fn flag(&mut self, field: Field) -> Option<bool> {
        match self.cell(field) {
            Cell::Empty | Cell::Error(_) | Cell::NoResult => None,
            Cell::Bool(value) => Some(value),
            cell => self.word(field, &cell.to_text(), "yes or no", read_flag),
        }
    }

    /// A word read by `read`, or an issue that says what was expected.
    pub fn word<T>(
        &mut self,
        field: Field,
        text: &str,
        expected: &'static str,
        read: impl Fn(&str) -> Option<T>,
    ) -> Option<T> {
        let value = read(text);
        if value.is_none() {
            self.issue(
                Severity::Doubtful,
                Some(field),
                Problem::UnknownWord {
                    found: text.to_owned(),
                    expected,
                },
            );
        }
        value
    }

    /// The unit of count of the row, or an issue.
    pub fn unit_of_count(&mut self) -> Option<UnitOfCount> {
        let text = self.text_of(Field::UnitOfCount)?;
        if let Cow::Borrowed(text) = text
            && let Some(known) = self.memo.units.get(text)
        {
            return Some(*known);
        }
        match UnitOfCount::read(&text) {
            Ok(unit) => {
                if let Cow::Borrowed(text) = text {
                    self.memo.units.keep(|| text, || unit);
                }
                Some(unit)
            }
            Err(error) => {
                self.issue(Severity::Doubtful, Some(Field::UnitOfCount), error.into());
                None
            }
        }
    }

    /// A lead time, or an issue.
    pub fn lead_time(&mut self, field: Field) -> Option<QuotedLeadTime> {
        let column = self.table.column(field)?;
        let day = self.table.settings.day_unit();
        let read = match self.cell_of(column) {
            Cell::Empty | Cell::Error(_) | Cell::NoResult => return None,
            Cell::Date(moment) => {
                let order = column.order.unwrap_or(self.table.settings.date_order);
                let date = moment.date();
                let are_spans = column.neighbours.are_spans();
                let stray = column
                    .is_date_stray
                    .then(|| span_turned_into_date(date, order, are_spans))
                    .flatten();
                match (stray, column.states.time) {
                    (Some(LeadTimeError::TurnedIntoDate { likely, .. }), Some(unit))
                        if are_spans =>
                    {
                        let note = Problem::ReadFromDate {
                            date,
                            read: likely.clone(),
                        };
                        self.issue(Severity::Note, Some(field), note);
                        read_lead_time(&likely, Some(unit), day, column.order)
                    }
                    (Some(error), _) => Err(error),
                    (None, _) => Ok(QuotedLeadTime::By(date)),
                }
            }
            Cell::Text(text) => match lead_time_of_text(self.table, self.memo, column, text) {
                // A row that is dated by itself is so for its weeks too.
                Err(error @ LeadTimeError::WeekOfNoYear { .. }) if is_dated_by_row(self.table) => {
                    let listed = (self.date(Field::QuoteDate)).or_else(|| self.date(Field::Date));
                    let week = CalendarWeek::read(text);
                    week.and_then(|week| week.last_workday(listed.or(self.table.dated)))
                        .map(QuotedLeadTime::By)
                        .ok_or(error)
                }
                read => read,
            },
            cell => read_lead_time(&cell.to_text(), column.states.time, day, column.order),
        };
        read.map_err(|error| self.issue(Severity::Doubtful, Some(field), error.into()))
            .ok()
    }

    /// A number of hours; days and minutes are not guessed, other units named in the header are refused.
    pub fn hours(&mut self, field: Field) -> Option<f64> {
        let unit = self.table.column(field)?.states.time;
        let value = self.number_from_zero(field)?;
        match unit {
            None | Some(LeadTimeUnit::Hours) => Some(value),
            Some(_) => {
                self.out_of_range(
                    Severity::Doubtful,
                    field,
                    value,
                    "a number of hours; the header names another unit",
                );
                None
            }
        }
    }

    /// The amount of money in a cell as written; `None` where the cell says nothing.
    fn amount_of(&mut self, column: &ReadColumn) -> Option<Result<ReadPrice, PriceError>> {
        Some(match self.cell_of(column) {
            Cell::Empty | Cell::Error(_) | Cell::NoResult => return None,
            Cell::Number(amount) => Ok(ReadPrice {
                amount,
                currency: None,
                per: None,
            }),
            Cell::Text(text) => read_price(text, column.decimal),
            other => Err(PriceError::NotAPrice {
                found: other.to_text(),
            }),
        })
    }

    /// The price of a column as written, or an issue.
    pub fn price_of(&mut self, column: &ReadColumn) -> Option<ReadPrice> {
        let found = self.amount_of(column)?;
        match found {
            Ok(price) if price.amount > 0.0 => Some(price),
            Ok(price) => {
                let found = format!("`{}`", number_text(price.amount));
                let problem = Problem::OutOfRange {
                    found,
                    expected: "a price above 0",
                };
                self.issue_at(
                    Severity::Doubtful,
                    Some(column.index),
                    Some(column.field),
                    problem,
                );
                None
            }
            Err(PriceError::OnRequest) => {
                self.issue_at(
                    Severity::Note,
                    Some(column.index),
                    Some(column.field),
                    Problem::PriceOnRequest,
                );
                None
            }
            Err(error) => {
                self.issue_at(
                    Severity::Doubtful,
                    Some(column.index),
                    Some(column.field),
                    error.into(),
                );
                None
            }
        }
    }

    /// The currency of the row's own column, or an issue.
    pub fn row_currency(&mut self) -> Option<Currency> {
        let text = self.text_of(Field::Currency)?;
        self.word(Field::Currency, &text, "a currency such as `EUR`", |text| {
            crate::import::value::currency_of_sign(text).or_else(|| Currency::new(text).ok())
        })
    }

    /// True where the row's own column says something about the currency, readable or not.
    pub fn has_currency(&mut self) -> bool {
        self.cell(Field::Currency) != Cell::Empty
    }

    /// Money of 0 or more, or an issue.
    pub fn money(&mut self, field: Field) -> Option<Money> {
        let column = self.table.column(field)?;
        let found = self.amount_of(column)?;
        let price = match found {
            Ok(price) => price,
            Err(error) => {
                self.issue(Severity::Doubtful, Some(field), error.into());
                return None;
            }
        };
        let of_row = self.row_currency();
        if price.currency.is_none() && of_row.is_none() && self.has_currency() {
            return None;
        }
        let currency = price
            .currency
            .or(of_row)
            .or(column.states.currency)
            .or(self.table.title.states.currency)
            .unwrap_or(self.table.settings.currency);
        match Money::from_units(price.amount, currency) {
            Ok(money) => Some(money),
            Err(_) => {
                self.out_of_range(Severity::Doubtful, field, price.amount, "0 or more");
                None
            }
        }
    }
}

/// True where rows may have a date of their own.
fn is_dated_by_row(table: &TableContext<'_>) -> bool {
    table.has(Field::QuoteDate) || table.has(Field::Date)
}

/// A lead time in words, or the one that the same words of the column gave before.
pub(super) fn lead_time_of_text<'g>(
    table: &TableContext<'_>,
    memo: &mut Memo<'g>,
    column: &ReadColumn,
    text: &'g str,
) -> Result<QuotedLeadTime, LeadTimeError> {
    let key = (column.index, text);
    if let Some(known) = memo.lead_times.get(&key) {
        return Ok(*known);
    }
    let day = table.settings.day_unit();
    let read = match CalendarWeek::read(text) {
        Some(week) => {
            let listed = table.dated.filter(|_| !is_dated_by_row(table));
            let day = week.last_workday(listed).map(QuotedLeadTime::By);
            day.ok_or_else(|| LeadTimeError::WeekOfNoYear {
                found: text.to_owned(),
            })
        }
        None => read_lead_time(text, column.states.time, day, column.order),
    };
    if let Ok(read) = read {
        memo.lead_times.keep(|| key, || read);
    }
    read
}

/// A number without a word of count behind it: `4 pcs`, `12 Stk`, `70 %`.
pub(super) fn without_unit(text: &str) -> &str {
    if text.ends_with(|c: char| c.is_ascii_digit()) {
        return text;
    }
    let bare = text
        .trim_end_matches(|c: char| c.is_alphabetic() || matches!(c, '%' | '²'))
        .trim_end();
    let unit = text[bare.len()..].trim().to_lowercase();
    let is_unit = matches!(
        unit.as_str(),
        "pcs"
            | "pc"
            | "st"
            | "stk"
            | "stück"
            | "szt"
            | "pz"
            | "ud"
            | "ea"
            | "h"
            | "hrs"
            | "std"
            | "%"
            | "kn"
            | "months"
            | "monate"
            | "pieces"
            | "m"
    );
    if is_unit && !bare.is_empty() {
        bare
    } else {
        text
    }
}
