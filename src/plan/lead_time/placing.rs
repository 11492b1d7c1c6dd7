//! From which moment a lead time counts, for an order placed at any hour: cut-off hours, counter hours, days off.

use chrono::{NaiveDate, NaiveDateTime, NaiveTime, TimeDelta};

use super::course::Course;
use crate::plan::calendar::{CalendarId, Calendars, WorkCalendar};
use crate::record::{SameDay, SupplierRecord};

/// How an order gets to a supplier, and the calendar it gets there on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placing {
    calendar: CalendarId,
    to: PlacedAt,
}

/// Where an order goes.
#[derive(Debug, Clone, Copy, PartialEq)]
enum PlacedAt {
    /// To the order desk: after its cut-off, or on a day off, an order counts as placed on the next working day.
    Desk(Option<NaiveTime>),
    /// Over the counter, which opens and closes, so long a way from here.
    Counter {
        hours: Option<(NaiveTime, NaiveTime)>,
        there: TimeDelta,
    },
    /// By an hour, for goods that come on the same day by another.
    SameDay(SameDay),
}

impl Placing {
    /// An order to the desk of a supplier.
    pub fn at_desk(calendars: &Calendars, record: Option<&SupplierRecord>) -> Self {
        Self {
            calendar: calendars.id_of_supplier(record),
            to: PlacedAt::Desk(record.and_then(|record| record.order_cutoff)),
        }
    }

    /// Goods from the counter of a supplier: sent at once, or fetched by who needs so many hours to get there.
    pub fn at_counter(calendars: &Calendars, record: &SupplierRecord, there_h: f64) -> Self {
        let seconds = (there_h.max(0.0) * 3600.0).round() as i64;
        Self {
            calendar: calendars.id_of_supplier(Some(record)),
            to: PlacedAt::Counter {
                hours: record.counter_hours,
                there: TimeDelta::try_seconds(seconds).unwrap_or_default(),
            },
        }
    }

    /// Goods that the supplier brings on the day of the order.
    pub fn same_day(calendars: &Calendars, record: &SupplierRecord, same_day: SameDay) -> Self {
        Self {
            calendar: calendars.id_of_supplier(Some(record)),
            to: PlacedAt::SameDay(same_day),
        }
    }

    /// Day on which the order counts as placed; `None` where the calendar never opens again.
    pub fn counts_from(
        &self,
        calendars: &Calendars,
        ordered_at: NaiveDateTime,
    ) -> Option<NaiveDate> {
        let calendar = calendars.get(self.calendar);
        let day = ordered_at.date();
        match self.to {
            PlacedAt::Desk(cutoff) => {
                let is_after = cutoff.is_some_and(|cutoff| ordered_at.time() > cutoff);
                if is_after && calendar.is_working_day(day) {
                    calendar.next_working_day(day)
                } else {
                    // Nobody reads it on a day off: days count from the next working day, as after the cut-off.
                    calendar.roll_forward(day)
                }
            }
            PlacedAt::Counter { .. } => Some(self.starts(calendars, ordered_at)?.date()),
            PlacedAt::SameDay(same_day) => {
                if ordered_at.time() <= same_day.order_by {
                    calendar.roll_forward(day)
                } else {
                    calendar.next_working_day(day)
                }
            }
        }
    }

    /// Moment from which hours count.
    pub fn starts(
        &self,
        calendars: &Calendars,
        ordered_at: NaiveDateTime,
    ) -> Option<NaiveDateTime> {
        let calendar = calendars.get(self.calendar);
        match self.to {
            PlacedAt::Desk(_) => {
                let from = self.counts_from(calendars, ordered_at)?;
                let start = if from > ordered_at.date() {
                    from.and_time(NaiveTime::MIN)
                } else {
                    ordered_at
                };
                calendar.after(start, 0.0)
            }
            PlacedAt::Counter { hours, there } => {
                let start = counter_open(calendar, hours, ordered_at)?;
                let arrives = start.checked_add_signed(there)?;
                // Closed before anybody gets there: fetched when it opens again.
                let open = counter_open(calendar, hours, arrives)?;
                Some(if open > arrives { open } else { start })
            }
            PlacedAt::SameDay(same_day) => {
                let day = self.counts_from(calendars, ordered_at)?;
                Some(day.and_time(same_day.order_by).max(ordered_at))
            }
        }
    }

