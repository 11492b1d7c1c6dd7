//! Glands of O-rings: depth, squeeze and width by section and duty.

use std::sync::LazyLock;

const TABLE_CSV: &str = include_str!("../../data/limit/o_ring_gland.csv");
/// A section this close to one of the table uses its gland, mm: AS568 and ISO 3601-1:1988 sections serve in each other's.
const SAME_SECTION_MM: f64 = 0.06;

/// What an O-ring does in its groove.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Duty {
    /// At rest, squeezed across its section by bore and rod.
    StaticRadial,
    /// At rest, squeezed between two faces.
    StaticFace,
    /// On a moving rod or piston.
    Reciprocating,
}

/// A published gland.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Gland {
    /// Section the gland is for, mm.
    pub section_mm: f64,
    /// Least depth, mm.
    pub least_depth_mm: f64,
    /// Greatest depth, mm.
    pub greatest_depth_mm: f64,
    /// Least squeeze, share of the section.
    pub least_squeeze_share: f64,
    /// Greatest squeeze, share of the section.
    pub greatest_squeeze_share: f64,
    /// Width without backup ring, mm.
    pub width_mm: f64,
}

impl Duty {
    /// Reads a duty; every value has a code.
    pub fn from_code(code: &str) -> Option<Self> {
        [Self::StaticRadial, Self::StaticFace, Self::Reciprocating]
            .into_iter()
            .find(|duty| duty.code() == code)
    }

    /// Stable name.
    pub const fn code(self) -> &'static str {
        match self {
            Self::StaticRadial => "static_radial",
            Self::StaticFace => "static_face",
            Self::Reciprocating => "reciprocating",
        }
    }
}

static TABLE: LazyLock<Vec<(Duty, Gland)>> = LazyLock::new(|| {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(TABLE_CSV.as_bytes());
    let read = |record: csv::StringRecord| {
        let number = |at: usize| record.get(at)?.trim().parse::<f64>().ok();
        Some((
            Duty::from_code(record.get(0)?)?,
            Gland {
                section_mm: number(1)?,
                least_depth_mm: number(2)?,
                greatest_depth_mm: number(3)?,
                least_squeeze_share: number(4)? / 100.0,
                greatest_squeeze_share: number(5)? / 100.0,
                width_mm: number(6)?,
            },
        ))
    };
    reader.records().flatten().filter_map(read).collect()
});

/// The published gland of a section and duty; `None` for sections the table does not know.
///
/// # Source
/// Open CAD library bd_warehouse 0.4.0; the inch form of the table read in a public gland-design handout.
pub fn gland(duty: Duty, section_mm: f64) -> Option<Gland> {
    TABLE
        .iter()
        .filter(|(of, gland)| {
            *of == duty && (gland.section_mm - section_mm).abs() < SAME_SECTION_MM
        })
        .map(|(_, gland)| *gland)
        .next()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_gland_of_a_section() {
        // Published gland table: section 3.53, static radial, depth 2.79 to 2.95 mm, squeeze 14 to 23 %.
        let of = gland(Duty::StaticRadial, 3.53).unwrap();
        assert!(
            (of.least_depth_mm - 2.79).abs() < 1e-9 && (of.greatest_depth_mm - 2.95).abs() < 1e-9
        );
        assert!((of.greatest_squeeze_share - 0.23).abs() < 1e-9);
        assert_eq!(gland(Duty::StaticRadial, 3.55), Some(of));
        assert_eq!(gland(Duty::StaticRadial, 3.0), None);
        assert_eq!(TABLE.len(), 24);
    }
}
