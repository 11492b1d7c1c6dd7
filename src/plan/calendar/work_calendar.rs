//! Working days and working hours of one calendar.

use std::collections::BTreeSet;

use chrono::{Datelike, Days, Duration, NaiveDate, NaiveDateTime, NaiveTime, Timelike};

use crate::record::{CalendarSettings, TimeZone, Weekday};

/// Days that are searched for an open day before a calendar counts as closed for good: ten years.
const SEARCH_DAYS: u64 = 3660;

/// Shifts by weekday and days off.
///
/// # Source
/// Conventions as `numpy.busday_offset(roll="forward")`: the day of the order is day 0, an order on a day off
/// counts from the next working day. A shift that ends at or before its start runs into the next day and is off
/// where the day it starts on is off. Shifts begin and end by the clock; the hours in them are those that really
/// pass, so that a night shift has seven or nine where the clock changes and a time zone is set.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkCalendar {
    /// Start and end of each shift in seconds from midnight, Monday first; an end past midnight is above 86,400.
    shifts: [Vec<(i64, i64)>; 7],
    holidays: BTreeSet<NaiveDate>,
    zone: Option<TimeZone>,
}

impl WorkCalendar {
    /// Takes shifts and days off from the settings; every day has 24 hours.
    pub fn new(settings: &CalendarSettings) -> Self {
        Self::in_zone(settings, None)
    }

    /// As [`new`](Self::new), with the hours that pass where the clock changes in this zone.
    pub fn in_zone(settings: &CalendarSettings, zone: Option<TimeZone>) -> Self {
        let mut shifts: [Vec<(i64, i64)>; 7] = Default::default();
        for shift in &settings.shifts {
            let from = i64::from(shift.from.num_seconds_from_midnight());
            let until = i64::from(shift.until.num_seconds_from_midnight());
            let until = if until <= from { until + 86_400 } else { until };
            for day in &shift.days {
                shifts[weekday_index(*day)].push((from, until));
            }
        }
        for day in &mut shifts {
            day.sort_unstable();
        }
        Self {
            shifts,
            holidays: settings.holidays.iter().copied().collect(),
            zone,
        }
    }

    /// True where a shift starts on this day and it is no holiday.
    pub fn is_working_day(&self, date: NaiveDate) -> bool {
        !self.holidays.contains(&date) && !self.shifts_of(date).is_empty()
    }

    /// Days of the week on which a shift starts, Monday first.
    pub fn working_weekdays(&self) -> impl Iterator<Item = chrono::Weekday> {
        let days = (0_u8..7).filter(|day| !self.shifts[usize::from(*day)].is_empty());
        days.filter_map(|day| chrono::Weekday::try_from(day).ok())
    }

    /// True where a shift that starts on this day of the week is running at this hour of it.
    pub fn is_open_on(&self, day: chrono::Weekday, hour: NaiveTime) -> bool {
        let second = i64::from(hour.num_seconds_from_midnight());
        self.shifts[day.num_days_from_monday() as usize]
            .iter()
            .any(|(from, until)| (*from..*until).contains(&second))
    }

    /// The day itself where it is a working day, else the next one; `None` where there is none in ten years.
    pub fn roll_forward(&self, date: NaiveDate) -> Option<NaiveDate> {
        date.iter_days()
            .take(SEARCH_DAYS as usize)
            .find(|day| self.is_working_day(*day))
    }

    /// The first working day after this one.
    pub fn next_working_day(&self, date: NaiveDate) -> Option<NaiveDate> {
        self.roll_forward(date.succ_opt()?)
    }

    /// The day that is so many working days after `date`; the roll-forward of `date` is day 0.
    pub fn add_workdays(&self, date: NaiveDate, workdays: u32) -> Option<NaiveDate> {
        let mut day = self.roll_forward(date)?;
        let mut left = workdays;
        let days_a_week = self.days_a_week();
        // Whole weeks at once, less the holidays in them; what is left is walked day by day.
        while left > days_a_week {
            let weeks = (left - 1) / days_a_week;
            let reached = day.checked_add_days(Days::new(7 * u64::from(weeks)))?;
            left = left - weeks * days_a_week + self.holidays_between(day, reached);
            day = reached;
        }
        for _ in 0..left {
            day = self.next_working_day(day)?;
        }
        Some(day)
    }

