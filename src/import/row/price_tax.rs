//! The value added tax that the price of an offer's row holds.

use crate::import::cell::{Cell, number_text};
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::tax_words::{MOST_TAX_SHARE, TaxCell};

use super::context::{ReadColumn, TableContext};
use super::offers::share;
use super::reader::RowReader;

/// What the rate of VAT should be.
const EXPECTED_TAX: &str = "a rate of VAT of 0 to 50 %";

/// The tax in a price.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum HeldTax {
    /// The price is net.
    None,
    /// The price holds tax at this rate, as a share of the net price.
    At(f64),
}

/// The tax in the price of a column; `None`, with an issue, where it holds tax at an unknown rate, or may hold some.
pub(super) fn held_tax(
    row: &mut RowReader<'_, '_>,
    column: &ReadColumn,
    gross: f64,
) -> Option<HeldTax> {
    let is_gross = is_with_tax(row.table, column);
    let cell = row.table.column(Field::VatRate).map(|of| of.index);
    let cell = cell.map_or(Cell::Empty, |index| row.table.grid.cell(row.row, index));
    let text = if let Cell::Text(text) = cell {
        text
    } else {
        ""
    };
    let share = match (TaxCell::read(text), is_gross) {
        (TaxCell::Silent | TaxCell::Out, false) => return Some(HeldTax::None),
        (TaxCell::Out, true) | (TaxCell::Unclear, _) => {
            let found = text.trim().to_owned();
            let problem = Problem::TaxInOrOut { found };
            row.issue(Severity::Doubtful, Some(Field::VatRate), problem);
            return None;
        }
        (TaxCell::In(Some(share)), _) => Some(share),
        // Figures that are no rate of their own are no reason to take that of the header.
        (TaxCell::In(None), _) if text.contains(|c: char| c.is_ascii_digit()) => None,
        (TaxCell::In(None), _) => stated_share(row.table, column),
        // An error value says something that nobody can read.
        (TaxCell::Silent, true) if matches!(cell, Cell::Empty | Cell::Text(_)) => {
            match row.cell(Field::VatRate) {
                Cell::Empty => stated_share(row.table, column),
                _ => share_of_column(row, column.field, gross),
            }
        }
        (TaxCell::Silent, true) => share_of_column(row, column.field, gross),
    };
    if share.is_none() {
        let (index, field) = (Some(column.index), Some(column.field));
        row.issue_at(Severity::Doubtful, index, field, Problem::PriceWithTax);
    }
    share.map(HeldTax::At)
}

/// True where a column's prices hold the tax; breaks are as the price beside them unless they say otherwise.
pub(super) fn is_with_tax(table: &TableContext<'_>, column: &ReadColumn) -> bool {
    for states in [
        Some(column.states),
        beside(table, column).map(|of| of.states),
    ] {
        match states {
            Some(states) if states.is_with_tax => return true,
            Some(states) if states.is_without_tax => return false,
            _ => {}
        }
    }
    table.title.states.is_with_tax
}

/// The rate that the header of a column, of the price beside it or the title states.
fn stated_share(table: &TableContext<'_>, column: &ReadColumn) -> Option<f64> {
    let of_price = beside(table, column).and_then(|of| of.states.tax_share);
    (column.states.tax_share)
        .or(of_price)
        .or(table.title.states.tax_share)
}

/// The column of the price for one, beside a column of a price break.
fn beside<'t>(table: &'t TableContext<'_>, column: &ReadColumn) -> Option<&'t ReadColumn> {
    let price = || {
        table
            .column(Field::Price)
            .or_else(|| table.column(Field::ListPrice))
    };
    (column.field == Field::PriceFrom).then(price).flatten()
}

/// The tax on the net price of a gross amount, as a share of the net price; `None` where no cell says it.
///
/// A figure in a column called just `VAT` may be a rate or an amount. It is read where only one of them is possible, or where
/// both give the same net price to a cent, and for the price of one only: an amount is that of no price break.
fn share_of_column(row: &mut RowReader<'_, '_>, of: Field, gross: f64) -> Option<f64> {
    let is_rate = row.table.column(Field::VatRate)?.states.is_percent
        || matches!(row.cell(Field::VatRate), Cell::Text(text) if text.contains('%'));
    if is_rate {
        return share(row, Field::VatRate, 0.0..=MOST_TAX_SHARE, EXPECTED_TAX);
    }
    let figure = row.number(Field::VatRate)?;
    let is_possible = |share: &f64| (0.0..=MOST_TAX_SHARE + 1e-9).contains(share);
    let as_rate = Some(if figure >= 1.0 {
        figure / 100.0
    } else {
        figure
    })
    .filter(is_possible);
    let as_amount = (figure < gross)
        .then(|| figure / (gross - figure))
        .filter(is_possible);
    let net = |share: f64| gross / (1.0 + share);
    match (as_rate, as_amount) {
        (None, None) => {
            row.out_of_range(Severity::Doubtful, Field::VatRate, figure, EXPECTED_TAX);
            None
        }
        (Some(rate), Some(of_amount))
            if of != Field::PriceFrom && (net(rate) - net(of_amount)).abs() < 0.005 =>
        {
            Some(rate)
        }
        (rate, of_amount) if of != Field::PriceFrom && rate.is_some() != of_amount.is_some() => {
            rate.or(of_amount)
        }
        _ => {
            let found = number_text(figure);
            let problem = Problem::TaxUnclear { found };
            row.issue(Severity::Doubtful, Some(Field::VatRate), problem);
            None
        }
    }
}
