//! Merges the rows that speak of one part into one part of the catalogue.
//!
//! Order of precedence: a parts table first, then what stock lists say of own numbers, then offers, kit lines and the names
//! of stock rows. A later row fills gaps and never overwrites; where two rows contradict each other on size, both are listed
//! and the size is unknown.

use std::collections::BTreeSet;

mod offers;

use super::likeness::{Fit, Said, fit, standard_size};
use super::names::{Found, Names};
use super::offered_numbers::OfferedNumbers;
use super::part::{CataloguePart, PartId};
use super::shop::Unresolved;
use crate::part::designation::Designation;
use crate::part::{NameKey, SizeKey};
use crate::place::Place;
use crate::record::{KitLine, PartFacts, PartRecord, StockRecord};

/// Parts while they are being merged.
#[derive(Debug, Default)]
pub(super) struct Merge {
    parts: Vec<CataloguePart>,
    names: Names,
    /// Numbers that offers give parts.
    offered: OfferedNumbers,
    /// How many parts the parts tables gave; they come first.
    of_parts_tables: usize,
    /// Parts whose size two rows contest.
    contested: BTreeSet<usize>,
    /// Contradictions between rows, for the reader.
    pub(super) conflicts: Vec<Unresolved>,
}

impl Merge {
    /// Adds a row of a parts table.
    pub(super) fn add_part(&mut self, record: PartRecord) {
        let part = CataloguePart {
            is_own: true,
            facts: record.facts,
            ..CataloguePart::bare(record.own_number, record.place)
        };
        match self.names.number(&part.number) {
            Some(known) => self.fill(known, part),
            None => self.insert(part),
        }
    }

    /// Adds what a stock row says of the shop's own part, where it says anything: gaps are filled, and a number that no
    /// parts table has is an own part. A part in several bins has several rows that may say the same.
    pub(super) fn add_stocked(&mut self, record: &StockRecord) {
        let Some(facts) = record.facts.as_deref() else {
            return;
        };
        let part = CataloguePart {
            is_own: true,
            facts: facts.clone(),
            ..CataloguePart::bare(record.part.clone(), record.place.clone())
        };
        match self.names.find(&record.part) {
            Some(Found::One(known)) => self.fill_from_stock(known, part),
            // Whose row it is must be said by a person; the stock is listed as nobody's.
            Some(Found::Two { .. } | Found::Alike { .. }) => {}
            None => {
                if self.of_parts_tables > 0 {
                    let reason = format!(
                        "part `{}` is in no parts table; what this list says of it is used",
                        part.number
                    );
                    self.tell(&record.place, reason);
                }
                self.insert_found(part);
            }
        }
    }

    /// Indexes aliases and designations of the shop's own parts; called once all of them are added.
    ///
    /// A designation that two own numbers share stays with the first: which of them a supplier means is judged by
    /// the rules of exchange, not by name.
    pub(super) fn index_other_names(&mut self) {
        self.of_parts_tables = self.parts.len();
        for position in 0..self.parts.len() {
            self.index(position);
        }
    }

    fn index(&mut self, position: usize) {
        let part = &self.parts[position];
        // What an offer calls its part holds only where the rows fit, see `offers`.
        for alias in part.aliases.iter().filter(|_| part.is_own) {
            self.names.add_alias(alias, position);
        }
        if let Some(designation) = &part.designation {
            self.names.add_designation(designation, position);
        }
    }

    /// Finds or makes the part a kit line asks for; `None` where the line tells neither number nor size.
    pub(super) fn part_of_line(&mut self, line: &KitLine) -> Option<PartId> {
        match line.part.as_ref().and_then(|name| self.names.find(name)) {
            Some(Found::One(known)) => return Some(PartId(known as u32)),
            // A name of two parts makes no third one.
            Some(Found::Two { .. } | Found::Alike { .. }) => return None,
            None => {}
        }
        if let Some(name) = &line.part {
            let mut called = self.called_by_suppliers(name);
            let said = Said::from(line);
            called.retain(|at| fit(&said, &Said::from(&self.parts[*at].facts)) != Fit::Against);
            match called.as_slice() {
                [] => {}
                [known] => return Some(PartId(*known as u32)),
                _ => return None,
            }
        }
        let number = match (&line.part, line.size) {
            (Some(name), _) => name.clone(),
            (None, Some(size)) => format!("{} {size}", size.family()),
            (None, None) => return None,
        };
        if let Some(Found::One(known)) = self.names.find(&number) {
            return Some(PartId(known as u32));
        }
        let designation = Designation::parse(&number).map(|d| d.printed);
        let facts = PartFacts {
            traits: line.traits.clone(),
            designation,
            description: line.description.clone(),
            family: line.family,
            size: line.size,
            unit_of_count: line.unit_of_count,
            ..PartFacts::default()
        };
        Some(self.insert_found(CataloguePart {
            facts,
            ..CataloguePart::bare(number, line.place.clone())
        }))
    }

