//! Finds the standard part a designation stands for, by the closure where the width depends on it.

use super::index::{named, of_size};
use super::join::{Joined, join};
use super::part::StandardPart;
use crate::part::designation::Designation;
use crate::part::{Closure, ContactAngle, FitClass, NamedBy, SizeKey};
use crate::units::{LengthUnit, read_size};

/// Angle of the `B` form of single row angular contact ball bearings (DIN 628-1).
const STEEP: ContactAngle = ContactAngle(40);

/// The standard part of a designation's basic designation.
///
/// `R8` and `R8-2Z` have different widths, so a closure that is not known finds neither. `None` also where no shipped
/// table has the size.
///
/// # Example
/// ```
/// use sparewright::part::designation::Designation;
/// use sparewright::standard::resolve;
/// let read = |text: &str| Designation::parse(text).and_then(|d| resolve(&d)).map(|part| part.size.to_string());
/// assert_eq!(read("6305-2RS C3").as_deref(), Some("25 x 62 x 17 mm"));
/// assert_eq!(read("R8ZZ").as_deref(), Some("12.7 x 28.575 x 7.9375 mm"));
/// ```
pub fn resolve(designation: &Designation) -> Option<&'static StandardPart> {
    let steep = (designation.traits.contact_angle == Some(STEEP))
        .then(|| format!("{}B", designation.basic));
    steep
        .iter()
        .chain([&designation.basic])
        .flat_map(|name| named(name))
        .find(|part| fits(part, designation))
        .or_else(|| by_size(designation))
}

/// True for a text that is the designation of a part in the tables, whatever stands behind its number.
///
/// What holds no figure is none: most words of a question are asked.
pub fn is_designation(text: &str) -> bool {
    text.contains(char::is_numeric)
        && Designation::parse(text).is_some_and(|read| resolve(&read).is_some())
}

/// True where nothing the designation says contradicts the row, and the closure is known where the width hangs on it.
fn fits(part: &StandardPart, designation: &Designation) -> bool {
    let is_family = designation.family == Some(part.size.family());
    let asked = designation.traits.closure;
    let closes = match part.traits.closure {
        None => true,
        Some(Closure::Open) => asked == Some(Closure::Open),
        Some(_) => asked.is_some_and(|closure| closure != Closure::Open),
    };
    is_family && closes && agrees_on_variant(part, designation)
}

/// Retaining rings come in one thickness per table; another thickness or the heavy type is another part.
fn agrees_on_variant(part: &StandardPart, designation: &Designation) -> bool {
    let has_stated_types = part.size.family().facts().marks.has_stated_types;
    match &designation.traits.variant {
        Some(asked) if has_stated_types => part.traits.variant.as_ref() == Some(asked),
        _ => true,
    }
}

/// Families whose designation is the size itself.
fn by_size(designation: &Designation) -> Option<&'static StandardPart> {
    let named_by = designation.family.map(|of| of.facts().marks.named_by);
    if named_by == Some(NamedBy::SizeAndClass) {
        return pin(designation);
    }
    let is_named_by_it = |size: &SizeKey| size.family().facts().marks.named_by == NamedBy::Size;
    let size = designation.size.filter(is_named_by_it)?;
    if let Some(part) = of_size(&size).first() {
        return Some(part);
    }
    let printed = read_size(&designation.basic, LengthUnit::Mm).ok()?;
    match join(size.family(), &printed).ok()? {
        Joined::Rounded { standard, .. } => of_size(&standard).first(),
        Joined::Exact(_) | Joined::AsPrinted(_) => None,
    }
}

