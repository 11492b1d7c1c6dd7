//! One part for which a level can be computed, and the level with its reasons.

use std::sync::Arc;

use chrono::NaiveDate;

use super::demand_table::DemandTable;
use super::finite_source::{FEW_MACHINES, FewMachines};
use super::last_buy::{LastBuy, LastBuyPrices, is_soon, last_buy};
use super::lead_time_demand::LeadTimeDemand;
use super::lead_time_law::LeadTimeLaw;
use super::never_used::NeverUsed;
use super::order_quantity::{QuantityReason, YEAR_DAYS, order_quantity, unit_price};
use super::part_use::{PartUse, WaitingBasis, money};
use super::reason::{
    Level, LevelBasis, LevelReason, LevelRule, OneLess, OwnFigure, PricedAt, WhyNoLevel,
};
use super::replay::{Replay, replay};
use super::service::Service;
use super::stock_out_price::PricedPart;
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

/// A part for which a level can be computed.
pub struct Candidate<'a> {
    pub part: &'a CataloguePart,
    /// The other numbers kept in the same stock.
    pub shares_with: Vec<PartId>,
    pub demand: &'a Demand,
    pub part_use: &'a PartUse,
    pub unit: UnitOfCount,
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

    pub fn level(self, sourcing: &Sourcing<'_>, year_h: f64, past: &[&UsageOf]) -> Level {
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
            in_full: priced
                .as_ref()
                .map(|priced| priced.reorder_point(1.0) as f64 + 1.0),
            few_machines: self.few_machines,
            raised_for_kit: self.raised_for_kit.clone(),
            kept_for: self
                .shares_with
                .iter()
                .map(|part| shop.catalogue.part(*part).number.clone())
                .collect(),
            never_used: self.never_used(shop, priced.as_ref()),
            own,
            last_buy,
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
        let weights = shop.settings.planning.criticality_weights.iter();
        let highest = weights.map(|(_, weight)| *weight).fold(1.0, f64::max);
        let critical = match &self.part_use.basis {
            WaitingBasis::Machine { name, weight }
                if self.part_use.criticality_weight >= highest =>
            {
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
            pays_from,
            critical,
        })
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

    fn last_buy(&self, sourcing: &Sourcing<'_>, year_h: f64) -> Option<LastBuy> {
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
    demand: &'a Demand,
    part_use: &'a PartUse,
    issues: &mut Vec<PlanIssue>,
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
    let today = shop.as_of.date();
    let days_in_service = part_use
        .in_use_until
        .map(|until| (until - today).num_days().max(0) as f64);
    let last_day = part_use.in_use_until.filter(|until| is_soon(*until, today));
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
    let table = Arc::new(table);
    Ok(Candidate {
        part,
        shares_with: Vec::new(),
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

/// Unit price and mean days of the offer that a part's level rests on; `None` where none has a lead time.
pub fn cheapest_of(
    sourcing: &Sourcing<'_>,
    part: PartId,
    unit: UnitOfCount,
) -> Option<(Option<f64>, f64)> {
    let offers: Vec<&UsableOffer<'_>> = sourcing
        .offers_of(part)
        .iter()
        .filter(|offer| offer.unit.in_units_of(unit).is_ok())
        .collect();
    let (offer, arrival) = cheapest_with_lead_time(sourcing, &offers, unit)?;
    Some((unit_price(sourcing, offer, unit), arrival.mean_days))
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

fn free_and_on_order(sourcing: &Sourcing<'_>, part: PartId) -> f64 {
    let free = sourcing
        .stock
        .by_part
        .get(&part)
        .map_or(0.0, PartStock::free);
    let orders = sourcing.orders.get(&part).into_iter().flatten();
    orders.fold(free, |sum, order| sum + order.quantity)
}
