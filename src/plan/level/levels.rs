//! Stock levels of own parts: when to order again and how much, each with its reason.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::candidate::{Candidate, candidate};
use super::kit_levels::{KitFill, kit_fills, raise_for_kits};
use super::order_quantity::YEAR_DAYS;
use super::part_use::{PartUse, PartUses, money};
use super::reason::{Level, LevelBasis, LevelRule, ServiceGoal, WhyNoLevel};
use super::shared_stock::SharedStocks;
use super::stock_out_price::{
    CurvePoint, curve, factor_for_service, measure, reorder_points, reorder_points_for_budget,
};
use super::stock_unit::stock_unit;
use crate::catalogue::{CataloguePart, NameKey, PartId, Shop, UsageOf};
use crate::parallel;
use crate::plan::demand::{Demand, DemandPool};
use crate::plan::issue::PlanIssue;
use crate::plan::sourcing::Sourcing;
use crate::record::LevelsBy;

/// Levels of own parts, and parts without.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Levels {
    /// Levels by part.
    pub by_part: BTreeMap<PartId, Level>,
    /// Own parts without a level, and why.
    pub without: Vec<(PartId, WhyNoLevel)>,
    /// Service against money over the whole shop, cheapest first; empty where no part has a price.
    pub curve: Vec<CurvePoint>,
    /// What the levels of priced parts give in all, by the rule alone.
    pub chosen: Option<CurvePoint>,
    /// Kits with the share of rebuilds that find every line on the shelf.
    pub kits: Vec<KitFill>,
    /// Day on which the last machine that uses a part leaves service, for parts all of whose machines have one.
    pub in_use_until: BTreeMap<PartId, NaiveDate>,
    /// Numbers kept as one stock, and those of pools that stay apart.
    pub shared: SharedStocks,
}

/// What one level is set for: a number, or several kept as one stock.
struct Kept<'a> {
    part: &'a CataloguePart,
    shares_with: Vec<PartId>,
    demand: &'a Demand,
    part_use: &'a PartUse,
}

impl Levels {
    /// Sets the level of every own part that has a rate and an offer with a lead time.
    ///
    /// Numbers of a pool that go in for each other have one level, under the number that is cheapest to buy.
    pub fn new(
        sourcing: &Sourcing<'_>,
        demands: &BTreeMap<PartId, Demand>,
        pools: &[DemandPool],
        issues: &mut Vec<PlanIssue>,
    ) -> Self {
        let shop = sourcing.shop;
        let uses = PartUses::new(shop, sourcing.exchange());
        let shared = SharedStocks::new(sourcing, demands, &uses, pools);
        let year_h = production_h(sourcing);
        let mut levels = Self {
            in_use_until: uses.last_days(),
            ..Self::default()
        };
        let mut candidates = levels.judge(sourcing, &kept(shop, demands, &uses, &shared), issues);
        levels.choose(shop, year_h, &mut candidates);
        raise_for_kits(shop, &mut candidates);
        levels.kits = kit_fills(shop, &candidates);
        let usages = usages_by_part(shop);
        let computed = parallel::each_of(candidates, |candidate| {
            let mut past: Vec<&UsageOf> = candidate
                .stocked()
                .filter_map(|part| usages.get(&part))
                .flatten()
                .copied()
                .collect();
            past.sort_by_key(|usage| usage.record.date);
            let level = candidate.level(sourcing, year_h, &past);
            (level.part, level)
        });
        levels.by_part.extend(computed);
        levels.shared = shared;
        levels.tell_others(sourcing);
        levels
    }

