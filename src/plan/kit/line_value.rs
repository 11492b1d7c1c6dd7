//! Which lines hold the machine, and what having one, or several together, on the shelf would have saved.
//!
//! What comes in one order comes together: a line is worth nothing on the shelf while another one still waits for the
//! same order. Apart, orders are late independently of each other; together, each is at the same share of its own cases.

use super::arrival_law::ArrivalLaw;
use super::chosen::Chosen;
use super::outcome::{Saving, SetSaving};
use super::planned::{KitPlanner, Planned};

/// Lines that are looked at in sets: those that would save most.
const MOST_LINES: usize = 8;

/// How much more a set must save than its best part to be listed, in production hours and as a share of all it saves.
const LEAST_GAIN_H: f64 = 0.5;
const LEAST_GAIN_SHARE: f64 = 0.05;

/// How lines are late.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lateness {
    /// Orders know nothing of each other.
    Apart,
    /// All orders at the same share of their cases.
    Together,
}

/// Values of the lines of one plan, by need.
pub struct LineValues {
    /// Moments of running again.
    grid: Vec<i64>,
    /// Share of cases by each moment, all lines late together; empty where a line or the tasks are unknown.
    together: Vec<f64>,
    holds: [Vec<Option<f64>>; 2],
    on_shelf: [Vec<Option<Saving>>; 2],
    sets: Vec<(Vec<usize>, Saving, Saving)>,
}

/// One arrival and the lines it holds.
struct Coming {
    law: [ArrivalLaw; 2],
    /// Position of each line and the work behind it.
    lines: Vec<(usize, i64)>,
}

/// Shares of an arrival on the grid, by line that still waits for it.
struct Laid {
    lines: Vec<(usize, i64)>,
    /// By line of the arrival, by lateness.
    shares: Vec<[Vec<f64>; 2]>,
}

impl LineValues {
    /// Works out the values; lines without a known arrival have none.
    pub fn new(planner: &KitPlanner<'_, '_>, planned: &Planned<'_>, chosen: &[Chosen<'_>]) -> Self {
        let count = planned.lines.len();
        let mut values = Self {
            grid: Vec::new(),
            together: Vec::new(),
            holds: [vec![None; count], vec![None; count]],
            on_shelf: [vec![None; count], vec![None; count]],
            sets: Vec::new(),
        };
        if planner.stakes.tasks.is_none() || !chosen.iter().all(|of| of.cover.is_covered()) {
            return values;
        }
        let base_s = planned.figures.base_s;
        let coming: Vec<Coming> = chosen
            .iter()
            .flat_map(|of| coming(planner, planned, of))
            .collect();
        let Some((grid, laid)) = laid_out(planner, &coming, base_s) else {
            return values;
        };
        let hours: Vec<f64> = grid
            .iter()
            .map(|moment| planner.stakes.clock.production_h(*moment))
            .collect();
        let mean = |left_out: &[usize], how: Lateness| {
            mean_of(&hours, &running(&laid, left_out, how, grid.len()))
        };
        let whole = |how| mean(&[], how);
        let (apart, together) = (whole(Lateness::Apart), whole(Lateness::Together));
        let saving = |left_out: &[usize], how: Lateness| {
            let whole = match how {
                Lateness::Apart => apart,
                Lateness::Together => together,
            };
            let hours = (whole - mean(left_out, how)).max(0.0);
            Saving {
                hours,
                cost: planner.cost_of(hours),
            }
        };
        for how in [Lateness::Apart, Lateness::Together] {
            values.holds[how as usize] = holds(&laid, &grid, base_s, how, count);
            let alone = (0..count).map(|at| Some(saving(&[at], how)));
            values.on_shelf[how as usize] = alone.collect();
        }
        let mut waiting: Vec<usize> = (0..count)
            .filter(|at| {
                values
                    .holds_share(*at, Lateness::Apart)
                    .is_some_and(|share| share > 0.0)
            })
            .collect();
        waiting.sort_by(|a, b| {
            let share = |at: &usize| values.holds_share(*at, Lateness::Apart).unwrap_or(0.0);
            share(b).total_cmp(&share(a)).then(a.cmp(b))
        });
        waiting.truncate(MOST_LINES);
        let alone: Vec<Saving> = (0..count)
            .map(|at| saving(&[at], Lateness::Apart))
            .collect();
        values.sets = sets(&waiting, &alone, |set| saving(set, Lateness::Apart));
        values.together = running(&laid, &[], Lateness::Together, grid.len());
        values.grid = grid;
        values
    }

    /// Share of cases in which a line is the last.
    pub fn holds_share(&self, at: usize, how: Lateness) -> Option<f64> {
        self.holds[how as usize][at]
    }

    /// What a line on the shelf would have saved.
    pub fn on_shelf(&self, at: usize, how: Lateness) -> Option<Saving> {
        self.on_shelf[how as usize][at]
    }

    /// Moments of running again with the share of cases by each, all lines late together.
    pub fn running_together(&self) -> (&[i64], &[f64]) {
        (&self.grid, &self.together)
    }

    /// Sets of lines that save more than any part of them, the most saving first.
    pub fn sets(&self, lines: &[usize]) -> Vec<SetSaving> {
        self.sets
            .iter()
            .map(|(set, together, less_one)| SetSaving {
                lines: set.iter().map(|at| lines[*at]).collect(),
                together: *together,
                less_one: *less_one,
            })
            .collect()
    }
}

