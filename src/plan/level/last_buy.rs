//! The last buy before every machine that uses a part leaves service.

use chrono::NaiveDate;

use super::demand_table::DemandTable;
use super::jobs_short::JobsShort;
use crate::plan::choice::WhyNoChoice;
use crate::plan::demand::Demand;

/// Days before the end of service within which a part is bought once and not reordered.
///
/// Common practice, no source: within a year an order is as likely to outlast the machine as not.
pub const LAST_BUY_WITHIN_DAYS: i64 = 365;

/// Pieces of the time in service that a mean over it is counted out by.
const PIECES: u32 = 1000;

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
    /// True where an order of today comes so shortly before the last day that no unit of it saves what it costs: `wanted` is
    /// then what there should be if it came at once.
    pub is_in_vain: bool,
    /// Why not all of it can be bought, where it cannot.
    pub not_bought: Option<WhyNoChoice>,
    /// What going without costs; `None` where nothing says it.
    pub without: Option<LastBuyPrices>,
}

impl LastBuy {
    /// True where not one unit is bought.
    pub fn buys_nothing(&self) -> bool {
        self.buy.is_none_or(|units| units < 1e-9)
    }
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
    /// What the way costs by which they come, contained in both.
    pub surcharge: f64,
    /// Production hours that it waits.
    pub waiting_h: f64,
    /// The same in calendar days.
    pub waiting_days: f64,
}

/// What is still bought of a last buy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LastBuyStill {
    /// Units.
    pub units: f64,
    /// Why not all that is wanted, where it is less.
    pub not_bought: Option<WhyNoChoice>,
}

/// An order of today for a last buy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OrderToday {
    /// Price of a unit, in units of the shop's currency.
    pub price: f64,
    /// Mean days until it is there.
    pub days: f64,
}

/// What a unit that is there after some days saves of what a job costs that goes without. Jobs fall evenly on the days in
/// service.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SavedOfJob {
    /// Share of the waiting.
    pub waiting_share: f64,
    /// Share of jobs for which one bought when they are due would come in service: the others pay nothing for it either.
    pub bought_share: f64,
}

impl SavedOfJob {
    /// Of a unit that is there after some days, so many days before the last one.
    pub fn of(prices: &LastBuyPrices, comes: f64, in_service: f64) -> Self {
        let waits = prices.waiting_days;
        let bought_share = match in_service > 0.0 {
            true => ((in_service - waits) / in_service).clamp(0.0, 1.0),
            false => 0.0,
        };
        Self {
            waiting_share: match waits > 0.0 {
                true => share_saved(comes, in_service, waits),
                false => 0.0,
            },
            bought_share,
        }
    }

    /// Money of a stoppage, by criticality or as it costs, that it saves.
    pub fn stoppage(&self, stoppage: f64, surcharge: f64) -> f64 {
        let waiting = (stoppage - surcharge).max(0.0);
        waiting.mul_add(self.waiting_share, surcharge * self.bought_share)
    }
}

/// Share of what jobs wait without a unit that one saves which comes after some days: jobs fall evenly on the days until
/// the last one, none waits beyond that, and those before the unit is there wait for it. All in days.
pub fn share_saved(comes: f64, until: f64, waits: f64) -> f64 {
    if until <= 0.0 || waits <= 0.0 {
        return 0.0;
    }
    let saved = (0..PIECES).map(|piece| {
        let since = until * (f64::from(piece) + 0.5) / f64::from(PIECES);
        let without = waits.min(until - since);
        without - (comes - since).clamp(0.0, without)
    });
    saved.sum::<f64>() / f64::from(PIECES) / waits
}

/// What a last buy is measured by.
#[derive(Debug, Clone)]
pub enum LastBuyAim {
    /// Its price against going without, with the orders of today that are likely there before the last day.
    Prices(LastBuyPrices, Vec<OrderToday>),
    /// Share of cases in which it shall be enough, where nothing says what going without costs, and mean days of the soonest
    /// order of today that is likely there before the last day.
    Share(f64, Option<f64>),
    /// No price.
    Unknown,
}

