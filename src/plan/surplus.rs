//! Stock that ties money up for nothing: more than is used in years, not used for years, of no machine, about to expire.

use std::collections::BTreeMap;
use std::fmt;

use chrono::{Days, NaiveDate};

use super::demand::{Demand, Rate};
use super::level::{DemandTable, Level, LevelBasis};
use super::rebuild_need::RebuildNeed;
use super::reorder::drawn_by_needs;
use super::shop_plan::Plan;
use super::stock::PartStock;
use crate::catalogue::{PartId, Shop};
use crate::units::{Money, UnitOfCount};

/// Years of usage that stock beyond the level may last.
///
/// Common practice, no source.
pub const KEPT_YEARS: f64 = 3.0;

/// Years without a usage after which stock is called dead.
///
/// Common practice, no source.
pub const UNUSED_YEARS: f64 = 3.0;

/// Share of cases in which the usage of the years kept is no more than what is left.
pub const KEPT_SHARE: f64 = 0.9;

/// Days ahead that lots are looked at.
const EXPIRY_DAYS: u64 = 365;

/// Days of a year.
const YEAR_DAYS: f64 = 365.0;

/// Why stock is not needed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SurplusBasis {
    /// More than the level and the usage of the years kept.
    MoreThanUsed {
        /// Free now.
        free: f64,
        /// What the level comes up to.
        level: f64,
        /// Usage of the years kept, not exceeded in [`KEPT_SHARE`] of cases.
        used: f64,
    },
    /// No usage for years, although they were recorded and its machines were in service.
    NotUsed {
        /// Last usage; `None` where there is none in the records.
        last: Option<NaiveDate>,
        /// Days of records, as many as today's machines would have seen.
        exposure_days: f64,
        /// The level that is kept nevertheless; 0 where there is none.
        level: f64,
    },
    /// Every machine that uses it has left service.
    NoMachine {
        /// Last day in service, where it is known.
        since: Option<NaiveDate>,
    },
    /// A lot that ends before it is likely to be used.
    Expiring {
        /// Last day it may be fitted.
        until: NaiveDate,
        /// Pieces of the lot.
        lot: f64,
        /// Usage expected until then, of this lot and older ones.
        used: f64,
    },
    /// A lot past its shelf life.
    Expired {
        /// Last day it could be fitted.
        until: NaiveDate,
    },
}

/// Stock of one part or lot that is not needed.
#[derive(Debug, Clone, PartialEq)]
pub struct Surplus {
    /// The part.
    pub part: PartId,
    /// Pieces not needed.
    pub pieces: f64,
    /// What is counted.
    pub unit: UnitOfCount,
    /// Their value at the price of the offer that the level was set with; `None` without.
    pub value: Option<Money>,
    /// Why.
    pub basis: SurplusBasis,
}

