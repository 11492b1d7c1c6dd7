//! The least spend with which every line is here by a given moment, proved by branching on suppliers.

use super::dual_bound::{Bound, Decided, Node, Suppliers};
use super::problem::{Choice, Picked, Problem};

/// Parts of the problem that are looked at before the search stops and the gap is stated.
///
/// A count and not a time, so that the same input gives the same plan.
pub const MOST_NODES: usize = 4_000;

/// Steps by which the bound is raised at the root and below it.
const ROOT_ROUNDS: usize = 150;
const NODE_ROUNDS: usize = 25;

/// The cheapest found and how good it is at most.
#[derive(Debug, Clone, PartialEq)]
pub struct Cheapest {
    /// What to take; positions as in the problem.
    pub picked: Picked,
    /// No plan spends less than this.
    pub bound_cents: i64,
    /// Parts of the problem that were looked at.
    pub nodes: usize,
}

impl Cheapest {
    /// True where nothing cheaper exists.
    pub const fn is_proved(&self) -> bool {
        self.bound_cents >= self.picked.spend_cents
    }
}

struct Search<'a> {
    problem: &'a Problem,
    level: usize,
    best: Option<Picked>,
    /// Least bound of the parts that were not looked at.
    left_over: f64,
    nodes: usize,
    most_nodes: usize,
}

/// Finds the least spend with no choice above `level`; `None` where a line has no such choice.
///
/// `start` is a plan to begin from, where one is known.
pub fn cheapest(
    problem: &Problem,
    level: usize,
    start: Option<&Picked>,
    most_nodes: usize,
) -> Option<Cheapest> {
    let mut node = root(problem, level)?;
    let mut search = Search {
        problem,
        level,
        best: None,
        left_over: f64::INFINITY,
        nodes: 0,
        most_nodes,
    };
    if let Some(start) = start.filter(|start| start.level <= level) {
        search.offer(start.clone());
    }
    search.greedy(&node);
    let suppliers = search.suppliers();
    let aim = search.best_cents();
    let bound = suppliers.raise(&mut node, ROOT_ROUNDS, aim, aim - 0.5)?;
    search.branch(node, bound);
    let picked = search.best?;
    let bound_cents = search
        .left_over
        .min(picked.spend_cents as f64)
        .max(0.0)
        .ceil() as i64;
    Some(Cheapest {
        picked,
        bound_cents,
        nodes: search.nodes,
    })
}

/// A quick bound on the spend with no choice above `level`; `None` where a line has no such choice.
pub fn least_spend(problem: &Problem, level: usize, aim: f64, enough: f64) -> Option<f64> {
    let mut node = root(problem, level)?;
    let suppliers = Suppliers {
        lines: &problem.lines,
        freight: &problem.freight,
    };
    Some(suppliers.raise(&mut node, 40, aim, enough)?.cents)
}

/// Shares of the freights that raise the bound most, by line and supplier.
pub fn root_shares(problem: &Problem) -> Option<Vec<Vec<f64>>> {
    let mut node = root(problem, usize::MAX)?;
    let mut search = Search {
        problem,
        level: usize::MAX,
        best: None,
        left_over: f64::INFINITY,
        nodes: 0,
        most_nodes: 0,
    };
    search.greedy(&node);
    let aim = search.best_cents();
    let suppliers = search.suppliers();
    suppliers.raise(&mut node, 60, aim, aim - 0.5)?;
    Some(node.shares)
}

/// Choices up to a level, without those that another of the same suppliers betters.
fn root(problem: &Problem, level: usize) -> Option<Node> {
    let mut left = Vec::with_capacity(problem.lines.len());
    for line in &problem.lines {
        let mut order: Vec<usize> = (0..line.len())
            .filter(|choice| line[*choice].level <= level)
            .collect();
        // The cheaper first, the earlier of two at one price, so that a tie goes to the earlier.
        order.sort_by_key(|choice| (line[*choice].cents, line[*choice].level, *choice));
        let mut kept: Vec<usize> = Vec::new();
        for choice in order {
            let is_bettered = kept
                .iter()
                .any(|before| betters(problem, &line[*before], &line[choice]));
            if !is_bettered {
                kept.push(choice);
            }
        }
        if kept.is_empty() {
            return None;
        }
        left.push(kept);
    }
    let decided = problem
        .freight
        .iter()
        .map(|freight| {
            if freight.cents > 0 {
                Decided::Open
            } else {
                Decided::Paid
            }
        })
        .collect();
    Some(Node {
        shares: vec![vec![0.0; problem.freight.len()]; left.len()],
        left,
        decided,
    })
}

