//! Random numbers: one stream for each replication, part and purpose, so that one draw more never shifts another's.

use rand_distr::{Distribution, Exp1, Gamma, Poisson};
use rand_pcg::Pcg32;
use rand_pcg::rand_core::Rng;

/// What a stream is drawn for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// Rate, moments, quantities and places of usages.
    Usages,
    /// How long the first, second, ... order of a part takes.
    Receipts,
}

/// One stream of random numbers.
#[derive(Debug, Clone)]
pub struct Dice(Pcg32);

impl Dice {
    /// The stream of one replication, part and purpose; `part` is a figure that belongs to the part wherever it stands.
    pub fn new(seed: u64, replication: usize, part: u64, purpose: Purpose) -> Self {
        let own = mix(seed ^ mix(replication as u64 + 1));
        let stream = mix(own ^ mix(mix(part) ^ u64::from(purpose == Purpose::Usages)));
        Self(Pcg32::new(stream, mix(stream)))
    }

    /// From 0 up to, not including, 1.
    pub fn uniform(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Exponential with mean 1.
    pub fn exponential(&mut self) -> f64 {
        Exp1.sample(&mut self.0)
    }

    /// Gamma; the mean where the parameters are no gamma.
    pub fn gamma(&mut self, shape: f64, scale: f64) -> f64 {
        Gamma::new(shape, scale).map_or(shape * scale, |gamma| gamma.sample(&mut self.0))
    }

    /// Poisson; 0 for a mean of 0.
    pub fn poisson(&mut self, mean: f64) -> f64 {
        Poisson::new(mean).map_or(0.0, |poisson| poisson.sample(&mut self.0))
    }
}

/// Scatters the bits of a number.
///
/// # Source
/// Finaliser of SplitMix64: Steele, Lea & Flood, Fast splittable pseudorandom number generators, OOPSLA 2014 (constants
/// from memory).
const fn mix(number: u64) -> u64 {
    let mut z = number.wrapping_add(0x9e37_79b9_7f4a_7c15);
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}
