//! A number and figures beside it: they agree, they are of its seat, or both are shown with the conflict.

use super::found::{AllFound, of_designation, of_readings, same_lengths};
use super::question::Question;
use super::reading::{Reading, Role};
use crate::catalogue::card_index::CardIndex;
use crate::part::{BoreForm, Family, SizeKey};
use crate::units::Length;

/// Probability below which figures contradict a designation.
const CONFLICT: f64 = 0.01;
/// Probability from which figures alone name another size of the number's own kind.
const NAMES: f64 = 0.3;
/// How far the shaft under an adapter sleeve is below the bore, mm, and as a share of the bore at most.
///
/// ISO 2982-1: H 204 carries a bore of 20 on 17 mm, H 205 25 on 20, H 208 40 on 35, H 220 100 on 90, H 3040 200 on 180; from memory.
const SLEEVE_MM: (f64, f64) = (2.5, 5.5);
const SLEEVE_SHARE: f64 = 0.16;

/// The sizes that a number and the figures beside it may mean.
pub(super) fn find(question: &Question, index: Option<&CardIndex>) -> AllFound {
    let named = of_designation(question);
    let Some(size) = named.found.first().map(|found| found.size) else {
        // The number tells the type, if not the size.
        return AllFound {
            warnings: named.warnings,
            ..of_readings(question, question.family, None, index)
        };
    };
    let is_seat = |reading: &Reading| {
        reading.role == Some(Role::Room) || is_tapered(question) && is_under_sleeve(reading, &size)
    };
    let (of_seat, others): (Vec<Reading>, Vec<Reading>) =
        question.readings.iter().cloned().partition(is_seat);
    let (rooms, sleeved): (Vec<Reading>, Vec<Reading>) = of_seat
        .into_iter()
        .partition(|reading| reading.role == Some(Role::Room));
    let mut all = match (rooms.is_empty() && sleeved.is_empty(), others.is_empty()) {
        (true, _) => beside(question, named, &size, index),
        (false, true) => named,
        (false, false) => {
            let without = Question {
                readings: others,
                ..question.clone()
            };
            beside(&without, named, &size, index)
        }
    };
    for room in &rooms {
        // The room there is is no figure of the part.
        let width = Role::Room
            .dimension(size.family())
            .and_then(|width| size.get(width));
        for found in all.found.iter_mut().filter(|found| found.size == size) {
            found.spare_mm = width.map(|width| room.length.length.difference_mm(width));
        }
    }
    for shaft in &sleeved {
        all.warnings.push(format!(
            "a tapered bore of {} on a {} shaft sits on an adapter sleeve: look at the sleeve and its nut too, or the shaft is tapered itself",
            bore_of(&size).map_or_else(String::new, |bore| bore.to_string()),
            shaft.length.length
        ));
    }
    if !is_tapered(question)
        && question
            .readings
            .iter()
            .any(|reading| is_under_sleeve(reading, &size))
    {
        all.warnings.insert(
            0,
            "the shaft is so far below the bore that an adapter sleeve may lie between: is the bore tapered (K)?".to_owned(),
        );
    }
    all
}

/// True where the number says that the bore is tapered.
fn is_tapered(question: &Question) -> bool {
    let form = question.traits.bore_form;
    form.is_some_and(|form| form != BoreForm::Cylindrical)
}

fn bore_of(size: &SizeKey) -> Option<Length> {
    Role::Inner
        .dimension(size.family())
        .and_then(|bore| size.get(bore))
}

/// True for a shaft as an adapter sleeve has it inside a bearing of this bore.
fn is_under_sleeve(reading: &Reading, size: &SizeKey) -> bool {
    let has_sleeves = matches!(
        size.family(),
        Family::SelfAligningBall | Family::SphericalRoller
    );
    let Some(bore) = bore_of(size).filter(|_| has_sleeves && reading.role == Some(Role::Shaft))
    else {
        return false;
    };
    let below_mm = bore.difference_mm(reading.length.length);
    let most_mm = SLEEVE_MM.1.max(SLEEVE_SHARE * bore.to_mm());
    (SLEEVE_MM.0..=most_mm).contains(&below_mm)
}

