//! What to order now, from whom, and by when at the latest.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use chrono::NaiveDate;

use super::choice::{OfferChoice, Timing, WhyNoChoice, choose, latest_order_day};
use super::lead_time::supplier_key;
use super::level::{Levels, NeverUsed};
use super::rebuild_need::RebuildNeed;
use super::sourcing::Sourcing;
use super::supply::Supply;
use crate::catalogue::PartId;
use crate::interchange::{AcceptedBecause, LineAcceptance};
use crate::units::{Money, UnitOfCount};

/// Why a line is on the order list.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ReorderReason {
    /// The stock position is at or below the reorder point.
    AtReorderPoint {
        /// Free on the shelf.
        free: f64,
        /// On order.
        on_order: f64,
        /// Taken from these by planned rebuilds within the lead time.
        for_rebuilds: f64,
        /// Stock position: free and on order, less what the rebuilds take.
        position: f64,
        /// Order again at or below this.
        reorder_point: f64,
    },
    /// A rebuild with a date needs more than there is.
    Rebuild {
        /// Position of the need in the plan's list of needs.
        need: usize,
        /// Planned day.
        date: NaiveDate,
        /// Quantity needed.
        needed: f64,
        /// Quantity missing.
        short: f64,
    },
}

/// One line to order.
#[derive(Debug, Clone, PartialEq)]
pub struct ReorderLine {
    /// The part that is wanted; `buy.part` may be another number accepted for it.
    pub part: PartId,
    /// Quantity wanted, in `unit`, before pack and minimum.
    pub wanted: f64,
    /// What is counted.
    pub unit: UnitOfCount,
    /// What to buy.
    pub buy: OfferChoice,
    /// The next best, for comparison.
    pub next_best: Option<OfferChoice>,
    /// Day by which goods must be there; `None` where nothing is dated.
    pub needed_by: Option<NaiveDate>,
    /// Last day to order; today where it is a matter of the stock level or already late.
    pub order_by: NaiveDate,
    /// Why.
    pub reason: ReorderReason,
    /// What speaks for a part that was never used and only its group's rate asks for; not due without an insurance that pays.
    pub never_used: Option<NeverUsed>,
}

/// Everything to order from one supplier, with the freight once.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplierOrder {
    /// Supplier as printed in its first line.
    pub supplier: String,
    /// Positions in [`Reorder::lines`].
    pub lines: Vec<usize>,
    /// Goods and surcharges, in the shop's currency; `None` where a price is missing.
    pub goods: Option<Money>,
    /// Freight; `None` where the suppliers table does not say or its currency has no rate.
    pub freight: Option<Money>,
}

/// A need that no offer covers.
#[derive(Debug, Clone, PartialEq)]
pub struct NotOrdered {
    /// The part wanted; `None` for a kit line no table knows.
    pub part: Option<PartId>,
    /// Position of the need in the plan's list of needs; `None` for a stock level.
    pub need: Option<usize>,
    /// Quantity wanted.
    pub wanted: f64,
    /// Why.
    pub why: WhyNoChoice,
}

/// The order list.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Reorder {
    /// Lines: dated needs by day, then stock levels by part.
    pub lines: Vec<ReorderLine>,
    /// Lines that are due at the moment of planning, by supplier.
    pub orders: Vec<SupplierOrder>,
    /// Needs that no offer covers.
    pub not_ordered: Vec<NotOrdered>,
}

impl ReorderLine {
    /// True where the last day to order is not after `today`.
    pub fn is_due(&self, today: NaiveDate) -> bool {
        self.order_by <= today && !self.is_held_back()
    }

    /// True for a part that was never used and that no critical machine's downtime pays: nobody need order it.
    pub fn is_held_back(&self) -> bool {
        self.never_used
            .as_ref()
            .is_some_and(|never_used| !never_used.is_insured())
    }
}

impl Reorder {
    /// Lines that are due on `today`, in order.
    pub fn due_lines(&self, today: NaiveDate) -> impl Iterator<Item = &ReorderLine> {
        self.lines.iter().filter(move |line| line.is_due(today))
    }