/// DIN 6325 pins are those of ISO 8734, DIN 7 pins those of ISO 2338 with class m6 where none is printed.
///
/// # Source
/// Foreword of ISO 8734:1997 and ISO 2338:1997, which replace them; from memory.
fn pin(designation: &Designation) -> Option<&'static StandardPart> {
    let size = designation.size?;
    let is_old = designation.basic.starts_with("DIN ");
    let size = match size.fit() {
        None if is_old => size.with_fit(FitClass::read("m6")?),
        _ => size,
    };
    let is_it = |row: &&StandardPart| row.traits.variant == designation.traits.variant;
    of_size(&size).iter().filter(|_| is_old).find(is_it)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn size(text: &str) -> Option<String> {
        let designation = Designation::parse(text)?;
        resolve(&designation).map(|part| part.size.to_string())
    }

    #[test]
    fn a_designation_holds_a_figure_and_is_in_the_tables() {
        // DIN 623-1, AS568, ISO 2982; every number of the tables holds a figure.
        for text in ["6205", "NU 208 E C3", "AS568-214", "KM8"] {
            assert!(is_designation(text), "{text}");
        }
        for text in ["", "bearing", "deep groove", "40", "6299", "worn 12"] {
            assert!(!is_designation(text), "{text}");
        }
        let numbers = crate::standard::parts()
            .iter()
            .map(|part| &part.designation);
        assert!(
            numbers
                .clone()
                .all(|number| number.contains(char::is_numeric))
        );
        assert!(numbers.count() > 3_000);
    }

    #[test]
    fn the_closure_decides_where_the_width_depends_on_it() {
        // ABMA 20: R8 is 1/4 in wide open, 5/16 in shielded. JIS B 1521: 684 is 2.5 mm wide open, 4 mm shielded.
        assert_eq!(size("R8").as_deref(), Some("12.7 x 28.575 x 6.35 mm"));
        assert_eq!(size("R8-2RS").as_deref(), Some("12.7 x 28.575 x 7.9375 mm"));
        assert_eq!(size("684").as_deref(), Some("4 x 9 x 2.5 mm"));
        assert_eq!(size("684ZZ").as_deref(), Some("4 x 9 x 4 mm"));
        assert_eq!(size("R8 LLU"), None);
    }

    #[test]
    fn ring_thickness_and_heavy_type_are_told_apart() {
        // DIN 471: the normal ring for 40 mm is 1.75 mm thick.
        assert_eq!(size("DIN 471-40").as_deref(), Some("40 mm"));
        assert_eq!(size("DIN 471-40x1.75").as_deref(), Some("40 mm"));
        assert_eq!(size("DIN 471-40x2.5"), None);
        assert_eq!(size("DIN 471-40 heavy"), None);
    }

    #[test]
    fn pins_of_the_old_standards_are_those_of_the_new() {
        // ISO 8734:1997 replaces DIN 6325 (hardened, m6), ISO 2338:1997 replaces DIN 7 (unhardened); from memory.
        let named = |text: &str| {
            let designation = Designation::parse(text)?;
            resolve(&designation).map(|part| part.designation.clone())
        };
        for (old, new) in [
            ("DIN 6325 8x40", Some("ISO 8734-8x40")),
            ("DIN 6325 8 m6 x 40", Some("ISO 8734-8x40")),
            ("DIN 7 6x20", Some("ISO 2338-6m6x20")),
            ("DIN 7 6 h8 x 20", Some("ISO 2338-6h8x20")),
            ("DIN 6325 8x41", None),
            ("ISO 8734 8x40", Some("ISO 8734-8x40")),
            ("ISO 2338 6 h8 x 20", Some("ISO 2338-6h8x20")),
        ] {
            assert_eq!(named(old).as_deref(), new, "{old}");
        }
    }

    #[test]
    fn a_rounded_ring_size_finds_its_dash_number() {
        // SAE AS568: dash 222 is 1.484 x .139 in, 37.69 x 3.53 mm rounded.
        let designation = Designation::parse("O-ring 37.69x3.53").unwrap();
        assert_eq!(
            resolve(&designation).map(|p| p.designation.as_str()),
            Some("AS568-222")
        );
    }
}