    /// Working days after `from` until `until`, both rolled forward; 0 where `until` is no later.
    ///
    /// The reverse of [`add_workdays`](Self::add_workdays).
    pub fn workdays_between(&self, from: NaiveDate, until: NaiveDate) -> Option<u32> {
        let (from, until) = (self.roll_forward(from)?, self.roll_forward(until)?);
        if until <= from {
            return Some(0);
        }
        let weeks = u32::try_from((until - from).num_days() / 7).ok()?;
        let reached = from.checked_add_days(Days::new(7 * u64::from(weeks)))?;
        let walked = reached
            .iter_days()
            .skip(1)
            .take_while(|day| *day <= until)
            .filter(|day| self.is_working_day(*day))
            .count() as u32;
        Some(weeks * self.days_a_week() - self.holidays_between(from, reached) + walked)
    }

    /// Days of the week on which a shift starts.
    fn days_a_week(&self) -> u32 {
        self.shifts.iter().filter(|day| !day.is_empty()).count() as u32
    }

    /// Days off after `from` until `until` that would have been working days.
    fn holidays_between(&self, from: NaiveDate, until: NaiveDate) -> u32 {
        let after = (
            std::ops::Bound::Excluded(from),
            std::ops::Bound::Included(until),
        );
        let days = self.holidays.range(after);
        days.filter(|day| !self.shifts_of(**day).is_empty()).count() as u32
    }

    /// The day that is so many working days before `date`, itself not counted whether it is a working day or not; for 0 the
    /// last working day that is not after it.
    pub fn subtract_workdays(&self, date: NaiveDate, workdays: u32) -> Option<NaiveDate> {
        let back = |from: NaiveDate| {
            (0..SEARCH_DAYS)
                .filter_map(|n| from.checked_sub_days(Days::new(n)))
                .find(|day| self.is_working_day(*day))
        };
        let mut day = if workdays == 0 { back(date)? } else { date };
        for _ in 0..workdays {
            day = back(day.pred_opt()?)?;
        }
        Some(day)
    }

    /// Working hours between two moments: the overlap of `[from, until)` with the shifts.
    pub fn hours_between(&self, from: NaiveDateTime, until: NaiveDateTime) -> f64 {
        let mut seconds = 0;
        let mut reached = from;
        for day in days_from(from).take_while(|day| day.and_time(NaiveTime::MIN) < until) {
            for (start, end) in self.open_on(day) {
                let (start, end) = (start.max(reached), end.min(until));
                if end > start {
                    seconds += self.seconds_between(start, end);
                    reached = end;
                }
            }
        }
        seconds as f64 / 3600.0
    }

    /// The moment at which `hours` of working time have passed since `from`; the first open moment for 0 hours.
    pub fn after(&self, from: NaiveDateTime, hours: f64) -> Option<NaiveDateTime> {
        let wanted = (hours.max(0.0) * 3600.0).round() as i64;
        let mut left = wanted;
        let mut reached = from;
        let mut closed_days = 0;
        for day in days_from(from) {
            let before = left;
            for (start, end) in self.open_on(day) {
                let start = start.max(reached);
                let open = self.seconds_between(start, end);
                if end <= start || open <= 0 {
                    continue;
                }
                if left < open || (left == open && wanted > 0) {
                    return Some(self.later(start, left));
                }
                left -= open;
                reached = end;
            }
            closed_days = if left == before { closed_days + 1 } else { 0 };
            if closed_days > SEARCH_DAYS {
                return None;
            }
        }
        None
    }

