//! A level and its orders cut to what the shelf life of the part leaves worth while.

use super::candidate::Candidate;
use super::ending::lowest_of_least_cost;
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
        self.look_at_level_in_full(shop, year_h);
        self.cut_to_shelf_life(shop, year_h);
    }

    /// What the downtime in full would keep, with the quantity that is ordered at a time then.
    fn look_at_level_in_full(&mut self, shop: &Shop, year_h: f64) {
        if self.why_quantity.shelf_life_usage.is_none() {
            return;
        }
        let Some(priced) = self.reordered(shop, year_h) else {
            return;
        };
        let (reorder_point, order_quantity) = (self.reorder_point, self.order_quantity);
        let (is_cut, lasts_years) = (self.is_cut_for_shelf_life, self.why_quantity.lasts_years);
        let rule = std::mem::replace(&mut self.rule, LevelRule::DowntimeCost);
        self.reorder_point = priced.reorder_point(1.0);
        self.cut_to_shelf_life(shop, year_h);
        self.in_full = Some(self.reorder_point);
        (self.reorder_point, self.rule) = (reorder_point, rule);
        self.is_cut_for_shelf_life = is_cut;
        if (self.order_quantity - order_quantity).abs() > 1e-9 {
            self.order_by(order_quantity);
        }
        self.why_quantity.lasts_years = lasts_years;
    }

    fn cut_to_shelf_life(&mut self, shop: &Shop, year_h: f64) {
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
    /// three only wait for, and the first of an order that ends as one wastes all of it. Of those that cost the same as far as
    /// anybody can tell it is the lowest.
    fn cut_by_cost(&mut self, priced: &PricedPart) {
        let here = self.reorder_point;
        if priced.price * self.expired_a_year(here) < LEAST_EXPIRED {
            return;
        }
        let costs = (-1..=here).map(|point| (point, self.cost(priced, point)));
        let best = lowest_of_least_cost(costs).unwrap_or(here);
        self.is_cut_for_shelf_life |= best < here;
        self.reorder_point = best;
    }
}
