//! Freight of the orders that the lines of one supplier share, as a level's order quantity and the choice of its offer count it.
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

/// Freight of a part's orders, as far as no other line of the supplier pays it in the same week.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OrderFreight {
    /// Freight of an order.
    pub freight: Freight,
    /// Share of weeks in which nothing else is ordered there.
    pub alone_share: f64,
}

/// Weeks of a year, and the share of them in which so many orders a year fall at least once.
fn weeks_with(orders_a_year: f64) -> (f64, f64) {
    let weeks = YEAR_DAYS / TOGETHER_DAYS;
    (weeks, -(-orders_a_year / weeks).exp_m1())
}

impl OrderFreight {
    /// Beside so many orders of others a year.
    fn beside(freight: Freight, others_a_year: f64) -> Self {
        Self {
            freight,
            alone_share: 1.0 - weeks_with(others_a_year).1,
        }
    }

    /// What so many orders a year, each of goods of this value, add to the supplier's freight a year, in the shop's currency.
    pub fn a_year(&self, orders_a_year: f64, goods_cents: i64) -> f64 {
        let (weeks, share) = weeks_with(orders_a_year);
        let each = self.freight.of(goods_cents) as f64 / 100.0;
        each * weeks * self.alone_share * share
    }

    /// What each of so many orders a year pays that is not free, in the shop's currency.
    pub fn paid_each(&self, orders_a_year: f64) -> f64 {
        let each = self.alone_share * self.freight.cents as f64 / 100.0;
        let (weeks, share) = weeks_with(orders_a_year);
        if orders_a_year > 1e-9 {
            each * weeks * share / orders_a_year
        } else {
            each
        }
    }
}

impl OrderedPart {
    /// Freight a year where nothing else is bought from the supplier, in the shop's currency: the most it can add.
    pub fn alone(&self) -> f64 {
        self.beside(0.0)
    }

    /// What it adds to the supplier's freight a year beside so many orders of others.
    fn beside(&self, others_a_year: f64) -> f64 {
        let freight = OrderFreight::beside(self.freight, others_a_year);
        freight.a_year(self.orders_a_year, self.goods_cents)
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

    /// Freight of orders from a supplier beside those of all parts but one, whose present orders are `own`.
    pub fn of_orders(&self, supplier: &str, freight: Freight, own: &OrderedPart) -> OrderFreight {
        let all = self.0.get(supplier).copied().unwrap_or(0.0);
        let is_own = own.supplier == supplier;
        let others = all - if is_own { own.orders_a_year } else { 0.0 };
        OrderFreight::beside(freight, others.max(0.0))
    }

    /// Freight of orders from a supplier beside those of all parts.
    pub fn of_all(&self, supplier: &str, freight: Freight) -> OrderFreight {
        let all = self.0.get(supplier).copied().unwrap_or(0.0);
        OrderFreight::beside(freight, all)
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
