//! Plans ranked by exact expected cost: spend plus the mean cost of standing still until the last line is in.
//!
//! The mean is exact for lines that know nothing of each other's lateness: the product of their shares on one grid of
//! moments. A bound from below says how far the best found can be from the best there is.

use super::problem::{Choice, Problem};
use crate::plan::freight::Freight;

/// Parts of the problem that are looked at before the search stops and the gap is stated.
pub const MOST_PARTS: usize = 3_000;

/// A choice with its share of cases at each moment of the grid.
#[derive(Debug, Clone, PartialEq)]
pub struct Chance {
    /// Goods, surcharges and work.
    pub cents: i64,
    /// Value of goods by supplier.
    pub goods: Vec<(usize, i64)>,
    /// Share of cases in which it no longer holds the machine, by moment; never falls, ends at 1.
    pub shares: Vec<f64>,
}

/// Lines, suppliers and moments for uncertain lead times.
#[derive(Debug, Clone, PartialEq)]
pub struct Chances {
    /// Choices of each line; one is taken of each.
    pub lines: Vec<Vec<Chance>>,
    /// Freight by supplier.
    pub freight: Vec<Freight>,
    /// Cost of standing still until each moment, in cents, never falling.
    pub still_cents: Vec<f64>,
}

/// The best plan found by expected cost.
#[derive(Debug, Clone, PartialEq)]
pub struct BestExpected {
    /// Position of the choice, by line.
    pub choices: Vec<usize>,
    /// Spend and mean cost of standing still, in cents.
    pub cents: f64,
    /// No plan's expected cost is below this.
    pub bound_cents: f64,
}

impl BestExpected {
    /// True where nothing better exists, to a thousand-millionth of the sum.
    pub fn is_proved(&self) -> bool {
        self.bound_cents >= self.cents - self.cents.abs() * 1e-9 - 1e-6
    }
}

impl Chances {
    /// Mean cost of standing still where the share of cases by each moment is given.
    pub fn still(&self, shares: &[f64]) -> f64 {
        self.still_at_worst() - sum_of_products(&self.steps(), shares)
    }

    /// Cost of standing still until the last moment.
    fn still_at_worst(&self) -> f64 {
        self.still_cents.last().copied().unwrap_or(0.0)
    }

    /// What being in by each moment saves against the next one.
    fn steps(&self) -> Vec<f64> {
        let pairs = self.still_cents.windows(2);
        pairs.map(|costs| costs[1] - costs[0]).collect()
    }

    /// Share of cases by each moment in which all chosen lines are in.
    pub fn product(&self, choices: &[usize]) -> Vec<f64> {
        let mut all = vec![1.0; self.still_cents.len()];
        for (line, choice) in self.lines.iter().zip(choices) {
            times(&mut all, &line[*choice].shares);
        }
        all
    }

    /// Goods, surcharges, work and freight.
    pub fn spend(&self, choices: &[usize]) -> i64 {
        let mut goods: Vec<Option<i64>> = vec![None; self.freight.len()];
        let mut cents = 0_i64;
        for (line, choice) in self.lines.iter().zip(choices) {
            cents = cents.saturating_add(line[*choice].cents);
            for (supplier, value) in &line[*choice].goods {
                *goods[*supplier].get_or_insert(0) += value;
            }
        }
        for (freight, goods) in self.freight.iter().zip(goods) {
            cents = cents.saturating_add(goods.map_or(0, |goods| freight.of(goods)));
        }
        cents
    }

    /// Expected cost of a choice for every line.
    pub fn expected(&self, choices: &[usize]) -> f64 {
        self.spend(choices) as f64 + self.still(&self.product(choices))
    }

    /// Finds the best from some plans to start with; `None` where a line has no choice.
    ///
    /// Lines are improved one at a time, then two at a time where they are few, then the rest is searched with a bound.
    pub fn best(&self, starts: &[Vec<usize>], most_parts: usize) -> Option<BestExpected> {
        if self.lines.iter().any(Vec::is_empty) {
            return None;
        }
        let cheapest = |line: &Vec<Chance>| (0..line.len()).min_by_key(|at| line[*at].cents);
        let first: Option<Vec<usize>> = self.lines.iter().map(cheapest).collect();
        let mut best: Option<(f64, Vec<usize>)> = None;
        for start in starts.iter().cloned().chain(first) {
            let improved = self.improved(start);
            if best
                .as_ref()
                .is_none_or(|(cents, _)| improved.0 < *cents - 1e-6)
            {
                best = Some(improved);
            }
        }
        let (cents, choices) = best?;
        let mut search = Search::new(self, cents, choices, most_parts);
        let all = vec![1.0; self.still_cents.len()];
        search.next(0, 0, &all, &mut vec![false; self.freight.len()]);
        let best = BestExpected {
            bound_cents: search.left_over.min(search.cents),
            cents: search.cents,
            choices: search.choices,
        };
        Some(best)
    }

