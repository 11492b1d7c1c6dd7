//! The way of a lead time through the calendars, to a moment.

use chrono::{Days, NaiveDate, NaiveDateTime};

use super::LATE_SHARE;
use super::distribution::ArrivalDistribution;
use super::spread::LeadTime;
use crate::plan::calendar::{CalendarId, Calendars};
use crate::plan::tolerance::SHARE_TOLERANCE;

/// Share of cases that is left out at the late end of a distribution.
const LEFT_OUT_SHARE: f64 = 1e-5;

/// Share up to which a distribution is laid out step by step; beyond it steps grow.
const FINE_SHARE: f64 = 0.98;

/// Most equal steps of a distribution.
const MOST_STEPS: f64 = 256.0;

/// Growth of the steps beyond [`FINE_SHARE`].
const GROWTH: f64 = 1.2;

/// Days, working days or hours that a distribution ends at.
const MOST_DAYS: f64 = 2_000.0;
const MOST_HOURS: f64 = 10_000.0;

/// Days that stand for all longer ones in a mean that needs a bound: as far ahead as kits look.
const LONGEST_DAYS: f64 = 365.0;

/// Working days in a day of the calendar.
const WORKDAYS_A_DAY: f64 = 5.0 / 7.0;

/// Least step of hours.
const QUARTER_HOUR: f64 = 0.25;

/// How the moment of an arrival comes about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Course {
    /// This moment for sure.
    Certain {
        /// The moment.
        moment: NaiveDateTime,
    },
    /// So many days of a supplier, received at the next receiving hour.
    Days {
        /// Days or working days.
        lead: LeadTime,
        /// True for working days of `calendar`, false for calendar days that end on one of them.
        is_workdays: bool,
        /// Calendar of the supplier.
        calendar: CalendarId,
        /// Day that is day 0.
        from: NaiveDate,
        /// Nothing is received before this moment.
        not_before: NaiveDateTime,
        /// Moment at which it was not here yet, of an order that is open.
        not_by: Option<NaiveDateTime>,
    },
    /// So many hours.
    Hours {
        /// Hours.
        lead: LeadTime,
        /// Moment they are counted from.
        from: NaiveDateTime,
        /// Which hours count.
        clock: HourClock,
    },
}

/// Which hours count, and what happens at their end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HourClock {
    /// Every hour; the goods are there then.
    Elapsed,
    /// Every hour; the goods are there when receiving is open next.
    Received,
    /// Hours of the maintenance shift.
    Maintenance,
    /// Hours in which a supplier works, received at the next receiving hour.
    Supplier(CalendarId),
}

impl Course {
    /// Moment by which it has arrived in this share of cases; `None` where the calendars have no such day.
    pub fn quantile(&self, calendars: &Calendars, share: f64) -> Option<NaiveDateTime> {
        match self {
            Self::Certain { moment } => Some(*moment),
            Self::Days { lead, .. } => {
                let gone = self.gone(calendars)?;
                let tail = (1.0 - share) * gone.open;
                let day = to_whole_days(lead.exceeded_by(tail)).max(gone.next_day);
                self.at(calendars, day)
            }
            Self::Hours { lead, .. } => self.at(calendars, lead.quantile(share).min(MOST_HOURS)),
        }
    }

    /// Moment after so many days or hours.
    pub fn at(&self, calendars: &Calendars, amount: f64) -> Option<NaiveDateTime> {
        match *self {
            Self::Certain { moment } => Some(moment),
            Self::Days {
                is_workdays,
                calendar,
                from,
                not_before,
                ..
            } => {
                let calendar = calendars.get(calendar);
                let days = amount.clamp(0.0, 36_500.0) as u32;
                let date = if is_workdays {
                    calendar.add_workdays(from, days)?
                } else {
                    calendar.roll_forward(from.checked_add_days(Days::new(u64::from(days)))?)?
                };
                calendars.received(date, not_before)
            }
            Self::Hours { from, clock, .. } => {
                let elapsed = |hours: f64| {
                    let seconds = (hours.max(0.0) * 3600.0).round() as i64;
                    calendars.receiving().later(from, seconds)
                };
                match clock {
                    HourClock::Elapsed => Some(elapsed(amount)),
                    HourClock::Received => calendars.receiving().after(elapsed(amount), 0.0),
                    HourClock::Maintenance => calendars.maintenance().after(from, amount),
                    HourClock::Supplier(id) => {
                        let done = calendars.get(id).after(from, amount)?;
                        calendars.received(done.date(), done)
                    }
                }
            }
        }
    }

