//! Stock of one-for-one parts reviewed by period at one price of a stock-out, as the backtest sweeps it.
//!
//! The plan itself sets levels in `plan/level/stock_out_price.rs`, for orders of any size and by hours waited; the open series
//! tell neither hours nor orders, so that the backtest prices occasions that were not met.

use sparewright::plan::{LeadTimeDemandMoments, SizeMoments};

/// Most pieces that are looked at for one part.
const MOST_PIECES: usize = 4096;

/// Tail that is left out.
const TAIL: f64 = 1e-9;

/// Demand of one part with what its stock costs and a stock-out counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PricedDemand {
    /// Demand in the lead time before a usage.
    pub before: LeadTimeDemandMoments,
    /// Demand up to the end of the period in which the usage falls: what the stock on hand is counted after.
    pub through: LeadTimeDemandMoments,
    /// Quantity of the usage.
    pub size: SizeMoments,
    /// Usages a day, weighted by criticality.
    pub occasions_per_day: f64,
    /// Cost of holding one piece for a day.
    pub holding_cost_per_day: f64,
}

/// A level and the price from which it pays.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PricedLevel {
    /// Stock, pieces.
    pub level_pieces: u64,
    /// Price of a stock-out from which this level pays; 0 for the first.
    pub from_price: f64,
    /// Share of usages met in full.
    pub met_share: f64,
    /// Mean stock on hand, pieces.
    pub on_hand_pieces: f64,
}

impl PricedDemand {
    /// Levels that are best at some price, by rising price.
    ///
    /// A level S is best at price p where `p * occasions * P(before + size <= S) - holding * E[(S - through)+]` is highest:
    /// the upper hull of share met over stock held, so that no level between two better ones is ever taken.
    ///
    /// # Source
    /// Marginal analysis of Sherbrooke, Optimal Inventory Modeling of Systems, and the system targets of Thonemann, Brown &
    /// Hausman, Manag. Sci. 48:1213-1225 (2002), both from memory, with the stock on hand as cost instead of the level
    /// and the quantity of the usage itself in the share met.
    pub fn levels(&self) -> Vec<PricedLevel> {
        let through = cumulative(&probabilities(self.through));
        let met = cumulative(&sum_of(
            &probabilities(self.before),
            &probabilities(self.beyond_one()),
        ));
        // The usage takes at least one piece: with none on the shelf nothing is met.
        let share = |level: usize| match level {
            0 => 0.0,
            _ => met.get(level - 1).or(met.last()).copied().unwrap_or(1.0),
        };
        let mut hull: Vec<PricedLevel> = Vec::new();
        let mut on_hand = 0.0;
        for level in 0..=met.len().max(through.len()) {
            if level > 0 {
                on_hand += through.get(level - 1).copied().unwrap_or(1.0);
            }
            let mut next = PricedLevel {
                level_pieces: level as u64,
                from_price: 0.0,
                met_share: share(level),
                on_hand_pieces: on_hand,
            };
            while let Some(last) = hull.last() {
                next.from_price = self.price_between(last, &next);
                if next.from_price > last.from_price || hull.len() == 1 {
                    break;
                }
                hull.pop();
            }
            if next.from_price.is_finite() {
                hull.push(next);
            }
        }
        hull
    }

    /// Price at which two levels are equally good; infinite where the higher one meets no more.
    fn price_between(&self, low: &PricedLevel, high: &PricedLevel) -> f64 {
        let met = self.occasions_per_day * (high.met_share - low.met_share);
        if met <= 0.0 {
            return f64::INFINITY;
        }
        self.holding_cost_per_day * (high.on_hand_pieces - low.on_hand_pieces) / met
    }

    /// Pieces of a usage after the first.
    fn beyond_one(&self) -> LeadTimeDemandMoments {
        LeadTimeDemandMoments {
            mean_pieces: (self.size.mean_pieces - 1.0).max(0.0),
            variance_pieces2: self.size.squared_cv * self.size.mean_pieces.powi(2),
        }
    }
}

/// Best level of a list at a price.
pub fn level_at(levels: &[PricedLevel], price: f64) -> Option<&PricedLevel> {
    let up_to = levels.partition_point(|level| level.from_price <= price);
    levels.get(up_to.max(1) - 1)
}

