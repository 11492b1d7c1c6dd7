//! What is to be checked of a part proposed: a size that was found by measuring, half a bearing, words not understood.

use crate::interchange::{
    Difference, HALF, Judgement, LIP_SEAT, LIP_TRACK, RACEWAY, Subject, Verdict, is_half,
    runs_on_shaft,
};
use crate::lookup::answers::Answer;
use crate::lookup::found::{Found, Matched, certainty};
use crate::lookup::likelihood::{FILLS_ROOM_MM, OVER_ROOM_MM};
use crate::lookup::question::Question;
use crate::lookup::reading::Role;
use crate::part::Family;
use crate::standard;

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

/// Room left over: a ring is backed by a spacer; what is pressed in or runs loose is seated otherwise.
fn note_spare(family: Family, spare_mm: f64, judgement: &mut Judgement) {
    let seated = match family {
        Family::LipSeal => {
            "press the seal in flush with the face or against a shoulder, square to the shaft; it takes no spacer"
        }
        Family::DrawnCupNeedle => {
            "press the cup to its depth with a mandrel, clear of the shoulder; it takes no spacer"
        }
        Family::NeedleCage => {
            "guide the cage by smooth faces or washers that leave it some tenths of play; it takes no spacer"
        }
        _ => {
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
    let judgement = &mut answer.judgement;
    let check = |judgement: &mut Judgement, text: &str| {
        if !judgement.checks.iter().any(|known| known == text) {
            judgement.checks.push(text.to_owned());
        }
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    };
    let row = answer
        .size
        .and_then(|size| standard::of_size(&size).first());
    let is_on_shaft = runs_on_shaft(family, row.map(|row| &row.traits));
    if is_on_shaft && question.needs.shaft_hrc.is_none() {
        check(judgement, RACEWAY);
    }
    if family == Family::LipSeal && question.is_worn {
        check(judgement, LIP_TRACK);
    }
    if family == Family::LipSeal && judgement.verdict > Verdict::AsItIs {
        check(judgement, LIP_SEAT);
    }
}

/// What was asked for and not understood may be what decides.
pub(super) fn note_words(question: &Question, judgement: &mut Judgement) {
    if !question.not_understood.is_empty() {
        judgement.checks.push(format!(
            "not understood, and so not looked at: {}",
            question.not_understood.join(", ")
        ));
        judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
    }
}
