//! How many jobs wait where a stock runs out: a job that takes twelve pieces waits once, not twelve times, and until the
//! last of them is there.

use super::demand_table::DemandTable;
use super::lead_time_demand::LeadTimeDemand;
use super::reason::LevelReason;
use crate::plan::demand::Demand;

/// Expected jobs that do not find all they take, by the units that are there.
///
/// Of a stock under a reorder point these are the jobs that wait at a random moment, at a stock position of so many units one
/// lead time before: whoever came before that has been served, first come first served, and of the jobs since then the n-th
/// waits exactly where the first n take more than the position. Exact for a fixed lead time; with lead times that vary and
/// orders that overtake each other the units waited for are exact (Feeney & Sherbrooke, Management Science 12:391-411, 1966)
/// and the jobs an approximation, which simulated years confirm within a tenth (`year/tests.rs`).
#[derive(Debug, Clone, PartialEq)]
pub struct JobsShort {
    by_units: Vec<f64>,
    /// Jobs in all.
    jobs: f64,
    mean_size: f64,
}

impl JobsShort {
    /// Jobs of a demand with its table; where quantities are not known one by one, jobs of `mean_size` units on the average.
    ///
    /// Served one after another, the n-th job goes without where the first n take more than there is, S_n > q. With N jobs
    /// in all, the mean of jobs short is the sum over n of P(N >= n) P(S_n > q), that is the mean of N less the sum over k <= q of
    /// A(k), A(k) the sum over n of P(N >= n) P(S_n = k): counted out, without an approximation. Otherwise the units
    /// missing over the units of a job, which counts a job that is short of a part of them as a part.
    pub fn new(law: &LeadTimeDemand, table: &DemandTable, mean_size: f64) -> Self {
        match law {
            LeadTimeDemand::Compound { usages, sizes, .. } => {
                Self::counted(*usages, sizes, table, 1)
            }
            LeadTimeDemand::InParts { demand, per_unit } => match demand.as_ref() {
                LeadTimeDemand::Compound { usages, sizes, .. } => {
                    Self::counted(*usages, sizes, &DemandTable::new(demand), *per_unit)
                }
                _ => Self::spread(table, mean_size),
            },
            _ => Self::spread(table, mean_size),
        }
    }

    /// Jobs of what is used in a lead time.
    pub fn of(demand: &Demand, law: &LeadTimeDemand, table: &DemandTable) -> Self {
        Self::new(law, table, mean_size(demand))
    }

    /// Jobs that take `sizes` parts of a unit each, so many parts in a unit; `table` is that of the parts.
    ///
    /// By the generating functions G of the demand and f of a quantity, C = (1 - G) / (1 - f) is the sum over n of
    /// P(N > n) P(S_n = k), and A = f C: C(k) = [k = 0] - P(demand = k) + A(k), one quantity after another.
    fn counted(jobs: f64, sizes: &[(u32, f64)], table: &DemandTable, per_unit: u32) -> Self {
        let end = usize::try_from(table.end()).unwrap_or(0);
        let per_unit = per_unit.max(1) as usize;
        let mut beyond: Vec<f64> = Vec::with_capacity(end + 1);
        let mut by_units = Vec::with_capacity(end / per_unit + 1);
        let mut left = jobs;
        let sizes_taken: Vec<(usize, f64)> = (sizes.iter())
            .filter(|(size, _)| *size > 0)
            .map(|(size, share)| (*size as usize, *share))
            .collect();
        for parts in 0..=end {
            let of_size =
                |(size, share): &(usize, f64)| Some(share * beyond[parts.checked_sub(*size)?]);
            // Smallest first: where one takes more than there is, all behind it do.
            let met: f64 = sizes_taken.iter().map_while(of_size).sum();
            let first = if parts == 0 { 1.0 } else { 0.0 };
            beyond.push(f64::max(first + met - table.share(parts as i64), 0.0));
            left = f64::max(left - met, 0.0);
            if parts % per_unit == 0 {
                by_units.push(left);
            }
        }
        let mean: f64 = sizes
            .iter()
            .map(|(size, share)| f64::from(*size) * share)
            .sum();
        Self {
            by_units,
            jobs,
            mean_size: at_least_something(mean / per_unit as f64),
        }
    }

    fn spread(table: &DemandTable, mean_size: f64) -> Self {
        let mean_size = at_least_something(mean_size);
        let of = |units: i64| table.shortfall(units) / mean_size;
        Self {
            by_units: (0..=table.end()).map(of).collect(),
            jobs: table.mean() / mean_size,
            mean_size,
        }
    }

