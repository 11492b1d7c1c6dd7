//! A card index: every part of a shop on a card, in drawers by size, with what an answer at the bench needs of it.
//!
//! It is derived: made from a [`Shop`], kept in memory or as a file beside the tables of a workspace
//! (`WORKSPACE/cards.index`), and made anew whenever the file is missing, stale or damaged. A question reads only the
//! pages it needs, and every page read is checked by its sum, see `pages.rs`. The body is
//!
//! ```text
//! places    start and length of the parts below
//! sizes     one entry a size, by family and dimensions; then one a part of unknown size
//! grids     sizes by two dimensions at a time, see `grid.rs`
//! envelopes sums of bore, outside diameter and width, with their sizes
//! names     sums of numbers, other numbers, designations and suppliers' numbers, with their cards
//! suppliers names of the suppliers
//! drawers   of each size: the suppliers that print it, its cards by what the rules of exchange look at, the cards
//! ```

mod build;
mod card;
mod code;
mod entry;
mod grid;
mod names;
mod pages;
#[cfg(feature = "tables")]
mod workspace;

pub use card::{Alike, BreakLine, Card, Glance, OfferLine, StockLine};
pub use code::{PlainTraits, TraitsInPlace};
pub use grid::{SizeGrid, Windows, grid_of};
pub use names::NamedCard;
pub use pages::IndexFault;
#[cfg(feature = "tables")]
pub use workspace::{CARDS, Opened, load, make, open};

use std::borrow::Cow;
use std::ops::Range;
use std::path::Path;

use super::shop::Shop;
use crate::part::{Family, SizeKey};
use crate::units::Length;
use code::In;
use entry::{ENTRY, Entry};
use grid::{Grids, Wanted, lower_bound};
use pages::Pages;

/// Parts of the body, in order.
const SIZES: usize = 0;
const GRIDS: usize = 1;
const ENVELOPES: usize = 2;
const NAMES: usize = 3;
const SUPPLIERS: usize = 4;
const DRAWERS: usize = 5;
/// How many parts the body has.
const SECTIONS: usize = 6;
/// Bytes of an envelope: sum and size.
const ENVELOPE: u64 = 12;

/// A shop's parts by size and name.
#[derive(Debug)]
pub struct CardIndex {
    pages: Pages,
    /// Start of each part of the body.
    starts: [u64; SECTIONS],
    /// Length of each part of the body.
    lengths: [u64; SECTIONS],
    grids: Grids,
    /// First position of each family's sizes, and the end of the last.
    families: Vec<u32>,
    /// A bit a position, set for a size of the shop's own; `None` where the entries are in a file, not in memory.
    own: Option<Vec<u64>>,
}

/// The cards of one size.
#[derive(Debug, Clone)]
pub struct Drawer<'a> {
    /// The size; `None` for a part of unknown size.
    pub size: Option<SizeKey>,
    /// Who prints the size, and the kinds of its cards, as they stand.
    head: Cow<'a, [u8]>,
    /// Where the places of the cards stand.
    places: u64,
    /// Where the first card stands.
    cards: u64,
    count: u32,
}

impl CardIndex {
    /// Makes the index of a shop, in memory.
    pub fn of_shop(shop: &Shop) -> Self {
        Self::of(Pages::in_memory(build::body(shop)))
    }

    /// Opens a file that was made from `key`; of it only what a question needs is read.
    ///
    /// # Errors
    /// [`IndexFault`] where it is missing, stale or seen to be damaged. Damage further back is seen when it is read:
    /// see [`fault`](Self::fault).
    pub fn open(path: &Path, key: &str) -> Result<Self, IndexFault> {
        Pages::open(path, key).map(Self::of).and_then(Self::sound)
    }

    /// Reads the whole of a file, for a program that asks often.
    ///
    /// # Errors
    /// As [`open`](Self::open), and for damage anywhere.
    pub fn load(path: &Path, key: &str) -> Result<Self, IndexFault> {
        Pages::load(path, key).map(Self::of).and_then(Self::sound)
    }

