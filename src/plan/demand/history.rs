//! What the records say of one part: its usages with returns taken off, and the days in which it could be used.

use std::collections::BTreeMap;

use chrono::{Datelike, Duration, NaiveDate};

use super::discount::{Discount, MONTH_DAYS};
use super::exposure::{Exposure, NoExposureBecause};
use super::gamma_poisson::Counted;
use super::size::LogSizes;
use crate::place::Place;
use crate::record::UsageRecord;

/// One usage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Used {
    /// Days before today.
    pub age_days: f64,
    /// Quantity, above 0.
    pub quantity: f64,
}

/// Why a part has no exposure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unexposed {
    /// The settings do not say since when usages were recorded.
    NoRecordsFrom,
    /// No day of records, or no machine.
    Because(NoExposureBecause),
}

/// History of one part.
#[derive(Debug, Clone, PartialEq)]
pub struct History {
    /// Usages, oldest first.
    pub used: Vec<Used>,
    /// Exposure, or why there is none.
    pub exposure: Result<Exposure, Unexposed>,
    /// Usages before the records begin.
    pub before_records: usize,
    /// Usages that dated demand covers.
    pub for_planned_rebuilds: usize,
    /// Quantity above which a usage is taken for a slip and left out.
    pub left_out_above: Option<f64>,
    /// First return that exceeds what was used, with the excess.
    pub returned_too_much: Option<(Place, f64)>,
}

impl History {
    /// A history without usages.
    pub const fn new(exposure: Result<Exposure, Unexposed>) -> Self {
        Self {
            used: Vec::new(),
            exposure,
            before_records: 0,
            for_planned_rebuilds: 0,
            left_out_above: None,
            returned_too_much: None,
        }
    }

    /// Adds a usage or, below 0, a return, which takes off what was used last before it.
    pub fn add(&mut self, today: NaiveDate, date: NaiveDate, quantity: f64, place: &Place) {
        if quantity > 0.0 {
            self.used.push(Used {
                age_days: (today - date).num_days() as f64,
                quantity,
            });
            return;
        }
        let mut returned = -quantity;
        while returned > 1e-9
            && let Some(last) = self.used.last_mut()
        {
            let taken = returned.min(last.quantity);
            last.quantity -= taken;
            returned -= taken;
            if last.quantity <= 1e-9 {
                self.used.pop();
            }
        }
        // What was used before the records or in a planned rebuild may come back too.
        let may_be_older = self.before_records + self.for_planned_rebuilds > 0;
        if returned > 1e-9 && !may_be_older && self.returned_too_much.is_none() {
            self.returned_too_much = Some((place.clone(), returned));
        }
    }

    /// What was used in each calendar year until today, returns taken off as by [`add`](Self::add); usages oldest first.
    pub fn by_year<'u>(
        today: NaiveDate,
        usages: impl IntoIterator<Item = &'u UsageRecord>,
    ) -> BTreeMap<i32, f64> {
        let mut history = Self::new(Err(Unexposed::NoRecordsFrom));
        for of in usages.into_iter().filter(|of| of.date <= today) {
            if of.quantity.is_finite() && of.quantity.abs() >= 1e-9 {
                history.add(today, of.date, of.quantity, &of.place);
            }
        }
        let mut years = BTreeMap::new();
        for used in history.used {
            let date = today - Duration::days(used.age_days as i64);
            *years.entry(date.year()).or_default() += used.quantity;
        }
        years
    }

    /// Usages and exposure as known `origin_age_days` before today, discounted by their age then.
    pub fn counted(&self, discount: Discount, origin_age_days: f64) -> Counted {
        let Ok(exposure) = &self.exposure else {
            return Counted {
                events: 0.0,
                exposure_days: 0.0,
            };
        };
        let ages = self.used.iter().map(|used| used.age_days - origin_age_days);
        Counted {
            events: ages
                .filter(|age| *age >= 0.0)
                .map(|age| discount.weight(age))
                .sum(),
            exposure_days: exposure.days(discount, origin_age_days),
        }
    }

    /// Usages and days between two ages, in full.
    pub fn counted_between(&self, from_age_days: f64, until_age_days: f64) -> Counted {
        let inside =
            |used: &&Used| used.age_days < from_age_days && used.age_days >= until_age_days;
        Counted {
            events: self.used.iter().filter(inside).count() as f64,
            exposure_days: self.exposure.as_ref().map_or(0.0, |exposure| {
                exposure.days_between(from_age_days, until_age_days)
            }),
        }
    }

    /// Logarithms of the quantities.
    pub fn log_sizes(&self) -> LogSizes {
        let mut logs = LogSizes::default();
        self.used.iter().for_each(|used| logs.add(used.quantity));
        logs
    }

    /// Quantity used.
    pub fn quantity(&self) -> f64 {
        // Adding 0 turns the -0 of an empty sum into 0.
        self.used.iter().map(|used| used.quantity).sum::<f64>() + 0.0
    }

    /// Quantities by month, oldest first, in whole months back from today.
    pub fn by_month(&self) -> Vec<f64> {
        let begins = self
            .exposure
            .as_ref()
            .map_or(0.0, Exposure::begins_age_days);
        let months = (begins / MONTH_DAYS).floor() as usize;
        let mut series = vec![0.0; months];
        for used in &self.used {
            let back = (used.age_days / MONTH_DAYS).floor() as usize;
            if back < months {
                series[months - 1 - back] += used.quantity;
            }
        }
        series
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::{Sample, day};

    /// By hand: what comes back takes off what was used last before it, in whatever year that was.
    #[test]
    fn years_have_what_is_left_of_them_and_no_return_goes_below_nothing() {
        let of = |usages: &[(&str, f64)]| {
            let mut sample = Sample::new("");
            let part = sample.part("A");
            for (date, quantity) in usages {
                sample.usage(part, date, *quantity);
            }
            let records = sample.shop.usages.iter().map(|of| &of.record);
            let years = History::by_year(day("2026-03-04T10:30"), records);
            years
                .into_iter()
                .map(|(year, of)| (year, of.round() as i64))
                .collect::<Vec<_>>()
        };
        // The first return has nothing to take off.
        let back = [
            ("2025-01-08", -4.0),
            ("2025-02-08", 4.0),
            ("2025-03-08", -1.0),
        ];
        assert_eq!(of(&back), [(2025, 3)]);
        // Two of the year before come back, and nothing is left of this year's one.
        let over = [
            ("2024-12-30", 5.0),
            ("2025-01-02", 1.0),
            ("2025-01-09", -3.0),
        ];
        assert_eq!(of(&over), [(2024, 3)]);
        // A day to come is no usage; the last day of a year is of that year.
        let ahead = [("2024-12-31", 2.0), ("2026-03-05", 9.0)];
        assert_eq!(of(&ahead), [(2024, 2)]);
    }
}
