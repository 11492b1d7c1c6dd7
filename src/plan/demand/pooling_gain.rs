//! What pooling saves: stock when every number is kept apart, against one stock for all, at the same service.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::super::sourcing::Sourcing;
use super::moments::LeadTimeDemandMoments;
use super::of_part::Demand;
use super::pool::DemandPool;
use crate::catalogue::PartId;

/// Stock apart and pooled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PoolingGain {
    /// Stock of each part kept apart, pieces.
    pub apart_pieces: Vec<u64>,
    /// One stock for all, pieces; it may be more than the sum of the others.
    pub pooled_pieces: u64,
}

/// What pooling saves in one pool.
#[derive(Debug, Clone, PartialEq)]
pub struct PoolSaving {
    /// Position of the pool.
    pub pool: usize,
    /// Parts stocked together: those of the pool, then those served one way.
    pub parts: Vec<PartId>,
    /// How many of `parts` are served one way only.
    pub one_way: usize,
    /// Days of lead time of each part.
    pub lead_days: Vec<f64>,
    /// Share of demands met, apart and pooled alike.
    pub target_share: f64,
    /// Stock apart and pooled.
    pub gain: PoolingGain,
}

impl PoolingGain {
    /// Computes both for independent demands in the lead time; `None` beyond a million pieces.
    ///
    /// Stock is the smallest S with `P(demand <= S - 1)` at or above the target: the share of demands that find a piece.
    ///
    /// # Source
    /// Computed, not assumed: with skewed demand and a low target pooling raises the stock (Yang & Schrage, Eur. J. Oper.
    /// Res. 192:837-851, 2009).
    pub fn new(apart: &[LeadTimeDemandMoments], target_share: f64) -> Option<Self> {
        let stock =
            |moments: &LeadTimeDemandMoments| Some(moments.reorder_point(target_share)? + 1);
        let together = apart
            .iter()
            .fold(LeadTimeDemandMoments::default(), |sum, part| {
                sum.plus(*part)
            });
        Some(Self {
            apart_pieces: apart.iter().map(stock).collect::<Option<_>>()?,
            pooled_pieces: stock(&together)?,
        })
    }

    /// Pieces saved; below 0 where pooling needs more.
    pub fn saved_pieces(&self) -> i64 {
        self.apart_pieces.iter().sum::<u64>() as i64 - self.pooled_pieces as i64
    }
}

/// What pooling saves in every pool of two parts or more, one-way service included, at the share of demands met by which
/// levels are set: the highest of `targets` among its parts where there is one, else the shop's service target.
///
/// Lead times are those of the offers that the levels rest on, `level_days`; of a part without a level the shortest.
/// Pools with a part without rate or lead time are left out, and such parts that are served one way. Each part's demand keeps
/// its own lead time, so that both sides speak of the same demand.
pub fn pool_savings(
    sourcing: &Sourcing<'_>,
    demands: &BTreeMap<PartId, Arc<Demand>>,
    pools: &[DemandPool],
    targets: &BTreeMap<PartId, f64>,
    level_days: &BTreeMap<PartId, f64>,
) -> Vec<PoolSaving> {
    let of_shop = sourcing.shop.settings.planning.service_target_share;
    let mut savings = Vec::new();
    for (at, pool) in pools.iter().enumerate() {
        let known = |part: &PartId| -> Option<(PartId, f64, LeadTimeDemandMoments)> {
            // A level that another number holds lends this one no lead time of its own.
            let shortest = lead_days(sourcing, *part)?;
            let days = level_days.get(part).copied().unwrap_or(shortest);
            let estimate = demands.get(part)?.estimate.as_ref()?;
            Some((*part, days, estimate.over(days)))
        };
        let Some(mut of_parts) = pool.parts.iter().map(known).collect::<Option<Vec<_>>>() else {
            continue;
        };
        of_parts.extend(pool.also_serves.iter().filter_map(known));
        if of_parts.len() < 2 {
            continue;
        }
        let parts: Vec<PartId> = of_parts.iter().map(|part| part.0).collect();
        let of_each = parts.iter().filter_map(|part| targets.get(part).copied());
        let target_share = of_each.reduce(f64::max).unwrap_or(of_shop);
        let moments: Vec<LeadTimeDemandMoments> = of_parts.iter().map(|part| part.2).collect();
        if let Some(gain) = PoolingGain::new(&moments, target_share) {
            savings.push(PoolSaving {
                pool: at,
                one_way: parts.len() - pool.parts.len(),
                lead_days: of_parts.iter().map(|part| part.1).collect(),
                parts,
                target_share,
                gain,
            });
        }
    }
    savings
}

