//! What is made, repaired or fetched for a planned rebuild in place of an order: other ways weighed against the offers.
//!
//! A way is weighed as an offer is: by what it costs and lets wait; where that is not known, in time before late, then by
//! what it costs. Robbing another machine is not looked at, as
//! the part is then bought for that one.

use std::collections::BTreeMap;

use chrono::{NaiveDate, NaiveDateTime};

use super::choice::{OfferChoice, Timing, timing};
use super::late_hours::WaitsFrom;
use super::lead_time::Arrival;
use super::order_line::ReorderLine;
use super::other_way::{brings_used, last_day_to_begin, way_arrival, way_quantity, ways_of};
use super::rebuild_need::RebuildNeed;
use super::sourcing::Sourcing;
use super::tolerance::TOLERANCE;
use crate::catalogue::PartId;
use crate::place::Place;
use crate::record::{OtherWay, OtherWayKind};
use crate::units::{Money, UnitOfCount};

/// A quantity of a planned rebuild's line that is made, repaired or fetched, and not ordered.
#[derive(Debug, Clone, PartialEq)]
pub struct MadeInstead {
    /// Position of the need in the plan's list of needs.
    pub need: usize,
    /// The part asked for; `None` for a kit line no table knows.
    pub part: Option<PartId>,
    /// How.
    pub kind: OtherWayKind,
    /// The row of the way.
    pub place: Place,
    /// Quantity it gives, in `unit`.
    pub quantity: f64,
    /// Unit of count of the line.
    pub unit: UnitOfCount,
    /// What it costs, in the shop's currency; `None` where the row does not say or the currency has no rate.
    pub cost: Option<Money>,
    /// When it is there if begun now.
    pub arrival: Arrival,
    /// Whether that is in time.
    pub timing: Timing,
    /// Day by which it must be there.
    pub needed_by: NaiveDate,
    /// Last day to begin so that even the late case is in time; today where it is late already.
    pub begin_by: NaiveDate,
    /// What would have been ordered for all that was missing, at what it would add to the orders that are placed anyhow; `None`
    /// where no offer gives any.
    pub instead_of: Option<OfferChoice>,
}

/// The best other way to all of what is ordered all the same: one that gives only a part ends no wait.
#[derive(Debug, Clone, PartialEq)]
pub struct WayLeft {
    /// How.
    pub kind: OtherWayKind,
    /// How many lines of the rebuild it serves.
    pub lines: usize,
    /// When it is there if begun now.
    pub arrival: Arrival,
    /// What it costs more than what is ordered, 0 where it costs less; `None` where a cost is not known.
    pub dearer_by: Option<Money>,
}

/// Smaller is better: part only, timing, the moment where it is too late, cents, the moment.
type Rank = (bool, Timing, Option<NaiveDateTime>, i64, NaiveDateTime);

/// A way for one need, with what has to be bought besides.
struct Candidate<'w> {
    way: &'w OtherWay,
    quantity: f64,
    cost: Option<Money>,
    arrival: Arrival,
    all: Weighed,
}

/// What ways and offers are weighed by.
#[derive(Clone, Copy)]
struct Weighed {
    is_part_only: bool,
    /// When all of it is there.
    arrival: Arrival,
    /// What is paid for all of it; the most there is where nobody states it.
    cents: i64,
}

impl Weighed {
    fn of(choice: &OfferChoice, wanted: f64) -> Self {
        Self {
            is_part_only: choice.gives < wanted - TOLERANCE,
            arrival: choice.arrival,
            cents: paid_cents(choice),
        }
    }

    const fn is_priced(&self) -> bool {
        self.cents != i64::MAX
    }

    /// `waits` where being late is a cost among others, because all that is weighed has one.
    fn rank(
        &self,
        sourcing: &Sourcing<'_>,
        needed_by: NaiveDate,
        waits: Option<WaitsFrom>,
    ) -> Rank {
        let likely = self.arrival.likely;
        if let Some(waits) = waits {
            let (known, calendars) = (&sourcing.late_hours, &sourcing.calendars);
            let waiting = known.cents(calendars, &self.arrival, &[waits]);
            let cents = self.cents.saturating_add(waiting);
            return (self.is_part_only, Timing::InTime, None, cents, likely);
        }
        let timing = timing(&self.arrival, Some(needed_by));
        let fastest = (timing == Timing::TooLate).then_some(likely);
        (self.is_part_only, timing, fastest, self.cents, likely)
    }
}

/// What earlier needs take of each way, and what is made for them.
#[derive(Debug, Default)]
pub struct Making {
    taken: BTreeMap<Place, f64>,
    /// What is named as the other way to an order of an earlier need: it cannot serve two.
    named: BTreeMap<Place, f64>,
    /// What is made, by need.
    pub made: Vec<MadeInstead>,
}

