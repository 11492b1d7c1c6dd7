//! Offers that wait for somebody's word, an approved supplier or a rate of exchange, and what that word would gain a kit.

use std::collections::{BTreeMap, BTreeSet};

use super::gained_by;
use super::outcome::{KitOutcome, Settling, SettlingGain};
use super::planned::{KitPlanner, Planned};
use super::planner::Depth;
use crate::catalogue::{OfferOf, PartId};
use crate::plan::lead_time::supplier_key;
use crate::plan::offer::{JudgedAs, UnusableOffer, UsableOffer, WhyUnusable};
use crate::plan::sourcing::Sourcing;
use crate::units::{Price, UnitOfCount};

/// Offers that a word would open, by part, looked up once for all kits.
pub(super) struct WaitingOffers<'s>(BTreeMap<PartId, Vec<(&'s UnusableOffer, Settling)>>);

impl<'s> WaitingOffers<'s> {
    pub(super) fn new(sourcing: &'s Sourcing<'_>) -> Self {
        let mut by_part: BTreeMap<PartId, Vec<(&UnusableOffer, Settling)>> = BTreeMap::new();
        for offer in &sourcing.unusable {
            if let Some(settling) = settling(sourcing, offer) {
                by_part
                    .entry(offer.part)
                    .or_default()
                    .push((offer, settling));
            }
        }
        Self(by_part)
    }

    fn of(&self, part: PartId) -> &[(&'s UnusableOffer, Settling)] {
        self.0.get(&part).map_or(&[], Vec::as_slice)
    }
}

/// What an offer waits for; `None` where no word alone would open it. Of a supplier in no table nobody knows how he delivers.
fn settling(sourcing: &Sourcing<'_>, offer: &UnusableOffer) -> Option<Settling> {
    match &offer.why {
        WhyUnusable::NotApproved { supplier, .. } | WhyUnusable::ApprovalUnknown { supplier } => {
            let listed = sourcing.shop.suppliers.get(&supplier_key(supplier))?;
            Some(Settling::Supplier(listed.name.clone()))
        }
        WhyUnusable::NoExchangeRate { currency } => Some(Settling::Rate(*currency)),
        _ => None,
    }
}

/// What one word opens for a kit.
#[derive(Default)]
struct Opened<'s> {
    lines: BTreeSet<usize>,
    offers: BTreeMap<usize, &'s UnusableOffer>,
}

/// What each word would gain, best first; those that gain nothing are left out.
pub(super) fn settling_gains(
    planner: &KitPlanner<'_, '_>,
    before: (&Planned<'_>, &KitOutcome),
    accepted: &[Vec<PartId>],
    waiting: &WaitingOffers<'_>,
) -> Vec<SettlingGain> {
    let mut opened: BTreeMap<&Settling, Opened<'_>> = BTreeMap::new();
    for line in before.1.lines.iter().filter(|line| line.short > 0.0) {
        for part in &accepted[line.line] {
            for (offer, settling) in waiting.of(*part) {
                let of = opened.entry(settling).or_default();
                of.lines.insert(line.line);
                of.offers.insert(offer.offer, offer);
            }
        }
    }
    let gains = opened
        .into_iter()
        .filter_map(|(settling, opened)| gain(planner, before, accepted, settling, &opened));
    let mut gains: Vec<SettlingGain> = gains.collect();
    gains.sort_by(|a, b| {
        let up = |gain: &SettlingGain| gain.gained.running.p50;
        (a.gained.by_worth(&b.gained)).then_with(|| (up(a), &a.settling).cmp(&(up(b), &b.settling)))
    });
    gains
}

fn gain(
    planner: &KitPlanner<'_, '_>,
    before: (&Planned<'_>, &KitOutcome),
    accepted: &[Vec<PartId>],
    settling: &Settling,
    opened: &Opened<'_>,
) -> Option<SettlingGain> {
    let sourcing = planner.stakes.sourcing;
    let (lead_times, shop) = (sourcing.lead_times(), sourcing.shop);
    let judged_as = match settling {
        Settling::Supplier(_) => JudgedAs::OfApprovedSupplier,
        Settling::Rate(_) => JudgedAs::ItIs,
    };
    let rows: Vec<(usize, OfferOf)> = opened
        .offers
        .keys()
        .map(|at| {
            let mut offer = shop.offers[*at].clone();
            if matches!(settling, Settling::Rate(_)) {
                // What it costs in the shop's currency is what the rate would say.
                offer.record.price = None;
                offer.record.breaks.clear();
            }
            (*at, offer)
        })
        .collect();
    let judge = |(at, offer)| -> Option<UsableOffer<'_>> {
        let calendars = &sourcing.calendars;
        let judged = UsableOffer::judge_as(shop, calendars, &lead_times, at, offer, judged_as);
        let mut usable = judged.ok()?;
        if matches!(settling, Settling::Rate(_)) {
            let on_lines = opened.lines.iter().map(|line| &accepted[*line]);
            let with_it = on_lines.filter(|parts| parts.contains(&usable.part));
            let parts: Vec<PartId> = with_it.flatten().copied().collect();
            usable.assumed_price = lowest_price(sourcing, &parts, usable.unit);
        }
        Some(usable)
    };
    let assumed: Vec<UsableOffer<'_>> = rows
        .iter()
        .filter_map(|(at, offer)| judge((*at, offer)))
        .collect();
    let first = opened.offers.values().next()?;
    let after = planner.planned(accepted, &assumed, Depth::PlanAlone)?;
    let gained = gained_by(planner, before, &after)?;
    Some(SettlingGain {
        settling: settling.clone(),
        lines: opened.lines.iter().copied().collect(),
        why: first.why.clone(),
        gained,
    })
}

/// The lowest price of one among the offers of some parts that may be bought from.
pub(super) fn lowest_price(
    sourcing: &Sourcing<'_>,
    parts: &[PartId],
    unit: UnitOfCount,
) -> Option<Price> {
    let offers = parts.iter().flat_map(|part| sourcing.offers_of(*part));
    offers
        .filter(|other| other.unit == unit)
        .filter_map(|other| {
            let price = other.price_at(1.0)?;
            let own = sourcing.exchange().in_own_currency(price.cost_of(1.0))?;
            Some((own.cents, price))
        })
        .min_by_key(|(cents, _)| *cents)
        .map(|(_, price)| price)
}
