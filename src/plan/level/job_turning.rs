//! Where a level changes whose usages take several units at a time.

use std::sync::Arc;

use super::candidate::job_steps;
use super::demand_table::DemandTable;
use super::job_steps::JobSteps;
use super::jobs_short::takes_one;
use super::reason::LevelReason;
use super::turning_point::{TurningPoints, factors_where};

impl LevelReason {
    /// Jobs that wait with usage or lead time `factor` times as much; `None` where each takes one unit, as those of machines
    /// counted one by one do.
    fn jobs(&self, factor: f64, quantity: i64) -> Option<(Arc<JobSteps>, DemandTable)> {
        if takes_one(&self.demand) || self.few_machines.is_some() {
            return None;
        }
        let law = self.lead.demand(&self.demand, factor, quantity == 1)?;
        let table = DemandTable::new(&law);
        Some((job_steps(&self.demand, &law, &table, quantity)?, table))
    }

    /// Where a level changes whose usages take several units; `None` where each takes one. `ratio` is what a job waiting for a
    /// year counts, in units held.
    pub(super) fn turning_points_of_jobs(
        &self,
        level: i64,
        quantity: i64,
        ratio: f64,
    ) -> Option<TurningPoints> {
        let (jobs, _) = self.jobs(1.0, quantity)?;
        let more_pays = |factor: f64| {
            let (jobs, table) = self.jobs(factor, quantity)?;
            Some(jobs.gain_of_more(&table, level, ratio))
        };
        let less_pays = |factor: f64| {
            let (jobs, table) = self.jobs(factor, quantity)?;
            (level >= 0).then(|| jobs.gain_of_less(&table, level, ratio))
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
            let (more, less) = jobs.ratios_of(level);
            found.more_from_price = more.and_then(per_hour);
            found.less_from_price = less.and_then(per_hour);
        }
        Some(found)
    }
}