    /// With so many units there; none where nothing is left to ask for.
    pub fn with(&self, units: i64) -> f64 {
        let at = usize::try_from(units.max(0)).unwrap_or(usize::MAX);
        self.by_units.get(at).copied().unwrap_or(0.0)
    }

    /// Jobs that wait at a stock position: below 0 all of them, and those that wait already.
    pub fn waiting(&self, position: i64) -> f64 {
        if position < 0 {
            self.jobs - position as f64 / self.mean_size
        } else {
            self.with(position)
        }
    }

    /// The mean of [`waiting`](Self::waiting) over the positions above a reorder point, `quantity` of them.
    pub fn mean_waiting(&self, reorder_point: i64, quantity: i64) -> f64 {
        let (first, last) = (reorder_point + 1, reorder_point + quantity);
        let below = (first..=last.min(-1)).map(|position| self.waiting(position));
        let end = self.by_units.len() as i64;
        let from = first.clamp(0, end) as usize;
        let until = (last + 1).clamp(0, end) as usize;
        let within = self.by_units.get(from..until).unwrap_or_default();
        (below.sum::<f64>() + within.iter().sum::<f64>()) / quantity as f64
    }
}

/// True where every usage takes one unit, so that as many usages wait as units do.
pub fn takes_one(demand: &Demand) -> bool {
    match demand.recorded() {
        Some((per_unit, sizes)) if demand.by_lives.is_none() => {
            per_unit == 1 && sizes.iter().all(|(size, _)| *size == 1)
        }
        _ => (mean_size(demand) - 1.0).abs() < 1e-9,
    }
}

/// Mean units of a usage, of the quantities that the law of the demand rests on; 1 where nothing says it.
pub fn mean_size(demand: &Demand) -> f64 {
    if demand.by_lives.is_some() {
        return at_least_something(demand.mean_size);
    }
    let of_sizes = demand.recorded().map(|(per_unit, sizes)| {
        let terms = sizes.iter();
        let parts: f64 = terms.map(|(size, share)| f64::from(*size) * share).sum();
        parts / f64::from(per_unit)
    });
    let estimated = demand.estimate.as_ref().map(|of| of.size.mean_pieces);
    at_least_something(of_sizes.or(estimated).unwrap_or(1.0))
}

/// A quantity to divide by.
fn at_least_something(size: f64) -> f64 {
    if size > 0.0 { size } else { 1.0 }
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
        let (law, demand) = (&reason.lead_time_demand, &reason.demand);
        let table = DemandTable::new(law);
        let jobs =
            (!takes_one(demand)).then(|| (JobsShort::of(demand, law, &table), mean_size(demand)));
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

    #[test]
    fn below_nothing_all_jobs_wait_and_those_that_wait_already() {
        // Half a job of four in the lead time; at -6 one and a half wait besides (by hand).
        let law = LeadTimeDemand::compound(0.5, &[(4, 1.0)]);
        let short = JobsShort::new(&law, &DemandTable::new(&law), 4.0);
        assert!((short.waiting(0) - 0.5).abs() < 1e-12);
        assert!((short.waiting(-6) - 2.0).abs() < 1e-12);
        // Positions -2 .. 1 of a reorder point of -3: 1.0, 0.75, 0.5 and 0.5, for one piece serves nobody.
        assert!((short.mean_waiting(-3, 4) - 2.75 / 4.0).abs() < 1e-12);
        assert!(short.mean_waiting(500, 3).abs() < 1e-9);
    }

    #[test]
    fn halves_of_a_metre_are_counted_in_halves() {
        // Poisson jobs, 0.8 of them, of 1.5 m each: with 1 m none is met, with 2 m and with 3 m as many as one job and two take:
        // 0.8, 0.8 - P(N >= 1) = 0.8 - 0.5507, and less P(N >= 2) = 0.1912 (Poisson, by hand).
        let law = LeadTimeDemand::compound(0.8, &[(3, 1.0)]).in_parts_of(2);
        let short = JobsShort::new(&law, &DemandTable::new(&law), 1.5);
        for (metres, jobs) in [(0, 0.8), (1, 0.8), (2, 0.2493), (3, 0.0581)] {
            assert!(
                (short.with(metres) - jobs).abs() < 5e-5,
                "{metres}: {short:?}"
            );
        }
    }
}
