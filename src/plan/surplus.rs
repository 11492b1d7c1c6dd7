//! Stock that ties money up for nothing: more than is used in years, not used for years, of no machine, about to expire.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::{Days, NaiveDate};

use super::demand::{Demand, Rate};
use super::kit_insurance::{insured, insured_in};
use super::level::{DemandTable, Level, LevelBasis, SharedStock};
use super::part_price::PartPrices;
use super::rebuild_need::RebuildNeed;
use super::reorder::drawn_by_needs;
use super::shop_plan::Plan;
use super::stock::PartStock;
use super::supply::Source;
use super::surplus_basis::{KEPT_SHARE, KEPT_YEARS, SurplusBasis, UNUSED_YEARS};
use super::year_length::YEAR_DAYS;
use crate::catalogue::{PartId, Shop, StockOf};
use crate::parallel;
use crate::place::Place;
use crate::units::{Money, UnitOfCount};

/// Days ahead that lots are looked at.
const EXPIRY_DAYS: u64 = 365;

/// Stock of one part or lot that is not needed.
#[derive(Debug, Clone, PartialEq)]
pub struct Surplus {
    /// The part.
    pub part: PartId,
    /// Pieces not needed.
    pub pieces: f64,
    /// What is counted.
    pub unit: UnitOfCount,
    /// Their value at the price of the offer that the level was set with, else at the lowest price offered; `None` without.
    pub value: Option<Money>,
    /// Bins they lie in, where the stock table names them.
    pub bins: Vec<String>,
    /// Since when they are not needed: last usage, first day of the records, last day in service or fit for use.
    pub since: Option<NaiveDate>,
    /// Why.
    pub basis: SurplusBasis,
}

/// All stock that is not needed: expired and expiring lots first, then by value.
pub fn surplus(shop: &Shop, plan: &Plan) -> Vec<Surplus> {
    let shelf = Shelf::of(shop, plan);
    let mut found = Vec::new();
    for lot in &plan.stock.expired {
        if lot.quantity > 0.0 {
            let unit = plan.stock.by_part.get(&lot.part).map(|stock| stock.unit);
            let basis = SurplusBasis::Expired {
                until: lot.usable_until,
            };
            let of_lot = NotNeeded {
                part: lot.part,
                pieces: lot.quantity,
                unit: unit.unwrap_or(UnitOfCount::Piece),
                basis,
            };
            found.push(shelf.line(of_lot, Some(&lot.place)));
        }
    }
    let shared = plan.levels.shared.by_part();
    let stocks: Vec<(&PartId, &PartStock)> = plan.stock.by_part.iter().collect();
    let of_stocks = parallel::each(&stocks, |(part, stock)| {
        let (part, stock) = (**part, *stock);
        let mut found = expiring(&shelf, part, stock);
        let demand = plan.demands.get(&part).map(Arc::as_ref);
        let of_part = match shared.get(&part) {
            Some(shared) => shelf.not_needed_of_shared(shared, part, stock.unit),
            None => shelf
                .on_it(&[part], part, demand, stock.unit)
                .not_needed(shop, plan),
        };
        if let Some((pieces, basis)) = of_part {
            let of_part = NotNeeded {
                part,
                pieces,
                unit: stock.unit,
                basis,
            };
            found.push(shelf.line(of_part, None));
        }
        found
    });
    found.extend(of_stocks.into_iter().flatten());
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

/// What the tables say of each part, looked up once for all of them.
struct Shelf<'a> {
    shop: &'a Shop,
    plan: &'a Plan,
    prices: PartPrices<'a>,
    rows: BTreeMap<PartId, Vec<&'a StockOf>>,
    last_used: BTreeMap<PartId, NaiveDate>,
    insured: BTreeMap<PartId, Vec<(f64, Option<UnitOfCount>)>>,
    drawn: BTreeMap<PartId, Vec<&'a RebuildNeed>>,
}

impl<'a> Shelf<'a> {
    fn of(shop: &'a Shop, plan: &'a Plan) -> Self {
        let mut rows: BTreeMap<PartId, Vec<&StockOf>> = BTreeMap::new();
        for row in &shop.stock {
            rows.entry(row.part).or_default().push(row);
        }
        Self {
            shop,
            plan,
            prices: PartPrices::new(shop, plan),
            rows,
            last_used: last_usages(shop),
            insured: insured(shop),
            drawn: drawn_by_needs(&plan.needs),
        }
    }

