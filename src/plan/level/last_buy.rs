//! The last buy before every machine that uses a part leaves service.

use chrono::NaiveDate;

use super::demand_table::DemandTable;
use super::jobs_short::JobsShort;
use crate::plan::demand::Demand;

/// Days before the end of service within which a part is bought once and not reordered.
///
/// Common practice, no source: within a year an order is as likely to outlast the machine as not.
pub const LAST_BUY_WITHIN_DAYS: i64 = 365;

/// True where that is so for machines that leave service on a day.
pub fn is_soon(until: NaiveDate, today: NaiveDate) -> bool {
    (until - today).num_days() <= LAST_BUY_WITHIN_DAYS
}

/// A last buy to think of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LastBuy {
    /// Last day in service.
    pub until: NaiveDate,
    /// Usage expected until then.
    pub expected: f64,
    /// Units that should be there in all; `None` without a price.
    pub wanted: Option<f64>,
    /// Share of cases in which that many are enough.
    pub enough_share: Option<f64>,
    /// Units to buy: those wanted less what is free and on order, and what planned rebuilds leave of it once these are known.
    pub buy: Option<f64>,
    /// What going without costs; `None` where nothing says it.
    pub without: Option<LastBuyPrices>,
}

/// Money of a last buy, in units of the shop's currency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LastBuyPrices {
    /// Price of a unit.
    pub price: f64,
    /// What a job that goes without costs besides the units that are bought for it then: hours waited, and what the way
    /// costs by which they come.
    ///
    /// Weighted by criticality, as the choice is.
    pub stoppage: f64,
    /// The same as it costs, without criticality.
    pub stoppage_cost: f64,
    /// Production hours that it waits.
    pub waiting_h: f64,
}

/// What a last buy is measured by.
#[derive(Debug, Clone, Copy)]
pub enum LastBuyAim {
    /// Its price against going without.
    Prices(LastBuyPrices),
    /// Share of cases in which it shall be enough, where nothing says what going without costs.
    Share(f64),
    /// No price.
    Unknown,
}

/// Works a last buy out; left-over units are worth nothing.
///
/// Of least cost: units bought now, units that a job is short of bought then, and a stoppage for each job that goes without,
/// however many it takes. With jobs of single units that is the newsvendor's quantity for a price p and a stoppage s, the
/// least with P(demand <= q) at or above s / (p + s).
pub fn last_buy(
    demand: &Demand,
    today: NaiveDate,
    until: NaiveDate,
    have: f64,
    aim: LastBuyAim,
) -> Option<LastBuy> {
    let (table, jobs) = until_then(demand, today, until)?;
    let found = match aim {
        LastBuyAim::Prices(prices) => Some(cheapest(&table, &jobs, &prices) as f64),
        LastBuyAim::Share(share) => Some(table.quantile(share) as f64),
        LastBuyAim::Unknown => None,
    };
    Some(LastBuy {
        until,
        expected: table.mean(),
        wanted: found,
        enough_share: found.map(|units| table.at_most(units as i64)),
        buy: found.map(|units| (units - have).max(0.0).ceil()),
        without: match aim {
            LastBuyAim::Prices(prices) => Some(prices),
            LastBuyAim::Share(_) | LastBuyAim::Unknown => None,
        },
    })
}

/// Units used and jobs that go without until the last day.
pub fn until_then(
    demand: &Demand,
    today: NaiveDate,
    until: NaiveDate,
) -> Option<(DemandTable, JobsShort)> {
    let days = (until - today).num_days().max(0) as f64;
    let law = demand.distribution(days)?;
    let table = DemandTable::new(&law);
    let jobs = JobsShort::of(demand, &law, &table);
    Some((table, jobs))
}

/// The least number of units with the least cost.
fn cheapest(table: &DemandTable, jobs: &JobsShort, prices: &LastBuyPrices) -> i64 {
    let cost = |units: i64| {
        let bought = units as f64 + table.shortfall(units);
        prices
            .price
            .mul_add(bought, prices.stoppage * jobs.with(units))
    };
    let (mut best, mut least) = (0, cost(0));
    for units in 1..=table.end() {
        let of_units = cost(units);
        // What a rounded sum makes cheaper is not cheaper.
        if of_units < least - 1e-9 * (1.0 + least.abs()) {
            (best, least) = (units, of_units);
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::level::lead_time_demand::LeadTimeDemand;
    use crate::plan::level::one_shot::{OneShotPrices, one_shot};

    fn prices(price: f64, stoppage: f64) -> LastBuyPrices {
        LastBuyPrices {
            price,
            stoppage,
            stoppage_cost: stoppage,
            waiting_h: 1.0,
        }
    }

    fn cheapest_of(law: &LeadTimeDemand, mean_size: f64, prices: &LastBuyPrices) -> i64 {
        let table = DemandTable::new(law);
        cheapest(&table, &JobsShort::new(law, &table, mean_size), prices)
    }

    #[test]
    fn jobs_of_single_units_get_the_newsvendors_quantity() {
        for mean in [0.3, 1.0, 4.5, 20.0] {
            for (price, stoppage) in [(1.0, 9.0), (10.0, 3.0), (0.2, 900.0), (50.0, 0.0)] {
                let law = LeadTimeDemand::Poisson { mean };
                let shot = OneShotPrices {
                    price,
                    missing: price + stoppage,
                    salvage: 0.0,
                };
                let found = cheapest_of(&law, 1.0, &prices(price, stoppage));
                let exact = one_shot(&DemandTable::new(&law), &shot).quantity;
                assert!(
                    (found as f64 - exact).abs() < 1e-9,
                    "{mean} {price} {stoppage}"
                );
            }
        }
    }

    #[test]
    fn rings_taken_twelve_at_a_time_are_bought_by_the_dozen() {
        // Two jobs of 12 on the average, Poisson, a ring at 2.00 and a stoppage at 96.00. Of m dozen: the next one costs
        // 24 and saves (24 + 96) P(N > m): bought while P(N > m) is above 0.2, which is 0.8647, 0.5940, 0.3233, 0.1429
        // (by hand): three dozen. Every ring a stoppage would be 0.02 or less: P(N > 4) = 0.0527, P(N > 5) = 0.0166.
        let law = LeadTimeDemand::compound(2.0, &[(12, 1.0)]);
        assert_eq!(cheapest_of(&law, 12.0, &prices(2.0, 96.0)), 36);
        let shot = OneShotPrices {
            price: 2.0,
            missing: 98.0,
            salvage: 0.0,
        };
        assert!((one_shot(&DemandTable::new(&law), &shot).quantity - 60.0).abs() < 1e-9);
    }
}
