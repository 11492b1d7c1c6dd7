//! A net price beside the list price and discount that it should come from.

use crate::import::cell::number_text;
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::ReadPrice;

use super::context::{ReadColumn, TableContext};
use super::reader::RowReader;

/// Share of the list price, and amount, by which a net price may differ from what is reckoned: discounts are printed in whole
/// percents and prices in whole cents. Common practice, no source.
const ROUNDED: f64 = 0.006;

/// True for a list that says each net price twice: itself, and as a list price with its discount.
pub(super) fn is_said_twice(table: &TableContext<'_>) -> bool {
    // A list price without a discount says nothing of the net price, and is told as not read.
    [Field::Price, Field::Discount, Field::ListPrice]
        .into_iter()
        .all(|field| table.has(field))
}

/// Tells where the net price in a column is not the list price of the row less its discount.
pub(super) fn tell_other(row: &mut RowReader<'_, '_>, column: &ReadColumn, share: Option<f64>) {
    let table = row.table;
    let (Some(share), Some(list)) = (share, table.column(Field::ListPrice)) else {
        return;
    };
    let amounts = (row.amount_of(column), row.amount_of(list));
    let (Some(Ok(net)), Some(Ok(before))) = amounts else {
        return;
    };
    if is_of_other_terms((&net, column), (&before, list)) {
        return;
    }
    let reckoned = before.amount * (1.0 - share);
    if (net.amount - reckoned).abs() <= ROUNDED * (1.0 + before.amount) {
        return;
    }
    let problem = Problem::NetContradicts {
        net: number_text(net.amount),
        list: number_text(before.amount),
        percent: number_text((share * 10_000.0).round() / 100.0),
    };
    let (index, field) = (Some(column.index), Some(column.field));
    row.issue_at(Severity::Note, index, field, problem);
}

/// True where two amounts may be in other currencies, for other units or with tax and without: they are not compared.
fn is_of_other_terms(
    (one, of_one): (&ReadPrice, &ReadColumn),
    (other, of_other): (&ReadPrice, &ReadColumn),
) -> bool {
    let currency = |read: &ReadPrice, of: &ReadColumn| read.currency.or(of.states.currency);
    let per = |read: &ReadPrice, of: &ReadColumn| read.per_beside(of.states.per);
    let currencies = (currency(one, of_one), currency(other, of_other));
    matches!(currencies, (Some(one), Some(other)) if one != other)
        || per(one, of_one) != per(other, of_other)
        || of_one.states.is_with_tax != of_other.states.is_with_tax
}