    /// Free stock of a part that rebuilds with a date do not take.
    fn free(&self, part: PartId) -> f64 {
        let Some(stock) = self.plan.stock.by_part.get(&part) else {
            return 0.0;
        };
        let needs = self.drawn.get(&part).into_iter().flatten();
        let for_rebuilds: f64 = needs.map(|need| need.drawn_from(part, stock.unit)).sum();
        stock.free() - for_rebuilds
    }

    /// What is there of the numbers of one stock; of a part that is a stock of its own, of this one.
    fn on_it(
        &self,
        parts: &[PartId],
        holder: PartId,
        demand: Option<&'a Demand>,
        unit: UnitOfCount,
    ) -> OnShelf<'a> {
        let last = parts.iter().filter_map(|part| self.last_used.get(part));
        let insured = parts
            .iter()
            .map(|part| insured_in(unit, self.insured.get(part)));
        OnShelf {
            part: holder,
            demand,
            free: parts.iter().map(|part| self.free(*part)).sum(),
            last: last.max().copied(),
            insured: insured.sum(),
        }
    }

    /// What is not needed of one number of a shared stock: counted once, of the number it is kept under last.
    fn not_needed_of_shared(
        &self,
        shared: &'a SharedStock,
        part: PartId,
        unit: UnitOfCount,
    ) -> Option<(f64, SurplusBasis)> {
        let of_all = self.on_it(&shared.parts, shared.holder, Some(&shared.demand), unit);
        let (pieces, basis) = of_all.not_needed(self.shop, self.plan)?;
        let key = |other: PartId| (other == shared.holder, other);
        let others = shared.parts.iter().filter(|other| key(**other) < key(part));
        let before: f64 = others.map(|other| self.free(*other)).sum();
        let here = (pieces - before).clamp(0.0, self.free(part).max(0.0));
        (here >= 1.0).then_some((here, basis))
    }

    /// Of one row of the stock table, or of all of the part, with value and bins.
    fn line(&self, of: NotNeeded, row: Option<&Place>) -> Surplus {
        let rows = self.rows.get(&of.part).into_iter().flatten();
        let rows = rows.filter(|held| row.is_none_or(|row| held.record.place == *row));
        let holds = rows.filter(|held| {
            !held.record.is_blocked && held.record.on_hand.is_some_and(|there| there > 0.0)
        });
        let bins: BTreeSet<String> = holds.filter_map(|held| held.record.bin.clone()).collect();
        let price = self.prices.of(of.part, of.unit);
        Surplus {
            value: price
                .map(|price| Money::rounded(price * of.pieces, self.shop.settings.currency)),
            bins: bins.into_iter().collect(),
            since: match of.basis {
                SurplusBasis::NotUsed {
                    last, records_from, ..
                } => Some(last.unwrap_or(records_from)),
                SurplusBasis::NoMachine { since } => since,
                SurplusBasis::Expired { until } => Some(until),
                SurplusBasis::MoreThanUsed { .. } | SurplusBasis::Expiring { .. } => None,
            },
            part: of.part,
            pieces: of.pieces,
            unit: of.unit,
            basis: of.basis,
        }
    }
}

/// Pieces that are not needed, before value and bin are looked up.
struct NotNeeded {
    part: PartId,
    pieces: f64,
    unit: UnitOfCount,
    basis: SurplusBasis,
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

/// What is on the shelf of one part, or of the numbers that are one stock.
struct OnShelf<'a> {
    /// The part, or the number the stock is kept under.
    part: PartId,
    /// Demand of all of it.
    demand: Option<&'a Demand>,
    /// Free, less what rebuilds with a date take.
    free: f64,
    /// Last usage.
    last: Option<NaiveDate>,
    /// What one rebuild takes, of kits that count.
    insured: f64,
}

