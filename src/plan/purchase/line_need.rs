//! What the lines of a kit need, and which of them share a source.

use std::collections::{BTreeMap, BTreeSet};

use crate::catalogue::PartId;
use crate::place::Place;
use crate::plan::offer::UsableOffer;
use crate::plan::sourcing::Sourcing;
use crate::plan::supply::Supply;
use crate::record::OtherWay;
use crate::units::UnitOfCount;

/// One delivery of one offer: position of the offer among those of the shop, position of the way among its deliveries.
pub type OfferedWay = (usize, usize);

/// What the ways of covering a line have in common.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Covered {
    /// Nothing: all of them are looked at.
    #[default]
    Anyhow,
    /// Something comes by this delivery.
    By(OfferedWay),
    /// Nothing comes by this delivery.
    NotBy(OfferedWay),
}

impl Covered {
    /// True for a way of covering a line that is looked at.
    pub fn allows<'s>(self, supplies: impl IntoIterator<Item = &'s Supply>) -> bool {
        let comes_by = |way| {
            let mut all = supplies.into_iter();
            all.any(|of| of.offered_way() == Some(way))
        };
        match self {
            Self::Anyhow => true,
            Self::By(way) => comes_by(way),
            Self::NotBy(way) => !comes_by(way),
        }
    }
}

/// What one line needs.
#[derive(Debug, Clone)]
pub struct LineNeed<'a> {
    /// Parts that may be fitted, the one asked for first.
    pub accepted: Vec<PartId>,
    /// Ways other than buying.
    pub ways: Vec<&'a OtherWay>,
    /// Offers that are planned with as if an open question about them were answered.
    pub assumed: &'a [UsableOffer<'a>],
    /// Unit of count of the line.
    pub unit: UnitOfCount,
    /// Quantity.
    pub needed: f64,
    /// True where the line itself names no part.
    pub is_unknown_part: bool,
    /// Which ways of covering it are looked at.
    pub covered: Covered,
}

/// Lines that can draw on one shelf, order, offer or way, directly or through others.
pub fn line_groups(sourcing: &Sourcing<'_>, needs: &[LineNeed<'_>]) -> Vec<Vec<usize>> {
    let mut by_source: BTreeMap<(bool, u64), usize> = BTreeMap::new();
    let mut group: Vec<usize> = (0..needs.len()).collect();
    let mut ways: Vec<&Place> = Vec::new();
    for (at, need) in needs.iter().enumerate() {
        let mut sources: BTreeSet<(bool, u64)> = need
            .accepted
            .iter()
            .filter(|part| {
                sourcing.stock.by_part.contains_key(part)
                    || sourcing.orders.contains_key(part)
                    || !sourcing.offers_of(**part).is_empty()
                    || need.assumed.iter().any(|offer| offer.part == **part)
            })
            .map(|part| (true, u64::from(part.0)))
            .collect();
        for way in &need.ways {
            let known = ways.iter().position(|place| **place == way.place);
            let position = known.unwrap_or_else(|| {
                ways.push(&way.place);
                ways.len() - 1
            });
            sources.insert((false, position as u64));
        }
        for source in sources {
            let first = *by_source.entry(source).or_insert(at);
            let (from, to) = (group[at].max(group[first]), group[at].min(group[first]));
            for of in &mut group {
                if *of == from {
                    *of = to;
                }
            }
        }
    }
    let mut lines: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (at, of) in group.iter().enumerate() {
        lines.entry(*of).or_default().push(at);
    }
    lines.into_values().collect()
}
