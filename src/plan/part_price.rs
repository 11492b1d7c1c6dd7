//! What a unit of a part is worth where its level says no price of its own: the lowest that was offered.

use std::collections::BTreeMap;

use super::exchange::Exchange;
use super::shop_plan::Plan;
use crate::catalogue::{OfferOf, PartId, Shop};
use crate::units::UnitOfCount;

/// Prices of parts, looked up once for all of them.
#[derive(Debug)]
pub struct PartPrices<'a> {
    shop: &'a Shop,
    plan: &'a Plan,
    offers: BTreeMap<PartId, Vec<&'a OfferOf>>,
}

impl<'a> PartPrices<'a> {
    /// Of a shop and its plan.
    pub fn new(shop: &'a Shop, plan: &'a Plan) -> Self {
        let mut offers: BTreeMap<PartId, Vec<&OfferOf>> = BTreeMap::new();
        for offer in &shop.offers {
            offers.entry(offer.part).or_default().push(offer);
        }
        Self { shop, plan, offers }
    }

    /// Price of a unit in the shop's currency: that of the level, else the lowest that was offered; `None` without one.
    pub fn of(&self, part: PartId, unit: UnitOfCount) -> Option<f64> {
        let level = self.plan.levels.serving(part);
        if let Some(price) = level.and_then(|level| level.why_quantity.as_ref()?.unit_price) {
            return Some(price.amount);
        }
        let exchange = Exchange::new(&self.shop.settings);
        let offers = self.offers.get(&part).into_iter().flatten();
        offers
            .filter_map(|offer| {
                let counted = offer.record.unit_of_count;
                let counted = counted.or(self.shop.catalogue.part(part).unit_of_count);
                let factor = counted
                    .unwrap_or(UnitOfCount::Piece)
                    .in_units_of(unit)
                    .ok()?;
                // Not rounded to cents: a price may be for a thousand.
                let price = offer.record.price?;
                Some(price.unit_price() * exchange.rate(price.currency)? / factor)
            })
            .min_by(f64::total_cmp)
    }
}
