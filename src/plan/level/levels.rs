//! Stock levels of own parts: when to order again and how much, each with its reason.

use std::collections::BTreeMap;
use std::fmt;

use super::demand::{Demand, Rate};
use super::issue::PlanIssue;
use super::lead_time::{Arrival, LeadBasis};
use super::lead_time_demand::LeadTimeDemand;
use super::offer::UsableOffer;
use super::sourcing::Sourcing;
use crate::catalogue::{CataloguePart, NameKey, PartId, Shop};
use crate::units::{Money, UnitOfCount};

/// Days of a year, as everywhere in the plan.
const YEAR_DAYS: f64 = 365.0;

/// Stock level of one part.
#[derive(Debug, Clone, PartialEq)]
pub struct Level {
    /// The part.
    pub part: PartId,
    /// What is counted.
    pub unit: UnitOfCount,
    /// Order again at or below this stock position.
    pub reorder_point: f64,
    /// Stock to come up to: the reorder point and one more.
    pub min_stock: f64,
    /// Quantity to order at a time, in `unit`: a multiple of the pack and at least the minimum.
    pub order_quantity: f64,
    /// What the reorder point rests on.
    pub why: LevelBasis,
    /// Numbers behind the order quantity; `None` where no offer says how the part is sold.
    pub why_quantity: Option<QuantityReason>,
}

/// What a reorder point rests on.
#[derive(Debug, Clone, PartialEq)]
pub enum LevelBasis {
    /// Demand in the lead time.
    Computed(Box<LevelReason>),
    /// A planner's own minimum, because nothing can be computed.
    OwnMinimum {
        /// The minimum.
        min_stock: f64,
        /// Why nothing is computed.
        not_computed: WhyNoLevel,
    },
}

/// Why a reorder point is what it is.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelReason {
    /// Mean days from the order to the shelf.
    pub lead_days: f64,
    /// What the lead time rests on.
    pub lead_basis: LeadBasis,
    /// Demand behind it.
    pub demand: Demand,
    /// Distribution of the demand in the lead time.
    pub lead_time_demand: LeadTimeDemand,
    /// Reorder point by the target alone.
    pub computed_reorder_point: f64,
    /// Share of demands to be met.
    pub target_share: f64,
    /// Criticality the target comes from; `None` for the target of the settings.
    pub target_from: Option<String>,
    /// Probability that demand in the lead time is at most the reorder point.
    pub share_met: f64,
    /// The same with one less; `None` at a reorder point of 0.
    pub share_met_with_one_less: Option<f64>,
    /// A planner's own minimum, where it is above the computed level.
    pub own_min_stock: Option<f64>,
}

/// Why an order quantity is what it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct QuantityReason {
    /// Economic order quantity; `None` without price or holding cost.
    pub economic: Option<f64>,
    /// Usage in the shelf life, which caps the quantity.
    pub shelf_life_usage: Option<f64>,
    /// Unit price it was computed with, in the shop's currency.
    pub unit_price: Option<Money>,
    /// Least quantity the offer sells, in the part's unit.
    pub minimum: f64,
}

/// Why a part has no computed level.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WhyNoLevel {
    /// No day since when usages were recorded, or none yet.
    RateUnknown,
    /// No usage in all the days of records: a rate of 0 is no reason to stock, nor one not to insure.
    NeverUsed,
    /// No offer that may be bought from.
    NoUsableOffer,
    /// Offers, but none with a lead time.
    NoLeadTime,
}

/// Levels of own parts, and parts without.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Levels {
    /// Levels by part.
    pub by_part: BTreeMap<PartId, Level>,
    /// Own parts without a level, and why.
    pub without: Vec<(PartId, WhyNoLevel)>,
}

impl Levels {
    /// Sets the level of every own part that has a rate and an offer with a lead time.
    pub fn new(
        sourcing: &Sourcing<'_>,
        demands: &BTreeMap<PartId, Demand>,
        issues: &mut Vec<PlanIssue>,
    ) -> Self {
        let targets = targets(sourcing.shop);
        let mut levels = Self::default();
        for part in sourcing.shop.catalogue.parts().iter().filter(|p| p.is_own) {
            let Some(demand) = demands.get(&part.id) else {
                continue;
            };
            match level(sourcing, part, demand, &targets, issues) {
                Ok(level) => {
                    levels.by_part.insert(part.id, level);
                }
                Err(not_computed) => match part.own_min_stock.filter(|own| *own > 0.0) {
                    Some(min_stock) => {
                        let level = own_minimum(sourcing, part, min_stock, not_computed);
                        levels.by_part.insert(part.id, level);
                    }
                    None => levels.without.push((part.id, not_computed)),
                },
            }
        }
        levels
    }
}

