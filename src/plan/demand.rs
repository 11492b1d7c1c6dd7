//! How often and in what quantities parts are used, with the exposure behind every rate.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use super::issue::PlanIssue;
use super::level::LeadTimeDemand;
use crate::catalogue::{PartId, Shop, UsageOf};
use crate::record::UsageReason;

/// Largest quantity of one usage that is compounded exactly.
const MOST_SIZE: f64 = 1000.0;

/// Usage rate of one part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rate {
    /// Quantity used over days of records.
    Known {
        /// Units of count a calendar day, returns taken off.
        pieces_per_day: f64,
    },
    /// No day since when usages were recorded, so that nothing can be divided.
    NoRecordsFrom,
    /// Records begin at or after the moment of planning.
    NoExposure,
}

/// Demand of one part as the records show it.
#[derive(Debug, Clone, PartialEq)]
pub struct Demand {
    /// Its rate.
    pub rate: Rate,
    /// Days of records.
    pub exposure_days: f64,
    /// Usages counted, returns left out.
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
    /// Usages for rebuilds, which are not counted where the kit has planned dates.
    pub for_planned_rebuilds: usize,
}

impl Demand {
    const fn none(rate: Rate, exposure_days: f64) -> Self {
        Self {
            rate,
            exposure_days,
            events: 0,
            net_quantity: 0.0,
            mean_size: 0.0,
            mean_square_size: 0.0,
            sizes: Vec::new(),
            before_records: 0,
            for_planned_rebuilds: 0,
        }
    }

    /// Distribution of the quantity used in a number of days; `None` without a rate.
    ///
    /// Quantities as they were used, compounded with Poisson usages; by two moments where a quantity is not whole.
    pub fn distribution(&self, days: f64) -> Option<LeadTimeDemand> {
        let (mean, variance) = self.over(days)?;
        if self.sizes.is_empty() || self.mean_size <= 0.0 {
            return Some(LeadTimeDemand::new(mean, variance));
        }
        Some(LeadTimeDemand::compound(mean / self.mean_size, &self.sizes))
    }

    /// Mean and variance of the quantity used in a number of days, as a compound Poisson demand; `None` without
    /// a rate.
    ///
    /// # Source
    /// Compound Poisson moments: mean `n E[X]`, variance `n E[X^2]` with n the expected number of usages (Ross,
    /// Introduction to Probability Models, compound Poisson process, from memory). Returns scale both.
    pub fn over(&self, days: f64) -> Option<(f64, f64)> {
        let Rate::Known { pieces_per_day } = self.rate else {
            return None;
        };
        let mean = pieces_per_day * days;
        let spread = if self.mean_size > 0.0 {
            self.mean_square_size / self.mean_size
        } else {
            1.0
        };
        Some((mean, mean * spread))
    }
}

/// Demand of every own part, and of every other part with usages.
///
/// Each part stands for itself; usages for rebuilds are left out for parts of kits with planned dates, because
/// those are planned as dated demand.
pub fn demands(shop: &Shop, issues: &mut Vec<PlanIssue>) -> BTreeMap<PartId, Demand> {
    let today = shop.as_of.date();
    let exposure = shop
        .settings
        .records_from
        .map(|from| (today - from).num_days());
    let rate = match exposure {
        None => Rate::NoRecordsFrom,
        Some(days) if days <= 0 => Rate::NoExposure,
        Some(_) => Rate::Known {
            pieces_per_day: 0.0,
        },
    };
    let days = exposure.unwrap_or(0).max(0) as f64;
    let mut usages: BTreeMap<PartId, Vec<&UsageOf>> = shop
        .catalogue
        .parts()
        .iter()
        .filter(|part| part.is_own)
        .map(|part| (part.id, Vec::new()))
        .collect();
    for usage in &shop.usages {
        if usage.record.date > today {
            issues.push(PlanIssue::InTheFuture {
                place: usage.record.place.clone(),
                date: usage.record.date,
            });
        } else {
            usages.entry(usage.part).or_default().push(usage);
        }
    }
    let dated = parts_of_planned_kits(shop);
    usages
        .into_iter()
        .map(|(part, usages)| {
            let from = shop.settings.records_from;
            let is_dated = dated.contains(&part);
            (
                part,
                demand(Demand::none(rate, days), from, &usages, is_dated),
            )
        })
        .collect()
}

fn demand(
    mut demand: Demand,
    records_from: Option<NaiveDate>,
    usages: &[&UsageOf],
    is_dated: bool,
) -> Demand {
    let mut net = 0.0;
    let (mut sum, mut squares) = (0.0, 0.0);
    let mut counts: BTreeMap<u32, usize> = BTreeMap::new();
    let mut is_whole = true;
    for usage in usages {
        let record = &usage.record;
        if records_from.is_some_and(|from| record.date < from) {
            demand.before_records += 1;
        } else if is_dated && record.reason == Some(UsageReason::Rebuild) {
            demand.for_planned_rebuilds += 1;
        } else {
            net += record.quantity;
            if record.quantity > 0.0 {
                demand.events += 1;
                sum += record.quantity;
                squares += record.quantity.powi(2);
                is_whole &= record.quantity.fract().abs() < 1e-9 && record.quantity <= MOST_SIZE;
                *counts.entry(record.quantity.round() as u32).or_default() += 1;
            }
        }
    }
    demand.net_quantity = net.max(0.0);
    if demand.events > 0 {
        demand.mean_size = sum / demand.events as f64;
        demand.mean_square_size = squares / demand.events as f64;
        if is_whole {
            let share = |count: usize| count as f64 / demand.events as f64;
            demand.sizes = counts
                .into_iter()
                .map(|(size, count)| (size, share(count)))
                .collect();
        }
    }
    if let Rate::Known { pieces_per_day } = &mut demand.rate {
        *pieces_per_day = demand.net_quantity / demand.exposure_days;
    }
    demand
}

fn parts_of_planned_kits(shop: &Shop) -> BTreeSet<PartId> {
    shop.kits
        .iter()
        .filter(|kit| !kit.planned.is_empty())
        .flat_map(|kit| kit.lines.iter().filter_map(|line| line.part))
        .collect()
}

#[cfg(test)]
mod tests;
