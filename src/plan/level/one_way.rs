//! What it would save to serve a number from the stock of one that goes in for it, but not the reverse.
//!
//! Worked out and told, not planned: pieces of the number served that are there or on order serve only itself, so that the
//! two positions do not add up as those of numbers that go in for each other do. Stock the more general number first where
//! it pays, once the pieces of the other are used up.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::last_buy::is_soon;
use super::levels::Levels;
use super::offer_behind::cheapest_of;
use super::reason::LevelBasis;
use super::stock_unit::stock_unit;
use crate::catalogue::PartId;
use crate::plan::demand::{Demand, DemandPool, LeadTimeDemandMoments, PoolingGain};
use crate::plan::sourcing::Sourcing;
use crate::plan::year_length::YEAR_DAYS;

/// One number served from the stock of another.
#[derive(Debug, Clone, PartialEq)]
pub struct OneWaySaving {
    /// Position of the pool whose stock serves it.
    pub pool: usize,
    /// The number it is kept under: of the pool the one that is cheapest to buy.
    pub holder: PartId,
    /// The number served.
    pub served: PartId,
    /// Share of demands met, apart and together alike.
    pub target_share: f64,
    /// Stock of the pool without it and of it alone, pieces.
    pub apart_pieces: u64,
    /// One stock of the holder for all, pieces.
    pub together_pieces: u64,
    /// What it comes to in money; `None` where a price is missing.
    pub money: Option<OneWayMoney>,
}

/// Money of one number served from the stock of another, in units of the shop's currency a year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OneWayMoney {
    /// Holding saved; below 0 where the one stock is worth more.
    pub holding_saved: f64,
    /// What the goods cost more, each usage taking the holder; below 0 where it is cheaper.
    pub goods_more: f64,
}

impl OneWayMoney {
    /// True where less holding is worth more than the dearer goods.
    pub fn pays(&self) -> bool {
        self.holding_saved > self.goods_more
    }
}

/// Stock of one number or pool in the lead time of its offer, with its price.
struct Kept<'a> {
    demands: Vec<&'a Demand>,
    days: f64,
    price: Option<f64>,
}

impl Kept<'_> {
    /// Moments of each demand over the lead time of the stock; `None` where one has no rate.
    fn moments(&self) -> Option<Vec<LeadTimeDemandMoments>> {
        let each = self.demands.iter();
        each.map(|demand| Some(demand.estimate.as_ref()?.over(self.days)))
            .collect()
    }

    /// Pieces of one stock for all of it at a share of demands met.
    fn pieces(&self, target_share: f64) -> Option<u64> {
        Some(PoolingGain::new(&self.moments()?, target_share)?.pooled_pieces)
    }
}

