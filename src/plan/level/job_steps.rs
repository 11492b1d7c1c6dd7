//! Reorder points of a part whose usages take several units at a time: four units may pay where the first alone saves nothing.
//!
//! A job waits until the last of its units is there, so that what one unit more saves need not fall: the first three of four
//! save nothing, the fourth all of it. Of the reorder points only those are ever the cheapest, at any price of an hour, whose
//! holding and waiting lie on the lower convex hull of all of them; from one to the next it is a step of several units.

use super::demand_table::DemandTable;
use super::jobs_short::JobsShort;

/// Lowest reorder point where nobody is left waiting to fill an order.
const LOWEST: i64 = -1;

/// Waiting below which nothing is told apart from rounding.
const LEAST_WAITING: f64 = 1e-12;

/// Two steps of which a unit saves as much, up to rounding, stay two.
const EQUAL: f64 = 1.0 + 1e-9;

/// One step up.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Step {
    /// Reorder point that it leads to.
    to: i64,
    /// Units on the shelf more for each job waiting less.
    from_ratio: f64,
}

/// Jobs that wait for a part, and the reorder points that may pay for an order quantity.
#[derive(Debug, Clone, PartialEq)]
pub struct JobSteps {
    short: JobsShort,
    quantity: i64,
    /// From a reorder point of -1 on, each dearer than the one before.
    steps: Vec<Step>,
}

impl JobSteps {
    /// Jobs that wait for an order quantity, without the reorder points that may pay: enough for
    /// [`gain_of_more`](Self::gain_of_more) and [`gain_of_less`](Self::gain_of_less), which look at all of them.
    pub const fn without_steps(short: JobsShort, quantity: i64) -> Self {
        Self {
            short,
            quantity,
            steps: Vec::new(),
        }
    }

    /// Of a demand in the lead time, its jobs and the units of an order.
    pub fn new(short: JobsShort, table: &DemandTable, quantity: i64) -> Self {
        Self::without_steps(short, quantity).with_steps(table)
    }

    /// The same with the reorder points that may pay.
    pub fn with_steps(self, table: &DemandTable) -> Self {
        let mut found = self;
        // Reorder point, units on the shelf and jobs saved, both against none kept.
        let mut hull: Vec<(i64, f64, f64)> = vec![(LOWEST, 0.0, 0.0)];
        let (mut held, mut saved) = (0.0, 0.0);
        for reorder_point in LOWEST + 1..=table.end() {
            held += found.held_more(table, reorder_point);
            saved += found.waiting_fewer(reorder_point);
            let Some(last) = hull.last().filter(|last| saved - last.2 > LEAST_WAITING) else {
                continue;
            };
            let ratio = |from: &(i64, f64, f64)| (held - from.1) / (saved - from.2);
            let mut of_last = ratio(last);
            while hull.len() > 1 && of_last <= ratio_between(&hull) {
                hull.pop();
                of_last = hull.last().map_or(of_last, &ratio);
            }
            hull.push((reorder_point, held, saved));
        }
        let pairs = hull.windows(2);
        found.steps = pairs
            .map(|two| Step {
                to: two[1].0,
                from_ratio: (two[1].1 - two[0].1) / (two[1].2 - two[0].2),
            })
            .collect();
        found
    }

    /// Units on the shelf that the unit that makes this the reorder point adds.
    fn held_more(&self, table: &DemandTable, reorder_point: i64) -> f64 {
        let (low, high) = (reorder_point, reorder_point + self.quantity);
        1.0 - (table.shortfall(low) - table.shortfall(high)) / self.quantity as f64
    }

    /// Jobs waiting at a random moment that it saves.
    pub fn waiting_fewer(&self, reorder_point: i64) -> f64 {
        let (low, high) = (reorder_point, reorder_point + self.quantity);
        (self.short.waiting(low) - self.short.waiting(high)) / self.quantity as f64
    }

    /// Jobs waiting at a random moment.
    pub fn waiting(&self, reorder_point: i64) -> f64 {
        self.short.mean_waiting(reorder_point, self.quantity)
    }

    /// Reorder point of the least cost where a job waiting for a year costs `ratio` times what a unit held for a year does;
    /// of two that cost the same the lower one.
    pub fn reorder_point(&self, ratio: f64) -> i64 {
        let steps = self.steps.partition_point(|step| step.from_ratio < ratio);
        match steps.checked_sub(1) {
            Some(last) => self.steps[last].to,
            None => LOWEST,
        }
    }

