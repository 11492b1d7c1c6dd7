//! The shop as a simulation sees it: parts with usages and receipts, machines, rebuilds with a date.

use std::collections::BTreeMap;

use chrono::{NaiveDate, NaiveDateTime, NaiveTime};

use super::machine_weights::{machine_weights, weights_together};
use super::policy::OrderPolicy;
use super::production_clock::ProductionClock;
use super::receipts::{Amounts, Receipts};
use super::usage::Usages;
use super::way::Ways;
use crate::catalogue::{NameKey, PartId, ShelfLife, Shop};
use crate::digest::short_sum;
use crate::plan::calendar::Calendars;
use crate::plan::choice::Timing;
use crate::plan::demand::Rate;
use crate::plan::lead_time::Arrival;
use crate::plan::level::{Level, LevelBasis};
use crate::plan::open_order::OpenOrder;
use crate::plan::order_line::ReorderReason;
use crate::plan::shop_plan::Plan;
use crate::plan::stock::{FreeLot, PartStock};
use crate::plan::year_length::YEAR_H;

/// Seed of the reports; any other gives another sample of the same year.
pub const SEED: u64 = 20_260_309;

/// Equally likely hours that stand for the arrival of an open order.
const OPEN_ORDER_HOURS: u32 = 64;

/// One part.
#[derive(Debug, Clone)]
pub struct YearPart {
    /// The part.
    pub part: PartId,
    /// What its random numbers follow from: its own number, so that the order of rows decides nothing.
    pub luck: u64,
    /// Usages; `None` where only rebuilds with a date use it.
    pub usages: Option<Usages>,
    /// Free on the shelf at the start.
    pub opening: f64,
    /// Lots of the opening stock that end: hour, and pieces of it and of those before it.
    pub lots: Vec<(f64, f64)>,
    /// Hours that what comes may lie on the shelf; `None` without an end.
    pub life_h: Option<f64>,
    /// Orders on their way: equally likely hours of arrival, and quantity.
    pub placed: Vec<(Vec<f64>, f64)>,
    /// Of those, by their place in the list, the ones that come too late for the level and are bridged: the hour until which a
    /// new order would be here before it.
    pub not_counted: Vec<(usize, f64)>,
    /// How long orders take.
    pub receipts: Receipts,
    /// The quickest way for what a machine waits for: hurried, fetched, by courier, brought; `None` where there is none.
    pub rush: Option<Rush>,
    /// Price of a unit in the shop's currency.
    pub unit_price: Option<f64>,
}

/// A quicker way than the normal one.
#[derive(Debug, Clone)]
pub struct Rush {
    /// How long an order takes by it.
    pub receipts: Receipts,
    /// Surcharge of an order, in the shop's currency.
    pub surcharge: f64,
}

/// Machines of one name.
#[derive(Debug, Clone, PartialEq)]
pub struct YearMachine {
    /// Name.
    pub name: String,
    /// How many; one where the table does not say.
    pub installed: u32,
    /// An hour down, in the shop's currency.
    pub down_cost_per_h: Option<f64>,
    /// Hour at which they leave service; without end where they stay.
    pub until_h: f64,
    /// True where a table ties a part with a level, or a rebuild with a date, to it; else nothing can be said of its hours.
    pub is_used: bool,
}

/// One line of a rebuild with a date.
#[derive(Debug, Clone, PartialEq)]
pub struct YearNeed {
    /// Hour at which it is needed.
    pub at_h: f64,
    /// The single machine that stands.
    pub place: Option<usize>,
    /// Parts accepted for it with the quantity of each, the one asked for first.
    pub choices: Vec<(usize, f64)>,
    /// What is waited for where none of them is on the shelf.
    pub else_wait_for: (usize, f64),
    /// What is made, repaired or fetched for it and may be late: equally likely hours at which it is there, and how much.
    pub made: Vec<(Vec<f64>, f64)>,
}

