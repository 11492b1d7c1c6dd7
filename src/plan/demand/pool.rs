//! Parts whose demand one stock may serve, as far as rules and approvals let them stand in for each other.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::gamma_poisson::EventRate;
use super::likely_sizes::merged;
use super::moments::{DemandRate, LeadTimeDemandMoments, RateBasis};
use super::of_part::{Demand, Rate};
use super::size::SizeMoments;
use crate::catalogue::{CataloguePart, PartId, Shop};
use crate::interchange::{LineAcceptance, Subject, goes_in_as_it_is};
use crate::plan::same_part::same_parts;
use crate::units::UnitOfCount;

/// Own parts that stand in for each other both ways, and those they serve one way only.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DemandPool {
    /// Each may be fitted wherever any of the others is asked for; by rising id.
    pub parts: Vec<PartId>,
    /// Parts in whose seats every one of `parts` may be fitted, but not the reverse.
    pub also_serves: Vec<PartId>,
    /// Other numbers of the same standard part, our own or not, that may be bought for every one of `parts`.
    pub also_bought: Vec<PartId>,
}

impl DemandPool {
    /// Moments of the demand of the pool's own parts in a number of days; `None` where one has no rate.
    ///
    /// # Source
    /// Independent posteriors added; with equal exposure that is the sum of usages over the same days.
    pub fn over(
        &self,
        days: f64,
        demands: &BTreeMap<PartId, Arc<Demand>>,
    ) -> Option<LeadTimeDemandMoments> {
        self.parts
            .iter()
            .try_fold(LeadTimeDemandMoments::default(), |sum, part| {
                let estimate = demands.get(part)?.estimate.as_ref()?;
                Some(sum.plus(estimate.over(days)))
            })
    }
}

impl Demand {
    /// Demand of several parts out of one stock; `None` where one has no rate.
    ///
    /// # Source
    /// Independent demands added: the usages are those of a gamma rate with the sum's mean and such a variance that mean
    /// and variance of the quantity are the sums over the parts for every length of time.
    pub fn together(of: &[&Self]) -> Option<Self> {
        let rates: Vec<&DemandRate> = of
            .iter()
            .map(|demand| demand.estimate.as_ref())
            .collect::<Option<_>>()?;
        let estimate = sum_of_rates(&rates);
        let events: usize = of.iter().map(|demand| demand.events).sum();
        let sum = |of_each: fn(&Self) -> f64| of.iter().map(|demand| of_each(demand)).sum::<f64>();
        let share = |of_each: fn(&Self) -> f64| {
            let weighted = of
                .iter()
                .map(|demand| demand.events as f64 * of_each(demand));
            weighted.sum::<f64>() / events.max(1) as f64
        };
        Some(Self {
            rate: Rate::Known {
                pieces_per_day: estimate.over(1.0).mean_pieces,
            },
            exposure_days: of
                .iter()
                .map(|demand| demand.exposure_days)
                .fold(0.0, f64::max),
            events,
            net_quantity: sum(|demand| demand.net_quantity),
            mean_size: share(|demand| demand.mean_size),
            mean_square_size: share(|demand| demand.mean_square_size),
            sizes: sizes_together(of, events),
            in_parts: None,
            likely_sizes: likely_together(of, &rates),
            before_records: of.iter().map(|demand| demand.before_records).sum(),
            for_planned_rebuilds: of.iter().map(|demand| demand.for_planned_rebuilds).sum(),
            left_out_above: of
                .iter()
                .filter_map(|demand| demand.left_out_above)
                .reduce(f64::max),
            class: None,
            estimate: Some(estimate),
            by_lives: None,
        })
    }
}

/// The rate of the sum.
fn sum_of_rates(rates: &[&DemandRate]) -> DemandRate {
    let sum = |of_each: &dyn Fn(&DemandRate) -> f64| -> f64 {
        rates.iter().map(|rate| of_each(rate)).sum()
    };
    let per_day = |rate: &DemandRate| rate.events.mean_per_day();
    let usages = sum(&per_day);
    let basis = RateBasis::Pooled {
        parts: rates.len(),
        is_shrunk: rates.iter().any(|rate| rate.basis.is_shrunk()),
    };
    if usages <= 0.0 {
        return DemandRate {
            events: EventRate::certain(0.0),
            size: SizeMoments {
                mean_pieces: 1.0,
                squared_cv: 0.0,
            },
            basis,
        };
    }
    let mean = sum(&|rate| per_day(rate) * rate.size.mean_pieces) / usages;
    let square =
        sum(&|rate| per_day(rate) * rate.size.mean_pieces.powi(2) * (1.0 + rate.size.squared_cv))
            / usages;
    // Variance of the rate that makes the part of the variance that grows with the square of the time come out right.
    let uncertainty =
        sum(&|rate| rate.size.mean_pieces.powi(2) * per_day(rate) / rate.events.exposure_days)
            / (mean * mean);
    DemandRate {
        events: EventRate {
            shape: usages * usages / uncertainty,
            exposure_days: usages / uncertainty,
        },
        size: SizeMoments {
            mean_pieces: mean,
            squared_cv: (square / (mean * mean) - 1.0).max(0.0),
        },
        basis,
    }
}

