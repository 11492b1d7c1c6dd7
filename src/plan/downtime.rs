//! How long a machine is down: tasks in order, each waiting for its parts, on the maintenance calendar.

use std::collections::BTreeMap;

use chrono::NaiveDateTime;

use super::calendar::Calendars;
use super::issue::PlanIssue;
use super::sourcing::Sourcing;
use crate::catalogue::{Kit, NameKey, Shop};
use crate::units::Money;

/// When the machine runs again.
#[derive(Debug, Clone, PartialEq)]
pub struct Downtime {
    /// Moment it went down: the moment of planning.
    pub down: NaiveDateTime,
    /// Moment it runs again.
    pub up: NaiveDateTime,
    /// Production hours lost.
    pub production_h: f64,
    /// Hours of work in the tasks; 0 where the kit has no tasks, and the downtime is then the wait for parts only.
    pub work_h: f64,
    /// Cost of the lost hours; `None` where the machine has none.
    pub cost: Option<Money>,
}

/// Tasks of one kit, ready to be scheduled any number of times.
#[derive(Debug, Clone)]
pub struct TaskNet {
    /// Hours and predecessors of each task, in an order in which predecessors come first.
    order: Vec<usize>,
    hours: Vec<f64>,
    predecessors: Vec<Vec<usize>>,
    by_name: BTreeMap<String, usize>,
}

impl TaskNet {
    /// Sorts the tasks of a kit; `None` with an issue where a task waits for itself.
    pub fn new(kit: &Kit, issues: &mut Vec<PlanIssue>) -> Option<Self> {
        let by_name: BTreeMap<String, usize> = kit
            .tasks
            .iter()
            .enumerate()
            .rev()
            .map(|(position, task)| (key(&task.task), position))
            .collect();
        let mut predecessors = Vec::with_capacity(kit.tasks.len());
        for task in &kit.tasks {
            let mut before = Vec::new();
            for name in &task.predecessors {
                match by_name.get(&key(name)) {
                    Some(position) => before.push(*position),
                    None => issues.push(PlanIssue::NoSuchTask {
                        place: task.place.clone(),
                        kit: kit.name.clone(),
                        task: name.clone(),
                    }),
                }
            }
            predecessors.push(before);
        }
        let mut order: Vec<usize> = Vec::with_capacity(kit.tasks.len());
        while order.len() < kit.tasks.len() {
            let next = (0..kit.tasks.len()).find(|task| {
                !order.contains(task)
                    && predecessors[*task]
                        .iter()
                        .all(|before| order.contains(before))
            });
            let Some(next) = next else {
                let stuck = (0..kit.tasks.len()).find(|task| !order.contains(task))?;
                issues.push(PlanIssue::TaskCycle {
                    place: kit.tasks[stuck].place.clone(),
                    kit: kit.name.clone(),
                    task: kit.tasks[stuck].task.clone(),
                });
                return None;
            };
            order.push(next);
        }
        for line in &kit.lines {
            if let Some(task) = &line.record.task
                && !by_name.contains_key(&key(task))
            {
                issues.push(PlanIssue::NoSuchTask {
                    place: line.record.place.clone(),
                    kit: kit.name.clone(),
                    task: task.clone(),
                });
            }
        }
        Some(Self {
            order,
            hours: kit.tasks.iter().map(|task| task.hours.max(0.0)).collect(),
            predecessors,
            by_name,
        })
    }

    /// Hours of work in all tasks.
    pub fn work_h(&self) -> f64 {
        self.hours.iter().fold(0.0, |sum, quantity| sum + quantity)
    }

    /// Moment at which the last task is done, if work may start at `start` and each gate holds back its task.
    ///
    /// A gate without a task, or with one the kit has not, holds back the tasks that have no predecessor. Tasks that
    /// do not wait for each other run beside each other. Without tasks the moment is the first at which all gates
    /// are open and somebody is there.
    pub fn done(
        &self,
        calendars: &Calendars,
        start: NaiveDateTime,
        gates: &[(Option<&str>, NaiveDateTime)],
    ) -> Option<NaiveDateTime> {
        let maintenance = calendars.maintenance();
        if self.order.is_empty() {
            let open = gates.iter().map(|(_, moment)| *moment).max();
            return maintenance.after(open.unwrap_or(start).max(start), 0.0);
        }
        let mut ready = vec![start; self.hours.len()];
        for (task, moment) in gates {
            match task.and_then(|name| self.by_name.get(&key(name))) {
                Some(task) => ready[*task] = ready[*task].max(*moment),
                None => {
                    for (task, ready) in ready.iter_mut().enumerate() {
                        if self.predecessors[task].is_empty() {
                            *ready = (*ready).max(*moment);
                        }
                    }
                }
            }
        }
        let mut finished = vec![start; self.hours.len()];
        for task in &self.order {
            let begin = self.predecessors[*task]
                .iter()
                .map(|before| finished[*before])
                .fold(ready[*task], NaiveDateTime::max);
            finished[*task] = maintenance.after(begin, self.hours[*task])?;
        }
        finished.into_iter().max()
    }
}

/// Downtime of a machine that goes down now and runs again at `up`.
pub fn downtime(
    sourcing: &Sourcing<'_>,
    up: NaiveDateTime,
    work_h: f64,
    hourly: Option<Money>,
) -> Downtime {
    let down = sourcing.shop.as_of;
    let production_h = sourcing.calendars.production().hours_between(down, up);
    Downtime {
        down,
        up,
        production_h,
        work_h,
        cost: hourly.map(|hourly| cost_of_hours(hourly, production_h)),
    }
}

/// Cost of so many hours.
pub fn cost_of_hours(hourly: Money, hours: f64) -> Money {
    Money {
        cents: (hourly.cents as f64 * hours).round() as i64,
        currency: hourly.currency,
    }
}

/// Cost of one hour down of the kit's machine, in the shop's currency; `None` where a table does not say.
pub fn hourly_cost(
    shop: &Shop,
    kit: &Kit,
    sourcing: &Sourcing<'_>,
    issues: &mut Vec<PlanIssue>,
) -> Option<Money> {
    let name = kit.machine.as_ref()?;
    let Some(machine) = shop.machines.get(NameKey::new(name).as_str()) else {
        if let Some(line) = kit.lines.first() {
            issues.push(PlanIssue::NoSuchMachine {
                place: line.record.place.clone(),
                machine: name.clone(),
            });
        }
        return None;
    };
    let cost = machine.downtime_cost_per_hour?;
    let own = sourcing.exchange().in_own_currency(cost);
    if own.is_none() {
        issues.push(PlanIssue::NoExchangeRate {
            place: machine.place.clone(),
            currency: cost.currency,
        });
    }
    own
}

fn key(name: &str) -> String {
    name.trim().to_lowercase()
}

#[cfg(test)]
mod tests;
