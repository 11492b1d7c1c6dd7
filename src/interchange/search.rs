//! Finds the parts of a catalogue that are worth judging against a wanted size.

use std::collections::BTreeMap;

use crate::catalogue::{Catalogue, PartId};
use crate::part::SizeKey;
use crate::units::Length;

/// How far an inner diameter may differ and still be mistaken for the wanted one, nanometres.
///
/// 1.1 mm covers the traps of inch against metric: 25 and 25.4 mm, 12 and 12.7 mm, 22 and 22.225 mm.
pub const NEAR_NM: i64 = 1_100_000;

/// Parts by their inner and outer diameter, whatever the family calls them.
#[derive(Debug, Clone)]
pub struct Envelopes {
    by_diameters: BTreeMap<(Length, Length), Vec<PartId>>,
}

impl Envelopes {
    /// Indexes every part whose size is known.
    pub fn new(catalogue: &Catalogue) -> Self {
        let mut by_diameters: BTreeMap<(Length, Length), Vec<PartId>> = BTreeMap::new();
        for part in catalogue.parts() {
            if let Some(diameters) = part.size.and_then(|size| size.diameters()) {
                by_diameters.entry(diameters).or_default().push(part.id);
            }
        }
        Self { by_diameters }
    }

    /// Parts worth judging against a size: of the same family and close enough to be mistaken, or of another family in
    /// the same envelope.
    pub fn worth_judging<'a>(
        &'a self,
        catalogue: &'a Catalogue,
        size: &'a SizeKey,
    ) -> impl Iterator<Item = PartId> + 'a {
        self.near(size).filter(move |part| {
            let have = catalogue.part(*part).size;
            have.is_some_and(|have| have.family() == size.family() || have.has_envelope_of(size))
        })
    }

    /// Parts whose diameters both lie close enough to be mistaken, the same diameters included.
    fn near<'a>(&'a self, size: &SizeKey) -> impl Iterator<Item = PartId> + 'a {
        let range = size.diameters().and_then(|(inner, outer)| {
            let low = Length::from_nm((inner.as_nm() - NEAR_NM).max(1)).ok()?;
            let high = Length::from_nm(inner.as_nm() + NEAR_NM).ok()?;
            Some((low, high, outer))
        });
        range.into_iter().flat_map(move |(low, high, outer)| {
            let smallest = Length::from_nm(1).unwrap_or(low);
            self.by_diameters
                .range((low, smallest)..)
                .take_while(move |((inner, _), _)| *inner <= high)
                .filter(move |((_, other), _)| (other.as_nm() - outer.as_nm()).abs() <= NEAR_NM)
                .flat_map(|(_, parts)| parts.iter().copied())
        })
    }
}