    /// Units of the step above a reorder point that is the end of one, and jobs waiting that it saves; `None` where nothing is
    /// saved any more.
    pub fn step_above(&self, reorder_point: i64) -> Option<(i64, f64)> {
        let next = self.steps.iter().find(|step| step.to > reorder_point)?;
        let units = next.to - reorder_point;
        let each = (reorder_point + 1..=next.to).map(|point| self.waiting_fewer(point));
        Some((units, each.sum()))
    }

    /// Ratios, as for [`reorder_point`](Self::reorder_point), above which more than a reorder point is kept, and at or below
    /// which less; `None` where no step ends there, and where there is none above or below.
    pub fn ratios_of(&self, reorder_point: i64) -> (Option<f64>, Option<f64>) {
        if reorder_point == LOWEST {
            return (self.steps.first().map(|step| step.from_ratio), None);
        }
        let Some(at) = self.steps.iter().position(|step| step.to == reorder_point) else {
            return (None, None);
        };
        let above = self.steps.get(at + 1).map(|step| step.from_ratio);
        (above, Some(self.steps[at].from_ratio))
    }

    /// What the best of all higher reorder points costs less a year than this one, in units held; below 0 where each costs
    /// more.
    pub fn gain_of_more(&self, table: &DemandTable, reorder_point: i64, ratio: f64) -> f64 {
        let last = table.end().max(reorder_point + 1);
        let each = (reorder_point + 1..=last).map(|point| self.gain(table, point, ratio));
        best_sum(each)
    }

    /// The same for the best of all lower ones.
    pub fn gain_of_less(&self, table: &DemandTable, reorder_point: i64, ratio: f64) -> f64 {
        let each = (LOWEST + 1..=reorder_point).rev();
        best_sum(each.map(|point| -self.gain(table, point, ratio)))
    }

    fn gain(&self, table: &DemandTable, point: i64, ratio: f64) -> f64 {
        ratio * self.waiting_fewer(point) - self.held_more(table, point)
    }

    /// Steps from one reorder point to another that save most waiting for the units: units and jobs waiting that each saves,
    /// a unit of each no more than one of the step before. What lies between the ends of a step saves less for its units.
    pub fn steps_between(&self, least: i64, most: i64) -> Vec<(i64, f64)> {
        steps_that_save_most((least + 1..=most).map(|point| self.waiting_fewer(point)))
    }
}

/// Steps of one or more units that save most for the units, from what each unit saves after those before it.
pub(super) fn steps_that_save_most(each: impl Iterator<Item = f64>) -> Vec<(i64, f64)> {
    let mut hull: Vec<(i64, f64)> = Vec::new();
    let mut open = (0, 0.0);
    for saved in each {
        open = (open.0 + 1, open.1 + saved);
        if open.1 <= LEAST_WAITING {
            continue;
        }
        hull.push(std::mem::take(&mut open));
        while let [.., before, last] = hull[..]
            && last.1 * before.0 as f64 > EQUAL * before.1 * last.0 as f64
        {
            hull.truncate(hull.len() - 2);
            hull.push((before.0 + last.0, before.1 + last.1));
        }
    }
    hull
}

/// Ratio of the last two of a hull.
fn ratio_between(hull: &[(i64, f64, f64)]) -> f64 {
    match hull {
        [.., before, last] => (last.1 - before.1) / (last.2 - before.2),
        _ => 0.0,
    }
}

