//! Puts needs on the order list: chooses an offer for each, and joins what is the same part from one supplier.
//!
//! One order line serves every need of a part that comes from one supplier by one delivery, with pack and price break by
//! the sum. What could wait comes along with what is due where keeping it until then costs no more than a second order
//! and what the larger quantity saves.

use std::collections::BTreeMap;

use super::choice::{OfferChoice, OrderedBefore, Wanted, WhyNoChoice, choices};
use super::lead_time::supplier_key;
use super::offer::DeliveryKind;
use super::order_line::{OrderedFor, ReorderLine};
use super::sourcing::Sourcing;
use crate::catalogue::PartId;
use crate::units::{Money, UnitOfCount};

/// Days of a year.
const YEAR_DAYS: f64 = 365.0;

/// Quantities that differ by less are equal.
const TOLERANCE: f64 = 1e-9;

/// Lines in the making.
pub struct OrderList<'s, 'a> {
    sourcing: &'s Sourcing<'a>,
    before: OrderedBefore,
    /// The lines so far.
    pub lines: Vec<ReorderLine>,
    /// The first line of each part by one delivery from one supplier.
    at: BTreeMap<(PartId, DeliveryKind, String), usize>,
}

impl<'s, 'a> OrderList<'s, 'a> {
    /// Begins without a line.
    pub fn new(sourcing: &'s Sourcing<'a>) -> Self {
        Self {
            sourcing,
            before: OrderedBefore::default(),
            lines: Vec::new(),
            at: BTreeMap::new(),
        }
    }

    /// Orders what a need wants, from several offers where one has not enough.
    ///
    /// `order_by` says the last day to order a choice.
    ///
    /// # Errors
    /// What is not covered, and why.
    pub fn add(
        &mut self,
        need: OrderedFor,
        unit: UnitOfCount,
        order_by: impl Fn(&OfferChoice) -> chrono::NaiveDate,
    ) -> Result<(), (f64, WhyNoChoice)> {
        let mut left = need.wanted;
        while left > TOLERANCE {
            let wanted = Wanted {
                parts: &need.accepted,
                quantity: left,
                unit,
                needed_by: need.needed_by,
            };
            let mut found = choices(self.sourcing, wanted, &self.before)
                .map_err(|why| {
                    let is_first = left >= need.wanted - TOLERANCE;
                    (
                        left,
                        if is_first {
                            why
                        } else {
                            WhyNoChoice::NotEnough
                        },
                    )
                })?
                .into_iter();
            let Some(buy) = found.next() else {
                return Err((left, WhyNoChoice::NoUsableOffer));
            };
            let part_of = OrderedFor {
                wanted: left.min(buy.gives),
                order_by: order_by(&buy),
                ..need.clone()
            };
            left -= buy.gives;
            self.place(part_of, unit, buy, found.next());
        }
        Ok(())
    }

    /// Joins a need with a line of the same part, supplier and delivery, or gives it a line of its own.
    fn place(
        &mut self,
        need: OrderedFor,
        unit: UnitOfCount,
        buy: OfferChoice,
        next_best: Option<OfferChoice>,
    ) {
        let key = supplier_key(&buy.supplier);
        let is_supplier_unapproved = self.sourcing.shop.not_approved.contains(&key);
        let of_line = (buy.part, buy.delivery, key);
        if let Some(at) = self.at.get(&of_line).copied()
            && let Some(joined) = self.joined(at, &need, unit, &buy)
        {
            self.before.release(&self.lines[at].buy);
            self.before.book(&joined.buy, !joined.is_held_back());
            self.lines[at] = joined;
            return;
        }
        self.before.book(&buy, !need.is_held_back());
        self.at.entry(of_line).or_insert(self.lines.len());
        self.lines.push(ReorderLine {
            wanted: need.wanted,
            unit,
            buy,
            next_best,
            needed_by: need.needed_by,
            order_by: need.order_by,
            is_supplier_unapproved,
            needs: vec![need],
        });
    }

    /// The line with one need more; `None` where two lines are better, or the units must not be added up.
    fn joined(
        &mut self,
        at: usize,
        need: &OrderedFor,
        unit: UnitOfCount,
        buy: &OfferChoice,
    ) -> Option<ReorderLine> {
        let line = &self.lines[at];
        if line.is_held_back() != need.is_held_back() {
            return None;
        }
        let factor = unit.in_units_of(line.unit).ok()?;
        let need = OrderedFor {
            wanted: need.wanted * factor,
            ..need.clone()
        };
        let wanted = line.wanted + need.wanted;
        let needed_by = line.needed_by.into_iter().chain(need.needed_by).min();
        let in_all = |part: &PartId| {
            let mut needs = line.needs.iter();
            needs.all(|of| of.accepted.contains(part))
        };
        let accepted = need.accepted.iter().copied();
        let parts: Vec<PartId> = accepted.filter(in_all).collect();
        let all = Wanted {
            parts: &parts,
            quantity: wanted,
            unit: line.unit,
            needed_by,
        };
        let is_same = |choice: &OfferChoice| {
            choice.part == buy.part
                && choice.delivery == buy.delivery
                && supplier_key(&choice.supplier) == supplier_key(&buy.supplier)
        };
        // What the line has ordered is free again while both are looked for, and exactly as before afterwards.
        let ordered = self.before.by_offer.get(&line.buy.offer).copied();
        self.before.release(&line.buy);
        let found = choices(self.sourcing, all, &self.before);
        if let Some(ordered) = ordered {
            self.before.by_offer.insert(line.buy.offer, ordered);
        }
        let mut found = found.ok()?;
        let same = found.iter().position(is_same)?;
        let together = found.remove(same);
        if together.gives < wanted - TOLERANCE || !self.pays(line, &need, buy, &together) {
            return None;
        }
        let mut needs = line.needs.clone();
        let order_by = line.order_by.min(need.order_by);
        needs.push(need);
        Some(ReorderLine {
            needs,
            wanted,
            unit: line.unit,
            buy: together,
            next_best: found.into_iter().next(),
            needed_by,
            order_by,
            is_supplier_unapproved: line.is_supplier_unapproved,
        })
    }

    /// True where ordering both at the earlier day costs no more than ordering each at its own.
    fn pays(
        &self,
        line: &ReorderLine,
        need: &OrderedFor,
        buy: &OfferChoice,
        together: &OfferChoice,
    ) -> bool {
        let days = (line.order_by - need.order_by).num_days();
        if days == 0 {
            return true;
        }
        let cents = |cost: Option<Money>| cost.map(|cost| cost.cents as f64);
        let costs = cents(line.buy.cost)
            .zip(cents(buy.cost))
            .zip(cents(together.cost));
        let Some(((of_line, of_need), of_both)) = costs else {
            return false;
        };
        let later = if days < 0 { of_need } else { of_line };
        let planning = &self.sourcing.shop.settings.planning;
        let keeping = planning.holding_cost_share * later * days.abs() as f64 / YEAR_DAYS;
        keeping <= 100.0 * planning.order_cost + of_line + of_need - of_both
    }
}
