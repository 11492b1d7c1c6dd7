//! A central store that supplies several shops.

use super::super::demand_table::DemandTable;
use super::super::lead_time_demand::LeadTimeDemand;

/// One item in a central store and in equal shops.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoEchelon {
    /// Units used a day in each shop.
    pub per_day: f64,
    /// Days to resupply the central store.
    pub central_days: f64,
    /// Days from the central store to a shop.
    pub shop_days: f64,
    /// Base stock of the central store.
    pub central_stock: i64,
    /// Number of shops.
    pub shops: u32,
}

/// What waits in the central store and in a shop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Echelons {
    /// Units the central store owes.
    pub central_waiting: f64,
    /// Variance of that.
    pub central_variance: f64,
    /// Days by which the central store delays a unit.
    pub delay_days: f64,
    /// Mean number of units on their way to a shop.
    pub shop_mean: f64,
    /// Variance of that.
    pub shop_variance: f64,
}

impl TwoEchelon {
    /// Moments in the central store and in a shop.
    ///
    /// # Source
    /// Sherbrooke, Operations Research 16:122-141 (1968); variance by Graves, Management Science 31:1247-1256 (1985).
    pub fn echelons(&self) -> Echelons {
        let shops = f64::from(self.shops.max(1));
        let central_per_day = self.per_day * shops;
        let mean = central_per_day * self.central_days;
        let table = DemandTable::new(&LeadTimeDemand::Poisson { mean });
        let central_waiting = table.shortfall(self.central_stock);
        // E[((X - S)+)^2] = sum over k >= S of (2 (k - S) + 1) P(X > k).
        let square: f64 = (self.central_stock..table.end())
            .map(|units| {
                (2.0 * (units - self.central_stock) as f64 + 1.0) * (1.0 - table.at_most(units))
            })
            .sum();
        let central_variance = square - central_waiting * central_waiting;
        let each = 1.0 / shops;
        let on_the_way = self.per_day * self.shop_days;
        Echelons {
            central_waiting,
            central_variance,
            delay_days: central_waiting / central_per_day,
            shop_mean: each.mul_add(central_waiting, on_the_way),
            shop_variance: on_the_way
                + each * (1.0 - each) * central_waiting
                + each * each * central_variance,
        }
    }
}

impl Echelons {
    /// Units waited for in a shop with a base stock, by the mean alone.
    pub fn waiting_by_mean(&self, shop_stock: i64) -> f64 {
        let mean = self.shop_mean;
        DemandTable::new(&LeadTimeDemand::Poisson { mean }).shortfall(shop_stock)
    }

    /// Units waited for in a shop with a base stock, by mean and variance.
    pub fn waiting(&self, shop_stock: i64) -> f64 {
        let demand = LeadTimeDemand::new(self.shop_mean, self.shop_variance);
        DemandTable::new(&demand).shortfall(shop_stock)
    }
}
