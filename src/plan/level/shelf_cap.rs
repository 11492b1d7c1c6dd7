//! A level and its orders cut to what the shelf life of the part leaves worth while.

use super::candidate::Candidate;
use super::reason::{LevelRule, ServiceGoal};
use super::stock_out_price::PricedPart;
use crate::catalogue::Shop;
use crate::plan::issue::PlanIssue;
use crate::plan::year_length::YEAR_DAYS;

/// Money a year below which nothing is told of what expires.
const LEAST_EXPIRED: f64 = 0.005;

impl Candidate<'_> {
    /// The issue of an offer whose least quantity outlasts the shelf life.
    pub fn outlasts_shelf_life(&self, shop: &Shop) -> Option<PlanIssue> {
        let used = self.why_quantity.shelf_life_usage?;
        let least = self.why_quantity.minimum;
        let offer = shop.offers.get(self.offer)?;
        (least > used.max(1.0)).then(|| PlanIssue::OutlastsShelfLife {
            place: offer.record.place.clone(),
            part: self.part.number.clone(),
            least,
            used,
        })
    }

    /// Keeps reorder point and quantity to what the usage of the shelf life and its waste leave worth while.
    ///
    /// No order is made so large that the last unit of it waits for more than the usage of a shelf life, unless it is
    /// sold only so; and of a level by money no unit is kept that saves less than its holding and what expires for it.
    pub fn keep_within_shelf_life(&mut self, shop: &Shop, year_h: f64) {
        let Some(used) = self.why_quantity.shelf_life_usage else {
            return;
        };
        let is_by_money = !matches!(self.rule, LevelRule::ServiceTarget { .. });
        let is_by_budget = matches!(
            self.rule,
            LevelRule::StockOutPrice {
                goal: ServiceGoal::Budget(_),
                ..
            }
        );
        for _ in 0..3 {
            let room = used - self.reorder_point.max(0) as f64;
            let packs = (room / self.pack + 1e-9).floor() * self.pack;
            let most = packs.max(self.why_quantity.minimum).max(1.0);
            if most >= self.order_quantity {
                break;
            }
            self.order_by(most);
            let priced = self.reordered(shop, year_h);
            if let Some(priced) = priced.filter(|_| is_by_money && !is_by_budget) {
                self.reorder_point = priced.reorder_point(self.factor());
            }
        }
        let yearly = self.demand.per_day().unwrap_or(0.0) * YEAR_DAYS;
        self.why_quantity.lasts_years = (yearly > 0.0).then(|| self.order_quantity / yearly);
        let Some(priced) = self.reordered(shop, year_h).filter(|_| is_by_money) else {
            return;
        };
        if let Some(without) = priced.reorder_point_without_waste(self.factor()) {
            self.is_cut_for_shelf_life |= without > self.reorder_point && !is_by_budget;
            self.cut_by_cost(&priced);
        }
    }

    /// Lowers the reorder point to that of the least cost, each being weighed as a whole: the last of four may save what the other
    /// three only wait for, and the first of an order that ends as one wastes all of it.
    fn cut_by_cost(&mut self, priced: &PricedPart) {
        let here = self.reorder_point;
        if priced.price * self.expired_a_year(here) < LEAST_EXPIRED {
            return;
        }
        let (mut best, mut least) = (here, self.cost(priced, here));
        for lower in (-1..here).rev() {
            let cost = self.cost(priced, lower);
            if cost < least - LEAST_EXPIRED {
                (best, least) = (lower, cost);
            }
        }
        self.is_cut_for_shelf_life |= best < here;
        self.reorder_point = best;
    }
}