    fn sound(self) -> Result<Self, IndexFault> {
        match self.fault() {
            Some(fault) => Err(fault.clone()),
            None => Ok(self),
        }
    }

    fn of(pages: Pages) -> Self {
        let (mut starts, mut lengths) = ([0; SECTIONS], [0; SECTIONS]);
        for at in 0..SECTIONS {
            starts[at] = u64::from_le_bytes(pages.array(16 * at as u64));
            lengths[at] = u64::from_le_bytes(pages.array(16 * at as u64 + 8));
        }
        let grids = Grids::open(&pages, starts[GRIDS]);
        let mut index = Self {
            pages,
            starts,
            lengths,
            grids,
            families: Vec::new(),
            own: None,
        };
        let count = index.count(SIZES, ENTRY);
        if index.pages.are_in_memory() {
            index.own = Some(index.own_bits(count));
        }
        let rank = |at| index.entry(at).family_rank();
        index.families = (0..=Family::ALL.len())
            .map(|family| lower_bound(0, count, |at| usize::from(rank(at)) < family))
            .collect();
        index
    }

    /// What was found wrong with the file while questions were answered; an answer given since is not to be used.
    pub fn fault(&self) -> Option<&IndexFault> {
        self.pages.fault()
    }

    /// Length of the body, bytes.
    pub const fn length(&self) -> u64 {
        self.pages.length()
    }

    fn count(&self, section: usize, bytes: u64) -> u32 {
        u32::try_from(self.lengths[section] / bytes).unwrap_or(u32::MAX)
    }

    fn entry(&self, at: u32) -> Entry {
        Entry(self.pages.array(self.starts[SIZES] + ENTRY * u64::from(at)))
    }

    /// The size at a position; `None` for a part of unknown size.
    pub fn size(&self, at: u32) -> Option<SizeKey> {
        self.entry(at).size()
    }

    /// How many parts are of the size at a position.
    pub fn parts_of(&self, at: u32) -> u32 {
        self.entry(at).parts()
    }

    /// True for a size that no standard table has; of sizes that differ in their fit only, the first.
    pub fn is_own_size(&self, at: u32) -> bool {
        match &self.own {
            Some(bits) => bits
                .get(at as usize / 64)
                .is_some_and(|bits| bits >> (at % 64) & 1 == 1),
            None => self.entry(at).is_own(),
        }
    }

    /// A question that gives few figures asks this of thousands of sizes: the entries are spread over megabytes.
    fn own_bits(&self, count: u32) -> Vec<u64> {
        let mut bits = vec![0u64; (count as usize).div_ceil(64)];
        for at in (0..count).filter(|at| self.entry(*at).is_own()) {
            bits[at as usize / 64] |= 1 << (at % 64);
        }
        bits
    }

    /// Positions of the sizes of a family.
    pub fn positions_of(&self, family: Family) -> Range<u32> {
        let rank = Family::ALL
            .iter()
            .position(|one| *one == family)
            .unwrap_or(0);
        self.families[rank]..self.families[rank + 1]
    }

    /// Adds the positions of the sizes that lie in the windows, to whole micrometres, of every family that is
    /// measured as `family` is.
    pub fn within(&self, family: Family, windows: &Windows, found: &mut Vec<u32>) {
        self.within_of(family, windows, &(0..u32::MAX), found);
    }

