//! Lives in running hours, where the machine's hours are known and each usage can be told to be one position's.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::exposure::dates_contradict;
use super::weibull::{Weibull, WeibullFit};
use crate::catalogue::{Kit, NameKey, PartId, Shop, UsageOf};
use crate::plan::year_length::YEAR_DAYS;
use crate::record::{MachineRecord, UsageReason};

/// A position in service.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FittedPosition {
    /// Age of what is fitted, running hours.
    pub age_h: f64,
    /// Running hours a day.
    pub hours_per_day: f64,
    /// Quantity that a change takes.
    pub pieces: f64,
}

/// Lives of one part over all positions that can be told apart.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct PartLife {
    /// Hours from fitting to failure.
    pub failures_h: Vec<f64>,
    /// Hours of parts changed before they failed, or still running.
    pub running_h: Vec<f64>,
    /// Positions in service.
    pub positions: Vec<FittedPosition>,
    /// Usages of the records at these positions.
    pub changes: usize,
    /// How many of them were failures, those included whose life began before the records.
    pub failed: usize,
    /// Fit; `None` with fewer than two different failures. Nothing is stocked by a fit of fewer than five.
    pub fit: Option<WeibullFit>,
}

impl PartLife {
    fn add(&mut self, position: Self) {
        self.failures_h.extend(position.failures_h);
        self.running_h.extend(position.running_h);
        self.positions.extend(position.positions);
        self.changes += position.changes;
        self.failed += position.failed;
    }
}

/// Lives of all parts that have any.
///
/// A position is a kit line on a single machine with known running hours whose every usage there took the line's whole
/// quantity and says why. A usage for a planned change or a rebuild ends a life without a failure. A life that began
/// before the records is left out.
pub fn lives(shop: &Shop) -> BTreeMap<PartId, PartLife> {
    let usages = usages_of_told(shop);
    let mut found: BTreeMap<PartId, PartLife> = BTreeMap::new();
    for kit in &shop.kits {
        let Some(machine) = told_machine(shop, kit) else {
            continue;
        };
        for line in &kit.lines {
            let Some(part) = line.part else { continue };
            let lines_of_part = kit.lines.iter().filter(|other| other.part == Some(part));
            let used = usages.get(&part).map_or(&[][..], Vec::as_slice);
            if lines_of_part.count() == 1
                && let Some(quantity) = line.record.quantity
                && let Some(position) = position(shop, machine, used, quantity)
            {
                found.entry(part).or_default().add(position);
            }
        }
    }
    for life in found.values_mut() {
        life.fit = Weibull::fit(&life.failures_h, &life.running_h);
    }
    found
}

/// The kit's machine, where there is one of it only, in service, with known running hours.
fn told_machine<'a>(shop: &'a Shop, kit: &Kit) -> Option<&'a MachineRecord> {
    let key = NameKey::new(kit.machine.as_ref()?);
    let machine = shop.machines.get(key.as_str())?;
    let is_single = machine
        .installed
        .is_some_and(|count| (count - 1.0).abs() < 1e-9);
    let today = shop.as_of.date();
    let is_gone = machine.in_use_until.is_some_and(|until| until < today);
    let is_told = machine.running_hours.is_some_and(|hours| hours > 0.0)
        && is_single
        && !is_gone
        && !dates_contradict(machine);
    is_told.then_some(machine)
}

/// Usages of the parts of such kits, oldest first.
fn usages_of_told(shop: &Shop) -> BTreeMap<PartId, Vec<&UsageOf>> {
    let told = shop
        .kits
        .iter()
        .filter(|kit| told_machine(shop, kit).is_some());
    let mut usages: BTreeMap<PartId, Vec<&UsageOf>> = told
        .flat_map(|kit| kit.lines.iter().filter_map(|line| line.part))
        .map(|part| (part, Vec::new()))
        .collect();
    if usages.is_empty() {
        return usages;
    }
    for usage in &shop.usages {
        if let Some(list) = usages.get_mut(&usage.part) {
            list.push(usage);
        }
    }
    for list in usages.values_mut() {
        list.sort_by_key(|usage| usage.record.date);
    }
    usages
}

/// Lives at one position; `None` where they cannot be told.
fn position(
    shop: &Shop,
    machine: &MachineRecord,
    used: &[&UsageOf],
    quantity: f64,
) -> Option<PartLife> {
    let today = shop.as_of.date();
    let records_from = shop.settings.records_from?;
    let hours_per_day = machine.running_hours? / YEAR_DAYS;
    let name = NameKey::new(&machine.machine);
    let mut fitted: Option<NaiveDate> = machine.in_use_from.filter(|from| *from >= records_from);
    let mut life = PartLife::default();
    let hours =
        |from: NaiveDate, until: NaiveDate| (until - from).num_days() as f64 * hours_per_day;
    for record in used.iter().map(|usage| &usage.record) {
        let on = record.machine.as_ref().map(|machine| NameKey::new(machine));
        if on.is_none_or(|on| on != name) || record.date > today || record.date < records_from {
            continue;
        }
        if (record.quantity - quantity).abs() > 1e-9 {
            return None;
        }
        let has_failed = record.reason == Some(UsageReason::Failure);
        if let Some(from) = fitted {
            record.reason?;
            let lives = if has_failed {
                &mut life.failures_h
            } else {
                &mut life.running_h
            };
            lives.push(hours(from, record.date));
        }
        life.changes += 1;
        life.failed += usize::from(has_failed);
        fitted = Some(record.date);
    }
    let age_h = hours(fitted?, today);
    life.running_h.push(age_h);
    life.positions.push(FittedPosition {
        age_h,
        hours_per_day,
        pieces: quantity,
    });
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
            usage.record.machine = Some("M1".into());
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
        assert_eq!((life.changes, life.failed), (3, 2));
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
        let position = life.positions[0];
        // 366 days since the last change, ten hours a day.
        assert_eq!((position.age_h, position.hours_per_day), (3650.0, 10.0));
        assert_eq!((life.changes, life.failed, position.pieces), (6, 6, 2.0));
    }
}
