//! The sizes a question may mean, each with its probability.

use super::beside_number;
use super::by_groove;
use super::likelihood::{Asked, Posterior, Scored, outside_mm, posterior, priors, remarks};
use super::pin_class::{keep_class, keep_measured_class};
use super::question::Question;
use super::reading::Role;
use super::ring_width;
use crate::catalogue::card_index::CardIndex;
use crate::part::{Closure, Family, SizeKey, ToleranceClass};
use crate::standard::{self, StandardPart};
use crate::units::Length;

/// How a size was matched, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Matched {
    /// The very size.
    Exact,
    /// Within half the last printed digit.
    Rounded,
    /// Within what a calliper and wear explain.
    WithinMeasuring,
    /// The groove was measured, not the ring: it lies well in there.
    ByGroove,
    /// The width is that of the cone of a tapered roller bearing, not of the whole bearing.
    OverCone,
    /// The width is that of its cup.
    OverCup,
    /// Another size: the one asked for is in no table, and this lies beside it.
    Neighbour,
}

/// A size that the question may mean.
#[derive(Debug, Clone)]
pub struct Found {
    /// The size, without a tolerance class.
    pub size: SizeKey,
    /// Rows of the standard tables that the question allows; empty for a size only the shop's list has.
    pub rows: Vec<&'static StandardPart>,
    /// Probability that it is this size.
    pub probability: f64,
    /// How it was matched.
    pub matched: Matched,
    /// How far a figure lies outside what a sound part or its seat can have at most, mm.
    pub off_mm: f64,
    /// Room left beside it, mm, where the question gives the room.
    pub spare_mm: Option<f64>,
}

impl Found {
    /// True where every figure lies within what a sound part or its seat can have.
    pub(super) fn is_within_band(&self) -> bool {
        self.off_mm < IN_BAND_MM
    }

    /// Room that would be left beside another width of it, mm.
    pub(super) fn spare_of(&self, size: &SizeKey) -> Option<f64> {
        let width = |size: &SizeKey| {
            let dimension = Role::Room.dimension(size.family())?;
            size.get(dimension)
        };
        let narrower_mm = width(&self.size)?.difference_mm(width(size)?);
        self.spare_mm.map(|spare| spare + narrower_mm)
    }
}

/// Everything found.
#[derive(Debug, Clone, Default)]
pub(super) struct AllFound {
    pub(super) found: Vec<Found>,
    /// Probability that it is a special or in no table.
    pub(super) none: f64,
    pub(super) warnings: Vec<String>,
    /// Those of the warnings that tell what the figures say of the part's state.
    pub(super) remarks: Vec<String>,
    /// What each figure was taken for, in the likeliest reading.
    pub(super) roles: Vec<Role>,
}

/// Closer to its band than this a figure lies within it, mm.
const IN_BAND_MM: f64 = 0.0005;
/// Sizes less likely than this are not named.
const LEAST_NAMED: f64 = 0.001;
/// Most sizes named.
const MOST_NAMED: usize = 24;
/// Share of designations that are misread or miswritten (common practice, no source).
const SLIP_SHARE: f64 = 0.001;
/// A thinkable number of no table against one of a table (common practice, no source: most are not made).
const UNLISTED_SHARE: f64 = 0.05;

impl Matched {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Exact => "exactly this size",
            Self::Rounded => "this size, written rounded",
            Self::WithinMeasuring => "nearest size, within what the instrument and wear explain",
            Self::ByGroove => "lies well in the groove as measured",
            Self::OverCone => "the width is that of its inner ring (B), not of the whole bearing",
            Self::OverCup => "the width is that of its outer ring (C), not of the whole bearing",
            Self::Neighbour => "beside the size asked for, which is in no table here",
        }
    }
}

/// A probability for people: never a bare 0 or 100 %.
pub fn percent(probability: f64) -> String {
    match probability {
        p if p > 0.999 => "over 99.9 %".to_owned(),
        p if p < 0.001 => "under 0.1 %".to_owned(),
        p if !(0.01..0.99).contains(&p) => format!("{:.1} %", p * 100.0),
        p => format!("{:.0} %", p * 100.0),
    }
}