    /// Chooses offers for dated needs first, then for stock levels.
    ///
    /// Choices are made one after another; freight of a supplier weighs only on its first line.
    pub fn new(
        sourcing: &Sourcing<'_>,
        acceptances: &[LineAcceptance],
        needs: &[RebuildNeed],
        levels: &Levels,
    ) -> Self {
        let mut reorder = Self::default();
        let mut used: BTreeSet<String> = BTreeSet::new();
        for (position, need) in needs.iter().enumerate() {
            if need.short > 1e-9 {
                reorder.add_need(sourcing, position, need, &mut used);
            }
        }
        let same = same_parts(sourcing, acceptances);
        let drawn = drawn_by_needs(needs);
        for level in levels.by_part.values() {
            // Nothing is kept of it: it is bought when somebody needs it.
            if level.reorder_point < 0.0 {
                continue;
            }
            let reason = position_of(sourcing, &drawn, level);
            let ReorderReason::AtReorderPoint {
                position,
                reorder_point,
                ..
            } = reason
            else {
                continue;
            };
            if position > reorder_point + 1e-9 {
                continue;
            }
            let wanted = level.order_quantity.max(level.min_stock - position);
            let parts = bought_for(&same, level);
            match choose(sourcing, &parts, wanted, level.unit, None, &used) {
                Ok((buy, next_best)) => {
                    let line = ReorderLine {
                        part: level.part,
                        wanted,
                        unit: level.unit,
                        buy,
                        next_best,
                        needed_by: None,
                        order_by: sourcing.shop.as_of.date(),
                        reason,
                        never_used: level.only_by_group().cloned(),
                    };
                    if !line.is_held_back() {
                        used.insert(supplier_key(&line.buy.supplier));
                    }
                    reorder.lines.push(line);
                }
                Err(why) => reorder.not_ordered.push(NotOrdered {
                    part: Some(level.part),
                    need: None,
                    wanted,
                    why,
                }),
            }
        }
        reorder.orders = supplier_orders(sourcing, &reorder.lines);
        reorder
    }

    fn add_need(
        &mut self,
        sourcing: &Sourcing<'_>,
        position: usize,
        need: &RebuildNeed,
        used: &mut BTreeSet<String>,
    ) {
        let not_ordered = |why| NotOrdered {
            part: need.part,
            need: Some(position),
            wanted: need.short,
            why,
        };
        let Some(part) = need.part.or(need.accepted.first().copied()) else {
            self.not_ordered.push(not_ordered(WhyNoChoice::NoPart));
            return;
        };
        let by = Some(need.needed_by);
        match choose(sourcing, &need.accepted, need.short, need.unit, by, used) {
            Ok((buy, next_best)) => {
                used.insert(supplier_key(&buy.supplier));
                let today = sourcing.shop.as_of.date();
                let order_by = if buy.timing == Timing::InTime {
                    latest_order_day(sourcing, &buy, need.needed_by)
                } else {
                    today
                };
                self.lines.push(ReorderLine {
                    part,
                    wanted: need.short,
                    unit: need.unit,
                    buy,
                    next_best,
                    needed_by: by,
                    order_by,
                    reason: ReorderReason::Rebuild {
                        need: position,
                        date: need.date,
                        needed: need.needed,
                        short: need.short,
                    },
                    never_used: None,
                });
            }
            Err(why) => self.not_ordered.push(not_ordered(why)),
        }
    }
}

/// Numbers that may be bought for a level: those of its stock, and others that go in for every one of them.
fn bought_for(same: &BTreeMap<PartId, Vec<PartId>>, level: &super::level::Level) -> Vec<PartId> {
    let of = |part: PartId| same.get(&part).cloned().unwrap_or(vec![part]);
    let mut parts: Vec<PartId> = level.stocked().collect();
    let common = of(level.part)
        .into_iter()
        .filter(|other| level.stocked().all(|part| of(part).contains(other)));
    for part in common {
        if !parts.contains(&part) {
            parts.push(part);
        }
    }
    parts
}

/// Needs that take from the shelf or the open orders of each part.
pub fn drawn_by_needs(needs: &[RebuildNeed]) -> BTreeMap<PartId, Vec<&RebuildNeed>> {
    let mut drawn: BTreeMap<PartId, Vec<&RebuildNeed>> = BTreeMap::new();
    for need in needs {
        let mut parts: Vec<PartId> = need.supplies.iter().filter_map(Supply::own_part).collect();
        parts.sort_unstable();
        parts.dedup();
        for part in parts {
            drawn.entry(part).or_default().push(need);
        }
    }
    drawn
}

