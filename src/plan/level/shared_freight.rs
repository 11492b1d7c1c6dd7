//! Freight of the orders that the lines of one supplier share, as the choice of a level's offer counts it.
//!
//! What falls due for a supplier within a week goes out as one order, and an order pays its freight once however many lines
//! it has. With orders of the parts independent and Poisson, `l` a year over all parts bought from the supplier, a week has one
//! with probability `1 - exp(-l w)`, `w` being a week in years, and the supplier's freight a year is `F (1 - exp(-l w)) / w`.
//! What one part adds to it with `m` orders a year, the others as they are, is the difference
//! `F exp(-(l - m) w) (1 - exp(-m w)) / w`: nearly `F m` for a part that is alone there, nearly nothing where every week has
//! an order anyhow. Choosing offer by offer by this figure never makes the whole shop dearer, because what a part adds is
//! just what the shop pays more; the full freight for each line would count a shared order many times, and none would split
//! orders over suppliers for nothing.
//!
//! An order that reaches the value from which freight is free by this part alone pays none; that others may bring it there is
//! not counted.

use std::collections::BTreeMap;

use crate::plan::freight::Freight;
use crate::plan::year_length::YEAR_DAYS;

/// Days within which lines of one supplier go out as one order (common practice, no source).
const TOGETHER_DAYS: f64 = 7.0;

/// Orders of one part from one supplier.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderedPart {
    /// Key of the supplier's name.
    pub supplier: String,
    /// Its freight, known or assumed.
    pub freight: Freight,
    /// Orders a year.
    pub orders_a_year: f64,
    /// Goods of an order; 0 without a price.
    pub goods_cents: i64,
}

/// Orders a year of all parts, by supplier.
#[derive(Debug, Default)]
pub struct SharedFreight(BTreeMap<String, f64>);

impl OrderedPart {
    /// Freight a year where nothing else is bought from the supplier, in the shop's currency: the most it can add.
    pub fn alone(&self) -> f64 {
        self.beside(0.0)
    }

    /// What it adds to the supplier's freight a year beside so many orders of others.
    fn beside(&self, others_a_year: f64) -> f64 {
        let weeks = YEAR_DAYS / TOGETHER_DAYS;
        let in_a_week = |orders: f64| -(-orders / weeks).exp_m1();
        let each = self.freight.of(self.goods_cents) as f64 / 100.0;
        each * weeks * (1.0 - in_a_week(others_a_year)) * in_a_week(self.orders_a_year)
    }
}

impl SharedFreight {
    /// Counts a part's orders.
    pub fn add(&mut self, part: &OrderedPart) {
        *self.0.entry(part.supplier.clone()).or_default() += part.orders_a_year;
    }

    /// Counts a part's orders no longer.
    pub fn take_off(&mut self, part: &OrderedPart) {
        if let Some(orders) = self.0.get_mut(&part.supplier) {
            *orders = (*orders - part.orders_a_year).max(0.0);
        }
    }

    /// What a part that is not counted would add a year, in the shop's currency.
    pub fn added_by(&self, part: &OrderedPart) -> f64 {
        let others = self.0.get(&part.supplier).copied().unwrap_or(0.0);
        part.beside(others)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(orders_a_year: f64, goods_cents: i64) -> OrderedPart {
        OrderedPart {
            supplier: "north".to_owned(),
            freight: Freight {
                cents: 1_500,
                free_from_cents: Some(20_000),
            },
            orders_a_year,
            goods_cents,
        }
    }

    #[test]
    fn a_part_alone_pays_every_order_and_one_among_many_next_to_nothing() {
        let mut shared = SharedFreight::default();
        let rare = part(1.0, 5_000);
        // 365/7 weeks, one order a year: 15.00 * 52.142857 * (1 - exp(-1 / 52.142857)) = 14.86, for two orders of a week are one.
        assert!((shared.added_by(&rare) - 14.857).abs() < 0.001);
        let busy = part(200.0, 5_000);
        shared.add(&busy);
        // exp(-200 / 52.142857) = 0.0216 of it.
        assert!((shared.added_by(&rare) / rare.alone() - 0.0216).abs() < 0.0001);
        shared.take_off(&busy);
        assert!((shared.added_by(&rare) - rare.alone()).abs() < 1e-9);
        assert!(shared.added_by(&part(1.0, 20_000)).abs() < 1e-12);
    }

    #[test]
    fn what_parts_add_one_after_the_other_is_what_the_supplier_is_paid() {
        let mut shared = SharedFreight::default();
        let mut added = 0.0;
        for orders in [0.3, 4.0, 12.0, 0.9, 30.0] {
            let part = part(orders, 5_000);
            added += shared.added_by(&part);
            shared.add(&part);
        }
        assert!((added - part(47.2, 5_000).alone()).abs() < 1e-9);
    }
}
