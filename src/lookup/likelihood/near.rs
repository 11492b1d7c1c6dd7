//! Which sizes come near the figures at all: only those are weighed.

use std::ops::Range;
use std::rc::Rc;
use std::sync::LazyLock;

use super::super::reading::{Instrument, Reading, Role};
use super::assign::{self, Assignment};
use super::candidate::{Candidate, STANDARD};
use crate::catalogue::card_index::{CardIndex, Windows, grid_of};
use crate::part::{Family, SizeKey, Span, Spans};
use crate::units::{Length, ReadLength};

/// The reach of a figure.
type Reaching = fn(Family, Role, &Reading) -> Span;
/// Roundings of a window's ends, nanometres.
const ROUNDING_NM: i64 = 10;
/// A part may be this much wider than the room given for it, nanometres: rooms are read too small as well.
const OVER_ROOM_NM: i64 = 200_000;

/// No reach is longer.
const LONGEST_REACH: Span = (8_500_000, 10);

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

/// True where figures are of the same dimensions in two families, whatever they are named.
fn are_placed_alike(one: Family, other: Family) -> bool {
    let [of_one, of_other] = [one, other].map(|family| family.facts().bench.measured);
    // A housing is what a ring for bores sits in, and the outside of a bearing.
    of_one.is_in_bore() == of_other.is_in_bore()
        && of_one.lies_in_groove() == of_other.lies_in_groove()
        && roles_of(one).eq(roles_of(other))
}

/// The first and the last of the families whose figures may lie in the same windows; others may lie between them.
type Alike = (Family, Family);

/// Rising positions, none twice, each with the ways in which it comes near.
#[derive(Default)]
struct Positions {
    standard: Vec<(u32, Ways)>,
    own: Vec<(u32, Ways)>,
    /// The ways in which any of them does.
    ways: Ways,
}

/// The window of a reach, and whether it is that of a room.
type Met = ((bool, Span), Window);

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
    fn window(last: &mut Option<Met>, role: Role, reach: Span, x_nm: i64) -> Window {
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
        let is_alike = |known: Family| are_placed_alike(known, family);
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
        let (first, last) = alike;
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

/// Those that have the grid, the reach and the count of dimensions in common.
fn alike(family: Family) -> Alike {
    static ALIKE: LazyLock<[Alike; Family::ALL.len()]> = LazyLock::new(|| {
        let of = |family: Family| {
            let facts = family.facts();
            (grid_of(family), facts.bench.reach, facts.shape.key.len())
        };
        Family::ALL.map(|family| {
            let is_alike = |other: &Family| of(*other) == of(family);
            let mut families = Family::ALL.into_iter().filter(is_alike);
            let first = families.next().unwrap_or(family);
            (first, families.next_back().unwrap_or(first))
        })
    });
    ALIKE[family as usize]
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
fn reach(family: Family, role: Role, reading: &Reading) -> Span {
    let spans = spans(family, role);
    match reading.instrument {
        Some(Instrument::Rule) => spans.by_rule,
        _ => spans.tables,
    }
}

/// The same for sizes that only the shop's own list has.
fn reach_of_own(family: Family, role: Role, reading: &Reading) -> Span {
    let spans = spans(family, role);
    match reading.instrument {
        Some(Instrument::Rule) => spans.by_rule,
        _ => spans.own,
    }
}

const fn spans(family: Family, role: Role) -> &'static Spans {
    let reach = &family.facts().bench.reach;
    match role {
        Role::Inner => &reach.inner,
        Role::Shaft => &reach.shaft,
        Role::FreeLip => &reach.free_lip,
        Role::Width => &reach.width,
        _ => &reach.other,
    }
}

/// Least and greatest dimension that a figure may be of, nanometres.
fn window(role: Role, (fixed_nm, part): Span, x_nm: i64) -> Window {
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
    reach: Span,
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
            return assign::is_ring_outside(self.family, self.role);
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
