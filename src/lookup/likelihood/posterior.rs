//! How likely each size is after the figures were read.

use std::collections::BTreeMap;
use std::rc::Rc;

use super::super::reading::{Reading, Role};
use super::assign::Assignment;
use super::candidate::{Candidate, family_share, of_family};
use super::density::Model;
use super::expected::{Expected, Ways, expected};
use super::instrument::{Spread, spread};
use super::near::{Dealt, Nearby};
use super::outside::{self, LEAST_OUTSIDE, LIKE_STANDARD_SHARE, OUTSIDE_SHARE};
use super::special::{self, AnyChange};
use crate::catalogue::card_index::CardIndex;
use crate::part::{Closure, Family, ToleranceClass, Traits};
use crate::units::{Length, ReadLength};

/// Share of figures without a unit that are inches (common practice, no source).
const INCH_SHARE: f64 = 0.15;
/// Share of questions whose figures are a printed size, not a measured one, where nothing says which.
const PRINTED_SHARE: f64 = 0.5;
/// The same where the text says worn, measured or names an instrument.
const PRINTED_SHARE_MEASURED: f64 = 0.1;
/// Finest and coarsest half digit that a density is counted over, mm.
const HALF_DIGIT_MM: (f64, f64) = (0.005, 0.05);
/// A whole number is meant as it stands; only finer printing is undone, mm.
const COARSEST_PRINTED_MM: f64 = 0.13;
/// Weight of a row whose closure or rows the question contradicts.
const CONTRADICTED: f64 = 0.02;

/// One size with its probability.
#[derive(Debug, Clone)]
pub struct Scored {
    /// The size and its rows.
    pub candidate: Candidate,
    /// Probability after reading.
    pub probability: f64,
    /// What each figure was taken for, in the best reading of them.
    pub roles: Rc<[Role]>,
    /// True where the figures were read as inches.
    pub is_inch: bool,
    /// True where the figures are this size as printed, exact or rounded.
    pub is_printed: bool,
}

/// Every size worth naming, likeliest first, and the rest.
#[derive(Debug, Clone, Default)]
pub struct Posterior {
    /// Sizes by falling probability.
    pub scored: Vec<Scored>,
    /// Probability that it is none of them.
    pub none: f64,
}

/// Likelihoods of one size, each with its share.
struct Weights {
    /// As a printed size.
    printed: f64,
    /// As a measured one.
    measured: f64,
    /// As a special made after it, with a dimension or more changed.
    special: f64,
}

/// What of the question bears on the size.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// The figures.
    pub readings: &'a [Reading],
    /// Family, where it is named.
    pub family: Option<Family>,
    /// Traits asked for.
    pub traits: &'a Traits,
    /// True where the text says that the figures are nominal.
    pub is_nominal: bool,
}

/// Weighs every size of the tables, and those of a shop's own that are in none, against the figures.
///
/// Prior: families as often as a bench asks for them, every size of a family alike (both common practice, no source).
pub fn posterior(asked: &Asked<'_>, index: Option<&CardIndex>) -> Posterior {
    let mut nearby = Nearby::new(asked.readings, index);
    let mut known = Known::new();
    let mut weights = Vec::new();
    let mut like_standard = 0.0;
    for family in Family::ALL {
        if asked.family.is_some_and(|wanted| wanted != family) {
            continue;
        }
        let ways = nearby.ways(family);
        if ways.is_empty() {
            continue;
        }
        let share = asked.family.map_or(family_share(family), |_| 1.0);
        let prior = share / of_family(family).len().max(1) as f64;
        let (of_tables, own) = nearby.candidates(family, &ways);
        if of_tables.is_empty() && own.is_empty() {
            continue;
        }
        let deals = deals(asked, family, &ways);
        for candidate in of_tables.into_iter().chain(&own) {
            if let Some((mut scored, special)) = score(asked, candidate, &deals, &mut known) {
                scored.probability *= prior * trait_weight(candidate, asked.traits);
                like_standard += special * prior;
                weights.push(scored);
            }
        }
    }
    normalised(asked, weights, like_standard)
}

fn normalised(asked: &Asked<'_>, mut scored: Vec<Scored>, like_standard: f64) -> Posterior {
    let none =
        (1.0 - LIKE_STANDARD_SHARE) * none_weight(asked) + LIKE_STANDARD_SHARE * like_standard;
    let sum: f64 = scored.iter().map(|s| s.probability).sum();
    let all = (1.0 - OUTSIDE_SHARE) * sum + OUTSIDE_SHARE * none;
    if all <= 0.0 || sum <= 0.0 {
        return Posterior {
            scored: Vec::new(),
            none: 1.0,
        };
    }
    let none = (OUTSIDE_SHARE * none / all).max(LEAST_OUTSIDE);
    for one in &mut scored {
        one.probability *= (1.0 - none) / sum;
    }
    scored.sort_by(|a, b| {
        b.probability
            .total_cmp(&a.probability)
            .then_with(|| a.candidate.size.cmp(&b.candidate.size))
    });
    Posterior { scored, none }
}