    /// Hours that the supplier states from the start to the goods, for goods of the same day.
    pub fn stated_h(&self, calendars: &Calendars, starts: NaiveDateTime) -> Option<f64> {
        let PlacedAt::SameDay(same_day) = self.to else {
            return None;
        };
        let there_by = starts.date().and_time(same_day.there_by);
        let seconds = calendars.receiving().seconds_between(starts, there_by);
        Some(seconds.max(0) as f64 / 3600.0)
    }

    /// A way laid out for one moment, for an order placed at another; not here yet at no moment.
    pub fn course(
        &self,
        calendars: &Calendars,
        course: Course,
        ordered_at: NaiveDateTime,
    ) -> Option<Course> {
        Some(match course {
            Course::Certain { .. } => course,
            Course::Days {
                lead,
                is_workdays,
                calendar,
                ..
            } => Course::Days {
                lead,
                is_workdays,
                calendar,
                from: self.counts_from(calendars, ordered_at)?,
                not_before: ordered_at,
                not_by: None,
            },
            Course::Hours { lead, clock, .. } => Course::Hours {
                lead,
                from: self.starts(calendars, ordered_at)?,
                clock,
            },
        })
    }
}

/// From a moment on, when a counter is next open.
fn counter_open(
    calendar: &WorkCalendar,
    hours: Option<(NaiveTime, NaiveTime)>,
    from: NaiveDateTime,
) -> Option<NaiveDateTime> {
    let Some((opens, closes)) = hours else {
        return calendar.after(from, 0.0);
    };
    let today = calendar.roll_forward(from.date())?;
    if today.and_time(closes) > from {
        Some(today.and_time(opens).max(from))
    } else {
        Some(calendar.next_working_day(today)?.and_time(opens))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::lead_time::LeadTime;
    use crate::plan::sample::{Sample, at, euros};

    fn time(text: &str) -> NaiveTime {
        NaiveTime::parse_from_str(text, "%H:%M").unwrap()
    }

    /// Monday to Friday, with 6 April 2026 (a Monday) off.
    fn sample() -> Sample {
        let mut sample = Sample::new(
            "[calendars.day]\nshifts = [{ days = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\"], from = \"07:00\", \
             until = \"15:00\" }]\nholidays = [\"2026-04-06\"]",
        );
        sample.supplier("North", |supplier| {
            supplier.order_cutoff = Some(time("11:00"));
            supplier.counter_hours = Some((time("08:00"), time("17:00")));
            supplier.same_day = Some(SameDay {
                order_by: time("10:00"),
                there_by: time("14:00"),
                cost: Some(euros(9.0)),
            });
        });
        sample
    }

    #[test]
    fn the_desk_counts_from_the_next_working_day_after_its_cut_off() {
        let sample = sample();
        let calendars = Calendars::new(&sample.shop.settings);
        let desk = Placing::at_desk(&calendars, sample.shop.suppliers.values().next());
        // Thursday 2 April 2026; Good Friday is a working day here, Easter Monday is not.
        for (ordered, counts) in [
            ("2026-04-02T10:59", "2026-04-02"),
            ("2026-04-02T11:00", "2026-04-02"),
            ("2026-04-02T11:01", "2026-04-03"),
            ("2026-04-03T12:00", "2026-04-07"),
            // On a day off nobody reads it, as after the cut-off of the day before.
            ("2026-04-04T23:00", "2026-04-07"),
            ("2026-04-06T05:00", "2026-04-07"),
        ] {
            let found = desk.counts_from(&calendars, at(ordered)).unwrap();
            assert_eq!(found.to_string(), counts, "{ordered}");
        }
        for (ordered, starts) in [
            ("2026-04-02T05:00", "2026-04-02T07:00"),
            ("2026-04-02T09:30", "2026-04-02T09:30"),
            ("2026-04-02T11:30", "2026-04-03T07:00"),
            ("2026-04-04T09:30", "2026-04-07T07:00"),
        ] {
            let found = desk.starts(&calendars, at(ordered)).unwrap();
            assert_eq!(found, at(starts), "{ordered}");
        }
        assert_eq!(desk.stated_h(&calendars, at("2026-04-02T09:30")), None);
    }

    #[test]
    fn days_and_weeks_count_from_the_day_on_which_a_closed_supplier_reads_the_order() {
        // By hand: closed from 3 to 21 August 2026, the desk reads on Monday 24 August whatever came since its last cut-off.
        // Five days later is Saturday 29, so Monday 31 August; two weeks later is Monday 7 September.
        let mut sample = Sample::new(
            "receiving_hour = \"09:00\"\n[calendars.day]\nshifts = [{ days = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\"], \
             from = \"07:00\", until = \"15:00\" }]\nholidays = [\"2026-08-03 to 2026-08-21\"]",
        );
        sample.supplier("North", |supplier| {
            supplier.order_cutoff = Some(time("14:00"));
        });
        let calendars = Calendars::new(&sample.shop.settings);
        let record = sample.shop.suppliers.values().next();
        let desk = Placing::at_desk(&calendars, record);
        for (days, there) in [(5.0, "2026-08-31T09:00"), (14.0, "2026-09-07T09:00")] {
            let course = Course::Days {
                lead: LeadTime::Fixed { amount: days },
                is_workdays: false,
                calendar: calendars.id_of_supplier(record),
                from: at("2026-07-01T00:00").date(),
                not_before: at("2026-07-01T00:00"),
                not_by: None,
            };
            for ordered in [
                "2026-07-31T15:00",
                "2026-08-04T08:00",
                "2026-08-23T20:00",
                "2026-08-24T08:00",
            ] {
                let placed = desk.course(&calendars, course, at(ordered)).unwrap();
                assert_eq!(
                    placed.quantile(&calendars, 0.5),
                    Some(at(there)),
                    "{ordered}"
                );
            }
        }
    }

    #[test]
    fn the_counter_waits_until_it_opens_and_the_same_day_has_its_hour() {
        let sample = sample();
        let calendars = Calendars::new(&sample.shop.settings);
        let record = sample.shop.suppliers.values().next().unwrap();
        let counter = Placing::at_counter(&calendars, record, 0.0);
        for (ordered, starts) in [
            ("2026-04-02T06:00", "2026-04-02T08:00"),
            ("2026-04-02T16:59", "2026-04-02T16:59"),
            ("2026-04-02T17:00", "2026-04-03T08:00"),
            ("2026-04-03T18:00", "2026-04-07T08:00"),
            ("2026-04-05T12:00", "2026-04-07T08:00"),
        ] {
            let found = counter.starts(&calendars, at(ordered)).unwrap();
            assert_eq!(found, at(starts), "{ordered}");
        }
        // An hour away: who leaves at 16:00 stands before a closed door, and fetches it when it opens again.
        let fetched = Placing::at_counter(&calendars, record, 1.0);
        for (ordered, starts) in [
            ("2026-04-02T06:00", "2026-04-02T08:00"),
            ("2026-04-02T15:59", "2026-04-02T15:59"),
            ("2026-04-02T16:00", "2026-04-03T08:00"),
            ("2026-04-03T16:30", "2026-04-07T08:00"),
        ] {
            let found = fetched.starts(&calendars, at(ordered)).unwrap();
            assert_eq!(found, at(starts), "{ordered}");
        }
        let brought = Placing::same_day(&calendars, record, record.same_day.unwrap());
        for (ordered, starts, hours) in [
            ("2026-04-02T07:00", "2026-04-02T10:00", 4.0),
            ("2026-04-02T10:00", "2026-04-02T10:00", 4.0),
            ("2026-04-02T10:01", "2026-04-03T10:00", 4.0),
            ("2026-04-05T12:00", "2026-04-07T10:00", 4.0),
        ] {
            let found = brought.starts(&calendars, at(ordered)).unwrap();
            assert_eq!(found, at(starts), "{ordered}");
            assert_eq!(brought.stated_h(&calendars, found), Some(hours));
        }
    }
}
