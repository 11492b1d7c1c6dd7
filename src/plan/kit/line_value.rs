//! Which lines hold the machine, and what having one, or several together, on the shelf would have saved.

use super::arrival_law::ArrivalLaw;
use super::outcome::{Saving, SetSaving};
use super::planner::{Chosen, KitPlanner, Planned};

/// Lines that are looked at in sets: those that would save most.
const MOST_LINES: usize = 8;

/// How much more a set must save than its best part to be listed, in production hours and as a share of all it saves.
const LEAST_GAIN_H: f64 = 0.5;
const LEAST_GAIN_SHARE: f64 = 0.05;

/// Values of the lines of one plan, by need.
pub struct LineValues {
    holds: Vec<Option<f64>>,
    on_shelf: Vec<Option<Saving>>,
    sets: Vec<(Vec<usize>, Saving, Saving)>,
}

impl LineValues {
    /// Works out the values on the moments of the kit; lines without a known arrival have none.
    pub fn new(planner: &KitPlanner<'_, '_>, planned: &Planned<'_>, chosen: &[Chosen<'_>]) -> Self {
        let figures = &planned.figures;
        let count = planned.lines.len();
        let mut none = Self {
            holds: vec![None; count],
            on_shelf: vec![None; count],
            sets: Vec::new(),
        };
        let mut shares: Vec<Vec<f64>> = vec![Vec::new(); count];
        for of in chosen {
            for cover in &of.cover.lines {
                if cover.uncovered > 1e-9 {
                    return none;
                }
                let also = of.also.map_or(&[][..], |also| &also.lines[0].supplies[..]);
                let law = planner.law_of(&cover.supplies, also);
                let tail = planned.tails[cover.at];
                let base = ArrivalLaw::certain(figures.base_s);
                let Some(up) = law.mapped(|moment| planner.stakes.up(moment, tail)) else {
                    return none;
                };
                shares[cover.at] = ArrivalLaw::last_of(&[&base, &up]).on(&figures.grid);
            }
        }
        if planner.stakes.tasks.is_none() {
            return none;
        }
        let mean_without = |left_out: &[usize]| {
            let mut all = vec![1.0; figures.grid.len()];
            for (at, line) in shares.iter().enumerate() {
                if !left_out.contains(&at) {
                    for (all, share) in all.iter_mut().zip(line) {
                        *all *= share;
                    }
                }
            }
            // The machine never runs before the work itself is done.
            for (all, moment) in all.iter_mut().zip(&figures.grid) {
                if *moment < figures.base_s {
                    *all = 0.0;
                }
            }
            planner.mean_h(figures, &all)
        };
        let whole = mean_without(&[]);
        let saving = |left_out: &[usize]| {
            let hours = (whole - mean_without(left_out)).max(0.0);
            Saving {
                hours,
                cost: planner.cost_of(hours),
            }
        };
        none.holds = holds(&shares, &figures.grid, figures.base_s);
        let alone: Vec<Saving> = (0..count).map(|at| saving(&[at])).collect();
        none.on_shelf = alone.iter().map(|saving| Some(*saving)).collect();
        let mut waiting: Vec<usize> = (0..count)
            .filter(|at| shares[*at].first().is_some_and(|share| *share < 1.0))
            .collect();
        waiting.sort_by(|a, b| {
            let share = |at: &usize| none.holds[*at].unwrap_or(0.0);
            share(b).total_cmp(&share(a)).then(a.cmp(b))
        });
        waiting.truncate(MOST_LINES);
        none.sets = sets(&waiting, &alone, saving);
        none
    }

    /// Share of cases in which a line is the last.
    pub fn holds_share(&self, at: usize) -> Option<f64> {
        self.holds[at]
    }

    /// What a line on the shelf would have saved.
    pub fn on_shelf(&self, at: usize) -> Option<Saving> {
        self.on_shelf[at]
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

/// Chance of each line to be the last to let the machine run; ties are shared.
fn holds(shares: &[Vec<f64>], grid: &[i64], base_s: i64) -> Vec<Option<f64>> {
    let mut chance = vec![0.0; shares.len()];
    for (at, moment) in grid.iter().enumerate() {
        if *moment <= base_s {
            continue;
        }
        let before = |line: &Vec<f64>| if at == 0 { 0.0 } else { line[at - 1] };
        let by_now: f64 = shares.iter().map(|line| line[at]).product();
        let by_then: f64 = shares.iter().map(before).product();
        let ends_here = by_now - by_then;
        // In proportion to each line's own chance of coming just now.
        let rises: Vec<f64> = shares
            .iter()
            .map(|line| (line[at] - before(line)) / line[at].max(f64::MIN_POSITIVE))
            .collect();
        let sum: f64 = rises.iter().sum();
        if sum > 0.0 {
            for (chance, rise) in chance.iter_mut().zip(&rises) {
                *chance += ends_here * rise / sum;
            }
        }
    }
    chance.into_iter().map(Some).collect()
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
