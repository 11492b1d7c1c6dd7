//! The thickness of a retaining ring beside its diameter: `external circlip 25 x 1.2`.

use super::Question;
use crate::lookup::reading::{Reading, Role};
use crate::part::Family;
use crate::standard::{self, StandardPart};

/// How far a measured thickness may lie from a ring's, mm: h11 takes 0.06 mm off up to 3 mm (DIN 471, from memory), and a
/// calliper is sure to some hundredths.
const THICKNESS_WITHIN_MM: f64 = 0.12;
/// A seat may be measured this far beside its size, mm.
const SEAT_WITHIN_MM: f64 = 0.35;
/// No ring of the tables is thicker, mm.
const THICKEST_MM: f64 = 8.0;

/// Takes a second figure of a retaining ring for its thickness, which is no dimension of its size.
pub(super) fn take_thickness(question: &mut Question, readings: &mut Vec<Reading>) {
    let families = match question.family {
        Some(family) => vec![family],
        None => question.families.clone(),
    };
    let is_ring = |family: &Family| {
        matches!(
            family,
            Family::ShaftRetainingRing | Family::BoreRetainingRing
        )
    };
    let is_open = question.designation.is_none() && question.partial.is_empty();
    if families.is_empty() || !families.iter().all(is_ring) || !is_open || readings.len() != 2 {
        return;
    }
    let mm = |at: usize| readings[at].length.length.to_mm();
    let may_be =
        |at: usize| matches!(readings[at].role, None | Some(Role::Width)) && mm(at) <= THICKEST_MM;
    let thin = if mm(1) < mm(0) { 1 } else { 0 };
    if !may_be(thin) {
        return;
    }
    let (thickness_mm, seat_mm) = (mm(thin), mm(1 - thin));
    let is_free = readings[1 - thin].role.is_some_and(Role::is_free);
    let is_it = |row: &&'static StandardPart| {
        let size = row.size.dimensions().next();
        families.contains(&row.size.family())
            && size.is_some_and(|(_, of)| (of.to_mm() - seat_mm).abs() <= SEAT_WITHIN_MM)
            && thickness_of(row).is_some_and(|of| (of - thickness_mm).abs() <= THICKNESS_WITHIN_MM)
    };
    let rows: Vec<&StandardPart> = standard::parts().iter().filter(is_it).collect();
    let gone = readings.remove(thin);
    let variants: Vec<&str> = rows
        .iter()
        .filter_map(|row| row.traits.variant.as_deref())
        .collect();
    // A free ring is of another diameter than its seat: its thickness then tells less.
    let one = variants
        .first()
        .copied()
        .filter(|first| !is_free && variants.iter().all(|variant| variant == first));
    match one {
        Some(variant) => question.traits.variant = Some(variant.to_owned()),
        None => question
            .not_understood
            .push(format!("thickness {}", gone.length.length)),
    }
}

/// Thickness as the row's variant says it.
fn thickness_of(row: &StandardPart) -> Option<f64> {
    let variant = row.traits.variant.as_deref()?;
    let piece = variant
        .split(", ")
        .find_map(|piece| piece.strip_prefix("thickness "))?;
    piece.strip_suffix(" mm")?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// DIN 471 and 472: 25 is 1.2 mm thick, 40 is 1.75 mm.
    #[test]
    fn a_second_figure_is_the_thickness() {
        for (text, variant) in [
            ("external circlip 25 x 1.2", Some("thickness 1.2 mm")),
            ("internal circlip 40 x 1.75", Some("thickness 1.75 mm")),
            ("circlip 25 x 1.18", Some("thickness 1.2 mm")),
            ("external circlip 25 1.2 thick", Some("thickness 1.2 mm")),
            ("external circlip 25", None),
        ] {
            let question = Question::read(text).unwrap();
            assert_eq!(question.traits.variant.as_deref(), variant, "{text}");
            assert_eq!(question.readings.len(), 1, "{text}");
            assert!(question.not_understood.is_empty(), "{text}");
        }
        let none = Question::read("external circlip 25 x 1.6").unwrap();
        assert_eq!(none.not_understood, ["thickness 1.6 mm"]);
    }
}
