//! The quantity from which the price of an offer's row holds, where a column of the list says it.
//!
//! `South;E2;4;20` under `From qty` is no price of one piece. Such a row becomes an offer without a plain price and with
//! one break; `catalogue` puts the rows of one part together.

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::read_number;
use crate::record::PriceBreak;
use crate::units::Price;

use super::context::ReadColumn;
use super::figures::without_unit;
use super::reader::{Rejected, RowReader};

/// Words before a least quantity, and signs behind one.
const FROM: [&str; 12] = [
    "from",
    "ab",
    "dès",
    "des",
    "a partir de",
    "à partir de",
    "desde",
    "da",
    "od",
    ">=",
    "≥",
    ">",
];

/// Least quantity for which the row's price holds; `None` where it holds from one on.
///
/// # Errors
/// [`Rejected`] where a cell may say so and cannot be read, because the price would pass for that of one piece.
pub(super) fn least_quantity(row: &mut RowReader<'_, '_>) -> Result<Option<f64>, Rejected> {
    let table = row.table;
    for column in table.columns_of(Field::PriceFrom) {
        if column.states.from_quantity.is_none() {
            let cell = row.cell_of(column);
            if cell != Cell::Empty {
                let found = cell.to_text();
                return Err(reject(row, column, Problem::StepUnnamed { found }));
            }
        }
    }
    let Some(column) = table.column(Field::HoldsFrom) else {
        return Ok(None);
    };
    let from = match row.cell_of(column) {
        // An error value has its issue, and leaves open what the price is for.
        Cell::Empty if is_blank(row, column) => return Ok(None),
        Cell::Number(value) => Some(value),
        Cell::Text(text) => of_text(text, column),
        _ => None,
    };
    match from.filter(|from| from.is_finite() && *from > 0.0) {
        Some(from) => Ok((from > 1.0).then_some(from)),
        None => {
            let found = table.grid.cell(row.row, column.index).to_text();
            Err(reject(row, column, Problem::StepUnclear { found }))
        }
    }
}

/// The breaks of a row whose own price holds from a quantity on.
pub(super) fn behind(
    from_quantity: f64,
    price: Option<Price>,
    mut breaks: Vec<PriceBreak>,
) -> Vec<PriceBreak> {
    breaks.retain(|known| known.from_quantity > from_quantity);
    if let Some(price) = price {
        let own = PriceBreak {
            from_quantity,
            price,
        };
        breaks.insert(0, own);
    }
    breaks
}

/// True where the cell holds nothing, not even an error.
fn is_blank(row: &RowReader<'_, '_>, column: &ReadColumn) -> bool {
    matches!(
        row.table.grid.cell(row.row, column.index),
        Cell::Empty | Cell::Text(_)
    )
}

/// `20`, `ab 20`, `20 pcs`, `20+`, `20 - 49`.
fn of_text(text: &str, column: &ReadColumn) -> Option<f64> {
    let lower = text.trim().to_lowercase();
    let bare = FROM
        .iter()
        .find_map(|word| lower.strip_prefix(word))
        .unwrap_or(&lower)
        .trim();
    let bare = bare.trim_end_matches('+').trim_end();
    let mut parts = bare.split(['-', '–']);
    let first = parts.next().unwrap_or(bare).trim();
    // From one to another; a day is no quantity.
    if parts.count() > 1 {
        return None;
    }
    read_number(without_unit(first), column.decimal).ok()
}

fn reject(row: &mut RowReader<'_, '_>, column: &ReadColumn, problem: Problem) -> Rejected {
    let (index, field) = (Some(column.index), Some(column.field));
    row.issue_at(Severity::Rejected, index, field, problem);
    Rejected
}