/// Quantities with their shares over all usages; empty where those of one part are not known.
fn sizes_together(of: &[&Demand], events: usize) -> Vec<(u32, f64)> {
    let mut shares: BTreeMap<u32, f64> = BTreeMap::new();
    for demand in of.iter().filter(|demand| demand.events > 0) {
        if demand.sizes.is_empty() {
            return Vec::new();
        }
        for (size, share) in &demand.sizes {
            *shares.entry(*size).or_default() += share * demand.events as f64 / events as f64;
        }
    }
    shares.into_iter().collect()
}

/// Likely quantities with their shares of the usages expected; empty where those of one part are not known.
fn likely_together(of: &[&Demand], rates: &[&DemandRate]) -> Vec<(u32, f64)> {
    let per_day = |rate: &&DemandRate| rate.events.mean_per_day();
    let all: f64 = rates.iter().map(per_day).sum();
    if all <= 0.0 || of.iter().any(|demand| demand.likely_sizes.is_empty()) {
        return Vec::new();
    }
    merged(of.iter().zip(rates).flat_map(|(demand, rate)| {
        let weight = rate.events.mean_per_day() / all;
        (demand.likely_sizes.iter()).map(move |(size, share)| (*size, share * weight))
    }))
}

/// Pools of all own parts, each part in exactly one; most are alone.
///
/// A part may serve another's demand where every kit line that asks for the other accepts it; where no kit asks for the
/// other, where the rules say that it goes in as it is. A part joins a pool only if it and every member serve each
/// other, so that no chain joins two parts of which one may not replace the other.
pub fn pools(shop: &Shop, acceptances: &[LineAcceptance]) -> Vec<DemandPool> {
    let serves = Serves::new(shop, acceptances);
    let mut pools: Vec<DemandPool> = Vec::new();
    let mut pool_of: BTreeMap<PartId, usize> = BTreeMap::new();
    for part in serves.parts.iter().copied() {
        let joins = serves.by(part).find_map(|other| {
            let at = *pool_of.get(&other)?;
            let both = |member: &PartId| serves.may(part, *member) && serves.may(*member, part);
            pools[at].parts.iter().all(both).then_some(at)
        });
        let at = joins.unwrap_or_else(|| {
            pools.push(DemandPool {
                parts: Vec::new(),
                also_serves: Vec::new(),
                also_bought: Vec::new(),
            });
            pools.len() - 1
        });
        pools[at].parts.push(part);
        pool_of.insert(part, at);
    }
    let same = same_parts(shop, acceptances);
    for pool in &mut pools {
        let Some(first) = pool.parts.first() else {
            continue;
        };
        let of = |part: &PartId| same.get(part).map_or(&[][..], Vec::as_slice);
        pool.also_bought = (of(first).iter().copied())
            .filter(|other| !pool.parts.contains(other))
            .filter(|other| pool.parts.iter().all(|part| of(part).contains(other)))
            .collect();
        pool.also_serves = serves
            .by(*first)
            .filter(|other| !pool.parts.contains(other))
            .filter(|other| pool.parts.iter().all(|part| serves.may(*part, *other)))
            .collect();
    }
    pools
}

/// Which own part may serve which.
struct Serves {
    parts: Vec<PartId>,
    /// Parts that a part may be fitted for.
    by_part: BTreeMap<PartId, BTreeSet<PartId>>,
}

impl Serves {
    fn new(shop: &Shop, acceptances: &[LineAcceptance]) -> Self {
        let is_own = |part: &PartId| shop.catalogue.part(*part).is_own;
        let parts: Vec<PartId> = shop
            .catalogue
            .parts()
            .iter()
            .filter(|part| part.is_own)
            .map(|part| part.id)
            .collect();
        let mut accepted: BTreeMap<PartId, BTreeSet<PartId>> = BTreeMap::new();
        for line in acceptances {
            let Some(asked) = shop.kits[line.kit].lines[line.line].part else {
                continue;
            };
            let on_line: BTreeSet<PartId> = line.accepted.iter().map(|a| a.part).collect();
            accepted
                .entry(asked)
                .and_modify(|all| all.retain(|part| on_line.contains(part)))
                .or_insert(on_line);
        }
        let mut serves = Self {
            parts,
            by_part: BTreeMap::new(),
        };
        for (asked, by) in &accepted {
            for part in by.iter().filter(|part| is_own(part) && *part != asked) {
                serves.add(shop, *part, *asked);
            }
        }
        for (_, alike) in shop.catalogue.sizes() {
            let own: Vec<PartId> = alike.iter().copied().filter(is_own).collect();
            if own.len() < 2 {
                continue;
            }
            for asked in own.iter().filter(|asked| !accepted.contains_key(asked)) {
                let want = Subject::of_part(shop.catalogue.part(*asked));
                for part in own.iter().filter(|part| *part != asked) {
                    let have = Subject::of_part(shop.catalogue.part(*part));
                    if goes_in_as_it_is(&want, &have) {
                        serves.add(shop, *part, *asked);
                    }
                }
            }
        }
        serves
    }

