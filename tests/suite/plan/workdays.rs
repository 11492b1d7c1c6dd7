//! Working days and hours against walking every day and every quarter of an hour.

use chrono::{Datelike, Days, Duration, NaiveDate, NaiveDateTime, NaiveTime};
use proptest::prelude::*;
use sparewright::plan::WorkCalendar;
use sparewright::record::{CalendarSettings, Shift, TimeZone, Weekday};

use super::{WEEK, clock};

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn at(text: &str) -> NaiveDateTime {
    NaiveDateTime::parse_from_str(text, "%Y-%m-%d %H:%M").unwrap()
}

fn shift(days: &[Weekday], from: i64, until: i64) -> Shift {
    Shift {
        days: days.to_vec(),
        from: clock(from * 15),
        until: clock(until * 15 % 1440),
    }
}

/// Shifts in quarters of an hour, and days off around the turn of a leap year.
fn calendars() -> impl Strategy<Value = CalendarSettings> {
    let days = prop::sample::subsequence(WEEK.to_vec(), 1..=7);
    let one =
        (days, 0_i64..95, 1_i64..48).prop_map(|(days, from, long)| shift(&days, from, from + long));
    let off = prop::collection::vec(0_u64..120, 0..12);
    (prop::collection::vec(one, 1..3), off).prop_map(|(shifts, off)| CalendarSettings {
        shifts,
        holidays: off
            .iter()
            .map(|days| day("2027-12-01") + Days::new(*days))
            .collect(),
    })
}

/// True where a shift that starts on this day or the day before runs in this quarter of an hour.
fn is_open(settings: &CalendarSettings, moment: NaiveDateTime) -> bool {
    let runs_from = |date: NaiveDate, hours_before: i64| {
        if settings.holidays.contains(&date) {
            return false;
        }
        let name = WEEK[date.weekday().num_days_from_monday() as usize];
        let minute = (moment.time() - NaiveTime::MIN).num_minutes() + hours_before * 60;
        settings.shifts.iter().any(|shift| {
            let from = (shift.from - NaiveTime::MIN).num_minutes();
            let until = (shift.until - NaiveTime::MIN).num_minutes();
            let until = if until <= from { until + 1440 } else { until };
            shift.days.contains(&name) && (from..until).contains(&minute)
        })
    };
    runs_from(moment.date(), 0) || runs_from(moment.date() - Days::new(1), 24)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn hours_are_those_of_every_quarter(settings in calendars(), from in 0_i64..4_000, long in 0_i64..2_000) {
        let calendar = WorkCalendar::new(&settings);
        let from = day("2027-12-10").and_time(NaiveTime::MIN) + Duration::minutes(15 * from);
        let until = from + Duration::minutes(15 * long);
        let walked = (0..long)
            .filter(|quarter| is_open(&settings, from + Duration::minutes(15 * quarter)))
            .count();
        let found = calendar.hours_between(from, until);
        prop_assert!((found - walked as f64 / 4.0).abs() < 1e-9, "{found} {walked}");
        let open: i64 = calendar.open_between(from, until).iter()
            .map(|(start, end)| (*end - *start).num_minutes()).sum();
        prop_assert_eq!(open, 15 * walked as i64);
        for pair in calendar.open_between(from, until).windows(2) {
            prop_assert!(pair[0].1 < pair[1].0, "stretches that touch are one");
        }
        prop_assert!(calendar.hours_between(until, from).abs() < 1e-12 || long == 0);
    }

    #[test]
    fn work_is_over_when_its_hours_have_passed(settings in calendars(), from in 0_i64..4_000, quarters in 1_i64..300) {
        let calendar = WorkCalendar::new(&settings);
        let from = day("2027-12-10").and_time(NaiveTime::MIN) + Duration::minutes(15 * from);
        let hours = quarters as f64 / 4.0;
        let done = calendar.after(from, hours).unwrap();
        prop_assert!((calendar.hours_between(from, done) - hours).abs() < 1e-9, "{done}");
        // Not a quarter of an hour earlier, and the last quarter was worked.
        let before = done - Duration::minutes(15);
        prop_assert!(calendar.hours_between(from, before) < hours - 1e-9);
        prop_assert!(is_open(&settings, before));
        // Work in two parts ends where it ends in one.
        let half = calendar.after(from, (quarters / 2) as f64 / 4.0).unwrap();
        let rest = calendar.after(half, hours - (quarters / 2) as f64 / 4.0).unwrap();
        prop_assert_eq!(rest, done);
    }

    #[test]
    fn working_days_are_those_of_walking(settings in calendars(), from in 0_u64..120, count in 0_u32..60) {
        let calendar = WorkCalendar::new(&settings);
        let from = day("2027-11-20") + Days::new(from);
        let is_working = |date: NaiveDate| {
            let name = WEEK[date.weekday().num_days_from_monday() as usize];
            !settings.holidays.contains(&date) && settings.shifts.iter().any(|shift| shift.days.contains(&name))
        };
        let start = from.iter_days().find(|date| is_working(*date)).unwrap();
        prop_assert_eq!(calendar.roll_forward(from), Some(start));
        let nth = start.iter_days().filter(|date| is_working(*date)).nth(count as usize).unwrap();
        prop_assert_eq!(calendar.add_workdays(from, count), Some(nth));
        prop_assert_eq!(calendar.workdays_between(from, nth), Some(count));
        prop_assert_eq!(calendar.subtract_workdays(nth, count), Some(start));
        prop_assert_eq!(calendar.workdays_between(nth, from), Some(0));
        for date in start.iter_days().take(20) {
            prop_assert_eq!(calendar.is_working_day(date), is_working(date), "{}", date);
        }
    }
}