    /// The same as [`within`](Self::within), of a range of positions only.
    pub fn within_of(
        &self,
        family: Family,
        windows: &Windows,
        of: &Range<u32>,
        found: &mut Vec<u32>,
    ) {
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

    /// Sizes of one family whose inner and outer diameter both lie within `reach_nm` of those of `size`.
    pub fn near(&self, size: &SizeKey, reach_nm: i64) -> Vec<(u32, SizeKey)> {
        self.nearest(size, reach_nm, usize::MAX)
    }

    /// Sizes as [`near`](Self::near); where there are more than `most`, the reach is halved until there are not.
    pub fn nearest(&self, size: &SizeKey, reach_nm: i64, most: usize) -> Vec<(u32, SizeKey)> {
        let Some((inner, outer)) = size.diameters() else {
            return Vec::new();
        };
        let of_family = self.positions_of(size.family());
        let within = |reach_nm: i64| {
            let mut found = Vec::new();
            let windows = around(size, inner, reach_nm);
            let wanted = Wanted {
                of: &of_family,
                // Of the narrowest reach there may be more, and all are told.
                most: if reach_nm > 0 { most } else { usize::MAX },
            };
            self.grids
                .within(&self.pages, size.family(), &windows, &wanted, &mut found);
            found
        };
        // A search ends at one more than asked for, so that a reach too wide costs little.
        let mut reach_nm = reach_nm;
        let mut found = within(reach_nm);
        while found.len() > most && reach_nm > 0 {
            reach_nm /= 2;
            found = within(reach_nm);
        }
        found.sort_unstable();
        let is_near = |(_, have): &(u32, SizeKey)| {
            have.diameters().is_some_and(|(other_inner, other_outer)| {
                (other_inner.as_nm() - inner.as_nm()).abs() <= reach_nm
                    && (other_outer.as_nm() - outer.as_nm()).abs() <= reach_nm
            })
        };
        let sized = found
            .into_iter()
            .filter_map(|at| Some((at, self.size(at)?)));
        sized.filter(is_near).collect()
    }

    /// Positions of the sizes of the family and lengths of `size`, whatever their tolerance class.
    pub fn of_lengths(&self, size: &SizeKey) -> Vec<u32> {
        if !self.pages.are_in_memory() {
            // Halving a range of a file comes by more pages than the grids do.
            let near = self.near(size, 0).into_iter();
            let has_lengths = |have: &SizeKey| have.without_fit() == size.without_fit();
            return near
                .filter(|(_, have)| has_lengths(have))
                .map(|(at, _)| at)
                .collect();
        }
        let of_family = self.positions_of(size.family());
        let lengths = entry::lengths_of(size);
        let first = lower_bound(of_family.start, of_family.end, |at| {
            self.entry(at).lengths() < lengths
        });
        (first..of_family.end)
            .take_while(|at| self.entry(*at).lengths() == lengths)
            .collect()
    }

    /// Positions of the sizes of any family with the bore, outside diameter and width of `size`.
    pub fn of_envelope(&self, size: &SizeKey) -> Vec<(u32, SizeKey)> {
        if self.pages.are_in_memory() {
            return self.of_envelope_by_grids(size);
        }
        let Some(sum) = entry::envelope_sum(size) else {
            return Vec::new();
        };
        let (start, count) = (self.starts[ENVELOPES], self.count(ENVELOPES, ENVELOPE));
        let sum_at =
            |at: u32| u64::from_le_bytes(self.pages.array(start + ENVELOPE * u64::from(at)));
        let first = lower_bound(0, count, |at| sum_at(at) < sum);
        (first..count)
            .take_while(|at| sum_at(*at) == sum)
            .map(|at| self.pages.u32(start + ENVELOPE * u64::from(at) + 8))
            .filter_map(|at| Some((at, self.size(at)?)))
            .filter(|(_, have)| have.has_envelope_of(size))
            .collect()
    }

    /// The same by the grids of the families that have an envelope: in memory that is quicker than a sum.
    fn of_envelope_by_grids(&self, size: &SizeKey) -> Vec<(u32, SizeKey)> {
        let Some((inner, outer, width)) = size.envelope() else {
            return Vec::new();
        };
        let exactly = |length: Length| Some((length.as_nm(), length.as_nm()));
        let mut found = Vec::new();
        for family in grid::firsts() {
            let shape = &family.facts().shape;
            let Some(width_place) = shape.width_place else {
                continue;
            };
            let mut windows = Windows::default();
            windows.0[0] = exactly(inner);
            windows.0[shape.outer_place] = exactly(outer);
            windows.0[width_place] = exactly(width);
            self.within(family, &windows, &mut found);
        }
        found.sort_unstable();
        let sized = found
            .into_iter()
            .filter_map(|at| Some((at, self.size(at)?)));
        sized
            .filter(|(_, have)| have.has_envelope_of(size))
            .collect()
    }

    /// Position of exactly this size.
    pub fn position(&self, size: &SizeKey) -> Option<u32> {
        let mut same = self.of_lengths(size).into_iter();
        same.find(|at| self.size(*at).as_ref() == Some(size))
    }

    /// Suppliers that print the size at a position in their own words.
    pub fn printed_by(&self, at: u32) -> Vec<String> {
        let (start, head) = self.entry(at).drawer();
        let bytes = self
            .pages
            .bytes(self.starts[DRAWERS] + start, head as usize);
        In::new(&bytes).texts()
    }

    /// The drawer of the size at a position.
    pub fn drawer(&self, at: u32) -> Drawer<'_> {
        let entry = self.entry(at);
        let (start, head) = entry.drawer();
        let start = self.starts[DRAWERS] + start;
        let places = start + u64::from(head);
        Drawer {
            size: entry.size(),
            head: self.pages.bytes(start, head as usize),
            places,
            cards: places + 4 * (u64::from(entry.parts()) + 1),
            count: entry.parts(),
        }
    }

