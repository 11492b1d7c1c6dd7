//! Which part an offer is for.
//!
//! A number of the shop's own or of its alias columns holds whoever writes it. A supplier's number, and an own number that no
//! parts table has, tie rows together only where what the rows say of themselves does not contradict it; else their
//! designations decide, and it is told.

use super::Merge;
use crate::catalogue::likeness::{Fit, Said, difference, fit, is_one_design, may_be_one};
use crate::catalogue::part::{CataloguePart, PartId};
use crate::catalogue::shop::Unresolved;
use crate::part::Traits;
use crate::part::designation::Designation;
use crate::record::{OfferRecord, PartFacts};

/// What the number of an offer was given to before.
#[derive(Debug, Default)]
struct Numbered {
    /// The part it fits.
    known: Option<usize>,
    /// The first part it does not fit, and the number.
    against: Option<(usize, String)>,
}

impl Merge {
    /// Finds the part an offer is for, or makes one known from offers only; the position it will have.
    pub(in crate::catalogue) fn part_of_offer(
        &mut self,
        record: &OfferRecord,
    ) -> Result<PartId, Unresolved> {
        if let Some((known, name)) = self.by_own_name(record)? {
            let name = name.to_owned();
            self.agreeing(known, record, &name)?;
            return Ok(self.offered(known, record));
        }
        let numbered = self.by_offered_number(record)?;
        let designation = record.designation.as_deref();
        let named = designation.map_or_else(Vec::new, |name| self.same_designation(name, record));
        let is_named = |known: &usize| named.is_empty() || named.contains(known);
        if let Some(known) = numbered.known.filter(is_named) {
            return Ok(self.offered(known, record));
        }
        if let Some((first, name)) = named.first().copied().zip(designation) {
            self.same_size(first, record, name)?;
            self.tell_two_parts(numbered, record);
            return Ok(self.offered(first, record));
        }
        let part = self.known_from_offer(record)?;
        self.tell_two_parts(numbered, record);
        Ok(part)
    }

