//! Which machines use a part, and what an hour of waiting for it counts.
//!
//! Who waits for a part is the machine that uses it next: an hour of waiting counts the sum of p_i c_i over its machines,
//! where c_i is what an hour of machine i counts and p_i the probability that the next usage is on it (waits are served
//! first come first served, whatever machine they are of). Of N usages recorded on known machines n_i are on machine i;
//! with a Dirichlet prior worth one usage that is spread as machines are installed, q_i in all 1, the probability is
//! p_i = (n_i + q_i) / (N + 1) (mean of the Dirichlet of a multinomial sample, Gelman et al., Bayesian Data Analysis, from
//! memory; that the prior is worth one usage is common practice, no source). So a machine that only a kit or the parts
//! table names still counts, the less the more is recorded. Where no usage is on a known machine nothing says who uses it,
//! and the dearest counts, on the safe side. Machines that have left service wait for nothing.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use super::named_machine::{Machines, Named, NamedMachine, machines_of_parts};
use super::waiting_basis::WaitingBasis;
use crate::catalogue::{PartId, Shop, UsageOf};
use crate::parallel;
use crate::plan::demand::last_day_in_service;
use crate::plan::exchange::Exchange;
use crate::plan::middles::middles;
use crate::record::MachineRecord;
use crate::units::Money;

/// Where a part is used.
#[derive(Debug, Clone, PartialEq)]
pub struct PartUse {
    /// An hour of waiting, weighted by criticality, in units of the shop's currency.
    pub waiting_per_h: f64,
    /// The same hour as it costs, without criticality.
    pub cost_per_h: f64,
    /// What that rests on.
    pub basis: WaitingBasis,
    /// Highest criticality weight among its machines; 1 without one.
    pub criticality_weight: f64,
    /// True where one of its machines is of the highest criticality of the shop, as weights, service targets or letters rank
    /// them, or where nothing ranks any machine.
    pub is_most_critical: bool,
    /// Places where the part sits, over all machines; `None` where one does not say.
    pub places: Option<u32>,
    /// Machines that use it, as far as machine records know them.
    pub machines: u32,
    /// Day on which the last of its machines leaves service; `None` where one has no such day.
    pub in_use_until: Option<NaiveDate>,
    /// Those of its machines in service that the machines table has.
    waiting: Vec<MayWait>,
}

/// A machine that may wait for a part.
#[derive(Debug, Clone, PartialEq)]
struct MayWait {
    /// Its name.
    name: String,
    /// An hour of it, weighted by criticality.
    per_h: f64,
    /// The same hour as it costs.
    cost_per_h: f64,
    /// Weight of its criticality.
    weight: f64,
    /// True where a table says what its hour costs.
    is_known: bool,
    /// How many are installed.
    installed: f64,
    /// Usages of the part on it.
    usages: u32,
}

/// Uses of every part that a kit or a usage ties to a machine, and what holds for the others.
#[derive(Debug)]
pub struct PartUses {
    by_part: BTreeMap<PartId, PartUse>,
    others: PartUse,
    named: Vec<NamedMachine>,
}

impl PartUses {
    /// Looks at kits and usages.
    pub fn new(shop: &Shop, exchange: Exchange<'_>) -> Self {
        let hourly = |machine: &MachineRecord| {
            let own = exchange.in_own_currency(machine.downtime_cost_per_hour?)?;
            Some(own.to_units()).filter(|cost| *cost > 0.0)
        };
        let known: Vec<f64> = shop.machines.values().filter_map(hourly).collect();
        let (waiting_per_h, basis) = shop
            .settings
            .planning
            .downtime_cost_per_hour
            .map(|cost| (cost, WaitingBasis::Setting))
            .or_else(|| {
                let basis = WaitingBasis::MiddleOfMachines {
                    machines: known.len(),
                    in_place_of: None,
                };
                Some((median(&known)?, basis))
            })
            .unwrap_or((1.0, WaitingBasis::NothingKnown));
        let others = PartUse {
            waiting_per_h,
            cost_per_h: waiting_per_h,
            basis,
            criticality_weight: 1.0,
            is_most_critical: false,
            places: None,
            machines: 0,
            in_use_until: None,
            waiting: Vec::new(),
        };
        let (of_parts, mut named) = machines_of_parts(shop);
        for (key, machine) in &mut named {
            let listed = shop.machines.get(&**key);
            machine.is_listed = listed.is_some();
            machine.has_cost = listed.and_then(hourly).is_some();
        }
        let highest = Highest::of(shop);
        let each: Vec<(PartId, Machines)> = of_parts.into_iter().collect();
        let by_part = parallel::each_of(each, |(part, machines)| {
            let mut found = part_use(shop, (&machines, &named), &others, &hourly);
            let mut known = machines.iter().filter_map(|of| shop.machines.get(&*of.key));
            found.is_most_critical = known.any(|machine| highest.is_it(shop, machine));
            (part, found)
        });
        Self {
            by_part: by_part.into_iter().collect(),
            others,
            named: named.into_values().collect(),
        }
    }

