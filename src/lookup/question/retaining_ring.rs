//! What stands beside the diameter of a retaining ring: its thickness in `external circlip 25 x 1.2`, its groove in `internal
//! circlip groove 42.5 width 1.85`.

use super::Question;
use crate::lookup::reading::{Reading, Role};
use crate::part::{Family, PartKind};
use crate::standard::{self, StandardPart};
use crate::units::LengthUnit;

/// How far a measured thickness may lie from a ring's, mm: h11 takes 0.06 mm off up to 3 mm (DIN 471, from memory), and a
/// calliper is sure to some hundredths.
const THICKNESS_WITHIN_MM: f64 = 0.12;
/// A seat may be measured this far beside its size, mm.
const SEAT_WITHIN_MM: f64 = 0.35;
/// No ring of the tables is thicker, mm.
const THICKEST_MM: f64 = 8.0;

/// A free ring may be measured this far beside its free diameter, mm (DIN 471 and 472 give it some tenths, from memory).
const FREE_WITHIN_MM: f64 = 0.6;

/// No groove is wider than this share of its diameter: DIN 471-3 has 0.5 mm in 2.8 mm.
const WIDEST_SHARE: f64 = 0.3;
/// A groove is named for a ring whose own is this near, mm: H12 of DIN 472 up to 300 mm is 0.52 mm (from memory).
const GROOVE_WITHIN_MM: f64 = 0.6;
/// Words for the groove of a ring.
const GROOVE: [&str; 4] = ["groove", "nut", "nutdurchmesser", "nutgrund"];

/// True for a word in lower case that names the groove of a ring.
pub(super) fn is_groove(lower: &str) -> bool {
    GROOVE.contains(&lower)
}

/// True for a ring of either kind.
pub(super) fn is_ring(family: Family) -> bool {
    family.is_of(PartKind::Ring)
}

/// What a ring of this family sits on or in, by whose diameter it is named; `None` of a part of another kind.
pub(super) fn seat(family: Family) -> Option<Role> {
    is_ring(family).then(|| {
        if family.facts().bench.measured.is_in_bore() {
            Role::Housing
        } else {
            Role::Shaft
        }
    })
}

/// Families that the question leaves.
fn families(question: &Question) -> Vec<Family> {
    match question.family {
        Some(family) => vec![family],
        None => question.families.clone(),
    }
}

/// True where the question is for a retaining ring, of whatever kind.
pub(super) fn is_asked_for(question: &Question) -> bool {
    let families = families(question);
    !families.is_empty() && families.into_iter().all(is_ring)
}

/// Takes a second figure of a retaining ring for its thickness, which is no dimension of its size.
pub(super) fn take_thickness(question: &mut Question, readings: &mut Vec<Reading>) {
    if is_asked_for(question) {
        take_groove_width(question, readings);
    }
    let families = families(question);
    let is_open = question.designation.is_none() && question.partial.is_empty();
    if !is_asked_for(question) || !is_open || readings.len() != 2 {
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
        let size_mm = row.size.dimensions().next().map(|(_, of)| of.to_mm());
        let (of_row, within_mm) = if is_free {
            (
                standard::noted(&row.note, standard::FREE_DIAMETER),
                FREE_WITHIN_MM,
            )
        } else {
            (size_mm, SEAT_WITHIN_MM)
        };
        of_row.is_some_and(|of| (of - seat_mm).abs() <= within_mm)
            && thickness_of(row).is_some_and(|of| (of - thickness_mm).abs() <= THICKNESS_WITHIN_MM)
    };
    let rows: Vec<&StandardPart> = rows_of(&families).filter(is_it).collect();
    let gone = readings.remove(thin);
    let variants: Vec<&str> = rows
        .iter()
        .filter_map(|row| row.traits.variant.as_deref())
        .collect();
    let one = variants
        .first()
        .copied()
        .filter(|first| variants.iter().all(|variant| variant == first));
    match one {
        Some(variant) => question.traits.variant = Some(variant.to_owned()),
        None => question
            .not_understood
            .push(format!("thickness {}", gone.length.length)),
    }
}

