//! A bound from below on the spend: each supplier's freight is shared out among the lines that might pay it.
//!
//! # Source
//! The dual of the uncapacitated facility location problem in its tight form (Erlenkotter, A dual-based procedure for
//! uncapacitated facility location, Oper. Res. 26:992-1009, 1978), raised here by projected subgradients (Held, Wolfe
//! & Crowder, Math. Program. 6:62-88, 1974; both from memory). Any shares that are not negative and add up to no more
//! than the freight give a bound, so rounding never makes it wrong.

use super::problem::Choice;
use crate::plan::freight::Freight;

/// What is decided about a supplier.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Decided {
    /// Nothing yet.
    Open,
    /// Nothing is ordered there.
    Shut,
    /// Its freight is paid for.
    Paid,
    /// Goods reach the value from which freight is free.
    Free,
}

/// A part of the problem: which choices are left and what is decided about the suppliers.
#[derive(Debug, Clone)]
pub struct Node {
    /// Choices left, by line.
    pub left: Vec<Vec<usize>>,
    /// By supplier.
    pub decided: Vec<Decided>,
    /// Share of each supplier's freight that a line stands for: by line, then supplier.
    pub shares: Vec<Vec<f64>>,
}

/// A bound and the choices it rests on.
#[derive(Debug, Clone)]
pub struct Bound {
    /// No plan of the node spends less, in cents.
    pub cents: f64,
    /// The choice that was least for each line, by position in its list.
    pub choices: Vec<usize>,
}

/// Lines and suppliers the bound is worked out for.
#[derive(Debug, Clone, Copy)]
pub struct Suppliers<'a> {
    /// Choices by line.
    pub lines: &'a [Vec<Choice>],
    /// Freight by supplier.
    pub freight: &'a [Freight],
}

impl Suppliers<'_> {
    /// The bound for the node's shares; `None` where a line has no choice left.
    ///
    /// `prices` are cents per cent of goods for suppliers that must reach their free value.
    pub fn bound(&self, node: &Node, prices: &[f64]) -> Option<Bound> {
        let mut cents = 0.0;
        for (supplier, decided) in node.decided.iter().enumerate() {
            match decided {
                Decided::Paid => cents += self.freight[supplier].cents as f64,
                Decided::Free => {
                    let from = self.freight[supplier].free_from_cents.unwrap_or(0);
                    cents += prices[supplier] * from as f64;
                }
                Decided::Open | Decided::Shut => {}
            }
        }
        let mut choices = Vec::with_capacity(node.left.len());
        for (line, left) in node.left.iter().enumerate() {
            let mut least: Option<(f64, usize)> = None;
            for choice in left {
                let cost = self.cost(node, prices, line, *choice);
                if cost.is_some_and(|cost| least.is_none_or(|(least, _)| cost < least - 1e-9)) {
                    least = cost.map(|cost| (cost, *choice));
                }
            }
            let (cost, choice) = least?;
            cents += cost;
            choices.push(choice);
        }
        Some(Bound { cents, choices })
    }

    /// Cost of a choice with its share of freights; `None` where a supplier is shut.
    ///
    /// Freight that may become free counts as falling evenly to nothing at the free value: never more than is paid.
    fn cost(&self, node: &Node, prices: &[f64], line: usize, choice: usize) -> Option<f64> {
        let choice = &self.lines[line][choice];
        let mut cost = choice.cents as f64;
        for (supplier, goods) in &choice.goods {
            match node.decided[*supplier] {
                Decided::Shut => return None,
                Decided::Paid => {}
                Decided::Free => cost -= prices[*supplier] * *goods as f64,
                Decided::Open => {
                    cost += node.shares[line][*supplier];
                    let freight = &self.freight[*supplier];
                    if let Some(from) = freight.free_from_cents.filter(|from| *from > 0) {
                        cost -= freight.cents as f64 * *goods as f64 / from as f64;
                    }
                }
            }
        }
        Some(cost)
    }

    /// Raises the bound by moving shares and prices; keeps the best shares in the node.
    ///
    /// Stops early where the bound reaches `enough`.
    pub fn raise(&self, node: &mut Node, rounds: usize, aim: f64, enough: f64) -> Option<Bound> {
        let mut prices = vec![0.0; self.freight.len()];
        let mut best = self.bound(node, &prices)?;
        let mut best_shares: Option<Vec<Vec<f64>>> = None;
        let mut desk = Desk::new(self.freight.len());
        let mut now = best.clone();
        let (mut pace, mut since) = (1.0, 0);
        for _ in 0..rounds {
            if best.cents >= enough {
                break;
            }
            let gap = (aim - now.cents).max(1.0);
            if !self.step(node, &mut prices, &now, gap * pace, &mut desk) {
                break;
            }
            now = self.bound(node, &prices)?;
            if now.cents > best.cents + 1e-6 {
                best = now.clone();
                best_shares.get_or_insert_default().clone_from(&node.shares);
                since = 0;
            } else {
                since += 1;
                if since % 4 == 0 {
                    pace *= 0.6;
                }
            }
        }
        if let Some(shares) = best_shares {
            node.shares = shares;
        }
        Some(best)
    }

    /// One step along the subgradient; false where it is nil.
    fn step(
        &self,
        node: &mut Node,
        prices: &mut [f64],
        at: &Bound,
        gap: f64,
        desk: &mut Desk,
    ) -> bool {
        let suppliers = self.freight.len();
        desk.clear();
        let Desk {
            users,
            goods,
            values,
        } = desk;
        for (line, choice) in at.choices.iter().enumerate() {
            for (supplier, value) in &self.lines[line][*choice].goods {
                users[*supplier].push(line);
                goods[*supplier] += value;
            }
        }
        let mut square = 0.0;
        for supplier in 0..suppliers {
            match node.decided[supplier] {
                Decided::Open if self.freight[supplier].cents > 0 => {
                    square += users[supplier].len() as f64;
                }
                Decided::Free => {
                    let from = self.freight[supplier].free_from_cents.unwrap_or(0);
                    square += ((from - goods[supplier]) as f64).powi(2) / 1e8;
                }
                _ => {}
            }
        }
        if square <= 0.0 {
            return false;
        }
        let length = gap / square;
        for supplier in 0..suppliers {
            match node.decided[supplier] {
                Decided::Open if !users[supplier].is_empty() => {
                    for line in &users[supplier] {
                        node.shares[*line][supplier] += length;
                    }
                    let freight = self.freight[supplier].cents as f64;
                    project(node, supplier, freight, values);
                }
                Decided::Free => {
                    let from = self.freight[supplier].free_from_cents.unwrap_or(0);
                    let slope = (from - goods[supplier]) as f64 / 1e8;
                    prices[supplier] = (prices[supplier] + length * slope).clamp(0.0, 10.0);
                }
                _ => {}
            }
        }
        true
    }
}

