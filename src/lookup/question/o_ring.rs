//! What the figures of an O-ring are: the fractions that inch rings are called by, and outside diameters beside the two
//! dimensions that make its size.

use super::Question;
use super::named_by_kind::has_section;
use crate::lookup::reading::{Reading, Role};
use crate::part::designation::Designation;
use crate::part::{Dimension, Family, SizeKey};
use crate::standard::{self, StandardPart};
use crate::units::LengthUnit;

/// Nominal sections in sixty-fourths of an inch, and what they are in thousandths of an inch.
///
/// Source: SAE AS568, public chart.
const SECTIONS: [(i64, i64); 5] = [(4, 70), (6, 103), (8, 139), (12, 210), (16, 275)];
const NM_PER_64TH_INCH: i64 = 396_875;
const NM_PER_THOU: i64 = 25_400;
/// How far the inside diameter of a ring may lie below and above the fraction it is called by, thousandths of an inch: of the
/// AS568 chart, AS568-395 (26 in: 25.940) and AS568-005 (3/32 in: 0.101) lie furthest off.
const BELOW_THOU: i64 = 62;
const ABOVE_THOU: i64 = 8;
/// No section of the tables is as thick as this, mm.
const NO_SECTION_MM: f64 = 10.0;
/// Outside, inside and section were each rounded or measured: so much of the section they may disagree by.
const AGREES_WITHIN: f64 = 0.1;

/// Reads fractions as the nominal size of an inch ring: `3/4 x 1 x 1/8` and `3/4 x 1/8` are AS568-210, 0.734 x 0.139 in.
///
/// Measured or worn rings are not read so: then a fraction is what a rule showed.
pub(super) fn take_nominal(question: &mut Question, readings: &[Reading]) -> bool {
    let is_open = question.family.is_some_and(has_section) && question.designation.is_none();
    let is_measured =
        |reading: &Reading| reading.is_worn || reading.is_measured || reading.instrument.is_some();
    if !is_open || question.is_worn || readings.iter().any(is_measured) {
        return false;
    }
    let Some(row) = nominal(readings).and_then(|(inner, section)| ring(inner, section)) else {
        return false;
    };
    question.designation = Designation::parse(&row.designation);
    question.partial = vec![row];
    let inch = |of: Dimension| {
        let mm = row.size.get(of).map(|length| length.to_mm() / 25.4);
        mm.map_or_else(String::new, |inch| format!("{inch:.3}"))
    };
    question.notes.push(format!(
        "read as the nominal size of `{}`, which is {} x {} in: say `measured` if the fractions were measured",
        row.designation,
        inch(Dimension::InsideDiameter),
        inch(Dimension::Section),
    ));
    true
}

/// Sixty-fourths of an inch, where the figure is a fraction or a whole number of inches.
fn as_64ths(reading: &Reading) -> Option<i64> {
    let read = &reading.length;
    let nm = read.length.as_nm();
    let is_exact = read.unit == LengthUnit::Inch && nm % NM_PER_64TH_INCH == 0;
    is_exact.then_some(nm / NM_PER_64TH_INCH)
}

/// Inside diameter and section in sixty-fourths of an inch; `None` where the figures are no nominal size.
fn nominal(readings: &[Reading]) -> Option<(i64, i64)> {
    // Decimals are sizes as they are; a whole number beside a fraction is nominal as well.
    let is_fraction = |reading: &Reading| reading.length.half_digit_nm == 0;
    let is_whole = |reading: &Reading| {
        reading.length.unit == LengthUnit::Inch
            && reading.length.length.as_nm() % (64 * NM_PER_64TH_INCH) == 0
    };
    if !readings.iter().any(is_fraction)
        || !readings
            .iter()
            .all(|reading| is_fraction(reading) || is_whole(reading))
    {
        return None;
    }
    let is_section = |of: i64| SECTIONS.iter().any(|(nominal, _)| *nominal == of);
    let figures: Option<Vec<i64>> = readings.iter().map(as_64ths).collect();
    let figures = figures?;
    let roles: Vec<Option<Role>> = readings.iter().map(|reading| reading.role).collect();
    match (&figures[..], &roles[..]) {
        (&[a, b, c], [None, None, None]) => {
            let mut rising = [a, b, c];
            rising.sort_unstable();
            let [small, middle, outer] = rising;
            [(middle, small), (small, middle)]
                .into_iter()
                .find(|(inner, section)| inner + 2 * section == outer && is_section(*section))
        }
        (&[inner, outer], [None, None]) if outer > inner && is_section((outer - inner) / 2) => {
            ((outer - inner) % 2 == 0).then_some((inner, (outer - inner) / 2))
        }
        (&[inner, section], [None | Some(Role::Inner), None | Some(Role::Section)])
        | (&[section, inner], [Some(Role::Section), None | Some(Role::Inner)])
            if is_section(section) =>
        {
            Some((inner, section))
        }
        (&[section, inner], [None, None]) if is_section(section) => Some((inner, section)),
        _ => None,
    }
}

