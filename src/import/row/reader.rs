//! Reads the cells of one row as texts, collecting issues; what the texts mean is read in `figures`, `money` and `lead_times`.

use std::borrow::Cow;
use std::sync::Arc;

use crate::import::cell::{Cell, number_text};
use crate::import::damage::{Damage, as_dash_number};
use crate::import::field::Field;
use crate::import::issue::{Problem, RowIssue, Severity};
use crate::import::value::is_placeholder;
use crate::place::Place;

use super::context::{ReadColumn, TableContext};
use super::identity::Identity;
use super::memo::{Memo, is_beside_identity};

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
    pub(super) memo: &'t mut Memo<'g>,
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

    /// True while nothing was found wrong with the row.
    pub fn is_without_issue(&self) -> bool {
        self.issues.len() == self.first_issue
    }

    /// Adds an issue about a field's cell, or about the row where the table has no such column.
    pub fn issue(&mut self, severity: Severity, field: Option<Field>, problem: Problem) {
        let column = field.and_then(|field| self.table.column(field));
        self.issue_at(severity, column.map(|column| column.index), field, problem);
    }

    /// Adds an issue about one of several columns of a field.
    pub(super) fn issue_at(
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
        let problem = self.absence(field, record);
        self.issue(Severity::Rejected, Some(field), problem);
        Rejected
    }

    /// Two values that mean something together only; one without the other is told where the table has a column for it.
    pub fn both<A, B>(
        &mut self,
        (one, of_one): (Option<A>, Field),
        (other, of_other): (Option<B>, Field),
        record: &'static str,
    ) -> Option<(A, B)> {
        let lacking = match (&one, &other) {
            (Some(_), None) => Some(of_other),
            (None, Some(_)) => Some(of_one),
            (Some(_), Some(_)) | (None, None) => None,
        };
        if let Some(field) = lacking.filter(|field| self.table.has(*field)) {
            self.lacks(field, record);
        }
        one.zip(other)
    }

    /// That a field says nothing.
    fn absence(&self, field: Field, record: &'static str) -> Problem {
        let column = self.table.column(field);
        match column.map(|column| self.table.grid.cell(self.row, column.index)) {
            // A name that means "nothing" to us may be one: `KA`, `NA`.
            Some(Cell::Text(found)) if is_placeholder(found) && !found.trim().is_empty() => {
                Problem::ReadAsNothing {
                    field,
                    record,
                    found: found.trim().to_owned(),
                }
            }
            _ => Problem::Missing { field, record },
        }
    }

    /// Says that a row is taken without a field that it should have; what its cell said already is not said again.
    pub fn lacks(&mut self, field: Field, record: &'static str) {
        let is_said = self.issues[self.first_issue..].iter().any(|issue| {
            issue.field == Some(field) || field.is_name() && issue.field.is_some_and(Field::is_name)
        });
        if !is_said {
            let problem = self.absence(field, record);
            self.issue(Severity::Doubtful, Some(field), problem);
        }
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
        self.memo.looked_at.add(column.field);
        let cell = self.table.grid.cell(self.row, column.index);
        if column.field.counts_once() && self.table.grid.is_repeat(self.row, column.index) {
            let (index, field) = (Some(column.index), Some(column.field));
            let found = cell.to_text();
            let problem = Problem::RepeatsMerged { found };
            self.issue_at(Severity::Doubtful, index, field, problem);
            return Cell::Empty;
        }
        let is_crossed_out = self.table.grid.has_crossed_out()
            && self.table.grid.shown(self.row, column.index).is_crossed_out;
        if is_crossed_out && cell != Cell::Empty {
            let (index, field) = (Some(column.index), Some(column.field));
            let found = cell.to_text();
            let problem = Problem::CrossedOut { found };
            self.issue_at(Severity::Doubtful, index, field, problem);
            return Cell::Empty;
        }
        match cell {
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

    /// True where the cell of a field is filled, if only with a word for "unknown": the shop does not say what is usual.
    pub fn has_words(&mut self, field: Field) -> bool {
        let Some(column) = self.table.column(field) else {
            return false;
        };
        self.is_beside_identity |= is_beside_identity(field);
        self.memo.looked_at.add(field);
        match self.table.grid.cell(self.row, column.index) {
            Cell::Empty => false,
            Cell::Text(text) => !text.trim().is_empty(),
            _ => true,
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
}
