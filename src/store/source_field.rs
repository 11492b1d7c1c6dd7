//! Which columns of a spreadsheet a stored column is read from.
//!
//! A trait or a size that the printed designation says by itself is led back to the designation: a column of its own
//! may be empty there, and where it is not, both say the same.

use super::identity::{put_size, put_traits, take_size, take_traits};
use super::table::{RowIn, RowOut, Stored, Table, TableError};
use crate::import::Field;
use crate::part::designation::Designation;
use crate::part::{Dimension, Family, SizeKey, Traits};
use crate::standard;

/// What a designation says by itself.
struct Said {
    family: Option<Family>,
    size: Option<SizeKey>,
    traits: Traits,
}

impl Stored for Said {
    const TABLE: &'static str = "designation";

    fn put(&self, row: &mut RowOut<'_>) {
        put_size(row, self.family, self.size);
        put_traits(row, &self.traits);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        let (family, size) = take_size(row)?;
        let traits = take_traits(row)?;
        Ok(Self {
            family,
            size,
            traits,
        })
    }
}

/// The column that holds a designation which says the value of `column` by itself.
fn said_by_designation(column: &str, cells: &Table) -> Option<Field> {
    let holders = [
        ("designation", Field::Designation),
        ("part", Field::PartNumber),
    ];
    let (printed, field) = holders
        .iter()
        .find_map(|(name, field)| Some((cells.words_of(name)?, *field)))?;
    let parsed = Designation::parse(&printed)?;
    let row = standard::resolve(&parsed);
    let said = Said {
        family: parsed.family,
        size: parsed.size.or_else(|| row.map(|row| row.size)),
        traits: parsed.traits,
    };
    let value = Table::of(&[said]).words_of(column)?;
    (cells.words_of(column)? == value).then_some(field)
}

/// Fields that may have given a stored column, the likeliest first.
pub(super) fn source_fields(table: &str, column: &str, cells: &Table) -> Vec<Field> {
    let said = said_by_designation(column, cells);
    said.into_iter()
        .chain(columns_for(table, column, cells))
        .collect()
}

fn columns_for(table: &str, column: &str, cells: &Table) -> Vec<Field> {
    use Field as F;
    if let Some(position) = column
        .strip_prefix("key_")
        .and_then(|rest| rest.chars().next()?.to_digit(10))
    {
        return of_dimension(position as usize, cells);
    }
    let mut fields = match (table, column) {
        ("stock", "on_hand") => vec![F::OnHand, F::Quantity],
        ("stock", "is_blocked") | ("receipts", "is_closed") => vec![F::Status],
        ("receipts", "still_open") => vec![F::OpenQuantity],
        ("receipts", "quantity") => vec![F::Quantity, F::ReceivedQuantity, F::OpenQuantity],
        ("stock", "counted_on") => vec![F::CountedOn, F::Date],
        ("offers", "quote_date") => vec![F::QuoteDate, F::Date],
        ("offers", "own_number" | "supplier_number") => {
            named(column).into_iter().chain([F::PartNumber]).collect()
        }
        ("parts", "own_number") => vec![F::OwnNumber, F::PartNumber],
        (_, "part") => vec![F::OwnNumber, F::PartNumber, F::Designation, F::Description],
        (_, "aliases") => vec![F::Alias],
        (_, "family" | "size_family") => vec![F::Type, F::Designation, F::Description],
        (_, "contact_angle_deg") => vec![F::ContactAngle],
        (_, "has_snap_ring_groove") => vec![F::SnapRingGroove],
        (_, "fit") => vec![F::FitClass],
        (_, "unknown_suffixes") => vec![F::Designation],
        (_, "dynamic_kn") => vec![F::DynamicRating],
        (_, "static_kn") => vec![F::StaticRating],
        (_, "has_ratings") => vec![F::DynamicRating, F::StaticRating],
        (_, "speed_limit_rpm") => vec![F::SpeedLimit],
        (_, "shelf_life_months") => vec![F::ShelfLife],
        ("parts" | "stock", "machines") => vec![F::Machine],
        (_, "own_min_stock") => vec![F::MinStock],
        (_, "own_min_reason") => vec![F::MinStockReason],
        (_, "own_min_date") => vec![F::MinStockDate],
        (_, "price_cents_e2" | "price_per") => vec![F::Price, F::ListPrice],
        (_, "price_currency") => vec![F::Currency, F::Price, F::ListPrice],
        (_, "breaks") => vec![F::PriceFrom, F::HoldsFrom, F::Price, F::ListPrice],
        (_, "quantity_available") => vec![F::Available],
        (_, "expedite") => vec![F::ExpediteLeadTime],
        (_, "cancellation_charge_share") => vec![F::CancellationCharge],
        (_, "cost_cents" | "cost_currency") => vec![F::Cost],
        (_, "kind") => vec![F::WayKind],
        (_, "approved_by") => vec![F::By],
        _ => named(column),
    };
    if is_of_designation(column) {
        fields.extend([F::Designation, F::Description]);
    }
    fields
}

/// The field of the same name.
fn named(column: &str) -> Vec<Field> {
    Field::from_code(column).into_iter().collect()
}

/// Traits that a designation names where no column of their own does.
fn is_of_designation(column: &str) -> bool {
    const TRAITS: [&str; 13] = [
        "closure",
        "clearance",
        "tolerance_class",
        "contact_angle_deg",
        "rib_form",
        "bore_form",
        "has_snap_ring_groove",
        "rows",
        "preload_class",
        "arrangement",
        "seal_form",
        "material",
        "variant",
    ];
    TRAITS.contains(&column)
}

/// The column of a key dimension, else what names the whole size.
fn of_dimension(position: usize, cells: &Table) -> Vec<Field> {
    let family = cells.words_of("size_family");
    let dimensions: &[Dimension] = family
        .and_then(|code| Family::from_code(&code))
        .map_or(&[], Family::key_dimensions);
    let dimension = position.checked_sub(1).and_then(|at| dimensions.get(at));
    let own =
        dimension.and_then(|dimension| Field::from_code(dimension.field().trim_end_matches("_mm")));
    own.into_iter()
        .chain([Field::Size, Field::Designation, Field::Description])
        .collect()
}
