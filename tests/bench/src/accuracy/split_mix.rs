//! Draws of a fixed sequence, the same on every machine and in every version of a crate of random numbers: figures of
//! DEVELOPERS.md and of tables that others computed hang on them.

#![allow(
    dead_code,
    reason = "unit tests and benchmarks use this file too, and not all of it"
)]

/// SplitMix64.
///
/// # Source
/// Steele, Lea & Flood, Fast splittable pseudorandom number generators, OOPSLA 2014; its first values for a seed of
/// 1234567 as widely published with reference code, from memory.
pub struct SplitMix(pub u64);

impl SplitMix {
    /// The next number.
    pub const fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// From 0 up to, not including, 1.
    pub fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }
}

#[test]
fn the_first_numbers_are_the_published_ones() {
    let mut draws = SplitMix(1_234_567);
    let first = [draws.next(), draws.next(), draws.next()];
    assert_eq!(
        first,
        [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423
        ]
    );
}
