//! What to order now, from whom, and by when at the latest.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use super::choice::{
    OfferChoice, OrderedBefore, Timing, Wanted, WhyNoChoice, choices, latest_order_day,
};
use super::earlier_first::match_up;
use super::freight::Carriage;
use super::late_for_last::last_bridge;
use super::late_for_level::short_before;
use super::late_hours::WaitsFrom;
use super::level::{LastBuy, LastBuyStill, Level, LevelBasis, LevelReason, Levels};
use super::made_instead::{
    MadeInstead, Making, WayLeft, known_cents, tell_begin, tell_instead, ways_of_needs,
    without_cost,
};
use super::one_stop::{OneStop, by_stop, share};
use super::open_order::OpenOrder;
use super::order_line::{OrderedFor, ReorderLine, ReorderReason};
use super::order_list::OrderList;
use super::order_waiting::{LastWaiting, OrderWaiting, Waiting};
use super::rebuild_need::RebuildNeed;
use super::riding_along::{
    MOST_LINES, all_freights, in_all_cents, may_close, may_open, paid_anyhow, tell_freight,
};
use super::same_part::same_parts;
use super::sourcing::Sourcing;
use super::stock_position::{Position, There};
use super::supplier_order::{SupplierOrder, supplier_orders};
use super::supply::Supply;
use super::when_missed::tell_missed;
use crate::catalogue::PartId;
use crate::interchange::LineAcceptance;
use crate::place::Place;
use crate::record::OtherWay;

/// A need that no offer covers, or not all of it.
#[derive(Debug, Clone, PartialEq)]
pub struct NotOrdered {
    /// The part wanted; `None` for a kit line no table knows.
    pub part: Option<PartId>,
    /// Position of the need in the plan's list of needs; `None` for a stock level or a last buy.
    pub need: Option<usize>,
    /// Quantity that is not covered.
    pub wanted: f64,
    /// Why.
    pub why: WhyNoChoice,
}

/// The order list.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Reorder {
    /// Lines: dated needs by day, then stock levels and last buys by part.
    pub lines: Vec<ReorderLine>,
    /// Lines that are due at the moment of planning, by supplier.
    pub orders: Vec<SupplierOrder>,
    /// Needs that no offer covers.
    pub not_ordered: Vec<NotOrdered>,
    /// What is still bought of each last buy: beyond what is there, on order, and left over or taken by planned rebuilds.
    pub last_buys: BTreeMap<PartId, LastBuyStill>,
    /// What is made, repaired or fetched for planned rebuilds instead of ordered, by need.
    pub made: Vec<MadeInstead>,
    /// Rows of open orders before which the shelf may run short.
    pub hurry: BTreeSet<Place>,
    /// What is ordered to bridge the time until open orders that come too late for the stock level, by its part.
    pub bridges: BTreeMap<PartId, f64>,
}

impl Reorder {
    /// What is made, repaired or fetched for one need.
    pub fn made_for(&self, need: usize) -> &[MadeInstead] {
        let from = self.made.partition_point(|of| of.need < need);
        let until = self.made.partition_point(|of| of.need <= need);
        &self.made[from..until]
    }

    /// Lines that are due on `today`, in order.
    pub fn due_lines(&self, today: NaiveDate) -> impl Iterator<Item = &ReorderLine> {
        self.lines.iter().filter(move |line| line.is_due(today))
    }

    /// Chooses offers for dated needs first, then for stock levels and last buys.
    ///
    /// Choices are made one after another, levels by own number and not by the row of the parts table; freight of a supplier
    /// weighs only on its first line, and on none where the list is cheaper in all once it is known who gets an order anyhow.
    /// Lines of one supplier that only pay together come there, or leave it, together. What a rebuild needs is not ordered
    /// where another way is better.
    pub fn new(
        sourcing: &Sourcing<'_>,
        acceptances: &[LineAcceptance],
        needs: &[RebuildNeed],
        levels: &Levels,
    ) -> Self {
        let mut list = Self::best(sourcing, acceptances, needs, levels);
        tell_begin(sourcing, needs, &mut list.made);
        tell_instead(sourcing, needs, &mut list.made, &list.lines);
        tell_missed(sourcing, needs, &mut list.lines);
        list
    }