    /// Adds a pair, unless they are counted in different units: a set is never made up of singles.
    fn add(&mut self, shop: &Shop, part: PartId, asked: PartId) {
        let unit = |part: &CataloguePart| part.unit_of_count.unwrap_or(UnitOfCount::Piece);
        if unit(shop.catalogue.part(part)) == unit(shop.catalogue.part(asked))
            && shop.catalogue.part(asked).is_own
        {
            self.by_part.entry(part).or_default().insert(asked);
        }
    }

    fn may(&self, part: PartId, asked: PartId) -> bool {
        part == asked
            || self
                .by_part
                .get(&part)
                .is_some_and(|all| all.contains(&asked))
    }

    fn by(&self, part: PartId) -> impl Iterator<Item = PartId> + '_ {
        self.by_part.get(&part).into_iter().flatten().copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::Sample;

    fn found(sample: &Sample) -> Vec<(Vec<u32>, Vec<u32>)> {
        let ids = |parts: &[PartId]| parts.iter().map(|part| part.0).collect();
        let plan = sample.plan();
        let pools = plan.pools.iter();
        pools
            .map(|pool| (ids(&pool.parts), ids(&pool.also_serves)))
            .collect()
    }

    #[test]
    fn parts_accepted_in_each_others_seats_are_one_pool() {
        let mut sample = Sample::new("");
        let (a, b) = (sample.part("A"), sample.part("B"));
        sample.kit("K");
        sample.line(Some(a), 1.0, &[b], |_| {});
        sample.line(Some(b), 1.0, &[a], |_| {});
        assert_eq!(found(&sample), [(vec![0, 1], vec![])]);
    }

    #[test]
    fn a_one_way_substitute_serves_but_is_not_served() {
        let mut sample = Sample::new("");
        let (plain, better) = (sample.part("PLAIN"), sample.part("BETTER"));
        sample.kit("K");
        sample.line(Some(plain), 1.0, &[better], |_| {});
        sample.line(Some(better), 1.0, &[], |_| {});
        assert_eq!(found(&sample), [(vec![0], vec![]), (vec![1], vec![0])]);
    }

    #[test]
    fn one_seat_that_refuses_keeps_parts_apart() {
        let mut sample = Sample::new("");
        let (a, b) = (sample.part("A"), sample.part("B"));
        sample.kit("K");
        sample.line(Some(a), 1.0, &[b], |_| {});
        sample.line(Some(a), 1.0, &[], |_| {});
        sample.line(Some(b), 1.0, &[a], |_| {});
        assert_eq!(found(&sample), [(vec![0], vec![1]), (vec![1], vec![])]);
    }

    #[test]
    fn a_chain_is_no_pool() {
        // A and B, B and C stand in for each other, A and C do not.
        let mut sample = Sample::new("");
        let parts = ["A", "B", "C"].map(|number| sample.part(number));
        sample.kit("K");
        sample.line(Some(parts[0]), 1.0, &[parts[1]], |_| {});
        sample.line(Some(parts[1]), 1.0, &[parts[0], parts[2]], |_| {});
        sample.line(Some(parts[2]), 1.0, &[parts[1]], |_| {});
        let pools = found(&sample);
        assert_eq!(pools[0].0, [0, 1]);
        assert_eq!(pools[1].0, [2]);
        // C may still be fitted for B; for A it may not.
        assert_eq!((&pools[0].1[..], &pools[1].1[..]), (&[][..], &[1][..]));
    }

    #[test]
    fn a_set_is_not_pooled_with_singles() {
        let mut sample = Sample::new("");
        let single = sample.part("A");
        let set = sample.part_with("B", |part| {
            part.unit_of_count = Some(UnitOfCount::MatchedSet { pieces: 2 });
        });
        sample.kit("K");
        sample.line(Some(single), 1.0, &[set], |_| {});
        sample.line(Some(set), 1.0, &[single], |_| {});
        assert_eq!(found(&sample), [(vec![0], vec![]), (vec![1], vec![])]);
    }
}
