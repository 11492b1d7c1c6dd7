//! Densities: normal with two sides, and normal plus a one-sided exponential.

use statrs::function::erf::erfc;

use super::instrument::Spread;

/// Share of readings that are slips or by a poor instrument, with five times the spread (common practice, no source).
const SLIP_SHARE: f64 = 0.04;
/// How much wider a slip spreads.
const SLIP_FACTOR: f64 = 5.0;

/// What adds up to a reading, counted from the middle of the new part's band.
#[derive(Debug, Clone, Copy)]
pub(super) struct Model {
    /// Half of the new part's band, mm: anywhere in it is as likely.
    pub(super) half_band_mm: f64,
    /// Spread that is neither the band's nor the instrument's: softness, rounding, mm.
    pub(super) own_mm: f64,
    /// The instrument's.
    pub(super) spread: Spread,
    /// Mean of the wear, mm; negative where wear makes the reading smaller, 0 for none.
    pub(super) wear_mm: f64,
    /// Share of parts that are worn.
    pub(super) worn_share: f64,
}

impl Model {
    /// About how far figures spread, mm.
    pub(super) fn width_mm(&self) -> f64 {
        let instrument = (self.spread.below_mm + self.spread.above_mm) / 2.0;
        self.own_mm.hypot(instrument) + self.half_band_mm / 2.0 + self.wear_mm.abs()
    }

    /// Its density, ready for many readings.
    pub(super) fn curve(self) -> Curve {
        let own = self.own_mm * self.own_mm;
        let sides = |factor: f64| {
            let side = |mm: f64| (own + (mm * factor).powi(2)).sqrt();
            Sides::new(
                self.half_band_mm,
                side(self.spread.below_mm),
                side(self.spread.above_mm),
            )
        };
        Curve {
            sides: [sides(1.0), sides(SLIP_FACTOR)],
            model: self,
        }
    }
}

/// The density of what adds up to a reading: what hangs on no reading is worked out once.
#[derive(Debug, Clone, Copy)]
pub(super) struct Curve {
    pub(super) model: Model,
    /// Of sound readings and of slips.
    sides: [Sides; 2],
}

/// Spreads to either side of a band, mm.
#[derive(Debug, Clone, Copy)]
struct Sides {
    half: f64,
    below: f64,
    above: f64,
    /// Spreads with a narrow band's own within them.
    narrow: Option<(f64, f64)>,
    /// Spread beside wear.
    worn: f64,
}

impl Sides {
    fn new(half: f64, below: f64, above: f64) -> Self {
        let band = half / 3f64.sqrt();
        Self {
            half,
            below,
            above,
            narrow: (half < 0.25 * below.min(above))
                .then(|| (below.hypot(band), above.hypot(band))),
            worn: ((below + above) / 2.0).hypot(band),
        }
    }
}

impl Curve {
    /// Density of a reading so far from the middle of the band, per mm.
    pub(super) fn density(&self, away_mm: f64) -> f64 {
        let [sound, slips] = &self.sides;
        (1.0 - SLIP_SHARE) * self.with(away_mm, sound) + SLIP_SHARE * self.with(away_mm, slips)
    }

    fn with(&self, away_mm: f64, sides: &Sides) -> f64 {
        let model = &self.model;
        let sound = in_band(away_mm, sides);
        if model.wear_mm.abs() < 1e-9 || model.worn_share <= 0.0 {
            return sound;
        }
        // Wear runs one way, and the instrument's mean of both sides is good enough beside it.
        let away = away_mm * model.wear_mm.signum();
        let worn = normal_plus_exponential(away, sides.worn, model.wear_mm.abs());
        (1.0 - model.worn_share) * sound + model.worn_share * worn
    }
}

/// Density of a value that lies evenly within half a band to either side, with a normal error of one spread below and
/// another above.
fn in_band(away: f64, sides: &Sides) -> f64 {
    if let Some((below, above)) = sides.narrow {
        return two_sided(away, below, above);
    }
    let Sides {
        half, below, above, ..
    } = *sides;
    // The share above either edge, from the side where it is small, so that far tails do not cancel.
    let tail = |x: f64, sigma: f64| 0.5 * erfc(x / sigma / std::f64::consts::SQRT_2);
    let share = if away > 0.0 {
        tail(away - half, above) - tail(away + half, below)
    } else {
        tail(-away - half, below) - tail(-away + half, above)
    };
    share.max(0.0) / (2.0 * half)
}

/// Normal density with one spread below and another above its peak.
fn two_sided(away: f64, below: f64, above: f64) -> f64 {
    let sigma = if away < 0.0 { below } else { above };
    let scale = 2.0 / ((2.0 * std::f64::consts::PI).sqrt() * (below + above));
    scale * (-0.5 * (away / sigma).powi(2)).exp()
}

/// Density of a normal error of spread `sigma` plus an exponential of mean `mean`, both in mm.
fn normal_plus_exponential(away: f64, sigma: f64, mean: f64) -> f64 {
    let rate = 1.0 / mean;
    let z = (rate * sigma * sigma - away) / (std::f64::consts::SQRT_2 * sigma);
    if z > 5.0 {
        // erfc(z) exp(z²) is 1/(z √π) here; the direct form would be 0 times infinity.
        let tail = 1.0 / (z * std::f64::consts::PI.sqrt());
        return rate / 2.0 * (-0.5 * (away / sigma).powi(2)).exp() * tail;
    }
    rate / 2.0 * (rate / 2.0 * (rate * sigma * sigma - 2.0 * away)).exp() * erfc(z)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(density: impl Fn(f64) -> f64) -> f64 {
        (-4000..4000)
            .map(|at| density(f64::from(at) * 0.001))
            .sum::<f64>()
            * 0.001
    }

    #[test]
    fn densities_add_up_to_one() {
        // Definition of a density.
        assert!((area(|x| two_sided(x, 0.03, 0.06)) - 1.0).abs() < 0.01);
        assert!((area(|x| in_band(x, &Sides::new(0.3, 0.03, 0.06))) - 1.0).abs() < 0.01);
        assert!((area(|x| in_band(x, &Sides::new(0.01, 0.03, 0.02))) - 1.0).abs() < 0.01);
        assert!((area(|x| normal_plus_exponential(x, 0.05, 0.1)) - 1.0).abs() < 0.01);
        let model = Model {
            half_band_mm: 0.03,
            own_mm: 0.01,
            spread: Spread {
                below_mm: 0.03,
                above_mm: 0.02,
            },
            wear_mm: -0.05,
            worn_share: 0.5,
        };
        let curve = model.curve();
        assert!((area(|x| curve.density(x)) - 1.0).abs() < 0.01);
        assert!(curve.density(-0.1) > 5.0 * curve.density(0.1));
    }

    #[test]
    fn both_forms_of_the_exponential_meet() {
        // At z = 5 the direct and the far form must agree within the error of the far form (1/(2 z²), 2 %).
        let (sigma, mean) = (0.05, 0.05);
        let at = |z: f64| sigma * sigma / mean - z * std::f64::consts::SQRT_2 * sigma;
        let (near, far) = (
            normal_plus_exponential(at(4.999), sigma, mean),
            normal_plus_exponential(at(5.001), sigma, mean),
        );
        assert!((near / far - 1.0).abs() < 0.05, "{near} {far}");
    }
}
