//! Which parts learn from each other: those of one class and of about one price, as far as there are enough.

use std::collections::BTreeMap;
use std::fmt;

use crate::part::PartClass;

/// Parts and usages that make a group of its own (common practice, no source).
const ENOUGH_PARTS: usize = 10;
/// Usages, see [`ENOUGH_PARTS`].
const ENOUGH_EVENTS: usize = 5;

/// Parts of a price band.
const PARTS_OF_BAND: usize = 30;

/// Most price bands.
const MOST_BANDS: usize = 10;

/// What a group is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroupOf {
    /// Class; `None` for all parts of the shop.
    pub class: Option<PartClass>,
    /// Unit prices from and up to, in the shop's currency; `None` for all prices.
    pub prices: Option<(f64, f64)>,
}

/// What a part is grouped by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grouped {
    /// Class.
    pub class: PartClass,
    /// Unit price in the shop's currency.
    pub unit_price: Option<f64>,
    /// Usages.
    pub events: usize,
}

/// Groups with the parts that each is learnt from, and the group of every part.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Groups {
    /// Groups with the positions of their parts.
    pub groups: Vec<(GroupOf, Vec<usize>)>,
    /// Position in `groups` of every part.
    pub of_part: Vec<usize>,
}

impl Groups {
    /// Groups parts by class and price; a class or band with too few parts or usages is one with the next wider group.
    pub fn new(parts: &[Grouped]) -> Self {
        let all: Vec<usize> = (0..parts.len()).collect();
        let mut found = Self {
            groups: Vec::new(),
            of_part: vec![0; parts.len()],
        };
        found.add(parts, None, &all, &all);
        let mut by_class: BTreeMap<PartClass, Vec<usize>> = BTreeMap::new();
        for (at, part) in parts.iter().enumerate() {
            by_class.entry(part.class).or_default().push(at);
        }
        for (class, members) in by_class {
            if is_enough(parts, &members) && members.len() < parts.len() {
                found.add(parts, Some(class), &members, &members);
            }
        }
        found
    }

    /// Adds a group for `members`, and its price bands for those of them that have a price.
    fn add(
        &mut self,
        parts: &[Grouped],
        class: Option<PartClass>,
        from: &[usize],
        members: &[usize],
    ) {
        self.push(
            GroupOf {
                class,
                prices: None,
            },
            from.to_vec(),
            members,
        );
        let priced: Vec<(usize, f64)> = from
            .iter()
            .filter_map(|at| Some((*at, parts[*at].unit_price?)))
            .collect();
        let prices: Vec<f64> = priced.iter().map(|(_, price)| *price).collect();
        let bands = price_bands(&prices);
        for band in 0..=bands.iter().copied().max().unwrap_or(0) {
            let inside: Vec<(usize, f64)> = priced
                .iter()
                .zip(&bands)
                .filter(|(_, of)| **of == band)
                .map(|(part, _)| *part)
                .collect();
            let of_band: Vec<usize> = inside.iter().map(|(at, _)| *at).collect();
            if of_band.len() < priced.len() && is_enough(parts, &of_band) {
                let low = inside
                    .iter()
                    .map(|(_, price)| *price)
                    .fold(f64::INFINITY, f64::min);
                let high = inside.iter().map(|(_, price)| *price).fold(0.0, f64::max);
                let prices = Some((low, high));
                self.push(GroupOf { class, prices }, of_band.clone(), &of_band);
            }
        }
    }

    fn push(&mut self, group: GroupOf, from: Vec<usize>, members: &[usize]) {
        for member in members {
            self.of_part[*member] = self.groups.len();
        }
        self.groups.push((group, from));
    }
}

fn is_enough(parts: &[Grouped], members: &[usize]) -> bool {
    let events: usize = members.iter().map(|at| parts[*at].events).sum();
    members.len() >= ENOUGH_PARTS && events >= ENOUGH_EVENTS
}

/// Band of each price, from 0: as many alike bands as leave 30 parts in each, at most ten.
///
/// Equal prices are always in one band.
pub fn price_bands(prices: &[f64]) -> Vec<usize> {
    let bands = (prices.len() / PARTS_OF_BAND).clamp(1, MOST_BANDS);
    let mut sorted = prices.to_vec();
    sorted.sort_unstable_by(f64::total_cmp);
    let cuts: Vec<f64> = (1..bands)
        .map(|band| sorted[band * prices.len() / bands])
        .collect();
    prices
        .iter()
        .map(|price| cuts.partition_point(|cut| cut <= price))
        .collect()
}

impl fmt::Display for GroupOf {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.class {
            None => "all parts",
            Some(PartClass::Bearings) => "bearings",
            Some(PartClass::Seals) => "seals",
            Some(PartClass::Fasteners) => "rings, nuts and pins",
            Some(PartClass::Other) => "parts of no standard family",
        })?;
        match self.prices {
            Some((low, high)) => write!(f, " of {low:.2} to {high:.2}"),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(
        count: usize,
        class: PartClass,
        events: usize,
        unit_price: Option<f64>,
    ) -> Vec<Grouped> {
        vec![
            Grouped {
                class,
                unit_price,
                events,
            };
            count
        ]
    }

    #[test]
    fn a_small_class_learns_from_the_whole_shop() {
        let mut all = parts(12, PartClass::Bearings, 1, None);
        all.extend(parts(9, PartClass::Seals, 5, None));
        let groups = Groups::new(&all);
        let name = |part: usize| groups.groups[groups.of_part[part]].0.to_string();
        assert_eq!(
            (name(0).as_str(), name(20).as_str()),
            ("bearings", "all parts")
        );
        assert_eq!(groups.groups[groups.of_part[20]].1.len(), 21);
    }

    #[test]
    fn prices_split_a_class_only_where_there_are_enough_parts() {
        let mut all = parts(30, PartClass::Seals, 1, Some(2.0));
        all.extend(parts(29, PartClass::Seals, 1, Some(90.0)));
        assert_eq!(Groups::new(&all).groups.len(), 1);
        all.extend(parts(1, PartClass::Seals, 1, Some(95.0)));
        all.extend(parts(3, PartClass::Seals, 1, None));
        let groups = Groups::new(&all);
        let name = |part: usize| groups.groups[groups.of_part[part]].0.to_string();
        assert_eq!(name(0), "all parts of 2.00 to 2.00");
        assert_eq!(name(40), "all parts of 90.00 to 95.00");
        assert_eq!(name(62), "all parts");
    }
}
