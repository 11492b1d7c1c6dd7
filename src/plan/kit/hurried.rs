//! What a hurried delivery that an offer names would save on a line, against what it costs.
//!
//! The kit is planned with it and without it: everything else may change with it, so that nothing is presumed of what it
//! saves.

use std::cmp::Ordering;

use super::outcome::{HurriedWay, KitOutcome, Spread};
use super::planned::{KitPlanner, Planned};
use super::planner::Depth;
use crate::catalogue::PartId;
use crate::plan::delivery::DeliveryKind;
use crate::plan::offer::UsableOffer;
use crate::plan::purchase::{Covered, OfferedWay};

/// Every hurried delivery for the lines that are short, in the order of the lines, what saves most first.
pub(super) fn hurried_ways(
    planner: &KitPlanner<'_, '_>,
    (base, before): (&Planned<'_>, &KitOutcome),
    accepted: &[Vec<PartId>],
) -> Vec<HurriedWay> {
    let sourcing = planner.stakes.sourcing;
    let mut found = Vec::new();
    for plan in before.lines.iter().filter(|plan| plan.short > 0.0) {
        let offers = accepted[plan.line].iter();
        for offer in offers.flat_map(|part| sourcing.offers_of(*part)) {
            let ways = offer.deliveries.iter().enumerate();
            let hurried = ways.filter(|(_, of)| of.kind == DeliveryKind::Hurried);
            for (at, _) in hurried.filter(|(_, of)| of.arrival.is_some()) {
                let way = (offer.offer, at);
                let mut taken = plan.supplies.iter().chain(&plan.also);
                let is_planned = taken.any(|of| of.offered_way() == Some(way));
                let other = |covered: Covered| {
                    let on_line = |line: usize| match line == plan.line {
                        true => covered,
                        false => Covered::Anyhow,
                    };
                    planner.planned_where(accepted, &[], Depth::PlanAlone, on_line)
                };
                // One of the two is the plan itself.
                found.extend(if is_planned {
                    let without = other(Covered::NotBy(way));
                    without.and_then(|without| {
                        told(planner, (plan.line, offer, way), (base, &without), true)
                    })
                } else {
                    let with = other(Covered::By(way));
                    with.and_then(|with| {
                        told(planner, (plan.line, offer, way), (&with, base), false)
                    })
                });
            }
        }
    }
    found.sort_by(in_order);
    found
}

/// By line, and what saves most first: a delivery by which the machine runs again at all, then money, then hours; last one with
/// which it has no end either.
pub(super) fn in_order(a: &HurriedWay, b: &HurriedWay) -> Ordering {
    let is_only_way = |of: &HurriedWay| of.running.is_some() && of.saved_h.is_none();
    let cents = |of: &HurriedWay| of.saved.map_or(i64::MIN, |saved| saved.cents);
    let hours = |of: &HurriedWay| of.saved_h.unwrap_or(f64::NEG_INFINITY);
    (a.line.cmp(&b.line))
        .then(is_only_way(b).cmp(&is_only_way(a)))
        .then(cents(b).cmp(&cents(a)))
        .then(hours(b).total_cmp(&hours(a)))
        .then_with(|| (&a.place, a.way).cmp(&(&b.place, b.way)))
}

/// The difference between the best plan with the delivery and the best one without.
fn told(
    planner: &KitPlanner<'_, '_>,
    (line, offer, way): (usize, &UsableOffer<'_>, OfferedWay),
    (with, without): (&Planned<'_>, &Planned<'_>),
    is_planned: bool,
) -> Option<HurriedWay> {
    let delivery = offer.deliveries.get(way.1)?;
    let stakes = &planner.stakes;
    let (runs, ran) = (planner.runs_again(with), planner.runs_again(without));
    let both = runs.as_ref().zip(ran.as_ref());
    let saved_h = both.map(|(runs, ran)| ran.mean_h - runs.mean_h);
    let paid = |of: &Planned<'_>| {
        let spend = of.figures.chances.spend(&of.best.choices);
        let paid = spend.saturating_sub(of.figures.donor_cents(&of.best.choices));
        stakes.money(paid).map(|paid| paid.cents)
    };
    let more = paid(with).zip(paid(without)).map(|(a, b)| a - b);
    let in_all = |of: &Planned<'_>| {
        planner.expected_cents(&of.figures, &of.figures.chances, &of.best.choices)
    };
    let saved = saved_h.and(more).and(stakes.hourly);
    Some(HurriedWay {
        line,
        part: offer.part,
        supplier: offer.record.supplier.to_string(),
        way: way.1,
        place: offer.record.place.clone(),
        surcharge: delivery.surcharge,
        arrival: delivery.arrival?,
        running: runs.map(|of| Spread {
            p50: of.p50.up,
            p80: of.p80.up,
            p90: of.p90.up,
        }),
        saved_h,
        saved_cost: saved_h.and_then(|hours| planner.cost_of(hours)),
        more: more.and_then(|more| stakes.money(more)),
        saved: saved.and_then(|_| stakes.money(in_all(without) - in_all(with))),
        is_planned,
    })
}