/// Everything that one year needs.
#[derive(Debug)]
pub struct ShopYear {
    /// Parts.
    pub parts: Vec<YearPart>,
    /// Machines, by key of their name.
    pub machines: Vec<YearMachine>,
    /// Lines of rebuilds with a date.
    pub needs: Vec<YearNeed>,
    /// Orders for rebuilds: hour, part and quantity.
    pub orders: Vec<(f64, usize, f64)>,
    /// The planned policy of each part.
    pub planned: Vec<OrderPolicy>,
    /// The policy of each part as the shop does today.
    pub today: Vec<OrderPolicy>,
    /// Own parts with a rate, or with a dated need, that no lead time is known of: not simulated.
    pub left_out: Vec<PartId>,
    /// Parts that had an offer before a change and have none after: they use up what there is.
    pub lost: Vec<PartId>,
    /// Parts that had a rate before a change and have none after: nobody knows how often they are used.
    pub untold: Vec<PartId>,
    /// Names of the machines that use these: nobody knows what they wait for.
    pub untold_machines: Vec<String>,
    /// Every number whose usages are simulated, with the position of its stock in `parts`.
    position_of: BTreeMap<PartId, usize>,
    /// Production hours.
    pub clock: ProductionClock,
    /// Calendars.
    pub calendars: Calendars,
    /// The moment of planning: hour 0.
    pub as_of: NaiveDateTime,
    /// Hour from which things are counted.
    pub measured_from_h: f64,
    /// Hour of the end.
    pub until_h: f64,
    /// First single machine of each name, and their number at the end.
    first_place: Vec<usize>,
}

impl ShopYear {
    /// From a shop and its plan.
    pub fn new(shop: &Shop, plan: &Plan) -> Self {
        let mut year = Self::of_levels(shop, plan);
        year.add_rebuilds(shop, plan, None);
        year
    }

    /// A changed shop with every part that was simulated before the change; one that nobody sells any more is used as
    /// before, from what is there and on its way. One whose rate nobody knows after the change is told, and not used up as if
    /// nobody needed it.
    pub fn after_change(shop: &Shop, plan: &Plan, (before, of): (&Plan, &Self)) -> Self {
        let mut year = Self::of_levels(shop, plan);
        let weights = machine_weights(shop);
        let placed = placed(plan);
        for (part, level) in &before.levels.by_part {
            let now = plan.levels.by_part.get(part);
            let is_retired = now.is_some_and(|now| matches!(now.why, LevelBasis::Retired { .. }));
            let was_simulated = of.position_of.contains_key(part);
            if is_retired || !was_simulated {
                continue;
            }
            if loses_rate(before, plan, *part) {
                let machines = year.shares(weights.get(part)).into_iter();
                let names = machines.map(|(_, machine)| year.machines[machine].name.clone());
                year.untold_machines.extend(names.collect::<Vec<_>>());
                year.untold.push(*part);
                if !year.position_of.contains_key(part) {
                    year.left_out.push(*part);
                }
                continue;
            }
            if year.position_of.contains_key(part) {
                continue;
            }
            // Alone, and with its own demand, whatever stock it shared.
            let alone = Level {
                shares_with: Vec::new(),
                why: LevelBasis::KeptUnder {
                    holder: *part,
                    number: String::new(),
                },
                ..level.clone()
            };
            year.position_of.insert(*part, year.parts.len());
            let ways = (Receipts::Never, None);
            year.add(shop, plan, &alone, ways, &placed, weights.get(part));
            year.lost.push(*part);
        }
        let lost = year.lost.clone();
        year.left_out.retain(|part| !lost.contains(part));
        year.add_rebuilds(shop, plan, Some(before));
        year
    }

    /// Parts with a level and a way to come.
    fn of_levels(shop: &Shop, plan: &Plan) -> Self {
        let calendars = Calendars::new(&shop.settings);
        let clock = ProductionClock::new(calendars.production(), shop.as_of, YEAR_H as usize + 1);
        let mut year = Self::bare(machines(shop), clock, calendars, shop.as_of);
        let ways = Ways::new(shop, plan, &year.calendars);
        let weights = machine_weights(shop);
        let mut amounts = Amounts::default();
        let placed = placed(plan);
        for level in plan.levels.by_part.values() {
            // What the other number of one stock asks for is asked of that stock.
            if matches!(level.why, LevelBasis::KeptUnder { .. }) {
                continue;
            }
            let Some(normal) = ways.of_level(level) else {
                year.left_out.push(level.part);
                continue;
            };
            let receipts = amounts.receipts(&year.calendars, normal.course, normal.placing);
            let rush = ways.quicker(level.buys(), normal).map(|way| Rush {
                receipts: amounts.receipts(&year.calendars, way.course, way.placing),
                surcharge: way.surcharge,
            });
            for part in level.stocked() {
                year.position_of.insert(part, year.parts.len());
            }
            let weights = weights_together(level, &weights);
            let ways = (receipts, rush);
            year.add(shop, plan, level, ways, &placed, weights.as_deref());
        }
        let without = plan.levels.without.iter().map(|(part, _)| *part);
        year.left_out
            .extend(without.filter(|part| plan.demands.get(part).is_some_and(|of| of.events > 0)));
        year
    }

