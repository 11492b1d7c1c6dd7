//! What lies opposite an O-ring's groove: the bore over a piston's groove, the rod inside of a gland.

use std::ops::Range;

use super::Question;
use super::figure::{is_figure, is_size};
use super::groove::{Named, opposite, single_figure};
use super::named_by_kind::has_section;
use crate::lookup::reading::{Reading, Role};
use crate::part::Dimension;
use crate::units::Length;

/// Depth and room between floor and counterface may differ by so much: the gap between piston and bore, and what a calliper is
/// unsure of, mm (common practice, no source).
const GAP_MM: f64 = 0.2;
/// Least room on either side between floor and counterface, mm: the thinnest sections of the tables are thicker (SAE AS568).
const LEAST_ROOM_MM: f64 = 1.0;
/// Words that say that a bore is that of the housing, and none of the ring.
const OF_PISTON: [&str; 9] = [
    "piston",
    "pistons",
    "kolben",
    "cylinder",
    "zylinder",
    "zylinderbohrung",
    "housing",
    "vérin",
    "verin",
];

/// A figure of what lies opposite, and the words that it takes.
pub(super) struct Over {
    pub(super) named: Named,
    pub(super) mm: f64,
    pub(super) range: Range<usize>,
}

fn bare(word: &str) -> String {
    word.trim_matches([',', ';', ':', '=']).to_lowercase()
}

/// What stands in front of a groove of what lies opposite it: `piston bore 50 groove floor 44`.
///
/// A bore is the ring's own inside where nothing says otherwise; beside a rod it is the other side of the gland.
pub(super) fn before(words: &[&str], text: &str, floor_mm: Option<f64>) -> Vec<Over> {
    let mut found: Vec<Over> = Vec::new();
    for at in 0..words.len() {
        let Some(named) = opposite(&bare(words[at]), text) else {
            continue;
        };
        let is_of_one = |place: &usize| {
            let word = bare(words[*place]);
            !matches!(
                word.as_str(),
                "dia" | "diameter" | "ø" | "of" | "is" | "bore"
            )
        };
        let place = (at + 1..words.len()).find(is_of_one);
        let Some((place, mm)) = place.and_then(|at| Some((at, single_figure(&bare(words[at]))?)))
        else {
            continue;
        };
        let has_unit = words.get(place + 1).is_some_and(|word| bare(word) == "mm");
        let range = at..place + 1 + usize::from(has_unit);
        found.push(Over { named, mm, range });
    }
    let has_rod = found.iter().any(|of| of.named == Named::Rod);
    found.retain(|of| has_rod || is_of_housing(words, &of.range, text, (of.mm, floor_mm)));
    found
}

/// True for a bore that is none of the ring: a piston's, beside the ring's size, or too large for a ring on the floor.
fn is_of_housing(
    words: &[&str],
    range: &Range<usize>,
    text: &str,
    (mm, floor_mm): (f64, Option<f64>),
) -> bool {
    let mut all = text.split_whitespace().map(bare);
    let says = all.any(|word| OF_PISTON.contains(&word.as_str()));
    let others = || {
        let others = words.iter().enumerate();
        others
            .filter(|(at, _)| !range.contains(at))
            .map(|(_, word)| *word)
    };
    let has_size = others().any(is_size) || others().filter(|word| is_figure(word)).count() > 1;
    let is_over = floor_mm.is_some_and(|floor_mm| mm >= floor_mm + 2.0 * LEAST_ROOM_MM);
    says || has_size || is_over
}

fn rounded(mm: f64) -> f64 {
    (mm * 1e4).round() / 1e4
}

/// Floor and depth of the groove from what lies opposite (arithmetic): a piston's groove is cut into the piston, and in a rod's
/// gland the ring lies on the rod itself. What contradicts the groove as measured is told.
pub(super) fn settle(question: &mut Question, over: &[(Named, f64)]) {
    let of = |named: Named| {
        let mut all = over.iter().rev();
        all.find(|(of, _)| *of == named).map(|(_, mm)| *mm)
    };
    match (of(Named::Bore), of(Named::Rod)) {
        // Rod and bore are the two sides of the gland.
        (Some(bore_mm), Some(rod_mm)) if question.groove.floor_mm.is_none() => {
            question.groove.floor_mm = Some(rod_mm);
            under_bore(question, bore_mm);
        }
        (bore_mm, rod_mm) => {
            if let Some(rod_mm) = rod_mm {
                on_rod(question, rod_mm);
            }
            if let Some(bore_mm) = bore_mm {
                under_bore(question, bore_mm);
            }
        }
    }
}

/// A depth of more than this many sections is none of the ring's groove: nothing squeezes the ring there (arithmetic).
const MOST_SECTIONS: f64 = 2.0;

