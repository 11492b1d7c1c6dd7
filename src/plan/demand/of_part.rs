//! Demand of every part of a shop.

use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

use super::super::LeadTimeDemand;
use super::super::exchange::Exchange;
use super::super::issue::PlanIssue;
use super::class::{ClassFigures, DemandClass};
use super::estimate::{Expected, estimates};
use super::exposure::{Exposure, NoExposureBecause, dates_contradict};
use super::gamma_poisson::EventRate;
use super::history::{History, Unexposed};
use super::life::PartLife;
use super::life_forecast::LifeForecast;
use super::likely_sizes::{MOST_SIZE, whole_sizes};
use super::moments::{DemandRate, RateBasis};
use super::planned::PlannedUse;
use crate::catalogue::{NameKey, PartId, Shop};
use crate::interchange::LineAcceptance;
use crate::parallel;
use crate::record::{DemandMethod, MachineRecord, UsageRecord};

/// Usages from which on the quantities taken are those that will be taken; as many as for a life or a lead time.
const ENOUGH_EVENTS: usize = 5;

/// Parts of a unit, at most, that quantities are looked at in: hundredths, as metres are written.
const MOST_PARTS: u32 = 100;

/// Kinds of quantity up to which each counts; with more, mean and spread say as much.
const MOST_KINDS: usize = 12;

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

/// Quantities of usages that are all so many times the same part of a unit, such as half metres.
#[derive(Debug, Clone, PartialEq)]
pub struct SizesInParts {
    /// Such parts in a unit.
    pub per_unit: u32,
    /// Parts that usages took, with the share of usages that took them, smallest first.
    pub sizes: Vec<(u32, f64)>,
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
    /// The same in the largest part of a unit that all are multiples of, where one is not whole; `None` where there is no such
    /// part that keeps the figures small.
    pub in_parts: Option<SizesInParts>,
    /// Quantities that few own usages and the group's make likely, with their shares; empty where these are not known.
    pub likely_sizes: Vec<(u32, f64)>,
    /// Usages before the records begin, which are not counted.
    pub before_records: usize,
    /// Usages for rebuilds with a date, which are not counted.
    pub for_planned_rebuilds: usize,
    /// Quantity above which a usage was left out as a slip; `None` where none was.
    pub left_out_above: Option<f64>,
    /// Class by month; a label only, `None` without usages.
    pub class: Option<DemandClass>,
    /// How often and in what quantities it is expected; `None` exactly where the rate is unknown.
    pub estimate: Option<DemandRate>,
    /// What the fitted parts will ask for by their ages, where their lives are known and hold for every usage.
    pub by_lives: Option<LifeForecast>,
}

impl Demand {
    /// Pieces a day, by the lives of the fitted parts over the coming year where these are known; `None` without a rate.
    pub fn per_day(&self) -> Option<f64> {
        if let Some(lives) = &self.by_lives {
            return Some(lives.pieces_per_day);
        }
        Some(self.estimate.as_ref()?.over(1.0).mean_pieces)
    }

    /// Quantities that usages take, with their shares, where these are known better than by mean and spread.
    ///
    /// Those [`taken`](Self::taken); of a part with fewer usages, which say too little of what else may be taken, its own
    /// and its group's (see `likely_sizes.rs`), or its own alone where no standard family says what is like it.
    pub fn quantities(&self) -> Option<&[(u32, f64)]> {
        let is_rare = self.events < ENOUGH_EVENTS && self.by_lives.is_none();
        let likely = is_rare && self.estimate.is_some() && !self.likely_sizes.is_empty();
        self.taken()
            .or_else(|| likely.then_some(&self.likely_sizes[..]))
    }

    /// Quantities that a part's own usages took, where these are enough to go by.
    ///
    /// Whole quantities of five usages or more, not all of one piece and not of very many kinds; plain history keeps its
    /// quantities as they were.
    pub fn taken(&self) -> Option<&[(u32, f64)]> {
        let estimate = self.estimate.as_ref()?;
        let is_enough = self.events >= ENOUGH_EVENTS
            && self.sizes.len() <= MOST_KINDS
            && self.sizes.iter().any(|(size, _)| *size > 1);
        let is_plain = estimate.basis == RateBasis::Plain;
        (!self.sizes.is_empty() && (is_plain || is_enough)).then_some(&self.sizes)
    }

