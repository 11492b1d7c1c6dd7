//! Which sizes come near the figures at all: only those are weighed.

use std::ops::Range;
use std::rc::Rc;

use super::super::reading::{Instrument, Reading, Role};
use super::assign::{self, Assignment};
use super::candidate::{Candidate, STANDARD};
use crate::catalogue::card_index::{CardIndex, Windows, grid_of};
use crate::part::{Family, SizeKey};
use crate::units::{Length, ReadLength};

/// How far a figure may lie from its dimension: so many nanometres and one part in so many of the dimension.
type Reach = (i64, i64);
/// The reach of a figure.
type Reaching = fn(Family, Role, &Reading) -> Reach;
/// Roundings of a window's ends, nanometres.
const ROUNDING_NM: i64 = 10;
/// A part may be this much wider than the room given for it, nanometres: rooms are read too small as well.
const OVER_ROOM_NM: i64 = 200_000;

/// No reach is longer.
const LONGEST_REACH: Reach = (8_500_000, 10);

/// Sizes that a few windows hold, mostly.
const MOSTLY_FOUND: usize = 64;

/// What was found near the figures of one question.
pub(super) struct Nearby<'a> {
    readings: &'a [Reading],
    index: Option<&'a CardIndex>,
    /// Ways to deal the figures out, by the first family whose dimensions are of those roles.
    ways: Vec<(Family, Rc<Vec<Assignment>>)>,
    /// Positions in the standard tables and in the index, for the families that are measured alike in the same ways.
    found: Vec<(Alike, Rc<Vec<Assignment>>, Rc<Positions>)>,
}

/// Least and greatest value of a dimension, nanometres.
type Window = (i64, i64);
/// Key dimensions of a family at most.
const PLACES: usize = 4;

/// What the dimensions of a family are, in order.
fn roles_of(family: Family) -> impl Iterator<Item = Role> {
    let dimensions = family.key_dimensions().iter();
    dimensions.map(move |dimension| Role::of(family, *dimension))
}

/// What families have in common whose figures may lie in the same windows: the grid, the reach, the dimensions, and whether an
/// inner ring may lie under the raceway.
type Alike = (usize, bool, usize, bool);

/// Rising positions, none twice, each with the ways in which it comes near.
#[derive(Default)]
struct Positions {
    standard: Vec<(u32, Ways)>,
    own: Vec<(u32, Ways)>,
    /// The ways in which any of them does.
    ways: Ways,
}

/// The window of a reach, and whether it is that of a room.
type Met = ((bool, Reach), Window);

/// What was looked up of a figure in one unit.
#[derive(Clone, Default)]
struct Looked {
    /// Its window at each place; `None` within where no size has it there.
    windows: [Option<Option<Window>>; PLACES],
    /// The window for the reach met last: a figure mostly has the same wherever it is.
    last: Option<Met>,
}

impl Looked {
    /// The window of a figure in a role.
    fn window(last: &mut Option<Met>, role: Role, reach: Reach, x_nm: i64) -> Window {
        let of = (role == Role::Room, reach);
        match last {
            Some((known, window)) if *known == of => *window,
            _ => last.insert((of, window(role, reach, x_nm))).1,
        }
    }
}

/// A bit for each way in either unit, in the order of [`Deals`](super::deal::Deals): four dimensions have 24 orders.
pub(super) type Ways = u64;

impl<'a> Nearby<'a> {
    pub(super) const fn new(readings: &'a [Reading], index: Option<&'a CardIndex>) -> Self {
        Self {
            readings,
            index,
            ways: Vec::new(),
            found: Vec::new(),
        }
    }

    /// The ways to deal the figures out for a family.
    pub(super) fn ways(&mut self, family: Family) -> Rc<Vec<Assignment>> {
        // A housing is what a ring for bores sits in, and the outside of a bearing.
        let is_alike = |known: Family| {
            family != Family::BoreRetainingRing && roles_of(known).eq(roles_of(family))
        };
        if let Some((_, ways)) = self.ways.iter().find(|(known, _)| is_alike(*known)) {
            return Rc::clone(ways);
        }
        let ways = assign::ways(family, self.readings);
        self.ways.push((family, Rc::clone(&ways)));
        ways
    }