    /// A year without parts; the clock must reach to its end.
    pub(super) fn bare(
        machines: Vec<YearMachine>,
        clock: ProductionClock,
        calendars: Calendars,
        as_of: NaiveDateTime,
    ) -> Self {
        let mut first_place = vec![0];
        for machine in &machines {
            first_place.push(first_place[first_place.len() - 1] + machine.installed as usize);
        }
        Self {
            parts: Vec::new(),
            machines,
            needs: Vec::new(),
            orders: Vec::new(),
            planned: Vec::new(),
            today: Vec::new(),
            left_out: Vec::new(),
            lost: Vec::new(),
            untold: Vec::new(),
            untold_machines: Vec::new(),
            position_of: BTreeMap::new(),
            clock,
            calendars,
            as_of,
            measured_from_h: 0.0,
            until_h: YEAR_H,
            first_place,
        }
    }

    /// Number of single machines.
    pub fn places(&self) -> usize {
        self.first_place[self.machines.len()]
    }

    /// A single machine of a name; `share` from 0 up to 1 says which.
    pub fn place_of(&self, machine: usize, share: f64) -> usize {
        let installed = f64::from(self.machines[machine].installed);
        self.first_place[machine] + (share * installed) as usize
    }

    /// Name that a single machine belongs to.
    pub fn machine_of(&self, place: usize) -> usize {
        self.first_place.partition_point(|first| *first <= place) - 1
    }

    fn hour(&self, moment: NaiveDateTime) -> f64 {
        hours_after(self.as_of, moment)
    }

    fn add(
        &mut self,
        shop: &Shop,
        plan: &Plan,
        level: &Level,
        (receipts, rush): (Receipts, Option<Rush>),
        placed: &BTreeMap<PartId, Vec<&OpenOrder>>,
        weights: Option<&BTreeMap<String, f64>>,
    ) {
        let part = level.part;
        let stocks: Vec<&PartStock> = level
            .stocked()
            .filter_map(|part| plan.stock.by_part.get(&part))
            .collect();
        let opening = stocks.iter().map(|stock| stock.free()).sum::<f64>() + 0.0;
        let open = level.stocked().filter_map(|part| placed.get(&part));
        let open: Vec<&OpenOrder> = open.flatten().copied().collect();
        let placed = open.iter();
        let placed: Vec<(Vec<f64>, f64)> = placed
            .map(|order| (self.arrivals(order.arrival.as_ref()), order.quantity))
            .collect();
        let last_days: Option<Vec<&NaiveDate>> = level
            .stocked()
            .map(|part| plan.levels.in_use_until.get(&part))
            .collect();
        let last_day = last_days.and_then(|days| days.into_iter().max());
        let until_h = last_day.map_or(f64::INFINITY, |until| self.hour(end_of(*until)));
        let machines = self.shares(weights);
        for (_, machine) in &machines {
            self.machines[*machine].is_used = true;
        }
        let demand = match &level.why {
            LevelBasis::Computed(reason) => Some(&reason.demand),
            _ => plan.demands.get(&part),
        };
        let is_used = !matches!(level.why, LevelBasis::Retired { .. });
        let usages = demand
            .filter(|_| is_used)
            .and_then(|demand| Usages::of(demand, until_h, machines));
        let price = level.why_quantity.as_ref().and_then(|why| why.unit_price);
        let on_order: f64 = placed.iter().map(|(_, quantity)| quantity).sum();
        let of_part = shop.catalogue.part(part);
        let own = of_part.own_min_stock;
        let of_level = level.why_quantity.as_ref();
        let of_level = of_level.map(|why| why.shelf_life.clone());
        let life = of_level.unwrap_or_else(|| ShelfLife::of(of_part, &shop.settings.planning));
        let bridge = plan.reorder.bridges.get(&part).copied();
        let not_counted = match bridge {
            Some(_) => self.not_counted(plan, level, &open),
            None => Vec::new(),
        };
        self.planned
            .push(OrderPolicy::of_level(level, bridge.unwrap_or(0.0)));
        self.today
            .push(OrderPolicy::of_today(level, own, opening + on_order));
        self.parts.push(YearPart {
            part,
            luck: short_sum(of_part.number.as_bytes()),
            usages,
            opening,
            lots: self.ending_lots(&stocks),
            life_h: life.map(|life| life.months * YEAR_H / 12.0),
            placed,
            not_counted,
            receipts,
            rush,
            unit_price: price.map(|price| price.amount),
        });
    }

