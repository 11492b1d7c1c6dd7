//! The quick way of an offer's row: a plain text table whose rows hold a number, a plain price and words that earlier
//! rows held too.
//!
//! A row goes this way only where the reader of rows would read it without any issue and every text but numbers, price,
//! quantities and lead time is that of an earlier row; all others go to that reader, so that both give the same records.

use std::sync::Arc;

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::lines::{Lines, RowCells};
use crate::import::table::Table;
use crate::import::value::{
    DecimalSign, is_placeholder, is_total_word, plain_number, read_number, read_price,
};
use crate::record::{OfferColumns, OfferRecord, OwnOfOffer, TableKind};
use crate::units::{Currency, Price};

use super::context::{ReadColumn, TableContext};
use super::figures::without_unit;
use super::lead_times::lead_time_of_text;
use super::memo::Memo;
use super::offer_kind::OfferKind;
use super::price_tax;

/// Fewest columns of a table in which a row of several filled cells is always data.
const LEAST_COLUMNS: usize = 3;

/// Where a table has what the quick way reads.
#[derive(Debug)]
pub struct QuickOffers<'g> {
    lines: &'g Lines,
    /// Column and text of the first header, which a repeated header holds again.
    header: (u32, &'g str),
    own: Option<u32>,
    suppliers: Option<u32>,
    /// True where a plain "part no" is the shop's own.
    is_plain_own: bool,
    plain: Option<u32>,
    price: Option<Number>,
    minimum: Option<Number>,
    pack: Option<Number>,
    available: Option<Number>,
    lead_time: Option<ReadColumn>,
    /// Runs of neighbouring columns whose texts rows share: first and behind the last.
    shared: Vec<(u32, u32)>,
}

/// A column of numbers.
#[derive(Debug, Clone, Copy)]
struct Number {
    column: u32,
    decimal: Option<DecimalSign>,
}

impl<'g> QuickOffers<'g> {
    /// Looks whether rows of a table may go the quick way.
    pub fn of(context: &TableContext<'g>, table: &Table) -> Option<Self> {
        use Field as F;
        let lines = context.grid.lines()?;
        let first = table.columns.first()?.index;
        let Cell::Text(printed) = context.grid.cell(table.header_row, first) else {
            return None;
        };
        // What a price is made of besides its own cell, and amounts that depend on others.
        let mut prices = [F::Price, F::ListPrice]
            .into_iter()
            .filter_map(|field| context.column(field));
        let has_both = |one, other| context.has(one) && context.has(other);
        let is_involved = context.has(F::Discount)
            || context.has(F::PriceFrom)
            || context.has(F::HoldsFrom)
            || context.has(F::VatRate)
            || prices.any(|column| price_tax::is_involved(context, column))
            || has_both(F::Price, F::ListPrice)
            || has_both(F::Available, F::OnHand);
        // Terms of the whole list stand in no cell of a row.
        let terms = &context.title.terms;
        let has_terms = terms.lead_time.is_some() || terms.discount_share.is_some();
        if context.kind != TableKind::Offers
            || has_terms
            || table.columns.len() < LEAST_COLUMNS
            || is_involved
            || context.is_read_beside
            || context.inch_doubt.is_some()
        {
            return None;
        }
        let index = |field| context.column(field).map(|column| column.index);
        let number = |field| {
            context.column(field).map(|column| Number {
                column: column.index,
                decimal: column.decimal,
            })
        };
        let mut quick = Self {
            lines,
            header: (first, printed),
            own: index(F::OwnNumber),
            suppliers: index(F::SupplierNumber),
            is_plain_own: context.has(F::Supplier) && !context.has(F::OwnNumber),
            plain: index(F::PartNumber),
            price: number(F::Price).or_else(|| number(F::ListPrice)),
            minimum: number(F::MinimumQuantity),
            pack: number(F::PackQuantity),
            available: number(F::Available).or_else(|| number(F::OnHand)),
            lead_time: context.column(F::LeadTime).cloned(),
            shared: Vec::new(),
        };
        let numbers = [quick.price, quick.minimum, quick.pack, quick.available];
        let own: Vec<u32> = [quick.own, quick.suppliers, quick.plain]
            .into_iter()
            .chain(numbers.map(|number| number.map(|number| number.column)))
            .chain([quick.lead_time.as_ref().map(|column| column.index)])
            .flatten()
            .collect();
        let mut shared: Vec<u32> = (context.columns.iter())
            // Notes are no part of an offer.
            .filter(|column| column.field != F::Note && !own.contains(&column.index))
            .map(|column| column.index)
            .collect();
        shared.sort_unstable();
        shared.dedup();
        for column in shared {
            match quick.shared.last_mut() {
                Some((_, end)) if *end == column => *end += 1,
                _ => quick.shared.push((column, column + 1)),
            }
        }
        Some(quick)
    }