    /// Finds the part of a stock row; a standard designation on the shelf is a part even without a number.
    pub(super) fn part_of_stock(&mut self, record: &StockRecord) -> Option<PartId> {
        match self.names.find(&record.part) {
            Some(Found::One(known)) => return Some(PartId(known as u32)),
            Some(Found::Two { .. } | Found::Alike { .. }) => return None,
            None => {}
        }
        let Some((designation, size)) =
            Designation::parse(&record.part).zip(standard_size(&record.part))
        else {
            let called = self.called_by_suppliers(&record.part);
            return one(&called).map(|known| PartId(known as u32));
        };
        let facts = PartFacts {
            traits: designation.traits.clone(),
            designation: Some(designation.printed),
            family: Some(size.family()),
            size: Some(size),
            unit_of_count: record.unit_of_count,
            ..PartFacts::default()
        };
        Some(self.insert_found(CataloguePart {
            is_own: true,
            facts,
            ..CataloguePart::bare(record.part.clone(), record.place.clone())
        }))
    }

    /// Position of the part a name belongs to.
    pub(super) fn find(&self, name: &str) -> Option<usize> {
        match self.names.find(name) {
            Some(Found::One(position)) => Some(position),
            Some(Found::Two { .. } | Found::Alike { .. }) => None,
            None => one(&self.called_by_suppliers(name)),
        }
    }

    /// Position of the part that a name in a row of one supplier belongs to: his numbers hold there, and no other's.
    pub(super) fn find_at(&self, supplier: &str, name: &str) -> Option<usize> {
        if let Some(found) = self.names.find(name) {
            return match found {
                Found::One(position) => Some(position),
                Found::Two { .. } | Found::Alike { .. } => None,
            };
        }
        let mut called = self.offered.of(Some(supplier), name);
        if called.is_empty() {
            called = self.offered.of(None, name);
        }
        one(&self.of_no_other_size(called, name))
    }

    /// Parts that suppliers, or the shop in a row of an offer, call by this number. One part alone only where it is known
    /// from offers; of several an own one counts too, so that the number names none of them.
    fn called_by_suppliers(&self, name: &str) -> Vec<usize> {
        let called = self.of_no_other_size(self.offered.of_anybody(name), name);
        match called.as_slice() {
            [only] if self.parts[*only].is_own => Vec::new(),
            _ => called,
        }
    }

    /// Parts without those that the name, read as a designation of a standard, contradicts.
    fn of_no_other_size(&self, mut called: Vec<usize>, name: &str) -> Vec<usize> {
        if let Some(size) = standard_size(name).filter(|_| !called.is_empty()) {
            called.retain(|at| self.parts[*at].size == Some(size));
        }
        called
    }

    /// Why no part is found by a name.
    pub(super) fn why_not_found(&self, name: &str) -> String {
        match self.names.find(name) {
            Some(Found::Two { designation, alias }) => {
                return format!(
                    "`{name}` is the designation of `{}` and another number of `{}`; write the own number",
                    self.parts[designation].number, self.parts[alias].number,
                );
            }
            Some(Found::Alike { first, second }) => return self.alike(name, first, second),
            _ => {}
        }
        if let [first, second, ..] = self.called_by_suppliers(name).as_slice() {
            return self.several_called(name, *first, *second);
        }
        format!(
            "part `{name}` is in no parts table, offer or kit, and is no standard designation of a known size"
        )
    }

    /// A part by its position.
    pub(super) fn part(&self, id: PartId) -> &CataloguePart {
        &self.parts[id.0 as usize]
    }

    /// A part by its position.
    pub(super) fn at(&self, position: usize) -> &CataloguePart {
        &self.parts[position]
    }

    /// True where any table gives the shop parts of its own.
    pub(super) fn has_own_parts(&self) -> bool {
        self.parts.iter().any(|part| part.is_own)
    }

    /// The merged parts, in order of their positions.
    pub(super) fn into_parts(mut self) -> Vec<CataloguePart> {
        for part in &mut self.parts {
            part.places.shrink_to_fit();
        }
        self.parts.shrink_to_fit();
        self.parts
    }

    fn insert(&mut self, part: CataloguePart) {
        self.names.add_number(&part.number, self.parts.len());
        self.parts.push(part);
    }

    fn insert_found(&mut self, part: CataloguePart) -> PartId {
        self.names.add_number(&part.number, self.parts.len());
        self.insert_unnumbered(part)
    }

    /// Adds a part that nobody finds by the number it is called by.
    fn insert_unnumbered(&mut self, part: CataloguePart) -> PartId {
        let position = self.parts.len();
        self.parts.push(part);
        self.index(position);
        PartId(position as u32)
    }

    /// Fills gaps of a known part from another row of a parts table.
    fn fill(&mut self, known: usize, other: CataloguePart) {
        let is_contested = self.is_size_contested(known, &other);
        if !is_contested {
            let place = &other.places[0];
            self.tell_repeated(known, place);
            if let Some(reason) = contradictions(&self.parts[known], &other) {
                self.tell(place, reason);
            }
        }
        self.take_gaps(known, other, is_contested);
    }

