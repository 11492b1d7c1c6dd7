//! Stock levels of own parts: when to order again and how much, each with its reason.

use std::collections::BTreeMap;

use chrono::{Days, NaiveDate};

use super::demand_table::DemandTable;
use super::finite_source::{FEW_MACHINES, FewMachines};
use super::kit_fill::{JobLine, job_fill, raise_to_job_fill};
use super::last_buy::{LAST_BUY_WITHIN_DAYS, LastBuyPrices, last_buy};
use super::lead_time_demand::LeadTimeDemand;
use super::lead_time_law::LeadTimeLaw;
use super::order_quantity::{QuantityReason, YEAR_DAYS, order_quantity, unit_price};
use super::part_use::{PartUse, PartUses, money};
use super::reason::{
    Level, LevelBasis, LevelReason, LevelRule, OneLess, OwnFigure, PricedAt, ServiceGoal,
    WhyNoLevel,
};
use super::replay::{Replay, replay};
use super::service::{Service, on_hand_at_least};
use super::stock_out_price::{
    CurvePoint, PricedPart, curve, factor_for_service, measure, reorder_points,
    reorder_points_for_budget,
};
use crate::catalogue::{CataloguePart, NameKey, PartId, Shop};
use crate::plan::demand::{Demand, Rate};
use crate::plan::issue::PlanIssue;
use crate::plan::lead_time::Arrival;
use crate::plan::offer::UsableOffer;
use crate::plan::sourcing::Sourcing;
use crate::plan::stock::PartStock;
use crate::record::LevelsBy;
use crate::units::UnitOfCount;

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
}

/// What the levels mean for one kit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KitFill {
    /// Position in [`Shop::kits`].
    pub kit: usize,
    /// Share of rebuilds that find every line, lines taken as independent.
    pub job_share: f64,
    /// Mean share of its lines that are there.
    pub line_share: f64,
    /// Lines without a level, which count as never there.
    pub without_level: usize,
}

/// A part for which a level can be computed.
struct Candidate<'a> {
    part: &'a CataloguePart,
    demand: &'a Demand,
    part_use: &'a PartUse,
    unit: UnitOfCount,
    lead: LeadTimeLaw,
    quantity: i64,
    order_quantity: f64,
    why_quantity: QuantityReason,
    law: LeadTimeDemand,
    few_machines: Option<FewMachines>,
    table: DemandTable,
    rule: LevelRule,
    reorder_point: i64,
    raised_for_kit: Option<String>,
    /// Day on which the last of its machines leaves service, where that is soon.
    last_day: Option<NaiveDate>,
}

impl Levels {
    /// Sets the level of every own part that has a rate and an offer with a lead time.
    pub fn new(
        sourcing: &Sourcing<'_>,
        demands: &BTreeMap<PartId, Demand>,
        issues: &mut Vec<PlanIssue>,
    ) -> Self {
        let shop = sourcing.shop;
        let uses = PartUses::new(shop, sourcing.exchange());
        let today = shop.as_of.date();
        let year_h = production_h(sourcing);
        let mut levels = Self::default();
        let mut candidates = Vec::new();
        for part in shop.catalogue.parts().iter().filter(|part| part.is_own) {
            let Some(demand) = demands.get(&part.id) else {
                continue;
            };
            let part_use = uses.of(part.id);
            if let Some(since) = part_use.in_use_until.filter(|until| *until <= today) {
                levels
                    .by_part
                    .insert(part.id, retired(sourcing, part, since));
                continue;
            }
            match candidate(sourcing, part, demand, part_use, issues) {
                Ok(found) => candidates.push(found),
                Err(not_computed) => match part.own_min_stock.filter(|own| *own > 0.0) {
                    Some(min_stock) => {
                        let level = own_minimum(sourcing, part, min_stock, not_computed);
                        levels.by_part.insert(part.id, level);
                    }
                    None => levels.without.push((part.id, not_computed)),
                },
            }
        }
        levels.choose(shop, year_h, &mut candidates);
        raise_for_kits(shop, &mut candidates);
        levels.kits = kit_fills(shop, &candidates);
        let mut usages = usages_by_part(shop);
        for candidate in candidates {
            let past = usages.remove(&candidate.part.id).unwrap_or_default();
            let level = candidate.level(sourcing, year_h, &past);
            levels.by_part.insert(level.part, level);
        }
        levels
    }

