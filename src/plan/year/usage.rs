//! When a part is used, how many at a time, and on which machine.

use super::dice::Dice;
use crate::plan::demand::{Demand, EventRate, SizeMoments};

/// Shape above which a rate is taken as certain.
const CERTAIN_SHAPE: f64 = 1e7;

/// Quantity of one usage.
#[derive(Debug, Clone, PartialEq)]
pub enum Sizes {
    /// Quantities as they were, each with the share of usages that take at most that many.
    Recorded(Vec<(f64, f64)>),
    /// Whole pieces from one up, by mean and squared coefficient of variation.
    Moments(SizeMoments),
}

/// How a part is used.
#[derive(Debug, Clone, PartialEq)]
pub struct Usages {
    /// Rate, known as far as the records tell.
    pub rate: EventRate,
    /// Quantities.
    pub sizes: Sizes,
    /// Hour after which no machine uses it.
    pub until_h: f64,
    /// Machines that use it, each with the share of usages that fall on it or on one before it.
    pub machines: Vec<(f64, usize)>,
}

impl Usages {
    /// From a demand with a rate; `None` without.
    pub fn of(demand: &Demand, until_h: f64, machines: Vec<(f64, usize)>) -> Option<Self> {
        let estimate = demand.estimate.as_ref()?;
        let sizes = if let Some(taken) = demand.quantities() {
            let mut reached = 0.0;
            let shares = taken.iter().map(|(size, share)| {
                reached += share;
                (reached, f64::from(*size))
            });
            Sizes::Recorded(shares.collect())
        } else {
            Sizes::Moments(estimate.size)
        };
        Some(Self {
            rate: demand.usages()?,
            sizes,
            until_h,
            machines,
        })
    }

    /// The true rate of one replication, usages an hour: the records leave it uncertain.
    pub fn draw_rate(&self, dice: &mut Dice) -> f64 {
        let EventRate {
            shape,
            exposure_days,
        } = self.rate;
        let per_day = if shape > CERTAIN_SHAPE {
            shape / exposure_days
        } else {
            dice.gamma(shape, 1.0 / exposure_days)
        };
        per_day / 24.0
    }
}

impl Sizes {
    /// The quantity of one usage.
    ///
    /// By moments: one piece and a further number with what is left of mean and variance, negative binomial where the
    /// variance exceeds the mean, else Poisson, else the two whole numbers around the mean. A mean of one piece or less
    /// leaves no room for a spread.
    pub fn draw(&self, dice: &mut Dice) -> f64 {
        match self {
            Self::Recorded(shares) => {
                let drawn = dice.uniform();
                let found = shares.iter().find(|(reached, _)| drawn < *reached);
                found.or(shares.last()).map_or(1.0, |(_, size)| *size)
            }
            Self::Moments(size) => {
                let more = size.mean_pieces - 1.0;
                if more <= 1e-9 {
                    return size.mean_pieces;
                }
                let variance = size.squared_cv * size.mean_pieces.powi(2);
                1.0 + if variance > more {
                    let shape = more * more / (variance - more);
                    let mean = dice.gamma(shape, more / shape);
                    dice.poisson(mean)
                } else if variance > more / 2.0 {
                    dice.poisson(more)
                } else {
                    more.floor() + f64::from(u8::from(dice.uniform() < more.fract()))
                }
            }
        }
    }
}
