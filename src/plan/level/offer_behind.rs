//! The offer that a part's level rests on: the one by which a year costs least, of any number that may be bought for it.
//!
//! A lower unit price may come with a quantity that lasts for centuries or a lead time that asks for more stock. Each offer
//! is weighed with the quantity and the reorder point that suit it: goods, orders, what they add to the freight that lines of
//! one supplier share, holding, what expires, and waiting as the rule of the levels counts it. One more offer can then only
//! lower what the shop pays.

use super::candidate::Candidate;
use super::order_freight::{freight_of_orders, order_for_freight, ordered_part, supplier_of};
use super::order_quantity::unit_price;
use super::part_use::money;
use super::shared_freight::{OrderedPart, SharedFreight};
use crate::catalogue::PartId;
use crate::parallel;
use crate::plan::lead_time::Arrival;
use crate::plan::offer::UsableOffer;
use crate::plan::sourcing::Sourcing;
use crate::plan::year_length::YEAR_DAYS;
use crate::units::{Money, UnitOfCount};

/// Money a year by which an offer must be better to be taken for the one with the lower unit price.
const LEAST_SAVING: f64 = 0.005;

/// Rounds over all parts after which the choice stands as it is.
const MOST_ROUNDS: usize = 20;

/// An offer that is taken although another has a lower price of a unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Preferred {
    /// Its supplier.
    pub supplier: String,
    /// The number that is bought and the one that it is kept under, where they differ.
    pub numbers: Option<(String, String)>,
    /// Supplier with the lowest unit price of the number that it is kept under.
    pub cheapest: String,
    /// What a year costs less by it.
    pub saves: Money,
}

/// Unit price and mean days of the offer that a part's level rests on; `None` where none has a lead time.
pub fn cheapest_of(
    sourcing: &Sourcing<'_>,
    part: PartId,
    unit: UnitOfCount,
) -> Option<(Option<f64>, f64)> {
    let offers: Vec<&UsableOffer<'_>> = sourcing
        .offers_of(part)
        .iter()
        .filter(|offer| offer.unit.in_units_of(unit).is_ok())
        .collect();
    let (offer, arrival) = cheapest_with_lead_time(sourcing, &offers, unit)?;
    Some((unit_price(sourcing, offer, unit), arrival.mean_days))
}

/// Offer with the lowest unit price among those with a known normal arrival; unpriced ones come last.
pub fn cheapest_with_lead_time<'o, 'a>(
    sourcing: &Sourcing<'_>,
    offers: &[&'o UsableOffer<'a>],
    unit: UnitOfCount,
) -> Option<(&'o UsableOffer<'a>, Arrival)> {
    offers
        .iter()
        .filter_map(|offer| Some((*offer, offer.deliveries.first()?.arrival?)))
        .min_by(|a, b| {
            let price = |offer: &UsableOffer<'_>| {
                unit_price(sourcing, offer, unit).unwrap_or(f64::INFINITY)
            };
            price(a.0)
                .total_cmp(&price(b.0))
                .then(a.1.mean_days.total_cmp(&b.1.mean_days))
                .then(a.0.offer.cmp(&b.0.offer))
        })
}

/// An offer for a candidate, with what a year by it costs but for freight.
struct Choice {
    orders: OrderedPart,
    cost: f64,
}

/// What a candidate may be bought by: as it is, and by other offers.
struct Choices<'a> {
    present: Choice,
    /// Supplier of it.
    cheapest: String,
    others: Vec<(Candidate<'a>, Choice)>,
}