/// Takes the width of a groove, or the thickness of its ring, off the figures beside the groove's diameter; one that no ring of
/// such a groove has is not understood.
fn take_groove_width(question: &mut Question, readings: &mut Vec<Reading>) {
    let mm = |reading: &Reading| reading.length.length.to_mm();
    let largest_mm = readings.iter().map(mm).fold(0.0, f64::max);
    let Some(groove) = readings
        .iter_mut()
        .find(|reading| reading.role == Some(Role::RingGroove))
    else {
        return;
    };
    let groove_mm = mm(groove);
    if groove_mm < WIDEST_SHARE * largest_mm {
        // `groove 1.3 wide` on a shaft of 25.
        groove.role = Some(Role::Width);
        return;
    }
    let is_width = |reading: &Reading| {
        matches!(reading.role, None | Some(Role::Width)) && mm(reading) < WIDEST_SHARE * groove_mm
    };
    let Some(at) = readings.iter().position(is_width) else {
        return;
    };
    let width_mm = mm(&readings[at]);
    let named = question.designated_size();
    let is_it = |row: &&'static StandardPart| {
        let is_of = match named {
            Some(size) => row.size == size,
            None => standard::noted(&row.note, standard::GROOVE_DIAMETER)
                .is_some_and(|of| (of - groove_mm).abs() <= GROOVE_WITHIN_MM),
        };
        let widths = [
            standard::noted(&row.note, standard::GROOVE_WIDTH),
            thickness_of(row),
        ];
        is_of
            && widths
                .into_iter()
                .flatten()
                .any(|of| (of - width_mm).abs() <= THICKNESS_WITHIN_MM)
    };
    let has_it = rows_of(&families(question)).any(|row| is_it(&row));
    let gone = readings.remove(at);
    if !has_it {
        question
            .not_understood
            .push(format!("groove width {}", gone.length.length));
    }
}

/// Two lengths closer than this are one size, mm.
const SAME_SIZE_MM: f64 = 0.05;

/// Millimetres to the inch.
const INCH_MM: f64 = 25.4;
/// Steps of inch shafts and bores (common practice, no source).
const STEPS_PER_INCH: f64 = 16.0;
/// A figure in millimetres this near a step is the step written in millimetres: rounded to two decimals or three, mm.
const STEP_WITHIN_MM: f64 = 0.005 + 1e-9;

/// True for a figure in millimetres that is whole sixteenths of an inch: 19.05, 22.23, 25.4.
fn is_inch_step(mm: f64) -> bool {
    let steps = (mm / INCH_MM * STEPS_PER_INCH).round();
    steps > 0.0 && (mm - steps * INCH_MM / STEPS_PER_INCH).abs() <= STEP_WITHIN_MM
}

/// Says that an inch seat has no ring of the millimetre tables: 25 mm is not 1 in.
pub(super) fn note_inch(question: &mut Question, readings: &[Reading]) {
    if !is_asked_for(question) {
        return;
    }
    let families = families(question);
    let is_size = |mm: f64| {
        rows_of(&families).any(|row| {
            let size = row.size.dimensions().next();
            size.is_some_and(|(_, of)| (of.to_mm() - mm).abs() <= SAME_SIZE_MM)
        })
    };
    let is_seat = |reading: &&Reading| {
        let is_other = reading
            .role
            .is_some_and(|role| role.is_free() || role == Role::Width);
        let is_groove = reading.role == Some(Role::RingGroove);
        let is_inch = reading.length.unit == LengthUnit::Inch
            || !is_groove && is_inch_step(reading.length.length.to_mm());
        is_inch && !is_other
    };
    for reading in readings.iter().filter(is_seat) {
        let mm = reading.length.length.to_mm();
        // Beside a seat a small figure is a thickness.
        let is_thickness = readings.len() > 1 && mm <= THICKEST_MM;
        if !is_thickness && !is_size(mm) {
            question.is_inch_seat = true;
            question.notes.push(format!(
                "{mm} mm is no size of DIN 471 and DIN 472: an inch shaft or bore takes an inch ring, which is in no table here; measure its groove, and ask for it by seat, groove and thickness"
            ));
        }
    }
}

/// The rows of the tables that are of some families.
fn rows_of(families: &[Family]) -> impl Iterator<Item = &'static StandardPart> {
    families
        .iter()
        .flat_map(|family| standard::of_family(*family))
}

