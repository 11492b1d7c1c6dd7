//! One line bought from two offers, where packs, minimums, price breaks or free freight make that cheaper than one.
//!
//! A split that costs no less than one offer alone can pay only by what it brings a supplier towards the value from which
//! freight is free. Such ones are kept apart: a small kit is searched with them, a large one says what they could save at most.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDateTime;

use super::cover::{Cover, MOST_SOURCES};
use super::line_need::{Covered, LineNeed};
use super::proved::LeftOut;
use crate::plan::freight::Freight;
use crate::plan::offer::UsableOffer;
use crate::plan::sourcing::Sourcing;
use crate::plan::supply::{Drawn, Need, Source, Supply};
use crate::units::UnitOfCount;

/// Pieces of a line up to which every split is looked at; beyond, those at which a pack, a price break or a minimum begins or
/// ends, between which the cost rises evenly.
const MOST_PIECES: usize = 60;

/// Packs of an offer whose ends are looked at.
const MOST_PACKS: usize = 200;

/// Splits of one line that are kept for what they save in goods, and for what they may save in freight.
const MOST_PAYING: usize = 24;
const MOST_FOR_FREIGHT: usize = 120;

/// Splits of one line between two offers.
#[derive(Debug, Default)]
pub struct Splits {
    /// Those cheaper than any one offer that comes no later, with the freight of another order.
    pub paying: Vec<Cover>,
    /// Those that pay only where goods reach a value from which freight is free.
    pub for_freight: Vec<Cover>,
    /// True where some that might save in goods were not looked at.
    pub is_goods_left_out: bool,
    /// True where some that might save freight were not looked at.
    pub is_freight_left_out: bool,
}

/// What is known of the suppliers' freight before a kit is planned.
#[derive(Debug, Clone, Copy)]
pub struct FreeFreight<'a> {
    /// Freight by supplier.
    pub freight: &'a [Freight],
    /// True where the goods of a kit can reach the value from which it is free.
    pub is_in_reach: &'a [bool],
}

/// By supplier: true where the covers of all groups together may reach the value from which freight is free.
pub fn in_reach<'c>(
    freight: &[Freight],
    groups: impl IntoIterator<Item = &'c Vec<Cover>>,
) -> Vec<bool> {
    let mut most = vec![0_i64; freight.len()];
    for group in groups {
        let mut of_group = vec![0_i64; freight.len()];
        for (supplier, value) in group.iter().flat_map(|cover| &cover.goods) {
            of_group[*supplier] = of_group[*supplier].max(*value);
        }
        for (most, of_group) in most.iter_mut().zip(of_group) {
            *most = most.saturating_add(of_group);
        }
    }
    let pairs = freight.iter().zip(most);
    pairs
        .map(|(freight, most)| {
            let from = freight.free_from_cents.filter(|_| freight.cents > 0);
            from.is_some_and(|from| most >= from)
        })
        .collect()
}

impl FreeFreight<'_> {
    fn may_be_free(&self, supplier: usize) -> bool {
        let is_in_reach = self.is_in_reach.get(supplier).copied().unwrap_or(true);
        is_in_reach && self.freight[supplier].free_from_cents.is_some()
    }

    /// True where any supplier may be.
    pub fn any(&self) -> bool {
        self.is_in_reach.contains(&true)
    }

    /// Freight of all suppliers that may be free, in cents.
    pub fn most_cents(&self) -> i64 {
        let mut sum = 0_i64;
        for (supplier, freight) in self.freight.iter().enumerate() {
            if self.may_be_free(supplier) {
                sum = sum.saturating_add(freight.cents);
            }
        }
        sum
    }
}

/// What a way of covering a line is compared by.
struct Weight {
    cents: i64,
    paid_cents: i64,
    goods: Vec<(usize, i64)>,
    last: (Option<NaiveDateTime>, Option<NaiveDateTime>),
}

