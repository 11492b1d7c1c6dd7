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
const STEP_NM: i64 = 500_000;
/// Closer than this a dimension is not changed, mm.
const SAME_MM: f64 = 0.01;

/// Chances that none, one, two ... dimensions differ; a part here has four at most, but figures may speak of one twice.
const STAY: [f64; 9] = {
    let mut all = [1.0; 9];
    let mut at = 1;
    while at < all.len() {
        all[at] = all[at - 1] * (1.0 - CHANGED_SHARE);
        at += 1;
    }
    all
};

/// Chance that so many dimensions all stay as they are.
fn stay(dimensions: usize) -> f64 {
    let known = STAY.get(dimensions).copied();
    known.unwrap_or_else(|| (1.0 - CHANGED_SHARE).powi(dimensions as i32))
}

/// The chances of a special after one size while its figures go by.
#[derive(Debug, Clone, Copy)]
pub(super) struct AnyChange {
    /// Whatever changed, nothing included.
    any: f64,
    /// Nothing changed.
    nothing: f64,
    dimensions: usize,
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
        let all = dimensions.max(self.dimensions);
        let nothing = self.nothing * stay(all - self.dimensions);
        ((self.any - nothing) / (1.0 - stay(all))).max(0.0)
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

/// Densities of a measured figure under every round dimension it may be of.
///
/// They hang on its band and on how far it lies above the round dimension below it only.
#[derive(Debug, Clone)]
pub(super) struct RoundOnes {
    /// Steps from the round dimension below the figure to the first.
    first: i64,
    densities: Vec<f64>,
    /// What they add up to, each with its share, where the first is a whole number of millimetres, and where it is a half.
    sums: [f64; 2],
}

/// Share of a step: whole millimetres are even.
const fn share_of_step(step: i64) -> f64 {
    if step % 2 == 0 {
        WHOLE_SHARE
    } else {
        HALF_SHARE
    }
}

impl RoundOnes {
    /// The step at or below a figure, and how far the figure lies above it, nanometres.
    pub(super) const fn step_below(x_nm: i64) -> (i64, i64) {
        (x_nm.div_euclid(STEP_NM), x_nm.rem_euclid(STEP_NM))
    }

    /// Of a figure that far above a step, whose band has its middle `middle_mm` above the dimension.
    pub(super) fn new(curve: &Curve, middle_mm: f64, above_nm: i64) -> Self {
        // Where the true dimension would be, were this figure in the middle.
        let likely_mm = above_nm as f64 / 1e6 - middle_mm;
        let wide_mm = (2.5 * curve.model.width_mm()).clamp(STEP_MM, 3.0 * STEP_MM);
        let first = ((likely_mm - wide_mm) / STEP_MM).ceil() as i64;
        let last = ((likely_mm + wide_mm) / STEP_MM).floor() as i64;
        let densities = (first..=last).map(|at| curve.density(likely_mm - at as f64 * STEP_MM));
        let densities: Vec<f64> = densities.collect();
        let sum = |from: i64| {
            let shares = (from..).map(share_of_step);
            let all = shares.zip(&densities);
            all.map(|(share, density)| share * density).sum()
        };
        Self {
            first,
            sums: [sum(0), sum(1)],
            densities,
        }
    }

    /// Density of the figure, which lies above a step, where the dimension is another one than `nominal_mm`.
    pub(super) fn other_than(&self, nominal_mm: f64, step: i64) -> f64 {
        let first = step + self.first;
        let away_mm = |at: i64| (at as f64 * STEP_MM - nominal_mm).abs();
        let last = first + self.densities.len() as i64 - 1;
        if away_mm(first).max(away_mm(last)) >= REACH_MM {
            return self.other_within_reach(nominal_mm, first) + ODD_PER_MM;
        }
        // All but the one that the dimension itself may be.
        let all = self.sums[first.rem_euclid(2) as usize];
        let own = (nominal_mm / STEP_MM).round() as i64;
        let at_own = usize::try_from(own - first).ok();
        match at_own.and_then(|at| self.densities.get(at)) {
            Some(density) if away_mm(own) < SAME_MM => {
                (all - share_of_step(own) * density).max(0.0) + ODD_PER_MM
            }
            _ => all + ODD_PER_MM,
        }
    }

    /// The sum over the round dimensions one by one, some of which are out of reach.
    fn other_within_reach(&self, nominal_mm: f64, first: i64) -> f64 {
        let near = (first..).zip(&self.densities).filter(|(at, _)| {
            let away_mm = (*at as f64 * STEP_MM - nominal_mm).abs();
            (SAME_MM..REACH_MM).contains(&away_mm)
        });
        near.map(|(at, density)| share_of_step(at) * density).sum()
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
        let at = |x| other_than(&model().curve(), -0.006, 80.0, x);
        assert!(at(81.0) > 20.0 * at(80.0), "{} {}", at(81.0), at(80.0));
        assert!(at(81.0) > 2.0 * at(80.5));
        assert!(printed(80.0, 81.0, 0.05) > 20.0 * printed(80.0, 80.0, 0.05));
    }

    fn other_than(curve: &Curve, middle_mm: f64, nominal_mm: f64, x_mm: f64) -> f64 {
        let (step, above_nm) = RoundOnes::step_below((x_mm * 1e6).round() as i64);
        RoundOnes::new(curve, middle_mm, above_nm).other_than(nominal_mm, step)
    }

    /// The sum over every round dimension, counted from the standard one.
    fn counted(curve: &Curve, middle_mm: f64, nominal_mm: f64, x_mm: f64) -> f64 {
        let away_mm = x_mm - nominal_mm - middle_mm;
        let wide_mm = (2.5 * curve.model.width_mm()).clamp(STEP_MM, 3.0 * STEP_MM);
        let on_grid: f64 = (1..=2_000)
            .map(|at| f64::from(at) * STEP_MM)
            .filter(|to_mm| (SAME_MM..REACH_MM).contains(&(to_mm - nominal_mm).abs()))
            .filter(|to_mm| (to_mm - nominal_mm - away_mm).abs() <= wide_mm)
            .map(|to_mm| share_of(to_mm) * curve.density(away_mm - (to_mm - nominal_mm)))
            .sum();
        on_grid + ODD_PER_MM
    }

    #[test]
    fn round_dimensions_say_the_same_wherever_they_are_counted_from() {
        let curve = model().curve();
        for nominal in [30.0, 30.1, 29.5, 31.75, 100.0, 6.35] {
            for off in [
                -4.9, -2.0, -0.6, -0.31, -0.05, 0.0, 0.02, 0.26, 0.5, 1.0, 4.6,
            ] {
                let x_mm = nominal + off;
                let round = other_than(&curve, -0.006, nominal, x_mm);
                let each = counted(&curve, -0.006, nominal, x_mm);
                assert!(
                    (round / each - 1.0).abs() < 1e-9,
                    "{nominal} {off}: {round} {each}"
                );
            }
        }
    }

    #[test]
    fn far_from_the_size_no_special_is_made_after_it() {
        // Beyond the reach of 5 mm only the odd rest is left.
        let far = other_than(&model().curve(), 0.0, 40.0, 60.0);
        assert!((far - ODD_PER_MM).abs() < 1e-12, "{far}");
        let near = other_than(&model().curve(), 0.0, 40.0, 43.0);
        assert!(near > 10.0 * ODD_PER_MM, "{near}");
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