    /// Open stretches between two moments, overlapping shifts merged.
    pub fn open_between(
        &self,
        from: NaiveDateTime,
        until: NaiveDateTime,
    ) -> Vec<(NaiveDateTime, NaiveDateTime)> {
        let mut open: Vec<(NaiveDateTime, NaiveDateTime)> = Vec::new();
        for day in days_from(from).take_while(|day| day.and_time(NaiveTime::MIN) < until) {
            for (start, end) in self.open_on(day) {
                let reached = open.last().map_or(from, |(_, end)| *end);
                let (start, end) = (start.max(reached), end.min(until));
                if end <= start {
                    continue;
                }
                match open.last_mut() {
                    Some(last) if last.1 == start => last.1 = end,
                    _ => open.push((start, end)),
                }
            }
        }
        open
    }

    /// Seconds that really pass between two moments.
    pub fn seconds_between(&self, from: NaiveDateTime, until: NaiveDateTime) -> i64 {
        match self.zone {
            Some(zone) => zone.seconds_between(from, until),
            None => (until - from).num_seconds(),
        }
    }

    /// The moment at which so many seconds have really passed, open or not.
    pub fn later(&self, from: NaiveDateTime, seconds: i64) -> NaiveDateTime {
        match self.zone {
            Some(zone) => zone.after(from, seconds),
            None => from + Duration::seconds(seconds),
        }
    }

    fn shifts_of(&self, date: NaiveDate) -> &[(i64, i64)] {
        &self.shifts[date.weekday().num_days_from_monday() as usize]
    }

    /// Shifts that start on this day, none on a holiday.
    fn open_on(&self, date: NaiveDate) -> impl Iterator<Item = (NaiveDateTime, NaiveDateTime)> {
        let midnight = date.and_time(NaiveTime::MIN);
        let shifts = if self.holidays.contains(&date) {
            &[]
        } else {
            self.shifts_of(date)
        };
        shifts.iter().map(move |(from, until)| {
            (
                midnight + Duration::seconds(*from),
                midnight + Duration::seconds(*until),
            )
        })
    }
}

/// Days from the one before `from` on, because a night shift of that day may still run.
fn days_from(from: NaiveDateTime) -> impl Iterator<Item = NaiveDate> {
    let first = from.date().pred_opt().unwrap_or(from.date());
    first.iter_days()
}

