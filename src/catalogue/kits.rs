//! Rebuild kits put together from lines, tasks, dates, approvals and ways other than buying.

use std::collections::BTreeMap;

use super::part::PartId;
use super::shop::{Kit, KitLineOf, Unresolved};
use crate::part::NameKey;
use crate::place::Place;
use crate::record::{ApprovalRecord, KitLine, OtherWay, PlannedRebuild, Task};

/// Kits in the order of their first line.
#[derive(Default)]
pub(super) struct Kits {
    pub(super) list: Vec<Kit>,
    by_name: BTreeMap<NameKey, usize>,
}

impl Kits {
    /// The kit of a name, made where it is not there yet.
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

    /// The kit of a name, where any line names it.
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

    /// Adds an approval to the line it is for.
    pub(super) fn add_approval(
        &mut self,
        substitute: Option<PartId>,
        approval: ApprovalRecord,
    ) -> Result<(), Unresolved> {
        let line = self.line(&approval.place, &approval.kit, &approval.line)?;
        line.approvals.push((substitute, approval));
        Ok(())
    }

    /// True where the way was for one line; false where it holds for the part everywhere.
    pub(super) fn add_other_way(&mut self, way: &OtherWay) -> Result<bool, Unresolved> {
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

    /// Adds a line with its part.
    pub(super) fn add_line(&mut self, record: KitLine, part: Option<PartId>) {
        let kit = self.named(&record.kit);
        kit.machine = kit.machine.take().or_else(|| record.machine.clone());
        kit.lines.push(KitLineOf {
            part,
            record,
            approvals: Vec::new(),
            other_ways: Vec::new(),
        });
    }

    /// Adds a task to its kit.
    pub(super) fn add_task(&mut self, task: Task) -> Result<(), Unresolved> {
        let kit = self.known(&task.kit);
        let kit = kit.ok_or_else(|| no_such_kit(&task.place, &task.kit))?;
        kit.tasks.push(task);
        Ok(())
    }

    /// Adds the date of a rebuild to its kit.
    pub(super) fn add_planned(&mut self, planned: PlannedRebuild) -> Result<(), Unresolved> {
        let kit = self.known(&planned.kit);
        let kit = kit.ok_or_else(|| no_such_kit(&planned.place, &planned.kit))?;
        kit.machine = kit.machine.take().or_else(|| planned.machine.clone());
        kit.planned.push(planned);
        Ok(())
    }
}

fn no_such_kit(place: &Place, kit: &str) -> Unresolved {
    Unresolved {
        place: place.clone(),
        reason: format!("kit `{kit}` has no lines in any table"),
    }
}