fn level(
    sourcing: &Sourcing<'_>,
    part: &CataloguePart,
    demand: &Demand,
    targets: &BTreeMap<PartId, (f64, String)>,
    issues: &mut Vec<PlanIssue>,
) -> Result<Level, WhyNoLevel> {
    let unit = stock_unit(sourcing, part);
    if !matches!(demand.rate, Rate::Known { .. }) {
        return Err(WhyNoLevel::RateUnknown);
    }
    if demand.net_quantity <= 0.0 {
        return Err(WhyNoLevel::NeverUsed);
    }
    let offers: Vec<&UsableOffer<'_>> = sourcing
        .offers_of(part.id)
        .iter()
        .filter(|offer| offer.unit.in_units_of(unit).is_ok())
        .collect();
    if offers.is_empty() {
        return Err(WhyNoLevel::NoUsableOffer);
    }
    let (offer, arrival) =
        cheapest_with_lead_time(sourcing, &offers, unit).ok_or(WhyNoLevel::NoLeadTime)?;
    let default_target = sourcing.shop.settings.planning.service_target_share;
    let (target_share, target_from) = targets
        .get(&part.id)
        .map_or((default_target, None), |(share, from)| {
            (*share, Some(from.clone()))
        });
    let why = reason(
        demand,
        &arrival,
        target_share,
        target_from,
        part.own_min_stock,
    )
    .ok_or(WhyNoLevel::RateUnknown)?;
    let reorder_point = why.reorder_point();
    let (order_quantity, why_quantity) = order_quantity(sourcing, part, demand, offer, unit);
    if let Some(used) = why_quantity.shelf_life_usage
        && why_quantity.minimum > used.max(1.0)
    {
        issues.push(PlanIssue::OutlastsShelfLife {
            place: offer.record.place.clone(),
            part: part.number.clone(),
            least: why_quantity.minimum,
            used,
        });
    }
    Ok(Level {
        part: part.id,
        unit,
        reorder_point,
        min_stock: reorder_point + 1.0,
        order_quantity,
        why: LevelBasis::Computed(Box::new(why)),
        why_quantity: Some(why_quantity),
    })
}

/// The level a planner asks for where nothing can be computed.
fn own_minimum(
    sourcing: &Sourcing<'_>,
    part: &CataloguePart,
    min_stock: f64,
    not_computed: WhyNoLevel,
) -> Level {
    let unit = stock_unit(sourcing, part);
    let least = sourcing
        .offers_of(part.id)
        .iter()
        .find_map(|offer| offer.lot_for(1.0, unit, 0.0));
    Level {
        part: part.id,
        unit,
        reorder_point: (min_stock - 1.0).max(0.0),
        min_stock,
        order_quantity: least.map_or(1.0, |lot| lot.gives),
        why: LevelBasis::OwnMinimum {
            min_stock,
            not_computed,
        },
        why_quantity: None,
    }
}

/// Reorder point with its numbers for a lead time and a target.
fn reason(
    demand: &Demand,
    arrival: &Arrival,
    target_share: f64,
    target_from: Option<String>,
    own_min_stock: Option<f64>,
) -> Option<LevelReason> {
    let lead_time_demand = demand.distribution(arrival.mean_days)?;
    let computed = lead_time_demand.reorder_point(target_share)?;
    Some(LevelReason {
        lead_days: arrival.mean_days,
        lead_basis: arrival.basis,
        demand: demand.clone(),
        computed_reorder_point: computed as f64,
        target_share,
        target_from,
        share_met: lead_time_demand.at_most(computed),
        share_met_with_one_less: computed
            .checked_sub(1)
            .map(|less| lead_time_demand.at_most(less)),
        lead_time_demand,
        own_min_stock: own_min_stock.filter(|own| *own > computed as f64 + 1.0),
    })
}

impl LevelReason {
    /// Reorder point, the planner's own minimum obeyed.
    pub fn reorder_point(&self) -> f64 {
        self.own_min_stock
            .map_or(self.computed_reorder_point, |own| (own - 1.0).max(0.0))
    }
}

/// Economic order quantity `sqrt(2 D K / (h c))`.
///
/// # Units
/// `yearly` in units a year, `order_cost` in money an order, `holding_cost` in money a unit and year.
/// # Source
/// Harris, How many parts to make at once (1913); Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd ed., 2019,
/// section 3.2.
pub fn economic_quantity(yearly: f64, order_cost: f64, holding_cost: f64) -> Option<f64> {
    (holding_cost > 0.0).then(|| (2.0 * yearly * order_cost / holding_cost).sqrt())
}

