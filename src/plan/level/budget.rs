//! The best set that a sum of money buys, proved.

/// An item of which some units may be bought.
#[derive(Debug, Clone, PartialEq)]
pub struct BudgetItem {
    /// Price of a unit, cents.
    pub cents: i64,
    /// Gain of the first, second, ... step, of each unit of it no more than of one of the step before.
    pub gains: Vec<f64>,
    /// Units of each step: 1, or more where so many must be bought at once to gain anything.
    pub units: Vec<i64>,
}

impl BudgetItem {
    /// One of which any number of units may be bought.
    pub fn one_by_one(cents: i64, gains: Vec<f64>) -> Self {
        let units = vec![1; gains.len()];
        Self {
            cents,
            gains,
            units,
        }
    }

    /// True where all steps cost the same, so that any of them stand for the first ones.
    fn is_even(&self) -> bool {
        self.units.windows(2).all(|two| two[0] == two[1])
    }

    /// What the first steps gain, so many of them.
    fn gain_of(&self, steps: usize) -> f64 {
        self.gains.iter().take(steps).sum()
    }
}

/// The best set for one sum.
#[derive(Debug, Clone, PartialEq)]
pub struct BestSet {
    /// Units of each item.
    pub units: Vec<i64>,
    /// Money spent, cents.
    pub cents: i64,
    /// What it gains.
    pub gain: f64,
    /// No set of whole steps gains more than this; equal to `gain` where the set is proved best.
    pub bound: f64,
}

/// Partial sets kept before the search gives up its proof.
const MOST_SETS: usize = 3_000_000;

/// One step that may be bought: mostly a unit.
#[derive(Debug, Clone, Copy)]
struct Unit {
    cents: i64,
    gain: f64,
    item: usize,
    /// Position among the steps of its item.
    step: usize,
}

/// Units in the order of gain for the money, with running sums for bounds.
struct Ordered {
    units: Vec<Unit>,
    cents: Vec<i64>,
    gain: Vec<f64>,
}

impl Ordered {
    fn new(mut units: Vec<Unit>) -> Self {
        units.sort_by(|a, b| {
            (b.gain * a.cents as f64)
                .total_cmp(&(a.gain * b.cents as f64))
                .then(a.item.cmp(&b.item))
        });
        let (mut cents, mut gain) = (vec![0], vec![0.0]);
        for unit in &units {
            cents.push(cents[cents.len() - 1] + unit.cents);
            gain.push(gain[gain.len() - 1] + unit.gain);
        }
        Self { units, cents, gain }
    }

    /// Gain of whole units from `from` on in order until one does not fit, where that is, and the gain with a part of it.
    fn fill(&self, from: usize, cents: i64) -> (f64, usize, f64) {
        let end = self
            .cents
            .partition_point(|sum| *sum <= self.cents[from] + cents)
            - 1;
        let whole = self.gain[end] - self.gain[from];
        let left = cents - (self.cents[end] - self.cents[from]);
        let part = self
            .units
            .get(end)
            .map_or(0.0, |unit| unit.gain * left as f64 / unit.cents as f64);
        (whole, end, whole + part)
    }
}

/// The set of units that gains most for a sum.
///
/// Each step is a thing of its own: where those of an item cost the same and gain less and less, the best set never takes the
/// second without the first. Steps that no better set can lack or hold are fixed by bounds first; the rest is a list of
/// partial sets of which none costs more and gains less than another. Where the steps of an item cost unlike sums, a small
/// later one may be left without the one before it; it is then given back, and the sum filled up by gain for the money: such
/// a set is no longer proved, and `bound` says how far from the best it may be.
///
/// # Source
/// Nemhauser & Ullmann, Management Science 15:494-505 (1969); fixing by bounds: Martello & Toth, Knapsack Problems (1990),
/// ch. 2, from memory.
pub fn best_set(items: &[BudgetItem], cents: i64) -> BestSet {
    let mut free = Vec::new();
    let mut units = Vec::new();
    for (item, listed) in items.iter().enumerate() {
        let mut left = cents;
        let steps = listed.gains.iter().zip(&listed.units).enumerate();
        for (step, (gain, of_step)) in steps.filter(|(_, (gain, _))| **gain > 0.0) {
            let unit = Unit {
                cents: listed.cents.saturating_mul(*of_step),
                gain: *gain,
                item,
                step,
            };
            left = left.saturating_sub(unit.cents);
            if unit.cents <= 0 {
                free.push(unit);
            } else if left < 0 {
                break;
            } else {
                units.push(unit);
            }
        }
    }
    let ordered = Ordered::new(units);
    let mut search = Search::new(&ordered, cents);
    search.try_each_first();
    let kept = search.fix();
    search.extend(&kept);
    let mut taken = vec![Vec::new(); items.len()];
    let chosen = search.best.iter().map(|at| &ordered.units[*at]);
    for unit in free.iter().chain(chosen) {
        taken[unit.item].push(unit.step);
    }
    let missed = (search.bound - search.gain).max(0.0);
    first_steps(items, &ordered, taken, (cents, missed))
}