    /// The [`quantities`](Self::quantities) where they are those of its own usages and nobody else's.
    pub fn own_quantities(&self) -> Option<&[(u32, f64)]> {
        let quantities = self.quantities()?;
        let is_same = |((size, share), (own, of_own)): (&(u32, f64), &(u32, f64))| {
            size == own && (share - of_own).abs() < 1e-9
        };
        let is_own =
            quantities.len() == self.sizes.len() && quantities.iter().zip(&self.sizes).all(is_same);
        is_own.then_some(quantities)
    }

    /// The [`quantities`](Self::quantities), or as good ones in parts of a unit, with the number of parts in a unit.
    pub fn recorded(&self) -> Option<(u32, &[(u32, f64)])> {
        if let Some(whole) = self.quantities() {
            return Some((1, whole));
        }
        let (parts, estimate) = (self.in_parts.as_ref()?, self.estimate.as_ref()?);
        let is_enough = self.events >= ENOUGH_EVENTS && parts.sizes.len() <= MOST_KINDS;
        let is_plain = estimate.basis == RateBasis::Plain;
        (is_plain || is_enough).then_some((parts.per_unit, &parts.sizes[..]))
    }

    /// Usages of these [`recorded`](Self::recorded) quantities, so many that the mean demand stays that of the estimate.
    pub fn usages(&self) -> Option<EventRate> {
        let estimate = self.estimate.as_ref()?;
        if let Some(lives) = &self.by_lives {
            return Some(EventRate::certain(lives.pieces_per_day / self.mean_size));
        }
        let mut usages = estimate.events;
        if let Some((per_unit, sizes)) = self.recorded() {
            let mean: f64 = sizes
                .iter()
                .map(|(size, share)| f64::from(*size) * share)
                .sum();
            usages.exposure_days *= mean / f64::from(per_unit) / estimate.size.mean_pieces;
        }
        Some(usages)
    }

    /// Distribution of the quantity used in a number of days; `None` without a rate.
    pub fn distribution(&self, days: f64) -> Option<LeadTimeDemand> {
        self.distribution_over(days, 0.0)
    }

    /// Distribution of the quantity used in a time that varies, with its mean and coefficient of variation; `None`
    /// without a rate.
    ///
    /// By the lives of the fitted parts where these are known; else usages negative binomial by their two moments,
    /// compounded with the quantities that they take where these are known, else the quantity negative binomial by its
    /// two moments.
    pub fn distribution_over(&self, mean_days: f64, cv: f64) -> Option<LeadTimeDemand> {
        if let Some(lives) = &self.by_lives {
            return Some(lives.demand_over_lognormal(mean_days, cv));
        }
        let variance_days2 = (mean_days * cv).powi(2);
        if let (Some((per_unit, sizes)), Some(usages)) = (self.recorded(), self.usages()) {
            let (mean, variance) = usages.events_over_random(mean_days, variance_days2);
            let demand = LeadTimeDemand::compound_of(mean, variance, sizes);
            return Some(demand.in_parts_of(per_unit));
        }
        let estimate = self.estimate.as_ref()?;
        Some(
            estimate
                .over_random(mean_days, variance_days2)
                .distribution(),
        )
    }

    /// The same where the rate is its mean for sure; `None` without a rate.
    ///
    /// For what comes about again and again, such as stock that ends: how often it does is a mean over rates, and no share of one
    /// long time in which a single rate holds.
    pub fn distribution_at_mean_rate(&self, days: f64) -> Option<LeadTimeDemand> {
        let mean = self.per_day()? * days;
        if self.by_lives.is_some() {
            // Fitted pieces are renewed many times.
            return Some(LeadTimeDemand::Poisson { mean });
        }
        if let Some((per_unit, sizes)) = self.recorded() {
            let terms = sizes.iter();
            let parts: f64 = terms.map(|(size, share)| f64::from(*size) * share).sum();
            let usages = mean * f64::from(per_unit) / parts;
            return Some(LeadTimeDemand::compound(usages, sizes).in_parts_of(per_unit));
        }
        let size = self.estimate.as_ref()?.size;
        Some(LeadTimeDemand::new(
            mean,
            mean * size.mean_pieces * (1.0 + size.squared_cv),
        ))
    }

