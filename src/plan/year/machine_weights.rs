//! How usages of a part fall on the machines of the shop.

use std::borrow::Cow;
use std::collections::BTreeMap;

use crate::catalogue::{NameKey, PartId, Shop};
use crate::plan::level::Level;

/// How usages of a level's stock fall on machines, over all its numbers.
pub fn weights_together<'a>(
    level: &Level,
    weights: &'a BTreeMap<PartId, BTreeMap<String, f64>>,
) -> Option<Cow<'a, BTreeMap<String, f64>>> {
    let own = weights.get(&level.part);
    if level.shares_with.is_empty() {
        return own.map(Cow::Borrowed);
    }
    let mut sum: BTreeMap<String, f64> = BTreeMap::new();
    let of_all = level.stocked().filter_map(|part| weights.get(&part));
    for (machine, weight) in of_all.flatten() {
        *sum.entry(machine.clone()).or_default() += weight;
    }
    (!sum.is_empty()).then_some(Cow::Owned(sum))
}

/// How usages of each part fall on machines: as recorded, else by the places where kits fit it, else by the machines that
/// the parts table names.
pub fn machine_weights(shop: &Shop) -> BTreeMap<PartId, BTreeMap<String, f64>> {
    let today = shop.as_of.date();
    let installed = |key: &str| {
        let machine = shop.machines.get(key)?;
        let is_in_service = machine.in_use_until.is_none_or(|until| until > today);
        is_in_service.then(|| machine.installed.unwrap_or(1.0).max(1.0))
    };
    let mut recorded: BTreeMap<PartId, BTreeMap<String, f64>> = BTreeMap::new();
    for usage in &shop.usages {
        let Some(machine) = &usage.record.machine else {
            continue;
        };
        let key = NameKey::new(machine).into_text();
        if usage.record.quantity > 0.0 && installed(&key).is_some() {
            let weights = recorded.entry(usage.part).or_default();
            *weights.entry(key).or_default() += 1.0;
        }
    }
    let mut fitted: BTreeMap<PartId, BTreeMap<String, f64>> = BTreeMap::new();
    for kit in &shop.kits {
        let Some(machine) = &kit.machine else {
            continue;
        };
        let key = NameKey::new(machine).into_text();
        let Some(count) = installed(&key) else {
            continue;
        };
        for line in &kit.lines {
            if let Some(part) = line.part.filter(|part| !recorded.contains_key(part)) {
                let weights = fitted.entry(part).or_default();
                let fitted = line.record.quantity.unwrap_or(0.0).max(0.0);
                *weights.entry(key.clone()).or_default() += count * fitted;
            }
        }
    }
    fitted.retain(|_, weights| weights.values().sum::<f64>() > 0.0);
    for part in shop.catalogue.parts() {
        if recorded.contains_key(&part.id) || fitted.contains_key(&part.id) {
            continue;
        }
        let keys = part.machines.iter().map(|name| NameKey::new(name));
        let known =
            keys.filter_map(|key| Some((key.as_str().to_owned(), installed(key.as_str())?)));
        let weights: BTreeMap<String, f64> = known.collect();
        if !weights.is_empty() {
            recorded.insert(part.id, weights);
        }
    }
    recorded.extend(fitted);
    recorded
}
