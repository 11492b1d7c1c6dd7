//! The sizes that standards list, shipped in `data/standard/`, each row with its source and confidence.

use std::fmt;

use crate::part::{Family, LoadRatings, SizeKey, Traits};
use crate::units::ReadLength;

/// How far a standard row was cross-checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
pub enum Confidence {
    /// Three or more open sources agree.
    A,
    /// Two agree.
    B,
    /// One.
    C,
    /// From memory only: never an unconditional yes, and every output that uses it says so.
    D,
}

/// One row of a standard's table.
#[derive(Debug, Clone)]
pub struct StandardPart {
    /// Basic designation, such as `6305`, `AS568-318`, `40x62x8`.
    pub designation: String,
    /// Other standard designations of the same part (`6804` for `61804`).
    pub synonyms: Vec<String>,
    /// Family and key dimensions.
    pub size: SizeKey,
    /// What the basic designation says besides size (rib form, contact angle, closure where the width depends on it).
    pub traits: Traits,
    /// Smallest chamfer r_s min, mm.
    pub chamfer_mm: Option<f64>,
    /// Load ratings with source.
    pub ratings: Option<LoadRatings>,
    /// Standard the size comes from.
    pub standard: String,
    /// Sources that were compared.
    pub source: String,
    /// How far it was cross-checked.
    pub confidence: Confidence,
    /// Note for the reader.
    pub note: String,
}

/// What a printed size is among the standard sizes of a family.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Joined {
    /// Printed exactly as a standard size.
    Exact(SizeKey),
    /// Printed rounded; exactly one standard size lies within half the last printed digit.
    Rounded {
        /// The standard size.
        standard: SizeKey,
        /// As printed.
        printed: SizeKey,
    },
    /// No standard size, or more than one, lies within half the last printed digit; kept as printed.
    AsPrinted(SizeKey),
}

impl Confidence {
    /// True unless the row rests on memory alone.
    pub fn is_cross_checked(self) -> bool {
        self != Self::D
    }
}

impl fmt::Display for Confidence {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self:?}")
    }
}

/// Every standard part, by family and size.
pub fn parts() -> &'static [StandardPart] {
    &[]
}

/// Standard parts of exactly this family and size.
pub fn of_size(_size: &SizeKey) -> &'static [StandardPart] {
    &[]
}

/// Finds a standard part by its basic designation or a synonym, whatever its spelling.
pub fn find(_designation: &str) -> Option<&'static StandardPart> {
    None
}

/// Joins a printed size to the standard size it stands for.
///
/// # Errors
/// [`SizeError`](crate::part::SizeError) where the lengths do not make a size of the family.
pub fn join(family: Family, printed: &[ReadLength]) -> Result<Joined, crate::part::SizeError> {
    let lengths: Vec<_> = printed.iter().map(|read| read.length).collect();
    SizeKey::new(family, &lengths).map(Joined::AsPrinted)
}

/// Finds the standard part a designation names.
pub fn resolve(
    designation: &crate::part::designation::Designation,
) -> Option<&'static StandardPart> {
    find(&designation.basic)
}