impl OnShelf<'_> {
    fn not_needed(&self, shop: &Shop, plan: &Plan) -> Option<(f64, SurplusBasis)> {
        if self.free <= 1e-9 {
            return None;
        }
        let level = plan.levels.by_part.get(&self.part);
        let retired_since = match level.map(|level| &level.why) {
            Some(LevelBasis::Retired { since }) => Some(Some(*since)),
            _ => None,
        };
        let demand = self.demand?;
        let in_use_until = plan.levels.in_use_until.get(&self.part).copied();
        if retired_since.is_some() || demand.rate == Rate::MachinesRetired {
            let since = retired_since.flatten().or(in_use_until);
            return Some((self.free, SurplusBasis::NoMachine { since }));
        }
        // Without exposure nobody knows whether it is needed.
        demand.estimate.as_ref()?;
        let kept = level.map_or(0.0, up_to);
        if let Some(found) = self.dead(shop, demand, kept) {
            return found;
        }
        // A part not used in a few years of records is neither dead nor more than enough.
        if demand.events == 0 {
            return None;
        }
        let today = shop.as_of.date();
        let days = in_use_until.map_or(KEPT_YEARS * YEAR_DAYS, |until| {
            ((until - today).num_days() as f64).clamp(0.0, KEPT_YEARS * YEAR_DAYS)
        });
        // Most stock is used up long before: one look tells that nothing is left over.
        let most_used = (self.free - kept - 1.0).floor();
        let law = (most_used >= 0.0).then(|| demand.distribution(days))??;
        if law.at_most(most_used as u64) < KEPT_SHARE {
            return None;
        }
        let used = law.reorder_point(KEPT_SHARE)? as f64;
        let pieces = (self.free - kept - used).floor();
        let basis = SurplusBasis::MoreThanUsed {
            free: self.free,
            level: kept,
            used,
        };
        (pieces >= 1.0).then_some((pieces, basis))
    }

    /// What is dead of a part that was not used for years; `None` for any other part.
    ///
    /// What a planner signed for, what pays as an insurance by its level, and what one rebuild takes stays.
    #[expect(
        clippy::option_option,
        reason = "not dead, dead and all of it kept, dead with something to spare"
    )]
    fn dead(
        &self,
        shop: &Shop,
        demand: &Demand,
        level: f64,
    ) -> Option<Option<(f64, SurplusBasis)>> {
        let records_from = shop.settings.records_from?;
        let days_since = |day: NaiveDate| (shop.as_of.date() - day).num_days() as f64;
        let unused_days = UNUSED_YEARS * YEAR_DAYS;
        let is_unused = self.last.is_none_or(|last| days_since(last) >= unused_days)
            && days_since(records_from) >= unused_days
            && demand.exposure_days >= unused_days;
        if !is_unused {
            return None;
        }
        let pieces = self.free - level.max(self.insured);
        let basis = SurplusBasis::NotUsed {
            last: self.last,
            records_from,
            level,
            insured: self.insured,
        };
        Some((pieces > 1e-9).then_some((pieces, basis)))
    }
}

/// Stock that a level comes up to.
fn up_to(level: &Level) -> f64 {
    if level.reorder_point < 0.0 {
        return 0.0;
    }
    level.min_stock.max(0.0)
}

/// Quantity that planned rebuilds take of each lot of a part: they take none that ends before their day.
fn taken_of_lots(part: PartId, stock: &PartStock, needs: &[&RebuildNeed]) -> Vec<f64> {
    let mut taken = vec![0.0; stock.lots.len()];
    for need in needs {
        let factor = need.unit.in_units_of(stock.unit).unwrap_or(0.0);
        for supply in &need.supplies {
            let Source::Stock { part: of, lots } = &supply.source else {
                continue;
            };
            let mut left = if *of == part {
                supply.quantity * factor
            } else {
                0.0
            };
            for (lot, taken) in stock.lots.iter().zip(&mut taken) {
                if lots.contains(&lot.place) {
                    let here = (lot.free - *taken).clamp(0.0, left);
                    *taken += here;
                    left -= here;
                }
            }
        }
    }
    taken
}

/// Lots that end within a year with more in them than planned rebuilds and the usage expected until then take, the oldest
/// used first.
fn expiring(shelf: &Shelf<'_>, part: PartId, stock: &PartStock) -> Vec<Surplus> {
    let demand = shelf.plan.demands.get(&part);
    let today = shelf.shop.as_of.date();
    let Some(horizon) = today.checked_add_days(Days::new(EXPIRY_DAYS)) else {
        return Vec::new();
    };
    let needs = shelf.drawn.get(&part).map_or(&[][..], Vec::as_slice);
    let for_rebuilds = taken_of_lots(part, stock, needs);
    let (mut before, mut planned) = (0.0, 0.0);
    let mut found = Vec::new();
    for (lot, for_rebuilds) in stock.lots.iter().zip(for_rebuilds) {
        let older = before;
        let rest = (lot.free - for_rebuilds).max(0.0);
        before += rest;
        planned += for_rebuilds;
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
        let pieces = (left(before) - left(older)).min(rest);
        if pieces >= 0.5 {
            let basis = SurplusBasis::Expiring {
                until,
                lot: lot.free,
                for_rebuilds: planned,
                used: table.mean(),
            };
            let of_lot = NotNeeded {
                part,
                pieces,
                unit: stock.unit,
                basis,
            };
            found.push(shelf.line(of_lot, Some(&lot.place)));
        }
    }
    found
}

#[cfg(test)]
mod tests;
