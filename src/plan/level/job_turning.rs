//! Where a level changes whose usages take several units at a time.

use super::demand_table::DemandTable;
use super::job_steps::JobSteps;
use super::jobs_short::{JobsShort, takes_one};
use super::reason::LevelReason;
use super::turning_point::{TurningPoints, factors_where};

impl LevelReason {
    /// Jobs that wait with usage or lead time `factor` times as much, without steps.
    fn jobs(&self, factor: f64, quantity: i64) -> Option<(JobSteps, DemandTable)> {
        let law = self.lead.demand(&self.demand, factor, quantity == 1)?;
        let table = DemandTable::new(&law);
        let short = JobsShort::of(&self.demand, &law, &table);
        Some((JobSteps::without_steps(short, quantity), table))
    }

    /// Where a level changes whose usages take several units; `None` where each takes one. `ratio` is what a job waiting for a
    /// year counts, in units held.
    pub(super) fn turning_points_of_jobs(
        &self,
        level: i64,
        quantity: i64,
        ratio: f64,
    ) -> Option<TurningPoints> {
        // Machines counted one by one take single pieces.
        if takes_one(&self.demand) || self.few_machines.is_some() {
            return None;
        }
        let (as_planned, table) = self.jobs(1.0, quantity)?;
        // Both searches begin at what is planned, which is counted out once.
        let (more_now, less_now) = (
            as_planned.gain_of_more(&table, level, ratio),
            as_planned.gain_of_less(&table, level, ratio),
        );
        let is_planned = |factor: f64| (factor - 1.0).abs() < f64::EPSILON;
        let more_pays = |factor: f64| {
            if is_planned(factor) {
                return Some(more_now);
            }
            let (jobs, table) = self.jobs(factor, quantity)?;
            Some(jobs.gain_of_more(&table, level, ratio))
        };
        let less_pays = |factor: f64| {
            if level < 0 {
                return None;
            }
            if is_planned(factor) {
                return Some(less_now);
            }
            let (jobs, table) = self.jobs(factor, quantity)?;
            Some(jobs.gain_of_less(&table, level, ratio))
        };
        let (more_from, less_from) = factors_where(more_pays, less_pays);
        let mut found = TurningPoints {
            more_from,
            less_from,
            ..TurningPoints::default()
        };
        if self.is_hour_priced()
            && let (Some(priced), Some(holding)) = (&self.priced, self.holding())
        {
            let per_hour = |ratio: f64| {
                let price = ratio * holding / priced.factor / priced.year_h;
                Some(price).filter(|price| price.is_finite())
            };
            let (more, less) = as_planned.with_steps(&table).ratios_of(level);
            found.more_from_price = more.and_then(per_hour);
            found.less_from_price = less.and_then(per_hour);
        }
        Some(found)
    }
}