/// Shortest mean lead time of the part's offers as quoted, days.
fn lead_days(sourcing: &Sourcing<'_>, part: PartId) -> Option<f64> {
    sourcing
        .offers_of(part)
        .iter()
        .filter_map(|offer| Some(offer.deliveries.first()?.arrival?.mean_days))
        .min_by(f64::total_cmp)
}

#[cfg(test)]
mod tests {
    use crate::plan::PoolSaving;
    use crate::plan::sample::{Sample, workdays};

    /// What one stock saves for two numbers that go in for each other, each used four times in two years and bought in 40 working days.
    fn saving(mut sample: Sample) -> PoolSaving {
        sample.supplier("North", |_| {});
        let (a, b) = (sample.part("A"), sample.part("B"));
        sample.kit("K");
        sample.line(Some(a), 1.0, &[b], |_| {});
        sample.line(Some(b), 1.0, &[a], |_| {});
        for part in [a, b] {
            sample.offer(part, "North", workdays(40.0), |_| {});
            for date in ["2024-05-02", "2024-11-02", "2025-05-02", "2025-11-02"] {
                sample.usage(part, date, 1.0);
            }
        }
        let saving = sample.plan().pool_savings[0].clone();
        assert_eq!(saving.parts, [a, b]);
        saving
    }

    #[test]
    fn one_stock_for_two_numbers_is_less_than_two() {
        let saving = saving(Sample::new("records_from = \"2024-03-04\""));
        assert_eq!(saving.gain.apart_pieces, [2, 2]);
        assert_eq!(
            (saving.gain.pooled_pieces, saving.gain.saved_pieces()),
            (3, 1)
        );
    }

    #[test]
    fn the_target_is_that_of_the_levels() {
        // About 0.46 used in the lead time of each, 0.92 of both: one finds a piece in 0.77 of cases with two there (Poisson,
        // P(X <= 1)), and 0.99 takes more.
        let saving = |settings: &str| {
            let mut sample = Sample::new(&format!(
                "records_from = \"2024-03-04\"\n[planning]\nservice_target_share = 0.6\n{settings}"
            ));
            sample.machine("M1", Some(100.0), Some("a"));
            let saving = saving(sample);
            (saving.target_share, saving.gain.pooled_pieces)
        };
        let by_criticality = "[planning.service_targets_by_criticality]\nA = 0.99";
        let of_shop = saving("");
        let of_part = saving(&format!("levels_by = \"service_target\"\n{by_criticality}"));
        assert!((of_shop.0 - 0.6).abs() < 1e-12 && (of_part.0 - 0.99).abs() < 1e-12);
        assert!(of_part.1 > of_shop.1, "{of_part:?} {of_shop:?}");
        // Where a price of a stock-out sets the levels the targets by criticality set nothing.
        assert_eq!(saving(by_criticality), of_shop);
    }

    #[test]
    fn a_part_without_a_lead_time_gives_no_saving() {
        let mut sample = Sample::new("records_from = \"2024-03-04\"");
        sample.supplier("North", |_| {});
        let (a, b) = (sample.part("A"), sample.part("B"));
        sample.kit("K");
        sample.line(Some(a), 1.0, &[b], |_| {});
        sample.line(Some(b), 1.0, &[a], |_| {});
        sample.usage(a, "2024-05-02", 1.0);
        sample.offer(a, "North", workdays(40.0), |_| {});
        assert!(sample.plan().pool_savings.is_empty());
    }
}
