//! What one rebuild takes of a part: kept as an insurance although it was never used.

use std::collections::BTreeMap;

use super::level::criticality_weight;
use crate::catalogue::{NameKey, PartId, Shop};
use crate::units::UnitOfCount;

/// Most that one rebuild takes of each part, with the unit it is counted in, of kits whose machine is in service and
/// counts.
///
/// A machine counts unless its criticality weighs less than one; a kit without a machine counts. A part that stands on
/// such a kit and was never used is an insurance. Common practice, no source.
pub fn insured(shop: &Shop) -> BTreeMap<PartId, Vec<(f64, Option<UnitOfCount>)>> {
    let today = shop.as_of.date();
    let counts = |name: &String| {
        let machine = shop.machines.get(NameKey::new(name).as_str());
        machine.is_none_or(|machine| {
            machine.in_use_until.is_none_or(|until| until > today)
                && criticality_weight(shop, machine) >= 1.0
        })
    };
    let mut insured: BTreeMap<PartId, Vec<(f64, Option<UnitOfCount>)>> = BTreeMap::new();
    for kit in shop
        .kits
        .iter()
        .filter(|kit| kit.machine.as_ref().is_none_or(counts))
    {
        let mut of_kit: BTreeMap<PartId, (f64, Option<UnitOfCount>)> = BTreeMap::new();
        for line in &kit.lines {
            if let Some(part) = line.part {
                let needed = of_kit
                    .entry(part)
                    .or_insert((0.0, line.record.unit_of_count));
                needed.0 += line.record.quantity.unwrap_or(0.0).max(0.0);
            }
        }
        for (part, needed) in of_kit {
            insured.entry(part).or_default().push(needed);
        }
    }
    insured
}

/// The greatest of these needs in a unit; units that must not be converted count as they are.
pub fn insured_in(unit: UnitOfCount, needs: Option<&Vec<(f64, Option<UnitOfCount>)>>) -> f64 {
    let needs = needs.into_iter().flatten();
    needs
        .map(|(quantity, counted)| {
            let factor = counted.and_then(|counted| counted.in_units_of(unit).ok());
            (quantity * factor.unwrap_or(1.0)).ceil()
        })
        .fold(0.0, f64::max)
}
