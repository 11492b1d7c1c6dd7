//! Densities of measured figures under a band, kept between questions: they hang on how far a figure lies from its dimension,
//! not on either, so that whole and half millimetres meet the same few of them again and again.

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

use super::density::{Curve, Model};
use super::expected::Expected;
use super::instrument::spread;
use super::mixed::Mixing;
use super::near::Dealt;
use super::special::RoundOnes;
use crate::units::{Length, ReadLength};

/// Finest and coarsest half digit that a density is counted over, mm.
const HALF_DIGIT_MM: (f64, f64) = (0.005, 0.05);
/// More curves than this are forgotten, and more densities of one.
const MOST_CURVES: usize = 1_024;
const MOST_DENSITIES: usize = 4_096;

/// All that a curve hangs on, numbers by their bits: band, wear, softness, what the band is counted from, instrument, half
/// digit, and how many are worn.
type Key = [u64; 9];

/// A curve and its densities so far.
#[derive(Debug)]
struct Kept {
    curve: Curve,
    /// Middle of the band above the dimension, mm.
    middle_mm: f64,
    /// By how far the figure lies above the dimension, nanometres.
    own: HashMap<i64, f64, Mixing>,
    /// By how far the figure lies above a round dimension, nanometres.
    round: HashMap<i64, RoundOnes, Mixing>,
}

type Shared = Rc<RefCell<Kept>>;

thread_local! {
    static KEPT: RefCell<HashMap<Key, Shared, Mixing>> = RefCell::default();
}

/// The curve that a figure met last: sizes beside each other mostly have one band.
#[derive(Debug, Default)]
pub(super) struct Last {
    /// What of the way a curve hangs on, by its bits.
    way: [u64; 6],
    curve: Option<Shared>,
}

impl Last {
    /// The curve of a figure that came about one way.
    fn curve(&mut self, dealt: &Dealt<'_>, way: &Expected, shift_mm: f64) -> Shared {
        let bits = [
            way.band.lower_um,
            way.band.upper_um,
            way.band_share,
            way.wear_mm,
            way.soft_mm,
            shift_mm,
        ]
        .map(f64::to_bits);
        if let Some(curve) = self.curve.as_ref().filter(|_| self.way == bits) {
            return Rc::clone(curve);
        }
        let curve = kept(dealt, way, shift_mm);
        *self = Self {
            way: bits,
            curve: Some(Rc::clone(&curve)),
        };
        curve
    }
}

/// Densities of a figure of a dimension that came about one way, and of a special that differs from it here.
pub(super) fn of(
    dealt: &Dealt<'_>,
    nominal: Option<Length>,
    way: &Expected,
    last: &mut Last,
) -> (f64, f64) {
    let nominal_mm = nominal.map_or(way.base_mm, Length::to_mm);
    // Of a free ring or the core of a nut the band is not counted from the dimension.
    let shift_mm = way.base_mm - nominal_mm;
    let curve = last.curve(dealt, way, shift_mm);
    let mut one = curve.borrow_mut();
    let x = dealt.read.length;
    let own = match nominal {
        Some(nominal) => one.own(x.as_nm() - nominal.as_nm()),
        None => one.curve.density(x.to_mm() - nominal_mm - one.middle_mm),
    };
    (own, one.other_than(nominal_mm, x.as_nm()))
}

/// The curve of a figure that came about one way, from question to question.
fn kept(dealt: &Dealt<'_>, way: &Expected, shift_mm: f64) -> Shared {
    let (key, model) = model(dealt, way, shift_mm);
    KEPT.with_borrow_mut(|kept| {
        if kept.len() >= MOST_CURVES && !kept.contains_key(&key) {
            kept.clear();
        }
        let new = || {
            Rc::new(RefCell::new(Kept {
                curve: model.curve(),
                middle_mm: shift_mm + way.band.middle_mm(),
                own: HashMap::default(),
                round: HashMap::default(),
            }))
        };
        Rc::clone(kept.entry(key).or_insert_with(new))
    })
}

impl Kept {
    fn own(&mut self, away_nm: i64) -> f64 {
        if self.own.len() >= MOST_DENSITIES {
            self.own.clear();
        }
        let density = || self.curve.density(away_nm as f64 / 1e6 - self.middle_mm);
        *self.own.entry(away_nm).or_insert_with(density)
    }

    fn other_than(&mut self, nominal_mm: f64, x_nm: i64) -> f64 {
        if self.round.len() >= MOST_DENSITIES {
            self.round.clear();
        }
        let (step, above_nm) = RoundOnes::step_below(x_nm);
        let round = self
            .round
            .entry(above_nm)
            .or_insert_with(|| RoundOnes::new(&self.curve, self.middle_mm, above_nm));
        round.other_than(nominal_mm, step)
    }
}

/// The model of a figure, and all that it hangs on.
///
/// A worn part is worn at this place four times in five; one that nobody calls worn, three times in ten.
fn model(dealt: &Dealt<'_>, way: &Expected, shift_mm: f64) -> (Key, Model) {
    let half_mm = half_mm(dealt.read);
    let own = way.soft_mm * way.soft_mm + half_mm * half_mm / 3.0;
    let model = Model {
        half_band_mm: way.band_share * way.band.band_mm() / 2.0,
        own_mm: own.sqrt(),
        spread: spread(dealt.reading.likely_instrument(dealt.read), dealt.role),
        wear_mm: way.wear_mm,
        worn_share: if dealt.reading.is_worn { 0.8 } else { 0.3 },
    };
    let key = [
        way.band.middle_mm(),
        model.half_band_mm,
        way.wear_mm,
        way.soft_mm,
        shift_mm,
        model.spread.below_mm,
        model.spread.above_mm,
        half_mm,
        model.worn_share,
    ];
    (key.map(f64::to_bits), model)
}

/// Half of the last digit of a figure, mm, as far as a density is counted over it.
pub(super) fn half_mm(read: &ReadLength) -> f64 {
    (read.half_digit_nm as f64 / 1e6).clamp(HALF_DIGIT_MM.0, HALF_DIGIT_MM.1)
}

/// Forgets every curve, as a new program has none.
#[cfg(test)]
pub(super) fn forget() {
    KEPT.with_borrow_mut(HashMap::clear);
}