    /// Changes one line at a time while that pays.
    fn improved(&self, mut choices: Vec<usize>) -> (f64, Vec<usize>) {
        let mut cents = self.expected(&choices);
        let steps = self.steps();
        loop {
            let before = cents;
            for line in 0..choices.len() {
                if self.lines[line].len() < 2 {
                    continue;
                }
                let mut saved_by_others = steps.clone();
                for (other, choice) in choices.iter().enumerate() {
                    if other != line {
                        times(&mut saved_by_others, &self.lines[other][*choice].shares);
                    }
                }
                let kept = choices[line];
                let mut least = (cents, kept);
                for choice in 0..self.lines[line].len() {
                    choices[line] = choice;
                    let shares = &self.lines[line][choice].shares;
                    let saved = sum_of_products(&saved_by_others, shares);
                    let with = self.spend(&choices) as f64 + self.still_at_worst() - saved;
                    if with < least.0 - 1e-6 {
                        least = (with, choice);
                    }
                }
                choices[line] = least.1;
                cents = least.0;
            }
            if cents >= before - 1e-6 {
                return (cents, choices);
            }
        }
    }

    /// Tries every combination, for checking.
    #[cfg(test)]
    pub fn try_all(&self) -> f64 {
        let count: usize = self.lines.iter().map(Vec::len).product();
        (0..count)
            .map(|number| {
                let mut rest = number;
                let choices: Vec<usize> = self
                    .lines
                    .iter()
                    .map(|line| {
                        let choice = rest % line.len();
                        rest /= line.len();
                        choice
                    })
                    .collect();
                self.expected(&choices)
            })
            .fold(f64::INFINITY, f64::min)
    }
}

/// Lines in an order of search, the dearest to wait for first.
struct Search<'a> {
    of: &'a Chances,
    order: Vec<usize>,
    /// Best that the lines from a position on could do: what each moment saves times the shares of the earliest of every choice.
    saved_by_rest: Vec<Vec<f64>>,
    /// By line, choice and supplier of the choice: the part of the freight that the line stands for in the bound.
    freight_shares: Vec<Vec<Vec<f64>>>,
    cents: f64,
    choices: Vec<usize>,
    now: Vec<usize>,
    left_over: f64,
    parts: usize,
    most_parts: usize,
}

impl<'a> Search<'a> {
    fn new(of: &'a Chances, cents: f64, choices: Vec<usize>, most_parts: usize) -> Self {
        let steps = of.steps();
        let alone = |line: &Vec<Chance>| {
            line.iter()
                .map(|choice| of.still_at_worst() - sum_of_products(&steps, &choice.shares))
                .fold(f64::INFINITY, f64::min)
        };
        let alone: Vec<f64> = of.lines.iter().map(alone).collect();
        let mut order: Vec<usize> = (0..of.lines.len()).collect();
        order.sort_by(|a, b| alone[*b].total_cmp(&alone[*a]).then(a.cmp(b)));
        let mut envelope = vec![vec![1.0; of.still_cents.len()]; order.len() + 1];
        for at in (0..order.len()).rev() {
            let mut earliest = vec![0.0; of.still_cents.len()];
            for choice in &of.lines[order[at]] {
                for (best, share) in earliest.iter_mut().zip(&choice.shares) {
                    *best = f64::max(*best, *share);
                }
            }
            times(&mut earliest, &envelope[at + 1]);
            envelope[at] = earliest;
        }
        let saved_by_rest = envelope
            .into_iter()
            .map(|mut shares| {
                times(&mut shares, &steps);
                shares.truncate(steps.len());
                shares
            })
            .collect();
        Self {
            of,
            order,
            saved_by_rest,
            freight_shares: freight_shares(of),
            cents,
            choices,
            now: Vec::new(),
            left_over: f64::INFINITY,
            parts: 0,
            most_parts,
        }
    }

