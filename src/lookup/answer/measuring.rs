//! What is to be checked of a part proposed: a size that was found by measuring, half a bearing, words not understood.

use std::sync::Arc;

use crate::interchange::{
    Difference, HALF, Judgement, LIP_SEAT, LIP_TRACK, RACEWAY, Subject, Verdict, is_half,
    runs_on_shaft,
};
use crate::lookup::answers::Answer;
use crate::lookup::found::{Found, Matched, certainty};
use crate::lookup::likelihood::{FILLS_ROOM_MM, OVER_ROOM_MM};
use crate::lookup::question::Question;
use crate::lookup::reading::{Reading, Role};
use crate::lookup::ring_width::ring_width;
use crate::part::{ClosedWidth, Dimension, Family, RoomLeft};
use crate::standard::{self, StandardPart};
use crate::units::Length;

/// Said where notes on the question tell what is open of it.
const SETTLE_NOTES: &str = "settle first what the notes say of the question";
/// A size less likely than this never gives the first verdict.
const SURE_ENOUGH: f64 = 0.9;

/// A size found by measuring a worn part is checked on the new one; room left over is made up with a spacer.
pub(super) fn note_measuring(found: &Found, judgement: &mut Judgement) {
    if found.matched == Matched::WithinMeasuring {
        judgement.checks.push(if found.is_within_band() {
            format!(
                "the figures lie within what a sound part of {}, its seats or its groove may have: compare the new part with the old, or measure the seats, before fitting",
                found.size
            )
        } else {
            format!(
                "measured up to {:.3} mm off {}: measure again on an unworn place",
                found.off_mm, found.size
            )
        });
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
    if found.matched == Matched::ByGroove {
        judgement.checks.push("its groove alone was measured: several rings may lie in there, compare with the machine's parts list and with what is left of the old ring".to_owned());
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
    note_ring_width(found, judgement);
    if found.probability < SURE_ENOUGH
        && !matches!(found.matched, Matched::Neighbour | Matched::ByGroove)
    {
        judgement.unknown.push(format!(
            "which part it is: {} is {}",
            found.size,
            certainty(found.probability)
        ));
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
    if let Some(over_mm) = found
        .spare_mm
        .map(|spare| -spare)
        .filter(|over| *over > OVER_ROOM_MM)
    {
        let width = Role::Room
            .dimension(found.size.family())
            .and_then(|width| found.size.get(width));
        judgement.differs.insert(
            0,
            Difference {
                what: "width",
                have: width.map_or_else(String::new, |width| width.to_string()),
                want: "the room there is".to_owned(),
                effect: format!("{over_mm:.2} mm wider than the room for it"),
                source: "arithmetic",
            },
        );
        judgement.verdict = judgement.verdict.max(Verdict::Near);
    }
    if let Some(spare_mm) = found.spare_mm.filter(|spare| *spare > FILLS_ROOM_MM) {
        note_spare(found.size.family(), spare_mm, judgement);
    }
}

/// A bearing whose width was taken over one of its rings is measured whole before it is taken for the one.
fn note_ring_width(found: &Found, judgement: &mut Judgement) {
    let width = |row: &&StandardPart| ring_width(row, found.matched);
    let Some(ring) = found.rows.first().and_then(width) else {
        return;
    };
    let whole = found.size.get(Dimension::AssembledWidth);
    let whole = whole.map_or_else(String::new, |whole| whole.to_string());
    judgement.checks.push(if found.matched == Matched::OverCup {
        format!("{ring} is the width of its outer ring (C), and the bearing is {whole} wide: measure the whole, cone in cup")
    } else {
        format!("{ring} is the width of its inner ring (B), and the bearing is {whole} wide: measure the whole, cone in cup")
    });
    judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
}

/// Room left over: a ring is backed by a spacer; what is pressed in or runs loose is seated otherwise.
fn note_spare(family: Family, spare_mm: f64, judgement: &mut Judgement) {
    let seated = match family.facts().bench.notes.room_left {
        RoomLeft::Seated(seated) => seated,
        RoomLeft::Spacer => {
            judgement.rework.push(format!(
                "spacer of {spare_mm:.2} mm beside it, faces parallel within about 5 µm; never on a preloaded pair without its documentation"
            ));
            judgement.verdict = judgement.verdict.max(Verdict::WithRework);
            return;
        }
    };
    judgement
        .checks
        .push(format!("{spare_mm:.2} mm of room are left over"));
    judgement.checks.push(seated.to_owned());
    judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
}

/// Said of a metric ring for a seat in inches.
const INCH_SEAT: &str = "the seat is in inches, and this ring is of a metric one: it goes in only where its own groove is cut, and never in that of an inch ring";

/// A metric retaining ring never goes in as it is where the seat is of no size of the tables.
pub(super) fn note_inch_seat(question: &Question, answer: &mut Answer) {
    let is_ring = answer
        .size
        .is_some_and(|size| size.family().facts().bench.measured.lies_in_groove());
    if question.is_inch_seat && is_ring {
        let judgement = Arc::make_mut(&mut answer.judgement);
        judgement.checks.push(INCH_SEAT.to_owned());
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
}

/// What is not known of a hardened pin whose type nobody named.
pub(super) const PIN_TYPE: &str = "whether the pin is of type A (hardened through) or B (hardened in its case, ISO 8734, from memory)";

/// The types of ISO 8734 are of one size, and no mark tells them apart.
pub(super) fn note_pin_type(want: &Subject, standard: &str, judgement: &mut Judgement) {
    let mut variants = want.traits.variants();
    if standard.contains("ISO 8734") && !variants.any(|of| of.starts_with("type ")) {
        judgement.unknown.push(PIN_TYPE.to_owned());
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
}

/// Said of an inch size that is in no table.
const UNLISTED_INCH: &str = "a size in fractions of an inch is taken as the nominal one, and it is in no table here: a metric part near it does not go in (a bore of 12 mm does not go on 1/2 in, 12.7 mm); write `rule` behind it if the figures were read off the part";
/// Fractions come this near to inch sizes that are printed in decimals, mm (common practice, no source).
const ROUNDED_TO_FRACTION_MM: f64 = 0.05;

/// Warns of a nominal inch size that no table has.
pub(super) fn unlisted_inch(question: &Question, found: &[Found]) -> Option<String> {
    let is_listed = found.first().is_some_and(|first| {
        matches!(first.matched, Matched::Exact | Matched::Rounded)
            || first.off_mm < ROUNDED_TO_FRACTION_MM
    });
    (question.is_nominal_inch() && !is_listed).then(|| UNLISTED_INCH.to_owned())
}

/// A width is that of the table where it differs by less, mm: less than a seal takes.
const SAME_WIDTH_MM: f64 = 0.5;

/// A bearing with seals whose open width alone is in the tables never goes in as it is by that width.
pub(super) fn note_sealed_width(question: &Question, answer: &mut Answer) {
    let closure = question.traits.closure;
    let is_closed = closure.is_some_and(|closure| closure.closed_by().is_some());
    let is_asked = is_closed || question.needs.closed_by.is_some();
    let Some(size) = answer.size else { return };
    let (said, is_known) = match size.family().facts().bench.notes.closed_width {
        ClosedWidth::OfTable => return,
        ClosedWidth::Larger(said) => (said, true),
        ClosedWidth::NoneKnown(said) => (said, false),
    };
    let width = Role::Width
        .dimension(size.family())
        .and_then(|width| size.get(width));
    let is_width = |reading: &Reading| {
        let is_near =
            |width: Length| reading.length.length.difference_mm(width).abs() <= SAME_WIDTH_MM;
        let may_be = question.readings.len() >= 3 || reading.role == Some(Role::Width);
        may_be && width.is_some_and(is_near)
    };
    let is_measured = question.readings.iter().any(is_width);
    // A width that was measured is the open one's all the same where no closed one is known.
    if is_asked && (!is_measured || !is_known) {
        let judgement = Arc::make_mut(&mut answer.judgement);
        judgement.checks.push(said.to_owned());
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
}

/// Not known of a bearing that can be taken apart across its rings: no standard of the tables has one.
const SPLIT: &str = "the size of the split bearing: the tables have solid rings alone, and a split bearing is commonly wider and larger outside (common practice, no source): measure bore, outside and width of the old one";

/// A split bearing has not the size of the solid one whose number it may bear; needle cages keep theirs when they are slit.
pub(super) fn note_split(question: &Question, answer: &mut Answer) {
    let is_solid = answer
        .size
        .is_some_and(|size| size.family().facts().bench.notes.is_larger_split);
    // Of a part of the shop the shop knows what it is.
    if is_solid && answer.number.is_none() && question.traits.has_variant("split") {
        let judgement = Arc::make_mut(&mut answer.judgement);
        judgement.unknown.push(SPLIT.to_owned());
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
}

/// Half a bearing is never fitted without a look at the other half.
pub(super) fn note_half(have: &Subject, judgement: &mut Judgement) {
    if have.traits.variants().any(is_half) {
        judgement.checks.push(HALF.to_owned());
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
}

/// A shaft that is raceway or seat of a lip is looked at before the part goes on it.
///
/// Whoever asks at the bench may have any shaft; a kit line replaces a part on the shaft that it ran on. What a lip seal asks
/// of sound seats goes beside other checks; it makes none necessary by itself.
pub(super) fn note_seats(question: &Question, answer: &mut Answer) {
    let Some(family) = answer.size.map(|size| size.family()) else {
        return;
    };
    let check = |answer: &mut Answer, text: &str| {
        let judgement = Arc::make_mut(&mut answer.judgement);
        if !judgement.checks.iter().any(|known| known == text) {
            judgement.checks.push(text.to_owned());
        }
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    };
    // Some of one type have a ring of their own, which their row tells.
    let measured = family.facts().bench.measured;
    let row = answer
        .size
        .filter(|_| measured.may_have_inner_ring())
        .and_then(|size| standard::of_size(&size).first());
    let is_on_shaft = runs_on_shaft(family, row.map(|row| &row.traits));
    if is_on_shaft && question.needs.shaft_hrc.is_none() {
        check(answer, RACEWAY);
    }
    if family.is_radial_bearing() && is_taper_on_plain(question, answer) {
        check(answer, TAPER);
    }
    let has_lip = family.facts().exchange.has_lip();
    if has_lip && question.is_worn {
        check(answer, LIP_TRACK);
    }
    if has_lip && answer.judgement.verdict > Verdict::AsItIs {
        check(answer, LIP_SEAT);
    }
}

/// What a tapered bore sits on (ISO 2982-1; common practice).
const TAPER: &str = "what it sits on: a tapered bore sits on a tapered seat, or on an adapter sleeve on a smaller shaft, never on a plain shaft of its own diameter";
/// A shaft is as large as the bore where it differs by less, mm.
const SAME_MM: f64 = 0.35;

/// True for a tapered bore on a shaft of the bore's diameter.
fn is_taper_on_plain(question: &Question, answer: &Answer) -> bool {
    let is_tapered = question.traits.has_tapered_bore();
    let is_as_large = |bore: Length| {
        let is_shaft_as_large = |reading: &Reading| {
            reading.role == Some(Role::Shaft)
                && reading.length.length.difference_mm(bore).abs() <= SAME_MM
        };
        question.readings.iter().any(is_shaft_as_large)
    };
    let bore = answer.size.filter(|_| is_tapered);
    let bore = bore.and_then(|size| size.get(Role::Inner.dimension(size.family())?));
    bore.is_some_and(is_as_large)
}

/// What was asked for and not understood may be what decides.
pub(super) fn note_words(question: &Question, answer: &mut Answer) {
    if question.is_pitch_open() {
        let judgement = Arc::make_mut(&mut answer.judgement);
        judgement.unknown.push("pitch of the thread".to_owned());
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
    if !question.not_looked_at.is_empty() {
        let judgement = Arc::make_mut(&mut answer.judgement);
        judgement.checks.push(format!(
            "asked for, and no load, power or life is looked at here: {}",
            question.not_looked_at.join(", ")
        ));
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
    if !question.not_understood.is_empty() {
        let judgement = Arc::make_mut(&mut answer.judgement);
        let untold = question.untold();
        judgement.checks.push(match untold[..] {
            [] => SETTLE_NOTES.to_owned(),
            _ => format!(
                "not understood, and so not looked at: {}",
                untold.join(", ")
            ),
        });
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::answer;

    /// DIN 628-1: B is 40 degrees; ISO 3601-3, from memory: S is the grade for special use.
    #[test]
    fn what_a_note_tells_is_not_told_again_as_not_understood() {
        for (text, note) in [
            ("7205 B 15°", "contradict"),
            ("7206 B set of 2", "a pair is a set"),
            ("O-ring 25x3 NBR ISO 3601-1 S", "in no table here"),
        ] {
            let answers = answer(&Question::read(text).unwrap(), None);
            let told = answers.warnings.join("; ");
            assert!(told.contains(note), "{text}: {told}");
            assert!(!told.contains("not understood"), "{text}: {told}");
            let judgement = &answers.answers[0].judgement;
            assert_eq!(judgement.verdict, Verdict::AfterChecks, "{text}");
            let checks = judgement.checks.join("; ");
            assert!(checks.contains(SETTLE_NOTES), "{text}: {checks}");
            assert!(!checks.contains("not understood"), "{text}: {checks}");
        }
    }

    /// Common practice, no source: seals make a spherical roller bearing wider. ISO 15: 22210 is 23 mm wide. From memory:
    /// NA4904 is 17 mm wide (ISO 1206) and NA4904-2RS 18; HK2012 closed on both sides is HK2016-2RS (ISO 3245).
    #[test]
    fn a_sealed_bearing_is_measured_for_its_width_where_the_tables_have_the_open_one() {
        let said_of = |family: Family| match family.facts().bench.notes.closed_width {
            ClosedWidth::OfTable => None,
            ClosedWidth::Larger(said) | ClosedWidth::NoneKnown(said) => Some(said),
        };
        let all: std::collections::BTreeSet<&str> =
            Family::ALL.into_iter().filter_map(said_of).collect();
        assert!(!all.is_empty());
        for (text, told) in [
            ("22210 seal", Some(Family::SphericalRoller)),
            ("22210 sealed", Some(Family::SphericalRoller)),
            ("22210-2RS", Some(Family::SphericalRoller)),
            ("22210", None),
            ("22210 open", None),
            ("6206 sealed", None),
            ("NA4904-2RS", Some(Family::NeedleRoller)),
            ("NA4904 sealed", Some(Family::NeedleRoller)),
            ("NA4900 2RS", Some(Family::NeedleRoller)),
            ("RNA4904 2RS", Some(Family::NeedleRoller)),
            ("NA4904", None),
            ("NA4904 open", None),
            // The width of the sealed one is not that of the table.
            ("NA4904-2RS 20x37x18", Some(Family::NeedleRoller)),
            ("NA4904-2RS 20x37x17", None),
            ("HK2512 sealed", Some(Family::DrawnCupNeedle)),
            ("HK2520 sealed one side", Some(Family::DrawnCupNeedle)),
            ("HK2020 gedichtet", Some(Family::DrawnCupNeedle)),
            ("HK2020-2RS", Some(Family::DrawnCupNeedle)),
            ("HK2020", None),
        ] {
            let answers = answer(&Question::read(text).unwrap(), None);
            let judgement = &answers.answers[0].judgement;
            let checks = &judgement.checks;
            let said = told.and_then(said_of);
            assert_eq!(said.is_some(), told.is_some(), "{text}");
            for one in &all {
                let has_it = checks.iter().any(|check| check == one);
                assert_eq!(has_it, said == Some(*one), "{text}: {checks:?}");
            }
            assert!(
                told.is_none() || judgement.verdict >= Verdict::AfterChecks,
                "{text}"
            );
        }
    }

    /// DIN 625-1 and DIN 5412-1 have no split bearing; split cages are of the size of ISO 3030 (common practice, no source).
    #[test]
    fn a_split_bearing_has_not_the_size_of_the_solid_one() {
        for (text, is_told) in [
            ("6206 split", true),
            ("6206 geteilt", true),
            ("NU206 split", true),
            ("6206", false),
            ("NU206", false),
            ("K20x24x10 split", false),
        ] {
            let answers = answer(&Question::read(text).unwrap(), None);
            let first = &answers.answers[0].judgement;
            let has_it = first.unknown.iter().any(|unknown| unknown == SPLIT);
            assert_eq!(has_it, is_told, "{text}: {first:?}");
            assert!(!is_told || first.verdict >= Verdict::AfterChecks, "{text}");
        }
    }

    #[test]
    fn a_tapered_bore_sits_on_no_plain_shaft_of_its_diameter() {
        // ISO 2982-1, from memory: a 40 mm bore goes on a sleeve on 35 mm.
        for (text, is_told) in [
            ("22208 K shaft 40", true),
            ("1208 K shaft 40", true),
            ("22208 K shaft 35", false),
            ("22208 shaft 40", false),
            ("22208 K", false),
        ] {
            let answers = answer(&Question::read(text).unwrap(), None);
            let first = &answers.answers[0].judgement;
            let has_it = first.checks.iter().any(|check| check == TAPER);
            assert_eq!(has_it, is_told, "{text}: {first:?}");
        }
    }

    #[test]
    fn a_ring_under_the_needles_is_the_raceway() {
        // DIN 5429-2, from memory: NKIA has an inner ring, NKX (DIN 5429-1) runs on the shaft.
        for (text, is_told) in [
            ("NKIA5904", false),
            ("NKX25", true),
            ("HK2020", true),
            ("6205", false),
        ] {
            let answers = answer(&Question::read(text).unwrap(), None);
            let checks = &answers.answers[0].judgement.checks;
            let has_it = checks.iter().any(|check| check == RACEWAY);
            assert_eq!(has_it, is_told, "{text}: {checks:?}");
        }
    }

    #[test]
    fn the_type_of_a_seal_has_no_rolling_elements() {
        for (family, says) in [
            (Family::LipSeal, "compare it with the old part"),
            (Family::ORing, "compare it with the old part"),
            (Family::DeepGrooveBall, "rolling elements"),
            (Family::ShaftRetainingRing, "in a bore"),
        ] {
            let open = family.open_type();
            assert!(open.contains(says), "{family}: {open}");
        }
    }
}
