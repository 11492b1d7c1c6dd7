//! What is known of a family as a whole: each family fills it in in a file of its own.
//!
//! Whatever differs by family is a field here, so that few other modules ask which family a part is of
//! (`tests/golden/family_names.txt`); a field names what a family *does* (how its width may differ, how it wears), which several
//! families may have in common.

pub(crate) use super::asked::Asked;
pub(crate) use super::bench::Bench;
use super::exchange::Exchange;
use super::marks::Marks;
use super::rolling::Rolling;
use super::teardown::Teardown;
use super::{Dimension, Family, PartClass};

/// All that holds of a family.
#[derive(Debug)]
pub(crate) struct Facts {
    /// Stable name for machine output.
    pub(crate) code: &'static str,
    /// Name for people, in the words of the standards.
    pub(crate) name: &'static str,
    /// The class a supplier may be approved for.
    pub(crate) class: PartClass,
    /// Its dimensions.
    pub(crate) shape: Shape,
    /// What its designations may carry.
    pub(crate) marks: Marks,
    /// What it bears, where it is a rolling bearing.
    pub(crate) rolling: Rolling,
    /// What becomes of it at a teardown.
    pub(crate) teardown: Teardown,
    /// What may take its place.
    pub(crate) exchange: Exchange,
    /// How it measures, new and worn.
    pub(crate) bench: Bench,
    /// How it is asked for.
    pub(crate) asked: Asked,
}

/// The dimensions of a family.
#[derive(Debug)]
pub(crate) struct Shape {
    /// Tables of its standard sizes in `data/standard`: name and text of each.
    pub(crate) tables: &'static [(&'static str, &'static str)],
    /// The dimensions that make up its key, in the order they are written.
    pub(crate) key: &'static [Dimension],
    /// Pairs of places in the key of which the first is always smaller than the second.
    pub(crate) ordered: &'static [(usize, usize)],
    /// Place in the key of the diameter on the outside, or of the section that lies round the inside; 0 where there is neither.
    pub(crate) outer_place: usize,
    /// Place in the key of the width or height.
    pub(crate) width_place: Option<usize>,
    /// True where `outer_place` is of a section, which stands on both sides of the inside diameter.
    pub(crate) is_outer_section: bool,
    /// What is written before a size: the `M` of a thread.
    pub(crate) size_prefix: &'static str,
    /// The first family of those whose sizes share a grid of the card index, since they measure the same things and their new
    /// parts spread alike: needle bearings spread further than those of ISO 492, so that more is looked at. Itself, where
    /// the grid is its own.
    pub(crate) grid_with: Family,
    /// Places in the key of the dimensions that the grid is by: of four one is in no grid.
    pub(crate) grid_places: [usize; 3],
}
