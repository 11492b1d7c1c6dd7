//! From written or measured lengths to the standard sizes they may stand for.

use crate::part::{Dimension, Family, SizeKey};
use crate::standard::{self, Joined};
use crate::units::{Length, ReadLength};

/// How a size was matched, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Matched {
    /// The very size.
    Exact,
    /// Within half the last printed digit.
    Rounded,
    /// Within what a calliper and wear explain.
    WithinMeasuring,
}

/// A standard size that the lengths may stand for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Match {
    /// The standard size.
    pub size: SizeKey,
    /// How it was matched.
    pub matched: Matched,
    /// Largest difference of a measured length from the standard one, mm.
    pub off_mm: f64,
}

impl Matched {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Exact => "exactly this size",
            Self::Rounded => "this size, written rounded",
            Self::WithinMeasuring => "nearest size, within what a calliper and wear explain",
        }
    }
}

/// Standard sizes of a family that the lengths may stand for, best first; empty where there are none.
///
/// # Source
/// Measuring window: common practice, no source. A bearing bore or outside diameter reads at most 0.15 mm below and
/// 0.02 mm above nominal, a width 0.3 mm below and 0.05 mm above, because new parts lie at or below nominal (ISO 492)
/// and wear takes away. O-ring sections flatten: the same window as a width.
pub fn match_size(family: Family, lengths: &[ReadLength]) -> Vec<Match> {
    let joined = standard::join(family, lengths);
    let of = |size, matched, off_mm| Match {
        size,
        matched,
        off_mm,
    };
    match joined {
        Ok(Joined::Exact(size)) => return vec![of(size, Matched::Exact, 0.0)],
        Ok(Joined::Rounded { standard, printed }) => {
            return vec![of(
                standard,
                Matched::Rounded,
                largest_difference(&printed, &standard),
            )];
        }
        Err(_) => return Vec::new(),
        Ok(Joined::AsPrinted(_)) => {}
    }
    let mut matches: Vec<Match> = standard::parts()
        .iter()
        .filter(|row| row.size.family() == family)
        .filter(|row| explains(&row.size, lengths))
        .map(|row| of(row.size, Matched::WithinMeasuring, off(&row.size, lengths)))
        .collect();
    matches.sort_by(|a, b| {
        a.off_mm
            .total_cmp(&b.off_mm)
            .then_with(|| a.size.cmp(&b.size))
    });
    matches.dedup_by_key(|found| found.size);
    matches
}

/// Lowest and highest reading of a sound or worn part, relative to nominal, mm.
const fn window_mm(dimension: Dimension) -> (f64, f64) {
    match dimension {
        Dimension::Width
        | Dimension::AssembledWidth
        | Dimension::Height
        | Dimension::Section
        | Dimension::Length => (-0.3, 0.05),
        _ => (-0.15, 0.02),
    }
}

fn explains(size: &SizeKey, lengths: &[ReadLength]) -> bool {
    size.dimensions()
        .zip(lengths)
        .all(|((dimension, nominal), read)| {
            let (low, high) = window_mm(dimension);
            let off_mm = read.length.difference_mm(nominal);
            let printed_mm = read.half_digit_nm as f64 / 1e6;
            off_mm >= low - printed_mm && off_mm <= high + printed_mm
        })
}

fn off(size: &SizeKey, lengths: &[ReadLength]) -> f64 {
    let pairs = size.dimensions().zip(lengths);
    pairs
        .map(|((_, nominal), read)| read.length.difference_mm(nominal).abs())
        .fold(0.0, f64::max)
}

fn largest_difference(a: &SizeKey, b: &SizeKey) -> f64 {
    let other: Vec<Length> = b.dimensions().map(|(_, length)| length).collect();
    a.dimensions()
        .zip(other)
        .map(|((_, x), y)| x.difference_mm(y).abs())
        .fold(0.0, f64::max)
}
