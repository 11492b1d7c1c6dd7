//! Stock levels of own parts: when to order again and how much, each with its reason.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;

use super::candidate::{Candidate, candidate};
use super::kit_levels::{KitFill, kit_fills, raise_for_kits};
use super::last_buy::LastBuyStill;
use super::named_machine::NamedMachine;
use super::offer_behind::buy_by_least_cost;
use super::order_quantity::unit_price;
use super::part_use::{PartUse, PartUses, money, usages_by_part};
use super::reason::{Level, LevelBasis, LevelRule, ServiceGoal, WhyNoLevel};
use super::service_out_of_reach::price_for_service;
use super::shared_stock::SharedStocks;
use super::stock_out_price::{
    BudgetRange, CurvePoint, PricedPart, curve, measure, reorder_points, reorder_points_for_budget,
};
use super::stock_unit::stock_unit;
use crate::catalogue::{CataloguePart, NameKey, PartId, Shop, UsageOf};
use crate::parallel;
use crate::plan::demand::{Demand, DemandPool};
use crate::plan::issue::PlanIssue;
use crate::plan::sourcing::Sourcing;
use crate::plan::year_length::YEAR_DAYS;
use crate::record::LevelsBy;

/// Levels of own parts, and parts without.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Levels {
    /// Levels by part.
    pub by_part: BTreeMap<PartId, Level>,
    /// Own parts without a level, and why.
    pub without: Vec<(PartId, WhyNoLevel)>,
    /// Service against money over the whole shop with planners' own figures, cheapest first; empty where no part has a price.
    pub curve: Vec<CurvePoint>,
    /// What the levels of priced parts give in all, planners' own figures and kits with them; parts that are bought once
    /// more and not reordered are not in it.
    pub chosen: Option<CurvePoint>,
    /// What became of the budget of the settings; `None` where none sets the levels.
    pub budget: Option<BudgetUse>,
    /// The share of usages met that no price of an hour reaches; `None` where one does, or another rule sets the levels.
    pub out_of_reach: Option<OutOfReach>,
    /// True where nothing says what an hour down costs, so that no waiting is told in money.
    pub has_no_hour_cost: bool,
    /// Machines whose cost of an hour down nothing says, the most used first.
    pub without_hour_cost: Vec<NamedMachine>,
    /// Kits with the share of rebuilds that find every line on the shelf.
    pub kits: Vec<KitFill>,
    /// Day on which the last machine that uses a part leaves service, for parts all of whose machines have one.
    pub in_use_until: BTreeMap<PartId, NaiveDate>,
    /// Numbers kept as one stock, and those of pools that stay apart.
    pub shared: SharedStocks,
    /// Value of what planners ask for where no level can be computed, in the shop's currency: in [`curve`](Self::curve),
    /// [`chosen`](Self::chosen) and [`budget`](Self::budget) as their other figures are. What has no price is not in it.
    pub own_without_rate: f64,
}

/// A share of usages met from the shelf that no price of an hour reaches.
#[derive(Debug, Clone, PartialEq)]
pub struct OutOfReach {
    /// The share that is asked for.
    pub share: f64,
    /// Numbers of the parts whose stock ends whatever is kept, what lacks most first; empty where it is for other parts.
    pub because_of: Vec<String>,
}

/// What became of a stock budget.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BudgetUse {
    /// The budget, in the shop's currency.
    pub budget: f64,
    /// True where every unit that pays is kept, so that what is left buys nothing.
    pub is_all_that_pays: bool,
    /// What half of each order and planners' own figures tie up whatever the budget, in the shop's currency.
    pub least: f64,
}

impl BudgetUse {
    /// What they tie up beyond the budget; `None` where it is enough for them.
    pub fn missing(&self) -> Option<f64> {
        Some(self.least - self.budget).filter(|missing| *missing > 0.005)
    }
}

/// What one level is set for: a number, or several kept as one stock.
struct Kept<'a> {
    part: &'a CataloguePart,
    shares_with: Vec<PartId>,
    /// Numbers that may be bought for it.
    bought: Vec<PartId>,
    demand: &'a Arc<Demand>,
    part_use: &'a PartUse,
}

