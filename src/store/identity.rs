//! Columns that several tables share: place, size, traits and ratings; and the parts table.

use super::table::{RowIn, RowOut, Stored, TableError};
use crate::part::{
    BoreForm, Clearance, Closure, ContactAngle, Family, FitClass, LoadRatings, RibForm, SealForm,
    SizeKey, ToleranceClass, Traits,
};
use crate::place::Place;
use crate::record::{PartFacts, PartRecord};
use crate::units::{Length, UnitOfCount};

/// Columns of the key dimensions.
const KEYS: [&str; 4] = ["key_1_nm", "key_2_nm", "key_3_nm", "key_4_nm"];

/// `file`, `sheet`, `row` (from 1).
pub(super) fn put_place(row: &mut RowOut<'_>, place: &Place) {
    row.text("file", Some(&place.file));
    row.text("sheet", Some(&place.sheet));
    row.integer("row", Some(i64::from(place.row) + 1));
}

pub(super) fn take_place(row: &mut RowIn<'_>) -> Result<Place, TableError> {
    let file = row.required_shared_text("file")?;
    let sheet = row.required_shared_text("sheet")?;
    let number = row
        .integer("row")?
        .and_then(|number| u32::try_from(number.checked_sub(1)?).ok());
    let number = number.ok_or_else(|| row.bad("row", "no row number"))?;
    Ok(Place::row(&file, &sheet, number))
}

/// A list in one cell, as a JSON array of texts; null where it is empty.
pub(super) fn put_list(row: &mut RowOut<'_>, name: &'static str, items: &[String]) {
    let text = (!items.is_empty()).then(|| serde_json::Value::from(items).to_string());
    row.text(name, text.as_deref());
}

pub(super) fn take_list(
    row: &mut RowIn<'_>,
    name: &'static str,
) -> Result<Vec<String>, TableError> {
    Ok(row
        .coded(name, |text| serde_json::from_str(text).ok())?
        .unwrap_or_default())
}

/// A list of a column that workspaces of earlier versions have not: empty there.
fn take_added_list(row: &mut RowIn<'_>, name: &'static str) -> Result<Vec<String>, TableError> {
    if row.is_next(name) {
        take_list(row, name)
    } else {
        Ok(Vec::new())
    }
}

/// `unit_of_count` in the words that are read back: `piece`, `pair`, `matched set of 2`, `pack of 10`, `metre`.
pub(super) fn put_unit(row: &mut RowOut<'_>, unit: Option<UnitOfCount>) {
    row.text(
        "unit_of_count",
        unit.map(|unit| unit.to_string()).as_deref(),
    );
}

pub(super) fn take_unit(row: &mut RowIn<'_>) -> Result<Option<UnitOfCount>, TableError> {
    row.coded("unit_of_count", |text| UnitOfCount::read(text).ok())
}

/// `family`, `size_family`, `key_1_nm` to `key_4_nm` in the order of the key dimensions of `size_family`, `fit`.
pub(super) fn put_size(row: &mut RowOut<'_>, family: Option<Family>, size: Option<SizeKey>) {
    row.text("family", family.map(Family::code));
    row.text("size_family", size.map(|size| size.family().code()));
    let mut lengths = size
        .iter()
        .flat_map(|size| size.dimensions().collect::<Vec<_>>());
    for name in KEYS {
        row.integer(name, lengths.next().map(|(_, length)| length.as_nm()));
    }
    row.text(
        "fit",
        size.and_then(|size| size.fit())
            .map(|fit| fit.to_string())
            .as_deref(),
    );
}

pub(super) fn take_size(
    row: &mut RowIn<'_>,
) -> Result<(Option<Family>, Option<SizeKey>), TableError> {
    let family = row.coded("family", Family::from_code)?;
    let of = row.coded("size_family", Family::from_code)?;
    let mut lengths = Vec::new();
    for name in KEYS {
        if let Some(nm) = row.integer(name)? {
            lengths.push(Length::from_nm(nm).map_err(|_| row.bad(name, &nm.to_string()))?);
        }
    }
    let fit = row.coded("fit", FitClass::read)?;
    let Some(of) = of else {
        return Ok((family, None));
    };
    let size =
        SizeKey::new(of, &lengths).map_err(|error| row.bad("key_1_nm", &error.to_string()))?;
    Ok((family, Some(fit.map_or(size, |fit| size.with_fit(fit)))))
}

/// One column per trait, by its code.
pub(super) fn put_traits(row: &mut RowOut<'_>, traits: &Traits) {
    row.text("closure", traits.closure.map(Closure::code));
    row.text("clearance", traits.clearance.map(Clearance::code));
    row.text(
        "tolerance_class",
        traits.tolerance_class.map(ToleranceClass::code),
    );
    row.integer(
        "contact_angle_deg",
        traits.contact_angle.map(|angle| i64::from(angle.0)),
    );
    row.text("rib_form", traits.rib_form.map(RibForm::code));
    row.text("bore_form", traits.bore_form.map(BoreForm::code));
    row.flag("has_snap_ring_groove", traits.has_snap_ring_groove);
    row.integer("rows", traits.rows.map(i64::from));
    row.text("preload_class", traits.preload_class.as_deref());
    row.text("arrangement", traits.arrangement.as_deref());
    row.text("cage", traits.cage.as_deref());
    row.text("seal_form", traits.seal_form.map(SealForm::code));
    row.text("material", traits.material.as_deref());
    row.text("hardness", traits.hardness.as_deref());
    row.text("variant", traits.variant.as_deref());
    put_list(row, "unknown_suffixes", &traits.unknown_suffixes);
}