    /// Machines that kits, usages or the parts table name, by the key of their name.
    pub fn named(&self) -> &[NamedMachine] {
        &self.named
    }

    /// True where the settings say what an hour down of any machine costs.
    pub fn is_priced_by_setting(&self) -> bool {
        self.others.basis == WaitingBasis::Setting
    }

    /// False where no machine and no setting says what an hour down costs: then every hour counts alike, in no money.
    pub fn prices_hours(&self) -> bool {
        self.others.basis != WaitingBasis::NothingKnown
    }

    /// Parts all of whose machines have a last day, with the latest.
    pub fn last_days(&self) -> BTreeMap<PartId, NaiveDate> {
        let known = self.by_part.iter();
        known
            .filter_map(|(part, part_use)| Some((*part, part_use.in_use_until?)))
            .collect()
    }

    /// Use of several parts that go in for each other.
    ///
    /// An hour of waiting counts as for one part that all their machines use; places and machines add up.
    pub fn of_all(&self, parts: &[PartId]) -> PartUse {
        let of: Vec<&PartUse> = parts.iter().map(|part| self.of(*part)).collect();
        let is_priced = |of: &&&PartUse| {
            let basis = &of.basis;
            matches!(
                basis,
                WaitingBasis::Machine { .. } | WaitingBasis::ByUsages { .. }
            )
        };
        let known = of.iter().filter(is_priced);
        let dearest = known
            .max_by(|a, b| a.waiting_per_h.total_cmp(&b.waiting_per_h))
            .or(of.first());
        let mut found = dearest.map_or_else(|| self.others.clone(), |dearest| (*dearest).clone());
        found.waiting = together(of.iter().flat_map(|of| &of.waiting));
        found.price_by_usages();
        found.criticality_weight = of
            .iter()
            .map(|of| of.criticality_weight)
            .fold(0.0, f64::max);
        found.is_most_critical = of.iter().any(|of| of.is_most_critical);
        found.places = of.iter().map(|of| of.places).sum();
        found.machines = of.iter().map(|of| of.machines).sum();
        let until: Option<Vec<NaiveDate>> = of.iter().map(|of| of.in_use_until).collect();
        found.in_use_until = until.and_then(|days| days.into_iter().max());
        found
    }

    /// Use of a part.
    pub fn of(&self, part: PartId) -> &PartUse {
        self.by_part.get(&part).unwrap_or(&self.others)
    }
}

impl PartUse {
    /// Prices an hour by the share of usages of each machine; false where [`by_usages`] has none.
    fn price_by_usages(&mut self) -> bool {
        let Some((shares, basis)) = by_usages(&self.waiting) else {
            return false;
        };
        let each = || shares.iter().zip(&self.waiting);
        let waiting_per_h = each().map(|(share, of)| share * of.per_h).sum();
        let cost_per_h = each().map(|(share, of)| share * of.cost_per_h).sum();
        (self.waiting_per_h, self.cost_per_h) = (waiting_per_h, cost_per_h);
        self.basis = basis;
        true
    }
}

