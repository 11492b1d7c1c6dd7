//! The workshops that parts are drawn from: how they wear, how they are read, which sizes are popular, what specials are.
//!
//! Both differ from the matcher's model and from each other. Constants of the matcher are chosen while looking at
//! [`OTHER`]; the figures of DEVELOPERS.md are those of [`WORKSHOP`]. All numbers here are invented.

use super::dice::Dice;

/// How errors of reading spread.
#[derive(Clone, Copy, PartialEq)]
pub enum Errors {
    /// Student's t with four degrees of freedom.
    Student,
    /// Laplace's.
    Laplace,
}

/// How wear spreads.
#[derive(Clone, Copy, PartialEq)]
pub enum Wear {
    /// The positive half of a normal spread.
    HalfNormal,
    /// Exponential.
    Exponential,
}

/// How new parts lie in their band.
#[derive(Clone, Copy, PartialEq)]
pub enum Band {
    /// Anywhere alike.
    Even,
    /// Rather in the middle.
    Middle,
}

/// A model of a workshop.
pub struct World {
    pub name: &'static str,
    /// Share of parts in no table.
    pub outside_share: f64,
    pub band: Band,
    pub errors: Errors,
    pub error_mm: f64,
    /// Spread of the bias that all readings of one person share.
    pub bias_mm: f64,
    pub wear: Wear,
    pub worn_share: f64,
    /// Factor on the scale of wear.
    pub wear_factor: f64,
    /// Share of the dimensions of a special that are not those of its model.
    pub moved_share: f64,
    /// How far a moved dimension moves at most, mm.
    pub reach_mm: f64,
    /// Steps that moved dimensions are rounded to, mm, and their shares.
    pub steps: &'static [(f64, f64)],
    /// Share of free retaining rings and free lips that are measured instead of their seats.
    pub free_share: f64,
    /// Popularity of a size by its first dimension and place in the table.
    pub popularity: fn(f64, usize) -> f64,
}

/// The one that figures are reported of.
pub const WORKSHOP: World = World {
    name: "workshop",
    outside_share: 0.1,
    band: Band::Even,
    errors: Errors::Student,
    error_mm: 0.02,
    bias_mm: 0.008,
    wear: Wear::HalfNormal,
    worn_share: 0.4,
    wear_factor: 1.0,
    moved_share: 0.6,
    reach_mm: 4.0,
    steps: &[(0.5, 0.5), (1.0, 0.5)],
    free_share: 0.35,
    popularity: round_and_small,
};

/// The one that constants are chosen on.
pub const OTHER: World = World {
    name: "other workshop",
    outside_share: 0.07,
    band: Band::Middle,
    errors: Errors::Laplace,
    error_mm: 0.016,
    bias_mm: 0.012,
    wear: Wear::Exponential,
    worn_share: 0.55,
    wear_factor: 0.8,
    moved_share: 0.4,
    reach_mm: 6.0,
    steps: &[(0.1, 0.2), (0.5, 0.3), (1.0, 0.3), (5.0, 0.2)],
    free_share: 0.5,
    popularity: few_favourites,
};

/// Round millimetres three times the others, and the smaller the likelier.
fn round_and_small(first_mm: f64, _: usize) -> f64 {
    let round = if (first_mm / 5.0).fract().abs() < 1e-9 {
        1.0
    } else {
        0.35
    };
    round * 30.0 / (30.0 + first_mm)
}

/// Each size has a weight of its own between 1 and 10.
fn few_favourites(_: f64, at: usize) -> f64 {
    10f64.powf(Dice::new(at as u64 + 99).unit())
}

impl World {
    /// A place within a band.
    pub fn within(&self, dice: &mut Dice, low_mm: f64, high_mm: f64) -> f64 {
        match self.band {
            Band::Even => dice.between(low_mm, high_mm),
            Band::Middle => (dice.between(low_mm, high_mm) + dice.between(low_mm, high_mm)) / 2.0,
        }
    }

    /// One error of reading, mm.
    pub fn error(&self, dice: &mut Dice) -> f64 {
        self.error_mm
            * match self.errors {
                Errors::Student => dice.student(),
                Errors::Laplace => dice.laplace(),
            }
    }

    /// Share of errors below a value, mm.
    pub fn error_below(&self, mm: f64) -> f64 {
        let t = mm / self.error_mm;
        match self.errors {
            // Student's distribution with four degrees of freedom in closed form.
            Errors::Student => {
                let root = 1.0 + t * t / 4.0;
                0.5 + 0.375 * t / root.sqrt() * (1.0 - t * t / root / 12.0)
            }
            Errors::Laplace if t < 0.0 => 0.5 * t.exp(),
            Errors::Laplace => 1.0 - 0.5 * (-t).exp(),
        }
    }

    /// Wear of scale 1; 0 for a sound place.
    pub fn wear(&self, dice: &mut Dice) -> f64 {
        if dice.unit() >= self.worn_share {
            return 0.0;
        }
        self.wear_factor
            * match self.wear {
                Wear::HalfNormal => dice.normal().abs(),
                Wear::Exponential => -dice.unit().ln(),
            }
    }

    /// Wear of scale 1 as points with weights that add up to 1.
    pub fn wear_points(&self) -> Vec<(f64, f64)> {
        const POINTS: usize = 14;
        let (reach, weight): (f64, fn(f64) -> f64) = match self.wear {
            Wear::HalfNormal => (3.2, |z| (-0.5 * z * z).exp()),
            Wear::Exponential => (6.0, |z| (-z).exp()),
        };
        let points: Vec<(f64, f64)> = (0..POINTS)
            .map(|at| {
                let z = (at as f64 + 0.5) * reach / POINTS as f64;
                (self.wear_factor * z, weight(z))
            })
            .collect();
        let sum: f64 = points.iter().map(|(_, weight)| weight).sum();
        let worn = points
            .into_iter()
            .map(|(z, weight)| (z, self.worn_share * weight / sum));
        std::iter::once((0.0, 1.0 - self.worn_share))
            .chain(worn)
            .collect()
    }

    /// A moved dimension.
    pub fn moved(&self, dice: &mut Dice, mm: f64) -> f64 {
        let mut left = dice.unit();
        let mut step = self.steps[0].0;
        for (of, share) in self.steps {
            step = *of;
            left -= share;
            if left < 0.0 {
                break;
            }
        }
        let to = mm + dice.between(-self.reach_mm, self.reach_mm);
        (to / step).round() * step
    }

    /// Chance that a dimension of a special is `to_mm` where its model's is `mm`.
    pub fn chance_of(&self, mm: f64, to_mm: f64) -> f64 {
        let stayed = if (to_mm - mm).abs() < 1e-6 {
            1.0 - self.moved_share
        } else {
            0.0
        };
        let moved: f64 = self
            .steps
            .iter()
            .filter(|(step, _)| (to_mm / step - (to_mm / step).round()).abs() < 1e-6)
            .map(|(step, share)| {
                let low = (to_mm - step / 2.0).max(mm - self.reach_mm);
                let high = (to_mm + step / 2.0).min(mm + self.reach_mm);
                share * (high - low).max(0.0) / (2.0 * self.reach_mm)
            })
            .sum();
        stayed + self.moved_share * moved
    }

    /// The finest step.
    pub fn finest_mm(&self) -> f64 {
        self.steps
            .iter()
            .map(|(step, _)| *step)
            .fold(f64::INFINITY, f64::min)
    }
}