    /// The cheapest list in all that was found.
    fn best(
        sourcing: &Sourcing<'_>,
        acceptances: &[LineAcceptance],
        needs: &[RebuildNeed],
        levels: &Levels,
    ) -> Self {
        let same = same_parts(sourcing.shop, acceptances);
        let by_number = by_number(sourcing, levels);
        let ways = ways_of_needs(sourcing, needs);
        let chosen = |paid| Self::chosen(sourcing, &same, (needs, &ways, &by_number), paid);
        let first = chosen(BTreeSet::new());
        if first.lines.len() < 2 {
            return first;
        }
        let mut best = first;
        // Takes the list for these freights paid where it is cheaper and leaves no more unordered.
        let take_if_cheaper = |best: &mut Self, paid: BTreeSet<Carriage>| {
            let other = chosen(paid);
            let cost = |of: &Self| {
                let bought = in_all_cents(sourcing, &of.lines)?;
                Some(bought.saturating_add(known_cents(&of.made)))
            };
            let is_cheaper = cost(&other).zip(cost(best)).is_some_and(|(a, b)| a < b);
            let is_comparable = other.not_ordered == best.not_ordered
                && without_cost(&other.made) == without_cost(&best.made);
            if is_cheaper && is_comparable {
                *best = other;
            }
        };
        let paid = paid_anyhow(sourcing, &best.lines);
        if !paid.is_empty() {
            take_if_cheaper(&mut best, paid);
        }
        let all = all_freights(sourcing);
        if !all.is_empty() && best.lines.len() <= MOST_LINES {
            let free = chosen(all);
            for opened in may_open(sourcing, &best.lines, &free.lines) {
                let mut paid = paid_anyhow(sourcing, &best.lines);
                take_if_cheaper(&mut best, BTreeSet::from([opened.clone()]));
                paid.insert(opened);
                take_if_cheaper(&mut best, paid);
            }
            for closed in may_close(sourcing, &best.lines) {
                let mut paid = paid_anyhow(sourcing, &best.lines);
                paid.remove(&closed);
                take_if_cheaper(&mut best, paid);
            }
        }
        // What a choice adds is only known once all of them are made.
        tell_freight(sourcing, &mut best.lines);
        best
    }

    /// The list with some freights and runs paid anyhow.
    fn chosen(
        sourcing: &Sourcing<'_>,
        same: &BTreeMap<PartId, Vec<PartId>>,
        (needs, ways, levels): (&[RebuildNeed], &[Vec<&OtherWay>], &[&Level]),
        paid: BTreeSet<Carriage>,
    ) -> Self {
        let mut list = OrderList::new(sourcing, paid);
        let (made, mut not_ordered) = for_rebuilds(&mut list, sourcing, needs, ways);
        let drawn = drawn_by_needs(needs);
        let (dated, dated_short) = (list.lines.len(), not_ordered.len());
        let lines_of = lines_by_part(&list.lines);
        let mut last_buys = BTreeMap::new();
        let mut hurry = BTreeSet::new();
        for level in levels.iter().copied() {
            let accepted = bought_for(same, level);
            let there = There {
                sourcing,
                drawn: &drawn,
                lines: &list.lines,
                lines_of: &lines_of,
            };
            let last = last_buy(level);
            let (wants, late) = match last {
                Some(last) => for_last_buy(&there, level, last),
                None => at_reorder_point(&there, level),
            };
            hurry.extend(late);
            let missing = wants.as_ref().map_or(0.0, |wants| wants.wanted);
            let short = wants.and_then(|wants| {
                let need = wants.for_level(sourcing, level, accepted);
                for_level(&mut list, sourcing, level, need)
            });
            if last.is_some() {
                let still = LastBuyStill {
                    units: missing - short.as_ref().map_or(0.0, |short| short.wanted),
                    not_bought: short.as_ref().map(|short| short.why),
                };
                last_buys.insert(level.part, still);
            }
            not_ordered.extend(short);
        }
        // Chosen by number, listed by part.
        let mut lines = list.lines;
        lines[dated..].sort_by_key(ReorderLine::part);
        not_ordered[dated_short..].sort_by_key(|of| of.part);
        Self {
            orders: supplier_orders(sourcing, &lines),
            bridges: bridges_of(&lines),
            lines,
            not_ordered,
            last_buys,
            made,
            hurry,
        }
    }
}

/// What a level wants to be ordered, and why.
struct LevelWants {
    wanted: f64,
    /// What lines for rebuilds leave over and it counts on.
    left_over: f64,
    reason: ReorderReason,
}

