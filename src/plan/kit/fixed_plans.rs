//! Plans for fixed lead times: the best of a share of cases, the curve of spend against time, a budget, a moment.

use super::outcome::{CurveMoment, FixedBest};
use super::planner::{KitPlanner, Planned};
use crate::plan::purchase::{BestInTotal, MOST_NODES, Picked, Problem, curve, within_budget};
use crate::plan::supply::Supply;

impl KitPlanner<'_, '_> {
    /// The best plan for one share of cases, as shown.
    pub fn fixed_best(
        &self,
        planned: &Planned<'_>,
        (share, up_s, best): &(f64, i64, BestInTotal),
    ) -> Option<FixedBest> {
        self.stakes.tasks?;
        let spend = self.stakes.money(best.picked.spend_cents)?;
        let of_hourly = |cents: i64| self.stakes.hourly.and_then(|_| self.stakes.money(cents));
        let covers = &planned.figures.covers;
        Some(FixedBest {
            share: *share,
            spend: Some(spend),
            freight_assumed_of: covers.freight_assumed_of(
                best.picked
                    .choices
                    .iter()
                    .enumerate()
                    .flat_map(|(group, choice)| &covers.groups[group][*choice].goods),
            ),
            up: self.stakes.clock.moment(*up_s),
            production_h: self.stakes.clock.production_h(*up_s),
            total: of_hourly(best.total_cents),
            bound: of_hourly(best.bound_cents),
            is_best: best.is_proved() && planned.figures.covers.is_whole,
        })
    }

    /// The curve of spend against the moment of running again, for one share of cases.
    pub fn curve(&self, planned: &Planned<'_>, share: f64) -> Vec<CurveMoment> {
        let Some((problem, moments)) = self.stakes.fixed(&planned.figures, &planned.tails, share)
        else {
            return Vec::new();
        };
        curve(&problem, &curve_levels(&moments), MOST_NODES)
            .into_iter()
            .map(|point| {
                let is_best = point.bound_cents >= point.picked.spend_cents;
                self.point(planned, &problem, &moments, &point.picked, is_best)
            })
            .collect()
    }

    /// The earliest plan within a budget, for one share of cases.
    pub fn for_budget(
        &self,
        planned: &Planned<'_>,
        share: f64,
        budget_cents: i64,
    ) -> Option<CurveMoment> {
        let (problem, moments) = self.stakes.fixed(&planned.figures, &planned.tails, share)?;
        let picked = within_budget(&problem, budget_cents, MOST_NODES)?;
        Some(self.point(planned, &problem, &moments, &picked, true))
    }

    /// The cheapest plan that runs by a moment, for one share of cases.
    pub fn for_time(
        &self,
        planned: &Planned<'_>,
        share: f64,
        by: chrono::NaiveDateTime,
    ) -> Option<CurveMoment> {
        let (problem, moments) = self.stakes.fixed(&planned.figures, &planned.tails, share)?;
        let by_s = self.stakes.clock.seconds(by);
        let level = moments
            .partition_point(|moment| *moment <= by_s)
            .checked_sub(1)?;
        let point = curve(&problem, &[level], MOST_NODES).pop()?;
        let is_best = point.bound_cents >= point.picked.spend_cents;
        Some(self.point(planned, &problem, &moments, &point.picked, is_best))
    }

    fn point(
        &self,
        planned: &Planned<'_>,
        problem: &Problem,
        moments: &[i64],
        picked: &Picked,
        is_best: bool,
    ) -> CurveMoment {
        let up_s = moments[picked.level];
        let covers = &planned.figures.covers;
        let total = problem.total_cents(picked);
        let mut lines: Vec<(usize, Vec<Supply>)> = picked
            .choices
            .iter()
            .enumerate()
            .flat_map(|(group, choice)| &covers.groups[group][*choice].lines)
            .map(|cover| (planned.lines[cover.at], cover.supplies.clone()))
            .collect();
        lines.sort_by_key(|(line, _)| *line);
        CurveMoment {
            up: self.stakes.clock.moment(up_s),
            production_h: self.stakes.clock.production_h(up_s),
            spend: self.stakes.money(picked.spend_cents),
            total: self.stakes.hourly.and_then(|_| self.stakes.money(total)),
            lines,
            is_best: is_best && covers.is_whole,
        }
    }
}

/// Moments of the curve: every hour of the first two days, then the last of each day.
pub fn curve_levels(moments: &[i64]) -> Vec<usize> {
    let bucket = |moment: i64| {
        if moment < 48 * 3600 {
            moment / 3600
        } else {
            48 + moment / 86_400
        }
    };
    (0..moments.len())
        .filter(|at| {
            moments
                .get(at + 1)
                .is_none_or(|next| bucket(*next) != bucket(moments[*at]))
        })
        .collect()
}
