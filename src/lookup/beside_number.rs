//! A number and figures beside it: they agree, they are of its seat, or both are shown with the conflict.

use super::found::{
    AllFound, Found, Matched, READ_AS_INCHES, of_designation, of_readings, same_lengths,
};
use super::question::Question;
use super::reading::{Reading, Role};
use crate::catalogue::card_index::CardIndex;
use crate::part::{Family, SizeKey};
use crate::standard::StandardPart;
use crate::units::Length;

/// Probability below which figures contradict a designation.
const CONFLICT: f64 = 0.01;
/// Figures of a whole part, of most kinds.
const WHOLE_PART: usize = 3;
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
        reading.role == Some(Role::Room)
            || question.traits.has_tapered_bore() && is_under_sleeve(reading, &size)
    };
    let width = Role::Room
        .dimension(size.family())
        .and_then(|width| size.get(width));
    let (of_seat, others): (Vec<Reading>, Vec<Reading>) = (question.readings.iter())
        .filter(|reading| !is_pair(question) || !is_width_of_pair(reading, width))
        .cloned()
        .partition(is_seat);
    let is_all = others.len() == question.readings.len();
    let is_in_inches = |seat: &Reading| seat.as_read_of(&size).length != seat.length;
    let are_in_inches = of_seat.iter().any(is_in_inches);
    let (rooms, sleeved): (Vec<Reading>, Vec<Reading>) = of_seat
        .iter()
        .map(|seat| seat.as_read_of(&size))
        .partition(|reading| reading.role == Some(Role::Room));
    let mut all = match (is_all, others.is_empty()) {
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
    let told = READ_AS_INCHES.to_owned();
    if are_in_inches && !all.warnings.contains(&told) {
        all.warnings.push(told);
    }
    for room in &rooms {
        // The room there is is no figure of the part.
        for found in all.found.iter_mut().filter(|found| found.size == size) {
            let second_mm = width
                .filter(|_| is_pair(question))
                .map_or(0.0, Length::to_mm);
            found.spare_mm = width.map(|width| room.length.length.difference_mm(width) - second_mm);
        }
    }
    for shaft in &sleeved {
        all.warnings.push(format!(
            "a tapered bore of {} on a {} shaft sits on an adapter sleeve: look at the sleeve and its nut too, or the shaft is tapered itself",
            bore_of(&size).map_or_else(String::new, |bore| bore.to_string()),
            shaft.length.length
        ));
    }
    if !question.traits.has_tapered_bore()
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

/// True for two bearings side by side.
fn is_pair(question: &Question) -> bool {
    let arrangement = question.traits.arrangement.as_deref();
    arrangement.is_some_and(|arrangement| matches!(arrangement, "DB" | "DF" | "DT"))
}

/// True for the width of both together.
fn is_width_of_pair(reading: &Reading, width: Option<Length>) -> bool {
    let both_mm = width.map_or(0.0, |width| 2.0 * width.to_mm());
    matches!(reading.role, None | Some(Role::Width))
        && (reading.length.length.to_mm() - both_mm).abs() <= SAME_DIMENSION_MM
}

fn bore_of(size: &SizeKey) -> Option<Length> {
    Role::Inner
        .dimension(size.family())
        .and_then(|bore| size.get(bore))
}

/// True for a shaft as an adapter sleeve has it inside a bearing of this bore.
fn is_under_sleeve(reading: &Reading, size: &SizeKey) -> bool {
    let has_sleeves = size.family().facts().bench.told.has_sleeves;
    let Some(bore) = bore_of(size).filter(|_| has_sleeves && reading.role == Some(Role::Shaft))
    else {
        return false;
    };
    let below_mm = bore.difference_mm(reading.as_read_of(size).length.length);
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
    let is_of_worn_seat = is_ring_seat(readings, size);
    if (readings.len() < size.dimensions().count() || is_of_worn_seat)
        && !readings.iter().any(is_meant_to_differ)
        && strangers(readings, size).is_empty()
    {
        let is_told = !figures.remarks.is_empty();
        named.warnings.extend(figures.remarks);
        if !is_told {
            let off = readings.iter().filter_map(|reading| far_off(reading, size));
            named.warnings.extend(off);
        }
        if is_of_worn_seat {
            designated.matched = designated.matched.max(Matched::WithinMeasuring);
            let off_mm = readings.iter().filter_map(|reading| off_mm(reading, size));
            designated.off_mm = off_mm.fold(0.0, f64::max);
        }
        return named;
    }
    let mut figures = of_conflict(question, size, figures, index);
    figures
        .found
        .retain(|found| found.size.family() != size.family() || !same_lengths(&found.size, size));
    named.roles.clone_from(&figures.roles);
    let fits = fits_words(&figures.found, designated.rows.first().copied());
    named.warnings.insert(
        0,
        format!(
            "number and size contradict each other: the number stands for {}{}; the figures fit {fits}; read the number and measure again",
            size,
            strange_words(&strangers(readings, size), size.family())
        ),
    );
    // Neither is believed more than the other; what the figures leave over is a part of no table.
    let each = 0.5 * (1.0 - OUTSIDE_IN_CONFLICT);
    let of_figures: f64 = figures.found.iter().map(|found| found.probability).sum();
    designated.probability = each;
    named.none = OUTSIDE_IN_CONFLICT + each * (1.0 - of_figures).max(0.0);
    for mut found in figures.found {
        found.probability *= each;
        named.found.push(found);
    }
    named
}

/// What the figures fit, in words: by the row with as many rows of rolling elements and the ribs of the number's, where there is
/// one.
fn fits_words(found: &[Found], number: Option<&StandardPart>) -> String {
    let likely: f64 = found.iter().map(|found| found.probability).sum();
    let Some(best) = found.first().filter(|_| likely >= NAMES) else {
        return "no standard size".to_owned();
    };
    if best.probability < NAMES {
        return "several standard sizes".to_owned();
    }
    let form = |row: &StandardPart| (row.traits.rows, row.traits.rib_form);
    let is_alike = |row: &&&StandardPart| number.is_none_or(|number| form(number) == form(row));
    let row = best.rows.iter().find(is_alike).or(best.rows.first());
    let name = row.map_or_else(String::new, |row| format!(" ({})", row.designation));
    format!("{}{name}", best.size)
}

/// True where nothing but the seat of a retaining ring was measured, which wears and is no dimension of the ring.
fn is_ring_seat(readings: &[Reading], size: &SizeKey) -> bool {
    let is_seat = |reading: &Reading| matches!(reading.role, Some(Role::Shaft | Role::Housing));
    size.family().facts().bench.measured.lies_in_groove() && readings.iter().all(is_seat)
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

/// How far a figure lies off the dimension it is named for, mm.
fn off_mm(reading: &Reading, size: &SizeKey) -> Option<f64> {
    let role = reading.role.filter(|role| !role.is_free())?;
    let dimension = role.dimension(size.family())?;
    let nominal = size.get(dimension)?;
    Some(reading.length.length.difference_mm(nominal).abs())
}

/// A worn figure further off its dimension than any that is weighed, in words.
fn far_off(reading: &Reading, size: &SizeKey) -> Option<String> {
    let role = reading.role?;
    let nominal = role
        .dimension(size.family())
        .and_then(|dimension| size.get(dimension))?;
    let off_mm = off_mm(reading, size)?;
    (off_mm > SAME_DIMENSION_MM && off_mm <= reach_mm(reading)).then(|| {
        format!(
            "{} {} is {off_mm:.2} mm off the {nominal} that the number stands for: heavy wear, or another part",
            role.words_of(size.family()),
            reading.length.length
        )
    })
}

/// What the figures are of that contradict a number: parts of its own type, which are known, then of its kind, before any others;
/// fewer figures than most parts have dimensions speak of no other kind.
fn of_conflict(
    question: &Question,
    size: &SizeKey,
    own_type: AllFound,
    index: Option<&CardIndex>,
) -> AllFound {
    let is_named = |all: &AllFound| {
        all.found
            .first()
            .is_some_and(|best| best.probability >= NAMES)
    };
    if is_named(&own_type) {
        return own_type;
    }
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
    if is_named(&own) {
        own
    } else if question.readings.len() < WHOLE_PART {
        own_type
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
fn strange_words(strangers: &[&Reading], family: Family) -> String {
    let figures: Vec<String> = strangers
        .iter()
        .map(|reading| {
            // `thread 25 mm` of a nut, `diameter 8 mm` of a pin.
            let words_of = |role: Role| match family.facts().bench.words.is_no_ring {
                true => role.words_of(family),
                false => role.words(),
            };
            let role = reading.role.map_or("", words_of);
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
mod tests;