/// The arrivals of one choice; of several orders for the same line the earlier counts.
fn coming(planner: &KitPlanner<'_, '_>, planned: &Planned<'_>, chosen: &Chosen<'_>) -> Vec<Coming> {
    let with_tails = |lines: &[usize]| lines.iter().map(|at| (*at, planned.tails[*at])).collect();
    if let Some(law) = planner.laws_of(chosen) {
        return vec![Coming {
            law,
            lines: with_tails(&[chosen.cover.lines[0].at]),
        }];
    }
    let arrivals = chosen.cover.arrivals().into_iter();
    arrivals
        .map(|(arrival, lines)| {
            let law = planner.stakes.law(&arrival);
            Coming {
                law: [(*law).clone(), (*law).clone()],
                lines: with_tails(&lines),
            }
        })
        .collect()
}

/// Every arrival on one grid of moments of running again; `None` where a calendar is closed for good.
fn laid_out(
    planner: &KitPlanner<'_, '_>,
    coming: &[Coming],
    base_s: i64,
) -> Option<(Vec<i64>, Vec<Laid>)> {
    let base = ArrivalLaw::certain(base_s);
    let mut laws: Vec<Vec<[ArrivalLaw; 2]>> = Vec::new();
    for of in coming {
        let mut by_line = Vec::new();
        for (_, tail) in &of.lines {
            let up = |law: &ArrivalLaw| {
                let up = law.mapped(|moment| planner.stakes.up(moment, *tail))?;
                Some(ArrivalLaw::last_of(&[&base, &up]))
            };
            by_line.push([up(&of.law[0])?, up(&of.law[1])?]);
        }
        laws.push(by_line);
    }
    let moments = laws.iter().flatten().flatten();
    let mut grid: Vec<i64> = moments
        .flat_map(ArrivalLaw::moments)
        .chain([base_s])
        .collect();
    grid.sort_unstable();
    grid.dedup();
    let laid = coming.iter().zip(&laws).map(|(of, laws)| Laid {
        lines: of.lines.clone(),
        shares: laws
            .iter()
            .map(|[apart, together]| [apart.on(&grid), together.on(&grid)])
            .collect(),
    });
    let laid = laid.collect();
    Some((grid, laid))
}

impl Laid {
    /// Shares by moment with some lines on the shelf: the work behind those that still wait counts.
    fn without(&self, left_out: &[usize], how: Lateness) -> Option<&[f64]> {
        let waiting = (0..self.lines.len()).filter(|at| !left_out.contains(&self.lines[*at].0));
        let longest = waiting.max_by_key(|at| self.lines[*at].1)?;
        Some(&self.shares[longest][how as usize])
    }
}

/// Share of cases by each moment in which the machine runs.
fn running(laid: &[Laid], left_out: &[usize], how: Lateness, moments: usize) -> Vec<f64> {
    let mut all = vec![1.0; moments];
    for shares in laid.iter().filter_map(|of| of.without(left_out, how)) {
        for (all, share) in all.iter_mut().zip(shares) {
            *all = match how {
                Lateness::Apart => *all * share,
                Lateness::Together => f64::min(*all, *share),
            };
        }
    }
    all
}

fn mean_of(hours: &[f64], shares: &[f64]) -> f64 {
    let mut before = 0.0;
    let mut mean = 0.0;
    for (hours, share) in hours.iter().zip(shares) {
        mean += hours * (share - before);
        before = *share;
    }
    mean
}