    /// Reorder points of all candidates by the rule of the settings.
    fn choose(&mut self, shop: &Shop, year_h: f64, candidates: &mut [Candidate<'_>]) {
        let planning = &shop.settings.planning;
        let targets = targets(shop);
        let of_target = |candidate: &Candidate<'_>| {
            let found = targets.get(&candidate.part.id);
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

impl Candidate<'_> {
    fn unit_price(&self) -> Option<f64> {
        let price = self.why_quantity.unit_price?.to_units();
        (price > 0.0).then_some(price)
    }

    /// The part as the price of a stock-out sees it; `None` without price or holding cost.
    fn priced_part(&self, shop: &Shop, year_h: f64) -> Option<PricedPart> {
        let price = self.unit_price()?;
        let holding = shop.settings.planning.holding_cost_share * price;
        let (per_day, _) = self.demand.over(1.0)?;
        (holding > 0.0).then(|| PricedPart {
            table: self.table.clone(),
            quantity: self.quantity,
            price,
            holding,
            waiting_per_h: self.part_use.waiting_per_h,
            year_h,
            weighted_yearly: per_day * YEAR_DAYS * self.part_use.criticality_weight,
        })
    }

    /// Share of the downtime cost that the rule counts.
    const fn factor(&self) -> f64 {
        match self.rule {
            LevelRule::StockOutPrice { factor, .. } => factor,
            LevelRule::DowntimeCost | LevelRule::ServiceTarget { .. } => 1.0,
        }
    }

    /// Holding and waiting a year by the rule.
    fn cost(&self, priced: &PricedPart, reorder_point: i64) -> f64 {
        let positions = reorder_point + 1..=reorder_point + self.quantity;
        let on_hand: f64 = positions
            .map(|y| y as f64 - self.table.mean() + self.table.shortfall(y))
            .sum();
        let waiting = priced.waiting(reorder_point) * priced.year_h * priced.waiting_per_h;
        priced.holding * on_hand / self.quantity as f64 + self.factor() * waiting
    }

    fn service(&self, reorder_point: i64) -> Service {
        Service::new(
            &self.table,
            reorder_point,
            self.quantity,
            &self.demand.sizes,
        )
    }

    fn level(self, sourcing: &Sourcing<'_>, year_h: f64, past: &[(NaiveDate, f64)]) -> Level {
        let shop = sourcing.shop;
        let priced = self.priced_part(shop, year_h);
        let own = self.own_figure(shop, priced.as_ref());
        let last_buy = self.last_buy(sourcing, year_h);
        let reorder_point = if self.last_day.is_some() {
            // Bought once, not reordered: the last buy is offered beside it.
            -1
        } else {
            own.as_ref()
                .map_or(self.reorder_point, |own| own.min_stock.ceil() as i64 - 1)
        };
        let is_kept = reorder_point >= 0;
        let one_less = priced
            .as_ref()
            .filter(|_| is_kept)
            .map(|priced| self.one_less(shop, priced, reorder_point));
        let replayed = |reorder_point: i64| self.replay(shop, past, reorder_point);
        let reason = LevelReason {
            lead: self.lead,
            demand: self.demand.clone(),
            lead_time_demand: self.law.clone(),
            computed_reorder_point: self.reorder_point as f64,
            rule: self.rule.clone(),
            priced: priced.as_ref().map(|priced| PricedAt {
                unit_price: money(shop, priced.price),
                holding: money(shop, priced.holding),
                waiting_per_h: money(shop, priced.waiting_per_h),
                basis: self.part_use.basis.clone(),
                factor: self.factor(),
                year_h,
            }),
            service: self.service(reorder_point),
            service_one_less: is_kept.then(|| self.service(reorder_point - 1)),
            one_less,
            few_machines: self.few_machines,
            raised_for_kit: self.raised_for_kit.clone(),
            own,
            last_buy,
            replay: replayed(reorder_point),
            replay_one_less: is_kept.then(|| replayed(reorder_point - 1)),
        };
        Level {
            part: self.part.id,
            unit: self.unit,
            reorder_point: reorder_point as f64,
            min_stock: reorder_point as f64 + 1.0,
            order_quantity: self.order_quantity,
            why: LevelBasis::Computed(Box::new(reason)),
            why_quantity: Some(self.why_quantity),
        }
    }

    fn one_less(&self, shop: &Shop, priced: &PricedPart, reorder_point: i64) -> OneLess {
        let waiting_h_more =
            (priced.waiting(reorder_point - 1) - priced.waiting(reorder_point)) * priced.year_h;
        let on_hand = |reorder_point: i64| self.service(reorder_point).on_hand;
        let held = on_hand(reorder_point) - on_hand(reorder_point - 1);
        OneLess {
            waiting_h_more,
            waiting_cost_more: money(shop, waiting_h_more * priced.waiting_per_h * self.factor()),
            holding_saved: money(shop, priced.holding * held),
        }
    }

    /// The planner's figure where it holds: a signed one always, another where it is above the computed level.
    fn own_figure(&self, shop: &Shop, priced: Option<&PricedPart>) -> Option<OwnFigure> {
        let min_stock = self.part.own_min_stock?;
        let (reason, date) = (self.part.own_min_reason.clone(), self.part.own_min_date);
        let computed = self.reorder_point as f64 + 1.0;
        let holds = if OwnFigure::is_signed(reason.as_ref(), date) {
            (min_stock - computed).abs() > 1e-9
        } else {
            min_stock > computed
        };
        holds.then(|| {
            let own = min_stock.ceil() as i64 - 1;
            OwnFigure {
                min_stock,
                reason,
                date,
                costs_more: priced.map(|priced| {
                    let more = self.cost(priced, own) - self.cost(priced, self.reorder_point);
                    money(shop, more)
                }),
            }
        })
    }

    fn last_buy(&self, sourcing: &Sourcing<'_>, year_h: f64) -> Option<super::last_buy::LastBuy> {
        let until = self.last_day?;
        let waiting_h = self.lead.mean_days * year_h / YEAR_DAYS;
        let prices = self.unit_price().map(|price| LastBuyPrices {
            price,
            missing: waiting_h.mul_add(self.part_use.waiting_per_h, price),
        });
        let shop = sourcing.shop;
        last_buy(
            self.demand,
            shop.as_of.date(),
            until,
            free_and_on_order(sourcing, self.part.id),
            prices,
            shop.settings.currency,
        )
    }

    fn replay(&self, shop: &Shop, past: &[(NaiveDate, f64)], reorder_point: i64) -> Replay {
        let today = shop.as_of.date();
        let from = shop.settings.records_from.unwrap_or(today);
        let days = (today - from).num_days().max(0);
        let usages: Vec<(i64, f64)> = past
            .iter()
            .filter(|(date, _)| *date >= from && *date <= today)
            .map(|(date, quantity)| ((*date - from).num_days(), *quantity))
            .collect();
        replay(
            &usages,
            days,
            reorder_point as f64,
            self.order_quantity,
            self.lead.mean_days,
        )
    }
}

fn candidate<'a>(
    sourcing: &Sourcing<'_>,
    part: &'a CataloguePart,
    demand: &'a Demand,
    part_use: &'a PartUse,
    issues: &mut Vec<PlanIssue>,
) -> Result<Candidate<'a>, WhyNoLevel> {
    let shop = sourcing.shop;
    let unit = stock_unit(sourcing, part);
    if !matches!(demand.rate, Rate::Known { .. }) {
        return Err(WhyNoLevel::RateUnknown);
    }
    if demand.over(1.0).is_none_or(|(mean, _)| mean <= 0.0) {
        return Err(WhyNoLevel::NeverUsed);
    }
    let offers: Vec<&UsableOffer<'_>> = sourcing
        .offers_of(part.id)
        .iter()
        .filter(|offer| offer.unit.in_units_of(unit).is_ok())
        .collect();
    if offers.is_empty() {
        return Err(WhyNoLevel::NoUsableOffer);
    }
    let (offer, arrival) =
        cheapest_with_lead_time(sourcing, &offers, unit).ok_or(WhyNoLevel::NoLeadTime)?;
    let today = shop.as_of.date();
    let days_in_service = part_use
        .in_use_until
        .map(|until| (until - today).num_days().max(0) as f64);
    let soon = today.checked_add_days(Days::new(LAST_BUY_WITHIN_DAYS as u64));
    let last_day = part_use
        .in_use_until
        .filter(|until| soon.is_some_and(|soon| *until <= soon));
    let (order_quantity, why_quantity) =
        order_quantity(sourcing, part, demand, offer, unit, days_in_service);
    if let Some(used) = why_quantity.shelf_life_usage
        && why_quantity.minimum > used.max(1.0)
    {
        issues.push(PlanIssue::OutlastsShelfLife {
            place: offer.record.place.clone(),
            part: part.number.clone(),
            least: why_quantity.minimum,
            used,
        });
    }
    let lead = LeadTimeLaw::of(&arrival, shop.as_of);
    let quantity = order_quantity.ceil().max(1.0) as i64;
    let is_one_for_one = quantity == 1;
    let law = lead
        .demand(demand, 1.0, is_one_for_one)
        .ok_or(WhyNoLevel::RateUnknown)?;
    let few_machines = few_machines(part_use, demand, &law, is_one_for_one);
    let table = few_machines.map_or_else(|| DemandTable::new(&law), |few| few.spares_table());
    Ok(Candidate {
        part,
        demand,
        part_use,
        unit,
        lead,
        quantity,
        order_quantity,
        why_quantity,
        law,
        few_machines,
        table,
        rule: LevelRule::DowntimeCost,
        reorder_point: -1,
        raised_for_kit: None,
        last_day,
    })
}

