//! Which rows of a table are data: not totals, repeated headers, headings or notes.

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::footer::is_of_tax;
use crate::import::table::{Table, is_header_again};
use crate::import::value::{currency_of_sign, is_count_word, is_total_word};
use crate::record::TableKind;

use super::context::TableContext;

/// Longest single text of a row that is still data; a longer one below a table is a note.
const LONGEST_LONE_TEXT: usize = 30;

/// What a row of a table is.
pub enum RowIs {
    /// Nothing.
    Blank,
    /// The header again.
    Header,
    /// A total, a subtotal or a count.
    Total,
    /// A long text.
    Note,
    /// A text that heads the rows below it.
    Heading,
    /// A row to read.
    Data,
}

/// Tells what a row is.
pub fn what_row_is(context: &TableContext<'_>, table: &Table, row: u32) -> RowIs {
    let mut filled = context.grid.row(row).filter(|cell| *cell != Cell::Empty);
    let Some(first) = filled.next() else {
        return RowIs::Blank;
    };
    let Cell::Text(text) = first else {
        return RowIs::Data;
    };
    if is_total_word(text) && !names_a_record(context, row) {
        return RowIs::Total;
    }
    if is_header_again(context.grid, table, row) {
        return RowIs::Header;
    }
    if table.columns.len() < 3 {
        let is_note =
            context.kind == TableKind::Offers && filled.next().is_none() && is_of_tax(text);
        return match is_note {
            true => RowIs::Note,
            false => RowIs::Data,
        };
    }
    let Some(second) = filled.next() else {
        return what_lone_text_is(context, text);
    };
    // A merged row holds one text in all of its cells.
    let mut rest = std::iter::once(second).chain(filled);
    if rest.clone().all(|cell| cell == first) {
        return what_lone_text_is(context, text);
    }
    let is_count = matches!(rest.next(), Some(Cell::Number(_)))
        && rest.next().is_none()
        && is_count_word(text);
    if is_count {
        return RowIs::Total;
    }
    RowIs::Data
}

/// True for a row that says more behind its name than a total does: `Total Bearings Ltd; yes` is no total, and neither is
/// `Total overhaul; 10; 6205`.
fn names_a_record(context: &TableContext<'_>, row: u32) -> bool {
    use Field as F;
    const PARTS: [Field; 5] = [
        F::OwnNumber,
        F::PartNumber,
        F::SupplierNumber,
        F::Designation,
        F::Description,
    ];
    let (named, told): (Field, &[Field]) = match context.kind {
        TableKind::Suppliers | TableKind::Machines => return has_words_behind(context, row),
        TableKind::Offers | TableKind::Receipts => (F::Supplier, &PARTS),
        TableKind::KitLines => (F::Kit, &PARTS),
        TableKind::Tasks => (F::Kit, &[F::Task]),
        TableKind::Approvals => (F::Kit, &[F::Substitute]),
        TableKind::PlannedRebuilds => (F::Kit, &[F::Date]),
        _ => return false,
    };
    let is_filled = |field: &Field| {
        let column = context.column(*field);
        column.is_some_and(|column| context.grid.cell(row, column.index) != Cell::Empty)
    };
    is_filled(&named) && told.iter().any(is_filled)
}

/// True for a row with a word besides its first.
fn has_words_behind(context: &TableContext<'_>, row: u32) -> bool {
    let is_word = |cell: Cell<'_>| {
        matches!(cell, Cell::Bool(_))
            || matches!(cell, Cell::Text(text) if text.starts_with(char::is_alphabetic)
                && currency_of_sign(text).is_none())
    };
    context.grid.row(row).filter(|cell| is_word(*cell)).count() > 1
}

/// What a row with one text is: a note where it is long, a heading where it names no single part.
fn what_lone_text_is(context: &TableContext<'_>, text: &str) -> RowIs {
    use TableKind as K;
    if text.len() > LONGEST_LONE_TEXT || text.starts_with('*') {
        return RowIs::Note;
    }
    // A supplier, a machine or a kit may be known by its name alone.
    let is_of_parts = matches!(
        context.kind,
        K::Parts | K::Offers | K::OtherWays | K::Stock | K::Usages | K::Receipts | K::KitLines
    );
    let names_no_part =
        text.contains(char::is_whitespace) || !text.contains(|c: char| c.is_ascii_digit());
    if is_of_parts && names_no_part {
        RowIs::Heading
    } else {
        RowIs::Data
    }
}
