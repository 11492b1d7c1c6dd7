//! Sizes by two of their dimensions at a time, so that those near any figures are found without looking at the others.
//!
//! Families that measure the same three things share a grid. A grid is sorted by a strip of the first dimension, then by
//! a row of the second, then by the third: what lies in a window of all three is a short run in a few rows of a few strips.

use std::ops::Range;

use super::pages::Pages;
use crate::part::{Family, SizeKey};

/// Width of a strip, µm.
const STRIP_UM: u32 = 500;
/// Width of a row, µm.
const ROW_UM: u32 = 250;
/// A run of entries up to this long is looked through; a longer one is searched row by row.
const SHORT_RUN: usize = 48;
/// More rows than this are looked through in any case.
const MOST_ROWS: u32 = 64;
/// Strips; the last one holds everything beyond.
const STRIPS: usize = 4096;
/// Bytes of an entry: the dimensions that the grid is by, the remaining one, all in µm, and the position of the size.
const ENTRY: u64 = 16;
/// Bytes of a grid's place in the table of grids: start and count.
const PLACE: usize = 12;
/// A second dimension spreads over about this much, µm: only for guessing which grid has least to look at.
const USUAL_SPREAD_UM: f64 = 60_000.0;

/// Families.
const FAMILIES: usize = Family::ALL.len();

/// The group of grids of each family, and how many groups there are: numbered in the order of the families that come first.
const GROUPS: ([usize; FAMILIES], usize) = {
    let mut groups = [0; FAMILIES];
    let (mut at, mut next) = (0, 0);
    while at < FAMILIES {
        let with = Family::ALL[at].facts().shape.grid_with as usize;
        assert!(with <= at, "a grid is named by the first family in it");
        if with == at {
            groups[at] = next;
            next += 1;
        } else {
            groups[at] = groups[with];
        }
        at += 1;
    }
    (groups, next)
};

/// How many dimensions of their key the grids of each group are by.
const DIMENSIONS: [usize; GROUPS.1] = {
    let mut dimensions = [0; GROUPS.1];
    let mut at = FAMILIES;
    while at > 0 {
        at -= 1;
        let count = Family::ALL[at].key_dimensions().len();
        dimensions[GROUPS.0[at]] = if count > 3 { 3 } else { count };
    }
    dimensions
};

/// Where the grids of each group begin.
const FIRST_GRIDS: [usize; GROUPS.1] = {
    let mut first = [0; GROUPS.1];
    let mut group = 1;
    while group < first.len() {
        first[group] = first[group - 1] + DIMENSIONS[group - 1];
        group += 1;
    }
    first
};

/// Least and greatest value of each key dimension, nanometres, ends included; `None` where any will do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Windows(pub [Option<(i64, i64)>; 4]);

impl Windows {
    /// True where a size lies in every window.
    pub fn hold(&self, size: &SizeKey) -> bool {
        size.dimensions().zip(&self.0).all(|((_, length), window)| {
            window.is_none_or(|(low, high)| (low..=high).contains(&length.as_nm()))
        })
    }

    /// True where no size can lie in all windows, because an inner diameter is smaller than its outer one.
    pub fn are_empty(&self, family: Family) -> bool {
        let crossed = |(low, high): &(i64, i64)| low > high || *high < 0;
        let swapped = |(inner, outer): &(usize, usize)| matches!((self.0[*inner], self.0[*outer]), (Some((inner, _)), Some((_, outer))) if inner >= outer);
        self.0.iter().flatten().any(crossed) || family.facts().shape.ordered.iter().any(swapped)
    }

    /// The windows of a group's dimensions, µm.
    fn columns(&self, family: Family) -> [Option<(u32, u32)>; 3] {
        let um = |(low, high): (i64, i64)| (to_um(low), to_um(high));
        let [first, second, third] = columns(family);
        [
            self.0[first].map(um),
            self.0[second].map(um),
            self.0[third].map(um),
        ]
    }
}

fn to_um(nm: i64) -> u32 {
    u32::try_from(nm.max(0) / 1000).unwrap_or(u32::MAX)
}