fn weekdays() -> CalendarSettings {
    CalendarSettings {
        shifts: vec![shift(&WEEK[..5], 28, 60)],
        holidays: Vec::new(),
    }
}

#[test]
fn month_ends_and_leap_days_count_like_any_other() {
    let calendar = WorkCalendar::new(&weekdays());
    // Weekdays of the Gregorian calendar: 28 February 2028 is a Monday, 28 February 2026 a Saturday, 2100 no leap year.
    for (from, days, until) in [
        ("2028-02-28", 1, "2028-02-29"),
        ("2028-02-28", 2, "2028-03-01"),
        ("2026-02-27", 1, "2026-03-02"),
        ("2026-02-28", 0, "2026-03-02"),
        ("2100-02-26", 1, "2100-03-01"),
        ("2026-12-31", 1, "2027-01-01"),
        ("2026-01-30", 1, "2026-02-02"),
        ("2026-04-30", 1, "2026-05-01"),
    ] {
        assert_eq!(
            calendar.add_workdays(day(from), days),
            Some(day(until)),
            "{from} + {days}"
        );
    }
    // 261 weekdays in 2026 (365 days that begin on a Thursday), 260 in 2028 (366 that begin on a Saturday).
    for (year, weekdays) in [(2025, 261), (2026, 261), (2027, 261), (2028, 260)] {
        let of = |year: i32| NaiveDate::from_ymd_opt(year, 1, 1).unwrap();
        let walked = of(year)
            .iter_days()
            .take_while(|date| date.year() == year)
            .filter(|date| calendar.is_working_day(*date))
            .count();
        assert_eq!(walked, weekdays, "{year}");
    }
}

#[test]
fn a_calendar_without_days_never_opens() {
    let closed = WorkCalendar::new(&CalendarSettings {
        shifts: Vec::new(),
        holidays: Vec::new(),
    });
    let from = day("2026-11-26");
    assert_eq!(closed.roll_forward(from), None);
    assert_eq!(closed.next_working_day(from), None);
    assert_eq!(closed.add_workdays(from, 0), None);
    assert_eq!(closed.workdays_between(from, from), None);
    assert_eq!(closed.subtract_workdays(from, 1), None);
    assert_eq!(closed.after(at("2026-11-26 08:00"), 1.0), None);
    assert_eq!(closed.working_weekdays().count(), 0);
    let (from, until) = (at("2026-11-26 08:00"), at("2027-11-26 08:00"));
    assert!(closed.hours_between(from, until).abs() < 1e-12);
    assert_eq!(closed.open_between(from, until), []);
}

