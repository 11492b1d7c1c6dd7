//! One part for which a level can be computed, and the level with its reasons.

use std::sync::Arc;

use chrono::NaiveDate;

use super::demand_table::DemandTable;
use super::finite_source::{FEW_MACHINES, FewMachines};
use super::last_buy::{LastBuy, LastBuyAim, LastBuyPrices, is_soon, last_buy};
use super::lead_time_demand::LeadTimeDemand;
use super::lead_time_law::LeadTimeLaw;
use super::never_used::NeverUsed;
use super::offer_behind::{Preferred, cheapest_with_lead_time, pack_in};
use super::order_quantity::{QuantityReason, YEAR_DAYS, order_quantity};
use super::part_use::{PartUse, WaitingBasis, money};
use super::reason::{
    Level, LevelBasis, LevelReason, LevelRule, OneLess, OwnFigure, PricedAt, ServiceGoal,
    WhyNoLevel,
};
use super::replay::{Replay, replay};
use super::service::Service;
use super::shelf_waste::expired_a_year;
use super::stock_out_price::{BudgetRange, PricedPart};
use super::stock_unit::stock_unit;
use crate::catalogue::{CataloguePart, PartId, Shop, UsageOf};
use crate::plan::demand::{Demand, Rate};
use crate::plan::issue::PlanIssue;
use crate::plan::lead_time::Arrival;
use crate::plan::offer::UsableOffer;
use crate::plan::sourcing::Sourcing;
use crate::plan::stock::PartStock;
use crate::record::UsageReason;
use crate::units::UnitOfCount;

/// Positions of an order that are looked at for what expires.
const MOST_POSITIONS: i64 = 200;

/// A part for which a level can be computed.
pub struct Candidate<'a> {
    pub part: &'a CataloguePart,
    /// The other numbers kept in the same stock.
    pub shares_with: Vec<PartId>,
    pub demand: &'a Arc<Demand>,
    pub part_use: &'a PartUse,
    pub unit: UnitOfCount,
    /// Position of the offer that all this rests on in [`Shop::offers`].
    pub offer: usize,
    /// Why that is not the one with the lowest price of a unit; `None` where it is.
    pub preferred: Option<Preferred>,
    pub lead: LeadTimeLaw,
    pub quantity: i64,
    pub order_quantity: f64,
    pub why_quantity: QuantityReason,
    pub law: LeadTimeDemand,
    pub few_machines: Option<FewMachines>,
    pub table: Arc<DemandTable>,
    pub rule: LevelRule,
    pub reorder_point: i64,
    pub raised_for_kit: Option<String>,
    /// True where more would pay but for their shelf life.
    is_cut_for_shelf_life: bool,
    /// Sold in multiples of this, in `unit`.
    pack: f64,
    /// Day on which the last of its machines leaves service, where that is soon.
    pub last_day: Option<NaiveDate>,
}

