//! The curve of what money buys, most gain for the money first.

use std::cmp::Ordering;
use std::collections::BinaryHeap;
use std::collections::binary_heap::PeekMut;

/// Gain of one more unit of an item, each no larger than the one before.
pub trait Gains {
    /// Gain of the next unit; 0 where there is none.
    fn gain(&self) -> f64;
    /// Takes the next unit.
    fn take(&mut self);
}

/// Waiting saved by one more spare of an item with Poisson demand.
///
/// # Source
/// Sherbrooke, METRIC, Operations Research 16:122-141 (1968): the s-th spare saves P(demand >= s).
#[derive(Debug, Clone, Copy)]
pub struct PoissonGains {
    mean: f64,
    units: f64,
    share: f64,
    at_most: f64,
}

impl PoissonGains {
    /// An item with no spare yet; `mean` units in the lead time.
    pub fn new(mean: f64) -> Self {
        let share = (-mean).exp();
        Self {
            mean,
            units: 0.0,
            share,
            at_most: share,
        }
    }
}

impl Gains for PoissonGains {
    fn gain(&self) -> f64 {
        1.0 - self.at_most
    }

    fn take(&mut self) {
        self.units += 1.0;
        self.share *= self.mean / self.units;
        self.at_most += self.share;
    }
}

/// Gains that were worked out before.
#[derive(Debug, Clone)]
pub struct ListedGains {
    gains: Vec<f64>,
    taken: usize,
}

impl ListedGains {
    /// Gains of the first, second, ... unit.
    pub const fn new(gains: Vec<f64>) -> Self {
        Self { gains, taken: 0 }
    }
}

impl Gains for ListedGains {
    fn gain(&self) -> f64 {
        self.gains.get(self.taken).copied().unwrap_or(0.0)
    }

    fn take(&mut self) {
        self.taken += 1;
    }
}

/// One step of the curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurveStep {
    /// Position of the item that gets one more unit.
    pub item: usize,
    /// What it gains.
    pub gain: f64,
    /// Money spent so far, this step included.
    pub spent: f64,
}

struct Offer {
    per_money: f64,
    item: u32,
}

impl PartialEq for Offer {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Offer {}

impl PartialOrd for Offer {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Offer {
    fn cmp(&self, other: &Self) -> Ordering {
        self.per_money
            .total_cmp(&other.per_money)
            .then(other.item.cmp(&self.item))
    }
}

/// Walks the curve, most gain for the money first, until the next unit does not fit the budget or gains `least_gain` or
/// less; gives each step.
///
/// Exact at every sum it lands on, not between them (Fox, Management Science 13:210-216, 1966).
pub fn budget_curve<G: Gains>(
    items: &mut [(f64, G)],
    budget: f64,
    least_gain: f64,
    mut step: impl FnMut(CurveStep),
) {
    let offer = |(at, (cost, gains)): (usize, &(f64, G))| Offer {
        per_money: gains.gain() / cost,
        item: at as u32,
    };
    let mut offers: BinaryHeap<Offer> = items.iter().enumerate().map(offer).collect();
    let mut spent = 0.0;
    while let Some(mut best) = offers.peek_mut() {
        let item = best.item as usize;
        let (cost, gains) = &mut items[item];
        let gain = gains.gain();
        if gain <= least_gain {
            PeekMut::pop(best);
            continue;
        }
        if spent + *cost > budget {
            break;
        }
        spent += *cost;
        gains.take();
        step(CurveStep { item, gain, spent });
        best.per_money = gains.gain() / *cost;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn walked(budget: f64, least_gain: f64) -> Vec<(usize, f64)> {
        // Gains for the money by hand: 3 and 1/3 of the first, 5/3 of the second, 2 of the third.
        let mut items = [
            (3.0, ListedGains::new(vec![9.0, 1.0])),
            (3.0, ListedGains::new(vec![5.0])),
            (2.0, ListedGains::new(vec![4.0])),
        ];
        let mut steps = Vec::new();
        budget_curve(&mut items, budget, least_gain, |step| {
            steps.push((step.item, step.spent));
        });
        steps
    }

    #[test]
    fn the_curve_takes_most_gain_for_the_money_first() {
        assert_eq!(
            walked(100.0, 0.0),
            [(0, 3.0), (2, 5.0), (1, 8.0), (0, 11.0)]
        );
    }

    #[test]
    fn the_curve_ends_at_the_first_unit_that_does_not_fit() {
        assert_eq!(walked(7.9, 0.0), [(0, 3.0), (2, 5.0)]);
        assert_eq!(walked(2.9, 0.0), []);
    }

    #[test]
    fn units_that_gain_too_little_are_left_out() {
        assert_eq!(walked(100.0, 4.5), [(0, 3.0), (1, 6.0)]);
    }
}