/// Stock position of a part against its level.
fn position_of(
    sourcing: &Sourcing<'_>,
    drawn: &BTreeMap<PartId, Vec<&RebuildNeed>>,
    level: &super::level::Level,
) -> ReorderReason {
    let stocks = level
        .stocked()
        .filter_map(|part| sourcing.stock.by_part.get(&part));
    let free = stocks.map(super::stock::PartStock::free).sum::<f64>() + 0.0;
    let on_order: f64 = level
        .stocked()
        .filter_map(|part| sourcing.orders.get(&part))
        .flatten()
        .map(|order| order.quantity)
        .fold(0.0, |sum, quantity| sum + quantity);
    let lead_days = match &level.why {
        super::level::LevelBasis::Computed(reason) => reason.lead.mean_days,
        super::level::LevelBasis::OwnMinimum { .. }
        | super::level::LevelBasis::KeptUnder { .. }
        | super::level::LevelBasis::Retired { .. } => f64::INFINITY,
    };
    let today = sourcing.shop.as_of.date();
    let for_rebuilds: f64 = level
        .stocked()
        .flat_map(|part| {
            drawn
                .get(&part)
                .into_iter()
                .flatten()
                .map(move |need| (part, need))
        })
        .filter(|(_, need)| (need.date - today).num_days() as f64 <= lead_days)
        .map(|(part, need)| need.drawn_from(part, level.unit))
        .fold(0.0, |sum, quantity| sum + quantity);
    ReorderReason::AtReorderPoint {
        free,
        on_order,
        for_rebuilds,
        position: free + on_order - for_rebuilds,
        reorder_point: level.reorder_point,
    }
}

/// Own parts with the other numbers of the same standard part that go in as they are on every line asking for them.
fn same_parts(
    sourcing: &Sourcing<'_>,
    acceptances: &[LineAcceptance],
) -> BTreeMap<PartId, Vec<PartId>> {
    let mut same: BTreeMap<PartId, Vec<PartId>> = BTreeMap::new();
    let mut alone: BTreeSet<PartId> = BTreeSet::new();
    for acceptance in acceptances {
        let line = sourcing
            .shop
            .kits
            .get(acceptance.kit)
            .and_then(|kit| kit.lines.get(acceptance.line));
        let Some((line, part)) = line.and_then(|line| Some((line, line.part?))) else {
            continue;
        };
        if line.record.no_substitutes {
            alone.insert(part);
        }
        let here: Vec<PartId> = acceptance
            .accepted
            .iter()
            .filter(|accepted| accepted.because == AcceptedBecause::GoesInAsItIs)
            .map(|accepted| accepted.part)
            .collect();
        same.entry(part)
            .and_modify(|parts| parts.retain(|known| *known == part || here.contains(known)))
            .or_insert_with(|| std::iter::once(part).chain(here).collect());
    }
    for part in alone {
        same.insert(part, vec![part]);
    }
    same
}

/// Due lines by supplier, in order of first appearance, freight once each.
fn supplier_orders(sourcing: &Sourcing<'_>, lines: &[ReorderLine]) -> Vec<SupplierOrder> {
    let mut orders: Vec<SupplierOrder> = Vec::new();
    let mut at_key: BTreeMap<String, usize> = BTreeMap::new();
    let currency = sourcing.shop.settings.currency;
    let today = sourcing.shop.as_of.date();
    let due = lines
        .iter()
        .enumerate()
        .filter(|(_, line)| line.is_due(today));
    for (position, line) in due {
        let key = supplier_key(&line.buy.supplier);
        let at = *at_key.entry(key).or_insert_with(|| {
            orders.push(SupplierOrder {
                supplier: line.buy.supplier.clone(),
                lines: Vec::new(),
                goods: Some(Money { cents: 0, currency }),
                freight: None,
            });
            orders.len() - 1
        });
        let order = &mut orders[at];
        order.lines.push(position);
        order.goods = order.goods.zip(line.buy.cost).map(|(sum, cost)| Money {
            cents: sum.cents + cost.cents,
            currency,
        });
    }
    for order in &mut orders {
        let supplier = sourcing.shop.suppliers.get(&supplier_key(&order.supplier));
        order.freight =
            supplier.and_then(|supplier| super::choice::freight(sourcing, supplier, order.goods));
    }
    orders
}

impl fmt::Display for ReorderReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::AtReorderPoint {
                free,
                on_order,
                for_rebuilds,
                position,
                reorder_point,
            } => {
                write!(f, "{free} free and {on_order} on order")?;
                if *for_rebuilds > 0.0 {
                    write!(f, ", of which {for_rebuilds} for planned rebuilds")?;
                }
                write!(
                    f,
                    ": {position} is at or below the reorder point of {reorder_point}"
                )
            }
            Self::Rebuild {
                date,
                needed,
                short,
                ..
            } => write!(f, "rebuild on {date} needs {needed}, {short} missing"),
        }
    }
}

#[cfg(test)]
mod tests;
