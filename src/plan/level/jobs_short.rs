//! How many jobs go without where a stock runs out: a job that takes twelve pieces waits once, not twelve times.

use super::demand_table::DemandTable;
use super::lead_time_demand::LeadTimeDemand;
use super::reason::LevelReason;
use crate::plan::demand::Demand;

/// Share of cases beyond which more jobs are not looked at.
const LEAST_SHARE: f64 = 1e-12;

/// Expected jobs that do not find all they take, by the units that are there.
#[derive(Debug, Clone, PartialEq)]
pub struct JobsShort {
    by_units: Vec<f64>,
}

impl JobsShort {
    /// Jobs of a demand with its table; where quantities are not known one by one, jobs of `mean_size` units on the average.
    ///
    /// Served one after another, the n-th job goes without where the first n take more than there is, S_n > q. With N jobs
    /// in all, E[jobs short] is the sum over n of P(N >= n) P(S_n > q), that is E[N] less the sum over k <= q of
    /// A(k), A(k) the sum over n of P(N >= n) P(S_n = k): counted out, without an approximation. Otherwise the units
    /// missing over the units of a job, which counts a job that is short of a part of them as a part.
    pub fn new(law: &LeadTimeDemand, table: &DemandTable, mean_size: f64) -> Self {
        let LeadTimeDemand::Compound {
            usages,
            usages_variance,
            sizes,
        } = law
        else {
            let of = |units: i64| table.shortfall(units) / mean_size.max(1.0);
            return Self {
                by_units: (0..=table.end()).map(of).collect(),
            };
        };
        let end = usize::try_from(table.end()).unwrap_or(0);
        // Probability that the first n jobs take exactly k, from n = 0 on.
        let mut taken = vec![0.0; end + 1];
        taken[0] = 1.0;
        let mut there = vec![0.0; end + 1];
        for at_least in shares_at_least(*usages, *usages_variance, end) {
            let mut next = vec![0.0; end + 1];
            for (size, share) in sizes {
                let size = *size as usize;
                for units in size..=end {
                    next[units] += share * taken[units - size];
                }
            }
            for (sum, of) in there.iter_mut().zip(&next) {
                *sum += at_least * of;
            }
            taken = next;
        }
        let mut left = *usages;
        let by_units = there.iter().map(|met| {
            left -= met;
            left.max(0.0)
        });
        Self {
            by_units: by_units.collect(),
        }
    }

    /// With so many units there; none where nothing is left to ask for.
    pub fn with(&self, units: i64) -> f64 {
        let at = usize::try_from(units.max(0)).unwrap_or(usize::MAX);
        self.by_units.get(at).copied().unwrap_or(0.0)
    }
}

/// Units that a job takes on the average; 1 where nothing says it.
pub fn mean_size(demand: &Demand) -> f64 {
    let of_sizes = demand.quantities().map(|sizes| {
        let terms = sizes.iter();
        terms.map(|(size, share)| f64::from(*size) * share).sum()
    });
    let estimated = demand.estimate.as_ref().map(|of| of.size.mean_pieces);
    of_sizes.or(estimated).unwrap_or(1.0)
}

/// Jobs that wait for a part at a random moment, by its stock position one lead time before.
#[derive(Debug)]
pub struct JobsWaiting {
    table: DemandTable,
    /// Where jobs take more than one unit: those short, and the units of one.
    jobs: Option<(JobsShort, f64)>,
}

impl JobsWaiting {
    /// Of a level.
    pub fn of(reason: &LevelReason) -> Self {
        // Machines counted one by one take single pieces.
        if let Some(few) = reason.few_machines {
            return Self {
                table: few.spares_table(),
                jobs: None,
            };
        }
        let law = &reason.lead_time_demand;
        let table = DemandTable::new(law);
        let size = mean_size(&reason.demand);
        let jobs = (size > 1.0 + 1e-9).then(|| (JobsShort::new(law, &table, size), size));
        Self { table, jobs }
    }

    /// With the position left where it is; below 0 jobs wait already, and no more than so many units are.
    pub fn at(&self, position: f64) -> f64 {
        let position = position.floor() as i64;
        let Some((jobs, size)) = &self.jobs else {
            return self.table.shortfall(position);
        };
        let already = (position.min(0).unsigned_abs() as f64 / size).ceil();
        jobs.with(position) + already
    }

    /// With orders of so many at or below a reorder point: the mean over the positions that these lead to.
    pub fn with_level(&self, reorder_point: f64, quantity: f64) -> f64 {
        let first = reorder_point.floor() as i64 + 1;
        let quantity = (quantity.ceil() as i64).max(1);
        // Beyond the table nobody waits.
        let last = (first + quantity - 1).min(self.table.end());
        let each = (first..=last).map(|position| self.at(position as f64));
        each.sum::<f64>() / quantity as f64
    }
}