    /// Mean and variance of the quantity used in a number of days; `None` without a rate.
    pub fn over(&self, days: f64) -> Option<(f64, f64)> {
        Some(self.distribution(days)?.moments())
    }

    fn of(history: &History, expected: Option<Expected>, life: Option<&PartLife>) -> Self {
        let (estimate, likely_sizes) = match expected {
            Some(expected) => (Some(expected.rate), expected.likely_sizes),
            None => (None, Vec::new()),
        };
        let events = history.used.len();
        let share = |sum: f64| if events > 0 { sum / events as f64 } else { 0.0 };
        let quantity = history.quantity();
        let squares: f64 = history.used.iter().map(|used| used.quantity.powi(2)).sum();
        let sizes = whole_sizes(history);
        let in_parts = (2..=MOST_PARTS)
            .filter(|_| sizes.is_empty() && !history.used.is_empty())
            .find_map(|per_unit| {
                let sizes = sizes_in(history, per_unit)?;
                Some(SizesInParts { per_unit, sizes })
            });
        let exposure = history.exposure.as_ref().ok();
        let exposure_days = exposure.map_or(0.0, Exposure::all_days);
        let by_lives = life
            .filter(|_| estimate.is_some())
            .and_then(|life| LifeForecast::new(life, events, exposure_days, &sizes));
        let rate = match (&estimate, &history.exposure) {
            (Some(estimate), _) => Rate::Known {
                pieces_per_day: by_lives
                    .as_ref()
                    .map_or(estimate.over(1.0).mean_pieces, |lives| lives.pieces_per_day),
            },
            (None, Ok(_)) => Rate::NoUsages,
            (None, Err(Unexposed::NoRecordsFrom)) => Rate::NoRecordsFrom,
            (None, Err(Unexposed::Because(NoExposureBecause::NotBegun))) => Rate::NoExposure,
            (None, Err(Unexposed::Because(NoExposureBecause::Retired))) => Rate::MachinesRetired,
        };
        Self {
            rate,
            exposure_days,
            events,
            net_quantity: quantity,
            mean_size: share(quantity),
            mean_square_size: share(squares),
            sizes,
            in_parts,
            likely_sizes,
            before_records: history.before_records,
            for_planned_rebuilds: history.for_planned_rebuilds,
            left_out_above: history.left_out_above,
            class: ClassFigures::of(&history.by_month()).map(|figures| figures.class()),
            estimate,
            by_lives,
        }
    }
}

/// Quantities in parts of a unit with their shares; `None` where one is no whole number of them.
fn sizes_in(history: &History, per_unit: u32) -> Option<Vec<(u32, f64)>> {
    let mut counts: BTreeMap<u32, usize> = BTreeMap::new();
    for used in &history.used {
        let parts = used.quantity * f64::from(per_unit);
        if (parts - parts.round()).abs() > 1e-9 || parts > MOST_SIZE {
            return None;
        }
        *counts.entry(parts.round() as u32).or_default() += 1;
    }
    let share = |count: usize| count as f64 / history.used.len() as f64;
    let sizes = counts.into_iter();
    Some(sizes.map(|(size, count)| (size, share(count))).collect())
}

/// Demand of every own part, and of every other part with usages, by the method of the settings.
///
/// Lives in running hours that hold for every usage of a part come before its rate, unless the settings name another
/// method than the usual one.
///
/// Usages in rebuilds are left out where such rebuilds are planned, because those are dated demand and netted first.
pub fn demands(
    shop: &Shop,
    acceptances: &[LineAcceptance],
    lives: &BTreeMap<PartId, PartLife>,
    issues: &mut Vec<PlanIssue>,
) -> BTreeMap<PartId, Arc<Demand>> {
    let histories = histories(shop, acceptances, issues);
    let mut estimates = estimates(shop, &Exchange::new(&shop.settings), &histories);
    let is_usual = shop.settings.planning.demand_method == DemandMethod::Shrinkage;
    let each: Vec<(PartId, History, Option<Expected>)> = histories
        .into_iter()
        .map(|(part, history)| (part, history, estimates.remove(&part)))
        .collect();
    let demands = parallel::each_of(each, |(part, history, estimate)| {
        let life = lives.get(&part).filter(|_| is_usual);
        (part, Arc::new(Demand::of(&history, estimate, life)))
    });
    demands.into_iter().collect()
}