impl Weight {
    fn of(parts: &[&Cover]) -> Self {
        let mut weight = Self {
            cents: 0,
            paid_cents: 0,
            goods: Vec::new(),
            last: (None, None),
        };
        for part in parts {
            weight.cents = weight.cents.saturating_add(part.cents);
            weight.paid_cents = weight.paid_cents.saturating_add(part.paid_cents());
            for (supplier, value) in &part.goods {
                match weight.goods.iter_mut().find(|(of, _)| of == supplier) {
                    Some((_, sum)) => *sum += value,
                    None => weight.goods.push((*supplier, *value)),
                }
            }
            for supply in part.lines.iter().flat_map(|line| &line.supplies) {
                weight.last.0 = weight.last.0.max(Some(supply.arrival.likely));
                weight.last.1 = weight.last.1.max(Some(supply.arrival.late));
            }
        }
        weight
    }

    fn at(&self, supplier: usize) -> Option<i64> {
        let found = self.goods.iter().find(|(of, _)| *of == supplier);
        found.map(|(_, value)| *value)
    }

    /// True where every plan with `other` is no dearer and no earlier with this instead, whatever the other lines take.
    fn betters(&self, other: &Self, of: &FreeFreight<'_>, is_free_counted: bool) -> bool {
        if self.last.0 > other.last.0 || self.last.1 > other.last.1 {
            return false;
        }
        let may_be_free = |supplier: usize| is_free_counted && of.may_be_free(supplier);
        let mut more = 0_i64;
        for (supplier, value) in &self.goods {
            let is_more = match other.at(*supplier) {
                None => true,
                Some(before) => may_be_free(*supplier) && *value < before,
            };
            if is_more {
                more = more.saturating_add(of.freight[*supplier].cents);
            }
        }
        for (supplier, _) in &other.goods {
            if self.at(*supplier).is_none() && may_be_free(*supplier) {
                more = more.saturating_add(of.freight[*supplier].cents);
            }
        }
        self.cents.saturating_add(more) <= other.cents
            && self.paid_cents.saturating_add(more) <= other.paid_cents
    }
}

/// Offers that a line can be bought from.
fn offers_of<'n>(
    sourcing: &'n Sourcing<'_>,
    need: &'n LineNeed<'_>,
) -> impl Iterator<Item = &'n UsableOffer<'n>> {
    need.accepted.iter().flat_map(move |part| {
        let assumed = need.assumed.iter().filter(move |offer| offer.part == *part);
        sourcing.offers_of(*part).iter().chain(assumed)
    })
}

/// True where two offers of a line could be cheaper than one by the steps in which they sell; `None` where the line cannot be
/// split at all: a length is one piece.
fn has_steps(sourcing: &Sourcing<'_>, need: &LineNeed<'_>) -> Option<bool> {
    let is_one = need.unit == UnitOfCount::Metre || need.needed < 2.0 - 1e-9;
    if is_one || offers_of(sourcing, need).take(2).count() < 2 {
        return None;
    }
    let is_more = |quantity: Option<f64>| quantity.is_some_and(|of| of > 1.0 + 1e-9);
    Some(offers_of(sourcing, need).any(|offer| {
        let record = offer.record;
        let has_lots = is_more(record.pack_quantity) || is_more(record.minimum_quantity);
        has_lots || !record.breaks.is_empty() || offer.unit != need.unit
    }))
}

impl Splits {
    /// What those that were not looked at could save at most.
    pub fn left_out(&self, of: &FreeFreight<'_>) -> LeftOut {
        if self.is_goods_left_out {
            LeftOut::Unknown
        } else if self.is_freight_left_out {
            LeftOut::Freight(of.most_cents())
        } else {
            LeftOut::Nothing
        }
    }