/// The set of the first steps of each item that a search took any steps of, and of what money is left over for more.
fn first_steps(
    items: &[BudgetItem],
    ordered: &Ordered,
    mut taken: Vec<Vec<usize>>,
    (cents, missed): (i64, f64),
) -> BestSet {
    let mut relaxed = 0.0;
    let mut is_whole = true;
    let mut counts: Vec<usize> = Vec::with_capacity(items.len());
    for (item, steps) in items.iter().zip(&mut taken) {
        if item.is_even() {
            // Of equal gains the search may have taken the second.
            counts.push(steps.len());
            relaxed += item.gain_of(steps.len());
            continue;
        }
        steps.sort_unstable();
        relaxed += steps.iter().map(|step| item.gains[*step]).sum::<f64>();
        let first = steps.iter().zip(0..).take_while(|(step, at)| **step == *at);
        let count = first.count();
        is_whole &= count == steps.len();
        counts.push(count);
    }
    let units_of =
        |(item, count): (&BudgetItem, &usize)| -> i64 { item.units.iter().take(*count).sum() };
    let units = |counts: &[usize]| -> Vec<i64> { items.iter().zip(counts).map(units_of).collect() };
    let spent = |counts: &[usize]| -> i64 {
        let each = items.iter().zip(units(counts));
        each.map(|(item, units)| item.cents * units).sum()
    };
    if !is_whole {
        let mut left = cents - spent(&counts);
        for unit in &ordered.units {
            let count = &mut counts[unit.item];
            let is_next = *count == unit.step;
            if is_next && unit.cents <= left {
                *count += 1;
                left -= unit.cents;
            }
        }
    }
    let gain = items.iter().zip(&counts);
    BestSet {
        units: units(&counts),
        cents: spent(&counts),
        gain: gain.map(|(item, count)| item.gain_of(*count)).sum(),
        bound: relaxed + missed,
    }
}

struct Search<'a> {
    ordered: &'a Ordered,
    cents: i64,
    /// Positions of the best set known.
    best: Vec<usize>,
    gain: f64,
    /// Gain that no set exceeds.
    bound: f64,
    /// Difference that does not count.
    slack: f64,
}

/// A partial set: money, gain, and the last unit taken with the set before it.
#[derive(Debug, Clone, Copy)]
struct Partial {
    cents: i64,
    gain: f64,
    from: u32,
    unit: u32,
}

impl<'a> Search<'a> {
    fn new(ordered: &'a Ordered, cents: i64) -> Self {
        let total = ordered.gain[ordered.gain.len() - 1];
        Self {
            ordered,
            cents,
            best: Vec::new(),
            gain: 0.0,
            bound: 0.0,
            slack: 1e-13 * total,
        }
    }

    /// Fills up in order with one unit taken first, for each unit, and keeps the best.
    fn try_each_first(&mut self) {
        const MOST_TRIALS: usize = 3_000;
        let units = &self.ordered.units;
        let (_, middle, _) = self.ordered.fill(0, self.cents);
        let near =
            middle.saturating_sub(MOST_TRIALS / 2)..(middle + MOST_TRIALS / 2).min(units.len());
        let firsts = std::iter::once(None).chain(near.map(Some));
        for first in firsts {
            let mut left = self.cents - first.map_or(0, |at| units[at].cents);
            let mut gain = first.map_or(0.0, |at| units[at].gain);
            let mut taken: Vec<usize> = first.into_iter().collect();
            for (at, unit) in units.iter().enumerate() {
                if Some(at) != first && unit.cents <= left {
                    left -= unit.cents;
                    gain += unit.gain;
                    taken.push(at);
                }
            }
            if gain > self.gain {
                self.gain = gain;
                self.best = taken;
            }
        }
    }