/// Positions of a group's dimensions in the key of a family.
const fn columns(family: Family) -> [usize; 3] {
    family.facts().shape.grid_places
}

/// Number of the grids of a family; families that measure the same things share theirs.
pub const fn grid_of(family: Family) -> usize {
    GROUPS.0[family as usize]
}

/// The family that comes first in each group of grids.
pub(super) fn firsts() -> impl Iterator<Item = Family> {
    Family::ALL
        .into_iter()
        .filter(|family| family.facts().shape.grid_with == *family)
}

/// Every grid: group, and first, second and remaining dimension; each dimension comes first in one of them.
fn orders() -> impl Iterator<Item = (usize, [usize; 3])> {
    let of_group = |(group, count): (usize, usize)| {
        (0..count).map(move |first| (group, [first, (first + 1) % count, (first + 2) % count]))
    };
    DIMENSIONS.into_iter().enumerate().flat_map(of_group)
}

/// Encodes the grids of sizes; entries name sizes by their position, and places count from `base`.
pub(super) fn encode(sizes: &[SizeKey], base: u64) -> Vec<u8> {
    let orders: Vec<_> = orders().collect();
    let mut places = Vec::new();
    let mut body = Vec::new();
    let start = base + (PLACE * orders.len()) as u64;
    for (of_group, [first, second, rest]) in orders {
        let mut entries: Vec<[u32; 6]> = sizes
            .iter()
            .enumerate()
            .filter(|(_, size)| grid_of(size.family()) == of_group)
            .map(|(at, size)| {
                let values: Vec<i64> = size
                    .dimensions()
                    .map(|(_, length)| length.as_nm())
                    .collect();
                let columns = columns(size.family());
                let um = |column: usize| values.get(columns[column]).map_or(0, |nm| to_um(*nm));
                let (a, b, c) = (um(first), um(second), um(rest));
                [strip(a) as u32, b / ROW_UM, c, a, b, at as u32]
            })
            .collect();
        entries.sort_unstable();
        places.extend((start + body.len() as u64).to_le_bytes());
        places.extend((entries.len() as u32).to_le_bytes());
        let mut at = 0;
        for of_strip in 0..=STRIPS as u32 {
            at += entries[at..].partition_point(|entry| entry[0] < of_strip);
            body.extend((at as u32).to_le_bytes());
        }
        for [_, _, c, a, b, size] in entries {
            for number in [a, b, c, size] {
                body.extend(number.to_le_bytes());
            }
        }
    }
    places.append(&mut body);
    places
}

fn strip(um: u32) -> usize {
    ((um / STRIP_UM) as usize).min(STRIPS - 1)
}

/// The grids of an index.
#[derive(Debug)]
pub(super) struct Grids {
    grids: Vec<Grid>,
}

#[derive(Debug, Clone, Copy)]
struct Grid {
    /// First, second and remaining dimension.
    by: [usize; 3],
    start: u64,
    count: u32,
    /// Last strip with an entry, where the entries are in memory.
    last: usize,
}

impl Grids {
    /// Reads where the grids are.
    pub(super) fn open(pages: &Pages, base: u64) -> Self {
        let grids = orders().enumerate().map(|(at, (_, by))| {
            let place: [u8; PLACE] = pages.array(base + (at * PLACE) as u64);
            let start = u64::from_le_bytes(super::pages::array(&place));
            let count = u32::from_le_bytes(super::pages::array(&place[8..]));
            let last = count.checked_sub(1).filter(|_| pages.are_in_memory());
            let last = last.map(|at| {
                let entries = start + 4 * (STRIPS as u64 + 1);
                strip(pages.u32(entries + ENTRY * u64::from(at)))
            });
            Grid {
                by,
                start,
                count,
                last: last.unwrap_or(STRIPS - 1),
            }
        });
        Self {
            grids: grids.collect(),
        }
    }

