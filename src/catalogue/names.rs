//! Finds a part by any of its names: own number first, then designation and alias, which may contradict each other.

use std::collections::HashMap;

use crate::part::NameKey;
use crate::part::designation::Designation;
use crate::part::{BoreForm, Traits};

/// What a name belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Found {
    /// One part, at this position.
    One(usize),
    /// The designation of one part and the alias of another: only a person can tell which is meant.
    Two {
        /// The part it is the designation of.
        designation: usize,
        /// The part it is an alias of.
        alias: usize,
    },
    /// An alias of several parts.
    Alike {
        /// The first of them.
        first: usize,
        /// The second.
        second: usize,
    },
}

/// Names of parts by their positions. Where two parts share a number, the first keeps it.
#[derive(Debug, Clone, Default)]
pub(super) struct Names {
    by_number: HashMap<NameKey, usize>,
    by_designation: HashMap<NameKey, Vec<usize>>,
    by_alias: HashMap<NameKey, Vec<usize>>,
}

impl Names {
    /// Adds the number a part is called by.
    pub(super) fn add_number(&mut self, number: &str, position: usize) {
        self.by_number
            .entry(NameKey::new(number))
            .or_insert(position);
    }

    /// Adds a designation.
    pub(super) fn add_designation(&mut self, designation: &str, position: usize) {
        self.by_designation
            .entry(name_of(designation))
            .or_default()
            .push(position);
    }

    /// Adds another number.
    pub(super) fn add_alias(&mut self, alias: &str, position: usize) {
        let key = NameKey::new(alias);
        if !key.is_empty() {
            let named = self.by_alias.entry(key).or_default();
            if !named.contains(&position) {
                named.push(position);
            }
        }
    }

    /// The part called by this number.
    pub(super) fn number(&self, name: &str) -> Option<usize> {
        self.by_number.get(&NameKey::new(name)).copied()
    }

    /// The parts of this designation, whatever its spelling; they may differ in what it leaves out.
    pub(super) fn designations(&self, name: &str) -> &[usize] {
        self.by_designation
            .get(&name_of(name))
            .map_or(&[], Vec::as_slice)
    }

    /// The parts that go by this other number.
    pub(super) fn aliases(&self, name: &str) -> &[usize] {
        self.by_alias
            .get(&NameKey::new(name))
            .map_or(&[], Vec::as_slice)
    }

    /// The part of a name whose kind is not known.
    pub(super) fn find(&self, name: &str) -> Option<Found> {
        if let Some(position) = self.number(name) {
            return Some(Found::One(position));
        }
        let aliases = self.aliases(name);
        let Some(&designation) = self.designations(name).first() else {
            return match aliases {
                [] => None,
                [position] => Some(Found::One(*position)),
                [first, second, ..] => Some(Found::Alike {
                    first: *first,
                    second: *second,
                }),
            };
        };
        let other = aliases.iter().find(|alias| **alias != designation);
        Some(other.map_or(Found::One(designation), |alias| Found::Two {
            designation,
            alias: *alias,
        }))
    }
}

/// The key of a name; for standard designations one key whatever the order of their suffixes.
///
/// `6305-2RS C3` and `6305 C3/2RS` meet. A designation with suffixes that no standard explains keeps its printed form.
fn name_of(name: &str) -> NameKey {
    match Designation::parse(name) {
        Some(designation) if designation.traits.unknown_suffixes.is_empty() => NameKey::new(
            &format!("{} {}", designation.basic, trait_codes(&designation.traits)),
        ),
        _ => NameKey::new(name),
    }
}

/// What the suffixes of a designation say, in a fixed order.
fn trait_codes(traits: &Traits) -> String {
    let codes: Vec<String> = [
        traits.closure.map(|v| v.to_string()),
        traits.clearance.map(|v| v.to_string()),
        traits.tolerance_class.map(|v| v.to_string()),
        traits.contact_angle.map(|v| v.to_string()),
        traits
            .bore_form
            .filter(|form| *form != BoreForm::Cylindrical)
            .map(|v| v.to_string()),
        traits
            .has_snap_ring_groove
            .filter(|has| *has)
            .map(|_| "NR".to_owned()),
        traits.arrangement.clone(),
        traits.preload_class.clone(),
        traits.cage.clone(),
        traits.seal_form.map(|v| v.to_string()),
        traits.material.clone(),
        traits.hardness.clone(),
        traits.variant.clone(),
    ]
    .into_iter()
    .flatten()
    .collect();
    codes.join(" ")
}