    /// The open orders of some that come too late for a level, each with the hour until which a new order would be here before it.
    fn not_counted(&self, plan: &Plan, level: &Level, open: &[&OpenOrder]) -> Vec<(usize, f64)> {
        let each = open.iter().enumerate();
        let late = each.filter(|(_, order)| plan.reorder.hurry.contains(&order.place));
        let lead_h = 24.0 * level.lead_days().unwrap_or(0.0);
        let until = late.filter_map(|(at, order)| {
            let likely_h = self.hour(order.arrival?.likely);
            Some((at, (likely_h - lead_h).max(0.0)))
        });
        until.collect()
    }

    /// Equally likely hours at which an open order arrives.
    fn arrivals(&self, arrival: Option<&Arrival>) -> Vec<f64> {
        let Some(arrival) = arrival else {
            // Undated: not within the year, but on order.
            return vec![2.0 * YEAR_H];
        };
        let law = arrival.distribution(&self.calendars);
        let share = |at: u32| (f64::from(at) + 0.5) / f64::from(OPEN_ORDER_HOURS);
        (0..OPEN_ORDER_HOURS)
            .filter_map(|at| Some(self.hour(law.at_draw(share(at))?)))
            .collect()
    }

    /// Lots of the opening stock that end within the year, the oldest used first.
    fn ending_lots(&self, stocks: &[&PartStock]) -> Vec<(f64, f64)> {
        let mut lots: Vec<&FreeLot> = stocks.iter().flat_map(|stock| &stock.lots).collect();
        if stocks.len() > 1 {
            lots.sort_by_key(|lot| (lot.usable_until.is_none(), lot.usable_until));
        }
        let mut pieces = 0.0;
        let ending = lots.into_iter().filter_map(|lot| {
            pieces += lot.free;
            let at_h = self.hour(end_of(lot.usable_until?));
            (at_h < YEAR_H && lot.free > 0.0).then_some((at_h, pieces))
        });
        ending.collect()
    }

    /// Machines with the share of usages that fall on each or on one before it.
    fn shares(&self, weights: Option<&BTreeMap<String, f64>>) -> Vec<(f64, usize)> {
        let known: Vec<(f64, usize)> = weights
            .into_iter()
            .flatten()
            .filter_map(|(key, weight)| {
                let of = |machine: &YearMachine| NameKey::new(&machine.name).as_str() == key;
                Some((*weight, self.machines.iter().position(of)?))
            })
            .collect();
        let all: f64 = known.iter().map(|(weight, _)| weight).sum();
        let mut reached = 0.0;
        let mut shares: Vec<(f64, usize)> = known
            .into_iter()
            .map(|(weight, machine)| {
                reached += weight / all;
                (reached, machine)
            })
            .collect();
        if let Some(last) = shares.last_mut() {
            last.0 = 1.0;
        }
        shares
    }