/// Works a last buy out; left-over units are worth nothing.
///
/// Of least cost: units bought now, units that a job is short of bought then, and a stoppage for each job that goes without,
/// however many it takes. With jobs of single units that is the newsvendor's quantity for a price p and a stoppage s, the
/// least with P(demand <= q) at or above s / (p + s). An order of today saves only what its arrival and the last day leave
/// of a stoppage and of the units bought then; of several orders the one counts that saves most beyond its price.
pub fn last_buy(
    demand: &Demand,
    today: NaiveDate,
    until: NaiveDate,
    have: f64,
    aim: LastBuyAim,
) -> Option<LastBuy> {
    let (table, jobs) = until_then(demand, today, until)?;
    let in_service = (until - today).num_days() as f64;
    let mut is_in_vain = false;
    let found = match &aim {
        LastBuyAim::Prices(prices, orders) => {
            let of = |order: &OrderToday| best(&table, &jobs, (prices, order, in_service));
            let each = orders.iter().map(of);
            let most = each.fold((0, 0.0), |most, of| if of.1 > most.1 { of } else { most });
            let at_once = OrderToday {
                price: prices.price,
                days: 0.0,
            };
            let (at_once, _) = of(&at_once);
            is_in_vain = most.0 == 0 && at_once > 0;
            Some(if is_in_vain { at_once } else { most.0 } as f64)
        }
        LastBuyAim::Share(share, soonest) => {
            is_in_vain = soonest.is_none_or(|days| days >= in_service);
            Some(table.quantile(*share) as f64)
        }
        LastBuyAim::Unknown => None,
    };
    Some(LastBuy {
        until,
        expected: table.mean(),
        wanted: found,
        enough_share: found.map(|units| table.at_most(units as i64)),
        buy: found.map(|units| (units - have).max(0.0).ceil()),
        is_in_vain,
        not_bought: None,
        without: match aim {
            LastBuyAim::Prices(prices, _) => Some(prices),
            LastBuyAim::Share(..) | LastBuyAim::Unknown => None,
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

/// The least number of units of an order that saves most beyond its price, so many days before the last one, and how much.
fn best(
    table: &DemandTable,
    jobs: &JobsShort,
    (prices, order, in_service): (&LastBuyPrices, &OrderToday, f64),
) -> (i64, f64) {
    let saved = SavedOfJob::of(prices, order.days, in_service);
    let stoppage = saved.stoppage(prices.stoppage, prices.surcharge);
    let later = prices.price * saved.bought_share;
    let gain = |units: i64| {
        let met = jobs.with(0) - jobs.with(units);
        let not_bought_then = table.shortfall(0) - table.shortfall(units);
        stoppage * met + later * not_bought_then - order.price * units as f64
    };
    let (mut found, mut most) = (0, 0.0_f64);
    for units in 1..=table.end() {
        let of_units = gain(units);
        // What a rounded sum makes cheaper is not cheaper.
        if of_units > most + 1e-9 * (1.0 + most.abs()) {
            (found, most) = (units, of_units);
        }
    }
    (found, most)
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
            surcharge: 0.0,
            waiting_h: 1.0,
            waiting_days: 1.0,
        }
    }

    /// What is bought of it where it comes after so many of some days in service.
    fn bought(
        law: &LeadTimeDemand,
        mean_size: f64,
        prices: &LastBuyPrices,
        (days, in_service): (f64, f64),
    ) -> (i64, f64) {
        let table = DemandTable::new(law);
        let jobs = JobsShort::new(law, &table, mean_size);
        let order = OrderToday {
            price: prices.price,
            days,
        };
        best(&table, &jobs, (prices, &order, in_service))
    }

    /// The same of what comes at once, so long before the last day that nothing is cut off by it.
    fn cheapest_of(law: &LeadTimeDemand, mean_size: f64, prices: &LastBuyPrices) -> i64 {
        bought(law, mean_size, prices, (0.0, 1e7)).0
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

    #[test]
    fn nobody_waits_beyond_the_last_day_or_is_served_before_the_unit_is_there() {
        // Eighteen days in service, a unit after 14, jobs that wait 14 without it. By hand: of a job on day t it saves t up
        // to day 4, then 4 up to day 14, then 18 - t: 8 + 40 + 8 days of 18 times 14.
        assert!((share_saved(14.0, 18.0, 14.0) - 56.0 / 252.0).abs() < 1e-3);
        // There at once: ten days each, but for those of the last ten days, which wait five on the average.
        assert!((share_saved(0.0, 100.0, 10.0) - 0.95).abs() < 1e-3);
        // After the last day, without days or without waiting: nothing.
        for (comes, until, waits) in [(20.0, 18.0, 14.0), (1.0, 0.0, 5.0), (1.0, 9.0, 0.0)] {
            assert!(share_saved(comes, until, waits).abs() < 1e-9);
        }
    }

    #[test]
    fn what_comes_shortly_before_the_last_day_is_not_bought_for_what_it_no_longer_saves() {
        // Two jobs on the average in 18 days, a unit of 10.00, a job without one waits 14 days that cost 90.00 in all. By
        // hand: one that comes after 14 days saves 56 / 252 of them (above), 20.00, and its price in 4 of 18 cases, 2.22:
        // of the first, needed in 0.8647 of cases, 19.21, of the second, in 0.5940, 13.20, of the third, in 0.3233, 7.19.
        let law = LeadTimeDemand::Poisson { mean: 2.0 };
        let of = LastBuyPrices {
            waiting_days: 14.0,
            ..prices(10.0, 90.0)
        };
        let (units, gain) = bought(&law, 1.0, &of, (14.0, 18.0));
        assert_eq!(units, 2);
        let by_hand = 22.22 * (0.8647 + 0.5940) - 20.0;
        assert!((gain - by_hand).abs() < 0.05, "{gain} {by_hand}");
        // On the last day it saves nothing of the waiting: none, as the price is not saved for sure either.
        assert_eq!(bought(&law, 1.0, &of, (18.0, 18.0)).0, 0);
        // In time for every job it saves 11 of 18 (by hand, (14 · 4 + 14 · 14 / 2) / 14 / 18), 55.00, and 2.22: 57.22 and
        // P(N > m) of 0.3233, 0.1429 make 18.50 and 8.18: three.
        assert_eq!(bought(&law, 1.0, &of, (0.0, 18.0)).0, 3);
    }

    #[test]
    fn a_surcharge_is_saved_where_the_hurried_unit_would_come_in_service() {
        // Ten days in service, a way of two days that costs 5.00 besides: bought then in 8 of 10 cases.
        let of = LastBuyPrices {
            surcharge: 5.0,
            waiting_days: 2.0,
            ..prices(1.0, 25.0)
        };
        let saved = SavedOfJob::of(&of, 0.0, 10.0);
        assert!((saved.bought_share - 0.8).abs() < 1e-9);
        // Two days each, one on the average in the last two: 0.9 of 20.00, and 0.8 of 5.00.
        let money = saved.stoppage(of.stoppage, of.surcharge);
        assert!((money - 22.0).abs() < 0.02, "{money}");
        assert!(SavedOfJob::of(&of, 10.0, 10.0).waiting_share.abs() < 1e-3);
        assert!(SavedOfJob::of(&of, 0.0, 0.0).bought_share.abs() < 1e-9);
    }
}