    /// Sizes of a family that come near the figures in one of the ways: those of the standard tables, then the shop's own,
    /// with the ways in which they do; each in order of size. Before them the ways in which any does that is measured alike.
    pub(super) fn candidates(
        &mut self,
        family: Family,
        ways: &Rc<Vec<Assignment>>,
    ) -> (Ways, impl Iterator<Item = (Candidate, Ways)> + use<'a>) {
        let found = self.found(family, ways);
        let in_ways = found.ways;
        let index = self.index;
        let standard = part_of(&found.standard, &STANDARD.positions(family));
        let own = index.map_or(0..0, |index| {
            part_of(&found.own, &index.positions_of(family))
        });
        let of_tables = Rc::clone(&found);
        let standard = standard.map(move |at| {
            let (at, ways) = of_tables.standard[at];
            (*STANDARD.at(at), ways)
        });
        let own = own.filter_map(move |at| {
            let (at, ways) = found.own[at];
            let size = index?.size(at)?.without_fit();
            Some((Candidate { size, rows: &[] }, ways))
        });
        (in_ways, standard.chain(own))
    }

    /// The windows of each way and unit, none twice, with the ways that have them; without those in which a figure is of a
    /// dimension that no size has so.
    fn windows(
        &self,
        family: Family,
        ways: &[Assignment],
        reach: Reaching,
        (may_have, may_reach): (impl Fn(usize, Window) -> bool, impl Fn(i64) -> bool),
    ) -> Vec<(Windows, Ways)> {
        let has_inch = self
            .readings
            .iter()
            .all(|reading| reading.as_inches.is_some());
        let units = if has_inch {
            &[false, true][..]
        } else {
            &[false]
        };
        // Figures that differ give windows that differ.
        let lengths = || self.readings.iter().map(|reading| reading.length.length);
        let may_repeat = lengths()
            .enumerate()
            .any(|(at, one)| lengths().skip(at + 1).any(|other| other == one));
        let mut all: Vec<(Windows, Ways)> = Vec::with_capacity(units.len() * ways.len());
        let mut bit: Ways = 1;
        let mut known = Vec::with_capacity(self.readings.len());
        for is_inch in units {
            // Inches read of millimetres are mostly larger than anything there is.
            let is_beyond = |reading: &Reading| {
                let x_nm = figure(reading, *is_inch).length.as_nm();
                reading.role.is_none() && !may_reach(window(Role::Inner, LONGEST_REACH, x_nm).0)
            };
            if self.readings.iter().any(is_beyond) {
                bit <<= ways.len();
                continue;
            }
            known.clear();
            known.resize(self.readings.len(), Looked::default());
            for way in ways {
                let looked =
                    |role: Role, reading: &Reading, place: usize, last: &mut Option<Met>| {
                        let x_nm = figure(reading, *is_inch).length.as_nm();
                        let window = Looked::window(last, role, reach(family, role, reading), x_nm);
                        may_have(place, window).then_some(window)
                    };
                if let Some(windows) = self.windows_of(way, &mut known, looked) {
                    let same = all.iter_mut().find(|(of, _)| may_repeat && *of == windows);
                    match same {
                        Some((_, bits)) => *bits |= bit,
                        None if windows.are_empty(family) => {}
                        None => all.push((windows, bit)),
                    }
                }
                bit <<= 1;
            }
        }
        all
    }

    /// The windows of one way, `None` where no size has one of its figures so; those of a figure at a place are kept for other
    /// ways, in which it is the same there.
    fn windows_of(
        &self,
        way: &Assignment,
        known: &mut [Looked],
        looked: impl Fn(Role, &Reading, usize, &mut Option<Met>) -> Option<Window>,
    ) -> Option<Windows> {
        let mut windows = Windows::default();
        let dealt = way.roles.iter().zip(way.places.iter());
        for ((reading, known), (role, place)) in self.readings.iter().zip(known).zip(dealt) {
            let Some(at) = place.map(usize::from) else {
                continue;
            };
            let Looked {
                windows: known,
                last,
            } = known;
            let window = (*known[at].get_or_insert_with(|| looked(*role, reading, at, last)))?;
            // Two figures may speak of one dimension.
            windows.0[at] = Some(windows.0[at].map_or(window, |known: Window| {
                (known.0.max(window.0), known.1.min(window.1))
            }));
        }
        Some(windows)
    }

