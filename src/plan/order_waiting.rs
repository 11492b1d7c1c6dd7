//! What machines wait for while an order of a stock level is on its way, weighed as the level weighs it.
//!
//! Of two offers the cheaper one may be the dearer: a critical machine that stands for the days the other would have saved
//! costs more than the goods.

use chrono::NaiveDate;

use super::demand::Demand;
use super::level::{
    DemandTable, JobsShort, LastBuyPrices, Level, LevelBasis, SavedOfJob, WaitingBasis, mean_size,
    takes_one, until_then,
};
use super::three_points::THREE_POINTS;
use super::year_length::YEAR_DAYS;
use crate::units::cents_of;

/// What machines wait for until an order comes that no day asks for.
#[derive(Debug, Clone, Copy)]
pub enum Waiting<'l> {
    /// Of a stock level.
    Level(OrderWaiting<'l>),
    /// Of a last buy.
    LastBuy(LastWaiting),
}

impl Waiting<'_> {
    /// What waiting counts for an order that takes so many days, in hundredths of the shop's currency.
    pub fn cents(&self, days: f64) -> i64 {
        match self {
            Self::Level(of) => of.cents(days),
            Self::LastBuy(of) => cents_of(of.counts(days)),
        }
    }
}

/// Jobs that a last buy serves, and what they wait for it.
#[derive(Debug, Clone, Copy)]
pub struct LastWaiting {
    prices: LastBuyPrices,
    /// Jobs served by what is bought.
    jobs: f64,
    /// Days until the last one in service.
    in_service: f64,
}

impl LastWaiting {
    /// Of a level with a last buy that has the first number of units without it and the second with it; `None` where nothing
    /// says what going without costs.
    pub fn of(level: &Level, today: NaiveDate, (without, with): (f64, f64)) -> Option<Self> {
        let LevelBasis::Computed(reason) = &level.why else {
            return None;
        };
        let last = reason.last_buy.as_ref()?;
        let (_, jobs) = until_then(&reason.demand, today, last.until)?;
        Some(Self {
            prices: last.without?,
            jobs: jobs.with(without.floor() as i64) - jobs.with(with.floor() as i64),
            in_service: (last.until - today).num_days() as f64,
        })
    }

    /// What they wait that an order which comes after so many days does not save, by criticality, in units of the shop's
    /// currency.
    fn counts(&self, days: f64) -> f64 {
        let saved = SavedOfJob::of(&self.prices, days, self.in_service).waiting_share;
        let waiting = (self.prices.stoppage - self.prices.surcharge).max(0.0);
        self.jobs * waiting * (1.0 - saved)
    }
}

/// Demand that meets what is left of a stock until an order comes.
#[derive(Debug, Clone, Copy)]
pub struct OrderWaiting<'l> {
    demand: &'l Demand,
    /// On the shelf and on order, less what planned rebuilds take; below 0 somebody waits already.
    position: f64,
    /// What a usage that waits for a day counts, in units of the shop's currency: production hours at the downtime
    /// cost of its machine, by criticality and by the rule of the levels.
    unit_day: f64,
}

impl<'l> OrderWaiting<'l> {
    /// Of a level at a stock position; `None` where the level rests on no demand or no price, or nobody says what an hour costs.
    pub fn of(level: &'l Level, position: f64) -> Option<Self> {
        let LevelBasis::Computed(reason) = &level.why else {
            return None;
        };
        let priced = reason.priced.as_ref()?;
        if priced.basis == WaitingBasis::NothingKnown {
            return None;
        }
        let hours_a_day = priced.year_h / YEAR_DAYS;
        Some(Self {
            demand: &reason.demand,
            position,
            unit_day: priced.waiting_per_h.to_units() * priced.factor * hours_a_day,
        })
    }

    /// Usages that wait, each for the days that it does, until an order comes after so many days: as many as units are missing
    /// where each takes one, and otherwise a usage waits once, until it has all it takes.
    pub fn unit_days(&self, days: f64) -> f64 {
        if days.is_nan() || days <= 0.0 {
            return 0.0;
        }
        if self.position <= 0.0 {
            // Whatever is asked for is missing from then on: a triangle over what is missing already.
            let per_day = self.demand.per_day().unwrap_or(0.0);
            let units = (per_day * days / 2.0 - self.position) * days;
            return units / mean_size(self.demand);
        }
        let missing = THREE_POINTS.iter().filter_map(|(moment, weight)| {
            let demand = self.demand.distribution(moment * days)?;
            let left = self.position.floor() as i64;
            let table = DemandTable::new(&demand);
            let waiting = if takes_one(self.demand) {
                table.shortfall(left)
            } else {
                JobsShort::of(self.demand, &demand, &table).with(left)
            };
            Some(weight * waiting)
        });
        missing.sum::<f64>() * days
    }

