//! One part for which a level can be computed, and the level with its reasons.

use std::sync::Arc;

use chrono::NaiveDate;

use super::demand_table::DemandTable;
use super::empty_shelf::EmptyShelf;
use super::ending::{Ending, EndingStock, InLeadTime};
use super::finite_source::{FEW_MACHINES, FewMachines};
use super::job_steps::JobSteps;
use super::jobs_short::{JobsShort, takes_one};
use super::last_buy::{LastBuy, LastBuyAim, LastBuyPrices, OrderToday, is_soon, last_buy};
use super::lead_time_demand::LeadTimeDemand;
use super::lead_time_law::LeadTimeLaw;
use super::never_used::NeverUsed;
use super::offer_behind::{Preferred, cheapest_with_lead_time, pack_in};
use super::order_quantity::{QuantityReason, order_quantity, unit_price};
use super::part_use::{PartUse, money};
use super::reason::{
    FirstThatPay, Level, LevelBasis, LevelReason, LevelRule, OneLess, PricedAt, ServiceGoal,
    StockEnds, TargetWhereStockEnds, WhyNoLevel,
};
use super::replay::{Replay, ReplayedLevel, netted};
use super::service::{Service, reorder_point_for_share};
use super::shared_freight::OrderFreight;
use super::stock_out_price::{BudgetRange, PricedPart};
use super::stock_unit::stock_unit;
use super::waiting_basis::WaitingBasis;
use crate::catalogue::{CataloguePart, PartId, Shop, UsageOf};
use crate::plan::demand::{Demand, Rate};
use crate::plan::lead_time::Arrival;
use crate::plan::offer::{DeliveryKind, UsableOffer};
use crate::plan::sourcing::Sourcing;
use crate::plan::stock::PartStock;
use crate::plan::year_length::YEAR_DAYS;
use crate::record::UsageReason;
use crate::units::UnitOfCount;

/// A part for which a level can be computed.
pub struct Candidate<'a> {
    /// The part whose level it is.
    pub part: &'a CataloguePart,
    /// The other numbers kept in the same stock.
    pub shares_with: Vec<PartId>,
    /// Numbers that may be bought for all of them.
    pub bought: Vec<PartId>,
    /// Usages of all numbers of the stock.
    pub demand: &'a Arc<Demand>,
    /// The machines that wait for it.
    pub part_use: &'a PartUse,
    /// What is counted.
    pub unit: UnitOfCount,
    /// Position of the offer that all this rests on in [`Shop::offers`].
    pub offer: usize,
    /// The number that it sells.
    pub buys: PartId,
    /// Why that is not the one with the lowest price of a unit; `None` where it is.
    pub preferred: Option<Preferred>,
    /// How long an order takes to come.
    pub lead: LeadTimeLaw,
    /// Whole units of an order, at least 1, as the methods reckon.
    pub quantity: i64,
    /// What is ordered at a time, in `unit`.
    pub order_quantity: f64,
    /// Why so many are ordered.
    pub why_quantity: QuantityReason,
    /// What is used while an order comes.
    pub law: LeadTimeDemand,
    /// Where few machines use it, of which one that waits asks for no other.
    pub few_machines: Option<FewMachines>,
    /// Probabilities of that in units, looked up again and again.
    pub table: Arc<DemandTable>,
    /// Jobs that wait, where usages take several units at a time.
    pub jobs: Option<Arc<JobSteps>>,
    /// The rule that gives the reorder point.
    pub rule: LevelRule,
    /// At so many units or fewer, free and on order, it is ordered; -1 where none is kept.
    pub reorder_point: i64,
    /// The kit that asks for more than the rule, where one does.
    pub raised_for_kit: Option<String>,
    /// True where more would pay but for their shelf life.
    pub is_cut_for_shelf_life: bool,
    /// Of a part that was never used and whose own minimum has no reason: true where its insurance pays for the first one,
    /// false where nothing is ordered for it; `None` elsewhere.
    pub own_pays_for_first: Option<bool>,
    /// Sold in multiples of this, in `unit`.
    pub pack: f64,
    /// Day on which the last of its machines leaves service, where that is soon.
    pub last_day: Option<NaiveDate>,
    /// What the coming year finds where none is kept; `None` where something is there or on order.
    pub from_empty: Option<EmptyShelf>,
    /// Stock that ends on the shelf; `None` where as good as none does.
    pub ending: Option<Arc<Ending>>,
    /// Reorder point of the downtime in full where the shelf life sets with it how many are ordered at a time; `None` elsewhere.
    pub in_full: Option<i64>,
}

