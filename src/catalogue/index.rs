//! Finds parts by number and by size.

use std::collections::BTreeMap;

use super::names::{Found, Names};
use super::part::{CataloguePart, PartId};
use crate::part::SizeKey;

/// Every part, with an index by number and one by size.
#[derive(Debug, Clone, Default)]
pub struct Catalogue {
    parts: Vec<CataloguePart>,
    names: Names,
    by_size: BTreeMap<SizeKey, Vec<PartId>>,
}

impl Catalogue {
    /// Indexes parts; their ids are set to their positions.
    ///
    /// Where two parts share a number, the first keeps it.
    pub fn new(mut parts: Vec<CataloguePart>) -> Self {
        let mut names = Names::default();
        let mut by_size: BTreeMap<SizeKey, Vec<PartId>> = BTreeMap::new();
        for (position, part) in parts.iter_mut().enumerate() {
            part.id = PartId(position as u32);
            if let Some(size) = part.size {
                by_size.entry(size).or_default().push(part.id);
            }
            names.add_number(&part.number, position);
            for alias in &part.aliases {
                names.add_alias(alias, position);
            }
            if let Some(designation) = &part.designation {
                names.add_designation(designation, position);
            }
        }
        Self {
            parts,
            names,
            by_size,
        }
    }

    /// All parts, by rising id.
    pub fn parts(&self) -> &[CataloguePart] {
        &self.parts
    }

    /// The part of an id of this catalogue.
    ///
    /// # Panics
    /// If the id is of another catalogue.
    pub fn part(&self, id: PartId) -> &CataloguePart {
        &self.parts[id.0 as usize]
    }

    /// Finds a part by own number, designation or alias, whatever its spelling.
    ///
    /// `None` also where the name is the designation of one part and an alias of another, or an alias of several.
    pub fn find(&self, printed: &str) -> Option<PartId> {
        match self.names.find(printed)? {
            Found::One(position) => Some(PartId(position as u32)),
            Found::Two { .. } | Found::Alike { .. } => None,
        }
    }

    /// Parts of exactly this family and size.
    pub fn of_size(&self, size: &SizeKey) -> &[PartId] {
        self.by_size.get(size).map_or(&[], Vec::as_slice)
    }

    /// Sizes in order, each with its parts.
    pub fn sizes(&self) -> impl Iterator<Item = (&SizeKey, &[PartId])> {
        self.by_size
            .iter()
            .map(|(size, parts)| (size, parts.as_slice()))
    }
}
