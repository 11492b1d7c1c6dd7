//! Random numbers that are the same on every machine.

use super::split_mix::SplitMix;

/// What a workshop draws.
pub struct Dice(SplitMix);

impl Dice {
    pub const fn new(seed: u64) -> Self {
        Self(SplitMix(seed))
    }

    pub const fn next(&mut self) -> u64 {
        self.0.next()
    }

    pub fn unit(&mut self) -> f64 {
        ((self.next() >> 11) as f64 + 0.5) / (1u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    pub fn below(&mut self, count: usize) -> usize {
        (self.next() % count.max(1) as u64) as usize
    }

    pub fn normal(&mut self) -> f64 {
        (-2.0 * self.unit().ln()).sqrt() * (std::f64::consts::TAU * self.unit()).cos()
    }

    /// Student's t with four degrees of freedom: heavier tails than a normal error.
    pub fn student(&mut self) -> f64 {
        let chi: f64 = (0..4).map(|_| self.normal().powi(2)).sum();
        self.normal() / (chi / 4.0).sqrt()
    }

    /// Laplace's error of scale 1.
    pub fn laplace(&mut self) -> f64 {
        let u = self.unit() - 0.5;
        -u.signum() * (1.0 - 2.0 * u.abs()).ln()
    }
}
