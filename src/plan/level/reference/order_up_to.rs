//! Review once a period: at or below s, order up to S.

use statrs::distribution::{Discrete, Poisson};

use super::super::demand_table::DemandTable;
use super::super::lead_time_demand::LeadTimeDemand;

/// Levels of a periodic review and their cost a period.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OrderUpTo {
    /// Order where the position is at or below this at the review.
    pub reorder_point: i64,
    /// Stock position after an order.
    pub up_to: i64,
    /// Orders, holding and waiting, money a period.
    pub cost: f64,
}

/// Levels of the least cost for Poisson demand of a mean in each period and no lead time.
///
/// # Units
/// `holding` and `waiting` money a unit and period, `order` money an order.
/// # Source
/// Zheng & Federgruen, Finding optimal (s, S) policies is about as simple as evaluating a single policy, Operations
/// Research 39(4):654-665 (1991).
pub fn order_up_to(mean: f64, holding: f64, waiting: f64, order: f64) -> OrderUpTo {
    let table = DemandTable::new(&LeadTimeDemand::Poisson { mean });
    let rate = |position: i64| {
        let short = table.shortfall(position);
        holding * (position as f64 - mean + short) + waiting * short
    };
    let mut renewal = Renewal::new(mean);
    let best = table.quantile(waiting / (waiting + holding));
    let mut up_to = best;
    let mut reorder_point = best - 1;
    while renewal.cost(reorder_point, up_to, order, &rate) > rate(reorder_point) {
        reorder_point -= 1;
    }
    let mut cost = renewal.cost(reorder_point, up_to, order, &rate);
    let mut candidate = up_to + 1;
    while rate(candidate) <= cost {
        if renewal.cost(reorder_point, candidate, order, &rate) < cost {
            up_to = candidate;
            while renewal.cost(reorder_point, up_to, order, &rate) <= rate(reorder_point + 1) {
                reorder_point += 1;
            }
            cost = renewal.cost(reorder_point, up_to, order, &rate);
        }
        candidate += 1;
    }
    OrderUpTo {
        reorder_point,
        up_to,
        cost,
    }
}

/// Expected visits of each distance below S before the next order.
struct Renewal {
    demand: Option<Poisson>,
    visits: Vec<f64>,
}

impl Renewal {
    fn new(mean: f64) -> Self {
        Self {
            demand: Poisson::new(mean).ok(),
            visits: Vec::new(),
        }
    }

    fn share(&self, units: usize) -> f64 {
        self.demand.map_or(0.0, |demand| demand.pmf(units as u64))
    }

    fn visits(&mut self, distance: usize) -> f64 {
        while self.visits.len() <= distance {
            let at = self.visits.len();
            let stays = 1.0 - self.share(0);
            let visits = if at == 0 {
                1.0 / stays
            } else {
                let sum: f64 = (1..=at)
                    .map(|units| self.share(units) * self.visits[at - units])
                    .sum();
                sum / stays
            };
            self.visits.push(visits);
        }
        self.visits[distance]
    }

    /// Cost a period of (s, S).
    fn cost(&mut self, low: i64, up_to: i64, order: f64, rate: &impl Fn(i64) -> f64) -> f64 {
        let (mut cost, mut length) = (order, 0.0);
        for distance in 0..(up_to - low) {
            let visits = self.visits(distance as usize);
            cost += visits * rate(up_to - distance);
            length += visits;
        }
        cost / length
    }
}

/// Levels (s, S) by regression on mean and standard deviation of a period's demand.
///
/// # Source
/// Power approximation (Ehrhardt & Mosier, Management Science 30:618-622, 1984, as printed in Snyder & Shen, Fundamentals
/// of Supply Chain Theory, 2nd ed., 2019, section 4.4).
pub fn power_approximation(
    mean: f64,
    sd: f64,
    holding: f64,
    waiting: f64,
    order: f64,
) -> (f64, f64) {
    let quantity = 1.30
        * mean.powf(0.494)
        * (order / holding).powf(0.506)
        * (1.0 + (sd / mean).powi(2)).powf(0.116);
    let z = (quantity / sd * holding / waiting).sqrt();
    let low = 0.973f64.mul_add(mean, sd * (0.183 / z + 1.063 - 2.192 * z));
    (low, low + quantity)
}
