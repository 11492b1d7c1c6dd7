//! The offer that a part's level rests on: the one by which a year costs least, of any number that may be bought for it.
//!
//! A lower unit price may come with a quantity that lasts for centuries or a lead time that asks for more stock. Each offer
//! is weighed with the quantity and the reorder point that suit it: goods, orders, holding, what expires, and waiting as the
//! rule of the levels counts it. One more offer can then only lower what a part costs.

use super::candidate::Candidate;
use super::order_quantity::{YEAR_DAYS, unit_price};
use super::part_use::money;
use crate::catalogue::PartId;
use crate::parallel;
use crate::plan::lead_time::Arrival;
use crate::plan::offer::UsableOffer;
use crate::plan::sourcing::Sourcing;
use crate::units::{Money, UnitOfCount};

/// Money a year by which an offer must be better to be taken for the one with the lower unit price.
const LEAST_SAVING: f64 = 0.005;

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

/// Buys each candidate, whose rule is set, by the offer of the least yearly cost; true where that is another one for any.
pub fn buy_by_least_cost(
    sourcing: &Sourcing<'_>,
    year_h: f64,
    candidates: &mut [Candidate<'_>],
) -> bool {
    let better = parallel::each(candidates, |candidate| {
        by_least_cost(sourcing, year_h, candidate)
    });
    let mut is_any_other = false;
    for (candidate, better) in candidates.iter_mut().zip(better) {
        if let Some(better) = better {
            *candidate = better;
            is_any_other = true;
        }
    }
    is_any_other
}

/// The candidate by the offer of the least yearly cost; `None` where it rests on that one already or has no price.
fn by_least_cost<'a>(
    sourcing: &Sourcing<'_>,
    year_h: f64,
    candidate: &Candidate<'a>,
) -> Option<Candidate<'a>> {
    let numbers = candidate.bought.iter();
    let offers: Vec<&UsableOffer<'_>> =
        numbers.flat_map(|part| sourcing.offers_of(*part)).collect();
    if offers.len() < 2 {
        return None;
    }
    let shop = sourcing.shop;
    let mut each = offers.iter().copied();
    let present = each.find(|offer| offer.offer == candidate.offer)?;
    let of_present = candidate.yearly_cost(shop, year_h)?;
    let mut least = of_present;
    let mut best = None;
    for offer in offers {
        let arrival = offer.deliveries.first().and_then(|way| way.arrival);
        let Some(arrival) = arrival.filter(|arrival| {
            is_worth_a_look(sourcing, candidate, present, (offer, arrival))
                && least_possible(sourcing, candidate, offer).is_some_and(|cost| cost < least)
        }) else {
            continue;
        };
        let other = candidate.bought_by(sourcing, offer, arrival);
        let cost = other.as_ref().and_then(|of| of.yearly_cost(shop, year_h));
        if let Some(cost) = cost.filter(|cost| *cost < least - LEAST_SAVING) {
            least = cost;
            best = other.map(|other| (other, &offer.record.supplier));
        }
    }
    let (mut best, supplier) = best?;
    let bought = shop.catalogue.part(best.buys);
    let is_other = best.buys != best.part.id;
    best.preferred = Some(Preferred {
        supplier: supplier.to_string(),
        numbers: is_other.then(|| (bought.number.clone(), best.part.number.clone())),
        cheapest: present.record.supplier.to_string(),
        saves: money(shop, of_present - least),
    });
    Some(best)
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
    use crate::plan::sample::{Sample, price, workdays};
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
