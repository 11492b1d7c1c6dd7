//! When each task of a rebuild goes on and ends, for likely and for late parts: what a chart of the rebuild shows.

use chrono::NaiveDateTime;

use super::needed_of;
use super::outcome::KitOutcome;
use super::task_net::TaskNet;
use super::work_clock::WorkClock;
use crate::catalogue::{Kit, Shop};
use crate::plan::calendar::Calendars;
use crate::plan::lead_time::Arrival;

/// One task in one case.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// First moment at which its parts and predecessors are there and somebody is at work.
    pub start: NaiveDateTime,
    /// When it is done.
    pub end: NaiveDateTime,
}

/// One task with likely and late parts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TaskCourse {
    /// Position in [`Kit::tasks`].
    pub task: usize,
    /// Every line at its likely moment; `None` where a line that it waits for has no known arrival.
    pub likely: Option<Stretch>,
    /// Every line at its late moment (one case in ten is later).
    pub late: Option<Stretch>,
}

/// Courses of a kit's tasks, in the order of the kit; empty where a task waits for itself or for
/// one that has no row.
///
/// A line without a task holds the tasks that have no predecessor. Tasks that do not wait for each other run beside each
/// other, as in the kit's downtime.
pub fn task_courses(shop: &Shop, kit: &Kit, outcome: &KitOutcome) -> Vec<TaskCourse> {
    // What is wrong with the tasks stands among the issues of the plan.
    let Some(net) = TaskNet::new(kit, &mut Vec::new()) else {
        return Vec::new();
    };
    let clock = WorkClock::new(&Calendars::new(&shop.settings), shop.as_of);
    let likely = stretches(kit, &net, &clock, outcome, |arrival| arrival.likely);
    let late = stretches(kit, &net, &clock, outcome, |arrival| arrival.late);
    let both = likely.into_iter().zip(late).enumerate();
    both.map(|(task, (likely, late))| TaskCourse { task, likely, late })
        .collect()
}

fn stretches(
    kit: &Kit,
    net: &TaskNet,
    clock: &WorkClock,
    outcome: &KitOutcome,
    moment: fn(&Arrival) -> NaiveDateTime,
) -> Vec<Option<Stretch>> {
    // Seconds from which a task may go on; `None` once something in its way is unknown.
    let mut from: Vec<Option<i64>> = vec![Some(0); kit.tasks.len()];
    let wait = |from: &mut Option<i64>, until: Option<i64>| {
        *from = from.zip(until).map(|(a, b)| a.max(b));
    };
    let firsts: Vec<usize> = net
        .in_order()
        .filter(|(.., before)| before.is_empty())
        .map(|(task, ..)| task)
        .collect();
    let wait_for = |from: &mut Vec<Option<i64>>, line: usize, here: Option<i64>| {
        let task = kit.lines[line].record.task.as_deref();
        match task.and_then(|name| net.position(name)) {
            Some(task) => wait(&mut from[task], here),
            None => firsts.iter().for_each(|task| wait(&mut from[*task], here)),
        }
    };
    let without = |line: &usize| needed_of(&kit.lines[*line]).is_none();
    for line in (0..kit.lines.len()).filter(without) {
        wait_for(&mut from, line, None);
    }
    for line in &outcome.lines {
        let here = if line.short > 0.0 {
            let arrival = line.arrival.as_ref();
            arrival.map(|arrival| clock.seconds(moment(arrival)))
        } else {
            Some(0)
        };
        wait_for(&mut from, line.line, here);
    }
    let mut ends: Vec<Option<i64>> = vec![None; kit.tasks.len()];
    let mut found = vec![None; kit.tasks.len()];
    for (task, work_s, before) in net.in_order() {
        for earlier in before {
            wait(&mut from[task], ends[*earlier]);
        }
        let Some(from_s) = from[task] else { continue };
        ends[task] = clock.done(from_s, work_s);
        found[task] = clock
            .done(from_s, 0)
            .zip(ends[task])
            .map(|(start, end)| Stretch {
                start: clock.moment(start),
                end: clock.moment(end),
            });
    }
    found
}
