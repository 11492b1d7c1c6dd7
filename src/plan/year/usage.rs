//! When a part is used, how many at a time, and on which machine.

use super::dice::Dice;
use crate::plan::demand::{Demand, EventRate, FittedPosition, SizeMoments, Weibull};

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

/// Fitted pieces whose lives set when a part is used.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted {
    /// Life of their kind, running hours.
    pub life: Weibull,
    /// Positions in service.
    pub positions: Vec<FittedPosition>,
    /// Changes an hour before a piece failed and without a date.
    pub planned_per_h: f64,
}

/// When a part is used next, in one replication.
#[derive(Debug, Clone, PartialEq)]
pub enum Turn {
    /// At this true rate, usages an hour: the records leave it uncertain.
    Rate(f64),
    /// Hours at which the piece at each position is changed, then that of the next planned change.
    Lives(Vec<f64>),
}

/// How a part is used.
#[derive(Debug, Clone, PartialEq)]
pub struct Usages {
    /// Rate, known as far as the records tell.
    pub rate: EventRate,
    /// Fitted pieces, where their lives are known and hold for every usage: they come before the rate.
    pub fitted: Option<Fitted>,
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
        let sizes = if let Some((per_unit, taken)) = demand.recorded() {
            let mut reached = 0.0;
            let shares = taken.iter().map(|(size, share)| {
                reached += share;
                (reached, f64::from(*size) / f64::from(per_unit))
            });
            Sizes::Recorded(shares.collect())
        } else {
            Sizes::Moments(estimate.size)
        };
        let fitted = demand.by_lives.as_ref().map(|lives| Fitted {
            life: lives.fit.life,
            positions: lives.positions.clone(),
            planned_per_h: lives.planned_per_day / 24.0,
        });
        Some(Self {
            rate: demand.usages()?,
            fitted,
            sizes,
            until_h,
            machines,
        })
    }

    /// What one replication begins with: the true rate, or when each fitted piece fails that has lasted so long.
    pub fn begin(&self, dice: &mut Dice) -> Turn {
        let Some(fitted) = &self.fitted else {
            return Turn::Rate(self.draw_rate(dice));
        };
        let positions = fitted.positions.iter();
        let mut at_h: Vec<f64> = positions
            .map(|position| fitted.fails_after_h(position, position.age_h, dice))
            .collect();
        at_h.push(fitted.planned_after_h(dice));
        Turn::Lives(at_h)
    }

    fn draw_rate(&self, dice: &mut Dice) -> f64 {
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

    /// Hour of the next usage after `now_h`; `None` where there is none.
    pub fn next_h(&self, turn: &Turn, now_h: f64, dice: &mut Dice) -> Option<f64> {
        match turn {
            Turn::Rate(per_h) => (*per_h > 0.0).then(|| now_h + dice.exponential() / per_h),
            Turn::Lives(at_h) => at_h.iter().copied().min_by(f64::total_cmp),
        }
    }

    /// The quantity of the usage that happens now; a fitted piece that is changed begins its life.
    pub fn taken(&self, turn: &mut Turn, now_h: f64, dice: &mut Dice) -> f64 {
        if let (Turn::Lives(at_h), Some(fitted)) = (turn, &self.fitted) {
            let due = (0..at_h.len()).min_by(|a, b| at_h[*a].total_cmp(&at_h[*b]));
            if let Some(due) = due {
                let position = fitted.positions.get(due);
                at_h[due] = now_h
                    + match position {
                        Some(position) => fitted.fails_after_h(position, 0.0, dice),
                        None => fitted.planned_after_h(dice),
                    };
                if let Some(position) = position {
                    return position.pieces;
                }
            }
        }
        self.sizes.draw(dice)
    }
}

impl Fitted {
    /// Hours on the clock until the piece at a position fails that has lasted `age_h` running hours.
    ///
    /// # Source
    /// The cumulated hazard of a life is exponential with mean 1; that of a piece that still runs begins at its age's.
    fn fails_after_h(&self, position: &FittedPosition, age_h: f64, dice: &mut Dice) -> f64 {
        let Weibull { shape, scale_h } = self.life;
        let hazard = (age_h / scale_h).powf(shape) + dice.exponential();
        let left_h = scale_h * hazard.powf(1.0 / shape) - age_h;
        24.0 * left_h.max(0.0) / position.hours_per_day
    }