/// Histories of the same parts.
fn histories(
    shop: &Shop,
    acceptances: &[LineAcceptance],
    issues: &mut Vec<PlanIssue>,
) -> BTreeMap<PartId, History> {
    let today = shop.as_of.date();
    let contradicting = shop.machines.values().filter(|m| dates_contradict(m));
    issues.extend(contradicting.map(|machine| PlanIssue::RetiredBeforeUse {
        place: machine.place.clone(),
        machine: machine.machine.clone(),
    }));
    let (machines, (planned, slips)) = parallel::both(
        || machines_of_parts(shop),
        || {
            let planned = PlannedUse::new(shop, acceptances);
            let slips = slips(shop, &planned);
            (planned, slips)
        },
    );
    let whole = exposure(shop, &[]);
    let of = |part: PartId| {
        History::new(match &machines[part.0 as usize] {
            Some(names) => exposure(shop, names),
            None => whole.clone(),
        })
    };
    let own = shop.catalogue.parts().iter().filter(|part| part.is_own);
    let own: Vec<PartId> = own.map(|part| part.id).collect();
    // By id while usages are added, because there may be a million of them.
    let mut found: Vec<Option<History>> = vec![None; shop.catalogue.parts().len()];
    for (part, history) in own.iter().zip(parallel::each(&own, |part| of(*part))) {
        found[part.0 as usize] = Some(history);
    }
    let records_from = shop.settings.records_from;
    let is_before_records =
        |record: &UsageRecord| records_from.is_some_and(|from| record.date < from);
    let mut before_records: Option<(&UsageRecord, usize)> = None;
    for usage in &shop.usages {
        let record = &usage.record;
        if record.date > today {
            issues.push(PlanIssue::InTheFuture {
                place: record.place.clone(),
                date: record.date,
            });
            continue;
        }
        let history = found[usage.part.0 as usize].get_or_insert_with(|| of(usage.part));
        if record.quantity.abs() < 1e-9 || !record.quantity.is_finite() {
            issues.push(PlanIssue::NoQuantity {
                place: record.place.clone(),
                part: record.part.to_string(),
            });
        } else if is_before_records(record) {
            history.before_records += 1;
            before_records.get_or_insert((record, 0)).1 += 1;
        } else if planned.covers(usage) {
            history.for_planned_rebuilds += 1;
        } else if let Some(most) = slips
            .get(&usage.part)
            .filter(|most| record.quantity > **most)
        {
            history.left_out_above = Some(*most);
            issues.push(PlanIssue::FarAboveOthers {
                place: record.place.clone(),
                part: record.part.to_string(),
                quantity: record.quantity,
                most: *most,
            });
        } else {
            history.add(today, record.date, record.quantity, &record.place);
        }
    }
    if let Some(((first, count), from)) = before_records.zip(records_from) {
        issues.push(PlanIssue::BeforeRecords {
            place: first.place.clone(),
            date: first.date,
            from,
            count,
        });
    }
    let found = by_part(shop, found);
    issues.extend(returned_too_much(shop, &found));
    found
}

/// Histories by part, of those that have one.
fn by_part(shop: &Shop, histories: Vec<Option<History>>) -> BTreeMap<PartId, History> {
    let parts = shop.catalogue.parts().iter().map(|part| part.id);
    let known = parts.zip(histories);
    known
        .filter_map(|(part, history)| Some((part, history?)))
        .collect()
}

/// More returned of a part than was used.
fn returned_too_much(
    shop: &Shop,
    histories: &BTreeMap<PartId, History>,
) -> impl Iterator<Item = PlanIssue> {
    histories.iter().filter_map(|(part, history)| {
        let (place, excess) = history.returned_too_much.as_ref()?;
        Some(PlanIssue::ReturnedTooMuch {
            place: place.clone(),
            part: shop.catalogue.part(*part).number.clone(),
            excess: *excess,
        })
    })
}

