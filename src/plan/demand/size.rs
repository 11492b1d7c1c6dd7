//! Quantities of a usage: their mean and spread, from few usages and the part's group.
//!
//! # How much the group is worth beside a part's own usages
//!
//! As many usages as the variance within a part is of that between parts (Efron & Morris, below). Where nobody was used
//! twice nothing tells the two apart: what lies between single usages may be either. The share of the whole variance that
//! lies within parts is then as likely any number from 0 to 1, so that one usage and the group are worth the same, on
//! average a half each: a weight of one usage. After `f` differences within parts, all of them as large as those between
//! parts, Laplace's rule of succession gives that share `(f + 1) / (f + 2)`, which is a weight of `f + 1` usages: more than
//! that no group is worth, however little its parts seem to differ (uniform prior; Laplace 1774, from memory). Without
//! this bound two parts used once each, 1 and 5, would both be held for the same with a weight of 648 usages.

/// Usages that the group's spread is worth beside a part's own.
///
/// With 2, 4 or 8 the aircraft spares of the benchmark need stock within 4 % of each other at 60 to 95 % fill.
const SPREAD_WEIGHT: f64 = 4.0;

/// Least variance between parts on the log scale, so that parts never all become one.
const LEAST_BETWEEN: f64 = 1e-3;

/// Mean and spread of the quantity of one usage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SizeMoments {
    /// Mean.
    pub mean_pieces: f64,
    /// Squared coefficient of variation.
    pub squared_cv: f64,
}

/// Sums of the logarithms of a part's quantities.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct LogSizes {
    /// Usages.
    pub events: f64,
    /// Sum of the logarithms.
    pub sum: f64,
    /// Sum of their squares.
    pub squares: f64,
}

/// How quantities vary within and between the parts of a group, on the log scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroupSizes {
    /// Mean of the parts' mean logarithms.
    pub log_mean: f64,
    /// Variance within a part.
    pub within: f64,
    /// Usages that the group's mean is worth beside a part's own: variance within over variance between parts, and no more than
    /// the usages can tell (see the head of this file).
    pub mean_weight: f64,
}

impl LogSizes {
    /// Adds one usage; quantities of 0 and below are none.
    pub fn add(&mut self, quantity: f64) {
        if quantity > 0.0 {
            self.add_log(quantity.ln());
        }
    }

    /// Adds one usage by the logarithm of its quantity.
    pub fn add_log(&mut self, log: f64) {
        self.events += 1.0;
        self.sum += log;
        self.squares += log * log;
    }

    fn mean(&self) -> f64 {
        self.sum / self.events
    }

    /// Sum of squared deviations from the part's own mean.
    fn scatter(&self) -> f64 {
        (self.squares - self.sum * self.mean()).max(0.0)
    }
}

