//! One row of a standard's table and how far it may be trusted.

use std::fmt;

use crate::part::{LoadRatings, SizeKey, Traits};
use crate::units::Length;

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
    /// Smallest chamfer r_s min, mm; of pins, the chamfer c.
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

/// What a note calls the diameter of a retaining ring before it is mounted.
pub const FREE_DIAMETER: &str = "free diameter d3";
/// What a note calls the diameter of a retaining ring's groove.
pub const GROOVE_DIAMETER: &str = "groove diameter d2";
/// What a note calls the width of a retaining ring's groove.
pub const GROOVE_WIDTH: &str = "groove width m";

/// What a note calls the bore of an inner ring that the size does not tell.
pub const INNER_RING_BORE: &str = "with inner ring, bore d";

/// The figure that a note gives behind a name, mm: 43.5 of `free diameter d3 43.5; groove ...`.
pub fn noted(note: &str, name: &str) -> Option<f64> {
    let (_, rest) = note.split_once(name)?;
    let figure = rest.strip_prefix(' ')?.split([' ', ';', ',']).next()?;
    figure.parse().ok()
}

impl StandardPart {
    /// Widths of cone (B) and cup (C) of a tapered roller bearing, which its note gives behind its other remarks.
    pub fn ring_widths(&self) -> Option<(Length, Length)> {
        let width = |name: &str| {
            let pieces = || self.note.split([';', ',']).map(str::trim);
            let figure = pieces().find_map(|piece| piece.strip_prefix(name))?;
            Length::from_mm(figure.trim().parse().ok()?).ok()
        };
        Some((width("B ")?, width("C ")?))
    }
}

impl Confidence {
    /// Reads the letter.
    pub fn from_letter(letter: &str) -> Option<Self> {
        match letter {
            "A" => Some(Self::A),
            "B" => Some(Self::B),
            "C" => Some(Self::C),
            "D" => Some(Self::D),
            _ => None,
        }
    }

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