/// Room for the sums of one step, kept from step to step: a kit takes thousands of them.
struct Desk {
    /// Lines whose least choice buys from each supplier.
    users: Vec<Vec<usize>>,
    /// Value of what they buy there.
    goods: Vec<i64>,
    /// Shares of one supplier.
    values: Vec<f64>,
}

impl Desk {
    fn new(suppliers: usize) -> Self {
        Self {
            users: vec![Vec::new(); suppliers],
            goods: vec![0; suppliers],
            values: Vec::new(),
        }
    }

    fn clear(&mut self) {
        self.users.iter_mut().for_each(Vec::clear);
        self.goods.fill(0);
    }
}

/// Moves the shares of a supplier to the nearest that are not negative and add up to no more than the freight.
fn project(node: &mut Node, supplier: usize, freight: f64, values: &mut Vec<f64>) {
    let shares = node.shares.iter().map(|line| line[supplier]);
    values.clear();
    values.extend(shares.filter(|share| *share > 0.0));
    let sum = values.iter().fold(0.0, |sum, value| sum + value);
    if sum <= freight {
        return;
    }
    values.sort_by(|a, b| b.total_cmp(a));
    let (mut reached, mut cut) = (0.0, 0.0);
    for (at, value) in values.iter().enumerate() {
        reached += value;
        let try_cut = (reached - freight) / (at + 1) as f64;
        if *value - try_cut > 0.0 {
            cut = try_cut;
        } else {
            break;
        }
    }
    for line in &mut node.shares {
        line[supplier] = (line[supplier] - cut).max(0.0);
    }
    // Rounding must not let the shares exceed the freight.
    let sum = node
        .shares
        .iter()
        .map(|line| line[supplier])
        .fold(0.0, |sum, share| sum + share);
    if sum > freight && sum > 0.0 {
        for line in &mut node.shares {
            line[supplier] *= freight / sum;
        }
    }
}