    fn found(&mut self, family: Family, ways: &Rc<Vec<Assignment>>) -> Rc<Positions> {
        let alike = alike(family);
        let is_known = |known: &&(Alike, Rc<_>, _)| known.0 == alike && Rc::ptr_eq(&known.1, ways);
        if let Some((.., found)) = self.found.iter().find(is_known) {
            return Rc::clone(found);
        }
        let mut positions = Positions::default();
        // A thrust bearing of open bore has thousands of others beside it in the grid that all bearings share.
        let (first, last) = stretch(&alike).unwrap_or((family, family));
        let of_standard = STANDARD.positions(first).start..STANDARD.positions(last).end;
        let may_have = |at, window| STANDARD.grid.may_have(family, at, window);
        let may_reach = |nm| STANDARD.grid.may_reach(family, nm);
        let mut found = Vec::with_capacity(MOSTLY_FOUND);
        for (windows, bits) in self.windows(family, ways, reach, (may_have, may_reach)) {
            STANDARD
                .grid
                .within(family, &windows, &of_standard, &mut found);
            let standard = found.drain(..);
            positions.standard.extend(standard.map(|at| (at, bits)));
        }
        join(&mut positions.standard);
        if let Some(index) = self.index {
            let of_index = index.positions_of(first).start..index.positions_of(last).end;
            let may_have = |at, window| index.may_have(family, at, window);
            let may_reach = |nm| index.may_reach(family, nm);
            let windows = self.windows(family, ways, reach_of_own, (may_have, may_reach));
            for (windows, bits) in windows {
                index.within_of(family, &windows, &of_index, &mut found);
                let own = found.drain(..).filter(|at| index.is_own_size(*at));
                positions.own.extend(own.map(|at| (at, bits)));
            }
            join(&mut positions.own);
        }
        let all = positions.standard.iter().chain(&positions.own);
        positions.ways = all.fold(0, |ways, (_, of)| ways | of);
        let positions = Rc::new(positions);
        let known = (alike, Rc::clone(ways), Rc::clone(&positions));
        self.found.push(known);
        positions
    }
}

fn alike(family: Family) -> Alike {
    (
        grid_of(family),
        is_fine(family, Role::Inner),
        family.key_dimensions().len(),
        family == Family::CombinedNeedleThrust,
    )
}

/// The first and the last of the families measured alike; others may lie between them.
fn stretch(wanted: &Alike) -> Option<(Family, Family)> {
    let is_alike = |other: &Family| alike(*other) == *wanted;
    let mut families = Family::ALL.into_iter().filter(is_alike);
    let first = families.next()?;
    Some((first, families.next_back().unwrap_or(first)))
}

/// Puts positions in order, each once with all of its ways.
fn join(positions: &mut Vec<(u32, Ways)>) {
    positions.sort_unstable_by_key(|(at, _)| *at);
    positions.dedup_by(|next, kept| {
        let is_same = next.0 == kept.0;
        if is_same {
            kept.1 |= next.1;
        }
        is_same
    });
}

/// Where those of rising positions stand that lie in a range.
fn part_of(all: &[(u32, Ways)], range: &Range<u32>) -> Range<usize> {
    let before = |end: u32| all.partition_point(|(at, _)| *at < end);
    before(range.start)..before(range.end)
}

pub(super) fn figure(reading: &Reading, is_inch: bool) -> &ReadLength {
    match (&reading.as_inches, is_inch) {
        (Some(inches), true) => inches,
        _ => &reading.length,
    }
}