impl LevelWants {
    /// The need of a level for its list.
    fn for_level(
        self,
        sourcing: &Sourcing<'_>,
        level: &Level,
        accepted: Vec<PartId>,
    ) -> OrderedFor {
        OrderedFor {
            part: level.part,
            accepted,
            wanted: self.wanted,
            left_over: self.left_over,
            needed_by: None,
            hour: None,
            order_by: sourcing.shop.as_of.date(),
            only_by_minimum: match self.reason {
                ReorderReason::AtReorderPoint { position, .. } => level.only_by_minimum(position),
                ReorderReason::Rebuild { .. } | ReorderReason::LastBuy { .. } => None,
            },
            reason: self.reason,
            never_used: level.is_never_asked_for(),
            way_left: None,
            missed: None,
        }
    }
}

/// What lines bring for levels until open orders come that are too late for them.
fn bridges_of(lines: &[ReorderLine]) -> BTreeMap<PartId, f64> {
    let mut bridges: BTreeMap<PartId, f64> = BTreeMap::new();
    for need in lines.iter().flat_map(|line| &line.needs) {
        if need.reason.is_bridge() && !need.is_held_back() {
            *bridges.entry(need.part).or_default() += need.wanted;
        }
    }
    bridges
}

/// Positions of lines by the part that they buy.
fn lines_by_part(lines: &[ReorderLine]) -> BTreeMap<PartId, Vec<usize>> {
    let mut by_part: BTreeMap<PartId, Vec<usize>> = BTreeMap::new();
    for (at, line) in lines.iter().enumerate() {
        by_part.entry(line.buy.part).or_default().push(at);
    }
    by_part
}

/// Levels by own number, so that the order of rows decides nothing.
fn by_number<'l>(sourcing: &Sourcing<'_>, levels: &'l Levels) -> Vec<&'l Level> {
    let mut all: Vec<&Level> = levels.by_part.values().collect();
    all.sort_by_key(|level| &sourcing.shop.catalogue.part(level.part).number);
    all
}

/// Numbers that may be bought for a level: those of its stock, and others that go in for every one of them.
fn bought_for(same: &BTreeMap<PartId, Vec<PartId>>, level: &Level) -> Vec<PartId> {
    let of = |part: PartId| same.get(&part).cloned().unwrap_or(vec![part]);
    let mut parts: Vec<PartId> = level.stocked().collect();
    let common = of(level.part)
        .into_iter()
        .filter(|other| level.stocked().all(|part| of(part).contains(other)));
    for part in common {
        if !parts.contains(&part) {
            parts.push(part);
        }
    }
    parts
}

/// Orders for all planned rebuilds; what is made for them instead, and what is not covered.
fn for_rebuilds(
    list: &mut OrderList<'_, '_>,
    sourcing: &Sourcing<'_>,
    needs: &[RebuildNeed],
    ways: &[Vec<&OtherWay>],
) -> (Vec<MadeInstead>, Vec<NotOrdered>) {
    let mut making = Making::default();
    let mut not_ordered: Vec<NotOrdered> = Vec::new();
    for of_stop in by_stop(needs, ways) {
        not_ordered.extend(for_stop((list, &mut making), sourcing, needs, of_stop));
    }
    match_up(sourcing, &mut list.lines);
    // Those of one stop are chosen for at the place of the first.
    making.made.sort_by_key(|of| of.need);
    not_ordered.sort_by_key(|of| of.need);
    (making.made, not_ordered)
}