/// All stock that is not needed: expired and expiring lots first, then by value.
pub fn surplus(shop: &Shop, plan: &Plan) -> Vec<Surplus> {
    let last_used = last_usages(shop);
    let drawn = drawn_by_needs(&plan.needs);
    let mut found = Vec::new();
    for lot in &plan.stock.expired {
        if lot.quantity > 0.0 {
            let unit = plan.stock.by_part.get(&lot.part).map(|stock| stock.unit);
            let basis = SurplusBasis::Expired {
                until: lot.usable_until,
            };
            let unit = unit.unwrap_or(UnitOfCount::Piece);
            found.push(line(plan, lot.part, lot.quantity, unit, basis));
        }
    }
    let shared = plan.levels.shared.by_part();
    for (part, stock) in &plan.stock.by_part {
        let demand = plan.demands.get(part);
        found.extend(expiring(shop, plan, *part, stock, demand));
        let last = last_used.get(part).copied();
        let free = free_after_rebuilds(*part, stock, &drawn);
        if let Some(shared) = shared.get(part) {
            let free_of = |part: PartId| {
                let stock = plan.stock.by_part.get(&part);
                stock.map_or(0.0, |stock| free_after_rebuilds(part, stock, &drawn))
            };
            let all: f64 = shared.parts.iter().map(|part| free_of(*part)).sum();
            let last = shared
                .parts
                .iter()
                .filter_map(|part| last_used.get(part))
                .max();
            let demand = Some(&shared.demand);
            let of_all = not_needed(shop, plan, shared.holder, all, demand, last.copied());
            if let Some((pieces, basis)) = of_all {
                // What is not needed of one stock is counted once, the number it is kept under last.
                let key = |other: &PartId| (*other == shared.holder, *other);
                let others = shared.parts.iter().filter(|other| key(other) < key(part));
                let before: f64 = others.map(|other| free_of(*other)).sum();
                let here = (pieces - before).clamp(0.0, free.max(0.0));
                if here >= 1.0 {
                    found.push(line(plan, *part, here, stock.unit, basis));
                }
            }
            continue;
        }
        if let Some((pieces, basis)) = not_needed(shop, plan, *part, free, demand, last) {
            found.push(line(plan, *part, pieces, stock.unit, basis));
        }
    }
    found.sort_by_key(|of| {
        let is_lot = matches!(
            of.basis,
            SurplusBasis::Expired { .. } | SurplusBasis::Expiring { .. }
        );
        let value = of.value.map_or(0, |value| value.cents);
        (!is_lot, std::cmp::Reverse(value), of.part)
    });
    found
}

/// Free stock of a part that rebuilds with a date do not take.
fn free_after_rebuilds(
    part: PartId,
    stock: &PartStock,
    drawn: &BTreeMap<PartId, Vec<&RebuildNeed>>,
) -> f64 {
    let needs = drawn.get(&part).into_iter().flatten();
    let for_rebuilds: f64 = needs.map(|need| need.drawn_from(part, stock.unit)).sum();
    stock.free() - for_rebuilds
}

fn line(plan: &Plan, part: PartId, pieces: f64, unit: UnitOfCount, basis: SurplusBasis) -> Surplus {
    let level = plan.levels.serving(part);
    let price = level.and_then(|level| level.why_quantity.as_ref()?.unit_price);
    Surplus {
        part,
        pieces,
        unit,
        value: price.map(|price| Money {
            cents: (price.to_units() * pieces * 100.0).round() as i64,
            currency: price.currency,
        }),
        basis,
    }
}

/// Last day on which each part was used.
fn last_usages(shop: &Shop) -> BTreeMap<PartId, NaiveDate> {
    let today = shop.as_of.date();
    let mut last: BTreeMap<PartId, NaiveDate> = BTreeMap::new();
    for usage in &shop.usages {
        if usage.record.quantity > 0.0 && usage.record.date <= today {
            let day = last.entry(usage.part).or_insert(usage.record.date);
            *day = (*day).max(usage.record.date);
        }
    }
    last
}

