//! One part of the catalogue, merged from every table that speaks of it.

use std::ops::{Deref, DerefMut};

use crate::part::designation::Designation;
use crate::place::Place;
use crate::record::PartFacts;
use crate::standard::{self, StandardPart};

/// Position of a part in its [`Catalogue`](super::Catalogue).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
pub struct PartId(pub u32);

/// A part the shop or a supplier has a number for; its facts are read as fields of its own.
#[derive(Debug, Clone)]
pub struct CataloguePart {
    /// Its position.
    pub id: PartId,
    /// Number it is called by: the shop's own, else the supplier's number, else the designation.
    pub number: String,
    /// True where the shop keeps a number for it; false for parts known from offers only.
    pub is_own: bool,
    /// What all rows say of it.
    pub facts: PartFacts,
    /// Rows that speak of it, first one first.
    pub places: Vec<Place>,
}

impl Deref for CataloguePart {
    type Target = PartFacts;

    fn deref(&self) -> &PartFacts {
        &self.facts
    }
}

impl DerefMut for CataloguePart {
    fn deref_mut(&mut self) -> &mut PartFacts {
        &mut self.facts
    }
}

/// A number and what it is, where that is not the number itself.
pub(super) fn label(number: &str, name: Option<&str>) -> String {
    match name {
        Some(text) if text != number => format!("{number} ({text})"),
        _ => number.to_owned(),
    }
}

impl CataloguePart {
    /// A part of which only a number and a row are known; its id is set by the catalogue.
    pub fn bare(number: String, place: Place) -> Self {
        Self {
            id: PartId(0),
            number,
            is_own: false,
            facts: PartFacts::default(),
            places: vec![place],
        }
    }

    /// Number and what it is: `BRG-0412 (6305-2RS C3)`.
    pub fn label(&self) -> String {
        let name = self.designation.as_deref().or(self.description.as_deref());
        label(&self.number, name)
    }

    /// The best checked standard row of its size; the one the designation names, where several share a size.
    pub fn standard_row(&self) -> Option<&'static StandardPart> {
        let rows = standard::of_size(self.size.as_ref()?);
        if let [] | [_] = rows {
            return rows.first();
        }
        let named = self
            .designation
            .as_deref()
            .and_then(Designation::parse)
            .and_then(|designation| standard::resolve(&designation))
            .filter(|row| Some(row.size) == self.size);
        named.or_else(|| rows.iter().min_by_key(|row| row.confidence))
    }
}