    /// Reads a row into `columns`, those of the piece that begins at `piece`; false where it is not for this way.
    ///
    /// The memo knows afterwards which shared texts the row has, for [`learn`](Self::learn).
    pub fn read(
        &self,
        context: &TableContext<'g>,
        row: u32,
        memo: &mut Memo<'g>,
        columns: &mut OfferColumns,
        piece: u32,
    ) -> bool {
        let cells = self.lines.cells_of(row);
        self.note_shared(&cells, memo);
        let slips = &context.slips;
        let is_wider = slips.header_cells.is_some_and(|most| cells.width() > most)
            || slips.may_be_hidden && slips.wider(context.grid, row).is_some();
        !is_wider
            && self.is_data(&cells)
            && self
                .read_data(context, row, &cells, memo, columns, piece)
                .is_some()
    }

    /// True for rows that are surely data: no totals, headers, headings or notes.
    fn is_data(&self, cells: &RowCells<'g>) -> bool {
        let first = cells.cell(0);
        // A merged row holds one text in all of its cells, which no price and no number of a part does.
        let price = self.price.map_or("", |price| cells.cell(price.column));
        !first.is_empty()
            && !first.starts_with('#')
            && !price.is_empty()
            && price != first
            && !is_total_word(first)
            && cells.cell(self.header.0) != self.header.1
    }

    fn read_data(
        &self,
        context: &TableContext<'g>,
        row: u32,
        cells: &RowCells<'g>,
        memo: &mut Memo<'g>,
        columns: &mut OfferColumns,
        piece: u32,
    ) -> Option<()> {
        let own = name(cells, self.own)?;
        let suppliers = name(cells, self.suppliers)?;
        let plain = name(cells, self.plain)?;
        let (own_number, supplier_number) = if self.is_plain_own {
            (own.or(plain), suppliers)
        } else {
            (own, suppliers.or(plain))
        };
        own_number.or(supplier_number)?;
        let mut found = OwnOfOffer {
            own_number,
            supplier_number,
            minimum_quantity: quantity(cells, self.minimum, 0.0, false)?,
            pack_quantity: quantity(cells, self.pack, 0.0, false)?,
            quantity_available: quantity(cells, self.available, 0.0, true)?,
            ..OwnOfOffer::default()
        };
        if let Some(column) = &self.lead_time {
            let text = cells.cell(column.index);
            if !text.is_empty() {
                if text.starts_with('#') || is_placeholder(text) {
                    return None;
                }
                found.lead_time = Some(lead_time_of_text(context, memo, column, text).ok()?);
            }
        }
        let (key, kinds) = memo.offer_kind();
        let kind = kinds.get_mut(key)?;
        if let Some(price) = self.price {
            found.price = Some(read_price_by(cells.cell(price.column), price, kind.terms)?);
        }
        if kind.at.0 != piece {
            kind.at = (piece, columns.add_kind(Arc::clone(&kind.record)));
        }
        columns.push(kind.at.1, row, &found);
        Some(())
    }