/// Weight of the figures under a part in no table, in the units they would be read in.
fn none_weight(asked: &Asked<'_>) -> f64 {
    let of = |pick: fn(&Reading) -> Option<&ReadLength>| {
        let figures: Option<Vec<f64>> = asked
            .readings
            .iter()
            .filter(|reading| reading.role != Some(Role::Room))
            .map(|reading| pick(reading).map(|read| read.length.to_mm()))
            .collect();
        figures.map_or(0.0, |figures| outside::density(&figures))
    };
    let mm = of(|reading| Some(&reading.length));
    let inch = of(|reading| reading.as_inches.as_ref());
    if inch > 0.0 {
        (1.0 - INCH_SHARE) * mm + INCH_SHARE * inch
    } else {
        mm
    }
}

/// One way to deal the figures out, in one unit.
struct Deal<'a> {
    way: &'a Assignment,
    is_inch: bool,
    /// How usual the unit and the way are.
    share: f64,
    figures: Vec<Dealt<'a>>,
}

/// Every way in either unit, the first unit first.
fn deals<'a>(asked: &Asked<'a>, family: Family, ways: &'a [Assignment]) -> Vec<Deal<'a>> {
    let has_inch = asked
        .readings
        .iter()
        .all(|reading| reading.as_inches.is_some());
    let units = [
        (false, if has_inch { 1.0 - INCH_SHARE } else { 1.0 }),
        (true, INCH_SHARE),
    ];
    let mut deals = Vec::with_capacity(2 * ways.len());
    for (is_inch, unit_share) in units.into_iter().take(if has_inch { 2 } else { 1 }) {
        deals.extend(ways.iter().map(|way| {
            Deal {
                way,
                is_inch,
                share: unit_share * way.share,
                figures: asked
                    .readings
                    .iter()
                    .zip(way.roles.iter())
                    .map(|(reading, role)| Dealt::new(family, reading, *role, is_inch))
                    .collect(),
            }
        }));
    }
    deals
}

