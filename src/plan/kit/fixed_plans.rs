//! Plans for fixed lead times: the best of a share of cases, the curve of spend against time, a budget, a moment.

use chrono::NaiveDateTime;

use super::outcome::{CurveMoment, FixedBest};
use super::planned::{KitPlanner, Planned};
use super::stakes::Weighed;
use crate::plan::purchase::{
    BestInTotal, MOST_NODES, Picked, Problem, Proved, cheapest, curve, within_budget,
};
use crate::plan::supply::Supply;
use crate::units::Money;

/// Lead times of one share of cases: the problem, and its moments in seconds from the moment of planning.
struct Fixed {
    problem: Problem,
    moments: Vec<i64>,
}

impl KitPlanner<'_, '_> {
    /// The best plan for one share of cases, as shown.
    pub fn fixed_best(
        &self,
        planned: &Planned<'_>,
        (share, up_s, best): &(f64, i64, BestInTotal),
    ) -> Option<FixedBest> {
        self.stakes.tasks?;
        let covers = &planned.figures.covers;
        let (spend, total) = self.shown(planned, &best.picked, *up_s);
        let gap = best.total_cents - best.bound_cents;
        Some(FixedBest {
            share: *share,
            spend: Some(spend?),
            freight_assumed_of: covers.freight_assumed_of(
                best.picked
                    .choices
                    .iter()
                    .enumerate()
                    .flat_map(|(group, choice)| &covers.groups[group][*choice].goods),
            ),
            up: self.stakes.clock.moment(*up_s),
            production_h: self.stakes.clock.production_h(*up_s),
            total,
            bound: total.and_then(|total| {
                let cents = covers.bound_cents(total.cents - gap)?;
                Some(Money { cents, ..total })
            }),
            proved: covers.proved(best.is_proved()),
        })
    }

    /// Spend of a plan, and with it what donors and the machine stand for until it runs, as shown.
    fn shown(
        &self,
        planned: &Planned<'_>,
        picked: &Picked,
        up_s: i64,
    ) -> (Option<Money>, Option<Money>) {
        let donors = planned.figures.donor_cents(&picked.choices);
        let weighed = planned.figures.chances.spend(&picked.choices);
        let still = self
            .stakes
            .downtime_cents(self.stakes.clock.production_h(up_s));
        let total = self.stakes.money(weighed.saturating_add(still));
        (
            self.stakes.money(weighed).map(|spend| Money {
                cents: spend.cents - donors,
                currency: spend.currency,
            }),
            total.filter(|_| self.stakes.hourly.is_some()),
        )
    }

    fn fixed(&self, planned: &Planned<'_>, share: f64, weighed: Weighed) -> Option<Fixed> {
        let of = (&planned.figures, &planned.tails);
        let (problem, moments) = self.stakes.fixed(of.0, of.1, share, weighed)?;
        Some(Fixed { problem, moments })
    }

    /// The curve of spend against the moment of running again, for one share of cases.
    pub fn curve(&self, planned: &Planned<'_>, share: f64) -> Vec<CurveMoment> {
        let Some(fixed) = self.fixed(planned, share, Weighed::PaidAndDonors) else {
            return Vec::new();
        };
        let mut levels = curve_levels(&fixed.moments);
        levels.extend(planned.level_in(&fixed.problem));
        levels.sort_unstable();
        levels.dedup();
        curve(&fixed.problem, &levels, MOST_NODES)
            .into_iter()
            .map(|point| {
                let is_best = point.bound_cents >= point.picked.spend_cents;
                self.point(planned, &fixed, (&point.picked, is_best), None)
            })
            .collect()
    }