    /// The grids of a group, in the order of the dimension that comes first in each.
    fn of_group(&self, group: usize) -> &[Grid] {
        &self.grids[FIRST_GRIDS[group]..][..DIMENSIONS[group]]
    }

    /// False where every dimension of the sizes measured as `family` is lies below a length, nanometres.
    pub(super) fn may_reach(&self, family: Family, nm: i64) -> bool {
        let mut of_group = self.of_group(grid_of(family)).iter();
        of_group.any(|grid| strip(to_um(nm)) <= grid.last)
    }

    /// False where no size measured as `family` is has its dimension at a place near a window, nanometres: one look tells it
    /// of every way to deal the other figures out.
    pub(super) fn may_have(
        &self,
        pages: &Pages,
        family: Family,
        place: usize,
        (low, high): (i64, i64),
    ) -> bool {
        let columns = columns(family);
        let column = columns.iter().position(|column| *column == place);
        let grid = column.and_then(|at| self.of_group(grid_of(family)).get(at));
        // A dimension that no grid is by may be anything.
        grid.is_none_or(|grid| {
            let (low, high) = (strip(to_um(low)), strip(to_um(high)));
            grid.starts(pages, low).0 < grid.starts(pages, high).1
        })
    }

    /// Adds those of the positions asked for whose sizes are of the group of `family` and may lie in the windows.
    pub(super) fn within(
        &self,
        pages: &Pages,
        family: Family,
        windows: &Windows,
        wanted: &Wanted<'_>,
        found: &mut Vec<u32>,
    ) {
        if windows.are_empty(family) {
            return;
        }
        let columns = windows.columns(family);
        let mut best: Option<(u64, &Grid)> = None;
        for grid in self.of_group(grid_of(family)) {
            match grid.guess(pages, columns) {
                // Nothing has that dimension: inches read of millimetres are mostly so large.
                None => return,
                Some(guess) if best.is_none_or(|(least, _)| guess < least) => {
                    best = Some((guess, grid));
                }
                Some(_) => {}
            }
        }
        if let Some((_, grid)) = best {
            grid.collect(pages, columns, wanted, found);
        }
    }
}

/// What a search is for.
pub(super) struct Wanted<'a> {
    /// Positions asked for.
    pub(super) of: &'a Range<u32>,
    /// With more than this the search may end: only that they are more is asked then.
    pub(super) most: usize,
}

impl<'a> Wanted<'a> {
    /// Every one of some positions.
    pub(super) const fn all_of(of: &'a Range<u32>) -> Self {
        Self {
            of,
            most: usize::MAX,
        }
    }
}

/// Standard sizes by their dimensions, in memory.
#[derive(Debug)]
pub struct SizeGrid {
    pages: Pages,
    grids: Grids,
}

impl SizeGrid {
    /// Indexes sizes.
    pub fn new(sizes: &[SizeKey]) -> Self {
        let pages = Pages::in_memory(encode(sizes, 0));
        let grids = Grids::open(&pages, 0);
        Self { pages, grids }
    }

    /// Adds those of the positions asked for whose sizes lie in the windows, to whole micrometres, of every family that
    /// is measured as `family` is.
    pub fn within(&self, family: Family, windows: &Windows, of: &Range<u32>, found: &mut Vec<u32>) {
        let wanted = Wanted::all_of(of);
        self.grids
            .within(&self.pages, family, windows, &wanted, found);
    }

    /// False where no size measured as `family` is has its dimension at a place near a window, nanometres.
    pub fn may_have(&self, family: Family, place: usize, window: (i64, i64)) -> bool {
        self.grids.may_have(&self.pages, family, place, window)
    }

    /// False where every dimension of the sizes measured as `family` is lies below a length, nanometres.
    pub fn may_reach(&self, family: Family, nm: i64) -> bool {
        self.grids.may_reach(family, nm)
    }
}

impl Grid {
    fn starts(&self, pages: &Pages, strip: usize) -> (u32, u32) {
        let bytes: [u8; 8] = pages.array(self.start + 4 * strip as u64);
        let at =
            |from: usize| u32::from_le_bytes(super::pages::array(&bytes[from..])).min(self.count);
        (at(0), at(4))
    }