/// Finds the sizes a question may mean, likeliest first.
pub(super) fn find(question: &Question, index: Option<&CardIndex>) -> AllFound {
    if !question.partial.is_empty() {
        return if question.readings.is_empty() {
            of_partial(question)
        } else {
            of_partial_and_readings(question, index)
        };
    }
    if question.is_of_groove_only() {
        return by_groove::find(question);
    }
    match (&question.designation, question.readings.is_empty()) {
        (Some(_), true) => of_designation(question),
        (Some(_), false) => beside_number::find(question, index),
        (None, _) => {
            let all = of_readings(question, question.family, None, index);
            ring_width::instead(question, index, all)
        }
    }
}

fn of_partial(question: &Question) -> AllFound {
    // A number cut off at its end is known; one with gaps may be one of no table.
    let listed = question.partial.len() as f64;
    let unlisted = UNLISTED_SHARE * question.unlisted as f64;
    let mut all = AllFound {
        none: (unlisted / (listed + unlisted)).max(0.01),
        ..AllFound::default()
    };
    let weights = weights_of_partial(question);
    let sum: f64 = weights.iter().sum();
    for (row, weight) in question.partial.iter().zip(&weights) {
        let each = (1.0 - all.none) * weight / sum;
        // Numbers of one size, as NU 210 and NJ 210 are, are as likely together as each is alone.
        if let Some(found) = all.found.iter_mut().find(|found| found.size == row.size) {
            found.rows.push(row);
            found.probability += each;
            continue;
        }
        all.found.push(Found {
            size: row.size,
            rows: vec![row],
            probability: each,
            matched: Matched::Exact,
            off_mm: 0.0,
            spare_mm: None,
        });
    }
    if question.is_half_size() {
        all.found
            .sort_by(|a, b| b.probability.total_cmp(&a.probability));
    }
    all
}

/// How likely each row is that a half-read number or size may be. Numbers are alike; a size is as likely as one of its family
/// is, however many numbers share it.
fn weights_of_partial(question: &Question) -> Vec<f64> {
    let rows = &question.partial;
    if !question.is_half_size() {
        return vec![1.0; rows.len()];
    }
    let asked = asked_of(question, question.family);
    let weight = |row: &&'static StandardPart| {
        let sharing = rows.iter().filter(|other| other.size == row.size).count();
        priors(&asked, row.size.family()).0 / sharing as f64
    };
    rows.iter().map(weight).collect()
}

/// The numbers that fit what is readable, weighed by the figures: `63?6 od 130`.
///
/// What the number leaves is the prior; the figures give each of its sizes, and a part in no table, their likelihood, which is
/// what they made of the prior of all sizes.
fn of_partial_and_readings(question: &Question, index: Option<&CardIndex>) -> AllFound {
    let by_number = of_partial(question);
    let mut all = weighed(question, question.family, (None, &question.partial), index);
    let asked = asked_of(question, question.family);
    for found in &mut all.found {
        found.rows.retain(|row| {
            question
                .partial
                .iter()
                .any(|fits| std::ptr::eq(*fits, *row))
        });
        let (of_size, of_none) = priors(&asked, found.size.family());
        let numbers = found.rows.len() as f64 / question.partial.len() as f64;
        found.probability *= (1.0 - by_number.none) * numbers / (of_size / of_none);
    }
    all.none *= by_number.none;
    all.found.retain(|found| !found.rows.is_empty());
    let sum =
        |all: &AllFound| all.found.iter().map(|found| found.probability).sum::<f64>() + all.none;
    let least = LEAST_NAMED * sum(&all);
    all.found.retain(|found| found.probability >= least);
    all.found
        .sort_by(|a, b| b.probability.total_cmp(&a.probability));
    all.found.truncate(MOST_NAMED);
    let sum = sum(&all);
    all.found
        .iter_mut()
        .for_each(|found| found.probability /= sum);
    all.none /= sum;
    if all.found.is_empty() {
        all.warnings.insert(
            0,
            "the figures fit none of the numbers that this may be".to_owned(),
        );
        all.none = 1.0;
    }
    all
}