/// Chance of each line to be the last to let the machine run; ties are shared.
fn holds(
    laid: &[Laid],
    grid: &[i64],
    base_s: i64,
    how: Lateness,
    count: usize,
) -> Vec<Option<f64>> {
    let shares: Vec<&[f64]> = laid.iter().filter_map(|of| of.without(&[], how)).collect();
    let mut chance = vec![0.0; shares.len()];
    for (at, moment) in grid.iter().enumerate() {
        if *moment <= base_s {
            continue;
        }
        let steps: Vec<(f64, f64)> = shares
            .iter()
            .map(|line| (if at == 0 { 0.0 } else { line[at - 1] }, line[at]))
            .collect();
        match how {
            Lateness::Apart => last_apart(&steps, &mut chance),
            Lateness::Together => last_together(&steps, &mut chance),
        }
    }
    let mut by_line = vec![0.0; count];
    for (of, chance) in laid.iter().zip(chance) {
        let longest = of.lines.iter().map(|(_, tail)| *tail).max();
        let last = of.lines.iter().filter(|(_, tail)| Some(*tail) == longest);
        let last: Vec<usize> = last.map(|(line, _)| *line).collect();
        for line in &last {
            by_line[*line] += chance / last.len() as f64;
        }
    }
    by_line.into_iter().map(Some).collect()
}

/// Adds the cases in which all are in now and were not before, in proportion to each one's own chance of coming just now.
fn last_apart(steps: &[(f64, f64)], chance: &mut [f64]) {
    let by_now: f64 = steps.iter().map(|(_, now)| now).product();
    let by_then: f64 = steps.iter().map(|(then, _)| then).product();
    let rises: Vec<f64> = steps
        .iter()
        .map(|(then, now)| (now - then) / now.max(f64::MIN_POSITIVE))
        .collect();
    let sum: f64 = rises.iter().sum();
    if sum > 0.0 {
        for (chance, rise) in chance.iter_mut().zip(&rises) {
            *chance += (by_now - by_then) * rise / sum;
        }
    }
}

/// Adds the same where all are at one share of their cases: whoever was not in at that share a moment ago holds it.
fn last_together(steps: &[(f64, f64)], chance: &mut [f64]) {
    let least = |of: fn(&(f64, f64)) -> f64| steps.iter().map(of).fold(1.0, f64::min);
    let (by_then, by_now) = (least(|step| step.0), least(|step| step.1));
    let mut bounds: Vec<f64> = steps
        .iter()
        .map(|(then, _)| then.clamp(by_then, by_now))
        .chain([by_now])
        .collect();
    bounds.sort_by(f64::total_cmp);
    for pair in bounds.windows(2) {
        let holders: Vec<usize> = (0..steps.len())
            .filter(|at| steps[*at].0 <= pair[0])
            .collect();
        for at in &holders {
            chance[*at] += (pair[1] - pair[0]) / holders.len() as f64;
        }
    }
}

fn least_gain_h(together: &Saving) -> f64 {
    LEAST_GAIN_H.max(LEAST_GAIN_SHARE * together.hours)
}

/// Pairs and threes that save more together than the best of their parts and than their parts one by one.
fn sets(
    waiting: &[usize],
    alone: &[Saving],
    saving: impl Fn(&[usize]) -> Saving,
) -> Vec<(Vec<usize>, Saving, Saving)> {
    let mut found = Vec::new();
    let mut pairs: Vec<(Vec<usize>, Saving)> = Vec::new();
    for (first, a) in waiting.iter().enumerate() {
        for b in &waiting[first + 1..] {
            pairs.push((vec![*a, *b], saving(&[*a, *b])));
        }
    }
    for (set, together) in &pairs {
        let (a, b) = (alone[set[0]], alone[set[1]]);
        if together.hours - a.hours - b.hours > least_gain_h(together) {
            let best = if a.hours >= b.hours { a } else { b };
            found.push((set.clone(), *together, best));
        }
    }
    for (first, a) in waiting.iter().enumerate() {
        for (second, b) in waiting.iter().enumerate().skip(first + 1) {
            for c in &waiting[second + 1..] {
                let set = vec![*a, *b, *c];
                let together = saving(&set);
                let parts = pairs
                    .iter()
                    .filter(|(pair, _)| pair.iter().all(|at| set.contains(at)));
                let best = parts
                    .map(|(_, saving)| *saving)
                    .max_by(|a, b| a.hours.total_cmp(&b.hours));
                let sum: f64 = set.iter().map(|at| alone[*at].hours).sum();
                if let Some(best) = best
                    && together.hours - sum > least_gain_h(&together)
                    && together.hours - best.hours > least_gain_h(&together)
                {
                    found.push((set, together, best));
                }
            }
        }
    }
    found.sort_by(|a, b| b.1.hours.total_cmp(&a.1.hours).then(a.0.cmp(&b.0)));
    found.truncate(5);
    for (set, ..) in &mut found {
        set.sort_unstable();
    }
    found
}
