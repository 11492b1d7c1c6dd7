//! Rows of rebuild kits.

use std::sync::Arc;

use crate::import::field::Field;
use crate::import::issue::Severity;
use crate::part::designation::Designation;
use crate::record::KitLine;

use super::named_part::read_identity;
use super::reader::{Rejected, RowReader};

/// What the record is called in messages.
const RECORD: &str = "kit line";

/// Reads one line of a kit; a line without a name is named by its row.
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
    if part.is_none()
        && identity.description.is_none()
        && identity.size.is_none()
        && row.text_of(Field::Line).is_none()
    {
        return Err(row.missing(Field::PartNumber, RECORD));
    }
    let quantity = row.required_number(Field::Quantity, RECORD)?;
    if quantity <= 0.0 {
        row.out_of_range(Severity::Rejected, Field::Quantity, quantity, "more than 0");
        return Err(Rejected);
    }
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
        unit_of_count: row.unit_of_count(),
        task: row.text(Field::Task),
        note: row.text(Field::Note),
        // An unreadable word here must not open the line to substitutes.
        no_substitutes: row.text_of(Field::NoSubstitutes).is_some()
            && row.flag(Field::NoSubstitutes).unwrap_or(true),
        place: row.place.clone(),
    })
}
