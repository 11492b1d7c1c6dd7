//! Ordering one line twice: the earlier of two arrivals counts, and what is no longer needed is cancelled where it may be.

use super::expected::Chance;

/// An order that might be doubled.
#[derive(Debug, Clone, Copy)]
pub struct Single<'a> {
    /// The order.
    pub chance: &'a Chance,
    /// Goods, for the cancellation.
    pub goods_cents: i64,
    /// Share of the goods' price that is charged when the order is cancelled; `None` where it cannot be, or nobody says.
    pub cancel_share: Option<f64>,
}

/// Both orders placed; `None` where the second can never come first.
///
/// The one that comes second is cancelled when the first arrives: the chance that it is the second, times what is not
/// charged, comes back. Two that arrive at one moment are both paid for.
pub fn both(a: Single<'_>, b: Single<'_>) -> Option<Chance> {
    let first = |x: &[f64], y: &[f64]| {
        // Chance that x comes at a moment at which y has not come yet.
        let mut before = 0.0;
        let mut chance = 0.0;
        for (x, y) in x.iter().zip(y) {
            chance += (x - before) * (1.0 - y);
            before = *x;
        }
        chance
    };
    let (sa, sb) = (&a.chance.shares, &b.chance.shares);
    let (a_first, b_first) = (first(sa, sb), first(sb, sa));
    if a_first <= 1e-3 || b_first <= 1e-3 {
        return None;
    }
    let back = |of: &Single<'_>, chance: f64| {
        of.cancel_share
            .map_or(0.0, |share| chance * of.goods_cents as f64 * (1.0 - share))
    };
    let refund = back(&a, b_first) + back(&b, a_first);
    let mut goods = a.chance.goods.clone();
    for (supplier, value) in &b.chance.goods {
        match goods.iter_mut().find(|(of, _)| of == supplier) {
            Some((_, sum)) => *sum += value,
            None => goods.push((*supplier, *value)),
        }
    }
    Some(Chance {
        cents: a.chance.cents + b.chance.cents - refund.round() as i64,
        goods,
        shares: sa
            .iter()
            .zip(sb)
            .map(|(a, b)| 1.0 - (1.0 - a) * (1.0 - b))
            .collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn single(chance: &Chance, cancel_share: Option<f64>) -> Single<'_> {
        Single {
            chance,
            goods_cents: chance.cents,
            cancel_share,
        }
    }

    #[test]
    fn the_earlier_counts_and_the_other_is_cancelled() {
        // By hand: A by step 0 in half the cases, else by step 2; B at step 1 for sure. Together by step 0 in half the
        // cases, by step 1 in all; B is second in half the cases.
        let a = Chance {
            cents: 1_000,
            goods: vec![(0, 1_000)],
            shares: vec![0.5, 0.5, 1.0],
        };
        let b = Chance {
            cents: 2_000,
            goods: vec![(1, 2_000)],
            shares: vec![0.0, 1.0, 1.0],
        };
        let twice = both(single(&a, None), single(&b, Some(0.2))).unwrap();
        assert_eq!(twice.shares, [0.5, 1.0, 1.0]);
        assert_eq!(twice.cents, 3_000 - 800);
        assert_eq!(twice.goods, [(0, 1_000), (1, 2_000)]);
        let never = both(single(&b, None), single(&b, None));
        assert_eq!(never, None);
    }
}