    /// Finds what a level can be computed from; other levels and reasons for none are added at once.
    fn judge<'a>(
        &mut self,
        sourcing: &Sourcing<'_>,
        kept: &[Kept<'a>],
        issues: &mut Vec<PlanIssue>,
    ) -> Vec<Candidate<'a>> {
        let today = sourcing.shop.as_of.date();
        let judged = parallel::each(kept, |of| {
            if let Some(since) = of.part_use.in_use_until.filter(|until| *until <= today) {
                return Judged::Retired(since);
            }
            let mut issues = Vec::new();
            let found = candidate(sourcing, of.part, of.demand, of.part_use, &mut issues);
            Judged::InUse(found.map(Box::new), issues)
        });
        let mut candidates = Vec::new();
        for (of, judged) in kept.iter().zip(judged) {
            let found = match judged {
                Judged::Retired(since) => {
                    let level = retired(sourcing, of.part, since);
                    self.by_part.insert(of.part.id, level);
                    continue;
                }
                Judged::InUse(found, of_part) => {
                    issues.extend(of_part);
                    found
                }
            };
            match found {
                Ok(mut found) => {
                    found.shares_with.clone_from(&of.shares_with);
                    candidates.push(*found);
                }
                Err(not_computed) => match of.part.own_min_stock.filter(|own| *own > 0.0) {
                    Some(min_stock) => {
                        let level = own_minimum(sourcing, of.part, min_stock, not_computed);
                        self.by_part.insert(of.part.id, level);
                    }
                    None => {
                        let all = std::iter::once(of.part.id).chain(of.shares_with.iter().copied());
                        self.without.extend(all.map(|part| (part, not_computed)));
                    }
                },
            }
        }
        candidates
    }

    /// Gives the other numbers of each shared stock a level that points to it.
    fn tell_others(&mut self, sourcing: &Sourcing<'_>) {
        let catalogue = &sourcing.shop.catalogue;
        for stock in &self.shared.stocks {
            if !self.by_part.contains_key(&stock.holder) {
                continue;
            }
            let number = &catalogue.part(stock.holder).number;
            for part in stock.parts.iter().filter(|part| **part != stock.holder) {
                let level = Level {
                    why: LevelBasis::KeptUnder {
                        holder: stock.holder,
                        number: number.clone(),
                    },
                    ..not_kept(sourcing, catalogue.part(*part))
                };
                self.by_part.insert(*part, level);
            }
        }
    }

    /// The level whose stock serves a number: its own, or that of the number it is kept under.
    pub fn serving(&self, part: PartId) -> Option<&Level> {
        let level = self.by_part.get(&part)?;
        match level.why {
            LevelBasis::KeptUnder { holder, .. } => self.by_part.get(&holder),
            _ => Some(level),
        }
    }

    /// Reorder points of all candidates by the rule of the settings.
    fn choose(&mut self, shop: &Shop, year_h: f64, candidates: &mut [Candidate<'_>]) {
        let planning = &shop.settings.planning;
        let targets = targets(shop);
        let of_target = |candidate: &Candidate<'_>| {
            let of_all = candidate.stocked().filter_map(|part| targets.get(&part));
            let found = of_all.reduce(|best, of| if of.0 > best.0 { of } else { best });
            LevelRule::ServiceTarget {
                share: found.map_or(planning.service_target_share, |(share, _)| *share),
                from: found.map(|(_, from)| from.clone()),
            }
        };
        let mut positions = Vec::new();
        let mut parts = Vec::new();
        for (at, candidate) in candidates.iter_mut().enumerate() {
            candidate.rule = of_target(candidate);
            let LevelRule::ServiceTarget { share, .. } = candidate.rule else {
                continue;
            };
            candidate.reorder_point = candidate.table.quantile(share);
            if let Some(priced) = candidate.priced_part(shop, year_h) {
                positions.push(at);
                parts.push(priced);
            }
        }
        let (found, factor, goal) = match (planning.levels_by, planning.stock_budget) {
            (LevelsBy::ServiceTarget, _) => {
                let found = positions.iter().map(|at| candidates[*at].reorder_point);
                (found.collect(), 1.0, None)
            }
            (LevelsBy::DowntimeCost, _) => (reorder_points(&parts, 1.0), 1.0, None),
            (LevelsBy::StockOutPrice, Some(budget)) => {
                let (found, factor) = reorder_points_for_budget(&parts, budget);
                (
                    found,
                    factor,
                    Some(ServiceGoal::Budget(money(shop, budget))),
                )
            }
            (LevelsBy::StockOutPrice, None) => {
                let share = planning.service_target_share;
                let factor = factor_for_service(&parts, share);
                let found = reorder_points(&parts, factor);
                (found, factor, Some(ServiceGoal::Share(share)))
            }
        };
        if planning.levels_by != LevelsBy::ServiceTarget {
            for (at, reorder_point) in positions.iter().zip(&found) {
                candidates[*at].reorder_point = *reorder_point;
                candidates[*at].rule = match goal {
                    Some(goal) => LevelRule::StockOutPrice { factor, goal },
                    None => LevelRule::DowntimeCost,
                };
            }
        }
        if !parts.is_empty() {
            self.curve = curve(&parts);
            self.chosen = Some(measure(&parts, &found, factor));
        }
    }
}