/// Every number that a pool serves one way, at the highest of `targets` among the numbers where there is one, else the shop's
/// service target; numbers without rate or lead time are left out, and those all of whose machines leave service within a year.
///
/// Price and lead time are those of the offer that the level rests on, so that the advice speaks of what is planned; of a
/// number without a level those of the lowest unit price.
///
/// # Source
/// Pooling over one-way substitution, the more general part first: Deflem & Van Nieuwenhuyse, Optimal pooling of inventories
/// with substitution (review), from memory. The stock is computed, not assumed to be less.
pub fn one_way_savings(
    sourcing: &Sourcing<'_>,
    levels: &Levels,
    demands: &BTreeMap<PartId, Arc<Demand>>,
    pools: &[DemandPool],
    targets: &BTreeMap<PartId, f64>,
) -> Vec<OneWaySaving> {
    let today = sourcing.shop.as_of.date();
    let is_retiring = |part: &PartId| {
        let until = levels.in_use_until.get(part);
        until.is_some_and(|until| is_soon(*until, today))
    };
    let bought = |part: PartId| bought(sourcing, levels, part);
    let mut savings = Vec::new();
    for (at, pool) in pools.iter().enumerate() {
        if pool.also_serves.is_empty() || pool.parts.iter().all(is_retiring) {
            continue;
        }
        let offers = pool
            .parts
            .iter()
            .filter_map(|part| Some((bought(*part)?, *part)));
        let least = |price: Option<f64>| price.unwrap_or(f64::INFINITY);
        let holder = offers
            .min_by(|(a, _), (b, _)| least(a.0).total_cmp(&least(b.0)).then(a.1.total_cmp(&b.1)));
        let Some(((price, days), holder)) = holder else {
            continue;
        };
        let own: Vec<&Demand> = (pool.parts.iter())
            .filter_map(|part| demands.get(part).map(Arc::as_ref))
            .collect();
        let stock = Kept {
            demands: own,
            days,
            price,
        };
        for served in pool.also_serves.iter().filter(|part| !is_retiring(part)) {
            let (Some(demand), Some((price_alone, days_alone))) =
                (demands.get(served), bought(*served))
            else {
                continue;
            };
            let alone = Kept {
                demands: vec![demand],
                days: days_alone,
                price: price_alone,
            };
            let of_each = pool.parts.iter().chain([served]);
            let target_share = of_each
                .filter_map(|part| targets.get(part).copied())
                .reduce(f64::max)
                .unwrap_or(sourcing.shop.settings.planning.service_target_share);
            let Some(pieces) = pieces(&stock, &alone, target_share) else {
                continue;
            };
            savings.push(OneWaySaving {
                pool: at,
                holder,
                served: *served,
                target_share,
                apart_pieces: pieces.own + pieces.other,
                together_pieces: pieces.both,
                money: money(sourcing, &stock, &alone, &pieces),
            });
        }
    }
    savings
}

/// Unit price and mean days by which a number is bought; `None` where none has a lead time, and of one kept under another.
fn bought(sourcing: &Sourcing<'_>, levels: &Levels, part: PartId) -> Option<(Option<f64>, f64)> {
    let level = levels.by_part.get(&part);
    match level.map(|level| (&level.why, &level.why_quantity)) {
        Some((LevelBasis::Computed(reason), quantity)) => {
            let price = quantity.as_ref().and_then(|of| of.unit_price);
            Some((price.map(|price| price.amount), reason.lead.mean_days))
        }
        Some((LevelBasis::KeptUnder { .. }, _)) => None,
        _ => {
            let unit = stock_unit(sourcing, sourcing.shop.catalogue.part(part));
            cheapest_of(sourcing, part, unit)
        }
    }
}

/// Pieces of the pool's stock, of the other number's, and of one for both.
struct Pieces {
    own: u64,
    other: u64,
    both: u64,
}

/// `None` where one has no rate or needs beyond a million pieces.
fn pieces(stock: &Kept<'_>, alone: &Kept<'_>, target_share: f64) -> Option<Pieces> {
    let demands = stock.demands.iter().chain(&alone.demands);
    let all = Kept {
        demands: demands.copied().collect(),
        ..*stock
    };
    Some(Pieces {
        own: stock.pieces(target_share)?,
        other: alone.pieces(target_share)?,
        both: all.pieces(target_share)?,
    })
}

