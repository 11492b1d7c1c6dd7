//! Groups of parts that each go in for each other as they are.

use crate::catalogue::{Catalogue, PartId};

use super::judge::judge;
use super::subject::Subject;
use super::verdict::Verdict;

/// Parts of one size that all go in for each other, in both directions.
///
/// A part joins a group only if it goes in for every member and every member for it, so that no chain of
/// exceptions can join two parts that do not go in for each other.
pub fn groups(catalogue: &Catalogue) -> Vec<Vec<PartId>> {
    let mut all = Vec::new();
    for (_, parts) in catalogue.sizes() {
        let subjects: Vec<Subject> = parts
            .iter()
            .map(|id| Subject::of_part(catalogue.part(*id)))
            .collect();
        let mut of_size: Vec<Vec<usize>> = Vec::new();
        for (at, subject) in subjects.iter().enumerate() {
            let goes_both_ways = |other: &usize| {
                let other = &subjects[*other];
                judge(subject, other).verdict == Verdict::AsItIs
                    && judge(other, subject).verdict == Verdict::AsItIs
            };
            match of_size
                .iter_mut()
                .find(|group| group.iter().all(goes_both_ways))
            {
                Some(group) => group.push(at),
                None => of_size.push(vec![at]),
            }
        }
        all.extend(
            of_size
                .into_iter()
                .map(|group| group.into_iter().map(|at| parts[at]).collect()),
        );
    }
    all
}
