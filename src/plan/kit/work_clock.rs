//! Hours of the maintenance shift and of production from the moment of planning on, added up once for all kits.

use chrono::{Days, Duration, NaiveDateTime};

use crate::plan::calendar::{Calendars, WorkCalendar};

/// Days ahead that are added up: an arrival within a year and a year of work after it.
const DAYS: u64 = 730;

/// Shifts of one calendar in seconds from the moment of planning, with the work done before each.
#[derive(Debug, Clone)]
struct Shifts {
    /// Start, end, and seconds worked before the start.
    open: Vec<(i64, i64, i64)>,
}

/// Both calendars of a rebuild.
///
/// All tasks work on one calendar, so that a chain of tasks is a sum of hours on it, and the moment of running again is
/// the latest over the lines of "arrival plus the longest chain from the line's task on": exact, for any arrivals.
#[derive(Debug, Clone)]
pub struct WorkClock {
    now: NaiveDateTime,
    maintenance: Shifts,
    production: Shifts,
}

impl Shifts {
    fn new(calendar: &WorkCalendar, now: NaiveDateTime) -> Self {
        let until = now.checked_add_days(Days::new(DAYS)).unwrap_or(now);
        let mut open = Vec::new();
        let mut done = 0;
        for (start, end) in calendar.open_between(now, until) {
            let (start, end) = ((start - now).num_seconds(), (end - now).num_seconds());
            open.push((start, end, done));
            done += end - start;
        }
        Self { open }
    }

    /// Seconds worked by a moment.
    fn done_by(&self, moment: i64) -> i64 {
        let after = self.open.partition_point(|(start, ..)| *start < moment);
        after.checked_sub(1).map_or(0, |at| {
            let (start, end, before) = self.open[at];
            before + moment.min(end) - start
        })
    }

    /// First moment at which so much is done; `None` beyond the days added up.
    fn moment_of(&self, work: i64) -> Option<i64> {
        let after = self.open.partition_point(|(.., before)| *before < work);
        let (start, end, before) = *self.open.get(after.checked_sub(1)?)?;
        let moment = start + work - before;
        (moment <= end).then_some(moment)
    }

    /// The moment itself where the shift is on, else its next start.
    fn first_open(&self, moment: i64) -> Option<i64> {
        let at = self.open.partition_point(|(_, end, _)| *end <= moment);
        self.open.get(at).map(|(start, ..)| moment.max(*start))
    }
}

impl WorkClock {
    /// Adds up the shifts from the moment of planning on.
    pub fn new(calendars: &Calendars, now: NaiveDateTime) -> Self {
        Self {
            now,
            maintenance: Shifts::new(calendars.maintenance(), now),
            production: Shifts::new(calendars.production(), now),
        }
    }

    /// Moment at which work that still takes `work_s` seconds is done if it may go on at `from_s`.
    ///
    /// Seconds from the moment of planning. Without work it is the first moment at which somebody is there.
    pub fn done(&self, from_s: i64, work_s: i64) -> Option<i64> {
        let from_s = from_s.max(0);
        if work_s <= 0 {
            return self.maintenance.first_open(from_s);
        }
        self.maintenance
            .moment_of(self.maintenance.done_by(from_s) + work_s)
    }

    /// Production hours lost until a moment, in seconds from the moment of planning.
    pub fn production_h(&self, until_s: i64) -> f64 {
        self.production.done_by(until_s) as f64 / 3600.0
    }

    /// The moment of so many seconds from the moment of planning.
    pub fn moment(&self, seconds: i64) -> NaiveDateTime {
        self.now + Duration::seconds(seconds)
    }

    /// Seconds from the moment of planning, never below 0.
    pub fn seconds(&self, moment: NaiveDateTime) -> i64 {
        (moment - self.now).num_seconds().max(0)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::plan::sample::at;
    use crate::record::ShopSettings;

    proptest! {
        #[test]
        fn agrees_with_the_calendars(from in 0_i64..2_000, work in 1_i64..400, now in 0_i64..200) {
            let settings = ShopSettings::from_toml(
                "production_calendar = \"late\"\n[calendars.day]\nshifts = [{ days = [\"mon\", \"tue\", \"thu\"], from = \"07:00\", until = \"15:00\" }, { days = [\"tue\"], from = \"13:00\", until = \"18:30\" }]\nholidays = [\"2026-03-19\"]\n[calendars.late]\nshifts = [{ days = [\"mon\", \"sat\"], from = \"20:00\", until = \"04:00\" }]",
            ).unwrap();
            let calendars = Calendars::new(&settings);
            let now = at("2026-03-04T10:30") + Duration::minutes(now * 17);
            let clock = WorkClock::new(&calendars, now);
            let from_s = from * 700;
            let hours = work as f64 / 4.0;
            let done = clock.done(from_s, work * 900).unwrap();
            prop_assert_eq!(calendars.maintenance().after(clock.moment(from_s), hours), Some(clock.moment(done)));
            let first = clock.done(from_s, 0).unwrap();
            prop_assert_eq!(calendars.maintenance().after(clock.moment(from_s), 0.0), Some(clock.moment(first)));
            let lost = calendars.production().hours_between(now, clock.moment(done));
            prop_assert!((clock.production_h(done) - lost).abs() < 1e-9);
        }
    }
}
