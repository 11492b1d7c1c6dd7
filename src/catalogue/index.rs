//! Finds parts by number and by size.

use std::collections::{BTreeMap, HashMap};

use super::part::{CataloguePart, PartId};
use crate::part::{NameKey, SizeKey};

/// Every part, with an index by number and one by size.
#[derive(Debug, Clone, Default)]
pub struct Catalogue {
    parts: Vec<CataloguePart>,
    by_name: HashMap<NameKey, PartId>,
    by_size: BTreeMap<SizeKey, Vec<PartId>>,
}

impl Catalogue {
    /// Indexes parts; their ids are set to their positions.
    ///
    /// Where two parts share a name, the first keeps it: own numbers come before aliases and designations.
    pub fn new(mut parts: Vec<CataloguePart>) -> Self {
        let mut by_name = HashMap::new();
        let mut by_size: BTreeMap<SizeKey, Vec<PartId>> = BTreeMap::new();
        for (position, part) in parts.iter_mut().enumerate() {
            part.id = PartId(position as u32);
            if let Some(size) = part.size {
                by_size.entry(size).or_default().push(part.id);
            }
        }
        for part in &parts {
            by_name.entry(NameKey::new(&part.number)).or_insert(part.id);
        }
        for part in &parts {
            for name in part.aliases.iter().chain(&part.designation) {
                let key = NameKey::new(name);
                if !key.is_empty() {
                    by_name.entry(key).or_insert(part.id);
                }
            }
        }
        Self {
            parts,
            by_name,
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

    /// Finds a part by own number, alias or designation, whatever its spelling.
    pub fn find(&self, printed: &str) -> Option<PartId> {
        self.by_name.get(&NameKey::new(printed)).copied()
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
