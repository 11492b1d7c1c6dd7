//! Quantities with what they count in: by the row's column of units, or by the word behind a figure (`2 Paar`, `3 m`).

use std::borrow::Cow;

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::{DecimalSign, read_number};
use crate::record::CountedIn;
use crate::units::UnitOfCount;

use super::figures::figure_of;
use super::reader::RowReader;

/// What the quantities of one row count in.
pub(super) struct Counting {
    /// The unit, where the row says one that is read.
    unit: Option<CountedIn>,
    /// True where the unit is said, or a figure without one was read already.
    is_settled: bool,
    /// True where the row says a unit that nobody reads: two of it are not two pieces.
    pub is_unread: bool,
    /// True where a pack may leave open of how many.
    takes_packs: bool,
}

impl Counting {
    /// Of a row whose packs say how many they hold. A unit that is not read is told.
    pub fn in_units(row: &mut RowReader<'_, '_>) -> Self {
        let unit = row.unit_of_count();
        let is_unread = unit.is_none() && row.text_of(Field::UnitOfCount).is_some();
        Self {
            unit: unit.map(CountedIn::Unit),
            is_settled: unit.is_some(),
            is_unread,
            takes_packs: false,
        }
    }

    /// Of a row whose packs are those of the offers of its part. A unit that is not read is told.
    pub fn in_packs_too(row: &mut RowReader<'_, '_>, severity: Severity) -> Self {
        let unit = match row.text_of(Field::UnitOfCount) {
            None => Ok(None),
            Some(text) => read_once(row, text).map(Some),
        };
        let is_unread = unit.is_err();
        let unit = unit.unwrap_or_else(|problem| {
            row.issue(severity, Some(Field::UnitOfCount), problem);
            None
        });
        Self {
            unit,
            is_settled: unit.is_some(),
            is_unread,
            takes_packs: true,
        }
    }

    /// What the row counts in.
    pub fn unit(&self) -> Option<CountedIn> {
        self.unit
    }

    /// What a row without open packs counts in.
    pub fn unit_of_count(&self) -> Option<UnitOfCount> {
        match self.unit {
            Some(CountedIn::Unit(unit)) => Some(unit),
            Some(CountedIn::Pack) | None => None,
        }
    }

    /// The quantity of a field; `None` where its cell says none, or the unit is not read.
    pub fn quantity(
        &mut self,
        row: &mut RowReader<'_, '_>,
        field: Field,
    ) -> Result<Option<f64>, Problem> {
        let table = row.table;
        let Some(column) = table.column(field).filter(|_| !self.is_unread) else {
            return Ok(None);
        };
        let cell = row.cell_of(column);
        let (figure, unit) = read_figure(cell, column.decimal, self.takes_packs)?;
        if let Some(unit) = unit {
            if self.is_settled && self.unit != Some(unit) {
                return Err(Problem::AnotherUnit {
                    found: unit.to_string(),
                });
            }
            self.unit = Some(unit);
        }
        self.is_settled |= figure.is_some();
        Ok(figure)
    }

    /// As [`quantity`](Self::quantity), 0 or more, or an issue.
    pub fn not_below_zero(&mut self, row: &mut RowReader<'_, '_>, field: Field) -> Option<f64> {
        let value = self.told(row, field)?;
        if value >= 0.0 {
            return Some(value);
        }
        row.out_of_range(Severity::Doubtful, field, value, "0 or more");
        None
    }

    /// As [`quantity`](Self::quantity), or an issue.
    pub fn told(&mut self, row: &mut RowReader<'_, '_>, field: Field) -> Option<f64> {
        self.quantity(row, field).unwrap_or_else(|problem| {
            row.issue(Severity::Doubtful, Some(field), problem);
            None
        })
    }
}

/// The figure of a cell and the unit behind it: the only reader of quantities.
pub(super) fn read_figure(
    cell: Cell<'_>,
    decimal: Option<DecimalSign>,
    takes_packs: bool,
) -> Result<(Option<f64>, Option<CountedIn>), Problem> {
    let parted = match cell {
        Cell::Text(text) => parted(text, takes_packs),
        _ => None,
    };
    match parted {
        Some((figure, unit)) => Ok((Some(read_number(figure, decimal)?), Some(unit))),
        None => Ok((figure_of(cell, decimal)?, None)),
    }
}

/// A figure and the unit behind it; `None` for a figure alone and for words that are no unit.
fn parted(text: &str, takes_packs: bool) -> Option<(&str, CountedIn)> {
    let end = text.rfind(|c: char| c.is_ascii_digit())? + 1;
    let (figure, word) = (text[..end].trim(), text[end..].trim());
    // `4 pcs?` is what nobody is sure of.
    if word.is_empty() || text.contains('?') {
        return None;
    }
    let unit = CountedIn::read(word).ok()?;
    (takes_packs || unit != CountedIn::Pack).then_some((figure, unit))
}

/// Reads a unit; the words of a column are read once.
fn read_once<'g>(row: &mut RowReader<'_, 'g>, text: Cow<'g, str>) -> Result<CountedIn, Problem> {
    if let Some(known) = row.memo.units.get(&*text) {
        return Ok(CountedIn::Unit(*known));
    }
    let read = CountedIn::read(&text)?;
    if let (Cow::Borrowed(text), CountedIn::Unit(unit)) = (text, read) {
        row.memo.units.keep(|| text, || unit);
    }
    Ok(read)
}
