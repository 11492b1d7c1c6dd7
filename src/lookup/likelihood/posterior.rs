//! How likely each size is after the figures were read.

use std::rc::Rc;

use super::super::reading::{Reading, Role};
use super::candidate::{Candidate, family_share, of_family};
use super::deal::{Deal, Deals};
use super::expected::measured_as;
use super::figure::Figure;
use super::near::{Nearby, Ways};
use super::outside::{self, LEAST_OUTSIDE, LIKE_STANDARD_SHARE, OUTSIDE_SHARE};
use super::special::AnyChange;
use crate::catalogue::card_index::CardIndex;
use crate::part::{Closure, Family, ToleranceClass, Traits};
use crate::units::{Length, ReadLength};

/// Share of figures without a unit that are inches (common practice, no source).
const INCH_SHARE: f64 = 0.15;
/// Share of questions whose figures are a printed size, not a measured one, where nothing says which.
const PRINTED_SHARE: f64 = 0.5;
/// The same where the text says worn, measured or names an instrument.
const PRINTED_SHARE_MEASURED: f64 = 0.1;
/// The same where the text says that they are nominal.
const NOMINAL_SHARE: f64 = 0.95;
/// Weight of a row whose closure or rows the question contradicts.
const CONTRADICTED: f64 = 0.02;

/// A part may be this much wider than its room: rooms are read too small as well, mm (common practice, no source).
pub const OVER_ROOM_MM: f64 = 0.15;
/// Up to this much left over a part fills its room, mm (common practice, no source).
pub const FILLS_ROOM_MM: f64 = 0.3;

/// A size less likely than this has counted in the sum and is of no further use.
const LEAST_KEPT: f64 = 1e-12;

/// Sizes that are weighed for a question, mostly.
const MOSTLY_WEIGHED: usize = 64;

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
    /// Families that the words leave open, where they name a kind of part; empty for any.
    pub families: &'a [Family],
    /// Traits asked for.
    pub traits: &'a Traits,
    /// True where the text says that the figures are nominal.
    pub is_nominal: bool,
}

impl Asked<'_> {
    /// What the shares of the families that the words allow add up to.
    fn open_share(&self) -> f64 {
        if self.is_any() {
            return 1.0;
        }
        let allowed = (Family::ALL.into_iter()).filter(|family| self.may_be(*family));
        allowed.map(family_share).sum()
    }

    /// Share of questions like this one whose figures are a printed size.
    fn printed_share(&self) -> f64 {
        let says_measured = self
            .readings
            .iter()
            .any(|reading| reading.is_measured || reading.is_worn || reading.instrument.is_some());
        match (self.is_nominal, says_measured) {
            (true, _) => NOMINAL_SHARE,
            (false, true) => PRINTED_SHARE_MEASURED,
            (false, false) => PRINTED_SHARE,
        }
    }

    /// True where the words bar no family.
    const fn is_any(&self) -> bool {
        self.family.is_none() && self.families.is_empty()
    }

    /// True for a family that the words allow.
    fn may_be(&self, family: Family) -> bool {
        match self.family {
            Some(wanted) => wanted == family,
            None => self.families.is_empty() || self.families.contains(&family),
        }
    }
}

/// Weighs every size of the tables, and those of a shop's own that are in none, against the figures.
///
/// Prior: families as often as a bench asks for them, every size of a family alike (both common practice, no source).
pub fn posterior(asked: &Asked<'_>, index: Option<&CardIndex>) -> Posterior {
    let mut nearby = Nearby::new(asked.readings, index);
    let mut weights = Vec::with_capacity(MOSTLY_WEIGHED);
    let mut dealt: Vec<(Family, Deals<'_>)> = Vec::new();
    let mut like_standard = 0.0;
    let (open, printed) = (asked.open_share(), asked.printed_share());
    for family in Family::ALL {
        if !asked.may_be(family) {
            continue;
        }
        let ways = nearby.ways(family);
        if ways.is_empty() {
            continue;
        }
        let share = family_share(family) / open;
        let prior = share / of_family(family).len().max(1) as f64;
        let (in_ways, near) = nearby.candidates(family, &ways);
        let mut near = near.peekable();
        if near.peek().is_none() {
            continue;
        }
        // Families that measure alike remember what their figures said together.
        let like = measured_as(family);
        let is_known = |(known, deals): &(Family, Deals<'_>)| *known == like && deals.hold(in_ways);
        let at = dealt.iter().position(is_known);
        let at = at.unwrap_or_else(|| {
            let deals = Deals::new(asked.readings, like, (&ways, in_ways), INCH_SHARE);
            dealt.push((like, deals));
            dealt.len() - 1
        });
        let deals = &mut dealt[at].1;
        // None is guessed from figures further off than those by which it was found.
        for (candidate, ways) in near {
            let ways = deals.ways_near(&candidate.size, ways);
            if let Some((mut scored, special)) = score((asked, printed), (&candidate, ways), deals)
            {
                scored.probability *= prior * trait_weight(&candidate, asked.traits);
                like_standard += special * prior;
                weights.push(scored);
            }
        }
    }
    normalised(asked, weights, like_standard)
}

/// Prior of one size of a family, and of a part in no table.
pub fn priors(asked: &Asked<'_>, family: Family) -> (f64, f64) {
    let sizes = of_family(family).len().max(1) as f64;
    let of_size = (1.0 - OUTSIDE_SHARE) * family_share(family) / (asked.open_share() * sizes);
    (of_size, OUTSIDE_SHARE)
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
    scored.retain(|one| one.probability > LEAST_KEPT);
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

/// Likelihood of one size, summed over those of the ways to deal the figures out, and that of a special made after it;
/// `None` where nothing comes near.
fn score(
    asked: (&Asked<'_>, f64),
    (candidate, mut near): (&Candidate, Ways),
    deals: &mut Deals<'_>,
) -> Option<(Scored, f64)> {
    let (mut sum, mut specials) = (0.0, 0.0);
    let mut best: Option<(f64, &Deal, bool)> = None;
    let Deals {
        dealt,
        ways,
        figures,
        ..
    } = deals;
    while near != 0 {
        let at = near.trailing_zeros() as usize;
        let deal = ways.get(at)?;
        near &= near - 1;
        let Weights {
            printed,
            measured,
            special,
        } = weigh(asked, candidate, (dealt, figures.of(at)));
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
        roles: Rc::clone(&deal.roles),
        is_inch: deal.is_inch,
        is_printed,
    };
    Some((scored, specials))
}

/// Weighs one size in one reading of the figures.
fn weigh(
    (asked, share): (&Asked<'_>, f64),
    candidate: &Candidate,
    (dealt, figures): (&mut [Figure<'_>], impl Iterator<Item = usize>),
) -> Weights {
    let (mut printed, mut measured) = (share, 1.0 - share);
    let mut change = AnyChange::new();
    for at in figures {
        let figure = &mut dealt[at];
        if figure.role == Role::Room {
            let weight = room_weight(figure.read, figure.nominal(&candidate.size));
            printed *= weight;
            measured *= weight;
            continue;
        }
        let class = asked.traits.tolerance_class;
        let said = figure.said(candidate, class.unwrap_or(ToleranceClass::Normal));
        printed *= said.printed.own;
        measured *= said.measured.own;
        let either = |printed: f64, measured: f64| share * printed + (1.0 - share) * measured;
        change.read(
            either(said.printed.own, said.measured.own),
            either(said.printed.changed, said.measured.changed),
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
        free if free < -OVER_ROOM_MM => 0.0,
        free if free <= FILLS_ROOM_MM => 1.0,
        free => 0.15 * (-free / 5.0).exp(),
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