    /// Units whose place is open: the others are certain to be in or out of every better set.
    fn fix(&self) -> Vec<(usize, Option<bool>)> {
        let (_, middle, bound) = self.ordered.fill(0, self.cents);
        let may_be_better = |gain: f64| gain > self.gain + self.slack;
        let open = |at: usize, unit: &Unit| {
            let change = if at < middle {
                // Without it: its money buys at the middle's rate at most.
                let rate = self
                    .ordered
                    .units
                    .get(middle)
                    .map_or(0.0, |unit| unit.gain / unit.cents as f64);
                bound - unit.gain + rate * unit.cents as f64
            } else {
                let rate = self
                    .ordered
                    .units
                    .get(middle)
                    .map_or(0.0, |unit| unit.gain / unit.cents as f64);
                bound + unit.gain - rate * unit.cents as f64
            };
            if may_be_better(change) {
                None
            } else {
                Some(at < middle)
            }
        };
        self.ordered
            .units
            .iter()
            .enumerate()
            .map(|(at, unit)| (at, open(at, unit)))
            .collect()
    }

    /// Goes through the open units, keeping the partial sets that may still lead to a better one.
    fn extend(&mut self, places: &[(usize, Option<bool>)]) {
        let certain: Vec<usize> = of_place(places, Some(true));
        let open = Ordered::new(
            of_place(places, None)
                .into_iter()
                .map(|at| Unit {
                    item: at,
                    ..self.ordered.units[at]
                })
                .collect(),
        );
        let spent: i64 = certain.iter().map(|at| self.ordered.units[*at].cents).sum();
        let gained: f64 = certain.iter().map(|at| self.ordered.units[*at].gain).sum();
        self.bound = self.gain;
        if spent > self.cents {
            return;
        }
        let room = self.cents - spent;
        let none = Partial {
            cents: 0,
            gain: 0.0,
            from: u32::MAX,
            unit: u32::MAX,
        };
        let mut all = vec![none];
        let mut front = vec![0_u32];
        let mut better: Option<(u32, usize, usize)> = None;
        for at in 0..open.units.len() {
            let unit = open.units[at];
            let mut with = Vec::with_capacity(front.len());
            for id in &front {
                let set = all[*id as usize];
                if set.cents + unit.cents <= room {
                    with.push(all.len() as u32);
                    all.push(Partial {
                        cents: set.cents + unit.cents,
                        gain: set.gain + unit.gain,
                        from: *id,
                        unit: at as u32,
                    });
                }
            }
            front = undominated(&all, &front, &with);
            front.retain(|id| {
                let set = all[*id as usize];
                let (whole, end, most) = open.fill(at + 1, room - set.cents);
                if gained + set.gain + whole > self.gain + self.slack {
                    self.gain = gained + set.gain + whole;
                    better = Some((*id, at + 1, end));
                }
                gained + set.gain + most > self.gain + self.slack
            });
            if all.len() > MOST_SETS {
                let (_, _, bound) = self.ordered.fill(0, self.cents);
                self.bound = bound;
                break;
            }
        }
        if let Some((mut id, from, end)) = better {
            self.best = certain;
            self.best.extend((from..end).map(|at| open.units[at].item));
            while let Some(set) = all.get(id as usize).filter(|set| set.unit != u32::MAX) {
                self.best.push(open.units[set.unit as usize].item);
                id = set.from;
            }
        }
        self.bound = self.bound.max(self.gain);
    }
}

fn of_place(places: &[(usize, Option<bool>)], place: Option<bool>) -> Vec<usize> {
    places
        .iter()
        .filter(|(_, found)| *found == place)
        .map(|(at, _)| *at)
        .collect()
}