impl Candidate<'_> {
    /// The part and the other numbers kept in the same stock.
    pub fn stocked(&self) -> impl Iterator<Item = PartId> + '_ {
        std::iter::once(self.part.id).chain(self.shares_with.iter().copied())
    }

    pub fn unit_price(&self) -> Option<f64> {
        let price = self.why_quantity.unit_price?.to_units();
        (price > 0.0).then_some(price)
    }

    /// The part as the price of a stock-out sees it; `None` without price or holding cost.
    pub fn priced_part(&self, shop: &Shop, year_h: f64) -> Option<PricedPart> {
        let price = self.unit_price()?;
        let holding = shop.settings.planning.holding_cost_share * price;
        let per_day = self.demand.per_day()?;
        (holding > 0.0).then(|| PricedPart {
            table: Arc::clone(&self.table),
            quantity: self.quantity,
            price,
            holding,
            waiting_per_h: self.part_use.waiting_per_h,
            year_h,
            weighted_yearly: per_day * YEAR_DAYS * self.part_use.criticality_weight,
        })
    }

    /// The same, unless the part is bought once more and not reordered.
    pub fn reordered(&self, shop: &Shop, year_h: f64) -> Option<PricedPart> {
        self.priced_part(shop, year_h)
            .filter(|_| self.last_day.is_none())
    }

    /// How far a budget may go: a planner's signed figure stands, another is kept at least.
    pub fn budget_range(&self, priced: &PricedPart, is_hour_priced: bool) -> BudgetRange {
        let range = BudgetRange::of(priced, is_hour_priced);
        match self.part.own_min_stock.map(|own| own.ceil() as i64 - 1) {
            None => range,
            Some(own) if self.is_own_signed() => BudgetRange::just(own),
            Some(own) => range.from(own),
        }
    }

    /// The reorder point that holds: the planner's figure where it does, none for a part that is not reordered.
    pub fn held(&self) -> i64 {
        match self.own_that_holds() {
            // Bought once, not reordered: the last buy is offered beside it.
            _ if self.last_day.is_some() => -1,
            Some(own) => own.ceil() as i64 - 1,
            None => self.reorder_point,
        }
    }

    /// The same bought by another offer; `None` where nothing can be worked out of it.
    pub fn bought_by(
        &self,
        sourcing: &Sourcing<'_>,
        offer: &UsableOffer<'_>,
        arrival: Arrival,
    ) -> Option<Self> {
        let of = (self.part, self.demand, self.part_use);
        let mut other = by_offer(sourcing, of, self.unit, (offer, arrival))?;
        other.shares_with.clone_from(&self.shares_with);
        other.rule = self.rule.clone();
        Some(other)
    }

    /// Goods, orders, holding, what expires and waiting a year, with the reorder point that the rule gives; `None` without
    /// a price.
    pub fn yearly_cost(&self, shop: &Shop, year_h: f64) -> Option<f64> {
        let priced = self.reordered(shop, year_h)?;
        let yearly = self.demand.per_day()? * YEAR_DAYS;
        let each_order = shop.settings.planning.order_cost;
        let goods_and_orders = yearly * (priced.price + each_order / self.order_quantity);
        Some(goods_and_orders + self.cost(&priced, self.by_rule(&priced)))
    }

    /// The reorder point of the rule, or the planner's where that one holds.
    fn by_rule(&self, priced: &PricedPart) -> i64 {
        let by_rule = match self.rule {
            LevelRule::ServiceTarget { share, .. } => self.table.quantile(share),
            LevelRule::StockOutPrice { .. } | LevelRule::DowntimeCost => {
                priced.reorder_point(self.factor())
            }
        };
        match self.part.own_min_stock.map(|own| own.ceil() as i64 - 1) {
            None => by_rule,
            Some(own) if self.is_own_signed() => own,
            Some(own) => own.max(by_rule),
        }
    }

    /// The issue of an offer whose least quantity outlasts the shelf life.
    pub fn outlasts_shelf_life(&self, shop: &Shop) -> Option<PlanIssue> {
        let used = self.why_quantity.shelf_life_usage?;
        let least = self.why_quantity.minimum;
        let offer = shop.offers.get(self.offer)?;
        (least > used.max(1.0)).then(|| PlanIssue::OutlastsShelfLife {
            place: offer.record.place.clone(),
            part: self.part.number.clone(),
            least,
            used,
        })
    }

    /// Keeps reorder point and quantity to what the usage of the shelf life and its waste leave worth while.
    ///
    /// No order is made so large that the last unit of it waits for more than the usage of a shelf life, unless it is
    /// sold only so; and of a level by money no unit is kept that saves less than its holding and what expires for it.
    pub fn keep_within_shelf_life(&mut self, shop: &Shop, year_h: f64) {
        let Some(used) = self.why_quantity.shelf_life_usage else {
            return;
        };
        let is_by_money = !matches!(self.rule, LevelRule::ServiceTarget { .. });
        let is_by_budget = matches!(
            self.rule,
            LevelRule::StockOutPrice {
                goal: ServiceGoal::Budget(_),
                ..
            }
        );
        for _ in 0..3 {
            let room = used - self.reorder_point.max(0) as f64;
            let packs = (room / self.pack + 1e-9).floor() * self.pack;
            let most = packs.max(self.why_quantity.minimum).max(1.0);
            if most >= self.order_quantity {
                break;
            }
            self.order_quantity = most;
            self.quantity = most.ceil().max(1.0) as i64;
            let priced = self.reordered(shop, year_h);
            if let Some(priced) = priced.filter(|_| is_by_money && !is_by_budget) {
                self.reorder_point = priced.reorder_point(self.factor());
            }
        }
        let yearly = self.demand.per_day().unwrap_or(0.0) * YEAR_DAYS;
        self.why_quantity.lasts_years = (yearly > 0.0).then(|| self.order_quantity / yearly);
        let Some(priced) = self.reordered(shop, year_h).filter(|_| is_by_money) else {
            return;
        };
        while self.reorder_point >= 0 {
            let here = self.reorder_point;
            let expired =
                priced.price * (self.expired_a_year(here) - self.expired_a_year(here - 1));
            let held = self.service(here).on_hand - self.service(here - 1).on_hand;
            let saved = priced.gain(here) * self.factor();
            if expired < 0.005 || saved >= priced.holding.mul_add(held, expired) {
                break;
            }
            self.reorder_point -= 1;
            self.is_cut_for_shelf_life = true;
        }
    }

    /// Units a year that would expire with a reorder point; 0 without a shelf life.
    fn expired_a_year(&self, reorder_point: i64) -> f64 {
        let (Some(life), Some(per_day)) = (&self.why_quantity.shelf_life, self.demand.per_day())
        else {
            return 0.0;
        };
        // Enough positions of a large quantity say as much as all of them.
        let step = (self.quantity / MOST_POSITIONS).max(1);
        let positions = (reorder_point + 1..=reorder_point + self.quantity).step_by(step as usize);
        let count = positions.clone().count().max(1) as f64;
        let expired = positions.map(|position| {
            let on_hand = position as f64 - self.table.mean() + self.table.shortfall(position);
            expired_a_year(per_day * YEAR_DAYS, life.months / 12.0, on_hand)
        });
        expired.sum::<f64>() / count
    }

    /// Share of the downtime cost that the rule counts.
    pub const fn factor(&self) -> f64 {
        match self.rule {
            LevelRule::StockOutPrice { factor, .. } => factor,
            LevelRule::DowntimeCost | LevelRule::ServiceTarget { .. } => 1.0,
        }
    }

    /// Holding and waiting a year by the rule.
    fn cost(&self, priced: &PricedPart, reorder_point: i64) -> f64 {
        let on_hand = self.service(reorder_point).on_hand;
        let waiting = priced.waiting(reorder_point) * priced.year_h * priced.waiting_per_h;
        let expired = priced.price * self.expired_a_year(reorder_point);
        priced.holding * on_hand + expired + self.factor() * waiting
    }

    fn service(&self, reorder_point: i64) -> Service {
        Service::new(
            &self.table,
            reorder_point,
            self.quantity,
            &self.demand.sizes,
        )
    }

    pub fn level(self, sourcing: &Sourcing<'_>, year_h: f64, past: &[&UsageOf]) -> Level {
        let shop = sourcing.shop;
        let priced = self.priced_part(shop, year_h);
        let own = self.own_figure(shop, priced.as_ref());
        let last_buy = self.last_buy(sourcing, year_h);
        let reorder_point = self.held();
        let is_kept = reorder_point >= 0;
        let one_less = priced
            .as_ref()
            .filter(|_| is_kept)
            .map(|priced| self.one_less(shop, priced, reorder_point));
        let replayed = |reorder_point: i64| self.replay(shop, past, reorder_point);
        let reason = LevelReason {
            preferred: self.preferred.clone().map(Box::new),
            lead: self.lead,
            demand: Arc::clone(self.demand),
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
            in_full: priced
                .as_ref()
                .filter(|_| self.part_use.basis != WaitingBasis::NothingKnown)
                .map(|priced| priced.reorder_point(1.0) as f64 + 1.0),
            expired_a_year: Some(self.expired_a_year(reorder_point)).filter(|units| *units > 0.0),
            is_cut_for_shelf_life: self.is_cut_for_shelf_life,
            few_machines: self.few_machines,
            raised_for_kit: self.raised_for_kit.clone(),
            kept_for: self
                .shares_with
                .iter()
                .map(|part| shop.catalogue.part(*part).number.clone())
                .collect(),
            never_used: self.never_used(shop, priced.as_ref()).map(Box::new),
            own: own.map(Box::new),
            last_buy: last_buy.map(Box::new),
            replay: replayed(reorder_point),
            replay_one_less: is_kept.then(|| replayed(reorder_point - 1)),
        };
        Level {
            part: self.part.id,
            shares_with: self.shares_with,
            unit: self.unit,
            reorder_point: reorder_point as f64,
            min_stock: reorder_point as f64 + 1.0,
            order_quantity: self.order_quantity,
            why: LevelBasis::Computed(Box::new(reason)),
            why_quantity: Some(self.why_quantity),
        }
    }

    /// What speaks for the part where no usage does.
    fn never_used(&self, shop: &Shop, priced: Option<&PricedPart>) -> Option<NeverUsed> {
        let demand = self.demand;
        let is_shrunk = demand
            .estimate
            .as_ref()
            .is_some_and(|estimate| estimate.basis.is_shrunk());
        let was_used = demand.events + demand.before_records + demand.for_planned_rebuilds > 0;
        if was_used || !is_shrunk {
            return None;
        }
        let critical = match &self.part_use.basis {
            WaitingBasis::Machine { name, weight } if self.part_use.is_most_critical => {
                let per_h = self.part_use.waiting_per_h / weight;
                Some((name.clone(), money(shop, per_h)))
            }
            _ => None,
        };
        let pays_from = priced.and_then(|priced| {
            // The share of the time in which a unit more would be in use: none kept, the first one to come up to.
            let over = priced.waiting(-1) - priced.waiting(0);
            let per_year = priced.holding * (1.0 - over) / over;
            (over > 1e-12).then(|| money(shop, per_year / priced.year_h))
        });
        Some(NeverUsed {
            exposure_days: demand.exposure_days,
            minimum: None,
            pays_from,
            critical,
        })
    }

    fn one_less(&self, shop: &Shop, priced: &PricedPart, reorder_point: i64) -> OneLess {
        let waiting_h_more =
            (priced.waiting(reorder_point - 1) - priced.waiting(reorder_point)) * priced.year_h;
        let on_hand = |reorder_point: i64| self.service(reorder_point).on_hand;
        let held = on_hand(reorder_point) - on_hand(reorder_point - 1);
        let expired = self.expired_a_year(reorder_point) - self.expired_a_year(reorder_point - 1);
        let is_hour_priced = self.part_use.basis != WaitingBasis::NothingKnown;
        let counted = waiting_h_more * priced.waiting_per_h * self.factor();
        OneLess {
            waiting_h_more,
            waiting_cost_more: is_hour_priced.then(|| money(shop, counted)),
            holding_saved: money(shop, priced.holding.mul_add(held, priced.price * expired)),
            expired_fewer: expired,
        }
    }

    /// The planner's figure where it holds: a signed one always, another where it is above the computed level.
    fn own_that_holds(&self) -> Option<f64> {
        let min_stock = self.part.own_min_stock?;
        let computed = self.reorder_point as f64 + 1.0;
        let holds = if self.is_own_signed() {
            (min_stock - computed).abs() > 1e-9
        } else {
            min_stock > computed
        };
        holds.then_some(min_stock)
    }

    fn is_own_signed(&self) -> bool {
        OwnFigure::is_signed(self.part.own_min_reason.as_ref(), self.part.own_min_date)
    }

    /// The same with its reason and what it costs; without a cost of an hour nobody can say that.
    fn own_figure(&self, shop: &Shop, priced: Option<&PricedPart>) -> Option<OwnFigure> {
        let min_stock = self.own_that_holds()?;
        let own = min_stock.ceil() as i64 - 1;
        let priced = priced.filter(|_| self.part_use.basis != WaitingBasis::NothingKnown);
        Some(OwnFigure {
            min_stock,
            reason: self.part.own_min_reason.clone(),
            date: self.part.own_min_date,
            costs_more: priced.map(|priced| {
                let more = self.cost(priced, own) - self.cost(priced, self.reorder_point);
                money(shop, more)
            }),
        })
    }

    fn last_buy(&self, sourcing: &Sourcing<'_>, year_h: f64) -> Option<LastBuy> {
        let until = self.last_day?;
        let waiting_h = self.lead.mean_days * year_h / YEAR_DAYS;
        let shop = sourcing.shop;
        let aim = if self.part_use.basis == WaitingBasis::NothingKnown {
            LastBuyAim::Share(shop.settings.planning.service_target_share)
        } else {
            self.unit_price().map_or(LastBuyAim::Unknown, |price| {
                let missing = waiting_h.mul_add(self.part_use.waiting_per_h, price);
                LastBuyAim::Prices(LastBuyPrices { price, missing })
            })
        };
        last_buy(
            self.demand,
            shop.as_of.date(),
            until,
            free_and_on_order(sourcing, self.part.id),
            aim,
            shop.settings.currency,
        )
    }

    fn replay(&self, shop: &Shop, past: &[&UsageOf], reorder_point: i64) -> Replay {
        let today = shop.as_of.date();
        let from = shop.settings.records_from.unwrap_or(today);
        let days = (today - from).num_days().max(0);
        // Usages for rebuilds that are planned by date are no part of the demand, and none of the past it is held against.
        let is_dated = self.demand.for_planned_rebuilds > 0;
        let usages: Vec<(i64, f64)> = past
            .iter()
            .map(|usage| &usage.record)
            .filter(|record| record.date >= from && record.date <= today)
            .filter(|record| !(is_dated && record.reason == Some(UsageReason::Rebuild)))
            .filter(|record| {
                let left_out_above = self.demand.left_out_above;
                left_out_above.is_none_or(|most| record.quantity <= most)
            })
            .map(|record| ((record.date - from).num_days(), record.quantity))
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

/// What a level can be computed from; why not, where it cannot.
pub fn candidate<'a>(
    sourcing: &Sourcing<'_>,
    part: &'a CataloguePart,
    demand: &'a Arc<Demand>,
    part_use: &'a PartUse,
) -> Result<Candidate<'a>, WhyNoLevel> {
    let shop = sourcing.shop;
    let unit = stock_unit(sourcing, part);
    if !matches!(demand.rate, Rate::Known { .. }) {
        return Err(match demand.rate {
            _ if shop.usages.is_empty() => WhyNoLevel::NoUsages,
            Rate::NoExposure => WhyNoLevel::NoExposure,
            _ => WhyNoLevel::RateUnknown,
        });
    }
    if demand.per_day().is_none_or(|per_day| per_day <= 0.0) {
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
    let of = (part, demand, part_use);
    by_offer(sourcing, of, unit, (offer, arrival)).ok_or(WhyNoLevel::RateUnknown)
}