/// Times the most that every other usage of a part took, above which a usage is taken for a slip of the keys. Common
/// practice, no source.
const TIMES_THE_OTHERS: f64 = 100.0;

/// Parts with one usage far above all others, with the most that another one took.
fn slips(shop: &Shop, planned: &PlannedUse) -> BTreeMap<PartId, f64> {
    let (today, from) = (shop.as_of.date(), shop.settings.records_from);
    let mut largest: Vec<(f64, f64)> = vec![(0.0, 0.0); shop.catalogue.parts().len()];
    for usage in &shop.usages {
        let record = &usage.record;
        let two = &mut largest[usage.part.0 as usize];
        if record.quantity <= two.1 || !record.quantity.is_finite() {
            continue;
        }
        let is_counted = record.date <= today && from.is_none_or(|from| record.date >= from);
        if is_counted && !planned.covers(usage) {
            *two = if record.quantity > two.0 {
                (record.quantity, two.0)
            } else {
                (two.0, record.quantity)
            };
        }
    }
    let parts = shop.catalogue.parts().iter().map(|part| part.id);
    parts
        .zip(largest)
        .filter(|(_, (most, second))| *second > 0.0 && *most > TIMES_THE_OTHERS * second)
        .map(|(part, (_, second))| (part, second))
        .collect()
}

/// Exposure of a part that these machines use; without machines, of the whole shop.
fn exposure(shop: &Shop, machines: &[&MachineRecord]) -> Result<Exposure, Unexposed> {
    let from = shop.settings.records_from.ok_or(Unexposed::NoRecordsFrom)?;
    Exposure::new(from, shop.as_of.date(), machines).map_err(Unexposed::Because)
}

/// Machines by the id of the part, from kit lines, usages and the parts table, in the order of their keys; `None` for a part
/// of which no machine is named, or one that is in no table.
fn machines_of_parts(shop: &Shop) -> Vec<Option<Vec<&MachineRecord>>> {
    let records: Vec<&MachineRecord> = shop.machines.values().collect();
    let by_key: HashMap<&str, usize> = shop.machines.keys().map(String::as_str).zip(0..).collect();
    let parts = shop.catalogue.parts();
    let mut found: Vec<Vec<usize>> = vec![Vec::new(); parts.len()];
    let mut has_unknown = vec![false; parts.len()];
    // A few thousand names stand for a million usages.
    let mut known: HashMap<&str, Option<usize>> = HashMap::new();
    for (part, name) in named_machines(shop) {
        let machine = name.and_then(|name| {
            let of_name = || by_key.get(NameKey::new(name).as_str()).copied();
            *known.entry(name).or_insert_with(of_name)
        });
        let at = part.0 as usize;
        match machine {
            Some(machine) => {
                if let Err(place) = found[at].binary_search(&machine) {
                    found[at].insert(place, machine);
                }
            }
            None => has_unknown[at] = true,
        }
    }
    let of_parts = found.into_iter().zip(has_unknown);
    of_parts
        .map(|(machines, has_unknown)| {
            let is_known = !has_unknown && !machines.is_empty();
            is_known.then(|| machines.into_iter().map(|at| records[at]).collect())
        })
        .collect()
}

/// Each part with a machine it is named with; a kit may name none.
fn named_machines(shop: &Shop) -> impl Iterator<Item = (PartId, Option<&str>)> {
    let of_kits = shop.kits.iter().flat_map(|kit| {
        let parts = kit.lines.iter().filter_map(|line| line.part);
        parts.map(|part| (part, kit.machine.as_deref()))
    });
    let of_usages = shop.usages.iter().filter_map(|usage| {
        let machine = usage.record.machine.as_deref()?;
        Some((usage.part, Some(machine)))
    });
    let of_parts = shop.catalogue.parts().iter().flat_map(|part| {
        let machines = part.machines.iter();
        machines.map(|machine| (part.id, Some(machine.as_str())))
    });
    of_kits.chain(of_usages).chain(of_parts)
}

#[cfg(test)]
mod tests;
