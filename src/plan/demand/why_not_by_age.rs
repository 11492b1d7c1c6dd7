//! Why a part's demand is not foretold by the ages of what is fitted, although failures in running hours are recorded.

use std::collections::BTreeMap;
use std::fmt;

use super::life::PartLife;
use super::of_part::Demand;
use super::weibull::{ENOUGH_FAILURES, WeibullFit};
use crate::catalogue::{Kit, NameKey, PartId, Shop};
use crate::record::{MachineRecord, UsageReason};

/// Why lives are not used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhyNotByAge {
    /// No kit of such a machine has a line for it, so that nobody knows how many are fitted.
    NoKitLine,
    /// There are several of the machine, or nobody says how many.
    SeveralMachines,
    /// Several lines of a kit ask for it.
    SeveralLines,
    /// A usage took another quantity than the line, or has no reason.
    OddUsage,
    /// Some usages are not at such a line.
    Elsewhere,
    /// Too few of the lives began in the records.
    TooFew,
}

/// Why the lives of a part are not used that failed on these machines with running hours; `None` where they are, or where
/// that was less than five times.
pub fn why_not_by_age(
    shop: &Shop,
    (part, machines): (PartId, &[&MachineRecord]),
    demand: Option<&Demand>,
    life: Option<&PartLife>,
) -> Option<WhyNotByAge> {
    if demand.is_some_and(|demand| demand.by_lives.is_some()) {
        return None;
    }
    if machines.len() < ENOUGH_FAILURES {
        return None;
    }
    if let Some(life) = life {
        let events = demand.map_or(0, |demand| demand.events);
        return Some(match life.fit.filter(WeibullFit::is_enough) {
            None => WhyNotByAge::TooFew,
            Some(_) if life.changes < events => WhyNotByAge::Elsewhere,
            Some(_) => WhyNotByAge::OddUsage,
        });
    }
    let is_single = |machine: &MachineRecord| {
        let installed = machine.installed;
        installed.is_some_and(|count| (count - 1.0).abs() < 1e-9)
    };
    let lines = |kit: &Kit| {
        kit.lines
            .iter()
            .filter(|line| line.part == Some(part))
            .count()
    };
    let of_machines = shop.kits.iter().filter(|kit| {
        let name = kit.machine.as_deref().map(NameKey::new);
        let mut of = machines.iter();
        name.is_some_and(|name| of.any(|machine| NameKey::new(&machine.machine) == name))
    });
    let counts: Vec<usize> = of_machines.map(lines).filter(|count| *count > 0).collect();
    Some(if counts.is_empty() {
        WhyNotByAge::NoKitLine
    } else if !machines.iter().any(|machine| is_single(machine)) {
        WhyNotByAge::SeveralMachines
    } else if counts.iter().all(|count| *count > 1) {
        WhyNotByAge::SeveralLines
    } else {
        WhyNotByAge::OddUsage
    })
}

/// The machine with running hours of each failure, by part; empty where no machine has any.
pub fn failures_by_hours(shop: &Shop) -> BTreeMap<PartId, Vec<&MachineRecord>> {
    let has_hours = |machine: &&MachineRecord| machine.running_hours.is_some_and(|of| of > 0.0);
    let mut found: BTreeMap<PartId, Vec<&MachineRecord>> = BTreeMap::new();
    if !shop.machines.values().any(|machine| has_hours(&machine)) {
        return found;
    }
    for usage in &shop.usages {
        let record = &usage.record;
        let name = record.machine.as_deref().map(NameKey::new);
        let machine = name.and_then(|name| shop.machines.get(name.as_str()));
        if let Some(machine) = machine.filter(has_hours)
            && record.reason == Some(UsageReason::Failure)
        {
            found.entry(usage.part).or_default().push(machine);
        }
    }
    found
}

impl fmt::Display for WhyNotByAge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoKitLine => {
                "no kit of its machine has a line for it, so that nobody knows how many are fitted"
            }
            Self::SeveralMachines => {
                "there are several of its machine, or nobody says how many: whose life ended is not known"
            }
            Self::SeveralLines => "several lines of a kit ask for it: whose life ended is not known",
            Self::OddUsage => "a usage took another quantity than the kit line, or gives no reason",
            Self::Elsewhere => "some usages are at no line of a kit of a machine with running hours",
            Self::TooFew => "fewer than five of the lives that began in the records ended in a failure",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::Sample;

    /// Failures of a part on a machine of 6,000 hours a year, and a kit with so many lines for it.
    fn why(
        failures: usize,
        installed: Option<f64>,
        lines: &[f64],
        odd: f64,
    ) -> Option<WhyNotByAge> {
        let mut sample = Sample::new("records_from = \"2021-01-04\"");
        let part = sample.part("A");
        sample.machine("M1", Some(100.0), None);
        for machine in sample.shop.machines.values_mut() {
            machine.running_hours = Some(6000.0);
            machine.installed = installed;
        }
        sample.kit("K");
        for quantity in lines {
            sample.line(Some(part), *quantity, &[], |_| {});
        }
        let dates = [
            "2021-06-01",
            "2022-03-05",
            "2022-12-08",
            "2023-08-08",
            "2024-04-08",
            "2025-01-10",
            "2025-10-10",
        ];
        for (at, date) in dates.into_iter().take(failures).enumerate() {
            sample.usage(part, date, if at == 2 { odd } else { 1.0 });
            let usage = &mut sample.shop.usages.last_mut().unwrap().record;
            usage.machine = Some("M1".into());
            usage.reason = Some(UsageReason::Failure);
        }
        let plan = sample.plan();
        let demand = plan.demands.get(&part).map(AsRef::as_ref);
        let life = plan.lives.get(&part);
        let shop = sample.built();
        let failures = failures_by_hours(&shop);
        let machines = failures.get(&part).map_or(&[][..], Vec::as_slice);
        why_not_by_age(&shop, (part, machines), demand, life)
    }

    /// By the conditions under which lives can be told.
    #[test]
    fn each_thing_that_is_missing_is_named() {
        assert_eq!(why(7, Some(1.0), &[1.0], 1.0), None);
        assert_eq!(why(4, Some(1.0), &[], 1.0), None);
        for (lines, installed, odd, found) in [
            (&[][..], Some(1.0), 1.0, WhyNotByAge::NoKitLine),
            (&[1.0], Some(3.0), 1.0, WhyNotByAge::SeveralMachines),
            (&[1.0], None, 1.0, WhyNotByAge::SeveralMachines),
            (&[1.0, 1.0], Some(1.0), 1.0, WhyNotByAge::SeveralLines),
            (&[1.0], Some(1.0), 2.0, WhyNotByAge::OddUsage),
        ] {
            assert_eq!(why(7, installed, lines, odd), Some(found));
        }
        // Of five failures the first ended a life that began before the records.
        assert_eq!(why(5, Some(1.0), &[1.0], 1.0), Some(WhyNotByAge::TooFew));
    }
}
