//! What is known of a family as a whole: each family fills it in in a file of its own.
//!
//! Whatever differs by family is a field here, so that no other module asks which family a part is of; a field names what a
//! family *does* (how its width may differ, how it wears), which several families may have in common.

pub(crate) use super::bench::Bench;
use super::{Dimension, PartClass};

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
    /// What may take its place.
    pub(crate) exchange: Exchange,
    /// How it measures, new and worn.
    pub(crate) bench: Bench,
    /// What people call it.
    pub(crate) asked: Asked,
}

/// The dimensions of a family.
#[derive(Debug)]
pub(crate) struct Shape {
    /// The dimensions that make up its key, in the order they are written.
    pub(crate) key: &'static [Dimension],
    /// Pairs of places in the key of which the first is always smaller than the second.
    pub(crate) ordered: &'static [(usize, usize)],
    /// Place in the key of the diameter on the outside.
    pub(crate) outer_place: usize,
    /// Place in the key of the width or height.
    pub(crate) width_place: Option<usize>,
}

/// What the designations of a family may carry.
#[derive(Debug)]
pub(crate) struct Marks {
    /// True for bearings that come with a radial clearance of their own (ISO 5753-1).
    pub(crate) has_radial_clearance: bool,
}

/// What a family bears.
#[derive(Debug)]
pub(crate) struct Rolling {
    /// True for bearings that sit on a bore and an outside diameter and carry radial load.
    pub(crate) is_radial: bool,
}

/// What may take the place of a part of a family.
#[derive(Debug)]
pub(crate) struct Exchange {
    /// What a part of another width, or a ring of another section, may do.
    pub(crate) other_width: OtherWidth,
}

/// What a part may do that has the diameters of another and not its width.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum OtherWidth {
    /// Nothing: it is another size.
    Never,
    /// Stand in with a spacer, where it is narrower.
    Spacer,
    /// Stand in where the bore is deep enough.
    InBore,
    /// Stand in where the gland holds either ring.
    Gland,
}

/// What people call a family.
#[derive(Debug)]
pub(crate) struct Asked {
    /// Standards of this family alone, by their number as people write it. Titles as published by DIN, ISO and ASME; from
    /// memory.
    pub(crate) standards: &'static [&'static str],
}