/// True where `a`, which costs no more, needs no freight that `b` does not need, nor gives up a free one.
fn betters(problem: &Problem, a: &Choice, b: &Choice) -> bool {
    a.goods.iter().all(|(supplier, value)| {
        let freight = &problem.freight[*supplier];
        let other = b.goods.iter().find(|(of, _)| of == supplier);
        match (other, freight.free_from_cents) {
            _ if freight.cents == 0 => true,
            (None, _) => false,
            (Some(_), None) => true,
            (Some((_, other)), Some(_)) => value >= other,
        }
    }) && b.goods.iter().all(|(supplier, _)| {
        let freight = &problem.freight[*supplier];
        freight.cents == 0
            || freight.free_from_cents.is_none()
            || a.goods.iter().any(|(of, _)| of == supplier)
    })
}

impl<'a> Search<'a> {
    fn suppliers(&self) -> Suppliers<'a> {
        Suppliers {
            lines: &self.problem.lines,
            freight: &self.problem.freight,
        }
    }

    fn best_cents(&self) -> f64 {
        self.best
            .as_ref()
            .map_or(f64::INFINITY, |best| best.spend_cents as f64)
    }

    fn offer(&mut self, picked: Picked) {
        let is_better = self
            .best
            .as_ref()
            .is_none_or(|best| (picked.spend_cents, picked.level) < (best.spend_cents, best.level));
        if is_better && picked.level <= self.level {
            self.best = Some(picked);
        }
    }

    /// Takes the cheapest of each line, then shuts suppliers one by one while that pays.
    fn greedy(&mut self, node: &Node) {
        let all = vec![true; self.problem.freight.len()];
        if let Some(picked) = self.within(node, &all) {
            self.shut_while_it_pays(node, picked);
        }
    }

    /// The cheapest choice of each line among some suppliers.
    fn within(&self, node: &Node, open: &[bool]) -> Option<Picked> {
        let choices: Option<Vec<usize>> = node
            .left
            .iter()
            .enumerate()
            .map(|(line, left)| {
                let of = &self.problem.lines[line];
                left.iter()
                    .copied()
                    .filter(|choice| {
                        of[*choice]
                            .goods
                            .iter()
                            .all(|(supplier, _)| open[*supplier])
                    })
                    .min_by_key(|choice| (of[*choice].cents, of[*choice].level))
            })
            .collect();
        Some(self.problem.pick(choices?))
    }

    fn shut_while_it_pays(&mut self, node: &Node, mut picked: Picked) {
        loop {
            let mut open = vec![false; self.problem.freight.len()];
            for (line, choice) in picked.choices.iter().enumerate() {
                for (supplier, _) in &self.problem.lines[line][*choice].goods {
                    open[*supplier] = true;
                }
            }
            let mut better: Option<Picked> = None;
            for supplier in 0..open.len() {
                if !open[supplier] || self.problem.freight[supplier].cents == 0 {
                    continue;
                }
                open[supplier] = false;
                if let Some(without) = self.within(node, &open) {
                    let than = better.as_ref().unwrap_or(&picked).spend_cents;
                    if without.spend_cents < than {
                        better = Some(without);
                    }
                }
                open[supplier] = true;
            }
            self.offer(picked);
            match better {
                Some(next) => picked = next,
                None => return,
            }
        }
    }

    fn branch(&mut self, node: Node, bound: Bound) {
        self.nodes += 1;
        self.take_from(&node, &bound);
        // Spends are whole cents: a better plan spends at least one less.
        if bound.cents > self.best_cents() - 1.0 + 1e-4 {
            return;
        }
        if self.nodes >= self.most_nodes {
            self.left_over = self.left_over.min(bound.cents);
            return;
        }
        for mut child in self.children(&node, &bound) {
            let best = self.best_cents();
            let suppliers = self.suppliers();
            if let Some(below) = suppliers.raise(&mut child, NODE_ROUNDS, best, best - 0.5) {
                let below = Bound {
                    cents: below.cents.max(bound.cents),
                    ..below
                };
                self.branch(child, below);
            }
        }
    }

    /// Plans near the bound's choices.
    fn take_from(&mut self, node: &Node, bound: &Bound) {
        let picked = self.problem.pick(bound.choices.clone());
        let mut open: Vec<bool> = node
            .decided
            .iter()
            .map(|decided| *decided == Decided::Paid)
            .collect();
        for (line, choice) in bound.choices.iter().enumerate() {
            for (supplier, _) in &self.problem.lines[line][*choice].goods {
                open[*supplier] = true;
            }
        }
        self.offer(picked);
        if let Some(within) = self.within(node, &open) {
            if self.nodes <= 8 {
                self.shut_while_it_pays(node, within);
            } else {
                self.offer(within);
            }
        }
    }

    /// Parts that together hold every plan of the node that could be better than its bound's own choices.
    fn children(&self, node: &Node, bound: &Bound) -> Vec<Node> {
        let count = self.problem.freight.len();
        let mut paid = vec![0.0; count];
        let mut goods = vec![0_i64; count];
        let mut is_used = vec![false; count];
        for (line, choice) in bound.choices.iter().enumerate() {
            for (supplier, value) in &self.problem.lines[line][*choice].goods {
                is_used[*supplier] = true;
                paid[*supplier] += node.shares[line][*supplier];
                goods[*supplier] += value;
            }
        }
        let unpaid = |supplier: usize| {
            let freight = &self.problem.freight[supplier];
            let doubt = if freight.free_from_cents.is_some() {
                freight.cents as f64
            } else {
                0.0
            };
            freight.cents as f64 - paid[supplier] + doubt
        };
        let worst = (0..count)
            .filter(|supplier| is_used[*supplier] && node.decided[*supplier] == Decided::Open)
            .max_by(|a, b| unpaid(*a).total_cmp(&unpaid(*b)));
        if let Some(supplier) = worst {
            return self.by_supplier(node, supplier);
        }
        // Every used supplier is decided: only a free value that is not reached can be wrong.
        let missed = (0..count).find(|supplier| {
            let from = self.problem.freight[*supplier].free_from_cents;
            node.decided[*supplier] == Decided::Free
                && from.is_some_and(|from| goods[*supplier] < from)
        });
        match missed {
            Some(supplier) => self.by_line(node, bound, supplier),
            None => Self::by_choice(node, bound),
        }
    }

    /// One line takes the bound's choice or any other: where goods went beyond a free value, less may be better.
    fn by_choice(node: &Node, bound: &Bound) -> Vec<Node> {
        let Some(line) = (0..node.left.len()).find(|line| node.left[*line].len() > 1) else {
            return Vec::new();
        };
        let chosen = bound.choices[line];
        [true, false]
            .map(|is_chosen| {
                let mut child = node.clone();
                child.left[line].retain(|choice| (*choice == chosen) == is_chosen);
                child
            })
            .into()
    }

    fn by_supplier(&self, node: &Node, supplier: usize) -> Vec<Node> {
        let with = |decided| {
            let mut child = node.clone();
            child.decided[supplier] = decided;
            child
        };
        let mut children = vec![with(Decided::Paid), with(Decided::Shut)];
        if let Some(from) = self.problem.freight[supplier].free_from_cents
            && self.most_goods(node, supplier) >= from
        {
            children.insert(0, with(Decided::Free));
        }
        children
    }

    fn most_goods(&self, node: &Node, supplier: usize) -> i64 {
        let of = |line: usize, choice: usize| goods_of(&self.problem.lines[line][choice], supplier);
        node.left
            .iter()
            .enumerate()
            .map(|(line, left)| {
                left.iter()
                    .map(|choice| of(line, *choice))
                    .max()
                    .unwrap_or(0)
            })
            .sum()
    }

    /// A line that could bring more goods to the supplier either does or does not.
    fn by_line(&self, node: &Node, bound: &Bound, supplier: usize) -> Vec<Node> {
        let from = self.problem.freight[supplier].free_from_cents.unwrap_or(0);
        let value =
            |line: usize, choice: usize| goods_of(&self.problem.lines[line][choice], supplier);
        let gain = |line: usize| {
            let now = value(line, bound.choices[line]);
            node.left[line]
                .iter()
                .map(|choice| value(line, *choice) - now)
                .max()
                .unwrap_or(0)
        };
        let line = (0..node.left.len())
            .filter(|line| gain(*line) > 0)
            .max_by_key(|line| gain(*line));
        let Some(line) = line else {
            return Vec::new();
        };
        let now = value(line, bound.choices[line]);
        let mut children = Vec::new();
        for brings_more in [true, false] {
            let mut child = node.clone();
            child.left[line].retain(|choice| (value(line, *choice) > now) == brings_more);
            if !child.left[line].is_empty() && self.most_goods(&child, supplier) >= from {
                children.push(child);
            }
        }
        children
    }
}

fn goods_of(choice: &Choice, supplier: usize) -> i64 {
    choice
        .goods
        .iter()
        .filter(|(of, _)| *of == supplier)
        .map(|(_, value)| *value)
        .sum()
}