/// Buys each candidate, whose rule is set, by the offer of the least yearly cost; true where that is another one for any.
///
/// Freight is what a part's orders add to those of the others from the same supplier, so that parts are chosen one after
/// another, by own number, until none is better bought otherwise. Each change lowers what the whole shop pays.
pub fn buy_by_least_cost<'a>(
    sourcing: &Sourcing<'_>,
    year_h: f64,
    candidates: &mut [Candidate<'a>],
) -> bool {
    let mut shared = SharedFreight::default();
    for candidate in candidates.iter().filter(|of| of.last_day.is_none()) {
        shared.add(&ordered_part(sourcing, candidate));
    }
    let mut is_any_other = order_for_freight(sourcing, candidates, &mut shared);
    let mut choices: Vec<Option<Choices<'a>>> = parallel::each(candidates, |candidate| {
        choices(sourcing, year_h, candidate, &shared)
    });
    let mut open: Vec<usize> = (0..candidates.len())
        .filter(|at| choices[*at].is_some())
        .collect();
    open.sort_by_key(|at| &candidates[*at].part.number);
    let mut chosen: Vec<Option<usize>> = vec![None; candidates.len()];
    for _ in 0..MOST_ROUNDS {
        let mut is_changed = false;
        for at in &open {
            if let Some(of) = &choices[*at] {
                let best = of.best(chosen[*at], &mut shared);
                is_changed |= best != chosen[*at];
                chosen[*at] = best;
            }
        }
        if !is_changed {
            break;
        }
    }
    for at in open {
        let Some((of, other)) = choices[at].take().zip(chosen[at]) else {
            continue;
        };
        candidates[at] = of.bought(sourcing, other, &mut shared);
        is_any_other = true;
    }
    is_any_other
}

impl<'a> Choices<'a> {
    fn at(&self, other: Option<usize>) -> &Choice {
        other.map_or(&self.present, |at| &self.others[at].1)
    }

    /// The choice that is better than the one it has, freight beside all other parts counted; the new one is booked.
    fn best(&self, now: Option<usize>, shared: &mut SharedFreight) -> Option<usize> {
        shared.take_off(&self.at(now).orders);
        let cost = |of: &Choice| of.cost + shared.added_by(&of.orders);
        let (mut best, mut least) = (now, cost(self.at(now)));
        let others = (0..self.others.len()).map(Some);
        for other in std::iter::once(None).chain(others) {
            let found = cost(self.at(other));
            if found < least - LEAST_SAVING {
                (best, least) = (other, found);
            }
        }
        shared.add(&self.at(best).orders);
        best
    }

    /// The candidate by another offer, with what that saves.
    fn bought(
        mut self,
        sourcing: &Sourcing<'_>,
        other: usize,
        shared: &mut SharedFreight,
    ) -> Candidate<'a> {
        let shop = sourcing.shop;
        shared.take_off(&self.others[other].1.orders);
        let cost = |of: &Choice| of.cost + shared.added_by(&of.orders);
        let saves = cost(&self.present) - cost(&self.others[other].1);
        shared.add(&self.others[other].1.orders);
        let (mut best, _) = self.others.swap_remove(other);
        let bought = shop.catalogue.part(best.buys);
        let is_other = best.buys != best.part.id;
        best.preferred = Some(Preferred {
            supplier: supplier_of(sourcing, best.offer),
            numbers: is_other.then(|| (bought.number.clone(), best.part.number.clone())),
            cheapest: self.cheapest,
            saves: money(shop, saves.max(0.0)),
        });
        best
    }
}

