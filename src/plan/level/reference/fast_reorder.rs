//! The same reorder points for a hundred thousand parts at once: no table is kept, only what the search still needs.

/// Room for the search of one part after another.
#[derive(Debug, Clone, Default)]
pub struct Search {
    values: Vec<f64>,
}

/// Largest mean at which the first probability of a Poisson or negative binomial does not underflow.
const MOST_MEAN: f64 = 600.0;

/// Positions up to which a Poisson demand of the largest mean has anything left.
const MOST_POSITIONS: usize = 5_000;

/// A Poisson demand, one position after another, with the cost rate there.
struct Walk {
    mean: f64,
    holding: f64,
    both: f64,
    units: f64,
    share: f64,
    at_most: f64,
    short: f64,
}

impl Walk {
    fn step(&mut self) {
        self.short = (self.short - (1.0 - self.at_most)).max(0.0);
        self.units += 1.0;
        self.share *= self.mean / self.units;
        self.at_most += self.share;
    }

    fn rate(&self) -> f64 {
        self.holding * (self.units - self.mean) + self.both * self.short
    }
}

impl Search {
    /// Smallest reorder point, -1 or more, at which the unit fill reaches the target; demand negative binomial with a
    /// mean and a size (`mean^2 / (variance - mean)`).
    ///
    /// `None` for means above 600, where the table of the demand is to be used.
    pub fn by_fill(
        &mut self,
        mean: f64,
        size: f64,
        quantity: u64,
        target_share: f64,
    ) -> Option<i64> {
        let quantity = usize::try_from(quantity.max(1)).ok()?;
        let success = size / (size + mean);
        let first = size * success.ln();
        if mean > MOST_MEAN || first < -700.0 {
            return None;
        }
        let most_unmet = (1.0 - target_share) * quantity as f64;
        // Below 0 the shortfall grows by 1 a unit; position i of `values` is the shortfall at i - 1.
        let values = &mut self.values;
        values.clear();
        values.extend([mean + 1.0, mean]);
        let mut share = first.exp();
        let mut at_most = share;
        let mut short = mean;
        let mut units = 0.0;
        let failure = 1.0 - success;
        let (mut reorder_point, mut is_ended) = (0_usize, false);
        loop {
            // Shortfalls up to reorder_point + quantity are needed before a point can be judged.
            while !is_ended && values.len() <= reorder_point + quantity {
                short -= 1.0 - at_most;
                values.push(short.max(0.0));
                units += 1.0;
                share *= (size + units - 1.0) * failure / units;
                at_most += share;
                is_ended = short < 1e-9 * most_unmet || (share < 1e-18 && units > mean);
            }
            let beyond = values.get(reorder_point + quantity).copied().unwrap_or(0.0);
            let here = values.get(reorder_point).copied().unwrap_or(0.0);
            if here - beyond <= most_unmet + 1e-12 {
                return Some(reorder_point as i64 - 1);
            }
            reorder_point += 1;
        }
    }

    /// Reorder point, quantity and cost a year of the least cost for a Poisson demand, as
    /// [`optimal_policy`](super::policy::optimal_policy).
    ///
    /// `None` for means above 600, where the table of the demand is to be used.
    pub fn by_cost(
        &mut self,
        mean: f64,
        prices: &super::policy::PolicyPrices,
    ) -> Option<super::policy::ReorderPolicy> {
        if mean > MOST_MEAN {
            return None;
        }
        let (holding, waiting) = (prices.holding, prices.waiting);
        let ratio = waiting / (waiting + holding);
        let both = holding + waiting;
        let ordering = prices.order * prices.yearly;
        // Cost rates at positions 0, 1, 2, ...; below 0 everything waits.
        let rates = &mut self.values;
        rates.clear();
        let mut walk = Walk {
            mean,
            holding,
            both,
            units: 0.0,
            share: (-mean).exp(),
            at_most: (-mean).exp(),
            short: mean,
        };
        rates.push(walk.rate());
        while walk.at_most < ratio && rates.len() < MOST_POSITIONS {
            walk.step();
            rates.push(walk.rate());
        }
        let first = rates.len() - 1;
        let mut sum = rates[first];
        let (mut reorder_point, mut quantity) = (first as i64 - 1, 1_i64);
        let mut cost = ordering + sum;
        let under = |units: i64| waiting * (mean - units as f64);
        let mut below = if reorder_point >= 0 {
            rates[reorder_point as usize]
        } else {
            under(reorder_point)
        };
        walk.step();
        let mut above = walk.rate();
        rates.push(above);
        loop {
            let next = below.min(above);
            if next >= cost {
                break;
            }
            sum += next;
            quantity += 1;
            if below < above {
                reorder_point -= 1;
                below = if reorder_point >= 0 {
                    rates[reorder_point as usize]
                } else {
                    under(reorder_point)
                };
            } else {
                walk.step();
                above = walk.rate();
            }
            cost = (ordering + sum) / quantity as f64;
        }
        Some(super::policy::ReorderPolicy {
            reorder_point,
            quantity,
            cost,
        })
    }
}
