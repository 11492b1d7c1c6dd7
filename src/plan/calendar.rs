//! Working days and working hours of one calendar, and the four calendars that a plan needs.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{Datelike, Days, Duration, NaiveDate, NaiveDateTime, NaiveTime, Timelike};

use crate::record::{CalendarSettings, ShopSettings, SupplierRecord, Weekday};

/// Days that are searched for an open day before a calendar counts as closed for good: ten years.
const SEARCH_DAYS: u64 = 3660;

/// Shifts by weekday and days off.
///
/// # Source
/// Conventions as `numpy.busday_offset(roll="forward")`: the day of the order is day 0, an order on a day off
/// counts from the next working day. A shift that ends at or before its start runs into the next day and is off
/// where the day it starts on is off.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkCalendar {
    /// Start and end of each shift in seconds from midnight, Monday first; an end past midnight is above 86,400.
    shifts: [Vec<(i64, i64)>; 7],
    holidays: BTreeSet<NaiveDate>,
}

impl WorkCalendar {
    /// Takes shifts and days off from the settings.
    pub fn new(settings: &CalendarSettings) -> Self {
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
        }
    }

    /// True where a shift starts on this day and it is no holiday.
    pub fn is_working_day(&self, date: NaiveDate) -> bool {
        !self.holidays.contains(&date) && !self.shifts_of(date).is_empty()
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
        for _ in 0..workdays {
            day = self.next_working_day(day)?;
        }
        Some(day)
    }

    /// The day that is so many working days before `date`, which rolls back to a working day first.
    pub fn subtract_workdays(&self, date: NaiveDate, workdays: u32) -> Option<NaiveDate> {
        let back = |from: NaiveDate| {
            (0..SEARCH_DAYS)
                .filter_map(|n| from.checked_sub_days(Days::new(n)))
                .find(|day| self.is_working_day(*day))
        };
        let mut day = back(date)?;
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
                    seconds += (end - start).num_seconds();
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
                let open = (end - start).num_seconds();
                if open <= 0 {
                    continue;
                }
                if left < open || (left == open && wanted > 0) {
                    return Some(start + Duration::seconds(left));
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

/// The calendars of one shop, by use.
#[derive(Debug, Clone)]
pub struct Calendars {
    by_name: BTreeMap<String, WorkCalendar>,
    maintenance: WorkCalendar,
    production: WorkCalendar,
    receiving: WorkCalendar,
    supplier: WorkCalendar,
    receiving_hour: NaiveTime,
}

impl Calendars {
    /// Takes the calendars of the settings; a name that is not defined falls back to the day shift, which checked
    /// settings never need.
    pub fn new(settings: &ShopSettings) -> Self {
        let by_name: BTreeMap<String, WorkCalendar> = settings
            .calendars
            .iter()
            .map(|(name, calendar)| (name.clone(), WorkCalendar::new(calendar)))
            .collect();
        let named = |name: &str| {
            by_name
                .get(name)
                .cloned()
                .unwrap_or_else(|| WorkCalendar::new(&CalendarSettings::day_shift()))
        };
        Self {
            maintenance: named(&settings.maintenance_calendar),
            production: named(&settings.production_calendar),
            receiving: named(&settings.receiving_calendar),
            supplier: named(&settings.supplier_calendar),
            receiving_hour: settings.receiving_hour,
            by_name,
        }
    }

    /// Calendar of the maintenance shift.
    pub const fn maintenance(&self) -> &WorkCalendar {
        &self.maintenance
    }

    /// Calendar in whose hours downtime counts.
    pub const fn production(&self) -> &WorkCalendar {
        &self.production
    }

    /// Calendar of goods receiving.
    pub const fn receiving(&self) -> &WorkCalendar {
        &self.receiving
    }

    /// A supplier's own calendar, else the one for suppliers that name none.
    pub fn of_supplier(&self, supplier: Option<&SupplierRecord>) -> &WorkCalendar {
        supplier
            .and_then(|supplier| supplier.calendar.as_ref())
            .and_then(|name| self.by_name.get(name))
            .unwrap_or(&self.supplier)
    }

    /// True where the settings define a calendar of this name.
    pub fn is_defined(&self, name: &str) -> bool {
        self.by_name.contains_key(name)
    }

    /// The moment at which goods that reach the gate on `date` are received, never before `earliest`.
    pub fn received(&self, date: NaiveDate, earliest: NaiveDateTime) -> Option<NaiveDateTime> {
        let day = self.receiving.roll_forward(date)?;
        let moment = day.and_time(self.receiving_hour);
        if moment >= earliest {
            return Some(moment);
        }
        let day = self.receiving.next_working_day(day.max(earliest.date()))?;
        Some(day.and_time(self.receiving_hour))
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
    fn goods_are_never_received_before_they_are_ordered() {
        let calendars = Calendars::new(&ShopSettings::default());
        let friday_noon = at("2026-03-06T12:00");
        assert_eq!(
            calendars.received(friday_noon.date(), friday_noon),
            Some(at("2026-03-09T09:00"))
        );
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
    }
}
