//! The share of rebuilds that find every line of the kit on the shelf.

use std::sync::Arc;

use super::demand_table::DemandTable;
use super::ending::{Ending, InLeadTime};
use super::service::on_hand_at_least;

/// Most units added to one kit's lines.
const MOST_STEPS: usize = 10_000;

/// One line of a kit.
#[derive(Debug, Clone)]
pub struct JobLine {
    /// Demand in the lead time.
    pub table: Arc<DemandTable>,
    /// Reorder point.
    pub reorder_point: i64,
    /// Units of an order.
    pub quantity: i64,
    /// Units the rebuild takes.
    pub needed: i64,
    /// Price of a unit, money.
    pub price: f64,
    /// Probability with a reorder point of -1 and a shelf that is empty now; `None` where it is not, so that the long run
    /// tells it.
    pub share_if_none: Option<f64>,
    /// Stock that ends on the shelf; `None` where as good as none does.
    pub ending: Option<Arc<Ending>>,
}

impl JobLine {
    /// Probability that the line is on the shelf.
    pub fn share(&self) -> f64 {
        self.share_at(self.reorder_point)
    }

    fn share_at(&self, reorder_point: i64) -> f64 {
        let lead = InLeadTime {
            table: &self.table,
            jobs: None,
        };
        let needed = u32::try_from(self.needed).unwrap_or(u32::MAX);
        let long_run = match &self.ending {
            Some(ending) => 1.0 - ending.usages_without(reorder_point, lead, needed),
            None => on_hand_at_least(&self.table, reorder_point, self.quantity, self.needed),
        };
        match self.share_if_none {
            Some(of_year) if reorder_point < 0 => long_run.min(of_year),
            _ => long_run,
        }
    }
}

/// Share of rebuilds that find every line, the lines taken as independent.
pub fn job_fill(lines: &[JobLine]) -> f64 {
    lines.iter().map(JobLine::share).product()
}

/// Raises reorder points, most gain for the money first, until the share of rebuilds reaches the target; true if it does.
///
/// Greedy on the logarithm of the share, as for any series of parts that must all be there (Sherbrooke, Optimal Inventory
/// Modeling of Systems, 2nd ed., 2004, ch. 2, from memory). A line that has no chance yet is raised until it has one; what
/// the last step made superfluous is taken back, dearest line first.
pub fn raise_to_job_fill(lines: &mut [JobLine], target_share: f64) -> bool {
    let before: Vec<i64> = lines.iter().map(|line| line.reorder_point).collect();
    for _ in 0..MOST_STEPS {
        if job_fill(lines) >= target_share {
            take_back(lines, &before, target_share);
            return true;
        }
        let gain = |line: &JobLine| {
            let (now, next) = (line.share(), line.share_at(line.reorder_point + 1));
            if now <= 0.0 {
                f64::INFINITY
            } else {
                (next / now).ln() / line.price.max(0.01)
            }
        };
        let best = lines
            .iter()
            .enumerate()
            .map(|(at, line)| (gain(line), at))
            .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)));
        match best {
            Some((gain, at)) if gain > 1e-15 => lines[at].reorder_point += 1,
            _ => return false,
        }
    }
    false
}

/// Lowers lines that were raised for nothing.
fn take_back(lines: &mut [JobLine], before: &[i64], target_share: f64) {
    let mut dearest: Vec<usize> = (0..lines.len()).collect();
    dearest.sort_by(|a, b| lines[*b].price.total_cmp(&lines[*a].price).then(a.cmp(b)));
    for at in dearest {
        while lines[at].reorder_point > before[at] {
            lines[at].reorder_point -= 1;
            if job_fill(lines) < target_share {
                lines[at].reorder_point += 1;
                break;
            }
        }
    }
}
