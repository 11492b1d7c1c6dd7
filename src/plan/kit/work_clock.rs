//! Hours of the maintenance shift and of production from the moment of planning on, added up once for all kits.

use chrono::{Days, NaiveDateTime};

use crate::plan::calendar::{Calendars, WorkCalendar};

/// Days ahead that are added up: an arrival within a year and a year of work after it.
const DAYS: u64 = 730;

/// Shifts of one calendar in seconds that really pass from the moment of planning, with the work done before each.
#[derive(Debug, Clone)]
struct Shifts {
    /// Start, end, and seconds worked before the start.
    open: Vec<(i64, i64, i64)>,
}

/// Both calendars of a rebuild.
///
/// All tasks work on one calendar, so that a chain of tasks is a sum of hours on it, and the moment of running again is
/// the latest over the lines of "arrival plus the longest chain from the line's task on": exact, for any arrivals.
///
/// Seconds are those that really pass, by the time zone of the calendars: a night shift in which the clock changes has
/// seven or nine hours of them.
#[derive(Debug, Clone)]
pub struct WorkClock {
    now: NaiveDateTime,
    /// Whose zone says how many seconds pass between two readings.
    calendar: WorkCalendar,
    maintenance: Shifts,
    production: Shifts,
}

impl Shifts {
    fn new(calendar: &WorkCalendar, now: NaiveDateTime) -> Self {
        let until = now.checked_add_days(Days::new(DAYS)).unwrap_or(now);
        let mut open = Vec::new();
        let mut done = 0;
        for (start, end) in calendar.open_between(now, until) {
            let seconds = |moment| calendar.seconds_between(now, moment);
            let (start, end) = (seconds(start), seconds(end));
            // A shift inside the hour that the clock skips has no time in it.
            if end <= start {
                continue;
            }
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
            calendar: calendars.maintenance().clone(),
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
        self.calendar.later(self.now, seconds)
    }

    /// Seconds from the moment of planning, never below 0.
    pub fn seconds(&self, moment: NaiveDateTime) -> i64 {
        self.calendar.seconds_between(self.now, moment).max(0)
    }
}

#[cfg(test)]
mod tests {
    use chrono::Duration;
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

    /// Work from the evening before a change of the clock on: hours lost of production, and when eight hours are done.
    fn over_the_night(zone: &str, evening: &str) -> (f64, NaiveDateTime) {
        let settings = ShopSettings::from_toml(&format!(
            "time_zone = \"{zone}\"\nproduction_calendar = \"night\"\nmaintenance_calendar = \"night\"\n[calendars.day]\nshifts = [{{ days = [\"mon\"], from = \"07:00\", until = \"15:00\" }}]\n[calendars.night]\nshifts = [{{ days = [\"sat\", \"sun\"], from = \"22:00\", until = \"06:00\" }}]",
        ))
        .unwrap();
        let calendars = Calendars::new(&settings);
        let clock = WorkClock::new(&calendars, at(evening));
        let sunday = at(evening).date().succ_opt().unwrap();
        let morning = clock.seconds(sunday.and_hms_opt(6, 0, 0).unwrap());
        let done = clock.done(0, 8 * 3600).unwrap();
        (clock.production_h(morning), clock.moment(done))
    }

    #[test]
    fn the_night_in_which_the_clock_changes_has_seven_or_nine_hours() {
        // Transitions of the IANA time zone database (tzdata, file `europe`, rule EU: last Sunday of March and October at
        // 01:00 UTC; file `northamerica`, rule US: second Sunday of March and first Sunday of November at 02:00):
        // Berlin on 2026-03-29 and 2026-10-25, Chicago on 2026-03-08 and 2026-11-01.
        for (zone, evening, hours, done) in [
            ("Europe/Berlin", "2026-03-28T20:00", 7.0, "2026-03-29T23:00"),
            ("Europe/Berlin", "2026-10-24T20:00", 9.0, "2026-10-25T05:00"),
            ("Europe/Berlin", "2026-04-11T20:00", 8.0, "2026-04-12T06:00"),
            (
                "America/Chicago",
                "2026-03-07T20:00",
                7.0,
                "2026-03-08T23:00",
            ),
            (
                "America/Chicago",
                "2026-10-31T20:00",
                9.0,
                "2026-11-01T05:00",
            ),
            // Phoenix keeps its clock all year.
            (
                "America/Phoenix",
                "2026-03-07T20:00",
                8.0,
                "2026-03-08T06:00",
            ),
        ] {
            let (lost_h, moment) = over_the_night(zone, evening);
            assert!(
                (lost_h - hours).abs() < 1e-9,
                "{zone} {evening}: {lost_h} h"
            );
            assert_eq!(moment, at(done), "{zone} {evening}");
        }
    }
}
