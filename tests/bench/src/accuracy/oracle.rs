//! The best that anybody could answer: the posterior under the very model that the part was drawn from.
//!
//! It knows which figure is of which dimension, how popular each size is and how specials are made; no matcher can know
//! that. Where even it states a special for sure, nobody can do better with these figures.

use std::collections::HashMap;

use sparewright::part::{Dimension, SizeKey};

use super::part::{Stock, Way};
use super::world::World;

/// Points and weights of a normal bias (Gauss and Hermite, five points).
const BIAS: [(f64, f64); 5] = [
    (-2.856_97, 0.011_257),
    (-1.355_63, 0.222_076),
    (0.0, 0.533_333),
    (1.355_63, 0.222_076),
    (2.856_97, 0.011_257),
];

/// Densities under each point of the bias.
type ByBias = [f64; 5];

/// What does not change from draw to draw.
pub struct Oracle<'a> {
    stock: &'a Stock,
    world: &'a World,
    dimensions: Vec<Vec<f64>>,
    wear: Vec<(f64, f64)>,
    /// Chance that making a special ends at a size of the table, by size.
    ends_in_table: Vec<f64>,
    made: f64,
}

impl<'a> Oracle<'a> {
    pub fn new(stock: &'a Stock, world: &'a World) -> Self {
        let dimensions: Vec<Vec<f64>> = stock
            .sizes
            .iter()
            .map(|size| {
                size.dimensions()
                    .map(|(_, length)| length.to_mm())
                    .collect()
            })
            .collect();
        let ends_in_table: Vec<f64> = dimensions
            .iter()
            .map(|to| {
                let from = dimensions.iter().zip(&stock.weights);
                from.map(|(from, weight)| {
                    let chances = from
                        .iter()
                        .zip(to)
                        .map(|(mm, to)| world.chance_of(*mm, *to));
                    weight * chances.product::<f64>()
                })
                .sum()
            })
            .collect();
        let made = 1.0 - ends_in_table.iter().sum::<f64>();
        Self {
            stock,
            world,
            dimensions,
            wear: world.wear_points(),
            ends_in_table,
            made,
        }
    }

    /// Sizes with their probability, likeliest first.
    pub fn answer(&self, read: &[(Dimension, f64)]) -> Vec<(SizeKey, f64)> {
        let key = self.stock.family.key_dimensions();
        let at: Vec<usize> = read
            .iter()
            .filter_map(|(dimension, _)| key.iter().position(|known| known == dimension))
            .collect();
        let mut known: HashMap<(usize, i64), ByBias> = HashMap::new();
        let grids: Vec<Vec<(f64, ByBias)>> = read
            .iter()
            .map(|(dimension, x)| self.grid(*dimension, *x))
            .collect();
        let mut weights = Vec::new();
        let (mut outside, mut sum) = (0.0, 0.0);
        for (index, mm) in self.dimensions.iter().enumerate() {
            let reach = |at: usize| self.world.reach_mm + self.slack_mm(mm[at]);
            if !at
                .iter()
                .zip(read)
                .all(|(at, (_, x))| (x - mm[*at]).abs() < reach(*at))
            {
                continue;
            }
            let (mut of_size, mut of_special) = ([1.0; 5], [1.0; 5]);
            for (slot, (at, (dimension, x))) in at.iter().zip(read).enumerate() {
                let value = mm[*at];
                let entry = known.entry((slot, (value * 1e6) as i64));
                let own = *entry.or_insert_with(|| {
                    self.density(*x, *dimension, value, Some(&self.stock.sizes[index]))
                });
                let stays = 1.0 - self.world.moved_share;
                for bias in 0..5 {
                    of_size[bias] *= own[bias];
                    let moved: f64 = grids[slot]
                        .iter()
                        .map(|(to, density)| {
                            let stayed = if (to - value).abs() < 1e-6 {
                                stays
                            } else {
                                0.0
                            };
                            (self.world.chance_of(value, *to) - stayed) * density[bias]
                        })
                        .sum();
                    of_special[bias] *= stays * own[bias] + moved;
                }
            }
            let mean = |of: &ByBias| -> f64 { of.iter().zip(BIAS).map(|(d, (_, w))| d * w).sum() };
            let (size, special) = (mean(&of_size), mean(&of_special));
            let weight = (1.0 - self.world.outside_share) * self.stock.weights[index] * size;
            outside += self.stock.weights[index] * special - self.ends_in_table[index] * size;
            sum += weight;
            weights.push((self.stock.sizes[index], weight));
        }
        sum += self.world.outside_share * outside.max(0.0) / self.made;
        weights
            .iter_mut()
            .for_each(|(_, weight)| *weight /= sum.max(f64::MIN_POSITIVE));
        weights.sort_by(|a, b| b.1.total_cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
        weights
    }

    /// How far a reading may lie from its dimension, mm.
    fn slack_mm(&self, mm: f64) -> f64 {
        3.0 + 0.05 * mm + if free(self.stock) { 0.1 * mm } else { 0.0 }
    }

    /// Sizes that a special may be moved to, with the density of the reading there.
    fn grid(&self, dimension: Dimension, x: f64) -> Vec<(f64, ByBias)> {
        let (step, slack) = (self.world.finest_mm(), self.slack_mm(x));
        let first = ((x - slack).max(step) / step).floor() as i64;
        let last = ((x + slack) / step).ceil() as i64;
        (first..=last)
            .map(|at| at as f64 * step)
            .map(|to| (to, self.density(x, dimension, to, None)))
            .filter(|(_, density)| density.iter().any(|d| *d > 1e-7))
            .collect()
    }

    fn density(&self, x: f64, dimension: Dimension, mm: f64, size: Option<&SizeKey>) -> ByBias {
        let ways = self.stock.ways(self.world, dimension, mm, size);
        BIAS.map(|(z, _)| {
            let x = x - z * self.world.bias_mm;
            ways.iter().map(|way| way.share * self.of_way(x, way)).sum()
        })
    }

    fn of_way(&self, x: f64, way: &Way) -> f64 {
        let band = (way.high_mm - way.low_mm).max(0.002);
        let within = |x: f64| {
            let above = self.world.error_below(x - way.base_mm - way.low_mm);
            let below = self.world.error_below(x - way.base_mm - way.low_mm - band);
            (above - below) / band
        };
        if way.wear_mm == 0.0 {
            return within(x);
        }
        let points = self.wear.iter();
        points
            .map(|(z, weight)| weight * within(x - z * way.wear_mm))
            .sum()
    }
}

fn free(stock: &Stock) -> bool {
    stock.family.key_dimensions().len() == 1
}