/// What is not needed of the `free` stock of a part that is left after rebuilds with a date.
fn not_needed(
    shop: &Shop,
    plan: &Plan,
    part: PartId,
    free: f64,
    demand: Option<&Demand>,
    last: Option<NaiveDate>,
) -> Option<(f64, SurplusBasis)> {
    if free <= 1e-9 {
        return None;
    }
    let level = plan.levels.by_part.get(&part);
    let retired_since = match level.map(|level| &level.why) {
        Some(LevelBasis::Retired { since }) => Some(Some(*since)),
        _ => None,
    };
    let demand = demand?;
    let in_use_until = plan.levels.in_use_until.get(&part).copied();
    if retired_since.is_some() || demand.rate == Rate::MachinesRetired {
        let since = retired_since.flatten().or(in_use_until);
        return Some((free, SurplusBasis::NoMachine { since }));
    }
    // Without exposure nobody knows whether it is needed.
    demand.estimate.as_ref()?;
    let kept = level.map_or(0.0, up_to);
    let today = shop.as_of.date();
    let days_since = last.map_or(f64::INFINITY, |last| (today - last).num_days() as f64);
    let unused_days = UNUSED_YEARS * YEAR_DAYS;
    let recorded_days = shop
        .settings
        .records_from
        .map_or(0.0, |from| (today - from).num_days() as f64);
    if days_since >= unused_days
        && recorded_days >= unused_days
        && demand.exposure_days >= unused_days
    {
        let basis = SurplusBasis::NotUsed {
            last,
            exposure_days: demand.exposure_days,
            level: kept,
        };
        // What a planner signed for, or insurance that pays, stays.
        return (free > kept).then_some((free - kept, basis));
    }
    // A part not used in a few years of records is neither dead nor more than enough.
    if demand.events == 0 {
        return None;
    }
    let days = in_use_until.map_or(KEPT_YEARS * YEAR_DAYS, |until| {
        ((until - today).num_days() as f64).clamp(0.0, KEPT_YEARS * YEAR_DAYS)
    });
    let used = demand.distribution(days)?.reorder_point(KEPT_SHARE)? as f64;
    let pieces = (free - kept - used).floor();
    let basis = SurplusBasis::MoreThanUsed {
        free,
        level: kept,
        used,
    };
    (pieces >= 1.0).then_some((pieces, basis))
}

/// Stock that a level comes up to.
fn up_to(level: &Level) -> f64 {
    if level.reorder_point < 0.0 {
        return 0.0;
    }
    level.min_stock.max(0.0)
}

/// Lots that end within a year with more in them than is expected to be used until then, the oldest used first.
fn expiring(
    shop: &Shop,
    plan: &Plan,
    part: PartId,
    stock: &PartStock,
    demand: Option<&Demand>,
) -> Vec<Surplus> {
    let today = shop.as_of.date();
    let Some(horizon) = today.checked_add_days(Days::new(EXPIRY_DAYS)) else {
        return Vec::new();
    };
    let mut before = 0.0;
    let mut found = Vec::new();
    for lot in &stock.lots {
        let older = before;
        before += lot.free;
        let Some(until) = lot.usable_until.filter(|until| *until <= horizon) else {
            continue;
        };
        let days = (until - today).num_days().max(0) as f64;
        let Some(law) = demand.and_then(|demand| demand.distribution(days)) else {
            continue;
        };
        let table = DemandTable::new(&law);
        // Left of the first n pieces: E[(n - D)+] = n - E[D] + E[(D - n)+].
        let left = |pieces: f64| pieces - table.mean() + table.shortfall(pieces as i64);
        let pieces = (left(before) - left(older)).min(lot.free);
        if pieces >= 0.5 {
            let basis = SurplusBasis::Expiring {
                until,
                lot: lot.free,
                used: table.mean(),
            };
            found.push(line(plan, part, pieces, stock.unit, basis));
        }
    }
    found
}

impl fmt::Display for SurplusBasis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::MoreThanUsed { free, level, used } => write!(
                f,
                "{free} free after planned rebuilds; the level keeps {level}, and in {:.0} % of cases no more than {used} are used in {KEPT_YEARS} years",
                100.0 * KEPT_SHARE
            ),
            Self::NotUsed {
                last,
                exposure_days,
                level,
            } => {
                match last {
                    Some(last) => write!(f, "last used on {last}")?,
                    None => f.write_str("no usage in the records")?,
                }
                write!(
                    f,
                    ", in {exposure_days:.0} days with its machines in service"
                )?;
                if *level > 0.0 {
                    write!(f, "; {level} are kept by its level")?;
                }
                Ok(())
            }
            Self::NoMachine { since: Some(since) } => {
                write!(f, "every machine that uses it left service by {since}")
            }
            Self::NoMachine { since: None } => {
                f.write_str("every machine that uses it has left service")
            }
            Self::Expiring { until, lot, used } => write!(
                f,
                "a lot of {lot} ends on {until}; about {used:.1} are used until then, oldest first"
            ),
            Self::Expired { until } => write!(f, "past its shelf life since {until}"),
        }
    }
}

#[cfg(test)]
mod tests;