/// Thickness as the row's variant says it.
fn thickness_of(row: &StandardPart) -> Option<f64> {
    let piece = row
        .traits
        .variants()
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
            ("circlip 25 shaft 1.2 thick", Some("thickness 1.2 mm")),
            ("circlip for 62 bore 2mm thick", Some("thickness 2 mm")),
            // DIN 471-40: free diameter 36.5 mm, 1.75 mm thick; DIN 472-34 with 36.5 mm is 1.5 mm thick.
            (
                "circlip free id 36.6 thickness 1.75",
                Some("thickness 1.75 mm"),
            ),
            ("external circlip 25", None),
            ("Sicherungsring außen 25", None),
            ("circlip extérieur 25", None),
        ] {
            let question = Question::read(text).unwrap();
            assert_eq!(question.traits.variant.as_deref(), variant, "{text}");
            assert_eq!(question.readings.len(), 1, "{text}");
            assert!(question.not_understood.is_empty(), "{text}");
        }
        let none = Question::read("external circlip 25 x 1.6").unwrap();
        assert_eq!(none.not_understood, ["thickness 1.6 mm"]);
    }

    /// DIN 471-25: groove 23.9 mm, 1.3 mm wide; DIN 472-40: 42.5 mm, 1.85 mm wide.
    #[test]
    fn a_groove_is_no_seat_and_its_width_no_dimension() {
        use Role::{Housing, RingGroove, Shaft};
        for (text, roles, left) in [
            ("internal circlip, groove 65 housing", &[RingGroove][..], 0),
            ("external circlip groove 23.9", &[RingGroove], 0),
            ("external circlip groove dia 23.9", &[RingGroove], 0),
            ("external circlip 23.9 groove", &[RingGroove], 0),
            ("Sicherungsring außen Nut 23,9", &[RingGroove], 0),
            ("Sicherungsring innen Nutdurchmesser 65", &[RingGroove], 0),
            ("shaft 25 groove 23.9 circlip", &[Shaft, RingGroove], 0),
            (
                "shaft 25 groove 23.9 width 1.3 circlip",
                &[Shaft, RingGroove],
                0,
            ),
            ("internal circlip groove 42.5 width 1.85", &[RingGroove], 0),
            ("internal circlip groove 42.5 x 1.85", &[RingGroove], 0),
            ("internal circlip groove 42.5 width 3", &[RingGroove], 1),
            ("DIN 471-25 groove 23.9 width 1.3", &[RingGroove], 0),
            ("DIN 471-25 groove 23.9 width 2.15", &[RingGroove], 1),
            ("circlip shaft 25 groove 1.3 wide", &[Shaft], 0),
            ("internal circlip housing 40", &[Housing], 0),
        ] {
            let question = Question::read(text).unwrap();
            let read: Vec<Role> = question
                .readings
                .iter()
                .filter_map(|reading| reading.role)
                .collect();
            assert_eq!(read, roles, "{text}");
            assert_eq!(question.readings.len(), roles.len(), "{text}");
            assert_eq!(
                question.not_understood.len(),
                left,
                "{text}: {:?}",
                question.not_understood
            );
        }
    }

    /// Arithmetic: 25.4 mm to the inch; DIN 471 has 25 and 26 mm.
    #[test]
    fn an_inch_seat_takes_no_ring_of_the_tables() {
        for (text, is_told) in [
            ("circlip 1 inch shaft", true),
            ("external circlip 7/8", true),
            ("external circlip 25", false),
            ("circlip 25 shaft 1.2 thick", false),
            // The same seats in millimetres: 3/4, 1, 1 3/4 and 2 in; no seat of DIN 471 and 472 is as near as 0.05 mm.
            ("circlip shaft 19.05", true),
            ("circlip shaft 25.4", true),
            ("circlip shaft 25.4 mm", true),
            ("circlip bore 50.8", true),
            ("external circlip 44.45", true),
            // Measured beside a step, and metric seats.
            ("circlip shaft 19.02", false),
            ("circlip shaft 24.98", false),
            ("circlip bore 62", false),
            ("external circlip groove 23.9", false),
        ] {
            let notes = Question::read(text).unwrap().notes.join("; ");
            assert_eq!(notes.contains("an inch ring"), is_told, "{text}: {notes}");
        }
    }
}
