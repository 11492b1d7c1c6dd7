//! Rows of rebuild kits.

use std::sync::Arc;

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::issue::Severity;
use crate::import::value::is_placeholder;
use crate::part::designation::Designation;
use crate::record::KitLine;

use super::counted::Counting;
use super::named_part::read_identity;
use super::reader::{Rejected, RowReader};

/// What the record is called in messages.
const RECORD: &str = "kit line";

/// Reads one line of a kit; a line without a name is named by its row.
///
/// A line whose quantity or part cannot be read stays, since a kit is not complete without it; one that asks for nothing goes,
/// and so does a row that says nothing but its kit.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<KitLine, Rejected> {
    let kit = row.required_text(Field::Kit, RECORD)?;
    let identity = read_identity(row);
    // Words in a column of designations name no part.
    let part = row
        .first_text(&[Field::OwnNumber, Field::PartNumber])
        .or_else(|| {
            identity
                .designation
                .as_deref()
                .filter(|text| Designation::parse(text).is_some())
                .map(str::to_owned)
        });
    let is_named = part.is_some()
        || identity.description.is_some()
        || identity.size.is_some()
        || row.text_of(Field::Line).is_some();
    if !is_named {
        if !says_more_than_its_kit(row) {
            return Err(row.missing(Field::PartNumber, RECORD));
        }
        row.lacks(Field::PartNumber, RECORD);
    }
    let mut counting = Counting::in_units(row);
    let quantity = quantity(row, &mut counting)?;
    let unit_of_count = counting.unit_of_count();
    let line = row
        .text(Field::Line)
        .unwrap_or_else(|| format!("row {}", row.row + 1));
    Ok(KitLine {
        kit,
        machine: row
            .text(Field::Machine)
            .or_else(|| row.table.title.machine.clone()),
        assembly: row.text(Field::Assembly),
        line,
        part,
        description: (identity.description)
            .or_else(|| identity.designation.as_deref().map(str::to_owned)),
        family: identity.family,
        size: identity.size,
        traits: Arc::unwrap_or_clone(identity.traits),
        quantity,
        unit_of_count,
        task: row.text(Field::Task),
        note: row.text(Field::Note),
        // An unreadable word here must not open the line to substitutes.
        no_substitutes: row.text_of(Field::NoSubstitutes).is_some()
            && row.flag(Field::NoSubstitutes).unwrap_or(true),
        place: row.place.clone(),
    })
}

/// True where a cell says more than whose kit it is: something belongs on the line, whatever it may be.
fn says_more_than_its_kit(row: &RowReader<'_, '_>) -> bool {
    let table = row.table;
    let of_kit = [Field::Kit, Field::Machine, Field::Assembly];
    let mut others = table
        .columns
        .iter()
        .filter(|column| !of_kit.contains(&column.field));
    others.any(|column| match table.grid.cell(row.row, column.index) {
        Cell::Empty => false,
        Cell::Text(text) => !is_placeholder(text),
        _ => true,
    })
}

/// How many the line asks for; `None` with an issue where the cell is empty, spoilt or no number above 0.
fn quantity(row: &mut RowReader<'_, '_>, counting: &mut Counting) -> Result<Option<f64>, Rejected> {
    let Some(quantity) = counting.told(row, Field::Quantity) else {
        // A quantity of a unit that is not read is there, and told.
        if !counting.is_unread || row.cell(Field::Quantity) == Cell::Empty {
            row.lacks(Field::Quantity, RECORD);
        }
        return Ok(None);
    };
    if quantity > 0.0 {
        return Ok(Some(quantity));
    }
    // "0" says that the rebuild does without the line; less than that is a slip of the pen.
    let is_nothing = quantity.abs() < f64::EPSILON;
    let severity = match is_nothing {
        true => Severity::Rejected,
        false => Severity::Doubtful,
    };
    row.out_of_range(severity, Field::Quantity, quantity, "more than 0");
    match is_nothing {
        true => Err(Rejected),
        false => Ok(None),
    }
}
