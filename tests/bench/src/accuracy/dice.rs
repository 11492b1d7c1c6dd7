//! Random numbers that are the same on every machine.

/// SplitMix64 (published algorithm of Steele, Lea and Flood).
pub struct Dice(pub u64);

impl Dice {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
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
