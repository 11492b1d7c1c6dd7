//! Tasks in order, each waiting for its parts, and what their machine's downtime costs.

use std::collections::{BTreeMap, BTreeSet};

use crate::catalogue::{Kit, NameKey, Shop};
use crate::plan::issue::PlanIssue;
use crate::plan::sourcing::Sourcing;
use crate::units::Money;

/// Tasks of one kit, ready to be scheduled any number of times.
#[derive(Debug, Clone)]
pub struct TaskNet {
    /// Hours and predecessors of each task, in an order in which predecessors come first.
    order: Vec<usize>,
    hours: Vec<f64>,
    predecessors: Vec<Vec<usize>>,
    by_name: BTreeMap<String, usize>,
    /// By task: its own seconds and those of the longest chain after it.
    tails: Vec<i64>,
}

impl TaskNet {
    /// Sorts the tasks of a kit; `None` with an issue where a task waits for itself, or for one that has no row: how much work
    /// that is, and what it waits for in its turn, nobody can say.
    pub fn new(kit: &Kit, issues: &mut Vec<PlanIssue>) -> Option<Self> {
        let by_name: BTreeMap<String, usize> = kit
            .tasks
            .iter()
            .enumerate()
            .rev()
            .map(|(position, task)| (key(&task.task), position))
            .collect();
        let (mut predecessors, mut is_whole) = (Vec::with_capacity(kit.tasks.len()), true);
        for task in &kit.tasks {
            let mut before = Vec::new();
            for name in &task.predecessors {
                match by_name.get(&key(name)) {
                    Some(position) => before.push(*position),
                    None => {
                        is_whole = false;
                        issues.push(PlanIssue::NoSuchPredecessor {
                            place: task.place.clone(),
                            kit: kit.name.clone(),
                            task: name.clone(),
                        });
                    }
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
        if kit.tasks.is_empty() {
            let of_task = kit.lines.iter().find(|line| line.record.task.is_some());
            issues.extend(
                of_task
                    .or(kit.lines.first())
                    .map(|line| PlanIssue::NoTasks {
                        place: line.record.place.clone(),
                        kit: kit.name.clone(),
                    }),
            );
        }
        for line in kit.lines.iter().filter(|_| !kit.tasks.is_empty()) {
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
        let hours: Vec<f64> = kit.tasks.iter().map(|task| task.hours.max(0.0)).collect();
        is_whole.then(|| Self {
            tails: tails(&order, &hours, &predecessors),
            order,
            hours,
            predecessors,
            by_name,
        })
    }

    /// Hours of work in all tasks.
    pub fn work_h(&self) -> f64 {
        self.hours.iter().fold(0.0, |sum, quantity| sum + quantity)
    }

    /// Seconds of work on the longest chain of tasks.
    pub fn longest_s(&self) -> i64 {
        self.tails.iter().copied().max().unwrap_or(0)
    }

    /// Seconds of work from the start of a task to the end of the longest chain from it on.
    ///
    /// Without a task, or with one the kit has not, those of the tasks that have no predecessor. Tasks that do not wait
    /// for each other run beside each other. 0 without tasks.
    pub fn tail_s(&self, task: Option<&str>) -> i64 {
        match task.and_then(|name| self.position(name)) {
            Some(task) => self.tails[task],
            None => self.longest_s(),
        }
    }

    /// Tasks in an order in which predecessors come first: position, seconds of work, positions of its predecessors.
    pub fn in_order(&self) -> impl Iterator<Item = (usize, i64, &[usize])> {
        self.order.iter().map(|task| {
            let work_s = (self.hours[*task] * 3600.0).round() as i64;
            (*task, work_s, &*self.predecessors[*task])
        })
    }

    /// Position of a task by its name.
    pub fn position(&self, name: &str) -> Option<usize> {
        self.by_name.get(&key(name)).copied()
    }
}

/// True where the work of a kit is known: no task waits for one that has no row.
pub fn has_whole_work(kit: &Kit) -> bool {
    let names: BTreeSet<String> = kit.tasks.iter().map(|task| key(&task.task)).collect();
    let mut waited_for = kit.tasks.iter().flat_map(|task| &task.predecessors);
    waited_for.all(|name| names.contains(&key(name)))
}

/// By task: its own seconds and those of the longest chain after it.
fn tails(order: &[usize], hours: &[f64], predecessors: &[Vec<usize>]) -> Vec<i64> {
    let mut after = vec![0_i64; hours.len()];
    let mut tails = vec![0_i64; hours.len()];
    for task in order.iter().rev() {
        tails[*task] = after[*task] + (hours[*task] * 3600.0).round() as i64;
        for before in &predecessors[*task] {
            after[*before] = after[*before].max(tails[*task]);
        }
    }
    tails
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