impl GroupSizes {
    /// Estimates the group from its parts with usages; `None` where there are none.
    ///
    /// # Source
    /// Normal means with known variance, method of moments (Efron & Morris, J. Am. Stat. Assoc. 70:311-319, 1975, from
    /// memory), on logarithms because quantities are above 0 and skewed.
    pub fn fit<'a>(parts: impl Iterator<Item = &'a LogSizes> + Clone) -> Option<Self> {
        let used = parts.filter(|part| part.events > 0.0);
        let count = used.clone().count() as f64;
        if count < 1.0 {
            return None;
        }
        let (mut scatter, mut freedom) = (0.0, 0.0);
        for part in used.clone().filter(|part| part.events > 1.0) {
            scatter += part.scatter();
            freedom += part.events - 1.0;
        }
        let log_mean = used.clone().map(LogSizes::mean).sum::<f64>() / count;
        let spread = used.clone().map(|part| (part.mean() - log_mean).powi(2));
        let spread = spread.sum::<f64>() / count;
        let within = if freedom > 0.0 {
            scatter / freedom
        } else {
            // Nobody was used twice: what lies between parts is all that is known of the spread.
            spread
        };
        let noise = used.map(|part| within / part.events).sum::<f64>() / count;
        Some(Self {
            log_mean,
            within,
            mean_weight: (within / (spread - noise).max(LEAST_BETWEEN)).min(freedom + 1.0),
        })
    }

    /// Moments of a part's quantities, shrunk to the group; a part without usages has those of the group.
    ///
    /// # Source
    /// Moments of a lognormal: mean `exp(m + v / 2)`, squared coefficient of variation `exp(v) - 1`.
    pub fn shrink(&self, part: &LogSizes) -> SizeMoments {
        let k = part.events;
        let (mean, variance) = if k > 0.0 {
            (
                (part.sum + self.mean_weight * self.log_mean) / (k + self.mean_weight),
                (part.scatter() + SPREAD_WEIGHT * self.within) / (k - 1.0 + SPREAD_WEIGHT),
            )
        } else {
            (self.log_mean, self.within)
        };
        SizeMoments {
            mean_pieces: (mean + variance / 2.0).exp(),
            squared_cv: variance.exp_m1(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn logs(quantities: &[f64]) -> LogSizes {
        let mut logs = LogSizes::default();
        quantities.iter().for_each(|quantity| logs.add(*quantity));
        logs
    }

    #[test]
    fn single_pieces_stay_single_pieces() {
        let parts = [logs(&[1.0, 1.0]), logs(&[1.0])];
        let group = GroupSizes::fit(parts.iter()).unwrap();
        for part in parts.iter().chain([&LogSizes::default()]) {
            let size = group.shrink(part);
            assert!((size.mean_pieces - 1.0).abs() < 1e-12 && size.squared_cv.abs() < 1e-12);
        }
    }

    #[test]
    fn one_usage_is_drawn_to_the_group_and_many_are_not() {
        let group = [logs(&[2.0, 2.5, 1.8]), logs(&[2.2, 1.9]), logs(&[4.0, 5.0])];
        let group = GroupSizes::fit(group.iter()).unwrap();
        let one = group.shrink(&logs(&[9.0])).mean_pieces;
        let many = group.shrink(&logs(&[9.0; 400])).mean_pieces;
        assert!(one < 8.9 && one > 2.0, "{one}");
        assert!((many - 9.0).abs() < 0.1, "{many}");
    }

    #[test]
    fn single_usages_are_worth_as_much_as_their_group() {
        let parts = [logs(&[1.0]), logs(&[5.0])];
        let group = GroupSizes::fit(parts.iter()).unwrap();
        assert!((group.mean_weight - 1.0).abs() < 1e-12);
        // By hand: the means of the logarithms are a quarter and three quarters of ln 5, the variance is (ln 5 / 2)^2.
        let variance = (5.0_f64.ln() / 2.0).powi(2);
        for (part, share) in parts.iter().zip([0.25, 0.75]) {
            let size = group.shrink(part);
            let mean = (share * 5.0_f64.ln() + variance / 2.0).exp();
            assert!((size.mean_pieces / mean - 1.0).abs() < 1e-12, "{size:?}");
            assert!((size.squared_cv - variance.exp_m1()).abs() < 1e-12);
        }
    }

    #[test]
    fn a_group_is_worth_no_more_usages_than_it_shows_differences() {
        // Two parts of one mean, three differences within: no variance between them, but little to tell that from.
        let parts = [logs(&[1.0, 4.0]), logs(&[1.0, 2.0, 4.0])];
        let group = GroupSizes::fit(parts.iter()).unwrap();
        assert!((group.mean_weight - 4.0).abs() < 1e-12, "{group:?}");
        // Many differences leave the ratio as it is: within ln(2)^2 = 0.48, between (ln(32) / 2)^2 = 3.0 less the noise.
        let many = |low: f64| logs(&[low, 4.0 * low].repeat(50));
        let group = GroupSizes::fit([many(1.0), many(32.0)].iter()).unwrap();
        let within = 100.0 * 2.0_f64.ln().powi(2) / 99.0;
        let between = (32.0_f64.ln() / 2.0).powi(2) - within / 100.0;
        assert!((group.mean_weight / (within / between) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn there_is_no_group_without_usages() {
        assert_eq!(GroupSizes::fit([LogSizes::default()].iter()), None);
    }
}
