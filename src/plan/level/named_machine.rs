//! Machines as kits, usages and the parts table name them.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::sync::Arc;

use crate::catalogue::{NameKey, PartId, Shop};
use crate::place::Place;

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

/// A machine of a part.
#[derive(Debug, Clone, PartialEq)]
pub struct MachineOf {
    /// Key of its name.
    pub key: Arc<str>,
    /// Quantity a kit of it fits; `None` where only usages or the parts table name it.
    pub quantity: Option<f64>,
    /// Usages of the part on it.
    pub usages: u32,
}

/// Machines of a part by the order of their keys.
pub type Machines = Vec<MachineOf>;

/// Machines by the key of their name.
pub type Named = BTreeMap<Arc<str>, NamedMachine>;

/// Machines as they are met in the rows; a few thousand names stand for a million usages.
#[derive(Default)]
struct Names<'a> {
    position: HashMap<&'a str, usize>,
    by_key: HashMap<Arc<str>, usize>,
    met: Vec<(Arc<str>, NamedMachine)>,
}

impl<'a> Names<'a> {
    /// Position of the machine of a name among those met.
    fn meet(&mut self, name: &'a str, place: &Place) -> usize {
        self.position.get(name).copied().unwrap_or_else(|| {
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
        })
    }
}

/// Machines of every part, and every machine that is named.
pub fn machines_of_parts(shop: &Shop) -> (BTreeMap<PartId, Machines>, Named) {
    let mut names = Names::default();
    // By id while a million usages are looked at, and by the position of the machine among those met.
    let mut found: Vec<Vec<Met>> = vec![Vec::new(); shop.catalogue.parts().len()];
    for kit in &shop.kits {
        let (Some(machine), Some(first)) = (&kit.machine, kit.lines.first()) else {
            continue;
        };
        let at = names.meet(machine, &first.record.place);
        names.met[at].1.has_kit = true;
        let mut seen: BTreeSet<PartId> = BTreeSet::new();
        for line in &kit.lines {
            let Some(part) = line.part else { continue };
            let quantity = &mut met_of(&mut found[part.0 as usize], at).quantity;
            let before = quantity.unwrap_or(0.0);
            let fitted = line.record.quantity.unwrap_or(0.0);
            // Two kits of one machine may fit the same places; the lines of one kit add up.
            *quantity = Some(if seen.insert(part) {
                before.max(fitted)
            } else {
                before + fitted
            });
        }
    }
    for usage in &shop.usages {
        if let Some(machine) = &usage.record.machine {
            let at = names.meet(machine, &usage.record.place);
            names.met[at].1.usages += 1;
            let of_part = met_of(&mut found[usage.part.0 as usize], at);
            of_part.usages += u32::from(usage.record.quantity > 0.0);
        }
    }
    for part in shop.catalogue.parts() {
        for machine in &part.machines {
            let at = names.meet(machine, &part.places[0]);
            met_of(&mut found[part.id.0 as usize], at);
        }
    }
    let parts = shop.catalogue.parts().iter().map(|part| part.id);
    let met = parts
        .zip(found)
        .filter(|(_, machines)| !machines.is_empty());
    let of_parts = met.map(|(part, machines)| (part, by_key(machines, &names.met)));
    (of_parts.collect(), names.met.iter().cloned().collect())
}

/// A machine of a part while the rows are looked at.
#[derive(Debug, Clone, Copy)]
struct Met {
    /// Position among the machines met.
    at: usize,
    quantity: Option<f64>,
    usages: u32,
}

/// What is known of a machine of a part, with a place for it where there was none.
fn met_of(machines: &mut Vec<Met>, at: usize) -> &mut Met {
    let place = machines.binary_search_by_key(&at, |of| of.at);
    let place = place.unwrap_or_else(|place| {
        let met = Met {
            at,
            quantity: None,
            usages: 0,
        };
        machines.insert(place, met);
        place
    });
    &mut machines[place]
}

/// The same machines in the order of their keys.
fn by_key(machines: Vec<Met>, met: &[(Arc<str>, NamedMachine)]) -> Machines {
    let machines = machines.into_iter();
    let mut by_key: Machines = machines
        .map(|of| MachineOf {
            key: Arc::clone(&met[of.at].0),
            quantity: of.quantity,
            usages: of.usages,
        })
        .collect();
    by_key.sort_by(|a, b| a.key.cmp(&b.key));
    by_key
}