impl Levels {
    /// Sets the level of every own part that has a rate and an offer with a lead time.
    ///
    /// Numbers of a pool that go in for each other have one level, under the number that is cheapest to buy.
    pub fn new(
        sourcing: &Sourcing<'_>,
        demands: &BTreeMap<PartId, Arc<Demand>>,
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
        levels.without_hour_cost = without_hour_cost(shop, &uses, issues);
        let mut candidates = levels.judge(sourcing, &kept(shop, demands, &uses, &shared));
        levels.has_no_hour_cost = !uses.prices_hours();
        let mut factor = levels.choose(shop, year_h, &mut candidates);
        // What an hour of waiting counts is known only now, and with it what each offer costs a year.
        if buy_by_least_cost(sourcing, year_h, &mut candidates) {
            factor = levels.choose(shop, year_h, &mut candidates);
        }
        levels.draw_curve(shop, year_h, &candidates);
        let outlasting = |candidate: &Candidate<'_>| candidate.outlasts_shelf_life(shop);
        issues.extend(candidates.iter().filter_map(outlasting));
        parallel::each_mut(&mut candidates, |candidate| {
            candidate.keep_within_shelf_life(shop, year_h);
        });
        raise_for_kits(shop, &mut candidates);
        levels.measure_held(shop, year_h, &candidates, factor);
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
        // Built of what is in order its nodes are full; those that grew are half empty.
        levels.by_part = std::mem::take(&mut levels.by_part).into_iter().collect();
        levels
    }

