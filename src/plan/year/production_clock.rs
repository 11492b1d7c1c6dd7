//! Production hours between two hours of the year, looked up.

use chrono::{Duration, NaiveDateTime};

use crate::plan::calendar::WorkCalendar;

/// Production hours from the start up to each hour.
#[derive(Debug, Clone)]
pub struct ProductionClock {
    /// One entry an hour; empty where every hour counts.
    reached_h: Vec<f64>,
}

impl ProductionClock {
    /// Every hour counts.
    pub const fn always() -> Self {
        Self {
            reached_h: Vec::new(),
        }
    }

    /// Hours of a calendar from a moment on, for so many hours.
    pub fn new(calendar: &WorkCalendar, from: NaiveDateTime, hours: usize) -> Self {
        let mut reached = 0.0;
        let mut reached_h = vec![0.0];
        for hour in 0..hours as i64 {
            let at = from + Duration::hours(hour);
            reached += calendar.hours_between(at, at + Duration::hours(1));
            reached_h.push(reached);
        }
        Self { reached_h }
    }

    /// Production hours between two hours; between full hours in proportion.
    pub fn between(&self, from_h: f64, until_h: f64) -> f64 {
        if self.reached_h.is_empty() {
            return until_h - from_h;
        }
        self.at(until_h) - self.at(from_h)
    }

    fn at(&self, hour: f64) -> f64 {
        let last = self.reached_h.len() - 1;
        let before = (hour.max(0.0) as usize).min(last);
        let (low, high) = (
            self.reached_h[before],
            self.reached_h[(before + 1).min(last)],
        );
        (high - low).mul_add((hour - before as f64).clamp(0.0, 1.0), low)
    }
}
