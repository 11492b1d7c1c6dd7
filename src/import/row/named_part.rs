//! What a row says its part is: family, size and traits from words, designation and dimension columns.
//!
//! Where two of these contradict each other, an issue says both sides and neither is taken.

use std::sync::Arc;

use crate::import::family_words::family_in;
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::other_thing::{names_another_thing, names_bearings};
use crate::part::designation::Designation;
use crate::part::{Family, InSets, LoadRatings, PartClass, UNSAID_SET};
use crate::record::TableKind;
use crate::standard;

use super::described::{Described, described, family_of, listed};
use super::identity::Identity;
use super::kind_by_size::{family_by_size, is_any_bearing, is_bare_size, tell_no_size};
use super::printed_size::size_in;
use super::reader::RowReader;
use super::said_beside;
use super::set_words::{says_pair, says_set};
use super::size::size;
use super::traits::{closed_as, read_traits};

/// Reads the identity of a row's part.
pub fn read_identity(row: &mut RowReader<'_, '_>) -> Identity {
    row.identity(read_anew)
}

fn read_anew(row: &mut RowReader<'_, '_>) -> Identity {
    let designation = row.text(Field::Designation);
    let mut description = row.text(Field::Description);
    let named = parse(row, designation.as_deref(), description.as_deref());
    let mut parsed = named.map(|(mut parsed, by)| {
        said_beside::read(row, &mut parsed, by.beside());
        parsed
    });
    if parsed.is_none() && description.is_none() {
        // Words in a column of designations describe the part.
        description.clone_from(&designation);
    }
    let mut family = family(row, description.as_deref(), parsed.as_ref());
    // `25x52x15`, described as `ball bearing`: the words are of a part of that size.
    let bare = designation.as_deref().filter(|text| is_bare_size(text));
    let is_in_words = parsed.is_none() && (designation.is_none() || bare.is_some());
    let words = match (description.as_deref(), bare.filter(|_| is_in_words)) {
        (Some(text), Some(size)) if text != size => Some(format!("{text} {size}")),
        _ => description.clone(),
    };
    if family.is_none() && is_in_words && row.is_without_issue() {
        family = family_by_size(row, words.as_deref());
    }
    let sized_by = sized_by(row, family, designation.as_deref(), parsed.is_some());
    let sized_by = sized_by.or_else(|| description.clone());
    let (size, size_notes) = size(row, family, sized_by.as_deref(), parsed.as_mut());
    if size.is_none() && is_in_words {
        tell_no_size(row, family, words.as_deref());
    }
    let known = parsed.as_ref().map(|parsed| {
        let mut traits = parsed.traits.clone();
        if let Some(part) = standard::resolve(&closed_as(row, parsed)) {
            traits.take_gaps(&part.traits);
        }
        (traits, parsed.printed.as_str())
    });
    let mut traits = read_traits(
        row,
        known.as_ref().map(|(traits, printed)| (traits, *printed)),
    );
    // `7208 B`, described as `pair`: the number is that of one of them.
    let is_paired = match family.map(|family| family.facts().exchange.in_sets) {
        Some(InSets::Sets) => description.as_deref().is_some_and(says_set),
        Some(InSets::Pairs) => description.as_deref().is_some_and(says_pair),
        Some(InSets::Alone) | None => false,
    };
    if is_paired {
        let arrangement = &mut traits.arrangement;
        arrangement.get_or_insert_with(|| UNSAID_SET.to_owned());
    }
    let ratings = ratings(row);
    // A designation found among the words of a description names the part as one in a column of its own does, but for
    // what only words say of it.
    let found = parsed.as_ref().filter(|parsed| {
        let is_set = parsed.traits.arrangement.as_deref() == Some(UNSAID_SET);
        parsed.traits.unknown_suffixes.is_empty() && !is_set
    });
    let designation = designation.or_else(|| found.map(|parsed| parsed.printed.clone()));
    Identity {
        designation: designation.map(Into::into),
        description,
        family,
        size,
        size_notes,
        traits: Arc::new(traits),
        ratings: ratings.map(Box::new),
    }
}