    /// Finds what a level can be computed from; other levels and reasons for none are added at once.
    fn judge<'a>(&mut self, sourcing: &Sourcing<'_>, kept: &[Kept<'a>]) -> Vec<Candidate<'a>> {
        let today = sourcing.shop.as_of.date();
        let judged = parallel::each(kept, |of| {
            if let Some(since) = of.part_use.in_use_until.filter(|until| *until <= today) {
                return Judged::Retired(since);
            }
            let found = candidate(sourcing, of.part, of.demand, of.part_use);
            Judged::InUse(found.map(|mut found| {
                found.shares_with.clone_from(&of.shares_with);
                found.bought.clone_from(&of.bought);
                found.look_at_shelf(sourcing);
                Box::new(found)
            }))
        });
        let mut candidates = Vec::with_capacity(kept.len());
        for (of, judged) in kept.iter().zip(judged) {
            let found = match judged {
                Judged::Retired(since) => {
                    let level = retired(sourcing, of.part, since);
                    self.by_part.insert(of.part.id, level);
                    continue;
                }
                Judged::InUse(found) => found,
            };
            match found {
                Ok(found) => candidates.push(*found),
                Err(not_computed) => match of.part.own_min_stock.filter(|own| *own > 0.0) {
                    Some(min_stock) => {
                        let days = of.demand.exposure_days;
                        let why = (not_computed, days);
                        let level = own_minimum(sourcing, of.part, min_stock, why);
                        self.own_without_rate += value_of_own(sourcing, &level);
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
                let why = LevelBasis::KeptUnder {
                    holder: stock.holder,
                    number: number.clone(),
                };
                let level = not_kept(sourcing, catalogue.part(*part), why);
                self.by_part.insert(*part, level);
            }
        }
    }

    /// Tells each last buy what is still to buy, now that it is known what planned rebuilds take and leave over.
    pub fn tell_last_buys(&mut self, still: &BTreeMap<PartId, LastBuyStill>) {
        for (part, still) in still {
            if let Some(LevelBasis::Computed(reason)) =
                self.by_part.get_mut(part).map(|level| &mut level.why)
                && let Some(last) = &mut reason.last_buy
            {
                last.buy = last.wanted.map(|_| still.units);
                last.not_bought = still.not_bought;
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

    /// Reorder points of all candidates by the rule of the settings; the share of the downtime cost that they amount to, 1 where
    /// it counts in full or no price rules.
    fn choose(&mut self, shop: &Shop, year_h: f64, candidates: &mut [Candidate<'_>]) -> f64 {
        let planning = &shop.settings.planning;
        let targets = targets(shop);
        let mut positions = Vec::new();
        let mut parts = Vec::new();
        for (at, candidate) in candidates.iter_mut().enumerate() {
            candidate.look_at_own_minimum(shop, year_h);
            let of_all = candidate.stocked().filter_map(|part| targets.get(&part));
            let found = of_all.reduce(|best, of| if of.0 > best.0 { of } else { best });
            let share = found.map_or(planning.service_target_share, |(share, _)| *share);
            candidate.rule = LevelRule::ServiceTarget {
                share,
                from: found.map(|(_, from)| from.clone()),
            };
            candidate.reorder_point = candidate.point_for_share(share);
            if let Some(priced) = candidate.reordered(shop, year_h) {
                positions.push(at);
                parts.push(priced);
            }
        }
        if parts.is_empty() {
            return 1.0;
        }
        let is_priced = !self.has_no_hour_cost;
        let (found, factor, rule) = match (planning.levels_by, planning.stock_budget) {
            (LevelsBy::DowntimeCost, _) if is_priced => {
                (reorder_points(&parts, 1.0), 1.0, LevelRule::DowntimeCost)
            }
            // Without a cost of an hour the targets stand in.
            (LevelsBy::ServiceTarget | LevelsBy::DowntimeCost, _) => return 1.0,
            (LevelsBy::StockOutPrice, Some(budget)) => {
                let of = positions.iter().map(|at| &candidates[*at]);
                let (found, factor) = self.choose_for_budget(budget, &parts, of);
                let goal = ServiceGoal::Budget(money(shop, budget));
                (found, factor, LevelRule::StockOutPrice { factor, goal })
            }
            (LevelsBy::StockOutPrice, None) => {
                let share = planning.service_target_share;
                let found = price_for_service(&parts, share, is_priced);
                let number = |at: &usize| candidates[positions[*at]].part.number.clone();
                self.out_of_reach = found.most_share.map(|_| OutOfReach {
                    share,
                    because_of: found.held_back_by.iter().map(number).collect(),
                });
                let factor = found.factor;
                let out_of_reach = |most| ServiceGoal::OutOfReach { share, most };
                let goal = found
                    .most_share
                    .map_or(ServiceGoal::Share(share), out_of_reach);
                let rule = LevelRule::StockOutPrice { factor, goal };
                (reorder_points(&parts, factor), factor, rule)
            }
        };
        for (at, reorder_point) in positions.iter().zip(found) {
            candidates[*at].reorder_point = reorder_point;
            candidates[*at].rule = rule.clone();
        }
        factor
    }

    /// Service against money, with the offers, quantities and planners' own figures that hold.
    fn draw_curve(&mut self, shop: &Shop, year_h: f64, candidates: &[Candidate<'_>]) {
        let (parts, of): (Vec<PricedPart>, Vec<&Candidate<'_>>) = candidates
            .iter()
            .filter_map(|candidate| Some((candidate.reordered(shop, year_h)?, candidate)))
            .unzip();
        if !parts.is_empty() {
            self.curve = curve(&parts, |at, by_price| of[at].with_own(by_price));
            for point in &mut self.curve {
                point.stock_value += self.own_without_rate;
            }
        }
    }

    /// Reorder points by the rule alone for a budget that pays for the planners' own figures first.
    fn choose_for_budget<'a>(
        &mut self,
        budget: f64,
        parts: &[PricedPart],
        of: impl Iterator<Item = &'a Candidate<'a>>,
    ) -> (Vec<i64>, f64) {
        let is_priced = !self.has_no_hour_cost;
        let ranges: Vec<BudgetRange> = of
            .zip(parts)
            .map(|(candidate, part)| candidate.budget_range(part, is_priced))
            .collect();
        let own = self.own_without_rate;
        let set = reorder_points_for_budget(parts, &ranges, budget - own);
        self.budget = Some(BudgetUse {
            budget,
            is_all_that_pays: set.is_all_that_pays,
            least: set.least + own,
        });
        let found = set.reorder_points.iter().zip(parts.iter().zip(&ranges));
        let by_rule = found.map(|(reorder_point, (part, range))| {
            // What a planner asks for says nothing of what the rule would keep.
            if *reorder_point == range.least {
                part.reorder_point(set.factor).min(range.least)
            } else {
                *reorder_point
            }
        });
        (by_rule.collect(), set.factor)
    }

    /// Measures the levels that hold.
    fn measure_held(
        &mut self,
        shop: &Shop,
        year_h: f64,
        candidates: &[Candidate<'_>],
        factor: f64,
    ) {
        let (parts, held): (Vec<PricedPart>, Vec<i64>) = candidates
            .iter()
            .filter_map(|candidate| Some((candidate.reordered(shop, year_h)?, candidate.held())))
            .unzip();
        self.chosen = (!parts.is_empty()).then(|| {
            let of_parts = measure(&parts, &held, factor);
            CurvePoint {
                stock_value: of_parts.stock_value + self.own_without_rate,
                ..of_parts
            }
        });
    }
}

/// Machines in service whose cost of an hour down neither a table nor the settings say; those that no machines table has are
/// told. Where there is no such table at all, that is told of the table.
fn without_hour_cost(
    shop: &Shop,
    uses: &PartUses,
    issues: &mut Vec<PlanIssue>,
) -> Vec<NamedMachine> {
    if shop.machines.is_empty() {
        return Vec::new();
    }
    let today = shop.as_of.date();
    let is_gone = |of: &NamedMachine| {
        let machine = shop.machines.get(NameKey::new(&of.name).as_str());
        let until = machine.and_then(|machine| machine.in_use_until);
        until.is_some_and(|until| until <= today)
    };
    let open = |of: &&NamedMachine| !of.has_cost && !is_gone(of);
    let mut found: Vec<NamedMachine> = uses.named().iter().filter(open).cloned().collect();
    // Of the machine of a kit its kit tells it.
    let untold = found.iter().filter(|of| !of.is_listed && !of.has_kit);
    issues.extend(untold.map(|of| PlanIssue::MachineNotListed {
        place: of.place.clone(),
        machine: of.name.clone(),
    }));
    if uses.is_priced_by_setting() {
        found.clear();
    }
    found.sort_by_key(|of| std::cmp::Reverse(of.usages));
    found
}

/// Own parts with a demand, by rising id; of a shared stock its holder only.
fn kept<'a>(
    shop: &'a Shop,
    demands: &'a BTreeMap<PartId, Arc<Demand>>,
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
                bought: vec![part.id],
                demand: demands.get(&part.id)?,
                part_use: uses.of(part.id),
            });
        };
        let others = stock.parts.iter().copied();
        (stock.holder == part.id).then(|| Kept {
            part,
            shares_with: others.filter(|other| *other != part.id).collect(),
            bought: stock.bought.clone(),
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
    /// What a level can be computed from, or why not.
    InUse(Result<Box<Candidate<'a>>, WhyNoLevel>),
}

/// The level a planner asks for where nothing can be computed.
fn own_minimum(
    sourcing: &Sourcing<'_>,
    part: &CataloguePart,
    min_stock: f64,
    (not_computed, exposure_days): (WhyNoLevel, f64),
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
            has_reason: part.own_min_reason.is_some(),
            not_computed,
            exposure_days,
        },
        why_quantity: None,
    }
}

/// Value of a level that a planner asks for, as the curve reckons those of parts with a rate: the mean of the positions from
/// the minimum stock to a whole order above the reorder point, at the lowest price of an offer that may be bought from. Nothing without a price, or where nothing is ordered for it.
fn value_of_own(sourcing: &Sourcing<'_>, level: &Level) -> f64 {
    if level.kept_min_stock() <= 0.0 {
        return 0.0;
    }
    let offers = sourcing.offers_of(level.part).iter();
    let prices = offers.filter_map(|offer| unit_price(sourcing, offer, level.unit));
    let units = level.reorder_point + f64::midpoint(level.order_quantity, 1.0);
    prices.min_by(f64::total_cmp).unwrap_or(0.0) * units
}

/// A part that no machine in service uses is not reordered.
fn retired(sourcing: &Sourcing<'_>, part: &CataloguePart, since: NaiveDate) -> Level {
    not_kept(sourcing, part, LevelBasis::Retired { since })
}

/// No stock and no order, for the reason given.
fn not_kept(sourcing: &Sourcing<'_>, part: &CataloguePart, why: LevelBasis) -> Level {
    Level {
        part: part.id,
        shares_with: Vec::new(),
        unit: stock_unit(sourcing, part),
        reorder_point: -1.0,
        min_stock: 0.0,
        order_quantity: 0.0,
        why,
        why_quantity: None,
    }
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

/// Service targets of parts where such targets set the levels; empty where another rule does.
pub fn target_shares(shop: &Shop) -> BTreeMap<PartId, f64> {
    if shop.settings.planning.levels_by != LevelsBy::ServiceTarget {
        return BTreeMap::new();
    }
    let targets = targets(shop).into_iter();
    targets.map(|(part, (share, _))| (part, share)).collect()
}

/// Highest service target among the machines whose kits ask for a part or that the parts table names for it, with the
/// criticality it comes from.
fn targets(shop: &Shop) -> BTreeMap<PartId, (f64, String)> {
    let by_criticality = &shop.settings.planning.service_targets_by_criticality;
    let target_of = |name: &String| {
        let machine = shop.machines.get(NameKey::new(name).as_str())?;
        let found = machine.criticality.as_ref()?;
        let is_it = |(name, _): &(&String, &f64)| name.trim().eq_ignore_ascii_case(found.trim());
        by_criticality.iter().find(is_it)
    };
    let of_kits = shop.kits.iter().flat_map(|kit| {
        let target = kit.machine.as_ref().and_then(target_of);
        let parts = kit.lines.iter().filter_map(|line| line.part);
        parts.map(move |part| (part, target))
    });
    let of_parts = shop.catalogue.parts().iter().flat_map(|part| {
        let of_each = part.machines.iter().map(target_of);
        of_each.map(move |target| (part.id, target))
    });
    let mut targets: BTreeMap<PartId, (f64, String)> = BTreeMap::new();
    for (part, target) in of_kits.chain(of_parts) {
        let Some((criticality, share)) = target else {
            continue;
        };
        let known = targets.entry(part);
        let target = known.or_insert_with(|| (*share, criticality.clone()));
        if *share > target.0 {
            *target = (*share, criticality.clone());
        }
    }
    targets
}

#[cfg(test)]
mod tests;