/// Quantity per order in the part's unit: economic, at least 1, no more than the shelf life uses, then up to the
/// pack and minimum of the offer.
fn order_quantity(
    sourcing: &Sourcing<'_>,
    part: &CataloguePart,
    demand: &Demand,
    offer: &UsableOffer<'_>,
    unit: UnitOfCount,
) -> (f64, QuantityReason) {
    let planning = &sourcing.shop.settings.planning;
    let per_day = demand.over(1.0).map_or(0.0, |(mean, _)| mean);
    let unit_price = unit_price(sourcing, offer, unit);
    let economic = unit_price.and_then(|price| {
        let holding = planning.holding_cost_share * price;
        economic_quantity(per_day * YEAR_DAYS, planning.order_cost, holding)
    });
    let shelf_life_usage = part
        .shelf_life_months
        .map(|months| per_day * months * YEAR_DAYS / 12.0);
    let mut wanted = economic.unwrap_or(1.0).ceil().max(1.0);
    if let Some(most) = shelf_life_usage {
        wanted = wanted.min(most.floor()).max(1.0);
    }
    let least = offer.lot_for(1.0, unit, 0.0).map_or(1.0, |lot| lot.gives);
    let quantity = offer
        .lot_for(wanted, unit, 0.0)
        .map_or(wanted, |lot| lot.gives);
    let reason = QuantityReason {
        economic,
        shelf_life_usage,
        unit_price: unit_price.map(|price| Money {
            cents: (price * 100.0).round() as i64,
            currency: sourcing.shop.settings.currency,
        }),
        minimum: least,
    };
    (quantity, reason)
}

/// Offer with the lowest unit price among those with a known normal arrival; unpriced ones come last.
fn cheapest_with_lead_time<'o, 'a>(
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

/// Price of one unit at the least quantity, in units of the shop's currency.
fn unit_price(sourcing: &Sourcing<'_>, offer: &UsableOffer<'_>, unit: UnitOfCount) -> Option<f64> {
    let factor = offer.unit.in_units_of(unit).ok()?;
    let lot = offer.lot_for(1.0, unit, 0.0)?;
    let price = offer.price_at(lot.ordered)?;
    let rate = sourcing.exchange().rate(price.currency)?;
    Some(price.unit_price() * rate / factor)
}

/// Unit a part's level is counted in: that of its stock, else its own, else pieces.
pub fn stock_unit(sourcing: &Sourcing<'_>, part: &CataloguePart) -> UnitOfCount {
    sourcing
        .stock
        .by_part
        .get(&part.id)
        .map(|stock| stock.unit)
        .or(part.unit_of_count)
        .unwrap_or(UnitOfCount::Piece)
}

/// Highest service target among the machines whose kits ask for a part, with the criticality it comes from.
fn targets(shop: &Shop) -> BTreeMap<PartId, (f64, String)> {
    let by_criticality = &shop.settings.planning.service_targets_by_criticality;
    let mut targets: BTreeMap<PartId, (f64, String)> = BTreeMap::new();
    for kit in &shop.kits {
        let criticality = kit
            .machine
            .as_ref()
            .and_then(|name| shop.machines.get(NameKey::new(name).as_str()))
            .and_then(|machine| machine.criticality.as_ref());
        let found = criticality.and_then(|found| {
            by_criticality
                .iter()
                .find(|(name, _)| name.trim().eq_ignore_ascii_case(found.trim()))
        });
        let Some((criticality, share)) = found else {
            continue;
        };
        for part in kit.lines.iter().filter_map(|line| line.part) {
            let target = targets
                .entry(part)
                .or_insert_with(|| (*share, criticality.clone()));
            if *share > target.0 {
                *target = (*share, criticality.clone());
            }
        }
    }
    targets
}

impl fmt::Display for LevelReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let point = self.computed_reorder_point;
        write!(
            f,
            "P(demand in {:.0} days <= {point}) = {:.3} >= {}",
            self.lead_days, self.share_met, self.target_share
        )?;
        if let Some(criticality) = &self.target_from {
            write!(f, " (criticality {criticality})")?;
        }
        if let Some(less) = self.share_met_with_one_less {
            write!(f, "; with {} it would be {less:.3}", point - 1.0)?;
        }
        write!(
            f,
            "; {} used in {} usages over {:.0} days; lead time: {}",
            self.demand.net_quantity,
            self.demand.events,
            self.demand.exposure_days,
            self.lead_basis
        )?;
        if let Some(own) = self.own_min_stock {
            write!(
                f,
                "; the planner's own minimum of {own} is higher and holds"
            )?;
        }
        Ok(())
    }
}

impl fmt::Display for QuantityReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.economic {
            Some(economic) => write!(f, "economic quantity {economic:.1}")?,
            None => f.write_str("no economic quantity without a price and a holding cost")?,
        }
        if let Some(price) = self.unit_price {
            write!(f, " at {price} each")?;
        }
        if let Some(used) = self.shelf_life_usage {
            write!(f, "; about {used:.1} are used in the shelf life")?;
        }
        write!(f, "; sold from {} on", self.minimum)
    }
}

impl fmt::Display for LevelBasis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Computed(reason) => reason.fmt(f),
            Self::OwnMinimum {
                min_stock,
                not_computed,
            } => write!(
                f,
                "the planner's own minimum of {min_stock}; {not_computed}"
            ),
        }
    }
}

impl fmt::Display for WhyNoLevel {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::RateUnknown => {
                "rate unknown: set records_from, the day since when usages were recorded"
            }
            Self::NeverUsed => "no usage in the records: no level computed",
            Self::NoUsableOffer => "no usable offer",
            Self::NoLeadTime => "no lead time: no usable offer says when the part would come",
        })
    }
}

#[cfg(test)]
mod tests;