    /// Those of lines that share a source: none is looked at.
    pub fn of_shared(
        sourcing: &Sourcing<'_>,
        needs: &[&LineNeed<'_>],
        of: &FreeFreight<'_>,
    ) -> Self {
        let steps = needs.iter().filter_map(|need| has_steps(sourcing, need));
        let steps: Vec<bool> = steps.collect();
        Self {
            is_goods_left_out: steps.contains(&true),
            is_freight_left_out: !steps.is_empty() && of.any(),
            ..Self::default()
        }
    }
}

/// What comes before the two offers, and what each offer gives alone by the quantity it is asked for.
struct Start {
    before: Cover,
    left: usize,
    /// By offer and delivery.
    offers: BTreeMap<(usize, usize), BTreeMap<usize, Cover>>,
}

/// A line that may be split, with the prices of what each of its offers gives.
pub struct SplitLine {
    starts: Vec<Start>,
    /// Which splits are looked at.
    covered: Covered,
    is_every_end_looked_at: bool,
    is_every_split_looked_at: bool,
}

impl SplitLine {
    /// Prices the pieces of a line that is alone with its sources; `found` are its covers from one offer.
    ///
    /// `price` makes a cover of supplies.
    pub fn new(
        sourcing: &Sourcing<'_>,
        need: &LineNeed<'_>,
        found: &[Cover],
        is_freight_in_reach: bool,
        mut price: impl FnMut(Vec<Supply>) -> Cover,
    ) -> Self {
        let mut line = Self {
            starts: Vec::new(),
            covered: need.covered,
            is_every_end_looked_at: true,
            is_every_split_looked_at: true,
        };
        if !has_steps(sourcing, need).is_some_and(|has| has || is_freight_in_reach) {
            return line;
        }
        for (supplies, left) in starts(found) {
            let mut drawn = Drawn::default();
            for supply in &supplies {
                drawn.book(sourcing, supply, need.unit);
            }
            let asks = Need {
                accepted: &need.accepted,
                ways: &[],
                assumed: need.assumed,
                unit: need.unit,
                is_unknown_part: need.is_unknown_part,
            };
            let mut offers: BTreeMap<(usize, usize), BTreeMap<usize, Cover>> = BTreeMap::new();
            for quantity in line.quantities(sourcing, need, left) {
                let wanted = quantity as f64;
                for supply in drawn.candidates(sourcing, &asks, wanted) {
                    let Source::Offer { offer, way, .. } = supply.source else {
                        continue;
                    };
                    let is_of = |of: &Supply| matches!(of.source, Source::Offer { offer: other, .. } if other == offer);
                    let is_all = supply.quantity >= wanted - 1e-9;
                    if is_all && supply.cost.is_some() && !supplies.iter().any(is_of) {
                        let of_offer = offers.entry((offer, way)).or_default();
                        of_offer.insert(quantity, price(vec![supply]));
                    }
                }
            }
            line.starts.push(Start {
                before: price(supplies),
                left,
                offers,
            });
        }
        line
    }

    /// Quantities that one of the two may be asked for.
    fn quantities(
        &mut self,
        sourcing: &Sourcing<'_>,
        need: &LineNeed<'_>,
        left: usize,
    ) -> BTreeSet<usize> {
        if left <= MOST_PIECES {
            return (1..left).collect();
        }
        self.is_every_split_looked_at = false;
        let mut ends: BTreeSet<usize> = BTreeSet::new();
        for offer in offers_of(sourcing, need) {
            let Ok(factor) = offer.unit.in_units_of(need.unit) else {
                continue;
            };
            let pack = offer.record.pack_quantity.unwrap_or(1.0).max(1.0) * factor;
            if pack > 1.0 + 1e-9 {
                let packs = (left as f64 / pack).ceil() as usize;
                self.is_every_end_looked_at &= packs <= MOST_PACKS;
                let whole = (1..=packs.min(MOST_PACKS)).map(|packs| packs as f64 * pack);
                ends.extend(whole.map(|end| end.floor() as usize));
            }
            let breaks = offer.record.breaks.iter().map(|of| of.from_quantity);
            let from = breaks.chain(offer.record.minimum_quantity);
            ends.extend(from.map(|from| (from * factor).ceil() as usize));
        }
        let near = ends.into_iter().flat_map(|end| {
            let end = end.min(left);
            [end.saturating_sub(1), end, end + 1]
        });
        let inside = near.filter(|quantity| (1..left).contains(quantity));
        inside
            .flat_map(|quantity| [quantity, left - quantity])
            .collect()
    }

