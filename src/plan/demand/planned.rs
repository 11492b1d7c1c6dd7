//! Usages that dated demand already covers: parts of rebuilds with planned dates are needed on those dates, not at random.

use std::collections::BTreeMap;

use crate::catalogue::{NameKey, PartId, Shop, UsageOf};
use crate::interchange::LineAcceptance;
use crate::record::UsageReason;

/// Machines whose planned rebuilds take a part; `None` stands for a kit without a machine.
#[derive(Debug, Default)]
pub struct PlannedUse {
    by_part: BTreeMap<PartId, Vec<Option<String>>>,
}

impl PlannedUse {
    /// Collects the lines of kits with a rebuild from today on, with everything accepted on them.
    pub fn new(shop: &Shop, acceptances: &[LineAcceptance]) -> Self {
        let today = shop.as_of.date();
        let mut found = Self::default();
        let is_planned = |kit: usize| {
            let kit = &shop.kits[kit];
            kit.planned.iter().any(|planned| planned.date >= today)
        };
        let machine_of = |kit: usize| {
            let machine = shop.kits[kit].machine.as_ref();
            machine.map(|name| NameKey::new(name).into_text())
        };
        for (at, kit) in shop
            .kits
            .iter()
            .enumerate()
            .filter(|(at, _)| is_planned(*at))
        {
            for part in kit.lines.iter().filter_map(|line| line.part) {
                found.by_part.entry(part).or_default().push(machine_of(at));
            }
        }
        for acceptance in acceptances.iter().filter(|line| is_planned(line.kit)) {
            for accepted in &acceptance.accepted {
                let machines = found.by_part.entry(accepted.part).or_default();
                machines.push(machine_of(acceptance.kit));
            }
        }
        found
    }

    /// True for a usage in a rebuild whose like is planned with a date.
    ///
    /// A usage on another machine than the planned one stays random demand; one without a machine is taken for it.
    pub fn covers(&self, usage: &UsageOf) -> bool {
        if usage.record.reason != Some(UsageReason::Rebuild) {
            return false;
        }
        let Some(machines) = self.by_part.get(&usage.part) else {
            return false;
        };
        let used_on = usage.record.machine.as_ref().map(|name| NameKey::new(name));
        machines.iter().any(|machine| match (machine, &used_on) {
            (Some(planned), Some(used)) => planned == used.as_str(),
            _ => true,
        })
    }
}