/// Orders for lines of planned rebuilds that are chosen for as one; what is not covered.
fn for_stop(
    (list, making): (&mut OrderList<'_, '_>, &mut Making),
    sourcing: &Sourcing<'_>,
    needs: &[RebuildNeed],
    of_stop: OneStop<'_>,
) -> Vec<NotOrdered> {
    let OneStop {
        mut members,
        need,
        ways,
    } = of_stop;
    let (need, first) = (&need, members[0].0);
    let waits: Vec<WaitsFrom> = need.waits_from().into_iter().collect();
    let offered = |quantity| {
        list.best(Wanted {
            parts: &need.accepted,
            quantity,
            unit: need.unit,
            needed_by: Some(need.needed_by),
            waiting: None,
            until: None,
            waits: &waits,
        })
    };
    let made_before = making.made.len();
    let (left, way_left) = making.take(sourcing, (first, need, &ways), offered);
    let made = making.made.split_off(made_before);
    making.made.extend(share(made, &mut members));
    members.retain(|(_, short)| *short > 1e-9);
    if left <= 1e-9 {
        return Vec::new();
    }
    let Some(part) = need.part.or(need.accepted.first().copied()) else {
        return uncovered(needs, &members, (left, WhyNoChoice::NoPart));
    };
    let mut way_left = way_left.map(|way| WayLeft {
        lines: members.len(),
        ..way
    });
    let today = sourcing.shop.as_of.date();
    let ordered_for = members.iter().map(|(at, short)| OrderedFor {
        part,
        accepted: need.accepted.clone(),
        wanted: *short,
        left_over: 0.0,
        needed_by: Some(need.needed_by),
        hour: need.hour,
        order_by: today,
        reason: ReorderReason::Rebuild {
            need: *at,
            date: need.date,
            needed: needs[*at].needed,
            short: needs[*at].short,
            stop: need.stop,
        },
        never_used: None,
        only_by_minimum: None,
        way_left: way_left.take().map(Box::new),
        missed: None,
    });
    let ordered_for: Vec<OrderedFor> = ordered_for.collect();
    let order_by = |buy: &OfferChoice| {
        if buy.timing == Timing::InTime {
            let due = sourcing.due(need.needed_by, need.date);
            latest_order_day(sourcing, buy, (need.needed_by, due))
        } else {
            today
        }
    };
    let added = list.add(&ordered_for, need.unit, None, order_by);
    let short = added.err();
    short.map_or_else(Vec::new, |short| uncovered(needs, &members, short))
}

/// What is not covered of some needs, of the last of them, and why.
fn uncovered(
    needs: &[RebuildNeed],
    members: &[(usize, f64)],
    (mut left, why): (f64, WhyNoChoice),
) -> Vec<NotOrdered> {
    let mut not_ordered = Vec::new();
    for (at, short) in members.iter().rev() {
        let wanted = short.min(left);
        if wanted > 1e-9 {
            left -= wanted;
            not_ordered.push(NotOrdered {
                part: needs[*at].part,
                need: Some(*at),
                wanted,
                why,
            });
        }
    }
    not_ordered
}

/// Orders for a stock level or a last buy; what is not covered.
fn for_level(
    list: &mut OrderList<'_, '_>,
    sourcing: &Sourcing<'_>,
    level: &Level,
    need: OrderedFor,
) -> Option<NotOrdered> {
    let not_ordered = |(wanted, why)| NotOrdered {
        part: Some(level.part),
        need: None,
        wanted,
        why,
    };
    let is_bridge = need.reason.is_bridge();
    if last_buy(level).is_some_and(|(_, last)| last.is_in_vain && !is_bridge) {
        let wanted = Wanted {
            parts: &need.accepted,
            quantity: need.wanted,
            unit: level.unit,
            needed_by: None,
            waiting: None,
            until: need.until(),
            waits: &[],
        };
        // What comes in service saves less than it costs; what does not come, nothing at all.
        let found = choices(sourcing, wanted, &OrderedBefore::default());
        let why = found.err().unwrap_or(WhyNoChoice::SavesTooLittle);
        return Some(not_ordered((need.wanted, why)));
    }
    let today = sourcing.shop.as_of.date();
    let waiting = match need.reason {
        ReorderReason::AtReorderPoint { position, .. } => {
            OrderWaiting::of(level, position).map(Waiting::Level)
        }
        ReorderReason::LastBuy { wanted, .. } => {
            let served = (wanted - need.wanted, wanted);
            LastWaiting::of(level, today, served).map(Waiting::LastBuy)
        }
        ReorderReason::Rebuild { .. } => None,
    };
    let order_by = need.order_by;
    let added = list.add(&[need], level.unit, waiting, |_| order_by);
    added.err().map(not_ordered)
}

/// The last buy of a level that has one.
fn last_buy(level: &Level) -> Option<(&LevelReason, &LastBuy)> {
    match &level.why {
        LevelBasis::Computed(reason) => Some((reason, reason.last_buy.as_deref()?)),
        LevelBasis::OwnMinimum { .. }
        | LevelBasis::KeptUnder { .. }
        | LevelBasis::Retired { .. } => None,
    }
}