/// A depth in which the ring that is named touches nothing: one of the two figures is wrong, and no squeeze is worked out.
pub(super) fn drop_absurd_depth(question: &mut Question) {
    let Some(depth_mm) = question.groove.depth_mm else {
        return;
    };
    let of_number = question.designated_size();
    let of_number = of_number.and_then(|size| size.get(Dimension::Section));
    let is_section = |of: &&Reading| of.role == Some(Role::Section);
    let named = question.readings.iter().find(is_section);
    let section = of_number.or(named.map(|of| of.length.length));
    let is_absurd = |section: &Length| depth_mm > MOST_SECTIONS * section.to_mm();
    let Some(section) = section.filter(is_absurd) else {
        return;
    };
    question.groove.depth_mm = None;
    question
        .not_understood
        .push(format!("depth of {depth_mm} mm"));
    question.notes.push(format!(
        "a groove {depth_mm} mm deep holds no ring of {section:#} mm: one of the two figures is wrong, measure groove and ring again"
    ));
}

/// `O-ring 40x3 in bore 44.8`: what a ring lies in tells nothing of it without its groove, and is no figure of the ring.
pub(super) fn drop_bore(question: &mut Question) {
    if !question.family.is_some_and(has_section) {
        return;
    }
    let is_bore = |of: &Reading| of.role == Some(Role::Housing);
    let has_size = question.designated_size().is_some() || question.readings.len() > 2;
    if !has_size {
        return;
    }
    let bores = question.readings.extract_if(.., |of| is_bore(of));
    let told: Vec<String> = bores
        .map(|of| format!("bore of {}", of.length.length))
        .collect();
    question.not_understood.extend(told);
}

fn under_bore(question: &mut Question, mm: f64) {
    let groove = &mut question.groove;
    let note = match (groove.floor_mm, groove.depth_mm) {
        (None, Some(depth_mm)) if mm > 2.0 * depth_mm => {
            let floor_mm = rounded(mm - 2.0 * depth_mm);
            groove.floor_mm = Some(floor_mm);
            format!(
                "a groove {depth_mm} mm deep under a bore of {mm} mm has its floor at {floor_mm} mm: measure it if you can"
            )
        }
        (Some(floor_mm), None) if mm >= floor_mm + 2.0 * LEAST_ROOM_MM => {
            let depth_mm = rounded((mm - floor_mm) / 2.0);
            groove.depth_mm = Some(depth_mm);
            format!(
                "a groove with its floor at {floor_mm} mm under a bore of {mm} mm is {depth_mm} mm deep: measure it if you can"
            )
        }
        (Some(floor_mm), Some(depth_mm)) => {
            let room_mm = rounded((mm - floor_mm) / 2.0);
            if (room_mm - depth_mm).abs() <= GAP_MM {
                return;
            }
            question.not_understood.push(format!("bore of {mm} mm"));
            format!(
                "a floor of {floor_mm} mm under a bore of {mm} mm leaves {room_mm} mm, and a depth of {depth_mm} mm was read: measure the groove again"
            )
        }
        _ => {
            question.not_understood.push(format!("bore of {mm} mm"));
            return;
        }
    };
    question.notes.push(note);
}

