//! Which machines use a part, and what an hour of waiting for it counts.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::fmt;
use std::sync::Arc;

use chrono::NaiveDate;

use crate::catalogue::{NameKey, PartId, Shop};
use crate::parallel;
use crate::place::Place;
use crate::plan::demand::last_day_in_service;
use crate::plan::exchange::Exchange;
use crate::record::MachineRecord;
use crate::units::Money;

/// Where a part is used.
#[derive(Debug, Clone, PartialEq)]
pub struct PartUse {
    /// An hour of waiting, weighted by criticality, in units of the shop's currency.
    pub waiting_per_h: f64,
    /// What that rests on.
    pub basis: WaitingBasis,
    /// Highest criticality weight among its machines; 1 without one.
    pub criticality_weight: f64,
    /// Places where the part sits, over all machines; `None` where one does not say.
    pub places: Option<u32>,
    /// Machines that use it, as far as machine records know them.
    pub machines: u32,
    /// Day on which the last of its machines leaves service; `None` where one has no such day.
    pub in_use_until: Option<NaiveDate>,
}

/// What the price of an hour of waiting rests on.
#[derive(Debug, Clone, PartialEq)]
pub enum WaitingBasis {
    /// Downtime cost of the machine that counts most among those that use the part.
    Machine {
        /// Its name.
        name: String,
        /// Weight of its criticality.
        weight: f64,
    },
    /// The settings.
    Setting,
    /// Middle of the machines that have a cost, because none is known for the part.
    MiddleOfMachines {
        /// How many have one.
        machines: usize,
        /// A machine that is known to use the part and has none, where there is one.
        in_place_of: Option<String>,
    },
    /// No machine of the shop has a cost: every hour counts alike, and no money is told.
    NothingKnown,
}

impl fmt::Display for WaitingBasis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Machine { name, weight } if (weight - 1.0).abs() < 1e-9 => {
                write!(f, "downtime of {name}")
            }
            Self::Machine { name, weight } => {
                write!(f, "downtime of {name}, times {weight} for its criticality")
            }
            Self::Setting => f.write_str("downtime by the settings"),
            Self::MiddleOfMachines {
                machines,
                in_place_of: None,
            } => write!(f, "middle of {machines} machines, none known for this part"),
            Self::MiddleOfMachines {
                machines,
                in_place_of: Some(name),
            } => write!(
                f,
                "middle of {machines} machines, because nothing says it of {name}"
            ),
            Self::NothingKnown => f.write_str("no downtime cost known"),
        }
    }
}

/// Uses of every part that a kit or a usage ties to a machine, and what holds for the others.
#[derive(Debug)]
pub struct PartUses {
    by_part: BTreeMap<PartId, PartUse>,
    others: PartUse,
    named: Vec<NamedMachine>,
}