/// What a last buy wants beyond what is there, on order, and left over or taken by planned rebuilds, and the rows of open
/// orders before which the shelf may run short.
fn for_last_buy(
    there: &There<'_, '_>,
    level: &Level,
    (basis, last): (&LevelReason, &LastBuy),
) -> (Option<LevelWants>, Vec<Place>) {
    let Some((wanted, enough_share)) = last.wanted.zip(last.enough_share) else {
        return (None, Vec::new());
    };
    let mut of = Position::of(there, level, (f64::INFINITY, f64::INFINITY));
    // What comes when nothing uses it any more is no cover.
    let (after, served): (Vec<&OpenOrder>, Vec<_>) = of.orders.iter().partition(|order| {
        let likely = order.arrival.map(|arrival| arrival.likely.date());
        likely.or(order.due).is_some_and(|day| day > last.until)
    });
    let too_late = after.iter().map(|order| order.quantity);
    let too_late = too_late.fold(0.0, |a, b| a + b);
    of.on_order -= too_late;
    let missing = (wanted - of.left()).ceil();
    // What saves less than it costs serves no time before an open order either.
    let in_all = if last.is_in_vain { 0.0 } else { missing };
    let bridge = last_bridge(there.sourcing, (basis, last), &served, of.left());
    let bought = bridge.as_ref().and_then(|bridge| bridge.bought);
    // What is missing in all serves the time until then as well.
    let bridged = bought.filter(|(units, _)| *units > in_all.max(0.0));
    let missing = bridged.map_or(missing, |(units, _)| units);
    let reason = ReorderReason::LastBuy {
        until: last.until,
        expected: last.expected,
        wanted,
        enough_share,
        too_late,
        bridged: bridged.map(|(_, late)| late),
    };
    let found = (missing >= 1.0).then_some(LevelWants {
        wanted: missing,
        left_over: of.left_over,
        reason,
    });
    let late = bridge.into_iter().flat_map(|bridge| bridge.late);
    (found, late.map(|order| order.place.clone()).collect())
}

/// What a level at or below its reorder point wants, and the rows of open orders before which it may run short.
fn at_reorder_point(there: &There<'_, '_>, level: &Level) -> (Option<LevelWants>, Vec<Place>) {
    let reorder_point = level.ordered_at();
    // Nothing is kept of it: it is bought when somebody needs it.
    if reorder_point < 0.0 {
        return (None, Vec::new());
    }
    // A minimum is kept from today on, and no rebuild may use it up.
    let within_days = match &level.why {
        LevelBasis::Computed(reason) => (reason.lead.mean_days, reason.lead.mean_days),
        LevelBasis::OwnMinimum { .. }
        | LevelBasis::KeptUnder { .. }
        | LevelBasis::Retired { .. } => (f64::INFINITY, -1.0),
    };
    let mut of = Position::of(there, level, within_days);
    let in_all = of.left();
    let short = short_before(there.sourcing, level, &of.orders, in_all);
    let pays = short.as_ref().and_then(|short| short.pays);
    // A level that is due with them as well is ordered for as ever, and enough to last until they come.
    let is_due = in_all <= reorder_point + 1e-9;
    let too_late = pays.filter(|_| !is_due);
    of.on_order -= too_late.map_or(0.0, |late| late.quantity);
    let position = of.left();
    let reason = ReorderReason::AtReorderPoint {
        free: of.free,
        expiring: of.expiring,
        on_order: of.on_order,
        forgotten: of.forgotten,
        too_late,
        left_over: of.left_over,
        for_rebuilds: of.for_rebuilds,
        position,
        reorder_point,
    };
    let min_stock = level.min_stock - level.reorder_point + reorder_point;
    let bridge = pays.map_or(0.0, |late| reorder_point + 1.0 - in_all + late.quantity);
    let wanted = match too_late {
        Some(_) => bridge,
        None => level.order_quantity.max(min_stock - position).max(bridge),
    };
    let found = (is_due || too_late.is_some()).then_some(LevelWants {
        wanted,
        left_over: of.left_over,
        reason,
    });
    let late = short.into_iter().flat_map(|short| short.late);
    (found, late.map(|order| order.place.clone()).collect())
}

/// Needs that take from the shelf or the open orders of each part.
pub fn drawn_by_needs(needs: &[RebuildNeed]) -> BTreeMap<PartId, Vec<&RebuildNeed>> {
    let mut drawn: BTreeMap<PartId, Vec<&RebuildNeed>> = BTreeMap::new();
    for need in needs {
        let mut parts: Vec<PartId> = need.supplies.iter().filter_map(Supply::own_part).collect();
        parts.sort_unstable();
        parts.dedup();
        for part in parts {
            drawn.entry(part).or_default().push(need);
        }
    }
    drawn
}

#[cfg(test)]
mod tests;