/// Why a designation gives no size; of series 320 only bearings with an X have the dimensions of ISO 355, and of some miniature
/// bearings only the closed form is in the tables, which is wider than the open one (JIS B 1521).
fn without_size(basic: &str) -> String {
    let with_x = format!("{basic}X");
    if standard::named(&with_x).next().is_some() {
        return format!(
            "`{basic}` is in no table here, but `{with_x}` is: the X says that its dimensions are those of ISO 355; measure the bearing, or ask for {with_x}"
        );
    }
    let closure = |row: &StandardPart| row.traits.closure;
    if standard::named(basic).any(|row| closure(row).is_some_and(|of| of != Closure::Open)) {
        return format!(
            "`{basic}` is in the tables only with shields or seals, whose width the open bearing does not have: measure the width, or ask for {basic}-2Z"
        );
    }
    format!("`{basic}` reads as a designation, but its size is in no table here")
}

pub(super) fn of_designation(question: &Question) -> AllFound {
    let mut all = AllFound {
        none: 1.0,
        ..AllFound::default()
    };
    let Some(designation) = &question.designation else {
        return all;
    };
    let row = standard::resolve(designation);
    let Some(size) = row.map(|row| row.size).or(designation.size) else {
        all.warnings.push(without_size(&designation.basic));
        return all;
    };
    if row.is_some() {
        all.none = SLIP_SHARE;
    }
    let is_as_printed = designation.size.is_none_or(|printed| printed == size);
    all.found.push(Found {
        size,
        rows: row.into_iter().collect(),
        probability: 1.0 - all.none,
        matched: if is_as_printed {
            Matched::Exact
        } else {
            Matched::Rounded
        },
        off_mm: 0.0,
        spare_mm: None,
    });
    all
}

fn asked_of(question: &Question, family: Option<Family>) -> Asked<'_> {
    Asked {
        readings: question.readings.as_slice(),
        family,
        families: question.families.as_slice(),
        traits: &question.traits,
        is_nominal: question.is_nominal || question.is_nominal_inch(),
    }
}

/// The sizes that the figures fit, and what they say of the part's state: that of the likeliest size, or of the one named.
pub(super) fn of_readings(
    question: &Question,
    family: Option<Family>,
    named: Option<&SizeKey>,
    index: Option<&CardIndex>,
) -> AllFound {
    weighed(question, family, (named, &[]), index)
}

