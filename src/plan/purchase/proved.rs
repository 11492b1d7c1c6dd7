//! How far the best plan of some covers is the best there is: what was not looked at, and what it could save.

use super::cover::{Cover, Covers};
use super::expected::MOST_PARTS;
use super::split::FreeFreight;
use crate::plan::freight::Freight;

/// How far it is proved that no plan is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Proved {
    /// None is.
    Best,
    /// None is, but perhaps one that splits a line between two offers in a way that was not looked at.
    UnlessSplit,
    /// The search was cut short.
    CutShort,
}

/// What the splits that were not looked at could save at most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LeftOut {
    /// All were looked at.
    Nothing,
    /// So many cents of freight.
    Freight(i64),
    /// Nobody knows.
    Unknown,
}

impl Covers {
    /// Freight by supplier, doubled where it is assumed: plans are compared with ones that pay so much.
    pub fn freight_at_most(&self) -> Vec<Freight> {
        let pairs = self.freight.iter().zip(&self.freight_assumed);
        let most = pairs.map(|(freight, assumed)| Freight {
            cents: freight
                .cents
                .saturating_mul(if assumed.is_some() { 2 } else { 1 }),
            ..*freight
        });
        most.collect()
    }

    /// Adds the splits that only free freight pays for, by group, where all plans with them can be looked at.
    pub fn add_for_freight(&mut self, for_freight: Vec<Vec<Cover>>, is_in_reach: &[bool]) {
        if for_freight.iter().all(Vec::is_empty) {
            return;
        }
        let counts = self.groups.iter().zip(&for_freight);
        let counts = counts.map(|(group, more)| group.len() + more.len());
        if most_parts(counts) > MOST_PARTS {
            let of = FreeFreight {
                freight: &self.freight_at_most(),
                is_in_reach,
            };
            self.left_out = self.left_out.max(LeftOut::Freight(of.most_cents()));
            return;
        }
        for (group, more) in self.groups.iter_mut().zip(for_freight) {
            group.extend(more);
        }
    }

    /// What no plan is below, where no plan of these covers is below `cents`; `None` where nobody can say.
    pub const fn bound_cents(&self, cents: i64) -> Option<i64> {
        match self.left_out {
            _ if !self.is_whole => None,
            LeftOut::Nothing => Some(cents),
            LeftOut::Freight(most) => Some(cents.saturating_sub(most)),
            LeftOut::Unknown => None,
        }
    }

    /// How far it is proved that nothing is better, where that is proved of these covers.
    pub fn proved(&self, is_proved: bool) -> Proved {
        match self.left_out {
            _ if !is_proved || !self.is_whole => Proved::CutShort,
            LeftOut::Nothing => Proved::Best,
            LeftOut::Freight(_) | LeftOut::Unknown => Proved::UnlessSplit,
        }
    }
}

/// Most parts of a search over lines with so many choices each, were nothing left out by a bound.
pub fn most_parts(choices: impl IntoIterator<Item = usize>) -> usize {
    let mut several: Vec<usize> = choices.into_iter().filter(|count| *count > 1).collect();
    several.sort_unstable_by(|a, b| b.cmp(a));
    several.pop();
    let (mut all, mut so_far) = (1_usize, 1_usize);
    for count in several {
        so_far = so_far.saturating_mul(count);
        all = all.saturating_add(so_far);
    }
    all
}

impl std::fmt::Display for Proved {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Best => "proved",
            Self::UnlessSplit => "proved, unless a line is split further",
            Self::CutShort => "search cut short",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_search_of_few_choices_is_small_and_one_of_many_is_not() {
        // By hand: the root, 4 below it and 4 x 3 below those; what is below the last line is no part but a plan.
        assert_eq!(most_parts([3, 1, 4, 2]), 1 + 4 + 12);
        assert_eq!(most_parts([1, 1]), 1);
        assert_eq!(most_parts([]), 1);
        assert_eq!(most_parts([usize::MAX; 4]), usize::MAX);
    }
}