/// Own parts with a demand, by rising id; of a shared stock its holder only.
fn kept<'a>(
    shop: &'a Shop,
    demands: &'a BTreeMap<PartId, Demand>,
    uses: &'a PartUses,
    shared: &'a SharedStocks,
) -> Vec<Kept<'a>> {
    let stocks = shared.by_part();
    let own = shop.catalogue.parts().iter().filter(|part| part.is_own);
    own.filter_map(|part| {
        let Some(stock) = stocks.get(&part.id) else {
            return Some(Kept {
                part,
                shares_with: Vec::new(),
                demand: demands.get(&part.id)?,
                part_use: uses.of(part.id),
            });
        };
        let others = stock.parts.iter().copied();
        (stock.holder == part.id).then(|| Kept {
            part,
            shares_with: others.filter(|other| *other != part.id).collect(),
            demand: &stock.demand,
            part_use: &stock.part_use,
        })
    })
    .collect()
}

/// What was found of an own part.
enum Judged<'a> {
    /// Its machines have left service.
    Retired(NaiveDate),
    /// What a level can be computed from, or why not, with what is wrong with its rows.
    InUse(Result<Box<Candidate<'a>>, WhyNoLevel>, Vec<PlanIssue>),
}

/// The level a planner asks for where nothing can be computed.
fn own_minimum(
    sourcing: &Sourcing<'_>,
    part: &CataloguePart,
    min_stock: f64,
    not_computed: WhyNoLevel,
) -> Level {
    let unit = stock_unit(sourcing, part);
    let least = sourcing
        .offers_of(part.id)
        .iter()
        .find_map(|offer| offer.lot_for(1.0, unit, 0.0));
    Level {
        part: part.id,
        shares_with: Vec::new(),
        unit,
        reorder_point: (min_stock - 1.0).max(0.0),
        min_stock,
        order_quantity: least.map_or(1.0, |lot| lot.gives),
        why: LevelBasis::OwnMinimum {
            min_stock,
            not_computed,
        },
        why_quantity: None,
    }
}

/// A part that no machine in service uses is not reordered.
fn retired(sourcing: &Sourcing<'_>, part: &CataloguePart, since: NaiveDate) -> Level {
    Level {
        why: LevelBasis::Retired { since },
        ..not_kept(sourcing, part)
    }
}

/// No stock and no order; the caller says why.
fn not_kept(sourcing: &Sourcing<'_>, part: &CataloguePart) -> Level {
    Level {
        part: part.id,
        shares_with: Vec::new(),
        unit: stock_unit(sourcing, part),
        reorder_point: -1.0,
        min_stock: 0.0,
        order_quantity: 0.0,
        why: LevelBasis::Retired {
            since: sourcing.shop.as_of.date(),
        },
        why_quantity: None,
    }
}

/// Usages by part, oldest first.
fn usages_by_part(shop: &Shop) -> BTreeMap<PartId, Vec<&UsageOf>> {
    let mut usages: BTreeMap<PartId, Vec<&UsageOf>> = BTreeMap::new();
    for usage in &shop.usages {
        usages.entry(usage.part).or_default().push(usage);
    }
    for list in usages.values_mut() {
        list.sort_by_key(|usage| usage.record.date);
    }
    usages
}

/// Production hours of the year after the moment of planning.
fn production_h(sourcing: &Sourcing<'_>) -> f64 {
    let from = sourcing.shop.as_of;
    let until = from + chrono::Duration::days(YEAR_DAYS as i64);
    sourcing
        .calendars
        .production()
        .hours_between(from, until)
        .max(1.0)
}

/// Highest service target among the machines whose kits ask for a part, with the criticality it comes from.
fn targets(shop: &Shop) -> BTreeMap<PartId, (f64, String)> {
    let by_criticality = &shop.settings.planning.service_targets_by_criticality;
    let mut targets: BTreeMap<PartId, (f64, String)> = BTreeMap::new();
    for kit in &shop.kits {
        let criticality = kit
            .machine
            .as_ref()
            .and_then(|name| shop.machines.get(NameKey::new(name).as_str()))
            .and_then(|machine| machine.criticality.as_ref());
        let found = criticality.and_then(|found| {
            by_criticality
                .iter()
                .find(|(name, _)| name.trim().eq_ignore_ascii_case(found.trim()))
        });
        let Some((criticality, share)) = found else {
            continue;
        };
        for part in kit.lines.iter().filter_map(|line| line.part) {
            let target = targets
                .entry(part)
                .or_insert_with(|| (*share, criticality.clone()));
            if *share > target.0 {
                *target = (*share, criticality.clone());
            }
        }
    }
    targets
}

#[cfg(test)]
mod tests;