const fn weekday_index(day: Weekday) -> usize {
    match day {
        Weekday::Mon => 0,
        Weekday::Tue => 1,
        Weekday::Wed => 2,
        Weekday::Thu => 3,
        Weekday::Fri => 4,
        Weekday::Sat => 5,
        Weekday::Sun => 6,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Shift, read_moment};

    fn at(text: &str) -> NaiveDateTime {
        read_moment(text).unwrap()
    }

    fn shift(days: &[Weekday], from: u32, until: u32) -> Shift {
        Shift {
            days: days.to_vec(),
            from: NaiveTime::from_hms_opt(from, 0, 0).unwrap(),
            until: NaiveTime::from_hms_opt(until, 0, 0).unwrap(),
        }
    }

    #[test]
    fn overlapping_shifts_count_once() {
        let calendar = WorkCalendar::new(&CalendarSettings {
            shifts: vec![
                shift(&[Weekday::Mon], 6, 14),
                shift(&[Weekday::Mon], 12, 22),
            ],
            holidays: Vec::new(),
        });
        let hours = calendar.hours_between(at("2026-03-09"), at("2026-03-10"));
        assert!((hours - 16.0).abs() < 1e-9);
        assert_eq!(
            calendar.after(at("2026-03-09"), 10.0),
            Some(at("2026-03-09T16:00"))
        );
    }

    #[test]
    fn a_calendar_without_shifts_is_closed_for_good() {
        let calendar = WorkCalendar::new(&CalendarSettings {
            shifts: Vec::new(),
            holidays: Vec::new(),
        });
        assert_eq!(calendar.roll_forward(at("2026-03-09").date()), None);
        assert_eq!(calendar.after(at("2026-03-09"), 1.0), None);
    }

    #[test]
    fn safety_days_are_counted_back_over_the_weekend() {
        let calendar = WorkCalendar::new(&CalendarSettings::day_shift());
        let monday = at("2026-03-09").date();
        assert_eq!(
            calendar.subtract_workdays(monday, 1),
            Some(at("2026-03-06").date())
        );
        let sunday = at("2026-03-08").date();
        assert_eq!(
            calendar.subtract_workdays(sunday, 0),
            Some(at("2026-03-06").date())
        );
        // The working day before a day off is the one before, as WORKDAY(day, -1) of spreadsheets gives it (OpenFormula 1.2,
        // 6.10.23; from memory).
        for (off, days, before) in [
            ("2026-03-08", 1, "2026-03-06"),
            ("2026-03-07", 1, "2026-03-06"),
            ("2026-03-07", 2, "2026-03-05"),
            ("2026-03-06", 1, "2026-03-05"),
        ] {
            assert_eq!(
                calendar.subtract_workdays(at(off).date(), days),
                Some(at(before).date()),
                "{off} {days}"
            );
        }
        // Goods in on Tuesdays only: for a rebuild on Monday, with one such day to spare, the Tuesday before.
        let tuesdays = WorkCalendar::new(&CalendarSettings {
            shifts: vec![shift(&[Weekday::Tue], 6, 14)],
            holidays: Vec::new(),
        });
        assert_eq!(
            tuesdays.subtract_workdays(monday, 1),
            Some(at("2026-03-03").date())
        );
    }

    #[test]
    fn whole_weeks_at_once_reach_the_day_that_single_steps_reach() {
        let calendar = WorkCalendar::new(&CalendarSettings {
            holidays: [
                "2026-04-03",
                "2026-04-06",
                "2026-05-01",
                "2026-05-30",
                "2026-12-25",
            ]
            .map(|day| at(day).date())
            .to_vec(),
            ..CalendarSettings::day_shift()
        });
        for start in ["2026-03-07", "2026-04-02", "2026-04-03", "2026-05-29"] {
            let mut day = calendar.roll_forward(at(start).date()).unwrap();
            for workdays in 0..400 {
                let found = calendar.add_workdays(at(start).date(), workdays);
                assert_eq!(found, Some(day), "{start} {workdays}");
                let back = calendar.workdays_between(at(start).date(), day);
                assert_eq!(back, Some(workdays), "{start} {workdays}");
                day = calendar.next_working_day(day).unwrap();
            }
        }
    }

    #[test]
    fn a_night_shift_has_the_hours_that_pass() {
        let berlin = "Europe/Berlin".parse().ok();
        let days = [Weekday::Fri, Weekday::Sat, Weekday::Sun];
        let settings = CalendarSettings {
            shifts: vec![shift(&days, 22, 6)],
            holidays: Vec::new(),
        };
        // Summer time 2026 begins on Sunday 29 March and ends on Sunday 25 October (Directive 2000/84/EC).
        for (from, until, hours) in [
            ("2026-03-28T22:00", "2026-03-29T06:00", 7.0),
            ("2026-10-24T22:00", "2026-10-25T06:00", 9.0),
            ("2026-06-06T22:00", "2026-06-07T06:00", 8.0),
        ] {
            let calendar = WorkCalendar::in_zone(&settings, berlin);
            assert!((calendar.hours_between(at(from), at(until)) - hours).abs() < 1e-9);
            assert_eq!(calendar.after(at(from), hours), Some(at(until)));
            let plain = WorkCalendar::new(&settings);
            assert!((plain.hours_between(at(from), at(until)) - 8.0).abs() < 1e-9);
        }
    }

    #[test]
    fn open_stretches_are_merged_and_cut_to_the_span() {
        let calendar = WorkCalendar::new(&CalendarSettings {
            shifts: vec![
                shift(&[Weekday::Mon], 6, 14),
                shift(&[Weekday::Mon], 12, 22),
            ],
            holidays: Vec::new(),
        });
        let open = calendar.open_between(at("2026-03-09T08:00"), at("2026-03-16T07:00"));
        assert_eq!(
            open,
            [
                (at("2026-03-09T08:00"), at("2026-03-09T22:00")),
                (at("2026-03-16T06:00"), at("2026-03-16T07:00")),
            ]
        );
    }
}