/// The largest sum of the first so many terms, one or more.
fn best_sum(terms: impl Iterator<Item = f64>) -> f64 {
    let mut sum = 0.0;
    let sums = terms.map(|term| {
        sum += term;
        sum
    });
    sums.fold(f64::NEG_INFINITY, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::level::lead_time_demand::LeadTimeDemand;
    use crate::plan::level::reorder_quantity::reorder_point_by_cost;

    fn steps(law: &LeadTimeDemand, quantity: i64) -> (JobSteps, DemandTable) {
        let table = DemandTable::new(law);
        let short = JobsShort::new(law, &table, 1.0);
        (JobSteps::new(short, &table, quantity), table)
    }

    /// Units held and jobs waiting with a reorder point, by their definitions.
    fn measures(of: &JobSteps, table: &DemandTable, reorder_point: i64) -> (f64, f64) {
        let positions = reorder_point + 1..=reorder_point + of.quantity;
        let (mut held, mut waiting) = (0.0, 0.0);
        for position in positions {
            for demand in 0..=table.end() {
                held += table.share(demand) * (position - demand).max(0) as f64;
            }
            waiting += of.short.with(position);
        }
        (held / of.quantity as f64, waiting / of.quantity as f64)
    }

    #[test]
    fn the_reorder_point_is_the_cheapest_of_all() {
        // Every reorder point tried, at prices from nearly nothing to nearly everything.
        let laws = [
            LeadTimeDemand::compound(0.13, &[(4, 1.0)]),
            LeadTimeDemand::compound(0.9, &[(1, 0.6), (4, 0.4)]),
            LeadTimeDemand::compound_of(1.4, 2.5, &[(2, 0.3), (5, 0.5), (12, 0.2)]),
        ];
        for law in laws {
            for quantity in [1, 3, 8] {
                let (of, table) = steps(&law, quantity);
                let all: Vec<_> = (-1..=table.end())
                    .map(|point| measures(&of, &table, point))
                    .collect();
                for power in -20..=40 {
                    let ratio = 10_f64.powf(f64::from(power) / 10.0);
                    let cost = |at: usize| all[at].0 + ratio * all[at].1;
                    let found = cost((of.reorder_point(ratio) + 1) as usize);
                    let least = (0..all.len()).map(cost).fold(f64::INFINITY, f64::min);
                    assert!(
                        found <= least + 1e-7 * (1.0 + least),
                        "{law:?} {quantity} {ratio}: {found}, not {least}"
                    );
                }
            }
        }
    }

    #[test]
    fn four_at_a_time_are_kept_by_fours() {
        // 0.13 jobs of four in the lead time, one for one. By hand: with three or less all 0.13 wait, with four
        // 0.13 - (1 - e^-0.13) = 0.008095. Four held are 4 - 0.52 and what is waited for, E[(4 N - 4)+] = 4 * 0.008095, against
        // nothing with none: 3.51238 units for 0.121905 jobs, from 28.81 times the holding on.
        let law = LeadTimeDemand::compound(0.13, &[(4, 1.0)]);
        let (of, table) = steps(&law, 1);
        assert_eq!(of.reorder_point(28.8), -1);
        assert_eq!(of.reorder_point(28.83), 3);
        assert!((of.waiting(-1) - 0.13).abs() < 1e-12);
        assert!((of.waiting(2) - 0.13).abs() < 1e-12);
        assert!((of.waiting(3) - 0.008_095).abs() < 1e-6);
        let (units, saved) = of.step_above(-1).unwrap();
        assert!(units == 4 && (saved - 0.121_905).abs() < 1e-6);
        let (more, less) = of.ratios_of(3);
        assert!((less.unwrap() - 28.812).abs() < 2e-3, "{less:?}");
        assert!(more.unwrap() > less.unwrap());
        assert_eq!(of.ratios_of(-1), (less, None));
        // None is the best until that ratio, four from there on.
        assert!(of.gain_of_more(&table, -1, 28.8) < 0.0);
        assert!(of.gain_of_more(&table, -1, 28.83) > 0.0);
        assert!(of.gain_of_less(&table, 3, 28.8) > 0.0);
        assert!(of.gain_of_less(&table, 3, 28.83) < 0.0);
        let steps = of.steps_between(-1, 7);
        assert_eq!(steps.iter().map(|step| step.0).collect::<Vec<_>>(), [4, 4]);
        assert!((steps[0].1 - 0.121_905).abs() < 1e-6);
        assert_eq!(of.steps_between(-1, 2), []);
    }

    #[test]
    fn single_units_have_the_reorder_points_of_their_own_rule() {
        // Federgruen & Zheng's condition, which rests on other sums.
        for (mean, quantity) in [(0.2, 1), (2.5, 4), (7.0, 1)] {
            let (of, table) = steps(&LeadTimeDemand::Poisson { mean }, quantity);
            for ratio in [0.013, 0.9, 3.1, 47.0, 911.0, 1e5] {
                let own = reorder_point_by_cost(&table, quantity, 1.0, ratio);
                assert_eq!(of.reorder_point(ratio), own, "{mean} {quantity} {ratio}");
            }
        }
    }
}
