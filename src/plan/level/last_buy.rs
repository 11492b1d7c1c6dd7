//! The last buy before every machine that uses a part leaves service.

use chrono::NaiveDate;

use super::demand_table::DemandTable;
use super::one_shot::{OneShotPrices, one_shot};
use crate::plan::demand::Demand;
use crate::units::Money;

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
    /// Cost of going without a unit, hours waited for another one included.
    pub missing: Option<Money>,
}

/// Money of a last buy.
#[derive(Debug, Clone, Copy)]
pub struct LastBuyPrices {
    /// Price of a unit.
    pub price: f64,
    /// Cost of going without one.
    pub missing: f64,
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
pub fn last_buy(
    demand: &Demand,
    today: NaiveDate,
    until: NaiveDate,
    have: f64,
    aim: LastBuyAim,
    currency: crate::units::Currency,
) -> Option<LastBuy> {
    let days = (until - today).num_days().max(0) as f64;
    let table = DemandTable::new(&demand.distribution(days)?);
    let found = match aim {
        LastBuyAim::Prices(prices) => {
            let shot = OneShotPrices {
                price: prices.price,
                missing: prices.missing.max(prices.price),
                salvage: 0.0,
            };
            Some(one_shot(&table, &shot).quantity)
        }
        LastBuyAim::Share(share) => Some(table.quantile(share) as f64),
        LastBuyAim::Unknown => None,
    };
    let prices = match aim {
        LastBuyAim::Prices(prices) => Some(prices),
        LastBuyAim::Share(_) | LastBuyAim::Unknown => None,
    };
    Some(LastBuy {
        until,
        expected: table.mean(),
        wanted: found,
        enough_share: found.map(|units| table.at_most(units as i64)),
        buy: found.map(|units| (units - have).max(0.0).ceil()),
        missing: prices.map(|prices| Money {
            cents: (prices.missing * 100.0).round() as i64,
            currency,
        }),
    })
}
