//! Specials made after a standard size: which of their dimensions differ, and where those lie.

use super::density::Curve;

/// Chance that one dimension of a special differs from the standard size it was made after (common practice, no source);
/// at least one does.
pub(super) const CHANGED_SHARE: f64 = 0.4;
/// How far a changed dimension goes at most, mm.
const REACH_MM: f64 = 5.0;
/// Chance of each whole millimetre, and of each half between, within the reach: drawings like round figures.
const WHOLE_SHARE: f64 = 0.065;
const HALF_SHARE: f64 = 0.02;
/// What is left, per mm: inch figures, tenths and hundredths.
const ODD_PER_MM: f64 = 0.015;
/// Steps of the grid, mm.
const STEP_MM: f64 = 0.5;
/// Closer than this a dimension is not changed, mm.
const SAME_MM: f64 = 0.01;

/// The chances of a special after one size while its figures go by.
#[derive(Debug, Clone, Copy)]
pub(super) struct AnyChange {
    /// Whatever changed, nothing included.
    any: f64,
    /// Nothing changed.
    nothing: f64,
    dimensions: i32,
}

impl AnyChange {
    pub(super) const fn new() -> Self {
        Self {
            any: 1.0,
            nothing: 1.0,
            dimensions: 0,
        }
    }

    /// Takes the densities of one figure, under the dimension as it is and under a changed one.
    pub(super) fn read(&mut self, as_it_is: f64, changed: f64) {
        let kept = (1.0 - CHANGED_SHARE) * as_it_is;
        self.any *= kept + CHANGED_SHARE * changed;
        self.nothing *= kept;
        self.dimensions += 1;
    }

    /// Density of the figures under a special after this size, which has `dimensions`: what nobody measured may differ.
    pub(super) fn density(self, dimensions: usize) -> f64 {
        let all = (dimensions as i32).max(self.dimensions);
        let stays = 1.0 - CHANGED_SHARE;
        let nothing = self.nothing * stays.powi(all - self.dimensions);
        ((self.any - nothing) / (1.0 - stays.powi(all))).max(0.0)
    }
}

/// Chance of a value that is no standard one, on the grid of round figures.
fn share_of(value_mm: f64) -> f64 {
    if (value_mm - value_mm.round()).abs() < SAME_MM {
        WHOLE_SHARE
    } else {
        HALF_SHARE
    }
}

/// Densities of a measured figure under every round dimension it may be of, each times how often a special has it.
///
/// They hang on the figure and its band only, not on the size that a special was made after.
#[derive(Debug, Clone)]
pub(super) struct RoundOnes {
    /// Step of the grid that the first is of.
    first: i64,
    densities: Vec<f64>,
}

impl RoundOnes {
    /// Of a figure whose band has its middle `middle_mm` above the dimension.
    pub(super) fn new(curve: &Curve, middle_mm: f64, x_mm: f64) -> Self {
        // Where the true dimension would be, were this figure in the middle.
        let likely_mm = x_mm - middle_mm;
        let wide_mm = (2.5 * curve.model.width_mm()).clamp(STEP_MM, 3.0 * STEP_MM);
        let first = ((likely_mm - wide_mm) / STEP_MM).ceil() as i64;
        let last = ((likely_mm + wide_mm) / STEP_MM).floor() as i64;
        let of_step = |at: i64| {
            let to_mm = at as f64 * STEP_MM;
            share_of(to_mm) * curve.density(likely_mm - to_mm)
        };
        Self {
            first,
            densities: (first..=last).map(of_step).collect(),
        }
    }

    /// Density of the figure where the dimension is another one than `nominal_mm`.
    pub(super) fn other_than(&self, nominal_mm: f64) -> f64 {
        let is_other = |at: i64| {
            (SAME_MM..REACH_MM).contains(&(at as f64 * STEP_MM - nominal_mm).abs())
        };
        let on_grid: f64 = (self.first..)
            .zip(&self.densities)
            .filter(|(at, _)| is_other(*at))
            .map(|(_, density)| density)
            .sum();
        on_grid + ODD_PER_MM
    }
}

/// Density of a printed figure where the dimension is another one than `nominal_mm`.
pub(super) fn printed(nominal_mm: f64, x_mm: f64, half_mm: f64) -> f64 {
    let grid_mm = (x_mm / STEP_MM).round() * STEP_MM;
    let is_other = (SAME_MM..REACH_MM).contains(&(grid_mm - nominal_mm).abs());
    let is_round = is_other && (x_mm - grid_mm).abs() < SAME_MM;
    let on_grid = if is_round { share_of(grid_mm) } else { 0.0 };
    on_grid * 0.5 / half_mm + ODD_PER_MM
}

#[cfg(test)]
mod tests {
    use super::super::density::Model;
    use super::super::instrument::Spread;
    use super::*;

    fn model() -> Model {
        Model {
            half_band_mm: 0.006,
            own_mm: 0.003,
            spread: Spread {
                below_mm: 0.02,
                above_mm: 0.02,
            },
            wear_mm: -0.03,
            worn_share: 0.3,
        }
    }

    #[test]
    fn chances_of_changed_dimensions_add_up_to_one() {
        // Definition: ten whole and ten half millimetres around a whole one, and the odd rest.
        let sum = 10.0 * WHOLE_SHARE + 10.0 * HALF_SHARE + 2.0 * REACH_MM * ODD_PER_MM;
        assert!((sum - 1.0).abs() < 1e-9, "{sum}");
    }

    #[test]
    fn a_special_is_likelier_where_a_figure_is_round_and_not_the_standard_one() {
        // ISO 492 Normal, 80 mm outside: 0/-13 µm.
        let at = |x| RoundOnes::new(&model().curve(), -0.006, x).other_than(80.0);
        assert!(at(81.0) > 20.0 * at(80.0), "{} {}", at(81.0), at(80.0));
        assert!(at(81.0) > 2.0 * at(80.5));
        assert!(printed(80.0, 81.0, 0.05) > 20.0 * printed(80.0, 80.0, 0.05));
    }

    #[test]
    fn what_nobody_measured_may_be_the_changed_dimension() {
        // Arithmetic: figures that are the standard's in two of three dimensions, no others near.
        let mut two = AnyChange::new();
        two.read(1.0, 0.0);
        two.read(1.0, 0.0);
        let stays = 1.0 - CHANGED_SHARE;
        let expected = stays * stays * CHANGED_SHARE / (1.0 - stays.powi(3));
        assert!((two.density(3) - expected).abs() < 1e-12);
        assert!(two.density(2).abs() < 1e-12);
    }
}
