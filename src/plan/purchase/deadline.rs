//! Plans for fixed lead times: the best in total, and the curve of spend against the moment of running again.

use std::cmp::Ordering;

use super::cheapest::{Cheapest, cheapest, least_spend};
use super::problem::{Picked, Problem};

/// The best plan for fixed lead times.
#[derive(Debug, Clone, PartialEq)]
pub struct BestInTotal {
    /// What to take.
    pub picked: Picked,
    /// Spend and cost of standing still.
    pub total_cents: i64,
    /// No plan costs less in total.
    pub bound_cents: i64,
}

impl BestInTotal {
    /// True where nothing cheaper exists.
    pub const fn is_proved(&self) -> bool {
        self.bound_cents >= self.total_cents
    }
}

/// One point of the curve: the least spend for a moment.
#[derive(Debug, Clone, PartialEq)]
pub struct CurvePoint {
    /// What to take.
    pub picked: Picked,
    /// No plan that is as early spends less.
    pub bound_cents: i64,
}

/// Finds the plan with the least spend and cost of standing still; `None` where a line has no choice.
///
/// From the latest moment down: a plan that is the cheapest by some moment is the cheapest for every moment from its
/// own on, and a moment whose bound is above the best total is passed over.
pub fn best_in_total(problem: &Problem, most_nodes: usize) -> Option<BestInTotal> {
    let mut best: Option<Picked> = None;
    let mut bound = i64::MAX;
    let start = earliest(problem)?;
    take(problem, &mut best, start.clone());
    let mut next = problem.level_cents.len().checked_sub(1);
    while let Some(level) = next {
        let still = problem.level_cents[level];
        let total = best
            .as_ref()
            .map_or(i64::MAX, |best| problem.total_cents(best));
        let enough = (total as f64) - still as f64;
        let Some(least) = least_spend(problem, level, enough, enough) else {
            break;
        };
        // Plans of exactly this level are no better; earlier ones are looked at in their turn.
        if best.is_some() && least.ceil() >= enough {
            next = level.checked_sub(1);
            continue;
        }
        let Some(found) = cheapest(problem, level, Some(&start), most_nodes) else {
            break;
        };
        if !found.is_proved() {
            bound = bound.min(found.bound_cents.saturating_add(still));
        }
        let reached = found.picked.level.min(level);
        take(problem, &mut best, found.picked.clone());
        // Where the cheapest is proved, moments from its own to this one need not be looked at again.
        next = if found.is_proved() { reached } else { level }.checked_sub(1);
    }
    let picked = best?;
    let total_cents = problem.total_cents(&picked);
    Some(BestInTotal {
        total_cents,
        bound_cents: bound.min(total_cents),
        picked,
    })
}

/// The least spend by each of some moments, latest first, points that another betters left out.
///
/// `levels` are positions of moments, rising.
pub fn curve(problem: &Problem, levels: &[usize], most_nodes: usize) -> Vec<CurvePoint> {
    let mut points: Vec<CurvePoint> = Vec::new();
    let mut reached = usize::MAX;
    for level in levels.iter().rev().copied() {
        if level >= reached {
            continue;
        }
        let Some(Cheapest {
            picked,
            bound_cents,
            ..
        }) = cheapest(problem, level, None, most_nodes)
        else {
            break;
        };
        reached = picked.level;
        if points
            .last()
            .is_some_and(|last| last.picked.spend_cents >= picked.spend_cents)
        {
            points.pop();
        }
        points.push(CurvePoint {
            picked,
            bound_cents,
        });
    }
    points.reverse();
    points
}

/// The earliest plan that spends no more than a budget, cheapest of those; `None` where there is none.
pub fn within_budget(problem: &Problem, budget_cents: i64, most_nodes: usize) -> Option<Picked> {
    let (mut low, mut high) = (0, problem.level_cents.len());
    let mut best: Option<Picked> = None;
    while low < high {
        let middle = low.midpoint(high);
        match cheapest(problem, middle, None, most_nodes) {
            Some(found) if found.picked.spend_cents <= budget_cents => {
                high = found.picked.level.min(middle);
                best = Some(found.picked);
            }
            _ => low = middle + 1,
        }
    }
    best
}

/// The fastest choice of every line.
fn earliest(problem: &Problem) -> Option<Picked> {
    let choices: Option<Vec<usize>> = problem
        .lines
        .iter()
        .map(|line| (0..line.len()).min_by_key(|at| (line[*at].level, line[*at].cents)))
        .collect();
    Some(problem.pick(choices?))
}

fn take(problem: &Problem, best: &mut Option<Picked>, picked: Picked) {
    if best
        .as_ref()
        .is_none_or(|best| problem.compare(&picked, best) == Ordering::Less)
    {
        *best = Some(picked);
    }
}