/// A number and figures of the part: they agree, or both are shown with the conflict.
fn beside(
    question: &Question,
    mut named: AllFound,
    size: &SizeKey,
    index: Option<&CardIndex>,
) -> AllFound {
    let Some(designated) = named.found.first_mut() else {
        return named;
    };
    // Fewer figures than dimensions leave many sizes: of its own family, the number must be among them.
    let figures = of_readings(question, Some(size.family()), Some(size), index);
    named.roles.clone_from(&figures.roles);
    let agreeing = figures
        .found
        .iter()
        .find(|found| same_lengths(&found.size, size));
    if let Some(agreeing) = agreeing.filter(|found| found.probability >= CONFLICT) {
        designated.matched = agreeing.matched.max(designated.matched);
        designated.off_mm = agreeing.off_mm;
        named.warnings.extend(figures.warnings);
        return named;
    }
    // Few figures are of many sizes of a large catalogue: none of those is likely, and the number's is as likely as any.
    let readings = &question.readings;
    if readings.len() < size.dimensions().count()
        && !readings.iter().any(is_meant_to_differ)
        && strangers(readings, size).is_empty()
    {
        let is_told = !figures.remarks.is_empty();
        named.warnings.extend(figures.remarks);
        if !is_told {
            let off = readings.iter().filter_map(|reading| far_off(reading, size));
            named.warnings.extend(off);
        }
        return named;
    }
    let figures = of_conflict(question, size, index);
    named.roles.clone_from(&figures.roles);
    let best = figures.found.first();
    let fits = best.map_or_else(
        || "no standard size".to_owned(),
        |found| {
            let name = found
                .rows
                .first()
                .map_or_else(String::new, |row| format!(" ({})", row.designation));
            format!("{}{name}", found.size)
        },
    );
    named.warnings.insert(
        0,
        format!(
            "number and size contradict each other: the number stands for {}{}; the figures fit {fits}; read the number and measure again",
            size,
            strange_words(&strangers(readings, size))
        ),
    );
    // Neither is believed more than the other.
    designated.probability = 0.5 * (1.0 - OUTSIDE_IN_CONFLICT);
    named.none = OUTSIDE_IN_CONFLICT;
    for mut found in figures.found {
        found.probability *= 0.5 * (1.0 - OUTSIDE_IN_CONFLICT);
        named.found.push(found);
    }
    named
}

/// Probability of a part in no table where number and figures contradict each other (common practice, no source).
const OUTSIDE_IN_CONFLICT: f64 = 0.2;

/// A figure this near a dimension may be of it, mm.
const SAME_DIMENSION_MM: f64 = 0.35;

/// The same of a worn place that is named, mm: an outside that crept for years (common practice, no source).
const SAME_WORN_MM: f64 = 1.0;

fn reach_mm(reading: &Reading) -> f64 {
    if reading.is_worn && reading.role.is_some() {
        SAME_WORN_MM
    } else {
        SAME_DIMENSION_MM
    }
}

/// A worn figure further off its dimension than any that is weighed, in words.
fn far_off(reading: &Reading, size: &SizeKey) -> Option<String> {
    let role = reading.role.filter(|role| !role.is_free())?;
    let nominal = role
        .dimension(size.family())
        .and_then(|dimension| size.get(dimension))?;
    let off_mm = reading.length.length.difference_mm(nominal).abs();
    (off_mm > SAME_DIMENSION_MM && off_mm <= reach_mm(reading)).then(|| {
        format!(
            "{} {} is {off_mm:.2} mm off the {nominal} that the number stands for: heavy wear, or another part",
            role.words_of(size.family()),
            reading.length.length
        )
    })
}