/// Probabilities of 0, 1, ... pieces of a negative binomial or Poisson demand, up to a negligible tail.
fn probabilities(moments: LeadTimeDemandMoments) -> Vec<f64> {
    let (mean, variance) = (moments.mean_pieces, moments.variance_pieces2);
    if mean <= 1e-12 {
        return vec![1.0];
    }
    // Both in the form p(k) = p(k - 1) (a + b / k) of Panjer's class.
    let (a, b, none) = if variance > mean * (1.0 + 1e-9) {
        let size = mean * mean / (variance - mean);
        let miss = 1.0 - mean / variance;
        (miss, (size - 1.0) * miss, size * (mean / variance).ln())
    } else {
        (0.0, mean, -mean)
    };
    let mut found = vec![none.exp()];
    let mut log = none;
    let mut sum = found[0];
    while sum < 1.0 - TAIL && found.len() < MOST_PIECES {
        let factor = a + b / found.len() as f64;
        log += factor.ln();
        let next = log.exp();
        sum += next;
        found.push(next);
    }
    found
}

/// Probabilities of the sum of two independent demands.
fn sum_of(one: &[f64], other: &[f64]) -> Vec<f64> {
    let length = (one.len() + other.len() - 1).min(MOST_PIECES);
    let mut sum = vec![0.0; length];
    for (at, first) in one.iter().enumerate() {
        for (sum, second) in sum[at.min(length)..].iter_mut().zip(other) {
            *sum += first * second;
        }
    }
    sum
}

fn cumulative(probabilities: &[f64]) -> Vec<f64> {
    probabilities
        .iter()
        .scan(0.0, |sum, next| {
            *sum += next;
            Some(*sum)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn single_pieces(mean: f64, holding_cost_per_day: f64) -> PricedDemand {
        let poisson = LeadTimeDemandMoments {
            mean_pieces: mean,
            variance_pieces2: mean,
        };
        PricedDemand {
            before: poisson,
            through: poisson,
            size: SizeMoments {
                mean_pieces: 1.0,
                squared_cv: 0.0,
            },
            occasions_per_day: 0.01,
            holding_cost_per_day,
        }
    }

    #[test]
    fn single_pieces_are_met_as_often_as_the_ready_rate_says() {
        // Fill = P(Poisson demand <= S - 1); 2 a year over 60 days: 0.7198106 and 0.9564607 (scipy.stats.poisson 1.17.1).
        let levels = single_pieces(0.328_767_123_287_671_2, 0.002).levels();
        assert!((levels[1].met_share - 0.719_810_624_362_063_6).abs() < 1e-12);
        assert!((levels[2].met_share - 0.956_460_692_645_481_7).abs() < 1e-12);
    }

    #[test]
    fn the_level_at_a_price_is_the_best_of_all_levels() {
        let demand = PricedDemand {
            size: SizeMoments {
                mean_pieces: 3.0,
                squared_cv: 0.5,
            },
            ..single_pieces(2.0, 0.01)
        };
        let levels = demand.levels();
        let met = cumulative(&sum_of(
            &probabilities(demand.before),
            &probabilities(demand.beyond_one()),
        ));
        let through = cumulative(&probabilities(demand.through));
        let worth = |price: f64, level: usize| {
            let share = if level == 0 { 0.0 } else { met[level - 1] };
            let held: f64 = through[..level].iter().sum();
            price * demand.occasions_per_day * share - demand.holding_cost_per_day * held
        };
        for price in [0.1, 1.0, 3.0, 10.0, 50.0, 400.0] {
            let best = (0..through.len())
                .max_by(|a, b| worth(price, *a).total_cmp(&worth(price, *b)))
                .unwrap();
            assert_eq!(level_at(&levels, price).unwrap().level_pieces, best as u64);
        }
    }

    #[test]
    fn a_higher_price_never_lowers_a_level_and_dear_parts_wait_longer() {
        let (cheap, dear) = (single_pieces(1.5, 0.001), single_pieces(1.5, 0.1));
        let (cheap, dear) = (cheap.levels(), dear.levels());
        let mut before = 0;
        for step in 0..40 {
            let price = 1.5_f64.powi(step - 10);
            let level = level_at(&cheap, price).unwrap().level_pieces;
            assert!(level >= before && level >= level_at(&dear, price).unwrap().level_pieces);
            before = level;
        }
    }
}
