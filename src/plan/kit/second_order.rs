//! Orders placed besides another for the same: a second new one, or one besides what is open already.
//!
//! What is open costs nothing more and is not cancelled; a new order is, where it may be, once something else is here.

use std::collections::BTreeSet;

use super::arrival_law::ArrivalLaw;
use super::coming_anyway::short_of;
use super::line_value::Lateness;
use super::stakes::{Figures, Stakes};
use crate::plan::lead_time::supplier_key;
use crate::plan::purchase::{Chance, Covers, Single, both};
use crate::plan::supply::{Source, Supply};

/// Orders of one line that are tried in pairs.
const MOST_SINGLES: usize = 5;

/// A new order of which a second may be placed.
#[derive(Debug)]
struct Half {
    /// Cost of the plan with this order, as far as its line goes.
    alone: f64,
    /// Position among the covers of the group.
    at: usize,
    /// The order as if nothing else came.
    own: Chance,
    /// Goods, for the cancellation.
    goods_cents: i64,
    /// Share of the goods' price that is charged when it is cancelled.
    cancel_share: Option<f64>,
    /// Key of the supplier's name.
    supplier: String,
}

impl Half {
    const fn single(&self) -> Single<'_> {
        Single {
            chance: &self.own,
            goods_cents: self.goods_cents,
            cancel_share: self.cancel_share,
        }
    }
}

impl Stakes<'_, '_> {
    /// By group: law of running again by the open orders alone; none where they are not enough.
    ///
    /// `None` where a calendar is closed for good.
    pub fn open_running(&self, covers: &Covers, tails: &[i64]) -> Option<Vec<Option<ArrivalLaw>>> {
        let groups = covers.groups.iter().zip(&covers.open);
        let laws = groups.map(|(group, open)| {
            let covered = group.iter().find(|cover| cover.is_covered());
            let line = covered.and_then(|cover| cover.lines.first());
            let Some(line) = line.filter(|_| !open.is_empty()) else {
                return Some(None);
            };
            let needed = short_of(&line.supplies);
            match self.law_with_open([], (open, needed), Lateness::Apart, None) {
                Some(law) => Some(Some(law.mapped(|moment| self.up(moment, tails[line.at]))?)),
                None => Some(None),
            }
        });
        laws.collect()
    }

    /// Counts what comes back of a new order besides open ones, and adds new orders placed twice, for lines that share no
    /// source with another.
    ///
    /// One supplier's two orders are late together, and nobody knows of an order without a supplier whose lateness it has:
    /// besides such ones an order is no second chance and is reckoned as paid. Where an hour down has no cost, nobody can
    /// say that a second order pays, and none is placed.
    pub fn add_second_orders(
        &self,
        figures: &mut Figures,
        tails: &[i64],
        open: &[Option<ArrivalLaw>],
    ) {
        if self.hourly.is_none() {
            return;
        }
        for (group, open) in open.iter().enumerate() {
            let beside = open.as_ref().map(|law| law.on(&figures.grid));
            let mut halves = self.halves(figures, group, tails);
            if let Some(beside) = &beside {
                for half in &halves {
                    let chance = &mut figures.chances.lines[group][half.at];
                    chance.cents -= half.single().refund(beside).round() as i64;
                }
            }
            halves.sort_by(|a, b| a.alone.total_cmp(&b.alone).then(a.at.cmp(&b.at)));
            halves.truncate(MOST_SINGLES);
            for (first, a) in halves.iter().enumerate() {
                for b in &halves[first + 1..] {
                    if a.supplier != b.supplier
                        && let Some(chance) = both(a.single(), b.single(), beside.as_deref())
                    {
                        figures.pairs[group].push((a.at, b.at));
                        figures.chances.lines[group].push(chance);
                    }
                }
            }
        }
    }

    /// Covers that are one new order with a price, of a supplier that has none of the open orders.
    fn halves(&self, figures: &Figures, group: usize, tails: &[i64]) -> Vec<Half> {
        let open = &figures.covers.open[group];
        let Some(late_together) = self.suppliers_of(open) else {
            return Vec::new();
        };
        let covers = figures.covers.groups[group].iter().enumerate();
        let halves = covers.filter_map(|(at, cover)| {
            let supply = cover.single_order().filter(|_| cover.is_covered())?;
            let Source::Offer {
                offer,
                supplier,
                surcharge,
                ..
            } = &supply.source
            else {
                return None;
            };
            let supplier = supplier_key(supplier);
            if late_together.contains(&supplier) {
                return None;
            }
            let chance = &figures.chances.lines[group][at];
            let own = Chance {
                shares: self
                    .running_law(cover, &[], tails, figures.base_s)?
                    .on(&figures.grid),
                ..chance.clone()
            };
            Some(Half {
                alone: cover.cents as f64 + figures.chances.still(&chance.shares),
                at,
                own,
                goods_cents: supply.cost?.cents - surcharge.cents,
                cancel_share: self.cancel_share(*offer),
                supplier,
            })
        });
        halves.collect()
    }

    /// Share of the goods' price that an offer charges for cancelling; `None` where nobody says that it may be.
    fn cancel_share(&self, offer: usize) -> Option<f64> {
        let offer = self.sourcing.shop.offers.get(offer)?;
        offer.record.cancellation_charge_share
    }

    /// Keys of the suppliers of open orders; `None` where nobody knows one of them.
    fn suppliers_of(&self, open: &[Supply]) -> Option<BTreeSet<String>> {
        open.iter().map(|of| self.whose(of)).collect()
    }
}