    /// The splits that may belong to the best plan.
    pub fn splits(&self, of: &FreeFreight<'_>, found: &[Cover]) -> Splits {
        let mut splits = Splits {
            is_goods_left_out: !self.is_every_end_looked_at,
            is_freight_left_out: !self.is_every_split_looked_at && of.any(),
            ..Splits::default()
        };
        let mut all: Vec<[&Cover; 3]> = Vec::new();
        for start in &self.starts {
            let offers: Vec<_> = start.offers.iter().collect();
            for (at, ((first, _), gives)) in offers.iter().enumerate() {
                let others = offers[at + 1..].iter();
                for (_, other) in others.filter(|((second, _), _)| second != first) {
                    all.extend(gives.iter().filter_map(|(quantity, cover)| {
                        Some([&start.before, cover, other.get(&(start.left - quantity))?])
                    }));
                }
            }
        }
        all.retain(|parts| {
            let lines = parts.iter().flat_map(|part| &part.lines);
            self.covered.allows(lines.flat_map(|line| &line.supplies))
        });
        all.sort_by_key(|parts| {
            parts
                .iter()
                .map(|part| part.cents)
                .fold(0, i64::saturating_add)
        });
        let covered = found.iter().filter(|cover| cover.is_covered());
        let mut better: Vec<Weight> = covered.map(|cover| Weight::of(&[cover])).collect();
        let mut for_freight: Vec<Weight> = Vec::new();
        for parts in all {
            let weight = Weight::of(&parts);
            if !better
                .iter()
                .any(|of_one| of_one.betters(&weight, of, false))
            {
                if splits.paying.len() == MOST_PAYING {
                    splits.is_goods_left_out = true;
                    break;
                }
                splits.paying.push(together(parts, &weight));
                better.push(weight);
                continue;
            }
            let mut others = better.iter().chain(&for_freight);
            if splits.is_freight_left_out || others.any(|other| other.betters(&weight, of, true)) {
                continue;
            }
            if splits.for_freight.len() == MOST_FOR_FREIGHT {
                splits.is_freight_left_out = true;
                continue;
            }
            splits.for_freight.push(together(parts, &weight));
            for_freight.push(weight);
        }
        splits
    }
}

/// What is taken before the one offer that gives all the rest, and how many pieces that is, of each cover.
fn starts(found: &[Cover]) -> Vec<(Vec<Supply>, usize)> {
    let mut starts: Vec<(Vec<Supply>, usize)> = Vec::new();
    for cover in found.iter().filter(|cover| cover.is_covered()) {
        let supplies = cover.lines.first().map(|line| &line.supplies[..]);
        let Some((last, before)) = supplies.and_then(<[Supply]>::split_last) else {
            continue;
        };
        let is_shelf = |of: &&Supply| matches!(of.source, Source::Stock { .. });
        let sources = before.iter().filter(|of| !is_shelf(of)).count();
        let left = last.quantity.round();
        let is_whole = (left - last.quantity).abs() < 1e-9;
        if is_whole
            && left >= 2.0
            && sources + 2 <= MOST_SOURCES
            && matches!(last.source, Source::Offer { .. })
            && !starts.iter().any(|(known, _)| known == before)
        {
            starts.push((before.to_vec(), left as usize));
        }
    }
    starts
}

fn together([before, first, second]: [&Cover; 3], weight: &Weight) -> Cover {
    let mut lines = before.lines.clone();
    let more = [first, second].into_iter().flat_map(|of| &of.lines);
    let more: Vec<Supply> = more.flat_map(|line| line.supplies.clone()).collect();
    if let Some(line) = lines.first_mut() {
        line.supplies.extend(more);
    }
    Cover {
        lines,
        cents: weight.cents,
        donor_cents: weight.cents - weight.paid_cents,
        goods: weight.goods.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn freight_is_in_reach_where_the_most_of_all_lines_comes_to_its_value() {
        let cover = |goods: &[(usize, i64)]| Cover {
            lines: Vec::new(),
            cents: 0,
            donor_cents: 0,
            goods: goods.to_vec(),
        };
        let groups = [
            vec![cover(&[(0, 300), (1, 50)]), cover(&[(0, 200)])],
            vec![cover(&[(0, 400)]), cover(&[(1, 649)])],
        ];
        let freight = |free_from_cents| Freight {
            cents: 10,
            free_from_cents,
        };
        let found = in_reach(
            &[freight(Some(700)), freight(Some(700)), freight(None)],
            &groups,
        );
        assert_eq!(found, [true, false, false]);
    }
}