/// The sizes of some rows, all of them that the figures come near; of any, the likeliest, where no rows are given.
fn weighed(
    question: &Question,
    family: Option<Family>,
    (named, rows): (Option<&SizeKey>, &[&'static StandardPart]),
    index: Option<&CardIndex>,
) -> AllFound {
    let asked = asked_of(question, family);
    let Posterior { scored, none } = posterior(&asked, index);
    let best = scored.first().map_or(0.0, |best| best.probability);
    let mut all = AllFound {
        none,
        ..AllFound::default()
    };
    if let Some(first) = scored
        .first()
        .filter(|first| first.probability >= LEAST_NAMED)
    {
        all.roles = first.roles.to_vec();
    }
    let told_of = match named {
        Some(size) => scored
            .iter()
            .find(|one| same_lengths(&one.candidate.size, size)),
        None => scored.first().filter(|first| first.probability >= 0.3),
    };
    if let Some(of) = told_of {
        all.remarks = remarks(of, &question.readings, &question.traits);
    }
    all.warnings.clone_from(&all.remarks);
    if best >= LEAST_NAMED {
        all.warnings.extend(unit_note(&scored));
    }
    let is_named = |one: &&Scored| {
        let is_row = |row: &&StandardPart| rows.iter().any(|of| std::ptr::eq(*of, *row));
        match rows {
            [] => one.probability >= LEAST_NAMED.max(best * 0.002),
            _ => one.candidate.rows.iter().any(is_row),
        }
    };
    all.found = scored
        .iter()
        .filter(is_named)
        .take(if rows.is_empty() {
            MOST_NAMED
        } else {
            rows.len()
        })
        .map(|one| found(one, question))
        .collect();
    for found in &mut all.found {
        keep_class(found, &question.fit_classes);
    }
    all
}

pub(super) fn same_lengths(a: &SizeKey, b: &SizeKey) -> bool {
    a.dimensions()
        .map(|(_, length)| length)
        .eq(b.dimensions().map(|(_, length)| length))
}

/// Told where figures without a unit were read as inches.
pub(super) const READ_AS_INCHES: &str =
    "read as inches: no standard size fits these figures in millimetres";

/// Says where figures without a unit were read as inches, or could be both.
fn unit_note(scored: &[Scored]) -> Option<String> {
    let share = |is_inch: bool| -> f64 {
        scored
            .iter()
            .filter(|one| one.is_inch == is_inch)
            .map(|one| one.probability)
            .sum()
    };
    let (inch, mm) = (share(true), share(false));
    if inch > 0.05 && mm > 0.05 {
        Some(
            "the figures fit standard sizes in millimetres and in inches: write the unit"
                .to_owned(),
        )
    } else if inch > mm {
        Some(READ_AS_INCHES.to_owned())
    } else {
        None
    }
}

fn found(scored: &Scored, question: &Question) -> Found {
    let readings = &question.readings;
    let class = question.traits.tolerance_class;
    let class = class.unwrap_or(ToleranceClass::Normal);
    let size = scored.candidate.size;
    let mut off_mm: f64 = 0.0;
    let mut spare_mm = None;
    let mut is_exact = true;
    for (reading, role) in readings.iter().zip(scored.roles.iter()) {
        let read = match (&reading.as_inches, scored.is_inch) {
            (Some(inches), true) => inches,
            _ => &reading.length,
        };
        let nominal = role
            .dimension(size.family())
            .and_then(|dimension| size.get(dimension));
        let Some(nominal) = nominal else { continue };
        if *role == Role::Room {
            spare_mm = Some(read.length.difference_mm(nominal));
            continue;
        }
        let outside_mm = outside_mm(scored, reading, *role, class);
        // A sound seat is of the size, and a groove beside it takes nothing from it.
        let has_seat = size.family().facts().bench.measured.has_seats();
        let is_sound_seat = has_seat
            && matches!(role, Role::Shaft | Role::Housing)
            && outside_mm.is_some_and(|mm| mm < IN_BAND_MM);
        is_exact &= read.length == nominal
            || is_sound_seat
            || *role == Role::RingGroove && readings.len() > 1;
        off_mm = off_mm.max(outside_mm.unwrap_or(0.0));
    }
    let matched = match (scored.is_printed, is_exact) {
        (_, true) => Matched::Exact,
        (true, false) => Matched::Rounded,
        (false, false) => Matched::WithinMeasuring,
    };
    let mut found = Found {
        size,
        rows: scored.candidate.rows.to_vec(),
        probability: scored.probability,
        matched,
        off_mm,
        spare_mm,
    };
    for (reading, role) in readings.iter().zip(scored.roles.iter()) {
        if *role == Role::Inner && !reading.is_worn {
            keep_measured_class(&mut found, reading);
        }
    }
    found
}

/// Certainty of a probability in words.
pub fn certainty(probability: f64) -> &'static str {
    match probability {
        p if p >= 0.99 => "practically certain",
        p if p >= 0.9 => "very likely",
        p if p >= 0.6 => "likely",
        p if p >= 0.25 => "one of few",
        p if p >= 0.05 => "possible",
        _ => "unlikely",
    }
}

/// The lengths of a size, for comparing sizes of two families.
pub(super) fn lengths_of(size: &SizeKey) -> Vec<Length> {
    size.dimensions().map(|(_, length)| length).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_numbers_of_one_size_are_together_as_likely_as_each() {
        // ISO 15, DIN 5412-1: NU 210 and NJ 210 are both 50 x 90 x 20 mm; 6208 and 6209 are of two sizes.
        for (text, sizes) in [("NU 210 or NJ 210", 1), ("6208 or 6209", 2)] {
            let all = find(&Question::read(text).unwrap(), None);
            assert_eq!(all.found.len(), sizes, "{text}");
            let sum: f64 = all.found.iter().map(|found| found.probability).sum();
            assert!((sum + all.none - 1.0).abs() < 1e-9, "{text}: {sum}");
            let rows: usize = all.found.iter().map(|found| found.rows.len()).sum();
            assert_eq!(rows, 2, "{text}");
        }
    }

    #[test]
    fn a_figure_that_agrees_with_a_half_read_number_makes_it_surer() {
        // ISO 15: of 6308, 6318, 6328 only 6308 has a bore of 40 mm; a figure that agrees cannot speak for a special.
        let alone = find(&Question::read("63?8").unwrap(), None);
        let with_bore = find(&Question::read("63?8 bore 40").unwrap(), None);
        assert_eq!(with_bore.found[0].rows[0].designation, "6308");
        assert!(
            with_bore.none < alone.none,
            "{} {}",
            with_bore.none,
            alone.none
        );
        assert!(with_bore.found[0].probability > 0.95);
        let sum: f64 = with_bore.found.iter().map(|found| found.probability).sum();
        assert!((sum + with_bore.none - 1.0).abs() < 1e-9);
        // A bore that none of them has.
        assert!(find(&Question::read("63?8 bore 33").unwrap(), None).none > 0.9);
    }

    #[test]
    fn no_number_is_lost_beside_one_common_figure() {
        // ISO 15: 6208, 7208, N208 and 1208 share 40 x 80 x 18 mm; a width of 18 mm is that of many others.
        let all = find(&Question::read("?208 width 18").unwrap(), None);
        for name in ["6208", "7208", "N208", "1208"] {
            let has_it = |found: &Found| found.rows.iter().any(|row| row.designation == name);
            assert!(all.found.iter().any(has_it), "{name}: {:?}", all.found);
        }
        assert!(
            all.found
                .is_sorted_by(|a, b| a.probability >= b.probability)
        );
        assert!(all.found.len() <= MOST_NAMED);
    }

    #[test]
    fn a_sound_seat_is_of_the_size_and_not_off_it() {
        // ISO 286: k6 at 25 mm +2/+15 µm, h11 at 40 mm -160/0 µm; ISO 8734: lengths of 10 to 50 mm within 0.5 mm, from memory.
        for (text, is_exact, off_mm) in [
            ("6205 shaft 25.008 k6 micrometer", true, 0.0),
            ("6205 housing 52.01 micrometer", true, 0.0),
            ("oil seal 40x62x7 shaft 39.90 micrometer", true, 0.0),
            ("dowel 8.00 x 30.4", false, 0.0),
            ("6205 shaft 24.950 micrometer", false, 0.030),
            ("6205 bore 25.05 worn", false, 0.050),
        ] {
            let all = find(&Question::read(text).unwrap(), None);
            let first = &all.found[0];
            assert_eq!(
                first.matched == Matched::Exact,
                is_exact,
                "{text}: {first:?}"
            );
            assert!((first.off_mm - off_mm).abs() < 0.001, "{text}: {first:?}");
            assert_eq!(first.is_within_band(), off_mm < 0.001, "{text}");
        }
    }

    #[test]
    fn no_part_is_stated_with_certainty() {
        assert_eq!(percent(1.0), "over 99.9 %");
        assert_eq!(percent(0.0), "under 0.1 %");
        assert_eq!(percent(0.5), "50 %");
    }

    /// ISO 355 and DIN 720: series 320 is numbered with an X; no table here has a 32099.
    #[test]
    fn a_number_without_its_x_points_to_the_one_with_it() {
        for (basic, points) in [
            ("32006", true),
            ("32009", true),
            ("32099", false),
            ("5206", false),
        ] {
            let said = without_size(basic);
            assert_eq!(said.contains(&format!("`{basic}X`")), points, "{said}");
            assert!(said.starts_with(&format!("`{basic}` ")), "{said}");
            let is_known = standard::named(basic).next().is_some();
            assert!(!is_known, "{basic}");
        }
    }
}
