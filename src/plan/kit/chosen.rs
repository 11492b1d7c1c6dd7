//! What a plan chose for each group of lines.

use super::planned::Planned;
use crate::plan::purchase::Cover;
use crate::plan::supply::{Source, Supply};

/// What was chosen for one group: a cover, and a second one where it is ordered twice.
pub struct Chosen<'p> {
    /// The cover.
    pub cover: &'p Cover,
    /// The second order.
    pub also: Option<&'p Cover>,
    /// Open orders that come for its line whatever is chosen.
    pub open: &'p [Supply],
}

impl Planned<'_> {
    /// The chosen covers, by group.
    pub fn chosen(&self) -> Vec<Chosen<'_>> {
        self.chosen_by(&self.best.choices)
    }

    /// The covers of other choices, by group.
    pub fn chosen_by(&self, choices: &[usize]) -> Vec<Chosen<'_>> {
        let covers = &self.figures.covers.groups;
        let open = &self.figures.covers.open;
        choices
            .iter()
            .enumerate()
            .map(
                |(group, choice)| match choice.checked_sub(covers[group].len()) {
                    None => Chosen {
                        cover: &covers[group][*choice],
                        also: None,
                        open: &open[group],
                    },
                    Some(pair) => {
                        let (first, second) = self.figures.pairs[group][pair];
                        Chosen {
                            cover: &covers[group][first],
                            also: Some(&covers[group][second]),
                            open: &open[group],
                        }
                    }
                },
            )
            .collect()
    }
}

/// True where two supplies come from the same row by the same way.
pub fn same_source(a: &Supply, b: &Supply) -> bool {
    match (&a.source, &b.source) {
        (
            Source::Offer {
                place: a, way: x, ..
            },
            Source::Offer {
                place: b, way: y, ..
            },
        ) => a == b && x == y,
        (Source::OtherWay { place: a, .. }, Source::OtherWay { place: b, .. })
        | (Source::OpenOrder { place: a, .. }, Source::OpenOrder { place: b, .. }) => a == b,
        (Source::Stock { part: a, .. }, Source::Stock { part: b, .. }) => a == b,
        _ => false,
    }
}