/// Merges two lists of sets, each by money, leaving out those that cost no less and gain no more than another.
fn undominated(all: &[Partial], without: &[u32], with: &[u32]) -> Vec<u32> {
    let mut merged: Vec<u32> = Vec::with_capacity(without.len() + with.len());
    let (mut a, mut b) = (without.iter().peekable(), with.iter().peekable());
    let mut most = f64::NEG_INFINITY;
    loop {
        let from_a = match (a.peek(), b.peek()) {
            (Some(x), Some(y)) => {
                let (x, y) = (all[**x as usize], all[**y as usize]);
                (x.cents, -x.gain) <= (y.cents, -y.gain)
            }
            (Some(_), None) => true,
            (None, Some(_)) => false,
            (None, None) => return merged,
        };
        let next = if from_a { a.next() } else { b.next() };
        if let Some(id) = next
            && all[*id as usize].gain > most
        {
            most = all[*id as usize].gain;
            merged.push(*id);
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::{Gains, PoissonGains};
    use super::*;

    /// Every set of first steps, one by one.
    fn brute(items: &[BudgetItem], cents: i64) -> f64 {
        let Some((first, rest)) = items.split_first() else {
            return 0.0;
        };
        let mut best = f64::NEG_INFINITY;
        let mut gain = 0.0;
        for steps in 0..=first.gains.len() {
            let spent = first.cents * first.units[..steps].iter().sum::<i64>();
            if spent > cents {
                break;
            }
            best = best.max(gain + brute(rest, cents - spent));
            gain += first.gains.get(steps).copied().unwrap_or(0.0);
        }
        best
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

        #[test]
        fn the_best_set_is_found_for_small_budgets(
            items in proptest::collection::vec((1_i64..60, 0.05_f64..4.0), 1..7),
            cents in 1_i64..150,
        ) {
            let items: Vec<BudgetItem> = items
                .into_iter()
                .map(|(cents, mean)| {
                    let mut gains = PoissonGains::new(mean);
                    let listed = (0..5).map(|_| { let gain = gains.gain(); gains.take(); gain }).collect();
                    BudgetItem::one_by_one(cents, listed)
                })
                .collect();
            let found = best_set(&items, cents);
            let spent: i64 = items.iter().zip(&found.units).map(|(item, units)| item.cents * units).sum();
            prop_assert!(spent <= cents && spent == found.cents);
            prop_assert!((found.gain - brute(&items, cents)).abs() < 1e-9);
            prop_assert!((found.bound - found.gain).abs() < 1e-9, "proved");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

        #[test]
        fn steps_of_several_units_are_bought_whole_and_in_order(
            items in proptest::collection::vec((1_i64..40, proptest::collection::vec((1_i64..5, 0.05_f64..1.0), 1..4)), 1..6),
            cents in 1_i64..250,
        ) {
            let items: Vec<BudgetItem> = items
                .into_iter()
                .map(|(cents, mut steps)| {
                    // What a unit gains falls from step to step.
                    steps.sort_by(|a, b| b.1.total_cmp(&a.1));
                    let gains = steps.iter().map(|(units, each)| *units as f64 * each).collect();
                    BudgetItem { cents, gains, units: steps.into_iter().map(|(units, _)| units).collect() }
                })
                .collect();
            let found = best_set(&items, cents);
            let mut spent = 0;
            let mut gain = 0.0;
            for (item, units) in items.iter().zip(&found.units) {
                let reached = item.units.iter().scan(0, |sum, of| { *sum += of; Some(*sum) });
                let steps = reached.take_while(|sum| sum <= units).count();
                prop_assert_eq!(item.units[..steps].iter().sum::<i64>(), *units);
                spent += item.cents * units;
                gain += item.gains[..steps].iter().sum::<f64>();
            }
            prop_assert!(spent <= cents && spent == found.cents);
            prop_assert!((gain - found.gain).abs() < 1e-9);
            let best = brute(&items, cents);
            prop_assert!(found.gain <= best + 1e-9 && best <= found.bound + 1e-9);
        }
    }

    #[test]
    fn a_small_later_step_is_not_bought_without_the_first() {
        // Four at once gain 4.0 and a fifth 0.9; the other item's one gains 0.5, each unit at 1 cent. With 3 cents the fifth
        // alone would gain most and means nothing: only the other one can be bought. With 4 cents the four, with 5 the fifth too
        // and not the other (by hand).
        let items = [
            BudgetItem {
                cents: 1,
                gains: vec![4.0, 0.9],
                units: vec![4, 1],
            },
            BudgetItem::one_by_one(1, vec![0.5]),
        ];
        let units = [3, 4, 5, 6].map(|cents| best_set(&items, cents).units);
        assert_eq!(units, [[0, 1], [4, 0], [5, 0], [5, 1]]);
    }
}