/// How far a figure may lie from its dimension and still be of it: beyond, its weight is below a millionth.
fn reach(family: Family, role: Role, reading: &Reading) -> Reach {
    match (family, role) {
        // A steel rule is read to tenths of a millimetre at best.
        _ if reading.instrument == Some(Instrument::Rule) && is_fine(family, role) => {
            (1_200_000, 100)
        }
        // A free lip is millimetres below its shaft, the core of a nut a pitch below its thread.
        (Family::LipSeal, Role::Inner | Role::Shaft | Role::FreeLip) | (Family::LockNut, _) => {
            (4_000_000, 50)
        }
        (Family::ShaftRetainingRing | Family::BoreRetainingRing | Family::ORing, _) => {
            (1_500_000, 10)
        }
        // The bore of its inner ring is millimetres below the raceway of its needles.
        (Family::CombinedNeedleThrust, Role::Inner | Role::Shaft) => (8_500_000, 100),
        _ if is_fine(family, role) => (800_000, 100),
        _ => (1_200_000, 100),
    }
}

/// The same for sizes that only the shop's own list has.
///
/// There may be so many of them that one or another lies near any figures: none is guessed from figures further off than
/// a calliper and usual wear explain (common practice, no source).
fn reach_of_own(family: Family, role: Role, reading: &Reading) -> Reach {
    if reading.instrument == Some(Instrument::Rule) {
        return reach(family, role, reading);
    }
    match (family, role) {
        (Family::LipSeal, Role::Inner) => (2_500_000, 50),
        (Family::LipSeal, Role::FreeLip) | (Family::LockNut, _) => reach(family, role, reading),
        (Family::LipSeal, Role::Shaft) => (350_000, 400),
        (Family::LipSeal, _) => (700_000, 400),
        (Family::ORing, _) => (500_000, 25),
        (Family::ShaftRetainingRing | Family::BoreRetainingRing, _) => (350_000, 400),
        _ if is_fine(family, role) => (350_000, 400),
        _ => (800_000, 400),
    }
}

/// False where new parts are spread over tenths of a millimetre, or far from their nominal size.
const fn is_fine(family: Family, role: Role) -> bool {
    !matches!(
        (family, role),
        (
            Family::NeedleCage
                | Family::DrawnCupNeedle
                | Family::CombinedNeedleThrust
                | Family::ThrustNeedle
                | Family::ThrustBall
                | Family::LipSeal
                | Family::LockNut
                | Family::ORing
                | Family::ShaftRetainingRing
                | Family::BoreRetainingRing,
            _
        ) | (Family::DowelPin, Role::Width)
    )
}

/// Least and greatest dimension that a figure may be of, nanometres.
fn window(role: Role, (fixed_nm, part): Reach, x_nm: i64) -> Window {
    if role == Role::Room {
        return (1, x_nm + OVER_ROOM_NM);
    }
    (
        (x_nm - fixed_nm) * part / (part + 1) - ROUNDING_NM,
        (x_nm + fixed_nm) * part / (part - 1) + ROUNDING_NM,
    )
}

/// One figure as one dimension in one unit: what of it hangs on no size.
#[derive(Debug)]
pub(super) struct Dealt<'a> {
    pub(super) reading: &'a Reading,
    /// The figure in its unit.
    pub(super) read: &'a ReadLength,
    pub(super) role: Role,
    /// Place of its dimension among those of the family.
    place: Option<usize>,
    reach: Reach,
    family: Family,
}

impl<'a> Dealt<'a> {
    pub(super) fn new(family: Family, reading: &'a Reading, role: Role, is_inch: bool) -> Self {
        Self {
            reading,
            read: figure(reading, is_inch),
            role,
            place: role.place(family),
            reach: reach(family, role, reading),
            family,
        }
    }

    /// Its dimension of a size.
    pub(super) fn nominal(&self, size: &SizeKey) -> Option<Length> {
        size.length_at(self.place?)
    }

