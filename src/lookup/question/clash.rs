//! Figures that contradict each other, where no number stands beside them: `30x62x16 bore 25`, `bore 25 od 52 width 15 shaft 30`.

use super::Question;
use crate::lookup::reading::{Reading, Role};
use crate::part::{Family, PartClass};
use crate::standard;

/// Two figures are of one thing where they differ by less, as a share: wear and a seat's fit are far below (common practice, no
/// source).
const SAME_SHARE: f64 = 0.02;
/// Two figures named alike are of one thing where they differ by less, mm: a part is found by both (common practice, no source).
const SAME_TWICE_MM: f64 = 0.35;
/// Other figures beside two that contradict each other by which a part is found all the same.
const LEAST_OTHERS: usize = 2;
/// Figures of a whole size.
const WHOLE: usize = 3;

/// Tells figures of a bearing that contradict each other. One beside a whole size is taken out, and so is a seat beside the
/// part that was measured; of two for one dimension neither is known to be right.
pub(super) fn tell(question: &mut Question) {
    let has_number = question.designation.is_some() || !question.partial.is_empty();
    // An adapter sleeve sits between a tapered bore and a smaller shaft.
    let is_tapered = question.traits.has_tapered_bore();
    let readings = &question.readings;
    if has_number || is_tapered || !may_be_bearing(question) || readings.len() < WHOLE {
        return;
    }
    let clash = beside_size(readings).or_else(|| seat_beside_part(readings));
    let twice = twice(readings).filter(|_| clash.is_none());
    // Most figures agree: the tables are looked at for those alone that do not.
    if clash.is_none() && twice.is_none() || fits_four_dimensions(readings) {
        return;
    }
    if let Some((at, others)) = clash {
        let said = named(&question.readings.remove(at));
        question.notes.push(format!(
            "figures contradict each other: `{said}` beside `{others}`; measure both again"
        ));
        question.not_understood.push(said);
    } else if let Some((one, other)) = twice {
        let said = [one, other].map(|at| named(&question.readings[at]));
        question.notes.push(format!(
            "figures contradict each other: `{}` beside `{}`; measure both again",
            said[0], said[1]
        ));
        // What else was read finds the part without them.
        if question.readings.len() >= LEAST_OTHERS + said.len() {
            question.readings.remove(other);
            question.readings.remove(one);
            question.not_understood.extend(said);
        }
    }
}

fn may_be_bearing(question: &Question) -> bool {
    let is_bearing = |family: &Family| family.class() == PartClass::Bearings;
    match question.family {
        Some(family) => is_bearing(&family),
        None => question.families.iter().all(is_bearing),
    }
}

fn is_same(one: &Reading, other: &Reading) -> bool {
    let (one, other) = (one.length.length.to_mm(), other.length.length.to_mm());
    (one - other).abs() <= SAME_SHARE * one.max(other)
}

/// What a figure was said to be: `bore 25 mm`.
fn named(reading: &Reading) -> String {
    let name = match reading.role {
        Some(Role::Inner) => "bore ",
        Some(Role::Outer) => "outside ",
        Some(Role::Shaft) => "shaft ",
        Some(Role::Housing) => "housing ",
        Some(Role::Width) => "width ",
        _ => "",
    };
    format!("{name}{}", reading.length.length)
}

const fn is_diameter(role: Option<Role>) -> bool {
    matches!(
        role,
        Some(Role::Inner | Role::Outer | Role::Shaft | Role::Housing)
    )
}

/// A named diameter or width that is none of three figures without a name.
fn beside_size(readings: &[Reading]) -> Option<(usize, String)> {
    let size: Vec<&Reading> = readings.iter().filter(|of| of.role.is_none()).collect();
    if size.len() != WHOLE {
        return None;
    }
    let is_none = |of: &Reading| {
        let is_named = is_diameter(of.role) || of.role == Some(Role::Width);
        is_named && !size.iter().any(|one| is_same(of, one))
    };
    let at = readings.iter().position(is_none)?;
    let size: Vec<String> = size
        .iter()
        .map(|of| format!("{:#}", of.length.length))
        .collect();
    Some((at, format!("{} mm", size.join(" x "))))
}

/// A seat that is not that of the part, whose own figures were read.
fn seat_beside_part(readings: &[Reading]) -> Option<(usize, String)> {
    let of = |role: Role| readings.iter().find(|of| of.role == Some(role));
    // Without an outside a bore may be that of a housing.
    let has_outside = of(Role::Outer).is_some();
    let pairs = [(Role::Shaft, Role::Inner), (Role::Housing, Role::Outer)];
    pairs.into_iter().find_map(|(seat, own)| {
        let at = readings.iter().position(|of| of.role == Some(seat))?;
        let own = of(own).filter(|own| has_outside && !is_same(own, &readings[at]))?;
        Some((at, named(own)))
    })
}

/// Where two figures for one dimension stand.
fn twice(readings: &[Reading]) -> Option<(usize, usize)> {
    let is_dimension = |of: &Reading| is_diameter(of.role) || of.role == Some(Role::Width);
    readings.iter().enumerate().find_map(|(at, one)| {
        let is_near = |other: &Reading| {
            let off_mm = one.length.length.difference_mm(other.length.length).abs();
            off_mm <= SAME_TWICE_MM && is_same(one, other)
        };
        let is_other = |other: &Reading| other.role == one.role && !is_near(other);
        let behind = readings[at + 1..].iter().position(is_other);
        let behind = behind.filter(|_| is_dimension(one))?;
        Some((at, at + 1 + behind))
    })
}