    /// The part that the shop itself knows by a number of the row.
    fn by_own_name<'r>(
        &self,
        record: &'r OfferRecord,
    ) -> Result<Option<(usize, &'r str)>, Unresolved> {
        let own = record.own_number.as_deref();
        if let Some(found) = own.and_then(|name| Some((self.names.number(name)?, name))) {
            return Ok(Some(found));
        }
        for name in [own, record.supplier_number.as_deref()]
            .into_iter()
            .flatten()
        {
            if let Some(known) = self.by_alias(name, record)? {
                return Ok(Some((known, name)));
            }
        }
        let Some(name) = record
            .designation
            .as_deref()
            .filter(|name| self.may_be_alias(name))
        else {
            return Ok(None);
        };
        let known = self.by_alias(name, record)?;
        Ok(known.map(|known| (known, name)))
    }

    /// True for what stands for a designation and is none that a standard explains, nor that of a part: the shop's tables may
    /// say what it is.
    fn may_be_alias(&self, name: &str) -> bool {
        let is_known = || !self.names.designations(name).is_empty();
        let is_explained = || {
            let read = Designation::parse(name);
            read.is_some_and(|read| read.traits.unknown_suffixes.is_empty())
        };
        !self.names.aliases(name).is_empty() && !is_known() && !is_explained()
    }

    /// The part of an alias; of several that share it the one that the row fits.
    fn by_alias(&self, name: &str, record: &OfferRecord) -> Result<Option<usize>, Unresolved> {
        let aliases = self.names.aliases(name);
        if let [] | [_] = aliases {
            return Ok(aliases.first().copied());
        }
        let said = Said::from(record);
        let fits = |wanted: &[Fit]| -> Vec<usize> {
            let fit_of = |at: &usize| fit(&said, &Said::from(&self.parts[*at].facts));
            let found = aliases.iter().filter(|at| wanted.contains(&fit_of(at)));
            found.copied().collect()
        };
        let mut fitting = fits(&[Fit::Same]);
        if fitting.is_empty() {
            fitting = fits(&[Fit::Silent, Fit::Words]);
        }
        match fitting.as_slice() {
            [first, second, ..] => Err(Unresolved {
                place: record.place.clone(),
                reason: self.alike(name, *first, *second),
            }),
            fitting => Ok(fitting.first().copied()),
        }
    }

    /// Why an alias of two parts names neither.
    pub(in crate::catalogue) fn alike(&self, name: &str, first: usize, second: usize) -> String {
        format!(
            "`{name}` is another number of `{}` and of `{}`; write the own number or the designation",
            self.parts[first].number, self.parts[second].number,
        )
    }

    fn is_known_number(&self, name: &str) -> bool {
        self.names.number(name).is_some() || !self.names.aliases(name).is_empty()
    }

    /// The shop's own part of this very number.
    pub(in crate::catalogue) fn own_number(&self, name: &str) -> Option<usize> {
        let known = self.names.number(name)?;
        self.parts[known].is_own.then_some(known)
    }

    /// The part that other offers give a number of the row, where what the row says fits it.
    fn by_offered_number(&self, record: &OfferRecord) -> Result<Numbered, Unresolved> {
        let said = Said::from(record);
        let supplier = Some(&*record.supplier);
        let mut against = None;
        for (owner, number) in [
            (None, record.own_number.as_deref()),
            (supplier, record.supplier_number.as_deref()),
        ] {
            let Some(number) = number else {
                continue;
            };
            let given = self.offered.of(owner, number);
            let fits: Vec<(usize, Fit)> = (given.iter())
                .map(|known| (*known, fit(&said, &Said::from(&self.parts[*known].facts))))
                .collect();
            let all_of = |wanted: &[Fit]| -> Vec<usize> {
                let found = fits.iter().filter(|(_, fit)| wanted.contains(fit));
                found.map(|(known, _)| *known).collect()
            };
            let (same, mut open) = (all_of(&[Fit::Same]), all_of(&[Fit::Silent, Fit::Words]));
            if owner.is_none() && self.of_parts_tables > 0 {
                // A number that the shop's parts do not have is the supplier's in a column of anybody's numbers.
                let of_supplier = self.offered.of(supplier, number);
                open.retain(|known| of_supplier.contains(known));
            }
            let known = match (same.first(), open.as_slice()) {
                (Some(known), _) | (None, [known]) => Some(*known),
                (None, []) => None,
                (None, [first, second, ..]) => {
                    return Err(Unresolved {
                        place: record.place.clone(),
                        reason: self.several_called(number, *first, *second),
                    });
                }
            };
            if known.is_some() {
                return Ok(Numbered {
                    known,
                    against: None,
                });
            }
            let first = all_of(&[Fit::Against]).first().copied();
            let first = first.map(|first| (first, number.to_owned()));
            against = against.or(first);
        }
        Ok(Numbered {
            known: None,
            against,
        })
    }

    /// Why a number of two parts names neither.
    pub(in crate::catalogue) fn several_called(
        &self,
        number: &str,
        first: usize,
        second: usize,
    ) -> String {
        format!(
            "`{number}` is a supplier's number of `{}` and of `{}`; write the own number or the designation",
            self.parts[first].number, self.parts[second].number,
        )
    }

    /// The parts of an offer's designation that the offer contradicts in nothing else, and of which both say the same design:
    /// a shaft washer is offered under the number of its bearing.
    fn same_designation(&self, name: &str, record: &OfferRecord) -> Vec<usize> {
        let fits = |position: &usize| {
            let part = &self.parts[*position];
            may_be_one(part.family.or(record.family), &part.traits, &record.traits)
                && is_one_design(&part.traits, &record.traits)
        };
        let named = self.names.designations(name).iter().copied();
        named.filter(fits).collect()
    }

    /// Notes that an offer is for a known part, with the numbers it gives it.
    fn offered(&mut self, known: usize, record: &OfferRecord) -> PartId {
        self.parts[known].places.push(record.place.clone());
        self.add_offered_numbers(known, record);
        PartId(known as u32)
    }

    fn add_offered_numbers(&mut self, known: usize, record: &OfferRecord) {
        if let Some(number) = &record.supplier_number {
            self.offered.add(Some(&record.supplier), number, known);
        }
        let own = record.own_number.as_deref();
        if let Some(number) = own.filter(|number| !self.is_known_number(number)) {
            self.offered.add(None, number, known);
            self.offered.add(Some(&record.supplier), number, known);
        }
    }

    /// Makes a part of an offer that fits none.
    fn known_from_offer(&mut self, record: &OfferRecord) -> Result<PartId, Unresolved> {
        let facts = PartFacts {
            // The shop's word for it; a supplier's number stays with the offer.
            aliases: record.own_number.iter().cloned().collect(),
            designation: record.designation.as_deref().map(str::to_owned),
            description: record.description.clone(),
            family: record.family,
            size: record.size,
            size_notes: record.size_notes.clone(),
            traits: Traits::clone(&record.traits),
            ratings: record.ratings.as_deref().cloned(),
            unit_of_count: record.unit_of_count,
            ..PartFacts::default()
        };
        let place = record.place.clone();
        let part = match (&record.designation, &record.supplier_number) {
            (Some(designation), _) => {
                let part = CataloguePart::bare(designation.to_string(), place);
                self.insert_found(CataloguePart { facts, ..part })
            }
            (None, Some(number)) => {
                let called = self.not_yet_called(number, record);
                // Not by number: that holds at its supplier only.
                self.insert_unnumbered(CataloguePart {
                    facts,
                    ..CataloguePart::bare(called, place)
                })
            }
            (None, None) => return Err(names_no_part(record)),
        };
        self.add_offered_numbers(part.0 as usize, record);
        Ok(part)
    }

    /// A supplier's number, or where another part goes by it one that tells whose it is.
    fn not_yet_called(&self, number: &str, record: &OfferRecord) -> String {
        let is_free = |name: &str| {
            self.names.number(name).is_none() && self.offered.of_anybody(name).is_empty()
        };
        if is_free(number) {
            return number.to_owned();
        }
        let of_supplier = format!("{} {number}", record.supplier);
        let is_given = !self.offered.of(Some(&record.supplier), number).is_empty();
        match &record.description {
            Some(words) if is_given => format!("{of_supplier} {words}"),
            _ => of_supplier,
        }
    }

    /// An offer found by a number of the shop's must not contradict the part; one that only leaves out a suffix goes by its
    /// number, and is told.
    fn agreeing(
        &mut self,
        known: usize,
        record: &OfferRecord,
        name: &str,
    ) -> Result<(), Unresolved> {
        self.same_size(known, record, name)?;
        let part = &self.parts[known];
        let (row, have) = (Said::from(record), Said::from(&part.facts));
        // A finer class of tolerances than was asked for contradicts nothing.
        let mut traits = row.traits.clone();
        traits.tolerance_class = (row.traits.tolerance_class).filter(|class| {
            have.traits
                .tolerance_class
                .is_none_or(|wanted| *class < wanted)
        });
        let row = Said {
            traits: &traits,
            ..row
        };
        let Some(difference) = difference(&row, &have) else {
            return Ok(());
        };
        let end = match difference.is_left_out {
            true => "the offer goes by its number: ask the supplier for what the part is",
            false => "the offer is not used",
        };
        let reason = format!(
            "`{name}` is offered as `{}`, but is `{}` at {}, and differs in {}; {end}",
            words(&row),
            words(&have),
            part.places[0],
            difference.what,
        );
        let told = Unresolved {
            place: record.place.clone(),
            reason,
        };
        if !difference.is_left_out {
            return Err(told);
        }
        self.conflicts.push(told);
        Ok(())
    }

    fn same_size(&self, known: usize, record: &OfferRecord, name: &str) -> Result<(), Unresolved> {
        let part = &self.parts[known];
        let Some((have, want)) = record.size.zip(part.size).filter(|(a, b)| a != b) else {
            return Ok(());
        };
        Err(Unresolved {
            place: record.place.clone(),
            reason: format!(
                "`{name}` is offered as {} {have}, but is {} {want} at {}; the offer is not used",
                have.family(),
                want.family(),
                part.places[0],
            ),
        })
    }

    /// Tells that one number stands for two parts.
    fn tell_two_parts(&mut self, numbered: Numbered, record: &OfferRecord) {
        let Some((known, number)) = numbered.against else {
            return;
        };
        let part = &self.parts[known];
        let reason = format!(
            "number `{number}` is `{}` at {}, but `{}` here; they are taken for two parts, each for what its row says",
            words(&Said::from(&part.facts)),
            part.places[0],
            words(&Said::from(record)),
        );
        self.tell(&record.place, reason);
    }
}

/// What a row calls its part besides numbers.
fn words(said: &Said<'_>) -> String {
    let size = said.size.map(|size| format!("{} {size}", size.family()));
    let family = || said.family.map(|family| family.to_string());
    let words = said.words().map(str::to_owned);
    words.or(size).or_else(family).unwrap_or_default()
}

fn names_no_part(record: &OfferRecord) -> Unresolved {
    let reason = match &record.own_number {
        Some(number) => {
            format!("own number `{number}` is in no parts table, and the row gives no designation")
        }
        None => "the row names no part: no own number, supplier's number or designation".to_owned(),
    };
    Unresolved {
        place: record.place.clone(),
        reason,
    }
}
