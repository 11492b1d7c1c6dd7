//! Reads the lead times of one row.

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::{CalendarWeek, LeadTimeError, read_lead_time, span_turned_into_date};
use crate::record::QuotedLeadTime;

use super::context::{ReadColumn, TableContext};
use super::memo::Memo;
use super::reader::RowReader;

impl RowReader<'_, '_> {
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