/// `None` without a price of both or a rate.
fn money(
    sourcing: &Sourcing<'_>,
    stock: &Kept<'_>,
    alone: &Kept<'_>,
    pieces: &Pieces,
) -> Option<OneWayMoney> {
    let (price, price_alone) = (stock.price?, alone.price?);
    let yearly = YEAR_DAYS * alone.demands.first()?.per_day()?;
    let apart = price * pieces.own as f64 + price_alone * pieces.other as f64;
    let share = sourcing.shop.settings.planning.holding_cost_share;
    Some(OneWayMoney {
        holding_saved: share * (apart - price * pieces.both as f64),
        goods_more: yearly * (price - price_alone),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::{Sample, price, workdays};

    /// Plain and better, each used four times in two years and bought in 40 working days; better goes in for plain.
    fn shop(of_plain: Option<f64>, of_better: f64) -> Sample {
        let mut sample =
            Sample::new("records_from = \"2024-03-04\"\n[planning]\nholding_cost_share = 0.2");
        sample.supplier("North", |_| {});
        let (plain, better) = (sample.part("PLAIN"), sample.part("BETTER"));
        sample.kit("K");
        sample.line(Some(plain), 1.0, &[better], |_| {});
        sample.line(Some(better), 1.0, &[], |_| {});
        for (part, each) in [(plain, of_plain), (better, Some(of_better))] {
            sample.offer(part, "North", workdays(40.0), |offer| {
                offer.price = each.and_then(price);
            });
            for date in ["2024-05-02", "2024-11-02", "2025-05-02", "2025-11-02"] {
                sample.usage(part, date, 1.0);
            }
        }
        sample
    }

    fn savings_of(sample: &Sample) -> Vec<OneWaySaving> {
        let plan = sample.plan();
        // Nothing is planned of it: each keeps its own level.
        assert!(plan.levels.shared.stocks.is_empty());
        plan.one_way_savings
    }

    fn savings(of_plain: Option<f64>, of_better: f64) -> Vec<OneWaySaving> {
        savings_of(&shop(of_plain, of_better))
    }

    #[test]
    fn advice_rests_on_the_offers_that_the_levels_rest_on() {
        // A lower unit price that comes with a thousand pieces, for two a year, and with twice the lead time: no level takes it.
        let mut sample = shop(Some(10.0), 10.4);
        let before = savings_of(&sample);
        sample.supplier("South", |_| {});
        for part in [PartId(0), PartId(1)] {
            sample.offer(part, "South", workdays(80.0), |offer| {
                offer.price = price(9.0);
                offer.minimum_quantity = Some(1000.0);
            });
        }
        assert_eq!(savings_of(&sample), before);
    }

    #[test]
    fn parts_whose_machines_leave_within_a_year_get_no_advice() {
        let mut sample = shop(Some(10.0), 10.0);
        sample.machine("M1", None, None);
        let mut told = |year| {
            for machine in sample.shop.machines.values_mut() {
                machine.in_use_until = chrono::NaiveDate::from_ymd_opt(year, 9, 3);
            }
            savings_of(&sample).len()
        };
        assert_eq!((told(2026), told(2035)), (0, 1));
    }

    #[test]
    fn the_better_number_serves_both_with_less_and_its_price_decides() {
        // 2 and 2 apart or 3 together, as for two that go in for each other; two of each are used a year. At 10.00 each three
        // pieces for four save 0.2 * 10.00; at 10.40 for the better one holding falls by 0.2 * (2 * 10.00 + 2 * 10.40 - 3 * 10.40)
        // = 1.92 and two a year cost 0.80 more; at 12.00 that is 0.2 * 8 = 1.60 against 4.00.
        for (better, holding, goods, pays) in [
            (10.0, 2.0, 0.0, true),
            (10.4, 1.92, 0.8, true),
            (12.0, 1.6, 4.0, false),
        ] {
            let found = savings(Some(10.0), better);
            assert_eq!(found.len(), 1);
            let saving = &found[0];
            assert_eq!((saving.holder, saving.served), (PartId(1), PartId(0)));
            assert_eq!((saving.apart_pieces, saving.together_pieces), (4, 3));
            let money = saving.money.unwrap();
            assert!((money.holding_saved - holding).abs() < 1e-9, "{money:?}");
            // Four in 730 days, drawn to each other: two a year within a twentieth.
            assert!(
                (money.goods_more - goods).abs() <= 0.05 * goods + 1e-9,
                "{money:?}"
            );
            assert_eq!(money.pays(), pays, "{better}");
        }
    }

    #[test]
    fn without_a_price_only_pieces_are_told() {
        let found = savings(None, 10.0);
        assert_eq!((found[0].together_pieces, found[0].money), (3, None));
    }
}