    fn strips(&self, columns: [Option<(u32, u32)>; 3]) -> (usize, usize) {
        columns[self.by[0]].map_or((0, STRIPS - 1), |(low, high)| (strip(low), strip(high)))
    }

    /// About how many entries have to be looked at; `None` where there are none in the strips.
    fn guess(&self, pages: &Pages, columns: [Option<(u32, u32)>; 3]) -> Option<u64> {
        let (low, high) = self.strips(columns);
        let (start, end) = (self.starts(pages, low).0, self.starts(pages, high).1);
        if start >= end {
            return None;
        }
        let share = match columns[self.by[1]] {
            Some((low, high)) if self.by[1] != self.by[0] => {
                (f64::from(high - low.min(high)) / USUAL_SPREAD_UM).min(1.0)
            }
            _ => 1.0,
        };
        Some((f64::from(end - start) * share) as u64 + 8 * (high - low) as u64)
    }

    fn collect(
        &self,
        pages: &Pages,
        columns: [Option<(u32, u32)>; 3],
        wanted: &Wanted<'_>,
        found: &mut Vec<u32>,
    ) {
        let cell = Cell {
            windows: self.by.map(|by| columns[by].unwrap_or((0, u32::MAX))),
            wanted,
        };
        let (low, high) = self.strips(columns);
        let entries = self.start + 4 * (STRIPS as u64 + 1);
        if self.try_collect_in_place(pages, (low, high), &cell, found) {
            return;
        }
        for strip in low..=high {
            let (start, end) = self.starts(pages, strip);
            let place = |at: u32| entries + ENTRY * u64::from(at);
            // Of a file only the pages that the search comes by are read.
            let (first_row, last_row) = cell.rows();
            let row_at = |at: u32| pages.u32(place(at) + 4) / ROW_UM;
            let mut at = lower_bound(start, end, |at| row_at(at) < first_row);
            while at < end && !cell.is_enough(found) {
                let bytes: [u8; ENTRY as usize] = pages.array(place(at));
                let entry: EntryBytes =
                    [0, 4, 8, 12].map(|from| super::pages::array(&bytes[from..]));
                if row(&entry) > last_row {
                    break;
                }
                cell.add(&entry, found);
                at += 1;
            }
        }
    }
}

impl Grid {
    /// Adds those of some strips where their bytes lie in memory; false where they do not.
    fn try_collect_in_place(
        &self,
        pages: &Pages,
        (low, high): (usize, usize),
        cell: &Cell<'_>,
        found: &mut Vec<u32>,
    ) -> bool {
        // Where each strip starts, and where the last one ends.
        let count = high - low + 2;
        let Some(starts) = pages.in_place(self.start + 4 * low as u64, 4 * count) else {
            return false;
        };
        let entries = self.start + 4 * (STRIPS as u64 + 1);
        let Some(entries) = pages.in_place(entries, ENTRY as usize * self.count as usize) else {
            return false;
        };
        let (numbers, _) = entries.as_chunks();
        let (entries, _): (&[EntryBytes], _) = numbers.as_chunks();
        let (starts, _) = starts.as_chunks();
        let at = |start: &[u8; 4]| (u32::from_le_bytes(*start) as usize).min(entries.len());
        for strip in starts.windows(2) {
            if cell.is_enough(found) {
                break;
            }
            if let Some(strip) = entries.get(at(&strip[0])..at(&strip[1])) {
                cell.search(strip, found);
            }
        }
        true
    }
}

/// Bytes of an entry, a number after the other: first, second and remaining dimension, position of the size.
type EntryBytes = [[u8; 4]; 4];

/// What is looked for in a strip.
struct Cell<'a> {
    /// Windows of the first, second and third dimension, µm.
    windows: [(u32, u32); 3],
    wanted: &'a Wanted<'a>,
}

