//! Numbers of one standard part that may be bought in place of each other.

use std::collections::{BTreeMap, BTreeSet};

use crate::catalogue::{PartId, Shop};
use crate::interchange::{AcceptedBecause, LineAcceptance};

/// Own parts with the other numbers of the same standard part that go in as they are on every line asking for them.
pub fn same_parts(shop: &Shop, acceptances: &[LineAcceptance]) -> BTreeMap<PartId, Vec<PartId>> {
    let mut same: BTreeMap<PartId, Vec<PartId>> = BTreeMap::new();
    let mut alone: BTreeSet<PartId> = BTreeSet::new();
    for acceptance in acceptances {
        let line = shop
            .kits
            .get(acceptance.kit)
            .and_then(|kit| kit.lines.get(acceptance.line));
        let Some((line, part)) = line.and_then(|line| Some((line, line.part?))) else {
            continue;
        };
        if line.record.no_substitutes {
            alone.insert(part);
        }
        let here: Vec<PartId> = acceptance
            .accepted
            .iter()
            .filter(|accepted| accepted.because == AcceptedBecause::GoesInAsItIs)
            .map(|accepted| accepted.part)
            .collect();
        same.entry(part)
            .and_modify(|parts| parts.retain(|known| *known == part || here.contains(known)))
            .or_insert_with(|| std::iter::once(part).chain(here).collect());
    }
    for part in alone {
        same.insert(part, vec![part]);
    }
    same
}
