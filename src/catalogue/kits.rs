//! Rebuild kits put together from lines, tasks, dates, approvals and ways other than buying.

use std::collections::BTreeMap;

use super::part::PartId;
use super::shop::{Kit, KitLineOf, Unresolved};
use crate::part::NameKey;
use crate::place::Place;
use crate::record::{ApprovalOutcome, ApprovalRecord, KitLine, OtherWay, PlannedRebuild, Task};

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

    /// The lines of a name: one, or several that a table calls alike.
    fn lines(
        &mut self,
        place: &Place,
        kit: &str,
        line: &str,
    ) -> Result<Vec<&mut KitLineOf>, Unresolved> {
        let key = NameKey::new(line);
        let found = self.known(kit).ok_or_else(|| no_such_kit(place, kit))?;
        let is_exact = found.lines.iter().any(|of| is_same(&of.record.line, line));
        let is_it = |of: &&mut KitLineOf| match is_exact {
            true => is_same(&of.record.line, line),
            false => NameKey::new(&of.record.line) == key,
        };
        let found: Vec<&mut KitLineOf> = found.lines.iter_mut().filter(is_it).collect();
        if found.is_empty() {
            return Err(Unresolved {
                place: place.clone(),
                reason: format!("kit `{kit}` has no line `{line}`"),
            });
        }
        Ok(found)
    }

    /// Adds an approval to the line it is for.
    ///
    /// Where several lines go by its name it holds for all of them if they ask for one part, and else for none; that
    /// something did not fit holds for all of them.
    pub(super) fn add_approval(
        &mut self,
        substitute: Option<PartId>,
        approval: ApprovalRecord,
    ) -> Result<(), Unresolved> {
        let lines = self.lines(&approval.place, &approval.kit, &approval.line)?;
        if approval.outcome == ApprovalOutcome::Approved && !ask_for_one_part(&lines) {
            return Err(which_line(&approval.place, &lines, "approval"));
        }
        for line in lines {
            line.approvals.push((substitute, approval.clone()));
        }
        Ok(())
    }

    /// True where the way was for lines of a kit: the one it names, else all of its kit that ask for its part. False where it
    /// holds for the part everywhere.
    pub(super) fn add_other_way(
        &mut self,
        way: &OtherWay,
        part: Option<PartId>,
    ) -> Result<bool, Unresolved> {
        let mut lines = match (&way.kit, &way.line) {
            (Some(kit), Some(line)) => {
                let lines = self.lines(&way.place, kit, line)?;
                if !ask_for_one_part(&lines) {
                    return Err(which_line(&way.place, &lines, "way"));
                }
                lines
            }
            (Some(kit), None) => self.lines_of_part(way, kit, part)?,
            (None, Some(line)) => {
                return Err(Unresolved {
                    place: way.place.clone(),
                    reason: format!(
                        "line `{line}` is named without its kit: the way holds for no line before the kit is named"
                    ),
                });
            }
            (None, None) => return Ok(false),
        };
        // All lines draw on the same way, by its place.
        for line in &mut lines {
            line.other_ways.push(way.clone());
        }
        Ok(true)
    }

    /// The lines of a kit that ask for the part of a way.
    fn lines_of_part(
        &mut self,
        way: &OtherWay,
        kit: &str,
        part: Option<PartId>,
    ) -> Result<Vec<&mut KitLineOf>, Unresolved> {
        let found = self
            .known(kit)
            .ok_or_else(|| no_such_kit(&way.place, kit))?;
        let asks = |line: &&mut KitLineOf| part.is_some() && line.part == part;
        let lines: Vec<&mut KitLineOf> = found.lines.iter_mut().filter(asks).collect();
        match lines.is_empty() {
            true => Err(Unresolved {
                place: way.place.clone(),
                reason: format!("kit `{kit}` has no line that asks for `{}`", way.part),
            }),
            false => Ok(lines),
        }
    }

    /// Adds a line with its part; told where the kit has a line of that name already.
    pub(super) fn add_line(
        &mut self,
        record: KitLine,
        part: Option<PartId>,
    ) -> Result<(), Unresolved> {
        let kit = self.named(&record.kit);
        kit.machine = kit.machine.take().or_else(|| record.machine.clone());
        let mut lines = kit.lines.iter();
        let first = lines.find(|of| is_same(&of.record.line, &record.line));
        let told = first.map_or(Ok(()), |first| {
            Err(Unresolved {
                place: record.place.clone(),
                reason: format!(
                    "line `{}` of kit `{}` stands here and at {}: both are planned; give each a name of its own, so that an approval can name it",
                    record.line, record.kit, first.record.place
                ),
            })
        });
        kit.lines.push(KitLineOf {
            part,
            record,
            approvals: Vec::new(),
            other_ways: Vec::new(),
        });
        told
    }

    /// Adds a task to its kit; one that stands there already takes the longer hours and waits for what either waits for.
    pub(super) fn add_task(&mut self, task: Task) -> Result<(), Unresolved> {
        let kit = self.known(&task.kit);
        let kit = kit.ok_or_else(|| no_such_kit(&task.place, &task.kit))?;
        let mut tasks = kit.tasks.iter_mut();
        let Some(first) = tasks.find(|of| is_same(&of.task, &task.task)) else {
            kit.tasks.push(task);
            return Ok(());
        };
        let told = Unresolved {
            place: task.place,
            reason: format!(
                "task `{}` of kit `{}` takes {} h here and {} h at {}: it is planned once, with the longer of them and after all that either waits for",
                task.task, task.kit, task.hours, first.hours, first.place
            ),
        };
        first.hours = first.hours.max(task.hours);
        for before in task.predecessors {
            if !first.predecessors.contains(&before) {
                first.predecessors.push(before);
            }
        }
        Err(told)
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

/// True for names that differ in case and outer blanks only: `1.1` and `11` are two lines.
fn is_same(name: &str, other: &str) -> bool {
    name.trim().to_lowercase() == other.trim().to_lowercase()
}

/// True for a single line, and for several of one name that ask for the same part.
fn ask_for_one_part(lines: &[&mut KitLineOf]) -> bool {
    let part = lines.first().and_then(|line| line.part);
    lines.len() == 1 || part.is_some() && lines.iter().all(|line| line.part == part)
}

/// A row for one of several lines of one name that ask for different parts.
fn which_line(place: &Place, lines: &[&mut KitLineOf], what: &str) -> Unresolved {
    let record = &lines[0].record;
    let places: Vec<String> = lines
        .iter()
        .map(|line| line.record.place.to_string())
        .collect();
    Unresolved {
        place: place.clone(),
        reason: format!(
            "kit `{}` has line `{}` more than once, at {}: the {what} holds for none of them before one is named otherwise",
            record.kit,
            record.line,
            places.join(" and at ")
        ),
    }
}

fn no_such_kit(place: &Place, kit: &str) -> Unresolved {
    Unresolved {
        place: place.clone(),
        reason: format!("kit `{kit}` has no lines in any table"),
    }
}