    /// Fills gaps of a known part from a stock row. Its words are often short for the designation, so that only another
    /// size is a contradiction; a parts table knows it better.
    fn fill_from_stock(&mut self, known: usize, other: CataloguePart) {
        let is_of_list = known >= self.of_parts_tables;
        let is_contested = is_of_list && self.is_size_contested(known, &other);
        let part = &self.parts[known];
        if !is_of_list && let Some((first, second)) = two_sizes(part, &other) {
            let reason = format!(
                "`{}` is {} {first} at {}, but lies here as {} {second}: look at the bin; the parts table is used",
                part.number,
                first.family(),
                part.places[0],
                second.family(),
            );
            self.tell(&other.places[0], reason);
        }
        self.take_gaps(known, other, is_contested);
    }

    /// Takes over what a part has not, but no size that rows contest.
    fn take_gaps(&mut self, known: usize, mut other: CataloguePart, is_contested: bool) {
        if is_contested {
            other.facts.size = None;
        }
        let part = &mut self.parts[known];
        part.take_gaps_from(other.facts);
        part.places.append(&mut other.places);
    }

    /// True where the size of a part is contested by a row now or was by one before; told, and the size is unknown.
    fn is_size_contested(&mut self, known: usize, other: &CataloguePart) -> bool {
        let part = &mut self.parts[known];
        let Some((first, second)) = two_sizes(part, other) else {
            return self.contested.contains(&known);
        };
        let reason = format!(
            "`{}` is {} {first} at {}, but {} {second} here; its size is unknown until one of them is mended",
            part.number,
            first.family(),
            part.places[0],
            second.family(),
        );
        part.size = None;
        self.contested.insert(known);
        self.tell(&other.places[0], reason);
        true
    }

    /// Tells a number that one parts table has twice.
    fn tell_repeated(&mut self, known: usize, place: &Place) {
        let part = &self.parts[known];
        let is_same_table = |had: &&Place| had.file == place.file && had.sheet == place.sheet;
        if let Some(had) = part.places.iter().find(is_same_table) {
            let reason = format!(
                "number `{}` is used twice in this table, here and at {had}; both rows are taken for one part",
                part.number
            );
            self.tell(place, reason);
        }
    }

    fn tell(&mut self, place: &Place, reason: String) {
        self.conflicts.push(Unresolved {
            place: place.clone(),
            reason,
        });
    }
}

/// The sizes of a part and of another row of it, where they differ.
fn two_sizes(part: &CataloguePart, other: &CataloguePart) -> Option<(SizeKey, SizeKey)> {
    part.size.zip(other.size).filter(|(a, b)| a != b)
}

/// What two rows of one number say differently, with both sides; the row that came first is used.
fn contradictions(part: &CataloguePart, other: &CataloguePart) -> Option<String> {
    fn differ<T: PartialEq>(
        what: &str,
        (first, second): (&Option<T>, &Option<T>),
        words: impl Fn(&T) -> String,
        said: &mut Vec<String>,
    ) {
        if let (Some(first), Some(second)) = (first, second)
            && first != second
        {
            said.push(format!(
                "{what} {} there, {} here",
                words(first),
                words(second)
            ));
        }
    }
    let mut said = Vec::new();
    let (a, b) = (part, other);
    let designations = (
        a.designation.as_deref().map(NameKey::new),
        b.designation.as_deref().map(NameKey::new),
    );
    differ(
        "designation",
        (&designations.0, &designations.1),
        |key| format!("`{}`", key.as_str()),
        &mut said,
    );
    differ(
        "family",
        (&a.family, &b.family),
        ToString::to_string,
        &mut said,
    );
    differ(
        "closure",
        (&a.traits.closure, &b.traits.closure),
        |closure| closure.code().to_owned(),
        &mut said,
    );
    differ(
        "clearance",
        (&a.traits.clearance, &b.traits.clearance),
        |clearance| clearance.code().to_owned(),
        &mut said,
    );
    differ(
        "unit of count",
        (&a.unit_of_count, &b.unit_of_count),
        ToString::to_string,
        &mut said,
    );
    differ(
        "minimum stock",
        (&a.own_min_stock, &b.own_min_stock),
        ToString::to_string,
        &mut said,
    );
    differ(
        "shelf life in months",
        (&a.shelf_life_months, &b.shelf_life_months),
        ToString::to_string,
        &mut said,
    );
    (!said.is_empty()).then(|| {
        format!(
            "`{}` is told differently at {}: {}; what stands there is used",
            part.number,
            part.places[0],
            said.join(", ")
        )
    })
}

/// The one of several, where there is one only.
fn one(positions: &[usize]) -> Option<usize> {
    match positions {
        [position] => Some(*position),
        _ => None,
    }
}
