//! Puts needs on the order list: chooses an offer for each, and joins what is the same part from one supplier.
//!
//! One order line serves every need of a part that comes from one supplier by one delivery, with pack and price break by
//! the sum. What could wait comes along with what is due where keeping it until then costs no more than a second order
//! and what the larger quantity saves.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use super::choice::{OfferChoice, OrderedBefore, Wanted, WhyNoChoice, choices};
use super::freight::Carriage;
use super::lead_time::supplier_key;
use super::offer::DeliveryKind;
use super::order_line::{OrderedFor, ReorderLine, waits_of};
use super::order_waiting::Waiting;
use super::sourcing::Sourcing;
use super::tolerance::TOLERANCE;
use super::year_length::YEAR_DAYS;
use crate::catalogue::PartId;
use crate::units::{Money, UnitOfCount};

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
    /// Begins without a line, these freights and runs being paid anyhow.
    pub fn new(sourcing: &'s Sourcing<'a>, paid: BTreeSet<Carriage>) -> Self {
        Self {
            sourcing,
            before: OrderedBefore {
                carriages: paid,
                ..OrderedBefore::default()
            },
            lines: Vec::new(),
            at: BTreeMap::new(),
        }
    }

    /// What would be ordered first for a quantity.
    pub fn best(&self, wanted: Wanted<'_>) -> Option<OfferChoice> {
        let found = choices(self.sourcing, wanted, &self.before).ok()?;
        found.into_iter().next()
    }

    /// Orders what some needs want that accept the same parts by the same day, from several offers where one has not enough.
    ///
    /// Needs of one stop of a machine are chosen for together: it waits once for all of them.
    ///
    /// `order_by` says the last day to order a choice, `waiting` what machines wait for where nothing is dated.
    ///
    /// # Errors
    /// What is not covered, and why.
    pub fn add(
        &mut self,
        needs: &[OrderedFor],
        unit: UnitOfCount,
        waiting: Option<Waiting<'_>>,
        order_by: impl Fn(&OfferChoice) -> NaiveDate,
    ) -> Result<(), (f64, WhyNoChoice)> {
        let Some(first) = needs.first() else {
            return Ok(());
        };
        let in_all: f64 = needs.iter().map(|need| need.wanted).sum();
        let mut left = in_all;
        let waits = waits_of(needs.iter());
        while left > TOLERANCE {
            let wanted = Wanted {
                parts: &first.accepted,
                quantity: left,
                unit,
                needed_by: first.needed_by,
                waiting,
                until: first.until(),
                waits: &waits,
            };
            let mut found = choices(self.sourcing, wanted, &self.before)
                .map_err(|why| {
                    let is_first = left >= in_all - TOLERANCE;
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
            let served = served(needs, (in_all - left, buy.gives), order_by(&buy));
            left -= buy.gives;
            self.place(served, (unit, waiting), buy, found.next());
        }
        Ok(())
    }

    /// Joins needs with a line of the same part, supplier and delivery, or gives them a line of their own.
    fn place(
        &mut self,
        mut needs: Vec<OrderedFor>,
        (unit, waiting): (UnitOfCount, Option<Waiting<'_>>),
        buy: OfferChoice,
        next_best: Option<OfferChoice>,
    ) {
        let Some(first) = needs.first() else {
            return;
        };
        let (needed_by, order_by) = (first.needed_by, first.order_by);
        let goes_out = (!first.is_held_back()).then_some(order_by);
        let key = supplier_key(&buy.supplier);
        let is_supplier_unapproved = self.sourcing.shop.not_approved.contains(&key);
        let of_line = (buy.part, buy.delivery, key);
        if let Some(at) = self.at.get(&of_line).copied()
            && let Some(joined) = self.joined(at, &needs, (unit, waiting), &buy)
        {
            self.before.release(&self.lines[at].buy);
            let goes_out = (!joined.is_held_back()).then_some(joined.order_by);
            self.before.book(&joined.buy, goes_out);
            self.lines[at] = joined;
            return;
        }
        // A line of its own leaves nothing over for them.
        for need in &mut needs {
            need.left_over = 0.0;
        }
        self.before.book(&buy, goes_out);
        self.at.entry(of_line).or_insert(self.lines.len());
        self.lines.push(ReorderLine {
            wanted: needs.iter().map(|need| need.wanted).sum(),
            unit,
            buy,
            next_best,
            needed_by,
            order_by,
            is_supplier_unapproved,
            needs,
        });
    }

    /// The line with some needs more, which count on some of what lines leave over; `None` where two lines are better, or the
    /// units must not be added up.
    fn joined(
        &mut self,
        at: usize,
        needs: &[OrderedFor],
        (unit, waiting): (UnitOfCount, Option<Waiting<'_>>),
        buy: &OfferChoice,
    ) -> Option<ReorderLine> {
        let line = &self.lines[at];
        let first = needs.first()?;
        if line.is_held_back() != first.is_held_back() {
            return None;
        }
        let factor = unit.in_units_of(line.unit).ok()?;
        // Pack and minimum are worked out anew for the sum: what this line leaves over must then be ordered as well.
        let joining = needs.iter().map(|need| {
            let of_line = (need.left_over * factor).min(line.left_over());
            OrderedFor {
                wanted: need.wanted * factor,
                left_over: need.besides(of_line / factor) * factor,
                ..need.clone()
            }
        });
        let needs: Vec<OrderedFor> = line.needs.iter().cloned().chain(joining).collect();
        let wanted: f64 = needs.iter().map(|of| of.wanted).sum();
        let claimed: f64 = needs.iter().map(|of| of.left_over).sum();
        let quantity = wanted + claimed;
        let needed_by = needs.iter().filter_map(|of| of.needed_by).min();
        let in_all = |part: &PartId| {
            let mut needs = line.needs.iter();
            needs.all(|of| of.accepted.contains(part))
        };
        let accepted = first.accepted.iter().copied();
        let parts: Vec<PartId> = accepted.filter(in_all).collect();
        let waits = waits_of(needs.iter());
        let all = Wanted {
            parts: &parts,
            quantity,
            unit: line.unit,
            needed_by,
            waiting,
            until: needs.iter().filter_map(OrderedFor::until).min(),
            waits: &waits,
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
        if together.gives < quantity - TOLERANCE || !self.pays(line, first, buy, &together) {
            return None;
        }
        let order_by = line.order_by.min(first.order_by);
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

/// The needs that an order serves which gives so many after so many are served, each with what it has of it.
fn served(
    needs: &[OrderedFor],
    (before, gives): (f64, f64),
    order_by: NaiveDate,
) -> Vec<OrderedFor> {
    let mut way_left = needs.first().and_then(|first| first.way_left.clone());
    let mut begins = 0.0;
    let mut served = Vec::new();
    for need in needs {
        let ends = begins + need.wanted;
        let wanted = ends.min(before + gives) - before.max(begins);
        begins = ends;
        if wanted > TOLERANCE {
            served.push(OrderedFor {
                wanted,
                order_by,
                way_left: way_left.take(),
                ..need.clone()
            });
        }
    }
    served
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use proptest::prelude::*;

    use crate::plan::Plan;
    use crate::plan::order_line::ReorderReason;
    use crate::plan::sample::{Sample, price, workdays};

    /// Parts with two offers each, some used, and rebuilds that need them on several days.
    fn planned(used: &[u8], needs: &[(usize, u8, u8)]) -> Plan {
        let mut sample = Sample::new(
            "records_from = \"2022-03-04\"\n[planning]\ndemand_method = \"plain\"\norder_cost = 20.0",
        );
        sample.supplier("North", |_| {});
        sample.supplier("South", |_| {});
        sample.machine("M1", Some(50.0), None);
        let parts: Vec<_> = (0..used.len())
            .map(|at| sample.part(&format!("P{at}")))
            .collect();
        for (part, usages) in parts.iter().zip(used) {
            for (name, days, cost) in [("North", 5.0, 12.0), ("South", 15.0, 9.0)] {
                sample.offer(*part, name, workdays(days), |offer| {
                    offer.price = price(cost);
                });
            }
            for at in 0..*usages {
                let date = format!("202{}-0{}-11", 3 + at % 3, 1 + at % 9);
                sample.usage(*part, &date, 1.0);
            }
        }
        for (at, (part, quantity, month)) in needs.iter().enumerate() {
            sample.kit(&format!("K{at}"));
            let part = parts[part % parts.len()];
            sample.line(Some(part), f64::from(*quantity), &[], |_| {});
            sample.planned(&format!("2026-{month:02}-15"));
        }
        sample.plan()
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

        #[test]
        fn every_need_is_on_one_line_and_every_line_has_what_its_needs_want(
            used in proptest::collection::vec(0_u8..8, 1..6),
            needs in proptest::collection::vec((0_usize..6, 1_u8..5, 4_u8..12), 0..8),
        ) {
            let plan = planned(&used, &needs);
            let mut ordered = vec![0.0; plan.needs.len()];
            for line in &plan.reorder.lines {
                let wanted: f64 = line.needs.iter().map(|need| need.wanted).sum();
                prop_assert!((line.wanted - wanted).abs() < 1e-9);
                prop_assert!(line.buy.gives >= line.wanted - 1e-9);
                let first = line.needs.iter().map(|need| need.order_by).min();
                prop_assert_eq!(first, Some(line.order_by));
                for need in &line.needs {
                    prop_assert!(need.accepted.contains(&line.buy.part));
                    if let ReorderReason::Rebuild { need: at, .. } = need.reason {
                        ordered[at] += need.wanted;
                    }
                }
            }
            for (need, ordered) in plan.needs.iter().zip(ordered) {
                prop_assert!((need.short - ordered).abs() < 1e-9, "{} {ordered}", need.short);
            }
        }

        #[test]
        fn needs_of_one_day_from_one_supplier_are_one_line(
            quantities in proptest::collection::vec(1_u8..5, 1..6),
        ) {
            let needs: Vec<(usize, u8, u8)> = quantities.iter().map(|of| (0, *of, 6)).collect();
            let plan = planned(&[0], &needs);
            let lines = &plan.reorder.lines;
            prop_assert_eq!(lines.len(), 1);
            prop_assert_eq!(lines[0].needs.len(), quantities.len());
            let sum: u32 = quantities.iter().map(|of| u32::from(*of)).sum();
            prop_assert!((lines[0].buy.ordered - f64::from(sum)).abs() < 1e-9);
        }
    }

    #[test]
    fn lines_of_many_parts_stay_apart() {
        let plan = planned(&[0; 9], &[(0, 1, 5), (3, 2, 6), (8, 1, 7), (3, 1, 6)]);
        let bought: Vec<u32> = plan
            .reorder
            .lines
            .iter()
            .map(|line| line.buy.part.0)
            .collect();
        let parts: BTreeSet<u32> = bought.iter().copied().collect();
        assert_eq!(parts, BTreeSet::from([0, 3, 8]));
        assert_eq!(bought.len(), 3, "{bought:?}");
    }
}
