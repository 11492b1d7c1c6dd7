//! A tapered roller bearing measured over its cone or its cup alone: neither is as wide as the whole bearing.

use super::found::{AllFound, Found, Matched, of_readings};
use super::question::Question;
use super::reading::{Reading, Role};
use crate::catalogue::card_index::CardIndex;
use crate::part::{Dimension, Family};
use crate::standard::{self, StandardPart};
use crate::units::Length;

/// A size less likely than this leaves room for another reading of its width (common practice, no source).
const UNLIKELY: f64 = 0.5;
/// How often figures that agree with bore, outside and one ring of a bearing are of that bearing (common practice, no source).
const SHARE: f64 = 0.85;
/// A ring that was measured may be narrower than its nominal width by this, mm (ISO 492, normal class, up to 120 mm of bore:
/// 0.2 mm at most, from memory), and a calliper reads this much more.
const NARROWER_MM: f64 = 0.2;
const WIDER_MM: f64 = 0.05;

/// What the figures give where their width is that of a ring, if none of the sizes that were found is likely.
///
/// Only questions for tapered roller bearings come here with work to do.
pub(super) fn instead(question: &Question, index: Option<&CardIndex>, all: AllFound) -> AllFound {
    let is_open =
        question.readings.len() >= 3 && all.found.iter().all(|found| found.probability < UNLIKELY);
    let of_two_rings =
        |family: &Family| family.key_dimensions().contains(&Dimension::AssembledWidth);
    let Some(family) = question.family.filter(of_two_rings).filter(|_| is_open) else {
        return all;
    };
    for matched in [Matched::OverCone, Matched::OverCup] {
        if let Some(over) = measured_over((question, family), index, matched) {
            return over;
        }
    }
    all
}

/// The sizes whose ring the width may be, with the width of the whole bearing put in its place.
fn measured_over(
    (question, family): (&Question, Family),
    index: Option<&CardIndex>,
    matched: Matched,
) -> Option<AllFound> {
    for (at, reading) in question.readings.iter().enumerate() {
        if !matches!(reading.role, None | Some(Role::Width)) {
            continue;
        }
        let fits = |row: &&StandardPart| {
            ring_width(row, matched).is_some_and(|width| is_of(reading, width))
                && has_diameters(row, question, at)
        };
        let rows = standard::of_family(family).iter();
        let mut widths: Vec<Length> = rows
            .filter(fits)
            .filter_map(|row| row.size.get(Dimension::AssembledWidth))
            .collect();
        widths.sort_unstable();
        widths.dedup();
        // Two bearings of different widths: which of them it is only the whole width tells.
        let share = SHARE / widths.len().max(1) as f64;
        let mut over = AllFound {
            none: 1.0,
            ..AllFound::default()
        };
        for width in widths {
            let mut whole = question.clone();
            whole.readings[at].length.length = width;
            whole.readings[at].as_inches = None;
            let mut of_width = of_readings(&whole, question.family, None, index);
            let is_it = |found: &Found| {
                found.probability >= UNLIKELY
                    && found.size.get(Dimension::AssembledWidth) == Some(width)
            };
            let Some(mut found) = of_width.found.drain(..).find(is_it) else {
                continue;
            };
            found
                .rows
                .retain(|row| ring_width(row, matched).is_some_and(|width| is_of(reading, width)));
            if found.rows.is_empty() {
                continue;
            }
            found.probability *= share;
            found.matched = matched;
            over.none -= found.probability;
            over.found.push(found);
            over.warnings.append(&mut of_width.warnings);
            over.roles = of_width.roles;
        }
        if !over.found.is_empty() {
            return Some(over);
        }
    }
    None
}

/// The width of the ring that a match is over.
pub(super) fn ring_width(row: &StandardPart, matched: Matched) -> Option<Length> {
    let widths = || row.ring_widths();
    match matched {
        Matched::OverCone => widths().map(|(cone, _)| cone),
        Matched::OverCup => widths().map(|(_, cup)| cup),
        _ => None,
    }
}

