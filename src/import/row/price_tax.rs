//! The value added tax that the price of an offer's row holds.

use crate::import::cell::{Cell, number_text};
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::table::Table;
use crate::import::tax_words::{MOST_TAX_SHARE, TaxCell};
use crate::import::value::read_flag;

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
    let is_gross = match sense(row.table, column) {
        Sense::Net => false,
        Sense::WithTax => true,
        Sense::Open => {
            let (index, field) = (Some(column.index), Some(column.field));
            row.issue_at(Severity::Doubtful, index, field, Problem::PriceGross);
            return None;
        }
    };
    let of_tax = row.table.column(Field::VatRate);
    let cell = of_tax.map_or(Cell::Empty, |of| row.table.grid.cell(row.row, of.index));
    let text = if let Cell::Text(text) = cell {
        text
    } else {
        ""
    };
    let said = said_by_cell(of_tax, cell);
    // A rate beside a net price changes nothing.
    if !matches!((said, is_gross), (TaxCell::Silent, false)) {
        row.memo.looked_at.add(Field::VatRate);
    }
    let share = match (said, is_gross) {
        (TaxCell::Silent | TaxCell::Out, false) => return Some(HeldTax::None),
        (TaxCell::Out, true) | (TaxCell::Unclear, _) => {
            let found = cell.to_text().trim().to_owned();
            let problem = match found.is_empty() {
                true => Problem::Missing {
                    field: Field::VatRate,
                    record: "offer",
                },
                false => Problem::TaxInOrOut { found },
            };
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

/// What the cell of tax says, with the header of its column: `ja` below `MwSt. inkl.` says that the price holds it, below
/// `zzgl. MwSt.` that it does not, and below `MwSt.` neither. A figure below `MwSt. inkl.` is a rate where percent is said.
fn said_by_cell(of_tax: Option<&ReadColumn>, cell: Cell<'_>) -> TaxCell {
    let states = of_tax.map(|of| of.states).unwrap_or_default();
    let is_of_sense = states.is_with_tax || states.is_without_tax;
    let (text, flag) = match cell {
        Cell::Bool(value) => ("", Some(value)),
        Cell::Text(text) if text.contains(|c: char| c.is_ascii_digit()) => (text, None),
        // Single letters are keys of rates.
        Cell::Text(text) if is_of_sense || text.chars().count() > 1 => (text, read_flag(text)),
        Cell::Text(text) => (text, None),
        _ => ("", None),
    };
    match (flag, TaxCell::read(text)) {
        (Some(true), _) if states.is_with_tax => TaxCell::In(states.tax_share),
        (Some(true), _) if states.is_without_tax => TaxCell::Out,
        (Some(true), _) => TaxCell::Unclear,
        (Some(false), _) if states.is_without_tax && !states.is_with_tax => TaxCell::Unclear,
        (Some(false), _) => TaxCell::Out,
        (None, TaxCell::Silent) if states.is_with_tax => rate_within(states.is_percent, cell),
        (None, said) => said,
    }
}

/// The rate in a cell below `MwSt. inkl.`; without one nobody knows whether the price holds tax.
fn rate_within(is_percent: bool, cell: Cell<'_>) -> TaxCell {
    let text = cell.to_text();
    let is_whole = |text: &str| text.parse::<f64>().is_ok_and(|figure| figure >= 1.0);
    let sign = if is_percent && is_whole(&text) {
        "%"
    } else {
        ""
    };
    match TaxCell::read(&format!("inkl. {text} {sign}")) {
        TaxCell::In(Some(share)) => TaxCell::In(Some(share)),
        _ => TaxCell::Unclear,
    }
}

/// What the prices of a column are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sense {
    /// Without tax; before a discount beside them, if any.
    Net,
    /// With tax.
    WithTax,
    /// Gross in either sense.
    Open,
}

/// In which sense a column's prices are to be read. A gross price beside a discount is one before it, see [`note_gross`].
fn sense(table: &TableContext<'_>, column: &ReadColumn) -> Sense {
    let is_with = is_with_tax(table, column);
    if !is_gross(table, column) {
        return match is_with {
            true => Sense::WithTax,
            false => Sense::Net,
        };
    }
    let title = table.title.states;
    let is_told = stated_share(table, column).is_some()
        || title.is_with_tax && !title.is_gross
        || is_with && table.has(Field::VatRate);
    if is_told {
        Sense::WithTax
    } else if title.is_without_tax || table.has(Field::Discount) {
        Sense::Net
    } else if is_with {
        Sense::WithTax
    } else {
        Sense::Open
    }
}

/// True where a column's prices are gross and no word of tax beside that settles the sense.
fn is_gross(table: &TableContext<'_>, column: &ReadColumn) -> bool {
    for states in [
        Some(column.states),
        beside(table, column).map(|of| of.states),
    ] {
        match states {
            Some(states) if states.is_gross => return true,
            Some(states) if states.is_with_tax || states.is_without_tax => return false,
            _ => {}
        }
    }
    table.title.states.is_gross
}

/// True where prices of a column are more than their cells.
pub(super) fn is_involved(table: &TableContext<'_>, column: &ReadColumn) -> bool {
    is_with_tax(table, column) || is_gross(table, column)
}

/// Says which gross prices are taken for those before the discount beside them.
pub(super) fn note_gross(context: &TableContext<'_>, table: &Table, why: &mut Vec<String>) {
    let are_prices = |field| matches!(field, Field::Price | Field::ListPrice);
    let columns = context.columns.iter().zip(&table.columns);
    for (column, printed) in columns.filter(|(column, _)| are_prices(column.field)) {
        let is_list = is_gross(context, column)
            && context.has(Field::Discount)
            && sense(context, column) == Sense::Net
            && !context.title.states.is_without_tax;
        if is_list {
            why.push(format!(
                "`{}` beside a discount is taken for the price before it, without value added tax; `incl.` with the rate of VAT in the header would say otherwise",
                printed.printed
            ));
        }
    }
}

/// True where a column's prices hold the tax; breaks are as the price beside them unless they say otherwise.
fn is_with_tax(table: &TableContext<'_>, column: &ReadColumn) -> bool {
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
