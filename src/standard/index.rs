//! Finds standard parts by size, by name and by envelope.

use std::ops::Range;
use std::sync::LazyLock;

use super::part::StandardPart;
use super::table::LOADED;
use crate::part::{Dimension, Family, NameKey, SizeKey};
use crate::quick_map::QuickMap;
use crate::units::Length;

type Envelope = (Length, Length, Length);

struct Index {
    /// By size, then designation.
    parts: Vec<StandardPart>,
    /// Positions by name; a part's own designation comes before synonyms of others.
    by_name: QuickMap<NameKey, Vec<usize>>,
    by_envelope: QuickMap<Envelope, Vec<usize>>,
    /// Positions of the parts of a size, which follow each other.
    by_size: QuickMap<SizeKey, Range<usize>>,
}

static INDEX: LazyLock<Index> = LazyLock::new(|| {
    let mut parts = LOADED.parts.clone();
    parts.sort_by(|a, b| (a.size, &a.designation).cmp(&(b.size, &b.designation)));
    let mut by_name: QuickMap<NameKey, Vec<usize>> = QuickMap::default();
    let mut by_envelope: QuickMap<Envelope, Vec<usize>> = QuickMap::default();
    let mut by_size: QuickMap<SizeKey, Range<usize>> = QuickMap::default();
    for (at, part) in parts.iter().enumerate() {
        by_name
            .entry(NameKey::new(&part.designation))
            .or_default()
            .push(at);
        by_size.entry(part.size).or_insert(at..at).end = at + 1;
        if let Some(envelope) = envelope(&part.size) {
            by_envelope.entry(envelope).or_default().push(at);
        }
    }
    for (at, part) in parts.iter().enumerate() {
        for synonym in &part.synonyms {
            by_name.entry(NameKey::new(synonym)).or_default().push(at);
        }
    }
    Index {
        parts,
        by_name,
        by_envelope,
        by_size,
    }
});

/// Bore, outside diameter and width (B, or T of a tapered roller bearing) of a radial bearing.
fn envelope(size: &SizeKey) -> Option<Envelope> {
    if !size.family().is_radial_bearing() {
        return None;
    }
    let width = size
        .get(Dimension::Width)
        .or_else(|| size.get(Dimension::AssembledWidth))?;
    Some((
        size.get(Dimension::Bore)?,
        size.get(Dimension::OutsideDiameter)?,
        width,
    ))
}

/// Every standard part, by family and size.
pub fn parts() -> &'static [StandardPart] {
    &INDEX.parts
}

/// Standard parts of one family, by size.
pub fn of_family(family: Family) -> &'static [StandardPart] {
    let parts = parts();
    let start = parts.partition_point(|part| part.size.family() < family);
    let end = parts.partition_point(|part| part.size.family() <= family);
    &parts[start..end]
}

/// Standard parts of exactly this family and size.
///
/// A pin without a tolerance class is another size than the same pin with one.
pub fn of_size(size: &SizeKey) -> &'static [StandardPart] {
    let positions = INDEX.by_size.get(size).cloned();
    &INDEX.parts[positions.unwrap_or_default()]
}

/// Finds a standard part by its basic designation or a synonym, whatever its spelling.
///
/// Where a name stands for an open and a shielded part of different width, this gives the one that has the name as its
/// own designation; the closure of a whole designation tells them apart.
///
/// # Example
/// ```
/// use sparewright::standard::find;
/// // JIS B 1521 writes 6804 for the 61804 of ISO 15.
/// assert_eq!(find("6804").map(|part| part.size.to_string()).as_deref(), Some("20 x 32 x 7 mm"));
/// ```
pub fn find(designation: &str) -> Option<&'static StandardPart> {
    named(designation).next()
}

/// Every standard part of this name, those with it as their own designation first.
pub fn named(designation: &str) -> impl Iterator<Item = &'static StandardPart> {
    let positions = INDEX
        .by_name
        .get(&NameKey::new(designation))
        .map_or(&[][..], Vec::as_slice);
    positions.iter().map(|at| &INDEX.parts[*at])
}

/// Standard parts of which every key dimension lies within a tolerance of the given size, that size itself included.
///
/// # Units
/// The tolerance is in millimetres, to either side.
pub fn near(family: Family, size: &SizeKey, tolerance_mm: f64) -> Vec<&'static StandardPart> {
    if size.family() != family || !tolerance_mm.is_finite() {
        return Vec::new();
    }
    let tolerance_nm = (tolerance_mm * 1e6).round() as i64;
    let is_near = |part: &&StandardPart| {
        part.size
            .dimensions()
            .zip(size.dimensions())
            .all(|((_, have), (_, want))| (have.as_nm() - want.as_nm()).abs() <= tolerance_nm)
    };
    of_family(family).iter().filter(is_near).collect()
}

/// Radial bearings of any family with this bore, outside diameter and width (B, or T of tapered roller bearings).
///
/// ISO 15 gives bearings of one bore and dimension series one envelope, whatever their type: sharing it says nothing on
/// whether they exchange.
pub fn of_envelope(
    bore: Length,
    outside_diameter: Length,
    width: Length,
) -> Vec<&'static StandardPart> {
    let positions = INDEX
        .by_envelope
        .get(&(bore, outside_diameter, width))
        .map_or(&[][..], Vec::as_slice);
    positions.iter().map(|at| &INDEX.parts[*at]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(value: f64) -> Length {
        Length::from_mm(value).unwrap()
    }

    #[test]
    fn a_size_finds_all_its_parts_and_no_others() {
        let part = find("7205B").or_else(|| find("7205")).unwrap();
        let found = of_size(&part.size);
        assert!(found.iter().all(|other| other.size == part.size));
        let counted = parts().iter().filter(|p| p.size == part.size).count();
        assert_eq!(found.len(), counted);
    }

    #[test]
    fn one_envelope_holds_several_families() {
        // ISO 15: dimension series 02, bore code 05 is 25 x 52 x 15 mm for every type.
        let names: Vec<&str> = of_envelope(mm(25.0), mm(52.0), mm(15.0))
            .iter()
            .map(|part| part.designation.as_str())
            .collect();
        for name in ["6205", "7205", "1205", "NU205", "NJ205", "NUP205", "N205"] {
            assert!(names.contains(&name), "{name} not in {names:?}");
        }
        assert!(!names.contains(&"RNA4905"));
    }

    #[test]
    fn near_sizes_lie_within_the_tolerance_on_every_dimension() {
        // DIN 3760: 40 x 62 x 8 mm, and 7 before 1996; the shop asks for a 40 x 62 x 9 mm seal.
        let asked = SizeKey::new(Family::LipSeal, &[mm(40.0), mm(62.0), mm(9.0)]).unwrap();
        let found = near(Family::LipSeal, &asked, 1.0);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].designation, "40x62x8");
        assert!(near(Family::LipSeal, &asked, 0.5).is_empty());
        assert!(near(Family::ORing, &asked, 1.0).is_empty());
        assert!(near(Family::LipSeal, &asked, f64::NAN).is_empty());
    }

    #[test]
    fn loading_all_tables_takes_milliseconds() {
        let start = std::time::Instant::now();
        assert!(parts().len() > 3_000);
        // Common practice, no source: a command-line tool should start without a wait people notice (0.1 s).
        assert!(start.elapsed().as_millis() < 100, "{:?}", start.elapsed());
    }
}