    /// Notes the texts of a row that other rows may share.
    fn note_shared(&self, cells: &RowCells<'g>, memo: &mut Memo<'g>) {
        let key = memo.new_offer_key();
        for (first, end) in &self.shared {
            let (count, text) = cells.span(*first, *end);
            key.extend(count.to_le_bytes());
            key.extend((text.len() as u32).to_le_bytes());
            key.extend(text.as_bytes());
        }
    }

    /// Takes a record that the reader of rows gave for the row that [`read`](Self::read) was asked for last. `is_plain`
    /// says that it gave it without any issue and read nothing of what a part is from beside the shared texts.
    pub fn learn(
        &self,
        record: OfferRecord,
        is_plain: bool,
        memo: &mut Memo<'g>,
        columns: &mut OfferColumns,
        piece: u32,
    ) {
        if !is_plain {
            columns.push_record(record);
            return;
        }
        let cells = self.lines.cells_of(record.place.row);
        let price = self.price.map_or("", |price| cells.cell(price.column));
        let terms = record
            .price
            .filter(|_| plain_number(price).is_some())
            .map(|price| (price.currency, price.per));
        let (key, kinds) = memo.offer_kind();
        if let Some(known) = kinds.again(key) {
            if known.at.0 != piece {
                known.at = (piece, columns.add_kind(Arc::clone(&known.record)));
            }
            known.terms = known.terms.or(terms);
            columns.push_alike(known.at.1, &record);
            return;
        }
        let (record, at) = columns.push_record(record);
        let at = (piece, at);
        kinds.keep(|| key.into(), || OfferKind { record, terms, at });
    }
}

/// The text of a column of numbers of parts; `None` within for a blank one, and without for one that may be damaged.
#[allow(clippy::option_option)]
fn name<'g>(cells: &RowCells<'g>, column: Option<u32>) -> Option<Option<&'g str>> {
    let Some(text) = column
        .map(|column| cells.cell(column))
        .filter(|text| !text.is_empty())
    else {
        return Some(None);
    };
    // A plus may be a power of ten, see `damage`.
    let is_plain = !text.bytes().any(|byte| matches!(byte, b'+' | b'#')) && !is_placeholder(text);
    is_plain.then_some(Some(text))
}

/// A quantity above, or with zero from, `least`; `None` without for a text that needs the reader of rows.
#[allow(clippy::option_option)]
fn quantity(
    cells: &RowCells<'_>,
    number: Option<Number>,
    least: f64,
    is_least_in: bool,
) -> Option<Option<f64>> {
    let Some((number, text)) = number
        .map(|number| (number, cells.cell(number.column)))
        .filter(|(_, text)| !text.is_empty())
    else {
        return Some(None);
    };
    let value = match plain_number(text) {
        Some(value) => value,
        None if text.starts_with('#') || is_placeholder(text) => return None,
        None => read_number(without_unit(text), number.decimal).ok()?,
    };
    (value > least || is_least_in && value >= least).then_some(Some(value))
}

/// The price of a cell by the terms that the row shares with others.
fn read_price_by(text: &str, number: Number, terms: Option<(Currency, u32)>) -> Option<Price> {
    if let Some(amount) = plain_number(text) {
        let (currency, per) = terms.filter(|_| amount > 0.0)?;
        return Price::from_units(amount, per, currency).ok();
    }
    if text.starts_with('#') || is_placeholder(text) {
        return None;
    }
    let read = read_price(text, number.decimal)
        .ok()
        .filter(|read| read.amount > 0.0)?;
    let currency = read.currency.or(terms.map(|(currency, _)| currency))?;
    // What contradicts the list is told, and metres are a unit of the row.
    let of_list = terms.map(|(_, per)| per);
    if read.is_by_metre || read.per.is_some() && read.per != of_list {
        return None;
    }
    let per = of_list?;
    Price::from_units(read.amount, per, currency).ok()
}

#[cfg(test)]
mod tests;
