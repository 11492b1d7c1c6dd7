//! A kit planned with one choice of accepted parts, and what every figure of it is worked out by.

use super::arrival_law::ArrivalLaw;
use super::chosen::Chosen;
use super::coming_anyway::{besides, short_of};
use super::line_value::Lateness;
use super::outcome::{Downtime, Running};
use super::stakes::{Figures, Stakes};
use crate::catalogue::Kit;
use crate::plan::purchase::{BestExpected, BestInTotal, Chances, LineNeed};
use crate::plan::supply::Supply;
use crate::units::Money;

/// Shares of cases that are shown.
pub const SHARES: [f64; 3] = [0.5, 0.8, 0.9];

/// Plans one kit.
pub struct KitPlanner<'s, 'a> {
    /// What choices are measured by.
    pub stakes: Stakes<'s, 'a>,
    /// The kit.
    pub kit: &'s Kit,
}

/// A kit with one choice of accepted parts, its figures and its plan.
pub struct Planned<'p> {
    /// Positions in the kit of the lines that are planned.
    pub lines: Vec<usize>,
    /// What they need.
    pub needs: Vec<LineNeed<'p>>,
    /// Work behind each.
    pub tails: Vec<i64>,
    /// The figures.
    pub figures: Figures,
    /// For each of [`SHARES`] the best plan if every lead time is as long as in that share of cases, and when the
    /// machine runs by it, in seconds from the moment of planning; none where the plan alone was asked for.
    pub fixed: Vec<(f64, i64, BestInTotal)>,
    /// The plan.
    pub best: BestExpected,
}

impl KitPlanner<'_, '_> {
    /// Laws of the arrival of the only line of a choice, late apart and together, where it is ordered twice or open orders come
    /// besides; `None` where what is chosen for it comes once.
    pub fn laws_of(&self, of: &Chosen<'_>) -> Option<[ArrivalLaw; 2]> {
        let [line] = &of.cover.lines[..] else {
            return None;
        };
        let is_once = of.also.is_none() && besides(of.cover, of.open).next().is_none();
        if is_once || !of.cover.is_covered() {
            return None;
        }
        let also = of.also.iter().flat_map(|also| &also.lines);
        let also: Vec<&Supply> = also.flat_map(|line| &line.supplies).collect();
        let law = |how| {
            let chosen = line.supplies.iter().chain(also.iter().copied());
            let needed = short_of(&line.supplies);
            self.stakes
                .law_with_open(chosen, (of.open, needed), how, None)
        };
        Some([law(Lateness::Apart)?, law(Lateness::Together)?])
    }

    /// Downtime at the shown shares of cases.
    pub fn running(&self, grid: &[i64], shares: &[f64]) -> Running {
        let at = |share: f64| {
            let position = shares.partition_point(|by_then| *by_then < share - 1e-12);
            self.downtime(grid[position.min(grid.len() - 1)])
        };
        let mean_h = self.mean_h(grid, shares);
        Running {
            p50: at(SHARES[0]),
            p80: at(SHARES[1]),
            p90: at(SHARES[2]),
            mean_h,
            mean_cost: self.cost_of(mean_h),
        }
    }

    /// Mean production hours lost.
    pub fn mean_h(&self, grid: &[i64], shares: &[f64]) -> f64 {
        let mut before = 0.0;
        let mut mean = 0.0;
        for (moment, share) in grid.iter().zip(shares) {
            mean += self.stakes.clock.production_h(*moment) * (share - before);
            before = *share;
        }
        mean
    }

    /// Expected cost of some choices as it is shown: spend, what donors stand for, and the mean hours down.
    pub fn expected_cents(&self, figures: &Figures, chances: &Chances, choices: &[usize]) -> i64 {
        let mean_h = self.mean_h(&figures.grid, &chances.product(choices));
        let still = self.stakes.downtime_cents(mean_h);
        chances.spend(choices).saturating_add(still)
    }

    /// Cost of so many hours.
    pub fn cost_of(&self, hours: f64) -> Option<Money> {
        self.stakes
            .hourly
            .map(|hourly| super::cost_of_hours(hourly, hours))
    }

    fn downtime(&self, up_s: i64) -> Downtime {
        let production_h = self.stakes.clock.production_h(up_s);
        Downtime {
            down: self.stakes.clock.moment(0),
            up: self.stakes.clock.moment(up_s),
            production_h,
            work_h: self.stakes.tasks.map_or(0.0, super::TaskNet::work_h),
            cost: self.cost_of(production_h),
        }
    }
}