/// True where a part of four dimensions has all the figures: a thrust ball bearing has two bores and two outsides (ISO 104).
fn fits_four_dimensions(readings: &[Reading]) -> bool {
    let has = |of: &Reading, open: &mut Vec<f64>| {
        let mm = of.length.length.to_mm();
        let at = open
            .iter()
            .position(|own| (own - mm).abs() <= SAME_SHARE * own.max(mm));
        at.map(|at| open.swap_remove(at)).is_some()
    };
    let of_four = Family::ALL
        .into_iter()
        .filter(|family| family.key_dimensions().len() > WHOLE);
    of_four.flat_map(standard::of_family).any(|row| {
        let mut open: Vec<f64> = row.size.dimensions().map(|(_, own)| own.to_mm()).collect();
        readings.iter().all(|of| has(of, &mut open))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::answer;

    fn read(text: &str) -> Question {
        Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    /// ISO 15: 6205 is 25 x 52 x 15 mm, 6206 is 30 x 62 x 16 mm.
    #[test]
    fn a_figure_that_contradicts_a_whole_size_is_told() {
        for (text, word, beside, number) in [
            (
                "bearing bore 25 od 52 width 15 shaft 30",
                "shaft 30 mm",
                "bore 25 mm",
                "6205",
            ),
            (
                "bearing bore 25 od 52 width 15 housing 62",
                "housing 62 mm",
                "outside 52 mm",
                "6205",
            ),
            ("30x62x16 bore 25", "bore 25 mm", "30 x 62 x 16 mm", "6206"),
            ("30x62x16 od 60", "outside 60 mm", "30 x 62 x 16 mm", "6206"),
            (
                "30x62x16 width 20",
                "width 20 mm",
                "30 x 62 x 16 mm",
                "6206",
            ),
        ] {
            let question = read(text);
            assert_eq!(question.not_understood, [word], "{text}");
            let told = question.notes.join("; ");
            let says = format!("`{word}` beside `{beside}`");
            assert!(told.contains(&says), "{text}: {told}");
            let answers = answer(&question, None);
            let first = &answers.answers[0];
            assert_eq!(first.designation, number, "{text}");
            assert!(first.judgement.before_fitting().contains(word), "{text}");
        }
    }

    #[test]
    fn of_two_bores_neither_is_known() {
        let question = read("bore 25 bore 30 od 62");
        let told = question.notes.join("; ");
        assert!(told.contains("`bore 25 mm` beside `bore 30 mm`"), "{told}");
        assert_eq!(question.readings.len(), 3, "{question:?}");
    }

    /// ISO 15: 6205 is 25 x 52 x 15 mm, 6206 is 30 x 62 x 16 mm.
    #[test]
    fn two_figures_for_one_dimension_are_told_and_the_others_find_the_part() {
        for (text, words, number) in [
            (
                "bore 25 od 52 width 15 width 16",
                ["width 15 mm", "width 16 mm"],
                "6205",
            ),
            (
                "bearing bore 25 od 52 width 15 thickness 18",
                ["width 15 mm", "width 18 mm"],
                "6205",
            ),
            (
                "bore 25 bore 30 od 62 width 16",
                ["bore 25 mm", "bore 30 mm"],
                "6206",
            ),
            (
                "bore 25 od 52 od 53 width 15",
                ["outside 52 mm", "outside 53 mm"],
                "6205",
            ),
        ] {
            let question = read(text);
            assert_eq!(question.not_understood, words, "{text}");
            assert_eq!(question.readings.len(), 2, "{text}: {question:?}");
            let told = question.notes.join("; ");
            let says = format!("`{}` beside `{}`", words[0], words[1]);
            assert!(told.contains(&says), "{text}: {told}");
            let answers = answer(&question, None).answers;
            let found = answers.iter().any(|one| one.designation == number);
            assert!(found, "{text}: {answers:?}");
            let is_checked = |of: &crate::lookup::Answer| {
                of.judgement.verdict >= crate::interchange::Verdict::AfterChecks
            };
            assert!(answers.iter().all(is_checked), "{text}");
        }
    }

    #[test]
    fn figures_of_one_thing_contradict_nothing() {
        for text in [
            "30x62x16 bore 30",
            "30 62 16 worn outside 61.93",
            "bore 25 od 52 width 15 shaft 25.01",
            "shaft 25 k6 housing 52 H7 width 15",
            "bore 30 od 62 width 16",
            "shaft 35 bore 52 width 7",
            "oil seal shaft 35 bore 52 width 7",
            "50x90x23 tapered bore on shaft 45",
            // ISO 104: 51205 is 25 x 47 x 15 mm, and its housing washer has a bore of 27 mm.
            "25x47x15 bore 27",
            "shaft 25 bore 27 od 47 width 15",
            "30x62x16 width 16",
            // The same place, measured twice.
            "bore 25 od 52 od 51.98 width 15",
        ] {
            let told = read(text).notes.join("; ");
            assert!(!told.contains("contradict"), "{text}: {told}");
        }
    }
}