/// What a candidate may be bought by, other offers as far as they may cost less; `None` where there is nothing to choose or it
/// has no price.
fn choices<'a>(
    sourcing: &Sourcing<'_>,
    year_h: f64,
    candidate: &Candidate<'a>,
    shared: &SharedFreight,
) -> Option<Choices<'a>> {
    let numbers = candidate.bought.iter();
    let offers: Vec<&UsableOffer<'_>> =
        numbers.flat_map(|part| sourcing.offers_of(*part)).collect();
    if offers.len() < 2 {
        return None;
    }
    let shop = sourcing.shop;
    let mut each = offers.iter().copied();
    let present = each.find(|offer| offer.offer == candidate.offer)?;
    let choice = |of: &Candidate<'_>| {
        Some(Choice {
            cost: of.yearly_cost(shop, year_h)?,
            orders: ordered_part(sourcing, of),
        })
    };
    let mut found = Choices {
        present: choice(candidate)?,
        cheapest: present.record.supplier.to_string(),
        others: Vec::new(),
    };
    // No freight is less than nothing or more than that of a part alone.
    let most = |of: &Choice| of.cost + of.orders.alone();
    let mut limit = most(&found.present);
    let may_save_freight = found.present.orders.alone() > 0.0;
    for offer in offers {
        let is_elsewhere = offer.record.supplier != present.record.supplier;
        let arrival = offer.deliveries.first().and_then(|way| way.arrival);
        let Some(arrival) = arrival.filter(|arrival| {
            (is_worth_a_look(sourcing, candidate, present, (offer, arrival))
                || may_save_freight && is_elsewhere)
                && least_possible(sourcing, candidate, offer).is_some_and(|cost| cost < limit)
        }) else {
            continue;
        };
        let freight = freight_of_orders(sourcing, candidate, offer, shared);
        let Some(other) = candidate.bought_by(sourcing, offer, arrival, freight) else {
            continue;
        };
        if let Some(of_other) = choice(&other).filter(|of| of.cost < limit) {
            limit = limit.min(most(&of_other));
            found.others.push((other, of_other));
        }
    }
    (!found.others.is_empty()).then_some(found)
}

