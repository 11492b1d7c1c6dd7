//! Groups of parts that each go in for each other as they are.

use std::cell::RefCell;
use std::collections::HashMap;

use super::judge::goes_in_as_it_is;
use super::subject::Subject;
use crate::catalogue::{Catalogue, CataloguePart, PartId};
use crate::standard::StandardPart;

/// Parts of one size that all go in for each other, in both directions.
///
/// A part joins a group only if it goes in for every member and every member for it, so that no chain of
/// exceptions can join two parts that do not go in for each other.
pub fn groups(catalogue: &Catalogue) -> Vec<Vec<PartId>> {
    let mut all = Vec::new();
    for (_, parts) in catalogue.sizes() {
        match parts {
            [only] => all.push(vec![*only]),
            parts => all.extend(of_one_size(catalogue, parts)),
        }
    }
    all
}

/// A group while it is being made.
struct Group {
    parts: Vec<PartId>,
    /// The kinds of its parts.
    kinds: Vec<usize>,
}

fn of_one_size(catalogue: &Catalogue, parts: &[PartId]) -> Vec<Vec<PartId>> {
    let mut kinds = Kinds::default();
    let mut groups: Vec<Group> = Vec::new();
    for id in parts {
        let kind = kinds.of(catalogue.part(*id));
        let takes = |group: &&mut Group| {
            let mut members = group.kinds.iter();
            members.all(|member| kinds.go_both_ways(kind, *member))
        };
        match groups.iter_mut().find(takes) {
            Some(group) => {
                group.parts.push(*id);
                if !group.kinds.contains(&kind) {
                    group.kinds.push(kind);
                }
            }
            None => groups.push(Group {
                parts: vec![*id],
                kinds: vec![kind],
            }),
        }
    }
    groups.into_iter().map(|group| group.parts).collect()
}

/// Parts of one size by what the rules look at: two of one kind are judged alike, so that each pair of kinds is judged once.
#[derive(Default)]
struct Kinds<'a> {
    kinds: Vec<(&'a CataloguePart, Option<&'static StandardPart>, Subject)>,
    judged: RefCell<HashMap<(usize, usize), bool>>,
}

impl<'a> Kinds<'a> {
    /// The kind of a part.
    fn of(&mut self, part: &'a CataloguePart) -> usize {
        let row = part.standard_row();
        let is_alike =
            |(other, other_row, _): &(&CataloguePart, Option<&StandardPart>, Subject)| {
                let same_row = match (row, other_row) {
                    (Some(row), Some(other_row)) => std::ptr::eq(row, *other_row),
                    (row, other_row) => row.is_none() && other_row.is_none(),
                };
                // The size is the same; the label is for reasons, which nobody reads here.
                same_row
                    && part.traits == other.traits
                    && part.family == other.family
                    && part.ratings == other.ratings
                    && part.speed_limit_rpm == other.speed_limit_rpm
            };
        if let Some(known) = self.kinds.iter().position(is_alike) {
            return known;
        }
        self.kinds.push((part, row, Subject::of_part(part)));
        self.kinds.len() - 1
    }

    fn go_both_ways(&self, a: usize, b: usize) -> bool {
        let pair = (a.min(b), a.max(b));
        if let Some(known) = self.judged.borrow().get(&pair) {
            return *known;
        }
        let (one, other) = (&self.kinds[a].2, &self.kinds[b].2);
        let go = goes_in_as_it_is(one, other) && goes_in_as_it_is(other, one);
        self.judged.borrow_mut().insert(pair, go);
        go
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interchange::{Verdict, judge};
    use crate::part::designation::Designation;
    use crate::place::Place;
    use crate::standard;

    fn catalogue() -> Catalogue {
        let suffixes = [
            "",
            "-2RS",
            "-2RS C3",
            "-2Z C3",
            "/P5",
            " XY",
            " CN open",
            "-2RS CN P0",
        ];
        let mut parts = Vec::new();
        for (row, at) in standard::parts().iter().step_by(7).zip(0u32..) {
            for suffix in suffixes.iter().chain(&suffixes[1..3]) {
                let designation = format!("{}{suffix}", row.designation);
                let place = Place::row(&"parts.csv".into(), &"".into(), at);
                let mut part = CataloguePart::bare(format!("{at} {}", parts.len()), place);
                part.traits = Designation::parse(&designation)
                    .map(|d| d.traits)
                    .unwrap_or_default();
                part.size = Some(row.size);
                part.designation = Some(designation);
                parts.push(part);
            }
        }
        Catalogue::new(parts)
    }

    #[test]
    fn kinds_and_quick_judgements_change_no_group() {
        let catalogue = catalogue();
        let mut joined = 0;
        let mut expected = Vec::new();
        // Every part against every member by the whole judgement.
        for (_, parts) in catalogue.sizes() {
            let subject = |id: &PartId| Subject::of_part(catalogue.part(*id));
            let goes = |want: &PartId, have: &PartId| {
                judge(&subject(want), &subject(have)).verdict == Verdict::AsItIs
            };
            let mut of_size: Vec<Vec<PartId>> = Vec::new();
            for id in parts {
                let takes = |group: &&mut Vec<PartId>| {
                    group
                        .iter()
                        .all(|member| goes(id, member) && goes(member, id))
                };
                match of_size.iter_mut().find(takes) {
                    Some(group) => {
                        group.push(*id);
                        joined += 1;
                    }
                    None => of_size.push(vec![*id]),
                }
            }
            expected.extend(of_size);
        }
        assert!(joined > 50, "{joined}");
        assert_eq!(groups(&catalogue), expected);
    }
}