fn part_use(
    shop: &Shop,
    (machines, named): (&Machines, &Named),
    others: &PartUse,
    hourly: &(impl Fn(&MachineRecord) -> Option<f64> + Sync),
) -> PartUse {
    let mut found = others.clone();
    let mut places = Some(0.0);
    let mut known = Vec::new();
    for of in machines {
        let Some(machine) = shop.machines.get(&*of.key) else {
            places = None;
            continue;
        };
        known.push(machine);
        let weight = criticality_weight(shop, machine);
        let per_h = hourly(machine);
        let cost_per_h = per_h.unwrap_or(others.cost_per_h);
        found.criticality_weight = found.criticality_weight.max(weight);
        found.waiting.push(MayWait {
            name: machine.machine.clone(),
            per_h: cost_per_h * weight,
            cost_per_h,
            weight,
            is_known: per_h.is_some(),
            installed: machine.installed.unwrap_or(1.0).max(1.0),
            usages: of.usages,
        });
        let here = machine.installed.zip(of.quantity).map(|(a, b)| a * b);
        places = places.zip(here).map(|(sum, here)| sum + here);
        found.machines += machine.installed.unwrap_or(1.0).max(1.0) as u32;
    }
    let today = shop.as_of.date();
    let is_there = |machine: &&MachineRecord| machine.in_use_until.is_none_or(|day| day > today);
    if known.iter().any(is_there) {
        let mut is_there = known.iter().map(is_there);
        found.waiting.retain(|_| is_there.next().unwrap_or(true));
    }
    let is_shared = found.price_by_usages();
    if let Some(dearest) = dearest(&found.waiting).filter(|_| !is_shared) {
        (found.waiting_per_h, found.cost_per_h) = (dearest.per_h, dearest.cost_per_h);
        found.basis = if dearest.is_known {
            WaitingBasis::Machine {
                name: dearest.name.clone(),
                weight: dearest.weight,
            }
        } else {
            stands_in(&found.basis, dearest.name.clone())
        };
    } else if let Some(named) = machines.first().and_then(|of| named.get(&of.key)) {
        found.basis = stands_in(&found.basis, named.name.clone());
    }
    found.places = places
        .filter(|places| *places >= 1.0 && *places <= 1000.0)
        .map(|places| places.round() as u32);
    // A machine in no table may run for ever.
    found.in_use_until = last_day_in_service(&known).filter(|_| known.len() == machines.len());
    found
}

/// The machine whose hour counts most, the first of several.
fn dearest(machines: &[MayWait]) -> Option<&MayWait> {
    machines
        .iter()
        .reduce(|most, of| if of.per_h > most.per_h { of } else { most })
}

/// The probability that each of several machines waits, as derived above; `None` for one machine, where no usage is on any
/// of them, and where no table says of any what its hour costs.
fn by_usages(machines: &[MayWait]) -> Option<(Vec<f64>, WaitingBasis)> {
    let usages: u32 = machines.iter().map(|of| of.usages).sum();
    let is_known = machines.iter().any(|of| of.is_known);
    let dearest = dearest(machines)?;
    if machines.len() < 2 || usages == 0 || !is_known {
        return None;
    }
    let installed: f64 = machines.iter().map(|of| of.installed).sum();
    let all = f64::from(usages) + 1.0;
    let share_of = |of: &MayWait| (f64::from(of.usages) + of.installed / installed) / all;
    let basis = WaitingBasis::ByUsages {
        machines: machines.len(),
        usages,
        dearest: dearest.name.clone(),
        on_dearest: dearest.usages,
        is_weighted: machines.iter().any(|of| (of.weight - 1.0).abs() > 1e-9),
    };
    Some((machines.iter().map(share_of).collect(), basis))
}

/// Machines of several parts, each once with the usages of all of them.
fn together<'m>(machines: impl Iterator<Item = &'m MayWait>) -> Vec<MayWait> {
    let mut found: Vec<MayWait> = Vec::new();
    for machine in machines {
        match found.iter_mut().find(|of| of.name == machine.name) {
            Some(of) => of.usages += machine.usages,
            None => found.push(machine.clone()),
        }
    }
    found
}

