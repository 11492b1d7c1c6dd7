//! A shop planned as if lead times and usages were others than its tables say.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::demand::{Demand, Rate};
use super::lead_time::{Arrival, supplier_key};
use super::sourcing::Sourcing;
use crate::catalogue::PartId;

/// Lead times and usages other than the tables say.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct AsIf {
    /// Factor of the lead times by supplier, by the key of its name.
    pub(super) lead_factors: BTreeMap<String, f64>,
    /// Factor of the usages by part.
    pub(super) usage_factors: BTreeMap<PartId, f64>,
}

impl AsIf {
    /// Makes the offers of slower suppliers slower.
    pub(super) fn slow(&self, sourcing: &mut Sourcing<'_>) {
        if self.lead_factors.is_empty() {
            return;
        }
        let as_of = sourcing.shop.as_of;
        for offer in sourcing.offers.values_mut().flatten() {
            let key = supplier_key(&offer.record.supplier);
            let Some(factor) = self.lead_factors.get(&key) else {
                continue;
            };
            for way in &mut offer.deliveries {
                way.arrival = way.arrival.and_then(|arrival| {
                    let course = arrival.course.times(*factor);
                    Arrival::by_course(&sourcing.calendars, course, as_of, arrival.basis)
                });
            }
        }
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