    /// The same way with a lead time `factor` times as long; what is certain stays.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        match self {
            Self::Certain { .. } => self,
            Self::Days {
                lead,
                is_workdays,
                calendar,
                from,
                not_before,
                not_by,
            } => Self::Days {
                lead: lead.times(factor),
                is_workdays,
                calendar,
                from,
                not_before,
                not_by,
            },
            Self::Hours { lead, from, clock } => Self::Hours {
                lead: lead.times(factor),
                from,
                clock,
            },
        }
    }

    /// Its lead time; `None` for what is certain.
    pub const fn lead(&self) -> Option<LeadTime> {
        match self {
            Self::Certain { .. } => None,
            Self::Days { lead, .. } | Self::Hours { lead, .. } => Some(*lead),
        }
    }

    /// An amount as this way counts it: whole days, hours as they are, no more than what is looked at.
    pub fn counted(&self, amount: f64) -> f64 {
        match self {
            Self::Certain { .. } => 0.0,
            Self::Days { .. } => to_whole_days(amount),
            Self::Hours { .. } => amount.min(MOST_HOURS),
        }
    }

    /// Mean days on the clock from `since` until the arrival.
    ///
    /// The mean lead time is taken through the calendar between the two whole days around it.
    pub fn mean_days(&self, calendars: &Calendars, since: NaiveDateTime) -> Option<f64> {
        let days = |moment: NaiveDateTime| {
            calendars.receiving().seconds_between(since, moment).max(0) as f64 / 86_400.0
        };
        match self {
            Self::Certain { moment } => Some(days(*moment)),
            Self::Hours { lead, .. } => {
                let mean = lead.mean(24.0 * LONGEST_DAYS).min(MOST_HOURS);
                Some(days(self.at(calendars, mean)?))
            }
            Self::Days {
                lead, is_workdays, ..
            } => {
                let gone = self.gone(calendars)?;
                let longest = LONGEST_DAYS * if *is_workdays { WORKDAYS_A_DAY } else { 1.0 };
                let mean = gone.amount + lead.mean_remaining(gone.amount, longest)?;
                let mean = mean.min(36_000.0);
                let (below, above) = (
                    self.at(calendars, mean.floor())?,
                    self.at(calendars, mean.ceil())?,
                );
                let share = mean - mean.floor();
                Some(days(below) * (1.0 - share) + days(above) * share)
            }
        }
    }

    /// The moments at which it may arrive, with their probabilities; `None` where the calendars have no such days.
    ///
    /// Days are laid out one by one and hours by the quarter hour or in 256 equal steps, and from the share of 98 % on
    /// in growing ones; each step is taken to its end. The middle and late moments are always among them.
    pub fn distribution(&self, calendars: &Calendars) -> Option<ArrivalDistribution> {
        let (lead, amounts, open, half) = match self {
            Self::Certain { moment } => return Some(ArrivalDistribution::certain(*moment)),
            Self::Days { lead, .. } => {
                let gone = self.gone(calendars)?;
                let reach = |share: f64| {
                    to_whole_days(lead.exceeded_by((1.0 - share) * gone.open))
                        .min(MOST_DAYS)
                        .max(gone.next_day)
                };
                (lead, steps(gone.next_day, 1.0, reach), gone.open, 0.5)
            }
            Self::Hours { lead, .. } => {
                let reach = |share: f64| lead.quantile(share).min(MOST_HOURS);
                (lead, steps(QUARTER_HOUR, QUARTER_HOUR, reach), 1.0, 0.0)
            }
        };
        let mut moments: Vec<(NaiveDateTime, f64)> = Vec::with_capacity(amounts.len());
        for amount in amounts {
            let share = (1.0 - lead.exceeds(amount + half) / open).max(0.0);
            let moment = self.at(calendars, amount)?;
            match moments.last_mut() {
                Some(last) if last.0 >= moment => last.1 = last.1.max(share),
                Some(last) if share <= last.1 => {}
                _ if share > SHARE_TOLERANCE => moments.push((moment, share)),
                _ => {}
            }
        }
        Some(ArrivalDistribution::of(moments))
    }

    /// How much of the lead time is over for an order that is open, and the first day it may still come; `None` where
    /// nothing ever takes as long.
    fn gone(&self, calendars: &Calendars) -> Option<Gone> {
        let Self::Days {
            is_workdays,
            calendar,
            from,
            not_by: Some(not_by),
            lead,
            ..
        } = *self
        else {
            return Some(Gone {
                amount: 0.0,
                next_day: 0.0,
                open: 1.0,
            });
        };
        let days = if is_workdays {
            f64::from(
                calendars
                    .get(calendar)
                    .workdays_between(from, not_by.date())?,
            )
        } else {
            (not_by.date() - from).num_days().max(0) as f64
        };
        // The days around today are tried, because the receiving hour may be still to come or a day off roll on.
        let mut next_day = (days - 10.0).max(0.0);
        while self.at(calendars, next_day)? <= not_by {
            next_day += 1.0;
        }
        let amount = (next_day - 0.5).max(0.0);
        let open = lead.exceeds(amount);
        (open > LEFT_OUT_SHARE).then_some(Gone {
            amount,
            next_day,
            open,
        })
    }
}

/// What is over of the lead time of an open order.
struct Gone {
    /// Longest lead time that is ruled out.
    amount: f64,
    /// First whole day on which it may still come.
    next_day: f64,
    /// Probability that an order is not here by now.
    open: f64,
}

/// A lead time between n - 1/2 and n + 1/2 is one of n whole days, as recorded receipts are.
fn to_whole_days(days: f64) -> f64 {
    (days - 0.5 - 1e-6).ceil().max(0.0)
}

/// Amounts from `first` on: equal steps up to the fine share, then growing ones, the named shares among them.
fn steps(first: f64, least: f64, reach: impl Fn(f64) -> f64) -> Vec<f64> {
    let fine = reach(FINE_SHARE);
    let end = reach(1.0 - LEFT_OUT_SHARE).max(fine);
    let mut step = least;
    while (fine - first) / step > MOST_STEPS {
        step *= 2.0;
    }
    let mut amounts = vec![reach(0.5), reach(0.8), reach(LATE_SHARE), end];
    let mut at = first;
    while at < end {
        amounts.push(at);
        if at >= fine {
            step = (step * GROWTH / least).ceil() * least;
        }
        at += step;
    }
    amounts.sort_by(f64::total_cmp);
    amounts.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    amounts
}