/// What the figures are of that contradict a number: parts of its own kind before any others.
fn of_conflict(question: &Question, size: &SizeKey, index: Option<&CardIndex>) -> AllFound {
    let class = size.family().class();
    let of_class = Question {
        family: None,
        families: Family::ALL
            .into_iter()
            .filter(|family| family.class() == class)
            .collect(),
        ..question.clone()
    };
    let own = of_readings(&of_class, None, None, index);
    let is_named = own
        .found
        .first()
        .is_some_and(|best| best.probability >= NAMES);
    if is_named {
        own
    } else {
        let any = Question {
            family: None,
            families: Vec::new(),
            ..of_class
        };
        of_readings(&any, None, None, index)
    }
}

/// True for a figure that is meant to differ from its dimension: a free lip, a free ring.
fn is_meant_to_differ(reading: &Reading) -> bool {
    reading.role.is_some_and(Role::is_free)
}

/// Figures that are not of a size in either unit: of the dimension they are named for, else of any.
fn strangers<'a>(readings: &'a [Reading], size: &SizeKey) -> Vec<&'a Reading> {
    let is_of = |reading: &Reading, length: Length| {
        let place = reading.role.and_then(|role| role.place(size.family()));
        size.dimensions().enumerate().any(|(at, (_, of))| {
            place.is_none_or(|place| place == at)
                && length.difference_mm(of).abs() <= reach_mm(reading)
        })
    };
    let is_strange = |reading: &&Reading| {
        !is_meant_to_differ(reading)
            && !is_of(reading, reading.length.length)
            && !reading
                .as_inches
                .is_some_and(|read| is_of(reading, read.length))
    };
    readings.iter().filter(is_strange).collect()
}

