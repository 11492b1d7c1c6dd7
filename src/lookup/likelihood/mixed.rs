//! A quick hash of a few numbers.

use std::hash::{BuildHasherDefault, Hasher};

/// Makes the hash of a map whose keys are numbers of our own.
pub(super) type Mixing = BuildHasherDefault<Mixed>;

/// A hash of numbers so far: nobody from outside chooses them.
#[derive(Debug, Default)]
pub(super) struct Mixed(u64);

/// An odd number whose bits are spread evenly: 2^64 over the golden ratio (Knuth, The Art of Computer Programming,
/// volume 3, section 6.4).
const SPREAD: u64 = 0x9e37_79b9_7f4a_7c15;

impl Hasher for Mixed {
    fn finish(&self) -> u64 {
        self.0 ^ self.0 >> 32
    }

    // An array of numbers comes as its bytes.
    fn write(&mut self, bytes: &[u8]) {
        let (numbers, rest) = bytes.as_chunks();
        for number in numbers {
            self.write_u64(u64::from_ne_bytes(*number));
        }
        for byte in rest {
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_that_differ_in_a_bit_are_mixed_apart() {
        let hash = |numbers: [i64; 3]| {
            let mut mixed = Mixed::default();
            numbers.iter().for_each(|number| mixed.write_i64(*number));
            mixed.finish()
        };
        let mut seen: Vec<u64> = (0..40)
            .flat_map(|bit| [[1 << bit, 0, 0], [0, 1 << bit, 0], [0, 0, 1 << bit]])
            .map(hash)
            .collect();
        // Lengths in steps of a tenth of a millimetre: the lowest seven bits choose the place in a table.
        seen.extend((1..200).map(|step| hash([step * 100_000, 0, 0])));
        let places: std::collections::BTreeSet<u64> = seen.iter().map(|hash| hash & 127).collect();
        assert!(places.len() > 100, "{}", places.len());
        seen.sort_unstable();
        assert!(seen.windows(2).all(|pair| pair[0] != pair[1]));
    }
}
