//! When an order placed at any hour of the year arrives.

use std::collections::BTreeMap;

use chrono::{Duration, NaiveDateTime};

use crate::plan::calendar::Calendars;
use crate::plan::lead_time::{Course, LeadTime, Placing};

/// Equally likely amounts that stand for a distribution; the longest is exceeded in one case of a thousand.
const AMOUNTS: usize = 512;

/// How long orders of one part take.
#[derive(Debug, Clone)]
pub enum Receipts {
    /// Equally likely hours on the clock.
    Elapsed(Vec<f64>),
    /// A way through the calendars.
    Dated(Way),
    /// Nobody sells it.
    Never,
}

/// A way through the calendars, with equally likely days or hours.
#[derive(Debug, Clone)]
pub struct Way {
    course: Course,
    placing: Placing,
    amounts: Vec<f64>,
    /// Hours that the supplier states, where the amounts were made from them; they differ from order to order.
    stated_h: Option<f64>,
}

impl Receipts {
    /// Equally likely hours of a lead time in hours on the clock.
    pub fn elapsed(lead: LeadTime) -> Self {
        Self::Elapsed(Amounts::default().of(lead))
    }

    /// Hour at which an order placed at `at_h` is on the shelf; `None` where the calendars have no such day.
    pub fn arrival_h(
        &self,
        calendars: &Calendars,
        as_of: NaiveDateTime,
        at_h: f64,
        share: f64,
    ) -> Option<f64> {
        let drawn = |amounts: &[f64]| amounts[(share * amounts.len() as f64) as usize];
        match self {
            Self::Never => None,
            Self::Elapsed(amounts) => Some(at_h + drawn(amounts)),
            Self::Dated(way) => {
                let moment = as_of + Duration::seconds((at_h * 3600.0) as i64);
                let at = way.arrival(calendars, moment, drawn(&way.amounts))?;
                Some(((at.max(moment) - as_of).num_seconds() as f64 / 3600.0).max(at_h))
            }
        }
    }
}

impl Way {
    /// Moment at which an order placed at a moment is on the shelf.
    fn arrival(
        &self,
        calendars: &Calendars,
        ordered_at: NaiveDateTime,
        amount: f64,
    ) -> Option<NaiveDateTime> {
        let course = self.placing.course(calendars, self.course, ordered_at)?;
        let Some(of_table) = self.stated_h else {
            return course.at(calendars, amount);
        };
        let starts = self.placing.starts(calendars, ordered_at)?;
        let hours = self.placing.stated_h(calendars, starts)?;
        course.at(calendars, amount * hours / of_table)
    }
}

/// Equally likely amounts of lead times, worked out once for each form.
#[derive(Debug, Default)]
pub struct Amounts {
    known: BTreeMap<(u8, u64, u64), Vec<f64>>,
}

impl Amounts {
    /// Receipts of a way, for orders that get to the supplier by `placing`.
    pub fn receipts(
        &mut self,
        calendars: &Calendars,
        course: Course,
        placing: Placing,
    ) -> Receipts {
        let amounts = course.lead().map_or_else(
            || vec![0.0],
            |lead| {
                let amounts = self.of(lead);
                amounts.into_iter().map(|a| course.counted(a)).collect()
            },
        );
        let starts = match course {
            Course::Hours { from, .. } => Some(from),
            _ => None,
        };
        let stated_h = starts.and_then(|starts| placing.stated_h(calendars, starts));
        Receipts::Dated(Way {
            course,
            placing,
            amounts,
            stated_h: stated_h.filter(|hours| *hours > 0.0),
        })
    }

    /// Equally likely amounts of a lead time.
    fn of(&mut self, lead: LeadTime) -> Vec<f64> {
        // Location and scale are taken out, so that all lead times of one form share a table.
        let (key, factor, unit) = match lead {
            LeadTime::Fixed { amount } => return vec![amount],
            LeadTime::Lognormal { log_mean, log_sd } => {
                let (log, factor) = (log_sd.to_bits(), log_mean.exp());
                let log_mean = 0.0;
                (
                    (0, log, 0),
                    factor,
                    LeadTime::Lognormal { log_mean, log_sd },
                )
            }
            LeadTime::LogStudent {
                location,
                scale,
                freedom,
            } => (
                (1, scale.to_bits(), freedom.to_bits()),
                location.exp(),
                LeadTime::LogStudent {
                    location: 0.0,
                    scale,
                    freedom,
                },
            ),
            LeadTime::Gamma { shape, scale } => {
                let unit = LeadTime::Gamma { shape, scale: 1.0 };
                ((2, shape.to_bits(), 0), scale, unit)
            }
        };
        let table = self.known.entry(key).or_insert_with(|| {
            let share = |at: usize| (at as f64 + 0.5) / AMOUNTS as f64;
            (0..AMOUNTS).map(|at| unit.quantile(share(at))).collect()
        });
        table.iter().map(|amount| amount * factor).collect()
    }
}
