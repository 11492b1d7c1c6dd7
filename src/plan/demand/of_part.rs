//! Demand of every part of a shop.

use std::collections::{BTreeMap, BTreeSet};

use super::super::LeadTimeDemand;
use super::super::exchange::Exchange;
use super::super::issue::PlanIssue;
use super::class::{ClassFigures, DemandClass};
use super::estimate::estimates;
use super::exposure::{Exposure, NoExposureBecause, dates_contradict};
use super::history::{History, Unexposed};
use super::moments::{DemandRate, RateBasis};
use super::planned::PlannedUse;
use crate::catalogue::{NameKey, PartId, Shop};
use crate::interchange::LineAcceptance;
use crate::record::MachineRecord;

/// Largest quantity of one usage that is compounded exactly.
const MOST_SIZE: f64 = 1000.0;

/// Usage rate of one part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rate {
    /// A rate, by the method of the settings.
    Known {
        /// Units of count a calendar day.
        pieces_per_day: f64,
    },
    /// No day since when usages were recorded, so that nothing can be divided.
    NoRecordsFrom,
    /// Records or machines begin at or after the moment of planning.
    NoExposure,
    /// No part of the shop has a usage: the list of usages is missing, not the demand.
    NoUsages,
    /// Every machine that uses the part has left service.
    MachinesRetired,
}

/// Demand of one part: what the records show, and what is expected of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Demand {
    /// Its rate.
    pub rate: Rate,
    /// Days of records, as many as today's machines would have seen.
    pub exposure_days: f64,
    /// Usages counted, returns taken off.
    pub events: usize,
    /// Quantity used, returns taken off, never below 0.
    pub net_quantity: f64,
    /// Mean quantity of a usage; 0 without usages.
    pub mean_size: f64,
    /// Mean of the squared quantity of a usage; 0 without usages.
    pub mean_square_size: f64,
    /// Quantities of a usage with the share of usages that took them, smallest first; empty where one is not whole.
    pub sizes: Vec<(u32, f64)>,
    /// Usages before the records begin, which are not counted.
    pub before_records: usize,
    /// Usages for rebuilds with a date, which are not counted.
    pub for_planned_rebuilds: usize,
    /// Class by month; a label only, `None` without usages.
    pub class: Option<DemandClass>,
    /// How often and in what quantities it is expected; `None` exactly where the rate is unknown.
    pub estimate: Option<DemandRate>,
}

impl Demand {
    /// Distribution of the quantity used in a number of days; `None` without a rate.
    ///
    /// Negative binomial by two moments; plain history keeps its quantities as they were, compounded with Poisson usages.
    pub fn distribution(&self, days: f64) -> Option<LeadTimeDemand> {
        let estimate = self.estimate.as_ref()?;
        if estimate.basis == RateBasis::Plain && !self.sizes.is_empty() {
            let usages = estimate.events.mean_per_day() * days;
            return Some(LeadTimeDemand::compound(usages, &self.sizes));
        }
        Some(estimate.over(days).distribution())
    }

    /// Mean and variance of the quantity used in a number of days; `None` without a rate.
    pub fn over(&self, days: f64) -> Option<(f64, f64)> {
        let moments = self.estimate.as_ref()?.over(days);
        Some((moments.mean_pieces, moments.variance_pieces2))
    }

    fn of(history: &History, estimate: Option<DemandRate>) -> Self {
        let events = history.used.len();
        let share = |sum: f64| if events > 0 { sum / events as f64 } else { 0.0 };
        let quantity = history.quantity();
        let squares: f64 = history.used.iter().map(|used| used.quantity.powi(2)).sum();
        let rate = match (&estimate, &history.exposure) {
            (Some(estimate), _) => Rate::Known {
                pieces_per_day: estimate.over(1.0).mean_pieces,
            },
            (None, Ok(_)) => Rate::NoUsages,
            (None, Err(Unexposed::NoRecordsFrom)) => Rate::NoRecordsFrom,
            (None, Err(Unexposed::Because(NoExposureBecause::NotBegun))) => Rate::NoExposure,
            (None, Err(Unexposed::Because(NoExposureBecause::Retired))) => Rate::MachinesRetired,
        };
        let exposure = history.exposure.as_ref().ok();
        Self {
            rate,
            exposure_days: exposure.map_or(0.0, Exposure::all_days),
            events,
            net_quantity: quantity,
            mean_size: share(quantity),
            mean_square_size: share(squares),
            sizes: whole_sizes(history),
            before_records: history.before_records,
            for_planned_rebuilds: history.for_planned_rebuilds,
            class: ClassFigures::of(&history.by_month()).map(|figures| figures.class()),
            estimate,
        }
    }
}