/// Machines counted one by one: few of them, single pieces, ordered one for one.
fn few_machines(
    part_use: &PartUse,
    demand: &Demand,
    law: &LeadTimeDemand,
    is_one_for_one: bool,
) -> Option<FewMachines> {
    let places = part_use.places?;
    let is_single = demand.sizes.iter().all(|(size, _)| *size == 1);
    let is_few = f64::from(part_use.machines) <= FEW_MACHINES;
    (is_one_for_one && is_single && is_few).then(|| FewMachines {
        places,
        mean: law.moments().0,
    })
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
        part: part.id,
        unit: stock_unit(sourcing, part),
        reorder_point: -1.0,
        min_stock: 0.0,
        order_quantity: 0.0,
        why: LevelBasis::Retired { since },
        why_quantity: None,
    }
}

/// Raises the levels of a kit's lines until enough rebuilds find every line.
fn raise_for_kits(shop: &Shop, candidates: &mut [Candidate<'_>]) {
    let Some(target) = shop.settings.planning.kit_target_share else {
        return;
    };
    for kit in &shop.kits {
        let mut at_line = Vec::new();
        let mut lines = Vec::new();
        for (at, candidate) in candidates.iter().enumerate() {
            let needed = needed_by(kit, candidate.part.id);
            if needed > 0 && candidate.last_day.is_none() {
                at_line.push(at);
                lines.push(job_line(candidate, needed));
            }
        }
        raise_to_job_fill(&mut lines, target);
        for (at, line) in at_line.into_iter().zip(lines) {
            if line.reorder_point > candidates[at].reorder_point {
                candidates[at].reorder_point = line.reorder_point;
                candidates[at].raised_for_kit = Some(kit.name.clone());
            }
        }
    }
}

fn needed_by(kit: &crate::catalogue::Kit, part: PartId) -> i64 {
    kit.lines
        .iter()
        .filter(|line| line.part == Some(part))
        .map(|line| line.record.quantity.max(0.0).ceil() as i64)
        .sum()
}

fn job_line(candidate: &Candidate<'_>, needed: i64) -> JobLine {
    JobLine {
        table: candidate.table.clone(),
        reorder_point: candidate.reorder_point,
        quantity: candidate.quantity,
        needed,
        price: candidate.unit_price().unwrap_or(1.0),
    }
}

/// Shares of rebuilds and of lines found on the shelf, kit by kit.
fn kit_fills(shop: &Shop, candidates: &[Candidate<'_>]) -> Vec<KitFill> {
    let by_part: BTreeMap<PartId, &Candidate<'_>> = candidates
        .iter()
        .map(|candidate| (candidate.part.id, candidate))
        .collect();
    let fill = |(position, kit): (usize, &crate::catalogue::Kit)| {
        let mut parts: Vec<Option<PartId>> = kit.lines.iter().map(|line| line.part).collect();
        parts.sort_unstable();
        parts.dedup();
        let mut lines = Vec::new();
        let mut without_level = 0;
        for part in parts {
            match part.and_then(|part| by_part.get(&part)) {
                Some(candidate) => {
                    lines.push(job_line(candidate, needed_by(kit, candidate.part.id)));
                }
                None => without_level += 1,
            }
        }
        let count = (lines.len() + without_level).max(1) as f64;
        let found = lines.iter().map(|line| {
            on_hand_at_least(&line.table, line.reorder_point, line.quantity, line.needed)
        });
        KitFill {
            kit: position,
            line_share: found.sum::<f64>() / count,
            job_share: if without_level > 0 {
                0.0
            } else {
                job_fill(&lines)
            },
            without_level,
        }
    };
    shop.kits.iter().enumerate().map(fill).collect()
}

/// Offer with the lowest unit price among those with a known normal arrival; unpriced ones come last.
fn cheapest_with_lead_time<'o, 'a>(
    sourcing: &Sourcing<'_>,
    offers: &[&'o UsableOffer<'a>],
    unit: UnitOfCount,
) -> Option<(&'o UsableOffer<'a>, Arrival)> {
    offers
        .iter()
        .filter_map(|offer| Some((*offer, offer.deliveries.first()?.arrival?)))
        .min_by(|a, b| {
            let price = |offer: &UsableOffer<'_>| {
                unit_price(sourcing, offer, unit).unwrap_or(f64::INFINITY)
            };
            price(a.0)
                .total_cmp(&price(b.0))
                .then(a.1.mean_days.total_cmp(&b.1.mean_days))
                .then(a.0.offer.cmp(&b.0.offer))
        })
}

/// Unit a part's level is counted in: that of its stock, else its own, else pieces.
pub fn stock_unit(sourcing: &Sourcing<'_>, part: &CataloguePart) -> UnitOfCount {
    sourcing
        .stock
        .by_part
        .get(&part.id)
        .map(|stock| stock.unit)
        .or(part.unit_of_count)
        .unwrap_or(UnitOfCount::Piece)
}

fn free_and_on_order(sourcing: &Sourcing<'_>, part: PartId) -> f64 {
    let free = sourcing
        .stock
        .by_part
        .get(&part)
        .map_or(0.0, PartStock::free);
    let orders = sourcing.orders.get(&part).into_iter().flatten();
    orders.fold(free, |sum, order| sum + order.quantity)
}

fn usages_by_part(shop: &Shop) -> BTreeMap<PartId, Vec<(NaiveDate, f64)>> {
    let mut usages: BTreeMap<PartId, Vec<(NaiveDate, f64)>> = BTreeMap::new();
    for usage in &shop.usages {
        let list = usages.entry(usage.part).or_default();
        list.push((usage.record.date, usage.record.quantity));
    }
    for list in usages.values_mut() {
        list.sort_by_key(|(date, _)| *date);
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
#[path = "levels_tests.rs"]
mod tests;