/// A machine that kits, usages or the parts table name.
#[derive(Debug, Clone, PartialEq)]
pub struct NamedMachine {
    /// Name as first read.
    pub name: String,
    /// The first row that names it.
    pub place: Place,
    /// Usages on it.
    pub usages: usize,
    /// True where a kit is for it.
    pub has_kit: bool,
    /// True where a machines table has it.
    pub is_listed: bool,
    /// True where a table says what an hour down costs.
    pub has_cost: bool,
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
            basis,
            criticality_weight: 1.0,
            places: None,
            machines: 0,
            in_use_until: None,
        };
        let (of_parts, mut named) = machines_of_parts(shop);
        for (key, machine) in &mut named {
            let listed = shop.machines.get(&**key);
            machine.is_listed = listed.is_some();
            machine.has_cost = listed.and_then(hourly).is_some();
        }
        let each: Vec<(PartId, Machines)> = of_parts.into_iter().collect();
        let by_part = parallel::each_of(each, |(part, machines)| {
            let found = part_use(shop, (&machines, &named), &others, &hourly);
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
    /// An hour of waiting counts as for the one that counts most; places and machines add up.
    pub fn of_all(&self, parts: &[PartId]) -> PartUse {
        let of: Vec<&PartUse> = parts.iter().map(|part| self.of(*part)).collect();
        let by_machine = |of: &&&PartUse| matches!(of.basis, WaitingBasis::Machine { .. });
        let known = of.iter().filter(by_machine);
        let dearest = known
            .max_by(|a, b| a.waiting_per_h.total_cmp(&b.waiting_per_h))
            .or(of.first());
        let mut found = dearest.map_or_else(|| self.others.clone(), |dearest| (*dearest).clone());
        found.criticality_weight = of
            .iter()
            .map(|of| of.criticality_weight)
            .fold(0.0, f64::max);
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

/// Machines of a part by the order of their keys, with the quantity a kit of each fits; `None` where only usages or the
/// parts table name the machine.
type Machines = Vec<(Arc<str>, Option<f64>)>;

/// Machines by the key of their name.
type Named = BTreeMap<Arc<str>, NamedMachine>;

/// Machines as they are met in the rows; a few thousand names stand for a million usages.
#[derive(Default)]
struct Names<'a> {
    position: HashMap<&'a str, usize>,
    by_key: HashMap<Arc<str>, usize>,
    met: Vec<(Arc<str>, NamedMachine)>,
}

impl<'a> Names<'a> {
    fn meet(&mut self, name: &'a str, place: &Place) -> &mut (Arc<str>, NamedMachine) {
        let at = self.position.get(name).copied().unwrap_or_else(|| {
            let key: Arc<str> = NameKey::new(name).as_str().into();
            let at = *self.by_key.entry(Arc::clone(&key)).or_insert_with(|| {
                let machine = NamedMachine {
                    name: name.to_owned(),
                    place: place.clone(),
                    usages: 0,
                    has_kit: false,
                    is_listed: false,
                    has_cost: false,
                };
                self.met.push((key, machine));
                self.met.len() - 1
            });
            self.position.insert(name, at);
            at
        });
        &mut self.met[at]
    }
}

fn machines_of_parts(shop: &Shop) -> (BTreeMap<PartId, Machines>, Named) {
    let mut names = Names::default();
    let mut found: BTreeMap<PartId, Machines> = BTreeMap::new();
    for kit in &shop.kits {
        let (Some(machine), Some(first)) = (&kit.machine, kit.lines.first()) else {
            continue;
        };
        let (key, named) = names.meet(machine, &first.record.place);
        named.has_kit = true;
        let mut seen: BTreeSet<PartId> = BTreeSet::new();
        for line in &kit.lines {
            let Some(part) = line.part else { continue };
            let quantity = quantity_of(found.entry(part).or_default(), Arc::clone(key));
            let before = quantity.unwrap_or(0.0);
            // Two kits of one machine may fit the same places; the lines of one kit add up.
            *quantity = Some(if seen.insert(part) {
                before.max(line.record.quantity)
            } else {
                before + line.record.quantity
            });
        }
    }
    for usage in &shop.usages {
        if let Some(machine) = &usage.record.machine {
            let (key, named) = names.meet(machine, &usage.record.place);
            named.usages += 1;
            quantity_of(found.entry(usage.part).or_default(), Arc::clone(key));
        }
    }
    for part in shop.catalogue.parts() {
        for machine in &part.machines {
            let (key, _) = names.meet(machine, &part.places[0]);
            quantity_of(found.entry(part.id).or_default(), Arc::clone(key));
        }
    }
    (found, names.met.into_iter().collect())
}

/// What a kit of a machine fits, with a place for it where there was none.
fn quantity_of(machines: &mut Machines, key: Arc<str>) -> &mut Option<f64> {
    let place = machines.binary_search_by(|(of, _)| of.cmp(&key));
    let place = place.unwrap_or_else(|place| {
        machines.insert(place, (key, None));
        place
    });
    &mut machines[place].1
}

fn part_use(
    shop: &Shop,
    (machines, named): (&Machines, &Named),
    others: &PartUse,
    hourly: &(impl Fn(&MachineRecord) -> Option<f64> + Sync),
) -> PartUse {
    let mut found = others.clone();
    let mut dearest: Option<(f64, String, f64)> = None;
    let mut places = Some(0.0);
    let mut known = Vec::new();
    for (key, quantity) in machines {
        let Some(machine) = shop.machines.get(&**key) else {
            places = None;
            continue;
        };
        known.push(machine);
        let weight = criticality_weight(shop, machine);
        found.criticality_weight = found.criticality_weight.max(weight);
        let cost = hourly(machine).unwrap_or(others.waiting_per_h) * weight;
        if dearest.as_ref().is_none_or(|(most, ..)| cost > *most) {
            dearest = Some((cost, machine.machine.clone(), weight));
        }
        let here = machine.installed.zip(*quantity).map(|(a, b)| a * b);
        places = places.zip(here).map(|(sum, here)| sum + here);
        found.machines += machine.installed.unwrap_or(1.0).max(1.0) as u32;
    }
    if let Some((cost, name, weight)) = dearest {
        let is_known = machines.iter().any(|(key, _)| {
            shop.machines
                .get(&**key)
                .is_some_and(|machine| machine.machine == name && hourly(machine).is_some())
        });
        found.waiting_per_h = cost;
        if is_known {
            found.basis = WaitingBasis::Machine { name, weight };
        } else {
            found.basis = stands_in(&found.basis, name);
        }
    } else if let Some(named) = machines.first().and_then(|(key, _)| named.get(key)) {
        found.basis = stands_in(&found.basis, named.name.clone());
    }
    found.places = places
        .filter(|places| *places >= 1.0 && *places <= 1000.0)
        .map(|places| places.round() as u32);
    // A machine in no table may run for ever.
    found.in_use_until = last_day_in_service(&known).filter(|_| known.len() == machines.len());
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
    Money {
        cents: (amount * 100.0).round() as i64,
        currency: shop.settings.currency,
    }
}

/// Middle value; mean of the two middle ones for an even number, `None` for none.
fn median(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = sorted.len() / 2;
    if sorted.len() % 2 == 1 {
        sorted.get(middle).copied()
    } else {
        Some((sorted.get(middle.checked_sub(1)?)? + sorted.get(middle)?) / 2.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::Sample;

    const SETTINGS: &str =
        "records_from = \"2022-03-04\"\n[planning.criticality_weights]\nA = 2.0\nC = 0.5";

    fn uses(sample: &Sample) -> PartUses {
        let shop = sample.built();
        PartUses::new(&shop, Exchange::new(&shop.settings))
    }

    fn used_on(sample: &mut Sample, part: PartId, machine: &str) {
        sample.usage(part, "2025-05-02", 1.0);
        let usage = sample.shop.usages.last_mut().unwrap();
        usage.record.machine = Some(machine.into());
    }

    #[test]
    fn an_hour_counts_as_for_the_machine_that_counts_most() {
        let mut sample = Sample::new(SETTINGS);
        sample.machine("M1", Some(100.0), Some("C"));
        sample.machine("M2", Some(40.0), Some("A"));
        sample.machine("M3", Some(60.0), None);
        let (all, one, none) = (sample.part("A"), sample.part("B"), sample.part("C"));
        for machine in ["M1", "M2", "M3"] {
            used_on(&mut sample, all, machine);
        }
        used_on(&mut sample, one, "M3");
        let uses = uses(&sample);
        // 100 at a half, 40 twice, 60 once.
        let found = uses.of(all);
        assert!((found.waiting_per_h - 80.0).abs() < 1e-9);
        let basis = WaitingBasis::Machine {
            name: "M2".to_owned(),
            weight: 2.0,
        };
        assert_eq!(found.basis, basis);
        assert!((found.criticality_weight - 2.0).abs() < 1e-9);
        assert!((uses.of(one).waiting_per_h - 60.0).abs() < 1e-9);
        // Nothing ties the third to a machine: the middle of the costs that are known.
        assert!((uses.of(none).waiting_per_h - 60.0).abs() < 1e-9);
        let basis = WaitingBasis::MiddleOfMachines {
            machines: 3,
            in_place_of: None,
        };
        assert_eq!(uses.of(none).basis, basis);
    }

    #[test]
    fn the_machine_of_the_parts_table_counts_like_one_of_a_usage() {
        let mut sample = Sample::new(SETTINGS);
        sample.machine("M1", Some(100.0), Some("A"));
        sample.machine("M2", Some(40.0), None);
        let named = |sample: &mut Sample, number: &str, machines: &[&str]| {
            sample.part_with(number, |part| {
                part.machines = machines.iter().map(|name| (*name).to_owned()).collect();
            })
        };
        let one = named(&mut sample, "A", &["m 1"]);
        let both = named(&mut sample, "B", &["M2", "M1"]);
        let used_elsewhere = named(&mut sample, "C", &["M2"]);
        let with_kit = named(&mut sample, "D", &["M1"]);
        used_on(&mut sample, used_elsewhere, "M1");
        for machine in sample.shop.machines.values_mut() {
            machine.installed = Some(2.0);
        }
        sample.kit("K");
        sample.line(Some(with_kit), 3.0, &[], |_| {});
        let uses = uses(&sample);
        let basis = WaitingBasis::Machine {
            name: "M1".to_owned(),
            weight: 2.0,
        };
        for (part, machines) in [(one, 2), (both, 4), (used_elsewhere, 4), (with_kit, 2)] {
            assert_eq!(uses.of(part).basis, basis, "{part:?}");
            assert!((uses.of(part).waiting_per_h - 200.0).abs() < 1e-9);
            assert_eq!(uses.of(part).machines, machines, "{part:?}");
        }
        // The parts table says where it sits, not how many: that only a kit does.
        assert_eq!(uses.of(one).places, None);
        assert_eq!(uses.of(with_kit).places, Some(6));
    }

    #[test]
    fn a_machine_of_which_nothing_is_said_is_named_where_others_stand_in_for_it() {
        let mut sample = Sample::new(SETTINGS);
        sample.machine("M1", Some(100.0), None);
        sample.machine("M2", Some(40.0), None);
        sample.machine("Free", None, Some("A"));
        let (unlisted, costless) = (sample.part("A"), sample.part("B"));
        let of_table = sample.part_with("C", |part| part.machines = vec!["MY".to_owned()]);
        for _ in 0..3 {
            used_on(&mut sample, unlisted, "MX");
        }
        used_on(&mut sample, unlisted, "mx");
        used_on(&mut sample, costless, "Free");
        let found = uses(&sample);
        for (part, name, per_h) in [
            (unlisted, "MX", 70.0),
            // Its criticality is known: twice the middle.
            (costless, "Free", 140.0),
            (of_table, "MY", 70.0),
        ] {
            let of = found.of(part);
            let basis = WaitingBasis::MiddleOfMachines {
                machines: 2,
                in_place_of: Some(name.to_owned()),
            };
            assert_eq!(of.basis, basis);
            assert!((of.waiting_per_h - per_h).abs() < 1e-9, "{name}");
            assert!(of.basis.to_string().ends_with(&format!(" of {name}")));
        }
        let named: Vec<(&str, usize, bool, bool)> = found
            .named()
            .iter()
            .map(|of| (&*of.name, of.usages, of.is_listed, of.has_cost))
            .collect();
        let expected = [
            ("Free", 1, true, false),
            ("MX", 4, false, false),
            ("MY", 0, false, false),
        ];
        assert_eq!(named, expected);
        // A figure in the settings holds for every machine.
        let priced = format!("[planning]\ndowntime_cost_per_hour = 55.0\n{SETTINGS}").replacen(
            "records_from = \"2022-03-04\"\n",
            "",
            1,
        );
        sample.shop.settings = crate::record::ShopSettings::from_toml(&priced).unwrap();
        let found = uses(&sample);
        assert_eq!(found.of(unlisted).basis, WaitingBasis::Setting);
        assert!(found.is_priced_by_setting());
    }

    #[test]
    fn spellings_of_one_machine_are_one_machine_and_an_unknown_one_has_no_places() {
        let mut sample = Sample::new(SETTINGS);
        sample.machine("Press PP-3", Some(50.0), None);
        let (known, unknown) = (sample.part("A"), sample.part("B"));
        for spelling in ["Press PP-3", "press pp-3", "PRESS PP3", " Press  PP-3 "] {
            used_on(&mut sample, known, spelling);
        }
        used_on(&mut sample, unknown, "Press PP-3");
        used_on(&mut sample, unknown, "Some other");
        let uses = uses(&sample);
        assert_eq!(uses.of(known).machines, 1);
        assert_eq!(uses.of(unknown).machines, 1);
        assert_eq!(uses.of(unknown).places, None);
        assert_eq!(uses.of(unknown).in_use_until, None);
    }

    #[test]
    fn places_are_those_of_the_kits_once_for_each_machine() {
        let mut sample = Sample::new(SETTINGS);
        sample.machine("M1", Some(50.0), None);
        for machine in sample.shop.machines.values_mut() {
            machine.installed = Some(3.0);
        }
        let part = sample.part("A");
        sample.kit("K");
        sample.line(Some(part), 2.0, &[], |_| {});
        sample.line(Some(part), 1.0, &[], |_| {});
        // Another kit of the same machine fits the same places.
        sample.kit("K again");
        sample.line(Some(part), 2.0, &[], |_| {});
        let uses = uses(&sample);
        // The two lines of the first kit add up; three machines of three pieces.
        assert_eq!(uses.of(part).places, Some(9));
        assert_eq!(uses.of(part).machines, 3);
    }

    #[test]
    fn together_parts_count_as_the_one_that_counts_most() {
        let mut sample = Sample::new(SETTINGS);
        sample.machine("M1", Some(100.0), None);
        sample.machine("M2", Some(40.0), Some("A"));
        let (a, b) = (sample.part("A"), sample.part("B"));
        used_on(&mut sample, a, "M1");
        used_on(&mut sample, b, "M2");
        let found = uses(&sample).of_all(&[a, b]);
        assert!((found.waiting_per_h - 100.0).abs() < 1e-9);
        assert!((found.criticality_weight - 2.0).abs() < 1e-9);
        assert_eq!(found.machines, 2);
    }

    #[test]
    fn the_middle_of_an_even_number_is_between_the_two_in_the_middle() {
        for (values, middle) in [
            (&[][..], None),
            (&[3.0], Some(3.0)),
            (&[9.0, 1.0], Some(5.0)),
            (&[9.0, 1.0, 2.0], Some(2.0)),
            (&[4.0, 9.0, 1.0, 2.0], Some(3.0)),
        ] {
            assert_eq!(median(values), middle);
        }
    }
}