/// True where an offer is better in anything than the one with the lowest unit price of the number that it is kept under:
/// cheaper as another number, sooner here, in smaller lots, at price breaks, or where that one has not enough.
fn is_worth_a_look(
    sourcing: &Sourcing<'_>,
    candidate: &Candidate<'_>,
    present: &UsableOffer<'_>,
    (offer, arrival): (&UsableOffer<'_>, &Arrival),
) -> bool {
    let unit = candidate.unit;
    let Some(price) = unit_price(sourcing, offer, unit).filter(|_| offer.offer != present.offer)
    else {
        return false;
    };
    let is_cheaper = unit_price(sourcing, present, unit).is_none_or(|present| price < present);
    let is_sooner = present
        .deliveries
        .first()
        .and_then(|way| way.arrival)
        .is_none_or(|of_present| {
            arrival.mean_days < of_present.mean_days || arrival.late < of_present.late
        });
    let least = |offer: &UsableOffer<'_>| offer.lot_for(1.0, unit, 0.0).map(|lot| lot.gives);
    let is_smaller = least(offer)
        .zip(least(present))
        .is_some_and(|(of_offer, of_present)| of_offer < of_present - 1e-9);
    is_cheaper
        || is_sooner
        || is_smaller
        || pack_in(offer, unit) < pack_in(present, unit) - 1e-9
        || !offer.record.breaks.is_empty()
        || present.record.quantity_available.is_some()
}

/// What a year by an offer costs at least, so that a dear one needs no further look: its goods, and of a price without
/// breaks orders and holding.
///
/// # Source
/// No reorder point and quantity cost less than `sqrt(2 D K h p / (h + p))`, the cost of the economic quantity with waiting
/// (Zheng, Management Science 38:87-103, 1992).
fn least_possible(
    sourcing: &Sourcing<'_>,
    candidate: &Candidate<'_>,
    offer: &UsableOffer<'_>,
) -> Option<f64> {
    let planning = &sourcing.shop.settings.planning;
    let yearly = candidate.demand.per_day()? * YEAR_DAYS;
    let price = unit_price(sourcing, offer, candidate.unit)?;
    if !offer.record.breaks.is_empty() {
        return Some(0.0);
    }
    let holding = planning.holding_cost_share * price;
    // Half the root: less only where waiting costs under a third of holding.
    let orders_and_holding = (2.0 * yearly * planning.order_cost * holding).sqrt() / 2.0;
    Some(yearly * price + orders_and_holding)
}

/// What an offer is sold in multiples of, in another unit; 1 where it names no pack.
pub fn pack_in(offer: &UsableOffer<'_>, unit: UnitOfCount) -> f64 {
    let factor = offer.unit.in_units_of(unit).unwrap_or(1.0);
    let pack = offer.record.pack_quantity.filter(|pack| *pack > 0.0);
    pack.unwrap_or(1.0).max(1.0) * factor
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::plan::sample::{Sample, euros, price, workdays};
    use crate::plan::{Level, LevelBasis, LevelReason, Plan};

    /// An offer of the part: supplier, price, least quantity, working days.
    type Terms = (&'static str, f64, f64, f64);

    /// One used a year for five years, nothing on the shelf, an hour down at 50, and these offers.
    fn plan(offers: &[Terms]) -> Plan {
        let mut sample = Sample::new(
            "records_from = \"2021-03-04\"\n[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\"\n\
             order_cost = 25.0\nholding_cost_share = 0.2",
        );
        sample.machine("M1", Some(50.0), None);
        let part = sample.part("A");
        for (supplier, each, minimum, days) in offers {
            sample.supplier(supplier, |_| {});
            sample.offer(part, supplier, workdays(*days), |offer| {
                offer.price = price(*each);
                offer.minimum_quantity = Some(*minimum);
            });
        }
        for year in 2021..2026 {
            sample.usage(part, &format!("{year}-06-01"), 1.0);
        }
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        sample.plan()
    }

    fn level(plan: &Plan) -> (&Level, &LevelReason) {
        let level = &plan.levels.by_part[&PartId(0)];
        let LevelBasis::Computed(reason) = &level.why else {
            panic!("{level:?}");
        };
        (level, reason)
    }

    /// Goods, orders, holding and waiting of a level, added up from its reason.
    fn yearly_cost(plan: &Plan) -> f64 {
        let (level, reason) = level(plan);
        let yearly = reason.demand.per_day().unwrap() * YEAR_DAYS;
        let priced = reason.priced.as_ref().unwrap();
        let waiting = priced.year_h * priced.waiting_per_h.to_units() * reason.service.waiting;
        yearly * (priced.unit_price.to_units() + 25.0 / level.order_quantity)
            + priced.holding.to_units() * reason.service.on_hand
            + waiting
    }

    const NORTH: Terms = ("North", 10.0, 1.0, 60.0);
    const SOUTH: Terms = ("South", 10.5, 1.0, 2.0);

    #[test]
    fn a_least_quantity_that_lasts_for_a_century_is_not_bought_for_a_lower_unit_price() {
        // A hundred at 10.00 hold about 50 at 2.00 a year: 100 and 10 of goods. South: 10.50 of goods, and by Harris' formula
        // (2 * 25 / 2.10)^(1/2) = 4.9, 5 in whole numbers, 5.00 of orders and about 6 of holding.
        let minimum = ("North", 10.0, 100.0, 60.0);
        let alone = plan(&[SOUTH]);
        for offers in [[minimum, SOUTH], [SOUTH, minimum]] {
            let both = plan(&offers);
            let ((of_both, _), (of_alone, _)) = (level(&both), level(&alone));
            assert!((of_both.order_quantity - 5.0).abs() < 1e-9);
            assert!((of_both.reorder_point - of_alone.reorder_point).abs() < 1e-9);
            let buy = &both.reorder.lines[0].buy;
            assert_eq!((buy.supplier.as_str(), buy.ordered), ("South", 5.0));
        }
        // With nothing else to buy from the minimum is what is ordered.
        let only = plan(&[minimum]);
        assert!((level(&only).0.order_quantity - 100.0).abs() < 1e-9);
    }

    #[test]
    fn a_little_dearer_and_much_sooner_needs_less_stock_and_says_so() {
        let (both, alone) = (plan(&[NORTH, SOUTH]), plan(&[SOUTH]));
        let ((of_both, why), (of_alone, _)) = (level(&both), level(&alone));
        assert!((of_both.reorder_point - of_alone.reorder_point).abs() < 1e-9);
        assert!(level(&plan(&[NORTH])).0.reorder_point > of_both.reorder_point + 0.5);
        let preferred = why.preferred.as_ref().unwrap();
        assert_eq!(
            (preferred.supplier.as_str(), preferred.cheapest.as_str()),
            ("South", "North")
        );
        let saved = yearly_cost(&plan(&[NORTH])) - yearly_cost(&both);
        assert!((preferred.saves.to_units() - saved).abs() < 0.02, "{saved}");
        let said = of_both.why.to_string();
        assert!(said.contains("bought from South, which costs "), "{said}");
    }

    #[test]
    fn a_dearer_offer_that_is_better_in_nothing_changes_nothing() {
        let alone = plan(&[SOUTH]);
        let both = plan(&[SOUTH, ("Dear", 11.0, 4.0, 9.0)]);
        assert_eq!(level(&both), level(&alone));
        assert_eq!(level(&both).1.preferred, None);
    }

    /// A part used once a year at 10.00 from North and 10.50 from South, with their freight an order, beside so many dear parts
    /// that are used twelve times a year and that only North sells; the supplier that the level prefers, and why.
    fn preferred(freights: [f64; 2], beside: usize) -> Option<(String, String)> {
        let mut sample = Sample::new(
            "records_from = \"2025-03-04\"\n[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\"\n\
             order_cost = 25.0\nholding_cost_share = 0.2",
        );
        sample.machine("M1", Some(50.0), None);
        let part = sample.part("A");
        for ((supplier, each), freight) in [("North", 10.0), ("South", 10.5)].iter().zip(freights) {
            sample.supplier(supplier, |of| of.freight = Some(euros(freight)));
            sample.offer(part, supplier, workdays(2.0), |offer| {
                offer.price = price(*each)
            });
        }
        sample.usage(part, "2025-06-01", 1.0);
        for at in 0..beside {
            let other = sample.part(&format!("B{at}"));
            sample.offer(other, "North", workdays(2.0), |offer| {
                offer.price = price(1_000.0)
            });
            for day in 1..=12 {
                sample.usage(other, &format!("2025-07-{day:02}"), 1.0);
            }
        }
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        let plan = sample.plan();
        let (_, why) = level(&plan);
        let of = why.preferred.as_ref()?;
        Some((of.supplier.clone(), why.to_string()))
    }

    #[test]
    fn freight_counts_as_far_as_no_other_line_of_the_supplier_pays_it() {
        // Seven at a time (Harris: (2 * 55 / 2)^(1/2) = 7.4) with the freight of 30.00: 7.86 a year of orders and freight and 7.00 of
        // holding, where South asks for 5.00 and 5.25 by fives and 0.50 more of goods.
        let (supplier, said) = preferred([30.0, 0.0], 0).unwrap();
        assert_eq!(supplier, "South");
        assert!(
            said.contains("with its quantity, lead time and freight"),
            "{said}"
        );
        assert_eq!(preferred([0.0, 0.0], 0), None);
        assert_eq!(preferred([30.0, 30.0], 0), None);
        // Thirty parts ordered by twos, 180 orders a year: exp(-180 / 52.14) = 0.03 of the weeks have none, 0.19 a year.
        assert_eq!(preferred([30.0, 0.0], 30), None);
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

        #[test]
        fn one_more_offer_never_makes_the_year_dearer(
            one in (1_u32..60, 1_u32..120, 1_u32..80),
            other in (1_u32..60, 1_u32..120, 1_u32..80),
        ) {
            let terms = |name, (each, minimum, days): (u32, u32, u32)| -> Terms {
                (name, f64::from(each), f64::from(minimum), f64::from(days))
            };
            let is_other_cheaper = (other.0, other.2) < (one.0, one.2);
            let (cheap, dear) = if is_other_cheaper { (other, one) } else { (one, other) };
            // One that is dearer, slower and sold in no smaller lots is never taken.
            let is_better = dear.2 < cheap.2 || dear.1 < cheap.1;
            let cost = |offers: &[Terms]| yearly_cost(&plan(offers));
            let of_cheap = cost(&[terms("One", cheap)]);
            let least = if is_better {
                of_cheap.min(cost(&[terms("Other", dear)]))
            } else {
                of_cheap
            };
            let both = cost(&[terms("One", one), terms("Other", other)]);
            prop_assert!((both - least).abs() < 0.011, "{both} {least} of {one:?} and {other:?}");
        }
    }
}