fn on_rod(question: &mut Question, mm: f64) {
    let groove = &mut question.groove;
    let outside = |floor_mm: f64| {
        format!(
            "in the gland of a rod the ring lies on the rod of {mm} mm, and the groove's floor of {floor_mm} mm is outside of it"
        )
    };
    let note = match (groove.floor_mm, groove.depth_mm) {
        (None, depth_mm) => {
            groove.floor_mm = Some(mm);
            let Some(depth_mm) = depth_mm else { return };
            outside(rounded(mm + 2.0 * depth_mm))
        }
        // The floor is that on which the ring lies, the rod itself.
        (Some(floor_mm), _) if (floor_mm - mm).abs() < 2.0 * LEAST_ROOM_MM => return,
        (Some(floor_mm), depth_mm) => {
            let room_mm = rounded((floor_mm - mm) / 2.0);
            let read_mm = depth_mm.unwrap_or(room_mm);
            if room_mm > 0.0 && (room_mm - read_mm).abs() <= GAP_MM {
                groove.floor_mm = Some(mm);
                groove.depth_mm = Some(read_mm);
                outside(floor_mm)
            } else {
                question.not_understood.push(format!("rod of {mm} mm"));
                format!(
                    "a floor of {floor_mm} mm over a rod of {mm} mm leaves {room_mm} mm, and a depth of {read_mm} mm was read: measure the groove again"
                )
            }
        }
    };
    question.notes.push(note);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::limit::Duty;
    use crate::lookup::answer;

    fn read(text: &str) -> Question {
        Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    /// A bore around a ring is none of its dimensions (ISO 3601-1 names inside and section).
    #[test]
    fn a_bore_without_a_groove_is_told_and_takes_no_ring_away() {
        for text in ["O-ring 40x3 in bore 44.8", "O-ring 40x3 in a bore of 44.8"] {
            let question = read(text);
            assert_eq!(question.not_understood, ["bore of 44.8 mm"], "{text}");
            let answers = answer(&question, None).answers;
            assert_eq!(answers[0].designation, "40x3", "{text}");
            assert!(answers[0].probability > 0.8, "{text}: {answers:?}");
        }
    }

    /// Arithmetic: half of bore less floor; under a bore of 50 mm a floor at 44 mm is 3 mm deep.
    #[test]
    fn floor_and_bore_tell_the_depth() {
        let moving = Some(Duty::Reciprocating);
        for (text, floor, depth, duty) in [
            (
                "o-ring piston bore 50 groove floor 44 width 4.8",
                44.0,
                3.0,
                moving,
            ),
            (
                "O-Ring Kolben Bohrung 50 Nutgrund 44 Nutbreite 4,8",
                44.0,
                3.0,
                moving,
            ),
            (
                "o-ring cylinder bore 50 mm groove floor 44 width 4.8",
                44.0,
                3.0,
                None,
            ),
            ("o-ring groove floor 44 bore 50 width 4.8", 44.0, 3.0, None),
            (
                "o-ring groove floor 44 in bore 50 width 4.8",
                44.0,
                3.0,
                None,
            ),
            (
                "o-ring groove floor 44 in the bore 50 width 4.8",
                44.0,
                3.0,
                None,
            ),
            (
                "o-ring piston groove 44 in bore 50 width 4.8",
                44.0,
                3.0,
                moving,
            ),
            // No ring is 6 mm larger than what it lies on.
            ("o-ring bore 50 groove floor 44 width 4.8", 44.0, 3.0, None),
            ("o-ring rod 25 bore 31 groove width 4.8", 25.0, 3.0, moving),
            ("o-ring rod 25 groove floor 31 width 4.8", 25.0, 3.0, moving),
        ] {
            let question = read(text);
            let groove = question.groove;
            assert_eq!(
                (
                    groove.floor_mm,
                    groove.depth_mm,
                    groove.width_mm,
                    groove.duty
                ),
                (Some(floor), Some(depth), Some(4.8), duty),
                "{text}"
            );
            assert!(question.is_of_groove_only(), "{text}: {question:?}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
    }

    /// Arithmetic: 43.7 x 3.55 mm (ISO 3601-1) is 15 % thicker than the 3 mm between 44 and 50 mm, and 0.7 % smaller than 44.
    #[test]
    fn the_rings_that_lie_between_floor_and_bore_are_found() {
        let answers = answer(&read("o-ring groove floor 44 bore 50 width 4.8"), None);
        let mut names = answers.answers.iter().map(|of| of.designation.as_str());
        assert!(
            names.any(|name| name == "43.7x3.55"),
            "{:?}",
            answers.answers
        );
    }

    #[test]
    fn the_bore_beside_a_size_is_none_of_the_ring() {
        let question = read("o-ring 43.8 x 3.53 piston bore 50 groove floor 44 width 4.8");
        let has_size = question.readings.len() == 2 || question.designation.is_some();
        assert!(has_size, "{question:?}");
        assert_eq!(question.groove.depth_mm, Some(3.0));
        // Without any of it the bore is the ring's own inside.
        let own = read("o-ring bore 44 section 3.53 groove depth 2.9 width 4.8");
        assert_eq!(own.readings.len(), 2, "{own:?}");
        assert_eq!(own.groove.floor_mm, None);
    }

    /// SAE AS568: no ring is thicker than 6.99 mm, so that 45 mm are no depth.
    #[test]
    fn a_diameter_of_a_gland_is_no_depth() {
        let question = read("O-ring 40x3 in gland 45");
        assert_eq!(question.not_understood, ["gland of 45 mm"]);
        assert!(!question.groove.is_measured(), "{question:?}");
        let floor = read("O-ring 45x3 groove 45.2 4").groove;
        assert_eq!((floor.floor_mm, floor.depth_mm), (Some(45.2), Some(4.0)));
    }

    /// Arithmetic: (32 - 25.5) / 2 = 3.25 mm, more than the 3 mm of the section.
    #[test]
    fn a_bore_that_contradicts_floor_and_depth_is_told() {
        for (text, word, says) in [
            (
                "O-ring 25x3 groove floor 25.5 depth 2.4 width 3.8 bore 32",
                "bore of 32 mm",
                "a floor of 25.5 mm under a bore of 32 mm leaves 3.25 mm, and a depth of 2.4 mm was read",
            ),
            (
                "O-ring 25x3 rod 25 groove floor 32 depth 2.4 width 3.8",
                "rod of 25 mm",
                "a floor of 32 mm over a rod of 25 mm leaves 3.5 mm, and a depth of 2.4 mm was read",
            ),
        ] {
            let question = read(text);
            assert_eq!(question.not_understood, [word], "{text}");
            let told = question.notes.join("; ");
            assert!(told.contains(says), "{text}: {told}");
        }
        let agrees = read("O-ring 25x3 groove floor 25.5 depth 2.4 width 3.8 bore 30.4");
        let told = agrees.notes.join("; ");
        assert!(
            agrees.not_understood.is_empty() && !told.contains("leaves"),
            "{agrees:?}"
        );
    }
}
