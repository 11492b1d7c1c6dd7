//! The ways in which goods of a part can come in the year: the normal one that its level rests on, and quicker ones.

use std::collections::BTreeMap;

use crate::catalogue::{NameKey, PartId, Shop};
use crate::plan::calendar::Calendars;
use crate::plan::lead_time::{Course, Placing};
use crate::plan::level::{Level, LevelBasis};
use crate::plan::offer::DeliveryKind;
use crate::plan::shop_plan::Plan;

/// One way of one offer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OfferedWay {
    /// How.
    pub kind: DeliveryKind,
    /// Its way through the calendars.
    pub course: Course,
    /// How an order gets to the supplier.
    pub placing: Placing,
    /// Surcharge of an order, in the shop's currency.
    pub surcharge: f64,
    /// Mean days on the clock, if ordered at the moment of planning.
    pub mean_days: f64,
}

/// Ways by part, the quickest first.
#[derive(Debug)]
pub struct Ways(BTreeMap<PartId, Vec<OfferedWay>>);

impl Ways {
    /// Every way with a known arrival; what is quoted as in stock is taken to be in stock all year.
    pub fn new(shop: &Shop, plan: &Plan, calendars: &Calendars) -> Self {
        let mut found: BTreeMap<PartId, Vec<OfferedWay>> = BTreeMap::new();
        for offer in &plan.offers {
            let name = &shop.offers[offer.offer].record.supplier;
            let Some(supplier) = shop.suppliers.get(NameKey::new(name).as_str()) else {
                continue;
            };
            for way in &offer.deliveries {
                let placing = way.kind.placing(calendars, supplier);
                if let Some((arrival, placing)) = way.arrival.zip(placing) {
                    found.entry(offer.part).or_default().push(OfferedWay {
                        kind: way.kind,
                        course: arrival.course,
                        placing,
                        surcharge: way.surcharge.to_units(),
                        mean_days: arrival.mean_days,
                    });
                }
            }
        }
        for ways in found.values_mut() {
            ways.sort_by(|a, b| {
                (a.mean_days.total_cmp(&b.mean_days)).then(a.surcharge.total_cmp(&b.surcharge))
            });
        }
        Self(found)
    }

    /// The normal way that a level was set with, else the quickest normal one.
    pub fn of_level(&self, level: &Level) -> Option<&OfferedWay> {
        let ways = self.0.get(&level.buys())?;
        let mut normal = ways.iter().filter(|way| way.kind == DeliveryKind::Normal);
        let own = match &level.why {
            LevelBasis::Computed(reason) => Some(reason.lead.mean_days),
            LevelBasis::OwnMinimum { .. }
            | LevelBasis::KeptUnder { .. }
            | LevelBasis::Retired { .. } => None,
        };
        let is_own = |way: &&OfferedWay| own.is_some_and(|own| (own - way.mean_days).abs() < 1e-9);
        normal.clone().find(is_own).or_else(|| normal.next())
    }

    /// The quickest way that is no normal delivery, where it is quicker on the average than the normal one.
    pub fn quicker(&self, part: PartId, normal: &OfferedWay) -> Option<&OfferedWay> {
        let ways = self.0.get(&part)?.iter();
        let mut quicker = ways.filter(|way| way.mean_days < normal.mean_days);
        quicker.find(|way| way.kind != DeliveryKind::Normal)
    }
}