/// The words that name the size of a part: a designation that is none but for its size, `25x52x15` described as
/// `deep groove ball bearing`; beside another size in the description both, so that neither is taken.
fn sized_by(
    row: &mut RowReader<'_, '_>,
    family: Option<Family>,
    designation: Option<&str>,
    is_parsed: bool,
) -> Option<String> {
    let (family, designation) = family.zip(designation.filter(|_| !is_parsed))?;
    let unit = row.table.unit;
    let of_designation = size_in(designation, family, unit)?;
    let description = row.text_of(Field::Description).unwrap_or_default();
    let other = size_in(&description, family, unit);
    Some(match other.filter(|other| *other != of_designation) {
        Some(_) => format!("{designation} {description}"),
        None => designation.to_owned(),
    })
}

/// Where a row has its designation.
#[derive(Clone, Copy)]
enum NamedBy {
    Designation,
    Type,
    Description,
    OtherNumber,
}

impl NamedBy {
    /// The fields whose words are said beside the designation.
    const fn beside(self) -> &'static [Field] {
        match self {
            Self::Designation | Self::OtherNumber => &[Field::Description, Field::Type],
            Self::Type => &[Field::Description],
            Self::Description => &[Field::Type],
        }
    }
}

/// The designation of the row; from the description only where a standard lists it, since any number
/// could be taken for one.
fn parse(
    row: &mut RowReader<'_, '_>,
    designation: Option<&str>,
    description: Option<&str>,
) -> Option<(Designation, NamedBy)> {
    if let Some(designation) = designation {
        let read = Designation::parse(designation).or_else(|| {
            // `25x3 NBR 70` is an O-ring's designation where another column says that it is one.
            let of_type = row.text_of(Field::Type);
            // Beside a description only where it is a size: `P10` may be anybody's number.
            let is_size = designation.contains(['x', 'X', '×', '*']);
            let of_words = || description.filter(|text| is_size && !names_another_thing(text));
            let family = match of_type.as_deref().and_then(family_in) {
                Some(family) => family,
                None => family_in(of_words()?)?,
            };
            let word = family.facts().exchange.listed.word_before_size?;
            let read = Designation::parse(&format!("{word} {designation}"))?;
            let printed = designation.to_owned();
            (read.family == Some(family)).then_some(Designation { printed, ..read })
        });
        // A bare size that reads as a seal's is none of a part that the words call a bearing.
        let is_other = |read: &Designation| {
            let family = family_of(read);
            let is_seal = family.is_some_and(|family| family.class() != PartClass::Bearings);
            is_seal && is_bare_size(designation) && description.is_some_and(is_any_bearing)
        };
        let read = read.filter(|read| !is_other(read));
        return read.map(|read| (read, NamedBy::Designation));
    }
    let type_text = row.text_of(Field::Type);
    if type_text.as_deref().is_some_and(names_another_thing) {
        return None;
    }
    let number = type_text.filter(|text| text.contains(|c: char| c.is_ascii_digit()));
    if let Some(found) = number.and_then(|number| listed(&number)) {
        return Some((found, NamedBy::Type));
    }
    let Some(found) = description.and_then(described) else {
        return by_other_number(row, description).map(|read| (read, NamedBy::OtherNumber));
    };
    let read = match found {
        Described::Whole(read) => Some(read),
        Described::Partly(read, unread) => {
            let number = read.printed.clone();
            let problem = Problem::UnreadBeside { number, unread };
            row.issue(Severity::Doubtful, Some(Field::Description), problem);
            Some(read)
        }
        Described::Two(one, other) => {
            let problem = Problem::TwoNumbers { one, other };
            row.issue(Severity::Doubtful, Some(Field::Description), problem);
            None
        }
    };
    read.map(|read| (read, NamedBy::Description))
}