impl Cell<'_> {
    /// True where no more need be found.
    const fn is_enough(&self, found: &[u32]) -> bool {
        found.len() > self.wanted.most
    }

    /// First and last row.
    const fn rows(&self) -> (u32, u32) {
        let (low, high) = self.windows[1];
        (low / ROW_UM, high / ROW_UM)
    }

    /// Where its rows begin and end in the second dimension, µm, the end not included.
    const fn span_of_rows(&self) -> (u32, u32) {
        let (first, last) = self.rows();
        (first * ROW_UM, (last + 1).saturating_mul(ROW_UM))
    }

    /// Adds an entry that lies in the windows.
    fn add(&self, entry: &EntryBytes, found: &mut Vec<u32>) {
        let is_within = |place: usize| {
            let (low, high) = self.windows[place];
            (low..=high).contains(&number(entry, place))
        };
        // Strip and row are those of the first two, so that the remaining one tells most of them apart.
        if !is_within(2) || !is_within(1) || !is_within(0) {
            return;
        }
        let position = number(entry, 3);
        if self.wanted.of.contains(&position) {
            found.push(position);
        }
    }

    /// Adds those of a strip.
    fn search(&self, strip: &[EntryBytes], found: &mut Vec<u32>) {
        if strip.is_empty() {
            return;
        }
        let (start, end) = self.span_of_rows();
        let first = strip.partition_point(|entry| number(entry, 1) < start);
        let rest = &strip[first..];
        // Mostly there are few: they are seen to end sooner than where they end is found by halving.
        let is_short = (rest.get(SHORT_RUN)).is_none_or(|entry| number(entry, 1) >= end);
        let (low, high) = self.windows[2];
        let (first_row, last_row) = self.rows();
        if is_short || high == u32::MAX || last_row - first_row > MOST_ROWS {
            for entry in rest.iter().take_while(|entry| number(entry, 1) < end) {
                self.add(entry, found);
                if self.is_enough(found) {
                    return;
                }
            }
            return;
        }
        let run = &rest[..rest.partition_point(|entry| number(entry, 1) < end)];
        let mut rest = run;
        while let Some(entry) = rest.first() {
            let of_row = row(entry);
            let end = rest.partition_point(|entry| row(entry) == of_row);
            let (in_row, behind) = rest.split_at(end);
            let from = in_row.partition_point(|entry| number(entry, 2) < low);
            let near = in_row[from..].iter();
            near.take_while(|entry| number(entry, 2) <= high)
                .for_each(|entry| self.add(entry, found));
            rest = behind;
        }
    }
}

/// The row of an entry.
fn row(entry: &EntryBytes) -> u32 {
    number(entry, 1) / ROW_UM
}

/// A number of an entry.
const fn number(entry: &EntryBytes, place: usize) -> u32 {
    u32::from_le_bytes(entry[place])
}