impl Making {
    /// Takes some of the ways of a need where they are better than what the offers give; what is left to order, and the best way that
    /// was not taken.
    ///
    /// `offer` says what would be ordered for a quantity.
    pub fn take(
        &mut self,
        sourcing: &Sourcing<'_>,
        (position, need, ways): (usize, &RebuildNeed, &[&OtherWay]),
        offer: impl Fn(f64) -> Option<OfferChoice>,
    ) -> (f64, Option<WayLeft>) {
        let mut left = need.short;
        while left > TOLERANCE && !ways.is_empty() {
            let candidates = ways
                .iter()
                .filter_map(|way| self.candidate(sourcing, (need, way), left, 0.0, &offer));
            let candidates: Vec<Candidate<'_>> = candidates.collect();
            let ordered = offer(left);
            let of_offer = ordered.as_ref().map(|ordered| Weighed::of(ordered, left));
            let mut all = candidates.iter().map(|of| &of.all).chain(&of_offer);
            let waits = need.waits_from().filter(|_| all.all(Weighed::is_priced));
            let rank = |of: &Weighed| of.rank(sourcing, need.needed_by, waits);
            let Some(best) = candidates.into_iter().min_by_key(|of| rank(&of.all)) else {
                break;
            };
            if let Some(ordered) = &ordered
                && rank(&Weighed::of(ordered, left)) <= rank(&best.all)
            {
                let way = self.way_left(sourcing, (need, ways), left, ordered);
                return (left, way);
            }
            left -= best.quantity;
            let place = best.way.place.clone();
            *self.taken.entry(place.clone()).or_default() += best.quantity;
            self.made.push(MadeInstead {
                need: position,
                part: need.part,
                kind: best.way.kind,
                place,
                quantity: best.quantity,
                unit: need.unit,
                cost: best.cost,
                arrival: best.arrival,
                timing: timing(&best.arrival, Some(need.needed_by)),
                needed_by: need.needed_by,
                begin_by: sourcing.shop.as_of.date(),
                instead_of: ordered,
            });
        }
        (left, None)
    }

    /// The best way to all that is ordered, of what no earlier need was told.
    fn way_left(
        &mut self,
        sourcing: &Sourcing<'_>,
        (need, ways): (&RebuildNeed, &[&OtherWay]),
        left: f64,
        ordered: &OfferChoice,
    ) -> Option<WayLeft> {
        let candidates = ways.iter().filter_map(|way| {
            let named = self.named.get(&way.place).copied().unwrap_or(0.0);
            self.candidate(sourcing, (need, way), left, named, |_| None)
        });
        let enough = candidates.filter(|of| of.quantity >= left - TOLERANCE);
        let enough: Vec<Candidate<'_>> = enough.collect();
        let is_priced = enough.iter().all(|of| of.all.is_priced());
        let waits = need.waits_from().filter(|_| is_priced);
        let rank = |of: &Candidate<'_>| of.all.rank(sourcing, need.needed_by, waits);
        let best = enough.into_iter().min_by_key(rank)?;
        *self.named.entry(best.way.place.clone()).or_default() += best.quantity;
        Some(left_of(&best, ordered))
    }

    /// `named` is what earlier needs were told of the way, besides what they take.
    fn candidate<'w>(
        &self,
        sourcing: &Sourcing<'_>,
        (need, way): (&RebuildNeed, &'w OtherWay),
        left: f64,
        named: f64,
        offer: impl Fn(f64) -> Option<OfferChoice>,
    ) -> Option<Candidate<'w>> {
        if way.kind == OtherWayKind::OtherMachine || brings_used(sourcing, way, &need.accepted) {
            return None;
        }
        let taken = named + self.taken.get(&way.place).copied().unwrap_or(0.0);
        let quantity = way_quantity(way, left, taken)?;
        let arrival = way_arrival(sourcing, way, is_unknown_part(sourcing, need))?;
        let own = way.cost;
        let cost = own.and_then(|cost| sourcing.exchange().in_own_currency(cost));
        let rest = left - quantity;
        let besides = (rest > TOLERANCE).then(|| offer(rest));
        let mut all_there = arrival;
        let mut cents = cost.map_or(i64::MAX, |cost| cost.cents);
        let mut is_part_only = false;
        match besides {
            None => {}
            Some(Some(bought)) if bought.gives >= rest - TOLERANCE => {
                cents = cents.saturating_add(paid_cents(&bought));
                if bought.arrival.late > all_there.late {
                    all_there = bought.arrival;
                }
            }
            Some(_) => is_part_only = true,
        }
        let all = Weighed {
            is_part_only,
            arrival: all_there,
            cents,
        };
        Some(Candidate {
            way,
            quantity,
            cost,
            arrival,
            all,
        })
    }
}

