//! The purchase problem in figures: what each line can be covered by, freight per supplier, cost of standing still.

use std::cmp::Ordering;

use crate::plan::freight::Freight;

/// One way of covering one line (or several lines that draw on the same sources).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// Goods and surcharges, freight left out.
    pub cents: i64,
    /// Suppliers that are ordered from, with the value of goods that counts towards free freight.
    pub goods: Vec<(usize, i64)>,
    /// Position in [`Problem::level_cents`]: how long this choice alone would hold the machine.
    pub level: usize,
}

/// Lines, suppliers and moments for fixed lead times.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Choices of each line; one is taken of each.
    pub lines: Vec<Vec<Choice>>,
    /// Freight by supplier.
    pub freight: Vec<Freight>,
    /// Cost of standing still until each moment, in order of the moments and never falling.
    pub level_cents: Vec<i64>,
}

/// One choice for every line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picked {
    /// Position of the choice, by line.
    pub choices: Vec<usize>,
    /// Goods, surcharges and freight.
    pub spend_cents: i64,
    /// The latest of the choices' levels.
    pub level: usize,
}

impl Problem {
    /// Adds up a choice for every line.
    pub fn pick(&self, choices: Vec<usize>) -> Picked {
        let mut goods: Vec<Option<i64>> = vec![None; self.freight.len()];
        let (mut spend_cents, mut level) = (0_i64, 0);
        for (line, choice) in self.lines.iter().zip(&choices) {
            let choice = &line[*choice];
            spend_cents = spend_cents.saturating_add(choice.cents);
            level = level.max(choice.level);
            for (supplier, value) in &choice.goods {
                *goods[*supplier].get_or_insert(0) += value;
            }
        }
        for (freight, goods) in self.freight.iter().zip(goods) {
            spend_cents = spend_cents.saturating_add(goods.map_or(0, |goods| freight.of(goods)));
        }
        Picked {
            choices,
            spend_cents,
            level,
        }
    }

    /// Spend and cost of standing still.
    pub fn total_cents(&self, picked: &Picked) -> i64 {
        let still = self.level_cents.get(picked.level).copied().unwrap_or(0);
        picked.spend_cents.saturating_add(still)
    }

    /// The cheaper in total, then the one that runs earlier, then the first found.
    pub fn compare(&self, a: &Picked, b: &Picked) -> Ordering {
        (self.total_cents(a), a.level).cmp(&(self.total_cents(b), b.level))
    }

    /// Tries every combination; `None` where a line has no choice or there are more than `most` combinations.
    ///
    /// For small kits and for checking the other way of solving.
    pub fn try_all(&self, most: usize) -> Option<Picked> {
        let mut count = 1_usize;
        for line in &self.lines {
            count = count
                .checked_mul(line.len())
                .filter(|count| *count <= most)?;
        }
        if count == 0 {
            return None;
        }
        let mut best: Option<Picked> = None;
        for number in 0..count {
            let mut rest = number;
            let choices = self.lines.iter().map(|line| {
                let choice = rest % line.len();
                rest /= line.len();
                choice
            });
            let picked = self.pick(choices.collect());
            if best
                .as_ref()
                .is_none_or(|best| self.compare(&picked, best) == Ordering::Less)
            {
                best = Some(picked);
            }
        }
        best
    }
}