/// First position from `start` to `end` that is not before what is looked for.
pub(super) fn lower_bound(start: u32, end: u32, is_before: impl Fn(u32) -> bool) -> u32 {
    let (mut low, mut high) = (start, end.max(start));
    while low < high {
        let middle = low + (high - low) / 2;
        if is_before(middle) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    low
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::part::PartClass;
    use crate::standard;
    use crate::units::Length;
    use proptest::prelude::*;

    fn sizes() -> Vec<SizeKey> {
        let mut sizes: Vec<SizeKey> = standard::parts().iter().map(|part| part.size).collect();
        sizes.dedup();
        sizes
    }

    #[test]
    fn every_family_has_the_dimensions_of_its_group() {
        for family in Family::ALL {
            // Bearings lie beside bearings only, and radial ones beside radial ones: the others spread otherwise.
            let first = family.facts().shape.grid_with;
            assert_eq!(grid_of(family), grid_of(first), "{family}");
            let is_radial = Family::is_radial_bearing;
            assert_eq!(is_radial(family), is_radial(first), "{family}");
            assert_eq!(
                family.class() == PartClass::Bearings,
                first.class() == PartClass::Bearings
            );
            assert_eq!(family, Family::ALL[family as usize]);
            // What lies in one column of a grid is an outer diameter of all of its families, or a width.
            let column = |family: Family, place: Option<usize>| {
                columns(family).iter().position(|of| Some(*of) == place)
            };
            let (shape, of_first) = (&family.facts().shape, &first.facts().shape);
            for (place, place_of_first) in [
                (Some(shape.outer_place), Some(of_first.outer_place)),
                (shape.width_place, of_first.width_place),
            ] {
                assert_eq!(
                    column(family, place),
                    column(first, place_of_first),
                    "{family}"
                );
            }
            let dimensions = DIMENSIONS[grid_of(family)];
            assert!(
                columns(family)[dimensions - 1] < family.key_dimensions().len(),
                "{family}"
            );
        }
    }

    fn size(family: Family, mm: &[f64]) -> SizeKey {
        let lengths: Vec<Length> = mm.iter().map(|mm| Length::from_mm(*mm).unwrap()).collect();
        SizeKey::new(family, &lengths).unwrap()
    }

    #[test]
    fn a_family_has_a_grid_for_each_of_up_to_three_dimensions() {
        // Four lengths of a thrust ball bearing, two of an O-ring, a nut and a pin, one of a retaining ring.
        for (family, count) in [
            (Family::TaperedRoller, 3),
            (Family::NeedleCage, 3),
            (Family::ThrustBall, 3),
            (Family::LipSeal, 3),
            (Family::ORing, 2),
            (Family::ShaftRetainingRing, 1),
            (Family::BoreRetainingRing, 1),
            (Family::LockNut, 2),
            (Family::DowelPin, 2),
        ] {
            assert_eq!(DIMENSIONS[grid_of(family)], count, "{family}");
        }
        assert_eq!(orders().count(), DIMENSIONS.iter().sum::<usize>());
        for (group, first) in firsts().enumerate() {
            assert_eq!(grid_of(first), group, "{first}");
            let before: usize = DIMENSIONS[..group].iter().sum();
            assert_eq!(FIRST_GRIDS[group], before, "{first}");
        }
    }

    #[test]
    fn windows_hold_what_lies_between_their_ends() {
        let of = size(Family::DeepGrooveBall, &[30.0, 62.0, 16.0]);
        let nm = |mm: f64| (mm * 1e6) as i64;
        for (windows, holds) in [
            ([None; 4], true),
            ([Some((nm(30.0), nm(30.0))), None, None, None], true),
            (
                [
                    Some((nm(29.0), nm(31.0))),
                    Some((nm(61.0), nm(63.0))),
                    None,
                    None,
                ],
                true,
            ),
            ([Some((nm(30.001), nm(31.0))), None, None, None], false),
            ([None, None, Some((nm(15.0), nm(15.999))), None], false),
            // A fourth dimension there is none of.
            ([None, None, None, Some((1, 2))], true),
        ] {
            assert_eq!(Windows(windows).hold(&of), holds, "{windows:?}");
        }
    }

    #[test]
    fn windows_are_empty_where_an_inner_diameter_is_no_smaller_than_its_outer_one() {
        let at = |mm: f64| Some(((mm - 0.5) * 1e6) as i64).zip(Some(((mm + 0.5) * 1e6) as i64));
        for (family, windows, are_empty) in [
            (
                Family::DeepGrooveBall,
                [at(30.0), at(62.0), None, None],
                false,
            ),
            (
                Family::DeepGrooveBall,
                [at(62.0), at(30.0), None, None],
                true,
            ),
            (Family::LipSeal, [at(62.0), at(40.0), None, None], true),
            // Of a thrust ball bearing the third dimension is the outer one.
            (Family::ThrustBall, [at(47.0), None, at(25.0), None], true),
            (Family::ThrustBall, [at(25.0), None, at(47.0), None], false),
            // A section is smaller than its inside diameter or not.
            (Family::ORing, [at(3.0), at(40.0), None, None], false),
            (Family::DowelPin, [at(40.0), at(6.0), None, None], false),
            // No pitch is as wide as its thread.
            (Family::LockNut, [at(2.0), at(40.0), None, None], true),
            (Family::LockNut, [at(40.0), at(1.5), None, None], false),
            (Family::DowelPin, [Some((2, 1)), None, None, None], true),
            (Family::DowelPin, [Some((-9, -1)), None, None, None], true),
        ] {
            assert_eq!(
                Windows(windows).are_empty(family),
                are_empty,
                "{family} {windows:?}"
            );
        }
    }

    #[test]
    fn a_place_is_found_by_halving() {
        let numbers = [1, 3, 3, 5, 9];
        let place = |wanted: i32| lower_bound(0, 5, |at| numbers[at as usize] < wanted);
        for (wanted, at) in [(0, 0), (1, 0), (2, 1), (3, 1), (4, 3), (9, 4), (10, 5)] {
            assert_eq!(place(wanted), at, "{wanted}");
        }
        assert_eq!(lower_bound(3, 3, |_| true), 3);
        assert_eq!(lower_bound(4, 2, |_| true), 4);
    }

    #[test]
    fn long_runs_are_searched_row_by_row_and_short_ones_looked_through_alike() {
        // One bore, three hundred outside diameters a hundredth apart, four widths: a run of twelve hundred in one strip.
        let sizes: Vec<SizeKey> = (0..300)
            .flat_map(|at| {
                [7.0, 9.0, 12.0, 16.0].map(|width| {
                    size(
                        Family::DeepGrooveBall,
                        &[30.0, 62.0 + 0.01 * f64::from(at), width],
                    )
                })
            })
            .collect();
        let grid = SizeGrid::new(&sizes);
        let nm = |mm: f64| (mm * 1e6).round() as i64;
        for (outer, width) in [
            ((62.0, 65.0), (6.9, 16.1)),
            ((62.0, 65.0), (9.0, 9.0)),
            ((62.4, 62.6), (8.0, 13.0)),
            ((62.0, 62.0), (7.0, 7.0)),
            ((63.0, 80.0), (12.0, 12.0)),
            ((40.0, 61.9), (7.0, 16.0)),
            ((1.0, 1_000.0), (16.0, 16.0)),
        ] {
            let windows = Windows([
                Some((nm(29.9), nm(30.1))),
                Some((nm(outer.0), nm(outer.1))),
                Some((nm(width.0), nm(width.1))),
                None,
            ]);
            let mut found = Vec::new();
            grid.within(Family::DeepGrooveBall, &windows, &(0..u32::MAX), &mut found);
            found.sort_unstable();
            let scanned: Vec<u32> = (0..)
                .zip(&sizes)
                .filter(|(_, size)| windows.hold(size))
                .map(|(at, _)| at)
                .collect();
            assert_eq!(found, scanned, "{outer:?} {width:?}");
        }
    }

    proptest! {
        #[test]
        fn a_window_finds_what_a_look_at_every_size_finds(
            pick in 0usize..3_000, off_nm in prop::array::uniform4(-3_000_000i64..3_000_000),
            reach_nm in prop::array::uniform4(0i64..6_000_000), given in 1u8..16,
        ) {
            let sizes = sizes();
            let grid = SizeGrid::new(&sizes);
            let size = sizes[pick % sizes.len()];
            let mut windows = Windows::default();
            for (at, (_, length)) in size.dimensions().enumerate() {
                let middle = length.as_nm() + off_nm[at];
                if given & (1 << at) != 0 {
                    windows.0[at] = Some((middle - reach_nm[at], middle + reach_nm[at]));
                }
            }
            let mut found = Vec::new();
            grid.within(size.family(), &windows, &(0..u32::MAX), &mut found);
            let holds = |size_: &SizeKey| size_.family() == size.family() && windows.hold(size_);
            let mut found: Vec<SizeKey> = found.into_iter().map(|at| sizes[at as usize]).filter(holds).collect();
            found.sort();
            let scanned: Vec<SizeKey> = sizes.iter().copied().filter(holds).collect();
            prop_assert_eq!(found, scanned);
            prop_assert_eq!(grid.pages.fault(), None);
        }
    }
}
