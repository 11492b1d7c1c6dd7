//! What one figure, taken as one dimension in one unit, says of a size: how likely it is there, as printed and as measured,
//! and on a special that differs from the size in just this.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};
use std::ops::Deref;

use super::super::reading::{Reading, Role};
use super::candidate::Candidate;
use super::density::{Curve, Model};
use super::expected::{Expected, expected, hangs_on};
use super::instrument::spread;
use super::near::Dealt;
use super::special::{self, RoundOnes};
use crate::part::{Family, ToleranceClass};
use crate::units::{Length, ReadLength};

/// Finest and coarsest half digit that a density is counted over, mm.
const HALF_DIGIT_MM: (f64, f64) = (0.005, 0.05);
/// A whole number is meant as it stands; only finer printing is undone, mm.
const COARSEST_PRINTED_MM: f64 = 0.13;

/// Densities of one figure under the size, and under a special that differs from it here.
#[derive(Debug, Clone, Copy)]
pub(super) struct Densities {
    pub(super) own: f64,
    pub(super) changed: f64,
}

/// Densities of a figure as a printed size and as a measured one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Said {
    pub(super) printed: Densities,
    pub(super) measured: Densities,
}

/// A figure in a role and unit, with what it said of the dimensions met so far.
///
/// Many sizes share a bore, an outside or a width: each is weighed once a family.
#[derive(Debug)]
pub(super) struct Figure<'a> {
    dealt: Dealt<'a>,
    said: HashMap<[i64; 3], Said, BuildHasherDefault<Mixed>>,
}

/// Curves of a question's figures so far; many families share the limits of ISO 492.
pub(super) type KnownCurves = HashMap<[u64; 6], Measured, BuildHasherDefault<Mixed>>;

/// A measured figure under a band, wherever on the scale that lies.
#[derive(Debug)]
pub(super) struct Measured {
    curve: Curve,
    round: RoundOnes,
}

impl<'a> Figure<'a> {
    pub(super) fn new(
        family: Family,
        reading: (usize, &'a Reading),
        role: Role,
        is_inch: bool,
    ) -> Self {
        Self {
            dealt: Dealt::new(family, reading, role, is_inch),
            said: HashMap::default(),
        }
    }

    /// True where it is this figure of the question, in this role and unit.
    pub(super) fn is_of(&self, at: usize, role: Role, is_inch: bool) -> bool {
        self.at == at && self.role == role && self.is_inch == is_inch
    }

    /// What it says of a size.
    pub(super) fn said(
        &mut self,
        candidate: &Candidate,
        class: ToleranceClass,
        known: &mut KnownCurves,
    ) -> Said {
        let nominal = self.dealt.nominal(&candidate.size);
        let row = candidate.rows.first().copied();
        let [one, other] = hangs_on(&candidate.size, row, self.dealt.role);
        let key = [nominal.map_or(0, Length::as_nm), one, other];
        *self.said.entry(key).or_insert_with(|| {
            let ways = expected(&candidate.size, row, self.dealt.role, class);
            Said {
                printed: printed(self.dealt.read, self.dealt.role, nominal),
                measured: measured(&self.dealt, nominal, ways.iter().flatten(), known),
            }
        })
    }
}

impl<'a> Deref for Figure<'a> {
    type Target = Dealt<'a>;

    fn deref(&self) -> &Dealt<'a> {
        &self.dealt
    }
}

fn half_mm(read: &ReadLength) -> f64 {
    (read.half_digit_nm as f64 / 1e6).clamp(HALF_DIGIT_MM.0, HALF_DIGIT_MM.1)
}

/// Density of a printed figure: all of it on the size that prints so.
fn printed(read: &ReadLength, role: Role, nominal: Option<Length>) -> Densities {
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

fn measured<'a>(
    dealt: &Dealt<'_>,
    nominal: Option<Length>,
    ways: impl Iterator<Item = &'a Expected>,
    known: &mut KnownCurves,
) -> Densities {
    let x_mm = dealt.read.length.to_mm();
    let mut densities = Densities {
        own: 0.0,
        changed: 0.0,
    };
    for way in ways {
        let nominal_mm = nominal.map_or(way.base_mm, Length::to_mm);
        // Of a free ring or the core of a nut the band is not counted from the dimension.
        let shift_mm = way.base_mm - nominal_mm;
        let key = key(dealt, way, shift_mm);
        let of = known
            .entry(key)
            .or_insert_with(|| Measured::new(dealt, way, shift_mm));
        let away_mm = x_mm - (way.base_mm + way.band.middle_mm());
        densities.own += way.share * of.curve.density(away_mm);
        densities.changed += way.share * of.round.other_than(nominal_mm);
    }
    densities
}

/// All that a curve and its round ones hang on, numbers by their bits: figure, unit and role; band, wear, softness, shift.
fn key(dealt: &Dealt<'_>, way: &Expected, shift_mm: f64) -> [u64; 6] {
    let figure = (dealt.at as u64) << 16 | (dealt.role as u64) << 1 | u64::from(dealt.is_inch);
    let bits = [
        way.band.lower_um,
        way.band.upper_um,
        way.wear_mm,
        way.soft_mm,
        shift_mm,
    ]
    .map(f64::to_bits);
    let [lower, upper, wear, soft, shift] = bits;
    [figure, lower, upper, wear, soft, shift]
}

impl Measured {
    /// A worn part is worn at this place four times in five; one that nobody calls worn, three times in ten.
    fn new(dealt: &Dealt<'_>, way: &Expected, shift_mm: f64) -> Self {
        let half_mm = half_mm(dealt.read);
        let own = way.soft_mm * way.soft_mm + half_mm * half_mm / 3.0;
        let model = Model {
            half_band_mm: way.band.band_mm() / 2.0,
            own_mm: own.sqrt(),
            spread: spread(dealt.reading.likely_instrument(dealt.read), dealt.role),
            wear_mm: way.wear_mm,
            worn_share: if dealt.reading.is_worn { 0.8 } else { 0.3 },
        };
        let curve = model.curve();
        let middle_mm = shift_mm + way.band.middle_mm();
        let x_mm = dealt.read.length.to_mm();
        Self {
            curve,
            round: RoundOnes::new(&curve, middle_mm, x_mm),
        }
    }
}

/// A quick hash of a few numbers: nobody from outside chooses them.
#[derive(Debug, Default)]
pub(super) struct Mixed(u64);

/// An odd number whose bits are spread evenly: 2^64 over the golden ratio (Knuth, The Art of Computer Programming,
/// volume 3, section 6.4).
const SPREAD: u64 = 0x9e37_79b9_7f4a_7c15;

impl Hasher for Mixed {
    fn finish(&self) -> u64 {
        self.0 ^ self.0 >> 32
    }

    fn write(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.write_u64(u64::from(*byte));
        }
    }

    fn write_u64(&mut self, number: u64) {
        self.0 = (self.0.rotate_left(23) ^ number).wrapping_mul(SPREAD);
    }

    fn write_i64(&mut self, number: i64) {
        self.write_u64(number as u64);
    }

    fn write_usize(&mut self, number: usize) {
        self.write_u64(number as u64);
    }
}