/// The AS568 ring called by these fractions.
fn ring(inner: i64, section: i64) -> Option<&'static StandardPart> {
    let (_, thou) = SECTIONS.iter().find(|(nominal, _)| *nominal == section)?;
    let off_nm = |row: &&StandardPart| {
        let is_series = row.designation.starts_with("AS568-")
            && row.size.get(Dimension::Section)?.as_nm() == thou * NM_PER_THOU;
        let inside = row.size.get(Dimension::InsideDiameter)?;
        let off_nm = inside.as_nm() - inner * NM_PER_64TH_INCH;
        (is_series && (-BELOW_THOU * NM_PER_THOU..=ABOVE_THOU * NM_PER_THOU).contains(&off_nm))
            .then_some(off_nm.abs())
    };
    standard::of_family(Family::ORing)
        .iter()
        .filter_map(|row| Some((off_nm(&row)?, row)))
        .min_by_key(|(off_nm, _)| *off_nm)
        .map(|(_, row)| row)
}

/// True for a ring whose section would be thicker than any: `25 x 30` is no section of 30 but an outside diameter.
pub(super) fn is_too_thick(size: &SizeKey) -> bool {
    let section = size.get(Dimension::Section);
    section.is_some_and(|of| of.to_mm() >= NO_SECTION_MM)
}

/// Names or drops the outside diameter: `19 x 26 x 3.5` is inside, outside and section, `25 x 30` inside and outside.
pub(super) fn name_outside(question: &mut Question, readings: &mut Vec<Reading>) {
    let is_unnamed = readings.iter().all(|reading| reading.role.is_none());
    if !question.family.is_some_and(has_section) || !is_unnamed {
        return;
    }
    let mm: Vec<f64> = readings
        .iter()
        .map(|reading| reading.length.length.to_mm())
        .collect();
    match mm[..] {
        [a, b, c] => {
            let agrees = |outer: f64, inner: f64, section: f64| {
                (inner + 2.0 * section - outer).abs() <= AGREES_WITHIN * section
            };
            // A ring as thick as its hole is none of the tables.
            let outer_at = [(0, b, c), (1, a, c), (2, a, b)]
                .into_iter()
                .find(|(at, one, other)| agrees(mm[*at], one.max(*other), one.min(*other)));
            if let Some((at, ..)) = outer_at {
                let outer = readings.remove(at);
                question.notes.push(format!(
                    "outside diameter {} is the inside and two sections, and tells nothing more",
                    outer.length.length
                ));
            }
        }
        [inner, outer] if inner > NO_SECTION_MM && outer > inner => {
            readings[0].role = Some(Role::Inner);
            readings[1].role = Some(Role::Outer);
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Nominal sizes of the AS568 chart, from memory; outside diameters by arithmetic.
    #[test]
    fn fractions_name_a_ring() {
        for (text, expected) in [
            ("O-ring 3/4 x 1 x 1/8", "AS568-210"),
            ("o-ring 3/4 x 1/8", "AS568-210"),
            ("o-ring 3/4 x 1 NBR", "AS568-210"),
            ("1 x 1 1/4 x 1/8 o-ring", "AS568-214"),
            ("o-ring 7/16 x 9/16 x 1/16", "AS568-013"),
            ("o-ring 1/2 x 11/16 x 3/32", "AS568-112"),
            ("o-ring 1 1/2 x 1 7/8 x 3/16", "AS568-325"),
            ("o-ring 4 1/2 x 5 x 1/4", "AS568-425"),
            ("o-ring 3/32 x 1/16", "AS568-005"),
            ("o-ring 1/8 x 1/4 x 1/16", "AS568-006"),
            ("o-ring cs 3/16 id 1 1/2", "AS568-325"),
        ] {
            let question = Question::read(text).unwrap();
            let named = question.designation.map(|designation| designation.basic);
            assert_eq!(named.as_deref(), Some(expected), "{text}");
            assert!(question.not_understood.is_empty(), "{text}");
        }
    }

    #[test]
    fn measured_fractions_and_decimals_are_sizes() {
        for text in [
            "o-ring 3/4 x 1/8 worn",
            "o-ring 3/4 x 1/8 rule",
            "o-ring 0.734 x 0.139 inch",
            "o-ring .75 x 1/8",
            "3/4 x 1 x 1/8",
        ] {
            let question = Question::read(text).unwrap();
            assert_eq!(question.designation, None, "{text}");
            assert!(question.readings.len() >= 2, "{text}");
        }
    }

    #[test]
    fn an_outside_diameter_is_no_section() {
        let three = Question::read("o-ring 19 x 26 x 3.5").unwrap();
        assert_eq!(three.readings.len(), 2);
        assert!(three.not_understood.is_empty());
        let two = Question::read("o-ring 25 x 30").unwrap();
        let roles: Vec<Option<Role>> = two.readings.iter().map(|reading| reading.role).collect();
        assert_eq!(roles, [Some(Role::Inner), Some(Role::Outer)]);
    }
}
