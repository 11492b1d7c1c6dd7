//! Days in which a part could be used, as many as today's machines would have seen.

use chrono::NaiveDate;

use super::discount::Discount;
use crate::record::MachineRecord;

/// A time with some machines in service.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Span {
    /// Days before today at its start.
    from_age_days: f64,
    /// Days before today at its end.
    until_age_days: f64,
    /// Machines in it over machines of today.
    weight: f64,
}

/// Days of exposure of one part.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Exposure {
    spans: Vec<Span>,
}

/// Why there is no exposure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoExposureBecause {
    /// Records or machines begin today or later.
    NotBegun,
    /// Every machine has left service.
    Retired,
}

impl Exposure {
    /// Exposure since `records_from` of a part that these machines use; without machines, of the whole shop.
    ///
    /// A machine counts in the days in which it was in service and recorded. The sum over machines is divided by the
    /// machines of today, so that usages over exposure are the rate of today's machines.
    pub fn new(
        records_from: NaiveDate,
        today: NaiveDate,
        machines: &[&MachineRecord],
    ) -> Result<Self, NoExposureBecause> {
        let age = |date: NaiveDate| (today - date).num_days() as f64;
        let whole = age(records_from);
        if whole <= 0.0 {
            return Err(NoExposureBecause::NotBegun);
        }
        if machines.is_empty() {
            return Ok(Self {
                spans: vec![Span {
                    from_age_days: whole,
                    until_age_days: 0.0,
                    weight: 1.0,
                }],
            });
        }
        let served: Vec<Served> = machines.iter().map(|machine| Served::of(machine)).collect();
        let now: f64 = served
            .iter()
            .filter(|machine| machine.is_in_service(today))
            .map(|machine| machine.installed)
            .sum();
        if now <= 0.0 {
            let is_over = served
                .iter()
                .all(|m| m.until.is_some_and(|until| until < today));
            return Err(if is_over {
                NoExposureBecause::Retired
            } else {
                NoExposureBecause::NotBegun
            });
        }
        let spans: Vec<Span> = served
            .iter()
            .map(|machine| Span {
                from_age_days: machine.from.map_or(whole, |from| age(from).min(whole)),
                until_age_days: machine.until.map_or(0.0, |until| age(until).max(0.0)),
                weight: machine.installed / now,
            })
            .filter(|span| span.from_age_days > span.until_age_days)
            .collect();
        if spans.is_empty() {
            return Err(NoExposureBecause::NotBegun);
        }
        Ok(Self { spans })
    }

    /// Days up to `origin_age_days` before today, each weighted by its age at that moment.
    pub fn days(&self, discount: Discount, origin_age_days: f64) -> f64 {
        self.spans
            .iter()
            .filter(|span| span.from_age_days > origin_age_days)
            .map(|span| {
                let until = span.until_age_days.max(origin_age_days);
                let (old, new) = (
                    span.from_age_days - origin_age_days,
                    until - origin_age_days,
                );
                span.weight * discount.days_between(old, new)
            })
            .sum()
    }

    /// Days since `from_age_days` before today until `until_age_days` before today, each counted in full.
    pub fn days_between(&self, from_age_days: f64, until_age_days: f64) -> f64 {
        let all = Discount::NONE;
        self.days(all, until_age_days) - self.days(all, from_age_days)
    }

    /// All days, each counted in full.
    pub fn all_days(&self) -> f64 {
        self.days(Discount::NONE, 0.0)
    }

    /// Days before today at which it begins.
    pub fn begins_age_days(&self) -> f64 {
        self.spans
            .iter()
            .map(|span| span.from_age_days)
            .fold(0.0, f64::max)
    }
}

/// When a machine was in service.
struct Served {
    from: Option<NaiveDate>,
    until: Option<NaiveDate>,
    installed: f64,
}

impl Served {
    /// Dates that contradict each other say nothing.
    fn of(machine: &MachineRecord) -> Self {
        let (from, until) = if dates_contradict(machine) {
            (None, None)
        } else {
            (machine.in_use_from, machine.in_use_until)
        };
        Self {
            from,
            until,
            installed: machine.installed.unwrap_or(1.0),
        }
    }

    fn is_in_service(&self, today: NaiveDate) -> bool {
        self.from.is_none_or(|from| from <= today) && self.until.is_none_or(|until| until >= today)
    }
}

/// Last day in service of the last of these machines; `None` without machines and where one has no end that can be told.
pub fn last_day_in_service(machines: &[&MachineRecord]) -> Option<NaiveDate> {
    let ends: Option<Vec<NaiveDate>> = machines.iter().map(|m| Served::of(m).until).collect();
    ends?.into_iter().max()
}

/// True for a machine that left service before it came.
pub fn dates_contradict(machine: &MachineRecord) -> bool {
    matches!((machine.in_use_from, machine.in_use_until), (Some(from), Some(until)) if until < from)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::{Sample, day};

    fn machine(from: Option<&str>, until: Option<&str>, installed: f64) -> MachineRecord {
        let mut sample = Sample::new("");
        sample.machine("M", None, None);
        let mut machine = sample.shop.machines.into_values().next().unwrap();
        machine.in_use_from = from.map(day);
        machine.in_use_until = until.map(day);
        machine.installed = Some(installed);
        machine
    }

    fn days(machines: &[MachineRecord]) -> Result<f64, NoExposureBecause> {
        let machines: Vec<&MachineRecord> = machines.iter().collect();
        Exposure::new(day("2022-03-05"), day("2026-03-04"), &machines).map(|e| e.all_days())
    }

    #[test]
    fn machines_count_while_they_are_in_service() {
        // 1,460 days of records; one machine for all of them and one for 365 days: 1,825 machine days, two today.
        let old = || machine(None, None, 1.0);
        assert_eq!(days(&[old()]), Ok(1460.0));
        assert_eq!(
            days(&[old(), machine(Some("2025-03-04"), None, 1.0)]),
            Ok(1825.0 / 2.0)
        );
        // A retired one of two: 365 of its days count for the one that is left.
        assert_eq!(
            days(&[old(), machine(None, Some("2023-03-05"), 1.0)]),
            Ok(1825.0)
        );
        assert_eq!(days(&[machine(None, None, 6.0)]), Ok(1460.0));
    }

    #[test]
    fn no_machine_today_means_no_rate() {
        assert_eq!(
            days(&[machine(None, Some("2025-01-01"), 1.0)]),
            Err(NoExposureBecause::Retired)
        );
        assert_eq!(
            days(&[machine(Some("2026-09-01"), None, 1.0)]),
            Err(NoExposureBecause::NotBegun)
        );
    }

    #[test]
    fn the_last_machine_says_until_when_a_part_is_used() {
        let until = |dates: &[Option<&str>]| {
            let machines: Vec<_> = dates.iter().map(|date| machine(None, *date, 1.0)).collect();
            last_day_in_service(&machines.iter().collect::<Vec<_>>())
        };
        assert_eq!(
            until(&[Some("2027-01-01"), Some("2028-01-01")]),
            Some(day("2028-01-01"))
        );
        assert_eq!(until(&[Some("2027-01-01"), None]), None);
        assert_eq!(until(&[]), None);
        // A machine that left before it came says nothing of its end.
        let backwards = machine(Some("2026-02-01"), Some("2026-01-31"), 1.0);
        assert_eq!(last_day_in_service(&[&backwards]), None);
    }
}