    fn planned_after_h(&self, dice: &mut Dice) -> f64 {
        if self.planned_per_h > 0.0 {
            dice.exponential() / self.planned_per_h
        } else {
            f64::INFINITY
        }
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

#[cfg(test)]
mod tests {
    use super::super::dice::Purpose;
    use super::*;
    use crate::plan::demand::{LifeForecast, WeibullFit};
    use crate::plan::year_length::YEAR_H;

    fn usages(life: Weibull, ages_h: &[f64], planned_per_day: f64) -> (Usages, LifeForecast) {
        let position = |age_h: &f64| FittedPosition {
            age_h: *age_h,
            hours_per_day: 12.0,
            pieces: 2.0,
        };
        let positions: Vec<FittedPosition> = ages_h.iter().map(position).collect();
        let forecast = LifeForecast {
            fit: WeibullFit {
                life,
                failures: 5,
                running: 1,
                shape_range: (life.shape, life.shape),
                negative_log_likelihood: 0.0,
            },
            positions: positions.clone(),
            planned_per_day,
            sizes: vec![(2, 1.0)],
            pieces_per_day: 0.0,
        };
        let usages = Usages {
            rate: EventRate::certain(0.0),
            fitted: Some(Fitted {
                life,
                positions,
                planned_per_h: planned_per_day / 24.0,
            }),
            sizes: Sizes::Recorded(vec![(1.0, 2.0)]),
            until_h: f64::INFINITY,
            machines: Vec::new(),
        };
        (usages, forecast)
    }

    /// Pieces taken in a year, by replication.
    fn years(usages: &Usages, replications: usize) -> Vec<f64> {
        let year = |replication| {
            let mut dice = Dice::new(7, replication, 1, Purpose::Usages);
            let mut turn = usages.begin(&mut dice);
            let mut pieces = 0.0;
            let mut now_h = 0.0;
            while let Some(at_h) = usages.next_h(&turn, now_h, &mut dice) {
                if at_h >= YEAR_H {
                    break;
                }
                now_h = at_h;
                pieces += usages.taken(&mut turn, now_h, &mut dice);
            }
            pieces
        };
        (0..replications).map(year).collect()
    }

    #[test]
    fn a_simulated_year_takes_what_the_lives_of_fitted_pieces_foretell() {
        // Renewals of aged pieces by the reckoning that is checked against scipy (`tests/suite/demand.rs`); wearing out,
        // without memory, and failing early, with and without planned changes.
        for (shape, scale_h, ages_h, planned) in [
            (3.0, 3000.0, vec![0.0, 2500.0], 0.0),
            (1.0, 2000.0, vec![500.0], 0.0),
            (0.7, 4000.0, vec![100.0, 6000.0, 0.0], 0.0),
            (2.0, 5000.0, vec![4000.0], 2.0 / 365.0),
        ] {
            let (usages, forecast) = usages(Weibull { shape, scale_h }, &ages_h, planned);
            let (mean, variance) = forecast.demand(365.0).moments();
            let found = years(&usages, 20_000);
            let count = found.len() as f64;
            let simulated = found.iter().sum::<f64>() / count;
            let spread = found.iter().map(|of| (of - simulated).powi(2)).sum::<f64>() / count;
            let error = (variance / count).sqrt();
            assert!(
                (simulated - mean).abs() < 4.0 * error,
                "{shape}: {simulated} {mean}"
            );
            // The variance of a variance is about 2 v^2 / n; skewed counts have some more.
            assert!(
                (spread / variance - 1.0).abs() < 0.08,
                "{shape}: {spread} {variance}"
            );
        }
    }

    #[test]
    fn pieces_that_wear_out_fail_less_evenly_than_by_chance_at_first_and_more_evenly_later() {
        // A new piece of a life of 3,000 to 4,000 running hours does not fail in its first 1,000; one that has lasted
        // 3,500 does soon.
        let life = Weibull {
            shape: 8.0,
            scale_h: 3500.0,
        };
        let first = |age_h: f64| -> f64 {
            let (usages, _) = usages(life, &[age_h], 0.0);
            let each = (0..2_000).map(|replication| {
                let mut dice = Dice::new(3, replication, 1, Purpose::Usages);
                let turn = usages.begin(&mut dice);
                usages.next_h(&turn, 0.0, &mut dice).unwrap() / 2.0
            });
            each.sum::<f64>() / 2_000.0
        };
        // Mean life by the gamma function: 3500 * gamma(1 + 1/8) = 3500 * 0.9417 = 3296 (from memory).
        assert!((first(0.0) - 3296.0).abs() < 40.0, "{}", first(0.0));
        assert!(first(3500.0) < 500.0, "{}", first(3500.0));
    }

    #[test]
    fn a_rate_without_lives_is_drawn_once_a_year() {
        let (mut usages, _) = usages(
            Weibull {
                shape: 1.0,
                scale_h: 1.0,
            },
            &[],
            0.0,
        );
        usages.fitted = None;
        usages.rate = EventRate {
            shape: 4.0,
            exposure_days: 730.0,
        };
        // Gamma-Poisson: two usages a year of two pieces; variance of the usages 2 + 4 / 4 = 3.
        let found = years(&usages, 20_000);
        let mean = found.iter().sum::<f64>() / 20_000.0;
        let variance = found.iter().map(|of| (of - mean).powi(2)).sum::<f64>() / 20_000.0;
        assert!((mean - 4.0).abs() < 0.1, "{mean}");
        assert!((variance / 12.0 - 1.0).abs() < 0.06, "{variance}");
    }
}
