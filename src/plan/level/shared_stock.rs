//! Numbers that go in for each other, kept as one stock under one of them.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

use super::last_buy::is_soon;
use super::part_use::{PartUse, PartUses};
use super::stock_unit::stock_unit;
use crate::catalogue::PartId;
use crate::plan::demand::{Demand, DemandPool};
use crate::plan::sourcing::Sourcing;

/// One stock for several numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct SharedStock {
    /// The number it is kept under: the one that is cheapest to buy.
    pub holder: PartId,
    /// All its numbers, by rising id.
    pub parts: Vec<PartId>,
    /// Numbers that may be bought for it: all of these, and others that go in for every one of them.
    pub bought: Vec<PartId>,
    /// Their demand together.
    pub demand: Arc<Demand>,
    /// Their machines together.
    pub part_use: PartUse,
}

/// Why a number that others go in for keeps a stock of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhyApart {
    /// A planner asks for a minimum of this number.
    OwnMinimum,
    /// Its machines leave service within a year.
    LeavesService,
    /// No rate of usage is known.
    NoRate,
    /// Its demand follows the ages of its fitted pieces.
    ByLives,
    /// No other number is left that it could be kept with.
    NoneLeft,
    /// No number of the pool can be bought with a known lead time.
    NoLeadTime,
}

/// What the pools come to: stocks for several numbers, and numbers that stay apart.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SharedStocks {
    /// Stocks.
    pub stocks: Vec<SharedStock>,
    /// Numbers of pools of two or more that keep a stock of their own.
    pub apart: BTreeMap<PartId, WhyApart>,
}

impl SharedStocks {
    /// Looks at every pool of two numbers or more.
    ///
    /// All numbers of a pool go in for each other, so that any of them may be left out and any may hold the stock; it is
    /// held under the one with the lowest unit price among those with a lead time, and bought by whatever offer of any number
    /// that goes in for all of them costs least a year. Numbers served one way only are no part of it.
    pub fn new(
        sourcing: &Sourcing<'_>,
        demands: &BTreeMap<PartId, Arc<Demand>>,
        uses: &PartUses,
        pools: &[DemandPool],
    ) -> Self {
        let mut found = Self::default();
        for pool in pools.iter().filter(|pool| pool.parts.len() > 1) {
            let mut parts = Vec::new();
            for part in &pool.parts {
                match why_apart(sourcing, demands, uses, *part) {
                    Some(why) => {
                        found.apart.insert(*part, why);
                    }
                    None => parts.push(*part),
                }
            }
            let unit = |part: &PartId| stock_unit(sourcing, sourcing.shop.catalogue.part(*part));
            let first = parts.first().map(unit);
            parts.retain(|part| Some(unit(part)) == first);
            if parts.len() < 2 {
                let left = parts.iter().map(|part| (*part, WhyApart::NoneLeft));
                found.apart.extend(left);
                continue;
            }
            let Some(holder) = holder(sourcing, &parts) else {
                let left = parts.iter().map(|part| (*part, WhyApart::NoLeadTime));
                found.apart.extend(left);
                continue;
            };
            let of_parts = parts.iter().filter_map(|part| demands.get(part));
            let of_parts: Vec<&Demand> = of_parts.map(Arc::as_ref).collect();
            if let Some(demand) = Demand::together(&of_parts) {
                found.stocks.push(SharedStock {
                    holder,
                    part_use: uses.of_all(&parts),
                    bought: parts.iter().chain(&pool.also_bought).copied().collect(),
                    parts,
                    demand: Arc::new(demand),
                });
            }
        }
        found
    }

    /// Stock that a number belongs to, by number.
    pub fn by_part(&self) -> BTreeMap<PartId, &SharedStock> {
        let stocks = self.stocks.iter();
        stocks
            .flat_map(|stock| stock.parts.iter().map(move |part| (*part, stock)))
            .collect()
    }
}

fn why_apart(
    sourcing: &Sourcing<'_>,
    demands: &BTreeMap<PartId, Arc<Demand>>,
    uses: &PartUses,
    part: PartId,
) -> Option<WhyApart> {
    let catalogue = &sourcing.shop.catalogue;
    if catalogue.part(part).own_min_stock.is_some() {
        return Some(WhyApart::OwnMinimum);
    }
    let until = uses.of(part).in_use_until;
    if until.is_some_and(|until| is_soon(until, sourcing.shop.as_of.date())) {
        return Some(WhyApart::LeavesService);
    }
    match demands.get(&part) {
        Some(demand) if demand.by_lives.is_some() => Some(WhyApart::ByLives),
        Some(demand) if demand.estimate.is_some() => None,
        _ => Some(WhyApart::NoRate),
    }
}

/// The number with the lowest price of a unit among those with a lead time; the first where none has a price.
fn holder(sourcing: &Sourcing<'_>, parts: &[PartId]) -> Option<PartId> {
    let bought = parts.iter().filter_map(|part| {
        let unit = stock_unit(sourcing, sourcing.shop.catalogue.part(*part));
        let (price, days) = super::offer_behind::cheapest_of(sourcing, *part, unit)?;
        Some((price.unwrap_or(f64::INFINITY), days, *part))
    });
    bought
        .min_by(|a, b| {
            a.0.total_cmp(&b.0)
                .then(a.1.total_cmp(&b.1))
                .then(a.2.cmp(&b.2))
        })
        .map(|(_, _, part)| part)
}

impl fmt::Display for WhyApart {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::OwnMinimum => "a planner's own minimum",
            Self::LeavesService => "its machines leave service within a year",
            Self::NoRate => "no rate of usage",
            Self::ByLives => "its demand follows the ages of its fitted pieces",
            Self::NoneLeft => "no other number is left to keep it with",
            Self::NoLeadTime => "no usable offer with a lead time",
        })
    }
}

#[cfg(test)]
mod tests;