    /// Rebuilds with a date and the orders that the plan places for them.
    fn add_rebuilds(&mut self, shop: &Shop, plan: &Plan, before: Option<&Plan>) {
        let position_of = std::mem::take(&mut self.position_of);
        let mut bought: BTreeMap<usize, PartId> = BTreeMap::new();
        for line in &plan.reorder.lines {
            // One order comes once, however many lines of kits it is for.
            let mut quantity = 0.0;
            for of in &line.needs {
                if let ReorderReason::Rebuild { need, .. } = of.reason {
                    bought.insert(need, line.buy.part);
                    quantity += of.wanted;
                }
            }
            let part = position_of.get(&line.buy.part);
            if let Some(part) = part.filter(|_| quantity > 0.0) {
                let at_h = self.hour(line.order_by.and_time(shop.as_of.time()));
                self.orders.push((at_h, *part, quantity));
            }
        }
        let mut rebuilds: BTreeMap<(NaiveDate, usize), usize> = BTreeMap::new();
        for (at, need) in plan.needs.iter().enumerate() {
            // What is surely made for it in time takes nothing from the shelf; what may be late is waited for.
            let made = plan.reorder.made_for(at).iter();
            let (in_time, late): (Vec<_>, Vec<_>) =
                made.partition(|of| of.timing == Timing::InTime);
            let needed = need.needed - in_time.iter().map(|of| of.quantity).sum::<f64>();
            if needed <= 1e-9 {
                continue;
            }
            let next = rebuilds.len();
            let rebuild = *rebuilds.entry((need.date, need.kit)).or_insert(next);
            let in_units = |part: PartId| {
                let level = [Some(plan), before].into_iter().flatten();
                let level = level.filter_map(|of| of.levels.by_part.get(&part)).next()?;
                let factor = need.unit.in_units_of(level.unit).ok()?;
                Some((*position_of.get(&part)?, needed * factor))
            };
            let choices: Vec<(usize, f64)> =
                need.accepted.iter().copied().filter_map(in_units).collect();
            let ordered = bought.get(&at).copied().and_then(in_units);
            let Some(else_wait_for) = ordered.or(choices.first().copied()) else {
                self.left_out.extend(need.part);
                continue;
            };
            let in_its_units = else_wait_for.1 / needed;
            let made = late.iter().map(|of| {
                let hours = self.arrivals(Some(&of.arrival));
                (hours, of.quantity * in_its_units)
            });
            let made = made.collect();
            let machine = shop.kits[need.kit].machine.as_ref().and_then(|name| {
                let key = NameKey::new(name);
                let mut names = self.machines.iter();
                names.position(|machine| NameKey::new(&machine.name) == key)
            });
            if let Some(machine) = machine {
                self.machines[machine].is_used = true;
            }
            self.needs.push(YearNeed {
                at_h: self.hour(
                    need.date
                        .and_time(NaiveTime::from_hms_opt(6, 0, 0).unwrap_or_default()),
                ),
                place: machine.map(|machine| {
                    let installed = self.machines[machine].installed as usize;
                    self.first_place[machine] + rebuild % installed
                }),
                choices,
                else_wait_for,
                made,
            });
        }
        self.position_of = position_of;
        self.left_out.sort_unstable();
        self.left_out.dedup();
    }
}

/// True for a part with a rate before a change and none after, although machines in service may use it.
pub fn loses_rate(before: &Plan, after: &Plan, part: PartId) -> bool {
    let has_rate = |plan: &Plan| {
        let demand = plan.demands.get(&part);
        demand.is_some_and(|demand| demand.usages().is_some())
    };
    let demand = after.demands.get(&part);
    let is_used = demand.is_none_or(|demand| demand.rate != Rate::MachinesRetired);
    has_rate(before) && !has_rate(after) && is_used
}

/// Open orders by part, without those that nobody closed.
fn placed(plan: &Plan) -> BTreeMap<PartId, Vec<&OpenOrder>> {
    let mut placed: BTreeMap<PartId, Vec<&OpenOrder>> = BTreeMap::new();
    let open = plan.open_orders.iter();
    for order in open.filter(|order| !order.is_forgotten) {
        placed.entry(order.part).or_default().push(order);
    }
    placed
}

/// Hours from the start to a moment; 0 for one before it.
fn hours_after(start: NaiveDateTime, moment: NaiveDateTime) -> f64 {
    ((moment - start).num_minutes() as f64 / 60.0).max(0.0)
}

/// Midnight after a day.
fn end_of(day: NaiveDate) -> NaiveDateTime {
    day.succ_opt().unwrap_or(day).and_time(NaiveTime::MIN)
}

/// Machines that are in service at the start.
fn machines(shop: &Shop) -> Vec<YearMachine> {
    let today = shop.as_of.date();
    let exchange = crate::plan::exchange::Exchange::new(&shop.settings);
    let in_service = shop
        .machines
        .values()
        .filter(|machine| machine.in_use_until.is_none_or(|until| until > today));
    in_service
        .map(|machine| YearMachine {
            name: machine.machine.clone(),
            installed: machine.installed.unwrap_or(1.0).clamp(1.0, 10_000.0) as u32,
            until_h: machine.in_use_until.map_or(f64::INFINITY, |until| {
                hours_after(shop.as_of, end_of(until))
            }),
            down_cost_per_h: machine
                .downtime_cost_per_hour
                .and_then(|cost| exchange.in_own_currency(cost))
                .map(|cost| cost.to_units()),
            is_used: false,
        })
        .collect()
}
