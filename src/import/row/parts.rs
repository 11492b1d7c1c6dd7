//! Rows of parts tables.

use std::sync::Arc;

use crate::import::field::Field;
use crate::record::{PartFacts, PartRecord, TableKind};

use super::named_part::read_identity;
use super::reader::{Rejected, RowReader};

/// Reads one part.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<PartRecord, Rejected> {
    let own_number = row
        .first_text(&[Field::OwnNumber, Field::PartNumber])
        .ok_or_else(|| row.missing(Field::OwnNumber, "part"))?;
    Ok(PartRecord {
        facts: facts(row, &own_number),
        own_number,
        place: row.place.clone(),
    })
}

/// Reads what a row says of the shop's part of that number.
pub fn facts(row: &mut RowReader<'_, '_>, own_number: &str) -> PartFacts {
    let mut aliases = names(row, Field::Alias);
    if row.table.has(Field::OwnNumber) {
        aliases.extend(
            row.text(Field::PartNumber)
                .filter(|number| number != own_number),
        );
    }
    aliases.extend(row.text(Field::SupplierNumber));
    let identity = read_identity(row);
    PartFacts {
        aliases,
        designation: identity.designation.as_deref().map(str::to_owned),
        description: identity.description,
        family: identity.family,
        size: identity.size,
        size_notes: identity.size_notes,
        traits: Arc::unwrap_or_clone(identity.traits),
        ratings: identity.ratings.map(|ratings| *ratings),
        speed_limit_rpm: row.number_above_zero(Field::SpeedLimit),
        shelf_life_months: shelf_life_months(row),
        // A stock list's own is that of its quantities.
        unit_of_count: match row.table.kind {
            TableKind::Stock => None,
            _ => row.unit_of_count(),
        },
        machines: names(row, Field::Machine),
        own_min_stock: row.number_from_zero(Field::MinStock),
        own_min_reason: row.text(Field::MinStockReason),
        own_min_date: row.date(Field::MinStockDate),
    }
}

/// Other numbers or machines, several in one cell separated by `;`, `,`, `|` or line breaks.
fn names(row: &mut RowReader<'_, '_>, field: Field) -> Vec<String> {
    let table = row.table;
    let mut found = Vec::new();
    for column in table.columns_of(field) {
        let text = row.cell_of(column).to_text();
        let names = text
            .split([';', '|', '\n', ','])
            .map(str::trim)
            .filter(|name| !name.is_empty());
        found.extend(names.map(str::to_owned));
    }
    found
}

/// Months of shelf life; years where header or cell say so.
fn shelf_life_months(row: &mut RowReader<'_, '_>) -> Option<f64> {
    let in_years = row.text_of(Field::ShelfLife).and_then(|text| {
        let lower = text.to_lowercase();
        let number = [
            "years", "year", "jahre", "ans", "años", "anni", "lat", "lata", "yr", "a",
        ]
        .iter()
        .find_map(|unit| lower.strip_suffix(unit))?;
        number.trim().replace(',', ".").parse::<f64>().ok()
    });
    match in_years {
        Some(years) if years > 0.0 => Some(12.0 * years),
        _ => row.number_above_zero(Field::ShelfLife),
    }
}
