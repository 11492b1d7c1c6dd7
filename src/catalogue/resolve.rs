//! Resolves every record to a part of the catalogue, and lists what cannot be resolved.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDateTime;

use super::index::Catalogue;
use super::merge::Merge;
use super::part::PartId;
use super::presumption::presume;
use super::shop::{Kit, KitLineOf, OfferOf, ReceiptOf, Shop, StockOf, Unresolved, UsageOf};
use crate::part::NameKey;
use crate::place::Place;
use crate::record::{ApprovalRecord, OtherWay, Records, ShopSettings};

impl Shop {
    /// Merges records into a catalogue and resolves each row to its part.
    ///
    /// Rows that name a part, kit or line that no table knows are listed in [`Shop::unresolved`].
    pub fn new(records: Records, settings: ShopSettings, as_of: NaiveDateTime) -> Self {
        let mut merge = Merge::default();
        for part in &records.parts {
            merge.add_part(part);
        }
        merge.index_other_names();
        let mut unresolved = Vec::new();
        let mut offers = Vec::new();
        for record in records.offers {
            match merge.part_of_offer(&record) {
                Ok(part) => offers.push(OfferOf { part, record }),
                Err(problem) => unresolved.push(problem),
            }
        }
        let line_parts: Vec<Option<PartId>> = records
            .kit_lines
            .iter()
            .map(|line| merge.part_of_line(line))
            .collect();
        let mut stock = Vec::new();
        for record in records.stock {
            match merge.part_of_stock(&record) {
                Some(part) => stock.push(StockOf { part, record }),
                None => unresolved.push(no_such_part(&merge, &record.place, &record.part)),
            }
        }
        let find = |name: &str| merge.find(name).map(|position| PartId(position as u32));
        let mut usages = Vec::new();
        for record in records.usages {
            match find(&record.part) {
                Some(part) => usages.push(UsageOf { part, record }),
                None => unresolved.push(no_such_part(&merge, &record.place, &record.part)),
            }
        }
        usages.sort_by_key(|usage| usage.record.date);
        let mut receipts: Vec<ReceiptOf> = records
            .receipts
            .into_iter()
            .map(|record| ReceiptOf {
                part: find(&record.part),
                record,
            })
            .collect();
        receipts.sort_by_key(|receipt| receipt.record.ordered);

        let mut kits = Kits::default();
        for (record, part) in records.kit_lines.into_iter().zip(line_parts) {
            let kit = kits.named(&record.kit);
            kit.machine = kit.machine.take().or_else(|| record.machine.clone());
            kit.lines.push(KitLineOf {
                part,
                record,
                approvals: Vec::new(),
                other_ways: Vec::new(),
            });
        }
        for task in records.tasks {
            match kits.known(&task.kit) {
                Some(kit) => kit.tasks.push(task),
                None => unresolved.push(no_such_kit(&task.place, &task.kit)),
            }
        }
        for planned in records.planned_rebuilds {
            match kits.known(&planned.kit) {
                Some(kit) => {
                    kit.machine = kit.machine.take().or_else(|| planned.machine.clone());
                    kit.planned.push(planned);
                }
                None => unresolved.push(no_such_kit(&planned.place, &planned.kit)),
            }
        }
        for approval in records.approvals {
            let substitute = find(&approval.substitute);
            if substitute.is_none() {
                unresolved.push(no_such_part(&merge, &approval.place, &approval.substitute));
            }
            if let Err(problem) = kits.add_approval(substitute, approval) {
                unresolved.push(problem);
            }
        }
        let mut other_ways = Vec::new();
        for way in records.other_ways {
            match (kits.add_other_way(&way), find(&way.part)) {
                (Ok(true), _) => {}
                (Ok(false), Some(part)) => other_ways.push((part, way)),
                (Ok(false), None) => unresolved.push(no_such_part(&merge, &way.place, &way.part)),
                (Err(problem), _) => unresolved.push(problem),
            }
        }
        for kit in &mut kits.list {
            kit.planned.sort_by_key(|planned| planned.date);
        }
        unresolved.append(&mut merge.conflicts);
        unresolved.sort_by(|a, b| a.place.cmp(&b.place));
        let by_name = |name: &str| NameKey::new(name).as_str().to_owned();
        let mut shop = Self {
            settings,
            as_of,
            catalogue: Catalogue::new(merge.into_parts()),
            suppliers: records
                .suppliers
                .into_iter()
                .map(|s| (by_name(&s.name), s))
                .collect(),
            offers,
            stock,
            usages,
            receipts,
            kits: kits.list,
            machines: records
                .machines
                .into_iter()
                .map(|m| (by_name(&m.machine), m))
                .collect(),
            other_ways,
            unresolved,
            presumed: Vec::new(),
            not_approved: BTreeSet::new(),
        };
        presume(&mut shop);
        shop
    }
}

/// Kits in the order of their first line.
#[derive(Default)]
struct Kits {
    list: Vec<Kit>,
    by_name: BTreeMap<NameKey, usize>,
}

impl Kits {
    fn named(&mut self, name: &str) -> &mut Kit {
        let position = *self.by_name.entry(NameKey::new(name)).or_insert_with(|| {
            let (lines, tasks, planned) = (Vec::new(), Vec::new(), Vec::new());
            self.list.push(Kit {
                name: name.to_owned(),
                machine: None,
                lines,
                tasks,
                planned,
            });
            self.list.len() - 1
        });
        &mut self.list[position]
    }

    fn known(&mut self, name: &str) -> Option<&mut Kit> {
        self.by_name
            .get(&NameKey::new(name))
            .map(|&position| &mut self.list[position])
    }

    fn line(&mut self, place: &Place, kit: &str, line: &str) -> Result<&mut KitLineOf, Unresolved> {
        let key = NameKey::new(line);
        let found = self.known(kit).ok_or_else(|| no_such_kit(place, kit))?;
        found
            .lines
            .iter_mut()
            .find(|of| NameKey::new(&of.record.line) == key)
            .ok_or_else(|| Unresolved {
                place: place.clone(),
                reason: format!("kit `{kit}` has no line `{line}`"),
            })
    }

    fn add_approval(
        &mut self,
        substitute: Option<PartId>,
        approval: ApprovalRecord,
    ) -> Result<(), Unresolved> {
        let line = self.line(&approval.place, &approval.kit, &approval.line)?;
        line.approvals.push((substitute, approval));
        Ok(())
    }

    /// True where the way was for one line; false where it holds for the part everywhere.
    fn add_other_way(&mut self, way: &OtherWay) -> Result<bool, Unresolved> {
        match (&way.kit, &way.line) {
            (Some(kit), Some(line)) => {
                self.line(&way.place, kit, line)?
                    .other_ways
                    .push(way.clone());
                Ok(true)
            }
            _ => Ok(false),
        }
    }
}

fn no_such_part(merge: &Merge, place: &Place, part: &str) -> Unresolved {
    Unresolved {
        place: place.clone(),
        reason: merge.why_not_found(part),
    }
}

fn no_such_kit(place: &Place, kit: &str) -> Unresolved {
    Unresolved {
        place: place.clone(),
        reason: format!("kit `{kit}` has no lines in any table"),
    }
}