/// Names figures that are not of a size: `, and 24 mm is none of its dimensions`.
fn strange_words(strangers: &[&Reading]) -> String {
    let figures: Vec<String> = strangers
        .iter()
        .map(|reading| {
            let role = reading.role.map_or("", Role::words);
            format!("{role} {}", reading.length.length)
                .trim()
                .to_owned()
        })
        .collect();
    match figures.as_slice() {
        [] => String::new(),
        [one] => format!(", and {one} is none of its dimensions"),
        more => format!(", and {} are none of its dimensions", more.join(" and ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn conflict(text: &str) -> Option<String> {
        let question = Question::read(text).unwrap();
        let all = find(&question, None).warnings;
        all.into_iter().find(|line| line.contains("contradict"))
    }

    #[test]
    fn a_conflict_says_which_figure_is_not_of_the_number() {
        // ISO 15: 6308 is 40 x 90 x 23 mm, 6208 is 40 x 80 x 18, 6206 is 30 x 62 x 16.
        for (text, says) in [
            (
                "6308 40 x 90 x 24",
                "stands for 40 x 90 x 23 mm, and 24 mm is none of its dimensions; the figures fit no standard size;",
            ),
            (
                "6308 40 x 80 x 18",
                "stands for 40 x 90 x 23 mm, and 80 mm and 18 mm are none of its dimensions; the figures fit 40 x 80 x 18 mm (6208);",
            ),
            (
                "6206 30 x 72 x 19",
                "and 72 mm and 19 mm are none of its dimensions; the figures fit 30 x 72 x 19 mm (6306);",
            ),
        ] {
            let line = conflict(text).unwrap_or_else(|| panic!("{text}: no conflict"));
            assert!(line.contains(says), "{text}: {line}");
        }
        for agreeing in [
            "6308 40 x 90 x 23",
            "6308 90 mm od",
            "6206 29.99 61.95 15.9 worn",
        ] {
            assert_eq!(conflict(agreeing), None, "{agreeing}");
        }
    }

    fn all_of(text: &str) -> AllFound {
        find(&Question::read(text).unwrap(), None)
    }

    #[test]
    fn the_room_beside_a_number_is_no_width_of_it() {
        // ISO 15: 6206 is 16 mm wide, 6205 15, 62205 18; spare by arithmetic.
        for (text, spare_mm) in [
            ("6206 room for 20", 4.0),
            ("6205 room for 18", 3.0),
            ("6205 room for 15", 0.0),
            ("6205 room for 14", -1.0),
            ("62205 room for 15", -3.0),
            ("6206 od 62 room for 20", 4.0),
        ] {
            let all = all_of(text);
            assert_eq!(all.found.len(), 1, "{text}: {:?}", all.found);
            let spare = all.found[0].spare_mm.unwrap();
            assert!((spare - spare_mm).abs() < 1e-9, "{text}: {spare}");
            assert_eq!(conflict(text), None, "{text}");
        }
    }

    #[test]
    fn a_tapered_bore_sits_on_a_sleeve() {
        // ISO 2982-1, from memory: sleeves for 100, 40 and 25 mm bores sit on 90, 35 and 20 mm shafts.
        for text in ["22220 K shaft 90", "1208 K shaft 35", "22205 K shaft 20"] {
            let all = all_of(text);
            assert_eq!(all.found.len(), 1, "{text}");
            assert!(all.found[0].probability > 0.99, "{text}");
            assert!(
                all.warnings
                    .iter()
                    .any(|line| line.contains("adapter sleeve")),
                "{text}"
            );
        }
        let asked = all_of("22220 on 90 mm shaft");
        assert!(
            asked.warnings[0].contains("tapered (K)?"),
            "{:?}",
            asked.warnings
        );
        // No sleeve is that thick, and ball bearings of this kind have none.
        for text in ["22220 K shaft 60", "6220 shaft 90"] {
            let all = all_of(text);
            assert!(
                !all.warnings
                    .iter()
                    .any(|line| line.contains("sleeve may lie")),
                "{text}"
            );
            assert!(
                all.warnings.iter().any(|line| line.contains("contradict")),
                "{text}"
            );
        }
    }

    #[test]
    fn wear_is_told_beside_a_number_too() {
        // ISO 492: bore of 30 mm 0/-10 um, outside of 62 mm 0/-13 um.
        for (text, says) in [
            ("6206 bore 30.3 worn calliper", "turned on its shaft"),
            ("6206 od 61.9 micrometer", "crept in its housing"),
            ("6206 od 61.5 worn", "crept in its housing"),
            ("6206 30.3 62 16 worn", "turned on its shaft"),
        ] {
            let all = all_of(text);
            assert_eq!(conflict(text), None, "{text}");
            assert!(
                all.warnings.iter().any(|line| line.contains(says)),
                "{text}: {:?}",
                all.warnings
            );
        }
        for sound in ["6206 bore 30", "6206 od 62 w 16"] {
            let all = all_of(sound);
            assert!(all.warnings.is_empty(), "{sound}: {:?}", all.warnings);
        }
    }

    #[test]
    fn a_worn_place_far_off_is_told_as_that() {
        // ISO 15: 6206 is 30 x 62 x 16 mm.
        let size = of_designation(&Question::read("6206").unwrap()).found[0].size;
        for (text, off) in [
            ("bore 30.8 od 62 w 16 worn", Some("0.80 mm off the 30 mm")),
            ("bore 30.2 od 62 w 16 worn", None),
            ("bore 31.4 od 62 w 16 worn", None),
            ("bore 30.8 od 62 w 16", None),
        ] {
            let question = Question::read(text).unwrap();
            let said = far_off(&question.readings[0], &size);
            assert_eq!(said.is_some(), off.is_some(), "{text}: {said:?}");
            assert!(
                said.unwrap_or_default().contains(off.unwrap_or_default()),
                "{text}"
            );
        }
    }

    #[test]
    fn what_contradicts_a_number_is_of_its_own_kind_first() {
        let line = conflict("6206 30 x 72 x 19").unwrap();
        assert!(line.contains("(6306)"), "{line}");
        // A lip seal of the tables, where no bearing fits.
        let line = conflict("6205 40 x 62 x 8").unwrap();
        assert!(line.contains("40 x 62 x 8 mm"), "{line}");
    }
}