fn take_small(row: &mut RowIn<'_>, name: &'static str) -> Result<Option<u8>, TableError> {
    let number = row.integer(name)?;
    number
        .map(|number| u8::try_from(number).map_err(|_| row.bad(name, &number.to_string())))
        .transpose()
}

pub(super) fn take_traits(row: &mut RowIn<'_>) -> Result<Traits, TableError> {
    Ok(Traits {
        closure: row.coded("closure", Closure::from_code)?,
        clearance: row.coded("clearance", Clearance::from_code)?,
        tolerance_class: row.coded("tolerance_class", ToleranceClass::from_code)?,
        contact_angle: take_small(row, "contact_angle_deg")?.map(ContactAngle),
        rib_form: row.coded("rib_form", RibForm::from_code)?,
        bore_form: row.coded("bore_form", BoreForm::from_code)?,
        has_snap_ring_groove: row.flag("has_snap_ring_groove")?,
        rows: take_small(row, "rows")?,
        preload_class: row.text("preload_class")?,
        arrangement: row.text("arrangement")?,
        cage: row.text("cage")?,
        seal_form: row.coded("seal_form", SealForm::from_code)?,
        material: row.text("material")?,
        hardness: row.text("hardness")?,
        variant: row.text("variant")?,
        unknown_suffixes: take_list(row, "unknown_suffixes")?,
    })
}

/// `has_ratings`, `dynamic_kn`, `static_kn`, `ratings_source`.
pub(super) fn put_ratings(row: &mut RowOut<'_>, ratings: Option<&LoadRatings>) {
    row.flag("has_ratings", Some(ratings.is_some()));
    row.number("dynamic_kn", ratings.and_then(|ratings| ratings.dynamic_kn));
    row.number("static_kn", ratings.and_then(|ratings| ratings.static_kn));
    row.text(
        "ratings_source",
        ratings.and_then(|ratings| ratings.source.as_deref()),
    );
}

pub(super) fn take_ratings(row: &mut RowIn<'_>) -> Result<Option<LoadRatings>, TableError> {
    let is_given = row.flag("has_ratings")?.unwrap_or(false);
    let ratings = LoadRatings {
        dynamic_kn: row.number("dynamic_kn")?,
        static_kn: row.number("static_kn")?,
        source: row.text("ratings_source")?,
    };
    Ok(is_given.then_some(ratings))
}

/// What is known of a part besides its numbers and its unit of count.
pub(super) fn put_facts(row: &mut RowOut<'_>, facts: &PartFacts) {
    put_list(row, "aliases", &facts.aliases);
    row.text("designation", facts.designation.as_deref());
    row.text("description", facts.description.as_deref());
    put_size(row, facts.family, facts.size);
    put_list(row, "size_notes", &facts.size_notes);
    put_traits(row, &facts.traits);
    put_ratings(row, facts.ratings.as_ref());
    row.number("speed_limit_rpm", facts.speed_limit_rpm);
    row.number("shelf_life_months", facts.shelf_life_months);
    row.number("own_min_stock", facts.own_min_stock);
    row.text("own_min_reason", facts.own_min_reason.as_deref());
    row.date("own_min_date", facts.own_min_date);
    put_list(row, "machines", &facts.machines);
}

/// As written by [`put_facts`], with the unit of count that the row has.
pub(super) fn take_facts(
    row: &mut RowIn<'_>,
    unit_of_count: Option<UnitOfCount>,
) -> Result<PartFacts, TableError> {
    let aliases = take_list(row, "aliases")?;
    let (designation, description) = (row.text("designation")?, row.text("description")?);
    let (family, size) = take_size(row)?;
    Ok(PartFacts {
        aliases,
        designation,
        description,
        family,
        size,
        size_notes: take_list(row, "size_notes")?,
        traits: take_traits(row)?,
        ratings: take_ratings(row)?,
        speed_limit_rpm: row.number("speed_limit_rpm")?,
        shelf_life_months: row.number("shelf_life_months")?,
        unit_of_count,
        own_min_stock: row.number("own_min_stock")?,
        own_min_reason: row.text("own_min_reason")?,
        own_min_date: row.date("own_min_date")?,
        machines: take_added_list(row, "machines")?,
    })
}

impl Stored for PartRecord {
    const TABLE: &'static str = "parts";

    fn put(&self, row: &mut RowOut<'_>) {
        row.text("own_number", Some(&self.own_number));
        put_unit(row, self.unit_of_count);
        put_facts(row, &self.facts);
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        let own_number = row.required_text("own_number")?;
        let unit_of_count = take_unit(row)?;
        Ok(Self {
            own_number,
            facts: take_facts(row, unit_of_count)?,
            place: take_place(row)?,
        })
    }
}
