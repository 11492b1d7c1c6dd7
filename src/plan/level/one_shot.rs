//! One buy that must last: a last buy before a part or a machine goes.

use super::demand_table::DemandTable;

/// Money at stake in a buy that cannot be repeated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OneShotPrices {
    /// Price of a unit.
    pub price: f64,
    /// Full cost of going without a unit.
    pub missing: f64,
    /// What a unit left over still brings; negative where it costs.
    pub salvage: f64,
}

/// A quantity with its expected cost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OneShot {
    /// Units.
    pub quantity: f64,
    /// Expected cost of units left over and units missing.
    pub cost: f64,
}

impl OneShotPrices {
    /// `(missing - price) / (missing - salvage)`: share of cases in which the units should be enough.
    pub fn critical_ratio(&self) -> f64 {
        ((self.missing - self.price) / (self.missing - self.salvage)).clamp(0.0, 1.0)
    }

    /// Loss on a unit left over, and on one missing.
    fn losses(&self) -> (f64, f64) {
        (self.price - self.salvage, self.missing - self.price)
    }
}

/// Units to buy once for a demand in whole units.
///
/// # Source
/// Newsvendor with explicit costs (Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd ed., 2019, section 4.3).
pub fn one_shot(table: &DemandTable, prices: &OneShotPrices) -> OneShot {
    let (over, under) = prices.losses();
    if under <= 0.0 {
        return OneShot {
            quantity: 0.0,
            cost: under * table.mean(),
        };
    }
    let units = table.quantile(prices.critical_ratio() - 1e-15);
    let short = table.shortfall(units);
    OneShot {
        quantity: units as f64,
        cost: over * (units as f64 - table.mean() + short) + under * short,
    }
}
