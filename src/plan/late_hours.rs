//! How long a planned rebuild waits on the average for goods that may come after its day.
//!
//! Goods that come on the day itself are in time, as for [`Timing`](super::choice::Timing); of later ones every production
//! hour since the beginning of the day is lost. What comes in time in nine of ten cases counts as in time and costs nothing
//! here: it is ordered so late that the tenth is left in any case, and there is time to see it coming.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Mutex, PoisonError};

use chrono::{Days, NaiveDate, NaiveDateTime, NaiveTime, TimeDelta};

use super::calendar::Calendars;
use super::late_order::waited_h;
use super::lead_time::{Arrival, ArrivalDistribution};
use crate::units::Money;

/// A rebuild that waits, and what an hour of that costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WaitsFrom {
    /// Day by which goods must be there.
    pub needed_by: NaiveDate,
    /// Cost of an hour of its machine down, in the shop's currency.
    pub hour: Money,
    /// Number of the stop of its machine: what several wait for in one stop is waited once.
    pub stop: usize,
}

/// Waits by the moments of the arrival and the day; arrivals that share them may differ in between.
type ByMoments = BTreeMap<([NaiveDateTime; 3], NaiveDate), Vec<(Arrival, f64)>>;

/// Mean waits of a shop, each worked out once: what one supplier quotes stands in many rows.
#[derive(Debug, Default)]
pub struct LateHours {
    known: Mutex<ByMoments>,
}

impl LateHours {
    /// Production hours that a rebuild waits on the average for one arrival.
    pub fn of(&self, calendars: &Calendars, arrival: &Arrival, needed_by: NaiveDate) -> f64 {
        let key = ([arrival.likely, arrival.fairly, arrival.late], needed_by);
        let lock = || self.known.lock().unwrap_or_else(PoisonError::into_inner);
        let before = lock().get(&key).and_then(|alike| {
            let found = alike.iter().find(|(of, _)| of == arrival);
            found.map(|(_, hours)| *hours)
        });
        if let Some(hours) = before {
            return hours;
        }
        let law = arrival.distribution(calendars);
        let hours = mean_late_h(calendars, &[&law], needed_by);
        lock().entry(key).or_default().push((*arrival, hours));
        hours
    }

    /// What the waiting of some rebuilds for one arrival costs on the average, in hundredths of the shop's currency; nothing
    /// of those for which even its late case is in time, and once of those that are one stop.
    pub fn cents(&self, calendars: &Calendars, arrival: &Arrival, waits: &[WaitsFrom]) -> i64 {
        let late = waits.iter().filter(|of| arrival.late.date() > of.needed_by);
        let mut stops = BTreeSet::new();
        let each = late.filter(|of| stops.insert(of.stop));
        let costs = each.map(|of| {
            let hours = self.of(calendars, arrival, of.needed_by);
            hours * of.hour.cents as f64
        });
        costs.sum::<f64>().round() as i64
    }
}

/// Production hours that a rebuild waits on the average for the first of some arrivals, taken as independent.
pub fn mean_late_h(
    calendars: &Calendars,
    laws: &[&ArrivalDistribution],
    needed_by: NaiveDate,
) -> f64 {
    let from = needed_by.and_time(NaiveTime::MIN);
    let Some(next) = from.checked_add_days(Days::new(1)) else {
        return 0.0;
    };
    let ends = laws.iter().filter_map(|law| law.moments().last());
    let Some(last) = ends.map(|(moment, _)| *moment).max() else {
        return 0.0;
    };
    if last < next {
        return 0.0;
    }
    let on_the_day = next - TimeDelta::seconds(1);
    let is_late: f64 = laws.iter().map(|law| 1.0 - law.cdf(on_the_day)).product();
    let of_the_day = calendars.production().hours_between(from, next);
    is_late.mul_add(of_the_day, waited_h(calendars, (next, last), laws))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::{Sample, at, certain, day, euros};

    #[test]
    fn who_waits_a_day_and_three_hours_waits_for_eleven() {
        let calendars = Calendars::new(&Sample::new("").built().settings);
        let known = LateHours::default();
        let of = |moment: &str| known.of(&calendars, &certain(moment), day("2026-03-20"));
        // The usual shift: eight hours from Monday to Friday; Friday 20 March is needed. By hand.
        assert!(of("2026-03-19T09:00").abs() < 1e-9);
        assert!(of("2026-03-20T23:00").abs() < 1e-9);
        assert!((of("2026-03-21T09:00") - 8.0).abs() < 1e-9);
        let tuesday = of("2026-03-24T00:00");
        assert!((tuesday - 16.0).abs() < 1e-9, "{tuesday}");
        // The same again, from what is known.
        assert!((of("2026-03-24T00:00") - tuesday).abs() < 1e-12);
        let waits = [
            WaitsFrom {
                needed_by: day("2026-03-20"),
                hour: euros(10.0),
                stop: 0,
            },
            WaitsFrom {
                needed_by: day("2026-03-23"),
                hour: euros(2.5),
                stop: 1,
            },
        ];
        // 16 hours at 10.00 and the 8 of Monday at 2.50.
        let cents = known.cents(&calendars, &certain("2026-03-24T00:00"), &waits);
        assert_eq!(cents, 18_000);
        // A second line of the first stop waits with it.
        let again = [waits[0], waits[0], waits[1]];
        let cents = known.cents(&calendars, &certain("2026-03-24T00:00"), &again);
        assert_eq!(cents, 18_000);
        // In time in the late case: the rest is not weighed.
        let mut nearly = certain("2026-03-24T00:00");
        nearly.late = at("2026-03-20T09:00");
        assert_eq!(known.cents(&calendars, &nearly, &waits), 0);
    }

    #[test]
    fn the_mean_is_that_of_its_cases_and_the_first_of_two_ends_the_wait() {
        let calendars = Calendars::new(&Sample::new("").built().settings);
        // Half on the day, the rest on the Tuesday after: half of 16 hours. By hand.
        let law = ArrivalDistribution::of(vec![
            (at("2026-03-20T09:00"), 0.5),
            (at("2026-03-24T00:00"), 1.0),
        ]);
        let needed = day("2026-03-20");
        let alone = mean_late_h(&calendars, &[&law], needed);
        assert!((alone - 8.0).abs() < 1e-9, "{alone}");
        // Two alike: late together in a quarter of the cases.
        let both = mean_late_h(&calendars, &[&law, &law], needed);
        assert!((both - 4.0).abs() < 1e-9, "{both}");
        assert!(mean_late_h(&calendars, &[], needed).abs() < 1e-12);
    }
}