/// The designation among the other numbers of a part of the shop that has no other: `Motorlager`, other number `6308-2RS C3`.
fn by_other_number(row: &mut RowReader<'_, '_>, description: Option<&str>) -> Option<Designation> {
    let table = row.table;
    let is_shops = matches!(table.kind, TableKind::Parts | TableKind::Stock);
    if !is_shops || !table.has(Field::Alias) || description.is_some_and(names_another_thing) {
        return None;
    }
    let mut found: Vec<Designation> = Vec::new();
    for column in table.columns_of(Field::Alias) {
        let text = row.cell_of(column).to_text();
        let names = text.split([';', '|', '\n', ',']).map(str::trim);
        // Figures alone may be anybody's number, unless the words say that it is a bearing.
        let may_be = |name: &&str| {
            name.starts_with(|c: char| c.is_alphabetic()) || description.is_some_and(names_bearings)
        };
        let listed = names.filter(may_be).filter_map(listed);
        found.extend(listed.filter(|read| read.traits.unknown_suffixes.is_empty()));
    }
    let first = found.first()?;
    let is_one = found
        .iter()
        .all(|other| other.traits == first.traits && other.basic == first.basic);
    is_one.then(|| found.swap_remove(0))
}

fn family(
    row: &mut RowReader<'_, '_>,
    description: Option<&str>,
    parsed: Option<&Designation>,
) -> Option<Family> {
    let type_text = row.text(Field::Type);
    let by_designation =
        parsed.and_then(|parsed| family_of(parsed).map(|family| (parsed.printed.as_str(), family)));
    let named = |text: Option<&str>| {
        text.and_then(|text| family_in(text).map(|family| (text.to_owned(), family)))
    };
    let mut sources: Vec<(String, Family)> = Vec::with_capacity(3);
    sources.extend(named(type_text.as_deref()));
    // A housing for deep groove ball bearings is none.
    let is_other = parsed.is_none() && description.is_some_and(names_another_thing);
    sources.extend(named(description).filter(|_| !is_other));
    sources.extend(by_designation.map(|(text, family)| (text.to_owned(), family)));
    // The designation names the kind where words name the genus: a combined bearing is a thrust bearing too.
    if let Some((_, special)) = by_designation {
        let genera = special.facts().exchange.listed.genera;
        sources.retain(|(_, family)| !genera.contains(family));
    }
    let (one, one_family) = sources.first()?.clone();
    if let Some((other, other_family)) = sources
        .iter()
        .find(|(_, family)| *family != one_family)
        .cloned()
    {
        let field = row.table.has(Field::Type).then_some(Field::Type);
        row.issue(
            Severity::Doubtful,
            field,
            Problem::FamilyContradicts {
                one,
                one_family,
                other,
                other_family,
            },
        );
        return None;
    }
    Some(one_family)
}

fn ratings(row: &mut RowReader<'_, '_>) -> Option<LoadRatings> {
    let (dynamic_kn, static_kn) = (
        row.number_above_zero(Field::DynamicRating),
        row.number_above_zero(Field::StaticRating),
    );
    (dynamic_kn.is_some() || static_kn.is_some()).then(|| LoadRatings {
        dynamic_kn,
        static_kn,
        source: row.text(Field::RatingsSource),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 3601-1 and DIN 3760 name a part by its size alone: the word before it must be one that a designation is read by.
    #[test]
    fn the_word_before_a_bare_size_makes_a_designation_of_the_family() {
        let mut named = 0;
        for family in Family::ALL {
            let Some(word) = family.facts().exchange.listed.word_before_size else {
                continue;
            };
            named += 1;
            let row = standard::of_family(family).first();
            let size = row.map(|row| row.size.to_string()).unwrap_or_default();
            let text = format!("{word} {}", size.replace(" x ", "x").replace(" mm", ""));
            let read = Designation::parse(&text).and_then(|read| read.family);
            assert_eq!(read, Some(family), "{text}");
        }
        assert!(named > 0);
    }
}