    /// True where it comes near its dimension.
    pub(super) fn is_near(&self, size: &SizeKey) -> bool {
        let Some(nominal) = self.nominal(size) else {
            return self.family == Family::ORing && self.role == Role::Outer;
        };
        let (x_nm, nm) = (self.read.length.as_nm(), nominal.as_nm());
        if self.role == Role::Room {
            return nm <= x_nm + OVER_ROOM_NM;
        }
        let (fixed_nm, part) = self.reach;
        let off_nm = (x_nm - nm).abs();
        // Most lie within the fixed part.
        off_nm <= fixed_nm || off_nm <= fixed_nm + nm / part
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    #[test]
    fn no_reach_is_longer_than_the_longest() {
        let question = Question::read("40x80x18").unwrap();
        let mut reading = question.readings[0].clone();
        for instrument in [None, Some(Instrument::Rule)] {
            reading.instrument = instrument;
            for family in Family::ALL {
                for role in [Role::Inner, Role::Shaft, Role::FreeLip]
                    .into_iter()
                    .chain(roles_of(family))
                {
                    for (fixed_nm, part) in [
                        reach(family, role, &reading),
                        reach_of_own(family, role, &reading),
                    ] {
                        let (longest_nm, largest_part) = LONGEST_REACH;
                        assert!(
                            fixed_nm <= longest_nm && part >= largest_part,
                            "{family} {role:?}"
                        );
                    }
                }
            }
        }
    }

    /// What a look at every size finds is what the grids find, for questions with every kind of figure.
    #[test]
    fn nothing_near_is_left_out() {
        for text in [
            "40x80x18",
            "44.96 84.9 19 worn",
            "3/4 x 1 5/8 x 7/16",
            "1.181 2.441 .63",
            "bore 40 od 68 room for 15",
            "O-ring 31.34 x 3.53",
            "O-ring od 38.4 x 3.5",
            "oil seal 62 x 40 x 8",
            "lip free id 33.6 on 35 shaft",
            "internal circlip 40",
            "circlip housing 40",
            "3/8 dowel",
            "od 62 w 16",
            "20 x 47 x 14 x 22",
            "M40 x 1.5 lock nut",
            "combined needle 20 37 23",
            "external circlip groove 23.9",
        ] {
            let question = Question::read(text).unwrap();
            let mut nearby = Nearby::new(&question.readings, None);
            for family in Family::ALL {
                let ways = nearby.ways(family);
                assert_eq!(
                    *ways,
                    assign::assignments(family, &question.readings),
                    "{text} {family}"
                );
                let (in_ways, found) = nearby.candidates(family, &ways);
                let found: Vec<_> = found.collect();
                assert!(
                    found.iter().all(|(_, ways)| ways & !in_ways == 0),
                    "{text} {family}"
                );
                let is_near = |size: &SizeKey, way: &Assignment, is_inch| {
                    let mut figures = question.readings.iter().zip(way.roles.iter());
                    figures.all(|(figure, role)| {
                        Dealt::new(family, figure, *role, is_inch).is_near(size)
                    })
                };
                // A bit for each way, in either unit.
                let near = |size: &SizeKey| {
                    let units = [false, true].into_iter();
                    let all = units.flat_map(|is_inch| ways.iter().map(move |way| (way, is_inch)));
                    all.zip(0..).fold(0, |near: Ways, ((way, is_inch), bit)| {
                        near | Ways::from(is_near(size, way, is_inch)) << bit
                    })
                };
                let has_inch = (question.readings.iter()).all(|read| read.as_inches.is_some());
                let both: Ways = if has_inch {
                    Ways::MAX
                } else {
                    (1 << ways.len()) - 1
                };
                for candidate in super::super::candidate::of_family(family) {
                    let near = near(&candidate.size) & both;
                    let in_ways = found.iter().find(|found| found.0.size == candidate.size);
                    let in_ways = in_ways.map_or(0, |found| found.1);
                    assert_eq!(near & !in_ways, 0, "{text}: {} {}", family, candidate.size);
                }
                assert!(
                    found.is_sorted_by_key(|(candidate, _)| candidate.size),
                    "{text} {family}"
                );
            }
        }
    }
}
