//! How long a planned rebuild stands without one of its order lines, and what it then pays instead.

use chrono::{Duration, NaiveDateTime};

use super::calendar::Calendars;
use super::late_order::waited_h;
use super::lead_time::{Arrival, ArrivalDistribution};
use super::made_instead::WayLeft;
use super::when_missed::WhenMissed;
use crate::units::Money;

/// What a rebuild has to do with where a line is not ordered.
#[derive(Clone, Copy)]
pub struct Without<'w> {
    /// When the line is there if it is ordered today.
    pub line: &'w Arrival,
    /// What is ordered on the day; where nobody can tell, the line, which then takes as long as today on the average.
    pub missed: Option<&'w WhenMissed>,
    /// What comes besides.
    pub late: Option<&'w Arrival>,
    /// The next best way.
    pub way: Option<&'w WayLeft>,
}

/// What happens without a line.
#[derive(Clone, Copy)]
pub struct WithoutLine {
    /// Production hours of waiting from the planned day on.
    pub waiting_h: f64,
    /// What is paid more than for the line, in units of the shop's currency; `None` where nobody knows.
    pub dearer: Option<f64>,
}

impl WithoutLine {
    fn costs(&self, hourly: f64) -> Option<f64> {
        Some(hourly.mul_add(self.waiting_h, self.dearer?))
    }

    /// True where it is over sooner than another, for less where all of that is known.
    fn is_better(&self, other: &Self, hourly: Option<f64>) -> bool {
        let costs = hourly.and_then(|hourly| Some((self.costs(hourly)?, other.costs(hourly)?)));
        self.waiting_h < other.waiting_h && costs.is_none_or(|(own, other)| own < other)
    }
}

impl Without<'_> {
    /// The best that can be done from the planned day on: wait for what comes besides, buy it then, or another way where that
    /// ends the wait sooner and not for more than it is worth at so much an hour.
    pub fn happens(
        &self,
        calendars: &Calendars,
        from: NaiveDateTime,
        hourly: Option<f64>,
    ) -> WithoutLine {
        let mut best = self.bought(calendars, from);
        if let Some(late) = self.late {
            let waited = WithoutLine {
                waiting_h: until_there(calendars, from, &[late]),
                dearer: Some(0.0),
            };
            let costs = |of: &WithoutLine| of.costs(hourly?);
            let is_cheaper = costs(&waited).zip(costs(&best)).is_some_and(|(a, b)| a < b);
            if is_cheaper {
                best = waited;
            }
        }
        let way = self.way.map(|way| WithoutLine {
            waiting_h: until_there(calendars, from, &[&way.arrival]).min(best.waiting_h),
            dearer: way.dearer_by.map(Money::to_units),
        });
        let way = way.filter(|way| way.is_better(&best, hourly));
        way.unwrap_or(best)
    }

    /// Production hours that it waits from its planned day although the line is ordered today, until that or what comes
    /// besides is here.
    pub fn waited_all_the_same(&self, calendars: &Calendars, from: NaiveDateTime) -> f64 {
        let arrivals: Vec<&Arrival> = [self.line].into_iter().chain(self.late).collect();
        until_there(calendars, from, &arrivals)
    }

    /// It is bought when missed, or comes by itself before that is here.
    fn bought(&self, calendars: &Calendars, from: NaiveDateTime) -> WithoutLine {
        if let Some(missed) = self.missed {
            let arrivals = [&missed.arrival].into_iter().chain(self.late);
            let arrivals: Vec<&Arrival> = arrivals.collect();
            return WithoutLine {
                waiting_h: until_there(calendars, from, &arrivals),
                dearer: missed.dearer_by.map(Money::to_units),
            };
        }
        let minutes = (self.line.mean_days.min(3650.0) * 1440.0) as i64;
        let until = from + Duration::minutes(minutes);
        let waiting_h = self.late.map_or_else(
            || calendars.production().hours_between(from, until),
            |late| {
                let law = late.distribution(calendars);
                waited_h(calendars, (from, until), &[&law])
            },
        );
        WithoutLine {
            waiting_h,
            dearer: Some(0.0),
        }
    }
}

/// Production hours from a moment until the first of some arrivals on the average.
fn until_there(calendars: &Calendars, from: NaiveDateTime, arrivals: &[&Arrival]) -> f64 {
    let laws = arrivals.iter().map(|of| of.distribution(calendars));
    let laws: Vec<ArrivalDistribution> = laws.collect();
    let laws: Vec<&ArrivalDistribution> = laws.iter().collect();
    let ends = laws.iter().filter_map(|law| law.moments().last());
    let last = ends.map(|(moment, _)| *moment).max().unwrap_or(from);
    waited_h(calendars, (from, last.max(from)), &laws)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::{Sample, at, certain, euros};
    use crate::record::OtherWayKind;

    #[test]
    fn the_cheapest_of_waiting_buying_and_another_way_happens() {
        let calendars = Calendars::new(&Sample::new("").built().settings);
        let from = at("2026-03-16T00:00");
        // Eight hours on each of Monday to Friday: an order of the day is here on Thursday, an open one on Saturday, 24 and
        // 40 hours later; the other way is ready by Tuesday, after 8. By hand.
        let line = certain("2026-03-13T09:00");
        let late = certain("2026-03-21T00:00");
        let missed = |more: f64| WhenMissed {
            arrival: certain("2026-03-19T00:00"),
            dearer_by: Some(euros(more)),
        };
        let way = |more: Option<f64>| WayLeft {
            kind: OtherWayKind::MakeInHouse,
            lines: 1,
            arrival: certain("2026-03-17T00:00"),
            dearer_by: more.map(euros),
        };
        // Dearer when bought, dearer the other way, at 10.00 an hour: hours and what is paid more.
        for (bought, made, hours, dearer) in [
            (100.0, Some(300.0), 24.0, Some(100.0)),
            (170.0, Some(330.0), 40.0, Some(0.0)),
            (100.0, Some(250.0), 8.0, Some(250.0)),
            (100.0, None, 8.0, None),
        ] {
            let (missed, way) = (missed(bought), way(made));
            let without = Without {
                line: &line,
                missed: Some(&missed),
                late: Some(&late),
                way: Some(&way),
            };
            let found = without.happens(&calendars, from, Some(10.0));
            assert!((found.waiting_h - hours).abs() < 1e-9, "{bought} {made:?}");
            assert_eq!(found.dearer, dearer, "{bought} {made:?}");
            assert!(without.waited_all_the_same(&calendars, from).abs() < 1e-9);
        }
    }
}
