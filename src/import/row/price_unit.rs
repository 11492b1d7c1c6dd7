//! For how many units a price is: what its own cell says holds before the row's column for it, the header and the title.
//!
//! `4,50 EUR/Stk` below `Preis EUR / 100 St` is the price of one, and the contradiction is told. `550 EUR St` below it stays
//! the price of a hundred: the bare unit says only what is counted.

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::{ReadPrice, read_price};
use crate::units::UnitOfCount;

use super::context::ReadColumn;
use super::reader::RowReader;

/// Units that a price is for; `None`, with an issue, where the row says a number of them that is none.
pub(super) fn units_of(
    row: &mut RowReader<'_, '_>,
    column: &ReadColumn,
    read: &ReadPrice,
) -> Option<u32> {
    if let Some(per) = read.per.filter(|_| !read.is_bare_unit) {
        tell_other(row, column, per);
        return Some(per);
    }
    match row.number(Field::PricePer) {
        Some(per) => match whole_units(per) {
            Some(per) => Some(per),
            None => {
                let expected = "1, 10, 100 or 1000";
                row.out_of_range(Severity::Doubtful, Field::PricePer, per, expected);
                None
            }
        },
        // An unreadable number of units makes the price worthless.
        None if row.cell(Field::PricePer) != Cell::Empty => None,
        None => Some(of_list(row, column).unwrap_or(1)),
    }
}

/// Units in header or title.
fn of_list(row: &RowReader<'_, '_>, column: &ReadColumn) -> Option<u32> {
    column.states.per.or(row.table.title.states.per)
}

/// The figure as a number of units that a price may be for.
fn whole_units(per: f64) -> Option<u32> {
    ((1.0..=10_000.0).contains(&per) && per.fract().abs() < 1e-9).then_some(per as u32)
}

/// Tells where row, header or title says another number of units than the price's own cell.
fn tell_other(row: &mut RowReader<'_, '_>, column: &ReadColumn, read: u32) {
    let other = match row.cell(Field::PricePer) {
        Cell::Empty => of_list(row, column),
        _ => row.number(Field::PricePer).and_then(whole_units),
    };
    if let Some(other) = other.filter(|other| *other != read) {
        let problem = Problem::PerInCell { read, other };
        let (index, field) = (Some(column.index), Some(column.field));
        row.issue_at(Severity::Note, index, field, problem);
    }
}

/// What the row is sold in where `12 EUR/m` says metres; true, with an issue, where the row says another unit.
pub(super) fn with_metres(
    row: &mut RowReader<'_, '_>,
    unit: Option<UnitOfCount>,
    is_unread: bool,
) -> (Option<UnitOfCount>, bool) {
    if is_unread || unit == Some(UnitOfCount::Metre) {
        return (unit, false);
    }
    let Some(index) = column_by_metre(row) else {
        return (unit, false);
    };
    let (at, field) = (Some(index), Some(Field::Price));
    if unit.is_none() {
        row.issue_at(Severity::Note, at, field, Problem::MetreOfPrice);
        return (Some(UnitOfCount::Metre), false);
    }
    let found = UnitOfCount::Metre.to_string();
    let problem = Problem::AnotherUnit { found };
    row.issue_at(Severity::Doubtful, at, field, problem);
    (unit, true)
}

/// The first column whose price is one of metres.
fn column_by_metre(row: &mut RowReader<'_, '_>) -> Option<u32> {
    let table = row.table;
    // A list price beside a net price is not looked at.
    let first = if table.has(Field::Price) {
        Field::Price
    } else {
        Field::ListPrice
    };
    for field in [first, Field::PriceFrom] {
        for column in table.columns_of(field) {
            if let Cell::Text(text) = row.cell_of(column)
                && text.contains(['m', 'M'])
                && read_price(text, column.decimal).is_ok_and(|read| read.is_by_metre)
            {
                return Some(column.index);
            }
        }
    }
    None
}
