//! Lives in running hours, where the machine's hours are known and each usage can be told to be one position's.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::exposure::dates_contradict;
use super::weibull::{Weibull, WeibullFit, failures_among};
use crate::catalogue::{NameKey, PartId, Shop};
use crate::record::{MachineRecord, UsageReason};

/// Days of a year.
const YEAR_DAYS: f64 = 365.0;

/// Lives of one part over all positions that can be told apart.
#[derive(Debug, Clone, PartialEq)]
pub struct PartLife {
    /// Hours from fitting to failure.
    pub failures_h: Vec<f64>,
    /// Hours of parts changed before they failed, or still running.
    pub running_h: Vec<f64>,
    /// Positions in service: age today in hours, and running hours a day.
    pub positions: Vec<(f64, f64)>,
    /// Fit; `None` with fewer than two different failures. Nothing is stocked by a fit of fewer than five.
    pub fit: Option<WeibullFit>,
}

impl PartLife {
    /// Probabilities of 0, 1, ... failures of the parts now in service within some days, each failing once at most.
    ///
    /// `None` with fewer failures than a fit may be stocked by.
    pub fn failures_within(&self, days: f64) -> Option<Vec<f64>> {
        let fit = self.fit.filter(WeibullFit::is_enough)?;
        let fails: Vec<f64> = self
            .positions
            .iter()
            .map(|(age_h, per_day)| fit.life.fails_within(*age_h, per_day * days))
            .collect();
        Some(failures_among(&fails))
    }
}

/// Lives of all parts that have any.
///
/// A position is a kit line on a single machine with known running hours whose every usage there took the line's whole
/// quantity and says why. A usage for a planned change or a rebuild ends a life without a failure. A life that began
/// before the records is left out.
pub fn lives(shop: &Shop) -> BTreeMap<PartId, PartLife> {
    let mut found: BTreeMap<PartId, PartLife> = BTreeMap::new();
    for kit in &shop.kits {
        let key = kit.machine.as_ref().map(|name| NameKey::new(name));
        let Some(machine) = key.and_then(|key| shop.machines.get(key.as_str())) else {
            continue;
        };
        for line in &kit.lines {
            let Some(part) = line.part else { continue };
            let lines_of_part = kit.lines.iter().filter(|other| other.part == Some(part));
            if lines_of_part.count() == 1
                && let Some(position) = position(shop, machine, part, line.record.quantity)
            {
                let life = found.entry(part).or_insert_with(|| PartLife {
                    failures_h: Vec::new(),
                    running_h: Vec::new(),
                    positions: Vec::new(),
                    fit: None,
                });
                life.failures_h.extend(position.failures_h);
                life.running_h.extend(position.running_h);
                life.positions.extend(position.positions);
            }
        }
    }
    for life in found.values_mut() {
        life.fit = Weibull::fit(&life.failures_h, &life.running_h);
    }
    found
}

/// Lives at one position; `None` where they cannot be told.
fn position(shop: &Shop, machine: &MachineRecord, part: PartId, quantity: f64) -> Option<PartLife> {
    let today = shop.as_of.date();
    let records_from = shop.settings.records_from?;
    let hours_per_day = machine.running_hours.filter(|hours| *hours > 0.0)? / YEAR_DAYS;
    let is_single = machine
        .installed
        .is_some_and(|count| (count - 1.0).abs() < 1e-9);
    let is_gone = machine.in_use_until.is_some_and(|until| until < today);
    if !is_single || is_gone || dates_contradict(machine) {
        return None;
    }
    let name = NameKey::new(&machine.machine);
    let mut fitted: Option<NaiveDate> = machine.in_use_from.filter(|from| *from >= records_from);
    let mut life = PartLife {
        failures_h: Vec::new(),
        running_h: Vec::new(),
        positions: Vec::new(),
        fit: None,
    };
    let hours =
        |from: NaiveDate, until: NaiveDate| (until - from).num_days() as f64 * hours_per_day;
    for usage in shop.usages.iter().filter(|usage| usage.part == part) {
        let record = &usage.record;
        let on = record.machine.as_ref().map(|machine| NameKey::new(machine));
        if on.is_none_or(|on| on != name) || record.date > today || record.date < records_from {
            continue;
        }
        if (record.quantity - quantity).abs() > 1e-9 {
            return None;
        }
        if let Some(from) = fitted {
            let lives = match record.reason? {
                UsageReason::Failure => &mut life.failures_h,
                UsageReason::Planned | UsageReason::Rebuild => &mut life.running_h,
            };
            lives.push(hours(from, record.date));
        }
        fitted = Some(record.date);
    }
    let age = hours(fitted?, today);
    life.running_h.push(age);
    life.positions.push((age, hours_per_day));
    Some(life)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::Sample;

    /// A position on a single machine of 3,650 hours a year, used for these reasons on these days.
    fn sample(usages: &[(&str, f64, Option<UsageReason>)], installed: f64) -> (Sample, PartId) {
        let mut sample = Sample::new("records_from = \"2022-03-04\"");
        let part = sample.part("A");
        sample.machine("M1", None, None);
        for machine in sample.shop.machines.values_mut() {
            machine.running_hours = Some(3650.0);
            machine.installed = Some(installed);
        }
        sample.kit("K");
        sample.line(Some(part), 2.0, &[], |_| {});
        for (date, quantity, reason) in usages {
            sample.usage(part, date, *quantity);
            let usage = sample.shop.usages.last_mut().unwrap();
            usage.record.machine = Some("M1".to_owned());
            usage.record.reason = *reason;
        }
        (sample, part)
    }

    #[test]
    fn lives_run_from_change_to_change() {
        let (failure, planned) = (Some(UsageReason::Failure), Some(UsageReason::Planned));
        let usages = [
            ("2023-03-04", 2.0, failure),
            ("2024-03-03", 2.0, failure),
            ("2025-03-03", 2.0, planned),
        ];
        let (sample, part) = sample(&usages, 1.0);
        let life = &sample.plan().lives[&part];
        // The first life began before the records; then 365 days, 365 days unfailed, 366 days running, 10 h a day.
        assert_eq!(life.failures_h, [3650.0]);
        assert_eq!(life.running_h, [3650.0, 3660.0]);
        assert_eq!(life.fit, None);
        assert_eq!(life.failures_within(100.0), None);
    }

    #[test]
    fn lives_that_cannot_be_told_are_left_out() {
        let failure = Some(UsageReason::Failure);
        for (usages, installed) in [
            (vec![("2023-03-04", 1.0, failure)], 1.0),
            (
                vec![("2023-03-04", 2.0, failure), ("2024-03-03", 2.0, None)],
                1.0,
            ),
            (vec![("2023-03-04", 2.0, failure)], 6.0),
        ] {
            let (sample, _) = sample(&usages, installed);
            assert!(sample.plan().lives.is_empty(), "{usages:?}");
        }
    }

    #[test]
    fn five_failures_foretell_the_next() {
        let dates = [
            "2023-01-04",
            "2023-05-04",
            "2023-11-04",
            "2024-02-04",
            "2024-10-04",
            "2025-03-04",
        ];
        let usages: Vec<_> = dates
            .map(|date| (date, 2.0, Some(UsageReason::Failure)))
            .into();
        let (sample, part) = sample(&usages, 1.0);
        let life = &sample.plan().lives[&part];
        let fit = life.fit.unwrap();
        assert_eq!((fit.failures, fit.running), (5, 1));
        let within = life.failures_within(100.0).unwrap();
        let (age, per_day) = life.positions[0];
        assert!((within[1] - fit.life.fails_within(age, per_day * 100.0)).abs() < 1e-12);
    }
}
