//! Figures of Student's t that were worked out before: quotes are whole days, so that a hundred thousand offers ask for the
//! same few lead times.
//!
//! Each thread keeps its own and forgets all of them when there are many; what is remembered is what would be worked out
//! again, bit by bit.

use std::cell::RefCell;
use std::collections::HashMap;
use std::thread::LocalKey;

/// Most figures of a kind that a thread remembers.
const MOST: usize = 1 << 14;

/// Figures by the bits of the numbers they follow from.
type Figures<const N: usize> = RefCell<HashMap<[u64; N], f64>>;

thread_local! {
    static MEANS: Figures<4> = RefCell::default();
    static QUANTILES: Figures<2> = RefCell::default();
}

/// A mean by location, scale, degrees of freedom and the longest that counts.
pub fn mean(of: [f64; 4], work_out: impl FnOnce() -> f64) -> f64 {
    known(&MEANS, of, work_out)
}

/// A quantile of Student's t itself by degrees of freedom and share.
pub fn quantile(of: [f64; 2], work_out: impl FnOnce() -> f64) -> f64 {
    known(&QUANTILES, of, work_out)
}

fn known<const N: usize>(
    figures: &'static LocalKey<Figures<N>>,
    of: [f64; N],
    work_out: impl FnOnce() -> f64,
) -> f64 {
    let key = of.map(f64::to_bits);
    if let Some(figure) = figures.with_borrow(|known| known.get(&key).copied()) {
        return figure;
    }
    let figure = work_out();
    figures.with_borrow_mut(|known| {
        if known.len() >= MOST {
            known.clear();
        }
        known.insert(key, figure);
    });
    figure
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    #[test]
    fn a_figure_is_worked_out_once_and_no_other_is_taken_for_it() {
        let worked_out = Cell::new(0);
        let ask = |of: [f64; 4]| {
            mean(of, || {
                worked_out.set(worked_out.get() + 1);
                of.iter().sum()
            })
        };
        // Nothing is rounded: the nearest number, another place and the other zero are others.
        let near = f64::from_bits(3.0_f64.to_bits() + 1);
        let asked = [
            [1.0, 2.0, 3.0, 4.0],
            [1.0, 2.0, near, 4.0],
            [2.0, 1.0, 3.0, 4.0],
            [0.0, 2.0, 3.0, 4.0],
            [-0.0, 2.0, 3.0, 4.0],
        ];
        for _ in 0..3 {
            for of in asked {
                let sum: f64 = of.iter().sum();
                assert_eq!(ask(of).to_bits(), sum.to_bits(), "{of:?}");
            }
        }
        assert_eq!(worked_out.get(), asked.len());
    }

    #[test]
    fn many_figures_are_forgotten_and_right_again() {
        for round in 0..2 {
            for at in 0..=MOST {
                let share = at as f64;
                let found = quantile([share, 0.5], || share / 3.0);
                assert_eq!(found.to_bits(), (share / 3.0).to_bits(), "{round} {at}");
            }
        }
        assert!(QUANTILES.with_borrow(HashMap::len) <= MOST);
    }
}