/// Quantities with their shares; empty without usages or where one is not whole.
fn whole_sizes(history: &History) -> Vec<(u32, f64)> {
    let mut counts: BTreeMap<u32, usize> = BTreeMap::new();
    for used in &history.used {
        if used.quantity.fract().abs() > 1e-9 || used.quantity > MOST_SIZE {
            return Vec::new();
        }
        *counts.entry(used.quantity.round() as u32).or_default() += 1;
    }
    let share = |count: usize| count as f64 / history.used.len() as f64;
    counts
        .into_iter()
        .map(|(size, count)| (size, share(count)))
        .collect()
}

/// Demand of every own part, and of every other part with usages, by the method of the settings.
///
/// Usages in rebuilds are left out where such rebuilds are planned, because those are dated demand and netted first.
pub fn demands(
    shop: &Shop,
    acceptances: &[LineAcceptance],
    issues: &mut Vec<PlanIssue>,
) -> BTreeMap<PartId, Demand> {
    let histories = histories(shop, acceptances, issues);
    let estimates = estimates(shop, &Exchange::new(&shop.settings), &histories);
    histories
        .iter()
        .map(|(part, history)| (*part, Demand::of(history, estimates.get(part).cloned())))
        .collect()
}

/// Histories of the same parts.
fn histories(
    shop: &Shop,
    acceptances: &[LineAcceptance],
    issues: &mut Vec<PlanIssue>,
) -> BTreeMap<PartId, History> {
    let today = shop.as_of.date();
    for machine in shop.machines.values().filter(|m| dates_contradict(m)) {
        issues.push(PlanIssue::RetiredBeforeUse {
            place: machine.place.clone(),
            machine: machine.machine.clone(),
        });
    }
    let machines = machines_of_parts(shop);
    let whole = exposure(shop, &Some(BTreeSet::new()));
    let of = |part: PartId| {
        let exposure = machines
            .get(&part)
            .map_or_else(|| whole.clone(), |names| exposure(shop, names));
        History::new(exposure)
    };
    let own = shop.catalogue.parts().iter().filter(|part| part.is_own);
    let mut found: BTreeMap<PartId, History> = own.map(|part| (part.id, of(part.id))).collect();
    let planned = PlannedUse::new(shop, acceptances);
    for usage in &shop.usages {
        let record = &usage.record;
        if record.date > today {
            issues.push(PlanIssue::InTheFuture {
                place: record.place.clone(),
                date: record.date,
            });
            continue;
        }
        let history = found.entry(usage.part).or_insert_with(|| of(usage.part));
        if record.quantity.abs() < 1e-9 || !record.quantity.is_finite() {
            issues.push(PlanIssue::NoQuantity {
                place: record.place.clone(),
                part: record.part.clone(),
            });
        } else if shop
            .settings
            .records_from
            .is_some_and(|from| record.date < from)
        {
            history.before_records += 1;
        } else if planned.covers(usage) {
            history.for_planned_rebuilds += 1;
        } else {
            history.add(today, record.date, record.quantity, &record.place);
        }
    }
    for (part, history) in &found {
        if let Some((place, excess)) = &history.returned_too_much {
            issues.push(PlanIssue::ReturnedTooMuch {
                place: place.clone(),
                part: shop.catalogue.part(*part).number.clone(),
                excess: *excess,
            });
        }
    }
    found
}

/// Exposure of a part that these machines use; `None` where one of them is in no table, so that it is the whole shop's.
fn exposure(shop: &Shop, machines: &Option<BTreeSet<String>>) -> Result<Exposure, Unexposed> {
    let from = shop.settings.records_from.ok_or(Unexposed::NoRecordsFrom)?;
    let known: Vec<&MachineRecord> = machines
        .iter()
        .flatten()
        .filter_map(|name| shop.machines.get(name))
        .collect();
    Exposure::new(from, shop.as_of.date(), &known).map_err(Unexposed::Because)
}

/// Machines by part, from kit lines and usages; `None` where a machine is not named or in no table.
fn machines_of_parts(shop: &Shop) -> BTreeMap<PartId, Option<BTreeSet<String>>> {
    let mut found: BTreeMap<PartId, Option<BTreeSet<String>>> = BTreeMap::new();
    let mut add = |part: PartId, machine: Option<&String>| {
        let key = machine.map(|name| NameKey::new(name).as_str().to_owned());
        let known = key.filter(|key| shop.machines.contains_key(key));
        let of_part = found.entry(part).or_insert_with(|| Some(BTreeSet::new()));
        match (of_part.as_mut(), known) {
            (Some(names), Some(name)) => {
                names.insert(name);
            }
            _ => *of_part = None,
        }
    };
    for kit in &shop.kits {
        for part in kit.lines.iter().filter_map(|line| line.part) {
            add(part, kit.machine.as_ref());
        }
    }
    for usage in &shop.usages {
        if usage.record.machine.is_some() {
            add(usage.part, usage.record.machine.as_ref());
        }
    }
    found
}

#[cfg(test)]
mod tests;