/// The part as one of its offers would serve it, before a rule sets its level; `None` where the demand has no law.
fn by_offer<'a>(
    sourcing: &Sourcing<'_>,
    (part, demand, part_use): (&'a CataloguePart, &'a Arc<Demand>, &'a PartUse),
    unit: UnitOfCount,
    (offer, arrival): (&UsableOffer<'_>, Arrival),
) -> Option<Candidate<'a>> {
    let shop = sourcing.shop;
    let today = shop.as_of.date();
    let days_in_service = part_use
        .in_use_until
        .map(|until| (until - today).num_days().max(0) as f64);
    let last_day = part_use.in_use_until.filter(|until| is_soon(*until, today));
    let (order_quantity, why_quantity) =
        order_quantity(sourcing, part, demand, offer, unit, days_in_service);
    let lead = LeadTimeLaw::of(&arrival, shop.as_of);
    let quantity = order_quantity.ceil().max(1.0) as i64;
    let is_one_for_one = quantity == 1;
    let law = lead.demand(demand, 1.0, is_one_for_one)?;
    let few_machines = few_machines(part_use, demand, &law, is_one_for_one);
    let table = few_machines.map_or_else(|| DemandTable::new(&law), |few| few.spares_table());
    let table = Arc::new(table);
    Some(Candidate {
        part,
        shares_with: Vec::new(),
        demand,
        part_use,
        unit,
        offer: offer.offer,
        preferred: None,
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
        is_cut_for_shelf_life: false,
        pack: pack_in(offer, unit),
        last_day,
    })
}

/// Machines counted one by one: few of them, single pieces, ordered one for one.
///
/// The chain of places knows a steady rate only. Where pieces fail by their age the demand of the lead time is that of the
/// pieces as old as they are, and neither steady nor that of every later lead time.
fn few_machines(
    part_use: &PartUse,
    demand: &Demand,
    law: &LeadTimeDemand,
    is_one_for_one: bool,
) -> Option<FewMachines> {
    let places = part_use.places.filter(|_| demand.by_lives.is_none())?;
    let is_single = demand.sizes.iter().all(|(size, _)| *size == 1);
    let is_few = f64::from(part_use.machines) <= FEW_MACHINES;
    (is_one_for_one && is_single && is_few).then(|| FewMachines {
        places,
        mean: law.moments().0,
    })
}

fn free_and_on_order(sourcing: &Sourcing<'_>, part: PartId) -> f64 {
    let free = sourcing
        .stock
        .by_part
        .get(&part)
        .map_or(0.0, PartStock::free);
    let orders = sourcing.orders.get(&part).into_iter().flatten();
    let counted = orders.filter(|order| !order.is_forgotten);
    counted.fold(free, |sum, order| sum + order.quantity)
}