/// P(N >= 1), P(N >= 2), ... of Poisson jobs, negative binomial where the variance exceeds the mean, at most so many.
fn shares_at_least(mean: f64, variance: f64, most: usize) -> Vec<f64> {
    let is_poisson = variance <= mean * (1.0 + 1e-9);
    let (size, success) = (mean * mean / (variance - mean), mean / variance);
    let mut share = if is_poisson {
        (-mean).exp()
    } else {
        (size * success.ln()).exp()
    };
    let mut beyond = 1.0 - share;
    let mut found = Vec::new();
    for n in 1..=most {
        if beyond < LEAST_SHARE {
            break;
        }
        found.push(beyond);
        let n = n as f64;
        share *= if is_poisson {
            mean / n
        } else {
            (size + n - 1.0) / n * (1.0 - success)
        };
        beyond -= share;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn jobs_of_twelve_wait_once_each() {
        // Two jobs of 12 on the average, Poisson: with 12 m to 12 m + 11 units m jobs are met, and E[(N - m)+] go without:
        // 2, 2 - (1 - e^-2) = 1.1353, 1.1353 - (1 - 3 e^-2) = 0.5413 (by hand).
        let law = LeadTimeDemand::compound(2.0, &[(12, 1.0)]);
        let short = JobsShort::new(&law, &DemandTable::new(&law), 12.0);
        for (units, jobs) in [
            (0, 2.0),
            (11, 2.0),
            (12, 1.1353),
            (23, 1.1353),
            (24, 0.5413),
        ] {
            assert!(
                (short.with(units) - jobs).abs() < 5e-5,
                "{units}: {short:?}"
            );
        }
        assert!(short.with(100_000) < 1e-9);
        // Single pieces: as many jobs as units.
        let law = LeadTimeDemand::Poisson { mean: 2.0 };
        let table = DemandTable::new(&law);
        let single = JobsShort::new(&law, &table, 1.0);
        for units in 0..6 {
            assert!((single.with(units) - table.shortfall(units)).abs() < 1e-12);
        }
    }

    #[test]
    fn of_a_level_jobs_wait_and_not_their_pieces() {
        let law = LeadTimeDemand::compound(2.0, &[(12, 1.0)]);
        let table = DemandTable::new(&law);
        let jobs = JobsShort::new(&law, &table, 12.0);
        let waiting = JobsWaiting {
            table,
            jobs: Some((jobs, 12.0)),
        };
        // The jobs of the lead time that are not met (above), and those that wait already: 24 owed are two, 13 two as well.
        for (position, of) in [(0.0, 2.0), (12.0, 1.1353), (-24.0, 4.0), (-13.0, 4.0)] {
            assert!((waiting.at(position) - of).abs() < 5e-5, "{position}");
        }
        // Twelve at or below 11: from 12 to 23 all alike; at or below 17: half of them at 18 to 23, half at 24 to 29.
        assert!((waiting.with_level(11.0, 12.0) - 1.1353).abs() < 5e-5);
        let half = f64::midpoint(1.1353, 0.5413);
        assert!((waiting.with_level(17.0, 12.0) - half).abs() < 5e-5);
        // Far beyond what is asked for, nobody waits, however large an order is.
        assert!(waiting.with_level(11.0, 1e9) < 1e-6);
    }

    #[test]
    fn single_pieces_wait_as_the_units_of_the_level_do() {
        let law = LeadTimeDemand::Poisson { mean: 2.5 };
        let table = DemandTable::new(&law);
        let service = crate::plan::level::Service::new(&table, 1, 4, &[]);
        let waiting = JobsWaiting { table, jobs: None };
        assert!((waiting.with_level(1.0, 4.0) - service.waiting).abs() < 1e-9);
        assert!((waiting.at(-2.0) - 4.5).abs() < 1e-9);
    }

    #[test]
    fn jobs_of_several_sizes_are_counted_out() {
        // Brute force over every run of up to 14 jobs of 1 (3 of 4) or 3, their number negative binomial of mean 1.5 and
        // variance 2.25, that is of size 3 with success 2/3: P(N = n) = (n + 1)(n + 2) / 2 (2/3)^3 (1/3)^n.
        let sizes = [(1, 0.75), (3, 0.25)];
        let law = LeadTimeDemand::compound_of(1.5, 2.25, &sizes);
        let short = JobsShort::new(&law, &DemandTable::new(&law), 1.5);
        for there in 0..7_u32 {
            let mut jobs = 0.0;
            for n in 0..15_u32 {
                let count = f64::from((n + 1) * (n + 2)) / 2.0;
                let share_n = count * (2.0_f64 / 3.0).powi(3) * (1.0_f64 / 3.0).powi(n as i32);
                for run in 0..1_u32 << n {
                    let (mut share, mut taken, mut late) = (share_n, 0, 0);
                    for job in 0..n {
                        let (size, of) = sizes[(run >> job & 1) as usize];
                        share *= of;
                        taken += size;
                        late += u32::from(taken > there);
                    }
                    jobs += share * f64::from(late);
                }
            }
            assert!(
                (short.with(i64::from(there)) - jobs).abs() < 1e-3,
                "{there} {jobs}"
            );
        }
    }
}
