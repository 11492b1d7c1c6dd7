//! How often the right size comes out, and whether a stated probability is as often right as it says.
//!
//! Parts are drawn, worn and measured by a model that differs from the matcher's (see [`world`]): other errors with
//! heavier tails, a bias each person has, other wear, other sizes popular, a part in ten in no table. Fixed seed. The same
//! code runs in the suite with few draws and asserted bounds, and as `accuracy` of the benchmarks with many.

mod dice;
mod number;
mod oracle;
mod part;
mod split_mix;
mod tally;
mod world;

use sparewright::lookup::{Asked, Instrument, Reading, Role, posterior};
use sparewright::part::{Dimension, Family, SizeKey, Traits};
use sparewright::units::{LengthUnit, read_length};

pub use dice::Dice;
use oracle::Oracle;
use part::Stock;
pub use split_mix::SplitMix;
pub use tally::{Bin, Tally};
pub use world::{OTHER, WORKSHOP, World};

/// Which figures a person gives.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Case {
    /// Every dimension, unnamed.
    All,
    /// The first two, named.
    Two,
    /// The first, named.
    One,
    /// A number of which characters cannot be read.
    HalfNumber,
}

/// The matcher's tally and, where asked for, the best possible one of the same draws.
pub struct Outcome {
    pub matcher: Tally,
    pub best: Option<Tally>,
}

impl Case {
    pub const fn words(self) -> &'static str {
        match self {
            Self::All => "all",
            Self::Two => "two",
            Self::One => "one",
            Self::HalfNumber => "half a number",
        }
    }
}

/// Cases that a family has.
pub fn cases(family: Family) -> Vec<Case> {
    let mut cases = match family.key_dimensions().len() {
        1 => vec![Case::All],
        2 => vec![Case::All, Case::One],
        _ => vec![Case::All, Case::Two, Case::One],
    };
    if number::is_numbered(family) {
        cases.push(Case::HalfNumber);
    }
    cases
}

/// Draws parts of a family, asks for them, and counts.
pub fn run(
    (family, case): (Family, Case),
    world: &World,
    (draws, best_draws): (usize, usize),
    seed: u64,
) -> Outcome {
    if case == Case::HalfNumber {
        return Outcome {
            // Each of these answers is judged in full, not only weighed: fewer draws.
            matcher: number::run(family, world, draws.div_ceil(5), seed),
            best: None,
        };
    }
    let stock = Stock::new(family, world);
    let oracle = (best_draws > 0).then(|| Oracle::new(&stock, world));
    let mut dice = Dice::new(seed);
    let traits = Traits::default();
    let (mut matcher, mut best) = (Tally::default(), Tally::default());
    for draw in 0..draws.max(best_draws) {
        let is_outside = dice.unit() < world.outside_share;
        let size = if is_outside {
            stock.special(&mut dice, world)
        } else {
            stock.pick(&mut dice)
        };
        let readings = readings(&mut dice, world, &stock, &size, case);
        if draw < draws {
            let readings: Vec<Reading> = readings.iter().map(|read| read.2.clone()).collect();
            let asked = Asked {
                readings: &readings,
                family: Some(family),
                families: &[],
                traits: &traits,
                is_nominal: false,
            };
            let found = posterior(&asked, Default::default());
            let list = found.scored.iter();
            let answers = list.map(|one| (one.candidate.size, one.probability));
            count(&mut matcher, is_outside, &size, answers.take(3));
        }
        if let Some(oracle) = oracle.as_ref().filter(|_| draw < best_draws) {
            let read: Vec<(Dimension, f64)> = readings
                .iter()
                .map(|(dimension, mm, _)| (*dimension, *mm))
                .collect();
            count(
                &mut best,
                is_outside,
                &size,
                oracle.answer(&read).into_iter().take(3),
            );
        }
    }
    Outcome {
        matcher,
        best: oracle.is_some().then_some(best),
    }
}

fn count(
    tally: &mut Tally,
    is_outside: bool,
    size: &SizeKey,
    answers: impl Iterator<Item = (SizeKey, f64)>,
) {
    let answers: Vec<(SizeKey, f64)> = answers.collect();
    let stated = answers.first().map_or(0.0, |(_, probability)| *probability);
    let is_right = answers.first().is_some_and(|(first, _)| first == size);
    let is_in_three = answers.iter().any(|(one, _)| one == size);
    tally.add(is_outside, stated, is_right, is_in_three);
}

fn readings(
    dice: &mut Dice,
    world: &World,
    stock: &Stock,
    size: &SizeKey,
    case: Case,
) -> Vec<(Dimension, f64, Reading)> {
    let family = size.family();
    let bias_mm = world.bias_mm * dice.normal();
    let mut dimensions: Vec<Dimension> = family.key_dimensions().to_vec();
    // The bore of the housing washer is seldom measured.
    if family == Family::ThrustBall {
        dimensions.retain(|dimension| *dimension != Dimension::HousingWasherBore);
    }
    let count = match case {
        Case::Two => 2,
        Case::One => 1,
        _ => dimensions.len(),
    };
    dimensions.truncate(count);
    dimensions
        .into_iter()
        .map(|dimension| {
            let (mm, is_worn) = stock.reads(dice, world, size, dimension, bias_mm);
            let says_worn = dice.unit() < if is_worn { 0.7 } else { 0.3 };
            let reading = Reading {
                role: (case != Case::All).then(|| Role::of(family, dimension)),
                length: read_length(&format!("{mm:.2}"), LengthUnit::Mm).expect("two decimals"),
                as_inches: None,
                instrument: Some(Instrument::Calliper),
                is_worn: says_worn,
                is_measured: true,
                is_nominal_inch: false,
            };
            (dimension, mm, reading)
        })
        .collect()
}