    /// Unit days that an order after the first number of days saves against one after the second.
    pub fn saved_unit_days(&self, sooner: f64, later: f64) -> f64 {
        (self.unit_days(later) - self.unit_days(sooner)).max(0.0)
    }

    /// What so many unit days count, in units of the shop's currency.
    pub fn counts(&self, unit_days: f64) -> f64 {
        unit_days * self.unit_day
    }

    /// What waiting for an order counts, in hundredths of the shop's currency.
    pub fn cents(&self, days: f64) -> i64 {
        cents_of(self.counts(self.unit_days(days)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::reorder::Reorder;
    use crate::plan::sample::{Sample, euros, price, workdays};
    use crate::plan::{LevelReason, Plan};

    /// Two used a year of a part with a cheap slow and a dear fast offer; an hour down costs `hourly`.
    fn sample(hourly: f64, criticality: Option<&str>, on_hand: f64) -> Sample {
        let mut sample = Sample::new(
            "records_from = \"2021-03-04\"\n[planning]\ndemand_method = \"plain\"\nlevels_by = \"downtime_cost\"\norder_cost = 1.0\n\
             [planning.criticality_weights]\nA = 100.0",
        );
        sample.supplier("Slow", |_| {});
        sample.supplier("Fast", |_| {});
        sample.machine("M1", Some(hourly), criticality);
        let part = sample.part("P");
        sample.offer(part, "Slow", workdays(20.0), |offer| {
            offer.price = price(10.0);
        });
        sample.offer(part, "Fast", workdays(3.0), |offer| {
            offer.price = price(40.0);
        });
        for year in 2021..2026 {
            sample.usage(part, &format!("{year}-06-01"), 1.0);
            sample.usage(part, &format!("{year}-11-01"), 1.0);
        }
        sample.stock(part, on_hand, |_| {});
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        sample
    }

    fn reason(plan: &Plan) -> (&Level, &LevelReason) {
        let level = plan.levels.by_part.values().next().unwrap();
        let LevelBasis::Computed(reason) = &level.why else {
            panic!("{level:?}");
        };
        (level, reason)
    }

    fn bought(of: &Reorder) -> (&str, f64, f64) {
        let buy = &of.lines[0].buy;
        let waiting = buy.waiting.unwrap().to_units();
        (&buy.supplier, buy.cost.unwrap().to_units(), waiting)
    }

    #[test]
    fn an_empty_shelf_waits_for_a_triangle_of_days() {
        let plan = sample(100.0, None, 0.0).plan();
        let (level, reason) = reason(&plan);
        let per_day = reason.demand.per_day().unwrap();
        let of = |position: f64| OrderWaiting::of(level, position).unwrap();
        // Rate times days squared over two; one that waits already waits all days more. By hand.
        assert!((of(0.0).unit_days(30.0) - per_day * 450.0).abs() < 1e-9);
        assert!((of(-2.0).unit_days(30.0) - per_day * 450.0 - 60.0).abs() < 1e-9);
        assert!(of(0.0).unit_days(0.0).abs() < 1e-12);
        assert!(of(0.0).unit_days(-1.0).abs() < 1e-12);
        assert!(of(0.0).unit_days(f64::NAN).abs() < 1e-12);
        // An hour at 100, by the production hours of a day.
        let priced = reason.priced.as_ref().unwrap();
        assert_eq!(priced.waiting_per_h, euros(100.0));
        let by_hand = per_day * 450.0 * 100.0 * priced.year_h / 365.0 * priced.factor;
        assert!((of(0.0).cents(30.0) as f64 / 100.0 - by_hand).abs() < 0.006);
    }

    #[test]
    fn what_is_left_shortens_the_waiting_as_a_fine_sum_says() {
        let plan = sample(100.0, None, 0.0).plan();
        let (level, reason) = reason(&plan);
        for (position, days) in [(1.0, 30.0), (1.0, 200.0), (2.0, 90.0), (3.0, 365.0)] {
            // Midpoints of a thousand pieces: nothing but the definition.
            let pieces = 1000;
            let by_sum: f64 = (0..pieces)
                .map(|piece| {
                    let until = days * (f64::from(piece) + 0.5) / f64::from(pieces);
                    let demand = reason.demand.distribution(until).unwrap();
                    DemandTable::new(&demand).shortfall(position as i64)
                })
                .sum::<f64>()
                * days
                / f64::from(pieces);
            let by_rule = OrderWaiting::of(level, position).unwrap().unit_days(days);
            assert!(
                (by_rule / by_sum - 1.0).abs() < 0.01,
                "{position} {days}: {by_rule} {by_sum}"
            );
        }
    }

    #[test]
    fn a_usage_of_four_waits_once() {
        // A quarter of the units are usages, and three on the shelf serve none of them: the same triangle (by hand).
        let mut fours = sample(100.0, None, 0.0);
        for usage in &mut fours.shop.usages {
            usage.record.quantity = 4.0;
        }
        let plan = fours.plan();
        let (level, reason) = reason(&plan);
        let usages_a_day = reason.demand.per_day().unwrap() / 4.0;
        let of = |position: f64| OrderWaiting::of(level, position).unwrap().unit_days(30.0);
        assert!((of(0.0) - usages_a_day * 450.0).abs() < 1e-9);
        assert!((of(3.0) - usages_a_day * 450.0).abs() < 1e-9);
        assert!(of(4.0) < 0.2 * of(3.0));
        // Two usages that wait already.
        assert!((of(-8.0) - usages_a_day * 450.0 - 60.0).abs() < 1e-9);
    }

    #[test]
    fn more_on_the_shelf_and_a_shorter_way_never_wait_longer() {
        let plan = sample(100.0, None, 0.0).plan();
        let (level, _) = reason(&plan);
        let of = |position: f64, days: f64| {
            let of = OrderWaiting::of(level, position);
            of.unwrap().unit_days(days)
        };
        for days in [1.0, 10.0, 45.0, 200.0] {
            for position in [-3.0, -1.0, 0.0, 1.0, 2.0, 5.0] {
                assert!(of(position + 1.0, days) <= of(position, days) + 1e-9);
                assert!(of(position, days) <= of(position, days * 1.5) + 1e-9);
            }
        }
    }

    #[test]
    fn a_critical_part_with_an_empty_shelf_comes_from_the_fast_supplier() {
        // Two a year over 28 and 4 calendar days: 2.1 unit days less, some 12 production hours. At 0.5 an hour that is 6,
        // less than the 30 a piece more; at 100, and at 0.5 with a weight of 100, far more than 30 for each of a few.
        for (hourly, criticality, on_hand, supplier) in [
            (0.5, None, 0.0, "Slow"),
            (100.0, None, 0.0, "Fast"),
            (0.5, Some("A"), 0.0, "Fast"),
        ] {
            let plan = sample(hourly, criticality, on_hand).plan();
            let (found, cost, waiting) = bought(&plan.reorder);
            assert_eq!(
                found, supplier,
                "{hourly} {criticality:?}: {cost} {waiting}"
            );
            let next = plan.reorder.lines[0].next_best.as_ref().unwrap();
            let of_next = next.cost.unwrap().to_units() + next.waiting.unwrap().to_units();
            assert!(cost + waiting <= of_next + 0.005, "{hourly}");
        }
    }

    #[test]
    fn a_dated_need_in_time_and_a_part_without_a_price_weigh_no_waiting() {
        let mut dated = sample(100.0, None, 5.0);
        dated.planned("2026-08-20");
        dated.shop.stock.clear();
        let plan = dated.plan();
        let of_rebuild = plan
            .reorder
            .lines
            .iter()
            .find(|line| line.needed_by.is_some());
        // Even the late case of the slow one, 40 working days, is in time.
        assert_eq!(of_rebuild.unwrap().buy.waiting, Some(euros(0.0)));
        let mut unpriced = sample(100.0, None, 0.0);
        for offer in &mut unpriced.shop.offers {
            offer.record.price = None;
        }
        let plan = unpriced.plan();
        assert_eq!(plan.levels.by_part.len(), 1);
        for level in plan.levels.by_part.values() {
            assert!(OrderWaiting::of(level, 0.0).is_none());
        }
    }
}