/// True where a width was printed or measured as this one.
fn is_of(reading: &Reading, width: Length) -> bool {
    let over_mm = reading.length.length.difference_mm(width);
    reading.length.may_be(width) || (-NARROWER_MM..=WIDER_MM).contains(&over_mm)
}

/// True where bore and outside diameter of a row are among the other figures, within what a first look allows, mm.
fn has_diameters(row: &StandardPart, question: &Question, width_at: usize) -> bool {
    const NEAR_MM: f64 = 0.5;
    let others = || {
        let readings = question.readings.iter().enumerate();
        readings.filter(|(at, _)| *at != width_at)
    };
    [Dimension::Bore, Dimension::OutsideDiameter]
        .into_iter()
        .all(|dimension| {
            row.size.get(dimension).is_some_and(|length| {
                others().any(|(_, one)| one.length.length.difference_mm(length).abs() <= NEAR_MM)
            })
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interchange::Verdict;
    use crate::lookup::answer;

    /// ISO 355: 32206 is 30 x 62 x 21.25 mm with B 20 and C 17 (two open sources, named in the table); 30208 is
    /// 40 x 80 x 19.75 mm with B 18 and C 16, 30206 is 30 x 62 x 17.25 mm with B 16, from memory.
    #[test]
    fn a_width_over_one_ring_names_the_bearing_after_a_check() {
        for (text, name, matched, ring) in [
            (
                "40 x 80 x 18 tapered roller",
                "30208",
                Matched::OverCone,
                "18 mm",
            ),
            (
                "30 x 62 x 20 tapered roller bearing",
                "32206",
                Matched::OverCone,
                "20 mm",
            ),
            (
                "30 62 15.97 tapered roller",
                "30206",
                Matched::OverCone,
                "16 mm",
            ),
            (
                "tapered roller bore 40 od 80 width 16",
                "30208",
                Matched::OverCup,
                "16 mm",
            ),
        ] {
            let answers = answer(&Question::read(text).unwrap(), None);
            let mut all = answers.answers.iter();
            let first = all.find(|one| one.designation == name);
            let first = first.unwrap_or_else(|| panic!("{text}: {answers:?}"));
            assert_eq!(first.matched, matched, "{text}");
            assert_eq!(first.judgement.verdict, Verdict::AfterChecks, "{text}");
            assert!((0.6..0.9).contains(&first.probability), "{text}: {first:?}");
            let checks = &first.judgement.checks;
            let is_told =
                |check: &String| check.contains(ring) && check.contains("measure the whole");
            assert!(checks.iter().any(is_told), "{text}: {checks:?}");
            assert!(answers.none_of_these.probability > 0.1, "{text}");
        }
    }

    /// ISO 355: T of 30208 is 19.75 mm and of 33206 25 mm, as wide as its cone; nothing is 40 x 80 x 12 in any of its rings.
    #[test]
    fn a_whole_width_and_one_of_no_ring_stay_what_they_are() {
        for (text, matched) in [
            ("40 x 80 x 19.75 tapered roller", Some(Matched::Exact)),
            ("30 x 62 x 25 tapered roller", Some(Matched::Exact)),
            ("40 x 80 x 12 tapered roller", None),
        ] {
            let answers = answer(&Question::read(text).unwrap(), None);
            let first = answers.answers.first().map(|first| first.matched);
            assert_eq!(
                first.filter(|of| *of != Matched::Neighbour),
                matched,
                "{text}"
            );
        }
    }

    /// ISO 355 and ABMA 19.2: a cup is narrower than its cone and than the whole bearing.
    #[test]
    fn every_row_tells_the_widths_of_its_rings() {
        let mut told = 0;
        for row in standard::of_family(Family::TaperedRoller) {
            // The table of inch sizes has none.
            let Some((cone, cup)) = row.ring_widths() else {
                assert!(row.standard.contains("ABMA"), "{row:?}");
                continue;
            };
            told += 1;
            let whole = row.size.get(Dimension::AssembledWidth).unwrap();
            assert!(
                cup < cone && cup < whole,
                "{}: {cone} {cup} {whole}",
                row.designation
            );
        }
        assert!(told >= 90, "{told}");
    }
}