#[test]
fn a_night_shift_has_the_hours_that_really_pass() {
    // European Union, directive 2000/84/EC: from 01:00 UTC on the last Sundays of March and October; 29 March and 25
    // October in 2026. New York (Energy Policy Act of 2005): 02:00 on 8 March and 1 November 2026.
    let nights = CalendarSettings {
        shifts: vec![shift(&WEEK, 88, 24 + 96)],
        holidays: Vec::new(),
    };
    for (zone, from, until, hours) in [
        ("Europe/Berlin", "2026-03-28 22:00", "2026-03-29 06:00", 7.0),
        ("Europe/Berlin", "2026-03-27 22:00", "2026-03-28 06:00", 8.0),
        ("Europe/Berlin", "2026-10-24 22:00", "2026-10-25 06:00", 9.0),
        (
            "America/New_York",
            "2026-03-07 22:00",
            "2026-03-08 06:00",
            7.0,
        ),
        (
            "America/New_York",
            "2026-10-31 22:00",
            "2026-11-01 06:00",
            9.0,
        ),
        ("Asia/Tokyo", "2026-03-28 22:00", "2026-03-29 06:00", 8.0),
        ("Asia/Kolkata", "2026-10-24 22:00", "2026-10-25 06:00", 8.0),
    ] {
        let zone_of: TimeZone = zone.parse().unwrap();
        let calendar = WorkCalendar::in_zone(&nights, Some(zone_of));
        let found = calendar.hours_between(at(from), at(until));
        assert!((found - hours).abs() < 1e-9, "{zone} {from}: {found}");
        let done = calendar.after(at(from), hours).unwrap();
        assert_eq!(done, at(until), "{zone} {from}");
        // By the clock of a wall every night has eight.
        let clock = WorkCalendar::new(&nights);
        assert!((clock.hours_between(at(from), at(until)) - 8.0).abs() < 1e-9);
        let seconds = calendar.seconds_between(at(from), at(until));
        assert_eq!(seconds, (hours * 3600.0) as i64);
        assert_eq!(calendar.later(at(from), seconds), at(until));
    }
}

#[test]
fn an_end_at_midnight_is_the_end_of_the_day() {
    let calendar = WorkCalendar::new(&CalendarSettings {
        shifts: vec![Shift {
            days: vec![Weekday::Mon],
            from: clock(16 * 60),
            until: NaiveTime::MIN,
        }],
        holidays: vec![day("2026-11-30")],
    });
    // 23 November 2026 is a Monday, the next one is off.
    let week = calendar.open_between(at("2026-11-23 00:00"), at("2026-12-08 00:00"));
    assert_eq!(
        week,
        [
            (at("2026-11-23 16:00"), at("2026-11-24 00:00")),
            (at("2026-12-07 16:00"), at("2026-12-08 00:00")),
        ]
    );
    assert!(calendar.is_open_on(chrono::Weekday::Mon, clock(1439)));
    assert!(!calendar.is_open_on(chrono::Weekday::Mon, clock(959)));
    assert!(!calendar.is_open_on(chrono::Weekday::Tue, clock(0)));
    // Nine hours from Monday noon: eight of this Monday and one of the Monday after the next.
    assert_eq!(
        calendar.after(at("2026-11-23 12:00"), 9.0),
        Some(at("2026-12-07 17:00"))
    );
    // Nothing to do is done at the first open moment.
    assert_eq!(
        calendar.after(at("2026-11-24 12:00"), 0.0),
        Some(at("2026-12-07 16:00"))
    );
    assert_eq!(
        calendar.after(at("2026-11-24 12:00"), -3.0),
        Some(at("2026-12-07 16:00"))
    );
}
