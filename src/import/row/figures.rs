//! Reads numbers, quantities, dates, hours and words of one row.

use std::borrow::Cow;

use chrono::NaiveDate;

use crate::import::cell::{Cell, number_text};
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::{
    CalendarWeek, DecimalSign, LeadTimeError, LeadTimeUnit, NumberError, first_of_quarter,
    last_of_quarter, read_date, read_flag, read_last_day, read_month_or_date, read_number,
};
use crate::record::TableKind;
use crate::units::UnitOfCount;

use super::context::ReadColumn;
use super::reader::{Rejected, RowReader};

impl RowReader<'_, '_> {
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

    pub(super) fn number_of(&mut self, column: &ReadColumn) -> Result<Option<f64>, Problem> {
        figure_of(self.cell_of(column), column.decimal)
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
            // `01/2026` on a lot is good until the month is over.
            Cell::Text(text) if field == Field::UsableUntil => {
                Ok(Some(read_last_day(text, column.order)?))
            }
            Cell::Text(text) => match self.day_of_period(field, text) {
                Some(day) => day.map(Some),
                None => Ok(Some(read_date(text, column.order)?)),
            },
            other => Ok(Some(read_date(&other.to_text(), column.order)?)),
        }
    }

    /// The day that a week or a quarter means: of a delivery its last workday or day, of a rebuild its first. Common practice,
    /// no source. `None` for other texts and days.
    fn day_of_period(&mut self, field: Field, text: &str) -> Option<Result<NaiveDate, Problem>> {
        let is_end = matches!(field, Field::Promised | Field::DueDate);
        let is_start = self.table.kind == TableKind::PlannedRebuilds && field == Field::Date;
        if !(is_end || is_start) {
            return None;
        }
        if let Some(week) = CalendarWeek::read(text) {
            // A delivery comes after its order.
            let ordered = self.date_of(Field::Ordered).ok().flatten();
            let listed = ordered.filter(|_| is_end).or(self.table.dated);
            let day = match is_end {
                true => week.last_workday(listed),
                false => week.first_workday(listed),
            };
            let found = text.trim().to_owned();
            return Some(day.ok_or_else(|| LeadTimeError::WeekOfNoYear { found }.into()));
        }
        let day = match is_end {
            true => last_of_quarter(text),
            false => first_of_quarter(text),
        };
        day.map(Ok)
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
}

/// The number of a cell.
pub(super) fn figure_of(
    cell: Cell<'_>,
    decimal: Option<DecimalSign>,
) -> Result<Option<f64>, Problem> {
    match cell {
        Cell::Empty | Cell::Error(_) | Cell::NoResult => Ok(None),
        Cell::Number(value) => Ok(Some(value)),
        Cell::Text(text) => Ok(Some(read_number(without_unit(text), decimal)?)),
        other => Err(NumberError::NotANumber {
            found: other.to_text(),
        }
        .into()),
    }
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
