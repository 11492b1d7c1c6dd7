//! Many replications, on all processors, in an order that does not depend on them.

use crate::parallel;

use super::one_year::{PartYear, one_year};
use super::policy::OrderPolicy;
use super::shop_year::{ShopYear, YearMachine};

/// What became of the whole shop in one replication.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct ShopTotals {
    /// Production hours down, over all machines.
    pub down_h: f64,
    /// Production hours that usages without a machine waited.
    pub unplaced_h: f64,
    /// Cost of the hours down, in the shop's currency; machines without a cost count nothing.
    pub down_cost: f64,
    /// Usages.
    pub usages: f64,
    /// Usages whose whole quantity was on the shelf.
    pub met_whole: f64,
    /// Mean value of the stock of parts with a price.
    pub stock_value: f64,
    /// Orders placed.
    pub orders: f64,
    /// Surcharges of orders by the quickest way.
    pub surcharges: f64,
}

/// Replications of one shop under one policy.
#[derive(Debug, Clone, PartialEq)]
pub struct Runs {
    /// Machines.
    pub machines: Vec<YearMachine>,
    /// Production hours down by replication and machine.
    pub down_h: Vec<Vec<f64>>,
    /// Totals by replication.
    pub totals: Vec<ShopTotals>,
}

impl Runs {
    /// Runs the shop so many times with one seed.
    pub fn new(shop: &ShopYear, policies: &[OrderPolicy], seed: u64, replications: usize) -> Self {
        let years = parallel::each_of((0..replications).collect(), |replication| {
            let year = one_year(shop, policies, seed, replication);
            let totals = totals(shop, &year.parts, &year.down_h, year.unplaced_h);
            (year.down_h, totals)
        });
        let (down_h, totals) = years.into_iter().unzip();
        Self {
            machines: shop.machines.clone(),
            down_h,
            totals,
        }
    }
}

fn totals(shop: &ShopYear, parts: &[PartYear], down_h: &[f64], unplaced_h: f64) -> ShopTotals {
    let hours = shop.until_h - shop.measured_from_h;
    let costs = down_h.iter().zip(&shop.machines);
    let mut totals = ShopTotals {
        down_h: down_h.iter().sum(),
        unplaced_h,
        down_cost: costs
            .map(|(hours, machine)| hours * machine.down_cost_per_h.unwrap_or(0.0))
            .sum(),
        ..ShopTotals::default()
    };
    for (part, of) in shop.parts.iter().zip(parts) {
        totals.usages += of.usages;
        totals.met_whole += of.met_whole;
        totals.orders += of.orders;
        totals.surcharges += of.surcharges;
        totals.stock_value += part.unit_price.unwrap_or(0.0) * of.on_hand_h / hours;
    }
    totals
}