/// The ways of each need, as [`ways_of`] has them.
pub fn ways_of_needs<'a>(sourcing: &Sourcing<'a>, needs: &[RebuildNeed]) -> Vec<Vec<&'a OtherWay>> {
    let shop = sourcing.shop;
    let mut of_part: BTreeMap<PartId, Vec<usize>> = BTreeMap::new();
    for (at, (part, _)) in shop.other_ways.iter().enumerate() {
        of_part.entry(*part).or_default().push(at);
    }
    let of_need = |need: &RebuildNeed| {
        let line = &shop.kits[need.kit].lines[need.line];
        let mut ways: Vec<&OtherWay> = line.other_ways.iter().collect();
        let accepted = need.accepted.iter().filter_map(|part| of_part.get(part));
        let mut places: Vec<usize> = accepted.flatten().copied().collect();
        places.sort_unstable();
        for at in places {
            let way = &shop.other_ways[at].1;
            if !ways.iter().any(|known| known.place == way.place) {
                ways.push(way);
            }
        }
        ways
    };
    needs.iter().map(of_need).collect()
}

/// Tells the last day to begin each.
pub fn tell_begin(sourcing: &Sourcing<'_>, needs: &[RebuildNeed], made: &mut [MadeInstead]) {
    for of in made {
        let Some(need) = needs.get(of.need) else {
            continue;
        };
        let line = &sourcing.shop.kits[need.kit].lines[need.line];
        let ways = ways_of(sourcing.shop, line, &need.accepted);
        let way = ways.into_iter().find(|way| way.place == of.place);
        if let Some(way) = way.filter(|_| of.timing == Timing::InTime) {
            let is_unknown = is_unknown_part(sourcing, need);
            let due = sourcing.due(of.needed_by, need.date);
            let by = (of.needed_by, due);
            of.begin_by = last_day_to_begin(sourcing, way, is_unknown, by);
        }
    }
}

/// Tells what an order instead of each would have added to the lines that are ordered: no freight that one of them pays, and
/// where it would be more of one of them, what more of it costs.
pub fn tell_instead(
    sourcing: &Sourcing<'_>,
    needs: &[RebuildNeed],
    made: &mut [MadeInstead],
    lines: &[ReorderLine],
) {
    let today = sourcing.shop.as_of.date();
    let mut made_before: BTreeMap<usize, f64> = BTreeMap::new();
    for of in made {
        let before = made_before.entry(of.need).or_default();
        let missing = needs.get(of.need).map_or(0.0, |need| need.short - *before);
        *before += of.quantity;
        let Some(choice) = &mut of.instead_of else {
            continue;
        };
        let goes_out = lines.iter().filter(|line| !line.is_held_back());
        let paid = choice.carriage(today);
        if (goes_out.clone()).any(|line| line.buy.carriage(line.order_by) == paid) {
            choice.freight.cents = 0;
        }
        let mut of_offer = goes_out
            .filter(|line| line.buy.offer == choice.offer && line.buy.delivery == choice.delivery);
        let more = of_offer.next().and_then(|line| {
            let factor = of.unit.in_units_of(line.unit).ok()?;
            let mut offers = sourcing.offers_of(choice.part).iter();
            let offer = offers.find(|offer| offer.offer == choice.offer)?;
            let exchange = sourcing.exchange();
            let wanted = line.wanted + missing * factor;
            let together = offer.cheapest_lot(wanted, line.unit, 0.0, exchange)?;
            let goods = |ordered| Some(offer.cost_of(ordered, exchange)?.cents);
            Some((goods(together.ordered)? - goods(line.buy.ordered)?).max(0))
        });
        if let Some((cost, more)) = choice.cost.as_mut().zip(more) {
            cost.cents = more;
        }
    }
}

/// What ways cost of which that is known.
pub fn known_cents(made: &[MadeInstead]) -> i64 {
    made.iter()
        .filter_map(|of| of.cost)
        .fold(0, |sum, cost| sum.saturating_add(cost.cents))
}

/// Needs with a way whose cost nobody states: lists that differ in them cannot be compared by what they cost.
pub fn without_cost(made: &[MadeInstead]) -> Vec<(usize, &Place)> {
    let unknown = made.iter().filter(|of| of.cost.is_none());
    unknown.map(|of| (of.need, &of.place)).collect()
}

fn is_unknown_part(sourcing: &Sourcing<'_>, need: &RebuildNeed) -> bool {
    let line = &sourcing.shop.kits[need.kit].lines[need.line];
    line.part.is_none()
}

/// Goods, surcharge and what is paid for it to come; the most there is where nobody states the price.
fn paid_cents(choice: &OfferChoice) -> i64 {
    choice.cost.map_or(i64::MAX, |cost| {
        cost.cents.saturating_add(choice.freight.cents)
    })
}

fn left_of(best: &Candidate<'_>, ordered: &OfferChoice) -> WayLeft {
    let cents = best.all.cents;
    let paid = paid_cents(ordered);
    let is_known = best.all.is_priced() && paid != i64::MAX;
    WayLeft {
        kind: best.way.kind,
        lines: 1,
        arrival: best.arrival,
        dearer_by: is_known.then_some(Money {
            cents: (cents - paid).max(0),
            currency: ordered.surcharge.currency,
        }),
    }
}

#[cfg(test)]
mod tests;
