//! The sizes a figure may stand for, each with its rows and its prior.

use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::LazyLock;

use crate::catalogue::card_index::SizeGrid;
use crate::part::{Family, SizeKey};
use crate::standard::{self, StandardPart};

/// One size and all rows of it: they cannot be told apart by measuring it.
#[derive(Debug, Clone, Copy)]
pub struct Candidate {
    /// Family and dimensions, without a tolerance class.
    pub size: SizeKey,
    /// Rows of the standard tables; empty for a size that only the shop's own list has.
    pub rows: &'static [&'static StandardPart],
}

/// The sizes of the standard tables, in order of size, and where each is.
pub(super) struct Standard {
    candidates: Vec<Candidate>,
    /// Positions of each family's sizes, in the order of the families.
    families: Vec<Range<u32>>,
    pub(super) grid: SizeGrid,
}

pub(super) static STANDARD: LazyLock<Standard> = LazyLock::new(|| {
    let mut sizes: BTreeMap<SizeKey, Vec<&'static StandardPart>> = BTreeMap::new();
    for row in standard::parts() {
        sizes.entry(row.size.without_fit()).or_default().push(row);
    }
    let candidates: Vec<Candidate> = sizes
        .into_iter()
        .map(|(size, rows)| Candidate {
            size,
            // As lasting as the tables, so that a candidate is copied without being allocated.
            rows: rows.leak(),
        })
        .collect();
    let sizes: Vec<SizeKey> = candidates.iter().map(|candidate| candidate.size).collect();
    let before = |is: fn(&Family, &Family) -> bool, family: &Family| {
        sizes.partition_point(|size| is(&size.family(), family)) as u32
    };
    let families = Family::ALL
        .iter()
        .map(|family| before(Family::lt, family)..before(Family::le, family))
        .collect();
    Standard {
        candidates,
        families,
        grid: SizeGrid::new(&sizes),
    }
});

impl Standard {
    /// Positions of the sizes of a family.
    pub(super) fn positions(&self, family: Family) -> Range<u32> {
        let rank = Family::ALL.iter().position(|one| *one == family);
        rank.map_or(0..0, |rank| self.families[rank].clone())
    }

    /// The size at a position.
    pub(super) fn at(&self, position: u32) -> &Candidate {
        &self.candidates[position as usize]
    }
}

/// The sizes of a family in the standard tables.
pub(super) fn of_family(family: Family) -> &'static [Candidate] {
    let positions = STANDARD.positions(family);
    &STANDARD.candidates[positions.start as usize..positions.end as usize]
}

/// Prior of a family before anything is read; those whose share is not known have what the others leave, evenly.
pub(super) fn family_share(family: Family) -> f64 {
    if let Some(share) = family.facts().bench.share {
        return share;
    }
    let known = || (Family::ALL.iter()).filter_map(|family| family.facts().bench.share);
    (1.0 - known().sum::<f64>()) / (Family::ALL.len() - known().count()) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_in_one_candidate() {
        let rows: usize = Family::ALL
            .iter()
            .flat_map(|family| of_family(*family))
            .map(|candidate| candidate.rows.len())
            .sum();
        assert_eq!(rows, standard::parts().len());
    }

    /// The known shares leave something to the families whose share nobody knows.
    #[test]
    fn no_family_is_ruled_out_before_anything_is_read() {
        for family in Family::ALL {
            let share = family_share(family);
            assert!(share > 0.0 && share < 1.0, "{family}: {share}");
        }
    }
}