/// The basis of other machines in place of one of which nothing is said.
fn stands_in(basis: &WaitingBasis, name: String) -> WaitingBasis {
    match basis {
        WaitingBasis::MiddleOfMachines { machines, .. } => WaitingBasis::MiddleOfMachines {
            machines: *machines,
            in_place_of: Some(name),
        },
        other => other.clone(),
    }
}

/// What the highest criticality of a shop is.
enum Highest {
    /// That of this weight or more.
    Weight(f64),
    /// One of these, in small letters.
    Named(BTreeSet<String>),
    /// No machine has one: nobody ranks them.
    NotRanked,
}

impl Highest {
    /// By the weights of the settings; without any by their service targets, the highest first; without these by the letters
    /// that machines have, A before B and 1 before 2 (common practice, no source).
    fn of(shop: &Shop) -> Self {
        let planning = &shop.settings.planning;
        if !planning.criticality_weights.is_empty() {
            let weights = planning.criticality_weights.iter();
            return Self::Weight(weights.map(|(_, weight)| *weight).fold(1.0, f64::max));
        }
        let machines = shop.machines.values();
        let found = machines.filter_map(|machine| Some(small(machine.criticality.as_ref()?)));
        let names: BTreeSet<String> = found.filter(|name| !name.is_empty()).collect();
        let target = |name: &String| {
            let targets = planning.service_targets_by_criticality.iter();
            let of_name = targets.filter(|(of, _)| small(of) == *name);
            of_name.map(|(_, share)| *share).fold(0.0, f64::max)
        };
        let most = names.iter().map(target).fold(0.0, f64::max);
        let highest: BTreeSet<String> = if most > 0.0 {
            let has_most = |name: &&String| target(name) >= most;
            names.iter().filter(has_most).cloned().collect()
        } else {
            names.into_iter().take(1).collect()
        };
        if highest.is_empty() {
            Self::NotRanked
        } else {
            Self::Named(highest)
        }
    }

    /// True for a machine of that criticality.
    fn is_it(&self, shop: &Shop, machine: &MachineRecord) -> bool {
        match self {
            Self::Weight(least) => criticality_weight(shop, machine) >= *least,
            Self::Named(names) => {
                let found = machine.criticality.as_ref();
                found.is_some_and(|found| names.contains(&small(found)))
            }
            Self::NotRanked => true,
        }
    }
}

/// A criticality as it is compared.
fn small(criticality: &str) -> String {
    criticality.trim().to_lowercase()
}

/// What the criticality of a machine weighs; 1 where nothing says it.
pub fn criticality_weight(shop: &Shop, machine: &MachineRecord) -> f64 {
    let weights = &shop.settings.planning.criticality_weights;
    machine
        .criticality
        .as_ref()
        .and_then(|found| {
            weights
                .iter()
                .find(|(name, _)| name.trim().eq_ignore_ascii_case(found.trim()))
        })
        .map_or(1.0, |(_, weight)| *weight)
}

/// Money as printed in reports.
pub fn money(shop: &Shop, amount: f64) -> Money {
    Money::rounded(amount, shop.settings.currency)
}

/// Middle value; mean of the two middle ones for an even number, `None` for none.
fn median(values: &[f64]) -> Option<f64> {
    middles(values.to_vec(), f64::total_cmp).map(|(lower, upper)| f64::midpoint(lower, upper))
}

/// Usages by part, oldest first.
pub fn usages_by_part(shop: &Shop) -> BTreeMap<PartId, Vec<&UsageOf>> {
    // By id, because there may be a million of them.
    let mut usages: Vec<Vec<&UsageOf>> = vec![Vec::new(); shop.catalogue.parts().len()];
    for usage in &shop.usages {
        usages[usage.part.0 as usize].push(usage);
    }
    parallel::each_mut(&mut usages, |list| {
        list.sort_by_key(|usage| usage.record.date);
    });
    let parts = shop.catalogue.parts().iter().map(|part| part.id);
    let used = parts.zip(usages).filter(|(_, list)| !list.is_empty());
    used.collect()
}

#[cfg(test)]
mod tests;
