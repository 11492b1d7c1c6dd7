//! A shop planned as if lead times and usages were others than its tables say.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::demand::{Demand, PartLife, Rate, lives};
use super::sourcing::Sourcing;
use crate::catalogue::{PartId, Shop};

/// Lead times and usages other than the tables say.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct AsIf {
    /// Factor of the lead times by supplier, by the key of its name.
    pub(super) lead_factors: BTreeMap<String, f64>,
    /// Factor of the usages by part.
    pub(super) usage_factors: BTreeMap<PartId, f64>,
    /// Lives of parts as the records tell them of the machines that were there; `None` for those of the shop as it is.
    pub(super) lives: Option<BTreeMap<PartId, PartLife>>,
}

impl AsIf {
    /// Makes the offers of slower suppliers slower, and what is on order from them.
    pub(super) fn slow(&self, sourcing: &mut Sourcing<'_>) {
        if self.lead_factors.is_empty() {
            return;
        }
        sourcing.lead_factors.clone_from(&self.lead_factors);
        let mut offers = std::mem::take(&mut sourcing.offers);
        for offer in offers.values_mut().flatten() {
            for way in &mut offer.deliveries {
                let arrival = way.arrival;
                way.arrival = arrival.and_then(|of| sourcing.as_taken(&offer.record.supplier, of));
            }
        }
        sourcing.offers = offers;
        let mut orders = std::mem::take(&mut sourcing.orders);
        for order in orders.values_mut().flatten() {
            // Who brings what a stock list has on order is not known.
            if let (Some(supplier), Some(arrival)) = (&order.supplier, order.arrival) {
                order.arrival = sourcing.as_taken(supplier, arrival).or(Some(arrival));
            }
        }
        sourcing.orders = orders;
    }

    /// Lives of the parts: of a machine of which there is one more they are told as before, and its parts only used more.
    pub(super) fn lives(&self, shop: &Shop) -> BTreeMap<PartId, PartLife> {
        self.lives.clone().unwrap_or_else(|| lives(shop))
    }

    /// Makes parts more or less used.
    pub(super) fn use_more(&self, demands: &mut BTreeMap<PartId, Arc<Demand>>) {
        for (part, factor) in &self.usage_factors {
            let Some(demand) = demands.get_mut(part) else {
                continue;
            };
            let demand = Arc::make_mut(demand);
            if let Some(estimate) = &mut demand.estimate {
                estimate.events.exposure_days /= factor;
            }
            if let Some(lives) = &mut demand.by_lives {
                lives.times(*factor);
            }
            if let Rate::Known { pieces_per_day } = &mut demand.rate {
                *pieces_per_day *= factor;
            }
        }
    }
}