/// Likelihood of one size, summed over units and assignments, and that of a special made after it; `None` where nothing
/// comes near.
fn score(
    asked: &Asked<'_>,
    candidate: &Candidate,
    deals: &[Deal<'_>],
    known: &mut Known,
) -> Option<(Scored, f64)> {
    let (mut sum, mut specials) = (0.0, 0.0);
    let mut best: Option<(f64, &Deal<'_>, bool)> = None;
    let near = deals.iter().filter(|deal| {
        let mut figures = deal.figures.iter();
        figures.all(|figure| figure.is_near(&candidate.size))
    });
    for deal in near {
        let Weights {
            printed,
            measured,
            special,
        } = weigh(asked, candidate, deal, known);
        let weight = deal.share * (printed + measured);
        sum += weight;
        specials += deal.share * special;
        if weight > 0.0 && best.is_none_or(|(best, ..)| weight > best) {
            best = Some((weight, deal, printed > measured));
        }
    }
    let (_, deal, is_printed) = best?;
    let scored = Scored {
        candidate: *candidate,
        probability: sum,
        roles: Rc::clone(&deal.way.roles),
        is_inch: deal.is_inch,
        is_printed,
    };
    Some((scored, specials))
}

/// Weighs one size in one reading of the figures.
fn weigh(asked: &Asked<'_>, candidate: &Candidate, deal: &Deal<'_>, known: &mut Known) -> Weights {
    let says_measured = asked
        .readings
        .iter()
        .any(|reading| reading.is_measured || reading.is_worn || reading.instrument.is_some());
    let share = match (asked.is_nominal, says_measured) {
        (true, _) => 0.95,
        (false, true) => PRINTED_SHARE_MEASURED,
        (false, false) => PRINTED_SHARE,
    };
    let (mut printed, mut measured) = (share, 1.0 - share);
    let mut change = AnyChange::new();
    for (at, figure) in deal.figures.iter().enumerate() {
        let Dealt {
            reading,
            read,
            role,
            ..
        } = *figure;
        let nominal = figure.nominal(&candidate.size);
        if role == Role::Room {
            let weight = room_weight(read, nominal);
            printed *= weight;
            measured *= weight;
            continue;
        }
        let as_printed = printed_density(read, role, nominal);
        printed *= as_printed.own;
        let class = asked.traits.tolerance_class;
        let ways = expected(
            &candidate.size,
            candidate.rows.first().copied(),
            role,
            class.unwrap_or(ToleranceClass::Normal),
        );
        let as_measured = *known
            .entry(alike(at, deal.is_inch, role, nominal, &ways))
            .or_insert_with(|| measured_density(reading, read, role, nominal, &ways));
        measured *= as_measured.own;
        let either = |printed: f64, measured: f64| share * printed + (1.0 - share) * measured;
        change.read(
            either(as_printed.own, as_measured.own),
            either(as_printed.changed, as_measured.changed),
        );
    }
    let dimensions = candidate.size.family().key_dimensions().len();
    Weights {
        printed,
        measured,
        special: change.density(dimensions),
    }
}

/// Room is a limit: the full width fills it, a narrower part needs a spacer and is less often the one.
fn room_weight(room: &ReadLength, width: Option<Length>) -> f64 {
    let Some(free_mm) = width.map(|width| room.length.difference_mm(width)) else {
        return 0.0;
    };
    match free_mm {
        free if free < -0.15 => 0.0,
        free if free <= 0.3 => 1.0,
        free => 0.15 * (-free / 5.0).exp(),
    }
}

fn half_mm(read: &ReadLength) -> f64 {
    (read.half_digit_nm as f64 / 1e6).clamp(HALF_DIGIT_MM.0, HALF_DIGIT_MM.1)
}

/// Densities of measured figures so far.
///
/// Many sizes share a bore, an outside or a width, and many families the limits of ISO 492; each is weighed once a question.
type Known = BTreeMap<Alike, Densities>;

/// All that the densities of a figure hang on, numbers by their bits: dimension in nanometres, figure and unit, role, and of
/// either way base, band, wear, softness and share.
type Alike = (u64, usize, Role, [[u64; 6]; 2]);

fn alike(at: usize, is_inch: bool, role: Role, nominal: Option<Length>, ways: &Ways) -> Alike {
    let bits = |way: &Option<Expected>| {
        way.map_or([0; 6], |way| {
            [
                way.base_mm,
                way.band.lower_um,
                way.band.upper_um,
                way.wear_mm,
                way.soft_mm,
                way.share,
            ]
            .map(f64::to_bits)
        })
    };
    let nm = nominal.map_or(0, |nominal| nominal.as_nm().unsigned_abs());
    let [first, second] = ways;
    (
        nm,
        2 * at + usize::from(is_inch),
        role,
        [bits(first), bits(second)],
    )
}

/// Densities of one figure under the size, and under a special that differs from it here.
#[derive(Debug, Clone, Copy)]
struct Densities {
    own: f64,
    changed: f64,
}

/// Density of a printed figure: all of it on the size that prints so.
fn printed_density(read: &ReadLength, role: Role, nominal: Option<Length>) -> Densities {
    let is_coarse = read.half_digit_nm as f64 / 1e6 > COARSEST_PRINTED_MM;
    let Some(nominal) = nominal.filter(|_| !role.is_free()) else {
        return Densities {
            own: 0.0,
            changed: 0.0,
        };
    };
    let prints = if is_coarse {
        read.length == nominal
    } else {
        read.may_be(nominal)
    };
    Densities {
        own: if prints { 0.5 / half_mm(read) } else { 0.0 },
        changed: special::printed(nominal.to_mm(), read.length.to_mm(), half_mm(read)),
    }
}

fn measured_density(
    reading: &Reading,
    read: &ReadLength,
    role: Role,
    nominal: Option<Length>,
    ways: &Ways,
) -> Densities {
    let instrument = spread(reading.likely_instrument(read), role);
    let x_mm = read.length.to_mm();
    let mut densities = Densities {
        own: 0.0,
        changed: 0.0,
    };
    for way in ways.iter().flatten() {
        let curve = model(way, instrument, half_mm(read), reading).curve();
        let nominal_mm = nominal.map_or(way.base_mm, Length::to_mm);
        densities.own += way.share * curve.density(x_mm);
        densities.changed += way.share * special::measured(&curve, nominal_mm, x_mm);
    }
    densities
}

/// A worn part is worn at this place four times in five; one that nobody calls worn, three times in ten.
fn model(way: &Expected, instrument: Spread, half_mm: f64, reading: &Reading) -> Model {
    let own = way.soft_mm * way.soft_mm + half_mm * half_mm / 3.0;
    Model {
        middle_mm: way.base_mm + way.band.middle_mm(),
        half_band_mm: way.band.band_mm() / 2.0,
        own_mm: own.sqrt(),
        spread: instrument,
        wear_mm: way.wear_mm,
        worn_share: if reading.is_worn { 0.8 } else { 0.3 },
    }
}

/// Rows whose closure or number of rows the question contradicts count little.
fn trait_weight(candidate: &Candidate, traits: &Traits) -> f64 {
    if candidate.rows.is_empty() {
        return 1.0;
    }
    let fits = candidate.rows.iter().any(|row| {
        let closure = match (row.traits.closure, traits.closure) {
            (Some(of_row), Some(asked)) => (of_row == Closure::Open) == (asked == Closure::Open),
            _ => true,
        };
        let rows =
            row.traits.rows.is_none() || traits.rows.is_none() || row.traits.rows == traits.rows;
        closure && rows
    });
    if fits { 1.0 } else { CONTRADICTED }
}