    /// Goes on with the line at a position; `goods` are cents of the lines before, `used` the suppliers they need.
    fn next(&mut self, at: usize, goods_cents: i64, shares: &[f64], used: &mut Vec<bool>) {
        if at == self.order.len() {
            let choices = self.placed(&self.now);
            let cents = self.of.spend(&choices) as f64 + self.of.still(shares);
            if cents < self.cents - 1e-6 {
                self.cents = cents;
                self.choices = choices;
            }
            return;
        }
        self.parts += 1;
        let line = self.order[at];
        // What each moment saves once this line is in, if the lines behind it come as early as they could.
        let mut saved = self.saved_by_rest[at + 1].clone();
        times(&mut saved, shares);
        let mut turn: Vec<(f64, usize)> = Vec::new();
        for (choice, of) in self.of.lines[line].iter().enumerate() {
            let opened = opened(of, used);
            let goods_cents = goods_cents.saturating_add(of.cents);
            let least = self.least_spend(at + 1, goods_cents, used);
            close(used, &opened);
            let bound = least + self.of.still_at_worst() - sum_of_products(&saved, &of.shares);
            if bound < self.cents - 1e-6 {
                turn.push((bound, choice));
            }
        }
        turn.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (bound, choice) in turn {
            if bound >= self.cents - 1e-6 {
                break;
            }
            if self.parts >= self.most_parts {
                self.left_over = self.left_over.min(bound);
                break;
            }
            let of = &self.of.lines[line][choice];
            let opened = opened(of, used);
            let mut with = shares.to_vec();
            times(&mut with, &of.shares);
            self.now.push(choice);
            self.next(at + 1, goods_cents.saturating_add(of.cents), &with, used);
            self.now.pop();
            close(used, &opened);
        }
    }

    /// No plan with the lines so far spends less: each line of the rest is as cheap as each of its choices could be.
    fn least_spend(&self, at: usize, goods_cents: i64, used: &[bool]) -> f64 {
        let mut cents = goods_cents as f64;
        for (supplier, is_used) in used.iter().enumerate() {
            if *is_used && self.of.freight[supplier].free_from_cents.is_none() {
                cents += self.of.freight[supplier].cents as f64;
            }
        }
        for line in &self.order[at..] {
            let least = self.of.lines[*line]
                .iter()
                .enumerate()
                .map(|(choice, of)| {
                    let freight: f64 = of
                        .goods
                        .iter()
                        .zip(&self.freight_shares[*line][choice])
                        .filter(|((supplier, _), _)| !used[*supplier])
                        .map(|(_, share)| share)
                        .sum();
                    of.cents as f64 + freight
                })
                .fold(f64::INFINITY, f64::min);
            cents += least;
        }
        cents
    }

    fn placed(&self, in_turn: &[usize]) -> Vec<usize> {
        let mut choices = vec![0; in_turn.len()];
        for (line, choice) in self.order.iter().zip(in_turn) {
            choices[*line] = *choice;
        }
        choices
    }
}

/// By line, choice and supplier of the choice: the part of the freight that the line stands for in the bound.
fn freight_shares(of: &Chances) -> Vec<Vec<Vec<f64>>> {
    let problem = Problem {
        lines: of
            .lines
            .iter()
            .map(|line| {
                line.iter()
                    .map(|choice| Choice {
                        cents: choice.cents,
                        goods: choice.goods.clone(),
                        level: 0,
                    })
                    .collect()
            })
            .collect(),
        freight: of
            .freight
            .iter()
            .map(|freight| Freight {
                // Freight that may be free counts for nothing here.
                cents: if freight.free_from_cents.is_some() {
                    0
                } else {
                    freight.cents
                },
                free_from_cents: None,
            })
            .collect(),
        level_cents: vec![0],
    };
    let shares = super::cheapest::root_shares(&problem);
    of.lines
        .iter()
        .enumerate()
        .map(|(line, choices)| {
            choices
                .iter()
                .map(|choice| {
                    let of_supplier = |(supplier, _): &(usize, i64)| {
                        shares
                            .as_ref()
                            .map_or(0.0, |shares| shares[line][*supplier])
                    };
                    choice.goods.iter().map(of_supplier).collect()
                })
                .collect()
        })
        .collect()
}

/// Marks the suppliers that a choice is the first to need, and names them.
fn opened(of: &Chance, used: &mut [bool]) -> Vec<usize> {
    let suppliers = of.goods.iter().map(|(supplier, _)| *supplier);
    suppliers
        .filter(|supplier| !std::mem::replace(&mut used[*supplier], true))
        .collect()
}

/// Takes the marks of [`opened`] back.
fn close(used: &mut [bool], opened: &[usize]) {
    for supplier in opened {
        used[*supplier] = false;
    }
}

fn times(all: &mut [f64], shares: &[f64]) {
    for (all, share) in all.iter_mut().zip(shares) {
        *all *= share;
    }
}

/// Sum of the products of two rows, four at a time: as far as the shorter goes.
fn sum_of_products(one: &[f64], other: &[f64]) -> f64 {
    let length = one.len().min(other.len());
    let ((ones, one_left), (others, other_left)) = (
        one[..length].as_chunks::<4>(),
        other[..length].as_chunks::<4>(),
    );
    let mut lanes = [0.0; 4];
    for (one, other) in ones.iter().zip(others) {
        for lane in 0..4 {
            lanes[lane] += one[lane] * other[lane];
        }
    }
    let left = one_left.iter().zip(other_left);
    left.fold(lanes.iter().sum(), |sum, (one, other)| sum + one * other)
}