    /// The earliest plan within a budget, for one share of cases.
    ///
    /// A budget pays for goods, work and freight; what a robbed machine stands for is weighed among plans that are as early.
    pub fn for_budget(
        &self,
        planned: &Planned<'_>,
        share: f64,
        budget_cents: i64,
    ) -> Option<CurveMoment> {
        let paid = self.fixed(planned, share, Weighed::Paid)?;
        let picked = within_budget(&paid.problem, budget_cents, MOST_NODES)?;
        let fixed = self.fixed(planned, share, Weighed::PaidAndDonors)?;
        let with_donors = cheapest(&fixed.problem, picked.level, None, MOST_NODES);
        let is_within =
            |found: &Picked| paid.problem.pick(found.choices.clone()).spend_cents <= budget_cents;
        let picked = with_donors
            .map(|found| found.picked)
            .filter(is_within)
            .unwrap_or(picked);
        Some(self.point(planned, &fixed, (&picked, true), None))
    }

    /// The least that has to be paid for any plan, for one share of cases; `None` where the search was cut short.
    pub fn least_paid(&self, planned: &Planned<'_>, share: f64) -> Option<Money> {
        let Fixed { problem, moments } = self.fixed(planned, share, Weighed::Paid)?;
        let found = cheapest(&problem, moments.len().checked_sub(1)?, None, MOST_NODES)?;
        let spend = found.picked.spend_cents;
        let covers = &planned.figures.covers;
        let is_least = covers.proved(found.bound_cents >= spend) == Proved::Best;
        self.stakes.money(spend).filter(|_| is_least)
    }

    /// The soonest that any plan runs, whatever it costs, for one share of cases.
    pub fn soonest(&self, planned: &Planned<'_>, share: f64) -> Option<NaiveDateTime> {
        let Fixed { problem, moments } = self.fixed(planned, share, Weighed::Paid)?;
        let picked = within_budget(&problem, i64::MAX, MOST_NODES)?;
        Some(self.stakes.clock.moment(*moments.get(picked.level)?))
    }

    /// The cheapest plan that runs by a moment, for one share of cases.
    pub fn for_time(
        &self,
        planned: &Planned<'_>,
        share: f64,
        by: NaiveDateTime,
    ) -> Option<CurveMoment> {
        let fixed = self.fixed(planned, share, Weighed::PaidAndDonors)?;
        let by_s = self.stakes.clock.seconds(by);
        let level = fixed
            .moments
            .partition_point(|moment| *moment <= by_s)
            .checked_sub(1)?;
        let point = curve(&fixed.problem, &[level], MOST_NODES).pop()?;
        let is_best = point.bound_cents >= point.picked.spend_cents;
        Some(self.point(planned, &fixed, (&point.picked, is_best), Some(by_s)))
    }

    /// A plan as shown; the chance to keep is that of running by `by_s`, else by its own moment.
    fn point(
        &self,
        planned: &Planned<'_>,
        fixed: &Fixed,
        (picked, is_best): (&Picked, bool),
        by_s: Option<i64>,
    ) -> CurveMoment {
        let up_s = fixed.moments[picked.level];
        let figures = &planned.figures;
        let mut lines: Vec<(usize, Vec<Supply>)> = picked
            .choices
            .iter()
            .enumerate()
            .flat_map(|(group, choice)| &figures.covers.groups[group][*choice].lines)
            .map(|cover| (planned.lines[cover.at], cover.supplies.clone()))
            .collect();
        lines.sort_by_key(|(line, _)| *line);
        let (spend, total) = self.shown(planned, picked, up_s);
        let shares = figures.chances.product(&picked.choices);
        let reached = figures
            .grid
            .partition_point(|moment| *moment <= by_s.unwrap_or(up_s));
        CurveMoment {
            up: self.stakes.clock.moment(up_s),
            production_h: self.stakes.clock.production_h(up_s),
            kept_share: reached.checked_sub(1).map_or(0.0, |at| shares[at]),
            running: self.running(&figures.grid, &shares),
            spend,
            total,
            lines,
            proved: figures.covers.proved(is_best),
        }
    }
}

impl Planned<'_> {
    /// Moment at which the plan runs in a problem of fixed lead times; `None` where it orders something twice, which such
    /// a problem does not know.
    fn level_in(&self, problem: &Problem) -> Option<usize> {
        let choices = &self.best.choices;
        let mut lines = choices.iter().zip(&problem.lines);
        let is_single = lines.all(|(choice, line)| *choice < line.len());
        is_single.then(|| problem.pick(choices.clone()).level)
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