    /// The cards of a drawer, by what the rules of exchange look at.
    pub fn alike(&self, drawer: &Drawer<'_>) -> Vec<Alike> {
        self.kinds(drawer, Alike::read)
    }

    /// The same at a glance.
    pub fn glances<'d>(&self, drawer: &'d Drawer<'_>) -> Vec<Glance<'d>> {
        self.kinds(drawer, Glance::read)
    }

    fn kinds<'d, T>(&self, drawer: &'d Drawer<'_>, read: impl Fn(&mut In<'d>) -> T) -> Vec<T> {
        let mut bytes = In::new(&drawer.head);
        bytes.skip_texts();
        let count = bytes.count().min(drawer.count as usize);
        let kinds = (0..count).map(|_| read(&mut bytes)).collect();
        if bytes.is_short {
            self.pages.note_damage("a drawer ends too soon");
        }
        kinds
    }

    /// A card of a drawer, by its position.
    pub fn card(&self, drawer: &Drawer<'_>, at: u32) -> Option<Card> {
        if at >= drawer.count {
            return None;
        }
        let places: [u8; 8] = self.pages.array(drawer.places + 4 * u64::from(at));
        let place = |from: usize| u32::from_le_bytes(pages::array(&places[from..]));
        let (start, end) = (place(0), place(4));
        let bytes = self.pages.bytes(
            drawer.cards + u64::from(start),
            end.saturating_sub(start) as usize,
        );
        let mut bytes = In::new(&bytes);
        let card = Card::read(&mut bytes, |at| self.supplier(at));
        if bytes.is_short {
            self.pages.note_damage("a card ends too soon");
            return None;
        }
        Some(card)
    }

    fn supplier(&self, at: u32) -> String {
        let start = self.starts[SUPPLIERS];
        let count = self.pages.u32(start);
        if at >= count {
            self.pages.note_damage("a supplier is missing");
            return String::new();
        }
        let place = |at: u32| self.pages.u32(start + 4 + 4 * u64::from(at));
        let (from, until) = (place(at), place(at + 1));
        let texts = start + 4 + 4 * (u64::from(count) + 1);
        let bytes = self
            .pages
            .bytes(texts + u64::from(from), until.saturating_sub(from) as usize);
        String::from_utf8_lossy(&bytes).into_owned()
    }
}

/// Windows around the diameters of a size.
fn around(size: &SizeKey, inner: Length, reach_nm: i64) -> Windows {
    let window = |nm: i64| Some((nm - reach_nm, nm + reach_nm));
    let mut windows = Windows::default();
    windows.0[0] = window(inner.as_nm());
    let place = size.family().facts().shape.outer_place;
    if let Some(length) = size.length_at(place).filter(|_| place > 0) {
        // A section that differs by as much, or an outer diameter.
        windows.0[place] = window(length.as_nm());
    }
    windows
}