impl Candidate<'_> {
    /// The part and the other numbers kept in the same stock.
    pub fn stocked(&self) -> impl Iterator<Item = PartId> + '_ {
        std::iter::once(self.part.id).chain(self.shares_with.iter().copied())
    }

    /// Looks whether anything of the part and the numbers of its stock is there or on order.
    pub fn look_at_shelf(&mut self, sourcing: &Sourcing<'_>) {
        let each = self.stocked().map(|part| free_and_on_order(sourcing, part));
        let is_empty = each.sum::<f64>().abs() < 1e-9;
        self.from_empty = is_empty.then(|| self.year_from_empty()).flatten();
    }

    pub fn year_from_empty(&self) -> Option<EmptyShelf> {
        EmptyShelf::new(self.demand, self.lead.mean_days, self.quantity)
    }

    /// Share of usages of the coming year that find at least so many where none is kept; `None` where something is there or
    /// on order.
    pub fn share_if_none(&self, units: i64) -> Option<f64> {
        let empty = self.from_empty.as_ref()?;
        Some(empty.on_hand_at_least(&self.table, units))
    }

    pub fn unit_price(&self) -> Option<f64> {
        let price = self.why_quantity.unit_price?.amount;
        (price > 0.0).then_some(price)
    }

    /// The part as the price of a stock-out sees it; `None` without price or holding cost.
    pub fn priced_part(&self, shop: &Shop, year_h: f64) -> Option<PricedPart> {
        let price = self.unit_price()?;
        let holding = shop.settings.planning.holding_cost_share * price;
        let per_day = self.demand.per_day()?;
        (holding > 0.0).then(|| PricedPart {
            table: Arc::clone(&self.table),
            jobs: self.jobs.clone(),
            sizes: self.sizes().to_vec(),
            quantity: self.quantity,
            price,
            holding,
            waiting_per_h: self.part_use.waiting_per_h,
            year_h,
            weighted_yearly: per_day * YEAR_DAYS * self.part_use.criticality_weight,
            fill_if_none: self
                .from_empty
                .as_ref()
                .map(|empty| empty.unit_fill(&self.table)),
            ending: self.ending.clone(),
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
        match self.own_point() {
            None => range,
            Some(own) if self.is_fixed() => BudgetRange::just(own),
            Some(own) => range.from(own),
        }
    }

    /// The same bought by another offer; `None` where nothing can be worked out of it.
    pub fn bought_by(
        &self,
        sourcing: &Sourcing<'_>,
        offer: &UsableOffer<'_>,
        arrival: Arrival,
        freight: Option<OrderFreight>,
    ) -> Option<Self> {
        let of = (self.part, self.demand, self.part_use);
        let mut other = by_offer(sourcing, of, self.unit, (offer, arrival), freight)?;
        other.shares_with.clone_from(&self.shares_with);
        other.bought.clone_from(&self.bought);
        other.look_at_shelf(sourcing);
        other.own_pays_for_first = self.own_pays_for_first;
        other.rule = self.rule.clone();
        Some(other)
    }

    /// What would be ordered at a time from its offer with this freight.
    pub fn quantity_with(
        &self,
        sourcing: &Sourcing<'_>,
        offer: &UsableOffer<'_>,
        freight: OrderFreight,
    ) -> f64 {
        let shop = sourcing.shop;
        let bought = shop.catalogue.part(offer.part);
        let limits = (days_in_service(shop, self.part_use), Some(freight));
        order_quantity(sourcing, bought, self.demand, offer, self.unit, limits).0
    }

    /// Goods, orders, holding, what expires and waiting a year, with the reorder point that the rule gives; `None` without
    /// a price.
    pub fn yearly_cost(&self, shop: &Shop, year_h: f64) -> Option<f64> {
        let priced = self.reordered(shop, year_h)?;
        let yearly = self.demand.per_day()? * YEAR_DAYS;
        let each_order = shop.settings.planning.order_cost;
        let reorder_point = self.by_rule(&priced);
        // What ends is ordered anew; its price is in the cost of the level.
        let ordered = yearly + self.expired_a_year(reorder_point);
        let goods_and_orders = yearly * priced.price + each_order * ordered / self.order_quantity;
        Some(goods_and_orders + self.cost(&priced, reorder_point))
    }

    /// The reorder point of the rule, or the planner's where that one holds.
    fn by_rule(&self, priced: &PricedPart) -> i64 {
        let by_rule = match self.rule {
            LevelRule::ServiceTarget { share, .. } => self.point_for_share(share),
            LevelRule::StockOutPrice { .. } | LevelRule::DowntimeCost => {
                priced.reorder_point(self.factor())
            }
        };
        self.with_own(by_rule)
    }

    /// Reorder point of a service target.
    pub fn point_for_share(&self, share: f64) -> i64 {
        reorder_point_for_share(&self.table, self.quantity, self.sizes(), share)
    }

    /// Share of the downtime cost that the rule counts.
    pub const fn factor(&self) -> f64 {
        match self.rule {
            LevelRule::StockOutPrice { factor, .. } => factor,
            LevelRule::DowntimeCost | LevelRule::ServiceTarget { .. } => 1.0,
        }
    }

    /// Reorder point at the price that a budget amounts to; `None` under another rule.
    fn at_price_of_budget(&self, priced: Option<&PricedPart>) -> Option<f64> {
        let goal = match self.rule {
            LevelRule::StockOutPrice { goal, .. } => goal,
            LevelRule::DowntimeCost | LevelRule::ServiceTarget { .. } => return None,
        };
        matches!(goal, ServiceGoal::Budget(_))
            .then(|| Some(priced?.reorder_point(self.factor()) as f64))?
    }

    /// Holding, what expires and waiting a year by the rule.
    pub fn cost(&self, priced: &PricedPart, reorder_point: i64) -> f64 {
        self.cost_at(priced, reorder_point, self.factor())
    }

    /// The same with a share of the downtime cost.
    pub(super) fn cost_at(&self, priced: &PricedPart, reorder_point: i64, factor: f64) -> f64 {
        let on_hand = self.service(reorder_point).on_hand;
        let waiting = priced.waiting(reorder_point) * priced.year_h * priced.waiting_per_h;
        let expired = priced.price * self.expired_a_year(reorder_point);
        priced.holding * on_hand + expired + factor * waiting
    }

    pub fn service(&self, reorder_point: i64) -> Service {
        let long_run = self.long_run_service(reorder_point);
        match &self.from_empty {
            Some(empty) if reorder_point < 0 => long_run.from_empty(empty, &self.table),
            _ => long_run,
        }
    }

    fn long_run_service(&self, reorder_point: i64) -> Service {
        let service = Service::new(&self.table, reorder_point, self.quantity, self.sizes());
        let service = match &self.jobs {
            Some(jobs) => service.with_jobs(jobs, reorder_point),
            None => service,
        };
        match &self.ending {
            Some(ending) => {
                let of = ending.at(reorder_point, self.in_lead_time());
                service.where_stock_ends(&of, self.table.at_most(reorder_point.min(0)))
            }
            None => service,
        }
    }

    /// What stock that ends on the shelf does to the shares met; `None` where as good as none does.
    fn stock_ends(&self, reorder_point: i64) -> Option<StockEnds> {
        let ending = self.ending.as_ref()?;
        let of_rule = ending.at(self.reorder_point, self.in_lead_time());
        let of_target = match self.rule {
            LevelRule::ServiceTarget { share, .. } => Some(TargetWhereStockEnds {
                met_share: 1.0 - of_rule.units_without,
                met_from: ending
                    .first_that_meets(self.reorder_point, share)
                    .map(|point| point as f64 + 1.0),
            }),
            _ => None,
        };
        Some(StockEnds {
            is_known: ending.is_known(reorder_point),
            of_target: of_target.filter(|_| ending.is_known(self.reorder_point)),
        })
    }

    fn in_lead_time(&self) -> InLeadTime<'_> {
        InLeadTime {
            table: &self.table,
            jobs: self.jobs.as_deref(),
        }
    }

    /// Units a year that would end on the shelf with a reorder point; 0 where as good as none does.
    pub fn expired_a_year(&self, reorder_point: i64) -> f64 {
        let ending = self.ending.as_ref();
        ending.map_or(0.0, |of| of.at(reorder_point, self.in_lead_time()).expired)
    }

    /// Looks whether stock ends on the shelf before it is used.
    fn look_at_shelf_life(&mut self) {
        let Some(life) = &self.why_quantity.shelf_life else {
            return;
        };
        let demand = self.demand;
        let per_day = demand.per_day().unwrap_or(0.0);
        let stock = EndingStock {
            quantity: self.quantity,
            sizes: self.sizes().to_vec(),
            yearly: per_day * YEAR_DAYS,
            life_years: life.months / 12.0,
        };
        let law_over = |days: f64| demand.distribution_at_mean_rate(days);
        let own = self.part.own_min_stock.unwrap_or(0.0).ceil() as i64;
        let days = (self.lead.mean_days, YEAR_DAYS * life.months / 12.0);
        let ending = Ending::new(stock, self.in_lead_time(), own, days, law_over);
        self.ending = ending.map(Arc::new);
    }

    /// What is ordered at a time is another number now.
    pub fn order_by(&mut self, order_quantity: f64) {
        self.order_quantity = order_quantity;
        self.quantity = whole_quantity(order_quantity);
        self.from_empty = self
            .from_empty
            .as_ref()
            .and_then(|_| self.year_from_empty());
        self.jobs = match self.few_machines {
            Some(_) => None,
            None => job_steps(self.demand, &self.law, &self.table, self.quantity),
        };
        self.look_at_shelf_life();
    }

    /// Units that usages take, with their shares; empty where they are not whole.
    fn sizes(&self) -> &[(u32, f64)] {
        self.demand.quantities().unwrap_or(&self.demand.sizes)
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
            buys: self.buys,
            preferred: self.preferred.clone().map(Box::new),
            lead: self.lead,
            demand: Arc::clone(self.demand),
            lead_time_demand: self.law.clone(),
            quantity: self.quantity,
            computed_reorder_point: self.reorder_point as f64,
            rule: self.rule.clone(),
            at_price: self.at_price_of_budget(priced.as_ref()),
            priced: priced.as_ref().map(|priced| PricedAt {
                unit_price: money(shop, priced.price),
                holding: money(shop, priced.holding),
                waiting_per_h: money(shop, priced.waiting_per_h),
                cost_per_h: money(shop, self.part_use.cost_per_h),
                basis: self.part_use.basis.clone(),
                factor: self.factor(),
                year_h,
            }),
            service: self.service(reorder_point),
            long_run_fill_share: (self.from_empty.is_some() && !is_kept)
                .then(|| self.long_run_service(reorder_point).unit_fill_share),
            service_one_less: is_kept.then(|| self.service(reorder_point - 1)),
            one_less,
            first_that_pay: priced
                .as_ref()
                .filter(|_| !is_kept)
                .map(|priced| self.first_told(shop, priced))
                .map(Box::new),
            in_full: priced
                .as_ref()
                .filter(|_| self.part_use.basis != WaitingBasis::NothingKnown)
                .map(|priced| self.in_full.unwrap_or_else(|| priced.reorder_point(1.0)))
                .map(|reorder_point| reorder_point as f64 + 1.0),
            expired_a_year: Some(self.expired_a_year(reorder_point)).filter(|units| *units > 0.0),
            is_cut_for_shelf_life: self.is_cut_for_shelf_life,
            ending: self.stock_ends(reorder_point),
            few_machines: self.few_machines,
            places: self.part_use.places,
            raised_for_kit: self.raised_for_kit.clone(),
            kept_for: self
                .shares_with
                .iter()
                .map(|part| shop.catalogue.part(*part).number.clone())
                .collect(),
            never_used: self.never_used(shop, priced.as_ref()).map(Box::new),
            is_own_the_same: self.is_own_the_same(),
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
    pub(super) fn never_used(&self, shop: &Shop, priced: Option<&PricedPart>) -> Option<NeverUsed> {
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
            WaitingBasis::Machine { name, .. } if self.part_use.is_most_critical => {
                Some((name.clone(), money(shop, self.part_use.cost_per_h)))
            }
            _ => None,
        };
        let pays_from = priced.and_then(|priced| {
            if let Some(jobs) = priced.jobs.as_ref().filter(|_| priced.ending.is_none()) {
                let (ratio, _) = jobs.ratios_of(-1);
                return Some(money(shop, priced.holding * ratio? / priced.year_h));
            }
            // The share of the time in which a unit more would be in use: none kept, the first one to come up to.
            let over = priced.waiting(-1) - priced.waiting(0);
            let per_year = priced.held_more(-1, 1) / over;
            (over > 1e-12).then(|| money(shop, per_year / priced.year_h))
        });
        Some(NeverUsed {
            exposure_days: demand.exposure_days,
            minimum: None,
            pays_from,
            first: self.first_that_pay() as f64,
            critical,
        })
    }

    /// The same with what they save and cost, what expires of them included.
    fn first_told(&self, shop: &Shop, priced: &PricedPart) -> FirstThatPay {
        let units = self.first_that_pay();
        let added = |of: &dyn Fn(i64) -> f64| of(units - 1) - of(-1);
        let held = added(&|point| self.long_run_service(point).on_hand);
        let expired = added(&|point| self.expired_a_year(point));
        FirstThatPay {
            units: units as f64,
            saves_h: (priced.waiting(-1) - priced.waiting(units - 1)) * priced.year_h,
            holding: money(shop, priced.holding.mul_add(held, priced.price * expired)),
            expired,
        }
    }

    /// Units of which fewer save too little: 1, more where usages take several at a time.
    pub(super) fn first_that_pay(&self) -> i64 {
        let step = self.jobs.as_ref().and_then(|jobs| jobs.step_above(-1));
        step.map_or(1, |(units, _)| units)
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

    fn last_buy(&self, sourcing: &Sourcing<'_>, year_h: f64) -> Option<LastBuy> {
        let until = self.last_day?;
        let shop = sourcing.shop;
        let aim = if self.part_use.basis == WaitingBasis::NothingKnown {
            let share = shop.settings.planning.service_target_share;
            let arrivals = self.arrivals_of_today(sourcing, until);
            let soonest = arrivals.map(|(_, arrival)| arrival.mean_days);
            LastBuyAim::Share(share, soonest.min_by(f64::total_cmp))
        } else {
            self.unit_price().map_or(LastBuyAim::Unknown, |price| {
                let stoppage = self.stoppage(sourcing, price, year_h);
                let orders = self.arrivals_of_today(sourcing, until);
                let orders = orders.filter_map(|(offer, arrival)| {
                    Some(OrderToday {
                        price: unit_price(sourcing, offer, self.unit)?,
                        days: arrival.mean_days,
                    })
                });
                LastBuyAim::Prices(stoppage, orders.collect())
            })
        };
        last_buy(
            self.demand,
            shop.as_of.date(),
            until,
            free_and_on_order(sourcing, self.part.id),
            aim,
        )
    }

    /// Orders of today that are likely there by a day: of every offer by its ordinary delivery.
    fn arrivals_of_today<'s, 'o>(
        &'s self,
        sourcing: &'s Sourcing<'o>,
        until: NaiveDate,
    ) -> impl Iterator<Item = (&'s UsableOffer<'o>, Arrival)> {
        let numbers = self.bought.iter();
        let offers = numbers.flat_map(|part| sourcing.offers_of(*part));
        let usable = offers.filter(|offer| offer.unit.in_units_of(self.unit).is_ok());
        let ways = usable.flat_map(|offer| offer.deliveries.iter().map(move |way| (offer, way)));
        let ordinary = ways.filter(|(_, way)| way.kind == DeliveryKind::Normal);
        let dated = ordinary.filter_map(|(offer, way)| Some((offer, way.arrival?)));
        dated.filter(move |(_, arrival)| arrival.likely.date() <= until)
    }

    /// What a job counts and costs that waits until a part comes by the cheapest way, its surcharge included, and its hours:
    /// a part that is fetched from a counter within hours is not waited for as long as an order takes.
    fn stoppage(&self, sourcing: &Sourcing<'_>, price: f64, year_h: f64) -> LastBuyPrices {
        let of = |mean_days: f64, surcharge: f64| {
            let waiting_h = mean_days * year_h / YEAR_DAYS;
            LastBuyPrices {
                price,
                stoppage: waiting_h.mul_add(self.part_use.waiting_per_h, surcharge),
                stoppage_cost: waiting_h.mul_add(self.part_use.cost_per_h, surcharge),
                surcharge,
                waiting_h,
                waiting_days: mean_days,
            }
        };
        let offers = sourcing.offers_of(self.buys).iter();
        let ways = offers.flat_map(|offer| &offer.deliveries);
        let ways =
            ways.filter_map(|way| Some(of(way.arrival?.mean_days, way.surcharge.to_units())));
        ways.fold(of(self.lead.mean_days, 0.0), |least, way| {
            if way.stoppage < least.stoppage {
                way
            } else {
                least
            }
        })
    }

    fn replay(&self, shop: &Shop, past: &[&UsageOf], reorder_point: i64) -> Replay {
        let today = shop.as_of.date();
        let from = shop.settings.records_from.unwrap_or(today);
        let days = (today - from).num_days().max(0);
        // Usages for rebuilds that are planned by date are no part of the demand, and none of the past it is held against.
        let is_dated = self.demand.for_planned_rebuilds > 0;
        let usages = past
            .iter()
            .map(|usage| &usage.record)
            .filter(|record| record.date >= from && record.date <= today)
            .filter(|record| !(is_dated && record.reason == Some(UsageReason::Rebuild)))
            .filter(|record| {
                let left_out_above = self.demand.left_out_above;
                left_out_above.is_none_or(|most| record.quantity <= most)
            })
            .map(|record| ((record.date - from).num_days(), record.quantity));
        let life = self.why_quantity.shelf_life.as_ref();
        let level = ReplayedLevel {
            reorder_point: reorder_point as f64,
            quantity: self.order_quantity,
            lead_days: self.lead.mean_days,
            life_days: life.map(|life| YEAR_DAYS * life.months / 12.0),
        };
        level.over(&netted(usages), days)
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
            Rate::NoUsages | Rate::MachinesRetired => WhyNoLevel::NoneCounts,
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
    // What freight counts is known when all parts have an offer.
    by_offer(sourcing, of, unit, (offer, arrival), None).ok_or(WhyNoLevel::RateUnknown)
}

/// The part as one of its offers would serve it, before a rule sets its level; `None` where the demand has no law.
fn by_offer<'a>(
    sourcing: &Sourcing<'_>,
    (part, demand, part_use): (&'a CataloguePart, &'a Arc<Demand>, &'a PartUse),
    unit: UnitOfCount,
    (offer, arrival): (&UsableOffer<'_>, Arrival),
    freight: Option<OrderFreight>,
) -> Option<Candidate<'a>> {
    let shop = sourcing.shop;
    let today = shop.as_of.date();
    let limits = (days_in_service(shop, part_use), freight);
    let last_day = part_use.in_use_until.filter(|until| is_soon(*until, today));
    let bought = shop.catalogue.part(offer.part);
    let (order_quantity, why_quantity) =
        order_quantity(sourcing, bought, demand, offer, unit, limits);
    let lead = LeadTimeLaw::of(&arrival, shop.as_of);
    let quantity = whole_quantity(order_quantity);
    let is_one_for_one = quantity == 1;
    let law = lead.demand(demand, 1.0, is_one_for_one)?;
    let few_machines = few_machines(part_use, demand, &law, is_one_for_one);
    let table = few_machines.map_or_else(|| DemandTable::new(&law), |few| few.spares_table());
    let table = Arc::new(table);
    // Machines counted one by one take single pieces, whatever the group takes: a piece that is missing is a job that waits.
    let jobs = match few_machines {
        Some(_) => None,
        None => job_steps(demand, &law, &table, quantity),
    };
    let mut found = Candidate {
        part,
        shares_with: Vec::new(),
        bought: vec![part.id],
        demand,
        part_use,
        unit,
        offer: offer.offer,
        buys: offer.part,
        preferred: None,
        lead,
        quantity,
        order_quantity,
        why_quantity,
        law,
        few_machines,
        table,
        jobs,
        rule: LevelRule::DowntimeCost,
        reorder_point: -1,
        raised_for_kit: None,
        own_pays_for_first: None,
        is_cut_for_shelf_life: false,
        pack: pack_in(offer, unit),
        last_day,
        from_empty: None,
        ending: None,
        in_full: None,
    };
    found.look_at_shelf_life();
    Some(found)
}

/// Days that the machines of a part stay in service; `None` where nobody says an end.
fn days_in_service(shop: &Shop, part_use: &PartUse) -> Option<f64> {
    let today = shop.as_of.date();
    let until = part_use.in_use_until?;
    Some((until - today).num_days().max(0) as f64)
}

fn whole_quantity(order_quantity: f64) -> i64 {
    order_quantity.ceil().max(1.0) as i64
}

/// Jobs that wait of a demand whose usages take several units at a time; `None` where each takes one.
pub(super) fn job_steps(
    demand: &Demand,
    law: &LeadTimeDemand,
    table: &DemandTable,
    quantity: i64,
) -> Option<Arc<JobSteps>> {
    (!takes_one(demand)).then(|| {
        let short = JobsShort::of(demand, law, table);
        Arc::new(JobSteps::new(short, table, quantity))
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
    let taken = demand.quantities().unwrap_or(&demand.sizes);
    let is_single = demand.in_parts.is_none() && taken.iter().all(|(size, _)| *size == 1);
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
